"""Noting what a job took: step by step, and how the next estimate uses it."""

from __future__ import annotations

import os
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

import pytest
from click.testing import CliRunner

from bellowscut import noting
from bellowscut.cli import main
from bellowscut.errors import OutputError, UsageError
from bellowscut.job_book import Entry, read
from bellowscut.profile import load
from bellowscut.workshop import NONE

TREBLE = "six-sided-treble"


def answers(*given: str) -> Iterator[str]:
    yield from given


def asked(job: str, *given: str) -> tuple[list[str], tuple[Entry, ...]]:
    """The prompts of a questioning, and what was noted."""
    prompts: list[str] = []
    rest = answers(*given)

    def reply(prompt: str) -> str:
        prompts.append(prompt)
        try:
            return next(rest)
        except StopIteration:
            raise EOFError from None

    done = noting.job_done(load(TREBLE), job, (), NONE)
    return prompts, noting.asked(done, prompts.append, reply, "2026-01-02")


def test_it_asks_every_step_in_order_and_then_leather() -> None:
    steps = 7
    prompts, entries = asked("patches", "12", "", "20.5", "ten", "10", "", "", "", "0.9 dm2")
    questions = [prompt for prompt in prompts if prompt.endswith("? ")]
    assert questions[0] == "look over, photograph, air test (15 min reckoned)? "
    assert len(set(questions)) == steps + 1
    assert questions[-1].startswith("gusset skin: area used up (0.3 dm2 reckoned)")
    assert [(one.what, one.took) for one in entries] == [
        ("look-over", Decimal(12)),
        ("clean-corners", Decimal("20.5")),
        ("cut-patches", Decimal(10)),
        ("gusset skin", Decimal(9000)),
    ]
    assert any("should be a number over 0" in prompt for prompt in prompts)
    assert {(one.date, one.job, one.instrument, one.copies) for one in entries} == {("2026-01-02", "patches", load(TREBLE).name, 1)}


def test_instruments_alike_are_noted_together() -> None:
    done = noting.job_done(load("oblong-three-alike"), "regusset", (), NONE)
    (entry,) = noting.given(done, ["glue-gussets=400"], [], "2026-01-02")
    assert (entry.copies, entry.pieces) == (3, 96)


def test_nothing_is_noted_when_the_answers_break_off() -> None:
    with pytest.raises(noting.Stopped, match="nothing was noted"):
        asked("patches", "12", "20")


def test_pieces_and_areas_are_those_of_the_job() -> None:
    done = noting.job_done(load(TREBLE), "regusset", (), NONE)
    glue, leather = noting.given(done, ["glue-gussets = 150"], ["gusset skin=7.1 dm2"], "")
    assert (glue.pieces, leather.pieces) == (42, 48)
    assert leather.net_area == pytest.approx(sum(part.area * part.pieces for part in done.drafted.parts if "gusset" in part.kind))
    assert glue.date.count("-") == 2


def test_from_the_command_line_to_the_next_estimate(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Glued in 150 minutes instead of 120: half an hour more, which is 14.00 at 28.00 an hour."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "bench.toml").write_text('job_book = "jobs.csv"\n', encoding="utf-8")

    def run(*words: str) -> str:
        done = CliRunner().invoke(main, [*words, "--workshop", "bench.toml"], prog_name="bellowscut")
        assert done.exit_code == 0, done.output
        return done.output

    before = run("check", TREBLE, "--job", "regusset")
    assert "invented minutes" in before
    run("job-book", TREBLE, "--job", "regusset", "--minutes", "glue-gussets=150")
    assert [one.what for one in read(tmp_path / "jobs.csv")] == ["glue-gussets"]
    after = run("check", TREBLE, "--job", "regusset")
    assert "380.33 GBP" in before
    assert "394.33 GBP" in after
    assert "1 of 19 steps by the median in your job book" in " ".join(after.split())
    quoted = run("quote", TREBLE, "--job", "regusset")
    assert "394.33 GBP" in quoted
    assert "1 in the job book" in " ".join(quoted.split())


def test_asking_at_the_terminal(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    words = ["job-book", TREBLE, "--job", "patches", "--date", "2026-03-04"]
    done = CliRunner().invoke(main, words, input="14\n" + "\n" * 7)
    assert done.exit_code == 0, done.output
    assert "2026-03-04" in (tmp_path / "job-book.csv").read_text(encoding="utf-8")
    again = CliRunner().invoke(main, words, input="\n" * 8)
    assert again.exit_code == 2
    assert "nothing to note" in again.output
    assert len(read(tmp_path / "job-book.csv")) == 1


def test_a_book_that_cannot_be_written_is_told_before_anything_is_asked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder without rights; whoever runs the tests may have every right."""
    with pytest.raises(UsageError, match="no folder"):
        noting.bench_and_book(None, tmp_path / "none" / "book.csv")
    seen: list[Path] = []

    def access(path: Path, mode: int) -> bool:
        if mode == os.F_OK:
            return path.exists()
        seen.append(path)
        return False

    monkeypatch.setattr(os, "access", access)
    with pytest.raises(OutputError, match="book.csv: cannot be written: Permission denied"):
        noting.bench_and_book(None, tmp_path / "book.csv")
    (tmp_path / "book.csv").touch()
    with pytest.raises(OutputError, match="Permission denied"):
        noting.bench_and_book(None, tmp_path / "book.csv")
    assert seen == [tmp_path, tmp_path / "book.csv"]


def test_what_was_answered_is_told_when_the_disk_refuses_it(tmp_path: Path) -> None:
    entry = Entry("2026-01-02", "A box, oblong", "patches", 1, "look-over", 0, 0.0, Decimal("12.5"), "min")
    (tmp_path / "file").touch()
    with pytest.raises(OutputError, match="cannot be written") as caught:
        noting.note(tmp_path / "file" / "book.csv", [entry])
    assert str(caught.value).splitlines()[1:] == [
        "These lines were to be noted:",
        '2026-01-02,"A box, oblong",patches,1,look-over,,,12.5,min',
    ]

"""Commands against input that nobody means: each ends with exit 0, 1 or 2 and a line that a person reads, never with a traceback.

`CliRunner` keeps an exception that a user would see as a traceback; everything
but an ordinary exit is one.
"""

from __future__ import annotations

import builtins
import errno
import io
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from bellowscut import __main__ as program, cli
from bellowscut.bellows import build
from bellowscut.cli import main
from bellowscut.errors import ProfileError
from bellowscut.keys import keys_of
from bellowscut.materials import Material
from bellowscut.profile import loads
from bellowscut.schema import TABLES
from bellowscut.workshop import BenchSpec, loads as load_workshop
from tests.conftest import FIVE_LINES

PAST_ALL_POWERS = "1e999999999999999999999"
"""More than a machine counts powers of ten; the next are as small, as long, and as long in base sixteen."""

NUMBERS = (
    PAST_ALL_POWERS,
    "-1e-999999999999999999999",
    "1e-999999",
    "0e-999999999",
    "1.5" + "0" * 5000,
    "0x" + "f" * 5000,
    "nan",
    "9" * 4000,
)


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "good.toml").write_text(FIVE_LINES)
    (tmp_path / "named.toml").write_text('name = "Größe ♪"\n' + FIVE_LINES, encoding="utf-8")
    (tmp_path / "flat.toml").write_text(FIVE_LINES + '[materials."gusset skin"]\noutline = [[0, 0], [100, 0], [300, 0]]\n')
    (tmp_path / "bow.toml").write_text(FIVE_LINES + '[materials."gusset skin"]\noutline = [[0, 0], [400, 300], [400, 0], [0, 300]]\n')
    (tmp_path / "huge.toml").write_text(FIVE_LINES + f"[costs]\nlabour_rate = {PAST_ALL_POWERS}\n")
    (tmp_path / "long.toml").write_text(FIVE_LINES.replace("folds = 6", f"folds = {'9' * 5000}"))
    (tmp_path / "hours.toml").write_text(f"[minutes]\nclean = {PAST_ALL_POWERS}\n")
    (tmp_path / "small.toml").write_text("[minutes]\nclean = 1e-999999\nassemble = [0e-999999999, 1e-30]\n")
    (tmp_path / "tax.toml").write_text("[costs]\nlabour_rate = 0e999999999\ntax = 1e-999999\nmargin = 1e-30\nminimum_charge = 1e-30\n")
    return tmp_path


def run(*words: str, given: str | None = None) -> Result:
    result = CliRunner().invoke(main, list(words), prog_name="bellowscut", input=given)
    assert result.exception is None or isinstance(result.exception, SystemExit), repr(result.exception)
    return result


ROWS: tuple[tuple[str, int, str], ...] = (
    ("check flat.toml", 2, "encloses no area"),
    ("make bow.toml", 2, "encloses no area"),
    ("quote flat.toml", 2, "encloses no area"),
    ("layout bow.toml", 2, "encloses no area"),
    ("check huge.toml", 2, "labour_rate"),
    ("check long.toml", 2, "long.toml:7: does not read as TOML: a number has more digits than any size needs"),
    ("check good.toml --workshop hours.toml", 2, "minutes.clean"),
    ("quote six-sided-treble --workshop hours.toml", 2, "minutes.clean"),
    ("quote six-sided-treble --workshop small.toml", 2, "too many decimals"),
    ("quote six-sided-treble --workshop tax.toml", 2, "too many decimals"),
    ("quote --like square-box --condition leaky --value 1e-30", 2, "is no amount"),
    (f"quote six-sided-treble --value {PAST_ALL_POWERS}", 2, "is no amount"),
    ("quote six-sided-treble --value 0.00001", 2, "is no amount"),
    ("quote --like square-box --condition leaky --value 0.01", 0, "Between"),
    (f"make good.toml --flatten {PAST_ALL_POWERS}", 2, "flatten"),
    (f"make good.toml --paper {'9' * 400}x{'9' * 400}", 2, "paper"),
    (f"measuring-sheet --sides {'9' * 5000}", 2, "sides"),
    (f"layout good.toml --seconds {PAST_ALL_POWERS}", 2, "seconds"),
    ("job-book good.toml --minutes assemble=1e999999999999999999999", 2, "assemble"),
    ("job-book good.toml", 1, "nothing was noted"),
    ("new fresh.toml", 1, "nothing was written"),
)


@pytest.mark.parametrize(("words", "code", "told"), ROWS, ids=[row[0][:60] for row in ROWS])
def test_hostile_words(bench: Path, words: str, code: int, told: str) -> None:
    before = set(bench.rglob("*"))
    result = run(*words.split(), given="")
    assert result.exit_code == code, result.output
    assert told in (result.stderr if code else result.stdout)
    assert all(len(line) < 20_000 for line in result.output.splitlines())
    assert set(bench.rglob("*")) == before or not code


def test_files_named_as_what_ships_change_neither_list_nor_prices(bench: Path) -> None:
    told = [run(*words.split()).stdout for words in ("profiles", "quote --like square-box --condition good")]
    for name in ("six-sided-treble", "square-box"):
        (bench / name).write_text(FIVE_LINES)
    assert [run(*words.split()).stdout for words in ("profiles", "quote --like square-box --condition good")] == told


def _lines() -> list[tuple[str, str]]:
    places = [(table.name, name) for table in TABLES for name, _, _ in keys_of(table.spec)]
    return [*places, *(('materials."gusset skin"', name) for name, _, _ in keys_of(Material)), ("minutes", "clean")]


@pytest.mark.parametrize(("table", "name"), _lines(), ids=lambda text: text)
def test_no_number_in_any_key_breaks_a_profile(table: str, name: str) -> None:
    """Each number alone and as a list; what is taken is worked out as well."""
    head = FIVE_LINES.partition("[section]")[0]
    usual = {"section": {"shape": '"regular"', "sides": "6", "end_size": '"6 1/4 in"'}, "bellows": {"folds": "6", "fold_depth": "25"}}
    for number in NUMBERS:
        for value in (number, f"[{number}, {number}, {number}]"):
            tables = {**usual, table: {**usual.get(table, {}), name: value}}
            text = head + "".join(f"[{one}]\n" + "".join(f"{key} = {said}\n" for key, said in keys.items()) for one, keys in tables.items())
            _sound_or_refused(text, lambda text: build(loads(text)))


@pytest.mark.parametrize(
    ("table", "name"), [("", name) for name in BenchSpec.__dataclass_fields__] + [("costs", "labour_rate"), ("minutes", "clean")]
)
def test_no_number_breaks_a_workshop_file(table: str, name: str) -> None:
    for number in NUMBERS:
        _sound_or_refused((f"[{table}]\n" if table else "") + f"{name} = {number}\n", load_workshop)


def _sound_or_refused(text: str, work: Callable[[str], object]) -> None:
    lines: tuple[str, ...] = ()
    try:
        work(text)
    except ProfileError as error:
        lines = error.lines()
    assert all(line.isprintable() and len(line) < 1000 for line in lines)


def test_noughts_without_end_are_cut_off() -> None:
    """As written to six decimals, so that neither sums nor `profile.toml` carry them on."""
    made = loads(FIVE_LINES + f"[costs]\nlabour_rate = 28.0\nminimum_charge = 0e-999999999\n[minutes]\nclean = 2.5{'0' * 5000}\n")
    assert str(made.costs.labour_rate) == "28.0"
    assert str(made.costs.minimum_charge) == "0.000000"
    assert str(made.minutes["clean"][0]) == "2.500000"


class Broken(io.StringIO):
    """An output that takes a few lines and then no more, as a full disk or a reader that has gone."""

    def __init__(self, number: int, lines: int = 0) -> None:
        super().__init__()
        self.number, self.lines = number, lines

    def write(self, text: str) -> int:
        self.lines -= text.count("\n")
        if self.lines < 0:
            raise OSError(self.number, os.strerror(self.number))
        return super().write(text)


def ended(monkeypatch: pytest.MonkeyPatch, words: str, **streams: Any) -> tuple[int, str]:
    """Exit code, and what stood on standard error."""
    told = io.StringIO()
    monkeypatch.setattr(sys, "stderr", told)
    for name, stream in streams.items():
        monkeypatch.setattr(sys, name, stream)
    with pytest.raises(SystemExit) as ending:
        main(words.split(), prog_name="bellowscut")
    assert isinstance(ending.value.code, int)
    return ending.value.code, told.getvalue()


DONE = (
    ("make good.toml --format svg --out set", "Written to set", "set/patterns.svg"),
    ("quote six-sided-treble --out a.pdf", "Written to a.pdf", "a.pdf"),
    ("new plain.toml --plain", "Written to plain.toml", "plain.toml"),
    ("job-book good.toml --minutes assemble=5", "Noted in job-book.csv: 1 line", "job-book.csv"),
    ("measuring-sheet", "Written to measuring-sheet.pdf", "measuring-sheet.pdf"),
)


@pytest.mark.parametrize(("words", "told", "file"), DONE, ids=[row[0] for row in DONE])
@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EPIPE])
def test_work_done_is_said_when_the_output_fails(
    bench: Path, monkeypatch: pytest.MonkeyPatch, words: str, told: str, file: str, number: int
) -> None:
    code, said = ended(monkeypatch, words, stdout=Broken(number))
    assert code == 1
    assert told in said
    assert os.strerror(number) in said
    assert (bench / file).is_file()


def test_an_output_that_was_closed_before_is_told_too(bench: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    code, said = ended(monkeypatch, "make good.toml --format dxf --out set", stdout=None)
    assert (code, "Written to set" in said) == (1, True)
    assert (bench / "set" / "patterns.dxf").is_file()


@pytest.mark.usefixtures("bench")
def test_a_reader_that_has_seen_enough_is_not_told_off(monkeypatch: pytest.MonkeyPatch) -> None:
    """As with ``| head``: nothing was done, so there is nothing to say."""
    assert ended(monkeypatch, "check good.toml", stdout=Broken(errno.EPIPE, 3)) == (1, "")
    code, said = ended(monkeypatch, "check good.toml", stdout=Broken(errno.ENOSPC, 3))
    assert (code, said) == (1, "the output could not be written: No space left on device\n")


@pytest.mark.usefixtures("bench")
@pytest.mark.parametrize("words", ["--help", "make --help", "profiles", "quote --like square-box --condition good"])
def test_no_room_for_help_either(monkeypatch: pytest.MonkeyPatch, words: str) -> None:
    code, said = ended(monkeypatch, words, stdout=Broken(errno.ENOSPC))
    assert (code, said) == (1, "the output could not be written: No space left on device\n")


@pytest.mark.usefixtures("bench")
@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252"])
def test_letters_that_the_output_lacks(monkeypatch: pytest.MonkeyPatch, encoding: str) -> None:
    held = io.BytesIO()
    code, said = ended(monkeypatch, "check named.toml", stdout=io.TextIOWrapper(held, encoding=encoding))
    assert (code, said) == (0, "")
    assert b"gluing distance" in held.getvalue()


@pytest.mark.usefixtures("bench")
def test_errors_that_cannot_be_said_keep_their_exit_code(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stderr", Broken(errno.ENOSPC))
    with pytest.raises(SystemExit) as ending:
        main(["check", "nowhere.toml"], prog_name="bellowscut")
    assert ending.value.code == 2


@pytest.mark.parametrize(("words", "told"), [("job-book good.toml", "nothing was noted"), ("new fresh.toml", "nothing was written")])
def test_a_closed_input_is_an_answer_that_never_comes(bench: Path, monkeypatch: pytest.MonkeyPatch, words: str, told: str) -> None:
    code, said = ended(monkeypatch, words, stdin=None)
    assert code == 1
    assert told in said
    assert not (bench / "job-book.csv").exists()
    assert not (bench / "fresh.toml").exists()


@pytest.mark.usefixtures("bench")
def test_bytes_that_are_no_letters_are_asked_for_again() -> None:
    result = CliRunner().invoke(main, ["job-book", "good.toml"], prog_name="bellowscut", input=b"\xff\xfe\n")
    assert result.exit_code == 1
    assert "nothing was noted" in result.stderr


def test_stopped_before_it_has_come_up(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    usual = builtins.__import__

    def stopped(name: str, *more: Any) -> object:
        if name == "bellowscut.cli":
            raise KeyboardInterrupt
        return usual(name, *more)

    monkeypatch.setattr(builtins, "__import__", stopped)
    with pytest.raises(SystemExit) as ending:
        program.run()
    assert ending.value.code == 130
    assert capsys.readouterr() == ("", "")


@pytest.mark.usefixtures("bench")
def test_what_the_system_refuses_unforeseen(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> None:
        raise OSError(errno.EIO, os.strerror(errno.EIO), "good.toml")

    monkeypatch.setattr(cli, "_workshop", refused)
    result = run("check", "good.toml")
    assert (result.exit_code, result.stderr) == (1, "good.toml: Input/output error\n")


@pytest.mark.skipif(sys.platform == "win32", reason="a folder in use cannot be removed there")
@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        ("check six-sided-treble", 0, b""),
        ("quote six-sided-treble", 1, b"the folder in which this was started is gone"),
        ("make six-sided-treble --format svg", 1, b"the folder in which this was started is gone"),
    ],
)
def test_a_working_folder_that_is_gone(tmp_path: Path, words: str, code: int, told: bytes) -> None:
    """In a process of its own, where the libraries that write pages are read afresh."""
    gone = tmp_path / "gone"
    gone.mkdir()
    script = f"import os, sys; os.rmdir({str(gone)!r}); from bellowscut.cli import main; main({words.split()!r}, prog_name='bellowscut')"
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[1])}
    done = subprocess.run([sys.executable, "-c", script], cwd=gone, env=environment, capture_output=True, check=False)
    assert done.returncode == code, done.stderr
    assert told in done.stderr
    assert b"Traceback" not in done.stderr


@pytest.mark.usefixtures("bench")
@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_nothing_is_said_once_more_at_the_very_end() -> None:
    """Python tries again to empty what was left, complains of it, and ends with an exit code of its own."""
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[1])}
    with Path("/dev/full").open("wb") as full:
        command = [sys.executable, "-m", "bellowscut", "new", "plain.toml", "--plain"]
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, env=environment, check=False)
    assert done.returncode == 1
    assert done.stderr == b"Written to plain.toml (the output could not be written: No space left on device)\n"

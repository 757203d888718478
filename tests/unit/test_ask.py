"""The questions, answered by a list instead of a terminal."""

from __future__ import annotations

import os
import select
import shlex
import signal
import subprocess
import sys
from contextlib import suppress
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis.strategies import lists, sampled_from

from bellowscut.answers import literal, typed
from bellowscut.ask import Stopped, ask, plain
from bellowscut.bellows import build
from bellowscut.cli import main
from bellowscut.errors import OutputError, UsageError
from bellowscut.keys import Key, keys_of
from bellowscut.pipeline import draft
from bellowscut.profile import Profile, load, loads, shipped
from bellowscut.reading import key_named
from bellowscut.schema import TABLES, Readings
from bellowscut.toml_lines import undotted, value_of
from bellowscut.unfinished import beside, write_new
from bellowscut.values import Fault, convert

ROOT = Path(__file__).parents[2]
FINER = "Change the finer sizes"


def key_called(name: str) -> Key:
    return next(key for table in TABLES for key_name, key, _ in keys_of(table.spec) if key_name == name)


class Terminal:
    """Answers by the first question that holds the words; everything else is Enter."""

    def __init__(self, *answers: tuple[str, str], stop_at: str = "") -> None:
        self.answers = list(answers)
        self.stop_at = stop_at
        self.said: list[str] = []
        self.asked: list[str] = []

    def echo(self, text: str) -> None:
        self.said.append(text)

    def read(self, prompt: str) -> str:
        self.asked.append(prompt)
        assert len(self.asked) < 400, "asks for ever"
        if self.stop_at and self.stop_at in prompt:
            raise EOFError
        for number, (words, answer) in enumerate(self.answers):
            if words in prompt:
                del self.answers[number]
                return answer
        return ""

    def made(self, path: Path, start: Profile | None = None) -> Profile:
        assert ask(self.echo, self.read, path, start) == path
        assert not self.answers, "not every answer was asked for"
        return load(path)


def test_enter_takes_every_default(tmp_path: Path) -> None:
    terminal = Terminal()
    made = terminal.made(tmp_path / "my-box.toml")
    usual = 'section = {shape = "regular", sides = 6, end_size = 158.75}\nbellows = {folds = 6, fold_depth = 25}'
    assert made.fingerprint == loads(usual).fingerprint
    assert made.name == "my box"
    assert len(terminal.asked) <= 21
    assert "written after the last question" in terminal.said[0]


def test_answers_are_taken(tmp_path: Path) -> None:
    made = Terminal(
        ("called", 'Anna\'s "box"'),
        ("How many sides", "8"),
        ("Measured on", "frame-covered"),
        ("first (right-hand)", "7 in"),
        ("How many folds", "5"),
        ("Count the cards", "12"),
        ("How deep", "22.5"),
        ("Stretch or travel", "7 1/2 in"),
        ("Thickness of the card", "1.2"),
        ("gusset leather", "1 oz"),
        ("frame's side", "12 mm"),
    ).made(tmp_path / "x.toml")
    assert (made.name, made.section.sides, made.section.end_size, made.section.measured_on) == ('Anna\'s "box"', 8, 177.8, "frame-covered")
    assert (made.bellows.folds, made.bellows.ends, made.bellows.fold_depth) == (5, "ridge", 22.5)
    assert (made.bellows.stretch, made.bellows.travel) == (None, 190.5)
    assert (made.materials["grey card"].thickness, made.materials["gusset skin"].thickness) == (1.2, 0.396875)
    assert made.end_strip.frame_cover == 12


def test_wrong_answers_are_explained_and_asked_again(tmp_path: Path) -> None:
    terminal = Terminal(
        ("How many sides", "six"),
        ("How many folds", "60"),
        ("How deep", "nan"),
        ("How deep", "25 furlongs"),
        ("How deep", "?"),
        ("How deep", "24"),
    )
    assert terminal.made(tmp_path / "x.toml").bellows.fold_depth == 24
    told = "\n".join(terminal.said)
    for words in (
        "six: should be a whole number",
        "60: too large: should be from 1 to 40",
        "nan: should be a length",
        "'furlongs' is not known",
    ):
        assert words in told
    assert "Allowed from 2 mm" in told


def test_cards_that_do_not_fit_the_folds_are_counted_again(tmp_path: Path) -> None:
    terminal = Terminal(("Count the cards", "13"), ("Count the cards", "12"))
    assert terminal.made(tmp_path / "x.toml").bellows.ends == "valley"
    assert any("6 folds have 14 cards down a side, or 12 when" in text for text in terminal.said)


def test_an_odd_end_is_measured_along_a_side(tmp_path: Path) -> None:
    terminal = Terminal(("How many sides", "5"), ("Length of one side", "95"))
    made = terminal.made(tmp_path / "x.toml")
    assert (made.section.measure, made.section.end_size) == ("side", 95)


@pytest.mark.parametrize(
    ("answers", "name", "first", "second"),
    [
        ([("other end different", "y"), ("same of the other", "160")], "flats", (158.75,) * 3, (160.0,) * 3),
        (
            [("How many sides", "5"), ("one side", "95"), ("other end different", "yes"), ("same of the other", "96 mm")],
            "side_lengths",
            (95.0,) * 5,
            (96.0,) * 5,
        ),
        (
            [("Shape", "oblong"), ("other end different", "yes"), ("Width of the other", "251")],
            "corners",
            ((0, 0), (250, 0), (250, 120), (0, 120)),
            ((0, 0), (251, 0), (251, 120), (0, 120)),
        ),
        (
            [
                ("Shape", "measured"),
                ("across each pair", "158, 159 mm; 6 1/4 in"),
                ("other end different", "yes"),
                ("The same", "159, 160, 161"),
            ],
            "flats",
            (158, 159, 158.75),
            (159, 160, 161),
        ),
        (
            [("Shape", "measured"), ("Measured by", "corners"), ("corner points", "0, 0; 100, 0; 50, 90")],
            "corners",
            ((0, 0), (100, 0), (50, 90)),
            None,
        ),
    ],
)
def test_ends_that_differ_become_a_measured_section(
    tmp_path: Path, answers: list[tuple[str, str]], name: str, first: object, second: object
) -> None:
    made = Terminal(*answers).made(tmp_path / "x.toml")
    assert made.section.shape == "measured"
    assert (getattr(made.section, name), made.section.other_end) == (first, second)


def test_across_corners_is_turned_into_flats(tmp_path: Path) -> None:
    """Six sides: across flats is cos(30 deg) of across corners (the regular-polygon table's 1.1547 the other way)."""
    made = Terminal(("along one side", "across-corners"), ("right-hand", "200"), ("other end different", "y")).made(tmp_path / "x.toml")
    assert made.section.flats == pytest.approx([200 / 1.1547] * 3, abs=0.01)


def times(terminal: Terminal, words: str) -> int:
    """How often a question was asked."""
    return sum(words in prompt for prompt in terminal.asked)


def test_one_bad_answer_of_a_group_is_asked_again_and_the_others_are_kept(tmp_path: Path) -> None:
    """Twelve sides, 10 mm across: too small as millimetres, and only that is asked again."""
    terminal = Terminal(("How many sides", "12"), ("Measured on", "frame-covered"), ("right-hand", "10"), ("right-hand", "206 mm"))
    made = terminal.made(tmp_path / "x.toml")
    assert (made.section.sides, made.section.end_size, made.section.measured_on) == (12, 206, "frame-covered")
    assert [times(terminal, words) for words in ("How many sides", "Measured on?", "Shape", "right-hand")] == [1, 1, 1, 2]
    assert any("end_size" in text and "too small" in text for text in terminal.said)


def test_a_second_end_that_does_not_fit_is_asked_again_alone_and_then_with_the_first(tmp_path: Path) -> None:
    """Three flats and then two: first the two are doubted, then the three."""
    terminal = Terminal(
        ("Shape", "measured"),
        ("across each pair", "158, 159"),
        ("other end different", "y"),
        ("The same", "158, 159, 158"),
        ("The same", "158, 159, 160"),
        ("across each pair", "158, 159, 161"),
        ("The same", "158, 159, 160"),
    )
    made = terminal.made(tmp_path / "x.toml")
    assert (made.section.flats, made.section.other_end) == ((158, 159, 161), (158, 159, 160))
    assert [times(terminal, words) for words in ("Shape", "Measured by", "across each pair", "The same")] == [1, 1, 2, 3]


def test_ends_without_room_for_a_bellows_are_told_with_what_was_said(tmp_path: Path) -> None:
    """Twelve sides of 4 mm hold no card."""
    terminal = Terminal(("How many sides", "12"), ("right-hand", "17"), ("right-hand", "170"))
    assert terminal.made(tmp_path / "x.toml").section.end_size == 170
    assert any("no room for a bellows" in text for text in terminal.said)
    assert [prompt for prompt in terminal.asked if "How many sides" in prompt][1].endswith("[12] ")


def test_back_asks_the_question_before_once_more(tmp_path: Path) -> None:
    terminal = Terminal(
        ("Stretch or travel", "back"), ("How deep", "22"), ("How deep", "23"), ("How many sides", "8"), ("right-hand", "back"), ("How many sides", "10"),
    )  # fmt: skip
    terminal.answers.sort(key=lambda pair: pair != ("How deep", "22"))
    made = terminal.made(tmp_path / "x.toml")
    assert (made.bellows.fold_depth, made.section.sides) == (23, 10)
    assert [prompt for prompt in terminal.asked if "How many sides" in prompt][1].endswith("[8] ")


def test_an_answer_that_quarrels_with_an_earlier_one_asks_for_both(tmp_path: Path) -> None:
    """Leather of 9 mm closes longer than 14 cards of 22 mm open at 50 degrees."""
    terminal = Terminal(("How deep", "22"), ("gusset leather", "9"), ("bellows.stretch", "60"), ("gusset leather", "0.5"))
    made = terminal.made(tmp_path / "x.toml")
    assert (made.bellows.stretch, made.materials["gusset skin"].thickness) == (60, 0.5)
    assert any("it would not open" in text for text in terminal.said)


def test_figures_and_warnings_are_seen_before_anything_is_written(tmp_path: Path) -> None:
    path = tmp_path / "x.toml"
    terminal = Terminal(("Measured on", "end"))
    seen = []

    def read(prompt: str) -> str:
        if "Write this to" in prompt:
            seen.append((path.exists(), "\n".join(terminal.said)))
        return terminal.read(prompt)

    ask(terminal.echo, read, path)
    ((written, told),) = seen
    assert not written
    assert "You measured the wooden end" in told
    assert "268.1 mm" in told


def test_an_answer_is_changed_by_its_number_at_the_last_look(tmp_path: Path) -> None:
    path = tmp_path / "x.toml"
    terminal = Terminal(("How many sides", "8"), ("Write this", "no"), ("How deep", "24"))
    number = ""

    def echo(text: str) -> None:
        nonlocal number
        terminal.echo(text)
        if "bellows.fold_depth = " in text and not number:
            number = text.split(maxsplit=1)[0]
            terminal.answers += [("Number of the answer", number), ("How deep", "21")]

    ask(echo, terminal.read, path)
    made = load(path)
    assert (made.section.sides, made.bellows.fold_depth) == (8, 21)
    assert times(terminal, "How many sides") == 1
    assert times(terminal, "Write this") == 2


def test_what_check_would_refuse_is_asked_for_before_it_is_written(tmp_path: Path) -> None:
    """From a profile whose facings are all margin; nothing in the main run asks for that."""
    usual = 'section={shape="regular",sides=6,end_size=158.75}\nbellows={folds=6,fold_depth=25}\n'
    terminal = Terminal(("facing.margin", "2"))
    made = terminal.made(tmp_path / "x.toml", loads(usual + 'facing={order="first",margin=40}'))
    assert made.facing is not None
    assert made.facing.margin == 2
    assert draft(made).parts


TYPED = (*("",) * 24, "yes", "no", "regular", "measured", "rectangle", "side", "back", "none", "?", "3", "5", "12", "64", "0.4", "10 mm",
         "7 in", "48", "90", "250 mm", "158, 159, 160", "100, 90, 80, 90", "\x1b[A", "1" * 80)  # fmt: skip
"""What somebody may type at any question, mostly nothing."""


@given(answers=lists(sampled_from(TYPED), min_size=60, max_size=60))
def test_nothing_is_written_that_check_refuses(answers: list[str]) -> None:
    """Whoever answers whatever: what is written is made without a word against it, or nothing is."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "x.toml"
        rest = iter(answers)

        def read(_: str) -> str:
            answer = next(rest, None)
            if answer is None:
                raise EOFError
            return answer

        with suppress(Stopped):
            ask(lambda _: None, read, path)
            assert draft(load(path)).parts
        assert path.exists() != beside(path).exists() or not any(Path(folder).iterdir())


OLD_CARD = ("Ridge edge", "Valley edge", "glue shadow", "One old gusset")


@pytest.mark.parametrize(("job", "asked"), [("rebellows", 0), ("regusset", 4), ("cover", 4), ("strips", 0), ("patches", 0)])
def test_the_job_is_asked_first_and_says_what_is_read_off_the_old_card(tmp_path: Path, job: str, asked: int) -> None:
    terminal = Terminal(("to be done", job))
    terminal.made(tmp_path / "my box.toml")
    assert "What is to be done?" in terminal.asked[0]
    assert sum(words in prompt for prompt in terminal.asked for words in OLD_CARD) == asked
    commands = [line.strip() for line in terminal.said[-1].splitlines()[1:]]
    option = "" if job == "rebellows" else f" --job {job}"
    assert commands == [f"bellowscut {word} '{tmp_path}/my box.toml'{option}" for word in ("check", "make")]


def test_an_old_card_is_read_in_any_unit_and_more_than_once(tmp_path: Path) -> None:
    """Relief by hand: 89.5 and 55.0 on 25 mm lean atan(34.5 / 50) = 34.61 degrees, 4.61 more than half of 60."""
    terminal = Terminal(
        ("to be done", "regusset"),
        ("Ridge edge", "89.5 89 90"),
        ("Valley edge", "2.165 in, 54.9"),
        ("glue shadow", "4.5"),
        ("One old gusset", "25.5, 62.5"),
        ("glued over the card", ""),
    )
    made = terminal.made(tmp_path / "x.toml")
    assert made.readings.ridge_edge == Readings((89.5, 89.0, 90.0))
    assert made.gusset.use == (25.5, 62.5)
    assert made.gusset.lap == 4.5
    assert build(made).relief == pytest.approx(4.61, abs=0.06)
    assert "[4.5 mm]" in next(prompt for prompt in terminal.asked if "glued over the card" in prompt)
    assert any("readings of ridge_edge lie 1 mm apart" in " ".join(text.split()) for text in ["\n".join(terminal.said)])


def test_two_edges_changed_about_are_told_and_asked_again(tmp_path: Path) -> None:
    terminal = Terminal(("to be done", "regusset"), ("Ridge edge", "55"), ("Valley edge", "89.5"), ("Valley edge", "back"), ("Ridge edge", "89.5"), ("Valley edge", "55"))  # fmt: skip
    made = terminal.made(tmp_path / "x.toml")
    assert (made.readings.ridge_edge, made.readings.valley_edge) == (Readings((89.5,)), Readings((55.0,)))
    assert any("narrower at the valley" in text for text in terminal.said)


def test_a_job_changed_at_the_last_look_asks_for_what_it_needs(tmp_path: Path) -> None:
    terminal = Terminal(("Write this", "no"), ("Number of the answer", "1"), ("to be done", ""), ("to be done", "regusset"), ("Ridge edge", "89.5"))  # fmt: skip
    made = terminal.made(tmp_path / "x.toml")
    assert made.readings.ridge_edge == Readings((89.5,))
    assert terminal.said[-1].endswith("--job regusset")


def test_a_profile_with_readings_starts_as_a_regusset(tmp_path: Path) -> None:
    """And keeps its readings by side."""
    usual = 'section={shape="regular",sides=6,end_size=158.75}\nbellows={folds=6,fold_depth=25}\n'
    start = loads(usual + 'readings={ridge_edge={A=[89.5, 89.3], C="89.4 mm"}}')
    terminal = Terminal()
    made = terminal.made(tmp_path / "x.toml", start)
    assert made.fingerprint == start.fingerprint
    assert terminal.asked[0].endswith("[regusset] ")
    assert any("[A 89.5, 89.3; C 89.4 mm]" in prompt for prompt in terminal.asked)


def test_the_finer_sizes_are_walked(tmp_path: Path) -> None:
    terminal = Terminal(
        (FINER, "yes"), ("gusset.tip_lap", "2.5"), ("edge_strip.skive", "9"), ("edge_strip.skive", "4"), ("bellows.closed_gap", "6"),
        ("Make facing", "y"), ("facing.span", "pair"), ("costs.currency", "EUR"), ("of gusset skin", "11.50"), ("gusset.spare", "10%"),
        ("copies", "2"),
    )  # fmt: skip
    made = terminal.made(tmp_path / "x.toml")
    assert (made.gusset.tip_lap, made.edge_strip.skive, made.bellows.closed_gap, made.bellows.relief) == (2.5, 4, 6, None)
    assert made.facing is not None
    assert (made.facing.span, made.costs.currency, str(made.materials["gusset skin"].price), made.copies) == ("pair", "EUR", "11.50", 2)
    assert any("its lap is only 7 mm" in text for text in terminal.said)
    asked = "\n".join(terminal.asked)
    for table in TABLES:
        for name, key, _ in keys_of(table.spec):
            made_table = not table.optional or table.name == "facing"
            if (
                key.finer
                and made_table
                and f"{table.name}.{name}" not in ("gusset.lap", "edge_strip.lap", "end_strip.lap", "end_strip.frame_cover")
            ):
                assert f"{table.name}.{name}:" in asked


def test_from_a_profile_keeps_it(tmp_path: Path) -> None:
    for name in (
        "six-sided-uneven",
        "twelve-sided-deep",
        "oblong-three-alike",
        "eight-sided-tenor",
        "five-corners-traced",
        "three-sided-toy",
        "six-sided-shallow",
    ):
        start = load(name)
        made = Terminal().made(tmp_path / f"{name}.toml", start)
        assert (made.fingerprint, made.name) == (start.fingerprint, start.name)


def test_none_takes_a_finer_size_back(tmp_path: Path) -> None:
    made = Terminal((FINER, "y"), ("bellows.reed_clearance", "none"), ("Make frame hinge", "no")).made(
        tmp_path / "x.toml", load("six-sided-deep")
    )
    assert made.bellows.reed_clearance is None
    assert made.frame_hinge is None


def test_relief_puts_out_a_closed_gap(tmp_path: Path) -> None:
    made = Terminal((FINER, "y"), ("bellows.relief", "4")).made(tmp_path / "x.toml", load("twelve-sided-deep"))
    assert (made.bellows.relief, made.bellows.closed_gap) == (4, None)


def test_a_file_is_never_written_over(tmp_path: Path) -> None:
    path = tmp_path / "x.toml"
    path.write_text("mine", encoding="utf-8")
    terminal = Terminal()
    with pytest.raises(UsageError, match="is there already"):
        ask(terminal.echo, terminal.read, path)
    with pytest.raises(UsageError, match="is there already"):
        plain(path)
    with pytest.raises(UsageError, match="is there already"):
        write_new(path, "text")
    link = tmp_path / "link.toml"
    link.symlink_to(tmp_path / "nowhere.toml")
    with pytest.raises(UsageError, match="is there already"):
        plain(link)
    assert (path.read_text(encoding="utf-8"), terminal.asked) == ("mine", [])
    with pytest.raises(UsageError, match="there is no folder"):
        plain(tmp_path / "none" / "x.toml")


def test_a_file_that_appears_meanwhile_is_left_alone_and_the_answers_go_elsewhere(tmp_path: Path) -> None:
    path = tmp_path / "x.toml"
    terminal = Terminal(("How many sides", "8"))

    def read(prompt: str) -> str:
        if "Write this to" in prompt:
            path.write_text("theirs", encoding="utf-8")
        return terminal.read(prompt)

    assert ask(terminal.echo, read, path) == tmp_path / "x-2.toml"
    assert path.read_text(encoding="utf-8") == "theirs"
    assert load(tmp_path / "x-2.toml").section.sides == 8


SITTING = (
    ("called", 'Anna\'s "box"'),
    ("How many sides", "8"),
    ("right-hand", "7 1/2 in"),
    ("other end different", "yes"),
    ("same of the other", "7 5/8 in"),
    ("How many folds", "5"),
    ("Count the cards", "10"),
    ("How deep", "21.5"),
    ("Stretch or travel", "150 mm"),
    ("gusset leather", "0.5"),
    ("frame's side", "12"),
    (FINER, "yes"),
    ("gusset.tip_lap", "2.5"),
    ("Make facing", "y"),
    ("facing.span", "pair"),
)


class Broken(Terminal):
    """Answers until a question is asked that holds some words, and then breaks off."""

    def __init__(self, at: str, stop: type[BaseException], *answers: tuple[str, str]) -> None:
        super().__init__(*answers)
        self.at, self.stop = at, stop

    def read(self, prompt: str) -> str:
        if self.at in prompt:
            raise self.stop
        return super().read(prompt)


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Profile:
    """What is made of it all in one sitting."""
    return Terminal(*SITTING).made(tmp_path_factory.mktemp("whole") / "whole.toml")


@pytest.mark.parametrize(
    ("at", "stop"),
    [
        ("Shape", EOFError),
        ("same of the other", KeyboardInterrupt),
        ("Count the cards", EOFError),
        ("Stretch or travel", EOFError),
        (FINER, KeyboardInterrupt),
        ("facing.span", EOFError),
        ("Write this", KeyboardInterrupt),
    ],
)
def test_what_was_said_is_kept_and_taken_up_again(tmp_path: Path, whole: Profile, at: str, stop: type[BaseException]) -> None:
    """Broken off anywhere and gone on with, it is the same profile as in one sitting."""
    path = tmp_path / "x.toml"
    broken = Broken(at, stop, *SITTING)
    with pytest.raises(Stopped, match=f"bellowscut new {path}") as caught:
        ask(broken.echo, broken.read, path)
    assert caught.value.exit_code == 1
    assert {one.name for one in tmp_path.iterdir()} == {"x.toml.unfinished"}
    later = Terminal(*broken.answers)
    made = later.made(path)
    assert (made.fingerprint, made.name) == (whole.fingerprint, whole.name)
    assert times(later, "called") == 0
    assert times(later, at) == 1
    assert {one.name for one in tmp_path.iterdir()} == {"x.toml"}


def test_what_was_said_of_a_start_is_taken_up_from_that_start(tmp_path: Path) -> None:
    start = load("twelve-sided-deep")
    path = tmp_path / "x.toml"
    broken = Broken("How deep", EOFError)
    with pytest.raises(Stopped):
        ask(broken.echo, broken.read, path, start)
    assert Terminal().made(path).fingerprint == start.fingerprint


def test_who_does_not_want_it_kept_is_asked_and_leaves_nothing(tmp_path: Path) -> None:
    broken = Broken("How deep", KeyboardInterrupt, ("Keep what you said", "no"))
    with pytest.raises(Stopped, match="nothing was written"):
        ask(broken.echo, broken.read, tmp_path / "x.toml")
    assert list(tmp_path.iterdir()) == []


def test_ctrl_c_twice_keeps_what_was_said(tmp_path: Path) -> None:
    def read(prompt: str) -> str:
        if "Shape" in prompt or "Keep" in prompt:
            raise KeyboardInterrupt
        return ""

    with pytest.raises(Stopped, match="unfinished"):
        ask(lambda _: None, read, tmp_path / "x.toml")
    assert beside(tmp_path / "x.toml").is_file()


def test_nothing_said_leaves_nothing(tmp_path: Path) -> None:
    broken = Broken("", EOFError)
    with pytest.raises(Stopped, match="nothing was written"):
        ask(broken.echo, broken.read, tmp_path / "x.toml")
    assert list(tmp_path.iterdir()) == []


def test_a_file_of_somebody_else_in_the_place_of_what_was_said_is_refused(tmp_path: Path) -> None:
    kept = beside(tmp_path / "x.toml")
    for text in ("mine", "[said]\nname = 3\n"):
        kept.write_text(text, encoding="utf-8")
        with pytest.raises(UsageError, match="does not hold answers"):
            ask(lambda _: None, lambda _: "", tmp_path / "x.toml")
        assert kept.read_text(encoding="utf-8") == text


def test_on_a_full_disk_what_was_said_is_shown(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    broken = Broken("How deep", EOFError, ("How many sides", "10"))
    with pytest.raises(OutputError, match="No space left"):
        ask(broken.echo, broken.read, tmp_path / "x.toml")
    assert any("section.sides: 10" in text for text in broken.said)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("end", ["kill", "fall back"])
def test_a_program_killed_while_it_writes_leaves_no_empty_file(tmp_path: Path, end: str) -> None:
    """Killed outright before the file is whole; also where the disk has no nameless files."""
    program = (
        "import os, signal, sys\n"
        "from bellowscut.cli import main\n"
        "def die(_): os.kill(os.getpid(), signal.SIGKILL)\n"
        "os.fsync = die\n" + ("del os.O_TMPFILE\n" if end == "fall back" else "") + "main(['new', 'x.toml', '--plain'])\n"
    )
    done = subprocess.run([sys.executable, "-c", program], cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(ROOT)}, check=False)
    assert done.returncode == -signal.SIGKILL
    left = {one.name for one in tmp_path.iterdir()}
    assert "x.toml" not in left
    assert not left or end == "fall back" or not hasattr(os, "O_TMPFILE")


def test_a_full_disk_leaves_no_half_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OutputError, match="No space left"):
        write_new(tmp_path / "x.toml", "text")
    assert list(tmp_path.iterdir()) == []


def test_without_a_file_the_name_makes_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("annas-box.toml").write_text("mine", encoding="utf-8")
    terminal = Terminal(("called", "Anna's box"))
    target = ask(terminal.echo, terminal.read)
    assert str(target) == "anna-s-box.toml"
    terminal = Terminal(("called", "Annas box"), ("called", "../Box / 2"))
    assert str(ask(terminal.echo, terminal.read)) == "box-2.toml"
    assert any("annas-box.toml: is there already" in text for text in terminal.said)


def test_plain_writes_a_commented_file(tmp_path: Path) -> None:
    path = plain(tmp_path / "my-box.toml")
    text = path.read_text(encoding="utf-8")
    assert load(path).name == "my-box"
    for table in TABLES:
        assert f"[{table.name}]" in text
        for name, _, _ in keys_of(table.spec):
            assert f"{name} = " in text
    start = load("square-box")
    assert load(plain(tmp_path / "two.toml", start)).fingerprint == start.fingerprint


@pytest.mark.parametrize(
    ("name", "answer", "text"),
    [
        ("fold_depth", "25", "25"),
        ("fold_depth", "007.5", "7.5"),
        ("fold_depth", "1 in", '"1 in"'),
        ("folds", "06", "6"),
        ("ends", "peak", '"peak"'),
        ("use", "28 mm, 60", '["28 mm", 60]'),
        ("spare", "10 %", '"10 %"'),
        ("darts", "Y", "true"),
        ("ridge_edge", "84.1", "[84.1]"),
        ("ridge_edge", "84.1, 2 3/8 in", '[84.1, "2 3/8 in"]'),
        ("ridge_edge", "84.1 84 83.9", "[84.1, 84, 83.9]"),
        ("ridge_edge", "3 5/16 in", '["3 5/16 in"]'),
        ("ridge_edge", "A 84.1; C: 83, 83.5", "{ A = [84.1], C = [83, 83.5] }"),
    ],
)
def test_answers_need_no_quotes(name: str, answer: str, text: str) -> None:
    assert literal(answer, key_called(name)) == text


@pytest.mark.parametrize(
    ("name", "answer"),
    [("folds", "6.5"), ("fold_depth", '25" # x'), ("fold_depth", "nan"), ("darts", "maybe"), ("use", "1;2;3"), ("use", "")],
)
def test_unsound_answers(name: str, answer: str) -> None:
    with pytest.raises(Fault):
        literal(answer, key_called(name))


def test_bytes_that_are_no_text_are_asked_for_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    told = CliRunner().invoke(main, ["new", "x.toml"], input=b"\nAnna\nregular\n\xff\xfe\nframe\n\x00\n12\n")
    assert told.exit_code == 1
    assert "could not be read as text" in told.stdout
    assert "kept in x.toml.unfinished" in told.stderr
    assert '"section.sides" = "12"' in beside(tmp_path / "x.toml").read_text(encoding="utf-8")


@pytest.mark.skipif(os.name != "posix", reason="needs descriptors that can be closed")
@pytest.mark.parametrize("how", ["<&-", "0>/dev/null", "</dev/null"])
def test_without_any_input_nothing_is_written(tmp_path: Path, how: str) -> None:
    command = f"{shlex.quote(sys.executable)} -m bellowscut new x.toml {how}"
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(["sh", "-c", command], cwd=tmp_path, env=environment, capture_output=True, text=True, check=False)
    assert (done.returncode, list(tmp_path.iterdir())) == (1, [])
    assert done.stderr == "stopped before the last question: nothing was written\n"


@pytest.mark.skipif(not hasattr(os, "forkpty"), reason="needs a terminal of its own")
@pytest.mark.parametrize("keys", [(b"\x03", b"yes\n"), (b"\x04",)], ids=["Ctrl-C", "Ctrl-D"])
def test_ctrl_c_and_ctrl_d_at_a_terminal(tmp_path: Path, keys: tuple[bytes, ...]) -> None:
    """However often Ctrl-C is pressed, what was said is kept unless somebody says no."""
    process, terminal = os.forkpty()
    if not process:
        os.chdir(tmp_path)
        os.environ["PYTHONPATH"] = str(ROOT)
        # Whoever runs the tests in the background has it ignored, and so would the program.
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        os.execv(sys.executable, [sys.executable, "-m", "bellowscut", "new", "x.toml"])
    shown = b""

    def read_to(words: bytes, again: bytes = b"") -> None:
        nonlocal shown
        while words not in shown:
            assert len(shown) < 100_000, shown[-2000:]
            # A key that came between the prompt and the wait for an answer is not seen: press it once more.
            for _ in range(300):
                if select.select([terminal], [], [], 0.2)[0]:
                    break
                if again:
                    os.write(terminal, again)
            else:
                pytest.fail(f"never said {words!r}, but {shown!r}")
            try:
                shown += os.read(terminal, 9999)
            except OSError:
                break

    read_to(b"[rebellows] ")
    os.write(terminal, b"regusset\n")
    read_to(b"[x] ")
    os.write(terminal, b"Anna\n")
    read_to(b"[regular] ")
    for key, words in zip(keys, (b"Keep what you said so far? [yes] ", b"before the last question"), strict=False):
        os.write(terminal, key)
        read_to(words, key if key == b"\x03" else b"")
    read_to(b"no such words")
    os.close(terminal)
    assert os.waitstatus_to_exitcode(os.waitpid(process, 0)[1]) == 1
    assert b"Traceback" not in shown
    assert beside(tmp_path / "x.toml").exists()
    assert b"bellowscut new x.toml" in shown


@pytest.mark.parametrize("name", shipped())
def test_every_value_of_a_profile_is_typed_as_it_is_read(name: str) -> None:
    """What a question offers in brackets may be typed back."""
    profile = load(name)
    for full in profile.given - {"section.other_end"}:
        found = key_named(undotted(full))
        assert found is not None
        text = profile.written[full]
        again = literal(typed(text, found[0]), found[0])
        assert convert(value_of(again), found[0]) == convert(value_of(text), found[0]), full

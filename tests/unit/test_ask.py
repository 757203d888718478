"""The questions, answered by a list instead of a terminal."""

from __future__ import annotations

from pathlib import Path

import pytest

from bellowscut.answers import literal
from bellowscut.ask import Stopped, ask, plain, write_new
from bellowscut.errors import OutputError, UsageError
from bellowscut.keys import Key, keys_of
from bellowscut.profile import Profile, load, loads
from bellowscut.schema import TABLES
from bellowscut.values import Fault

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
    assert len(terminal.asked) <= 20
    assert "Nothing is written before the last question" in terminal.said[0]


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


def test_measurements_that_do_not_go_together_are_asked_again(tmp_path: Path) -> None:
    terminal = Terminal(("Shape", "measured"), ("across each pair", "158"), ("Shape", "regular"))
    assert terminal.made(tmp_path / "x.toml").section.shape == "regular"
    assert any("once more" in text for text in terminal.said)


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


def test_a_file_that_appears_meanwhile_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "x.toml"
    terminal = Terminal()

    def read(prompt: str) -> str:
        if FINER in prompt:
            path.write_text("theirs", encoding="utf-8")
        return terminal.read(prompt)

    with pytest.raises(UsageError, match="is there already"):
        ask(terminal.echo, read, path)
    assert path.read_text(encoding="utf-8") == "theirs"


@pytest.mark.parametrize("stop", [EOFError, KeyboardInterrupt])
@pytest.mark.parametrize("at", ["called", "Shape", "Count the cards", "Stretch or travel", FINER])
def test_breaking_off_writes_nothing(tmp_path: Path, at: str, stop: type[BaseException]) -> None:
    terminal = Terminal()

    def read(prompt: str) -> str:
        if at in prompt:
            raise stop
        return terminal.read(prompt)

    with pytest.raises(Stopped, match="nothing was written") as caught:
        ask(terminal.echo, read, tmp_path / "x.toml")
    assert caught.value.exit_code == 1
    assert list(tmp_path.iterdir()) == []


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

"""One table of commands and inputs with the exit codes expected, and what a user sees and finds on the disk."""

from __future__ import annotations

import json
import os
import shutil
import signal
import unicodedata
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from bellowscut.cli import main
from bellowscut.profile import shipped
from bellowscut.terminal import plain
from tests.conftest import FIVE_LINES

FILES = {
    "patterns.pdf",
    "worksheet.pdf",
    "pictures.pdf",
    *(f"picture-{name}.svg" for name in ("bellows-closed", "bellows-half-open", "bellows-open", "corner", "valley-cell", "parts")),
    "patterns.svg",
    "patterns.dxf",
    "templates.svg",
    "templates.dxf",
    "summary.json",
    "summary.txt",
    "cutlist.csv",
    "profile.toml",
    ".bellowscut.json",
}


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder to work in, with some profiles, sound and unsound."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "good.toml").write_text(FIVE_LINES)
    (tmp_path / "thick.toml").write_text(FIVE_LINES + '[form]\nply = "18 mm"\nback = "40 mm"\n')
    (tmp_path / "deep.toml").write_text(FIVE_LINES.replace("25 mm", "60 mm"))
    (tmp_path / "broken.toml").write_text("format = 1\n[section\n")
    (tmp_path / "binary.toml").write_bytes(bytes(range(256)))
    (tmp_path / "empty.toml").write_text("")
    (tmp_path / "file").write_text("mine")
    (tmp_path / "letter.pdf").write_text("mine")
    (tmp_path / "empty.csv").touch()
    (tmp_path / "cr.csv").write_bytes(b"job,what,took,unit\nregusset,cl\rean,61,min\n")
    (tmp_path / "cell.csv").write_bytes(b"job,what,took,unit\nregusset," + b"x" * 131_073 + b",61,min\n")
    (tmp_path / "long.toml").write_text(f'job_book = "{"é" * 190}.csv"\n', encoding="utf-8")
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "notes.txt").write_text("mine")
    (tmp_path / "link").symlink_to(tmp_path / "mine")
    return tmp_path


def run(*words: str, given: str | None = None) -> Result:
    return CliRunner().invoke(main, list(words), prog_name="bellowscut", input=given)


WORDS: tuple[tuple[str, int, str], ...] = (
    ("--help", 0, "Commands:"),
    ("--version", 0, "bellowscut"),
    ("make --help", 0, "--all-pieces"),
    ("profiles", 0, "six-sided-treble"),
    ("check good.toml", 0, "gluing distance"),
    ("check square-box --job regusset --also hinge", 0, "hinge"),
    ("check square-box --also bellows-paper", 0, "Facing"),
    ("check square-box --job regusset --also inner_hinge", 0, "Valley hinge"),
    ("check single-fold-baby --job strips", 0, "Edge strip"),
    ("make good.toml --format svg", 0, "good-patterns"),
    ("new fresh.toml --plain", 0, "fresh.toml"),
    ("quote six-sided-old-gusset --job regusset", 0, "six-sided-old-gusset-quote.pdf"),
    ("quote six-sided-treble --value 450 --out a.pdf --paper a5", 0, "per cent of what"),
    ("quote --like square-box --condition good", 0, "Between"),
    ("quote --like square-box --condition perished --value 9", 0, "fetch"),
    ("quote", 2, "PROFILE"),
    ("quote six-sided-treble --like square-box --condition good", 2, "not both"),
    ("quote six-sided-treble --condition good", 2, "--condition belongs to --like"),
    ("quote --like square-box", 2, "--condition"),
    ("quote --like good.toml --condition good", 2, "does not ship"),
    ("quote --like square-box --condition poor", 2, "leaky"),
    ("quote six-sided-treble --value nan", 2, "is no amount"),
    ("quote six-sided-treble --value -4", 2, "is no amount"),
    ("quote six-sided-treble --date tomorrow", 2, "is no date"),
    ("quote six-sided-treble --out file", 2, ".pdf"),
    ("quote six-sided-treble --out no/where.pdf", 2, "no folder"),
    ("quote six-sided-treble --out letter.pdf", 2, "already"),
    ("quote six-sided-treble --out letter.pdf --force", 2, "it is not as bellowscut quote wrote it"),
    ("quote good.toml", 2, "costs.labour_rate: is missing"),
    ("quote deep.toml", 2, "deep.toml:8"),
    ("quote six-sided-treble --workshop nowhere.toml", 2, "nowhere.toml"),
    ("quote six-sided-treble --workshop good.toml", 2, "belongs in a profile"),
    ("quote six-sided-treble --book nowhere.csv", 2, "no such job book"),
    ("quote six-sided-treble --book file", 2, "file:1"),
    ("job-book six-sided-treble --minutes clean=50 --date 2026-01-31", 2, "is no operation of this job"),
    ("job-book six-sided-treble --job regusset --minutes clean=50 --date 2026-01-31", 0, "Noted in job-book.csv: 1 line"),
    ("job-book six-sided-treble --job regusset --minutes clean=50 --minutes clean=60", 2, "given twice"),
    ("job-book six-sided-treble --job regusset --minutes clean", 2, "glue-gussets=135"),
    ("job-book six-sided-treble --job regusset --minutes clean=0", 2, "over 0"),
    ("job-book six-sided-treble --job regusset --minutes clean=1e-999999", 2, "at least 0.001"),
    ("job-book six-sided-treble --job regusset --leather x=0.0000001dm2", 2, "is no material"),
    ("job-book six-sided-treble --job regusset --minutes clean=9 --book empty.csv", 0, "Noted in empty.csv: 1 line"),
    ("check six-sided-treble --book empty.csv", 0, "invented minutes"),
    (f"job-book six-sided-treble --job regusset --minutes clean=9 --book {'b' * 300}.csv", 2, "too long"),
    ("job-book six-sided-treble --job regusset --minutes clean=9 --workshop long.toml", 2, "too long"),
    (f"check six-sided-treble --book {'b' * 300}.csv", 2, "too long"),
    ("job-book six-sided-treble --job regusset --minutes clean=9 --book no/where.csv", 2, "no folder"),
    ("job-book six-sided-treble --job regusset --minutes clean=9 --book file/where.csv", 2, "Not a directory"),
    ("job-book six-sided-treble --job regusset --minutes clean=9 --book mine", 2, "mine"),
    ("job-book six-sided-treble --job regusset --minutes clean=9 --book cr.csv", 2, "cr.csv:2"),
    ("check six-sided-treble --book cell.csv", 2, "cell.csv:2: does not read as CSV"),
    ("job-book six-sided-treble --job regusset --leather goat=1dm2", 2, "is no material of this job"),
    ("job-book six-sided-treble --job regusset --leather", 2, "--leather"),
    ("job-book six-sided-treble --job regusset --minutes clean=9 --book file", 2, "file:1"),
    ("check six-sided-treble --workshop file", 2, "TOML"),
    ("make six-sided-treble --job patches --format svg", 0, "Corner patch"),
    ("make six-sided-treble --job cover --format dxf", 0, "Cover gusset"),
    ("measuring-sheet", 0, "measuring-sheet.pdf: 2 pages"),
    ("measuring-sheet --section rectangle --sides 4 --paper letter --out r.pdf", 0, "r.pdf"),
    ("measuring-sheet --section measured --sides 64 --out m.pdf", 0, "m.pdf"),
    ("measuring-sheet --sides 2", 2, "from 3 to 64"),
    ("measuring-sheet --sides 65", 2, "from 3 to 64"),
    ("measuring-sheet --sides six", 2, "six"),
    ("measuring-sheet --section rectangle --sides 5", 2, "four sides"),
    ("measuring-sheet --section round", 2, "rectangle"),
    ("measuring-sheet --paper a9", 2, "paper"),
    ("measuring-sheet --out file", 2, ".pdf"),
    ("measuring-sheet --out no/where.pdf", 2, "no folder"),
    ("measuring-sheet --out letter.pdf", 2, "already"),
    ("measuring-sheet --out letter.pdf --force", 2, "it is not as bellowscut measuring-sheet wrote it"),
    ("measuring-sheet six-sided-treble", 2, "six-sided-treble"),
    ("form six-sided-treble --format pdf", 0, "key segment"),
    ("form good.toml --cutter laser --format svg --out f", 0, "Written to f"),
    ("form single-fold-baby --format dxf --dxf r12", 0, "single-fold-baby-form"),
    ("form", 2, "PROFILE"),
    ("form nowhere.toml", 2, "nowhere.toml"),
    ("form deep.toml", 2, "deep.toml:8"),
    ("form thick.toml", 1, "no room for a core"),
    ("form good.toml --out mine", 2, "mine"),
    ("form good.toml --cutter saw", 2, "laser"),
    ("check", 2, "PROFILE"),
    ("check nowhere.toml", 2, "nowhere.toml"),
    ("check six-sided-trebel", 2, "six-sided-treble"),
    ("check mine", 2, "folder"),
    ("check broken.toml", 2, "broken.toml:2"),
    ("check binary.toml", 2, "UTF-8"),
    ("check empty.toml", 2, "section"),
    ("check deep.toml", 2, "deep.toml:8: bellows.fold_depth: is"),
    ("make deep.toml", 2, "must be under"),
    ("make good.toml --paper a9", 2, "paper"),
    ("make good.toml --paper 20x20", 2, "20"),
    ("make good.toml --job everything", 2, "regusset"),
    ("make good.toml --also gussett", 2, "gusset"),
    ("make good.toml --format gif", 2, "svg"),
    ("make good.toml --flatten 0", 2, "0.01"),
    ("make good.toml --flatten nan", 2, "length"),
    ("make good.toml --out mine", 2, "mine"),
    ("make good.toml --out mine --force", 2, "notes.txt"),
    ("make good.toml --out file --force", 2, "file"),
    ("make good.toml --out link --force", 2, "link"),
    ("make good.toml --out no/where", 2, "no"),
    ("new good.toml --plain", 2, "good.toml"),
    ("new good.toml", 2, "good.toml"),
    ("new other.toml --from nowhere", 2, "nowhere"),
    ("new other.toml", 1, "nothing was written"),
    ("unmake good.toml", 2, "unmake"),
)


@pytest.mark.parametrize(("words", "code", "told"), WORDS, ids=[row[0] for row in WORDS])
def test_words_give_their_exit_code(bench: Path, words: str, code: int, told: str) -> None:
    before = {path: path.read_bytes() for path in bench.rglob("*") if path.is_file()}
    result = run(*words.split(), given="")
    assert result.exit_code == code, result.output
    assert told in (result.stderr if code else result.stdout)
    assert "Traceback" not in result.output
    if code:
        # With an error nothing is written and nothing is lost.
        assert {path: path.read_bytes() for path in bench.rglob("*") if path.is_file()} == before


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this platform has no pipes with a name")
def test_a_pipe_where_the_job_book_should_be(bench: Path) -> None:
    os.mkfifo(bench / "job-book.csv")
    result = run("job-book", "six-sided-treble", "--job", "regusset", "--minutes", "clean=9")
    assert (result.exit_code, "pipe or device" in result.stderr) == (2, True)


@pytest.mark.parametrize("name", shipped())
def test_every_shipped_profile_is_made(bench: Path, name: str) -> None:
    result = run("make", name, "--out", "set")
    assert result.exit_code == 0, result.output
    assert {path.name for path in (bench / "set").iterdir()} == FILES
    told = json.loads((bench / "set" / "summary.json").read_text())
    assert told["derived"]["travel"] > 0
    # What was used is kept, and makes the same set again, byte for byte.
    again = run("make", str(bench / "set" / "profile.toml"), "--out", "again")
    assert again.exit_code == 0, again.output
    for path in (bench / "set").iterdir():
        assert (bench / "again" / path.name).read_bytes() == path.read_bytes(), path.name


def test_inches_and_millimetres_make_the_same_set(bench: Path) -> None:
    for stem, size, depth in (("inch", "6 1/4 in", "25.4 mm"), ("metric", "158.75 mm", "1 in")):
        folder = bench / stem
        folder.mkdir()
        (folder / "box.toml").write_text(FIVE_LINES.replace("6 1/4 in", size).replace("25 mm", depth))
        assert run("make", str(folder / "box.toml"), "--out", str(folder / "set")).exit_code == 0
    for name in FILES:
        assert (bench / "inch" / "set" / name).read_bytes() == (bench / "metric" / "set" / name).read_bytes(), name


def test_an_older_set_is_replaced_only_when_asked(bench: Path) -> None:
    assert run("make", "good.toml", "--out", "set", "--format", "svg").exit_code == 0
    assert run("make", "good.toml", "--out", "set").exit_code == 2
    assert not (bench / "set" / "patterns.pdf").exists()
    assert run("make", "good.toml", "--out", "set", "--force").exit_code == 0
    assert {path.name for path in (bench / "set").iterdir()} == FILES


def drawn_in(names: set[str], kind: str) -> set[str]:
    """The drawings of a kind; papers to read and to count by are none."""
    return {name for name in names if name.endswith(f".{kind}") and name != "worksheet.pdf"}


@pytest.mark.parametrize("kind", ["pdf", "svg", "dxf"])
@pytest.mark.parametrize("command", ["make", "form", "layout --seconds 0.1 --job patches --cutter laser"])
def test_a_format_limits_drawings_and_nothing_else(bench: Path, command: str, kind: str) -> None:
    result = run(*command.split(), "good.toml", "--out", "set", "--format", kind)
    assert result.exit_code == 0, result.output
    found = {path.name for path in (bench / "set").iterdir()}
    papers = {"summary.txt", "summary.json"} | {
        "make": {"worksheet.pdf", "cutlist.csv", "profile.toml"},
        "form": set(),
        "layout": {"layout.json"},
    }[command.split(maxsplit=1)[0]]
    assert drawn_in(found, kind)
    assert found == {".bellowscut.json"} | papers | drawn_in(found, kind)
    # What is said to be written is what was.
    assert set(result.stdout.split("Written to set")[1].split("\n", 1)[1].strip().split(", ")) == found - {".bellowscut.json"}


def test_a_set_of_one_command_never_takes_the_place_of_another(bench: Path) -> None:
    assert run("form", "good.toml", "--out", "set", "--format", "svg").exit_code == 0
    before = {path.name: path.read_bytes() for path in (bench / "set").iterdir()}
    for words in ("make good.toml", "layout good.toml --seconds 0.1 --job strips"):
        result = run(*words.split(), "--out", "set", "--force")
        assert (result.exit_code, "bellowscut form has written" in result.stderr) == (2, True)
    assert {path.name: path.read_bytes() for path in (bench / "set").iterdir()} == before
    assert run("form", "good.toml", "--out", "set", "--format", "dxf", "--force").exit_code == 0


def test_a_profile_in_the_set_is_never_lost(bench: Path) -> None:
    """Neither the one that the set is made from, nor one that somebody has changed."""
    kept = bench / "set" / "profile.toml"
    assert run("make", "good.toml", "--out", "set", "--format", "svg").exit_code == 0
    result = run("make", "set/profile.toml", "--out", "set", "--force", "--also", "facing")
    assert (result.exit_code, "holds profile.toml, which the set is made from" in result.stderr) == (2, True)
    kept.write_text(kept.read_text() + "# mine\n")
    result = run("make", "good.toml", "--out", "set", "--force")
    assert (result.exit_code, "holds profile.toml, which is not as it was written" in result.stderr) == (2, True)
    assert kept.read_text().endswith("# mine\n")


def test_a_page_of_one_command_never_takes_the_place_of_another(bench: Path) -> None:
    assert run("measuring-sheet", "--out", "page.pdf").exit_code == 0
    before = (bench / "page.pdf").read_bytes()
    result = run("quote", "six-sided-treble", "--out", "page.pdf", "--force")
    assert (result.exit_code, (bench / "page.pdf").read_bytes()) == (2, before)


@pytest.mark.parametrize("name", ["SIGTERM", "SIGHUP"])
@pytest.mark.parametrize("words", ["make good.toml --format dxf", "measuring-sheet"])
def test_a_stopped_run_leaves_nothing_behind(bench: Path, words: str, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    number = getattr(signal, name)
    before = sorted(bench.iterdir())
    seen: list[str] = []

    def stopped(_: int) -> None:
        seen.extend(path.name for path in bench.iterdir() if path.name.startswith(".bellowscut-"))
        os.kill(os.getpid(), number)

    with monkeypatch.context() as full:
        full.setattr(os, "fsync", stopped)
        result = run(*words.split())
    assert (result.exit_code, len(seen)) == (128 + number, 1)
    assert sorted(bench.iterdir()) == before
    assert signal.getsignal(number) is signal.SIG_DFL


def test_a_stop_that_is_ignored_stays_ignored(bench: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As ``nohup`` asks."""
    sync = os.fsync

    def stopped(handle: int) -> None:
        os.kill(os.getpid(), signal.SIGHUP)
        sync(handle)

    before = signal.signal(signal.SIGHUP, signal.SIG_IGN)
    try:
        monkeypatch.setattr(os, "fsync", stopped)
        assert run("measuring-sheet").exit_code == 0
    finally:
        signal.signal(signal.SIGHUP, before)
    assert (bench / "measuring-sheet.pdf").exists()


def test_an_older_sheet_is_replaced_only_when_asked(bench: Path) -> None:
    assert run("measuring-sheet").exit_code == 0
    first = (bench / "measuring-sheet.pdf").read_bytes()
    again = run("measuring-sheet", "--section", "rectangle")
    assert (again.exit_code, (bench / "measuring-sheet.pdf").read_bytes()) == (2, first)
    assert run("measuring-sheet", "--section", "rectangle", "--force").exit_code == 0
    assert (bench / "measuring-sheet.pdf").read_bytes() != first
    assert [path.name for path in bench.iterdir() if path.name.startswith(".")] == []


def test_warnings_do_not_stop_a_set(bench: Path) -> None:
    (bench / "worn.toml").write_text(FIVE_LINES + 'old_closed_length = "30 mm"\n')
    result = run("make", "worn.toml", "--out", "set")
    assert result.exit_code == 0
    assert "it will not go back in its case" in " ".join(result.stdout.split())
    assert [note["code"] for note in json.loads((bench / "set" / "summary.json").read_text())["warnings"]] == ["closed-length"]


def test_mirrored_leather_says_so_everywhere(bench: Path) -> None:
    assert run("make", "good.toml", "--out", "set", "--mirror").exit_code == 0
    assert "This is the grain side" in (bench / "set" / "summary.txt").read_text()
    assert "shows the grain side" in (bench / "set" / "patterns.svg").read_text()
    sides = {part["kind"]: part["side"] for part in json.loads((bench / "set" / "summary.json").read_text())["parts"]}
    assert sides["gusset"] == "grain"
    assert sides["card"] == "outside"


def test_a_pipe_gets_plain_text(bench: Path) -> None:
    assert (bench / "good.toml").is_file()
    assert "\x1b" not in run("check", "good.toml").output


EVIL = "a\x1b]0;owned\x07\x9b31m\x7f\u202eb\u2066c\u200fd\u061c\U000e0041"
"""Steers a terminal, turns the direction of writing, and hides."""


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (f"check {EVIL}.toml", 2),
        (f"check {EVIL}", 2),
        (f"check {EVIL}/there.toml", 2),
        (f"make there-{EVIL}.toml --format dxf", 0),
        (f"make good.toml --format {EVIL}", 2),
        (f"make good.toml --out no-{EVIL}/set", 2),
        (f"make good.toml --{EVIL}", 2),
        (f"make good.toml --also {EVIL}", 2),
        (f"make good.toml --paper {EVIL}", 2),
        (f"make good.toml {EVIL}", 2),
        (f"-{EVIL}", 2),
        (EVIL, 2),
        (f"layout good.toml --seconds {EVIL}", 2),
        (f"quote six-sided-treble --value {EVIL}", 2),
        (f"quote --like {EVIL} --condition good", 2),
        (f"measuring-sheet --out {EVIL}.pdf", 0),
        (f"job-book good.toml --minutes {EVIL}=5", 2),
        (f"job-book good.toml --minutes clean=5 --book no-{EVIL}/b.csv", 2),
        (f"job-book good.toml --leather {EVIL}=5dm2", 2),
        ("check good.toml --book evil.csv", 2),
        ("check evil.toml", 2),
        (f"new {EVIL}.toml --plain", 0),
    ],
    ids=lambda value: value.replace(EVIL, "EVIL") if isinstance(value, str) else None,
)
def test_nothing_that_is_named_or_read_steers_a_terminal(bench: Path, words: str, code: int) -> None:
    (bench / f"there-{EVIL}.toml").write_text(FIVE_LINES, encoding="utf-8")
    (bench / "evil.toml").write_text(f'"{EVIL.replace(chr(0x1B), "").replace(chr(7), "").replace(chr(0x7F), "")}" = 1\n', encoding="utf-8")
    (bench / "evil.csv").write_text(f"job,what,took,unit\n{EVIL},x,1,min\nregusset,{EVIL},1,min\n", encoding="utf-8")
    result = run(*words.split())
    assert result.exit_code == code, result.output
    assert {c for c in result.output if unicodedata.category(c) in ("Cc", "Cf", "Cs")} <= {"\n"}


def test_letters_of_any_script_reach_the_terminal() -> None:
    told = "Čeština ελ кир 日本 \u0645\u06cc\u200c\u062e\u0648\u0627\u0647\u0645 a\u00a0b\tc\n"
    assert plain(told) == told
    assert plain("a\u202eb\x1b[31m\r\ud800") == "a?b?[31m??"


@pytest.mark.skipif(shutil.which("script") is None, reason="needs a program that gives a terminal")
@pytest.mark.parametrize(("value", "coloured"), [("", True), ("1", False)])
def test_a_terminal_is_coloured_unless_asked_not_to(bench: Path, value: str, coloured: bool) -> None:
    import subprocess
    import sys

    command = f"{sys.executable} -m bellowscut check six-sided-deep"
    environment = {**os.environ, "NO_COLOR": value, "TERM": "xterm", "PYTHONPATH": str(Path(__file__).parents[1])}
    told = subprocess.run(
        ["script", "-qec", command, "/dev/null"], env=environment, cwd=bench, stdin=subprocess.DEVNULL, capture_output=True, check=True
    )
    assert (b"\x1b[1m" in told.stdout) is coloured
    assert b"gluing distance" in told.stdout


@pytest.mark.parametrize(
    ("words", "offered"),
    [("check six-sided-tr", "six-sided-treble"), ("make x --also fac", "facing"), ("make x --paper tab", "tabloid"), ("mak", "make")],
)
def test_the_shell_completes(words: str, offered: str) -> None:
    result = CliRunner().invoke(
        main,
        prog_name="bellowscut",
        env={"_BELLOWSCUT_COMPLETE": "bash_complete", "COMP_WORDS": f"bellowscut {words}", "COMP_CWORD": str(len(words.split()))},
    )
    assert f"plain,{offered}" in result.output

"""What a command does not need, it does not load: held by module names, since milliseconds differ between machines."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import FIVE_LINES
from tests.hanging import HANG

ROOT = Path(__file__).parents[1]

WRITERS = {"ezdxf", "reportlab", "svgwrite"}
LETTERS = {"HersheyFonts", "anyascii", "font_source_sans_pro"}
HEAVY = WRITERS | LETTERS | {"numpy", "shapely"}

RUN = """
import json, sys
from bellowscut.cli import main
code = main(sys.argv[1:], prog_name="bellowscut", standalone_mode=False)
print(json.dumps([code, sorted({name.split(".")[0] for name in sys.modules})]), file=sys.stderr)
"""


def loaded(*arguments: str) -> tuple[str, set[str]]:
    """What a command prints, and the top names of all modules loaded when it is done."""
    done = subprocess.run(
        [sys.executable, "-c", RUN, *arguments], cwd=ROOT, capture_output=True, text=True, encoding="utf-8", check=False, timeout=HANG
    )
    assert done.returncode == 0, done.stderr
    code, names = json.loads(done.stderr.splitlines()[-1])
    assert not code, done.stderr
    return done.stdout, set(names)


TIDY = """
import atexit, gc
from bellowscut.cli import main
first = gc.get_threshold()
main(["--help"], standalone_mode=False)
print("given", gc.get_threshold() == first, file=__import__("sys").stderr)
atexit.register(lambda: print("own", gc.get_threshold()[0] > 10 * first[0], gc.get_freeze_count() > 0, file=__import__("sys").stderr))
main()
"""


def test_only_a_process_of_our_own_stops_looking_for_garbage() -> None:
    """Whoever calls the command line from a longer program keeps what that program has set."""
    done = subprocess.run([sys.executable, "-c", TIDY], cwd=ROOT, capture_output=True, text=True, encoding="utf-8", check=False)
    assert [line for line in done.stderr.splitlines() if line.startswith(("given", "own"))] == ["given True", "own True True"], done.stderr


@pytest.fixture
def profile(tmp_path: Path) -> str:
    path = tmp_path / "instrument.toml"
    path.write_text(FIVE_LINES, encoding="utf-8")
    return str(path)


@pytest.mark.parametrize("arguments", [["--help"], ["make", "--help"], ["new", "--help"]], ids=" ".join)
def test_help_loads_nothing_heavy(arguments: list[str]) -> None:
    printed, names = loaded(*arguments)
    assert printed.strip()
    assert "click" in names
    assert not names & HEAVY


def test_check_loads_no_writer(profile: str) -> None:
    printed, names = loaded("check", profile)
    assert printed.strip()
    assert "bellowscut" in names
    assert not names & (WRITERS | LETTERS)


def test_make_loads_the_writers_it_needs_and_no_other(profile: str, tmp_path: Path) -> None:
    """Proves as well that the names looked for above are those that the libraries go by."""
    _, names = loaded("make", profile, "--out", str(tmp_path / "all"))
    assert names >= WRITERS
    _, names = loaded("make", profile, "--out", str(tmp_path / "pdf"), "--format", "pdf")
    assert names & WRITERS == {"reportlab"}

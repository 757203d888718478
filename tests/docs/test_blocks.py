"""Shell blocks of the documentation run, and print what they are said to print."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.docs.texts import PAGES, ROOT, Block, blocks, named, read
from tests.hanging import HANG

FIRST = "python3 -m venv .venv && .venv/bin/pip install . && .venv/bin/bellowscut make six-sided-treble\n"
SECOND = ".venv/bin/pip install '.[test]' && .venv/bin/python -m pytest\n"

FIVE = re.compile(r"^\.venv/bin/(pip install '\.\[test\]'|python -m pytest|ruff check \.|ruff format --check \.|mypy)$", re.MULTILINE)

RUNNABLE = ("sh", "console")
BASH = shutil.which("bash")


def runnable(page: Path) -> tuple[Block, ...]:
    """Blocks of a page that are run here; the README's first two would install the program and run these tests."""
    found = tuple(block for block in blocks(read(page)) if block.language in RUNNABLE)
    return found[2:] if page == ROOT / "README.md" else found


def script(block: Block) -> str:
    """What a shell is to run for a block."""
    if block.language == "sh":
        return block.text
    return "\n".join(line.removeprefix("$ ") for line in block.text.splitlines() if line.startswith("$ "))


def missing(shown: str, printed: str) -> list[str]:
    """Lines of a console block that do not follow each other in what was printed; ``...`` stands for any lines."""
    rest: Iterator[str] = iter([" ".join(line.split()) for line in printed.splitlines()])
    loose = True
    for line in shown.splitlines():
        if line.startswith("$ "):
            continue
        if line.strip() == "...":
            loose = True
            continue
        wanted = " ".join(line.split())
        following = rest if loose else [next(rest, "")]
        if not any(one == wanted for one in following):
            return [line]
        loose = False
    return []


@pytest.fixture(scope="module")
def environment(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """A shell in which `bellowscut` is the program of this checkout."""
    place = tmp_path_factory.mktemp("bin")
    entry = place / "bellowscut"
    entry.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m bellowscut "$@"\n', encoding="utf-8")
    entry.chmod(0o755)
    return {**os.environ, "PATH": f"{place}{os.pathsep}{os.environ['PATH']}", "PYTHONPATH": str(ROOT), "PYTHONUTF8": "1", "NO_COLOR": "1"}


@pytest.mark.skipif(BASH is None, reason="there is no bash to run shell blocks with")
@pytest.mark.parametrize("page", [page for page in PAGES if runnable(page)], ids=named)
def test_shell_blocks_run(page: Path, tmp_path: Path, environment: dict[str, str]) -> None:
    assert BASH is not None
    for block in runnable(page):
        done = subprocess.run(
            [BASH, "-eu", "-c", script(block)], cwd=tmp_path, env=environment, capture_output=True, text=True, check=False, timeout=HANG
        )
        where = f"{named(page)}, line {block.line}"
        assert done.returncode == 0, f"{where}: {done.stderr}"
        if block.language == "console":
            absent = missing(block.text, done.stdout)
            assert not absent, f"{where}: {absent[0]!r} is not printed there any more:\n{done.stdout}"


def test_other_output_is_noticed() -> None:
    printed = "one\ntwo   2\nthree\nfour\n"
    assert missing("$ x\none\n...\nthree\n...\n", printed) == []
    assert missing("$ x\n...\ntwo 2\nthree\n", printed) == []
    assert missing("$ x\none\nthree\n", printed) == ["three"]
    assert missing("$ x\n...\nthree\n...\ntwo 2\n", printed) == ["two 2"]
    assert missing("$ x\n...\nfive\n", printed) == ["five"]


def test_the_readme_begins_with_the_two_commands() -> None:
    first, second, *_ = blocks(read(ROOT / "README.md"))
    assert (first.language, first.text) == ("sh", FIRST)
    assert (second.language, second.text) == ("sh", SECOND)


def test_every_block_says_what_it_is() -> None:
    for page in PAGES:
        for block in blocks(read(page)):
            assert block.language in (*RUNNABLE, "text", "toml"), f"{named(page)}, line {block.line}"


def test_the_five_commands_are_those_of_ci() -> None:
    """Install and test are the README's second block, which CI runs as it stands; the others are called by name."""
    block = next(block for block in blocks(read(ROOT / "DEVELOPERS.md")) if "ruff" in block.text)
    five = block.text.splitlines()
    assert len(five) == len(FIVE.findall(block.text)) == 5
    runs = read(ROOT / ".ci" / "run").replace('"$bin/', "").replace('"', "")
    for command in five:
        words = command.removeprefix(".venv/bin/")
        assert words in SECOND or words in runs.splitlines(), command

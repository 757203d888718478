"""Reading the documentation: its files, blocks, spans of code, headings and links."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]

PAGES = (ROOT / "README.md", ROOT / "DEVELOPERS.md", ROOT / "output_examples" / "README.md", *sorted((ROOT / "docs").glob("*.md")))
"""Every page of the documentation."""

FOR_USERS = tuple(page for page in PAGES if page.name != "DEVELOPERS.md")

_FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_SPAN = re.compile(r"`([^`\n]+)`")
_LINK = re.compile(r"!?\[[^\]]*\]\(([^)\s]+)\)")
_HEADING = re.compile(r"^#+ (.+)$", re.MULTILINE)


@dataclass(frozen=True)
class Block:
    """One fenced block of a page: its language, its text, and the line where it begins."""

    language: str
    text: str
    line: int


def named(page: Path) -> str:
    """How a page is called in the names of tests."""
    return page.relative_to(ROOT).as_posix()


def read(page: Path) -> str:
    return page.read_text(encoding="utf-8")


def blocks(text: str) -> tuple[Block, ...]:
    return tuple(Block(found[1], found[2], text.count("\n", 0, found.start()) + 1) for found in _FENCE.finditer(text))


def prose(text: str) -> str:
    """A page without its fenced blocks."""
    return _FENCE.sub("", text)


def spans(text: str) -> tuple[str, ...]:
    """Everything between single backticks outside of blocks."""
    return tuple(_SPAN.findall(prose(text)))


def links(text: str) -> tuple[str, ...]:
    return tuple(_LINK.findall(prose(text)))


def anchors(text: str) -> Iterator[str]:
    """Names by which the headings of a page can be linked to."""
    for heading in _HEADING.findall(prose(text)):
        yield re.sub(r"[^\w -]", "", heading).strip().lower().replace(" ", "-")


def table(text: str, first: str) -> tuple[tuple[str, ...], ...]:
    """Rows of the table whose heading row begins with a cell, without that row."""
    lines = text.splitlines()
    start = next(i for i, line in enumerate(lines) if line.startswith(f"| {first} |"))
    rows = []
    for line in lines[start + 2 :]:
        if not line.startswith("|"):
            break
        rows.append(tuple(cell.strip() for cell in line.strip("|").split("|")))
    return tuple(rows)

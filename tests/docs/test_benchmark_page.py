"""Figures of speed in the documentation say what they were measured on, and are put there by the command that measures them."""

from __future__ import annotations

import re

from bellowscut import __version__
from tests.benchmark import speed
from tests.docs.texts import read


def rows(text: str) -> list[dict[str, str]]:
    """Every row of every table of a page, by the heads of its columns."""
    found = []
    for block in re.findall(r"(?:^\|.*\n)+", text, re.MULTILINE):
        head, _, *lines = ([cell.strip() for cell in line.strip("|\n").split("|")] for line in block.splitlines())
        found += [dict(zip(head, line, strict=True)) for line in lines]
    return found


def test_every_figure_names_its_version() -> None:
    found = rows(read(speed.PAGE))
    assert len(found) > len(speed.TOLD)
    assert [row for row in found if not re.fullmatch(r"\d+\.\d+\.\d+", row.get("version", ""))] == []


def test_the_figures_of_speed_are_those_of_this_version_as_the_command_writes_them() -> None:
    """When this fails after a new version: ``python tests/benchmark/speed.py --write``."""
    text = read(speed.PAGE)
    told = re.search(r"Medians of (?P<runs>\d+) runs on (?P<cores>\d+) cores with (?P<python>\w+ [\d.]+)\.", text)
    assert told is not None
    figures = {row["figure"].strip("`"): row["value"] for row in rows(text) if "figure" in row}
    assert speed.table({**told.groupdict(), **figures, "version": __version__}) in text

"""The rule of this folder: every check names where its figures come from."""

from __future__ import annotations

import importlib
from pathlib import Path

import pytest

from bellowscut.sources import SOURCES

ONLY_CHECKED = {
    "solids": "Handbooks of solid geometry: pyramids of equilateral faces, the corner of a cube",
    "papyrus": "Moscow mathematical papyrus, problem 14",
    "sine-bar": "Constants for setting a 5-inch sine bar, engineers' handbooks, e.g. Machinery's Handbook",
    "bulk": "ISO 534, paper and board: bulking thickness of a pack",
    "rigid-polyhedra": "Connelly, Sabitov and Walz, The bellows conjecture (1997)",
}
"""Sources that no value of the program comes from, but that its results must agree with."""

FILES = sorted(path for path in Path(__file__).parent.glob("test_*.py") if path != Path(__file__))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_file_names_a_known_source(path: Path) -> None:
    module = importlib.import_module(f"tests.handbook.{path.stem}")
    mark = module.pytestmark
    assert mark.name == "source"
    assert mark.args[0] in {**SOURCES, **ONLY_CHECKED}
    assert module.__doc__, "the source's title and what it says stand at the head of the file"


def test_no_two_files_share_a_source() -> None:
    keys = [importlib.import_module(f"tests.handbook.{path.stem}").pytestmark.args[0] for path in FILES]
    assert len(FILES) >= 18
    assert sorted(keys) == sorted(set(keys))

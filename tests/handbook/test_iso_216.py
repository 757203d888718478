"""ISO 216: A0 is 841 x 1189 mm, and each size is the one before cut in half, rounded down to whole millimetres."""

from __future__ import annotations

import pytest

from bellowscut.pages.papers import PAPERS, paper

pytestmark = pytest.mark.source("iso-216")

PRINTED = {"a0": (841, 1189), "a1": (594, 841), "a2": (420, 594), "a3": (297, 420), "a4": (210, 297)}


def test_printed_sizes() -> None:
    for name, size in PRINTED.items():
        assert paper(name) == size


def test_every_size_is_a_half_of_a0() -> None:
    width, height = 841, 1189
    halves = {"a0": (width, height)}
    for number in range(1, 11):
        width, height = height // 2, width
        halves[f"a{number}"] = (width, height)
    named = {name: size for name, size in PAPERS.items() if name.startswith("a") and name[1:].isdigit()}
    assert set(PRINTED) <= set(named)
    assert named == {name: halves[name] for name in named}

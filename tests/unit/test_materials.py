"""Materials: the built-in five, areas and grades."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bellowscut.materials import BUILT_IN, GRADE_SHARES, GUSSET_SKIN, Material


def test_the_built_in_ones() -> None:
    """Card, skins: common practice; linen's use published, sizes from memory; paper invented."""
    told = {name: (m.form, m.thickness, m.size) for name, m in BUILT_IN.items()}
    assert told == {
        "grey card": ("sheet", 1.0, (1000, 700)),
        "gusset skin": ("skin", 0.4, None),
        "strip skin": ("skin", 0.6, None),
        "linen": ("roll", 0.2, (1000, 10000)),
        "facing paper": ("sheet", 0.15, (700, 500)),
        "cover skin": ("skin", 0.15, None),
    }
    assert {(m.neutral, m.waste, m.usable) for m in BUILT_IN.values()} == {(0.5, 20.0, 1.0)}


def test_piece_areas() -> None:
    assert GUSSET_SKIN.piece_area() == pytest.approx(5 * 92903.04)
    assert BUILT_IN["grey card"].piece_area() == 700_000
    assert BUILT_IN["linen"].piece_area() == 1_000_000
    bare = replace(GUSSET_SKIN, area=None)
    assert replace(bare, clear=(700.0, 400.0)).piece_area() == 280_000
    assert replace(bare, outline=((0.0, 0.0), (0.0, 300.0), (400.0, 0.0))).piece_area() == 60_000
    assert replace(bare, outline="tracing.svg").piece_area() == pytest.approx(464515.2)


def test_an_area_that_is_given_goes_before_a_rectangle() -> None:
    assert replace(GUSSET_SKIN, area=1000.0, clear=(700.0, 400.0)).piece_area() == 1000


def test_grades() -> None:
    """SATRA leather grading, mean usable share: A 97, B 93, C 88, D 83, E 78, F 73 per cent."""
    assert dict(GRADE_SHARES) == {"A": 0.97, "B": 0.93, "C": 0.88, "D": 0.83, "E": 0.78, "F": 0.73}
    assert Material("kid", form="skin", thickness=0.3, grade="D").usable == 0.83

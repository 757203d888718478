"""SATRA leather grading, as published in footwear costing manuals: five-point grades and their mean usable share.

A 97, B 93, C 88, D 83, E 78, F 73 per cent.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from bellowscut.estimate import gross_area
from bellowscut.materials import GRADE_SHARES, GUSSET_SKIN

pytestmark = pytest.mark.source("grading")

PRINTED = {"A": 97, "B": 93, "C": 88, "D": 83, "E": 78, "F": 73}


def test_shares() -> None:
    assert {grade: round(100 * share, 9) for grade, share in GRADE_SHARES.items()} == PRINTED


@pytest.mark.parametrize(("grade", "share"), PRINTED.items())
def test_a_skin_gives_its_share(grade: str, share: int) -> None:
    skin = replace(GUSSET_SKIN, grade=grade, waste=0.0)
    assert skin.usable == pytest.approx(share / 100)
    assert gross_area(share, skin) == pytest.approx(100), "of a skin of 100 the share can be used"


def test_a_skin_without_a_grade_counts_whole() -> None:
    assert gross_area(100, replace(GUSSET_SKIN, waste=0.0)) == 100

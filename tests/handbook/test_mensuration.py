"""Handbooks of mensuration: a frustum of height h between parallel faces A1 and A2 holds h/3 (A1 + A2 + sqrt(A1 A2)).

A bellows whose cards meet all along their legs is a frustum between ridge and valley.
"""

from __future__ import annotations

import math

import pytest

from bellowscut.folds import Corner, half_fold_volume
from bellowscut.section import regular, turns_of
from bellowscut.shapes import inset, perimeter, signed_area

pytestmark = pytest.mark.source("mensuration")


def meeting(turn: float, depth: float, stretch: float) -> Corner:
    """A corner whose cards, without gap, meet all along their legs at this stretch; its allowance found by halving."""
    low, high = -turn / 2, 0.0
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if Corner(turn, depth, 0, middle).opening(stretch) < 0 else (low, middle)
    return Corner(turn, depth, 0, high)


@pytest.mark.parametrize("sides", [3, 4, 6, 8, 12])
@pytest.mark.parametrize(("inward", "height"), [(8.0, 20.0), (20.0, 5.0), (0.0, 10.0)])
def test_a_frustum(sides: int, inward: float, height: float) -> None:
    base = regular(sides, 180, "side").points
    top = inset(base, (inward,) * sides)
    first, second = signed_area(base), signed_area(top)
    depth, stretch = math.hypot(inward, height), math.degrees(math.atan2(height, inward))
    corners = [meeting(turn, depth, stretch) for turn in turns_of(base)]
    expected = height / 3 * (first + second + math.sqrt(first * second))
    assert half_fold_volume(first, perimeter(base), corners, stretch) == pytest.approx(expected, rel=1e-9)


def test_leather_across_the_corners_takes_air_away() -> None:
    """With a gap the corners are cut off by flat leather: two frusta of triangles at each, whose volume the handbook gives too."""
    base = regular(6, 90, "side").points
    corner = Corner(60, 25, 1.5, 5)
    depth, stretch = 25.0, 60.0
    sharp = half_fold_volume(signed_area(base), perimeter(base), [meeting(60, depth, stretch)] * 6, stretch)
    height = depth * math.sin(math.radians(stretch))

    def cut_off(gap: float) -> float:
        """Area of the triangle behind a gap at a corner of 120 degrees inside."""
        return gap / 2 * (gap / 2) / math.tan(math.radians(60))

    first, second = cut_off(1.5), cut_off(corner.opening(stretch))
    lost = 6 * height / 3 * (first + second + math.sqrt(first * second))
    found = half_fold_volume(signed_area(base), perimeter(base), [corner] * 6, stretch)
    assert found == pytest.approx(sharp - lost, rel=1e-9)

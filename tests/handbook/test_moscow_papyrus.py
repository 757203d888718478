"""Moscow mathematical papyrus, problem 14: a truncated pyramid, 4 below, 2 above, 6 high, holds 56."""

from __future__ import annotations

import math

import pytest

from bellowscut.folds import half_fold_volume
from bellowscut.section import rectangular, turns_of
from bellowscut.shapes import perimeter, signed_area
from tests.handbook.test_mensuration import meeting

pytestmark = pytest.mark.source("papyrus")


def test_problem_14() -> None:
    base = rectangular(4, 4).points
    depth, stretch = math.hypot(1, 6), math.degrees(math.atan2(6, 1))
    corners = [meeting(turn, depth, stretch) for turn in turns_of(base)]
    assert half_fold_volume(signed_area(base), perimeter(base), corners, stretch) == pytest.approx(56, abs=1e-9)

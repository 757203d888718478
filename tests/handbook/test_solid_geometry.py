"""Handbooks of solid geometry: pyramids of equilateral faces, and the corner of a cube.

The base angle of a pyramid of equilateral faces is 70.5288 degrees with three
sides (the tetrahedron), 54.7356 with four, 37.3774 with five; its faces' mitre
is 30. A bellows of cards cut to that mitre, without gap, closes to it.
"""

from __future__ import annotations

import pytest

from bellowscut.folds import Corner
from tests.printed import printed

pytestmark = pytest.mark.source("solids")


@pytest.mark.parametrize(("sides", "angle"), [(3, "70.5288"), (4, "54.7356"), (5, "37.3774")])
def test_pyramids_of_equilateral_faces(sides: int, angle: str) -> None:
    turn = 360 / sides
    assert Corner(turn, 25, 0, 30 - turn / 2).stretch_for_opening(0) == printed(angle)


def test_cube_corner() -> None:
    """Four sides stood square, no allowance, no gap: two cards' legs are diagonals of a cube's faces and so is the valley between them."""
    corner = Corner(90, 10, 0, 0)
    assert corner.leg == printed("14.1421")
    assert corner.opening(90) == printed("14.1421")
    assert corner.half_height(90) == printed("12.2474")


def test_half_gusset_of_the_cube_corner_is_equilateral() -> None:
    corner = Corner(90, 25, 0, 0)
    assert corner.opening(90) == pytest.approx(corner.leg, rel=1e-12)
    half_width, _ = corner.gusset_edge(90, 5, 5)
    # A parallel edge 5 away meets the valley line 5 / sin 60 further out.
    assert half_width - corner.opening(90) / 2 == printed("5.7735")

"""The regular-polygon table of any engineers' handbook, such as *Machinery's Handbook*.

Across corners and side for a flat of 1, and area for a flat squared of 1.
"""

from __future__ import annotations

import math

import pytest

from bellowscut.section import flats_of, regular, side_lengths_of
from bellowscut.shapes import perimeter, signed_area
from tests.printed import printed

pytestmark = pytest.mark.source("polygon-table")

TABLE = ((6, "1.1547", "0.5774", "0.8660"), (8, "1.0824", "0.4142", "0.8284"), (12, "1.0353", "0.2679", "0.8038"))


@pytest.mark.parametrize(("sides", "corners", "side", "area"), TABLE)
def test_from_the_flats(sides: int, corners: str, side: str, area: str) -> None:
    points = regular(sides, 1.0, "across-flats").points
    assert math.dist(points[0], points[sides // 2]) == printed(corners)
    assert side_lengths_of(points)[0] == printed(side)
    assert signed_area(points) == printed(area)
    assert perimeter(points) == pytest.approx(sides * float(side), abs=sides * 0.00005)


@pytest.mark.parametrize(("sides", "corners", "side", "area"), TABLE)
def test_from_the_corners_and_from_the_side(sides: int, corners: str, side: str, area: str) -> None:
    for points in (regular(sides, float(corners), "across-corners").points, regular(sides, float(side), "side").points):
        flats = flats_of(points)
        assert flats is not None
        assert flats[0] == pytest.approx(1, abs=0.00025), "the table's own rounding, at most 0.00005 in 0.2679"
        assert signed_area(points) == pytest.approx(float(area), abs=0.0005)

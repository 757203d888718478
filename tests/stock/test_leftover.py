"""What is left: sizes known beforehand, and a rectangle that really lies in what is left."""

from __future__ import annotations

import math
import random

import pytest
import shapely
from shapely import affinity

from bellowscut.stock.leftover import CELL, leftover

SHEET = ((0.0, 0.0), (600.0, 0.0), (600.0, 400.0), (0.0, 400.0))


def test_half_a_sheet_is_left() -> None:
    piece = ((0.0, 0.0), (300.0, 0.0), (300.0, 400.0), (0.0, 400.0))
    left = leftover(SHEET, (), [piece], 0.0, 0.0)
    # Opened by a disc of 50 mm, a rectangle loses no more than its corners.
    assert left.area == pytest.approx(300 * 400 - (4 - math.pi) * 25**2, rel=1e-3)
    assert left.size[0] == pytest.approx(400, abs=2 * CELL)
    assert left.size[1] == pytest.approx(300, abs=2 * CELL)
    assert left.size[0] <= 400
    assert left.size[1] <= 300


def test_narrow_places_are_waste() -> None:
    piece = ((45.0, 0.0), (600.0, 0.0), (600.0, 400.0), (45.0, 400.0))
    assert leftover(SHEET, (), [piece], 0.0, 0.0).area == 0
    thin = ((35.0, 0.0), *piece[1:3], (35.0, 400.0))
    assert leftover(SHEET, (), [thin], 0.0, 0.0).clear == ()


@pytest.mark.parametrize("seed", range(12))
def test_the_clear_rectangle_is_clear(seed: int) -> None:
    chance = random.Random(seed)
    pieces = []
    for _ in range(chance.randint(1, 12)):
        x, y, wide, high = chance.uniform(0, 500), chance.uniform(0, 320), chance.uniform(20, 100), chance.uniform(20, 80)
        pieces.append(((x, y), (x + wide, y), (x + wide, y + high), (x, y + high)))
    flaw = ((400.0, 100.0), (430.0, 100.0), (430.0, 130.0), (400.0, 130.0))
    backbone = chance.uniform(-90, 90)
    left = leftover(SHEET, (flaw,), pieces, 1.0, backbone)
    if not left.clear:
        return
    found = shapely.Polygon(left.clear)
    taken = shapely.union_all([shapely.Polygon(piece) for piece in (*pieces, flaw)])
    assert shapely.Polygon(SHEET).buffer(1e-6).covers(found)
    assert found.intersection(taken).area == 0
    box = affinity.rotate(found, -backbone, origin=(0, 0)).bounds
    assert found.area == pytest.approx((box[2] - box[0]) * (box[3] - box[1]))
    assert sorted(left.size) == pytest.approx(sorted((box[2] - box[0], box[3] - box[1])))


def test_no_larger_rectangle_of_cells_stands_free() -> None:
    """Every rectangle of whole cells is tried, on a sheet with a few holes."""
    sheet = ((0.0, 0.0), (140.0, 0.0), (140.0, 120.0), (0.0, 120.0))
    piece = ((60.0, 50.0), (64.0, 50.0), (64.0, 54.0), (60.0, 54.0))
    left = leftover(sheet, (), [piece], 0.0, 0.0)
    free = shapely.Polygon(sheet).difference(shapely.Polygon(piece))
    best = 0.0
    for x0 in range(0, 140, 4):
        for y0 in range(0, 120, 4):
            for x1 in range(x0 + 40, 141, 4):
                for y1 in range(y0 + 40, 121, 4):
                    if (x1 - x0) * (y1 - y0) > best and free.covers(shapely.box(x0, y0, x1, y1)):
                        best = (x1 - x0) * (y1 - y0)
    # The search allows for the middle of a cell, so that it may be a cell short on each side, never too large.
    assert best > 0
    assert left.size[0] * left.size[1] <= best + 1e-6
    assert left.size[0] * left.size[1] >= best - 4 * 2 * (140 + 120)

"""What is left of a piece of stock when its pieces are cut: the area that is of use, and the largest sound rectangle."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from shapely import affinity

from bellowscut.stock.model import Leftover, Polygon

OF_USE = 50.0
"""Narrower places than this are waste [mm], invented."""

CELL = 4.0
"""Grid on which the largest rectangle is looked for [mm]."""

LEAST_SIDE = 40.0
"""A rectangle with a shorter side is not worth telling [mm], invented."""


def leftover(outline: Polygon, flaws: Sequence[Polygon], pieces: Sequence[Polygon], gap: float, backbone: float) -> Leftover:
    """Find what is left.

    Parameters
    ----------
    outline : Polygon
        Of the stock [mm].
    flaws : sequence of Polygon
        Places that are no good [mm].
    pieces : sequence of Polygon
        What is cut out [mm].
    gap : float
        Kept round each piece [mm].
    backbone : float
        Direction in which the rectangle lies [deg].

    Returns
    -------
    Leftover
        Flaws count in its area, since they were there before, but not in its rectangle.
    """
    cut = shapely.union_all(shapely.buffer([shapely.Polygon(piece) for piece in pieces], gap / 2, join_style="mitre"))
    free = shapely.Polygon(outline).difference(cut)
    useful = free.buffer(-OF_USE / 2).buffer(OF_USE / 2)
    sound = free.difference(shapely.union_all([shapely.Polygon(flaw) for flaw in flaws])) if flaws else free
    level = affinity.rotate(sound, -backbone, origin=(0, 0))
    box = _largest(level)
    if box is None:
        return Leftover(float(useful.area))
    left, low, right, high = box
    corners = affinity.rotate(shapely.box(left, low, right, high), backbone, origin=(0, 0))
    size = (max(right - left, high - low), min(right - left, high - low))
    return Leftover(float(useful.area), tuple((float(x), float(y)) for x, y in corners.exterior.coords[:-1]), size)


def _largest(area: shapely.Geometry) -> tuple[float, float, float, float] | None:
    """Left, low, right and high of the largest level rectangle of whole cells inside an area [mm]."""
    if area.is_empty:
        return None
    left, low, right, high = area.bounds
    columns, rows = max(1, math.floor((right - left) / CELL)), max(1, math.floor((high - low) / CELL))
    # A cell is inside when the area shrunk by half its diagonal holds its middle: never too much, at most a cell too little.
    shrunk = area.buffer(-CELL * math.sqrt(0.5))
    xs, ys = left + CELL * (np.arange(columns) + 0.5), low + CELL * (np.arange(rows) + 0.5)
    inside = shapely.contains_xy(shrunk, *(grid.ravel() for grid in np.meshgrid(xs, ys))).reshape(rows, columns)
    best: tuple[float, int, int, int, int] = (0.0, 0, 0, 0, 0)
    heights = np.zeros(columns, dtype=int)
    for row in range(rows):
        heights = np.where(inside[row], heights + 1, 0)
        best = max(best, _under(heights.tolist(), row))
    if best[0] == 0:
        return None
    _, first, last, bottom, top = best
    box = (left + first * CELL, low + bottom * CELL, left + (last + 1) * CELL, low + (top + 1) * CELL)
    return box if min(box[2] - box[0], box[3] - box[1]) >= LEAST_SIDE else None


def _under(heights: Sequence[int], row: int) -> tuple[float, int, int, int, int]:
    """The largest rectangle that stands under a skyline: cells, first and last column, first and last row."""
    best: tuple[float, int, int, int, int] = (0.0, 0, 0, 0, 0)
    open_columns: list[tuple[int, int]] = []
    for column, height in enumerate([*heights, 0]):
        start = column
        while open_columns and open_columns[-1][1] >= height:
            start, tall = open_columns.pop()
            found = (float(tall * (column - start)), start, column - 1, row - tall + 1, row)
            if found[0] > best[0]:
                best = found
        open_columns.append((start, height))
    return best

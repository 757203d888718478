"""Parts too large for one sheet: seen through several windows that overlap.

The windows stand on a grid, each as large as the sheet's area. In every overlap
lie two join marks that are printed on both sheets: laid mark on mark, the
sheets show the part at full size.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from bellowscut.layout.clearance import turned
from bellowscut.shapes import Point, bounds

OVERLAP = 10.0
"""Width of the band that two neighbouring sheets both show [mm]."""

MARK_CLEAR = 6.5
"""Least distance of a join mark from a line of the part [mm], where there is room."""

_STEP = 3.0
"""Distance of the places tried for a join mark [mm]."""

Segment = tuple[Point, Point]


@dataclass(frozen=True)
class Tile:
    """One window on the part.

    Parameters
    ----------
    row, column : int
        Place in the grid, from the lower left, from 0 [-].
    low, high : Point
        Corners of the window, in the axes of the turned part [mm].
    """

    row: int
    column: int
    low: Point
    high: Point


@dataclass(frozen=True)
class Join:
    """A mark that two sheets share.

    Parameters
    ----------
    letter : str
        Its name, the same on both.
    at : Point
        Where it stands, in the axes of the turned part [mm].
    tiles : tuple of int
        Indices of the two tiles [-].
    """

    letter: str
    at: Point
    tiles: tuple[int, int]


@dataclass(frozen=True)
class Tiling:
    """How a part is shown on several sheets.

    Parameters
    ----------
    turn : int
        How the part is turned first, 0 or 90 [deg].
    rows, columns : int
        Size of the grid [-].
    tiles : tuple of Tile
        Only those that show something.
    joins : tuple of Join
        Marks in the overlaps.
    """

    turn: int
    rows: int
    columns: int
    tiles: tuple[Tile, ...]
    joins: tuple[Join, ...]


def tiling(outline: Sequence[Point], lines: Sequence[Sequence[Point]], width: float, height: float, overlap: float = OVERLAP) -> Tiling:
    """Cut a part into windows, in the turn that needs fewer.

    Parameters
    ----------
    outline : sequence of Point
        Counter-clockwise, arcs cut into chords [mm].
    lines : sequence of sequence of Point
        Lines on the part that join marks keep clear of [mm].
    width, height : float
        Of a sheet's area, above `overlap` [mm].
    overlap : float
        Width of the shared bands [mm].

    Returns
    -------
    Tiling
        With turn 0 when both turns need as many.
    """
    return min((_in_turn(turn, outline, lines, width, height, overlap) for turn in (0, 90)), key=lambda one: len(one.tiles))


def _in_turn(turn: int, outline: Sequence[Point], lines: Sequence[Sequence[Point]], width: float, height: float, overlap: float) -> Tiling:
    points = turned(outline, turn)
    left, low, right, high = bounds(points)
    columns, rows = _windows(right - left, width, overlap), _windows(high - low, height, overlap)
    x = (left + right - columns * width + (columns - 1) * overlap) / 2
    y = (low + high - rows * height + (rows - 1) * overlap) / 2
    tiles = []
    for row in range(rows - 1, -1, -1):
        for column in range(columns):
            corner = (x + column * (width - overlap), y + row * (height - overlap))
            tile = Tile(row, column, corner, (corner[0] + width, corner[1] + height))
            core_low = (corner[0] + (overlap / 2 if column else 0), corner[1] + (overlap / 2 if row else 0))
            core_high = (
                corner[0] + width - (overlap / 2 if column < columns - 1 else 0),
                corner[1] + height - (overlap / 2 if row < rows - 1 else 0),
            )
            if _shows(points, core_low, core_high):
                tiles.append(tile)
    segments = [(points[i - 1], p) for i, p in enumerate(points)]
    segments += [pair for line in lines for pair in pairwise(turned(line, turn))]
    return Tiling(turn, rows, columns, tuple(tiles), tuple(_joins(tiles, segments, overlap)))


def _windows(length: float, window: float, overlap: float) -> int:
    return 1 if length <= window + 1e-9 else math.ceil((length - overlap) / (window - overlap) - 1e-9)


def _shows(points: Sequence[Point], low: Point, high: Point) -> bool:
    """Whether any of a polygon's inside or edge lies in a box."""
    if any(_crosses(points[i - 1], p, low, high) for i, p in enumerate(points)):
        return True
    return inside(((low[0] + high[0]) / 2, (low[1] + high[1]) / 2), points)


def _crosses(start: Point, end: Point, low: Point, high: Point) -> bool:
    """Whether a segment has a part inside a box."""
    first, last = 0.0, 1.0
    for axis in (0, 1):
        step = end[axis] - start[axis]
        if step == 0:
            if not low[axis] <= start[axis] <= high[axis]:
                return False
            continue
        near, far = sorted(((low[axis] - start[axis]) / step, (high[axis] - start[axis]) / step))
        first, last = max(first, near), min(last, far)
    return first < last


def inside(point: Point, points: Sequence[Point]) -> bool:
    """Whether a point lies inside a polygon."""
    x, y = point
    odd = False
    for i, (px, py) in enumerate(points):
        qx, qy = points[i - 1]
        if (py > y) != (qy > y) and x < (qx - px) * (y - py) / (qy - py) + px:
            odd = not odd
    return odd


def distance_to(point: Point, segment: Segment) -> float:
    """Least distance of a point from a segment [mm]."""
    (ax, ay), (bx, by) = segment
    dx, dy = bx - ax, by - ay
    square = dx * dx + dy * dy
    along = 0.0 if square == 0 else max(0.0, min(1.0, ((point[0] - ax) * dx + (point[1] - ay) * dy) / square))
    return math.hypot(point[0] - ax - along * dx, point[1] - ay - along * dy)


def _joins(tiles: list[Tile], segments: list[Segment], overlap: float) -> list[Join]:
    found: list[Join] = []
    several_rows, several_columns = len({tile.row for tile in tiles}) > 1, len({tile.column for tile in tiles}) > 1
    for i, one in enumerate(tiles):
        for k, other in enumerate(tiles):
            if (other.row, other.column) == (one.row, one.column + 1):
                x = (other.low[0] + one.high[0]) / 2
                places = _places(one.low[1], one.high[1], overlap if several_rows else 0.0)
                found += _pick([(x, y) for y in places], segments, (i, k), len(found))
            elif (other.row, other.column) == (one.row - 1, one.column):
                y = (one.low[1] + other.high[1]) / 2
                places = _places(one.low[0], one.high[0], overlap if several_columns else 0.0)
                found += _pick([(x, y) for x in places], segments, (i, k), len(found))
    return found


def _places(low: float, high: float, overlap: float) -> list[float]:
    """Places along a band, clear of the corners where other bands cross it."""
    first, last = low + overlap + MARK_CLEAR, high - overlap - MARK_CLEAR
    count = max(1, int((last - first) / _STEP))
    return [first + (last - first) * k / count for k in range(count + 1)]


def _pick(places: list[Point], segments: list[Segment], tiles: tuple[int, int], known: int) -> list[Join]:
    """The first and the last place that is clear of the part's lines, else the clearest of each half."""
    clear = [min(distance_to(place, segment) for segment in segments) for place in places]
    free = [place for place, distance in zip(places, clear, strict=True) if distance >= MARK_CLEAR]
    if len(free) >= 2:
        chosen = [free[0], free[-1]]
    else:
        half = len(places) // 2
        chosen = [
            places[max(range(half), key=lambda k: clear[k], default=0)],
            places[max(range(half, len(places)), key=lambda k: clear[k])],
        ]
    return [Join(letter_of(known + k), place, tiles) for k, place in enumerate(chosen)]


def letter_of(number: int) -> str:
    """Letters for counting from 0: a to z, then aa, ab."""
    text = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("a") + rest) + text
    return text

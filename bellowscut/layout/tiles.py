"""Parts too large for one sheet: seen through several windows that overlap.

The windows stand on a grid, each as large as the sheet's area. Through the
middle of every overlap runs a seam, along which the sheet on the left of it or
above it is cut and laid over the other. On the seam stand two join marks that
are printed on both sheets: laid mark on mark, the sheets show the parts at full
size.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from bellowscut.layout.clearance import turned
from bellowscut.shapes import Point, bounds

OVERLAP = 12.0
"""Width of the band that two neighbouring sheets both show [mm]: half of it is cut off, half is glued."""

MARK_CLEAR = 6.5
"""Least distance of a join mark from a line of the part [mm], where there is room."""

_STEP = 3.0
"""Distance of the places tried for a join mark [mm]."""

_APART = 40.0
"""Least distance of the two marks of a seam [mm], where it is long enough: near ones do not hold a direction."""

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
class Seam:
    """Where one sheet ends on another.

    Parameters
    ----------
    over, under : int
        Indices of the tile that is cut and lies over, on the left or above, and of the other [-].
    start, end : Point
        The line of the cut, in the axes of the turned parts [mm].
    joins : tuple of Join
        The marks on it.
    """

    over: int
    under: int
    start: Point
    end: Point
    joins: tuple[Join, ...]

    @property
    def upright(self) -> bool:
        """Whether the two sheets lie side by side, not one above the other."""
        return self.start[0] == self.end[0]


@dataclass(frozen=True)
class Tiling:
    """How parts are shown on several sheets.

    Parameters
    ----------
    turn : int
        How the parts are turned first, together, 0 or 90 [deg].
    rows, columns : int
        Size of the grid [-].
    tiles : tuple of Tile
        Only those that show something.
    seams : tuple of Seam
        Where neighbours meet.
    """

    turn: int
    rows: int
    columns: int
    tiles: tuple[Tile, ...]
    seams: tuple[Seam, ...]

    @property
    def joins(self) -> tuple[Join, ...]:
        """Every mark."""
        return tuple(join for seam in self.seams for join in seam.joins)


def tiling(
    outlines: Sequence[Sequence[Point]],
    lines: Sequence[Sequence[Point]],
    width: float,
    height: float,
    overlap: float = OVERLAP,
    *,
    named: int = 0,
) -> Tiling:
    """Cut parts that lie beside each other into windows, in the turn that needs fewer.

    Parameters
    ----------
    outlines : sequence of sequence of Point
        Each counter-clockwise, arcs cut into chords [mm].
    lines : sequence of sequence of Point
        Lines on the parts that join marks keep clear of [mm].
    width, height : float
        Of a sheet's area, above `overlap` [mm].
    overlap : float
        Width of the shared bands [mm].
    named : int
        How many letters other marks of the set have taken [-]: none stands twice, so that no sheet fits a wrong one.

    Returns
    -------
    Tiling
        With turn 0 when both turns need as many.
    """
    upright, turned_over = (_in_turn(turn, outlines, lines, width, height, overlap) for turn in (0, 90))
    plan, segments = min(upright, turned_over, key=lambda one: len(one[0].tiles))
    return replace(plan, seams=tuple(_seams(plan.tiles, segments, overlap, named)))


def _in_turn(
    turn: int, outlines: Sequence[Sequence[Point]], lines: Sequence[Sequence[Point]], width: float, height: float, overlap: float
) -> tuple[Tiling, list[Segment]]:
    """Windows over the parts in one turn, their seams still to come, and every line that runs there."""
    shapes = [turned(outline, turn) for outline in outlines]
    left, low, right, high = bounds([point for points in shapes for point in points])
    columns, rows = _windows(right - left, width, overlap), _windows(high - low, height, overlap)
    segments = [(points[i - 1], p) for points in shapes for i, p in enumerate(points)]
    segments += [pair for line in lines for pair in pairwise(turned(line, turn))]
    x = _start(left, right, width, overlap, columns, _along(segments, 0))
    y = _start(low, high, height, overlap, rows, _along(segments, 1))
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
            if any(shows(points, core_low, core_high) for points in shapes):
                tiles.append(tile)
    return Tiling(turn, rows, columns, tuple(tiles), ()), segments


def _windows(length: float, window: float, overlap: float) -> int:
    return 1 if length <= window + 1e-9 else math.ceil((length - overlap) / (window - overlap) - 1e-9)


def _along(segments: Sequence[Segment], axis: int) -> list[float]:
    """Where longer lines run along the seams that cross an axis [mm]."""
    found = []
    for start, end in segments:
        across, along = abs(end[axis] - start[axis]), abs(end[1 - axis] - start[1 - axis])
        if along > 10.0 and across < 0.1 * along:
            found.append((start[axis] + end[axis]) / 2)
    return found


def _start(low: float, high: float, window: float, overlap: float, count: int, lines: Sequence[float]) -> float:
    """Where the first window starts: parts in the middle, moved only so far that no line runs within a seam's band [mm]."""
    middle = (low + high - count * window + (count - 1) * overlap) / 2
    slack = max(0.0, count * window - (count - 1) * overlap - (high - low)) / 2
    if count == 1 or not lines:
        return middle

    def clear(shift: float) -> float:
        seams = [middle + shift + k * (window - overlap) + overlap / 2 for k in range(1, count)]
        return min(overlap, *(abs(line - seam) for line in lines for seam in seams))

    steps = int(slack)
    shifts = sorted((float(k) for k in range(-steps, steps + 1)), key=lambda shift: (abs(shift), shift))
    return middle + max(shifts, key=clear)


def shows(points: Sequence[Point], low: Point, high: Point) -> bool:
    """Whether any of a polygon's inside or edge lies in a box."""
    if any(crosses(points[i - 1], p, low, high) for i, p in enumerate(points)):
        return True
    return inside(((low[0] + high[0]) / 2, (low[1] + high[1]) / 2), points)


def crosses(start: Point, end: Point, low: Point, high: Point) -> bool:
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


def distances(points: Sequence[Point], segments: Sequence[Segment]) -> list[float]:
    """Least distance of each point from any of the segments [mm]; infinite where there is none."""
    import numpy as np

    if not segments:
        return [math.inf] * len(points)
    lines, ends = np.array(segments), np.array(points).reshape(-1, 1, 2)
    way = lines[:, 1] - lines[:, 0]
    square = (way**2).sum(axis=1)
    along = ((ends - lines[:, 0]) * way).sum(axis=2) / np.where(square == 0, 1.0, square)
    nearest = lines[:, 0] + np.clip(along, 0.0, 1.0)[..., None] * way
    found: list[float] = np.sqrt(((ends - nearest) ** 2).sum(axis=2).min(axis=1)).tolist()
    return found


def _seams(tiles: Sequence[Tile], segments: Sequence[Segment], overlap: float, named: int) -> list[Seam]:
    found: list[Seam] = []
    several_rows, several_columns = len({tile.row for tile in tiles}) > 1, len({tile.column for tile in tiles}) > 1
    number = {(tile.row, tile.column): k for k, tile in enumerate(tiles)}
    for i, one in enumerate(tiles):
        beside, below = number.get((one.row, one.column + 1)), number.get((one.row - 1, one.column))
        if beside is not None:
            x = (tiles[beside].low[0] + one.high[0]) / 2
            spots = [(x, y) for y in _places(one.low[1], one.high[1], overlap if several_rows else 0.0)]
            joins = _pick(spots, segments, (i, beside), named + 2 * len(found))
            found.append(Seam(i, beside, (x, one.low[1]), (x, one.high[1]), joins))
        if below is not None:
            y = (one.low[1] + tiles[below].high[1]) / 2
            spots = [(x, y) for x in _places(one.low[0], one.high[0], overlap if several_columns else 0.0)]
            joins = _pick(spots, segments, (i, below), named + 2 * len(found))
            found.append(Seam(i, below, (one.low[0], y), (one.high[0], y), joins))
    return found


def _places(low: float, high: float, overlap: float) -> list[float]:
    """Places along a band, clear of the corners where other bands cross it."""
    first, last = low + overlap + MARK_CLEAR, high - overlap - MARK_CLEAR
    count = max(1, int((last - first) / _STEP))
    return [first + (last - first) * k / count for k in range(count + 1)]


def _pick(places: list[Point], segments: Sequence[Segment], tiles: tuple[int, int], known: int) -> tuple[Join, ...]:
    """The first and the last place that is clear of the part's lines, else the clearest of each half."""
    clear = distances(places, segments)
    free = [place for place, distance in zip(places, clear, strict=True) if distance >= MARK_CLEAR]
    if len(free) >= 2 and math.dist(free[0], free[-1]) >= min(_APART, math.dist(places[0], places[-1]) / 2):
        chosen = [free[0], free[-1]]
    else:
        half = len(places) // 2
        chosen = [
            places[max(range(half), key=lambda k: clear[k], default=0)],
            places[max(range(half, len(places)), key=lambda k: clear[k])],
        ]
    return tuple(Join(letter_of(known + k), place, tiles) for k, place in enumerate(chosen))


def letter_of(number: int) -> str:
    """Letters for counting from 0: a to z, then aa, ab."""
    text = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("a") + rest) + text
    return text

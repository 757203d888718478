"""Strips longer than the stock: cut in lengths that are joined by scarf joints, away from the corners."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from bellowscut.drawing import Line, Role
from bellowscut.nesting.field import Field
from bellowscut.nesting.model import Shape, Stock
from bellowscut.nesting.nofit import pose
from bellowscut.parts.part import Part, mark, skive
from bellowscut.shapes import Point, bounds, polygon, signed_area
from bellowscut.words import say, stock as words

SCARF = 10.0
"""Overlap of a scarf joint [mm], from memory: as long as the joint where a strip meets itself."""

STEP = 1.0
"""To how much the longest strip that fits is found [mm]."""

CORNER_CLEAR = 5.0
"""Least distance of a scarf joint from a corner [mm], invented."""


def longest(stocks: Sequence[Stock], part: Part, turns: Sequence[float]) -> float:
    """How long a strip of this part's width can be on the best of some stocks [mm]; 0 when none fits.

    Parameters
    ----------
    stocks : sequence of Stock
        Skins or sheets; a roll takes any length.
    part : Part
        A straight strip along x.
    turns : sequence of float
        Turns in which it may lie [deg].
    """
    left, low, right, high = bounds(part.points)
    if any(stock.is_roll for stock in stocks):
        return math.inf if any(stock.width is not None and stock.width - 2 * stock.margin >= high - low for stock in stocks) else 0.0
    best = 0.0
    for stock in stocks:
        field = Field(stock)
        for turn in turns:
            if _fits(field, part, right - left, turn):
                return right - left
            short, long = best, right - left
            while long - short > STEP:
                middle = (short + long) / 2
                if _fits(field, part, middle, turn):
                    short = middle
                else:
                    long = middle
            best = max(best, short)
    return best


def _fits(field: Field, part: Part, length: float, turn: float) -> bool:
    _, low, _, high = bounds(part.points)
    if length <= 0:
        return True
    strip = Shape("strip", ((0.0, low), (length, low), (length, high), (0.0, high)), (turn,), part.kind)
    return not field.positions(pose(strip, turn)).is_empty


def split(part: Part, most: float) -> tuple[Part, ...]:
    """A strip in the fewest lengths of at most `most`, each lapping `SCARF` over the next.

    Parameters
    ----------
    part : Part
        A straight strip along x.
    most : float
        Longest piece that can be cut [mm], above twice `SCARF`.

    Returns
    -------
    tuple of Part
        The strip itself when it is short enough.
    """
    left, _, right, _ = bounds(part.points)
    if right - left <= most:
        return (part,)
    count = math.ceil(round((right - left - SCARF) / (most - SCARF), 9))
    joints = _joints(part, left, right, count, most)
    edges = [left, *joints, right]
    return tuple(
        _length(part, max(left, start - SCARF / 2), min(right, end + SCARF / 2), number, count)
        for number, (start, end) in enumerate(pairwise(edges), 1)
    )


def _joints(part: Part, left: float, right: float, count: int, most: float) -> list[float]:
    """Middles of the joints: evenly spaced, then moved off the corners as far as the lengths allow."""
    corners = sorted({line.points[0][0] for line in part.lines if line.role is Role.MARK and _upright(line)})
    found: list[float] = []
    before = left + SCARF / 2
    for k in range(1, count):
        wish = left + (right - left) * k / count
        rest = count - k
        low, high = right - SCARF / 2 - rest * (most - SCARF), before + most - SCARF
        low, high = max(low, before + SCARF), min(high, right - SCARF)
        before = _off_corners(wish, corners, low, high)
        found.append(before)
    return found


def _off_corners(wish: float, corners: Sequence[float], low: float, high: float) -> float:
    """The place nearest to `wish` between `low` and `high` that is clear of every corner, or as near as can be [mm]."""
    wish = min(max(wish, low), high)
    clear = SCARF / 2 + CORNER_CLEAR
    places = [wish, low, high, *(corner + way * clear for corner in corners for way in (-1, 1))]
    allowed = [x for x in places if low - 1e-9 <= x <= high + 1e-9]
    return min(
        allowed, key=lambda x: (round(max(0.0, clear - min((abs(x - corner) for corner in corners), default=clear)), 6), abs(x - wish), x)
    )


def _upright(line: Line) -> bool:
    return len(line.points) == 2 and abs(line.points[0][0] - line.points[1][0]) < 1e-9


def _length(part: Part, start: float, end: float, number: int, count: int) -> Part:
    """What of a strip lies between two places along it, moved to begin at 0 [mm]."""
    import shapely

    _, low, _, high = bounds(part.points)
    window = shapely.box(start, low - 1, end, high + 1)
    cut = shapely.Polygon(part.points).intersection(window)
    points = tuple((x - start, y) for x, y in shapely.remove_repeated_points(cut.exterior, 1e-9).coords[:-1])
    lines = [
        Line(line.role, tuple((x - start, y) for x, y in clipped), line.closed)
        for line in part.lines
        if (clipped := _clipped(line, window))
    ]
    for here, wanted in ((SCARF, number > 1), (end - start - SCARF, number < count)):
        if wanted:
            lines.append(skive((here, low), (here, high)) if part.side in ("flesh", "grain") else mark((here, low), (here, high)))
    return replace(
        part,
        id=f"{part.id}-length-{number}",
        name=say(words.LENGTH_OF_PART, part=part.name, number=number, count=count),
        outline=polygon(points if signed_area(points) > 0 else points[::-1]),
        lines=tuple(lines),
        note=say(words.SCARF_NOTE, scarf=f"{SCARF:g}"),
    )


def _clipped(line: Line, window: object) -> tuple[Point, ...]:
    import shapely

    found = shapely.intersection(shapely.LineString(line.points), window)
    return tuple((float(x), float(y)) for x, y in found.coords) if found.geom_type == "LineString" and not found.is_empty else ()

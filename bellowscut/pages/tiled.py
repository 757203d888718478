"""Sheets of a part that is larger than the paper."""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint, Window
from bellowscut.layout.openings import edges
from bellowscut.layout.tiles import Segment, Tile, Tiling, distance_to, tiling
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.captions import inside_caption
from bellowscut.pages.furniture import CORNER, MARGIN, Box
from bellowscut.pages.views import View
from bellowscut.shapes import Point, bounds, clipped

LETTER = 3.4
"""Letters of the join marks [mm]."""

MARK_ON_MARK = "This part goes over several sheets: lay mark on mark, a on a and b on b, and paste them flat before you cut."


def tile_bodies(view: View, area: Box) -> list[list[Item]]:
    """Contents of the sheets that together show a part.

    Parameters
    ----------
    view : View
        A part larger than the area in both turns.
    area : tuple of float
        Left, low, right and high edge of what may be used [mm].

    Returns
    -------
    list of lists of items
        One a sheet, row by row from the upper left.
    """
    left, low, right, high = area
    plan = tiling(view.points, [line.points for line in view.lines], right - left, high - low)
    lying = view.turned(plan.turn)
    bodies = []
    for k, tile in enumerate(plan.tiles):
        dx, dy = left - tile.low[0], low - tile.low[1]
        here = lying.turned(0, dx, dy)
        marks = [((join.at[0] + dx, join.at[1] + dy), join.letter) for join in plan.joins if k in join.tiles]
        items: list[Item] = [Window((left, low), (right, high), (here.drawn(),))]
        piece = _within(here.rough, area)
        if len(piece) > 2:
            items += inside_caption(here, piece) or []
        lines = [*here.segments(), *edges(here.rough, closed=True)]
        for at, letter in marks:
            items += _join_mark(at, letter, lines)
        bodies.append([*items, *_edges(plan, tile, area), *_map(plan, lying, k, high)])
    return bodies


def _within(points: Sequence[Point], box: Box) -> tuple[Point, ...]:
    """The piece of a part that a window shows, for lettering, clear of the join marks at its edges [mm]."""
    left, low, right, high = box
    edge = 10.0
    corners = ((left + edge, low + edge), (right - edge, low + edge), (right - edge, high - edge), (left + edge, high - edge))
    kept = tuple(points)
    for k, corner in enumerate(corners):
        if len(kept) > 2:
            kept = clipped(kept, corner, corners[(k + 1) % 4])
    return kept


def _join_mark(at: Point, letter: str, lines: Sequence[Segment]) -> list[Item]:
    """A diamond, two of its quarters inked, with hair lines that run out of it; its letter stands where no line is."""
    x, y = at
    size, hair = 2.2, 3.4
    wide, tall = text_width(letter, LETTER, bold=True), LETTER * CAPITAL
    corners = [(x + dx, y + dy) for dy in (1.7, -1.7 - tall) for dx in (1.8, -1.8 - wide)]
    start = max(corners, key=lambda corner: min(_off(corner, wide, tall, line) for line in lines))
    return [
        Stroke(((x - size, y), (x, y - size), (x + size, y), (x, y + size)), Pen.THIN, closed=True, fill=Tint.WHITE),
        Stroke(((x - size, y), (x, y), (x, y + size)), Pen.THIN, closed=True, fill=Tint.INK),
        Stroke(((x, y), (x, y - size), (x + size, y)), Pen.THIN, closed=True, fill=Tint.INK),
        Stroke(((x - hair, y), (x + hair, y)), Pen.THIN),
        Stroke(((x, y - hair), (x, y + hair)), Pen.THIN),
        Label(letter, start, LETTER, bold=True),
    ]


def _off(corner: Point, wide: float, tall: float, line: Segment) -> float:
    """How far a letter's box stands off a line, up to 3: beyond that the first corner is as good as any [mm]."""
    middle = (corner[0] + wide / 2, corner[1] + tall / 2)
    return min(3.0, distance_to(middle, line))


def _edges(plan: Tiling, tile: Tile, area: Box) -> list[Item]:
    """Dashed edges where another sheet goes on."""
    left, low, right, high = area
    there = {(other.row, other.column) for other in plan.tiles}
    sides = (
        ((tile.row, tile.column - 1), ((left, low), (left, high))),
        ((tile.row, tile.column + 1), ((right, low), (right, high))),
        ((tile.row - 1, tile.column), ((left, low), (right, low))),
        ((tile.row + 1, tile.column), ((left, high), (right, high))),
    )
    return [Stroke(run, Pen.DASHED) for neighbour, run in sides if neighbour in there]


def _map(plan: Tiling, lying: View, number: int, top: float) -> list[Item]:
    """A small plan of the part over all its sheets, above the upright bar, this one tinted."""
    x0, y0, x1, y1 = bounds(lying.points)
    x0, y0, x1, y1 = x0 - 12.0, y0 - 12.0, x1 + 12.0, y1 + 12.0
    room = (13.0, top - CORNER[1] - 101.6 - 6.0)
    if room[1] < 6.0:
        return []
    scale = min(room[0] / (x1 - x0), room[1] / (y1 - y0))

    def small(x: float, y: float) -> Point:
        return MARGIN + (min(max(x, x0), x1) - x0) * scale, top - (y1 - min(max(y, y0), y1)) * scale

    items: list[Item] = []
    for k in sorted(range(len(plan.tiles)), key=lambda k: k == number):
        (left, low), (right, high) = plan.tiles[k].low, plan.tiles[k].high
        corners = (small(left, low), small(right, low), small(right, high), small(left, high))
        here = k == number
        items.append(Stroke(corners, Pen.SOLID if here else Pen.THIN, closed=True, fill=Tint.CARD if here else Tint.WHITE))
    items.append(Stroke(tuple(small(*point) for point in lying.rough), Pen.SOLID, closed=True))
    return items

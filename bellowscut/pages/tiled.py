"""Sheets of parts that are larger than the paper."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from bellowscut.drawing import Drawn, Item, Window
from bellowscut.layout.openings import edges
from bellowscut.layout.tiles import OVERLAP, Join, Seam, Segment, shows
from bellowscut.pages.furniture import Box
from bellowscut.pages.posters import Placed, Poster
from bellowscut.pages.seams import Side, seam_ground, seam_items
from bellowscut.pages.views import View
from bellowscut.shapes import Point, clipped

INSIDE = OVERLAP + 1.0
"""How far lettering keeps off an edge at which another sheet joins [mm]."""

Lettering = Callable[[Placed, View, Sequence[Point]], Sequence[Item]]
"""Writes on a part: what was placed, how it lies on the sheet, and the piece of it that may be written on."""


@dataclass(frozen=True)
class TileBody:
    """What one sheet of a joined area shows.

    Parameters
    ----------
    placed : tuple of Placed
        The parts of which something is seen.
    items : tuple of items
        What is drawn.
    """

    placed: tuple[Placed, ...]
    items: tuple[Item, ...]


def tile_bodies(poster: Poster, area: Box, first: int, lettering: Lettering) -> list[TileBody]:
    """Contents of the sheets that together show a joined area.

    Parameters
    ----------
    poster : Poster
        What lies on it and where it is divided.
    area : tuple of float
        Left, low, right and high edge of what may be used [mm].
    first : int
        Number of its first sheet [-].
    lettering : callable
        Writes on each part.

    Returns
    -------
    list of TileBody
        One a sheet, row by row from the upper left.
    """
    left, low, right, high = area
    plan = poster.plan
    bodies = []
    for k, tile in enumerate(plan.tiles):
        dx, dy = left - tile.low[0], low - tile.low[1]
        sides = [_moved(seam, k, dx, dy, first) for seam in plan.seams if k in (seam.over, seam.under)]
        room = _clear_of(sides, area)
        here = [one for one in poster.placed if shows(one.view.points, tile.low, tile.high)]
        drawn: list[Drawn] = []
        letters: list[Item] = []
        lines: list[Segment] = []
        for one in here:
            view = one.view.turned(0, dx, dy)
            drawn.append(view.drawn())
            lines += [*view.segments(), *edges(view.rough, closed=True)]
            piece = _within(view.rough, room)
            if len(piece) > 2:
                letters += lettering(one, view, piece)
        marks = [join for side in sides for join in side.seam.joins]
        items: list[Item] = [item for side in sides for item in seam_ground(side)]
        items += [Window((left, low), (right, high), tuple(drawn)), *letters]
        for side in sides:
            items += seam_items(side, lines, marks)
        bodies.append(TileBody(tuple(here), tuple(items)))
    return bodies


def _moved(seam: Seam, tile: int, dx: float, dy: float, first: int) -> Side:
    """A seam as it lies on the sheet of a tile [mm]."""

    def move(point: Point) -> Point:
        return point[0] + dx, point[1] + dy

    joins = tuple(Join(join.letter, move(join.at), join.tiles) for join in seam.joins)
    over = seam.over == tile
    there = replace(seam, start=move(seam.start), end=move(seam.end), joins=joins)
    return Side(there, over, first + (seam.under if over else seam.over))


def _clear_of(sides: Sequence[Side], area: Box) -> Box:
    """The area without the bands at its seams [mm]."""
    left, low, right, high = area
    for side in sides:
        if side.seam.upright:
            left, right = (left, area[2] - INSIDE) if side.over else (area[0] + INSIDE, right)
        else:
            low, high = (area[1] + INSIDE, high) if side.over else (low, area[3] - INSIDE)
    return left, low, right, high


def _within(points: Sequence[Point], box: Box) -> tuple[Point, ...]:
    """The piece of a part that lies in a box, for lettering [mm]."""
    left, low, right, high = box
    corners = ((left, low), (right, low), (right, high), (left, high))
    kept = tuple(points)
    for k, corner in enumerate(corners):
        if len(kept) > 2:
            kept = clipped(kept, corner, corners[(k + 1) % 4])
    return kept

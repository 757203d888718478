"""Parts larger than the paper, laid beside each other on areas of several sheets.

One joined area may hold several parts where that saves sheets, as long as it
stays small enough to be handled.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

from bellowscut.layout.rows import ANY_TURN, Piece, Placement, in_rows
from bellowscut.layout.tiles import MARK_CLEAR, OVERLAP, Tiling, tiling
from bellowscut.pages.views import View
from bellowscut.shapes import Point, bounds

GAP = 9.0
"""Distance between parts that lie on one joined area [mm]."""

MOST = 6
"""Sheets that are joined at most for the sake of saving some [-]: more are hard to keep straight."""


@dataclass(frozen=True)
class Placed:
    """A part on a joined area.

    Parameters
    ----------
    view : View
        The part where it lies, in the axes of the tiling.
    index : int
        Which of the views that were given it is [-].
    copy : int
        Which copy of it, from 1 [-].
    """

    view: View
    index: int
    copy: int = 1


@dataclass(frozen=True)
class Poster:
    """A joined area.

    Parameters
    ----------
    placed : tuple of Placed
        What lies on it.
    plan : Tiling
        How it is shown on sheets.
    """

    placed: tuple[Placed, ...]
    plan: Tiling


def upside_down(points: Sequence[Point]) -> tuple[Point, ...]:
    """Mirrored top to bottom: rows are filled from below, sheets are read from above."""
    return tuple((x, -y) for x, y in reversed(points))


def fits(view: View, room: tuple[float, float]) -> bool:
    """Whether a part goes into a room as it lies [mm]."""
    return view.size[0] <= room[0] and view.size[1] <= room[1]


def _turns(view: View, way: int) -> tuple[int, ...]:
    """Turns in which the grain runs along the sheet, `way` 0, or across it, 90 [deg]."""
    return tuple(turn for turn in ANY_TURN if (round((view.grain + turn) / 90) * 90 - way) % 180 == 0)


def _ways(views: Sequence[View], room: tuple[float, float]) -> list[int]:
    """Directions of grain in which all of some views go into a room [deg]."""
    return [way for way in (0, 90) if all(fits(view.turned(_turns(view, way)[0]), room) for view in views)]


def one_way(views: Sequence[View], room: tuple[float, float]) -> list[list[View]]:
    """Views put together that go into a room with their grain one way: all of them, unless one is too long and another too wide."""
    if _ways(views, room):
        return [list(views)]
    along = [view for view in views if 0 in _ways([view], room)]
    return [along, [view for view in views if view not in along]]


def laid_one_way(views: Sequence[View], room: tuple[float, float], gap: float) -> tuple[Placement, ...]:
    """Every piece of some views in rows, the grain of all in that one direction that fills fewer sheets.

    Parameters
    ----------
    views : sequence of View
        Which go into the room with their grain one way.
    room : tuple of float
        Width and height of a sheet's area [mm].
    gap : float
        Least distance between two pieces [mm].
    """

    def filled(placements: tuple[Placement, ...]) -> tuple[int, float]:
        last = max(put.sheet for put in placements)
        tops = [put.y - bounds(views[put.piece].turned(-put.turn % 360).points)[1] for put in placements if put.sheet == last]
        return last, round(max(tops), 3)

    tries = []
    for way in _ways(views, room):
        pieces = [Piece(view.part.id, upside_down(view.points), view.name, view.part.pieces, _turns(view, way)) for view in views]
        tries.append(in_rows(pieces, *room, gap))
    return min(tries, key=filled)


def one_of_each_joined(views: Sequence[View], room: tuple[float, float]) -> list[Poster]:
    """Each part once, on as few sheets as small joined areas allow.

    Parameters
    ----------
    views : sequence of View
        Each larger than the room in both turns.
    room : tuple of float
        Width and height of a sheet's area [mm].
    """
    found: list[Poster] = []
    group: list[int] = []
    for k in range(len(views)):
        # Of the grid that a part needs some sheets may stay empty, such as those at the corners of a round one.
        whole = _plan([views[k]], room)
        alone = _smallest(views, [k], room, whole.rows * whole.columns)
        assert alone is not None
        if group:
            last = len(found[-1].plan.tiles)
            saving = min(last + len(alone.plan.tiles) - 1, max(MOST, last))
            both = _smallest(views, [*group, k], room, saving)
            if both is not None:
                found[-1] = both
                group.append(k)
                continue
        found.append(alone)
        group = [k]
    return found


def every_piece_joined(views: Sequence[View], room: tuple[float, float], gap: float) -> list[Poster]:
    """Every piece of some parts, each material by itself, on joined areas just large enough for its largest part.

    Parameters
    ----------
    views : sequence of View
        Each larger than the room in both turns.
    room : tuple of float
        Width and height of a sheet's area [mm].
    gap : float
        Least distance between two pieces [mm].
    """
    found: list[Poster] = []
    for material in dict.fromkeys(view.part.material for view in views):
        here = [k for k, view in enumerate(views) if view.part.material == material]
        area = _least_area([views[k] for k in here], room)
        sheets: dict[int, list[Placed]] = {}
        for put in laid_one_way([views[k] for k in here], area, gap):
            sheets.setdefault(put.sheet, []).append(_put(views, put, here))
        found += [_poster(placed, room) for placed in sheets.values()]
    return found


def _least_area(views: Sequence[View], room: tuple[float, float]) -> tuple[float, float]:
    """The part of the smallest joined area into which each of some parts goes that leaves lanes for the marks at its edges [mm]."""
    for count in itertools.count(2):
        for columns in range(1, count + 1):
            if count % columns:
                continue
            rows = count // columns
            wide, tall = _area(columns, rows, room)
            both = columns > 1 and rows > 1
            lane = 2 * (2 * MARK_CLEAR + (OVERLAP if both else 0.0))
            area = (wide - (lane if rows > 1 else 0.0), tall - (lane if columns > 1 else 0.0))
            if min(area) > 0 and _ways(views, area):
                return area
    raise AssertionError


def lettered(posters: Sequence[Poster], room: tuple[float, float]) -> list[Poster]:
    """The same with the marks of each lettered on from those before it, so that no letter stands twice in a set.

    Parameters
    ----------
    posters : sequence of Poster
        All joined areas of a set.
    room : tuple of float
        Width and height of a sheet's area [mm].
    """
    found: list[Poster] = []
    letters = 0
    for poster in posters:
        straight = [replace(one, view=one.view.turned(-poster.plan.turn % 360)) for one in poster.placed]
        again = _poster(straight, room, letters)
        letters += len(again.plan.joins)
        found.append(again)
    return found


def _area(columns: int, rows: int, room: tuple[float, float]) -> tuple[float, float]:
    """Width and height of so many overlapping sheets [mm]."""
    return columns * (room[0] - OVERLAP) + OVERLAP, rows * (room[1] - OVERLAP) + OVERLAP


def _put(views: Sequence[View], put: Placement, group: Sequence[int]) -> Placed:
    index = group[put.piece]
    return Placed(views[index].turned(-put.turn % 360, put.x, -put.y), index, put.copy)


def _plan(views: Sequence[View], room: tuple[float, float], named: int = 0) -> Tiling:
    return tiling([view.points for view in views], [line.points for view in views for line in view.lines], *room, named=named)


def _poster(placed: Sequence[Placed], room: tuple[float, float], named: int = 0) -> Poster:
    plan = _plan([one.view for one in placed], room, named)
    return Poster(tuple(replace(one, view=one.view.turned(plan.turn)) for one in placed), plan)


def _smallest(views: Sequence[View], group: Sequence[int], room: tuple[float, float], most: int) -> Poster | None:
    """Some parts on the joined area of fewest sheets, `most` of them or fewer [-]."""
    pieces = [Piece(views[k].part.id, upside_down(views[k].points)) for k in group]
    best: Poster | None = None
    for columns in range(1, most + 1):
        for rows in range(1, most // columns + 1):
            area = _area(columns, rows, room)
            if not all(any(fits(views[k].turned(turn), area) for turn in (0, 90)) for k in group):
                continue
            placements = in_rows(pieces, *area, GAP)
            if any(put.sheet for put in placements):
                continue
            poster = _poster([_put(views, put, group) for put in placements], room)
            if len(poster.plan.tiles) <= (most if best is None else len(best.plan.tiles) - 1):
                best = poster
    return best

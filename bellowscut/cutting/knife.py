"""What a drag knife follows: past its corners, and ahead of its tip where the machine does not see to that.

The blade trails behind its pivot like a castor. Most machines know their
blade and compensate; then a cut need only run on past sharp corners, for the
tip rounds the end of each run a little. With a stated blade offset the path
of the pivot itself is drawn: ahead of the tip by the offset, and round each
corner in an arc about it, so that the blade turns on the spot.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from bellowscut.cutting.arcs import begun_at, directions, run_length, step, turn_into
from bellowscut.shapes import FLATTEN, Outline, Point, toward

SHARP = math.radians(30)
"""A corner that turns by more ends a run [rad], from memory: a blade follows less by itself."""

LEAD = 6.0
"""Length of the lead-in [-] of the blade offset, computed: a blade that stood square to the cut is then right to 0.3 degrees."""

_SWIVEL = 0.0005
"""Greatest distance of chords from the arc about a corner [mm]."""


def sharp_corners(outline: Outline) -> list[int]:
    """Which points of an outline end a run [-]."""
    return [i for i in range(len(outline.points)) if abs(turn_into(outline, i)) > SHARP]


def points_inward(outline: Outline, i: int, *, inner: bool) -> bool:
    """Whether a corner points into the piece, so that a cut that runs on past it would nick the piece.

    Parameters
    ----------
    outline : Outline
        Counter-clockwise [mm].
    i : int
        Point of the outline [-].
    inner : bool
        Whether it is a hole.
    """
    return (turn_into(outline, i) < 0) != inner


def overcut_runs(outline: Outline, begin: int, overcut: float, *, inner: bool) -> tuple[tuple[Point, ...], ...]:
    """Open runs from sharp corner to sharp corner, each running on past its ends.

    Parameters
    ----------
    outline : Outline
        Counter-clockwise [mm].
    begin : int
        Point at which the first run begins: a sharp corner if there are any [-].
    overcut : float
        How far a run begins before and ends past a corner [mm]; not at a corner that points into the piece.
    inner : bool
        Whether it is a hole.

    Returns
    -------
    tuple of tuple of Point
        In order round the outline [mm]. A smooth outline is one run that ends `overcut` past its beginning.
    """
    own = begun_at(outline, begin)
    count = len(own.points)
    corners = sharp_corners(own)
    if not corners:
        points = (*own.flattened(), own.points[0])
        return (_carried_on(points, overcut),)
    found = []
    for first, last in pairwise((*corners, corners[0] + count)):
        points = _between(own, first, last)
        before = 0.0 if points_inward(own, first, inner=inner) else overcut
        after = 0.0 if points_inward(own, last % count, inner=inner) else overcut
        start = step(points[0], directions(own, first)[0] + math.pi, before)
        end = step(points[-1], directions(own, (last - 1) % count)[1], after)
        found.append((*((start,) if before else ()), *points, *((end,) if after else ())))
    return tuple(found)


def _between(outline: Outline, first: int, last: int) -> tuple[Point, ...]:
    """The points from one corner to another, arcs cut into chords."""
    count = len(outline.points)
    found: list[Point] = []
    for k in range(first, last):
        start, end = outline.points[k % count], outline.points[(k + 1) % count]
        # Flattened as an outline of two points, of which only the way there is wanted.
        there = Outline((start, end), (outline.bulges[k % count], 0.0)).flattened()
        found += there[:-1]
    return (*found, outline.points[last % count])


def _carried_on(points: tuple[Point, ...], further: float) -> tuple[Point, ...]:
    """A closed run carried on over its own beginning by a length [mm]."""
    found = list(points)
    left = further
    for a, b in pairwise(points):
        if left <= 1e-9:
            break
        length = math.dist(a, b)
        found.append(b if length <= left else toward(a, b, left))
        left -= length
    return tuple(found)


def tip_run(outline: Outline, begin: int, overcut: float, lead: Point, *, inner: bool) -> tuple[Point, ...]:
    """What the tip of the blade draws: lead-in, once round, and on past the beginning.

    Parameters
    ----------
    outline : Outline
        Counter-clockwise [mm].
    begin : int
        Point at which it is begun [-].
    overcut : float
        How far the cut goes on past its beginning [mm].
    lead : Point
        Where the blade is put down [mm].
    inner : bool
        Whether it is a hole.
    """
    own = begun_at(outline, begin)
    round_it = (*own.flattened(), own.points[0])
    if abs(turn_into(own, 0)) <= SHARP:
        return (lead, *_carried_on(round_it, overcut))
    if points_inward(own, 0, inner=inner):
        return (lead, *round_it)
    return (lead, *round_it, step(round_it[-1], directions(own, -1)[1], overcut))


def pivot_run(tip: Sequence[Point], offset: float) -> tuple[Point, ...]:
    """Where the pivot goes so that the tip draws a line.

    Parameters
    ----------
    tip : sequence of Point
        What the tip should draw [mm].
    offset : float
        From pivot to tip [mm].

    Returns
    -------
    tuple of Point
        Ahead of the tip by the offset, with an arc about each point where the direction changes [mm].
    """
    own = [tip[0]] + [b for a, b in pairwise(tip) if math.dist(a, b) > 1e-9]
    along = [math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in pairwise(own)]
    chord = 2 * math.acos(1 - min(_SWIVEL / offset, 1.0))
    found = [step(own[0], along[0], offset)]
    for here, before, after in zip(own[1:-1], along, along[1:], strict=False):
        turn = math.remainder(after - before, math.tau)
        pieces = max(1, math.ceil(abs(turn) / chord))
        found += [step(here, before + turn * k / pieces, offset) for k in range(pieces + 1 if turn else 1)]
    found.append(step(own[-1], along[-1], offset))
    return tuple(found)


def leads_of(outline: Outline, offset: float, *, inner: bool) -> list[tuple[int, Point]]:
    """Every way to begin an outline: its point [-], and where the blade is put down before [mm]."""
    ways = ((begin, lead_in(outline, begin, offset, inner=inner)) for begin in range(len(outline.points)))
    return [(begin, lead) for begin, lead in ways if lead is not None] or [(0, outline.points[0])]


def lead_in(outline: Outline, begin: int, offset: float, *, inner: bool) -> Point | None:
    """Where to put the blade down before a point of an outline, in what falls away.

    Parameters
    ----------
    outline : Outline
        Counter-clockwise [mm].
    begin : int
        Point at which the cut is begun [-].
    offset : float
        From pivot to tip [mm].
    inner : bool
        Whether it is a hole: then the blade comes across it, as far as it is wide.

    Returns
    -------
    Point or None
        None where the way there would cut the piece itself.
    """
    from shapely import LineString, Point as Spot, Polygon

    here = outline.points[begin]
    shape = Polygon(outline.flattened(FLATTEN))
    if not inner:
        found = step(here, directions(outline, begin)[0] + math.pi, LEAD * offset)
        way = LineString((step(here, directions(outline, begin)[0] + math.pi, 1e-3), found))
        # Before a corner that points into the piece there is nothing but the piece.
        return None if way.intersects(shape.buffer(-1e-3)) else found
    middle = shape.centroid
    heading = math.atan2(middle.y - here[1], middle.x - here[0])
    across = LineString((step(here, heading, 1e-3), step(here, heading, run_length(outline.flattened())))).intersection(shape)
    part = next((one for one in getattr(across, "geoms", (across,)) if one.distance(Spot(here)) < 2e-3), None)
    reach = 0.0 if part is None else 0.9 * part.length
    return None if reach <= 0 else step(here, heading, min(LEAD * offset, reach))

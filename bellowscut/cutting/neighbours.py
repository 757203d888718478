"""How near pieces and their lines come to each other, which cuts would run into a neighbour, and which lines would be burnt twice."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from bellowscut.drawing import Drawn, Line, Role
from bellowscut.shapes import Point

if TYPE_CHECKING:
    from shapely import LineString

ROUNDED = 1e-3
"""A gap short of what is wanted by less is taken to be that [mm]."""

BESIDE = 6.0
"""A line that is near another over a longer way than this, in kerfs, runs beside it; over a shorter one it meets or crosses it [-]."""

MATTERS = (Role.CREASE, Role.SKIVE, Role.MARK)
"""Of lines that lie too near to each other the first of these is kept."""

Lead = tuple[int, Point]
"""A point of an outline at which a cut is begun [-], and where the blade is put down before it [mm]."""


def closest(pieces: Sequence[Sequence[Point]], reach: float) -> tuple[float, int, int] | None:
    """The two pieces that are nearest to each other, if they are nearer than `reach`.

    Parameters
    ----------
    pieces : sequence of sequence of Point
        Their outlines where they lie [mm].
    reach : float
        Wanted distance [mm].

    Returns
    -------
    tuple or None
        Their distance [mm] and numbers [-]; None when all keep the distance.
    """
    import shapely
    from shapely import Polygon, STRtree

    shapes = [Polygon(points) for points in pieces]
    tree = STRtree(shapes)
    one, other = tree.query(shapes, predicate="dwithin", distance=reach)
    pairs = one < other
    one, other = one[pairs], other[pairs]
    if not len(one):
        return None
    gaps = shapely.distance(tree.geometries[one], tree.geometries[other])
    pick = int(gaps.argmin())
    return None if gaps[pick] >= reach - ROUNDED else (float(gaps[pick]), int(one[pick]), int(other[pick]))


def clear_leads(
    pieces: Sequence[Sequence[Point]], outlines: Sequence[Sequence[Point]], leads: Sequence[Sequence[Lead]]
) -> tuple[list[list[Lead]], int]:
    """Of the ways to begin each piece those that cut into no other piece.

    Parameters
    ----------
    pieces : sequence of sequence of Point
        Outlines where they lie, arcs cut into chords [mm].
    outlines : sequence of sequence of Point
        Points of the same outlines at which they can be begun [mm].
    leads : sequence of sequence of Lead
        All ways to begin each.

    Returns
    -------
    list of list of Lead
        Those that are clear; where there is none, all.
    int
        How many pieces have none [-].
    """
    from shapely import LineString, Polygon, STRtree

    tree = STRtree([Polygon(points) for points in pieces])
    owners = [(number, k) for number, ways in enumerate(leads) for k in range(len(ways))]
    lines = [LineString((outlines[number][leads[number][k][0]], leads[number][k][1])) for number, k in owners]
    hit = {owners[line] for line, piece in zip(*tree.query(lines, predicate="intersects"), strict=True) if owners[line][0] != piece}
    kept = [[lead for k, lead in enumerate(ways) if (number, k) not in hit] for number, ways in enumerate(leads)]
    return [clear or list(ways) for clear, ways in zip(kept, leads, strict=True)], sum(not clear for clear in kept)


def burnt_once(drawn: Drawn, kerf: float) -> tuple[Drawn, int]:
    """A drawing without the stretches of lines that lie nearer to a cut or to another line than the kerf.

    Parameters
    ----------
    drawn : Drawn
        Outlines and lines of one piece [mm].
    kerf : float
        Width of what the beam burns away [mm].

    Returns
    -------
    Drawn
        The same with the rest of its lines, in the same order.
    int
        How many lines were left out, whole or in part [-].
    """
    from shapely import LineString, STRtree

    wide = kerf - ROUNDED
    if wide <= 0 or not drawn.lines:
        return drawn, 0
    rings = [outline.flattened() for outline in drawn.outlines]
    taken = [LineString((*ring, ring[0])) for ring in rings]
    kept: dict[int, tuple[Line, ...]] = {}
    for k in sorted(range(len(drawn.lines)), key=lambda k: MATTERS.index(drawn.lines[k].role) if drawn.lines[k].role in MATTERS else -1):
        line = drawn.lines[k]
        if line.role not in MATTERS:
            kept[k] = (line,)
            continue
        whole = LineString((*line.points, line.points[0]) if line.closed else line.points)
        near = [taken[i] for i in STRtree(taken).query(whole, predicate="dwithin", distance=wide)] if taken else []
        left = _not_beside(whole, near, wide)
        taken += left
        kept[k] = (line,) if left == [whole] else tuple(Line(line.role, tuple((x, y) for x, y in one.coords)) for one in left)
    short = sum(kept[k] != (line,) for k, line in enumerate(drawn.lines))
    return replace(drawn, lines=tuple(line for k in range(len(drawn.lines)) for line in kept[k])), short


def _not_beside(whole: LineString, near: Sequence[LineString], wide: float) -> list[LineString]:
    """What is left of a line without the stretches over which it runs beside others."""
    from shapely import LineString, get_parts, union_all

    if not near:
        return [whole]
    stretches = get_parts(whole.intersection(union_all([one.buffer(wide) for one in near])))
    beside = [one for one in stretches if one.length > min(BESIDE * wide, 0.999 * whole.length)]
    if not beside:
        return [whole]
    rest = get_parts(whole.difference(union_all(beside).buffer(ROUNDED)))
    return [one for one in rest if isinstance(one, LineString) and one.length > BESIDE * wide]

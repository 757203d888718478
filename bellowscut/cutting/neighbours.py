"""How near the pieces on one piece of stock come to each other, and which cuts would run into a neighbour."""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.shapes import Point

ROUNDED = 1e-3
"""A gap short of what is wanted by less is taken to be that [mm]."""

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

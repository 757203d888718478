"""What a laser follows so that the piece comes out true: half the kerf outside outlines, half of it inside holes.

Outward corners are gone round in an arc about the corner. The piece keeps its
sharp corner all the same, and unlike a point drawn out to a mitre the arc
never comes nearer to a neighbour than half the kerf. At an inward corner of a
piece a round beam always leaves a radius of half the kerf.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bellowscut.cutting.arcs import cleaned, directions, step, turn_into
from bellowscut.errors import UsageError
from bellowscut.shapes import FLATTEN, Outline, Point, polygon, signed_area
from bellowscut.words import cutting as words, say

if TYPE_CHECKING:
    from shapely import Polygon

LEFT_OUT = 1.0
"""How much of a notch may stay uncut at its bottom, where it is narrower than the kerf, before it is refused [mm], invented."""

_FINE = 0.0005
"""Greatest distance of chords from their arcs where shapes are compared [mm]."""

_TANGENT = 1e-6
"""A turn by less is no corner [rad]."""


def followed(outline: Outline, kerf: float, *, inner: bool, name: str) -> Outline:
    """The line that the middle of the beam follows.

    Parameters
    ----------
    outline : Outline
        Of a piece, or of a hole in it, counter-clockwise [mm].
    kerf : float
        Width of what the beam burns away [mm].
    inner : bool
        Whether it is a hole, which is followed on the inside.
    name : str
        Of the piece, for messages.

    Returns
    -------
    Outline
        Counter-clockwise [mm].

    Raises
    ------
    UsageError
        When a hole, or a notch in the outline, would be gone.
    """
    if kerf == 0:
        return outline
    own = cleaned(outline)
    by = -kerf / 2 if inner else kerf / 2
    wanted = _apart_from(own, by, name, kerf)
    if not inner:
        _keep_notches(own, kerf, name)
    made = _shifted(own, by)
    if made is not None and _agree(made, wanted):
        return made
    return polygon(tuple((float(x), float(y)) for x, y in wanted.exterior.coords[:-1]))


def _area(outline: Outline, tolerance: float = _FINE) -> Polygon:
    from shapely import Polygon

    return Polygon(outline.flattened(tolerance))


def _apart_from(outline: Outline, by: float, name: str, kerf: float) -> Polygon:
    """The region that the beam's middle goes round, by shapely."""
    from shapely import Polygon

    grown = _area(outline).buffer(by, quad_segs=32)
    if grown.is_empty or not isinstance(grown, Polygon):
        raise UsageError(say(words.HOLE_GONE, name=name, kerf=f"{kerf:g}"))
    if grown.interiors:
        raise UsageError(say(words.NOTCH_CLOSED, name=name, kerf=f"{kerf:g}"))
    return grown


def _keep_notches(outline: Outline, kerf: float, name: str) -> None:
    """Refuse an outline of which the beam, wide as it is, could not cut a notch."""
    import shapely

    whole = _area(outline)
    hull = whole.convex_hull
    if hull.area - whole.area < 1e-9:
        return
    cut = whole.buffer(kerf / 2, quad_segs=32).buffer(-kerf / 2, quad_segs=32)
    for notch in _pieces(hull.difference(whole)):
        if notch.area > 1e-6 and notch.difference(cut).area < 0.01 * notch.area:
            raise UsageError(say(words.NOTCH_GONE, name=name, kerf=f"{kerf:g}"))
    for lost in _pieces(cut.difference(whole)):
        depth = max(shapely.distance(cut.exterior, shapely.points(lost.exterior.coords)), default=0.0)
        if depth > LEFT_OUT:
            raise UsageError(say(words.NOTCH_UNCUT, name=name, depth=f"{depth:.1f}", kerf=f"{kerf:g}"))


def _pieces(shape: object) -> list[Polygon]:
    from shapely import Polygon, get_parts

    return [part for part in get_parts(shape) if isinstance(part, Polygon)]


def _agree(made: Outline, wanted: Polygon) -> bool:
    import shapely

    if signed_area(made.flattened()) <= 0:
        return False
    shape = _area(made)
    return shape.is_valid and float(shapely.hausdorff_distance(shape.exterior, wanted.exterior, densify=0.2)) < FLATTEN


def _shifted(outline: Outline, by: float) -> Outline | None:
    """The outline moved out by `by` with true arcs; None where that needs more than moving every segment."""
    count = len(outline.points)
    points: list[Point] = []
    bulges: list[float] = []
    for i, here in enumerate(outline.points):
        turn = turn_into(outline, i)
        before, after = directions(outline, i - 1)[1], directions(outline, i)[0]
        arrives, leaves = step(here, before - math.pi / 2, by), step(here, after - math.pi / 2, by)
        if _vanishes(outline, i, by):
            return None
        if abs(turn) < _TANGENT:
            points.append(leaves)
        elif turn * by > 0:
            points += [arrives, leaves]
            bulges.append(math.tan(turn / 4))
        elif outline.bulges[i] or outline.bulges[i - 1]:
            return None
        else:
            # Both lines moved out meet on the bisector of the corner.
            points.append(step(here, (before + turn / 2) - math.pi / 2, by / math.cos(turn / 2)))
        bulges.append(outline.bulges[i])
    return Outline(tuple(points), tuple(bulges)) if len(points) == len(bulges) >= min(count, 2) else None


def _vanishes(outline: Outline, i: int, by: float) -> bool:
    """Whether an arc is too small to be moved inwards."""
    bulge = outline.bulges[i]
    if not bulge:
        return False
    chord = math.dist(outline.points[i], outline.points[(i + 1) % len(outline.points)])
    radius = chord / (2 * math.sin(2 * math.atan(bulge)))
    return radius + by < 1e-6 if radius > 0 else -radius - by < 1e-6

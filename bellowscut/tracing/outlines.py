"""Closed outlines: whether each is sound, how many points it needs, which is the skin and which are flaws."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from bellowscut.shapes import Point, bounds, signed_area
from bellowscut.tracing.joining import place
from bellowscut.tracing.limits import FARTHEST, MOST_CORNERS, MOST_CORNERS_TOGETHER, MOST_OUTLINES, MOST_POINTS
from bellowscut.tracing.model import Ring, TracingError
from bellowscut.tracing.scale import check_size
from bellowscut.words import say, tracing as words

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

SMOOTH = 0.04
"""Greatest distance of a smoothed outline from the one drawn [mm]; with the chords of curves no point is off by more than 0.05 mm."""

SMOOTH_FROM = 60
"""Points from which an outline is smoothed [-]."""

BLOCK = 500
"""Points smoothed at a time [-]: the method may take their square in steps, and calls itself as often as there are points."""

LEAST_AREA = 1e-4
"""Area that is none [mm^2]."""

SIDE_BY_SIDE = 0.5
"""Share of the skin's area from which an outline beside it may be the skin as well [-]."""

TWICE = 0.8
"""Share of the skin's area from which an outline inside it is no flaw but the same line again [-]."""

FRAMED = 0.4
"""Share of a plain rectangle's area from which an outline inside makes it a frame round the skin [-]."""

_PLACE = re.compile(r"\[(\S+) (\S+)\]")


def clean(points: Sequence[Point], what: str, corner: Point, whose: str = "drawing", scale: float = 1.0) -> Ring:
    """An outline with no more points than it needs, counter-clockwise, when it is sound.

    Parameters
    ----------
    points : sequence of Point
        As drawn [mm], the last joins the first.
    what : str
        What it is, for the message.
    corner : Point
        Lower left corner that places are measured from [mm].
    whose : str
        What the corner is that of.
    scale : float
        By how much distances are taken larger or smaller [-].

    Returns
    -------
    Ring
        The outline [mm].

    Raises
    ------
    TracingError
        When it crosses itself or encloses nothing.
    """
    import shapely

    ring = _distinct(points, 1e-6 * scale)
    if len(ring) < 3:
        raise TracingError(say(words.NO_AREA, what=what, place=place(points[0], corner, whose)))
    smooth = _smoothed(ring, SMOOTH * scale)
    if len(smooth) > MOST_CORNERS:
        raise TracingError(say(words.TOO_RAGGED, what=what, number=len(smooth), most=MOST_CORNERS))
    if len(smooth) < 3:
        smooth = ring
    reason = _fault(smooth)
    if reason and len(smooth) < len(ring) <= MOST_CORNERS and not _fault(ring):
        # Smoothing made two near stretches cross.
        smooth, reason = ring, ""
    found = _PLACE.search(reason)
    if abs(signed_area(smooth)) < LEAST_AREA * scale * scale and shapely.Polygon(smooth).convex_hull.area < LEAST_AREA * scale * scale:
        raise TracingError(say(words.NO_AREA, what=what, place=place(points[0], corner, whose)))
    if reason:
        where = place((float(found[1]), float(found[2])), corner, whose) if found else place(points[0], corner, whose)
        raise TracingError(say(words.CROSSES_ITSELF, what=what, place=where))
    return smooth if signed_area(smooth) > 0 else smooth[::-1]


def _fault(ring: Ring) -> str:
    import shapely

    polygon = shapely.Polygon(ring)
    return "" if polygon.is_valid else str(shapely.is_valid_reason(polygon))


def _distinct(points: Sequence[Point], least: float) -> Ring:
    """The points without those that repeat the one before."""
    kept: list[Point] = []
    for point in points:
        if not kept or math.dist(point, kept[-1]) > least:
            kept.append(point)
    while len(kept) > 1 and math.dist(kept[0], kept[-1]) <= least:
        kept.pop()
    return tuple(kept)


def _smoothed(ring: Ring, tolerance: float) -> Ring:
    """The ring without points that nobody would miss, each block between two points that stay."""
    import shapely

    if len(ring) <= SMOOTH_FROM:
        return ring
    closed = [*ring, ring[0]]
    blocks = [shapely.LineString(closed[k : k + BLOCK + 1]) for k in range(0, len(ring), BLOCK)]
    found: list[Point] = []
    for block in shapely.simplify(blocks, tolerance, preserve_topology=False):
        found += [(float(x), float(y)) for x, y in shapely.get_coordinates(block)[:-1]]
    return tuple(found)


def check_outline(points: Sequence[Point], what: str = "", whose: str = "outline") -> Ring:
    """An outline given point by point, when it can be that of a skin.

    Parameters
    ----------
    points : sequence of Point
        In order round the skin [mm].
    what, whose : str
        What it is, for the message; the outline where nothing is said.

    Returns
    -------
    Ring
        The same outline, counter-clockwise [mm].

    Raises
    ------
    TracingError
        For fewer than 3 points or more than 200,000, a coordinate that is not finite, an outline that crosses itself or encloses nothing, or
        one less than 20 mm or more than 5 m across.
    """
    what = what or say(words.THE_OUTLINE)
    sound = clean(_finite(points, what), what, bounds(points)[:2], whose)
    check_size(sound)
    return sound


def _finite(points: Sequence[Point], what: str) -> Sequence[Point]:
    if not 3 <= len(points) <= MOST_POINTS:
        raise TracingError(say(words.COUNT_OF_POINTS, what=what, number=len(points), most=MOST_POINTS))
    for k, point in enumerate(points):
        if not all(abs(value) <= FARTHEST for value in point):
            raise TracingError(say(words.POINT_TOO_FAR, what=what, number=k + 1, x=f"{point[0]:g}", y=f"{point[1]:g}"))
    return points


def rings_of(loops: Sequence[Ring], corner: Point, scale: float) -> tuple[Ring, tuple[Ring, ...]]:
    """The skin, which is the largest, and all other outlines, each made sound.

    Raises
    ------
    TracingError
        When one of them is not.
    """
    sizes = [_box_area(loop) for loop in loops]
    first = max(range(len(loops)), key=lambda k: sizes[k])
    sound = [
        clean(loop, say(words.THE_LARGEST_OUTLINE) if k == first else say(words.AN_OUTLINE), corner, scale=scale)
        for k, loop in enumerate(loops)
    ]
    if sum(map(len, sound)) > MOST_CORNERS_TOGETHER:
        raise TracingError(say(words.TOO_RAGGED_TOGETHER, number=sum(map(len, sound)), most=MOST_CORNERS_TOGETHER))
    largest = max(range(len(sound)), key=lambda k: signed_area(sound[k]))
    return sound[largest], tuple(ring for k, ring in enumerate(sound) if k != largest)


def _box_area(points: Ring) -> float:
    left, low, right, high = bounds(points)
    return (right - left) * (high - low)


def flaws_of(skin: Ring, others: Sequence[Ring]) -> tuple[Ring, ...]:
    """Outlines inside the skin or over its edge, those that overlap put together.

    Parameters
    ----------
    skin : Ring
        The skin [mm].
    others : sequence of Ring
        All other outlines [mm].

    Returns
    -------
    tuple of Ring
        Flaws, none overlapping another, from left to right [mm].

    Raises
    ------
    TracingError
        When one lies outside, or is so large that the skin is in doubt.
    """
    import shapely

    whole = shapely.Polygon(skin)
    polygons = [shapely.Polygon(ring) for ring in others]
    for ring, polygon in zip(others, polygons, strict=True):
        share = polygon.area / whole.area
        if not (whole.intersects(polygon) and whole.intersection(polygon).area > LEAST_AREA):
            _outside(share, ring, skin)
        if share > SIDE_BY_SIDE and not whole.covers(polygon):
            raise TracingError(say(words.TWO_SKINS_OVERLAP, place=_of_skin(ring, skin)))
        if share > TWICE:
            raise TracingError(say(words.TRACED_TWICE, share=f"{share * 100:.0f}"))
        if share > FRAMED and _is_frame(skin):
            raise TracingError(say(words.FRAME_ROUND_SKIN, share=f"{share * 100:.0f}"))
    return _united(polygons)


def _outside(share: float, ring: Ring, skin: Ring) -> None:
    if share > SIDE_BY_SIDE:
        raise TracingError(say(words.TWO_SKINS, share=f"{share * 100:.0f}"))
    raise TracingError(say(words.OUTSIDE_SKIN, place=_of_skin(ring, skin)))


def _of_skin(ring: Ring, skin: Ring) -> str:
    return place(bounds(ring)[:2], bounds(skin)[:2], "skin")


def _is_frame(ring: Ring) -> bool:
    """Whether an outline is an upright rectangle."""
    return abs(signed_area(ring)) > (1 - 1e-6) * _box_area(ring)


def _united(polygons: Sequence[BaseGeometry]) -> tuple[Ring, ...]:
    """Rings round what the polygons cover, with no holes in it."""
    import shapely

    filled = list(polygons)
    # What lies in the hole of a ring of flaws is covered when the hole is filled, so it is united with it the second time.
    for _ in range(2):
        parts = shapely.get_parts(shapely.union_all(filled))
        filled = [shapely.Polygon(part.exterior) for part in parts if part.geom_type == "Polygon" and part.area > LEAST_AREA]
    rings = [tuple((float(x), float(y)) for x, y in polygon.exterior.coords[:-1]) for polygon in filled]
    return tuple(sorted((ring if signed_area(ring) > 0 else ring[::-1] for ring in rings), key=bounds))


def bars_of(skin: Ring, loops: Mapping[str, Sequence[Ring]], corner: Point) -> dict[str, tuple[Ring, ...]]:
    """Where a kind of part must not lie.

    Parameters
    ----------
    skin : Ring
        The skin [mm].
    loops : mapping of str to sequence of Ring
        Closed outlines by kind [mm].
    corner : Point
        Lower left corner of the drawing [mm].

    Returns
    -------
    dict
        The same, each outline sound [mm].

    Raises
    ------
    TracingError
        When one is not, or lies wholly outside.
    """
    import shapely

    whole = shapely.Polygon(skin)
    found: dict[str, tuple[Ring, ...]] = {}
    if sum(map(len, loops.values())) > MOST_OUTLINES:
        raise TracingError(say(words.TOO_MANY_BARS, most=MOST_OUTLINES))
    for kind, rings in sorted(loops.items()):
        sound = tuple(clean(ring, say(words.AN_OUTLINE_NAMED, kind=kind), corner) for ring in rings)
        for ring in sound:
            polygon = shapely.Polygon(ring)
            if not (whole.intersects(polygon) and whole.intersection(polygon).area > LEAST_AREA):
                raise TracingError(say(words.BAR_OUTSIDE_SKIN, kind=kind, place=_of_skin(ring, skin)))
        found[kind] = sound
    return found


def at_corner(skin: Ring, ring: Ring) -> Ring:
    """A ring moved to where the lower left corner of the skin's box is at (0, 0) [mm]."""
    left, low, _, _ = bounds(skin)
    return tuple((x - left, y - low) for x, y in ring)

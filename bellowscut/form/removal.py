"""Whether the segments come out of the finished bellows, one by one.

With one end plate off, the core is drawn out along the bellows. Then a segment
moves square to its side, inward, until its combs stand clear of the valleys,
and is drawn out along the bellows too. What lies in its way is checked over
its whole path in the section: the segments that still stand, and in the end
the valleys all round.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from bellowscut.form.model import Segment, Step
from bellowscut.form.sizes import FormSizes
from bellowscut.section import side_name
from bellowscut.shapes import Point

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry


def way_out(sizes: FormSizes, segments: Sequence[Segment], clearance: float) -> tuple[tuple[Step, ...], tuple[str, ...]]:
    """In which order the segments leave.

    Parameters
    ----------
    sizes : FormSizes
        The form.
    segments : sequence of Segment
        One a side, in order.
    clearance : float
        Room that a moving segment wants to everything [mm].

    Returns
    -------
    tuple of Step
        One for each segment that comes out, the key segment first.
    tuple of str
        Sides whose segments do not; empty for a form that comes apart.
    """
    import shapely

    valleys = shapely.Polygon(sizes.polygon(sizes.ridge_height)) if sizes.polygon(sizes.ridge_height) else shapely.Polygon()
    frames = [_frame(sizes.ridges, segment.side) for segment in segments]
    standing = {
        k: shapely.unary_union([shapely.Polygon(box) for box in segment.rectangles(*frames[k])]) for k, segment in enumerate(segments)
    }
    inward = sizes.ridge_height + clearance
    found: list[Step] = []
    waiting = list(range(len(segments)))
    while waiting:
        for k in waiting:
            others = shapely.unary_union([shape for other, shape in standing.items() if other != k])
            room = _room(segments[k], frames[k], inward, others, valleys)
            if room >= clearance - 1e-9:
                found.append(Step(side_name(segments[k].side), inward, room))
                del standing[k]
                waiting.remove(k)
                break
        else:
            return tuple(found), tuple(side_name(segments[k].side) for k in waiting)
    return tuple(found), ()


def _frame(ridges: Sequence[Point], side: int) -> tuple[Point, Point]:
    """Where a side begins, and its direction."""
    a, b = ridges[side], ridges[(side + 1) % len(ridges)]
    length = math.dist(a, b)
    return a, ((b[0] - a[0]) / length, (b[1] - a[1]) / length)


def _room(segment: Segment, frame: tuple[Point, Point], inward: float, others: BaseGeometry, valleys: Polygon) -> float:
    """Least room of a segment on its way, to the others all along and to the valleys where it is drawn out [mm]; 0 where it strikes something."""
    import shapely

    start, along = frame
    boxes = segment.rectangles(start, along)
    shift = (-along[1] * inward, along[0] * inward)
    moved = [[(x + shift[0], y + shift[1]) for x, y in box] for box in boxes]
    # A box sweeps the hull of where it begins and where it ends.
    swept = shapely.unary_union([shapely.MultiPoint([*box, *end]).convex_hull for box, end in zip(boxes, moved, strict=True)])
    out = shapely.unary_union([shapely.Polygon(box) for box in moved])
    if not valleys.covers(out):
        return 0.0
    rim = out.distance(valleys.exterior)
    if others.is_empty:
        return float(rim)
    return float(min(rim, swept.distance(others)))

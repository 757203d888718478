"""Whether the segments come out of the finished bellows, one by one.

With the end plates off and the core drawn out, a segment moves inward until
its combs stand clear of the valleys, and is drawn out along the bellows. It
moves square to its side where it can; between sides that lean over it, as in a
triangle, it slips along its side at the same time. What lies in its way is
checked over its whole path in the section: the segments that still stand, and
the bellows with its gussets.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from bellowscut.form.model import Segment, Step
from bellowscut.form.sizes import FormSizes
from bellowscut.section import side_name
from bellowscut.shapes import Point, Side, side_of

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

SLANTS = (0.0, 15.0, -15.0, 30.0, -30.0, 45.0, -45.0, 60.0, -60.0)
"""Directions that are tried, from square to the side towards the next side [deg]."""

TOUCH = 1e-6
"""Combs lie against the cards: by so much a computed comb may stand in them [mm]."""


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

    rooms = tuple(shapely.Polygon(room) for room in sizes.rooms)
    sides = [side_of(sizes.ridges, segment.side) for segment in segments]
    standing = {
        k: shapely.unary_union([shapely.Polygon(box) for box in segment.rectangles(sides[k])]) for k, segment in enumerate(segments)
    }
    inward = sizes.ridge_height + clearance
    found: list[Step] = []
    waiting = [k for k, segment in enumerate(segments) if _stands_clear(segment, sides[k], sizes.ridge_height, rooms)]
    stuck = [k for k in range(len(segments)) if k not in waiting]
    while waiting:
        tries = ((slant, k) for slant in SLANTS for k in waiting)
        for slant, k in tries:
            others = shapely.unary_union([shape for other, shape in standing.items() if other != k])
            aside = inward * math.tan(math.radians(slant))
            room = _room(segments[k], sides[k], (aside, inward), others, rooms[1])
            if room >= clearance - 1e-9:
                found.append(Step(side_name(segments[k].side), inward, room, aside))
                del standing[k]
                waiting.remove(k)
                break
        else:
            break
    return tuple(found), tuple(side_name(segments[k].side) for k in sorted((*stuck, *waiting)))


def _stands_clear(segment: Segment, side: Side, ridge_height: float, rooms: Sequence[Polygon]) -> bool:
    """Whether a segment stands in neither card nor gusset, at the ridges and at the valleys.

    Room and combs change in straight lines from ridge to valley, and the room
    is convex: what lies in it at both, and where it begins and ends a straight
    move, lies in it throughout.
    """
    import shapely

    for top, room in zip((0.0, ridge_height), rooms, strict=True):
        boxes = segment.rectangles(side, top)
        shown = boxes[:-1] if top == 0.0 else boxes
        if not room.buffer(TOUCH).covers(shapely.MultiPoint([point for box in shown for point in box])):
            return False
    return True


def _room(segment: Segment, side: Side, move: Point, others: BaseGeometry, valleys: Polygon) -> float:
    """Least room of a segment that moves along its side and inward [mm]; 0 where it strikes something.

    To the others it is taken all along the way, to the valleys where the segment is drawn out.
    """
    import shapely

    boxes = segment.rectangles(side)
    goal = side.at(*move)
    shift = goal[0] - side.start[0], goal[1] - side.start[1]
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

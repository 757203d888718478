"""The two frames in space: rings of wood at the ends of the bellows."""

from __future__ import annotations

import math
from collections.abc import Sequence

from bellowscut.drawing import Tint
from bellowscut.pages.bellows_space import BellowsSpace, Facet
from bellowscut.pages.corner_space import Space, frame_sizes
from bellowscut.shapes import Point, inset, least_width

WALL, WALL_MOST = 0.3, 0.3
"""Thickness of a frame as drawn, as a share of the fold depth, and at most of the section's least width [-]."""

UNDER_VALLEY = 1.1
"""The same where the cards stand on the frame at a valley, and it must reach in to there [-]."""


def opening(space: BellowsSpace) -> tuple[Point, ...]:
    """What a frame leaves open in its middle [mm]."""
    bellows, frame = space.bellows, space.bellows.section.frame
    wall = bellows.depth * (UNDER_VALLEY if bellows.valley_ends else WALL)
    wall = min(wall, WALL_MOST * least_width(frame))
    while not (hole := inset(frame, (wall,) * space.count)):
        wall /= 2
    return hole


def frame_tall(space: BellowsSpace) -> float:
    """Height of a frame as drawn [mm]."""
    return frame_sizes(space.bellows)[1]


def frame_faces(space: BellowsSpace, *, upper: bool) -> tuple[tuple[Facet, ...], tuple[Facet, ...], tuple[Facet, ...]]:
    """Faces of a frame, in an order in which they can be painted.

    Parameters
    ----------
    space : BellowsSpace
        The bellows.
    upper : bool
        Whether it is the first frame, which lies on top.

    Returns
    -------
    tuple of tuple of Facet
        Inner walls, top, and outer walls.
    """
    bellows, section, count = space.bellows, space.bellows.section, space.count
    cover, tall = frame_sizes(bellows)
    low = space.length if upper else -tall
    top = low + tall
    outer, hole = section.frame, opening(space)
    walls, rim, inner = [], [], []
    levels = ((low, low + cover, Tint.STRIP), (low + cover, top, Tint.FRAME))
    if not upper:
        levels = ((low, top - cover, Tint.FRAME), (top - cover, top, Tint.STRIP))
    wood = Tint.LEATHER if upper and bellows.profile.gasket is not None else Tint.FRAME
    ridge = section.ridge if not upper and not bellows.valley_ends else outer
    for i in range(count):
        j = (i + 1) % count
        walls += [_wall(outer[i], outer[j], *level) for level in levels]
        # The end strip goes over the edge of the lower frame to the first card.
        strip = ((_level((outer[i], outer[j], ridge[j], ridge[i]), top), Tint.STRIP),) if math.dist(outer[i], ridge[i]) > 1e-6 else ()
        rim.append(Facet("frame", _level((outer[i], outer[j], hole[j], hole[i]), top), wood, Tint.FRAME_SHADE, strip))
        inner.append(_wall(hole[j], hole[i], low, top, Tint.FRAME))
    return tuple(inner), tuple(rim), tuple(walls)


def _wall(a: Point, b: Point, low: float, high: float, tint: Tint) -> Facet:
    """An upright face from a to b, seen with a on the left."""
    return Facet("frame", ((*a, low), (*b, low), (*b, high), (*a, high)), tint, Tint.FRAME_SHADE)


def _level(points: Sequence[Point], height: float) -> tuple[Space, ...]:
    """Points of the section at one height."""
    return tuple((x, y, height) for x, y in points)

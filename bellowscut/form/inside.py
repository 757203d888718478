"""The room inside the bellows as it stands on the form: where no piece may be.

Seen along the bellows the cards of one height bound a polygon, and at every
corner the gusset cuts off what lies beyond the edges of two cards. From ridge
to valley all of it moves in straight lines, so that the polygons of the ridge
and of the valley tell the whole.
"""

from __future__ import annotations

import math

from bellowscut.bellows import Bellows
from bellowscut.shapes import Point, side_of


def inside(bellows: Bellows, deep: float, share: float) -> tuple[Point, ...]:
    """The room inside cards, hinge cloth and gussets at one height.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    deep : float
        How far the cloth lies inside the outer fold lines there [mm].
    share : float
        How far the height lies from a ridge towards a valley, 0 to 1 [-].

    Returns
    -------
    tuple of Point
        Counter-clockwise, two points a side: where its cards begin and end [mm].
    """
    found: list[Point] = []
    ridge = bellows.section.ridge
    for number in range(bellows.section.count):
        side = side_of(ridge, number)
        # Thick cards may meet on the inside before their outsides do: no card reaches past the one beside it.
        low, high = (
            max(corner.cut_back + share * bellows.depth * math.tan(corner.lean), deep * math.tan(corner.half_turn))
            for corner in bellows.corner_pair(number)
        )
        found += [side.at(low, deep), side.at(side.length - high, deep)]
    return tuple(found)

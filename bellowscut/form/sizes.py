"""Where the form's surface lies: inside the cards, under the hinge cloth, at the slope of the form.

Lengths in mm, angles in degrees. Depth counts inward from a ridge line of the
form, height along the bellows from the end of the first card.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import accumulate

from bellowscut.bellows import Bellows
from bellowscut.form.inside import inside
from bellowscut.shapes import Point, inset


@dataclass(frozen=True)
class FormSizes:
    """Sizes that every piece of a form shares.

    Parameters
    ----------
    slope : float
        Angle of the cards on the form [deg].
    allowance : float
        Card and hinge cloth, measured square to the card [mm].
    set_in : float
        How far the form's ridges lie inside those of the bellows [mm].
    ridge_height : float
        Ridge over valley [mm].
    pitch : float
        Valley to valley [mm].
    length : float
        From end to end [mm]: the gluing distance.
    ridges : tuple of Point
        Corners of the form seen along it, at its ridges [mm].
    rooms : tuple of tuple of Point
        The room inside the bellows on it, at the ridges and at the valleys, gussets taken off [mm].
    """

    slope: float
    allowance: float
    set_in: float
    ridge_height: float
    pitch: float
    length: float
    ridges: tuple[Point, ...]
    rooms: tuple[tuple[Point, ...], tuple[Point, ...]]

    def polygon(self, depth: float) -> tuple[Point, ...]:
        """The form's section at a depth from its ridge lines [mm]; empty where nothing is left."""
        return inset(self.ridges, (depth,) * len(self.ridges))


def allowance(card: float, hinge: float) -> float:
    """From the outside of a card to the form, square to the card [mm]: the card, and the cloth inside it."""
    return card + hinge


def set_in(square_to_card: float, slope: float) -> float:
    """The same measured square to the bellows' axis [mm].

    Both flanks of a zigzag move by it alike, so that ridges and valleys keep
    their height and their pitch.
    """
    return square_to_card / math.sin(math.radians(slope))


def sizes_of(bellows: Bellows) -> FormSizes:
    """The sizes of the form for a bellows."""
    slope = bellows.form_slope
    square = allowance(bellows.card, max(bellows.layers.ridge_hinge, bellows.layers.valley_hinge))
    inward = set_in(square, slope)
    height = bellows.depth * math.cos(math.radians(slope))
    return FormSizes(
        slope=slope,
        allowance=square,
        set_in=inward,
        ridge_height=height,
        pitch=2 * bellows.depth * math.sin(math.radians(slope)),
        length=bellows.gluing_distance,
        ridges=inset(bellows.section.ridge, (inward,) * bellows.section.count),
        rooms=(inside(bellows, inward, 0.0), inside(bellows, inward + height, 1.0)),
    )


def zigzag(cards: int, depth: float, slope: float, *, from_valley: bool = False) -> tuple[Point, ...]:
    """The edge of a comb: height along the bellows, and depth below the ridges [mm].

    Parameters
    ----------
    cards : int
        Cards down a side [-].
    depth : float
        Ridge line to valley line along a card [mm].
    slope : float
        Angle of the cards [deg].
    from_valley : bool
        Whether the first card begins at a valley.

    Returns
    -------
    tuple of Point
        One more than there are cards.
    """
    rise, run = depth * math.cos(math.radians(slope)), depth * math.sin(math.radians(slope))
    heights = accumulate([run] * cards, initial=0.0)
    return tuple((z, rise if (k + from_valley) % 2 else 0.0) for k, z in enumerate(heights))

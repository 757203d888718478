"""Cards: the stiff plate between a ridge and the next valley."""

from __future__ import annotations

from bellowscut.bellows import Bellows
from bellowscut.folds import card_edges
from bellowscut.parts.part import Part, Want, blank, gathered
from bellowscut.shapes import Outline, Point, rounded
from bellowscut.words import parts as words, say

KINDS = ("card",)


def make(bellows: Bellows) -> tuple[Part, ...]:
    """Loose cards of every side, one part for each distinct shape.

    Board is turned over, so a card and its mirror image above the same ridge
    are one part.
    """
    profile = bellows.profile
    if profile.card.build != "loose":
        return ()
    count = bellows.cards_per_side * profile.copies
    wants = [Want(card_outline(bellows, i)[0], (), count, letter) for i, letter in enumerate(bellows.section.side_names)]
    model = blank(bellows, "card", say(words.CARD), profile.card.material, wants[0].outline, side="outside")
    return gathered(model, wants, "sides", turned_over=True)


def card_corners(bellows: Bellows, side: int) -> tuple[Point, ...]:
    """The four corners of a side's card before rounding, centred on the ridge edge [mm].

    The legs keep their lines; the card is clipped at half the gap of the
    fold lines. Left is the corner before the side, as seen from outside with
    the valley towards the first end.
    """
    before, after = bellows.corner_pair(side)
    length = bellows.section.sides[side]
    low, high = bellows.ridge_gap / 2, bellows.depth - bellows.valley_gap / 2
    left, right = card_edges(length, before, after, low)
    far_left, far_right = card_edges(length, before, after, high)
    middle = (left + right) / 2
    return (left - middle, low), (right - middle, low), (far_right - middle, high), (far_left - middle, high)


def card_outline(bellows: Bellows, side: int) -> tuple[Outline, tuple[float, ...]]:
    """The card to cut, and the radii that its four points really got [mm]."""
    spec = bellows.profile.card
    return rounded(card_corners(bellows, side), (spec.ridge_radius, spec.ridge_radius, spec.valley_radius, spec.valley_radius))

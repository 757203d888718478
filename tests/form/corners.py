"""A segment on its way through the bellows itself: rigid cards in space, the gussets stretched between their edges.

The cards are those of `tests.space`, hinged up to the slope of the form, and
know nothing of the program's polygons. Card and hinge cloth are measured
square to the card's plane.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from bellowscut.bellows import Bellows
from bellowscut.form.model import Form, Segment, Step
from tests.form.moves import along, inside
from tests.space.cards import RIDGE_LEFT, RIDGE_RIGHT, VALLEY_LEFT, VALLEY_RIGHT, Array, Ring, ring, unit

LEVELS = (0.0, 0.3, 0.5, 0.7, 1.0)
"""Heights that are looked at, as shares of the way from a ridge to a valley [-]."""

MOMENTS = 12
"""How often a segment is looked at on its way [-]."""

NEAR = 1e-4
"""A comb lies against its cards [mm]."""


def strikes(bellows: Bellows, form: Form, segment: Segment, step: Step) -> list[str]:
    """What a segment strikes from where it stands to where it is drawn out; nothing, for one that comes out."""
    cards = ring(bellows.section.ridge, bellows.depth, bellows.corner_gap, bellows.relief, bellows.form_slope)
    allowed = bellows.card + max(bellows.layers.ridge_hinge, bellows.layers.valley_hinge)
    ridges = np.array(form.sizes.ridges)
    a, b = ridges[segment.side], ridges[(segment.side + 1) % len(ridges)]
    along_side = (b - a) / np.linalg.norm(b - a)
    inward = np.array([-along_side[1], along_side[0]])
    found = []
    for moment in range(MOMENTS + 1):
        moved = moment / MOMENTS * (inward * step.inward + along_side * step.aside)
        for share in LEVELS:
            points = np.array([a + along_side * x + inward * d + moved for x, d in _edges(segment, share, bellows)])
            place = f"at {share:g} of the depth, {moment} of {MOMENTS} on the way"
            found += [f"{what} {place}" for what in _struck(cards, points, share, allowed)]
    return found


def _edges(segment: Segment, share: float, bellows: Bellows) -> Iterator[tuple[float, float]]:
    """Points round every board of a segment at one height, along the side and in depth."""
    top = share * bellows.depth * math.cos(math.radians(bellows.form_slope))
    half, deep = segment.ply / 2, segment.comb + segment.ply
    boxes = [(place - half, place + half, top, deep) for place in segment.places]
    for left, right, low, high in (*boxes, (segment.left, segment.right, segment.comb, deep)):
        yield from along(((left, low), (right, low), (right, high), (left, high)))


def _struck(cards: Ring, points: Array, share: float, allowed: float) -> Iterator[str]:
    height = share * cards.rise
    spatial = np.column_stack([points, np.full(len(points), height)])
    for side, card in enumerate(cards.placed):
        normal = unit(np.cross(card[RIDGE_RIGHT] - card[RIDGE_LEFT], card[VALLEY_LEFT] - card[RIDGE_LEFT]))
        middle = np.append(np.mean(cards.polygon[:, :2], axis=0), 0.0)
        if normal @ (middle - card[RIDGE_LEFT]) < 0:
            normal = -normal
        if float(np.min((spatial - card[RIDGE_LEFT]) @ normal)) < allowed - NEAR:
            yield f"a card of side {side}"
    outline = _outline(cards, share)
    if not all(inside((float(x), float(y)), outline) for x, y in points):
        yield "a gusset"


def _outline(cards: Ring, share: float) -> Sequence[tuple[float, float]]:
    """The outside of the cards at one height, and from card to card the gussets."""
    found = []
    for card in cards.placed:
        for ridge, valley in ((RIDGE_LEFT, VALLEY_LEFT), (RIDGE_RIGHT, VALLEY_RIGHT)):
            point = card[ridge] + share * (card[valley] - card[ridge])
            found.append((float(point[0]), float(point[1])))
    return found

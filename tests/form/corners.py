"""A segment on its way through the bellows itself: rigid cards in space, the gussets stretched between their edges.

The cards are those of `tests.space`, hinged up to the slope of the form, and
know nothing of the program's polygons. Card and hinge cloth are measured
square to the card's plane.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

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
    moves = np.linspace(0, 1, MOMENTS + 1)[:, None, None] * (inward * step.inward + along_side * step.aside)
    found = []
    for share in LEVELS:
        points = np.array([a + along_side * x + inward * d for x, d in _edges(segment, share, bellows)])
        for what, struck in _struck(cards, points + moves, share, allowed):
            found += [f"{what} at {share:g} of the depth, {moment} of {MOMENTS} on the way" for moment in np.flatnonzero(struck)]
    return found


def _edges(segment: Segment, share: float, bellows: Bellows) -> Iterator[tuple[float, float]]:
    """Points round every board of a segment at one height, along the side and in depth."""
    top = share * bellows.depth * math.cos(math.radians(bellows.form_slope))
    half, deep = segment.ply / 2, segment.comb + segment.ply
    boxes = [(place - half, place + half, top, deep) for place in segment.places]
    for left, right, low, high in (*boxes, (segment.left, segment.right, segment.comb, deep)):
        yield from along(((left, low), (right, low), (right, high), (left, high)))


def _struck(cards: Ring, points: Array, share: float, allowed: float) -> Iterator[tuple[str, NDArray[np.bool_]]]:
    """What is struck at which moments; `points` are those of all moments, shape (moments, points, 2)."""
    spatial = np.concatenate([points, np.full((*points.shape[:2], 1), share * cards.rise)], axis=2)
    middle = np.append(np.mean(cards.polygon[:, :2], axis=0), 0.0)
    for side, card in enumerate(cards.placed):
        normal = unit(np.cross(card[RIDGE_RIGHT] - card[RIDGE_LEFT], card[VALLEY_LEFT] - card[RIDGE_LEFT]))
        if normal @ (middle - card[RIDGE_LEFT]) < 0:
            normal = -normal
        nearest: Array = np.asarray(((spatial - card[RIDGE_LEFT]) @ normal).min(axis=1), dtype=np.float64)
        yield f"a card of side {side}", np.asarray(nearest < allowed - NEAR, dtype=np.bool_)
    held = inside(points.reshape(-1, 2), _outline(cards, share)).reshape(points.shape[:2])
    yield "a gusset", np.asarray(~held.all(axis=1), dtype=np.bool_)


def _outline(cards: Ring, share: float) -> Sequence[tuple[float, float]]:
    """The outside of the cards at one height, and from card to card the gussets."""
    found = []
    for card in cards.placed:
        for ridge, valley in ((RIDGE_LEFT, VALLEY_LEFT), (RIDGE_RIGHT, VALLEY_RIGHT)):
            point = card[ridge] + share * (card[valley] - card[ridge])
            found.append((float(point[0]), float(point[1])))
    return found

"""Facings: what covers the visible face of a card."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from bellowscut.bellows import Bellows
from bellowscut.drawing import Line
from bellowscut.folds import Corner, card_edges
from bellowscut.parts.part import Part, Want, blank, crease, gathered
from bellowscut.shapes import Outline, Point, polygon
from bellowscut.words import parts as words, say

KINDS = ("facing",)

HANDS = ("right", "left")
"""Towards which end the valley lies, for a card whose two legs differ."""


def make(bellows: Bellows) -> tuple[Part, ...]:
    """Facings of every side: single, or in pairs from ridge to ridge through the valley.

    Half the cards of a side look at its two corners the other way round; where
    those corners differ the facings come in two hands.
    """
    spec = bellows.profile.facing
    if spec is None:
        return ()
    copies = bellows.profile.copies
    singles: list[Want] = []
    pairs: list[Want] = []
    in_pairs = 2 * bellows.valleys if spec.span == "pair" else 0
    for i, letter in enumerate(bellows.section.side_names):
        single = _window(bellows, i) if spec.order == "last" else _set_in(bellows, i)
        alone = (bellows.cards_per_side - in_pairs) // 2 * copies
        if alone:
            outline = polygon(single)
            singles += [
                Want(outline, (), alone, letter, hand=HANDS[0]),
                Want(outline.mirrored(), (), alone, letter, hand=HANDS[1]),
            ]
        if in_pairs:
            pairs.append(Want(*_pair(bellows, i, spec.order), bellows.valleys * copies, letter))
    found: list[Part] = []
    for wants, name in ((singles, words.FACING), (pairs, words.PAIR_FACING)):
        if wants:
            model = blank(bellows, "facing", say(name), spec.material, wants[0].outline, side="outside")
            found.extend(gathered(model, wants, "sides"))
    return _distinct_ids(found)


def _distinct_ids(parts: list[Part]) -> tuple[Part, ...]:
    seen: set[str] = set()
    made = []
    for part in parts:
        made.append(replace(part, id=f"{part.id}-pair") if part.id in seen else part)
        seen.add(part.id)
    return tuple(made)


def _edge_line(corner: Corner, lap: float, tip_lap: float, out: float) -> tuple[float, float]:
    """The gusset's cut edge on the card, moved out towards the leg by `out` [mm].

    The developed gusset and the card share the leg, so its edge lies on the
    card `tip_lap` in from the leg at the ridge and `lap` at the valley.

    Returns
    -------
    tuple of float
        x at the ridge line and at the valley line, inwards from the corner of the section [mm].
    """
    lean = corner.lean
    across, along = math.cos(lean), -math.sin(lean)
    ridge = (corner.cut_back + (tip_lap - out) * across, (tip_lap - out) * along)
    foot = corner.cut_back + corner.depth * math.tan(lean)
    valley = (foot + (lap - out) * across, corner.depth + (lap - out) * along)
    slope = (valley[0] - ridge[0]) / (valley[1] - ridge[1])
    at_ridge = ridge[0] - ridge[1] * slope
    return at_ridge, at_ridge + corner.depth * slope


def _card_line(corner: Corner, inward: float) -> tuple[float, float]:
    """The leg moved in, as x at the ridge line and at the valley line from the corner of the section [mm]."""
    at_ridge = corner.cut_back + inward / math.cos(corner.lean)
    return at_ridge, at_ridge + corner.depth * math.tan(corner.lean)


def _trapezoid(bellows: Bellows, side: int, legs: Sequence[tuple[float, float]], low: float, high: float) -> tuple[Point, ...]:
    length = bellows.section.sides[side]
    before, after = bellows.corner_pair(side)
    middle = sum(card_edges(length, before, after, bellows.ridge_gap / 2)) / 2

    def left(y: float) -> float:
        return legs[0][0] + (legs[0][1] - legs[0][0]) * y / bellows.depth - middle

    def right(y: float) -> float:
        return length - legs[1][0] - (legs[1][1] - legs[1][0]) * y / bellows.depth - middle

    return (left(low), low), (right(low), low), (right(high), high), (left(high), high)


def _window(bellows: Bellows, side: int) -> tuple[Point, ...]:
    """Glued last: the window that strips and gussets leave, grown over them [mm]."""
    spec, gusset = bellows.profile.facing, bellows.profile.gusset
    assert spec is not None
    over = spec.overlap
    legs = []
    for corner in bellows.corner_pair(side):
        edge = _edge_line(corner, gusset.lap, gusset.tip_lap, over)
        bare = _card_line(corner, 0.0)
        legs.append((max(edge[0], bare[0]), max(edge[1], bare[1])))
    low = max(bellows.ridge_gap / 2, bellows.ridge_gap / 2 + bellows.profile.edge_strip.lap - over)
    return _trapezoid(bellows, side, legs, low, bellows.depth - spec.short_of_valley)


def _set_in(bellows: Bellows, side: int) -> tuple[Point, ...]:
    """Glued first: the cut card set in by the margin [mm]."""
    spec = bellows.profile.facing
    assert spec is not None
    legs = [_card_line(corner, spec.margin) for corner in bellows.corner_pair(side)]
    low, high = bellows.ridge_gap / 2 + spec.margin, bellows.depth - bellows.valley_gap / 2 - spec.margin
    return _trapezoid(bellows, side, legs, low, high)


def _pair(bellows: Bellows, side: int, order: str) -> tuple[Outline, tuple[Line, ...]]:
    """Ridge to ridge through the valley: the single window carried to the valley line and mirrored in it."""
    single = _window(bellows, side) if order == "last" else _set_in(bellows, side)
    (ax, low), (bx, _), (cx, high), (dx, _) = single
    depth = bellows.depth
    share = (depth - low) / (high - low)
    left, right = ax + (dx - ax) * share, bx + (cx - bx) * share
    top = 2 * depth - low
    outline = polygon(((ax, low), (bx, low), (right, depth), (bx, top), (ax, top), (left, depth)))
    return outline, (crease((left, depth), (right, depth)),)

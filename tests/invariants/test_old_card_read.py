"""An old card read with a rule: the program gets its gusset back, as near as the rule allows.

The allowance does not come from the formulas. Cards that would read the same are
cut and hinged up in space, and a ruler finds between which gaps their gussets lie.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import product

import numpy as np
import pytest
from hypothesis import assume, given, strategies as st
from shapely import Polygon

from bellowscut.bellows import Bellows
from bellowscut.parts.gusset import gusset_shape
from tests.invariants.instruments import Instrument, instruments
from tests.space import cards
from tests.space.cards import RIDGE_LEFT, RIDGE_RIGHT, VALLEY_LEFT, VALLEY_RIGHT, Array

HALF_READING = 0.25
"""How far a length may be from what a rule of half millimetres says of it [mm]."""

UNEVEN = ("rectangle", "flats", "side_lengths", "corners")


def rule(length: float) -> float:
    """What a rule of half millimetres says [mm]."""
    return round(2 * length) / 2


def edges(card: Array) -> tuple[float, float]:
    """Ridge edge and valley edge of a card as cut [mm]."""
    return float(card[RIDGE_RIGHT, 0] - card[RIDGE_LEFT, 0]), float(card[VALLEY_RIGHT, 0] - card[VALLEY_LEFT, 0])


def read_off(bellows: Bellows) -> list[tuple[float, float]]:
    """Both edges of a card of every side, as a rule reads them [mm]."""
    flat = cards.ring(bellows.section.ridge, bellows.depth, bellows.corner_gap, bellows.relief, 0).flat
    return [(rule(b), rule(a)) for b, a in map(edges, flat)]


def unmeasured(instrument: Instrument, **readings: object) -> Bellows:
    """The instrument as one who has only the readings of its cards knows it."""
    return instrument.changed("bellows", relief=None, corner_gap=None).changed("readings", **readings).build()


@st.composite
def boxes(draw: st.DrawFn, kinds: tuple[str, ...]) -> tuple[Instrument, Bellows]:
    """Instruments whose cards are far enough from what no card can have that a rule does not take them there."""
    instrument = draw(instruments(kinds, options=False))
    bellows = instrument.build()
    assume(bellows.relief >= 1.5)
    assume(bellows.corner_gap >= 0.6)
    return instrument, bellows


def found(wanted: float, value: Callable[[float], float], low: float, high: float) -> float:
    """Where a falling or rising value is as wanted, by halving."""
    rising = value(high) > value(low)
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if (value(middle) < wanted) == rising else (low, middle)
    return (low + high) / 2


@given(boxes(("regular",)))
def test_one_card_of_an_even_box_gives_its_gusset(box: tuple[Instrument, Bellows]) -> None:
    instrument, true = box
    (b, a), *_ = read_off(true)
    made = unmeasured(instrument, ridge_edge=b, valley_edge=a)
    # Cards with either edge a quarter of a millimetre more or less, hinged up: what such a card may leave open.
    middle, turn, open_by = true.section.sides[0] / 2, math.radians(true.section.turns[0]), math.radians(true.stretch)
    measured = []
    for db, da in product((-HALF_READING, 0.0, HALF_READING), repeat=2):
        # The two halves at one corner: from the middle of each side, along its ridge line, then down its face.
        ends = []
        for along, toward in ((np.array([1.0, 0.0, 0.0]), 1.0), (np.array([math.cos(turn), math.sin(turn), 0.0]), -1.0)):
            inward = np.cross([0.0, 0.0, 1.0], along)
            down = inward * math.cos(open_by) + np.array([0.0, 0.0, 1.0]) * math.sin(open_by)
            start = -along * middle * toward
            ends.append((start + toward * along * (b + db) / 2, start + toward * along * (a + da) / 2 + down * true.depth))
        (ridge, valley), (ridge_after, valley_after) = ends
        height = cards.distance((ridge + ridge_after) / 2, (valley + valley_after) / 2)
        measured.append((cards.distance(ridge, ridge_after), cards.distance(valley, valley_after), height))
    corner = made.corners[0]
    got = corner.gap, corner.opening(made.stretch), corner.half_height(made.stretch)
    for value, like in zip(got, zip(*measured, strict=True), strict=True):
        assert min(like) - 1e-6 <= value <= max(like) + 1e-6
    # The pieces themselves: nowhere further apart than these openings are, but for a lap's slant.
    allowed = max(max(like) - min(like) for like in zip(*measured, strict=True))
    shapes = [Polygon(gusset_shape(one, one.corners[0], "gusset")[0].flattened(1e-4)) for one in (true, made)]
    assert shapes[0].hausdorff_distance(shapes[1]) <= allowed / 2 + 0.03


@given(boxes(UNEVEN), st.data())
def test_cards_by_side_of_an_uneven_box_give_its_gussets(box: tuple[Instrument, Bellows], data: st.DataObject) -> None:
    instrument, true = box
    names = true.section.side_names
    read = dict(zip(names, read_off(true), strict=True))
    some = data.draw(st.lists(st.sampled_from(names), min_size=1, unique=True))
    made = unmeasured(instrument, ridge_edge={side: read[side][0] for side in some}, valley_edge={side: read[side][1] for side in some})
    # Each card that was read could have been cut with these reliefs and gaps and read the same.
    polygon = np.array([(x, y, 0.0) for x, y in true.section.ridge])
    sides = [polygon[(i + 1) % len(polygon)] - polygon[i] for i in range(len(polygon))]
    reliefs, gaps = [], []
    for side in some:
        i = names.index(side)
        around = [cards.unit(sides[(i + k) % len(sides)]) for k in (-1, 0, 1)]

        def cut(relief: float, gap: float, i: int = i, around: list[Array] = around) -> tuple[float, float]:
            return edges(cards.cut_card(around, float(np.linalg.norm(sides[i])), true.depth, gap, relief))

        b, a = read[side]
        steepest = 80 - max(true.section.turns) / 2
        reliefs += [
            found(b - a + out, lambda relief: np.subtract(*cut(relief, 1.0)), -20, steepest)
            for out in (-2 * HALF_READING, 2 * HALF_READING)
        ]
        gaps += [found(b + out, lambda gap: cut(5, gap)[0], -3, 9) for out in (-HALF_READING, HALF_READING)]
    assert min(reliefs) - 1e-6 <= made.relief <= max(reliefs) + 1e-6
    assert min(gaps) - 1e-6 <= made.corner_gap <= max(gaps) + 1e-6
    assert min(reliefs) <= true.relief <= max(reliefs)
    rings = [
        cards.ring(true.section.ridge, true.depth, gap, relief, true.stretch)
        for gap, relief in product((min(gaps), max(gaps)), (min(reliefs), max(reliefs)))
    ]
    for k, corner in enumerate(made.corners):
        openings = [ring.measure(k).valley_gap for ring in rings]
        assert min(openings) - 1e-6 <= corner.opening(made.stretch) <= max(openings) + 1e-6


@given(boxes(("regular", *UNEVEN)))
def test_what_a_rule_says_never_quarrels_with_the_truth(box: tuple[Instrument, Bellows]) -> None:
    """Given the true relief and gap, a closed gap of that relief, or readings alone: neither is refused, nor are sides told apart."""
    instrument, true = box
    read = read_off(true)
    by_side = [dict(zip(true.section.side_names, column, strict=True)) for column in zip(*read, strict=True)]
    with_readings = instrument.changed("readings", ridge_edge=by_side[0], valley_edge=by_side[1])
    both = with_readings.build()
    assert (both.relief, both.corner_gap) == (true.relief, true.corner_gap)
    assert both.old_card.sides_agree
    assert both.old_card.fits_the_end
    closed = with_readings.changed("bellows", relief=None, closed_gap=true.closed_gap).build()
    assert closed.relief == pytest.approx(true.relief, abs=1e-6)

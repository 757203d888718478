"""Questions asked backwards: what stretch, depth or gusset gives a wanted size. Asked forwards again, the answer must come back."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, strategies as st
from shapely import Polygon

from bellowscut.bellows import Bellows
from bellowscut.errors import Refusal
from bellowscut.folds import (
    Corner,
    default_corner_gap,
    depth_for_opening,
    depth_for_travel,
    depth_limit,
    gap_that_clears,
    length_per_gusset_width,
    open_length,
    relief_for_closed_gap,
    stretch_for_travel,
)
from bellowscut.parts.gusset import gusset_shape
from tests.invariants.instruments import Fold, Instrument, Length, built, folds, instruments

ALIKE = ("regular", "rectangle", "flats", "side_lengths")
"""Sections whose corners are all alike."""

DEGREE = 1e-5
"""How well an angle must come back [deg]; near square, lengths hardly depend on it."""


def corner_of(fold: Fold) -> Corner:
    return Corner(fold.turn, fold.depth, fold.gap, fold.relief)


@given(folds(), st.integers(1, 20), st.floats(0, 0.9))
def test_stretch_for_a_travel(fold: Fold, cells: int, shut: float) -> None:
    length = open_length(2 * cells, fold.depth, fold.stretch)
    found = stretch_for_travel(length * (1 - shut), length * shut, 2 * cells, fold.depth)
    assert open_length(2 * cells, fold.depth, found) == pytest.approx(length, rel=1e-12)
    assert found == pytest.approx(fold.stretch, abs=DEGREE)


@given(folds(), st.integers(1, 20), st.floats(0, 0.9))
def test_depth_for_a_travel(fold: Fold, cells: int, shut: float) -> None:
    length = open_length(2 * cells, fold.depth, fold.stretch)
    travel, closed = length * (1 - shut), length * shut
    assert depth_for_travel(travel, closed, 2 * cells, fold.stretch, fold.depth * 1.001) == pytest.approx(fold.depth, rel=1e-12)
    with pytest.raises(Refusal, match="travel"):
        depth_for_travel(travel, closed, 2 * cells, fold.stretch, fold.depth * 0.999)


@given(folds())
def test_stretch_for_an_opening(fold: Fold) -> None:
    corner = corner_of(fold)
    found = corner.stretch_for_opening(corner.opening(fold.stretch))
    assert corner.opening(found) == pytest.approx(corner.opening(fold.stretch), abs=1e-9)
    assert found == pytest.approx(fold.stretch, abs=1e-3)
    assert corner.stretch_for_opening(corner.opening(90) + 0.01) == 90
    with pytest.raises(Refusal, match="opening"):
        corner.stretch_for_opening(corner.opening(0) - 0.01)


@given(folds(least_gap=0.2), st.floats(1, 8), st.floats(0.3, 1))
def test_stretch_for_a_gusset(fold: Fold, lap: float, share: float) -> None:
    corner = corner_of(fold)
    width = 2 * corner.gusset_edge(fold.stretch, lap, lap * share)[0]
    found = corner.stretch_for_gusset(width, lap, lap * share)
    assert 2 * corner.gusset_edge(found, lap, lap * share)[0] == pytest.approx(width, abs=1e-6)
    assert found == pytest.approx(fold.stretch, abs=1e-2)
    with pytest.raises(Refusal, match="gusset_width"):
        corner.stretch_for_gusset(2 * corner.gusset_edge(0, lap, lap * share)[0] - 0.01, lap, lap * share)
    assert corner.stretch_for_gusset(2 * corner.gusset_edge(90, lap, lap * share)[0] + 0.01, lap, lap * share) == 90


@given(folds(least_gap=0.2, least_relief=0.5), st.integers(1, 20).map(lambda n: 2 * n))
def test_depth_for_existing_gussets_is_the_smaller_that_serves(fold: Fold, number: int) -> None:
    """The depth found gives the length with the valley gap the gussets have, and no smaller depth does."""
    assume(5 < fold.stretch < 89)
    corner = corner_of(fold)
    opening = corner.opening(fold.stretch)
    length = open_length(number, fold.depth, fold.stretch)
    found = depth_for_opening(length, 0, number, corner, opening, 10 * fold.depth)
    assert found <= fold.depth * (1 + 1e-9)

    def reach(depth: float) -> float:
        other = Corner(fold.turn, depth, fold.gap, fold.relief)
        return open_length(number, depth, other.stretch_for_opening(opening))

    assert reach(found) == pytest.approx(length, rel=1e-9)
    for smaller in (0.999 * found, 0.9 * found, 0.5 * found):
        assert reach(smaller) < length
    deepest = max(
        reach(found * (1 + k / 200))
        for k in range(400)
        if Corner(fold.turn, found * (1 + k / 200), fold.gap, fold.relief).opening(0) < opening
    )
    with pytest.raises(Refusal, match="travel"):
        depth_for_opening(deepest * 1.05 + 1, 0, number, corner, opening, 3 * found)


@given(st.lists(st.floats(20, 130), min_size=3, max_size=8), st.floats(5, 40), st.floats(0, 2), st.floats(0, 8))
def test_relief_for_a_closed_gap_is_met_by_the_tightest_corner(turns: list[float], depth: float, gap: float, more: float) -> None:
    relief = relief_for_closed_gap(turns, depth, gap, gap + more)
    # In shallow folds flat corners can ask for so much that a sharp one has no leg left, which a bellows refuses.
    assume(relief < 90 - max(turns) / 2 - 0.1)
    closed = [Corner(turn, depth, gap, relief).opening(0) for turn in turns]
    assert min(closed) == pytest.approx(gap + more, abs=1e-9)
    with pytest.raises(Refusal, match="closed_gap"):
        relief_for_closed_gap(turns, depth, gap, gap - 0.001)


@given(folds(), st.floats(0.1, 1))
def test_relief_for_leather_leaves_room_for_four_layers(fold: Fold, leather: float) -> None:
    """At that relief the gap of two closed cards is on the mean four thicknesses wide, from ridge to valley."""
    relief = corner_of(fold).relief_for_leather(leather)
    closed = Corner(fold.turn, fold.depth, fold.gap, relief).opening(0)
    assert (fold.gap + closed) / 2 == pytest.approx(4 * leather, abs=1e-9)


@given(st.floats(300, 600), folds(), st.floats(30, 100), st.floats(0.5, 8))
def test_at_the_depth_limit_two_millimetres_of_card_are_left(side: float, fold: Fold, other_turn: float, lap: float) -> None:
    before, after = corner_of(fold), Corner(other_turn, fold.depth, fold.gap, fold.relief)
    limit = depth_limit(side, before, after, lap)
    assume(limit > 1)
    # Walk down the card to the depth and measure what two strips of the lap's width along the legs leave of its valley edge.
    left, right = (
        (corner.cut_back + limit * math.tan(corner.lean) + lap / math.sin(math.radians(corner.ridge_angle))) for corner in (before, after)
    )
    assert side - left - right == pytest.approx(2, abs=1e-9)


@given(folds(), st.floats(0.3, 3))
def test_the_default_corner_gap_clears_thick_cards(fold: Fold, card: float) -> None:
    gap = default_corner_gap([fold.turn, 20.0], card)
    assert gap >= max(1, gap_that_clears([fold.turn, 20.0], card)) - 1e-9
    assert gap < max(1, gap_that_clears([fold.turn, 20.0], card)) + 0.1
    assert gap * 10 == pytest.approx(round(gap * 10), abs=1e-9)


@given(folds(least_gap=0.2), st.integers(1, 20).map(lambda n: 2 * n))
def test_length_for_a_millimetre_of_gusset_is_the_slope(fold: Fold, number: int) -> None:
    assume(5 < fold.stretch < 85)
    corner, step = corner_of(fold), 1e-4
    low, high = (open_length(number, fold.depth, fold.stretch + way * step) for way in (-1, 1))
    wide = corner.opening(fold.stretch + step) - corner.opening(fold.stretch - step)
    assert length_per_gusset_width(number, [fold.turn, 140.0], fold.stretch) == pytest.approx((high - low) / wide, rel=1e-5)


@given(instruments(options=False), st.integers(1, 99))
def test_a_profile_may_ask_for_the_travel_instead(instrument: Instrument, share: int) -> None:
    bellows = instrument.build()
    longest = bellows.cards_per_side * bellows.depth - bellows.closed_length
    wanted = Length(max(8, int(longest * share / 100 / Length(1).mm)))
    asked = built(instrument.changed("bellows", stretch=None, travel=wanted))
    assert asked is None or asked.travel == pytest.approx(wanted.mm, abs=1e-9)


def drawn(bellows: Bellows, corner: Corner) -> Polygon:
    """The plain gusset of a corner as it is cut, arcs and all."""
    return Polygon(gusset_shape(bellows, corner, "gusset")[0].flattened(1e-4))


def sharp_width(piece: Polygon) -> float:
    """Width of the sharp diamond inside a piece: its longest straight edge, carried on to the middle."""
    points = list(piece.exterior.coords)
    (x, y), (u, v) = max(pairwise(points), key=lambda edge: math.dist(*edge))
    return float(2 * abs(x - y * (u - x) / (v - y)))


@given(instruments(ALIKE, options=False))
def test_a_gusset_given_back_is_the_same_gusset(instrument: Instrument) -> None:
    """What a rule finds on the program's own gusset, given back to it: the same piece, and a bellows that opens as far."""
    bellows = instrument.build()
    first = drawn(bellows, bellows.corners[0])
    left, low, right, high = first.bounds
    old = instrument.changed("gusset", use=[right - left, high - low]).build()
    assert drawn(old, old.corners[0]).hausdorff_distance(first) < 0.01
    assert old.open_length == pytest.approx(bellows.open_length, abs=0.1)


@given(instruments(options=False), st.floats(1, 1.3), st.floats(0.8, 1.3))
def test_any_own_gusset_is_cut_as_it_was_measured(instrument: Instrument, wider: float, longer: float) -> None:
    """From these cards or not, and in whichever corner: greatest width and length are those given, and the sharp diamond opens the corner.

    In uneven corners the one that asks for the widest gusset stops all.
    """
    bellows = instrument.build()
    boxes = [drawn(bellows, corner).bounds for corner in bellows.corners]
    width, length = (max(box[k + 2] - box[k] for box in boxes) for k in (0, 1))
    own = instrument.changed("gusset", use=[width * wider, length * longer]).build()
    spec = own.profile.gusset
    spare = []
    for corner in own.corners:
        piece = drawn(own, corner)
        left, low, right, high = piece.bounds
        assert (right - left, high - low) == pytest.approx((width * wider, length * longer), abs=1e-3)
        spare.append(sharp_width(piece) - 2 * corner.gusset_edge(own.stretch, spec.lap, spec.tip_lap)[0])
    if own.stretch < 90:
        assert min(spare) == pytest.approx(0, abs=1e-3)

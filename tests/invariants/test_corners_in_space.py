"""Corners, folds and lengths against rigid cards placed in space and measured there."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, strategies as st

from bellowscut.bellows import Bellows
from bellowscut.folds import Corner, card_edges, card_width, open_length
from bellowscut.section import side_lengths_of, turns_of
from bellowscut.shapes import Point, inset, least_width
from tests.invariants.instruments import Fold, Instrument, folds, instruments, ridge_polygons
from tests.space import cards

RULER = 1e-6
"""How well two routes must agree [mm]."""


def corners_of(polygon: tuple[Point, ...], fold: Fold) -> list[Corner]:
    return [Corner(turn, fold.depth, fold.gap, fold.relief) for turn in turns_of(polygon)]


@given(ridge_polygons(), folds())
def test_every_corner_measures_what_the_formulas_say(polygon: tuple[Point, ...], fold: Fold) -> None:
    placed = cards.ring(polygon, fold.depth, fold.gap, fold.relief, fold.stretch)
    for index, corner in enumerate(corners_of(polygon, fold)):
        found = placed.measure(index)
        assert found.ridge_gap == pytest.approx(corner.gap, abs=RULER)
        assert found.valley_gap == pytest.approx(abs(corner.opening(fold.stretch)), abs=RULER)
        assert found.leg == pytest.approx(corner.leg, abs=RULER)
        assert found.half_height == pytest.approx(corner.half_height(fold.stretch), abs=RULER)


@given(ridge_polygons(), folds())
def test_half_a_gusset_lies_in_a_plane_at_every_stretch(polygon: tuple[Point, ...], fold: Fold) -> None:
    placed = cards.ring(polygon, fold.depth, fold.gap, fold.relief, fold.stretch)
    for index in range(len(polygon)):
        assert placed.measure(index).out_of_plane < RULER


@given(ridge_polygons(), folds())
def test_the_card_as_cut(polygon: tuple[Point, ...], fold: Fold) -> None:
    placed = cards.ring(polygon, fold.depth, fold.gap, fold.relief, 0)
    corners = corners_of(polygon, fold)
    for i, side in enumerate(side_lengths_of(polygon)):
        before, after = corners[i], corners[(i + 1) % len(corners)]
        left, right, far_right, far_left = placed.flat[i][:, 0]
        assert card_edges(side, before, after) == pytest.approx((left, right), abs=RULER)
        assert card_edges(side, before, after, fold.depth) == pytest.approx((far_left, far_right), abs=RULER)
        assert card_width(side, before, after, fold.depth / 3) == pytest.approx((2 * (right - left) + far_right - far_left) / 3, abs=RULER)
        leg = placed.flat[i][3] - placed.flat[i][0]
        assert before.ridge_angle == pytest.approx(math.degrees(math.atan2(leg[1], leg[0])), abs=1e-9)


@given(ridge_polygons(), st.floats(5, 30), st.floats(0, 90))
def test_the_valley_stands_inside_the_ridge_by_the_tilted_depth(polygon: tuple[Point, ...], depth: float, stretch: float) -> None:
    """The valley polygon, drawn round the placed cards, is the ridge polygon moved in; it moves out as the bellows opens."""
    placed = cards.ring(polygon, depth, 1, 5, stretch)
    moved = inset(polygon, (depth * math.cos(math.radians(stretch)),) * len(polygon))
    if moved:
        assert np.array(moved) == pytest.approx(placed.valley_polygon(), abs=RULER)


@given(folds(), st.integers(1, 20).map(lambda cells: 2 * cells))
def test_open_length_is_the_length_of_the_stack(fold: Fold, number: int) -> None:
    placed = cards.ring(((0, 0), (200, 0), (200, 200), (0, 200)), fold.depth, fold.gap, fold.relief, fold.stretch)
    assert open_length(number, fold.depth, fold.stretch) == pytest.approx(cards.stacked_length(placed, number), abs=RULER)


@given(ridge_polygons())
def test_least_width_is_what_callipers_find(polygon: tuple[Point, ...]) -> None:
    assert least_width(polygon) == pytest.approx(cards.least_width(np.array(polygon)), abs=RULER)


@given(instruments(options=False))
def test_a_whole_bellows_in_space(instrument: Instrument) -> None:
    """Every corner of an instrument built from its profile, all lengths, and what is left clear inside when closed."""
    bellows = instrument.build()
    placed = in_space(bellows, bellows.stretch)
    for index, corner in enumerate(bellows.corners):
        found = placed.measure(index)
        assert found.valley_gap == pytest.approx(corner.opening(bellows.stretch), abs=RULER)
        assert found.half_height == pytest.approx(corner.half_height(bellows.stretch), abs=RULER)
    assert bellows.open_length == pytest.approx(cards.stacked_length(placed, bellows.cards_per_side), abs=RULER)
    on_form = in_space(bellows, bellows.form_slope)
    assert bellows.gluing_distance == pytest.approx(cards.stacked_length(on_form, bellows.cards_per_side), abs=RULER)
    assert bellows.valley_pitch == pytest.approx(cards.stacked_length(on_form, 2), abs=RULER)
    closed = in_space(bellows, 0)
    gaps = [closed.measure(i).valley_gap for i in range(closed.count)]
    assert bellows.closed_gap == pytest.approx(min(gaps), abs=RULER)
    if bellows.inside_opening:
        inside = closed_inside(closed, bellows.card)
        assert bellows.inside_opening == pytest.approx(cards.least_width(inside), abs=RULER)


def in_space(bellows: Bellows, stretch: float) -> cards.Ring:
    return cards.ring(bellows.section.ridge, bellows.depth, bellows.corner_gap, bellows.relief, stretch)


def closed_inside(closed: cards.Ring, card: float) -> cards.Array:
    """The closed valley polygon with a card's thickness taken off every side."""
    from shapely import Polygon

    smaller = Polygon(closed.valley_polygon()).buffer(-card, join_style="mitre", mitre_limit=1000)
    return np.array(smaller.exterior.coords)


def test_a_hair_of_error_would_be_noticed() -> None:
    """The second route tells a corner cut a hundredth of a degree wrong."""
    square = ((0, 0), (200, 0), (200, 200), (0, 200))
    wrong = cards.ring(square, 25, 1, 5.01, 60).measure(0)
    assert abs(wrong.valley_gap - Corner(90, 25, 1, 5).opening(60)) > 1000 * RULER

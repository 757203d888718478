"""The gusset's leather: flat at full stretch, never too short before it, and cut to lap as far onto the cards as asked."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, strategies as st

from bellowscut.bellows import Bellows
from bellowscut.folds import Corner
from bellowscut.parts.facing import make as make_facings
from bellowscut.parts.gusset import gusset_shape, template_window
from tests.invariants.instruments import STEP, Fold, Instrument, Length, folds, instruments
from tests.invariants.test_corners_in_space import RULER, in_space
from tests.space import cards, leather


def opened(fold: Fold, stretch: float) -> cards.Ring:
    """Three sides of 400 mm round two corners that turn as the fold does; the third closes them."""
    turn = math.radians(fold.turn)
    points = [(0.0, 0.0), (400.0, 0.0), (400 + 400 * math.cos(turn), 400 * math.sin(turn))]
    return cards.ring(points, fold.depth, fold.gap, fold.relief, stretch)


@given(folds())
def test_leather_laid_flat_is_the_opening(fold: Fold) -> None:
    sheet = leather.flattened(opened(fold, fold.stretch), 1)
    corner = Corner(fold.turn, fold.depth, fold.gap, fold.relief)
    wide, height = corner.opening(fold.stretch) / 2, corner.half_height(fold.stretch)
    expected = [(-wide, 0), (wide, 0), (fold.gap / 2, height), (-fold.gap / 2, height)]
    assert sheet.points == pytest.approx(np.array(expected), abs=RULER)
    assert sheet.leg == pytest.approx(corner.leg, abs=RULER), "its card edges are as long as the cards' legs"


@given(folds(least_gap=0.2), st.floats(0.02, 0.98))
def test_leather_cut_for_full_stretch_folds_away_at_less(fold: Fold, share: float) -> None:
    """Folded flat-faced between the cards: every length of the sheet is kept, and there is leather to spare."""
    full = leather.flattened(opened(fold, fold.stretch), 1)
    less = opened(fold, fold.stretch * share)
    for inwards in (1, -1):
        sheet = leather.folded(full, less, 1, inwards)
        half = full.valley / 2
        slant = float(np.linalg.norm(full.points[3] - (full.points[0] + full.points[1]) / 2))
        for (valley, middle, ridge), (outer, inner) in (
            (sheet.faces[0], (half, full.leg)),
            ((sheet.faces[1][1], sheet.middle, sheet.ridge_after), (0, slant)),
        ):
            assert cards.distance(valley, middle) == pytest.approx(outer, abs=RULER)
            assert cards.distance(valley, ridge) == pytest.approx(inner, abs=RULER)
        assert cards.distance(sheet.middle, sheet.ridge_before) == pytest.approx(slant, abs=RULER)
        assert cards.distance(sheet.middle, sheet.valley_after) == pytest.approx(half, abs=RULER)
        assert cards.distance(sheet.ridge_before, sheet.ridge_after) == pytest.approx(full.ridge, abs=RULER)
    assert full.valley > less.measure(1).valley_gap


@given(folds(least_gap=0.2), st.floats(0.02, 0.9))
def test_leather_cut_for_less_does_not_reach(fold: Fold, share: float) -> None:
    assume(fold.stretch > 5)
    short = leather.flattened(opened(fold, fold.stretch * share), 1)
    with pytest.raises(ValueError, match="does not reach"):
        leather.folded(short, opened(fold, fold.stretch), 1, 1)


@given(folds(), st.floats(0.05, 0.95))
def test_leather_bends_as_a_cone_where_cards_touch_at_the_ridge(fold: Fold, share: float) -> None:
    """Without a corner gap the leather is a cone about the ridge point: its edges lie on both legs, and developed it is as wide as the formula says."""
    touching = Fold(fold.turn, fold.depth, 0.0, max(fold.relief, 0.5), max(fold.stretch, 5.0))
    ridge, valley_before, _, valley_after = opened(touching, touching.stretch).corner(1)
    flat_angle = math.acos(float(cards.unit(valley_before - ridge) @ cards.unit(valley_after - ridge)))
    ridge, first, _, last = opened(touching, touching.stretch * share).corner(1)
    ends = leather.cone(ridge, first, last, flat_angle)
    corner = Corner(touching.turn, touching.depth, 0.0, touching.relief)
    assert [cards.distance(ridge, end) for end in ends] == pytest.approx([corner.leg] * len(ends), abs=RULER)
    assert (ends[0], ends[-1]) == (pytest.approx(first, abs=RULER), pytest.approx(last, abs=RULER))
    assert leather.developed_width(ridge, ends) == pytest.approx(corner.opening(touching.stretch), abs=1e-5)
    assert leather.developed_width(ridge, ends) > cards.distance(first, last)


def upper_edge(points: tuple[tuple[float, float], ...]) -> tuple[cards.Array, cards.Array]:
    """The right-hand cut edge of a gusset above its valley line, from the valley to the tip."""
    right = [np.array(p) for p in points if p[0] > 0 and p[1] > -1e-9]
    return min(right, key=lambda p: p[1]), max(right, key=lambda p: p[1])


def sharp(instrument: Instrument) -> Bellows:
    """The instrument with its gussets' points left sharp."""
    return instrument.changed("gusset", tip_radius=Length(0), point_radius=Length(0)).build()


def edge_on_card(bellows: Bellows, index: int) -> tuple[cards.Ring, cards.Array, cards.Array]:
    """The gusset's cut edge laid on the card after a corner, in space, at full stretch: at the valley line and at the tip.

    The flat leather is turned about the card's leg until it lies on the card, as it is glued.
    """
    placed = in_space(bellows, bellows.stretch)
    sheet = leather.flattened(placed, index)
    outline, _ = gusset_shape(bellows, bellows.corners[index], "gusset")
    low, high = upper_edge(outline.points)
    _, _, ridge, valley = placed.corner(index)
    along = cards.unit(ridge - valley)
    inward = cards.unit(placed.placed[index][2] - valley)
    square = cards.unit(inward - along * float(inward @ along))
    flat_along = cards.unit(sheet.points[2] - sheet.points[1])
    flat_square = np.array([flat_along[1], -flat_along[0]])
    found = [
        valley + along * float((p - sheet.points[1]) @ flat_along) + square * float((p - sheet.points[1]) @ flat_square)
        for p in (low, high)
    ]
    return placed, found[0], found[1]


def off_leg(placed: cards.Ring, index: int, a: cards.Array, b: cards.Array, at: cards.Array) -> float:
    """Distance of the line a-b from a point of the leg, measured on the card square to the leg."""
    _, _, ridge, valley = placed.corner(index)
    leg = cards.unit(ridge - valley)
    run = b - a
    meets = a + run * (float((at - a) @ leg) / float(run @ leg))
    assert abs(float((meets - at) @ leg)) < RULER
    return cards.distance(meets, at)


@given(instruments(options=False))
def test_the_cut_edge_lies_a_lap_from_the_leg_on_the_card(instrument: Instrument) -> None:
    bellows = sharp(instrument)
    spec = bellows.profile.gusset
    for index in range(bellows.section.count):
        placed, low, high = edge_on_card(bellows, index)
        _, _, ridge, valley = placed.corner(index)
        assert off_leg(placed, index, low, high, valley) == pytest.approx(spec.lap, abs=RULER)
        assert off_leg(placed, index, low, high, ridge) == pytest.approx(spec.tip_lap, abs=RULER)


@given(instruments(options=False))
def test_gussets_run_on_over_the_ridge_and_the_frame_by_their_turns(instrument: Instrument) -> None:
    bellows = sharp(instrument)
    placed = in_space(bellows, bellows.stretch)
    spec = bellows.profile.gusset
    for index, corner in enumerate(bellows.corners):
        height = leather.flattened(placed, index).points[2][1]
        for kind, turn, below in (
            ("gusset", spec.ridge_turn, -height - spec.ridge_turn),
            ("end-gusset", spec.frame_turn, -height - spec.ridge_turn),
            ("half-gusset", spec.ridge_turn, -spec.lap),
        ):
            outline, _ = gusset_shape(bellows, corner, kind)
            _, low, _, high = outline.bounds()
            assert high == pytest.approx(height + turn, abs=RULER)
            assert low == pytest.approx(below, abs=RULER)


@given(instruments(options=False))
def test_the_template_window_is_the_bare_opening(instrument: Instrument) -> None:
    bellows = instrument.build()
    placed = in_space(bellows, bellows.stretch)
    for index, corner in enumerate(bellows.corners):
        bare = leather.flattened(placed, index).points
        whole = {tuple(np.round(p, 6) + 0.0) for p in (*bare, *(bare[2:] * (1, -1)))}
        assert {tuple(np.round(p, 6) + 0.0) for p in template_window(bellows, corner, "gusset")} == whole
        assert {tuple(np.round(p, 6) + 0.0) for p in template_window(bellows, corner, "half-gusset")} == {
            tuple(np.round(p, 6) + 0.0) for p in bare
        }


@given(instruments(options=False), st.integers(1, 20).map(Length))
def test_a_facing_glued_last_covers_the_cut_edge_by_its_overlap(instrument: Instrument, overlap: Length) -> None:
    """On the card in space, measured square to the leg, the facing reaches over the leather by `overlap`; never past the leg."""
    asked = instrument.changed("facing", order="last", span="card", overlap=overlap).changed("edge_strip", lap=Length(24), skive=Length(20))
    bellows = asked.changed("gusset", tip_radius=Length(0), point_radius=Length(0)).build()
    assume(overlap.mm < bellows.profile.gusset.tip_lap)
    for part in make_facings(bellows):
        if part.id.endswith("-left"):
            continue
        # Sides that agree to 0.005 mm share a part, which is drawn for the first of them.
        index = bellows.section.side_names.index(part.sides[0])
        placed, low, high = edge_on_card(bellows, index)
        low_left, _, _, high_left = part.outline.points
        # The part's x counts from the middle of the card's cut ridge edge.
        flat = placed.flat[index]
        share = bellows.ridge_gap / 2 / bellows.depth
        left, right = (flat[a][0] + (flat[b][0] - flat[a][0]) * share for a, b in ((0, 3), (1, 2)))
        a, b = placed.on_card(index, np.array([low_left, high_left]) + np.array([(left + right) / 2, 0]))
        _, _, ridge, valley = placed.corner(index)
        for at in (ridge, valley):
            assert off_leg(placed, index, low, high, at) - off_leg(placed, index, a, b, at) == pytest.approx(overlap.mm, abs=RULER)


def test_random_overlaps_stay_small_enough_to_be_tried() -> None:
    assert 20 * STEP > 2 > STEP

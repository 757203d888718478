"""Laws that hold for every instrument: what more stretch does, what it must not do, and that inches and millimetres agree."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, strategies as st

from bellowscut.bellows import Bellows, build
from bellowscut.folds import Corner
from bellowscut.parts import make_parts
from bellowscut.profile import as_toml, loads
from tests.invariants.instruments import Fold, Instrument, Length, built, folds, instruments


@given(instruments())
def test_cards_never_cross_when_closed(instrument: Instrument) -> None:
    bellows = instrument.build()
    assert bellows.closed_gap >= bellows.corner_gap - 1e-9 >= 0
    assert all(corner.opening(0) >= corner.gap - 1e-9 for corner in bellows.corners)


@given(instruments(), st.integers(410, 740).map(lambda n: n / 10))
def test_closed_length_is_the_same_whatever_the_stretch(instrument: Instrument, stretch: float) -> None:
    one = instrument.build()
    other = built(instrument.changed("bellows", stretch=stretch))
    assume(other is not None)
    assert other is not None
    assert (other.closed_length, other.stack, other.closed_gap) == (one.closed_length, one.stack, one.closed_gap)
    assert other.inside_opening == one.inside_opening


@given(folds(), st.floats(0.05, 0.95), st.floats(0.5, 8), st.floats(0.3, 1))
def test_more_stretch_asks_for_a_wider_and_shorter_gusset(fold: Fold, share: float, lap: float, tip: float) -> None:
    corner = Corner(fold.turn, fold.depth, fold.gap, fold.relief)
    less, more = fold.stretch * share, fold.stretch
    assert corner.opening(less) < corner.opening(more)
    assert corner.gusset_edge(less, lap, lap * tip)[0] < corner.gusset_edge(more, lap, lap * tip)[0]
    assert corner.half_height(less) > corner.half_height(more) or corner.relief == 0


@given(folds())
def test_equal_laps_make_the_cut_edge_parallel_to_the_opening(fold: Fold) -> None:
    corner = Corner(fold.turn, fold.depth, fold.gap, fold.relief)
    _, slope = corner.gusset_edge(fold.stretch, 5, 5)
    drop = (corner.opening(fold.stretch) - fold.gap) / 2 / corner.half_height(fold.stretch)
    assert slope == pytest.approx(drop, abs=1e-9)


@given(instruments(options=False))
def test_a_bellows_opens_further_than_it_closes(instrument: Instrument) -> None:
    bellows = instrument.build()
    assert 0 < bellows.closed_length < bellows.open_length
    assert bellows.travel == pytest.approx(bellows.open_length - bellows.closed_length, abs=1e-9)
    assert bellows.air_moved > 0
    assert 0 < bellows.leather_share < 1


@given(instruments(options=False), st.integers(1, 60))
def test_a_deeper_fold_opens_further(instrument: Instrument, steps: int) -> None:
    depth = instrument.tables["bellows"]["fold_depth"]
    shallower = Length(depth.steps - steps)
    assume(shallower.mm > 10)
    bellows = built(instrument.changed("bellows", fold_depth=shallower))
    assume(bellows is not None)
    assert bellows is not None
    assert bellows.open_length < instrument.build().open_length
    assert bellows.closed_length == instrument.build().closed_length
    assert bellows.depth_limit() == pytest.approx(instrument.build().depth_limit(), abs=1e-9)


def sizes(bellows: Bellows) -> list[float]:
    return [
        bellows.open_length,
        bellows.closed_length,
        bellows.closed_gap,
        bellows.inside_opening,
        bellows.air_moved,
        bellows.leather_share,
        bellows.valley_pitch,
        bellows.excess_on_form,
        bellows.length_per_mm_of_gusset,
    ]


@given(instruments())
def test_millimetres_and_inches_make_the_same_bellows(instrument: Instrument) -> None:
    metric, imperial = instrument.build("mm"), instrument.build("in")
    assert metric.profile.fingerprint == imperial.profile.fingerprint
    assert metric.section == imperial.section
    assert sizes(metric) == sizes(imperial)
    assert [part.points for part in make_parts(metric)] == [part.points for part in make_parts(imperial)]


@given(instruments())
def test_a_profile_written_out_makes_the_same_bellows(instrument: Instrument) -> None:
    bellows = instrument.build()
    again = build(loads(as_toml(bellows.profile)))
    assert again.profile.fingerprint == bellows.profile.fingerprint
    assert sizes(again) == pytest.approx(sizes(bellows), rel=1e-6)
    assert [part.count for part in make_parts(again)] == [part.count for part in make_parts(bellows)]


@given(instruments(("corners",)), st.integers(1, 9))
def test_walking_round_the_frame_the_other_way_changes_nothing(instrument: Instrument, by: int) -> None:
    """Corners given clockwise make the same polygon; starting at another corner turns the letters on."""
    points = instrument.tables["section"]["corners"]
    there, back = (instrument.changed("section", corners=given_in).build() for given_in in (points, points[::-1]))
    assert set(there.section.frame) == set(back.section.frame)
    assert there.section.ridge_area == pytest.approx(back.section.ridge_area, rel=1e-12)
    by %= len(points)
    turned = instrument.changed("section", corners=points[by:] + points[:by]).build()
    assert sorted(turned.section.sides) == pytest.approx(sorted(there.section.sides), abs=1e-9)
    assert turned.closed_length == there.closed_length
    assert turned.air_moved == pytest.approx(there.air_moved, rel=1e-9)


@given(instruments(("regular", "rectangle"), options=False))
def test_valley_ends_have_the_same_gussets(instrument: Instrument) -> None:
    ridge, valley = (instrument.changed("bellows", ends=ends, folds=3).build() for ends in ("ridge", "valley"))
    one, other = (next(part for part in make_parts(bellows) if part.kind == "gusset") for bellows in (ridge, valley))
    assert one.points == other.points
    half = next(part for part in make_parts(valley) if part.kind == "half-gusset")
    assert half.outline.bounds()[3] == pytest.approx(one.outline.bounds()[3], abs=1e-9)
    assert ridge.open_length == pytest.approx(valley.open_length * ridge.cards_per_side / valley.cards_per_side, rel=1e-12)

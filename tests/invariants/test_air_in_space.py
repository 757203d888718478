"""Air moved: the formula against slices of the placed cards and against a closed mesh round them."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st
from shapely import Polygon

from bellowscut.folds import Corner, half_fold_volume
from bellowscut.section import turns_of
from bellowscut.shapes import Point, perimeter, signed_area
from tests.invariants.instruments import Instrument, instruments, ridge_polygons
from tests.invariants.test_corners_in_space import closed_inside, in_space
from tests.space import air, cards, leather

AGREE = 1e-6
"""How well formula and slices must agree, as a share."""

REAL = 0.01
"""How well the formula must give the air in a corner of real, folded leather, as a share."""


SLACK = 0.05
"""How far short of full stretch leather is tried that bulges a little [deg]."""


@given(ridge_polygons(), st.floats(5, 20), st.floats(0.2, 3), st.floats(2, 10), st.floats(5, 90))
def test_half_a_fold_holds_what_its_slices_do(polygon: tuple[Point, ...], depth: float, gap: float, relief: float, stretch: float) -> None:
    corners = [Corner(turn, depth, gap, relief) for turn in turns_of(polygon)]
    volume = half_fold_volume(signed_area(polygon), perimeter(polygon), corners, stretch)
    assert volume == pytest.approx(air.sliced_volume(cards.ring(polygon, depth, gap, relief, stretch)), rel=AGREE)


@given(instruments(options=False))
def test_a_whole_bellows_moves_the_air_inside_its_skin(instrument: Instrument) -> None:
    """All that the skin holds when open, less what the cards lying flat leave between their valley edges, over the closed length."""
    bellows = instrument.build()
    skin = air.bellows_mesh(in_space(bellows, bellows.stretch), bellows.cards_per_side)
    stays = Polygon(closed_inside(in_space(bellows, 0), bellows.card)).area * bellows.closed_length
    assert bellows.air_moved * 1000 == pytest.approx(air.mesh_volume(skin) - stays, rel=AGREE)


@given(instruments(options=False))
def test_leather_a_little_slack_makes_no_odds(instrument: Instrument) -> None:
    """A twentieth of a degree short of full stretch the gusset bulges in or out; the formula's flat one lies between and is good to `REAL`."""
    bellows = instrument.build()
    full, less = in_space(bellows, bellows.stretch), in_space(bellows, bellows.stretch - SLACK)
    section = bellows.section
    flat = half_fold_volume(section.ridge_area, section.ridge_perimeter, bellows.corners, bellows.stretch - SLACK)

    def with_leather(inwards: float) -> float:
        return air.mesh_volume(air.ring_mesh(less, lambda i: leather.folded(leather.flattened(full, i), less, i, inwards)))

    out, into = with_leather(-1), with_leather(1)
    assert min(out, into) < flat < max(out, into)
    assert out == pytest.approx(flat, rel=REAL)
    assert into == pytest.approx(flat, rel=REAL)

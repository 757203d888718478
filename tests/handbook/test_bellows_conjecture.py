"""Connelly, Sabitov and Walz, *The bellows conjecture* (1997): a closed polyhedron of rigid faces cannot change its volume.

The cards of a fold, flat leather at its corners and a lid on ridge and valley
close such a polyhedron. It moves air, so some face must change its shape; the
cards may not, so the leather at the valley must, by as much as the gusset is
made to open.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, strategies as st

from bellowscut.folds import Corner, half_fold_volume
from bellowscut.section import turns_of
from bellowscut.shapes import Point, perimeter, signed_area
from tests.invariants.instruments import ridge_polygons
from tests.space import air, cards

pytestmark = pytest.mark.source("rigid-polyhedra")

DEPTH, GAP, RELIEF = 15, 1, 5


def edges(card: cards.Array) -> list[float]:
    """All six distances between a card's four points [mm]."""
    return [cards.distance(card[i], card[j]) for i in range(4) for j in range(i)]


@given(ridge_polygons(), st.floats(10, 89), st.floats(0.3, 0.9))
def test_air_moves_by_as_much_as_the_leather_gives(polygon: tuple[Point, ...], stretch: float, share: float) -> None:
    """What two closed polyhedra in space hold, against the air said; and of all their edges only the gussets' change, as said."""
    corners = [Corner(turn, DEPTH, GAP, RELIEF) for turn in turns_of(polygon)]
    wide, narrow = (cards.ring(polygon, DEPTH, GAP, RELIEF, t) for t in (stretch, stretch * share))
    held = [air.mesh_volume(air.bellows_mesh(ring, 2)) / 2 for ring in (wide, narrow)]
    said = [half_fold_volume(signed_area(polygon), perimeter(polygon), corners, t) for t in (stretch, stretch * share)]
    assert held[0] != pytest.approx(held[1], rel=1e-4), "a polyhedron that moves no air would have nothing to show"
    assert said == pytest.approx(held, rel=1e-9)
    assert np.allclose([edges(card) for card in wide.placed], [edges(card) for card in narrow.placed], atol=1e-9)
    gives = [wide.measure(i).valley_gap - narrow.measure(i).valley_gap for i in range(len(polygon))]
    assert min(gives) > 1e-3
    assert [corner.opening(stretch) - corner.opening(stretch * share) for corner in corners] == pytest.approx(gives, abs=1e-9)
    assert [wide.measure(i).ridge_gap for i in range(len(polygon))] == pytest.approx([corner.gap for corner in corners], abs=1e-9)

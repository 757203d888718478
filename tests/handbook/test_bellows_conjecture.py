"""Connelly, Sabitov and Walz, *The bellows conjecture* (1997): a closed polyhedron of rigid faces cannot change its volume.

So a bellows whose air changes must have a face that changes its shape: the
gusset, which must be soft. A program that gave rigid gussets and moving air
would contradict the theorem.
"""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from bellowscut.folds import Corner, half_fold_volume
from bellowscut.section import turns_of
from bellowscut.shapes import Point, perimeter, signed_area
from tests.invariants.instruments import ridge_polygons
from tests.space import cards

pytestmark = pytest.mark.source("rigid-polyhedra")


@given(ridge_polygons(), st.floats(5, 89), st.floats(0.3, 0.97))
def test_air_moves_only_while_a_gusset_changes_shape(polygon: tuple[Point, ...], stretch: float, share: float) -> None:
    corners = [Corner(turn, 15, 1, 5) for turn in turns_of(polygon)]
    more, less = (half_fold_volume(signed_area(polygon), perimeter(polygon), corners, t) for t in (stretch, stretch * share))
    if abs(more - less) > 1e-6 * more:
        assert any(abs(corner.opening(stretch) - corner.opening(stretch * share)) > 1e-9 for corner in corners)


def test_every_other_face_is_rigid() -> None:
    """Between two stretches all cards keep all their lengths and the ridge line does not move: only the gussets are left to give."""
    polygon = ((0.0, 0.0), (150.0, 0.0), (170.0, 90.0), (-20.0, 130.0))
    one, other = (cards.ring(polygon, 25, 1, 5, stretch) for stretch in (20, 60))
    for before, after in zip(one.placed, other.placed, strict=True):
        for i in range(4):
            for j in range(i):
                assert cards.distance(before[i], before[j]) == pytest.approx(cards.distance(after[i], after[j]), abs=1e-9)
    for index in range(4):
        assert one.measure(index).ridge_gap == pytest.approx(other.measure(index).ridge_gap, abs=1e-9)
        assert other.measure(index).valley_gap - one.measure(index).valley_gap > 5

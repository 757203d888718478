"""Adam, *Practical Bookbinding* (1903): leather is pared to a bevel of 2 to 3 mm at an edge, and graded over more where it must fold.

Bookbinding leather makers' tables: calf of 0.6 to 0.8 mm, goat about 1.0 before paring.
"""

from __future__ import annotations

import pytest

from bellowscut.bellows import Bellows
from bellowscut.drawing import Role
from bellowscut.parts import make_parts

pytestmark = pytest.mark.source("bookbinding")


def test_edges_are_pared_by_a_bevel_at_least(six_fold: Bellows) -> None:
    """No skive line of a leather part lies nearer to a long edge than the narrow bevel of 2 mm that bookbinders pare."""
    for part in make_parts(six_fold):
        if part.kind in ("edge-strip", "end-strip"):
            _, low, _, high = part.outline.bounds()
            along = [line for line in part.lines if line.role is Role.SKIVE and line.points[0][1] == line.points[1][1]]
            assert len(along) == 2
            for line in along:
                assert min(high - line.points[0][1], line.points[0][1] - low) >= 2


def test_strip_leather_is_as_thin_as_bookbinding_calf(six_fold: Bellows) -> None:
    assert 0.6 <= six_fold.material("strip skin").thickness <= 0.8

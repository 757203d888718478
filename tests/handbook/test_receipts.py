"""Spon's *Workshop Receipts*, fourth series (1880s), "Harmoniums", the reservoir.

The ends of a rectangular bellows' folds, 2 1/2 in deep, are cut at 40 degrees.
At 45 a square corner would just close flat, so the corner allowance is 5.
Gussets are patterned with the bellows opened to its full width.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from bellowscut.bellows import Bellows
from bellowscut.folds import Corner
from bellowscut.parts import make_parts
from bellowscut.units import parse_length
from tests.printed import printed

pytestmark = pytest.mark.source("receipts")


def test_folds_are_two_and_a_half_inches_deep() -> None:
    assert parse_length("2 1/2 in") == printed("63.5")


def test_a_square_corner_is_cut_at_forty_degrees(made: Callable[..., Bellows]) -> None:
    """The default corner allowance gives the angle printed."""
    reservoir = made(section={"shape": "rectangle", "width": "20 in", "height": "14 in"}, bellows={"fold_depth": "2 1/2 in"})
    assert [corner.ridge_angle for corner in reservoir.corners] == [printed("40")] * 4
    assert reservoir.corners[0].depth == printed("63.5")


def test_at_forty_five_it_would_just_close_flat() -> None:
    assert Corner(90, 63.5, 0, 0).ridge_angle == printed("45")
    assert Corner(90, 63.5, 0, 0).opening(0) == pytest.approx(0, abs=1e-9)
    assert Corner(90, 63.5, 0, 5).opening(0) > 5
    assert Corner(90, 63.5, 0, -0.1).opening(0) < 0


def test_gussets_are_patterned_at_full_width(made: Callable[..., Bellows]) -> None:
    """The gusset cut is as wide as the opening at full stretch and its laps, however little the bellows is opened on the form."""
    for slope in (20, 40, 60):
        opened = made(
            section={"shape": "rectangle", "width": "20 in", "height": "14 in"},
            bellows={"fold_depth": "2 1/2 in", "stretch": 60, "form_slope": slope},
            gusset={"point_radius": 0, "tip_lap": 5},
        )
        (gusset,) = (part for part in make_parts(opened) if part.kind == "gusset")
        corner = opened.corners[0]
        height = corner.half_height(60)
        edge = 5 * (height**2 + ((corner.opening(60) - corner.gap) / 2) ** 2) ** 0.5 / height
        assert gusset.outline.bounds()[2] == pytest.approx(corner.opening(60) / 2 + edge, abs=1e-9)

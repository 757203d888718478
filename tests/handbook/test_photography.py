"""*The Book of Photography*, ed. Hasluck (1905), "Making bellows with cardboard strips".

A square bellows of card strips 1 in wide, their ends sloped, the boards nearly touching.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from bellowscut.bellows import Bellows
from bellowscut.parts import make_parts
from tests.printed import printed

pytestmark = pytest.mark.source("photography")


def test_strips_of_card_an_inch_wide(made: Callable[..., Bellows]) -> None:
    camera = made(
        section={"shape": "rectangle", "width": "6 in", "height": "6 in"},
        bellows={"folds": 8, "fold_depth": "1 in", "relief": 0, "corner_gap": 0},
        card={"ridge_gap": 0, "valley_gap": 0, "ridge_radius": 0, "valley_radius": 0},
        gusset={"lap": 4, "tip_lap": 4},
    )
    (card,) = (part for part in make_parts(camera) if part.kind == "card")
    left, low, right, high = card.outline.bounds()
    assert high - low == printed("25.4")
    assert card.sides == ("A", "B", "C", "D")
    # Ends sloped so that boards nearly touch: at a square corner each end takes the card's own width off one edge.
    (_, _), (_, _), (far_right, _), (far_left, _) = card.outline.points
    assert (right - left) - (far_right - far_left) == printed("50.8")
    assert camera.closed_gap == pytest.approx(0, abs=1e-9)


def test_boards_that_nearly_touch_leave_the_cloth_room(made: Callable[..., Bellows]) -> None:
    camera = made(
        section={"shape": "rectangle", "width": "6 in", "height": "6 in"},
        bellows={"folds": 8, "fold_depth": "1 in"},
        hinge={"valley_side": "outside"},
    )
    assert camera.ridge_gap == camera.valley_gap == camera.layers.valley_hinge

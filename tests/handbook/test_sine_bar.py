"""Constants for setting a 5-inch sine bar, engineers' handbooks, e.g. *Machinery's Handbook* (digits from memory, and computed).

A bar whose ends stand 5 in apart, set up at an angle, has one end so much
higher than the other. A card is such a bar: closed it lies flat, and a bellows
opens by what all cards down one side are set up.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from bellowscut.bellows import Bellows
from tests.printed import printed

pytestmark = pytest.mark.source("sine-bar")

TABLE = ((30, "2.50000"), (40, "3.21394"), (45, "3.53553"), (50, "3.83022"), (60, "4.33013"), (75, "4.82963"))
"""Angle [deg] and height [in]."""

BOX = {"shape": "rectangle", "width": "40 in", "height": "30 in"}


@pytest.mark.parametrize(("angle", "height"), TABLE)
@pytest.mark.parametrize("folds", [1, 6])
def test_open_length_is_every_cards_rise(made: Callable[..., Bellows], angle: float, height: str, folds: int) -> None:
    bellows = made(section=BOX, bellows={"folds": folds, "fold_depth": "5 in", "stretch": angle, "form_slope": angle})
    cards = 2 * (folds + 1)
    assert bellows.open_length / 25.4 / cards == printed(height)
    assert bellows.gluing_distance / 25.4 / cards == printed(height), "on the form the cards stand at its slope"
    assert bellows.valley_pitch / 25.4 / 2 == printed(height)


@pytest.mark.parametrize(("angle", "height"), TABLE)
def test_travel_asked_for_sets_the_cards_at_the_tables_angle(made: Callable[..., Bellows], angle: float, height: str) -> None:
    """What a player notices: from shut to fully out. Asked for, it gives back the angle that the table was entered with."""
    shut = made(section=BOX, bellows={"folds": 4, "fold_depth": "5 in"}).closed_length
    travel = 10 * float(height) * 25.4 - shut
    asked = made(section=BOX, bellows={"folds": 4, "fold_depth": "5 in", "travel": f"{travel:.6f} mm"})
    assert asked.travel == pytest.approx(travel, abs=1e-5)
    assert asked.stretch == pytest.approx(angle, abs=0.001)

"""Compound-mitre tables of joinery handbooks (values from memory, and computed).

A hopper's plates lean at a slope and meet edge to edge: each plate's end is cut
at a mitre in the plate's own plane, with the blade tilted. A card of a bellows
without corner gap is such a plate, and its leg's lean that mitre.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from bellowscut.folds import Corner
from bellowscut.section import regular, turns_of
from tests.printed import printed
from tests.space import cards

pytestmark = pytest.mark.source("mitre-tables")

TABLE = (
    (4, 45, "35.26", "30.00"),
    (4, 52, "31.62", "33.86"),
    (6, 45, "22.21", "20.70"),
    (8, 45, "16.32", "15.70"),
    (12, 45, "10.73", "10.55"),
)
"""Sides, slope, mitre in the plate's plane and tilt of the blade [deg]; 52 is the crown moulding of 38 and 52."""


@pytest.mark.parametrize(("sides", "slope", "mitre"), [row[:3] for row in TABLE])
def test_mitre_in_the_plane_of_the_plate(sides: int, slope: float, mitre: str) -> None:
    """The lean at which two cards meet all along their legs, found by halving."""
    turn = turns_of(regular(sides, 100, "side").points)[0]
    low, high = 0.0, 90.0
    for _ in range(60):
        lean = (low + high) / 2
        low, high = (lean, high) if Corner(turn, 25, 0, lean - turn / 2).opening(slope) < 0 else (low, lean)
    assert low == printed(mitre)
    assert Corner(turn, 25, 0, low - turn / 2).ridge_angle == pytest.approx(90 - float(mitre), abs=0.005)


@pytest.mark.parametrize(("sides", "slope", "mitre", "tilt"), TABLE)
def test_tilt_of_the_blade_on_cards_in_space(sides: int, slope: float, mitre: str, tilt: str) -> None:
    """What the second route's own cards do when cut to the table's mitre: edges meet, and the blade's tilt is half the turn of their faces."""
    frame = regular(sides, 100, "side").points
    hopper = cards.ring(frame, 25, 0, float(mitre) - 180 / sides, slope)
    assert hopper.measure(1).valley_gap == pytest.approx(0, abs=2 * 25 * math.radians(0.005) * 2)
    faces = [np.cross(x, y) for x, y in hopper.axes[:2]]
    assert math.degrees(math.acos(float(faces[0] @ faces[1]))) / 2 == printed(tilt)

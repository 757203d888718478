"""Bend allowance of sheet metal, engineers' handbooks: angle x (inside radius + K x thickness).

K is 0.5 where the mid-line keeps its length. A quarter bend of a sheet 1 thick
over radius 2 then takes a quarter of a circle of radius 2.5, that is 3.927.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from bellowscut.bellows import Bellows
from bellowscut.parts import make_parts
from bellowscut.shapes import Outline, perimeter
from bellowscut.stack import bend_allowance
from tests.printed import printed

pytestmark = pytest.mark.source("bending")


def test_a_quarter_bend() -> None:
    assert bend_allowance(90, 2, 1, 0.5) == printed("3.927")


def test_k_puts_the_line_that_keeps_its_length() -> None:
    assert bend_allowance(90, 2, 1, 0) == printed("3.142")
    assert bend_allowance(90, 2, 1, 1) == printed("4.712")
    assert bend_allowance(90, 2, 1, 0.33) == printed("3.660")


@pytest.mark.parametrize(("radius", "thickness"), [(1.0, 0.6), (1.5, 0.5), (0.5, 0.0)])
def test_it_is_the_length_of_the_mid_line(radius: float, thickness: float) -> None:
    """Against a half circle drawn at the mid-line and measured with fine chords."""
    middle = radius + thickness / 2
    bow = Outline(((-middle, 0.0), (middle, 0.0)), (0.0, 1.0))
    assert bend_allowance(180, radius, thickness, 0.5) == pytest.approx(perimeter(bow.flattened(1e-7)) - 2 * middle, rel=1e-6)


def test_strips_bend_round_two_closed_cards_and_round_the_frame(made: Callable[..., Bellows]) -> None:
    """The edge strip turns through half a circle over radius one card; the end strip through a quarter."""
    heavy = made(**{'materials."grey card"': {"form": "sheet", "thickness": 1.5, "size": [1000, 700]}})
    parts = {part.id: part for part in make_parts(heavy)}
    _, low, _, high = parts["edge-strip"].outline.bounds()
    assert high - low == pytest.approx(2 * 7 + math.pi * 1.8, abs=1e-9)
    _, low, _, high = parts["end-strip"].outline.bounds()
    assert high - low == pytest.approx(15 + 8 + math.pi * 0.9, abs=1e-9)

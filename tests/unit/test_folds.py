"""One corner and one fold in plain numbers: refusals with their limits, and the yes-or-no questions."""

from __future__ import annotations

import math

import pytest

from bellowscut import folds
from bellowscut.errors import Refusal
from bellowscut.folds import Corner
from bellowscut.shapes import rounded

SIX = Corner(60, 25, 1, 5)
HAIR = 1e-6


def limit_in(refused: pytest.ExceptionInfo[Refusal], before: str) -> float:
    """The number that follows some words of a message."""
    return float(refused.value.message.split(before, 1)[1].split()[0])


def test_an_opening_below_the_closed_gap() -> None:
    closed = SIX.opening(0)
    with pytest.raises(Refusal, match="even when closed") as refused:
        SIX.stretch_for_opening(closed - HAIR)
    assert refused.value.quantity == "opening"
    assert limit_in(refused, "the corner is ") == pytest.approx(closed, abs=0.005)
    assert SIX.stretch_for_opening(closed + HAIR) == pytest.approx(0, abs=0.1)


def test_a_gusset_too_narrow_and_one_too_wide() -> None:
    least, most = (2 * SIX.gusset_edge(stretch, 5, 3)[0] for stretch in (0, 90))
    with pytest.raises(Refusal, match="too narrow") as refused:
        SIX.stretch_for_gusset(least - HAIR, 5, 3)
    assert limit_in(refused, "needs ") == pytest.approx(least, abs=0.005)
    assert SIX.stretch_for_gusset(least + HAIR, 5, 3) == pytest.approx(0, abs=0.1)
    assert SIX.stretch_for_gusset(most - HAIR, 5, 3) == pytest.approx(90, abs=0.01)
    assert SIX.stretch_for_gusset(most + 10, 5, 3) == 90


def test_travel_beyond_square_cards() -> None:
    with pytest.raises(Refusal, match="at most 310.0 mm") as refused:
        folds.stretch_for_travel(310 + HAIR, 40, 14, 25)
    assert refused.value.quantity == "travel"
    assert folds.stretch_for_travel(310, 40, 14, 25) == 90


def test_a_travel_that_needs_too_deep_a_fold() -> None:
    with pytest.raises(Refusal, match=r"30\.00 mm, a travel of 170\.0 mm") as refused:
        folds.depth_for_travel(170, 40, 14, 30, 30)
    assert refused.value.quantity == "travel"
    assert folds.depth_for_travel(170 - HAIR, 40, 14, 30, 30) == pytest.approx(30)


def test_existing_gussets_past_the_peak() -> None:
    opening = SIX.opening(50)
    with pytest.raises(Refusal, match="these gussets give at most") as refused:
        folds.depth_for_opening(400, 40, 14, SIX, opening, 60)
    most = limit_in(refused, "at most ")
    with pytest.raises(Refusal, match="gussets"):
        folds.depth_for_opening(most + 0.1, 40, 14, SIX, opening, 60)
    assert folds.depth_for_opening(most - 0.1, 40, 14, SIX, opening, 60) == pytest.approx(limit_in(refused, "with folds "), rel=0.05)


def test_existing_gussets_of_an_exact_mitre_stop_at_the_limit() -> None:
    """Without allowance a deeper fold always gains, so that only the section sets an end."""
    exact = Corner(60, 25, 1, 0)
    opening = exact.opening(50)
    at_limit = folds.open_length(14, 40, Corner(60, 40, 1, 0).stretch_for_opening(opening))
    assert folds.depth_for_opening(at_limit - 0.01, 0, 14, exact, opening, 40) <= 40
    with pytest.raises(Refusal, match="gussets"):
        folds.depth_for_opening(at_limit + 0.01, 0, 14, exact, opening, 40)


def test_a_closed_gap_under_the_corner_gap() -> None:
    with pytest.raises(Refusal, match=r"corner gap of 1\.00 mm") as refused:
        folds.relief_for_closed_gap([60, 60], 25, 1, 1 - HAIR)
    assert refused.value.quantity == "closed_gap"
    assert folds.relief_for_closed_gap([60, 60], 25, 1, 1) == pytest.approx(0, abs=1e-9)


def test_over_centre() -> None:
    """What is left before square falls under the corner gap and a twentieth of the valley gap somewhere past 80 degrees, and stays so."""
    found = [SIX.over_centre(stretch) for stretch in range(91)]
    first = found.index(True)
    assert found == [False] * first + [True] * (91 - first)

    def left(stretch: float) -> float:
        return SIX.opening(90) - SIX.opening(stretch)

    assert left(first - 1) >= 1 + 0.05 * SIX.opening(first - 1)
    assert left(first) < 1 + 0.05 * SIX.opening(first)


def test_rounded_points_widen_the_gap() -> None:
    """Where the arc leaves the ridge edge is where a card's edge now ends; two such ends at 60 degrees stand this far apart."""
    left, right = folds.card_edges(200, SIX, SIX)
    far_left, far_right = folds.card_edges(200, SIX, SIX, 25)
    outline, _ = rounded(((left, 0), (right, 0), (far_right, 25), (far_left, 25)), (3, 0, 0, 0))
    along = outline.points[1]
    assert along[1] == pytest.approx(0, abs=1e-12)
    # The other card's end lies as far along the side before, which comes in at 60 degrees.
    other = (-along[0] * math.cos(math.radians(60)), along[0] * math.sin(math.radians(60)))
    assert SIX.gap_after_rounding(3) == pytest.approx(math.dist(along, other), rel=1e-9)
    assert SIX.gap_after_rounding(0) == pytest.approx(1)


def test_default_corner_gap() -> None:
    assert folds.default_corner_gap([60] * 6, 1.0) == 1.0
    assert folds.default_corner_gap([90] * 4, 1.0) == 1.5
    assert folds.default_corner_gap([60] * 6, 1.3) == 1.3
    assert folds.default_corner_gap([40, 90, 120], 1.0) == 1.8


def test_relief_that_folded_leather_needs() -> None:
    assert SIX.relief_for_leather(0.4) == pytest.approx(1.18, abs=0.005)
    assert SIX.relief_for_leather(0.25) == pytest.approx(0, abs=1e-9)
    assert SIX.relief_for_leather(0.2) < 0


def test_length_for_gusset_width_goes_by_the_flattest_corner() -> None:
    assert folds.length_per_gusset_width(14, [60, 30, 90], 50) == folds.length_per_gusset_width(14, [30], 50)
    assert folds.length_per_gusset_width(14, [30], 50) > folds.length_per_gusset_width(14, [60], 50)

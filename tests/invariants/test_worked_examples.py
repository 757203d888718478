"""The worked examples of the geometry's description, worked by hand there, to every digit printed.

Each figure is written as printed; it must be met to half a unit of its last
digit. Gusset outlines are those before their points are rounded, areas after.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from bellowscut.bellows import Bellows
from bellowscut.folds import Corner, card_edges, card_width, half_fold_volume
from bellowscut.parts import Part, make_parts
from bellowscut.parts.card import card_corners
from bellowscut.section import by_side_lengths, regular, side_lengths_of
from bellowscut.shapes import perimeter, signed_area
from bellowscut.stack import bend_allowance, mean_lap
from bellowscut.units import MM2_PER_SQ_FT
from tests.printed import printed

SIX = regular(6, 158.75, "across-flats").points
CORNER = Corner(60, 25, 1, 5)


def test_zero_gaps_six_sides() -> None:
    side = side_lengths_of(SIX)[0]
    assert side == printed("91.6544")
    assert card_width(side, CORNER, CORNER) == printed("90.4997")
    assert card_width(side, CORNER, CORNER, 25) == printed("55.4893")
    assert CORNER.leg == printed("30.5194")
    assert CORNER.opening(60) == printed("18.8199")
    assert CORNER.half_height(60) == printed("29.1898")
    half_width, slope = CORNER.gusset_edge(60, 5, 5)
    assert 2 * half_width == printed("29.2754")
    assert 2 * (CORNER.half_height(60) + 2) == printed("62.3796")
    assert half_width - slope * (CORNER.half_height(60) + 2) > 0


def test_air_in_half_a_fold() -> None:
    area, round_it = signed_area(SIX), perimeter(SIX)
    sharp = half_fold_volume(area, round_it, [Corner(60, 25, 0, _mitre(60, 60) - 30)] * 6, 60)
    assert sharp / 1000 == printed("402.021")
    assert half_fold_volume(area, round_it, [CORNER] * 6, 60) / 1000 == printed("399.684")


def _mitre(turn: float, stretch: float) -> float:
    """The leg's lean [deg] with which two cards meet all the way at this stretch, found by halving."""
    low, high = 0.0, 90.0
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if Corner(turn, 25, 0, middle - turn / 2).opening(stretch) < 0 else (low, middle)
    return (low + high) / 2


def test_gaps_of_three_tenths_clip_the_card() -> None:
    side = side_lengths_of(SIX)[0]
    assert card_width(side, CORNER, CORNER, 0.15) == printed("90.290")
    assert card_width(side, CORNER, CORNER, 25 - 0.15) == printed("55.699")
    left, right = card_edges(side, CORNER, CORNER)
    assert left == pytest.approx(side - right, abs=1e-9)


def test_strip_over_two_cards() -> None:
    assert bend_allowance(180, 1.0, 0.6, 0.5) == printed("4.0841")
    assert 2 * 7 + bend_allowance(180, 1.0, 0.6, 0.5) == printed("18.0841")


def test_mean_thickness_of_a_skived_lap() -> None:
    assert mean_lap(0.6, 0.2, 5, 7) == pytest.approx((5 * 0.4 + 2 * 0.6) / 7, abs=1e-12)


def test_square_corner() -> None:
    corner = Corner(90, 25, 1, 5)
    assert corner.opening(60) == printed("25.4572")
    assert corner.half_height(60) == printed("36.9207")
    assert corner.leg == printed("38.8931")
    assert corner.ridge_angle == printed("40")


def test_six_sides_by_tape() -> None:
    lengths = (91.2, 92.5, 91.0, 92.1, 91.9, 90.6)
    frame = by_side_lengths(lengths)
    assert frame.misfit == printed("0.383")
    assert _left_open(lengths) == printed("1.179")


def _left_open(lengths: tuple[float, ...]) -> float:
    """By how much sides laid end to end at sixths of a turn miss their start."""
    turn = complex(0.5, 3**0.5 / 2)
    return float(abs(sum(length * turn**i for i, length in enumerate(lengths))))


@pytest.fixture(scope="module")
def parts(six_fold: Bellows) -> dict[str, Part]:
    return {part.id: part for part in make_parts(six_fold)}


def size(part: Part) -> tuple[float, float]:
    left, low, right, high = part.outline.bounds()
    return right - left, high - low


class TestFiveLines:
    """The five-line profile with every default."""

    def test_ridge(self, six_fold: Bellows) -> None:
        assert six_fold.section.ridge_flats is not None
        assert six_fold.section.ridge_flats[0] == printed("157.05")
        assert six_fold.section.sides[0] == printed("90.673")

    def test_card(self, six_fold: Bellows) -> None:
        assert six_fold.card_width(0, 0) == printed("89.518")
        assert six_fold.card_width(0, 25) == printed("54.508")
        (ax, low), (bx, _), (cx, high), (dx, _) = card_corners(six_fold, 0)
        assert (six_fold.ridge_gap, six_fold.valley_gap) == (printed("0.2"), printed("2.0"))
        assert bx - ax == printed("89.378")
        assert cx - dx == printed("55.908")
        assert high - low == printed("23.9")

    def test_corner(self, six_fold: Bellows) -> None:
        corner = six_fold.corners[0]
        assert corner.leg == printed("30.519")
        assert corner.relief_for_leather(0.4) == printed("1.18")
        assert corner.opening(six_fold.stretch) == printed("15.250")
        assert six_fold.closed_gap == printed("6.320")
        assert corner.half_height(six_fold.stretch) == printed("29.676")

    def test_gussets(self, made: Callable[..., Bellows]) -> None:
        sharp = {part.id: part for part in make_parts(made(gusset={"tip_radius": 0, "point_radius": 0}))}
        plain, end = sharp["gusset"], sharp["end-gusset"]
        assert (plain.count, end.count) == (30, 12)
        assert size(plain) == (printed("25.699"), printed("62.352"))
        assert size(end) == (printed("25.699"), printed("65.852"))
        assert tip(plain) == printed("6.338")
        assert tip(end) == printed("4.164")

    def test_stack(self, six_fold: Bellows) -> None:
        stack = six_fold.stack
        assert (stack.face, stack.valley, stack.ridge, stack.corner) == (printed("2.0"), printed("2.4"), printed("3.6"), printed("5.414"))
        assert stack.governs == "corner"

    def test_lengths(self, six_fold: Bellows) -> None:
        assert six_fold.closed_length == printed("37.90")
        assert six_fold.open_length == printed("268.12")
        assert six_fold.travel == printed("230.22")
        assert six_fold.gluing_distance == printed("268.12")
        assert six_fold.valley_pitch == printed("38.302")
        assert six_fold.excess_on_form == printed("0")
        assert six_fold.length_per_mm_of_gusset == printed("11.747")
        assert six_fold.inside_opening == printed("105.05")
        assert six_fold.depth_limit() == printed("53.78")
        # 4615.7 cm3 when open, of which 362.2 stay inside the valleys when shut.
        assert six_fold.air_moved == printed("4253.5")

    def test_length_for_a_millimetre_of_gusset(self, made: Callable[..., Bellows]) -> None:
        assert made(bellows={"stretch": 50}).length_per_mm_of_gusset == printed("11.7")
        assert made(bellows={"stretch": 60}).length_per_mm_of_gusset == printed("8.1")

    def test_strips(self, parts: dict[str, Part]) -> None:
        edge, end = parts["edge-strip"], parts["end-strip"]
        assert (edge.count, size(edge)) == (6, (printed("554.04"), printed("18.084")))
        assert (end.count, size(end)) == (2, (printed("559.93"), printed("25.042")))

    def test_hinges(self, parts: dict[str, Part]) -> None:
        ridge, valley = parts["hinge-ridge"], parts["hinge-valley"]
        assert (ridge.count, size(ridge)) == (36, (printed("87.38"), printed("12.2")))
        assert (valley.count, size(valley)) == (42, (printed("53.91"), printed("14.0")))

    def test_leather(self, parts: dict[str, Part]) -> None:
        # With true arcs; the listed outlines are made of chords and come to 1.8 mm2 less over 42 gussets.
        gussets = sum(part.outline.area() * part.count for part in parts.values() if part.material == "gusset skin")
        strips = sum(part.outline.area() * part.count for part in parts.values() if part.material == "strip skin")
        assert gussets == printed("42,093")
        # Erratum: the table says 88,158, but the sizes printed in the same table make 60,115 + 28,043, rounded 88,159.
        assert strips == printed("88,159")
        assert (gussets + strips) / MM2_PER_SQ_FT == printed("1.40")
        listed = sum(part.area * part.count for part in parts.values() if part.material == "gusset skin")
        assert gussets - listed == printed("1.8")


def tip(part: Part) -> float:
    """Width of the top end of a gusset with sharp points."""
    top = part.outline.bounds()[3]
    across = [x for x, y in part.outline.points if y == pytest.approx(top, abs=1e-9)]
    return max(across) - min(across)

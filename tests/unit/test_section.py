"""Sections: what is refused, with the value at fault and the limit, and what just passes."""

from __future__ import annotations

import pytest

from bellowscut import section
from bellowscut.errors import Refusal
from bellowscut.section import Frame
from bellowscut.shapes import Point

SQUARE = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))


@pytest.mark.parametrize(("sides", "fits"), [(2, False), (3, True), (64, True), (65, False)])
def test_three_to_sixty_four_sides(sides: int, fits: bool) -> None:
    if fits:
        assert len(section.regular(sides, 20, "side").points) == sides
        return
    with pytest.raises(Refusal, match="3 to 64 sides") as refused:
        section.regular(sides, 20, "side")
    assert (refused.value.quantity, refused.value.value) == ("sides", sides)


@pytest.mark.parametrize("measure", ["across-flats", "across-corners"])
def test_odd_sides_have_no_flats(measure: str) -> None:
    with pytest.raises(Refusal, match='measure = "side"') as refused:
        section.regular(7, 100, measure)
    assert refused.value.quantity == "measure"


def test_a_flat_too_large_for_its_neighbours_is_named() -> None:
    # With six sides a flat may be as long as its two neighbours together: then its side is a point.
    with pytest.raises(Refusal, match=r"side B .* under 200\.00 mm") as refused:
        section.by_flats((100, 200, 100))
    assert (refused.value.quantity, refused.value.value) == ("flats", 200)
    assert section.side_lengths_of(section.by_flats((100, 199.99, 100)).points)[1] == pytest.approx(0.01 / 3**0.5)


def test_one_flat_makes_no_section() -> None:
    with pytest.raises(Refusal, match="at least two"):
        section.by_flats((100,))
    assert len(section.by_flats((100, 120)).points) == 4


def test_sides_that_do_not_close_are_refused() -> None:
    # Six sides, one of them wrong by x: it must change by x / 3. The mean is near 100, so that 2 mm and 2 per cent nearly meet.
    with pytest.raises(Refusal, match="side C or F would have to change by 2.01 mm, at most 2.00 mm") as refused:
        section.by_side_lengths((100, 100, 106.03, 100, 100, 100))
    assert refused.value.quantity == "side_lengths"
    assert refused.value.value in (106.03, 100), "the side opposite would have to change as much the other way"
    assert section.by_side_lengths((100, 100, 105.97, 100, 100, 100)).misfit == pytest.approx(1.99)


def test_small_ends_may_be_out_by_two_per_cent_only() -> None:
    with pytest.raises(Refusal, match="at most 0.4"):
        section.by_side_lengths((20, 20, 21.3, 20, 20, 20))
    assert section.by_side_lengths((20, 20, 21.1, 20, 20, 20)).misfit == pytest.approx(1.1 / 3)


def test_two_sides_are_no_section() -> None:
    with pytest.raises(Refusal, match="at least 3 sides"):
        section.by_side_lengths((50, 50))


def test_a_short_side_that_the_tape_loses_is_refused() -> None:
    """Sides of 1 mm between long ones: closing the section by least squares would turn one about."""
    with pytest.raises(Refusal, match="side D .* would vanish") as refused:
        section.by_side_lengths((1, 100, 104, 1, 104, 100))
    assert (refused.value.quantity, refused.value.value) == ("side_lengths", 1)
    assert section.by_side_lengths((1, 100, 100, 1, 100, 100)).misfit == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(
    ("points", "message"),
    [
        (SQUARE[:2], "at least 3 corners"),
        ((SQUARE[0], *SQUARE), "given twice"),
        ((*SQUARE, SQUARE[0]), "given twice"),
        ((SQUARE[0], (50.0, 0.0), *SQUARE[1:]), r"\(50, 0\) lies on a straight line"),
        ((SQUARE[0], (50.0, 10.0), *SQUARE[1:]), r"not convex at \(50, 10\)"),
        ((SQUARE[0], SQUARE[2], SQUARE[1], SQUARE[3]), "convex|crosses itself"),
        (((0.0, 0.0), (100.0, 60.0), (0.0, 60.0), (100.0, 0.0), (50.0, 100.0)), "convex|crosses itself"),
        (tuple((float(k), float(k * k)) for k in range(65)), "3 to 64 sides"),
    ],
)
def test_corners_that_make_no_section(points: tuple[Point, ...], message: str) -> None:
    with pytest.raises(Refusal, match=message) as refused:
        section.by_corners(points)
    assert refused.value.quantity == "corners"


def test_a_corner_turns_half_a_degree_at_least() -> None:
    with pytest.raises(Refusal, match="straight line"):
        section.by_corners((SQUARE[0], (50.0, -0.2), *SQUARE[1:]))
    assert len(section.by_corners((SQUARE[0], (50.0, -0.25), *SQUARE[1:])).points) == 5


@pytest.mark.parametrize(("setback", "fits"), [(0, True), (49.99, True), (50, False), (80, False)])
def test_a_set_back_that_loses_a_side(setback: float, fits: bool) -> None:
    if fits:
        assert section.section(Frame(SQUARE), None, setback).sides == pytest.approx((100 - 2 * setback,) * 4)
        return
    with pytest.raises(Refusal, match=r"under 50\.00 mm") as refused:
        section.section(Frame(SQUARE), None, setback)
    assert (refused.value.quantity, refused.value.value) == ("ridge_setback", setback)


def test_a_covering_thicker_than_the_frame() -> None:
    with pytest.raises(Refusal, match="leaves no frame") as refused:
        section.uncovered(Frame(SQUARE), 50)
    assert refused.value.quantity == "end_size"
    assert section.uncovered(Frame(SQUARE, 0.3), 0.6).misfit == 0.3


def test_packing_says_which_side_of_which_end() -> None:
    """The first end is 1 mm wider than the second, which is 0.4 mm higher: each is packed to the middle on both of the sides concerned."""
    made = section.section(section.rectangular(101, 80), section.rectangular(100, 80.4), 0)
    assert made.sides == pytest.approx((100.5, 80.2, 100.5, 80.2))
    assert [(pack.end, pack.side) for pack in made.packing] == [("right", "A"), ("right", "C"), ("left", "B"), ("left", "D")]
    assert [pack.mm for pack in made.packing] == pytest.approx([0.1, 0.1, 0.25, 0.25])


def test_packing_too_thin_to_matter_is_left_out() -> None:
    made = section.section(section.rectangular(100, 80), section.rectangular(100, 79.91), 0)
    assert made.packing == ()
    made = section.section(section.rectangular(100, 80), section.rectangular(100, 79.79), 0)
    assert [(pack.end, pack.side) for pack in made.packing] == [("left", "A"), ("left", "C")]
    assert [pack.mm for pack in made.packing] == pytest.approx([0.0525, 0.0525])


def test_the_worse_misfit_of_two_ends_counts() -> None:
    ends = Frame(SQUARE, 0.2), Frame(SQUARE, 0.5)
    assert section.section(*ends, 0).misfit == section.section(ends[1], ends[0], 0).misfit == 0.5


@pytest.mark.parametrize(("index", "name"), [(0, "A"), (25, "Z"), (26, "AA"), (51, "AZ"), (52, "BA"), (63, "BL")])
def test_side_names(index: int, name: str) -> None:
    assert section.side_name(index) == name


@pytest.mark.parametrize(("index", "count", "name"), [(0, 6, "FA"), (1, 6, "AB"), (26, 30, "Z-AA"), (27, 30, "AA-AB"), (0, 30, "AD-A")])
def test_corner_names(index: int, count: int, name: str) -> None:
    assert section.corner_name(index, count) == name


def test_flats_only_where_opposite_sides_are_parallel() -> None:
    assert section.flats_of(SQUARE) == pytest.approx((100, 100))
    assert section.flats_of(SQUARE[:3]) is None
    assert section.flats_of(((0, 0), (100, 0), (100, 90), (0, 100))) is None


def test_errors_of_half_a_millimetre_in_a_flat() -> None:
    """As the measuring advice says: up to 0.8 mm in a side of six, 1.2 of eight, 1.8 of twelve."""
    found = [section.flat_error_on_side(sides, 0.5) for sides in (6, 8, 12)]
    assert found == pytest.approx([0.8, 1.2, 1.8], abs=0.07)


def test_flats_within_a_millimetre_are_alike() -> None:
    assert section.flats_alike((100, 101, 100.5))
    assert not section.flats_alike((100, 101.01, 100.5))


def test_one_flat_moves_its_side_and_both_neighbours() -> None:
    sides = section.side_lengths_of(section.by_flats((100, 100, 101)).points)
    plain = section.side_lengths_of(section.by_flats((100, 100, 100)).points)
    moved = [a - b for a, b in zip(sides, plain, strict=True)]
    assert moved == pytest.approx([0.57735, 0.57735, -0.57735] * 2, abs=1e-5)


def test_extent() -> None:
    assert section.extent(SQUARE) == (100, 100)


def test_a_slip_of_the_rule_names_both_sides_that_could_be_wrong() -> None:
    with pytest.raises(Refusal) as error:
        section.by_side_lengths((91.2, 92.5, 99.0, 92.1, 91.9, 90.6))
    assert "side C or F " in str(error.value)
    with pytest.raises(Refusal) as error:
        section.by_side_lengths((90, 90, 100, 90, 90))
    assert "side C would" in str(error.value)

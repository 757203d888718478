"""A large part over several sheets: all of it is seen, and the marks agree."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import assume, given, strategies as st
from shapely.geometry import LineString, Point as ShapelyPoint, Polygon, box
from shapely.ops import unary_union

from bellowscut.layout.clearance import turned
from bellowscut.layout.tiles import OVERLAP, Tiling, letter_of, tiling
from bellowscut.shapes import Point, signed_area

LONG_CARD: tuple[Point, ...] = ((-150.0, 0.0), (150.0, 0.0), (125.0, 55.0), (-125.0, 55.0))
BOARD: tuple[Point, ...] = ((0.0, 0.0), (700.0, 0.0), (700.0, 500.0), (0.0, 500.0))
HOOK: tuple[Point, ...] = ((0.0, 0.0), (500.0, 0.0), (500.0, 60.0), (60.0, 60.0), (60.0, 600.0), (0.0, 600.0))
AREA = (174.0, 224.0)


def seen(plan: Tiling) -> list[Polygon]:
    return [box(*tile.low, *tile.high) for tile in plan.tiles]


@pytest.mark.parametrize("points", [LONG_CARD, BOARD, HOOK])
def test_all_of_the_part_is_seen(points: tuple[Point, ...]) -> None:
    plan = tiling([points], [], *AREA)
    part = Polygon(turned(points, plan.turn))
    assert unary_union(seen(plan)).buffer(1e-6).covers(part)
    for window in seen(plan):
        left, low, right, high = window.bounds
        assert (right - left, high - low) == pytest.approx(AREA)
        assert window.intersects(part)


@given(st.lists(st.tuples(st.floats(0, 900), st.floats(0, 700)), min_size=3, max_size=3))
def test_nothing_of_any_triangle_is_lost(corners: list[Point]) -> None:
    assume(abs(signed_area(corners)) > 100)
    plan = tiling([corners], [], *AREA)
    assert unary_union(seen(plan)).buffer(1e-6).covers(Polygon(turned(corners, plan.turn)))


@pytest.mark.parametrize("points", [LONG_CARD, BOARD, HOOK])
def test_neighbours_overlap_and_share_two_marks(points: tuple[Point, ...]) -> None:
    plan = tiling([points], [], *AREA)
    windows = seen(plan)
    for (i, one), (k, other) in itertools.combinations(enumerate(plan.tiles), 2):
        if abs(one.row - other.row) + abs(one.column - other.column) != 1:
            continue
        left, low, right, high = windows[i].intersection(windows[k]).bounds
        assert min(right - left, high - low) == pytest.approx(OVERLAP)
        marks = [join for join in plan.joins if sorted(join.tiles) == [i, k]]
        assert len(marks) == 2
        first, second = (ShapelyPoint(mark.at) for mark in marks)
        assert first.distance(second) > 40
        for mark in (first, second):
            assert windows[i].contains(mark)
            assert windows[k].contains(mark)


def test_marks_have_letters_of_their_own_and_keep_clear_of_lines() -> None:
    across = [[(-140.0, 20.0 + k), (140.0, 20.0 + k)] for k in (0.0, 5.0)]
    plan = tiling([LONG_CARD], across, *AREA)
    letters = [join.letter for join in plan.joins]
    assert letters == ["a", "b"]
    lines = [LineString(turned(line, plan.turn)) for line in across]
    card = turned(LONG_CARD, plan.turn)
    lines.append(LineString([*card, card[0]]))
    for join in plan.joins:
        assert min(line.distance(ShapelyPoint(join.at)) for line in lines) > 6.0


@pytest.mark.parametrize("points", [LONG_CARD, BOARD, HOOK])
def test_every_two_neighbours_meet_in_one_seam_with_the_left_or_upper_one_over(points: tuple[Point, ...]) -> None:
    plan = tiling([points], [], *AREA)
    windows = seen(plan)
    met = sorted((seam.over, seam.under) for seam in plan.seams)
    wanted = []
    for (i, one), (k, other) in itertools.permutations(enumerate(plan.tiles), 2):
        if (other.row, other.column) in ((one.row, one.column + 1), (one.row - 1, one.column)):
            wanted.append((i, k))
    assert met == sorted(wanted)
    for seam in plan.seams:
        left, low, right, high = windows[seam.over].intersection(windows[seam.under]).bounds
        middle = ((left + right) / 2, (low + high) / 2)
        assert LineString([seam.start, seam.end]).distance(ShapelyPoint(middle)) < 1e-9
        assert seam.upright == (right - left < high - low)
        for join in seam.joins:
            assert LineString([seam.start, seam.end]).distance(ShapelyPoint(join.at)) < 1e-9


def test_no_letter_stands_twice_in_a_set() -> None:
    first = tiling([BOARD], [], *AREA)
    second = tiling([BOARD], [], *AREA, named=len(first.joins))
    letters = [join.letter for plan in (first, second) for join in plan.joins]
    assert len(set(letters)) == len(letters) == 2 * len(first.joins)


def test_parts_beside_each_other_share_sheets() -> None:
    lower = tuple((x, y - 80.0) for x, y in LONG_CARD)
    plan = tiling([LONG_CARD, lower], [], *AREA)
    assert len(plan.tiles) == 2
    both = unary_union([Polygon(turned(points, plan.turn)) for points in (LONG_CARD, lower)])
    assert unary_union(seen(plan)).buffer(1e-6).covers(both)


def test_marks_stand_apart_even_where_little_is_clear() -> None:
    """Lines everywhere but at one end of the seam: the second mark goes to the other half all the same."""
    comb = [[(-160.0, y), (160.0, y)] for y in range(-100, 60, 4)]
    card = ((-150.0, -100.0), (150.0, -100.0), (150.0, 110.0), (-150.0, 110.0))
    plan = tiling([card], comb, *AREA)
    for seam in plan.seams:
        first, second = (ShapelyPoint(join.at) for join in seam.joins)
        assert first.distance(second) > 40


def test_a_seam_keeps_off_lines_that_run_along_it() -> None:
    """A line just beside where the middle seam would lie: the windows move by what they have to spare."""
    card = ((0.0, 0.0), (60.0, 0.0), (60.0, 300.0), (0.0, 300.0))
    plain = tiling([card], [], *AREA)
    (seam,) = plain.seams
    assert seam.start[1] == pytest.approx(150.0)
    for y in (148.0, 150.0, 153.0):
        moved = tiling([card], [[(0.0, y), (60.0, y)]], *AREA)
        (seam,) = moved.seams
        assert moved.turn == 0
        assert abs(seam.start[1] - y) >= OVERLAP / 2
        assert unary_union(seen(moved)).buffer(1e-6).covers(Polygon(card))


def test_sheets_without_any_of_the_part_are_left_out() -> None:
    plan = tiling([HOOK], [], *AREA)
    assert len(plan.tiles) < plan.rows * plan.columns


def test_the_turn_that_needs_fewer_sheets_is_taken() -> None:
    tall = turned(LONG_CARD, 90)
    assert len(tiling([tall], [], *AREA).tiles) == len(tiling([LONG_CARD], [], *AREA).tiles) == 2
    assert tiling([((0.0, 0.0), (220.0, 0.0), (220.0, 170.0), (0.0, 170.0))], [], *AREA).turn == 90


def test_a_board_of_700_by_500_takes_eight_a4_sheets_with_ten_millimetres_of_margin_and_overlap() -> None:
    """By counting: 4 x 2 windows of 190 x 277 mm that overlap by 10 cover 730 x 544 mm."""
    assert len(tiling([BOARD], [], 190.0, 277.0, 10.0).tiles) == 8


def test_letters_go_on_after_z() -> None:
    assert [letter_of(k) for k in (0, 25, 26, 27, 51, 52, 701, 702)] == ["a", "z", "aa", "ab", "az", "ba", "zz", "aaa"]

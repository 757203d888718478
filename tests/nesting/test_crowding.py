"""Pushing, jostling, squeezing and shortening, and the table of rows, each against something simpler."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
import shapely

from bellowscut.nesting.budget import Budget
from bellowscut.nesting.courses import Table
from bellowscut.nesting.engine import lay_out
from bellowscut.nesting.field import Field, loose_poses
from bellowscut.nesting.greedy import Laid
from bellowscut.nesting.jostle import Jostler
from bellowscut.nesting.lattice import Pattern
from bellowscut.nesting.model import AnyTurn, Order, Shape, Stock
from bellowscut.nesting.nofit import Pose, no_fit, pose
from bellowscut.nesting.planes import Planes
from bellowscut.nesting.push import Places, push_apart
from bellowscut.nesting.roll import right_end
from bellowscut.nesting.shorten import shorten
from bellowscut.nesting.squeeze import squeeze
from tests.nesting import brute, jobs

SQUARE = Shape("square", ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)))
BRACKET = Shape("bracket", ((0.0, 0.0), (30.0, 0.0), (30.0, 8.0), (9.0, 8.0), (9.0, 25.0), (0.0, 25.0)), (0.0, 90.0, 180.0, 270.0))
TRIANGLE = Shape("triangle", ((0.0, 0.0), (24.0, 0.0), (0.0, 16.0)), (0.0, 180.0))


def sheet(wide: float, high: float, gap: float = 0.0) -> Stock:
    """A sheet without margins."""
    return Stock("sheet", ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)), gap=gap)


def drawn(laid: Laid) -> list[tuple[tuple[float, float], ...]]:
    """Outlines of pieces where they lie."""
    found = []
    for piece, (x, y) in zip(laid.poses, laid.points, strict=True):
        found.append(brute.moved(piece.shape.points, piece.turn, x + piece.origin[0], y + piece.origin[1]))
    return found


def too_near(laid: Laid, gap: float) -> int:
    """Pairs that the plain judge finds nearer than a gap."""
    return sum(not brute.apart(one, other, gap) for one, other in itertools.combinations(drawn(laid), 2))


def in_pose(shapes: list[Shape], turns: list[float]) -> list[Pose]:
    """Shapes in turns, all of each."""
    return [pose(shape, turn) for shape in shapes for turn in turns]


def test_depth_is_the_way_out_of_the_deepest_no_fit_outline() -> None:
    poses = in_pose([SQUARE, BRACKET, TRIANGLE], [0.0, 33.0, 180.0])
    planes = Planes(poses, 1.5)
    chance = np.random.default_rng(4)
    inside = 0
    for _ in range(400):
        i, j = chance.integers(0, len(poses), 2)
        away = chance.uniform(-40, 40, 2)
        depth = float(planes.depth(np.array([i]), np.array([j]), away[None])[0])
        point = shapely.Point(float(away[0]), float(away[1]))
        outlines = [shapely.Polygon(outline) for outline in no_fit(poses[i], poses[j], 1.5)]
        expected = max(o.exterior.distance(point) if o.contains(point) else 0.0 for o in outlines)
        assert depth == pytest.approx(expected, abs=1e-9)
        inside += depth > 0
    assert inside > 50


def test_pieces_in_a_heap_are_pushed_apart() -> None:
    poses = in_pose([BRACKET, TRIANGLE], [0.0, 180.0])
    planes, places = Planes(poses, 1.5), Places(Field(sheet(200.0, 200.0, 1.5)), poses)
    jams = 0
    for seed in range(30):
        chance = np.random.default_rng(seed)
        kinds = chance.integers(0, len(poses), 12)
        points = chance.uniform(80, 120, (12, 2))  # so close that some are thrown against others that were far off
        points[:2] = ((100.0, 100.0), (180.0, 180.0))  # these two stay where they are
        moved, overlap, work = push_apart(planes, places, kinds, points, np.arange(2, 12), 2000, 200)
        laid = Laid([poses[kind] for kind in kinds.tolist()], [(float(x), float(y)) for x, y in moved])
        assert work > 0
        assert np.array_equal(moved[:2], points[:2])
        assert (overlap == 0) == (too_near(laid, 1.5) == 0)
        jams += overlap > 0
    assert jams <= 20  # pushing alone often jams about the one that stays: that is what jostling is for


def test_a_piece_pushed_far_does_not_end_on_one_that_was_out_of_reach() -> None:
    plate = pose(Shape("plate", ((0.0, 0.0), (80.0, 0.0), (80.0, 81.0), (0.0, 81.0))), 0.0)
    places = Places(Field(sheet(600.0, 81.0)), [plate])
    points = np.array([[140.0, 40.5], [258.0, 40.5], [258.1, 40.5]])
    moved, overlap, _ = push_apart(Planes([plate], 0.0), places, np.zeros(3, dtype=int), points, np.arange(1, 3), 2000, 200)
    assert overlap == 0
    assert moved[0].tolist() == [140.0, 40.5]
    assert too_near(Laid([plate] * 3, [(float(x), float(y)) for x, y in moved]), 0.0) == 0


def test_pieces_that_have_no_room_are_told_to_overlap() -> None:
    poses = [pose(SQUARE, 0.0)]
    field = Field(sheet(29.0, 10.0))
    points = np.array([[5.0, 5.0], [12.0, 5.0], [24.0, 5.0]])
    moved, overlap, _ = push_apart(Planes(poses, 0.0), Places(field, poses), np.zeros(3, dtype=int), points, np.arange(3), 2000, 100)
    assert overlap > 0.5
    assert moved[:, 0].min() >= 5.0 - 1e-6
    assert moved[:, 0].max() <= 24.0 + 1e-6


def test_a_piece_is_taken_over_others_to_where_there_is_room() -> None:
    poses = [pose(SQUARE, 0.0)]
    places = Places(Field(sheet(52.0, 10.0)), poses)
    points = np.array([[5.0, 5.0], [6.0, 5.0], [15.0, 5.0], [25.0, 5.0], [40.0, 5.0]])
    kinds, all_of_them = np.zeros(5, dtype=int), np.arange(5)
    planes, chance = Planes(poses, 0.0), np.random.default_rng(1)
    jostler = Jostler(planes, places, {0: np.array([0])}, kinds, points, all_of_them, 10.0, chance)
    assert jostler.settle(50, 5000.0) == 0
    laid = Laid([poses[0]] * 5, [(float(x), float(y)) for x, y in jostler.points])
    assert too_near(laid, 0.0) == 0


def test_one_more_goes_in_where_others_must_move() -> None:
    piece = pose(SQUARE, 0.0)
    laid = Laid([piece] * 3, [(6.0, 5.0), (19.0, 5.0), (34.0, 5.0)])
    for wide, expected in ((41.0, 4), (39.9, 3)):
        field = Field(sheet(wide, 10.0))
        found = squeeze(field, laid, (piece,), Budget(300.0))
        assert len(found) == expected
        assert too_near(found, 0.0) == 0
        assert all(brute.within(points, field.stock.outline, 0.0) for points in drawn(found))
    assert len(squeeze(Field(sheet(100.0, 10.0)), laid, (piece,), Budget(300.0), 2)) == 5


def test_nothing_is_squeezed_in_where_nothing_may_lie() -> None:
    piece = pose(SQUARE, 0.0)
    laid = Laid([piece], [(5.0, 5.0)])
    assert len(squeeze(Field(sheet(100.0, 10.0)), laid, (pose(BRACKET, 0.0),), Budget(50.0))) == 1


def test_a_loose_roll_is_made_shorter() -> None:
    stock = Stock("roll", width=32.0, margin=1.0, gap=1.0)
    piece = pose(SQUARE, 0.0)
    places = [(6.0 + 14.0 * column, 6.0 + 11.0 * (column % 2)) for column in range(6)]
    start = Laid([piece] * 6, places)
    found = shorten(stock, [SQUARE], start, Budget(6000.0))
    # Two in a column between the margins, 10 mm each with 1 mm between columns.
    assert right_end(found) == pytest.approx(1.0 + 3 * 10.0 + 2 * 1.0, abs=1e-3)
    assert len(found) == 6
    assert too_near(found, 1.0) == 0


@pytest.mark.parametrize("turns", [(0.0, 180.0), (0.0, 90.0, 180.0, 270.0), AnyTurn()])
def test_more_work_never_makes_a_roll_longer(turns: tuple[float, ...] | AnyTurn) -> None:
    roll = Stock("roll", width=90.0, margin=5.0, gap=1.5)
    orders = [Order(Shape("card", ((0.0, 0.0), (40.0, 0.0), (32.0, 12.0), (8.0, 12.0)), turns), 9)]
    lengths = [lay_out([roll], orders, seconds).lengths[0][1] for seconds in (0.3, 5.0)]
    assert lengths[1] <= lengths[0] + 1e-9


def test_only_the_last_pieces_of_a_long_roll_move() -> None:
    stock = Stock("roll", width=12.0, margin=1.0, gap=1.0)
    piece = pose(SQUARE, 0.0)
    start = Laid([piece] * 90, [(6.0 + 11.1 * column, 6.0) for column in range(90)])
    found = shorten(stock, [SQUARE], start, Budget(2000.0))
    assert sorted(found.points)[:30] == sorted(start.points)[:30]
    assert right_end(found) < right_end(start) - 1.0
    assert too_near(found, 1.0) == 0


def test_a_piece_too_long_for_a_shorter_roll_ends_the_search() -> None:
    stock = Stock("roll", width=30.0, margin=0.0, gap=0.0)
    strip = Shape("strip", ((0.0, 0.0), (100.0, 0.0), (100.0, 5.0), (0.0, 5.0)))
    start = Laid([pose(strip, 0.0)], [(50.0, 2.5)])
    budget = Budget(500.0)
    assert right_end(shorten(stock, [strip], start, budget)) == pytest.approx(100.0)
    assert budget.left > 400.0


@pytest.mark.parametrize("seed", range(12))
def test_the_table_of_rows_agrees_with_plain_recursion(seed: int) -> None:
    chance = np.random.default_rng(seed)
    heights, columns = int(chance.integers(1, 40)), int(chance.integers(1, 7))
    number = chance.integers(0, 6, (heights, columns)).astype(float)
    rise = chance.integers(2, 9, columns).astype(float)
    rise[chance.random(columns) < 0.3] = np.inf
    rise[0] = 5.0
    pattern = Pattern(0.0, float(columns), None, 1.0, 0.0, 2.0, 1.0)
    table = Table(pattern, np.arange(heights, dtype=float), np.arange(columns, dtype=float), number, rise)
    most = np.zeros((heights, columns))
    for i, column in itertools.product(range(heights), range(columns)):
        below = [most[i - int(rise[shift]), (column - shift) % columns] for shift in range(columns) if i >= rise[shift]]
        standing = number[i, column] + max(below, default=0.0)
        most[i, column] = max(standing, most[i - 1, column] if i else 0.0)
    assert np.array_equal(table.most[1:], most)
    rows = table.rows()
    assert (0 if rows is None else rows.total) == most[-1].max()
    if rows is not None:
        for low, high in itertools.pairwise(range(len(rows.heights))):
            shift = int(rows.phases[high] - rows.phases[low]) % columns
            assert rows.heights[high] - rows.heights[low] >= rise[shift]


@pytest.mark.parametrize("seed", [2, 4, 7, 12])
def test_progress_is_told_and_changes_nothing(seed: int) -> None:
    told: list[float] = []
    stocks, orders = jobs.job(seed)
    assert lay_out(stocks, orders, 0.5, told.append) == lay_out(stocks, orders, 0.5)
    assert told == sorted(told)
    assert told[-1] == 1.0
    assert told[0] >= 0.0
    assert told.count(1.0) == 1


def test_work_of_a_part_is_work_of_the_whole() -> None:
    told: list[float] = []
    whole = Budget(100.0, told.append)
    part = whole.part(40.0).part(10.0)
    for _ in range(3):
        part.spend(25.0)
    assert (part.left, whole.left) == (-65.0, 25.0)
    assert told == [0.25, 0.5, 0.75]
    whole.spend(60.0)
    assert told[-1] == 1.0
    assert whole.left < 0


def test_poses_higher_than_a_roll_are_not_open() -> None:
    stock = Stock("roll", width=27.0)
    places = Places(Field(stock, 50.0), loose_poses(BRACKET))
    assert places.open.tolist() == [True, False, True, False]

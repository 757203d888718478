"""Sections: every way of measuring an end gives back what was measured."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st
from shapely import Polygon

from bellowscut import section
from bellowscut.errors import Refusal
from bellowscut.shapes import Point, inset, perimeter, signed_area
from tests.invariants.instruments import ridge_polygons

EXACT = 1e-9


@given(st.integers(3, 64), st.floats(20, 500))
def test_regular_ends_are_regular(sides: int, side: float) -> None:
    frame = section.regular(sides, side, "side").points
    assert section.side_lengths_of(frame) == pytest.approx((side,) * sides, abs=1e-6)
    assert section.turns_of(frame) == pytest.approx((360 / sides,) * sides, abs=1e-6)
    assert frame[1][0] > frame[0][0], "side A runs to the right"
    assert frame[1][1] == pytest.approx(frame[0][1], abs=EXACT), "side A lies level"
    assert frame[0][1] == pytest.approx(min(y for _, y in frame), abs=EXACT), "side A lies at the bottom"


@given(st.integers(2, 32), st.floats(20, 500))
def test_across_flats_and_corners_are_what_is_measured(half: int, size: float) -> None:
    flats = section.regular(2 * half, size, "across-flats")
    assert section.flats_of(flats.points) == pytest.approx((size,) * half, abs=1e-6)
    corners = section.regular(2 * half, size, "across-corners").points
    assert [math.dist(corners[i], corners[i + half]) for i in range(half)] == pytest.approx([size] * half, abs=1e-6)


@given(st.lists(st.floats(148, 152), min_size=2, max_size=6))
def test_flats_come_back(flats: list[float]) -> None:
    frame = section.by_flats(flats).points
    assert section.flats_of(frame) == pytest.approx(tuple(flats), abs=1e-9)
    assert section.turns_of(frame) == pytest.approx((180 / len(flats),) * (2 * len(flats)), abs=1e-9)
    half = len(flats)
    for i in range(half):
        a, b, c = frame[i], frame[i + 1], frame[(i + half) % (2 * half)]
        assert _off(a, b, (0, 0)) == pytest.approx(flats[i] / 2, abs=1e-9), "each pair is centred on one point"
        assert _off(a, b, c) == pytest.approx(flats[i], abs=1e-9)


def _off(a: Point, b: Point, p: Point) -> float:
    return ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / math.dist(a, b)


@given(st.integers(2, 8).flatmap(lambda n: st.tuples(st.just(n), st.lists(st.floats(-2, 2), min_size=n, max_size=n))))
def test_errors_of_flats_move_sides_no_further_than_said(case: tuple[int, list[float]]) -> None:
    half, errors = case
    worst = max(abs(error) for error in errors)
    true = section.side_lengths_of(section.by_flats([200.0] * half).points)
    found = section.side_lengths_of(section.by_flats([200 + error for error in errors]).points)
    assert max(abs(a - b) for a, b in zip(true, found, strict=True)) <= section.flat_error_on_side(2 * half, worst) + 1e-9


@given(st.integers(3, 12).flatmap(lambda n: st.tuples(st.just(n), st.lists(st.floats(-0.4, 0.4), min_size=n, max_size=n))))
def test_side_lengths_close_with_the_least_change(case: tuple[int, list[float]]) -> None:
    count, errors = case
    given_sides = [80 + error for error in errors]
    frame = section.by_side_lengths(given_sides)
    found = section.side_lengths_of(frame.points)
    assert section.turns_of(frame.points) == pytest.approx((360 / count,) * count, abs=1e-7)
    changes = [a - b for a, b in zip(found, given_sides, strict=True)]
    assert frame.misfit == pytest.approx(max(abs(change) for change in changes), abs=1e-9)
    # Least squares: the change is square to every way of changing sides that keeps the polygon closed.
    for phase in (0, *range(2, count - 1)):
        for wave in (math.cos, math.sin):
            way = [wave(2 * math.pi * phase * i / count) for i in range(count)]
            assert sum(c * w for c, w in zip(changes, way, strict=True)) == pytest.approx(0, abs=1e-7)


@given(st.integers(3, 12), st.floats(40, 120))
def test_sides_that_close_are_kept(count: int, side: float) -> None:
    frame = section.by_side_lengths([side] * count)
    assert frame.misfit == pytest.approx(0, abs=1e-9)
    assert section.side_lengths_of(frame.points) == pytest.approx((side,) * count, abs=1e-9)


@given(ridge_polygons())
def test_corners_are_kept_as_they_are_in_either_direction(points: tuple[Point, ...]) -> None:
    assert section.by_corners(points).points == points
    back = section.by_corners(points[::-1]).points
    assert signed_area(back) > 0
    assert set(back) == set(points)
    assert {back[0], back[1]} == {points[-1], points[-2]}, "side A stays between the first two points given"


@given(ridge_polygons(), st.floats(0, 8))
def test_the_ridge_stands_in_from_every_side_by_the_set_back(points: tuple[Point, ...], setback: float) -> None:
    made = section.section(section.by_corners(points), None, setback)
    for i in range(made.count):
        a, b = made.frame[i], made.frame[(i + 1) % made.count]
        assert _off(a, b, made.ridge[i]) == pytest.approx(setback, abs=1e-9)
        assert _off(a, b, made.ridge[(i + 1) % made.count]) == pytest.approx(setback, abs=1e-9)
    outer = Polygon(made.frame)
    assert outer.buffer(1e-9).contains(Polygon(made.ridge))
    assert made.turns == pytest.approx(section.turns_of(made.frame), abs=1e-7)


@given(ridge_polygons(), st.floats(0.001, 40))
def test_an_inset_loses_no_side_or_is_refused(points: tuple[Point, ...], distance: float) -> None:
    """Against an eroded polygon of another library: while every side is there both agree, and none is refused too early."""
    moved = inset(points, (distance,) * len(points))
    eroded = Polygon(points).buffer(-distance, join_style="mitre", mitre_limit=1e6)
    if moved:
        assert signed_area(moved) == pytest.approx(eroded.area, rel=1e-6)
        return
    sides = 0 if eroded.is_empty else len(eroded.simplify(1e-9).exterior.coords) - 1
    assert sides < len(points) or perimeter(tuple(eroded.exterior.coords)[:-1]) < 1e-3
    with pytest.raises(Refusal, match="ridge_setback"):
        section.section(section.by_corners(points), None, distance)


@given(ridge_polygons(), st.floats(0.2, 0.999))
def test_just_under_the_limit_named_a_set_back_is_taken(points: tuple[Point, ...], share: float) -> None:
    with pytest.raises(Refusal) as refused:
        section.section(section.by_corners(points), None, 300.0)
    limit = float(refused.value.message.rsplit("under ", 1)[1].split()[0])
    assert section.section(section.by_corners(points), None, share * (limit - 0.01)).ridge


@given(ridge_polygons(), st.floats(0, 3), st.floats(0, 6.28))
def test_two_ends_are_made_to_their_middle(points: tuple[Point, ...], shrink: float, way: float) -> None:
    """The second end is smaller all round and lies elsewhere on the bench: the section is half-way, the packing half the difference."""
    smaller = inset(points, (shrink,) * len(points))
    shifted = tuple((x + 100 * math.cos(way), y + 100 * math.sin(way)) for x, y in smaller)
    made = section.section(section.by_corners(points), section.by_corners(shifted), 0)
    halfway = [(a + b) / 2 for a, b in zip(section.side_lengths_of(points), section.side_lengths_of(smaller), strict=True)]
    assert made.sides == pytest.approx(halfway, abs=1e-6)
    assert all(packing.mm >= 0.05 for packing in made.packing)
    if shrink > 0.4 and len({round(side, 3) for side in made.sides}) == 1:
        assert {packing.end for packing in made.packing} == {"left"}


@given(st.integers(3, 16), st.floats(0.2, 3), st.floats(0, 6.28))
def test_packing_of_a_smaller_regular_end_is_half_the_difference(sides: int, smaller: float, way: float) -> None:
    first = section.regular(sides, 100, "side")
    second = section.Frame(tuple((x + math.cos(way), y) for x, y in inset(first.points, (smaller,) * sides)))
    made = section.section(first, second, 0)
    assert [packing.side for packing in made.packing] == list(made.side_names)
    assert {packing.end for packing in made.packing} == {"left"}
    assert [packing.mm for packing in made.packing] == pytest.approx([smaller / 2] * sides, abs=1e-9)


@given(st.integers(3, 40))
def test_sides_and_corners_are_named_in_order(count: int) -> None:
    made = section.section(section.regular(count, 50, "side"), None, 0)
    names = made.side_names
    assert len(set(names)) == count
    assert names[:3] == ("A", "B", "C")
    assert made.corner_names[1] == "AB"
    joined = [name.replace("-", "") for name in made.corner_names]
    assert joined == [names[i - 1] + names[i] for i in range(count)]
    assert all(("-" in name) == (len(name.replace("-", "")) > 2) for name in made.corner_names)

"""Plane helpers, on shapes whose answers anyone can check."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st

from bellowscut import shapes
from bellowscut.shapes import FLATTEN, Outline, Point

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
CIRCLE = Outline(((5.0, 0.0), (-5.0, 0.0)), (1.0, 1.0))
"""Two half circles of radius 5 about the origin."""


def flat(points: tuple[Point, ...]) -> list[float]:
    return [c for p in points for c in p]


def test_polygon_is_made_counter_clockwise() -> None:
    assert shapes.polygon(SQUARE).points == SQUARE
    assert shapes.polygon(SQUARE[::-1]).points == SQUARE
    assert shapes.signed_area(SQUARE[::-1]) == -100


def test_rectangle() -> None:
    outline = shapes.rectangle(-1, 2, 3, 5)
    assert outline.bounds() == (-1, 2, 3, 5)
    assert outline.area() == 12


def test_a_circle_s_area_and_points() -> None:
    assert CIRCLE.area() == pytest.approx(25 * math.pi, rel=1e-12)
    assert all(math.hypot(*p) == pytest.approx(5, abs=1e-12) for p in CIRCLE.flattened())
    assert CIRCLE.bounds() == pytest.approx((-5, -5, 5, 5), abs=FLATTEN)


@given(st.floats(1e-4, 0.5))
def test_chords_keep_to_the_tolerance_and_no_closer_than_needed(tolerance: float) -> None:
    points = CIRCLE.flattened(tolerance)
    sagitta = max(5 - math.hypot((p[0] + q[0]) / 2, (p[1] + q[1]) / 2) for p, q in zip(points, (*points[1:], points[0]), strict=True))
    assert sagitta <= tolerance * (1 + 1e-9)
    fewer = 2 * math.pi / (len(points) - 2)
    assert len(points) == 4 or 5 * (1 - math.cos(fewer / 2)) > tolerance * 0.9


def test_an_arc_that_bends_inwards_takes_area_away() -> None:
    dented = Outline(SQUARE, (-1.0, 0.0, 0.0, 0.0))
    assert dented.area() == pytest.approx(100 - 12.5 * math.pi, rel=1e-12)
    assert min(y for _, y in dented.flattened()) == pytest.approx(0, abs=1e-12)
    assert shapes.signed_area(dented.flattened(1e-6)) == pytest.approx(dented.area(), rel=1e-6)


def test_rounded_square() -> None:
    outline, radii = shapes.rounded(SQUARE, (2, 2, 2, 2))
    assert list(radii) == [2, 2, 2, 2]
    assert outline.area() == pytest.approx(100 - (4 - math.pi) * 4, rel=1e-12)
    assert shapes.perimeter(outline.flattened(1e-8)) == pytest.approx(24 + 4 * math.pi, rel=1e-6)


def test_rounding_gives_no_more_than_fits_and_says_what_it_gave() -> None:
    outline, radii = shapes.rounded(SQUARE, (8, 8, 0, 0))
    assert radii == pytest.approx((5, 5, 0, 0))
    assert outline.bounds() == pytest.approx((0, 0, 10, 10), abs=FLATTEN)
    assert outline.area() == pytest.approx(100 - 2 * (1 - math.pi / 4) * 25, rel=1e-12)


def test_a_sharp_corner_stays_one_point() -> None:
    outline, _ = shapes.rounded(SQUARE, (0, 3, 0, 0))
    assert len(outline.points) == 5
    assert outline.points[0] == (0, 0)


def test_mirrored_outline_keeps_its_arcs() -> None:
    outline, _ = shapes.rounded(((0, 0), (20, 0), (20, 10), (0, 6)), (1, 2, 3, 0))
    seen = outline.mirrored()
    assert seen.area() == pytest.approx(outline.area(), rel=1e-12)
    left, low, right, high = outline.bounds()
    assert seen.bounds() == pytest.approx((-right, low, -left, high), abs=0.01)
    assert sorted(flat(seen.flattened())[1::2]) == pytest.approx(sorted(flat(outline.flattened())[1::2]), abs=1e-9)


@pytest.mark.parametrize(("angle", "goal"), [(90, (-2, 1)), (180, (-1, -2)), (-90, (2, -1)), (360, (1, 2)), (450, (-2, 1))])
def test_quarter_turns_are_exact(angle: float, goal: Point) -> None:
    assert shapes.turn_by(angle)((1, 2)) == goal


def test_other_turns() -> None:
    assert shapes.turn_by(30)((2, 0)) == pytest.approx((math.sqrt(3), 1), abs=1e-12)


def test_moved() -> None:
    assert CIRCLE.moved(1, 2).bounds() == pytest.approx((-4, -3, 6, 7), abs=FLATTEN)


def test_turn_at_is_positive_to_the_left() -> None:
    assert shapes.turn_at((0, 0), (1, 0), (1, 1)) == pytest.approx(math.pi / 2)
    assert shapes.turn_at((0, 0), (1, 0), (2, -1)) == pytest.approx(-math.pi / 4)


def test_centroid_perimeter_and_toward() -> None:
    assert shapes.centroid(((0, 0), (9, 0), (0, 6))) == pytest.approx((3, 2))
    assert shapes.perimeter(SQUARE) == 40
    assert shapes.toward((0, 0), (30, 40), 5) == pytest.approx((3, 4))


def test_meet() -> None:
    assert shapes.meet((0, 0), (1, 1), (0, 4), (1, 3)) == pytest.approx((2, 2))
    with pytest.raises(ZeroDivisionError):
        shapes.meet((0, 0), (1, 1), (0, 4), (1, 5))


@pytest.mark.parametrize(
    ("line", "area"),
    [(((3, 0), (3, 1)), 30), (((3, 1), (3, 0)), 70), (((0, 0), (1, 1)), 50), (((20, 0), (20, 1)), 100), (((-1, 0), (-1, 1)), 0)],
)
def test_clipped_keeps_what_lies_to_the_left(line: tuple[Point, Point], area: float) -> None:
    assert shapes.signed_area(shapes.clipped(SQUARE, *line)) == pytest.approx(area)


def test_inset() -> None:
    assert flat(shapes.inset(SQUARE, (1, 2, 3, 4))) == pytest.approx([4, 1, 8, 1, 8, 7, 4, 7])
    assert flat(shapes.inset(SQUARE, (-1,) * 4)) == pytest.approx([-1, -1, 11, -1, 11, 11, -1, 11])
    assert shapes.inset(SQUARE, (4.999,) * 4)
    assert shapes.inset(SQUARE, (5,) * 4) == ()
    assert shapes.inset(SQUARE, (7,) * 4) == ()


def test_least_width() -> None:
    assert shapes.least_width(((0, 0), (20, 0), (20, 7), (0, 7))) == 7
    triangle = ((0.0, 0.0), (10.0, 0.0), (5.0, 5 * math.sqrt(3)))
    assert shapes.least_width(triangle) == pytest.approx(5 * math.sqrt(3)), "side and corner"


def test_same_shape_to_five_thousandths() -> None:
    near = tuple((x + 0.0049, y - 0.0049) for x, y in SQUARE)
    far = ((0.0051, 0.0), *SQUARE[1:])
    assert shapes.same_shape(SQUARE, near)
    assert not shapes.same_shape(SQUARE, far)
    assert not shapes.same_shape(SQUARE, SQUARE[:3])


def test_bounds() -> None:
    assert shapes.bounds(((1, 5), (-2, 3), (4, -1))) == (-2, -1, 4, 5)

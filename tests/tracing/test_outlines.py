"""Flaws put together, outlines smoothed, hand-given points."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
import shapely

from bellowscut.shapes import bounds, perimeter, signed_area
from bellowscut.tracing import check_outline, from_points
from tests.tracing.drawings import SKIN, apart, read, rectangle, ring, svg


def test_flaws_that_overlap_become_one_and_those_inside_another_go(tmp_path: Path) -> None:
    drawn = (
        '<rect x="200" y="200" width="50" height="50"/><rect x="240" y="200" width="50" height="50"/><circle cx="220" cy="220" r="5"/>'
        '<rect x="400" y="200" width="20" height="20"/>'
    )
    made = read(tmp_path, "x.svg", svg(SKIN + drawn))
    assert [ring(flaw).area for flaw in made.flaws] == pytest.approx([90 * 50, 400])
    assert all(signed_area(flaw) > 0 for flaw in made.flaws)


def test_a_ring_of_flaws_takes_what_it_goes_round(tmp_path: Path) -> None:
    bars = ((200, 200, 100, 10), (200, 290, 100, 10), (200, 200, 10, 100), (290, 200, 10, 100), (240, 240, 20, 20))
    drawn = "".join(f'<rect x="{x}" y="{y}" width="{width}" height="{height}"/>' for x, y, width, height in bars)
    (flaw,) = read(tmp_path, "x.svg", svg(SKIN + drawn)).flaws
    assert apart(flaw, rectangle(100, 100, 200, 200)) < 1e-6


def test_a_flaw_may_reach_over_the_edge(tmp_path: Path) -> None:
    (flaw,) = read(tmp_path, "x.svg", svg(SKIN + '<rect x="80" y="200" width="40" height="40"/>')).flaws
    assert bounds(flaw) == pytest.approx((-20, 160, 20, 200))


def test_subpaths_of_one_path_are_outlines_of_their_own(tmp_path: Path) -> None:
    drawn = '<path fill-rule="evenodd" d="M100 100h500v300h-500zM200 200h20v20h-20zm100 0h20v20h-20z"/>'
    made = read(tmp_path, "x.svg", svg(drawn))
    assert [bounds(flaw) for flaw in made.flaws] == [pytest.approx((100, 180, 120, 200)), pytest.approx((200, 180, 220, 200))]


def wavy(count: int) -> list[tuple[float, float]]:
    turns = (2 * math.pi * k / count for k in range(count))
    return [(400 + (300 + 20 * math.sin(5 * t)) * math.cos(t), 400 + (300 + 20 * math.sin(5 * t)) * math.sin(t)) for t in turns]


def test_many_points_become_few_and_none_is_off_by_a_twentieth_of_a_millimetre() -> None:
    points = wavy(20_000)
    made = check_outline(points)
    assert len(made) < 600
    edge = shapely.LinearRing(made)
    assert max(edge.distance(shapely.Point(point)) for point in points[::7]) < 0.05
    assert ring(points).area == pytest.approx(signed_area(made), abs=0.05 * perimeter(made))


def test_few_points_stay_as_they_are() -> None:
    points = wavy(60)
    assert check_outline(points) == tuple(points)
    assert check_outline(points[::-1])[0] == points[0]


def test_points_that_repeat_are_dropped() -> None:
    once = rectangle(0, 0, 500, 300)
    assert check_outline([point for point in [*once, once[0]] for _ in range(3)]) == tuple(once)


def test_a_narrow_slit_does_not_close_when_it_is_smoothed() -> None:
    """One bank bows by 0.039 mm, which is smoothed away, the other follows by 0.055 mm, which stays and would cross it."""
    heights = [2.0 * k for k in range(101)]
    bow = [1 - abs(y - 100) / 100 for y in heights]
    left = [(250 - 0.039 * b, y) for b, y in zip(bow, heights, strict=True)]
    right = [(250.02 - 0.055 * b, y) for b, y in zip(bow, heights, strict=True)]
    points = [(0.0, 0.0), *left, *reversed(right[:-1]), (500.0, 0.0), (500.0, 300.0), (0.0, 300.0)]
    made = check_outline(points)
    assert shapely.Polygon(made).is_valid
    assert apart(made, points) < 0.05


def test_a_large_hole_is_a_flaw_when_the_skin_is_no_rectangle(tmp_path: Path) -> None:
    made = read(tmp_path, "x.svg", svg('<circle cx="400" cy="400" r="300"/><circle cx="400" cy="400" r="220"/>'))
    assert len(made.flaws) == 1


def test_points_given_by_hand_come_to_the_corner_with_their_flaws() -> None:
    made = from_points(rectangle(10, 20, 510, 320)[::-1], [rectangle(50, 60, 60, 80), rectangle(55, 60, 70, 80)])
    assert apart(made.outline, rectangle(0, 0, 500, 300)) < 1e-9
    assert signed_area(made.outline) > 0
    (flaw,) = made.flaws
    assert apart(flaw, rectangle(40, 40, 60, 60)) < 1e-9
    assert (made.bars, made.check) == ({}, None)

"""No laser goes twice along one place: lines nearer than the kerf to a cut or to each other, looked for point by point."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations, pairwise

import numpy as np
import pytest

from bellowscut.bellows import build
from bellowscut.cutting.machine import machine_drawing
from bellowscut.cutting.neighbours import BESIDE, MATTERS, burnt_once
from bellowscut.drawing import Drawn, Line, Role
from bellowscut.parts import OPTIONAL, make_parts
from bellowscut.profile import load, shipped as names
from bellowscut.schema import CutterSpec
from bellowscut.shapes import Point, rectangle
from tests.cutting.stock import ROLL, flat, piece, rows, shipped

KERF = 0.15
STEP = 0.1


def walked(points: Sequence[Point], *, closed: bool) -> np.ndarray:
    """Points along a line, `STEP` apart or less [mm]."""
    found = []
    for a, b in pairwise((*points, points[0]) if closed else points):
        steps = max(2, math.ceil(math.dist(a, b) / STEP) + 1)
        found.append(np.linspace(a, b, steps))
    return np.concatenate(found)


def distances(points: np.ndarray, other: Sequence[Point], *, closed: bool) -> np.ndarray:
    """Of points to a line [mm]."""
    least = np.full(len(points), np.inf)
    for a, b in pairwise((*other, other[0]) if closed else other):
        along = np.subtract(b, a)
        share = np.clip((points - a) @ along / max(along @ along, 1e-12), 0, 1)
        least = np.minimum(least, np.hypot(*(points - (a + share[:, None] * along)).T))
    return least


def way_beside(points: np.ndarray, other: Sequence[Point], near: float, *, closed: bool) -> float:
    """Longest way [mm] that a walk keeps nearer than `near` to another line."""
    least = distances(points, other, closed=closed)
    longest = way = 0.0
    for here, there, close in zip(points, points[1:], least[1:] < near, strict=False):
        way = way + math.dist(here, there) if close else 0.0
        longest = max(longest, way)
    return longest


@pytest.mark.parametrize("kerf", [KERF, 0.4])
@pytest.mark.parametrize("name", ["six-sided-treble", "square-box", "five-corners-traced", "six-sided-valley-ends"])
def test_no_line_is_burnt_twice_and_none_is_lost_that_stands_free(name: str, kerf: float) -> None:
    assert name in names()
    profile = load(name)
    for kind in OPTIONAL:
        profile = profile.with_optional(kind)
    left_out = 0
    for part in make_parts(build(profile)):
        face = Drawn(part.id, (part.outline, *part.holes), part.lines)
        made, number = burnt_once(face, kerf)
        left_out += number
        assert made.outlines == face.outlines
        rings = [outline.flattened() for outline in made.outlines]
        near, most = kerf - 0.005, (BESIDE + 1) * kerf
        for one, other in combinations(made.lines, 2):
            assert way_beside(walked(one.points, closed=one.closed), other.points, near, closed=other.closed) < most
        for line in made.lines:
            walk = walked(line.points, closed=line.closed)
            assert all(way_beside(walk, ring, near, closed=True) < most for ring in rings)
        for line in face.lines:
            # What is not drawn any more ran beside a cut or a line that is.
            walk = walked(line.points, closed=line.closed)
            taken = [*((one.points, one.closed) for one in made.lines), *((ring, True) for ring in rings)]
            near_any = np.min([distances(walk, points, closed=closed) for points, closed in taken], axis=0)
            assert near_any.max() < (BESIDE + 1) * kerf
            assert np.median(near_any) < kerf
    assert left_out, "there is something to leave out"


PLATE = rectangle(0, 0, 60, 30)


def level(role: Role, y: float) -> Line:
    return Line(role, ((0, y), (60, y)))


def test_a_crease_matters_more_than_the_marks_beside_it() -> None:
    lines = (level(Role.MARK, 14.9), level(Role.CREASE, 15), level(Role.MARK, 15.1), level(Role.SKIVE, 20), level(Role.MARK, 20.1))
    made, number = burnt_once(Drawn("hinge", (PLATE,), lines), KERF)
    assert made.lines == (lines[1], lines[3])
    assert number == 3
    assert (Role.CREASE, Role.SKIVE, Role.MARK) == MATTERS


@pytest.mark.parametrize(("gap", "stays"), [(0.14, False), (0.15, True), (0.16, True)])
def test_as_near_as_the_kerf_is_not_too_near(gap: float, stays: bool) -> None:
    lines = (level(Role.CREASE, 15), level(Role.MARK, 15 + gap))
    made, _ = burnt_once(Drawn("hinge", (PLATE,), lines), KERF)
    assert (made.lines == lines) is stays


@pytest.mark.parametrize(("gap", "stays"), [(0.0, False), (0.1, False), (0.2, True)])
def test_a_mark_along_a_cut(gap: float, stays: bool) -> None:
    line = Line(Role.MARK, ((5, 30 - gap), (55, 30 - gap)))
    made, number = burnt_once(Drawn("plate", (PLATE,), (line,)), KERF)
    assert (made.lines == (line,), number) == ((True, 0) if stays else (False, 1))
    assert stays or made.lines == ()


def test_lines_that_cross_or_meet_stay_whole() -> None:
    lines = (
        level(Role.CREASE, 15),
        Line(Role.MARK, ((30, 0), (30, 30))),
        Line(Role.MARK, ((0, 0), (60, 30))),
        Line(Role.MARK, ((1, 8), (9, 8), (9, 12)), closed=True),
    )
    made, number = burnt_once(Drawn("plate", (PLATE,), lines), KERF)
    assert (made.lines, number) == (lines, 0)


def test_only_the_stretch_beside_is_left_out() -> None:
    bent = Line(Role.MARK, ((10, 25), (10, 15.05), (40, 15.05), (40, 25)))
    made, number = burnt_once(Drawn("plate", (PLATE,), (level(Role.CREASE, 15), bent)), KERF)
    assert number == 1
    first, second = made.lines[1:]
    for line, x in ((first, 10), (second, 40)):
        assert {round(at[0], 3) for at in line.points} == {x}
        assert max(y for _, y in line.points) == pytest.approx(25)
        assert min(y for _, y in line.points) == pytest.approx(15 + KERF, abs=0.01)


def test_letters_and_a_blade_are_let_be() -> None:
    lines = (level(Role.TEXT, 15), level(Role.TEXT, 15.05))
    assert burnt_once(Drawn("plate", (PLATE,), lines), KERF) == (Drawn("plate", (PLATE,), lines), 0)
    assert burnt_once(Drawn("plate", (PLATE,), lines), 0.0)[1] == 0


def test_ridge_hinges_by_laser_have_one_line_and_that_is_said() -> None:
    _, parts = shipped("six-sided-treble", "hinge")
    ridge = [part for part in parts if "ridge" in part.id]
    assert ridge
    laid = rows(ridge, 500, 200)
    for kerf_in in (False, True):
        job = machine_drawing(piece(laid, 500, 200, ROLL), "laser", CutterSpec(), kerf_in=kerf_in)
        lines = [line for one in job.drawn for line in one.lines if not one.part.startswith("place")]
        assert {line.role for line in lines} == {Role.CREASE}
        assert len(lines) == len(laid)
        assert job.left_out == ("Ridge hinge",)
    for cutter in ("knife", "hand"):
        job = machine_drawing(piece(laid, 500, 200, ROLL), cutter, CutterSpec())
        marks = [line for one in job.drawn for line in one.lines if line.role is Role.MARK and not one.part.startswith("place")]
        assert len(marks) == 2 * len(laid)
        assert job.left_out == ()


def test_on_a_back_the_scores_keep_off_each_other_and_off_the_holes() -> None:
    plate = flat(((-30, 0), (30, 0), (30, 40), (-30, 40)), holes=[((10, 9), (14, 9), (14, 13), (10, 13))])
    # Drawn as seen from the back, so that its x counts the other way: the second line runs along the hole, the third nowhere near it.
    back = tuple(Line(Role.CREASE, ((x, 2), (x, 30))) for x in (-20, -10.05, 10.05))
    laid = rows([replace(plate, back=back)], 100, 60)
    job = machine_drawing(piece(laid, 100, 60), "laser", CutterSpec())
    lengths = sorted(math.dist(*line.points) for one in job.back for line in one.lines if line.role is Role.CREASE)
    assert lengths[-2:] == pytest.approx([28, 28])
    assert len(lengths) == 4, "the one along the hole is in two pieces"
    assert job.left_out == ("plate",)

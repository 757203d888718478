"""Drag knife: overcut at corners, and a trailing blade followed step by step.

The tip of a trailing blade moves along the blade only, so it follows its pivot on a tractrix (common knowledge of mechanics).
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from shapely import LineString, Polygon

from bellowscut.cutting.arcs import outline_length, run_length
from bellowscut.cutting.knife import lead_in, leads_of, overcut_runs, pivot_run, points_inward, sharp_corners, tip_run
from bellowscut.cutting.machine import machine_drawing
from bellowscut.drawing import Role
from bellowscut.schema import CutterSpec
from bellowscut.shapes import Outline, Point, polygon, rectangle
from tests.cutting.stock import SKIN, flat, half_turns, piece, rows, shipped

SQUARE = rectangle(0, 0, 20, 20)
ROUND_HOLE = Outline(((12, 10), (8, 10)), (1.0, 1.0))
NOTCHED = polygon(((0, 0), (40, 0), (40, 10), (24, 10), (20, 2), (16, 10), (0, 10)))


def dragged(pivot: list[Point], offset: float, angle: float) -> list[Point]:
    """Where the tip goes when the pivot is moved in small steps, the blade standing at an angle at first [rad]."""
    x, y = pivot[0][0] - offset * math.cos(angle), pivot[0][1] - offset * math.sin(angle)
    found = [(x, y)]
    for a, b in pairwise(pivot):
        steps = max(1, math.ceil(math.dist(a, b) / (offset / 40)))
        for k in range(1, steps + 1):
            u, v = a[0] + (b[0] - a[0]) * k / steps, a[1] + (b[1] - a[1]) * k / steps
            along = math.atan2(v - y, u - x)
            x, y = u - offset * math.cos(along), v - offset * math.sin(along)
            found.append((x, y))
    return found


def test_runs_end_at_sharp_corners_and_run_on() -> None:
    runs = overcut_runs(SQUARE, 0, 0.5, inner=False)
    ends = (((-0.5, 0), (20.5, 0)), ((20, -0.5), (20, 20.5)), ((20.5, 20), (-0.5, 20)), ((0, 20.5), (0, -0.5)))
    for run, (start, end) in zip(runs, ends, strict=True):
        assert run[0] == pytest.approx(start)
        assert run[-1] == pytest.approx(end)
    assert sum(map(run_length, runs)) == pytest.approx(80 + 8 * 0.5)


def test_a_smooth_outline_overlaps() -> None:
    (run,) = overcut_runs(ROUND_HOLE, 1, 0.5, inner=True)
    assert run[0] == ROUND_HOLE.points[1]
    assert run_length(run) == pytest.approx(outline_length(ROUND_HOLE) + 0.5, abs=0.02)
    assert LineString(run).distance(shapely.Point(10, 12)) < 0.006


def test_corners_that_point_into_the_piece_are_not_overcut() -> None:
    shape = Polygon(NOTCHED.points)
    for begin in sharp_corners(NOTCHED):
        for run in overcut_runs(NOTCHED, begin, 0.5, inner=False):
            assert LineString(run).intersection(shape.buffer(-1e-6)).length < 1e-6
    hole = rectangle(5, 5, 15, 15)
    assert all(len(run) == 2 for run in overcut_runs(hole, 0, 0.5, inner=True))


@pytest.mark.parametrize("turn", [29.0, 31.0])
def test_what_counts_as_sharp(turn: float) -> None:
    angle = math.radians(turn)
    shape = polygon(((0, 0), (50, 0), (50 + 20 * math.cos(angle), 20 * math.sin(angle)), (0, 60)))
    assert len(sharp_corners(shape)) == (3 if turn < 30 else 4)


@pytest.mark.parametrize("offset", [0.25, 0.9])
@pytest.mark.parametrize("askew", [-90, 0, 90])
@pytest.mark.parametrize("name", ["gusset", "card", "dart", "hole"])
def test_a_trailing_blade_draws_the_outline(name: str, askew: float, offset: float) -> None:
    inner = name == "hole"
    if name == "dart":
        outline = NOTCHED
    elif inner:
        outline = Outline(((22, 10), (-2, 10)), (1.0, 1.0))
    else:
        outline = shipped("six-sided-treble", name)[1][0].outline
    ways = leads_of(outline, offset, inner=inner)
    assert ways
    for begin, lead in ways[:2]:
        tip = tip_run(outline, begin, 0.3, lead, inner=inner)
        pivot = list(pivot_run(tip, offset))
        first = math.atan2(tip[1][1] - tip[0][1], tip[1][0] - tip[0][0])
        drawn = dragged(pivot, offset, first + math.radians(askew))
        ring = shapely.LinearRing(outline.flattened(1e-4))
        spots = shapely.points(drawn)
        off = shapely.distance(spots, ring) > 0.02
        begun = int(np.argmax(shapely.distance(spots, shapely.Point(outline.points[begin])) < 0.02))
        # All of the outline is cut, and what is cut beside it is only the run past the corner at the end.
        cut = LineString(drawn[begun:])
        assert shapely.distance(cut, shapely.points(shapely.segmentize(ring, 0.5).coords)).max() < 0.02
        assert shapely.distance(spots[begun:][off[begun:]], shapely.Point(outline.points[begin])).max(initial=0) < 0.35
        if askew == 0:
            in_piece = shapely.contains(Polygon(ring), spots[:begun][off[:begun]]) != inner
            assert not in_piece.any(), "the blade is turned in the waste"


def test_the_pivot_swivels_about_the_corner() -> None:
    pivot = pivot_run(((0, 0), (10, 0), (10, 10)), 0.5)
    assert pivot[0] == pytest.approx((0.5, 0))
    assert pivot[-1] == pytest.approx((10, 10.5))
    arc = pivot[1:-1]
    assert len(arc) > 10
    assert all(math.dist(point, (10, 0)) == pytest.approx(0.5) for point in arc)
    assert arc[0] == pytest.approx((10.5, 0))
    assert arc[-1] == pytest.approx((10, 0.5))


def test_machine_file_of_a_knife_has_open_runs_on_cut() -> None:
    _, parts = shipped("six-sided-treble", "card")
    job = machine_drawing(piece(rows(parts, 400, 200), 400, 200), "knife", CutterSpec())
    cuts = [line for one in job.drawn for line in one.lines if line.role is Role.CUT]
    assert cuts
    assert not any(line.closed for line in cuts)
    assert not any(one.outlines for one in job.drawn)


def test_an_overcut_over_the_gap_is_told() -> None:
    square = flat(((0, 0), (20, 0), (20, 20), (0, 20)))
    laid = rows((square, square), 100, 50, gap=0.4)
    told = "more than the 0.40 mm between plate-1 and plate-1: it nicks the neighbour"
    assert any(told in note for note in machine_drawing(piece(laid, 100, 50), "knife", CutterSpec()).notes)
    assert not any("nicks" in note for note in machine_drawing(piece(laid, 100, 50), "knife", CutterSpec(overcut=0.4)).notes)


def test_lead_ins_keep_out_of_other_pieces() -> None:
    _, parts = shipped("six-sided-treble", "gusset", "end-gusset")
    laid = rows(parts, 300, 200, turn=half_turns)
    job = machine_drawing(piece(laid, 300, 200, SKIN), "knife", CutterSpec(blade_offset=0.25, overcut=0.2))
    shapes = {f"{one.id}-{one.number}": Polygon(one.points()) for one in laid}
    assert not any("has no room" in note for note in job.notes)
    for one in job.drawn:
        if not any(line.role is Role.CUT for line in one.lines):
            continue
        own = one.part.removesuffix("-cut")
        run = LineString(one.lines[0].points)
        others = [shape for name, shape in shapes.items() if name != own]
        assert not any(run.intersects(shape.buffer(-0.01)) for shape in others)
    square = flat(((0, 0), (20, 0), (20, 20), (0, 20)))
    tight = machine_drawing(piece(rows((square,) * 9, 71, 80, gap=0.0), 71, 80), "knife", CutterSpec(blade_offset=0.25))
    assert any("9 pieces: " not in note and "has no room and cuts into a neighbour" in note for note in tight.notes)


def test_lead_ins_keep_out_of_the_piece_itself() -> None:
    hooked = polygon(((0, 0), (20, 0), (20, 22), (11, 22), (11, 5), (10, 5), (10, 20), (0, 20)))
    ways = leads_of(hooked, 0.9, inner=False)
    begun = [hooked.points[begin] for begin, _ in ways]
    assert (10, 20) not in begun, "the blade would come through the other arm"
    assert (0, 0) in begun
    shape = Polygon(hooked.points).buffer(-1e-3)
    assert not any(LineString((hooked.points[begin], lead)).intersects(shape) for begin, lead in ways)


@pytest.mark.parametrize("offset", [0.25, 0.9])
def test_no_cut_begins_at_a_corner_that_points_into_the_piece(offset: float) -> None:
    """The blade would come to it through the piece, whichever way it is put down."""
    star = polygon(tuple((r * math.cos(k * math.pi / 5), r * math.sin(k * math.pi / 5)) for k in range(10) for r in ((20, 9)[k % 2],)))
    bracket = polygon(((0, 0), (20, 0), (20, 8), (8, 8), (8, 20), (0, 20)))
    for outline in (NOTCHED, star, bracket):
        inward = {k for k in sharp_corners(outline) if points_inward(outline, k, inner=False)}
        assert inward
        begun = {begin for begin, _ in leads_of(outline, offset, inner=False)}
        assert begun
        assert not begun & inward
        assert all(lead_in(outline, k, offset, inner=False) is None for k in inward)


@pytest.mark.parametrize("begin", range(4))
def test_a_square_hole_is_not_cut_past_its_corner(begin: int) -> None:
    hole = rectangle(5, 5, 15, 15)
    lead = lead_in(hole, begin, 0.9, inner=True)
    assert lead is not None
    tip = tip_run(hole, begin, 0.5, lead, inner=True)
    assert tip[1] == tip[-1] == hole.points[begin]
    assert Polygon(hole.points).covers(LineString(tip))
    outside = tip_run(SQUARE, begin, 0.5, (-1.0, -1.0), inner=False)
    assert math.dist(outside[-1], SQUARE.points[begin]) == pytest.approx(0.5), "round a piece it is"


def test_cuts_past_the_edge_of_the_stock_are_told() -> None:
    square = flat(((0, 0), (20, 0), (20, 20), (0, 20)))
    laid = rows((square,), 60, 50, margin=0.2)
    assert any("past the edge of the stock" in note for note in machine_drawing(piece(laid, 60, 50), "knife", CutterSpec()).notes)

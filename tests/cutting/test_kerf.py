"""Kerf: what is left when a beam has burned its width away along the path is the part."""

from __future__ import annotations

import math

import pytest
import shapely
from shapely import LinearRing, Polygon

from bellowscut.cutting.arcs import turn_into
from bellowscut.cutting.kerf import followed
from bellowscut.cutting.machine import machine_drawing
from bellowscut.errors import UsageError
from bellowscut.schema import CutterSpec
from bellowscut.shapes import Outline, polygon, signed_area
from tests.cutting.stock import SKIN, flat, half_turns, piece, rows, shipped

KERFS = (0.02, 0.15, 0.4, 1.0)

PARTS = [
    ("six-sided-treble", "gusset"),
    ("six-sided-treble", "card"),
    ("six-sided-scored-run", "card-run"),
    ("square-box", "edge-strip"),
    ("square-box", "corner-patch"),
    ("oblong-three-alike", "facing"),
    ("six-sided-valley-ends", "half-gusset"),
]


def burned(path: Outline, kerf: float) -> Polygon:
    """What falls out of a sheet: all inside the path that the beam, a disc of the kerf's width, has left."""
    ring = path.flattened(1e-4)
    left = Polygon(ring).difference(LinearRing(ring).buffer(kerf / 2, quad_segs=64))
    assert isinstance(left, Polygon), "in one piece"
    return left


@pytest.mark.parametrize("kerf", KERFS)
@pytest.mark.parametrize(("name", "kind"), PARTS)
def test_cut_back_by_the_kerf_the_path_leaves_the_part(name: str, kind: str, kerf: float) -> None:
    _, parts = shipped(name, kind)
    assert parts
    for part in parts:
        path = followed(part.outline, kerf, inner=False, name=part.name)
        left, true = burned(path, kerf), Polygon(part.outline.flattened(1e-4))
        # A round beam leaves half the kerf as a radius at inward corners: there the part is larger by what it cannot reach.
        closed = true.buffer(kerf / 2, quad_segs=64).buffer(-kerf / 2, quad_segs=64)
        assert shapely.hausdorff_distance(left.exterior, closed.exterior, densify=0.5) < 0.01
        sharp = [p for i, p in enumerate(part.outline.points) if turn_into(part.outline, i) > 0.1]
        assert all(left.exterior.distance(shapely.Point(corner)) < 0.01 for corner in sharp), "outward corners stay sharp"


@pytest.mark.parametrize("kerf", KERFS)
def test_a_hole_comes_out_true(kerf: float) -> None:
    for hole in (polygon(((0, 0), (50, 0), (50, 50), (0, 50))), Outline(((2, 0), (-2, 0)), (1.0, 1.0))):
        path = followed(hole, kerf, inner=True, name="plate")
        opening = Polygon(path.flattened(1e-4)).buffer(kerf / 2, quad_segs=64)
        wanted = Polygon(hole.flattened(1e-4))
        assert shapely.hausdorff_distance(opening.exterior, wanted.exterior) < kerf / 2 * (math.sqrt(2) - 1) + 0.001
        assert opening.bounds == pytest.approx(wanted.bounds, abs=0.001)


def test_an_inward_corner_keeps_a_radius_of_half_the_kerf() -> None:
    kerf = 1.0
    bracket = polygon(((0, 0), (20, 0), (20, 8), (8, 8), (8, 20), (0, 20)))
    left = burned(followed(bracket, kerf, inner=False, name="plate"), kerf)
    corner = shapely.Point(8, 8)
    assert left.contains(corner)
    assert left.exterior.distance(corner) == pytest.approx(kerf / 2 * (math.sqrt(2) - 1), abs=0.001)
    assert left.area - 256 == pytest.approx((1 - math.pi / 4) * kerf**2 / 4, abs=0.001)


def test_arcs_stay_arcs_and_grow() -> None:
    _, (gusset, *_) = shipped("six-sided-treble", "gusset")
    path = followed(gusset.outline, 0.2, inner=False, name="gusset")
    assert sum(bulge != 0 for bulge in path.bulges) == sum(bulge != 0 for bulge in gusset.outline.bulges)
    assert signed_area(path.points) > signed_area(gusset.outline.points)
    assert len(path.points) == len(gusset.outline.points)


def test_outward_corners_are_gone_round_in_arcs() -> None:
    path = followed(polygon(((0, 0), (20, 0), (20, 10), (0, 10))), 0.4, inner=False, name="plate")
    assert len(path.points) == 8
    assert sorted(path.bulges) == pytest.approx([0] * 4 + [math.tan(math.pi / 8)] * 4)
    assert path.area() == pytest.approx(200 + 60 * 0.2 + math.pi * 0.04)


def test_without_kerf_nothing_moves() -> None:
    outline = polygon(((0, 0), (5, 0), (5, 5)))
    assert followed(outline, 0.0, inner=False, name="plate") is outline


@pytest.mark.parametrize(
    ("points", "inner", "message"),
    [
        (((0, 0), (0.1, 0), (0.1, 30), (0, 30)), True, "hole is too narrow for a kerf of 0.15 mm"),
        (((0, 0), (20, 0), (20, 20), (10.05, 20), (10.05, 5), (9.95, 5), (9.95, 20), (0, 20)), False, "notch is too narrow"),
        (((0, 0), (20, 0), (20, 20), (12, 20), (10.06, 12), (10.06, 4), (9.94, 4), (9.94, 12), (8, 20), (0, 20)), False, "stay uncut"),
    ],
)
def test_what_the_beam_cannot_cut_is_refused(points: tuple[tuple[float, float], ...], inner: bool, message: str) -> None:
    with pytest.raises(UsageError, match=f"plate: .*{message}"):
        followed(polygon(points), 0.15, inner=inner, name="plate")


@pytest.mark.parametrize(("uncut", "refused"), [(0.5, False), (0.95, False), (1.05, True), (1.5, True)])
def test_so_much_of_a_notch_may_stay_uncut(uncut: float, refused: bool) -> None:
    """A disc in a wedge stops short of its point by r (1 / sin(half the angle) - 1): solid geometry, any handbook."""
    kerf = 0.6
    half = math.asin(1 / (1 + uncut / (kerf / 2)))
    across = 12 * math.tan(half)
    notched = polygon(((0, 0), (40, 0), (40, 20), (20 + across, 20), (20, 8), (20 - across, 20), (0, 20)))
    if refused:
        with pytest.raises(UsageError, match=rf"{uncut:.1f} mm of a notch are narrower than a kerf of 0.6 mm"):
            followed(notched, kerf, inner=False, name="strip")
    else:
        assert followed(notched, kerf, inner=False, name="strip").points


def test_a_dart_is_cut_though_its_point_is_narrow() -> None:
    dart = polygon(((0, 0), (40, 0), (40, 10), (24, 10), (20, 2), (16, 10), (0, 10)))
    path = followed(dart, 0.15, inner=False, name="strip")
    assert burned(path, 0.15).area == pytest.approx(368, abs=0.05)


def test_pieces_nearer_than_the_kerf_are_refused() -> None:
    square = flat(((0, 0), (20, 0), (20, 20), (0, 20)))
    near = rows((square, square), 100, 50, gap=0.1)
    with pytest.raises(
        UsageError, match=r"stock-1: plate-1 and plate-1 lie 0\.100 mm apart, less than the kerf of 0\.15 mm \(cutter\.kerf\)"
    ):
        machine_drawing(piece(near, 100, 50), "laser", CutterSpec())
    assert machine_drawing(piece(near, 100, 50), "laser", CutterSpec(kerf=0.1)).drawn
    assert machine_drawing(piece(near, 100, 50), "hand", CutterSpec()).drawn


def test_leather_is_left_to_the_hand_unless_asked() -> None:
    _, parts = shipped("six-sided-treble", "gusset")
    skin = piece(rows(parts, 300, 200, turn=half_turns), 300, 200, SKIN)
    plain = machine_drawing(skin, "laser", CutterSpec(speed=10.0))
    outlines = [one.outlines[0] for one in plain.drawn if one.outlines]
    assert {round(outline.area(), 6) for outline in outlines} == {round(parts[0].outline.area(), 6)}
    assert plain.seconds is None
    assert any("Leather is left to the hand" in note for note in plain.notes)
    assert not any("chrome-tanned" in note for note in plain.notes)
    asked = machine_drawing(skin, "laser", CutterSpec(speed=10.0), leather=True)
    assert min(one.outlines[0].area() for one in asked.drawn if one.outlines) > parts[0].outline.area() + 5
    assert any("chrome-tanned leather only with fume extraction" in note for note in asked.notes)
    assert asked.seconds is not None

"""What a DXF says: group codes written by hand after the DXF reference, sizes worked out by hand."""

from __future__ import annotations

import io
import math
from pathlib import Path

import pytest
import shapely
from ezdxf.filemanagement import new as new_dxf
from ezdxf.math import BSpline, fit_points_to_cad_cv

from bellowscut.shapes import bounds, signed_area
from tests.tracing.drawings import RECTANGLE, apart, dxf, line, polyline, read, rectangle, ring


def test_a_rectangle(tmp_path: Path) -> None:
    made = read(tmp_path, "skin.DXF", dxf(RECTANGLE))
    assert apart(made.outline, rectangle(0, 0, 500, 300)) < 1e-9
    assert (made.flaws, made.bars, made.check) == ((), {}, None)


@pytest.mark.parametrize(("code", "unit"), [(1, 25.4), (2, 304.8), (4, 1.0), (5, 10.0), (6, 1000.0), (10, 914.4), (14, 100.0)])
def test_units(code: int, unit: float, tmp_path: Path) -> None:
    drawn = dxf(polyline([(0, 0), (500 / unit, 0), (500 / unit, 300 / unit), (0, 300 / unit)]), code)
    assert apart(read(tmp_path, "skin.dxf", drawn).outline, rectangle(0, 0, 500, 300)) < 1e-6


@pytest.mark.parametrize("code", [0, None])
def test_without_units_an_area_that_agrees_makes_millimetres(code: int | None, tmp_path: Path) -> None:
    made = read(tmp_path, "skin.dxf", dxf(RECTANGLE + line(0, 0, 100, 0, layer="CHECK"), code), check_length=100)
    assert made.check == 100
    assert read(tmp_path, "skin.dxf", dxf(RECTANGLE, code), area=150_000).outline == made.outline


LINES = [
    "the sides as they come, some drawn backwards",
    line(0, 0, 500, 0) + line(500, 300, 500, 0) + line(0, 300, 500, 300) + line(0, 300, 0, 0),
    "ends that miss each other by less than half a millimetre",
    line(0, 0, 500, 0.3) + line(500, 0, 500, 300) + line(500.2, 300.2, 0, 300) + line(0, 300, 0.3, 0),
    "one side drawn twice",
    line(0, 0, 500, 0) + line(500, 0, 0, 0) + line(500, 0, 500, 300) + line(500, 300, 0, 300) + line(0, 300, 0, 0),
    "a line of no length",
    line(0, 0, 500, 0) + line(500, 0, 500, 0) + line(500, 0, 500, 300) + line(500, 300, 0, 300) + line(0, 300, 0, 0),
    "one open line whose ends are 1 mm apart",
    polyline([(0, 0), (500, 0), (500, 300), (0, 300), (0, 1.0)], closed=False),
    "a line drawn past its beginning",
    polyline([(0, 0), (500, 0), (500, 300), (0.2, 300), (0.2, -0.7)], closed=False),
    "an open line that ends where it began",
    polyline([(0, 0), (500, 0), (500, 300), (0, 300), (0, 0)], closed=False),
    "an old polyline",
    "0\nPOLYLINE\n8\n0\n66\n1\n70\n1\n"
    + "".join(f"0\nVERTEX\n8\n0\n10\n{x}\n20\n{y}\n30\n0.0\n" for x, y in rectangle(0, 0, 500, 300))
    + "0\nSEQEND\n",
    "a polyline in space that is flat",
    "0\nPOLYLINE\n8\n0\n66\n1\n70\n9\n"
    + "".join(f"0\nVERTEX\n8\n0\n10\n{x}\n20\n{y}\n30\n7.0\n70\n32\n" for x, y in rectangle(0, 0, 500, 300))
    + "0\nSEQEND\n",
    "a fitted polyline with its frame",
    "0\nPOLYLINE\n8\n0\n66\n1\n70\n5\n"
    + "".join(f"0\nVERTEX\n8\n0\n10\n{x}\n20\n{y}\n70\n8\n" for x, y in rectangle(0, 0, 500, 300))
    + "0\nVERTEX\n8\n0\n10\n900\n20\n900\n70\n16\n0\nSEQEND\n",
    "seen from behind",
    polyline([(0, 0), (500, 0), (500, 300), (0, 300)], more="210\n0.0\n220\n0.0\n230\n-1.0\n"),
    "all at one height",
    polyline([(0, 0), (500, 0), (500, 300), (0, 300)], more="38\n12.5\n"),
    "with data of some program",
    RECTANGLE + "1001\nSOMEBODY\n1010\n9999\n1020\n9999\n1070\n1\n",
]


@pytest.mark.parametrize("entities", LINES[1::2], ids=LINES[::2])
def test_lines_become_one_outline(entities: str, tmp_path: Path) -> None:
    made = read(tmp_path, "skin.dxf", dxf(entities))
    assert apart(made.outline, rectangle(0, 0, 500, 300)) < 0.5
    assert made.flaws == ()


def arc(kind: str, codes: str) -> str:
    return f"0\n{kind}\n8\n0\n{codes}"


CURVES = [
    ("circle", arc("CIRCLE", "10\n5\n20\n6\n40\n200\n"), math.pi * 200**2),
    ("arc and line", arc("ARC", "10\n0\n20\n0\n40\n200\n50\n0\n51\n180\n") + line(-200, 0, 200, 0), math.pi * 200**2 / 2),
    ("arc past nought", arc("ARC", "10\n0\n20\n0\n40\n200\n50\n270\n51\n90\n") + line(0, -200, 0, 200), math.pi * 200**2 / 2),
    ("ellipse", arc("ELLIPSE", "10\n0\n20\n0\n11\n0\n21\n200\n40\n0.5\n41\n0\n42\n6.283185307\n"), math.pi * 200 * 100),
    ("a turn and a little", arc("ELLIPSE", "10\n0\n20\n0\n11\n0\n21\n200\n40\n0.5\n41\n0\n42\n6.2831854\n"), math.pi * 200 * 100),
    (
        "half an ellipse",
        arc("ELLIPSE", "10\n0\n20\n0\n11\n200\n21\n0\n40\n0.5\n41\n0\n42\n3.14159265359\n") + line(-200, 0, 200, 0),
        math.pi * 200 * 50,
    ),
    # A bulge of 1 is half a circle, to the right of travel and so outwards here; -1 inwards.
    ("bulges", polyline([(0, 0, 1), (200, 0, 0), (200, 200, -1), (0, 200, 0)]), 200 * 200),
    ("bulges out", polyline([(0, 0, 1), (200, 0, 0), (200, 200, 1), (0, 200, 0)]), 200 * 200 + math.pi * 100**2),
    ("two bulges make a disc", polyline([(0, 0, 1), (200, 0, 1)]), math.pi * 100**2),
    # tan(90/4 degrees): a quarter circle.
    ("quarter bulge", polyline([(200, 0, math.tan(math.pi / 8)), (0, 200, 0), (0, 0, 0)]), math.pi * 200**2 / 4),
]


@pytest.mark.parametrize(("entities", "area"), [case[1:] for case in CURVES], ids=[case[0] for case in CURVES])
def test_curves_enclose_what_they_should(entities: str, area: float, tmp_path: Path) -> None:
    made = read(tmp_path, "skin.dxf", dxf(entities))
    assert abs(signed_area(made.outline) - area) <= 0.05 * ring(made.outline).length


def test_an_arc_seen_from_behind_is_mirrored(tmp_path: Path) -> None:
    drawn = (
        arc("ARC", "10\n0\n20\n0\n40\n200\n50\n270\n51\n90\n210\n0\n220\n0\n230\n-1\n")
        + line(0, -200, 0, 200)
        + line(0, 0, 1, 0, layer="check")
    )
    made = read(tmp_path, "skin.dxf", dxf(drawn))
    # The half disc lies to the left of its straight side.
    assert max(made.outline, key=lambda point: point[1])[0] == pytest.approx(200, abs=0.05)
    assert min(made.outline)[0] == 0
    assert ring(made.outline).centroid.x == pytest.approx(200 - 4 * 200 / (3 * math.pi), abs=0.1)


@pytest.mark.parametrize(("way", "height"), [(1, 4 / (3 * math.pi)), (-1, 1 - 4 / (3 * math.pi))])
def test_half_an_ellipse_runs_the_way_its_plane_faces(way: int, height: float, tmp_path: Path) -> None:
    drawn = arc("ELLIPSE", f"10\n0\n20\n0\n11\n200\n21\n0\n210\n0\n220\n0\n230\n{way}\n40\n0.5\n41\n0\n42\n3.14159265359\n")
    made = read(tmp_path, "skin.dxf", dxf(drawn + line(-200, 0, 200, 0)))
    assert ring(made.outline).centroid.y == pytest.approx(100 * height, abs=0.1)


def test_short_lines_with_gaps_are_joined_to_their_neighbours_and_not_to_themselves(tmp_path: Path) -> None:
    """A square of 28 mm in strokes of 0.3 mm, each 0.4 mm from the next: its own ends are nearer to each other than to those."""
    dots = [0.7 * k for k in range(40)]
    sides = "".join(
        line(a, 0, a + 0.3, 0) + line(28, a, 28, a + 0.3) + line(28 - a, 28, 27.7 - a, 28) + line(0, 28 - a, 0, 27.7 - a) for a in dots
    )
    assert apart(read(tmp_path, "skin.dxf", dxf(sides)).outline, rectangle(0, 0, 28, 28)) < 0.4


def spline(control: list[tuple[float, float]], knots: list[float], degree: int, weights: tuple[float, ...] = ()) -> str:
    numbers = [*(f"40\n{knot}\n" for knot in knots), *(f"41\n{weight}\n" for weight in weights)]
    return arc("SPLINE", f"70\n8\n71\n{degree}\n" + "".join(numbers) + "".join(f"10\n{x}\n20\n{y}\n30\n0\n" for x, y in control))


def test_a_rational_spline_is_a_circle(tmp_path: Path) -> None:
    """Nine control points round a square, every second with the weight cos 45 degrees: an exact circle, as every textbook of splines has it."""
    square = [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1), (1, 0)]
    weights = tuple(1 if k % 2 == 0 else math.sqrt(0.5) for k in range(9))
    drawn = spline([(200 * x, 200 * y) for x, y in square], [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4], 2, weights)
    made = read(tmp_path, "skin.dxf", dxf(drawn))
    assert all(math.dist(point, (200, 200)) == pytest.approx(200, abs=0.02) for point in made.outline)


def test_a_closed_spline_keeps_to_where_its_curve_is(tmp_path: Path) -> None:
    """At its knots a uniform cubic spline is a sixth of three control points in turn, the middle one four times; all by symmetry alike."""
    corners = [(200 * math.cos(k * math.pi / 4), 200 * math.sin(k * math.pi / 4)) for k in range(8)]
    made = read(tmp_path, "skin.dxf", dxf(spline([*corners, *corners[:3]], [float(k) for k in range(15)], 3)))
    reach = 200 * (4 + 2 * math.cos(math.pi / 4)) / 6
    width = bounds(made.outline)[2]
    assert width == pytest.approx(2 * reach, abs=0.05)
    assert all(reach * 0.97 < math.dist(point, (reach, reach)) < reach + 0.05 for point in made.outline)


def test_a_spline_through_points_runs_through_them(tmp_path: Path) -> None:
    points = [(0, 0), (150, -20), (300, 10), (320, 150), (150, 220), (-20, 120), (0, 0)]
    made = read(tmp_path, "skin.dxf", dxf(arc("SPLINE", "70\n8\n71\n3\n" + "".join(f"11\n{x}\n21\n{y}\n31\n0\n" for x, y in points))))
    edge = ring(made.outline).exterior
    library = [(point.x, point.y) for point in fit_points_to_cad_cv(points).flattening(0.01)]
    left, low, _, _ = bounds(library)
    assert apart(made.outline, [(x - left, y - low) for x, y in library]) < 0.06
    assert all(edge.distance(shapely.Point(x - left, y - low)) < 0.06 for x, y in points)


def test_a_clamped_spline_as_another_library_draws_it(tmp_path: Path) -> None:
    control = [(0, 0), (100, -80), (300, 0), (380, 200), (200, 320), (-60, 200), (0, 0)]
    curve = BSpline(control, order=4)
    made = read(tmp_path, "skin.dxf", dxf(spline([(float(x), float(y)) for x, y in control], list(curve.knots()), 3)))
    library = [(point.x, point.y) for point in curve.flattening(0.005)]
    left, low, _, _ = bounds(library)
    assert apart(made.outline, [(x - left, y - low) for x, y in library]) < 0.06


def test_layers(tmp_path: Path) -> None:
    flaw = polyline([(50, 50), (80, 50), (80, 80), (50, 80)], layer="Anything")
    bar = polyline([(0, 0), (500, 0), (500, 60), (0, 60)], layer="NO_END_STRIP")
    check = line(10, 10, 110, 10, layer="Check")
    made = read(tmp_path, "skin.dxf", dxf(flaw + bar + check + RECTANGLE), check_length=100.4)
    assert apart(made.flaws[0], rectangle(50, 50, 80, 80)) < 1e-9
    assert list(made.bars) == ["end-strip"]
    assert apart(made.bars["end-strip"][0], rectangle(0, 0, 500, 60)) < 1e-9
    assert made.check == pytest.approx(100)


LAYER = "0\nTABLE\n2\nLAYER\n0\nLAYER\n2\nGone\n70\n{}\n62\n{}\n0\nENDTAB\n"


@pytest.mark.parametrize(("flags", "colour", "seen"), [(0, 7, True), (0, -7, False), (1, 7, False), (4, 7, True)])
def test_layers_that_are_off_are_not_drawn(flags: int, colour: int, seen: bool, tmp_path: Path) -> None:
    flaw = polyline([(50, 50), (80, 50), (80, 80), (50, 80)], layer="GONE")
    old = "0\nPOLYLINE\n8\nGONE\n70\n1\n" + "".join(f"0\nVERTEX\n10\n{x}\n20\n{y}\n" for x, y in rectangle(90, 90, 95, 95)) + "0\nSEQEND\n"
    made = read(tmp_path, "skin.dxf", dxf(RECTANGLE + flaw + old, tables=LAYER.format(flags, colour)))
    assert len(made.flaws) == (2 if seen else 0)


def test_what_is_not_drawn_is_passed_over(tmp_path: Path) -> None:
    paper = polyline([(-900, -900), (900, -900), (900, 900)], more="67\n1\n")
    unseen = polyline([(-900, -900), (900, -900), (900, 900)], more="60\n1\n")
    text = "0\nTEXT\n8\n0\n10\n900\n20\n900\n40\n5\n1\nflesh side\n"
    comment = "999\nmade by hand\n"
    made = read(tmp_path, "skin.dxf", comment + dxf(paper + text + RECTANGLE + unseen) + "\n")
    assert apart(made.outline, rectangle(0, 0, 500, 300)) < 1e-9
    assert made.flaws == ()
    assert read(tmp_path, "skin.dxf", dxf(RECTANGLE + text).replace("\n", "\r\n").replace("flesh", "na\u00efve").encode("cp1252")) == made


@pytest.mark.parametrize("groups", ["60\n1\n67\n0\n", "67\n1\n60\n0\n", "60\n1\n60\n0\n"])
def test_what_is_hidden_once_stays_hidden(groups: str, tmp_path: Path) -> None:
    """DXF reference: group 60 hides an entity, group 67 puts it on paper; that the other of them is 0 shows nothing again."""
    flaw = polyline([(50, 50), (80, 50), (80, 80), (50, 80)], more=groups)
    seen = polyline([(90, 90), (95, 90), (95, 95)], more="60\n0\n67\n0\n")
    made = read(tmp_path, "skin.dxf", dxf(RECTANGLE + flaw + seen))
    assert [len(one) for one in made.flaws] == [3]


@pytest.mark.parametrize("version", ["R12", "R2000", "R2010", "R2018"])
def test_files_of_another_library(version: str, tmp_path: Path) -> None:
    document = new_dxf(version, setup=True, units=4)
    space = document.modelspace()
    (space.add_polyline2d if version == "R12" else space.add_lwpolyline)(rectangle(0, 0, 500, 300), close=True)
    space.add_circle((100, 100), 20, dxfattribs={"layer": "flaws"})
    space.add_text("flesh side")
    stream = io.StringIO()
    document.write(stream)
    made = read(tmp_path, "skin.dxf", stream.getvalue(), area=150_000)
    assert apart(made.outline, rectangle(0, 0, 500, 300)) < 1e-6
    assert ring(made.flaws[0]).area == pytest.approx(math.pi * 400, rel=0.005)

"""Random skins, written in some unit and under some transform and read back; and good files with bytes changed."""

from __future__ import annotations

import io
import math
import random
from contextlib import suppress
from pathlib import Path

import pytest
import shapely
from ezdxf.filemanagement import new as new_dxf
from hypothesis import given, strategies as st

from bellowscut.shapes import Point, bounds, signed_area
from bellowscut.tracing import Tracing, TracingError
from bellowscut.tracing.svg_size import UNITS as SVG_UNITS
from tests.tracing.drawings import RECTANGLE, SKIN, apart, dxf, line, polyline, read, svg

TRUE_UNITS = {unit: mm for unit, mm in SVG_UNITS.items() if unit not in ("", "px")}


@st.composite
def stars(draw: st.DrawFn) -> list[Point]:
    """Corners at any distance from a centre, in the order of their directions."""
    count = draw(st.integers(3, 40))
    reach = draw(st.lists(st.floats(60, 900), min_size=count, max_size=count))
    return [(r * math.cos(2 * math.pi * k / count), r * math.sin(2 * math.pi * k / count)) for k, r in enumerate(reach)]


def at_corner(points: list[Point]) -> list[Point]:
    left, low, _, _ = bounds(points)
    return [(x - left, y - low) for x, y in points]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("tracings")


@given(
    skin=stars(),
    unit=st.sampled_from(sorted(TRUE_UNITS)),
    fine=st.floats(0.2, 5),
    angle=st.floats(-180, 180),
    stretch=st.floats(0.5, 2),
    shift=st.tuples(st.floats(-500, 500), st.floats(-500, 500)),
    nested=st.booleans(),
)
def test_svg(skin: list[Point], unit: str, fine: float, angle: float, stretch: float, shift: Point, nested: bool, folder: Path) -> None:
    """A unit of the file is 1/fine mm; the drawing is turned, stretched and shifted so that the transforms undo it."""
    turn = math.radians(angle)
    c, s = math.cos(turn), math.sin(turn)
    drawn = []
    for x, y in skin:
        # Into the file y is down; then back through translate, rotate and scale.
        u, v = x * fine - shift[0], -y * fine - shift[1]
        u, v = c * u + s * v, -s * u + c * v
        drawn.append(f"{u / stretch:.7f},{v:.7f}")
    maps = [f"translate({shift[0]} {shift[1]})", f"rotate({angle})", f"scale({stretch},1)"]
    shape = f'<polygon points="{" ".join(drawn)}"/>'
    body = f'<g transform="{" ".join(maps)}">{shape}</g>'
    if nested:
        body = shape
        for one in reversed(maps):
            body = f'<g transform="{one}">{body}</g>'
    size = 2000 / TRUE_UNITS[unit]
    sizes = f'width="{size:.9f}{unit}" height="{size:.9f}{unit}" viewBox="0 0 {2000 * fine:.9f} {2000 * fine:.9f}"'
    made = read(folder, "star.svg", svg(body, sizes), area=abs(signed_area(skin)))
    assert apart(made.outline, at_corner(skin)) < 0.01
    assert signed_area(made.outline) > 0


@given(
    skin=stars(),
    unit=st.sampled_from([1, 2, 4, 5, 6]),
    entity=st.sampled_from(["lwpolyline", "polyline2d", "line"]),
    seed=st.integers(0, 99),
)
def test_dxf(skin: list[Point], unit: int, entity: str, seed: int, folder: Path) -> None:
    document = new_dxf("R2010", units=unit)
    space = document.modelspace()
    scale = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0}[unit]
    points = [(x / scale, y / scale) for x, y in skin]
    if entity == "line":
        sides = [(p, points[k - 1]) for k, p in enumerate(points)]
        random.Random(seed).shuffle(sides)
        for k, side in enumerate(sides):
            space.add_line(*(side if (seed + k) % 2 else side[::-1]))
    else:
        getattr(space, f"add_{entity}")(points, close=True)
    stream = io.StringIO()
    document.write(stream)
    made = read(folder, "star.dxf", stream.getvalue(), area=abs(signed_area(skin)))
    assert apart(made.outline, at_corner(skin)) < 0.01


@given(seed=st.integers(0, 2**32), size=st.floats(20, 300), gap=st.floats(0.05, 0.45))
def test_gaps_are_closed_without_harm(seed: int, size: float, gap: float, folder: Path) -> None:
    """Sides of a polygon that each stop short of the next corner, or run past it, by less than half a millimetre."""
    dice = random.Random(seed)
    count = dice.randint(3, 9)
    corners = [(size * math.cos(2 * math.pi * k / count), size * math.sin(2 * math.pi * k / count)) for k in range(count)]
    entities = ""
    for k, (x, y) in enumerate(corners):
        angle, (u, v) = dice.uniform(0, 2 * math.pi), corners[k - 1]
        entities += line(x + gap / 2 * math.cos(angle), y + gap / 2 * math.sin(angle), u, v)
    made = read(folder, "gaps.dxf", dxf(entities))
    assert apart(made.outline, at_corner(corners)) < 2 * gap
    assert shapely.Polygon(made.outline).is_valid


GOOD = [
    ("x.svg", svg(SKIN + '<g id="no-gusset" transform="rotate(3)"><rect x="150" y="120" width="90" height="70" rx="5"/></g><circle cx="300" cy="200" r="9"/>')),
    ("x.svg", svg('<path d="M100 100c9 9 200-50 300 0s70 90 0 200a50 60 7 0 1-90 0q-9 9-90 0t-120-9z"/><line id="check" x1="0" y1="0" x2="100" y2="0"/>')),
    ("x.dxf", dxf(RECTANGLE + line(5, 5, 105, 5, layer="check") + polyline([(50, 50, 0.5), (90, 50, 0.3), (90, 90, 0)]))),
    ("x.dxf", dxf("0\nARC\n8\n0\n10\n0\n20\n0\n40\n200\n50\n0\n51\n180\n" + line(-200, 0, 200, 0) + "0\nELLIPSE\n10\n0\n20\n90\n11\n9\n21\n5\n40\n.5\n41\n0\n42\n6.2831853\n")),
    ("x.dxf", dxf("0\nSPLINE\n8\n0\n71\n3\n" + "".join(f"40\n{k}\n" for k in (0, 0, 0, 0, 1, 2, 2, 2, 2)) + "".join(f"10\n{x}\n20\n{y}\n" for x, y in ((0, 0), (200, 0), (200, 200), (0, 200), (0, 0))))),
    ("x.dxf", dxf("0\nPOLYLINE\n8\n0\n70\n1\n" + "".join(f"0\nVERTEX\n10\n{x}\n20\n{y}\n42\n0.1\n" for x, y in ((0, 0), (500, 0), (500, 300))) + "0\nSEQEND\n")),
]  # fmt: skip

PIECES = [
    b"",
    b"0",
    b"9",
    b"-",
    b"1e308",
    b"-1e9",
    b"nan",
    b"inf",
    b"\n",
    b"\0",
    b"<g>",
    b"</g>",
    b"<",
    b'"',
    b"&a;",
    b"0\nENDSEC\n",
    b"210\n1\n",
    b"z",
    b"a",
    b"\xff",
]


@pytest.mark.parametrize("good", range(len(GOOD)))
def test_the_good_files_are_good(good: int, folder: Path) -> None:
    name, content = GOOD[good]
    assert isinstance(read(folder, name, content), Tracing)


@given(
    good=st.sampled_from(GOOD),
    changes=st.lists(
        st.tuples(st.floats(0, 1), st.integers(0, 4), st.one_of(st.sampled_from(PIECES), st.binary(max_size=3))), min_size=1, max_size=6
    ),
)
def test_whatever_happens_to_a_file_it_is_read_or_refused(
    good: tuple[str, str], changes: list[tuple[float, int, bytes]], folder: Path
) -> None:
    name, text = good
    data = text.encode()
    for place, taken, put in changes:
        at = int(place * len(data))
        data = data[:at] + put + data[at + taken :]
    with suppress(TracingError):
        made = read(folder, name, data)
        assert shapely.Polygon(made.outline).is_valid
        assert bounds(made.outline)[:2] == (0, 0)
        assert signed_area(made.outline) > 0

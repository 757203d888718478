"""Steiner's formula: what lies within r of a convex polygon has perimeter P + 2 pi r and area A + P r + pi r^2."""

from __future__ import annotations

import math
import re
from collections.abc import Callable

import pytest
import shapely

from bellowscut.advice import warnings
from bellowscut.bellows import Bellows
from bellowscut.parts import make_parts
from bellowscut.section import rectangular, regular
from bellowscut.shapes import Outline, Point, inset, perimeter, rounded, signed_area

pytestmark = pytest.mark.source("steiner")

POLYGONS = (
    regular(6, 158.75, "across-flats").points,
    regular(3, 120, "side").points,
    rectangular(250, 120).points,
    ((0.0, 0.0), (90.0, -10.0), (140.0, 60.0), (20.0, 110.0)),
)

SECTIONS = (
    {"sides": 6},
    {"sides": 3, "measure": "side", "end_size": 160},
    {"shape": "rectangle", "width": 250, "height": 120},
    {"shape": "measured", "corners": [[0, 0], [150, -10], [190, 90], [10, 150]]},
)


def band(polygon: tuple[Point, ...], reach: float) -> Outline:
    """Every side moved out by `reach` and every corner rounded to it."""
    outline, radii = rounded(inset(polygon, (-reach,) * len(polygon)), (reach,) * len(polygon))
    assert radii == pytest.approx((reach,) * len(polygon))
    return outline


@pytest.mark.parametrize("polygon", POLYGONS)
@pytest.mark.parametrize("reach", [0.6, 5.0, 30.0])
def test_perimeter_and_area(polygon: tuple[Point, ...], reach: float) -> None:
    outline = band(polygon, reach)
    fine = outline.flattened(1e-7)
    assert perimeter(fine) == pytest.approx(perimeter(polygon) + 2 * math.pi * reach, rel=1e-6)
    assert outline.area() == pytest.approx(signed_area(polygon) + perimeter(polygon) * reach + math.pi * reach**2, rel=1e-12)


@pytest.mark.parametrize("thickness", [0.5, 0.7])
@pytest.mark.parametrize("section", SECTIONS)
def test_what_a_whole_strip_gives_up_of_its_joint(made: Callable[..., Bellows], section: dict[str, object], thickness: float) -> None:
    """Laid round its ridge the strip's middle is a band half its thickness outside; what is left over of the strip as cut is the joint, less what is told."""
    skin = {"form": "skin", "thickness": thickness, "area": "9 sq ft"}
    bellows = made(section=section, edge_strip={"joint": 1.0, "skive": 5}, **{'materials."strip skin"': skin})
    (strip,) = (part for part in make_parts(bellows) if part.kind == "edge-strip")
    left, _, right, _ = strip.outline.bounds()
    middle = shapely.Polygon(bellows.section.ridge).buffer(thickness / 2, quad_segs=2000).exterior.length
    (told,) = (note.text for note in warnings(bellows, "rebellows") if note.code == "strip-joint")
    given_up = float(re.findall(r"[0-9]+[.][0-9]+", told)[0])
    assert 1.0 - (right - left - middle) == pytest.approx(given_up, abs=0.051)

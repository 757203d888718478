"""Steiner's formula: what lies within r of a convex polygon has perimeter P + 2 pi r and area A + P r + pi r^2."""

from __future__ import annotations

import math

import pytest

from bellowscut.section import rectangular, regular, section, turns_of
from bellowscut.shapes import Outline, Point, inset, perimeter, rounded, signed_area
from bellowscut.stack import bend_allowance

pytestmark = pytest.mark.source("steiner")

POLYGONS = (
    regular(6, 158.75, "across-flats").points,
    regular(3, 120, "side").points,
    rectangular(250, 120).points,
    ((0.0, 0.0), (90.0, -10.0), (140.0, 60.0), (20.0, 110.0)),
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


@pytest.mark.parametrize("polygon", POLYGONS)
def test_one_strip_round_the_bellows_gives_up_a_full_turn(polygon: tuple[Point, ...]) -> None:
    """Bent round every corner in turn, a strip of 0.6 needs 2 pi K t more than the ridge line that it lies on."""
    made = section_of(polygon)
    need = sum(bend_allowance(turn, 0, 0.6, 0.5) for turn in made)
    assert need == pytest.approx(2 * math.pi * 0.5 * 0.6, rel=1e-9)
    middle = band(polygon, 0.3)
    assert perimeter(middle.flattened(1e-8)) - perimeter(polygon) == pytest.approx(need, abs=1e-4)


def section_of(polygon: tuple[Point, ...]) -> tuple[float, ...]:
    from bellowscut.section import Frame

    assert turns_of(polygon) == pytest.approx(section(Frame(polygon), None, 0).turns)
    return section(Frame(polygon), None, 0).turns

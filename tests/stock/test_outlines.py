"""Stock as a person has it in hand: areas, rectangles, points with flaws, sides seen, flanks."""

from __future__ import annotations

import math

import pytest
import shapely

from bellowscut.errors import ProfileError
from bellowscut.materials import GRADE_SHARES
from bellowscut.stock.outlines import Sort, sorts, usual_outline
from tests.stock.instruments import profile, skin

SQ_FT = 304.8**2
"""Square foot [mm^2]: the international foot of 0.3048 m."""


def one(*keys: str) -> Sort:
    (found,) = sorts(profile(skin("gusset skin", *keys)), "gusset skin")
    return found


@pytest.mark.parametrize("area", [20_000.0, 464_515.2, 2_000_000.0])
def test_a_usual_outline_has_the_area_asked_for(area: float) -> None:
    shape = shapely.Polygon(usual_outline(area))
    assert shape.is_valid
    assert shape.exterior.is_ccw
    assert shape.area == pytest.approx(area, rel=1e-9)


@pytest.mark.parametrize("grade", sorted(GRADE_SHARES))
def test_a_grade_takes_its_share_off_a_usual_outline(grade: str) -> None:
    # SATRA leather grading, as published in footwear costing manuals.
    share = {"A": 0.97, "B": 0.93, "C": 0.88, "D": 0.83, "E": 0.78, "F": 0.73}[grade]
    found = one('area = "5 sq ft"', f'grade = "{grade}"')
    assert found.typical
    assert found.area == pytest.approx(5 * SQ_FT * share, rel=1e-9)


def test_a_usual_skin_has_soft_flanks_and_any_number_of_it() -> None:
    found = one('area = "5 sq ft"')
    assert found.count is None
    assert set(found.bars) == {"gusset", "end-gusset", "half-gusset"}
    body, bands = shapely.Polygon(found.outline), shapely.MultiPolygon([shapely.Polygon(zone) for zone in found.bars["gusset"]])
    tall = body.bounds[3] - body.bounds[1]
    firm = body.difference(bands)
    assert firm.bounds[3] - firm.bounds[1] == pytest.approx(tall * 0.75, rel=1e-9)


def test_a_clear_rectangle_is_all_firm() -> None:
    found = one('clear = ["400 mm", "700 mm"]')
    assert list(found.outline) == [(0, 0), (700, 0), (700, 400), (0, 400)]
    assert not found.typical
    assert not found.bars
    assert found.count is None


POINTS = "outline = [[10, 5], [10, 405], [710, 405], [610, 5]]"


def test_points_run_counter_clockwise_and_there_is_one_such_skin() -> None:
    found = one(POINTS, "flaws = [[100, 300, 20]]")
    assert shapely.Polygon(found.outline).exterior.is_ccw
    assert found.count == 1
    disc = shapely.Polygon(found.flaws[0])
    assert disc.buffer(1e-6).covers(shapely.Point(100, 300).buffer(10, quad_segs=64))
    assert disc.area < math.pi * 10.3**2


def test_a_skin_traced_from_the_grain_side_is_turned_over() -> None:
    keys = (POINTS, "flaws = [[100, 300, 20]]", "backbone = 20", 'bars = [{ kind = "card", outline = [[10, 5], [60, 5], [10, 60]] }]')
    flesh, grain = one(*keys), one(*keys, 'seen_from = "grain"')
    # The box of the outline runs from 10 to 710: turned over left to right, x becomes 720 - x.
    assert shapely.Polygon(grain.outline).equals(shapely.Polygon([(720 - x, y) for x, y in flesh.outline]))
    assert shapely.Polygon(grain.flaws[0]).centroid.coords[0] == pytest.approx((620, 300))
    assert shapely.Polygon(grain.bars["card"][0]).centroid.coords[0] == pytest.approx((720 - 80 / 3, 5 + 55 / 3))
    assert grain.backbone == 160


def test_a_belly_lies_along_the_backbone() -> None:
    found = one("outline = [[0, 0], [400, 0], [400, 700], [0, 700]]", "backbone = 90", 'belly = "60 mm"')
    zones = [shapely.Polygon(zone) for zone in found.bars["gusset"]]
    assert sorted(zone.bounds[0] for zone in zones) == pytest.approx([0, 340])
    assert sum(zone.area for zone in zones) == pytest.approx(2 * 60 * 700)


def test_a_bar_of_one_kind_leaves_the_others_alone() -> None:
    found = one(POINTS, 'bars = [{ kind = "edge-strip", outline = [[10, 5], [60, 5], [10, 60]] }]')
    assert set(found.bars) == {"edge-strip"}
    other = one(POINTS, 'bars = [{ kind = "top run", outline = [[10, 5], [60, 5], [10, 60]] }]')
    assert other.bars == found.bars, "the other word of the trade"
    every = one(POINTS, 'bars = [{ kind = "gusset", outline = [[10, 5], [60, 5], [10, 60]] }]')
    assert set(every.bars) == {"gusset", "end-gusset", "half-gusset"}


def test_a_shelf_gives_a_sort_for_each_skin() -> None:
    shelf = '[[materials."gusset skin".shelf]]'
    text = "\n".join(
        (skin("gusset skin"), shelf, 'area = "4 sq ft"', "price = 3", shelf, 'name = "brown"', 'clear = ["300 mm", "200 mm"]', "count = 2")
    )
    first, second = sorts(profile(text), "gusset skin")
    assert first.material.name == "gusset skin 1"
    assert first.count == 1
    assert first.material.thickness == 0.5
    assert second.material.name == "brown"
    assert second.count == 2
    assert second.area == 60_000


BAD = [
    (("outline = [[0, 0], [400, 0], [0, 300], [400, 300]]",), "cross"),
    (("outline = [[0, 0], [400, 0], [800, 0]]",), "area"),
    (('outline = "no-such-tracing.svg"',), "no-such-tracing.svg"),
    (("outline = [[0, 0], [400, 0], [400, 300]]", "flaws = [[100, 250, 20]]"), "outside the skin"),
    ((POINTS, 'bars = [{ kind = "gussett", outline = [[0, 0], [9, 0], [0, 9]] }]'), "gussett"),
]


@pytest.mark.parametrize(("keys", "told"), BAD, ids=[told for _, told in BAD])
def test_a_skin_that_cannot_be_used_names_its_key(keys: tuple[str, ...], told: str) -> None:
    with pytest.raises(ProfileError) as refused:
        one(*keys)
    (line,) = refused.value.lines()
    assert line.startswith("box.toml:")
    assert 'materials."gusset skin".outline' in line
    assert told in line

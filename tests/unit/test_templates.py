"""Templates: for leather only, sound rims, windows on the card edges, engraved names that fit."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
import shapely

from bellowscut.bellows import Bellows
from bellowscut.drawing import Drawn, Role
from bellowscut.export.stroke_letters import strokes
from bellowscut.pages.plain_template import plain_template
from bellowscut.pages.template_base import name_of
from bellowscut.pages.templates import templates
from bellowscut.parts import Part, make_parts
from bellowscut.parts.part import mark
from bellowscut.shapes import bounds, rectangle
from tests.readback.drawings import CASES


def drawn_for(bellows: Bellows) -> tuple[dict[str, Drawn], dict[str, Part]]:
    parts = make_parts(bellows)
    _, _, drawn = templates(bellows, parts)
    return {one.part: one for one in drawn}, {part.id: part for part in parts}


def polygons(one: Drawn) -> list[shapely.Polygon]:
    return [shapely.Polygon(outline.flattened(0.0005)) for outline in one.outlines]


@pytest.mark.parametrize("case", CASES)
def test_leather_only(case: str, made: Callable[..., Bellows]) -> None:
    bellows = made(**CASES[case])
    found, parts = drawn_for(bellows)
    shown = set(found) - {"heading", "scale"}
    assert {parts[name].material for name in shown} == {"gusset skin", "strip skin"}
    kinds = {part.kind for part in parts.values() if part.material in ("gusset skin", "strip skin")}
    assert {parts[name].kind for name in shown} == kinds


def test_what_is_not_cut_from_a_skin_gets_none(made: Callable[..., Bellows]) -> None:
    bellows = made(gusset={"material": "linen"}, edge_strip={"material": "linen"}, end_strip={"material": "linen"})
    found, _ = drawn_for(bellows)
    assert set(found) == {"heading", "scale"}
    assert "no part of this job" in found["heading"].labels[1].text


SMALL: dict[str, dict[str, dict[str, object]]] = {
    "doll's": {"section": {"end_size": 60}, "bellows": {"folds": 2, "fold_depth": 10}},
    "many sides": {
        "section": {"shape": "regular", "sides": 24, "end_size": 400},
        "bellows": {"fold_depth": 12},
        "gusset": {"lap": 3, "tip_lap": 2},
    },
    "all of leather": {
        "hinge": {"material": "strip skin"},
        "facing": {"material": "strip skin", "span": "pair"},
        "corner_patch": {},
        "ridge_cloth": {"material": "gusset skin"},
    },
}
"""Where little finds room on a template."""


@pytest.mark.parametrize("case", [*CASES, *SMALL])
def test_rims_and_webs_are_sound(case: str, made: Callable[..., Bellows]) -> None:
    found, _ = drawn_for(made(**(CASES | SMALL)[case]))
    for name, one in found.items():
        if not one.outlines:
            continue
        outer, *holes = polygons(one)
        for k, hole in enumerate(holes):
            assert outer.contains(hole), name
            assert outer.exterior.distance(hole) > 3 - 0.001, name
            assert all(hole.distance(other) > 3 - 0.001 for other in holes[:k]), name


@pytest.mark.parametrize("case", [*CASES, *SMALL])
def test_what_is_engraved_fits_and_meets_no_cut(case: str, made: Callable[..., Bellows]) -> None:
    found, parts = drawn_for(made(**(CASES | SMALL)[case]))
    for name, one in found.items():
        if not one.outlines:
            continue
        outer, *holes = polygons(one)
        low = outer.bounds[1]
        engraved = [label for label in one.labels if label.at[1] > low]
        assert engraved, name
        whole = " ".join(label.text for label in engraved)
        assert "flesh" in whole or case in SMALL
        assert parts[name].name.split(",")[0].split()[0] in whole
        for label in engraved:
            for stroke in strokes(label):
                path = shapely.LineString(stroke)
                assert outer.contains(path), f"{name}: {label.text}"
                assert outer.exterior.distance(path) > 0.3, f"{name}: {label.text}"
                assert all(hole.distance(path) > 0.5 for hole in holes), f"{name}: {label.text}"
        for line in one.lines:
            if line.role is Role.MARK:
                path = shapely.LineString(line.points)
                assert outer.buffer(0.01).contains(path), name
                assert all(hole.distance(path) > 0.5 for hole in holes), name
        assert {line.role for line in one.lines} <= {Role.MARK, Role.TEXT}


@pytest.mark.parametrize("case", CASES)
def test_windows_lie_on_the_card_edges(case: str, made: Callable[..., Bellows]) -> None:
    """The long sides of a window run where the cards' edges come: half the valley gap out at the valley, half the corner gap at the ridge."""
    bellows = made(**CASES[case])
    found, parts = drawn_for(bellows)
    seen = 0
    for name, part in parts.items():
        if "gusset" not in part.kind:
            continue
        one = found[name]
        dx = one.outlines[0].points[0][0] - part.outline.points[0][0]
        dy = one.outlines[0].points[0][1] - part.outline.points[0][1]
        corner = bellows.corners[bellows.section.corner_names.index(part.corners[0])]
        wide, high, gap = corner.opening(bellows.stretch) / 2, corner.half_height(bellows.stretch), corner.gap / 2
        edge = shapely.LineString([(gap, -high), (wide, 0), (gap, high)])
        for window in one.outlines[1:]:
            points = [(x - dx, y - dy) for x, y in window.flattened()]
            if math.isclose(max(x for x, _ in points) - min(x for x, _ in points), 4, abs_tol=0.01):
                continue
            right = [shapely.Point(p) for p in points if p[0] > 0 and edge.distance(shapely.Point(p)) < 1e-4]
            assert len(right) >= 2, name
            assert max(p.distance(q) for p in right for q in right) > 4, "a whole side of it, not a corner"
            assert min(edge.distance(shapely.Point(p)) for p in points if p[0] > 0) < 1e-4
            assert shapely.Polygon([*edge.coords, (-gap, high), (-wide, 0), (-gap, -high)]).buffer(1e-4).contains(shapely.Polygon(points))
            seen += 1
    assert seen


def test_six_sides_have_two_windows_and_a_hole(six_fold: Bellows) -> None:
    found, _ = drawn_for(six_fold)
    for name in ("gusset", "end-gusset"):
        outline, above, below, hole = found[name].outlines
        assert outline.area() > 800
        # Corners eased so that a pencil fits: no sharp corner, all radii 1.2.
        for window in (above, below):
            assert sum(1 for bulge in window.bulges if bulge > 0) == 4
        assert hole.area() == pytest.approx(math.pi * 4)


def test_a_narrow_lap_gets_lines_in_place_of_windows(made: Callable[..., Bellows]) -> None:
    bellows = made(gusset={"lap": 2.5, "tip_lap": 2.5})
    found, parts = drawn_for(bellows)
    one = found["gusset"]
    assert len(one.outlines) == 2, "outline and hole only"
    steep = [line for line in one.lines if line.role is Role.MARK and line.points[0][1] != line.points[1][1]]
    assert len(steep) == 4
    assert "card edges as lines" in " ".join(label.text for label in one.labels)
    dx = one.outlines[0].points[0][0] - parts["gusset"].outline.points[0][0]
    dy = one.outlines[0].points[0][1] - parts["gusset"].outline.points[0][1]
    corner = bellows.corners[0]
    edge = shapely.LineString([(corner.opening(bellows.stretch) / 2, 0), (corner.gap / 2, corner.half_height(bellows.stretch))])
    for line in steep:
        assert all(edge.distance(shapely.Point(abs(x - dx), abs(y - dy))) < 1e-6 for x, y in line.points)


def test_a_line_that_meets_the_hole_is_left_out() -> None:
    """Made by hand: 12 mm square, so that the hole can stand in the middle only."""
    square = rectangle(-6, -6, 6, 6)
    lines = (mark((0.5, 0), (6, 0)), mark((-6, 5), (6, 5)))
    part = Part("corner-patch", "corner-patch", "Corner patch", "gusset skin", 4, 0, (), (), square, lines)
    drawn = plain_template(part).drawn
    assert len(drawn.outlines) == 2
    # Both ends of the first line lie within 6 mm of the middle, one of them on the hole.
    starts = [line.points for line in drawn.lines]
    assert len(starts) == 3
    assert all(math.hypot(*point) > 2.5 for line in starts for point in line)


def test_battens(made: Callable[..., Bellows]) -> None:
    found, parts = drawn_for(made())
    for name in ("edge-strip", "end-strip"):
        batten, hole = found[name].outlines
        left, low, right, high = batten.bounds()
        part = bounds(parts[name].points)
        assert right - left == pytest.approx(300)
        assert high - low == pytest.approx(part[3] - part[1], abs=1e-5)
        assert hole.area() == pytest.approx(math.pi * 4)
        assert f"{part[2] - part[0]:.1f} long" in found[name].labels[0].text
        along = {
            round(line.points[0][1] - low, 4)
            for line in found[name].lines
            if line.points[0][1] == line.points[1][1] and line.role is Role.MARK
        }
        own = [line for line in parts[name].lines if line.points[0][1] == line.points[1][1]]
        assert along == {round(line.points[0][1] - part[1], 4) for line in own}, "fold, bend and skive lines"


def test_strips_that_differ_in_length_share_a_batten(made: Callable[..., Bellows]) -> None:
    bellows = made(section={"shape": "rectangle", "width": 250, "height": 120}, edge_strip={"run": "per-side"})
    found, parts = drawn_for(bellows)
    assert sum(part.kind == "edge-strip" for part in parts.values()) == 2
    (batten,) = [one for name, one in found.items() if name.startswith("edge-strip")]
    left, _, right, _ = batten.outlines[0].bounds()
    longest = max(bounds(part.points)[2] - bounds(part.points)[0] for part in parts.values() if part.kind == "edge-strip")
    assert right - left == pytest.approx(longest)
    assert "A/C 258.3 and B/D 128.3 long" in batten.labels[0].text


def test_names_that_fit_a_template(made: Callable[..., Bellows]) -> None:
    _, parts = drawn_for(made(**CASES["uneven"]))
    assert name_of(parts["gusset-AB"]) == "Gusset AB"
    _, alike = drawn_for(made())
    assert name_of(alike["end-gusset"]) == "End gusset"


def test_mirrored_parts_say_grain_side_up(six_fold: Bellows) -> None:
    parts = [part.mirrored() if part.side == "flesh" else part for part in make_parts(six_fold)]
    _, _, drawn = templates(six_fold, parts)
    for one in drawn[1:-1]:
        text = " ".join(label.text for label in one.labels)
        assert "grain side up" in text
        assert "flesh" not in text

"""Parts: at least one test for each maker, named after its file, and that a new maker comes with all it owes."""

from __future__ import annotations

import ast
import functools
import importlib
import math
import sys
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from hypothesis import Phase, given, settings, strategies as st
from shapely import LineString, Point, Polygon

import bellowscut.parts as package
from bellowscut.advice import warnings
from bellowscut.bellows import Bellows
from bellowscut.drawing import Line, Role
from bellowscut.parts import JOBS, KINDS, MAKERS, OPTIONAL, Part, edge_strip, make_parts
from bellowscut.parts.card import card_outline
from bellowscut.parts.edge_strip import corner_marks, dart_half_width
from bellowscut.parts.part import Want, blank, centred, gathered, listed
from bellowscut.schema import EdgeStripSpec
from bellowscut.shapes import polygon, rectangle

Make = Callable[..., Bellows]

UNEVEN = {"shape": "measured", "corners": [[0, 0], [150, 0], [190, 90], [120, 160], [-10, 120]]}


def parts_of(bellows: Bellows, kind: str) -> tuple[Part, ...]:
    return tuple(part for part in make_parts(bellows) if part.kind == kind)


def only(bellows: Bellows, kind: str) -> Part:
    (part,) = parts_of(bellows, kind)
    return part


def lines(part: Part, role: Role) -> list[Line]:
    return [line for line in part.lines if line.role is role]


def levels(part: Part, role: Role) -> list[float]:
    """Heights of a part's lines that run along x."""
    return sorted(line.points[0][1] for line in lines(part, role) if line.points[0][1] == line.points[-1][1])


def places(part: Part, role: Role) -> list[float]:
    """Where a part's lines stand that run along y."""
    return sorted(line.points[0][0] for line in lines(part, role) if line.points[0][0] == line.points[-1][0])


def size(part: Part) -> tuple[float, float]:
    left, low, right, high = part.outline.bounds()
    return right - left, high - low


def name_of(maker: ModuleType) -> str:
    return maker.__name__.rpartition(".")[2]


@pytest.mark.parametrize("maker", MAKERS, ids=name_of)
def test_every_maker_has_a_doc_line_and_a_test(maker: ModuleType) -> None:
    doc = (maker.__doc__ or "").splitlines()
    assert doc
    assert ":" in doc[0], "the first line says what the part is"
    assert (maker.make.__doc__ or "").strip()
    mine = [name for name in vars(sys.modules[__name__]) if name.startswith(f"test_{name_of(maker)}_")]
    assert mine, f"no test in this file is called test_{name_of(maker)}_..."


def test_every_file_is_a_maker() -> None:
    files = {path.stem for path in Path(package.__file__).parent.glob("*.py")} - {"__init__", "part"}
    assert files == {name_of(maker) for maker in MAKERS}
    assert all(importlib.import_module(f"bellowscut.parts.{name}").KINDS for name in files)


def test_kinds_are_each_made_by_one_maker() -> None:
    assert len(set(KINDS)) == len(KINDS)
    assert set(OPTIONAL) < set(KINDS)
    for kinds in JOBS.values():
        assert set(kinds) <= set(KINDS)


ALL: dict[str, dict[str, Any]] = {
    "facing": {},
    "valley_strip": {},
    "ridge_cloth": {},
    "frame_hinge": {},
    "corner_patch": {},
    "cover_gusset": {},
}


@pytest.mark.parametrize("maker", MAKERS, ids=name_of)
def test_makers_make_their_own_kinds(made: Make, maker: ModuleType) -> None:
    found: set[str] = set()
    for ends in ("ridge", "valley"):
        for build in ("loose", "run"):
            bellows = made(section=UNEVEN, bellows={"ends": ends}, card={"build": build}, **ALL)
            found |= {part.kind for part in maker.make(bellows)}
    assert found == set(maker.KINDS)


@pytest.mark.parametrize("kind", OPTIONAL)
def test_optional_kinds_are_not_made_unasked(six_fold: Bellows, kind: str) -> None:
    assert parts_of(six_fold, kind) == ()


# card


def test_card_of_the_five_lines(six_fold: Bellows) -> None:
    card = only(six_fold, "card")
    assert (card.count, card.spare, card.sides) == (84, 0, ("A", "B", "C", "D", "E", "F"))
    assert card.side == "outside"
    assert card.outline.bounds()[1] == pytest.approx(0.1), "the ridge line, half a gap below the edge, is y = 0"
    assert card.outline.bounds()[0] == pytest.approx(-card.outline.bounds()[2])


def test_card_and_its_mirror_image_are_one_part(made: Make) -> None:
    """Board is turned over: a kite's two pairs of sides are cut from two outlines, though their legs stand the other way round."""
    kite = made(section={"shape": "measured", "corners": [[0, 0], [100, -60], [200, 0], [100, 120]]})
    cards = parts_of(kite, "card")
    assert [card.sides for card in cards] == [("A", "B"), ("C", "D")]
    assert [card.count for card in cards] == [28, 28]
    first = Polygon(card_outline(kite, 0)[0].flattened())
    assert first.symmetric_difference(Polygon(card_outline(kite, 1)[0].mirrored().flattened())).area < 1e-3
    assert first.symmetric_difference(Polygon(card_outline(kite, 1)[0].flattened())).area > 10


def test_card_radii_are_given_back_when_they_do_not_fit(made: Make) -> None:
    bellows = made(card={"ridge_radius": 0.5, "valley_radius": 60})
    _, radii = card_outline(bellows, 0)
    assert radii[0] == pytest.approx(radii[1])
    assert radii[2] == pytest.approx(radii[3])
    assert radii[0] < 0.5
    assert radii[2] < 60
    assert Polygon(card_outline(bellows, 0)[0].flattened()).is_valid


# card_run


def test_card_run_scores_valleys_in_front_and_ridges_behind(made: Make) -> None:
    run = only(made(card={"build": "run"}), "card-run")
    assert run.count == 6
    front = levels(run, Role.CREASE)
    back = sorted(line.points[0][1] for line in run.back if line.role is Role.CREASE)
    assert front == pytest.approx([25.0 * k for k in (1, 3, 5, 7, 9, 11, 13)])
    assert back == pytest.approx([50.0 * k for k in range(1, 7)])
    assert run.outline.bounds()[1::2] == pytest.approx((0.1, 350 - 0.1))


def test_card_run_scores_reach_from_edge_to_edge_on_either_face(made: Make) -> None:
    """A board whose two ends differ, seen from behind, is its mirror image: the scores there must fit that."""
    for run in parts_of(made(section=UNEVEN, card={"build": "run"}), "card-run"):
        faces = ((run.outline, run.lines), (run.outline.mirrored(), run.back))
        for outline, face in faces:
            edge = Polygon(outline.flattened()).exterior
            creases = [line for line in face if line.role is Role.CREASE]
            assert len(creases) >= 6
            assert max(edge.distance(Point(end)) for line in creases for end in line.points) < 1e-6


def test_card_run_ends_at_valleys_where_the_cards_do(made: Make) -> None:
    run = only(made(card={"build": "run"}, bellows={"ends": "valley"}), "card-run")
    assert levels(run, Role.CREASE) == pytest.approx([50.0 * k for k in range(1, 6)])
    assert run.outline.bounds()[1::2] == pytest.approx((1, 300 - 1))


def test_card_run_holes_register_front_and_back(made: Make) -> None:
    """Seen from behind, each hole lies where turning the board over sideways puts it; no turn of the board puts one on the other."""
    bellows = made(card={"build": "run"})
    run = only(bellows, "card-run")
    board = Polygon(run.points)
    holes = [Polygon(hole.flattened()) for hole in run.holes]
    seen = [Polygon(line.points) for line in run.back if line.closed and len(line.points) < len(run.points)]
    assert [hole.centroid.coords[0] for hole in seen] == [pytest.approx((-hole.centroid.x, hole.centroid.y)) for hole in holes]
    (ax, ay), (bx, by) = (hole.centroid.coords[0] for hole in holes)
    middle = (board.bounds[1] + board.bounds[3]) / 2
    assert (ax, ay) != pytest.approx((-bx, by)), "sideways"
    assert (ax + bx, ay + by) == pytest.approx((0, 2 * middle)), "half round it looks the same, as the board does"
    hinge = bellows.profile.hinge.lap + bellows.valley_gap / 2
    for hole, valley in zip(holes, (bellows.depth, 13 * bellows.depth), strict=True):
        assert hole.bounds[1] > valley - hinge
        assert hole.bounds[3] < valley + hinge
        assert hole.distance(LineString([(-99, valley), (99, valley)])) > 0, "clear of the score"


@pytest.mark.parametrize(("ends", "folds"), [("ridge", 1), ("valley", 1), ("valley", 2), ("ridge", 6)])
@pytest.mark.parametrize("sides", [6, 16])
def test_card_run_holes_lie_on_the_board(made: Make, ends: str, folds: int, sides: int) -> None:
    """On the narrow boards of many sides too, and where a single fold has no valley to lie under."""
    bellows = made(
        section={"sides": sides, "end_size": 125}, bellows={"ends": ends, "folds": folds, "fold_depth": 12}, card={"build": "run"}
    )
    run = only(bellows, "card-run")
    board = Polygon(run.points)
    for hole in run.holes:
        assert board.contains(Polygon(hole.flattened()).buffer(0.5))


# gusset


def test_gusset_lines(six_fold: Bellows) -> None:
    gusset = only(six_fold, "gusset")
    corner = six_fold.corners[0]
    wide, height = corner.opening(50) / 2, corner.half_height(50)
    assert levels(gusset, Role.CREASE) == [0]
    assert levels(gusset, Role.MARK) == pytest.approx([-height, height])
    assert places(gusset, Role.MARK) == [0], "the centre line"
    edges = [
        line.points
        for line in lines(gusset, Role.MARK)
        if line.points[0][0] != line.points[1][0] and line.points[0][1] != line.points[1][1]
    ]
    expected = [[(x * wide, 0), (x * 0.5, y * height)] for x, y in ((-1, -1), (-1, 1), (1, -1), (1, 1))]
    assert [[c for point in edge for c in point] for edge in sorted(edges)] == [
        pytest.approx([c for point in edge for c in point]) for edge in expected
    ]


def test_gusset_skive_line_is_the_card_s_edge_or_as_wide_as_asked(made: Make) -> None:
    corner = made().corners[0]
    wide, height = corner.opening(50) / 2, corner.half_height(50)
    for line in lines(only(made(), "gusset"), Role.SKIVE):
        (x, y), (tip_x, tip_y) = line.points
        assert (abs(x), y) == pytest.approx((wide, 0))
        assert abs(tip_x) == pytest.approx(wide - (wide - 0.5) * abs(tip_y) / height), "the card's edge, carried on"
    gusset = only(made(gusset={"skive": 2, "tip_radius": 0, "point_radius": 0}), "gusset")
    cut = Polygon(gusset.points).exterior
    for line in lines(gusset, Role.SKIVE):
        assert LineString(line.points).interpolate(0.3, normalized=True).distance(cut) == pytest.approx(2, abs=1e-4)
    assert len(lines(gusset, Role.SKIVE)) == 4, "the long sides only; ends are not skived"


def test_gusset_halves_and_ends(made: Make) -> None:
    half = only(made(bellows={"ends": "valley"}, gusset={"tip_radius": 0, "point_radius": 0}), "half-gusset")
    whole = only(made(gusset={"tip_radius": 0, "point_radius": 0}), "gusset")
    left, low, right, high = half.outline.bounds()
    assert low == -5, "it is glued to the frame by a lap"
    assert (left, right, high) == pytest.approx(whole.outline.bounds()[::2] + whole.outline.bounds()[3:])
    below = Polygon(half.points).intersection(Polygon(rectangle(-99, -99, 99, 0).points))
    assert below.area == pytest.approx(5 * (right - left)), "as wide as the valley all down"
    assert half.count == 12


def test_gusset_of_one_s_own_is_drawn_as_it_is(made: Make) -> None:
    own = made(gusset={"use": ["26 mm", "60 mm"], "tip_radius": 0, "point_radius": 0})
    assert size(only(own, "gusset")) == pytest.approx((26, 60))


@pytest.mark.parametrize(
    ("folds", "spare", "found"),
    [(6, '"10 %"', (3, 3)), (12, '"10 %"', (7, 3)), (12, 0, (0, 0)), (12, 5, (5, 5)), (12, '"25 %"', (17, 3))],
)
def test_gusset_spares(made: Make, folds: int, spare: int | str, found: tuple[int, int]) -> None:
    bellows = made(bellows={"folds": folds}, gusset={"spare": spare.strip('"') if isinstance(spare, str) else spare})
    assert (only(bellows, "gusset").spare, only(bellows, "end-gusset").spare) == found


def test_gusset_corners_are_named_from_ab_on(made: Make) -> None:
    assert only(made(), "gusset").corners == ("AB", "BC", "CD", "DE", "EF", "FA")
    uneven = made(section=UNEVEN)
    for part in parts_of(uneven, "gusset"):
        for name in part.corners:
            corner = uneven.corners[uneven.section.corner_names.index(name)]
            assert levels(part, Role.MARK)[1] == pytest.approx(corner.half_height(50), abs=0.005)


# edge_strip


def test_edge_strip_lines(six_fold: Bellows) -> None:
    strip = only(six_fold, "edge-strip")
    bend = math.pi * 1.3
    assert levels(strip, Role.CREASE) == [0]
    assert levels(strip, Role.MARK) == pytest.approx([-bend / 2, bend / 2])
    assert levels(strip, Role.SKIVE) == pytest.approx([-bend / 2 - 2, bend / 2 + 2])
    assert places(strip, Role.SKIVE) == pytest.approx([10, size(strip)[0] - 10]), "both ends over the joint"
    side = six_fold.section.sides[0]
    assert places(strip, Role.MARK) == pytest.approx([5 + side * (k + 0.5) for k in range(6)]), "the joint in the middle of side A"


def test_edge_strip_per_side(made: Make) -> None:
    rectangular = made(section={"shape": "rectangle", "width": 200, "height": 120}, edge_strip={"run": "per-side"})
    strips = parts_of(rectangular, "edge-strip")
    assert [(strip.sides, strip.count) for strip in strips] == [(("A", "C"), 12), (("B", "D"), 12)]
    assert [size(strip)[0] for strip in strips] == pytest.approx([200 - 1.7 + 10, 120 - 1.7 + 10])


def test_edge_strip_darts_close_at_the_fold(made: Make) -> None:
    """At a square corner on full stretch: half as wide at the edge as f tan 45 cos t, and nothing where the bend begins."""
    strip = only(made(section={"shape": "rectangle", "width": 200, "height": 120}, edge_strip={"darts": True}), "edge-strip")
    plain = only(made(section={"shape": "rectangle", "width": 200, "height": 120}), "edge-strip")
    dart = 7 * 7 * math.cos(math.radians(50))
    assert plain.area - strip.area == pytest.approx(8 * dart, abs=0.01)
    inner = Polygon(strip.points).buffer(1e-6)
    bend = math.pi * 1.3 / 2
    assert inner.contains(Polygon(rectangle(0, -bend, size(strip)[0], bend).points))
    assert dart_half_width(7, 90, 50) == pytest.approx(7 * math.cos(math.radians(50)))
    assert dart_half_width(7, 60, 0) == pytest.approx(7 / math.sqrt(3))


def test_edge_strip_darts_are_each_as_wide_as_their_own_corner_asks(made: Make) -> None:
    bellows = made(section=UNEVEN, edge_strip={"darts": True})
    strip = only(bellows, "edge-strip")
    foot = strip.outline.bounds()[1]
    marks = corner_marks(bellows.section.sides, 10)
    turns = dict(zip(bellows.section.corner_names, bellows.section.turns, strict=True))
    for at, name in zip(marks, [*bellows.section.corner_names[1:], bellows.section.corner_names[0]], strict=True):
        edges = sorted(abs(x - at) for x, y in strip.outline.points if y == pytest.approx(foot))[:2]
        assert edges == pytest.approx([dart_half_width(7, turns[name], 50)] * 2), name


NARROW = [[0, 0], [150, 0], [166, 12], [168, 90], [120, 160], [0, 160], [-12, 144]]
"""A section with two corners near to each other, twice."""


def along_the_edge(strip: Part) -> list[tuple[float, float]]:
    """From where to where there is leather along the lower edge of a strip, measured on its outline a hair inside [mm]."""
    drawn = Polygon(strip.points)
    left, low, right, _ = drawn.bounds
    cut = drawn.intersection(LineString([(left - 1, low + 1e-4), (right + 1, low + 1e-4)]))
    pieces = getattr(cut, "geoms", [cut])
    return sorted((piece.bounds[0], piece.bounds[2]) for piece in pieces)


@pytest.mark.parametrize(
    "section",
    [
        {"shape": "rectangle", "width": 600, "height": 600},
        {"shape": "regular", "sides": 3, "end_size": 60, "measure": "side"},
        {"shape": "regular", "sides": 12, "end_size": 90},
        {"shape": "regular", "sides": 64, "end_size": 300},
        {"shape": "measured", "corners": UNEVEN["corners"]},
        {"shape": "measured", "corners": NARROW},
    ],
    ids=["square", "triangle", "twelve", "sixty-four", "uneven", "narrow"],
)
@given(
    lap=st.floats(0.5, 60),
    joint=st.floats(0.5, 100),
    stretch=st.one_of(st.floats(1, 90), st.sampled_from([90.0, 89.9999, 89.0])),
)
@settings(max_examples=12, phases=[Phase.explicit, Phase.generate])
def test_edge_strip_darts_never_meet(made: Make, section: dict[str, object], lap: float, joint: float, stretch: float) -> None:
    """However wide the corners ask: leather stays between two, each can be cut, and what is not as asked is told."""
    plain = built(made, repr(section))
    bellows = replace(plain, stretch=stretch, profile=replace(plain.profile, edge_strip=EdgeStripSpec(lap=lap, joint=joint, darts=True)))
    (strip,) = edge_strip.make(bellows)
    assert Polygon(strip.points).is_valid
    there = along_the_edge(strip)
    assert min(right - left for left, right in there) > min(0.9999, joint / 2)
    cut = [(after[0] - before[1], (after[0] + before[1]) / 2) for before, after in pairwise(there)]
    assert min((wide for wide, _ in cut), default=1) > 0.499
    marks = corner_marks(bellows.section.sides, joint)
    turns = [*bellows.section.turns[1:], bellows.section.turns[0]]
    asked = {x: 2 * lap * math.tan(math.radians(turn) / 2) * math.cos(math.radians(stretch)) for x, turn in zip(marks, turns, strict=True)}
    got = {x: next((wide for wide, middle in cut if abs(middle - x) < 1e-3), 0.0) for x in marks}
    assert sum(1 for wide in got.values() if wide) == len(cut)
    assert all(got[x] < asked[x] + 1e-3 for x in marks)
    amiss = any(got[x] < asked[x] - 1e-3 or not got[x] for x in marks)
    assert any(note.code == "darts" for note in warnings(bellows, "rebellows")) is amiss
    # A mark stands across the whole strip where there is no notch to show the corner.
    half = strip.outline.bounds()[3]
    whole = sum(line.points[-1][1] == half for line in lines(strip, Role.MARK) if line.points[0][0] == line.points[-1][0])
    assert whole == len(marks) - len(cut)


@functools.cache
def built(made: Make, section: str) -> Bellows:
    return made(
        section=ast.literal_eval(section), bellows={"folds": 2, "fold_depth": 5}, gusset={"lap": 0.6, "tip_lap": 0.5, "frame_turn": 1}
    )


def test_edge_strip_of_forty_folds_opened_square_is_not_notched(made: Make) -> None:
    """A notch closes as the cards open; at 90 degrees there is nothing to cut away, and no hairline is left in its place."""
    bellows = made(
        section={"shape": "rectangle", "width": 600, "height": 600}, bellows={"folds": 40, "stretch": 90}, edge_strip={"darts": True}
    )
    strip = only(bellows, "edge-strip")
    assert len(strip.points) == 4
    told = [note.text for note in warnings(bellows, "rebellows") if note.code == "darts"]
    assert told == [
        "At the corner AB the edge strip is not notched: a notch would be less than 0.5 mm wide at the edge. Stretch the strip round."
    ]


def test_edge_strip_notches_that_would_meet_are_told(made: Make) -> None:
    """Five sides of 28.8 mm and a lap of 25 mm: at 30 degrees the corners ask 2 x 25 tan 36 cos 30 = 31.5 mm; a millimetre stays between."""
    bellows = made(
        section={"shape": "regular", "sides": 5, "end_size": 30, "measure": "side"},
        bellows={"fold_depth": 10, "stretch": 30},
        edge_strip={"lap": 25, "darts": True},
        gusset={"lap": 1, "tip_lap": 1},
    )
    (told,) = [note.text for note in warnings(bellows, "rebellows") if note.code == "darts"]
    assert "the corner AB asks, 31.5 mm" in told
    side = bellows.section.sides[0]
    there = along_the_edge(only(bellows, "edge-strip"))
    assert min(right - left for left, right in there) == pytest.approx(1.0, abs=1e-3)
    assert [after[0] - before[1] for before, after in pairwise(there)][2] == pytest.approx(side - 1, abs=1e-3)


def test_edge_strips_side_by_side_say_that_they_have_no_notches(made: Make) -> None:
    bellows = made(edge_strip={"run": "per-side", "darts": True})
    assert all(len(part.points) == 4 for part in parts_of(bellows, "edge-strip"))
    assert [note.code for note in warnings(bellows, "rebellows")].count("darts") == 1


def test_edge_strip_corner_marks() -> None:
    assert corner_marks((40, 30, 20), 10) == pytest.approx((25, 55, 75))


# end_strip


def test_end_strip_lines(six_fold: Bellows) -> None:
    strip = only(six_fold, "end-strip")
    bend = math.pi * 1.3 / 2
    assert strip.outline.bounds()[1::2] == pytest.approx((-15, bend + 8))
    assert levels(strip, Role.CREASE) == [0], "the frame's edge"
    assert levels(strip, Role.MARK) == pytest.approx([bend])
    assert levels(strip, Role.SKIVE) == pytest.approx([-15 + 5, bend + 8 - 5])
    side = six_fold.section.frame_sides[0]
    assert places(strip, Role.MARK) == pytest.approx([5 + side * (k + 0.5) for k in range(6)])


# fold_strips


def test_fold_strips_follow_their_own_fold(made: Make) -> None:
    bellows = made(**ALL)
    found = {part.id: part for part in make_parts(bellows)}
    assert {name: found[name].count for name in ("hinge-valley", "hinge-ridge", "frame-hinge", "valley-strip", "ridge-cloth")} == {
        "hinge-valley": 42,
        "hinge-ridge": 36,
        "frame-hinge": 12,
        "valley-strip": 42,
        "ridge-cloth": 36,
    }
    at_ridge, at_valley = bellows.card_width(0, 0.1) - 2, bellows.card_width(0, 25 - bellows.valley_gap / 2) - 2
    assert size(found["hinge-ridge"]) == pytest.approx((at_ridge, 12.2))
    assert size(found["hinge-valley"]) == pytest.approx((at_valley, 12 + bellows.valley_gap))
    assert size(found["frame-hinge"]) == pytest.approx((at_ridge, 12.2))
    assert size(found["valley-strip"]) == pytest.approx((at_valley, 10 + bellows.valley_gap))
    assert size(found["ridge-cloth"]) == pytest.approx((at_ridge, 10.2))
    assert levels(found["hinge-valley"], Role.MARK) == pytest.approx([-bellows.valley_gap / 2, bellows.valley_gap / 2])


def test_fold_strips_at_valley_ends(made: Make) -> None:
    bellows = made(bellows={"ends": "valley"}, frame_hinge={})
    found = {part.id: part for part in make_parts(bellows)}
    assert found["hinge-valley"].count == 5 * 6
    assert size(found["frame-hinge"])[0] == pytest.approx(size(found["hinge-valley"])[0])
    alone = made(bellows={"ends": "valley", "folds": 1})
    assert "hinge-valley" not in {part.id for part in make_parts(alone)}


# facing


def test_facing_glued_last_fills_the_window(made: Make) -> None:
    facing = only(made(facing={"overlap": 1, "short_of_valley": 2}), "facing")
    assert facing.count == 84
    assert facing.outline.bounds()[1::2] == pytest.approx((0.1 + 7 - 1, 25 - 2))


def test_facing_never_reaches_past_the_card_s_legs(made: Make) -> None:
    """With an overlap wider than the laps the leg is where it stops."""
    bellows = made(facing={"overlap": 6})
    facing = only(bellows, "facing")
    (left, low), (right, _), (far_right, high), _ = facing.outline.points
    assert right - left == pytest.approx(bellows.card_width(0, low))
    assert far_right * 2 == pytest.approx(bellows.card_width(0, high))


def test_facing_in_two_hands(made: Make) -> None:
    """A trapezium's slanting sides have two different corners; its parallel ones are their own mirror image."""
    trapezium = made(section={"shape": "measured", "corners": [[0, 0], [200, 0], [160, 110], [40, 110]]}, facing={})
    facings = parts_of(trapezium, "facing")
    assert {(part.sides, part.count) for part in facings} == {(("A",), 14), (("C",), 14), (("B", "D"), 14)}
    slanting = [part for part in facings if part.sides == ("B", "D")]
    assert len(slanting) == 2
    one, other = (Polygon(part.points) for part in slanting)
    assert one.symmetric_difference(Polygon([(-x, y) for x, y in other.exterior.coords])).area < 1e-3
    assert one.symmetric_difference(other).area > 1


def test_facing_of_two_sides_that_mirror_each_other_says_which_hand_is_whose(made: Make) -> None:
    """In a kite the right-hand facing of one side is the left-hand one of the next."""
    kite = made(section={"shape": "measured", "corners": [[0, 0], [100, -60], [200, 0], [100, 120]]}, facing={})
    assert {part.id: (part.name, part.sides, part.count) for part in parts_of(kite, "facing")} == {
        "facing-A-right": ("Facing, sides A and B, valley to the right on A and to the left on B", ("A", "B"), 14),
        "facing-A-left": ("Facing, sides A and B, valley to the left on A and to the right on B", ("A", "B"), 14),
        "facing-C-right": ("Facing, sides C and D, valley to the right on C and to the left on D", ("C", "D"), 14),
        "facing-C-left": ("Facing, sides C and D, valley to the left on C and to the right on D", ("C", "D"), 14),
    }
    assert {part.name for part in parts_of(made(section=UNEVEN, facing={}), "facing")} >= {
        "Facing, side A, valley to the right",
        "Facing, side A, valley to the left",
    }


def test_facing_pairs_and_the_single_ones_at_valley_ends(made: Make) -> None:
    bellows = made(bellows={"ends": "valley"}, facing={"span": "pair"})
    single, pair = parts_of(bellows, "facing")
    assert (single.count, pair.count) == (12, 30)
    assert levels(pair, Role.CREASE) == [25]
    assert pair.outline.bounds()[3] == pytest.approx(50 - pair.outline.bounds()[1])


# corner_patch


def test_corner_patch_is_round_ended(made: Make) -> None:
    patch = only(made(corner_patch={"width": 10, "length": 20}), "corner-patch")
    assert patch.area == pytest.approx(30 * 10 + math.pi * 25, abs=0.2)
    assert size(patch) == pytest.approx((40, 10), abs=0.01)
    assert patch.count == 6
    assert only(made(top={"copies": 2}, corner_patch={"count": 4}), "corner-patch").count == 8


@pytest.mark.parametrize("length", [3, 4.9, 5])
def test_a_corner_patch_shorter_than_half_its_width_is_a_disc(length: float, made: Make) -> None:
    patch = only(made(corner_patch={"width": 10, "length": length}), "corner-patch")
    assert size(patch) == pytest.approx((10, 10), abs=0.01)
    assert patch.area == pytest.approx(math.pi * 25, abs=0.2)


# what they share


def test_a_part_seen_from_behind_has_its_holes_on_the_other_hand(made: Make) -> None:
    run = only(made(card={"build": "run"}), "card-run")
    places = [Polygon(hole.flattened()).centroid.coords[0] for hole in run.holes]
    seen = [Polygon(hole.flattened()).centroid.coords[0] for hole in run.mirrored().holes]
    assert seen == [pytest.approx((-x, y)) for x, y in places]


def test_whole_strips_have_neither_sides_nor_corners(six_fold: Bellows) -> None:
    for kind in ("edge-strip", "end-strip"):
        assert (only(six_fold, kind).sides, only(six_fold, kind).corners) == ((), ())


def test_leather_shows_its_flesh_side_and_board_its_outside(six_fold: Bellows) -> None:
    sides = {part.kind: part.side for part in make_parts(six_fold)}
    assert sides == {
        "card": "outside",
        "gusset": "flesh",
        "end-gusset": "flesh",
        "edge-strip": "flesh",
        "end-strip": "flesh",
        "hinge": "outside",
    }


def test_like_is_put_to_like_within_five_thousandths(six_fold: Bellows) -> None:
    outline = rectangle(0, 0, 10, 5)
    model = blank(six_fold, "card", "Card", "grey card", outline)
    near, far = rectangle(0, 0, 10.004, 5), rectangle(0, 0, 10.006, 5)
    wants = [Want(outline, (), 1, "A"), Want(near, (), 2, "B"), Want(far, (), 4, "C")]
    assert [(part.id, part.count, part.sides) for part in gathered(model, wants, "sides")] == [
        ("card-A", 3, ("A", "B")),
        ("card-C", 4, ("C",)),
    ]
    assert [part.name for part in gathered(model, wants, "sides")] == ["Card, sides A and B", "Card, side C"]
    assert [part.id for part in gathered(model, wants[:2], "sides")] == ["card"]


def test_mirror_images_are_one_part_only_when_turned_over(six_fold: Bellows) -> None:
    slanted = polygon(((0, 0), (10, 0), (8, 5), (3, 5)))
    other = slanted.mirrored()
    model = blank(six_fold, "card", "Card", "grey card", slanted)
    wants = [Want(slanted, (), 1, "A"), Want(other, (), 1, "B")]
    assert len(gathered(model, wants, "sides")) == 2
    assert len(gathered(model, wants, "sides", turned_over=True)) == 1


def test_centred() -> None:
    assert centred(rectangle(3, 1, 9, 2)).bounds() == (-3, 1, 3, 2)


def test_listed() -> None:
    assert [listed(["A"]), listed(["A", "B"]), listed(["A", "B", "C"])] == ["A", "A and B", "A, B and C"]


def test_also_makes_further_kinds(made: Make) -> None:
    bellows = made(facing={})
    assert {part.kind for part in make_parts(bellows, "strips", ("facing",))} == {"edge-strip", "end-strip", "facing"}


def test_cut_length_counts_holes(made: Make) -> None:
    run = only(made(card={"build": "run"}), "card-run")
    around = sum(math.dist(p, q) for p, q in zip(run.points, (*run.points[1:], run.points[0]), strict=True))
    assert run.cut_length - around == pytest.approx(2 * 2 * math.pi * 0.75, rel=0.01)


# cover gusset


def test_covers_lie_exactly_on_the_gussets(made: Make) -> None:
    """Common practice, no source: a thin gusset laid exactly over the old one. So thin a leather has no line to pare to."""
    for more in ({}, {"section": UNEVEN}, {"bellows": {"ends": "valley"}}):
        bellows = made(**more, cover_gusset={})
        gussets = [*parts_of(bellows, "gusset"), *parts_of(bellows, "end-gusset"), *parts_of(bellows, "half-gusset")]
        covers = make_parts(bellows, "cover")
        assert [cover.outline for cover in covers] == [gusset.outline for gusset in gussets]
        assert [(cover.count, cover.spare) for cover in covers] == [(gusset.count, gusset.spare) for gusset in gussets]
        assert {cover.material for cover in covers} == {"cover skin"}
        assert not any(line.role is Role.SKIVE for cover in covers for line in cover.lines)
        assert len({part.id for part in (*covers, *gussets)}) == len(covers) + len(gussets)


def test_covers_make_the_bellows_thicker(made: Make) -> None:
    """In each cell a cover lies on two laps and on four thicknesses of folded gusset: six times 0.15 mm, seven cells."""
    assert made(cover_gusset={}).closed_length - made().closed_length == pytest.approx(7 * 6 * 0.15)


@pytest.mark.parametrize(
    "opening", [{"stretch": 57.5}, {"travel": 230}, {"travel": 230, "ends": "valley"}, {"relief": 2, "travel": 200}, {}], ids=repr
)
@pytest.mark.parametrize("use", [None, [26, 62]])
def test_covers_lie_on_the_gussets_of_the_bellows_as_it_was(made: Make, opening: dict[str, object], use: object) -> None:
    """Thin leather on the old gussets closes thicker and opens no further."""
    more = {"bellows": opening, "gusset": {"use": use}}
    before, after = made(**more), made(**more, cover_gusset={})
    gussets = make_parts(before, "regusset")[: len(make_parts(after, "cover"))]
    assert [cover.outline for cover in make_parts(after, "cover")] == [gusset.outline for gusset in gussets]
    assert after.open_length == before.open_length
    cells = 6 if opening.get("ends") else 7
    assert after.closed_length - before.closed_length == pytest.approx(cells * 6 * 0.15)
    assert before.travel - after.travel == pytest.approx(cells * 6 * 0.15)

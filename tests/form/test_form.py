"""The form: its surface, its joints, and that it comes apart."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import combinations, pairwise
from typing import Any

import pytest
import shapely

from bellowscut.bellows import Bellows, build
from bellowscut.errors import LayoutError
from bellowscut.form.build import build_form, segment_of, valley_edge
from bellowscut.form.model import Form, Segment, Step
from bellowscut.form.removal import way_out
from bellowscut.form.sizes import zigzag
from bellowscut.parts import Part
from bellowscut.profile import load, shipped
from tests.form.corners import strikes
from tests.form.moves import boards, collisions

Make = Callable[..., Bellows]
Point = tuple[float, float]

SIDES = ((3, 220), (4, 130), (5, 110), (6, 92), (7, 80), (8, 70), (9, 66), (10, 60), (12, 56), (16, 48))
SECTIONS: dict[str, dict[str, Any]] = {
    **{f"{n} sides": {"shape": "regular", "sides": n, "measure": "side", "end_size": side} for n, side in SIDES},
    "oblong": {"shape": "rectangle", "width": 250, "height": 120},
    "uneven flats": {"shape": "measured", "flats": [158.9, 157.4, 158.2]},
    "five corners": {"shape": "measured", "corners": [[0, 0], [110, -4], [150, 92], [60, 160], [-30, 98]]},
}
LETTERS = "ABCDEFGHIJKLMNOP"


def part(form: Form, kind: str) -> Part:
    return next(one for one in form.parts if one.kind == kind)


def gaps(numbers: Sequence[float]) -> list[float]:
    return [b - a for a, b in pairwise(sorted(numbers))]


@pytest.fixture(scope="module")
def forms(made: Make) -> list[tuple[str, Bellows, Form]]:
    """Forms of all shipped profiles, and of sections of 3 to 16 sides."""
    found = [(name, build(load(name))) for name in shipped()]
    found += [
        (name, made(section=section, bellows={"fold_depth": 16, "folds": 5}, form={"ply": 4, "back": 6}))
        for name, section in SECTIONS.items()
    ]
    return [(name, bellows, build_form(bellows)) for name, bellows in found]


def axes(form: Form, side: int) -> tuple[Point, Point]:
    """Where a side of the form begins, and its direction."""
    a, b = form.sizes.ridges[side], form.sizes.ridges[(side + 1) % len(form.sizes.ridges)]
    return a, ((b[0] - a[0]) / math.dist(a, b), (b[1] - a[1]) / math.dist(a, b))


def on_side(form: Form, side: int, points: Sequence[Point]) -> Iterator[Point]:
    """Points by their place along a side and their depth under its ridge line."""
    (ax, ay), (ux, uy) = axes(form, side)
    for x, y in points:
        yield (x - ax) * ux + (y - ay) * uy, -(x - ax) * uy + (y - ay) * ux


# the surface ---------------------------------------------------------------


def test_ridges_of_20_and_valleys_40_apart_at_45_degrees() -> None:
    """Forms slope at 45 degrees: ridges 20 mm high, valleys 40 mm apart, hence cards near 28 mm deep (common practice, no source)."""
    edge = zigzag(14, 20 * math.sqrt(2), 45)
    assert [depth for _, depth in edge[1::2]] == pytest.approx([20.0] * 7)
    assert gaps([z for z, _ in edge[1::2]]) == pytest.approx([40.0] * 6)


def test_the_comb_as_cut_has_them_too(made: Make) -> None:
    form = build_form(made(bellows={"fold_depth": "28.2843 mm", "form_slope": 45, "stretch": 45}, form={"arris": 0}))
    points = part(form, "form-comb").points
    assert gaps([x for x, y in points if abs(y + 20) < 0.01]) == pytest.approx([40.0] * 6, abs=0.01)
    assert gaps([x for x, y in points if abs(y) < 0.01]) == pytest.approx([40.0] * 7, abs=0.01)


@pytest.mark.parametrize("slope", [35, 50, 62])
def test_card_and_cloth_fit_between_the_form_and_the_outside(made: Make, slope: float) -> None:
    """The card's outside and the comb's flank, as lines through two points each, stand card and cloth apart: 1.0 + 0.2 mm."""
    bellows = made(bellows={"form_slope": slope}, form={"arris": 0})
    form = build_form(bellows)
    ((_, inward),) = tuple((x, y) for x, y in _from_ridge(bellows, form.sizes.ridges[:1]))
    tan = math.radians(slope)
    card = (0.0, 0.0), (bellows.depth * math.sin(tan), bellows.depth * math.cos(tan))
    flank = [(x, inward - y) for x, y in part(form, "form-comb").points if x < card[1][0] + 0.01 and y > -form.sizes.ridge_height - 0.01]
    assert len(flank) == 2
    for x, y in flank:
        square = abs(card[1][0] * y - card[1][1] * x) / math.dist(*card)
        assert square == pytest.approx(1.2, abs=0.01)


def _from_ridge(bellows: Bellows, points: Sequence[Point]) -> Iterator[Point]:
    """Points by place along side A of the ridge polygon and depth under it."""
    a, b = bellows.section.ridge[:2]
    ux, uy = (b[0] - a[0]) / math.dist(a, b), (b[1] - a[1]) / math.dist(a, b)
    for x, y in points:
        yield (x - a[0]) * ux + (y - a[1]) * uy, -(x - a[0]) * uy + (y - a[1]) * ux


def test_arrises_are_eased(made: Make) -> None:
    """A round of radius r in a corner of 2 h leaves r (1 / sin h - 1) of it; h by the height of a ridge and half the pitch."""
    sharp, eased = (build_form(made(form={"arris": radius})) for radius in (0, 1.5))
    tops = [max(y for x, y in part(form, "form-comb").points if 10 < x < form.sizes.length - 10) for form in (sharp, eased)]
    flank = math.atan2(eased.sizes.pitch / 2, eased.sizes.ridge_height)
    assert tops[0] == pytest.approx(0.0, abs=1e-6)
    assert tops[1] == pytest.approx(-1.5 * (1 / math.sin(flank) - 1), abs=0.01)


# the joints ----------------------------------------------------------------


def test_tabs_of_combs_agree_with_their_slots(forms: list[tuple[str, Bellows, Form]]) -> None:
    """As long and as thick as the slot less the play, and in the same place, to 0.01 mm."""
    for name, bellows, form in forms:
        spec = bellows.profile.form
        comb = part(form, "form-comb").points
        foot = min(y for _, y in comb)
        assert -foot == pytest.approx(form.sizes.ridge_height + spec.back + spec.ply, abs=1e-4)
        feet = sorted(x for x, y in comb if abs(y - foot) < 1e-6)
        tabs = list(zip(feet[::2], feet[1::2], strict=True))
        for board in (one for one in form.parts if one.kind == "form-side"):
            segment = form.segments[LETTERS.index(board.sides[0])]
            slots = [hole.bounds() for hole in board.holes]
            assert len(slots) == len(tabs) * len(segment.places), name
            for place in segment.places:
                row = sorted(slot for slot in slots if slot[1] < place - segment.left < slot[3])
                for (left, low, right, high), (start, stop) in zip(row, tabs, strict=True):
                    assert (right - left, high - low) == pytest.approx((stop - start + spec.play, spec.ply + spec.play), abs=0.01)
                    assert (left + right, low + high) == pytest.approx((start + stop, 2 * (place - segment.left)), abs=0.01)


def test_tabs_of_side_boards_agree_with_the_end_plate(forms: list[tuple[str, Bellows, Form]]) -> None:
    for name, bellows, form in forms:
        play = bellows.profile.form.play
        for board in (one for one in form.parts if one.kind == "form-side"):
            for side in map(LETTERS.index, board.sides):
                segment = form.segments[side]
                ends = [y for x, y in board.points if abs(x + segment.ply) < 1e-6]
                slot = list(on_side(form, side, part(form, "form-end").holes[side].flattened()))
                across, deep = sorted(x for x, _ in slot), sorted(y for _, y in slot)
                tab = segment.left + min(ends) - play / 2, segment.left + max(ends) + play / 2
                assert (across[0], across[-1]) == pytest.approx(tab, abs=0.01), name
                assert (deep[0], deep[-1]) == pytest.approx((segment.comb - play / 2, segment.depth + play / 2), abs=0.01), name


def test_the_core_stands_behind_the_boards_with_the_play(forms: list[tuple[str, Bellows, Form]]) -> None:
    for name, bellows, form in forms:
        core = part(form, "form-core-rib")
        for segment in form.segments:
            nearest = min(depth for _, depth in on_side(form, segment.side, core.points))
            assert nearest - segment.depth == pytest.approx(bellows.profile.form.play, abs=0.01), name
        # The hole through which it is pushed out lies behind it all round.
        hole = part(form, "form-end").holes[-1]
        middle = shapely.Polygon(core.points).centroid
        assert max(math.dist((middle.x, middle.y), point) for point in hole.flattened()) < shapely.Polygon(core.points).exterior.distance(
            middle
        )
        (slot,) = (hole.bounds() for hole in core.holes)
        spine = part(form, "form-core-spine").outline.bounds()
        assert slot[2] - slot[0] == pytest.approx(spine[3] - spine[1] + bellows.profile.form.play, abs=0.01)


def test_slots_lie_in_their_boards_with_wood_around_them(forms: list[tuple[str, Bellows, Form]]) -> None:
    """By shapely: each slot within its outline, a plate's own thickness or 4 mm from the edge, and none in another."""
    for name, bellows, form in forms:
        least = min(4.0, bellows.profile.form.ply) - 0.01
        for one in form.parts:
            board = shapely.Polygon(one.points)
            slots = [shapely.Polygon(hole.flattened()) for hole in one.holes]
            for slot in slots:
                assert board.contains(slot), (name, one.id)
                assert slot.distance(board.exterior) >= least, (name, one.id, slot.distance(board.exterior))
            for first, second in combinations(slots, 2):
                assert first.distance(second) > 1.0, (name, one.id)


# it comes apart -------------------------------------------------------------


def shape(form: Form, segment: Segment) -> list[list[Point]]:
    ridges = form.sizes.ridges
    ridge = ridges[segment.side], ridges[(segment.side + 1) % len(ridges)]
    return boards(ridge, segment.places, (segment.ply, segment.comb, segment.depth, segment.left, segment.right))


def inward_of(form: Form, side: int) -> Point:
    _, (ux, uy) = axes(form, side)
    return -uy, ux


def way_of(form: Form, side: int, step: Step) -> tuple[Point, float]:
    """Direction and length of a segment's move [mm]."""
    _, (ux, uy) = axes(form, side)
    x, y = ux * step.aside - uy * step.inward, uy * step.aside + ux * step.inward
    far = math.hypot(x, y)
    return (x / far, y / far), far


def test_every_form_comes_apart_point_by_point(forms: list[tuple[str, Bellows, Form]]) -> None:
    """By a second route: points moved in small steps, none in a board that stands, all inside the valleys at the end."""
    for name, bellows, form in forms:
        standing = {LETTERS[one.side]: one for one in form.segments}
        valleys = form.sizes.polygon(form.sizes.ridge_height)
        # Tabs of the side boards sit in the slots of both plates: both are off before a segment moves.
        assert [step.piece for step in form.steps[:3]] == ["end", "core", "end"]
        leaving = form.leaving
        assert sorted(step.piece for step in leaving) == sorted(standing)
        for step in leaving:
            moving = standing.pop(step.piece)
            assert step.inward >= bellows.depth * math.cos(math.radians(bellows.form_slope)), name
            others = [board for other in standing.values() for board in shape(form, other)]
            way, far = way_of(form, moving.side, step)
            assert collisions(shape(form, moving), others, way, far, valleys) == [], (name, step.piece)


def test_no_segment_strikes_card_or_gusset(forms: list[tuple[str, Bellows, Form]]) -> None:
    """By a second route: rigid cards in space, the leather stretched between them, at five heights and thirteen moments of each move."""
    for name, bellows, form in forms:
        for step in form.steps[3:]:
            assert strikes(bellows, form, form.segments[LETTERS.index(step.piece)], step) == [], (name, step.piece)


def test_both_routes_see_a_board_in_a_gusset(made: Make) -> None:
    """A board that reaches past its combs by more than the wood behind the valleys allows stands in the gussets beside it."""
    bellows = made(section=SECTIONS["4 sides"], bellows={"fold_depth": 16, "folds": 5}, form={"ply": 3, "back": 4, "clearance": 0.5})
    form = build_form(bellows)
    low, _ = valley_edge(bellows, form.sizes, 0)
    for beyond, clear in ((3.0, True), (6.0, False)):
        # At a square corner the gusset runs inward as fast as it runs along, from the card's outside, which is 1.57 mm further out:
        # 5.57 mm past the card it is 4 mm behind the valley.
        board = replace(form.segments[0], left=low - beyond, places=form.segments[0].places[1:])
        found, _ = way_out(form.sizes, (board,), 0.5)
        assert bool(found) == clear
        struck = strikes(bellows, form, board, Step("A", form.sizes.ridge_height + 0.5, 0.5))
        assert bool(struck) != clear
        assert all("gusset" in one for one in struck)


def test_boards_do_not_lie_in_each_other(forms: list[tuple[str, Bellows, Form]]) -> None:
    for name, _, form in forms:
        for one in form.segments:
            others = [board for other in form.segments if other is not one for board in shape(form, other)]
            assert collisions(shape(form, one), others, (0.0, 0.0), 0.0, form.sizes.polygon(-1.0)) == [], (name, one.side)


def test_combs_stand_behind_their_own_cards(forms: list[tuple[str, Bellows, Form]]) -> None:
    """At the valley a card is narrowest: every comb lies within it, and so clear of the gussets."""
    for name, bellows, form in forms:
        for segment in form.segments:
            wide = bellows.card_width(segment.side, bellows.depth)
            assert max(segment.places) - min(segment.places) + segment.ply <= wide + 1e-6, name


def test_combs_keep_off_wide_corners(made: Make) -> None:
    """With much relief the cards are narrower at the valley than the boards would allow.

    A comb 0.5 mm clear of the valley is 0.5 mm clear of a gusset that slants at 30 degrees when it stands 0.5 tan 15 further in.
    """
    bellows = made(bellows={"relief": 25, "stretch": 60, "fold_depth": 16}, form={"back": 4, "ply": 2, "clearance": 0.5})
    segment = build_form(bellows).segments[0]
    free = bellows.card_width(0, bellows.depth) - 2 * 0.5 * math.tan(math.radians(15))
    assert max(segment.places) - min(segment.places) + segment.ply == pytest.approx(free, abs=0.01)


def test_only_the_key_is_narrow_in_a_triangle(made: Make) -> None:
    """Sides of a triangle lean over each other: only the key leaves with both of the others standing."""
    bellows = made(section=SECTIONS["3 sides"], bellows={"fold_depth": 16, "folds": 5}, form={"ply": 4, "back": 6})
    form = build_form(bellows)
    assert form.key == "A"
    wide = [segment.right - segment.left for segment in form.segments]
    assert wide[0] < min(wide[1:]) - 5.0
    slipping = next(step for step in form.steps if step.aside)
    assert slipping.piece == "B"
    assert slipping.aside < 0, "towards A, whose place is empty"
    standing = (segment_of(bellows, form.sizes, 0), *form.segments[1:])
    assert way_out(form.sizes, standing, 2.0) == ((), ("A", "B", "C"))


@pytest.mark.parametrize("name", ["six-sided-treble", "oblong-three-alike", "five-corners-traced", "twelve-sided-deep"])
def test_no_side_is_narrowed_without_need(name: str) -> None:
    """At corners of 90 degrees and more every segment leaves beside full ones."""
    bellows = build(load(name))
    form = build_form(bellows)
    assert form.segments == tuple(segment_of(bellows, form.sizes, side) for side in range(bellows.section.count))


def test_both_routes_see_a_form_that_is_stuck(made: Make) -> None:
    """Boards as wide as the sides of a triangle wedge each other."""
    form = build_form(made(section=SECTIONS["3 sides"], bellows={"fold_depth": 16, "folds": 5}, form={"ply": 4, "back": 6}))
    wide = []
    for segment in form.segments:
        long = math.dist(form.sizes.ridges[segment.side], form.sizes.ridges[(segment.side + 1) % 3])
        cut = segment.depth * math.tan(math.radians(60)) + 0.1
        wide.append(replace(segment, left=cut, right=long - cut))
    _, stuck = way_out(form.sizes, wide, 1.0)
    assert stuck == ("A", "B", "C")
    others = [board for segment in wide[1:] for board in shape(form, segment)]
    valleys = form.sizes.polygon(form.sizes.ridge_height)
    assert collisions(shape(form, wide[0]), others, inward_of(form, 0), form.sizes.ridge_height + 1, valleys)


@pytest.mark.parametrize(
    ("tables", "told"),
    [
        ({"form": {"ply": 18, "back": 40}}, "no room for a core"),
        (
            {"section": {"shape": "regular", "sides": 12, "end_size": 120}, "bellows": {"fold_depth": 11}, "form": {"ply": 10}},
            "no room for a comb",
        ),
        (
            {
                "section": {"shape": "rectangle", "width": 250, "height": 110},
                "bellows": {"fold_depth": 36.5, "form_slope": 37},
                "form": {"ply": 3, "back": 4},
            },
            "cannot leave the finished bellows",
        ),
    ],
)
def test_a_form_that_cannot_be_is_refused(made: Make, tables: dict[str, dict[str, Any]], told: str) -> None:
    with pytest.raises(LayoutError) as caught:
        build_form(made(**tables))
    assert told in str(caught.value)
    assert "thinner ply" in str(caught.value)


# counts ----------------------------------------------------------------------


def test_the_spacer_stick_is_the_gluing_distance(forms: list[tuple[str, Bellows, Form]]) -> None:
    for name, bellows, form in forms:
        stick = part(form, "form-spacer")
        left, _, right, _ = stick.outline.bounds()
        assert right - left == pytest.approx(bellows.gluing_distance, abs=0.01), name
        marks = [line.points[0][0] for line in stick.lines]
        top = max(y for _, y in stick.points)
        notches = [x for x, y in stick.points if 0 < y < top - 1]
        assert sorted(notches) == pytest.approx(sorted(marks), abs=0.01), name
        assert len(marks) == bellows.valleys
        assert gaps(marks) == pytest.approx([bellows.valley_pitch] * (len(marks) - 1), abs=0.01)


def test_counts(forms: list[tuple[str, Bellows, Form]]) -> None:
    for name, _, form in forms:
        counts = {one.kind: sum(two.count for two in form.parts if two.kind == one.kind) for one in form.parts}
        assert counts["form-comb"] == sum(len(segment.places) for segment in form.segments), name
        assert counts["form-side"] == len(form.segments)
        assert counts["form-end"] == 2
        assert form.key == form.steps[3].piece
        assert len({one.id for one in form.parts}) == len(form.parts)

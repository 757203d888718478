"""What every cut outline owes: no crossing lines, true areas, the symmetry of the part, laps that fit."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st
from shapely import LineString, MultiLineString, Point, Polygon
from shapely.affinity import scale, translate
from shapely.geometry.base import BaseGeometry

from bellowscut.bellows import Bellows
from bellowscut.drawing import Role
from bellowscut.parts import make_parts
from bellowscut.parts.card import card_corners, card_outline
from bellowscut.parts.gusset import gusset_shape
from bellowscut.shapes import FLATTEN, Outline, polygon, rounded
from tests.invariants.instruments import Instrument, Length, instruments
from tests.space import cards

SAME = 1e-3
"""Area by which two outlines may differ and still be the same [mm^2]: points are kept to 0.00001 mm."""


def area_between(one: BaseGeometry, other: BaseGeometry) -> float:
    return float(one.symmetric_difference(other).area)


@given(instruments())
def test_outlines_are_sound_and_counter_clockwise(instrument: Instrument) -> None:
    for part in make_parts(instrument.build()):
        drawn = Polygon(part.points)
        assert drawn.is_valid, f"{part.id} crosses itself"
        assert drawn.exterior.is_ccw
        assert part.area == pytest.approx(drawn.area, abs=1e-6)
        for hole in part.holes:
            assert drawn.contains(Polygon(hole.flattened()))


@given(instruments())
def test_listed_points_follow_the_true_arcs(instrument: Instrument) -> None:
    """Chords stay within the flattening of the arcs, so the area of the points falls short by no more than that all round."""
    for part in make_parts(instrument.build()):
        assert abs(part.outline.area() - part.area) <= FLATTEN * part.cut_length
        fine = Polygon(part.outline.flattened(1e-5))
        assert fine.exterior.hausdorff_distance(Polygon(part.points).exterior) <= FLATTEN + 2e-5


@given(instruments())
def test_folds_lie_on_the_part(instrument: Instrument) -> None:
    for part in make_parts(instrument.build()):
        room = Polygon(part.points).buffer(1e-3)
        for line in part.lines:
            if line.role is Role.CREASE:
                assert room.contains(LineString(line.points)), part.id


@given(instruments())
def test_gussets_are_alike_left_and_right_and_plain_ones_up_and_down(instrument: Instrument) -> None:
    for part in make_parts(instrument.build()):
        if part.kind in ("gusset", "end-gusset", "half-gusset"):
            drawn = Polygon(part.points)
            marks = MultiLineString([line.points for line in part.lines])
            assert area_between(drawn, scale(drawn, -1, 1, origin=(0, 0))) < SAME
            assert marks.hausdorff_distance(scale(marks, -1, 1, origin=(0, 0))) < 1e-6
            if part.kind == "gusset":
                assert area_between(drawn, scale(drawn, 1, -1, origin=(0, 0))) < SAME


@given(instruments(options=False), st.integers(0, 470), st.integers(0, 470))
def test_radii_too_large_to_fit_leave_a_part_as_symmetric_as_it_was(instrument: Instrument, tip: int, point: int) -> None:
    round_off = {"tip_radius": Length(tip), "point_radius": Length(point)}
    bellows = instrument.changed("gusset", **round_off).changed("card", ridge_radius=Length(tip), valley_radius=Length(point)).build()
    for corner in bellows.corners:
        drawn = Polygon(gusset_shape(bellows, corner, "gusset")[0].flattened(1e-4))
        assert drawn.is_valid
        assert area_between(drawn, scale(drawn, -1, 1, origin=(0, 0))) < SAME
        assert area_between(drawn, scale(drawn, 1, -1, origin=(0, 0))) < SAME
    if instrument.tables["section"]["shape"] in ("regular", "rectangle"):
        for i in range(bellows.section.count):
            drawn = Polygon(card_outline(bellows, i)[0].flattened(1e-4))
            assert drawn.is_valid
            assert area_between(drawn, scale(drawn, -1, 1, origin=(0, 0))) < SAME


@given(instruments())
def test_an_end_gusset_is_a_gusset_whose_frame_tip_runs_on(instrument: Instrument) -> None:
    bellows = instrument.build()
    spec = bellows.profile.gusset
    for corner in bellows.corners:
        plain, end = (Polygon(gusset_shape(bellows, corner, kind)[0].flattened()) for kind in ("gusset", "end-gusset"))
        below = Polygon([(-500, -500), (500, -500), (500, 0), (-500, 0)])
        assert area_between(plain.intersection(below), end.intersection(below)) < SAME
        assert end.bounds[3] - plain.bounds[3] == pytest.approx(spec.frame_turn - spec.ridge_turn, abs=1e-6)


@given(instruments())
def test_a_mirror_image_mirrored_is_the_part_again(instrument: Instrument) -> None:
    for part in make_parts(instrument.build()):
        seen = part.mirrored()
        assert area_between(Polygon(seen.points), scale(Polygon(part.points), -1, 1, origin=(0, 0))) < SAME
        assert seen.side != part.side
        again = seen.mirrored()
        assert (again.outline, again.holes, again.lines, again.side) == (part.outline, part.holes, part.lines, part.side)


@st.composite
def outlines(draw: st.DrawFn) -> Outline:
    """Any convex polygon with some corners rounded, put anywhere."""
    count = draw(st.integers(3, 9))
    angles = [2 * math.pi * (k + draw(st.floats(-0.3, 0.3))) / count for k in range(count)]
    points = [(60 * math.cos(a), 40 * math.sin(a)) for a in angles]
    outline, _ = rounded(points, [draw(st.floats(0, 50)) for _ in points])
    return outline.moved(draw(st.floats(-99, 99)), draw(st.floats(-99, 99)))


@given(outlines())
def test_rounding_only_takes_away_and_areas_hold_arcs(outline: Outline) -> None:
    fine = Polygon(outline.flattened(1e-6))
    assert fine.is_valid
    assert outline.area() == pytest.approx(fine.area, rel=1e-6)
    assert fine.area <= fine.convex_hull.area * (1 + 1e-9), "an arc bends outwards"
    assert fine.convex_hull.area == pytest.approx(fine.area, rel=1e-9)


@given(outlines(), st.floats(-720, 720))
def test_moving_turning_and_mirroring_change_no_area(outline: Outline, angle: float) -> None:
    for moved in (outline.turned(angle), outline.mirrored(), outline.moved(3, -4)):
        assert moved.area() == pytest.approx(outline.area(), rel=1e-9)
        assert Polygon(moved.flattened()).exterior.is_ccw
    assert outline.mirrored().mirrored() == outline
    back = outline.turned(angle).turned(-angle)
    assert [c for p in back.points for c in p] == pytest.approx([c for p in outline.points for c in p], abs=1e-9)


@given(instruments())
def test_cards_keep_the_gaps_of_the_fold_lines(instrument: Instrument) -> None:
    """Two cards laid ridge to ridge, then valley to valley, stand their gaps apart; legs keep their lines."""
    bellows = instrument.build()
    for i in range(bellows.section.count):
        card = Polygon(card_corners(bellows, i))
        other = scale(card, 1, -1, origin=(0, 0))
        assert card.distance(other) == pytest.approx(bellows.ridge_gap, abs=1e-9)
        across = scale(card, 1, -1, origin=(0, bellows.depth))
        assert card.distance(across) == pytest.approx(bellows.valley_gap, abs=1e-9)


def laps_on_card(bellows: Bellows, side: int) -> list[Polygon]:
    """What the two gussets of a card cover of it, in the card's own plane, x along the ridge line from the corner before.

    A gusset is laid flat on the card: its opening's edge on the card's leg, its lap over the card.
    """
    placed = cards.ring(bellows.section.ridge, bellows.depth, bellows.corner_gap, bellows.relief, bellows.stretch)
    flat = placed.flat[side]
    found = []
    for index, at_ridge, at_valley, way in ((side, flat[0], flat[3], 1), ((side + 1) % placed.count, flat[1], flat[2], -1)):
        corner = bellows.corners[index]
        outline, _ = gusset_shape(bellows, corner, "gusset")
        wide, height = corner.opening(bellows.stretch) / 2, corner.half_height(bellows.stretch)
        upper = Polygon(outline.flattened()).intersection(Polygon([(-500, 0), (500, 0), (500, 500), (-500, 500)]))
        lap = upper.intersection(
            Polygon([(wide, 0), (500, 0), (500, 500), (corner.gap / 2 + (corner.gap / 2 - wide) / height * (500 - height), 500)])
        )
        leg = cards.unit(at_ridge - at_valley)
        inward = (-leg[1] * way, leg[0] * way)
        run = math.hypot(wide - corner.gap / 2, height)
        p, q = (corner.gap / 2 - wide) / run, height / run
        found.append(
            Polygon(
                [
                    (
                        at_valley[0] + ((x - wide) * p + y * q) * leg[0] + ((x - wide) * q - y * p) * inward[0],
                        at_valley[1] + ((x - wide) * p + y * q) * leg[1] + ((x - wide) * q - y * p) * inward[1],
                    )
                    for x, y in lap.exterior.coords
                ]
            )
        )
    return found


@given(instruments(options=False))
def test_gusset_laps_leave_bare_card_between_them(instrument: Instrument) -> None:
    bellows = instrument.build()
    for side in range(bellows.section.count):
        left, right = laps_on_card(bellows, side)
        card = translate(Polygon(card_corners(bellows, side)), _middle(bellows, side), 0)
        assert left.intersection(card).area > 0
        assert right.intersection(card).area > 0
        assert left.intersection(card).distance(right.intersection(card)) > 0


def _middle(bellows: Bellows, side: int) -> float:
    placed = cards.ring(bellows.section.ridge, bellows.depth, bellows.corner_gap, bellows.relief, 0).flat[side]
    share = bellows.ridge_gap / 2 / bellows.depth
    left, right = (placed[a][0] + (placed[b][0] - placed[a][0]) * share for a, b in ((0, 3), (1, 2)))
    return float(left + right) / 2


@given(instruments(options=False))
def test_a_facing_glued_first_keeps_its_margin_all_round(instrument: Instrument) -> None:
    bellows = instrument.changed("facing", order="first", span="card", margin=Length(12)).build()
    parts = [part for part in make_parts(bellows) if part.kind == "facing" and not part.id.endswith("-left")]
    for part in parts:
        card = Polygon(card_corners(bellows, bellows.section.side_names.index(part.sides[0])))
        for x, y in part.points:
            assert card.exterior.distance(Point(x, y)) == pytest.approx(Length(12).mm, abs=1e-5)
            assert card.contains(Point(x, y))


@given(instruments())
def test_a_pair_of_facings_is_two_single_ones_joined_at_the_valley(instrument: Instrument) -> None:
    """Mirror-alike about the valley line, and ending where the single one does."""
    single = instrument.changed("facing", span="card").build()
    pair = instrument.changed("facing", span="pair").build()
    if not pair.valleys:
        return
    for double in (part for part in make_parts(pair) if part.kind == "facing" and "pair" in part.name):
        drawn = Polygon(double.points)
        assert area_between(drawn, scale(drawn, 1, -1, origin=(0, pair.depth))) < SAME
        alone = next(
            part for part in make_parts(single) if part.kind == "facing" and double.sides[0] in part.sides and not part.id.endswith("-left")
        )
        # A pair reaches into the fold, so that its valley gap is wider, which only a facing glued first ends by.
        if instrument.tables.get("facing", {}).get("order") != "first":
            assert Polygon(alone.points).difference(drawn.buffer(0.01)).area < SAME


@given(instruments())
def test_a_run_is_its_side_s_cards_edge_to_edge(instrument: Instrument) -> None:
    """A scored board's area is that of its cards with no gaps between them, less what the frame gap trims at each end."""
    bellows = instrument.changed("card", build="run", ridge_radius=Length(0), valley_radius=Length(0)).build()
    for part in (part for part in make_parts(bellows) if part.kind == "card-run"):
        side = bellows.section.side_names.index(part.sides[0])
        flat = cards.ring(bellows.section.ridge, bellows.depth, bellows.corner_gap, bellows.relief, 0).flat[side]
        trim = (bellows.valley_gap if bellows.valley_ends else bellows.ridge_gap) / 2
        at_end, other = ((flat[2][0] - flat[3][0]), (flat[1][0] - flat[0][0]))[:: 1 if bellows.valley_ends else -1]
        lost = trim * (at_end + (other - at_end) * trim / (2 * bellows.depth))
        assert part.area == pytest.approx(bellows.cards_per_side * Polygon(flat).area - 2 * lost, abs=0.01)
        assert len(part.lines) + sum(line.role is Role.CREASE for line in part.back) >= bellows.cards_per_side - 1
        assert polygon(part.points).points == part.points

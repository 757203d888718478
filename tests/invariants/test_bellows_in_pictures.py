"""The bellows of the pictures, whole: its cards where rigid cards stand, its edges glued, its leather never stretched, and its hidden faces hidden."""

from __future__ import annotations

import itertools
import math
import random

import numpy as np
import pytest
from hypothesis import given, strategies as st

from bellowscut.bellows import Bellows, build
from bellowscut.drawing import Tint
from bellowscut.pages.bellows_space import BellowsSpace, Facet, State, states
from bellowscut.pages.corner_space import Space
from bellowscut.pages.frame_space import frame_faces
from bellowscut.pages.hidden import Eye, Painted, painted
from bellowscut.profile import load, loads, shipped
from bellowscut.shapes import Point, bounds
from tests.conftest import FIVE_LINES
from tests.invariants.instruments import Instrument, instruments
from tests.space import cards, leather
from tests.space.rays import Body, sight

GLUE = 0.01
"""How well edges that are glued to each other must agree [mm]."""

RULER = 1e-6

RIM = 1e-4
"""Nearer to the edge of a face than this share of it a ray decides nothing."""

STATES = range(3)


def space_of(bellows: Bellows, which: int) -> BellowsSpace:
    return BellowsSpace(bellows, states(bellows)[which])


def ring_of(space: BellowsSpace) -> cards.Ring:
    bellows = space.bellows
    return cards.ring(bellows.section.ridge, bellows.depth, bellows.corner_gap, bellows.relief, math.degrees(space.state.angle))


def all_facets(space: BellowsSpace) -> list[Facet]:
    """Every face, by walking the rings and the frames."""
    found = []
    for height, up, frame_at in space.rings():
        for band in space.ring(up=up, frame_at=frame_at):
            found += [facet.raised(height) for facet in (*band.cards, *itertools.chain(*band.gussets))]
    for upper in (False, True):
        for facets in frame_faces(space, upper=upper):
            found += facets
    return found


def near(p: Space, q: Space, within: float = GLUE) -> bool:
    return math.dist(p, q) <= within


# where things stand ----------------------------------------------------


@given(instruments(options=False), st.sampled_from(STATES))
def test_cards_stand_where_rigid_cards_stand(instrument: Instrument, which: int) -> None:
    space = space_of(instrument.build(), which)
    ring = ring_of(space)
    bands = space.ring(up=True)
    for side in range(space.count):
        placed = ring.placed[side]
        low, high = bands[0].cards[side].points, bands[-1].cards[side].points
        wanted = (cards.RIDGE_LEFT, cards.RIDGE_RIGHT, cards.VALLEY_RIGHT, cards.VALLEY_LEFT)
        for found, corner in zip((*low[:2], *high[2:]), wanted, strict=True):
            assert np.allclose(found, placed[corner], atol=RULER)
    for one, other in itertools.pairwise(bands):
        for below, above in zip(one.cards, other.cards, strict=True):
            assert near(below.points[3], above.points[0])
            assert near(below.points[2], above.points[1])


@given(instruments(options=False), st.sampled_from(STATES))
def test_the_length_told_is_that_of_the_cards(instrument: Instrument, which: int) -> None:
    bellows = instrument.build()
    space = space_of(bellows, which)
    assert space.state.length == pytest.approx(cards.stacked_length(ring_of(space), bellows.cards_per_side), abs=GLUE)
    assert space.length == pytest.approx(space.state.length, abs=RULER)
    heights = [z for facet in all_facets(space) if facet.name != "frame" for _, _, z in facet.points]
    assert min(heights) == pytest.approx(0.0, abs=RULER)
    assert max(heights) == pytest.approx(space.state.length, abs=RULER)
    if which == 2:
        assert space.state.length == bellows.open_length


@given(instruments(), st.sampled_from(STATES))
def test_edges_that_are_glued_agree(instrument: Instrument, which: int) -> None:
    """Gusset to both cards along the legs, ring to ring at ridges and valleys, first and last ring to the frames."""
    space = space_of(instrument.build(), which)
    edges: list[tuple[list[Space], list[Space]]] = []
    for height, up, frame_at in space.rings():
        bands = [
            [[facet.raised(height) for facet in facets] for facets in (band.cards, *band.gussets)]
            for band in space.ring(up=up, frame_at=frame_at)
        ]
        for card_facets, *corners in bands:
            for i, flaps in enumerate(corners):
                before, after = card_facets[i - 1], card_facets[i]
                # Counter-clockwise from outside: a card's right edge is its second and third point, its left one its fourth and first.
                points = [point for flap in flaps for point in flap.points]
                for corner in (before.points[1], before.points[2], after.points[0], after.points[3]):
                    assert any(near(corner, point) for point in points)
        edges.append((edge_at(bands[0], height), edge_at(bands[-1], height + space.rise)))
    for (_, top), (bottom, _) in itertools.pairwise(edges):
        assert len(top) == len(bottom)
        for one in top:
            assert any(near(one, other) for other in bottom)


def edge_at(band: list[list[Facet]], height: float) -> list[Space]:
    return [point for facets in band for facet in facets for point in facet.points if abs(point[2] - height) < RULER]


@given(instruments(options=False), st.sampled_from(STATES))
def test_leather_is_nowhere_longer_than_it_was_cut(instrument: Instrument, which: int) -> None:
    bellows = instrument.build()
    full, space = states(bellows)[2], space_of(bellows, which)
    flat_ring = cards.ring(bellows.section.ridge, bellows.depth, bellows.corner_gap, bellows.relief, math.degrees(full.angle))
    for index in range(space.count):
        sheet = leather.flattened(flat_ring, index)
        valley = [(x, y, space.rise) for x, y in space.valley_line(index)]
        run = list(itertools.accumulate((math.dist(p, q) for p, q in itertools.pairwise(valley)), initial=0.0))
        assert run[-1] == pytest.approx(sheet.valley, rel=2e-6), "at the valley it keeps its whole length"
        ridge_before, _, ridge_after, _ = ring_of(space).corner(index)
        for ridge, on_sheet in ((ridge_before, sheet.points[3]), (ridge_after, sheet.points[2])):
            for point, at in zip(valley, run, strict=True):
                assert math.dist(ridge, point) <= math.dist(on_sheet, (at - run[-1] / 2, 0.0)) + 1e-4
        # Flaps must not come out through the cards: they stay on the outer side of the straight line from leg to leg.
        (ax, ay), (bx, by) = valley[0][:2], valley[-1][:2]
        for x, y, _ in valley:
            assert (bx - ax) * (y - ay) - (by - ay) * (x - ax) <= RULER


# what is seen -------------------------------------------------------------


def holds(points: tuple[Point, ...], at: Point) -> bool:
    """Whether a polygon of the picture holds a point, by counting crossings."""
    inside = False
    for (ax, ay), (bx, by) in zip(points, (*points[1:], points[0]), strict=True):
        if (ay > at[1]) != (by > at[1]) and at[0] < ax + (at[1] - ay) * (bx - ax) / (by - ay):
            inside = not inside
    return inside


def wrong_points(bellows: Bellows, state: State, number: int, order: list[Painted] | None = None) -> list[str]:
    """Points of the picture where what is painted last is not what a ray meets first."""
    space = BellowsSpace(bellows, state)
    eye = Eye(space)
    faces = painted(space, eye) if order is None else order
    boxes = np.array([bounds(one.points) for one in faces])
    facets = all_facets(space)
    body = Body([facet.points for facet in facets])
    look = sight([eye.seen(point) for point in ((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))])
    # From a point of the picture to any point of its ray.
    to_space = np.linalg.pinv(np.array([eye.seen((1.0, 0.0, 0.0)), eye.seen((0.0, 1.0, 0.0)), eye.seen((0.0, 0.0, 1.0))]).T)
    left, low, right, high = bounds([point for one in faces for point in one.points])
    draw = random.Random(7)
    found, decided = [], 0
    for _ in range(number):
        at = (draw.uniform(left, right), draw.uniform(low, high))
        nearest = body.first(to_space @ np.array(at), look, RIM)
        if nearest is None:
            continue
        decided += 1
        around = np.flatnonzero((boxes[:, 0] <= at[0]) & (at[0] <= boxes[:, 2]) & (boxes[:, 1] <= at[1]) & (at[1] <= boxes[:, 3]))
        shown = next((faces[k].facet for k in reversed(around) if holds(faces[k].points, at)), None)
        expected = facets[nearest].points if nearest >= 0 else None
        if (shown.points if shown is not None else None) != expected:
            found.append(f"{at}: {shown and shown.name} for {facets[nearest].name if nearest >= 0 else 'nothing'}")
    assert decided > 0.8 * number
    return found


@pytest.mark.parametrize("which", STATES)
@pytest.mark.parametrize("name", shipped())
def test_hidden_faces_are_hidden(name: str, which: int) -> None:
    bellows = build(load(name))
    assert wrong_points(bellows, states(bellows)[which], 400) == []


@given(instruments(options=False), st.floats(0.0, 1.0))
def test_hidden_faces_are_hidden_on_any_instrument(instrument: Instrument, share: float) -> None:
    bellows = instrument.build()
    shut, _, wide = states(bellows)
    length = shut.length + (wide.length - shut.length) * share
    angle = math.asin(min(1.0, length / (bellows.cards_per_side * bellows.depth)))
    assert wrong_points(bellows, State("open", length, angle), 250) == []


@pytest.mark.parametrize("folds", [1, 13])
@pytest.mark.parametrize("ends", ["ridge", "valley"])
def test_one_fold_and_thirteen(folds: int, ends: str) -> None:
    bellows = build(loads(FIVE_LINES.replace("folds = 6", f'folds = {folds}\nends = "{ends}"')))
    for state in states(bellows):
        assert wrong_points(bellows, state, 300) == []


def test_a_wrong_order_is_noticed(six_fold: Bellows) -> None:
    state = states(six_fold)[1]
    space = BellowsSpace(six_fold, state)
    assert wrong_points(six_fold, state, 300, list(reversed(painted(space, Eye(space))))) != []


def test_the_eye_sees_side_a_and_the_first_end(six_fold: Bellows) -> None:
    """Side A is in the left half of what is seen, B to its right, and the first frame's rim on top."""
    space = space_of(six_fold, 2)
    eye = Eye(space)
    middle = [eye.turned((p[0] + q[0]) / 2, (p[1] + q[1]) / 2) for p, q in itertools.pairwise(six_fold.section.frame)]
    (ax, ay), (bx, by) = middle[:2]
    assert ax < 0 < bx
    assert ay < 0
    assert by < 0
    assert eye.seen((0.0, 0.0, 100.0))[1] > eye.seen((0.0, 0.0, 0.0))[1]


@pytest.mark.parametrize("name", ["six-sided-treble", "six-sided-valley-ends", "twelve-sided-deep"])
def test_end_strips_hold_the_first_and_the_last_cards(name: str) -> None:
    """Measured on the card from the frame's edge, as far as the strip laps over it."""
    bellows = build(load(name))
    space = space_of(bellows, 2)
    rings = [(height, space.ring(up=up, frame_at=frame_at)) for height, up, frame_at in space.rings()]
    for (height, bands), at_foot in ((rings[0], True), (rings[-1], False)):
        band = bands[0] if at_foot else bands[-1]
        frame = 0.0 if at_foot else space.length
        for card in band.cards:
            assert card.tint is Tint.STRIP
            ends = [point[2] + height for point in card.points]
            assert min(abs(end - frame) for end in ends) < RULER
            reach = max(abs(end - frame) for end in ends) / math.sin(math.radians(bellows.stretch))
            assert reach == pytest.approx(bellows.profile.end_strip.lap, abs=RULER)
    strips = {card.tint for _, bands in rings[1:-1] for card in (bands[0].cards[0], bands[-1].cards[0])}
    assert strips == {Tint.STRIP, Tint.CARD}


def test_of_two_corners_the_nearer_is_painted_later() -> None:
    """Should leather of one corner ever reach before another's: corners on the same side of the cards come the furthest first."""
    space = space_of(build(load("twelve-sided-deep")), 1)
    eye = Eye(space)
    height, up, frame_at = space.rings()[0]
    band = space.ring(up=up, frame_at=frame_at)[-1]
    corner_of = {facet.points: i for i, flaps in enumerate(band.gussets) for facet in flaps}
    turns = list(dict.fromkeys(corner_of[one.facet.points] for one in painted(space, eye) if one.facet.points in corner_of))
    assert height == 0.0
    assert len(turns) > space.count / 2
    depths = [eye.turned(*band.chords[i][0][:2])[1] for i in turns]
    falls = sum(after > before + RULER for before, after in itertools.pairwise(depths))
    assert falls <= 1, "once for the corners behind the cards, once for those before them"

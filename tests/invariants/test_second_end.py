"""A second end by corners: where it lay on the paper, which corner came first and from which side it was traced change nothing.

The second end is made here from the first by moving each side a known amount,
with shapely's half-planes, so that packing and section are known beforehand.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import assume, given, reject, strategies as st
from shapely import Point as Spot, Polygon

from bellowscut import ends, section
from bellowscut.bellows import Bellows
from bellowscut.errors import ProfileError, Refusal
from bellowscut.section import Frame
from bellowscut.shapes import Point
from tests.invariants.instruments import ridge_polygons

Make = Callable[..., Bellows]

SLIP = st.floats(-1, 1)
"""How far a side of the second end lies off the first [mm]."""

FIVE = ((0.0, 0.0), (118.0, 0.0), (156.0, 104.0), (64.0, 172.0), (-36.0, 108.0))
KITE = ((0.0, -90.0), (60.0, 0.0), (0.0, 50.0), (-60.0, 0.0))
"""Its own mirror image."""


def moved_sides(points: tuple[Point, ...], outward: tuple[float, ...]) -> tuple[Point, ...]:
    """The polygon with each side moved out by its amount: cut one half-plane after the other out of a large square."""
    left: Any = Polygon([(-9e3, -9e3), (9e3, -9e3), (9e3, 9e3), (-9e3, 9e3)])
    for i, out in enumerate(outward):
        (ax, ay), (bx, by) = points[i], points[(i + 1) % len(points)]
        long = math.dist((ax, ay), (bx, by))
        ux, uy = (bx - ax) / long, (by - ay) / long
        ax, ay = ax + uy * out, ay - ux * out
        corners = [(along * ux - far * uy, along * uy + far * ux) for along, far in ((-3e4, 0), (3e4, 0), (3e4, 3e4), (-3e4, 3e4))]
        left = left.intersection(Polygon([(ax + x, ay + y) for x, y in corners]))
    found = list(left.exterior.coords)[:-1]
    if len(found) != len(points):
        reject()
    if not left.exterior.is_ccw:
        found.reverse()
    nearest = min(range(len(found)), key=lambda k: math.dist(found[k], points[0]))
    return tuple(found[nearest:] + found[:nearest])


def on_paper(points: tuple[Point, ...], turn: float, shift: Point, start: int, outside: bool, backwards: bool) -> tuple[Point, ...]:
    """The same end as somebody else would trace it and list it."""
    hand = -1 if outside else 1
    found = [(hand * x, y) for x, y in points]
    cosine, sine = math.cos(turn), math.sin(turn)
    found = [(cosine * x - sine * y + shift[0], sine * x + cosine * y + shift[1]) for x, y in found]
    found = found[start:] + found[:start]
    return tuple(reversed(found) if backwards else found)


def own_likeness(points: tuple[Point, ...]) -> float:
    """How far the end is from lying on itself in any other way, turned or turned over [mm]."""
    count = len(points)
    found = []
    for outside in (False, True):
        seen = section.by_corners(on_paper(points, 0, (0, 0), 0, outside, False)).points
        for start in range(count):
            if not outside and start == 0:
                continue
            other = [Spot(p) for p in seen[start:] + seen[:start]]
            found.append(_least_gap(points, other))
    return min(found)


def _least_gap(points: tuple[Point, ...], other: list[Spot]) -> float:
    """Greatest difference of two polygons' diagonals, which no turn or shift can change [mm]."""
    pairs = [(i, k) for i in range(len(points)) for k in range(i)]
    return max(abs(math.dist(points[i], points[k]) - other[i].distance(other[k])) for i, k in pairs)


@given(ridge_polygons(), st.lists(SLIP, min_size=16, max_size=16), st.floats(-7, 7), st.integers(0, 15), st.booleans(), st.booleans(), SLIP)
def test_however_it_was_traced_the_section_is_the_same(
    points: tuple[Point, ...], slips: list[float], turn: float, start: int, outside: bool, backwards: bool, shift: float
) -> None:
    count = len(points)
    assume(own_likeness(points) > 16)
    other = moved_sides(points, tuple(slips[:count]))
    centre, there = Polygon(points).centroid, Polygon(other).centroid
    traced = on_paper(other, turn, (900 * shift, 300), start % count, outside, backwards)
    first = section.by_corners(points)
    laid = ends.laid_on(first, section.by_corners(traced))
    assert laid.mirrored == outside
    made = section.section(first, laid.frame, 0)
    # Sides keep their directions, so that the middle is each side half-way, and packing half of what the sides lie apart.
    wanted = [(math.dist(a, b) + math.dist(c, d)) / 2 for a, b, c, d in _sides(points, other)]
    assert made.sides == pytest.approx(wanted, abs=1e-6)
    assert made.misfit == 0
    apart = {}
    for i, (a, b, *_) in enumerate(_sides(points, other)):
        across = ((b[1] - a[1]) / math.dist(a, b), (a[0] - b[0]) / math.dist(a, b))
        apart[section.side_name(i)] = slips[i] + across[0] * (centre.x - there.x) + across[1] * (centre.y - there.y)
    packed = {side: gap / 2 for side, gap in apart.items() if abs(gap) / 2 > 0.0501}
    shown = {one.side: one.mm if one.end == "right" else -one.mm for one in made.packing if one.mm > 0.0501}
    assert shown == pytest.approx(packed, abs=1e-6)
    assert laid.apart == pytest.approx(max(map(abs, apart.values())), abs=1e-6)


def _sides(points: tuple[Point, ...], other: tuple[Point, ...]) -> list[tuple[Point, Point, Point, Point]]:
    count = len(points)
    return [(points[i], points[(i + 1) % count], other[i], other[(i + 1) % count]) for i in range(count)]


@given(st.integers(3, 12), st.lists(SLIP, min_size=24, max_size=24), st.booleans())
def test_an_end_that_is_its_own_mirror_image_is_never_turned_over(sides: int, slips: list[float], kite: bool) -> None:
    """Nearly: both ends are a millimetre off here and there, and now and then the mirror image is nearer by chance."""
    points = KITE if kite else section.regular(sides, 90, "side").points
    count = len(points)
    first, second = (section.by_corners(moved_sides(points, tuple(some))) for some in (slips[:count], slips[count : 2 * count]))
    assert not ends.laid_on(first, second).mirrored


@pytest.mark.parametrize(
    ("first", "second", "outside"),
    [
        # The second is the first's mirror image, and lies 2.28 and 0.74 mm off as listed.
        ((4.6, 0, 0, 0), (0, 0, 0, 4.6), True),
        ((1.5, 0, 0, 0), (0, 0, 0, 1.5), False),
        # 3.57 mm off as listed, its mirror image 1.19: nearer, but not three times.
        ((0, 0, 6, 3), (0, 3, 0, 3), False),
    ],
)
def test_the_mirror_image_has_to_be_clearly_nearer(first: tuple[float, ...], second: tuple[float, ...], outside: bool) -> None:
    right, left = (section.by_corners(moved_sides(KITE, moved)) for moved in (first, second))
    assert ends.laid_on(right, left).mirrored == outside


@given(st.floats(-7, 7), st.integers(0, 4))
def test_a_second_end_alike_packs_nothing(turn: float, start: int) -> None:
    first = section.by_corners(FIVE)
    laid = ends.laid_on(first, section.by_corners(on_paper(FIVE, turn, (30, -8), start, False, False)))
    made = section.section(first, laid.frame, 0)
    assert made.packing == ()
    assert made.sides == pytest.approx(section.side_lengths_of(FIVE), abs=1e-9)
    assert laid.relettered == (start != 0)


@pytest.mark.parametrize("outside", [False, True])
@pytest.mark.parametrize("backwards", [False, True])
@pytest.mark.parametrize("start", [0, 2])
def test_side_a_is_named_by_the_corners_as_they_were_listed(start: int, outside: bool, backwards: bool) -> None:
    traced = on_paper(FIVE, 0.3, (30, -8), start, outside, backwards)
    laid = ends.laid_on(section.by_corners(FIVE), section.by_corners(traced))
    wanted = [on_paper((corner,), 0.3, (30, -8), 0, outside, False)[0] for corner in FIVE[:2]]
    for found, corner in zip(sorted(laid.side_a), sorted(wanted), strict=True):
        assert found == pytest.approx(corner)


def test_listed_first_stays_first_where_another_side_would_do_as_well() -> None:
    """A rectangle lies on itself two ways, a square four: nobody is told of a turn that changes nothing."""
    for first, second in (((250, 120), (251, 120)), ((160, 160), (160.5, 160.5))):
        laid = ends.laid_on(section.rectangular(*first), section.rectangular(*second))
        assert not laid.relettered
        assert not laid.mirrored
    # One corner two hundredths out: turned half round the second end would lie on the first exactly.
    right = section.by_corners(((0.02, 0.0), (250.0, 0.0), (250.0, 120.0), (0.0, 120.0)))
    left = section.by_corners(((0.0, 0.0), (250.0, 0.0), (249.98, 120.0), (0.0, 120.0)))
    assert not ends.laid_on(right, left).relettered


def test_ends_that_no_packing_makes_alike_are_refused_by_name() -> None:
    first = section.rectangular(160, 120)
    assert ends.laid_on(first, section.rectangular(167.9, 120)).apart == pytest.approx(3.95)
    with pytest.raises(Refusal, match=r"side B .* 4\.05 mm .* at most 4\.00 mm") as refused:
        ends.laid_on(first, section.rectangular(168.1, 120))
    assert refused.value.quantity == "other_end"
    # A small end bears less: four per cent of its least width.
    small = section.rectangular(60, 50)
    assert ends.laid_on(small, section.rectangular(60, 53.9)).apart == pytest.approx(1.95)
    with pytest.raises(Refusal, match=r"side A .* 2\.05 mm .* at most 2\.00 mm"):
        ends.laid_on(small, section.rectangular(60, 54.1))


def test_a_tracing_turned_on_its_paper_makes_the_same_bellows(made: Make) -> None:
    other = ((0.0, 0.0), (118.4, 0.0), (156.2, 104.0), (64.0, 172.6), (-36.0, 108.0))
    spec = {"shape": "measured", "corners": [list(corner) for corner in FIVE]}
    plain = made(section={**spec, "other_end": [list(corner) for corner in other]})
    turned = on_paper(other, 0.2, (50, 12), 3, True, True)
    again = made(section={**spec, "other_end": [list(corner) for corner in turned]})
    assert again.section.sides == pytest.approx(plain.section.sides, abs=1e-6)
    assert again.closed_length == plain.closed_length


@pytest.mark.parametrize(
    ("key", "first", "other"),
    [
        ("corners", [list(corner) for corner in FIVE], [[0, 0], [100, 0], [130, 80], [50, 120], [-30, 80]]),
        ("flats", [158, 159, 160], [158, 168, 160]),
        ("side_lengths", [90, 91, 90, 90, 91, 90], [100, 101, 100, 100, 101, 100]),
    ],
)
def test_another_instruments_end_is_refused_by_its_own_key(made: Make, key: str, first: list[object], other: list[object]) -> None:
    with pytest.raises(ProfileError, match=r"section\.other_end: .* at most 4\.00 mm"):
        made(section={"shape": "measured", key: first, "other_end": other})


def test_frames_by_letters_are_not_turned() -> None:
    """Flats and side lengths are given by letter: only corners can be listed from another side."""
    first, second = Frame(section.by_flats((150, 153, 151)).points), Frame(section.by_flats((153, 151, 150)).points)
    ends.refuse_unlike(first, second)
    made = section.section(first, second, 0)
    assert section.flats_of(made.frame) == pytest.approx((151.5, 152, 150.5))

"""Pieces in rows: all of them, apart from each other, on few sheets. Distances are measured by shapely."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import pytest
from hypothesis import given, strategies as st
from shapely.geometry import Polygon

from bellowscut.errors import UsageError
from bellowscut.layout.clearance import clearing_shift, simplified, turned
from bellowscut.layout.rows import Piece, Placement, in_rows
from bellowscut.shapes import Point, rounded

CARD = rounded(((-44.7, 0), (44.7, 0), (27.95, 23.9), (-27.95, 23.9)), (0.5,) * 4)[0].flattened()
GUSSET = rounded(((12.85, 0), (3.2, 31.2), (-3.2, 31.2), (-12.85, 0), (-3.2, -31.2), (3.2, -31.2)), (3, 2, 2, 3, 2, 2))[0].flattened()
HINGE = ((0.0, -6.1), (87.4, -6.1), (87.4, 6.1), (0.0, 6.1))
ZIGZAG = ((-30.0, 0.0), (30.0, 0.0), (18.0, 25.0), (30.0, 50.0), (-30.0, 50.0), (-18.0, 25.0))

SHEET = (174.0, 224.0)


def lying(pieces: Sequence[Piece], put: Placement) -> Polygon:
    points = turned(pieces[put.piece].outline, put.turn)
    return Polygon([(x + put.x, y + put.y) for x, y in points])


def check(pieces: Sequence[Piece], placements: Sequence[Placement], size: tuple[float, float], gap: float) -> int:
    """Everything that must hold of any packing; returns the number of sheets."""
    assert sorted((put.piece, put.copy) for put in placements) == [
        (k, copy) for k, piece in enumerate(pieces) for copy in range(1, piece.copies + 1)
    ]
    sheets = max((put.sheet for put in placements), default=-1) + 1
    for sheet in range(sheets):
        here = [lying(pieces, put) for put in placements if put.sheet == sheet]
        assert here
        for shape in here:
            left, low, right, high = shape.bounds
            assert left > -1e-5
            assert low > -1e-5
            assert right < size[0] + 1e-5
            assert high < size[1] + 1e-5
        for one, other in itertools.combinations(here, 2):
            assert one.distance(other) >= gap - 1e-6
    for put in placements:
        assert put.turn in pieces[put.piece].turns
    return sheets


@pytest.mark.parametrize(
    ("pieces", "most"),
    [
        ([Piece("card", CARD, copies=84)], 6),
        ([Piece("gusset", GUSSET, copies=44)], 2),
        ([Piece("card", CARD, copies=30), Piece("gusset", GUSSET, copies=45), Piece("hinge", HINGE, copies=36)], 6),
        ([Piece("run", ZIGZAG, copies=12)], 2),
        ([Piece("hinge", HINGE, copies=7, turns=(90,)), Piece("card", CARD, copies=2, turns=(0,))], 1),
        ([Piece("card", CARD, copies=0), Piece("gusset", GUSSET, copies=1)], 1),
        ([], 0),
    ],
)
def test_everything_is_placed_once_and_apart(pieces: list[Piece], most: int) -> None:
    placements = in_rows(pieces, *SHEET, 3.0)
    assert check(pieces, placements, SHEET, 3.0) <= most


def test_cards_turned_end_for_end_share_a_row() -> None:
    """Boxes of 89 mm side by side need 182 mm; nested, two cards take 165."""
    placements = in_rows([Piece("card", CARD, copies=2)], 168.0, 27.0, 3.0)
    assert {put.sheet for put in placements} == {0}
    assert abs(placements[0].turn - placements[1].turn) == 180


def test_gussets_lie_in_the_gaps_of_the_row_below() -> None:
    """As boxes only 18 of these diamonds stand on the sheet."""
    pieces = [Piece("gusset", GUSSET, copies=45)]
    first = [put for put in in_rows(pieces, *SHEET, 3.0) if put.sheet == 0]
    assert len(first) >= 22


def test_groups_follow_each_other() -> None:
    pieces = [Piece("a", CARD, "first", 2), Piece("b", GUSSET, "second", 2), Piece("c", CARD, "first", 1)]
    order = [put.piece for put in in_rows(pieces, *SHEET, 3.0)]
    assert order.index(1) > max(order.index(0), order.index(2))


def test_pieces_of_like_height_keep_their_order() -> None:
    pieces = [Piece(str(k), ((0, 0), (150, 0), (150, 20 + 0.1 * k), (0, 20 + 0.1 * k)), turns=(0,)) for k in range(4)]
    assert [put.piece for put in in_rows(pieces, *SHEET, 3.0)] == [0, 1, 2, 3]


def test_the_same_pieces_lie_the_same_way() -> None:
    pieces = [Piece("card", CARD, copies=20), Piece("gusset", GUSSET, copies=20)]
    assert in_rows(pieces, *SHEET, 3.0) == in_rows(pieces, *SHEET, 3.0)


def test_a_piece_larger_than_the_sheet_is_refused_by_name() -> None:
    with pytest.raises(UsageError, match="hinge-long"):
        in_rows([Piece("hinge-long", ((0, 0), (300, 0), (300, 12), (0, 12)))], *SHEET, 3.0)
    assert in_rows([Piece("tall", ((0, 0), (200, 0), (200, 12), (0, 12)))], *SHEET, 3.0)[0].turn == 90


def random_polygon(numbers: Sequence[float]) -> tuple[Point, ...]:
    """A star-shaped polygon, often not convex, from radii [mm]."""
    count = len(numbers)
    return tuple((r * math.cos(2 * math.pi * k / count), r * math.sin(2 * math.pi * k / count)) for k, r in enumerate(numbers))


polygons = st.lists(st.floats(3.0, 40.0), min_size=3, max_size=9).map(random_polygon)


@given(polygons, polygons, st.floats(0.5, 6.0), st.floats(-30.0, 30.0))
def test_a_cleared_polygon_stands_at_the_gap_and_not_further(
    one: tuple[Point, ...], other: tuple[Point, ...], gap: float, up: float
) -> None:
    raised = [(x, y + up) for x, y in other]
    shift = clearing_shift(one, raised, gap)
    if shift == -math.inf:
        assert Polygon(one).distance(Polygon([(x + s, y) for x, y in raised for s in (0.0,)])) >= 0
        return
    there = Polygon([(x + shift, y) for x, y in raised])
    assert Polygon(one).distance(there) >= gap - 1e-6
    closer = Polygon([(x + shift - 0.01, y) for x, y in raised])
    assert Polygon(one).distance(closer) < gap


@given(polygons, st.floats(0.01, 2.0))
def test_a_simplified_polygon_stays_close(points: tuple[Point, ...], tolerance: float) -> None:
    fewer = simplified(points, tolerance)
    assert set(fewer) <= set(points)
    assert Polygon(points).exterior.hausdorff_distance(Polygon(fewer).exterior) <= tolerance + 1e-9 if len(fewer) > 2 else True

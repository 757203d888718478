"""Strips longer than the stock: lengths that fit, lap as they should, and join away from the corners."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given, strategies as st

from bellowscut.drawing import Role
from bellowscut.nesting.model import Stock
from bellowscut.parts.part import Part
from bellowscut.stock.scarf import SCARF, longest, split
from tests.stock.instruments import instrument


def strip(darts: bool = False) -> Part:
    one = instrument(f"[edge_strip]\ndarts = {str(darts).lower()}")
    return next(part for part in one.parts if part.kind == "edge-strip")


def length(part: Part) -> float:
    left, _, right, _ = shapely.Polygon(part.points).bounds
    return float(right - left)


@given(most=st.floats(45, 700))
def test_lengths_fit_and_lap_over_each_other(most: float) -> None:
    whole = strip()
    lengths = split(whole, most)
    assert all(length(part) <= most + 1e-9 for part in lengths)
    # Each joint takes one lap more leather than the strip itself.
    assert sum(map(length, lengths)) == pytest.approx(length(whole) + SCARF * (len(lengths) - 1))
    assert sum(part.area for part in lengths) == pytest.approx(whole.area + SCARF * (len(lengths) - 1) * whole.area / length(whole))
    # One length fewer could not do it.
    fewer = len(lengths) - 1
    assert fewer * most - (fewer - 1) * SCARF < length(whole) + 1e-6


@pytest.mark.parametrize("most", [165.0, 300.0])
def test_joints_keep_off_the_corners_where_they_can(most: float) -> None:
    # Four even lengths would be joined within 4 mm of two corners.
    whole = strip()
    corners = [line.points[0][0] for line in whole.lines if line.role is Role.MARK and line.points[0][0] == line.points[1][0]]
    assert len(corners) == 6
    start = 0.0
    for part in split(whole, most)[:-1]:
        joint = start + length(part) - SCARF / 2
        assert min(abs(joint - corner) for corner in corners) >= SCARF / 2
        start = joint - SCARF / 2


def test_lengths_keep_their_marks_and_their_darts() -> None:
    whole = strip(darts=True)
    lengths = split(whole, 300)
    assert len(lengths) == 2
    marks = [sum(1 for line in part.lines if line.role is Role.MARK and line.points[0][0] == line.points[1][0]) for part in lengths]
    assert sum(marks) == 6
    # A notch at each corner: three more points on either edge for each.
    assert sum(len(part.points) for part in lengths) == len(whole.points) + 4
    first, second = (shapely.Polygon(part.points) for part in lengths)
    again = first.union(shapely.affinity.translate(second, length(whole) - second.bounds[2]))
    assert again.symmetric_difference(shapely.Polygon(whole.points)).area < 1e-6


def test_both_ends_of_a_joint_are_pared() -> None:
    first, second = split(strip(), 300)
    pared = [
        sorted(line.points[0][0] for line in part.lines if line.role is Role.SKIVE and line.points[0][0] == line.points[1][0])
        for part in (first, second)
    ]
    assert pared[0][-1] == pytest.approx(length(first) - SCARF)
    assert pared[1][0] == pytest.approx(SCARF)


def test_a_strip_that_fits_is_left_whole() -> None:
    whole = strip()
    assert split(whole, length(whole)) == (whole,)


def test_the_longest_strip_is_found_beside_a_flaw() -> None:
    whole = strip()
    wide = shapely.Polygon(whole.points).bounds[3] * 2
    flaw = ((290.0, -1.0), (300.0, -1.0), (300.0, wide + 11), (290.0, wide + 11))
    sheet = ((0.0, 0.0), (500.0, 0.0), (500.0, wide + 10), (0.0, wide + 10))
    stock = Stock("s", sheet, (flaw,), margin=5, flaw_gap=1)
    # From the margin to a millimetre before the flaw.
    assert longest([stock], whole, (0.0, 180.0)) == pytest.approx(290 - 1 - 5, abs=1.0)
    assert longest([Stock("r", width=wide + 10, margin=5)], whole, (0.0,)) > 1e9
    assert longest([Stock("r", width=wide + 9, margin=5)], whole, (0.0,)) == 0

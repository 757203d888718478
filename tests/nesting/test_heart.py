"""Where a skin leaves room to spare, the leather about its backbone is taken; a sheet keeps its rest in one piece."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely

from bellowscut.nesting.engine import lay_out
from bellowscut.nesting.model import AnyTurn, Order, Result, Shape, Stock
from bellowscut.stock.outlines import usual_outline

RHOMB = Shape("gusset", ((0.0, 0.0), (31.0, -12.0), (62.0, 0.0), (31.0, 12.0)), AnyTurn(90.0, 10.0), "gusset")
STRIP = Shape("strip", ((0.0, 0.0), (420.0, 0.0), (420.0, 18.0), (0.0, 18.0)), (0.0, 180.0), "strip")

OUTLINE = usual_outline(460_000.0)
MIDDLE = shapely.Polygon(OUTLINE).centroid
SKIN = Stock("skin", OUTLINE, (), 5.0, 1.0, 1.0, heart=(MIDDLE.x, MIDDLE.y))


def drawn(result: Result, orders: list[Order]) -> shapely.MultiPolygon:
    """All pieces where they lie."""
    shapes = {order.shape.id: order.shape for order in orders}
    return shapely.MultiPolygon([shapely.Polygon(one.moved(shapes[one.part].points)) for one in result.placements])


@pytest.mark.parametrize(
    "orders", [[Order(RHOMB, 48)], [Order(RHOMB, 200)], [Order(STRIP, 6), Order(RHOMB, 30)]], ids=["few", "many", "two"]
)
def test_pieces_lie_about_the_backbone(orders: list[Order]) -> None:
    result = lay_out([SKIN], orders, 0.5)
    assert result.unplaced == ()
    pieces = drawn(result, orders)
    _, low, _, high = pieces.bounds
    _, bottom, _, top = shapely.Polygon(OUTLINE).bounds
    share = pieces.area / shapely.Polygon(OUTLINE).area
    # The flanks stay free: what a square window of a loose fill needs, and a piece more at either side.
    assert max(high - MIDDLE.y, MIDDLE.y - low) < (top - bottom) / 2 * (share / 0.5) ** 0.5 + 24.0
    assert abs(pieces.centroid.y - MIDDLE.y) < 25.0
    assert abs(pieces.centroid.x - MIDDLE.x) < 60.0
    # Without a heart the same pieces lie at one end.
    aside = drawn(lay_out([replace(SKIN, heart=None)], orders, 0.5), orders)
    assert aside.centroid.distance(MIDDLE) > 2 * pieces.centroid.distance(MIDDLE)


def test_a_skin_that_is_needed_whole_is_filled_as_before() -> None:
    orders = [Order(RHOMB, None)]
    assert lay_out([SKIN], orders, 0.2) == lay_out([replace(SKIN, heart=None)], orders, 0.2)


def test_what_fits_no_window_is_laid_on_all_of_the_skin() -> None:
    length = float(np.ptp(np.array(OUTLINE)[:, 0])) - 60.0
    strip = Shape("strip", ((0.0, 0.0), (length, 0.0), (length, 18.0), (0.0, 18.0)), (0.0, 180.0), "strip")
    assert lay_out([SKIN], [Order(strip, 2)], 0.2).unplaced == ()

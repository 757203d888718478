"""Where everything finds a place, it lies together, so that what is left is in one piece."""

from __future__ import annotations

import shapely

from bellowscut.nesting.engine import lay_out
from bellowscut.nesting.model import Order, Shape, Stock

STOCK = Stock(
    "skin",
    ((0.0, 120.0), (200.0, 0.0), (800.0, 0.0), (960.0, 200.0), (960.0, 450.0), (800.0, 640.0), (200.0, 640.0), (0.0, 520.0)),
    margin=5,
    gap=1,
)


def strip(name: str, length: float, width: float) -> Shape:
    return Shape(name, ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width)), (0.0, 180.0))


def test_strips_of_two_sorts_lie_side_by_side() -> None:
    orders = [Order(strip("edge", 554, 18), 6), Order(strip("end", 560, 25), 2)]
    result = lay_out([STOCK], orders, 1.0)
    shapes = {order.shape.id: order.shape for order in orders}
    pieces = shapely.MultiPolygon([shapely.Polygon(placement.moved(shapes[placement.part].points)) for placement in result.placements])
    assert len(pieces.geoms) == 8
    # Rows of each sort at an end of its own would span more than twice the pieces.
    assert pieces.convex_hull.area < 1.2 * pieces.area

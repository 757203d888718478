"""Does a layout keep every rule? Written apart from the packers and sharing no geometry with them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np
import shapely
from shapely import STRtree

from bellowscut.nesting.model import Order, Placement, Result, Stock
from bellowscut.words import nesting as words, say

TOLERANCE = 1e-6
"""How much less than a wanted distance still passes [mm]: rounding, not play."""


def faults(stocks: Sequence[Stock], orders: Sequence[Order], result: Result) -> tuple[str, ...]:
    """Every rule that a layout breaks, one sentence each; empty when it is sound.

    Parameters
    ----------
    stocks : sequence of Stock
        What the pieces are cut from.
    orders : sequence of Order
        What was asked for.
    result : Result
        The layout.

    Returns
    -------
    tuple of str
        Sentences naming stock and pieces.
    """
    known = {stock.id: stock for stock in stocks}
    shapes = {order.shape.id: order.shape for order in orders}
    found: list[str] = []
    groups: dict[str, list[tuple[int, Placement]]] = {}
    for number, placement in enumerate(result.placements):
        if placement.stock not in known or placement.part not in shapes:
            found.append(say(words.PIECE_OF_NOTHING, number=number, stock=placement.stock, part=placement.part))
            continue
        if not shapes[placement.part].allows(placement.turn):
            found.append(say(words.PIECE_TURN, number=number, part=placement.part, turn=placement.turn))
        groups.setdefault(placement.stock, []).append((number, placement))
    lengths = dict(result.lengths)
    for name, members in groups.items():
        polygons = shapely.polygons([shapely.linearrings(p.moved(shapes[p.part].points)) for _, p in members])
        numbers = [number for number, _ in members]
        kinds = np.array([shapes[p.part].kind for _, p in members])
        found += _on_stock(known[name], polygons, kinds, numbers, lengths.get(name))
    return tuple(found + _counts(orders, result))


def _counts(orders: Sequence[Order], result: Result) -> list[str]:
    """Pieces laid and left over must add up to the order."""
    laid = Counter(placement.part for placement in result.placements)
    left = dict(result.unplaced)
    found = []
    wanted: Counter[str] = Counter()
    open_ended: set[str] = set()
    for order in orders:
        wanted[order.shape.id] += order.count or 0
        if order.count is None:
            open_ended.add(order.shape.id)
    for part, count in wanted.items():
        total = laid[part] + left.get(part, 0)
        if total != count and not (part in open_ended and total > count):
            found.append(say(words.COUNT_IS_WRONG, part=part, laid=laid[part], left=left.get(part, 0), count=count))
    return found


def _on_stock(stock: Stock, polygons: np.ndarray, kinds: np.ndarray, numbers: list[int], length: float | None) -> list[str]:
    """Rules of one piece of stock."""
    found = []
    tree = STRtree(polygons)
    if stock.gap > TOLERANCE:
        one, other = tree.query(polygons, predicate="dwithin", distance=stock.gap - TOLERANCE)
    else:
        one, other = tree.query(polygons, predicate="intersects")
    for i, j in zip(one.tolist(), other.tolist(), strict=True):
        if i < j and (stock.gap > TOLERANCE or _overlap(polygons[i], polygons[j])):
            found.append(say(words.PIECES_TOO_CLOSE, id=stock.id, one=numbers[i], other=numbers[j], gap=stock.gap))
    if stock.width is None:
        area = shapely.Polygon(stock.outline)
    elif length is None:
        return [*found, say(words.LENGTH_USED_MISSING, id=stock.id)]
    else:
        area = shapely.box(0, 0, length, stock.width)
    outside = ~shapely.covers(area.buffer(TOLERANCE, join_style="mitre"), polygons)
    near = shapely.dwithin(polygons, area.exterior, stock.margin - TOLERANCE) if stock.margin > TOLERANCE else np.zeros(len(polygons), bool)
    found.extend(say(words.PIECE_OUTSIDE_MARGIN, id=stock.id, number=numbers[i]) for i in np.flatnonzero(outside | near))
    for flaw in stock.flaws:
        found += _clear_of(shapely.Polygon(flaw), polygons, numbers, stock.flaw_gap, words.PIECE_NEAR_FLAW, id=stock.id)
    for kind, zones in stock.barred.items():
        chosen = np.flatnonzero(kinds == kind)
        for zone in zones:
            found += _clear_of(
                shapely.Polygon(zone), polygons[chosen], [numbers[i] for i in chosen], 0.0, words.PIECE_WHERE_BARRED, id=stock.id, kind=kind
            )
    return found


def _overlap(one: shapely.Polygon, other: shapely.Polygon) -> bool:
    """Whether two pieces share more than a rounding sliver: depth is judged by shrinking both."""
    return bool(one.buffer(-TOLERANCE, join_style="mitre").intersects(other.buffer(-TOLERANCE, join_style="mitre")))


def _clear_of(zone: shapely.Polygon, polygons: np.ndarray, numbers: list[int], gap: float, text: str, **values: str) -> list[str]:
    """What to say of each piece that is nearer to a zone than the gap [mm]."""
    if gap > TOLERANCE:
        near = np.flatnonzero(shapely.dwithin(polygons, zone, gap - TOLERANCE))
        return [say(text, number=numbers[i], **values) for i in near]
    near = np.flatnonzero(shapely.intersects(polygons, zone))
    return [say(text, number=numbers[i], **values) for i in near if _overlap(polygons[i], zone)]

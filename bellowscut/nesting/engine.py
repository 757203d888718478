"""The way in: stocks and orders to the best layout that a budget of work finds.

Several ways are tried, each result is verified by code of its own, the best is kept. The budget is counted work, so the same input gives the
same layout on an idle machine and on a busy one.
"""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.nesting.budget import Budget, Progress
from bellowscut.nesting.field import Field, laid_area
from bellowscut.nesting.fill_mixed import Wanted, fill_field
from bellowscut.nesting.greedy import Laid
from bellowscut.nesting.model import Order, Placement, Result, Stock
from bellowscut.nesting.nofit import pose
from bellowscut.nesting.roll import shortest
from bellowscut.nesting.verify import faults
from bellowscut.shapes import signed_area
from bellowscut.words import nesting as words, say

UNITS_A_SECOND = 1200.0
"""Units of work in a second of the caller's patience [1/s]."""

PATTERNS = 800.0
"""Work of looking for the patterns of a convex shape [-]; several convex parts take as many times as long, at most 0.3 of all."""


def lay_out(stocks: Sequence[Stock], orders: Sequence[Order], seconds: float = 10.0, progress: Progress | None = None) -> Result:
    """Lay pieces out on stocks, on as few of them or on as short a roll as is found.

    Parameters
    ----------
    stocks : sequence of Stock
        Stocks in the order in which they would be used.
    orders : sequence of Order
        What is wanted. Shapes of one order without a count are laid as often as they fit, after all others.
    seconds : float
        How long the search may take, about [s]; more than 0. It is turned into counted work.
    progress : callable or None
        Is told the share of the work done [-], 0 to 1, never less than before; it has no say in the layout.

    Returns
    -------
    Result
        A layout that keeps every rule; what did not fit is in `unplaced`.

    Raises
    ------
    ValueError
        For two stocks or two shapes of the same id, no positive number of seconds, or an order for as many pieces as fit on a roll.
    RuntimeError
        When the layout breaks a rule after all: it is never handed out.
    """
    _check(stocks, orders, seconds)
    wanted = _merged(orders)
    budget = Budget(seconds * UNITS_A_SECOND, progress)
    parts = sum(len(pose(want.shape, 0.0).parts) for want in wanted)
    budget.aside = min(PATTERNS, budget.left * 0.3 / max(1, parts))
    budget.spend(budget.aside * parts)
    if len(stocks) == 1 and not stocks[0].is_roll:
        field = Field(stocks[0])
        laid, method = fill_field(field, wanted, budget)
        sheets: list[Sheet] = [(stocks[0], laid, None)]
    else:
        sheets, method = _several(stocks, wanted, budget)
    result = _result(sheets, wanted, method)
    broken = faults(stocks, orders, result)
    if broken:
        raise RuntimeError(say(words.LAYOUT_BREAKS_A_RULE, rule=broken[0]))
    budget.close()
    return result


Sheet = tuple[Stock, Laid, float | None]


def _check(stocks: Sequence[Stock], orders: Sequence[Order], seconds: float) -> None:
    if len({stock.id for stock in stocks}) < len(stocks):
        raise ValueError(say(words.STOCK_ID_TWICE))
    shapes = {order.shape.id: order.shape for order in orders}
    if any(shapes[order.shape.id] != order.shape for order in orders):
        raise ValueError(say(words.SHAPE_ID_TWICE))
    if not seconds > 0:
        raise ValueError(say(words.SECONDS_NOT_POSITIVE, seconds=seconds))
    if any(stock.is_roll for stock in stocks) and any(order.count is None for order in orders):
        raise ValueError(say(words.ENDLESS_ON_ROLL))


def _merged(orders: Sequence[Order]) -> list[Wanted]:
    """One entry a shape, the largest first, those without a count last."""
    counts: dict[str, tuple[Order, int | None]] = {}
    for order in orders:
        before = counts.get(order.shape.id, (order, 0))[1]
        counts[order.shape.id] = (order, None if before is None or order.count is None else before + order.count)
    wanted = [Wanted(order.shape, count) for order, count in counts.values()]
    return sorted(wanted, key=lambda want: (want.count is None, -want.shape.area(), want.shape.id))


def _several(stocks: Sequence[Stock], wanted: list[Wanted], budget: Budget) -> tuple[list[Sheet], str]:
    """Fill stock after stock; a roll takes all that is left."""
    from bellowscut.nesting.many import fewest

    sheets: list[Sheet] = []
    flat = [stock for stock in stocks if not stock.is_roll]
    left, method = wanted, ""
    if flat:
        sheets, left, method = fewest(flat, wanted, budget.part(budget.left * (0.5 if len(flat) < len(stocks) else 1.0)))
    for stock in stocks:
        if stock.is_roll and any(want.count for want in left):
            laid, length, way = shortest(stock, left, budget)
            sheets.append((stock, laid, length))
            method = say(words.TWO_WAYS, first=method, second=way) if method else way
            left = [want.less(laid) for want in left]
    return sheets, method


def _result(sheets: Sequence[Sheet], wanted: list[Wanted], method: str) -> Result:
    placements: list[Placement] = []
    used, lengths = [], []
    for stock, laid, length in sheets:
        if not len(laid):
            continue
        pieces = []
        for piece, (x, y) in zip(laid.poses, laid.points, strict=True):
            pieces.append(Placement(stock.id, piece.shape.id, piece.turn, x + piece.origin[0], y + piece.origin[1]))
        placements += sorted(pieces, key=lambda p: (p.part, p.y, p.x))
        area = abs(signed_area(stock.outline)) if stock.width is None else stock.width * (length or 0.0)
        used.append((stock.id, laid_area(laid) / area))
        if length is not None:
            lengths.append((stock.id, length))
    counts: dict[str, int] = {}
    for placement in placements:
        counts[placement.part] = counts.get(placement.part, 0) + 1
    unplaced = []
    for want in wanted:
        short = (want.count or 0) - counts.get(want.shape.id, 0)
        if want.count is not None and short > 0:
            unplaced.append((want.shape.id, short))
    return Result(tuple(placements), tuple(unplaced), tuple(used), tuple(lengths), method)

"""An order that needs several pieces of stock: the fewest of them that are found."""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.nesting.budget import Budget
from bellowscut.nesting.field import Field, laid_area
from bellowscut.nesting.fill_mixed import Wanted, fill_field
from bellowscut.nesting.greedy import Laid
from bellowscut.nesting.model import Stock
from bellowscut.shapes import signed_area
from bellowscut.words import nesting as words, say

Sheet = tuple[Stock, Laid, float | None]


def fewest(stocks: Sequence[Stock], wanted: list[Wanted], budget: Budget) -> tuple[list[Sheet], list[Wanted], str]:
    """Fill stock after stock, in several orders of shapes and stocks; keep the way that needs the fewest.

    Parameters
    ----------
    stocks : sequence of Stock
        Skins and sheets.
    wanted : list of Wanted
        What is wanted, the largest shapes first.
    budget : Budget
        Work to spend.

    Returns
    -------
    list of sheets, list of Wanted, str
        The filled stocks, what is left over, and how it was found.
    """
    area = sum(want.shape.area() * (want.count or 0) for want in wanted)
    usable = sorted((abs(signed_area(stock.outline)) for stock in stocks), reverse=True)
    expected, total = 0, 0.0
    for size in usable:
        if total >= area / 0.85:
            break
        total, expected = total + size, expected + 1
    if any(want.count is None for want in wanted):
        expected = len(stocks)
    distinct = len({_sort_of(stock) for stock in stocks})
    ways = _ways(stocks)
    share = budget.left / len(ways) / max(1, min(expected, 3 * distinct))
    best: tuple[tuple[int, int, float], list[Sheet], list[Wanted]] | None = None
    known: dict[tuple[object, ...], Laid] = {}
    fields: dict[tuple[object, ...], Field] = {}
    for ordered in ways:
        sheets, left = _fill(ordered, wanted, budget, share, known, fields)
        missing = sum(want.count or 0 for want in left)
        last = laid_area(sheets[-1][1]) if sheets else 0.0
        key = (missing, len(sheets), last if not any(want.count is None for want in wanted) else -sum(len(s[1]) for s in sheets))
        if best is None or key < best[0]:
            best = (key, sheets, left)
    if best is None:
        return [], wanted, ""
    return best[1], best[2], say(words.STOCK_AFTER_STOCK, number=len(best[1]))


def _ways(stocks: Sequence[Stock]) -> list[list[Stock]]:
    """Orders of the stocks worth trying: as given, and the largest first."""
    given = list(stocks)
    largest = sorted(given, key=lambda stock: -abs(signed_area(stock.outline)))
    return [given] if [s.id for s in largest] == [s.id for s in given] else [given, largest]


def _sort_of(stock: Stock) -> tuple[object, ...]:
    """All of a stock but its name, as a key: two skins of one outline are filled alike."""
    bars = tuple(sorted(stock.barred.items()))
    return stock.outline, stock.flaws, stock.margin, stock.flaw_gap, stock.gap, stock.width, bars


def _fill(
    stocks: list[Stock],
    wanted: list[Wanted],
    budget: Budget,
    share: float,
    known: dict[tuple[object, ...], Laid],
    fields: dict[tuple[object, ...], Field],
) -> tuple[list[Sheet], list[Wanted]]:
    """Fill stock after stock until nothing is wanted."""
    sheets: list[Sheet] = []
    left = wanted
    for stock in stocks:
        if not any(want.count is None or want.count > 0 for want in left):
            break
        sort = _sort_of(stock)
        laid = _recalled(known, sort, left)
        if laid is None:
            if sort not in fields:
                fields[sort] = Field(stock)
            laid, _ = fill_field(fields[sort], left, budget.part(share))
            _remember(known, sort, left, laid)
        if len(laid):
            sheets.append((stock, laid, None))
            left = [want.less(laid) for want in left]
    return sheets, left


def _key(sort: tuple[object, ...], wanted: list[Wanted], laid: Laid) -> tuple[object, ...]:
    """What a filling depends on: counts matter only where they ran out."""
    seen: list[object] = [sort]
    for want in wanted:
        done = sum(piece.shape == want.shape for piece in laid.poses)
        short = want.count is None or want.count > done
        seen.append((want.shape.id, None if short else want.count))
        if short and want.count is not None:
            seen.append("more")
    return tuple(seen)


def _remember(known: dict[tuple[object, ...], Laid], sort: tuple[object, ...], wanted: list[Wanted], laid: Laid) -> None:
    known[_key(sort, wanted, laid)] = laid


def _recalled(known: dict[tuple[object, ...], Laid], sort: tuple[object, ...], wanted: list[Wanted]) -> Laid | None:
    """A filling made before that would be made again."""
    for key, laid in known.items():
        if key[0] == sort and key == _key(sort, wanted, laid):
            return laid
    return None

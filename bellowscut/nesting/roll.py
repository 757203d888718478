"""An order on a roll: the shortest length that is found."""

from __future__ import annotations

import numpy as np

from bellowscut.nesting.budget import Budget
from bellowscut.nesting.field import Field, loose_poses
from bellowscut.nesting.fill import Filler, search
from bellowscut.nesting.fill_mixed import Wanted, fill_field
from bellowscut.nesting.greedy import DIRECTIONS, Laid, lay
from bellowscut.nesting.model import Stock
from bellowscut.nesting.shorten import shorten
from bellowscut.words import nesting as words, say

SHORT = 0.2
"""A roll of which less is used than this share of its width is laid without a search [-]."""

REFILLED, REFILLS, REFILL = 0.1, 8, 400.0
"""Share of the work that goes into filling shorter lengths anew, how often that is tried, and least work of one, while there is any [-]."""


def right_end(laid: Laid) -> float:
    """How far along the roll the pieces reach [mm]."""
    return max((x + float(piece.points[:, 0].max()) for piece, (x, _) in zip(laid.poses, laid.points, strict=True)), default=0.0)


def shortest(stock: Stock, wanted: list[Wanted], budget: Budget) -> tuple[Laid, float, str]:
    """Lay an order on as short a piece of a roll as is found.

    Parameters
    ----------
    stock : Stock
        The roll.
    wanted : list of Wanted
        What is wanted, all with counts.
    budget : Budget
        Work to spend.

    Returns
    -------
    Laid, float, str
        The pieces, the length with both margins [mm], and how it was found. Pieces that are wider than the roll are left out.
    """
    wanted = [want for want in wanted if want.count and _fits(stock, want)]
    if not wanted:
        return Laid(), 0.0, say(words.NOTHING_FITS)
    best, method = _first(stock, wanted, budget)
    if _short(stock, best):
        return best, right_end(best) + stock.margin, method
    best, method = _refilled(stock, wanted, budget, best, method)
    pressed = shorten(stock, [want.shape for want in wanted], best, budget)
    if right_end(pressed) < right_end(best) - 1e-9:
        best, method = pressed, say(words.SHORTENED, method=method)
    return best, right_end(best) + stock.margin, method


def _short(stock: Stock, laid: Laid) -> bool:
    """Whether so little of a roll is used that no search is worth while."""
    assert stock.width is not None
    return right_end(laid) + stock.margin < SHORT * stock.width


def _refilled(stock: Stock, wanted: list[Wanted], budget: Budget, best: Laid, method: str) -> tuple[Laid, str]:
    """The roll cut to a shorter and shorter length and filled anew like a sheet, as long as everything goes on it."""
    low, high = _bound(stock, wanted), right_end(best) + stock.margin
    share, end = budget.left * REFILLED / REFILLS, budget.left * (1 - 2 * REFILLED)
    for _ in range(REFILLS):
        if high - low < 0.05 or budget.left <= end:
            break
        target = low + (high - low) * 0.6
        laid, way = fill_field(Field(stock, target), wanted, budget.part(min(max(share, REFILL), budget.left)))
        if _complete(laid, wanted):
            best, method = laid, way
            high = right_end(laid) + stock.margin
        else:
            low = target
    return best, method


def _fits(stock: Stock, want: Wanted) -> bool:
    poses = loose_poses(want.shape)
    reach = max(float(np.ptp(piece.points[:, 0])) for piece in poses)
    field = Field(stock, reach * 1.01 + 2 * stock.margin + 1)
    return any(not field.positions(piece).is_empty for piece in poses)


def _bound(stock: Stock, wanted: list[Wanted]) -> float:
    """A length that cannot be undercut by much: that of the pieces at a very good density [mm]."""
    assert stock.width is not None
    area = sum(want.shape.area() * (want.count or 0) for want in wanted)
    longest = max(min(float(np.ptp(piece.points[:, 0])) for piece in loose_poses(want.shape)) for want in wanted)
    return max(area / max(1e-9, stock.width - 2 * stock.margin), longest) + 2 * stock.margin


def _complete(laid: Laid, wanted: list[Wanted]) -> bool:
    return all(want.less(laid).count == 0 for want in wanted)


def _first(stock: Stock, wanted: list[Wanted], budget: Budget) -> tuple[Laid, str]:
    """Layouts on a roll that is surely long enough: bottom-left, and for one shape rows cut off at the count."""
    longest = sum((want.count or 0) * max(float(np.ptp(p.points[:, 0])) + stock.gap for p in loose_poses(want.shape)) for want in wanted)
    area = sum(want.shape.area() * (want.count or 0) for want in wanted)
    assert stock.width is not None
    widest = max(float(np.ptp(p.points[:, 0])) for want in wanted for p in loose_poses(want.shape))
    guess = min(longest, 3 * area / max(1e-9, stock.width - 2 * stock.margin) + 2 * widest) + 2 * stock.margin + 1
    best: Laid | None = None
    method = say(words.BOTTOM_LEFT)
    while best is None:
        field = Field(stock, guess)
        for direction in (DIRECTIONS[1], DIRECTIONS[5]):
            laid = Laid()
            lay([(want.shape.id, loose_poses(want.shape), want.count) for want in wanted], field.positions, laid, stock.gap, direction)
            budget.spend(0.5 * len(laid))
            if _complete(laid, wanted) and (best is None or right_end(laid) < right_end(best)):
                best = laid
        guess *= 2
    if len(wanted) == 1 and wanted[0].count is not None and not _short(stock, best):
        field = Field(stock, right_end(best) + stock.margin)
        filler = Filler(field, wanted[0].shape, Laid(), budget)
        for candidate in search(filler, 1):
            rows = _cut_off(filler.pieces(candidate.scheme, candidate.rows), wanted[0].count)
            if rows is not None and right_end(rows) < right_end(best) - 1e-9:
                best, method = rows, say(words.ROWS)
    return best, method


def _cut_off(laid: Laid, count: int) -> Laid | None:
    """The pieces that reach least far along the roll."""
    if len(laid) < count:
        return None
    ends = [x + float(piece.points[:, 0].max()) for piece, (x, _) in zip(laid.poses, laid.points, strict=True)]
    kept = sorted(sorted(range(len(laid)), key=lambda i: (round(ends[i], 6), i))[:count])
    return Laid([laid.poses[i] for i in kept], [laid.points[i] for i in kept])

"""Bellows on pieces of stock: as few as it takes, whole bellows from one skin where that needs no more of them.

All of one material. The engine sees stock whose grain lies along x; what comes
back is turned to lie as the stock does.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from bellowscut.materials import SKIN
from bellowscut.nesting.engine import lay_out
from bellowscut.nesting.model import Placement, Result
from bellowscut.shapes import turn_by
from bellowscut.stock.orders import Group, net_area, orders, stock
from bellowscut.stock.outlines import Sort
from bellowscut.words import say, stock as words

MOST_STOCK = 400
"""Most pieces of one material that a layout may take [-]."""

LOOSE = 0.35
"""A share of its area that surely can be used of any stock on which the pieces fit at all [-]."""

QUICK, TRIALS = 0.17, 3
"""Share of the search that one trial of whole bellows on a skin may take [-], and how many there are at most [-]."""

Progress = Callable[[float], None]


@dataclass(frozen=True)
class Filled:
    """One piece of stock with what lies on it.

    Parameters
    ----------
    sort : Sort
        What it is.
    placements : tuple of Placement
        Its pieces by their id in the order, in the axes of the stock as it lies.
    length : float or None
        Of a roll: the length used [mm].
    """

    sort: Sort
    placements: tuple[Placement, ...]
    length: float | None


@dataclass(frozen=True)
class Fit:
    """Layout of one material.

    Parameters
    ----------
    filled : tuple of Filled
        The stock that is used.
    unplaced : tuple of (str, int)
        Pieces that found no place, by id.
    method : str
        How it was found.
    whole : bool
        Whether every bellows is cut from one piece of stock.
    """

    filled: tuple[Filled, ...]
    unplaced: tuple[tuple[str, int], ...]
    method: str
    whole: bool


def expanded(sorts: Sequence[Sort], area: float) -> list[Sort]:
    """Every single piece of stock that there is, or that could be wanted for so much area [mm^2]."""
    found = []
    for sort in sorts:
        wanted = 1 if sort.width is not None else math.ceil(area / (sort.area * LOOSE)) + 1
        found += [sort] * min(wanted if sort.count is None else min(sort.count, wanted), MOST_STOCK)
    return found


def fit(stocks: Sequence[Sort], groups: Sequence[Group], seconds: float, progress: Progress | None = None) -> Fit:
    """Lay some bellows on some pieces of stock.

    Parameters
    ----------
    stocks : sequence of Sort
        Single pieces of stock, in the order in which they would be used.
    groups : sequence of Group
        One a bellows.
    seconds : float
        How long the search may take, about [s].
    progress : callable or None
        Told the share that is done [-].

    Returns
    -------
    Fit
        The layout; pieces without a place are in `unplaced`.
    """
    several = len(groups) > 1 and stocks[0].material.form == SKIN
    share = 1 - QUICK * TRIALS if several else 1.0
    result = lay_out([stock(sort, str(k)) for k, sort in enumerate(stocks)], orders(groups), seconds * share, progress)
    dense = _filled(stocks, result)
    alone = len(dense) < 2
    if not alone and several and not result.unplaced:
        whole = _whole([filled.sort for filled in dense], groups, seconds * QUICK)
        if whole is not None:
            return Fit(whole, (), say(words.WHOLE_BELLOWS), True)
    return Fit(dense, result.unplaced, result.method, alone)


def _filled(stocks: Sequence[Sort], result: Result) -> tuple[Filled, ...]:
    lengths = dict(result.lengths)
    by_stock: dict[str, list[Placement]] = {}
    for placement in result.placements:
        by_stock.setdefault(placement.stock, []).append(placement)
    return tuple(
        Filled(sort, tuple(_as_it_lies(placement, sort.backbone) for placement in by_stock[str(k)]), lengths.get(str(k)))
        for k, sort in enumerate(stocks)
        if str(k) in by_stock
    )


def _as_it_lies(placement: Placement, backbone: float) -> Placement:
    """A placement on level stock, turned with the stock to its own direction [deg]."""
    if not backbone:
        return placement
    x, y = turn_by(backbone)((placement.x, placement.y))
    return replace(placement, turn=(placement.turn + backbone) % 360, x=x, y=y)


def _whole(stocks: Sequence[Sort], groups: Sequence[Group], seconds: float) -> tuple[Filled, ...] | None:
    """Whole bellows on each piece of stock, or None where it is not found in a few trials how they all find a place."""
    left = sorted(groups, key=lambda group: -net_area([group]))
    trials = TRIALS + len(stocks)
    found: list[Filled] = []
    known: dict[tuple[int, tuple[tuple[str, int], ...]], Filled | None] = {}

    def tried(sort: Sort, guess: int) -> Filled | None:
        """The next bellows on a piece of stock, None where they are not found to fit; stock and bellows like earlier ones are not tried twice."""
        nonlocal trials
        key = (id(sort), tuple((order.shape.id, order.count or 0) for order in orders(left[:guess])))
        if key not in known:
            trials -= 1
            known[key] = _complete(sort, left[:guess], seconds) if trials > 0 else None
        return known[key]

    for k, sort in enumerate(stocks):
        if not left:
            break
        guess = math.ceil(len(left) / (len(stocks) - k))
        taken, laid = 0, None
        while guess <= len(left) and (guess < len(groups) or k > 0):  # all on the first one was tried before
            trial = tried(sort, guess)
            if trial is None:
                break
            taken, laid, guess = guess, trial, guess + 1
        while laid is None and guess > 1 and trials > 0:
            guess -= 1
            laid = tried(sort, guess)
            taken = guess if laid is not None else 0
        if laid is not None:
            found.append(laid)
            left = left[taken:]
    return None if left else tuple(found)


def _complete(sort: Sort, groups: Sequence[Group], seconds: float) -> Filled | None:
    """Some whole bellows on one piece of stock, None where they do not fit."""
    if net_area(groups) > sort.area:
        return None
    result = lay_out([stock(sort, "0")], orders(groups), seconds)
    return None if result.unplaced else _filled([sort], result)[0]

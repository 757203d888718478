"""Which skins of a shelf to take: the cheapest that serve the job."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import combinations

from bellowscut.stock.cost import whole_price
from bellowscut.stock.fit import Fit, fit
from bellowscut.stock.orders import Group, net_area
from bellowscut.stock.outlines import Sort

MOST_COMBINED = 12
"""Skins of which every choice is looked at [-]; of more, those that are cheapest for their size are taken in turn."""

FULLEST = 0.95
"""A share of a skin that no layout exceeds [-]: fuller choices are not tried."""

MOST_TRIALS = 10
"""Choices that are laid out [-]."""

TRIAL_SECONDS, TRIAL_SHARE = 0.7, 0.06
"""How long one of them is tried at most, about [s], and as a share of the whole search [-]."""


def cheapest(stocks: Sequence[Sort], groups: Sequence[Group], seconds: float) -> Fit:
    """Lay some bellows on the cheapest pieces of stock of a shelf that are found to serve.

    Parameters
    ----------
    stocks : sequence of Sort
        Every single piece on the shelf.
    groups : sequence of Group
        One a bellows.
    seconds : float
        How long all of it may take, about [s].

    Returns
    -------
    Fit
        On all of the shelf, with pieces left over, when no choice serves.
    """
    area = net_area(groups)
    for trial, choice in enumerate(_choices(stocks, area)):
        if trial == MOST_TRIALS:
            break
        found = fit(choice, groups, min(TRIAL_SECONDS, seconds * TRIAL_SHARE))
        if not found.unplaced:
            better = fit(choice, groups, seconds * (1 - TRIAL_SHARE * (trial + 1)))
            return found if better.unplaced else better
    return fit(stocks, groups, seconds * (1 - TRIAL_SHARE * MOST_TRIALS))


def price_of(sort: Sort) -> Decimal:
    """Price of a whole piece, its area [mm^2] where a price is missing: then less leather counts as cheaper."""
    price = whole_price(sort)
    return Decimal(repr(sort.area)) if price is None else price


def _choices(stocks: Sequence[Sort], area: float) -> Iterator[tuple[Sort, ...]]:
    """Choices that could hold so much area [mm^2], the cheapest first, of equal ones the fewest pieces."""
    if len(stocks) > MOST_COMBINED:
        ordered = sorted(stocks, key=lambda sort: price_of(sort) / Decimal(repr(sort.area)))
        yield from (tuple(ordered[:count]) for count in range(1, len(ordered) + 1) if _holds(ordered[:count], area))
        return
    numbers = range(len(stocks))
    chosen = [some for count in range(1, len(stocks) + 1) for some in combinations(numbers, count)]
    chosen = [some for some in chosen if _holds([stocks[k] for k in some], area)]
    seen: set[tuple[int, ...]] = set()
    alike = [stocks.index(sort) for sort in stocks]
    for some in sorted(chosen, key=lambda some: (sum(price_of(stocks[k]) for k in some), len(some), some)):
        sorts = tuple(sorted(alike[k] for k in some))
        if sorts not in seen:
            seen.add(sorts)
            yield tuple(stocks[k] for k in some)


def _holds(stocks: Sequence[Sort], area: float) -> bool:
    return sum(sort.area for sort in stocks) * FULLEST >= area

"""How many sets of one kind of part a piece of stock gives."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from bellowscut.errors import UsageError
from bellowscut.parts.part import Part
from bellowscut.stock.fit import Filled, Progress, fit
from bellowscut.stock.orders import Group, net_area
from bellowscut.stock.outlines import GUSSETS, Sort
from bellowscut.words import say, stock as words

FULLEST = 0.97
"""A share of its area that no layout exceeds [-]."""


def kinds_of(kind: str) -> tuple[str, ...]:
    """Kinds that make up a set: a set of gussets has those of the ends as well."""
    return GUSSETS if kind == "gusset" else (kind,)


def one_set(parts: Sequence[Part], kind: str, copies: int) -> tuple[Part, ...]:
    """What one bellows needs of a kind, without spares.

    Parameters
    ----------
    parts : sequence of Part
        Of a job, with counts for all copies.
    kind : str
        Name of the kind.
    copies : int
        Bellows that the counts are for [-].

    Returns
    -------
    tuple of Part
        With the counts of one bellows.

    Raises
    ------
    UsageError
        When the job makes none of the kind, or of more than one material.
    """
    wanted = tuple(replace(part, count=part.count // copies, spare=0) for part in parts if part.kind in kinds_of(kind) and part.count)
    if not wanted:
        made = ", ".join(dict.fromkeys(part.kind for part in parts))
        raise UsageError(say(words.SETS_OF_NOTHING, kind=kind, made=made))
    materials = list(dict.fromkeys(part.material for part in wanted))
    if len(materials) > 1:
        raise UsageError(say(words.SETS_OF_MANY_MATERIALS, kind=kind, materials=say(words.AND).join(materials)))
    return wanted


def most_sets(sort: Sort, one: Group, seconds: float, progress: Progress | None = None) -> tuple[int, Filled | None]:
    """The most sets that are found to lie on one piece of stock.

    Parameters
    ----------
    sort : Sort
        A skin or sheet.
    one : Group
        One set.
    seconds : float
        How long the search may take, about [s].
    progress : callable or None
        Told the share that is done [-].

    Returns
    -------
    int, Filled or None
        How many sets [-], and where their pieces lie; None for none.
    """
    low, high = 0, math.floor(sort.area * FULLEST / net_area([one]))
    best: Filled | None = None
    # The first guess is where the fill of a good layout would put it; after that the gap is halved.
    rounds = 1 + math.ceil(math.log2(high + 1))
    middle, done = math.ceil(high * 0.85), 0
    while low < high:
        found = fit([sort], [one] * middle, seconds / rounds)
        if found.unplaced:
            high = middle - 1
        else:
            low, best = middle, found.filled[0]
        middle, done = (low + high + 1) // 2, done + 1
        if progress is not None:
            progress(min(1.0, done / rounds))
    return low, best

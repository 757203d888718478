"""Filling one piece of stock with a mixed order: largest shapes first, in rows, what is left with loose pieces, then squeezing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import partial

import numpy as np
import shapely

from bellowscut.nesting.budget import Budget
from bellowscut.nesting.field import Field, laid_area, loose_poses
from bellowscut.nesting.fill import Candidate, Filler, finish, search, split
from bellowscut.nesting.greedy import DIRECTIONS, TAKING, Laid, lay
from bellowscut.nesting.model import Shape
from bellowscut.nesting.nofit import Pose
from bellowscut.nesting.squeeze import squeeze
from bellowscut.words import nesting as words, say

ROWS_AT_ONCE, EASIER = 40.0, 1.1
"""Work of finding rows where no search is worth while [-], and how much more room they may take than pieces laid one by one [-]."""

ROWS = 0.55
"""Share of the work that goes into rows and loose pieces, before more are squeezed in [-]."""


SPARSE = 0.3
"""Pieces that fill less than this share of a stock are laid without a search [-]."""

DENSITY, FULL, WIDER = 0.7, 0.9, 1.12
"""Share that pieces fill of a window [-], laid one by one and after a search, to begin with, and how much larger the next one is each way [-]."""


@dataclass(frozen=True)
class Wanted:
    """How many pieces of a shape are still wanted.

    Parameters
    ----------
    shape : Shape
        The piece.
    count : int or None
        How many [-]; None for as many as fit.
    """

    shape: Shape
    count: int | None

    def less(self, laid: Laid) -> Wanted:
        """What is wanted still after some are laid."""
        done = sum(piece.shape == self.shape for piece in laid.poses)
        return self if self.count is None else Wanted(self.shape, max(0, self.count - done))


def fill_field(field: Field, wanted: list[Wanted], budget: Budget) -> tuple[Laid, str]:
    """The fullest layout of one piece of stock that is found.

    Parameters
    ----------
    field : Field
        The stock.
    wanted : list of Wanted
        What to lay, in this order.
    budget : Budget
        Work to spend.

    Returns
    -------
    Laid, str
        The pieces, and how they were found.
    """
    active = [want for want in wanted if want.count != 0]
    share = _share(field, active)
    near, side = _about_the_heart(field, active, share, budget)
    if near is not None:
        if share < SPARSE:
            return _centred(field, near), say(words.ABOUT_THE_HEART)
        # The same closer together: searched for in windows between one that would be filled almost wholly and the one just found.
        for part in (0.0, 0.5):
            tight = math.sqrt(share / FULL)
            laid, method = _searched(Field(field.stock, share=tight + (side - tight) * part), active, budget.part(budget.left * 0.5))
            if not _missing(active, laid):
                return _centred(field, laid), method
        return _centred(field, near), say(words.ABOUT_THE_HEART)
    if share < SPARSE:
        few = _greedy(field, active, budget)
        if few is not None and not _missing(active, few):
            return _straight(field, active, few, budget)
    return _searched(field, active, budget)


def _straight(field: Field, wanted: list[Wanted], loose: Laid, budget: Budget) -> tuple[Laid, str]:
    """Rows of patterns as they are first found, where they take hardly more room: they are easier to cut."""
    quick = budget.part(min(budget.left, ROWS_AT_ONCE))
    quick.aside = 0.0
    rows = Laid()
    for want in wanted:
        rows = fill_shape(field, rows, want, quick)
    if _missing(wanted, rows) or -_worth(rows)[1] > -_worth(loose)[1] * EASIER:
        return loose, say(words.BOTTOM_LEFT)
    return rows, say(words.ROWS)


def _missing(wanted: list[Wanted], laid: Laid) -> bool:
    """Whether pieces of a count are not laid yet."""
    return any(want.less(laid).count for want in wanted)


def _searched(field: Field, active: list[Wanted], budget: Budget) -> tuple[Laid, str]:
    """Rows, loose pieces, or all of them one by one, then squeezing."""
    laid = Laid()
    for number, want in enumerate(active):
        laid = fill_shape(field, laid, want, budget.part(budget.left * ROWS / (len(active) - number)))
    method = say(words.ROWS_AND_LOOSE)
    loose = _greedy(field, active, budget) if len(active) > 1 or (active and active[0].count is not None) else None
    if loose is not None and _worth(loose) > _worth(laid):
        laid, method = loose, say(words.BOTTOM_LEFT)
    missing = [want.less(laid) for want in active]
    for number, want in enumerate(missing):
        if want.count != 0 and budget.left > 50:
            more = squeeze(field, laid, loose_poses(want.shape), budget.part(budget.left / (len(missing) - number)), want.count)
            if len(more) > len(laid):
                laid, method = more, say(words.SQUEEZED, method=method)
    return laid, method


def _worth(laid: Laid) -> tuple[float, float]:
    """What makes a layout better: more laid, and when that is all of it, close together, so that what is left is in one piece."""
    area = round(laid_area(laid), 6)
    if not len(laid):
        return area, 0.0
    corners = np.concatenate([piece.points + at for piece, at in zip(laid.poses, np.asarray(laid.points), strict=True)])
    return area, -float(shapely.MultiPoint(corners).convex_hull.area)


def _share(field: Field, wanted: list[Wanted]) -> float:
    """How much of the stock all pieces fill [-]; infinite where as many are wanted as fit."""
    if not wanted or any(want.count is None for want in wanted):
        return math.inf
    return sum(want.shape.area() * (want.count or 0) for want in wanted) / max(1e-9, field.area("").area)


def _about_the_heart(field: Field, wanted: list[Wanted], share: float, budget: Budget) -> tuple[Laid | None, float]:
    """Everything in a small window about the heart of the stock, and its share each way; None where no window holds it all."""
    if field.stock.heart is None:
        return None, 1.0
    side = math.sqrt(share / DENSITY)
    while side < 1.0:
        laid = Laid()
        lay(_in_turn(wanted), partial(field.window, share=side), laid, field.gap, DIRECTIONS[0], budget)
        if not _missing(wanted, laid):
            return laid, side
        if budget.spent:
            break
        side *= WIDER
    return None, 1.0


def _centred(field: Field, laid: Laid) -> Laid:
    """All pieces moved together towards the heart of the stock, as far as each of them stays on it: all the way, or a half or a quarter."""
    assert field.stock.heart is not None
    points = np.array(laid.points)
    corners = np.concatenate([piece.points + at for piece, at in zip(laid.poses, points, strict=True)])
    away = np.array(field.stock.heart) - (corners.min(axis=0) + corners.max(axis=0)) / 2
    for share in (1.0, 0.5, 0.25):
        moved = points + share * away
        if shapely.contains_xy([field.positions(piece) for piece in laid.poses], moved[:, 0], moved[:, 1]).all():
            return Laid(list(laid.poses), [(float(x), float(y)) for x, y in moved])
    return laid


def _in_turn(wanted: list[Wanted]) -> list[tuple[str, tuple[Pose, ...], int | None]]:
    """Shapes to be laid one by one, the largest first."""
    sized = sorted(wanted, key=lambda want: (want.count is None, -want.shape.area(), want.shape.id))
    return [(want.shape.id, loose_poses(want.shape), want.count) for want in sized]


def _greedy(field: Field, wanted: list[Wanted], budget: Budget) -> Laid | None:
    """Everything bottom-left, the largest first: once whatever it takes, and in another direction while there is work to spend."""
    best: Laid | None = None
    for number, direction in enumerate(DIRECTIONS[:2]):
        if number and budget.spent:
            break
        laid = Laid()
        lay(_in_turn(wanted), field.positions, laid, field.gap, direction, budget if number else None)
        budget.spend(0.0 if number else TAKING * len(laid))
        if best is None or _worth(laid) > _worth(best):
            best = laid
    return best


def fill_shape(field: Field, laid: Laid, want: Wanted, budget: Budget) -> Laid:
    """Add pieces of one shape to those that lie: rows, loose pieces, and for larger budgets split layouts.

    Parameters
    ----------
    field : Field
        The stock.
    laid : Laid
        Pieces that lie already.
    want : Wanted
        Shape and count.
    budget : Budget
        Work to spend.

    Returns
    -------
    Laid
        All pieces.
    """
    filler = Filler(field, want.shape, laid, budget)
    if all(filler.around.positions(piece).is_empty for piece in loose_poses(want.shape)):
        return laid
    start = budget.left
    effort = 2 if start > 2500 else 1 if start > 700 else 0
    found = search(filler, effort)
    if not found:
        return finish(field, want.shape, laid, budget, want.count)
    if want.count is not None:
        enough = [candidate for candidate in found if candidate.rows.total >= want.count]
        if enough:
            return _compact(filler, enough, want.count)
    best = laid
    for number, candidate in enumerate(found[: 6 if effort > 1 else 3]):
        if number and budget.spent:
            break
        trial = finish(field, want.shape, filler.pieces(candidate.scheme, candidate.rows), budget, _still(want, candidate))
        if len(trial) > len(best):
            best = trial
    for candidate in found[:3] if effort > 1 else []:
        count = len(candidate.rows.heights)
        for rows in (1, 2, 4):
            if rows >= count or budget.left <= start * 0.15 or (want.count is not None and len(best) - len(laid) >= want.count):
                break
            for first, last in ((0, count - rows), (rows, count)):
                trial = split(filler, candidate, first, last)
                if len(trial) > len(best):
                    best = trial
    if want.count is not None and len(best) - len(laid) > want.count:
        best = Laid(best.poses[: len(laid) + want.count], best.points[: len(laid) + want.count])
    return best


def _still(want: Wanted, candidate: Candidate) -> int | None:
    """How many loose pieces are wanted beside the rows of a candidate."""
    return None if want.count is None else max(0, want.count - candidate.rows.total)


def _compact(filler: Filler, found: list[Candidate], count: int) -> Laid:
    """Rows with enough pieces that take the least share of the height of the stock, less the surplus of the last row."""
    best: tuple[float, float, Candidate, int] | None = None
    for candidate in found:
        reached = candidate.table.reached
        last = int((reached >= count).argmax())
        key = (last / len(reached), candidate.scheme.turn)
        if best is None or key < best[:2]:
            best = (*key, candidate, last)
    assert best is not None
    candidate, last = best[2], best[3]
    rows = candidate.table.rows(last)
    if rows is None:
        return filler.laid
    laid = filler.pieces(candidate.scheme, rows)
    start = len(filler.laid)
    surplus = len(laid) - start - count
    if surplus <= 0:
        return laid
    order = sorted(range(start, len(laid)), key=lambda i: _along(laid.points[i], candidate.scheme.beta))
    dropped = set(order[len(order) - surplus :])
    kept = [i for i in range(len(laid)) if i not in dropped]
    return Laid([laid.poses[i] for i in kept], [laid.points[i] for i in kept])


def _along(point: tuple[float, float], beta: float) -> tuple[float, float]:
    """A point by the height of its row, then by its place in the row."""
    angle = math.radians(beta)
    x, y = point
    return round(-math.sin(angle) * x + math.cos(angle) * y, 6), math.cos(angle) * x + math.sin(angle) * y

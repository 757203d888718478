"""A layout on a roll made shorter: the pieces at its end are crowded into less length and jostled until they lie apart again."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bellowscut.nesting.budget import Budget
from bellowscut.nesting.convex import FloatArray, IntArray
from bellowscut.nesting.field import Field, loose_poses
from bellowscut.nesting.greedy import Laid
from bellowscut.nesting.jostle import Jostler
from bellowscut.nesting.model import Shape, Stock
from bellowscut.nesting.planes import Planes
from bellowscut.nesting.push import Places

TAIL = 60
"""Most pieces that are moved, those nearest to the end of the roll [-]."""

FIRST, FINEST = 0.001, 0.0005
"""Share of the length of the tail by which it is shortened at first, and at least while all is jostled [-]."""

LEAST = 1e-6
"""Share of the length of the tail below which no further gain is sought [-]."""

PATIENCE, HASTE = 100, 10
"""Rounds of jostling without a gain after which an attempt is given up, and when only the last hundredths are sought [-]."""

STARTS = 3
"""Searches with chance numbers of their own, of which the best is carried on [-]."""

State = tuple[IntArray, FloatArray]


class Tail:
    """The last pieces of a layout on a roll, and those in front of them that stay.

    Parameters
    ----------
    stock : Stock
        The roll.
    shapes : sequence of Shape
        Everything that is laid.
    laid : Laid
        The layout.
    """

    def __init__(self, stock: Stock, shapes: Sequence[Shape], laid: Laid) -> None:
        self.stock = stock
        groups = [loose_poses(shape) for shape in shapes]
        poses = list(dict.fromkeys([piece for group in groups for piece in group] + laid.poses))
        number = {piece: i for i, piece in enumerate(poses)}
        self.poses = poses
        self.choices: dict[int, IntArray] = {}
        for i, piece in enumerate(poses):
            group = next(group for group, shape in zip(groups, shapes, strict=True) if shape == piece.shape)
            self.choices[i] = np.array(sorted({number[other] for other in group} | {i}))
        self.kinds = np.array([number[piece] for piece in laid.poses], dtype=np.int64)
        self.points = np.array(laid.points)
        self.planes = Planes(poses, stock.gap)
        self.right = np.array([float(piece.points[:, 0].max()) for piece in poses])
        self.narrow = min(float(np.ptp(piece.points, axis=0).min()) for piece in poses)
        order = np.lexsort((np.arange(len(laid)), -(self.points[:, 0] + self.right[self.kinds])))
        self.movable = np.sort(order[:TAIL])
        first = self.points[self.movable, 0].min() - 2 * self.planes.radius
        keep = np.flatnonzero(self.points[:, 0] >= first)
        self.rest = np.setdiff1d(np.arange(len(laid)), keep)
        self.span = self.length((self.kinds, self.points)) - float(self.points[self.movable, 0].min())
        self.keep, self.movable = keep, np.searchsorted(keep, self.movable)

    def length(self, state: State) -> float:
        """Length of the roll that pieces need [mm]."""
        kinds, points = state
        return float((points[:, 0] + self.right[kinds]).max()) + self.stock.margin

    def laid(self, state: State) -> Laid:
        """All pieces, those of the tail as they lie in a state."""
        kinds = [*self.kinds[self.rest].tolist(), *state[0].tolist()]
        points = [*self.points[self.rest].tolist(), *state[1].tolist()]
        return Laid([self.poses[kind] for kind in kinds], [(float(x), float(y)) for x, y in points])

    def shorter(self, best: State, budget: Budget, chance: np.random.Generator, polish: bool) -> State:
        """The tail on less length.

        Parameters
        ----------
        best : tuple of ndarray
            Poses and points to start from.
        budget : Budget
            Work to spend.
        chance : Generator
            Source of chance numbers.
        polish : bool
            Whether to go for the last hundredths, in ever smaller steps, rather than for another order of the pieces.

        Returns
        -------
        tuple of ndarray
            Poses and points, on no more length.
        """
        length, begin = self.length(best), best
        step = FINEST if polish else FIRST
        while budget.left > 0 and step > LEAST:
            places = Places(Field(self.stock, length - step * self.span), self.poses)
            if not places.open[begin[0][self.movable]].all():  # a piece has become too long for the roll
                step *= 0.5
                continue
            jostler = Jostler(self.planes, places, self.choices, *begin, self.movable, self.narrow, chance)
            left = jostler.settle(HASTE if polish else PATIENCE, budget.left)
            budget.spend(jostler.work)
            found = jostler.kinds, jostler.points
            if left == 0 and self.length(found) < length:
                best = begin = found
                length = self.length(best)
                step *= 1.2
            elif polish:
                step *= 0.5
            else:
                step = max(step * 0.6, FINEST)
                begin = found[0], self._stirred(found[1], chance)
        return best

    def _stirred(self, points: FloatArray, chance: np.random.Generator) -> FloatArray:
        """The same places, those of two pieces changed about every other time."""
        pair = chance.choice(self.movable, 2)
        if chance.random() < 0.5:
            points = points.copy()
            points[pair] = points[pair[::-1]]
        return points


def shorten(stock: Stock, shapes: Sequence[Shape], laid: Laid, budget: Budget) -> Laid:
    """Make a layout on a roll shorter.

    Parameters
    ----------
    stock : Stock
        The roll.
    shapes : sequence of Shape
        Everything that is laid.
    laid : Laid
        The layout.
    budget : Budget
        Work to spend.

    Returns
    -------
    Laid
        The same pieces, on no more length.
    """
    if budget.left <= 0:
        return laid
    tail = Tail(stock, shapes, laid)
    start: State = tail.kinds[tail.keep], tail.points[tail.keep]
    share = budget.left / (STARTS + 1)
    best = start
    for seed in range(1, STARTS + 1):
        found = tail.shorter(start, budget.part(share), np.random.default_rng(seed), False)
        if tail.length(found) < tail.length(best):
            best = found
    chance = np.random.default_rng(STARTS + 1)
    for polish in (False, True):
        best = tail.shorter(best, budget.part(budget.left * (1.0 if polish else 0.8)), chance, polish)
    return tail.laid(best)

"""Pieces that overlap are taken up one by one and put where they overlap least, until none does.

Overlaps that stay weigh more and more, so that the pieces cannot come to rest in a jam; what is left of small overlaps is pushed apart. The
work is counted, and chance comes from a generator of its own, so the same input always gives the same layout.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from bellowscut.nesting.convex import FloatArray, IntArray
from bellowscut.nesting.planes import Planes
from bellowscut.nesting.push import Places, push_apart

TRIALS, NEARBY, CLOSER = 120, 30, 10
"""Places tried at random, about the old place, and about each of the best few in each closer look [-]."""

LIGHT = 1e-9
"""Overlaps below this are left to pushing [mm]."""


class Jostler:
    """Some pieces to be moved until they lie apart from one another and from others that stay.

    Parameters
    ----------
    planes : Planes
        How deep pieces reach into one another.
    places : Places
        Where pieces may lie.
    choices : mapping of int to ndarray
        For each pose the poses in which such a piece may be put.
    kinds : ndarray, shape (n,)
        Number of the pose of each piece.
    points : ndarray, shape (n, 2)
        Reference points [mm].
    movable : ndarray, shape (m,)
        Pieces that may move.
    narrow : float
        Least extent of a piece [mm].
    chance : Generator
        Source of chance numbers.
    """

    def __init__(
        self,
        planes: Planes,
        places: Places,
        choices: Mapping[int, IntArray],
        kinds: IntArray,
        points: FloatArray,
        movable: IntArray,
        narrow: float,
        chance: np.random.Generator,
    ) -> None:
        self.planes, self.places = planes, places
        self.kinds, self.movable, self.narrow, self.chance = kinds.copy(), movable, narrow, chance
        self.points = points.copy()
        places.pull(self.points, places.near_edge(self.kinds, self.points, movable, np.inf))
        self.weights = np.ones((len(points), len(points)))
        self.depths = self._depths()
        low, high = points[movable].min(axis=0) - narrow, points[movable].max(axis=0) + narrow
        self.window = np.concatenate((np.fmax(places.boxes[:, :2], low), np.fmin(places.boxes[:, 2:], high)), axis=1)
        self.doubtful = places.doubtful(self.window)
        usable = places.open & (self.window[:, :2] <= self.window[:, 2:]).all(axis=1)
        self.choices = {kind: some[usable[some]] for kind, some in choices.items()}
        self.work = 1.0

    def _depths(self) -> FloatArray:
        """How deep every pair overlaps of which one may move [mm]."""
        points, kinds, movable = self.points, self.kinds, self.movable
        apart = points[movable][:, None] - points[None]
        i, other = np.nonzero(np.einsum("ijd,ijd->ij", apart, apart) < self.planes.radius**2)
        one = movable[i]
        one, other = one[one != other], other[one != other]
        depths = np.zeros((len(points), len(points)))
        depths[one, other] = self.planes.depth(kinds[one], kinds[other], points[other] - points[one])
        return np.maximum(depths, depths.T)

    def _overlaps(self, number: int, kinds: IntArray, marks: FloatArray) -> FloatArray:
        """Weighted overlap of a piece at many places with all others [mm]; infinite off the stock."""
        across, up = marks[:, :1] - self.points[:, 0], marks[:, 1:] - self.points[:, 1]
        near = across * across + up * up < self.planes.radius**2
        near[:, number] = False
        pair = np.flatnonzero(near)
        mark, other = np.divmod(pair, len(self.points))
        away = np.stack((across.reshape(-1)[pair], up.reshape(-1)[pair]), axis=1)
        depth = self.planes.depth(self.kinds[other], kinds[mark], away)
        self.work += 0.11 + across.size * 2.5e-5 + len(pair) * self.planes.size * 1e-6
        total = np.bincount(mark, depth * self.weights[number, other], minlength=len(marks))
        return np.where(self.places.hold(kinds, marks, self.doubtful), total, np.inf)

    def _clipped(self, kinds: IntArray, marks: FloatArray) -> FloatArray:
        return np.clip(marks, self.window[kinds, :2], self.window[kinds, 2:])

    def move(self, number: int) -> None:
        """Put one piece where it overlaps least, unless it lies best already."""
        self.work += 0.25
        kind = int(self.kinds[number])
        now = float((self.weights[number] * self.depths[number]).sum())
        poses = self.chance.choice(self.choices[kind], TRIALS) if len(self.choices[kind]) else np.full(TRIALS, kind)
        low, high = self.window[poses, :2], self.window[poses, 2:]
        fresh = low + self.chance.random((len(poses), 2)) * np.maximum(high - low, 0.0)
        about = self.points[number] + self.chance.normal(0.0, self.narrow / 3, (NEARBY, 2))
        kinds = np.concatenate((poses, np.full(NEARBY, kind)))
        marks = self._clipped(kinds, np.concatenate((fresh, about)))
        overlaps = self._overlaps(number, kinds, marks)
        spread = self.narrow / 6
        for few in (3, 2, 2, 1):
            best = np.argsort(overlaps, kind="stable")[:few]
            closer = (marks[best, None] + self.chance.normal(0.0, spread, (few, CLOSER, 2))).reshape(-1, 2)
            kinds = np.concatenate((kinds[best], np.repeat(kinds[best], CLOSER)))
            marks = self._clipped(kinds, np.concatenate((marks[best], closer)))
            overlaps = np.concatenate((overlaps[best], self._overlaps(number, kinds[few:], marks[few:])))
            spread /= 3
            if overlaps.min() <= 0:
                break
        chosen = int(overlaps.argmin())
        if overlaps[chosen] <= now:
            self.points[number], self.kinds[number] = marks[chosen], kinds[chosen]
            away = marks[chosen] - self.points
            near = np.flatnonzero(np.einsum("ij,ij->i", away, away) < self.planes.radius**2)
            near = near[near != number]
            self.depths[number] = self.depths[:, number] = 0.0
            depth = self.planes.depth(self.kinds[near], np.full(len(near), kinds[chosen]), away[near])
            self.depths[number, near] = self.depths[near, number] = depth

    def push(self) -> float:
        """Push pieces apart; the overlap left [mm]."""
        self.points, overlap, work = push_apart(self.planes, self.places, self.kinds, self.points, self.movable, 600, 40)
        self.work += work
        if overlap > 0:
            self.depths = self._depths()
        return overlap

    def settle(self, patience: int, work: float) -> float:
        """Move pieces until none overlaps.

        Parameters
        ----------
        patience : int
            Rounds without a gain after which it is given up [-].
        work : float
            Most work to spend [-].

        Returns
        -------
        float
            Overlap left [mm]; 0 when the pieces lie apart.
        """
        least, since, end = np.inf, 0, self.work + work
        best = self.points.copy(), self.kinds.copy()
        while since < patience and self.work < end:
            crowded = self.movable[self.depths[self.movable].sum(axis=1) > LIGHT]
            for number in self.chance.permutation(crowded).tolist():
                if self.depths[number].sum() > LIGHT:
                    self.move(number)
            total = self.depths[self.movable].sum() / 2
            if total < self.narrow / 5:
                total = self.push()
                if total == 0:
                    return 0.0
            if total < least * 0.98:
                least, since, best = total, 0, (self.points.copy(), self.kinds.copy())
            else:
                since += 1
            share = self.depths / max(float(self.depths.max()), 1e-12)
            self.weights = np.where(self.depths > LIGHT, self.weights * (1.2 + 0.8 * share), np.maximum(1.0, self.weights * 0.95))
        self.points, self.kinds = best
        return float(least)

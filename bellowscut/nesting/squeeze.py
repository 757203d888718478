"""Room for one more: a piece is put where it overlaps least, and it and its neighbours push one another apart."""

from __future__ import annotations

import numpy as np
import shapely

from bellowscut.nesting.budget import Budget
from bellowscut.nesting.field import Field
from bellowscut.nesting.greedy import Laid
from bellowscut.nesting.jostle import Jostler
from bellowscut.nesting.nofit import Pose
from bellowscut.nesting.planes import Planes
from bellowscut.nesting.push import Places

PATIENCE, ATTEMPT = 15, 400.0
"""Rounds of jostling without a gain after which an attempt is given up, and most work to spend on one [-]."""

COMPANY = 6, 36
"""Between how many pieces take part in an attempt [-]."""

Site = tuple[float, int, float, float]
"""A place for one more piece: overlap [mm], number of its pose, and position [mm]."""


class Squeezer:
    """Pieces on a field that may be pushed about.

    Parameters
    ----------
    field : Field
        The stock.
    laid : Laid
        The pieces.
    extra : tuple of Pose
        Poses in which further pieces may be put.
    budget : Budget
        Work to spend.
    """

    def __init__(self, field: Field, laid: Laid, extra: tuple[Pose, ...], budget: Budget) -> None:
        self.budget = budget
        self.poses = list(dict.fromkeys((*laid.poses, *extra)))
        index = {piece: i for i, piece in enumerate(self.poses)}
        self.kinds = np.array([index[piece] for piece in laid.poses], dtype=np.int64)
        self.points = np.array(laid.points, dtype=float).reshape(-1, 2)
        self.extra = [index[piece] for piece in extra if not field.positions(piece).is_empty]
        self.planes, self.places = Planes(self.poses, field.gap), Places(field, self.poses)
        self.narrow = min(float(np.ptp(piece.points, axis=0).min()) for piece in self.poses)
        sorts = [np.array(sorted(index[piece] for piece in self.poses if piece.shape == other.shape)) for other in self.poses]
        self.choices = dict(enumerate(sorts))
        self.chance = np.random.default_rng(1)
        self.size = max((float(np.ptp(self.poses[i].points, axis=0).max()) for i in self.extra), default=0.0)

    def laid(self) -> Laid:
        """The pieces as they lie now."""
        return Laid([self.poses[k] for k in self.kinds.tolist()], [(float(x), float(y)) for x, y in self.points])

    def sites(self) -> list[Site]:
        """Places for one more piece, least overlap first."""
        found: list[Site] = []
        tree = shapely.STRtree(shapely.points(self.points))
        for kind in self.extra:
            self.budget.spend(6)
            x0, y0, x1, y1 = self.places.boxes[kind]
            narrow = float(np.ptp(self.poses[kind].points, axis=0).min())
            step = max(narrow / 5, ((x1 - x0) * (y1 - y0) / 6000) ** 0.5)
            xs = np.arange(x0 + min(step, x1 - x0) * self.chance.random(), x1, step)
            ys = np.arange(y0 + min(step, y1 - y0) * self.chance.random(), y1, step)
            marks = np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)
            marks = marks[shapely.contains_xy(self.places.areas[kind], marks[:, 0], marks[:, 1])]
            if not len(marks):
                continue
            one, other = tree.query(shapely.points(marks), predicate="dwithin", distance=self.planes.radius)
            depth = self.planes.depth(self.kinds[other], np.full(len(one), kind), marks[one] - self.points[other])
            total = np.bincount(one, depth, minlength=len(marks))
            self.budget.spend(len(one) * 5e-4)
            best = np.argsort(total, kind="stable")[:400]
            found += [(float(total[i]), kind, float(marks[i, 0]), float(marks[i, 1])) for i in best]
        found.sort()
        apart: list[Site] = []
        for site in found:
            if all(abs(site[2] - x) + abs(site[3] - y) > self.size * 0.5 for _, _, x, y in apart):
                apart.append(site)
            if len(apart) >= 60:
                break
        return apart

    def insert(self, site: Site) -> bool:
        """Try to put one more piece at a site: pushed in, else with those around it taken up and laid anew; undone when it fails."""
        points = np.concatenate((self.points, [[site[2], site[3]]]))
        kinds = np.concatenate((self.kinds, [site[1]]))
        away = np.hypot(*(points - points[-1]).T)
        around = np.argsort(away, kind="stable")[: int(self.chance.integers(*COMPANY))]
        keep = np.flatnonzero(away <= away[around[-1]] + 2 * self.planes.radius)
        movable = np.searchsorted(keep, np.sort(around))
        jostler = Jostler(self.planes, self.places, self.choices, kinds[keep], points[keep], movable, self.narrow, self.chance)
        overlap = jostler.push()
        if overlap > 0:
            overlap = jostler.settle(PATIENCE, min(ATTEMPT, self.budget.left))
        self.budget.spend(jostler.work + 0.2)
        if overlap > 0:
            return False
        points[keep], kinds[keep] = jostler.points, jostler.kinds
        self.points, self.kinds = points, kinds
        return True


def squeeze(field: Field, laid: Laid, extra: tuple[Pose, ...], budget: Budget, most: int | None = None) -> Laid:
    """Put in as many more pieces as a budget of work allows.

    Parameters
    ----------
    field : Field
        The stock.
    laid : Laid
        The pieces.
    extra : tuple of Pose
        Poses of the further pieces.
    budget : Budget
        Work to spend.
    most : int or None
        Further pieces wanted [-]; None for as many as go in.

    Returns
    -------
    Laid
        All pieces.
    """
    if not extra or not len(laid):
        return laid
    squeezer = Squeezer(field, laid, extra, budget)
    while budget.left > 0 and squeezer.extra and (most is None or len(squeezer.points) < len(laid) + most):
        for site in squeezer.sites():
            if budget.left <= 0 or squeezer.insert(site):
                break
    return squeezer.laid()

"""Pieces that overlap push one another apart: all at once, a little at a time, until nothing overlaps or no more is gained.

Every pair that is too near moves apart along the shortest way out of its no-fit outline, every piece off the stock moves back on.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from bellowscut.nesting.convex import FloatArray, IntArray
from bellowscut.nesting.field import Field
from bellowscut.nesting.nofit import Pose
from bellowscut.nesting.planes import PLAY, Planes

FRESH = 25
"""Rounds after which the pairs that are near are looked up anew [-]."""


class Places:
    """Where pieces in each of several poses may lie on a stock, other pieces apart.

    Parameters
    ----------
    field : Field
        The stock.
    poses : sequence of Pose
        The poses, called by their numbers.
    """

    def __init__(self, field: Field, poses: Sequence[Pose]) -> None:
        self.areas = [field.positions(piece) for piece in poses]
        self.open = np.array([not area.is_empty for area in self.areas])
        self.boxes = np.array([(np.nan,) * 4 if area.is_empty else area.bounds for area in self.areas])
        self.odd = [abs(area.area - area.envelope.area) > 1e-9 * area.area for area in self.areas]
        for area in self.areas:
            shapely.prepare(area)

    def doubtful(self, windows: FloatArray) -> list[int]:
        """Poses for which a box of their own, as x0, y0, x1, y1 [mm], is not wholly open."""
        inside = [shapely.contains(area, shapely.box(*window)) for area, window in zip(self.areas, windows, strict=True)]
        return [kind for kind, sure in enumerate(inside) if self.odd[kind] and not sure]

    def hold(self, kinds: IntArray, points: FloatArray, doubtful: Sequence[int]) -> np.ndarray:
        """Whether each point is open to its pose, where only some poses are in doubt."""
        held = np.ones(len(points), dtype=bool)
        for kind in doubtful:
            at = np.flatnonzero(kinds == kind)
            if len(at):
                held[at] = shapely.contains_xy(self.areas[kind], points[at, 0], points[at, 1])
        return held

    def pull(self, points: FloatArray, members: Sequence[tuple[int, IntArray]]) -> float:
        """Move points that are not open to their pose to the nearest that is; how far in all [mm]."""
        moved = 0.0
        for kind, group in members:
            x0, y0, x1, y1 = self.boxes[kind]
            inside = np.clip(points[group], (x0, y0), (x1, y1))
            moved += float(np.abs(inside - points[group]).sum())
            points[group] = inside
            if self.odd[kind]:
                outside = group[~shapely.contains_xy(self.areas[kind], points[group, 0], points[group, 1])]
                if len(outside):
                    lines = shapely.shortest_line(self.areas[kind], shapely.points(points[outside]))
                    ends = shapely.get_coordinates(lines)[0::2]
                    moved += float(np.hypot(*(ends - points[outside]).T).sum())
                    points[outside] = ends
        return moved

    def near_edge(self, kinds: IntArray, points: FloatArray, movable: IntArray, reach: float) -> list[tuple[int, IntArray]]:
        """Pieces that might be pushed off the stock, by pose."""
        groups = []
        for kind in np.unique(kinds[movable]).tolist():
            group = movable[kinds[movable] == kind]
            if self.odd[kind]:
                off = ~shapely.contains_xy(self.areas[kind], points[group, 0], points[group, 1])
                group = group[off | (shapely.distance(self.areas[kind].boundary, shapely.points(points[group])) < reach)]
            groups.append((kind, group))
        return groups


def push_apart(
    planes: Planes, places: Places, kinds: IntArray, points: FloatArray, movable: IntArray, rounds: int, patience: int
) -> tuple[FloatArray, float, float]:
    """Push pieces apart until nothing overlaps.

    Parameters
    ----------
    planes : Planes
        How deep pieces reach into one another.
    places : Places
        Where pieces may lie.
    kinds : ndarray, shape (n,)
        Number of the pose of each piece.
    points : ndarray, shape (n, 2)
        Reference points [mm]; not changed.
    movable : ndarray, shape (m,)
        Pieces that may move.
    rounds : int
        Most rounds [-].
    patience : int
        Rounds without a gain after which it is given up [-].

    Returns
    -------
    ndarray, float, float
        The points of the round with the least overlap, that overlap [mm], 0 when the pieces lie apart, and the work spent [-].
    """
    points = points.copy()
    free = np.zeros(len(points))
    free[movable] = 1.0
    best, least, since, age = points.copy(), np.inf, 0, FRESH
    work = 0.0
    for _ in range(rounds):
        if age == FRESH:
            age = 0
            first, second = _near(points, movable, free, planes.radius + 4.0)
            one, two = kinds[first], kinds[second]
            across, up, reach = planes.across[one, two], planes.up[one, two], planes.reach[one, two]
            share = 1.0 / (1.0 + free[second])
            members = places.near_edge(kinds, points, movable, 15.0)
            off = places.pull(points, members)
        work += 0.09 + reach.size * 5e-6
        away = points[second] - points[first]
        values = reach - across * away[:, 0, None, None] - up * away[:, 1, None, None]
        side = values.argmin(axis=2)
        depth = np.take_along_axis(values, side[:, :, None], axis=2)[:, :, 0]
        pair, outline = np.nonzero(depth > 0)
        amount = depth[pair, outline]
        if amount.max(initial=0.0) <= PLAY and off <= PLAY:
            if age == 0:
                return points, 0.0, work
            age = FRESH  # pieces may have come near that were not looked at
            continue
        total = float(amount.sum()) + off
        if total < least * 0.97:
            best, least, since = points.copy(), total, 0
        else:
            since += 1
            if since > patience:
                return best, least, work
        nearest = pair, outline, side[pair, outline]
        push = np.stack((across[nearest], up[nearest]), axis=1) * amount[:, None]
        ends = np.concatenate((first[pair], second[pair]))
        pushes = np.concatenate((-push * share[pair, None], push * (share * free[second])[pair, None]))
        number = np.bincount(ends, minlength=len(points))
        shift = np.stack([np.bincount(ends, pushes[:, axis], minlength=len(points)) for axis in (0, 1)], axis=1)
        points += shift * (1.5 / np.maximum(number, 1.5))[:, None]
        off = places.pull(points, members)
        age += 1
    return best, least, work


def _near(points: FloatArray, movable: IntArray, free: FloatArray, reach: float) -> tuple[IntArray, IntArray]:
    """Pairs near enough to matter, of which the first may move, each once."""
    low, high = points[movable].min(axis=0) - reach, points[movable].max(axis=0) + reach
    around = np.flatnonzero(np.all((points >= low) & (points <= high), axis=1))
    apart = points[movable][:, None, :] - points[around][None, :, :]
    i, j = np.nonzero(np.einsum("ijd,ijd->ij", apart, apart) < reach**2)
    one, two = movable[i], around[j]
    keep = (one < two) | ((free[two] == 0) & (one != two))
    return one[keep], two[keep]

"""Room for one more: a piece is put where it overlaps least, and it and its neighbours push each other apart.

Every pair that is too near is moved apart along the shortest way out of its no-fit outline, every piece off the stock is moved back on, all
at once and again and again, until nothing overlaps or the attempt is given up. The work is counted, not timed, so that the same input always
gives the same layout.
"""

from __future__ import annotations

import numpy as np
import shapely

from bellowscut.nesting.field import Field
from bellowscut.nesting.greedy import Laid
from bellowscut.nesting.nofit import FloatArray, Pose, no_fit

PLAY = 1e-5
"""Extra distance kept while pushing, so that an end to it is reached [mm]."""

ROUNDS = 260
"""Most rounds of pushing in one attempt [-]."""


class Planes:
    """No-fit outlines of every pair of poses as half-planes, in arrays to be indexed by pair.

    Parameters
    ----------
    poses : list of Pose
        All poses that occur.
    gap : float
        Least distance [mm].
    """

    def __init__(self, poses: list[Pose], gap: float) -> None:
        outlines = [[no_fit(one, other, gap + PLAY) for other in poses] for one in poses]
        self.most = max(len(some) for row in outlines for some in row)
        sides = max(len(outline) for row in outlines for some in row for outline in some)
        count = len(poses)
        self.normals = np.zeros((count, count, self.most, sides, 2))
        self.reach = np.full((count, count, self.most, sides), np.inf)
        self.reach[:, :, :, 0] = -1.0  # a pair with fewer outlines has empty ones: nothing is ever inside them
        self.radius = 0.0
        for i in range(count):
            for j in range(count):
                for k, outline in enumerate(outlines[i][j]):
                    edges = np.roll(outline, -1, axis=0) - outline
                    normals = np.stack((edges[:, 1], -edges[:, 0]), axis=1) / np.hypot(edges[:, 0], edges[:, 1])[:, None]
                    self.normals[i, j, k, : len(outline)] = normals
                    self.reach[i, j, k, : len(outline)] = np.einsum("ij,ij->i", normals, outline)
                    self.radius = max(self.radius, float(np.hypot(outline[:, 0], outline[:, 1]).max()))


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
    seed : int
        Start of the row of chance numbers [-].
    """

    def __init__(self, field: Field, laid: Laid, extra: tuple[Pose, ...], seed: int) -> None:
        self.field = field
        self.poses = list(dict.fromkeys((*laid.poses, *extra)))
        index = {piece: i for i, piece in enumerate(self.poses)}
        self.kinds = np.array([index[piece] for piece in laid.poses], dtype=np.int64)
        self.points = np.array(laid.points, dtype=float).reshape(-1, 2)
        self.extra = [index[piece] for piece in extra if not field.positions(piece).is_empty]
        self.planes = Planes(self.poses, field.gap)
        self.areas = [field.positions(piece) for piece in self.poses]
        for area in self.areas:
            shapely.prepare(area)
        self.chance = np.random.default_rng(seed)
        self.work = 0
        self.size = max(float(np.ptp(self.poses[i].points, axis=0).max()) for i in self.extra) if self.extra else 0.0

    def laid(self) -> Laid:
        """The pieces as they lie now."""
        return Laid([self.poses[k] for k in self.kinds.tolist()], [(float(x), float(y)) for x, y in self.points])

    def sites(self) -> list[tuple[float, int, float, float]]:
        """Places for one more piece: overlap [mm], pose and position, least overlap first."""
        found: list[tuple[float, int, float, float]] = []
        tree = shapely.STRtree(shapely.points(self.points))
        for kind in self.extra:
            x0, y0, x1, y1 = self.areas[kind].bounds
            narrow = float(np.ptp(self.poses[kind].points, axis=0).min())
            step = max(narrow / 5, ((x1 - x0) * (y1 - y0) / 6000) ** 0.5)
            xs = np.arange(x0 + step * self.chance.random(), x1, step)
            ys = np.arange(y0 + step * self.chance.random(), y1, step)
            marks = np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)
            marks = marks[shapely.contains_xy(self.areas[kind], marks[:, 0], marks[:, 1])]
            if not len(marks):
                continue
            one, other = tree.query(shapely.points(marks), predicate="dwithin", distance=self.planes.radius)
            depth, _ = self._depth(self.kinds[other], np.full(len(one), kind), marks[one] - self.points[other])
            total = np.bincount(one, np.maximum(depth, 0.0).sum(axis=1), minlength=len(marks))
            self.work += 20
            best = np.argsort(total, kind="stable")[:400]
            found += [(float(total[i]), kind, float(marks[i, 0]), float(marks[i, 1])) for i in best]
        found.sort()
        apart: list[tuple[float, int, float, float]] = []
        for site in found:
            if all(abs(site[2] - x) + abs(site[3] - y) > self.size * 0.5 for _, _, x, y in apart):
                apart.append(site)
            if len(apart) >= 60:
                break
        return apart

    def _depth(self, one: np.ndarray, other: np.ndarray, away: FloatArray) -> tuple[FloatArray, np.ndarray]:
        """How deep positions lie in no-fit outlines, per outline, and which side is nearest."""
        values = self.planes.reach[one, other] - np.einsum("nkpd,nd->nkp", self.planes.normals[one, other], away)
        side = values.argmin(axis=2)
        return np.take_along_axis(values, side[:, :, None], axis=2)[:, :, 0], side

    def insert(self, site: tuple[float, int, float, float], spread: float) -> bool:
        """Try to put one more piece at a site, moving those nearer than `spread` [mm]; undone when it fails."""
        points = np.concatenate((self.points, [[site[2], site[3]]]))
        kinds = np.concatenate((self.kinds, [site[1]]))
        away = np.hypot(*(points - points[-1]).T)
        active = np.flatnonzero(away <= spread)
        moved = self.relax(points, kinds, active)
        if moved is None:
            return False
        self.points, self.kinds = moved, kinds
        return True

    def relax(self, points: FloatArray, kinds: np.ndarray, active: np.ndarray, rounds: int = ROUNDS) -> FloatArray | None:
        """Push pieces apart until nothing overlaps.

        Parameters
        ----------
        points : ndarray, shape (n, 2)
            Reference points [mm].
        kinds : ndarray, shape (n,)
            Pose of each piece.
        active : ndarray, shape (m,)
            Pieces that may move.
        rounds : int
            Most rounds [-].

        Returns
        -------
        ndarray or None
            The points with nothing overlapping, or None.
        """
        points = points.copy()
        movable = np.zeros(len(points))
        movable[active] = 1.0
        reach = self.planes.radius + 4.0
        near_edge = np.array(
            [
                i
                for i in active.tolist()
                if not shapely.dwithin(self.areas[kinds[i]], shapely.Point(points[i]), 0)
                or shapely.distance(self.areas[kinds[i]].boundary, shapely.Point(points[i])) < 15
            ],
            dtype=np.int64,
        )
        sorts = [(k, near_edge[kinds[near_edge] == k]) for k in np.unique(kinds[near_edge]).tolist()]
        best, since = np.inf, 0
        for turn in range(rounds):
            if turn % 25 == 0:
                first, second, normals, sides, share_one, share_two = self._pairs(points, kinds, active, movable, reach)
            self.work += 1
            values = sides - np.einsum("nkpd,nd->nkp", normals, points[second] - points[first])
            side = values.argmin(axis=2)
            depth = np.take_along_axis(values, side[:, :, None], axis=2)[:, :, 0]
            pair, outline = np.nonzero(depth > 0)
            amount = depth[pair, outline]
            push = normals[pair, outline, side[pair, outline]] * amount[:, None]
            shift = np.zeros_like(points)
            number = np.zeros(len(points))
            np.add.at(shift, first[pair], -push * share_one[pair, None])
            np.add.at(shift, second[pair], push * share_two[pair, None])
            np.add.at(number, first[pair], 1.0)
            np.add.at(number, second[pair], 1.0)
            worst = float(amount.max()) if len(amount) else 0.0
            total = float(amount.sum())
            points += shift * (1.5 / np.maximum(number, 1.5))[:, None] * movable[:, None]
            total += self._back_inside(points, sorts)
            if worst < PLAY and total < len(points) * PLAY and self._clean(points, first, second, normals, sides):
                return points
            if total < best * 0.97:
                best, since = total, 0
            else:
                since += 1
                if since > 40:
                    return None
        return None

    def _clean(self, points: FloatArray, first: np.ndarray, second: np.ndarray, normals: FloatArray, sides: FloatArray) -> bool:
        """Whether no pair is nearer than the gap, the play not counted."""
        values = sides - np.einsum("nkpd,nd->nkp", normals, points[second] - points[first])
        return bool(values.min(axis=2).max(initial=-1.0) <= PLAY)

    def _pairs(
        self, points: FloatArray, kinds: np.ndarray, active: np.ndarray, movable: FloatArray, reach: float
    ) -> tuple[np.ndarray, np.ndarray, FloatArray, FloatArray, FloatArray, FloatArray]:
        """Pairs near enough to matter with at least one piece that may move, their half-planes, and how a push is shared."""
        low, high = points[active].min(axis=0) - reach, points[active].max(axis=0) + reach
        around = np.flatnonzero(np.all((points >= low) & (points <= high), axis=1))
        apart = points[active][:, None, :] - points[around][None, :, :]
        near = np.einsum("ijd,ijd->ij", apart, apart) < reach**2
        i, j = np.nonzero(near)
        one, two = active[i], around[j]
        keep = (one < two) | ((movable[two] == 0) & (one != two))
        one, two = one[keep], two[keep]
        free = movable[two]
        share = 1.0 / (1.0 + free)
        return one, two, self.planes.normals[kinds[one], kinds[two]], self.planes.reach[kinds[one], kinds[two]], share, share * free

    def _back_inside(self, points: FloatArray, sorts: list[tuple[int, np.ndarray]]) -> float:
        """Move pieces that are off their open positions to the nearest one; how far in all [mm]."""
        total = 0.0
        for kind, members in sorts:
            outside = members[~shapely.contains_xy(self.areas[kind], points[members, 0], points[members, 1])]
            if len(outside):
                lines = shapely.shortest_line(self.areas[kind], shapely.points(points[outside]))
                ends = shapely.get_coordinates(lines)[0::2]
                total += float(np.hypot(*(ends - points[outside]).T).sum())
                points[outside] = ends
        return total


def squeeze(field: Field, laid: Laid, extra: tuple[Pose, ...], work: int, most: int | None = None, seed: int = 1) -> tuple[Laid, int]:
    """Put in as many more pieces as a budget of work allows.

    Parameters
    ----------
    field : Field
        The stock.
    laid : Laid
        The pieces.
    extra : tuple of Pose
        Poses of the further pieces.
    work : int
        Rounds of pushing to spend [-].
    most : int or None
        Further pieces wanted [-]; None for as many as go in.
    seed : int
        Start of the row of chance numbers [-].

    Returns
    -------
    Laid, int
        The pieces, and the rounds spent.
    """
    if not extra or not len(laid):
        return laid, 0
    squeezer = Squeezer(field, laid, extra, seed)
    spread = 2.2 * squeezer.size
    start = len(laid)
    while squeezer.work < work and squeezer.extra:
        gained = False
        for site in squeezer.sites():
            if squeezer.work >= work or (most is not None and len(squeezer.points) - start >= most):
                break
            reach = spread * (0.8 + 0.9 * float(squeezer.chance.random()))
            if squeezer.insert(site, reach):
                gained = True
                break
        if most is not None and len(squeezer.points) - start >= most:
            break
        if not gained and squeezer.work >= work:
            break
    return squeezer.laid(), squeezer.work

"""Bottom-left: each piece goes to the lowest corner of all places where it may still lie.

Exact on no-fit regions. Each pose keeps the region in which its reference point may lie, in small polygons so that laying one piece changes
only a few of them.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from bellowscut.nesting.budget import Budget
from bellowscut.nesting.convex import FloatArray
from bellowscut.nesting.nofit import NUDGE, Pose, no_fit, polygons_of

TAKING = 0.15
"""Work of taking a piece newly laid out of the room of one pose [-]."""

Direction = tuple[float, float, float, float]
"""Weights of x and y in the first and in the second thing to keep low."""

DIRECTIONS: tuple[Direction, ...] = (
    (0.0, 1.0, 1.0, 0.0),
    (1.0, 0.0, 0.0, 1.0),
    (0.0, -1.0, 1.0, 0.0),
    (-1.0, 0.0, 0.0, 1.0),
    (0.0, 1.0, -1.0, 0.0),
    (1.0, 0.0, 0.0, -1.0),
    (0.0, -1.0, -1.0, 0.0),
    (-1.0, 0.0, 0.0, -1.0),
)


@dataclass
class Laid:
    """Pieces on one piece of stock.

    Parameters
    ----------
    poses : list of Pose
        Pose of each piece.
    points : list of tuple of float
        Where each reference point lies [mm].
    """

    poses: list[Pose] = field(default_factory=list)
    points: list[tuple[float, float]] = field(default_factory=list)

    def copy(self) -> Laid:
        """The same pieces in lists of their own."""
        return Laid(list(self.poses), list(self.points))

    def __len__(self) -> int:
        return len(self.poses)


def blocked(laid: Laid, piece: Pose, gap: float, near: FloatArray | None = None) -> list[BaseGeometry]:
    """Polygons of reference points where a pose would come too near to pieces that lie [mm].

    Parameters
    ----------
    laid : Laid
        The pieces that lie.
    piece : Pose
        The pose to be laid.
    gap : float
        Least distance [mm].
    near : ndarray or None
        Indices of the pieces that matter; None for all.

    Returns
    -------
    list of Geometry
        One for each convex part of each piece, a hair small so that an exact fit stays open.
    """
    groups: dict[int, tuple[Pose, list[tuple[float, float]]]] = {}
    for i in range(len(laid)) if near is None else near.tolist():
        groups.setdefault(id(laid.poses[i]), (laid.poses[i], []))[1].append(laid.points[i])
    found: list[BaseGeometry] = []
    for lying, points in groups.values():
        for outline in no_fit(lying, piece, gap):
            rings = np.array(points)[:, None, :] + _shrunk(outline)[None]
            found += shapely.polygons(rings).tolist()
    return found


def without(area: BaseGeometry, laid: Laid, piece: Pose, gap: float) -> BaseGeometry:
    """Positions of a pose less those that pieces forbid [mm]."""
    taken = blocked(laid, piece, gap)
    return area.difference(shapely.union_all(taken)) if taken else area


def _shrunk(outline: FloatArray) -> FloatArray:
    middle = outline.mean(axis=0)
    reach = float(np.hypot(*(outline - middle).T).max())
    return np.asarray(middle + (outline - middle) * (1 - 2 * NUDGE / reach))


class Room:
    """Where one pose may still lie.

    Parameters
    ----------
    piece : Pose
        The pose.
    area : Geometry
        Its positions around all pieces that lie already [mm].
    gap : float
        Least distance [mm].
    direction : Direction
        What to keep low.
    """

    def __init__(self, piece: Pose, area: BaseGeometry, gap: float, direction: Direction) -> None:
        self.piece, self.gap, self.direction = piece, gap, direction
        self.parts = [cell for part in polygons_of(area) for cell in _cells(part, piece)]
        self.boxes = np.array([part.bounds for part in self.parts]).reshape(-1, 4)
        self.keys = [self._key(part) for part in self.parts]

    def _key(self, part: BaseGeometry) -> tuple[float, float, float, float]:
        """The lowest corner of a polygon: what to keep low, first and second, and the corner."""
        a, b, c, d = self.direction
        corners = shapely.get_coordinates(part)
        first = np.round(corners @ np.array((a, b)), 6)
        second = corners @ np.array((c, d))
        i = int(np.lexsort((second, first))[0])
        return float(first[i]), float(second[i]), float(corners[i, 0]), float(corners[i, 1])

    def lowest(self) -> tuple[float, float, float, float] | None:
        """The best corner of all."""
        return min(self.keys) if self.keys else None

    def take(self, lying: Pose, point: tuple[float, float]) -> None:
        """Take out what a piece newly laid forbids."""
        if not self.parts:
            return
        for outline in no_fit(lying, self.piece, self.gap):
            ring = _shrunk(outline) + point
            (x0, y0), (x1, y1) = ring.min(axis=0), ring.max(axis=0)
            hit = (self.boxes[:, 0] <= x1) & (self.boxes[:, 2] >= x0) & (self.boxes[:, 1] <= y1) & (self.boxes[:, 3] >= y0)
            chosen = np.flatnonzero(hit)
            if not len(chosen):
                continue
            taken = shapely.Polygon(ring)
            fresh: list[BaseGeometry] = []
            for i in chosen:
                fresh += polygons_of(self.parts[i].difference(taken))
            kept = np.flatnonzero(~hit)
            self.parts = [self.parts[i] for i in kept] + fresh
            self.keys = [self.keys[i] for i in kept] + [self._key(part) for part in fresh]
            self.boxes = np.concatenate((self.boxes[kept], np.array([part.bounds for part in fresh]).reshape(-1, 4)))
            if not self.parts:
                return


def _cells(part: BaseGeometry, piece: Pose) -> list[BaseGeometry]:
    """A polygon cut by lines some pieces apart, so that later changes stay small."""
    size = 4 * float(np.ptp(piece.points, axis=0).max()) + 20
    x0, y0, x1, y1 = part.bounds
    across, up = math.ceil((x1 - x0) / size), math.ceil((y1 - y0) / size)
    if across * up <= 1:
        return [part]
    cells = []
    for i in range(across):
        strip = part.intersection(shapely.box(x0 + i * size, y0 - 1, x0 + (i + 1) * size, y1 + 1))
        for j in range(up):
            cells += polygons_of(strip.intersection(shapely.box(x0 - 1, y0 - 1 + j * size, x1 + 1, y0 - 1 + (j + 1) * size)))
    return cells


def lay(
    wanted: Sequence[tuple[str, Sequence[Pose], int | None]],
    areas: Callable[[Pose], BaseGeometry],
    laid: Laid,
    gap: float,
    direction: Direction,
    budget: Budget | None = None,
) -> Mapping[str, int]:
    """Lay pieces one after another, each at the lowest corner open to it.

    Parameters
    ----------
    wanted : sequence of (str, sequence of Pose, int or None)
        For each shape in the order of laying: its name, the poses allowed, how many (None: as many as fit).
    areas : callable
        Gives the positions of a pose around the pieces that lie already [mm].
    laid : Laid
        The pieces that lie already; the new ones are added to it.
    gap : float
        Least distance of two pieces [mm].
    direction : Direction
        What to keep low.
    budget : Budget or None
        Work to spend: when it is spent no more pieces are laid. None lays all that can be, whatever it takes.

    Returns
    -------
    mapping of str to int
        How many of each shape were laid [-].
    """
    done: dict[str, int] = {}
    start = len(laid)
    for name, poses, count in wanted:
        fresh = Laid(laid.poses[start:], laid.points[start:])
        rooms = [Room(piece, without(areas(piece), fresh, piece, gap), gap, direction) for piece in poses]
        done.setdefault(name, 0)
        left = count
        while (left is None or left > 0) and not (budget is not None and budget.spent):
            best: tuple[float, float, float, float] | None = None
            chosen = -1
            for i, room in enumerate(rooms):
                key = room.lowest()
                if key is not None:
                    key = _outer(key, room.piece, direction)
                    if best is None or key < best:
                        best, chosen = key, i
            if best is None:
                break
            point = (best[2], best[3])
            piece = rooms[chosen].piece
            laid.poses.append(piece)
            laid.points.append(point)
            done[name] += 1
            for room in rooms:
                room.take(piece, point)
            if budget is not None:
                budget.spend(TAKING * len(rooms))
            if left is not None:
                left -= 1
    return done


def _outer(key: tuple[float, float, float, float], piece: Pose, direction: Direction) -> tuple[float, float, float, float]:
    """A corner judged by how far the piece laid there would reach, so that turns compare fairly."""
    reach = piece.points @ np.array(direction[:2])
    low = piece.points @ np.array(direction[2:])
    return round(key[0] + float(reach.max()), 5), key[1] + float(low.min()), key[2], key[3]

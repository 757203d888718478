"""Where one piece may not lie because of another, and where it may lie on the stock.

A piece is worked with in a fixed turn, cut into convex parts about a reference point inside it. The positions of the reference point at which
two convex parts overlap fill their Minkowski sum; a gap grows that sum by a disc. All lengths in millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from bellowscut.nesting.model import Polygon, Shape, Stock
from bellowscut.shapes import cos_sin, signed_area

FloatArray = NDArray[np.floating[Any]]
IntArray = NDArray[np.integer[Any]]

NUDGE = 1e-7
"""A point on a boundary is not found inside it, so feasible regions are grown by this much [mm]."""

SMOOTH = 0.01
"""Convex parts of many corners are wrapped in fewer, this much larger at most [mm]."""


@dataclass(frozen=True, eq=False)
class Pose:
    """A shape in one turn, about its reference point.

    Parameters
    ----------
    shape : Shape
        The shape.
    turn : float
        Its turn [deg].
    parts : tuple of ndarray, shape (n, 2)
        Convex parts [mm], counter-clockwise, about the reference point.
    origin : tuple of float
        Where the part's own origin lies from the reference point [mm].
    """

    shape: Shape
    turn: float
    parts: tuple[FloatArray, ...]
    origin: tuple[float, float]

    @property
    def points(self) -> FloatArray:
        """All corner points of the convex parts [mm]."""
        return np.concatenate(self.parts)


def is_convex(points: Polygon) -> bool:
    """Whether a counter-clockwise outline has no hollow corner."""
    corners = np.asarray(points, dtype=float)
    edges = np.roll(corners, -1, axis=0) - corners
    following = np.roll(edges, -1, axis=0)
    turning = edges[:, 0] * following[:, 1] - edges[:, 1] * following[:, 0]
    return bool(np.all(turning >= -1e-9))


def convex_parts(points: Polygon) -> tuple[FloatArray, ...]:
    """Cut an outline into convex parts: triangles, joined again while the union stays convex.

    Parameters
    ----------
    points : tuple of Point
        Outline [mm], either way round.

    Returns
    -------
    tuple of ndarray, shape (n, 2)
        Counter-clockwise parts [mm] that cover the outline.
    """
    if signed_area(points) < 0:
        points = tuple(reversed(points))
    if is_convex(points):
        return (_fewer_corners(np.asarray(points, dtype=float)),)
    parts = _ears(points)
    joined = True
    while joined:
        joined = False
        for i in range(len(parts)):
            for j in range(i + 1, len(parts)):
                union = _join(parts[i], parts[j])
                if union is not None:
                    parts[i] = union
                    del parts[j]
                    joined = True
                    break
            if joined:
                break
    return tuple(_fewer_corners(np.asarray(part, dtype=float)) for part in parts)


def _ears(points: Polygon) -> list[Polygon]:
    """Cut a simple counter-clockwise outline into triangles, fattest ear first."""
    left = list(points)
    triangles: list[Polygon] = []
    while len(left) > 3:
        best, chosen = -1.0, -1
        for i in range(len(left)):
            a, b, c = left[i - 1], left[i], left[(i + 1) % len(left)]
            area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
            if area <= 1e-12:
                if abs(area) <= 1e-12 and best < 0:
                    best, chosen = 0.0, i
                continue
            longest = max(math.dist(a, b), math.dist(b, c), math.dist(c, a))
            if area / longest**2 > best and not any(_in_triangle(p, a, b, c) for p in left if p not in (a, b, c)):
                best, chosen = area / longest**2, i
        a, b, c = left[chosen - 1], left[chosen], left[(chosen + 1) % len(left)]
        if best > 0:
            triangles.append((a, b, c))
        del left[chosen]
    if abs(signed_area(tuple(left))) > 1e-12:
        triangles.append(tuple(left))
    return triangles


def _in_triangle(p: tuple[float, float], a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> bool:
    return all((q[0] - o[0]) * (p[1] - o[1]) - (q[1] - o[1]) * (p[0] - o[0]) >= -1e-12 for o, q in ((a, b), (b, c), (c, a)))


def _join(one: Polygon, other: Polygon) -> Polygon | None:
    """The union of two convex parts with a common edge when it is convex, else None."""
    for i, start in enumerate(one):
        end = one[(i + 1) % len(one)]
        for j, first in enumerate(other):
            if first == end and other[(j + 1) % len(other)] == start:
                ring = one[i + 1 :] + one[: i + 1] + (other[j + 2 :] + other[:j] if j + 2 <= len(other) else other[1:j])
                return ring if is_convex(ring) else None
    return None


def _fewer_corners(corners: FloatArray) -> FloatArray:
    """The same convex part, or one a little larger with fewer corners when it has very many."""
    points = [tuple(point) for point in corners.tolist()]
    while len(points) > 20:
        cheapest, chosen, apex = SMOOTH, -1, (0.0, 0.0)
        for i in range(len(points)):
            a, b, c, d = (np.array(points[(i + k) % len(points)]) for k in range(4))
            first, last = b - a, d - c
            cross = first[0] * last[1] - first[1] * last[0]
            if cross <= 1e-12 * float(np.hypot(*first) * np.hypot(*last)):
                continue
            meet = b + first * (((c - b)[0] * last[1] - (c - b)[1] * last[0]) / cross)
            edge = c - b
            rise = abs(edge[0] * (meet - b)[1] - edge[1] * (meet - b)[0]) / float(np.hypot(*edge))
            if rise < cheapest:
                cheapest, chosen, apex = rise, i, (float(meet[0]), float(meet[1]))
        if chosen < 0:
            break
        points[(chosen + 1) % len(points)] = apex
        del points[(chosen + 2) % len(points)]
    return np.array(points)


@lru_cache(maxsize=256)
def _cut(points: Polygon) -> tuple[tuple[FloatArray, ...], tuple[float, float]]:
    """Convex parts of an outline about a reference point inside it, and that point."""
    parts = convex_parts(points)
    low, high = np.concatenate(parts).min(axis=0), np.concatenate(parts).max(axis=0)
    middle = (low + high) / 2
    if not any(_inside(part, middle) for part in parts):
        widest = max(parts, key=lambda part: shapely.Polygon(part).area)
        middle = widest.mean(axis=0)
    return tuple(part - middle for part in parts), (float(middle[0]), float(middle[1]))


def _inside(part: FloatArray, point: FloatArray) -> bool:
    edges = np.roll(part, -1, axis=0) - part
    away = point - part
    return bool(np.all(edges[:, 0] * away[:, 1] - edges[:, 1] * away[:, 0] > 1e-9))


@lru_cache(maxsize=4096)
def pose(shape: Shape, turn: float) -> Pose:
    """A shape in one turn [deg]."""
    parts, middle = _cut(shape.points)
    cosine, sine = cos_sin(turn)
    turned = np.array([[cosine, sine], [-sine, cosine]])
    x, y = -cosine * middle[0] + sine * middle[1], -sine * middle[0] - cosine * middle[1]
    return Pose(shape, turn, tuple(part @ turned for part in parts), (x, y))


def minkowski(one: FloatArray, other: FloatArray) -> FloatArray:
    """Sum of two convex counter-clockwise outlines [mm]."""
    edges, start = [], np.zeros(2)
    for outline in (one, other):
        first = int(np.lexsort((outline[:, 0], outline[:, 1]))[0])
        rolled = np.roll(outline, -first, axis=0)
        start = start + rolled[0]
        edges.append(np.roll(rolled, -1, axis=0) - rolled)
    steps = np.concatenate(edges)
    steps = steps[np.hypot(steps[:, 0], steps[:, 1]) > 1e-12]
    angles = np.arctan2(steps[:, 1], steps[:, 0]) % (2 * np.pi)
    angles[angles > 2 * np.pi - 1e-12] = 0.0
    order = np.argsort(angles, kind="stable")
    steps, angles = steps[order], angles[order]
    fresh = np.concatenate(([True], np.diff(angles) > 1e-9))
    merged = np.add.reduceat(steps, np.flatnonzero(fresh), axis=0)
    return np.asarray(start + np.concatenate((np.zeros((1, 2)), np.cumsum(merged, axis=0)[:-1])))


def fatten(outline: FloatArray, gap: float, step: float = 15.0) -> FloatArray:
    """A convex outline grown by a gap, each round corner wrapped in tangents.

    Edges keep their exact distance, and so do the tangents at multiples of `step`, the axes among them; in between the result is a little
    too large, never too small.

    Parameters
    ----------
    outline : ndarray, shape (n, 2)
        Convex, counter-clockwise [mm].
    gap : float
        How much to grow [mm].
    step : float
        Angle between tangents [deg], a divisor of 90.

    Returns
    -------
    ndarray, shape (m, 2)
        Convex, counter-clockwise [mm].
    """
    if gap <= 0:
        return outline
    edges = np.roll(outline, -1, axis=0) - outline
    lengths = np.hypot(edges[:, 0], edges[:, 1])
    normals = np.arctan2(-edges[:, 0], edges[:, 1])
    angles: list[float] = []
    anchors: list[int] = []
    count = len(outline)
    for i in range(count):
        if lengths[i] < 1e-12:
            continue
        before, after = normals[i - 1], normals[i]
        sweep = (after - before) % (2 * math.pi)
        if sweep > math.pi:
            sweep = 0.0
        grid = math.radians(step)
        first = math.floor(before / grid + 1e-6) + 1
        while first * grid < before + sweep - 1e-6:
            angles.append(first * grid)
            anchors.append(i)
            first += 1
        angles.append(float(after))
        anchors.append(i)
    directions = np.stack((np.cos(angles), np.sin(angles)), axis=1)
    reach = np.einsum("ij,ij->i", directions, outline[anchors]) + gap
    following, further = np.roll(directions, -1, axis=0), np.roll(reach, -1)
    cross = directions[:, 0] * following[:, 1] - directions[:, 1] * following[:, 0]
    sound = cross > 1e-9
    safe = np.where(sound, cross, 1.0)
    x = (reach * following[:, 1] - further * directions[:, 1]) / safe
    y = (further * directions[:, 0] - reach * following[:, 0]) / safe
    corners: FloatArray = np.stack((x, y), axis=1)[sound]
    return corners


@lru_cache(maxsize=8192)
def no_fit(one: Pose, other: Pose, gap: float, step: float = 15.0) -> tuple[FloatArray, ...]:
    """Positions of the second pose's reference point from the first's at which they are nearer than the gap.

    Parameters
    ----------
    one, other : Pose
        The piece that lies and the piece to be laid.
    gap : float
        Least distance [mm].
    step : float
        Angle between tangents at round corners [deg].

    Returns
    -------
    tuple of ndarray, shape (n, 2)
        Convex outlines [mm], each open: its boundary is allowed.
    """
    return tuple(fatten(minkowski(a, -b), gap, step) for a in one.parts for b in other.parts)


def free_area(stock: Stock, kind: str, length: float | None = None) -> BaseGeometry:
    """The part of a stock in which pieces of a kind may lie [mm].

    Parameters
    ----------
    stock : Stock
        The stock.
    kind : str
        Kind of the piece, for barred zones.
    length : float or None
        For a roll: the length to use, with both margins [mm].

    Returns
    -------
    Geometry
        Polygons, perhaps several or none; an exact subset of the true area.
    """
    if stock.width is not None:
        room = 0.0 if length is None else length
        inner: BaseGeometry = shapely.box(stock.margin, stock.margin, room - stock.margin, stock.width - stock.margin)
        if room <= 2 * stock.margin or stock.width < 2 * stock.margin:
            inner = shapely.Polygon()
    else:
        points = stock.outline if signed_area(stock.outline) > 0 else tuple(reversed(stock.outline))
        inner = shapely.Polygon(points)
        if stock.margin > 0:
            inner = inner.difference(_border(points, stock.margin))
    taken = [_grown(flaw, stock.flaw_gap) for flaw in stock.flaws]
    taken += [shapely.Polygon(zone) for zone in stock.barred.get(kind, ())]
    return inner.difference(shapely.union_all(taken)) if taken else inner


def _border(points: Polygon, radius: float) -> BaseGeometry:
    """All points inside a counter-clockwise outline nearer than a radius to it; round only at hollow corners."""
    corners = np.asarray(points, dtype=float)
    corners = corners[np.hypot(*(corners - np.roll(corners, 1, axis=0)).T) > 1e-9]
    edges = np.roll(corners, -1, axis=0) - corners
    edges /= np.hypot(edges[:, 0], edges[:, 1])[:, None]
    inward = np.stack((-edges[:, 1], edges[:, 0]), axis=1) * radius
    bands = []
    for i, corner in enumerate(corners):
        following, before = corners[(i + 1) % len(corners)], inward[i - 1]
        bands.append(shapely.Polygon((corner - inward[i], following - inward[i], following + inward[i], corner + inward[i])))
        if edges[i - 1][0] * edges[i][1] - edges[i - 1][1] * edges[i][0] < -1e-9:
            start, end = math.atan2(inward[i][1], inward[i][0]), math.atan2(before[1], before[0])
            sweep = (end - start) % (2 * math.pi)
            pieces = max(1, math.ceil(sweep / math.radians(7.5)))
            half = sweep / pieces / 2
            turns = [start + half * (2 * k + 1) for k in range(pieces)]
            arc = [corner + radius / math.cos(half) * np.array((math.cos(turn), math.sin(turn))) for turn in turns]
            bands.append(shapely.Polygon([corner, corner + inward[i], *arc, corner + before]))
    return shapely.union_all(bands)


def _grown(zone: Polygon, gap: float) -> BaseGeometry:
    """A zone and all nearer than a gap to it, never too small."""
    return shapely.union_all([shapely.Polygon(fatten(part, gap, 7.5)) for part in convex_parts(zone)])


def positions(area: BaseGeometry, piece: Pose) -> BaseGeometry:
    """Where the reference point of a pose may be so that the whole piece lies in an area.

    The area's boundary is swept by the reflected piece; what the sweep leaves of the area is the answer, grown by `NUDGE` so that a piece that
    fits exactly is found.

    Parameters
    ----------
    area : Geometry
        Polygons [mm].
    piece : Pose
        The piece.

    Returns
    -------
    Geometry
        Polygons [mm], perhaps none.
    """
    area = area.buffer(NUDGE, join_style="mitre")
    starts, ends = [], []
    for polygon in getattr(area, "geoms", (area,)):
        if polygon.is_empty:
            continue
        for ring in (polygon.exterior, *polygon.interiors):
            coordinates = shapely.get_coordinates(ring)
            starts.append(coordinates[:-1])
            ends.append(coordinates[1:])
    if not starts:
        return shapely.Polygon()
    start, end = np.concatenate(starts), np.concatenate(ends)
    swept: list[Any] = []
    for part in piece.parts:
        both = np.concatenate((start[:, None, :] - part[None], end[:, None, :] - part[None]), axis=1)
        count, corners = both.shape[:2]
        points = shapely.multipoints(both.reshape(-1, 2), indices=np.repeat(np.arange(count), corners))
        swept.append(shapely.convex_hull(points))
    return area.difference(shapely.union_all(np.concatenate(swept)))


def polygons_of(area: BaseGeometry) -> list[BaseGeometry]:
    """The single polygons of a geometry, without points and lines."""
    parts: Sequence[BaseGeometry] = shapely.get_parts(area).tolist()
    return [part for part in parts if part.geom_type == "Polygon" and not part.is_empty]

"""Convex outlines: cutting others into them, adding two of them, growing them by a gap. All lengths in millimetres."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

from bellowscut.nesting.model import Polygon
from bellowscut.shapes import signed_area

FloatArray = NDArray[np.floating[Any]]
IntArray = NDArray[np.integer[Any]]

SMOOTH = 0.01
"""Convex parts of many corners are wrapped in fewer, this much larger at most [mm]."""


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

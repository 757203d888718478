"""A segment taken out step by step, point by point: nothing here knows the program's polygons of what moves where.

Points along the edges of its boards are moved inward by small steps. At each
step none may lie in a board that still stands; at the end all must lie inside
the valleys. Whether a point lies in a polygon is counted by a ray.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Point = tuple[float, float]
Polygon = Sequence[Point]

APART = 1.0
"""From point to point along an edge, and from step to step [mm]."""


def inside(points: Sequence[Point] | Array, polygon: Polygon) -> NDArray[np.bool_]:
    """Whether a ray to the right of each point crosses the edges an odd number of times."""
    x, y = np.asarray(points, dtype=np.float64).reshape(-1, 2).T
    odd = np.zeros(len(x), dtype=np.bool_)
    for (ax, ay), (bx, by) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        if ay != by:
            odd ^= ((ay > y) != (by > y)) & (x < ax + (y - ay) * (bx - ax) / (by - ay))
    return odd


def along(polygon: Polygon) -> Iterator[Point]:
    """Points on the edges of a polygon."""
    for a, b in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        count = max(1, math.ceil(math.dist(a, b) / APART))
        for k in range(count):
            yield a[0] + (b[0] - a[0]) * k / count, a[1] + (b[1] - a[1]) * k / count


def boards(ridge: tuple[Point, Point], places: Sequence[float], sizes: tuple[float, float, float, float, float]) -> list[list[Point]]:
    """Boards of a segment in the section: combs and side board, from figures alone.

    `sizes` are ply, depth of the side board's front, of its back, and its left and right edge.
    """
    (ax, ay), (bx, by) = ridge
    ply, front, back, left, right = sizes
    angle = math.atan2(by - ay, bx - ax)

    def at(x: float, depth: float) -> Point:
        turned = complex(x, depth) * complex(math.cos(angle), math.sin(angle))
        return ax + turned.real, ay + turned.imag

    def box(first: float, last: float, low: float, high: float) -> list[Point]:
        return [at(first, low), at(last, low), at(last, high), at(first, high)]

    return [*(box(x - ply / 2, x + ply / 2, 0.0, back) for x in places), box(left, right, front, back)]


def collisions(moving: Sequence[Polygon], standing: Sequence[Polygon], direction: Point, far: float, valleys: Polygon) -> list[str]:
    """What happens on the way: nothing, for a piece that comes out."""
    found = []
    points = np.array([point for board in moving for point in along(board)])
    corners = np.array([point for board in standing for point in along(board)]).reshape(-1, 2)
    steps = max(1, math.ceil(far / APART))
    for step in range(steps + 1):
        moved = np.array(direction) * (far * step / steps)
        if any(inside(points + moved, board).any() for board in standing):
            found.append(f"strikes a board after {far * step / steps:.1f} mm")
            break
        if any(inside(corners - moved, board).any() for board in moving):
            found.append(f"is struck after {far * step / steps:.1f} mm")
            break
    if not inside(points + np.array(direction) * far, valleys).all():
        found.append("does not pass the valleys")
    return found

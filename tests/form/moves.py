"""A segment taken out step by step, point by point: nothing here knows the program's polygons of what moves where.

Points along the edges of its boards are moved inward by small steps. At each
step none may lie in a board that still stands; at the end all must lie inside
the valleys. Whether a point lies in a polygon is counted by a ray.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

Point = tuple[float, float]
Polygon = Sequence[Point]

APART = 1.0
"""From point to point along an edge, and from step to step [mm]."""


def inside(point: Point, polygon: Polygon) -> bool:
    """Whether a ray to the right crosses the edges an odd number of times."""
    x, y = point
    crossings = 0
    for (ax, ay), (bx, by) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            crossings += 1
    return crossings % 2 == 1


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
    points = [point for board in moving for point in along(board)]
    corners = [point for board in standing for point in along(board)]
    steps = max(1, math.ceil(far / APART))
    for step in range(steps + 1):
        dx, dy = direction[0] * far * step / steps, direction[1] * far * step / steps
        if any(inside((x + dx, y + dy), board) for x, y in points for board in standing):
            found.append(f"strikes a board after {far * step / steps:.1f} mm")
            break
        if any(inside((x - dx, y - dy), board) for x, y in corners for board in moving):
            found.append(f"is struck after {far * step / steps:.1f} mm")
            break
    dx, dy = direction[0] * far, direction[1] * far
    if not all(inside((x + dx, y + dy), valleys) for x, y in points):
        found.append("does not pass the valleys")
    return found

"""How close two outlines can come, and the plain polygons that this is asked of."""

from __future__ import annotations

import math
from collections.abc import Sequence

from bellowscut.shapes import Point, turn_by


def turned(points: Sequence[Point], turn: int) -> tuple[Point, ...]:
    """Points turned about the origin by a quarter turn or several [deg]."""
    return tuple(map(turn_by(turn), points))


def clearing_shift(one: Sequence[Point], other: Sequence[Point], gap: float) -> float:
    """How far right `other` must move so that it stands clear of `one` on its right.

    Parameters
    ----------
    one, other : sequence of Point
        Two counter-clockwise polygons [mm].
    gap : float
        Least distance between them afterwards [mm].

    Returns
    -------
    float
        The shift [mm], negative when there was room; minus infinity when they
        never meet, one being above the other.
    """
    shift = -math.inf
    right, left = _facing(one, up=True), _facing(other, up=False)
    corners, others = dict.fromkeys(p for edge in right for p in edge), dict.fromkeys(p for edge in left for p in edge)
    for u, v in corners:
        for p, q in others:
            y = v - q
            if -gap < y < gap and u - p + gap > shift:
                shift = max(shift, u - p + math.sqrt(gap * gap - y * y))
        # Each corner of one runs along each edge of the other, and the other way about.
        for (ap, aq), (bp, bq) in left:
            if bq - gap < v < aq + gap and u - (min(bp, ap)) + gap > shift:
                shift = max(shift, _crossing(u - ap, v - aq, u - bp, v - bq, gap))
    for (au, av), (bu, bv) in right:
        for p, q in others:
            if av - gap < q < bv + gap and (max(bu, au)) - p + gap > shift:
                shift = max(shift, _crossing(au - p, av - q, bu - p, bv - q, gap))
    return shift


def _facing(points: Sequence[Point], *, up: bool) -> list[tuple[Point, Point]]:
    """Edges that run up, which face right on a counter-clockwise polygon, or those that run down."""
    pairs = ((points[i - 1], point) for i, point in enumerate(points))
    return [(a, b) for a, b in pairs if (b[1] > a[1] if up else b[1] < a[1])]


def _crossing(x: float, y: float, u: float, v: float, gap: float) -> float:
    """Where a segment set off by `gap` to the right crosses height 0."""
    dx, dy = u - x, v - y
    length = math.hypot(dx, dy)
    if dy == 0 or length == 0:
        return -math.inf
    side = gap / length if dy > 0 else -gap / length
    x, y = x + dy * side, y - dx * side
    along = -y / dy
    return x + along * dx if 0 <= along <= 1 else -math.inf


def simplified(points: Sequence[Point], tolerance: float) -> tuple[Point, ...]:
    """A closed polygon with fewer points, none of the dropped ones further off than `tolerance` [mm]."""
    count = len(points)
    if count < 4:
        return tuple(points)
    low = min(range(count), key=lambda k: points[k])
    far = max(range(count), key=lambda k: (math.dist(points[low], points[k]), k))
    ring = [points[(low + k) % count] for k in range(count)] + [points[low]]
    middle = (far - low) % count
    kept = _kept(ring[: middle + 1], tolerance)[:-1] + _kept(ring[middle:], tolerance)[:-1]
    return tuple(kept)


def _kept(run: list[Point], tolerance: float) -> list[Point]:
    worst, at = 0.0, 0
    start, end = run[0], run[-1]
    length = math.dist(start, end)
    for k, point in enumerate(run[1:-1], 1):
        if length:
            off = abs((end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])) / length
        else:
            off = math.dist(start, point)
        if off > worst:
            worst, at = off, k
    if worst <= tolerance:
        return [start, end]
    return _kept(run[: at + 1], tolerance)[:-1] + _kept(run[at:], tolerance)

"""Room for letters between lines: what touches a box of letters, and which lines cross."""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.shapes import Point, bounds

Segment = tuple[Point, Point]


class Area:
    """A convex box that letters take up.

    Parameters
    ----------
    corners : sequence of Point
        Counter-clockwise [mm].
    """

    def __init__(self, corners: Sequence[Point]) -> None:
        self._corners = tuple(corners)
        self._left, self._low, self._right, self._high = bounds(self._corners)

    def touched(self, *lines: Segment) -> bool:
        """Whether any of some segments has a point inside."""
        left, low, right, high = self._left, self._low, self._right, self._high
        for (ax, ay), (bx, by) in lines:
            # Most lines lie clear of the upright box round the letters.
            if (ax <= left and bx <= left) or (ax >= right and bx >= right) or (ay <= low and by <= low) or (ay >= high and by >= high):
                continue
            if self._entered(ax, ay, bx, by):
                return True
        return False

    def _entered(self, ax: float, ay: float, bx: float, by: float) -> bool:
        dx, dy = bx - ax, by - ay
        first, last = 0.0, 1.0
        for i, (qx, qy) in enumerate(self._corners):
            px, py = self._corners[i - 1]
            nx, ny = py - qy, qx - px
            start, slope = (ax - px) * nx + (ay - py) * ny, dx * nx + dy * ny
            if abs(slope) < 1e-12:
                if start <= 0:
                    return False
            elif slope > 0:
                first = max(first, -start / slope)
            else:
                last = min(last, -start / slope)
            if first >= last:
                return False
        return True

    def meets(self, other: Area) -> bool:
        """Whether two boxes share more than an edge."""
        if self._left >= other._right or other._left >= self._right or self._low >= other._high or other._low >= self._high:
            return False
        for one, two in ((self, other), (other, self)):
            for i, q in enumerate(one._corners):
                if all(_side(one._corners[i - 1], q, p) <= 0 for p in two._corners):
                    return False
        return True


def _side(a: Point, b: Point, p: Point) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def crossed(one: Segment, others: Sequence[Segment]) -> bool:
    """Whether any of some segments crosses one at a point inside both.

    Parameters
    ----------
    one : tuple of Point
        A segment by its ends [mm].
    others : sequence of segments
        What it may cross.
    """
    a, b = one
    left, right = (a[0], b[0]) if a[0] < b[0] else (b[0], a[0])
    low, high = (a[1], b[1]) if a[1] < b[1] else (b[1], a[1])
    for c, d in others:
        # Most lines lie clear of the upright box round the first.
        if (c[0] < left and d[0] < left) or (c[0] > right and d[0] > right) or (c[1] < low and d[1] < low) or (c[1] > high and d[1] > high):
            continue
        if _side(a, b, c) * _side(a, b, d) < -1e-9 and _side(c, d, a) * _side(c, d, b) < -1e-9:
            return True
    return False

"""Free places inside a part, for its lettering.

A box is looked for that keeps clear of the part's edge and of every line on
it, as near to the middle as can be.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from bellowscut.layout.tiles import Segment, inside
from bellowscut.shapes import Point, bounds, centroid, turn_by

HATCH = 1.5
"""Distance of the lines that fill a taken box [mm], less than any box that is placed."""

STEPS = 40
"""How many heights are tried [-]."""


@dataclass(frozen=True)
class Place:
    """Where a box fits.

    Parameters
    ----------
    centre : Point
        Middle of the box [mm].
    angle : float
        Direction of its long way, counter-clockwise [deg].
    """

    centre: Point
    angle: float

    def point(self, x: float, y: float) -> Point:
        """A point given from the middle of the box, along and across it [mm]."""
        u, v = turn_by(self.angle)((x, y))
        return self.centre[0] + u, self.centre[1] + v


def edges(points: Sequence[Point], *, closed: bool) -> list[Segment]:
    """The segments of a run of points [mm]."""
    pairs = list(pairwise(points))
    return [*pairs, (points[-1], points[0])] if closed else pairs


def box_edges(place: Place, width: float, height: float) -> list[Segment]:
    """A box that holds something already, as lines so close that nothing else comes between them [mm]."""
    x, y = width / 2, height / 2
    count = max(1, math.ceil(height / HATCH))
    return [(place.point(-x, y * (2 * k / count - 1)), place.point(x, y * (2 * k / count - 1))) for k in range(count + 1)]


def opening(
    points: Sequence[Point], lines: Sequence[Segment], width: float, height: float, clear: float, angle: float = 0.0
) -> Place | None:
    """Find room for a box in a part.

    Parameters
    ----------
    points : sequence of Point
        Outline, arcs cut into chords [mm].
    lines : sequence of Segment
        What the box must keep clear of [mm].
    width, height : float
        Of the box [mm].
    clear : float
        Least distance to outline and lines, along and across the box [mm].
    angle : float
        Direction of the box [deg].

    Returns
    -------
    Place or None
        The place nearest to the part's middle.
    """
    back = turn_by(-angle)
    shape = [back(p) for p in points]
    # The lower end of each first.
    segments = [(a, b) if a[1] <= b[1] else (b, a) for a, b in (*edges(shape, closed=True), *((back(a), back(b)) for a, b in lines))]
    left, low, right, high = bounds(shape)
    if width + 2 * clear > right - left or height + 2 * clear > high - low:
        return None
    middle = centroid(shape)
    first, last = low + clear + height / 2, high - clear - height / 2
    best: tuple[float, float, float] | None = None
    heights = [first + (last - first) * k / STEPS for k in range(STEPS + 1)]
    if first <= middle[1] <= last:
        heights.append(middle[1])
    for y in sorted(heights, key=lambda at: (round(abs(at - middle[1]), 6), at)):
        if best is not None and abs(y - middle[1]) >= best[0]:
            break
        for start, end in _free(shape, segments, y - height / 2 - clear, y + height / 2 + clear, width + 2 * clear):
            x = min(max(middle[0], start + clear + width / 2), end - clear - width / 2)
            far = math.hypot(x - middle[0], y - middle[1])
            if best is None or far < best[0] - 1e-9:
                best = (far, x, y)
    return None if best is None else Place(turn_by(angle)((best[1], best[2])), angle)


def _free(shape: Sequence[Point], segments: Sequence[Segment], low: float, high: float, least: float) -> list[tuple[float, float]]:
    """Stretches of a level band, `least` long or longer, that no segment touches and that lie inside; segments rise."""
    taken: list[tuple[float, float]] = []
    for (ax, ay), (bx, by) in segments:
        if by < low or ay > high:
            continue
        start = ax if ay >= low else ax + (bx - ax) * (low - ay) / (by - ay)
        end = bx if by <= high else ax + (bx - ax) * (high - ay) / (by - ay)
        taken.append((start, end) if start < end else (end, start))
    taken.sort()
    found: list[tuple[float, float]] = []
    reach = -math.inf
    for start, end in taken:
        if start - reach >= least and reach > -math.inf and inside(((reach + start) / 2, (low + high) / 2), shape):
            found.append((reach, start))
        reach = max(reach, end)
    return found

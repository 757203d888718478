"""Plain helpers in the plane: outlines with true arcs, convex polygons, half-planes.

Lengths in millimetres, y up, outlines counter-clockwise. Nothing here knows
what a bellows is.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

Point = tuple[float, float]

FLATTEN = 0.005
"""Greatest distance of a flattened arc from the true one [mm]."""


@dataclass(frozen=True)
class Outline:
    """A closed line of straight segments and circular arcs, counter-clockwise.

    Parameters
    ----------
    points : tuple of Point
        Corner points [mm]; the last joins the first.
    bulges : tuple of float
        For the segment that starts at each point, the tangent of a quarter of
        its arc angle [-]: 0 is straight, positive bends to the right of travel
        (outwards on a counter-clockwise outline).
    """

    points: tuple[Point, ...]
    bulges: tuple[float, ...]

    def flattened(self, tolerance: float = FLATTEN) -> tuple[Point, ...]:
        """Points of the outline with arcs cut into chords.

        Parameters
        ----------
        tolerance : float
            Greatest distance between arc and chord [mm].

        Returns
        -------
        tuple of Point
            At least the corner points, in order [mm].
        """
        found: list[Point] = []
        for i, start in enumerate(self.points):
            found.append(start)
            if self.bulges[i]:
                end = self.points[(i + 1) % len(self.points)]
                found.extend(_arc_points(start, end, self.bulges[i], tolerance))
        return tuple(found)

    def area(self) -> float:
        """Enclosed area with true arcs [mm^2]."""
        total = signed_area(self.points)
        for i, start in enumerate(self.points):
            if self.bulges[i]:
                end = self.points[(i + 1) % len(self.points)]
                angle = 4 * math.atan(self.bulges[i])
                radius = math.dist(start, end) / (2 * math.sin(angle / 2))
                total += radius * radius * (angle - math.sin(angle)) / 2
        return total

    def bounds(self) -> tuple[float, float, float, float]:
        """Least x, least y, greatest x, greatest y [mm], to the flattening tolerance."""
        return bounds(self.flattened())

    def moved(self, dx: float, dy: float) -> Outline:
        """The same outline shifted by (dx, dy) [mm]."""
        return self._each(lambda p: (p[0] + dx, p[1] + dy))

    def turned(self, angle: float) -> Outline:
        """The same outline turned counter-clockwise about the origin by `angle` [deg]."""
        return self._each(turn_by(angle))

    def mirrored(self) -> Outline:
        """The mirror image left to right (x to -x), again counter-clockwise."""
        points = tuple((-x, y) for x, y in reversed(self.points))
        shifted = self.bulges[:-1][::-1] + self.bulges[-1:]
        return Outline(points, shifted)

    def _each(self, move: Callable[[Point], Point]) -> Outline:
        return Outline(tuple(move(p) for p in self.points), self.bulges)


def polygon(points: Sequence[Point]) -> Outline:
    """An outline of straight segments through `points` [mm], made counter-clockwise."""
    ordered = tuple(points) if signed_area(points) >= 0 else tuple(reversed(points))
    return Outline(ordered, (0.0,) * len(ordered))


def rectangle(left: float, low: float, right: float, high: float) -> Outline:
    """An upright rectangle by its edges [mm]."""
    return polygon(((left, low), (right, low), (right, high), (left, high)))


def rounded(points: Sequence[Point], radii: Sequence[float]) -> tuple[Outline, tuple[float, ...]]:
    """Round the corners of a polygon with arcs that touch both sides.

    Parameters
    ----------
    points : sequence of Point
        Counter-clockwise polygon [mm].
    radii : sequence of float
        Wanted radius at each point [mm], 0 for a sharp one.

    Returns
    -------
    Outline
        The rounded outline.
    tuple of float
        The radii used [mm]: less than wanted where two arcs would not both
        fit on the side between them.
    """
    count = len(points)
    half_tangent = []
    for i, here in enumerate(points):
        turn = turn_at(points[i - 1], here, points[(i + 1) % count])
        half_tangent.append(math.tan(abs(turn) / 2))
    # Each side says by how much its two arcs must shrink, and an arc heeds the tighter of its sides: whatever way round
    # the corners are numbered, a shape with two like halves keeps them.
    fit = []
    for i in range(count):
        after = (i + 1) % count
        need = radii[i] * half_tangent[i] + radii[after] * half_tangent[after]
        fit.append(min(1.0, math.dist(points[i], points[after]) / need) if need else 1.0)
    used = [radius * min(fit[i - 1], fit[i]) for i, radius in enumerate(radii)]
    corners: list[Point] = []
    bulges: list[float] = []
    for i, here in enumerate(points):
        before, after_point = points[i - 1], points[(i + 1) % count]
        reach = used[i] * half_tangent[i]
        if reach < 1e-9:
            corners.append(here)
            bulges.append(0.0)
            continue
        turn = turn_at(before, here, after_point)
        corners += [toward(here, before, reach), toward(here, after_point, reach)]
        bulges += [math.tan(turn / 4), 0.0]
    # Where two arcs use up their side it has no length left, and rounding errors could even turn it about.
    kept = [i for i, here in enumerate(corners) if bulges[i] or math.dist(here, corners[(i + 1) % len(corners)]) > 1e-9]
    return Outline(tuple(corners[i] for i in kept), tuple(bulges[i] for i in kept)), tuple(used)


def _arc_points(start: Point, end: Point, bulge: float, tolerance: float) -> list[Point]:
    angle = 4 * math.atan(bulge)
    chord = math.dist(start, end)
    radius = abs(chord / (2 * math.sin(angle / 2)))
    step = 2 * math.acos(max(0.0, 1 - min(tolerance / radius, 1.0)))
    pieces = max(2, math.ceil(abs(angle) / step))
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    off = chord / 2 / math.tan(angle / 2)
    across = ((end[0] - start[0]) / chord, (end[1] - start[1]) / chord)
    centre = (middle[0] - across[1] * off, middle[1] + across[0] * off)
    first = math.atan2(start[1] - centre[1], start[0] - centre[0])
    return [
        (centre[0] + radius * math.cos(first + angle * k / pieces), centre[1] + radius * math.sin(first + angle * k / pieces))
        for k in range(1, pieces)
    ]


def signed_area(points: Sequence[Point]) -> float:
    """Area of a polygon [mm^2], positive when counter-clockwise."""
    return sum(points[i - 1][0] * p[1] - p[0] * points[i - 1][1] for i, p in enumerate(points)) / 2


def perimeter(points: Sequence[Point]) -> float:
    """Length round a closed polygon [mm]."""
    return sum(math.dist(points[i - 1], p) for i, p in enumerate(points))


def bounds(points: Sequence[Point]) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x, greatest y of some points [mm]."""
    xs = [p[0] for p in points]
    ys = [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def centroid(points: Sequence[Point]) -> Point:
    """Centre of area of a polygon [mm]."""
    area = signed_area(points)
    x = y = 0.0
    for i, (px, py) in enumerate(points):
        qx, qy = points[i - 1]
        cross = qx * py - px * qy
        x += (px + qx) * cross
        y += (py + qy) * cross
    return x / (6 * area), y / (6 * area)


def turn_at(before: Point, here: Point, after: Point) -> float:
    """How far the direction turns left at `here` [rad], from -pi to pi."""
    ax, ay = here[0] - before[0], here[1] - before[1]
    bx, by = after[0] - here[0], after[1] - here[1]
    return math.atan2(ax * by - ay * bx, ax * bx + ay * by)


def toward(start: Point, goal: Point, distance: float) -> Point:
    """The point `distance` [mm] from `start` in the direction of `goal`."""
    length = math.dist(start, goal)
    return (
        start[0] + (goal[0] - start[0]) * distance / length,
        start[1] + (goal[1] - start[1]) * distance / length,
    )


def cos_sin(angle: float) -> tuple[float, float]:
    """Cosine and sine of an angle [deg], exact at quarter turns [-]."""
    quarter, rest = divmod(angle, 90)
    if rest == 0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    return math.cos(math.radians(angle)), math.sin(math.radians(angle))


@dataclass(frozen=True)
class Side:
    """One side of a polygon, to say where things stand along it and how far in.

    Parameters
    ----------
    start : Point
        Corner where it begins [mm].
    along : Point
        Its direction, of length 1 [-]; inward is to its left on a counter-clockwise polygon.
    length : float
        Its length [mm].
    """

    start: Point
    along: Point
    length: float

    def at(self, x: float, depth: float) -> Point:
        """The point `x` along the side and `depth` inward [mm]."""
        (left, low), (ux, uy) = self.start, self.along
        return left + ux * x - uy * depth, low + uy * x + ux * depth

    def place(self, point: Point) -> Point:
        """How far along the side a point lies, and how far inward [mm]: the way back from `at`."""
        (ux, uy), dx, dy = self.along, point[0] - self.start[0], point[1] - self.start[1]
        return dx * ux + dy * uy, dy * ux - dx * uy


def side_of(points: Sequence[Point], number: int) -> Side:
    """A side of a polygon, from point `number` to the next [mm]."""
    a, b = points[number], points[(number + 1) % len(points)]
    length = math.dist(a, b)
    return Side(a, ((b[0] - a[0]) / length, (b[1] - a[1]) / length), length)


def turn_by(angle: float) -> Callable[[Point], Point]:
    """A function that turns points about the origin by `angle` [deg]; quarter turns are exact."""
    c, s = cos_sin(angle)
    return lambda p: (c * p[0] - s * p[1], s * p[0] + c * p[1])


def meet(a: Point, b: Point, c: Point, d: Point) -> Point:
    """Where the line through `a`, `b` crosses the line through `c`, `d` [mm].

    Raises
    ------
    ZeroDivisionError
        When the lines are parallel.
    """
    abx, aby = b[0] - a[0], b[1] - a[1]
    cdx, cdy = d[0] - c[0], d[1] - c[1]
    along = ((c[0] - a[0]) * cdy - (c[1] - a[1]) * cdx) / (abx * cdy - aby * cdx)
    return a[0] + abx * along, a[1] + aby * along


def clipped(points: Sequence[Point], a: Point, b: Point) -> tuple[Point, ...]:
    """The part of a convex polygon to the left of the line from `a` to `b`.

    Returns
    -------
    tuple of Point
        Empty when nothing is left [mm].
    """

    def side(p: Point) -> float:
        return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])

    kept: list[Point] = []
    for i, here in enumerate(points):
        before = points[i - 1]
        if (side(before) > 0) != (side(here) > 0) and side(before) and side(here):
            kept.append(meet(before, here, a, b))
        if side(here) >= 0:
            kept.append(here)
    return tuple(kept) if len(kept) > 2 else ()


def inset(points: Sequence[Point], distances: Sequence[float]) -> tuple[Point, ...]:
    """Move every side of a convex polygon inwards, keeping directions and count.

    Parameters
    ----------
    points : sequence of Point
        Counter-clockwise [mm].
    distances : sequence of float
        How far side i, from point i to point i + 1, moves [mm]; negative is outwards.

    Returns
    -------
    tuple of Point
        The new corners in the same order [mm]. Empty when a side would be lost.
    """
    count = len(points)
    moved: list[tuple[Point, Point]] = []
    for i in range(count):
        a, b = points[i], points[(i + 1) % count]
        length = math.dist(a, b)
        nx, ny = -(b[1] - a[1]) / length * distances[i], (b[0] - a[0]) / length * distances[i]
        moved.append(((a[0] + nx, a[1] + ny), (b[0] + nx, b[1] + ny)))
    corners = tuple(meet(*moved[i - 1], *moved[i]) for i in range(count))
    for i in range(count):
        a, b = points[i], points[(i + 1) % count]
        c, d = corners[i], corners[(i + 1) % count]
        if (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) <= 0:
            return ()
    return corners


def least_width(points: Sequence[Point]) -> float:
    """Smallest distance between two parallel lines that hold a convex polygon [mm].

    For an even regular polygon this lies between opposite sides, for an odd
    one between a side and the corner opposite.
    """
    count = len(points)
    found = []
    for i in range(count):
        a, b = points[i], points[(i + 1) % count]
        length = math.dist(a, b)
        found.append(max(((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / length for p in points))
    return min(found)


def same_shape(first: Sequence[Point], second: Sequence[Point], tolerance: float = FLATTEN) -> bool:
    """Whether two outlines agree point by point, each coordinate within `tolerance` [mm]."""
    return len(first) == len(second) and all(
        abs(p[0] - q[0]) <= tolerance and abs(p[1] - q[1]) <= tolerance for p, q in zip(first, second, strict=True)
    )

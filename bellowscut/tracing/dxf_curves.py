"""Entities of a DXF, each from its group codes to a flattened line in the plane."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bellowscut.shapes import Point
from bellowscut.tracing.curves import arc, bulge
from bellowscut.tracing.limits import Budget
from bellowscut.tracing.model import TracingError
from bellowscut.words import say, tracing as words

Tags = list[tuple[int, float]]
"""Group codes and their numbers, in order; text is left out."""

Line = tuple[list[Point], bool]

FLAT = 0.1
"""Greatest difference of heights in a flat drawing [mm]."""


@dataclass
class Plane:
    """Where entities lie: the scale of the file, its points counted, and how high they are.

    Parameters
    ----------
    scale : float
        Length of a unit [mm].
    budget : Budget
        Counts the points.
    """

    scale: float
    budget: Budget
    low: float = math.inf
    high: float = -math.inf

    def at(self, z: float) -> None:
        """Note a height, in units of the file.

        Raises
        ------
        TracingError
            When the drawing is not flat.
        """
        z *= self.scale
        self.low, self.high = min(self.low, z), max(self.high, z)
        if self.high - self.low > FLAT:
            raise TracingError(say(words.DXF_NOT_FLAT, mm=f"{self.high - self.low:.4g}"))

    def point(self, x: float, y: float) -> Point:
        """A point [mm] from units of the file."""
        return self.budget.point(x * self.scale, y * self.scale)


def first(tags: Tags, code: int, absent: float = 0.0) -> float:
    """The first number of a group code."""
    return next((value for found, value in tags if found == code), absent)


def mirrored(tags: Tags) -> bool:
    """Whether an entity is seen from behind: its extrusion points down and its x runs to the left.

    Raises
    ------
    TracingError
        When it lies in a tilted plane.
    """
    x, y, z = first(tags, 210), first(tags, 220), first(tags, 230, 1.0)
    if math.hypot(x, y) > 1e-6 * abs(z):
        raise TracingError(say(words.DXF_TILTED))
    return z < 0


def _facing(tags: Tags, line: Line) -> Line:
    points, closed = line
    return ([(-x, y) for x, y in points], closed) if mirrored(tags) else line


def straight(tags: Tags, plane: Plane) -> Line:
    """A LINE."""
    plane.at(first(tags, 30))
    plane.at(first(tags, 31))
    return [plane.point(first(tags, 10), first(tags, 20)), plane.point(first(tags, 11), first(tags, 21))], False


def round_arc(tags: Tags, plane: Plane) -> Line:
    """An ARC, counter-clockwise from its first angle, or a whole CIRCLE, which has none."""
    plane.at(first(tags, 30) * (-1 if mirrored(tags) else 1))
    radius = first(tags, 40)
    if radius <= 0:
        raise TracingError(say(words.DXF_ARC_WITHOUT_RADIUS))
    whole = not any(code in (50, 51) for code, _ in tags)
    start = math.radians(first(tags, 50))
    angle = 2 * math.pi if whole else (math.radians(first(tags, 51)) - start) % (2 * math.pi) or 2 * math.pi
    centre, (radius, _) = scaled(tags, 10, plane), plane.budget.near(radius * plane.scale, 0.0)
    begin = (centre[0] + radius * math.cos(start), centre[1] + radius * math.sin(start))
    points = [begin, *arc(centre, (radius, 0.0), (0.0, radius), start, angle)]
    return _facing(tags, _counted(points, plane, whole=angle >= 2 * math.pi - 1e-9))


def ellipse(tags: Tags, plane: Plane) -> Line:
    """An ELLIPSE, whole or in part."""
    plane.at(first(tags, 30))
    behind = mirrored(tags)
    plane.at(first(tags, 30) + first(tags, 31))
    centre, axis = scaled(tags, 10, plane), scaled(tags, 11, plane)
    ratio = first(tags, 40, 1.0) * (-1 if behind else 1)
    other = plane.budget.near(-axis[1] * ratio, axis[0] * ratio)
    if math.hypot(*axis) == 0 or ratio == 0:
        raise TracingError(say(words.DXF_ELLIPSE_WITHOUT_AXIS))
    start, end = first(tags, 41), first(tags, 42, 2 * math.pi)
    if not math.isfinite(end - start):
        raise TracingError(say(words.NUMBERS_LEAD_NOWHERE, kind="ELLIPSE"))
    angle = (end - start) % (2 * math.pi)
    # A whole turn leaves nothing, or all but nothing of a turn, and some programs write 6.28318.
    if min(angle, 2 * math.pi - angle) < 1e-4:
        angle = 2 * math.pi
    points = arc(centre, axis, other, start, angle)
    c, s = math.cos(start), math.sin(start)
    begin = (centre[0] + axis[0] * c + other[0] * s, centre[1] + axis[1] * c + other[1] * s)
    return _counted([begin, *points], plane, whole=angle == 2 * math.pi)


def scaled(tags: Tags, code: int, plane: Plane) -> Point:
    """A point or direction [mm], looked at but not counted."""
    return plane.budget.near(first(tags, code) * plane.scale, first(tags, code + 10) * plane.scale)


def _counted(points: list[Point], plane: Plane, *, whole: bool) -> Line:
    kept = points[:-1] if whole else points
    return [plane.budget.point(*point) for point in kept], whole


def light_polyline(tags: Tags, plane: Plane) -> Line:
    """An LWPOLYLINE: its corners one after the other, each with the bulge of the side after it."""
    plane.at(first(tags, 38) * (-1 if mirrored(tags) else 1))
    corners: list[list[float]] = []
    for code, value in tags:
        if code == 10:
            corners.append([value, 0.0, 0.0])
        elif code in (20, 42) and corners:
            corners[-1][1 if code == 20 else 2] = value
    return _facing(tags, _bulged(corners, plane, closed=bool(int(first(tags, 70)) & 1)))


CLOSED, SPLINE_FIT, SPACE, MESH = 1, 4, 8, 16 | 64
"""Flags of a POLYLINE."""

FRAME = 16
"""Flag of a VERTEX that belongs to the frame of a spline and is not on the line."""


def heavy_polyline(tags: Tags, vertices: list[Tags], plane: Plane) -> Line:
    """A POLYLINE with its VERTEX entities."""
    flags = int(first(tags, 70))
    if flags & MESH:
        raise TracingError(say(words.DXF_MESH))
    corners = []
    for vertex in vertices:
        if flags & SPLINE_FIT and int(first(vertex, 70)) & FRAME:
            continue
        plane.at((first(vertex, 30) if flags & SPACE else first(tags, 30)) * (-1 if mirrored(tags) else 1))
        corners.append([first(vertex, 10), first(vertex, 20), 0.0 if flags & SPACE else first(vertex, 42)])
    line = _bulged(corners, plane, closed=bool(flags & CLOSED))
    return line if flags & SPACE else _facing(tags, line)


def _bulged(corners: list[list[float]], plane: Plane, *, closed: bool) -> Line:
    found: list[Point] = []
    ends = [plane.point(x, y) for x, y, _ in corners]
    for k, here in enumerate(ends):
        found.append(here)
        if corners[k][2] and (closed or k + 1 < len(ends)):
            try:
                between = bulge(here, ends[(k + 1) % len(ends)], corners[k][2])
            except ValueError as error:
                raise TracingError(f"{error}") from None
            found += [plane.budget.point(*point) for point in between]
    return found, closed

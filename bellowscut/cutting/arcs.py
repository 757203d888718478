"""Lengths, directions and starting points of outlines with true arcs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from bellowscut.shapes import Outline, Point


def run_length(points: Sequence[Point]) -> float:
    """Length of an open run of straight segments [mm]."""
    return sum(math.dist(a, b) for a, b in pairwise(points))


def outline_length(outline: Outline) -> float:
    """Length round an outline with true arcs [mm]."""
    total = 0.0
    for i, start in enumerate(outline.points):
        chord = math.dist(start, outline.points[(i + 1) % len(outline.points)])
        half = 2 * math.atan(abs(outline.bulges[i]))
        total += chord * half / math.sin(half) if half else chord
    return total


def directions(outline: Outline, i: int) -> tuple[float, float]:
    """Direction in which segment `i` of an outline begins and in which it ends [rad]."""
    (x, y), (u, v) = outline.points[i], outline.points[(i + 1) % len(outline.points)]
    along = math.atan2(v - y, u - x)
    half = 2 * math.atan(outline.bulges[i])
    return along - half, along + half


def turn_into(outline: Outline, i: int) -> float:
    """How far the direction turns left at the point where segment `i` begins [rad], from -pi to pi."""
    before, after = directions(outline, i - 1)[1], directions(outline, i)[0]
    return math.remainder(after - before, math.tau)


def begun_at(outline: Outline, i: int) -> Outline:
    """The same outline, begun at its point `i`."""
    return Outline(outline.points[i:] + outline.points[:i], outline.bulges[i:] + outline.bulges[:i])


def cleaned(outline: Outline) -> Outline:
    """The outline without segments of no length, which have no direction."""
    count = len(outline.points)
    kept = [i for i in range(count) if math.dist(outline.points[i], outline.points[(i + 1) % count]) > 1e-7]
    return Outline(tuple(outline.points[i] for i in kept), tuple(outline.bulges[i] for i in kept))


def step(point: Point, direction: float, distance: float) -> Point:
    """The point `distance` [mm] from `point` in a direction [rad]."""
    return point[0] + distance * math.cos(direction), point[1] + distance * math.sin(direction)

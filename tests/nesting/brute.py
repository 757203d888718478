"""A second check of layouts for the tests: plain Python, segment against segment, no library and no code of the package."""

from __future__ import annotations

import math
from collections.abc import Iterable

Point = tuple[float, float]
Line = tuple[Point, ...]


def moved(points: Line, turn: float, x: float, y: float) -> Line:
    """Turned about the origin, then moved."""
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    return tuple((x + c * px - s * py, y + s * px + c * py) for px, py in points)


def inside(point: Point, line: Line) -> bool:
    """Even-odd rule."""
    found = False
    for (x0, y0), (x1, y1) in zip(line, line[1:] + line[:1], strict=True):
        if (y0 > point[1]) != (y1 > point[1]) and point[0] < x0 + (point[1] - y0) * (x1 - x0) / (y1 - y0):
            found = not found
    return found


def _to_segment(p: Point, a: Point, b: Point) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    size = dx * dx + dy * dy
    t = 0.0 if size == 0 else max(0.0, min(1.0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / size))
    return math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy)


def _side(a: Point, b: Point, p: Point) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two segments cross by more than rounding."""
    edge = 1e-6 * max(math.dist(a, b), math.dist(c, d))
    one, two, three, four = _side(a, b, c), _side(a, b, d), _side(c, d, a), _side(c, d, b)
    return (min(one, two) < -edge and max(one, two) > edge) and (min(three, four) < -edge and max(three, four) > edge)


def _segments(line: Line) -> Iterable[tuple[Point, Point]]:
    return zip(line, line[1:] + line[:1], strict=True)


def distance(one: Line, other: Line) -> float:
    """Least distance of two outlines, 0 when they cross."""
    best = math.inf
    for a, b in _segments(one):
        for c, d in _segments(other):
            if _cross(a, b, c, d):
                return 0.0
            best = min(best, _to_segment(a, c, d), _to_segment(c, a, b))
    return best


def _deepest(one: Line, other: Line) -> float:
    """How far any corner or middle of a side of one lies inside the other."""
    marks = [*one, *(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in _segments(one))]
    marks.append((sum(x for x, _ in one) / len(one), sum(y for _, y in one) / len(one)))
    return max((min(_to_segment(p, a, b) for a, b in _segments(other)) for p in marks if inside(p, other)), default=0.0)


def apart(one: Line, other: Line, gap: float, play: float = 2e-6) -> bool:
    """Whether two outlines keep a gap, or at gap 0 do not overlap."""
    if min(x for x, _ in one) > max(x for x, _ in other) + gap or min(x for x, _ in other) > max(x for x, _ in one) + gap:
        return True
    if min(y for _, y in one) > max(y for _, y in other) + gap or min(y for _, y in other) > max(y for _, y in one) + gap:
        return True
    if any(_cross(a, b, c, d) for a, b in _segments(one) for c, d in _segments(other)):
        return False
    if gap > 0:
        return not inside(one[0], other) and not inside(other[0], one) and distance(one, other) >= gap - play
    marks = _deepest(one, other), _deepest(other, one)
    return max(marks) <= play or (max(marks) <= 1e-3 and False)


def within(piece: Line, outline: Line, margin: float, play: float = 2e-6) -> bool:
    """Whether a piece lies inside an outline and keeps a margin from it."""
    if margin > 0:
        return inside(piece[0], outline) and distance(piece, outline) >= margin - play
    off = max((min(_to_segment(p, a, b) for a, b in _segments(outline)) for p in piece if not inside(p, outline)), default=0.0)
    return off <= play and not any(_cross(a, b, c, d) for a, b in _segments(piece) for c, d in _segments(outline))

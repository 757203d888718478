"""A part as it is drawn, and the tools that put a dimension beside it."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass

from bellowscut.bellows import Bellows
from bellowscut.drawing import Line, Role, Stroke
from bellowscut.pages.dimensions import Board
from bellowscut.parts.part import Part
from bellowscut.shapes import Outline, Point, bounds
from bellowscut.units import plain_number
from bellowscut.words import pictures as words, say

ALIKE = 0.05
"""Lengths that differ by less are told once [mm]."""


@dataclass(frozen=True)
class Drawing:
    """A part as it is drawn.

    Parameters
    ----------
    part : Part
        The part.
    scale : float
        Drawn length over true length [-].
    lines : tuple of Line
        Its outline and lines as drawn [mm].
    breaks : tuple of Stroke
        Break lines [mm].
    shift : float
        How much of the length is left out at the break [mm, true size]; 0 where the whole is drawn.
    """

    part: Part
    scale: float
    lines: tuple[Line, ...]
    breaks: tuple[Stroke, ...]
    shift: float

    @property
    def broken(self) -> bool:
        """Whether a piece is left out."""
        return bool(self.breaks)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height as drawn [mm]."""
        left, low, right, high = self.box
        return right - left, high - low

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Edges of the part as drawn [mm]."""
        return bounds([point for line in self.lines for point in line.points])

    def at(self, point: Point) -> Point:
        """Where a point of the left or only piece is drawn [mm]."""
        return point[0] * self.scale, point[1] * self.scale


class Sizes:
    """Puts dimensions round one drawing.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    drawing : Drawing
        The part as drawn.
    board : Board
        Knows the part's lines already.
    """

    def __init__(self, bellows: Bellows, drawing: Drawing, board: Board) -> None:
        self.bellows, self.drawing, self.board = bellows, drawing, board
        self.part = drawing.part
        self.left, self.low, self.right, self.high = drawing.box
        self.untold: list[str] = []

    def level(self, a: Point, b: Point, text: str, *, above: bool = False) -> None:
        """A level dimension over or under the part, between two points of its left or only piece [mm, true size]."""
        self._between(self.drawing.at(a), self.drawing.at(b), say(text, mm=f"{abs(b[0] - a[0]):.1f}"), 0.0, 1 if above else -1)

    def upright(self, a: Point, b: Point, text: str, *, right: bool = True) -> None:
        """An upright dimension beside the part [mm, true size]."""
        self._between(self.drawing.at(a), self.drawing.at(b), say(text, mm=f"{abs(b[1] - a[1]):.1f}"), 90.0, -1 if right else 1)

    def _between(self, a: Point, b: Point, text: str, angle: float, side: int, note: str = "") -> None:
        """A dimension between two drawn points, on that side of the part or else on the other; or else among the notes."""
        edges = {(0.0, 1): self.high, (0.0, -1): -self.low, (90.0, 1): -self.left, (90.0, -1): self.right}
        for way in (side, -side):
            if self.board.length(a, b, text, angle, way, edges[angle, way]):
                return
            # On the other side it starts from there: parts are alike left and right, or above and below.
            if angle == 0.0:
                a, b = ((x, self.low + self.high - y) for x, y in (a, b))
            else:
                a, b = ((self.left + self.right - x, y) for x, y in (a, b))
        self.untold.append(note or text)

    def over_all(self, *, width: float = 0.0, height: float = 0.0) -> None:
        """Width under the part and height to its left, as a rule finds them; not where that is told already [mm]."""
        left, low, right, high = bounds(self.part.points)
        if abs(right - left - width) >= ALIKE:
            text = say(words.OVER_ALL if width else words.EDGE, mm=f"{right - left:.1f}")
            a, b = self._extreme(0, min), self._extreme(0, max)
            if self.drawing.broken:
                a, b = (self.left, self.low), (self.right, self.low)
            self._between(a, b, text, 0.0, -1, say(words.WIDTH, mm=f"{right - left:.1f}"))
        if abs(high - low - height) >= ALIKE:
            text = say(words.OVER_ALL if height else words.EDGE, mm=f"{high - low:.1f}")
            self._between(self._extreme(1, min), self._extreme(1, max), text, 90.0, 1, say(words.HEIGHT, mm=f"{high - low:.1f}"))

    def _extreme(self, axis: int, which: Callable[..., float]) -> Point:
        """The drawn outline's point that lies furthest out, of several the one next to where the dimension stands."""
        points = [point for line in self.drawing.lines if line.role is Role.CUT for point in line.points]
        limit = which(point[axis] for point in points)
        return min((point for point in points if abs(point[axis] - limit) < 1e-6), key=lambda point: point[1 - axis])

    def angle(self, vertex: Point, one: Point, other: Point) -> None:
        """The angle at a corner between two edges, counter-clockwise from the first [mm, true size]."""
        first, last = (math.degrees(math.atan2(p[1] - vertex[1], p[0] - vertex[0])) for p in (one, other))
        if last < first:
            last += 360
        text = say(words.ANGLE, degrees=plain_number(last - first, 1))
        if not self.board.angle(self.drawing.at(vertex), first, last, text):
            self.untold.append(text)

    def radii(self) -> None:
        """One leader for each radius, with the number of arcs."""
        arcs: dict[float, list[tuple[Point, Point]]] = {}
        for tip, centre, radius in _arcs(self.part.outline):
            places = arcs.setdefault(round(radius, 2), [])
            # Half a round end is drawn as two quarters.
            if all(math.dist(centre, other) > ALIKE for _, other in places):
                places.append((tip, centre))
        for radius, places in arcs.items():
            value = plain_number(radius, 2)
            text = say(words.RADII, count=len(places), mm=value) if len(places) > 1 else say(words.RADIUS, mm=value)
            # Corners at the top left are tried first: fewer dimensions stand there.
            places.sort(key=lambda place: (-round(place[0][1], 3), place[0][0]))
            ways = itertools.product((True, False), places)
            if not any(
                self.board.radius(self.drawing.at(tip), self.drawing.at(centre), text, strict=strict) for strict, (tip, centre) in ways
            ):
                self.untold.append(text)


def _arcs(outline: Outline) -> list[tuple[Point, Point, float]]:
    """Middle, centre and radius of every arc of an outline that bends outwards [mm]."""
    found = []
    for i, a in enumerate(outline.points):
        bulge = outline.bulges[i]
        if bulge <= 0:
            continue
        b = outline.points[(i + 1) % len(outline.points)]
        chord = math.dist(a, b)
        radius = chord / (2 * math.sin(2 * math.atan(bulge)))
        out = ((b[1] - a[1]) / chord, (a[0] - b[0]) / chord)
        rise = bulge * chord / 2
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        tip = (middle[0] + out[0] * rise, middle[1] + out[1] * rise)
        found.append((tip, (tip[0] - out[0] * radius, tip[1] - out[1] * radius), radius))
    return found

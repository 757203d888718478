"""A small drawing board for the figures of the documentation: model millimetres in, page items out."""

from __future__ import annotations

import math
from collections.abc import Sequence

from bellowscut.drawing import Item, Label, Page, Pen, Stroke, Tint
from bellowscut.shapes import Point

TEXT = 3.2
"""Letters of a figure [mm]."""

ARROW = 2.0
"""Length of an arrow head [mm]."""


class Sketch:
    """Collects what is drawn; the scale and origin of the model may change from one panel to the next."""

    def __init__(self, width: float, height: float, title: str) -> None:
        self.page = (width, height)
        self.title = title
        self.items: list[Item] = []
        self.scale = 1.0
        self.origin: Point = (0.0, 0.0)

    def panel(self, origin: Point, scale: float = 1.0) -> None:
        """From here on model points are taken from `origin` [mm of the page] at `scale`."""
        self.origin, self.scale = origin, scale

    def done(self) -> Page:
        """The finished figure."""
        return Page(*self.page, self.title, tuple(self.items))

    def at(self, point: Point) -> Point:
        """Where a model point lies on the page [mm]."""
        return self.origin[0] + point[0] * self.scale, self.origin[1] + point[1] * self.scale

    def shape(self, points: Sequence[Point], fill: Tint = Tint.NONE, pen: Pen = Pen.SOLID) -> None:
        """A closed, filled figure."""
        self.items.append(Stroke(tuple(map(self.at, points)), pen, closed=True, fill=fill))

    def line(self, *points: Point, pen: Pen = Pen.SOLID) -> None:
        """An open line."""
        self.items.append(Stroke(tuple(map(self.at, points)), pen))

    def text(
        self, words: str, point: Point, anchor: str = "middle", *, shift: Point = (0.0, 0.0), bold: bool = False, angle: float = 0
    ) -> None:
        """Words at a model point, moved by `shift` [mm of the page]."""
        x, y = self.at(point)
        self.items.append(Label(words, (x + shift[0], y + shift[1]), TEXT, angle, anchor, bold))

    def arrow(self, tail: Point, head: Point) -> None:
        """A thin line with a head."""
        self.line(tail, head, pen=Pen.THIN)
        self._head(self.at(tail), self.at(head))

    def leader(self, words: str, text: Point, point: Point, anchor: str = "middle", *, bold: bool = False) -> None:
        """Words on the page with a line to a model point; `text` is in model points too."""
        x, y = self.at(text)
        below = self.at(point)[1] < y
        self.items.append(Label(words, (x, y), TEXT, 0.0, anchor, bold))
        start = (x, y - 1.2) if below else (x, y + TEXT)
        if anchor == "start":
            start = (x - 1.0, y + 1.0)
        elif anchor == "end":
            start = (x + 1.0, y + 1.0)
        end = self.at(point)
        self.items.append(Stroke((start, end), Pen.THIN))
        self.items.append(Stroke(_ring(end, 0.55), Pen.THIN, closed=True, fill=Tint.INK))

    def dimension(self, a: Point, b: Point, words: str, off: float = 0.0, *, away: float = 1.2, turned: bool = True) -> None:
        """A length from a to b, its line moved by `off` [mm of the page] to the left of a to b."""
        start, end = self.at(a), self.at(b)
        length = math.dist(start, end)
        along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
        left = (-along[1], along[0])
        p, q = ((s[0] + left[0] * off, s[1] + left[1] * off) for s in (start, end))
        if off:
            past = math.copysign(1.0, off)
            for foot, top in ((start, p), (end, q)):
                self.items.append(Stroke((foot, (top[0] + left[0] * past, top[1] + left[1] * past)), Pen.THIN))
        self.items.append(Stroke((p, q), Pen.THIN))
        if length > 2.5 * ARROW:
            self._head(q, p)
            self._head(p, q)
        side = math.copysign(1.0, off or 1.0)
        middle = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
        angle = math.degrees(math.atan2(along[1], along[0]))
        if not turned:
            anchor = "start" if left[0] * side > 0.3 else "end" if left[0] * side < -0.3 else "middle"
            x, y = middle[0] + left[0] * side * away, middle[1] + left[1] * side * away - TEXT * 0.35
            self.items.append(Label(words, (x, y), TEXT, 0.0, anchor))
            return
        readable = (angle + 90) % 180 - 90
        up = (-math.sin(math.radians(readable)), math.cos(math.radians(readable)))
        over = left[0] * up[0] + left[1] * up[1] > 0
        gap = away if (side > 0) == over else -away - TEXT * 0.73
        self.items.append(Label(words, (middle[0] + up[0] * gap, middle[1] + up[1] * gap), TEXT, readable, "middle"))

    def arc(self, centre: Point, radius: float, start: float, end: float) -> None:
        """Part of a circle, its radius on the page [mm], angles in degrees."""
        x, y = self.at(centre)
        steps = max(2, math.ceil(abs(end - start) / 4))
        angles = [math.radians(start + (end - start) * k / steps) for k in range(steps + 1)]
        self.items.append(Stroke(tuple((x + radius * math.cos(a), y + radius * math.sin(a)) for a in angles), Pen.THIN))

    def _head(self, tail: Point, head: Point) -> None:
        length = math.dist(tail, head)
        x, y = (head[0] - tail[0]) / length * ARROW, (head[1] - tail[1]) / length * ARROW
        points = (head, (head[0] - x - y * 0.22, head[1] - y + x * 0.22), (head[0] - x + y * 0.22, head[1] - y - x * 0.22))
        self.items.append(Stroke(points, Pen.THIN, closed=True, fill=Tint.INK))


def _ring(centre: Point, radius: float) -> tuple[Point, ...]:
    return tuple((centre[0] + radius * math.cos(k * math.pi / 4), centre[1] + radius * math.sin(k * math.pi / 4)) for k in range(8))

"""Dimension lines of a picture, found in the SVG by its lines, heads and texts alone."""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from xml.etree import ElementTree as ET

Point = tuple[float, float]

NEAR = 0.03
"""How well a head's tip and a line's end must agree: the file is written to 0.01 mm."""

REACH = 2.2
"""Figures stand no further from their line than this [mm]."""


@dataclass(frozen=True)
class Text:
    """A text as written: base line's start, direction [deg], width and size [mm]."""

    text: str
    at: Point
    angle: float
    width: float
    size: float

    @property
    def middle(self) -> Point:
        """Middle of the base line [mm]."""
        turn = math.radians(self.angle)
        return self.at[0] + math.cos(turn) * self.width / 2, self.at[1] + math.sin(turn) * self.width / 2


@dataclass(frozen=True)
class Head:
    """A closed, filled triangle: its tip and the middle of its base [mm]."""

    tip: Point
    base: Point
    opening: float


@dataclass(frozen=True)
class Dimension:
    """A length that is told: its text, and the distance of the two heads' tips as drawn [mm]."""

    text: Text
    drawn: float
    tips: tuple[Point, Point]


class Picture:
    """What an SVG file holds, y up.

    Parameters
    ----------
    data : bytes
        The file.
    """

    def __init__(self, data: bytes) -> None:
        root = ET.fromstring(data)
        self.size = tuple(float(root.attrib[key].removesuffix("mm")) for key in ("width", "height"))
        assert [float(part) for part in root.attrib["viewBox"].split()] == [0, 0, *self.size], "a unit of the drawing is a millimetre"
        self.texts: list[Text] = []
        self.lines: list[tuple[Point, Point]] = []
        self.heads: list[Head] = []
        self.outlines: list[tuple[tuple[Point, ...], str]] = []
        self.fills: list[tuple[tuple[Point, ...], str]] = []
        for thing in root.iter():
            tag = thing.tag.rpartition("}")[2]
            if tag == "text":
                self.texts.append(self._text(thing))
            elif tag == "path":
                self._path(thing)

    def _text(self, thing: ET.Element) -> Text:
        x, y = float(thing.attrib["x"]), self.size[1] - float(thing.attrib["y"])
        turned = re.match(r"rotate\(([-0-9.]+) ", thing.attrib.get("transform", ""))
        angle = -float(turned.group(1)) if turned else 0.0
        width = float(thing.attrib["textLength"])
        back = {"start": 0.0, "middle": width / 2, "end": width}[thing.attrib.get("text-anchor", "start")]
        turn = math.radians(angle)
        at = (x - back * math.cos(turn), y - back * math.sin(turn))
        return Text(thing.text or "", at, angle, width, float(thing.attrib["font-size"]))

    def _path(self, thing: ET.Element) -> None:
        numbers = [float(one) for one in re.findall(r"-?[0-9.]+", thing.attrib["d"])]
        points = tuple((x, self.size[1] - y) for x, y in zip(numbers[::2], numbers[1::2], strict=True))
        closed = thing.attrib["d"].endswith("Z")
        if closed and "fill" in thing.attrib:
            self.fills.append((points, thing.attrib["fill"]))
            if len(points) == 3 and _is_head(points):
                (tip, one, two) = points
                base = ((one[0] + two[0]) / 2, (one[1] + two[1]) / 2)
                self.heads.append(Head(tip, base, 2 * math.degrees(math.atan2(math.dist(one, two) / 2, math.dist(tip, base)))))
        elif closed and float(thing.attrib["stroke-width"]) == 0.4:
            self.outlines.append((points, thing.attrib["stroke"]))
        elif not closed and len(points) == 2:
            self.lines.append((points[0], points[1]))

    def dimensions(self) -> list[Dimension]:
        """Every length that is told: a text with figures over a line that carries two heads, pointing at or away from each other."""
        found = []
        for text in self.texts:
            if not re.search(r"[0-9]", text.text):
                continue
            line = self._under(text)
            if line is None:
                continue
            on = [head for head in self.heads if _on(head.tip, line) and _on(head.base, line)]
            tips = [(one.tip, other.tip) for one, other in itertools.combinations(on, 2) if _belong(one, other)]
            if tips:
                pair = min(tips, key=lambda two: abs(_along(text.middle, line) - _middle_along(two, line)))
                found.append(Dimension(text, math.dist(*pair), pair))
        return found

    def _under(self, text: Text) -> tuple[Point, Point] | None:
        """The line nearest under a text, parallel to it and long enough to carry it."""
        turn = math.radians(text.angle)
        best, least = None, REACH
        for a, b in self.lines:
            length = math.dist(a, b)
            if length < text.width or abs((b[0] - a[0]) * math.sin(turn) - (b[1] - a[1]) * math.cos(turn)) > 0.01 * length + NEAR:
                continue
            down = -math.sin(turn) * (text.middle[0] - a[0]) + math.cos(turn) * (text.middle[1] - a[1])
            at = _along(text.middle, (a, b))
            if 0 < down < least and 0 < at < length:
                best, least = (a, b), down
        return best


def _is_head(points: Sequence[Point]) -> bool:
    tip, one, two = points
    return abs(math.dist(tip, one) - math.dist(tip, two)) < NEAR and math.dist(tip, one) < 3.0


def _on(point: Point, line: tuple[Point, Point]) -> bool:
    (ax, ay), (bx, by) = line
    length = math.dist((ax, ay), (bx, by))
    off = abs((bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)) / length
    return off < NEAR and -NEAR < _along(point, line) < length + NEAR


def _along(point: Point, line: tuple[Point, Point]) -> float:
    (ax, ay), (bx, by) = line
    return ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / math.dist((ax, ay), (bx, by))


def _middle_along(two: tuple[Point, Point], line: tuple[Point, Point]) -> float:
    return (_along(two[0], line) + _along(two[1], line)) / 2


def _belong(one: Head, other: Head) -> bool:
    """Whether two heads point at each other, or away from each other."""
    ax, ay = one.tip[0] - one.base[0], one.tip[1] - one.base[1]
    bx, by = other.tip[0] - other.base[0], other.tip[1] - other.base[1]
    return ax * bx + ay * by < -0.9 * math.hypot(ax, ay) * math.hypot(bx, by)

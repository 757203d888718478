"""Dimension lines in the manner of ISO 129-1, set so that no text is crossed.

Extension lines start a little off the part and run a little past the dimension
line; heads are closed and filled, 30 degrees wide; figures stand above their
line and are read from the foot or the right edge of the page. Where there is no room
between the extension lines heads, and then figures, stand outside. A board
knows everything drawn so far and finds the nearest place that is free.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.arrows import readable
from bellowscut.pages.figure import label_box
from bellowscut.pages.free_space import Area, Segment, crossed
from bellowscut.shapes import Point

LETTERS = 2.7
"""Figures [mm]."""

HEAD = 2.0
"""Length of an arrow head [mm]."""

HALF = math.tan(math.radians(15))
"""Half the width of a head, as a share of its length [-]: 30 degrees from side to side."""

GAP, PAST = 0.9, 1.3
"""Extension lines start so far off the part and end so far past the dimension line [mm]."""

ABOVE = 1.0
"""From the dimension line up to the figures [mm]."""

CLEAR = 0.5
"""Least distance of letters from any line and from other letters [mm]."""

FIRST, STEP = 6.0, 2.6
"""Distance of the first dimension line from the part, and between the lines that are tried after it [mm]."""

TRIES = 18
"""Distances that are tried for one dimension line [-]."""

SIDE_BY_SIDE = 4.6
"""Parallel dimension lines that overlap keep so far apart [mm]."""

RADII = (9.0, 12.0, 7.0, 15.0, 18.0, 5.5, 22.0)
"""Radii that are tried for the arc of an angle [mm]."""

LEADERS = (6.0, 8.5, 11.0, 14.0, 18.0, 23.0)
"""Lengths that are tried for a leader [mm]."""

TILTS = (0.0, 0.25, -0.25, 0.5, -0.5)
"""How far a leader may lean from the direction of its radius [rad]."""

_Place = Callable[[float, float], Point]
_Way = tuple[float, float, Label, list[tuple[float, float]]]


@dataclass
class _Line:
    """A dimension line that stands: direction, distance from the origin, and where it reaches from and to [mm]."""

    angle: float
    level: float
    start: float
    end: float


class Board:
    """Gathers a drawing and its dimensions.

    Parameters
    ----------
    centre : Point
        Figures that find no room between their extension lines stand on the side away from here [mm].
    """

    def __init__(self, centre: Point = (0.0, 0.0)) -> None:
        self.items: list[Item] = []
        self._lines: list[Segment] = []
        self._centre = centre
        self._boxes: list[Area] = []
        self._parallels: list[_Line] = []

    def block(self, points: Sequence[Point], *, closed: bool = False) -> None:
        """Keep letters off a run of lines that is drawn by others."""
        self._lines += itertools.pairwise(points)
        if closed:
            self._lines.append((points[-1], points[0]))

    # lengths -------------------------------------------------------------

    def length(self, a: Point, b: Point, text: str, angle: float, side: int, edge: float, *, first: float = FIRST) -> bool:
        """Dimension the distance of two points along a direction.

        Parameters
        ----------
        a, b : Point
            What is measured [mm].
        text : str
            The figures.
        angle : float
            Direction of the dimension line, 0 to 180 [deg].
        side : int
            1 to the left of that direction, -1 to its right.
        edge : float
            How far the part reaches to that side, from the origin [mm].
        first : float
            Distance of the first line that is tried from there [mm].

        Returns
        -------
        bool
            Whether there was room.
        """
        c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        normal = (-s * side, c * side)

        def along(p: Point) -> float:
            return p[0] * c + p[1] * s

        def off(p: Point) -> float:
            return p[0] * normal[0] + p[1] * normal[1]

        def point(at: float, level: float) -> Point:
            return at * c + level * normal[0], at * s + level * normal[1]

        (low, low_off), (high, high_off) = sorted(((along(a), off(a)), (along(b), off(b))))
        for strict in (True, False):
            for k in range(TRIES):
                level = edge + first + STEP * k
                extensions = [
                    (point(at, foot + GAP), point(at, level + PAST))
                    for at, foot in ((low, low_off), (high, high_off))
                    if level - foot > GAP
                ]
                # What these cross or run through they would cross further out too.
                if strict and self._crosses(extensions):
                    break
                if any(box.touched(line) for line in extensions for box in self._boxes):
                    break
                for start, end, label, heads in self._ways(low, high, text, angle, level, point):
                    lines = [*extensions, (point(start, level), point(end, level))]
                    row = _Line(angle, level * side, start, end)
                    if self._apart(row) and self._free(lines, label) and not (strict and self._crosses(lines)):
                        self._put(lines, [(point(tip, level), point(tail, level)) for tip, tail in heads], label)
                        self._parallels.append(row)
                        return True
        return False

    def _ways(self, low: float, high: float, text: str, angle: float, level: float, point: _Place) -> Iterator[_Way]:
        """Where the line, the figures and the heads of a dimension may stand, the best first."""
        wide, room = text_width(text, LETTERS), high - low
        shown = readable(angle)
        rise = math.radians(shown)
        up = (-math.sin(rise) * ABOVE, math.cos(rise) * ABOVE)

        def label(at: float) -> Label:
            x, y = point(at, level)
            return Label(text, (x + up[0], y + up[1]), LETTERS, shown, "middle")

        inside = [(low, low + HEAD), (high, high - HEAD)]
        outside = [(low, low - HEAD), (high, high + HEAD)]
        if room >= max(wide + 1.0, 2 * HEAD + 1.5):
            for share in (0.5, 0.3, 0.7, 0.18, 0.82):
                at = low + room * share
                if low + wide / 2 + 0.5 <= at <= high - wide / 2 - 0.5:
                    yield low, high, label(at), inside
        if room >= wide + 1.0:
            yield low - HEAD - 1.5, high + HEAD + 1.5, label((low + high) / 2), outside
        reach = HEAD + 1.0 + wide
        beyond = (high + HEAD + 0.8 + wide / 2, low - HEAD - 0.8 - wide / 2)
        ways = [(low - HEAD - 1.5, high + reach, label(beyond[0]), outside), (low - reach, high + HEAD + 1.5, label(beyond[1]), outside)]
        middle = self._centre[0] * math.cos(math.radians(angle)) + self._centre[1] * math.sin(math.radians(angle))
        yield from reversed(ways) if (low + high) / 2 < middle - ABOVE else ways

    # between two lines ---------------------------------------------------

    def across(self, a: Point, b: Point, text: str) -> bool:
        """Dimension the distance from one line of the part to the next, without extension lines; figures stand past b.

        Returns
        -------
        bool
            Whether there was room.
        """
        length = math.dist(a, b)
        ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
        angle = readable(math.degrees(math.atan2(uy, ux)))
        rise = math.radians(angle)
        wide = text_width(text, LETTERS)
        for out in (HEAD + 0.8, HEAD + 2.5, HEAD + 5.0):
            middle = length + out + wide / 2
            at = (a[0] + ux * middle - math.sin(rise) * ABOVE, a[1] + uy * middle + math.cos(rise) * ABOVE)
            label = Label(text, at, LETTERS, angle, "middle")
            ends = [(a[0] + ux * k, a[1] + uy * k) for k in (-HEAD - 1.5, length + out + wide)]
            heads = [(tip, (tip[0] + way * ux * HEAD, tip[1] + way * uy * HEAD)) for tip, way in ((a, -1), (b, 1))]
            if self._free([(ends[0], ends[1])], label):
                self._put([(ends[0], ends[1])], heads, label)
                return True
        return False

    # angles and radii ----------------------------------------------------

    def angle(self, vertex: Point, start: float, end: float, text: str) -> bool:
        """Dimension the angle between two edges of the part, in the corner between them.

        Parameters
        ----------
        vertex : Point
            Where the edges meet [mm].
        start, end : float
            Directions of the edges, counter-clockwise [deg].
        text : str
            The figures.

        Returns
        -------
        bool
            Whether there was room.
        """
        first, last = math.radians(start), math.radians(end)
        middle = (first + last) / 2
        wide, tall = text_width(text, LETTERS), LETTERS * CAPITAL
        for radius in RADII:
            span = radius * (last - first)
            if span < 2 * HEAD + 1.0:
                continue
            steps = max(6, round(span / 1.2))
            arc = [_polar(vertex, radius, first + (last - first) * k / steps) for k in range(steps + 1)]
            # The letters' box touches a circle a little wider than the arc.
            for turn in (middle, (middle + last) / 2, (middle + first) / 2):
                reach = radius + 0.9 + abs(math.cos(turn)) * wide / 2 + abs(math.sin(turn)) * tall / 2
                x, y = _polar(vertex, reach, turn)
                label = Label(text, (x, y - tall / 2), LETTERS, anchor="middle")
                lines = list(itertools.pairwise(arc))
                if self._free(lines, label) and not self._crosses(lines):
                    bend = HEAD / radius
                    heads = [(arc[0], _polar(vertex, radius, first + bend)), (arc[-1], _polar(vertex, radius, last - bend))]
                    self.items.append(Stroke(tuple(arc), Pen.THIN))
                    self._put([], heads, label)
                    self._lines += lines
                    return True
        return False

    def radius(self, tip: Point, toward: Point, text: str, *, strict: bool = True) -> bool:
        """Name the radius of an arc by a leader that points at its centre.

        Parameters
        ----------
        tip : Point
            On the arc [mm].
        toward : Point
            Its centre, or a point in that direction [mm].
        text : str
            What is said.
        strict : bool
            Whether the leader may cross no line at all.

        Returns
        -------
        bool
            Whether there was room.
        """
        length = math.dist(tip, toward)
        straight = math.atan2((tip[1] - toward[1]) / length, (tip[0] - toward[0]) / length)
        wide = text_width(text, LETTERS) + 0.6
        for reach, tilt in itertools.product(LEADERS, TILTS):
            elbow = _polar(tip, reach, straight + tilt)
            for way in (1.0, -1.0) if math.cos(straight + tilt) >= 0 else (-1.0, 1.0):
                shelf = (elbow[0] + way * wide, elbow[1])
                label = Label(text, (elbow[0] + way * 0.3, elbow[1] + ABOVE), LETTERS, anchor="start" if way > 0 else "end")
                lines = [(tip, elbow), (elbow, shelf)]
                if self._free(lines, label) and (not strict or not self._crosses(lines)):
                    self._put(lines, [(tip, _polar(tip, HEAD, straight + tilt))], label)
                    return True
        return False

    # what is free ------------------------------------------------------

    def _put(self, lines: Sequence[Segment], heads: Sequence[Segment], label: Label) -> None:
        self.items += [Stroke(line, Pen.THIN) for line in lines]
        self.items += [head(tip, tail) for tip, tail in heads]
        self.items.append(label)
        self._lines += lines
        for tip, tail in heads:
            _, left, right = head(tip, tail).points
            self._lines.append((left, right))
        self._boxes.append(Area(label_box(label, CLEAR)))

    def _free(self, lines: Sequence[Segment], label: Label) -> bool:
        """Whether new lines cross no letters, and new letters neither a line nor other letters."""
        box, own = Area(label_box(label, CLEAR)), Area(label_box(label, CLEAR / 4))
        if own.touched(*lines) or any(map(box.meets, self._boxes)):
            return False
        return not any(other.touched(*lines) for other in self._boxes) and not box.touched(*self._lines)

    def _crosses(self, lines: Sequence[Segment]) -> bool:
        """Whether a new line crosses a dimension line that stands, or the other way round."""
        return any(crossed(line, self._lines) for line in lines)

    def _apart(self, row: _Line) -> bool:
        """Whether a new dimension line keeps its distance from those that run beside it."""
        return not any(
            abs(other.angle - row.angle) < 1.0
            and abs(other.level - row.level) < SIDE_BY_SIDE
            and other.start < row.end - 0.05
            and row.start < other.end - 0.05
            for other in self._parallels
        )


def head(tip: Point, tail: Point) -> Stroke:
    """A closed, filled arrow head from the middle of its base to its tip [mm]."""
    x, y = tail[0] - tip[0], tail[1] - tip[1]
    points = (tip, (tail[0] - y * HALF, tail[1] + x * HALF), (tail[0] + y * HALF, tail[1] - x * HALF))
    return Stroke(points, Pen.THIN, closed=True, fill=Tint.INK)


def _polar(centre: Point, radius: float, turn: float) -> Point:
    return centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn)

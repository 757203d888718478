"""Path data of an SVG, read into flattened lines (SVG 1.1, section 8.3: the commands and their numbers)."""

from __future__ import annotations

import math
import re

from bellowscut.shapes import Point
from bellowscut.tracing.curves import arc, cubic
from bellowscut.tracing.limits import Budget, number, shown
from bellowscut.tracing.model import TracingError
from bellowscut.words import say, tracing as words

Matrix = tuple[float, float, float, float, float, float]
"""a, b, c, d, e, f: x' = a x + c y + e, y' = b x + d y + f."""

_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?", re.ASCII)
_SPACE = re.compile(r"[\s,]*")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
"""Numbers that each command takes [-]."""


def times(m: Matrix, n: Matrix) -> Matrix:
    """The map that does `n` first and then `m`."""
    return (
        m[0] * n[0] + m[2] * n[1],
        m[1] * n[0] + m[3] * n[1],
        m[0] * n[2] + m[2] * n[3],
        m[1] * n[2] + m[3] * n[3],
        m[0] * n[4] + m[2] * n[5] + m[4],
        m[1] * n[4] + m[3] * n[5] + m[5],
    )


class Pen:
    """Draws lines and curves in the units of the file and notes them in millimetres.

    Parameters
    ----------
    matrix : Matrix
        From units of the file to millimetres, y up.
    budget : Budget
        Counts the points.
    """

    def __init__(self, matrix: Matrix, budget: Budget) -> None:
        self.matrix = matrix
        self.budget = budget
        self.lines: list[tuple[list[Point], bool]] = []
        self.start = self.here = (0.0, 0.0)
        self.started = False
        self._line: list[Point] = []

    def _map(self, point: Point) -> Point:
        a, b, c, d, e, f = self.matrix
        return a * point[0] + c * point[1] + e, b * point[0] + d * point[1] + f

    def _turned(self, x: float, y: float) -> Point:
        a, b, c, d, _, _ = self.matrix
        return a * x + c * y, b * x + d * y

    def _add(self, points: list[Point]) -> None:
        if not self._line:
            self._line.append(self.budget.point(*self._map(self.start)))
        self._line += [self.budget.point(*point) for point in points]

    def move(self, to: Point) -> None:
        """Begin a line."""
        self._end(closed=False)
        self.start = self.here = to
        self.started = True

    def _end(self, *, closed: bool) -> None:
        if self._line:
            self.lines.append((self._line, closed))
        self._line = []

    def close(self) -> None:
        """Draw back to where the line began."""
        self._end(closed=True)
        self.here = self.start

    def done(self) -> list[tuple[list[Point], bool]]:
        """All lines [mm], each with whether it is closed."""
        self._end(closed=False)
        return self.lines

    def line(self, to: Point) -> None:
        """Draw a straight line."""
        self._add([self._map(to)])
        self.here = to

    def cubic(self, b: Point, c: Point, to: Point) -> None:
        """Draw a cubic Bezier curve."""
        points = [self._map(point) for point in (self.here, b, c, to)]
        for point in points:
            self.budget.near(*point)
        self._add(cubic(points[0], points[1], points[2], points[3]))
        self.here = to

    def quadratic(self, b: Point, to: Point) -> None:
        """Draw a quadratic Bezier curve, as the cubic that it is."""
        a = self.here
        first = (a[0] + (b[0] - a[0]) * 2 / 3, a[1] + (b[1] - a[1]) * 2 / 3)
        second = (to[0] + (b[0] - to[0]) * 2 / 3, to[1] + (b[1] - to[1]) * 2 / 3)
        self.cubic(first, second, to)

    def ellipse(self, centre: Point, rx: float, ry: float) -> None:
        """Draw a whole ellipse as a line of its own."""
        self.move((centre[0] + rx, centre[1]))
        self._arc(centre, (rx, 0.0), (0.0, ry), 0.0, 2 * math.pi)
        self.close()

    def _arc(self, centre: Point, axis: Point, other: Point, start: float, angle: float) -> None:
        middle, one, two = self._map(centre), self._turned(*axis), self._turned(*other)
        for point in (middle, one, two):
            self.budget.near(*point)
        self._add(arc(middle, one, two, start, angle))

    def arc(self, radii: Point, tilt: float, to: Point, *, large: bool, sweep: bool) -> None:
        """Draw an elliptical arc given by its ends (SVG 1.1, appendix F.6.5: from ends to centre).

        Parameters
        ----------
        radii : Point
            Half axes [-], in units of the file.
        tilt : float
            Angle of the first axis [deg].
        to : Point
            Its end.
        large, sweep : bool
            Which of the four arcs through both ends.
        """
        rx, ry = abs(radii[0]), abs(radii[1])
        if self.here == to:
            return
        if rx < 1e-12 or ry < 1e-12:
            self.line(to)
            return
        c, s = math.cos(math.radians(tilt)), math.sin(math.radians(tilt))
        dx, dy = (self.here[0] - to[0]) / 2, (self.here[1] - to[1]) / 2
        x, y = (c * dx + s * dy) / rx, (c * dy - s * dx) / ry
        reach = math.hypot(x, y)
        if not math.isfinite(reach) or reach == 0:
            self.line(to)
            return
        if reach > 1:
            rx, ry, x, y = rx * reach, ry * reach, x / reach, y / reach
        # On the unit circle: half the chord is (x, y), the centre lies square to it.
        off = math.sqrt(max(0.0, 1 - x * x - y * y)) / math.hypot(x, y) * (-1 if large == sweep else 1)
        cx, cy = off * y, -off * x
        start = math.atan2(y - cy, x - cx)
        angle = (math.atan2(-y - cy, -x - cx) - start) % (2 * math.pi)
        angle = angle if sweep else angle - 2 * math.pi
        centre = ((self.here[0] + to[0]) / 2 + c * rx * cx - s * ry * cy, (self.here[1] + to[1]) / 2 + s * rx * cx + c * ry * cy)
        self._arc(centre, (c * rx, s * rx), (-s * ry, c * ry), start, angle)
        self.here = to
        self._line[-1] = self.budget.near(*self._map(to))


class Scanner:
    """Commands and numbers one after the other.

    Parameters
    ----------
    text : str
        Path data, or any list of numbers.
    what : str
        What it is, for the message.
    """

    def __init__(self, text: str, what: str) -> None:
        self.text = text
        self.what = what
        self.at = 0

    def command(self) -> str:
        """The next letter, empty before a number and at the end."""
        self._skip()
        letter = self.text[self.at : self.at + 1]
        if letter.isalpha():
            self.at += 1
            return letter
        return ""

    def _skip(self) -> None:
        found = _SPACE.match(self.text, self.at)
        self.at = found.end() if found else self.at

    def ended(self) -> bool:
        """Whether nothing is left."""
        self._skip()
        return self.at >= len(self.text)

    def numbers(self, count: int, *, of_arc: bool = False) -> list[float]:
        """The next numbers; the fourth and fifth of an arc are single digits that need no space after them."""
        return [self._flag() if of_arc and k in (3, 4) else self._number() for k in range(count)]

    def _number(self) -> float:
        self._skip()
        found = _NUMBER.match(self.text, self.at)
        if found is None:
            raise TracingError(say(words.SVG_NUMBER_MISSING, what=self.what, rest=self._rest()))
        self.at = found.end()
        return number(found[0], self.what)

    def _flag(self) -> float:
        self._skip()
        digit = self.text[self.at : self.at + 1]
        if digit not in ("0", "1"):
            raise TracingError(say(words.SVG_BAD_FLAG, what=self.what, rest=self._rest()))
        self.at += 1
        return float(digit)

    def _rest(self) -> str:
        rest = self.text[self.at : self.at + 20].strip()
        return shown(rest) if rest else say(words.SVG_ITS_END)


def draw(data: str, pen: Pen) -> None:
    """Draw path data.

    Parameters
    ----------
    data : str
        The ``d`` of a path.
    pen : Pen
        Takes the lines.

    Raises
    ------
    TracingError
        When it is no path data, where a browser would stop drawing without a word.
    """
    scan = Scanner(data, say(words.SVG_PATH))
    command = ""
    handle: tuple[str, Point] = ("", (0.0, 0.0))
    while not scan.ended():
        pen.budget.step()
        letter = scan.command()
        if letter:
            command = letter
            if command.upper() not in _TAKES or (not pen.started and command.upper() != "M"):
                raise TracingError(say(words.SVG_NO_COMMAND, letter=shown(letter)))
        elif command.upper() in ("", "Z"):
            raise TracingError(say(words.SVG_NUMBER_FOR_COMMAND))
        values = scan.numbers(_TAKES[command.upper()], of_arc=command.upper() == "A")
        handle = _do(command, values, pen, handle)
        # Further pairs of numbers after a move are lines.
        command = {"M": "L", "m": "l"}.get(command, command)


def _do(command: str, values: list[float], pen: Pen, handle: tuple[str, Point]) -> tuple[str, Point]:
    """Draw one command; gives back its kind and last control point, which a smooth curve after it mirrors."""
    kind = command.upper()
    x, y = pen.here if command.islower() else (0.0, 0.0)
    if kind == "Z":
        pen.close()
        return kind, pen.here
    if kind == "H":
        pen.line((x + values[0], pen.here[1]))
        return kind, pen.here
    if kind == "V":
        pen.line((pen.here[0], y + values[0]))
        return kind, pen.here
    if kind == "A":
        pen.arc((values[0], values[1]), values[2], (x + values[5], y + values[6]), large=bool(values[3]), sweep=bool(values[4]))
        return kind, pen.here
    points = [(x + values[k], y + values[k + 1]) for k in range(0, len(values), 2)]
    if kind == "M":
        pen.move(points[0])
    elif kind == "L":
        pen.line(points[0])
    else:
        mirrored = _mirrored(pen.here, handle, "CS" if kind in "CS" else "QT")
        controls = points if kind in "CQ" else [mirrored, *points]
        if kind in "CS":
            pen.cubic(controls[0], controls[1], controls[2])
        else:
            pen.quadratic(controls[0], controls[1])
        return kind, controls[-2]
    return kind, pen.here


def _mirrored(here: Point, handle: tuple[str, Point], kinds: str) -> Point:
    if handle[0] and handle[0] in kinds:
        return 2 * here[0] - handle[1][0], 2 * here[1] - handle[1][1]
    return here

"""SVG files: their lines, flattened, in millimetres.

The file is read as a stream and nothing of it is kept but its lines, so a hostile one is dropped at the element that goes too far. Nothing
outside the file is ever looked at.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from bellowscut.tracing.limits import DEEPEST, Budget, shown
from bellowscut.tracing.model import Drawing, Stroke, TracingError
from bellowscut.tracing.names import barred_kind, is_check
from bellowscut.tracing.svg_path import Matrix, Pen, Scanner, draw, times
from bellowscut.tracing.svg_size import transform, user_units, viewport
from bellowscut.words import say, tracing as words

SPACES = ("", "http://www.w3.org/2000/svg")
"""Namespaces whose elements are drawn."""

GROUPS = ("g", "a", "switch")
SHAPES = ("path", "rect", "circle", "ellipse", "line", "polyline", "polygon")

REFUSED = {
    "use": words.SVG_CLONE,
    "svg": words.SVG_WITHIN_SVG,
}
"""What would be drawn but is not read, and what to do about it; everything else that is no shape is passed over."""

_STYLED = re.compile(r"(?:^|;)\s*(display|visibility|transform)\s*:([^;]*)", re.IGNORECASE)
"""What is looked at in a style."""

LONGEST_STYLE = 10_000
"""Characters of one style [-]."""

MOST_SIGNS = 1_000_000
"""Equals signs in a file [-]: every attribute has one, and none is needed in path data."""


@dataclass(frozen=True)
class _Level:
    """What a group hands down to what is in it."""

    matrix: Matrix
    kinds: tuple[str, ...] = ()
    check: bool = False


def read_svg(data: bytes) -> Drawing:
    """Read the lines of an SVG.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    Drawing
        Its lines [mm].

    Raises
    ------
    TracingError
        When it is no SVG, or holds what is refused.
    """
    from defusedxml import DefusedXmlException
    from defusedxml.ElementTree import DefusedXMLParser, ParseError

    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        if data[:2] == b"\x1f\x8b":
            raise TracingError(say(words.SVG_COMPRESSED)) from None
        raise TracingError(say(words.SVG_NOT_UTF_8)) from None
    if text.count("=") > MOST_SIGNS:
        raise TracingError(say(words.SVG_TOO_MUCH))
    walk = _Walk()
    parser = DefusedXMLParser(target=walk)
    # Entities are refused by the parser; an inner list of declarations can blow a file up without them.
    parser.parser.StartDoctypeDeclHandler = _refuse_inner_declarations
    # Text is of no use, but where nobody takes it the parser calls for each of its lines; taken, it comes in large pieces.
    parser.parser.CharacterDataHandler = _pass_over
    try:
        parser.feed(text)
        parser.close()
    except DefusedXmlException:
        raise TracingError(say(words.SVG_ENTITIES)) from None
    except ParseError as error:
        raise TracingError(_malformed(error, text)) from None
    except ValueError as error:
        raise TracingError(say(words.SVG_UNREADABLE, reason=shown(str(error)))) from None
    if not walk.seen:
        raise TracingError(say(words.SVG_NO_ROOT))
    return Drawing(tuple(walk.strokes), walk.sized, say(words.A_PIXEL), tuple(walk.passed_over))


def _malformed(error: Exception, text: str) -> str:
    if text.lstrip()[:1] == "0":
        return say(words.SVG_IS_DXF)
    line, column = getattr(error, "position", (0, 0))
    reason = str(error).partition(":")[0]
    return say(words.SVG_UNREADABLE_AT, reason=reason, line=line, column=column)


def _refuse_inner_declarations(*declared: object) -> None:
    # Name, system and public identifier, and whether there is an inner list.
    if declared[3]:
        raise TracingError(say(words.SVG_DOCTYPE))


def _pass_over(_text: str) -> None:
    """Text between the elements."""


class _Walk:
    """Takes the elements in the order of the file."""

    def __init__(self) -> None:
        self.strokes: list[Stroke] = []
        self.passed_over: dict[str, None] = {}
        self.sized = False
        self.seen = False
        self._budget = Budget()
        self._levels: list[_Level] = []
        self._hidden = 0

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        """An element begins."""
        self._budget.element()
        self._budget.step(attributes.get("transform", "").count(")"))
        space, _, name = tag.rpartition("}")
        if self._hidden or space.lstrip("{") not in SPACES:
            self._hide()
        elif not self.seen:
            if name != "svg":
                raise TracingError(say(words.SVG_OTHER_ROOT, name=shown(name)))
            self.seen = True
            matrix, self.sized = viewport(attributes)
            self._push(_Level(matrix), attributes)
        elif _invisible(attributes):
            self._hide()
        elif name in GROUPS:
            self._push(self._levels[-1], attributes)
        elif name in SHAPES:
            self._shape(name, attributes)
            self._hide()
        elif name in REFUSED:
            raise TracingError(say(REFUSED[name]))
        else:
            self.passed_over[name] = None
            self._hide()

    def end(self, _tag: str) -> None:
        """An element ends."""
        if self._hidden:
            self._hidden -= 1
        else:
            self._levels.pop()

    def close(self) -> None:
        """The file ends."""

    def _hide(self) -> None:
        self._hidden += 1
        self._not_too_deep()

    def _not_too_deep(self) -> None:
        if len(self._levels) + self._hidden > DEEPEST:
            raise TracingError(say(words.SVG_NESTED_TOO_DEEP, deepest=DEEPEST))

    def _push(self, level: _Level, attributes: Mapping[str, str]) -> None:
        self._levels.append(_inside(level, attributes))
        self._not_too_deep()

    def _shape(self, name: str, attributes: Mapping[str, str]) -> None:
        level = _inside(self._levels[-1], attributes)
        pen = Pen(level.matrix, self._budget)
        try:
            _DRAW[name](attributes, pen)
        except TracingError as error:
            called = attributes.get("id")
            raise TracingError(
                say(words.SVG_WHICH_ELEMENT, fault=error, name=name, called=shown(called)) if called else str(error)
            ) from None
        except (OverflowError, ZeroDivisionError):
            raise TracingError(say(words.NUMBERS_LEAD_NOWHERE, kind=name)) from None
        self.strokes += [Stroke(tuple(points), closed, level.kinds, level.check) for points, closed in pen.done()]


def _inside(level: _Level, attributes: Mapping[str, str]) -> _Level:
    """What holds within an element of these attributes."""
    matrix = level.matrix
    if "transform" in attributes:
        matrix = times(matrix, transform(attributes["transform"]))
    if "transform" in _style(attributes):
        raise TracingError(say(words.SVG_MOVED_BY_STYLE))
    names = [value for key, value in attributes.items() if key == "id" or key.rpartition("}")[2] == "label"]
    kinds = tuple(sorted({*level.kinds, *(kind for kind in map(barred_kind, names) if kind)}))
    return _Level(matrix, kinds, level.check or any(map(is_check, names)))


def _style(attributes: Mapping[str, str]) -> dict[str, str]:
    if len(attributes.get("style", "")) > LONGEST_STYLE:
        raise TracingError(say(words.SVG_STYLE_TOO_LONG))
    return {key.lower(): value.strip().lower() for key, value in _STYLED.findall(attributes.get("style", ""))}


def _invisible(attributes: Mapping[str, str]) -> bool:
    said = {**{key: attributes.get(key, "") for key in ("display", "visibility")}, **_style(attributes)}
    return said["display"].split()[:1] == ["none"] or said["visibility"].split()[:1] in (["hidden"], ["collapse"])


def _length(attributes: Mapping[str, str], key: str, absent: float = 0.0) -> float:
    return user_units(attributes[key], key) if key in attributes else absent


def _path(attributes: Mapping[str, str], pen: Pen) -> None:
    draw(attributes.get("d", ""), pen)


def _rectangle(attributes: Mapping[str, str], pen: Pen) -> None:
    x, y, width, height = (_length(attributes, key) for key in ("x", "y", "width", "height"))
    given = {key: _length(attributes, key) for key in ("rx", "ry") if attributes.get(key, "auto").strip() != "auto"}
    rx = min(given.get("rx", given.get("ry", 0.0)), width / 2)
    ry = min(given.get("ry", given.get("rx", 0.0)), height / 2)
    if width <= 0 or height <= 0:
        return
    right, low = x + width, y + height
    rounded = rx > 0 and ry > 0
    if not rounded:
        rx = ry = 0.0
    # From the end of the first corner round to its beginning; without radii the arcs are nothing.
    pen.move((x + rx, y))
    for straight, corner in (
        ((right - rx, y), (right, y + ry)),
        ((right, low - ry), (right - rx, low)),
        ((x + rx, low), (x, low - ry)),
        ((x, y + ry), (x + rx, y)),
    ):
        pen.line(straight)
        if rounded:
            pen.arc((rx, ry), 0.0, corner, large=False, sweep=True)
    pen.close()


def _circle(attributes: Mapping[str, str], pen: Pen) -> None:
    _oval(attributes, pen, "r", "r")


def _ellipse(attributes: Mapping[str, str], pen: Pen) -> None:
    _oval(attributes, pen, "rx", "ry")


def _oval(attributes: Mapping[str, str], pen: Pen, across: str, along: str) -> None:
    rx, ry = _length(attributes, across), _length(attributes, along)
    if rx > 0 and ry > 0:
        pen.ellipse((_length(attributes, "cx"), _length(attributes, "cy")), rx, ry)


def _line(attributes: Mapping[str, str], pen: Pen) -> None:
    x1, y1, x2, y2 = (_length(attributes, key) for key in ("x1", "y1", "x2", "y2"))
    pen.move((x1, y1))
    pen.line((x2, y2))


def _polyline(attributes: Mapping[str, str], pen: Pen) -> None:
    scan = Scanner(attributes.get("points", ""), say(words.SVG_POINTS))
    go = pen.move
    while not scan.ended():
        pen.budget.step()
        x, y = scan.numbers(2)
        go((x, y))
        go = pen.line


def _polygon(attributes: Mapping[str, str], pen: Pen) -> None:
    _polyline(attributes, pen)
    pen.close()


_DRAW = {
    "path": _path,
    "rect": _rectangle,
    "circle": _circle,
    "ellipse": _ellipse,
    "line": _line,
    "polyline": _polyline,
    "polygon": _polygon,
}

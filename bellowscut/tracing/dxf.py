"""DXF files: their lines, flattened, in millimetres.

The file is read pair by pair and an entity is dropped as soon as its line is drawn. A library that loads a whole drawing into objects does
so before anybody can say stop; here a library is asked for no more than the curve through some points.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from bellowscut.tracing import dxf_curves as curves
from bellowscut.tracing.limits import MOST_PAIRS, MOST_POINTS, Budget, number, shown
from bellowscut.tracing.model import Drawing, Stroke, TracingError
from bellowscut.tracing.names import barred_kind, is_check
from bellowscut.units import MM_PER_FOOT, MM_PER_INCH
from bellowscut.words import say, tracing as words

UNITS = {1: MM_PER_INCH, 2: MM_PER_FOOT, 4: 1.0, 5: 10.0, 6: 1000.0, 10: 3 * MM_PER_FOOT, 14: 100.0}
"""Codes of $INSUNITS and their length [mm] (DXF reference, header variables)."""

MOST_TAGS = 5 * MOST_POINTS
"""Numbers of one entity [-]."""


def _spline(tags: curves.Tags, plane: curves.Plane) -> curves.Line:
    from bellowscut.tracing.dxf_spline import spline

    return spline(tags, plane)


DRAWN: dict[str, Callable[[curves.Tags, curves.Plane], curves.Line]] = {
    "LINE": curves.straight,
    "ARC": curves.round_arc,
    "CIRCLE": curves.round_arc,
    "LWPOLYLINE": curves.light_polyline,
    "ELLIPSE": curves.ellipse,
    "SPLINE": _spline,
}
"""What is drawn from one entity; a POLYLINE takes several."""

SOLIDS = ("3DFACE", "3DSOLID", "BODY", "MESH", "SURFACE")

INVISIBLE, PAPER = 60, 67
"""Group codes of an entity that is not shown, or shown on the sheet of paper only."""

TEXT_CODES = (
    range(10),
    range(100, 110),
    range(300, 370),
    range(390, 400),
    range(410, 420),
    range(430, 440),
    range(470, 482),
    range(999, 10_000),
)
"""Group codes whose values are no numbers (DXF reference, group code value types)."""

_TEXT = frozenset(code for codes in TEXT_CODES for code in codes)

LONGEST_LINE = 5_000
"""Characters of a line that is looked at [-]."""


@dataclass
class _Entity:
    """One entity while it is read."""

    kind: str
    layer: str = "0"
    hidden: bool = False
    tags: curves.Tags = field(default_factory=list)


def read_dxf(data: bytes) -> Drawing:
    """Read the lines of a DXF.

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
        When it is no DXF, or holds what is refused.
    """
    if b"Binary DXF" in data[:30]:
        raise TracingError(say(words.DXF_BINARY))
    if b"\0" in data:
        raise TracingError(say(words.DXF_NOT_TEXT))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        # Programs of before 2007 write the letters of their country; they matter in names only, and ours are plain.
        text = data.decode("latin-1")
    reader = _Reader()
    reader.read(_pairs(text))
    return reader.drawing()


def _pairs(text: str) -> Iterator[tuple[int, str]]:
    """Group codes and values, without comments."""
    lines = io.StringIO(text, newline=None)
    for row, line in enumerate(lines):
        try:
            code = int(line) if len(line) < 20 else -1
        except ValueError:
            code = -1
        value = next(lines, None)
        if code == -1 and not line.strip() and value is None:
            return
        if code < 0 or value is None:
            if row == 0 and line.lstrip()[:1] == "<":
                raise TracingError(say(words.DXF_IS_SVG))
            if value is None:
                raise TracingError(say(words.DXF_LINE_BREAKS_OFF, row=2 * row + 1))
            raise TracingError(say(words.DXF_NO_GROUP_CODE, row=2 * row + 1, text=shown(line.strip())))
        if row >= MOST_PAIRS:
            raise TracingError(say(words.DXF_TOO_MUCH))
        if code != 999:
            yield code, value.strip() if len(value) <= LONGEST_LINE else ""


class _Reader:
    """Takes the pairs in the order of the file."""

    def __init__(self) -> None:
        self.strokes: list[Stroke] = []
        self.passed_over: dict[str, None] = {}
        self.units = 0
        self._hidden_layers: set[str] = set()
        self._plane = curves.Plane(1.0, Budget())
        self._polyline: tuple[_Entity, list[curves.Tags]] | None = None

    def drawing(self) -> Drawing:
        """All that was read."""
        return Drawing(tuple(self.strokes), self.units != 0, say(words.A_MILLIMETRE), tuple(self.passed_over))

    def read(self, pairs: Iterator[tuple[int, str]]) -> None:
        """Read all sections."""
        known = {"HEADER": self._header, "TABLES": self._tables, "ENTITIES": self._entities}
        sections = 0
        for code, value in pairs:
            if (code, value) == (0, "EOF"):
                break
            if (code, value) != (0, "SECTION"):
                raise TracingError(say(words.DXF_NO_SECTION, text=shown(value)))
            name = next(pairs, (2, ""))[1]
            known.get(name, _skip)(_section(pairs))
            sections += 1
        if not sections:
            raise TracingError(say(words.DXF_NO_SECTIONS))

    def _header(self, pairs: Iterator[tuple[int, str]]) -> None:
        variable = ""
        for code, value in pairs:
            if code == 9:
                variable = value
            elif variable == "$INSUNITS" and code == 70:
                self.units = int(number(value, "$INSUNITS"))
                if self.units not in (0, *UNITS):
                    raise TracingError(say(words.DXF_UNKNOWN_UNIT))
                self._plane.scale = UNITS.get(self.units, 1.0)

    def _tables(self, pairs: Iterator[tuple[int, str]]) -> None:
        entry = name = ""
        for code, value in pairs:
            if code == 0:
                entry, name = value, ""
            elif entry == "LAYER" and code == 2:
                name = value.lower()
            elif entry == "LAYER" and (
                (code == 62 and value.startswith("-")) or (code == 70 and int(number(value, say(words.DXF_A_LAYER))) & 1)
            ):
                self._hidden_layers.add(name)

    def _entities(self, pairs: Iterator[tuple[int, str]]) -> None:
        entity: _Entity | None = None
        for code, value in pairs:
            if code == 0:
                if entity is not None:
                    self._draw(entity)
                self._plane.budget.element()
                entity = _Entity(value)
            elif entity is None:
                raise TracingError(say(words.DXF_NO_ENTITY, text=shown(value)))
            elif code == 8:
                entity.layer = value
            elif code in (INVISIBLE, PAPER):
                entity.hidden = entity.hidden or value not in ("0", "")
            elif code not in _TEXT and (entity.kind in DRAWN or entity.kind in ("POLYLINE", "VERTEX")):
                entity.tags.append((code, number(value, f"a {entity.kind}")))
                if len(entity.tags) > MOST_TAGS:
                    raise TracingError(say(words.TOO_MANY_POINTS, most=MOST_POINTS))
        if entity is not None:
            self._draw(entity)
        if self._polyline is not None:
            raise TracingError(say(words.DXF_POLYLINE_WITHOUT_END))

    def _draw(self, entity: _Entity) -> None:
        """Draw an entity that has been read to its end."""
        if self._polyline is not None:
            self._go_on(entity, *self._polyline)
            return
        if entity.hidden or entity.layer.lower() in self._hidden_layers:
            return
        if entity.kind == "POLYLINE":
            self._polyline = entity, []
        elif entity.kind in DRAWN:
            self._stroke(entity, lambda: DRAWN[entity.kind](entity.tags, self._plane))
        elif entity.kind == "INSERT":
            raise TracingError(say(words.DXF_BLOCK))
        elif entity.kind in SOLIDS:
            raise TracingError(say(words.DXF_SOLID, kind=entity.kind))
        else:
            self.passed_over[shown(entity.kind).strip('"')] = None

    def _go_on(self, entity: _Entity, polyline: _Entity, vertices: list[curves.Tags]) -> None:
        if entity.kind == "VERTEX":
            vertices.append(entity.tags)
        elif entity.kind == "SEQEND":
            self._polyline = None
            self._stroke(polyline, lambda: curves.heavy_polyline(polyline.tags, vertices, self._plane))
        else:
            raise TracingError(say(words.DXF_POLYLINE_HOLDS, kind=shown(entity.kind)))

    def _stroke(self, entity: _Entity, draw: Callable[[], curves.Line]) -> None:
        try:
            points, closed = draw()
        except OverflowError:
            raise TracingError(say(words.NUMBERS_LEAD_NOWHERE, kind=entity.kind)) from None
        if points:
            kind = barred_kind(entity.layer)
            self.strokes.append(Stroke(tuple(points), closed, (kind,) if kind else (), is_check(entity.layer)))


def _section(pairs: Iterator[tuple[int, str]]) -> Iterator[tuple[int, str]]:
    """The pairs up to the end of a section."""
    for code, value in pairs:
        if (code, value) == (0, "ENDSEC"):
            return
        if (code, value) == (0, "EOF"):
            break
        yield code, value
    raise TracingError(say(words.DXF_BREAKS_OFF))


def _skip(pairs: Iterator[tuple[int, str]]) -> None:
    for _ in pairs:
        pass

"""Drawings as SVG at true size, with true arcs, the same bytes on every run.

The only work done here is to turn y, which SVG counts downwards, and to write
bulges as arcs. Labels are drawn in single strokes, so that a machine can draw
them and nothing depends on a font; each carries its full text as a title.

The file is in layers, in the order in which they are worked, and in each layer
stands a group a part. SVG itself knows no layers: editors read them from an
attribute, which is put on the group with its name.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from bellowscut.drawing import Drawn, Label, Role
from bellowscut.export.ink import INKS, Ink, Inks, layer_of, layers_of
from bellowscut.export.stroke_letters import spelling_told, strokes
from bellowscut.shapes import Outline, Point

if TYPE_CHECKING:
    from svgwrite.base import BaseElement
    from svgwrite.drawing import Drawing

_QUARTER = math.tan(math.pi / 8)
"""Bulge of a quarter circle. Wider arcs are written in pieces: an arc of half a turn would take its centre from rounded digits."""

_EDITOR = "http://www.inkscape.org/namespaces/inkscape"
"""Name space of the attributes by which vector editors know a group for a layer; programs look for the prefix that belongs to it too."""

# In three: one class of all takes milliseconds to compile.
_UNFIT = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f]|[\ud800-\udfff]|[\ufffe\uffff]")
"""What XML 1.0 does not allow even when escaped."""


def write_svg(
    drawn: Sequence[Drawn],
    width: float,
    height: float,
    *,
    title: str,
    description: str,
    flatten: float | None = None,
    inks: Inks = INKS,
) -> bytes:
    """Write drawings into one file.

    Parameters
    ----------
    drawn : sequence of Drawn
        In the order in which they stand in each layer; there each becomes a group named after its part and the layer.
    width, height : float
        Of the whole [mm]; the lower left corner is the origin of the drawings.
    title : str
        Name of the file as a viewer shows it.
    description : str
        What it shows: units, face, fingerprint.
    flatten : float or None
        Greatest distance of a chord from its arc [mm]; None keeps true arcs.
    inks : mapping of str to Ink
        Colour and width of the lines by layer.

    Returns
    -------
    bytes
        The file, in UTF-8.
    """
    from svgwrite import Drawing

    told = " ".join(filter(None, (description, spelling_told(label.text for one in drawn for label in one.labels))))
    drawing = Drawing(size=(f"{_number(width)}mm", f"{_number(height)}mm"), viewBox=f"0 0 {_number(width)} {_number(height)}", debug=False)
    drawing.set_desc(title=fit_for_xml(title), desc=fit_for_xml(told))
    drawing.update({"xmlns:inkscape": _EDITOR})
    taken: set[str] = set()
    groups = [_Group(drawing, one, _unused(one.part, taken), height, flatten) for one in drawn]
    for layer, ink in layers_of(drawn, inks).items():
        filled = [group.on(layer, ink) for group in groups if layer in group.paths]
        if filled:
            marked = {"id": f"layer-{layer.lower()}", "inkscape:groupmode": "layer", "inkscape:label": layer}
            sheet = drawing.add(drawing.g(**marked))
            for group in filled:
                sheet.add(group)
    return ('<?xml version="1.0" encoding="utf-8"?>\n' + drawing.tostring() + "\n").encode()


def fit_for_xml(text: str) -> str:
    """The text with a question mark for each character that no XML file may hold."""
    return _UNFIT.sub("?", text)


def _unused(part: str, taken: set[str]) -> str:
    """An id that no other group of the file has: the part's own, or that with a number."""
    plain = re.sub(r"[^A-Za-z0-9_-]", "-", part)
    name = plain if re.match("[A-Za-z]", plain) else f"part-{plain}"
    number, free = 1, name
    while free in taken:
        number += 1
        free = f"{name}-{number}"
    taken.add(free)
    return free


class _Group:
    """What one drawing has on each layer."""

    def __init__(self, drawing: Drawing, drawn: Drawn, name: str, height: float, flatten: float | None) -> None:
        self._drawing = drawing
        self._part = drawn.part
        self._name = name
        self._height = height
        self._flatten = flatten
        self.paths: dict[str, list[BaseElement]] = {}
        self._fill(drawn)

    def _fill(self, drawn: Drawn) -> None:
        for line in drawn.lines:
            self.paths.setdefault(layer_of(drawn, line.role), []).append(self._path(self._run(line.points, closed=line.closed)))
        for outline in reversed(drawn.outlines):  # holes before the outline, while the piece is still held
            self.paths.setdefault(layer_of(drawn, Role.CUT), []).append(self._path(self._outline(outline)))
        for label in drawn.labels:
            if label.text.strip():
                self.paths.setdefault(layer_of(drawn, Role.TEXT), []).append(self._letters(label))

    def on(self, layer: str, ink: Ink) -> BaseElement:
        """The group of one layer, named after part and layer; a drawing that bears the name of its layer already has only that one."""
        named = layer == "SCALE" or f"-{self._part}".endswith(f"-{layer.lower()}")
        group = self._drawing.g(
            id=self._name if named else f"{self._name}-{layer.lower()}", fill="none", stroke=ink.colour, stroke_width=_number(ink.weight)
        )
        for path in self.paths[layer]:
            group.add(path)
        return group

    def _path(self, data: str) -> BaseElement:
        return self._drawing.path(d=data)

    def _letters(self, label: Label) -> BaseElement:
        path = self._path(" ".join(self._run(stroke) for stroke in strokes(label)))
        path.set_desc(title=fit_for_xml(label.text))
        return path

    def _at(self, point: Point) -> str:
        return f"{_number(point[0])} {_number(self._height - point[1])}"

    def _run(self, points: Sequence[Point], *, closed: bool = False) -> str:
        return "M" + " L".join(map(self._at, points)) + (" Z" if closed else "")

    def _outline(self, outline: Outline) -> str:
        if self._flatten is not None:
            return self._run(outline.flattened(self._flatten), closed=True)
        steps = [f"M{self._at(outline.points[0])}"]
        for i, start in enumerate(outline.points):
            end = outline.points[(i + 1) % len(outline.points)]
            if outline.bulges[i]:
                for goal, radius in _arcs(start, end, outline.bulges[i]):
                    # Turning y makes a bend to the left one to the right, and SVG counts angles the other way: 0 is counter-clockwise.
                    sweep = 0 if outline.bulges[i] > 0 else 1
                    steps.append(f"A{_number(radius)} {_number(radius)} 0 0 {sweep} {self._at(goal)}")
            elif i + 1 < len(outline.points):
                steps.append(f"L{self._at(end)}")
        return " ".join((*steps, "Z"))


def _arcs(start: Point, end: Point, bulge: float) -> Iterator[tuple[Point, float]]:
    """An arc in pieces of a quarter circle at most: end and radius of each [mm]."""
    if abs(bulge) > _QUARTER + 1e-9:
        # The middle of the arc lies to the right of the chord of a positive bulge, by bulge times half the chord.
        x = (start[0] + end[0]) / 2 + bulge * (end[1] - start[1]) / 2
        y = (start[1] + end[1]) / 2 - bulge * (end[0] - start[0]) / 2
        half = math.tan(math.atan(bulge) / 2)
        yield from _arcs(start, (x, y), half)
        yield from _arcs((x, y), end, half)
        return
    yield end, abs(math.dist(start, end) / (2 * math.sin(2 * math.atan(bulge))))


def _number(value: float) -> str:
    """A length to 0.00005 mm without idle digits."""
    shown = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if shown == "-0" else shown

"""Pages as PDF, at true size and the same bytes on every run.

Nothing is worked out here but millimetres to points. Every role has a line of
its own colour, weight and pattern, so that a grey print tells as much as a
coloured one and so does the eye that sees colours differently.
"""

from __future__ import annotations

import io
import math
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from bellowscut.drawing import Drawn, Item, Label, Line, Page, Pen, Role, Stroke, Tint, Window
from bellowscut.lettering import FONT_SIZE, fitted_height, printable
from bellowscut.shapes import Outline, Point

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

POINTS_PER_MM = 72 / 25.4
"""PDF user units in a millimetre: a unit is 1/72 in (ISO 32000-1)."""

PLAIN_FONT = "bellowscut-plain"
BOLD_FONT = "bellowscut-bold"

_WIDEST_ARC = math.pi / 4
"""Greatest angle [rad] drawn with one cubic: its error is then 4e-6 of the radius."""


@dataclass(frozen=True)
class Style:
    """How a line looks.

    Parameters
    ----------
    colour : str
        ``rrggbb`` in hexadecimal.
    weight : float
        Width of the line [mm].
    dashes : tuple of float
        Lengths on and off by turns [mm]; empty for a line without breaks.
    """

    colour: str
    weight: float
    dashes: tuple[float, ...] = ()


INK = "17161c"

ROLE_STYLES = {
    Role.CUT: Style(INK, 0.4),
    Role.CREASE: Style("0b4a6f", 0.28, (6.5, 1.1, 0.9, 1.1)),
    Role.SKIVE: Style("8f3b12", 0.34, (1.6, 1.2)),
    Role.MARK: Style("5f5a75", 0.13),
    Role.TEXT: Style(INK, 0.18),
}

PEN_STYLES = {
    Pen.SOLID: Style(INK, 0.25),
    Pen.HEAVY: Style(INK, 0.6),
    Pen.THIN: Style("4a4954", 0.12),
    Pen.DASHED: Style("4a4954", 0.18, (2.4, 1.6)),
    Pen.BAR: Style(INK, 0.16),
}

TINTS = {
    Tint.WHITE: "ffffff",
    Tint.PALE: "f2f0ea",
    Tint.PAPER: "eadfc4",
    Tint.CARD: "d3cdbf",
    Tint.CLOTH: "a9bcc0",
    Tint.FRAME: "9a8a6c",
    Tint.LEATHER: "8a6244",
    Tint.STRIP: "573a2b",
    Tint.INK: INK,
    Tint.PAPER_SHADE: "d6c9aa",
    Tint.CARD_SHADE: "b9b2a3",
    Tint.CLOTH_SHADE: "8fa3a8",
    Tint.FRAME_SHADE: "7d6e53",
    Tint.LEATHER_SHADE: "72503a",
    Tint.STRIP_SHADE: "452d22",
}


def write_pdf(pages: Sequence[Page], *, title: str, subject: str = "") -> bytes:
    """Write pages at full size.

    Parameters
    ----------
    pages : sequence of Page
        At least one, each with its own paper size [mm].
    title : str
        Name of the file as a viewer shows it.
    subject : str
        One line about the contents.

    Returns
    -------
    bytes
        The file. Viewers are asked not to scale it; both fonts are inside.
    """
    from reportlab.pdfgen.canvas import Canvas

    _know_fonts()
    into = io.BytesIO()
    with _settled():
        canvas = Canvas(into, invariant=1, pdfVersion=(1, 6), pageCompression=1, initialFontName=PLAIN_FONT, lang="en")
        canvas.setTitle(title)
        canvas.setSubject(subject)
        canvas.setAuthor("")
        canvas.setCreator("bellowscut")
        canvas.setProducer("bellowscut")
        canvas.setViewerPreference("PrintScaling", "None")
        canvas.setViewerPreference("DisplayDocTitle", "true")
        for number, page in enumerate(pages, 1):
            canvas.setPageSize((page.width * POINTS_PER_MM, page.height * POINTS_PER_MM))
            _PagePen(canvas).draw(page.items)
            canvas.bookmarkPage(f"page-{number}")
            canvas.addOutlineEntry(page.title, f"page-{number}", 0)
            canvas.showPage()
        # Fonts are packed here, so the settings must hold until then.
        canvas.save()
    return into.getvalue()


def _know_fonts() -> None:
    """Read the two font files, once a process."""
    from font_source_sans_pro import font_directory
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    known = pdfmetrics.getRegisteredFontNames()
    for name, file in ((PLAIN_FONT, "SourceSansPro-Regular.ttf"), (BOLD_FONT, "SourceSansPro-Bold.ttf")):
        if name not in known:
            pdfmetrics.registerFont(TTFont(name, str(Path(font_directory) / file)))


@contextmanager
def _settled() -> Iterator[None]:
    """Settings of the library that must hold while a file is written, and no longer.

    SOURCE_DATE_EPOCH would put a date of its own into the file; streams written
    as letters are a quarter larger and slow.
    """
    from reportlab import rl_config

    held = os.environ.pop("SOURCE_DATE_EPOCH", None)
    as_letters, rl_config.useA85 = rl_config.useA85, 0
    try:
        yield
    finally:
        rl_config.useA85 = as_letters
        if held is not None:
            os.environ["SOURCE_DATE_EPOCH"] = held


def _number(value: float) -> str:
    """A coordinate in points, to 0.0002 mm and without idle digits."""
    shown = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if shown == "-0" else shown


@cache
def _colour(colour: str) -> str:
    return " ".join(_number(int(colour[k : k + 2], 16) / 255) for k in (0, 2, 4))


@cache
def _pen(style: Style) -> str:
    dashes = " ".join(_number(length * POINTS_PER_MM) for length in style.dashes)
    return f"{_colour(style.colour)} RG {_number(style.weight * POINTS_PER_MM)} w [{dashes}] 0 d"


def _at(point: Point) -> str:
    return f"{_number(point[0] * POINTS_PER_MM)} {_number(point[1] * POINTS_PER_MM)}"


def _run(points: Sequence[Point]) -> str:
    return f"{_at(points[0])} m " + " ".join(f"{_at(point)} l" for point in points[1:])


def _curve(start: Point, end: Point, bulge: float) -> str:
    """Cubics along the arc from `start` to `end`."""
    angle = 4 * math.atan(bulge)
    chord = math.dist(start, end)
    off = chord / 2 / math.tan(angle / 2)
    across = ((end[0] - start[0]) / chord, (end[1] - start[1]) / chord)
    centre = ((start[0] + end[0]) / 2 - across[1] * off, (start[1] + end[1]) / 2 + across[0] * off)
    pieces = math.ceil(abs(angle) / _WIDEST_ARC)
    reach = 4 / 3 * math.tan(angle / pieces / 4)
    x, y = start[0] - centre[0], start[1] - centre[1]
    c, s = math.cos(angle / pieces), math.sin(angle / pieces)
    found = []
    for _ in range(pieces):
        u, v = c * x - s * y, s * x + c * y
        first = (centre[0] + x - reach * y, centre[1] + y + reach * x)
        second = (centre[0] + u + reach * v, centre[1] + v - reach * u)
        found.append(f"{_at(first)} {_at(second)} {_at((centre[0] + u, centre[1] + v))} c")
        x, y = u, v
    return " ".join(found)


def _outline(outline: Outline) -> str:
    parts = [f"{_at(outline.points[0])} m"]
    for i, start in enumerate(outline.points):
        end = outline.points[(i + 1) % len(outline.points)]
        if outline.bulges[i]:
            parts.append(_curve(start, end, outline.bulges[i]))
        elif i + 1 < len(outline.points):
            parts.append(f"{_at(end)} l")
    return " ".join(parts)


class _PagePen:
    """Writes the items of one page; says a line's look only when it changes."""

    def __init__(self, canvas: Canvas) -> None:
        self._canvas = canvas
        self._style: Style | None = None
        self._fill = ""
        canvas.addLiteral("0 J 0 j 4 M")

    def draw(self, items: Sequence[Item]) -> None:
        """Draw items in their order; lettering of neighbours goes into one block."""
        labels: list[Label] = []
        for item in items:
            if isinstance(item, Label):
                labels.append(item)
                continue
            self._letter(labels)
            labels = []
            if isinstance(item, Line):
                self._line(item)
            elif isinstance(item, Stroke):
                self._stroke(item)
            elif isinstance(item, Drawn):
                self._drawn(item)
            else:
                self._window(item)
        self._letter(labels)

    def _line(self, line: Line) -> None:
        self._use(ROLE_STYLES[line.role])
        self._canvas.addLiteral(f"{_run(line.points)} {'s' if line.closed else 'S'}")

    def _stroke(self, stroke: Stroke) -> None:
        self._use(PEN_STYLES[stroke.pen])
        if stroke.fill is Tint.NONE:
            self._canvas.addLiteral(f"{_run(stroke.points)} {'s' if stroke.closed else 'S'}")
            return
        self._pour(TINTS[stroke.fill])
        self._canvas.addLiteral(f"{_run(stroke.points)} {'b' if stroke.closed else 'B'}")

    def _drawn(self, drawn: Drawn) -> None:
        for line in drawn.lines:
            self._line(line)
        self._use(ROLE_STYLES[Role.CUT])
        for outline in drawn.outlines:
            self._canvas.addLiteral(f"{_outline(outline)} s")
        self._letter(drawn.labels)

    def _window(self, window: Window) -> None:
        low = _at(window.low)
        size = _at((window.high[0] - window.low[0], window.high[1] - window.low[1]))
        style, fill = self._style, self._fill
        self._canvas.addLiteral(f"q {low} {size} re W n")
        for drawn in window.drawn:
            self._drawn(drawn)
        self._canvas.addLiteral("Q")
        self._style, self._fill = style, fill

    def _letter(self, labels: Sequence[Label]) -> None:
        shown = [label for label in labels if label.text.strip()]
        if not shown:
            return
        self._pour(INK)
        block = self._canvas.beginText()
        for label in shown:
            text = printable(label.text)
            font = BOLD_FONT if label.bold else PLAIN_FONT
            size = fitted_height(label) * FONT_SIZE * POINTS_PER_MM
            back = (
                0.0 if label.anchor == "start" else self._canvas.stringWidth(text, font, size) * (0.5 if label.anchor == "middle" else 1.0)
            )
            c, s = math.cos(math.radians(label.angle)), math.sin(math.radians(label.angle))
            block.setFont(font, size)
            block.setTextTransform(c, s, -s, c, label.at[0] * POINTS_PER_MM - back * c, label.at[1] * POINTS_PER_MM - back * s)
            block.textOut(text)
        self._canvas.drawText(block)

    def _use(self, style: Style) -> None:
        if style == self._style:
            return
        self._style = style
        self._canvas.addLiteral(_pen(style))

    def _pour(self, colour: str) -> None:
        if colour != self._fill:
            self._fill = colour
            self._canvas.addLiteral(f"{_colour(colour)} rg")

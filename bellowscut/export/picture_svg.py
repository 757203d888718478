"""Pictures as SVG: the same items that go into the PDF, filled, in the same colours, lettered with plain text.

Patterns for machines are written by `bellowscut.export.svg`; this is for the eye.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from bellowscut.drawing import Drawn, Item, Label, Line, Role, Stroke, Tint, Window
from bellowscut.export.pdf import INK, PEN_STYLES, ROLE_STYLES, TINTS, Style
from bellowscut.export.svg import fit_for_xml
from bellowscut.lettering import FONT_SIZE, fitted_height, printable, text_width
from bellowscut.shapes import Point

FONT = "Source Sans Pro, Source Sans 3, sans-serif"
"""The font that widths are reckoned with, and its like."""

FLATTEN = 0.05
"""Greatest distance of an arc from its chords in a picture [mm]."""


def write_picture(items: Sequence[Item], width: float, height: float, *, title: str, description: str) -> bytes:
    """Write one picture.

    Parameters
    ----------
    items : sequence of items
        In the order of drawing.
    width, height : float
        Of the whole [mm]; the lower left corner is the origin of the items.
    title : str
        Name of the file as a viewer shows it.
    description : str
        What it shows, for those who cannot see it.

    Returns
    -------
    bytes
        The file, in UTF-8; every text keeps its width in whatever font it is shown.
    """
    wide, tall = svg_number(width), svg_number(height)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{tall}mm" viewBox="0 0 {wide} {tall}" role="img" '
        f'font-family="{FONT}" fill="none" stroke-linejoin="round">'
    )
    lines = [
        '<?xml version="1.0" encoding="utf-8"?>',
        head,
        f"<title>{escape(fit_for_xml(title))}</title>",
        f"<desc>{escape(fit_for_xml(description))}</desc>",
        f'<rect width="{wide}" height="{tall}" fill="#ffffff"/>',
        *svg_items(items, height, "window", fixed=True),
        "</svg>",
    ]
    return ("\n".join(lines) + "\n").encode()


def svg_items(items: Sequence[Item], height: float, name: str, *, fixed: bool = False) -> Iterator[str]:
    """Elements of a picture, one for each line, fill and label.

    Parameters
    ----------
    items : sequence of items
        What is drawn.
    height : float
        Of the picture: SVG counts y downwards [mm].
    name : str
        How ids of windows begin.
    fixed : bool
        Whether every text says how wide it is.
    """
    for number, item in enumerate(items):
        if isinstance(item, Line):
            yield _line(item, height)
        elif isinstance(item, Label):
            yield _label(item, height, fixed=fixed)
        elif isinstance(item, Stroke):
            yield _path(item.points, height, PEN_STYLES[item.pen], closed=item.closed, fill=item.fill)
        elif isinstance(item, Drawn):
            yield from _drawn(item, height, fixed=fixed)
        else:
            yield from _window(item, height, f"{name}-{number}", fixed=fixed)


def _window(window: Window, height: float, name: str, *, fixed: bool) -> Iterator[str]:
    (left, low), (right, high) = window.low, window.high
    size = f'width="{svg_number(right - left)}" height="{svg_number(high - low)}"'
    box = f'x="{svg_number(left)}" y="{svg_number(height - high)}" {size}'
    yield f'<clipPath id="{name}"><rect {box}/></clipPath><g clip-path="url(#{name})">'
    for drawn in window.drawn:
        yield from _drawn(drawn, height, fixed=fixed)
    yield "</g>"


def _drawn(drawn: Drawn, height: float, *, fixed: bool) -> Iterator[str]:
    for line in drawn.lines:
        yield _line(line, height)
    for outline in drawn.outlines:
        yield _path(outline.flattened(FLATTEN), height, ROLE_STYLES[Role.CUT], closed=True)
    for label in drawn.labels:
        yield _label(label, height, fixed=fixed)


def _line(line: Line, height: float) -> str:
    return _path(line.points, height, ROLE_STYLES[line.role], closed=line.closed)


def _path(points: Sequence[Point], height: float, style: Style, *, closed: bool, fill: Tint = Tint.NONE) -> str:
    run = "L".join(f"{svg_number(x)} {svg_number(height - y)}" for x, y in points)
    dashes = f' stroke-dasharray="{" ".join(map(svg_number, style.dashes))}"' if style.dashes else ""
    filled = f' fill="#{TINTS[fill]}"' if fill is not Tint.NONE else ""
    return f'<path d="M{run}{"Z" if closed else ""}" stroke="#{style.colour}" stroke-width="{svg_number(style.weight)}"{dashes}{filled}/>'


def _label(label: Label, height: float, *, fixed: bool) -> str:
    x, y = svg_number(label.at[0]), svg_number(height - label.at[1])
    turn = f' transform="rotate({svg_number(-label.angle)} {x} {y})"' if label.angle else ""
    anchor = "" if label.anchor == "start" else f' text-anchor="{label.anchor}"'
    bold = ' font-weight="bold"' if label.bold else ""
    size = fitted_height(label)
    wide = f' textLength="{svg_number(text_width(label.text, size, bold=label.bold))}" lengthAdjust="spacingAndGlyphs"' if fixed else ""
    text = escape(fit_for_xml(printable(label.text)))
    return f'<text x="{x}" y="{y}" font-size="{svg_number(size * FONT_SIZE)}" fill="#{INK}"{anchor}{bold}{wide}{turn}>{text}</text>'


def svg_number(value: float) -> str:
    """Hundredths of a millimetre are finer than a picture needs."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text

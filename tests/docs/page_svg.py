"""Pages as SVG for the documentation: the same items that go into the PDF, drawn in the same colours.

The patterns themselves are written by `bellowscut.export`; this is for pictures only.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from bellowscut.drawing import Drawn, Item, Label, Line, Page, Role, Stroke, Tint, Window
from bellowscut.export.pdf import INK, PEN_STYLES, ROLE_STYLES, TINTS, Style
from bellowscut.lettering import fitted_height, printable
from bellowscut.shapes import Point

FONT = "Bitstream Vera Sans, DejaVu Sans, Verdana, sans-serif"

PICTURE_FLATTEN = 0.05
"""Greatest distance of an arc from its chords in a picture [mm]."""

BORDER = "c9c4b8"
"""Colour of the edge of the paper where several pages lie side by side."""


def page_svg(page: Page, *, edge: bool = False) -> str:
    """One page as a picture of its own, at true size.

    Parameters
    ----------
    page : Page
        The page.
    edge : bool
        Whether the edge of the paper is shown.
    """
    return pages_svg((page,), page.title, 1.0, edge=edge)


def pages_svg(pages: Sequence[Page], title: str, scale: float, *, edge: bool = True, gap: float = 6.0) -> str:
    """Several pages side by side.

    Parameters
    ----------
    pages : sequence of Page
        From left to right.
    title : str
        What the picture shows, for those who cannot see it.
    scale : float
        Size of the picture over that of the pages [-].
    edge : bool
        Whether the edges of the paper are shown.
    gap : float
        Space between the pages [mm].
    """
    width = sum(page.width for page in pages) + gap * (len(pages) - 1)
    height = max(page.height for page in pages)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_number(width * scale)}mm" height="{_number(height * scale)}mm" '
        f'viewBox="0 0 {_number(width)} {_number(height)}" role="img" font-family="{FONT}" fill="none">'
    )
    lines = [head, f"<title>{escape(title)}</title>"]
    at = 0.0
    for page in pages:
        border = f' stroke="#{BORDER}" stroke-width="0.4"' if edge else ""
        lines.append(f'<g transform="translate({_number(at)} 0)">')
        lines.append(f'<rect width="{_number(page.width)}" height="{_number(page.height)}" fill="#ffffff"{border}/>')
        lines += _items(page.items, page.height, f"page-{len(lines)}")
        lines.append("</g>")
        at += page.width + gap
    return "\n".join([*lines, "</svg>"]) + "\n"


def _items(items: Sequence[Item], height: float, name: str) -> Iterator[str]:
    for number, item in enumerate(items):
        if isinstance(item, Line):
            yield _line(item, height)
        elif isinstance(item, Label):
            yield _label(item, height)
        elif isinstance(item, Stroke):
            yield _path(item.points, height, PEN_STYLES[item.pen], closed=item.closed, fill=item.fill)
        elif isinstance(item, Drawn):
            yield from _drawn(item, height)
        else:
            yield from _window(item, height, f"{name}-{number}")


def _window(window: Window, height: float, name: str) -> Iterator[str]:
    (left, low), (right, high) = window.low, window.high
    box = f'x="{_number(left)}" y="{_number(height - high)}" width="{_number(right - left)}" height="{_number(high - low)}"'
    yield f'<clipPath id="{name}"><rect {box}/></clipPath><g clip-path="url(#{name})">'
    for drawn in window.drawn:
        yield from _drawn(drawn, height)
    yield "</g>"


def _drawn(drawn: Drawn, height: float) -> Iterator[str]:
    for line in drawn.lines:
        yield _line(line, height)
    for outline in drawn.outlines:
        yield _path(outline.flattened(PICTURE_FLATTEN), height, ROLE_STYLES[Role.CUT], closed=True)
    for label in drawn.labels:
        yield _label(label, height)


def _line(line: Line, height: float) -> str:
    return _path(line.points, height, ROLE_STYLES[line.role], closed=line.closed)


def _path(points: Sequence[Point], height: float, style: Style, *, closed: bool, fill: Tint = Tint.NONE) -> str:
    run = "L".join(f"{_number(x)} {_number(height - y)}" for x, y in points)
    dashes = f' stroke-dasharray="{" ".join(map(_number, style.dashes))}"' if style.dashes else ""
    filled = f' fill="#{TINTS[fill]}"' if fill is not Tint.NONE else ""
    return f'<path d="M{run}{"Z" if closed else ""}" stroke="#{style.colour}" stroke-width="{_number(style.weight)}"{dashes}{filled}/>'


def _label(label: Label, height: float) -> str:
    x, y = _number(label.at[0]), _number(height - label.at[1])
    turn = f' transform="rotate({_number(-label.angle)} {x} {y})"' if label.angle else ""
    anchor = "" if label.anchor == "start" else f' text-anchor="{label.anchor}"'
    bold = ' font-weight="bold"' if label.bold else ""
    size = _number(fitted_height(label))
    return f'<text x="{x}" y="{y}" font-size="{size}" fill="#{INK}"{anchor}{bold}{turn}>{escape(printable(label.text))}</text>'


def _number(value: float) -> str:
    """Hundredths of a millimetre are finer than a picture needs."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text

"""Pages as SVG for the documentation: the same items that go into the PDF, drawn in the same colours.

The patterns themselves are written by `bellowscut.export`; this sets pages side by side for the eye.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from bellowscut.drawing import Page
from bellowscut.export.picture_svg import FONT, svg_items, svg_number

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
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{svg_number(width * scale)}mm" height="{svg_number(height * scale)}mm" '
        f'viewBox="0 0 {svg_number(width)} {svg_number(height)}" role="img" font-family="{FONT}" fill="none">'
    )
    lines = [head, f"<title>{escape(title)}</title>"]
    at = 0.0
    for page in pages:
        border = f' stroke="#{BORDER}" stroke-width="0.4"' if edge else ""
        lines.append(f'<g transform="translate({svg_number(at)} 0)">')
        lines.append(f'<rect width="{svg_number(page.width)}" height="{svg_number(page.height)}" fill="#ffffff"{border}/>')
        lines += svg_items(page.items, page.height, f"page-{len(lines)}", fixed=True)
        lines.append("</g>")
        at += page.width + gap
    return "\n".join([*lines, "</svg>"]) + "\n"

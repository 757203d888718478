"""The head of a page of the layout, blocks with a black edge, and the number of the page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bellowscut.drawing import Item, Label, Page, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, text_width, wrapped
from bellowscut.pages.bars import SMALL, ledge
from bellowscut.pages.papers import MARGIN
from bellowscut.pages.setter import SIDE
from bellowscut.shapes import Point
from bellowscut.words import say, stock_pages as texts

TEXT = 3.0
"""Size of the running text [mm]."""

LINE = 1.3
"""Base line to base line of it [-] of the em."""


def head(size: tuple[float, float], name: str, *, largest: float, sub: str, right: str = "", mark: str = "") -> tuple[list[Item], float]:
    """Name, line under it, and the ledge.

    Parameters
    ----------
    size : tuple of float
        Of the page [mm].
    name : str
        In large letters, in two lines where one is too short.
    largest : float
        Size of the name's letters where there is room [mm].
    sub : str
        In small letters under it.
    right : str
        Beside the name.
    mark : str
        At the right end of the line under it.

    Returns
    -------
    list of items
        The head.
    float
        Lower edge [mm].
    """
    left, end = SIDE, size[0] - SIDE
    room = end - left - (text_width(right, 3.8, bold=True) + 6.0 if right else 0.0)
    letters = largest
    lines = wrapped(name, letters, room, bold=True)
    while len(lines) > 1 and letters > 4.2:
        letters -= 0.4
        lines = wrapped(name, letters, room, bold=True)
    y = size[1] - MARGIN - letters * CAPITAL
    items: list[Item] = []
    if right:
        items.append(Label(right, (end, y), 3.8, anchor="end", bold=True))
    for line in lines:
        items.append(Label(line, (left, y), letters, bold=True))
        y -= letters * 1.2
    y += letters * 1.2 - 5.4
    items_mark = Label(mark, (end, y), SMALL, anchor="end")
    room = end - left - (text_width(mark, SMALL) + 5.0 if mark else 0.0)
    for line in wrapped(sub, TEXT, room):
        items.append(Label(line, (left, y), TEXT))
        y -= TEXT * LINE
    y += TEXT * LINE
    if mark:
        items.append(items_mark)
    items += ledge(left, end, y - 3.4)
    return items, y - 4.1


def edged(texts: Sequence[str], at: Point, width: float, *, bold: bool = False) -> tuple[list[Item], float]:
    """Sentences with a black edge that the eye cannot miss.

    Parameters
    ----------
    texts : sequence of str
        One paragraph each.
    at : Point
        Upper left corner [mm].
    width : float
        Of the block [mm].
    bold : bool
        Whether in heavier letters.

    Returns
    -------
    list of items
        Words and edge.
    float
        Lower edge [mm].
    """
    items: list[Item] = []
    y = at[1]
    for text in texts:
        base = y - 0.9 - TEXT * CAPITAL
        for line in wrapped(text, TEXT, width - 4.0, bold=bold):
            items.append(Label(line, (at[0] + 4.0, base), TEXT, bold=bold))
            base -= TEXT * LINE
        y = base + TEXT * LINE - 1.1
    if texts:
        bar = ((at[0], y), (at[0] + 1.3, y), (at[0] + 1.3, at[1]), (at[0], at[1]))
        items.append(Stroke(bar, Pen.THIN, closed=True, fill=Tint.INK))
    return items, y


def numbered(pages: Sequence[Page]) -> tuple[Page, ...]:
    """The pages with their number at the foot."""
    made = []
    for number, page in enumerate(pages, 1):
        label = Label(say(texts.FOOT, number=number, count=len(pages)), (page.width - SIDE, MARGIN - 2.0), SMALL, anchor="end")
        made.append(replace(page, items=(*page.items, label)))
    return tuple(made)

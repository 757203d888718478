"""Names beside a picture, each with a line that leads to what it names.

Names stand in two columns, in the order of the places that they name, so that
no leader crosses another.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, text_width, wrapped
from bellowscut.pages.furniture import Box
from bellowscut.shapes import Point

LETTERS = 3.0
"""Size of the names [mm]."""

SPACE = 1.4
"""Between a name and what stands beside it [mm]."""

STEP = 1.22
"""Base line to base line within a name [-] of the em."""

APART = 1.5
"""Least space between two names [mm]."""

DOT = 0.62
"""Radius of the dot at the end of a leader [mm]."""


@dataclass(frozen=True)
class Callout:
    """Something in a picture that has a name.

    Parameters
    ----------
    text : str
        The name; a word or two of explanation may follow after a line feed, in plain letters.
    at : Point
        Where the leader ends [mm].
    right : bool
        Whether the name stands in the right column.
    beside : bool
        Whether the explanation may stand in one line with the name.
    """

    text: str
    at: Point
    right: bool
    beside: bool = False


@dataclass(frozen=True)
class _Block:
    callout: Callout
    rows: tuple[tuple[str, bool], ...]
    beside: str = ""

    @property
    def tall(self) -> float:
        return LETTERS * (CAPITAL + STEP * (len(self.rows) - 1))


def callouts(calls: Sequence[Callout], box: Box, width: float) -> list[Item]:
    """Set the names in the two columns of a box.

    Parameters
    ----------
    calls : sequence of Callout
        What is to be named.
    box : tuple of float
        Left, low, right and high edge of picture and names together [mm].
    width : float
        Width of each column [mm].

    Returns
    -------
    list of items
        Leaders, dots and names.
    """
    items: list[Item] = []
    for right in (False, True):
        blocks = [_block(call, width) for call in calls if call.right == right]
        if not blocks:
            continue
        blocks.sort(key=lambda block: (-block.callout.at[1], block.callout.at[0] if right else -block.callout.at[0]))
        start = box[2] - width if right else box[0] + width
        for _ in range(len(blocks) ** 2):
            tops = _tops(blocks, box[1], box[3])
            crossed = _crossed(blocks, tops, start)
            if crossed is None:
                break
            blocks[crossed], blocks[crossed + 1] = blocks[crossed + 1], blocks[crossed]
        for block, top in zip(blocks, _tops(blocks, box[1], box[3]), strict=True):
            items += _drawn(block, top, start, right)
    return items


def widest(calls: Sequence[Callout], limit: float) -> float:
    """Width of a column that holds the names without breaking them, up to a limit [mm]."""
    found = 0.0
    for call in calls:
        name, _, more = call.text.partition("\n")
        found = max(found, text_width(name, LETTERS, bold=True), text_width(more, LETTERS))
    return min(limit, found + 0.1)


def _block(callout: Callout, width: float) -> _Block:
    name, _, more = callout.text.partition("\n")
    if callout.beside and text_width(name, LETTERS, bold=True) + SPACE + text_width(more, LETTERS) <= width:
        return _Block(callout, ((name, True),), more)
    rows = [(line, True) for line in wrapped(name, LETTERS, width, bold=True)]
    rows += [(line, False) for line in wrapped(more, LETTERS, width)]
    return _Block(callout, tuple(rows))


def _tops(blocks: Sequence[_Block], low: float, high: float) -> list[float]:
    """Upper edge of each name: level with what it names as far as its neighbours allow."""
    tops = [block.callout.at[1] + LETTERS * CAPITAL / 2 for block in blocks]
    for _ in range(2):
        limit = high
        for k, block in enumerate(blocks):
            tops[k] = min(tops[k], limit)
            limit = tops[k] - block.tall - APART
        limit = low
        for k in reversed(range(len(blocks))):
            tops[k] = max(tops[k], limit + blocks[k].tall)
            limit = tops[k] + APART
    return tops


def _crossed(blocks: Sequence[_Block], tops: Sequence[float], x: float) -> int | None:
    """The first name whose leader crosses that of the name under it."""
    for k in range(len(blocks) - 1):
        a, b = (x, _level(tops[k])), blocks[k].callout.at
        c, d = (x, _level(tops[k + 1])), blocks[k + 1].callout.at
        if _side(a, b, c) * _side(a, b, d) < 0 and _side(c, d, a) * _side(c, d, b) < 0:
            return k
    return None


def _side(a: Point, b: Point, p: Point) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def _level(top: float) -> float:
    """Height at which a leader leaves its name [mm]."""
    return top - LETTERS * CAPITAL / 2


def _drawn(block: _Block, top: float, start: float, right: bool) -> list[Item]:
    way = 1 if right else -1
    level = _level(top)
    bend = (start - way * 1.4, level)
    items: list[Item] = [Stroke(((start + way * 0.8, level), bend, block.callout.at), Pen.THIN), dot(block.callout.at)]
    anchor = "start" if right else "end"
    x = start + way * 1.5
    if block.beside:
        # The name comes first in both columns, whichever end of the line touches the leader.
        first, second = (block.rows[0][0], block.beside) if right else (block.beside, block.rows[0][0])
        items.append(Label(first, (x, top - LETTERS * CAPITAL), LETTERS, anchor=anchor, bold=right))
        x += way * (text_width(first, LETTERS, bold=right) + SPACE)
        items.append(Label(second, (x, top - LETTERS * CAPITAL), LETTERS, anchor=anchor, bold=not right))
        return items
    for k, (text, heavy) in enumerate(block.rows):
        y = top - LETTERS * (CAPITAL + STEP * k)
        items.append(Label(text, (x, y), LETTERS, anchor=anchor, bold=heavy))
    return items


def dot(at: Point, radius: float = DOT, fill: Tint = Tint.WHITE) -> Stroke:
    """A small round spot [mm], white so that it shows on dark leather too."""
    points = tuple((at[0] + radius * math.cos(k * math.pi / 6), at[1] + radius * math.sin(k * math.pi / 6)) for k in range(12))
    return Stroke(points, Pen.SOLID, closed=True, fill=fill)

"""The two tables of the measuring sheet: every side of an uneven end, and thicknesses in five places."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from bellowscut.drawing import Label
from bellowscut.lettering import CAPITAL
from bellowscut.pages.measuring_form import HINT, KEY, QUESTION, SPACE, Block, grid
from bellowscut.schema import TABLES
from bellowscut.section import corner_name, side_name
from bellowscut.toml_lines import dotted
from bellowscut.words import measuring as words, say

PLACES = 5
"""How often leather is gauged [-], as the advice says."""

PLACE, TAKEN = 12.5, 22.0
"""Width of a cell for one reading, and of that for what is taken [mm]."""

ASKED_LEAST = 80.0
"""Where a question has less room beside the cells it stands over them [mm]."""

NAME = 9.4
"""Width of the cells with letters of sides and corners [mm]."""

CELL_LEAST, PAIR_LEAST = 14.5, 20.0
"""Least width of a cell to write a length in, and of one for two of them [mm]."""

HEAD_HIGH = 10.0
"""Height of the heading of the table [mm]."""

APART = 5.0
"""Between its halves [mm]."""


def thickness_rows(block: Block, number: Callable[[], str]) -> None:
    """A row of cells for each thickness.

    Parameters
    ----------
    block : Block
        Where they go.
    number : callable
        Gives the number of the next question.
    """
    cells = PLACES * PLACE + TAKEN
    beside = block.width - cells >= ASKED_LEAST
    edges = [block.right - cells + PLACE * k for k in range(PLACES + 1)] + [block.right]
    y = block.y - KEY * CAPITAL - 1.6
    block.items.append(Label(say(words.PLACES), ((edges[0] + edges[PLACES]) / 2, y), KEY, anchor="middle"))
    block.items.append(Label(say(words.TAKEN), ((edges[-2] + edges[-1]) / 2, y), KEY, anchor="middle"))
    block.y = y - 1.2
    for table, question in words.THICKNESSES.items():
        key = dotted(("materials", next(one.spec().material for one in TABLES if one.name == table), "thickness"))
        if beside:
            asked = Block(block.left, edges[0] - SPACE, block.pitch)
            asked.told(number(), say(question), key)
            row = Block(block.left, block.right, block.pitch)
            grid(row, edges, max(block.pitch, -asked.y))
            block.beside(asked, row)
        else:
            block.told(number(), say(question), key)
            grid(block, edges, block.pitch)


def ends_table(sides: int, room: float, blank: Callable[[], Block]) -> Iterator[Block]:
    """A row for each side and corner, in two halves where the form is wide enough, and as many blocks as the page asks for.

    Parameters
    ----------
    sides : int
        Number of sides [-].
    room : float
        Greatest height of a block [mm].
    blank : callable
        Gives an empty block.
    """
    block = blank()
    halves = 2 if (block.width - APART) / 2 >= 2 * NAME + 2 * (CELL_LEAST + PAIR_LEAST) else 1
    most = max(1, int((room - HEAD_HIGH) / block.pitch))
    rows = min(most, -(-sides // halves))
    for start in range(0, sides, rows * halves):
        block = blank()
        block.y -= 1.0
        columns = []
        for half in range(halves):
            wide = (block.width - APART * (halves - 1)) / halves
            left = block.left + half * (wide + APART)
            column = Block(left, left + wide, block.pitch)
            first = start + half * rows
            if first < sides:
                _half_table(column, sides, range(first, min(first + rows, sides)))
                columns.append(column)
        block.beside(*columns)
        yield block


def _half_table(block: Block, sides: int, shown: range) -> None:
    """The rows of some sides, under their heading."""
    rest = block.width - 2 * NAME
    single = rest * 0.42 / 2
    pair = rest * 0.58 / 2
    edges = [block.left]
    for wide in (NAME, single, single, NAME, pair, pair):
        edges.append(edges[-1] + wide)
    top = block.y
    heads = (say(words.FLATS_OR_SIDES) if sides % 2 == 0 else say(words.SIDE_LENGTHS), say(words.POINT))
    for text, a, b in zip(heads, (edges[1], edges[4]), (edges[3], edges[6]), strict=True):
        block.items.append(Label(text, ((a + b) / 2, top - HINT * CAPITAL - 0.3), HINT, anchor="middle", bold=True, width=b - a - 1.0))
    second = top - HINT * CAPITAL - 4.0
    ends = (say(words.RIGHT_HAND), say(words.LEFT_HAND))
    for k, text in enumerate((say(words.SIDE), *ends, say(words.CORNER), *ends)):
        a, b = edges[k], edges[k + 1]
        block.items.append(Label(text, ((a + b) / 2, second), KEY, anchor="middle"))
    block.y = top - HEAD_HIGH + 2.0
    for i in shown:
        for name, a, b in ((side_name(i), edges[0], edges[1]), (corner_name(i, sides), edges[3], edges[4])):
            at = ((a + b) / 2, block.y - block.pitch / 2 - QUESTION * CAPITAL / 2)
            block.items.append(Label(name, at, QUESTION, anchor="middle", bold=True, width=b - a - 1.6))
        grid(block, edges, block.pitch)

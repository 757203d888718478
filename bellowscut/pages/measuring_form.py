"""A form to fill in with a pencil: questions, lines to write on, boxes to tick, small keys; set downwards from a height of 0."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, text_width, wrapped
from bellowscut.pages.figure import Figure
from bellowscut.pages.measuring_marks import BOX, area, tick_box
from bellowscut.words import measuring as words, say

QUESTION, HINT, KEY = 3.1, 2.7, 2.4
"""Letters of questions, of advice, and of the profile's keys [mm]."""

STEP = 1.26
"""Base line to base line within a question [-] of the em."""

GUTTER = 6.5
"""Room for the number of a question [mm]."""

UNDER = 3.5
"""From a line to write on down to the foot of its row, its key between them [mm]."""

SPACE = 2.6
"""Between a question and what stands beside it [mm]."""


class Block:
    """Part of a form that stays on one page.

    Parameters
    ----------
    left, right : float
        Where it reaches from and to [mm].
    pitch : float
        From one line to write on to the next, at least [mm].
    """

    def __init__(self, left: float, right: float, pitch: float) -> None:
        self.left, self.right, self.pitch = left, right, pitch
        self.items: list[Item] = []
        self.y = 0.0

    @property
    def width(self) -> float:
        """From left to right [mm]."""
        return self.right - self.left

    def text(self, text: str, size: float = HINT, *, bold: bool = False, indent: float = 0.0, over: float = 0.8) -> None:
        """Words from the left edge, broken where they do not fit, a little space over them [mm]."""
        self.y -= over
        for line in wrapped(text, size, self.width - indent, bold=bold):
            self.items.append(Label(line, (self.left + indent, self.y - size * CAPITAL), size, bold=bold))
            self.y -= size * STEP

    def asked(self, number: str, question: str, key: str, *, share: float = 0.52, unit: bool = True, printed: str = "") -> None:
        """A question with a line to write on.

        Parameters
        ----------
        number : str
            Of the question; may be empty.
        question : str
            As `new` asks it.
        key : str
            Of the profile.
        share : float
            How much of the width is left of the line [-].
        unit : bool
            Whether a length is asked for.
        printed : str
            An answer that is known already.
        """
        start = self.left + share * self.width
        level = self._question(number, question, start - SPACE)
        end = self.right
        if unit:
            end -= text_width(say(words.UNIT), KEY) + 1.4
            self.items.append(Label(say(words.UNIT), (self.right, level), KEY, anchor="end"))
        self.line(start, end, level)
        if printed:
            self.items.append(Label(printed, ((start + end) / 2, level + 1.3), 4.4, anchor="middle", bold=True))
        self.items.append(Label(key, (start, level - 2.7), KEY, width=self.right - start))

    def ticked(self, number: str, question: str, key: str, options: Sequence[str], *, share: float = 0.52, chosen: str = "") -> None:
        """A question with boxes to tick, as many in a row as fit beside it, the first row level with its first line."""
        start = self.left + share * self.width
        self.y -= 1.4
        first = self.y - QUESTION * CAPITAL
        lines = wrapped(question, QUESTION, start - SPACE - self.left - GUTTER)
        self._lines(number, lines, first)
        level = self._boxes(options, start, first, chosen)
        self.items.append(Label(key, (start, level - 3.6), KEY, width=self.right - start))
        self.y = min(first - (len(lines) - 1) * QUESTION * STEP - 1.2, level - (4.6 if key else 1.2))

    def boxes(self, options: Sequence[str]) -> None:
        """Boxes to tick under a question."""
        self.y -= 1.4
        self.y = self._boxes(options, self.left + GUTTER, self.y - QUESTION * CAPITAL, "") - 1.2

    def _boxes(self, options: Sequence[str], start: float, level: float, chosen: str) -> float:
        """As many in a row as fit; the height of the last row."""
        x = start
        for option in options:
            wide = BOX + 1.2 + text_width(option, QUESTION)
            if x > start and x + wide > self.right:
                x, level = start, level - 5.0
            self.items += [*tick_box((x, level), ticked=option == chosen), Label(option, (x + BOX + 1.2, level), QUESTION)]
            x += wide + 3.4
        return level

    def _lines(self, number: str, lines: Sequence[str], level: float) -> None:
        """The number of a question and its lines, the first at a height [mm]."""
        self.items.append(Label(number, (self.left, level), QUESTION, bold=True))
        for k, line in enumerate(lines):
            self.items.append(Label(line, (self.left + GUTTER, level - k * QUESTION * STEP), QUESTION))

    def _question(self, number: str, question: str, end: float) -> float:
        """Set a question in as many lines as it takes; the height of the line to write on, the row ended under it."""
        lines = wrapped(question, QUESTION, end - self.left - GUTTER)
        over = max(len(lines) - 1, 0) * QUESTION * STEP / 2
        level = self.y - max(self.pitch - UNDER, over + 0.8 + QUESTION * CAPITAL + 0.9)
        self._lines(number, lines, level + 0.8 + over)
        self.y = level - max(UNDER, over + 0.6)
        return level

    def row(self, parts: Sequence[tuple[str, str, str]]) -> None:
        """Several short lines to write on side by side.

        Parameters
        ----------
        parts : sequence of tuple
            What stands before the line, the profile key under it, and the unit after it.
        """
        level = self.y - self.pitch + UNDER
        used = sum(text_width(text, QUESTION) + text_width(unit, KEY) + 2.8 for text, _, unit in parts) + 2.4 * (len(parts) - 1)
        room = (self.width - used) / len(parts)
        x = self.left
        for text, key, unit in parts:
            self.items.append(Label(text, (x, level + 0.8), QUESTION))
            x += text_width(text, QUESTION) + 1.4
            self.line(x, x + room, level)
            self.items.append(Label(key, (x, level - 2.7), KEY))
            self.items.append(Label(unit, (x + room + 1.4, level + 0.2), KEY))
            x += room + 1.4 + text_width(unit, KEY) + 2.4
        self.y = level - UNDER

    def told(self, number: str, question: str, key: str) -> None:
        """A question that is answered in a table, its key after it."""
        self.y -= 1.3
        lines = wrapped(question, QUESTION, self.width - GUTTER)
        self._lines(number, lines, self.y - QUESTION * CAPITAL)
        self.y -= (len(lines) - 1) * QUESTION * STEP + QUESTION * CAPITAL
        x = self.left + GUTTER + text_width(lines[-1], QUESTION) + SPACE
        if x + text_width(key, KEY) > self.right:
            x = self.left + GUTTER
            self.y -= 3.0
        self.items.append(Label(key, (x, self.y), KEY, width=self.right - x))
        self.y -= 1.0

    def line(self, start: float, end: float, level: float) -> None:
        """A line to write on [mm]."""
        self.items.append(Stroke(((start, level), (end, level)), Pen.SOLID))

    def picture(self, figure: Figure, middle: float) -> None:
        """A figure under what stands already, its middle at x [mm]."""
        wide, tall = figure.size
        self.items += figure.at(middle - wide / 2, self.y).items
        self.y -= tall

    def beside(self, *columns: Block) -> None:
        """Blocks side by side, each begun at a height of 0."""
        for column in columns:
            self.items += Figure(column.items).moved(0.0, self.y).items if column.items else ()
        self.y += min(column.y for column in columns)

    def shade(self, low: float, high: float, pad: float = 0.0) -> None:
        """A pale ground behind everything, between two heights [mm]."""
        left, right = self.left - pad, self.right + pad
        self.items.insert(0, area(((left, low), (right, low), (right, high), (left, high)), Tint.PALE, Pen.THIN))


def grid(block: Block, columns: Sequence[float], height: float) -> None:
    """One row of cells between the given edges, under what stands already [mm]."""
    low = block.y - height
    for a, b in itertools.pairwise(columns):
        block.items.append(area(((a, low), (b, low), (b, block.y), (a, block.y)), Tint.NONE, Pen.THIN))
    block.y = low

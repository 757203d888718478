"""The legend of a picture of stock: every sort of piece with its letter, tint, count, size and where its first one lies."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, text_width, wrapped
from bellowscut.pages.stock_figure import size_of_clear
from bellowscut.pages.stock_letters import zones
from bellowscut.pages.stock_rows import Row, barred_words
from bellowscut.shapes import Point
from bellowscut.stock.model import StockPiece
from bellowscut.words import say, stock_pages as texts

NAME, SMALL = 3.0, 2.6
"""Letters of a name and of the rest [mm]."""

STEP, FINE = 3.9, 3.5
"""Base line to base line of names and of the rest [mm]."""

BETWEEN = 1.7
"""Between two entries [mm]."""

SWATCH = 9.0
"""Width of the sample of a tint [mm]."""

COLUMN = 80.0
"""Least width of a column [mm]."""

GUTTER = 7.0
"""Between two columns [mm]."""


@dataclass(frozen=True)
class Entry:
    """One entry of the legend, broken to its column.

    Parameters
    ----------
    sign : str
        ``piece``, ``flaw``, ``barred`` or ``left``.
    letter, count : str
        What stands in the sample, and at the right end of the name.
    tint : Tint
        Of the sample.
    names, words : tuple of str
        The name and the rest, line by line.
    """

    sign: str
    letter: str
    count: str
    tint: Tint
    names: tuple[str, ...]
    words: tuple[str, ...]

    @property
    def tall(self) -> float:
        """Height [mm]."""
        return STEP * len(self.names) + FINE * len(self.words) + BETWEEN


@dataclass(frozen=True)
class Legend:
    """Entries for columns of one width.

    Parameters
    ----------
    entries : tuple of Entry
        In their order.
    width : float
        Of a column [mm].
    columns : int
        How many stand side by side [-].
    """

    entries: tuple[Entry, ...]
    width: float
    columns: int

    def split(self, room: float) -> tuple[tuple[Entry, ...], ...]:
        """Entries column by column, as level as they come, none taller than `room` [mm] where that can be."""
        total = sum(entry.tall for entry in self.entries)
        limit = total / self.columns
        while True:
            columns = _filled(self.entries, limit)
            if len(columns) <= self.columns or limit >= room:
                break
            limit = min(room, limit + 1.0)
        return tuple(columns)

    def height(self) -> float:
        """Height with as many columns as there are [mm]."""
        return max((sum(entry.tall for entry in column) for column in self.split(float("inf"))), default=0.0)

    def drawn(self, columns: Sequence[Sequence[Entry]], at: Point) -> tuple[list[Item], float]:
        """Columns side by side.

        Parameters
        ----------
        columns : sequence
            Entries of each.
        at : Point
            Upper left corner [mm].

        Returns
        -------
        list of items
            Samples and words.
        float
            Lower edge [mm].
        """
        items: list[Item] = []
        lowest = at[1]
        for k, column in enumerate(columns):
            x, y = at[0] + k * (self.width + GUTTER), at[1]
            for entry in column:
                items += _entry(entry, (x, y), self.width)
                y -= entry.tall
            lowest = min(lowest, y)
        return items, lowest


def _filled(entries: Sequence[Entry], limit: float) -> list[tuple[Entry, ...]]:
    columns: list[list[Entry]] = [[]]
    tall = 0.0
    for entry in entries:
        if columns[-1] and tall + entry.tall > limit + 1e-6:
            columns.append([])
            tall = 0.0
        columns[-1].append(entry)
        tall += entry.tall
    return [tuple(column) for column in columns]


def legend(stock: StockPiece, rows: Sequence[Row], names: Sequence[str], width: float) -> Legend:
    """The legend of a piece of stock for a width.

    Parameters
    ----------
    stock : StockPiece
        What is drawn.
    rows : sequence of Row
        Its pieces.
    names : sequence of str
        Names of the instruments in the order of their numbers.
    width : float
        Of all columns together [mm].
    """
    columns = max(1, int((width + GUTTER) / (COLUMN + GUTTER)))
    column = (width - GUTTER * (columns - 1)) / columns
    text = column - SWATCH - 2.5
    entries = []
    for row in rows:
        count = f"{len(row.laid)}"
        room = text - text_width(count, NAME, bold=True) - 3.0
        words = row.words(stock)
        whose = row.laid[0].instrument
        told = wrapped(words, SMALL, text)
        if whose:
            told = (*wrapped(_called(whose, names), SMALL, text), *told)
        entries.append(Entry("piece", row.letter, count, row.tint, wrapped(row.name, NAME, room, bold=True), told))
    if stock.flaws:
        many = len(stock.flaws) > 1
        entries.append(
            Entry("flaw", "", "", Tint.WHITE, (), wrapped(say(texts.FLAWS_KEEP_CLEAR if many else texts.FLAW_KEEP_CLEAR), SMALL, text))
        )
    barred = dict.fromkeys(barred_words(kinds) for _, kinds in zones(stock.bars))
    entries += [Entry("barred", "", "", Tint.PALE, (), wrapped(said, SMALL, text)) for said in barred]
    if stock.left.clear:
        entries.append(Entry("left", "", "", Tint.WHITE, (), wrapped(say(texts.LEFT_OVER_LARGEST, size=size_of_clear(stock)), SMALL, text)))
    return Legend(tuple(entries), column, columns)


def _called(whose: str, names: Sequence[str]) -> str:
    """The instrument's number, and its name after it."""
    number = int(whose) if whose.isdigit() else 0
    if 1 <= number <= len(names):
        return say(texts.INSTRUMENT_CALLED, number=whose, name=names[number - 1])
    return say(texts.INSTRUMENT, number=whose)


def _entry(entry: Entry, at: Point, width: float) -> list[Item]:
    x, top = at
    first = NAME if entry.names else SMALL
    base = top - first * CAPITAL
    tall = 3.6 if entry.names else 2.8
    low = base + first * CAPITAL / 2 - tall / 2
    box = ((x, low), (x + SWATCH, low), (x + SWATCH, low + tall), (x, low + tall))
    pen = Pen.DASHED if entry.sign in ("left", "barred") else Pen.SOLID
    items: list[Item] = [Stroke(box, pen, closed=True, fill=entry.tint)]
    if entry.sign == "flaw":
        items += [
            Stroke(((x + k * 1.27, low), (x + k * 1.27 + tall, low + tall)), Pen.THIN) for k in range(int((SWATCH - tall) / 1.27) + 1)
        ]
    if entry.letter:
        items.append(Label(entry.letter, (x + SWATCH / 2, base + 0.1), 2.7, anchor="middle", bold=True))
    left = x + SWATCH + 2.5
    y = base
    for line in entry.names:
        items.append(Label(line, (left, y), NAME, bold=True))
        y -= STEP
    if entry.count:
        items.append(Label(entry.count, (x + width, base), NAME, anchor="end", bold=True))
    y += 0.25 if entry.names else 0.0
    for line in entry.words:
        items.append(Label(line, (left, y), SMALL))
        y -= FINE
    return items

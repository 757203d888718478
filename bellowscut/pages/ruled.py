"""Tables set to a width: columns as wide as their words, the widest broken into lines where room is short."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bellowscut.drawing import Item, Label, Pen, Stroke
from bellowscut.lettering import CAPITAL, text_width, wrapped

GAP = 4.0
"""Between two columns [mm]."""

LINE = 1.32
"""Base line to base line [-] of the em."""

OVER = 1.5
"""Over and under the words of a row [mm]."""

FIELD = 15.0
"""Least width of a column that is written into [mm]."""

FIELD_TALL = 6.4
"""Least height of a row that is written into [mm]."""

NARROW = 12.0
"""Least width that a column of words is broken to [mm]."""


@dataclass(frozen=True)
class Ruled:
    """A table fitted to a width.

    Parameters
    ----------
    head : tuple of str
        Headings; a table without any has none.
    rows : tuple of tuple of str
        Cells.
    blank : tuple of int
        Columns that are written into; their cells are boxed.
    size : float
        Letters [mm].
    width : float
        Of the whole table [mm].
    """

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    blank: tuple[int, ...]
    size: float
    width: float

    @property
    def columns(self) -> tuple[float, ...]:
        """Width of each column, the gap after it left out [mm]."""
        found = []
        for k, title in enumerate(self.head):
            wide = text_width(title, self.size)
            wide = max([wide, *(text_width(row[k], self.size, bold=k == 0) for row in self.rows)])
            found.append(max(wide, FIELD) if k in self.blank else wide)
        room = self.width - GAP * (len(found) - 1)
        while sum(found) > room:
            widest = max((k for k in range(len(found)) if k not in self.blank), key=lambda k: found[k])
            others = sorted(found[k] for k in range(len(found)) if k not in self.blank and k != widest)
            target = max(found[widest] - (sum(found) - room), others[-1] - 1.0 if others else 0.0, NARROW)
            if target >= found[widest]:
                break
            found[widest] = target
        spare = room - sum(found)
        if spare > 0 and self.blank:
            for k in self.blank:
                found[k] += min(spare / len(self.blank), FIELD)
        return tuple(found)

    def cells(self, row: Sequence[str]) -> tuple[tuple[str, ...], ...]:
        """Lines of each cell."""
        return tuple(wrapped(text, self.size, wide, bold=k == 0) for k, (text, wide) in enumerate(zip(row, self.columns, strict=True)))

    def row_height(self, row: Sequence[str]) -> float:
        """Height of one row [mm]."""
        lines = max((len(cell) for cell in self.cells(row)), default=1)
        tall = 2 * OVER + self.size * (CAPITAL + LINE * (lines - 1))
        return max(tall, FIELD_TALL) if self.blank else tall

    @property
    def head_height(self) -> float:
        """Height of the headings [mm]."""
        return self.size * LINE + OVER

    @property
    def height(self) -> float:
        """Height of everything [mm]."""
        return self.head_height + sum(self.row_height(row) for row in self.rows)

    def drawn(self, left: float, top: float) -> list[Item]:
        """Headings, rows and rules under each row, from the upper left corner on [mm]."""
        starts = [left]
        for wide in self.columns:
            starts.append(starts[-1] + wide + GAP)
        y = top - self.head_height
        items: list[Item] = [Label(title, (x, y + OVER), self.size) for title, x in zip(self.head, starts, strict=False) if title]
        items.append(Stroke(((left, y), (left + self.width, y)), Pen.SOLID))
        for row in self.rows:
            low = y - self.row_height(row)
            for k, lines in enumerate(self.cells(row)):
                over = (y - low - self.size * (CAPITAL + LINE * (len(lines) - 1))) / 2 if self.blank else OVER
                base = y - over - self.size * CAPITAL
                items += [Label(line, (starts[k], base - self.size * LINE * n), self.size, bold=k == 0) for n, line in enumerate(lines)]
                if k in self.blank and not lines:
                    right = starts[k] + self.columns[k]
                    box = ((starts[k] - 1.0, low + 0.5), (right, low + 0.5), (right, y - 0.5), (starts[k] - 1.0, y - 0.5))
                    items.append(Stroke(box, Pen.THIN, closed=True))
            y = low
            items.append(Stroke(((left, y), (left + self.width, y)), Pen.THIN))
        return items

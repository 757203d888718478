"""The summary of a layout: how much of each material, how full, what is left, what it costs, what to know before cutting."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from bellowscut.drawing import Label, Page, Pen, Stroke
from bellowscut.lettering import text_width, wrapped
from bellowscut.pages.bars import SMALL
from bellowscut.pages.setter import GAP, HEADING, Setter
from bellowscut.pages.stock_head import LINE, TEXT, edged, head
from bellowscut.stock.model import Layout, Need
from bellowscut.stock.words import amount, full, left_words, percent
from bellowscut.words import say, stock_pages as phrases

ROW, FURTHER = 4.7, 3.7
"""Height of a row, and of each further line of it [mm]."""


def summary_pages(
    layout: Layout,
    needs: Sequence[Need],
    *,
    paper: tuple[float, float],
    currency: str,
    digits: int,
    cautions: Sequence[str],
    machine: Sequence[str],
) -> tuple[Page, ...]:
    """The first page or pages of the layout.

    Parameters
    ----------
    layout : Layout
        The stock with its pieces.
    needs : sequence of Need
        What each material comes to.
    paper : tuple of float
        Width and height [mm].
    currency : str
        ISO 4217 letters.
    digits : int
        Decimals of the currency [-].
    cautions : sequence of str
        What to beware of.
    machine : sequence of str
        Sentences on bed, speed and time of the cutter.
    """
    setter = _Setter(layout, paper)
    setter.sentences(say(phrases.BEFORE_YOU_CUT), layout.notes)
    setter.materials(needs, currency, digits)
    setter.instruments()
    setter.sentences(say(phrases.CUTTING), machine, edge=False)
    setter.sentences(say(phrases.TAKE_CARE), cautions, edge=False)
    setter.sentences(say(phrases.HOW_FOUND), [layout.method] if layout.method else [], edge=False)
    titles = (say(phrases.LAYOUT), *(say(phrases.LAYOUT_PAGE, number=k) for k in range(2, len(setter.done) + 1)))
    return tuple(Page(*paper, title, tuple(items)) for title, items in zip(titles, setter.done, strict=True))


@dataclass(frozen=True)
class _Line:
    """A row of the table of materials: name, what lies in the columns, and whether it heads the rows under it."""

    name: str
    cells: tuple[str, ...]
    bold: bool = False


class _Setter(Setter):
    """The summary of a layout, block by block."""

    def __init__(self, layout: Layout, paper: tuple[float, float]) -> None:
        self.layout = layout
        super().__init__(paper)

    def turn(self) -> None:
        """Begin a page with its head."""
        names, marks = self.layout.names, self.layout.fingerprints
        first = not self.done
        alone = len(names) == 1
        name = names[0] if alone else say(phrases.INSTRUMENTS_TOGETHER, number=len(names))
        sub = say(phrases.WHERE_CUT if first else phrases.WHERE_CUT_CONTINUED)
        mark = say(phrases.FINGERPRINT_OF, fingerprint=marks[0]) if alone and marks else ""
        items, self.y = head(self.paper, name, largest=7.0 if first else 4.4, sub=sub, mark=mark)
        self.done.append(items)

    def sentences(self, title: str, texts: Sequence[str], *, edge: bool = True) -> None:
        """Paragraphs under a heading, with a black edge where they must be read."""
        if not texts:
            return
        room = self.width - 4.0
        lines = [len(wrapped(text, TEXT, room)) for text in texts]
        self.need(GAP + HEADING + 2.0 + min(lines[0], 4) * TEXT * LINE + 2.0)
        self.heading(title)
        rest = list(texts)
        while rest:
            fit = 0
            while fit < len(rest) and edged(rest[: fit + 1], (self.left, self.y), self.width)[1] >= self.low:
                fit += 1
            if fit == 0:
                self.turn()
                self.y -= 3.0
                if edged(rest[:1], (self.left, self.y), self.width)[1] < self.low:
                    fit = 1
            if fit:
                items, self.y = edged(rest[:fit], (self.left, self.y), self.width)
                self.items.extend(item for item in items if edge or isinstance(item, Label))
                rest = rest[fit:]

    def instruments(self) -> None:
        """Which instrument has which number."""
        if len(self.layout.names) < 2:
            return
        lines = [
            _Line(f"{number}  {name}", (mark,))
            for number, (name, mark) in enumerate(zip(self.layout.names, self.layout.fingerprints, strict=True), 1)
        ]
        self.table(say(phrases.INSTRUMENTS), (say(phrases.FINGERPRINT),), lines)

    def materials(self, needs: Sequence[Need], currency: str, digits: int) -> None:
        """The table of materials, its rows followed by those of their stock."""
        lines = []
        for need in needs:
            cost = say(phrases.NO_PRICE) if need.cost is None else f"{need.cost:.{digits}f} {currency}"
            count = sum(len(stock.laid) for stock in need.stock)
            lines.append(_Line(need.material.name, (amount(need), str(count), percent(full(need.stock)), cost), bold=True))
            several = len(need.stock) > 1
            for stock in need.stock:
                name = stock.id if stock.label == need.material.name else say(phrases.STOCK_AND_LABEL, id=stock.id, label=stock.label)
                cells = ("", str(len(stock.laid)), percent(full([stock])), "") if several else ("", "", "", "")
                lines.append(_Line(say(phrases.LEFT_OF_STOCK, stock=name, what=left_words(stock)), cells))
        known = [need.cost for need in needs if need.cost is not None]
        if needs:
            total = f"{sum(known, Decimal(0)):.{digits}f} {currency}" if len(known) == len(needs) else say(phrases.NOT_KNOWN)
            lines.append(_Line(say(phrases.MATERIAL_IN_ALL), ("", "", "", total), bold=True))
        self.table(say(phrases.TO_CUT_INTO), ("", say(phrases.PIECES), say(phrases.FULL), say(phrases.COST)), lines)

    def table(self, title: str, heads: Sequence[str], lines: Sequence[_Line]) -> None:
        """Rows in columns, each column as wide as it must be and the names in what is left."""
        if not lines:
            return
        widths = [
            max(text_width(head, SMALL), *(text_width(line.cells[k], TEXT, bold=line.bold) for line in lines if _counts(line, k)))
            for k, head in enumerate(heads)
        ]
        ends = [self.right - sum(widths[k + 1 :]) - 5.0 * (len(widths) - 1 - k) for k in range(len(widths))]
        room = ends[0] - widths[0] - 4.0 - self.left
        begun = False
        for line in lines:
            inset = 0.0 if line.bold or len(heads) == 1 else 4.0
            # What belongs to a row runs on under its amount.
            names = wrapped(line.name, TEXT, (room if line.bold or line.cells[0] else ends[0] - self.left) - inset, bold=line.bold)
            tall = ROW + FURTHER * (len(names) - 1)
            if not begun or self.y - tall < self.low:
                self._table_head(title if not begun else say(phrases.CONTINUED, title=title), heads, ends, tall)
                begun = True
            base = self.y - ROW + 1.2
            for cell, end in zip(line.cells, ends, strict=True):
                if cell:
                    self.items.append(Label(cell, (end, base), TEXT, anchor="end", bold=line.bold))
            for k, name in enumerate(names):
                self.items.append(Label(name, (self.left + inset, base - FURTHER * k), TEXT, bold=line.bold))
            self.y -= tall
        self.items.append(Stroke(((self.left, self.y), (self.right, self.y)), Pen.THIN))

    def _table_head(self, title: str, heads: Sequence[str], ends: Sequence[float], tall: float) -> None:
        if self.y - GAP - HEADING - ROW - tall - 2.0 < self.low:
            self.turn()
        self.heading(title)
        self.y -= ROW
        self.items.extend(Label(text, (end, self.y + 1.2), SMALL, anchor="end") for text, end in zip(heads, ends, strict=True) if text)
        self.items.append(Stroke(((self.left, self.y), (self.right, self.y)), Pen.THIN))


def _counts(line: _Line, column: int) -> bool:
    """Whether a cell has a say in the width of its column: the sum of money may run out to the left of it."""
    return bool(line.cells[column]) and line.name != say(phrases.MATERIAL_IN_ALL)

"""The customer's estimate, on one page: whether it is worth it, what is done, what it costs, what else could be done."""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut import __version__
from bellowscut.drawing import Label, Page, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, text_width, wrapped
from bellowscut.money import rounded_money
from bellowscut.pages.bars import ledge
from bellowscut.pages.papers import MARGIN
from bellowscut.pages.setter import SIDE, Setter
from bellowscut.quoting import Quote, changes, done, done_heading, hours_told, left_out, price_rows, time_told, title, way_rows, worth
from bellowscut.words import quoting as words, say

SIZES = (3.5, 3.3, 3.1, 2.9, 2.7, 2.5, 2.3)
"""Letters of the running text, from the first that fits on one page [mm]."""

LINE = 1.36
"""Base line to base line [-] of the em."""

FIELD = 42.0
"""Line to write a date or a name on [mm]."""

FOOT = 4.5
"""Height of the foot [mm]."""


def quote_pages(quote: Quote, *, paper: tuple[float, float]) -> tuple[Page, ...]:
    """The customer's page.

    Parameters
    ----------
    quote : Quote
        What it says.
    paper : tuple of float
        Width and height [mm], 148 x 210 or more.

    Returns
    -------
    tuple of Page
        One, in letters as large as fit; more only where the smallest do not.
    """
    for size in SIZES:
        setter = _Setter(quote, paper, size)
        setter.set_all()
        if len(setter.done) == 1:
            break
    return tuple(Page(*paper, title(quote), tuple(items)) for items in setter.done)


class _Setter(Setter):
    """The estimate, block by block."""

    def __init__(self, quote: Quote, paper: tuple[float, float], size: float) -> None:
        self.quote = quote
        self.size = size
        super().__init__(paper)
        self.low = SIDE + FOOT

    def turn(self) -> None:
        """Begin a page with its head: the bench, the instrument, the customer, the date."""
        self.done.append([])
        top = self.paper[1] - MARGIN
        profile, bench = self.quote.profile, self.quote.bench
        right = max((text_width(line, self.size, bold=not number) for number, line in enumerate(bench)), default=0.0)
        right = min(right, self.width / 2)
        for number, line in enumerate(bench):
            y = top - 4.2 - number * self.size * 1.25
            self.items.append(Label(line, (self.right, y), self.size, anchor="end", bold=not number, width=right))
        room = self.width - (right + 6.0 if bench else 0.0)
        self.items.append(Label(title(self.quote), (self.left, top - 7.0 * CAPITAL), 7.0, bold=True))
        name = profile.name if profile.copies == 1 else say(words.INSTRUMENTS, name=profile.name, copies=profile.copies)
        y = top - 7.0 * CAPITAL - 6.6
        for line in wrapped(name, 4.4, room, bold=True):
            self.items.append(Label(line, (self.left, y), 4.4, bold=True, width=room))
            y -= 5.4
        y = min(y, top - 4.2 - len(bench) * self.size * 1.25)
        y = self._for_and_date(y)
        self.items.extend(ledge(self.left, self.right, y - 4.4))
        self.items.append(
            Label(
                say(words.FOOT_EXAMPLE if self.quote.example else words.FOOT, fingerprint=profile.fingerprint, version=__version__),
                (self.left, SIDE - 1.0),
                2.3,
                width=self.width,
            )
        )
        self.y = y - 5.0

    def _for_and_date(self, y: float) -> float:
        """Whom it is for and when, printed or left to be written; the height of their line."""
        customer, date = self.quote.profile.quote.customer, self.quote.date
        y -= 1.0
        beside = self.right - FIELD - text_width(say(words.DATE), self.size) - 2.0
        room = beside - 4.0 - self.left
        if customer:
            self.items.append(Label(say(words.FOR, customer=customer), (self.left, y), self.size, width=room))
        else:
            self._field(say(words.FOR_NOBODY), self.left, y, self.left + room)
        if date:
            self.items.append(Label(f"{say(words.DATE)} {date}", (self.right, y), self.size, anchor="end"))
        else:
            self._field(say(words.DATE), beside, y, self.right)
        return y

    def _field(self, name: str, x: float, y: float, end: float) -> None:
        """A word and a line to write on."""
        self.items.append(Label(name, (x, y), self.size))
        self.items.append(Stroke(((x + text_width(name, self.size) + 2.0, y - 0.8), (end, y - 0.8)), Pen.THIN))

    # blocks ---------------------------------------------------------------

    def set_all(self) -> None:
        """Everything, in the order in which a customer asks."""
        quote = self.quote
        if quote.example:
            self._example(quote.example)
        first = worth(quote)
        if first:
            self._first_line(first)
        self._title(done_heading(quote))
        self._points(done(quote))
        self._title(say(words.PRICE_HEADING))
        self._price(price_rows(quote))
        self._sentence(hours_told(quote), 0.88)
        self._title(say(words.NOT_HEADING))
        self._points(left_out(quote))
        self._title(say(words.CHANGE_HEADING))
        self._points(changes(quote))
        self._title(say(words.TIME_HEADING))
        self._sentence(time_told(quote.chosen))
        self._ways()
        if not quote.example:
            self._signature()

    def _example(self, texts: Sequence[str]) -> None:
        """That nothing of it is a workshop's own, in a heavy frame before anything else, and what makes it so."""
        rows = [(line, k == 0) for k, text in enumerate(texts) for line in wrapped(text, self.size, self.width - 8.0, bold=k == 0)]
        height = len(rows) * self.size * LINE + 3.0
        self.need(height + 4.0)
        self.y -= 3.0
        box = ((self.left, self.y - height), (self.right, self.y - height), (self.right, self.y), (self.left, self.y))
        self.items.append(Stroke(box, Pen.HEAVY, closed=True))
        for number, (line, bold) in enumerate(rows):
            y = self.y - 1.9 - self.size * CAPITAL - number * self.size * LINE
            self.items.append(Label(line, (self.left + 4.0, y), self.size, bold=bold))
        self.y -= height

    def _first_line(self, text: str) -> None:
        """What it is worth, in a pale box so that it is read first."""
        lines = wrapped(text, self.size, self.width - 6.0, bold=True)
        height = len(lines) * self.size * LINE + 2.6
        self.need(height + 4.0)
        self.y -= 3.0
        box = ((self.left, self.y - height), (self.right, self.y - height), (self.right, self.y), (self.left, self.y))
        self.items.append(Stroke(box, Pen.THIN, closed=True, fill=Tint.PALE))
        for number, line in enumerate(lines):
            y = self.y - 1.6 - self.size * CAPITAL - number * self.size * LINE
            self.items.append(Label(line, (self.left + 3.0, y), self.size, bold=True))
        self.y -= height

    def _title(self, text: str) -> None:
        self.need(self.size * LINE * 3 + 6.0)
        self.heading(text)
        self.y -= 1.0

    def _points(self, texts: Sequence[str]) -> None:
        for text in texts:
            lines = wrapped(text, self.size, self.width - 5.0)
            self.need(len(lines) * self.size * LINE)
            mid = self.y - self.size * CAPITAL / 2 - 0.2
            self.items.append(Stroke(((self.left + 0.6, mid), (self.left + 2.4, mid)), Pen.SOLID))
            self._lines(lines, self.left + 5.0, self.size)

    def _sentence(self, text: str, share: float = 1.0) -> None:
        lines = wrapped(text, self.size * share, self.width)
        self.need(len(lines) * self.size * LINE)
        self._lines(lines, self.left, self.size * share)

    def _lines(self, lines: Sequence[str], x: float, size: float) -> None:
        for line in lines:
            self.items.append(Label(line, (x, self.y - size * CAPITAL), size))
            self.y -= size * LINE

    def _price(self, rows: Sequence[tuple[str, str]]) -> None:
        """Names on the left, amounts on the right of a column, a line over the total."""
        end = min(self.right, self.left + 118.0)
        step = self.size * LINE
        self.need(len(rows) * step + 6.0)
        for number, (name, amount) in enumerate(rows):
            last = number == len(rows) - 1
            if last:
                self.y -= 0.8
                self.items.append(Stroke(((self.left, self.y), (end, self.y)), Pen.SOLID))
                self.y -= 1.2
            y = self.y - self.size * CAPITAL
            wide = text_width(amount, self.size, bold=last)
            self.items.append(Label(name, (self.left, y), self.size, bold=last, width=end - self.left - wide - 4.0))
            self.items.append(Label(amount, (end, y), self.size, anchor="end", bold=last))
            self.y -= step
        copies, price = self.quote.profile.copies, self.quote.chosen.price
        if copies > 1 and price is not None:
            costs = self.quote.profile.costs
            each = f"{rounded_money(price.total / copies, costs.digits)} {costs.currency}"
            y = self.y - self.size * CAPITAL
            self.items.append(Label(say(words.EACH, copies=copies), (self.left, y), self.size))
            self.items.append(Label(each, (end, y), self.size, anchor="end"))
            self.y -= step
        self.y -= 0.6

    def _ways(self) -> None:
        """All that could be done, with price, days and meaning; what is offered stands in bold."""
        rows = way_rows(self.quote)
        size = self.size * 0.92
        with_share = any(row[3] for row in rows)
        head = list(words.WAYS_HEAD)
        columns = [max(text_width(text, size, bold=True) for text in (say(head[k]), *(row[k] for row in rows))) for k in range(3)]
        share = (
            max(text_width(text, size, bold=True) for text in (say(words.WAYS_HEAD_SHARE), *(row[3] for row in rows)))
            if with_share
            else 0.0
        )
        first = min(columns[0], self.width * 0.3)
        edges = [self.left, self.left + first + 4.0 + columns[1], self.left + first + columns[1] + columns[2] + 8.0]
        if with_share:
            edges.append(edges[-1] + 4.0 + share)
        meaning = edges[-1] + 5.0
        room = self.right - meaning
        step = size * LINE
        texts = [wrapped(row[4], size, room) for row in rows]
        self.need(GAP_AND_HEAD + sum(max(len(lines), 1) * step + 1.6 for lines in texts) + step)
        self.heading(say(words.WAYS_HEADING))
        self.y -= 0.6
        y = self.y - size * CAPITAL
        self.items.append(Label(say(head[0]), (self.left, y), size * 0.92))
        self.items.extend(Label(say(head[k]), (edges[k], y), size * 0.92, anchor="end") for k in (1, 2))
        if with_share:
            self.items.append(Label(say(words.WAYS_HEAD_SHARE), (edges[3], y), size * 0.92, anchor="end"))
        self.items.append(Label(say(head[3]), (meaning, y), size * 0.92))
        self.y -= step
        for row, lines, one in zip(rows, texts, self.quote.ways, strict=True):
            bold = one.job == self.quote.chosen.job
            self.items.append(Stroke(((self.left, self.y), (self.right, self.y)), Pen.THIN))
            self.y -= 1.2
            y = self.y - size * CAPITAL
            self.items.append(Label(row[0], (self.left, y), size, bold=bold, width=first))
            self.items.extend(Label(row[k], (edges[k], y), size, anchor="end", bold=bold) for k in (1, 2))
            if with_share:
                self.items.append(Label(row[3], (edges[3], y), size, anchor="end", bold=bold))
            self._lines(lines, meaning, size)
            self.y -= 0.4

    def _signature(self) -> None:
        """A line to agree on."""
        self.need(self.size * 2 + 8.0)
        self.y -= self.size + 6.0
        self._field(say(words.AGREED), self.left, self.y, self.left + self.width * 0.55)
        self._field(say(words.DATE), self.left + self.width * 0.6, self.y, self.right)
        self.y -= 2.0


GAP_AND_HEAD = 11.0
"""Height of the heading over a table with the space around it [mm]."""

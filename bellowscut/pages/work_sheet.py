"""The work sheet: the job in order, a box to tick at each step, with the tables that lie beside it on the bench."""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.bench.sheet import WorkSheet
from bellowscut.bench.tables import Table
from bellowscut.drawing import Item, Label, Page, Pen, Stroke
from bellowscut.lettering import CAPITAL, text_width, wrapped
from bellowscut.pages.bars import ledge
from bellowscut.pages.gluing_view import gluing_picture
from bellowscut.pages.papers import MARGIN
from bellowscut.pages.ruled import Ruled
from bellowscut.pages.setter import GAP, HEADING, Setter
from bellowscut.pages.views import moved
from bellowscut.pages.work_step import COLUMNS, EDGE, LINE, Letters, step_block, warned
from bellowscut.words import count, quoting, say, work_sheet as words

SIZES = (3.6, 3.4, 3.2, 3.0)
"""Letters of the running text, from the first that fits on `MOST_PAGES` [mm]; nothing on the sheet is smaller than the last."""

MOST_PAGES = 4
"""Pages that a job may take before its letters are made smaller [-]."""

SMALL = SIZES[-1]
"""Letters of what is read last [mm]."""

SIDE_BY_SIDE = 150.0
"""Least width at which the table of lengths and the picture of the gluing distance stand side by side [mm]."""

COLUMNS_TALL = 1.4 + SMALL * CAPITAL + 1.6
"""Height of the headings over day and minutes [mm]."""

HEAD_OF_TABLE = GAP + HEADING * CAPITAL + 1.0
"""Height of a heading with the space over it [mm]."""


def work_sheet_pages(sheet: WorkSheet, *, paper: tuple[float, float], margin: float = MARGIN) -> tuple[Page, ...]:
    """The work sheet of one job on paper.

    Parameters
    ----------
    sheet : WorkSheet
        What it says, from `bellowscut.bench.sheet.work_sheet`.
    paper : tuple of float
        Width and height [mm], 148 x 210 or more.
    margin : float
        Edge of the paper that stays white [mm].

    Returns
    -------
    tuple of Page
        In letters as large as fit on four.
    """
    for size in SIZES:
        setter = _Setter(sheet, paper, size, margin)
        setter.set_all()
        if len(setter.done) <= MOST_PAGES:
            break
    return setter.pages()


class _Setter(Setter):
    """The sheet, block by block."""

    def __init__(self, sheet: WorkSheet, paper: tuple[float, float], size: float, margin: float) -> None:
        self.sheet = sheet
        self.size = size
        self.in_steps = False
        super().__init__(paper, margin)

    # heads ------------------------------------------------------------------

    def turn(self) -> None:
        """Begin a page with its head."""
        self.done.append([])
        if len(self.done) == 1:
            self._first_head()
        else:
            self._next_head()
        if self.in_steps:
            self._columns()

    def _first_head(self) -> None:
        profile = self.sheet.bellows.profile
        y = self.paper[1] - self.margin - 7.0 * CAPITAL
        self.items.append(Label(say(words.TITLE), (self.left, y), 7.0, bold=True))
        y -= 3.4
        for text, size in ((profile.name, 4.6), (say(quoting.JOBS[self.sheet.job]), 4.0)):
            for line in wrapped(text, size, self.width, bold=True):
                y -= size * 1.02
                self.items.append(Label(line, (self.left, y), size, bold=True))
                y -= size * 0.3
        y -= 1.0
        mark = say(words.FINGERPRINT, mark=profile.fingerprint)
        lines = wrapped(
            " \u00b7 ".join((self._kind(), self._copies(), say(words.UNITS[self.sheet.bellows.profile.units]))), SMALL, self.width
        )
        for line in lines:
            y -= SMALL
            self.items.append(Label(line, (self.left, y), SMALL))
            y -= SMALL * 0.35
        if text_width(lines[-1], SMALL) + text_width(mark, SMALL) + 6.0 > self.width:
            y -= SMALL * 1.35
        self.items.append(Label(mark, (self.right, y + SMALL * 0.35), SMALL, anchor="end"))
        y = self._fields(y - 3.0)
        self.items.extend(ledge(self.left, self.right, y - 4.6))
        self.y = y - 5.3

    def _kind(self) -> str:
        bellows = self.sheet.bellows
        return count(
            bellows.folds,
            words.KIND_ONE_FOLD,
            words.KIND,
            sides=bellows.section.count,
            folds=bellows.folds,
            depth=bellows.rule.length(bellows.depth),
        )

    def _copies(self) -> str:
        copies = self.sheet.bellows.profile.copies
        return say(words.ONE) if copies == 1 else say(words.ALIKE, copies=copies)

    def _fields(self, y: float) -> float:
        """Customer, date and first day, to be written where they are not known; the height of the last line."""
        customer = self.sheet.bellows.profile.quote.customer or ""
        date = 38.0 + text_width(say(words.DATE), self.size)
        day = 38.0 + text_width(say(words.FIRST_DAY), self.size)
        room = self.width - date - day - 8.0
        told = say(quoting.FOR, customer=customer) if customer else ""
        if text_width(told, self.size) > room or room < 40.0:
            lines = wrapped(told, self.size, self.width)
            for line in lines:
                y -= self.size * 1.3
                self.items.append(Label(line, (self.left, y), self.size))
            if not lines:
                y -= self.size * 1.8
                self._field(say(words.CUSTOMER), self.left, y, self.right)
            room = 0.0
            y -= self.size * 2.0
        else:
            y -= self.size * 1.4
            if told:
                self.items.append(Label(told, (self.left, y), self.size))
            else:
                self._field(say(words.CUSTOMER), self.left, y, self.left + room)
        start = self.right - date - day - 4.0 if room else self.left
        self._field(say(words.DATE), start, y, start + date)
        self._field(say(words.FIRST_DAY), start + date + 4.0, y, start + date + 4.0 + day)
        return y

    def _field(self, name: str, x: float, y: float, end: float) -> None:
        """A word and a line to write on."""
        self.items.append(Label(name, (x, y), self.size))
        self.items.append(Stroke(((x + text_width(name, self.size) + 2.0, y - 0.8), (end, y - 0.8)), Pen.THIN))

    def _next_head(self) -> None:
        profile = self.sheet.bellows.profile
        y = self.paper[1] - self.margin
        told = f"{say(quoting.JOBS[self.sheet.job])} \u00b7 {say(words.FINGERPRINT, mark=profile.fingerprint)}"
        for line in wrapped(profile.name, 4.0, self.width - 30.0, bold=True):
            y -= 4.0
            self.items.append(Label(line, (self.left, y), 4.0, bold=True))
            y -= 1.0
        for line in wrapped(told, SMALL, self.width):
            y -= SMALL
            self.items.append(Label(line, (self.left, y), SMALL))
            y -= 1.0
        self.items.extend(ledge(self.left, self.right, y - 2.6))
        self.y = y - 3.3

    def _columns(self) -> None:
        """Headings over the columns of days and minutes."""
        self.y -= COLUMNS_TALL - 1.6
        for text, (x, anchor) in zip((words.DAY, words.MINUTES, words.TOOK), COLUMNS, strict=True):
            self.items.append(Label(say(text), (self.right - x, self.y), SMALL, anchor=anchor))
        self.y -= 1.6

    # blocks -----------------------------------------------------------------

    def set_all(self) -> None:
        """Warnings for the whole job, the tables, then the steps."""
        sheet = self.sheet
        if sheet.whole:
            self._whole(sheet.whole)
        measured, *others = sheet.tables
        self._measured(measured)
        for table in others:
            self._table(table)
        self._steps()

    def _whole(self, texts: Sequence[str]) -> None:
        self.need(HEAD_OF_TABLE + 3 * self.size * LINE)
        self.heading(say(words.WHOLE_JOB))
        self.y -= 1.0
        for text in texts:
            items, height = warned(text, self.left, self.width, self.size)
            self.need(height)
            self._put(items, height)

    def _put(self, items: Sequence[Item], height: float) -> None:
        """Items drawn downwards from 0, set at the present height."""
        self.items.extend(moved(item, 0.0, self.y) for item in items)
        self.y -= height

    def _measured(self, table: Table) -> None:
        """Lengths before and after; beside them, on wide paper, the gluing distance."""
        beside = self.sheet.glued and self.width >= SIDE_BY_SIDE
        width = self.width * 0.55 if beside else self.width
        ruled = Ruled(table.head, table.rows, table.blank, self.size, width)
        self.need(HEAD_OF_TABLE + max(ruled.height + self.size * LINE + 2.4, 49.0 if beside else 0.0))
        top = self.y
        self.heading(table.title)
        self.items.extend(ruled.drawn(self.left, self.y - 0.6))
        self.y -= 0.6 + ruled.height
        self._notes(wrapped(table.note, self.size, width), self.left)
        low = self.y
        if self.sheet.glued:
            start, wide = (self.left + width + 9.0, self.width - width - 9.0) if beside else (self.left, min(self.width, 100.0))
            if beside:
                self.y = top
            else:
                self.y = low
                self.need(HEAD_OF_TABLE + 49.0)
            self.heading(say(words.GLUING), start)
            items, foot = gluing_picture(self.sheet.bellows, start, self.y - 1.0, wide, self.size)
            self.items.extend(items)
            low = min(low, foot) if beside else foot
        self.y = low

    def _table(self, table: Table) -> None:
        ruled = Ruled(table.head, table.rows, table.blank, self.size, self.width)
        notes = wrapped(table.note, self.size, self.width)
        tall = ruled.height + len(notes) * self.size * LINE + 2.4
        self.need(HEAD_OF_TABLE + tall)
        self.heading(table.title)
        self.items.extend(ruled.drawn(self.left, self.y - 0.6))
        self.y -= ruled.height + 0.6
        self._notes(notes, self.left)

    def _notes(self, notes: Sequence[str], left: float) -> None:
        """Lines under a table."""
        self.y -= 1.6
        for line in notes:
            self.items.append(Label(line, (left, self.y - self.size * CAPITAL), self.size))
            self.y -= self.size * LINE

    def _steps(self) -> None:
        sheet = self.sheet
        letters = Letters(self.left, self.right, self.size)
        blocks = [step_block(step, letters) for step in sheet.steps]
        one = all(step.days.soonest == step.days.latest for step in sheet.steps)
        legend = wrapped(say(words.LEGEND_ONE if one else words.LEGEND), self.size, self.width)
        self.need(HEAD_OF_TABLE + 0.6 + len(legend) * self.size * LINE + COLUMNS_TALL + blocks[0][1])
        self.heading(say(words.STEPS))
        self.y -= 0.6
        for line in legend:
            self.items.append(Label(line, (self.left, self.y - self.size * CAPITAL), self.size))
            self.y -= self.size * LINE
        self._columns()
        self.in_steps = True
        for items, height in blocks:
            self.need(height)
            self._put(items, height)
        self._total()

    def _total(self) -> None:
        """What the steps come to, room for what they took, and where the minutes come from."""
        sheet, size = self.sheet, self.size
        days = sheet.days
        elapsed = words.ELAPSED_ONE if days.soonest == days.latest else words.ELAPSED
        texts = (say(elapsed, first=days.soonest, last=days.latest), *sheet.minutes_told)
        lines = [line for text in texts for line in wrapped(text, size, self.width)]
        self.need(9.0 + len(lines) * size * LINE)
        self.items.append(Stroke(((self.left, self.y), (self.right, self.y)), Pen.HEAVY))
        base = self.y - 2.6 - size * 1.12 * CAPITAL
        hours, minutes = divmod(sheet.minutes, 60)
        self.items.append(Label(say(words.TOTAL_HOURS, hours=hours, minutes=minutes), (self.left, base), size * 1.12, bold=True))
        x, anchor = COLUMNS[1]
        self.items.append(Label(str(sheet.minutes), (self.right - x, base), size * 1.12, anchor=anchor, bold=True))
        self.items.append(Stroke(((self.right - EDGE, base - 0.8), (self.right, base - 0.8)), Pen.THIN))
        self.y = base - 3.0
        for line in lines:
            self.items.append(Label(line, (self.left, self.y - size * CAPITAL), size))
            self.y -= size * LINE

    def pages(self) -> tuple[Page, ...]:
        """All pages, numbered."""
        made = []
        for number, items in enumerate(self.done, 1):
            told = say(words.PAGE, number=number, pages=len(self.done))
            y = self.paper[1] - self.margin - (7.0 * CAPITAL if number == 1 else 4.0)
            items.append(Label(told, (self.right, y), SMALL, anchor="end"))
            made.append(Page(*self.paper, say(words.HEAD, title=say(words.TITLE), page=told), tuple(items)))
        return tuple(made)

"""One step of a work sheet as a block: box, number, name, day and minutes, then what is said at it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from bellowscut.bench.sheet import WorkStep
from bellowscut.bench.work import Manner, Told
from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, DESCENT, text_width, wrapped
from bellowscut.pages.views import moved
from bellowscut.words import say, work_sheet as words

LINE = 1.32
"""Base line to base line [-] of the em."""

BOX, TEST_BOX = 4.8, 4.0
"""Sides of the boxes to tick [mm]."""

INDENT = 15.0
"""From the left edge to what is said [mm]."""

EDGE = 19.0
"""Length of the line for what a step took [mm]."""

COLUMNS = ((36.0, "end"), (23.0, "end"), (0.0, "end"))
"""Where day, minutes and `took` stand, from the right edge [mm]."""

NAME_ENDS = 52.0
"""From the right edge to where the name of a step is broken [mm]."""

BAR = 1.3
"""Width of the black edge beside a warning [mm]."""


@dataclass(frozen=True)
class Letters:
    """Where blocks are set and how large.

    Parameters
    ----------
    left, right : float
        Edges of the text [mm].
    size : float
        Letters [mm].
    """

    left: float
    right: float
    size: float


def step_block(step: WorkStep, letters: Letters) -> tuple[list[Item], float]:
    """A step drawn downwards from height 0.

    Returns
    -------
    list of items
        Labels and strokes.
    float
        Height [mm].
    """
    left, right, size = letters.left, letters.right, letters.size
    items: list[Item] = [Stroke(((left, 0.0), (right, 0.0)), Pen.SOLID)]
    title = size * 1.12
    base = -1.6 - BOX / 2 - title * CAPITAL / 2
    items.append(_box(left, -1.6, BOX))
    items.append(Label(str(step.number), (left + INDENT - 2.6, base), title, anchor="end", bold=True))
    y = base
    for k, line in enumerate(wrapped(step.step.operation.name, title, right - NAME_ENDS - left - INDENT, bold=True)):
        y = base - k * title * 1.2
        items.append(Label(line, (left + INDENT, y), title, bold=True))
    days = step.days
    told = str(days.soonest) if days.soonest == days.latest else say(words.DAYS_RANGE, first=days.soonest, last=days.latest)
    minutes = say(words.LEARNED_MARK, minutes=step.minutes) if step.step.learned else str(step.minutes)
    for text, (x, anchor) in zip((told, minutes), COLUMNS, strict=False):
        items.append(Label(text, (right - x, base), size, anchor=anchor))
    items.append(Stroke(((right - EDGE, base - 0.8), (right, base - 0.8)), Pen.THIN))
    y = min(y - title * DESCENT - 1.2, -1.6 - BOX - 1.2)
    for more, height in _said(step.told, left + INDENT, right - left - INDENT, size):
        items.extend(moved(item, 0.0, y) for item in more)
        y -= height
    return items, -y + 1.4


def _said(told: Sequence[Told], left: float, width: float, size: float) -> Iterator[tuple[list[Item], float]]:
    """Blocks of what is said: sentences that follow each other run on, all else stands on its own."""
    for manner, run in groupby(told, key=lambda one: one.manner):
        texts = [one.text for one in run]
        if manner is Manner.PLAIN:
            yield _plain(" ".join(texts), left, width, size)
        elif manner is Manner.FIELD:
            yield from _fields(texts, left, width, size)
        elif manner is Manner.CAUTION:
            yield _cautioned(" ".join(texts), left, width, size)
        else:
            for text in texts:
                if manner is Manner.TEST:
                    yield _tested(text, left, width, size)
                elif manner is Manner.DRYING:
                    yield _plain(text, left, width, size, bold=True)
                else:
                    yield warned(text, left, width, size)


def _plain(text: str, left: float, width: float, size: float, *, bold: bool = False) -> tuple[list[Item], float]:
    lines = wrapped(text, size, width, bold=bold)
    items: list[Item] = [Label(line, (left, -0.4 - size * (CAPITAL + LINE * k)), size, bold=bold) for k, line in enumerate(lines)]
    return items, len(lines) * size * LINE + 0.9


def warned(text: str, left: float, width: float, size: float) -> tuple[list[Item], float]:
    """A warning with a black edge that the eye cannot miss, drawn downwards from height 0."""
    lines = wrapped(text, size, width - BAR - 2.4)
    tall = size * (CAPITAL + LINE * (len(lines) - 1))
    low, high = -1.0 - tall - size * 0.24, -1.0 + size * 0.14
    bar = ((left, low), (left + BAR, low), (left + BAR, high), (left, high))
    items: list[Item] = [Stroke(bar, Pen.THIN, closed=True, fill=Tint.INK)]
    items += [Label(line, (left + BAR + 2.4, -1.0 - size * (CAPITAL + LINE * k)), size) for k, line in enumerate(lines)]
    return items, tall + 1.0 + size * 0.24 + 1.3


def _tested(text: str, left: float, width: float, size: float) -> tuple[list[Item], float]:
    """A test: a box to tick and the word in heavy letters."""
    word = say(words.TEST)
    start = left + TEST_BOX + 2.0
    room = width - TEST_BOX - 2.0
    ahead = text_width(word, size, bold=True) + 1.4
    first = -0.7 - TEST_BOX / 2 - size * CAPITAL / 2
    first_line, rest = _after(text, size, room - ahead, room)
    items: list[Item] = [_box(left, -0.7, TEST_BOX), Label(word, (start, first), size, bold=True)]
    items.append(Label(first_line, (start + ahead, first), size))
    items += [Label(line, (start, first - size * LINE * k), size) for k, line in enumerate(rest, 1)]
    return items, max(0.7 + TEST_BOX + 1.4, -first + size * (DESCENT + LINE * len(rest)) + 1.6)


def _after(text: str, size: float, first: float, room: float) -> tuple[str, tuple[str, ...]]:
    """A text whose first line is shorter than the others: that line, and the rest."""
    line = wrapped(text, size, first)[0]
    return line, wrapped(text[len(line) :], size, room)


def _cautioned(text: str, left: float, width: float, size: float) -> tuple[list[Item], float]:
    """A caution in a pale box."""
    word = say(words.CAUTION)
    ahead = text_width(word, size, bold=True) + 1.6
    room = width - 4.4
    line, rest = _after(text, size, room - ahead, room)
    tall = 2.4 + size * (CAPITAL + LINE * len(rest)) + size * DESCENT * 0.6
    box = ((left, -0.6 - tall), (left + width, -0.6 - tall), (left + width, -0.6), (left, -0.6))
    first = -0.6 - 1.4 - size * CAPITAL
    items: list[Item] = [Stroke(box, Pen.THIN, closed=True, fill=Tint.PALE), Label(word, (left + 2.2, first), size, bold=True)]
    items.append(Label(line, (left + 2.2 + ahead, first), size))
    items += [Label(more, (left + 2.2, first - size * LINE * k), size) for k, more in enumerate(rest, 1)]
    return items, tall + 2.2


def _fields(texts: Sequence[str], left: float, width: float, size: float) -> Iterator[tuple[list[Item], float]]:
    """Words with lines to write on, two in a row."""
    room = (width - 8.0) / 2
    for k in range(0, len(texts), 2):
        items: list[Item] = []
        for n, text in enumerate(texts[k : k + 2]):
            x = left + n * (room + 8.0)
            lines = wrapped(text, size, room - 18.0)
            base = -2.6 - size * CAPITAL
            items += [Label(line, (x, base - size * LINE * m), size) for m, line in enumerate(lines)]
            start = x + max(text_width(line, size) for line in lines) + 2.0
            items.append(Stroke(((start, base - 0.8), (x + room, base - 0.8)), Pen.THIN))
        deep = max(len(wrapped(text, size, room - 18.0)) for text in texts[k : k + 2])
        yield items, 2.6 + size * (CAPITAL + LINE * (deep - 1)) + 1.6


def _box(left: float, top: float, side: float) -> Stroke:
    return Stroke(((left, top - side), (left + side, top - side), (left + side, top), (left, top)), Pen.SOLID, closed=True)

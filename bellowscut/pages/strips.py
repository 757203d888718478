"""The page for straight strips longer than the paper.

They are not drawn: a strip is cut from its width and length with a rule. The
page tells both, shows the end of every strip at full width with its lines, and
carries a measuring stick to cut out and join.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from bellowscut.drawing import Item, Label, Line, Pen, Role, Stroke, Tint, Window
from bellowscut.layout.openings import Place
from bellowscut.layout.tiles import letter_of
from bellowscut.lettering import CAPITAL, paragraph
from bellowscut.pages.arrows import arrow, arrow_size
from bellowscut.pages.bars import break_line
from bellowscut.pages.furniture import Box
from bellowscut.pages.strip_table import HEAD, corner_marks, table_head, table_row
from bellowscut.pages.views import View, amount
from bellowscut.shapes import Point, bounds
from bellowscut.words import say, sheets as words

INCH = 25.4

TAB = 9.0
"""Tongue on which the next piece of the stick is glued [mm]."""

STICK = 16.0
"""Width of the stick [mm]."""

WORDS = 19.0
"""Height of what is written beside a strip's end [mm]."""

SHOWN = 75.0
"""How much of a strip's left end is drawn [mm]."""

_TEXT = 2.8


def strip_bodies(views: Sequence[View], area: Box) -> list[list[Item]]:
    """Contents of the pages about strips.

    Parameters
    ----------
    views : sequence of View
        The strips, none of which fits on the paper.
    area : tuple of float
        Left, low, right and high edge of what may be used [mm].

    Returns
    -------
    list of lists of items
        One a page.
    """
    left, _, right, high = area
    wide = right - left
    flow = _Flow(area)
    title, down = paragraph(say(words.STRIPS_HOW), (left, high - 9.0), _TEXT, wide)
    flow.add([Label(say(words.STRIPS), (left, high - 4.2 * CAPITAL), 4.2, bold=True), *title], high - down)
    for k, view in enumerate(views):
        _, height = table_row(view, left, 0.0, wide)
        if flow.turns_over(height + (HEAD if k == 0 else 0.0)) or k == 0:
            flow.add(table_head(left, flow.y, wide), HEAD)
        flow.add(table_row(view, left, flow.y, wide)[0], height)
    flow.y -= 5.0
    for view in views:
        block = max(view.size[1], WORDS) + 6.0
        flow.turns_over(block)
        flow.add(_end_of(view, left, flow.y, wide), block)
    length = max(view.size[0] for view in views)
    _, down = paragraph(say(words.STICK_HOW), (left, 0.0), _TEXT, wide)
    flow.turns_over(3.0 - down + STICK)
    labels, down = paragraph(say(words.STICK_HOW), (left, flow.y - 3.0), _TEXT, wide)
    flow.add(labels, flow.y - down - 0.8)
    pieces = _stick_pieces(length, wide)
    for k, (start, end) in enumerate(pieces):
        flow.turns_over(STICK)
        before, after = letter_of(k - 1) if k else "", letter_of(k) if k < len(pieces) - 1 else ""
        flow.add(_stick_piece(left, flow.y - STICK, start, end, before=before, after=after), STICK + 3.0)
    return flow.pages


class _Flow:
    """Blocks one under the other, on as many pages as they need."""

    def __init__(self, area: Box) -> None:
        self.pages: list[list[Item]] = [[]]
        _, self._low, _, self._high = area
        self.y = self._high

    def turns_over(self, height: float) -> bool:
        """Begin a new page if a block of this height [mm] does not fit under the last."""
        if self.y - height >= self._low or self.y == self._high:
            return False
        self.pages.append([])
        self.y = self._high
        return True

    def add(self, items: Sequence[Item], height: float) -> None:
        self.pages[-1] += items
        self.y -= height


# ends -----------------------------------------------------------------


def _end_of(view: View, left: float, top: float, wide: float) -> list[Item]:
    """The left end of a strip at full size, broken off, with its name beside it."""
    x0, y0, x1, y1 = bounds(view.points)
    top -= max(0.0, (WORDS - (y1 - y0)) / 2)
    first = next(iter(corner_marks(view)), 0.0)
    shown = min(max(SHOWN, first + 12.0), 0.55 * wide, x1 - x0)
    moved = view.turned(0, left - x0, top - y1)
    bottom = top - (y1 - y0)
    items: list[Item] = [
        Window((left - 0.5, bottom - 0.5), (left + shown, top + 0.5), (moved.drawn(),)),
        break_line((left + shown, bottom - 1.5), y1 - y0 + 3.0),
    ]
    x = left + shown + 6.0
    room = left + wide - x
    y = (top + bottom) / 2 + 6.2
    items.append(Label(view.name, (x, y), 3.6, bold=True, width=room))
    told = say(words.STRIP_SIZE, amount=amount(view.part), width=f"{y1 - y0:.1f}", length=f"{x1 - x0:.1f}")
    items.append(Label(told, (x, y - 4.6), _TEXT, width=room))
    size = arrow_size(view.part)
    lines, y = paragraph(_lines_told(view), (x, y - 8.8), _TEXT, room)
    items += [*lines, *arrow(view.part, Place((x + size[0] / 2, y - 0.3), 0.0))]
    return items


def _lines_told(view: View) -> str:
    """Where a strip's long lines lie, up from its lower edge."""
    _, low, _, _ = bounds(view.points)
    found = []
    for role, word in ((Role.CREASE, words.STRIP_FOLD), (Role.SKIVE, words.STRIP_SKIVE)):
        ends = [(line.points[0][1], line.points[-1][1]) for line in view.lines if line.role is role]
        level = dict.fromkeys(f"{first - low:.1f}" for first, last in ends if first == last)
        if level:
            *most, last = sorted(level, key=float)
            found.append(say(word, places=say(words.STRIP_AND, first=", ".join(most), last=last) if most else last))
    return say(words.STRIP_LINES, lines=", ".join(found)) if found else ""


# stick ----------------------------------------------------------------


def _stick_pieces(length: float, wide: float) -> list[tuple[float, float]]:
    """Where each piece of the stick starts and ends: whole fifties of millimetres."""
    piece = max(50.0, math.floor((wide - TAB) / 50.0) * 50.0)
    whole = math.ceil(length / 10.0) * 10.0
    count = math.ceil(whole / piece)
    whole = max(whole, (count - 1) * piece + 30.0)
    return [(k * piece, min((k + 1) * piece, whole)) for k in range(count)]


def _stick_piece(left: float, low: float, start: float, end: float, *, before: str, after: str) -> list[Item]:
    high = low + STICK
    long = end - start
    right = left + long + (TAB if after else 0.0)
    items: list[Item] = [Line(Role.CUT, ((left, low), (right, low), (right, high), (left, high)), closed=True)]
    for hundred in range(math.floor(start / 100.0) * 100, math.ceil(end), 100):
        if hundred // 100 % 2 == 0:
            a, b = max(hundred, start), min(hundred + 100, end)
            box = ((left + a - start, high - 0.9), (left + b - start, high - 0.9), (left + b - start, high), (left + a - start, high))
            items.append(Stroke(box, Pen.BAR, closed=True, fill=Tint.INK))
    items.append(_comb(left, high, start, end, 1.0, lambda k: 4.4 if k % 10 == 0 else 3.2 if k % 5 == 0 else 2.2, down=True))
    items.append(_comb(left, low, start, end, INCH / 8, lambda k: 4.2 if k % 8 == 0 else 3.0 if k % 4 == 0 else 1.8, down=False))
    for k in range(math.ceil(start / 10 - 1e-9), math.floor(end / 10 + 1e-9) + 1):
        x = left + 10 * k - start
        bold = k % 10 == 0
        anchor = "middle"
        if x - left < 4:
            x, anchor = left + 0.9, "start"
        elif left + long - x < 4:
            x, anchor = left + long - 0.9, "end"
        items.append(Label(str(10 * k), (x, high - 6.6), 2.4, anchor=anchor, bold=bold))
    for k in range(math.ceil(start / INCH - 1e-9), math.floor(end / INCH + 1e-9) + 1):
        x = left + INCH * k - start
        if x - left < 4:
            items.append(Label(str(k), (x + 0.9, low + 4.7), 2.4))
        elif left + long - x >= 4:
            items.append(Label(str(k), (x, low + 4.7), 2.4, anchor="middle"))
    if after:
        line = left + long
        items.append(Stroke(((line, low), (line, high)), Pen.SOLID))
        items.append(Label(after, (line + TAB / 2, low + STICK / 2 - 1.4), 4.0, anchor="middle", bold=True))
    if before:
        items.append(Label(before, (left + 1.0, low + 6.95), 2.8, bold=True))
    else:
        items.append(Label(say(words.STICK_UNITS), (left + 0.9, low + 7.1), 2.2))
    return items


def _comb(left: float, edge: float, start: float, end: float, step: float, length_of: Callable[[int], float], *, down: bool) -> Stroke:
    """All ticks of one edge as one line that goes out and back."""
    way = -1.0 if down else 1.0
    run: list[Point] = []
    for k in range(math.ceil(start / step - 1e-9), math.floor(end / step + 1e-9) + 1):
        x = left + k * step - start
        run += [(x, edge), (x, edge + way * length_of(k)), (x, edge)]
    return Stroke(tuple(run), Pen.BAR)

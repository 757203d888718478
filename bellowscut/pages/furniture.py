"""What stands on every sheet: title, measuring bars, warnings, key of lines.

The bars form a square in the lower left corner, 100 mm and 4 in along each
arm: printers often stretch one way only. The area that is left for patterns is
the same on every sheet of a set.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from bellowscut.drawing import Item, Label, Line, Pen, Role, Stroke
from bellowscut.errors import UsageError
from bellowscut.lettering import paragraph, text_width, wrapped
from bellowscut.pages.bars import SMALL, bars, ledge
from bellowscut.pages.papers import MARGIN, SMALLEST, paper_margin
from bellowscut.shapes import Point
from bellowscut.words import say, sheets as words

COLUMN = 16.0
"""Width of the strip on the left that holds the upright bar [mm]."""

BARS_IN = 7.0
"""How far inside the margin the two bars meet [mm]."""

CORNER = (MARGIN + BARS_IN, MARGIN + BARS_IN)
"""Where they meet with the usual margin [mm]."""

ZONE = 15.5
"""Height of the strip at the foot that holds the level bar [mm]."""

KEY_WIDTH = 62.0
"""Least width beside the level bar in which the key of lines fits [mm]."""

KEY_COLUMN = 50.0
"""Greatest width of a column of the key [mm]."""

NOTICE = 3.0
"""Letters of what must be read [mm]."""

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Furniture:
    """What the sheets of a set have in common.

    Parameters
    ----------
    size : tuple of float
        Width and height of the paper [mm].
    name : str
        Of the instrument.
    fingerprint : str
        Of the profile's values.
    notes : tuple of str
        Every piece of advice that a sheet of the set may carry: room is kept for all of them.
    margin : float
        Edge of the paper that stays white [mm].
    """

    size: tuple[float, float]
    name: str
    fingerprint: str
    notes: tuple[str, ...] = ()
    margin: float = MARGIN
    area: Box = field(init=False)

    def __post_init__(self) -> None:
        if not (min(self.size) >= SMALLEST[0] and max(self.size) >= SMALLEST[1]):
            size, least = (tuple(f"{side:g}" for side in sides) for sides in (self.size, SMALLEST))
            raise UsageError(say(words.SIZE_TOO_SMALL, width=size[0], height=size[1], least_width=least[0], least_height=least[1]))
        paper_margin(self.margin, self.size)
        left, right = self.margin + COLUMN, self.size[0] - self.margin
        low = self._foot_top() + 3.0
        high = self.size[1] - self.margin - self._head_height() - 3.5
        object.__setattr__(self, "area", (left, low, right, high))

    @property
    def corner(self) -> Point:
        """Where the two bars meet [mm]."""
        return self.margin + BARS_IN, self.margin + BARS_IN

    @property
    def area_size(self) -> tuple[float, float]:
        """Width and height of the area for patterns [mm]."""
        left, low, right, high = self.area
        return right - left, high - low

    def items(self, *, sheet: str, parts: str, notes: Sequence[str] = (), side: str = "") -> tuple[Item, ...]:
        """Everything round the area of one sheet.

        Parameters
        ----------
        sheet : str
            Which sheet of the set it is.
        parts : str
            Names of what is on it.
        notes : sequence of str
            Advice for this sheet, of the set's `notes`.
        side : str
            Which side of the leather is shown; empty when there is none on it.
        """
        return (*self.head(sheet, parts), *self._foot(notes, side), *bars(self.corner))

    # head -------------------------------------------------------------

    def _name_lines(self) -> tuple[tuple[str, ...], float]:
        """The name in one line as large as may be, else in two smaller ones."""
        room = self.size[0] - 2 * self.margin - 40.0
        for height in (5.2, 4.8, 4.4, 4.0, 3.6):
            if text_width(self.name, height, bold=True) <= room:
                return (self.name,), height
        for height in (4.0, 3.6, 3.2, 2.8):
            lines = wrapped(self.name, height, room, bold=True)
            if len(lines) <= 2:
                return lines, height
        return (self.name,), 2.8

    def _head_height(self) -> float:
        lines, height = self._name_lines()
        return len(lines) * height * 1.2 + 9.8

    def head(self, sheet: str, parts: str) -> list[Item]:
        """Name of the instrument, number of the sheet, names on it and fingerprint, over the area."""
        left, right, top = self.margin, self.size[0] - self.margin, self.size[1] - self.margin
        lines, height = self._name_lines()
        items: list[Item] = []
        y = top - height * 0.78
        for line in lines:
            items.append(Label(line, (left, y), height, bold=True, width=right - left - 40.0))
            y -= height * 1.2
        items.append(Label(sheet, (right, top - 3.2), 3.8, anchor="end", bold=True, width=40.0))
        y = top - self._head_height() + 5.2
        mark = Label(say(words.FINGERPRINT, mark=self.fingerprint), (right, y), SMALL, anchor="end")
        items.append(mark)
        room = right - left - text_width(mark.text, SMALL) - 6.0
        items.append(Label(_shortened(parts, NOTICE, room), (left, y), NOTICE, width=room))
        items += ledge(left, right, top - self._head_height() + 1.6)
        return items

    # foot -------------------------------------------------------------

    @property
    def _beside(self) -> bool:
        """Whether the key has room beside the level bar."""
        return self.size[0] - self.margin - (self.corner[0] + 101.6 + 9.0) >= KEY_WIDTH

    def _note_labels(self, notes: Sequence[str], top: float) -> tuple[list[Label], float]:
        left, right = self.margin + COLUMN, self.size[0] - self.margin
        labels: list[Label] = []
        y = top
        for note in notes:
            some, y = paragraph(note, (left, y), SMALL, right - left, leading=1.3)
            labels += some
        return labels, y

    def _notice_labels(self, top: float) -> tuple[list[Label], float]:
        left, right = self.margin + COLUMN, self.size[0] - self.margin
        first, y = paragraph(say(words.PRINT_TRUE), (left, top), NOTICE, right - left, bold=True)
        second, y = paragraph(say(words.LAY_THE_RULE), (left, y), NOTICE, right - left)
        return [*first, *second], y

    def _foot_top(self) -> float:
        """Upper edge of the foot when it carries every note."""
        _, down = self._note_labels(self.notes, 0.0)
        _, down = self._notice_labels(down)
        return self.margin + ZONE - down + (0.0 if self._beside else 9.5) + 2.3

    def _foot(self, notes: Sequence[str], side: str) -> list[Item]:
        left, right = self.margin + COLUMN, self.size[0] - self.margin
        items: list[Item] = []
        _, short = self._note_labels(notes, 0.0)
        _, whole = self._note_labels(self.notes, 0.0)
        top = self._foot_top() - (short - whole)
        items.append(Stroke(((left, top + 1.0), (right, top + 1.0)), Pen.THIN))
        labels, y = self._note_labels(notes, top - 3.0)
        items += labels
        labels, y = self._notice_labels(y - 1.2)
        items += labels
        if self._beside:
            start = self.corner[0] + 101.6 + 9.0
            items += _key((start, self.margin + 1.6), min((right - start) / 2, KEY_COLUMN), columns=2)
            if side:
                items.append(Label(side, (start, self.margin + 11.4), SMALL, bold=True, width=right - start))
        else:
            items += _key((left, y - 0.8), min((right - left) / 4, KEY_COLUMN), columns=4)
            if side:
                items.append(Label(side, (left, y - 5.3), SMALL, bold=True, width=right - left))
        return items


def _shortened(text: str, height: float, room: float) -> str:
    """A list of names cut to what can still be read, saying how many are missing."""
    names = text.split(" \u00b7 ")
    shown = len(names)
    while shown > 1:
        short = _and_more(" \u00b7 ".join(names[:shown]), len(names) - shown)
        if text_width(short, height) <= room * 1.15:
            return short
        shown -= 1
    return _and_more(names[0], len(names) - 1)


def _and_more(names: str, number: int) -> str:
    return say(words.SHORTENED, names=names, number=number) if number else names


def _key(at: Point, width: float, columns: int) -> list[Item]:
    """A sample of every kind of line with its name."""
    items: list[Item] = []
    sample = min(14.0, width - 13.0)
    for k, role in enumerate((Role.CUT, Role.CREASE, Role.SKIVE, Role.MARK)):
        x = at[0] + (k % columns) * width
        y = at[1] + (4.6 * (1 - k // columns) if columns == 2 else 0.0)
        items.append(Line(role, ((x, y + SMALL * 0.3), (x + sample, y + SMALL * 0.3))))
        items.append(Label(say(words.LINES[role.value]), (x + sample + 1.6, y), SMALL))
    return items

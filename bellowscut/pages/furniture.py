"""What stands on every sheet: title, measuring bars, warnings, key of lines.

The bars form a square in the lower left corner, 100 mm and 4 in along each
arm: printers often stretch one way only. The area that is left for patterns is
the same on every sheet of a set.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from bellowscut.drawing import Item, Label, Line, Pen, Role, Stroke
from bellowscut.errors import UsageError
from bellowscut.lettering import paragraph, text_width, wrapped
from bellowscut.pages.bars import SMALL, bars, ledge
from bellowscut.shapes import Point

PAPERS = {
    "a2": (420.0, 594.0),
    "a3": (297.0, 420.0),
    "a4": (210.0, 297.0),
    "a5": (148.0, 210.0),
    "letter": (8.5 * 25.4, 11 * 25.4),
    "legal": (8.5 * 25.4, 14 * 25.4),
    "tabloid": (11 * 25.4, 17 * 25.4),
}
"""Papers by name [mm]: ISO 216, and the inch papers."""

SMALLEST = (148.0, 210.0)
"""Least short and long side of a paper that holds the bars and a pattern [mm]."""

LARGEST = 5000.0
"""Greatest side of a paper [mm]: a viewer shows no page over 200 in."""

MARGIN = 10.0
"""Edge of the paper that printers may leave white [mm]."""

COLUMN = 16.0
"""Width of the strip on the left that holds the upright bar [mm]."""

CORNER = (MARGIN + 7.0, MARGIN + 7.0)
"""Where the two bars meet [mm]."""

ZONE = 15.5
"""Height of the strip at the foot that holds the level bar [mm]."""

KEY_WIDTH = 62.0
"""Least width beside the level bar in which the key of lines fits [mm]."""

PRINT_TRUE = "Print at 100 %: do not fit to page."
LAY_THE_RULE = "Lay the rule on the bars: 100 mm both ways. If not, nothing on this sheet is right."

NOTICE = 3.0
"""Letters of what must be read [mm]."""

_UNITS = {"": 1.0, "mm": 1.0, "cm": 10.0, "in": 25.4, '"': 25.4}

_SIZE = re.compile(r"([0-9]*\.?[0-9]+)\s*(mm|cm|in|\")?\s*[x\u00d7]\s*([0-9]*\.?[0-9]+)\s*(mm|cm|in|\")?")

Box = tuple[float, float, float, float]


def paper(text: str) -> tuple[float, float]:
    """Read a paper size.

    Parameters
    ----------
    text : str
        A name of `PAPERS`, or width x height such as ``320x450``, ``12x18in``;
        without a unit in millimetres.

    Returns
    -------
    tuple of float
        Width and height [mm].

    Raises
    ------
    UsageError
        When it is no size, or not between 148 x 210 mm and 5000 mm.
    """
    name = text.strip().lower()
    if name in PAPERS:
        return PAPERS[name]
    found = _SIZE.fullmatch(name)
    if found is None:
        raise UsageError(f"paper {text!r} is not known; use one of {', '.join(PAPERS)}, or width x height such as 320x450 or 12x18in")
    first, first_unit, second, second_unit = found.groups()
    scale = _UNITS[first_unit or second_unit or ""], _UNITS[second_unit or first_unit or ""]
    size = (float(first) * scale[0], float(second) * scale[1])
    if not (min(size) >= SMALLEST[0] and max(size) >= SMALLEST[1]):
        raise UsageError(
            f"paper {text!r} is too small; the measuring bars need {SMALLEST[0]:g} x {SMALLEST[1]:g} mm (5.83 x 8.27 in) or more"
        )
    if max(size) > LARGEST:
        raise UsageError(f"paper {text!r} is too large; no side may be over {LARGEST:g} mm (196.9 in)")
    return size


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
    """

    size: tuple[float, float]
    name: str
    fingerprint: str
    notes: tuple[str, ...] = ()
    area: Box = field(init=False)

    def __post_init__(self) -> None:
        if not (min(self.size) >= SMALLEST[0] and max(self.size) >= SMALLEST[1]):
            raise UsageError(f"paper is {self.size[0]:g} x {self.size[1]:g} mm; the least is {SMALLEST[0]:g} x {SMALLEST[1]:g} mm")
        left, right = MARGIN + COLUMN, self.size[0] - MARGIN
        low = self._foot_top() + 3.0
        high = self.size[1] - MARGIN - self._head_height() - 3.5
        object.__setattr__(self, "area", (left, low, right, high))

    @property
    def area_size(self) -> tuple[float, float]:
        """Width and height of the area for patterns [mm]."""
        left, low, right, high = self.area
        return right - left, high - low

    def items(self, *, sheet: int, sheets: int, parts: str, notes: Sequence[str] = (), side: str = "") -> tuple[Item, ...]:
        """Everything round the area of one sheet.

        Parameters
        ----------
        sheet, sheets : int
            Number of the sheet and of all sheets [-].
        parts : str
            Names of what is on it.
        notes : sequence of str
            Advice for this sheet, of the set's `notes`.
        side : str
            Which side of the leather is shown; empty when there is none on it.
        """
        return (*self._head(sheet, sheets, parts), *self._foot(notes, side), *bars(CORNER))

    # head -------------------------------------------------------------

    def _name_lines(self) -> tuple[tuple[str, ...], float]:
        """The name in one line as large as may be, else in two smaller ones."""
        room = self.size[0] - 2 * MARGIN - 40.0
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

    def _head(self, sheet: int, sheets: int, parts: str) -> list[Item]:
        left, right, top = MARGIN, self.size[0] - MARGIN, self.size[1] - MARGIN
        lines, height = self._name_lines()
        items: list[Item] = []
        y = top - height * 0.78
        for line in lines:
            items.append(Label(line, (left, y), height, bold=True, width=right - left - 40.0))
            y -= height * 1.2
        items.append(Label(f"sheet {sheet} of {sheets}", (right, top - 3.2), 3.8, anchor="end", bold=True))
        y = top - self._head_height() + 5.2
        mark = Label(f"fingerprint {self.fingerprint}", (right, y), SMALL, anchor="end")
        items.append(mark)
        room = right - left - text_width(mark.text, SMALL) - 6.0
        items.append(Label(_shortened(parts, NOTICE, room), (left, y), NOTICE, width=room))
        items += ledge(left, right, top - self._head_height() + 1.6)
        return items

    # foot -------------------------------------------------------------

    @property
    def _beside(self) -> bool:
        """Whether the key has room beside the level bar."""
        return self.size[0] - MARGIN - (CORNER[0] + 101.6 + 9.0) >= KEY_WIDTH

    def _note_labels(self, notes: Sequence[str], top: float) -> tuple[list[Label], float]:
        left, right = MARGIN + COLUMN, self.size[0] - MARGIN
        labels: list[Label] = []
        y = top
        for note in notes:
            some, y = paragraph(note, (left, y), SMALL, right - left, leading=1.3)
            labels += some
        return labels, y

    def _notice_labels(self, top: float) -> tuple[list[Label], float]:
        left, right = MARGIN + COLUMN, self.size[0] - MARGIN
        first, y = paragraph(PRINT_TRUE, (left, top), NOTICE, right - left, bold=True)
        second, y = paragraph(LAY_THE_RULE, (left, y), NOTICE, right - left)
        return [*first, *second], y

    def _foot_top(self) -> float:
        """Upper edge of the foot when it carries every note."""
        _, down = self._note_labels(self.notes, 0.0)
        _, down = self._notice_labels(down)
        return MARGIN + ZONE - down + (0.0 if self._beside else 9.5) + 2.3

    def _foot(self, notes: Sequence[str], side: str) -> list[Item]:
        left, right = MARGIN + COLUMN, self.size[0] - MARGIN
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
            start = CORNER[0] + 101.6 + 9.0
            items += _key((start, MARGIN + 1.6), (right - start) / 2, columns=2)
            if side:
                items.append(Label(side, (start, MARGIN + 11.4), SMALL, bold=True, width=right - start))
        else:
            items += _key((left, y - 0.8), (right - left) / 4, columns=4)
            if side:
                items.append(Label(side, (left, y - 5.3), SMALL, bold=True, width=right - left))
        return items


def _shortened(text: str, height: float, room: float) -> str:
    """A list of names cut to what can still be read, saying how many are missing."""
    names = text.split(" \u00b7 ")
    shown = len(names)
    while shown > 1:
        short = " \u00b7 ".join(names[:shown]) + (f" and {len(names) - shown} more" if shown < len(names) else "")
        if text_width(short, height) <= room * 1.15:
            return short
        shown -= 1
    return names[0] + (f" and {len(names) - 1} more" if len(names) > 1 else "")


def _key(at: Point, width: float, columns: int) -> list[Item]:
    """A sample of every kind of line with its name."""
    items: list[Item] = []
    words = ((Role.CUT, "cut"), (Role.CREASE, "crease"), (Role.SKIVE, "skive"), (Role.MARK, "mark"))
    sample = min(14.0, width - 13.0)
    for k, (role, word) in enumerate(words):
        x = at[0] + (k % columns) * width
        y = at[1] + (4.6 * (1 - k // columns) if columns == 2 else 0.0)
        items.append(Line(role, ((x, y + SMALL * 0.3), (x + sample, y + SMALL * 0.3))))
        items.append(Label(word, (x + sample + 1.6, y), SMALL))
    return items

"""The measuring sheet: what `new` asks, in its order and words, to be filled in with a pencil at the instrument."""

from __future__ import annotations

from functools import cache

from bellowscut.drawing import Item, Label, Page, Pen, Stroke
from bellowscut.errors import UsageError
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.bars import bar, ledge
from bellowscut.pages.figure import Figure
from bellowscut.pages.measuring_blocks import Sheet
from bellowscut.pages.measuring_first import ends, head, surfaces
from bellowscut.pages.measuring_form import KEY, QUESTION, Block
from bellowscut.pages.measuring_second import condition, finer, folds, leather, old_card
from bellowscut.pages.papers import MARGIN
from bellowscut.pages.setter import SIDE, Setter
from bellowscut.schema import MEASURED, RECTANGLE, REGULAR, SIDES_LEAST
from bellowscut.sources import SIDES_MOST
from bellowscut.words import measuring as words, say

SECTIONS = (REGULAR, RECTANGLE, MEASURED)
"""Shapes of section that have a sheet."""

USUAL_SIDES = 6
"""Sides of a sheet when nothing is said [-]: the most common number."""

PITCHES = (11.0, 10.5, 10.0, 9.5, 9.0, 8.5, 8.0)
"""Distances of the lines to write on that are tried [mm]; less is too little for a pencil."""

BEFORE_FOLDS = (head, surfaces, ends)
FROM_FOLDS = (folds, old_card, leather, finer, condition)
"""All blocks of the sheet in the order in which `new` asks, in two parts whose lines may stand at different distances."""

PAGES = ((2, 8.5), (3, 8.0))
"""Both sides of one sheet of paper, or one page more [-], and how near to each other lines may stand for that [mm]."""

DESIGNED = (210.0, 297.0)
"""Paper that the form is set for [mm]; on larger paper it grows with it."""

HEAD = 12.0
"""Height of the head of a page, at most [mm]."""

BAR_HIGH, BAR_WIDE = 16.5, 112.0
"""Room for the measuring bar at the foot of the last page [mm]."""


def sheet_sides(section: str, sides: int | None) -> int:
    """How many sides a sheet is for.

    Parameters
    ----------
    section : str
        ``regular``, ``rectangle`` or ``measured``.
    sides : int or None
        As asked for, 3 to 64 [-]; may be left out.

    Returns
    -------
    int
        That number, or the usual one [-].

    Raises
    ------
    UsageError
        When there is no such shape, or not 3 to 64 sides, or a rectangle with other than 4.
    """
    if section not in SECTIONS:
        raise UsageError(say(words.NO_SECTION, section=section, known=", ".join(SECTIONS)))
    if section == RECTANGLE and sides not in (None, 4):
        raise UsageError(say(words.FOUR_SIDES))
    number = sides if sides is not None else 4 if section == RECTANGLE else USUAL_SIDES
    most = round(SIDES_MOST.value)
    if not SIDES_LEAST <= number <= most:
        raise UsageError(say(words.MANY_SIDES, sides=number, least=SIDES_LEAST, most=most))
    return number


def measuring_sheet_pages(section: str, *, sides: int | None = None, paper: tuple[float, float] = DESIGNED) -> tuple[Page, ...]:
    """The measuring sheet for one shape of section.

    Parameters
    ----------
    section : str
        ``regular``, ``rectangle`` or ``measured``.
    sides : int or None
        Number of sides, 3 to 64 [-]; 6 when nothing is said, and 4 for a rectangle.
    paper : tuple of float
        Width and height [mm], 148 x 210 or more.

    Returns
    -------
    tuple of Page
        Three at most on A4, letter or larger paper, up to sixteen sides; on A4 two where all sides are alike.

    Raises
    ------
    UsageError
        When there is no such shape, or not 3 to 64 sides, or a rectangle with other than 4.
    """
    number = sheet_sides(section, sides)
    grown = max(1.0, min(side / usual for side, usual in zip(paper, DESIGNED, strict=True)))
    size = (paper[0] / grown, paper[1] / grown)

    @cache
    def tried(first: float, pitch: float) -> _Setter:
        setter = _Setter(Sheet(section, number, pitch, size[1] - 2 * SIDE - HEAD), size, first)
        setter.set_all()
        return setter

    usable = (tried(pitch, pitch) for most, least in PAGES for pitch in PITCHES if pitch >= least and len(tried(pitch, pitch).done) <= most)
    best = next(usable, None) or min((tried(pitch, pitch) for pitch in PITCHES), key=lambda setter: len(setter.done))
    # What is left of the first page goes to its lines.
    roomy = (tried(first, best.sheet.pitch) for first in PITCHES if first > best.sheet.pitch)
    best = next((setter for setter in roomy if len(setter.done) == len(best.done)), best)
    return best.pages(paper, grown)


class _Setter(Setter):
    """The sheet, block by block."""

    def __init__(self, sheet: Sheet, paper: tuple[float, float], first: float) -> None:
        self.sheet = sheet
        self.pitch = first
        super().__init__(paper)

    def turn(self) -> None:
        """Begin a page: its head in full on the first, and on the others a line for the name, so that sheets are not mixed up."""
        self.done.append([])
        top = self.paper[1] - MARGIN
        size = 6.4 if len(self.done) == 1 else 4.2
        y = top - size * CAPITAL - 0.6
        title = say(words.TITLE)
        self.items.append(Label(title, (self.left, y), size, bold=True))
        x = self.left + text_width(title, size, bold=True) + 3.0
        if len(self.done) == 1:
            kind = say(words.KINDS[self.sheet.section], sides=self.sheet.sides)
            self.items.append(Label(kind, (x, y), QUESTION + 0.3, width=self.right - 24.0 - x))
        else:
            again = say(words.NAME_AGAIN)
            self.items.append(Label(again, (x, y), KEY))
            x += text_width(again, KEY) + 1.4
            self.items.append(Stroke(((x, y - 0.4), (self.right - 26.0, y - 0.4)), Pen.SOLID))
        self.items.extend(ledge(self.left, self.right, y - 4.6))
        self.y = y - 6.2

    def set_all(self) -> None:
        """Every block in its order, then the bar, and notes in what is left."""
        for some, pitch in ((BEFORE_FOLDS, self.pitch), (FROM_FOLDS, self.sheet.pitch)):
            self.pitch = pitch
            for make in some:
                for block in make(self.sheet, self._blank):
                    self._put(block)
        self._foot()

    def _blank(self) -> Block:
        return Block(self.left, self.right, self.pitch)

    def _put(self, block: Block) -> None:
        self.need(-block.y)
        self.items.extend(Figure(block.items).moved(0.0, self.y).items)
        self.y += block.y

    def _foot(self) -> None:
        """Notes down to the bar, and beside it where there is room."""
        self.need(BAR_HIGH + 3.0)
        bar_top = self.low + BAR_HIGH
        pitch = max(self.sheet.pitch - 2.0, 8.0)
        label = Label(say(words.NOTES), (self.left, self.y - 5.2), QUESTION, bold=True)
        y, first = self.y - 5.6, True
        while True:
            beside = y < bar_top
            start = self.left + (BAR_WIDE + 4.0 if beside else 0.0)
            if y < self.low or (beside and self.right - start < 30.0):
                break
            if first:
                label = Label(label.text, (start, y + 0.6), QUESTION, bold=True)
                self.items.append(label)
            self.items.append(
                Stroke(((start + (text_width(label.text, QUESTION, bold=True) + 2.0 if first else 0.0), y), (self.right, y)), Pen.SOLID)
            )
            first = False
            y -= pitch

    def pages(self, paper: tuple[float, float], grown: float) -> tuple[Page, ...]:
        """The pages as they are printed: grown to the paper, numbered, with the bar at its own true size."""
        found = []
        for number, items in enumerate(self.done, 1):
            top = self.paper[1] - MARGIN
            told = Label(say(words.PAGE, page=number, pages=len(self.done)), (self.right, top - 3.4), 2.8, anchor="end")
            shown: list[Item] = [_grown(item, grown) for item in (*items, told)]
            if number == len(self.done):
                corner = (self.left * grown + 4.0, self.low * grown + 5.6)
                shown += bar(corner)
                shown.append(Label(say(words.BAR), (corner[0] + 0.5, corner[1] + 7.4), KEY))
            found.append(Page(*paper, say(words.TITLE), tuple(shown)))
        return tuple(found)


def _grown(item: Item, by: float) -> Item:
    """An item larger in every way."""
    if isinstance(item, Label):
        return Label(item.text, (item.at[0] * by, item.at[1] * by), item.height * by, item.angle, item.anchor, item.bold, item.width * by)
    assert isinstance(item, Stroke)
    return Stroke(tuple((x * by, y * by) for x, y in item.points), item.pen, item.closed, item.fill)

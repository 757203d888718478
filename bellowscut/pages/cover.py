"""The first page: warnings, a corner with every layer named, the section, the figures, the parts.

Blocks are set one under the other and go on to a further page when one is
full. On paper wide enough the pictures stand on the left and section and
figures on the right; on small paper all stand in one column.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from bellowscut.advice import not_made
from bellowscut.bellows import Bellows
from bellowscut.drawing import Label, Page, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, LEADING, wrapped
from bellowscut.pages.bars import ledge
from bellowscut.pages.corner_space import sharpest
from bellowscut.pages.corner_view import corner_picture
from bellowscut.pages.figures_table import ROW, figures, figures_table, folds_told, part_list
from bellowscut.pages.layers_view import layers_picture
from bellowscut.pages.papers import MARGIN
from bellowscut.pages.section_view import section_height, section_picture, section_words
from bellowscut.pages.setter import GAP, HEADING, Setter
from bellowscut.parts.part import Part
from bellowscut.words import cover as texts, say

TEXT = 3.0
"""Size of the running text [mm]."""

TWO_COLUMNS = 175.0
"""Least width of the text at which pictures and figures stand side by side [mm]."""

GUTTER = 8.0
"""Between two columns [mm]."""

HEAD = GAP + HEADING * CAPITAL + 1.0
"""Height that a heading takes with the space over it [mm]."""

CORNER_LEAST, CORNER_MOST = 64.0, 92.0
"""Heights between which the picture of the corner is chosen on wide paper [mm]."""

LAYERS_LEAST, LAYERS_MOST = 36.0, 44.0
"""The same of the cut through the layers [mm]."""

SECTION_LEAST = 44.0
"""Least height of the section [mm]."""

SLACK = 1.0
"""Left over at the foot when blocks are fitted to a page [mm]."""


class Note(Protocol):
    """A warning: a short code for programs and a text for people."""

    @property
    def code(self) -> str:
        """Short name that does not change."""

    @property
    def text(self) -> str:
        """What a repairer reads."""


def cover_pages(
    bellows: Bellows, job: str, parts: Sequence[Part], notes: Sequence[Note], *, paper: tuple[float, float], margin: float = MARGIN
) -> tuple[Page, ...]:
    """The page or pages that lie on top of a pattern set.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    job : str
        A key of `bellowscut.parts.JOBS`.
    parts : sequence of Part
        What the set holds, in cutting order.
    notes : sequence of Note
        Warnings, the gravest first.
    paper : tuple of float
        Width and height [mm], 148 x 210 or more.
    margin : float
        Edge of the paper that stays white [mm].

    Returns
    -------
    tuple of Page
        One where everything fits.
    """
    setter = _Setter(bellows, not_made(bellows, job), paper, margin)
    setter.warnings(notes)
    if setter.width >= TWO_COLUMNS:
        setter.side_by_side(parts)
    else:
        setter.one_column()
    setter.parts(parts)
    setter.left_out()
    return setter.pages()


class _Setter(Setter):
    """The cover, block by block."""

    def __init__(self, bellows: Bellows, not_made: str, paper: tuple[float, float], margin: float) -> None:
        self.bellows = bellows
        self.not_made = not_made
        super().__init__(paper, margin)

    def turn(self) -> None:
        """Begin a page with its head."""
        self.done.append([])
        top = self.paper[1] - self.margin
        profile = self.bellows.profile
        first = len(self.done) == 1
        size = 7.0 if first else 4.4
        lines = wrapped(profile.name, size, self.width, bold=True)
        while first and len(lines) > 1 and size > 4.6:
            size -= 0.4
            lines = wrapped(profile.name, size, self.width, bold=True)
        y = top - size * CAPITAL
        for line in lines:
            self.items.append(Label(line, (self.left, y), size, bold=True, width=self.width))
            y -= size * 1.2
        y += size * 1.2 - 5.6
        self.items.append(Label(_subtitle(self.bellows), (self.left, y), TEXT, width=self.width - 44.0))
        self.items.append(Label(say(texts.FINGERPRINT, fingerprint=profile.fingerprint), (self.right, y), 2.6, anchor="end"))
        self.items.extend(ledge(self.left, self.right, y - 3.4))
        self.y = y - 3.4 - 0.7

    # blocks ---------------------------------------------------------------

    def warnings(self, notes: Sequence[Note]) -> None:
        """Warnings, numbered, each with a black edge that the eye cannot miss."""
        if not notes:
            return
        number_width = 7.0
        blocks = [wrapped(note.text, TEXT, self.width - number_width - 3.0) for note in notes]
        step = TEXT * 1.3
        self.need(GAP + HEADING + 2.0 + len(blocks[0]) * step)
        self.heading(say(texts.BEFORE_YOU_CUT))
        start = self.y
        for number, lines in enumerate(blocks, 1):
            tall = len(lines) * step + 1.4
            if self.y - tall < self.low:
                self._edge(start)
                self.turn()
                self.y -= 3.0
                start = self.y
            y = self.y - 1.0 - TEXT * CAPITAL
            self.items.append(Label(str(number), (self.left + number_width - 1.6, y), TEXT, anchor="end", bold=True))
            for k, line in enumerate(lines):
                self.items.append(Label(line, (self.left + number_width + 0.4, y - step * k), TEXT))
            self.y -= tall
        self._edge(start)

    def _edge(self, start: float) -> None:
        bar = ((self.left, self.y), (self.left + 1.3, self.y), (self.left + 1.3, start), (self.left, start))
        self.items.append(Stroke(bar, Pen.THIN, closed=True, fill=Tint.INK))

    def corner(self, left: float, right: float, height: float) -> None:
        """The corner with its names."""
        names = self.bellows.section.corner_names
        self.heading(say(texts.CORNER, name=names[sharpest(self.bellows)]), left)
        self.items.extend(corner_picture(self.bellows, (left, self.y - height, right, self.y)))
        self.y -= height

    def layers(self, height: float) -> None:
        """The cut through the layers."""
        self.heading(say(texts.LAYERS))
        column = min(40.0, 0.26 * self.width)
        self.items.extend(layers_picture(self.bellows, (self.left, self.y - height, self.right, self.y - 1.0), column))
        self.y -= height

    def words_height(self, width: float) -> float:
        """Height of what is said of the section [mm]."""
        return -section_words(self.bellows, (0.0, 0.0), width)[1]

    def section(self, left: float, right: float, height: float) -> None:
        """The section, and under it what is said of it."""
        self.heading(say(texts.SIDES), left)
        height = min(height, section_height(self.bellows, right - left))
        self.items.extend(section_picture(self.bellows, (left, self.y - height, right, self.y)))
        words, y = section_words(self.bellows, (left, self.y - height - 2.0 - TEXT * CAPITAL), right - left)
        self.items.extend(words)
        self.y = y + TEXT * LEADING

    def figures(self, columns: int) -> None:
        """The figures, in as many columns."""
        found = figures(self.bellows)
        self.need(self.figures_height(columns))
        self.heading(say(texts.FIGURES))
        top = self.y - 0.4
        each = -(-len(found) // columns)
        width = (self.width - GUTTER * (columns - 1)) / columns
        for k in range(columns):
            items, low = figures_table(found[k * each : (k + 1) * each], (self.left + k * (width + GUTTER), top), width)
            self.items.extend(items)
            self.y = min(self.y, low)

    def figures_height(self, columns: int) -> float:
        """Height of the figures with their heading [mm]."""
        return HEAD + ROW * -(-len(figures(self.bellows)) // columns) + 0.4

    def side_by_side(self, parts: Sequence[Part]) -> None:
        """The corner with the section beside it; cut and figures under both."""
        column = max(62.0, 0.3 * self.width)
        words = self.words_height(column) + 2.0
        least = max(CORNER_LEAST, min(SECTION_LEAST, section_height(self.bellows, column)) + words)
        layers, corner = LAYERS_MOST, max(CORNER_MOST, least)
        under = self.figures_height(2)
        # What does not fit goes to the next page: first the list of parts, then the figures too.
        for rest in (under + self.parts_height(parts), under, 0.0):
            room = self.y - self.low - rest - 2 * HEAD - SLACK
            if room >= least + LAYERS_LEAST:
                layers = min(LAYERS_MOST, max(LAYERS_LEAST, room - least))
                corner = room - layers
                break
        corner = min(corner, max(CORNER_MOST, 0.52 * self.width, SECTION_LEAST + words))
        self.need(corner + HEAD)
        top, split = self.y, self.right - column
        self.corner(self.left, split - GUTTER, corner)
        under, self.y = self.y, top
        self.section(split, self.right, min(corner - words, column * 0.95))
        self.y = min(self.y, under)
        self.need(layers + HEAD)
        self.layers(layers)
        self.figures(2)

    def one_column(self) -> None:
        """Everything one under the other."""
        half = (self.width - GUTTER) / 2
        height = 0.62 * self.width
        self.need(height + HEAD)
        self.corner(self.left, self.right, height)
        self.need(LAYERS_MOST + HEAD)
        self.layers(LAYERS_MOST)
        words = self.words_height(half)
        self.need(max(half, words) + HEAD)
        self.heading(say(texts.SIDES))
        top = self.y
        tall = min(half, section_height(self.bellows, half))
        self.items.extend(section_picture(self.bellows, (self.left, top - tall, self.left + half, top)))
        items, low = section_words(self.bellows, (self.right - half, top - 2.0 - TEXT * CAPITAL), half)
        self.items.extend(items)
        self.y = min(top - tall, low)
        self.figures(1)

    def part_columns(self) -> tuple[int, float]:
        """How many lists of parts stand side by side, and how wide each is [mm]."""
        columns = 2 if self.width >= TWO_COLUMNS else 1
        return columns, (self.width - GUTTER * (columns - 1)) / columns

    def parts_height(self, parts: Sequence[Part]) -> float:
        """Height of the whole list of parts with its headings [mm]."""
        columns, width = self.part_columns()
        rows = part_list(parts, width).rows
        each = -(-len(rows) // columns)
        tall = max((sum(row.tall for row in rows[k * each : (k + 1) * each]) for k in range(columns)), default=0.0)
        return HEAD + ROW + tall + self.left_out_height() if rows else 0.0

    def parts(self, parts: Sequence[Part]) -> None:
        """The list of parts, on as many pages as it takes."""
        columns, width = self.part_columns()
        found = part_list(parts, width)
        number = sum(part.pieces for part in parts)
        first, count = 0, len(found.rows)
        while first < count:
            # A short rest of a page is left empty rather than begun with a row or two.
            if self.parts_height(parts) > self.y - self.low and self.y - self.low < HEAD + 6 * ROW and first == 0:
                self.turn()
            room = self.y - self.low - HEAD - ROW
            each = -(-(count - first) // columns)
            while each > 1 and any(found.tall(first + k * each, first + (k + 1) * each) > room for k in range(columns)):
                each -= 1
            self.heading(say(texts.TO_CUT if first == 0 else texts.TO_CUT_CONTINUED, number=number))
            top = self.y
            for k in range(columns):
                start, stop = min(first + k * each, count), min(first + (k + 1) * each, count)
                if start < stop:
                    items, low = found.drawn(start, stop, (self.left + k * (width + GUTTER), top))
                    self.items.extend(items)
                    self.y = min(self.y, low)
            first = min(first + columns * each, count)
            if first < count:
                self.turn()

    def left_out_lines(self) -> tuple[str, ...]:
        """What nobody asked for, broken to the width."""
        return wrapped(self.not_made, TEXT, self.width) if self.not_made else ()

    def left_out_height(self) -> float:
        """Height of what nobody asked for [mm]."""
        lines = self.left_out_lines()
        return 2.0 + len(lines) * TEXT * 1.3 if lines else 0.0

    def left_out(self) -> None:
        """What nobody asked for, in one calm line under the parts."""
        lines = self.left_out_lines()
        if not lines:
            return
        self.need(self.left_out_height())
        self.y -= 2.0
        for line in lines:
            self.items.append(Label(line, (self.left, self.y - TEXT * CAPITAL), TEXT))
            self.y -= TEXT * 1.3

    def pages(self) -> tuple[Page, ...]:
        """All pages, numbered where there are several."""
        many = len(self.done) > 1
        made = []
        for number, items in enumerate(self.done, 1):
            title = say(texts.TITLE) if number == 1 else say(texts.TITLE_OF_PAGE, number=number)
            if many:
                text = say(texts.PAGE_OF, number=number, pages=len(self.done))
                items.append(Label(text, (self.right, max(self.margin - 2.0, 2.0)), 2.6, anchor="end"))
            made.append(Page(*self.paper, title, tuple(items)))
        return tuple(made)


def _subtitle(bellows: Bellows) -> str:
    """What kind of bellows it is, in a line."""
    copies = bellows.profile.copies
    told = {"sides": bellows.section.count, "folds": folds_told(bellows.folds), "depth": bellows.rule.length(bellows.depth)}
    return say(texts.SUBTITLE, **told) if copies == 1 else say(texts.SUBTITLE_ALIKE, **told, copies=copies)


__all__ = ["Note", "cover_pages"]

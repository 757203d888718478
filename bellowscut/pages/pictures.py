"""Pictures of the bellows: the whole of it in space, a corner, a cell, and every part with its size.

Each picture stands on the pages and is a drawing of its own too.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from bellowscut.bellows import Bellows
from bellowscut.drawing import Item, Label, Page
from bellowscut.lettering import CAPITAL, paragraph, wrapped
from bellowscut.pages.bars import ledge
from bellowscut.pages.bellows_view import View, bellows_figures, bellows_views
from bellowscut.pages.cell_view import cell_figure, cell_scale, governing_words
from bellowscut.pages.corner_space import sharpest
from bellowscut.pages.corner_view import corner_picture
from bellowscut.pages.figure import Figure, around
from bellowscut.pages.furniture import Box
from bellowscut.pages.layers_view import layers_picture
from bellowscut.pages.papers import MARGIN
from bellowscut.pages.part_drawing import Family, Known, families, part_figure
from bellowscut.pages.setter import GAP, HEADING, Setter
from bellowscut.parts.part import Part
from bellowscut.shapes import Point
from bellowscut.words import pictures as words, say

TEXT = 3.0
"""Running text [mm]."""

ROW, COLUMN = 9.0, 5.0
"""Between two rows of parts, and between two parts of a row [mm]."""

CORNER_TALL, LAYERS_TALL = 104.0, 46.0
"""Most height of the picture of a corner and of the cut through the layers [mm]."""

CORNER_LEAST = 60.0
"""Where less is left for the corner, the cell goes to a page of its own [mm]."""

CORNER_SHARE = 0.62
"""Height of the picture of a corner as a share of its width [-]."""

NAMES_SHARE = 0.2
"""Width of the column of names beside the layers, as a share of the whole [-]."""

WIDEST_SCALE = "1 : 2.5"
"""As long as a scale gets in writing."""

EDGE = 4.0
"""Left free round a drawing that is a file of its own [mm]."""

ALONE = (190.0, 240.0)
"""Room for a drawing that is a file of its own [mm]."""


Drawing = tuple[float, float, tuple[Item, ...]]
"""Width and height [mm], and what is drawn."""


class Pictures:
    """The pictures of one job: what pages and drawings share is worked out once.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    parts : sequence of Part
        What the job makes; each gets its drawing.
    """

    def __init__(self, bellows: Bellows, parts: Sequence[Part]) -> None:
        self.bellows, self.parts = bellows, tuple(parts)
        self._known: Known = {}

    @cached_property
    def views(self) -> tuple[View, ...]:
        """The whole bellows as it is seen in each state."""
        return bellows_views(self.bellows)

    def part(self, family: Family, width: float, height: float) -> Figure:
        """A part or a family of parts with its sizes, as large as fits [mm]."""
        return part_figure(self.bellows, family, width, height, self._known)

    def pages(self, *, paper: tuple[float, float], margin: float = MARGIN) -> tuple[Page, ...]:
        """The pages of pictures.

        Parameters
        ----------
        paper : tuple of float
            Width and height [mm], 148 x 210 or more.
        margin : float
            Edge of the paper that stays white [mm].

        Returns
        -------
        tuple of Page
            The bellows; a corner and a cell; the parts.
        """
        setter = _Pages(self, paper, margin)
        setter.bellows_block()
        setter.turn()
        setter.corner_block()
        setter.cell_block()
        if self.parts:
            setter.turn()
            setter.part_block()
        title = say(words.TITLE)
        return tuple(Page(*paper, title, tuple(items)) for items in setter.done)

    def drawings(self) -> Mapping[str, Drawing]:
        """Every picture as a drawing of its own.

        Returns
        -------
        mapping of str to tuple
            By name (``bellows-closed``, ``bellows-half-open``, ``bellows-open``,
            ``corner``, ``valley-cell``, ``part-`` and the part's id): width and
            height [mm], and what is drawn; the lower left corner is the origin.
        """
        bellows = self.bellows
        figures, _ = bellows_figures(self.views, *ALONE, alone=True)
        found = {f"bellows-{view.state.name}": figure for view, figure in zip(self.views, figures, strict=True)}
        width = ALONE[0]
        found["corner"] = Figure(tuple(corner_picture(bellows, (0.0, 0.0, width, CORNER_SHARE * width))))
        labels, _ = paragraph(governing_words(bellows), (0.0, 0.0), TEXT, width)
        found["valley-cell"] = _stacked((_layers(bellows, width), cell_figure(bellows, width), Figure(labels)))
        for part in self.parts:
            found[f"part-{part.id}"] = self.part(Family((part,)), *ALONE)
        drawings = {}
        for name, figure in found.items():
            wide, tall = figure.size
            drawings[name] = (wide + 2 * EDGE, tall + 2 * EDGE, figure.at(EDGE, tall + EDGE).items)
        return drawings


def on_few_drawings(drawings: Mapping[str, Drawing]) -> Mapping[str, Drawing]:
    """The drawings of `Pictures` with all parts on one, under each other, so that a folder holds few files."""
    parts = [Figure(items) for name, (_, _, items) in drawings.items() if name.startswith("part-")]
    found = {name: one for name, one in drawings.items() if not name.startswith("part-")}
    if parts:
        all_parts = _stacked(parts)
        wide, tall = all_parts.size
        found["parts"] = (wide + 2 * EDGE, tall + 2 * EDGE, all_parts.at(EDGE, tall + EDGE).items)
    return found


def _layers(bellows: Bellows, width: float) -> Figure:
    return Figure(tuple(layers_picture(bellows, (0.0, 0.0, width, LAYERS_TALL), NAMES_SHARE * width)))


def _stacked(figures: Sequence[Figure]) -> Figure:
    """Figures one under the other, each in the middle."""
    wide = max(figure.size[0] for figure in figures)
    items: list[Item] = []
    top = 0.0
    for figure in figures:
        items += figure.at((wide - figure.size[0]) / 2, top).items
        top -= figure.size[1] + GAP
    return Figure(tuple(items))


class _Pages(Setter):
    """The pages of pictures, block by block."""

    def __init__(self, pictures: Pictures, paper: tuple[float, float], margin: float) -> None:
        self.pictures, self.bellows = pictures, pictures.bellows
        super().__init__(paper, margin)

    def turn(self) -> None:
        """Begin a page with its head."""
        self.done.append([])
        profile, number = self.bellows.profile, len(self.done)
        size = 4.4
        y = self.paper[1] - self.margin - size * CAPITAL
        for line in wrapped(profile.name, size, self.width, bold=True):
            self.items.append(Label(line, (self.left, y), size, bold=True, width=self.width))
            y -= size * 1.2
        y += size * 1.2 - 5.2
        title = say(words.HEAD, title=say(words.TITLE), number=number)
        self.items.append(Label(title, (self.left, y), TEXT))
        self.items.append(Label(say(words.FINGERPRINT, mark=profile.fingerprint), (self.right, y), 2.6, anchor="end"))
        self.items.extend(ledge(self.left, self.right, y - 3.4))
        self.y = y - 4.1

    @property
    def room(self) -> float:
        """Height that is left on the page [mm]."""
        return self.y - self.low

    def text(self, text: str, *, bold: bool = False) -> None:
        """A paragraph."""
        labels, after = paragraph(text, (self.left, self.y - TEXT), TEXT, self.width, bold=bold, leading=1.3)
        self.items.extend(labels)
        self.y = after + TEXT * 0.6

    def put(self, *figures: Figure) -> None:
        """Figures as they stand to each other, in the middle, their upper edge at the present height."""
        left, low, right, high = around(figures)
        x, y = self.left + (self.width - (right - left)) / 2 - left, self.y - high
        for figure in figures:
            self.items.extend(figure.moved(x, y).items)
        self.y -= high - low

    def bellows_block(self) -> None:
        """The bellows in its three states."""
        self.heading(say(words.BELLOWS))
        text = say(words.BELLOWS_SCALE, scale=WIDEST_SCALE)
        foot = (len(wrapped(text, TEXT, self.width)) + len(wrapped(say(words.HIDDEN), TEXT, self.width)) + 0.6) * TEXT * 1.3
        figures, scale = bellows_figures(self.pictures.views, self.width, self.room - foot - 6.0)
        self.y -= 3.0
        self.put(*figures)
        self.y -= 2.0
        self.text(say(words.BELLOWS_SCALE, scale=scale))
        self.text(say(words.HIDDEN))

    def corner_block(self) -> None:
        """The corner that turns most, as large as cell and layers leave room for."""
        name = self.bellows.section.corner_names[sharpest(self.bellows)]
        self.heading(say(words.CORNER, name=name))
        rest = LAYERS_TALL + cell_figure(self.bellows, self.width).size[1] + 4 * HEADING + 8 * TEXT + 3 * GAP
        most = min(CORNER_TALL, CORNER_SHARE * self.width, self.room)
        tall = most if self.room - rest < CORNER_LEAST else min(most, self.room - rest)
        self.items.extend(corner_picture(self.bellows, (self.left, self.y - tall, self.right, self.y)))
        self.y -= tall

    def cell_block(self) -> None:
        """The cut through the layers, and one cell closed."""
        self.need(LAYERS_TALL + 2 * HEADING + GAP + 2 * TEXT)
        self.heading(say(words.LAYERS))
        self.text(say(words.LAYERS_NOTE))
        self.put(_layers(self.bellows, self.width))
        figure = cell_figure(self.bellows, self.width)
        self.need(figure.size[1] + 2 * HEADING + GAP + 4 * TEXT)
        self.heading(say(words.CELL))
        self.text(say(words.CELL_NOTE, scale=cell_scale(self.bellows)[1]))
        self.text(governing_words(self.bellows), bold=True)
        self.y -= 3.0
        self.put(figure)

    def part_block(self) -> None:
        """Every part, in rows."""
        self.heading(say(words.PARTS))
        self.text(say(words.PARTS_NOTE))
        self.y -= 4.0
        # A new page has more room than what is left here, so what fits here fits there.
        room = self.room
        pages = [_PartPage(self.items, (self.left, self.low, self.right, self.y), [])]
        for family in families(self.pictures.parts):
            figure = self.pictures.part(family, self.width, room)
            if not any(page.put(figure) for page in pages):
                self.turn()
                self.y -= 4.0
                pages.append(_PartPage(self.items, (self.left, self.low, self.right, self.y), []))
                pages[-1].put(figure, anyhow=True)


@dataclass(frozen=True)
class _PartPage:
    """A page that parts are put on: its items, the room for parts, and the boxes that are taken [mm]."""

    items: list[Item]
    area: Box
    taken: list[Box]

    def put(self, figure: Figure, *, anyhow: bool = False) -> bool:
        """Put a figure at the highest free place that holds it, of equal ones the leftmost; tells whether there is one."""
        place = self._place(figure)
        if place is None and not anyhow:
            return False
        moved = figure.at(*(place or (self.area[0], self.area[3])))
        self.items.extend(moved.items)
        self.taken.append(moved.box)
        return True

    def _place(self, figure: Figure) -> Point | None:
        wide, tall = figure.size
        edge, foot, end, top = self.area
        spots = [(edge, top)]
        for left, low, right, high in self.taken:
            spots += [(right + COLUMN, high), (left, low - ROW), (right + COLUMN, top), (edge, low - ROW)]
        for x, y in sorted(spots, key=lambda spot: (-round(spot[1], 3), spot[0])):
            if x + wide > end + 0.01 or y - tall < foot:
                continue
            clear = (x - COLUMN + 0.01, y - tall - ROW + 0.01, x + wide + COLUMN - 0.01, y + ROW - 0.01)
            if not any(box[0] < clear[2] and clear[0] < box[2] and box[1] < clear[3] and clear[1] < box[3] for box in self.taken):
                return x, y
        return None

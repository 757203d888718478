"""The page that goes before sheets which are to be joined: which goes where, how to join them, what stands on which."""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.drawing import Label, Page, Pen, Stroke
from bellowscut.layout.tiles import OVERLAP, Tiling
from bellowscut.lettering import CAPITAL, wrapped
from bellowscut.pages.furniture import Furniture
from bellowscut.pages.laid import Body
from bellowscut.pages.posters import Poster
from bellowscut.pages.setter import GAP, HEADING, Setter
from bellowscut.pages.sheet_picture import joined_size, sheet_picture
from bellowscut.pages.views import View, moved
from bellowscut.words import say, sheets as words

TEXT, SMALL = 2.9, 2.5
"""Letters of what must be read, and of tables [mm]."""

LEADING = 1.36

TALL, TALLER = 78.0, 104.0
"""Greatest height of a picture, of several and of the only one [mm]."""

NUMBER, INDENT = 4.0, 6.0
"""Where the number of a step ends and its words begin, from the left [mm]."""

MANY = 9
"""Number of joined sheets over which the picture takes the whole width [-]."""

ROW = 4.0
"""Height of a line of the overview [mm]."""

GUTTER = 8.0
"""Between two columns [mm]."""


def map_pages(
    furniture: Furniture, shown: Sequence[View], bodies: Sequence[Body], posters: Sequence[tuple[int, Poster]]
) -> tuple[Page, ...]:
    """The map of a set.

    Parameters
    ----------
    furniture : Furniture
        Of the sheets: paper, margin, names.
    shown : sequence of View
        Everything in the set, in cutting order.
    bodies : sequence of Body
        The sheets in their order.
    posters : sequence of tuple
        Joined areas, each with the number of its first sheet [-].

    Returns
    -------
    tuple of Page
        As many as it takes.
    """
    setter = _Map(furniture, len(bodies), TALL if len(posters) > 1 else TALLER)
    setter.how()
    for alike in _alike(posters):
        setter.poster(alike)
    setter.overview(shown, bodies)
    title = say(words.MAP)
    return tuple(Page(*furniture.size, title, tuple(items)) for items in setter.done)


class _Map(Setter):
    """The map, block by block."""

    def __init__(self, furniture: Furniture, count: int, tall: float) -> None:
        self._furniture, self._count, self._tall = furniture, count, tall
        super().__init__(furniture.size, furniture.margin)
        self.left, self.right = furniture.margin, furniture.size[0] - furniture.margin

    def turn(self) -> None:
        """Begin a page with the head that every sheet has."""
        told = say(words.MAP_OF, count=self._count)
        self.done.append(self._furniture.head(told, say(words.MAP)))
        self.y = self._furniture.area[3]

    def _lines(self, text: str, x: float, width: float, *, height: float = TEXT, bold: bool = False) -> None:
        for line in wrapped(text, height, width, bold=bold):
            self.y -= height * LEADING
            self.items.append(Label(line, (x, self.y), height, bold=bold, width=width))

    def how(self) -> None:
        """How sheets are joined, step by step."""
        half = f"{OVERLAP / 2:.0f}"
        for number, text in enumerate(words.MAP_HOW, 1):
            told = say(text, overlap=f"{OVERLAP:.0f}", half=half)
            y = self.y - TEXT * LEADING
            self.items.append(Label(str(number), (self.left + NUMBER, y), TEXT, anchor="end", bold=True))
            self._lines(told, self.left + INDENT, self.width - INDENT)
            self.y -= 0.7

    def poster(self, alike: Sequence[tuple[int, Poster]]) -> None:
        """The picture of the first of some joined areas that look alike, with the seams of all in words beside or under it."""
        first, poster = alike[0]
        plan = poster.plan
        wide = len(plan.tiles) > MANY
        beside = self.width >= 115.0 and not wide
        room = self.width * 0.52 if beside else self.width
        picture = sheet_picture(poster, first, (room, TALLER if wide else self._tall))
        column = (self.left + picture.width + GUTTER, self.width - picture.width - GUTTER) if beside else (self.left, self.width)
        seams = [seam for number, one in alike for seam in _seams(one.plan, number)]
        step = SMALL * LEADING
        deep = sum(len(wrapped(seam, SMALL, column[1] - INDENT)) * step + 0.5 for seam in seams)
        names = "; ".join(dict.fromkeys(one.view.name for one in poster.placed))
        size = [f"{side:.0f}" for side in joined_size(plan)]
        many = {"names": names, "count": len(plan.tiles), "width": size[0], "height": size[1]}
        told = say(words.MAP_JOINED, **many) if len(alike) == 1 else say(words.MAP_JOINED_ALIKE, times=len(alike), **many)
        head = GAP + len(wrapped(told, TEXT, self.width, bold=True)) * TEXT * LEADING + SMALL * LEADING + 3.0
        self.need(head + (max(picture.height, min(deep, 60.0)) if beside else picture.height + 3.0))
        self.y -= GAP - 2.0
        self._lines(told, self.left, self.width, bold=True)
        self._lines(say(words.MAP_SCALE, number=picture.scale), self.left, self.width, height=SMALL)
        top = self.y - 3.0
        self.items.extend(moved(item, self.left, top - picture.height) for item in picture.items)
        self.y = top if beside else top - picture.height - 2.0
        for number, seam in enumerate(seams, 1):
            text_width = column[1] - INDENT
            if self.y - len(wrapped(seam, SMALL, text_width)) * step < self.low:
                self.turn()
                top = self.y
            self.items.append(Label(str(number), (column[0] + NUMBER, self.y - step), SMALL, anchor="end", bold=True))
            self._lines(seam, column[0] + INDENT, text_width, height=SMALL)
            self.y -= 0.5
        if beside:
            self.y = min(self.y, top - picture.height)

    def overview(self, shown: Sequence[View], bodies: Sequence[Body]) -> None:
        """Every part with the sheets on which it stands."""
        rows = [_row(view, bodies) for view in shown]
        columns = 2 if self.width >= 115.0 and len(rows) > 4 else 1
        wide = (self.width - GUTTER * (columns - 1)) / columns
        starts = (0.0, wide * 0.56, wide * 0.68)
        head = GAP + HEADING + 2 * ROW
        self.need(head + 3 * ROW)
        self.heading(say(words.MAP_OVERVIEW))
        while rows:
            room = max(1, int((self.y - self.low - ROW - 4.0) / ROW))
            here = min(-(-len(rows) // columns), room)
            top = self.y
            for column in range(columns):
                some, rows = rows[:here], rows[here:]
                if some:
                    self._table(some, self.left + column * (wide + GUTTER), top, wide, starts)
            self.y = top - ROW * (here + 1) - 3.0
            if rows:
                self.turn()

    def _table(self, rows: Sequence[tuple[str, str, str]], left: float, top: float, wide: float, starts: Sequence[float]) -> None:
        rooms = (starts[1] - 2.0, starts[2] - starts[1] - 2.0, wide - starts[2])
        y = top - 3.0 - SMALL * CAPITAL
        for x, word, room in zip(starts, words.MAP_COLUMNS, rooms, strict=True):
            self.items.append(Label(say(word), (left + x, y), SMALL, width=room))
        self.items.append(Stroke(((left, y - 1.4), (left + wide, y - 1.4)), Pen.SOLID))
        for row in rows:
            y -= ROW
            for k, (x, text, room) in enumerate(zip(starts, row, rooms, strict=True)):
                self.items.append(Label(text, (left + x, y - 0.6), SMALL, bold=k == 2, width=room))


def _alike(posters: Sequence[tuple[int, Poster]]) -> list[list[tuple[int, Poster]]]:
    """Joined areas, with neighbours that hold the same parts in the same places drawn together."""
    groups: list[list[tuple[int, Poster]]] = []
    for first, poster in posters:
        if groups and _look(groups[-1][0][1]) == _look(poster):
            groups[-1].append((first, poster))
        else:
            groups.append([(first, poster)])
    return groups


def _look(poster: Poster) -> object:
    low = poster.plan.tiles[0].low
    placed = [(one.index, *(round(at - edge, 3) for at, edge in zip(one.view.points[0], low, strict=True))) for one in poster.placed]
    return [(tile.row, tile.column) for tile in poster.plan.tiles], placed


def _seams(plan: Tiling, first: int) -> list[str]:
    """What is to be done at each seam: sheets side by side first, then row on row."""
    told = []
    for seam in sorted(plan.seams, key=lambda seam: not seam.upright):
        way = words.MAP_SEAM_RIGHT if seam.upright else words.MAP_SEAM_BELOW
        one, other = (join.letter for join in seam.joins)
        told.append(say(way, over=first + seam.over, under=first + seam.under, first=one, last=other))
    return told


def _row(view: View, bodies: Sequence[Body]) -> tuple[str, str, str]:
    """Name of a part, how many are cut, and its sheets."""
    key = (view.part.id, view.name)
    on = [(number, body.tiled) for number, body in enumerate(bodies, 1) if key in {(one.part.id, one.name) for one in body.shown}]
    numbers = _runs([number for number, _ in on])
    joined = all(tiled for _, tiled in on)
    return view.name, str(view.part.pieces), say(words.MAP_TOGETHER, numbers=numbers) if joined else numbers


def _runs(numbers: Sequence[int]) -> str:
    """Numbers with neighbours drawn together: ``1, 3 to 5``."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    parts: list[str] = []
    for run in runs:
        parts += [say(words.RUN, first=run[0], last=run[-1])] if len(run) > 2 else [str(number) for number in run]
    return ", ".join(parts)

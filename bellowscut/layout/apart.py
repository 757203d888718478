"""Every distinct part once, apart from each other: what the machine drawings show.

Parts keep the direction of their own axes, so that a drawing and the numbers
of the summary can be laid side by side. They stand in rows in the order in
which they are cut, each with its caption under it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from bellowscut.drawing import Drawn, Label, Line, Role
from bellowscut.lettering import CAPITAL, text_width, wrapped
from bellowscut.parts.part import Part
from bellowscut.shapes import Point
from bellowscut.words import layout as words, say

SCALE = "scale"
"""Name of the drawing that holds the measuring bars; it has a layer of its own."""

HEADING = "heading"
"""Name of the drawing that holds the lines over the parts."""

BAR = 100.0
"""Length of each measuring bar [mm]."""

GAP = 8.0
"""Between neighbours, captions and all [mm]."""

MARGIN = 8.0
BAR_ROOM = 12.0
"""Left of and under the parts, for the bars [mm]."""

WIDTHS = (600.0, 700.0, 841.0, 1000.0)
"""Widths tried in turn until a drawing is no higher than wide [mm]."""

LETTERS = 3.2
CAPTION_STEP = 4.4
BELOW = 2.5
"""From a part to the capitals of its caption [mm]."""

LEVEL = 6.0
"""Captions of neighbours that differ in height by less stand level [mm]."""

CAPTION_WIDTH = 64.0
"""A caption may always be this wide, however narrow its part [mm]."""

HEADING_LETTERS = 4.5
HEADING_STEP = 6.5
ARROW = 14.0
ARROW_HEAD = 1.6


@dataclass(frozen=True)
class Cell:
    """Something to lay apart with what is written under it.

    Parameters
    ----------
    drawn : Drawn
        In its own axes [mm].
    caption : tuple of str
        Lines of text; each is broken further where it is too long.
    arrow : bool
        Whether an arrow along x closes the caption, to show how the piece lies in its material.
    """

    drawn: Drawn
    caption: tuple[str, ...]
    arrow: bool = False


def apart(parts: Iterable[Part], heading: Sequence[str] = ()) -> tuple[float, float, tuple[Drawn, ...]]:
    """Lay out every part once.

    Parameters
    ----------
    parts : iterable of Part
        In cutting order.
    heading : sequence of str
        Lines to stand over them, the first of them the largest.

    Returns
    -------
    float, float
        Width and height of the whole [mm].
    tuple of Drawn
        Heading, parts (each followed by its back where it has one), measuring bars.
    """
    cells: list[Cell] = []
    for part in parts:
        front = Drawn(part.id, (part.outline, *part.holes), part.lines)
        cells.append(Cell(front, _caption(part), arrow=True))
        if part.back:
            caption = (say(words.BACK_OF, part=part.name), say(words.BACK_NOT_CUT))
            cells.append(Cell(Drawn(f"{part.id}-back", (), part.back), caption))
    return lay(cells, heading)


SHOWN = {"flesh": words.FLESH_SHOWN, "grain": words.GRAIN_SHOWN, "outside": words.OUTSIDE_SHOWN, "inside": words.INSIDE_SHOWN}
"""What is said of the face of a part that a drawing shows."""


def _caption(part: Part) -> tuple[str, ...]:
    if part.spare:
        number = say(words.CUT_WITH_SPARE, counted=part.counted, material=part.material)
    else:
        number = say(words.CUT, pieces=part.pieces, material=part.material)
    size = box(Drawn(part.id, (part.outline,)))
    width, height = f"{size[2] - size[0]:.1f}", f"{size[3] - size[1]:.1f}"
    measure = say(words.SIZE_AND_FACE, width=width, height=height, face=say(SHOWN[part.side]))
    return (part.name, number, measure, *((part.note,) if part.note else ()))


def lay(cells: Sequence[Cell], heading: Sequence[str] = ()) -> tuple[float, float, tuple[Drawn, ...]]:
    """Lay out drawings in rows, each over its caption.

    Parameters
    ----------
    cells : sequence of Cell
        In the order in which they should be read.
    heading : sequence of str
        Lines to stand over them.

    Returns
    -------
    float, float
        Width and height of the whole [mm].
    tuple of Drawn
        Heading, the drawings, measuring bars.
    """
    boxes = [_Box(cell) for cell in cells]
    around = 2 * MARGIN + BAR_ROOM
    longest = max((one.width for one in boxes), default=0.0)
    for width in WIDTHS:
        rows = _rows(boxes, max(width - around, longest))
        inner = sum(row.height for row in rows) + GAP * max(len(rows) - 1, 0)
        if inner <= max(width - around, longest):
            break
    top_room = HEADING_STEP * len(heading) + (GAP if heading else 0.0)
    width = max(width, longest + around)
    height = max(inner + top_room, BAR) + 2 * MARGIN + BAR_ROOM
    made = [_heading(heading, width - around, height)] if heading else []
    top = height - MARGIN - top_room
    for row in rows:
        made += [one.put(MARGIN + BAR_ROOM + x, top - down) for one, x, down in row.places]
        top -= row.height + GAP
    return width, height, (*made, _bars())


@dataclass
class _Row:
    """A row under way: its places from the left and from its upper edge, and its last column."""

    places: list[tuple[_Box, float, float]] = field(default_factory=list)
    height: float = 0.0
    start: float = 0.0
    end: float = 0.0
    down: float = 0.0

    def take(self, one: _Box, width: float) -> bool:
        """Put it under the last one if that leaves the row as it is, else to the right of it if there is room."""
        below = self.down + GAP
        if self.places and below + one.height <= self.height and self.start + one.width <= min(width, self.end * 1.001):
            self.places.append((one, self.start, below))
            self.down = below + one.height
            return True
        start = self.end + GAP if self.places else 0.0
        if self.places and start + one.width > width:
            return False
        self.places.append((one, start, 0.0))
        self.start, self.end, self.down = start, start + one.width, one.height
        self.height = max(self.height, one.height)
        return True

    def level(self) -> None:
        """Bring captions that stand at almost one height to the same."""
        if any(down for _, _, down in self.places):
            return
        talls = [one.tall for one, _, _ in self.places]
        for one, _, _ in self.places:
            one.room = max(tall for tall in talls if tall < one.tall + LEVEL)
        self.height = max(one.room + one.height - one.tall for one, _, _ in self.places)


def _rows(boxes: Iterable[_Box], width: float) -> list[_Row]:
    rows: list[_Row] = []
    for one in boxes:
        if not rows or not rows[-1].take(one, width):
            rows.append(_Row())
            rows[-1].take(one, width)
    for row in rows:
        row.level()
    return rows


class _Box:
    """A cell with the room that it takes: `tall` without its caption, which begins at `room`."""

    def __init__(self, cell: Cell) -> None:
        self._cell = cell
        self._low_x, self._low_y, high_x, self._high_y = box(cell.drawn)
        part_width = high_x - self._low_x
        widest = max(part_width, CAPTION_WIDTH)
        self._caption = [line for text in cell.caption for line in wrapped(text, LETTERS, widest)]
        texts = [text_width(line, LETTERS) for line in self._caption]
        if cell.arrow:
            texts.append(text_width(say(words.LEAST_STRETCH), LETTERS) + 2 + ARROW)
        self.width = max(part_width, *texts)
        self.tall = self.room = self._high_y - self._low_y
        self.height = self.tall + CAPTION_STEP * len(texts) + (BELOW if texts else 0.0)

    def put(self, left: float, top: float) -> Drawn:
        """The drawing with its upper left corner there."""
        base = top - self.room - BELOW - LETTERS * CAPITAL
        labels = []
        for text in self._caption:
            labels.append(Label(text, (left, base), LETTERS))
            base -= CAPTION_STEP
        lines: tuple[Line, ...] = ()
        if self._cell.arrow:
            labels.append(Label(say(words.LEAST_STRETCH), (left, base), LETTERS))
            lines = _arrow((left + text_width(say(words.LEAST_STRETCH), LETTERS) + 2, base + LETTERS * CAPITAL / 2))
        moved = shifted(self._cell.drawn, left - self._low_x, top - self._high_y)
        return replace(moved, lines=(*moved.lines, *lines), labels=(*moved.labels, *labels))


def _arrow(left: Point) -> tuple[Line, ...]:
    """A double arrow along x that begins there."""
    x, y = left
    end = x + ARROW
    return (
        Line(Role.TEXT, ((x, y), (end, y))),
        Line(Role.TEXT, ((x + ARROW_HEAD, y + ARROW_HEAD / 2), (x, y), (x + ARROW_HEAD, y - ARROW_HEAD / 2))),
        Line(Role.TEXT, ((end - ARROW_HEAD, y + ARROW_HEAD / 2), (end, y), (end - ARROW_HEAD, y - ARROW_HEAD / 2))),
    )


def box(drawn: Drawn) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x, greatest y of the outlines and lines of a drawing [mm], labels left out."""
    outlines = [outline.bounds() for outline in drawn.outlines]
    xs = [x for line in drawn.lines for x, _ in line.points] + [x for one in outlines for x in (one[0], one[2])]
    ys = [y for line in drawn.lines for _, y in line.points] + [y for one in outlines for y in (one[1], one[3])]
    return min(xs), min(ys), max(xs), max(ys)


def shifted(drawn: Drawn, dx: float, dy: float) -> Drawn:
    """A drawing moved as a whole by (dx, dy) [mm]."""
    return Drawn(
        drawn.part,
        tuple(outline.moved(dx, dy) for outline in drawn.outlines),
        tuple(replace(line, points=tuple((x + dx, y + dy) for x, y in line.points)) for line in drawn.lines),
        tuple(replace(label, at=(label.at[0] + dx, label.at[1] + dy)) for label in drawn.labels),
    )


def _heading(lines: Sequence[str], width: float, height: float) -> Drawn:
    base = height - MARGIN - HEADING_LETTERS * CAPITAL
    labels = []
    for number, text in enumerate(lines):
        size = HEADING_LETTERS if number == 0 else LETTERS
        labels.append(Label(text, (MARGIN + BAR_ROOM, base - HEADING_STEP * number), size, width=width))
    return Drawn(HEADING, (), (), tuple(labels))


def _bars() -> Drawn:
    """Two bars that meet in the lower left corner, with a tick every 10 mm."""
    lines = [Line(Role.MARK, ((MARGIN, MARGIN + BAR), (MARGIN, MARGIN), (MARGIN + BAR, MARGIN)))]
    for k in range(1, 11):
        tick = 3.0 if k in (5, 10) else 1.5
        at = MARGIN + BAR * k / 10
        lines.append(Line(Role.MARK, ((at, MARGIN), (at, MARGIN + tick))))
        lines.append(Line(Role.MARK, ((MARGIN, at), (MARGIN + tick, at))))
    text = f"{BAR:.0f} mm"
    labels = (
        Label(text, (MARGIN + BAR + 2, MARGIN), LETTERS),
        Label(text, (MARGIN + LETTERS * CAPITAL, MARGIN + BAR + 2), LETTERS, angle=90),
    )
    return Drawn(SCALE, (), tuple(lines), labels)

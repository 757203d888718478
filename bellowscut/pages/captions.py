"""What is written on a part or beside it: name, count, size, material, place, grain.

Lettering goes inside the part where it touches neither edge nor line;
otherwise under the part, or beside it on a ledge that leads to it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bellowscut.drawing import Item, Label, Pen, Stroke
from bellowscut.layout.openings import Place, box_edges, edges, opening
from bellowscut.layout.tiles import Segment
from bellowscut.lettering import CAPITAL, DESCENT, text_width, wrapped
from bellowscut.pages.arrows import BARB, BARE, LETTERS, arrow, arrow_size, arrow_text, bare_arrow, readable
from bellowscut.pages.piece_names import DOT
from bellowscut.pages.views import View, amount, face, places, size_words
from bellowscut.shapes import Point, bounds
from bellowscut.words import say, sheets as words

CLEAR = 1.3
"""Least distance of lettering from edges and lines [mm]."""

NAME, COUNT, PLAIN = 4.2, 3.2, 2.7
"""Letters of a part's name, of its count and of the rest [mm]."""

COLUMN = 56.0
"""Greatest width of a caption beside a part [mm]."""

APART = 3.0
"""Distance of a caption from its part [mm]."""

LEADING = 1.32

TAGS = (2.6, 2.2, 1.8, 1.5)
"""Letters of the name of one of many pieces [mm]."""

CLEAR_LEVEL, CLEAR_SLOPING = 0.3, 0.2
"""Least distance of such a name from edges and lines, level or upright and along an edge [-] of its letters' height."""

NOTE_WIDTH = 62.0
"""Width to which a part's note is broken [mm]."""


@dataclass(frozen=True)
class Row:
    """One line of a caption: its text, size [mm] and weight."""

    text: str
    height: float
    bold: bool = False

    @property
    def width(self) -> float:
        """How wide it is [mm]."""
        return text_width(self.text, self.height, bold=self.bold)


def captions(view: View) -> list[tuple[Row, ...]]:
    """Ways to write the same, from the roomiest to the shortest."""
    part, name = view.part, view.name
    if not view.outlines:
        named = say(words.SCORE_NAMED, name=name)
        return [(Row(name, NAME, bold=True), Row(say(words.SCORE_HERE), COUNT)), (Row(named, PLAIN, bold=True),)]
    where = "" if "," in part.name else places(part)
    count, size = amount(part), size_words(view)
    rest = [text for text in (face(part), where) if text]
    joined = DOT.join(rest)
    tail = [Row(text, PLAIN) for text in wrapped(part.note, PLAIN, NOTE_WIDTH)]
    head, _, which = name.partition(", ")
    names = [Row(head, NAME, bold=True), *([Row(which, COUNT, bold=True)] if which else [])]
    return [
        (*names, Row(count, COUNT), *(Row(text, PLAIN) for text in (size, *rest)), *tail),
        (*names, Row(f"{count}{DOT}{size}", COUNT), *(Row(text, PLAIN) for text in rest), *tail),
        (Row(name, NAME, bold=True), Row(f"{count}{DOT}{size}", COUNT), Row(joined, PLAIN), *tail),
        (Row(name, 3.6, bold=True), Row(f"{count}{DOT}{size}", 2.9), *(Row(text, 2.45) for text in rest), *tail),
        (Row(f"{name}{DOT}{count}", 3.4, bold=True), Row(f"{size}{DOT}{joined}", PLAIN), *tail),
        (Row(f"{name}{DOT}{count}", 2.9, bold=True), Row(joined, 2.45), *tail),
        (Row(f"{name}{DOT}{count}{DOT}{joined}", PLAIN), *tail),
        (Row(f"{name}{DOT}{count}{DOT}{joined}", 2.4), *tail),
    ]


def block_size(rows: Sequence[Row]) -> tuple[float, float]:
    """Width and height of a caption [mm], from the capitals of its first line to the descent of its last."""
    height = rows[0].height * CAPITAL + sum(row.height * LEADING for row in rows[1:]) + rows[-1].height * DESCENT
    return max(row.width for row in rows), height


# inside ---------------------------------------------------------------


def inside_caption(view: View, within: Sequence[Point] | None = None) -> list[Item] | None:
    """Caption and arrow written inside a part, where there is room for both.

    Parameters
    ----------
    view : View
        As it lies on the sheet.
    within : sequence of Point, optional
        The piece of the part that may be written on, where a sheet shows only a piece of it [mm].

    Returns
    -------
    list of items or None
        None when there is no room.
    """
    points, lines = within or view.rough, view.segments()
    sign, grain = arrow_size(view.part), readable(view.grain)
    ways = captions(view)
    if not view.outlines:
        tries = ((rows, opening(points, lines, *block_size(rows), CLEAR, angle)) for rows in ways for angle in (0.0, 90.0))
        return next((_rows_at(rows, place) for rows, place in tries if place is not None), None)
    for rows in ways[:4]:
        both = _together(points, lines, block_size(rows), sign, grain)
        if both is not None:
            return [*_rows_at(rows, both[0]), *arrow(view.part, both[1])]
    for rows in ways:
        for angle in (0.0, 90.0):
            both = _apart(points, lines, block_size(rows), sign, angle, grain)
            if both is not None:
                return [*_rows_at(rows, both[0]), *arrow(view.part, both[1])]
    return None


def _together(
    points: Sequence[Point], lines: Sequence[Segment], block: tuple[float, float], sign: tuple[float, float], angle: float
) -> tuple[Place, Place] | None:
    """Lettering with the arrow right under it, as one block in the middle."""
    height = block[1] + 2.2 + sign[1]
    place = opening(points, lines, max(block[0], sign[0]), height, CLEAR, angle)
    if place is None:
        return None
    above, below = place.point(0.0, (height - block[1]) / 2), place.point(0.0, -(height - sign[1]) / 2)
    return Place(above, angle), Place(below, angle)


def _apart(
    points: Sequence[Point], lines: Sequence[Segment], block: tuple[float, float], sign: tuple[float, float], angle: float, grain: float
) -> tuple[Place, Place] | None:
    """Lettering in one place and the arrow in another."""
    place = opening(points, lines, *block, CLEAR, angle)
    if place is None:
        return None
    other = opening(points, [*lines, *box_edges(place, *block)], *sign, CLEAR, grain)
    return None if other is None else (place, other)


def _rows_at(rows: Sequence[Row], place: Place) -> list[Item]:
    """The rows of a caption, each in the middle of a box."""
    _, height = block_size(rows)
    y = height / 2 - rows[0].height * CAPITAL
    items: list[Item] = []
    for k, row in enumerate(rows):
        if k:
            y -= row.height * LEADING
        items.append(Label(row.text, place.point(0.0, y), row.height, place.angle, "middle", row.bold))
    return items


def tag(view: View, ways: Sequence[Sequence[str]], within: Sequence[Point] | None = None) -> list[Item]:
    """A short name and an arrow inside one of many pieces, clear of its lines wherever that can be.

    Level or upright letters come first, then letters along the piece's longest edge, then each row in a place of its own.

    Parameters
    ----------
    view : View
        As it lies on the sheet.
    ways : sequence of sequence of str
        Ways to write the name in rows, the fullest first.
    within : sequence of Point, optional
        The piece of the part that may be written on, where a sheet shows only a piece of it [mm]; left blank when nothing fits.
    """
    points, lines = within or view.rough, view.segments()
    first: tuple[list[Item], list[Segment]] | None = None
    for items, taken in _letterings(points, lines, ways):
        sign = _small_arrow(view, points, [*lines, *taken])
        if sign:
            return items + sign
        first = first or (items, taken)
    if within is not None:
        return first[0] if first else []
    if first is None:
        first = next(_letterings(points, (), ways), None)
    if first is not None:
        return first[0] + _small_arrow(view, points, first[1])
    left, low, right, high = bounds(view.points)
    return [Label(DOT.join(ways[-1]), ((left + right) / 2, (low + high) / 2), 1.8, 0.0, "middle", width=right - left)]


def _letterings(
    points: Sequence[Point], lines: Sequence[Segment], ways: Sequence[Sequence[str]]
) -> Iterator[tuple[list[Item], list[Segment]]]:
    """Places for a name, each with the ground that it takes, the best first."""
    slopes = _slopes(points)
    # A kind of two words is taken apart only where nothing else finds room: apart, its words are read in the wrong order.
    whole, parted = ([way for way in ways if (len(way) > 2) is apart] for apart in (False, True))
    for kept in (whole, parted):
        for height in TAGS:
            level, along = CLEAR_LEVEL * height, CLEAR_SLOPING * height
            angles = ((0.0, level), (90.0, level), *((slope, along) for slope in slopes))
            for texts in ways if kept is whole else ():
                rows = [Row(text, height) for text in texts]
                for angle, clear in angles:
                    place = opening(points, lines, *block_size(rows), clear, angle)
                    if place is not None:
                        yield _rows_at(rows, place), _ground(rows, place)
            for texts in (way for way in kept if len(way) > 1):
                items: list[Item] = []
                taken: list[Segment] = []
                for text in texts:
                    rows = [Row(text, height)]
                    places = (opening(points, [*lines, *taken], *block_size(rows), clear, angle) for angle, clear in angles)
                    place = next((place for place in places if place is not None), None)
                    if place is None:
                        break
                    items += _rows_at(rows, place)
                    taken += _ground(rows, place)
                else:
                    yield items, taken


def _ground(rows: Sequence[Row], place: Place) -> list[Segment]:
    width, height = block_size(rows)
    return box_edges(place, width + 1.0, height + 1.0)


def _small_arrow(view: View, points: Sequence[Point], lines: Sequence[Segment]) -> list[Item]:
    """An arrow without words where it touches none of some lines; nothing where there is no room."""
    for length in (9.0, BARE, 5.0, 4.0):
        sign = opening(points, lines, length, 2 * BARB * min(1.0, length / BARE), 0.6, readable(view.grain))
        if sign is not None:
            return bare_arrow(sign, length)
    return []


def _slopes(points: Sequence[Point]) -> tuple[float, ...]:
    """Directions of a polygon's longest edge and of its mirror image, to be read [deg]."""
    (ax, ay), (bx, by) = max(edges(points, closed=True), key=lambda edge: round(math.dist(*edge), 6))
    slope = readable(math.degrees(math.atan2(by - ay, bx - ax)))
    return (slope, -slope) if slope % 90 else ()


# beside ---------------------------------------------------------------


def beside_caption(view: View, room: tuple[float, float]) -> tuple[list[Item], tuple[Point, ...]] | None:
    """Caption under a wide part or to the right of a tall one.

    Parameters
    ----------
    view : View
        In the turn in which it will lie.
    room : tuple of float
        Width and height of the area that part and caption share [mm].

    Returns
    -------
    list of items, tuple of Point
        The caption, and the box of part and caption together [mm]; or None
        when they do not fit.
    """
    width, height = view.size
    tall = height > 1.2 * width
    for to_the_right in (tall, not tall):
        items, box = _right(view) if to_the_right else _under(view)
        if box[2] - box[0] <= room[0] and box[3] - box[1] <= room[1]:
            x, y, u, v = box
            return items, ((x, y), (u, y), (u, v), (x, v))
    return None


def _broken(rows: Sequence[Row], width: float) -> list[Row]:
    return [replace(row, text=line) for row in rows for line in wrapped(row.text, row.height, width, bold=row.bold)]


def _right(view: View) -> tuple[list[Item], tuple[float, float, float, float]]:
    left, low, right, high = bounds(view.points)
    rows = _broken(captions(view)[0], COLUMN)
    wide, tall = _sign_size(view)
    width, height = block_size(rows)
    width = max(width, wide)
    top = (low + high) / 2 + (height + (tall + 3.0 if tall else 0.0)) / 2
    x, y = right + APART + 2.0, top - rows[0].height * CAPITAL
    last_name = max(k for k, row in enumerate(rows) if row.bold)
    items: list[Item] = []
    for k, row in enumerate(rows):
        if k:
            y -= row.height * LEADING + (1.2 if k == last_name + 1 else 0.0)
        items.append(Label(row.text, (x, y), row.height, bold=row.bold))
        if k == last_name:
            ledge = y - 1.5
            items.append(Stroke(((_edge_at(view.points, ledge) + 0.8, ledge), (x + width, ledge)), Pen.THIN))
    bottom = y - rows[-1].height * DESCENT
    if tall:
        items += _sign(view, x, bottom - 2.6)
        bottom -= 2.6 + tall
    word, over, under = _frame_word(view)
    return items + word, (left, min(low - under, bottom), x + width, max(high + over, top))


def _under(view: View) -> tuple[list[Item], tuple[float, float, float, float]]:
    left, low, right, high = bounds(view.points)
    most = max(right - left, COLUMN)
    ways = captions(view)[2:0:-1]
    rows = _broken(next((way for way in ways if block_size(way)[0] <= most), ways[-1]), most)
    wide, tall = _sign_size(view)
    y = low - APART - rows[0].height * CAPITAL + 0.6
    width = 0.0
    items: list[Item] = []
    for k, row in enumerate(rows):
        if k:
            y -= row.height * LEADING
        items.append(Label(row.text, (left, y), row.height, bold=row.bold))
        width = max(width, row.width)
    bottom = y - rows[-1].height * DESCENT
    if tall:
        if left + rows[0].width + 6.0 + wide <= right and tall < 4.0:
            items += _sign(view, right - wide, low - APART + 0.6)
        else:
            items += _sign(view, left, bottom - 1.8)
            bottom -= 1.8 + tall
            width = max(width, wide)
    return items, (left, bottom, max(right, left + width), high)


def _frame_word(view: View) -> tuple[list[Item], float, float]:
    """Says which tip of an end gusset, or which edge of a half gusset, lies on the frame; room over and under it [mm]."""
    left, low, right, high = bounds(view.points)
    if view.turn or view.part.kind not in ("end-gusset", "half-gusset"):
        return [], 0.0, 0.0
    over = view.part.kind == "end-gusset"
    y = high + 1.2 if over else low - 1.2 - PLAIN * CAPITAL
    return [Label(say(words.FRAME), ((left + right) / 2, y), PLAIN, anchor="middle")], 3.6 * over, 3.6 * (not over)


def _sign_size(view: View) -> tuple[float, float]:
    """Width and height of the arrow in a caption [mm], both 0 where there is none."""
    if not view.outlines:
        return 0.0, 0.0
    if readable(view.grain) == 0.0:
        return arrow_size(view.part)
    return 4.0 + text_width(arrow_text(view.part), LETTERS), 11.0


def _sign(view: View, left: float, top: float) -> list[Item]:
    """The arrow in a caption, its upper left corner given."""
    wide, tall = arrow_size(view.part)
    grain = readable(view.grain)
    if grain == 0.0:
        return arrow(view.part, Place((left + wide / 2, top - tall / 2), 0.0))
    items = bare_arrow(Place((left + 1.2, top - 5.5), grain), 11.0)
    items.append(Label(arrow_text(view.part), (left + 4.0, top - 5.5 - LETTERS * CAPITAL / 2), LETTERS))
    return items


def _edge_at(points: Sequence[Point], y: float) -> float:
    """Right edge of a polygon at a height, or its rightmost point where it does not reach there [mm]."""
    found = []
    for i, (bx, by) in enumerate(points):
        ax, ay = points[i - 1]
        if (ay > y) != (by > y):
            found.append(ax + (bx - ax) * (y - ay) / (by - ay))
    return max(found, default=max(p[0] for p in points))

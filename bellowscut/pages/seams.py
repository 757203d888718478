"""What is drawn where two sheets meet: the line of the cut, the strip for the glue, join marks, and words for both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.layout.openings import Place, box_edges
from bellowscut.layout.tiles import OVERLAP, Join, Seam, Segment, crosses, distances
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.shapes import Point
from bellowscut.words import say, sheets as words

LETTER = 3.4
"""Letters of the join marks [mm]."""

SMALL = 2.4
"""Letters of the words along a seam [mm]."""

HALF = OVERLAP / 2

MARK, HAIR = 2.2, 3.4
"""Half width of a join mark, and how far its hair lines run from its middle [mm]."""

SCISSORS = 6.4
"""Length of the scissors [mm]."""

CLEAR = 0.9
"""Distance of words from lines [mm]."""


@dataclass(frozen=True)
class Side:
    """A seam as one of its two sheets shows it.

    Parameters
    ----------
    seam : Seam
        The seam, moved to where it lies on the sheet.
    over : bool
        Whether this sheet is cut and lies over the other.
    other : int
        Number of the other sheet [-].
    """

    seam: Seam
    over: bool
    other: int


def seam_ground(side: Side) -> list[Item]:
    """What lies under the parts: the grey strip that takes the glue; nothing on the sheet that is cut."""
    if side.over:
        return []
    start, end = side.seam.start, side.seam.end
    if side.seam.upright:
        corners = ((start[0] - HALF, start[1]), start, end, (end[0] - HALF, end[1]))
    else:
        corners = (start, end, (end[0], end[1] + HALF), (start[0], start[1] + HALF))
    return [Stroke(corners, Pen.THIN, closed=True, fill=Tint.CARD)]


def seam_items(side: Side, lines: Sequence[Segment], others: Sequence[Join]) -> list[Item]:
    """What lies over the parts: line, marks and words.

    Parameters
    ----------
    side : Side
        The seam.
    lines : sequence of Segment
        Everything drawn that words keep clear of [mm].
    others : sequence of Join
        Marks of all seams of the sheet.
    """
    items: list[Item] = [Stroke((side.seam.start, side.seam.end), Pen.DASHED if side.over else Pen.THIN)]
    items += _words(side, lines, others)
    for join in side.seam.joins:
        items += _mark(join, side, lines)
    return items


# marks ----------------------------------------------------------------


def _mark(join: Join, side: Side, lines: Sequence[Segment]) -> list[Item]:
    """A diamond, two of its quarters inked, with hair lines that run out of it; its letter stands on the half that stays in sight."""
    x, y = join.at
    wide, tall = text_width(join.letter, LETTER, bold=True), LETTER * CAPITAL
    above, below, right, left = 1.7, -1.7 - tall, 1.8, -1.8 - wide
    if side.seam.upright:
        corners = [(x + (left if side.over else right), y + up) for up in (above, below)]
    else:
        corners = [(x + across, y + (above if side.over else below)) for across in (right, left)]
    # Beyond 3 mm off every line the first corner is as good as any.
    clear = [min(3.0, off) for off in distances([(x0 + wide / 2, y0 + tall / 2) for x0, y0 in corners], lines)]
    start = corners[clear.index(max(clear))]
    return [
        Stroke(((x - MARK, y), (x, y - MARK), (x + MARK, y), (x, y + MARK)), Pen.THIN, closed=True, fill=Tint.WHITE),
        Stroke(((x - MARK, y), (x, y), (x, y + MARK)), Pen.THIN, closed=True, fill=Tint.INK),
        Stroke(((x, y), (x, y - MARK), (x + MARK, y)), Pen.THIN, closed=True, fill=Tint.INK),
        Stroke(((x - HAIR, y), (x + HAIR, y)), Pen.THIN),
        Stroke(((x, y - HAIR), (x, y + HAIR)), Pen.THIN),
        Label(join.letter, start, LETTER, bold=True),
    ]


# words ----------------------------------------------------------------


def _words(side: Side, lines: Sequence[Segment], others: Sequence[Join]) -> list[Item]:
    """Words, on the half that will not be seen if there is room, and scissors on the line of a cut, where they touch nothing."""
    ways = (words.CUT_HERE, words.CUT_HERE_SHORT, words.CUT_HERE_SHORTEST) if side.over else (words.LAY_HERE, words.LAY_HERE_SHORT)
    texts = [say(way, number=side.other) for way in ways]
    unseen = -HALF / 2 if side.over else HALF / 2
    for off in (unseen, -unseen):
        for text in texts:
            spot = _spot(text, off, sign=side.over)
            at = _free(side, spot, lines, others)
            if at is not None:
                return _lettered(side, text, at, spot)
    if not side.over:
        return []
    # Where there is no room for both together, scissors and words look for it apart.
    items: list[Item] = []
    sign = _free(side, _Spot(SCISSORS, 0.0, 0.0, sign=True), lines, others)
    if sign is not None:
        place, _ = _frame(side)
        items += _scissors(Place(place.point(sign, 0.0), place.angle))
        lines = [*lines, *box_edges(Place(place.point(sign + SCISSORS / 2, 0.0), place.angle), SCISSORS + 1.0, 4.4)]
    for off in (unseen, -unseen):
        for text in texts:
            spot = _spot(text, off, sign=False)
            at = _free(side, spot, lines, others)
            if at is not None:
                return [*items, *_lettered(side, text, at, spot)]
    return items


@dataclass(frozen=True)
class _Spot:
    """What is to be set along a seam: its length, where words start in it and how far off the seam [mm], and whether scissors come first."""

    length: float
    start: float
    off: float
    sign: bool


def _spot(text: str, off: float, *, sign: bool) -> _Spot:
    start = SCISSORS + 1.5 if sign else 0.0
    return _Spot(start + text_width(text, SMALL), start, off, sign)


def _frame(side: Side) -> tuple[Place, float]:
    """The seam's own axes, along it and to the left or up from it: a place at its start, and its length [mm]."""
    start, end = side.seam.start, side.seam.end
    return Place(start, 90.0 if side.seam.upright else 0.0), end[1] - start[1] if side.seam.upright else end[0] - start[0]


def _free(side: Side, spot: _Spot, lines: Sequence[Segment], others: Sequence[Join]) -> float | None:
    """Where along the seam something may start, as near to its middle as can be [mm]; None when there is no room."""
    frame, length = _frame(side)
    tall = SMALL * CAPITAL / 2 + CLEAR
    ends = (OVERLAP if any(join not in side.seam.joins for join in others) else 0.0) + 1.0
    first, last = ends, length - ends - spot.length
    if last < first:
        return None
    steps = max(1, int((last - first) / 1.5))
    places = [first + (last - first) * k / steps for k in range(steps + 1)]
    for at in sorted(places, key=lambda at: abs(at + spot.length / 2 - length / 2)):
        boxes = []
        if spot.length > spot.start and spot.off:
            boxes.append(_box(frame, at + spot.start - CLEAR, at + spot.length + CLEAR, spot.off - tall, spot.off + tall))
        if spot.sign:
            boxes.append(_box(frame, at - CLEAR, at + SCISSORS + CLEAR, -2.2 - CLEAR, 2.2 + CLEAR))
        if not any(crosses(*line, *box) for box in boxes for line in lines) and not any(
            _near(join, box) for box in boxes for join in others
        ):
            return at
    return None


def _box(frame: Place, start: float, end: float, low: float, high: float) -> tuple[Point, Point]:
    """A box in a seam's axes as a box of the sheet [mm]."""
    one, other = frame.point(start, low), frame.point(end, high)
    return (min(one[0], other[0]), min(one[1], other[1])), (max(one[0], other[0]), max(one[1], other[1]))


def _near(join: Join, box: tuple[Point, Point]) -> bool:
    """Whether a mark with its letter comes into a box."""
    (left, low), (right, high) = box
    return left - HALF < join.at[0] < right + HALF and low - HALF < join.at[1] < high + HALF


def _lettered(side: Side, text: str, at: float, spot: _Spot) -> list[Item]:
    frame, _ = _frame(side)
    items = _scissors(Place(frame.point(at, 0.0), frame.angle)) if spot.sign else []
    return [*items, Label(text, frame.point(at + spot.start, spot.off - SMALL * CAPITAL / 2), SMALL, frame.angle)]


def _scissors(frame: Place) -> list[Item]:
    """Scissors that open towards the end of a line: two rings, two blades [mm]."""
    items: list[Item] = []
    for way in (1.0, -1.0):
        ring = [(0.95 + 0.95 * c, way * (1.15 + 0.75 * s)) for c, s in _CIRCLE]
        blade = ((1.7, way * 0.72), (2.9, way * 0.28), (SCISSORS, way * -1.0), (3.3, way * -0.35))
        items.append(Stroke(tuple(frame.point(*point) for point in ring), Pen.SOLID, closed=True, fill=Tint.WHITE))
        items.append(Stroke(tuple(frame.point(*point) for point in blade), Pen.THIN, closed=True, fill=Tint.INK))
    return items


_CIRCLE = (
    (1.0, 0.0),
    (0.866, 0.5),
    (0.5, 0.866),
    (0.0, 1.0),
    (-0.5, 0.866),
    (-0.866, 0.5),
    (-1.0, 0.0),
    (-0.866, -0.5),
    (-0.5, -0.866),
    (0.0, -1.0),
    (0.5, -0.866),
    (0.866, -0.5),
)
"""Twelve points round a circle [-]."""

"""Small pictures of sheets that are to be joined: which goes where, what lies on them, which marks they share."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.layout.openings import Place, box_edges, edges, opening
from bellowscut.layout.tiles import Segment, Tiling, crosses, distances
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.posters import Placed, Poster
from bellowscut.shapes import Point, bounds

BADGE = 3.4
"""Half width of the disc that carries a sheet's number [mm]."""

NUMBER = 3.8
"""Letters of a sheet's number [mm]."""

LETTER = 2.2
"""Letters of join marks [mm]."""

DIAMOND = 0.9
"""Half width of a join mark [mm]."""

NAMES = (2.6, 2.2, 1.9)
"""Letters of parts' names, the largest that fits [mm]."""


_Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Picture:
    """A picture and what it takes.

    Parameters
    ----------
    items : tuple of items
        Lower left corner at the origin [mm].
    width, height : float
        Of the whole [mm].
    scale : int
        How many times smaller than the sheets it is [-].
    """

    items: tuple[Item, ...]
    width: float
    height: float
    scale: int


def cells(plan: Tiling) -> list[tuple[float, float, float, float]]:
    """What remains in sight of each sheet when all are joined: left, low, right, high [mm]."""
    found = [[*tile.low, *tile.high] for tile in plan.tiles]
    for seam in plan.seams:
        if seam.upright:
            found[seam.over][2] = found[seam.under][0] = seam.start[0]
        else:
            found[seam.over][1] = found[seam.under][3] = seam.start[1]
    return [(left, low, right, high) for left, low, right, high in found]


def joined_size(plan: Tiling) -> tuple[float, float]:
    """Width and height of the sheets' areas when joined [mm]."""
    left, low, right, high = bounds([corner for tile in plan.tiles for corner in (tile.low, tile.high)])
    return right - left, high - low


def sheet_picture(poster: Poster, first: int, room: tuple[float, float]) -> Picture:
    """Draw a joined area small.

    Parameters
    ----------
    poster : Poster
        What lies on it and where it is divided.
    first : int
        Number of its first sheet [-].
    room : tuple of float
        Greatest width and height [mm].
    """
    plan = poster.plan
    x0, y0, _, _ = bounds([corner for tile in plan.tiles for corner in (tile.low, tile.high)])
    wide, tall = joined_size(plan)
    scale = math.ceil(max(wide / room[0], tall / room[1]))

    def small(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple(((x - x0) / scale, (y - y0) / scale) for x, y in points)

    items: list[Item] = []
    grounds = [small(((left, low), (right, low), (right, high), (left, high))) for left, low, right, high in cells(plan)]
    items += [Stroke(ground, Pen.SOLID, closed=True, fill=Tint.WHITE) for ground in grounds]
    outlines = [small(one.view.rough) for one in poster.placed]
    items += [Stroke(points, Pen.THIN, closed=True, fill=Tint.PAPER) for points in outlines]
    seams = [small((seam.start, seam.end)) for seam in plan.seams]
    items += [Stroke(points, Pen.DASHED) for points in seams]
    lines = [pair for points in outlines for pair in edges(points, closed=True)]
    taken: list[Segment] = [pair for points in seams for pair in edges(points, closed=False)]
    marks = small([join.at for join in plan.joins])
    letters: list[_Box] = [(x - DIAMOND, y - DIAMOND, x + DIAMOND, y + DIAMOND) for x, y in marks]
    for k, ground in enumerate(grounds):
        x, y = _badge_place(ground, [*lines, *taken, *(edge for box in letters for edge in _edges_of(box))])
        items += _badge((x, y), str(first + k))
        letters.append((x - BADGE, y - BADGE, x + BADGE, y + BADGE))
    frame = (0.0, 0.0, wide / scale, tall / scale)
    for at, join in zip(marks, plan.joins, strict=True):
        items += _mark(at, join.letter, lines, letters, [(start, end) for start, end in seams], frame)
    taken += [edge for box in letters for edge in _edges_of(box)]
    for one, points in zip(poster.placed, outlines, strict=True):
        items += _name(one, points, taken)
    return Picture(tuple(items), wide / scale, tall / scale, scale)


def _mark(at: Point, letter: str, lines: Sequence[Segment], taken: list[_Box], seams: Sequence[Segment], frame: _Box) -> list[Item]:
    """A small mark with its letter, where it stands clearest; without it where others leave no room. The letter's box joins `taken`."""
    x, y = at
    diamond = ((x - DIAMOND, y), (x, y - DIAMOND), (x + DIAMOND, y), (x, y + DIAMOND))
    items: list[Item] = [Stroke(diamond, Pen.THIN, closed=True, fill=Tint.INK)]
    wide, tall = text_width(letter, LETTER, bold=True), LETTER * CAPITAL
    spots = [(x + dx, y + dy) for dx in (-1.2 - wide, 1.2) for dy in (0.6, -0.6 - tall)]
    spots += [(x - wide / 2, y + 1.4), (x - wide / 2, y - 1.4 - tall)]
    boxes = [(left, low, left + wide, low + tall) for left, low in spots]
    free = [
        box
        for box in boxes
        if _inside(box, frame)
        and not any(_meet(box, other) for other in taken)
        and not any(crosses(*seam, box[:2], box[2:]) for seam in seams)
    ]
    if free:
        clear = distances([((box[0] + box[2]) / 2, (box[1] + box[3]) / 2) for box in free], lines)
        best = free[max(range(len(free)), key=lambda k: min(2.0, clear[k]))]
        taken.append(best)
        items.append(Label(letter, best[:2], LETTER, bold=True))
    return items


def _edges_of(box: _Box) -> list[Segment]:
    return box_edges(Place(((box[0] + box[2]) / 2, (box[1] + box[3]) / 2), 0.0), box[2] - box[0], box[3] - box[1])


def _meet(one: _Box, other: _Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _inside(box: _Box, frame: _Box) -> bool:
    return box[0] > frame[0] + 0.3 and box[1] > frame[1] + 0.3 and box[2] < frame[2] - 0.3 and box[3] < frame[3] - 0.3


def _badge_place(box: Sequence[Point], lines: Sequence[Segment]) -> Point:
    """The place for a sheet's number nearest to the middle of the sheet that touches no line; else the clearest."""
    left, low, right, high = bounds(box)
    middle = ((left + right) / 2, (low + high) / 2)
    steps = 16
    across, up = right - left - 2 * BADGE - 1.0, high - low - 2 * BADGE - 1.0
    places = [
        (left + BADGE + 0.5 + across * i / steps, low + BADGE + 0.5 + up * k / steps) for i in range(steps + 1) for k in range(steps + 1)
    ]
    clear = dict(zip(places, distances(places, lines), strict=True))
    free = [place for place in places if clear[place] > BADGE + 0.5]
    if free:
        return min(free, key=lambda at: (round(math.dist(at, middle), 3), at))
    return max(places, key=lambda at: (round(clear[at], 3), at))


def _badge(at: Point, text: str) -> list[Item]:
    ring = tuple((at[0] + BADGE * math.cos(k * math.pi / 16), at[1] + BADGE * math.sin(k * math.pi / 16)) for k in range(32))
    label = Label(text, (at[0], at[1] - NUMBER * CAPITAL / 2), NUMBER, anchor="middle", bold=True, width=2 * BADGE - 0.8)
    return [Stroke(ring, Pen.SOLID, closed=True, fill=Tint.WHITE), label]


def _name(one: Placed, points: Sequence[Point], taken: Sequence[Segment]) -> list[Item]:
    """The name of a part, where its outline has room for it."""
    head, _, rest = one.view.name.partition(", ")
    for text in dict.fromkeys((one.view.name, rest or head)):
        for height in NAMES:
            for angle in (0.0, 90.0):
                place = opening(points, taken, text_width(text, height), height * CAPITAL, 1.2, angle)
                if place is not None:
                    return [Label(text, place.point(0.0, -height * CAPITAL / 2), height, angle, "middle")]
    return []

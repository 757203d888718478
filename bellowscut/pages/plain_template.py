"""Templates of small leather parts, with as much engraved on them as finds room."""

from __future__ import annotations

import math
from collections.abc import Sequence

from bellowscut.drawing import Drawn, Label, Line, Role
from bellowscut.layout.apart import Cell
from bellowscut.layout.openings import box_edges, edges, opening
from bellowscut.layout.tiles import Segment
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.template_base import CLEAR, HOLE, RIM, STEP, face_of, hole_at, name_of, use_of
from bellowscut.parts.part import Part
from bellowscut.shapes import Point, bounds, toward
from bellowscut.words import say, templates as words

LETTERS = (3.0, 2.5, 2.0, 1.6, 1.4)
"""Sizes of engraved letters that are tried in turn [mm]."""

END = 3.0
"""How much of each end of a line is engraved at most; the rest would be in the way of the lettering [mm]."""


def plain_template(part: Part, told: str = "") -> Cell:
    """Outline, ends of lines, a hole and a name, where they find room.

    Parameters
    ----------
    part : Part
        Any part.
    told : str
        One more line for the caption.

    Returns
    -------
    Cell
        Ready to be laid apart.
    """
    shape = part.points
    left, low, right, high = bounds(shape)
    ends = [end for line in part.lines for pair in edges(line.points, closed=line.closed) for end in _ends(*pair)]
    size = 2 * HOLE
    place = opening(shape, ends, size, size, RIM)
    if place is None:
        # The hole comes first: an end of a line that it would meet is left out.
        place = opening(shape, (), size, size, RIM)
        ends = [end for end in ends if place is None or min(math.dist(point, place.centre) for point in end) > HOLE + CLEAR / 2]
    taken = [*ends, *(box_edges(place, size + 2 * CLEAR, size + 2 * CLEAR) if place else ())]
    texts = (name_of(part), say(words.SIZE, width=f"{right - left:.1f}", height=f"{high - low:.1f}"), face_of(part))
    labels = _lettered(shape, taken, texts) or _scattered(shape, taken, texts)
    holes = (*part.holes, *((hole_at(place.centre),) if place else ()))
    caption = (part.name, use_of(part), *((told,) if told else ()), *(() if place else (say(words.NO_HOLE),)))
    lines = tuple(Line(Role.MARK, pair) for pair in ends)
    return Cell(Drawn(part.id, (part.outline, *holes), lines, labels), caption, arrow=True)


def _ends(start: Point, end: Point) -> tuple[Segment, ...]:
    """The two ends of a line, from which it is ruled on the leather."""
    reach = min(END, math.dist(start, end) / 8)
    return (start, toward(start, end, reach)), (toward(end, start, reach), end)


def _lettered(shape: Sequence[Point], taken: Sequence[Segment], texts: Sequence[str]) -> tuple[Label, ...]:
    """Lines of text in the largest letters that fit, level or upright; nothing where none do."""
    for size in LETTERS:
        width = max(text_width(text, size) for text in texts)
        block = size * STEP * (len(texts) - 1) + size * CAPITAL
        for angle in (0.0, 90.0):
            place = opening(shape, taken, width, block, CLEAR, angle)
            if place is not None:
                top = block / 2 - size * CAPITAL
                return tuple(
                    Label(text, place.point(-width / 2, top - size * STEP * number), size, angle=angle) for number, text in enumerate(texts)
                )
    return ()


def _scattered(shape: Sequence[Point], taken: Sequence[Segment], texts: Sequence[str]) -> tuple[Label, ...]:
    """Each line of text where it finds room of its own; what finds none stands in the caption all the same."""
    found: list[Label] = []
    for text in texts:
        height = CAPITAL * LETTERS[-1]
        width = text_width(text, LETTERS[-1])
        place = opening(shape, taken, width, height, CLEAR) or opening(shape, taken, width, height, CLEAR, 90.0)
        if place is not None:
            found.append(Label(text, place.point(-width / 2, -height / 2), LETTERS[-1], angle=place.angle))
            taken = [*taken, *box_edges(place, width, height)]
    return tuple(found)

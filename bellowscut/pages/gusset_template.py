"""Templates of gussets: outline, windows for the card edges, and a bar across the valley with hole and name.

The windows are what the laps leave free, so that their long sides are the
edges of the cards. They stop where less than a sound rim would be left.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bellowscut.bellows import Bellows
from bellowscut.drawing import Drawn, Label, Line, Role
from bellowscut.layout.apart import Cell
from bellowscut.layout.openings import edges
from bellowscut.lettering import CAPITAL, text_width, wrapped
from bellowscut.pages.plain_template import plain_template
from bellowscut.pages.template_base import CLEAR, HOLE, RIM, STEP, face_of, hole_at, is_level, name_of, use_of
from bellowscut.parts.gusset import template_window
from bellowscut.parts.part import Part
from bellowscut.shapes import Point, bounds, rounded
from bellowscut.words import say, templates as words

BAR = 10.0
"""Least height of the bar across the valley [mm]."""

WINDOW = 6.0
"""Least width and height of a window that is worth cutting [mm]."""

PENCIL = 1.2
"""Radius of a window's corners [mm]."""

LETTERS = 2.0
"""Size of the letters on the bar [mm]."""

SHRUNK = 0.75
"""Least share of their size to which letters shrink before a line is broken [-]."""

MOST_LINES = 5
"""With more lines of letters there would be nothing else on the template [-]."""

TICK = 0.9
"""Length of the marks at the ends of the valley [mm]."""


def gusset_template(bellows: Bellows, part: Part) -> Cell:
    """The template of one gusset.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    part : Part
        A gusset, end gusset or half gusset.

    Returns
    -------
    Cell
        Ready to be laid apart.
    """
    names = bellows.section.corner_names
    sides = template_window(bellows, bellows.corners[names.index(part.corners[0])], part.kind)
    shape = part.points
    left, low, right, high = bounds(shape)
    texts = (name_of(part), say(words.SIZE, width=f"{right - left:.1f}", height=f"{high - low:.1f}"), face_of(part))
    bar = _bar(shape, low, texts)
    if len(bar.labels) > MOST_LINES:
        ruled = tuple(line for line in part.lines if line.role is not Role.SKIVE and line.points[0][0] != line.points[1][0])
        return plain_template(replace(part, lines=ruled), say(words.EDGES_AS_ENDS))
    openings = [_window(shape, sides, bar, up) for up in ((1,) if part.kind == "half-gusset" else (1, -1))]
    windows = tuple(rounded(points, (PENCIL,) * len(points))[0] for points in openings if points)
    lines = [Line(Role.MARK, line.points) for line in part.lines if line.role is Role.MARK and is_level(line) and line.points[0][1] != 0]
    start, end = _span(shape, 0.0)
    lines += [Line(Role.MARK, ((start, 0.0), (start + TICK, 0.0))), Line(Role.MARK, ((end - TICK, 0.0), (end, 0.0)))]
    if not windows:
        lines += _card_lines(shape, sides, bar)
    holes = (hole_at(bar.hole),) if bar.hole else ()
    told = say(words.PENCIL_THROUGH if windows else words.EDGES_AS_LINES)
    caption = (part.name, use_of(part), told, *(() if holes else (say(words.HANG_BY_WINDOW) if windows else say(words.NO_HOLE),)))
    return Cell(Drawn(part.id, (part.outline, *windows, *holes), tuple(lines), bar.labels), caption, arrow=True)


@dataclass(frozen=True)
class _Bar:
    """The bar across the valley: its lower and upper edge, the hole's middle, and what is written on it."""

    low: float
    high: float
    hole: Point | None
    labels: tuple[Label, ...]


def _bar(shape: Sequence[Point], low: float, texts: Sequence[str]) -> _Bar:
    """Hole to the right, lettering to the left of it; as high as both need."""
    at_hole = max(0.0, low + RIM + HOLE)
    left, right = _span(shape, at_hole - HOLE, at_hole + HOLE)
    hole = (right - RIM - HOLE, at_hole) if right - left >= 2 * (RIM + HOLE) else None
    bottom, top = max(low, -BAR / 2), at_hole + BAR / 2
    # More lines make the bar higher, and a higher bar is narrower at its edges: a few rounds settle it.
    for _ in range(4):
        start, end = _span(shape, max(bottom, low + 0.1), min(top, -bottom + at_hole))
        start, end = start + CLEAR, (end if hole is None else min(end, hole[0] - HOLE)) - CLEAR
        room = max(end - start, 1.0)
        lines = [line for text in texts for line in _broken(text, LETTERS, room)]
        block = LETTERS * STEP * len(lines)
        bottom = max(low, -max(BAR, block + 2 * CLEAR) / 2)
        top = max(at_hole + BAR / 2, bottom + block + 2 * CLEAR)
    base = (bottom + top + block) / 2 - LETTERS * (STEP + CAPITAL) / 2
    labels = tuple(Label(line, (start, base - LETTERS * STEP * number), LETTERS, width=room) for number, line in enumerate(lines))
    return _Bar(bottom, top, hole, labels)


def _broken(text: str, size: float, room: float) -> tuple[str, ...]:
    """A text in lines, but no word of it in pieces: a label shrinks what is a little too wide."""
    return wrapped(text, size, max(room / SHRUNK, *(text_width(word, size) for word in text.split())) + 1e-6)


def _span(shape: Sequence[Point], *levels: float) -> tuple[float, float]:
    """The stretch of x that lies inside a convex outline at each of some heights [mm]."""
    low, high = min(p[0] for p in shape), max(p[0] for p in shape)
    for level in levels:
        crossings = []
        for (ax, ay), (bx, by) in edges(shape, closed=True):
            if min(ay, by) <= level <= max(ay, by):
                crossings += [ax, bx] if ay == by else [ax + (bx - ax) * (level - ay) / (by - ay)]
        if not crossings:
            return 0.0, 0.0
        low, high = max(low, min(crossings)), min(high, max(crossings))
    return low, high


def _depth(shape: Sequence[Point], point: Point) -> float:
    """How far a point lies inside a convex outline [mm], negative outside it."""
    x, y = point
    found = []
    for (ax, ay), (bx, by) in edges(shape, closed=True):
        length = math.dist((ax, ay), (bx, by))
        if length > 1e-9:
            found.append(((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length)
    return min(found)


def _card_edge(sides: Sequence[Point], y: float) -> float:
    """Half width of the opening between the cards at a distance from the valley [mm]."""
    (wide, _), (gap, height) = sides[:2]
    return wide + (gap - wide) * abs(y) / height


def _reaches(shape: Sequence[Point], sides: Sequence[Point], start: float, end: float, rim: float) -> float | None:
    """How far from `start` towards `end` the card's edge keeps `rim` inside the outline [mm]; None when it does not even begin so."""

    def clear(y: float) -> bool:
        return _depth(shape, (_card_edge(sides, y), y)) >= rim - 1e-6

    if not clear(start):
        return None
    if clear(end):
        return end
    # The distance to a convex outline has one hump along a line: one change from clear to not.
    for _ in range(40):
        middle = (start + end) / 2
        start, end = (middle, end) if clear(middle) else (start, middle)
    return start


def _window(shape: Sequence[Point], sides: Sequence[Point], bar: _Bar, up: int) -> tuple[Point, ...]:
    """Corners of the window above or below the bar; empty where too little would be left round it or of it."""
    (wide, _), (gap, height) = sides[:2]
    start = bar.high if up > 0 else -bar.low
    least = PENCIL + 0.2
    end = min(height, height * (wide - least) / (wide - gap)) if wide > gap else height
    if end <= start:
        return ()
    reached = _reaches(shape, sides, start * up, end * up, RIM)
    if reached is None or _card_edge(sides, start) < WINDOW / 2 or abs(reached) - start < WINDOW:
        return ()
    low, high = sorted((start * up, reached))
    below, above = _card_edge(sides, low), _card_edge(sides, high)
    return (-below, low), (below, low), (above, high), (-above, high)


def _card_lines(shape: Sequence[Point], sides: Sequence[Point], bar: _Bar) -> Iterator[Line]:
    """The card edges above and below the bar, for a template without windows."""
    height = sides[1][1]
    for start, end in ((bar.high, height), (bar.low, -height)):
        if abs(start) >= height or (end < 0 and len(sides) == 4):
            continue
        reached = _reaches(shape, sides, start, end, 0.5)
        if reached is not None:
            for side in (1, -1):
                yield Line(Role.MARK, ((side * _card_edge(sides, start), start), (side * _card_edge(sides, reached), reached)))

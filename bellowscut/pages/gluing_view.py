"""The bellows propped for gluing, seen from the side: two frames, the folds between them, the spacer stick under them."""

from __future__ import annotations

import math

from bellowscut.bellows import Bellows
from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, wrapped
from bellowscut.shapes import Point
from bellowscut.units import angle_told
from bellowscut.words import say, work_sheet as words

FRAME = 5.0
"""Width of a frame in the picture [mm]."""

LEAST, MOST = 7.0, 15.0
"""Heights between which the folds are drawn [mm]."""

ARROW = 2.0
"""Length of an arrow's head [mm]."""


def gluing_picture(bellows: Bellows, left: float, top: float, width: float, size: float) -> tuple[list[Item], float]:
    """Two frames apart, with the distance between them and the figures of the folds.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    left, top : float
        Upper left corner [mm].
    width : float
        Of the picture [mm].
    size : float
        Letters [mm].

    Returns
    -------
    list of items
        Strokes and labels.
    float
        Lower edge [mm].
    """
    a, b = left + FRAME, left + width - FRAME
    each = (b - a) / bellows.cards_per_side
    deep = min(MOST, max(LEAST, each / math.tan(math.radians(bellows.form_slope))))
    high = top - 1.0
    low = high - deep
    items: list[Item] = []
    # Ridge ends start at the frame's edge, valley ends at the foot of the first fold.
    ys = (low, high) if bellows.valley_ends else (high, low)
    run: tuple[Point, ...] = tuple((a + k * each, ys[k % 2]) for k in range(bellows.cards_per_side + 1))
    items.append(Stroke(run, Pen.SOLID))
    foot = low - 7.0
    for x in (left, b):
        box = ((x, foot), (x + FRAME, foot), (x + FRAME, high + 1.0), (x, high + 1.0))
        items.append(Stroke(box, Pen.SOLID, closed=True, fill=Tint.FRAME))
    stick = ((a, foot + 1.2), (b, foot + 1.2), (b, foot + 3.2), (a, foot + 3.2))
    items.append(Stroke(stick, Pen.THIN, closed=True, fill=Tint.CARD))
    y = foot - 3.0
    items += [Stroke(((x, foot - 0.6), (x, y - 1.2)), Pen.THIN) for x in (a, b)]
    items.append(Stroke(((a, y), (b, y)), Pen.THIN))
    for x, way in ((a, 1), (b, -1)):
        items.append(Stroke(((x, y), (x + way * ARROW, y + 0.5), (x + way * ARROW, y - 0.5)), Pen.THIN, closed=True, fill=Tint.INK))
    rule = bellows.rule
    length = rule.length(bellows.gluing_distance)
    y -= 1.8 + size * 1.1 * CAPITAL
    items.append(Label(say(words.FRAMES_APART, size=length), (left + width / 2, y), size * 1.1, anchor="middle", bold=True))
    other = say(words.APART_OTHER, size=rule.other(bellows.gluing_distance))
    pitch = say(words.PITCH, size=rule.length(bellows.valley_pitch))
    angle = say(words.CARD_ANGLE, degrees=angle_told(bellows.form_slope))
    for text in (other, f"{pitch}, {angle}", say(words.SPACER, size=length)):
        for line in wrapped(text, size, width):
            y -= size * 1.32
            items.append(Label(line, (left + width / 2, y), size, anchor="middle"))
    return items, y - size * 0.3

"""The figure of the measuring page: what to lay the calipers on, and how to count."""

from __future__ import annotations

import math

from bellowscut.drawing import Page, Pen, Tint
from bellowscut.pages.measuring_fold import old_card_figure
from bellowscut.shapes import Point
from tests.docs.sketch import Sketch

FOLDS = 6


def measuring_page() -> Page:
    """A section through the edge of one end, and one side of a six-fold bellows with its ridges and cards numbered."""
    sketch = Sketch(180, 104, "Where to measure, and how to count ridges and cards")
    _surfaces(sketch)
    _count(sketch)
    return sketch.done()


def old_card_page() -> Page:
    """Where the rule lies on an old card, and what is measured of an old gusset: the figure of the measuring sheet."""
    figure, edge = old_card_figure(), 4.0
    wide, tall = figure.size
    return Page(wide + 2 * edge, tall + 2 * edge, "Where to lay the rule on an old card and gusset", figure.at(edge, tall + edge).items)


def _surfaces(sketch: Sketch) -> None:
    """Half of an end from its middle (left) to its rim (right); what is measured reaches to one of three edges."""
    sketch.panel((8, 62), 1.0)
    sketch.shape(((0, 18), (78, 18), (78, 26), (0, 26)), Tint.FRAME_SHADE)
    sketch.text("wooden end", (24, 21))
    sketch.shape(((50, 0), (72, 0), (72, 17.2), (50, 17.2)), Tint.FRAME)
    sketch.text("frame", (61, 7))
    sketch.shape(((72, 2), (75, 2), (75, -3), (72, -3)), Tint.STRIP, Pen.THIN)
    sketch.shape(((72, 2), (75, 2), (75, 13), (73, 14.5), (72, 14.5)), Tint.STRIP, Pen.THIN)
    for k in range(3):
        x = (70.0, 48.0)
        y = -6.0 * k
        sketch.line((x[k % 2], y), (x[(k + 1) % 2], y - 6.0), pen=Pen.HEAVY)
    sketch.leader("its covering, the end strip", (92, -4), (74, 0), "start")
    for k, (edge, words) in enumerate(((72.0, "frame"), (75.0, "frame-covered"), (78.0, "end"))):
        y = 31.0 if edge == 78.0 else -24.0 - 5.5 * k
        sketch.arrow((20, y), (edge, y))
        sketch.line((edge, 0 if edge < 78 else 26), (edge, y), pen=Pen.DASHED)
        sketch.text(f'measured_on = "{words}"', (82 if edge < 78 else edge + 4, y), "start", shift=(0, -1.1))
    sketch.leader("first cards", (24, -9), (55, -4.5), "end")


def _count(sketch: Sketch) -> None:
    """One side of a six-fold bellows, frames left and right, outside upwards."""
    sketch.panel((32, 20), 1.0)
    depth, angle = 13.0, 40.0
    rise, inward = depth * math.sin(math.radians(angle)), depth * math.cos(math.radians(angle))
    cards = 2 * (FOLDS + 1)
    points: list[Point] = [(k * rise, 0.0 if k % 2 == 0 else -inward) for k in range(cards + 1)]
    for x in (-9.0, cards * rise):
        sketch.shape(((x, -inward - 2), (x + 9, -inward - 2), (x + 9, 1.5), (x, 1.5)), Tint.FRAME)
    sketch.line(*points, pen=Pen.HEAVY)
    for k in range(1, FOLDS + 1):
        sketch.text(str(k), points[2 * k], shift=(0, 1.6), bold=True)
    for k in range(cards):
        middle = ((points[k][0] + points[k + 1][0]) / 2, -inward)
        sketch.text(str(k + 1), middle, shift=(0, -5.5))
    sketch.text("ridges", (-12, 0), "end", shift=(0, 1.6), bold=True)
    sketch.text("cards", (-12, -inward), "end", shift=(0, -5.5))

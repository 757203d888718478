"""Figures of what moves and what bends: the fold from closed to open, and the strips over their edges."""

from __future__ import annotations

import math

from bellowscut.bellows import Bellows, build
from bellowscut.drawing import Page, Pen, Tint
from bellowscut.folds import card_edges
from bellowscut.profile import loads
from bellowscut.shapes import Point
from tests.docs.flat_figures import GENEROUS
from tests.docs.sketch import Sketch

THICKNESS = 1.2
"""Thickness at which cards are drawn in the side view [mm]."""


def stretch_page() -> Page:
    """One side's cards from the side, and one corner seen along the bellows, closed and open."""
    sketch = Sketch(180, 120, "The stretch: cards from the side, and a corner seen along the bellows")
    bellows = build(loads(GENEROUS))
    depth = bellows.depth
    for x, angle, words in ((16.0, 9.0, "nearly closed"), (48.0, 30.0, "half way"), (108.0, 50.0, "full stretch")):
        sketch.panel((x, 108), 0.75)
        _zigzag(sketch, depth, angle, 4)
        sketch.text(words, (2 * depth * math.sin(math.radians(angle)), 0), shift=(0, 5), bold=True)
    rise, inward = depth * math.sin(math.radians(50)), depth * math.cos(math.radians(50))
    sketch.line((-14, 0), (4 * rise + 4, 0), pen=Pen.DASHED)
    sketch.dimension((0, -inward), (rise, -inward), "L sin t", -6)
    sketch.dimension((4 * rise, 0), (4 * rise, -inward), "L cos t", 5)
    sketch.line((rise, -inward), (4 * rise, -inward), pen=Pen.THIN)
    sketch.arc((0, 0), 13, -90, -90 + 50)
    sketch.text("t", (5.4, -12))
    sketch.line((0, 0), (0, -17), pen=Pen.THIN)
    sketch.leader("the ridge line stays", (-14, -36), (-9, 0))
    for x, angle, words in ((46.0, 0.0, "closed"), (134.0, bellows.stretch, "full stretch")):
        sketch.panel((x, 12), 1.2)
        _corner(sketch, bellows, angle)
        sketch.text(words, (0, 0), shift=(0, 48), bold=True)
    return sketch.done()


def _zigzag(sketch: Sketch, depth: float, angle: float, cards: int) -> None:
    """Cards of one side, the outside of the bellows upwards."""
    rise, inward = depth * math.sin(math.radians(angle)), depth * math.cos(math.radians(angle))
    for k in range(cards):
        a, b = ((k * rise, 0.0), ((k + 1) * rise, -inward)) if k % 2 == 0 else ((k * rise, -inward), ((k + 1) * rise, 0.0))
        along = ((b[0] - a[0]) / depth, (b[1] - a[1]) / depth)
        down = (along[1] * THICKNESS, -along[0] * THICKNESS)
        sketch.shape((a, b, (b[0] + down[0], b[1] + down[1]), (a[0] + down[0], a[1] + down[1])), Tint.CARD)


def _corner(sketch: Sketch, bellows: Bellows, angle: float) -> None:
    """Two neighbouring cards and the leather between them, looking along the bellows."""
    corner = bellows.corners[1]
    depth = bellows.depth
    flat = math.cos(math.radians(angle))
    half = corner.half_turn

    def on(side: int, u: float, v: float) -> Point:
        """A point `u` from the corner along the ridge, `v` down the card; side 1 leans right, -1 left."""
        x, y = side * u, v * flat
        turn = side * half
        return x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn)

    left = {v: card_edges(bellows.section.sides[0], *bellows.corner_pair(0), v)[0] for v in (0.0, depth)}
    sketch.shape((on(-1, left[0.0], 0), on(1, left[0.0], 0), on(1, left[depth], depth), on(-1, left[depth], depth)), Tint.LEATHER, Pen.THIN)
    for side in (-1, 1):
        sketch.shape((on(side, left[0.0], 0), on(side, 34, 0), on(side, 34, depth), on(side, left[depth], depth)), Tint.CARD)
        sketch.line((0, 0), on(side, 38, 0), pen=Pen.DASHED)
    sketch.dimension(on(-1, left[depth], depth), on(1, left[depth], depth), "c1", 3.5)
    sketch.leader("c0", (9, -5), (0, on(1, left[0.0], 0)[1]), "start")


def strips_page() -> Page:
    """Sections through an edge strip on its ridge and an end strip on its frame."""
    sketch = Sketch(180, 112, "Sections through an edge strip and an end strip")
    _edge_strip(sketch)
    _end_strip(sketch)
    sketch.panel((0, 0), 1.0)
    sketch.text("Thicknesses are drawn larger than life.", (8, 4), "start")
    return sketch.done()


def _edge_strip(sketch: Sketch) -> None:
    """The closed ridge, pointing up; thickness drawn at four times the length."""
    sketch.panel((46, 82), 1.0)
    card, leather, feather, lap, skive, fat = 4.5, 3.0, 1.0, 42.0, 30.0, 70.0
    for side in (-1, 1):
        sketch.shape(((0, 0), (side * card, 0), (side * card, -fat), (0, -fat)), Tint.CARD)
    outside, inside = card + leather, card
    arc = [math.radians(180 - 10 * k) for k in range(19)]
    outer: list[Point] = [(outside * math.cos(a), outside * math.sin(a)) for a in arc]
    inner: list[Point] = [(inside * math.cos(a), inside * math.sin(a)) for a in reversed(arc)]
    right = [(outside, -(lap - skive)), (card + feather, -lap), (card, -lap)]
    sketch.shape((*outer, *right, *inner, *((-x, y) for x, y in reversed(right))), Tint.STRIP)
    sketch.text("edge strip", (0, 20), bold=True)
    sketch.dimension((outside + 2, 0), (outside + 2, -lap), "lap", 14)
    sketch.dimension((outside + 2, -(lap - skive)), (outside + 2, -lap), "skive", 4)
    sketch.leader("feather", (16, -54), (card + feather / 2, -lap), "start")
    sketch.leader("B(180): over two cards", (-22, 13), (outer[5][0], outer[5][1]))
    sketch.leader("card", (-20, -60), (-card / 2, -58), "end")
    sketch.leader("full thickness", (-16, -20), (-outside + 1.2, -6), "end")


def _end_strip(sketch: Sketch) -> None:
    """The frame on the right, its edge down; the first card folded against it."""
    sketch.panel((132, 52), 1.0)
    card, leather, feather, cover, lap, skive = 4.5, 3.0, 1.0, 34.0, 24.0, 15.0
    sketch.shape(((0, 0), (cover + 8, 0), (cover + 8, -38), (0, -38)), Tint.FRAME)
    sketch.shape(((-card, 0), (0, 0), (0, -44), (-card, -44)), Tint.CARD)
    arc = [math.radians(90 + 10 * k) for k in range(10)]
    outer: list[Point] = [((card + leather) * math.cos(a), (card + leather) * math.sin(a) - card) for a in arc]
    inner: list[Point] = [(card * math.cos(a), card * math.sin(a) - card) for a in reversed(arc)]
    over: list[Point] = [(cover, 0), (cover, feather), (cover - skive, leather)]
    down: list[Point] = [(-card - leather, -card - lap + skive), (-card - feather, -card - lap), (-card, -card - lap)]
    sketch.shape((*over, *outer, *down, *inner), Tint.STRIP)
    sketch.text("end strip", (0, 50), bold=True)
    sketch.dimension((0, leather + 1.5), (cover, leather + 1.5), "frame cover", 6)
    sketch.dimension((-card - leather - 1.5, -card - lap), (-card - leather - 1.5, -card), "lap", 5)
    sketch.leader("B(90)", (-22, 12), (outer[5][0], outer[5][1]), "end")
    sketch.text("frame", (cover / 2 + 4, -20))
    sketch.leader("card", (-16, -43), (-card / 2, -41), "end")

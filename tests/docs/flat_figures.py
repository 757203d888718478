"""Figures of what lies flat: the section with its letters, the card, the gusset."""

from __future__ import annotations

import math

from bellowscut.bellows import Bellows, build
from bellowscut.drawing import Line, Page, Pen, Role, Stroke, Tint
from bellowscut.folds import card_edges
from bellowscut.parts.gusset import gusset_shape
from bellowscut.profile import loads
from bellowscut.section import by_side_lengths, corner_name, side_name
from bellowscut.shapes import Point, centroid, inset, meet
from tests.docs.sketch import Sketch

GENEROUS = """
format = 1
[section]
shape = "regular"
sides = 6
end_size = "5 in"
[bellows]
folds = 6
fold_depth = "25 mm"
corner_gap = "3 mm"
relief = 9
[card]
ridge_gap = "2 mm"
valley_gap = "4 mm"
ridge_radius = 0
valley_radius = 0
[gusset]
lap = "6 mm"
tip_lap = "4 mm"
ridge_turn = "3 mm"
frame_turn = "8 mm"
tip_radius = "1.5 mm"
point_radius = "2 mm"
"""
"""Six sides with gaps and turns larger than life, so that they can be seen."""

UNEVEN = (88.0, 96.0, 85.0, 93.0, 92.0, 87.0)
"""Sides of an end that is plainly not regular [mm], invented."""


def section_page() -> Page:
    """Sides, corners, frame and ridge polygon, flats and set-back."""
    sketch = Sketch(180, 104, "The section: sides and corners with their letters")
    frame = by_side_lengths(UNEVEN).points
    centre = centroid(frame)
    ridge = inset(frame, (7.0,) * len(frame))
    sketch.panel((58, 51), 0.48)
    sketch.shape(frame, Tint.FRAME, Pen.SOLID)
    sketch.shape(ridge, Tint.PALE, Pen.SOLID)
    count = len(frame)
    for i, a in enumerate(frame):
        b = frame[(i + 1) % count]
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        sketch.text(side_name(i), _out(centre, middle, 8), shift=(0, -1.2), bold=True)
        sketch.text(corner_name(i, count), _out(centre, a, 12), shift=(0, -1.2))
    sketch.leader("corner 1", (-92, -62), frame[0])
    sketch.dimension((centre[0], ridge[0][1] - 7.0), (centre[0], frame[3][1]), "flat of A", 0, away=1.0)
    sketch.arc((0, 0), 13, -80, -10)
    sketch.arrow((13 / 0.48 * 0.985, -13 / 0.48 * 0.22), (13 / 0.48 * 0.995, -13 / 0.48 * 0.1))
    sketch.leader("frame, as measured", (92, 92), _along(frame[2], frame[3], 0.85), "start")
    sketch.leader("ridge line: where the cards begin", (92, 72), _along(ridge[2], ridge[3], 0.55), "start")
    inside = _along(ridge[2], ridge[3], 0.2)
    outside = meet(inside, _square_to(ridge[2], ridge[3], inside), frame[2], frame[3])
    sketch.dimension(inside, outside, "")
    sketch.leader("set in: ridge_setback", (92, 40), _along(inside, outside, 0.5), "start")
    for k, words in enumerate(
        (
            "Seen from outside the right-hand end.",
            "Letters run against the clock, A at the bottom.",
            "The set-back is drawn larger than life.",
        )
    ):
        sketch.text(words, (86, -58 - 9.5 * k), "start")
    return sketch.done()


def card_page() -> Page:
    """Two neighbouring cards of the closed bellows, seen along it."""
    sketch = Sketch(180, 98, "The card: its edges, its gaps and the lean of its legs")
    bellows = build(loads(GENEROUS))
    corner = bellows.corners[1]
    side, depth = bellows.section.sides[0], bellows.depth
    sketch.panel((128, 27), 1.42)
    turn = math.radians(corner.turn)
    half = corner.half_turn

    def on_a(u: float, v: float) -> Point:
        return u - side, v

    def on_b(u: float, v: float) -> Point:
        return u * math.cos(turn) - v * math.sin(turn), u * math.sin(turn) + v * math.cos(turn)

    low, high = bellows.ridge_gap / 2, depth - bellows.valley_gap / 2
    edges = {v: card_edges(side, *bellows.corner_pair(0), v) for v in (0.0, low, high, depth)}
    sketch.shape((on_a(edges[low][0], low), on_a(edges[low][1], low), on_a(edges[high][1], high), on_a(edges[high][0], high)), Tint.CARD)
    left = {v: edges[v][0] for v in edges}
    sketch.shape((on_b(left[low], low), on_b(32, low), on_b(36, high), on_b(left[high], high)), Tint.CARD)
    sketch.text("card of side A", on_a(side / 2, depth / 2 + 3), shift=(0, 0), bold=True)
    sketch.text("card of side B", on_b(23, depth / 2 - 4.5), shift=(0, 0), bold=True, angle=corner.turn)
    for place, length in ((on_a, side), (on_b, 36.0)):
        sketch.line(place(0 if place is on_b else -3, 0), place(length, 0), pen=Pen.DASHED)
        sketch.line(place(12 if place is on_b else 2, depth), place(length - (14 if place is on_a else 0), depth), pen=Pen.DASHED)
    legs = (on_a(edges[0.0][1], 0.0), on_a(edges[depth][1], depth))
    sketch.line(legs[0], on_a(edges[low][1], low), pen=Pen.THIN)
    sketch.line(legs[1], on_a(edges[high][1], high), pen=Pen.THIN)
    mitre = (-math.sin(half) * depth / math.cos(half), depth)
    sketch.line((0, 0), (mitre[0] * 1.12, mitre[1] * 1.12), pen=Pen.DASHED)
    sketch.leader("mitre: half the turn", (-24, depth * 1.55), (mitre[0] * 1.1, mitre[1] * 1.1), "end")
    foot = on_a(edges[0.0][1], 0.0)
    sketch.line(foot, (foot[0], depth), pen=Pen.THIN)
    reach = 19 * 1.42
    sketch.arc(foot, reach, 90, 90 + math.degrees(corner.lean))
    sketch.text("d/2 + e", (foot[0] - 8.5, 20.8))
    sketch.dimension(on_a(edges[0.0][0], 0), foot, "ridge edge  b", -6)
    sketch.dimension(on_a(edges[depth][0], depth), on_a(edges[depth][1], depth), "valley edge  a", 4)
    sketch.dimension(on_a(edges[depth][0] - 1, 0), on_a(edges[depth][0] - 1, depth), "L", 22, turned=False)
    sketch.dimension(foot, (0, 0), "k", -6)
    sketch.leader("corner gap  c0", (12, -9.5), ((foot[0] + on_b(left[0.0], 0.0)[0]) / 2 + 0.35, on_b(left[0.0], 0.0)[1] / 2), "start")
    sketch.dimension(on_a(side, 0), on_a(side, low), "")
    sketch.leader("half the ridge gap", (-62, -11), on_a(12, low / 2))
    sketch.leader("half the valley gap", (-70, depth * 1.4), on_a(24, (high + depth) / 2))
    sketch.text("Ridge line and valley line are dashed. Gaps and relief are drawn larger than life.", (-86, -16.5), "start")
    return sketch.done()


def gusset_page() -> Page:
    """A gusset and an end gusset over the flat opening that they close."""
    sketch = Sketch(180, 118, "The gusset: opening, laps, turns and lines")
    bellows = build(loads(GENEROUS))
    corner = bellows.corners[0]
    for x, kind in ((58.0, "gusset"), (142.0, "end-gusset")):
        sketch.panel((x, 58), 1.42)
        _gusset(sketch, bellows, kind)
    sketch.panel((58, 58), 1.42)
    wide, height = corner.opening(bellows.stretch), corner.half_height(bellows.stretch)
    spec = bellows.profile.gusset
    half_width, slope = corner.gusset_edge(bellows.stretch, spec.lap, spec.tip_lap)
    sketch.dimension((-wide / 2, 0), (wide / 2, 0), "c1", 0, away=0.8)
    sketch.dimension((-corner.gap / 2 - 16, height), (-corner.gap / 2 - 16, 0), "H", -4)
    sketch.dimension((wide / 2, 0), (half_width, 0), "")
    sketch.leader("lap", (25, 8), ((wide / 2 + half_width) / 2, 0), "start")
    sketch.leader("tip lap", (20, 26), ((corner.gap / 2 + half_width - slope * height) / 2, height - 0.4), "start")
    sketch.leader("c0", (-20, 35), (0, height), "end")
    turn = height + spec.ridge_turn
    sketch.dimension((-half_width + slope * turn, -height), (-half_width + slope * turn, -turn), "", -5)
    sketch.text("ridge turn", (-half_width + slope * turn, -height - 1.5), "end", shift=(-7, -1.2))
    sketch.leader("skive line", (20, -26), ((wide - (wide - corner.gap) * 0.45) / 2, -height * 0.45), "start")
    sketch.leader("valley", (25, -8), (wide / 2 - 3, 0), "start")
    sketch.panel((142, 58), 1.42)
    top = height + spec.frame_turn
    sketch.dimension((half_width - slope * top, height), (half_width - slope * top, top), "", -5)
    sketch.text("frame turn", (half_width - slope * top, height + 4), "start", shift=(7, -1.2))
    sketch.leader("frame", (-17, height), (-3, height), "end")
    sketch.text("gusset", (-84 / 1.42, -33), shift=(0, -6), bold=True)
    sketch.text("end gusset", (0, -33), shift=(0, -6), bold=True)
    return sketch.done()


def _gusset(sketch: Sketch, bellows: Bellows, kind: str) -> None:
    corner = bellows.corners[0]
    wide, height = corner.opening(bellows.stretch), corner.half_height(bellows.stretch)
    outline, lines = gusset_shape(bellows, corner, kind)
    sketch.shape(outline.flattened(0.02), Tint.LEATHER, Pen.SOLID)
    opening = (
        (corner.gap / 2, height),
        (-corner.gap / 2, height),
        (-wide / 2, 0.0),
        (-corner.gap / 2, -height),
        (corner.gap / 2, -height),
        (wide / 2, 0.0),
    )
    sketch.shape(opening, Tint.WHITE, Pen.THIN)
    for line in lines:
        if line.role is not Role.MARK:
            sketch.items.append(Line(line.role, tuple(map(sketch.at, line.points))))
    for y in (height, -height):
        half = corner.gap / 2 + bellows.profile.gusset.tip_lap + 3
        sketch.items.append(Stroke((sketch.at((-half, y)), sketch.at((half, y))), Pen.DASHED))


def _out(centre: Point, point: Point, by: float) -> Point:
    far = math.dist(centre, point)
    return point[0] + (point[0] - centre[0]) / far * by, point[1] + (point[1] - centre[1]) / far * by


def _along(a: Point, b: Point, part: float) -> Point:
    return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part


def _square_to(a: Point, b: Point, at: Point) -> Point:
    return at[0] + b[1] - a[1], at[1] - b[0] + a[0]

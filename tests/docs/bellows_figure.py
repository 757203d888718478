"""A bellows half open, seen from the side and a little from above: the picture that names the parts."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from bellowscut.bellows import Bellows, build
from bellowscut.drawing import Page, Pen, Tint
from bellowscut.folds import card_edges
from bellowscut.profile import loads
from bellowscut.shapes import Point
from tests.docs.sketch import Sketch

Space = tuple[float, float, float]

FRAME_DEPTH = 14.0
"""How much of each frame is shown [mm]."""

SIX_SIDED = """
format = 1
[section]
shape = "regular"
sides = 6
end_size = "6 1/4 in"
[bellows]
folds = 4
fold_depth = "25 mm"
"""


@dataclass(frozen=True)
class Face:
    """One flat piece in space, its corners counter-clockwise from outside [mm]."""

    points: tuple[Space, ...]
    fill: Tint
    shade: Tint
    lift: float = 0.0


def bellows_page() -> Page:
    """The picture, with the words."""
    sketch = Sketch(180, 118, "A bellows with four folds, half open, and the names of its parts")
    bellows = build(loads(SIX_SIDED))
    opened = 34.0
    length = bellows.cards_per_side * bellows.depth * math.sin(math.radians(opened))
    view = _view(62.0, 20.0)
    sketch.panel((92, 60), 0.44)
    seen = []
    for face in _faces(bellows, opened, length):
        flat = [view(point) for point in face.points]
        area = sum(flat[i - 1][0] * p[1] - p[0] * flat[i - 1][1] for i, p in enumerate(flat)) / 2
        if area > 0:
            depth = sum(p[2] for p in flat) / len(flat) + face.lift
            a, b, c = face.points[:3]
            seen.append((depth, [(p[0], p[1]) for p in flat], face.fill if _up(a, b, c) > 0.1 else face.shade))
    for _, points, fill in sorted(seen, key=lambda one: one[0]):
        sketch.shape(points, fill, Pen.THIN)
    _words(sketch, bellows, opened, length, view)
    return sketch.done()


def _view(turn: float, lift: float) -> Callable[[Space], Space]:
    """Orthographic: right, up and towards the eye [mm]."""
    s, c = math.sin(math.radians(turn)), math.cos(math.radians(turn))
    t, d = math.sin(math.radians(lift)), math.cos(math.radians(lift))

    def seen(point: Space) -> Space:
        x, y, z = point
        right, near = x * c + z * s, z * c - x * s
        return right, y * d - near * t, y * t + near * d

    return seen


def _up(a: Space, b: Space, c: Space) -> float:
    """How far a face looks up or towards the reader's left [-], as if lit from there."""
    u = [q - p for p, q in zip(a, b, strict=True)]
    v = [q - p for p, q in zip(a, c, strict=True)]
    n = (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])
    size = math.hypot(*n)
    return (n[1] * 0.35 - n[2] * 0.9) / size


def _place(bellows: Bellows, side: int, u: float, v: float, z: float, opened: float) -> Space:
    """A point of a side's card, `u` along the ridge from its first corner and `v` from the ridge line [mm]."""
    a, b = bellows.section.ridge[side], bellows.section.ridge[(side + 1) % bellows.section.count]
    length = bellows.section.sides[side]
    x, y = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    inward = v * math.cos(math.radians(opened))
    return a[0] + x * u - y * inward, a[1] + y * u + x * inward, z


def _faces(bellows: Bellows, opened: float, length: float) -> Iterator[Face]:
    rise = bellows.depth * math.sin(math.radians(opened))
    count = bellows.section.count
    for k in range(bellows.cards_per_side):
        low, high = length / 2 - (k + 1) * rise, length / 2 - k * rise
        ridge_z, valley_z = (high, low) if k % 2 == 0 else (low, high)
        for side in range(count):
            yield from _card(bellows, side, ridge_z, valley_z, opened)
            yield _leather(bellows, side, ridge_z, valley_z, opened)
    frame = bellows.section.frame
    for near, far in ((length / 2 + FRAME_DEPTH, length / 2), (-length / 2, -length / 2 - FRAME_DEPTH)):
        for i, a in enumerate(frame):
            b = frame[(i + 1) % count]
            yield Face(((*b, near), (*a, near), (*a, far), (*b, far)), Tint.FRAME, Tint.FRAME_SHADE)
        yield Face(tuple((*p, near) for p in frame), Tint.PALE, Tint.PALE, math.copysign(200.0, near))


def _card(bellows: Bellows, side: int, ridge_z: float, valley_z: float, opened: float) -> Iterator[Face]:
    corners = bellows.corner_pair(side)
    depth, lap = bellows.depth, bellows.profile.edge_strip.lap

    def piece(top: float, bottom: float, fill: Tint, shade: Tint, lift: float) -> Face:
        points = []
        for v, ends in ((top, (1, 0)), (bottom, (0, 1))):
            edges = card_edges(bellows.section.sides[side], *corners, v)
            z = ridge_z + (valley_z - ridge_z) * v / depth
            points += [_place(bellows, side, edges[end], v, z, opened) for end in ends]
        ordered = points if ridge_z > valley_z else points[::-1]
        return Face(tuple(ordered), fill, shade, lift)

    yield piece(0.0, depth, Tint.PAPER, Tint.PAPER_SHADE, 0.0)
    yield piece(0.0, lap, Tint.STRIP, Tint.STRIP_SHADE, 0.2)


def _leather(bellows: Bellows, side: int, ridge_z: float, valley_z: float, opened: float) -> Face:
    """Half of the gusset at the corner after a side, taken as flat."""
    after = (side + 1) % bellows.section.count
    points = []
    for v, z in ((0.0, ridge_z), (bellows.depth, valley_z)):
        right = card_edges(bellows.section.sides[side], *bellows.corner_pair(side), v)[1]
        left = card_edges(bellows.section.sides[after], *bellows.corner_pair(after), v)[0]
        points.append((_place(bellows, side, right, v, z, opened), _place(bellows, after, left, v, z, opened)))
    (a, b), (c, d) = points
    return Face((b, a, c, d) if ridge_z > valley_z else (d, c, a, b), Tint.LEATHER, Tint.LEATHER_SHADE)


def _words(sketch: Sketch, bellows: Bellows, opened: float, length: float, view: Callable[[Space], Space]) -> None:
    rise = bellows.depth * math.sin(math.radians(opened))

    def on_card(side: int, part: float, v: float, card: int) -> Point:
        z = length / 2 - card * rise - (v if card % 2 == 0 else bellows.depth - v) / bellows.depth * rise
        edges = card_edges(bellows.section.sides[side], *bellows.corner_pair(side), v)
        x, y, _ = view(_place(bellows, side, edges[0] + part * (edges[1] - edges[0]), v, z, opened))
        return x, y

    def corner(side: int, card: int) -> Point:
        a, b = on_card(side, 1.0, 15.0, card), on_card((side + 1) % bellows.section.count, 0.0, 15.0, card)
        return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2

    depth = bellows.depth
    x, y, _ = view((*bellows.section.frame[5], -length / 2 - FRAME_DEPTH / 2))
    words: tuple[tuple[str, Point, Point, str], ...] = (
        ("end strip", (-148, 105), on_card(3, 0.55, 4.0, 9), "middle"),
        ("ridge, under its edge strip", (-80, 122), on_card(3, 0.82, 3.0, 7), "start"),
        ("card, under its facing", (-8, 106), on_card(3, 0.6, 10.5, 3), "start"),
        ("frame", (x - 30, y - 24), (x, y), "middle"),
        ("gusset", (-120, -106), corner(4, 7), "middle"),
        ("valley", (-38, -114), on_card(4, 0.4, depth - 0.3, 5), "middle"),
        ("right-hand end, the first", (112, 94), view((30.0, 60.0, length / 2 + FRAME_DEPTH))[:2], "middle"),
    )
    for name, text, point, anchor in words:
        sketch.leader(name, text, point, anchor, bold=True)

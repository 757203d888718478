"""The form in space, its pieces drawn apart in the order in which they leave: what hides what, and the names."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.form.model import Form, Segment
from bellowscut.form.pieces import rib_places
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.corner_view import SHADES
from bellowscut.pages.furniture import Box
from bellowscut.pages.leaders import dot
from bellowscut.section import side_name
from bellowscut.shapes import Point, bounds, centroid, side_of, signed_area
from bellowscut.words import form as words, say

Space = tuple[float, float, float]

TURN, RISE = math.radians(58), math.radians(22)
"""How far the eye stands aside from the axis of the bellows, and above it [rad]."""

KEY_UP = math.radians(8)
"""The key segment looks at the eye, tilted up by so much [rad]."""

LIGHT = (-0.35, 0.9, 0.25)
"""Where light comes from: aside, up, along [-]."""

DIM = 0.25
"""Faces that get less light than this are drawn in their darker tint [-]."""

APART = 0.2
"""How far segments are drawn out of their places, as a share of the form's width [-]."""

DRAWN_OUT = 0.72
"""How far the core is drawn out, as a share of its length [-]."""

LETTERS = 3.0
NAME_GAP = 3.0
"""Between two names, and between names and picture [mm]."""


@dataclass(frozen=True)
class _Slab:
    """A board in space: one face, the step to the other face, and how it looks."""

    face: tuple[Space, ...]
    step: Space
    tint: Tint
    slots: tuple[tuple[Space, ...], ...] = ()


class _Eye:
    """Looks along the bellows from above the right-hand end, the key segment turned towards it."""

    def __init__(self, form: Form) -> None:
        ridges = form.sizes.ridges
        key = next(segment.side for segment in form.segments if side_name(segment.side) == form.key)
        ux, uy = side_of(ridges, key).along
        # Outward from the key is (uy, -ux); it is turned to lie at 180 degrees less KEY_UP.
        around = math.pi - KEY_UP - math.atan2(-ux, uy)
        self._cos, self._sin = math.cos(around), math.sin(around)
        self._middle = centroid(ridges)
        self.view = (-math.sin(TURN) * math.cos(RISE), math.sin(RISE), math.cos(TURN) * math.cos(RISE))
        self._right = (math.cos(TURN), 0.0, math.sin(TURN))
        self._up = _cross(self.view, self._right)

    def turned(self, step: Space) -> Space:
        """A direction, the section turned so that the key looks at the eye."""
        x, y, z = step
        return x * self._cos - y * self._sin, x * self._sin + y * self._cos, z

    def seen(self, point: Space) -> Point:
        """A point in the picture [mm]."""
        at = self.turned((point[0] - self._middle[0], point[1] - self._middle[1], point[2]))
        return _dot(at, self._right), _dot(at, self._up)

    def near(self, point: Space) -> float:
        """How near a point lies [mm]."""
        return _dot(self.turned((point[0] - self._middle[0], point[1] - self._middle[1], point[2])), self.view)


def form_picture(form: Form, box: Box) -> list[Item]:
    """The form drawn apart, with names and the numbers in which its pieces leave.

    Parameters
    ----------
    form : Form
        What is drawn.
    box : tuple of float
        Left, low, right and high edge of what there is room for [mm].
    """
    eye = _Eye(form)
    scene = _Scene(form, eye)
    strokes = [stroke for slab in scene.slabs() for stroke in _painted(slab, eye)]
    left, low, right, high = bounds([point for stroke in strokes for point in stroke.points])
    room = LETTERS + 2 * NAME_GAP
    scale = min((box[2] - box[0]) / (right - left), (box[3] - box[1] - 2 * room) / (high - low))
    x0 = (box[0] + box[2]) / 2 - (left + right) / 2 * scale
    y0 = box[3] - room - high * scale

    def at(point: Point) -> Point:
        return x0 + point[0] * scale, y0 + point[1] * scale

    items: list[Item] = [Stroke(tuple(at(p) for p in one.points), one.pen, one.closed, one.fill) for one in strokes]
    over, under = scene.names()
    items += _named([(text, at(eye.seen(point))) for text, point in over], box, box[3] - LETTERS * CAPITAL, down=True)
    foot = y0 + low * scale - room + NAME_GAP / 2
    items += _named([(text, at(eye.seen(point))) for text, point in under], box, foot, down=False)
    return items


def _named(names: Sequence[tuple[str, Point]], box: Box, base: float, *, down: bool) -> Iterator[Item]:
    """Names in a row over or under the picture, each with a line to what it names."""
    placed: list[list[float]] = []
    ordered = sorted(names, key=lambda name: name[1][0])
    widths = [text_width(text, LETTERS) for text, _ in ordered]
    x = box[0]
    for (_, target), wide in zip(ordered, widths, strict=True):
        start = max(x, min(target[0] - wide / 2, box[2] - wide))
        placed.append([start, wide])
        x = start + wide + NAME_GAP
    edge = box[2]
    for one in reversed(placed):
        one[0] = min(one[0], edge - one[1])
        edge = one[0] - NAME_GAP
    for (text, target), (start, wide) in zip(ordered, placed, strict=True):
        foot = (min(max(target[0], start + 1.0), start + wide - 1.0), base - 1.2 if down else base + LETTERS * CAPITAL + 1.2)
        yield Stroke((foot, target), Pen.THIN)
        yield dot(target)
        yield Label(text, (start, base), LETTERS)


class _Scene:
    """Every board of a form in its place, drawn apart, in the order of painting."""

    def __init__(self, form: Form, eye: _Eye) -> None:
        self.form, self.eye = form, eye
        self.sizes = form.sizes
        self.length, self.ply = form.sizes.length, form.segments[0].ply
        left, low, right, high = bounds(form.sizes.ridges)
        self.out = APART * max(right - left, high - low)
        self.core_at = DRAWN_OUT * self.length
        self.plate_at = (-self.out - self.ply, self.length * (1 + DRAWN_OUT) + self.out)

    def slabs(self) -> Iterator[_Slab]:
        """From the back to the front.

        Plates, what is left of the core in the ring and what stands out of it
        lie behind each other along the bellows. In the ring, segments that
        look away lie behind the core, the others before it.
        """
        yield self._plate(self.plate_at[0])
        order = sorted(self.form.segments, key=lambda segment: self.eye.near(self._middle(segment)))
        away = [segment for segment in order if not self._faces(segment)]
        for segment in away:
            yield from self._segment(segment)
        core = list(self._core())
        yield from (slab for z, slab in core if z < self.length)
        for segment in order:
            if segment not in away:
                yield from self._segment(segment)
        yield from (slab for z, slab in core if z >= self.length)
        yield self._plate(self.plate_at[1])

    def names(self) -> tuple[list[tuple[str, Space]], list[tuple[str, Space]]]:
        """What is named over the picture and under it, each with a point of the piece."""
        first = len(self.form.steps) - len(self.form.leaving) + 1
        others = [segment for segment in self.form.segments if side_name(segment.side) != self.form.key]
        top = max(others, key=lambda segment: self.eye.seen(self._middle(segment))[1])
        key = next(segment for segment in self.form.segments if segment not in others)
        rib = max(self.form.core, key=lambda point: self.eye.seen((*point, 0.0))[1])
        rest = say(words.MORE_SEGMENTS, first=first + 1, last=first + len(others))
        over = [
            (say(words.THIRD_PLATE), (*self._corner(), self.plate_at[0] + self.ply)),
            (rest, self._on(top, 0.35)),
            (say(words.SECOND_CORE), (*rib, self.core_at + self.length)),
            (say(words.FIRST_PLATE), (*self._corner(), self.plate_at[1] + self.ply)),
        ]
        return over, [(say(words.KEY_SEGMENT, number=first, side=self.form.key), self._on(key, 0.5))]

    def _corner(self) -> Point:
        return max(self.sizes.ridges, key=lambda point: self.eye.seen((*point, 0.0))[1])

    def _faces(self, segment: Segment) -> bool:
        ux, uy = side_of(self.sizes.ridges, segment.side).along
        return _dot(self.eye.turned((uy, -ux, 0.0)), self.eye.view) > 0

    def _middle(self, segment: Segment) -> Space:
        x, y = self._at(segment, (segment.left + segment.right) / 2, segment.depth)
        return x, y, self.length / 2

    def _on(self, segment: Segment, share: float) -> Space:
        """A point on the lower or upper edge of a segment's side board."""
        ends = [self._at(segment, edge, segment.comb) for edge in (segment.left, segment.right)]
        low = side_name(segment.side) == self.form.key
        x, y = (min if low else max)(ends, key=lambda point: self.eye.seen((*point, 0.0))[1])
        return x, y, self.length * share

    def _at(self, segment: Segment, along: float, depth: float) -> Point:
        return side_of(self.sizes.ridges, segment.side).at(along, depth - self.out)

    def _segment(self, segment: Segment) -> Iterator[_Slab]:
        ux, uy = side_of(self.sizes.ridges, segment.side).along
        tint = Tint.LEATHER if side_name(segment.side) == self.form.key else Tint.CARD
        comb = next(part for part in self.form.parts if part.kind == "form-comb").points
        rise = self.ply / 2
        combs = []
        for place in segment.places:
            face = tuple((*self._at(segment, place - rise, -y), x) for x, y in comb if y > -segment.comb - 1e-6)
            combs.append(_Slab(face, (ux * self.ply, uy * self.ply, 0.0), tint))
        corners = ((segment.left, 0.0), (segment.right, 0.0), (segment.right, self.length), (segment.left, self.length))
        board = tuple((*self._at(segment, x, segment.comb), z) for x, z in corners)
        side = _Slab(board, (-uy * self.ply, ux * self.ply, 0.0), tint)
        if _dot(self.eye.turned((ux, uy, 0.0)), self.eye.view) < 0:
            combs.reverse()
        yield from (side, *combs) if self._faces(segment) else (*combs, side)

    def _plate(self, z: float) -> _Slab:
        plate = next(part for part in self.form.parts if part.kind == "form-end")
        slots = tuple(tuple((x, y, z + self.ply) for x, y in hole.flattened(0.3)) for hole in plate.holes)
        return _Slab(tuple((x, y, z) for x, y in self.sizes.ridges), (0.0, 0.0, self.ply), Tint.PAPER, slots)

    def _core(self) -> Iterator[tuple[float, _Slab]]:
        """Ribs, and the spine from rib to rib, each with the place of its far end along the bellows."""
        rib = next(part for part in self.form.parts if part.kind == "form-core-rib")
        left, low, right, high = rib.holes[0].bounds()
        places = [self.core_at + place - self.ply / 2 for place in rib_places(self.length, rib.count, self.ply)]
        cuts = sorted({*(place for place in places), *(place + self.ply for place in places), self.length})
        for start, stop in pairwise(cuts):
            if any(abs(start - place) < 1e-6 for place in places):
                yield start, _Slab(tuple((x, y, start) for x, y in self.form.core), (0.0, 0.0, stop - start), Tint.FRAME)
            elif start >= places[0] and stop <= places[-1] + self.ply:
                face = ((left, low, start), (right, low, start), (right, low, stop), (left, low, stop))
                yield start, _Slab(face, (0.0, high - low, 0.0), Tint.FRAME)


def _painted(slab: _Slab, eye: _Eye) -> Iterator[Stroke]:
    """The faces of a board that are seen: its edges from the back to the front, and the face over them."""
    near = _dot(eye.turned(slab.step), eye.view) > 0
    other = tuple(_plus(point, slab.step) for point in slab.face)
    front, back = (other, slab.face) if near else (slab.face, other)
    outward = slab.step if near else _times(slab.step, -1.0)
    shown = [eye.seen(point) for point in front]
    if signed_area(shown) < 0:
        front, back, shown = front[::-1], back[::-1], shown[::-1]
    edges = []
    for k, point in enumerate(front):
        after = (k + 1) % len(front)
        quad = (point, back[k], back[after], front[after])
        seen = [eye.seen(corner) for corner in quad]
        if signed_area(seen) > 1e-9:
            edges.append((eye.near(_times(_plus(point, back[after]), 0.5)), quad, seen))
    for _, quad, seen in sorted(edges, key=lambda edge: edge[0]):
        along, across = _minus(quad[1], quad[0]), _minus(quad[3], quad[0])
        yield Stroke(tuple(seen), Pen.THIN, closed=True, fill=_lit(_cross(along, across), slab.tint, eye))
    yield Stroke(tuple(shown), Pen.THIN, closed=True, fill=_lit(outward, slab.tint, eye))
    if near:
        yield from (Stroke(tuple(eye.seen(point) for point in slot), Pen.THIN, closed=True, fill=Tint.INK) for slot in slab.slots)


def _lit(outward: Space, tint: Tint, eye: _Eye) -> Tint:
    outward = eye.turned(outward)
    length = math.sqrt(_dot(outward, outward))
    return tint if length and _dot(outward, LIGHT) / length >= DIM else SHADES[tint]


def _dot(a: Space, b: Space) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _cross(a: Space, b: Space) -> Space:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def _plus(a: Space, b: Space) -> Space:
    return a[0] + b[0], a[1] + b[1], a[2] + b[2]


def _minus(a: Space, b: Space) -> Space:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def _times(a: Space, by: float) -> Space:
    return a[0] * by, a[1] * by, a[2] * by

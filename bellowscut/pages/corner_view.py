"""The picture of one corner, every layer named.

Worked out from the bellows in space and painted from the frame upwards and
from the card outwards. The left side is shown as work goes on, with strips
peeled back; the right side as it is when finished.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from bellowscut.bellows import Bellows
from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.pages.corner_space import CornerSpace, Face, Space, frame_sizes, lap_edge, peeled, started
from bellowscut.pages.furniture import Box
from bellowscut.pages.leaders import LETTERS, Callout, callouts, widest
from bellowscut.shapes import Point, bounds
from bellowscut.words import say, views as words

SEAM = 0.35
"""Where a strip is peeled back its end slants by this share of the fold depth [-]."""

SHADES = {
    Tint.CARD: Tint.CARD_SHADE,
    Tint.LEATHER: Tint.LEATHER_SHADE,
    Tint.STRIP: Tint.STRIP_SHADE,
    Tint.CLOTH: Tint.CLOTH_SHADE,
    Tint.PAPER: Tint.PAPER_SHADE,
    Tint.FRAME: Tint.FRAME_SHADE,
}
"""What each tint becomes on a face that looks down."""


def surface(view: CornerSpace) -> list[Stroke]:
    """All faces in the order in which they are painted, as seen."""
    painter = _Painter(view)
    painter.frame()
    for right in (False, True):
        for face in view.faces(right):
            painter.card(face)
    painter.hinges()
    for face in view.faces(True):
        painter.gusset(face)
    painter.facings("first")
    painter.end_strip()
    painter.ridges()
    painter.facings("last")
    return painter.strokes


class _Painter:
    """Gathers the faces of the picture."""

    def __init__(self, view: CornerSpace) -> None:
        self.view = view
        self.strokes: list[Stroke] = []

    def fill(self, points: Sequence[Space], tint: Tint, *, light: bool = True, pen: Pen = Pen.THIN) -> None:
        """One face."""
        shown = tuple(self.view.seen(point) for point in points)
        self.strokes.append(Stroke(shown, pen, closed=True, fill=tint if light else SHADES[tint]))

    def line(self, points: Sequence[Space], pen: Pen = Pen.THIN) -> None:
        """One line on a face."""
        self.strokes.append(Stroke(tuple(self.view.seen(point) for point in points), pen))

    def patch(self, face: Face, corners: Sequence[tuple[float, float]], tint: Tint, pen: Pen = Pen.THIN) -> None:
        """Something that lies on a card, by distance along the ridge and down the card [mm]."""
        self.fill([self.view.on_card(face, along, down) for along, down in corners], tint, light=face.up, pen=pen)

    def frame(self) -> None:
        """The frame: both outer faces, and as much of its top as the cards leave."""
        view = self.view
        _, tall = frame_sizes(view.bellows)
        for right in (False, True):
            self.frame_face(right, view.reach[right], tall, tall, Tint.FRAME, Pen.SOLID)
            self.frame_top(right, view.reach[right], Tint.FRAME)

    def frame_face(self, right: bool, stop: float, low: float, low_stop: float, tint: Tint, pen: Pen = Pen.THIN) -> None:
        """Something on the frame's outer face, from its edge down; the lower edge may end elsewhere than the upper [mm]."""
        view = self.view
        out, start, top = -view.setback, view.mitre(-view.setback), view.base
        end = stop if low == low_stop else stop - SEAM * view.bellows.depth
        points = ((start, top), (stop, top), (end, top - low), (start, top - low))
        self.fill([view.place(right, along, out, height) for along, height in points], tint, light=not right, pen=pen)

    def frame_top(self, right: bool, stop: float, tint: Tint) -> None:
        """The frame's top, from its outer face to the first card."""
        view = self.view
        inward, near = (view.inward, view.foot) if view.bellows.valley_ends else (0.0, 0.0)
        points = [(near, inward), (stop, inward), (stop, -view.setback), (view.mitre(-view.setback), -view.setback)]
        space = [view.place(right, along, depth, view.base) for along, depth in points]
        if view.bellows.valley_ends:
            middle = view.place(right, view.foot, inward, view.base)
            space.insert(0, (0.0, middle[1], view.base))
        self.fill(space, tint)

    def card(self, face: Face) -> None:
        """A bare card, less half the gaps at its fold lines."""
        view, bellows = self.view, self.view.bellows
        low, high = bellows.ridge_gap / 2, bellows.depth - bellows.valley_gap / 2
        reach = view.reach[face.right]
        last = face == view.faces(face.right)[-1]
        if last:
            high = 0.72 * bellows.depth
        self.patch(face, ((view.leg(low), low), (reach, low), (reach, high), (view.leg(high), high)), Tint.CARD, Pen.SOLID)

    def hinges(self) -> None:
        """Valley hinges, seen through the gap between two cards; their laps dashed on the bare side."""
        view, bellows = self.view, self.view.bellows
        gap, lap = bellows.valley_gap / 2, bellows.profile.hinge.lap
        edge = bellows.depth - gap
        outside = bellows.profile.hinge.valley_side == "outside"
        for right in (False, True):
            reach = view.reach[right]
            for face in view.faces(right)[:-1]:
                shown = lap if outside else 0.0
                if gap + shown > 0:
                    self.valley_band(face, edge - shown, Tint.CLOTH)
                if not right and not outside:
                    self.line([view.on_card(face, along, edge - lap) for along in (view.leg(edge) + 1.0, reach)], Pen.DASHED)
        strip = bellows.profile.valley_strip
        if strip is not None:
            for face in view.faces(True)[:-1]:
                self.valley_band(face, edge - strip.lap, Tint.LEATHER)

    def valley_band(self, face: Face, start: float, tint: Tint) -> None:
        """What lies along a valley from `start` mm down the card to the valley line."""
        view, depth = self.view, self.view.bellows.depth
        reach = view.reach[face.right]
        self.patch(face, ((view.leg(start), start), (reach, start), (reach, depth), (view.leg(depth), depth)), tint)

    def gusset(self, face: Face) -> None:
        """Half a gusset: its laps on both cards, and the flat of leather between their legs."""
        view = self.view
        whole = face != view.faces(True)[-1]
        depth = view.bellows.depth if whole else 0.72 * view.bellows.depth
        other = Face(False, face.ridge, face.up)
        for one in (other, face):
            inner = [(lap_edge(view.bellows, view.corner, down), down) for down in (depth, 0.0)]
            self.patch(one, [(view.leg(0.0), 0.0), (view.leg(depth), depth), *inner], Tint.LEATHER)
        middle = [view.on_card(one, view.leg(down), down) for one, down in ((other, 0.0), (face, 0.0), (face, depth), (other, depth))]
        self.fill(middle, Tint.LEATHER, light=face.up)
        if whole:
            self.line([middle[3], middle[2]], Pen.SOLID)

    def facings(self, order: str) -> None:
        """Facings of the right side."""
        spec = self.view.bellows.profile.facing
        if spec is None or spec.order != order:
            return
        view, bellows = self.view, self.view.bellows
        for face in view.faces(True)[:-1]:
            if order == "first":
                low, high = bellows.ridge_gap / 2 + spec.margin, bellows.depth - bellows.valley_gap / 2 - spec.margin
                starts = [view.leg(down) + spec.margin / math.cos(view.corner.lean) for down in (low, high)]
            else:
                low = bellows.profile.edge_strip.lap - spec.overlap
                high = bellows.depth - spec.short_of_valley
                starts = [lap_edge(bellows, view.corner, down) - spec.overlap for down in (low, high)]
            if spec.span == "pair":
                high = bellows.depth
                if bellows.profile.valley_strip is not None and order == "last":
                    # Begun further along, else what lies under it in the valley would not show.
                    starts = [max(start, begun_facing(view)) for start in starts]
            if high > low:
                self.patch(face, ((starts[0], low), (view.reach[True], low), (view.reach[True], high), (starts[1], high)), Tint.PAPER)

    def end_strip(self) -> None:
        """The end strip, peeled back on the left to show the bare frame."""
        view, bellows = self.view, self.view.bellows
        lap = min(bellows.profile.end_strip.lap, bellows.depth)
        cover, _ = frame_sizes(bellows)
        for right in (False, True):
            stop = view.reach[right] if right else peeled(view)
            end = stop if right else stop - SEAM * bellows.depth
            face = view.faces(right)[0]
            self.frame_top(right, stop, Tint.STRIP)
            if bellows.valley_ends:
                low, high = bellows.depth - lap, bellows.depth
                self.patch(face, ((view.leg(high), high), (stop, high), (end, low), (view.leg(low), low)), Tint.STRIP)
            else:
                start = view.mitre(lap * math.cos(view.angle))
                self.patch(face, ((0.0, 0.0), (stop, 0.0), (end, lap), (start, lap)), Tint.STRIP)
            self.frame_face(right, stop, cover, cover if right else -1.0, Tint.STRIP)

    def ridges(self) -> None:
        """Ridge cloths and edge strips: the lower ridge finished to past the corner, the upper one begun."""
        view = self.view
        for number, ridge in enumerate(view.heights()):
            for right in (False, True):
                for up in (False, True):
                    face = Face(right, ridge, up)
                    if number > 0 or not right:
                        self._cloth(face)
                    self._edge_strip(face, begun=number > 0)
            if number == 0:
                self._corner_patch(ridge)

    def _cloth(self, face: Face) -> None:
        view, spec = self.view, self.view.bellows.profile.ridge_cloth
        if spec is None:
            return
        reach, down = view.reach[face.right], min(spec.lap, view.bellows.depth)
        self.patch(face, ((view.leg(0.0), 0.0), (reach, 0.0), (reach, down), (view.leg(down), down)), Tint.CLOTH)
        self._tip(face, down)

    def _edge_strip(self, face: Face, *, begun: bool) -> None:
        view, depth = self.view, self.view.bellows.depth
        lap, slant, reach = min(view.bellows.profile.edge_strip.lap, depth), SEAM * depth, view.reach[face.right]
        if begun:
            if face.right:
                start = started(view)
                self.patch(face, ((start, 0.0), (reach, 0.0), (reach, lap), (start + slant, lap)), Tint.STRIP)
            return
        stop, end = (reach, reach) if face.right else (peeled(view), peeled(view) - slant)
        self.patch(face, ((0.0, 0.0), (stop, 0.0), (end, lap), (view.mitre(lap * math.cos(view.angle)), lap)), Tint.STRIP)

    def _tip(self, face: Face, down: float) -> None:
        """The gusset's lap again over a ridge cloth."""
        view = self.view
        inner = [(lap_edge(view.bellows, view.corner, at), at) for at in (down, 0.0)]
        self.patch(face, [(view.leg(0.0), 0.0), (view.leg(down), down), *inner], Tint.LEATHER)

    def _corner_patch(self, ridge: float) -> None:
        view, spec = self.view, self.view.bellows.profile.corner_patch
        if spec is None:
            return
        half = min(spec.width / 2, view.bellows.depth)
        mitre = view.mitre(half * math.cos(view.angle))
        for right in (False, True):
            reach = min(max(spec.length, half), view.reach[right])
            for up in (False, True):
                round_end = [(reach - half + half * math.cos(k * math.pi / 12), half * math.sin(k * math.pi / 12)) for k in range(7)]
                ends = [(max(along, mitre), down) for along, down in round_end]
                self.patch(Face(right, ridge, up), ((0.0, 0.0), *ends, (mitre, half)), Tint.LEATHER)


def begun_facing(view: CornerSpace) -> float:
    """Where facings that go through the valley begin when a valley strip is to be seen beside them [mm]."""
    return 0.45 * lap_edge(view.bellows, view.corner, view.bellows.depth) + 0.55 * view.reach[True]


def named(view: CornerSpace) -> list[Callout]:
    """Names of everything that shows."""
    bellows, profile, depth = view.bellows, view.bellows.profile, view.bellows.depth
    left, right = view.faces(False), view.faces(True)
    first = view.heights()[0]
    cover, tall = frame_sizes(bellows)
    reach, out = view.reach, -view.setback

    def at(face: Face, along: float, down: float) -> Point:
        return view.seen(view.on_card(face, along, down))

    # Under the lowest ridge there is a valley at the frame only where the end cards stand on a ridge.
    valley = Face(False, first, up=True) if bellows.valley_ends else left[0]
    middle = view.on_card(Face(True, first, up=True), view.leg(depth * 0.62), depth * 0.62)
    hinge = words.HINGE_OVER_VALLEY if profile.hinge.valley_side == "outside" else words.HINGE_INSIDE
    found = [
        Callout(say(words.CARD), at(left[0], 0.8 * reach[False] + 0.2 * view.leg(depth / 2), depth * 0.5), False),
        Callout(say(words.GUSSET_CORNER), view.seen((-0.35 * middle[0], middle[1], middle[2])), False),
        Callout(say(hinge), at(valley, 0.86 * reach[False], depth - bellows.valley_gap / 4), False),
        Callout(say(words.FRAME), view.seen(view.place(False, 0.94 * reach[False], out, view.base - tall * 0.6)), False),
        Callout(say(words.EDGE_STRIP_OVER_RIDGE), at(Face(True, first, up=True), 0.82 * reach[True], profile.edge_strip.lap * 0.4), True),
        Callout(say(words.END_STRIP_FRAME_CARD), view.seen(view.place(True, 0.8 * reach[True], out, view.base - cover * 0.5)), True),
    ]
    if profile.facing is not None:
        found.append(Callout(say(words.FACING), at(right[-2], 0.7 * reach[True], depth * 0.6), True))
    if profile.valley_strip is not None:
        pair = profile.facing is not None and profile.facing.span == "pair"
        along = (lap_edge(bellows, view.corner, depth) + begun_facing(view)) / 2 if pair else 0.6 * reach[True]
        up = min(0.3 * profile.valley_strip.lap, 0.6 if profile.facing is not None else depth)
        found.append(Callout(say(words.VALLEY_STRIP), at(Face(True, valley.ridge, valley.up), along, depth - up), True))
    if profile.ridge_cloth is not None:
        lap = min(profile.ridge_cloth.lap, depth)
        found.append(Callout(say(words.RIDGE_CLOTH_UNDER_STRIP), at(Face(False, first, up=False), 0.9 * reach[False], lap * 0.4), False))
    if profile.corner_patch is not None:
        patch = profile.corner_patch
        along = min(0.4 * patch.length, reach[True])
        found.append(Callout(say(words.CORNER_PATCH), at(Face(True, first, up=False), along, patch.width * 0.2), True))
    return found


def corner_picture(bellows: Bellows, box: Box) -> list[Item]:
    """The picture with its names, as large as a box allows.

    Parameters
    ----------
    bellows : Bellows
        What is drawn.
    box : tuple of float
        Left, low, right and high edge [mm].

    Returns
    -------
    list of items
        Faces first, then names.
    """
    view = CornerSpace(bellows)
    strokes, calls = surface(view), named(view)
    column = widest(calls, 0.26 * (box[2] - box[0]))
    left, low, right, high = bounds([point for stroke in strokes for point in stroke.points])
    room = (box[2] - box[0] - 2 * column - 9.0, box[3] - box[1] - 5.0)
    scale = min(room[0] / (right - left), room[1] / (high - low))
    middle = (box[0] + box[2]) / 2
    base = box[1] + 5.0 + 0.75 * (room[1] - (high - low) * scale)

    def placed(point: Point) -> Point:
        return middle + (point[0] - (left + right) / 2) * scale, base + (point[1] - low) * scale

    items: list[Item] = [Stroke(tuple(map(placed, stroke.points)), stroke.pen, stroke.closed, stroke.fill) for stroke in strokes]
    side = (right - left) * scale / 2 + column + 4.5
    box = (max(box[0], middle - side), box[1], min(box[2], middle + side), box[3])
    items += callouts([Callout(call.text, placed(call.at), call.right) for call in calls], (box[0], box[1] + 2.0, box[2], box[3]), column)
    items += _side_letters(view, placed)
    return items


def _side_letters(view: CornerSpace, placed: Callable[[Point], Point]) -> list[Item]:
    """Letters of the two sides, under the frame."""
    names = view.bellows.section.side_names
    _, tall = frame_sizes(view.bellows)
    items: list[Item] = []
    for right in (False, True):
        x, y = placed(view.seen(view.place(right, 0.62 * view.reach[right], -view.setback, view.base - tall)))
        side = view.index if right else view.index - 1
        items.append(Label(say(words.SIDE, side=names[side]), (x, y - 6.0), LETTERS, anchor="middle"))
    return items

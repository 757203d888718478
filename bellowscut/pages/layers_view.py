"""A cut through frame, valley and ridge in the middle of a side: what lies on what.

Lengths along the cards are in proportion to the bellows; thicknesses are drawn
stouter than they are, else paper and cloth would not show.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from bellowscut.bellows import Bellows
from bellowscut.drawing import Item, Pen, Stroke, Tint
from bellowscut.pages.furniture import Box
from bellowscut.pages.leaders import Callout, callouts
from bellowscut.shapes import Point
from bellowscut.words import say, views as words

ANGLE = math.radians(50)
"""Card angle of the picture [rad]."""

CARD, CLOTH, LEATHER, STRIP, PAPER = 2.4, 1.0, 1.1, 1.6, 0.8
"""Thicknesses as drawn [mm]."""

FRAME = 10.0
"""Width of the frame as drawn [mm]."""

CARDS = 2.62
"""How many cards the picture shows [-]; the last is broken off."""

SLANT = 1.6
"""How far a pared edge tapers [mm]."""


@dataclass(frozen=True)
class _Fold:
    """A fold line of the picture: the card lines that meet there, told by their inner faces.

    Parameters
    ----------
    at : Point
        Where the inner faces meet [mm].
    valley : bool
        Whether it is a valley.
    """

    at: Point
    valley: bool

    def on(self, right: bool, along: float, out: float) -> Point:
        """A point `along` mm from the fold line on the card to the left or right, `out` mm outwards of its inner face."""
        way = 1.0 if right else -1.0
        up = 1.0 if self.valley else -1.0
        x = way * along * math.sin(ANGLE) - way * up * out * math.cos(ANGLE)
        y = up * along * math.cos(ANGLE) + out * math.sin(ANGLE)
        return self.at[0] + x, self.at[1] + y

    def bend(self, out: float) -> tuple[Point, ...]:
        """How a layer `out` mm from the inner faces goes round the fold line, from left to right."""
        inner_side = (out > 0) == self.valley
        if inner_side or out == 0:
            return (self.on(True, abs(out) / math.tan(ANGLE), out),)
        first, last = self.on(False, 0.0, out), self.on(True, 0.0, out)
        start = math.atan2(first[1] - self.at[1], first[0] - self.at[0])
        end = math.atan2(last[1] - self.at[1], last[0] - self.at[0])
        if self.valley and end < start:
            end += 2 * math.pi
        steps = 6
        return tuple(
            (
                self.at[0] + abs(out) * math.cos(start + (end - start) * k / steps),
                self.at[1] + abs(out) * math.sin(start + (end - start) * k / steps),
            )
            for k in range(steps + 1)
        )

    def band(self, reach: float, low: float, high: float, taper: float = 0.0, right: float | None = None) -> tuple[Point, ...]:
        """A layer over the fold line, `reach` mm down both cards (or `right` mm down the right one), between two distances."""
        other = reach if right is None else right
        inner, outer = (0.0, taper) if high > 0 else (taper, 0.0)
        return (
            self.on(False, reach - inner, low),
            *self.bend(low),
            self.on(True, other - inner, low),
            self.on(True, other - outer, high),
            *reversed(self.bend(high)),
            self.on(False, reach - outer, high),
        )


class LayersView:
    """The cut, drawn for a width.

    Parameters
    ----------
    bellows : Bellows
        What is drawn.
    width : float
        From the frame's outer end to the broken card [mm].
    """

    def __init__(self, bellows: Bellows, width: float) -> None:
        self.bellows = bellows
        self.card = (width - FRAME) / CARDS / math.sin(ANGLE)
        self.scale = self.card / bellows.depth
        drop = self.card * math.cos(ANGLE)
        step = self.card * math.sin(ANGLE)
        # Where end cards stand at a valley on the frame the picture begins a card later.
        self.starts_at_valley = bellows.valley_ends
        if self.starts_at_valley:
            self.start = _Fold((0.0, -drop), valley=True)
            self.ridge, self.valley = _Fold((step, 0.0), valley=False), _Fold((2 * step, -drop), valley=True)
        else:
            self.start = _Fold((0.0, 0.0), valley=False)
            self.valley, self.ridge = _Fold((step, -drop), valley=True), _Fold((2 * step, 0.0), valley=False)
        self.height = drop
        self.strokes: list[Stroke] = []
        self.calls: list[Callout] = []

    def fill(self, points: Sequence[Point], tint: Tint) -> None:
        """One layer."""
        self.strokes.append(Stroke(tuple(points), Pen.THIN, closed=True, fill=tint))

    def lap(self, length: float) -> float:
        """A length along the card as drawn, at most the card [mm]."""
        return min(length * self.scale, 0.93 * self.card)

    def draw(self) -> None:
        """Everything, from the frame and the cards to what lies on them."""
        self._frame()
        self._cards()
        self._inside()
        facing = self.bellows.profile.facing
        if facing is not None and facing.order == "first":
            self._facings()
        self._outside()
        if facing is not None and facing.order == "last":
            self._facings()

    # -- parts of the picture ---------------------------------------------

    def _frame(self) -> None:
        top = self.start.at[1] + CARD * math.sin(ANGLE)
        low = top - max(0.62 * self.height, 9.0) if not self.starts_at_valley else self.start.at[1] - 7.0
        if self.starts_at_valley:
            top = CARD
        self.fill(((-FRAME, low), (0.0, low), (0.0, top), (-FRAME, top)), Tint.FRAME)
        self.frame_top, self.frame_low = top, low
        self.calls.append(Callout(say(words.FRAME), (-FRAME * 0.55, (top + low) / 2), False))
        gasket = self.bellows.profile.gasket
        if gasket is not None:
            self.fill(((-FRAME, low - LEATHER), (0.0, low - LEATHER), (0.0, low), (-FRAME, low)), Tint.LEATHER)
            self.calls.append(self._named(say(words.GASKET), gasket.material, (-FRAME * 0.75, low - LEATHER / 2), False))

    def _cards(self) -> None:
        gap = CARD / math.tan(ANGLE) + 0.35
        first, second = (self.start, self.valley) if not self.starts_at_valley else (self.start, self.ridge)
        last = self.ridge if not self.starts_at_valley else self.valley

        def trim(fold: _Fold) -> float:
            return gap if fold.valley else 0.0

        for one, other in ((first, second), (second, last)):
            points = [
                one.on(True, trim(one), 0.0),
                other.on(False, trim(other), 0.0),
                other.on(False, trim(other), CARD),
                one.on(True, trim(one), CARD),
            ]
            self.fill(points, Tint.CARD)
        stop = (CARDS - 2) * self.card
        ends = [last.on(True, stop + shift, CARD * share) for share, shift in ((0.0, 0.0), (0.35, 0.9), (0.6, -0.7), (1.0, 0.4))]
        self.fill([last.on(True, trim(last), 0.0), *ends, last.on(True, trim(last), CARD)], Tint.CARD)
        at = second.on(False, 0.5 * self.card, CARD / 2)
        if self.starts_at_valley:
            at = second.on(True, 0.5 * self.card, CARD / 2)
        self.calls.append(self._named(say(words.CARD), self.bellows.profile.card.material, at, False))

    def _inside(self) -> None:
        profile = self.bellows.profile
        lap = self.lap(profile.hinge.lap)
        self.fill(self.ridge.band(lap, -CLOTH, 0.0), Tint.CLOTH)
        name = say(words.RIDGE_HINGE)
        self.calls.append(self._named(name, profile.hinge.material, self.ridge.on(True, lap * 0.7, -CLOTH / 2), True))
        if profile.hinge.valley_side == "outside":
            self.fill(self.valley.band(lap, CARD, CARD + CLOTH), Tint.CLOTH)
            spot, name = self.valley.on(True, lap * 0.8, CARD + CLOTH / 2), say(words.VALLEY_HINGE)
        else:
            self.fill(self.valley.band(lap, -CLOTH, 0.0), Tint.CLOTH)
            spot, name = self.valley.on(True, lap * 0.5, -CLOTH / 2), say(words.VALLEY_HINGE)
        self.calls.append(self._named(name, profile.hinge.material, spot, True))
        frame = profile.frame_hinge
        if frame is not None:
            lap = self.lap(frame.lap)
            down = max(self.start.at[1] - lap, self.frame_low)
            points = [(0.0, down), (CLOTH, down), (CLOTH, self.start.at[1] - CLOTH * 1.6)]
            card = [self.start.on(True, lap, -CLOTH), self.start.on(True, lap, 0.0), self.start.on(True, 0.0, 0.0)]
            if self.starts_at_valley:
                points = [(0.0, down), (CLOTH, down), (CLOTH, self.start.at[1] - CLOTH * 0.3)]
            self.fill((*points, *card), Tint.CLOTH)
            self.calls.append(self._named(say(words.FRAME_HINGE), frame.material, (CLOTH / 2, (down + self.start.at[1]) / 2), False))

    def _outside(self) -> None:
        profile = self.bellows.profile
        base = CARD
        if profile.valley_strip is not None:
            low = CARD + (CLOTH if profile.hinge.valley_side == "outside" else 0.0)
            lap = self.lap(profile.valley_strip.lap) + CARD / math.tan(ANGLE)
            self.fill(self.valley.band(lap, low, low + LEATHER), Tint.LEATHER)
            spot = self.valley.on(not self.starts_at_valley, lap * 0.85, low + LEATHER / 2)
            self.calls.append(self._named(say(words.VALLEY_STRIP), profile.valley_strip.material, spot, not self.starts_at_valley))
        lap = self.lap(profile.edge_strip.lap)
        if profile.ridge_cloth is not None:
            base = CARD + CLOTH
        self.fill(self.ridge.band(lap, CARD, base + STRIP, SLANT), Tint.STRIP)
        self.calls.append(
            self._named(say(words.EDGE_STRIP), profile.edge_strip.material, self.ridge.on(True, lap * 0.45, base + STRIP / 2), True)
        )
        if profile.ridge_cloth is not None:
            cloth = self.lap(profile.ridge_cloth.lap)
            self.fill(self.ridge.band(min(cloth, lap - SLANT), CARD, base), Tint.CLOTH)
            self.calls.append(
                self._named(say(words.RIDGE_CLOTH), profile.ridge_cloth.material, self.ridge.on(False, cloth * 0.2, CARD + CLOTH / 2), True)
            )
        self._end_strip()

    def _end_strip(self) -> None:
        spec = self.bellows.profile.end_strip
        cover = min(spec.frame_cover * self.scale, FRAME - 1.0)
        lap, top = self.lap(spec.lap), self.frame_top
        on_frame = [(-cover, top), (SLANT - cover, top + STRIP)]
        if self.starts_at_valley:
            gap = (CARD + STRIP) / math.tan(ANGLE)
            foot = self.start.on(True, gap, CARD + STRIP)
            card = [
                self.start.on(True, lap + gap - SLANT, CARD + STRIP),
                self.start.on(True, lap + gap, CARD),
                self.start.on(True, CARD / math.tan(ANGLE), CARD),
            ]
            self.fill(
                (
                    *on_frame,
                    (0.0, top + STRIP),
                    (STRIP, top),
                    (STRIP, max(foot[1], self.start.at[1] + 1)),
                    *card,
                    (0.0, self.start.at[1] + CARD),
                    (0.0, top),
                ),
                Tint.STRIP,
            )
        else:
            card = [self.start.on(True, lap - SLANT, CARD + STRIP), self.start.on(True, lap, CARD), self.start.on(True, 0.0, CARD)]
            bend = [(CARD * math.cos(ANGLE) + STRIP * math.sin(a), top + STRIP * math.cos(a)) for a in (0.0, 0.3, 0.6, math.pi / 2 - ANGLE)]
            self.fill((*on_frame, *bend, *card, (0.0, top)), Tint.STRIP)
        self.calls.append(self._named(say(words.END_STRIP), spec.material, (-cover * 0.45, top + STRIP / 2), False))

    def _facings(self) -> None:
        profile = self.bellows.profile
        spec = profile.facing
        assert spec is not None
        if spec.order == "first":
            low, high = spec.margin, self.bellows.depth - self.bellows.valley_gap / 2 - spec.margin
        else:
            low, high = profile.edge_strip.lap - spec.overlap, self.bellows.depth - spec.short_of_valley
        low, high = low * self.scale, min(high * self.scale, self.card - (CARD + PAPER) / math.tan(ANGLE))
        if high <= low:
            return
        broken = (CARDS - 2) * self.card - 1.5
        through = spec.span == "pair"
        if through:
            strip = profile.valley_strip
            base = CARD if strip is None or spec.order == "first" else CARD + LEATHER
            right = broken if self.starts_at_valley else self.card - low
            self.fill(self.valley.band(self.card - low, base, base + PAPER, right=right), Tint.PAPER)
        cards = [(self.ridge, False, high), (self.ridge, True, high if self.starts_at_valley else min(high, broken))]
        if not self.starts_at_valley:
            cards.append((self.start, True, high))
        # The cards on both sides of the valley are done where one facing goes through it.
        done = ((self.ridge, True),) if self.starts_at_valley else ((self.ridge, False), (self.start, True))
        for fold, right_card, stop in cards:
            if stop > low and not (through and (fold, right_card) in done):
                corners = ((low, CARD), (stop, CARD), (stop, CARD + PAPER), (low, CARD + PAPER))
                self.fill([fold.on(right_card, at, out) for at, out in corners], Tint.PAPER)
        named = self.ridge.on(True, (low + cards[1][2]) / 2, CARD + PAPER / 2)
        self.calls.append(self._named(say(words.FACING), spec.material, named, True))

    def _named(self, name: str, material: str, at: Point, right: bool) -> Callout:
        thickness = self.bellows.rule.fine(self.bellows.material(material).thickness)
        return Callout(say(words.WITH_THICKNESS, name=name, mm=thickness), at, right, True)


def layers_picture(bellows: Bellows, box: Box, column: float) -> list[Item]:
    """The cut with its names, as wide as a box allows.

    Parameters
    ----------
    bellows : Bellows
        What is drawn.
    box : tuple of float
        Left, low, right and high edge [mm].
    column : float
        Width of the names on each side [mm].

    Returns
    -------
    list of items
        Layers first, then names.
    """
    # The height decides too: the cards of the picture fall by their cosine.
    tallest = FRAME + (box[3] - box[1] - 13.0) * CARDS * math.tan(ANGLE)
    width = min(box[2] - box[0] - 2 * column - 8.0, tallest)
    view = LayersView(bellows, width)
    view.draw()
    ys = [y for stroke in view.strokes for _, y in stroke.points]
    dx = (box[0] + box[2] - width) / 2 + FRAME
    box = (dx - FRAME - column - 4.0, box[1], dx - FRAME + width + column + 4.0, box[3])
    dy = (box[1] + box[3]) / 2 - (min(ys) + max(ys)) / 2

    def placed(point: Point) -> Point:
        return point[0] + dx, point[1] + dy

    items: list[Item] = [Stroke(tuple(map(placed, stroke.points)), stroke.pen, stroke.closed, stroke.fill) for stroke in view.strokes]
    return items + callouts([replace(call, at=placed(call.at)) for call in view.calls], box, column)

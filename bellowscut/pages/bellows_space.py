"""The whole bellows in space: every card, gusset and frame face, at any card angle.

The bellows stands upright on its left-hand frame with the first end on top,
so that from above its sides run counter-clockwise as on the section. Cards are
taken for rigid and thin. The leather of a corner is flat at full stretch; at
less there is more of it than the corner needs, and it stands out in three flat
flaps between the cards: at the valley it keeps its whole length, and nowhere
is it longer than it was cut.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bellowscut.bellows import Bellows
from bellowscut.drawing import Tint
from bellowscut.folds import Corner
from bellowscut.pages.corner_space import Space, lap_edge
from bellowscut.shapes import Point

FLAPS = 3
"""Flat pieces of a gusset that is wider than its corner [-]."""

SPARE = 1e-6
"""Leather that is wider than its corner by no more than this share of it is drawn flat [-]."""


@dataclass(frozen=True)
class State:
    """How far the bellows is open.

    Parameters
    ----------
    name : str
        ``closed``, ``half-open`` or ``open``.
    length : float
        Frame to frame [mm].
    angle : float
        Of the cards above the flat, shut state [rad].
    """

    name: str
    length: float
    angle: float


def states(bellows: Bellows) -> tuple[State, State, State]:
    """Closed to what its layers take, half open, and at full stretch."""
    shut, wide = bellows.closed_length, bellows.open_length
    lengths = (("closed", shut), ("half-open", (shut + wide) / 2), ("open", wide))
    reach = bellows.cards_per_side * bellows.depth
    found = [State(name, length, math.asin(min(1.0, length / reach))) for name, length in lengths]
    return found[0], found[1], found[2]


@dataclass(frozen=True)
class Facet:
    """A flat face of the bellows.

    Parameters
    ----------
    name : str
        ``card``, ``gusset`` or ``frame``.
    points : tuple of Space
        Counter-clockwise from outside [mm].
    tint : Tint
        Of its outside.
    inside : Tint
        Of its inside.
    overlays : tuple
        What is glued to its outside, lowest first: points and tint.
    """

    name: str
    points: tuple[Space, ...]
    tint: Tint
    inside: Tint
    overlays: tuple[tuple[tuple[Space, ...], Tint], ...] = ()

    def raised(self, height: float) -> Facet:
        """The same face further up [mm]."""
        over = tuple((_raised(points, height), tint) for points, tint in self.overlays)
        return Facet(self.name, _raised(self.points, height), self.tint, self.inside, over)


def _raised(points: Sequence[Space], height: float) -> tuple[Space, ...]:
    return tuple((x, y, z + height) for x, y, z in points)


@dataclass(frozen=True)
class Band:
    """A slice of one ring of cards between two levels.

    Parameters
    ----------
    cards : tuple of Facet
        One for each side; together with the chords of the corners they bound a convex body.
    gussets : tuple of tuple of Facet
        The flaps of each corner; they stand outside the chord of that corner, and with it bound a convex body.
    chords : tuple of tuple of Space
        The flat face through both legs of each corner, counter-clockwise from outside.
    """

    cards: tuple[Facet, ...]
    gussets: tuple[tuple[Facet, ...], ...]
    chords: tuple[tuple[Space, ...], ...]


class BellowsSpace:
    """The bellows in space, its lower frame's edge at height 0.

    Parameters
    ----------
    bellows : Bellows
        What is drawn.
    state : State
        How far it is open.
    """

    def __init__(self, bellows: Bellows, state: State) -> None:
        self.bellows = bellows
        self.state = state
        self.count = bellows.section.count
        self.rise = bellows.depth * math.sin(state.angle)
        self.inward = bellows.depth * math.cos(state.angle)
        ridge = bellows.section.ridge
        self._ridge, self._sides = ridge, bellows.section.sides
        self._inward = math.cos(state.angle)
        # Bands share their edges, and rings their corners.
        self._legs: dict[tuple[int, float, bool], Point] = {}
        self._valleys: dict[int, tuple[Point, ...]] = {}
        self._along = []
        for i, (x, y) in enumerate(ridge):
            u, v = ridge[(i + 1) % self.count]
            length = math.dist((x, y), (u, v))
            self._along.append(((u - x) / length, (v - y) / length))

    @property
    def length(self) -> float:
        """Frame to frame [mm]."""
        return self.bellows.cards_per_side * self.rise

    # cards and corners -------------------------------------------------

    def on_card(self, side: int, along: float, down: float) -> Point:
        """A point of a card seen along the bellows, by its distance along the ridge line and down the card [mm]."""
        x, y = self._ridge[side]
        dx, dy = self._along[side]
        inward = down * self._inward
        return x + dx * along - dy * inward, y + dy * along + dx * inward

    def leg(self, corner: int, down: float, *, after: bool) -> Point:
        """A point of a corner's leg, on the card after it or on the card before it [mm]."""
        key = (corner, down, after)
        if key not in self._legs:
            one = self.bellows.corners[corner]
            along = one.cut_back + down * math.tan(one.lean)
            side = corner if after else (corner - 1) % self.count
            self._legs[key] = self.on_card(side, along if after else self._sides[side] - along, down)
        return self._legs[key]

    def valley_line(self, corner: int) -> tuple[Point, ...]:
        """A corner's leather along its valley, from the card before to the card after [mm].

        Chords of an arc that is as long as the leather is wide at full stretch.
        """
        if corner not in self._valleys:
            self._valleys[corner] = self._valley_line(corner)
        return self._valleys[corner]

    def _valley_line(self, corner: int) -> tuple[Point, ...]:
        start, end = (self.leg(corner, self.bellows.depth, after=after) for after in (False, True))
        leather = self.bellows.corners[corner].opening(self.bellows.stretch)
        gap = math.dist(start, end)
        if leather <= gap * (1 + SPARE):
            return start, end
        across = self._across(corner)
        out = (across[1], -across[0])
        turn = _turn(gap / leather)
        # Each chord is a third of the leather; they turn about the middle one, which runs straight across.
        chord = leather / FLAPS
        points = [start]
        for k in range(FLAPS):
            way = turn * ((FLAPS - 1) / 2 - k)
            along, off = chord * math.cos(way), chord * math.sin(way)
            x, y = points[-1]
            points.append((x + across[0] * along + out[0] * off, y + across[1] * along + out[1] * off))
        points[-1] = end
        return tuple(points)

    def _across(self, corner: int) -> Point:
        """Direction from the card before a corner to the card after it, square to the plane that halves the corner."""
        (ax, ay), (bx, by) = self._along[corner - 1], self._along[corner]
        length = math.hypot(ax + bx, ay + by)
        return (ax + bx) / length, (ay + by) / length

    def _cut(self, corner: int, down: float) -> tuple[Point, ...]:
        """A corner's leather at some distance down the cards, from the card before to the card after [mm]."""
        valley = self.valley_line(corner)
        share = down / self.bellows.depth
        ends = [self.leg(corner, 0.0, after=after) for after in (False, True)]
        found = []
        for k, (x, y) in enumerate(valley):
            u, v = ends[2 * k >= len(valley)]
            found.append((u + (x - u) * share, v + (y - v) * share))
        return tuple(found)

    # rings ---------------------------------------------------------------

    def ring(self, *, up: bool, frame_at: str = "") -> tuple[Band, ...]:
        """The bands of one ring of cards from height 0 up, the lowest first.

        Parameters
        ----------
        up : bool
            Whether the valley lies above the ridge; such cards look up.
        frame_at : str
            ``ridge`` or ``valley`` where that line of the ring lies on a frame.
        """
        found = [self._band(low, high, tint, up=up) for low, high, tint in self._levels(frame_at)]
        return tuple(found if up else reversed(found))

    def _levels(self, frame_at: str) -> list[tuple[float, float, Tint]]:
        """What shows on a card from the ridge line down, strips and the rest, each from and to [mm]; no tint is the card itself."""
        profile, depth = self.bellows.profile, self.bellows.depth
        strip = profile.end_strip.lap if frame_at == "ridge" else profile.edge_strip.lap
        facing = profile.facing
        if facing is not None and facing.order == "last" and frame_at != "ridge":
            strip = max(0.0, strip - facing.overlap)
        strip = min(strip, 0.9 * depth)
        end = depth - min(profile.end_strip.lap, 0.9 * (depth - strip)) if frame_at == "valley" else depth
        levels = [(0.0, strip, Tint.STRIP), (strip, end, Tint.NONE), (end, depth, Tint.STRIP)]
        return [(low, high, tint) for low, high, tint in levels if high - low > 1e-9]

    def _height(self, down: float, *, up: bool) -> float:
        share = down / self.bellows.depth
        return self.rise * (share if up else 1 - share)

    def _band(self, low: float, high: float, tint: Tint, *, up: bool) -> Band:
        """One band of a ring, between two distances from the ridge line [mm]."""

        def face(nearer: Sequence[Point], further: Sequence[Point]) -> tuple[Space, ...]:
            """A face by its edge nearer to the ridge and the other one, both from left to right."""
            one = [(x, y, self._height(low, up=up)) for x, y in nearer]
            two = [(x, y, self._height(high, up=up)) for x, y in further]
            below, above = (one, two) if up else (two, one)
            return _without_repeats((*below, *reversed(above)))

        cards = [
            Facet(
                "card",
                face(*([self.leg(i, down, after=True), self.leg((i + 1) % self.count, down, after=False)] for down in (low, high))),
                tint if tint is not Tint.NONE else Tint.CARD,
                Tint.CARD_SHADE,
                () if tint is not Tint.NONE else tuple(self._overlays(i, low, high, up=up)),
            )
            for i in range(self.count)
        ]
        gussets, chords = [], []
        for i in range(self.count):
            one, two = self._cut(i, low), self._cut(i, high)
            gussets.append(
                tuple(
                    Facet(
                        "gusset", face(one[k : k + 2], two[k : k + 2]), tint if tint is not Tint.NONE else Tint.LEATHER, Tint.LEATHER_SHADE
                    )
                    for k in range(len(one) - 1)
                )
            )
            chords.append(face((one[0], one[-1]), (two[0], two[-1])))
        return Band(tuple(cards), tuple(gussets), tuple(chords))

    def _overlays(self, side: int, low: float, high: float, *, up: bool) -> list[tuple[tuple[Space, ...], Tint]]:
        """Facing and gusset laps between two distances from the ridge line [mm], the lowest first."""
        bellows = self.bellows
        sides = self._sides[side]
        before, after = bellows.corner_pair(side)

        def leg(corner: Corner, down: float) -> float:
            return corner.cut_back + down * math.tan(corner.lean)

        def lap(corner: Corner, down: float, less: float = 0.0) -> float:
            return max(leg(corner, down), lap_edge(bellows, corner, down) - less)

        def placed(corners: Sequence[tuple[float, float]]) -> tuple[Space, ...]:
            found = [(*self.on_card(side, along, down), self._height(down, up=up)) for along, down in corners]
            return _without_repeats(found if up else tuple(reversed(found)))

        laps = [
            (
                placed(((leg(before, low), low), (lap(before, low), low), (lap(before, high), high), (leg(before, high), high))),
                Tint.LEATHER,
            ),
            (
                placed(
                    [
                        (sides - along, down)
                        for along, down in (
                            (lap(after, low), low),
                            (leg(after, low), low),
                            (leg(after, high), high),
                            (lap(after, high), high),
                        )
                    ]
                ),
                Tint.LEATHER,
            ),
        ]
        facing = bellows.profile.facing
        if facing is None:
            return laps
        if facing.order == "first":
            set_in = [facing.margin / math.cos(corner.lean) for corner in (before, after)]
            top, foot = max(low, bellows.ridge_gap / 2 + facing.margin), min(high, bellows.depth - bellows.valley_gap / 2 - facing.margin)
            left, right = ([leg(corner, down) + off for down in (top, foot)] for corner, off in zip((before, after), set_in, strict=True))
        else:
            top, foot = low, min(high, bellows.depth - (0.0 if facing.span == "pair" else facing.short_of_valley))
            left, right = ([lap(corner, down, facing.overlap) for down in (top, foot)] for corner in (before, after))
        if foot <= top:
            return laps
        paper = (placed(((left[0], top), (sides - right[0], top), (sides - right[1], foot), (left[1], foot))), Tint.PAPER)
        return [paper, *laps] if facing.order == "first" else [*laps, paper]

    def rings(self) -> list[tuple[float, bool, str]]:
        """Height, whether its cards look up, and what lies on a frame, of every ring from below."""
        cards, at_frame = self.bellows.cards_per_side, "valley" if self.bellows.valley_ends else "ridge"
        first_up = not self.bellows.valley_ends
        found = []
        for k in range(cards):
            ends = k in (0, cards - 1)
            found.append((k * self.rise, (k % 2 == 0) == first_up, at_frame if ends else ""))
        return found


def _without_repeats(points: Sequence[Space]) -> tuple[Space, ...]:
    """The points less those that repeat the one before."""
    return tuple(point for i, point in enumerate(points) if math.dist(point, points[i - 1]) > 1e-9)


def _turn(share: float) -> float:
    """Turn from one of three equal chords to the next, whose ends stand `share` of their whole length apart [rad]."""
    # Two chords turned by as much to either side of a third: 1 + 2 cos(turn) thirds.
    return math.acos(max(-1.0, min(1.0, (3 * share - 1) / 2)))

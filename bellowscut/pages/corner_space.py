"""One corner of the bellows in space, and how the eye sees it.

Cards have their true shapes, folded to a card angle that shows them well. The
eye looks down more flatly than any card or gusset slopes, so that no face
hides another.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from bellowscut.bellows import Bellows
from bellowscut.folds import Corner
from bellowscut.shapes import Point

Space = tuple[float, float, float]
"""A place in space [mm]: right, towards the reader, up; the corner of the frame's edge is the origin."""

SHOWN_LEAST, SHOWN_MOST = 48.0, 60.0
"""Card angles between which the picture is drawn, whatever the stretch [deg]."""

LOOK_DOWN = 22.0
"""Most that the eye looks down [deg]."""

LOOK_SHARE = 0.55
"""The eye looks down at most this share of the flattest slope in the picture [-]."""


def sharpest(bellows: Bellows) -> int:
    """Index of the corner that turns most; of equal ones AB, then the next."""
    count = bellows.section.count
    turns = bellows.section.turns
    return max(((k + 1) % count for k in range(count)), key=lambda k: round(turns[k], 6))


@dataclass(frozen=True)
class Face:
    """One card, told by where its ridge line lies and which way it runs from there to the valley.

    Parameters
    ----------
    right : bool
        Which side of the corner it is on.
    ridge : float
        Height of its ridge line [mm].
    up : bool
        Whether the valley lies above the ridge; such a card looks up and is light.
    """

    right: bool
    ridge: float
    up: bool


class CornerSpace:
    """The corner in space.

    Parameters
    ----------
    bellows : Bellows
        What is drawn.
    """

    def __init__(self, bellows: Bellows) -> None:
        self.bellows = bellows
        self.index = sharpest(bellows)
        self.corner: Corner = bellows.corners[self.index]
        self.angle = math.radians(min(max(bellows.stretch, SHOWN_LEAST), SHOWN_MOST))
        self.rise = bellows.depth * math.sin(self.angle)
        self.inward = bellows.depth * math.cos(self.angle)
        self.ridges = min(2, bellows.folds)
        self.base = -self.rise if bellows.valley_ends else 0.0
        foot = self.corner.cut_back + bellows.depth * math.tan(self.corner.lean)
        self.reach = {right: self._reach(right, foot) for right in (False, True)}
        self.foot = foot
        self.look = self._look_down()

    def _reach(self, right: bool, foot: float) -> float:
        """How much of a side is drawn [mm]: never past where its other leg begins."""
        side = self.index if right else (self.index - 1) % self.bellows.section.count
        pair = self.bellows.corner_pair(side)
        other = pair[1] if right else pair[0]
        whole = self.bellows.section.sides[side] - other.cut_back - self.bellows.depth * math.tan(other.lean)
        return min(whole, foot + 2.1 * self.bellows.depth)

    def _look_down(self) -> float:
        """How far the eye looks down [rad]."""
        half = self.corner.half_turn
        back = self.foot * math.sin(half) + self.inward * math.cos(half)
        flattest = math.atan2(self.rise, back)
        return min(math.radians(LOOK_DOWN), LOOK_SHARE * flattest)

    # in space ----------------------------------------------------------

    def place(self, right: bool, along: float, inward: float, height: float) -> Space:
        """A point by its distance from the corner along the ridge line, from the ridge plane inwards, and its height [mm]."""
        half = self.corner.half_turn
        way = 1.0 if right else -1.0
        across = math.cos(half) * along - math.sin(half) * inward
        toward = -math.sin(half) * along - math.cos(half) * inward
        return way * across, toward, height

    def on_card(self, face: Face, along: float, down: float) -> Space:
        """A point on a card's outside, `down` mm from its ridge line [mm]."""
        rise = down * math.sin(self.angle)
        return self.place(face.right, along, down * math.cos(self.angle), face.ridge + (rise if face.up else -rise))

    def seen(self, point: Space) -> Point:
        """A point in space as the eye sees it [mm]."""
        x, toward, height = point
        return x, height * math.cos(self.look) - toward * math.sin(self.look)

    @property
    def setback(self) -> float:
        """How far the frame stands out from the ridge lines [mm]."""
        a, b = self.bellows.section.frame[:2]
        x, y = self.bellows.section.ridge[0]
        return ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / math.dist(a, b)

    def mitre(self, inward: float) -> float:
        """Where two planes moved inwards meet, along the ridge line from its corner [mm]."""
        return inward * math.tan(self.corner.half_turn)

    def leg(self, down: float) -> float:
        """Distance of a card's leg from the corner of the section [mm]."""
        return self.corner.cut_back + down * math.tan(self.corner.lean)

    def faces(self, right: bool) -> list[Face]:
        """The cards of one side that are drawn whole, from the frame up."""
        found = []
        if not self.bellows.valley_ends:
            found.append(Face(right, 0.0, True))
        for ridge in self.heights():
            found.append(Face(right, ridge, False))
            found.append(Face(right, ridge, True))
        return found

    def heights(self) -> list[float]:
        """Heights of the ridge lines between the frames [mm]."""
        first = 0.0 if self.bellows.valley_ends else 2 * self.rise
        return [first + 2 * self.rise * k for k in range(self.ridges)]


def frame_sizes(bellows: Bellows) -> tuple[float, float]:
    """Height of the cover, and of the whole frame, as drawn [mm]: a frame is not to scale where it is very high."""
    cover = min(bellows.profile.end_strip.frame_cover, 0.9 * bellows.depth)
    return cover, cover + 0.4 * bellows.depth


def lap_edge(bellows: Bellows, corner: Corner, down: float) -> float:
    """Where the gusset's cut edge lies on a card, from the corner of the section [mm], `down` mm from the ridge line."""
    spec = bellows.profile.gusset
    across, along = math.cos(corner.lean), math.sin(corner.lean)
    foot = corner.cut_back + corner.depth * math.tan(corner.lean)
    ridge = (corner.cut_back + spec.tip_lap * across, -spec.tip_lap * along)
    valley = (foot + spec.lap * across, corner.depth - spec.lap * along)
    return ridge[0] + (valley[0] - ridge[0]) * (down - ridge[1]) / (valley[1] - ridge[1])


def peeled(view: CornerSpace) -> float:
    """How far strips reach round the corner onto the left side [mm]."""
    return min(view.foot + 0.35 * view.bellows.depth, 0.62 * view.reach[False] + 0.38 * view.foot)


def started(view: CornerSpace) -> float:
    """Where the upper edge strip begins on the right side [mm]."""
    return min(view.foot + 0.2 * view.bellows.depth, 0.5 * (view.reach[True] + view.foot))

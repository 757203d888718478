"""Which faces of the bellows hide which: the order in which they are painted.

Whatever is painted later covers what was painted before. The eye looks down,
so slices between level planes come from below. Within one slice the cards and
the chords of the corners bound a convex body: of that, faces that look away
come first. The leather of a corner stands outside its chord: where the eye is
on the inner side of the chord's plane it comes before the cards, else after
them, the furthest corner first.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from bellowscut.drawing import Tint
from bellowscut.pages.bellows_space import Band, BellowsSpace, Facet
from bellowscut.pages.corner_space import Space
from bellowscut.pages.corner_view import SHADES
from bellowscut.pages.frame_space import frame_faces, frame_tall, opening
from bellowscut.shapes import Point, bounds, signed_area

LOOK_DOWN = math.radians(24)
"""How far the eye looks down [rad]."""

SHARE_LEFT = 0.34
"""Side A is turned to the left by this share of the turn between A and B [-]."""

LIGHT = (-0.52, -0.5, 0.69)
"""Where light comes from: right, away from the eye, up [-]."""

DIM = 0.2
"""Faces that get less light than this are drawn in their darker tint [-]."""

EDGE_ON = 1e-9
"""A face no larger than this in the picture is seen from its edge [mm^2]."""


@dataclass(frozen=True)
class Painted:
    """Something painted: a face of the bellows or what lies on it.

    Parameters
    ----------
    points : tuple of Point
        As seen [mm].
    tint : Tint
        Its fill.
    level : Facet
        The face that it belongs to, as if at height 0.
    inside : bool
        Whether its inside is seen, as it can be through the upper frame only.
    height : float
        How far up that face is [mm].
    """

    points: tuple[Point, ...]
    tint: Tint
    level: Facet
    inside: bool = False
    height: float = 0.0

    @property
    def facet(self) -> Facet:
        """The face that it belongs to, where that is in space."""
        return self.level.raised(self.height)

    def raised(self, by: float, height: float) -> Painted:
        """The same further up: `by` mm in the picture, `height` mm in space."""
        return Painted(tuple([(x, y + by) for x, y in self.points]), self.tint, self.level, self.inside, self.height + height)


class Eye:
    """Where the bellows is seen from: from far away, from above, side A to the left and AB to the right of the middle.

    Parameters
    ----------
    space : BellowsSpace
        What is seen.
    """

    def __init__(self, space: BellowsSpace) -> None:
        section = space.bellows.section
        (ax, ay), (bx, by) = section.ridge[:2]
        turn = math.radians(section.turns[1])
        left = SHARE_LEFT * turn if turn <= math.pi / 2 else turn / 2 - math.radians(12)
        around = -math.atan2(by - ay, bx - ax) - left
        self._cos, self._sin = math.cos(around), math.sin(around)
        self.flat, self.steep = math.sin(LOOK_DOWN), math.cos(LOOK_DOWN)

    def turned(self, x: float, y: float) -> Point:
        """A point of the section: right, and away from the eye [mm]."""
        return x * self._cos - y * self._sin, x * self._sin + y * self._cos

    def seen(self, point: Space) -> Point:
        """A point of space in the picture; heights are drawn shorter by `steep` [mm]."""
        x, y = self.turned(point[0], point[1])
        return x, y * self.flat + point[2] * self.steep

    def lit(self, points: Sequence[Space]) -> bool:
        """Whether a face's outside is in the light."""
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = points[0], points[1], points[-1]
        ux, uy, uz, vx, vy, vz = bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az
        x, y, z = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
        length = math.hypot(x, y, z)
        x, y = self.turned(x, y)
        return length > 0 and (x * LIGHT[0] + y * LIGHT[1] + z * LIGHT[2]) / length >= DIM


def painted(space: BellowsSpace, eye: Eye) -> list[Painted]:
    """Every face that may be seen, in the order of painting.

    Parameters
    ----------
    space : BellowsSpace
        The bellows.
    eye : Eye
        Where it is seen from.

    Returns
    -------
    list of Painted
        The last one that holds a point of the picture is the one that is seen there.
    """
    window = bounds([eye.seen((x, y, space.length + frame_tall(space))) for x, y in opening(space)])
    found = _frame(space, eye, upper=False)
    made: dict[tuple[bool, str], list[Painted]] = {}
    for height, up, frame_at in space.rings():
        kind = (up, frame_at)
        if kind not in made:
            made[kind] = [one for band in space.ring(up=up, frame_at=frame_at) for one in _band(band, eye)]
        by = height * eye.steep
        found += [one.raised(by, height) for one in made[kind] if not one.inside or _meets(one, by, window)]
    return found + _frame(space, eye, upper=True)


def _meets(one: Painted, by: float, window: tuple[float, float, float, float]) -> bool:
    """Whether a face raised by so much meets a box at all [mm]."""
    left, low, right, high = bounds(one.points)
    return left < window[2] and right > window[0] and low + by < window[3] and high + by > window[1]


def _frame(space: BellowsSpace, eye: Eye, *, upper: bool) -> list[Painted]:
    return [one for facets in frame_faces(space, upper=upper) for facet in facets if _front(facet, eye) for one in _paint(facet, eye)]


def _band(band: Band, eye: Eye) -> Iterable[Painted]:
    """A slice of a ring in the order of painting."""
    chords = [_area(chord, eye) for chord in band.chords]
    # A chord that is seen from its edge hides nothing of its own leather.
    order = sorted(range(len(chords)), key=lambda i: -eye.turned(*band.chords[i][0][:2])[1])
    for corner in order:
        if chords[corner] <= 0:
            yield from _convex(band.gussets[corner], eye)
    yield from _convex(band.cards, eye)
    for corner in order:
        if chords[corner] > 0:
            yield from _convex(band.gussets[corner], eye)


def _convex(facets: Sequence[Facet], eye: Eye) -> Iterable[Painted]:
    """Faces of a convex body: those that look away first."""
    for facet in facets:
        if not _front(facet, eye):
            yield from _paint(facet, eye)
    for facet in facets:
        if _front(facet, eye):
            yield from _paint(facet, eye)


def _front(facet: Facet, eye: Eye) -> bool:
    """Whether the eye sees the outside of a face."""
    return _area(facet.points, eye) > 0


def _area(points: Sequence[Space], eye: Eye) -> float:
    """Area of a face as seen, negative from inside [mm^2]."""
    return signed_area([eye.seen(point) for point in points])


def _paint(facet: Facet, eye: Eye) -> Iterable[Painted]:
    """One face from the side that the eye sees, with what lies on it; nothing when it is seen from its edge."""
    shown = tuple(eye.seen(point) for point in facet.points)
    area = signed_area(shown)
    if abs(area) <= EDGE_ON:
        return
    if area < 0:
        yield Painted(shown, facet.inside, facet, inside=True)
        return
    lit = eye.lit(facet.points)
    yield Painted(shown, facet.tint if lit else SHADES[facet.tint], facet)
    for points, tint in facet.overlays:
        yield Painted(tuple(eye.seen(point) for point in points), tint if lit else SHADES[tint], facet)

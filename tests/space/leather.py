"""Leather between two cards: flat at full stretch, bent at every smaller one.

A sheet is followed as many flat slivers, so that its lengths and angles can be
measured on the model itself.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from tests.space.cards import Array, Ring, distance, unit


@dataclass(frozen=True)
class HalfGusset:
    """A flat half gusset as the cards ask for it: four points in its own plane, valley on y = 0, shape (4, 2)."""

    points: Array

    @property
    def valley(self) -> float:
        """Length of its valley line [mm]."""
        return distance(self.points[0], self.points[1])

    @property
    def ridge(self) -> float:
        """Length of its ridge line [mm]."""
        return distance(self.points[2], self.points[3])

    @property
    def leg(self) -> float:
        """Length of its card edge [mm]."""
        return distance(self.points[1], self.points[2])


def flattened(cards: Ring, index: int) -> HalfGusset:
    """The leather of a corner at this stretch, laid flat without changing a length.

    Raises
    ------
    AssertionError
        When the four points do not lie in a plane, so that no flat sheet spans them.
    """
    ridge_before, valley_before, ridge_after, valley_after = cards.corner(index)
    middle = (valley_before + valley_after) / 2
    across = unit(valley_after - valley_before)
    towards = (ridge_before + ridge_after) / 2 - middle
    up = unit(towards - across * float(towards @ across))
    points = np.array([[(p - middle) @ across, (p - middle) @ up] for p in (valley_before, valley_after, ridge_after, ridge_before)])
    back = middle + np.outer(points[:, 0], across) + np.outer(points[:, 1], up)
    assert np.allclose(back, [valley_before, valley_after, ridge_after, ridge_before], atol=1e-9)
    return HalfGusset(points)


@dataclass(frozen=True)
class Folded:
    """A half gusset folded flat-faced between two cards that stand closer than it is wide.

    It is creased from both ridge points to the middle of its valley line; `middle` is where that middle goes.
    """

    ridge_before: Array
    ridge_after: Array
    valley_before: Array
    valley_after: Array
    middle: Array

    @property
    def faces(self) -> tuple[tuple[Array, Array, Array], ...]:
        """Three flat triangles."""
        return (
            (self.valley_before, self.middle, self.ridge_before),
            (self.ridge_before, self.middle, self.ridge_after),
            (self.middle, self.valley_after, self.ridge_after),
        )


def folded(leather: HalfGusset, cards: Ring, index: int, inwards: float) -> Folded:
    """Fold a half gusset between two cards, keeping every length of leather.

    Parameters
    ----------
    leather : HalfGusset
        Cut for some stretch.
    cards : Ring
        At a smaller one.
    index : int
        The corner.
    inwards : float
        1 to fold the valley's middle into the bellows, -1 outwards.

    Raises
    ------
    ValueError
        When the leather is too short to reach.
    """
    ridge_before, valley_before, ridge_after, valley_after = cards.corner(index)
    top = (ridge_before + ridge_after) / 2
    sill = (valley_before + valley_after) / 2
    # By symmetry the middle stays in the plane that halves the corner: it lies on two circles there, about the
    # middle of the ridge line and about the middle of the valley line.
    arm = math.sqrt(distance(leather.points[3], (leather.points[0] + leather.points[1]) / 2) ** 2 - (leather.ridge / 2) ** 2)
    slack = (leather.valley / 2) ** 2 - (distance(valley_before, valley_after) / 2) ** 2
    if slack < 0:
        raise ValueError("the leather does not reach")
    reach, apart = math.sqrt(slack), distance(top, sill)
    along = (arm**2 - reach**2 + apart**2) / (2 * apart)
    off = arm**2 - along**2
    if off < -1e-9 * arm**2:
        raise ValueError("the leather does not reach")
    down = unit(sill - top)
    normal = unit(np.cross(valley_after - valley_before, down))
    return Folded(ridge_before, ridge_after, valley_before, valley_after, top + down * along + normal * inwards * math.sqrt(max(0.0, off)))


def cone(apex: Array, first: Array, last: Array, flat_angle: float, slivers: int = 400) -> Array:
    """Ends of the rulings of a leather cone between two legs, shape (slivers + 1, 3).

    The sheet of `flat_angle` [rad] is bent to a piece of a round cone about its
    apex, its edges on the two legs from the apex to `first` and `last`.

    Raises
    ------
    ValueError
        When the legs stand further apart than the sheet is wide.
    """
    leg = distance(apex, first)
    a, b = unit(first - apex), unit(last - apex)
    half = math.acos(max(-1.0, min(1.0, float(a @ b)))) / 2
    if flat_angle / 2 < half - 1e-12:
        raise ValueError("the leather does not reach")
    middle, across = unit(a + b), unit(b - a)
    normal = np.cross(middle, across)

    def rulings(tilt: float) -> Array:
        # A round cone through both legs: its axis leans by `tilt` out of their plane, in the plane that halves them.
        axis = middle * math.cos(tilt) + normal * math.sin(tilt)
        cosine = float(axis @ a)
        arms = [unit(one - axis * cosine) for one in (a, b)]
        sideways = np.cross(axis, arms[0])
        turn = math.atan2(float(sideways @ arms[1]), float(arms[0] @ arms[1]))
        turn = turn if turn > 0 else turn + 2 * math.pi
        steps = np.linspace(0.0, turn, slivers + 1)[:, None]
        round_about = arms[0] * np.cos(steps) + sideways * np.sin(steps)
        return np.asarray(apex + leg * (axis * cosine + math.sqrt(max(0.0, 1 - cosine**2)) * round_about), dtype=np.float64)

    def angle_of(points: Array) -> float:
        return 2 * slivers * math.asin(distance(points[0], points[1]) / (2 * leg))

    # With its axis square to both legs the cone is flat and the way round is either the angle between the legs or all the rest
    # of the circle; between these two every flat angle has its cone.
    square = math.pi / 2 * (1 - 1e-9)
    low, high = (-square, square) if angle_of(rulings(-square)) > angle_of(rulings(square)) else (square, -square)
    for _ in range(100):
        tilt = (low + high) / 2
        low, high = (tilt, high) if angle_of(rulings(tilt)) > flat_angle else (low, tilt)
    return rulings((low + high) / 2)


def developed_width(apex: Array, ends: Array) -> float:
    """Straight distance of the two edges' ends once the slivers are laid flat side by side [mm]."""
    leg = distance(apex, ends[0])
    angle = sum(2 * math.asin(distance(p, q) / (2 * leg)) for p, q in pairwise(ends))
    return 2 * leg * math.sin(angle / 2)

"""Rigid cards hinged to a ridge polygon.

Points are rows of arrays, [mm]; the section lies in the plane z = 0 and the
bellows runs along z. Card corners are numbered ridge left, ridge right, valley
right, valley left, as seen from outside with the valley above the ridge.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from bellowscut.shapes import Point

Array = NDArray[np.float64]

RIDGE_LEFT, RIDGE_RIGHT, VALLEY_RIGHT, VALLEY_LEFT = range(4)


@dataclass(frozen=True)
class Measured:
    """What a ruler finds at one corner [mm]."""

    ridge_gap: float
    valley_gap: float
    leg: float
    half_height: float
    out_of_plane: float


def unit(vector: Array) -> Array:
    """The vector at length 1."""
    return vector / float(np.linalg.norm(vector))


def distance(a: Array, b: Array) -> float:
    """Between two points [mm]."""
    return float(np.linalg.norm(a - b))


def flat_turn(before: Array, after: Array) -> float:
    """Angle from one direction to the next [rad]."""
    return math.atan2(float(before[0] * after[1] - before[1] * after[0]), float(before @ after))


def rotated(points: Array, origin: Array, axis: Array, angle: float) -> Array:
    """Points turned about a line through `origin` by `angle` [rad], right-handed (Rodrigues)."""
    arms = points - origin
    along = np.outer(arms @ axis, axis)
    turned = arms * math.cos(angle) + np.cross(axis, arms) * math.sin(angle) + along * (1 - math.cos(angle))
    return np.asarray(origin + turned, dtype=np.float64)


def cut_card(directions: Sequence[Array], side: float, depth: float, gap: float, relief: float) -> Array:
    """The card as cut from board: x along its ridge line from the corner of the section, y down its face.

    Parameters
    ----------
    directions : sequence of array
        Directions of the side before, of this one and of the one after.
    side : float
        Ridge line from corner to corner [mm].
    depth, gap, relief : float
        Fold depth, distance of two cards at a ridge corner [mm], corner allowance [deg].

    Returns
    -------
    array
        Four corner points, shape (4, 2).
    """
    before, here, after = directions
    ends = []
    for one, other in ((before, here), (here, after)):
        # Two cards that start equally far from their corner stand a gap apart: the line between them is the sum of two equal arms.
        back = gap / float(np.linalg.norm(one + other))
        slant = math.pi / 2 - flat_turn(one, other) / 2 - math.radians(relief)
        leg = np.array([math.cos(slant), math.sin(slant)])
        ends.append((back, leg * (depth / leg[1])))
    (left, left_leg), (right, right_leg) = ends
    start, stop = np.array([left, 0.0]), np.array([side - right, 0.0])
    return np.array([start, stop, stop + right_leg * (-1, 1), start + left_leg])


@dataclass(frozen=True)
class Ring:
    """All cards between one ridge and the next valley, placed at a stretch.

    Parameters
    ----------
    polygon : array
        Ridge polygon, counter-clockwise, shape (n, 3).
    flat : tuple of array
        Cards as cut, one a side.
    placed : tuple of array
        The same four points in space, shape (4, 3).
    axes : tuple of tuple of array
        Where x and y of the flat card point in space.
    """

    polygon: Array
    flat: tuple[Array, ...]
    placed: tuple[Array, ...]
    axes: tuple[tuple[Array, Array], ...]

    @property
    def count(self) -> int:
        """Number of sides."""
        return len(self.placed)

    def on_card(self, side: int, points: Array) -> Array:
        """Points of a flat card, taken into space with it."""
        x, y = self.axes[side]
        return np.asarray(self.polygon[side] + np.outer(points[:, 0], x) + np.outer(points[:, 1], y), dtype=np.float64)

    def corner(self, index: int) -> tuple[Array, Array, Array, Array]:
        """Ridge point and valley point of the card before a corner, then of the card after it."""
        before, after = self.placed[index - 1], self.placed[index]
        return before[RIDGE_RIGHT], before[VALLEY_RIGHT], after[RIDGE_LEFT], after[VALLEY_LEFT]

    def measure(self, index: int) -> Measured:
        """Measure one corner."""
        ridge_before, valley_before, ridge_after, valley_after = self.corner(index)
        legs = distance(ridge_before, valley_before), distance(ridge_after, valley_after)
        assert math.isclose(*legs, abs_tol=1e-9), "the two cards at a corner have legs of one length"
        arms = np.array([valley_before - ridge_before, ridge_after - ridge_before, valley_after - ridge_before])
        return Measured(
            ridge_gap=distance(ridge_before, ridge_after),
            valley_gap=distance(valley_before, valley_after),
            leg=legs[0],
            half_height=distance((ridge_before + ridge_after) / 2, (valley_before + valley_after) / 2),
            out_of_plane=abs(float(np.linalg.det(arms))) / legs[0] ** 2,
        )

    def valley_polygon(self) -> Array:
        """Where the valley lines of neighbouring cards, carried on, meet; seen along the bellows, shape (n, 2)."""
        lines = [(card[VALLEY_LEFT, :2], unit(card[VALLEY_RIGHT, :2] - card[VALLEY_LEFT, :2])) for card in self.placed]
        found = []
        for i, (start, along) in enumerate(lines):
            other, beside = lines[i - 1]
            steps = np.linalg.solve(np.column_stack([along, -beside]), other - start)
            found.append(start + along * steps[0])
        return np.array(found)

    @property
    def rise(self) -> float:
        """How much of the length one card gives [mm]."""
        return float(self.placed[0][VALLEY_LEFT, 2] - self.placed[0][RIDGE_LEFT, 2])


def ring(corners: Sequence[Point], depth: float, gap: float, relief: float, stretch: float) -> Ring:
    """Cut a card for every side of a ridge polygon and hinge them all up.

    Parameters
    ----------
    corners : sequence of Point
        Ridge polygon, counter-clockwise [mm].
    depth, gap, relief : float
        Fold depth, corner gap [mm], corner allowance [deg].
    stretch : float
        Angle of the cards above the closed state [deg].

    Returns
    -------
    Ring
        In space.
    """
    polygon = np.array([(x, y, 0.0) for x, y in corners])
    count = len(polygon)
    sides = [polygon[(i + 1) % count] - polygon[i] for i in range(count)]
    directions = [unit(side) for side in sides]
    flat, placed, axes = [], [], []
    for i in range(count):
        card = cut_card(
            (directions[i - 1], directions[i], directions[(i + 1) % count]), float(np.linalg.norm(sides[i])), depth, gap, relief
        )
        # Closed, the card lies in the section's plane and points inwards; it turns up about its ridge line.
        inward = np.cross([0.0, 0.0, 1.0], directions[i])
        x, y = rotated(np.array([directions[i], inward]), np.zeros(3), directions[i], math.radians(stretch))
        flat.append(card)
        axes.append((x, y))
        placed.append(polygon[i] + np.outer(card[:, 0], x) + np.outer(card[:, 1], y))
    return Ring(polygon, tuple(flat), tuple(placed), tuple(axes))


def stacked_length(one: Ring, cards: int) -> float:
    """Distance between the frames of a bellows of so many cards a side, every second one turned over [mm]."""
    length, at_ridge = 0.0, True
    heights = [0.0]
    for _ in range(cards):
        card = one.placed[0][:, 2] if at_ridge else one.rise - one.placed[0][::-1, 2]
        length += float(card[VALLEY_LEFT] - card[RIDGE_LEFT])
        heights.append(length)
        at_ridge = not at_ridge
    return max(heights) - min(heights)


def least_width(polygon: Array) -> float:
    """Least distance of two parallel lines that hold the points, found by turning them round [mm]."""

    def width(angle: float) -> float:
        reach = polygon @ np.array([math.cos(angle), math.sin(angle)])
        return float(reach.max() - reach.min())

    steps = 720
    best = min(range(steps), key=lambda k: width(math.pi * k / steps))
    candidates = sorted(range(steps), key=lambda k: width(math.pi * k / steps))[:40]
    found = width(math.pi * best / steps)
    for k in candidates:
        low, high = math.pi * (k - 1) / steps, math.pi * (k + 1) / steps
        for _ in range(80):
            a, b = low + (high - low) / 3, high - (high - low) / 3
            low, high = (low, b) if width(a) < width(b) else (a, high)
        found = min(found, width((low + high) / 2))
    return found

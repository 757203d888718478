"""Curves cut into chords, each with a count that is bounded whatever the numbers say."""

from __future__ import annotations

import math

from bellowscut.shapes import Outline, Point
from bellowscut.words import say, tracing as words

CHORD = 0.01
"""Greatest distance of a chord from its curve [mm]."""

MOST_CHORDS = 2_000
"""Chords of one curve [-]; a circle 5 m across needs 500."""

STRAIGHT = 1e9
"""An arc of a greater radius than this is straight [mm]."""


def chords_of_arc(radius: float, angle: float) -> int:
    """How many chords an arc needs.

    Parameters
    ----------
    radius : float
        Radius [mm].
    angle : float
        Angle of the arc at its centre [rad], of either sign.

    Returns
    -------
    int
        At least one to each eighth of a turn, at most `MOST_CHORDS` [-].
    """
    # Half the angle of a chord whose sagitta is CHORD: sin^2(a/4) = CHORD / (2 radius).
    step = 4 * math.asin(math.sqrt(min(1.0, CHORD / (2 * radius)))) if radius > 0 else math.pi
    return max(1, math.ceil(abs(angle) / (math.pi / 4)), min(MOST_CHORDS, math.ceil(abs(angle) / max(step, 1e-9))))


def arc(centre: Point, axis: Point, other: Point, start: float, angle: float) -> list[Point]:
    """Points on an arc of an ellipse after its first, up to and with its last.

    Parameters
    ----------
    centre : Point
        Centre [mm].
    axis, other : Point
        From the centre to the points of parameter 0 and of a quarter turn [mm].
    start, angle : float
        First parameter, and how far it runs [rad].

    Returns
    -------
    list of Point
        At least one [mm].
    """
    # The arc is a circle seen through an affine map, which lengthens nothing by more than this.
    count = chords_of_arc(math.hypot(*axis, *other), angle)
    found = []
    for k in range(1, count + 1):
        c, s = math.cos(start + angle * k / count), math.sin(start + angle * k / count)
        found.append((centre[0] + axis[0] * c + other[0] * s, centre[1] + axis[1] * c + other[1] * s))
    return found


def bulge(start: Point, end: Point, value: float) -> list[Point]:
    """Points between the ends of an arc given by its bulge, as `shapes.Outline` has it.

    Parameters
    ----------
    start, end : Point
        Its ends [mm].
    value : float
        Tangent of a quarter of its angle [-].

    Returns
    -------
    list of Point
        None of the ends [mm]; empty for what is straight.

    Raises
    ------
    ValueError
        When the arc is greater than anything that is drawn.
    """
    chord = math.dist(start, end)
    if not value or chord < CHORD / 100:
        return []
    radius = chord / 4 * (abs(value) + 1 / abs(value)) if abs(value) > 1 / STRAIGHT**2 else math.inf
    if radius > STRAIGHT:
        if abs(value) < 1:
            return []
        raise ValueError(say(words.ARC_TOO_LARGE))
    angle = 4 * math.atan(abs(value))
    tolerance = max(CHORD, radius * (angle / MOST_CHORDS) ** 2 / 8)
    return list(Outline((start, end), (value, 0.0)).flattened(tolerance)[1:-1])


def cubic(a: Point, b: Point, c: Point, d: Point) -> list[Point]:
    """Points on a cubic Bezier curve after its first, up to and with its last [mm].

    The count follows from the greatest second derivative, 6 times the greater
    of the two second differences: a chord of a step t is off by at most t^2 / 8 of it.
    """
    bend = max(math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]), math.hypot(b[0] - 2 * c[0] + d[0], b[1] - 2 * c[1] + d[1]))
    count = max(1, min(MOST_CHORDS, math.ceil(math.sqrt(6 * bend / (8 * CHORD)))))
    found = []
    for k in range(1, count):
        t = k / count
        u = 1 - t
        w = (u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t)
        found.append((w[0] * a[0] + w[1] * b[0] + w[2] * c[0] + w[3] * d[0], w[0] * a[1] + w[1] * b[1] + w[2] * c[1] + w[3] * d[1]))
    return [*found, d]

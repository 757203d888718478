"""The second end laid on the first: the turn that fits, the side that is A, and the side from which it was traced.

A list of corners does not say how the end lay on its paper, nor does it have
to begin at the same corner. Lengths in millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bellowscut.errors import Refusal
from bellowscut.section import Frame, side_name
from bellowscut.shapes import Point, centroid, least_width
from bellowscut.sources import ENDS_APART, ENDS_APART_SHARE, MIRROR_CLOSER, PACKING_SHOWN
from bellowscut.words import say, section as words


@dataclass(frozen=True)
class Laid:
    """A second end where it lies on the first.

    Parameters
    ----------
    frame : Frame
        Its polygon, turned and shifted onto the first, corner 1 first.
    side_a : tuple of Point
        The two corners between which side A lies, as they were listed [mm].
    relettered : bool
        Whether another side was listed first.
    mirrored : bool
        Whether it was taken as traced from outside the second end.
    apart : float
        Greatest distance between the same side of the two ends [mm].
    as_listed : float
        The same without the mirror image [mm].
    """

    frame: Frame
    side_a: tuple[Point, Point]
    relettered: bool
    mirrored: bool
    apart: float
    as_listed: float


@dataclass(frozen=True)
class _Fit:
    """One way to lay the second end on the first: which of its sides becomes A, and how far which side is off."""

    start: int
    points: tuple[Point, ...]
    apart: float
    side: int


def laid_on(first: Frame, second: Frame) -> Laid:
    """Lay an end given by corners on the first end.

    Every side is tried as side A, and for each the turn that brings the sides
    closest, centre on centre. The mirror image is taken only where it fits
    several times closer, since many ends are nearly their own mirror image.

    Parameters
    ----------
    first, second : Frame
        The right-hand end and the left one, with as many sides, counter-clockwise.

    Returns
    -------
    Laid
        With the letters of the first.

    Raises
    ------
    Refusal
        When a side stays further off than can be packed.

    Notes
    -----
    With sides e of the first and f of the second as vectors, the sum of
    |e - R f|^2 is least for a turn R by atan2(sum f x e, sum f . e): the plane
    case of the orthogonal Procrustes problem (source key ``geometry``).
    """
    limit = _limit(first)
    mirror = tuple((-x, y) for x, y in second.points)
    as_listed = _closest(first.points, second.points)
    # A mirror image runs with the clock: read backwards, with side A still between the first two corners.
    turned_over = _closest(first.points, (mirror[1], mirror[0], *reversed(mirror[2:])))
    mirrored = turned_over.apart * MIRROR_CLOSER.value <= as_listed.apart and as_listed.apart - turned_over.apart > limit / 2
    fit = turned_over if mirrored else as_listed
    _refuse(fit, limit)
    count = len(second.points)
    start, end = ((1 - fit.start) % count, (-fit.start) % count) if mirrored else (fit.start, (fit.start + 1) % count)
    return Laid(
        frame=Frame(fit.points, second.misfit),
        side_a=(second.points[start], second.points[end]),
        relettered=fit.start != 0,
        mirrored=mirrored,
        apart=fit.apart,
        as_listed=as_listed.apart,
    )


def refuse_unlike(first: Frame, second: Frame) -> None:
    """Refuse two ends given by letter that no packing makes alike.

    Raises
    ------
    Refusal
        Naming the side that is furthest off, and the limit.
    """
    _refuse(_lay(first.points, second.points, 0), _limit(first))


def _limit(first: Frame) -> float:
    return min(ENDS_APART.value, ENDS_APART_SHARE.value * least_width(first.points))


def _refuse(fit: _Fit, limit: float) -> None:
    if fit.apart > limit:
        message = say(words.ENDS_UNLIKE, side=side_name(fit.side), mm=f"{fit.apart:.2f}", limit=f"{limit:.2f}")
        raise Refusal("other_end", fit.apart, message)


def _closest(first: Sequence[Point], second: Sequence[Point]) -> _Fit:
    """The best of all sides as side A; the one listed first where it fits as well, to what is worth packing."""
    fits = [_lay(first, second, start) for start in range(len(second))]
    best = min(fits, key=lambda fit: fit.apart)
    return fits[0] if fits[0].apart <= best.apart + PACKING_SHOWN.value else best


def _lay(first: Sequence[Point], second: Sequence[Point], start: int) -> _Fit:
    here, there = centroid(first), centroid(second)
    listed = (*second[start:], *second[:start])
    cross = dot = 0.0
    for (ex, ey), (fx, fy) in zip(_sides(first), _sides(listed), strict=True):
        cross += fx * ey - fy * ex
        dot += fx * ex + fy * ey
    turn = math.atan2(cross, dot)
    cosine, sine = math.cos(turn), math.sin(turn)
    points = []
    for x, y in ((x - there[0], y - there[1]) for x, y in listed):
        points.append((cosine * x - sine * y + here[0], sine * x + cosine * y + here[1]))
    apart = list(_apart(first, points))
    side = max(range(len(apart)), key=lambda i: apart[i])
    return _Fit(start, tuple(points), apart[side], side)


def _sides(points: Sequence[Point]) -> Iterator[Point]:
    for (ax, ay), (bx, by) in zip(points, (*points[1:], points[0]), strict=True):
        yield bx - ax, by - ay


def _apart(first: Sequence[Point], second: Sequence[Point]) -> Iterator[float]:
    """For each side of the first the distance to the further end of the same side of the second [mm]."""
    count = len(first)
    for i, (ux, uy) in enumerate(_sides(first)):
        (ax, ay), length = first[i], math.hypot(ux, uy)
        yield max(abs(ux * (y - ay) - uy * (x - ax)) for x, y in (second[i], second[(i + 1) % count])) / length

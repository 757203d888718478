"""Whether a tracing is as large as the skin, and what may have gone wrong when it is not."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from bellowscut.shapes import bounds
from bellowscut.tracing.model import Ring, Stroke, TracingError
from bellowscut.units import MM_PER_INCH, both, both_areas, plain_number
from bellowscut.words import say, tracing as words

AREA_OFF = 0.02
"""Greatest difference of the area from the one stated [-]: 1 per cent of a length, about what stamped areas are good for."""

LENGTH_OFF = 0.005
"""Greatest difference of the check line from its stated length [-]: both its ends set on a rule of 100 mm to a quarter of a millimetre."""

STRAIGHT_WITHIN = 0.002
"""Greatest distance of a check line from straight, as a share of its length [-]."""

REASONS = (
    (1 / MM_PER_INCH, words.INCHES_AS_MILLIMETRES),
    (MM_PER_INCH, words.MILLIMETRES_AS_INCHES),
    (1 / 10, words.CENTIMETRES_AS_MILLIMETRES),
    (10.0, words.MILLIMETRES_AS_CENTIMETRES),
    (1 / 1000, words.METRES_AS_MILLIMETRES),
    (1000.0, words.MILLIMETRES_AS_METRES),
    (96 / MM_PER_INCH, words.PIXELS_96_AS_MILLIMETRES),
    (90 / MM_PER_INCH, words.PIXELS_90_AS_MILLIMETRES),
    (72 / MM_PER_INCH, words.POINTS_AS_MILLIMETRES),
    (MM_PER_INCH / 96, words.MILLIMETRES_AS_PIXELS_96),
    (MM_PER_INCH / 90, words.MILLIMETRES_AS_PIXELS_90),
    (MM_PER_INCH / 72, words.MILLIMETRES_AS_POINTS),
    (72 / 96, words.UNITS_72_AS_96),
    (90 / 96, words.UNITS_90_AS_96),
    (96 / 72, words.UNITS_96_AS_72),
)
"""How many times too large a drawing is [-], and why, to be said where it is shown."""

REASON_WITHIN = 0.02
"""How near to such a number the factor must be [-]: a stated area may be off by as much again as it may be anyway."""


def likely_reason(factor: float) -> str:
    """Why a drawing may be so many times too large [-]; empty when no reason fits."""
    near = min(REASONS, key=lambda reason: abs(math.log(factor / reason[0])))
    return near[1] if abs(math.log(factor / near[0])) < REASON_WITHIN else ""


def _wrong(texts: tuple[str, str], measured: str, stated: str, factor: float) -> str:
    """What is wrong with the size: the first text where the drawing is too large, the second where it is too small."""
    times = factor if factor > 1 else 1 / factor
    why = say(likely_reason(factor) or words.CHECK_THE_SCALE)
    return say(texts[0] if factor > 1 else texts[1], measured=measured, stated=stated, times=plain_number(times, 3), why=why)


def check_length_of(measured: float, stated: float) -> None:
    """Compare the check line with its true length.

    Parameters
    ----------
    measured, stated : float
        As drawn, and as it should be [mm].

    Raises
    ------
    TracingError
        When they differ by more than 0.5 per cent.
    """
    if abs(measured / stated - 1) > LENGTH_OFF:
        raise TracingError(_wrong((words.CHECK_TOO_LONG, words.CHECK_TOO_SHORT), both(measured), both(stated), measured / stated))


def check_area_of(measured: float, stated: float) -> None:
    """Compare the area of the skin with the one stated.

    Parameters
    ----------
    measured, stated : float
        As drawn, and as it should be [mm^2].

    Raises
    ------
    TracingError
        When they differ by more than 2 per cent.
    """
    if abs(measured / stated - 1) > AREA_OFF:
        factor = math.sqrt(measured / stated)
        raise TracingError(_wrong((words.AREA_TOO_LARGE, words.AREA_TOO_SMALL), _area(measured), _area(stated), factor))


def _area(mm2: float) -> str:
    """An area as people read it, however small."""
    return both_areas(mm2) if mm2 >= 1000 else say(words.SQUARE_MILLIMETRES, mm2=plain_number(mm2))


def check_line(strokes: Sequence[Stroke]) -> float | None:
    """Length of the check line [mm], None when there is none.

    Parameters
    ----------
    strokes : sequence of Stroke
        Lines that stand in a group or on a layer named check.

    Raises
    ------
    TracingError
        When there are several, or it is no straight open line.
    """
    if len(strokes) > 1:
        raise TracingError(say(words.CHECK_LINES, number=len(strokes)))
    if not strokes:
        return None
    points = strokes[0].points
    length = math.dist(points[0], points[-1])
    if strokes[0].closed or length == 0:
        raise TracingError(say(words.CHECK_LINE_CLOSED))
    (x, y), (dx, dy) = points[0], (points[-1][0] - points[0][0], points[-1][1] - points[0][1])
    if max(abs(dx * (py - y) - dy * (px - x)) for px, py in points) / length > STRAIGHT_WITHIN * length:
        raise TracingError(say(words.CHECK_LINE_BENT))
    if _run(points) > length * (1 + STRAIGHT_WITHIN):
        raise TracingError(say(words.CHECK_LINE_RUNS_BACK))
    return length


def _run(points: Ring) -> float:
    return sum(math.dist(p, q) for p, q in itertools.pairwise(points))


PLAUSIBLE = (20.0, 5000.0)
"""Least and greatest size of a skin [mm]."""


def check_size(outline: Ring) -> None:
    """Refuse what cannot be a skin for its size.

    Parameters
    ----------
    outline : Ring
        Edge of the skin [mm].

    Raises
    ------
    TracingError
        When it is less than 20 mm across, or more than 5 m.
    """
    left, low, right, high = bounds(outline)
    width, height = right - left, high - low
    if min(width, height) < PLAUSIBLE[0] or max(width, height) > PLAUSIBLE[1]:
        text = words.SKIN_TOO_SMALL if min(width, height) < PLAUSIBLE[0] else words.SKIN_TOO_LARGE
        raise TracingError(say(text, width=both(width), height=both(height)))


def magnified(size: float) -> float:
    """By how much distances are to be taken larger or smaller in a drawing that is plainly not in millimetres [-].

    Without it a skin drawn in metres would be joined up into one spot before anybody could say that it is in metres.

    Parameters
    ----------
    size : float
        Greater side of the drawing [mm].
    """
    least, greatest = PLAUSIBLE
    return min(1.0, max(size, 1e-6) / least) * max(1.0, size / greatest)

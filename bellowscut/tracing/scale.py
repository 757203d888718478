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
    (1 / MM_PER_INCH, say(words.INCHES_WERE_READ_MILLIMETRES)),
    (MM_PER_INCH, say(words.MILLIMETRES_WERE_READ_INCHES)),
    (1 / 10, say(words.CENTIMETRES_WERE_READ_MILLIMETRES)),
    (10.0, say(words.MILLIMETRES_WERE_READ_CENTIMETRES)),
    (1 / 1000, say(words.METRES_WERE_READ_MILLIMETRES)),
    (1000.0, say(words.MILLIMETRES_WERE_READ_METRES)),
    (96 / MM_PER_INCH, say(words.PIXELS_INCH_WERE_READ)),
    (90 / MM_PER_INCH, say(words.PIXELS_INCH_WERE_READ_MILLIMETRES)),
    (72 / MM_PER_INCH, say(words.POINTS_INCH_WERE_READ)),
    (MM_PER_INCH / 96, say(words.MILLIMETRES_WERE_READ_PIXELS)),
    (MM_PER_INCH / 90, say(words.MILLIMETRES_WERE_READ_PIXELS_INCH)),
    (MM_PER_INCH / 72, say(words.MILLIMETRES_WERE_READ_POINTS)),
    (72 / 96, say(words.DRAWING_HAS_UNITS_INCH)),
    (90 / 96, say(words.DRAWING_HAS_UNITS_INCH_WAS)),
    (96 / 72, say(words.DRAWING_HAS_UNITS_INCH_WAS_READ)),
)
"""How many times too large a drawing is, and why [-]."""

REASON_WITHIN = 0.02
"""How near to such a number the factor must be [-]: a stated area may be off by as much again as it may be anyway."""


def likely_reason(factor: float) -> str:
    """Why a drawing may be so many times too large [-]; empty when no reason fits."""
    near = min(REASONS, key=lambda reason: abs(math.log(factor / reason[0])))
    return near[1] if abs(math.log(factor / near[0])) < REASON_WITHIN else ""


def _wrong(measured: str, stated: str, factor: float) -> str:
    reason = likely_reason(factor)
    size = "large" if factor > 1 else "small"
    times = factor if factor > 1 else 1 / factor
    why = say(words.LOOKS_IF, reason=reason) if reason else say(words.CHECK_SCALE_SCAN_SIZE)
    return say(words.BUT_DRAWING_TIMES_TOO, measured=measured, stated=stated, times=plain_number(times, 3), size=size, why=why)


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
        raise TracingError(
            _wrong(say(words.CHECK_LINE_LONG, measured=both(measured)), say(words.CHECK_LENGTH, stated=both(stated)), measured / stated)
        )


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
        raise TracingError(_wrong(say(words.SKIN_DRAWN_HAS, measured=_area(measured)), say(words.AREA, stated=_area(stated)), factor))


def _area(mm2: float) -> str:
    """An area as people read it, however small."""
    return both_areas(mm2) if mm2 >= 1000 else f"{plain_number(mm2)} mm2"


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
        raise TracingError(say(words.HAS_LINES_NAMED_CHECK, number=len(strokes)))
    if not strokes:
        return None
    points = strokes[0].points
    length = math.dist(points[0], points[-1])
    if strokes[0].closed or length == 0:
        raise TracingError(say(words.CHECK_LINE_CLOSED_OUTLINE))
    (x, y), (dx, dy) = points[0], (points[-1][0] - points[0][0], points[-1][1] - points[0][1])
    if max(abs(dx * (py - y) - dy * (px - x)) for px, py in points) / length > STRAIGHT_WITHIN * length:
        raise TracingError(say(words.CHECK_LINE_NOT_STRAIGHT))
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
        small = min(width, height) < PLAUSIBLE[0]
        raise TracingError(say(words.SKIN_TOO_SKIN_WHICH, width=both(width), height=both(height), which="small" if small else "large"))


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

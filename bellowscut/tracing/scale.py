"""Whether a tracing is as large as the skin, and what may have gone wrong when it is not."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from bellowscut.shapes import bounds
from bellowscut.tracing.model import Ring, Stroke, TracingError
from bellowscut.units import MM_PER_INCH, both, both_areas, plain_number

AREA_OFF = 0.02
"""Greatest difference of the area from the one stated [-]: 1 per cent of a length, about what stamped areas are good for."""

LENGTH_OFF = 0.005
"""Greatest difference of the check line from its stated length [-]: both its ends set on a rule of 100 mm to a quarter of a millimetre."""

STRAIGHT_WITHIN = 0.002
"""Greatest distance of a check line from straight, as a share of its length [-]."""

REASONS = (
    (1 / MM_PER_INCH, "inches were read as millimetres"),
    (MM_PER_INCH, "millimetres were read as inches"),
    (1 / 10, "centimetres were read as millimetres"),
    (10.0, "millimetres were read as centimetres"),
    (1 / 1000, "metres were read as millimetres"),
    (1000.0, "millimetres were read as metres"),
    (96 / MM_PER_INCH, "pixels, 96 to the inch, were read as millimetres"),
    (90 / MM_PER_INCH, "pixels, 90 to the inch, were read as millimetres"),
    (72 / MM_PER_INCH, "points, 72 to the inch, were read as millimetres"),
    (MM_PER_INCH / 96, "millimetres were read as pixels, 96 to the inch"),
    (MM_PER_INCH / 90, "millimetres were read as pixels, 90 to the inch"),
    (MM_PER_INCH / 72, "millimetres were read as points, 72 to the inch"),
    (72 / 96, "the drawing has 72 units to the inch and was read with 96"),
    (90 / 96, "the drawing has 90 units to the inch and was read with 96"),
    (96 / 72, "the drawing has 96 units to the inch and was read with 72"),
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
    why = f"it looks as if {reason}" if reason else "check the scale of the scan and the size stated"
    return f"{measured}, but {stated}: the drawing is {plain_number(times, 3)} times too {size}; {why}"


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
        raise TracingError(_wrong(f"the check line is {both(measured)} long", f"check_length is {both(stated)}", measured / stated))


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
        raise TracingError(_wrong(f"the skin as drawn has {_area(measured)}", f"area is {_area(stated)}", factor))


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
        raise TracingError(f"has {len(strokes)} lines named check; there should be one, as long as check_length says")
    if not strokes:
        return None
    points = strokes[0].points
    length = math.dist(points[0], points[-1])
    if strokes[0].closed or length == 0:
        raise TracingError("the check line is a closed outline; it should be one straight line between two marks of a rule")
    (x, y), (dx, dy) = points[0], (points[-1][0] - points[0][0], points[-1][1] - points[0][1])
    if max(abs(dx * (py - y) - dy * (px - x)) for px, py in points) / length > STRAIGHT_WITHIN * length:
        raise TracingError("the check line is not straight; it should be one straight line between two marks of a rule")
    if _run(points) > length * (1 + STRAIGHT_WITHIN):
        raise TracingError("the check line runs back on itself; it should be one straight line between two marks of a rule")
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
        raise TracingError(
            f"the skin is {both(width)} by {both(height)}: too {'small' if small else 'large'} for a skin, which is from 20 mm to 5 m across;"
            " check the unit of the drawing, and give area or check_length"
        )


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

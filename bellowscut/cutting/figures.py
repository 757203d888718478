"""How far a tool goes and how long that takes, from what is drawn and in the order in which it is drawn."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from bellowscut.cutting.arcs import outline_length, run_length
from bellowscut.drawing import Drawn, Role
from bellowscut.export.stroke_letters import strokes
from bellowscut.schema import CutterSpec
from bellowscut.shapes import Point

TRAVEL_FASTER = 5.0
"""Travel speed [-] of the cutting speed where none is stated."""


@dataclass(frozen=True)
class Figures:
    """What a drawing takes to work.

    Parameters
    ----------
    cut_length : float
        All that is cut [mm].
    drawn_length : float
        Creases, skive lines, marks and letters [mm].
    travel : float
        Between the end of one line and the beginning of the next, from the origin on [mm].
    seconds : float or None
        At the stated speeds [s]; None without one. Lines are reckoned at the same speed as cuts.
    """

    cut_length: float
    drawn_length: float
    travel: float
    seconds: float | None


def figures(drawn: Iterable[Drawn], spec: CutterSpec) -> Figures:
    """Lengths and time of a drawing.

    Parameters
    ----------
    drawn : iterable of Drawn
        In the order in which they are worked.
    spec : CutterSpec
        Speeds of the machine.

    Returns
    -------
    Figures
        Lengths [mm] and time [s].
    """
    cut = lines = travel = 0.0
    at = (0.0, 0.0)
    for one in drawn:
        for role, start, end, length in _runs(one):
            travel += math.dist(at, start)
            at = end
            if role is Role.CUT:
                cut += length
            else:
                lines += length
    return Figures(cut, lines, travel, _seconds(cut + lines, travel, spec))


def together(found: Sequence[Figures]) -> Figures:
    """The sum of several drawings."""
    times = [one.seconds for one in found if one.seconds is not None]
    return Figures(
        sum(one.cut_length for one in found),
        sum(one.drawn_length for one in found),
        sum(one.travel for one in found),
        sum(times) if len(times) == len(found) else None,
    )


def _seconds(worked: float, travel: float, spec: CutterSpec) -> float | None:
    if spec.speed is None:
        return None
    return worked / spec.speed + travel / (spec.travel_speed or spec.speed * TRAVEL_FASTER)


def _runs(drawn: Drawn) -> Iterator[tuple[Role, Point, Point, float]]:
    """Role, beginning, end and length of every line, as the files hold them."""
    for label in drawn.labels:
        for run in strokes(label):
            yield Role.TEXT, run[0], run[-1], run_length(run)
    for line in drawn.lines:
        points = (*line.points, line.points[0]) if line.closed else line.points
        yield line.role, points[0], points[-1], run_length(points)
    for outline in reversed(drawn.outlines):
        yield Role.CUT, outline.points[0], outline.points[0], outline_length(outline)

"""Edge strips: leather folded over each ridge, running round the bellows."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise

from bellowscut.bellows import Bellows
from bellowscut.drawing import Line
from bellowscut.parts.part import Part, Want, blank, crease, gathered, mark, skive
from bellowscut.shapes import Outline, Point, polygon
from bellowscut.sources import DART_LEAST, DARTS_APART
from bellowscut.stack import bend_allowance
from bellowscut.words import parts as words, say

KINDS = ("edge-strip",)


def make(bellows: Bellows) -> tuple[Part, ...]:
    """One strip right round each ridge, or one for each side and ridge."""
    spec = bellows.profile.edge_strip
    count = bellows.folds * bellows.profile.copies
    note = say(words.EDGE_STRIP_NOTE)
    if spec.run == "per-side":
        wants = []
        for i, letter in enumerate(bellows.section.side_names):
            length = bellows.section.sides[i]
            wants.append(Want(*_shape(bellows, length + spec.joint, (spec.joint / 2, spec.joint / 2 + length)), count, letter))
        model = blank(bellows, "edge-strip", say(words.EDGE_STRIP), spec.material, wants[0].outline, strip=True)
        return gathered(model, wants, "sides")
    outline, lines = _shape(
        bellows,
        bellows.section.ridge_perimeter + spec.joint,
        corner_marks(bellows.section.sides, spec.joint),
        darts(bellows),
    )
    model = blank(bellows, "edge-strip", say(words.EDGE_STRIP), spec.material, outline, strip=True, note=note)
    whole = gathered(model, (Want(outline, lines, count, ""),), "sides")[0]
    return (replace(whole, sides=()),)


def corner_marks(sides: tuple[float, ...], joint: float) -> tuple[float, ...]:
    """Where corners fall on a strip that starts in the middle of side A [mm]: AB first."""
    start = joint / 2 - sides[0] / 2
    return tuple(start + run for run in accumulate(sides))


def width(bellows: Bellows) -> float:
    """Width of the strip: two laps and the bend over two closed cards [mm]."""
    return 2 * bellows.profile.edge_strip.lap + bend(bellows)


def bend(bellows: Bellows) -> float:
    """Leather that goes round the edge of two closed cards [mm]."""
    leather = bellows.material(bellows.profile.edge_strip.material)
    return bend_allowance(180, bellows.card, leather.thickness, leather.neutral)


@dataclass(frozen=True)
class Dart:
    """The notch at one corner of a strip right round, alike on both edges.

    Parameters
    ----------
    corner : str
        Name of the corner.
    x : float
        Where it is along the strip [mm].
    wanted : float
        Half its width at the edge, as the corner asks [mm].
    half_width : float
        The same as cut [mm]: less where notches would meet, 0 where none is cut.
    """

    corner: str
    x: float
    wanted: float
    half_width: float


def darts(bellows: Bellows) -> tuple[Dart, ...]:
    """What is cut out of a strip right round at each corner, in their order along it; nothing where no notches are wanted."""
    spec, section = bellows.profile.edge_strip, bellows.section
    if not spec.darts or spec.run == "per-side":
        return ()
    names = section.corner_names[1:] + section.corner_names[:1]
    turns = section.turns[1:] + section.turns[:1]
    places = corner_marks(section.sides, spec.joint)
    wanted = [dart_half_width(spec.lap, turn, bellows.stretch) for turn in turns]
    # Half a notch on either side of each gap; the ends of the strip have none.
    halves = list(pairwise((0.0, *wanted, 0.0)))
    gaps = [after - before for before, after in pairwise((0.0, *places, section.ridge_perimeter + spec.joint))]
    shares = [_share(gap - DARTS_APART.value, sum(both)) for gap, both in zip(gaps, halves, strict=True)]
    found = []
    for name, x, reach, either in zip(names, places, wanted, pairwise(shares), strict=True):
        half = reach * min(either)
        found.append(Dart(name, x, reach, half if 2 * half >= DART_LEAST.value else 0.0))
    return tuple(found)


def _share(room: float, needed: float) -> float:
    """How much of what is needed there is room for, at most all of it [-]."""
    return 1.0 if needed <= room else max(0.0, room) / needed


def _shape(bellows: Bellows, length: float, corners: tuple[float, ...], cut: tuple[Dart, ...] = ()) -> tuple[Outline, tuple[Line, ...]]:
    spec = bellows.profile.edge_strip
    half, flat = width(bellows) / 2, bend(bellows) / 2
    notches = [(dart.x, dart.half_width) for dart in cut if dart.half_width]
    lower: list[Point] = [(0.0, -half)]
    upper: list[Point] = [(length, half)]
    for x, reach in notches:
        lower += [(x - reach, -half), (x, -flat), (x + reach, -half)]
    for x, reach in reversed(notches):
        upper += [(x + reach, half), (x, flat), (x - reach, half)]
    outline = polygon((*lower, (length, -half), *upper, (0.0, half)))
    lines = [crease((0, 0), (length, 0)), mark((0, flat), (length, flat)), mark((0, -flat), (length, -flat))]
    lines += [skive((0, y), (length, y)) for y in (half - spec.skive, spec.skive - half)]
    lines += [skive((x, -half), (x, half)) for x in (spec.joint, length - spec.joint)]
    notched = {x for x, _ in notches}
    lines += [mark((x, -inner), (x, inner)) for x in corners for inner in [flat if x in notched else half]]
    return outline, tuple(lines)


def dart_half_width(flank: float, turn: float, stretch: float) -> float:
    """Half the width of a dart at the strip's edge, for a corner that turns by `turn` [deg], at full stretch [mm]."""
    return flank * math.tan(math.radians(turn) / 2) * math.cos(math.radians(stretch))

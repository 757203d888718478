"""Edge strips: leather folded over each ridge, running round the bellows."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import accumulate

from bellowscut.bellows import Bellows
from bellowscut.drawing import Line
from bellowscut.parts.part import Part, Want, blank, crease, gathered, mark, skive
from bellowscut.shapes import Outline, Point, polygon
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
            wants.append(Want(*_shape(bellows, length + spec.joint, (spec.joint / 2, spec.joint / 2 + length), (0.0, 0.0)), count, letter))
        model = blank(bellows, "edge-strip", say(words.EDGE_STRIP), spec.material, wants[0].outline, strip=True)
        return gathered(model, wants, "sides")
    outline, lines = _shape(
        bellows,
        bellows.section.ridge_perimeter + spec.joint,
        corner_marks(bellows.section.sides, spec.joint),
        bellows.section.turns[1:] + bellows.section.turns[:1],
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


def _shape(bellows: Bellows, length: float, corners: tuple[float, ...], turns: tuple[float, ...]) -> tuple[Outline, tuple[Line, ...]]:
    spec = bellows.profile.edge_strip
    half, flat = width(bellows) / 2, bend(bellows) / 2
    lower: list[Point] = [(0.0, -half)]
    upper: list[Point] = [(length, half)]
    if spec.darts:
        for x, turn in zip(corners, turns, strict=True):
            reach = dart_half_width(spec.lap, turn, bellows.stretch)
            if reach > 0 and reach < x < length - reach:
                lower += [(x - reach, -half), (x, -flat), (x + reach, -half)]
        for x, turn in reversed(list(zip(corners, turns, strict=True))):
            reach = dart_half_width(spec.lap, turn, bellows.stretch)
            if reach > 0 and reach < x < length - reach:
                upper += [(x + reach, half), (x, flat), (x - reach, half)]
    outline = polygon((*lower, (length, -half), *upper, (0.0, half)))
    lines = [crease((0, 0), (length, 0)), mark((0, flat), (length, flat)), mark((0, -flat), (length, -flat))]
    lines += [skive((0, y), (length, y)) for y in (half - spec.skive, spec.skive - half)]
    lines += [skive((x, -half), (x, half)) for x in (spec.joint, length - spec.joint)]
    inner = flat if spec.darts else half
    lines += [mark((x, -inner), (x, inner)) for x in corners]
    return outline, tuple(lines)


def dart_half_width(flank: float, turn: float, stretch: float) -> float:
    """Half the width of a dart at the strip's edge, for a corner that turns by `turn` [deg], at full stretch [mm]."""
    return flank * math.tan(math.radians(turn) / 2) * math.cos(math.radians(stretch))

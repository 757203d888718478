"""End strips: leather that joins the last cards to the frame."""

from __future__ import annotations

from dataclasses import replace

from bellowscut.bellows import Bellows
from bellowscut.parts.part import Part, Want, blank, crease, gathered, mark, skive
from bellowscut.shapes import rectangle
from bellowscut.stack import bend_allowance
from bellowscut.words import parts as words, say

KINDS = ("end-strip",)


def make(bellows: Bellows) -> tuple[Part, ...]:
    """Two strips a bellows; the frame's edge on y = 0, the frame's cover below it."""
    spec = bellows.profile.end_strip
    sides = bellows.section.frame_sides
    length = bellows.section.frame_perimeter + spec.joint
    low, flat, high = -spec.frame_cover, bend(bellows), bend(bellows) + spec.lap
    outline = rectangle(0, low, length, high)
    lines = [crease((0, 0), (length, 0)), mark((0, flat), (length, flat))]
    lines += [skive((0, y), (length, y)) for y in (high - spec.skive, low + spec.skive)]
    lines += [skive((x, low), (x, high)) for x in (spec.joint, length - spec.joint)]
    place = spec.joint / 2 - sides[0] / 2
    for side in sides:
        place += side
        lines.append(mark((place, low), (place, high)))
    note = say(words.END_STRIP_NOTE)
    uneven = max(sides) - min(sides) > 0.05
    model = blank(bellows, "end-strip", say(words.END_STRIP), spec.material, outline, strip=True, note=note if uneven else "")
    part = gathered(model, (Want(outline, tuple(lines), 2 * bellows.profile.copies, ""),), "sides")[0]
    return (replace(part, sides=()),)


def bend(bellows: Bellows) -> float:
    """Leather that goes round the frame's edge onto the card [mm]."""
    leather = bellows.material(bellows.profile.end_strip.material)
    return bend_allowance(90, bellows.card, leather.thickness, leather.neutral)

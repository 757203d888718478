"""Straight pieces along one fold line: hinges, frame hinges, valley strips, ridge cloth.

They differ only in which fold they lie on, their lap and their number.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from bellowscut.bellows import Bellows
from bellowscut.parts.part import Part, Want, blank, crease, gathered, mark
from bellowscut.shapes import rectangle
from bellowscut.sources import HINGE_SHORT
from bellowscut.words import parts as words, say

KINDS = ("hinge", "frame-hinge", "valley-strip", "ridge-cloth")


@dataclass(frozen=True)
class _Row:
    kind: str
    name: str
    id: str
    material: str
    lap: float
    at_valley: bool
    number: int


def make(bellows: Bellows) -> tuple[Part, ...]:
    """All strips along fold lines that the profile asks for."""
    found: list[Part] = []
    for row in _rows(bellows):
        if row.number:
            found.extend(_strips(bellows, row))
    return tuple(found)


def _rows(bellows: Bellows) -> list[_Row]:
    profile = bellows.profile
    valleys, ridges = bellows.valleys, bellows.folds
    hinge = profile.hinge
    rows = [
        _Row("hinge", words.VALLEY_HINGE, "hinge-valley", hinge.material, hinge.lap, True, valleys),
        _Row("hinge", words.RIDGE_HINGE, "hinge-ridge", hinge.material, hinge.lap, False, ridges),
    ]
    if profile.frame_hinge is not None:
        rows.append(
            _Row(
                "frame-hinge",
                words.FRAME_HINGE,
                "frame-hinge",
                profile.frame_hinge.material,
                profile.frame_hinge.lap,
                bellows.valley_ends,
                2,
            )
        )
    if profile.valley_strip is not None:
        rows.append(
            _Row("valley-strip", words.VALLEY_STRIP, "valley-strip", profile.valley_strip.material, profile.valley_strip.lap, True, valleys)
        )
    if profile.ridge_cloth is not None:
        rows.append(
            _Row("ridge-cloth", words.RIDGE_CLOTH, "ridge-cloth", profile.ridge_cloth.material, profile.ridge_cloth.lap, False, ridges)
        )
    return rows


def _strips(bellows: Bellows, row: _Row) -> tuple[Part, ...]:
    gap = bellows.valley_gap if row.at_valley else bellows.ridge_gap
    edge = bellows.depth - gap / 2 if row.at_valley else gap / 2
    half = row.lap + gap / 2
    wants = []
    for i, letter in enumerate(bellows.section.side_names):
        length = bellows.card_width(i, edge) - 2 * HINGE_SHORT.value
        lines = [crease((0, 0), (length, 0))]
        if gap:
            lines += [mark((0, y), (length, y)) for y in (gap / 2, -gap / 2)]
        wants.append(Want(rectangle(0, -half, length, half), tuple(lines), row.number * bellows.profile.copies, letter))
    model = blank(bellows, row.kind, say(row.name), row.material, wants[0].outline, strip=True)
    return gathered(replace(model, id=row.id), wants, "sides")

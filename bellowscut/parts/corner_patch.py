"""Corner patches: small pieces over a corner of a ridge, where tips lift or wear through."""

from __future__ import annotations

from dataclasses import replace

from bellowscut.bellows import Bellows
from bellowscut.parts.part import Part, Want, blank, crease, gathered, mark
from bellowscut.shapes import rounded
from bellowscut.words import parts as words, say

KINDS = ("corner-patch",)


def make(bellows: Bellows) -> tuple[Part, ...]:
    """As many patches as asked for, by default one at each corner."""
    spec = bellows.profile.corner_patch
    if spec is None:
        return ()
    names = bellows.section.corner_names
    half = spec.width / 2
    reach = max(spec.length, half)
    points = ((-reach, -half), (reach, -half), (reach, half), (-reach, half))
    outline, _ = rounded(points, (half,) * 4)
    lines = (crease((-reach, 0), (reach, 0)), mark((0, -half), (0, half)))
    count = len(names) if spec.count is None else spec.count
    model = blank(bellows, "corner-patch", say(words.CORNER_PATCH), spec.material, outline)
    (part,) = gathered(model, [Want(outline, lines, 0, name) for name in (*names[1:], names[0])], "corners")
    return (replace(part, count=count * bellows.profile.copies),)

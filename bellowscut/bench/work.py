"""One job of one bellows as the steps speak of it: counts, sizes, and the sorts of sentence on a work sheet."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from bellowscut.bellows import Bellows
from bellowscut.labour import Step
from bellowscut.parts.part import Part, listed
from bellowscut.schema import GasketSpec
from bellowscut.shapes import bounds
from bellowscut.units import Rule
from bellowscut.words import say, work_sheet as words

ALIKE = 0.05
"""Lengths that agree this well are one length on a work sheet [mm]."""


class Manner(Enum):
    """How a sentence stands on the sheet."""

    PLAIN = "plain"
    TEST = "test"
    BEWARE = "beware"
    WARNING = "warning"
    CAUTION = "caution"
    DRYING = "drying"
    FIELD = "field"


@dataclass(frozen=True)
class Told:
    """One sentence or two that belong together.

    Parameters
    ----------
    text : str
        What is read.
    manner : Manner
        How it stands: plain, a test with its own box, a warning and so on.
    """

    text: str
    manner: Manner = Manner.PLAIN


def to_test(text: str) -> Told:
    """A test on the way, with a box to tick."""
    return Told(text, Manner.TEST)


def beware(text: str) -> Told:
    """What saves a skin."""
    return Told(text, Manner.BEWARE)


@dataclass(frozen=True)
class Work:
    """A job with all that its steps speak of.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    job : str
        A key of `bellowscut.labour.OPERATIONS`.
    parts : tuple of Part
        What is made, for all copies.
    steps : tuple of Step
        In the order in which they are worked.
    codes : frozenset of str
        Codes of the warnings that are shown, so that nothing is said twice.
    """

    bellows: Bellows
    job: str
    parts: tuple[Part, ...]
    steps: tuple[Step, ...]
    codes: frozenset[str] = frozenset()

    @property
    def copies(self) -> int:
        """Instruments alike [-]."""
        return self.bellows.profile.copies

    @property
    def keys(self) -> tuple[str, ...]:
        """Keys of the steps, in order."""
        return tuple(step.operation.key for step in self.steps)

    def of(self, *kinds: str) -> tuple[Part, ...]:
        """The parts of some kinds, in cutting order."""
        return tuple(part for part in self.parts if part.kind in kinds)

    def count(self, *kinds: str) -> int:
        """Pieces that are glued, spares left out [-]."""
        return sum(part.count for part in self.of(*kinds))

    def spare(self, *kinds: str) -> int:
        """Spares [-]."""
        return sum(part.spare for part in self.of(*kinds))

    def pieces(self, *kinds: str) -> int:
        """Pieces that are cut, spares and all [-]."""
        return self.count(*kinds) + self.spare(*kinds)

    @property
    def gasket(self) -> GasketSpec | None:
        """The gaskets that are cut: none where nobody asked for them, or where pans and ends stay in."""
        return None if self.job == "patches" else self.bellows.profile.gasket

    @property
    def gasket_length(self) -> float:
        """Length of the gaskets in all [mm]: round both frames of every copy."""
        return self.bellows.section.frame_perimeter * 2 * self.copies

    @property
    def rule(self) -> Rule:
        """How lengths are written."""
        return self.bellows.rule

    def long(self, mm: float) -> str:
        """A length off the rule [mm], with its unit."""
        return self.rule.length(mm)

    def short(self, mm: float) -> str:
        """A lap, a thickness or a gap [mm], with its unit."""
        return self.rule.fine(mm)

    def thickness(self, material: str) -> str:
        """Thickness of a material [mm], with its unit."""
        return self.short(self.bellows.material(material).thickness)


def size(part: Part) -> tuple[float, float]:
    """Width and length of a part over all [mm], the smaller first for strips."""
    left, low, right, high = bounds(part.points)
    return (high - low, right - left) if part.strip else (right - left, high - low)


def across_corners(work: Work) -> str:
    """What is measured to see that a frame is square, in words: one figure where all agree."""
    section = work.bellows.section
    frame, count, names = section.frame, section.count, section.corner_names
    half = count // 2
    found: list[tuple[str, float]] = []
    if count % 2:
        for i in range(count):
            a, b = frame[(i + half) % count], frame[(i + half + 1) % count]
            found.append((names[i], math.dist(frame[i], ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2))))
        found = [*found[1:], found[0]]
    else:
        found = [(say(words.SPAN, first=names[i], last=names[i + half]), math.dist(frame[i], frame[i + half])) for i in range(1, half)]
        found.append((say(words.SPAN, first=names[half], last=names[0]), math.dist(frame[half], frame[0])))
    if max(length for _, length in found) - min(length for _, length in found) < ALIKE:
        return work.long(found[0][1])
    each = [say(words.SQUARE_NAMED, name=name, size=work.rule.bare(length)) for name, length in found]
    return say(words.SQUARE_LIST, list=listed(each), unit=work.rule.unit)


def sizes(work: Work) -> str:
    """What the frames measure, in the way in which they were measured."""
    section = work.bellows.section
    spec = work.bellows.profile.section
    if spec.shape == "rectangle":
        return say(words.RECTANGLE, width=work.rule.bare(section.frame_sides[0]), height=work.long(section.frame_sides[1]))
    flats = section.flats
    if flats is not None and spec.side_lengths is None and spec.corners is None:
        if max(flats) - min(flats) < ALIKE:
            return say(words.ACROSS_FLATS, size=work.long(flats[0]))
        return say(words.ACROSS_EACH, list=lettered(work, section.side_names[: len(flats)], flats), unit=work.rule.unit)
    sides = section.frame_sides
    if max(sides) - min(sides) < ALIKE:
        return say(words.ALONG_ALIKE, size=work.long(sides[0]))
    return say(words.ALONG_EACH, list=lettered(work, section.side_names, sides), unit=work.rule.unit)


def lettered(work: Work, names: Sequence[str], lengths: Sequence[float]) -> str:
    """Lengths with the letters of their sides, without their unit."""
    return listed([say(words.ACROSS_LETTER, side=name, size=work.rule.bare(mm)) for name, mm in zip(names, lengths, strict=True)])


def sorts(parts: Sequence[Part]) -> tuple[str, ...]:
    """Places of each distinct shape of a kind: ``A and C``, ``B and D``; empty where there is but one."""
    return () if len(parts) < 2 else tuple(listed(part.sides or part.corners) for part in parts)


def joined(*texts: str) -> str:
    """Sentences one after the other."""
    return " ".join(text for text in texts if text)

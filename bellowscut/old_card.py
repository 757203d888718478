"""What the readings of an old card say: how far its legs lean, the relief, the corner gap.

A job that keeps its cards must fit them as they are. Lengths in millimetres,
angles in degrees. What contradicts the profile, or no card can have, is a
problem of its keys.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from bellowscut import folds
from bellowscut.limits import Problems
from bellowscut.profile import Profile
from bellowscut.schema import RELIEF, Readings
from bellowscut.section import Section
from bellowscut.sources import CARD_GAP_LEAST, CARD_GAP_MOST, RULE
from bellowscut.units import both
from bellowscut.words import old_card as words, say

SAME = 1e-9
"""What two decimals may differ by from being written in binary [mm]."""

RIDGE_EDGE = "readings.ridge_edge"
VALLEY_EDGE = "readings.valley_edge"


@dataclass(frozen=True)
class CardRead:
    """The card of one side as a rule found it.

    Parameters
    ----------
    side : str
        Letter of the side; empty for a card of whichever side.
    ridge_edge, valley_edge : float or None
        The middle one of the readings [mm]; None where that edge was not read.
    lean : float or None
        How far its legs lean from square, the mean of both [deg].
    relief : float or None
        What they lean beyond half the turn [deg].
    gap : float or None
        Corner gap that it leaves on its side [mm]; None too where the sides differ and none was named.
    """

    side: str
    ridge_edge: float | None
    valley_edge: float | None
    lean: float | None = None
    relief: float | None = None
    gap: float | None = None


@dataclass(frozen=True)
class OldCard:
    """All that the readings of old cards say.

    Parameters
    ----------
    cards : tuple of CardRead
        By side, A first; empty where nothing was read.
    either_way : float
        By how much a rule leaves a relief open, up and down [deg].
    """

    cards: tuple[CardRead, ...]
    either_way: float

    @property
    def reliefs(self) -> tuple[float, ...]:
        """What each card says of the relief [deg]."""
        return tuple(card.relief for card in self.cards if card.relief is not None)

    @property
    def relief(self) -> float | None:
        """The middle one of what they say, 0 at least [deg]: all corners have one relief."""
        return max(0.0, median(self.reliefs)) if self.reliefs else None

    @property
    def gap(self) -> float | None:
        """The middle corner gap [mm]."""
        gaps = [card.gap for card in self.cards if card.gap is not None]
        return median(gaps) if gaps else None

    @property
    def fits_the_end(self) -> bool:
        """Whether the middle corner gap is one that cards have; else the end and the cards quarrel."""
        return self.gap is None or not _beyond(self.gap)

    @property
    def misfit(self) -> CardRead | None:
        """The card whose own corner gap is furthest from what cards have; None where all of them fit the end."""
        worst = max((card for card in self.cards if card.gap is not None), key=lambda card: _beyond(card.gap or 0.0), default=None)
        return worst if worst is not None and _beyond(worst.gap or 0.0) else None

    @property
    def sides_agree(self) -> bool:
        """Whether one relief serves all cards read, as far as a rule can tell."""
        return not self.reliefs or max(self.reliefs) - min(self.reliefs) <= 2 * self.either_way


def _beyond(gap: float) -> float:
    """How far a corner gap is from those that cards have [mm]."""
    return max(0.0, CARD_GAP_LEAST.value - gap, gap - CARD_GAP_MOST.value)


def apart(values: Sequence[float]) -> float:
    """How far readings of one size lie from each other [mm]; those that a rule cannot tell apart count as one."""
    between = max(values) - min(values)
    return between if between > RULE.value + SAME else 0.0


def read_card(profile: Profile, made: Section, found: Problems) -> OldCard:
    """Work out what the readings say.

    Parameters
    ----------
    profile : Profile
        What was read.
    made : Section
        The section.
    found : Problems
        Takes what no card can have.
    """
    depth = profile.bellows.fold_depth
    either_way = math.degrees(math.atan(RULE.value / (2 * depth)))
    ridge, valley = profile.readings.ridge_edge, profile.readings.valley_edge
    named = {side for one in (ridge, valley) if one is not None for side in one.sides}
    cards = []
    for side in [name for name in made.side_names if name in named] or [""]:
        b, a = _middle(ridge, side), _middle(valley, side)
        if b is not None or a is not None:
            cards.append(_card(side, b, a, made, depth, either_way, found))
    card = OldCard(tuple(cards), either_way)
    if ridge is not None and valley is not None and not found.problems and not card.reliefs:
        found.add(VALLEY_EDGE, say(words.NOT_THE_SAME_SIDE, ridge=", ".join(ridge.sides)))
    return card


def _middle(readings: Readings | None, side: str) -> float | None:
    values = () if readings is None else readings.at(side)
    return median(values) if values else None


def _card(side: str, b: float | None, a: float | None, made: Section, depth: float, either_way: float, found: Problems) -> CardRead:
    count = made.count
    on = range(count) if not side else [made.side_names.index(side)]
    turns = [(made.turns[i], made.turns[(i + 1) % count]) for i in on]
    gap = None
    if b is not None:
        gaps = [folds.gap_of_card(made.sides[i], b, pair) for i, pair in zip(on, turns, strict=True)]
        gap = None if apart(gaps) else median(gaps)
    if b is None or a is None:
        return CardRead(side, b, a, gap=gap)
    leans = [folds.lean_of_card(b, a, depth, pair) for pair in turns]
    reliefs = [lean - (before + after) / 4 for lean, (before, after) in zip(leans, turns, strict=True)]
    if a >= b:
        found.add(VALLEY_EDGE, say(words.VALLEY_WIDER, valley=both(a), ridge=both(b), where=_where(side)))
    elif max(reliefs) - min(reliefs) > either_way:
        found.add(VALLEY_EDGE, say(words.WHICH_SIDE, ridge=both(b), valley=both(a)))
    elif median(reliefs) < -either_way:
        most = b - depth * max(math.tan(math.radians(x) / 2) + math.tan(math.radians(y) / 2) for x, y in turns)
        half = median((x + y) / 4 for x, y in turns)
        text = words.LEANS_TOO_LITTLE if most > 0 else words.LEANS_TOO_LITTLE_FOR_DEPTH
        lean = f"{median(leans):.1f}"
        found.add(VALLEY_EDGE, say(text, valley=both(a), ridge=both(b), where=_where(side), lean=lean, half=f"{half:.1f}", most=both(most)))
    return CardRead(side, b, a, median(leans), median(reliefs), gap)


def _where(side: str) -> str:
    return say(words.AT_SIDE, side=side) if side else ""


def corner_gap(profile: Profile, made: Section, card: OldCard, thickness: float, found: Problems) -> float:
    """The corner gap that is given, else the one that was read, else the usual one [mm].

    Parameters
    ----------
    profile : Profile
        What was asked for.
    made : Section
        The section.
    card : OldCard
        What was read.
    thickness : float
        Of the cards [mm].
    found : Problems
        Takes a gap that contradicts the ridge edge.
    """
    given, read = profile.bellows.corner_gap, card.gap
    if given is None:
        return folds.default_corner_gap(made.turns, thickness) if read is None or not card.fits_the_end else read
    if read is not None and apart((read, given)):
        found.add("bellows.corner_gap", say(words.GAP_CONTRADICTS, gap=f"{read:.2f}"))
    return given


def check_relief(profile: Profile, card: OldCard, relief: float, found: Problems) -> None:
    """Add a problem where a relief or closed gap that is given contradicts the card.

    Parameters
    ----------
    profile : Profile
        What was asked for.
    card : OldCard
        What was read.
    relief : float
        What the given key asks for [deg].
    found : Problems
        Takes the contradiction, with both keys.
    """
    read = card.relief
    if read is None or not relief_given(profile):
        return
    allowed = max(card.either_way, (max(card.reliefs) - min(card.reliefs)) / 2)
    if abs(relief - read) > allowed:
        key = "bellows.closed_gap" if profile.bellows.relief is None else "bellows.relief"
        text = words.CLOSED_GAP_CONTRADICTS if profile.bellows.relief is None else words.RELIEF_CONTRADICTS
        found.add(key, say(text, relief=f"{relief:.1f}", read=f"{read:.1f}", either_way=f"{allowed:.1f}"))


def relief_given(profile: Profile) -> bool:
    """Whether the profile itself says how much relief the cards have."""
    return profile.bellows.relief is not None or profile.bellows.closed_gap is not None


def relief_known(profile: Profile, card: OldCard) -> bool:
    """Whether the relief was given or read, and is no guess."""
    return relief_given(profile) or card.relief is not None


def usual_relief(card: OldCard) -> float:
    """The relief where none is given: as read, else a usual one [deg]."""
    return RELIEF if card.relief is None else card.relief

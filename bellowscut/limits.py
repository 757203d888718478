"""Limits that a profile runs into before there is a bellows: relief, fold depth, gusset lap.

What is refused is gathered with the profile key that asked for it, so that as
much as possible is reported at once. Lengths in millimetres, angles in degrees.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from bellowscut import folds
from bellowscut.errors import Problem, ProfileError, Refusal
from bellowscut.folds import Corner
from bellowscut.profile import Profile
from bellowscut.schema import RELIEF
from bellowscut.section import Section
from bellowscut.units import both, plain_number
from bellowscut.words import bellows as words, say

T = TypeVar("T")

KEYS = {
    "sides": "section.sides",
    "measure": "section.measure",
    "end_size": "section.end_size",
    "flats": "section.flats",
    "side_lengths": "section.side_lengths",
    "corners": "section.corners",
    "other_end": "section.other_end",
    "ridge_setback": "section.ridge_setback",
    "closed_gap": "bellows.closed_gap",
    "travel": "bellows.travel",
    "gusset_width": "gusset.use",
}
"""Profile key of each quantity that the geometry core may refuse."""


class Problems:
    """Gathers refusals, so that as many as possible are reported at once."""

    def __init__(self, profile: Profile) -> None:
        self.profile = profile
        self.problems: list[Problem] = []

    def add(self, key: str, message: str) -> None:
        """Add a problem of a profile key."""
        self.problems.append(self.profile.problem(key, message))

    def attempt(self, work: Callable[[], T], key: str = "") -> T | None:
        """What `work` returns; None where it refuses, which becomes a problem of `key` or of the quantity's own key."""
        try:
            return work()
        except Refusal as refusal:
            self.add(key or KEYS[refusal.quantity], refusal.message)
            return None

    def stop(self) -> None:
        """Raise `ProfileError` with everything gathered, if there is anything."""
        if self.problems:
            raise ProfileError(tuple(self.problems))


def relief(profile: Profile, made: Section, gap: float, usual: float, found: Problems) -> float | None:
    """The relief [deg], given or from the closed gap; None, with its problem added, where it leaves the card no leg.

    Parameters
    ----------
    profile : Profile
        What was asked for.
    made : Section
        The section.
    gap : float
        Corner gap [mm].
    usual : float
        The relief where the profile gives none [deg].
    found : Problems
        Takes what is refused.
    """
    spec = profile.bellows
    value = usual if spec.relief is None else spec.relief
    if spec.closed_gap is not None:
        value = folds.relief_for_closed_gap(made.turns, spec.fold_depth, gap, spec.closed_gap)
    limit = 90 - max(made.turns) / 2
    if value >= limit:
        found.add(
            _relief_key(profile),
            say(words.RELIEF_LEAVES_NO_LEG, relief=f"{value:.1f}", limit=f"{limit:.1f}"),
        )
        return None
    return value


def _relief_key(profile: Profile) -> str:
    """The key that the relief follows from."""
    if profile.bellows.closed_gap is not None:
        return "bellows.closed_gap"
    if profile.bellows.relief is None and profile.readings.valley_edge is not None:
        return "readings.valley_edge"
    return "bellows.relief"


def depth_limit(made: Section, corners: tuple[Corner, ...], lap: float) -> float:
    """Fold depth that the section cannot reach with this gusset lap [mm]."""
    return min(folds.depth_limit(side, corners[i], corners[(i + 1) % made.count], lap) for i, side in enumerate(made.sides))


def check_depth(made: Section, corners: tuple[Corner, ...], found: Problems) -> None:
    """Add a problem for each key that would bring the fold depth under its limit by itself.

    Parameters
    ----------
    made : Section
        The section.
    corners : tuple of Corner
        Its corners.
    found : Problems
        Takes what is refused.
    """
    profile = found.profile
    depth, lap = profile.bellows.fold_depth, profile.gusset.lap
    limit = depth_limit(made, corners, lap)
    if depth < limit:
        return
    before = len(found.problems)
    if limit > 0:
        found.add("bellows.fold_depth", say(words.TOO_DEEP, limit=both(limit)))
    most = _lap_limit(made, corners, depth, lap)
    if most > 0 and (limit <= 0 or "gusset.lap" in profile.given):
        found.add("gusset.lap", say(words.LAP_TOO_WIDE, depth=both(depth), most=both(most)))
    steepest = corners[0].relief
    if steepest > RELIEF and depth < depth_limit(made, _at_relief(corners, RELIEF), lap):
        low, high = RELIEF, steepest
        for _ in range(50):
            middle = (low + high) / 2
            low, high = (middle, high) if depth < depth_limit(made, _at_relief(corners, middle), lap) else (low, middle)
        key = _relief_key(profile)
        if key == "bellows.closed_gap":
            closed = min(corner.opening(0) for corner in _at_relief(corners, low))
            found.add(key, say(words.CLOSED_GAP_TOO_LARGE, relief=f"{steepest:.1f}", most=both(closed)))
        elif key == "bellows.relief":
            found.add(key, say(words.RELIEF_TOO_LARGE, depth=both(depth), most=plain_number(low, 1)))
        else:
            told = say(words.VALLEY_EDGE_TOO_NARROW, relief=f"{steepest:.1f}", depth=both(depth), most=plain_number(low, 1))
            found.add(key, told)
    if len(found.problems) == before:
        found.add("section", say(words.SIDE_TOO_SHORT, lap=both(lap)))


def _at_relief(corners: tuple[Corner, ...], relief: float) -> tuple[Corner, ...]:
    return tuple(Corner(corner.turn, corner.depth, corner.gap, relief) for corner in corners)


def _lap_limit(made: Section, corners: tuple[Corner, ...], depth: float, lap: float) -> float:
    """Gusset lap at which `depth` becomes the limit [mm]; the limit falls in a straight line with the lap."""
    found = []
    for i, side in enumerate(made.sides):
        pair = corners[i], corners[(i + 1) % made.count]
        room, limit = (folds.depth_limit(side, *pair, each) for each in (0.0, lap))
        found.append(lap * (room - depth) / (room - limit))
    return min(found)

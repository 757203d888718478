"""What a sheet of patterns says beside the parts on it: advice for leather, and which side is shown."""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.pages.views import GUSSETS
from bellowscut.parts.part import Part
from bellowscut.units import Rule
from bellowscut.words import say, sheets as words


def advice(parts: Sequence[Part], distance: float | None) -> tuple[str, ...]:
    """Advice that belongs to some parts.

    Parameters
    ----------
    parts : sequence of Part
        What a sheet shows.
    distance : float or None
        Of the frames while gluing [mm], where it is known.
    """
    leather = [part for part in parts if part.side in ("flesh", "grain")]
    found = []
    if leather:
        found.append(say(words.SUCK))
    if any(part.kind in GUSSETS for part in leather):
        found.append(say(words.CUT_ONE_FIRST_UNKNOWN) if distance is None else say(words.CUT_ONE_FIRST, mm=Rule().length(distance)))
    if any(part.strip for part in leather):
        found.append(say(words.PULL))
    return tuple(found)


def side_shown(parts: Sequence[Part]) -> str:
    """Which side of the leather some parts show; empty when there is none."""
    faces = [part.side for part in parts]
    return say(words.FLESH) if "flesh" in faces else say(words.GRAIN) if "grain" in faces else ""

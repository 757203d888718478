"""What a guess at the cards is worth, where a job keeps them and nobody measured one.

The same bellows is worked out with the least and the greatest relief that old
boxes are found with. Lengths in millimetres, angles in degrees.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from bellowscut import limits
from bellowscut.bellows import Bellows, gusset_cut
from bellowscut.errors import Refusal
from bellowscut.folds import open_length
from bellowscut.parts import JOBS
from bellowscut.parts.gusset import KINDS as GUSSETS, gusset_shape
from bellowscut.sources import OLD_RELIEF_LEAST, OLD_RELIEF_MOST

CARDS = frozenset({"card", "card-run"})
STEP = 0.5
"""How finely a relief is looked for that the section has room for [deg]."""


@dataclass(frozen=True)
class Guess:
    """What hangs on a relief that nobody measured.

    Parameters
    ----------
    reliefs : tuple of float
        Least and greatest that the cards may have [deg].
    widths : tuple of float
        Gusset widths that would be right for these [mm], in the corner where they differ most; both the given one for an own gusset.
    width : float
        What is cut there [mm].
    lengths : tuple of float
        Open lengths that the gusset that is cut gives with these, the lesser first [mm].
    missing : tuple of str
        Edges that were not read, of ``ridge_edge`` and ``valley_edge``.
    own : bool
        Whether the gusset is one that was given.
    """

    reliefs: tuple[float, float]
    widths: tuple[float, float]
    width: float
    lengths: tuple[float, float]
    missing: tuple[str, ...]
    own: bool

    @property
    def off(self) -> float:
        """How far the gusset may be out [mm]."""
        return max(abs(width - self.width) for width in self.widths)


def cuts_gussets(job: str, also: tuple[str, ...] = ()) -> bool:
    """Whether a job, with the kinds that it makes also, cuts what must fit the corners."""
    return bool({*GUSSETS} & {*JOBS[job], *also})


def fits_old_cards(job: str, also: tuple[str, ...] = ()) -> bool:
    """Whether what a job cuts must fit cards that stay."""
    return cuts_gussets(job, also) and not CARDS & {*JOBS[job]}


def card_guess(bellows: Bellows, job: str, also: tuple[str, ...] = ()) -> Guess | None:
    """What the guess is worth; None where the cards are known, or the job makes new ones.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    job : str
        A key of `bellowscut.parts.JOBS`.
    also : tuple of str
        Kinds of part that are made as well.
    """
    if bellows.card_known or not fits_old_cards(job, also):
        return None
    low, high = _possible(bellows, OLD_RELIEF_LEAST.value), _possible(bellows, OLD_RELIEF_MOST.value)
    narrower, wider = _with(bellows, low), _with(bellows, high)
    corner = max(range(bellows.section.count), key=lambda i: _width(wider, i) - _width(narrower, i))
    ends = (_width(narrower, corner), _width(wider, corner))
    opened = sorted(_opened(bellows, relief) for relief in (low, high))
    readings = bellows.profile.readings
    missing = tuple(key for key in ("ridge_edge", "valley_edge") if getattr(readings, key) is None)
    return Guess((low, high), ends, _width(bellows, corner), (opened[0], opened[1]), missing, bellows.profile.gusset.use is not None)


def _with(bellows: Bellows, relief: float) -> Bellows:
    """The same bellows, its cards cut with another relief [deg]."""
    return replace(bellows, corners=tuple(replace(corner, relief=relief) for corner in bellows.corners))


def _possible(bellows: Bellows, relief: float) -> float:
    """The relief nearest to one, towards that of the bellows, for which the section has room [deg]."""
    lap = bellows.profile.gusset.lap
    while relief > bellows.relief and bellows.depth >= limits.depth_limit(bellows.section, _with(bellows, relief).corners, lap):
        relief = max(bellows.relief, relief - STEP)
    return relief


def _width(bellows: Bellows, corner: int) -> float:
    """Greatest width of the gusset of a corner as it is cut [mm]."""
    outline, _ = gusset_shape(bellows, bellows.corners[corner], "gusset")
    left, _, right, _ = outline.bounds()
    return right - left


def _opened(bellows: Bellows, relief: float) -> float:
    """Open length with the gussets that are cut, where the cards have another relief [mm]."""
    spec = bellows.profile.gusset
    found = []
    for cut, real in zip(bellows.corners, _with(bellows, relief).corners, strict=True):
        try:
            if spec.use is not None:
                found.append(real.stretch_for_own(spec.use, gusset_cut(bellows.profile)))
                continue
            width = 2 * cut.gusset_edge(bellows.stretch, spec.lap, spec.tip_lap)[0]
            found.append(real.stretch_for_gusset(width, spec.lap, spec.tip_lap))
        except Refusal:
            # Narrower than these corners are when closed.
            found.append(0.0)
    return open_length(bellows.cards_per_side, bellows.depth, min(found))

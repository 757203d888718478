"""Parts: one file a kind, listed here in the order in which they are cut."""

from __future__ import annotations

from bellowscut.bellows import Bellows
from bellowscut.parts import card, card_run, corner_patch, edge_strip, end_strip, facing, fold_strips, gusset
from bellowscut.parts.part import Part

MAKERS = (card, card_run, gusset, edge_strip, end_strip, fold_strips, facing, corner_patch)
"""Every maker of parts; each has KINDS and make(bellows)."""

KINDS = tuple(kind for maker in MAKERS for kind in maker.KINDS)
"""Names of all kinds of parts, as used in files and by ``--also``."""

OPTIONAL = ("frame-hinge", "valley-strip", "ridge-cloth", "facing", "corner-patch", "cover-gusset")
"""Kinds that a profile may leave out; ``--also`` makes them with their defaults."""

JOBS = {
    "rebellows": tuple(kind for kind in KINDS if kind != "cover-gusset"),
    "regusset": ("gusset", "end-gusset", "half-gusset", "edge-strip", "end-strip"),
    "strips": ("edge-strip", "end-strip"),
    "cover": ("cover-gusset",),
    "patches": ("corner-patch",),
}
"""Which kinds each job makes."""


def make_parts(bellows: Bellows, job: str = "rebellows", also: tuple[str, ...] = ()) -> tuple[Part, ...]:
    """Every part of a job.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    job : str
        A key of `JOBS`.
    also : tuple of str
        Further kinds.

    Returns
    -------
    tuple of Part
        Distinct parts in cutting order, each with a unique id.
    """
    wanted = {*JOBS[job], *also}
    return tuple(part for maker in MAKERS for part in maker.make(bellows) if part.kind in wanted)


__all__ = ["JOBS", "KINDS", "MAKERS", "OPTIONAL", "Part", "make_parts"]

"""Where on the sheet a warning or a caution stands: at the step where it matters, once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType

MEASURING = ("measure-frames", "measure", "measure-strips")
CARDS = ("cards", "card-runs", "hinges")

PLACES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "readings-apart": MEASURING,
        "sides-apart": MEASURING,
        "end-and-card": MEASURING,
        "name-the-side": MEASURING,
        "card-not-measured": MEASURING,
        "measured-on-end": MEASURING,
        "measured-on-cover": MEASURING,
        "flats-alike": MEASURING,
        "flats-hide-sides": MEASURING,
        "sides-misfit": MEASURING,
        "other-end-mirrored": MEASURING,
        "other-end-turned": MEASURING,
        "ends-differ": ("frames", "end-strips"),
        "gusset-leather": ("cut-gussets", "skive-gussets"),
        "gusset-skiver": ("cut-gussets", "skive-gussets"),
        "strip-leather": ("cut-strips",),
        "cover-leather": (),
        "patch-leather": (),
        "card-thickness": ("cards", "card-runs"),
        "corner-gap": CARDS,
        "valley-gap": ("hinge-cards", "hinges"),
        "radius-reduced": CARDS,
        "laps-meet": ("cut-strips",),
        "hinges-meet": ("hinge-cards", "hinges"),
        "relief": CARDS,
        "gusset-stretch": ("cut-gussets", "cut-covers"),
        "gusset-length": ("cut-gussets", "cut-covers"),
        "stretch-low": (),
        "over-centre": (),
        "pleats-meet": (),
        "leather-share": (),
        "form-slope": ("cut-gussets", "cut-covers"),
        "valley-ends": (),
        "strip-joint": ("cut-strips",),
        "darts": ("cut-strips",),
        "closed-length": (),
        "reed-clearance": (),
        "facing-short": ("facings", "papers"),
        "letters": (),
    }
)
"""By the code of a warning: the steps where it matters, the first that a job has; none where it holds for the whole job."""

KNIVES = frozenset(
    {
        "lift-strips",
        "strip-gussets",
        "cut-off-bellows",
        "cards",
        "card-runs",
        "cut-gussets",
        "skive-gussets",
        "cut-covers",
        "pare-covers",
        "cut-patches",
        "cut-strips",
    }
)
"""Steps with a knife in hand."""

GLUING = frozenset(
    {
        "lift-strips",
        "strip-gussets",
        "frames",
        "clean",
        "clean-gussets",
        "clean-corners",
        "hinges",
        "hinge-cards",
        "glue-gussets",
        "gussets-on-form",
        "glue-covers",
        "glue-patches",
        "edge-strips",
    }
)
"""Steps with hot glue, or with what takes old glue off."""

INSIDE = frozenset({"open-up", "find-leaks", "cut-off-bellows"})
"""Steps at which dust comes out of an old bellows."""

WORKED = KNIVES | GLUING
"""Steps at which hands are at work with something that can hurt."""

PATTERNED = frozenset({"cut-gussets", "cut-covers"})
"""Steps for which a pattern is tried in paper."""

MACHINE = frozenset({"make-form", "cards", "card-runs", "cut-gussets", "cut-covers", "cut-patches", "cut-strips"})
"""Steps for which a laser or a knife machine may be used."""

CAUTIONED: Mapping[str, frozenset[str]] = MappingProxyType(
    {
        "blades": KNIVES,
        "glue": GLUING,
        "dust": INSIDE,
        "rules": WORKED,
        "paper": PATTERNED,
        "laser": MACHINE,
        "manual": MACHINE,
    }
)
"""By the key of a caution: the steps that call for it, of which the first has it."""

PRINTED = ("cards", "card-runs", "cut-gussets", "cut-covers", "cut-strips", "cut-patches")
"""Steps that work from printed sheets; the first of them reminds of the measuring bars."""


def place(code: str, keys: Sequence[str]) -> str | None:
    """The step at which a warning stands.

    Parameters
    ----------
    code : str
        Of the warning; one that is not known holds for the whole job.
    keys : sequence of str
        Steps of the job in order.

    Returns
    -------
    str or None
        Key of a step; None for the head of the sheet.
    """
    return next((key for key in PLACES.get(code, ()) if key in keys), None)


def first_of(wanted: Iterable[str], keys: Sequence[str]) -> str | None:
    """The first step of a job that is one of those wanted; None where it has none."""
    found = set(wanted)
    return next((key for key in keys if key in found), None)

"""The operations of each job in order, their minutes, and the days that pass.

An operation takes fixed minutes and minutes for each piece. Where the fixed
part is set-up, it is shared over all copies made together; else each copy has
its own. All minutes shipped are invented, for a practised hand; a workshop
file, a profile or a job book puts one's own in their place.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from math import ceil
from types import MappingProxyType

from bellowscut.parts import Part
from bellowscut.words import operations as words, say

GUSSETS = ("gusset", "end-gusset", "half-gusset")
COVERS = ("cover-gusset",)
STRIPS = ("edge-strip", "end-strip")

DAY_LONG, DAY_SHORT = 360.0, 300.0
"""Minutes at the bench of a long and of a short day [min], invented."""


@dataclass(frozen=True)
class Operation:
    """One step of a job.

    Parameters
    ----------
    key : str
        Short name that does not change, for workshop files and job books.
    fixed : float
        Minutes however many pieces there are [min].
    each : float
        Minutes for each piece [min].
    kinds : tuple of str
        Kinds of part that are counted; the step falls away where none of them is made.
    spares : bool
        Whether spares are counted too: they are cut and pared, not glued.
    shared : bool
        Whether `fixed` is set-up, done once for all copies; else every copy has it.
    nights : tuple of int
        Least and most nights that glue dries or the bellows stands pressed before the next step [-].
    always : bool
        Whether the step is there even where none of its pieces are made.
    """

    key: str
    fixed: float
    each: float = 0.0
    kinds: tuple[str, ...] = ()
    spares: bool = False
    shared: bool = False
    nights: tuple[int, int] = (0, 0)
    always: bool = False

    @property
    def name(self) -> str:
        """What is done, in words."""
        return say(words.NAMES[self.key])

    def number(self, parts: Sequence[Part]) -> int:
        """Pieces that are counted [-]."""
        return sum(part.pieces if self.spares else part.count for part in parts if part.kind in self.kinds)

    def applies(self, parts: Sequence[Part]) -> bool:
        """Whether a job that makes these parts has this step."""
        return self.always or not self.kinds or self.number(parts) > 0

    def minutes(self, number: int, copies: int = 1) -> Decimal:
        """Minutes for so many pieces, all copies together [min], by the invented figures."""
        return _minutes(self, Decimal(repr(self.fixed)), Decimal(repr(self.each)), number, copies)


GUSSETS_CUT = Operation("cut-gussets", 7, 1, GUSSETS, spares=True, shared=True)
GUSSETS_SKIVED = Operation("skive-gussets", 22, 1, GUSSETS, spares=True, shared=True)
LOOK_OVER = Operation("look-over", 20)
OPEN_UP = Operation("open-up", 20)
INVOICE = Operation("invoice", 15)

OPERATIONS: Mapping[str, tuple[Operation, ...]] = MappingProxyType(
    {
        "rebellows": (
            LOOK_OVER,
            OPEN_UP,
            Operation("measure", 30),
            Operation("cut-off-bellows", 50),
            Operation("measure-frames", 15),
            Operation("frames", 40),
            Operation("set-up-form", 20, shared=True),
            Operation("cards", 1, 1, ("card",), shared=True),
            Operation("card-runs", 20, 10, ("card-run",), shared=True),
            Operation("hinge-cards", 23, 1.5, ("hinge",), nights=(1, 1)),
            Operation("cut-gussets", 16, 0.5, GUSSETS, spares=True, shared=True),
            GUSSETS_SKIVED,
            Operation("gussets-on-form", 35, 2.5, ("gusset",), nights=(1, 1)),
            Operation("end-gussets", 20, 2.5, ("end-gusset", "half-gusset"), nights=(0, 1), always=True),
            Operation("cut-strips", 10, 5, STRIPS, shared=True),
            Operation("ridge-cloth", 3, 0.75, ("ridge-cloth",)),
            Operation("edge-strips", 20, 10, ("edge-strip",), nights=(0, 1)),
            Operation("end-strips", 15, 15, ("end-strip",)),
            Operation("valley-strips", 3, 1, ("valley-strip",)),
            Operation("facings", 6, 1, ("facing",)),
            Operation("dress", 35, nights=(2, 3)),
            Operation("test", 30),
            Operation("assemble", 30),
            INVOICE,
        ),
        "regusset": (
            LOOK_OVER,
            OPEN_UP,
            Operation("measure", 35),
            Operation("lift-strips", 10, 5, STRIPS),
            Operation("strip-gussets", 18, 1, GUSSETS),
            Operation("clean", 60, nights=(1, 1)),
            Operation("hinges", 20),
            GUSSETS_CUT,
            GUSSETS_SKIVED,
            Operation("prop", 15),
            Operation("glue-gussets", 15, 2.5, GUSSETS, nights=(1, 1)),
            Operation("cut-strips", 5, 5, STRIPS, shared=True),
            Operation("edge-strips", 15, 10, ("edge-strip",)),
            Operation("end-strips", 5, 15, ("end-strip",)),
            Operation("papers", 40),
            Operation("dress", 25, nights=(1, 2)),
            Operation("test", 25),
            Operation("assemble", 30),
            INVOICE,
        ),
        "strips": (
            LOOK_OVER,
            OPEN_UP,
            Operation("measure-strips", 15),
            Operation("lift-strips", 10, 5, STRIPS),
            Operation("clean", 15, nights=(1, 1)),
            Operation("cut-strips", 5, 5, STRIPS, shared=True),
            Operation("edge-strips", 15, 10, ("edge-strip",)),
            Operation("end-strips", 5, 15, ("end-strip",)),
            Operation("dress", 25, nights=(1, 1)),
            Operation("test", 25),
            Operation("assemble", 30),
            INVOICE,
        ),
        "cover": (
            LOOK_OVER,
            OPEN_UP,
            Operation("measure", 20),
            Operation("clean-gussets", 9, 0.5, COVERS, nights=(1, 1)),
            Operation("cut-covers", 7, 1, COVERS, spares=True, shared=True),
            Operation("pare-covers", 6, 0.5, COVERS, spares=True, shared=True),
            Operation("glue-covers", 15, 1.25, COVERS),
            Operation("dress", 10, nights=(1, 1)),
            Operation("test", 20),
            Operation("assemble", 20),
            INVOICE,
        ),
        "patches": (
            Operation("look-over", 15),
            Operation("find-leaks", 10),
            Operation("clean-corners", 3, 1.5, ("corner-patch",)),
            Operation("cut-patches", 6, 1, ("corner-patch",), spares=True, shared=True),
            Operation("glue-patches", 3, 2.5, ("corner-patch",), nights=(1, 1)),
            Operation("test", 10),
            Operation("invoice", 10),
        ),
    }
)
"""Steps of each job, in order; minutes invented."""

FORM = Operation("make-form", 240, shared=True)
"""Making a form that is not there yet; invented."""

KEYS = tuple(dict.fromkeys(one.key for steps in (*OPERATIONS.values(), (FORM,)) for one in steps))
"""Keys of all operations, for workshop files and job books."""


@dataclass(frozen=True)
class Step:
    """One operation of one job with its minutes.

    Parameters
    ----------
    operation : Operation
        What is done.
    number : int
        Pieces that it is done to; 0 where pieces do not count [-].
    base : Decimal
        By the shipped minutes, or those of the profile or the workshop file [min].
    minutes : Decimal
        What is reckoned with: `base`, or what the job book makes of it [min].
    learned : int
        Earlier jobs in the job book that it comes from [-].
    """

    operation: Operation
    number: int
    base: Decimal
    minutes: Decimal
    learned: int = 0


@dataclass(frozen=True)
class Own:
    """Minutes of one's own: those of a workshop file or profile, and what a job book has taught.

    Parameters
    ----------
    minutes : mapping of str to pair of Decimal
        Fixed and each, by the key of an operation [min].
    ratios : mapping of str to pair
        Median of what an operation took over what it was reckoned at [-], and from how many jobs.
    """

    minutes: Mapping[str, tuple[Decimal, Decimal]] = field(default_factory=dict)
    ratios: Mapping[str, tuple[Decimal, int]] = field(default_factory=dict)


SHIPPED = Own()
"""Nothing of one's own: the invented minutes."""


def base_minutes(operation: Operation, number: int, copies: int, own: Own = SHIPPED) -> Decimal:
    """Minutes of an operation before a job book is asked [min]: one's own where given, else the invented."""
    if operation.key not in own.minutes:
        return operation.minutes(number, copies)
    fixed, each = own.minutes[operation.key]
    return _minutes(operation, fixed, each, number, copies)


def steps(job: str, parts: Sequence[Part], copies: int = 1, own: Own = SHIPPED, *, new_form: bool = False) -> tuple[Step, ...]:
    """The operations of a job that apply, with their minutes.

    Parameters
    ----------
    job : str
        A key of `OPERATIONS`.
    parts : sequence of Part
        What the job makes, for all copies.
    copies : int
        Instruments made alike [-].
    own : Own
        Minutes of one's own.
    new_form : bool
        Whether the form has to be made first.

    Returns
    -------
    tuple of Step
        In working order.
    """
    found = []
    for operation in OPERATIONS[job]:
        if operation.key == "set-up-form" and new_form:
            found.append(_step(FORM, 0, copies, own))
        if operation.applies(parts):
            found.append(_step(operation, operation.number(parts), copies, own))
    return tuple(found)


def _step(operation: Operation, number: int, copies: int, own: Own) -> Step:
    base = base_minutes(operation, number, copies, own)
    ratio, jobs = own.ratios.get(operation.key, (Decimal(1), 0))
    return Step(operation, number, base, base * ratio, jobs)


def days(steps: Sequence[Step]) -> tuple[int, int]:
    """Fewest and most working days from the first step to the last, drying included [-]."""
    quick, slow = schedule(steps, DAY_LONG, 0), schedule(steps, DAY_SHORT, 1)
    return (quick[-1] if quick else 0), (slow[-1] if slow else 0)


def schedule(steps: Sequence[Step], day: float = DAY_LONG, nights: int = 0) -> tuple[int, ...]:
    """On which day each step is finished, counted from 1 [-].

    Parameters
    ----------
    steps : sequence of Step
        In working order.
    day : float
        Minutes at the bench in a day [min].
    nights : int
        0 for the least drying, 1 for the most.

    Returns
    -------
    tuple of int
        One a step. A step that dries over night ends its day.
    """
    found = []
    today, used = 1, 0.0
    for step in steps:
        length = float(step.minutes)
        used += length
        if used > day and length <= day:
            # Nobody begins what has to be glued in one go late in the day.
            today, used = today + 1, length
        elif used > day:
            more = ceil(used / day) - 1
            today, used = today + more, used - more * day
        found.append(today)
        waiting = step.operation.nights[nights]
        if waiting:
            today, used = today + waiting, 0.0
    return tuple(found)


def _minutes(operation: Operation, fixed: Decimal, each: Decimal, number: int, copies: int) -> Decimal:
    return fixed * (1 if operation.shared else copies) + each * number

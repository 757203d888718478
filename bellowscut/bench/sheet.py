"""A work sheet before it is set: the steps of a job with all that is said at each, and the tables."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from types import MappingProxyType
from typing import Protocol

from bellowscut import advice
from bellowscut.bellows import Bellows
from bellowscut.bench import building, corners, finishing, opening, tables
from bellowscut.bench.order import Days, days_of, working_order
from bellowscut.bench.placing import CAUTIONED, PRINTED, first_of, place
from bellowscut.bench.tables import Table
from bellowscut.bench.work import Manner, Told, Work, beware
from bellowscut.labour import Step
from bellowscut.parts.part import Part
from bellowscut.words import say, work_sheet as words

SAYS: Mapping[str, Callable[[Work], Iterator[Told]]] = MappingProxyType(
    {
        "look-over": opening.look_over,
        "open-up": opening.open_up,
        "measure": opening.measure,
        "measure-frames": opening.measure_frames,
        "measure-strips": opening.measure_strips,
        "find-leaks": opening.find_leaks,
        "lift-strips": opening.lift_strips,
        "strip-gussets": opening.strip_gussets,
        "cut-off-bellows": opening.cut_off_bellows,
        "frames": opening.frames,
        "clean": opening.clean,
        "clean-gussets": opening.clean_gussets,
        "clean-corners": opening.clean_corners,
        "hinges": opening.hinges,
        "make-form": building.make_form,
        "set-up-form": building.set_up_form,
        "cards": building.cards,
        "card-runs": building.card_runs,
        "hinge-cards": building.hinge_cards,
        "cut-gussets": corners.cut_gussets,
        "skive-gussets": corners.skive_gussets,
        "gussets-on-form": corners.gussets_on_form,
        "end-gussets": corners.end_gussets,
        "prop": corners.prop,
        "glue-gussets": corners.glue_gussets,
        "cut-covers": corners.cut_covers,
        "pare-covers": corners.pare_covers,
        "glue-covers": corners.glue_covers,
        "cut-patches": corners.cut_patches,
        "glue-patches": corners.glue_patches,
        "cut-strips": finishing.cut_strips,
        "edge-strips": finishing.edge_strips,
        "end-strips": finishing.end_strips,
        "ridge-cloth": finishing.ridge_cloth,
        "valley-strips": finishing.valley_strips,
        "papers": finishing.papers,
        "facings": finishing.facings,
        "dress": finishing.dress,
        "test": finishing.test_air,
        "assemble": finishing.assemble,
        "invoice": finishing.invoice,
    }
)
"""What each operation says, by its key."""

PRESSED = ("dress",)
"""Steps after which the bellows stands pressed, rather than glue drying."""


class Note(Protocol):
    """A warning: a short code for programs and a text for people."""

    @property
    def code(self) -> str:
        """Short name that does not change."""

    @property
    def text(self) -> str:
        """What a repairer reads."""


@dataclass(frozen=True)
class WorkStep:
    """One step as it stands on the sheet.

    Parameters
    ----------
    number : int
        Counted from 1 [-].
    step : Step
        Operation and minutes.
    days : Days
        When it ends.
    told : tuple of Told
        What is said at it, in order.
    """

    number: int
    step: Step
    days: Days
    told: tuple[Told, ...]

    @property
    def minutes(self) -> int:
        """Minutes as printed, whole [min]."""
        return whole_minutes(self.step)


@dataclass(frozen=True)
class WorkSheet:
    """Everything on a work sheet.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    job : str
        A key of `bellowscut.labour.OPERATIONS`.
    whole : tuple of str
        Warnings that hold for the whole job.
    steps : tuple of WorkStep
        In working order.
    tables : tuple of Table
        Measured before and after, what lies ready, what is pared; those with rows.
    glued : bool
        Whether the frames are propped apart for gluing.
    """

    bellows: Bellows
    job: str
    whole: tuple[str, ...]
    steps: tuple[WorkStep, ...]
    tables: tuple[Table, ...]
    glued: bool

    @property
    def minutes(self) -> int:
        """Sum of the minutes as printed [min]."""
        return sum(step.minutes for step in self.steps)

    @property
    def days(self) -> Days:
        """Days from the first step to the last."""
        return self.steps[-1].days if self.steps else Days(0, 0)

    @property
    def minutes_told(self) -> tuple[str, ...]:
        """Where the minutes come from."""
        own = any(one.step.base != one.step.operation.minutes(one.step.number, self.bellows.profile.copies) for one in self.steps)
        found = [say(words.MINUTES_OWN if own else words.MINUTES_INVENTED)]
        if any(one.step.learned for one in self.steps):
            found.insert(0, say(words.MINUTES_LEARNED))
        return tuple(found)


def whole_minutes(step: Step) -> int:
    """Minutes of a step rounded as they are printed, so that the printed ones add up [min]."""
    return int(step.minutes.quantize(Decimal(1), rounding=ROUND_HALF_UP))


def work_sheet(bellows: Bellows, job: str, parts: Sequence[Part], steps: Sequence[Step], notes: Sequence[Note]) -> WorkSheet:
    """Put a work sheet together.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    job : str
        A key of `bellowscut.labour.OPERATIONS`.
    parts : sequence of Part
        What the job makes, for all copies.
    steps : sequence of Step
        As `bellowscut.labour.steps` gives them.
    notes : sequence of Note
        Warnings.
    """
    order = working_order(bellows, steps)
    work = Work(bellows, job, tuple(parts), order, frozenset(note.code for note in notes))
    keys = work.keys
    warned: dict[str | None, list[str]] = {}
    for note in notes:
        warned.setdefault(place(note.code, keys), []).append(note.text)
    cautions: dict[str | None, list[str]] = {}
    for caution in advice.cautions(job, machine=advice.has_machine(bellows)):
        cautions.setdefault(first_of(CAUTIONED[caution.key], keys), []).append(say(caution.text))
    printed = first_of(PRINTED, keys)
    made = []
    days = days_of(order)
    for number, (step, when) in enumerate(zip(order, days, strict=True), 1):
        key = step.operation.key
        told = list(SAYS[key](work))
        if key == printed:
            told.insert(0, beware(say(words.PRINT_TRUE)))
        told += [Told(text, Manner.WARNING) for text in warned.get(key, ())]
        told += [Told(text, Manner.CAUTION) for text in cautions.get(key, ())]
        if number < len(order):
            told += _drying(step, when)
        made.append(WorkStep(number, step, when, tuple(told)))
    whole = (*warned.get(None, ()), *cautions.get(None, ()))
    found = tuple(table for table in (tables.measured(work), tables.ready(work), tables.skived(work)) if table.rows)
    glued = bool({"glue-gussets", "gussets-on-form", "end-gussets", "glue-covers"} & set(keys))
    return WorkSheet(bellows, job, whole, tuple(made), found, glued)


def _drying(step: Step, when: Days) -> Iterator[Told]:
    """How long it rests, and on which day it goes on."""
    least, most = step.operation.nights
    if not most:
        return
    first, last = when.soonest + least, when.latest + most
    if step.operation.key in PRESSED:
        nights = say(words.NIGHT) if most == 1 else say(words.NIGHTS, least=least, most=most)
        text = say(words.PRESSED if first == last else words.PRESSED_SLOWER, nights=nights, first=first, last=last)
    elif not least:
        text = say(words.DRY_IF_SLOW, last=last)
    else:
        text = say(words.DRY if first == last else words.DRY_SLOWER, first=first, last=last)
    yield Told(text, Manner.DRYING)

"""Noting in the job book what a job took: from the command line, or step by step."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

from bellowscut import job_book, workshop
from bellowscut.errors import BellowscutError, OutputError, UsageError
from bellowscut.job_book import Entry, NoSuchBook
from bellowscut.pipeline import PatternSet, draft
from bellowscut.profile import Profile
from bellowscut.units import MM2_PER_DM2
from bellowscut.words import count, job_book as words, say
from bellowscut.workshop import Workshop

NAMELESS = Path("job-book.csv")
"""The job book where nobody names one."""


class Stopped(BellowscutError):
    """The questions were broken off; nothing was noted."""


@dataclass(frozen=True)
class JobDone:
    """A job as it was reckoned, to be told what it took.

    Parameters
    ----------
    drafted : PatternSet
        Its parts and steps.
    areas : mapping of str to float
        Area of all pieces cut, spares and all, by the name of the material [mm^2].
    """

    drafted: PatternSet
    areas: Mapping[str, float]


def bench_and_book(workshop_file: Path | None, book: Path | None) -> tuple[Workshop, Path]:
    """The workshop, and the job book to write in; a book that is not there yet is begun.

    Raises
    ------
    BellowscutError
        When either does not read, or the book could not be written in: told before anything is asked.
    """
    try:
        bench = workshop.load(workshop_file, book)
    except NoSuchBook:
        bench = workshop.load(workshop_file)
    path = book or bench.book_path or NAMELESS
    job_book.check_writable(path)
    return bench, path


def job_done(profile: Profile, job: str, also: tuple[str, ...], bench: Workshop) -> JobDone:
    """Reckon the job again, to know its steps and pieces."""
    drafted = draft(profile, job, also, bench)
    names = dict.fromkeys(part.material for part in drafted.parts)
    areas = {name: sum(part.area * part.pieces for part in drafted.parts if part.material == name) for name in names}
    return JobDone(drafted, areas)


def given(done: JobDone, minutes: Sequence[str], leather: Sequence[str], date: str) -> tuple[Entry, ...]:
    """Entries from the command line, ``STEP=MIN`` and ``MATERIAL=AREA``.

    Raises
    ------
    UsageError
        With every one that does not read.
    """
    found: list[Entry] = []
    faults: list[str] = []
    seen: set[str] = set()
    for text, read in (*((one, _minutes) for one in minutes), *((one, _leather) for one in leather)):
        try:
            entry = read(done, text, date)
            if entry.what in seen:
                raise UsageError(say(words.NOTED_TWICE, key=entry.what))
            seen.add(entry.what)
            found.append(entry)
        except UsageError as error:
            faults.append(str(error))
    if faults:
        raise UsageError("\n".join(faults))
    return tuple(found)


def asked(done: JobDone, echo: Callable[[str], None], read: Callable[[str], str], date: str) -> tuple[Entry, ...]:
    """Entries asked for one by one; an empty answer leaves one out.

    Raises
    ------
    Stopped
        When the answers end early.
    """
    found: list[Entry] = []

    def one(prompt: str, wanted: str, entry_of: Callable[[str], Entry | None]) -> None:
        while True:
            try:
                answer = read(prompt).strip()
            except UnicodeDecodeError:
                answer = "?"
            if not answer:
                return
            entry = entry_of(answer)
            if entry is not None:
                found.append(entry)
                return
            echo(say(words.AGAIN, reason=say(wanted)))

    echo(say(words.INTRODUCTION))
    try:
        for step in done.drafted.estimate.steps:
            key = step.operation.key
            prompt = say(words.ASKED_MINUTES, name=step.operation.name, reckoned=f"{step.minutes:.0f}")
            one(prompt, words.NUMBER_WANTED, lambda answer, key=key: _operation_entry(done, key, answer, date))  # type: ignore[misc]
        for name, area in done.areas.items():
            if done.drafted.bellows.profile.materials[name].form == "skin":
                prompt = say(words.ASKED_MATERIAL, name=name, reckoned=f"{_reckoned(done, name, area):.1f}")
                one(prompt, words.AREA_WANTED, lambda answer, name=name: _area_entry(done, name, answer, date))  # type: ignore[misc]
    except (EOFError, KeyboardInterrupt):
        raise Stopped(say(words.STOPPED)) from None
    return tuple(found)


def note(path: Path, entries: Sequence[Entry]) -> str:
    """Write entries into a job book and say so.

    Raises
    ------
    BellowscutError
        When there is nothing to note, or the book cannot be written; what was to be noted is told, so that it is not lost.
    """
    if not entries:
        raise UsageError(say(words.NOTHING_TO_NOTE))
    try:
        job_book.append(path, entries)
    except OutputError as error:
        raise OutputError("\n".join((str(error), say(words.TO_NOTE), *job_book.as_rows(entries)))) from error
    return count(len(entries), words.ONE_LINE, words.LINES, path=path)


def _reckoned(done: JobDone, name: str, area: float) -> float:
    """Area of a material that the estimate reckons with [dm2]."""
    need = next((one for one in done.drafted.estimate.needs if one.material.name == name), None)
    return (area if need is None else need.gross_area) / MM2_PER_DM2


def _minutes(done: JobDone, text: str, date: str) -> Entry:
    key, _, amount = text.rpartition("=")
    key = key.strip()
    if not key:
        raise UsageError(say(words.SHOULD_BE_PAIR, text=text, example="glue-gussets=135"))
    if all(step.operation.key != key for step in done.drafted.estimate.steps):
        raise UsageError(say(words.NOT_THIS_JOB, key=key, nearest=job_book.nearest(done.drafted.job, key)))
    entry = _operation_entry(done, key, amount, date)
    if entry is None:
        raise UsageError(f"{text}: {say(words.NUMBER_WANTED)}")
    return entry


def _leather(done: JobDone, text: str, date: str) -> Entry:
    name, _, amount = text.rpartition("=")
    name = name.strip()
    if not name:
        raise UsageError(say(words.SHOULD_BE_PAIR, text=text, example="gusset skin=6.8 dm2"))
    if name not in done.areas:
        raise UsageError(say(words.NOT_THIS_MATERIAL, name=name, names=", ".join(done.areas)))
    entry = _area_entry(done, name, amount, date)
    if entry is None:
        raise UsageError(f"{text}: {say(words.AREA_WANTED)}")
    return entry


def _operation_entry(done: JobDone, key: str, answer: str, date: str) -> Entry | None:
    took = job_book.amount(answer)
    if took is None:
        return None
    step = next(one for one in done.drafted.estimate.steps if one.operation.key == key)
    return _entry(done, key, step.number, 0.0, took, job_book.MINUTES, date)


def _area_entry(done: JobDone, name: str, answer: str, date: str) -> Entry | None:
    found = job_book.area(answer)
    if found is None:
        return None
    pieces = sum(part.pieces for part in done.drafted.parts if part.material == name)
    return _entry(done, name, pieces, done.areas[name], found[0], found[1], date)


def _entry(done: JobDone, what: str, pieces: int, net: float, took: Decimal, unit: str, date: str) -> Entry:
    profile = done.drafted.bellows.profile
    day = date or datetime.now(tz=UTC).astimezone().date().isoformat()
    return Entry(day, profile.name, done.drafted.job, profile.copies, what, pieces, net, took, unit)

"""The job book: what earlier jobs took in minutes and in leather, in a plain CSV file that the user owns.

One line for each operation or material of a job. The next estimate takes the
median of what like operations took over what they had been reckoned at.
"""

from __future__ import annotations

import csv
import difflib
import errno
import io
import os
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path

from bellowscut.errors import OutputError, UsageError
from bellowscut.labour import FORM, OPERATIONS, Operation, Own, base_minutes
from bellowscut.plain_file import InUse, NoPlainFile, add_to, read_plain
from bellowscut.units import MM2_PER_DM2, MM2_PER_SQ_FT
from bellowscut.words import job_book as words, say

COLUMNS = ("date", "instrument", "job", "copies", "what", "pieces", "net_dm2", "took", "unit")
"""Columns of the file; others may stand beside them and are left alone."""

MINUTES = "min"
AREAS: Mapping[str, float] = {"dm2": MM2_PER_DM2, "sq ft": MM2_PER_SQ_FT}
"""Units of leather [mm^2]."""

SIZE_MOST = 5_000_000
"""Largest job book that is read [bytes]."""

MOST_FAULTS = 20
"""Wrong lines told at once [-]; nothing after them is read."""

LEAST, MOST = Decimal("0.001"), Decimal(1_000_000)
"""Smallest amount that is noted, and what all are under: minutes [min], or an area in its unit."""

_FORMULA = re.compile(r"\s*[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]")
"""How a cell begins that a spreadsheet may take for a formula, in letters of full width too."""


@dataclass(frozen=True)
class Entry:
    """One line of a job book.

    Parameters
    ----------
    date : str
        As written.
    instrument : str
        What it was.
    job : str
        A key of `bellowscut.labour.OPERATIONS`.
    copies : int
        Instruments made alike [-].
    what : str
        The key of an operation, or the name of a material.
    pieces : int
        Pieces that were worked or cut [-]; 0 where pieces do not count.
    net_area : float
        Of a material: area of all pieces cut, spares and all [mm^2]; 0 for an operation.
    took : Decimal
        Minutes [min], or area used up [mm^2].
    unit : str
        ``min``, ``dm2`` or ``sq ft``, as written.
    """

    date: str
    instrument: str
    job: str
    copies: int
    what: str
    pieces: int
    net_area: float
    took: Decimal
    unit: str

    @property
    def is_operation(self) -> bool:
        """Whether it tells of minutes."""
        return self.unit == MINUTES


Book = tuple[Entry, ...]


class NoSuchBook(UsageError):
    """There is no file of that name."""


def read(path: Path) -> Book:
    """Read a job book; commas or semicolons part its columns, as spreadsheets write them. An empty file is a new one.

    Raises
    ------
    NoSuchBook
        When there is no such file.
    UsageError
        With every line that does not read, up to `MOST_FAULTS`.
    """
    try:
        data = read_plain(path, SIZE_MOST)
    except NoPlainFile:
        raise UsageError(say(words.NO_PLAIN_FILE, path=path)) from None
    except FileNotFoundError:
        raise NoSuchBook(say(words.NOT_FOUND, path=path)) from None
    except OSError as error:
        raise UsageError(say(words.UNREADABLE, path=path, reason=error.strerror or error)) from None
    text = _text(data, path)
    return _entries(text, path) if text.strip() else ()


def _text(data: bytes, path: Path) -> str:
    if len(data) > SIZE_MOST:
        raise UsageError(say(words.TOO_LARGE, path=path, kilobytes=SIZE_MOST // 1000))
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise UsageError(say(words.NOT_TEXT, path=path)) from None


def _rows(text: str, path: Path) -> Iterator[tuple[int, list[str]]]:
    """Line and cells of every row that holds anything, whatever ends its lines."""
    rows = csv.reader(io.StringIO(text, newline=None), delimiter=_delimiter(text), strict=True)
    try:
        yield from ((rows.line_num, cells) for row in rows if any(cells := [cell.strip() for cell in row]))
    except csv.Error as error:
        raise UsageError(say(words.NOT_CSV, path=path, line=rows.line_num, reason=error)) from None


def _delimiter(text: str) -> str:
    return ";" if ";" in text.strip().splitlines()[0] else ","


def _head(rows: Iterator[tuple[int, list[str]]], path: Path) -> list[str]:
    line, head = next(rows, (1, []))
    if not set(head) & set(COLUMNS):
        raise UsageError(say(words.NO_HEAD, path=path, line=line, columns=", ".join(COLUMNS)))
    missing = [name for name in ("job", "what", "took", "unit") if name not in head]
    if missing:
        raise UsageError(say(words.MISSING_COLUMNS, path=path, line=line, columns=", ".join(missing)))
    return head


def _entries(text: str, path: Path) -> Book:
    rows = _rows(text, path)
    head = _head(rows, path)
    entries: list[Entry] = []
    faults: list[str] = []
    for line, row in rows:
        try:
            entries.append(_entry(dict(zip(head, map(_without_guard, row), strict=False)), path, line))
        except UsageError as error:
            faults.append(str(error))
        if len(faults) == MOST_FAULTS:
            break
    if faults:
        raise UsageError("\n".join(faults))
    return tuple(entries)


def _entry(cells: Mapping[str, str], path: Path, line: int) -> Entry:
    job, what, unit = cells.get("job", ""), cells.get("what", ""), cells.get("unit", "")
    if job not in OPERATIONS:
        raise UsageError(say(words.UNKNOWN_JOB, path=path, line=line, value=job or '""', jobs=", ".join(OPERATIONS)))
    if unit not in (MINUTES, *AREAS):
        raise UsageError(say(words.UNKNOWN_UNIT, path=path, line=line, value=unit or '""'))
    if unit == MINUTES and operation_of(job, what) is None:
        raise UsageError(say(words.UNKNOWN_OPERATION, path=path, line=line, value=what or '""', job=job, nearest=nearest(job, what)))

    def number(column: str, example: str) -> Decimal:
        text = cells.get(column, "").replace(",", ".")
        found = positive(text)
        if found is None:
            raise UsageError(say(words.NOT_A_NUMBER, path=path, line=line, column=column, value=text or '""', example=example))
        return found

    def whole(column: str, default: int, least: int) -> int:
        text = cells.get(column, "")
        if not text:
            return default
        if not (text.isascii() and text.isdigit() and len(text) < 8 and int(text) >= least):
            raise UsageError(say(words.NOT_A_COUNT, path=path, line=line, column=column, value=text, least=least))
        return int(text)

    took = number("took", "45")
    net = 0.0
    if unit != MINUTES:
        took *= Decimal(repr(AREAS[unit]))
        net = float(number("net_dm2", "4.2")) * MM2_PER_DM2
    date, instrument = cells.get("date", ""), cells.get("instrument", "")
    return Entry(date, instrument, job, whole("copies", 1, 1), what, whole("pieces", 0, 0), net, took, unit)


def positive(text: str) -> Decimal | None:
    """A plain decimal number over 0 and under `MOST`; None for anything else."""
    try:
        found = Decimal(text.strip())
    except InvalidOperation:
        return None
    return found if found.is_finite() and 0 < found < MOST else None


def amount(text: str) -> Decimal | None:
    """An amount as typed: what a line can say and reads back; None for anything else."""
    found = positive(text)
    return None if found is None or found < LEAST else found


def operation_of(job: str, key: str) -> Operation | None:
    """The operation of a job by its key; None when the job has none of that name."""
    return next((one for one in (*OPERATIONS[job], FORM) if one.key == key), None)


def nearest(job: str, key: str) -> str:
    """The key of a job's operation that is most like what was written."""
    return difflib.get_close_matches(key[:60], [one.key for one in OPERATIONS[job]], 1, 0.0)[0]


def learned(book: Iterable[Entry], minutes: Mapping[str, tuple[Decimal, Decimal]]) -> Own:
    """What a job book teaches of minutes.

    Parameters
    ----------
    book : iterable of Entry
        All that has been noted.
    minutes : mapping of str to tuple of Decimal
        One's own minutes, fixed and each, by the key of an operation [min].

    Returns
    -------
    Own
        Those minutes, and for each operation in the book the median of what it took over what
        those minutes, or the shipped ones, make of it.
    """
    own = Own(minutes)
    ratios: dict[str, list[Decimal]] = {}
    for entry in book:
        operation = operation_of(entry.job, entry.what) if entry.is_operation else None
        if operation is not None and (base := base_minutes(operation, entry.pieces, entry.copies, own)):
            ratios.setdefault(operation.key, []).append(entry.took / base)
    return Own(minutes, _medians(ratios))


def leather_learned(book: Iterable[Entry]) -> dict[str, tuple[Decimal, int]]:
    """Median of the area used up over the area of the pieces [-], and from how many jobs, by the name of the material."""
    ratios: dict[str, list[Decimal]] = {}
    for entry in book:
        if not entry.is_operation and entry.net_area > 0:
            ratios.setdefault(entry.what, []).append(entry.took / Decimal(repr(entry.net_area)))
    return _medians(ratios)


def _medians(ratios: Mapping[str, Sequence[Decimal]]) -> dict[str, tuple[Decimal, int]]:
    if not ratios:
        return {}
    from statistics import median

    return {key: (median(found), len(found)) for key, found in ratios.items()}


def check_writable(path: Path) -> None:
    """Refuse a book that `append` could not write in, as far as that can be seen.

    Raises
    ------
    UsageError
        When its folder is not there.
    OutputError
        When the book, or the folder of one that is not there yet, may not be written in.
    """
    if not path.parent.is_dir():
        raise UsageError(say(words.NO_FOLDER, path=path, folder=path.parent))
    if not os.access(path if os.access(path, os.F_OK) else path.parent, os.W_OK):
        raise OutputError(say(words.NOT_WRITTEN, path=path, reason=os.strerror(errno.EACCES)))


def append(path: Path, entries: Sequence[Entry]) -> None:
    """Write lines at the end of a job book, with a head when the file is new or empty; what stands there is left as it is.

    Raises
    ------
    UsageError
        When the file is there and is no job book, or its folder is not there.
    OutputError
        When the disk refuses, or another run does not let go of the book; it is as it was.
    """
    try:
        add_to(path, SIZE_MOST, lambda data: _lines(_text(data, path), entries, path).encode())
    except NoPlainFile:
        raise UsageError(say(words.NO_PLAIN_FILE, path=path)) from None
    except FileNotFoundError:
        raise UsageError(say(words.NO_FOLDER, path=path, folder=path.parent)) from None
    except InUse:
        raise OutputError(say(words.BOOK_IN_USE, path=path)) from None
    except OSError as error:
        raise OutputError(say(words.NOT_WRITTEN, path=path, reason=error.strerror or error)) from None


def _lines(text: str, entries: Sequence[Entry], path: Path) -> str:
    """What is to be written after a text, in its own columns and with its own line ends."""
    columns, delimiter, end = list(COLUMNS), ",", "\r\n"
    new = not text.strip()
    if not new:
        _entries(text, path)
        columns, delimiter = _head(_rows(text, path), path), _delimiter(text)
        end = next((one for one in ("\r\n", "\n", "\r") if one in text), end)
    held = io.StringIO()
    writer = csv.DictWriter(held, columns, restval="", extrasaction="ignore", delimiter=delimiter, lineterminator=end)
    if new:
        writer.writeheader()
    writer.writerows(_cells(entry) for entry in entries)
    return ("" if not text or text.endswith(("\n", "\r")) else end) + held.getvalue()


def as_rows(entries: Iterable[Entry]) -> list[str]:
    """Entries as lines of a new book, without its head."""
    held = io.StringIO()
    csv.writer(held, lineterminator="\n").writerows(_cells(entry).values() for entry in entries)
    return held.getvalue().splitlines()


def _cells(entry: Entry) -> dict[str, str]:
    amount = entry.took if entry.is_operation else entry.took / Decimal(repr(AREAS[entry.unit]))
    cells = {
        "date": entry.date,
        "instrument": entry.instrument,
        "job": entry.job,
        "copies": str(entry.copies),
        "what": entry.what,
        "pieces": str(entry.pieces or ""),
        "net_dm2": _plain(Decimal(repr(entry.net_area / MM2_PER_DM2))) if entry.net_area else "",
        "took": _plain(amount),
        "unit": entry.unit,
    }
    return {name: guarded(cell) for name, cell in cells.items()}


def guarded(cell: str) -> str:
    """A cell of a CSV that no spreadsheet takes for a formula: an apostrophe stands before what might be one."""
    return f"'{cell}" if _FORMULA.match(cell.lstrip("'")) else cell


def _without_guard(cell: str) -> str:
    return cell[1:] if cell.startswith("'") and _FORMULA.match(cell.lstrip("'")) else cell


def _plain(amount: Decimal) -> str:
    text = f"{round(amount, 6):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def area(text: str) -> tuple[Decimal, str] | None:
    """An area as typed, ``5.2 dm2`` or ``0.6 sq ft``: its amount [mm^2] and its unit; None when it is none."""
    for unit, size in AREAS.items():
        if text.strip().lower().endswith(unit):
            found = amount(text.strip()[: -len(unit)])
            return None if found is None else (found * Decimal(repr(size)), unit)
    return None

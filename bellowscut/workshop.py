"""A workshop file: prices, minutes and a name that hold for every job of one bench.

What a profile says itself goes before the workshop, and the workshop before
what ships. The file may name a job book, found from the file's own folder.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from decimal import Decimal
from pathlib import Path
from typing import Any

from bellowscut import job_book
from bellowscut.errors import UsageError
from bellowscut.keys import Kind, key
from bellowscut.materials import PRICE_UNITS, ROLL, Material
from bellowscut.profile import Profile, text_of
from bellowscut.reading import FILE_SHOWN, Faults, parse, read_minutes, read_table, shown
from bellowscut.schema import FORMAT, CostSpec
from bellowscut.toml_lines import dotted, places
from bellowscut.words import say, workshop as words


@dataclass(frozen=True, kw_only=True)
class BenchSpec:
    """What stands in a workshop file before its tables."""

    format: int = key(Kind.COUNT, words.FILE_FORMAT, low=1, high=1, default=FORMAT)
    name: str = key(Kind.TEXT, words.NAME, default="", example=words.NAME_EXAMPLE)
    address: tuple[str, ...] = key(Kind.TEXTS, words.ADDRESS, default=(), example=words.ADDRESS_EXAMPLE)
    job_book: str = key(Kind.TEXT, words.JOB_BOOK, default="", example='"job-book.csv"')


@dataclass(frozen=True, kw_only=True)
class PriceSpec:
    """What a workshop file says of a material."""

    price: Decimal | None = key(Kind.MONEY, words.PRICE, low=0, high=1_000_000, example="11.50")
    price_per: str = key(Kind.CHOICE, words.PRICE_PER, choices=tuple(dict.fromkeys(u for us in PRICE_UNITS.values() for u in us)))


@dataclass(frozen=True)
class Workshop:
    """What holds for every job of one bench.

    Parameters
    ----------
    name : str
        Printed at the head of an estimate; may be empty.
    address : tuple of str
        Printed under it.
    costs : mapping of str
        Keys of `bellowscut.schema.CostSpec` that the file gives.
    minutes : mapping of str to tuple of Decimal
        Fixed and each, by the key of an operation [min].
    prices : mapping of str to PriceSpec
        By the name of the material.
    book : Book
        The job book.
    book_path : Path or None
        Where it lies; None when the file names none.
    source : str
        The file as the user gave it.
    """

    name: str = ""
    address: tuple[str, ...] = ()
    costs: Mapping[str, Any] = field(default_factory=dict)
    minutes: Mapping[str, tuple[Decimal, Decimal]] = field(default_factory=dict)
    prices: Mapping[str, PriceSpec] = field(default_factory=dict)
    book: job_book.Book = ()
    book_path: Path | None = None
    source: str = ""

    def applied(self, profile: Profile) -> Profile:
        """A profile with this bench's prices and minutes wherever it gives none itself; its patterns stay the same.

        Raises
        ------
        UsageError
            Where a price is for a unit that the material is not sold by.
        """
        costs = {name: value for name, value in self.costs.items() if f"costs.{name}" not in profile.given}
        return replace(
            profile,
            costs=replace(profile.costs, **costs),
            minutes={**self.minutes, **profile.minutes},
            materials={name: self._priced(material, profile) for name, material in profile.materials.items()},
        )

    def _priced(self, material: Material, profile: Profile) -> Material:
        found = self.prices.get(material.name)
        given = dotted(("materials", material.name, "price")) in profile.given
        # A shelf with a price on everything that stands on it has said what its skins cost.
        if found is None or given or (material.shelf and all(one.price is not None for one in material.shelf)):
            return material
        per = found.price_per or ("m" if material.form == ROLL else "")
        if per and per not in PRICE_UNITS[material.form]:
            units = ", ".join(PRICE_UNITS[material.form])
            raise UsageError(
                f"{self.source}: {dotted(('materials', material.name, 'price_per'))}: "
                + say(words.PRICED_BY, form=material.form, units=units, path=self.source)
            )
        shelf = tuple(one if one.price is not None else replace(one, price=found.price, price_per=per) for one in material.shelf)
        return replace(material, price=found.price, price_per=per, shelf=shelf)


NONE = Workshop()
"""No workshop file: the profile and what ships."""


def load(path: Path | None, book: Path | None = None) -> Workshop:
    """Read a workshop file and the job book that goes with it.

    Parameters
    ----------
    path : Path or None
        The workshop file; None for none.
    book : Path or None
        A job book to take instead of the one that the file names.

    Returns
    -------
    Workshop
        Complete and checked.

    Raises
    ------
    ProfileError
        With every problem of the file.
    UsageError
        When the job book does not read.
    """
    made = NONE if path is None else loads(text_of(str(path)), str(path))
    named = path.parent / made.book_path if path is not None and made.book_path is not None else None
    where = book or named
    if where is None:
        return made
    try:
        held = job_book.read(where)
    except job_book.NoSuchBook:
        if book is not None:
            raise
        # Named before the first job is noted: there is nothing to learn from yet.
        held = ()
    return replace(made, book=held, book_path=where)


def loads(text: str, source: str = "workshop.toml") -> Workshop:
    """Read a workshop file from text; its job book is left unread.

    Raises
    ------
    ProfileError
        With every problem found.
    """
    label = shown(source, FILE_SHOWN)
    text = text.removeprefix("\ufeff")
    document = parse(text, label)
    faults = Faults(label, places(text))
    tables = ("costs", "minutes", "materials")
    top = {name: raw for name, raw in document.items() if name not in tables}
    known = [one.name for one in fields(BenchSpec)]
    for name in [name for name, raw in top.items() if name not in known and isinstance(raw, dict)]:
        faults.add((name,), say(words.NOT_HERE, keys=", ".join(known)))
        del top[name]
    bench = BenchSpec(**read_table((), top, BenchSpec, faults))
    costs = read_table(("costs",), document.get("costs", {}), CostSpec, faults)
    minutes = read_minutes(document, faults)
    prices = _prices(document.get("materials", {}), faults)
    faults.raise_any()
    return Workshop(
        bench.name, bench.address, costs, minutes, prices, book_path=Path(bench.job_book) if bench.job_book else None, source=label
    )


def _prices(raw: object, faults: Faults) -> dict[str, PriceSpec]:
    if not isinstance(raw, dict):
        faults.add(("materials",), say(words.MATERIALS_TABLES))
        return {}
    found = {}
    for name, table in raw.items():
        path = ("materials", name)
        given = read_table(path, table, PriceSpec, faults)
        if "price_per" in given and "price" not in given:
            faults.add((*path, "price_per"), say(words.PRICE_MISSING))
        if "price" in given:
            found[name] = PriceSpec(**given)
    return found

"""A profile: everything a repairer says about one bellows, read once and checked.

`load` is the only way in, from a file or from the name of a profile that
ships with the package. What it returns is complete: only values that the
geometry works out are None.
"""

from __future__ import annotations

import difflib
import hashlib
import os
from collections.abc import Mapping
from dataclasses import dataclass, field, fields, is_dataclass, replace
from decimal import Decimal
from functools import cached_property
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any

from bellowscut.errors import Problem, ProfileError
from bellowscut.keys import LENGTH_KINDS
from bellowscut.materials import BUILT_IN, Material
from bellowscut.plain_file import NoPlainFile, read_plain
from bellowscut.profile_text import commented
from bellowscut.reading import FILE_SHOWN, Faults, key_named, parse, problem_at, read_materials, read_minutes, read_tables, shown
from bellowscut.rules import check, materials_used, pare
from bellowscut.schema import (
    FORMAT,
    READ_OFF,
    TABLES,
    UNITS,
    BellowsSpec,
    CardSpec,
    CornerPatchSpec,
    CostSpec,
    CoverGussetSpec,
    CutterSpec,
    EdgeStripSpec,
    EndStripSpec,
    FacingSpec,
    FormSpec,
    FrameHingeSpec,
    GasketSpec,
    GussetSpec,
    HingeSpec,
    QuoteSpec,
    ReadingsSpec,
    RidgeClothSpec,
    SectionSpec,
    ValleyStripSpec,
)
from bellowscut.toml_lines import Places, dotted, places, undotted, value_of
from bellowscut.units import in_inch_units
from bellowscut.values import NAME_LENGTH, toml_value, unprintable
from bellowscut.words import profile as words, say

SIZE_MOST = 1_000_000
"""Largest file that is read [bytes]."""

FINGERPRINT_DIGITS = 12
"""Hex digits of a fingerprint [-]."""

UNMARKED = ("name", "units", "quote", "minutes", "costs", "form")
"""Parts of a profile that are not in its fingerprint: the name may come from the file's, and neither units, nor prices, nor what a
customer reads, nor the boards of a form change a pattern."""

MEASURED = ("section", "bellows", "readings")
"""Tables of what is measured, by which the units of the papers are chosen where the profile does not say."""

UNPRICED = ("price", "price_per")
"""What else is not in it, of every material."""

SUFFIX = ".toml"


@dataclass(frozen=True, kw_only=True)
class Profile:
    """One bellows as described, lengths [mm], angles [deg], money as `Decimal`.

    Parameters
    ----------
    format : int
        Format of the file [-].
    name : str
        What the instrument is called.
    copies : int
        Bellows to make alike [-].
    units : str
        What lengths on the papers are written in, ``mm`` or ``in``.
    source : str
        The file or name as the user gave it, for messages.
    lines : mapping of str to int
        Line of each key and table by dotted name [-].
    written : mapping of str to str
        Values as the user wrote them, by dotted name.
    given : frozenset of str
        Dotted names of the keys that the user wrote.
    section, bellows, card, gusset, readings, edge_strip, end_strip, hinge, costs, quote, cutter, form
        The tables that every profile has.
    frame_hinge, valley_strip, ridge_cloth, gasket, corner_patch, facing, cover_gusset
        The optional tables; None is not made.
    materials : mapping of str to Material
        Those that the parts use, and all that have a table.
    minutes : mapping of str to tuple of Decimal
        One's own minutes, fixed and each, by the key of an operation [min].
    """

    format: int
    name: str
    copies: int
    units: str
    section: SectionSpec
    bellows: BellowsSpec
    card: CardSpec
    gusset: GussetSpec
    readings: ReadingsSpec
    edge_strip: EdgeStripSpec
    end_strip: EndStripSpec
    hinge: HingeSpec
    frame_hinge: FrameHingeSpec | None
    valley_strip: ValleyStripSpec | None
    ridge_cloth: RidgeClothSpec | None
    gasket: GasketSpec | None
    corner_patch: CornerPatchSpec | None
    facing: FacingSpec | None
    cover_gusset: CoverGussetSpec | None
    costs: CostSpec
    quote: QuoteSpec
    cutter: CutterSpec
    form: FormSpec
    materials: Mapping[str, Material]
    minutes: Mapping[str, tuple[Decimal, Decimal]] = field(default_factory=dict)
    source: str = field(default="", compare=False)
    lines: Mapping[str, int] = field(default_factory=dict, compare=False)
    written: Mapping[str, str] = field(default_factory=dict, compare=False)
    given: frozenset[str] = field(default=frozenset(), compare=False)

    @cached_property
    def fingerprint(self) -> str:
        """Twelve hex digits over every value, but not over `UNMARKED`, `UNPRICED` nor how the file was written."""
        marked = {one.name: getattr(self, one.name) for one in fields(self) if one.compare and one.name not in UNMARKED}
        return hashlib.sha256(_told(marked).encode()).hexdigest()[:FINGERPRINT_DIGITS]

    def problem(self, key: str, message: str) -> Problem:
        """A problem of one key with its file, its line and its value.

        Parameters
        ----------
        key : str
            Dotted name, such as ``gusset.lap`` or ``materials."gusset skin".thickness``; a table's name works too.
        message : str
            What is wrong and what would be right.

        Returns
        -------
        Problem
            With the value as written, or the default marked as such when the user wrote none.
        """
        path = undotted(key)
        lines = {undotted(name): line for name, line in self.lines.items()}
        written = {undotted(name): value for name, value in self.written.items()}
        return problem_at(shown(self.source, FILE_SHOWN), lines, written, path, message, self._default_in_words(path))

    def _default_in_words(self, path: tuple[str, ...]) -> str:
        found = key_named(path)
        holder: Any = self if len(path) == 1 else self.materials.get(path[1]) if path[0] == "materials" else getattr(self, path[0], None)
        value = getattr(holder, path[-1], None) if found and holder is not None else None
        if found is None or value is None or value in ("", ()) or (found[0].only_for and not value):
            return ""
        return say(words.THE_DEFAULT, value=toml_value(value, found[0]))

    def with_optional(self, kind: str) -> Profile:
        """A copy in which an absent optional part is made, with its defaults.

        Parameters
        ----------
        kind : str
            ``facing``, ``frame-hinge``, ``valley-strip``, ``ridge-cloth``, ``corner-patch`` or ``gasket``.

        Returns
        -------
        Profile
            This one when the part is made already.

        Raises
        ------
        ValueError
            For any other kind.
        """
        name = kind.replace("-", "_")
        table = next((one for one in TABLES if one.optional and one.name == name), None)
        if table is None:
            raise ValueError(say(words.NOT_OPTIONAL, kind=kind, kinds=", ".join(optional_kinds())))
        if getattr(self, name) is not None:
            return self
        added = table.spec()
        materials = {**self.materials}
        materials.setdefault(added.material, BUILT_IN[added.material])
        change: dict[str, Any] = {name: added, "materials": dict(sorted(materials.items()))}
        return replace(self, **change)


def optional_kinds() -> tuple[str, ...]:
    """Kinds that `Profile.with_optional` knows."""
    return tuple(table.name.replace("_", "-") for table in TABLES if table.optional)


def load(path_or_name: str | os.PathLike[str]) -> Profile:
    """Read a profile from a file, or one that ships with the package by its name.

    Parameters
    ----------
    path_or_name : str or path
        A file; or, when there is no such file and it is a plain word, a name of `shipped`.

    Returns
    -------
    Profile
        Complete and checked, but for what needs geometry.

    Raises
    ------
    ProfileError
        With every problem found.
    """
    source = os.fspath(path_or_name)
    if not source or "\0" in source:
        raise _file_error(source, say(words.NO_NAME))
    plain = not any(separator in source for separator in ("/", os.sep)) and not source.endswith(SUFFIX)
    if plain and source in shipped() and not Path(source).is_file():
        return load_shipped(source)
    if plain and not os.path.lexists(source):
        nearest = difflib.get_close_matches(shown(source), shipped(), 3, 0.5)
        text = words.NO_PROFILE_NEAREST if nearest else words.NO_PROFILE_SHIPPED
        raise _file_error(source, say(text, names=", ".join(nearest or shipped())))
    return loads(text_of(source), source, Path(source).stem)


def load_shipped(name: str) -> Profile:
    """One of `shipped`, whatever lies in the working folder under the same name."""
    return loads((_shipped_folder() / f"{name}{SUFFIX}").read_text(encoding="utf-8"), name, name)


def loads(text: str, source: str = "profile.toml", name: str = "profile") -> Profile:
    """Read a profile from text.

    Parameters
    ----------
    text : str
        The whole profile.
    source : str
        What messages call it.
    name : str
        The instrument's name when the text has none.

    Returns
    -------
    Profile
        As `load`.

    Raises
    ------
    ProfileError
        With every problem found.
    """
    label = shown(source, FILE_SHOWN)
    text = text.removeprefix("\ufeff")
    document = parse(text, label)
    found = places(text)
    faults = Faults(label, found)
    values = read_tables(document, faults)
    check(document, values, faults)
    minutes = read_minutes(document, faults)
    materials = materials_used(values, read_materials(document, faults), faults)
    pare(document, values, materials, faults)
    faults.raise_any()
    top = {"format": FORMAT, "name": _name(name), "copies": 1, "units": _units(found), **values[""]}
    for size, readings in values.get("readings", {}).items():
        # Each side may stand on a line of its own; to whoever shows, asks or writes it this is one value.
        found.written.setdefault(("readings", size), toml_value(readings, READ_OFF))
    tables: dict[str, Any] = {
        table.name: None if table.optional and table.name not in values else table.spec(**values.get(table.name, {})) for table in TABLES
    }
    return Profile(
        **top,
        **tables,
        materials=materials,
        minutes=minutes,
        source=source,
        lines={dotted(path): line for path, line in found.lines.items() if "[]" not in path},
        written={dotted(path): value for path, value in found.written.items() if "[]" not in path},
        given=frozenset(dotted(path) for path in found.written if key_named(path)),
    )


def as_toml(profile: Profile, *, only_given: bool = False) -> str:
    """A profile as commented TOML that loads back to the same fingerprint.

    Parameters
    ----------
    profile : Profile
        Any.
    only_given : bool
        Whether the keys that the user did not write stand there as comments, so that their defaults
        still follow from the others. Otherwise every value is written out.

    Returns
    -------
    str
        The text of a profile.
    """
    tables = {table.name: getattr(profile, table.name) for table in TABLES}
    top = {"format": profile.format, "name": profile.name, "copies": profile.copies, "units": profile.units}
    # Sizes are written in millimetres, so that what was measured in inches has to say so.
    inches = {"units"} if profile.units != UNITS[0] else set()
    given = profile.given | {"format", "name"} | inches if only_given else None
    return commented(top, tables, profile.materials, profile.minutes, given)


def shipped() -> tuple[str, ...]:
    """Names of the profiles that ship with the package, in the order of the alphabet."""
    return tuple(sorted(one.name.removesuffix(SUFFIX) for one in _shipped_folder().iterdir() if one.name.endswith(SUFFIX)))


def _shipped_folder() -> Traversable:
    """Inside the package when it is installed, beside it in a checkout."""
    package = files("bellowscut")
    inside = package / "profiles"
    return inside if inside.is_dir() else Path(str(package)).parent / "profiles"


def text_of(source: str) -> str:
    """The text of a file that may be anything: a folder, a pipe, a device, a film."""
    try:
        if Path(source).is_dir():
            raise _file_error(source, say(words.IS_FOLDER))
        data = read_plain(source, SIZE_MOST)
    except NoPlainFile:
        raise _file_error(source, say(words.IS_PIPE)) from None
    except FileNotFoundError:
        raise _file_error(source, say(words.NO_SUCH_FILE)) from None
    except OSError as error:
        raise _file_error(source, say(words.UNREADABLE, reason=error.strerror or error)) from None
    if len(data) > SIZE_MOST:
        raise _file_error(source, say(words.FILE_TOO_LARGE, kilobytes=SIZE_MOST // 1000))
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise _file_error(source, say(words.NOT_UTF_8), line) from None


def _units(found: Places) -> str:
    """The unit in which most sizes that are measured were given; millimetres where as many were given in either."""
    votes = [_in_inches(text) for path, text in found.written.items() if path[0] in MEASURED and _is_length(path)]
    return UNITS[2 * sum(votes) > len(votes)]


def _is_length(path: tuple[str, ...]) -> bool:
    known = key_named(path)
    return known is not None and known[0].kind in LENGTH_KINDS


def _in_inches(text: str) -> bool:
    """Whether a value in TOML, one length or the first of several, is given in inches."""
    value = value_of(text)
    while isinstance(value, list | dict) and value:
        value = next(iter(value.values())) if isinstance(value, dict) else value[0]
    return isinstance(value, str) and in_inch_units(value)


def _file_error(source: str, message: str, line: int = 0) -> ProfileError:
    return ProfileError((Problem("", "", message, shown(source, FILE_SHOWN), line),))


def _name(stem: str) -> str:
    """A name from the stem of a file, which may hold anything."""
    plain = "".join(" " if unprintable(c) else c for c in stem)[:NAME_LENGTH].strip()
    return plain or say(words.UNNAMED)


def _told(value: object) -> str:
    """A value written one way only, whatever units it was given in."""
    if is_dataclass(value):
        return _told({one.name: getattr(value, one.name) for one in fields(value) if one.name not in UNPRICED})
    if isinstance(value, Mapping):
        return "{" + ",".join(f"{name}:{_told(one)}" for name, one in sorted(value.items())) + "}"
    if isinstance(value, tuple):
        return "[" + ",".join(_told(one) for one in value) + "]"
    if isinstance(value, float):
        return f"{value + 0.0:.6f}".replace("-0.000000", "0.000000")
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    return repr(value)

"""From the text of a profile to checked values, with every problem in it found at once."""

from __future__ import annotations

import difflib
import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import Any

from bellowscut.errors import Problem, ProfileError
from bellowscut.keys import Key, keys_of
from bellowscut.materials import BUILT_IN, PRICE_UNITS, ROLL, ROLL_LENGTH, SHEET, SKIN, SKIN_AREA, Material
from bellowscut.schema import ALSO_SAID, MINUTES, TABLES, TopSpec
from bellowscut.shapes import signed_area
from bellowscut.toml_lines import KEY_DEPTH, Path, Places, decimal, dotted, quoted, too_deep
from bellowscut.values import Fault, convert, unprintable
from bellowscut.words import profile as words, say
from bellowscut.words.operations import NAMES

MOST_PROBLEMS = 100
"""Problems told at once [-]; a file with more is not a profile."""

VALUE_SHOWN = 60
"""Characters of a value that a message repeats [-]."""

OUTLINE_LEAST = 100.0
"""Least area of an outline [mm^2], as of the least clear rectangle; a line that crosses itself may enclose none."""

FILE_SHOWN = 500
"""Most characters of a file's name in a message; a path is of no use cut short [-]."""

_AT_LINE = re.compile(r"\s*\(at (?:line (\d+), column \d+|end of document)\)")
_ENDLESS = re.compile(r"\d[\d_]{999,}")
_UNQUOTED = re.compile(r"^[^=#\[]*=\s*([-+]?[\d.][^\"'#\[\]]*?)\s*(?:#.*)?$")


@dataclass
class Faults:
    """The problems of one file, gathered until all have been found.

    Parameters
    ----------
    source : str
        Name of the file as the user gave it.
    places : Places
        Where its keys stand.
    problems : list of Problem
        What has been found.
    """

    source: str
    places: Places
    problems: list[Problem] = field(default_factory=list)

    def add(self, path: Path, message: str) -> None:
        """Note a problem of one key; its line is that of the table when the key is not there."""
        self.problems.append(problem_at(self.source, self.places.lines, self.places.written, path, message))

    def raise_any(self) -> None:
        """Raise `ProfileError` with all of them, in the order of the file."""
        if not self.problems:
            return
        found = sorted(self.problems, key=lambda problem: problem.line or 10**9)
        if len(found) > MOST_PROBLEMS:
            rest = len(found) - MOST_PROBLEMS
            found = [*found[:MOST_PROBLEMS], Problem("", "", say(words.MORE_PROBLEMS, number=rest), self.source)]
        raise ProfileError(tuple(found))


def problem_at(source: str, lines: Mapping[Path, int], written: Mapping[Path, str], path: Path, message: str, default: str = "") -> Problem:
    """A problem with the line and the value as written, or those of the nearest table around it."""
    line = next((lines[path[:n]] for n in range(len(path), 0, -1) if path[:n] in lines), 0)
    return Problem(dotted(path), shown(written.get(path, default)), message, source, line)


def shown(value: str, most: int = VALUE_SHOWN) -> str:
    """A value or a file name on one line, cut short past so many characters."""
    line = "".join(c if c.isprintable() else "?" for c in " ".join(value.split()))
    return line if len(line) <= most else f"{line[: most - 3]}..."


def parse(text: str, source: str) -> dict[str, Any]:
    """Read TOML, with decimals kept as written.

    Raises
    ------
    ProfileError
        When the text is no TOML, naming the line.
    """
    deep = too_deep(text)
    if deep:
        raise ProfileError((Problem("", "", say(words.KEY_TOO_DEEP, parts=KEY_DEPTH), source, deep),))
    try:
        return tomllib.loads(text, parse_float=decimal)
    except RecursionError:
        raise ProfileError((Problem("", "", say(words.NESTED_TOO_DEEPLY), source),)) from None
    except ValueError as error:
        raise ProfileError((_not_toml(str(error), text, source),)) from None


def _not_toml(reason: str, text: str, source: str) -> Problem:
    endless = _ENDLESS.search(text)
    if endless and not _AT_LINE.search(reason):
        line = text.count("\n", 0, endless.start()) + 1
        return Problem("", "", say(words.NOT_TOML, reason=say(words.TOO_MANY_DIGITS)), source, line)
    found = _AT_LINE.search(reason)
    line = int(found[1]) if found and found[1] else text.count("\n") + (not text.endswith("\n")) if found else 0
    told = _AT_LINE.sub("", reason)
    wrong = text.split("\n")[line - 1 : line] if line else []
    unquoted = _UNQUOTED.match(wrong[0]) if wrong else None
    if unquoted and len(unquoted[1]) < VALUE_SHOWN:
        return Problem("", "", say(words.NOT_TOML_QUOTES_MISSING, reason=told, value=shown(unquoted[1])), source, line)
    return Problem("", "", say(words.NOT_TOML, reason=told), source, line)


Values = dict[str, dict[str, Any]]


def read_tables(document: dict[str, Any], faults: Faults) -> Values:
    """Values of all tables but the materials, each only with the keys given and sound.

    Parameters
    ----------
    document : dict
        The whole file as parsed.
    faults : Faults
        Takes what is wrong.

    Returns
    -------
    dict
        By table; ``""`` holds the keys before any table. Absent tables are absent.
    """
    known = {table.name: table for table in TABLES}
    top = {name: raw for name, raw in document.items() if name not in (*known, "materials", "minutes")}
    values = {"": read_table((), top, TopSpec, faults, [*known, "materials", "minutes"])}
    for name, table in known.items():
        if name in document:
            values[name] = read_table((name,), document[name], table.spec, faults)
    return values


def read_minutes(document: dict[str, Any], faults: Faults) -> dict[str, tuple[Decimal, Decimal]]:
    """One's own minutes, fixed and each [min], by the key of an operation."""
    raw = document.get("minutes", {})
    if not isinstance(raw, dict):
        faults.add(("minutes",), say(words.SHOULD_BE_TABLE, table="minutes"))
        return {}
    found: dict[str, Any] = {}
    for name, value in raw.items():
        if name not in NAMES:
            nearest = difflib.get_close_matches(name[:VALUE_SHOWN], NAMES, 1, 0.0)[0]
            faults.add(("minutes", name), say(words.NOT_OPERATION, nearest=nearest))
            continue
        try:
            found[name] = convert(value, MINUTES)
        except Fault as fault:
            faults.add(("minutes", name), str(fault))
    return found


def read_materials(document: dict[str, Any], faults: Faults) -> dict[str, Material | None]:
    """Materials that the file has tables for; None for one with a fault."""
    raw = document.get("materials", {})
    if not isinstance(raw, dict):
        faults.add(("materials",), say(words.SHOULD_BE_TABLES, example='[materials."gusset skin"]'))
        return {}
    found: dict[str, Material | None] = {}
    for name, table in raw.items():
        path = ("materials", name)
        if not name.strip() or len(name) > VALUE_SHOWN or unprintable(name):
            faults.add(path, say(words.MATERIAL_NAME, most=VALUE_SHOWN))
        found[name] = _material(name, table, faults)
    return found


def _material(name: str, raw: object, faults: Faults) -> Material | None:
    path = ("materials", name)
    before = len(faults.problems)
    shelf = raw.get("shelf", []) if isinstance(raw, dict) else []
    raw = {key: value for key, value in raw.items() if key != "shelf"} if isinstance(raw, dict) else raw
    given = read_table(path, raw, Material, faults)
    if not isinstance(raw, dict):
        return None
    base = BUILT_IN.get(name)
    form = given.get("form", base.form if base and "form" not in raw else None)
    if form is None:
        if "form" not in raw:
            faults.add((*path, "form"), say(words.FORM_MISSING, name=quoted(name)))
        return None
    if base is None or base.form != form:
        for need in ("thickness", *(["size"] if form != SKIN else [])):
            if need not in raw:
                example = next(key.example for key_name, key, _ in keys_of(Material) if key_name == need)
                faults.add((*path, need), say(words.KEY_MISSING, key=need, example=example))
    belong(path, raw, Material, "form", form, faults)
    _check_material(path, form, raw, given, faults)
    if len(given.get("size", ())) == 1:
        given["size"] = (given["size"][0], ROLL_LENGTH)
    entries = _shelf(path, form, shelf, faults)
    if len(faults.problems) > before:
        return None
    made = _made(name, form, base, given)
    return replace(made, shelf=tuple(_on_shelf(made, number, entry) for number, entry in enumerate(entries, 1)))


NOT_ON_SHELF = ("form", "thickness", "neutral", "waste")
"""Keys of a material that hold for all that stands on its shelf."""


def _shelf(path: Path, form: str, raw: object, faults: Faults) -> list[dict[str, Any]]:
    """The entries of a shelf, each with its sound keys."""
    place = (*path, "shelf")
    if not isinstance(raw, list) or not all(isinstance(entry, dict) for entry in raw):
        faults.add(place, say(words.SHELF_TABLES, example=f"[[{dotted(path)}.shelf]]"))
        return []
    if raw and form == ROLL:
        faults.add(place, say(words.SHELF_OF_ROLL))
        return []
    found = []
    for entry in raw:
        name = entry.get("name", "")
        if not isinstance(name, str) or len(name) > VALUE_SHOWN or unprintable(name):
            faults.add((*place, "name"), say(words.SHELF_NAME, most=VALUE_SHOWN))
            continue
        keys = {key: value for key, value in entry.items() if key != "name"}
        for key in NOT_ON_SHELF:
            if key in keys:
                faults.add((*place, key), say(words.HOLDS_FOR_ALL, table=dotted(path)))
        belong(place, keys, Material, "form", form, faults)
        given = read_table(place, {key: value for key, value in keys.items() if key not in NOT_ON_SHELF}, Material, faults)
        _check_material(place, form, keys, given, faults)
        found.append({"name": name, **given})
    return found


def _on_shelf(base: Material, number: int, entry: dict[str, Any]) -> Material:
    """What stands on a shelf: as the material says, but for what the entry says; one of it, unless it gives a count."""
    measured = {"area", "outline", "clear"} & set(entry)
    fresh: dict[str, Any] = {"area": None, "outline": None, "clear": None, "flaws": (), "bars": ()} if measured else {}
    return replace(base, **{**fresh, "count": 1, **entry, "name": entry["name"] or f"{base.name} {number}", "shelf": ()})


def _made(name: str, form: str, base: Material | None, given: dict[str, Any]) -> Material:
    """A table for a built-in material of the same form need only say what differs."""
    unmeasured = not {"area", "outline", "clear"} & set(given)
    if form == ROLL and "price" in given:
        given.setdefault("price_per", "m")
    if base is not None and base.form == form:
        return replace(base, **given) if unmeasured else replace(base, **{"area": None, **given})
    standard = {"area": SKIN_AREA if form == SKIN and unmeasured else None}
    return Material(name, **{**standard, **given, "form": form})


_PRICED_BY = {SKIN: words.SKIN_PRICED_BY, SHEET: words.SHEET_PRICED_BY, ROLL: words.ROLL_PRICED_BY}


def _check_material(path: Path, form: str, raw: dict[str, Any], given: dict[str, Any], faults: Faults) -> None:
    if form == SHEET and len(given.get("size", (0, 0))) == 1:
        faults.add((*path, "size"), say(words.SHEET_HAS_TWO_SIDES))
    outline = given.get("outline")
    if isinstance(outline, tuple) and abs(signed_area(outline)) < OUTLINE_LEAST:
        faults.add((*path, "outline"), say(words.OUTLINE_OF_NO_AREA))
    if "outline" in raw and "clear" in raw:
        faults.add((*path, "clear"), say(words.OUTLINE_OR_CLEAR))
    if "flaws" in raw and "outline" not in raw and form == SKIN:
        faults.add((*path, "flaws"), say(words.FLAWS_WITHOUT_OUTLINE))
    per = given.get("price_per")
    if per is not None and per not in PRICE_UNITS[form]:
        fits = ", ".join(f'"{unit}"' for unit in PRICE_UNITS[form])
        faults.add((*path, "price_per"), say(_PRICED_BY[form], units=fits))
    if "price_per" in raw and "price" not in raw:
        faults.add((*path, "price_per"), say(words.PRICE_MISSING))


def belong(path: Path, raw: dict[str, Any], spec: type[Any], by: str, this: str, faults: Faults) -> None:
    """Note every key of a table that does not belong to its shape or form."""
    for name, key, _ in keys_of(spec):
        if name in raw and key.only_for and this not in key.only_for:
            fits = say(words.OR).join(f'{by} = "{one}"' for one in key.only_for)
            faults.add((*path, name), say(words.NOT_OF_THIS_SORT, fits=fits, this=f'{by} = "{this}"'))


def read_table(path: Path, raw: object, spec: type[Any], faults: Faults, tables: Iterable[str] = ()) -> dict[str, Any]:
    """The sound values of one table.

    Parameters
    ----------
    path : tuple of str
        Where the table stands; empty for the keys before any table.
    raw : Any
        As `tomllib` gives it.
    spec : type
        A dataclass whose fields were made with `bellowscut.keys.key`.
    faults : Faults
        Takes what is wrong.
    tables : iterable of str
        Names of tables that may stand beside these keys, for the nearest name.

    Returns
    -------
    dict
        Only the keys that were given and are sound.
    """
    if not isinstance(raw, dict):
        faults.add(path, say(words.SHOULD_BE_TABLE, table=dotted(path)))
        return {}
    keys = {name: key for name, key, _ in keys_of(spec)}
    found = {}
    for name, value in raw.items():
        if name not in keys:
            # The nearest name takes a while to find; a file with this many strange keys is not worth it.
            known = [*keys, *tables] if len(faults.problems) < MOST_PROBLEMS else []
            faults.add((*path, name), _unknown(name, path, isinstance(value, dict | list), known, list(tables)))
            continue
        try:
            found[name] = convert(value, keys[name])
        except Fault as fault:
            faults.add((*path, name), str(fault))
    return found


def _unknown(name: str, path: Path, is_table: bool, known: list[str], tables: list[str]) -> str:
    table = is_table and bool(tables)
    if len(name) > VALUE_SHOWN or not known:
        return say(words.NOT_TABLE if table else words.NOT_KEY)
    homes = _homes(name)
    if homes:
        return say(words.TABLE_ELSEWHERE if table else words.KEY_ELSEWHERE, homes=say(words.OR).join(homes))
    said = ALSO_SAID.get(name.lower().replace("-", "_"), "")
    nearest = said if said in known else difflib.get_close_matches(name, known, 1, 0.0)[0]
    shown_nearest = f"[{nearest}]" if nearest in tables else nearest
    if path:
        return say(words.UNKNOWN_TABLE_OF if table else words.UNKNOWN_KEY_OF, table=dotted(path), nearest=shown_nearest)
    return say(words.UNKNOWN_TABLE if table else words.UNKNOWN_KEY, nearest=shown_nearest)


def _homes(name: str) -> list[str]:
    found = [say(words.IN_TABLE, table=table.name) for table in TABLES if _has(table.spec, name)]
    if _has(Material, name):
        found.append(say(words.IN_TABLE, table='materials."..."'))
    return [*found, say(words.BEFORE_TABLES)] if _has(TopSpec, name) else found


def _has(spec: type[Any], name: str) -> bool:
    return any(name == known for known, _, _ in keys_of(spec))


def key_named(path: Path) -> tuple[Key, Any] | None:
    """The `Key` and default of a path, None when there is no such key."""
    spec: type[Any] | None = None
    if len(path) == 1:
        spec = TopSpec
    elif len(path) == 3 and path[0] == "materials":
        spec = Material
    elif len(path) == 2 and path[0] == "minutes":
        return (MINUTES, None) if path[1] in NAMES else None
    elif len(path) == 2:
        spec = next((table.spec for table in TABLES if table.name == path[0]), None)
    return next(((key, default) for name, key, default in keys_of(spec) if name == path[-1]), None) if spec else None

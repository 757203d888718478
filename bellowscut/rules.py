"""What the keys of a profile owe to each other, and the defaults that follow from other keys.

Only rules that need no geometry: which keys go together, counts, and a
thickness or width that must fit inside another. A rule looks only at values
that were sound on their own, so that one slip is told once.
"""

from __future__ import annotations

from collections.abc import Mapping
from statistics import median
from typing import Any

from bellowscut.keys import Key, Kind, keys_of
from bellowscut.materials import BUILT_IN, Material
from bellowscut.reading import Faults, Values, belong
from bellowscut.schema import (
    MEASURED,
    MEASURES,
    RECTANGLE,
    REGULAR,
    SIDES_LEAST,
    STRETCH,
    TABLES,
    CutterSpec,
    GussetSpec,
    SectionSpec,
    colours_alike,
)
from bellowscut.section import side_name
from bellowscut.sources import RULE, SIDES_MOST
from bellowscut.toml_lines import quoted
from bellowscut.units import both, plain_number
from bellowscut.values import Fault, convert
from bellowscut.words import profile as words, say

ACROSS_LEAST = 15.0
"""Least size across flats or corners [mm], invented; a smaller one was meant in inches."""


def check(document: dict[str, Any], values: Values, faults: Faults) -> None:
    """Check what the keys owe to each other and fill in the defaults that follow from other keys.

    Parameters
    ----------
    document : dict
        The whole file as parsed: a key may be there and unsound.
    values : dict
        Sound values by table; defaults that depend on others are added.
    faults : Faults
        Takes what is wrong.
    """
    _required(document, faults)
    if isinstance(document.get("section", {}), dict):
        _section(document.get("section", {}), values.setdefault("section", {}), faults)
    _readings(values.get("readings", {}), values.get("section", {}), faults)
    _lap_of_the_shadow(document.get("gusset", {}), values, faults)
    raw = document.get("bellows", {})
    if isinstance(raw, dict):
        bellows = values.setdefault("bellows", {})
        for one, other in (("stretch", "travel"), ("relief", "closed_gap")):
            if one in raw and other in raw:
                faults.add(("bellows", other), say(words.ONE_OR_OTHER, one=one, other=other))
        if "stretch" not in raw and "travel" not in raw:
            bellows["stretch"] = STRETCH
    raw = document.get("cutter", {})
    if isinstance(raw, dict):
        _colours(raw, values.get("cutter", {}), faults)


def _readings(readings: dict[str, Any], section: dict[str, Any], faults: Faults) -> None:
    """Readings by side name sides that this section has."""
    count = _sides(section)
    if count is None:
        return
    names = {side_name(i) for i in range(int(count))}
    for name, found in readings.items():
        strange = [side for side in found.sides if side not in names]
        if strange:
            faults.add(("readings", name), say(words.NO_SUCH_SIDE, side=strange[0], last=side_name(int(count) - 1)))


def _lap_of_the_shadow(raw: object, values: Values, faults: Faults) -> None:
    """The mark that the old gusset left is its lap, and the new one's where the profile gives no other."""
    shadow = values.get("readings", {}).get("glue_shadow")
    if shadow is None or not isinstance(raw, dict):
        return
    width = median(shadow.every)
    gusset = values.setdefault("gusset", {})
    if "lap" not in raw:
        gusset["lap"] = width
        if "tip_lap" not in raw:
            gusset["tip_lap"] = min(width, next(default for name, _, default in keys_of(GussetSpec) if name == "tip_lap"))
    elif "lap" in gusset and round(abs(gusset["lap"] - width), 6) > RULE.value:
        faults.add(("gusset", "lap"), say(words.LAP_CONTRADICTS, shadow=both(width)))


def _sides(section: dict[str, Any]) -> int | None:
    """How many sides a section has; None where that was not said soundly."""
    if section.get("shape") == RECTANGLE:
        return 4
    if section.get("shape") == REGULAR:
        return section.get("sides")
    found = {name: len(section[name]) for name in MEASURES if section.get(name)}
    return next((2 * number if name == "flats" else number for name, number in found.items()), None)


def _colours(raw: dict[str, Any], values: dict[str, Any], faults: Faults) -> None:
    """What is cut has a colour to itself; the other layers may share theirs, as many shops have three in all."""
    colours = {name: values.get(name, default) for name, key, default in keys_of(CutterSpec) if key.kind is Kind.COLOUR}
    cut = colours.pop("cut_colour")
    for name, colour in colours.items():
        if not colours_alike(colour, cut) or any(one in raw and one not in values for one in (name, "cut_colour")):
            continue
        if name in raw:
            faults.add(("cutter", name), say(words.COLOUR_OF_CUTS, cut=quoted(cut)))
        else:
            faults.add(("cutter", "cut_colour"), say(words.COLOUR_TAKEN, colour=quoted(colour), key=name))


def _required(document: dict[str, Any], faults: Faults) -> None:
    shape = document["section"].get("shape") if isinstance(document.get("section"), dict) else None
    for table in TABLES:
        if table.name in document and not isinstance(document[table.name], dict):
            continue
        for name, key, _ in keys_of(table.spec):
            if key.required and name not in document.get(table.name, {}) and (not key.only_for or shape in key.only_for):
                faults.add((table.name, name), say(words.KEY_MISSING_MEANING, key=name, example=say(key.example), meaning=say(key.help)))


def _section(raw: dict[str, Any], values: dict[str, Any], faults: Faults) -> None:
    shape = values.get("shape")
    if shape is None:
        return
    belong(("section",), raw, SectionSpec, "shape", shape, faults)
    if shape == REGULAR:
        _regular(raw, values, faults)
    elif shape == MEASURED:
        _measured(raw, values, faults)


def _regular(raw: dict[str, Any], values: dict[str, Any], faults: Faults) -> None:
    sides, measure = values.get("sides"), values.get("measure")
    if sides is not None and sides % 2 and measure != "side" and (measure is not None or "measure" not in raw):
        text = words.ODD_SIDES_MEASURE_MISSING if measure is None else words.ODD_SIDES
        faults.add(("section", "measure"), say(text, sides=sides))
        return
    if measure is None and "measure" not in raw:
        measure = values["measure"] = "across-flats"
    size = values.get("end_size")
    if size is not None and measure != "side" and size < ACROSS_LEAST:
        least = both(ACROSS_LEAST)
        if isinstance(raw["end_size"], str):
            message = say(words.END_TOO_SMALL, least=least)
        else:
            message = say(words.END_TOO_SMALL_MEANT_INCHES, least=least, inches=plain_number(size))
        faults.add(("section", "end_size"), message)


def _measured(raw: dict[str, Any], values: dict[str, Any], faults: Faults) -> None:
    given = [name for name in MEASURES if name in raw]
    if not given:
        example = next(key.example for name, key, _ in keys_of(SectionSpec) if name == "side_lengths")
        faults.add(("section",), say(words.MEASURED_BY_NOTHING, example=example))
        return
    if len(given) > 1:
        faults.add(("section", given[-1]), say(words.MEASURED_TWICE, given=say(words.AND).join(given)))
        return
    name = given[0]
    key = next(one for key_name, one, _ in keys_of(SectionSpec) if key_name == name)
    least, most = (2, SIDES_MOST.value // 2) if name == "flats" else (SIDES_LEAST, SIDES_MOST.value)
    count = len(values[name]) if name in values else None
    if count is not None and not least <= count <= most:
        text = words.COUNT_OF_FLATS if name == "flats" else words.COUNT_OF_SIDES
        faults.add(("section", name), say(text, count=count, least=f"{least:g}", most=f"{most:g}"))
    if "other_end" in values:
        _other_end(name, key, count, values, faults)


def _other_end(name: str, key: Key, count: int | None, values: dict[str, Any], faults: Faults) -> None:
    path = ("section", "other_end")
    raw = values.pop("other_end")
    try:
        found = convert(list(raw), key)
        assert isinstance(found, tuple)
    except Fault as fault:
        faults.add(path, say(words.OTHER_END_FAULT, key=name, fault=fault))
        return
    if count is not None and len(found) != count:
        faults.add(path, say(words.OTHER_END_COUNT, count=len(found), wanted=count, key=name))
        return
    values["other_end"] = found


def materials_used(values: Values, found: Mapping[str, Material | None], faults: Faults) -> dict[str, Material]:
    """The materials of a profile: all with a table, and the built-in ones that its parts ask for.

    Parameters
    ----------
    values : dict
        Sound values by table.
    found : dict
        Materials with a table, None for one with a fault.
    faults : Faults
        Takes parts whose material is neither.

    Returns
    -------
    dict
        By name, in the order of names.
    """
    used = {name: material for name, material in found.items() if material is not None}
    for table in TABLES:
        if table.optional and table.name not in values:
            continue
        for name, key, default in keys_of(table.spec):
            wanted = values.get(table.name, {}).get(name, default)
            if key.kind is not Kind.MATERIAL or wanted in found:
                continue
            if wanted in BUILT_IN:
                used[wanted] = BUILT_IN[wanted]
            else:
                faults.add((table.name, name), say(words.UNKNOWN_MATERIAL, name=quoted(wanted), names=", ".join(BUILT_IN)))
    return dict(sorted(used.items()))


def pare(document: dict[str, Any], values: Values, materials: Mapping[str, Material], faults: Faults) -> None:
    """Check skive against lap and feather against leather; fit the defaults to them.

    Parameters
    ----------
    document : dict
        The whole file as parsed.
    values : dict
        Sound values by table; fitted defaults are added.
    materials : dict
        Those found by `materials_used`.
    faults : Faults
        Takes what is wrong.
    """
    for table, laps in (("gusset", ("lap", "tip_lap")), ("edge_strip", ("lap",)), ("end_strip", ("lap", "frame_cover"))):
        raw = document.get(table, {})
        if not isinstance(raw, dict) or any(name in raw and name not in values[table] for name in (*laps, "material")):
            continue
        here = values.setdefault(table, {})
        spec = next(one.spec for one in TABLES if one.name == table)
        defaults = {name: default for name, _, default in keys_of(spec)}
        lap, narrow = min((here.get(name, defaults[name]), name) for name in laps)
        _fit(table, "skive", here, defaults, lap, say(words.SKIVE_TOO_WIDE, key=narrow, lap=both(lap)), raw, faults)
        leather = materials.get(here.get("material", defaults["material"]))
        if leather is not None:
            why = say(words.FEATHER_TOO_THICK, material=leather.name, thickness=both(leather.thickness))
            _fit(table, "feather", here, defaults, leather.thickness, why, raw, faults)


def _fit(
    table: str, name: str, here: dict[str, Any], defaults: dict[str, Any], most: float, why: str, raw: dict[str, Any], faults: Faults
) -> None:
    if name in here:
        if here[name] > most:
            faults.add((table, name), why)
    elif name not in raw and defaults[name] is not None:
        here[name] = min(defaults[name], most)

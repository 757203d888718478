"""A profile written out as TOML with a comment beside every key."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from bellowscut.keys import Key, Kind, keys_of
from bellowscut.materials import BUILT_IN, Material
from bellowscut.schema import MINUTES, TABLES, Table, TopSpec
from bellowscut.toml_lines import dotted
from bellowscut.units import in_inches
from bellowscut.values import toml_value
from bellowscut.words import profile_text as words, say

WIDTH = 120
"""Longer lists are broken over lines [characters]."""


def commented(
    top: Mapping[str, Any],
    tables: Mapping[str, Any],
    materials: Mapping[str, Material],
    minutes: Mapping[str, object],
    given: frozenset[str] | None,
) -> str:
    """Write a profile.

    Parameters
    ----------
    top : mapping
        Values of the keys before any table.
    tables : mapping
        Table by name, None for one that is not there.
    materials : mapping of str to Material
        By name.
    minutes : mapping of str
        One's own minutes by the key of an operation.
    given : frozenset of str or None
        Dotted names of the keys that are written out; None for all. Others stand as comments.

    Returns
    -------
    str
        The text of a profile.
    """
    lines = [f"# {say(words.HEAD_LENGTHS)}\n# {say(words.HEAD_COMMENTS)}\n"]
    lines += _keys(TopSpec, top.get, (), given, "")
    for table in TABLES:
        lines += ["", f"# {say(table.help)}"]
        lines += _table(table, tables[table.name], given)
    if minutes:
        lines += ["", f"# {say(words.OWN_MINUTES)}", "[minutes]"]
        lines += [f"{name} = {toml_value(value, MINUTES)}" for name, value in minutes.items()]
    for name, material in materials.items():
        lines += _material(name, material, given)
    return "\n".join(lines) + "\n"


def _table(table: Table, held: object, given: frozenset[str] | None) -> Iterator[str]:
    if held is None:
        yield f"# {say(words.NOT_MADE)}"
        yield f"# [{table.name}]"
        yield from _keys(table.spec, lambda name: getattr(table.spec(), name), (table.name,), frozenset(), "")
        return
    yield f"[{table.name}]"
    yield from _keys(table.spec, lambda name: getattr(held, name), (table.name,), given, getattr(held, "shape", ""))


def _material(name: str, material: Material, given: frozenset[str] | None) -> Iterator[str]:
    path = ("materials", name)
    built_in = name in BUILT_IN
    unwritten = given is not None and not any(one.startswith(f"{dotted(path)}.") for one in given)
    head = f"[{dotted(path)}]"
    yield ""
    if built_in:
        yield f"# {say(words.BUILT_IN, material=name)}"
    yield f"# {head}" if unwritten else head
    yield from _keys(Material, lambda key: getattr(material, key), path, given, material.form)
    for entry in shelf_entries(material):
        yield f"\n[[{dotted((*path, 'shelf'))}]]"
        yield from (f"{key} = {_broken(value, about)}" for key, value, about in entry)


def shelf_entries(material: Material) -> Iterator[list[tuple[str, object, Key]]]:
    """What each entry of a shelf says for itself: keys with their values."""
    for one in material.shelf:
        found: list[tuple[str, object, Key]] = [("name", one.name, Key(Kind.TEXT, ""))]
        for key, about, default in keys_of(Material):
            value = getattr(one, key)
            if value != (default if key in ("area", "outline", "clear", "flaws", "bars") else getattr(material, key)):
                found.append((key, value, about))
        yield found


def _keys(
    spec: type[Any], value_of: Callable[[str], object], path: tuple[str, ...], given: frozenset[str] | None, this: str
) -> Iterator[str]:
    key_names = [name for name, _, _ in keys_of(spec)]
    for name, key, default in keys_of(spec):
        if key.only_for and this and this not in key.only_for:
            if given is not None and "shape" in key_names:
                told = say(words.SHAPE_AND_HELP, shape=key.only_for[0], meaning=say(key.help))
                yield f"# {name} = {say(key.example)}  # {told}"
            continue
        value = value_of(name)
        absent = value is None or value == ""
        if absent or value == ():
            if key.example:
                yield f"# {name} = {say(key.example)}{_comment(key, None, default)}"
            continue
        live = given is None or dotted((*path, name)) in given
        written = _broken(value, key) if live else toml_value(value, key)
        yield f"{'' if live else '# '}{name} = {written}{_comment(key, value, default)}"


def _broken(value: object, key: Key) -> str:
    """A value as a profile writes it, a long list with a line for each of its entries."""
    text = toml_value(value, key)
    if len(text) <= WIDTH or not isinstance(value, tuple):
        return text
    return "\n".join(["[", *(f"    {toml_value(one, key)}," for one in value), "]"])


def _comment(key: Key, value: object, default: object) -> str:
    told = [say(key.help)]
    if isinstance(value, float) and key.kind in (Kind.LENGTH, Kind.THICKNESS) and value:
        told.insert(0, in_inches(value))
    if value is None and key.worked_out:
        told.append(say(words.WHEN_ABSENT, value=say(key.worked_out)))
    elif key.status and (default is not None or key.worked_out):
        standard = say(key.worked_out) if key.worked_out else toml_value(default, key)
        told.append(say(words.DEFAULT, value=standard, status=say(key.status)))
    if key.choices and key.kind is Kind.CHOICE and not all(choice in key.help for choice in key.choices):
        told.append(" | ".join(key.choices))
    return f"  # {'; '.join(told)}"

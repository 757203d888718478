"""Any sound profile, written out, loads back the same."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import Phase, given, settings, strategies as st

from bellowscut.ask import ask
from bellowscut.keys import Key, Kind, keys_of
from bellowscut.materials import SHEET, SKIN, Bar, Material
from bellowscut.profile import SIZE_MOST, as_toml, load, loads
from bellowscut.profile_text import commented
from bellowscut.schema import MINUTES, TABLES, UNITS, Readings, Spare, TopSpec
from bellowscut.toml_lines import dotted, places, quoted, undotted
from bellowscut.units import parse_area, parse_length

START = 'section.shape = "regular"\nsection.sides = 6\nsection.end_size = 158.75\nbellows.folds = 6\nbellows.fold_depth = 25\n'
APART = (
    "section.shape",
    "section.sides",
    "section.end_size",
    "bellows.folds",
    "bellows.fold_depth",
    "bellows.travel",
    "bellows.closed_gap",
)
SINGLE = (
    Kind.LENGTH, Kind.THICKNESS, Kind.ANGLE, Kind.COUNT, Kind.NUMBER, Kind.CHOICE, Kind.FLAG, Kind.PAIR, Kind.SPARE, Kind.READINGS
)  # fmt: skip


def written(key: Key) -> st.SearchStrategy[str]:
    """A sound value of a key in one of several spellings."""
    low, high = Decimal(str(key.low)), Decimal(str(key.high))
    if key.kind is Kind.CHOICE:
        return st.sampled_from([quoted(choice) for choice in (*key.choices, *key.also)])
    if key.kind is Kind.FLAG:
        return st.sampled_from(["true", "false"])
    if key.kind is Kind.COUNT:
        return st.integers(int(low), int(high)).map(str)
    if key.kind is Kind.SPARE:
        return st.integers(0, 90).flatmap(lambda n: st.sampled_from([str(n), f'"{n} %"', f'"{n}.5%"']))
    number = st.decimals(low, high, places=3).filter(lambda value: value > 0)
    if key.kind in (Kind.ANGLE, Kind.NUMBER):
        return number.map(str)
    thirds = st.integers(1, 90).map(lambda n: f'"{n}/3 mm"').filter(lambda text: low <= Fraction(int(text[1:-6]), 3) <= high)
    length = st.one_of(number.map(str), number.map(lambda value: f'"{value} mm"'), thirds)
    if key.kind is Kind.READINGS:
        several = st.one_of(length, st.lists(length, min_size=1, max_size=4).map(lambda all_of_them: f"[{', '.join(all_of_them)}]"))
        sides = st.dictionaries(st.sampled_from("ABCDEF"), several, min_size=1)
        return st.one_of(several, sides.map(lambda by: f"{{ {', '.join(f'{side} = {one}' for side, one in by.items())} }}"))
    return st.tuples(length, length).map(lambda two: f"[{two[0]}, {two[1]}]") if key.kind is Kind.PAIR else length


KEYS = {
    f"{table.name}.{name}": key
    for table in TABLES
    for name, key, _ in keys_of(table.spec)
    if key.kind in SINGLE
    and f"{table.name}.{name}" not in APART
    and key.only_for in ((), ("regular",))
    and name not in ("skive", "feather")
} | {
    f'materials."gusset skin".{name}': key
    for name, key, _ in keys_of(Material)
    if name in ("thickness", "neutral", "grade", "seen_from", "clear")
}


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_round_trip(data: st.DataObject) -> None:
    names = data.draw(st.lists(st.sampled_from(sorted(KEYS)), unique=True, max_size=25))
    made = loads(START + "".join(f"{name} = {data.draw(written(KEYS[name]))}\n" for name in sorted(names)))
    assert made.given >= set(names)
    for only_given in (False, True):
        text = as_toml(made, only_given=only_given)
        again = loads(text)
        assert again.fingerprint == made.fingerprint
        assert again == made


PRINTED = st.text(st.characters(exclude_categories=["Cs"]), max_size=30)
UGLY = st.lists(
    st.one_of(PRINTED, st.sampled_from(['"', "\\", "\\u12", "'''", '"""', ", ", "], [", "# ", "\n", "\r\n", "\t", "\x00", "\x7f", " = "]))
)
TEXT = st.one_of(UGLY.map("".join), st.integers(100, 200).map("word, ".__mul__))
SMALL = (5e-324, 1e-300, 1.2345678901234567e-10, 1e-7, 1 / 3, 0.1 + 0.2)


def numbers(key: Key) -> st.SearchStrategy[float]:
    """Any number that a key may have, with those that need many digits among them."""
    low, high = max(key.low, -1e22), min(key.high, 1e22)
    return st.one_of(st.floats(low, high), st.sampled_from([one for one in (*SMALL, low, high) if key.allows(one)]))


def lists(one: st.SearchStrategy[object], least: int = 0, most: int = 30) -> st.SearchStrategy[object]:
    return st.lists(one, min_size=least, max_size=most).map(tuple)


def by_side(found: Mapping[str, object]) -> tuple[tuple[str, object], ...]:
    return tuple((side, found[side]) for side in sorted(found))


def values(key: Key) -> st.SearchStrategy[object]:
    """Any value of a key, as the program holds it."""
    kind, number = key.kind, numbers(key)
    points = lists(st.tuples(number, number), 3)
    amounts = st.one_of(st.decimals(0, 100_000, places=3), st.sampled_from([Decimal("1E-6"), Decimal("0.000001"), Decimal("1E+3")]))
    return {
        Kind.COUNT: st.integers(int(max(key.low, 0)), int(min(key.high, 10**6))),
        Kind.CHOICE: st.sampled_from(key.choices or ("",)),
        Kind.FLAG: st.booleans(),
        Kind.TEXT: TEXT,
        Kind.MATERIAL: TEXT,
        Kind.TEXTS: lists(TEXT, 1, 6),
        Kind.MONEY: st.decimals(0, 10**6, places=6),
        Kind.MINUTES: st.tuples(amounts, amounts),
        Kind.CURRENCY: st.just("EUR"),
        Kind.COLOUR: st.from_regex(r"#[0-9a-f]{6}", fullmatch=True),
        Kind.LENGTHS: lists(number, 1),
        Kind.READINGS: st.one_of(
            st.builds(Readings, lists(number, 1, 5)),
            st.builds(Readings, st.just(()), st.dictionaries(st.sampled_from("ABC"), lists(number, 1, 5), min_size=1).map(by_side)),
        ),
        Kind.PAIR: st.tuples(number, number),
        Kind.SIZE: lists(number, 1, 2),
        Kind.POINTS: points,
        Kind.OTHER_END: points,
        Kind.OUTLINE: st.one_of(TEXT, points),
        Kind.FLAWS: lists(st.tuples(number, number, number), 1),
        Kind.BARS: lists(st.builds(Bar, TEXT, points), 1, 3),
        Kind.SPARE: st.one_of(
            st.builds(Spare, st.integers(0, 500), st.none()), st.builds(Spare, st.none(), st.sampled_from([0.0, 12.5, 1e-9]))
        ),
        **dict.fromkeys((Kind.LENGTH, Kind.THICKNESS, Kind.ANGLE, Kind.NUMBER, Kind.PER_CENT, Kind.AREA), number),
    }[kind]


def plain(value: object, key: Key) -> object:
    """A value as TOML should give it, by another way than the writer's: numbers as such, lengths as a number and a unit."""
    if isinstance(value, tuple):
        return [plain(one, key) for one in value]
    if isinstance(value, Readings):
        one = {side: plain(several if len(several) > 1 else several[0], key) for side, several in value.by_side}
        return one or plain(value.any_side if len(value.any_side) > 1 else value.any_side[0], key)
    if isinstance(value, Bar):
        return {"kind": value.kind, "outline": plain(value.outline, key)}
    return value


def same(raw: object, value: object, key: Key) -> bool:
    """Whether what TOML gave is the value, to the last digit."""
    if isinstance(value, Spare):
        return raw == value.count if value.per_cent is None else float(str(raw).removesuffix(" %")) == value.per_cent
    if isinstance(value, list):
        return isinstance(raw, list) and len(raw) == len(value) and all(same(*both, key) for both in zip(raw, value, strict=True))
    if isinstance(value, dict):
        return isinstance(raw, dict) and raw.keys() == value.keys() and all(same(raw[name], value[name], key) for name in value)
    if isinstance(value, float) and not isinstance(value, bool):
        if isinstance(raw, str):
            assert raw.endswith((" mm", " mm2", " sq ft"))
            return (parse_area(raw) if key.kind is Kind.AREA else parse_length(raw)) == value
        return isinstance(raw, Decimal | int) and float(raw) == value
    return isinstance(raw, bool) is isinstance(value, bool) and raw == value


def filled(data: st.DataObject, spec: type[Any], **fixed: object) -> Any:  # noqa: ANN401 - whatever dataclass it is
    drawn = {name: data.draw(values(key), name) for name, key, _ in keys_of(spec) if name not in fixed}
    return spec(**drawn, **fixed)


# The message names the key and its value: a smaller example would tell no more.
@settings(max_examples=15, phases=[Phase.generate])
@given(st.data())
def test_every_key_is_written_as_it_is_read(data: st.DataObject) -> None:
    """Whatever its value: a text of any letters and length, a number of any size; whether two keys go together is asked elsewhere."""
    tables = {table.name: filled(data, table.spec) for table in TABLES}
    materials = {}
    for form in (SKIN, SHEET):
        name = data.draw(TEXT)
        kept = filled(data, Material, name=name, form=form)
        materials[name] = replace(
            kept,
            shelf=(
                replace(
                    kept,
                    name=data.draw(TEXT),
                    **{one: data.draw(values(key)) for one, key, _ in keys_of(Material) if one in ("outline", "bars", "margin", "size")},
                ),
            ),
        )
    top = {"format": 1, "name": data.draw(TEXT), "copies": 2, "units": data.draw(st.sampled_from(UNITS))}
    minutes = {name: data.draw(values(MINUTES)) for name in ("clean", "glue-gussets")}
    text = commented(top, tables, materials, minutes, None)
    assert len(text.encode()) < SIZE_MOST
    document = tomllib.loads(text, parse_float=Decimal)

    def check(raw: dict[str, Any], held: object, spec: type[Any], this: str, path: str) -> None:
        for name, key, _ in keys_of(spec):
            value = held[name] if isinstance(held, dict) else getattr(held, name)
            written = value not in (None, "", ()) and not (key.only_for and this and this not in key.only_for)
            assert (name in raw) is written, f"{path}.{name}"
            assert not written or same(raw[name], plain(value, key), key), f"{path}.{name}: {value!r} was written as {raw[name]!r}"

    check(document, top, TopSpec, "", "")
    for table in TABLES:
        check(document[table.name], tables[table.name], table.spec, getattr(tables[table.name], "shape", ""), table.name)
    for name, material in materials.items():
        check(document["materials"][name], material, Material, material.form, name)
        entry, one = document["materials"][name].get("shelf", [{}])[0], material.shelf[0]
        assert entry["name"] == one.name
        for key_name, key, _ in keys_of(Material):
            assert key_name not in entry or same(entry[key_name], plain(getattr(one, key_name), key), key), key_name
    assert {name: same(document["minutes"][name], plain(both, MINUTES), MINUTES) for name, both in minutes.items()} == dict.fromkeys(
        minutes, True
    )


LONG = "Reeds tuned, pads renewed, and the action cleaned of dust, moth and old oil, for a player in the next town who waits"


@pytest.mark.parametrize(
    "more",
    [
        f'name = "{LONG}, and so on"',
        f'quote.other_work = ["{LONG}.", "A second sentence, and one more.", "It has \\"quotes\\", and a \\\\."]',
        f'materials."gusset skin".outline = "{LONG}.svg"',
        "form.play = 1e-300",
        "cutter.kerf = 1.2345678901234567e-10",
        "costs.margin = 1e-300",
        "minutes.clean = [1e-6, 1e3]",
    ],
)
def test_what_is_long_loads_again(more: str, tmp_path: Path) -> None:
    made = loads(f"{more}\n{START}")
    for only_given in (False, True):
        assert loads(as_toml(made, only_given=only_given), name=made.name) == made
    # And so does the file that the questions write.
    ask(lambda _: None, lambda _: "", tmp_path / "again.toml", made)
    again = load(tmp_path / "again.toml")
    assert (again.fingerprint, again.quote, again.costs, again.form, again.minutes) == (
        made.fingerprint,
        made.quote,
        made.costs,
        made.form,
        made.minutes,
    )


def test_measured_sections_and_skins_go_round() -> None:
    rest = "bellows.folds = 6\nbellows.fold_depth = 25\n"
    points = ", ".join(f"[{x}, {x * x / 700}]" for x in range(-350, 350, 7))
    for section in (
        'shape = "measured"\nflats = [158, "6 1/4 in", 159]\nother_end = [158, 159, 160]',
        'shape = "measured"\ncorners = [[0, 0], ["4 in", 0], [50, 90]]\nother_end = [[0, 0], [101, 0], ["5 cm", 91]]',
        'shape = "rectangle"\nwidth = "10 in"\nheight = 120',
    ):
        for skin in (
            f"outline = [{points}]\nflaws = [[1, -2, 3.5]]",
            'outline = "a b.svg"\narea = "47 dm2"\ncheck_length = 100',
            'clear = ["1/3 in", 400]',
        ):
            if "1/3" in skin:
                skin = skin.replace("1/3", "31/3")  # noqa: PLW2901 - a length that no decimal says exactly
            made = loads(f'{rest}[section]\n{section}\n[materials."gusset skin"]\n{skin}\n')
            for only_given in (False, True):
                assert loads(as_toml(made, only_given=only_given), name=made.name) == made


def test_places_of_every_way_to_write_a_key() -> None:
    text = """\
# a remark with = and [brackets]
name = "x # no remark" # remark
'lit' . "quo\\"ted" = 1
multi = [ # remark ]
  1, "]", [2, 3],
]
long = \"\"\"
a = 1 \"quotes\" [x]
\"\"\"
raw = '''
]'''
[section]
inline = { a = 1, b = { c = "}" } }
day = 1979-05-27 07:32:00
[ materials . "gusset skin" ]
thickness = 0.4
[[many]]
x = 1
[[many]]
x = 2
last = true"""
    found = places(text)
    assert {dotted(path): line for path, line in found.lines.items()} == {
        "name": 2,
        "lit": 3,
        'lit."quo\\"ted"': 3,
        "multi": 4,
        "long": 7,
        "raw": 10,
        "section": 12,
        "section.inline": 13,
        "section.inline.a": 13,
        "section.inline.b": 13,
        "section.inline.b.c": 13,
        "section.day": 14,
        'materials."gusset skin"': 15,
        'materials."gusset skin".thickness': 16,
        "many": 17,
        "many.x": 18,
        "many.last": 21,
    }
    assert found.written["section", "day"] == "1979-05-27 07:32:00"
    assert found.written["section", "inline", "b", "c"] == '"}"'
    assert found.written["name",] == '"x # no remark"'


@given(st.lists(st.text(st.characters(codec="utf-8"), max_size=8), min_size=1, max_size=4).map(tuple))
def test_dotted_names_go_round(path: tuple[str, ...]) -> None:
    assert undotted(dotted(path)) == path

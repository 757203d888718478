"""Any sound profile, written out, loads back the same."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from hypothesis import given, settings, strategies as st

from bellowscut.keys import Key, Kind, keys_of
from bellowscut.materials import Material
from bellowscut.profile import as_toml, loads
from bellowscut.schema import TABLES
from bellowscut.toml_lines import dotted, places, quoted, undotted

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

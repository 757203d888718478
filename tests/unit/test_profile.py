"""Reading profiles: values, defaults, every problem at once, and writing them back."""

from __future__ import annotations

import re
from decimal import Decimal
from pathlib import Path

import pytest

from bellowscut.errors import ProfileError
from bellowscut.keys import STATUSES, Kind, keys_of
from bellowscut.materials import Material
from bellowscut.profile import Profile, as_toml, load, loads, optional_kinds
from bellowscut.schema import TABLES, Readings, Spare, TopSpec
from tests.conftest import FIVE_LINES as FIVE

REST = '[bellows]\nfolds = 6\nfold_depth = "25 mm"\n'


def problems(text: str) -> list[str]:
    with pytest.raises(ProfileError) as caught:
        loads(text, "x.toml")
    assert caught.value.exit_code == 2
    assert all(line.startswith("x.toml:") for line in caught.value.lines())
    return [line.removeprefix("x.toml:") for line in caught.value.lines()]


def test_five_lines_make_a_profile() -> None:
    """Every default of the reference table, in its own place."""
    made = loads(FIVE, "x.toml", "my box")
    assert (made.format, made.name, made.copies) == (1, "my box", 1)
    assert (made.section.end_size, made.section.measure, made.section.measured_on) == (158.75, "across-flats", "frame")
    assert made.section.ridge_setback is None
    bellows = made.bellows
    assert (bellows.stretch, bellows.ends, bellows.stack_factor) == (50, "ridge", 1)
    assert (bellows.travel, bellows.relief, bellows.closed_gap, bellows.corner_gap, bellows.form_slope) == (None,) * 5
    assert (made.card.material, made.card.build, made.card.ridge_radius, made.card.valley_radius) == ("grey card", "loose", 0.5, 0.5)
    gusset = made.gusset
    assert (gusset.lap, gusset.tip_lap, gusset.ridge_turn, gusset.frame_turn) == (5, 3, 1.5, 5)
    assert (gusset.skive, gusset.feather, gusset.tip_radius, gusset.point_radius) == (None, 0.1, 2, 3)
    assert gusset.spare == Spare(None, 10)
    strip = made.edge_strip
    assert (strip.lap, strip.skive, strip.feather, strip.joint, strip.run, strip.darts) == (7, 5, 0.2, 10, "whole", False)
    end = made.end_strip
    assert (end.lap, end.frame_cover, end.skive, end.feather, end.joint) == (8, 15, 5, 0.2, 10)
    assert (made.hinge.material, made.hinge.lap, made.hinge.valley_side) == ("linen", 6, "inside")
    assert [getattr(made, kind.replace("-", "_")) for kind in optional_kinds()] == [None] * 7
    assert (made.costs.currency, made.costs.labour_rate, made.costs.charge) == ("GBP", None, "share")
    assert sorted(made.materials) == ["grey card", "gusset skin", "linen", "strip skin"]


def test_defaults_of_the_optional_parts() -> None:
    made = loads(FIVE)
    for kind in optional_kinds():
        made = made.with_optional(kind)
    assert made.frame_hinge is not None
    assert made.valley_strip is not None
    assert made.ridge_cloth is not None
    assert made.facing is not None
    assert (made.frame_hinge.lap, made.ridge_cloth.lap, made.valley_strip.lap) == (6, 5, 5)
    assert (made.facing.order, made.facing.span) == ("last", "card")
    assert (made.facing.overlap, made.facing.short_of_valley, made.facing.margin) == (1.2, 1.5, 1.5)
    assert made.materials["facing paper"].thickness == 0.15
    assert made.with_optional("facing") is made
    with pytest.raises(ValueError, match="not an optional part"):
        made.with_optional("card")


def test_given_lines_and_problems() -> None:
    made = loads(FIVE, "x.toml")
    assert "bellows.folds" in made.given
    assert "bellows.stretch" not in made.given
    assert (made.lines["section"], made.lines["bellows.fold_depth"]) == (2, 8)
    assert str(made.problem("bellows.fold_depth", "too deep")) == 'x.toml:8: bellows.fold_depth: is "25 mm"; too deep'
    assert str(made.problem("gusset.lap", "too wide")) == 'x.toml: gusset.lap: is "5 mm" (the default); too wide'
    assert str(made.problem("bellows.stretch", "m")) == "x.toml:6: bellows.stretch: is 50 (the default); m"
    assert str(made.problem("bellows.travel", "m")) == "x.toml:6: bellows.travel: m"
    assert 'is "0.4 mm" (the default)' in str(made.problem('materials."gusset skin".thickness', "m"))


def test_seven_faults_are_told_at_once_with_their_lines() -> None:
    text = """\
format = 1
name = 7
[section]
shape = "regular"
sides = 6
end_size = "6.25"
[bellows]
folds = 60
fold_depth = nan
stretch = true
[gusset]
lapp = "5 mm"
[edge_strip]
lap = "900 mm"
"""
    told = problems(text)
    assert [line.split(": ")[:2] for line in told] == [
        ["2", "name"],
        ["6", "section.end_size"],
        ["8", "bellows.folds"],
        ["9", "bellows.fold_depth"],
        ["10", "bellows.stretch"],
        ["12", "gusset.lapp"],
        ["14", "edge_strip.lap"],
    ]
    assert told[0] == "2: name: is 7; should be text in quotes"
    assert told[1] == '6: section.end_size: is "6.25"; has no unit: write 6.25 mm or 6.25 in'
    assert told[2] == "8: bellows.folds: is 60; too large: should be from 1 to 40"
    assert "is nan; is no finite number" in told[3]
    assert "is true; should be a bare number of degrees, from 1 degrees to 90 degrees" in told[4]
    assert "the nearest is lap" in told[5]
    assert told[6] == '14: edge_strip.lap: is "900 mm"; too large: should be from 0.5 mm (0.02 in) to 60 mm (about 2 23/64 in)'


@pytest.mark.parametrize("value", ["nan", "inf", "-inf", "true", "1e400", "-3", '"nan mm"', "[]", "1979-05-27", '""', "1" + "0" * 400])
@pytest.mark.parametrize(
    "key", ["bellows.fold_depth", "gusset.lap", "bellows.relief", "bellows.stack_factor", "costs.labour_rate", "bellows.corner_gap"]
)
def test_no_number_slips_through(key: str, value: str) -> None:
    text = FIVE.replace('fold_depth = "25 mm"\n', "") if key == "bellows.fold_depth" else FIVE
    if key.startswith("bellows."):
        text += f"{key.removeprefix('bellows.')} = {value}\n"
    else:
        text = f"{key} = {value}\n{text}"
    told = problems(text)
    assert len(told) == 1
    assert f" {key}: is " in told[0]


@pytest.mark.parametrize(
    "key",
    [
        "gusset.lap",
        "gusset.ridge_turn",
        "gusset.skive",
        "edge_strip.joint",
        "end_strip.frame_cover",
        "hinge.lap",
        "facing.margin",
        "materials.linen.thickness",
    ],
)
def test_no_size_may_be_nought(key: str) -> None:
    (told,) = problems(f"{key} = 0\n{FIVE}")
    assert "may not be 0: should be from" in told


@pytest.mark.parametrize(
    "key", ["card.ridge_gap", "card.valley_gap", "card.ridge_radius", "gusset.feather", "gusset.tip_radius", "edge_strip.feather"]
)
def test_gaps_radii_and_feather_may_be_nought(key: str) -> None:
    made = loads(f'{key} = "0 mm"\n{FIVE}')
    assert getattr(getattr(made, key.split(".", maxsplit=1)[0]), key.split(".")[1]) == 0


def test_set_back_relief_and_corner_gap_may_be_nought() -> None:
    made = loads(FIVE.replace("sides", "ridge_setback = 0\nsides") + "corner_gap = 0\nrelief = 0\n")
    assert (made.section.ridge_setback, made.bellows.corner_gap, made.bellows.relief) == (0, 0, 0)


def rest(section: str) -> str:
    return f"[section]\n{section}\n{REST}"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (FIVE + 'stretch = 50\ntravel = "230 mm"\n', '10: bellows.travel: is "230 mm"; give stretch or travel, never both'),
        (FIVE + "closed_gap = 6\nrelief = 5\n", "9: bellows.closed_gap: is 6; give relief or closed_gap, never both"),
        (FIVE + "stretch = 91\n", "should be from 1 degrees to 90 degrees"),
        (FIVE + "stretch = 0\n", "may not be 0"),
        (FIVE.replace("sides = 6", "sides = 2"), "should be from 3 to 64"),
        (FIVE.replace("sides = 6", "sides = 65"), "should be from 3 to 64"),
        (FIVE.replace("sides = 6", "sides = 6.0"), "should be a whole number"),
        (FIVE.replace("sides = 6", 'sides = "6"'), "should be a whole number"),
        (FIVE.replace("sides = 6", "sides = true"), "should be a whole number"),
        (FIVE.replace("sides = 6", "sides = 5"), 'write measure = "side"'),
        (FIVE.replace("sides = 6", 'sides = 5\nmeasure = "across-corners"'), '5: section.measure: is "across-corners"; an end of 5 sides'),
        (FIVE.replace("folds = 6", "folds = 0"), "may not be 0: should be from 1 to 40"),
        (FIVE.replace("folds = 6\n", ""), "6: bellows.folds: is missing: write for example folds = 6"),
        (FIVE.replace('"6 1/4 in"', "6.25"), 'for inches write "6.25 in"'),
        (FIVE.replace('"6 1/4 in"', '"6.25 mm"'), "too small: should be from 15 mm"),
        (FIVE.replace('"6 1/4 in"', '"6 1/4"'), "has no unit"),
        (FIVE.replace('"regular"', '"octagon"'), 'should be one of "regular", "rectangle", "measured"'),
        (FIVE.replace('shape = "regular"\n', ""), "2: section.shape: is missing"),
        (FIVE.replace("sides = 6", "sides = 6\nwidth = 90"), 'belongs to shape = "rectangle"'),
        (FIVE.replace("format = 1", "format = 2"), "should be from 1 to 1"),
        (f"copies = 1001\n{FIVE}", "should be from 1 to 1000"),
        (f"gusset = 5\n{FIVE}", "1: gusset: is 5; should be one table, [gusset]"),
        (f"{FIVE}[[hinge]]\nlap = 6\n", "should be one table, [hinge]"),
        (f"{FIVE}[gussets]\nlap = 6\n", "9: gussets: is not a known table: the nearest is [gusset]"),
        (f"{FIVE}[corner]\nlap = 6\n", "the nearest is [gusset]"),
        (f"{FIVE}peak_gap = 1\n", "is not a known key of [bellows]"),
        (f"{FIVE}[card]\npeak_gap = 1\n", "the nearest is ridge_gap"),
        (f"{FIVE}[card]\nfrane_cover = 1\n", "nearest is"),
        (f"{FIVE}frame_cover = 1\n", "is not a key here: it belongs in [end_strip]"),
        (f"{FIVE}copies = 1\n", "it belongs before the first table"),
        (f"{FIVE}[gusset]\nlap = 4\ntip_lap = 3\nskive = 3.5\n", "too large: its tip_lap is only 3 mm"),
        (f"{FIVE}[edge_strip]\nskive = 8\n", "too large: its lap is only 7 mm"),
        (f"{FIVE}[edge_strip]\nfeather = 0.7\n", "its leather, strip skin, is only 0.6 mm"),
        (f'{FIVE}[gusset]\nmaterial = "kid skin"\n', "the built-in materials are grey card, gusset skin, strip skin, linen, facing paper"),
        (f"{FIVE}[gusset]\nspare = 2.5\n", 'or a share in quotes such as "10 %"'),
        (f"{FIVE}[gusset]\nuse = [28]\n", "should be two lengths"),
        (f'{FIVE}[edge_strip]\ndarts = "yes"\n', "should be true or false"),
        (f'{FIVE}[costs]\ncurrency = "gbp"\n', "three capitals of ISO 4217"),
        (f'{FIVE}[costs]\nlabour_rate = "28"\n', "an amount such as 11.50"),
        (f'name = "a\\u0007b"\n{FIVE}', "control characters"),
        (f'name = "{"n" * 201}"\n{FIVE}', "is 201 characters long"),
        (f'name = " "\n{FIVE}', "is empty"),
        (rest('shape = "rectangle"\nwidth = 250'), "section.height: is missing"),
        (rest('shape = "measured"'), "needs one of flats, side_lengths or corners"),
        (rest('shape = "measured"\nflats = [158, 159, 158]\nside_lengths = [91, 91, 91, 91, 91, 91]'), "here are flats and side_lengths"),
        (rest('shape = "measured"\nflats = [158]'), "from 2 to 32 pairs"),
        (rest('shape = "measured"\nside_lengths = [91, 92]'), "from 3 to 64 sides"),
        (rest('shape = "measured"\nflats = [158, 159, -3]'), "value 3 may not be negative"),
        (rest('shape = "measured"\nflats = [158, 159, 158]\nother_end = [158, 159]'), "should have 3, as many as flats"),
        (rest('shape = "measured"\nflats = [158, 159, 158]\nother_end = [158, 159, "x"]'), "repeats flats at the second end, but value 3"),
        (rest('shape = "measured"\ncorners = [[0, 0], [1, 2, 3], [4, 5]]'), "value 2 has 3 values: should be a point"),
        (rest('shape = "measured"\ncorners = [[0, 0], [nan, 2], [4, 5]]'), "no finite number"),
    ],
)
def test_each_slip_is_named(text: str, said: str) -> None:
    (told,) = problems(text)
    assert said in told


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ('thickness = "0.3 mm"', "form: is missing"),
        ('form = "sheet"\nsize = [700, 500]', "thickness: is missing"),
        ('form = "roll"\nthickness = 0.2', "size: is missing"),
        ('form = "sheet"\nthickness = 0.2\nsize = [700]', "a sheet has two sides"),
        ('form = "sheet"\nthickness = 0.2\nsize = [700, 500]\ngrade = "A"', 'belongs to form = "skin"'),
        ('form = "skin"\nthickness = 0.2\noutline = "t.svg"\nclear = [700, 400]', "give outline or clear"),
        ('form = "skin"\nthickness = 0.2\nflaws = [[1, 2, 3]]', "give outline as well"),
        ('form = "skin"\nthickness = 0.2\nprice = 2\nprice_per = "m"', 'a skin is priced by "sq ft", "dm2", "m2", or by the piece'),
        ('form = "roll"\nthickness = 0.2\nsize = [900, 5000]\nprice = 2\nprice_per = "m2"', 'a roll is priced by "m"'),
        ('form = "skin"\nthickness = 0.2\nprice_per = "m2"', "there is no price beside it"),
        ('form = "skin"\nthickness = 0.2\narea = 5', "an area with its unit in quotes"),
        ('form = "skin"\nthickness = 0.2\narea = "5 ft"', "use sq ft, dm2, cm2 or m2"),
        ('form = "skin"\nthickness = 0.2\ngrade = "G"', "should be one of"),
        ('form = "skin"\nthickness = 0.2\nwaste = 100', "from 0 per cent to 95 per cent"),
        ('form = "skin"\nthickness = 0.2\nprice = -1', "may not be negative"),
        ('form = "skin"\nthickness = 0.2\nprice = 1.00000001', "too many decimals"),
    ],
)
def test_each_slip_of_a_material_is_named(table: str, said: str) -> None:
    (told,) = problems(f'{FIVE}[materials."kid skin"]\n{table}\n')
    assert said in told
    assert 'materials."kid skin".' in told


def test_a_table_of_a_built_in_material_says_only_what_differs() -> None:
    made = loads(f'{FIVE}[materials."gusset skin"]\nprice = 11.50\nthickness = "1 oz"\n[materials.linen]\nprice = 3\n')
    skin = made.materials["gusset skin"]
    assert (skin.price, skin.thickness, skin.area) == (Decimal("11.50"), 0.396875, 464515.2)
    assert made.materials["linen"].price_per == "m"
    clear = loads(f'{FIVE}[materials."gusset skin"]\nclear = ["700 mm", "400 mm"]\n').materials["gusset skin"]
    assert (clear.area, clear.piece_area()) == (None, 280_000)


def test_defaults_bow_to_thin_leather_and_narrow_laps() -> None:
    made = loads(f'edge_strip.lap = 4\nend_strip.frame_cover = 3\n{FIVE}[materials."gusset skin"]\nthickness = 0.08\n')
    assert (made.edge_strip.skive, made.end_strip.skive, made.gusset.feather) == (4, 3, 0.08)


def test_other_words_are_understood() -> None:
    made = loads(FIVE + 'ends = "trough"\n[hinge]\nvalley_side = "Inner"\n[card]\nbuild = "scored"\n')
    assert (made.bellows.ends, made.hinge.valley_side, made.card.build) == ("valley", "inside", "run")


def test_the_other_end_is_read_in_the_kind_of_the_first() -> None:
    made = loads(rest('shape = "measured"\ncorners = [[0, 0], ["4 in", 0], [50, 90]]\nother_end = [[0, 0], [101, 0], ["5 cm", 91]]'))
    assert made.section.other_end == ((0.0, 0.0), (101.0, 0.0), (50.0, 91.0))
    assert made.section.corners == ((0, 0), (101.6, 0), (50, 90))


def test_millimetres_and_inches_agree() -> None:
    prints = {
        loads(FIVE.replace('"6 1/4 in"', spelling)).fingerprint
        for spelling in ('"6 1/4 in"', '"6.25in"', '"158.75 mm"', "158.75", '"15.875 cm"', "158.750")
    }
    assert len(prints) == 1
    assert loads(FIVE.replace('"6 1/4 in"', '"158.751 mm"')).fingerprint not in prints
    assert loads(f"# remark\n{FIVE}", "other.toml", "other").fingerprint in prints
    assert loads(FIVE + "stretch = 50.0\n").fingerprint in prints
    (one,) = prints
    assert len(one) == 12
    assert int(one, 16) >= 0


@pytest.mark.parametrize(
    "change",
    [
        "copies = 2\n",
        "gusset.lap = 5.1\n",
        "cutter.kerf = 0.2\n",
        'materials.linen = {form = "skin", thickness = 0.2}\n',
        "facing = {}\n",
        'materials.kid = {form = "skin", thickness = 0.3}\n',
    ],
)
def test_every_value_of_a_pattern_is_in_the_fingerprint(change: str) -> None:
    assert loads(change + FIVE).fingerprint != loads(FIVE).fingerprint


@pytest.mark.parametrize(
    "change", ["costs.labour_rate = 1\n", 'quote.customer = "A"\n', "minutes.clean = 5\n", "form.ply = 5\n", "materials.linen.price = 5\n"]
)
def test_what_changes_no_pattern_is_not_in_the_fingerprint(change: str) -> None:
    assert loads(change + FIVE).fingerprint == loads(FIVE).fingerprint
    assert loads(change + FIVE) != loads(FIVE)


def check_back(made: Profile) -> None:
    for only_given in (False, True):
        again = loads(as_toml(made, only_given=only_given))
        assert again.fingerprint == made.fingerprint
        assert again.name == made.name


def test_writing_escapes_names() -> None:
    check_back(loads('name = "a \\"b\\" \\\\ # \U0001f600 ü"\n' + FIVE + '[materials."x.y \\"z\\""]\nform = "skin"\nthickness = 0.4\n'))


def test_only_given_keys_stand_uncommented() -> None:
    text = as_toml(loads(FIVE), only_given=True)
    live = [line.split(" = ")[0] for line in text.splitlines() if line and line[0] not in "#["]
    assert live == ["format", "name", "shape", "sides", "end_size", "folds", "fold_depth"]
    assert '# width = "250 mm"' in text


def test_every_key_is_described() -> None:
    for spec in (TopSpec, Material, *(table.spec for table in TABLES)):
        for name, key, default in keys_of(spec):
            assert key.help, name
            assert key.status in STATUSES, name
            if key.kind is Kind.CHOICE:
                assert set(key.also.values()) <= set(key.choices), name
            if isinstance(default, float) and default:
                assert key.allows(default), name
            assert default is not None or key.example, name


def test_load_by_path(tmp_path: Path) -> None:
    path = tmp_path / "my box.toml"
    path.write_bytes(b"\xef\xbb\xbf" + FIVE.replace("\n", "\r\n").encode())
    made = load(path)
    assert (made.name, made.source) == ("my box", str(path))


READ = {
    'ridge_edge = "84.1 mm"': Readings((84.1,)),
    'ridge_edge = ["61.0 mm", "60.5 mm"]': Readings((61.0, 60.5)),
    'ridge_edge = [61, "2 3/8 in"]': Readings((61.0, 60.325)),
    'ridge_edge = { C = ["83.0 mm", 83.5], A = 84.1 }': Readings(by_side=(("A", (84.1,)), ("C", (83.0, 83.5)))),
    '[readings.ridge_edge]\nC = 83\nA = "84.1 mm"': Readings(by_side=(("A", (84.1,)), ("C", (83.0,)))),
    "ridge_edge.A = 84.1": Readings(by_side=(("A", (84.1,)),)),
}


@pytest.mark.parametrize("text", READ)
def test_readings_in_every_spelling(text: str) -> None:
    made = loads(f"{FIVE}[readings]\n{text}\n")
    assert made.readings.ridge_edge == READ[text]
    assert "readings.ridge_edge" in made.given
    again = loads("\n".join(f"{name} = {made.written[name]}" for name in sorted(made.given)))
    assert again.readings == made.readings
    for only_given in (False, True):
        written = as_toml(made, only_given=only_given)
        assert loads(written).readings == made.readings
        assert loads(written).fingerprint == made.fingerprint != loads(FIVE).fingerprint


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("ridge_edge = []", "has 0 values"),
        ("ridge_edge = {}", "by the letter of the side"),
        ("ridge_edge = true", "by the letter of the side"),
        ('ridge_edge = "84"', "unit"),
        ("ridge_edge = [84, -1]", "value 2 may not be negative"),
        ("valley_edge = { A = 0 }", "at side A may not be 0"),
        ("valley_edge = { a = 60 }", "capital letters"),
        ("valley_edge = { G = 60 }", "A to F"),
        ("valley_edge = { A = { B = 60 } }", "at side A should be"),
        ("glue_shadow = 61", "too large"),
        ("glue_shadows = 6", "nearest is glue_shadow"),
    ],
)
def test_readings_that_are_none(text: str, told: str) -> None:
    with pytest.raises(ProfileError, match=re.escape(told)) as caught:
        loads(f"{FIVE}[readings]\n{text}\n")
    (problem,) = caught.value.problems
    assert problem.key.startswith("readings.")
    assert problem.line

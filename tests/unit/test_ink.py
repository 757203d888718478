"""Colours of the layers: far apart, none near black, settable, and what is cut has one to itself."""

from __future__ import annotations

import math
from itertools import combinations

import pytest

from bellowscut.errors import ProfileError
from bellowscut.export.ink import INKS, LAYERS, TRIALS, inks_of
from bellowscut.profile import loads
from bellowscut.schema import CutterSpec, colours_alike
from tests.conftest import FIVE_LINES

Lab = tuple[float, float, float]


def lab(colour: str) -> Lab:
    """CIE 1976 L*a*b* of an sRGB colour (IEC 61966-2-1, white D65; the formulas of CIE 15, from memory)."""
    bits = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in bits)
    xyz = (
        (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505,
        0.2126 * r + 0.7152 * g + 0.0722 * b,
        (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089,
    )
    x, y, z = (value ** (1 / 3) if value > 216 / 24389 else (24389 / 27 * value + 16) / 116 for value in xyz)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def test_the_formula_knows_black_and_white() -> None:
    assert lab("#000000") == pytest.approx((0, 0, 0), abs=0.01)
    assert lab("#ffffff") == pytest.approx((100, 0, 0), abs=0.05)
    assert lab("#ff0000")[0] == pytest.approx(53.2, abs=0.1)


def test_colours_of_the_layers_are_pure_and_well_apart() -> None:
    colours = {layer: INKS[layer].colour for layer in LAYERS}
    for one, other in combinations(colours.values(), 2):
        assert math.dist(lab(one), lab(other)) > 60, (one, other)
    for colour in colours.values():
        assert 40 < lab(colour)[0] < 70, "seen on white, and not taken for black"
        assert {colour[k : k + 2] for k in (1, 3, 5)} <= {"00", "80", "ff"}
        assert "00" in {colour[k : k + 2] for k in (1, 3, 5)}, "no grey in it"


def test_lines_are_hairlines() -> None:
    """Finer than the finest pen of technical drawing, 0.13 mm (ISO 128, from memory), and than the beam of a laser."""
    assert all(0 < ink.weight < 0.13 for ink in INKS.values())


@pytest.mark.parametrize(
    "taken", [{}, {f"{layer.lower()}_colour": INKS[trial].colour for layer, trial in zip(LAYERS, TRIALS, strict=False)}]
)
def test_tried_layers_keep_off_the_others(taken: dict[str, str]) -> None:
    inks = inks_of(CutterSpec(**taken))  # type: ignore[arg-type]  # only colours
    assert tuple(inks) == (*TRIALS, *LAYERS)
    for one in TRIALS:
        assert all(not colours_alike(inks[one].colour, ink.colour) for layer, ink in inks.items() if layer != one)


def loaded(lines: str) -> CutterSpec:
    return loads(f"{FIVE_LINES}[cutter]\n{lines}\n").cutter


@pytest.mark.parametrize("written", ["#0080FF", "0080ff", " #0080ff ", "0, 128, 255", "rgb(0,128,255)", "RGB 0 128 255"])
def test_a_colour_as_shops_write_it(written: str) -> None:
    assert loaded(f'crease_colour = "{written}"').crease_colour == "#0080ff"


def test_short_hexadecimal() -> None:
    assert loaded('crease_colour = "#08f"').crease_colour == "#0088ff"


@pytest.mark.parametrize(
    ("lines", "key", "told"),
    [
        ('crease_colour = "red"', "crease_colour", "should be a colour in quotes"),
        ("crease_colour = 255", "crease_colour", "should be a colour in quotes"),
        ('crease_colour = "#12345"', "crease_colour", "should be a colour in quotes"),
        ('crease_colour = "0, 128, 256"', "crease_colour", "should be a colour in quotes"),
        ("cut_line_width = 0", "cut_line_width", "may not be 0"),
        ('text_line_width = "4 mm"', "text_line_width", "too large"),
        ('mark_colour = "#ff0090"', "mark_colour", 'nearly the colour of what is cut, "#ff0080"'),
        ('cut_colour = "#0080f0"', "cut_colour", "give mark_colour another colour"),
        ('cut_color = "#0080f0"', "cut_color", "cut_colour"),
    ],
)
def test_what_will_not_do_is_refused_by_its_key(lines: str, key: str, told: str) -> None:
    with pytest.raises(ProfileError) as caught:
        loaded(lines)
    (problem,) = caught.value.problems
    assert problem.key == f"cutter.{key}"
    assert told in problem.message


def test_an_unsound_colour_is_told_once() -> None:
    with pytest.raises(ProfileError) as caught:
        loaded('cut_colour = "#0080ff"\nmark_colour = "blue"')
    assert [problem.key for problem in caught.value.problems] == ["cutter.mark_colour"]


def test_layers_that_are_not_cut_may_share_a_colour() -> None:
    spec = loaded('mark_colour = "#000"\ntext_colour = "#000"\nskive_colour = "#000"')
    assert {inks_of(spec)[layer].colour for layer in ("MARK", "TEXT", "SKIVE")} == {"#000000"}

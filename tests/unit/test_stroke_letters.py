"""Single-stroke letters: which letters, how high, how wide, which way round."""

from __future__ import annotations

import math

import pytest

from bellowscut.drawing import Label
from bellowscut.export.stroke_letters import in_ascii, respelt, spelling_told, strokes
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.shapes import Point


def points_of(label: Label) -> list[Point]:
    return [point for stroke in strokes(label) for point in stroke]


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Gusset AB, 12.5 mm", "Gusset AB, 12.5 mm"),
        ("Stra\u00dfe \u00fc \u00e9 \u0141\u00f3d\u017a", "Strasse u e Lodz"),
        ("u\u0308", "u"),
        ("6\u00bd \u00d7 4\u2033 \u2013 40\u00b0", '61/2 x 4" - 40 deg'),
        ("\u2300 3 \u00b1 0,1 \u20ac", "dia  3 +- 0,1 EUR"),
        ("\u017dlu\u0165ou\u010dk\u00fd", "Zlutoucky"),
        ("\u0411\u0430\u044f\u043d \u0419\u043e\u0448\u043a\u0430\u0440", "Bayan Yoshkar"),
        ("\u0391\u03b8\u03ae\u03bd\u03b1", "Athina"),
        ("\u4e2d\u6587 \uf8ff", "ZhongWen ?"),
        ("a\tb\nc\x00\u0301", "a b c??"),
        ("\ufb01t\u2026", "fit..."),
        ("", ""),
    ],
)
def test_nearest_ascii(text: str, shown: str) -> None:
    assert in_ascii(text) == shown


def test_nothing_is_dropped_without_a_trace() -> None:
    for code in (*range(0xD800), *range(0xE000, 0x11000), 0x1F600):
        assert in_ascii(chr(code)), hex(code)
    assert in_ascii("\ud800") == "?"


def test_names_that_are_spelt_otherwise_are_told() -> None:
    """Names count, signs do not."""
    told = respelt(["K\u016f\u0148, 12.5 \u00d7 3 mm \u00b7 40\u00b0 \u2013 \u20ac", "Plain (M\u00fcller)"])
    assert told == {"K\u016f\u0148": "Kun", "M\u00fcller": "Muller"}
    assert "Kun for K\u016f\u0148, Muller for M\u00fcller." in spelling_told(["K\u016f\u0148 M\u00fcller"])
    assert spelling_told(["Gusset \u00b7 12.5 \u00d7 3 mm"]) == ""


def test_every_ascii_letter_is_drawn() -> None:
    for letter in map(chr, range(33, 127)):
        assert strokes(Label(letter, (0, 0), 5)), letter
    assert strokes(Label("   ", (0, 0), 5)) == ()


def test_capitals_are_as_high_as_printed_ones() -> None:
    ys = [y for _, y in points_of(Label("H", (3, 7), 10))]
    assert (min(ys), max(ys)) == pytest.approx((7, 7 + 10 * CAPITAL))


@pytest.mark.parametrize("text", ["Gusset, corners AB and CD", "WWWWMMMM", "iiiillll", "0123456789", "(dia.) \u2192 \u00e6\u00df"])
@pytest.mark.parametrize("width", [0.0, 11.0])
def test_never_wider_than_printed(text: str, width: float) -> None:
    xs = [x for x, _ in points_of(Label(text, (0, 0), 4, width=width))]
    limit = text_width(text, 4)
    assert min(xs) > -0.3
    assert max(xs) <= (min(limit, width) if width else limit) + 1e-9


def test_anchors() -> None:
    ends = {}
    for anchor in ("start", "middle", "end"):
        xs = [x for x, _ in points_of(Label("abc", (50, 0), 4, anchor=anchor))]
        ends[anchor] = (min(xs), max(xs))
    assert ends["start"][0] >= 50
    assert ends["end"][1] <= 50
    assert sum(ends["middle"]) / 2 == pytest.approx(50, abs=0.3)


def test_turned_text_goes_up() -> None:
    level = points_of(Label("ab", (0, 0), 4))
    turned = points_of(Label("ab", (10, 20), 4, angle=90))
    for (x, y), (u, v) in zip(level, turned, strict=True):
        assert (u, v) == pytest.approx((10 - y, 20 + x))


def test_letters_read_from_left_to_right() -> None:
    foot, stem = max(strokes(Label("L", (0, 0), 4)), key=lambda run: abs(run[-1][0] - run[0][0])), strokes(Label("L", (0, 0), 4))[0]
    assert max(x for x, _ in foot) > max(x for x, _ in stem)
    assert math.isclose(max(y for _, y in foot), 0, abs_tol=1e-9)

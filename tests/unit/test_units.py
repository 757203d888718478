"""Lengths and areas as written by hand."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from bellowscut.units import (
    MM2_PER_SQ_FT,
    MM_PER_FOOT,
    MM_PER_INCH,
    MM_PER_OUNCE,
    UnitError,
    both,
    both_areas,
    in_inches,
    parse_area,
    parse_length,
    plain_number,
)
from bellowscut.values import exact


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("158.75 mm", 158.75),
        ("158.75mm", 158.75),
        ("6 1/4 in", 158.75),
        ("6.25in", 158.75),
        ("6-1/4 in", 158.75),
        ("6¼″", 158.75),
        ('6 1/4"', 158.75),
        ("6.25 inches", 158.75),
        ("1/4 in", 6.35),
        ("15.875 cm", 158.75),
        ("0.15875 m", 158.75),
        (".5 mm", 0.5),
        ("5. mm", 5.0),
        ("25", 25.0),
        ("-3 mm", -3.0),
        ("-1/4 in", -6.35),
    ],
)
def test_lengths(text: str, mm: float) -> None:
    assert parse_length(text) == mm


def test_inch_and_foot_are_exact() -> None:
    """International yard and pound agreement, 1959: 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 sq ft = 9.290304 dm2."""
    assert (MM_PER_INCH, MM_PER_FOOT) == (25.4, 304.8)
    assert parse_length("1 in") == 25.4
    assert parse_area("1 sq ft") == parse_area("9.290304 dm2")
    assert MM2_PER_SQ_FT == 92903.04


def test_ounces_are_64ths_of_an_inch_and_for_thickness_only() -> None:
    """Leather trade tables: 1 oz is 1/64 in, 0.396875 mm."""
    assert parse_length("1 oz", thickness=True) == 0.396875 == MM_PER_OUNCE
    assert parse_length("1 1/2 oz", thickness=True) == pytest.approx(0.5953125)
    with pytest.raises(UnitError, match="thickness of leather only"):
        parse_length("1 oz")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "such as"),
        ("mm", "such as"),
        ("nan mm", "such as"),
        ("inf", "such as"),
        ("-inf mm", "such as"),
        ("1e9 mm", "unit"),
        ("1,5 mm", "comma"),
        ("1.2.3 mm", "such as"),
        ("6 5/4 in", "less than one"),
        ("1/0 in", "divided by 0"),
        ("6 1 mm", "such as"),
        ("25 furlongs", "not known"),
        ("٢٥ mm", "such as"),
        ("9" * 5000 + " mm", "such as"),
    ],
)
def test_what_is_no_length(text: str, said: str) -> None:
    with pytest.raises(UnitError, match=said):
        parse_length(text)


def test_a_unit_can_be_demanded() -> None:
    with pytest.raises(UnitError, match=r"25 mm or 25 in"):
        parse_length("25", unit_needed=True)


@pytest.mark.parametrize(
    ("text", "mm2"),
    [
        ("5 sq ft", 464515.2),
        ("5 sq. ft.", 464515.2),
        ("2 ft2", 185806.08),
        ("46.5 dm2", 465000),
        ("46.5 dm²", 465000),
        ("3 cm2", 300),
        ("0.5 m2", 500000),
    ],
)
def test_areas(text: str, mm2: float) -> None:
    assert parse_area(text) == pytest.approx(mm2, rel=1e-15)


@pytest.mark.parametrize("text", ["5", "5 ft", "5 sq in", "nan sq ft", "sq ft"])
def test_what_is_no_area(text: str) -> None:
    with pytest.raises(UnitError):
        parse_area(text)


@pytest.mark.parametrize(
    ("mm", "words"),
    [
        (25, "25 mm (63/64 in)"),
        (158.75, "158.75 mm (6 1/4 in)"),
        (25.4, "25.4 mm (1 in)"),
        (40, "40 mm (about 1 37/64 in)"),
        (0.4, "0.4 mm (0.016 in)"),
        (0, "0 mm"),
        (-6.35, "-6.35 mm (-1/4 in)"),
        (float("inf"), "inf mm"),
    ],
)
def test_both_units(mm: float, words: str) -> None:
    assert both(mm) == words


def test_areas_in_both_units() -> None:
    assert both_areas(464515.2) == "46.45 dm2 (5 sq ft)"


@given(st.floats(-3000, 3000))
def test_inches_are_never_further_off_than_they_say(mm: float) -> None:
    words = in_inches(mm)
    off = abs(parse_length(words.removeprefix("about ")) - mm)
    assert off <= (25.4 / 128 + 1e-9 if words.startswith("about ") else 0.0501)


@given(st.floats(-1e6, 1e6))
def test_exact_numbers_read_back(value: float) -> None:
    assert "e" not in exact(value)
    if abs(value) > 1e-9:
        assert parse_length(f"{exact(value)} mm") == value


def test_plain_numbers() -> None:
    assert [plain_number(v) for v in (25.0, 0.85, -0.0001, 1e6, 1 / 3)] == ["25", "0.85", "0", "1000000", "0.333"]

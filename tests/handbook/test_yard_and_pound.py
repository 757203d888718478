"""International yard and pound agreement (1959): 1 in = 25.4 mm and 1 ft = 0.3048 m exactly, so 1 sq ft = 9.290304 dm2."""

from __future__ import annotations

from fractions import Fraction

import pytest

from bellowscut.units import MM2_PER_DM2, MM2_PER_SQ_FT, MM_PER_FOOT, MM_PER_INCH, parse_area, parse_length

pytestmark = pytest.mark.source("inch")


def test_inch_and_foot() -> None:
    assert Fraction(str(MM_PER_INCH)) == Fraction("25.4")
    assert Fraction(str(MM_PER_FOOT)) == Fraction("304.8")
    assert parse_length("1 in") == 25.4
    assert parse_length("12 in") == 304.8
    assert parse_length("6 1/4 in") == 158.75
    assert parse_length("1/64 in") == 0.396875


def test_square_foot() -> None:
    assert Fraction(str(MM2_PER_SQ_FT)) == Fraction("304.8") ** 2
    assert parse_area("1 sq ft") == 92903.04
    assert parse_area("1 sq ft") == parse_area("9.290304 dm2")
    assert Fraction(str(MM2_PER_SQ_FT)) / Fraction(str(MM2_PER_DM2)) == Fraction("9.290304")

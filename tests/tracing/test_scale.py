"""A drawing that is not true to size is told apart from one that is, with both figures and the likely reason."""

from __future__ import annotations

from pathlib import Path

import pytest

from bellowscut.tracing.scale import REASONS, check_area_of, check_length_of, likely_reason
from tests.tracing.drawings import RECTANGLE, SKIN, dxf, line, polyline, read, refusal, svg

CHECK = '<g id="check"><line x1="10" y1="20" x2="110" y2="20"/></g>'


def test_the_check_line_is_measured(tmp_path: Path) -> None:
    assert read(tmp_path, "x.svg", svg(SKIN + CHECK)).check == pytest.approx(100)
    turned = '<path id="Check" d="M10 10 L40 50 L70 90"/>'
    assert read(tmp_path, "x.svg", svg(SKIN + turned), check_length=100).check == pytest.approx(100)


@pytest.mark.parametrize("stated", [99.6, 100.0, 100.4])
def test_a_length_within_half_a_per_cent_will_do(stated: float, tmp_path: Path) -> None:
    assert read(tmp_path, "x.svg", svg(SKIN + CHECK), check_length=stated).check == pytest.approx(100)


@pytest.mark.parametrize("stated", [99.4, 100.6])
def test_a_length_past_half_a_per_cent_will_not(stated: float, tmp_path: Path) -> None:
    said = refusal(tmp_path, "x.svg", svg(SKIN + CHECK), check_length=stated)
    assert said.startswith("the check line is 100 mm")
    assert f"check_length is {stated} mm" in said
    assert "check the scale of the scan" in said


@pytest.mark.parametrize("stated", [147_100, 150_000, 153_000])
def test_an_area_within_two_per_cent_will_do(stated: float, tmp_path: Path) -> None:
    read(tmp_path, "x.svg", svg(SKIN), area=stated)


@pytest.mark.parametrize(("stated", "off"), [(146_900, "1.01 times too large"), (153_200, "1.011 times too small")])
def test_an_area_past_two_per_cent_will_not(stated: float, off: str, tmp_path: Path) -> None:
    said = refusal(tmp_path, "x.svg", svg(SKIN), area=stated)
    assert "the skin as drawn has 15 dm2 (1.61 sq ft), but area is" in said
    assert off in said


def test_flaws_are_part_of_the_area_that_is_paid_for(tmp_path: Path) -> None:
    read(tmp_path, "x.svg", svg(SKIN + '<rect x="200" y="200" width="100" height="100"/>'), area=150_000)


WRONG = [
    (25.4, "25.4 times too small; it looks as if inches were read as millimetres"),
    (10.0, "10 times too small; it looks as if centimetres were read as millimetres"),
    (1000.0, "1000 times too small; it looks as if metres were read as millimetres"),
    (25.4 / 96, "3.78 times too large; it looks as if pixels, 96 to the inch, were read as millimetres"),
    (25.4 / 90, "3.543 times too large; it looks as if pixels, 90 to the inch, were read as millimetres"),
    (25.4 / 72, "2.835 times too large; it looks as if points, 72 to the inch, were read as millimetres"),
]


@pytest.mark.parametrize(("unit", "said"), WRONG, ids=[said for _, said in WRONG])
def test_a_dxf_in_another_unit(unit: float, said: str, tmp_path: Path) -> None:
    """The skin is 500 by 300 mm, the numbers of the file are in some unit, and the file does not say which."""
    drawn = dxf(
        polyline([(0, 0), (500 / unit, 0), (500 / unit, 300 / unit), (0, 300 / unit)]) + line(0, 0, 100 / unit, 0, layer="check"), None
    )
    assert said in refusal(tmp_path, "x.dxf", drawn, check_length=100)
    assert said in refusal(tmp_path, "x.dxf", drawn, area=150_000)
    assert said.partition("; ")[2] in refusal(tmp_path, "x.dxf", drawn, area=150_000 * 1.019)


def test_lines_in_metres_are_not_joined_into_one_spot(tmp_path: Path) -> None:
    skin = line(0, 0, 0.5, 0) + line(0.5, 0, 0.5, 0.3) + line(0.5, 0.3, 0, 0.3) + line(0, 0.3, 0, 0)
    flaw = polyline([(0.1, 0.1), (0.1004, 0.1), (0.1004, 0.1004)])
    assert "metres were read as millimetres" in refusal(tmp_path, "x.dxf", dxf(skin + flaw, 0), area=150_000)
    assert "too small for a skin" in refusal(tmp_path, "x.dxf", dxf(skin + flaw, 4))


def test_an_svg_in_units_of_its_own(tmp_path: Path) -> None:
    assert "3.78 times too small; it looks as if millimetres were read as pixels, 96" in refusal(
        tmp_path, "x.svg", svg(SKIN, ""), area=150_000
    )
    points = SKIN.replace("100 100 h500 v300 h-500", "0 0 h1417.3 v850.4 h-1417.3")
    assert "1.333 times too small; it looks as if the drawing has 72 units to the inch and was read with 96" not in refusal(
        tmp_path, "x.svg", svg(points, ""), area=150_000 * 2
    )
    assert "the drawing has 72 units to the inch and was read with 96" in refusal(tmp_path, "x.svg", svg(points, ""), area=150_000)


def test_no_two_reasons_are_alike() -> None:
    for factor, reason in REASONS:
        assert likely_reason(factor) == reason
        assert likely_reason(factor * 1.03) == ""
    assert likely_reason(1.1) == ""


@pytest.mark.parametrize(("drawn", "said"), [
    (SKIN, "no line stands in a group or on a layer named check"),
    (SKIN + CHECK + CHECK, "has 2 lines named check"),
    (SKIN + '<rect id="check" width="100" height="5"/>', "the check line is a closed outline"),
    (SKIN + '<path id="check" d="M0 0L50 1L100 0"/>', "the check line is not straight"),
    (SKIN + '<path id="check" d="M0 0L150 0L100 0"/>', "the check line runs back on itself"),
])  # fmt: skip
def test_check_lines_that_are_none(drawn: str, said: str, tmp_path: Path) -> None:
    assert said in refusal(tmp_path, "x.svg", svg(drawn), check_length=100)


def test_two_check_lines_are_two_too_many_even_when_nobody_asks(tmp_path: Path) -> None:
    assert "has 2 lines named check" in refusal(tmp_path, "x.dxf", dxf(RECTANGLE + 2 * line(0, 0, 9, 0, layer="CHECK")))


@pytest.mark.parametrize("value", [0.0, -5.0, float("nan"), float("inf")])
def test_what_is_stated_must_be_a_size(value: float, tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="area: is"):
        read(tmp_path, "x.svg", svg(SKIN), area=value)
    with pytest.raises(ValueError, match="check_length: is"):
        read(tmp_path, "x.svg", svg(SKIN), check_length=value)


def test_the_limits_are_not_refused_themselves() -> None:
    check_length_of(100.4999, 100)
    check_area_of(101.999, 100)

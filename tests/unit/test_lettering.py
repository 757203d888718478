"""Text is as wide as the font files say, and nothing is lost when a font lacks a letter."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given, strategies as st
from reportlab.pdfbase.ttfonts import TTFont

from bellowscut.drawing import Label
from bellowscut.lettering import _LETTERS, fitted_height, paragraph, printable, text_width, wrapped

FONTS = {False: TTFont("check-plain", "Vera.ttf"), True: TTFont("check-bold", "VeraBd.ttf")}


@pytest.mark.parametrize("bold", [False, True])
def test_every_letter_is_as_wide_as_in_the_font_file(bold: bool) -> None:
    font = FONTS[bold]
    for letter in _LETTERS:
        assert ord(letter) in font.face.charToGlyph, hex(ord(letter))
        assert text_width(letter, 1000.0, bold=bold) == pytest.approx(font.stringWidth(letter, 1000.0), abs=1e-6), hex(ord(letter))


@pytest.mark.parametrize("bold", [False, True])
def test_a_line_is_as_wide_as_the_writer_of_the_file_makes_it(bold: bool) -> None:
    line = "Gusset, corners AB to FA \u00b7 cut 30 + 3 spare \u2013 25.4 \u00d7 62.4 mm \u00b1 0.1\u00b0"
    assert text_width(line, 3.2, bold=bold) == pytest.approx(FONTS[bold].stringWidth(line, 3.2), rel=1e-9)


def test_the_table_reaches_over_latin_1_and_the_signs_of_the_bench() -> None:
    wanted = [chr(code) for code in (*range(0x20, 0x7F), *range(0xA0, 0x100))]
    assert set(wanted) <= set(_LETTERS)
    assert set("\u2013\u2014\u00d7\u00b0\u00b1\u2022\u2026\u2018\u2019\u201c\u201d") <= set(_LETTERS)


@pytest.mark.parametrize(
    ("given_text", "shown"),
    [
        ("M\u00fcller's box", "M\u00fcller's box"),
        ("e\u0301", "\u00e9"),
        ("\u1ebd", "e"),
        ("\u0110uro", "Duro"),
        ("\u6f22\u5b57", "??"),
        ("\u215b in", "1/8 in"),
        ("6\u2033", '6"'),
        ("a\tb\nc", "a b c"),
        ("\u0301", "?"),
        ("\x07", "?"),
        ("\u200b", "?"),
        ("5\u00a0mm", "5 mm"),
    ],
)
def test_what_the_fonts_lack_is_replaced_and_never_dropped(given_text: str, shown: str) -> None:
    assert printable(given_text) == shown


@given(st.text(max_size=40))
def test_any_text_can_be_shown(text: str) -> None:
    shown = printable(text)
    assert set(shown) <= set(_LETTERS)
    assert len(shown) >= len(unicodedata.normalize("NFC", text)) or not text
    assert printable(shown) == shown


@given(st.text(alphabet="abc \u00e9WiW", min_size=0, max_size=80), st.floats(2.0, 60.0))
def test_wrapped_lines_fit_and_keep_every_letter(text: str, width: float) -> None:
    lines = wrapped(text, 3.0, width)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    for line in lines:
        assert text_width(line, 3.0) <= width or len(line) == 1


def test_lines_break_at_spaces_where_they_can() -> None:
    assert wrapped("cut one first", 3.0, text_width("cut one", 3.0)) == ("cut one", "first")
    assert wrapped("", 3.0, 10.0) == ()


def test_a_paragraph_stands_under_itself() -> None:
    labels, after = paragraph("cut one first", (10.0, 100.0), 4.0, text_width("cut one", 4.0), leading=1.5)
    assert [(label.text, label.at) for label in labels] == [("cut one", (10.0, 100.0)), ("first", (10.0, 94.0))]
    assert after == 88.0


def test_a_label_shrinks_to_its_width_and_no_further() -> None:
    label = Label("a long name", (0, 0), 5.0, width=20.0)
    height = fitted_height(label)
    assert height < 5.0
    assert text_width(label.text, height) == pytest.approx(20.0)
    assert fitted_height(Label("a", (0, 0), 5.0, width=20.0)) == 5.0
    assert fitted_height(Label("a long name", (0, 0), 5.0)) == 5.0

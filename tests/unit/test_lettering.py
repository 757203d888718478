"""Text is as wide as the font files say, and nothing is lost when a font lacks a letter."""

from __future__ import annotations

import unicodedata
from pathlib import Path

import pytest
from font_source_sans_pro import font_directory
from hypothesis import given, strategies as st
from reportlab.pdfbase.ttfonts import TTFont

from bellowscut.drawing import Label
from bellowscut.letter_widths import LETTERS
from bellowscut.lettering import FONT_SIZE, fitted_height, lacking, paragraph, printable, text_width, wrapped

FILES = {False: "SourceSansPro-Regular.ttf", True: "SourceSansPro-Bold.ttf"}
FONTS = {bold: TTFont(f"check-{bold}", str(Path(font_directory) / file)) for bold, file in FILES.items()}


@pytest.mark.parametrize("bold", [False, True])
def test_every_letter_is_as_wide_as_in_the_font_file(bold: bool) -> None:
    font = FONTS[bold]
    for letter in LETTERS:
        assert ord(letter) in font.face.charToGlyph, hex(ord(letter))
        assert text_width(letter, 1000.0, bold=bold) == pytest.approx(font.stringWidth(letter, 1000.0 * FONT_SIZE), abs=1e-6), hex(
            ord(letter)
        )


@pytest.mark.parametrize("bold", [False, True])
def test_a_line_is_as_wide_as_the_writer_of_the_file_makes_it(bold: bool) -> None:
    line = "Gusset, corners AB to FA \u00b7 cut 30 + 3 spare \u2013 25.4 \u00d7 62.4 mm \u00b1 0.1\u00b0"
    assert text_width(line, 3.2, bold=bold) == pytest.approx(FONTS[bold].stringWidth(line, 3.2 * FONT_SIZE), rel=1e-9)


def test_the_table_reaches_over_the_alphabets_of_europe_and_the_signs_of_the_bench() -> None:
    """Latin with all its accents, modern Greek, and Cyrillic of the Slav languages."""
    wanted = [chr(code) for code in (*range(0x20, 0x7F), *range(0xA1, 0xAD), *range(0xAE, 0x17F), *range(0x410, 0x450))]
    wanted += "\u0218\u0219\u021a\u021b\u1e9e\u0386\u038c\u03ac\u03ad\u03af\u03cc\u03cd\u03ce\u0390\u0401\u0451\u0404\u0454\u0407\u0457\u0490\u0491\u0402\u0452\u045f"
    wanted += [chr(code) for code in (*range(0x391, 0x3A2), *range(0x3A3, 0x3CA))]
    assert set(wanted) - set(LETTERS) == set()
    assert set("\u2013\u2014\u00d7\u00b0\u00b1\u2022\u2026\u2018\u2019\u201c\u201d") <= set(LETTERS)


@pytest.mark.parametrize(
    ("given_text", "shown"),
    [
        ("M\u00fcller's box", "M\u00fcller's box"),
        ("e\u0301", "\u00e9"),
        ("\u017dlu\u0165ou\u010dk\u00fd k\u016f\u0148", "\u017dlu\u0165ou\u010dk\u00fd k\u016f\u0148"),
        ("\u039c\u03bf\u03c5\u03c3\u03b9\u03ba\u03ae", "\u039c\u03bf\u03c5\u03c3\u03b9\u03ba\u03ae"),
        ("\u0429\u0451\u043b\u043a\u043e\u0432\u043e", "\u0429\u0451\u043b\u043a\u043e\u0432\u043e"),
        ("\u0252\u1e9b", "\u0252s"),
        ("\u6f22\u5b57", "??"),
        ("6\u2033 \u215b", "6\u2033 \u215b"),
        ("\u2300 3", "\u00d8 3"),
        ("a\tb\nc", "a b c"),
        ("\u0301", "?"),
        ("\x07", "?"),
        ("\u200b", "?"),
        ("5\u00a0mm", "5 mm"),
    ],
)
def test_what_the_fonts_lack_is_replaced_and_never_dropped(given_text: str, shown: str) -> None:
    assert printable(given_text) == shown


def test_what_cannot_be_printed_is_named() -> None:
    """Letters, each once and in order; neither signs that another sign stands for, nor spaces, nor what is there."""
    assert lacking(["M\u00fcller \u0416 \u03a9\u2010\u2300", "\u6f22\u5b57 \u6f22", "x\u0323\u0301"]) == "\u6f22\u5b57\u0323\u0301"
    assert lacking(["5\u00a0mm\n"]) == ""


@given(st.text(max_size=40))
def test_whatever_is_not_shown_as_it_is_is_named(text: str) -> None:
    kept = unicodedata.normalize("NFC", text)
    if not lacking([text]) and not set(kept) & set("\u02bc\u02b9\u2010\u2011\u201b\u201f\u2300"):
        assert "".join(" " if letter.isspace() else letter for letter in kept) == printable(text)


@given(st.text(max_size=40))
def test_any_text_can_be_shown(text: str) -> None:
    shown = printable(text)
    assert set(shown) <= set(LETTERS)
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

"""Names in Czech, Greek and Cyrillic go through every file as they were given; what cannot be printed or is spelt otherwise is told.

What single strokes make of them is spelt here by hand.
"""

from __future__ import annotations

import io
import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import ezdxf.filemanagement
import pytest
from defusedxml import ElementTree

from bellowscut import forming, offering
from bellowscut.bellows import build
from bellowscut.form.build import build_form
from bellowscut.pipeline import Options, draft, files, spelling_lines
from bellowscut.profile import Profile, load
from bellowscut.workshop import NONE
from tests.readback.pdf_reader import text

CZECH, GREEK, CYRILLIC = (
    "\u017dlu\u0165ou\u010dk\u00fd k\u016f\u0148",
    "\u0391\u03b8\u03ae\u03bd\u03b1",
    "\u0411\u0430\u044f\u043d \u0429\u0451\u043b\u043a\u043e\u0432\u043e",
)
NAME = f"{CZECH}, {GREEK}, {CYRILLIC}"
PLAIN = {
    "\u017dlu\u0165ou\u010dk\u00fd": "Zlutoucky",
    "k\u016f\u0148": "kun",
    GREEK: "Athina",
    "\u0411\u0430\u044f\u043d": "Bayan",
    "\u0429\u0451\u043b\u043a\u043e\u0432\u043e": "Shchelkovo",
}
TOLD = ", ".join(f"{plain} for {word}" for word, plain in PLAIN.items())
SVG = "{http://www.w3.org/2000/svg}"


def named(name: str, customer: str = "") -> Profile:
    profile = load("single-fold-baby")
    return replace(profile, name=name, quote=replace(profile.quote, customer=customer))


@cache
def made() -> Mapping[str, bytes]:
    return files(draft(named(NAME)), Options())


@pytest.mark.parametrize("file", ["patterns.pdf", "worksheet.pdf", "pictures.pdf"])
def test_pages_bear_the_name_as_it_is(file: str) -> None:
    assert NAME in text(made()[file])


@pytest.mark.parametrize("file", [f"picture-{stem}.svg" for stem in ("bellows-open", "parts", "corner")])
def test_pictures_bear_it_as_text(file: str) -> None:
    root = ElementTree.fromstring(made()[file])
    assert NAME in str(root.findtext(f"{SVG}title"))


def test_drawings_for_machines_say_how_they_spell_it() -> None:
    root = ElementTree.fromstring(made()["patterns.svg"])
    assert TOLD in str(root.findtext(f"{SVG}desc"))
    assert NAME in {title.text for title in root.iter(f"{SVG}title")}
    said = dict(ezdxf.filemanagement.read(io.StringIO(made()["patterns.dxf"].decode())).header.custom_vars.properties)
    assert TOLD in " ".join(value for key, value in said.items() if key.startswith("lettering"))


def test_the_summary_says_so_where_there_is_a_drawing_for_machines() -> None:
    assert TOLD in " ".join(made()["summary.txt"].decode().split())
    drafted = draft(named(NAME))
    assert list(spelling_lines(drafted, Options(formats=("pdf",)))) == []
    assert list(spelling_lines(draft(named("Plain name")), Options())) == []


def test_letters_that_are_there_are_not_warned_of() -> None:
    assert "letters" not in {note.code for note in draft(named(NAME, GREEK)).notes}
    assert "letters" in {note.code for note in draft(named("\u697d\u5668")).notes}


def test_an_estimate_for_a_customer_says_what_cannot_be_printed() -> None:
    quoted = load("six-sided-treble")
    made = offering.quote(quoted, offering.Wanted(customer=f"{GREEK} \u697d"))
    warned = [line for kind, line in offering.lines(made) if kind == "warning"]
    assert re.search(r"lack \u697d \(U\+697D\)", " ".join(warned))
    page = text(offering.page(made, (210.0, 297.0)))
    assert f"For {GREEK} ?" in page
    clean = offering.quote(quoted, offering.Wanted(customer=GREEK), NONE)
    assert "U+" not in " ".join(line for kind, line in offering.lines(clean) if kind == "warning")


def test_a_form_says_what_cannot_be_printed() -> None:
    told = {}
    for name in (NAME, "\u697d"):
        bellows = build(named(name))
        told[name] = [line for kind, line in forming.lines(bellows, build_form(bellows)) if kind == "warning"]
    assert told[NAME] == []
    assert "U+697D" in " ".join(told["\u697d"])

"""The program in another language: one in which every text of ``bellowscut/words`` stands in angle quotes, and values outside them.

What a person then reads without quotes came from somewhere else: it must be a
name, a key, a unit or the name of a file.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from string import Formatter

import pytest
from click.testing import CliRunner

from bellowscut import words
from bellowscut.cli import main
from bellowscut.parts import KINDS
from bellowscut.profile import load
from tests.wording.catalogue import compiled, entries
from tests.wording.vocabulary import fields_of

PROFILE = "six-sided-uneven"

CORNERS = ("AB", "BC", "CD", "DE", "EF", "FA")

NO_WORDS = {"mm", "dm", "cm", "sq", "ft", "in", "bellowscut", "GBP"}
"""Units, the program's own name, and a currency: the same in every language."""


def in_quotes(text: str) -> str:
    """A text as the other language has it: ``cut {number} pieces`` is ``«cut »{number}« pieces»``."""
    if not fields_of(text):
        return f"«{text}»"
    made = ""
    for piece, name, *_ in Formatter().parse(text):
        plain = piece.replace("{", "{{").replace("}", "}}")
        made += f"«{plain}»" if re.search(r"[^\W\d_]", plain) else plain
        made += f"{{{name}}}" if name else ""
    return made


@pytest.fixture
def other_language(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The program as it speaks where the catalogue of the language ``xx`` is installed and asked for; an empty folder to work in."""
    catalogue = {
        (f"{one.text}\0{one.many}" if one.many else one.text): (
            f"{in_quotes(one.text)}\0{in_quotes(one.many)}" if one.many else in_quotes(one.text)
        )
        for one in entries()
    }
    folder = tmp_path / "locales" / "xx" / "LC_MESSAGES"
    folder.mkdir(parents=True)
    (folder / "bellowscut.mo").write_bytes(compiled(catalogue))
    monkeypatch.setattr(words, "LOCALES", tmp_path / "locales")
    monkeypatch.setenv("LANGUAGE", "xx")
    words._catalogue.cache_clear()
    bench = tmp_path / "bench"
    bench.mkdir()
    monkeypatch.chdir(bench)
    yield bench
    words._catalogue.cache_clear()


def run(*arguments: str) -> str:
    result = CliRunner().invoke(main, list(arguments), prog_name="bellowscut")
    assert result.exit_code == 0, result.output
    return result.output


def printed(path: Path) -> str:
    """All that stands on the pages of a PDF."""
    import pypdfium2

    with pypdfium2.PdfDocument(path) as document:
        return "\n".join(document[k].get_textpage().get_text_range() for k in range(len(document)))


def outside(text: str, known: set[str]) -> list[str]:
    """Runs of letters that stand outside the quotes, but for known ones and single letters."""
    bare = re.sub(r"«[^»]*»", " ", text)
    return [found for found in re.findall(r"[^\W\d_]{2,}", bare) if found not in known]


def known_of(folder: Path, *names: str) -> set[str]:
    """What may stand there in every language: names of the instrument, materials and parts, and files."""
    profile = load(PROFILE)
    told = [
        PROFILE,
        profile.name,
        profile.fingerprint,
        profile.quote.customer or "",
        *profile.materials,
        *KINDS,
        "gasket",  # known to --also beside the kinds of parts
        *CORNERS,
        *names,
        *(path.name for path in folder.rglob("*")),
    ]
    return NO_WORDS | {run for name in told for run in re.findall(r"[^\W\d_]{2,}", name)}


@pytest.mark.usefixtures("other_language")
def test_the_language_is_installed() -> None:
    assert words.say("{number} degrees", number=3) == "3« degrees»"
    assert words.count(1, "{number} fold", "{number} folds") == "1« fold»"
    assert words.count(2, "{number} fold", "{number} folds") == "2« folds»"
    assert words.say("nothing of ours") == "nothing of ours"


def test_a_check_is_said_in_it(other_language: Path) -> None:
    assert outside(run("check", PROFILE), known_of(other_language)) == []


def test_a_pattern_set_is_said_in_it(other_language: Path) -> None:
    told = run("make", PROFILE, "--format", "pdf", "--out", "set")
    parts = [part["id"] for part in json.loads((other_language / "set" / "summary.json").read_text())["parts"]]
    known = known_of(other_language, *parts)
    assert outside(told, known) == []
    assert outside((other_language / "set" / "summary.txt").read_text(), known) == []
    for name in ("worksheet", "pictures"):
        assert outside(printed(other_language / "set" / f"{name}.pdf"), known) == [], name


def test_a_layout_is_said_in_it(other_language: Path) -> None:
    told = run("layout", PROFILE, "--job", "regusset", "--seconds", "1", "--out", "laid")
    laid = json.loads((other_language / "laid" / "layout.json").read_text())
    parts = [place["part"] for stock in laid["stock"] for place in stock["placements"]] + [stock["id"] for stock in laid["stock"]]
    known = known_of(other_language, *parts)
    assert outside(told, known) == []
    assert outside((other_language / "laid" / "summary.txt").read_text(), known) == []
    assert outside(printed(other_language / "laid" / "layout.pdf"), known) == []


@pytest.mark.parametrize(
    ("text", "quoted"),
    [
        ("a plain one", "«a plain one»"),
        ("cut {number} of {all}", "«cut »{number}« of »{all}"),
        ("{mm} x {other}", "{mm}« x »{other}"),
    ],
)
def test_quotes_stand_round_words_and_not_round_values(text: str, quoted: str) -> None:
    assert in_quotes(text) == quoted


def test_what_is_not_translated_is_noticed() -> None:
    assert outside("«cut »3« of » grey card mm", {"mm"}) == ["grey", "card"]

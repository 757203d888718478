"""The words: the glossary has them all, the help agrees with it, and some words are not used."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from bellowscut.cli import main
from bellowscut.parts import KINDS
from bellowscut.schema import ALSO_SAID, kind_meant
from tests.docs.texts import FOR_USERS, PAGES, ROOT, named, prose, read, table

GLOSSARY = {row[0]: row[1] for row in table(read(ROOT / "docs" / "glossary.md"), "here")}

TRADE = {
    "section": "",
    "ridge": "peak",
    "valley": "trough",
    "gusset": "corner",
    "edge strip": "top run, top binding",
    "end strip": "end run",
    "hinge": "inner hinge",
    "facing": "bellows paper",
    "frame": "bellows frame",
    "skive": "pare",
    "form": "mould",
    "stretch": "opening",
    "relief": "corner allowance",
    "set-back": "set in",
    "turn": "tip turn",
}
"""The words that output uses, and what else is said for them: common practice, no source."""

IN_HELP = ("section", "ridge", "valley", "fold", "card", "gusset", "edge strip", "end strip", "stretch")
"""Words that the help explains."""

NOT_USED = re.compile(
    r"\b(TODO|FIXME|XXX|lorem|color|colors|gray|center|centers|centered|fiber|mold|meter|meters|millimeters?|aluminum|analyze|"
    r"powerful|seamless(ly)?|effortless(ly)?|revolutionary|cutting-edge|state-of-the-art|blazing|world-class|best-in-class|"
    r"Ltd|Inc|GmbH|LLC)\b|[®™©]|/tmp/|https?://(?!www\.w3\.org/2000/svg)",
    re.IGNORECASE,
)
"""Promises, American spellings, firms and their marks, leftovers, and links that leave the project."""


def test_the_glossary_has_the_words_of_the_trade() -> None:
    for word, other in TRADE.items():
        assert GLOSSARY.get(word) == other, word


def test_the_glossary_has_every_other_word_that_is_understood() -> None:
    others = ", ".join(GLOSSARY.values()) + ", "
    for alias in ALSO_SAID:
        words = alias.replace("_", " ")
        if words.startswith(("peak ", "trough ")):
            words = words.split()[0]
        assert f"{words.removesuffix('s')}, " in others or f" {words}, " in f" {others}" or words == "paper", alias


def test_every_other_word_for_a_part_is_taken_for_it() -> None:
    said = 0
    for word, others in GLOSSARY.items():
        kind = word.replace(" ", "-")
        for other in filter(None, others.split(", ")):
            if kind in (*KINDS, "gasket"):
                assert kind_meant(other) == kind_meant(other.title()) == kind, other
                said += 1
    assert said >= 9
    assert kind_meant("pleat") not in KINDS, "a fold is no part"


def test_the_glossary_has_every_kind_of_part() -> None:
    for kind in (*KINDS, "gasket"):
        assert kind.replace("-", " ") in GLOSSARY or kind == "card-run"
    assert "scored run" in GLOSSARY


def test_the_help_explains_the_same_words() -> None:
    told = CliRunner().invoke(main, ["--help"]).output.partition("The words:")[2].partition("PROFILE is")[0]
    short = read(ROOT / "README.md").partition("## The words")[2].partition("## ")[0]
    for word in IN_HELP:
        assert re.search(rf"\b{word}\b", told), f"{word} is not explained by --help"
        assert re.search(rf"\b{word}\b", short), f"{word} is not explained in the README"
        assert word in GLOSSARY


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_words_that_are_not_used(page: Path) -> None:
    found = NOT_USED.search(read(page))
    assert found is None, f"{named(page)}: {found[0] if found else ''}"


def test_a_word_that_is_not_used_is_noticed() -> None:
    assert all(NOT_USED.search(words) for words in ("a powerful tool", "the color", "see https://example.org", "Bellows Ltd", "Brand®"))
    assert not NOT_USED.search("the colour of the centre, incense")


@pytest.mark.parametrize("page", FOR_USERS, ids=named)
def test_lines_are_short_enough_to_read(page: Path) -> None:
    if "Made from the program" in read(page):
        return
    long = [line for line in prose(read(page)).splitlines() if len(line) > 150 and not line.startswith("|")]
    assert not long

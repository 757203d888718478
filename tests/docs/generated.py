"""Everything in the documentation that is made from the program, by path."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from pathlib import Path

from bellowscut.drawing import Page
from bellowscut.pages.cover import cover_pages
from bellowscut.pages.measuring_sheet import measuring_sheet_pages
from bellowscut.pages.sheets import sheet_pages
from bellowscut.pipeline import draft
from bellowscut.profile import load
from tests.docs import reference
from tests.docs.bellows_figure import bellows_page
from tests.docs.flat_figures import card_page, gusset_page, section_page
from tests.docs.folding_figures import stretch_page, strips_page
from tests.docs.measuring_figure import measuring_page, old_card_page
from tests.docs.page_svg import page_svg, pages_svg
from tests.test_architecture import LEVELS

ROOT = Path(__file__).parents[2]

DRAWINGS = "docs/drawings"

PAGES: Mapping[str, Callable[[], str]] = {
    "docs/profile.md": reference.profile_page,
    "docs/sources.md": reference.sources_page,
    "docs/commands.md": reference.commands_page,
}

FIGURES: Mapping[str, Callable[[], Page]] = {
    "bellows": bellows_page,
    "section": section_page,
    "card": card_page,
    "stretch": stretch_page,
    "gusset": gusset_page,
    "strips": strips_page,
    "measuring": measuring_page,
    "old-card": old_card_page,
}

MEASURING_SHEET = "measuring-sheet"
SHEETS = "sheets"
SHEETS_SCALE = 0.45
"""Size of the pictures of sheets over true size [-]."""


def generated() -> Mapping[str, bytes]:
    """What every generated file should hold, by its path from the top of the checkout."""
    found = {path: made() for path, made in PAGES.items()}
    found.update({f"{DRAWINGS}/{name}.svg": page_svg(made()) for name, made in FIGURES.items()})
    found[f"{DRAWINGS}/{SHEETS}.svg"] = _sheets()
    form = measuring_sheet_pages("regular")
    found[f"{DRAWINGS}/{MEASURING_SHEET}.svg"] = pages_svg(form, "The measuring sheet for six sides, at reduced size", SHEETS_SCALE)
    found["docs/quote.md"] = reference.quote_page((ROOT / "docs" / "quote.md").read_text(encoding="utf-8"))
    found["DEVELOPERS.md"] = with_levels((ROOT / "DEVELOPERS.md").read_text(encoding="utf-8"))
    return {path: text.encode() for path, text in found.items()}


def _sheets() -> str:
    """The first page and the first sheet of the usual set, as they are printed."""
    paper = (210.0, 297.0)
    pattern_set = draft(load("six-sided-treble"))
    bellows, parts, profile = pattern_set.bellows, pattern_set.parts, pattern_set.bellows.profile
    first = cover_pages(bellows, pattern_set.job, parts, pattern_set.notes, paper=paper)[0]
    sheet = sheet_pages(parts, paper=paper, name=profile.name, fingerprint=profile.fingerprint, gluing_distance=bellows.gluing_distance)[0]
    return pages_svg((first, sheet), "Two pages of a pattern set, at reduced size", SHEETS_SCALE)


def with_levels(text: str) -> str:
    """A text with the list of levels between its marks."""
    rows = "\n".join(["```text", *(", ".join(level) for level in LEVELS), "```"])
    return re.sub(r"(?<=<!-- levels: begin -->\n).*?(?=<!-- levels: end -->)", lambda _: rows + "\n", text, flags=re.DOTALL)

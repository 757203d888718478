"""Papers in the unit in which a bellows was measured, one number of decimals for one thing, one way to write a count."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from pathlib import Path

import pytest

from bellowscut import summary
from bellowscut.bench.sheet import work_sheet
from bellowscut.drawing import Label, Page
from bellowscut.labour import OPERATIONS
from bellowscut.lettering import wrapped
from bellowscut.pages.cover import cover_pages
from bellowscut.pages.papers import PAPERS
from bellowscut.pages.sheets import sheet_pages
from bellowscut.pages.work_sheet import work_sheet_pages
from bellowscut.pipeline import PatternSet, draft
from bellowscut.profile import Profile, as_toml, load, loads
from bellowscut.units import Rule, angle_told, in_inch_units

PACKAGE = Path(__file__).parents[2] / "bellowscut"

BOX = """
[section]
shape = "regular"
sides = 6
end_size = {size}
[bellows]
folds = 6
fold_depth = {depth}
old_closed_length = {closed}
[corner_patch]
[cover_gusset]
"""
INCHES = {"size": '"6 1/4 in"', "depth": '"15/16 in"', "closed": '"1 1/2 in"'}
MILLIMETRES = {"size": '"158.75 mm"', "depth": "23.8125", "closed": '"38.1 mm"'}
"""The same bellows, measured with one rule and with the other: 1 in is 25.4 mm exactly (international agreement, 1959)."""


def box(**sizes: str) -> Profile:
    return loads(BOX.format(**{**INCHES, **sizes}))


@cache
def drafted(job: str, unit: str = "in") -> PatternSet:
    return draft(box() if unit == "in" else box(**MILLIMETRES), job)


def words_of(pages: Iterable[Page]) -> str:
    return " ".join(item.text for page in pages for item in page.items if isinstance(item, Label))


def sheet(one: PatternSet) -> str:
    made = work_sheet(one.bellows, one.job, one.parts, one.estimate.steps, one.notes)
    return words_of(work_sheet_pages(made, paper=PAPERS["letter"]))


def cover(one: PatternSet) -> str:
    return words_of(cover_pages(one.bellows, one.job, one.parts, one.notes, paper=PAPERS["a4"]))


def told(one: PatternSet) -> str:
    return " ".join(" ".join(line for _, line in summary.lines(one.bellows, one.job, one.parts, one.estimate, one.notes)).split())


# which unit -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("sizes", "unit"),
    [
        ({}, "in"),
        (MILLIMETRES, "mm"),
        ({"depth": "24"}, "in"),
        ({"depth": "24", "closed": "38"}, "mm"),
        ({"size": "'6.25\"'", "closed": '"40 mm"'}, "in"),
    ],
)
def test_papers_go_by_what_most_was_measured_in(sizes: dict[str, str], unit: str) -> None:
    assert box(**sizes).units == unit


def test_as_many_in_either_are_millimetres() -> None:
    assert loads('[section]\nshape="regular"\nsides=6\nend_size="6 1/4 in"\n[bellows]\nfolds=6\nfold_depth="25 mm"\n').units == "mm"


def test_leather_and_laps_have_no_vote() -> None:
    """Skins are bought in square feet and gauged in ounces by people who measure in millimetres."""
    text = BOX.format(**MILLIMETRES) + '[gusset]\nlap = "1/4 in"\ntip_lap = "1/8 in"\nridge_turn = "1/16 in"\nframe_turn = "3/16 in"\n'
    assert loads(text).units == "mm"


def test_the_profile_may_say_it() -> None:
    assert loads('units = "mm"\n' + BOX.format(**INCHES)).units == "mm"
    assert loads('units = "in"\n' + BOX.format(**MILLIMETRES)).units == "in"


@pytest.mark.parametrize("only_given", [False, True])
def test_a_profile_that_is_written_out_keeps_its_unit(only_given: bool) -> None:
    for made in (box(), box(**MILLIMETRES), load("eight-sided-tenor")):
        assert loads(as_toml(made, only_given=only_given)).units == made.units


def test_units_change_no_pattern() -> None:
    assert box().fingerprint == box(**MILLIMETRES).fingerprint


# inches -----------------------------------------------------------------------


@pytest.mark.parametrize("job", OPERATIONS)
def test_a_work_sheet_in_inches_has_no_millimetres(job: str) -> None:
    """But for the bars, which are 100 mm long, and the distance of the frames, which is said in both."""
    text = sheet(drafted(job))
    rest = re.sub(r"100 mm both ways|that is \d+\.\d mm", "", text)
    assert re.findall(r"[^ ]* ?mm\b", rest) == []
    assert "All lengths in inches" in text
    assert "6 folds 15/16 in deep" in text


def test_what_was_measured_in_inches_is_read_back_as_it_was() -> None:
    text = sheet(drafted("rebellows"))
    assert "6 1/4 in across flats" in text
    assert "1 1/2" in text


def test_the_other_rule_says_the_same() -> None:
    """The gluing distance by hand: 14 cards of 15/16 in at 50 degrees are 255.38 mm, 10 3/64 in to the nearest 64th."""
    assert "frames 10 3/64 in apart" in sheet(drafted("regusset"))
    assert "that is 255.4 mm" in sheet(drafted("regusset"))
    assert "frames 255.4 mm apart" in sheet(drafted("regusset", "mm"))
    assert "that is about 10 3/64 in" in sheet(drafted("regusset", "mm"))


def test_first_page_and_summary_go_by_it_too() -> None:
    assert "6 folds 15/16 in deep" in cover(drafted("rebellows"))
    assert re.search(r"Fold depth 15/16 in 23\.8 mm", cover(drafted("rebellows")))
    assert "fold depth 15/16 in (23.8 mm)" in told(drafted("rebellows"))
    assert "fold depth 23.8 mm (15/16 in)" in told(drafted("rebellows", "mm"))


# decimals ---------------------------------------------------------------------


@pytest.mark.parametrize("job", OPERATIONS)
def test_one_thing_has_one_number_of_decimals(job: str) -> None:
    """Off the rule one, gauged two at the most: nobody reads 23.8125 mm."""
    one = drafted(job, "mm")
    for paper in (sheet(one), cover(one), told(one)):
        assert re.findall(r"\d+\.\d{3,}(?! in)", paper.replace(one.bellows.profile.fingerprint, "")) == []
        depths = set(re.findall(r"23\.8\d*", paper))
        assert depths <= {"23.8"}
        assert set(re.findall(r"158\.\d+", paper)) <= {"158.8"}
        glued = f"{one.bellows.gluing_distance:.1f}"
        assert set(re.findall(rf"\b{glued.partition('.')[0]}(?:\.\d+)?(?= mm)", paper)) <= {glued}


def test_the_rule_itself() -> None:
    """By hand: 268.116 mm is 10 35.6/64 in; 5 mm is 12.6/64; 0.6 mm is 0.0236 in."""
    mm, inch = Rule(), Rule(inches=True)
    assert [mm.length(268.116), mm.length(25), mm.fine(0.6), mm.fine(5), mm.fine(0.254), mm.bare(-0.01)] == [
        "268.1 mm",
        "25.0 mm",
        "0.6 mm",
        "5 mm",
        "0.25 mm",
        "0.0",
    ]
    assert [inch.length(268.116), inch.length(25.4), inch.fine(5), inch.fine(0.6)] == ["10 9/16 in", "1 in", "13/64 in", "0.024 in"]
    assert inch.both(23.8125) == "15/16 in (23.8 mm)"
    assert mm.both(158.75) == "158.8 mm (6 1/4 in)"
    assert (angle_told(50.0), angle_told(49.96), angle_told(61.25)) == ("50", "50", "61.2")
    assert [in_inch_units(text) for text in ('6 1/4"', "6.25in", "6 1/4 inches", "3 cm", "2 oz", "7")] == [
        True,
        True,
        True,
        False,
        False,
        False,
    ]


# counts -----------------------------------------------------------------------


def test_counts_with_spares_are_written_one_way() -> None:
    one = drafted("rebellows", "mm")
    sheets = words_of(sheet_pages(one.parts, paper=PAPERS["a4"], name="x", fingerprint="x"))
    for paper in (sheet(one), cover(one), told(one), sheets):
        assert "30 + 3" in paper
        assert "12 + 3" in paper
        assert not re.search(r"\d \(\+|and \d+ spare|\d\+\d", paper)


@pytest.mark.parametrize("width", range(6, 60, 3))
def test_no_line_ends_between_an_inch_and_its_fraction(width: int) -> None:
    text = "across flats A 6 7/32, B 6 9/64 and C 16 11/64 in, or 3 sides of 4"
    lines = wrapped(text, 3.0, float(width))
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    for number in ("6 7/32,", "6 9/64", "16 11/64"):
        if width > 16:
            assert sum(number in line for line in lines) == 1


def test_nor_does_a_line_of_the_summary() -> None:
    for first in range(60, 80):
        lines = [line for _, line in summary.folded("text", "x" * first + " 10 3/64 in and more")]
        assert sum("10 3/64" in line for line in lines) == 1


# one place ----------------------------------------------------------------------

PAPERS_THAT_ARE_READ = (
    *sorted((PACKAGE / "bench").glob("*.py")),
    *(PACKAGE / "pages" / f"{name}.py" for name in ("work_sheet", "work_step", "gluing_view", "cover", "figures_table", "section_view")),
    *(PACKAGE / "pages" / f"{name}.py" for name in ("layers_view", "sheet_advice", "trial_corner")),
    PACKAGE / "advice.py",
    PACKAGE / "form" / "words.py",
)
NO_LENGTHS = ("air_moved", "leather_share", "angle:", "right - left:.0f", "inward", "aside")
"""What is rounded to whole numbers there and is no length off a rule: volumes, shares, and how far a piece of wood is pushed."""


@pytest.mark.parametrize("path", PAPERS_THAT_ARE_READ, ids=lambda path: path.name)
def test_decimals_are_chosen_in_one_place(path: Path) -> None:
    """No length is given its decimals where it is said: only `bellowscut.units` does that."""
    found = re.findall(r"\{[^{}]*:[.\d]*[fg]\}|plain_number\([^)]*, \d\)", path.read_text(encoding="utf-8"))
    assert [one for one in found if not any(name in one for name in NO_LENGTHS)] == []

"""The work sheet read back from the PDF by another program: order, counts, minutes, distances, warnings."""

from __future__ import annotations

import math
import re
from functools import cache

import pypdfium2 as pdfium
import pytest

from bellowscut import advice
from bellowscut.bench.sheet import work_sheet
from bellowscut.export.pdf import write_pdf
from bellowscut.labour import OPERATIONS
from bellowscut.pages.papers import PAPERS
from bellowscut.pages.work_sheet import work_sheet_pages
from bellowscut.pipeline import PatternSet, draft
from bellowscut.profile import load
from tests.readback.pdf_reader import glyph_boxes, text

SEEN = ("six-sided-treble", "twelve-sided-deep", "single-fold-baby", "six-sided-uneven", "six-sided-shallow", "oblong-three-alike")
"""The usual one, the largest, the smallest, one with warnings, one with papers first, and one of several alike."""


@cache
def read(name: str, job: str, paper: str = "a4") -> tuple[PatternSet, str, bytes]:
    """A job, all text of its sheet in one line, and the file."""
    one = draft(load(name), job)
    pages = work_sheet_pages(work_sheet(one.bellows, job, one.parts, one.estimate.steps, one.notes), paper=PAPERS[paper])
    data = write_pdf(pages, title=one.bellows.profile.name)
    return one, " ".join(text(data, number) for number in range(len(pages))), data


EVERY = [(name, job) for name in SEEN for job in OPERATIONS]


def lines_of_steps(one: PatternSet, found: str) -> list[tuple[str, int, str, int]]:
    """Name, where it stands, day and minutes of each step, by its number and name."""
    rows = []
    for number in range(1, len(one.estimate.steps) + 1):
        names = "|".join(re.escape(step.operation.name) for step in one.estimate.steps)
        row = re.search(rf"(?<![\d.]){number} ({names}) (\d+(?:\u2013\d+)?) (\d+)\*? ", found)
        assert row is not None, number
        rows.append((row[1], row.start(), row[2], int(row[3])))
    return rows


@pytest.mark.parametrize(("name", "job"), EVERY)
def test_steps_stand_in_order_and_minutes_add_up(name: str, job: str) -> None:
    one, found, _ = read(name, job)
    rows = lines_of_steps(one, found)
    assert [row[1] for row in rows] == sorted(row[1] for row in rows)
    usual = [step.operation.name for step in one.estimate.steps]
    assert sorted(row[0] for row in rows) == sorted(usual)
    still = [row[0] for row in rows if row[0] not in ("facings", "ridge cloth")]
    assert still == [name for name in usual if name not in ("facings", "ridge cloth")]
    total = re.search(r"In all, (\d+) h (\d+) min (\d+)", found)
    assert total is not None
    assert sum(row[3] for row in rows) == int(total[3]) == 60 * int(total[1]) + int(total[2])
    assert abs(int(total[3]) - one.estimate.minutes) <= len(rows) / 2


@pytest.mark.parametrize(("name", "job"), EVERY)
def test_counts_are_those_of_the_parts(name: str, job: str) -> None:
    one, found, _ = read(name, job)
    ready = found[found.index("Lay ready") : found.index("Skive table")]
    for name_, kinds in (("edge strips", ("edge-strip",)), ("end strips", ("end-strip",)), ("cards", ("card",)), ("facings", ("facing",))):
        number = sum(part.count for part in one.parts if part.kind in kinds)
        assert (f" {name_} {number} " in ready) is (number > 0), name_
    for name_, kind in (("gussets", "gusset"), ("end gussets", "end-gusset"), ("half gussets", "half-gusset")):
        parts = [part for part in one.parts if part.kind == kind]
        if parts:
            assert f" {name_} {sum(part.count for part in parts)} + {sum(part.spare for part in parts)} " in ready


@pytest.mark.parametrize("name", SEEN)
@pytest.mark.parametrize("job", ["rebellows", "regusset", "cover"])
def test_the_gluing_distance_is_that_of_the_cards(name: str, job: str) -> None:
    """Cards down one side times their rise: depth times the sine of the card angle."""
    one, found, _ = read(name, job)
    spec = one.bellows.profile.bellows
    cards = 2 * (spec.folds + 1) if spec.ends == "ridge" else 2 * spec.folds
    wanted = f"{cards * spec.fold_depth * math.sin(math.radians(one.bellows.form_slope)):.1f}"
    assert f"frames {wanted} mm" in found
    assert f"three spacer sticks of {wanted} mm" in found
    assert f"rop the frames {wanted} mm apart" in found


@pytest.mark.parametrize(("job", "least", "most"), [("regusset", 4, 5), ("rebellows", 6, 9)])
def test_days_of_the_usual_jobs(job: str, least: int, most: int) -> None:
    """Elapsed: regusset 4 to 5 days, rebellows 6 to 9 (common practice, no source)."""
    one, found, _ = read("six-sided-treble", job)
    assert f"{least} to {most} days from first to last step" in found
    assert lines_of_steps(one, found)[-1][2] == f"{least}\u2013{most}"


@pytest.mark.parametrize(("name", "job"), EVERY)
def test_warnings_and_cautions_are_read_once(name: str, job: str) -> None:
    one, found, _ = read(name, job)
    for sentence in (
        *(note.text for note in one.notes),
        *(caution.text for caution in advice.cautions(job, machine=advice.has_machine(one.bellows))),
    ):
        assert found.count(sentence) == 1, sentence


def test_name_fingerprint_and_lines_to_fill_in() -> None:
    one, found, _ = read("six-sided-treble", "regusset")
    for words in (one.bellows.profile.name, f"fingerprint {one.bellows.profile.fingerprint}", "For", "Date", "Day 1 is", "took"):
        assert words in found
    three, found, _ = read("oblong-three-alike", "regusset")
    assert f"For {three.bellows.profile.quote.customer}" in found
    assert "3 alike: counts and minutes are for all 3" in found


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", ["twelve-sided-deep", "single-fold-baby"])
def test_no_ink_below_the_margin(name: str, paper: str) -> None:
    for job in OPERATIONS:
        _, _, data = read(name, job, paper)
        with pdfium.PdfDocument(data) as document:
            count = len(document)
        assert 2 <= count <= 4
        for number in range(count):
            boxes = glyph_boxes(data, number)
            assert min(box[1] for box in boxes) > 10.0
            assert max(box[2] for box in boxes) < PAPERS[paper][0] - 10.0

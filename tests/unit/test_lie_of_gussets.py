"""Which way a gusset lies on its skin: arrow, layout, work sheet and documentation say one thing.

The way is found from the gusset itself: its width is measured along the valley, so its crease shows where the width runs.
"""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from bellowscut.advice import warnings
from bellowscut.bench.sheet import work_sheet
from bellowscut.drawing import Label, Line, Role
from bellowscut.labour import COVERS, GUSSETS
from bellowscut.nesting.model import AnyTurn
from bellowscut.pages.papers import PAPERS
from bellowscut.pages.sheets import sheet_pages
from bellowscut.parts import Part
from bellowscut.pipeline import draft
from bellowscut.profile import load
from bellowscut.schema import GussetSpec
from bellowscut.stock.orders import Wanted, shape
from tests.docs.texts import FOR_USERS, named, prose, read

JOBS = {"regusset": GUSSETS, "rebellows": GUSSETS, "cover": COVERS}


def gussets(job: str) -> tuple[Part, ...]:
    return tuple(part for part in draft(load("six-sided-treble"), job).parts if part.kind in JOBS[job])


def across(part: Part) -> float:
    """Direction of the width [deg]: that of the valley's crease, 0 to 180."""
    (valley,) = (line.points for line in part.lines if line.role is Role.CREASE)
    (x0, y0), (x1, y1) = valley[0], valley[-1]
    return math.degrees(math.atan2(y1 - y0, x1 - x0)) % 180


def off(a: float, b: float) -> float:
    """Between two directions [deg], whichever way round they are read."""
    return abs((a - b + 90) % 180 - 90)


@pytest.mark.parametrize("job", JOBS)
def test_the_width_runs_along_the_backbone(job: str) -> None:
    for part in gussets(job):
        assert off(across(part), part.grain) < 0.01
        assert part.along == "width"
        # The engine lays every piece on stock whose backbone runs along x.
        turns = shape(Wanted(part, "", 1, 10.0)).turns
        assert isinstance(turns, AnyTurn)
        assert off(across(part) + turns.centre, 0.0) < 0.01


def test_the_arrow_on_the_sheets_runs_along_the_width() -> None:
    parts = [part for part in gussets("regusset") if part.kind == "gusset"]
    pages = sheet_pages(parts, paper=PAPERS["a4"], name="x", fingerprint="x")
    (page,) = (page for page in pages if any(isinstance(item, Line) for item in page.items))
    (valley,) = (item.points for item in page.items if isinstance(item, Line) and item.role is Role.CREASE)
    (words,) = (item for item in page.items if isinstance(item, Label) and "stretch" in item.text)
    assert off(words.angle, math.degrees(math.atan2(valley[-1][1] - valley[0][1], valley[-1][0] - valley[0][0]))) < 0.01


@pytest.mark.parametrize("job", JOBS)
def test_the_work_sheet_says_so(job: str) -> None:
    one = draft(load("six-sided-treble"), job)
    sheet = work_sheet(one.bellows, job, one.parts, one.estimate.steps, warnings(one.bellows, job))
    text = " ".join(told.text for step in sheet.steps for told in step.told)
    assert f"their {gussets(job)[0].along} along the backbone" in text
    assert "their long way" not in text


SENTENCE = re.compile(r"[^.:;]+")
WAY = re.compile(r"\b(width|long way|length|lengthways|lengthwise)\b")


@pytest.mark.parametrize("page", FOR_USERS, ids=named)
def test_the_documentation_says_so(page: Path) -> None:
    """Whatever is said to lie along the backbone or the arrow is a strip's long way or a gusset's width."""
    for sentence in SENTENCE.findall(" ".join(prose(read(page)).split())):
        if re.search(r"\b(backbone|arrow)\b", sentence) and not re.search(r"[Ss]trip|Measure|fold depth|`backbone`", sentence):
            assert set(WAY.findall(sentence)) <= {gussets("regusset")[0].along}, sentence


def test_the_two_pages_that_lay_gussets_say_it() -> None:
    way = gussets("regusset")[0].along
    told = {named(page): " ".join(read(page).split()) for page in FOR_USERS}
    assert f"their {way} along the backbone" in told["docs/first-job.md"]
    assert f"Gussets lie with their {way} along it" in told["docs/layout.md"]
    assert f"a gusset's {way} along the backbone" in told["docs/leather.md"]
    assert f"degrees off it, {GussetSpec().off_grain:g} by default" in told["docs/leather.md"]

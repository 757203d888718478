"""The measuring sheet as others read it: what `new` asks in its order and words, every key, room to write, and a true bar."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

import numpy as np
import pypdfium2 as pdfium
import pytest
from pypdfium2 import raw

from bellowscut.ask import ask
from bellowscut.bellows import build
from bellowscut.errors import UsageError
from bellowscut.export.pdf import write_pdf
from bellowscut.pages.measuring_sheet import measuring_sheet_pages
from bellowscut.pages.papers import paper
from bellowscut.parts import JOBS
from bellowscut.profile import loads
from tests.readback.overlaps import faults
from tests.readback.pdf_reader import MM, glyph_boxes, paths, rendered, text

USUAL = ("a4", "a3", "letter")
SIDES = range(3, 17)
SHEETS = [*(("regular", sides) for sides in SIDES), ("rectangle", 4), *(("measured", sides) for sides in SIDES)]

FINER = {
    "bellows.old_closed_length": "41",
    "bellows.reed_clearance": "98",
}
"""Finer keys that are measured at the instrument: what bench work asks for beside the ordinary questions."""

COMMON = {
    "instrument called": "Measured box",
    "Measured on?": "frame-covered",
    "How many folds": "5",
    "Count the cards": "10",
    "How deep": "22",
    "Thickness of the card": "1.3",
    "Thickness of the gusset": "0.45",
    "Thickness of the strip": "0.65",
    "Gusset: how wide": "5.5",
    "Edge strip: how far": "7.5",
    "End strip: how far down": "8.5",
    "End strip: how far up": "12",
}

OLD_CARD = {
    "Ridge edge of an old card": "92.5, 93",
    "Valley edge of the same": "62",
    "glue shadow": "5.5",
    "One old gusset": "27, 61",
}
"""What is read off cards that stay; 22 mm deep, six sides."""

CASES: tuple[tuple[str, int, Mapping[str, str]], ...] = (
    ("regular", 6, {"How many sides": "6", "Measured across": "across-corners", "first (right-hand)": "190", "Stretch": "150 mm"}),
    ("regular", 6, {"What is to be done": "regusset", "first (right-hand)": "165", **OLD_CARD}),
    ("regular", 6, {"What is to be done": "cover", "first (right-hand)": "165", **OLD_CARD}),
    ("regular", 6, {"What is to be done": "patches"}),
    ("regular", 5, {"How many sides": "5", "Length of one side": "95", "Stretch": "48"}),
    ("regular", 8, {"How many sides": "8", "first (right-hand)": "190", "other end different": "yes", "The same of": "191"}),
    ("rectangle", 4, {"Shape": "rectangle", "Width of the first": "240", "Height of the first": "130"}),
    ("rectangle", 4, {"Shape": "rectangle", "other end different": "y", "Width of the other": "251", "Height of the other": "121"}),
    ("measured", 6, {"Shape": "measured", "across each pair": "158, 159, 158", "other end different": "y", "The same of": "159, 160, 159"}),
    ("measured", 6, {"Shape": "measured", "Measured by": "side_lengths", "each side": "91, 92, 91, 92, 91, 92"}),
    (
        "measured",
        3,
        {
            "Shape": "measured",
            "Measured by": "corners",
            "corner points": "0,0; 250,0; 125,220",
            "other end": "y",
            "The same of": "0,0; 250,0; 125,221",
        },
    ),
)


class Bench:
    """Somebody who answers what is asked, and remembers the questions."""

    def __init__(self, answers: Mapping[str, str]) -> None:
        self.answers = dict(answers)
        self.asked: list[str] = []

    def read(self, prompt: str) -> str:
        self.asked.append(re.sub(r" \[.*\] $", "", prompt))
        found = next((words for words in self.answers if words in prompt), None)
        return self.answers.pop(found) if found else ""


def questioned(folder: Path, answers: Mapping[str, str]) -> tuple[list[str], set[str]]:
    """The measured questions in the order in which `new` asks them, and the keys that it then writes."""
    bench = Bench({**answers, **COMMON, "Change the finer": "yes", **FINER})
    path = ask(lambda _: None, bench.read, folder / "box.toml")
    assert not bench.answers, bench.answers
    last = next(k for k, prompt in enumerate(bench.asked) if "finer sizes" in prompt)
    later = [prompt.partition(": ")[2] for name in FINER for prompt in bench.asked if prompt.startswith(f"{name}: ")]
    assert len(later) == len(FINER)
    return [*bench.asked[: last + 1], *later], set(keys(tomllib.loads(path.read_text(encoding="utf-8"))))


def keys(table: Mapping[str, object], before: str = "") -> Iterator[str]:
    """Every key of a file in full, as the file would write it."""
    for name, value in table.items():
        full = before + (f'"{name}"' if " " in name else name)
        if isinstance(value, dict):
            yield from keys(value, f"{full}.")
        else:
            yield full


@cache
def sheet(section: str, sides: int, size: str = "a4") -> bytes:
    return write_pdf(measuring_sheet_pages(section, sides=None if section == "rectangle" else sides, paper=paper(size)), title="Sheet")


def pages(data: bytes) -> int:
    document = pdfium.PdfDocument(data)
    number = len(document)
    document.close()
    return number


def words(data: bytes) -> str:
    return " ".join(text(data, page) for page in range(pages(data)))


@pytest.mark.parametrize(("section", "sides", "answers"), CASES, ids=[f"{row[0]}-{row[1]}-{k}" for k, row in enumerate(CASES)])
@pytest.mark.parametrize("size", ["a4", "a5"])
def test_the_sheet_asks_what_new_asks_in_its_order(tmp_path: Path, size: str, section: str, sides: int, answers: Mapping[str, str]) -> None:
    """In words read back by another program, each question after the one before it."""
    asked, _ = questioned(tmp_path, answers)
    shown = words(sheet(section, sides, size))
    at = 0
    for question in asked:
        found = shown.find(question, at)
        assert found >= 0, f"{question!r} does not stand after {shown[max(0, at - 60) : at]!r}"
        at = found + len(question)


@pytest.mark.parametrize(("section", "sides", "answers"), CASES, ids=[f"{row[0]}-{row[1]}-{k}" for k, row in enumerate(CASES)])
def test_every_key_that_new_writes_is_on_the_sheet(tmp_path: Path, section: str, sides: int, answers: Mapping[str, str]) -> None:
    """By the file that `new` wrote, whatever it was asked; two ends that differ are written as a measured section."""
    _, written = questioned(tmp_path, answers)
    wanted = {key for key in written if key != "format"}
    if "other end different" in answers and section != "measured":
        wanted -= {"section.flats", "section.corners"}
    shown = words(sheet(section, sides))
    assert [key for key in sorted(wanted) if key not in shown] == []
    assert wanted >= {"name", "section.measured_on", "bellows.folds", 'materials."gusset skin".thickness', *FINER}
    kept = {"gusset.use", "readings.ridge_edge", "readings.valley_edge", "readings.glue_shadow"}
    assert kept & wanted == (kept if "Ridge edge of an old card" in answers else set())
    assert "--job" in shown


def test_the_job_is_the_first_question() -> None:
    shown = words(sheet("regular", 6))
    assert shown.index("What is to be done?") < shown.index("What is the instrument called?")
    assert re.search(r"1\s+What is to be done\?", shown)
    for job in JOBS:
        assert job in shown


def test_a_rule_lies_on_both_fold_lines_of_the_old_card() -> None:
    """As drawn, read back: two rules whose tick at nought stands where the leg runs on to the fold line, square to it."""
    data = sheet("regular", 6)
    # The two dashed fold lines of the card, and the rules' long edges a little off them.
    level = [run for path in paths(data, 1) for run in path.runs if len(run) == 2 and abs(run[0][1] - run[1][1]) < 1e-3]
    rules = [np.array(path.runs[0]) for path in paths(data, 1) if path.closed and len(path.runs[0]) in (4, 5)]
    boxes = [(box.min(axis=0), box.max(axis=0)) for box in rules if 4.0 < np.ptp(box, axis=0)[1] < 4.4 and np.ptp(box, axis=0)[0] > 20]
    assert len(boxes) == 2
    for low, high in boxes:
        beside = [run for run in level if min(abs(run[0][1] - low[1]), abs(run[0][1] - high[1])) < 1.3 and abs(run[0][0] - run[1][0]) > 25]
        assert beside


def test_the_sheet_has_what_new_cannot_ask() -> None:
    shown = words(sheet("regular", 6))
    for said in (
        "Customer",
        "Date",
        "side A",
        "arsenic",
        "ends at a valley",
        "in five places",
        "lace",
        "quote.other_work",
        "look in from here",
    ):
        assert said in shown
    assert all(f"page {k} of 2" in shown for k in (1, 2))


@pytest.mark.parametrize("ends", ["ridge", "valley"])
@pytest.mark.parametrize("folds", [1, 6])
def test_the_sum_on_the_sheet_gives_the_cards_of_the_bellows(folds: int, ends: str) -> None:
    """The sum is read off the print and worked out; the cards are counted in the geometry."""
    shown = words(sheet("regular", 6))
    found = re.search(rf"(2 x [^=]*) = ends at a {ends}", shown)
    assert found is not None
    cards = eval(found[1].replace("x", "*"), {}, {"ridges": folds})
    made = build(
        loads(f'section = {{shape="regular", sides=6, end_size=158.75}}\nbellows = {{folds={folds}, fold_depth=25, ends="{ends}"}}')
    )
    assert cards == made.cards_per_side


@pytest.mark.parametrize("size", USUAL)
@pytest.mark.parametrize(("section", "sides"), SHEETS)
def test_two_or_three_pages_without_a_fault(size: str, section: str, sides: int) -> None:
    data = sheet(section, sides, size)
    assert pages(data) <= (2 if size != "letter" and section != "measured" else 3)
    assert [fault for page in range(pages(data)) for fault in faults(data, page)] == []


@pytest.mark.parametrize(("section", "sides"), [("regular", 64), ("measured", 64), ("measured", 27), ("measured", 6), ("rectangle", 4)])
@pytest.mark.parametrize("size", ["a5", "210x148", "a4"])
def test_small_paper_and_many_sides_take_more_pages_and_lose_nothing(size: str, section: str, sides: int) -> None:
    data = sheet(section, sides, size)
    for page in range(pages(data)):
        assert faults(data, page) == []
    if section == "measured":
        shown = words(data)
        corners = {3: "AB BC CA", 6: "AB BC CD DE EF FA", 27: "AB YZ Z-AA AA-A", 64: "AB AZ-BA BK-BL BL-A"}[sides]
        assert all(corner in shown for corner in corners.split())


def level_lines(data: bytes, page: int) -> list[tuple[float, float, float]]:
    """Lines to write on: height, start and end [mm]; single level strokes of ink, long enough for a figure."""
    found = []
    for path in paths(data, page):
        for run in path.runs:
            if len(run) == 2 and not path.closed and abs(run[0][1] - run[1][1]) < 1e-3 and 0.2 < path.weight < 0.3:
                (x, y), (end, _) = sorted(run)
                if end - x > 12:
                    found.append((y, x, end))
    return found


@pytest.mark.parametrize("size", USUAL)
@pytest.mark.parametrize(("section", "sides"), [("regular", 6), ("rectangle", 4), ("measured", 5), ("measured", 16)])
def test_there_is_room_to_write(size: str, section: str, sides: int) -> None:
    """Eight millimetres from line to line, and letters that are read without glasses held out."""
    data = sheet(section, sides, size)
    number = 0
    for page in range(pages(data)):
        lines = sorted(level_lines(data, page), reverse=True)
        number += len(lines)
        for k, (y, start, end) in enumerate(lines):
            under = [other[0] for other in lines[k + 1 :] if other[0] < y - 0.01 and other[1] < end and other[2] > start]
            assert not under or y - max(under) >= 7.999
        document = pdfium.PdfDocument(data)
        letters = document[page].get_textpage()
        own = [k for k in range(letters.count_chars()) if not raw.FPDFText_IsGenerated(letters.raw, k)]
        sizes = [raw.FPDFText_GetFontSize(letters.raw, k) * MM for k in own]
        document.close()
        assert min(sizes) >= 2.399
    assert number > 15


@pytest.mark.parametrize("sides", [5, 16])
def test_cells_of_the_tables_are_high_enough(sides: int) -> None:
    data = sheet("measured", sides, "letter")
    cells = []
    for page in range(pages(data)):
        for path in paths(data, page):
            if path.closed and path.weight < 0.15 and len(path.runs[0]) in (4, 5):
                box = np.array(path.runs[0])
                wide, tall = np.ptp(box, axis=0)
                if 12 < wide < 30 and 7 < tall < 15:
                    cells.append(tall)
    # Two ends by two ways for each side, and five readings with what is taken of three materials.
    assert len(cells) >= 4 * sides + 18
    assert min(cells) >= 7.999


@pytest.mark.parametrize("size", [*USUAL, "a5", "a2"])
def test_the_bar_is_100_mm_when_rendered(size: str) -> None:
    """The bar is never grown with the form: from its own first line to the tick at 100."""
    data = sheet("regular", 6, size)
    grown = max(1.0, min(side / usual for side, usual in zip(paper(size), (210.0, 297.0), strict=True)))
    x, y = 12.0 * grown + 4.0, 12.0 * grown + 5.6
    picture = rendered(data, pages(data) - 1, 300.0)
    start = picture.dark_in_row(y - 1.8, x - 0.6, x + 0.6)
    end = picture.dark_in_row(y + 2.0, x + 99.4, x + 100.6)
    assert end - start == pytest.approx(100.0, abs=0.02)


@pytest.mark.parametrize("size", USUAL)
def test_pages_have_the_size_of_the_paper_and_nothing_leaves_the_margin(size: str) -> None:
    data = sheet("measured", 16, size)
    wide, tall = paper(size)
    for page in range(pages(data)):
        document = pdfium.PdfDocument(data)
        found = tuple(side * MM for side in document[page].get_size())
        document.close()
        assert found == pytest.approx((wide, tall), abs=0.01)
        boxes = np.array(glyph_boxes(data, page))
        points = np.array([point for path in paths(data, page) for run in path.runs for point in run])
        reach = np.vstack([boxes[:, :2], boxes[:, 2:], points])
        assert reach.min() > 9.5
        assert reach[:, 0].max() < wide - 9.5
        assert reach[:, 1].max() < tall - 9.5


def test_the_same_sheet_is_the_same_bytes() -> None:
    once, again = (write_pdf(measuring_sheet_pages("measured", sides=7), title="Sheet") for _ in range(2))
    assert once == again


@pytest.mark.parametrize(
    ("section", "sides", "told"),
    [
        ("regular", 2, "from 3 to 64"),
        ("measured", 65, "from 3 to 64"),
        ("rectangle", 6, "four sides"),
        ("round", None, "regular, rectangle"),
    ],
)
def test_what_is_no_sheet_is_refused(section: str, sides: int | None, told: str) -> None:
    with pytest.raises(UsageError, match=told):
        measuring_sheet_pages(section, sides=sides)

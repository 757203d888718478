"""The files of a form, read back by readers that did not write them."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

from bellowscut.bellows import build
from bellowscut.drawing import Stroke
from bellowscut.export.pdf import write_pdf
from bellowscut.form.build import build_form
from bellowscut.form.words import apart, together
from bellowscut.forming import FormOptions, files
from bellowscut.pages.form_pages import form_pages
from bellowscut.pages.form_view import form_picture
from bellowscut.profile import load, shipped
from bellowscut.shapes import bounds
from tests.readback.drawings import read_dxf, read_svg
from tests.readback.overlaps import faults
from tests.readback.pdf_reader import text

A4, LETTER = (210.0, 297.0), (215.9, 279.4)


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["a4", "letter"])
@pytest.mark.parametrize("name", shipped())
def test_no_letter_is_touched_and_every_step_is_told(name: str, paper: tuple[float, float]) -> None:
    profile = replace(load(name), name="An instrument with a name of no less than sixty characters, as")
    bellows = build(profile)
    form = build_form(bellows)
    pages = form_pages(bellows, form, paper=paper)
    data = write_pdf(pages, title="form", subject="form")
    told = " ".join(" ".join(text(data, page).split()) for page in range(len(pages)))
    for page in range(len(pages)):
        assert faults(data, page) == []
    for sentence in (*together(form), *(step for _, step in apart(form))):
        assert sentence in told
    for part in form.parts:
        assert f"{part.count}" in told
    others = len(form.segments) - 1
    for label in (
        "1 right-hand end plate",
        "2 core",
        "3 left-hand end plate",
        f"4 key segment, side {form.key}",
        f"5 to {4 + others} the other",
    ):
        assert told.count(label) == 1


def test_the_picture_keeps_to_its_box() -> None:
    for name in shipped():
        box = (10.0, 20.0, 200.0, 116.0)
        form = build_form(build(load(name)))
        drawn = form_picture(form, box)
        points = [point for item in drawn if isinstance(item, Stroke) for point in item.points]
        left, low, right, high = bounds(points)
        assert left >= box[0] - 0.7
        assert right <= box[2] + 0.7
        assert low >= box[1]
        assert high <= box[3]
        # All of the room in one direction is used: the largest and the smallest form are drawn as large as may be.
        assert right - left > 0.98 * (box[2] - box[0]) or high - low > 0.9 * (box[3] - box[1])


@pytest.mark.parametrize("name", ["six-sided-treble", "twelve-sided-deep", "oblong-three-alike"])
def test_every_piece_stands_in_svg_and_dxf_once_at_true_size(name: str, tmp_path: Path) -> None:
    bellows = build(load(name))
    form = build_form(bellows)
    found = files(bellows, form, FormOptions(formats=("svg", "dxf")))
    sizes = sorted(
        (round(right - left, 2), round(high - low, 2))
        for part in form.parts
        for left, low, right, high in (one.bounds() for one in (part.outline, *part.holes))
    )
    for read in (list(read_svg(found["form.svg"], tmp_path)), read_dxf(found["form.dxf"], tmp_path)):
        # In the SVG of a machine each group is one run of work and is called after it, not after a part.
        cut = [line for line in read if line.layer == "CUT" or line.part.endswith("cut")]
        assert all(line.closed for line in cut)
        shown = sorted((round(line.size[0], 2), round(line.size[1], 2)) for line in cut)
        assert len(shown) == len(sizes)
        for (wide, high), (asked_wide, asked_high) in zip(shown, sizes, strict=True):
            assert (wide, high) == pytest.approx((asked_wide, asked_high), abs=0.02)


def test_a_laser_leaves_room_for_its_kerf(tmp_path: Path) -> None:
    """Outlines grow by the kerf, slots shrink by it: half on either side, so that the wood is as wide as drawn."""
    bellows = build(load("six-sided-treble"))
    form = build_form(bellows)
    kerf = bellows.profile.cutter.kerf
    by_hand, by_laser = (
        [line for line in read_dxf(files(bellows, form, FormOptions(("dxf",), cutter))[name], tmp_path) if line.layer == "CUT"]
        for cutter, name in (("hand", "form.dxf"), ("laser", f"form-kerf-{kerf:g}mm.dxf"))
    )
    wide = {cutter: max(line.size[0] for line in lines) for cutter, lines in (("hand", by_hand), ("laser", by_laser))}
    slot = {cutter: min(min(line.size) for line in lines) for cutter, lines in (("hand", by_hand), ("laser", by_laser))}
    assert wide["laser"] - wide["hand"] == pytest.approx(kerf, abs=0.01)
    assert slot["hand"] - slot["laser"] == pytest.approx(kerf, abs=0.01)


def test_the_summary_tells_the_order() -> None:
    bellows = build(load("six-sided-treble"))
    form = build_form(bellows)
    found = files(bellows, form, FormOptions())
    assert set(found) == {"form.pdf", "form.svg", "form.dxf", "summary.txt", "summary.json"}
    document = json.loads(found["summary.json"])
    assert [step["piece"] for step in document["form"]["removal"]] == ["end", "core", "end", "A", "B", "C", "D", "E", "F"]
    assert document["form"]["pitch"] == pytest.approx(bellows.valley_pitch, abs=1e-4)
    words = " ".join(found["summary.txt"].decode().split())
    assert "Segment A is the key" in words
    assert "never leave a laser alone" in words


@pytest.mark.parametrize("name", ["six-sided-treble", "single-fold-baby", "twelve-sided-deep"])
def test_the_core_leaves_where_it_has_room(name: str) -> None:
    """No core goes through a hole that is narrower than itself: it leaves where a plate is off, and a stick comes through the hole."""
    form = build_form(build(load(name)))
    hole = next(part for part in form.parts if part.kind == "form-end").holes[-1]
    left, low, right, high = hole.bounds()
    x, y = zip(*form.core, strict=True)
    assert right - left == pytest.approx(high - low, abs=0.02)
    assert right - left < min(max(x) - min(x), max(y) - min(y))
    first, core, second = (text for step, text in apart(form) if step in "123")
    assert "right-hand end plate off" in first
    assert "at its open right-hand end" in core
    assert f"a stick through the {right - left:.0f} mm hole in the left-hand end plate" in core
    assert "left-hand end plate off" in second


def test_ply_has_a_grain_and_no_stretch() -> None:
    bellows = build(load("six-sided-treble"))
    data = files(bellows, build_form(bellows), FormOptions(formats=("pdf",)))["form.pdf"]
    told = [text(data, page) for page in range(2, len(PdfDocument(data)))]
    assert any("grain" in page for page in told)
    assert not [page for page in told if "least stretch" in page]


def test_a_segment_that_slips_is_told_where_to() -> None:
    """In the toy, B leaves after A and slips towards the place that A has left empty."""
    form = build_form(build(load("three-sided-toy")))
    assert [step for step, _ in apart(form)] == ["1", "2", "3", "4", "5", "6"]
    assert [text for _, text in apart(form) if "towards side" in text] == [dict(apart(form))["5"]]
    assert "towards side A" in dict(apart(form))["5"]

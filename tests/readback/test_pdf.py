"""The PDF as other programs read it: true to size, complete, and the same on every run."""

from __future__ import annotations

import io
import itertools
import os
import subprocess
import sys
from functools import cache
from pathlib import Path

import pikepdf
import pytest
from shapely.geometry import LinearRing, LineString

from bellowscut.bellows import build
from bellowscut.drawing import Drawn, Item, Label, Line, Page, Pen, Role, Stroke, Tint, Window
from bellowscut.export.pdf import INK, PEN_STYLES, ROLE_STYLES, TINTS, write_pdf
from bellowscut.lettering import text_width
from bellowscut.pages.furniture import CORNER
from bellowscut.pages.papers import PAPERS, paper
from bellowscut.pages.sheets import sheet_pages
from bellowscut.pages.single_sheet import single_sheet_pages
from bellowscut.parts import make_parts
from bellowscut.profile import load
from bellowscut.shapes import Outline, Point, rectangle, rounded
from tests.readback.pdf_reader import glyph_boxes, paths, rendered, text

ROOT = Path(__file__).parents[2]


@cache
def treble(size: str = "a4") -> tuple[tuple[Page, ...], bytes]:
    profile = load("six-sided-treble")
    pages = sheet_pages(make_parts(build(profile)), paper=paper(size), name=profile.name, fingerprint=profile.fingerprint)
    return pages, write_pdf(pages, title=profile.name, subject="Cutting patterns")


def one_page(*items: Item, size: tuple[float, float] = (100.0, 80.0)) -> bytes:
    return write_pdf([Page(*size, "One", items)], title="One")


def colour(written: str) -> tuple[int, ...]:
    return tuple(bytes.fromhex(written))


def ring(outline: Outline) -> LinearRing:
    return LinearRing(outline.flattened(0.0005))


def test_outlines_read_back_lie_on_the_geometry() -> None:
    pages, data = treble()
    for number, page in enumerate(pages):
        cuts = [path for path in paths(data, number) if path.colour == colour(INK) and path.closed and path.weight > 0.35]
        rings = [LinearRing(path.runs[0]) for path in cuts]
        for drawn in page.items:
            if isinstance(drawn, Drawn):
                for outline in drawn.outlines:
                    wanted = ring(outline)
                    assert min(found.hausdorff_distance(wanted) for found in rings) < 0.002, drawn.part


@pytest.mark.parametrize("radius", [0.5, 3.0, 30.0, 400.0])
def test_arcs_are_true(radius: float) -> None:
    """Each point of the curve, at its distance from the centre."""
    circle = Outline(((500 + radius, 500), (500 - radius, 500)), (1.0, 1.0))
    (path,) = paths(one_page(Drawn("hole", (circle,)), size=(1000.0, 1000.0)))
    for x, y in path.runs[0]:
        assert abs(((x - 500) ** 2 + (y - 500) ** 2) ** 0.5 - radius) < 0.002


def test_arcs_that_bend_inwards_are_true_too() -> None:
    outline = Outline(((10, 10), (60, 10), (60, 50), (10, 50)), (0.3, -0.2, 0.0, 0.1))
    (path,) = paths(one_page(Drawn("odd", (outline,))))
    assert LinearRing(path.runs[0]).hausdorff_distance(ring(outline)) < 0.002


@pytest.mark.parametrize("margin", [3.0, 6.35, 25.0])
def test_the_bars_follow_the_margin_and_stay_true(margin: float) -> None:
    """Corner line and last ticks, found on the rendered page where the margin says that they are."""
    profile = load("six-sided-treble")
    pages = sheet_pages(make_parts(build(profile)), paper=paper("a4"), name=profile.name, fingerprint=profile.fingerprint, margin=margin)
    picture = rendered(write_pdf(pages, title=profile.name))
    x = y = margin + 7.0
    start, end = picture.dark_in_row(y - 1.8, x - 0.6, x + 0.6), picture.dark_in_row(y + 2.0, x + 99.4, x + 100.6)
    assert start == pytest.approx(x, abs=0.05)
    assert end - start == pytest.approx(100.0, abs=0.02)
    start, end = picture.dark_in_column(x - 1.8, y - 0.6, y + 0.6), picture.dark_in_column(x + 2.0, y + 99.4, y + 100.6)
    assert start == pytest.approx(y, abs=0.05)
    assert end - start == pytest.approx(100.0, abs=0.02)


@pytest.mark.parametrize("size", ["a4", "letter", "a5", "320x450", "a2"])
def test_the_bars_measure_true_on_a_rendered_page(size: str) -> None:
    """At 300 dots an inch, on the ticks alone, clear of the filled blocks; 0.02 mm is a quarter of a dot."""
    _, data = treble(size)
    picture = rendered(data)
    x, y = CORNER
    for inner, outer in (((0.0, 100.0), None), (None, (0.0, 101.6))):
        first, last = inner or outer or (0.0, 0.0)
        across = 2.0 if inner else -1.8
        level = [picture.dark_in_row(y + across, x + at - 0.6, x + at + 0.6) for at in (first + 10.0 * bool(inner), last)]
        upright = [picture.dark_in_column(x + across, y + at - 0.6, y + at + 0.6) for at in (first + 10.0 * bool(inner), last)]
        wanted = last - first - 10.0 * bool(inner)
        assert level[1] - level[0] == pytest.approx(wanted, abs=0.02)
        assert upright[1] - upright[0] == pytest.approx(wanted, abs=0.02)


def test_the_whole_hundred_is_true() -> None:
    """From the corner's own line to the last tick, on the outer side where nothing stands between."""
    picture = rendered(treble()[1])
    x, y = CORNER
    start = picture.dark_in_row(y - 1.8, x - 0.6, x + 0.6)
    end = picture.dark_in_row(y + 2.0, x + 100 - 0.6, x + 100 + 0.6)
    assert end - start == pytest.approx(100.0, abs=0.02)
    start = picture.dark_in_column(x - 1.8, y - 0.6, y + 0.6)
    end = picture.dark_in_column(x + 2.0, y + 100 - 0.6, y + 100 + 0.6)
    assert end - start == pytest.approx(100.0, abs=0.02)


def test_a_measurement_would_notice_a_page_printed_smaller() -> None:
    """The same test on ticks that are 0.05 mm short of 100 mm fails: it can fail."""
    ticks = [Stroke(((x, 10.0), (x, 20.0)), Pen.BAR) for x in (10.0, 109.95)]
    picture = rendered(one_page(*ticks, size=(120.0, 40.0)))
    found = picture.dark_in_row(15.0, 109.0, 111.0) - picture.dark_in_row(15.0, 9.0, 11.0)
    assert found == pytest.approx(99.95, abs=0.02)
    assert found != pytest.approx(100.0, abs=0.02)


@pytest.mark.parametrize("size", PAPERS)
def test_page_boxes_are_the_papers_size(size: str) -> None:
    _, data = treble(size)
    with pikepdf.open(io.BytesIO(data)) as document:
        for page in document.pages:
            box = [float(value) for value in page.mediabox]
            assert box[:2] == [0, 0]
            assert box[2] * 25.4 / 72 == pytest.approx(PAPERS[size][0], abs=5e-4)
            assert box[3] * 25.4 / 72 == pytest.approx(PAPERS[size][1], abs=5e-4)


def test_a_single_sheet_is_one_page_of_its_paper() -> None:
    profile = load("six-sided-treble")
    pages = single_sheet_pages(make_parts(build(profile)), paper=PAPERS["a0"], name=profile.name, fingerprint=profile.fingerprint)
    with pikepdf.open(io.BytesIO(write_pdf(pages, title=profile.name))) as document:
        (page,) = document.pages
        size = sorted(float(value) * 25.4 / 72 for value in page.mediabox)[2:]
        assert size == pytest.approx([841.0, 1189.0], abs=5e-4)
        assert "/CropBox" not in page
        assert document.Root.ViewerPreferences.PrintScaling == pikepdf.Name("/None")


def test_viewers_are_asked_not_to_scale() -> None:
    pages, data = treble()
    with pikepdf.open(io.BytesIO(data)) as document:
        assert document.pdf_version == "1.6"
        assert document.Root.ViewerPreferences.PrintScaling == pikepdf.Name("/None")
        assert str(document.docinfo["/Title"]) == load("six-sided-treble").name
        assert str(document.docinfo["/Author"]) == ""
        with document.open_outline() as outline:
            assert [entry.title for entry in outline.root] == [page.title for page in pages]


def test_every_font_is_inside() -> None:
    with pikepdf.open(io.BytesIO(treble()[1])) as document:
        fonts = {}
        for page in document.pages:
            for font in page.resources.Font.values():
                fonts[str(font.BaseFont)] = "/FontFile2" in font.FontDescriptor
    assert len(fonts) == 2
    assert all("SourceSansPro" in name for name in fonts)
    assert all(fonts.values())


def test_nothing_is_packed_as_letters() -> None:
    """Streams written as letters, fonts among them, are a quarter larger."""
    data = write_pdf(
        [Page(210.0, 297.0, "page", (Label("Gusset", (20.0, 20.0), 5.0), Label("Card", (20.0, 40.0), 5.0, bold=True)))], title="t"
    )
    with pikepdf.open(io.BytesIO(data)) as pdf:
        packed = [one for one in pdf.objects if isinstance(one, pikepdf.Stream)]
        fonts = [one for one in packed if "/Length1" in one]
        assert len(fonts) == 2
        assert all("ASCII85" not in str(one.get("/Filter")) for one in packed)


def test_words_can_be_read_and_found() -> None:
    read = text(treble()[1])
    for words in ("Print at 100 %: do not fit to page.", "Gusset", "cut 30 + 3 spare", "Cut one first.", "sheet 1 of 2"):
        assert words in read
    assert "M\u00fcller \u2013 \u017di\u017eek ?" in text(one_page(Label("M\u00fcller \u2013 \u017di\u017eek \u6f22", (10, 10), 4)))


@pytest.mark.parametrize(("anchor", "left"), [("start", 50.0), ("middle", 50.0 - 0.5), ("end", 50.0 - 1.0)])
@pytest.mark.parametrize("bold", [False, True])
def test_letters_stand_where_they_were_put(anchor: str, left: float, bold: bool) -> None:
    label = Label("HHHHH", (50.0, 40.0), 4.0, anchor=anchor, bold=bold)
    wide = text_width(label.text, 4.0, bold=bold)
    start = 50.0 + (left - 50.0) * wide
    boxes = glyph_boxes(one_page(label))
    assert min(box[0] for box in boxes) == pytest.approx(start, abs=0.5)
    assert max(box[2] for box in boxes) == pytest.approx(start + wide, abs=0.5)
    assert min(box[1] for box in boxes) == pytest.approx(40.0, abs=0.05)
    assert max(box[3] for box in boxes) == pytest.approx(40.0 + 0.729 * 4.0, abs=0.05)


def test_upright_letters_read_from_the_right() -> None:
    boxes = glyph_boxes(one_page(Label("HHHHH", (50.0, 20.0), 4.0, angle=90.0)))
    wide = text_width("HHHHH", 4.0)
    assert min(box[1] for box in boxes) == pytest.approx(20.0, abs=0.5)
    assert max(box[3] for box in boxes) == pytest.approx(20.0 + wide, abs=0.5)
    assert max(box[2] for box in boxes) == pytest.approx(50.0, abs=0.05)


def test_a_label_too_long_for_its_width_is_drawn_smaller() -> None:
    boxes = glyph_boxes(one_page(Label("a name that is far too long for this", (10.0, 40.0), 6.0, width=50.0)))
    assert max(box[2] for box in boxes) - 10.0 == pytest.approx(50.0, abs=1.0)


def test_a_window_shows_nothing_beyond_its_edge() -> None:
    strip = Drawn("strip", (rectangle(5.0, 30.0, 95.0, 50.0),), (Line(Role.CREASE, ((5.0, 40.0), (95.0, 40.0))),))
    picture = rendered(one_page(Window((2.0, 20.0), (60.0, 60.0), (strip,)), Stroke(((80.0, 5.0), (90.0, 5.0)))), dpi=100)
    assert picture.dark_in_row(50.0, 20.0, 50.0) > 0
    with pytest.raises(AssertionError, match="no ink"):
        picture.dark_in_row(50.0, 61.0, 99.0)
    assert picture.dark_in_row(5.0, 70.0, 99.0) == pytest.approx(85.0, abs=0.3)


def test_after_a_window_lines_look_as_before() -> None:
    strip = Drawn("strip", (), (Line(Role.SKIVE, ((5.0, 40.0), (95.0, 40.0))),))
    line = Line(Role.CREASE, ((5.0, 10.0), (95.0, 10.0)))
    found = paths(one_page(line, Window((2.0, 20.0), (60.0, 60.0), (strip,)), line))
    creases = [path for path in found if path.colour == colour(ROLE_STYLES[Role.CREASE].colour)]
    assert len(creases) == 2
    assert creases[0] == creases[1]


def test_lines_are_told_apart_without_colour() -> None:
    styles = [ROLE_STYLES[role] for role in (Role.CUT, Role.CREASE, Role.SKIVE, Role.MARK)]
    for one, other in itertools.combinations(styles, 2):
        assert one.dashes != other.dashes or max(one.weight, other.weight) > 2 * min(one.weight, other.weight)
        assert one.colour != other.colour
    for style in (*styles, *PEN_STYLES.values()):
        assert lightness(style.colour) < 0.45


def test_tints_differ_in_lightness() -> None:
    assert set(TINTS) == set(Tint) - {Tint.NONE}
    steps = sorted(lightness(colour) for tint, colour in TINTS.items() if not tint.name.endswith("SHADE"))
    assert all(b - a > 0.05 for a, b in itertools.pairwise(steps))
    for tint in Tint:
        if tint.name.endswith("SHADE"):
            assert lightness(TINTS[tint]) < lightness(TINTS[Tint[tint.name.removesuffix("_SHADE")]]) - 0.05


def lightness(written: str) -> float:
    """Grey of a colour on a printer, 0 black to 1 white (weights of ITU-R BT.601)."""
    red, green, blue = colour(written)
    return (0.299 * red + 0.587 * green + 0.114 * blue) / 255


def test_lines_are_drawn_as_their_style_says() -> None:
    roles = (Role.CUT, Role.CREASE, Role.SKIVE, Role.MARK)
    found = paths(one_page(*(Line(role, ((10.0, 10.0 + 5 * k), (60.0, 10.0 + 5 * k))) for k, role in enumerate(roles))))
    for path, role in zip(found, roles, strict=True):
        assert path.colour == colour(ROLE_STYLES[role].colour)
        assert path.weight == pytest.approx(ROLE_STYLES[role].weight, abs=0.001)


def test_coordinates_keep_their_digits() -> None:
    run: tuple[Point, ...] = ((10.12345, 20.54321), (63.98765, 71.00001))
    (path,) = paths(one_page(Stroke(run)))
    assert LineString(path.runs[0]).hausdorff_distance(LineString(run)) < 0.0005


def test_the_same_pages_give_the_same_bytes(monkeypatch: pytest.MonkeyPatch) -> None:
    pages, data = treble()
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1700000000")
    assert write_pdf(pages, title=load("six-sided-treble").name, subject="Cutting patterns") == data
    assert os.environ["SOURCE_DATE_EPOCH"] == "1700000000"


SCRIPT = """
import hashlib
from bellowscut.bellows import build
from bellowscut.export.pdf import write_pdf
from bellowscut.pages.papers import paper
from bellowscut.pages.sheets import sheet_pages
from bellowscut.pages.single_sheet import single_sheet_pages
from bellowscut.parts import make_parts
from bellowscut.profile import load
profile = load("six-sided-treble")
pages = sheet_pages(make_parts(build(profile)), paper=paper("a4"), name=profile.name, fingerprint=profile.fingerprint, all_pieces=True)
print(hashlib.sha256(write_pdf(pages, title=profile.name)).hexdigest())
"""


def test_another_process_gives_the_same_bytes() -> None:
    found = []
    for seed, epoch in (("1", None), ("77", "1234567890")):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)}
        environment.pop("SOURCE_DATE_EPOCH", None)
        if epoch is not None:
            environment["SOURCE_DATE_EPOCH"] = epoch
        run = subprocess.run([sys.executable, "-c", SCRIPT], env=environment, capture_output=True, text=True, check=True)
        found.append(run.stdout)
    assert found[0] == found[1]
    assert len(found[0].strip()) == 64


def test_a_set_is_small() -> None:
    assert len(treble()[1]) < 90_000


def test_rounded_corners_go_through() -> None:
    outline, _ = rounded(((10, 10), (90, 10), (70, 40), (30, 40)), (3.0, 3.0, 2.0, 2.0))
    (path,) = paths(one_page(Drawn("card", (outline,))))
    assert LinearRing(path.runs[0]).hausdorff_distance(ring(outline)) < 0.002

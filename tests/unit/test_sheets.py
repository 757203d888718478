"""The printed sheets: every part is there, its words stand clear of every line, and nothing is cut off."""

from __future__ import annotations

import itertools
import math
import re
from functools import cache

import pytest
from shapely.affinity import rotate, translate
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union
from shapely.prepared import prep

from bellowscut.bellows import Bellows, build
from bellowscut.drawing import Drawn, Item, Label, Line, Page, Pen, Stroke, Tint, Window
from bellowscut.lettering import fitted_height, text_width
from bellowscut.pages.papers import PAPERS
from bellowscut.pages.sheets import sheet_pages
from bellowscut.pages.strip_table import corner_marks, darts
from bellowscut.pages.views import places, views
from bellowscut.parts import OPTIONAL, Part, make_parts
from bellowscut.profile import load, shipped
from bellowscut.words.sheets import FLESH, GRAIN, PULL, SUCK

LONG_NAME = "Twelve-sided duet of the demonstration workshop, rosewood 02"
SOME = (
    "six-sided-treble",
    "oblong-three-alike",
    "five-corners-traced",
    "six-sided-scored-run",
    "square-box",
    "six-sided-valley-ends",
    "single-fold-baby",
)


@cache
def parts_of(name: str) -> tuple[Part, ...]:
    profile = load(name)
    for kind in OPTIONAL:
        profile = profile.with_optional(kind)
    return make_parts(build(profile), also=OPTIONAL)


def pages_of(name: str, paper: str = "a4", *, all_pieces: bool = False, mirror: bool = False) -> tuple[Page, ...]:
    return sheet_pages(
        parts_of(name),
        paper=PAPERS[paper],
        name=LONG_NAME,
        fingerprint="0123456789ab",
        all_pieces=all_pieces,
        mirror=mirror,
        gluing_distance=268.12,
    )


def drawn_on(page: Page) -> list[Drawn]:
    return [item for item in page.items if isinstance(item, Drawn)]


def seen_through(page: Page) -> list[Drawn]:
    return [drawn for item in page.items if isinstance(item, Window) for drawn in item.drawn]


def words_on(page: Page) -> list[str]:
    return [item.text for item in page.items if isinstance(item, Label)]


def letters(label: Label) -> Polygon:
    """The ground that a label's letters cover, from base line to capitals."""
    height = fitted_height(label)
    wide = text_width(label.text, height, bold=label.bold)
    start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[label.anchor]
    ground = box(start, 0.0, start + wide, 0.72 * height)
    return translate(rotate(ground, label.angle, origin=(0, 0)), *label.at)


def lines_of(drawn: Drawn) -> list[LineString]:
    found = [LineString([*outline.flattened(), outline.points[0]]) for outline in drawn.outlines]
    return found + [LineString([*line.points, line.points[0]] if line.closed else line.points) for line in drawn.lines]


def pattern_lines(page: Page) -> list[BaseGeometry]:
    found: list[BaseGeometry] = [line for drawn in drawn_on(page) for line in lines_of(drawn)]
    for item in page.items:
        if isinstance(item, Window):
            hole = box(*item.low, *item.high)
            found += [line.intersection(hole) for drawn in item.drawn for line in lines_of(drawn)]
    return found


@pytest.mark.parametrize("name", SOME)
@pytest.mark.parametrize("paper", ["a4", "a5", "letter"])
@pytest.mark.parametrize("all_pieces", [False, True])
def test_words_touch_no_line_and_no_other_words(name: str, paper: str, all_pieces: bool) -> None:
    for page in pages_of(name, paper, all_pieces=all_pieces):
        labels = [item for item in page.items if isinstance(item, Label)]
        grounds = [letters(label) for label in labels]
        rules = [LineString(item.points) for item in page.items if isinstance(item, Stroke) and item.pen in (Pen.HEAVY, Pen.DASHED)]
        lines = prep(unary_union([*pattern_lines(page), *rules]))
        for label, ground in zip(labels, grounds, strict=True):
            assert not lines.intersects(ground), (page.title, label.text)
            left, low, right, high = ground.bounds
            assert min(left, low) > 4.9, (page.title, label.text)
            assert right < page.width - 4.9, (page.title, label.text)
            assert high < page.height - 4.9, (page.title, label.text)
        for (one, a), (other, b) in itertools.combinations(zip(labels, grounds, strict=True), 2):
            assert not a.intersects(b), (page.title, one.text, other.text)


@pytest.mark.parametrize("name", SOME)
def test_arrows_touch_no_line_and_no_words(name: str) -> None:
    for page in pages_of(name):
        lines = unary_union(pattern_lines(page))
        words = unary_union([letters(item) for item in page.items if isinstance(item, Label)])
        for head in heads(page):
            assert not head.intersects(lines), page.title
            assert not head.intersects(words), page.title


def heads(page: Page) -> list[Polygon]:
    strokes = (item for item in page.items if isinstance(item, Stroke))
    return [
        Polygon(item.points) for item in strokes if item.closed and item.fill is Tint.INK and item.pen is Pen.THIN and len(item.points) == 4
    ]


@pytest.mark.parametrize("name", shipped())
@pytest.mark.parametrize("paper", ["a4", "a5", "tabloid"])
def test_patterns_stay_off_the_margin(name: str, paper: str) -> None:
    for page in pages_of(name, paper):
        for drawn in drawn_on(page):
            for line in lines_of(drawn):
                left, low, right, high = line.bounds
                assert min(left, low) > 9.99
                assert right < page.width - 9.99
                assert high < page.height - 9.99


@pytest.mark.parametrize("name", shipped())
def test_every_part_is_drawn_once_or_over_several_sheets_or_listed(name: str) -> None:
    pages = pages_of(name)
    whole = [drawn.part for page in pages for drawn in drawn_on(page)]
    pieces = [drawn.part for page in pages for drawn in seen_through(page)]
    for part in parts_of(name):
        faces = 2 if part.back else 1
        assert whole.count(part.id) == faces or (part.id not in whole and part.id in pieces), part.id


@pytest.mark.parametrize("name", SOME)
def test_every_piece_is_drawn_when_asked(name: str) -> None:
    pages = pages_of(name, "a3", all_pieces=True)
    whole = [drawn.part for page in pages for drawn in drawn_on(page)]
    for part in parts_of(name):
        if part.id in whole:
            assert whole.count(part.id) == part.pieces * (2 if part.back else 1), part.id


def test_every_piece_of_one_material_and_its_own_number() -> None:
    material = {part.id: part.material for part in parts_of("six-sided-treble")}
    numbers: list[str] = []
    for page in pages_of("six-sided-treble", all_pieces=True):
        assert len({material[drawn.part] for drawn in drawn_on(page)}) <= 1
        numbers += [text for text in words_on(page) if text.startswith("Card \u00b7")]
    assert sorted(numbers) == sorted(f"Card \u00b7 {side} {k}" for side in "ABCDEF" for k in range(1, 15))


@pytest.mark.parametrize("name", ["six-sided-treble", "six-sided-uneven"])
@pytest.mark.parametrize("mirror", [False, True])
def test_outlines_are_the_parts_own_at_full_size(name: str, mirror: bool) -> None:
    """Moved and turned, never stretched; leather alone is mirrored, and only when asked."""
    parts = {part.id: part for part in parts_of(name)}
    for page in pages_of(name, mirror=mirror):
        for drawn in drawn_on(page):
            part = parts[drawn.part]
            wanted = part.outline.mirrored() if mirror and part.side == "flesh" else part.outline
            here, there = drawn.outlines[0].points, wanted.points
            assert drawn.outlines[0].bulges == wanted.bulges
            for (a, b), (c, d) in zip(itertools.combinations(here, 2), itertools.combinations(there, 2), strict=True):
                assert math.dist(a, b) == pytest.approx(math.dist(c, d), abs=1e-9)
            assert Polygon(drawn.outlines[0].flattened()).area == pytest.approx(part.area, rel=1e-4)


@pytest.mark.parametrize(("mirror", "said", "unsaid"), [(False, FLESH, GRAIN), (True, GRAIN, FLESH)])
def test_sheets_with_leather_say_which_side_they_show(mirror: bool, said: str, unsaid: str) -> None:
    leather = {part.id for part in parts_of("six-sided-treble") if part.side == "flesh"}
    for page in pages_of("six-sided-treble", all_pieces=True, mirror=mirror):
        shown = [drawn.part for drawn in (*drawn_on(page), *seen_through(page))]
        if shown:
            assert (said in words_on(page)) == any(part in leather for part in shown), page.title
        assert unsaid not in words_on(page)


def test_a_mirrored_strip_counts_its_corners_from_the_other_end() -> None:
    (strip,) = [part for part in parts_of("six-sided-uneven") if part.kind == "end-strip"]
    length = strip.outline.bounds()[2]
    plain, mirrored = (corner_marks(views(strip, mirror=mirror)[0]) for mirror in (False, True))
    assert len(plain) == 6
    assert mirrored == pytest.approx([length - x for x in reversed(plain)])


def test_captions_tell_name_count_material_place_size_and_direction() -> None:
    said = " | ".join(text for page in pages_of("six-sided-treble") for text in words_on(page))
    for words in ("Gusset", "cut 30 + 3 spare", "25.4 x 62.4 mm", "gusset skin, flesh side", "corners AB to FA", "least stretch", "grain"):
        assert words in said
    assert "Cut one first. Fold it into an open corner. If it is tight before the frames are 268.1 mm apart, or puckers, stop." in said
    assert SUCK in said
    assert PULL in said
    assert "frame" in said


@pytest.mark.parametrize(
    ("sides", "corners", "told"),
    [
        (("A", "B", "C", "D"), (), "sides A to D"),
        (("A", "C"), (), "sides A, C"),
        (("Y", "Z", "AA", "AB"), (), "sides Y to AB"),
        (("B",), (), "side B"),
        ((), ("AB", "BC", "CD", "DA"), "corners AB to DA"),
        ((), ("AB", "CD"), "corners AB, CD"),
        ((), ("YZ", "Z-AA", "AA-AB"), "corners YZ to AA-AB"),
        ((), (), ""),
    ],
)
def test_places_are_drawn_together(sides: tuple[str, ...], corners: tuple[str, ...], told: str) -> None:
    part = parts_of("six-sided-treble")[0]
    assert places(Part(part.id, part.kind, part.name, part.material, 1, 0, sides, corners, part.outline)) == told


def test_long_strips_are_told_not_tiled(six_fold: Bellows) -> None:
    """Sizes of the worked example: edge strip 18.084 x 554.04, end strip 25.042 x 559.93."""
    pages = sheet_pages(make_parts(six_fold), paper=PAPERS["a4"], name="Box", fingerprint="0")
    (page,) = [page for page in pages if "Strips" in page.title]
    words = words_on(page)
    for size in ("18.1 mm", "554.0 mm", "25.0 mm", "559.9 mm", "21 13/16 in"):
        assert size in words
    assert [text for text in words if text.isdigit()].count("560") == 1
    shown = [item for item in page.items if isinstance(item, Window)]
    assert [window.drawn[0].part for window in shown] == ["edge-strip", "end-strip"]


def test_the_measuring_stick_runs_on_from_piece_to_piece(six_fold: Bellows) -> None:
    pages = sheet_pages(make_parts(six_fold), paper=PAPERS["a4"], name="Box", fingerprint="0")
    (page,) = [page for page in pages if "Strips" in page.title]
    pieces = [item for item in page.items if isinstance(item, Line) and item.closed]
    assert len(pieces) == 4
    combs = [item for item in page.items if isinstance(item, Stroke) and len(item.points) > 60]
    told = 0
    for comb in combs[::2]:
        ticks = sorted({x for x, _ in comb.points})
        assert all(b - a == pytest.approx(1.0) for a, b in itertools.pairwise(ticks))
        told += len(ticks) - 1
    assert told == 560


def test_darts_are_told() -> None:
    (strip,) = [part for part in parts_of("square-box") if part.kind == "edge-strip"]
    (view,) = views(strip, mirror=False)
    assert len(corner_marks(view)) == 4
    assert darts(view).startswith("Darts at the corners, both edges: ")
    (plain,) = [part for part in parts_of("six-sided-treble") if part.kind == "edge-strip"]
    assert darts(views(plain, mirror=False)[0]) == ""


def test_counts_stand_in_the_head_only_where_every_piece_is_drawn() -> None:
    for all_pieces in (False, True):
        titles = [page.title for page in pages_of("oblong-three-alike", all_pieces=all_pieces) if ", tile " in page.title]
        assert len(titles) > 1
        assert {bool(re.search(r"\(\d+ of \d+\), tile", title)) for title in titles} == {all_pieces}


def test_sheets_of_one_part_agree_on_their_marks() -> None:
    """Laid mark on mark, the part lies in the same place on both sheets."""
    pages = [page for page in pages_of("oblong-three-alike") if page.title.split(". ")[-1].startswith("Card, sides A and C")]
    assert len(pages) == 2
    found = [join_marks(page.items) for page in pages]
    corner = [window.drawn[0].outlines[0].points[0] for page in pages for window in page.items if isinstance(window, Window)]
    assert set(found[0]) == set(found[1]) == {"a", "b"}
    for letter in "ab":
        first, second = ((at[letter][0] - x, at[letter][1] - y) for at, (x, y) in zip(found, corner, strict=True))
        assert first == pytest.approx(second, abs=1e-9)


def join_marks(items: tuple[Item, ...]) -> dict[str, tuple[float, float]]:
    """Letters with the middle of the two hair lines drawn before them."""
    found = {}
    for before, item in itertools.pairwise(items):
        if isinstance(item, Label) and item.bold and isinstance(before, Stroke) and len(before.points) == 2:
            (ax, ay), (bx, by) = before.points
            if ax == bx and by - ay == pytest.approx(6.8):
                found[item.text] = ((ax + bx) / 2, (ay + by) / 2)
    return found


def numbers_told(page: Page, start: str) -> list[str]:
    said = (re.search(r" sheet (\d+)", text) for text in words_on(page) if text.startswith(start))
    return [found[1] for found in said if found]


@pytest.mark.parametrize("paper", ["a5", "a4"])
def test_each_seam_has_one_cut_edge_and_one_for_the_glue(paper: str) -> None:
    """Wherever one sheet says that it goes over another, that one says that it lies under; and both bear the same letters."""
    pages = [page for page in pages_of("six-sided-scored-run", paper) if ", tile " in page.title]
    assert pages
    by_number = {page.title.split(".")[0]: page for page in pages}
    over = {(number, other) for number, page in by_number.items() for other in numbers_told(page, "cut")}
    under = {(other, number) for number, page in by_number.items() for other in numbers_told(page, "glue")}
    assert over
    assert over == under
    letters: list[str] = []
    for one, other in over:
        shared = set(join_marks(by_number[one].items)) & set(join_marks(by_number[other].items))
        assert len(shared) == 2
        letters += shared
    assert len(set(letters)) == len(letters)
    for page in pages:
        assert "overlap by 12 mm" in " ".join(words_on(page))


@pytest.mark.parametrize(("name", "paper"), [("oblong-three-alike", "a4"), ("square-box", "a5")])
def test_every_piece_of_large_parts_is_drawn_when_asked(name: str, paper: str) -> None:
    """Counted by the place that each bears; a piece on a seam bears it on both sheets."""
    pages = [page for page in pages_of(name, paper, all_pieces=True) if ", tile " in page.title]
    large = {drawn.part for page in pages for drawn in seen_through(page)}
    assert len(large) >= 2
    for part in parts_of(name):
        if part.id in large:
            here = [page for page in pages if part.id in {drawn.part for drawn in seen_through(page)}]
            told = [re.search(r"([A-Z]+ \d+|spare \d+)$", text) for page in here for text in words_on(page)]
            assert len({found[1] for found in told if found}) == part.pieces, part.id


def test_the_back_of_a_scored_board_is_not_cut() -> None:
    (run,) = [part for part in parts_of("six-sided-scored-run") if part.kind == "card-run"]
    front, back = views(run, mirror=False)
    assert len(front.outlines) == 3
    assert back.outlines == ()
    assert back.name.endswith("back")


def test_no_parts_make_no_sheets() -> None:
    assert sheet_pages((), paper=PAPERS["a4"], name="Box", fingerprint="0") == ()


def test_sheets_are_numbered_and_of_the_asked_size() -> None:
    pages = pages_of("six-sided-treble", "letter", all_pieces=True)
    assert not any("map of" in text for page in pages for text in words_on(page))
    for number, page in enumerate(pages, 1):
        assert (page.width, page.height) == pytest.approx((215.9, 279.4))
        assert f"sheet {number} of {len(pages)}" in words_on(page)
        assert page.title.startswith(f"{number}. ")

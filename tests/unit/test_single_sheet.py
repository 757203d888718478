"""Everything on one sheet: the smallest A size that holds it, strips whole, or a refusal that says what would do."""

from __future__ import annotations

import itertools
import re
from functools import cache

import pytest
from shapely.geometry import LineString, Polygon, box

from bellowscut.bellows import build
from bellowscut.drawing import Drawn, Label, Page, Window
from bellowscut.errors import UsageError
from bellowscut.pages.bars import bars
from bellowscut.pages.papers import PAPERS, paper
from bellowscut.pages.single_sheet import single_sheet_pages
from bellowscut.parts import OPTIONAL, Part, make_parts
from bellowscut.profile import load, shipped
from bellowscut.words.sheets import LAY_THE_RULE, PRINT_TRUE

A_SIZES = [PAPERS[f"a{number}"] for number in (4, 3, 2, 1, 0)]


@cache
def parts_of(name: str, *, more: bool = False) -> tuple[Part, ...]:
    profile = load(name)
    for kind in OPTIONAL if more else ():
        profile = profile.with_optional(kind)
    return make_parts(build(profile), also=OPTIONAL if more else ())


def page_of(
    name: str, size: tuple[float, float] | None = None, *, all_pieces: bool = False, more: bool = False, margin: float = 10.0
) -> Page:
    (page,) = single_sheet_pages(
        parts_of(name, more=more), paper=size, name=name, fingerprint="0123456789ab", all_pieces=all_pieces, margin=margin
    )
    return page


def drawn_on(page: Page) -> list[Drawn]:
    return [item for item in page.items if isinstance(item, Drawn)]


@pytest.mark.parametrize("name", shipped())
@pytest.mark.parametrize("more", [False, True])
def test_everything_is_on_one_sheet_of_the_a_series_strips_whole(name: str, more: bool) -> None:
    page = page_of(name, more=more)
    assert (page.width, page.height) in [*A_SIZES, *(size[::-1] for size in A_SIZES)]
    assert not any(isinstance(item, Window) for item in page.items)
    drawn = drawn_on(page)
    for part in parts_of(name, more=more):
        faces = [one for one in drawn if one.part == part.id]
        assert len(faces) == (2 if part.back else 1)
        outline = Polygon(faces[0].outlines[0].flattened())
        assert outline.area == pytest.approx(part.area, rel=1e-4)
    words = {item.text for item in page.items if isinstance(item, Label)}
    assert {PRINT_TRUE, LAY_THE_RULE, "sheet 1 of 1", "cut", "crease", "skive", "mark"} <= words
    assert set(bars((17.0, 17.0))) <= set(page.items)


@pytest.mark.parametrize("name", shipped())
def test_the_longest_strip_decides_the_size(name: str) -> None:
    """By hand: bars and margins take 36 mm of the long side; one of each of these sets asks for no more than its longest strip does."""
    longest = max(max(part.outline.bounds()[2:]) for part in parts_of(name))
    wanted = next(size for size in A_SIZES if size[1] - 36.0 >= longest)
    page = page_of(name)
    assert sorted((page.width, page.height)) == sorted(wanted)


@pytest.mark.parametrize(
    ("name", "all_pieces"),
    [
        ("single-fold-baby", False),
        ("six-sided-treble", False),
        ("oblong-three-alike", False),
        ("single-fold-baby", True),
        ("six-sided-treble", True),
    ],
)
def test_no_smaller_sheet_would_do(name: str, all_pieces: bool) -> None:
    try:
        page = page_of(name, all_pieces=all_pieces)
    except UsageError:
        page = Page(*PAPERS["a0"], "", ())
    short = min(page.width, page.height)
    for size in A_SIZES:
        if size[0] < short:
            with pytest.raises(UsageError):
                page_of(name, size, all_pieces=all_pieces)


@pytest.mark.parametrize("name", ["six-sided-treble", "single-fold-baby", "six-sided-uneven"])
def test_every_piece_is_drawn_when_asked(name: str) -> None:
    page = page_of(name, all_pieces=True)
    drawn = [one.part for one in drawn_on(page)]
    for part in parts_of(name):
        assert drawn.count(part.id) == part.pieces


@pytest.mark.parametrize(("name", "all_pieces"), [("twelve-sided-deep", False), ("five-corners-traced", False), ("six-sided-treble", True)])
def test_pieces_lie_apart_and_inside_the_margin(name: str, all_pieces: bool) -> None:
    page = page_of(name, all_pieces=all_pieces, margin=20.0)
    shapes = [Polygon(one.outlines[0].flattened()) for one in drawn_on(page)]
    frame = box(20.0, 20.0, page.width - 20.0, page.height - 20.0).buffer(1e-6)
    assert all(frame.contains(shape) for shape in shapes)
    least = 2.99 if all_pieces else 4.99
    for one, other in itertools.combinations(shapes, 2):
        if one.distance(other) < least:
            pytest.fail(f"{one.bounds} and {other.bounds} lie {one.distance(other):.2f} mm apart")


def test_one_of_each_has_strips_last_and_room_between() -> None:
    page = page_of("six-sided-treble", PAPERS["a0"])
    boxes = [Polygon(one.outlines[0].flattened()).bounds for one in drawn_on(page)]
    low = [low for left, low, right, _ in boxes if right - left < 500.0]
    high = [high for left, _, right, high in boxes if right - left > 500.0]
    assert len(high) == 2  # edge strip and end strip
    assert min(low) > max(high)
    lines = [LineString(one.outlines[0].flattened()) for one in drawn_on(page)]
    assert min(one.distance(other) for one, other in itertools.combinations(lines, 2)) > 11.9


def test_a_paper_that_is_given_is_taken_in_the_turn_that_fits() -> None:
    page = page_of("six-sided-treble", (700.0, 300.0))
    assert (page.width, page.height) == (700.0, 300.0)
    turned = page_of("six-sided-treble", (300.0, 700.0))
    assert (turned.width, turned.height) in ((300.0, 700.0), (700.0, 300.0))


def test_a_strip_too_long_is_named_with_a_paper_that_would_do() -> None:
    with pytest.raises(UsageError) as told:
        page_of("twelve-sided-deep", PAPERS["a4"])
    text = str(told.value)
    for words in ("A4 (210 x 297 mm)", "Edge strip (666.9 x 18.1 mm)", "End strip (", "--single-sheet"):
        assert words in text
    found = re.search(r"--paper (\S+)", text)
    assert found
    page = page_of("twelve-sided-deep", paper(found[1]))
    assert len(drawn_on(page)) == len(parts_of("twelve-sided-deep"))


def test_what_is_left_over_is_named_with_a_paper_that_would_do() -> None:
    with pytest.raises(UsageError) as told:
        page_of("twelve-sided-deep", PAPERS["a1"], all_pieces=True)
    text = str(told.value)
    assert "not everything fits on one sheet of A1" in text
    assert "Facing" in text
    found = re.search(r"--paper (\S+)", text)
    assert found
    page = page_of("twelve-sided-deep", paper(found[1]), all_pieces=True)
    assert len(drawn_on(page)) == sum(part.pieces for part in parts_of("twelve-sided-deep"))


def test_no_parts_make_no_sheet() -> None:
    assert single_sheet_pages((), paper=None, name="Box", fingerprint="0") == ()

"""The map of the sheets: every sheet in its place, every seam told once, every part with the sheets on which it stands."""

from __future__ import annotations

import itertools
import re
from functools import cache

import pytest
from shapely.geometry import LinearRing, Point, Polygon, box
from shapely.ops import unary_union

from bellowscut.bellows import build
from bellowscut.drawing import Drawn, Label, Page, Pen, Stroke, Tint, Window
from bellowscut.layout.tiles import OVERLAP
from bellowscut.lettering import text_width
from bellowscut.pages.papers import PAPERS
from bellowscut.pages.posters import every_piece_joined, lettered, one_of_each_joined
from bellowscut.pages.sheet_picture import cells, joined_size, sheet_picture
from bellowscut.pages.sheets import sheet_pages
from bellowscut.pages.views import View, views
from bellowscut.parts import Part, make_parts
from bellowscut.profile import load, loads
from bellowscut.section import regular
from bellowscut.shapes import polygon, rectangle

LARGE_RUN = """
format = 1
name = "Large box, scored run, invented for a test of joined sheets"
[section]
shape = "regular"
sides = 4
end_size = "320 mm"
[bellows]
folds = 6
fold_depth = "38 mm"
[card]
build = "run"
[facing]
"""

ROOM = (174.0, 210.0)
"""About an A4 sheet's area [mm]."""


@cache
def parts_of(text: str) -> tuple[Part, ...]:
    return make_parts(build(loads(text) if "\n" in text else load(text)))


def large(text: str) -> list[View]:
    shown = [view for part in parts_of(text) if not part.strip for view in views(part, mirror=False)]
    return [view for view in shown if max(view.size) > ROOM[1] or min(view.size) > ROOM[0]]


def pages_of(text: str, paper: str = "a4", *, all_pieces: bool = False) -> tuple[Page, ...]:
    return sheet_pages(parts_of(text), paper=PAPERS[paper], name="Box", fingerprint="0123456789ab", all_pieces=all_pieces)


def words_on(page: Page) -> list[str]:
    return [item.text for item in page.items if isinstance(item, Label)]


def maps(pages: tuple[Page, ...]) -> list[Page]:
    return [page for page in pages if page.title == "Which sheet goes where"]


@pytest.mark.parametrize(("text", "paper", "there"), [("six-sided-treble", "a4", False), ("oblong-three-alike", "a4", True)])
def test_there_is_a_map_where_sheets_join_and_only_there(text: str, paper: str, there: bool) -> None:
    pages = pages_of(text, paper)
    assert bool(maps(pages)) == there
    assert any(", tile " in page.title for page in pages) == there
    assert pages[: len(maps(pages))] == tuple(maps(pages))


@pytest.mark.parametrize("text", [LARGE_RUN, "oblong-three-alike"])
def test_cells_cover_what_the_sheets_cover_and_share_nothing(text: str) -> None:
    """What stays in sight of each sheet, by polygons: together all of the area, each seam counted once."""
    for poster in one_of_each_joined(large(text), ROOM):
        seen = [box(*cell) for cell in cells(poster.plan)]
        whole = unary_union([box(*tile.low, *tile.high) for tile in poster.plan.tiles])
        assert unary_union(seen).area == pytest.approx(whole.area)
        assert sum(one.area for one in seen) == pytest.approx(whole.area)
        assert joined_size(poster.plan) == pytest.approx((whole.bounds[2] - whole.bounds[0], whole.bounds[3] - whole.bounds[1]))


def test_parts_share_sheets_where_that_saves_some_and_lie_apart() -> None:
    views_ = large("oblong-three-alike")
    assert len(views_) == 2
    (poster,) = one_of_each_joined(views_, ROOM)
    assert len(poster.plan.tiles) == 2
    first, second = (Polygon(one.view.points) for one in poster.placed)
    assert first.distance(second) > 8.9


def test_a_round_plate_leaves_sheets_at_the_corners_empty() -> None:
    """A plate of 840 mm and twelve sides: the grid that it needs has more sheets than it is shown on."""
    plate = Part("plate", "card", "Plate", "grey card", 1, 0, (), (), polygon(regular(12, 840, "across-flats").points), side="outside")
    (poster,) = one_of_each_joined(views(plate, mirror=False), ROOM)
    assert len(poster.plan.tiles) < poster.plan.rows * poster.plan.columns
    shown = unary_union([box(*tile.low, *tile.high) for tile in poster.plan.tiles])
    assert shown.buffer(1e-6).covers(Polygon(poster.placed[0].view.points))


def test_every_piece_leaves_lanes_for_the_marks() -> None:
    """Packed close, and still every mark stands clear of every line: five strips of 28 mm would fill the sheet, so four lie on it."""
    board = Part("board", "card", "Board", "grey card", 10, 0, (), (), rectangle(0.0, 0.0, 250.0, 28.0), side="outside")
    posters = every_piece_joined(views(board, mirror=False), ROOM, 3.0)
    assert [len(poster.placed) for poster in posters] == [4, 4, 2]
    for poster in posters:
        lines = unary_union([LinearRing(one.view.points) for one in poster.placed])
        for join in poster.plan.joins:
            assert lines.distance(Point(join.at)) > 6.4


def test_no_letter_stands_twice_in_a_set_of_several_areas() -> None:
    posters = lettered(one_of_each_joined(large(LARGE_RUN), ROOM), ROOM)
    assert len(posters) > 1
    letters = [join.letter for poster in posters for join in poster.plan.joins]
    assert len(set(letters)) == len(letters)
    assert letters[0] == "a"


def test_the_picture_is_a_true_reduction() -> None:
    """Outlines read off the picture, times its scale, are those of the parts; numbers stand in the right cells."""
    for poster in one_of_each_joined(large(LARGE_RUN), ROOM):
        picture = sheet_picture(poster, 5, (90.0, 78.0))
        assert picture.width <= 90.0
        assert picture.height <= 78.0
        drawn = [Polygon(item.points) for item in picture.items if isinstance(item, Stroke) and item.fill is Tint.PAPER]
        wanted = [Polygon(one.view.rough) for one in poster.placed]
        assert [one.area * picture.scale**2 for one in drawn] == pytest.approx([one.area for one in wanted])
        frames = [box(*Polygon(item.points).bounds) for item in picture.items if isinstance(item, Stroke) and item.fill is Tint.WHITE]
        cells_, badges = frames[: len(poster.plan.tiles)], frames[len(poster.plan.tiles) :]
        numbers = [item.text for item in picture.items if isinstance(item, Label) and item.text.isdigit()]
        assert numbers == [str(5 + k) for k in range(len(poster.plan.tiles))]
        for cell, badge in zip(cells_, badges, strict=True):
            assert cell.contains(badge)
        for one, other in itertools.combinations(badges, 2):
            assert not one.intersects(other)


@pytest.mark.parametrize("text", [LARGE_RUN, "oblong-three-alike"])
@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
def test_every_seam_is_told_once_as_the_sheets_tell_it(text: str, paper: str) -> None:
    """The map's sentences against the words on the sheets themselves."""
    pages = pages_of(text, paper)
    told = " ".join(word for page in maps(pages) for word in words_on(page))
    pairs = re.findall(r"Cut sheet (\d+) (?:at the right|below), lay it on sheet (\d+): marks (\w+) and (\w+)", told)
    sheets = {page.title.partition(".")[0]: words_on(page) for page in pages if ", tile " in page.title}
    on_sheets = [
        (number, found[1])
        for number, words in sheets.items()
        for word in words
        if (found := re.fullmatch(r"(?:cut.*)?over sheet (\d+)", word))
    ]
    assert set(on_sheets) <= {(over, under) for over, under, _, _ in pairs}
    if paper != "a5":  # small sheets full of lines may have no room for the words
        assert len(on_sheets) == len(pairs)
    for over, under, first, last in pairs:
        for letter in (first, last):
            assert letter in sheets[over]
            assert letter in sheets[under]
    assert f"overlap by {OVERLAP:.0f} mm" in told


@pytest.mark.parametrize(
    ("text", "paper", "all_pieces"), [(LARGE_RUN, "a4", False), ("oblong-three-alike", "letter", False), ("square-box", "a5", True)]
)
def test_the_overview_names_the_sheets_on_which_each_part_stands(text: str, paper: str, all_pieces: bool) -> None:
    """Against what the sheets draw: every part, every sheet, no other."""
    pages = pages_of(text, paper, all_pieces=all_pieces)
    words = [word for page in maps(pages) for word in words_on(page)]
    names = {view.name: part.id for part in parts_of(text) for view in views(part, mirror=False)}
    on: dict[str, set[int]] = {}
    for page in pages:
        if page.title.partition(".")[0].isdigit():
            number = int(page.title.partition(".")[0])
            for item in page.items:
                for drawn in item.drawn if isinstance(item, Window) else [item] if isinstance(item, Drawn) else []:
                    on.setdefault(drawn.part, set()).add(number)
    strips = {number for number in range(1, len(pages)) if any(page.title == f"{number}. Strips" for page in pages)}
    both_faces = {part.id for part in parts_of(text) if part.back}
    for name, id_ in names.items():
        at = max(k for k, word in enumerate(words) if word == name)
        told = numbers(words[at + 2])
        if id_ in both_faces:
            assert told <= on[id_], name
        elif on[id_] & strips:
            assert told == strips, name
        else:
            assert told == on[id_], name
    for id_ in both_faces:
        faces = [words[max(k for k, word in enumerate(words) if word == name) + 2] for name, of in names.items() if of == id_]
        assert set().union(*map(numbers, faces)) == on[id_]


def numbers(told: str) -> set[int]:
    """``1, 3 to 5 joined`` as numbers."""
    found: set[int] = set()
    for run in told.removesuffix(" joined").split(", "):
        first, _, last = run.partition(" to ")
        found |= set(range(int(first), int(last or first) + 1))
    return found


@pytest.mark.parametrize("paper", ["a5", "a4", "letter", "a3"])
def test_words_of_the_map_stand_clear_and_on_the_paper(paper: str) -> None:
    for page in maps(pages_of(LARGE_RUN, paper)):
        grounds = []
        for item in page.items:
            if isinstance(item, Label) and item.text:
                wide = text_width(item.text, item.height, bold=item.bold)
                wide = min(wide, item.width) if item.width else wide
                start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[item.anchor]
                x, y = item.at
                tall = 0.72 * item.height
                ground = box(x + start, y, x + start + wide, y + tall) if item.angle == 0 else box(x - tall, y + start, x, y + start + wide)
                assert ground.bounds[0] > 9.9
                assert ground.bounds[1] > 9.9
                assert ground.bounds[2] < page.width - 9.9
                grounds.append((item.text, ground))
        for (one, a), (other, b) in itertools.combinations(grounds, 2):
            assert not a.intersects(b), (one, other)
        for item in page.items:
            if isinstance(item, Stroke) and item.pen is Pen.DASHED:
                line = box(*Polygon([*item.points, item.points[0]]).bounds).buffer(1e-6)
                for text, ground in grounds:
                    assert not ground.intersects(line), text

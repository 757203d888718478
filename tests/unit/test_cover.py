"""The first page: everything said, nothing cut off, no lettering over lines; the corner drawn true in space."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from pathlib import Path

import pytest

from bellowscut.bellows import Bellows, build
from bellowscut.drawing import Label, Page, Stroke, Tint
from bellowscut.lettering import CAPITAL, fitted_height, text_width
from bellowscut.pages.corner_space import CornerSpace, Face
from bellowscut.pages.corner_view import corner_picture
from bellowscut.pages.cover import cover_pages
from bellowscut.pages.layers_view import layers_picture
from bellowscut.parts import make_parts
from bellowscut.profile import load
from bellowscut.shapes import Point

A4, A5, LETTER, A3, WIDE = (210.0, 297.0), (148.0, 210.0), (215.9, 279.4), (297.0, 420.0), (420.0, 297.0)

OPTIONAL = """
[facing]
[ridge_cloth]
[frame_hinge]
[valley_strip]
[corner_patch]
[gasket]
"""

LONG_NAME = "Great bass of the drowned chapel with twelve sides and no luck"

PROFILES = {
    "six": 'name = "Six-sided treble"\n[section]\nshape = "regular"\nsides = 6\nend_size = "6 1/4 in"\n[bellows]\nfolds = 6\nfold_depth = "25 mm"',
    "oblong": '[section]\nshape = "rectangle"\nwidth = 250\nheight = 120\n[bellows]\nfolds = 8\nfold_depth = 22\n[facing]\norder = "first"',
    "twelve": f'name = "{LONG_NAME}"\n[section]\nshape = "regular"\nsides = 12\nend_size = "8 in"\n'
    f"[bellows]\nfolds = 7\nfold_depth = 32\nstretch = 55\n{OPTIONAL}",
    "triangle": '[section]\nshape = "regular"\nsides = 3\nend_size = 200\nmeasure = "side"\n[bellows]\nfolds = 4\nfold_depth = 20',
    "uneven": "copies = 2\n[section]\n"
    'shape = "measured"\nside_lengths = [91.2, 92.5, 91.0, 92.1, 91.9, 90.6]\nother_end = [91.9, 91.5, 91.6, 92.0, 91.2, 91.4]\n'
    f'[bellows]\nfolds = 6\nfold_depth = 25\nold_closed_length = 30\n[hinge]\nvalley_side = "outside"\n{OPTIONAL}',
    "valley ends": '[section]\nshape = "regular"\nsides = 6\nend_size = 400\n[bellows]\nfolds = 3\nfold_depth = 75\nends = "valley"'
    + OPTIONAL,
    "miniature": '[section]\nshape = "regular"\nsides = 6\nend_size = 80\n[bellows]\nfolds = 1\nfold_depth = 12\nstretch = 80',
    "sixty-four": '[section]\nshape = "regular"\nsides = 64\nend_size = 300\n[bellows]\nfolds = 5\nfold_depth = 12\n'
    "[gusset]\nlap = 2\ntip_lap = 1\ntip_radius = 0.2\npoint_radius = 0.2",
}


@dataclass(frozen=True)
class Said:
    code: str
    text: str


def notes(count: int) -> list[Said]:
    return [
        Said(
            f"note-{k}",
            f"Warning {k} of the kind that goes on for two lines, since what may spoil a whole skin has to be said with all "
            f"figures, such as {k}.25 mm here and {k}.50 mm there, before the knife is out.",
        )
        for k in range(count)
    ]


def made(folder: Path, name: str) -> Bellows:
    file = folder / "cover.toml"
    file.write_text(f"format = 1\n{PROFILES[name]}\n", encoding="utf-8")
    return build(load(str(file)))


def box(label: Label) -> tuple[float, float, float, float]:
    """Where the letters stand, a little within their capitals' height and width [mm]."""
    height = fitted_height(label)
    wide = text_width(label.text, height, bold=label.bold)
    left = label.at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    return left + 0.1, label.at[1], left + wide - 0.1, label.at[1] + height * CAPITAL


def meets(edge: tuple[Point, Point], around: tuple[float, float, float, float]) -> bool:
    """Whether a straight line enters a box (clipped as Liang and Barsky do)."""
    (ax, ay), (bx, by) = edge
    first, last = 0.0, 1.0
    for p, q in ((ax - bx, ax - around[0]), (bx - ax, around[2] - ax), (ay - by, ay - around[1]), (by - ay, around[3] - ay)):
        if p == 0:
            if q < 0:
                return False
        elif p < 0:
            first = max(first, q / p)
        else:
            last = min(last, q / p)
    return first < last


def edges(stroke: Stroke) -> list[tuple[Point, Point]]:
    found = list(itertools.pairwise(stroke.points))
    return [*found, (stroke.points[-1], stroke.points[0])] if stroke.closed else found


def assert_clean(page: Page) -> None:
    labels = [item for item in page.items if isinstance(item, Label) and item.text]
    boxes = [box(label) for label in labels]
    for label, (left, low, right, high) in zip(labels, boxes, strict=True):
        assert left >= 9, label
        assert right <= page.width - 9, label
        assert low >= 5, label
        assert high <= page.height - 5, label
        assert fitted_height(label) >= 2.2, label
    for (one, a), (other, b) in itertools.combinations(zip(labels, boxes, strict=True), 2):
        assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1], (one, other)
    for stroke in (item for item in page.items if isinstance(item, Stroke)):
        for edge in edges(stroke):
            for label, around in zip(labels, boxes, strict=True):
                assert not meets(edge, around), (label, stroke)
        for x, y in stroke.points:
            assert 5 <= x <= page.width - 5
            assert 5 <= y <= page.height - 5


def words(pages: tuple[Page, ...]) -> str:
    return " ".join(item.text for page in pages for item in page.items if isinstance(item, Label))


@pytest.mark.parametrize("paper", [A4, A5, LETTER, A3, WIDE], ids=["a4", "a5", "letter", "a3", "wide"])
@pytest.mark.parametrize("name", PROFILES)
def test_nothing_is_cut_off_or_lettered_over(tmp_path: Path, name: str, paper: tuple[float, float]) -> None:
    bellows = made(tmp_path, name)
    for page in cover_pages(bellows, "rebellows", make_parts(bellows), notes(4), paper=paper):
        assert_clean(page)
        assert (page.width, page.height) == paper


@pytest.mark.parametrize("count", [0, 1, 12])
@pytest.mark.parametrize("paper", [A4, A5], ids=["a4", "a5"])
def test_every_warning_and_every_part_is_said(tmp_path: Path, count: int, paper: tuple[float, float]) -> None:
    bellows = made(tmp_path, "uneven")
    parts = make_parts(bellows)
    said = notes(count)
    pages = cover_pages(bellows, "rebellows", parts, said, paper=paper)
    text = words(pages)
    for page in pages:
        assert_clean(page)
    for note in said:
        assert note.text in text
    names = [item.text for page in pages for item in page.items if isinstance(item, Label)]
    for part in parts:
        assert part.name in names or part.name in text
        assert (f"{part.count} + {part.spare}" if part.spare else str(part.count)) in names
    assert f"To cut: {sum(part.pieces for part in parts)} pieces" in names
    assert ("Before you cut" in names) == (count > 0)


def test_warnings_stand_above_the_pictures(tmp_path: Path) -> None:
    bellows = made(tmp_path, "six")
    page = cover_pages(bellows, "rebellows", make_parts(bellows), notes(2), paper=A4)[0]
    height = {item.text: item.at[1] for item in page.items if isinstance(item, Label)}
    assert height["Before you cut"] > height["Corner AB, half open"] > height["Figures"]


@pytest.mark.parametrize("name", ["six", "oblong", "twelve", "triangle"])
def test_an_ordinary_bellows_takes_one_page(tmp_path: Path, name: str) -> None:
    bellows = made(tmp_path, name)
    assert len(cover_pages(bellows, "rebellows", make_parts(bellows), notes(0), paper=A4)) == 1


def test_figures_are_those_of_the_worked_example(tmp_path: Path) -> None:
    """The five-line profile worked by hand in the geometry notes."""
    bellows = made(tmp_path, "six")
    text = words(cover_pages(bellows, "rebellows", make_parts(bellows), [], paper=A4))
    for figure in ("268.1 mm", "38.3 mm", "37.9 mm", "230.2 mm", "105.0 mm", "158.8 mm", "4253 cm\u00b3", "11.7 mm", "6.3 mm", "90.7 mm"):
        assert figure in text, figure
    assert "the corner governs" in text
    assert "Looking into the bellows from outside the first (right-hand) end; sides run counter-clockwise." in text


def test_which_side_of_which_frame_to_pack(tmp_path: Path) -> None:
    bellows = made(tmp_path, "uneven")
    text = words(cover_pages(bellows, "rebellows", make_parts(bellows), [], paper=A4))
    assert bellows.section.packing
    for packing in bellows.section.packing:
        start = text.index(f"Pack the {packing.end}-hand frame:")
        assert f"side {packing.side} {round(packing.mm, 2):g} mm" in text[start : start + 160]


def test_every_layer_is_named_where_it_is_made_and_only_there(tmp_path: Path) -> None:
    bare, full = made(tmp_path, "six"), made(tmp_path, "twelve")
    always = {"Card", "Frame", "End strip", "Edge strip"}
    around = (0.0, 0.0, 120.0, 90.0)
    for bellows, more in ((bare, set()), (full, {"Facing", "Ridge cloth", "Valley strip"})):
        for items, own in (
            (corner_picture(bellows, around), {"Gusset", "Hinge"} | ({"Corner patch"} if more else set())),
            (layers_picture(bellows, around, 30.0), {"Valley hinge", "Ridge hinge"} | ({"Frame hinge", "Gasket"} if more else set())),
        ):
            assert {item.text for item in items if isinstance(item, Label) and item.bold} == always | more | own


@pytest.mark.parametrize("name", PROFILES)
def test_cards_keep_their_shape_in_space(tmp_path: Path, name: str) -> None:
    view = CornerSpace(made(tmp_path, name))
    depth = view.bellows.depth
    for right, up in itertools.product((False, True), (False, True)):
        face = Face(right, 10.0, up)
        corners = [(view.leg(0.0), 0.0), (view.leg(depth), depth), (view.reach[right], depth), (view.reach[right], 0.0)]
        for one, other in itertools.combinations(corners, 2):
            assert math.dist(view.on_card(face, *one), view.on_card(face, *other)) == pytest.approx(math.dist(one, other), abs=1e-9)
    assert math.dist(
        view.on_card(Face(False, 0, up=True), view.leg(0.0), 0.0), view.on_card(Face(True, 0, up=True), view.leg(0.0), 0.0)
    ) == pytest.approx(view.corner.gap, abs=1e-9)


@pytest.mark.parametrize("name", PROFILES)
def test_no_card_or_gusset_hides_another(tmp_path: Path, name: str) -> None:
    """What lets the picture be painted in any order: seen from the eye, bare faces lie side by side."""
    from shapely.geometry import Polygon

    view = CornerSpace(made(tmp_path, name))
    depth = view.bellows.depth
    shown: list[list[Point]] = []
    for left, right in zip(view.faces(False), view.faces(True), strict=True):
        for face in (left, right):
            corners = ((view.leg(0.0), 0.0), (view.reach[face.right], 0.0), (view.reach[face.right], depth), (view.leg(depth), depth))
            shown.append([view.seen(view.on_card(face, *corner)) for corner in corners])
        shown.append(
            [
                view.seen(view.on_card(face, view.leg(down), down))
                for face, down in ((left, 0.0), (right, 0.0), (right, depth), (left, depth))
            ]
        )
    polygons = [Polygon(points) for points in shown]
    assert all(polygon.is_valid and polygon.area > 0.5 for polygon in polygons)
    for one, other in itertools.combinations(polygons, 2):
        assert one.intersection(other).area < 1e-6 * one.area


def test_side_a_is_marked(tmp_path: Path) -> None:
    bellows = made(tmp_path, "oblong")
    page = cover_pages(bellows, "rebellows", make_parts(bellows), [], paper=A4)[0]
    letter = {item.text: item.at for item in page.items if isinstance(item, Label) and item.text in "ABCD" and len(item.text) == 1}
    marks = [item for item in page.items if isinstance(item, Stroke) and item.fill is Tint.INK and len(item.points) == 3]
    near = [mark for mark in marks if math.dist(mark.points[0], letter["A"]) < 9]
    assert near
    # Counter-clockwise: A below, B to the right, C above, D to the left.
    assert letter["A"][1] < letter["B"][1] < letter["C"][1]
    assert letter["D"][0] < letter["A"][0] < letter["B"][0]

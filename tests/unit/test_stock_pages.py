"""Pictures of the layout: every piece where it lies, every count and name said, no word over another or over a line."""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from functools import cache

import pytest
from shapely import STRtree
from shapely.affinity import rotate, translate
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry

from bellowscut.bellows import build
from bellowscut.drawing import Label, Page, Pen, Stroke, Tint
from bellowscut.export.pdf import TINTS as COLOURS, write_pdf
from bellowscut.lettering import CAPITAL, fitted_height, text_width
from bellowscut.materials import ROLL, SHEET, SKIN, Material
from bellowscut.nesting.engine import lay_out
from bellowscut.nesting.model import Order, Shape, Stock
from bellowscut.pages.papers import PAPERS
from bellowscut.pages.stock_pages import stock_pages
from bellowscut.pages.stock_rows import TINTS, rows_of, sorts_of
from bellowscut.parts import Part, make_parts
from bellowscut.profile import load, shipped
from bellowscut.shapes import Point, bounds, rectangle
from bellowscut.stock.model import Laid, Layout, Leftover, Need, StockPiece
from tests.readback.pdf_reader import paths, text

LONG_NAME = "Great bass of the drowned chapel with twelve sides, no luck.."
assert len(LONG_NAME) >= 60

HIDE = (
    (0, 210), (40, 150), (70, 60), (130, 18), (215, 40), (330, 62), (470, 58), (600, 38), (690, 4), (760, 30), (800, 96), (850, 170),
    (905, 250), (930, 330), (905, 410), (850, 490), (800, 560), (760, 626), (690, 650), (600, 612), (470, 594), (330, 590), (215, 610),
    (130, 636), (70, 590), (40, 506), (0, 450), (-18, 330),
)  # fmt: skip
"""A usual outline, invented [mm]."""

BELLY = ((70.0, 60.0), (130.0, 18.0), (215.0, 40.0), (330.0, 62.0), (470.0, 58.0), (470.0, 150.0), (70.0, 150.0))
FLAWS = (((300.0, 250.0), (322.0, 262.0), (318.0, 284.0), (296.0, 280.0)), ((610.0, 420.0), (660.0, 420.0), (660.0, 470.0), (610.0, 470.0)))


@cache
def parts_of(name: str) -> tuple[Part, ...]:
    return make_parts(build(load(name)))


def stock_for(material: Material, number: int, *, flaws: bool, shrunk: float) -> tuple[Stock, StockPiece]:
    bars: dict[str, tuple[tuple[tuple[float, float], ...], ...]] = {}
    faults: tuple[tuple[tuple[float, float], ...], ...] = ()
    width: float | None = None
    if material.form == SKIN:
        outline = tuple((x * shrunk, y * shrunk) for x, y in HIDE)
        if flaws:
            bars = {"gusset": (tuple((x * shrunk, y * shrunk) for x, y in BELLY),)}
            faults = tuple(tuple((x * shrunk, y * shrunk) for x, y in flaw) for flaw in FLAWS)
    elif material.form == SHEET:
        assert material.size is not None
        outline = tuple(rectangle(0, 0, *material.size).points)
    else:
        assert material.size is not None
        outline, width = (), material.size[0]
    ident = f"stock-{number}"
    engine = Stock(ident, outline, faults, margin=3.0, flaw_gap=2.0, gap=0.0, width=width, barred=bars)
    piece = StockPiece(ident, material, material.name, outline, faults, bars, 0.0, material.form == SKIN, (), Leftover(0.0))
    return engine, piece


@cache
def layout_of(names: tuple[str, ...], *, flaws: bool = True, shrunk: float = 1.0, called: str = "") -> tuple[Layout, tuple[Need, ...]]:
    """Parts of shipped profiles laid by the engine, each material on as many pieces of stock as it takes."""
    wanted: dict[str, list[tuple[str, Part]]] = {}
    materials: dict[str, Material] = {}
    for k, name in enumerate(names, 1):
        profile = load(name)
        for part in parts_of(name):
            wanted.setdefault(part.material, []).append((str(k) if len(names) > 1 else "", part))
            materials.setdefault(part.material, profile.materials[part.material])
    stock: list[StockPiece] = []
    needs = []
    for material, orders in wanted.items():
        made = [
            stock_for(materials[material], len(stock) + k + 1, flaws=flaws, shrunk=shrunk)
            for k in range(1 if materials[material].form == ROLL else 6)
        ]
        shapes = {f"{whose}/{part.id}": (whose, part) for whose, part in orders}
        result = lay_out(
            [engine for engine, _ in made],
            [
                Order(
                    Shape(
                        key,
                        part.points,
                        (0.0, 180.0) if part.strip else (0.0, 90.0, 180.0, 270.0),
                        "gusset" if "gusset" in part.kind else "",
                    ),
                    part.pieces,
                )
                for key, (_, part) in shapes.items()
            ],
            0.3,
        )
        counted: dict[str, int] = {}
        laid: dict[str, list[Laid]] = {}
        for put in result.placements:
            counted[put.part] = counted.get(put.part, 0) + 1
            whose, part = shapes[put.part]
            laid.setdefault(put.stock, []).append(Laid(part, whose, counted[put.part], put.turn, put.x, put.y))
        used = []
        for _, piece in made:
            if piece.id not in laid:
                continue
            length = dict(result.lengths).get(piece.id)
            outline = piece.outline or tuple(rectangle(0, 0, length or 0.0, (materials[material].size or (0.0, 0.0))[0]).points)
            used.append(
                replace(piece, outline=outline, laid=tuple(laid[piece.id]), length_used=length, left=left_over(outline, laid[piece.id]))
            )
        stock += used
        area = sum(one.pieces_area for one in used)
        needs.append(
            Need(materials[material], tuple(used), area, area * 1.2, Decimal("12.50") if materials[material].form != SHEET else None)
        )
    notes = (
        "Edge strip is longer than the skin: it is split into 2 lengths with a scarf joint.",
        "All pieces of one material in one bellows from one skin; this layout uses two: colour may differ.",
    )
    titles = tuple(called or load(name).name for name in names)
    marks = tuple(load(name).fingerprint for name in names)
    return Layout(tuple(stock), "rows of a lattice", titles, marks, notes), tuple(needs)


def left_over(outline: Sequence[tuple[float, float]], laid: Sequence[Laid]) -> Leftover:
    """The largest strip above all pieces that a rectangle shows, or none: enough for a picture."""
    left, _, right, high = bounds(outline)
    top = max(bounds(one.points())[3] for one in laid)
    ground = Polygon(outline)
    area = max(0.0, ground.area - sum(one.part.area for one in laid))
    best = (0.0, 0.0, 0.0, 0.0)
    for inset in range(0, 500, 20):
        for up in range(0, 400, 20):
            if left + inset >= right - inset or top + 5 >= high - up:
                continue
            if ground.contains(box(left + inset, top + 5, right - inset, high - up)):
                found = (left + inset, top + 5, right - inset, high - up)
                if (found[2] - found[0]) * (found[3] - found[1]) > (best[2] - best[0]) * (best[3] - best[1]):
                    best = found
    a, b, c, d = best
    if c - a < 10 or d - b < 10:
        return Leftover(area)
    return Leftover(area, ((a, b), (c, b), (c, d), (a, d)), (max(c - a, d - b), min(c - a, d - b)))


CAUTIONS = (
    "Knives and skiving blades are sharp: cut away from the hand that holds.",
    "A pattern is tried in paper before leather is cut.",
)
MACHINE = ("stock-1: 12.4 m of cut, about 9 min at 25 mm/s.",)


def pages_of(names: tuple[str, ...], paper: str = "a4", **more: object) -> tuple[Page, ...]:
    layout, needs = layout_of(names, **more)
    return stock_pages(layout, needs, paper=PAPERS[paper], currency="GBP", digits=2, cautions=CAUTIONS, machine=MACHINE)


def labels_on(page: Page) -> list[Label]:
    return [item for item in page.items if isinstance(item, Label) and item.text]


def words(pages: Sequence[Page]) -> str:
    return " ".join(label.text for page in pages for label in labels_on(page))


def ground(label: Label) -> BaseGeometry:
    """Where the capitals of a label stand, a hair within [mm]."""
    height = fitted_height(label)
    wide = text_width(label.text, height, bold=label.bold)
    left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[label.anchor]
    flat = box(left + 0.05, 0.0, left + wide - 0.05, height * CAPITAL)
    return translate(rotate(flat, label.angle, origin=(0, 0)), *label.at)


def edges(stroke: Stroke) -> LineString:
    return LineString([*stroke.points, stroke.points[0]] if stroke.closed else stroke.points)


def assert_clean(page: Page) -> None:
    """Letters large enough, on the paper, clear of each other and of every line."""
    labels = labels_on(page)
    grounds = [ground(label) for label in labels]
    for label, where in zip(labels, grounds, strict=True):
        left, low, right, high = where.bounds
        assert fitted_height(label) * CAPITAL >= 1.8, (page.title, label)
        assert min(left, page.width - right) >= 9, (page.title, label)
        assert min(low, page.height - high) >= 5, (page.title, label)
    strokes = [item for item in page.items if isinstance(item, Stroke)]
    lines = [edges(item) for item in strokes]
    tree = STRtree(lines)
    for label, where in zip(labels, grounds, strict=True):
        for k in tree.query(where, predicate="intersects"):
            # A line is not seen under a piece that was drawn over it.
            later = (item for item in strokes[k + 1 :] if item.fill is not Tint.NONE)
            assert any(Polygon(item.points).contains(where) for item in later), (page.title, label, strokes[k])
    for k, found in enumerate(STRtree(grounds).query(where, predicate="intersects") for where in grounds):
        assert list(found) == [k], (page.title, labels[k], [labels[j] for j in found])
    # Between the facts and the picture under them there is air.
    ticks = max((max(y for _, y in item.points) for item in strokes if item.pen is Pen.BAR), default=0.0)
    facts = [label.at[1] - 0.24 * label.height for label in labels if label.text.startswith("Figures along the edges")]
    assert all(low - ticks > 1.5 for low in facts), page.title
    for line in lines:
        left, low, right, high = line.bounds
        assert min(left, low, page.width - right, page.height - high) >= 5, page.title


def picture(pages: Sequence[Page], stock: StockPiece) -> Page:
    """The page that shows the whole piece of stock."""
    return next(page for page in pages if page.title == f"{stock.id}: {stock.label}")


def turned(page: Page) -> bool:
    return "Turned a quarter left" in words([page])


def scale_of(page: Page) -> float:
    return float(next(found[1] for label in labels_on(page) if (found := re.fullmatch(r"1:([0-9.]+)", label.text))))


def on_paper(points: Sequence[Point], stock: StockPiece, page: Page, edge: Sequence[Point]) -> list[Point]:
    """Where points of the stock should lie, worked out from the scale that is printed and the edge that was found on the page."""
    way = (lambda p: (-p[1], p[0])) if turned(page) else (lambda p: p)
    left, low, _, _ = bounds([way(p) for p in stock.outline])
    x, y, _, _ = bounds(edge)
    scale = scale_of(page)
    return [(x + (u - left) / scale, y + (v - low) / scale) for u, v in map(way, points)]


def apart(one: Sequence[Point], other: Sequence[Point]) -> float:
    """Greatest distance of the points of two outlines that begin alike [mm]."""
    return max(math.dist(a, b) for a, b in zip(one, other, strict=True))


def opened(run: Sequence[Point]) -> Sequence[Point]:
    """A closed run without the first point said again at its end."""
    return run[:-1] if math.dist(run[0], run[-1]) < 1e-4 else run


CASES = [
    ("six-sided-treble", "a4"),
    ("six-sided-treble", "letter"),
    ("six-sided-treble", "a3"),
    ("single-fold-baby", "a4"),
    ("single-fold-baby", "letter"),
    ("twelve-sided-deep", "a4"),
    ("twelve-sided-deep", "a3"),
    ("oblong-three-alike", "a4"),
    ("square-box", "a5"),
]
"""Among them the shipped instrument with the least and that with the most to cut; a test says so."""


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_every_piece_is_drawn_once_where_it_lies(name: str, paper: str) -> None:
    """Read back from the file by another program, against the printed scale."""
    layout, _ = layout_of((name,))
    pages = pages_of((name,), paper)
    data = write_pdf(pages, title="layout")
    for stock in layout.stock:
        page = picture(pages, stock)
        closed = [(path.weight, opened(path.runs[0])) for path in paths(data, pages.index(page)) if path.closed and len(path.runs) == 1]
        shape = next(run for weight, run in closed if weight > 0.5 and len(run) == len(stock.outline))
        assert apart(shape, on_paper(stock.outline, stock, page, shape)) < 0.01
        for laid in stock.laid:
            wanted = on_paper(laid.points(), stock, page, shape)
            found = [run for _, run in closed if len(run) == len(wanted) and apart(run, wanted) < 0.01]
            assert len(found) == 1, (stock.id, laid.id, laid.number)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_nothing_is_cut_off_or_lettered_over(name: str, paper: str) -> None:
    for page in pages_of((name,), paper, called=LONG_NAME):
        assert (page.width, page.height) == PAPERS[paper]
        assert_clean(page)


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_every_piece_bears_its_number(name: str, paper: str) -> None:
    """On the picture, or on the enlarged part of it where the piece is too small."""
    layout, _ = layout_of((name,))
    pages = pages_of((name,), paper)
    for stock in layout.stock:
        numbered: dict[tuple[str, str], int] = {}
        for page in (page for page in pages if page.title.startswith(f"{stock.id}:") and "legend" not in page.title):
            pieces = [
                Polygon(item.points) for item in page.items if isinstance(item, Stroke) and item.fill in TINTS and item.pen is Pen.SOLID
            ]
            tree = STRtree(pieces)
            for label in labels_on(page):
                if tree.query(ground(label).centroid, predicate="within").size:
                    numbered[label.text.split(" ")[0], page.title] = numbered.get((label.text.split(" ")[0], page.title), 0) + 1
        texts = {text for text, _ in numbered}
        for row in rows_of(stock, sorts_of(layout)):
            for laid in row.laid:
                assert {row.code(laid), str(laid.number)} & texts, (stock.id, row.name, laid.number)


@pytest.mark.parametrize(("name", "paper"), CASES[:1] + CASES[6:8])
def test_names_counts_sizes_and_scale_are_said(name: str, paper: str) -> None:
    layout, needs = layout_of((name,))
    pages = pages_of((name,), paper)
    data = write_pdf(pages, title="layout")
    first = text(data, 0)
    for note in (*layout.notes, *CAUTIONS, *MACHINE, layout.method, layout.names[0], layout.fingerprints[0]):
        assert note in first
    for need in needs:
        assert need.material.name in first
        share = sum(stock.pieces_area for stock in need.stock) / sum(Polygon(stock.outline).area for stock in need.stock)
        assert f" {sum(len(stock.laid) for stock in need.stock)} {100 * share:.0f} % " in first
    assert "no price" in first
    assert "not known: a price is missing" in first
    assert "12.50 GBP" in first
    for stock in layout.stock:
        shown = [page for page in pages if page.title.startswith(f"{stock.id}:")]
        said = " ".join(text(data, pages.index(page)) for page in shown)
        assert f"{len(stock.laid)} pieces" in said
        assert f"{100 * stock.pieces_area / Polygon(stock.outline).area:.0f} % full" in said
        assert stock.id in said
        assert ("Flesh side up. From the grain side it is mirrored." in said) == (stock.material.form == SKIN)
        assert ("Nobody has measured this skin: a usual outline of 5.13 sq ft. Hold it against yours." in said) == stock.typical
        assert {SKIN: "backbone", SHEET: "grain", ROLL: "along the roll"}[stock.material.form] in said
        for row in rows_of(stock, sorts_of(layout)):
            assert row.name in said
            assert f"{row.name} {len(row.laid)} " in said.replace("\n", " ")
            left, low, right, high = bounds(row.laid[0].part.points)
            assert f"{right - left:.1f} \u00d7 {high - low:.1f} mm" in said


def test_the_cases_hold_the_least_and_the_most_to_cut() -> None:
    """Counted in pieces over all that ships."""
    pieces = {name: sum(part.pieces for part in parts_of(name)) for name in shipped()}
    names = {name for name, _ in CASES}
    assert min(pieces, key=pieces.__getitem__) in names
    assert max(pieces, key=pieces.__getitem__) in names


def plain_part(name: str, length: float, width: float, *, kind: str = "hinge", ident: str = "") -> Part:
    return Part(ident or kind, kind, name, "linen", 1, 0, (), (), rectangle(0, 0, length, width), side="outside", strip=True)


def one_piece(laid: Sequence[Laid], outline: Sequence[Point], material: Material, **more: object) -> tuple[Layout, tuple[Need, ...]]:
    left = Leftover(5000.0)
    bare = StockPiece("stock-1", material, material.name, tuple(outline), (), {}, 0.0, False, tuple(laid), left)
    stock = replace(bare, **more)  # type: ignore[arg-type]
    names = tuple(f"Instrument called {k}" for k in sorted({one.instrument for one in laid}))
    need = Need(material, (stock,), stock.pieces_area, stock.pieces_area, Decimal("3.10"))
    return Layout((stock,), "by hand", names, ("0123456789ab",) * len(names), ()), (need,)


def shown(layout: Layout, needs: tuple[Need, ...], paper: str = "a4") -> tuple[Page, ...]:
    return stock_pages(layout, needs, paper=PAPERS[paper], currency="EUR", digits=2, cautions=(), machine=())


LINEN = Material("linen", form=ROLL, thickness=0.2, size=(1000.0, 10_000.0))


def test_a_long_roll_is_broken_into_bands_that_say_how_far_along_they_are() -> None:
    part = plain_part("Valley hinge", 300.0, 60.0)
    laid = [Laid(part, "", 15 * k + j + 1, 0.0, 5 + 305.0 * k, 5 + 65.0 * j) for k in range(20) for j in range(15)]
    layout, needs = one_piece(laid, rectangle(0, 0, 6105, 1000).points, LINEN, length_used=6105.0)
    pages = shown(layout, needs)
    for page in pages:
        assert_clean(page)
    bands = [page for page in pages if page.title.startswith("stock-1")]
    assert len(bands) > 1
    figures = [label.text for page in bands for label in labels_on(page)]
    for along in range(0, 6101, 500):
        assert str(along) in figures
    assert {scale_of(page) for page in bands} == {10.0}
    # Breaks lie between the pieces: each is drawn whole, once.
    whole = [item for page in bands for item in page.items if isinstance(item, Stroke) and item.fill in TINTS and item.pen is Pen.SOLID]
    sizes = [bounds(item.points) for item in whole if len(item.points) == 4]
    assert sum(abs(right - left - 30.0) < 0.01 and abs(high - low - 6.0) < 0.01 for left, low, right, high in sizes) == 300
    names = [name.partition(" ")[0] for name in names_on_pieces(bands)]
    assert sorted(map(int, names)) == list(range(1, 301))
    assert "6.11 m of the roll" in words(bands)


def names_on_pieces(pages: Sequence[Page]) -> list[str]:
    found = []
    for page in pages:
        pieces = [Polygon(item.points) for item in page.items if isinstance(item, Stroke) and item.fill in TINTS and item.pen is Pen.SOLID]
        tree = STRtree(pieces)
        found += [label.text for label in labels_on(page) if tree.query(ground(label).centroid, predicate="within").size]
    return found


@pytest.mark.parametrize("width", [20.0, 40.0])
def test_a_piece_over_two_bands_is_named_once(width: float) -> None:
    """On a band, or on an enlarged part where the strip is too narrow there; a neighbour seen on that may be named again."""
    part = plain_part("Edge strip", 5900.0, width)
    laid = [Laid(part, "", k + 1, 0.0, 5, 5 + (width + 5.0) * k) for k in range(20)]
    layout, needs = one_piece(laid, rectangle(0, 0, 5910, 1000).points, LINEN, length_used=5910.0)
    pages = shown(layout, needs)
    bands, larger = (names_on_pieces([page for page in pages if ("enlarged" in page.title) == enlarged]) for enlarged in (False, True))
    for number in range(1, 21):
        on_bands, on_larger = (sum(re.match(rf"{number}( |$)", text) is not None for text in names) for names in (bands, larger))
        assert on_bands <= 1, number
        assert on_larger <= 1, number
        assert on_bands or on_larger, number


@pytest.mark.parametrize("paper", ["a4", "letter", "a3"])
def test_pieces_too_small_for_a_number_are_drawn_larger(paper: str) -> None:
    part = plain_part("Ridge hinge", 60.0, 6.0)
    laid = [Laid(part, "", 10 * k + j + 1, 0.0, 5 + 62.0 * k, 5 + 7.0 * j) for k in range(4) for j in range(10)]
    layout, needs = one_piece(
        laid, rectangle(0, 0, 1000, 700).points, Material("grey card", form=SHEET, thickness=1.0, size=(1000.0, 700.0))
    )
    pages = shown(layout, needs, paper)
    for page in pages:
        assert_clean(page)
    first = picture(pages, layout.stock[0])
    assert "Pieces without a number are drawn larger on a further page." in words([first])
    larger = [page for page in pages if "enlarged" in page.title]
    assert larger
    assert all(scale_of(page) < scale_of(first) for page in larger)
    names = {name.partition(" ")[0] for name in names_on_pieces(larger)}
    assert names == {str(number) for number in range(1, 41)}


def test_whose_piece_it_is_and_where_the_first_one_lies() -> None:
    one, other = (
        plain_part("Card, sides A and C", 240.0, 40.0, kind="card"),
        plain_part("Card, side B", 100.0, 40.0, kind="card", ident="card-B"),
    )
    board = Material("grey card", form=SHEET, thickness=1.0, size=(700.0, 500.0))
    laid = [
        Laid(one, "1", 1, 0.0, 20, 30),
        Laid(one, "2", 1, 0.0, 20, 80),
        Laid(other, "2", 4, 90.0, 400, 60),
        Laid(other, "2", 5, 0.0, 200, 300),
    ]
    layout, needs = one_piece(laid, rectangle(0, 0, 700, 500).points, board)
    pages = shown(layout, needs)
    for page in pages:
        assert_clean(page)
    text_of = words(pages)
    letters = [row.letter for row in rows_of(layout.stock[0], sorts_of(layout))]
    assert len(set(letters)) == 3
    assert "instrument 1, Instrument called 1" in text_of
    assert "instrument 2, Instrument called 2" in text_of
    assert "1 Instrument called 1" in words(pages[:1])
    # The turned card takes 360 to 400 mm across and 60 to 160 mm up; on a sheet turned to the left by a quarter, 340 and 360.
    across, up = (340, 360) if turned(pages[1]) else (360, 60)
    assert f"{letters[2]}4 at {across} across, {up} up" in text_of
    assert any(f"{letters[0]}1" in label for label in names_on_pieces(pages))
    assert any("instrument 2" in label for label in names_on_pieces(pages))


def test_letters_are_the_same_on_all_skins_of_a_material() -> None:
    layout, _ = layout_of(("twelve-sided-deep",), shrunk=0.8)
    seen: dict[tuple[str, str], set[str]] = {}
    for stock in layout.stock:
        for row in rows_of(stock, sorts_of(layout)):
            seen.setdefault((stock.material.name, row.laid[0].part.id), set()).add(row.letter)
    assert all(len(letters) == 1 for letters in seen.values())
    assert max(len([stock for stock in layout.stock if stock.material.name == name]) for name, _ in seen) > 1


@pytest.mark.parametrize("paper", ["a4", "a5", "a3"])
def test_flaws_barred_zones_and_what_is_left_are_named(paper: str) -> None:
    skin = Material("strip skin", form=SKIN, thickness=0.6)
    strip = replace(plain_part("End strip", 500.0, 25.0, kind="end-strip"), material="strip skin", side="flesh")
    laid = [Laid(strip, "", k + 1, 0.0, 150, 480 + 26.0 * k) for k in range(3)]
    clear = ((250.0, 160.0), (700.0, 160.0), (700.0, 240.0), (250.0, 240.0))
    more: dict[str, object] = {
        "flaws": FLAWS,
        "bars": {
            "gusset": (BELLY,),
            "half-gusset": (BELLY,),
            "edge-strip": (((720.0, 100.0), (820.0, 150.0), (820.0, 400.0), (720.0, 400.0)),),
        },
        "left": Leftover(200_000.0, clear, (450.0, 80.0)),
        "typical": True,
        "backbone": 20.0,
    }
    layout, needs = one_piece(laid, HIDE, skin, **more)
    pages = shown(layout, needs, paper)
    for page in pages:
        assert_clean(page)
    page = picture(pages, layout.stock[0])
    edge = next(item.points for item in page.items if isinstance(item, Stroke) and item.closed and item.pen is Pen.HEAVY)
    for said, zone in (("no gussets here", BELLY), ("no edge strips here", more["bars"]["edge-strip"][0])):  # type: ignore[index]
        area = Polygon(on_paper(zone, layout.stock[0], page, edge))
        lines = [label.text for label in labels_on(page) if area.contains(ground(label).centroid)]
        assert " ".join(lines) == said
    for flaw in FLAWS:
        area = Polygon(on_paper(flaw, layout.stock[0], page, edge))
        assert any(label.text == "flaw" and ground(label).distance(area) < 5 for label in labels_on(page))
        hatch = [item for item in page.items if isinstance(item, Stroke) and item.pen is Pen.THIN and len(item.points) == 2]
        assert sum(area.buffer(0.01).contains(edges(item)) for item in hatch) >= 3
    dashed = [item.points for item in page.items if isinstance(item, Stroke) and item.pen is Pen.DASHED]
    wanted = on_paper(clear, layout.stock[0], page, edge)
    assert any(len(points) == 4 and apart(points, wanted) < 1e-6 for points in dashed)
    assert any("450 \u00d7 80 mm" in label.text and Polygon(wanted).contains(ground(label)) for label in labels_on(page))
    assert "450 \u00d7 80 mm, in all 20 dm2 (2.15 sq ft)" in words(pages[:1])
    assert "Nobody has measured this skin" in words([page])


@pytest.mark.parametrize("paper", ["a4", "a5", "letter"])
def test_a_long_summary_goes_on_cleanly(paper: str) -> None:
    part = plain_part("Hinge", 100.0, 20.0)
    needs: list[Need] = []
    stock: list[StockPiece] = []
    for number in range(15):
        material = Material(f"skin number {number} of the long shelf, tanned and named at full", form=SKIN, thickness=0.5)
        pieces = [
            StockPiece(
                f"stock-{len(stock) + k + 1}",
                material,
                f"{material.name}, hide {k}, {LONG_NAME}",
                HIDE,
                (),
                {},
                0.0,
                False,
                (Laid(part, str(k % 3 + 1), 1, 0.0, 300, 300),),
                Leftover(300_000.0, (), (0.0, 0.0)),
            )
            for k in range(12 if number == 0 else 1)
        ]
        stock += pieces
        needs.append(Need(material, tuple(pieces), 2000.0, 3000.0, Decimal("1234.5")))
    notes = tuple(f"Note {k}: {LONG_NAME} {LONG_NAME} is cut from two skins, and its colour may differ." for k in range(14))
    layout = Layout(tuple(stock), "by hand", (LONG_NAME, f"{LONG_NAME} 2", "x" * 60), ("0123456789ab",) * 3, notes)
    pages = shown(layout, tuple(needs), paper)
    summary = pages[: len(pages) - sum(page.title.startswith("stock-") for page in pages)]
    assert len(summary) > 1
    for page in pages:
        assert_clean(page)
    said = words(summary)
    for note in notes:
        assert note in said
    for each in stock:
        assert each.label in said
    assert f"{Decimal('1234.50') * 15} EUR" in said
    assert "12 skins" in said
    assert words(pages).count("layout 1 of ") == 1


def test_no_stock_at_all_gives_a_summary() -> None:
    pages = shown(Layout((), "nothing to lay", ("Toy",), ("0123456789ab",), ()), ())
    assert len(pages) == 1
    assert_clean(pages[0])


def lightness(colour: str) -> float:
    """Of a colour on a grey print, by the weights of ITU-R BT.601 [-]."""
    red, green, blue = (int(colour[k : k + 2], 16) / 255 for k in (0, 2, 4))
    return 0.299 * red + 0.587 * green + 0.114 * blue


def test_tints_are_told_apart_in_grey_and_letters_stand_out() -> None:
    found = [lightness(COLOURS[tint]) for tint in TINTS]
    for one, other in itertools.combinations(found, 2):
        assert abs(one - other) > 0.05
    assert min(found) - lightness(COLOURS[Tint.INK]) > 0.5

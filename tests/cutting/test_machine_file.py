"""Machine files read back: whether the kerf is in them, and what they say of themselves outside the work."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import pytest
import shapely
from defusedxml.ElementTree import fromstring
from shapely import Polygon

from bellowscut import forming, pipeline, planning
from bellowscut.bellows import build
from bellowscut.export.ink import LAYERS
from bellowscut.form.build import build_form
from bellowscut.planning import CutOptions
from bellowscut.profile import Profile, load, loads
from bellowscut.stock.model import Layout
from tests.conftest import FIVE_LINES
from tests.cutting.stock import ROLL, SHEET, SKIN, piece, rows
from tests.readback.drawings import Read, read_dxf, read_svg

KERF = 0.2
SUFFIX = "-kerf-0.2mm"
FORMATS = ("svg", "dxf")
SVG = "{http://www.w3.org/2000/svg}"

SMALL = (
    FIVE_LINES.replace("sides = 6", "sides = 4").replace("folds = 6", "folds = 1") + '[cutter]\nkerf = "0.2 mm"\nmark_colour = "#000000"\n'
)


def small() -> Profile:
    """An invented instrument with few pieces."""
    return loads(SMALL)


@cache
def laid_out() -> planning.Plan:
    """Cards, cloth and leather, laid out in rows."""
    made = pipeline.draft(small())
    stock = []
    for number, (kind, material, width, height) in enumerate(
        (("card", SHEET, 400, 300), ("hinge", ROLL, 300, 120), ("gusset", SKIN, 260, 200)), 1
    ):
        laid = rows([part for part in made.parts if part.kind.endswith(kind)], width, height)
        stock.append(replace(piece(laid, width, height, material, at=(12.0, -7.0)), id=f"stock-{number}"))
    layout = Layout(tuple(stock), "rows", ("Small",), (small().fingerprint,), ())
    return planning.Plan((made,), layout, ())


@cache
def files_of(what: str, cutter: str) -> Mapping[str, bytes]:
    if what == "layout":
        return planning.files(laid_out(), CutOptions(cutter=cutter, formats=FORMATS))
    bellows = build(small())
    if what == "form":
        return forming.files(bellows, build_form(bellows), forming.FormOptions(FORMATS, cutter))
    return pipeline.files(pipeline.draft(small()), pipeline.Options(formats=FORMATS))


def layout() -> Layout:
    return laid_out().layout


def drawings(files: Mapping[str, bytes], ending: str = "svg") -> list[str]:
    return sorted(name for name in files if name.endswith(f".{ending}") and not name.startswith("picture-"))


_READ: dict[bytes, list[Read]] = {}


def read(files: Mapping[str, bytes], name: str, place: Path) -> list[Read]:
    """Every line of a file; each is read once for all tests."""
    data = files[name]
    if data not in _READ:
        _READ[data] = list(read_svg(data, place)) if name.endswith("svg") else read_dxf(data, place)
    return _READ[data]


@dataclass(frozen=True)
class Cuts:
    """Closed lines on CUT: outlines, and the holes that lie in one of them."""

    outlines: list[Polygon]
    holes: list[Polygon]


def cuts(reads: Sequence[Read]) -> Cuts:
    shapes = [Polygon(shapely.LinearRing(one.points).simplify(0.0005)) for one in reads if one.layer == "CUT" and one.closed]
    inside = [any(other is not one and other.contains(one) for other in shapes) for one in shapes]
    return Cuts(
        [one for one, within in zip(shapes, inside, strict=True) if not within],
        [one for one, within in zip(shapes, inside, strict=True) if within],
    )


def same(one: Polygon, other: Polygon) -> float:
    return float(shapely.hausdorff_distance(one.exterior, other.exterior))


def nearest(one: Polygon, others: Sequence[Polygon]) -> Polygon:
    return min(others, key=lambda other: one.centroid.distance(other.centroid))


PAIRS = [
    *(("layout", stem, "dxf") for stem in ("templates", "cauls", "stock-1", "stock-2")),
    ("form", "form", "dxf"),
    ("form", "form", "svg"),
]


def test_files_come_with_and_without_kerf_and_leather_without() -> None:
    names = {name.removesuffix(".svg") for name in drawings(files_of("layout", "laser"))}
    stock = {piece.id: piece.material.form for piece in layout().stock}
    plain = {*stock, "templates", "cauls", "test-piece"}
    skins = {name for name, form in stock.items() if form == "skin"}
    assert skins
    assert names == plain | {f"{name}{SUFFIX}" for name in plain - skins}
    assert set(drawings(files_of("form", "laser"))) == {"form.svg", f"form{SUFFIX}.svg"}


@pytest.mark.parametrize(("what", "stem", "ending"), PAIRS)
def test_the_kerf_is_wholly_in_one_file_and_not_at_all_in_the_other(what: str, stem: str, ending: str, tmp_path: Path) -> None:
    files = files_of(what, "laser")
    plain, kerf = (cuts(read(files, f"{stem}{suffix}.{ending}", tmp_path)) for suffix in ("", SUFFIX))
    assert len(plain.outlines) == len(kerf.outlines) > 0
    assert len(plain.holes) == len(kerf.holes)
    for by, before, after in ((KERF / 2, plain.outlines, kerf.outlines), (-KERF / 2, plain.holes, kerf.holes)):
        for one in before:
            grown = nearest(one, after)
            # What stays in an inner corner of a piece is the radius of the beam; the true outline lies half a kerf from the path.
            wanted = Polygon(one.buffer(by, quad_segs=16).boundary.coords)
            assert same(wanted, grown) < 0.01
            assert grown.area == pytest.approx(wanted.area, rel=1e-3)
            wide = [box[2] - box[0] for box in (one.bounds, grown.bounds)]
            assert wide[1] - wide[0] == pytest.approx(2 * by, abs=0.002)


def test_a_file_without_kerf_has_the_pieces_as_they_lie(tmp_path: Path) -> None:
    files = files_of("layout", "laser")
    for stock in layout().stock:
        left, low = min(x for x, _ in stock.outline), min(y for _, y in stock.outline)
        found = cuts(read(files, f"{stock.id}.dxf", tmp_path)).outlines
        assert len(found) == len(stock.laid)
        for laid in stock.laid:
            true = shapely.transform(Polygon(laid.points()), lambda at, a=left, b=low: at - [a, b])
            assert min(same(true, one) for one in found if one.centroid.distance(true.centroid) < 1) < 0.01


@pytest.mark.parametrize(("suffix", "square", "hole"), [("", 50.0, 50.0), (SUFFIX, 50.0 + KERF, 50.0 - KERF)])
def test_the_test_piece_tries_what_is_in_its_file(suffix: str, square: float, hole: float, tmp_path: Path) -> None:
    found = cuts(read(files_of("layout", "laser"), f"test-piece{suffix}.dxf", tmp_path)).outlines
    boxes = sorted(one.bounds for one in found)
    sizes = [(right - left, top - low) for left, low, right, top in boxes]
    assert (100, 18) in [(round(wide, 4), round(high, 4)) for wide, high in sizes], "the comb shows the kerf itself"
    squares = [wide for wide, high in sizes if wide == pytest.approx(high, abs=1e-4)]
    assert squares == pytest.approx([square, hole], abs=1e-4)


def test_templates_of_a_pattern_set_are_those_without_kerf(tmp_path: Path) -> None:
    made, cut = (cuts(read(files, "templates.dxf", tmp_path)) for files in (files_of("make", ""), files_of("layout", "laser")))
    assert len(made.outlines) == len(cut.outlines)
    for one in made.outlines:
        assert (
            min(
                same(
                    one,
                    shapely.transform(
                        other, lambda at, a=one, b=other: at + shapely.get_coordinates(a.centroid) - shapely.get_coordinates(b.centroid)
                    ),
                )
                for other in cut.outlines
            )
            < 0.003
        )


CASES = [("make", ""), ("layout", "laser"), ("layout", "knife"), ("layout", "hand"), ("form", "laser"), ("form", "hand")]


def told(data: bytes) -> str:
    """All that is written on the layer for what a file says of itself."""
    (scale,) = [group for group in fromstring(data).iter(f"{SVG}g") if group.get("id") == "scale"]
    return " ".join(title.text or "" for title in scale.iter(f"{SVG}title"))


@pytest.mark.parametrize(("what", "cutter"), CASES)
def test_every_file_says_what_it_is(what: str, cutter: str, tmp_path: Path) -> None:
    files = files_of(what, cutter)
    assert len(drawings(files)) == len(drawings(files, "dxf")) > 0
    for name in drawings(files):
        said = told(files[name])
        found = cuts(read(files, name.replace(".svg", ".dxf"), tmp_path))
        assert said.startswith(("Millimetres", "100 mm 100 mm Millimetres"))
        assert ("Kerf: IN " in said) is (SUFFIX in name), name
        assert f"{KERF} mm" in said or SUFFIX not in name
        if cutter == "knife" and not name.startswith("templates"):
            assert "No kerf is allowed for. Cuts run on 0.5 mm" in said
        elif SUFFIX not in name:
            assert "Kerf: NOT in this file" in said
        assert re.search(r"Material: .*\d mm\b", said), "with its thickness"
        assert "Face up: " in said
        (pieces,) = re.findall(r"Pieces: (\w+)", said)
        if pieces != "one" and (cutter != "knife" or name.startswith("templates")):
            assert int(pieces) == len(found.outlines)


@pytest.mark.parametrize(("what", "cutter"), CASES)
def test_what_a_file_says_of_its_layers_is_so(what: str, cutter: str, tmp_path: Path) -> None:
    files = files_of(what, cutter)
    for name in drawings(files):
        said, used = told(files[name]), {one.layer for one in read(files, name.replace(".svg", ".dxf"), tmp_path)}
        colours = {
            layer: {
                group.get("stroke") for group in fromstring(files[name]).iter(f"{SVG}g") if (group.get("id") or "").endswith(layer.lower())
            }
            for layer in LAYERS
        }
        for layer in LAYERS:
            found = re.findall(rf"{layer}, [a-z-]+ (#[0-9a-f]{{6}})", said)
            assert found == (sorted(colour for colour in colours[layer] if colour) if layer in used else []), (name, layer)
        for layer in used - set(LAYERS):
            assert f"{layer} #" in said, "a layer that is tried"
    assert "MARK, black #000000" in "".join(told(files[name]) for name in drawings(files) if b'id="layer-mark"' in files[name])


@pytest.mark.parametrize(
    ("what", "cutter", "ending"), [*((*case, "dxf") for case in CASES), ("make", "", "svg"), ("layout", "hand", "svg")]
)
def test_it_stands_outside_the_work_with_a_true_bar(what: str, cutter: str, ending: str, tmp_path: Path) -> None:
    files = files_of(what, cutter)
    for name in drawings(files, ending):
        reads = read(files, name, tmp_path)
        scale = [one for one in reads if one.layer == "SCALE"]
        assert max(one.size[0] for one in scale) == pytest.approx(100, abs=1e-3)
        work = max(x for one in reads if one.layer != "SCALE" for x, _ in one.points)
        letters = [one for one in scale if max(one.size) < 50]
        beside = [one for one in letters if min(x for x, _ in one.points) > work]
        assert len(beside) > 0.9 * len(letters) > 100, "letters of the bars alone stand elsewhere"
        width, height = size_of(files[name], name)
        assert all(-0.001 < x < width and -0.001 < y < height + 0.001 for one in reads for x, y in one.points)
        if name.startswith("stock"):
            stock = next(one for one in layout().stock if name.startswith((f"{one.id}.", f"{one.id}-kerf")))
            lowest = min(y for _, y in stock.outline)
            assert min(y for one in scale for _, y in one.points) > 0
            assert min(y for one in reads if one.layer == "CUT" for _, y in one.points) == pytest.approx(
                min(y for laid in stock.laid for _, y in laid.points()) - lowest, abs=0.6
            ), "the corner of the stock is the origin still"


def size_of(data: bytes, name: str) -> tuple[float, float]:
    if name.endswith("svg"):
        root = fromstring(data)
        return float((root.get("width") or "").removesuffix("mm")), float((root.get("height") or "").removesuffix("mm"))
    found = re.search(r"\$EXTMAX\n 10\n([\d.]+)\n 20\n([\d.]+)", data.decode())
    assert found is not None
    return float(found[1]), float(found[2])


def test_without_a_kerf_there_is_one_file() -> None:
    profile = loads(SMALL.replace('kerf = "0.2 mm"', "kerf = 0"))
    bellows = build(profile)
    found = forming.files(bellows, build_form(bellows), forming.FormOptions(("svg",), "laser"))
    assert drawings(found) == ["form.svg"]
    assert "Kerf: NOT in this file" in told(found["form.svg"])


def test_a_knife_cuts_no_ply(tmp_path: Path) -> None:
    """Form and templates stay closed outlines at true size, and that is said: common practice, no source."""
    knife, hand = files_of("form", "knife"), files_of("form", "hand")
    reads = read(knife, "form.dxf", tmp_path)
    assert all(one.closed for one in reads if one.layer == "CUT")
    assert sorted(one.size for one in reads if one.layer == "CUT") == sorted(
        one.size for one in read(hand, "form.dxf", tmp_path) if one.layer == "CUT"
    )
    assert "A drag knife does not cut 6 mm ply" in " ".join(knife["summary.txt"].decode().split())
    assert "drag knife" not in hand["summary.txt"].decode()
    by_knife = files_of("layout", "knife")
    assert all(one.closed for one in read(by_knife, "templates.dxf", tmp_path) if one.layer == "CUT")
    assert not any(one.closed for one in read(by_knife, "cauls.dxf", tmp_path) if one.layer == "CUT"), "cauls are of card"
    assert "A drag knife does not cut ply or acrylic" in " ".join(by_knife["summary.txt"].decode().split())


def test_lines_that_are_left_out_are_told_in_file_and_summary() -> None:
    files = files_of("layout", "laser")
    said = "Left out lest they are burnt twice, nearer than the kerf of 0.2 mm (0.008 in) to a cut or another line: lines of Ridge hinge"
    assert [name for name in drawings(files) if said in told(files[name])] == ["stock-2.svg", f"stock-2{SUFFIX}.svg"][::-1]
    assert said in " ".join(files["summary.txt"].decode().split())
    assert "burnt twice" not in files_of("layout", "knife")["summary.txt"].decode()


def test_colours_of_the_profile_are_those_of_every_file() -> None:
    for what, cutter in CASES:
        for name in drawings(files_of(what, cutter)):
            data = files_of(what, cutter)[name].decode()
            assert set(re.findall(r'-mark" stroke="([^"]+)"', data)) <= {"#000000"}
    assert load("six-sided-treble").cutter.mark_colour != "#000000"

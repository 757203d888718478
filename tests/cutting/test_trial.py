"""The test piece, the templates and the cauls: what they measure, where they lie, how they are read."""

from __future__ import annotations

import io
import math
import re
from itertools import pairwise
from pathlib import Path

import pytest
import shapely
from ezdxf.document import Drawing
from shapely import Polygon

from bellowscut.bellows import build
from bellowscut.cutting import cauls, trial
from bellowscut.cutting.cauls import pressing_cauls
from bellowscut.cutting.template import template_drawing
from bellowscut.cutting.words import SHORT
from bellowscut.drawing import Drawn, Role
from bellowscut.export.dxf import write_dxf
from bellowscut.export.publish import SET_NAMES
from bellowscut.export.stroke_letters import strokes
from bellowscut.export.svg import write_svg
from bellowscut.layout.apart import SCALE
from bellowscut.pages.templates import templates
from bellowscut.parts import make_parts
from bellowscut.profile import load
from bellowscut.schema import CutterSpec
from tests.cutting.stock import shipped, stage_of
from tests.readback.drawings import read_dxf, read_svg

PROFILES = (
    "six-sided-treble",
    "twelve-sided-deep",
    "square-box",
    "six-sided-valley-ends",
    "oblong-three-alike",
    "single-fold-baby",
    "three-sided-toy",
    "six-sided-uneven",
)


def sheet(
    name: str, cutter: str = "laser", kerf: float = 0.15, overcut: float = 0.5
) -> tuple[float, float, tuple[Drawn, ...], tuple[str, ...]]:
    bellows = build(load(name))
    return trial.test_piece(bellows, make_parts(bellows), CutterSpec(kerf=kerf, overcut=overcut), cutter, kerf_in=True)


def moved_by_pushing(kerf: float) -> float:
    """How far left the last bar of the comb comes when all are pushed to the left end of their window [mm]."""
    _, _, drawn, _ = sheet("six-sided-treble")
    (window,) = [one.outlines[0] for one in drawn if one.part == "comb-cut"]
    lines = sorted(line.points[0][0] for one in drawn if re.fullmatch(r"comb-\d+-cut", one.part) for line in one.lines)
    left, low, right, high = window.bounds()
    assert (right - left, high - low) == pytest.approx((100, 18)), "followed as they are"
    edges = [left, *lines, right]
    bars = [(a + kerf / 2, b - kerf / 2) for a, b in pairwise(edges)]
    assert len(bars) == 10
    assert len(edges) == 11
    end = left - kerf / 2
    for start, stop in bars[:-1]:
        end += stop - start
    return bars[-1][0] - end


@pytest.mark.parametrize("kerf", [0.0, 0.08, 0.15, 0.37, 0.9])
def test_the_comb_reads_the_kerf(kerf: float) -> None:
    assert moved_by_pushing(kerf) == pytest.approx(10 * kerf)
    _, _, drawn, _ = sheet("six-sided-treble")
    (marks,) = [one for one in drawn if one.part == "kerf-scale-mark"]
    edge = max(y for line in marks.lines for _, y in line.points) - 2.8
    on_frame = sorted((line.points[0][0] for line in marks.lines if max(y for _, y in line.points) > edge + 0.1), reverse=True)
    on_bar = sorted((line.points[0][0] for line in marks.lines if min(y for _, y in line.points) < edge - 0.1), reverse=True)
    assert len(on_frame) == 21
    assert len(on_bar) == 11
    shift = moved_by_pushing(kerf)
    passed = sum(x > on_bar[0] - shift - 1e-6 for x in on_frame[1:])
    meets = min(range(10), key=lambda k: min(abs(on_bar[k] - shift - x) for x in on_frame))
    assert 0.1 * passed + 0.01 * meets == pytest.approx(kerf, abs=0.0051)


@pytest.mark.parametrize("kerf", [0.05, 0.15, 0.6])
def test_square_and_hole_come_out_alike(kerf: float) -> None:
    _, _, drawn, _ = sheet("six-sided-treble", kerf=kerf)
    paths = {one.part: Polygon(one.outlines[0].flattened(1e-4)) for one in drawn if one.outlines}
    square = paths["square-cut"].buffer(-kerf / 2).bounds
    hole = paths["square-hole-cut"].buffer(kerf / 2).bounds
    for left, low, right, high in (square, hole):
        assert (right - left, high - low) == pytest.approx((50, 50), abs=1e-3)


@pytest.mark.parametrize("cutter", ["laser", "knife", "hand"])
@pytest.mark.parametrize("name", PROFILES)
def test_the_test_piece_is_small_and_nothing_on_it_touches(name: str, cutter: str) -> None:
    width, height, drawn, notes = sheet(name, cutter)
    assert width <= 210
    assert height <= 155
    cuts = [
        (one.part, shapely.union_all([*(shapely.LinearRing(outline.flattened()) for outline in one.outlines)] or [_lines(one)]))
        for one in drawn
        if stage_of(one) >= 4
    ]
    for k, (part, cut) in enumerate(cuts):
        assert shapely.box(2, 2, width - 2, height - 2).covers(cut)
        for other, line in cuts[:k]:
            assert (part.startswith("comb") and other.startswith("comb")) or cut.distance(line) > 2
    texts = [shapely.MultiLineString(list(strokes(label))) for one in drawn for label in one.labels]
    for k, text in enumerate(texts):
        assert shapely.box(1, 1, width - 1, height - 1).covers(text)
        assert all(text.distance(other) > 0.3 for other in texts[:k])
        assert min(text.distance(cut) for _, cut in cuts) > 0.3
    stages = [stage_of(one) for one in drawn]
    assert stages == sorted(stages)
    assert any(note.startswith("Kerf") for note in notes) == (cutter == "laser")
    assert any(note.startswith("Overcut") for note in notes) == (cutter == "knife")


def _lines(drawn: Drawn) -> shapely.Geometry:
    return shapely.MultiLineString([line.points for line in drawn.lines])


def test_each_setting_has_a_layer_and_a_colour_of_its_own(tmp_path: Path) -> None:
    width, height, drawn, _ = sheet("six-sided-treble")
    wanted = {f"{role}-{k}" for role in ("CREASE", "MARK") for k in range(1, 6)}
    for version in ("r2010", "r12"):
        data = write_dxf(drawn, width, height, version=version, title="t", description="d")
        reads = read_dxf(data, tmp_path)
        for layer in wanted:
            (line,) = [read for read in reads if read.layer == layer]
            assert not line.closed
            assert math.dist(*line.points) == pytest.approx(26)
        doc = Drawing.read(io.StringIO(data.decode()))
        colours = [doc.layers.get(layer).color for layer in (*wanted, "CUT", "CREASE", "MARK", "SKIVE", "TEXT")]
        assert len(set(colours)) == len(colours)
    data = write_svg(drawn, width, height, title="t", description="d")
    groups = dict(re.findall(r'<g fill="none" id="([^"]+)" stroke="([^"]+)"', data.decode()))
    assert {name.lower() for name in wanted} <= set(groups)
    shown = [groups[name.lower()] for name in wanted]
    assert len(set(shown)) == 10
    assert not set(shown) & {groups["gusset-crease"], groups["gusset-mark"], groups["gusset-cut"], groups["gusset-skive"]}
    assert len([read for read in read_svg(data, tmp_path) if read.part.startswith("crease-")]) >= 5


def test_other_files_have_no_such_layers() -> None:
    data = write_dxf(templates(*shipped("six-sided-treble", "gusset"))[2], 600, 300, title="t", description="d").decode()
    assert "CREASE-1" not in data


def test_a_knife_is_tried_with_several_overcuts() -> None:
    _, _, drawn, _ = sheet("six-sided-treble", "knife", overcut=0.4)
    for k, share in enumerate(trial.OVERCUTS, 1):
        (square,) = [one for one in drawn if one.part == f"corner-{k}-cut"]
        assert sum(math.dist(line.points[0], line.points[-1]) for line in square.lines) == pytest.approx(40 + 8 * 0.4 * share)


def test_the_trial_gusset_is_the_real_one() -> None:
    _, (gusset, *_) = shipped("six-sided-treble", "gusset")
    _, _, drawn, _ = sheet("six-sided-treble", kerf=0.2)
    path = next(one.outlines[0] for one in drawn if one.part == "gusset-cut")
    left = Polygon(path.flattened(1e-4)).buffer(-0.1, quad_segs=64)
    a, b = left.bounds[:2]
    true = Polygon(gusset.outline.flattened(1e-4))
    c, d = true.bounds[:2]
    assert shapely.hausdorff_distance(shapely.transform(left, lambda p: p - [a - c, b - d]), true) < 0.01
    drawn_lines = [line for one in drawn if one.part.startswith("gusset-") for line in one.lines]
    # The card edges, marks, lie on the paring lines: no laser goes there twice.
    by_hand = [line for one in sheet("six-sided-treble", "hand")[2] if one.part.startswith("gusset-") for line in one.lines]
    assert len(by_hand) == len(gusset.lines) == len(drawn_lines) + 4


@pytest.mark.parametrize("cutter", ["laser", "knife"])
@pytest.mark.parametrize("name", ["six-sided-treble", "square-box"])
def test_templates_are_compensated_and_ordered(name: str, cutter: str) -> None:
    bellows = build(load(name))
    _, _, plain = templates(bellows, make_parts(bellows))
    made = template_drawing(plain, CutterSpec(kerf=0.3), cutter)
    assert made[0].part == SCALE
    stages = [stage_of(one) for one in made[1:]]
    assert stages == sorted(stages)
    before = {one.part: one for one in plain}
    paths = [one for one in made if stage_of(one) >= 4]
    assert len(paths) == sum(len(one.outlines) for one in plain)
    if cutter == "laser":
        for one in paths:
            part, _, number = one.part.removesuffix("-cut").partition("-hole-")
            true = Polygon(before[part].outlines[int(number or 0)].flattened(1e-4))
            path = Polygon(one.outlines[0].flattened(1e-4))
            sign = -1 if number else 1
            assert sign * (path.area - true.area) == pytest.approx(0.15 * true.length, rel=0.1)
            assert shapely.hausdorff_distance(path.exterior, true.exterior) < 0.17
    labels = [label for one in made for label in one.labels]
    assert [label for one in plain for label in one.labels if label not in labels] == []
    assert [label.text for label in labels].count(SHORT[cutter]) == 1
    (caution,) = [label for label in labels if label.text == SHORT[cutter]]
    letters = shapely.MultiLineString(list(strokes(caution)))
    others = [shapely.MultiLineString(list(strokes(label))) for label in labels if label is not caution]
    assert min(letters.distance(other) for other in others) > 0.5
    assert min(letters.distance(Polygon(outline.flattened())) for one in plain for outline in one.outlines) > 2


@pytest.mark.parametrize("name", PROFILES)
def test_cauls_fit_where_they_press(name: str) -> None:
    bellows = build(load(name))
    parts = make_parts(bellows)
    width, height, drawn = pressing_cauls(bellows, parts)
    plates = [one for one in drawn if one.outlines]
    assert any(one.part.startswith("caul-gusset") for one in plates)
    for plate in plates:
        shape = Polygon(plate.outlines[0].flattened())
        hole = Polygon(plate.outlines[1].flattened())
        assert shape.is_valid
        assert shape.buffer(-2).covers(hole)
        assert shapely.box(0, 0, width, height).covers(shape)
        for label in plate.labels:
            letters = shapely.MultiLineString(list(strokes(label)))
            assert letters.distance(shape.exterior) > 0.5
            assert letters.distance(hole) > 0.5
    made = template_drawing(drawn, CutterSpec(), "laser")
    assert sum(stage_of(one) == 5 for one in made[1:]) == len(plates)


def test_a_gusset_caul_stays_inside_half_the_gusset() -> None:
    bellows, parts = shipped("six-sided-treble", "gusset", "end-gusset")
    _, _, drawn = pressing_cauls(bellows, parts)
    (plate,) = [one for one in drawn if one.outlines]
    gusset = Polygon(parts[0].points)
    shape = Polygon(plate.outlines[0].flattened())
    left, low, right, _ = shape.bounds
    back = bellows.layers.gusset + cauls.CAUL
    placed = shapely.transform(shape, lambda p: p - [(left + right) / 2, low - back])
    ridge = bellows.corners[0].half_height(bellows.stretch)
    inside = placed.intersection(shapely.box(-99, -99, 99, ridge - 5 * cauls.ROUND))
    assert gusset.buffer(-cauls.EASE + 0.01).covers(inside)
    assert inside.bounds[1] == pytest.approx(back, abs=0.01)
    assert inside.area > 0.5 * gusset.intersection(shapely.box(-99, 0, 99, 99)).area
    assert placed.bounds[3] == pytest.approx(ridge + cauls.TAB, abs=0.01)
    assert any("cut 42" in label.text for label in plate.labels), "30 gussets and 12 end gussets, no spares"


def test_cauls_of_two_valleys_and_two_gussets_do_not_meet() -> None:
    bellows = build(load("six-sided-treble"))
    _, _, drawn = pressing_cauls(bellows, make_parts(bellows))
    (valley,) = [one for one in drawn if one.part == "caul-valley"]
    left, _, right, _ = valley.outlines[0].bounds()
    room = bellows.card_width(0, bellows.depth) - 2 * bellows.profile.gusset.lap
    assert right - left == pytest.approx(room - 2 * cauls.EASE, abs=0.01)


def test_nothing_to_press_gives_nothing() -> None:
    bellows, parts = shipped("six-sided-treble", "edge-strip")
    assert pressing_cauls(bellows, parts) == (0.0, 0.0, ())


def test_unit_lines_of_roles() -> None:
    _, _, drawn, _ = sheet("six-sided-treble")
    assert {line.role for one in drawn for line in one.lines} == {Role.MARK, Role.SKIVE, Role.CREASE, Role.CUT}


@pytest.mark.parametrize(
    ("name", "allowed"),
    [
        ("stock-1-back.svg", True),
        ("stock-12-back-mm.dxf", True),
        ("test-piece.svg", True),
        ("test-piece-mm.dxf", True),
        ("cauls.dxf", True),
        ("cauls-2-mm.dxf", True),
        ("templates-3.svg", True),
        ("stock-1-back-kerf-0.15mm.svg", True),
        ("form-kerf-0.2mm-mm.dxf", True),
        ("templates-2-kerf-0.15mm.dxf", True),
        ("patterns-kerf-0.2mm.svg", False),
        ("form-kerf-mm.svg", False),
        ("stock-0-back.svg", False),
        ("stock-1-front.svg", False),
        ("test-piece.pdf", False),
        ("cauls.txt", False),
        ("templates-0.svg", False),
        ("my-test-piece.svg", False),
    ],
)
def test_names_of_files(name: str, allowed: bool) -> None:
    assert bool(SET_NAMES.fullmatch(name)) == allowed

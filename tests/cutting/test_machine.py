"""Machine files: bed, back of a scored run, figures, and the files read by programs that did not write them."""

from __future__ import annotations

import io
import math
import random
import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
import shapely
from ezdxf.document import Drawing

from bellowscut.bellows import build
from bellowscut.cutting.machine import PLACE, Job, machine_drawing
from bellowscut.cutting.words import CUTTERS, SHORT, cautions, short_label
from bellowscut.drawing import Drawn, Line, Role
from bellowscut.errors import UsageError
from bellowscut.export.dxf import write_dxf
from bellowscut.export.stroke_letters import strokes
from bellowscut.export.svg import write_svg
from bellowscut.lettering import text_width
from bellowscut.parts import make_parts
from bellowscut.profile import load
from bellowscut.schema import CutterSpec
from bellowscut.shapes import Point, rectangle
from bellowscut.stock.model import Laid, StockPiece
from tests.cutting.stock import ROLL, SHEET, SKIN, flat, half_turns, piece, rows, scattered, shipped
from tests.readback.drawings import Read, read_dxf, read_svg

SQUARE = flat(((0, 0), (20, 0), (20, 20), (0, 20)))


def scored(turn: float = 0.0, width: float = 520.0) -> tuple[StockPiece, Job]:
    parts = shipped("six-sided-scored-run", "card-run")[1]
    stock = piece(rows(parts, width, 400, turn=lambda k: turn + 180 * (k % 2)), width, 400, at=(30.0, -20.0))
    return stock, machine_drawing(stock, "laser", CutterSpec(speed=20.0))


def length(read: Read) -> float:
    points = (*read.points, read.points[0]) if read.closed else read.points
    return sum(math.dist(a, b) for a, b in pairwise(points))


class TestBed:
    def test_stock_larger_both_ways_is_refused(self) -> None:
        stock = piece(rows((SQUARE,), 700, 500), 700, 500)
        message = (
            r"stock-1: the sheet of grey card is 700\.0 x 500\.0 mm, but the cutter's bed takes 600 x 400 mm \(cutter\.bed\); "
            r'cut the sheet down first, and give its size as materials\."grey card"\.size'
        )
        with pytest.raises(UsageError, match=message):
            machine_drawing(stock, "laser", CutterSpec(bed=(600.0, 400.0)))
        assert machine_drawing(stock, "hand", CutterSpec(bed=(600.0, 400.0))).drawn
        assert not any("turned by 90" in note for note in machine_drawing(stock, "laser", CutterSpec(bed=(700.0, 500.0))).notes)

    def test_larger_one_way_only_is_turned(self) -> None:
        job = machine_drawing(piece(rows((SQUARE,), 380, 590), 380, 590), "knife", CutterSpec(bed=(600.0, 400.0)))
        assert any("turned by 90 degrees" in note for note in job.notes)

    def test_of_a_roll_the_length_used_counts(self) -> None:
        laid = rows((SQUARE,), 300, 300)
        assert machine_drawing(piece(laid, 380, 300, ROLL), "knife", CutterSpec(bed=(600.0, 400.0))).drawn
        with pytest.raises(UsageError, match=r"the length of roll of linen is 900\.0 x 1000\.0 mm.*cut the roll into sheets"):
            machine_drawing(piece(laid, 900, 1000, ROLL), "knife", CutterSpec(bed=(600.0, 400.0)))

    def test_a_skin_is_cut_down_by_its_outline(self) -> None:
        with pytest.raises(UsageError, match=r'materials\."gusset skin"\.outline'):
            machine_drawing(piece(rows((SQUARE,), 900, 500), 900, 500, SKIN), "knife", CutterSpec(bed=(600.0, 400.0)))


def test_another_cutter_is_refused() -> None:
    with pytest.raises(UsageError, match="cutter: is saw; use laser, knife or hand"):
        machine_drawing(piece((), 100, 100), "saw", CutterSpec())


@pytest.mark.parametrize("turn", [0.0, 90.0, 33.0])
def test_front_and_back_of_a_scored_run_meet(turn: float) -> None:
    """The back, turned over as a sheet of paper is, lies on the part's ridges and holes as the bellows itself has them."""
    stock, job = scored(turn)
    bellows = build(load("six-sided-scored-run"))
    (part,) = [part for part in make_parts(bellows) if part.kind == "card-run"]
    # Second way: every fold line of the run is at a multiple of the depth; those at odd multiples from a ridge end are valleys.
    ridges = [bellows.depth * k for k in range(1, bellows.cards_per_side) if (k % 2 == 0) != bellows.valley_ends]
    scores = [line for one in job.back for line in one.lines if line.role is Role.CREASE]
    assert len(scores) == len(ridges) * len(stock.laid)
    for laid in stock.laid:
        moved = replace(laid, x=laid.x - 30.0, y=laid.y + 20.0)
        for y in ridges:
            middle = moved.point((0.0, y))
            seen = (job.width - middle[0], middle[1])
            near = min(scores, key=lambda line: math.dist(_middle(line.points), seen))
            assert math.dist(_middle(near.points), seen) < 0.001
            ends = [moved.point((x, y)) for x in (-1.0, 1.0)]
            along = shapely.LineString(near.points)
            assert all(along.distance(shapely.Point(job.width - x, v)) < 0.001 for x, v in ends)
        for hole in part.holes:
            (x, y), (u, v) = hole.points
            spot = moved.point(((x + u) / 2, (y + v) / 2))
            front = [_middle(_box(line.points)) for one in job.drawn for line in one.lines if line.closed and line.role is Role.MARK]
            back = [_middle(_box(outline.flattened())) for one in job.back for outline in one.outlines]
            assert min(math.dist(one, spot) for one in front) < 0.001
            assert min(math.dist(one, (job.width - spot[0], spot[1])) for one in back) < 0.001


@pytest.mark.parametrize("turn", [0.0, 33.0, 200.0])
def test_a_score_that_lies_to_one_side_comes_to_lie_over_its_place(turn: float) -> None:
    # Drawn as seen from the back, so that its x counts the other way.
    part = replace(flat(((-30, 0), (30, 0), (30, 40), (-30, 40))), back=(Line(Role.CREASE, ((5.0, 10.0), (25.0, 12.0))),))
    laid = Laid(part, "", 1, turn, 60.0, 70.0)
    job = machine_drawing(piece((laid,), 200, 150), "laser", CutterSpec())
    (score,) = [line for one in job.back for line in one.lines if line.role is Role.CREASE]
    wanted = [(200 - x, y) for x, y in map(laid.point, ((-5.0, 10.0), (-25.0, 12.0)))]
    for point, place in zip(sorted(score.points), sorted(wanted), strict=True):
        assert point == pytest.approx(place, abs=0.001)


def _middle(points: Sequence[Point]) -> Point:
    return (points[0][0] + points[-1][0]) / 2, (points[0][1] + points[-1][1]) / 2


def _box(points: Sequence[Point]) -> tuple[Point, Point]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys)), (max(xs), max(ys))


def test_a_scored_run_is_worked_in_two_passes() -> None:
    stock, job = scored()
    assert not any("-hole-" in one.part for one in job.drawn), "the holes are there already"
    cuts = [one for one in job.back if one.outlines]
    assert len(cuts) == 2 * len(stock.laid)
    assert all("-hole-" in one.part for one in cuts), "outlines are cut from the front only"
    told = " ".join(job.notes)
    assert "First the back: lay the stock outside down" in told
    assert "turn the stock over left to right" in told
    assert "520.00 mm across" in told
    assert machine_drawing(piece(rows((SQUARE,), 99, 99), 99, 99), "laser", CutterSpec()).back == ()


JOBS = {
    "cards by laser": ("six-sided-treble", ("card",), 400, 300, SHEET, "laser", CutterSpec(speed=20.0)),
    "gussets by knife": ("six-sided-treble", ("gusset", "end-gusset"), 300, 200, SKIN, "knife", CutterSpec(speed=20.0)),
    "gussets by blade": ("six-sided-treble", ("gusset",), 300, 200, SKIN, "knife", CutterSpec(blade_offset=0.25)),
    "gussets by hand": ("six-sided-treble", ("gusset",), 300, 200, SKIN, "hand", CutterSpec()),
    "run by laser": ("six-sided-scored-run", ("card-run",), 520, 400, SHEET, "laser", CutterSpec(speed=20.0)),
}


def made(case: str) -> Job:
    name, kinds, width, height, material, cutter, spec = JOBS[case]
    laid = rows(shipped(name, *kinds)[1], width, height, turn=half_turns)
    return machine_drawing(piece(laid, width, height, material), cutter, spec)


def read_in(drawn: Sequence[Drawn], job: Job, form: str, place: Path) -> list[Read]:
    if form == "svg":
        # A group of one layer is named after its piece and the layer.
        reads = read_svg(write_svg(drawn, job.width, job.height, title="t", description="d"), place)
        return [replace(read, layer=read.layer or read.part.rpartition("-")[2].upper()) for read in reads]
    return read_dxf(write_dxf(drawn, job.width, job.height, version=form, title="t", description="d"), place)


@pytest.mark.parametrize("form", ["svg", "r2010", "r12"])
@pytest.mark.parametrize("case", JOBS)
def test_files_read_back(case: str, form: str, tmp_path: Path) -> None:
    job = made(case)
    cut = other = travel = 0.0
    for drawings in filter(None, (job.drawn, job.back)):
        reads = read_in(drawings, job, form, tmp_path)
        assert {read.layer for read in reads} <= {"CUT", "CREASE", "SKIVE", "MARK", "TEXT"}
        wanted = [Role.CUT.value.upper()] * sum(len(one.outlines) for one in drawings)
        wanted += [line.role.value.upper() for one in drawings for line in one.lines]
        assert sorted(read.layer for read in reads if read.layer != "TEXT") == sorted(wanted)
        cut += sum(length(read) for read in reads if read.layer == "CUT")
        other += sum(length(read) for read in reads if read.layer != "CUT")
        assert all(read.closed for read in reads if read.layer == "CUT") == ("knife" not in case and "blade" not in case)
        ends = [(0.0, 0.0)]
        for read in reads:
            travel += math.dist(ends[-1], read.points[0])
            ends.append(read.points[0] if read.closed else read.points[-1])
    assert job.cut_length == pytest.approx(cut, rel=2e-5)
    assert job.drawn_length == pytest.approx(other, rel=2e-5)
    assert job.travel == pytest.approx(travel, rel=1e-3), "the file keeps the order"
    if job.seconds is not None:
        assert job.seconds == pytest.approx((cut + other) / 20 + travel / 100, rel=1e-3)


def test_group_names_of_a_machine_file(tmp_path: Path) -> None:
    job = made("gussets by hand")
    data = write_svg(job.drawn, job.width, job.height, title="t", description="d").decode()
    ids = re.findall(r'id="([^"]+)"', data)
    assert len(ids) == len(set(ids))
    assert {"place-mark", "caution-text", "gusset-1-text", "gusset-1-mark", "gusset-1-skive", "gusset-1-crease", "gusset-1-cut"} <= set(ids)
    assert not any(name.endswith("-cut-cut") for name in ids)
    reads = list(read_svg(data.encode(), tmp_path))
    assert max(x for read in reads for x, _ in read.points) == pytest.approx(job.width)


def test_speeds() -> None:
    stock = piece(rows((SQUARE,), 99, 99), 99, 99)
    plain = machine_drawing(stock, "laser", CutterSpec())
    assert plain.seconds is None
    slow = machine_drawing(stock, "laser", CutterSpec(speed=10.0))
    assert slow.seconds == pytest.approx((slow.cut_length + slow.drawn_length) / 10 + slow.travel / 50)
    own = machine_drawing(stock, "laser", CutterSpec(speed=10.0, travel_speed=20.0))
    assert own.seconds == pytest.approx((own.cut_length + own.drawn_length) / 10 + own.travel / 20)


def test_a_stock_anywhere_is_drawn_from_its_corner() -> None:
    here = machine_drawing(piece(rows((SQUARE,), 99, 99), 99, 99), "laser", CutterSpec())
    there = machine_drawing(piece(rows((SQUARE,), 99, 99), 99, 99, at=(-300.0, 120.0)), "laser", CutterSpec())
    assert (there.width, there.height) == (here.width, here.height) == (99, 99)
    for one, other in zip(here.drawn, there.drawn, strict=True):
        assert one.part == other.part
        for a, b in zip(one.outlines, other.outlines, strict=True):
            assert all(p == pytest.approx(q) for p, q in zip(a.points, b.points, strict=True))


def place_of(job: Job) -> Drawn:
    (drawn,) = [one for one in job.drawn if one.part == f"{PLACE}-mark"]
    return drawn


def test_the_edge_of_the_stock_is_drawn_for_the_hand_only() -> None:
    assert any(line.closed for line in place_of(made("gussets by hand")).lines)
    for case in ("cards by laser", "gussets by knife"):
        drawn = place_of(made(case))
        assert all(math.dist(*_box(line.points)) < 10 for line in drawn.lines)
        assert not drawn.outlines


def test_names_stand_upright_inside_their_piece() -> None:
    laid = rows(shipped("six-sided-treble", "gusset")[1], 300, 200, turn=lambda k: (0.0, 90.0, 180.0, 270.0)[k % 4])
    job = machine_drawing(piece(laid, 300, 200, SKIN), "hand", CutterSpec())
    names = {f"{one.id}-{one.number}": one for one in laid}
    found = 0
    for drawn in job.drawn:
        name = drawn.part.removesuffix("-text")
        if drawn.labels and name in names:
            found += 1
            (label,) = drawn.labels
            assert -90 < label.angle <= 90 or label.angle > 270
            shape = shapely.Polygon(names[name].points())
            lines = shapely.MultiLineString([line.points for line in names[name].lines()])
            letters = shapely.MultiLineString([stroke for stroke in strokes(label) if len(stroke) > 1])
            assert shape.buffer(-0.5).covers(letters)
            assert letters.distance(lines) > 0.2
    assert found == len(laid)


class TestCautions:
    def test_each_cutter_has_its_own(self) -> None:
        assert "never left alone" in " ".join(cautions("laser", leather=False))
        assert "cut toward the hand" not in " ".join(cautions("laser", leather=False))
        assert "skiving blades cut toward the hand" in " ".join(cautions("laser", leather=True))
        for cutter in ("knife", "hand"):
            assert "cut toward the hand" in " ".join(cautions(cutter, leather=False))
            assert "laser" not in " ".join(cautions(cutter, leather=True))
        assert all("Try every pattern in paper" in " ".join(cautions(cutter, leather=True)) for cutter in CUTTERS)

    @pytest.mark.parametrize("case", JOBS)
    def test_the_short_one_stands_in_the_drawing_clear_of_all_pieces(self, case: str) -> None:
        name, kinds, width, height, _, cutter, _ = JOBS[case]
        job = made(case)
        for drawings in filter(None, (job.drawn, job.back)):
            (label,) = [label for one in drawings for label in one.labels if label.text in SHORT.values()]
            assert label.text == SHORT[cutter]
            letters = shapely.MultiLineString(list(strokes(label)))
            assert shapely.box(0, 0, width, height).covers(letters)
            laid = rows(shipped(name, *kinds)[1], width, height, turn=half_turns)
            turned = drawings is job.back
            pieces = [shapely.Polygon([(width - x, y) if turned else (x, y) for x, y in one.points()]) for one in laid]
            assert min(letters.distance(shape) for shape in pieces) > 0.4
            if cutter != "hand" and "gusset" not in kinds:
                assert not letters.intersects(shapely.box(0, 0, 5, 5)), "the corner mark stands there"

    def test_letters_are_small_enough_to_keep_their_distance(self) -> None:
        outline = rectangle(0, 0, 100, 100).points
        heights = {}
        for room in (4.0, 2.9, 2.5):
            label = short_label("laser", outline, [rectangle(0, room, 100, 100).points])
            heights[room] = label.height if label else None
        assert heights == {4.0: 2.5, 2.9: 1.6, 2.5: None}

    def test_it_is_written_upright_where_there_is_no_other_room(self) -> None:
        outline = rectangle(0, 0, 100, 100).points
        label = short_label("laser", outline, [rectangle(5, 0, 100, 100).points])
        assert label is not None
        assert label.angle == 90
        letters = shapely.MultiLineString(list(strokes(label)))
        assert shapely.box(0.3, 0, 4.7, 100).covers(letters)

    def test_without_room_it_stands_above_and_that_is_told(self) -> None:
        full = flat(((0, 0), (99, 0), (99, 99), (0, 99)))
        job = machine_drawing(piece((Laid(full, "", 1, 0.0, 0.5, 0.5),), 100, 100), "laser", CutterSpec())
        (label,) = [label for one in job.drawn for label in one.labels if label.text == SHORT["laser"]]
        assert label.at[1] > 100
        assert job.height > label.at[1] + 2
        assert any("no free place on the stock for the caution" in note for note in job.notes)
        assert text_width(label.text, label.height) > 0

    def test_it_is_found_quickly_on_a_full_sheet(self) -> None:
        stock = piece(scattered(random.Random(2), 4000), 900, 600)
        assert short_label("laser", stock.outline, [one.points() for one in stock.laid]) is not None


def test_long_descriptions_are_whole_in_every_format() -> None:
    told = " ".join(cautions("laser", leather=True))
    assert len(told) > 400
    for version in ("r2010", "r12"):
        data = write_dxf(made("cards by laser").drawn, 400, 300, title="t", description=told, version=version)
        if version == "r12":
            lines = data.decode().splitlines()
            kept = [line.partition(": ")[2] for line in lines[:40] if line.startswith("description")]
        else:
            properties = Drawing.read(io.StringIO(data.decode())).header.custom_vars.properties
            kept = [value for key, value in properties if key.startswith("description")]
        assert " ".join(kept) == told
        assert all(len(line) <= 250 for line in kept)

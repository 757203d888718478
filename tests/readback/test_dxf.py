"""DXF read back by GDAL and by ezdxf's reader: units, layers, outlines, and what no audit finds.

DXF reference: $INSUNITS 4 is millimetres.
"""

from __future__ import annotations

import io
import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import ezdxf
import pytest
from ezdxf.document import Drawing
from ezdxf.entities.lwpolyline import LWPolyline
from hypothesis import given, strategies as st

from bellowscut.bellows import Bellows
from bellowscut.drawing import Drawn, Label, Line, Role
from bellowscut.export.dxf import _number as coordinate, write_dxf
from bellowscut.export.ink import LAYERS, inks_of
from bellowscut.layout.apart import apart
from bellowscut.parts import Part, make_parts
from bellowscut.schema import CutterSpec
from bellowscut.shapes import Outline, rectangle
from tests.readback.drawings import CASES, apart_by, at_origin, distinct, read_dxf, size_of

VERSIONS = ("r2010", "r12")

HOSTILE = "<&\"'> %%c \\P {\\fArial;x}\r\n  0\nSECTION\n\x00\x1b\ud800 \u00e9\u00df\u2300\u4e2d\U0001f41d " + "long " * 40

PLAIN = {"LINE", "LWPOLYLINE", "POLYLINE"}


def drawn_parts(bellows: Bellows, version: str, flatten: float | None = None) -> tuple[tuple[Part, ...], bytes]:
    parts = make_parts(bellows)
    width, height, drawn = apart(parts, (bellows.profile.name, "millimetres"))
    return parts, write_dxf(drawn, width, height, title="Invented", description="flesh side", version=version, flatten=flatten)


def opened(data: bytes) -> Drawing:
    return Drawing.read(io.StringIO(data.decode()))


def cut_bulges(data: bytes) -> list[list[float]]:
    lines = [entity for entity in opened(data).modelspace() if isinstance(entity, LWPolyline) and entity.dxf.layer == "CUT"]
    return [[bulge for *_, bulge in line.get_points("xyb")] for line in lines]


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize("case", CASES)
def test_every_outline_is_in_the_file(case: str, version: str, made: Callable[..., Bellows], tmp_path: Path) -> None:
    parts, data = drawn_parts(made(**CASES[case]), version)
    reads = read_dxf(data, tmp_path)
    cuts = [read for read in reads if read.layer == "CUT"]
    assert len(cuts) == sum(1 + len(part.holes) for part in parts)
    assert all(read.closed for read in cuts)
    for part in parts:
        near = min(cuts, key=lambda read: math.dist(read.size, size_of(part.outline)))
        assert near.size == pytest.approx(size_of(part.outline), abs=0.001)
        assert min(apart_by(read.at_origin, at_origin(part)) for read in cuts if math.dist(read.size, near.size) < 0.01) < 0.006
    rest = [read for read in reads if read.layer not in ("TEXT", "SCALE", "CUT")]
    wanted = [line.role.value.upper() for part in parts for line in (*part.lines, *part.back)]
    assert sorted(read.layer for read in rest) == sorted(wanted)
    assert distinct([*cuts, *rest], lambda read: read.layer), "no line twice on one layer"
    assert all(math.isfinite(value) for read in reads for point in read.points for value in point)


@pytest.mark.parametrize("version", VERSIONS)
def test_the_file_is_sound(version: str, six_fold: Bellows) -> None:
    _, data = drawn_parts(six_fold, version)
    doc = opened(data)
    audit = doc.audit()
    assert not audit.errors
    assert not audit.fixes
    entities = list(doc.modelspace())
    assert {entity.dxftype() for entity in entities} <= PLAIN
    assert [block.name.lower() for block in doc.blocks if not block.is_any_layout] == []
    used = {entity.dxf.layer for entity in entities}
    assert used == set(LAYERS)
    for name in used:
        assert name.isascii()
        layer = doc.layers.get(name)
        assert layer.dxf.linetype.lower() == "continuous"
    assert len({doc.layers.get(name).color for name in LAYERS}) == len(LAYERS), "a colour a layer"
    assert all(entity.dxf.get("color", 256) == 256 for entity in entities), "colour by layer"
    if version == "r12":
        return
    handles = [entity.dxf.handle for entity in entities]
    assert len(handles) == len(set(handles))
    assert all(int(handle, 16) < int(doc.header["$HANDSEED"], 16) for handle in handles)


@pytest.mark.parametrize("version", VERSIONS)
def test_unit_and_extents(version: str, six_fold: Bellows, tmp_path: Path) -> None:
    _, data = drawn_parts(six_fold, version)
    doc = opened(data)
    if version == "r2010":
        assert doc.header["$INSUNITS"] == 4
        assert doc.header["$MEASUREMENT"] == 1
        assert tuple(doc.modelspace().dxf.extmax)[:2] == tuple(doc.header["$EXTMAX"])[:2]
    low, high = doc.header["$EXTMIN"], doc.header["$EXTMAX"]
    reads = read_dxf(data, tmp_path)
    assert all(low[0] <= x <= high[0] and low[1] <= y <= high[1] for read in reads for x, y in read.points)
    assert high[0] < 1000
    bars = max((read for read in reads if read.layer == "SCALE"), key=lambda read: read.size)
    assert bars.size == pytest.approx((100, 100), abs=1e-5)


def test_true_arcs_and_chords(made: Callable[..., Bellows]) -> None:
    bellows = made()
    _, arcs = drawn_parts(bellows, "r2010")
    _, chords = drawn_parts(bellows, "r2010", 0.005)
    assert sum(any(line) for line in cut_bulges(arcs)) == 3, "card, gusset, end gusset"
    assert len(cut_bulges(chords)) == len(cut_bulges(arcs))
    assert not any(any(line) for line in cut_bulges(chords))


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize("flatten", [None, 0.005, 0.1])
@pytest.mark.parametrize("bulge", [0.05, 0.41421356, 1.0, -0.3, -1.0])
def test_arcs_of_every_size(bulge: float, flatten: float | None, version: str, tmp_path: Path) -> None:
    outline = Outline(((20, 20), (50, 31), (25, 60)), (bulge, 0.0, -bulge / 2))
    data = write_dxf((Drawn("a", (outline,)),), 90, 90, title="", description="", version=version, flatten=flatten)
    (read,) = read_dxf(data, tmp_path)
    assert read.closed
    assert apart_by(read.points, outline.flattened(1e-4)) < (flatten or 0) + 0.001


def test_names_in_full_in_the_newer_format(tmp_path: Path) -> None:
    drawn = Drawn("a", (rectangle(0, 0, 9, 9),), labels=(Label(HOSTILE, (1, 1), 3),))
    data = write_dxf((drawn,), 20, 20, title=HOSTILE, description="Gl\u00fcck \u4e2d, flesh side")
    doc = opened(data)
    kept = dict(doc.header.custom_vars.properties)
    assert kept["description"] == "Gl\u00fcck \u4e2d, flesh side"
    assert kept["units"] == "millimetres"
    assert kept["title"].startswith("<&\"'> %%c \\P {\\fArial;x}??  0?SECTION????")
    assert "\u00e9\u00df\u2300\u4e2d\U0001f41d" in kept["title"]
    assert len(kept["title"]) <= 255
    assert len([read for read in read_dxf(data, tmp_path) if read.layer == "CUT"]) == 1


def test_names_as_comments_in_the_oldest(tmp_path: Path) -> None:
    drawn = Drawn("a", (rectangle(0, 0, 9, 9),), labels=(Label(HOSTILE, (1, 1), 3),))
    data = write_dxf((drawn,), 20, 20, title=HOSTILE, description="fingerprint 0123, flesh side", version="r12")
    assert data.isascii()
    lines = data.decode().splitlines()
    assert lines[0] == "999"
    assert lines[1].startswith("title: <&\"'> %%c \\P")
    assert "\\U+00E9\\U+00DF\\U+2300\\U+4E2D\\U+D83D\\U+DC1D" in lines[1]
    assert lines[2:4] == ["999", "description: fingerprint 0123, flesh side"]
    assert lines[4:6] == ["999", "units: millimetres"]
    assert len([read for read in read_dxf(data, tmp_path) if read.layer == "CUT"]) == 1


@pytest.mark.parametrize("version", VERSIONS)
def test_open_lines_stay_open(version: str, tmp_path: Path) -> None:
    lines = (
        Line(Role.MARK, ((1, 1), (5, 1), (5, 7))),
        Line(Role.SKIVE, ((1, 1), (9, 9))),
        Line(Role.MARK, ((2, 2), (4, 2), (3, 4)), closed=True),
    )
    reads = read_dxf(write_dxf((Drawn("a", (), lines),), 20, 20, title="", description="", version=version), tmp_path)
    assert [(read.layer, read.points, read.closed) for read in reads] == [
        ("MARK", ((1, 1), (5, 1), (5, 7)), False),
        ("MARK", ((2, 2), (4, 2), (3, 4)), True),
        ("SKIVE", ((1, 1), (9, 9)), False),
    ]


def test_holes_come_before_their_outline(tmp_path: Path) -> None:
    drawn = Drawn("a", (rectangle(0, 0, 30, 30), rectangle(10, 10, 20, 20)), (Line(Role.MARK, ((1, 1), (2, 2))),))
    reads = read_dxf(write_dxf((drawn, replace(drawn, part="b")), 40, 40, title="", description=""), tmp_path)
    assert [read.size for read in reads] == 2 * [(1, 1)] + 2 * [(10, 10), (30, 30)], "all marks before the first cut"


@pytest.mark.parametrize("version", VERSIONS)
def test_a_layer_has_its_own_colour_and_width(version: str) -> None:
    """DXF reference: 1 red, 5 blue, 7 black on white; true colours and widths (in hundredths of a millimetre) are unknown to R12."""
    spec = CutterSpec(cut_colour="#ff0000", crease_colour="#0000ff", mark_colour="#000000", text_colour="#000000", cut_line_width=0.01)
    drawn = Drawn("a", (rectangle(0, 0, 9, 9),))
    doc = opened(write_dxf((drawn,), 20, 20, title="", description="", version=version, inks=inks_of(spec)))
    assert [doc.layers.get(name).color for name in ("CUT", "CREASE", "MARK", "TEXT")] == [1, 5, 7, 7]
    if version == "r2010":
        cut, crease = doc.layers.get("CUT"), doc.layers.get("CREASE")
        assert (tuple(cut.rgb or ()), cut.dxf.lineweight) == ((255, 0, 0), 0)
        assert (tuple(crease.rgb or ()), crease.dxf.lineweight) == ((0, 0, 255), 5)


@pytest.mark.parametrize("version", VERSIONS)
def test_colours_that_are_not_the_same_keep_numbers_apart(version: str) -> None:
    spec = CutterSpec(cut_colour="#f0f0c0", crease_colour="#f0c8c0", mark_colour="#f0c8c1")
    doc = opened(write_dxf((Drawn("a", ()),), 20, 20, title="", description="", version=version, inks=inks_of(spec)))
    numbers = [doc.layers.get(name).color for name in LAYERS]
    assert len(set(numbers)) == len(LAYERS)


def test_the_switch_of_ezdxf_is_put_back(six_fold: Bellows) -> None:
    options = ezdxf.options  # type: ignore[attr-defined]
    for held in (False, True):
        options.write_fixed_meta_data_for_testing = held
        drawn_parts(six_fold, "r12")
        assert options.write_fixed_meta_data_for_testing is held
    options.write_fixed_meta_data_for_testing = False


def test_a_version_that_is_not_known() -> None:
    with pytest.raises(KeyError):
        write_dxf((), 10, 10, title="", description="", version="r13")


@given(st.floats(-1e6, 1e6))
def test_coordinates_are_written_to_a_millionth(value: float) -> None:
    written = coordinate(value)
    assert float(written) == round(value, 6)
    assert written != "-0.0"

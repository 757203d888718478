"""SVG read back: size, groups, outlines, names, the same bytes every time.

SVG 1.1 and CSS Values: a width in millimetres and a matching viewBox draw at true size.
"""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from defusedxml.ElementTree import fromstring

from bellowscut.bellows import Bellows
from bellowscut.drawing import Drawn, Label, Line, Role
from bellowscut.export.ink import INKS, LAYERS, inks_of
from bellowscut.export.svg import write_svg
from bellowscut.layout.apart import apart
from bellowscut.parts import Part, make_parts
from bellowscut.schema import CutterSpec
from bellowscut.shapes import Outline, rectangle
from tests.readback.drawings import CASES, apart_by, at_origin, distinct, read_svg, size_of

SVG = "{http://www.w3.org/2000/svg}"

HOSTILE = "<&\"'> %%c \\P {\\fArial;x} \x00\x07\x1b \ud800 \u202e \u00e9\u00df\u2300\u4e2d\U0001f41d ]]> -- " + "long " * 40


def drawn_parts(bellows: Bellows) -> tuple[tuple[Part, ...], bytes]:
    parts = make_parts(bellows)
    width, height, drawn = apart(parts, (bellows.profile.name, "millimetres"))
    return parts, write_svg(drawn, width, height, title="Invented", description="in millimetres, flesh side")


@pytest.mark.parametrize("case", CASES)
def test_every_outline_is_where_it_should_be(case: str, made: Callable[..., Bellows], tmp_path: Path) -> None:
    parts, data = drawn_parts(made(**CASES[case]))
    reads = list(read_svg(data, tmp_path))
    cuts = [read for read in reads if read.layer == "CUT"]
    assert len(cuts) == sum(1 + len(part.holes) for part in parts)
    assert all(read.closed for read in cuts)
    for part in parts:
        own = [read for read in cuts if read.part == part.id]
        outline = max(own, key=lambda read: read.size)
        assert outline.size == pytest.approx(size_of(part.outline), abs=0.001)
        assert apart_by(outline.at_origin, at_origin(part)) < 0.006


@pytest.mark.parametrize("case", CASES)
def test_lines_keep_their_role_and_none_is_drawn_twice(case: str, made: Callable[..., Bellows], tmp_path: Path) -> None:
    parts, data = drawn_parts(made(**CASES[case]))
    reads = [read for read in read_svg(data, tmp_path) if read.layer not in ("TEXT", "SCALE")]
    wanted = sorted((part.id, line.role.value.upper()) for part in parts for line in part.lines)
    wanted += [(f"{part.id}-back", line.role.value.upper()) for part in parts for line in part.back]
    assert sorted((read.part, read.layer) for read in reads if read.layer != "CUT") == sorted(wanted)
    assert distinct(reads, lambda read: read.layer)


def test_a_back_is_never_cut(made: Callable[..., Bellows], tmp_path: Path) -> None:
    parts, data = drawn_parts(made(**CASES["scored run"]))
    backs = [read for read in read_svg(data, tmp_path) if read.part.endswith("-back")]
    assert {read.layer for read in backs} == {"CREASE", "MARK", "TEXT"}
    (run,) = [part for part in parts if part.kind == "card-run"]
    outline = max((read for read in backs if read.layer == "MARK"), key=lambda read: read.size)
    assert apart_by(outline.at_origin, at_origin(run.mirrored())) < 0.006


def test_page_and_groups(six_fold: Bellows) -> None:
    parts, data = drawn_parts(six_fold)
    root = fromstring(data)
    assert root.get("width", "").endswith("mm")
    assert root.get("viewBox") == f"0 0 {root.get('width', '')[:-2]} {root.get('height', '')[:-2]}"
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert {f"{part.id}-cut" for part in parts} < set(ids)
    assert {"scale", "gusset-cut", "gusset-crease", "gusset-skive", "gusset-mark", "gusset-text"} < set(ids)
    for group in root.iter(f"{SVG}g"):
        layer = "SCALE" if group.get("id") == "scale" else (group.get("id") or "").rsplit("-", maxsplit=1)[-1].upper()
        if layer in INKS and not (group.get("id") or "").startswith("layer-"):
            assert group.get("fill") == "none"
            assert group.get("stroke") == INKS[layer].colour
    assert not list(root.iter(f"{SVG}text")), "a machine may lack the font"
    description = root.find(f"{SVG}desc")
    assert description is not None
    assert description.text == "in millimetres, flesh side"


def test_the_measuring_bars_are_true(six_fold: Bellows, tmp_path: Path) -> None:
    _, data = drawn_parts(six_fold)
    bars = max((read for read in read_svg(data, tmp_path) if read.layer == "SCALE"), key=lambda read: read.size)
    assert bars.size == pytest.approx((100, 100), abs=1e-4)


def test_letters_are_not_mirrored(tmp_path: Path) -> None:
    label = Label("L", (10, 20), 10)
    data = write_svg((Drawn("a", (rectangle(0, 0, 40, 50),), labels=(label,)),), 60, 60, title="", description="")
    points = [point for read in read_svg(data, tmp_path) if read.layer == "TEXT" for point in read.points]
    low = min(y for _, y in points)
    assert low == pytest.approx(20, abs=1e-3), "the letter stands on its base line"
    foot = [x for x, y in points if y == pytest.approx(low)]
    stem = [x for x, y in points if y > low + 1]
    assert max(foot) > max(stem), "the foot of an L points to the right"


@pytest.mark.parametrize("bulge", [0.05, 0.2, 0.41421356, 0.7, 1.0, -0.3, -1.0])
def test_arcs_of_every_size(bulge: float, tmp_path: Path) -> None:
    outline = Outline(((20, 20), (50, 31), (25, 60)), (bulge, 0.0, -bulge / 2))
    data = write_svg((Drawn("a", (outline,)),), 90, 90, title="", description="")
    (read,) = read_svg(data, tmp_path)
    assert apart_by(read.points, outline.flattened(1e-4)) < 0.002


def test_a_small_round_hole_keeps_its_middle(tmp_path: Path) -> None:
    """Half a turn at once would take its middle from the last digits: out by 0.009 mm here."""
    x, y, radius = 20.12337, 30.98766, 0.75006
    outline = Outline(((x + radius, y), (x - radius, y)), (1.0, 1.0))
    (read,) = read_svg(write_svg((Drawn("a", (outline,)),), 90, 90, title="", description=""), tmp_path)
    assert apart_by(read.points, outline.flattened(1e-5)) < 0.0005


def test_flattened_when_asked(tmp_path: Path) -> None:
    outline = Outline(((20, 20), (50, 20)), (1.0, 1.0))
    data = write_svg((Drawn("a", (outline,)),), 90, 90, title="", description="", flatten=0.05)
    (read,) = read_svg(data, tmp_path)
    assert 8 < len(read.points) < 60, "chords, not arcs"
    assert apart_by(read.points, outline.flattened(1e-4)) == pytest.approx(0.05, abs=0.03)


def test_names_with_every_sort_of_sign() -> None:
    drawn = (Drawn("a", (rectangle(0, 0, 9, 9),), labels=(Label(HOSTILE, (1, 1), 3),)), Drawn("a", (rectangle(0, 0, 9, 9),)))
    root = fromstring(write_svg(drawn, 20, 20, title=HOSTILE, description=HOSTILE))
    title = root.find(f"{SVG}title")
    assert title is not None
    assert title.text is not None
    assert "<&\"'> %%c \\P {\\fArial;x} ??? ? \u202e \u00e9\u00df\u2300\u4e2d\U0001f41d ]]> --" in title.text
    label = [element.text for path in root.iter(f"{SVG}path") for element in path.iter(f"{SVG}title")]
    assert label == [title.text], "a label keeps its full text"
    assert [group.get("id") for layer in root.findall(f"{SVG}g") for group in layer] == ["a-text", "a-cut", "a-2-cut"]


def test_an_empty_label_leaves_nothing() -> None:
    drawn = Drawn("a", (), (Line(Role.MARK, ((1, 1), (2, 2))),), (Label("  ", (1, 1), 3), Label("", (1, 1), 3)))
    root = fromstring(write_svg((drawn,), 20, 20, title="", description=""))
    assert len(list(root.iter(f"{SVG}path"))) == 1


def test_layers_open_as_layers_and_are_worked_from_letters_to_cuts(six_fold: Bellows) -> None:
    """Vector editors know a layer by an attribute in a name space of theirs, documented for everybody (from memory)."""
    editor = "{http://www.inkscape.org/namespaces/inkscape}"
    parts, data = drawn_parts(six_fold)
    root = fromstring(data)
    layers = root.findall(f"{SVG}g")
    assert [layer.get(f"{editor}groupmode") for layer in layers] == ["layer"] * len(LAYERS)
    assert tuple(layer.get(f"{editor}label") for layer in layers) == LAYERS
    assert b'inkscape:groupmode="layer"' in data, "some programs look for the prefix"
    for layer, name in zip(layers, LAYERS, strict=True):
        own = [group.get("id") or "" for group in layer]
        assert all(one.endswith(name.lower()) for one in own)
    assert [group.get("id") for group in layers[-1]] == [f"{part.id}-cut" for part in parts]


def test_a_layer_has_its_own_colour_and_width() -> None:
    spec = CutterSpec(cut_colour="#0000ff", cut_line_width=0.01, mark_colour="#000000", mark_line_width=0.3)
    lines = (Line(Role.MARK, ((1, 1), (5, 5))),)
    data = write_svg((Drawn("a", (rectangle(0, 0, 9, 9),), lines),), 20, 20, title="", description="", inks=inks_of(spec))
    groups = {group.get("id"): group for group in fromstring(data).iter(f"{SVG}g")}
    assert (groups["a-cut"].get("stroke"), groups["a-cut"].get("stroke-width")) == ("#0000ff", "0.01")
    assert (groups["a-mark"].get("stroke"), groups["a-mark"].get("stroke-width")) == ("#000000", "0.3")


SCRIPT = """
import hashlib
from bellowscut.bellows import build
from bellowscut.export.dxf import write_dxf
from bellowscut.export.svg import write_svg
from bellowscut.layout.apart import apart
from bellowscut.parts import make_parts
from bellowscut.profile import loads
from tests.conftest import FIVE_LINES
width, height, drawn = apart(make_parts(build(loads(FIVE_LINES))))
said = {"title": "t", "description": "d"}
files = write_svg(drawn, width, height, **said), write_dxf(drawn, width, height, **said), write_dxf(drawn, width, height, version="r12", **said)
print([hashlib.sha256(data).hexdigest() for data in files])
"""


def test_the_same_bytes_every_time() -> None:
    """SVG and both sorts of DXF, whatever the seed of Python's hashes and the date."""
    found = set()
    for seed, date in (("1", "0"), ("77", "1700000000")):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "SOURCE_DATE_EPOCH": date}
        root = Path(__file__).parents[2]
        run = subprocess.run([sys.executable, "-c", SCRIPT], env=environment, cwd=root, capture_output=True, text=True, check=True)
        assert run.stderr == ""
        assert run.stdout.count("'") == 6
        assert hashlib.sha256(b"").hexdigest() not in run.stdout
        found.add(run.stdout)
    assert len(found) == 1

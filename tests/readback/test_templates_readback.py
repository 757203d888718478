"""Templates read back: a knife follows them, so their outline is the part's own, and nothing on them is too thin."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
import shapely

from bellowscut.bellows import Bellows
from bellowscut.drawing import Drawn
from bellowscut.export.dxf import write_dxf
from bellowscut.export.svg import write_svg
from bellowscut.pages.templates import templates
from bellowscut.parts import make_parts
from tests.readback.drawings import CASES, Read, apart_by, at_origin, read_dxf, read_svg, size_of

RIM = 3.0


def svg(drawn: tuple[Drawn, ...], width: float, height: float) -> bytes:
    return write_svg(drawn, width, height, title="Invented", description="flesh side")


@pytest.mark.parametrize("case", CASES)
def test_svg_templates_are_the_parts(case: str, made: Callable[..., Bellows], tmp_path: Path) -> None:
    bellows = made(**CASES[case])
    parts = {part.id: part for part in make_parts(bellows)}
    width, height, drawn = templates(bellows, tuple(parts.values()))
    reads = list(read_svg(svg(drawn, width, height), tmp_path))
    cut: dict[str, list[Read]] = {}
    for read in reads:
        if read.layer == "CUT":
            assert read.closed
            cut.setdefault(read.part, []).append(read)
    assert {"gusset", "strip"} <= {name.rstrip("-ABCDEFGHIJKLNOP").rsplit("-", maxsplit=1)[-1] for name in cut}
    for name, outlines in cut.items():
        part = parts[name]
        outline = max(outlines, key=lambda read: read.size)
        if part.strip:
            assert outline.size[1] == pytest.approx(size_of(part.outline)[1], abs=0.001), "a batten is as wide as its strip"
            assert outline.size[0] < 300.001
        else:
            assert outline.size == pytest.approx(size_of(part.outline), abs=0.001)
            assert apart_by(outline.at_origin, at_origin(part)) < 0.006
        rings = [shapely.LinearRing(read.points) for read in outlines]
        least = min((a.distance(b) for k, a in enumerate(rings) for b in rings[:k]), default=RIM)
        assert least > RIM - 0.002


@pytest.mark.parametrize("case", ["six sides", "oblong"])
def test_dxf_templates_hold_the_same(case: str, made: Callable[..., Bellows], tmp_path: Path) -> None:
    bellows = made(**CASES[case])
    width, height, drawn = templates(bellows, make_parts(bellows))
    in_svg = read_svg(svg(drawn, width, height), tmp_path)
    in_dxf = read_dxf(write_dxf(drawn, width, height, title="Invented", description="flesh side"), tmp_path)
    first = [read for read in in_svg if read.layer == "CUT"]
    second = [read for read in in_dxf if read.layer == "CUT"]
    assert len(first) == len(second) > 4
    for one, other in zip(first, second, strict=True):
        assert apart_by(one.points, other.points) < 0.002

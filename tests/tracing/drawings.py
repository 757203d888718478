"""Drawings written by hand for the tests of tracings, and how to read them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from bellowscut.shapes import Point
from bellowscut.tracing import Tracing, TracingError, read_tracing

MILLIMETRES = 'width="1000mm" height="800mm" viewBox="0 0 1000 800"'

SKIN = '<path d="M100 100 h500 v300 h-500 z"/>'
"""500 by 300 mm, its lower left corner at (100, 400) of the drawing, y down."""


def svg(body: str, sizes: str = MILLIMETRES) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:tool="http://tool.invalid/ns" {sizes}>{body}</svg>'


def dxf(entities: str, units: int | None = 4, tables: str = "") -> str:
    header = "" if units is None else f"9\n$INSUNITS\n70\n{units}\n"
    return (
        f"0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1024\n{header}0\nENDSEC\n"
        f"0\nSECTION\n2\nTABLES\n{tables}0\nENDSEC\n0\nSECTION\n2\nENTITIES\n{entities}0\nENDSEC\n0\nEOF\n"
    )


def line(*ends: float, layer: str = "0", more: str = "") -> str:
    x1, y1, x2, y2 = ends
    return f"0\nLINE\n8\n{layer}\n{more}10\n{x1}\n20\n{y1}\n11\n{x2}\n21\n{y2}\n"


def polyline(points: Sequence[Sequence[float]], *, closed: bool = True, layer: str = "0", more: str = "") -> str:
    corners = "".join(f"10\n{x}\n20\n{y}\n" + (f"42\n{bulge[0]}\n" if bulge else "") for x, y, *bulge in points)
    return f"0\nLWPOLYLINE\n8\n{layer}\n90\n{len(points)}\n70\n{int(closed)}\n{more}{corners}"


RECTANGLE = polyline([(0, 0), (500, 0), (500, 300), (0, 300)])


def read(folder: Path, name: str, content: str | bytes, area: float | None = None, check_length: float | None = None) -> Tracing:
    path = folder / name
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return read_tracing(path, area, check_length)


def refusal(folder: Path, name: str, content: str | bytes, area: float | None = None, check_length: float | None = None) -> str:
    with pytest.raises(TracingError) as caught:
        read(folder, name, content, area, check_length)
    (said,) = caught.value.lines()
    assert "\n" not in said
    assert len(said) < 400
    assert str(folder) not in said
    return said


def apart(first: Sequence[Point], second: Sequence[Point]) -> float:
    """Greatest distance from one outline to the other [mm]."""
    return ring(first).exterior.hausdorff_distance(ring(second).exterior)


def ring(points: Sequence[Point]) -> BaseGeometry:
    return shapely.Polygon(points)


def rectangle(left: float, low: float, right: float, high: float) -> list[Point]:
    return [(left, low), (right, low), (right, high), (left, high)]

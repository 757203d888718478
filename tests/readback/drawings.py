"""Machine drawings read by programs that did not write them: SVG by svgelements and defusedxml, DXF by GDAL."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

import shapely
from svgelements import SVG, Arc, Close, Group, Line, Move, Path as SvgPath

from bellowscut.parts import Part
from bellowscut.shapes import Outline

os.environ["OGR_ARC_STEPSIZE"] = "0.1"
"""Degrees from chord to chord in which GDAL reads an arc; it looks once, before the first file."""

Coordinates = tuple[tuple[float, float], ...]

CASES: dict[str, dict[str, dict[str, object]]] = {
    "six sides": {},
    "oblong": {
        "section": {"shape": "rectangle", "width": 250, "height": 120},
        "edge_strip": {"darts": True},
        "facing": {"span": "pair"},
        "corner_patch": {},
    },
    "twelve sides": {"section": {"shape": "regular", "sides": 12, "end_size": 200}, "bellows": {"fold_depth": 22}, "facing": {}},
    "scored run": {"card": {"build": "run"}},
    "valley ends": {"bellows": {"ends": "valley"}, "valley_strip": {}, "ridge_cloth": {}},
    "uneven": {
        "section": {"shape": "measured", "corners": [[0, 0], [90, -3], [140, 70], [95, 150], [5, 155], [-45, 72]]},
        "bellows": {"fold_depth": 22},
        "edge_strip": {"run": "per-side"},
    },
}
"""Invented instruments, as changes to the five-line profile."""


@dataclass(frozen=True)
class Read:
    """One line of a file, y up, in millimetres."""

    part: str
    layer: str
    points: Coordinates
    closed: bool

    @property
    def at_origin(self) -> Coordinates:
        """Its points with the lower left corner of its box at the origin."""
        left, low = min(x for x, _ in self.points), min(y for _, y in self.points)
        return tuple((x - left, y - low) for x, y in self.points)

    @property
    def size(self) -> tuple[float, float]:
        return max(x for x, _ in self.at_origin), max(y for _, y in self.at_origin)


def read_svg(data: bytes, place: Path) -> Iterator[Read]:
    """Every line of an SVG, with the ids of the groups that it stands in."""
    path = place / "drawing.svg"
    path.write_bytes(data)
    svg = SVG.parse(str(path), ppi=25.4, reify=True)
    height = float(svg.height)

    def walk(group: Iterable[object], part: str, layer: str) -> Iterator[Read]:
        name = vars(group)["values"].get("attributes", {}).get("id") or ""
        if name.startswith("layer-"):
            layer = name.removeprefix("layer-").upper()
        elif name:
            part = name.removesuffix(f"-{layer.lower()}")
        for one in group:
            if isinstance(one, Group):
                yield from walk(one, part, layer)
            elif isinstance(one, SvgPath):
                yield from _runs(one.segments(), part, layer, height)

    return walk(svg, "", "")


def _runs(segments: Iterable[object], part: str, layer: str, height: float) -> Iterator[Read]:
    points: list[tuple[float, float]] = []
    closed = False
    for segment in segments:
        if isinstance(segment, Move):
            if points:
                yield Read(part, layer, tuple(points), closed)
            points, closed = [(segment.end.x, height - segment.end.y)], False
        elif isinstance(segment, Close):
            closed = True
        elif isinstance(segment, Arc | Line):
            steps = 200 if isinstance(segment, Arc) else 1
            for k in range(1, steps + 1):
                at = segment.point(k / steps)
                points.append((at.x, height - at.y))
    if closed and points[0] == points[-1]:
        points.pop()
    yield Read(part, layer, tuple(points), closed)


def read_dxf(data: bytes, place: Path) -> list[Read]:
    """Every line of a DXF as GDAL reads it; the format does not say which part a line is of."""
    from pyogrio import raw

    path = place / "drawing.dxf"
    path.write_bytes(data)
    meta, _, shapes, columns = raw.read(path)
    layers = columns[list(meta["fields"]).index("Layer")]
    found = []
    for layer, shape in zip(layers, shapely.from_wkb(shapes), strict=True):
        assert shape.geom_type == "LineString"
        points = tuple((x, y) for x, y, *_ in shape.coords)
        closed = len(points) > 3 and points[0] == points[-1]
        found.append(Read("", layer, points[:-1] if closed else points, closed))
    return found


def size_of(outline: Outline) -> tuple[float, float]:
    """Width and height of an outline with its true arcs [mm]."""
    return Read("", "", outline.flattened(1e-6), closed=True).size


def at_origin(part: Part) -> Coordinates:
    """The listed points of a part, moved so that the box of its true arcs has its lower left corner at the origin."""
    true = part.outline.flattened(1e-6)
    left, low = min(x for x, _ in true), min(y for _, y in true)
    return tuple((x - left, y - low) for x, y in part.points)


def apart_by(first: Coordinates, second: Coordinates) -> float:
    """Greatest distance of either closed line from the other [mm]."""
    lines = shapely.LinearRing(first), shapely.LinearRing(second)
    return float(shapely.hausdorff_distance(*lines))


def distinct(reads: list[Read], key: Callable[[Read], object]) -> bool:
    """Whether no two lines are the same to 0.001 mm, either way round."""
    seen = set()
    for read in reads:
        ends = tuple(sorted((round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in read.points))
        if (key(read), ends) in seen:
            return False
        seen.add((key(read), ends))
    return True

"""Where one piece may not lie because of another, and where it may lie on the stock.

A piece is worked with in a fixed turn, cut into convex parts about a reference point inside it. The positions of the reference point at which
two convex parts overlap fill their Minkowski sum; a gap grows that sum by a disc. All lengths in millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from bellowscut.nesting.convex import FloatArray, convex_parts, fatten, minkowski
from bellowscut.nesting.model import Polygon, Shape, Stock
from bellowscut.shapes import cos_sin, signed_area

NUDGE = 1e-7
"""A point on a boundary is not found inside it, so feasible regions are grown by this much [mm]."""


MANY, FEW = 120, 400
"""An outline of more points than this is drawn with fewer, the second number at most where that can be [-]."""

ROUGH = (0.1, 0.25, 0.5, 1.0)
"""How far off its edge may be when it is, twice over at most [mm], the first that leaves few points."""


@dataclass(frozen=True, eq=False)
class Pose:
    """A shape in one turn, about its reference point.

    Parameters
    ----------
    shape : Shape
        The shape.
    turn : float
        Its turn [deg].
    parts : tuple of ndarray, shape (n, 2)
        Convex parts [mm], counter-clockwise, about the reference point.
    origin : tuple of float
        Where the part's own origin lies from the reference point [mm].
    """

    shape: Shape
    turn: float
    parts: tuple[FloatArray, ...]
    origin: tuple[float, float]

    @property
    def points(self) -> FloatArray:
        """All corner points of the convex parts [mm]."""
        return np.concatenate(self.parts)


@lru_cache(maxsize=256)
def _cut(points: Polygon) -> tuple[tuple[FloatArray, ...], tuple[float, float]]:
    """Convex parts of an outline about a reference point inside it, and that point."""
    parts = convex_parts(points)
    low, high = np.concatenate(parts).min(axis=0), np.concatenate(parts).max(axis=0)
    middle = (low + high) / 2
    if not any(_inside(part, middle) for part in parts):
        widest = max(parts, key=lambda part: shapely.Polygon(part).area)
        middle = widest.mean(axis=0)
    return tuple(part - middle for part in parts), (float(middle[0]), float(middle[1]))


def _inside(part: FloatArray, point: FloatArray) -> bool:
    edges = np.roll(part, -1, axis=0) - part
    away = point - part
    return bool(np.all(edges[:, 0] * away[:, 1] - edges[:, 1] * away[:, 0] > 1e-9))


@lru_cache(maxsize=4096)
def pose(shape: Shape, turn: float) -> Pose:
    """A shape in one turn [deg]."""
    parts, middle = _cut(shape.points)
    cosine, sine = cos_sin(turn)
    turned = np.array([[cosine, sine], [-sine, cosine]])
    x, y = -cosine * middle[0] + sine * middle[1], -sine * middle[0] - cosine * middle[1]
    return Pose(shape, turn, tuple(part @ turned for part in parts), (x, y))


@lru_cache(maxsize=8192)
def no_fit(one: Pose, other: Pose, gap: float, step: float = 15.0) -> tuple[FloatArray, ...]:
    """Positions of the second pose's reference point from the first's at which they are nearer than the gap.

    Parameters
    ----------
    one, other : Pose
        The piece that lies and the piece to be laid.
    gap : float
        Least distance [mm].
    step : float
        Angle between tangents at round corners [deg].

    Returns
    -------
    tuple of ndarray, shape (n, 2)
        Convex outlines [mm], each open: its boundary is allowed.
    """
    return tuple(fatten(minkowski(a, -b), gap, step) for a in one.parts for b in other.parts)


def free_area(stock: Stock, kind: str, length: float | None = None) -> BaseGeometry:
    """The part of a stock in which pieces of a kind may lie [mm].

    Parameters
    ----------
    stock : Stock
        The stock.
    kind : str
        Kind of the piece, for barred zones.
    length : float or None
        For a roll: the length to use, with both margins [mm].

    Returns
    -------
    Geometry
        Polygons, perhaps several or none; an exact subset of the true area.
    """
    if stock.width is not None:
        room = 0.0 if length is None else length
        inner: BaseGeometry = shapely.box(stock.margin, stock.margin, room - stock.margin, stock.width - stock.margin)
        if room <= 2 * stock.margin or stock.width < 2 * stock.margin:
            inner = shapely.Polygon()
    else:
        points = stock.outline if signed_area(stock.outline) > 0 else tuple(reversed(stock.outline))
        inner = shapely.Polygon(points) if len(points) <= MANY else _moved_edge(points, -stock.margin)
        if stock.margin > 0 and len(points) <= MANY:
            inner = inner.difference(_border(points, stock.margin))
    taken = [_grown(flaw, stock.flaw_gap) if len(flaw) <= MANY else _moved_edge(flaw, stock.flaw_gap) for flaw in stock.flaws]
    zones = stock.barred.get(kind, ())
    taken += [shapely.Polygon(zone) if len(zone) <= MANY else _moved_edge(zone, 0.0) for zone in zones]
    return inner.difference(shapely.union_all(taken)) if taken else inner


def _moved_edge(points: Polygon, distance: float) -> BaseGeometry:
    """An outline of very many points grown by a distance, or shrunk by a negative one [mm], and drawn with few: a little more of it."""
    shape, way = shapely.Polygon(points), math.copysign(1.0, distance)
    plain: BaseGeometry = shape
    for off in ROUGH:
        # Simplified it stays within the distance by which it was moved further than asked.
        plain = shape.buffer(distance + way * off).simplify(off)
        if shapely.get_num_coordinates(plain) <= FEW:
            break
    return plain


def _border(points: Polygon, radius: float) -> BaseGeometry:
    """All points inside a counter-clockwise outline nearer than a radius to it; round only at hollow corners."""
    corners = np.asarray(points, dtype=float)
    corners = corners[np.hypot(*(corners - np.roll(corners, 1, axis=0)).T) > 1e-9]
    edges = np.roll(corners, -1, axis=0) - corners
    edges /= np.hypot(edges[:, 0], edges[:, 1])[:, None]
    inward = np.stack((-edges[:, 1], edges[:, 0]), axis=1) * radius
    bands = []
    for i, corner in enumerate(corners):
        following, before = corners[(i + 1) % len(corners)], inward[i - 1]
        bands.append(shapely.Polygon((corner - inward[i], following - inward[i], following + inward[i], corner + inward[i])))
        if edges[i - 1][0] * edges[i][1] - edges[i - 1][1] * edges[i][0] < -1e-9:
            start, end = math.atan2(inward[i][1], inward[i][0]), math.atan2(before[1], before[0])
            sweep = (end - start) % (2 * math.pi)
            pieces = max(1, math.ceil(sweep / math.radians(7.5)))
            half = sweep / pieces / 2
            turns = [start + half * (2 * k + 1) for k in range(pieces)]
            arc = [corner + radius / math.cos(half) * np.array((math.cos(turn), math.sin(turn))) for turn in turns]
            bands.append(shapely.Polygon([corner, corner + inward[i], *arc, corner + before]))
    return shapely.union_all(bands)


def _grown(zone: Polygon, gap: float) -> BaseGeometry:
    """A zone and all nearer than a gap to it, never too small."""
    return shapely.union_all([shapely.Polygon(fatten(part, gap, 7.5)) for part in convex_parts(zone)])


def positions(area: BaseGeometry, piece: Pose) -> BaseGeometry:
    """Where the reference point of a pose may be so that the whole piece lies in an area.

    The area's boundary is swept by the reflected piece; what the sweep leaves of the area is the answer, grown by `NUDGE` so that a piece that
    fits exactly is found.

    Parameters
    ----------
    area : Geometry
        Polygons [mm].
    piece : Pose
        The piece.

    Returns
    -------
    Geometry
        Polygons [mm], perhaps none.
    """
    area = area.buffer(NUDGE, join_style="mitre")
    starts, ends = [], []
    for polygon in getattr(area, "geoms", (area,)):
        if polygon.is_empty:
            continue
        for ring in (polygon.exterior, *polygon.interiors):
            coordinates = shapely.get_coordinates(ring)
            starts.append(coordinates[:-1])
            ends.append(coordinates[1:])
    if not starts:
        return shapely.Polygon()
    start, end = np.concatenate(starts), np.concatenate(ends)
    swept: list[Any] = []
    for part in piece.parts:
        both = np.concatenate((start[:, None, :] - part[None], end[:, None, :] - part[None]), axis=1)
        count, corners = both.shape[:2]
        points = shapely.multipoints(both.reshape(-1, 2), indices=np.repeat(np.arange(count), corners))
        swept.append(shapely.convex_hull(points))
    return area.difference(shapely.union_all(np.concatenate(swept)))


def polygons_of(area: BaseGeometry) -> list[BaseGeometry]:
    """The single polygons of a geometry, without points and lines."""
    parts: Sequence[BaseGeometry] = shapely.get_parts(area).tolist()
    return [part for part in parts if part.geom_type == "Polygon" and not part.is_empty]

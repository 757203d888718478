from collections.abc import Iterable
from typing import Any

from shapely import affinity as affinity, ops as ops, prepared as prepared
from shapely.geometry import (
    GeometryCollection as GeometryCollection,
    LinearRing as LinearRing,
    LineString as LineString,
    MultiLineString as MultiLineString,
    MultiPoint as MultiPoint,
    MultiPolygon as MultiPolygon,
    Point as Point,
    Polygon as Polygon,
    box as box,
)
from shapely.geometry.base import BaseGeometry
from shapely.strtree import STRtree as STRtree

Geometry = BaseGeometry

def convex_hull(geometry: BaseGeometry) -> BaseGeometry: ...
def make_valid(geometry: BaseGeometry) -> BaseGeometry: ...
def prepare(geometry: BaseGeometry) -> None: ...
def set_precision(geometry: BaseGeometry, grid_size: float) -> BaseGeometry: ...
def union_all(geometries: Iterable[BaseGeometry]) -> BaseGeometry: ...

# The functions over whole arrays take and give numpy arrays of geometries.
def __getattr__(name: str) -> Any: ...

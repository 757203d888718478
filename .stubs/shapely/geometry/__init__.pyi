from collections.abc import Iterable, Sequence

from shapely.geometry.base import BaseGeometry as BaseGeometry, Coordinates

class Point(BaseGeometry):
    def __init__(self, *coordinates: float | Sequence[float]) -> None: ...

class LineString(BaseGeometry):
    def __init__(self, coordinates: Coordinates = ...) -> None: ...

class LinearRing(LineString):
    @property
    def is_ccw(self) -> bool: ...

class Polygon(BaseGeometry):
    def __init__(self, shell: Coordinates | BaseGeometry = ..., holes: Iterable[Coordinates | BaseGeometry] | None = ...) -> None: ...

class MultiPoint(BaseGeometry):
    def __init__(self, points: Coordinates = ...) -> None: ...

class MultiLineString(BaseGeometry):
    def __init__(self, lines: Iterable[Coordinates | BaseGeometry] = ...) -> None: ...

class MultiPolygon(BaseGeometry):
    def __init__(self, polygons: Iterable[BaseGeometry] = ...) -> None: ...

class GeometryCollection(BaseGeometry):
    def __init__(self, geoms: Iterable[BaseGeometry] = ...) -> None: ...

def box(minx: float, miny: float, maxx: float, maxy: float, ccw: bool = ...) -> Polygon: ...

"""What the nesting engine takes and gives back: plain data, no knowledge of what the pieces are for.

Lengths in millimetres, angles in degrees counter-clockwise, outlines counter-clockwise with y up.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from bellowscut.shapes import Point, cos_sin, signed_area
from bellowscut.words import nesting as words, say

Polygon = tuple[Point, ...]

NO_BARS: Mapping[str, tuple[Polygon, ...]] = MappingProxyType({})


def _check_outline(name: str, points: Polygon) -> None:
    """Refuse an outline that encloses nothing or holds a number that is not finite."""
    if len(points) < 3:
        raise ValueError(say(words.COUNT_OF_POINTS, name=name, number=len(points)))
    if not all(math.isfinite(value) for point in points for value in point):
        raise ValueError(say(words.NOT_FINITE, name=name))
    if abs(signed_area(points)) < 1e-6:
        raise ValueError(say(words.NO_AREA, name=name))


def _check_length(name: str, value: float) -> None:
    if not (math.isfinite(value) and value >= 0):
        raise ValueError(say(words.NOT_A_LENGTH, name=name, value=value))


@dataclass(frozen=True)
class AnyTurn:
    """A piece that may lie in any direction, or in any direction close to one.

    Parameters
    ----------
    centre : float
        Middle of the allowed turns [deg].
    tolerance : float
        Greatest difference from the middle either way [deg], 0 to 180; 180 allows every turn.
    both_ways : bool
        Whether the half turn of an allowed turn is allowed too.
    """

    centre: float = 0.0
    tolerance: float = 180.0
    both_ways: bool = True

    def __post_init__(self) -> None:
        if not (math.isfinite(self.centre) and 0 <= self.tolerance <= 180):
            raise ValueError(say(words.TOLERANCE_OUT_OF_RANGE, tolerance=self.tolerance))

    def allows(self, turn: float) -> bool:
        """Whether a turn [deg] is within the tolerance."""
        period = 180.0 if self.both_ways else 360.0
        away = abs((turn - self.centre + period / 2) % period - period / 2)
        return away <= self.tolerance + 1e-9


Turns = tuple[float, ...] | AnyTurn


@dataclass(frozen=True)
class Shape:
    """One sort of piece.

    Parameters
    ----------
    id : str
        Name by which placements call it.
    points : tuple of Point
        Outline [mm]; may have notches, must not cross itself.
    turns : tuple of float or AnyTurn
        Turns [deg] in which it may be laid.
    kind : str
        Name under which zones of the stock are barred to it; empty when none is.

    Raises
    ------
    ValueError
        For fewer than 3 points, no area, a crossing outline or no turn at all.
    """

    id: str
    points: Polygon
    turns: Turns = (0.0,)
    kind: str = ""

    def __post_init__(self) -> None:
        _check_outline(say(words.SHAPE, id=self.id), self.points)
        import shapely

        if not shapely.Polygon(self.points).is_valid:
            raise ValueError(say(words.SHAPE_CROSSES_ITSELF, id=self.id))
        if isinstance(self.turns, tuple) and not self.turns:
            raise ValueError(say(words.SHAPE_WITHOUT_TURN, id=self.id))
        if isinstance(self.turns, tuple) and not all(math.isfinite(turn) for turn in self.turns):
            raise ValueError(say(words.SHAPE_TURN_NOT_FINITE, id=self.id))

    def area(self) -> float:
        """Enclosed area [mm^2]."""
        return abs(signed_area(self.points))

    def allows(self, turn: float) -> bool:
        """Whether the piece may be laid at a turn [deg]."""
        if isinstance(self.turns, AnyTurn):
            return self.turns.allows(turn)
        return any(abs((turn - allowed + 180) % 360 - 180) < 1e-9 for allowed in self.turns)


@dataclass(frozen=True)
class Stock:
    """One skin, sheet or roll.

    Parameters
    ----------
    id : str
        Name by which placements call it.
    outline : tuple of Point
        Outline [mm]; empty for a roll.
    flaws : tuple of tuple of Point
        Outlines of places to keep clear of [mm].
    margin : float
        Least distance of a piece from the edge [mm].
    flaw_gap : float
        Least distance of a piece from a flaw [mm].
    gap : float
        Least distance between two pieces [mm].
    width : float or None
        For a roll: its width [mm], along y; the length runs along x from 0 and is open.
    barred : mapping of str to tuple of polygons
        Zones [mm] that pieces of a kind must not touch.
    heart : Point or None
        Where it is at its best [mm]: pieces that leave room to spare lie about there. None where it is as good everywhere.

    Raises
    ------
    ValueError
        For an outline without area, a negative distance, or neither outline nor width.
    """

    id: str
    outline: Polygon = ()
    flaws: tuple[Polygon, ...] = ()
    margin: float = 0.0
    flaw_gap: float = 0.0
    gap: float = 0.0
    width: float | None = None
    barred: Mapping[str, tuple[Polygon, ...]] = field(default_factory=lambda: NO_BARS)
    heart: Point | None = None

    def __post_init__(self) -> None:
        for name in ("margin", "flaw_gap", "gap"):
            _check_length(say(words.STOCK_LENGTH, id=self.id, key=name), getattr(self, name))
        if self.width is None:
            _check_outline(say(words.STOCK, id=self.id), self.outline)
            import shapely

            if not shapely.Polygon(self.outline).is_valid:
                raise ValueError(say(words.STOCK_CROSSES_ITSELF, id=self.id))
        elif not (math.isfinite(self.width) and self.width > 0):
            raise ValueError(say(words.STOCK_WIDTH_NOT_POSITIVE, id=self.id, width=self.width))
        for flaw in (*self.flaws, *(zone for zones in self.barred.values() for zone in zones)):
            _check_outline(say(words.STOCK_ZONE, id=self.id), flaw)

    @property
    def is_roll(self) -> bool:
        """Whether the stock has an open-ended length."""
        return self.width is not None


@dataclass(frozen=True)
class Order:
    """How many pieces of one shape are wanted.

    Parameters
    ----------
    shape : Shape
        The piece.
    count : int or None
        Number wanted [-]; None for as many as fit.
    """

    shape: Shape
    count: int | None = None

    def __post_init__(self) -> None:
        if self.count is not None and self.count < 0:
            raise ValueError(say(words.ORDER_COUNT_NEGATIVE, id=self.shape.id, count=self.count))


@dataclass(frozen=True)
class Placement:
    """Where one piece lies: turned about its own origin, then moved.

    Parameters
    ----------
    stock, part : str
        Names of the stock and the shape.
    turn : float
        Turn about the part's origin [deg], counter-clockwise.
    x, y : float
        Where the part's origin comes to lie [mm].
    """

    stock: str
    part: str
    turn: float
    x: float
    y: float

    def moved(self, points: Polygon) -> Polygon:
        """The part's outline where it lies [mm]."""
        cosine, sine = cos_sin(self.turn)
        return tuple((self.x + cosine * px - sine * py, self.y + sine * px + cosine * py) for px, py in points)


@dataclass(frozen=True)
class Result:
    """A layout.

    Parameters
    ----------
    placements : tuple of Placement
        The pieces laid.
    unplaced : tuple of (str, int)
        Shapes of which pieces were left over, and how many [-].
    used : tuple of (str, float)
        For each stock that holds a piece: area of the pieces over its area [-].
    lengths : tuple of (str, float)
        For each roll that holds a piece: the length used with both margins [mm].
    method : str
        How the layout was found, in words.
    """

    placements: tuple[Placement, ...]
    unplaced: tuple[tuple[str, int], ...]
    used: tuple[tuple[str, float], ...]
    lengths: tuple[tuple[str, float], ...]
    method: str

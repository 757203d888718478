"""One piece of stock as the packers see it: the positions open to each pose, worked out once."""

from __future__ import annotations

import shapely
from shapely.geometry.base import BaseGeometry

from bellowscut.nesting.greedy import Laid, without
from bellowscut.nesting.model import AnyTurn, Shape, Stock
from bellowscut.nesting.nofit import Pose, free_area, pose, positions

FAN = 22.5
"""Step between the turns tried when any turn is allowed [deg]."""


class Field:
    """A stock, for a roll cut to a length, with what has been worked out about it.

    Parameters
    ----------
    stock : Stock
        The stock.
    length : float or None
        For a roll: its length [mm] with both margins.
    share : float or None
        Use no more than a window about the heart of the stock, this share of it each way [-].
    """

    def __init__(self, stock: Stock, length: float | None = None, share: float | None = None) -> None:
        self.stock, self.length, self.gap, self.share = stock, length, stock.gap, share
        self._areas: dict[str, BaseGeometry] = {}
        self._positions: dict[Pose, BaseGeometry] = {}

    def area(self, kind: str) -> BaseGeometry:
        """Where pieces of a kind may lie [mm]."""
        key = kind if kind in self.stock.barred else ""
        if key not in self._areas:
            area = free_area(self.stock, key, self.length)
            self._areas[key] = area if self.share is None else shapely.intersection(area, shapely.box(*self._box(area, self.share)))
        return self._areas[key]

    def _box(self, area: BaseGeometry, share: float) -> tuple[float, float, float, float]:
        """A window about the heart of the stock, a share of an area each way [mm]."""
        assert self.stock.heart is not None
        left, low, right, high = area.bounds
        (x, y), half, tall = self.stock.heart, (right - left) / 2 * share, (high - low) / 2 * share
        return x - half, y - tall, x + half, y + tall

    def positions(self, piece: Pose) -> BaseGeometry:
        """Where the reference point of a pose may be on the empty stock [mm]."""
        if piece not in self._positions:
            self._positions[piece] = positions(self.area(piece.shape.kind), piece)
        return self._positions[piece]

    def window(self, piece: Pose, share: float) -> BaseGeometry:
        """The same with the whole piece in a window about the heart of the stock, a share of the stock each way [mm]."""
        left, low, right, high = self._box(self.area(piece.shape.kind), share)
        least, most = piece.points.min(axis=0), piece.points.max(axis=0)
        box = (left - least[0], low - least[1], right - most[0], high - most[1])
        return shapely.Polygon() if box[0] > box[2] or box[1] > box[3] else shapely.intersection(self.positions(piece), shapely.box(*box))


class Around:
    """What is open on a field around pieces that lie already, worked out once a pose.

    Parameters
    ----------
    field : Field
        The stock.
    laid : Laid
        The pieces; they must not change afterwards.
    """

    def __init__(self, field: Field, laid: Laid) -> None:
        self.field, self.laid = field, laid
        self._open: dict[Pose, BaseGeometry] = {}

    def __len__(self) -> int:
        return len(self._open)

    def positions(self, piece: Pose) -> BaseGeometry:
        """Where the reference point of a pose may be [mm]."""
        if piece not in self._open:
            self._open[piece] = without(self.field.positions(piece), self.laid, piece, self.field.gap)
        return self._open[piece]


def turns_of(shape: Shape) -> tuple[float, ...]:
    """Turns to try for loose pieces [deg]: those allowed, or a fan of them."""
    if not isinstance(shape.turns, AnyTurn):
        return tuple(dict.fromkeys(turn % 360 for turn in shape.turns))
    centre, span = shape.turns.centre, min(shape.turns.tolerance, 90.0 if shape.turns.both_ways else 180.0)
    count = int(span / FAN)
    offsets = sorted({FAN * k for k in range(-count, count + 1)} | {-span, span})
    turns = [(centre + offset) % 360 for offset in offsets]
    if shape.turns.both_ways:
        turns += [(turn + 180) % 360 for turn in turns]
    return tuple(dict.fromkeys(round(turn, 9) for turn in turns))


def loose_poses(shape: Shape) -> tuple[Pose, ...]:
    """Poses to try for loose pieces, those that look alike only once.

    Parameters
    ----------
    shape : Shape
        The shape.

    Returns
    -------
    tuple of Pose
        In the order of the turns.
    """
    found: list[Pose] = []
    for turn in turns_of(shape):
        fresh = pose(shape, turn)
        if not any(_look_alike(fresh, other) for other in found):
            found.append(fresh)
    return tuple(found)


def _look_alike(one: Pose, other: Pose) -> bool:
    if len(one.parts) != 1 or len(other.parts) != 1 or len(one.parts[0]) != len(other.parts[0]):
        return False
    points = other.parts[0]
    return all(float(abs(points - corner).max(axis=1).min()) < 1e-9 for corner in one.parts[0])


def laid_area(laid: Laid) -> float:
    """Area of all pieces [mm^2]."""
    return sum(piece.shape.area() for piece in laid.poses)

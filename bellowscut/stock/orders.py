"""From parts to what the nesting engine is asked for: shapes with the turns that the grain allows, counts, names."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bellowscut.layout.clearance import simplified
from bellowscut.materials import SKIN
from bellowscut.nesting.model import AnyTurn, Order, Polygon, Shape, Stock, Turns
from bellowscut.parts.part import Part
from bellowscut.shapes import centroid, signed_area, turn_by
from bellowscut.stock.model import piece_id
from bellowscut.stock.outlines import Sort

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


@dataclass(frozen=True)
class Wanted:
    """Pieces of one part for one bellows.

    Parameters
    ----------
    part : Part
        What to cut.
    instrument : str
        Number of the instrument; empty where there is only one.
    count : int
        How many [-].
    off_grain : float
        How far the piece may lie off the grain [deg].
    """

    part: Part
    instrument: str
    count: int
    off_grain: float = 0.0

    @property
    def id(self) -> str:
        """The part's id, with the number of its instrument before it where there are several."""
        return piece_id(self.part, self.instrument)


Group = tuple[Wanted, ...]
"""All pieces of one material for one bellows."""


def groups(parts: Iterable[Part], copies: int, instrument: str, off_grain: float, form: str) -> list[Group]:
    """Pieces of one material, bellows by bellows; spares are shared among the copies.

    Parameters
    ----------
    parts : iterable of Part
        Of one material and instrument, with counts for all copies.
    copies : int
        Bellows to make alike [-].
    instrument : str
        Its number, or nothing.
    off_grain : float
        How far pieces of leather other than strips may lie off the backbone [deg].
    form : str
        Form of the material.

    Returns
    -------
    list of Group
        One a copy.
    """
    wanted = list(parts)
    loose = off_grain if form == SKIN else 0.0
    return [
        tuple(
            Wanted(part, instrument, _dealt(part.count, copies, copy) + _dealt(part.spare, copies, copy), 0.0 if part.strip else loose)
            for part in wanted
        )
        for copy in range(copies)
    ]


def _dealt(count: int, copies: int, copy: int) -> int:
    """How many of `count` pieces fall to a copy when they are dealt out in turn."""
    return count // copies + (copy < count % copies)


NOTCHED = 12
"""Most points of an outline with notches that is laid by its own outline [-]."""

HULL = 0.03
"""How far the outline that is laid may stand over the part's own, so that an arc needs few points [mm]."""


def orders(wanted: Iterable[Group], *, exact: bool = False) -> list[Order]:
    """What to ask the engine for, for some bellows together, on stock whose grain lies along x.

    Parameters
    ----------
    wanted : iterable of Group
        Their pieces.
    exact : bool
        Whether shapes are the parts' own outlines, for judging a layout, or plainer ones around them, for finding it.

    Returns
    -------
    list of Order
        One a part and instrument.
    """
    counts: dict[str, int] = {}
    shapes: dict[str, Shape] = {}
    for group in wanted:
        for one in group:
            if one.id not in shapes:
                shapes[one.id] = shape(one, exact=exact)
            counts[one.id] = counts.get(one.id, 0) + one.count
    return [Order(shapes[name], count) for name, count in counts.items() if count]


def shape(wanted: Wanted, *, exact: bool = False) -> Shape:
    """A part with the turns in which its grain lies along x, either way round."""
    turn = -wanted.part.grain % 180
    turns: Turns = (turn, turn + 180)
    if wanted.off_grain > 0:
        turns = AnyTurn(turn, min(wanted.off_grain, 90.0))
    return Shape(wanted.id, wanted.part.points if exact else _around(wanted.part.points), turns, wanted.part.kind)


def _around(points: Polygon) -> Polygon:
    """A polygon of few points that holds another."""
    import shapely

    exact, plain = shapely.Polygon(points), simplified(points, HULL)
    if len(plain) > NOTCHED and exact.convex_hull.area > exact.area * (1 + 1e-6):
        # A scored run, say: no notch of it would take a piece, and the search stays short.
        return _around(_ring(exact.convex_hull))
    return points if len(plain) == len(points) else _ring(shapely.Polygon(plain).buffer(HULL, join_style="mitre"))


def _ring(shape: BaseGeometry) -> Polygon:
    import shapely

    assert isinstance(shape, shapely.Polygon)
    ring = [(float(x), float(y)) for x, y in shapely.remove_repeated_points(shape.exterior, 1e-6).coords[:-1]]
    return tuple(ring if signed_area(ring) > 0 else reversed(ring))


def stock(sort: Sort, name: str) -> Stock:
    """One piece of a sort for the engine, turned so that its grain lies along x."""
    material = sort.material
    plain = Stock(name, width=sort.width, outline=sort.outline, margin=material.margin, gap=material.gap, flaw_gap=material.gap)
    if sort.width is not None:
        return plain

    def level(points: Polygon) -> Polygon:
        return tuple(map(turn_by(-sort.backbone), points))

    bars = {kind: tuple(map(level, zones)) for kind, zones in sort.bars.items()}
    outline = level(sort.outline)
    # The best leather lies about the backbone. A rectangle is sound throughout, and worth more when its rest is in one piece.
    heart = centroid(outline) if material.form == SKIN and len(outline) > 4 else None
    return replace(plain, outline=outline, flaws=tuple(map(level, sort.flaws)), barred=bars, heart=heart)


def net_area(wanted: Sequence[Group]) -> float:
    """Area of all pieces [mm^2]."""
    return sum(one.part.area * one.count for group in wanted for one in group)

"""What laying out gives back: pieces of stock with the parts that are cut from each. Millimetres, y up.

Everything is drawn as it lies on the bench: leather flesh side up, board and
paper with the outside up. A tracing of the grain side has been turned over.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from bellowscut.drawing import Line
from bellowscut.materials import ROLL, SKIN, Material
from bellowscut.parts.part import Part
from bellowscut.shapes import Outline, Point, signed_area, turn_by

Polygon = tuple[Point, ...]


def piece_id(part: Part, instrument: str) -> str:
    """The part's id, with the number of its instrument before it where there are several."""
    return f"{instrument}-{part.id}" if instrument else part.id


@dataclass(frozen=True)
class Laid:
    """One piece to cut, where it lies.

    Parameters
    ----------
    part : Part
        What it is; a length of a split strip is a part of its own.
    instrument : str
        Number of the instrument that it belongs to, ``1``; empty where there is only one.
    number : int
        Which of the pieces of this part and instrument, from 1 [-].
    turn : float
        Counter-clockwise about the part's origin [deg].
    x, y : float
        Where the part's origin comes to lie [mm].
    """

    part: Part
    instrument: str
    number: int
    turn: float
    x: float
    y: float

    @property
    def id(self) -> str:
        """The part's id, with the number of its instrument before it where there are several."""
        return piece_id(self.part, self.instrument)

    def point(self, point: Point) -> Point:
        """Where a point of the part lies [mm]."""
        x, y = turn_by(self.turn)(point)
        return x + self.x, y + self.y

    def points(self) -> Polygon:
        """The outline where it lies, arcs cut into chords [mm]."""
        turned = turn_by(self.turn)
        return tuple((x + self.x, y + self.y) for x, y in map(turned, self.part.points))

    def outlines(self) -> tuple[Outline, ...]:
        """The outline and then the holes, where they lie, with true arcs [mm]."""
        return tuple(outline.turned(self.turn).moved(self.x, self.y) for outline in (self.part.outline, *self.part.holes))

    def lines(self) -> tuple[Line, ...]:
        """Crease, skive and mark lines where they lie [mm]."""
        return tuple(Line(line.role, tuple(map(self.point, line.points)), line.closed) for line in self.part.lines)


@dataclass(frozen=True)
class Leftover:
    """What is left of a piece of stock.

    Parameters
    ----------
    area : float
        Of the places that are wide enough to be of use [mm^2].
    clear : Polygon
        The largest sound rectangle that is left, along the backbone, by its corners [mm]; empty without one.
    size : tuple of float
        Its two sides, the longer first [mm]; zeros without one.
    """

    area: float
    clear: Polygon = ()
    size: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True)
class StockPiece:
    """One skin, sheet or length of roll with all that is cut from it.

    Parameters
    ----------
    id : str
        ``stock-1``, which names its files.
    material : Material
        What it is; of a skin from a shelf its own price and grade.
    label : str
        What a person calls it: the material's name, and that of the skin on the shelf.
    outline : Polygon
        Its edge, counter-clockwise [mm]; of a roll the length that is used.
    flaws : tuple of Polygon
        Places to keep clear of [mm].
    bars : mapping of str to tuple of Polygon
        Places [mm] barred to a kind of part: ``gusset`` stands for all three kinds of gusset.
    backbone : float
        Direction of the backbone of a skin, of the grain of a sheet, of the length of a roll, from the x axis [deg].
    typical : bool
        Whether nobody has measured the outline: it is a usual one of the stated area.
    laid : tuple of Laid
        Its pieces.
    left : Leftover
        What is left over.
    length_used : float or None
        Of a roll [mm].
    """

    id: str
    material: Material
    label: str
    outline: Polygon
    flaws: tuple[Polygon, ...]
    bars: Mapping[str, tuple[Polygon, ...]]
    backbone: float
    typical: bool
    laid: tuple[Laid, ...]
    left: Leftover
    length_used: float | None = None

    @property
    def face(self) -> str:
        """The side that is drawn: ``flesh`` of leather, ``outside`` of anything else."""
        return "flesh" if self.material.form == SKIN else "outside"

    @property
    def is_roll(self) -> bool:
        """Whether it is a length cut off a roll."""
        return self.material.form == ROLL

    @property
    def area(self) -> float:
        """Area of the whole [mm^2]; of a roll that of the length used."""
        return signed_area(self.outline)

    @property
    def used(self) -> float:
        """Area of the pieces over that of the stock [-]."""
        return self.pieces_area / self.area

    @property
    def pieces_area(self) -> float:
        """Area of all its pieces [mm^2]."""
        return sum(laid.part.area for laid in self.laid)


@dataclass(frozen=True)
class Need:
    """What one material comes to by its layout.

    Parameters
    ----------
    material : Material
        The material as the first profile describes it.
    stock : tuple of StockPiece
        What is cut into.
    pieces_area : float
        All pieces, spares and all [mm^2].
    gross_area : float
        Stock that is used up: all of it, less what is left over [mm^2].
    cost : Decimal or None
        Of the share used or of whole skins, as the profile charges; None without a price.
    """

    material: Material
    stock: tuple[StockPiece, ...]
    pieces_area: float
    gross_area: float
    cost: Decimal | None


@dataclass(frozen=True)
class Layout:
    """A verified layout of one or several instruments.

    Parameters
    ----------
    stock : tuple of StockPiece
        Every piece of stock that is cut into, numbered through.
    method : str
        How the layouts were found.
    names : tuple of str
        Names of the instruments in the order of their numbers.
    fingerprints : tuple of str
        Fingerprints of their profiles.
    notes : tuple of str
        What to know before cutting: split strips, bellows cut from two skins, outlines that are only typical.
    """

    stock: tuple[StockPiece, ...]
    method: str
    names: tuple[str, ...]
    fingerprints: tuple[str, ...]
    notes: tuple[str, ...]

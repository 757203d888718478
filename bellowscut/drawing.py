"""What a drawing is made of: plain data in millimetres, y up.

Parts, sheets and pages are all described with these few frozen values. The
exporters turn them into PDF, SVG and DXF and compute no geometry of their own.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from bellowscut.shapes import Outline, Point


class Role(Enum):
    """What a line is for. Only `CUT` is ever cut."""

    CUT = "cut"
    CREASE = "crease"
    SKIVE = "skive"
    MARK = "mark"
    TEXT = "text"


class Pen(Enum):
    """How a line of a page that is not part of a pattern looks."""

    SOLID = "solid"
    HEAVY = "heavy"
    THIN = "thin"
    DASHED = "dashed"
    BAR = "bar"


class Tint(Enum):
    """Fills of the figures: told apart by lightness as well as by colour."""

    NONE = "none"
    WHITE = "white"
    PALE = "pale"
    CARD = "card"
    LEATHER = "leather"
    STRIP = "strip"
    CLOTH = "cloth"
    PAPER = "paper"
    FRAME = "frame"
    INK = "ink"
    CARD_SHADE = "card-shade"
    LEATHER_SHADE = "leather-shade"
    STRIP_SHADE = "strip-shade"
    CLOTH_SHADE = "cloth-shade"
    PAPER_SHADE = "paper-shade"
    FRAME_SHADE = "frame-shade"


@dataclass(frozen=True)
class Line:
    """An open or closed run of straight segments with a role.

    Parameters
    ----------
    role : Role
        What the line is for.
    points : tuple of Point
        Its points [mm].
    closed : bool
        Whether the last point joins the first.
    """

    role: Role
    points: tuple[Point, ...]
    closed: bool = False


@dataclass(frozen=True)
class Label:
    """One line of text.

    Parameters
    ----------
    text : str
        Any text; the exporters escape it.
    at : Point
        Left, middle or right end of the base line [mm].
    height : float
        Size of the letters (em) [mm].
    angle : float
        Counter-clockwise [deg].
    anchor : str
        ``start``, ``middle`` or ``end``.
    bold : bool
        Heavier letters, for names and warnings.
    width : float
        Greatest width [mm]; longer text is drawn smaller. 0 is no limit.
    """

    text: str
    at: Point
    height: float
    angle: float = 0.0
    anchor: str = "start"
    bold: bool = False
    width: float = 0.0


@dataclass(frozen=True)
class Stroke:
    """A line of a page that belongs to no pattern: frames, bars, figures.

    Parameters
    ----------
    points : tuple of Point
        Its points [mm].
    pen : Pen
        How it looks.
    closed : bool
        Whether the last point joins the first.
    fill : Tint
        What the closed figure is filled with.
    """

    points: tuple[Point, ...]
    pen: Pen = Pen.SOLID
    closed: bool = False
    fill: Tint = Tint.NONE


@dataclass(frozen=True)
class Drawn:
    """One part as it stands on a sheet or in a file, already moved and turned.

    Parameters
    ----------
    part : str
        Id of the part.
    outlines : tuple of Outline
        What is cut: the outline first, then holes [mm].
    lines : tuple of Line
        Crease, skive and mark lines [mm].
    labels : tuple of Label
        Names and counts written on or beside it.
    """

    part: str
    outlines: tuple[Outline, ...]
    lines: tuple[Line, ...] = ()
    labels: tuple[Label, ...] = ()


@dataclass(frozen=True)
class Window:
    """Part of a page through which drawn parts are seen, cut off at its edge.

    Parameters
    ----------
    low, high : Point
        Opposite corners [mm].
    drawn : tuple of Drawn
        What is seen through it.
    """

    low: Point
    high: Point
    drawn: tuple[Drawn, ...]


Item = Line | Label | Stroke | Drawn | Window


@dataclass(frozen=True)
class Page:
    """One page at full size.

    Parameters
    ----------
    width, height : float
        Paper [mm].
    title : str
        Name in the outline of the file.
    items : tuple
        `Line`, `Label`, `Stroke`, `Drawn` and `Window` values, drawn in this order.
    """

    width: float
    height: float
    title: str
    items: tuple[Item, ...]

"""What a tracing is once it has been read: one skin, its flaws, and where which kind of part must not lie."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from bellowscut.errors import BellowscutError
from bellowscut.shapes import Point

Ring = tuple[Point, ...]
"""Points of a closed outline [mm]; the last joins the first."""


class TracingError(BellowscutError):
    """A tracing that cannot be used; the message says why in words and names no file."""

    exit_code = 2


@dataclass(frozen=True)
class Tracing:
    """A skin as it was traced.

    Parameters
    ----------
    outline : tuple of Point
        Edge of the skin [mm], counter-clockwise, y up; the lower left corner of its box is at (0, 0).
    flaws : tuple of Ring
        Holes, scars and thin places [mm], counter-clockwise, none overlapping another; they may reach over the skin's edge.
    bars : mapping of str to tuple of Ring
        Where a kind of part must not lie [mm], by the word as written after ``no-``; regions may overlap and reach over the edge.
    check : float or None
        Length of the check line as drawn [mm], None when there is none.
    """

    outline: Ring
    flaws: tuple[Ring, ...]
    bars: Mapping[str, tuple[Ring, ...]]
    check: float | None


@dataclass(frozen=True)
class Stroke:
    """One line of a drawing, flattened.

    Parameters
    ----------
    points : tuple of Point
        In order along the line [mm], y up; at least two.
    closed : bool
        Whether the last joins the first.
    kinds : tuple of str
        Kinds of part barred by the groups or layers that it stands in.
    check : bool
        Whether it stands in a group or on a layer named ``check``.
    """

    points: Ring
    closed: bool
    kinds: tuple[str, ...] = ()
    check: bool = False


@dataclass(frozen=True)
class Drawing:
    """What a file holds, before anything is said about skins.

    Parameters
    ----------
    strokes : tuple of Stroke
        Its lines.
    sized : bool
        Whether the file says how large it is.
    taken_as : str
        What one unit was taken for when it does not.
    passed_over : tuple of str
        Names of things that were seen and are no lines.
    """

    strokes: tuple[Stroke, ...]
    sized: bool
    taken_as: str
    passed_over: tuple[str, ...] = ()

"""What a person must know before a machine runs: cautions, and where a drawing itself says them.

The full sentences go into the description of each file and into the summary.
A machine may engrave what stands on the layer for text, so there only one
short line stands, which points to the rest. It is put into a free place of
the stock, where it can be read on the sheet and spoils no piece, and neither
beside nor under the sheet, where it would be engraved on the bed and would
move the corner of the sheet from the origin of the file.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from bellowscut.drawing import Label
from bellowscut.lettering import CAPITAL, DESCENT, text_width
from bellowscut.shapes import Point
from bellowscut.words import advice as usual, cutting as words, say

if TYPE_CHECKING:
    from shapely import Geometry

LASER, KNIFE, HAND = CUTTERS = ("laser", "knife", "hand")
"""What stock is cut with."""

SHORT = {
    LASER: words.SHORT_LASER,
    KNIFE: words.SHORT_KNIFE,
    HAND: words.SHORT_HAND,
}
"""The line in the drawing itself, to be said where it is shown."""

LETTERS = (2.5, 2.0, 1.6)
"""Sizes of the line that are tried in turn [mm]."""

CLEAR = 0.6
"""Least distance of the line from pieces and edges [mm]."""

STEP = 4.0
"""How far apart places are tried [mm]."""


def cautions(cutter: str, leather: bool) -> tuple[str, ...]:
    """The sentences that matter when stock is cut.

    Parameters
    ----------
    cutter : str
        ``laser``, ``knife`` or ``hand``.
    leather : bool
        Whether leather is cut, which is skived afterwards.

    Returns
    -------
    tuple of str
        For a file's description and for notes.
    """
    if cutter == LASER:
        told = (usual.LASER, *((usual.BLADES,) if leather else ()), usual.MANUAL, usual.PAPER)
    else:
        told = (usual.BLADES, usual.RULES if cutter == HAND else usual.MANUAL, usual.PAPER)
    return tuple(map(say, told))


def short_label(cutter: str, outline: Sequence[Point], taken: Sequence[Sequence[Point]]) -> Label | None:
    """The short line in a free place of the stock.

    Parameters
    ----------
    cutter : str
        A key of `SHORT`.
    outline : sequence of Point
        Edge of the stock [mm].
    taken : sequence of sequence of Point
        Pieces and flaws [mm].

    Returns
    -------
    Label or None
        None where there is no room that it could be read in.
    """
    from shapely import Polygon, union_all

    text = say(SHORT[cutter])
    free = Polygon(outline).buffer(-CLEAR).difference(union_all([Polygon(one).buffer(CLEAR) for one in taken]))
    for size in LETTERS:
        wide, high = text_width(text, size), size * (CAPITAL + DESCENT)
        level = _place(free, wide, high)
        if level is not None:
            return Label(text, (level[0], level[1] + size * DESCENT), size)
        upright = _place(free, high, wide)
        if upright is not None:
            return Label(text, (upright[0] + size * CAPITAL, upright[1]), size, angle=90.0)
    return None


def above(cutter: str, height: float) -> Label:
    """The short line over the stock's upper edge, for stock without a free place [mm]."""
    return Label(say(SHORT[cutter]), (CLEAR, height + LETTERS[0] * DESCENT + CLEAR), LETTERS[0])


def _place(free: Geometry, wide: float, high: float) -> Point | None:
    """Lower left corner of a free box, as low and then as far left as there is one; edges are tried first."""
    import numpy as np
    import shapely

    if free.is_empty:
        return None
    left, low, right, top = free.bounds
    if right - left < wide or top - low < high:
        return None
    shapely.prepare(free)
    across, up = right - left - wide, top - low - high
    columns = left + np.linspace(0.0, across, max(2, int(across / STEP) + 2))
    rows = low + np.linspace(0.0, up, max(2, int(up / STEP) + 2))
    for y in (rows[0], rows[-1], *rows[1:-1]):
        fits = shapely.covers(free, np.array([shapely.box(x, y, x + wide, y + high) for x in columns]))
        if fits.any():
            return float(columns[int(fits.argmax())]), float(y)
    return None

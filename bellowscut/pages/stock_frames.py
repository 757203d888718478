"""How large a piece of stock is drawn and which part of it where: whole, in bands, or enlarged in tiles."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from bellowscut.pages.stock_scale import EDGE, FOOT, LEFT, SCALES, STRIP, Box, Frame
from bellowscut.shapes import Point, bounds
from bellowscut.stock.model import Laid, StockPiece

COARSE = 10.0
"""Scale [-] beyond which a roll is rather broken into bands on several pages."""

BAND_GAP = 3.0
"""Between two bands [mm]."""

SEEK = 0.12
"""Share of a band within which the break may move to where it cuts fewest pieces [-]."""

AROUND = 6.0
"""How far an enlarged part reaches beyond its pieces [mm] of paper."""


@dataclass(frozen=True)
class Placed:
    """Frames on the pages of one picture.

    Parameters
    ----------
    scale : float
        Millimetres of stock in a millimetre of paper [-].
    pages : tuple of tuple of Frame
        Frames of each page, from the top down.
    """

    scale: float
    pages: tuple[tuple[Frame, ...], ...]

    def low(self, page: int) -> float:
        """Lower edge of the rulers of a page [mm]."""
        return min(frame.box[1] for frame in self.pages[page]) - FOOT


def placed(stock: StockPiece, left: float, top: float, width: float, height: float, *, bands: bool = True) -> Placed | None:
    """The largest picture of a piece of stock for a place on the page.

    Parameters
    ----------
    stock : StockPiece
        What is drawn.
    left, top : float
        Upper left corner of the place [mm].
    width, height : float
        Of the place, rulers and the strip at the foot and all [mm].
    bands : bool
        Whether a roll may be broken: its length runs level.

    Returns
    -------
    Placed or None
        None where no scale is coarse enough.
    """
    region = bounds(stock.outline)
    room = (width - LEFT - EDGE, height - FOOT - EDGE - STRIP)
    if min(room) <= 0:
        return None
    whole = next((scale for scale in SCALES if _fits(region, scale, room)), None)
    if stock.is_roll and bands:
        banded = _bands(stock, left, top, room, min(whole or math.inf, COARSE * 1.01))
        if banded is not None:
            return banded
    if whole is None:
        return None
    wide = (region[2] - region[0]) / whole
    at = (left + LEFT + (room[0] - wide) / 2, top - EDGE - (region[3] - region[1]) / whole)
    return Placed(whole, ((Frame(region, whole, at, region[:2]),),))


def _fits(region: Box, scale: float, room: tuple[float, float]) -> bool:
    return (region[2] - region[0]) / scale <= room[0] + 1e-9 and (region[3] - region[1]) / scale <= room[1] + 1e-9


def _bands(stock: StockPiece, left: float, top: float, room: tuple[float, float], least: float) -> Placed | None:
    """A roll in bands one under the other, at a scale finer than `least`; None where the whole is as large."""
    region = bounds(stock.outline)
    for scale in (each for each in SCALES if each < least):
        tall = (region[3] - region[1]) / scale
        if tall > room[1]:
            continue
        each = math.floor((room[1] + FOOT + BAND_GAP + EDGE) / (tall + FOOT + BAND_GAP + EDGE))
        # Bands over several pages are only for what would else be drawn smaller than `COARSE`.
        if (region[2] - region[0]) / (room[0] * scale) > each and scale < COARSE:
            continue
        cuts = _breaks(stock.laid, region, room[0] * scale)
        if len(cuts) - 1 > each and scale < COARSE:
            continue
        frames = []
        for k, (start, end) in enumerate(pairwise(cuts)):
            y = top - EDGE - tall - (k % each) * (tall + FOOT + BAND_GAP + EDGE)
            part = (start, region[1], end, region[3])
            frames.append(Frame(part, scale, (left + LEFT, y), region[:2], (k > 0, k + 2 < len(cuts))))
        return Placed(scale, tuple(tuple(frames[k : k + each]) for k in range(0, len(frames), each)))
    return None


def _breaks(laid: Sequence[Laid], region: Box, length: float) -> list[float]:
    """Where bands begin and end, none longer than `length`, through as few pieces as may be."""
    spans = [(left, right) for left, _, right, _ in (bounds(one.points()) for one in laid)]
    cuts = [region[0]]
    while region[2] - cuts[-1] > length + 1e-9:
        furthest = cuts[-1] + length
        tries = {furthest, *(x for span in spans for x in span if furthest - SEEK * length <= x <= furthest)}
        cuts.append(min(tries, key=lambda x: (sum(a + 1e-6 < x < b - 1e-6 for a, b in spans), -x)))
    return [*cuts, region[2]]


def windows(stock: StockPiece, small: Sequence[Laid], scale: float, at: Point, room: tuple[float, float]) -> tuple[Frame, ...]:
    """The parts of a piece of stock that hold some pieces, enlarged, each as much as goes on a page.

    Parameters
    ----------
    stock : StockPiece
        What is drawn.
    small : sequence of Laid
        The pieces.
    scale : float
        Of the enlargement [-].
    at : Point
        Upper left corner of the place, rulers and all [mm].
    room : tuple of float
        Width and height of the place, rulers and the strip at the foot and all [mm].

    Returns
    -------
    tuple of Frame
        One a page.
    """
    outer = bounds(stock.outline)
    most = ((room[0] - LEFT - EDGE) * scale, (room[1] - FOOT - EDGE - STRIP) * scale)
    groups: list[Box] = []
    for box in sorted((bounds(laid.points()) for laid in small), key=lambda box: (-box[3], box[0])):
        # Of a strip longer than the page its middle is shown, where its number stands.
        around = _limited(_around(box, AROUND * scale, outer), most)
        for k, group in enumerate(groups):
            both = _joined(group, around)
            if both[2] - both[0] <= most[0] and both[3] - both[1] <= most[1]:
                groups[k] = both
                break
        else:
            groups.append(around)
    return tuple(
        Frame(
            group,
            scale,
            (at[0] + LEFT + (most[0] - group[2] + group[0]) / scale / 2, at[1] - EDGE - (group[3] - group[1]) / scale),
            outer[:2],
            window=True,
        )
        for group in groups
    )


def _around(box: Box, edge: float, outer: Box) -> Box:
    """A box with an edge round it, where there is something to be seen [mm]."""
    return (
        max(outer[0], box[0] - edge),
        max(outer[1], box[1] - edge),
        min(outer[2], box[2] + edge),
        min(outer[3], box[3] + edge),
    )


def _limited(box: Box, most: tuple[float, float]) -> Box:
    """A box no larger than a page holds, about the same middle [mm]."""
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    wide, tall = min(box[2] - box[0], most[0]) / 2, min(box[3] - box[1], most[1]) / 2
    return x - wide, y - tall, x + wide, y + tall


def _joined(one: Box, other: Box) -> Box:
    return min(one[0], other[0]), min(one[1], other[1]), max(one[2], other[2]), max(one[3], other[3])

"""Stock and layouts in words, the same on pages, on the terminal and in summaries."""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.materials import ROLL
from bellowscut.stock.model import Need, StockPiece
from bellowscut.units import both_areas, plain_number
from bellowscut.words import count, say, stock as words


def full(pieces: Sequence[StockPiece]) -> float:
    """Share of some stock that pieces are cut from [-]."""
    area = sum(stock.area for stock in pieces)
    return sum(stock.pieces_area for stock in pieces) / area if area else 0.0


def metres(length: float) -> str:
    """A length of roll in metres, rounded up to the centimetre: ``0.92 m``."""
    hundredths = -int(-round(length / 10, 3) // 1)
    return f"{plain_number(hundredths / 100, 2)} m"


def stock_name(stock: StockPiece) -> str:
    """What a piece of stock is called at the head of its page."""
    if stock.is_roll:
        return say(words.LENGTH_OF_ROLL, label=stock.label, metres=metres(_used(stock)))
    return stock.label


def _used(stock: StockPiece) -> float:
    if stock.length_used is not None:
        return stock.length_used
    return max(x for x, _ in stock.outline) - min(x for x, _ in stock.outline)


def left_words(stock: StockPiece) -> str:
    """What is left over: ``312 x 205 mm, in all 12.4 dm2 (1.33 sq ft)``."""
    if stock.left.area < 1.0:
        return say(words.NOTHING_LEFT)
    area = both_areas(stock.left.area)
    if not stock.left.clear:
        return area
    long, short = stock.left.size
    return say(words.SIZE_AND_AREA, long=f"{long:.0f}", short=f"{short:.0f}", area=area)


def amount(need: Need) -> str:
    """How much of a material is cut into: ``2 skins``, ``0.92 m of the roll``."""
    if need.material.form == ROLL:
        return say(words.METRES_OF_ROLL, metres=metres(sum(_used(stock) for stock in need.stock)))
    return count(len(need.stock), *words.COUNTED[need.material.form])


def percent(share: float) -> str:
    """A share in per cent."""
    return f"{100 * share:.0f} %"

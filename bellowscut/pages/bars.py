"""Things drawn once and used on many pages: measuring bars, the ruled ledge, the break line."""

from __future__ import annotations

import math

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.shapes import Point

SMALL = 2.6
"""Letters of what may be read [mm]."""


def bars(at: Point) -> list[Item]:
    """A square of two measuring bars.

    Parameters
    ----------
    at : Point
        Where the arms meet [mm]. Millimetres are told off on their inner side,
        inches on the outer one.
    """
    items = [*bar(at), *bar(at, upright=True)]
    items.append(Label("0", (at[0] - 4.6, at[1] - 5.2), 2.4, anchor="middle"))
    return items


def bar(at: Point, *, upright: bool = False) -> list[Item]:
    """One measuring bar.

    Parameters
    ----------
    at : Point
        Where it begins [mm].
    upright : bool
        Whether it goes up the page rather than across it.
    """

    def place(along: float, across: float) -> Point:
        return (at[0] + across, at[1] + along) if upright else (at[0] + along, at[1] + across)

    angle = 90.0 if upright else 0.0
    items: list[Item] = [_block(place(x, 0.0), place(x + 10.0, 1.1), Tint.INK) for x in (0.0, 20.0, 40.0, 60.0, 80.0)]
    items += [_block(place(x, 0.0), place(x + 12.7, -1.1), Tint.CARD) for x in (0.0, 25.4, 50.8, 76.2)]
    items.append(Stroke((place(0.0, 0.0), place(101.6, 0.0)), Pen.BAR))
    items += [Stroke((place(k * 10.0, 0.0), place(k * 10.0, 2.8 if k % 5 else 4.0)), Pen.BAR) for k in range(11)]
    items += [Stroke((place(k * 12.7, 0.0), place(k * 12.7, -2.2 if k % 2 else -3.2)), Pen.BAR) for k in range(9)]
    inner = 6.6 if upright else 4.7
    outer = -3.9 if upright else -5.9
    items += [Label(text, place(x, inner), SMALL, angle, "middle") for x, text in ((50.0, "50"), (96.0, "100 mm"))]
    items += [Label(str(k), place(k * 25.4, outer), 2.4, angle, "middle") for k in range(1, 4)]
    items.append(Label("4 in", place(99.6, outer), 2.4, angle, "middle"))
    return items


def _block(low: Point, high: Point, fill: Tint) -> Stroke:
    return Stroke((low, (high[0], low[1]), high, (low[0], high[1])), Pen.BAR, closed=True, fill=fill)


def break_line(at: Point, length: float) -> Stroke:
    """An upright line with a zigzag that says: goes on beyond here [mm]."""
    x, y = at
    teeth = max(1, math.floor(length / 12.0))
    run = [(x, y)]
    for k in range(teeth):
        middle = y + (k + 0.5) * length / teeth
        run += [(x, middle - 1.6), (x + 1.8, middle - 0.6), (x - 1.8, middle + 0.6), (x, middle + 1.6)]
    run.append((x, y + length))
    return Stroke(tuple(run), Pen.SOLID)


def ledge(left: float, right: float, y: float, folds: int = 7) -> list[Item]:
    """The rule under a heading: a straight line that ends in the folds of a bellows.

    Parameters
    ----------
    left, right, y : float
        Where it runs [mm].
    folds : int
        How many ridges it has [-].
    """
    wide, tall = 2.6, 2.3
    start = right - folds * wide
    run = [(left, y), (start, y)]
    for k in range(folds):
        run += [(start + (k + 0.5) * wide, y + tall), (start + (k + 1) * wide, y)]
    return [Stroke(tuple(run), Pen.SOLID), Stroke(((left, y - 0.7), (right, y - 0.7)), Pen.HEAVY)]

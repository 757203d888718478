"""Scales of the pictures of stock, the part of it that a picture shows, rulers along its edges and the bar at its foot."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.layout.openings import Place
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.arrows import bare_arrow, readable
from bellowscut.shapes import Point, turn_by
from bellowscut.units import plain_number

SCALES = (1.0, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.5, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 100.0, 200.0, 500.0, 1000.0)
"""How many millimetres of stock a millimetre of paper may stand for [-], the largest picture first."""

LEFT, FOOT, EDGE = 11.5, 8.5, 2.6
"""Room for the rulers on the left, at the foot, and for ticks on the other two sides [mm]."""

FIGURES = 2.6
"""Letters of the rulers [mm]."""

OFF = 0.9
"""Distance of the rulers from what is drawn [mm]."""

TICKS = (1.3, 1.8, 2.6)
"""Lengths of the ticks at ten, fifty and a hundred [mm]."""

APART = 8.0
"""Least distance of two figures of a ruler [mm]."""

STRIP = 11.5
"""Height of the strip at the foot with bar and arrow [mm]."""

Box = tuple[float, float, float, float]


def scale_words(scale: float) -> str:
    """The scale as one says it: ``1:2.5``."""
    return f"1:{plain_number(scale, 1)}"


@dataclass(frozen=True)
class Frame:
    """A part of a piece of stock and where on the paper it is drawn.

    Parameters
    ----------
    region : tuple of float
        Left, low, right, high on the stock [mm].
    scale : float
        Millimetres of stock in a millimetre of paper [-].
    at : Point
        Lower left corner on the paper [mm].
    zero : Point
        Where the rulers begin to count, on the stock [mm].
    cut : tuple of bool
        Whether the stock goes on beyond the left and the right edge.
    window : bool
        Whether only a part of the stock is shown, as through a window.
    """

    region: Box
    scale: float
    at: Point
    zero: Point
    cut: tuple[bool, bool] = (False, False)
    window: bool = False

    def point(self, point: Point) -> Point:
        """Where a point of the stock lies on the paper [mm]."""
        return self.at[0] + (point[0] - self.region[0]) / self.scale, self.at[1] + (point[1] - self.region[1]) / self.scale

    def points(self, points: Sequence[Point]) -> tuple[Point, ...]:
        """Where points of the stock lie on the paper [mm]."""
        return tuple(map(self.point, points))

    @property
    def box(self) -> Box:
        """What it takes on the paper without its rulers [mm]."""
        return (*self.point(self.region[:2]), *self.point(self.region[2:]))


def rulers(frame: Frame) -> list[Item]:
    """Ticks along all four edges, with figures on the left and at the foot.

    Parameters
    ----------
    frame : Frame
        What is drawn.
    """
    left, low, right, high = frame.box
    fine = 10.0 if 10.0 / frame.scale >= 1.6 else 50.0 if 50.0 / frame.scale >= 1.6 else 100.0
    told = next(step for step in (100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0, 10000.0) if step / frame.scale >= APART)
    if told * 1.01 > max(right - left, high - low) * frame.scale:
        told = 50.0 if 50.0 / frame.scale >= APART else told
    items: list[Item] = []
    for upright in (False, True):
        first, last = (frame.region[1], frame.region[3]) if upright else (frame.region[0], frame.region[2])
        zero = frame.zero[1] if upright else frame.zero[0]
        start, end = (low, high) if upright else (left, right)
        near, far = (left - OFF, right + OFF) if upright else (low - OFF, high + OFF)
        along = [math.ceil((first - zero) / fine - 1e-9) * fine + k * fine for k in range(int((last - first) / fine) + 2)]

        def at(x: float, y: float, upright: bool = upright) -> Point:
            return (y, x) if upright else (x, y)

        items.append(Stroke((at(start, near), at(end, near)), Pen.THIN))
        for value in along:
            place = start + (zero + value - first) / frame.scale
            if place > end + 1e-6:
                continue
            tall = TICKS[2] if value % 100 == 0 else TICKS[1] if value % 50 == 0 else TICKS[0]
            items.append(Stroke((at(place, near), at(place, near - tall)), Pen.BAR if value % 100 == 0 else Pen.THIN))
            if value % 100 == 0 and not (upright and frame.cut[1]):
                items.append(Stroke((at(place, far), at(place, far + 1.6)), Pen.BAR))
            if value % told == 0:
                items.append(_figure(value, place, near - TICKS[2] - 0.7, upright))
    items.append(Label("mm", (left - OFF - TICKS[2] - 0.7, low - OFF - TICKS[2] - 0.7 - FIGURES * CAPITAL), FIGURES, anchor="end"))
    return items


def _figure(value: float, along: float, across: float, upright: bool) -> Label:
    if upright:
        return Label(plain_number(value), (across, along - FIGURES * CAPITAL / 2), FIGURES, anchor="end")
    return Label(plain_number(value), (along, across - FIGURES * CAPITAL), FIGURES, anchor="middle")


def scale_bar(at: Point, width: float, scale: float) -> tuple[list[Item], float]:
    """A bar of round length on the stock, in blocks, with what it stands for.

    Parameters
    ----------
    at : Point
        Its lower left end [mm].
    width : float
        Greatest length on the paper [mm].
    scale : float
        Of the picture [-].

    Returns
    -------
    list of items
        The bar and its words.
    float
        Right end of all that [mm].
    """
    length = next((each for each in (1000.0, 500.0, 200.0, 100.0, 50.0, 20.0) if each / scale <= width), 10.0)
    if length / scale < 24.0:
        length = next((each for each in (2000.0, 5000.0, 10000.0, 20000.0) if 24.0 <= each / scale <= width), length)
    items: list[Item] = []
    block = length / scale / 5
    for k in range(5):
        x = at[0] + k * block
        corners = ((x, at[1]), (x + block, at[1]), (x + block, at[1] + 1.5), (x, at[1] + 1.5))
        items.append(Stroke(corners, Pen.BAR, closed=True, fill=Tint.WHITE if k % 2 else Tint.INK))
    items.append(Label("0", (at[0], at[1] + 2.6), FIGURES, anchor="middle"))
    end = at[0] + 5 * block
    text = f"{plain_number(length)} mm"
    half = text_width(plain_number(length), FIGURES) / 2
    items.append(Label(text, (end - half, at[1] + 2.6), FIGURES))
    words = f"{scale_words(scale)}"
    items.append(Label(words, (end + 14.0, at[1] - 0.4), 3.8, bold=True))
    return items, end + 14.0 + text_width(words, 3.8, bold=True)


def direction(right: float, middle: float, angle: float, word: str) -> list[Item]:
    """A double arrow with its word beside it, in the strip at the foot.

    Parameters
    ----------
    right, middle : float
        Right end and middle height of the place [mm].
    angle : float
        Of the arrow, counter-clockwise [deg].
    word : str
        What runs that way.
    """
    steep = abs(turn_by(angle)((1.0, 0.0))[1]) > 0.4
    length = 9.5 if steep else 14.0
    wide = max(2.0, abs(turn_by(angle)((length, 0.0))[0]))
    centre = (right - wide / 2, middle)
    items = bare_arrow(Place(centre, readable(angle)), length)
    items.append(Label(word, (right - wide - 2.0, middle - 3.0 * CAPITAL / 2), 3.0, anchor="end"))
    return items

"""A figure: a picture with its words, drawn anywhere and then moved to its place."""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from dataclasses import replace

from bellowscut.drawing import Item, Label, Line, Stroke
from bellowscut.lettering import CAPITAL, DESCENT, fitted_height, text_width
from bellowscut.pages.furniture import Box
from bellowscut.shapes import Point, bounds, turn_by


class Figure:
    """Items that belong together.

    Parameters
    ----------
    items : sequence of items
        Lines, strokes and labels [mm].
    """

    def __init__(self, items: Sequence[Item]) -> None:
        self._items = tuple(items)
        self._shift: Point = (0.0, 0.0)
        self._box: Box | None = None

    @property
    def items(self) -> tuple[Item, ...]:
        """The items where they stand."""
        if self._shift == (0.0, 0.0):
            return self._items
        return tuple(_moved(item, *self._shift) for item in self._items)

    @property
    def box(self) -> Box:
        """Least x, least y, greatest x, greatest y of lines and letters [mm]."""
        if self._box is None:
            self._box = bounds([point for item in self._items for point in _points(item)])
        (left, low, right, high), (x, y) = self._box, self._shift
        return left + x, low + y, right + x, high + y

    @property
    def size(self) -> tuple[float, float]:
        """Width and height [mm]."""
        left, low, right, high = self.box
        return right - left, high - low

    def moved(self, x: float, y: float) -> Figure:
        """The figure shifted [mm]."""
        found = copy(self)
        found._shift = (self._shift[0] + x, self._shift[1] + y)
        return found

    def at(self, left: float, high: float) -> Figure:
        """The figure with its upper left corner at a place [mm]."""
        return self.moved(left - self.box[0], high - self.box[3])


def around(figures: Sequence[Figure]) -> Box:
    """The box of several figures together [mm]."""
    return bounds([corner for figure in figures for corner in (figure.box[:2], figure.box[2:])])


def _points(item: Item) -> Sequence[Point]:
    if isinstance(item, Label):
        return label_box(item)
    assert isinstance(item, Line | Stroke)
    return item.points


def _moved(item: Item, x: float, y: float) -> Item:
    if isinstance(item, Label):
        return replace(item, at=(item.at[0] + x, item.at[1] + y))
    assert isinstance(item, Line | Stroke)
    points = tuple((px + x, py + y) for px, py in item.points)
    return Line(item.role, points, item.closed) if isinstance(item, Line) else Stroke(points, item.pen, item.closed, item.fill)


def label_box(label: Label, clear: float = 0.0) -> tuple[Point, Point, Point, Point]:
    """Corners of the box round a label's letters, counter-clockwise from the start of its base line.

    Parameters
    ----------
    label : Label
        The label.
    clear : float
        How much wider the box is on every side [mm].
    """
    height = fitted_height(label)
    wide = text_width(label.text, height, bold=label.bold)
    back = {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    turn = turn_by(label.angle)
    left, right, low, high = -back - clear, wide - back + clear, -DESCENT * height - clear, CAPITAL * height + clear
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = (turn(corner) for corner in ((left, low), (right, low), (right, high), (left, high)))
    x, y = label.at
    return (ax + x, ay + y), (bx + x, by + y), (cx + x, cy + y), (dx + x, dy + y)

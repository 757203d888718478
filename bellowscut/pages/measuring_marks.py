"""Small marks of the measuring sheet: boxes to tick, arrows between two edges, a rule, calipers, an eye."""

from __future__ import annotations

import math
from collections.abc import Sequence

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.dimensions import head
from bellowscut.shapes import Point

LETTERS = 2.7
"""Words in the figures [mm]."""

BOX = 3.4
"""Side of a box to tick [mm]."""

ARROW = 2.0
"""Length of an arrow head [mm]."""

JAW = 1.7
"""Thickness of a jaw of the calipers [mm]."""

BEAM = 2.6
"""Width of the calipers' beam [mm]."""

RULE = 4.2
"""Width of a rule [mm]."""


def tick_box(at: Point, *, ticked: bool = False) -> list[Item]:
    """A box to tick, its lower left corner on a base line.

    Parameters
    ----------
    at : Point
        The corner [mm].
    ticked : bool
        Whether it is ticked in print.
    """
    x, y = at[0], at[1] - 0.6
    items: list[Item] = [area(((x, y), (x + BOX, y), (x + BOX, y + BOX), (x, y + BOX)), Tint.WHITE, Pen.SOLID)]
    if ticked:
        items.append(Stroke(((x + 0.7, y + 1.7), (x + 1.5, y + 0.7), (x + 2.9, y + 2.9)), Pen.HEAVY))
    return items


def area(points: Sequence[Point], fill: Tint, pen: Pen = Pen.SOLID) -> Stroke:
    """A closed, filled figure."""
    return Stroke(tuple(points), pen, closed=True, fill=fill)


def arrow(tail: Point, tip: Point, *, both: bool = False, pen: Pen = Pen.THIN) -> list[Item]:
    """A line with a head at its tip, or at both ends [mm]."""
    length = math.dist(tail, tip)
    x, y = (tip[0] - tail[0]) / length * ARROW, (tip[1] - tail[1]) / length * ARROW
    items: list[Item] = [Stroke((tail, tip), pen), head(tip, (tip[0] - x, tip[1] - y))]
    if both:
        items.append(head(tail, (tail[0] + x, tail[1] + y)))
    return items


def along(a: Point, b: Point, share: float, off: float = 0.0) -> Point:
    """A point on the way from a to b, moved to the right of that way [mm]."""
    length = math.dist(a, b)
    x, y = a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share
    return x + (b[1] - a[1]) / length * off, y - (b[0] - a[0]) / length * off


def rule(a: Point, b: Point, off: float = 0.0) -> list[Item]:
    """A rule laid along the right of the way from a to b, its nought at a.

    Parameters
    ----------
    a, b : Point
        What is measured [mm].
    off : float
        How far off the rule lies [mm].
    """
    length = math.dist(a, b)
    past = 2.5 / length
    corners = [along(a, b, share, at) for share, at in ((0.0, off), (1.0 + past, off), (1.0 + past, off + RULE), (0.0, off + RULE))]
    items: list[Item] = [area(corners, Tint.WHITE)]
    number = max(2, round(length / 1.5))
    for k in range(1, number):
        reach = 1.9 if k % 5 == 0 else 1.1
        items.append(Stroke((along(a, b, k / number, off), along(a, b, k / number, off + reach)), Pen.BAR))
    return items


def calipers(low: float, high: float, reach: float, beam: float) -> list[Item]:
    """Calipers over two level edges, their beam on the right.

    Parameters
    ----------
    low, high : float
        Heights of the two edges [mm].
    reach : float
        How far to the left their jaws reach [mm].
    beam : float
        Left edge of the beam [mm].
    """
    items: list[Item] = [
        area(((beam, low - 3.5), (beam + BEAM, low - 3.5), (beam + BEAM, high + 5.0), (beam, high + 5.0)), Tint.WHITE),
    ]
    for edge, way in ((low, -1), (high, 1)):
        far = edge + way * JAW
        items.append(area(((reach, edge), (beam + BEAM, edge), (beam + BEAM, far), (reach + 2.0, far)), Tint.CARD))
    return items


def eye(at: Point) -> list[Item]:
    """An eye that looks to the left, its pupil at a place [mm]."""
    x, y = at
    upper, lower = ([(x + 5.2, y)], [(x + 5.2, y)])
    for k in range(9):
        turn = math.radians(20 + 15 * k)
        upper.append((x + 5.2 * math.cos(turn) * 0.9 - 0.3, y + 2.3 * math.sin(turn)))
        lower.append((x + 5.2 * math.cos(turn) * 0.9 - 0.3, y - 1.7 * math.sin(turn)))
    upper.append((x - 5.2, y))
    lower.append((x - 5.2, y))
    iris = [(x - 1.4 + 1.5 * math.cos(k * math.pi / 8), y + 0.2 + 1.5 * math.sin(k * math.pi / 8)) for k in range(16)]
    return [area((*upper, *reversed(lower[1:-1])), Tint.WHITE), area(iris, Tint.INK, Pen.THIN)]


def words(text: str, at: Point, anchor: str = "middle", *, angle: float = 0.0, bold: bool = False) -> Label:
    """Words in a figure, centred upon the height of a place [mm]."""
    turn = math.radians(angle)
    down = LETTERS * CAPITAL / 2
    return Label(text, (at[0] + down * math.sin(turn), at[1] - down * math.cos(turn)), LETTERS, angle, anchor, bold)


def wide(text: str) -> float:
    """How wide words in a figure are [mm]."""
    return text_width(text, LETTERS)

"""The figures of the ends: where calipers and rule go, which side is A, from where one looks, and which of three edges was measured."""

from __future__ import annotations

import math
from collections.abc import Sequence

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL
from bellowscut.pages.bars import break_line
from bellowscut.pages.dimensions import head
from bellowscut.pages.figure import Figure
from bellowscut.pages.leaders import dot
from bellowscut.pages.measuring_marks import BEAM, RULE, along, area, arrow, calipers, eye, rule, wide, words as lettered
from bellowscut.schema import MEASURED, RECTANGLE, REGULAR
from bellowscut.section import corner_name, rectangular, regular, side_name
from bellowscut.shapes import Point, bounds, inset
from bellowscut.words import measuring as words, say

RING = 5.4
"""Width of the frame in the figure [mm]."""

APART = 4.7
"""Letters of sides stand at least so far apart [mm]."""

CORNERS_NAMED = 16
"""Most sides for which corners are named, and their distance shown [-]."""

ONE_LETTER = 26
"""Sides up to this have names of one letter [-]."""

RULE_AT = {REGULAR: (205.0, 205.0), MEASURED: (150.0, 30.0)}
"""Direction in which the side with the rule lies, as near as may be, for an even and an odd number of sides [deg].

It keeps off the calipers on the right, and off the axes at the first corner, low on the left.
"""

AXIS = 7.0
"""How far to the left of the frame the upright axis stands, clear of a rule there [mm]."""

UNEVEN = ((1.1, 0.16), (0.0, 0.94))
"""What makes an even polygon uneven for the eye, side A left level [-]."""


def end_figure(section: str, sides: int, height: float) -> Figure:
    """One end from outside, with calipers and rule laid to it.

    Parameters
    ----------
    section : str
        Shape of the section, as in a profile.
    sides : int
        Number of its sides [-].
    height : float
        Of the figure, about [mm].
    """
    points = _outline(section, sides, height)
    low, high = min(y for _, y in points), max(y for _, y in points)
    right = max(x for x, _ in points)
    inner = inset(points, (RING,) * sides)
    items: list[Item] = [area(points, Tint.CARD), area(inner, Tint.WHITE), Stroke(points[:2], Pen.HEAVY), *_flag(points[0], points[1])]
    items += _letters(points)
    reach = points[1][0] - 0.25 * (points[1][0] - points[0][0])
    if section == RECTANGLE:
        items += [*calipers(low, high, reach, right + 4.0), *rule(points[0], points[1], 3.0)]
        items += [Stroke((points[k], (points[k][0], points[k][1] - 3.0 - RULE)), Pen.THIN) for k in (0, 1)]
        items.append(lettered(say(words.HEIGHT_CALIPERS), (right + 4.0 + BEAM + 2.4, (low + high) / 2), angle=90.0))
        items.append(lettered(say(words.WIDTH_RULE), ((points[0][0] + points[1][0]) / 2, low - 3.0 - RULE - 2.2)))
    else:
        if sides % 2 == 0:
            items += calipers(low, high, reach, right + 4.0)
            items.append(lettered(say(words.FLAT_CALIPERS), (right + 4.0 + BEAM + 2.4, (low + high) / 2), angle=90.0))
        items += _rule(points, RULE_AT[section][sides % 2])
    if section == MEASURED:
        items += _corners(points)
    items += _turning(inner, across=section == REGULAR and sides % 2 == 0 and sides <= CORNERS_NAMED, points=points)
    return Figure(items)


def _outline(section: str, sides: int, height: float) -> tuple[Point, ...]:
    """The frame, side A level at the foot, as high as asked without the calipers' ends."""
    if section == RECTANGLE:
        return rectangular(height, 0.55 * height).points
    points = regular(sides, 1.0, "side").points
    if section == MEASURED:
        (xx, xy), (yx, yy) = UNEVEN
        points = tuple((xx * x + xy * y, yx * x + yy * y) for x, y in points)
    left, low, right, high = bounds(points)
    scale = min((height - 8.5) / (high - low), height * 1.1 / (right - left))
    return tuple((x * scale, y * scale) for x, y in points)


def _letters(points: tuple[Point, ...]) -> list[Item]:
    """Names of the sides inside the frame; where sides are short some go without."""
    items: list[Item] = []
    count = len(points)
    places = _letter_places(points)
    for i in range(0, count, _step(points)):
        tall = 3.6 if i == 0 else 3.0
        items.append(Label(side_name(i), (places[i][0], places[i][1] - tall * CAPITAL / 2), tall, anchor="middle", bold=True))
    return items


def _letter_places(points: tuple[Point, ...]) -> list[Point]:
    """Where the letter of each side would stand: further in where names have two letters."""
    count = len(points)
    off = RING + (2.7 if count <= ONE_LETTER else 3.6)
    return [along(point, points[(i + 1) % count], 0.5, -off) for i, point in enumerate(points)]


def _step(points: tuple[Point, ...]) -> int:
    """How many sides there are from one that shows its letter to the next [-]."""
    places = _letter_places(points)
    return next(step for step in range(1, len(points) + 1) if _apart(places[::step]))


def _apart(places: Sequence[Point]) -> bool:
    """Whether neighbours round a ring keep their distance."""
    return len(places) == 1 or all(math.dist(places[k - 1], place) >= APART for k, place in enumerate(places))


def _flag(a: Point, b: Point) -> list[Item]:
    """The pencil mark on side A: a notch on the frame."""
    half = min(1.8, math.dist(a, b) / 8)
    x, y = (a[0] + b[0]) / 2, a[1]
    return [area(((x - half, y + 0.6), (x + half, y + 0.6), (x, y + 3.4)), Tint.INK, Pen.THIN)]


def _rule(points: tuple[Point, ...], direction: float) -> list[Item]:
    """A rule outside the side that lies nearest to a direction [deg]."""
    count = len(points)
    # The outward normal of a side from p to q is (q - p) turned clockwise.
    normals = [math.degrees(math.atan2(p[0] - q[0], q[1] - p[1])) for p, q in zip(points, (*points[1:], points[0]), strict=True)]
    side = min(range(count), key=lambda i: abs((normals[i] - direction + 180.0) % 360.0 - 180.0))
    a, b = points[side], points[(side + 1) % count]
    middle = along(a, b, 0.5, RULE + 1.4)
    left = math.cos(math.radians(normals[side])) < 0
    return [*rule(a, b, 0.4), lettered(say(words.RULE), (middle[0] + (-0.6 if left else 0.6), middle[1]), "end" if left else "start")]


def _corners(points: tuple[Point, ...]) -> list[Item]:
    """Names of the corners upon the frame, and the axes of their positions."""
    items: list[Item] = []
    count = len(points)
    if count <= CORNERS_NAMED:
        middle = inset(points, (RING / 2,) * count)
        for i, at in enumerate(middle):
            items.append(Label(corner_name(i, count), (at[0], at[1] - 2.4 * CAPITAL / 2), 2.4, anchor="middle"))
    x, y = points[0]
    across = min(point[0] for point in points) - AXIS
    items += [*arrow((x, y - 4.6), (x + 12.0, y - 4.6)), *arrow((across, y), (across, y + 11.0))]
    items += [Stroke(((x, y - 0.9), (x, y - 5.6)), Pen.THIN), Stroke(((x - 0.9, y), (across - 1.0, y)), Pen.THIN), dot(points[0])]
    items += [lettered("x", (x + 13.8, y - 4.4)), lettered("y", (across, y + 13.0))]
    return items


def _turning(inner: tuple[Point, ...], *, across: bool, points: tuple[Point, ...]) -> list[Item]:
    """The way the letters run, round the middle, and the distance across corners where it may be measured."""
    count = len(points)
    items: list[Item] = []
    start, end = -60.0, 75.0
    if across:
        first = (_step(points) + 1) // 2
        a, b = points[first], points[first + count // 2]
        items += arrow(a, b, both=True, pen=Pen.DASHED)
        items.append(lettered(say(words.CORNER_CALIPERS), (b[0] - 2.0, b[1] + 1.6), "end"))
        start = math.degrees(math.atan2(a[1], a[0])) + 24.0
        end = start + 112.0
    room = min(math.hypot(*along(p, q, 0.5)) for p, q in zip(inner, (*inner[1:], inner[0]), strict=True))
    radius = 0.42 * room if count <= ONE_LETTER else min(0.42 * room, room - 6.6)
    if radius < 3.0:
        return items
    turns = [math.radians(start + (end - start) * k / 18) for k in range(19)]
    arc = [(radius * math.cos(t), radius * math.sin(t)) for t in turns]
    back = turns[-1] - 1.6 / radius
    items += [Stroke(tuple(arc), Pen.SOLID), head(arc[-1], (radius * math.cos(back), radius * math.sin(back)))]
    return items


def look_figure() -> Figure:
    """The bellows from the side, and an eye that looks into it from outside the right-hand end."""
    items: list[Item] = []
    tall, frame, pitch, folds = 11.0, 5.0, 4.2, 6
    for left in (0.0, frame + pitch * (folds + 1)):
        items.append(area(((left, 0), (left + frame, 0), (left + frame, tall), (left, tall)), Tint.FRAME))
        middle = left + frame / 2
        items.append(area(((middle - 1.5, 0.7), (middle + 1.5, 0.7), (middle, 3.2)), Tint.INK, Pen.THIN))
    for y, way in ((0.0, 1.0), (tall, -1.0)):
        run = [(frame + pitch * k / 2, y + way * (2.4 if k % 2 else 0.4)) for k in range(2 * folds + 3)]
        items.append(Stroke(tuple(run), Pen.SOLID))
    for k in range(1, folds + 1):
        x = frame + pitch * k
        items.append(Stroke(((x, 0.4), (x, tall - 0.4)), Pen.THIN))
    end = 2 * frame + pitch * (folds + 1)
    items += [*arrow((end + 16.0, tall / 2), (end + 1.5, tall / 2), pen=Pen.DASHED), *eye((end + 22.5, tall / 2))]
    items += [
        lettered(say(words.SECOND_END), (0.0, tall + 2.6), "start"),
        lettered(say(words.FIRST_END), (end, tall + 2.6), "end"),
        lettered(say(words.LOOK_HERE), (end + 3.0, tall + 2.6), "start"),
        lettered(say(words.SIDE_A), (end / 2, -2.8)),
    ]
    half = wide(say(words.SIDE_A)) / 2 + 1.4
    items += arrow((end / 2 - half, -2.8), (frame / 2, -0.4))
    items += arrow((end / 2 + half, -2.8), (end - frame / 2, -0.4))
    return Figure(items)


def surfaces_figure() -> Figure:
    """Half an end cut through, from its middle on the left to its rim: what is measured reaches to one of three edges."""
    items: list[Item] = [
        area(((0, 13.2), (58, 13.2), (58, 19.6), (0, 19.6)), Tint.FRAME),
        area(((32, 0), (52, 0), (52, 12.6), (32, 12.6)), Tint.CARD),
        area(((52, 0.5), (55, 0.5), (55, 9.5), (53, 11.0), (52, 11.0)), Tint.STRIP, Pen.THIN),
        area(((52, 0.5), (55, 0.5), (54, -4.2), (51, -4.2)), Tint.STRIP, Pen.THIN),
        Stroke(((52, 0), (33, -4.4), (51, -8.6)), Pen.HEAVY),
        break_line((0.0, 12.2), 8.4),
    ]
    edges = {"end": (58.0, 22.4, 19.6), "frame-covered": (55.0, -11.8, 0.3), "frame": (52.0, -16.2, -0.4)}
    for name, (edge, level, start) in edges.items():
        items += arrow((10.0, level), (edge, level))
        items += [Stroke(((edge, start), (edge, level + (1.4 if level > start else -1.4))), Pen.DASHED)]
        items.append(lettered(name, (edge + 2.6, level), "start", bold=True))
    items += [
        lettered(say(words.WOODEN_END), (20.0, 16.4)),
        lettered(say(words.FRAME), (42.0, 6.3)),
        lettered(say(words.COVERING), (62.0, 5.6), "start"),
        Stroke(((61.2, 5.6), (54.0, 5.6)), Pen.THIN),
        dot((54.0, 5.6), 0.5),
        lettered(say(words.FIRST_CARDS), (26.0, -4.6), "end"),
        Stroke(((26.8, -4.6), (32.4, -4.6)), Pen.THIN),
    ]
    return Figure(items)

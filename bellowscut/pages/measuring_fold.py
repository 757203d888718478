"""The figures of folds and laps: how ridges and cards are counted, where the depth lies, how far leather is glued over what."""

from __future__ import annotations

import math

from bellowscut.drawing import Item, Pen, Stroke, Tint
from bellowscut.pages.dimensions import head
from bellowscut.pages.figure import Figure
from bellowscut.pages.measuring_marks import RULE, area, arrow, rule, words as lettered
from bellowscut.shapes import Point
from bellowscut.words import measuring as words, say

FOLDS = 6
"""Folds of the bellows in the figure [-]: a usual number, so that most readers see their own."""

DEPTH, SLOPE = 11.0, 65.0
"""Depth of those folds [mm], and how far their cards lean off the closed bellows [deg]."""

FRAME = 7.0
"""Width of the frames in the figure [mm]."""

MEASURED_CARD = 7
"""Card whose depth is taken, from the left [-]: one in the middle, going down."""


def count_figure() -> Figure:
    """One side of a six-fold bellows cut through, outside upwards, ridges and cards numbered, the depth of one fold."""
    along, inward = DEPTH * math.cos(math.radians(SLOPE)), DEPTH * math.sin(math.radians(SLOPE))
    cards = 2 * (FOLDS + 1)
    points: list[Point] = [(k * along, 0.0 if k % 2 == 0 else -inward) for k in range(cards + 1)]
    frames = (-FRAME, cards * along)
    items: list[Item] = [area(((x, -inward - 1), (x + FRAME, -inward - 1), (x + FRAME, 1.4), (x, 1.4)), Tint.FRAME) for x in frames]
    items.append(Stroke(tuple(points), Pen.HEAVY))
    items += [lettered(str(k), (points[2 * k][0], 3.3), bold=True) for k in range(1, FOLDS + 1)]
    items += [lettered(str(k + 1), ((points[k][0] + points[k + 1][0]) / 2, -inward - 3.2)) for k in range(cards)]
    items += [
        lettered(say(words.RIDGES_WORD), (0.2, 3.3), "end", bold=True),
        lettered(say(words.CARDS_WORD), (-0.4, -inward - 3.2), "end"),
        lettered(say(words.COUNT_EXAMPLE, ridges=FOLDS, cards=cards), (cards * along / 2, -inward - 8.0)),
    ]
    return Figure([*items, *_depth(points[MEASURED_CARD - 1], points[MEASURED_CARD])])


def _depth(ridge: Point, valley: Point) -> list[Item]:
    """A dimension along the face of one card, its word under the figure."""
    length = math.dist(ridge, valley)
    ux, uy = (valley[0] - ridge[0]) / length, (valley[1] - ridge[1]) / length
    off = 1.7

    def beside(point: Point, on: float = 0.0) -> Point:
        return point[0] - uy * off + ux * on, point[1] + ux * off + uy * on

    a, b = beside(ridge, 0.3), beside(valley, -0.3)
    return [
        Stroke((a, b), Pen.THIN),
        head(a, (a[0] + ux * 1.7, a[1] + uy * 1.7)),
        head(b, (b[0] - ux * 1.7, b[1] - uy * 1.7)),
    ]


def old_card_figure() -> Figure:
    """An old card with a rule on each of its fold lines, the mark of the old gusset along its legs, and a gusset soaked off."""
    half_ridge, half_valley, depth, lap, off = 22.0, 11.5, 26.0, 4.2, 1.2
    length = math.hypot(half_ridge - half_valley, depth)
    ux, uy = (half_valley - half_ridge) / length, -depth / length

    def leg(y: float, inward: float = 0.0) -> Point:
        """A point of the right leg at a height, and what lies square to the leg from there."""
        x = half_ridge + (half_ridge - half_valley) * y / depth
        return x + uy * inward, y - ux * inward

    low, high, chamfer = -depth + 1.1, -0.6, 1.3
    right = [(leg(low)[0] - chamfer, low), leg(low + chamfer), leg(high - chamfer), (leg(high)[0] - chamfer, high)]
    items: list[Item] = [area((*right, *((-x, y) for x, y in reversed(right))), Tint.PAPER)]
    a, b = leg(low + chamfer), leg(high - chamfer)
    across = lap / -uy
    for side in (1, -1):
        band = (a, b, (b[0] - across, b[1]), (a[0] - across, a[1]))
        items.append(area([(side * x, y) for x, y in band], Tint.PAPER_SHADE, Pen.THIN))
        # The legs run on to the fold lines: there are the sharp corners.
        for foot, tip in ((b, (half_ridge, 0.0)), (a, (half_valley, -depth))):
            items.append(Stroke(((side * foot[0], foot[1]), (side * tip[0], tip[1])), Pen.THIN))
    for y, reach in ((0.0, half_ridge), (-depth, half_valley)):
        items.append(Stroke(((-reach - 5.0, y), (reach + 5.0, y)), Pen.DASHED))
    items += rule((half_ridge, 0.0), (-half_ridge, 0.0), off)
    items += rule((-half_valley, -depth), (half_valley, -depth), off)
    for reach, y, way in ((half_ridge, 0.0, 1), (half_valley, -depth, -1)):
        items += [Stroke(((side * reach, y), (side * reach, y + way * off)), Pen.SOLID) for side in (1, -1)]
    items += [
        lettered(say(words.RIDGE_EDGE), (0.0, off + RULE + 2.4), bold=True),
        lettered(say(words.VALLEY_EDGE), (0.0, -depth - off - RULE - 2.4), bold=True),
        lettered(say(words.GLUE_SHADOW), (0.0, -depth / 2 + 1.0)),
        lettered(say(words.FOLD_LINE), (half_valley + 6.0, -depth), "start"),
    ]
    level = -depth * 0.66
    items += [*arrow(leg(level, -5.0), leg(level), pen=Pen.SOLID), *arrow(leg(level, lap + 5.0), leg(level, lap), pen=Pen.SOLID)]
    return Figure([*items, *_gusset(half_ridge + 20.0, -depth / 2)])


def _gusset(x: float, y: float) -> list[Item]:
    """A gusset about a place, its width and length told."""
    wide, tall, tip = 8.5, 18.5, 2.1
    quarter = [(wide, 1.2), (wide - 0.5, 2.2), (tip + 0.5, tall - 0.5), (tip - 0.3, tall)]
    right = [*((dx, -dy) for dx, dy in reversed(quarter)), *quarter]
    outline = [(x + dx, y + dy) for dx, dy in (*right, *((-dx, dy) for dx, dy in reversed(right)))]
    beside, under = x + wide + 3.2, y - tall - 3.0
    items: list[Item] = [area(outline, Tint.LEATHER)]
    items += [Stroke(((x + tip, y + way * tall), (beside + 1.2, y + way * tall)), Pen.THIN) for way in (1, -1)]
    items += [Stroke(((x + way * wide, y), (x + way * wide, under - 1.2)), Pen.THIN) for way in (1, -1)]
    items += [*arrow((beside, y - tall), (beside, y + tall), both=True), *arrow((x - wide, under), (x + wide, under), both=True)]
    return [
        *items,
        lettered(say(words.OLD_LENGTH), (beside + 2.6, y), angle=90.0, bold=True),
        lettered(say(words.OLD_WIDTH), (x, under - 3.0), bold=True),
        lettered(say(words.OLD_GUSSET), (x, y + tall + 2.6)),
    ]


def laps_figure() -> Figure:
    """The first cards of one side beside a corner, seen from outside with the bellows open: what lies over what, and how far."""
    frame, card, tall, corner, inner, lap = 15.0, 22.0, 27.0, 1.0, 7.0, 4.5
    ridge = 2 * card
    cover, down, flank = 11.0, 6.0, 5.5
    items: list[Item] = [
        area(((-frame, 0), (0, 0), (0, tall), (-frame, tall)), Tint.FRAME),
        area(((0, corner), (card, inner), (card, tall), (0, tall)), Tint.PAPER, Pen.THIN),
        area(((card, inner), (ridge, corner), (ridge, tall), (card, tall)), Tint.PAPER_SHADE, Pen.THIN),
        area(((ridge, corner), (ridge + 13, corner + 4.1), (ridge + 13, tall), (ridge, tall)), Tint.PAPER, Pen.THIN),
        area(((0, 0), (card, 0), (ridge, 0), (ridge, corner + 2), (card, inner + lap), (0, corner + 2)), Tint.LEATHER),
        area(((ridge, 0), (ridge + 13, 0), (ridge + 13, corner + 4.1 + 3.0), (ridge, corner + 2)), Tint.LEATHER),
        area(((-cover, 0), (down, 0), (down, tall), (-cover, tall)), Tint.STRIP),
        area(((ridge - flank, 0), (ridge + flank, 0), (ridge + flank, tall), (ridge - flank, tall)), Tint.STRIP),
        Stroke(((card, inner), (card, tall)), Pen.DASHED),
    ]
    level = tall + 2.4
    for a, b, text, end in (
        (-cover, 0.0, words.FRAME_COVER, -cover / 2),
        (0.0, down, words.END_LAP, 0.0),
        (ridge, ridge + flank, words.EDGE_LAP, ridge),
    ):
        items += [Stroke(((x, tall + 0.6), (x, level + 1.0)), Pen.THIN) for x in (a, b)]
        items += arrow((a, level), (b, level), both=True)
        anchor = "end" if text is words.FRAME_COVER else "start"
        items.append(lettered(say(text), (0.6 if end == 0.0 else end + (4.6 if anchor == "end" else 0.0), level + 3.0), anchor))
    x = card + 3.4
    items += [Stroke(((x - 2.6, y), (x + 1.2, y)), Pen.THIN) for y in (inner, inner + lap)]
    items += [Stroke(((x, inner - 2.4), (x, inner + lap + 2.4)), Pen.THIN)]
    items += [head((x, inner + lap), (x, inner + lap + 1.6)), head((x, inner), (x, inner - 1.6))]
    items.append(lettered(say(words.GUSSET_LAP), (x + 1.4, inner + lap + 3.4), "start"))
    items += [
        lettered(say(words.FRAME), (-frame / 2 - 0.2, -2.8)),
        lettered(say(words.VALLEY), (card, -2.8)),
        lettered(say(words.RIDGE), (ridge, -2.8)),
        lettered(say(words.CORNER_BELOW), (card, -7.0)),
    ]
    return Figure(items)

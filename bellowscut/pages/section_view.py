"""The section with its sides lettered: which side is which, and from which end one looks."""

from __future__ import annotations

import math

from bellowscut.bellows import Bellows
from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, paragraph, text_width
from bellowscut.pages.furniture import Box
from bellowscut.section import Packing, Section, side_name
from bellowscut.shapes import Point, bounds, centroid, inset
from bellowscut.units import Rule
from bellowscut.words import say, views as words

LETTER, SMALL, TEXT = 4.0, 2.5, 3.0
"""Letters of the sides, of the corners, and of what is said under the picture [mm]."""

RIM = 7.0
"""Room round the polygon for the letters [mm]."""

APART = 6.0
"""Letters of sides stand at least so far apart; where sides are shorter some go without [mm]."""

PACKED = {"right": words.PACK_RIGHT_FRAME, "left": words.PACK_LEFT_FRAME}


def section_height(bellows: Bellows, width: float) -> float:
    """Height of the picture when it is as wide as `width` [mm]."""
    left, low, right, high = bounds(bellows.section.frame)
    return (width - 2 * RIM) * (high - low) / (right - left) + 2 * RIM


def section_picture(bellows: Bellows, box: Box) -> list[Item]:
    """Frame and ridge polygon with letters, in the middle of a box.

    Parameters
    ----------
    bellows : Bellows
        What is drawn.
    box : tuple of float
        Left, low, right and high edge [mm].

    Returns
    -------
    list of items
        Polygons, letters, the mark of side A and the arrow that shows which way the letters run.
    """
    section = bellows.section
    left, low, right, high = bounds(section.frame)
    scale = min((box[2] - box[0] - 2 * RIM) / (right - left), (box[3] - box[1] - 2 * RIM) / (high - low))
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)

    def placed(point: Point) -> Point:
        return middle[0] + (point[0] - (left + right) / 2) * scale, middle[1] + (point[1] - (low + high) / 2) * scale

    frame, ridge = tuple(map(placed, section.frame)), tuple(map(placed, section.ridge))
    items: list[Item] = [
        Stroke(frame, Pen.SOLID, closed=True, fill=Tint.FRAME),
        Stroke(ridge, Pen.SOLID, closed=True, fill=Tint.PAPER),
    ]
    valley = _valley(bellows)
    if valley:
        items.append(Stroke(tuple(map(placed, valley)), Pen.DASHED, closed=True, fill=Tint.WHITE))
    items += _packed(section, frame)
    items += _letters(section, frame)
    centre = placed(centroid(section.frame))
    inner = tuple(map(placed, valley)) if valley else ridge
    items += _centre(centre, min(math.dist(centre, _foot(centre, inner[i - 1], inner[i])) for i in range(len(inner))))
    return items


def _valley(bellows: Bellows) -> tuple[Point, ...]:
    """The valley polygon of the closed bellows [mm]; empty where nothing is left inside."""
    return inset(bellows.section.ridge, (bellows.depth,) * bellows.section.count)


def _foot(p: Point, a: Point, b: Point) -> Point:
    """The point of a line nearest to `p`."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    along = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)
    return a[0] + along * dx, a[1] + along * dy


def _beyond(a: Point, b: Point, distance: float, share: float = 0.5) -> Point:
    """A point off the middle of a side, outwards [mm]."""
    length = math.dist(a, b)
    x, y = a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share
    return x + (b[1] - a[1]) / length * distance, y - (b[0] - a[0]) / length * distance


def _letters(section: Section, frame: tuple[Point, ...]) -> list[Item]:
    count = section.count
    items: list[Item] = [Stroke((frame[0], frame[1]), Pen.HEAVY)]
    side = [math.dist(p, frame[(i + 1) % count]) for i, p in enumerate(frame)]
    last: Point | None = None
    first = _beyond(frame[0], frame[1], 4.0)
    for i, name in enumerate(section.side_names):
        at = _beyond(frame[i], frame[(i + 1) % count], 4.0)
        near_first = i > 1 and math.dist(at, first) < APART
        if last is not None and (math.dist(last, at) < APART or near_first):
            continue
        last = at
        height = LETTER if len(name) == 1 else 3.0
        items.append(Label(name, (at[0], at[1] - height * CAPITAL / 2), height, anchor="middle", bold=True))
    items += _flag(frame[0], frame[1])
    if min(side) > 5.0 * text_width("AB", SMALL) / 2 and count <= 16:
        for i, name in enumerate(section.corner_names):
            before, after = _beyond(frame[i - 1], frame[i], 1.0, 1.0), _beyond(frame[i], frame[(i + 1) % count], 1.0, 0.0)
            x, y = (before[0] + after[0]) / 2 - frame[i][0], (before[1] + after[1]) / 2 - frame[i][1]
            off = 3.5 / math.hypot(x, y)
            items.append(Label(name, (frame[i][0] + x * off, frame[i][1] + y * off - SMALL * CAPITAL / 2), SMALL, anchor="middle"))
    return items


def _flag(a: Point, b: Point) -> list[Item]:
    """The mark to put on side A: a notch that points at its middle."""
    tip, length = _beyond(a, b, -0.9), math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    half = min(1.5, length / 4)
    base = _beyond(a, b, 0.9)
    points = ((base[0] - ux * half, base[1] - uy * half), (base[0] + ux * half, base[1] + uy * half), tip)
    return [Stroke(points, Pen.THIN, closed=True, fill=Tint.INK)]


def _packed(section: Section, frame: tuple[Point, ...]) -> list[Item]:
    """A bar outside each side that is packed at either frame."""
    items: list[Item] = []
    names = section.side_names
    for side in sorted({names.index(packing.side) for packing in section.packing}):
        a, b = frame[side], frame[(side + 1) % section.count]
        inner, outer = [[_beyond(a, b, off, share) for share in (0.22, 0.78)] for off in (0.0, 1.1)]
        items.append(Stroke((*inner, *reversed(outer)), Pen.THIN, closed=True, fill=Tint.LEATHER))
    return items


def _centre(centre: Point, room: float) -> list[Item]:
    """An arrow round the middle, the way the letters run."""
    radius = min(9.0, 0.62 * room)
    if radius < 2.5:
        return []
    arc = [math.radians(a) for a in range(-200, 21, 10)]
    points = [(centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in arc]
    end, way = arc[-1], arc[-1] + math.pi / 2
    head = []
    for along, across in ((2.2, 0.0), (-0.6, 0.95), (-0.6, -0.95)):
        x = radius * math.cos(end) + along * math.cos(way) + across * math.cos(end)
        y = radius * math.sin(end) + along * math.sin(way) + across * math.sin(end)
        head.append((centre[0] + x, centre[1] + y))
    return [Stroke(tuple(points), Pen.SOLID), Stroke(tuple(head), Pen.THIN, closed=True, fill=Tint.INK)]


def section_words(bellows: Bellows, at: Point, width: float) -> tuple[list[Item], float]:
    """What is said under the section: how to look, sizes, packing.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    at : Point
        Left end of the first base line [mm].
    width : float
        Of the text [mm].

    Returns
    -------
    list of items
        Labels.
    float
        Where the next base line would stand [mm].
    """
    items: list[Item] = []
    y = at[1]
    for text, bold in section_sentences(bellows):
        labels, y = paragraph(text, (at[0], y), TEXT, width, bold=bold, leading=1.3)
        items += labels
        y -= 0.8
    return items, y


def section_sentences(bellows: Bellows) -> tuple[tuple[str, bool], ...]:
    """The sentences under the section, and whether each is heavy."""
    section = bellows.section
    found = [(say(words.LOOKING), False), (say(words.MARK_SIDE_A), True)]
    if _valley(bellows):
        found.append((say(words.DASHED_VALLEYS), False))
    found += [
        (say(words.FRAME_SIZES, sizes=_sizes(section.frame_sides, bellows.rule)), False),
        (say(words.RIDGE_SIZES, sizes=_sizes(section.sides, bellows.rule)), False),
    ]
    for end, text in PACKED.items():
        packed = [packing for packing in section.packing if packing.end == end]
        if packed:
            found.append((say(text, packing=_packing(packed, bellows.rule)), True))
    return tuple(found)


def _packing(packed: list[Packing], rule: Rule) -> str:
    return ", ".join(say(words.PACK_SIDE, side=packing.side, mm=rule.fine(packing.mm)) for packing in packed)


def _sizes(lengths: tuple[float, ...], rule: Rule) -> str:
    """Side lengths, once when all are alike."""
    if max(lengths) - min(lengths) < 0.005:
        return say(words.SIDES_ALIKE, number=len(lengths), mm=rule.length(lengths[0]))
    if len(lengths) > 3 and len(lengths) % 2 == 0:
        half = len(lengths) // 2
        if all(abs(lengths[i] - lengths[i + half]) < 0.005 for i in range(half)):
            return say(
                words.SIDES,
                list=", ".join(f"{side_name(i)} {side_name(i + half)} {rule.bare(lengths[i])}" for i in range(half)),
                unit=rule.unit,
            )
    return say(words.SIDES, list=", ".join(f"{side_name(i)} {rule.bare(length)}" for i, length in enumerate(lengths)), unit=rule.unit)

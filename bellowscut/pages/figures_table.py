"""The figures of a bellows and the list of its parts, as rows of a table."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from bellowscut.bellows import Bellows
from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.lettering import text_width, wrapped
from bellowscut.parts.part import Part
from bellowscut.section import side_name
from bellowscut.shapes import Point, bounds
from bellowscut.units import Rule, angle_told
from bellowscut.words import count, figures as words, say
from bellowscut.words.summary import PLACES

TEXT = 3.0
"""Size of the letters [mm]."""

ROW = 4.7
"""Height of a row of one line [mm]."""

WRAP = 3.7
"""What a further line of a row adds [mm]."""


WITH_SIZE = 115.0
"""Least width of a list of parts that gives sizes too [mm]."""


@dataclass(frozen=True)
class Figure:
    """One figure of the bellows.

    Parameters
    ----------
    name : str
        What it is.
    value : str
        With its unit.
    more : str
        The same in inches, or what to know; may be left out where room is short.
    bold : bool
        Whether it is one that is needed at the bench.
    """

    name: str
    value: str
    more: str = ""
    bold: bool = False


def figures(bellows: Bellows) -> tuple[Figure, ...]:
    """Every figure that the bench asks for, the most wanted first.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    """
    profile, rule = bellows.profile.bellows, bellows.rule
    pitch = 2 * bellows.depth * math.sin(math.radians(bellows.stretch))
    place = bellows.stack.governs
    degrees = say(words.CARDS_AT, degrees=angle_told(bellows.stretch))
    found = [
        Figure(say(words.FRAMES_APART), *_both(rule, bellows.gluing_distance), bold=True),
        Figure(say(words.VALLEY_THEN), rule.length(bellows.valley_pitch), say(words.FORM_AT, degrees=angle_told(bellows.form_slope))),
        Figure(say(words.OPEN), *_both(rule, bellows.open_length), bold=True),
        Figure(say(words.VALLEY_THEN), rule.length(pitch), degrees),
        Figure(say(words.CLOSED), *_both(rule, bellows.closed_length), bold=True),
        Figure(
            say(words.LAYERS),
            rule.fine(getattr(bellows.stack, place)),
            say(words.GOVERNS, place=say(PLACES[place])),
        ),
        Figure(say(words.TRAVEL), *_both(rule, bellows.travel), bold=True),
        Figure(say(words.INSIDE), *_both(rule, bellows.inside_opening)),
        Figure(say(words.DEPTH), *_both(rule, bellows.depth)),
        *_across(bellows),
        Figure(say(words.CARDS), str(bellows.cards_per_side), folds_told(bellows.folds)),
        Figure(say(words.SET_IN), rule.fine(_setback(bellows)), say(words.FROM_FRAME)),
        Figure(
            say(words.VALLEY_CORNER),
            rule.length(bellows.closed_gap),
            say(words.RIDGE_GAP, gap=rule.fine(bellows.corner_gap)),
        ),
        Figure(say(words.GUSSET_WIDTH), Rule().length(bellows.length_per_mm_of_gusset), say(words.OF_OPEN_LENGTH)),
        Figure(say(words.AIR), say(words.VOLUME, volume=f"{bellows.air_moved:.0f}"), say(words.CARDS_TAKEN_AS_THIN)),
    ]
    found += _old_card(bellows)
    if profile.old_closed_length is not None:
        found.insert(6, Figure(say(words.CLOSED_BEFORE), *_both(rule, profile.old_closed_length)))
    return tuple(found)


def _old_card(bellows: Bellows) -> list[Figure]:
    """What was read off an old card, the middle of its readings, and what came of it."""
    rule = bellows.rule
    card, shadow = bellows.old_card, bellows.profile.readings.glue_shadow
    found = []
    relief = "" if card.relief is None else say(words.RELIEF, degrees=angle_told(card.relief))
    if len(card.cards) == 1:
        one = card.cards[0]
        gap = "" if one.gap is None else say(words.RIDGE_GAP, gap=rule.fine(bellows.corner_gap))
        edges = ((words.RIDGE_EDGE, one.ridge_edge, gap), (words.VALLEY_EDGE, one.valley_edge, relief))
        found += [Figure(say(name), rule.length(edge), more) for name, edge, more in edges if edge is not None]
    elif card.reliefs:
        least, most = (angle_told(pick(card.reliefs)) for pick in (min, max))
        relief = say(words.DEGREES, degrees=angle_told(card.relief or 0.0))
        found.append(Figure(say(words.OLD_CARDS, number=len(card.cards)), relief, say(words.RELIEF_BETWEEN, least=least, most=most)))
    if shadow is not None:
        found.append(Figure(say(words.SHADOW), rule.fine(median(shadow.every)), say(words.LAP_OF_GUSSETS)))
    return found


def folds_told(number: int) -> str:
    """How many folds there are, in words."""
    return count(number, words.ONE_FOLD, words.FOLDS)


def _across(bellows: Bellows) -> list[Figure]:
    """The frame's flats, one figure where all agree."""
    flats, rule = bellows.section.flats, bellows.rule
    if flats is None:
        return []
    if max(flats) - min(flats) < 0.005:
        return [Figure(say(words.ACROSS_FLATS), *_both(rule, flats[0]))]
    if len(flats) > 3:
        return []
    return [Figure(say(words.ACROSS_SIDE, side=side_name(i)), *_both(rule, flat)) for i, flat in enumerate(flats)]


def _setback(bellows: Bellows) -> float:
    """How far the ridge lines lie inside the frame [mm]."""
    a, b = bellows.section.frame[:2]
    x, y = bellows.section.ridge[0]
    return ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / math.dist(a, b)


def _both(rule: Rule, mm: float) -> tuple[str, str]:
    """A length in the unit of the papers, and in the other."""
    return rule.length(mm), rule.other(mm)


def figures_table(found: Sequence[Figure], at: Point, width: float) -> tuple[list[Item], float]:
    """Figures one under the other: name, dots, value, and more in a third column where there is room.

    Parameters
    ----------
    found : sequence of Figure
        The rows.
    at : Point
        Upper left corner [mm].
    width : float
        Of the table [mm].

    Returns
    -------
    list of items
        Labels and dotted lines.
    float
        Lower edge [mm].
    """
    value_width = max(text_width(one.value, TEXT, bold=True) for one in found)
    more_width = max(text_width(one.more, TEXT) for one in found)
    name_width = max(text_width(one.name, TEXT, bold=one.bold) for one in found)
    with_more = name_width + value_width + more_width + 8.0 <= width
    value_end = at[0] + width - (more_width + 3.0 if with_more else 0.0)
    items: list[Item] = []
    y = at[1]
    for one in found:
        y -= ROW
        base = y + 1.2
        room = value_end - at[0] - text_width(one.value, TEXT, bold=True) - 4.0
        items.append(Label(one.name, (at[0], base), TEXT, bold=one.bold, width=room))
        items.append(Label(one.value, (value_end, base), TEXT, anchor="end", bold=True))
        start = at[0] + min(room, text_width(one.name, TEXT, bold=one.bold)) + 1.6
        items += _dots(start, value_end - text_width(one.value, TEXT, bold=True) - 1.6, base + 0.35)
        if with_more:
            items.append(Label(one.more, (value_end + 3.0, base), TEXT))
    return items, y


def _dots(start: float, end: float, y: float) -> list[Item]:
    """Small squares that lead the eye from a name to its value, in step from row to row."""
    step, half = 1.8, 0.14
    first = -int(-start // step)
    return [
        Stroke(
            ((k * step - half, y - half), (k * step + half, y - half), (k * step + half, y + half), (k * step - half, y + half)),
            Pen.THIN,
            closed=True,
            fill=Tint.INK,
        )
        for k in range(first + 1, int(end // step) + 1)
    ]


@dataclass(frozen=True)
class PartRow:
    """One row of the list of parts, its name broken to the column.

    Parameters
    ----------
    names : tuple of str
        The name, line by line.
    pieces, size, material : str
        What stands in the other columns.
    """

    names: tuple[str, ...]
    pieces: str
    size: str
    material: str

    @property
    def tall(self) -> float:
        """Height of the row [mm]."""
        return ROW + WRAP * (len(self.names) - 1)


@dataclass(frozen=True)
class PartList:
    """The list of parts for a width, ready to be cut into pages.

    Parameters
    ----------
    columns : tuple of float
        Where pieces, size and material begin or end, from the left edge [mm].
    rows : tuple of PartRow
        In cutting order.
    """

    width: float
    columns: tuple[float, float, float]
    rows: tuple[PartRow, ...]

    def tall(self, first: int, last: int) -> float:
        """Height of rows `first` to `last` (not included) [mm]."""
        return sum(row.tall for row in self.rows[first:last])

    def drawn(self, first: int, last: int, at: Point) -> tuple[list[Item], float]:
        """Rows `first` to `last` (not included) under a heading; with the lower edge [mm]."""
        pieces, size, material = (at[0] + x for x in self.columns)
        y = at[1] - ROW
        items: list[Item] = [
            Label(say(words.PIECES), (pieces, y + 1.2), 2.6, anchor="end"),
            Label(say(words.SIZE) if any(row.size for row in self.rows) else "", (size, y + 1.2), 2.6, anchor="end"),
            Label(say(words.MATERIAL), (material, y + 1.2), 2.6),
            Stroke(((at[0], y), (at[0] + self.width, y)), Pen.THIN),
        ]
        for row in self.rows[first:last]:
            top, y = y, y - row.tall
            base = top - ROW + 1.2
            items += [Label(name, (at[0], base - WRAP * k), TEXT) for k, name in enumerate(row.names)]
            items.append(Label(row.pieces, (pieces, base), TEXT, anchor="end", bold=True))
            start = at[0] + text_width(row.names[0], TEXT) + 1.6
            items += _dots(start, pieces - text_width(row.pieces, TEXT, bold=True) - 1.6, base + 0.35)
            items.append(Label(row.size, (size, base), TEXT, anchor="end"))
            items.append(Label(row.material, (material, base), TEXT, width=at[0] + self.width - material))
        items.append(Stroke(((at[0], y), (at[0] + self.width, y)), Pen.THIN))
        return items, y


def part_list(parts: Sequence[Part], width: float) -> PartList:
    """The list of parts, its columns fitted to a width.

    Parameters
    ----------
    parts : sequence of Part
        In cutting order.
    width : float
        Of the list [mm].
    """
    pieces = [part.counted for part in parts]
    sizes = [_size(part) if width >= WITH_SIZE else "" for part in parts]
    material_width = min(0.24 * width, max((text_width(part.material, TEXT) for part in parts), default=0.0))
    size_width = max((text_width(size, TEXT) for size in sizes), default=0.0)
    pieces_width = max((text_width(one, TEXT, bold=True) for one in pieces), default=0.0)
    material = width - max(material_width, text_width(say(words.MATERIAL), 2.6))
    size = material - 4.0
    pieces_end = size - (max(size_width, text_width(say(words.SIZE), 2.6)) + 4.0 if width >= WITH_SIZE else 0.0)
    room = pieces_end - max(pieces_width, text_width(say(words.PIECES), 2.6)) - 3.0
    rows = tuple(
        PartRow(wrapped(part.name, TEXT, room), one, dims, part.material) for part, one, dims in zip(parts, pieces, sizes, strict=True)
    )
    return PartList(width, (pieces_end, size, material), rows)


def _size(part: Part) -> str:
    left, low, right, high = bounds(part.points)
    return f"{Rule().bare(right - left)} \u00d7 {Rule().bare(high - low)}"

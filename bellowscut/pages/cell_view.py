"""One closed cell, layer by layer, at the four places that may decide how short the bellows shuts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from bellowscut.bellows import Bellows
from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.dimensions import Board
from bellowscut.pages.figure import Figure
from bellowscut.units import Rule, plain_number
from bellowscut.words import pictures as words, say

SCALES = ((20.0, "20 : 1"), (10.0, "10 : 1"), (5.0, "5 : 1"), (2.0, "2 : 1"), (1.0, "1 : 1"), (0.5, "1 : 2"))
"""Scales of the thicknesses [-]."""

TALLEST = 55.0
"""Most height of a stack [mm]."""

WIDE, LEAD = 10.0, 4.0
"""Width of a stack, and of the lines that lead to its names [mm]."""

APART = 3.5
"""Between two stacks with their names [mm]."""

LETTERS, NAME = 2.4, 3.2
"""Letters of layers and of places [mm]."""

STEP = 1.3
"""Base line to base line of the layers' names [-] of the em."""

TINTS = {
    "card": Tint.CARD,
    "facing": Tint.PAPER,
    "hinge": Tint.CLOTH,
    "valley-strip": Tint.LEATHER,
    "ridge-cloth": Tint.CLOTH_SHADE,
    "edge-strip": Tint.STRIP,
    "edge-strip-flank": Tint.STRIP,
    "gusset-lap": Tint.LEATHER_SHADE,
    "gusset": Tint.LEATHER,
    "cover": Tint.PAPER_SHADE,
    "cover-folded": Tint.PAPER_SHADE,
}


@dataclass(frozen=True)
class Layer:
    """One layer of a closed cell.

    Parameters
    ----------
    name : str
        A key of the words' `LAYER_NAMES`.
    thickness : float
        As it is counted [mm].
    """

    name: str
    thickness: float


def stacks(bellows: Bellows) -> dict[str, tuple[Layer, ...]]:
    """Every layer of one closed cell at its face, valley, ridge and corner, in the order in which they lie."""
    one = bellows.layers
    strip = "edge-strip" if one.strip_at_ridge > one.strip_on_flank else "edge-strip-flank"
    hinge = [("hinge", one.valley_hinge)]
    outside = bellows.profile.hinge.valley_side == "outside"
    halves: dict[str, list[tuple[str, float]]] = {
        "face": [("card", one.card), ("facing", one.facing)],
        "valley": [
            *([] if outside else hinge),
            ("card", one.card),
            *(hinge if outside else []),
            ("valley-strip", one.valley_strip),
            ("facing", one.facing),
        ],
        "ridge": [("hinge", one.ridge_hinge), ("card", one.card), ("ridge-cloth", one.ridge_cloth), (strip, one.strip_at_ridge)],
        "corner": [
            ("hinge", one.ridge_hinge),
            ("card", one.card),
            ("gusset-lap", one.gusset_lap),
            ("cover", one.cover),
            ("edge-strip-flank", one.strip_on_flank),
            ("cover-folded", one.cover),
            ("gusset", one.gusset),
            ("gusset", one.gusset),
            ("cover-folded", one.cover),
        ],
    }
    found = {}
    for place, half in halves.items():
        layers = [Layer(name, thickness) for name, thickness in half if thickness > 0]
        found[place] = (*layers, *reversed(layers))
    return found


def cell_scale(bellows: Bellows) -> tuple[float, str]:
    """Scale of the thicknesses, and how it is written."""
    tallest = max(bellows.stack.face, bellows.stack.valley, bellows.stack.ridge, bellows.stack.corner)
    return next((one for one in SCALES if one[0] * tallest <= TALLEST), SCALES[-1])


def cell_figure(bellows: Bellows, width: float) -> Figure:
    """The four stacks with their layers named; the one that governs is framed and said so.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    width : float
        Room [mm]; what does not fit stands in a second row.

    Returns
    -------
    Figure
        Its upper left corner is the origin.
    """
    scale, _ = cell_scale(bellows)
    columns = [_column(bellows, place, layers, scale) for place, layers in stacks(bellows).items()]
    rows: list[list[Figure]] = [[]]
    for column in columns:
        if rows[-1] and sum(one.size[0] + APART for one in rows[-1]) + column.size[0] > width:
            rows.append([])
        rows[-1].append(column)
    items: list[Item] = []
    top = 0.0
    for row in rows:
        # All stacks of a row stand on one ground, and what is left over goes between them.
        low = max(-figure.box[1] for figure in row)
        tall = max(figure.box[3] for figure in row) + low
        spare = (width - sum(figure.size[0] for figure in row)) / max(1, len(row) - 1)
        left = 0.0
        for figure in row:
            items += figure.moved(left - figure.box[0], top - tall + low).items
            left += figure.size[0] + (min(spare, 5 * APART) if len(row) > 1 else 0.0)
        top -= tall + APART
    return Figure(tuple(items))


def _column(bellows: Bellows, place: str, layers: Sequence[Layer], scale: float) -> Figure:
    """One stack, standing on height 0."""
    governs = bellows.stack.governs == place
    items: list[Item] = []
    names: list[tuple[float, str]] = []
    y = 0.0
    for (name, thickness), run in groupby(layers, key=lambda layer: (layer.name, layer.thickness)):
        start, count = y, len(list(run))
        for _ in range(count):
            items.append(Stroke(_box(0.0, y, WIDE, y + thickness * scale), Pen.THIN, closed=True, fill=TINTS[name]))
            y += thickness * scale
        names.append(((start + y) / 2, _told(name, thickness, count)))
    items.append(Stroke(_box(0.0, 0.0, WIDE, y), Pen.HEAVY if governs else Pen.SOLID, closed=True))
    step = LETTERS * STEP
    places = _spread([at for at, _ in names], step)
    for (at, text), level in zip(names, places, strict=True):
        items.append(Stroke(((WIDE + 0.6, at), (WIDE + LEAD - 1.4, level), (WIDE + LEAD - 0.4, level)), Pen.THIN))
        items.append(Label(text, (WIDE + LEAD, level - LETTERS * CAPITAL / 2), LETTERS))
    board = Board()
    board.length((0.0, 0.0), (0.0, y), plain_number(y / scale, 2), 90.0, 1, 0.0, first=4.6)
    low = min(0.0, places[0] - LETTERS)
    name = say(words.PLACES[place])
    text = say(words.PLACE_GOVERNS, place=name) if governs else name
    middle = (WIDE + LEAD + max(text_width(text, LETTERS) for _, text in names)) / 2
    items.append(Label(text, (middle, low - 2.4 - NAME * CAPITAL), NAME, anchor="middle", bold=governs))
    return Figure((*items, *board.items))


def _told(name: str, thickness: float, count: int) -> str:
    shown, mm = say(words.LAYER_NAMES[name]), plain_number(thickness, 2)
    return say(words.LAYER, name=shown, mm=mm) if count == 1 else say(words.LAYERS_ALIKE, name=shown, count=count, mm=mm)


def _spread(levels: Sequence[float], step: float) -> list[float]:
    """Levels at least a step apart, as near to the wanted ones as their neighbours allow."""
    groups: list[tuple[float, int]] = []
    for level in levels:
        # A group is told by its middle and its number.
        middle, count = level, 1
        while groups and middle - (count - 1) * step / 2 < groups[-1][0] + (groups[-1][1] + 1) * step / 2:
            before, number = groups.pop()
            middle = (before * number + middle * count) / (number + count)
            count += number
        groups.append((middle, count))
    return [middle + (k - (count - 1) / 2) * step for middle, count in groups for k in range(count)]


def _box(left: float, low: float, right: float, high: float) -> tuple[tuple[float, float], ...]:
    return (left, low), (right, low), (right, high), (left, high)


def governing_words(bellows: Bellows) -> str:
    """Which place governs, and what closed length follows."""
    stack, factor = bellows.stack, bellows.profile.bellows.stack_factor
    values = {
        "place": say(words.PLACES[stack.governs]),
        "cells": plain_number(bellows.cards_per_side / 2),
        "cell": Rule().bare_fine(getattr(stack, stack.governs)),
        "length": Rule().bare(bellows.closed_length),
    }
    if factor == 1:
        return say(words.CELL_GOVERNS, **values)
    return say(words.CELL_GOVERNS_FACTOR, factor=plain_number(factor, 3), **values)

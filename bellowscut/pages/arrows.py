"""The double arrow that shows the direction of least stretch, or the grain of board."""

from __future__ import annotations

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.layout.openings import Place
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.parts.part import Part
from bellowscut.words import say, sheets as words

BOARD = ("card", "card-run", "facing")
"""Kinds made of board or paper, which have a grain rather than a stretch."""

FORM = "form-"
"""How the kinds of pieces of a form begin, which are of ply."""

LETTERS = 2.7
"""Letters of the arrow's words [mm]."""

SHAFT, HEAD, BARB = 6.0, 2.6, 0.75
"""Line on each side of the words, length and half width of a head [mm]."""

BARE = 6.5
"""From this length on an arrow without words has heads of full size [mm]."""

_NOTCH = 0.72
"""How far back the notch of a head lies [-] of its length."""


def arrow_text(part: Part) -> str:
    """What the arrow says."""
    return say(words.BOARD_GRAIN if part.kind in BOARD or part.kind.startswith(FORM) else words.LEAST_STRETCH)


def arrow_size(part: Part) -> tuple[float, float]:
    """Length and height of the arrow with its words [mm]."""
    return text_width(arrow_text(part), LETTERS) + 2 * (SHAFT + 1.2), LETTERS


def arrow(part: Part, place: Place) -> list[Item]:
    """A double arrow that carries its words in the middle, along a place's angle."""
    half = arrow_size(part)[0] / 2
    words = text_width(arrow_text(part), LETTERS) / 2 + 1.2
    items: list[Item] = []
    for way in (-1, 1):
        items += _half(place, way * words, way * half)
    below = place.point(0.0, -LETTERS * CAPITAL / 2 + 0.1)
    items.append(Label(arrow_text(part), below, LETTERS, readable(place.angle), "middle"))
    return items


def bare_arrow(place: Place, length: float) -> list[Item]:
    """A double arrow without words; a very short one has smaller heads [mm]."""
    size = min(1.0, length / BARE)
    return [*_half(place, 0.0, -length / 2, size), *_half(place, 0.0, length / 2, size)]


def _half(place: Place, start: float, end: float, size: float = 1.0) -> list[Item]:
    way = 1 if end > start else -1
    back, barb = way * HEAD * size, BARB * size
    notch = end - back * _NOTCH
    head = (place.point(end, 0), place.point(end - back, barb), place.point(notch, 0), place.point(end - back, -barb))
    return [
        Stroke((place.point(start, 0), place.point(notch, 0)), Pen.SOLID),
        Stroke(head, Pen.THIN, closed=True, fill=Tint.INK),
    ]


def readable(angle: float) -> float:
    """The same direction, never upside down [deg]."""
    angle = (angle + 90) % 180 - 90
    return 90.0 if angle == -90 else angle

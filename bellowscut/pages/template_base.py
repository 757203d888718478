"""What all templates share: how much must be left of them, their hole, and what is written on them."""

from __future__ import annotations

from bellowscut.drawing import Line
from bellowscut.parts.part import Part
from bellowscut.shapes import Outline, Point
from bellowscut.words import say, templates as words

RIM = 3.0
"""Least width of what is left between two cuts [mm], from memory: narrower ply breaks."""

HOLE = 2.0
"""Radius of the hole to hang a template by [mm]."""

CLEAR = 1.2
"""Least distance of lettering from cuts [mm]."""

STEP = 1.35
"""Base line to base line [-] of the size of the letters."""

MOST_PLACES = 3
"""More sides or corners than this are not all engraved [-]."""

UP = {"flesh": words.FLESH_UP, "grain": words.GRAIN_UP, "outside": words.OUTSIDE_UP, "inside": words.INSIDE_UP}
"""What is said of the face of a part that lies up."""


def name_of(part: Part) -> str:
    """Short enough to be engraved: what it is, and where it belongs if there are others of its kind."""
    name, others, _ = part.name.partition(",")
    places = (part.sides or part.corners) if others else ()
    return " ".join((name, "/".join(places[:MOST_PLACES]) + ("..." if len(places) > MOST_PLACES else ""))).strip()


def face_of(part: Part) -> str:
    """Which face of the leather to lay up."""
    return say(UP[part.side])


def use_of(part: Part) -> str:
    """How many pieces to cut round it, of what, which way up."""
    return say(words.FOR_PIECES, pieces=part.pieces, material=part.material, face=face_of(part))


def is_level(line: Line) -> bool:
    """Whether all of a line is at one height."""
    return len({y for _, y in line.points}) == 1


def hole_at(centre: Point) -> Outline:
    """A hole to hang a template by [mm]."""
    x, y = centre
    return Outline(((x + HOLE, y), (x - HOLE, y)), (1.0, 1.0))

"""How lines are told apart in SVG and DXF: layers and colours.

Machines go by layer or by colour, so every layer has a colour of its own and
every line is solid. The colours differ in lightness as well as in hue, for
grey screens and for eyes that see colours differently.
"""

from __future__ import annotations

from dataclasses import dataclass

from bellowscut.drawing import Drawn, Role
from bellowscut.layout.apart import SCALE


@dataclass(frozen=True)
class Ink:
    """How the lines of one layer look.

    Parameters
    ----------
    colour : str
        ``#rrggbb``, for SVG.
    index : int
        Colour number of DXF [-]; 7 is black on white and white on black.
    weight : float
        Width of the line in SVG [mm].
    """

    colour: str
    index: int
    weight: float


INKS = {
    "SCALE": Ink("#30a97b", 113, 0.15),
    "TEXT": Ink("#722c0a", 34, 0.15),
    "MARK": Ink("#ae73c8", 203, 0.15),
    "SKIVE": Ink("#e8671a", 30, 0.2),
    "CREASE": Ink("#322ed7", 5, 0.2),
    "CUT": Ink("#17161c", 7, 0.25),
}
"""Every layer, in the order in which a part is worked: a machine that goes by the order of a file cuts last."""


def layer_of(drawn: Drawn, role: Role) -> str:
    """Name of the layer for the lines of a role in a drawing."""
    return "SCALE" if drawn.part == SCALE else role.value.upper()

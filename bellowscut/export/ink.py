"""How lines are told apart in SVG and DXF: layers and colours.

Machines go by layer or by colour, so every layer has a colour of its own and
every line is solid. The colours differ in lightness as well as in hue, for
grey screens and for eyes that see colours differently.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
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


TRIALS = {
    "MARK-1": Ink("#9c4fc0", 200, 0.15),
    "MARK-2": Ink("#0f8b8d", 134, 0.15),
    "MARK-3": Ink("#c2410c", 22, 0.15),
    "MARK-4": Ink("#4d7c0f", 84, 0.15),
    "MARK-5": Ink("#be185d", 232, 0.15),
    "CREASE-1": Ink("#1d4ed8", 160, 0.2),
    "CREASE-2": Ink("#0e7490", 144, 0.2),
    "CREASE-3": Ink("#b45309", 42, 0.2),
    "CREASE-4": Ink("#15803d", 104, 0.2),
    "CREASE-5": Ink("#a21caf", 214, 0.2),
}
"""Layers of a test piece, on which the same line is tried at several settings: each its own colour, since machines go by layer or by colour."""

_TRIAL = re.compile("(mark|crease)-[1-5]")


def layer_of(drawn: Drawn, role: Role) -> str:
    """Name of the layer for the lines of a role in a drawing."""
    if drawn.part == SCALE:
        return "SCALE"
    if _TRIAL.fullmatch(drawn.part) and drawn.part.startswith(role.value):
        return drawn.part.upper()
    return role.value.upper()


def layers_of(drawings: Iterable[Drawn]) -> dict[str, Ink]:
    """The layers of a file: all of `INKS`, and of `TRIALS` those that are drawn on."""
    used = {one.part.upper() for one in drawings}
    return {**{name: ink for name, ink in TRIALS.items() if name in used}, **INKS}

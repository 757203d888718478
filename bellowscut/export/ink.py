"""How lines are told apart in SVG and DXF: layers, colours, widths of lines.

Machines go by layer, by colour or by the width of a line, and every shop tells
its own colours. So each layer has a colour and a width of its own, which the
table ``[cutter]`` of a profile may change, and every line is solid.

The colours that are there without it copy nobody's: full colours between the
common ones, far apart for a machine that takes the nearest it knows, and none
near black, which many machines engrave.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from bellowscut.drawing import Drawn, Role
from bellowscut.layout.apart import SCALE
from bellowscut.schema import CutterSpec, colours_alike


@dataclass(frozen=True)
class Ink:
    """How the lines of one layer look.

    Parameters
    ----------
    colour : str
        ``#rrggbb``.
    weight : float
        Width of the line [mm].
    """

    colour: str
    weight: float


Inks = Mapping[str, Ink]
"""By layer, in the order in which a file is worked: a machine that goes by that order cuts last."""

LAYERS = ("SCALE", "TEXT", "MARK", "SKIVE", "CREASE", "CUT")
"""Every layer, in the order in which it is worked."""

SETTINGS = 5
"""How many settings marks and creases are tried at on a test piece [-]."""

TRIALS = tuple(f"{layer}-{number}" for layer in ("MARK", "CREASE") for number in range(1, SETTINGS + 1))
"""Layers of a test piece, on which the same line is tried at several settings: each its own colour, since machines go by layer or by colour."""

_TRIAL_COLOURS = (
    "#c0c000", "#c040c0", "#40c0ff", "#c04040", "#c08040", "#00c080", "#00c000", "#808000",
    "#c04000", "#80c040", "#4080c0", "#c04080", "#ff00ff", "#ff00c0", "#ff0000", "#ff0040",
)  # fmt: skip
"""For layers that are tried: as many to spare as there are other layers, whose colours may come near some of these."""

_TRIAL = re.compile("(mark|crease)-[1-5]")


def inks_of(spec: CutterSpec) -> dict[str, Ink]:
    """The ink of every layer as a profile wants it."""
    own = {layer: Ink(getattr(spec, f"{layer.lower()}_colour"), getattr(spec, f"{layer.lower()}_line_width")) for layer in LAYERS}
    free = [colour for colour in _TRIAL_COLOURS if not any(colours_alike(colour, ink.colour) for ink in own.values())]
    tried = {layer: Ink(colour, own[layer.partition("-")[0]].weight) for layer, colour in zip(TRIALS, free, strict=False)}
    return {**tried, **own}


INKS = inks_of(CutterSpec())
"""The inks of a profile that says nothing of them."""


def layer_of(drawn: Drawn, role: Role) -> str:
    """Name of the layer for the lines of a role in a drawing."""
    if drawn.part == SCALE:
        return "SCALE"
    if _TRIAL.fullmatch(drawn.part) and drawn.part.startswith(role.value):
        return drawn.part.upper()
    return role.value.upper()


def layers_of(drawings: Iterable[Drawn], inks: Inks) -> dict[str, Ink]:
    """The layers of a file: all of `LAYERS`, and of `TRIALS` those that are drawn on."""
    used = {one.part.upper() for one in drawings}
    return {name: ink for name, ink in inks.items() if name in LAYERS or name in used}

"""A machine file as it is written: the drawing, and beside it, outside the work, what the file says of itself.

A file leaves the bench and comes to a shop alone. So it says in its own single
strokes what unit it is in, of what it is cut, which face lies up, how many
pieces there are, whether the kerf is in it and what each layer is for, beside a
bar to measure. All of that stands on a layer of its own, to be switched off,
and to the right of the work, so that its lower left corner stays the origin.
"""

from __future__ import annotations

import colorsys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bellowscut.cutting.cauls import CAUL
from bellowscut.cutting.notes import kerf_name, of_tool
from bellowscut.cutting.words import KNIFE, LASER
from bellowscut.drawing import Drawn, Label, Line, Role
from bellowscut.export.ink import LAYERS, TRIALS, Inks, layer_of, layers_of
from bellowscut.layout.apart import BAR, CAPTION_STEP, LETTERS, MARGIN, SCALE
from bellowscut.lettering import CAPITAL, text_width, wrapped
from bellowscut.parts.part import Part, listed
from bellowscut.schema import CutterSpec
from bellowscut.units import both, plain_number
from bellowscut.words import count, cutting as words, say

if TYPE_CHECKING:
    from bellowscut.stock.model import StockPiece

AWAY = 10.0
"""From the work to what stands beside it [mm]."""

TICK = 3.0
"""Length of the ticks of the bar [mm]."""

USES = {
    "SCALE": words.USE_SCALE,
    "TEXT": words.USE_TEXT,
    "MARK": words.USE_MARK,
    "SKIVE": words.USE_SKIVE,
    "CREASE": words.USE_CREASE,
    "CUT": words.USE_CUT,
}
"""What is done with each layer."""

HUES = (
    (15, words.RED),
    (45, words.ORANGE),
    (70, words.YELLOW),
    (160, words.GREEN),
    (200, words.BLUE_GREEN),
    (255, words.BLUE),
    (290, words.VIOLET),
    (345, words.PINK),
    (360, words.RED),
)
"""Plain names of the hues up to an angle of the colour wheel [deg]."""


@dataclass(frozen=True)
class MachineFile:
    """A drawing with all that it says of itself.

    Parameters
    ----------
    stem : str
        Name of the file without its ending, and without what is said of kerf.
    width, height : float
        Of the drawing [mm].
    drawn : tuple of Drawn
        In the order in which they are worked.
    title, description : str
        As a viewer shows them.
    material, face, pieces : str
        Of what it is cut, which face lies up, how many pieces there are.
    kerf : float
        What is allowed for in the outlines [mm], 0 where nothing is.
    kerf_told : str
        What is said of the kerf, where it is not simply in or out.
    more : tuple of str
        What else stands beside the work.
    """

    stem: str
    width: float
    height: float
    drawn: tuple[Drawn, ...]
    title: str
    description: str
    material: str
    face: str
    pieces: str
    kerf: float = 0.0
    kerf_told: str = ""
    more: tuple[str, ...] = ()


Sheet = tuple[float, float, tuple[Drawn, ...]]
"""Width and height of a drawing [mm], and what is drawn."""


def kerfs(cutter: str, spec: CutterSpec) -> tuple[float, ...]:
    """What is allowed for in each of the files to be written [mm]: nothing in one of them always, in a second one a laser's kerf."""
    return (0.0, spec.kerf) if cutter == LASER and kerf_name(spec.kerf) != "0" else (0.0,)


def kerf_told(tool: str, spec: CutterSpec) -> str:
    """What is said of the kerf where there is none to be in or out."""
    return of_tool(tool, spec)[-1] if tool == KNIFE else ""


def template_file(sheet: Sheet, stem: str, title: str, description: str, number: int, kerf: float = 0.0) -> MachineFile:
    """Templates ready to be written."""
    pieces = count(number, words.ONE_TEMPLATE, words.TEMPLATES_ONCE)
    return MachineFile(
        stem, *sheet, title, description, material=say(words.RIGID), face=say(words.AS_ON_TEMPLATES), pieces=pieces, kerf=kerf
    )


def caul_file(sheet: Sheet, stem: str, title: str, description: str, number: int, kerf: float) -> MachineFile:
    """Pressing cauls ready to be written."""
    material, pieces = say(words.CAUL_STOCK, caul=plain_number(CAUL)), count(number, words.ONE_ONCE, words.EACH_ONCE)
    return MachineFile(stem, *sheet, title, description, material=material, face=say(words.EITHER_FACE), pieces=pieces, kerf=kerf)


def trial_file(sheet: Sheet, title: str, description: str, stock: Sequence[StockPiece], kerf: float) -> MachineFile:
    """A test piece ready to be written."""
    return MachineFile(
        "test-piece",
        *sheet,
        title,
        description,
        material=say(words.OF_THE_STOCK, materials=stock_told(stock)),
        face=say(words.AS_THE_JOB),
        pieces=say(words.ONE_TEST_PIECE),
        kerf=kerf,
        kerf_told=say(words.TEST_PIECE_KERF, kerf=both(kerf)) if kerf else "",
    )


def parts_file(
    sheet: Sheet, stem: str, title: str, description: str, parts: Sequence[Part], thickness: Mapping[str, float], *, mirror: bool
) -> MachineFile:
    """The parts of a pattern ready to be written."""
    names = dict.fromkeys(part.material for part in parts)
    told = listed([say(words.MATERIAL_AND_THICKNESS, material=name, mm=plain_number(thickness[name], 2)) for name in names])
    face = say(words.LEATHER_GRAIN_UP if mirror else words.LEATHER_FLESH_UP)
    return MachineFile(
        stem,
        *sheet,
        title,
        description,
        material=told,
        face=face,
        pieces=count(len(parts), words.ONE_ONCE, words.EACH_ONCE),
        more=(say(words.LASER_BY_LAYOUT),),
    )


def form_file(sheet: Sheet, title: str, description: str, parts: Sequence[Part], kerf: float) -> MachineFile:
    """The boards of a form ready to be written."""
    pieces = say(words.EACH_ONCE_IN_ALL, count=len(parts), all=sum(part.count for part in parts))
    return MachineFile("form", *sheet, title, description, material=parts[0].material, face=say(words.FORM_FACE), pieces=pieces, kerf=kerf)


def stock_told(stock: Sequence[StockPiece]) -> str:
    """What pieces of stock are, each sort once, with their thickness."""
    sorts = dict.fromkeys((piece.label, piece.material.thickness) for piece in stock)
    return listed([say(words.MATERIAL_AND_THICKNESS, material=label, mm=plain_number(thickness, 2)) for label, thickness in sorts])


def shapes(drawn: Sequence[Drawn]) -> int:
    """How many of some drawings are pieces to cut [-], before they are put in order for a machine."""
    return sum(bool(one.outlines) for one in drawn)


def written(file: MachineFile, inks: Inks, formats: Sequence[str], dxf: str, flatten: float | None = None) -> dict[str, bytes]:
    """A machine file in every format that is asked for.

    Parameters
    ----------
    file : MachineFile
        What is written.
    inks : mapping of str to Ink
        Colour and width of the lines by layer.
    formats : sequence of str
        Of which ``svg`` and ``dxf`` are written here.
    dxf : str
        ``r2010`` or ``r12``.
    flatten : float or None
        Greatest distance of a chord from its arc [mm]; None keeps true arcs.

    Returns
    -------
    dict of str to bytes
        Contents by file name; a file with the kerf in it says so in its name.
    """
    told = facts(file, inks)
    width, height, drawn = _beside(file, told)
    description = " ".join((file.description, *told))
    stem = file.stem + (f"-kerf-{kerf_name(file.kerf)}mm" if file.kerf else "")
    found = {}
    if "svg" in formats:
        from bellowscut.export.svg import write_svg

        found[f"{stem}.svg"] = write_svg(drawn, width, height, title=file.title, description=description, flatten=flatten, inks=inks)
    if "dxf" in formats:
        from bellowscut.export.dxf import write_dxf

        found[f"{stem}.dxf"] = write_dxf(
            drawn, width, height, version=dxf, title=file.title, description=description, flatten=flatten, inks=inks
        )
    return found


def facts(file: MachineFile, inks: Inks) -> tuple[str, ...]:
    """What a file says of itself, a sentence each."""
    kerf = say(words.KERF_IS_IN, kerf=both(file.kerf)) if file.kerf else say(words.KERF_IS_NOT_IN)
    return (
        say(words.MILLIMETRES if file.kerf or file.kerf_told else words.TRUE_MILLIMETRES, bar=f"{BAR:g}"),
        say(words.OF_MATERIAL, material=file.material),
        say(words.FACE_UP, face=file.face),
        say(words.PIECES, pieces=file.pieces),
        file.kerf_told or kerf,
        *file.more,
        *_layer_lines(file.drawn, inks),
    )


def _layer_lines(drawn: Sequence[Drawn], inks: Inks) -> list[str]:
    used = {layer_of(one, line.role) for one in drawn for line in one.lines}
    used |= {layer_of(one, Role.TEXT) for one in drawn if one.labels} | {layer_of(one, Role.CUT) for one in drawn if one.outlines}
    lines = [
        say(words.LAYER, layer=layer, colour=colour_name(inks[layer].colour), code=inks[layer].colour, use=say(USES[layer]))
        for layer in LAYERS
        if layer in used or layer == "SCALE"
    ]
    tried = [f"{layer} {inks[layer].colour}" for layer in layers_of(drawn, inks) if layer in TRIALS]
    return [*lines, *([say(words.LAYERS_TRIED, layers=listed(tried))] if tried else [])]


def colour_name(colour: str) -> str:
    """The plain name of ``#rrggbb``."""
    hue, saturation, value = colorsys.rgb_to_hsv(*(int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)))
    if value < 0.2:
        return say(words.BLACK)
    if saturation < 0.15:
        return say(words.WHITE if value > 0.9 else words.GREY)
    return say(next(name for limit, name in HUES if hue * 360 <= limit))


def _beside(file: MachineFile, told: Sequence[str]) -> tuple[float, float, tuple[Drawn, ...]]:
    """The drawing with its bar, if it has none, and its facts to the right of it; width and height of both together [mm]."""
    has_bar = any(one.part == SCALE for one in file.drawn)
    # What is laid apart fills no room in particular: it ends where it ends.
    left = (_right_edge(file.drawn) if has_bar else file.width) + AWAY
    lines = [line for text in told for line in wrapped(text, LETTERS, BAR)]
    room = 0.0 if has_bar else TICK + CAPTION_STEP
    height = max(file.height, 2 * MARGIN + room + CAPTION_STEP * len(lines))
    top = height - MARGIN
    base = top - room - LETTERS * CAPITAL
    labels = tuple(Label(line, (left, base - CAPTION_STEP * k), LETTERS) for k, line in enumerate(lines))
    scale = next((one for one in file.drawn if one.part == SCALE), None) or _bar(left, top)
    scale = replace(scale, labels=(*scale.labels, *labels))
    return left + BAR + MARGIN, height, (scale, *(one for one in file.drawn if one.part != SCALE))


def _right_edge(drawn: Sequence[Drawn]) -> float:
    """Greatest x of all that is drawn [mm]."""
    found = [label.at[0] + text_width(label.text, label.height) for one in drawn for label in one.labels if not label.angle]
    found += [x for one in drawn for line in one.lines for x, _ in line.points]
    found += [outline.bounds()[2] for one in drawn for outline in one.outlines]
    return max(found)


def _bar(left: float, top: float) -> Drawn:
    """A bar with a tick every 10 mm, hanging from a height [mm]."""
    ticks = [left + BAR * k / 10 for k in range(11)]
    lines = [Line(Role.MARK, ((left, top), (left + BAR, top)))]
    lines += [Line(Role.MARK, ((x, top), (x, top - (TICK if k % 5 == 0 else TICK / 2)))) for k, x in enumerate(ticks)]
    return Drawn(SCALE, (), tuple(lines))

"""What a person must know before a machine cuts a piece of stock, and what is refused, in words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from bellowscut.cutting.words import LASER
from bellowscut.errors import UsageError
from bellowscut.materials import ROLL, SHEET, SKIN
from bellowscut.parts.part import listed
from bellowscut.schema import CutterSpec
from bellowscut.units import both, plain_number
from bellowscut.words import count, cutting as words, say

if TYPE_CHECKING:
    from bellowscut.stock.model import StockPiece

KERF_PLACES = 4
"""Decimals of the kerf in the name of a file [-]."""


def of_tool(tool: str, spec: CutterSpec) -> tuple[str, ...]:
    """How the drawing was made for the tool: kerf, overcut, blade."""
    if tool == LASER:
        mm = kerf_name(spec.kerf)
        return say(words.LAYERS), say(words.KERF_HALVED, kerf=both(spec.kerf), mm=mm) if mm != "0" else say(words.NO_KERF)
    if spec.blade_offset is None:
        return say(words.LAYERS), say(words.KNIFE_COMPENSATED, overcut=both(spec.overcut))
    return say(words.LAYERS), say(words.KNIFE_PIVOT_DRAWN, overcut=both(spec.overcut), offset=both(spec.blade_offset))


def of_place(piece: StockPiece, *, by_hand: bool) -> tuple[str, ...]:
    """How to lay the stock, and what of it is only supposed."""
    found = []
    if by_hand:
        found.append(say(words.EDGE_IS_A_MARK))
    elif piece.material.form == SKIN:
        found.append(say(words.LAY_SKIN))
    else:
        found.append(say(words.LAY_SHEET))
    if piece.typical:
        found.append(say(words.USUAL_OUTLINE))
    return tuple(found)


def of_bed(piece: StockPiece, width: float, height: float, spec: CutterSpec) -> tuple[str, ...]:
    """Whether the stock goes on the bed.

    Raises
    ------
    UsageError
        When it does neither way round.
    """
    if spec.bed is None:
        return ()
    across, along = spec.bed
    if width <= across and height <= along:
        return ()
    if width <= along and height <= across:
        return (say(words.TURN_ON_BED, across=f"{across:g}", along=f"{along:g}"),)
    raise UsageError(
        say(
            {ROLL: words.ROLL_OVER_BED, SKIN: words.SKIN_OVER_BED, SHEET: words.SHEET_OVER_BED}[piece.material.form],
            id=piece.id,
            label=piece.label,
            width=f"{width:.1f}",
            height=f"{height:.1f}",
            across=f"{across:g}",
            along=f"{along:g}",
            key=f'materials."{piece.material.name}"',
        )
    )


def of_back(width: float, *, by_hand: bool) -> tuple[str, ...]:
    """In which order the two faces of a scored run are worked, and how they are brought to meet."""
    return (
        say(words.BACK_FIRST),
        say(words.THEN_FRONT),
        say(words.SET_BY_DRAWING if by_hand else words.SET_BY_TAPE),
        say(words.SET_BY_CORNER, width=f"{width:.2f}"),
    )


def too_close(piece: StockPiece, names: tuple[str, str], gap: float, kerf: float) -> str:
    """Why pieces so near to each other cannot be cut by laser."""
    return say(words.TOO_CLOSE_FOR_KERF, id=piece.id, one=names[0], other=names[1], gap=f"{gap:.3f}", kerf=f"{kerf:g}")


def nicks(names: tuple[str, str], gap: float, overcut: float) -> str:
    """What an overcut longer than the gap does."""
    return say(words.OVERCUT_NICKS, overcut=both(overcut), gap=f"{gap:.2f}", one=names[0], other=names[1])


def left_out(parts: Sequence[str], kerf: float) -> str:
    """Of which parts lines were left out, since a beam would burn them twice."""
    return say(words.LINES_LEFT_OUT, kerf=both(kerf), parts=listed(parts))


def kerf_name(kerf: float) -> str:
    """The kerf as the names of files have it [mm]; one that would not be felt is ``0``."""
    return plain_number(kerf, KERF_PLACES)


def leads_nick(number: int) -> str:
    """What a lead-in does that finds no free place."""
    return count(number, words.ONE_LEAD_NICKS, words.LEADS_NICK)

"""What a person must know before a machine cuts a piece of stock, and what is refused, in words."""

from __future__ import annotations

from bellowscut.cutting.words import LASER
from bellowscut.errors import UsageError
from bellowscut.materials import SKIN
from bellowscut.schema import CutterSpec
from bellowscut.stock.model import StockPiece
from bellowscut.units import both
from bellowscut.words import cutting as texts, say

LEATHER_BY_HAND = say(texts.LEATHER_LEFT_HAND_DRAWING)

NO_ROOM = say(texts.THERE_NO_FREE_PLACE)

LAYERS = say(texts.WORK_LAYERS_TEXT_MARK)


def of_tool(tool: str, spec: CutterSpec) -> tuple[str, ...]:
    """How the drawing was made for the tool: kerf, overcut, blade."""
    if tool == LASER:
        return (
            LAYERS,
            say(texts.CUTS_SET_OFF_HALF, kerf=both(spec.kerf)),
        )
    if spec.blade_offset is None:
        blade = say(texts.LET_MACHINE_COMPENSATE_BLADE)
    else:
        blade = say(texts.PATH_PIVOT_DRAWN_BLADE, blade_offset=both(spec.blade_offset))
    return LAYERS, say(texts.NO_KERF_ALLOWED_CUTS, overcut=both(spec.overcut), blade=blade)


def of_place(piece: StockPiece, *, by_hand: bool) -> tuple[str, ...]:
    """How to lay the stock, and what of it is only supposed."""
    found = []
    if by_hand:
        found.append(say(texts.EDGE_STOCK_DRAWN_MARK))
    elif piece.material.form == SKIN:
        found.append(say(texts.LAY_SKIN_LEFTMOST_RIGHTMOST))
    else:
        found.append(say(texts.LAY_LOWER_LEFT_CORNER))
    if piece.typical:
        found.append(say(texts.OUTLINE_SKIN_ONLY_USUAL))
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
        return (say(texts.PIECE_STOCK_GOES_BED, across=f"{across:g}", along=f"{along:g}"),)
    what = say(texts.LENGTH_ROLL) if piece.is_roll else "skin" if piece.material.form == SKIN else "sheet"
    key = f'materials."{piece.material.name}"'
    cure = {
        "length of roll": say(texts.CUT_ROLL_INTO_SHEETS, key=key),
        "skin": say(texts.CUT_SKIN_DOWN_FIRST, key=key),
        "sheet": say(texts.CUT_SHEET_DOWN_FIRST, key=key),
    }[what]
    raise UsageError(
        say(
            texts.MM_BUT_CUTTER_BED,
            id=piece.id,
            what=what,
            label=piece.label,
            width=f"{width:.1f}",
            height=f"{height:.1f}",
            across=f"{across:g}",
            along=f"{along:g}",
            cure=cure,
        )
    )


def of_back(width: float, tool_marks: str) -> tuple[str, ...]:
    """In which order the two faces of a scored run are worked, and how they are brought to meet."""
    return (
        say(texts.TWO_PASSES_FIRST_BACK),
        say(texts.THEN_TURN_STOCK_OVER),
        say(texts.SET_FRONT_HOLES_PUT, tool_marks=tool_marks),
        say(texts.SETTING_CORNER_SERVES_ONLY, width=f"{width:.2f}"),
    )


MARKED_ON_TAPE = say(texts.RUN_LAYER_MARK_FRONT)
RULED = say(texts.HOLES_MARKED_DRAWING_FRONT)


def too_close(piece: StockPiece, names: tuple[str, str], gap: float, kerf: float) -> str:
    """Why pieces so near to each other cannot be cut by laser."""
    return say(texts.LIE_MM_APART_LESS, id=piece.id, names=names[0], names_2=names[1], gap=f"{gap:.3f}", kerf=f"{kerf:g}")


def nicks(names: tuple[str, str], gap: float, overcut: float) -> str:
    """What an overcut longer than the gap does."""
    return say(texts.OVERCUT_MORE_THAN_MM, overcut=both(overcut), gap=f"{gap:.2f}", names=names[0], names_2=names[1])


def leads_nick(count: int) -> str:
    """What a lead-in does that finds no free place."""
    pieces = "1 piece" if count == 1 else f"{count} pieces"
    return say(texts.RUN_TURNS_BLADE_HAS, pieces=pieces)


INWARD = say(texts.CORNERS_POINT_INTO_PIECE)
OFF_STOCK = say(texts.SOME_CUTS_RUN_PAST)

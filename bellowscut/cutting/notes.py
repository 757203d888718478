"""What a person must know before a machine cuts a piece of stock, and what is refused, in words."""

from __future__ import annotations

from bellowscut.cutting.words import LASER
from bellowscut.errors import UsageError
from bellowscut.materials import SKIN
from bellowscut.schema import CutterSpec
from bellowscut.stock.model import StockPiece
from bellowscut.units import both

LEATHER_BY_HAND = (
    "Leather is left to the hand: this drawing has no kerf and is not for the laser. Cut round the templates, or ask for leather by laser."
)

NO_ROOM = "There is no free place on the stock for the caution: it stands above the upper edge. Switch the layer TEXT off, or it is drawn on the bed."

LAYERS = "Work the layers TEXT, MARK, SKIVE and CREASE at a setting that does not cut through, in the order of the file, and CUT last. Only CUT is cut."


def of_tool(tool: str, spec: CutterSpec) -> tuple[str, ...]:
    """How the drawing was made for the tool: kerf, overcut, blade."""
    if tool == LASER:
        return (
            LAYERS,
            f"Cuts are set off by half a kerf of {both(spec.kerf)}, outwards round pieces, inwards in holes. Cut the test piece first.",
        )
    if spec.blade_offset is None:
        blade = "Let the machine compensate for its blade."
    else:
        blade = (
            f"The path of the pivot is drawn, for a blade that trails {both(spec.blade_offset)}: switch the machine's own compensation off. "
            "Each cut begins with a short run in the waste that turns the blade."
        )
    return LAYERS, f"No kerf is allowed for. Cuts run on {both(spec.overcut)} past sharp corners. {blade}"


def of_place(piece: StockPiece, *, by_hand: bool) -> tuple[str, ...]:
    """How to lay the stock, and what of it is only supposed."""
    found = []
    if by_hand:
        found.append("The edge of the stock is drawn as a mark.")
    elif piece.material.form == SKIN:
        found.append(
            "Lay the skin with its leftmost and its rightmost point on the ends of the two short marks; the origin is the corner of its box."
        )
    else:
        found.append("Lay the lower left corner of the stock into the corner mark, which is the origin of the file: set the zero there.")
    if piece.typical:
        found.append(
            "The outline of this skin is only a usual one of its area: lay the pieces out again by its true outline before it is cut."
        )
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
        return (
            f"This piece of stock goes on the bed of {across:g} x {along:g} mm only when the drawing and the stock are turned by 90 degrees.",
        )
    what = "length of roll" if piece.is_roll else "skin" if piece.material.form == SKIN else "sheet"
    key = f'materials."{piece.material.name}"'
    cure = {
        "length of roll": f'cut the roll into sheets that fit, and give {key} form = "sheet" and their size',
        "skin": f"cut the skin down first, and give the outline of what is left as {key}.outline",
        "sheet": f"cut the sheet down first, and give its size as {key}.size",
    }[what]
    raise UsageError(
        f"{piece.id}: the {what} of {piece.label} is {width:.1f} x {height:.1f} mm, but the cutter's bed takes {across:g} x {along:g} mm "
        f"(cutter.bed); {cure}"
    )


def of_back(width: float, tool_marks: str) -> tuple[str, ...]:
    """In which order the two faces of a scored run are worked, and how they are brought to meet."""
    return (
        "Two passes. First the back: lay the stock outside down, work the drawing of the back, which scores the ridges and cuts the register holes.",
        "Then turn the stock over left to right, outside up, and work the front, which scores the valleys and cuts the outlines.",
        f"Set the front by the holes: {tool_marks}, put pins through two of them that lie far apart, and lay the stock on the pins.",
        f"Setting it by its corner serves only where it is square and {width:.2f} mm across: by what it differs the scores miss each other.",
    )


MARKED_ON_TAPE = "run the layer MARK of the front on tape stuck to the bed, which shows where the holes come"
RULED = "the holes are marked in the drawing of the front"


def too_close(piece: StockPiece, names: tuple[str, str], gap: float, kerf: float) -> str:
    """Why pieces so near to each other cannot be cut by laser."""
    return (
        f"{piece.id}: {names[0]} and {names[1]} lie {gap:.3f} mm apart, less than the kerf of {kerf:g} mm (cutter.kerf), so both would lose "
        "material; lay out with a gap of at least the kerf"
    )


def nicks(names: tuple[str, str], gap: float, overcut: float) -> str:
    """What an overcut longer than the gap does."""
    return (
        f"The overcut of {both(overcut)} is more than the {gap:.2f} mm between {names[0]} and {names[1]}: it nicks the neighbour at corners. "
        "Lay out with a gap of the overcut, or give less overcut."
    )


def leads_nick(count: int) -> str:
    """What a lead-in does that finds no free place."""
    pieces = "1 piece" if count == 1 else f"{count} pieces"
    return f"{pieces}: the run that turns the blade has no room and cuts into a neighbour. Lay out with a wider gap."


INWARD = "Corners that point into a piece are not overcut, which would nick it: free them with a hand knife."
OFF_STOCK = "Some cuts run on past the edge of the stock: leave room on the bed beside it."

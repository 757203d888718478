"""What is said when pieces find no place: which, why, and how much more it takes."""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.errors import LayoutError
from bellowscut.materials import ROLL, SHEET, SKIN, Material
from bellowscut.nesting.field import Field, loose_poses
from bellowscut.parts.part import listed
from bellowscut.stock.fit import Fit
from bellowscut.stock.model import StockPiece
from bellowscut.stock.orders import Group, shape, stock
from bellowscut.stock.outlines import Sort
from bellowscut.units import MM2_PER_DM2, MM2_PER_SQ_FT, both
from bellowscut.words import say, stock as words

_NO_PLACE = {SKIN: words.FINDS_NO_PLACE_ON_SKIN, SHEET: words.FINDS_NO_PLACE_ON_SHEET, ROLL: words.FINDS_NO_PLACE_ON_ROLL}


def refuse_misfits(material: Material, sorts: Sequence[Sort], wanted: Sequence[Group]) -> None:
    """Refuse pieces that would find no place on an empty skin."""
    fields = [Field(stock(sort, "0"), 1e5 if sort.width is not None else None) for sort in sorts]
    lines = []
    for one in {one.id: one for group in wanted for one in group}.values():
        poses = loose_poses(shape(one))
        if all(field.positions(piece).is_empty for field in fields for piece in poses):
            lines.append(say(_NO_PLACE[material.form], material=material.name, part=one.part.name, id=one.id))
    if lines:
        raise LayoutError(lines)


def too_little(material: Material, wanted: Sequence[Group], fitted: Fit) -> str:
    """Which pieces found no place, and about how much more it takes."""
    parts = {one.id: one.part for group in wanted for one in group}
    names = listed([say(words.COUNT_OF_PART, count=count, part=parts[name].name, id=name) for name, count in fitted.unplaced])
    area = sum(parts[name].area * count for name, count in fitted.unplaced) / (1 - material.waste / 100)
    return say(
        words.TOO_LITTLE_LEATHER if material.form == SKIN else words.TOO_LITTLE,
        material=material.name,
        parts=names,
        dm2=f"{area / MM2_PER_DM2:.1f}",
        feet=f"{area / MM2_PER_SQ_FT:.1f}",
    )


def refuse_long_roll(material: Material, pieces: Sequence[StockPiece]) -> None:
    """Refuse to use more of a roll than there is."""
    assert material.size is not None
    most = material.size[1]
    for piece in pieces:
        if piece.length_used is not None and piece.length_used > most:
            raise LayoutError(
                [say(words.ROLL_TOO_SHORT, material=material.name, needed=both(round(piece.length_used)), most=both(round(most)))]
            )

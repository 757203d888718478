"""What is said when pieces find no place: which, why, and how much more it takes."""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.errors import LayoutError
from bellowscut.materials import SKIN, Material
from bellowscut.nesting.field import Field, loose_poses
from bellowscut.parts.part import listed
from bellowscut.stock.fit import Fit
from bellowscut.stock.model import StockPiece
from bellowscut.stock.orders import Group, shape, stock
from bellowscut.stock.outlines import Sort
from bellowscut.units import MM2_PER_DM2, MM2_PER_SQ_FT, both
from bellowscut.words import say, stock as words


def refuse_misfits(material: Material, sorts: Sequence[Sort], wanted: Sequence[Group]) -> None:
    """Refuse pieces that would find no place on an empty skin."""
    fields = [Field(stock(sort, "0"), 1e5 if sort.width is not None else None) for sort in sorts]
    lines = []
    for one in {one.id: one for group in wanted for one in group}.values():
        poses = loose_poses(shape(one))
        if all(field.positions(piece).is_empty for field in fields for piece in poses):
            lines.append(
                say(
                    words.FINDS_NO_PLACE_ANY,
                    name=material.name,
                    name_2=one.part.name,
                    id=one.id,
                    form=material.form,
                    material=_larger(material),
                )
            )
    if lines:
        raise LayoutError(lines)


def _larger(material: Material) -> str:
    what = say(words.KEEP_FEWER_FLAWS_BARS) if material.form == SKIN else say(words.GIVE_LARGER_ONE)
    return say(words.SAY_WHAT_THERE_MATERIALS, name=material.name, what=what)


def too_little(material: Material, wanted: Sequence[Group], fitted: Fit) -> str:
    """Which pieces found no place, and about how much more it takes."""
    parts = {one.id: one.part for group in wanted for one in group}
    names = listed([f"{count} {parts[name].name} ({name})" for name, count in fitted.unplaced])
    area = sum(parts[name].area * count for name, count in fitted.unplaced) / (1 - material.waste / 100)
    return say(
        words.NO_PLACE_WAS_FOUND,
        name=material.name,
        names=names,
        area=f"{area / MM2_PER_DM2:.1f}",
        area_2=f"{area / MM2_PER_SQ_FT:.1f}",
        which="leather" if material.form == SKIN else "of it",
    )


def refuse_long_roll(material: Material, pieces: Sequence[StockPiece]) -> None:
    """Refuse to use more of a roll than there is."""
    assert material.size is not None
    most = material.size[1]
    for piece in pieces:
        if piece.length_used is not None and piece.length_used > most:
            raise LayoutError(
                [say(words.ROLL_NEEDED_LONG_GET, name=material.name, length_used=both(round(piece.length_used)), most=both(round(most)))]
            )

"""Parts laid out on sheets: one of each with a full caption, or every piece with its own name."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from bellowscut.drawing import Item, Label
from bellowscut.layout.clearance import turned
from bellowscut.layout.rows import Piece, Placement, in_rows
from bellowscut.lettering import text_width
from bellowscut.pages.captions import beside_caption, inside_caption, tag
from bellowscut.pages.furniture import Box
from bellowscut.pages.piece_names import DOT, PieceName
from bellowscut.pages.posters import Placed, Poster, fits, laid_one_way, one_way, upside_down
from bellowscut.pages.tiled import tile_bodies
from bellowscut.pages.views import View, amount, moved
from bellowscut.parts.part import Part
from bellowscut.shapes import Point, bounds
from bellowscut.words import say, sheets as words

GAPS = (9.0, 5.0)
"""Distances between parts that are shown once [mm]: the first that costs no sheet more than the last."""

LARGE_GAPS = (18.0, 12.0, *GAPS)
"""The same on a large sheet that holds everything."""

LONG = 0.4
"""From which length on a piece is long for a large sheet [-] of the sheet's width."""

CLOSE = 3.0
"""Distance between pieces when every piece is drawn [mm]."""


@dataclass(frozen=True)
class Body:
    """What one sheet shows inside its furniture, and the names on it.

    Parameters
    ----------
    title : str
        Name of the sheet.
    names : str
        What its head says.
    shown : tuple of View
        What it shows, whole or in part.
    items : tuple of items
        What is drawn.
    tiled : bool
        Whether it joins other sheets.
    """

    title: str
    names: str
    shown: tuple[View, ...]
    items: tuple[Item, ...]
    tiled: bool = False

    @property
    def parts(self) -> tuple[Part, ...]:
        """The parts that it shows."""
        return tuple(view.part for view in self.shown)


def body(shown: Sequence[View], items: Sequence[Item], counts: Sequence[int] = (), material: str = "") -> Body:
    """A sheet with its parts named: neighbours of one name are named once.

    Parameters
    ----------
    shown : sequence of View
        What stands on it.
    items : sequence of items
        What is drawn.
    counts : sequence of int
        How many pieces of each, where every piece is drawn [-].
    material : str
        Of all of them, to stand before the names.
    """
    told: list[str] = []
    for k, view in enumerate(shown):
        head, _, rest = view.name.partition(", ")
        known = k and rest and shown[k - 1].name.partition(", ")[0] == head
        name = rest if known else view.name
        told.append(say(words.PIECES_OF, name=name, number=counts[k], count=view.part.pieces) if counts else name)
    names = DOT.join(told)
    if material:
        names = say(words.MATERIAL_FIRST, material=material, names=names)
    return Body(", ".join(told), names, tuple(shown), tuple(items))


def _by_sheet(placements: Sequence[Placement]) -> list[list[Placement]]:
    sheets: list[list[Placement]] = [[] for _ in range(max((put.sheet + 1 for put in placements), default=0))]
    for put in placements:
        sheets[put.sheet].append(put)
    return sheets


# one of each ----------------------------------------------------------


def one_of_each(shown: Sequence[View], area: Box, *, large: bool = False) -> list[Body]:
    """Each part once, with a full caption.

    Parameters
    ----------
    shown : sequence of View
        Each fits the area in one turn or the other.
    area : tuple of float
        Left, low, right and high edge of what may be used [mm].
    large : bool
        Lay them out with much room and strips last, on a sheet that is meant to hold everything.
    """
    left, low, right, high = area
    room = (right - left, high - low)
    lying: list[View] = []
    pieces: list[Piece] = []
    beside: list[list[Item]] = []
    for view in shown:
        ways = [way for way in (view, view.turned(90)) if fits(way, room)]
        within = next((way for way in ways if inside_caption(way) is not None), None)
        outside = None if within else next(((way, *found) for way in ways if (found := beside_caption(way, room)) is not None), None)
        if outside is not None:
            lying.append(outside[0])
            beside.append(outside[1])
            pieces.append(Piece(view.part.id, upside_down(outside[2]), turns=(0,)))
        else:
            lying.append(within or ways[0])
            beside.append([])
            pieces.append(Piece(view.part.id, upside_down(lying[-1].points), turns=(0, 180)))
    pack = _long_ones_last if large else in_rows
    laid = [_by_sheet(pack(pieces, *room, gap)) for gap in (LARGE_GAPS if large else GAPS)]
    bodies = []
    for sheet in next(sheets for sheets in laid if len(sheets) == len(laid[-1])):
        items: list[Item] = []
        for put in sheet:
            x, y = left + put.x, high - put.y
            view = lying[put.piece].turned(put.turn, x, y)
            inside = [] if beside[put.piece] else inside_caption(view) or tag(view, _short_names(view))
            items += [view.drawn(), *(moved(item, x, y) for item in beside[put.piece]), *inside]
        bodies.append(body([shown[k] for k in sorted({put.piece for put in sheet})], items))
    return bodies


def _long_ones_last(pieces: Sequence[Piece], width: float, height: float, gap: float) -> Sequence[Placement]:
    """Pieces in rows, those that are long for the sheet under all others; as they come, where that takes more than one sheet [mm]."""
    longest = [max(right - left, high - low) for left, low, right, high in (bounds(piece.outline) for piece in pieces)]
    long = [k for k, length in enumerate(longest) if length > LONG * width]
    short = [k for k in range(len(pieces)) if k not in long]
    first = in_rows([pieces[k] for k in short], width, height, gap)
    top = max((put.y + max(y for _, y in turned(pieces[short[put.piece]].outline, put.turn)) + gap for put in first), default=0.0)
    lowest = max((bounds(pieces[k].outline)[3] - bounds(pieces[k].outline)[1] for k in long), default=0.0)
    if any(put.sheet for put in first) or height - top < lowest:
        return in_rows(pieces, width, height, gap)
    last = in_rows([pieces[k] for k in long], width, height - top, gap)
    if any(put.sheet for put in last):
        return in_rows(pieces, width, height, gap)
    return [
        *(replace(put, piece=short[put.piece]) for put in first),
        *(replace(put, piece=long[put.piece], y=put.y + top) for put in last),
    ]


def _short_names(view: View) -> tuple[tuple[str, ...], ...]:
    return (f"{view.name}{DOT}{amount(view.part)}",), (view.name,)


# every piece ----------------------------------------------------------


def every_piece(shown: Sequence[View], area: Box, names: Mapping[str, Sequence[PieceName]], *, mixed: bool = False) -> list[Body]:
    """Every piece with its name, the grain of each material one way.

    Parameters
    ----------
    shown : sequence of View
        Each fits the area in one turn or the other.
    area : tuple of float
        Left, low, right and high edge of what may be used [mm].
    names : mapping of str to sequence of PieceName
        Of every piece, by the part's id.
    mixed : bool
        Put all materials on the same sheets, instead of each on sheets of its own.
    """
    left, low, right, high = area
    room = (right - left, high - low)
    bodies: list[Body] = []
    for material in ("",) if mixed else dict.fromkeys(view.part.material for view in shown):
        for here in one_way([view for view in shown if mixed or view.part.material == material], room):
            known: dict[tuple[int, int, float], tuple[PieceName, list[Item]]] = {}
            for sheet in _by_sheet(laid_one_way(here, room, CLOSE)):
                items: list[Item] = []
                for put in sheet:
                    x, y, turn = left + put.x, high - put.y, -put.turn % 360
                    name = named(here[put.piece], names, put.copy)
                    key = (put.piece, turn, round(text_width(name.place, 1.0), 1))
                    if key not in known:
                        known[key] = name, tag(here[put.piece].turned(turn), name.ways)
                    items.append(here[put.piece].turned(turn, x, y).drawn())
                    first, tagged = known[key]
                    items += [moved(_renamed(item, first, name), x, y) for item in tagged]
                used = sorted({put.piece for put in sheet})
                counts = [sum(put.piece == k for put in sheet) for k in used]
                bodies.append(body([here[k] for k in used], items, counts, material))
    return bodies


def _renamed(item: Item, first: PieceName, name: PieceName) -> Item:
    """The label of an alike piece with the name of another."""
    if not isinstance(item, Label):
        return item
    found = {row: other for rows, others in zip(first.ways, name.ways, strict=True) for row, other in zip(rows, others, strict=True)}
    return replace(item, text=found.get(item.text, item.text))


def named(view: View, names: Mapping[str, Sequence[PieceName]], copy: int) -> PieceName:
    """What a single piece is called, from 1 [-]; its back is told from its front."""
    name = names[view.part.id][copy - 1]
    return name if view.outlines else name.back


# joined sheets --------------------------------------------------------


def joined(
    poster: Poster, views: Sequence[View], area: Box, first: int, names: Mapping[str, Sequence[PieceName]] | None = None
) -> list[Body]:
    """The sheets of parts larger than the paper that are joined into one area.

    Parameters
    ----------
    poster : Poster
        The joined area.
    views : sequence of View
        The parts from which it was made, as placed parts know them by number.
    area : tuple of float
        Left, low, right and high edge of what may be used [mm].
    first : int
        Number of the first sheet [-].
    names : mapping of str to sequence of PieceName, optional
        Of every piece, by the part's id, where each bears its own.
    """

    def full(_: Placed, view: View, piece: Sequence[Point]) -> Sequence[Item]:
        return inside_caption(view, piece) or tag(view, _short_names(view), piece)

    def single(one: Placed, view: View, piece: Sequence[Point]) -> Sequence[Item]:
        assert names is not None
        return tag(view, named(view, names, one.copy).ways, piece)

    bodies: list[Body] = []
    made = tile_bodies(poster, area, first, full if names is None else single)
    for k, tile in enumerate(made, 1):
        used = sorted({one.index for one in tile.placed})
        shown = [views[index] for index in used]
        counts = [sum(one.index == index for one in tile.placed) for index in used] if names is not None else []
        plain = body(shown, tile.items, counts, shown[0].part.material if names is not None else "")
        title, head = (say(words.JOINED, names=text, number=k, count=len(made)) for text in (plain.title, plain.names))
        bodies.append(replace(plain, title=title, names=head, tiled=True))
    return bodies

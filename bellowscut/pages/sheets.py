"""The printed pattern set: parts on sheets of paper at full size.

One of each distinct part marked with its count, or every piece; parts larger
than the paper over several sheets; strips longer than the paper as sizes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bellowscut.drawing import Item, Label, Page
from bellowscut.layout.rows import Piece, Placement, in_rows
from bellowscut.pages.captions import DOT, beside_caption, inside_caption, tag
from bellowscut.pages.furniture import Box, Furniture
from bellowscut.pages.strips import strip_bodies
from bellowscut.pages.tiled import MARK_ON_MARK, tile_bodies
from bellowscut.pages.views import GUSSETS, View, amount, moved, places, views
from bellowscut.parts.part import Part
from bellowscut.shapes import Point

GAP, WIDER = 5.0, 9.0
"""Distance between parts that are shown once, and the wider one that is used where it costs no sheet [mm]."""

CLOSE = 3.0
"""Distance between pieces when every piece is drawn [mm]."""

FLESH = "This is the flesh side. From the grain side it is mirrored."
GRAIN = "This is the grain side. From the flesh side it is mirrored."
SUCK = "Suck the leather in three places. If air comes through, this skin leaks without a hole."
PULL = "Pull it both ways: a strip's long way must be the way that does not stretch."


def cut_one_first(distance: float | None) -> str:
    """Advice for gussets, naming the distance of the frames while gluing [mm] where it is known."""
    apart = "the frames are as far apart as while gluing" if distance is None else f"the frames are {distance:.0f} mm apart"
    return f"Cut one first. Fold it into an open corner. If it is tight before {apart}, or puckers, stop."


@dataclass(frozen=True)
class _Body:
    """What one sheet shows inside its furniture, and the names on it."""

    title: str
    names: str
    parts: tuple[Part, ...]
    items: tuple[Item, ...]
    tiled: bool = False


def sheet_pages(
    parts: Sequence[Part],
    *,
    paper: tuple[float, float],
    name: str,
    fingerprint: str,
    all_pieces: bool = False,
    mirror: bool = False,
    gluing_distance: float | None = None,
) -> tuple[Page, ...]:
    """Lay parts out on sheets.

    Parameters
    ----------
    parts : sequence of Part
        What to draw; parts of which none is wanted are left out.
    paper : tuple of float
        Width and height of a sheet [mm].
    name : str
        Of the instrument.
    fingerprint : str
        Of the profile's values.
    all_pieces : bool
        Draw every piece with a number, instead of each distinct part with its count.
    mirror : bool
        Show leather from the grain side.
    gluing_distance : float, optional
        Of the frames [mm], for the advice beside gussets.

    Returns
    -------
    tuple of Page
        Parts first, then those over several sheets, then strips; empty without parts.

    Raises
    ------
    UsageError
        When the paper is smaller than 148 x 210 mm.
    """
    shown = [view for part in parts if part.pieces for view in views(part, mirror=mirror)]
    everything = _notes([view.part for view in shown], gluing_distance)
    furniture = Furniture(paper, name, fingerprint, everything)
    if any(_too_large(view, furniture) and not view.part.strip for view in shown):
        furniture = Furniture(paper, name, fingerprint, (*everything, MARK_ON_MARK))
    fitting = [view for view in shown if not _too_large(view, furniture)]
    large = [view for view in shown if _too_large(view, furniture) and not view.part.strip]
    strips = [view for view in shown if _too_large(view, furniture) and view.part.strip]
    bodies = _every_piece(fitting, furniture.area) if all_pieces else _one_of_each(fitting, furniture.area)
    for view in large:
        bodies += _tiled(view, furniture.area)
    if strips:
        names = DOT.join(view.name for view in strips)
        made = strip_bodies(strips, furniture.area)
        bodies += [_Body("Strips", names, tuple(view.part for view in strips), tuple(items)) for items in made]
    return tuple(_page(furniture, body, k, len(bodies), gluing_distance) for k, body in enumerate(bodies, 1))


def _too_large(view: View, furniture: Furniture) -> bool:
    width, height = furniture.area_size
    return not any(_fits(view.turned(turn), (width, height)) for turn in (0, 90))


def _fits(view: View, room: tuple[float, float]) -> bool:
    return view.size[0] <= room[0] and view.size[1] <= room[1]


def _page(furniture: Furniture, body: _Body, sheet: int, sheets: int, distance: float | None) -> Page:
    faces = [part.side for part in body.parts]
    side = FLESH if "flesh" in faces else GRAIN if "grain" in faces else ""
    notes = _notes(body.parts, distance) + ((MARK_ON_MARK,) if body.tiled else ())
    around = furniture.items(sheet=sheet, sheets=sheets, parts=body.names, notes=notes, side=side)
    return Page(*furniture.size, f"{sheet}. {body.title}", (*body.items, *around))


def _notes(parts: Sequence[Part], distance: float | None) -> tuple[str, ...]:
    """Advice that belongs to these parts."""
    leather = [part for part in parts if part.side in ("flesh", "grain")]
    found = []
    if leather:
        found.append(SUCK)
    if any(part.kind in GUSSETS for part in leather):
        found.append(cut_one_first(distance))
    if any(part.strip for part in leather):
        found.append(PULL)
    return tuple(found)


def _upside_down(points: Sequence[Point]) -> tuple[Point, ...]:
    """Mirrored top to bottom: rows are filled from below, sheets are read from above."""
    return tuple((x, -y) for x, y in reversed(points))


def _by_sheet(placements: Sequence[Placement]) -> list[list[Placement]]:
    sheets: list[list[Placement]] = [[] for _ in range(max((put.sheet + 1 for put in placements), default=0))]
    for put in placements:
        sheets[put.sheet].append(put)
    return sheets


# one of each ----------------------------------------------------------


def _one_of_each(shown: Sequence[View], area: Box) -> list[_Body]:
    """Each part once, with a full caption."""
    left, low, right, high = area
    room = (right - left, high - low)
    lying: list[View] = []
    pieces: list[Piece] = []
    beside: list[list[Item]] = []
    for view in shown:
        ways = [way for way in (view, view.turned(90)) if _fits(way, room)]
        within = next((way for way in ways if inside_caption(way) is not None), None)
        outside = None if within else next(((way, *found) for way in ways if (found := beside_caption(way, room)) is not None), None)
        if outside is not None:
            lying.append(outside[0])
            beside.append(outside[1])
            pieces.append(Piece(view.part.id, _upside_down(outside[2]), turns=(0,)))
        else:
            lying.append(within or ways[0])
            beside.append([])
            pieces.append(Piece(view.part.id, _upside_down(lying[-1].points), turns=(0, 180)))
    close = _by_sheet(in_rows(pieces, *room, GAP))
    wide = _by_sheet(in_rows(pieces, *room, WIDER))
    bodies = []
    for sheet in wide if len(wide) == len(close) else close:
        items: list[Item] = []
        for put in sheet:
            x, y = left + put.x, high - put.y
            view = lying[put.piece].turned(put.turn, x, y)
            inside = [] if beside[put.piece] else inside_caption(view) or tag(view, (f"{view.name}{DOT}{amount(view.part)}", view.name))
            items += [view.drawn(), *(moved(item, x, y) for item in beside[put.piece]), *inside]
        bodies.append(_body([shown[k] for k in sorted({put.piece for put in sheet})], items))
    return bodies


def _body(shown: Sequence[View], items: Sequence[Item], after: Sequence[str] = (), before: str = "") -> _Body:
    told: list[str] = []
    for k, view in enumerate(shown):
        head, _, rest = view.name.partition(", ")
        known = k and rest and shown[k - 1].name.partition(", ")[0] == head
        told.append((rest if known else view.name) + (f" {after[k]}" if after else ""))
    return _Body(", ".join(told), before + DOT.join(told), tuple(view.part for view in shown), tuple(items))


# every piece ----------------------------------------------------------


def _every_piece(shown: Sequence[View], area: Box) -> list[_Body]:
    """Every piece with its number; every material on sheets of its own."""
    left, low, right, high = area
    bodies: list[_Body] = []
    for material in dict.fromkeys(view.part.material for view in shown):
        here = [view for view in shown if view.part.material == material]
        pieces = [Piece(view.part.id, _upside_down(view.points), view.name, view.part.pieces) for view in here]
        known: dict[tuple[int, int, int], list[Item]] = {}
        for sheet in _by_sheet(in_rows(pieces, right - left, high - low, CLOSE)):
            items: list[Item] = []
            for put in sheet:
                x, y, turn = left + put.x, high - put.y, -put.turn % 360
                texts = _numbered(here[put.piece], put.copy)
                key = (put.piece, turn, len(texts[-1]))
                if key not in known:
                    known[key] = tag(here[put.piece].turned(turn), texts)
                items.append(here[put.piece].turned(turn, x, y).drawn())
                items += [moved(_renamed(item, texts), x, y) for item in known[key]]
            used = sorted({put.piece for put in sheet})
            after = [f"({sum(put.piece == k for put in sheet)} of {here[k].part.pieces})" for k in used]
            bodies.append(_body([here[k] for k in used], items, after, f"{material}: "))
    return bodies


def _renamed(item: Item, texts: Sequence[str]) -> Item:
    """The label of an alike piece with another number, in the form that was chosen for it."""
    if not isinstance(item, Label):
        return item
    chosen = next((text for text in texts if len(text) == len(item.text)), texts[-1])
    return replace(item, text=chosen)


def _numbered(view: View, copy: int) -> tuple[str, ...]:
    """What a single piece is called, longest first: name and place, place, number."""
    part = view.part
    where = part.sides or part.corners
    if copy > part.count:
        short = f"spare {copy - part.count}"
    elif where and part.count % len(where) == 0:
        each = part.count // len(where)
        short = f"{where[(copy - 1) // each]} {(copy - 1) % each + 1}"
    else:
        short = str(copy)
    if not view.outlines:
        short = f"back {short}"
    return f"{view.name.partition(', ')[0]}{DOT}{short}", short


# several sheets -------------------------------------------------------


def _tiled(view: View, area: Box) -> list[_Body]:
    """One part over several sheets."""
    made = tile_bodies(view, area)
    where = "" if "," in view.part.name else places(view.part)
    bodies = []
    for k, items in enumerate(made, 1):
        title = f"{view.name}, tile {k} of {len(made)}"
        names = DOT.join(text for text in (view.name, f"tile {k} of {len(made)}", amount(view.part), where) if text)
        bodies.append(_Body(title, names, (view.part,), tuple(items), tiled=True))
    return bodies

"""The printed pattern set: parts on sheets of paper at full size.

One of each distinct part marked with its count, or every piece; parts larger
than the paper over several sheets that join; strips longer than the paper as
sizes.
"""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.drawing import Page
from bellowscut.layout.tiles import OVERLAP
from bellowscut.pages.furniture import Furniture
from bellowscut.pages.laid import CLOSE, Body, every_piece, joined, one_of_each
from bellowscut.pages.papers import MARGIN, PAPERS, USUAL
from bellowscut.pages.piece_names import DOT, piece_names
from bellowscut.pages.posters import Poster, every_piece_joined, fits, lettered, one_of_each_joined
from bellowscut.pages.sheet_advice import advice, side_shown
from bellowscut.pages.sheet_map import map_pages
from bellowscut.pages.strips import strip_bodies
from bellowscut.pages.views import View, views
from bellowscut.parts.part import Part
from bellowscut.words import say, sheets as words


def sheet_pages(
    parts: Sequence[Part],
    *,
    paper: tuple[float, float] | None,
    name: str,
    fingerprint: str,
    all_pieces: bool = False,
    mirror: bool = False,
    gluing_distance: float | None = None,
    margin: float = MARGIN,
) -> tuple[Page, ...]:
    """Lay parts out on sheets.

    Parameters
    ----------
    parts : sequence of Part
        What to draw; parts of which none is wanted are left out.
    paper : tuple of float or None
        Width and height of a sheet [mm]; None for A4.
    name : str
        Of the instrument.
    fingerprint : str
        Of the profile's values.
    all_pieces : bool
        Draw every piece with a name of its own, instead of each distinct part with its count.
    mirror : bool
        Show leather from the grain side.
    gluing_distance : float, optional
        Of the frames [mm], for the advice beside gussets.
    margin : float
        Edge of the paper that stays white, 3 to 30 [mm].

    Returns
    -------
    tuple of Page
        A map first where sheets are to be joined; then parts, those over
        several sheets, and strips; empty without parts.

    Raises
    ------
    UsageError
        When the paper is smaller than 148 x 210 mm, or too small for its margin.
    """
    shown = [view for part in parts if part.pieces for view in views(part, mirror=mirror)]
    everything = advice([view.part for view in shown], gluing_distance)
    size = PAPERS[USUAL] if paper is None else paper
    furniture = Furniture(size, name, fingerprint, everything, margin)
    if any(_too_large(view, furniture) and not view.part.strip for view in shown):
        furniture = Furniture(size, name, fingerprint, (*everything, _join_note()), margin)
    fitting = [view for view in shown if not _too_large(view, furniture)]
    large = [view for view in shown if _too_large(view, furniture) and not view.part.strip]
    strips = [view for view in shown if _too_large(view, furniture) and view.part.strip]
    names = piece_names(parts) if all_pieces else None
    bodies = one_of_each(fitting, furniture.area) if names is None else every_piece(fitting, furniture.area, names)
    found = every_piece_joined(large, furniture.area_size, CLOSE) if all_pieces else one_of_each_joined(large, furniture.area_size)
    posters: list[tuple[int, Poster]] = []
    for poster in lettered(found, furniture.area_size):
        posters.append((len(bodies) + 1, poster))
        bodies += joined(poster, large, furniture.area, len(bodies) + 1, names)
    if strips:
        head = DOT.join(view.name for view in strips)
        bodies += [Body(say(words.STRIPS), head, tuple(strips), tuple(items)) for items in strip_bodies(strips, furniture.area)]
    pages = [_page(furniture, body, k, len(bodies), gluing_distance) for k, body in enumerate(bodies, 1)]
    maps = map_pages(furniture, shown, bodies, posters) if posters else ()
    return (*maps, *pages)


def _too_large(view: View, furniture: Furniture) -> bool:
    return not any(fits(view.turned(turn), furniture.area_size) for turn in (0, 90))


def _page(furniture: Furniture, body: Body, sheet: int, sheets: int, distance: float | None) -> Page:
    notes = advice(body.parts, distance) + ((_join_note(),) if body.tiled else ())
    told = say(words.SHEET, number=sheet, count=sheets)
    around = furniture.items(sheet=told, parts=body.names, notes=notes, side=side_shown(body.parts))
    return Page(*furniture.size, f"{sheet}. {body.title}", (*body.items, *around))


def _join_note() -> str:
    return say(words.JOIN_NOTE, overlap=f"{OVERLAP:.0f}")

"""Everything on one sheet, strips whole, for a plotter."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from bellowscut.drawing import Page
from bellowscut.errors import UsageError
from bellowscut.pages.furniture import Furniture
from bellowscut.pages.laid import Body, every_piece, one_of_each
from bellowscut.pages.papers import LARGEST, MARGIN, PAPERS, paper_told
from bellowscut.pages.piece_names import piece_names
from bellowscut.pages.posters import fits
from bellowscut.pages.sheet_advice import advice, side_shown
from bellowscut.pages.views import View, size_words, views
from bellowscut.parts.part import Part
from bellowscut.words import say, sheets as words

SIZES = ("a4", "a3", "a2", "a1", "a0")
"""Papers from which the smallest that holds everything is taken."""

FILLED = 1.2
"""Least area of paper that is proposed [-] of the area of the pieces: rows are never closer."""

STEP = 500.0
"""Lengths of a roll that are proposed are whole multiples of this [mm]."""


def single_sheet_pages(
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
    """Lay parts out on one sheet.

    Parameters
    ----------
    parts : sequence of Part
        What to draw; parts of which none is wanted are left out.
    paper : tuple of float or None
        Width and height of the sheet [mm]; None takes the smallest of A4 to A0 on which everything fits.
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
        One, upright or lying as suits the parts; empty without parts.

    Raises
    ------
    UsageError
        When a part, or all of them together, does not fit: it says which.
    """
    shown = [view for part in parts if part.pieces for view in views(part, mirror=mirror)]
    if not shown:
        return ()
    notes = advice([view.part for view in shown], gluing_distance)
    sheet = _Sheet(tuple(shown), Furniture(PAPERS[SIZES[-1]], name, fingerprint, notes, margin), all_pieces)
    tried = [PAPERS[size] for size in SIZES] if paper is None else [paper]
    for size in tried:
        found = sheet.on(size)
        if found is not None:
            furniture, body = found
            around = furniture.items(
                sheet=say(words.SHEET, number=1, count=1),
                parts=body.names,
                notes=advice(body.parts, gluing_distance),
                side=side_shown(body.parts),
            )
            return (Page(*furniture.size, f"1. {body.title}", (*body.items, *around)),)
    raise UsageError(sheet.refusal(tried[-1]))


@dataclass(frozen=True)
class _Sheet:
    """What is to go on one sheet, whatever its size."""

    shown: tuple[View, ...]
    furniture: Furniture
    all_pieces: bool

    def on(self, size: tuple[float, float]) -> tuple[Furniture, Body] | None:
        """Everything on one sheet of a size, upright or lying; None when it does not fit [mm]."""
        longest = max(max(view.size) for view in self.shown)
        lying_first = size[0] < size[1] and longest > size[0] - self.furniture.size[0] + self.furniture.area_size[0]
        for way in (size[::-1], size) if lying_first else (size, size[::-1]):
            furniture = replace(self.furniture, size=way)
            if self._area() <= math.prod(furniture.area_size):
                bodies = self._bodies(furniture)
                if len(bodies) == 1:
                    return furniture, bodies[0]
        return None

    def refusal(self, size: tuple[float, float]) -> str:
        """Why it does not fit on a size [mm], and on what it would."""
        ways = [replace(self.furniture, size=way) for way in (size, size[::-1])]
        large = [view for view in self.shown if not any(_goes_in(view, way.area_size) for way in ways)]
        told = paper_told(size)
        if large:
            names = "; ".join(say(words.ONE_SHEET_PIECE, name=view.name, size=size_words(view)) for view in large)
        else:
            fewest = min((bodies for way in ways if (bodies := self._bodies(way))), key=len)
            names = "; ".join(dict.fromkeys(view.name for body in fewest[1:] for view in body.shown))
        larger = self._larger(size)
        if larger is None:
            return say(words.ONE_SHEET_PIECES if large else words.ONE_SHEET_FULL, names=names, paper=told)
        return say(words.ONE_SHEET_PIECES_LARGER if large else words.ONE_SHEET_FULL_LARGER, names=names, paper=told, larger=larger)

    def _larger(self, size: tuple[float, float]) -> str | None:
        """The smallest paper, as it may be asked for, of A sizes and lengths of a roll as wide as A0, on which everything fits."""
        papers = {name: PAPERS[name] for name in SIZES}
        width, length = papers[SIZES[-1]]
        steps = range(math.ceil(length / STEP), math.floor(LARGEST / STEP) + 1)
        papers |= {f"{width:.0f}x{STEP * step:.0f}": (width, STEP * step) for step in steps}
        least = max(math.prod(size), FILLED * self._area())
        return next((name for name, known in papers.items() if math.prod(known) > least and self.on(known)), None)

    def _area(self) -> float:
        return sum(view.part.area * (view.part.pieces if self.all_pieces else 1) for view in self.shown)

    def _bodies(self, furniture: Furniture) -> list[Body]:
        """Everything on sheets of one size; none when a part is too large for it."""
        if not all(_goes_in(view, furniture.area_size) for view in self.shown):
            return []
        if self.all_pieces:
            names = piece_names([view.part for view in self.shown if view.outlines])
            return every_piece(self.shown, furniture.area, names, mixed=True)
        return one_of_each(self.shown, furniture.area, large=True)


def _goes_in(view: View, room: tuple[float, float]) -> bool:
    return fits(view, room) or fits(view.turned(90), room)

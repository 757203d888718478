"""The scored run: one board a side that holds all its cards edge to edge."""

from __future__ import annotations

from bellowscut.bellows import Bellows
from bellowscut.drawing import Line, Role
from bellowscut.folds import card_edges
from bellowscut.parts.part import Part, Want, blank, gathered
from bellowscut.shapes import Outline, Point, rounded
from bellowscut.words import parts as words, say

KINDS = ("card-run",)

HOLE = 0.75
"""Radius of the two holes that register front and back [mm], invented; the valley hinge covers them."""

HOLE_ASIDE = 10.0
"""How far the holes stand off the middle of the board [mm], invented; less on a narrow one."""


def make(bellows: Bellows) -> tuple[Part, ...]:
    """One scored board a side, with front and back.

    Valleys are scored on the front (outside) face and ridges on the back, since
    a score opens away from the fold. Both ends are alike, so a run and its
    mirror image are one part turned half round.
    """
    profile = bellows.profile
    if profile.card.build != "run":
        return ()
    wants = [_run(bellows, i, letter) for i, letter in enumerate(bellows.section.side_names)]
    note = say(words.CARD_RUN_NOTE)
    model = blank(bellows, "card-run", say(words.CARD_RUN), profile.card.material, wants[0].outline, side="outside", note=note)
    return gathered(model, wants, "sides", turned_over=True)


def _run(bellows: Bellows, side: int, letter: str) -> Want:
    before, after = bellows.corner_pair(side)
    length = bellows.section.sides[side]
    depth, cards = bellows.depth, bellows.cards_per_side
    starts_at_valley = bellows.valley_ends
    trim = (bellows.valley_gap if starts_at_valley else bellows.ridge_gap) / 2
    middle = sum(card_edges(length, before, after)) / 2

    def ends_at(y: float) -> tuple[float, float]:
        """Left and right end of the board at a height [mm]."""
        fold, within = divmod(y, depth)
        toward_valley = (int(fold) % 2 == 0) != starts_at_valley
        at = within if toward_valley else depth - within
        left, right = card_edges(length, before, after, at)
        return left - middle, right - middle

    heights = [trim, *(depth * k for k in range(1, cards)), depth * cards - trim]
    right_side: list[Point] = [(ends_at(y)[1], y) for y in heights]
    left_side: list[Point] = [(ends_at(y)[0], y) for y in heights]
    points = (*right_side, *reversed(left_side))
    end_radius = bellows.profile.card.valley_radius if starts_at_valley else bellows.profile.card.ridge_radius
    radii = [end_radius if y in (heights[0], heights[-1]) else 0.0 for _, y in points]
    outline, _ = rounded(points, radii)
    front: list[Line] = []
    back: list[Line] = []
    for k in range(1, cards):
        left, right = ends_at(depth * k)
        at_ridge = (k % 2 == 0) != starts_at_valley
        gap = bellows.ridge_gap if at_ridge else bellows.valley_gap
        found = [Line(Role.CREASE, ((left, depth * k), (right, depth * k)))]
        # The gap of a fold line is the width of its score: the edges of that band are marked beside the line.
        found += [Line(Role.MARK, ((left, y), (right, y))) for y in (depth * k - gap / 2, depth * k + gap / 2) if gap]
        if at_ridge:
            back += [Line(line.role, tuple((-x, y) for x, y in line.points)) for line in found]
        else:
            front += found
    holes = tuple(_hole(x, y) for x, y in _hole_places(bellows, side))
    seen = [Line(Role.MARK, hole.mirrored().flattened(), closed=True) for hole in holes]
    seen.append(Line(Role.MARK, outline.mirrored().flattened(), closed=True))
    return Want(outline, tuple(front), bellows.profile.copies, letter, back=(*back, *seen), holes=holes)


def _hole_places(bellows: Bellows, side: int) -> tuple[Point, Point]:
    """Two places under the first and last valley's hinge, off the middle so that the board cannot be turned wrongly.

    A single fold between valley ends has no valley of its own: there they lie under the ridge's hinge.
    """
    first = 2 * bellows.depth if bellows.valley_ends and bellows.valleys else bellows.depth
    last = bellows.cards_per_side * bellows.depth - first
    off = (bellows.valley_gap + bellows.profile.hinge.lap) / 2
    aside = min(HOLE_ASIDE, bellows.card_width(side, bellows.depth) / 4)
    return (-aside, first + off), (aside, last - off)


def _hole(x: float, y: float) -> Outline:
    return Outline(((x + HOLE, y), (x - HOLE, y)), (1.0, 1.0))

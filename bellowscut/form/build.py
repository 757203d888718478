"""From a bellows to its form, with the proof that the form comes out of it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from bellowscut.bellows import Bellows
from bellowscut.errors import LayoutError
from bellowscut.form.model import Form, Segment, Step
from bellowscut.form.pieces import pieces
from bellowscut.form.removal import way_out
from bellowscut.form.sizes import FormSizes, sizes_of
from bellowscut.parts.part import listed
from bellowscut.section import side_name
from bellowscut.shapes import least_width, side_of
from bellowscut.units import plain_number
from bellowscut.words import count, form as words, say

LIP = 5.0
"""Wood of a side board beyond its outer combs [mm], invented."""

LEAST_WOOD = 4.0
"""Wood that stays between a slot and the edge of its board [mm], invented."""

CORE_LEAST = 16.0
"""Least width of a core [mm], invented: there must be something to draw."""

SPREADS = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0.0)
"""Shares of a side over which its combs may spread, from the steadiest to the narrowest that is tried [-]."""


def build_form(bellows: Bellows) -> Form:
    """Work out the form for a bellows.

    Parameters
    ----------
    bellows : Bellows
        The bellows.

    Returns
    -------
    Form
        Its pieces, and the order in which they come out.

    Raises
    ------
    LayoutError
        When a side has no room for a comb, the middle none for a core, or the pieces do not come out.
    """
    sizes = sizes_of(bellows)
    spec = bellows.profile.form
    core = sizes.polygon(sizes.ridge_height + spec.back + spec.ply + spec.play)
    if not core or least_width(core) < max(CORE_LEAST, 4 * spec.ply):
        depth = plain_number(sizes.ridge_height + spec.back + spec.ply, 1)
        raise LayoutError([say(words.NO_ROOM_FOR_CORE, depth=depth)])
    segments, found, stuck = _loosened(bellows, sizes)
    if not stuck:
        # The tabs of the side boards sit in both end plates: nothing moves inward before the second one is off.
        end = Step("end", 0.0, math.inf)
        steps = (end, Step("core", 0.0, spec.play), end, *found)
        return Form(sizes, segments, core, pieces(bellows, sizes, segments, core), steps)
    told = count(len(stuck), words.SIDE_AND_LIST, words.SIDES_AND_LIST, side=stuck[0], sides=listed(stuck))
    inward, clearance = plain_number(sizes.ridge_height + spec.clearance, 1), plain_number(spec.clearance, 1)
    raise LayoutError([say(words.CANNOT_LEAVE, sides=told, inward=inward, clearance=clearance)])


def _loosened(bellows: Bellows, sizes: FormSizes) -> tuple[tuple[Segment, ...], tuple[Step, ...], tuple[str, ...]]:
    """Segments, how they leave, and which cannot: where all are stuck, one is made narrower until it is the key to the rest."""
    clearance = bellows.profile.form.clearance
    segments = tuple(segment_of(bellows, sizes, side) for side in range(bellows.section.count))
    found, stuck = way_out(sizes, segments, clearance)
    while stuck:
        for tried in _narrower(bellows, sizes, segments, stuck):
            better, left = way_out(sizes, tried, clearance)
            if len(left) < len(stuck):
                segments, found, stuck = tried, better, left
                break
        else:
            break
    return segments, found, stuck


def _narrower(bellows: Bellows, sizes: FormSizes, segments: tuple[Segment, ...], stuck: tuple[str, ...]) -> Iterator[tuple[Segment, ...]]:
    """The same segments with one that is stuck narrower, from the least to the most; of sides that are alike only the first."""
    for spread in SPREADS[1:]:
        seen: set[tuple[float, ...]] = set()
        for segment in segments:
            narrow = segment_of(bellows, sizes, segment.side, spread)
            shape = tuple(round(value, 3) for value in (*segment.places, segment.left, segment.right, *narrow.places))
            if side_name(segment.side) in stuck and narrow.right - narrow.left < segment.right - segment.left - 1e-9 and shape not in seen:
                seen.add(shape)
                yield tuple(narrow if one is segment else one for one in segments)


def segment_of(bellows: Bellows, sizes: FormSizes, side: int, spread: float = 1.0) -> Segment:
    """The segment of one side, its combs over some share of the room that there is.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    sizes : FormSizes
        The form.
    side : int
        A is 0 [-].
    spread : float
        Share of the room that the combs spread over [-].

    Raises
    ------
    LayoutError
        When there is no room for a comb.
    """
    spec = bellows.profile.form
    low, high = valley_edge(bellows, sizes, side)
    # Beside a comb that has moved clear of the valleys the gusset slants towards it: so far in it is clear of that too.
    before, after = (spec.clearance * math.tan(corner.half_turn / 2) for corner in bellows.corner_pair(side))
    low, high = low + before, high - after
    comb = sizes.ridge_height + spec.back
    segment = Segment(side, (), 0.0, 0.0, comb, spec.ply)
    # A board stops so far short of the mitre that the next one passes it, square to its own side, with the clearance.
    left, right = _sector(sizes, side, segment.depth)
    back, fore = (spec.clearance / (2 * math.cos(min(corner.half_turn, math.pi / 4)) ** 2) for corner in bellows.corner_pair(side))
    left, right = left + back, right - fore
    rim = spec.ply / 2 + spec.play / 2 + LEAST_WOOD
    first, last = max(low + spec.ply / 2, left + rim), min(high - spec.ply / 2, right - rim)
    if first > last:
        width = plain_number(max(min(high, right) - max(low, left), 0.0), 1)
        raise LayoutError([say(words.NO_ROOM_FOR_COMB, side=side_name(side), width=width, ply=plain_number(spec.ply, 2))])
    middle, half = (first + last) / 2, (last - first) / 2 * spread
    number = 1 if 2 * half < spec.ply + LIP else max(2, math.ceil(2 * half / spec.spacing) + 1)
    places = (middle,) if number == 1 else tuple(middle - half + 2 * half * k / (number - 1) for k in range(number))
    outer = spec.ply / 2 + LIP
    return replace(segment, places=places, left=max(left, places[0] - outer), right=min(right, places[-1] + outer))


def valley_edge(bellows: Bellows, sizes: FormSizes, side: int) -> tuple[float, float]:
    """Where a side's cards begin and end at the valley, along the form's ridge from its corner [mm]."""
    before, after = bellows.corner_pair(side)
    shift = sizes.set_in * math.tan(before.half_turn)
    low = before.cut_back + bellows.depth * math.tan(before.lean)
    high = bellows.section.sides[side] - after.cut_back - bellows.depth * math.tan(after.lean)
    return low - shift, high - shift


def _sector(sizes: FormSizes, side: int, depth: float) -> tuple[float, float]:
    """Where a side's share of the section begins and ends at a depth, along the form's ridge from its corner [mm]."""
    inner = sizes.polygon(depth)
    edge = side_of(sizes.ridges, side)
    first, last = (edge.place(inner[k % len(inner)])[0] for k in (side, side + 1))
    return first, last

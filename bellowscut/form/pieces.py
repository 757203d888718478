"""Outlines of the form's pieces, as they are cut from board. Lengths in mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from bellowscut.bellows import Bellows
from bellowscut.drawing import Line
from bellowscut.form.model import Segment
from bellowscut.form.sizes import FormSizes, zigzag
from bellowscut.parts.part import Part, listed, mark
from bellowscut.schema import FormSpec
from bellowscut.section import side_name
from bellowscut.shapes import Outline, Point, centroid, least_width, polygon, rectangle, rounded, side_of
from bellowscut.units import plain_number
from bellowscut.words import form as words, say

TAB = 16.0
"""Length of a tab along the bellows [mm], invented."""

TABS_APART = 75.0
"""Greatest distance from tab to tab [mm], invented."""

RIBS_APART = 90.0
"""Greatest distance from rib to rib of the core [mm], invented."""

CORE_WOOD = 1.5
"""Wood beyond the slot of a rib, along it, over the thickness of a board [-], invented."""

SPINE_MOST = 80.0
"""Most height of the spine [mm], invented."""

STICKS = 3
"""Spacer sticks to prop two frames with [-]: a stool stands on three legs."""

STICK_WIDTH = 15.0
"""Width of a spacer stick [mm], invented."""

NOTCH_DEEP, NOTCH_WIDE = 3.0, 4.0
"""Notches of a spacer stick at the valleys [mm], invented."""

MARK_OF_A = 8.0
"""Length of the mark of side A on an end plate [mm], invented."""

PUSH_HOLE = 30.0
"""Diameter of the hole in an end plate through which a stick pushes the core out at the other end [mm], invented."""


def pieces(bellows: Bellows, sizes: FormSizes, segments: Sequence[Segment], core: Sequence[Point]) -> tuple[Part, ...]:
    """Every distinct piece with its count, in the order in which they are cut."""
    spec = bellows.profile.form
    combs = sum(len(segment.places) for segment in segments)
    ribs = max(2, math.ceil(sizes.length / RIBS_APART) + 1)
    stick, valleys = _stick(bellows, sizes)
    spine = min(2 * (_half_across(core, spec.ply) - CORE_WOOD * spec.ply - spec.play), SPINE_MOST)
    rib = _part(spec, "form-core-rib", say(words.CORE_RIB), ribs, polygon(core), note=say(words.CORE_RIB_NOTE))
    board = rectangle(0.0, 0.0, sizes.length, spine)
    back = _part(spec, "form-core-spine", say(words.CORE_SPINE), 1, board, note=say(words.CORE_RIB_NOTE))
    prop = _part(spec, "form-spacer", say(words.SPACER), STICKS, stick, note=say(words.SPACER_NOTE))
    return (
        _part(spec, "form-comb", say(words.COMB), combs, comb_outline(bellows, sizes, segments[0]), note=say(words.COMB_NOTE)),
        *_side_boards(spec, sizes, segments),
        _end_plate(spec, sizes, segments, core),
        replace(rib, holes=(_slot(centroid(core), spine + spec.play, spec.ply + spec.play),)),
        replace(back, lines=tuple(mark((x, 0.0), (x, spine)) for x in rib_places(sizes.length, ribs, spec.ply))),
        replace(prop, lines=valleys),
    )


def _part(spec: FormSpec, kind: str, name: str, count: int, outline: Outline, *, note: str) -> Part:
    material = say(words.PLY, mm=plain_number(spec.ply, 2))
    return Part(kind, kind, name, material, count, 0, (), (), outline, side="outside", note=note)


def tab_places(length: float) -> tuple[float, ...]:
    """Middles of the tabs along a comb [mm], two at the least."""
    count = max(2, math.ceil(length / TABS_APART))
    return tuple(length * (k + 0.5) / count for k in range(count))


def tab_length(length: float) -> float:
    """Length of a tab [mm], shorter on a short form."""
    return min(TAB, length / 5)


def rib_places(length: float, ribs: int, ply: float) -> tuple[float, ...]:
    """Middles of the core's ribs along it [mm], the outer ones flush with its ends."""
    return tuple(ply / 2 + (length - ply) * k / (ribs - 1) for k in range(ribs))


def comb_outline(bellows: Bellows, sizes: FormSizes, segment: Segment) -> Outline:
    """A comb: the zigzag with its arrises eased, a straight back, and tabs for the side board.

    The ridges point up, y = 0 is the line of the ridges, x runs along the bellows.
    """
    spec = bellows.profile.form
    edge = zigzag(bellows.cards_per_side, bellows.depth, sizes.slope, from_valley=bellows.valley_ends)
    upper = [(z, -depth) for z, depth in reversed(edge)]
    half = tab_length(sizes.length) / 2
    back, foot = -segment.comb, -segment.depth
    lower: list[Point] = [(0.0, back)]
    for x in tab_places(sizes.length):
        lower += [(x - half, back), (x - half, foot), (x + half, foot), (x + half, back)]
    lower.append((sizes.length, back))
    points = [*lower, *upper]
    radii = [0.0] * (len(lower) + 1) + [spec.arris] * (len(upper) - 2) + [0.0]
    outline, _ = rounded(points, radii)
    return outline


def _slot(at: Point, wide: float, high: float) -> Outline:
    return rectangle(at[0] - wide / 2, at[1] - high / 2, at[0] + wide / 2, at[1] + high / 2)


def _half_across(core: Sequence[Point], ply: float) -> float:
    """How far a slot may reach to either side of the core's centre [mm]."""
    x, y = centroid(core)
    reach = math.inf
    for level in (y - ply / 2, y + ply / 2):
        for a, b in pairwise((*core, core[0])):
            if min(a[1], b[1]) <= level <= max(a[1], b[1]) and a[1] != b[1]:
                reach = min(reach, abs(a[0] + (level - a[1]) * (b[0] - a[0]) / (b[1] - a[1]) - x))
    return reach


def end_tab(segment: Segment) -> tuple[float, float]:
    """Where the tab at either end of a side board begins and ends, along the side [mm]: its middle half."""
    quarter = (segment.right - segment.left) / 4
    return segment.left + quarter, segment.right - quarter


def side_board(spec: FormSpec, sizes: FormSizes, segment: Segment) -> tuple[Outline, tuple[Outline, ...]]:
    """A side board and its slots: x along the bellows, y along the side, from the edge nearest to the side's beginning."""
    length, wide = sizes.length, segment.right - segment.left
    first, last = (edge - segment.left for edge in end_tab(segment))
    points = (
        (0.0, 0.0),
        (length, 0.0),
        (length, first),
        (length + segment.ply, first),
        (length + segment.ply, last),
        (length, last),
        (length, wide),
        (0.0, wide),
        (0.0, last),
        (-segment.ply, last),
        (-segment.ply, first),
        (0.0, first),
    )
    long = tab_length(length) + spec.play
    slots = tuple(_slot((x, place - segment.left), long, segment.ply + spec.play) for place in segment.places for x in tab_places(length))
    return polygon(points), slots


def _side_boards(spec: FormSpec, sizes: FormSizes, segments: Sequence[Segment]) -> tuple[Part, ...]:
    """Boards of the same shape are one part."""
    groups: dict[tuple[float, ...], list[Segment]] = {}
    for segment in segments:
        shape = (segment.right - segment.left, *(place - segment.left for place in segment.places))
        groups.setdefault(tuple(round(value, 3) for value in shape), []).append(segment)
    found = []
    for group in groups.values():
        sides = tuple(side_name(segment.side) for segment in group)
        outline, slots = side_board(spec, sizes, group[0])
        told = say(words.SIDE, side=sides[0]) if len(sides) == 1 else say(words.SIDES, sides=listed(sides))
        name, note = say(words.SIDE_BOARD, sides=told), say(words.SIDE_BOARD_NOTE)
        identity = "-".join(("form-side", *(side.lower() for side in sides)))
        found.append(replace(_part(spec, "form-side", name, len(group), outline, note=note), id=identity, holes=slots, sides=sides))
    return tuple(found)


def _end_plate(spec: FormSpec, sizes: FormSizes, segments: Sequence[Segment], core: Sequence[Point]) -> Part:
    """The plate that holds all side boards square, seen from outside the right-hand end, with the sides named."""
    slots = []
    for segment in segments:
        side = side_of(sizes.ridges, segment.side)
        first, last = end_tab(segment)
        left, right = first - spec.play / 2, last + spec.play / 2
        low, high = segment.comb - spec.play / 2, segment.depth + spec.play / 2
        slots.append(polygon((side.at(left, low), side.at(right, low), side.at(right, high), side.at(left, high))))
    first_side = side_of(sizes.ridges, 0)
    middle = first_side.length / 2
    # A short mark in the middle of side A: the plate has no other sign of which way round it goes.
    plate = _part(spec, "form-end", say(words.END_PLATE), 2, polygon(sizes.ridges), note=say(words.END_PLATE_NOTE))
    return replace(plate, lines=(mark(first_side.at(middle, 0.0), first_side.at(middle, MARK_OF_A)),), holes=(*slots, _push_hole(core)))


def _push_hole(core: Sequence[Point]) -> Outline:
    """A round hole behind the middle of the core, for the stick that pushes it out; the core itself leaves by the open end."""
    x, y = centroid(core)
    wide = min(PUSH_HOLE, least_width(core) / 2)
    return Outline(((x - wide / 2, y), (x + wide / 2, y)), (1.0, 1.0))


def _stick(bellows: Bellows, sizes: FormSizes) -> tuple[Outline, tuple[Line, ...]]:
    """A stick as long as the frames stand apart while gluing, its valleys notched and marked."""
    edge = zigzag(bellows.cards_per_side, bellows.depth, sizes.slope, from_valley=bellows.valley_ends)
    inner = [z for z, depth in edge if depth > 0 and 0 < z < sizes.length - 1e-9]
    lines = tuple(mark((z, 0.0), (z, STICK_WIDTH / 2)) for z in inner)
    top = STICK_WIDTH
    upper: list[Point] = [(sizes.length, top)]
    for z in reversed(inner):
        half = min(NOTCH_WIDE, sizes.pitch / 4) / 2
        upper += [(z + half, top), (z, top - NOTCH_DEEP), (z - half, top)]
    return polygon(((0.0, 0.0), (sizes.length, 0.0), *upper, (0.0, top))), lines

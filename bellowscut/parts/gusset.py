"""Gussets: the diamonds of thin leather that close a corner from ridge through valley to ridge."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from bellowscut.bellows import Bellows, gusset_cut
from bellowscut.drawing import Line, Role
from bellowscut.folds import Corner
from bellowscut.parts.part import Part, Want, blank, crease, gathered, mark, placed, skive
from bellowscut.shapes import Outline, Point, rounded
from bellowscut.sources import SPARE_LEAST
from bellowscut.words import parts as words, say

COVER = "cover-gusset"
KINDS = ("gusset", "end-gusset", "half-gusset", COVER)
NAMES = {"gusset": words.GUSSET, "end-gusset": words.END_GUSSET, "half-gusset": words.HALF_GUSSET}
COVER_NAMES = {"gusset": words.COVER_GUSSET, "end-gusset": words.COVER_END_GUSSET, "half-gusset": words.COVER_HALF_GUSSET}


def make(bellows: Bellows) -> tuple[Part, ...]:
    """Gussets of every corner, with end gussets or half gussets at the frames.

    Where ridge turn and frame turn are equal the end gussets are plain ones.
    """
    spec = bellows.profile.gusset
    copies = bellows.profile.copies
    if bellows.valley_ends:
        numbers = {"gusset": bellows.valleys * copies, "half-gusset": 2 * copies}
    elif math.isclose(spec.ridge_turn, spec.frame_turn, abs_tol=1e-9):
        numbers = {"gusset": bellows.valleys * copies}
    else:
        numbers = {"gusset": (bellows.valleys - 2) * copies, "end-gusset": 2 * copies}
    found: list[Part] = []
    for kind, number in numbers.items():
        if not number:
            continue
        wants = [
            Want(*gusset_shape(bellows, corner, kind), number, name)
            for corner, name in zip(bellows.corners, bellows.section.corner_names, strict=True)
        ]
        # Corner AB is named before BC; the corner between the last side and A comes last.
        wants = [*wants[1:], wants[0]]
        model = blank(bellows, kind, say(NAMES[kind]), spec.material, wants[0].outline)
        found.extend(gathered(model, wants, "corners"))
    made = tuple(_with_spares(part, bellows) for part in found)
    return (*made, *_covers(bellows, made))


def _covers(bellows: Bellows, gussets: tuple[Part, ...]) -> tuple[Part, ...]:
    """Thin gussets that lie exactly on the old ones; so thin a leather is pared at its edge only, by no line."""
    spec = bellows.profile.cover_gusset
    if spec is None:
        return ()
    return tuple(
        replace(
            part,
            id=f"{COVER}{part.id.removeprefix('gusset')}" if part.kind == "gusset" else f"{COVER}-{part.id.replace('gusset', 'piece')}",
            kind=COVER,
            name=_cover_name(part),
            material=spec.material,
            lines=tuple(line for line in part.lines if line.role is not Role.SKIVE),
        )
        for part in gussets
    )


def _cover_name(part: Part) -> str:
    """Name of the cover of a gusset, with its corners where the gusset has them in its own."""
    name = say(COVER_NAMES[part.kind])
    return name if part.id == part.kind else placed(name, "corners", part.corners)


def _with_spares(part: Part, bellows: Bellows) -> Part:
    spare = bellows.profile.gusset.spare
    if spare.count is not None:
        return replace(part, spare=spare.count)
    assert spare.per_cent is not None
    wanted = math.ceil(round(part.count * spare.per_cent / 100, 9))
    return replace(part, spare=max(int(SPARE_LEAST.value), wanted))


def edge_of(bellows: Bellows, corner: Corner) -> tuple[float, float, float]:
    """Half width at the valley, narrowing for each mm, and height of the ridge line of a corner's gusset.

    Returns
    -------
    tuple of float
        [mm], [-], [mm]. Of an own gusset the piece as cut, its points rounded, has the width and length that were given.
    """
    spec = bellows.profile.gusset
    if spec.use is None:
        return *corner.gusset_edge(bellows.stretch, spec.lap, spec.tip_lap), corner.half_height(bellows.stretch)
    return *corner.own_gusset(bellows.stretch, spec.use, gusset_cut(bellows.profile)), spec.use[1] / 2 - spec.ridge_turn


def gusset_shape(bellows: Bellows, corner: Corner, kind: str) -> tuple[Outline, tuple[Line, ...]]:
    """Outline and lines of one gusset [mm].

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    corner : Corner
        The corner that it closes.
    kind : str
        ``gusset``, ``end-gusset`` or ``half-gusset``.

    Returns
    -------
    Outline
        Long axis along y, valley on y = 0, an end gusset's frame tip at +y.
    tuple of Line
        Valley (crease), ridges, centre and card edges (marks), skive lines.
    """
    spec = bellows.profile.gusset
    half_width, slope, height = edge_of(bellows, corner)
    top = height + (spec.frame_turn if kind == "end-gusset" else spec.ridge_turn)
    low = -spec.lap if kind == "half-gusset" else -(height + spec.ridge_turn)

    def x_at(y: float) -> float:
        return half_width - slope * abs(y)

    tip, point = spec.tip_radius, spec.point_radius
    if kind == "half-gusset":
        points: tuple[Point, ...] = (
            (-half_width, low),
            (half_width, low),
            (half_width, 0),
            (x_at(top), top),
            (-x_at(top), top),
            (-half_width, 0),
        )
        radii: tuple[float, ...] = (0, 0, point, tip, tip, point)
    else:
        points = ((-x_at(low), low), (x_at(low), low), (half_width, 0), (x_at(top), top), (-x_at(top), top), (-half_width, 0))
        radii = (tip, tip, point, tip, tip, point)
    outline, _ = rounded(points, radii)
    return outline, tuple(_lines(bellows, corner, outline, low, top, height))


def _lines(bellows: Bellows, corner: Corner, outline: Outline, low: float, top: float, height: float) -> Iterator[Line]:
    half_width, slope, _ = edge_of(bellows, corner)
    across = _half_width_at_valley(outline)
    wide = corner.opening(bellows.stretch)
    whole = low <= -height
    yield crease((-across, 0), (across, 0))
    yield mark((0, low), (0, top))
    for y in (height, -height) if whole else (height,):
        at = half_width - slope * abs(y)
        yield mark((-at, y), (at, y))
        for side in (-1, 1):
            yield mark((side * wide / 2, 0), (side * corner.gap / 2, y))
    for end in (top, low) if whole else (top,):
        for side in (-1, 1):
            yield _skive_line(bellows, corner, side, end, height)


def _half_width_at_valley(outline: Outline) -> float:
    """Where the valley line meets the cut edge once the points are rounded [mm]; a half gusset is widest below it."""
    points = outline.flattened()
    found = [p[0] for p in points if p[1] == 0]
    for a, b in zip(points, (*points[1:], points[0]), strict=True):
        if a[1] < 0 < b[1]:
            found.append(a[0] - a[1] * (b[0] - a[0]) / (b[1] - a[1]))
    return max(found)


def _skive_line(bellows: Bellows, corner: Corner, side: int, end: float, height: float) -> Line:
    """Where paring stops: the card's edge carried on to the tip, or a line parallel to the cut edge."""
    spec = bellows.profile.gusset
    half_width, slope, _ = edge_of(bellows, corner)
    if spec.skive is None:
        at_valley = corner.opening(bellows.stretch) / 2
        drop = (at_valley - corner.gap / 2) / height
    else:
        at_valley = half_width - spec.skive * math.hypot(1, slope)
        drop = slope
    last = abs(end)
    if drop > 0:
        last = min(last, at_valley / drop)
    y = math.copysign(last, end)
    return skive((side * at_valley, 0), (side * (at_valley - drop * last), y))


def template_window(bellows: Bellows, corner: Corner, kind: str) -> tuple[Point, ...]:
    """The opening of the corner on a gusset's template: what the laps leave free [mm]."""
    _, _, height = edge_of(bellows, corner)
    wide, gap = corner.opening(bellows.stretch) / 2, corner.gap / 2
    upper = ((wide, 0.0), (gap, height), (-gap, height), (-wide, 0.0))
    return upper if kind == "half-gusset" else (*upper, (-gap, -height), (gap, -height))

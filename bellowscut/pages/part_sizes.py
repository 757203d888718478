"""Which sizes each kind of part is given in its drawing, and where they are measured."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from bellowscut.bellows import Bellows
from bellowscut.drawing import Role
from bellowscut.folds import Corner
from bellowscut.pages.dimensions import Board
from bellowscut.pages.part_board import ALIKE, Drawing, Sizes
from bellowscut.parts.card import card_corners
from bellowscut.parts.gusset import edge_of
from bellowscut.parts.part import Part
from bellowscut.shapes import Point, bounds, meet
from bellowscut.units import Rule, plain_number
from bellowscut.words import pictures as words, say


def dimensioned(bellows: Bellows, drawing: Drawing, board: Board) -> list[str]:
    """Put all dimensions of a part on a board.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    drawing : Drawing
        The part as drawn.
    board : Board
        Knows the part's lines already.

    Returns
    -------
    list of str
        Sizes for which there was no room in the drawing.
    """
    sizes = Sizes(bellows, drawing, board)
    part = drawing.part
    if part.kind == "card":
        _card(sizes)
    elif part.kind == "card-run":
        _run(sizes)
    elif part.kind == "facing":
        _facing(sizes)
    elif "gusset" in part.kind:
        _gusset(sizes)
    elif part.strip:
        _strip(sizes)
    else:
        sizes.over_all()
    sizes.radii()
    return sizes.untold


def _card(sizes: Sizes) -> None:
    # A card that serves several sides is drawn as for the first of them.
    side = sizes.bellows.section.side_names.index(sizes.part.sides[0])
    a, b, c, d = card_corners(sizes.bellows, side)
    _trapezoid(sizes, (a, b, c, d), words.RIDGE_EDGE, words.VALLEY_EDGE)
    sizes.over_all(width=b[0] - a[0], height=c[1] - b[1])


def _trapezoid(sizes: Sizes, corners: Sequence[Point], below: str, above: str) -> None:
    a, b, c, d = corners
    sizes.angle(a, b, d)
    sizes.angle(b, c, a)
    sizes.level(a, b, below)
    sizes.level(d, c, above, above=True)
    sizes.upright(b, c, words.EDGE)


def _facing(sizes: Sizes) -> None:
    points = sizes.part.outline.points
    left, low, right, high = bounds(points)
    # A facing of the other hand is a mirror image, and that starts at another corner.
    first = min(range(len(points)), key=lambda i: (round(points[i][1], 6), points[i][0]))
    points = (*points[first:], *points[:first])
    if len(points) == 4:
        _trapezoid(sizes, points, words.EDGE, words.EDGE)
    else:
        a, b, c, d, e, f = points
        sizes.angle(a, b, f)
        sizes.level(a, b, words.EDGE)
        sizes.level(f, c, words.FOLD, above=True)
        sizes.upright(b, c, words.EDGE)
        sizes.upright(e, a, words.EDGE, right=False)
        assert d[0] > e[0]
    sizes.over_all(width=right - left, height=high - low)


def _run(sizes: Sizes) -> None:
    part, bellows = sizes.part, sizes.bellows
    low, high = part.outline.bounds()[1::2]
    points = part.outline.points
    folds = sorted({round(p[1], 6) for p in points if low + 1e-6 < p[1] < high - 1e-6})
    pitch = [y for y in folds if abs(y / bellows.depth - round(y / bellows.depth)) < 1e-6]
    edges = {y: sorted(p[0] for p in points if abs(p[1] - y) < 1e-6) for y in pitch}
    # Valleys are told at the top and ridges at the foot, each at the nearest fold.
    ridges = [y for y in pitch if (round(y / bellows.depth) % 2 == 0) != bellows.valley_ends]
    valley, ridge = max(set(pitch) - set(ridges), default=None), min(ridges, default=None)
    for y, word in ((valley, words.VALLEY_EDGE), (ridge, words.RIDGE_EDGE)):
        if y is not None:
            sizes.level((edges[y][0], y), (edges[y][1], y), word, above=word == words.VALLEY_EDGE)
    for y, z in itertools.pairwise(pitch[:3]):
        sizes.upright((edges[y][1], y), (edges[z][1], z), words.EDGE)
    # The leg of the card at the foot, carried on to its sharp corner.
    leg = [min(x for x, level in points if abs(level - y) < 1e-6) for y in folds[:2]]
    corner = meet((leg[0], folds[0]), (leg[1], folds[1]), (0.0, low), (1.0, low))
    sizes.angle(corner, (corner[0] + 1.0, low), (leg[1], folds[1]))
    for outline in part.holes[:1]:
        left, bottom, right, top = outline.bounds()
        text = say(words.HOLES, count=len(part.holes), mm=plain_number(right - left, 2))
        centre = ((left + right) / 2, (bottom + top) / 2)
        way = 1.0 if centre[0] > 0 else -1.0
        tip = (centre[0] + way * (right - left) / 2, centre[1])
        if not any(sizes.board.radius(sizes.drawing.at(tip), sizes.drawing.at(centre), text, strict=strict) for strict in (True, False)):
            sizes.untold.append(text)
    sizes.over_all(width=edges[ridge][1] - edges[ridge][0] if ridge is not None else 0.0)


def _gusset(sizes: Sizes) -> None:
    bellows, part = sizes.bellows, sizes.part
    corner = _corner_of(bellows, part)
    half_width, slope, height = edge_of(bellows, corner)
    _, low, _, high = part.outline.bounds()
    half = "half" in part.id

    def x_at(y: float) -> float:
        return half_width - slope * abs(y)

    _lap(sizes, corner, half_width, slope)
    _skive(sizes, half_width, slope, height)
    tip = x_at(high)
    sizes.level((-tip, high), (tip, high), words.TIP, above=True)
    sizes.upright((x_at(high), high), (x_at(height), height), words.TURN)
    sizes.upright((x_at(height), height), (half_width, 0.0), words.EDGE)
    if half:
        sizes.upright((half_width, 0.0), (half_width, low), words.LAP)
    else:
        sizes.upright((half_width, 0.0), (x_at(height), -height), words.EDGE)
        sizes.upright((x_at(height), -height), (x_at(low), low), words.TURN)
    sizes.over_all()


def _corner_of(bellows: Bellows, part: Part) -> Corner:
    return bellows.corners[bellows.section.corner_names.index(part.corners[0])]


def _lap(sizes: Sizes, corner: Corner, half_width: float, slope: float) -> None:
    """Lap beyond the card's edge, square to it, at the valley."""
    height, wide = corner.half_height(sizes.bellows.stretch), corner.opening(sizes.bellows.stretch) / 2
    rise = (wide - corner.gap / 2) / height
    end = meet((wide, 0.0), (wide + 1.0, rise), (half_width, 0.0), (half_width - slope * height, height))
    lap = math.dist((wide, 0.0), end)
    if lap > ALIKE:
        text = say(words.LAP, mm=f"{lap:.1f}")
        if not sizes.board.across(sizes.drawing.at((-wide, 0.0)), sizes.drawing.at((-end[0], end[1])), text):
            sizes.untold.append(text)


def _skive(sizes: Sizes, half_width: float, slope: float, height: float) -> None:
    """Width that is pared, square to the cut edge; where it is the whole lap the notes say so."""
    skive = sizes.bellows.profile.gusset.skive
    if skive is None or not any(line.role is Role.SKIVE for line in sizes.part.lines):
        return
    length = math.hypot(1.0, slope)
    ux, uy = 1 / length, slope / length
    for share in (0.5, 0.6, 0.4, 0.7):
        y = height * share
        edge = (-(half_width - slope * y), y)
        inner = (edge[0] + ux * skive, edge[1] - uy * skive)
        if sizes.board.across(sizes.drawing.at(inner), sizes.drawing.at(edge), say(words.SKIVE, mm=f"{skive:.1f}")):
            return
    sizes.untold.append(say(words.SKIVE, mm=f"{skive:.1f}"))


def _strip(sizes: Sizes) -> None:
    part, drawing = sizes.part, sizes.drawing
    left, low, _, high = bounds(part.points)
    right = (sizes.right / drawing.scale, 0.0)[0]

    def levels(*roles: Role) -> list[float]:
        found = {round(line.points[0][1], 6) for line in part.lines if line.role in roles and line.points[0][1] == line.points[-1][1]}
        return sorted(found)

    middle = abs(low + high) < 1e-6
    inner = [y for y in levels(Role.MARK) if low < y < high]
    inner = sorted({*inner, *([] if middle and inner else levels(Role.CREASE))})
    names = {"edge-strip": (words.LAP, words.BEND), "end-strip": (words.COVER, words.BEND, words.LAP)}.get(
        part.kind, (words.LAP, words.FOLD_GAP)
    )
    for name, (y, z) in zip(names, zip((low, *inner), (*inner, high), strict=True), strict=False):
        sizes.upright((right, y), (right, z), name)
    skives = levels(Role.SKIVE)
    if skives:
        sizes.upright((left, low), (left, skives[0]), words.SKIVE, right=False)
        if not middle and abs((high - skives[-1]) - (skives[0] - low)) > ALIKE:
            sizes.upright((left, skives[-1]), (left, high), words.SKIVE, right=False)
    ends = [line.points[0][0] for line in part.lines if line.role is Role.SKIVE and line.points[0][0] == line.points[-1][0]]
    if ends:
        sizes.level((left, high), (min(ends), high), words.JOINT, above=True)
    sizes.over_all()


def notes(bellows: Bellows, part: Part) -> list[str]:
    """What the drawing of a part says beyond its dimensions."""
    found = []
    if "gusset" in part.kind and any(line.role is Role.SKIVE for line in part.lines):
        text = words.SKIVE_FROM_CARD if bellows.profile.gusset.skive is None else words.SKIVE_BESIDE
        found.append(say(text, feather=plain_number(bellows.profile.gusset.feather, 2)))
    if "gusset" in part.kind:
        spec = bellows.profile.gusset
        found.append(say(words.LAPS, lap=plain_number(spec.lap, 2), tip=plain_number(spec.tip_lap, 2)))
        half_width, slope, _ = edge_of(bellows, _corner_of(bellows, part))
        left, low, right, high = part.outline.bounds()
        if abs(2 * half_width - right + left) > ALIKE:
            found.append(say(words.SHARP, mm=f"{2 * half_width:.1f}"))
        if abs(high + low) > ALIKE and "half" not in part.name.lower():
            found.append(say(words.OTHER_TIP, mm=f"{2 * (half_width + slope * low):.1f}"))
    if part.kind == "card-run":
        found.append(say(words.FOLDS_OF_RUN, count=bellows.cards_per_side, mm=Rule().bare(bellows.depth)))
    corners = [line.points[0][0] for line in part.lines if line.role is Role.MARK and line.points[0][0] == line.points[-1][0]]
    if part.strip and len(corners) > 2:
        found.append(say(words.CORNERS_FROM_END, list=", ".join(f"{x:.1f}" for x in sorted(corners))))
    darts = _darts(part)
    if darts:
        found.append(say(words.DARTS, wide="/".join(f"{wide:.1f}" for wide, _ in darts), deep=f"{darts[0][1]:.1f}"))
    if part.note:
        found.append(part.note)
    return found


def _darts(part: Part) -> list[tuple[float, float]]:
    """Width and depth of the darts cut into a strip, each size once [mm]."""
    if not part.strip:
        return []
    points = part.outline.points
    low = min(y for _, y in points)
    found = {}
    for i, (_, y) in enumerate(points):
        before, after = points[i - 1], points[(i + 1) % len(points)]
        if y > low and before[1] == after[1] == low:
            found[round(abs(after[0] - before[0]), 2)] = y - low
    return sorted(found.items())

"""Rows of identical pieces that repeat for ever: which patterns waste least.

A pattern is a row of pieces at one pitch, each followed by its own half turn where that is allowed, and the least distance of the next row for
every shift along the row. With one shift from row to row it is a double lattice; with shifts free to differ it is what skins with flaws want.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from bellowscut.nesting.model import Shape
from bellowscut.nesting.nofit import pose
from bellowscut.nesting.rims import Rims

SHIFTS = 48
"""Shifts tried in the first look at a pattern [-]."""

KEPT = 32
"""Patterns kept for a shape [-]."""

REFINED = 40
"""Patterns improved for a convex shape, fewer for one of several convex parts, with which each takes longer [-]."""

ALIKE = 0.004
"""Patterns whose areas differ by less than about this share count as equally dense; the straightest rows come first [-]."""

SLACK = 1.10
"""A pattern that takes more than this share of the densest one's area is not kept [-]."""


@dataclass(frozen=True, eq=False)
class Pattern:
    """Rows of pieces along x.

    Parameters
    ----------
    lean : float
        Turn of the pieces when the rows run along x [deg].
    pitch : float
        Distance of like pieces in a row [mm].
    mate : tuple of float or None
        Where the half-turned piece lies from the piece before it [mm]; None without half-turned pieces.
    lift : float
        Least distance of two rows [mm].
    shift : float
        Shift of the next row at which it is least [mm].
    tall : float
        Greatest distance that any shift asks for [mm].
    area : float
        Area that one piece takes [mm^2].
    """

    lean: float
    pitch: float
    mate: tuple[float, float] | None
    lift: float
    shift: float
    tall: float
    area: float

    @property
    def free(self) -> bool:
        """Whether every row may choose its own shift: rows but one apart never touch."""
        return 2 * self.lift >= self.tall - 1e-9


def half_turn_alike(shape: Shape) -> bool:
    """Whether the half turn of a shape is the same shape moved."""
    points = np.asarray(shape.points)
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    turned = 2 * middle - points
    return all(float(np.hypot(*(points - corner).T).min()) < 1e-9 for corner in turned)


def _measure(rims: Rims, dy: float | None) -> tuple[float, float, tuple[float, float] | None, float, float, float]:
    """Area a piece, pitch, mate, lift, shift and tallest of one pattern, exactly."""
    if dy is None:
        pitch, dx, count = float(rims.like.rightmost(np.zeros(1))[0]), 0.0, 1
    else:
        dxs, pitches = rims.rows(np.array([dy]))
        dx, pitch, count = float(dxs[0]), float(pitches[0]), 2
        if not (math.isfinite(dx) and math.isfinite(pitch)):
            return math.inf, 0.0, None, 0.0, 0.0, 0.0
    breaks = [along for along, _ in rims.like.upper]
    if dy is not None:
        breaks += [along - dx for along, _ in rims.mixed.upper] + [along + dx for along, _ in rims.reverse.upper]
    marks = np.unique(np.concatenate((np.concatenate(breaks) % pitch, np.linspace(0, pitch, SHIFTS + 1))))
    args = (np.array([[pitch]]), None if dy is None else np.array([[dx]]), None if dy is None else np.array([[dy]]))
    # Between two marks the height is the greatest of straight lines: its lowest point is sought where the end lines meet.
    small = np.diff(marks) * 1e-4
    left, right = marks[:-1] + small, marks[1:] - small
    found = rims.heights(*args, np.concatenate((marks, left, marks[:-1] + 2 * small, right, marks[1:] - 2 * small))[None])[0]
    heights, ends = found[: len(marks)], found[len(marks) :].reshape(4, -1)
    lift, shift = float(heights.min()), float(marks[int(heights.argmin())])
    with np.errstate(divide="ignore", invalid="ignore"):
        falling, rising = (ends[1] - ends[0]) / small, (ends[2] - ends[3]) / small
        meet = (ends[2] - ends[0] + falling * left - rising * right) / (falling - rising)
    meet = meet[np.isfinite(meet) & (meet > left) & (meet < right)]
    if len(meet):
        low = rims.heights(*args, meet[None])[0]
        if low.min() < lift - 1e-12:
            lift, shift = float(low.min()), float(meet[int(low.argmin())])
    tall = float(heights.max())
    rows = np.arange(2, math.ceil(tall / lift) + 1)
    if len(rows) and (rows * lift < rims.heights(*args, (shift * rows % pitch)[None])[0] - 1e-9).any():
        return math.inf, 0.0, None, 0.0, 0.0, 0.0
    return pitch * lift / count, pitch, None if dy is None else (dx, dy), lift, shift, tall


def _directions(shape: Shape) -> list[float]:
    """Turns of the rows worth a look [deg]: an even fan, and the directions of edges and diagonals."""
    angles = [5.0 * k for k in range(36)]
    points = shape.points
    if len(points) <= 16:
        pairs = [(a, b) for i, a in enumerate(points) for b in points[i + 1 :]]
    else:
        pairs = [(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True) if math.dist(a, b) > 2]
    angles += [math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) % 180 for a, b in pairs]
    kept: list[float] = []
    for angle in sorted(angles):
        if not kept or angle - kept[-1] > 1e-6:
            kept.append(angle)
    return kept


@lru_cache(maxsize=64)
def patterns(shape: Shape, gap: float, half_turn: bool, refined: int = REFINED) -> tuple[Pattern, ...]:
    """The patterns of a shape that waste least, best first.

    Parameters
    ----------
    shape : Shape
        The shape; its allowed turns do not matter here.
    gap : float
        Least distance of two pieces [mm].
    half_turn : bool
        Whether half-turned pieces may be used.
    refined : int
        Patterns improved for a convex shape [-]; with 0 they are taken as they are first found.

    Returns
    -------
    tuple of Pattern
        At least one, at most `KEPT`.
    """
    mated = half_turn and not half_turn_alike(shape)
    rough: list[tuple[float, float, float | None]] = []
    for angle in _directions(shape):
        rims = Rims(shape, gap, mated, -angle, 15.0)
        area = _measure(rims, None)[0]
        rough.append((area, angle, None))
        if mated:
            span = rims.mixed.half_height
            corners = np.concatenate([along for along, _ in rims.mixed.right])
            dys = np.unique(np.concatenate((corners, (corners[1:] + corners[:-1]) / 2, np.linspace(-span, span, 17), [rims.flush])))
            dx, pitch = rims.rows(dys)
            good = np.isfinite(dx) & np.isfinite(pitch)
            dys, dx, pitch = dys[good], dx[good], pitch[good]
            shifts = pitch[:, None] * (np.arange(SHIFTS) / SHIFTS)
            lifts = rims.heights(pitch[:, None], dx[:, None], dys[:, None], shifts).min(axis=1)
            rough += [(float(p * lift / 2), angle, float(dy)) for p, lift, dy in zip(pitch, lifts, dys, strict=True)]
    rough.sort(key=lambda item: (item[0], item[1], item[2] or 0.0))
    chosen = _spread(rough, max(8, REFINED // len(pose(shape, 0.0).parts)))
    most = refined // len(pose(shape, 0.0).parts)
    found: list[Pattern] = []
    for number, (_, angle, dy) in enumerate(chosen):
        found += _refined(shape, gap, mated, angle, dy, improved=refined >= REFINED or number < most)
    least = min(pattern.area for pattern in found)
    found.sort(key=lambda pattern: (round((pattern.area / least - 1) / ALIKE), round(pattern.tall / pattern.lift, 3), pattern.lean))
    kept: list[Pattern] = []
    for pattern in found:
        same = any(_alike(pattern, other) for other in kept)
        if not same and pattern.area <= SLACK * least:
            kept.append(pattern)
    return tuple(kept[:KEPT])


def _spread(rough: list[tuple[float, float, float | None]], most: int) -> list[tuple[float, float, float | None]]:
    """The best few of a long list, at most three of a direction, and the best of each square direction."""
    chosen, seen = [], dict[float, int]()
    for item in rough:
        if not math.isfinite(item[0]) or item[0] > rough[0][0] * (SLACK + 0.05):
            break
        if seen.get(item[1], 0) < 3:
            seen[item[1]] = seen.get(item[1], 0) + 1
            chosen.append(item)
    squares = [next((item for item in rough if item[1] == angle and math.isfinite(item[0])), None) for angle in (0.0, 90.0)]
    head = chosen[:most]
    return head + [item for item in squares if item is not None and item not in head]


def _alike(one: Pattern, other: Pattern) -> bool:
    """Whether two patterns would lay the same rows."""
    near = abs(one.pitch - other.pitch) < 1e-3 and abs(one.lift - other.lift) < 1e-3
    away = abs((one.lean - other.lean + 90) % 180 - 90)
    mates = (one.mate is None) == (other.mate is None)
    return near and away < 1e-3 and mates and (one.mate is None or other.mate is None or abs(one.mate[1] - other.mate[1]) < 1e-3)


def _refined(shape: Shape, gap: float, mated: bool, angle: float, dy: float | None, *, improved: bool) -> list[Pattern]:
    """A pattern as it is, and perhaps improved by small changes of direction and mate, each kept only when it saves area."""
    step = 3.0 if len(shape.points) <= 16 else 7.5
    cache: dict[float, Rims] = {}

    def rims_at(at: float) -> Rims:
        if at not in cache:
            cache[at] = Rims(shape, gap, mated and dy is not None, -at, step)
        return cache[at]

    best = first = _measure(rims_at(angle), dy)
    start = angle
    turn, slide = 1.0, 0.5
    while improved and turn > 1e-4:
        moved = False
        trials = [(angle + turn, dy), (angle - turn, dy)]
        if dy is not None:
            trials += [(angle, dy + slide), (angle, dy - slide)]
        for trial in trials:
            value = _measure(rims_at(trial[0]), trial[1])
            if value[0] < best[0] - 1e-7:
                best, (angle, dy), moved = value, trial, True
                break
        if not moved:
            turn, slide = turn / 4, slide / 4
    made = []
    for (area, pitch, mate, lift, shift, tall), lean in ((first, start), (best, angle)) if improved else ((first, start),):
        if math.isfinite(area):
            made.append(Pattern(-lean % 360, pitch, mate, lift, shift, tall, area))
    return made

"""Lines that join end to end into closed loops, and where they do not.

Two passes: ends that coincide, which are most, and then the few that miss each other by a little. That keeps a chain of very short lines
from being joined across itself, and the second pass from ever having much to compare.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from bellowscut.shapes import Point
from bellowscut.tracing.limits import MOST_OUTLINES
from bellowscut.tracing.model import Ring, TracingError
from bellowscut.units import both
from bellowscut.words import count, say, tracing as words

SAME = 0.001
"""Ends that are nearer than this coincide [mm]."""

JOIN = 0.5
"""Ends of two lines that are nearer than this are joined [mm]."""

CLOSE = 1.0
"""A line whose own ends are nearer than this is closed [mm]."""

SHORTEST_LOOP = 3.0
"""A line shorter than this is not closed by joining its own ends [mm]."""

MOST_LOOSE = 2_000
"""Ends without a partner [-]; more are no outline with a gap."""


@dataclass(frozen=True)
class Chain:
    """A line through the points of one or more strokes."""

    points: Ring
    closed: bool = False

    def length(self) -> float:
        """Length from end to end [mm]."""
        return sum(math.dist(p, q) for p, q in itertools.pairwise(self.points))


def closed_loops(strokes: Sequence[tuple[Ring, bool]], corner: Point, scale: float = 1.0) -> tuple[Ring, ...]:
    """Closed outlines from lines, some of which are closed already.

    Parameters
    ----------
    strokes : sequence
        Points of each line [mm], and whether it is closed.
    corner : Point
        Where places in a message are measured from: the lower left corner of the drawing [mm].
    scale : float
        By how much all distances above are taken larger or smaller [-], for a drawing that is plainly not in millimetres.

    Returns
    -------
    tuple of Ring
        Each closed outline once [mm].

    Raises
    ------
    TracingError
        When a line stays open; it says where and how wide the gap is.
    """
    loops = [points for points, closed in strokes if closed]
    chains = _once([Chain(points) for points, closed in strokes if not closed], SAME * scale)
    loops += [chain.points for chain in chains if math.dist(chain.points[0], chain.points[-1]) <= SAME * scale]
    chains = [chain for chain in chains if math.dist(chain.points[0], chain.points[-1]) > SAME * scale]
    chains = _linked(chains, _coincident(chains, corner, SAME * scale))
    loops += [chain.points for chain in chains if chain.closed]
    chains = [chain for chain in chains if not chain.closed]
    if 2 * len(chains) > MOST_LOOSE:
        raise TracingError(say(words.MANY_LINES_OPEN, number=len(chains)))
    chains = _linked(chains, _near(chains, scale))
    opened = [chain for chain in chains if not chain.closed and not _closes(chain, scale)]
    if opened:
        raise TracingError(_gap(opened, corner))
    loops += [chain.points if chain.closed else _closed(chain.points) for chain in chains]
    if len(loops) > MOST_OUTLINES:
        raise TracingError(say(words.TOO_MANY_OUTLINES, number=len(loops), most=MOST_OUTLINES))
    return tuple(loops)


def _closes(chain: Chain, scale: float) -> bool:
    return math.dist(chain.points[0], chain.points[-1]) <= CLOSE * scale and chain.length() >= SHORTEST_LOOP * scale


def _closed(points: Ring) -> Ring:
    """A line closed by a straight stroke, or where it was drawn past its beginning, by making its ends one point."""
    a, b, c, d = points[0], points[1], points[-2], points[-1]

    def left(p: Point, q: Point, r: Point) -> bool:
        return (q[0] - p[0]) * (r[1] - p[1]) > (q[1] - p[1]) * (r[0] - p[0])

    past = left(a, b, c) != left(a, b, d) and left(c, d, a) != left(c, d, b)
    return (_middle(a, d), *points[1:-1]) if past and len(points) > 3 else points


def _once(chains: list[Chain], same: float) -> list[Chain]:
    """Each line once, whichever way round it is drawn; lines of no length not at all."""
    found: dict[tuple[tuple[int, int], ...], Chain] = {}
    for chain in chains:
        if len(chain.points) < 2 or chain.length() <= same:
            continue
        key = tuple((round(x / same), round(y / same)) for x, y in chain.points)
        found.setdefault(min(key, key[::-1]), chain)
    return list(found.values())


def _ends(chains: list[Chain]) -> list[Point]:
    """Start and end of each line in turn, so that end number k has its other end at k ^ 1."""
    return [end for chain in chains for end in (chain.points[0], chain.points[-1])]


def _grid(ends: list[Point], size: float) -> dict[tuple[int, int], list[int]]:
    cells: dict[tuple[int, int], list[int]] = {}
    for k, (x, y) in enumerate(ends):
        cells.setdefault((math.floor(x / size), math.floor(y / size)), []).append(k)
    return cells


def _around(cells: dict[tuple[int, int], list[int]], here: Point, size: float, most: int | None = None) -> list[int]:
    column, row = math.floor(here[0] / size), math.floor(here[1] / size)
    return [k for i in (column - 1, column, column + 1) for j in (row - 1, row, row + 1) for k in cells.get((i, j), [])[:most]]


def _coincident(chains: list[Chain], corner: Point, same: float) -> dict[int, int]:
    """Partner of each end that coincides with one other end."""
    ends = _ends(chains)
    cells = _grid(ends, same)
    partners: dict[int, int] = {}
    for k, here in enumerate(ends):
        # A fourth end in one cell is one too many already, so no cell is ever long to look through.
        near = [other for other in _around(cells, here, same, 4) if other != k and math.dist(ends[other], here) <= same]
        if len(near) > 1:
            raise TracingError(say(words.LINES_MEET, place=place(here, corner)))
        if near:
            partners[k] = near[0]
    # Three ends in a row, each near the next only, leave a partner that is not mutual.
    return {k: other for k, other in partners.items() if partners.get(other) == k}


def _near(chains: list[Chain], scale: float) -> dict[int, int]:
    """Partners among ends that miss each other by a little, the nearest pairs first."""
    ends, size = _ends(chains), JOIN * scale
    cells = _grid(ends, size)
    pairs = []
    for k, here in enumerate(ends):
        for other in _around(cells, here, size):
            away = math.dist(ends[other], here)
            own = other == k ^ 1 and chains[k // 2].length() < SHORTEST_LOOP * scale
            if k < other and away <= size and not own:
                pairs.append((away, k, other))
    partners: dict[int, int] = {}
    for _, k, other in sorted(pairs):
        if k not in partners and other not in partners:
            partners[k], partners[other] = other, k
    return partners


def _linked(chains: list[Chain], partners: dict[int, int]) -> list[Chain]:
    """Lines put together where their ends are partners."""
    done = [False] * len(chains)
    found = []
    loose = [k for k in range(2 * len(chains)) if k not in partners]
    for first in [*loose, *range(0, 2 * len(chains), 2)]:
        if done[first // 2]:
            continue
        points: list[Point] = []
        end: int | None = first
        while end is not None and not done[end // 2]:
            done[end // 2] = True
            own = chains[end // 2].points
            own = own if end % 2 == 0 else own[::-1]
            # Where two ends join they become one point: of two lines that overrun each other, a little crossing would be left.
            if points:
                own = (_middle(points.pop(), own[0]), *own[1:])
            points += own
            end = partners.get(end ^ 1)
        if end is not None:
            points[0] = _middle(points.pop(), points[0])
        found.append(Chain(tuple(points), closed=end is not None))
    return found


def _middle(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def _gap(opened: list[Chain], corner: Point) -> str:
    """What to say of lines that stay open: the narrowest gap between any two of their ends."""
    ends = _ends(opened)
    if len(opened) == 1 or len(opened) > MOST_LOOSE // 20:
        here, there = ends[0], ends[1]
    else:
        pairs = [(math.dist(p, q), i, j) for i, p in enumerate(ends) for j, q in enumerate(ends) if i < j]
        _, i, j = min(pairs)
        here, there = ends[i], ends[j]
    near = say(words.RIGHT_AND_UP, right=f"{here[0] - corner[0]:.1f}", up=f"{here[1] - corner[1]:.1f}")
    apart, far = both(round(math.dist(here, there), 1)), place(there, corner)
    return count(len(opened), words.ONE_LINE_OPEN, words.LINES_OPEN, distance=apart, here=near, there=far)


_PLACES = {"drawing": words.IN_DRAWING, "skin": words.IN_SKIN, "outline": words.IN_OUTLINE}


def place(point: Point, corner: Point, whose: str = "drawing") -> str:
    """Where a point is, as measured with a rule.

    Parameters
    ----------
    point, corner : Point
        The point, and the lower left corner that it is measured from [mm].
    whose : str
        What the corner is that of: ``drawing``, ``skin`` or ``outline``.

    Returns
    -------
    str
        Such as ``12.0 mm right and 30.5 mm up from the lower left corner of the drawing``.
    """
    return say(_PLACES[whose], right=f"{point[0] - corner[0]:.1f}", up=f"{point[1] - corner[1]:.1f}")

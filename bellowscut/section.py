"""The section: the convex polygon seen along the bellows.

Looking into the bellows from outside the first (right-hand) end, corners run
counter-clockwise. Side A runs from corner 1 to corner 2 and corner AB is where
A meets B. Lengths in millimetres, angles in degrees.

Functions build the frame polygon from what a person can measure; `section`
turns one or two frame polygons into a `Section` with its ridge polygon.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bellowscut.errors import Refusal
from bellowscut.shapes import Point, bounds, centroid, inset, perimeter, signed_area, turn_at
from bellowscut.sources import (
    COLLINEAR_TURN,
    FLATS_ALIKE,
    MISFIT_REFUSED,
    MISFIT_REFUSED_SHARE,
    PACKING_SHOWN,
    SIDES_MOST,
)
from bellowscut.words import say, section as words


@dataclass(frozen=True)
class Packing:
    """How much to pack one side of one frame so that both ends suit one bellows.

    Parameters
    ----------
    end : str
        ``right`` (the first end) or ``left`` (the second).
    side : str
        Letter of the side.
    mm : float
        Thickness of the packing [mm].
    """

    end: str
    side: str
    mm: float


@dataclass(frozen=True)
class Frame:
    """One end as measured: its polygon and how well the measures agreed.

    Parameters
    ----------
    points : tuple of Point
        Corners, counter-clockwise, corner 1 first [mm].
    misfit : float
        Largest change of a side that was needed to close the polygon [mm].
    """

    points: tuple[Point, ...]
    misfit: float = 0.0


@dataclass(frozen=True)
class Section:
    """Frame and ridge polygon of a bellows, made to the middle of its two ends.

    Parameters
    ----------
    frame : tuple of Point
        Bare frame, counter-clockwise, corner 1 first [mm].
    ridge : tuple of Point
        Outer fold lines, in the same order [mm].
    misfit : float
        Largest change of a measured side [mm].
    packing : tuple of Packing
        What to pack where when the ends differ.
    """

    frame: tuple[Point, ...]
    ridge: tuple[Point, ...]
    misfit: float = 0.0
    packing: tuple[Packing, ...] = ()

    @property
    def count(self) -> int:
        """Number of sides [-]."""
        return len(self.frame)

    @property
    def sides(self) -> tuple[float, ...]:
        """Length of each ridge line, side A first [mm]."""
        return side_lengths_of(self.ridge)

    @property
    def frame_sides(self) -> tuple[float, ...]:
        """Length of each side of the frame, side A first [mm]."""
        return side_lengths_of(self.frame)

    @property
    def turns(self) -> tuple[float, ...]:
        """Turn at each corner, corner 1 first [deg]."""
        return turns_of(self.ridge)

    @property
    def flats(self) -> tuple[float, ...] | None:
        """Distances between opposite parallel sides of the frame, A first [mm]; None where there are none."""
        return flats_of(self.frame)

    @property
    def ridge_flats(self) -> tuple[float, ...] | None:
        """Distances between opposite parallel ridge lines, A first [mm]; None where there are none."""
        return flats_of(self.ridge)

    @property
    def ridge_perimeter(self) -> float:
        """Length round the ridge polygon [mm]."""
        return perimeter(self.ridge)

    @property
    def frame_perimeter(self) -> float:
        """Length round the frame polygon [mm]."""
        return perimeter(self.frame)

    @property
    def ridge_area(self) -> float:
        """Area of the ridge polygon [mm^2]."""
        return signed_area(self.ridge)

    @property
    def side_names(self) -> tuple[str, ...]:
        """Letters of the sides, A first."""
        return tuple(side_name(i) for i in range(self.count))

    @property
    def corner_names(self) -> tuple[str, ...]:
        """Names of the corners, corner 1 (last side to A) first."""
        return tuple(corner_name(i, self.count) for i in range(self.count))


def side_name(index: int) -> str:
    """Letter of a side: A to Z, then AA, AB and so on."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def corner_name(index: int, count: int) -> str:
    """Name of the corner before side `index` of `count` [-]: AB, or Z-AA past the alphabet."""
    before, after = side_name((index - 1) % count), side_name(index)
    return before + after if len(before) == len(after) == 1 else f"{before}-{after}"


def side_lengths_of(points: Sequence[Point]) -> tuple[float, ...]:
    """Length of each side of a polygon, from point i to point i + 1 [mm]."""
    return tuple(math.dist(p, points[(i + 1) % len(points)]) for i, p in enumerate(points))


def turns_of(points: Sequence[Point]) -> tuple[float, ...]:
    """Turn at each point of a counter-clockwise polygon [deg]."""
    count = len(points)
    return tuple(math.degrees(turn_at(points[i - 1], points[i], points[(i + 1) % count])) for i in range(count))


def flats_of(points: Sequence[Point]) -> tuple[float, ...] | None:
    """Distances between opposite parallel sides [mm], or None when sides are odd or not parallel."""
    count = len(points)
    if count % 2:
        return None
    half = count // 2
    found = []
    for i in range(half):
        a, b = points[i], points[i + 1]
        c, d = points[i + half], points[(i + half + 1) % count]
        length = math.dist(a, b)
        far = [((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / length for p in (c, d)]
        if abs(far[0] - far[1]) > 1e-6 * max(length, far[0]):
            return None
        found.append((far[0] + far[1]) / 2)
    return tuple(found)


def regular(sides: int, end_size: float, measure: str) -> Frame:
    """A regular frame, side A level at the bottom.

    Parameters
    ----------
    sides : int
        Number of sides, 3 to 64 [-].
    end_size : float
        Size of the end [mm].
    measure : str
        ``across-flats`` or ``across-corners`` (even counts only) or ``side``.

    Returns
    -------
    Frame
        Centred on the origin.

    Raises
    ------
    Refusal
        Fewer than 3 or more than 64 sides, or flats or corners of an odd count.

    References
    ----------
    The regular-polygon table of engineers' handbooks (source key ``polygon-table``).

    Examples
    --------
    >>> round(side_lengths_of(regular(6, 100, "across-flats").points)[0], 2)
    57.74
    """
    if not 3 <= sides <= SIDES_MOST.value:
        raise Refusal("sides", sides, say(words.COUNT_OF_SIDES, most=f"{SIDES_MOST.value:g}"))
    if sides % 2 and measure != "side":
        raise Refusal("measure", sides, say(words.ODD_SIDES))
    half_turn = math.pi / sides
    side = {
        "across-flats": end_size * math.tan(half_turn),
        "across-corners": end_size * math.sin(half_turn),
        "side": end_size,
    }[measure]
    return Frame(_equiangular((side,) * sides))


def rectangular(width: float, height: float) -> Frame:
    """A frame with four square corners; `width` lies along side A [mm]."""
    x, y = width / 2, height / 2
    return Frame(((-x, -y), (x, -y), (x, y), (-x, y)))


def by_flats(flats: Sequence[float]) -> Frame:
    """A frame with every turn alike, from the distances across its flats.

    Parameters
    ----------
    flats : sequence of float
        Distance from side i to the side opposite, A first [mm]; their number
        is half the number of sides. Each pair is centred on one point.

    Returns
    -------
    Frame
        Centred on that point.

    Raises
    ------
    Refusal
        Fewer than two flats, or a flat so large that its side vanishes.
    """
    half = len(flats)
    if half < 2:
        raise Refusal("flats", half, say(words.EVERY_FLAT))
    turn = math.pi / half
    lengths = [((flats[i - 1] + flats[(i + 1) % half]) / 2 - flats[i] * math.cos(turn)) / math.sin(turn) for i in range(half)]
    for i, length in enumerate(lengths):
        if length <= 0:
            most = (flats[i - 1] + flats[(i + 1) % half]) / 2 / math.cos(turn)
            raise Refusal(
                "flats",
                flats[i],
                say(words.FLAT_TOO_LARGE, side=side_name(i), most=f"{most:.2f}"),
            )
    points = []
    for i in range(2 * half):
        # Corner i lies on the lines of sides i - 1 and i, each half a flat from the centre.
        before, after = flats[(i - 1) % half] / 2, flats[i % half] / 2
        normal = i * turn - math.pi / 2
        along = (after * math.cos(turn) - before) / math.sin(turn)
        points.append((after * math.cos(normal) - along * math.sin(normal), after * math.sin(normal) + along * math.cos(normal)))
    return Frame(tuple(points))


def flat_error_on_side(sides: int, error: float) -> float:
    """How far errors of `error` [mm] in the flats can move a side [mm]."""
    return error / math.tan(math.pi / sides)


def flats_alike(flats: Sequence[float]) -> bool:
    """Whether flats agree so well that one mean size serves better."""
    return max(flats) - min(flats) <= FLATS_ALIKE.value


def by_side_lengths(lengths: Sequence[float]) -> Frame:
    """A frame with every turn alike, from its side lengths.

    Measured sides never close exactly; they are changed by least squares with
    the turns kept. The largest change is the misfit.

    Parameters
    ----------
    lengths : sequence of float
        Side lengths, A first, counter-clockwise [mm].

    Returns
    -------
    Frame
        Centred on its centre of area.

    Raises
    ------
    Refusal
        Under 3 sides, a misfit over 2 mm or 2 per cent of the mean side, or a side lost.
    """
    count = len(lengths)
    if count < 3:
        raise Refusal("side_lengths", count, say(words.FEWEST_SIDES))
    directions = [(math.cos(2 * math.pi * i / count), math.sin(2 * math.pi * i / count)) for i in range(count)]
    rx = sum(s * e[0] for s, e in zip(lengths, directions, strict=True))
    ry = sum(s * e[1] for s, e in zip(lengths, directions, strict=True))
    changes = [2 / count * (e[0] * rx + e[1] * ry) for e in directions]
    misfit = max(abs(change) for change in changes)
    # Opposite sides of an even section change alike: the rule cannot tell which of the two slipped.
    worst = [i for i in range(count) if abs(changes[i]) > misfit - 1e-9]
    limit = min(MISFIT_REFUSED.value, MISFIT_REFUSED_SHARE.value * sum(lengths) / count)
    if misfit > limit:
        sides = say(words.OR).join(side_name(i) for i in worst)
        raise Refusal(
            "side_lengths",
            lengths[worst[0]],
            say(words.SIDES_DO_NOT_CLOSE, sides=sides, misfit=f"{misfit:.2f}", limit=f"{limit:.2f}"),
        )
    closed = [s - change for s, change in zip(lengths, changes, strict=True)]
    for i, side in enumerate(closed):
        if side <= 0:
            raise Refusal(
                "side_lengths",
                lengths[i],
                say(words.SIDE_TOO_SHORT, side=side_name(i)),
            )
    return Frame(_equiangular(closed), misfit)


def by_corners(points: Sequence[Point]) -> Frame:
    """A frame from the positions of its corners, walked in either direction.

    Side A stays between the first two points given.

    Raises
    ------
    Refusal
        Under 3 points, repeated or collinear points, or a polygon that is not convex.
    """
    count = len(points)
    if count < 3:
        raise Refusal("corners", count, say(words.FEWEST_CORNERS))
    if count > SIDES_MOST.value:
        raise Refusal("corners", count, say(words.COUNT_OF_SIDES, most=f"{SIDES_MOST.value:g}"))
    ordered = tuple(points)
    if signed_area(ordered) < 0:
        ordered = (ordered[1], ordered[0], *reversed(ordered[2:]))
    for i, here in enumerate(ordered):
        if math.dist(here, ordered[(i + 1) % count]) < 1e-6:
            raise Refusal("corners", i + 1, say(words.CORNER_TWICE, x=f"{here[0]:g}", y=f"{here[1]:g}"))
    total = 0.0
    for i, here in enumerate(ordered):
        turn = math.degrees(turn_at(ordered[i - 1], here, ordered[(i + 1) % count]))
        total += turn
        if abs(turn) < COLLINEAR_TURN.value:
            raise Refusal("corners", i + 1, say(words.CORNER_STRAIGHT, x=f"{here[0]:g}", y=f"{here[1]:g}"))
        if turn < 0:
            raise Refusal("corners", i + 1, say(words.NOT_CONVEX, x=f"{here[0]:g}", y=f"{here[1]:g}"))
    if abs(total - 360) > 1e-6:
        raise Refusal("corners", count, say(words.CROSSES_ITSELF))
    return Frame(ordered)


def uncovered(frame: Frame, cover: float) -> Frame:
    """The bare frame under a covering of `cover` [mm] a side.

    Raises
    ------
    Refusal
        When the covering is thicker than the frame is large.
    """
    return Frame(_inset_or_refuse(frame.points, cover, "end_size", words.COVERING_TOO_THICK), frame.misfit)


def section(first: Frame, second: Frame | None, setback: float) -> Section:
    """Frame and ridge polygon, made to the middle when two ends differ.

    Parameters
    ----------
    first, second : Frame
        The right-hand end, and the left one when it was measured too.
    setback : float
        How far each ridge line lies inside the frame [mm].

    Returns
    -------
    Section
        With the packing of each frame where the ends differ.

    Raises
    ------
    Refusal
        When the set-back loses a side.
    """
    points, misfit = first.points, first.misfit
    packing: tuple[Packing, ...] = ()
    if second is not None:
        centred = [_centred(end.points) for end in (first, second)]
        points = tuple(((p[0] + q[0]) / 2, (p[1] + q[1]) / 2) for p, q in zip(*centred, strict=True))
        packing = _packing(points, centred)
        misfit = max(misfit, second.misfit)
    ridge = _inset_or_refuse(points, setback, "ridge_setback", words.SETBACK_TOO_LARGE)
    return Section(points, ridge, misfit, packing)


def _packing(middle: tuple[Point, ...], ends: Sequence[tuple[Point, ...]]) -> tuple[Packing, ...]:
    found = []
    count = len(middle)
    for end, points in zip(("right", "left"), ends, strict=True):
        for i in range(count):
            a, b = middle[i], middle[(i + 1) % count]
            c, d = points[i], points[(i + 1) % count]
            centre = ((c[0] + d[0]) / 2, (c[1] + d[1]) / 2)
            short = ((b[0] - a[0]) * (centre[1] - a[1]) - (b[1] - a[1]) * (centre[0] - a[0])) / math.dist(a, b)
            if short >= PACKING_SHOWN.value:
                found.append(Packing(end, side_name(i), short))
    return tuple(found)


def _inset_or_refuse(points: tuple[Point, ...], distance: float, quantity: str, why: str) -> tuple[Point, ...]:
    if not distance:
        return points
    moved = inset(points, (distance,) * len(points))
    if not moved:
        least, most = 0.0, distance
        for _ in range(50):
            middle = (least + most) / 2
            least, most = (middle, most) if inset(points, (middle,) * len(points)) else (least, middle)
        raise Refusal(quantity, distance, say(why, most=f"{least:.2f}"))
    return moved


def _centred(points: Sequence[Point]) -> tuple[Point, ...]:
    x, y = centroid(points)
    return tuple((p[0] - x, p[1] - y) for p in points)


def _equiangular(lengths: Sequence[float]) -> tuple[Point, ...]:
    points = [(0.0, 0.0)]
    for i, length in enumerate(lengths[:-1]):
        angle = 2 * math.pi * i / len(lengths)
        points.append((points[-1][0] + length * math.cos(angle), points[-1][1] + length * math.sin(angle)))
    return _centred(points)


def extent(points: Sequence[Point]) -> tuple[float, float]:
    """Width and height of the box round some points [mm]."""
    left, low, right, high = bounds(points)
    return right - left, high - low

"""Lettering of a picture of stock: on the pieces, and in the places between them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from bellowscut.drawing import Label
from bellowscut.layout.clearance import simplified
from bellowscut.layout.openings import Place, opening
from bellowscut.lettering import CAPITAL, DESCENT, LEADING, text_width
from bellowscut.pages.arrows import readable
from bellowscut.pages.stock_rows import Row
from bellowscut.shapes import Point, bounds, signed_area
from bellowscut.stock.model import Laid, Polygon
from bellowscut.words import say, stock_pages as texts

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

SIZES = ((3.3, True), (2.9, True), (2.5, True), (2.5, False))
"""Sizes of letters on the pieces [mm] and whether they are bold, the first that fits; capitals of the least are 1.8 mm high."""

CLEAR, LEAST_CLEAR = 0.45, 0.27
"""Least distance of a piece's lettering from its edge, and that of the smallest letters [mm]."""

AROUND = 0.7
"""Least distance of lettering between the pieces from anything else [mm]."""

STEP = 1.5
"""Distance of the places that are tried [mm]."""

ROUGH = 0.03
"""How far the outline that lettering keeps clear of may be off [mm] of paper."""


@dataclass(frozen=True)
class Shown:
    """A piece as it lies on the paper: the whole of it, or what of it a band shows.

    Parameters
    ----------
    laid : Laid
        The piece.
    points : Polygon
        Its outline on the paper [mm].
    lettered : bool
        Whether its name stands here: on one of the bands that show it.
    """

    laid: Laid
    points: Polygon
    lettered: bool = True


def piece_labels(row: Row, shown: Sequence[Shown], *, instruments: bool) -> tuple[list[Label], list[Laid]]:
    """Names on the pieces of one row, all in the longest form and the largest letters that fit on each.

    Parameters
    ----------
    row : Row
        The sort of piece.
    shown : sequence of Shown
        Where its pieces lie on the paper.
    instruments : bool
        Whether there are several instruments, so that a name says whose it is.

    Returns
    -------
    list of Label
        One a piece.
    list of Laid
        Pieces that are too small on this paper for a name.
    """
    named = [one for one in shown if one.lettered]
    for form in _forms(row, instruments=instruments):
        for size in SIZES:
            found = _set(row, named, form, size)
            if found is not None:
                return found, []
    # Not all have room: each gets what it can hold.
    labels: list[Label] = []
    bare: list[Laid] = []
    for one in named:
        each = next(
            (found for form in _forms(row, instruments=False)[1:] for size in SIZES if (found := _set(row, [one], form, size))), None
        )
        if each is None:
            bare.append(one.laid)
            each = _set(row, [one], "letter", SIZES[-1]) if row.letter else None
        labels += each or []
    return labels, bare


def too_small(row: Row, scale: float, *, instruments: bool) -> bool:
    """Whether a piece has no room for its number at a scale [-]: of each way of lying the last, whose number is the longest, is tried."""
    each = {round(laid.turn, 4): laid for laid in row.laid}
    shown = [Shown(laid, tuple((x / scale, y / scale) for x, y in laid.points())) for laid in each.values()]
    return bool(piece_labels(row, shown, instruments=instruments)[1])


def _forms(row: Row, *, instruments: bool) -> tuple[str, ...]:
    """What may be written, the longest first; the number alone only where the fill tells the sort."""
    forms = ("whose", "name", "code") if instruments and row.laid[0].instrument else ("name", "code")
    return (*forms, "number") if row.alone and row.letter else forms


def _text(row: Row, laid: Laid, form: str) -> str:
    head = row.name.partition(",")[0]
    return {
        "whose": say(texts.SORT_AND_INSTRUMENT, code=row.code(laid), part=head, number=laid.instrument),
        "name": say(texts.SORT, code=row.code(laid), part=head),
        "code": row.code(laid),
        "number": str(laid.number),
        "letter": row.letter,
    }[form]


def _set(row: Row, shown: Sequence[Shown], form: str, letters: tuple[float, bool]) -> list[Label] | None:
    """A label on each piece in one form and size; None where one of them has no room."""
    size, bold = letters
    # Codes and numbers have no tails; words have.
    under = DESCENT if form in ("whose", "name") else 0.0
    # Alike pieces that lie alike are asked once: the longest number among them decides.
    width = max((text_width(_text(row, one.laid, form), size, bold=bold) for one in shown), default=0.0)
    known: dict[tuple[object, ...], tuple[Place, Point] | None] = {}
    labels = []
    for one in shown:
        corner = one.points[0]
        left, low, right, high = bounds(one.points)
        key = (
            round(one.laid.turn, 4),
            len(one.points),
            *(round(u, 3) for u in (right - left, high - low, corner[0] - left, corner[1] - low)),
        )
        if key not in known:
            place = _room(one, width, size * (CAPITAL + under), LEAST_CLEAR if letters == SIZES[-1] else CLEAR)
            known[key] = None if place is None else (place, corner)
        held = known[key]
        if held is None:
            return None
        place, start = held
        centre = (place.centre[0] + corner[0] - start[0], place.centre[1] + corner[1] - start[1])
        base = Place(centre, place.angle).point(0.0, -size * (CAPITAL - under) / 2)
        labels.append(Label(_text(row, one.laid, form), base, size, place.angle, "middle", bold=bold))
    return labels


def _room(one: Shown, width: float, height: float, clear: float) -> Place | None:
    points, area = _plain(one.points)
    if (width + 2 * clear) * (height + 2 * clear) > area:
        return None
    turn = one.laid.turn
    for angle in dict.fromkeys(readable(each) for each in (0.0, 90.0, turn, turn + 90.0)):
        place = opening(points, (), width, height, clear, angle)
        if place is not None:
            return place
    return None


@lru_cache(maxsize=8192)
def _plain(points: Polygon) -> tuple[Polygon, float]:
    """The outline that lettering keeps clear of, and its area [mm^2]: the same for every size of letters."""
    plain = tuple(simplified(points, ROUGH))
    return plain, abs(signed_area(plain))


# between the pieces -----------------------------------------------------


class Ground:
    """What is taken on the paper, and where words still find room.

    Parameters
    ----------
    taken : sequence of geometry
        Pieces, flaws and lines that no word may touch [mm].
    """

    def __init__(self, taken: Sequence[BaseGeometry]) -> None:
        self._taken = list(taken)

    def take(self, more: BaseGeometry) -> None:
        """Mark a further place as taken."""
        self._taken.append(more)

    def words(self, within: BaseGeometry, lines: Sequence[str], size: float, near: Point, angles: Sequence[float]) -> list[Label] | None:
        """A block of words as near to a point as there is room; None without any.

        Parameters
        ----------
        within : geometry
            Where it must lie [mm].
        lines : sequence of str
            One line of text each.
        size : float
            Of the letters [mm].
        near : Point
            Where it would lie best [mm].
        angles : sequence of float
            Directions that may be tried, the best first [deg].
        """
        from shapely import STRtree
        from shapely.prepared import prep

        width = max(text_width(line, size) for line in lines)
        height = size * (CAPITAL + DESCENT + LEADING * (len(lines) - 1))
        tree = STRtree(self._taken)
        inside = prep(within)
        for centre in _around(within.bounds, near):
            for angle in angles:
                box = _box(Place(centre, angle), width + 2 * AROUND, height + 2 * AROUND)
                if inside.contains(box) and not len(tree.query(box, predicate="intersects")):
                    self.take(box)
                    place = Place(centre, angle)
                    top = height / 2 - size * CAPITAL
                    return [Label(line, place.point(0.0, top - size * LEADING * k), size, angle, "middle") for k, line in enumerate(lines)]
        return None


def _around(within: tuple[float, float, float, float], near: Point) -> Iterator[Point]:
    """Places in a box, the nearest to a point first."""
    left, low, right, high = within
    across = [near[0] + STEP * k for k in range(-int((near[0] - left) / STEP) - 1, int((right - near[0]) / STEP) + 2)]
    up = [near[1] + STEP * k for k in range(-int((near[1] - low) / STEP) - 1, int((high - near[1]) / STEP) + 2)]
    places = [(x, y) for x in across for y in up if left <= x <= right and low <= y <= high]
    yield from sorted(places, key=lambda at: (round((at[0] - near[0]) ** 2 + (at[1] - near[1]) ** 2, 6), at))


def _box(place: Place, width: float, height: float) -> BaseGeometry:
    from shapely.geometry import Polygon as Shape

    x, y = width / 2, height / 2
    return Shape([place.point(-x, -y), place.point(x, -y), place.point(x, y), place.point(-x, y)])


def zones(bars: Mapping[str, tuple[Polygon, ...]]) -> tuple[tuple[Polygon, tuple[str, ...]], ...]:
    """Barred zones, each once with all kinds that it is barred to."""
    found: dict[Polygon, list[str]] = {}
    for kind, polygons in bars.items():
        for points in polygons:
            found.setdefault(points, []).append(kind)
    return tuple((points, tuple(kinds)) for points, kinds in found.items())

"""Pressing cauls: plates that are slid between the closed folds while the glue dries.

In the closed bellows two cards that share a valley lie face to face, with the
two halves of a gusset between them at each corner. The plate for half a
gusset goes in there from outside, wide end first, and bears on its laps; the
plate for a valley lies beside it and presses what lies along the fold. Both
stop short of the fold itself, whose leather needs room, and have a tab that
stands out of the bellows.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from bellowscut.bellows import Bellows
from bellowscut.drawing import Drawn, Label
from bellowscut.layout.apart import Cell, lay
from bellowscut.layout.openings import opening
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.parts.gusset import KINDS as GUSSETS, edge_of
from bellowscut.parts.part import Part, listed, placed
from bellowscut.shapes import Outline, Point, polygon, same_shape
from bellowscut.words import cutting as words, say

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

CAUL = 1.0
"""Thickness of a plate [mm], invented."""

EASE = 1.0
"""How far a plate stays inside the piece that it presses, and inside its neighbour [mm], invented."""

ROUND = 1.0
"""Radius of a plate's corners [mm], invented: a sharp one would mark the leather."""

TAB = 14.0
"""Width of the tab, and how far it stands out of the closed bellows [mm], invented."""

FINGER = 3.0
"""Radius of the hole in the tab [mm], invented."""

VALLEY_MORE = 2.0
"""How much wider a valley's plate is than the lap of the hinge [mm], invented."""

IN_VALLEYS = ("hinge", "valley-strip")
"""Kinds of parts that lie along a valley."""

LETTERS = (3.0, 2.5, 2.0, 1.6)

CLEAR = 1.0
"""Least distance of letters from edges [mm]."""


def pressing_cauls(bellows: Bellows, parts: Sequence[Part]) -> tuple[float, float, tuple[Drawn, ...]]:
    """Plates to press gussets and valleys with when the bellows is closed.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    parts : sequence of Part
        Those of the job.

    Returns
    -------
    float, float
        Width and height of the whole [mm].
    tuple of Drawn
        Heading, plates, measuring bars; empty where nothing of the job is pressed so.
    """
    cells = [*_gusset_cauls(bellows, parts)]
    if any(part.kind in IN_VALLEYS for part in parts):
        cells += _valley_cauls(bellows)
    if not cells:
        return 0.0, 0.0, ()
    heading = say(words.CAULS_HEADING, name=bellows.profile.name, caul=f"{CAUL:g}", fingerprint=bellows.profile.fingerprint)
    return lay(cells, (heading, say(words.CAULS_USE)))


def _gusset_cauls(bellows: Bellows, parts: Sequence[Part]) -> list[Cell]:
    """A plate for each distinct half of a gusset; end gussets differ only beyond the ridge line."""
    groups: list[tuple[tuple[Point, ...], list[Part]]] = []
    for part in parts:
        if part.kind not in GUSSETS:
            continue
        points = _half(bellows, part)
        if not points:
            continue
        for shape, alike in groups:
            if same_shape(shape, points):
                alike.append(part)
                break
        else:
            groups.append((points, [part]))
    cells = []
    for number, (points, alike) in enumerate(groups, 1):
        name = "caul-gusset" if len(groups) == 1 else f"caul-gusset-{number}"
        count = sum(part.count for part in alike) // bellows.profile.copies
        corners = tuple(dict.fromkeys(corner for part in alike for corner in part.corners))
        alone = len(groups) == 1
        title = say(words.GUSSET_CAUL) if alone else placed(say(words.GUSSET_CAUL), "corners", corners)
        kinds = listed(tuple(dict.fromkeys(part.name.partition(",")[0].lower() for part in alike)))
        caption = (title, say(words.GUSSET_CAUL_CUT, count=count, kinds=kinds))
        short = say(words.GUSSET_CAUL_SHORT) if alone else say(words.GUSSET_CAUL_SHORT_AT, corners="/".join(corners[:2]))
        cells.append(_cell(name, points, _tab_hole(points), (short, say(words.CAUL_COUNT, count=count)), caption))
    return cells


def _half(bellows: Bellows, part: Part) -> tuple[Point, ...]:
    """The plate for one side of the valley, valley on y = 0; empty where nothing is left."""
    import shapely

    corner = bellows.corners[bellows.section.corner_names.index(part.corners[0])]
    ridge = edge_of(bellows, corner)[2]
    back = bellows.layers.gusset + CAUL
    whole = shapely.Polygon(part.points).buffer(-EASE, join_style="mitre")
    return _with_tab(whole.intersection(shapely.box(-1e4, back, 1e4, ridge)), ridge)


def _with_tab(plate: BaseGeometry, ridge: float) -> tuple[Point, ...]:
    """The plate with a tab that stands out beyond the ridge line, corners rounded."""
    import shapely

    left, low, right, high = plate.bounds if not plate.is_empty else (0.0, 0.0, 0.0, 0.0)
    if right - left < TAB / 2 or high - low < 2 * ROUND:
        return ()
    middle = (left + right) / 2
    # The tab overlaps the plate by as much as the rounding of the plate's corners would otherwise part them.
    whole = plate.union(shapely.box(middle - TAB / 2, min(high, ridge) - 2 * ROUND, middle + TAB / 2, ridge + TAB))
    smooth = whole.buffer(-ROUND).buffer(2 * ROUND).buffer(-ROUND)
    if not isinstance(smooth, shapely.Polygon):
        return ()
    return polygon(tuple((float(x), float(y)) for x, y in shapely.simplify(smooth.exterior, 0.002).coords[:-1])).points


def _tab_hole(points: Sequence[Point]) -> Outline:
    top = max(y for _, y in points)
    middle = sum(x for x, _ in _ends(points)) / 2
    centre = (middle, top - TAB / 2)
    return Outline(((centre[0] + FINGER, centre[1]), (centre[0] - FINGER, centre[1])), (1.0, 1.0))


def _ends(points: Sequence[Point]) -> tuple[Point, Point]:
    return min(points), max(points)


def _valley_cauls(bellows: Bellows) -> list[Cell]:
    """A strip with a tab for each distinct length of valley."""
    import shapely

    hinge = bellows.profile.hinge
    back = max(bellows.layers.gusset, bellows.layers.valley_strip, bellows.layers.valley_hinge) + CAUL
    lengths: dict[float, list[str]] = {}
    for i, side in enumerate(bellows.section.side_names):
        # The plates of the two corners' gussets lie beside it.
        length = bellows.card_width(i, bellows.depth) - 2 * (bellows.profile.gusset.lap + EASE)
        lengths.setdefault(round(length, 2), []).append(side)
    cells = []
    for length, sides in lengths.items():
        wide = min(hinge.lap + VALLEY_MORE, bellows.depth - back)
        plate = shapely.box(0, back, length, back + wide)
        shaft = shapely.box(length / 2 - TAB / 2, back, length / 2 + TAB / 2, bellows.depth)
        points = _with_tab(plate.union(shaft), bellows.depth) if length > TAB else ()
        if not points:
            continue
        alone = len(lengths) == 1
        name = "caul-valley" if alone else f"caul-valley-{sides[0]}"
        count = bellows.valleys * len(sides)
        title = say(words.VALLEY_CAUL) if alone else placed(say(words.VALLEY_CAUL), "sides", sides)
        caption = (title, say(words.VALLEY_CAUL_CUT, count=count))
        if alone:
            short = say(words.VALLEY_CAUL_SHORT, count=count)
        else:
            short = say(words.VALLEY_CAUL_SHORT_AT, sides="/".join(sides[:2]), count=count)
        cells.append(_cell(name, points, _tab_hole(points), (short,), caption))
    return cells


def _cell(name: str, points: Sequence[Point], hole: Outline, texts: Sequence[str], caption: tuple[str, ...]) -> Cell:
    """One plate with its name on it where there is room."""
    outline = polygon(points)
    labels = _lettered(outline.points, hole, texts)
    return Cell(Drawn(name, (outline, hole), (), labels), caption)


def _lettered(points: Sequence[Point], hole: Outline, texts: Sequence[str]) -> tuple[Label, ...]:
    ring = hole.flattened(0.05)
    taken = list(zip(ring, (*ring[1:], ring[0]), strict=True))
    for size in LETTERS:
        block = size * (1.35 * (len(texts) - 1) + CAPITAL)
        for angle in (0.0, 90.0):
            place = opening(points, taken, max(text_width(text, size) for text in texts), block, CLEAR, angle)
            if place is not None:
                top = block / 2 - size * CAPITAL
                return tuple(
                    Label(text, place.point(0, top - 1.35 * size * k), size, angle=angle, anchor="middle") for k, text in enumerate(texts)
                )
    return ()

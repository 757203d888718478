"""One part with its dimensions: true outline at a stated scale, name, count, material and thickness."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bellowscut.bellows import Bellows
from bellowscut.drawing import Item, Label, Line, Pen, Role, Stroke
from bellowscut.lettering import wrapped
from bellowscut.pages.dimensions import Board
from bellowscut.pages.figure import Figure
from bellowscut.pages.part_board import Drawing
from bellowscut.pages.part_sizes import dimensioned, notes
from bellowscut.pages.views import amount, face, places
from bellowscut.parts.part import Part
from bellowscut.shapes import Point, bounds
from bellowscut.units import plain_number
from bellowscut.words import pictures as words, say

SCALES = ((2.0, "2 : 1"), (1.0, "1 : 1"), (0.5, "1 : 2"), (0.2, "1 : 5"), (0.1, "1 : 10"), (0.05, "1 : 20"), (0.02, "1 : 50"))
"""Scales in the preferred series [-], with the way they are written."""

NAME, TEXT = 3.4, 2.6
"""Letters of a part's name and of what is said of it [mm]."""

LEADING = 1.32

ROUND = 0.005
"""Greatest distance of an arc from its chords in a drawing [mm]."""

COLUMN = 54.0
"""Least width to which a caption is broken [mm]."""

LONGEST, TALLEST = 150.0, 92.0
"""A part is drawn no wider and no higher than this, at the largest scale that allows it [mm]."""

RUN_TALL = 145.0
"""The same for a scored run, which is long and has much on it [mm]."""

PLAIN_LARGEST = 1.0
"""Largest scale of a part that is no strip [-]."""

STRIP_TALL = 54.0
"""Most height at which a strip is drawn [mm]."""

LONGEST_STRIP = 90.0
"""Strips drawn longer than this are broken [mm]."""

END = 25.0
"""How much of each end of a broken strip is drawn, more where the joint is longer [mm]."""

BREAK = 4.0
"""Between the two pieces of a broken strip [mm]."""

ZIGZAG = 1.2
"""Half the width of the zigzag in a break line [mm]."""


@dataclass(frozen=True)
class Family:
    """A part, or strips of one cross-section that differ in length alone.

    Parameters
    ----------
    parts : tuple of Part
        One or more.
    """

    parts: tuple[Part, ...]


Known = dict[tuple[tuple[str, ...], str], Figure]
"""Figures of parts, by the ids of their parts and the scale as it is written."""


def families(parts: Sequence[Part]) -> tuple[Family, ...]:
    """Strips that differ in length alone put together, and facings with their mirror images; every other part by itself."""
    groups: dict[object, list[Part]] = {}
    for part in parts:
        groups.setdefault(_cross_section(part), []).append(part)
    return tuple(Family(tuple(group)) for group in groups.values())


def _cross_section(part: Part) -> object:
    if not part.strip or len(part.points) != 4 or part.note:
        return _either_hand(part) if part.kind == "facing" else part.id
    _, low, _, high = bounds(part.points)
    levels = tuple(sorted((line.role.value, round(line.points[0][1], 3)) for line in part.lines if line.points[0][1] == line.points[1][1]))
    return part.kind, part.name.partition(",")[0], round(low, 3), round(high, 3), levels


def _either_hand(part: Part) -> object:
    """The outline by its corners, the same for both hands."""
    ways = [tuple(sorted((round(x * way, 2), round(y, 2)) for x, y in part.points)) for way in (1, -1)]
    return min(ways)


def part_figure(bellows: Bellows, family: Family, width: float, height: float, known: Known | None = None) -> Figure:
    """A part, or a family of strips, with its dimensions and its caption.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    family : Family
        What is drawn: the first of its parts.
    width, height : float
        Room on the page [mm].
    known : dict or None
        Figures drawn before, by parts and scale: looked up, and added to.

    Returns
    -------
    Figure
        At the largest of `SCALES` at which it fits.
    """
    part = family.parts[0]
    known = {} if known is None else known
    found = None
    for scale, told in SCALES:
        drawing = _drawing(part, scale)
        wide, tall = drawing.size
        limit = min(LONGEST, width - 40.0), min(RUN_TALL if part.kind == "card-run" else TALLEST, height - 50.0)
        if wide > limit[0] or tall > (STRIP_TALL if part.strip else limit[1]) or (scale > PLAIN_LARGEST and not part.strip):
            continue
        key = (tuple(one.id for one in family.parts), told)
        if key not in known:
            known[key] = _figure(bellows, family, drawing, told)
        found = known[key]
        if found.size[0] <= width and found.size[1] <= height:
            return found
    assert found is not None
    return found


def _figure(bellows: Bellows, family: Family, drawing: Drawing, scale: str) -> Figure:
    items = _outline(drawing)
    left, low, right, high = drawing.box
    board = Board(centre=((left + right) / 2, (low + high) / 2))
    for line in drawing.lines:
        board.block(line.points, closed=line.closed)
    for stroke in drawing.breaks:
        board.block(stroke.points)
    untold = dimensioned(bellows, drawing, board)
    figure = Figure((*items, *board.items))
    return Figure((*figure.items, *_caption(bellows, family, drawing, scale, figure, untold)))


def _outline(drawing: Drawing) -> list[Item]:
    return [*drawing.lines, *drawing.breaks]


def _caption(bellows: Bellows, family: Family, drawing: Drawing, scale: str, figure: Figure, untold: Sequence[str]) -> list[Item]:
    """Name, count, material, thickness, scale and notes, under the drawing."""
    part = family.parts[0]
    left, low, right, _ = figure.box
    width = max(right - left, COLUMN)
    alone = len(family.parts) == 1
    name = part.name if alone else part.name.rpartition(", valley")[0] or part.name.partition(",")[0]
    thick = plain_number(bellows.material(part.material).thickness, 2)
    first = [amount(part if alone else _together(family.parts))]
    if alone and places(part) and "," not in part.name:
        first.append(places(part))
    seen = face(part).removeprefix(part.material).lstrip(", ")
    second = [say(words.THICKNESS, material=part.material, mm=thick), *([seen] if seen else [])]
    third = [say(words.PART_SCALE, scale=scale), *([say(words.BROKEN)] if drawing.broken else [])]
    rows: list[tuple[str, float, bool]] = [(line, NAME, True) for line in wrapped(name, NAME, width, bold=True)]
    told = [" \u00b7 ".join(row) for row in (first, second, third)]
    if not alone:
        hands = say(words.MIRRORED, count=part.count, mirrored=sum(other.count for other in family.parts[1:]))
        told.append(_lengths(family.parts) if part.strip else hands)
    told += [*([say(words.ALSO, sizes=", ".join(untold))] if untold else []), *notes(bellows, part)]
    rows += [(line, TEXT, False) for text in told for line in wrapped(text, TEXT, width)]
    items: list[Item] = []
    y = low - 3.0
    for k, (text, size, bold) in enumerate(rows):
        y -= size * (0.75 if k == 0 else LEADING)
        items.append(Label(text, (left, y), size, bold=bold))
    return items


def _together(parts: Sequence[Part]) -> Part:
    return replace(parts[0], count=sum(part.count for part in parts), spare=sum(part.spare for part in parts))


def _lengths(parts: Sequence[Part]) -> str:
    told = []
    for part in parts:
        left, _, right, _ = bounds(part.points)
        told.append(say(words.LENGTH_OF, places="/".join(part.sides or part.corners), mm=f"{right - left:.1f}"))
    return say(words.LENGTHS, list=", ".join(told))


# the part itself ------------------------------------------------------


def _drawing(part: Part, scale: float) -> Drawing:
    """The part at a scale, a long strip with its middle broken out."""
    left, _, right, _ = bounds(part.points)
    if part.strip and (right - left) * scale > LONGEST_STRIP:
        return _broken(part, scale)

    def placed(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple((x * scale, y * scale) for x, y in points)

    lines = [Line(line.role, placed(line.points), line.closed) for line in part.lines]
    lines += [Line(Role.CUT, placed(outline.flattened(ROUND / scale)), closed=True) for outline in (part.outline, *part.holes)]
    return Drawing(part, scale, tuple(lines), (), 0.0)


def _broken(part: Part, scale: float) -> Drawing:
    """Both ends of a strip, drawn nearer to each other."""
    left, low, right, high = bounds(part.points)
    ends = [line.points[0][0] - left for line in part.lines if line.role is Role.SKIVE and line.points[0][0] == line.points[-1][0]]
    reach = max(END / scale, min(ends, default=0.0) + 3.0 / scale)
    # The break never falls into a dart, and stays a little away from the first where there is room.
    whole = min(*(x - left for x, _ in part.points if x > left), *(right - x for x, _ in part.points if x < right))
    reach = min(reach, max(whole - 1.0 / scale, whole / 2))
    gap = BREAK / scale
    shift = right - left - 2 * reach - gap
    lines: list[Line] = []
    for line in part.lines:
        (ax, ay), (bx, by) = line.points[0], line.points[-1]
        if ay == by:
            lines += [
                Line(line.role, ((ax, ay), (min(bx, left + reach), by))),
                Line(line.role, ((max(ax, right - reach) - shift, ay), (bx - shift, by))),
            ]
        elif ax <= left + reach:
            lines.append(line)
        elif ax >= right - reach:
            lines.append(Line(line.role, ((ax - shift, ay), (bx - shift, by))))
    end = right - shift
    for start, stop in ((left, left + reach), (end, end - reach)):
        lines.append(Line(Role.CUT, ((stop, low), (start, low), (start, high), (stop, high))))

    def placed(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple((x * scale, y * scale) for x, y in points)

    breaks = tuple(_break(x * scale, low * scale, high * scale) for x in (left + reach, end - reach))
    return Drawing(part, scale, tuple(Line(line.role, placed(line.points), line.closed) for line in lines), breaks, shift)


def _break(x: float, low: float, high: float) -> Stroke:
    """A thin line with a zigzag, where a piece is left out [mm]."""
    middle, past = (low + high) / 2, 1.6
    zigzag = ((x, middle - 1.5), (x - ZIGZAG, middle - 0.6), (x + ZIGZAG, middle + 0.6), (x, middle + 1.5))
    return Stroke(((x, low - past), *zigzag, (x, high + past)), Pen.THIN)

"""The page to make first: one corner of this bellows in paper, true to size.

One valley is tried: on each of two sides two cards that hang together at the
valley, the gusset across them, and two plates that hold the ridge lines at the
angle of the section, as frames or neighbouring folds would.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import permutations

from bellowscut.bellows import Bellows
from bellowscut.drawing import Drawn, Item, Label, Line, Page, Stroke
from bellowscut.lettering import CAPITAL, wrapped
from bellowscut.pages.corner_space import sharpest
from bellowscut.pages.furniture import Furniture
from bellowscut.pages.papers import MARGIN
from bellowscut.pages.trial_pieces import SIZES, TrialPiece, stretched, trial_pieces
from bellowscut.parts.part import Part
from bellowscut.shapes import Point, bounds
from bellowscut.units import Rule
from bellowscut.words import say, trial_corner as phrases

TEXT = 3.0
"""Letters of the steps [mm]."""

APART = 4.0
"""Least distance between two pieces [mm]."""


STEP = 0.5
"""Heights at which two pieces are compared when one is pushed against the other [mm]."""


def steps(bellows: Bellows) -> tuple[str, ...]:
    """What to do with the pieces, in order."""
    index = sharpest(bellows)
    before, after = bellows.section.side_names[index - 1], bellows.section.side_names[index]
    tall = Rule().bare(stretched(bellows))
    pitch = Rule().bare(min(bellows.valley_pitch, stretched(bellows)))
    return (
        say(phrases.CUT_AND_FOLD),
        say(phrases.GLUE_THE_TABS, before=before, after=after),
        say(phrases.GLUE_THE_GUSSET, mm=pitch),
        say(phrases.PRESS_IT_SHUT),
        say(phrases.DRAW_IT_OPEN, mm=tall, open=Rule().bare(bellows.open_length)),
        say(phrases.STOP_IF_TIGHT, mm=tall),
    )


def trial_corner_pages(bellows: Bellows, parts: Sequence[Part], *, paper: tuple[float, float], margin: float = MARGIN) -> tuple[Page, ...]:
    """The page or pages with the trial corner.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    parts : sequence of Part
        What the set holds; where it has no gussets there is nothing to try.
    paper : tuple of float
        Width and height [mm], 148 x 210 or more.
    margin : float
        Edge of the paper that stays white [mm].

    Returns
    -------
    tuple of Page
        One where everything fits; empty for a set without gussets. Where a
        piece is larger than the paper, one page that says what paper is needed.
    """
    if not any(part.kind.endswith("gusset") for part in parts):
        return ()
    furniture = Furniture(paper, bellows.profile.name, bellows.profile.fingerprint, margin=margin)
    words, tall = _words(bellows, furniture.area)
    left, low, right, high = furniture.area
    best: list[list[Spot]] = []
    for size in SIZES:
        sheets = _sheets(trial_pieces(bellows, size), (right - left, high - low), tall)
        if sheets and (not best or len(sheets) < len(best)):
            best = sheets
        if len(best) == 1:
            break
    if not best:
        return (_too_large(trial_pieces(bellows, SIZES[-1]), furniture),)
    made = []
    for number, blocks in enumerate(best, 1):
        top = high - tall if number == 1 else high
        body = [_moved(item, left + x, top - y) for block, (x, y) in blocks for item in block.items()]
        around = _around(furniture, number, len(best))
        made.append(Page(*paper, _title(number, len(best)), (*around, *(words if number == 1 else ()), *body)))
    return tuple(made)


@dataclass(frozen=True)
class _Block:
    """Pieces that lie together, each with its shift; lower left corner of their box at the origin [mm]."""

    pieces: tuple[tuple[TrialPiece, float, float], ...]

    @cached_property
    def _box(self) -> tuple[float, float, float, float]:
        return bounds([(x + dx, y + dy) for piece, dx, dy in self.pieces for x, y in piece.ground])

    @property
    def size(self) -> tuple[float, float]:
        """Width and height [mm]."""
        left, low, right, high = self._box
        return right - left, high - low

    def items(self) -> list[Item]:
        """Everything drawn, with the upper left corner of the box at the origin."""
        left, _, _, high = self._box
        found: list[Item] = []
        for piece, dx, dy in self.pieces:
            items: list[Item] = [Drawn(piece.id, (piece.outline,), piece.lines, piece.labels), *piece.strokes]
            found += [_moved(item, dx - left, dy - high) for item in items]
        return found


Spot = tuple[_Block, Point]
"""A block and how far right and down from the area's upper left corner it lies [mm]."""


def _sheets(pieces: Sequence[TrialPiece], area: tuple[float, float], words: float) -> list[list[Spot]]:
    """Blocks on as few sheets as may be, the first of which keeps room for the words; empty when a piece is too large [mm]."""
    left, gusset, right, low, high, *gauges = pieces
    shift = _shift_clear(left.ground, gusset.ground)
    moved = tuple((x + shift, y) for x, y in gusset.ground)
    beside = max(_shift_clear(moved, right.ground), _shift_clear(left.ground, right.ground))
    nested = _Block(((left, 0.0, 0.0), (gusset, shift, 0.0), (right, beside, 0.0)))
    over = _shift_clear(_across(low.ground), _across(high.ground))
    plates = _Block(((low, 0.0, 0.0), (high, 0.0, over)))
    single = [_Block(((piece, 0.0, 0.0),)) for piece in pieces]
    small = [_Block(((piece, 0.0, 0.0),)) for piece in gauges]
    tries = []
    for blocks in ([nested, plates, *small], [nested, single[3], single[4], *small]):
        tries += [_laid([blocks[0], *order], area, words) for order in permutations(blocks[1:])]
    tries.append(_laid(sorted(single, key=lambda block: -block.size[1]), area, words))
    return min((one for one in tries if one), key=len, default=[])


def _across(points: Sequence[Point]) -> tuple[Point, ...]:
    """Points with their two coordinates exchanged."""
    return tuple((y, x) for x, y in points)


def _shift_clear(one: Sequence[Point], other: Sequence[Point]) -> float:
    """How far right `other` must move to stand clear of `one` on its left [mm]."""
    low = max(bounds(one)[1], bounds(other)[1]) - APART
    high = min(bounds(one)[3], bounds(other)[3]) + APART
    heights = [low + STEP * k for k in range(math.ceil((high - low) / STEP) + 1)]
    window = math.ceil(APART / STEP)
    # Each height also looks as far up and down as pieces must lie apart, so that slanting edges keep their distance.
    rights = [max(_reaches(one, y), default=-math.inf) for y in heights]
    shift = -math.inf
    for k, y in enumerate(heights):
        right = max(rights[max(0, k - window) : k + window + 1])
        shift = max(shift, right - min(_reaches(other, y), default=math.inf))
    return shift + APART


def _reaches(points: Sequence[Point], y: float) -> list[float]:
    """Where a height crosses the edges of a polygon [mm]."""
    found = []
    for i, (bx, by) in enumerate(points):
        ax, ay = points[i - 1]
        if min(ay, by) <= y <= max(ay, by):
            found += [ax, bx] if ay == by else [ax + (bx - ax) * (y - ay) / (by - ay)]
    return found


def _laid(blocks: Sequence[_Block], area: tuple[float, float], words: float) -> list[list[Spot]]:
    """Blocks in turn, each as high and then as far left as it goes; empty when one is too large."""
    sheets: list[list[Spot]] = [[]]
    for block in blocks:
        for number, sheet in enumerate(sheets):
            spot = _spot(block, sheet, (area[0], area[1] - (0.0 if number else words)))
            if spot is not None:
                sheet.append((block, spot))
                break
        else:
            spot = _spot(block, [], area)
            if spot is None:
                return []
            sheets.append([(block, spot)])
    return sheets


def _spot(block: _Block, sheet: Sequence[Spot], area: tuple[float, float]) -> Point | None:
    """The highest free place of a block on a sheet [mm]."""
    wide, tall = block.size
    ends = [(x + other.size[0] + APART, y + other.size[1] + APART) for other, (x, y) in sheet]
    for y in sorted({0.0, *(end[1] for end in ends)}):
        for x in sorted({0.0, *(end[0] for end in ends)}):
            inside = x + wide <= area[0] + 1e-6 and y + tall <= area[1] + 1e-6
            if inside and all(
                x >= end[0] - 1e-6 or y >= end[1] - 1e-6 or x + wide + APART <= at[0] + 1e-6 or y + tall + APART <= at[1] + 1e-6
                for (_, at), end in zip(sheet, ends, strict=True)
            ):
                return x, y
    return None


def _title(number: int, count: int) -> str:
    return say(phrases.MAKE_ONE_FIRST) if count == 1 else say(phrases.MAKE_ONE_FIRST_SHEET, number=number)


def _around(furniture: Furniture, number: int, count: int) -> tuple[Item, ...]:
    """The furniture of a sheet, which is told apart from the numbered sheets of the set."""
    told = say(phrases.FOOT) if count == 1 else say(phrases.FOOT_OF, number=number, count=count)
    return furniture.items(sheet=told, parts=say(phrases.FOOT_PARTS))


def _words(bellows: Bellows, area: tuple[float, float, float, float]) -> tuple[list[Item], float]:
    """Heading and steps at the top of the area, and the height they take [mm]."""
    left, _, right, high = area
    items: list[Item] = []
    y = high - 4.6 * CAPITAL
    name = bellows.section.corner_names[sharpest(bellows)]
    items.append(Label(say(phrases.MAKE_ONE_FIRST_CORNER, corner=name), (left, y), 4.6, bold=True, width=right - left))
    y -= 6.0
    for number, text in enumerate(steps(bellows), 1):
        items.append(Label(str(number), (left + 3.0, y), TEXT, anchor="end", bold=True))
        for line in wrapped(text, TEXT, right - left - 5.6, bold=number == 6):
            items.append(Label(line, (left + 5.0, y), TEXT, bold=number == 6))
            y -= TEXT * 1.3
        y -= 0.6
    return items, high - y + 1.0


def _moved(item: Item, dx: float, dy: float) -> Item:
    def shift(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple((x + dx, y + dy) for x, y in points)

    if isinstance(item, Stroke):
        return Stroke(shift(item.points), item.pen, item.closed, item.fill)
    if isinstance(item, Label):
        return Label(item.text, shift((item.at,))[0], item.height, item.angle, item.anchor, item.bold, item.width)
    if isinstance(item, Line):
        return Line(item.role, shift(item.points), item.closed)
    assert isinstance(item, Drawn)
    return Drawn(
        item.part,
        tuple(outline.moved(dx, dy) for outline in item.outlines),
        tuple(Line(line.role, shift(line.points), line.closed) for line in item.lines),
        tuple(
            Label(label.text, shift((label.at,))[0], label.height, label.angle, label.anchor, label.bold, label.width)
            for label in item.labels
        ),
    )


def _too_large(pieces: Sequence[TrialPiece], furniture: Furniture) -> Page:
    """A page that says what paper the trial corner needs."""
    boxes = [bounds(piece.ground) for piece in pieces]
    area = furniture.area_size
    wide = max(c - a for a, _, c, _ in boxes) + furniture.size[0] - area[0]
    tall = max(d - b for _, b, _, d in boxes) + furniture.size[1] - area[1]
    left, _, right, high = furniture.area
    text = say(phrases.PAPER_TOO_SMALL, width=math.ceil(wide), height=math.ceil(tall))
    lines = wrapped(text, 3.6, right - left)
    items = [Label(line, (left, high - 8.0 - 5.0 * k), 3.6) for k, line in enumerate(lines)]
    return Page(*furniture.size, say(phrases.MAKE_ONE_FIRST), (*_around(furniture, 1, 1), *items))


__all__ = ["steps", "trial_corner_pages"]

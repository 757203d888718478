"""The pieces of the trial corner: two sides, gusset, two plates, two gauges, true to size.

Paper has next to no thickness, so cards are drawn to their fold lines, without
the gaps that board and hinges need; legs and gusset are those of the bellows.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from bellowscut.bellows import Bellows
from bellowscut.drawing import Label, Line, Pen, Role, Stroke, Tint
from bellowscut.folds import Corner
from bellowscut.lettering import CAPITAL, DESCENT, fitted_height, text_width
from bellowscut.pages.corner_space import sharpest
from bellowscut.parts.gusset import edge_of, gusset_shape
from bellowscut.shapes import Outline, Point, bounds, polygon, turn_by
from bellowscut.words import say, trial_corner as phrases

SMALL = 2.6
"""Letters on the pieces [mm]."""

TAB = 8.0
"""Width of the tabs that are glued to the plates [mm]."""

MITRE = 3.0
"""How much shorter a tab's edge is at the corner [mm]."""

SIZES = ((22.0, 48.0, 56.0), (15.0, 42.0, 48.0), (9.0, 34.0, 40.0), (6.0, 27.0, 32.0))
"""From roomy to thrifty: how much of a card is kept past the gusset's widest point, its least length, and the most that
a plate reaches along a ridge line [mm]. The first that fits on one page is taken."""

RIM, BAND = 10.0, 13.0
"""What a plate has outside and inside the ridge lines [mm]."""

TONGUE = 14.0
"""Length of each step of the gap gauge [mm]."""

GAUGE = 20.0
"""Width of the stretch gauge [mm]."""

GAUGE_LEAST = 34.0
"""A stretch gauge shorter than this has its words beside it [mm]."""

NARROWEST = 1.0
"""A closed gap under this is too narrow for a gauge of paper [mm]."""


@dataclass(frozen=True)
class TrialPiece:
    """One piece of paper of the trial corner.

    Parameters
    ----------
    id : str
        ``side-left``, ``side-right``, ``gusset``, ``plate-low``, ``plate-high``, ``stretch-gauge`` or ``gap-gauge``.
    outline : Outline
        What is cut [mm]. A side has its corner of the section at x = 0 and its
        valley on y = 0; a plate its corner at the origin; the gusset its own axes.
    lines : tuple of Line
        Creases and marks [mm].
    labels : tuple of Label
        What is written on or beside it.
    strokes : tuple of Stroke
        Arrows of the gauges.
    """

    id: str
    outline: Outline
    lines: tuple[Line, ...]
    labels: tuple[Label, ...]
    strokes: tuple[Stroke, ...] = ()

    @cached_property
    def ground(self) -> tuple[Point, ...]:
        """What the piece needs of the paper [mm]: its outline, or a box where lettering stands beside it."""
        points = self.outline.flattened()
        left, low, right, high = bounds(points)
        around = bounds([*points, *(point for label in self.labels for point in _label_box(label))])
        if around[0] < left or around[1] < low or around[2] > right or around[3] > high:
            a, b, c, d = around
            return (a, b), (c, b), (c, d), (a, d)
        return points


def _label_box(label: Label) -> list[Point]:
    """Corners of a label [mm]."""
    wide = text_width(label.text, fitted_height(label), bold=label.bold)
    back = {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    turn = turn_by(label.angle)
    found = []
    for x in (-back, wide - back):
        for y in (-DESCENT * label.height, CAPITAL * label.height):
            dx, dy = turn((x, y))
            found.append((label.at[0] + dx, label.at[1] + dy))
    return found


def trial_pieces(bellows: Bellows, size: tuple[float, float, float] = SIZES[0]) -> tuple[TrialPiece, ...]:
    """The pieces of the trial corner, for the corner that turns most.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    size : tuple of float
        How roomy the pieces are, one of `SIZES` [mm].

    Returns
    -------
    tuple of TrialPiece
        Left side, gusset, right side, two plates, and the gauges.
    """
    index = sharpest(bellows)
    corner = bellows.corners[index]
    before, after = bellows.section.side_names[index - 1], bellows.section.side_names[index]
    beyond, least, most = size
    length = min(_length(bellows, index, beyond, least, right=right) for right in (False, True))
    arm = min(length, most)
    found = [
        _side(bellows, corner, length, before, right=False),
        _gusset(bellows, corner),
        _side(bellows, corner, length, after, right=True),
        _plate(corner, arm, (before, after), "low"),
        _plate(corner, arm, (after, before), "high"),
        _stretch_gauge(bellows),
        _gap_gauge(bellows, corner),
    ]
    return tuple(found)


def _length(bellows: Bellows, index: int, beyond: float, least: float, *, right: bool) -> float:
    """Length of a shortened card's ridge edge from the corner of the section [mm]."""
    side = index if right else (index - 1) % bellows.section.count
    pair = bellows.corner_pair(side)
    near, other = pair if right else pair[::-1]
    foot = near.cut_back + near.depth * math.tan(near.lean)
    wanted = max(least, foot + bellows.profile.gusset.lap + beyond)
    # Never past the far corner's own leg.
    return min(wanted, bellows.section.sides[side] - other.cut_back - other.depth * math.tan(other.lean))


def _side(bellows: Bellows, corner: Corner, length: float, name: str, *, right: bool) -> TrialPiece:
    depth = corner.depth
    near, foot = corner.cut_back, corner.cut_back + depth * math.tan(corner.lean)
    upper: list[Point] = [(length, depth + TAB), (near + MITRE, depth + TAB), (near, depth)]
    points = ((near, -depth), (near + MITRE, -depth - TAB), (length, -depth - TAB), *upper, (foot, 0.0))
    lines = [Line(Role.CREASE, ((foot, 0.0), (length, 0.0)))]
    edge = gusset_on_card(bellows, corner)
    for way in (-1.0, 1.0):
        lines.append(Line(Role.CREASE, ((near, way * depth), (length, way * depth))))
        lines.append(Line(Role.MARK, tuple((min(x, length), way * (depth - down)) for x, down in edge)))
    if not right:
        points = tuple((-x, y) for x, y in points)
        lines = [Line(line.role, tuple((-x, y) for x, y in line.points)) for line in lines]
    sign = 1.0 if right else -1.0
    inner = (edge[0][0] + edge[1][0]) / 2
    middle = sign * (inner + length) / 2
    room = length - inner - 2.0
    labels = [
        Label(say(phrases.SIDE, side=name), (middle, depth / 2 - 1.2), min(4.2, room / 4.2), anchor="middle", bold=True),
    ]
    anchor, x = ("end" if right else "start"), sign * (length - 1.5)
    if length - edge[1][0] > text_width(say(phrases.VALLEY), SMALL) + 2.5:
        labels.append(Label(say(phrases.VALLEY), (x, 1.0), SMALL, anchor=anchor))
    if depth > 16.0:
        labels += [Label(say(phrases.RIDGE), (x, y), SMALL, anchor=anchor) for y in (depth - 3.0, 1.0 - depth)]
    room = length - near - MITRE - 3.0
    glue = say(phrases.GLUE_TO_PLATE)
    if room <= text_width(glue, SMALL):
        glue = say(phrases.GLUE)
    for y in (depth + TAB / 2 - 1.0, -depth - TAB / 2 - 1.0):
        labels.append(Label(glue, (sign * (near + MITRE + length) / 2, y), SMALL, anchor="middle", width=room))
    return TrialPiece("side-right" if right else "side-left", polygon(points), tuple(lines), tuple(labels))


def gusset_on_card(bellows: Bellows, corner: Corner) -> tuple[Point, Point]:
    """Where the cut edge of the gusset comes to lie on a card.

    Gusset and card share the leg: a point of the gusset keeps its place along
    the leg and its distance from it.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    corner : Corner
        The corner.

    Returns
    -------
    tuple of Point
        Distance from the corner of the section along the ridge, and from the
        ridge line down the card, at the ridge line and at the valley line [mm].
    """
    half_width, slope, _ = edge_of(bellows, corner)
    wide, gap, tall = corner.opening(bellows.stretch) / 2, corner.gap / 2, corner.half_height(bellows.stretch)
    along, across = ((wide - gap) / corner.leg, -tall / corner.leg), (tall / corner.leg, (wide - gap) / corner.leg)
    found = []
    for x, y in ((half_width - slope * tall, tall), (half_width, 0.0)):
        dx, dy = x - gap, y - tall
        s, q = dx * along[0] + dy * along[1], dx * across[0] + dy * across[1]
        found.append(
            (
                corner.cut_back + s * math.sin(corner.lean) + q * math.cos(corner.lean),
                s * math.cos(corner.lean) - q * math.sin(corner.lean),
            )
        )
    (ax, ay), (bx, by) = found
    return (ax - ay * (bx - ax) / (by - ay), 0.0), (ax + (corner.depth - ay) * (bx - ax) / (by - ay), corner.depth)


def _gusset(bellows: Bellows, corner: Corner) -> TrialPiece:
    outline, lines = gusset_shape(bellows, corner, "gusset")
    shown = tuple(line for line in lines if line.role is not Role.SKIVE)
    wide, tall = corner.opening(bellows.stretch) / 2, corner.half_height(bellows.stretch)
    # Upright between the centre line and the card's edge, clear of both to where the words end.
    letters = min(SMALL, 0.3 * wide)
    room = tall * (1 - (1.9 * letters) / wide) - 2.0 if wide > 1.9 * letters else 0.0
    if letters < 1.4 or room < 8.0:
        low = outline.bounds()[1]
        beside = (
            Label(say(phrases.GUSSET), (0.0, low - 3.6), 3.0, anchor="middle", bold=True),
            Label(say(phrases.PRINT_UP), (0.0, low - 7.0), SMALL, anchor="middle"),
        )
        return TrialPiece("gusset", outline, shown, beside)
    x = -0.75 * letters + 0.1
    labels = (
        Label(say(phrases.GUSSET), (x + 0.2 * letters, 1.6), letters * 1.1, 90.0, bold=True, width=room),
        Label(say(phrases.PRINT_UP), (x + 0.2 * letters, -1.6), letters, 90.0, "end", width=room),
    )
    return TrialPiece("gusset", outline, shown, labels)


def _plate(corner: Corner, arm: float, names: tuple[str, str], which: str) -> TrialPiece:
    """A plate with the ridge lines on it, the corner pointing down; its sides are named from left to right."""
    half = corner.half_turn
    right = [(arm * math.cos(half) + out * math.sin(half), arm * math.sin(half) - out * math.cos(half)) for out in (RIM, -BAND)]
    left = [(-x, y) for x, y in reversed(right)]
    points = [(0.0, -RIM / math.cos(half)), *right, *left]
    if right[1][0] > BAND * math.sin(half) + 1.0 and BAND / math.cos(half) < right[1][1]:
        # A band as wide all along lies close to its fellow on the paper.
        points = [points[0], *right, (0.0, BAND / math.cos(half)), *left]
    ends = [(way * arm * math.cos(half), arm * math.sin(half)) for way in (-1.0, 1.0)]
    labels = []
    for way, name in zip((-1.0, 1.0), names, strict=True):
        out = TAB / 2 + 0.4
        along = 0.62 * arm
        at = (way * (along * math.cos(half) + out * math.sin(half)), along * math.sin(half) - out * math.cos(half) - SMALL * CAPITAL / 2)
        labels.append(Label(name, at, 3.4, anchor="middle", bold=True))
    long, short = {"low": (phrases.LEFT_HAND_END, phrases.LEFT), "high": (phrases.RIGHT_HAND_END, phrases.RIGHT)}[which]
    text = say(short if 0.72 * arm < text_width(say(long), SMALL) else long)
    slope = math.degrees(half)
    for way, words in ((-1.0, say(phrases.PLATE)), (1.0, text)):
        off = 4.6
        at = (way * 0.58 * arm * math.cos(half) - way * off * math.sin(half), 0.58 * arm * math.sin(half) + off * math.cos(half))
        labels.append(Label(words, at, SMALL, way * slope, "middle", width=0.72 * arm))
    return TrialPiece(f"plate-{which}", polygon(points), tuple(Line(Role.MARK, ((0.0, 0.0), end)) for end in ends), tuple(labels))


def stretched(bellows: Bellows) -> float:
    """Distance of the two plates at full stretch [mm]."""
    return 2 * bellows.depth * math.sin(math.radians(bellows.stretch))


def _stretch_gauge(bellows: Bellows) -> TrialPiece:
    """A strip as long as the plates stand apart at full stretch, with a mark for the form."""
    long, glued = stretched(bellows), bellows.valley_pitch
    outline = polygon(((0.0, 0.0), (long, 0.0), (long, GAUGE), (0.0, GAUGE)))
    lines: list[Line] = []
    texts = [say(phrases.FULL_STRETCH, mm=f"{long:.1f}")]
    if glued < long - 0.05:
        lines.append(Line(Role.MARK, ((glued, 0.0), (glued, GAUGE / 2 - 1.5))))
        texts.append(say(phrases.TO_THE_MARK, mm=f"{glued:.1f}"))
    x, room = (1.5, min(long, glued) - 3.0) if long >= GAUGE_LEAST else (long + 2.0, 60.0)
    labels = [
        Label(text, (x, y), SMALL, bold=not k, width=room) for k, (text, y) in enumerate(zip(texts, (GAUGE - 5.0, 4.0), strict=False))
    ]
    return TrialPiece("stretch-gauge", outline, tuple(lines), tuple(labels), tuple(_double_arrow((0.0, GAUGE / 2), (long, GAUGE / 2))))


def _gap_gauge(bellows: Bellows, corner: Corner) -> TrialPiece:
    wide, closed = corner.opening(bellows.stretch) / 2, corner.opening(0) / 2
    high = TONGUE + 4.0
    points: list[Point] = [(-wide, 0.0), (wide, 0.0), (wide, high)]
    labels = [
        Label(say(phrases.VALLEY_GAP), (wide + 2.0, high - 4.0), SMALL, bold=True),
        Label(say(phrases.STRETCHED, mm=f"{2 * wide:.1f}"), (wide + 2.0, high - 7.6), SMALL),
    ]
    if 2 * closed >= NARROWEST and closed < wide - 0.05:
        points += [(closed, high), (closed, high + TONGUE), (-closed, high + TONGUE), (-closed, high)]
        labels.append(Label(say(phrases.CLOSED, mm=f"{2 * closed:.1f}"), (wide + 2.0, high + 3.0), SMALL))
    points.append((-wide, high))
    return TrialPiece("gap-gauge", polygon(points), (), tuple(labels), tuple(_double_arrow((-wide, high / 2), (wide, high / 2))))


def _double_arrow(start: Point, end: Point) -> list[Stroke]:
    """A line from edge to edge with a head at each end [mm]."""
    length = math.dist(start, end)
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    head = min(2.4, length / 3)
    strokes = [Stroke((start, end), Pen.THIN)]
    for tip, way in ((start, 1.0), (end, -1.0)):
        base = (tip[0] + way * ux * head, tip[1] + way * uy * head)
        points = (tip, (base[0] - uy * 0.7, base[1] + ux * 0.7), (base[0] + uy * 0.7, base[1] - ux * 0.7))
        strokes.append(Stroke(points, Pen.THIN, closed=True, fill=Tint.INK))
    return strokes

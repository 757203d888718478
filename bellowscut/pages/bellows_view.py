"""Pictures of the whole bellows: closed, half open and at full stretch, with their lengths."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from bellowscut.bellows import Bellows
from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.bellows_space import BellowsSpace, State, states
from bellowscut.pages.corner_space import Space
from bellowscut.pages.dimensions import Board
from bellowscut.pages.figure import Figure, around
from bellowscut.pages.frame_space import frame_tall
from bellowscut.pages.hidden import Eye, painted
from bellowscut.shapes import Point, bounds
from bellowscut.units import plain_number
from bellowscut.words import pictures as words, say

SCALES = (
    (2.0, "2 : 1"),
    (1.0, "1 : 1"),
    (2 / 3, "1 : 1.5"),
    (0.5, "1 : 2"),
    (0.4, "1 : 2.5"),
    (1 / 3, "1 : 3"),
    (0.25, "1 : 4"),
    (0.2, "1 : 5"),
)
"""Scales of the lengths along the bellows that are tried, the largest first [-]."""

SMALLER = ((0.1, "1 : 10"), (0.05, "1 : 20"), (0.02, "1 : 50"), (0.01, "1 : 100"))
"""Scales for bellows of unusual size."""

NAME, TEXT, LETTER = 3.4, 2.6, 3.4
"""Letters of a picture's name, of what is said of it, and of the sides [mm]."""

_Arrange = Callable[[Sequence[Figure]], list[Figure]]

APART = 9.0
"""Between two pictures [mm]."""

FLAG = 2.2
"""Half the width of the mark on side A [mm]."""

RIM = 1.6
"""The white round that mark is so much larger [-]."""

SEEN_FLAT = 0.3
"""A side that is turned away by more than this cosine gets no letter [-]."""


def bellows_figures(views: Sequence[View], width: float, height: float, *, alone: bool = False) -> tuple[tuple[Figure, ...], str]:
    """The three pictures at one scale, as large as they fit side by side or one above the other.

    Parameters
    ----------
    views : sequence of View
        What `bellows_views` found.
    width, height : float
        Room [mm].
    alone : bool
        Whether each picture says its scale.

    Returns
    -------
    tuple of Figure
        Closed, half open, full stretch, each where it stands; the upper left corner of the room is the origin.
    str
        Scale of the lengths along the bellows.
    """
    (scale, told), arrange = _largest(views, width, height)
    placed = arrange([view.figure(scale, told=told if alone else "") for view in views])
    left, _, right, _ = around(placed)
    return tuple(figure.moved((width - right - left) / 2, 0.0) for figure in placed), told


def bellows_views(bellows: Bellows) -> tuple[View, ...]:
    """The bellows closed, half open and at full stretch, as it is seen at any scale."""
    return tuple(View(bellows, state) for state in states(bellows))


def _largest(views: Sequence[View], width: float, height: float) -> tuple[tuple[float, str], _Arrange]:
    """The largest scale at which the pictures fit, and how they then stand; the smallest one where they never do."""
    ways = (_two_columns, _three_columns, _one_column)
    for one in (*SCALES, *SMALLER):
        # What fits is found out with empty boxes: the faces are many.
        hollow = [view.figure(one[0], hollow=True) for view in views]
        for arrange in ways:
            left, low, right, _ = around(arrange(hollow))
            if right - left <= width and -low <= height:
                return one, arrange
    return SMALLER[-1], ways[-1]


def _two_columns(figures: Sequence[Figure]) -> list[Figure]:
    """Full stretch on the left, half open on the right over closed, both columns ending level."""
    shut, half, wide = figures
    left = wide.at(0.0, 0.0)
    right = left.box[2] + APART
    upper = half.at(right, 0.0)
    lower = shut.at(right, upper.box[1] - APART)
    column = max(upper.size[0], lower.size[0])
    upper, lower = (figure.moved((column - figure.size[0]) / 2, 0.0) for figure in (upper, lower))
    spare = lower.box[1] - left.box[1]
    if spare > 0:
        return [lower.moved(0.0, -spare), upper.moved(0.0, -spare / 3), left]
    return [lower, upper, left.moved(0.0, spare)]


def _three_columns(figures: Sequence[Figure]) -> list[Figure]:
    """Side by side on one ground."""
    low = -max(figure.size[1] for figure in figures)
    found: list[Figure] = []
    at = 0.0
    for figure in figures:
        found.append(figure.at(at, low + figure.size[1]))
        at += figure.size[0] + APART
    return found


def _one_column(figures: Sequence[Figure]) -> list[Figure]:
    """One above the other, the closed one on top."""
    wide = max(figure.size[0] for figure in figures)
    found: list[Figure] = []
    at = 0.0
    for figure in figures:
        found.append(figure.at((wide - figure.size[0]) / 2, at))
        at -= figure.size[1] + APART
    return found


class View:
    """The bellows in one state as it is seen, before it is drawn at a scale.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    state : State
        How far it is open.
    """

    def __init__(self, bellows: Bellows, state: State) -> None:
        self.state = state
        self.space = BellowsSpace(bellows, state)
        self.eye = Eye(self.space)
        self.faces = painted(self.space, self.eye)
        self.box = bounds([point for one in self.faces for point in one.points])
        self._drawn: tuple[float, tuple[Stroke, ...]] = (0.0, ())

    def figure(self, scale: float, *, told: str = "", hollow: bool = False) -> Figure:
        """The picture with its length and its name.

        Parameters
        ----------
        scale : float
            Drawn length over true length along the bellows [-].
        told : str
            The scale as it is written under the picture; empty where it is said elsewhere.
        hollow : bool
            Draw a box in place of the faces, to see how large the picture is.
        """
        size = scale / self.eye.steep
        left, low, right, high = (edge * size for edge in self.box)
        items: list[Item] = [Stroke(((left, low), (right, low), (right, high), (left, high)))]
        if not hollow:
            items = [*self._strokes(size)]
        items += _flags(self.space, self.eye, size)
        items += _letters(self.space, self.eye, size)
        board = Board()
        ends = [_leftmost(self.space, self.eye, height, size) for height in (0.0, self.space.length)]
        board.length(ends[0], ends[1], f"{self.state.length:.1f}", 90.0, 1, -left, first=5.0)
        y = Figure(tuple(items)).box[1] - 2.6 - NAME * CAPITAL
        items.append(Label(say(words.STATES[self.state.name]), ((left + right) / 2, y), NAME, anchor="middle", bold=True))
        items.append(Label(_note(self.state), ((left + right) / 2, y - TEXT * 1.5), TEXT, anchor="middle"))
        if told:
            items.append(Label(say(words.LENGTHS_DRAWN, scale=told), ((left + right) / 2, y - TEXT * 3.0), TEXT, anchor="middle"))
        return Figure((*items, *board.items))

    def _strokes(self, size: float) -> tuple[Stroke, ...]:
        """The faces so much larger; pages and drawings often have the same scale."""
        if self._drawn[0] != size:
            strokes = (
                Stroke(tuple([(x * size, y * size) for x, y in one.points]), Pen.THIN, closed=True, fill=one.tint) for one in self.faces
            )
            self._drawn = size, tuple(strokes)
        return self._drawn[1]


def _note(state: State) -> str:
    angle = say(words.STATE_NOTE, angle=plain_number(math.degrees(state.angle), 0))
    return f"{angle}, {say(words.CLOSED_NOTE)}" if state.name == "closed" else angle


def _leftmost(space: BellowsSpace, eye: Eye, height: float, size: float) -> Point:
    """The corner of the frame's edge that lies furthest to the left, as drawn [mm]."""
    x, y = min(eye.seen((*corner, height)) for corner in space.bellows.section.frame)
    return x * size, y * size


def _sides_seen(space: BellowsSpace, eye: Eye) -> list[int]:
    """Sides whose frame face is seen, not too much from its edge."""
    frame, count = space.bellows.section.frame, space.count
    found = []
    for i in range(count):
        (ax, ay), (bx, by) = (eye.turned(*frame[k % count]) for k in (i, i + 1))
        if (bx - ax) / math.hypot(bx - ax, by - ay) > SEEN_FLAT:
            found.append(i)
    return found


def _flags(space: BellowsSpace, eye: Eye, size: float) -> list[Item]:
    """The black notch on side A of both frames, pointing at the bellows."""
    (ax, ay), (bx, by) = space.bellows.section.frame[:2]
    length, tall = math.dist((ax, ay), (bx, by)), frame_tall(space)
    items: list[Item] = []
    # White round it, else black would not show on dark leather.
    for wide, fill in ((RIM, Tint.WHITE), (1.0, Tint.INK)):
        half = min(FLAG / size, length / 5)
        for edge, away in ((0.0, -1.0), (space.length, 1.0)):
            tip, base = edge + away * tall * 0.35 * (1 - 0.6 * (wide - 1)), edge + away * tall * (0.35 + 0.45 * (1 + 0.4 * (wide - 1)))
            points: list[Space] = []
            for share, height in ((0.5, tip), (0.5 + wide * half / length, base), (0.5 - wide * half / length, base)):
                points.append((ax + (bx - ax) * share, ay + (by - ay) * share, height))
            shown = [eye.seen(point) for point in points]
            items.append(Stroke(tuple((x * size, y * size) for x, y in shown), Pen.THIN, closed=True, fill=fill))
    return items


def _letters(space: BellowsSpace, eye: Eye, size: float) -> list[Item]:
    """Letters of the sides that are seen, under the lower frame; side A is said in full."""
    names, frame, count = space.bellows.section.side_names, space.bellows.section.frame, space.count
    items: list[Item] = []
    ends: list[tuple[float, float]] = []
    for i in sorted(_sides_seen(space, eye)):
        (ax, ay), (bx, by) = frame[i], frame[(i + 1) % count]
        x, y = eye.seen(((ax + bx) / 2, (ay + by) / 2, -frame_tall(space)))
        wide = text_width(names[i], LETTER, bold=i == 0) / 2 + 1.0
        if any(x * size - wide < stop and start < x * size + wide for start, stop in ends):
            continue
        # Under a face that runs up to one side the letter keeps clear of its lower corner.
        ends.append((x * size - wide, x * size + wide))
        fall = abs(eye.seen((ax, ay, 0.0))[1] - eye.seen((bx, by, 0.0))[1]) / max(
            1e-9, abs(eye.seen((ax, ay, 0.0))[0] - eye.seen((bx, by, 0.0))[0])
        )
        at = (x * size, y * size - 1.6 - LETTER * CAPITAL - fall * wide)
        items.append(Label(names[i], at, LETTER, anchor="middle", bold=i == 0))
    return items

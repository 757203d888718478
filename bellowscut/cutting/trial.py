"""The test piece: a small sheet to cut from the stock before the job, with the job's settings.

A comb shows the kerf ten times over. Its lines are followed as they are, ten
millimetres apart, so that every bar comes out narrower by one kerf. Pushed to
the left end of their window, the bars close up ten kerfs to the left of the
last one: half a kerf at the window's end, nine between the bars, and the half
that the last bar has lost itself. So a line on the last bar moves by ten
kerfs, and 1 mm on the scale beside it is 0.1 mm of kerf; ten lines over 9 mm
read the hundredths, as a vernier does.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bellowscut.bellows import Bellows
from bellowscut.cutting.arcs import cleaned
from bellowscut.cutting.kerf import followed
from bellowscut.cutting.neighbours import burnt_once
from bellowscut.cutting.order import Task, ordered
from bellowscut.cutting.stages import Stages, cut_task, name_label, text_tasks
from bellowscut.cutting.words import KNIFE, LASER, SHORT
from bellowscut.drawing import Drawn, Label, Line, Role
from bellowscut.export.ink import SETTINGS
from bellowscut.lettering import CAPITAL
from bellowscut.parts import gusset
from bellowscut.parts.part import Part
from bellowscut.schema import CutterSpec
from bellowscut.shapes import Outline, Point, bounds, rectangle
from bellowscut.words import cutting as phrases, say

WIDTH = 210.0
"""Of the sheet [mm]; a large gusset widens it."""

EDGE = 8.0
"""Least distance of what is cut from the edge of the sheet [mm]."""

BARS = 10
BAR = 10.0
"""Bars of the comb: how many [-], and from line to line [mm]."""

BAR_HEIGHT = 18.0
SCALE = 20
"""Length of the kerf scale [mm]: 10 mm to be read, and what the vernier needs."""

GAUGE = 50.0
"""Side of the square and of the square hole that are cut with the set kerf [mm]."""

SETTING_LENGTH = 30.0
OVERCUTS = (0.0, 0.5, 1.0, 1.5, 2.0)
"""Shares of the set overcut that are tried at corners [-]."""

OVERCUT_STEP = 0.5
"""Tried instead where the set overcut is none [mm]."""

_TEXT = 2.2
_STEP = 3.3


def test_piece(
    bellows: Bellows, parts: Sequence[Part], spec: CutterSpec, cutter: str, *, kerf_in: bool
) -> tuple[float, float, tuple[Drawn, ...], tuple[str, ...]]:
    """The test piece of a job.

    Parameters
    ----------
    bellows : Bellows
        The bellows, whose gusset is tried.
    parts : sequence of Part
        Those of the job; without a gusset among them the bellows' first one is tried all the same.
    spec : CutterSpec
        The machine.
    cutter : str
        ``laser``, ``knife`` or ``hand``. A knife leaves no kerf: it gets squares cut with several overcuts instead of a comb.
    kerf_in : bool
        Whether square, hole and gusset allow for the kerf of a laser, or try what the machine itself allows for.

    Returns
    -------
    float, float
        Width and height of the sheet [mm].
    tuple of Drawn
        In the order in which they are worked.
    tuple of str
        How to read it.
    """
    trial = next((part for part in parts if part.kind in gusset.KINDS), None) or gusset.make(bellows)[0]
    sheet = _Sheet(trial, spec, cutter, kerf_in=kerf_in)
    notes = [phrases.SAME_STOCK_NOTE, phrases.GAUGE_NOTE, phrases.SETTINGS_NOTE, phrases.GUSSET_NOTE]
    if cutter == LASER:
        sheet.comb()
        notes.insert(1, phrases.KERF_NOTE)
    elif cutter == KNIFE:
        sheet.corners()
        notes.insert(1, phrases.OVERCUT_NOTE)
    sheet.gauges()
    sheet.settings()
    sheet.trial()
    return sheet.width, sheet.height, sheet.in_order(), tuple(map(say, notes))


class _Sheet:
    """A test piece that is filled bit by bit. Its lower row holds gauges and gusset, its upper row comb and settings."""

    def __init__(self, trial: Part, spec: CutterSpec, cutter: str, *, kerf_in: bool) -> None:
        self._trial = trial
        self._spec = spec
        self._cutter = cutter
        self._kerf = spec.kerf if cutter == LASER and kerf_in else 0.0
        self._stages = Stages()
        left, low, right, high = bounds(trial.points)
        self._column = EDGE + 2 * GAUGE + 2 * 12
        self._low = EDGE + 6.0
        self._at = (self._column + max(WIDTH - EDGE - self._column, right - left) / 2 - (left + right) / 2, self._low - low)
        self.width = max(WIDTH, self._column + right - left + EDGE)
        row = max(GAUGE, high - low)
        self._row_top = self._low + row
        self._upper = self._row_top + 18.0
        self.height = self._upper + BAR_HEIGHT + 22.0

    def _write(self, name: str, *labels: Label) -> None:
        self._stages.texts += text_tasks(name, labels)

    def _cut(self, name: str, outline: Outline, *, inner: bool, kerf: bool = True, spec: CutterSpec | None = None) -> None:
        path = followed(outline, self._kerf, inner=inner, name=name) if kerf else outline
        task = cut_task(name, cleaned(path), self._cutter, spec or self._spec, inner=inner)
        (self._stages.holes if inner else self._stages.outlines).append(task)

    def comb(self) -> None:
        """The bars, their window and the scale."""
        left, low, right, high = EDGE, self._upper, EDGE + BARS * BAR, self._upper + BAR_HEIGHT
        for k in range(1, BARS):
            ends = ((left + BAR * k, low), (left + BAR * k, high))
            line = Line(Role.CUT, ends)
            self._stages.holes.append(_either_way(f"comb-{k}-cut", line))
        self._cut("comb", rectangle(left, low, right, high), inner=False, kerf=False)
        zero = right - 0.5
        ticks = [((zero - k, high), (zero - k, high + (2.8 if k % 5 == 0 else 1.8))) for k in range(SCALE + 1)]
        ticks += [((zero - 0.9 * k, high - (2.8 if k % 5 == 0 else 1.8)), (zero - 0.9 * k, high)) for k in range(BARS + 1)]
        self._stages.add_lines("kerf-scale", [Line(Role.MARK, tick) for tick in ticks])
        figures = [Label(f"{k / 10:g}", (zero - k, high + 3.5), 2.0, anchor="middle") for k in (0, 5, 10)]
        figures += [Label(text, (zero - 0.9 * k, high - 4.8), 1.6, anchor=side) for k, text, side in ((0, "0", "end"), (10, "10", "start"))]
        self._write("kerf-scale", *figures, Label(say(phrases.KERF_SCALE), (zero - SCALE - 2, high + 1.0), 2.0, anchor="end"))
        told = (
            say(phrases.PUSH_THE_BARS),
            say(phrases.READ_THE_SCALE),
        )
        self._write("comb", *_lines_of(told, (left, low - _STEP), BARS * BAR))

    def corners(self) -> None:
        """Squares with several overcuts."""
        low = self._upper
        for k, share in enumerate(OVERCUTS):
            overcut = share * self._spec.overcut if self._spec.overcut else k * OVERCUT_STEP / 2
            x = EDGE + 2 * BAR * k + BAR / 2
            self._cut(
                f"corner-{k + 1}", rectangle(x, low + 4, x + BAR, low + 4 + BAR), inner=False, spec=replace(self._spec, overcut=overcut)
            )
            self._write(f"corner-{k + 1}", Label(f"{overcut:.2f}", (x + BAR / 2, low + 5 + BAR + 1.5), _TEXT, anchor="middle"))
        told = (say(phrases.TAKE_LEAST_OVERCUT),)
        self._write("corners", *_lines_of(told, (EDGE, low - _STEP + 2), BARS * BAR))

    def gauges(self) -> None:
        """The square and the square hole, cut with the set kerf."""
        low = self._row_top - GAUGE
        first, second = EDGE, EDGE + GAUGE + 12
        self._cut("square", rectangle(first, low, first + GAUGE, low + GAUGE), inner=False)
        self._cut("square-hole", rectangle(second, low, second + GAUGE, low + GAUGE), inner=True)
        middle = (first + GAUGE / 2, low + GAUGE / 2)
        gauged = (say(phrases.GAUGE_THE_SQUARE), f"{GAUGE:.2f} mm")
        self._write("square", *(Label(text, (middle[0], middle[1] - k * _STEP), _TEXT, anchor="middle") for k, text in enumerate(gauged)))
        self._write("square-hole", Label(say(phrases.GAUGE_THE_HOLE), (second + GAUGE / 2, low - _STEP), _TEXT, anchor="middle"))

    def settings(self) -> None:
        """Crease and mark lines, each on a layer of its own."""
        starts = {Role.CREASE: self._column + 3, Role.MARK: self._column + 3 + SETTING_LENGTH + 6}
        top = self._upper + BAR_HEIGHT
        for role, left in starts.items():
            self._write(f"{role.value}s", Label(say(phrases.CREASE if role is Role.CREASE else phrases.MARK), (left, top + 1.0), _TEXT))
            for k in range(1, SETTINGS + 1):
                y = top - 4.0 * k + 1.5
                self._write(f"{role.value}-{k}", Label(f"{k}", (left, y - _TEXT * CAPITAL / 2), _TEXT))
                task = _either_way(f"{role.value}-{k}", Line(role, ((left + 4, y), (left + SETTING_LENGTH, y))))
                self._stages.lines[role].append(task)

    def trial(self) -> None:
        """One gusset with all its lines."""
        dx, dy = self._at
        part = self._trial
        self._cut(part.id, part.outline.moved(dx, dy), inner=False)
        face = Drawn(part.id, (part.outline, *part.holes), part.lines)
        lines = (burnt_once(face, self._spec.kerf)[0] if self._cutter == LASER else face).lines
        self._stages.add_lines(part.id, [replace(line, points=tuple((x + dx, y + dy) for x, y in line.points)) for line in lines])
        label = name_label(part, part.id)
        if label is not None:
            self._write(part.id, replace(label, at=(label.at[0] + dx, label.at[1] + dy)))

    def in_order(self) -> tuple[Drawn, ...]:
        """All of it in the order in which it is worked."""
        if self._kerf:
            heading = say(phrases.TRIAL_HEADING_KERF, kerf=f"{self._kerf:g}")
        elif self._cutter == LASER:
            heading = say(phrases.TRIAL_HEADING_NO_KERF)
        elif self._cutter == KNIFE:
            heading = say(phrases.TRIAL_HEADING_OVERCUT, overcut=f"{self._spec.overcut:g}")
        else:
            heading = say(phrases.TRIAL_HEADING)
        self._write("test-piece", Label(heading, (EDGE, self.height - 6.0), 3.0))
        self._write("caution", Label(say(SHORT[self._cutter]), (EDGE, 3.0), _TEXT))
        at = (0.0, 0.0)
        found: list[Drawn] = []
        for tasks in self._stages.in_order():
            made, at = ordered(tasks, at)
            found += made
        return tuple(found)


def _lines_of(texts: Sequence[str], at: Point, width: float) -> list[Label]:
    return [Label(text, (at[0], at[1] - k * _STEP), _TEXT, width=width) for k, text in enumerate(texts)]


def _either_way(name: str, line: Line) -> Task:
    """A straight line, from either end."""
    ways = (Drawn(name, (), (line,)), Drawn(name, (), (replace(line, points=line.points[::-1]),)))
    ends = (line.points[0], line.points[-1])
    return Task(ends, ends[::-1], ways.__getitem__)

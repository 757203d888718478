"""Tasks for each stage of the work: letters, lines and cuts, each a drawing of its own with one layer.

A drawing is named after its piece and its layer, ``gusset-7-cut``: by that
name its group stands in an SVG, and by the order of the drawings a machine
that goes by the order of the file works them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from bellowscut.cutting.arcs import begun_at
from bellowscut.cutting.knife import leads_of, overcut_runs, pivot_run, sharp_corners, tip_run
from bellowscut.cutting.neighbours import Lead
from bellowscut.cutting.order import Task
from bellowscut.cutting.words import KNIFE
from bellowscut.drawing import Drawn, Label, Line, Role
from bellowscut.export.stroke_letters import strokes
from bellowscut.layout.openings import edges, opening
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.parts.part import Part
from bellowscut.schema import CutterSpec
from bellowscut.shapes import Outline, cos_sin
from bellowscut.stock.model import Laid

LINES = (Role.MARK, Role.SKIVE, Role.CREASE)
"""Layers of lines in the order in which they are worked, all before any cut."""

LETTERS = (3.0, 2.5, 2.0, 1.6)
"""Sizes of the name on a piece that are tried in turn [mm]."""

CLEAR = 1.0
"""Least distance of the name from lines and edges [mm]."""


def text_tasks(name: str, labels: Sequence[Label], lines: Sequence[Line] = ()) -> list[Task]:
    """The letters of a piece, with lines that belong to them; none where there is nothing to draw."""
    runs = [*(run for label in labels for run in strokes(label)), *(line.points for line in lines)]
    if not runs:
        return []
    drawn = Drawn(f"{name}-text", (), tuple(lines), tuple(labels))
    return [Task((runs[0][0],), (runs[-1][-1],), lambda _: drawn)]


def line_tasks(name: str, lines: Sequence[Line], role: Role) -> list[Task]:
    """The lines of one role of a piece, from either end of their order; none where there are none."""
    own = _chained([line for line in lines if line.role is role])
    if not own:
        return []
    back = [line if line.closed else Line(role, line.points[::-1]) for line in reversed(own)]
    ways = tuple(Drawn(f"{name}-{role.value}", (), tuple(way)) for way in (own, back))
    starts = tuple(way.lines[0].points[0] for way in ways)
    ends = tuple(way.lines[-1].points[0 if way.lines[-1].closed else -1] for way in ways)
    return [Task(starts, ends, lambda way: ways[way])]


def _chained(lines: Sequence[Line]) -> list[Line]:
    """Each line after the one whose end is nearest, turned about where that helps."""
    left = list(lines)
    found = left[:1]
    del left[:1]
    while left:
        at = found[-1].points[0 if found[-1].closed else -1]
        number, turned = min(
            ((k, turned) for k, line in enumerate(left) for turned in (False, True) if not (turned and line.closed)),
            key=lambda one: (math.dist(at, left[one[0]].points[-1 if one[1] else 0]), one),
        )
        line = left.pop(number)
        found.append(Line(line.role, line.points[::-1]) if turned else line)
    return found


def cut_task(name: str, outline: Outline, tool: str, spec: CutterSpec, leads: Sequence[Lead] = (), *, inner: bool) -> Task:
    """What the tool does to cut an outline.

    Parameters
    ----------
    name : str
        Of the drawing; its layer is added.
    outline : Outline
        What the tool follows [mm].
    tool : str
        ``laser``, ``knife`` or ``hand``.
    spec : CutterSpec
        The machine.
    leads : sequence of Lead
        For a trailing blade the ways to begin; empty for all that there are.
    inner : bool
        Whether it is a hole.

    Returns
    -------
    Task
        A closed outline that can be begun at any of its points, or open runs for a knife.
    """
    if tool != KNIFE:
        return Task(outline.points, outline.points, lambda way: Drawn(f"{name}-cut", (begun_at(outline, way),)))
    offset, overcut = spec.blade_offset, spec.overcut
    if offset is None:
        begins = sharp_corners(outline) or range(len(outline.points))
        ways = [overcut_runs(outline, begin, overcut, inner=inner) for begin in begins]
    else:
        begun = leads or leads_of(outline, offset, inner=inner)
        ways = [(pivot_run(tip_run(outline, begin, overcut, lead, inner=inner), offset),) for begin, lead in begun]
    drawn = [Drawn(f"{name}-cut", (), tuple(Line(Role.CUT, run) for run in way)) for way in ways]
    return Task(tuple(way[0][0] for way in ways), tuple(way[-1][-1] for way in ways), drawn.__getitem__)


@dataclass
class Stages:
    """Tasks by stage, in the order in which the stages are worked."""

    texts: list[Task] = field(default_factory=list)
    lines: dict[Role, list[Task]] = field(default_factory=lambda: {role: [] for role in LINES})
    holes: list[Task] = field(default_factory=list)
    outlines: list[Task] = field(default_factory=list)

    def in_order(self) -> tuple[list[Task], ...]:
        """Stage by stage."""
        return (self.texts, *self.lines.values(), self.holes, self.outlines)

    def add_lines(self, name: str, lines: Sequence[Line]) -> None:
        """The lines of one piece, each to its stage."""
        for role in LINES:
            self.lines[role] += line_tasks(name, lines, role)


def placed_label(label: Label, laid: Laid) -> Label:
    """A label in a part's own axes where the piece lies, and never upside down."""
    angle = (label.angle + laid.turn) % 360
    x, y = laid.point(label.at)
    if not 90 < round(angle, 6) <= 270:
        return replace(label, at=(x, y), angle=angle)
    c, s = cos_sin(angle)
    capital = label.height * CAPITAL
    return replace(label, at=(x - s * capital, y + c * capital), angle=angle - 180)


def name_label(part: Part, text: str) -> Label | None:
    """The name of a piece where it meets no line of it, in the part's own axes; None where there is no room."""
    segments = [pair for line in part.lines for pair in edges(line.points, closed=line.closed)]
    segments += [pair for hole in part.holes for pair in edges(hole.flattened(0.05), closed=True)]
    for size in LETTERS:
        for angle in (0.0, 90.0):
            place = opening(part.points, segments, text_width(text, size), size * CAPITAL, CLEAR, angle)
            if place is not None:
                return Label(text, place.point(0, -size * CAPITAL / 2), size, angle=angle, anchor="middle")
    return None

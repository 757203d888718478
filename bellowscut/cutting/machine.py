"""The machine file of one piece of stock, for a laser, a drag knife or the hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bellowscut.cutting import notes as said
from bellowscut.cutting.arcs import cleaned
from bellowscut.cutting.figures import figures, together
from bellowscut.cutting.kerf import followed
from bellowscut.cutting.knife import leads_of, points_inward, sharp_corners
from bellowscut.cutting.neighbours import Lead, burnt_once, clear_leads, closest
from bellowscut.cutting.order import Task, ordered
from bellowscut.cutting.stages import Stages, cut_task, name_label, placed_label, text_tasks
from bellowscut.cutting.words import CUTTERS, HAND, KNIFE, LASER, above, short_label
from bellowscut.drawing import Drawn, Label, Line, Role
from bellowscut.errors import UsageError
from bellowscut.materials import SKIN
from bellowscut.schema import CutterSpec
from bellowscut.shapes import Outline, Point, bounds, rectangle
from bellowscut.stock.model import Laid, Polygon, StockPiece
from bellowscut.words import cutting as phrases, say

CORNER = 5.0
"""Length of the lines that show where the stock lies [mm]."""

PLACE = "place"
"""Name of the drawing that shows where the stock lies."""


@dataclass(frozen=True)
class Job:
    """All that a machine, and the person at it, needs for one piece of stock.

    Parameters
    ----------
    width, height : float
        Of the drawing [mm]; its lower left corner, the origin, is that of the stock's box.
    drawn : tuple of Drawn
        In the order in which they are worked.
    back : tuple of Drawn
        The other face, as it lies with the stock turned over left to right; empty without a scored run. It is worked first.
    side : str
        Which face lies up: ``flesh side``.
    tool : str
        What it is drawn for: ``hand`` for leather that is left out of the laser.
    kerf : float
        What is allowed for in the outlines [mm].
    cut_length, drawn_length : float
        What is cut, and creases, skive lines, marks and letters, front and back together [mm].
    travel : float
        Between lines, front and back together [mm].
    seconds : float or None
        At the stated speeds [s]; None without one and by hand.
    notes : tuple of str
        What to know before the machine runs.
    left_out : tuple of str
        Names of the parts of which lines were left out that a laser would burn twice.
    """

    width: float
    height: float
    drawn: tuple[Drawn, ...]
    back: tuple[Drawn, ...]
    side: str
    tool: str
    kerf: float
    cut_length: float
    drawn_length: float
    travel: float
    seconds: float | None
    notes: tuple[str, ...]
    left_out: tuple[str, ...] = ()


def machine_drawing(piece: StockPiece, cutter: str, spec: CutterSpec, *, leather: bool = False, kerf_in: bool = True) -> Job:
    """Draw a piece of stock for the tool that cuts it.

    Parameters
    ----------
    piece : StockPiece
        The stock with its pieces.
    cutter : str
        ``laser``, ``knife`` or ``hand``.
    spec : CutterSpec
        The machine.
    leather : bool
        Whether a laser may cut leather; without it skins are drawn for the hand.
    kerf_in : bool
        Whether outlines for a laser allow for its kerf, or are those of the pieces, for a machine that allows for it itself.

    Returns
    -------
    Job
        The drawing in its order, its figures and what to know.

    Raises
    ------
    UsageError
        Stock larger than the bed both ways round; by laser, pieces closer to each other than the kerf, and holes and
        notches narrower than it.
    """
    if cutter not in CUTTERS:
        raise UsageError(say(phrases.UNKNOWN_CUTTER, cutter=cutter, cutters=", ".join(CUTTERS[:-1]), last=CUTTERS[-1]))
    skin = piece.material.form == SKIN
    tool = HAND if cutter == LASER and skin and not leather else cutter
    notes = list(said.of_place(piece, by_hand=tool == HAND))
    if tool != cutter:
        notes.append(say(phrases.LEATHER_LEFT_TO_HAND))
    work = _Work(piece, tool, spec, kerf_in=kerf_in)
    if tool != HAND:
        notes += [*said.of_tool(tool, spec), *said.of_bed(piece, work.width, work.height, spec)]
    front = work.front()
    back = work.back()
    notes += work.notes
    if back:
        notes += said.of_back(work.width, by_hand=tool == HAND)
    if skin and tool == LASER:
        notes.append(say(phrases.LEATHER_BY_LASER))
    total = together([figures(one, spec) for one in (front, back) if one])
    return Job(
        work.width,
        work.height_drawn,
        front,
        back,
        say(phrases.FLESH_SIDE if skin else phrases.OUTSIDE),
        tool,
        work.kerf,
        total.cut_length,
        total.drawn_length,
        total.travel,
        None if tool == HAND else total.seconds,
        tuple(notes),
        tuple(work.left_out),
    )


class _Work:
    """One piece of stock moved to the origin, with what its tool makes of its pieces."""

    def __init__(self, piece: StockPiece, tool: str, spec: CutterSpec, *, kerf_in: bool) -> None:
        left, low, right, high = bounds(piece.outline)
        self._piece = piece
        self._tool = tool
        self._spec = spec
        self.kerf = spec.kerf if tool == LASER and kerf_in else 0.0
        self._laid = [(replace(laid, x=laid.x - left, y=laid.y - low), f"{laid.id}-{laid.number}") for laid in piece.laid]
        self._edge = tuple((x - left, y - low) for x, y in piece.outline)
        self._flaws = [tuple((x - left, y - low) for x, y in flaw) for flaw in piece.flaws]
        self.width, self.height = right - left, high - low
        self.height_drawn = self.height
        self.notes: list[str] = []
        self._points = [laid.points() for laid, _ in self._laid]
        self._labels: dict[str, Label | None] = {}
        self._paths: dict[str, tuple[Outline, ...]] = {}
        self._lines: dict[str, tuple[tuple[Line, ...], tuple[Line, ...]]] = {}
        self.left_out: dict[str, None] = {}
        self._check_gap()

    def _check_gap(self) -> None:
        reach = {LASER: self._spec.kerf, KNIFE: self._spec.overcut}.get(self._tool, 0.0)
        near = closest(self._points, reach) if reach else None
        if near is None:
            return
        gap, one, other = near
        names = self._laid[one][1], self._laid[other][1]
        if self._tool == LASER:
            raise UsageError(said.too_close(self._piece, names, gap, self._spec.kerf))
        self._tell(said.nicks(names, gap, self._spec.overcut))

    def front(self) -> tuple[Drawn, ...]:
        """The face that lies up in the layout."""
        stages = Stages()
        for (laid, name), leads in zip(self._laid, self._lead_ins(), strict=True):
            label = self._name(laid)
            stages.texts += text_tasks(name, (label,) if label else ())
            outline, *holes = self._placed(laid)
            lines = [replace(line, points=tuple(map(laid.point, line.points))) for line in self._lines_of(laid)[0]]
            if laid.part.back:
                # Their holes are cut from the back, and the front is set by them.
                lines += [Line(Role.MARK, hole.flattened(), closed=True) for hole in laid.outlines()[1:]]
                holes = []
            stages.add_lines(name, lines)
            stages.holes += [self._cut(f"{name}-hole-{k}", hole, inner=True) for k, hole in enumerate(holes, 1)]
            stages.outlines.append(self._cut(name, outline, leads, inner=False))
        return self._in_order(stages, self._edge, [*self._points, *self._flaws])

    def back(self) -> tuple[Drawn, ...]:
        """The other face of scored runs, with the stock turned over left to right; empty without one."""
        runs = [(laid, name) for laid, name in self._laid if laid.part.back]
        if not runs:
            return ()
        stages = Stages()
        for laid, name in runs:
            stages.add_lines(name, [_seen_from_back(laid, line, self.width) for line in self._lines_of(laid)[1]])
            for k, hole in enumerate(self._placed(laid)[1:], 1):
                over = hole.mirrored().moved(self.width, 0)
                stages.holes.append(self._cut(f"{name}-hole-{k}", over, inner=True))
        edge, *taken = (tuple((self.width - x, y) for x, y in reversed(points)) for points in (self._edge, *self._points, *self._flaws))
        return self._in_order(stages, edge, taken)

    def _in_order(self, stages: Stages, edge: Polygon, taken: Sequence[Polygon]) -> tuple[Drawn, ...]:
        place = self._place(edge)
        # The caution keeps off the marks by which the stock is laid.
        marks = [] if self._tool == HAND else [_round(line.points) for line in place]
        stages.texts[:0] = text_tasks("caution", (self._caution(edge, [*taken, *marks]),))
        stages.add_lines(PLACE, place)
        found: list[Drawn] = []
        at = (0.0, 0.0)
        for tasks in stages.in_order():
            made, at = ordered(tasks, at)
            found += made
        if self._tool != HAND and any(self._beyond(one) for one in found):
            self._tell(say(phrases.OFF_STOCK))
        return tuple(found)

    def _beyond(self, drawn: Drawn) -> bool:
        """Whether a cut leaves the box of the stock, in which the machine was told to work."""
        points = [point for line in drawn.lines if line.role is Role.CUT for point in line.points]
        points += [point for outline in drawn.outlines for point in outline.points]
        return any(not (-1e-6 <= x <= self.width + 1e-6 and -1e-6 <= y <= self.height + 1e-6) for x, y in points)

    def _place(self, edge: Polygon) -> tuple[Line, ...]:
        """What the stock is laid by: never its outline, which a machine would draw on its bed."""
        if self._tool == HAND:
            return tuple(Line(Role.MARK, points, closed=True) for points in (edge, *self._flaws))
        if self._piece.material.form == SKIN:
            (x, y), (u, v) = min(edge), max(edge)
            return Line(Role.MARK, ((x, y), (x + CORNER, y))), Line(Role.MARK, ((u - CORNER, v), (u, v)))
        return (Line(Role.MARK, ((0.0, CORNER), (0.0, 0.0), (CORNER, 0.0))),)

    def _caution(self, edge: Polygon, taken: Sequence[Polygon]) -> Label:
        label = short_label(self._tool, edge, taken)
        if label is None:
            label = above(self._tool, self.height)
            self.height_drawn = label.at[1] + label.height
            self._tell(say(phrases.NO_FREE_PLACE))
        return label

    def _name(self, laid: Laid) -> Label | None:
        if laid.id not in self._labels:
            self._labels[laid.id] = name_label(laid.part, laid.id)
        label = self._labels[laid.id]
        return None if label is None else placed_label(label, laid)

    def _placed(self, laid: Laid) -> list[Outline]:
        """What the tool follows for a piece where it lies: outline, then holes."""
        if laid.id not in self._paths:
            part = laid.part
            paths = (part.outline, *part.holes)
            if self._tool == LASER:
                paths = tuple(followed(path, self.kerf, inner=k > 0, name=part.name) for k, path in enumerate(paths))
            self._paths[laid.id] = tuple(map(cleaned, paths))
        return [path.turned(laid.turn).moved(laid.x, laid.y) for path in self._paths[laid.id]]

    def _lines_of(self, laid: Laid) -> tuple[tuple[Line, ...], tuple[Line, ...]]:
        """Lines of a part's face and back, for a laser without those that would be burnt twice."""
        if laid.id not in self._lines:
            part = laid.part
            # What is closed on a back are the outline and the holes, which are no scores.
            scores = tuple(line for line in part.back if not line.closed)
            faces = (
                Drawn(part.id, (part.outline, *part.holes), part.lines),
                Drawn(part.id, tuple(hole.mirrored() for hole in part.holes), scores),
            )
            if self._tool == LASER:
                kept = [burnt_once(face, self._spec.kerf) for face in faces]
                faces = (kept[0][0], kept[1][0])
                if any(number for _, number in kept):
                    self.left_out[part.name] = None
            self._lines[laid.id] = faces[0].lines, faces[1].lines
        return self._lines[laid.id]

    def _cut(self, name: str, outline: Outline, leads: Sequence[Lead] = (), *, inner: bool) -> Task:
        if self._tool == KNIFE and any(points_inward(outline, k, inner=inner) for k in sharp_corners(outline)):
            self._tell(say(phrases.INWARD_CORNERS))
        return cut_task(name, outline, self._tool, self._spec, leads, inner=inner)

    def _lead_ins(self) -> list[list[Lead]]:
        """For a trailing blade the ways to begin each piece without cutting into another."""
        offset = self._spec.blade_offset
        if self._tool != KNIFE or offset is None:
            return [[] for _ in self._laid]
        outlines = [self._placed(laid)[0] for laid, _ in self._laid]
        ways = [leads_of(outline, offset, inner=False) for outline in outlines]
        found, nicking = clear_leads(self._points, [outline.points for outline in outlines], ways)
        if nicking:
            self._tell(said.leads_nick(nicking))
        return found

    def _tell(self, note: str) -> None:
        if note not in self.notes:
            self.notes.append(note)


def _round(points: Sequence[Point]) -> Polygon:
    """The box of a line, a little larger than it."""
    left, low, right, high = bounds(points)
    return rectangle(left - 0.1, low - 0.1, right + 0.1, high + 0.1).points


def _seen_from_back(laid: Laid, line: Line, width: float) -> Line:
    """A line of a part's back where it lies once the stock is turned over left to right."""
    # Seen from the back the part's x runs the other way, and so does the stock's.
    places = [laid.point((-x, y)) for x, y in line.points]
    return replace(line, points=tuple((width - x, y) for x, y in places))

"""Filling a stock with one shape: many patterns in many places, the best ones finished with loose pieces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from shapely import affinity

from bellowscut.nesting.budget import Budget
from bellowscut.nesting.convex import FloatArray
from bellowscut.nesting.courses import Courses, Rows, Table
from bellowscut.nesting.field import Around, Field, loose_poses
from bellowscut.nesting.greedy import DIRECTIONS, Laid, lay
from bellowscut.nesting.lattice import REFINED, Pattern, patterns
from bellowscut.nesting.model import AnyTurn, Shape
from bellowscut.nesting.nofit import Pose, pose
from bellowscut.shapes import cos_sin

COARSE, FINE, FINEST = 24, 48, 96
"""Steps of shift and height in a first, a second and a last look [-]."""
REFINING = 20.0
"""Work of improving one pattern of a convex shape [-]."""
POSITIONS = 2.0
"""Work of finding out where a piece may lie on a stock, once a turn [-]."""


@dataclass(frozen=True, eq=False)
class Scheme:
    """One pattern on a stock in one turn."""

    pattern: Pattern
    turn: float
    courses: Courses

    @property
    def beta(self) -> float:
        """Direction of the rows on the stock [deg]."""
        return self.turn - self.pattern.lean


class Filler:
    """All row layouts of one shape on one field around pieces that lie already.

    Parameters
    ----------
    field : Field
        The stock.
    shape : Shape
        The piece.
    laid : Laid
        Pieces that lie already.
    budget : Budget
        Work left to spend.
    turns : sequence of float or None
        Turns of the first piece of a row to try [deg]; None for all that are allowed.
    """

    def __init__(self, field: Field, shape: Shape, laid: Laid, budget: Budget, turns: Sequence[float] | None = None) -> None:
        self.field, self.shape, self.laid, self.budget = field, shape, laid, budget
        self.turns, self.half = _row_turns(shape)
        if turns is not None:
            self.turns = list(turns)
        self.around = Around(field, laid)

    def scheme(self, pattern: Pattern, turn: float, fine: int) -> Scheme:
        """One pattern with its pieces in one turn [deg]."""
        beta, known = turn - pattern.lean, len(self.around)
        area = affinity.rotate(self.around.positions(pose(self.shape, turn % 360)), -beta, origin=(0, 0))
        mate = None
        if pattern.mate is not None:
            mate = affinity.rotate(self.around.positions(pose(self.shape, (turn + 180) % 360)), -beta, origin=(0, 0))
        self.budget.spend(1.0 + POSITIONS * (len(self.around) - known))
        return Scheme(pattern, turn, Courses(self.shape, self.field.gap, pattern, area, mate, fine))

    def schemes(self, fine: int, most: int | None = None) -> list[Scheme]:
        """Every pattern in every turn allowed."""
        refined = min(REFINED, int(self.budget.aside / REFINING))
        chosen = patterns(self.shape, self.field.gap, self.half, refined)[:most]
        turns, allowed = self.turns, self.shape.turns
        if isinstance(allowed, AnyTurn) and allowed.tolerance < 90:
            # From the middle of what is allowed outwards, so that little work finds the straight rows.
            turns = sorted(turns, key=lambda turn: abs((turn - allowed.centre + 180) % 360 - 180))
        return self.made([(pattern, turn) for turn in turns for pattern in chosen], fine)

    def made(self, wanted: Sequence[tuple[Pattern, float]], fine: int) -> list[Scheme]:
        """Patterns in turns, one at least, then as long as there is work to spend."""
        found: list[Scheme] = []
        for pattern, turn in wanted:
            if found and self.budget.spent:
                break
            found.append(self.scheme(pattern, turn, fine))
        return found

    def pieces(self, scheme: Scheme, rows: Rows) -> Laid:
        """The pieces that lie already, and those of some rows."""
        laid = self.laid.copy()
        cosine, sine = cos_sin(scheme.beta)
        turn = np.array([[cosine, sine], [-sine, cosine]])
        sorts: list[tuple[Pose, FloatArray, tuple[float, float]]] = [
            (pose(self.shape, scheme.turn % 360), scheme.courses.edges, (0.0, 0.0))
        ]
        if scheme.courses.mate_edges is not None and scheme.pattern.mate is not None:
            sorts.append((pose(self.shape, (scheme.turn + 180) % 360), scheme.courses.mate_edges, scheme.pattern.mate))
        for piece, edges, offset in sorts:
            points = rows.points(edges, offset) @ turn
            laid.poses += [piece] * len(points)
            laid.points += [(float(x), float(y)) for x, y in points]
        return laid


def _row_turns(shape: Shape) -> tuple[list[float], bool]:
    """Turns of the first piece of a row [deg], and whether each has its half turn."""
    if isinstance(shape.turns, AnyTurn):
        allowed = shape.turns
        span = min(allowed.tolerance, 90.0)
        count = int(span / 5)
        turns = sorted(
            {allowed.centre + 5.0 * k for k in range(-count, count + (count * 5 < span or span < 90))}
            | ({allowed.centre - span, allowed.centre + span} if span < 90 else set())
        )
        return [turn % 360 for turn in turns], allowed.both_ways or allowed.tolerance >= 180
    turns = sorted({turn % 360 for turn in shape.turns})
    half = all(any(abs((turn + 180 - other) % 360) < 1e-9 for other in turns) for turn in turns)
    return ([turn for turn in turns if turn < 180] if half else turns), half


@dataclass(frozen=True, eq=False)
class Candidate:
    """Rows found on a scheme."""

    scheme: Scheme
    table: Table
    rows: Rows


def search(filler: Filler, effort: int) -> list[Candidate]:
    """Row layouts, most pieces first.

    Parameters
    ----------
    filler : Filler
        Stock and shape.
    effort : int
        0 for a first look, 1 for a good one, 2 for all that is worth while.

    Returns
    -------
    list of Candidate
        At most a dozen, no two of the same pattern and turn.
    """
    any_turn = isinstance(filler.shape.turns, AnyTurn)
    budget = filler.budget
    found = _run(budget, filler.schemes(COARSE, 8 if any_turn else (12 if effort == 0 else None)), ((0.0, 0.0),))
    if effort == 0:
        return found[:6]
    quarters = tuple((k / 4, (k * 3 % 4) / 4) for k in range(4 if effort > 1 else 1))
    if any_turn:
        for steps in ((0.0, 1.0, -1.0, 2.0, -2.0), (0.3, -0.3)):
            if budget.spent:
                break
            again = [(c.scheme.pattern, turn) for c in found[:8] for turn in _about(filler.shape, c.scheme.turn, steps)]
            found = _single(found + _run(budget, filler.made(list(dict.fromkeys(again)), FINE), ((0.0, 0.0),)))
    elif not budget.spent:
        again = [(c.scheme.pattern, c.scheme.turn) for c in found[: 12 if effort > 1 else 6]]
        found = _single(found + _run(budget, filler.made(again, FINE), quarters))
    if effort > 1 and not budget.spent:
        again = [(c.scheme.pattern, c.scheme.turn) for c in found[:4]]
        found = _single(found + _run(budget, filler.made(again, FINEST), quarters))
    return found[:12]


def _single(found: list[Candidate]) -> list[Candidate]:
    """The best candidate of each pattern and turn."""
    best: dict[tuple[int, float], Candidate] = {}
    for candidate in sorted(found, key=_merit):
        best.setdefault((id(candidate.scheme.pattern), candidate.scheme.turn), candidate)
    return list(best.values())


def _about(shape: Shape, turn: float, steps: tuple[float, ...]) -> list[float]:
    if not isinstance(shape.turns, AnyTurn):
        return [turn]
    return [(turn + step) % 360 for step in steps if shape.allows((turn + step) % 360)]


def _merit(candidate: Candidate) -> tuple[float, float, float]:
    return (-candidate.rows.total, candidate.scheme.turn, candidate.scheme.pattern.lean)


def _run(budget: Budget, schemes: list[Scheme], offsets: tuple[tuple[float, float], ...]) -> list[Candidate]:
    found: list[Candidate] = []
    for scheme in schemes:
        for start, side in offsets:
            if found and budget.spent:
                return sorted(found, key=_merit)
            table = scheme.courses.table(start, side)
            rows = None if table is None else table.rows()
            budget.spend(0.5 if table is None else table.work)
            if table is not None and rows is not None:
                found.append(Candidate(scheme, table, rows))
    return sorted(found, key=_merit)


def finish(field: Field, shape: Shape, laid: Laid, budget: Budget, most: int | None = None, directions: int = 4) -> Laid:
    """Fill what is left with loose pieces of the same shape, at most `most`, in the best of several directions."""
    best, around = laid, Around(field, laid.copy())
    poses = loose_poses(shape)
    budget.spend(20 + len(poses) * (4 + 0.025 * len(laid)))
    for number, direction in enumerate(DIRECTIONS[:directions]):
        if number and budget.spent:
            break
        trial = laid.copy()
        # Few have room beside the rows, so that once all of them are laid whatever it takes.
        lay([(shape.id, poses, most)], around.positions, trial, field.gap, direction, budget if number else None)
        if len(trial) > len(best):
            best = trial
    return best


def split(filler: Filler, candidate: Candidate, first: int, last: int) -> Laid:
    """Keep the rows from `first` to before `last`, and fill the rest of the stock with the best other rows and loose pieces."""
    kept = filler.pieces(candidate.scheme, candidate.rows.part(first, last))
    turn = candidate.scheme.turn
    turns = [t % 360 for t in (turn, turn + 90, turn + 45, turn - 45)[: 4 if filler.half else 2] if filler.shape.allows(t % 360)]
    if not isinstance(filler.shape.turns, AnyTurn):
        turns = filler.turns
    rest = Filler(filler.field, filler.shape, kept, filler.budget, turns)
    found = search(rest, 0)
    laid = rest.pieces(found[0].scheme, found[0].rows) if found else kept
    return finish(filler.field, filler.shape, laid, filler.budget, None, 2)

"""Pieces packed in rows, for sheets of paper.

Each piece is pushed against those beside it as far as their true outlines
allow, and each row against the rows under it, so that cards turned end for end
and gussets set in the gaps of the row below lie close. Quick rather than best:
paper is cheap. The order of the pieces decides everything, so that the same
pieces always lie the same way.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bellowscut.errors import UsageError
from bellowscut.layout.clearance import clearing_shift, simplified, turned
from bellowscut.shapes import Point, bounds, signed_area
from bellowscut.words import layout as words, say

COARSE = 0.1
"""How far an outline may be simplified before it is packed [mm]; the gap grows by as much."""

LIKE = (0.6, 1.1)
"""Least and greatest height of a piece that may stand in a row [-] of the row's first piece."""

SET_IN = 0.9
"""What a row that starts further in counts [-]: rows begin at the left unless it gains a tenth."""

ANY_TURN = (0, 90, 180, 270)


@dataclass(frozen=True)
class Piece:
    """Something to place.

    Parameters
    ----------
    id : str
        Name for messages.
    outline : tuple of Point
        Counter-clockwise, arcs cut into chords [mm].
    group : str
        Pieces of one group follow each other; groups keep the order in which they come first.
    copies : int
        How many of it [-].
    turns : tuple of int
        Allowed turns [deg], of 0, 90, 180 and 270.
    """

    id: str
    outline: tuple[Point, ...]
    group: str = ""
    copies: int = 1
    turns: tuple[int, ...] = ANY_TURN


@dataclass(frozen=True)
class Placement:
    """Where one copy of a piece lies.

    Parameters
    ----------
    piece : int
        Index in the sequence that was given [-].
    copy : int
        Number of the copy, from 1 [-].
    turn : int
        Counter-clockwise about the piece's origin [deg].
    x, y : float
        How far it is then moved [mm]; the area's lower left corner is the origin.
    sheet : int
        Number of the sheet, from 0 [-].
    """

    piece: int
    copy: int
    turn: int
    x: float
    y: float
    sheet: int


def in_rows(pieces: Sequence[Piece], width: float, height: float, gap: float) -> tuple[Placement, ...]:
    """Place every copy of every piece on as few sheets as rows allow.

    Parameters
    ----------
    pieces : sequence of Piece
        What to place.
    width, height : float
        Of the area of a sheet that may be used [mm].
    gap : float
        Least distance between two pieces [mm].

    Returns
    -------
    tuple of Placement
        Sheet by sheet, row by row from below.

    Raises
    ------
    UsageError
        When a piece is larger than the area in each of its allowed turns.
    """
    packer = _Packer(pieces, width, height, gap)
    turning = any(turn % 180 == 0 for piece in pieces for turn in piece.turns) and any(
        turn % 180 for piece in pieces for turn in piece.turns
    )
    families: tuple[tuple[int, ...], ...] = (ANY_TURN, (0, 180), (90, 270)) if turning else (ANY_TURN,)
    return min(map(packer.run, families), key=lambda run: (run.sheets, round(run.top, 3))).placements


@dataclass(frozen=True)
class _Form:
    """A piece in one turn: outline simplified, box, and a number for the cache."""

    number: int
    piece: int
    turn: int
    points: tuple[Point, ...]
    low: Point
    high: Point

    @property
    def tall(self) -> float:
        return self.high[1] - self.low[1]

    @property
    def wide(self) -> float:
        return self.high[0] - self.low[0]


@dataclass(frozen=True)
class _Put:
    form: _Form
    x: float
    y: float


@dataclass(frozen=True)
class _Run:
    placements: tuple[Placement, ...]
    sheets: int
    top: float


class _Packer:
    def __init__(self, pieces: Sequence[Piece], width: float, height: float, gap: float) -> None:
        self._pieces = pieces
        self._width, self._height, self._gap = width + 1e-6, height + 1e-6, gap + COARSE
        self._beside: dict[tuple[int, int, float], float] = {}
        self._above: dict[tuple[int, int, float], float] = {}
        numbers: dict[tuple[Point, ...], int] = {}
        self._forms: list[dict[int, _Form]] = []
        for index, piece in enumerate(pieces):
            fitting: dict[int, _Form] = {}
            simple = simplified(piece.outline, COARSE / 2)
            for turn in piece.turns:
                box = bounds(turned(piece.outline, turn))
                points = turned(simple, turn)
                form = _Form(numbers.setdefault(points, len(numbers)), index, turn, points, box[:2], box[2:])
                if form.wide <= self._width and form.tall <= self._height:
                    fitting[turn] = form
            if not fitting:
                raise UsageError(say(words.PIECE_OVER_SHEET, id=piece.id, width=f"{width:.0f}", height=f"{height:.0f}"))
            self._forms.append(fitting)

    def run(self, turns: tuple[int, ...]) -> _Run:
        """Fill sheets with the family of turns, where a piece allows it."""
        groups = {piece.group: k for k, piece in reversed(list(enumerate(self._pieces)))}
        order = sorted(
            (k for k, piece in enumerate(self._pieces) if piece.copies > 0),
            key=lambda k: (groups[self._pieces[k].group], -_class(self._choices(k, turns)[0].tall), k),
        )
        left = {k: self._pieces[k].copies for k in order}
        placements: list[Placement] = []
        sheet, top = 0, 0.0
        rows: list[list[_Put]] = []
        while left:
            row = next((found for k in left if (found := self._best_row(k, left, turns, rows))), None)
            if row is None:
                sheet, top, rows = sheet + 1, 0.0, []
                continue
            rows.append(row)
            for put in row:
                k = put.form.piece
                number = self._pieces[k].copies - left[k] + 1
                placements.append(Placement(k, number, put.form.turn, put.x, put.y, sheet))
                top = max(top, put.y + put.form.high[1])
                left[k] -= 1
                if not left[k]:
                    del left[k]
        return _Run(tuple(placements), sheet + 1, top)

    def _choices(self, k: int, turns: tuple[int, ...]) -> list[_Form]:
        """Forms of a piece in these turns, or in any when it fits in none of them."""
        forms = self._forms[k]
        return [forms[turn] for turn in turns if turn in forms] or list(forms.values())

    def _best_row(self, k: int, left: dict[int, int], turns: tuple[int, ...], rows: list[list[_Put]]) -> list[_Put]:
        """The row beginning with a piece that covers most of the height that it adds; empty when none fits."""
        top = max((put.y + put.form.high[1] for row in rows for put in row), default=0.0)
        best: list[_Put] = []
        best_score = -math.inf
        for first in self._choices(k, turns):
            pitch = self._shift_beside(first, first, 0.0)
            for start in (0.0, pitch / 2) if rows else (0.0,):
                row = self._settled(self._filled(first, start, left, turns), rows)
                if not row:
                    continue
                reach = max(put.y + put.form.high[1] for put in row)
                if reach > self._height:
                    continue
                covered = sum(abs(signed_area(put.form.points)) for put in row)
                score = covered / max(reach - top, 0.05 * first.tall) * (SET_IN if start else 1.0)
                if score > best_score * (1 + 1e-9):
                    best, best_score = row, score
        return best

    def _filled(self, first: _Form, start: float, left: dict[int, int], turns: tuple[int, ...]) -> list[_Put]:
        """A row on the height 0, filled from the left."""
        rest = dict(left)
        row: list[_Put] = []
        form: _Form | None = first
        x = start - first.low[0]
        while form is not None and x + form.high[0] <= self._width:
            row.append(_Put(form, x, -form.low[1]))
            rest[form.piece] -= 1
            form, x = self._next(row, rest, turns, first.tall)
        return row

    def _next(self, row: list[_Put], rest: dict[int, int], turns: tuple[int, ...], tall: float) -> tuple[_Form | None, float]:
        for k, copies in rest.items():
            if not copies:
                continue
            fitting: list[tuple[float, int, float, _Form]] = []
            for form in self._choices(k, turns):
                if not tall * LIKE[0] <= form.tall <= tall * LIKE[1]:
                    continue
                x = max(
                    -form.low[0],
                    *(put.x + self._shift_beside(put.form, form, -form.low[1] - put.y) for put in row),
                )
                if x + form.high[0] <= self._width:
                    fitting.append((round(x + form.high[0], 6), len(fitting), x, form))
            if fitting:
                _, _, x, form = min(fitting, key=lambda one: one[:2])
                return form, x
        return None, 0.0

    def _settled(self, row: list[_Put], rows: list[list[_Put]]) -> list[_Put]:
        """The row let down on those under it."""
        lift = 0.0
        placed = [under for below in reversed(rows) for under in below]
        for put in row:
            for under in placed:
                if under.y + under.form.high[1] + self._gap - put.form.low[1] - put.y > lift:
                    lift = max(lift, under.y + self._shift_above(under.form, put.form, put.x - under.x) - put.y)
        return [_Put(put.form, put.x, put.y + lift) for put in row]

    def _shift_beside(self, one: _Form, other: _Form, up: float) -> float:
        key = (one.number, other.number, round(up, 6))
        if key not in self._beside:
            self._beside[key] = clearing_shift(one.points, tuple((x, y + up) for x, y in other.points), self._gap)
        return self._beside[key]

    def _shift_above(self, one: _Form, other: _Form, along: float) -> float:
        if one.high[0] + self._gap <= other.low[0] + along or other.high[0] + along + self._gap <= one.low[0]:
            return -math.inf
        key = (one.number, other.number, round(along, 6))
        if key not in self._above:
            self._above[key] = clearing_shift(
                tuple((y, x) for x, y in reversed(one.points)), tuple((y, x + along) for x, y in reversed(other.points)), self._gap
            )
        return self._above[key]


def _class(tall: float) -> int:
    """Heights within about a twelfth of each other count as alike, so that their pieces keep the given order."""
    return math.floor(math.log(max(tall, 1e-3)) / math.log(1.085))

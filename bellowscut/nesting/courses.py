"""Rows of one pattern laid on a stock, like courses of bricks: the heights and shifts of all rows chosen together for the most pieces.

The stock is turned so that the rows run along x. A table over the height of the last row and its shift holds the most pieces that rows up to
there can have; a lattice with one shift for all rows is one of the ways through it, rows that stand on their own are others.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from shapely.geometry.base import BaseGeometry

from bellowscut.nesting.convex import FloatArray
from bellowscut.nesting.lattice import Pattern
from bellowscut.nesting.model import Shape
from bellowscut.nesting.nofit import NUDGE
from bellowscut.nesting.rims import Rims
from bellowscut.nesting.spans import counts, edges_of, spans


@dataclass(frozen=True, eq=False)
class Rows:
    """Rows chosen together.

    Parameters
    ----------
    pattern : Pattern
        What the rows are made of.
    heights, phases : ndarray, shape (n,)
        Height of each row, and the position of one of its pieces [mm].
    sizes : ndarray, shape (n,)
        Pieces in each row [-].
    """

    pattern: Pattern
    heights: FloatArray
    phases: FloatArray
    sizes: FloatArray

    @property
    def total(self) -> int:
        """Pieces in all rows [-]."""
        return int(self.sizes.sum())

    def part(self, first: int, last: int) -> Rows:
        """The rows from number `first` to before number `last`."""
        return Rows(self.pattern, self.heights[first:last], self.phases[first:last], self.sizes[first:last])

    def points(self, edges: FloatArray, offset: tuple[float, float]) -> FloatArray:
        """Reference points of one sort of piece in the rows.

        Parameters
        ----------
        edges : ndarray, shape (m, 4)
            Boundary of the positions open to the sort [mm].
        offset : tuple of float
            Where the sort lies from the first piece of the pattern [mm].

        Returns
        -------
        ndarray, shape (k, 2)
            Points [mm], rows along x.
        """
        pitch = self.pattern.pitch
        cut = spans(edges, self.heights + offset[1])
        found = []
        for row in range(len(self.heights)):
            phase = self.phases[row] + offset[0]
            for left, right in zip(cut.left[row], cut.right[row], strict=True):
                if right >= left:
                    marks = np.arange(math.ceil((left - phase - NUDGE) / pitch), math.floor((right - phase + NUDGE) / pitch) + 1)
                    x = np.clip(phase + marks * pitch, left, right)
                    found += [(float(value), float(self.heights[row] + offset[1])) for value in x]
        return np.array(found).reshape(-1, 2)


def _fraction(share: float, fine: int) -> tuple[int, int]:
    """The fraction k/m nearest to a share, with m from two thirds of `fine` to `fine`."""
    best = (2.0, 0, 1)
    for m in range(max(1, fine * 2 // 3), fine + 1):
        k = round(share * m)
        if abs(k / m - share) < best[0] - 1e-12:
            best = (abs(k / m - share), k, m)
    return best[1], best[2]


class Courses:
    """All that can be laid in rows of one pattern on one area, seen with the rows along x.

    Parameters
    ----------
    shape : Shape
        The piece.
    gap : float
        Least distance of two pieces [mm].
    pattern : Pattern
        The pattern.
    area : Geometry
        Positions of the reference point of pieces as they lie in the pattern [mm].
    mate_area : Geometry or None
        The same for half-turned pieces; None when the pattern has none.
    fine : int
        Steps of shift in a pitch, and of height in a lift [-].
    """

    def __init__(self, shape: Shape, gap: float, pattern: Pattern, area: BaseGeometry, mate_area: BaseGeometry | None, fine: int) -> None:
        self.pattern = pattern
        self.edges = edges_of(area)
        self.mate_edges = None if mate_area is None or pattern.mate is None else edges_of(mate_area)
        _, self.columns = _fraction(pattern.shift / pattern.pitch, fine)
        shifts = np.arange(self.columns) * (pattern.pitch / self.columns)
        rims = Rims(shape, gap, pattern.mate is not None, pattern.lean, 3.0)
        mate = pattern.mate
        args = (None, None) if mate is None else (np.array([[mate[0]]]), np.array([[mate[1]]]))
        needed = rims.heights(np.array([[pattern.pitch]]), args[0], args[1], shifts[None])[0]
        if not pattern.free:
            needed = np.where(np.arange(self.columns) == round(pattern.shift / pattern.pitch * self.columns) % self.columns, needed, np.inf)
        # The least distance at the shifts tried, not the pattern's own, is cut into whole steps: rows at it then lose nothing by rounding.
        self.step = float(needed.min()) / fine
        self.rise = np.ceil((needed - 1e-6) / self.step)

    def _extent(self) -> tuple[float, float, float, float] | None:
        """Bottom, top and two anchors across and along: lowest heights of both sorts of piece in the terms of the first."""
        boxes = []
        for edges, offset in ((self.edges, (0.0, 0.0)), (self.mate_edges, self.pattern.mate or (0.0, 0.0))):
            if edges is not None and len(edges):
                xs, ys = edges[:, [0, 2]] - offset[0], edges[:, [1, 3]] - offset[1]
                boxes.append((float(ys.min()), float(ys.max()), float(xs.min())))
        if not boxes:
            return None
        return min(b[0] for b in boxes), max(b[1] for b in boxes), max(b[0] for b in boxes), min(b[2] for b in boxes)

    def best(self, start: float = 0.0, side: float = 0.0) -> Rows | None:
        """The rows with the most pieces.

        Parameters
        ----------
        start : float
            Share of a height step by which the rows are raised [-], 0 to 1.
        side : float
            Share of a shift step by which they are moved along [-], 0 to 1.

        Returns
        -------
        Rows or None
            None when nothing fits.
        """
        table = self.table(start, side)
        return None if table is None else table.rows()

    def table(self, start: float = 0.0, side: float = 0.0) -> Table | None:
        """The most pieces that rows up to each height can have."""
        extent = self._extent()
        if extent is None:
            return None
        bottom, top, anchor, left = extent
        base = anchor + NUDGE + start * self.step
        base -= math.ceil((base - bottom) / self.step - 1e-9) * self.step
        heights = base + np.arange(math.floor((top - base + 2 * NUDGE) / self.step) + 1) * self.step
        phases = left + NUDGE + (np.arange(self.columns) + side) * (self.pattern.pitch / self.columns)
        number = counts(spans(self.edges, heights), self.pattern.pitch, phases)
        if self.mate_edges is not None and self.pattern.mate is not None:
            dx, dy = self.pattern.mate
            number += counts(spans(self.mate_edges, heights + dy), self.pattern.pitch, phases + dx)
        return Table(self.pattern, heights, phases, number, self.rise)


class Table:
    """The most pieces that rows up to each height can have, and the way back through them."""

    def __init__(self, pattern: Pattern, heights: FloatArray, phases: FloatArray, number: FloatArray, rise: FloatArray) -> None:
        self.pattern, self.heights, self.phases, self.number = pattern, heights, phases, number
        columns = len(phases)
        reachable = np.flatnonzero(np.isfinite(rise))
        steps = rise[reachable].astype(np.int64)
        self.before = (np.arange(columns)[None, :] - reachable[:, None]) % columns
        self.steps = steps
        # Rows of zeros stand for the floor, and every row is held twice over so that a shift round its end is a plain slice.
        floor, lowest = int(steps.max()), int(steps.min())
        most = np.zeros((floor + len(heights), 2 * columns), dtype=np.int32)
        fresh = number.astype(np.int32)
        for low in range(0, len(heights), lowest):  # rows nearer than the least step never ask for one another
            high = min(low + lowest, len(heights))
            ahead = np.zeros((high - low, columns), dtype=np.int32)
            for shift, step in zip(reachable.tolist(), steps.tolist(), strict=True):
                below = slice(floor + low - step, floor + high - step)
                np.maximum(ahead, most[below, columns - shift : 2 * columns - shift], out=ahead)
            ahead += fresh[low:high]
            np.maximum(ahead[0], most[floor + low - 1, :columns], out=ahead[0])
            np.maximum.accumulate(ahead, axis=0, out=ahead)
            most[floor + low : floor + high, :columns] = most[floor + low : floor + high, columns:] = ahead
        self.most = most[floor - 1 :, :columns]

    @property
    def work(self) -> float:
        """Work that making it took [-]."""
        return 0.5 + len(self.heights) * (0.005 + 6e-7 * self.before.size)

    @property
    def reached(self) -> FloatArray:
        """The most pieces in rows up to each height [-]."""
        return np.asarray(self.most[1:].max(axis=1))

    def rows(self, last: int | None = None) -> Rows | None:
        """The rows with the most pieces, none above the height with number `last`."""
        i = len(self.heights) if last is None else last + 1
        if i == 0:
            return None
        column = int(self.most[i].argmax())
        picked: list[tuple[int, int]] = []
        while i > 0 and self.most[i, column] > 0:
            while i > 0 and self.most[i - 1, column] == self.most[i, column]:
                i -= 1
            row = i - 1
            picked.append((row, column))
            wanted = self.most[i, column] - self.number[row, column]
            if wanted <= 0:
                break
            below = row + 1 - self.steps
            values = np.where(below >= 0, self.most[np.maximum(below, 0), self.before[:, column]], 0.0)
            choice = int(values.argmax())
            i, column = int(below[choice]), int(self.before[choice, column])
        if not picked:
            return None
        picked.reverse()
        at = np.array(picked)
        return Rows(self.pattern, self.heights[at[:, 0]], self.phases[at[:, 1]], self.number[at[:, 0], at[:, 1]])

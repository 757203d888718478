"""How near rows of identical pieces can come: the reach of no-fit outlines along and across a row."""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np

from bellowscut.nesting.convex import FloatArray
from bellowscut.nesting.model import Shape
from bellowscut.nesting.nofit import no_fit, pose


class _Rim:
    """Reach of a union of convex outlines along and across the row."""

    def __init__(self, outlines: Iterable[FloatArray]) -> None:
        self.upper, self.right = [], []
        for outline in outlines:
            self.upper.append(_side(outline))
            self.right.append(_side(np.stack((outline[::-1, 1], outline[::-1, 0]), axis=1)))
        self.half_width = max(float(np.abs(xs).max()) for xs, _ in self.upper)
        self.half_height = max(float(np.abs(ys).max()) for ys, _ in self.right)

    def top(self, x: FloatArray) -> FloatArray:
        """Highest point over each x [mm]; minus infinity where there is none."""
        return _reach(self.upper, x)

    def rightmost(self, y: FloatArray) -> FloatArray:
        """Rightmost point at each y [mm]; minus infinity where there is none."""
        return _reach(self.right, y)


def _side(outline: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Upper side of a convex counter-clockwise outline from left to right."""
    high = int(np.lexsort((outline[:, 1], outline[:, 0]))[-1])
    rolled = np.roll(outline, -high, axis=0)
    low = int(np.lexsort((-rolled[:, 1], rolled[:, 0]))[0])
    chain = rolled[: low + 1][::-1]
    return chain[:, 0].copy(), chain[:, 1].copy()


def _reach(sides: list[tuple[FloatArray, FloatArray]], at: FloatArray) -> FloatArray:
    reach: FloatArray | None = None
    for along, across in sides:
        found = np.interp(at, along, across, left=-np.inf, right=-np.inf)
        reach = found if reach is None else np.maximum(reach, found, out=reach)
    assert reach is not None
    return reach


class Rims:
    """No-fit outlines of a shape and its half turn, turned so that rows run along x.

    Parameters
    ----------
    shape : Shape
        The shape.
    gap : float
        Least distance of two pieces [mm].
    half_turn : bool
        Whether half-turned pieces are allowed.
    lean : float
        Turn of the pieces [deg].
    step : float
        Angle between tangents at round corners [deg].
    """

    def __init__(self, shape: Shape, gap: float, half_turn: bool, lean: float, step: float) -> None:
        one = pose(shape, 0.0)
        angle = math.radians(lean)
        turn = np.array([[math.cos(angle), math.sin(angle)], [-math.sin(angle), math.cos(angle)]])
        self.like = _Rim([outline @ turn for outline in no_fit(one, one, gap, step)])
        self.mixed = self.reverse = self.like
        if half_turn:
            outlines = [outline @ turn for outline in no_fit(one, pose(shape, 180.0), gap, step)]
            self.mixed = _Rim(outlines)
            self.reverse = _Rim([-outline for outline in outlines])
        across = (one.points @ turn)[:, 1]
        self.flush = float(across.max() + across.min())

    def heights(self, pitch: FloatArray, dx: FloatArray | None, dy: FloatArray | None, shifts: FloatArray) -> FloatArray:
        """Least distance of the next row for rows of given pitch and mate, at given shifts.

        Parameters
        ----------
        pitch : ndarray, shape (n, 1)
            Pitch [mm].
        dx, dy : ndarray, shape (n, 1), or None
            Where the mate lies [mm].
        shifts : ndarray, shape (n, m)
            Shift of the next row [mm].

        Returns
        -------
        ndarray, shape (n, m)
            Distance [mm].
        """
        far = float(np.max(self.like.half_width / pitch))
        if dx is not None:
            far = max(far, float(np.max((max(self.mixed.half_width, self.reverse.half_width) + np.abs(dx)) / pitch)))
        reach = math.ceil(far) + 1
        steps = np.arange(-reach, reach + 1)
        at = shifts[:, :, None] + pitch[:, :, None] * steps
        highest = self.like.top(at)
        if dx is not None and dy is not None:
            highest = np.maximum(highest, self.mixed.top(at + dx[:, :, None]) - dy[:, :, None])
            highest = np.maximum(highest, self.reverse.top(at - dx[:, :, None]) + dy[:, :, None])
        return np.asarray(highest.max(axis=2))

    def rows(self, dy: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Mate distance and pitch for rows whose mates lie at given heights [mm]."""
        dx = self.mixed.rightmost(dy)
        back = self.reverse.rightmost(-dy)
        pitch = np.maximum(self.like.rightmost(np.zeros(1)), dx + back)
        return dx, pitch

"""The SPLINE of a DXF.

Evaluated here and not by a library: one that was tried follows a closed spline, whose knots begin before its curve does, out to where there
is no curve.
"""

from __future__ import annotations

import itertools

import numpy as np
from numpy.typing import NDArray

from bellowscut.shapes import Point
from bellowscut.tracing.curves import CHORD
from bellowscut.tracing.dxf_curves import Line, Plane, Tags, first
from bellowscut.tracing.limits import FARTHEST, MOST_POINTS
from bellowscut.tracing.model import TracingError
from bellowscut.words import say, tracing as words

FloatArray = NDArray[np.float64]

HIGHEST_DEGREE = 10
"""Of a spline [-]; drawing programs write 3."""

MOST_CONTROL_POINTS = 10_000
"""Of a spline [-]."""

MOST_FIT_POINTS = 1_000
"""Of a spline that is given by the points it runs through [-]."""

PIECES = 4
"""Chords between two knots to begin with [-]."""

HALVINGS = 12
"""How often a chord that is off may be halved [-]."""


def spline(tags: Tags, plane: Plane) -> Line:
    """A SPLINE, by its control points and knots or by the points it runs through."""
    control, fit = _points(tags, 10, plane), _points(tags, 11, plane)
    knots = [value for code, value in tags if code == 40]
    weights = [value for code, value in tags if code == 41]
    degree = int(first(tags, 71, 3))
    if not 1 <= degree <= HIGHEST_DEGREE or len(control) > MOST_CONTROL_POINTS or (not control and len(fit) > MOST_FIT_POINTS):
        raise TracingError(say(words.DXF_SPLINE_TOO_LARGE))
    if not control:
        control, knots, degree = _through(fit)
        weights = []
    if len(knots) != len(control) + degree + 1 or len(control) <= degree or len(weights) not in (0, len(control)):
        raise TracingError(say(words.DXF_SPLINE_INCOMPLETE))
    falls = any(later < sooner for sooner, later in itertools.pairwise(knots))
    if (
        falls
        or knots[-1] - knots[0] > FARTHEST
        or not knots[degree] < knots[len(control)]
        or any(not 1e-6 <= weight <= 1e6 for weight in weights)
    ):
        raise TracingError(say(words.DXF_SPLINE_CANNOT_BE_DRAWN))
    points = _flattened(np.array(control), np.array(weights or [1.0] * len(control)), np.array(knots), degree)
    return [plane.budget.point(float(x), float(y)) for x, y in points], False


def _points(tags: Tags, code: int, plane: Plane) -> list[Point]:
    """All points of a group code [mm]; their heights are noted."""
    found = []
    x = 0.0
    for had, value in tags:
        if had == code:
            x = value
        elif had == code + 10:
            found.append(plane.budget.near(x * plane.scale, value * plane.scale))
        elif had == code + 20:
            plane.at(value)
    return found


def _through(fit: list[Point]) -> tuple[list[Point], list[float], int]:
    """Control points [mm], knots and degree of the curve that drawing programs lay through some points."""
    from ezdxf.math import fit_points_to_cad_cv

    distinct = [point for k, point in enumerate(fit) if k == 0 or point != fit[k - 1]]
    if len(distinct) < 2:
        raise TracingError(say(words.DXF_SPLINE_OF_ONE_POINT))
    if len(distinct) == 2:
        return distinct, [0.0, 0.0, 1.0, 1.0], 1
    try:
        curve = fit_points_to_cad_cv(distinct)
    except (ArithmeticError, ValueError, IndexError):
        raise TracingError(say(words.DXF_SPLINE_CANNOT_BE_DRAWN)) from None
    return [(point.x, point.y) for point in curve.control_points], list(curve.knots()), curve.degree


def _flattened(control: FloatArray, weights: FloatArray, knots: FloatArray, degree: int) -> FloatArray:
    """Points on the curve, as close as its chords need them [mm]."""
    spans = np.unique(knots[degree : len(control) + 1])
    steps = np.arange(PIECES) / PIECES
    at = np.append((spans[:-1, None] + np.diff(spans)[:, None] * steps).ravel(), spans[-1])
    weighted = np.column_stack((control * weights[:, None], weights))
    points = _curve(weighted, knots, degree, at)
    for _ in range(HALVINGS):
        middle = (at[:-1] + at[1:]) / 2
        found = _curve(weighted, knots, degree, middle)
        off = np.linalg.norm(found - (points[:-1] + points[1:]) / 2, axis=1) > CHORD
        if not off.any():
            break
        if len(at) + np.count_nonzero(off) > MOST_POINTS:
            raise TracingError(say(words.TOO_MANY_POINTS, most=MOST_POINTS))
        places = np.flatnonzero(off) + 1
        at, points = np.insert(at, places, middle[off]), np.insert(points, places, found[off], axis=0)
    return points


def _curve(weighted: FloatArray, knots: FloatArray, degree: int, at: FloatArray) -> FloatArray:
    """Points of a rational B-spline by de Boor's algorithm, shape (n, 2) [mm]."""
    span = np.clip(np.searchsorted(knots, at, side="right") - 1, degree, len(weighted) - 1)
    net = weighted[span[:, None] + np.arange(-degree, 1)]
    for level in range(1, degree + 1):
        for j in range(degree, level - 1, -1):
            low, high = knots[span + j - degree], knots[span + j + 1 - level]
            share = np.divide(at - low, high - low, out=np.zeros_like(at), where=high > low)[:, None]
            net[:, j] = (1 - share) * net[:, j - 1] + share * net[:, j]
    return np.asarray(net[:, degree, :2] / net[:, degree, 2:])

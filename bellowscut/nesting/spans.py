"""Where lines across an area run inside it, and how many marks at one pitch fall there."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from bellowscut.nesting.convex import FloatArray
from bellowscut.nesting.nofit import NUDGE, polygons_of


@dataclass(frozen=True, eq=False)
class Spans:
    """Where a horizontal line runs inside an area, for many heights.

    Parameters
    ----------
    left, right : ndarray, shape (n, k)
        Ends of the spans at each height [mm], in order; right is below left where there is none.
    """

    left: FloatArray
    right: FloatArray


def edges_of(area: BaseGeometry) -> FloatArray:
    """All boundary segments of polygons as rows of x0, y0, x1, y1 [mm]."""
    found = [np.zeros((0, 4))]
    for polygon in polygons_of(area):
        for ring in (polygon.exterior, *polygon.interiors):
            points = shapely.get_coordinates(ring)
            found.append(np.concatenate((points[:-1], points[1:]), axis=1))
    return np.concatenate(found)


def spans(edges: FloatArray, heights: FloatArray) -> Spans:
    """Cut an area along horizontal lines.

    Parameters
    ----------
    edges : ndarray, shape (m, 4)
        Boundary segments [mm].
    heights : ndarray, shape (n,)
        Heights of the lines [mm].

    Returns
    -------
    Spans
        The spans of each line inside the area.
    """
    slanted = edges[edges[:, 1] != edges[:, 3]]
    if not len(slanted):
        return Spans(np.zeros((len(heights), 1)), np.full((len(heights), 1), -1.0))
    low, high = np.minimum(slanted[:, 1], slanted[:, 3]), np.maximum(slanted[:, 1], slanted[:, 3])
    slope = (slanted[:, 2] - slanted[:, 0]) / (slanted[:, 3] - slanted[:, 1])
    # A line that only touches the area from outside by rounding is moved in.
    heights = np.where(np.abs(heights - low.min()) < 2 * NUDGE, low.min() + NUDGE / 2, heights)
    heights = np.where(np.abs(heights - high.max()) < 2 * NUDGE, high.max() - NUDGE / 2, heights)
    order = np.argsort(low, kind="stable")
    slanted, low, high, slope = slanted[order], low[order], high[order], slope[order]
    hit = (low[None] <= heights[:, None]) & (heights[:, None] < high[None])
    counts = hit.sum(axis=1)
    most = max(2, int(counts.max()))
    row, edge = np.nonzero(hit)
    x = slanted[edge, 0] + (heights[row] - slanted[edge, 1]) * slope[edge]
    crossings = np.full((len(heights), most + most % 2), np.inf)
    place = np.arange(len(row)) - np.repeat(np.cumsum(counts) - counts, counts)
    crossings[row, place] = x
    crossings.sort(axis=1)
    left, right = crossings[:, 0::2], crossings[:, 1::2]
    missing = ~np.isfinite(right)
    return Spans(np.where(missing, 0.0, left), np.where(missing, -1.0, right))


def counts(cut: Spans, pitch: float, phases: FloatArray) -> FloatArray:
    """How many marks at one pitch fall inside the spans of each line, for many phases.

    Parameters
    ----------
    cut : Spans
        Spans of n lines.
    pitch : float
        Distance of the marks [mm].
    phases : ndarray, shape (m,)
        Position of one mark [mm].

    Returns
    -------
    ndarray, shape (n, m)
        Numbers [-].
    """
    total = np.zeros((cut.left.shape[0], len(phases)))
    for k in range(cut.left.shape[1]):
        first = np.ceil((cut.left[:, k, None] - phases - NUDGE) / pitch)
        last = np.floor((cut.right[:, k, None] - phases + NUDGE) / pitch)
        total += np.where(cut.right[:, k, None] >= cut.left[:, k, None], np.maximum(0.0, last - first + 1), 0.0)
    return total

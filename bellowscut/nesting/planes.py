"""How deep pieces reach into one another, for very many pairs at once: their no-fit outlines as half-planes in arrays."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bellowscut.nesting.convex import FloatArray, IntArray
from bellowscut.nesting.nofit import Pose, no_fit

PLAY = 2e-7
"""Overlap that counts as none when pieces are pushed about [mm]: rounding, well below what the judge lets pass."""


class Planes:
    """No-fit outlines of every pair of poses, to be indexed by pair.

    Parameters
    ----------
    poses : sequence of Pose
        All poses that occur.
    gap : float
        Least distance [mm].
    """

    def __init__(self, poses: Sequence[Pose], gap: float) -> None:
        outlines = [[no_fit(one, other, gap) for other in poses] for one in poses]
        most = max(len(some) for row in outlines for some in row)
        sides = max(len(outline) for row in outlines for some in row for outline in some)
        count = len(poses)
        self.across, self.up = np.zeros((2, count, count, most, sides))
        self.reach = np.full((count, count, most, sides), np.inf)
        self.reach[:, :, :, 0] = -1.0  # a pair with fewer outlines has empty ones: nothing is ever inside them
        self.low, self.high = np.zeros((2, 2, count, count))
        self.radius = 0.0
        for i in range(count):
            for j in range(count):
                for k, outline in enumerate(outlines[i][j]):
                    edges = np.roll(outline, -1, axis=0) - outline
                    normals = np.stack((edges[:, 1], -edges[:, 0]), axis=1) / np.hypot(edges[:, 0], edges[:, 1])[:, None]
                    self.across[i, j, k, : len(outline)], self.up[i, j, k, : len(outline)] = normals.T
                    self.reach[i, j, k, : len(outline)] = np.einsum("ij,ij->i", normals, outline)
                    self.radius = max(self.radius, float(np.hypot(outline[:, 0], outline[:, 1]).max()))
                corners = np.concatenate(outlines[i][j])
                self.low[:, i, j], self.high[:, i, j] = corners.min(axis=0), corners.max(axis=0)
        self.size = most * sides

    def depth(self, lying: IntArray, laid: IntArray, away: FloatArray) -> FloatArray:
        """How deep positions lie in no-fit outlines.

        Parameters
        ----------
        lying, laid : ndarray, shape (n,)
            Numbers of the poses of both pieces of each pair.
        away : ndarray, shape (n, 2)
            Where the second piece lies from the first [mm].

        Returns
        -------
        ndarray, shape (n,)
            The way out of the deepest outline [mm], 0 for pieces that are far enough apart.
        """
        across, up = away[:, 0], away[:, 1]
        boxed = (across > self.low[0][lying, laid]) & (across < self.high[0][lying, laid])
        boxed &= (up > self.low[1][lying, laid]) & (up < self.high[1][lying, laid])
        near = np.flatnonzero(boxed)
        i, j = lying[near], laid[near]
        values = self.reach[i, j] - self.across[i, j] * across[near, None, None] - self.up[i, j] * up[near, None, None]
        depth = np.zeros(len(away))
        depth[near] = np.maximum(values.min(axis=2).max(axis=1, initial=0.0), 0.0)
        return depth

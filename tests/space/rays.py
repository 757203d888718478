"""Looking along rays: which flat face of a body the eye meets first, by triangles and nothing else."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tests.space.cards import Array


def sight(seen: Sequence[tuple[float, float]]) -> Array:
    """Direction from the picture towards the eye, from where the origin and the three axes' unit points are seen.

    Of all directions it is the one along which nothing moves in the picture.
    """
    origin = np.array(seen[0])
    across, up = (np.array([np.array(one)[k] - origin[k] for one in seen[1:]]) for k in (0, 1))
    found = np.cross(across, up)
    return np.asarray(found if found[2] > 0 else -found, dtype=np.float64)


class Body:
    """Flat convex faces, cut into triangles.

    Parameters
    ----------
    faces : sequence of points
        Corners of each face in space [mm].
    """

    def __init__(self, faces: Sequence[Sequence[tuple[float, float, float]]]) -> None:
        triangles, owner = [], []
        for k, face in enumerate(faces):
            for i in range(1, len(face) - 1):
                triangles.append((face[0], face[i], face[i + 1]))
                owner.append(k)
        self._corner = np.array([one[0] for one in triangles])
        self._one = np.array([one[1] for one in triangles]) - self._corner
        self._two = np.array([one[2] for one in triangles]) - self._corner
        self._owner = np.array(owner)

    def first(self, origin: Array, toward_eye: Array, rim: float) -> int | None:
        """The face nearest to the eye on a ray; -1 for none, None where the ray passes too near to an edge to say.

        The ray is cut with the plane of each triangle (Moller and Trumbore, 1997).

        Parameters
        ----------
        origin : array
            Any point of the ray [mm].
        toward_eye : array
            Its direction.
        rim : float
            Share of a triangle at its edges in which nothing is decided [-].
        """
        p = np.cross(toward_eye, self._two)
        determinant = np.einsum("ij,ij->i", self._one, p)
        # A triangle seen from its very edge has no inside.
        flat = np.abs(determinant) < 1e-9
        inverse = 1 / np.where(flat, 1.0, determinant)
        from_corner = origin - self._corner
        u = np.einsum("ij,ij->i", from_corner, p) * inverse
        q = np.cross(from_corner, self._one)
        v = (q @ toward_eye) * inverse
        along = np.einsum("ij,ij->i", self._two, q) * inverse
        inner = np.minimum(np.minimum(u, v), 1 - u - v)
        if np.any((np.abs(inner) < rim) & ~flat):
            return None
        hit = (inner > 0) & ~flat
        if not hit.any():
            return -1
        at = np.where(hit, along, -np.inf)
        nearest = int(np.argmax(at))
        rivals = hit & (at > at[nearest] - 1e-7) & (self._owner != self._owner[nearest])
        return None if rivals.any() else int(self._owner[nearest])

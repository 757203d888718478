"""Air in a bellows, by slicing the placed cards and by closing a mesh round them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import numpy as np
from shapely import Polygon

from tests.space.cards import RIDGE_LEFT, RIDGE_RIGHT, VALLEY_LEFT, VALLEY_RIGHT, Array, Ring
from tests.space.leather import Folded

Triangles = list[tuple[Array, Array, Array]]


def sliced_volume(cards: Ring, slices: int = 5) -> float:
    """Volume inside one ring of cards with flat leather at its corners, by areas of horizontal slices [mm^3]."""
    places, weights = np.polynomial.legendre.leggauss(slices)
    total = 0.0
    for place, weight in zip((places + 1) / 2, weights / 2, strict=True):
        outline = []
        for card in cards.placed:
            outline += [
                card[RIDGE_LEFT] + (card[VALLEY_LEFT] - card[RIDGE_LEFT]) * place,
                card[RIDGE_RIGHT] + (card[VALLEY_RIGHT] - card[RIDGE_RIGHT]) * place,
            ]
        total += weight * Polygon([(p[0], p[1]) for p in outline]).area * cards.rise
    return float(total)


def mesh_volume(triangles: Triangles) -> float:
    """Volume inside a closed mesh by the divergence theorem [mm^3].

    Raises
    ------
    AssertionError
        When the mesh has a hole or two faces that look different ways.
    """
    faces = np.array(triangles)
    corners, names = np.unique(np.round(faces.reshape(-1, 3), 6) + 0.0, axis=0, return_inverse=True)
    edges: Counter[tuple[int, int]] = Counter()
    for a, b, c in names.reshape(-1, 3).tolist():
        edges.update((p, q) for p, q in ((a, b), (b, c), (c, a)) if p != q)
    for (p, q), number in edges.items():
        assert number == edges[q, p], f"the mesh is open at {corners[p]} to {corners[q]}"
    return float(np.linalg.det(faces).sum() / 6)


def bellows_mesh(cards: Ring, number: int) -> Triangles:
    """The whole skin of a bellows of so many cards a side with flat leather, closed by a lid at each end.

    Parameters
    ----------
    cards : Ring
        One ring of cards.
    number : int
        Cards down one side, even.
    """
    half: Triangles = []
    for i, card in enumerate(cards.placed):
        ridge_before, valley_before, ridge_after, valley_after = cards.corner(i)
        half += _card(card)
        half += [(ridge_before, ridge_after, valley_after), (ridge_before, valley_after, valley_before)]
    skin: Triangles = []
    over = np.array([1.0, 1.0, -1.0])
    for k in range(number):
        lift = np.array([0.0, 0.0, cards.rise * k])
        if k % 2 == 0:
            skin += [(a + lift, b + lift, c + lift) for a, b, c in half]
        else:
            up = np.array([0.0, 0.0, cards.rise * (k + 1)])
            skin += [(a * over + up, c * over + up, b * over + up) for a, b, c in half]
    rim = _rim(cards, RIDGE_LEFT, RIDGE_RIGHT)
    top = np.array([0.0, 0.0, cards.rise * number])
    return skin + _lid(rim, -1) + _lid([point + top for point in rim], 1)


def ring_mesh(cards: Ring, leather: Callable[[int], Folded]) -> Triangles:
    """One ring of cards with folded leather at its corners, closed by a lid at the ridge and one at the valley."""
    skin: Triangles = []
    valley: list[Array] = []
    for i, card in enumerate(cards.placed):
        sheet = leather(i)
        skin += _card(card)
        skin += [(a, c, b) for a, b, c in sheet.faces]
        valley += [sheet.valley_before, sheet.middle, sheet.valley_after]
    return skin + _lid(_rim(cards, RIDGE_LEFT, RIDGE_RIGHT), -1) + _lid(valley, 1)


def _card(card: Array) -> Triangles:
    return [(card[0], card[1], card[2]), (card[0], card[2], card[3])]


def _rim(cards: Ring, *places: int) -> list[Array]:
    return [card[place] for card in cards.placed for place in places]


def _lid(rim: list[Array], way: int) -> Triangles:
    """A fan over a rim that runs counter-clockwise; `way` 1 looks up, -1 down."""
    centre = np.mean(rim, axis=0)
    return [(centre, p, q) if way > 0 else (centre, q, p) for p, q in zip(rim, rim[1:] + rim[:1], strict=True)]

"""The closed stack: what lies on what when the bellows is shut, and what therefore governs its length.

A count of layers, not a law: leather gives and glue fills. Thicknesses in millimetres.
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Layers:
    """Thickness of everything that lies in one cell (two cards) [mm]; 0 for what is not made.

    Parameters
    ----------
    card, facing, valley_hinge, ridge_hinge, valley_strip, ridge_cloth : float
        Sheet thicknesses.
    strip_at_ridge : float
        Edge strip over the ridge: full thickness where its lap is wider than its skive, else the mean.
    strip_on_flank : float
        Edge strip's mean thickness over its lap.
    gusset, gusset_lap : float
        Gusset leather, and its mean thickness over the lap.
    cover : float
        Cover gusset over the whole of the old one.
    """

    card: float
    facing: float
    valley_hinge: float
    ridge_hinge: float
    valley_strip: float
    ridge_cloth: float
    strip_at_ridge: float
    strip_on_flank: float
    gusset: float
    gusset_lap: float
    cover: float


@dataclass(frozen=True)
class Stack:
    """Thickness of one closed cell at its four places [mm]."""

    face: float
    valley: float
    ridge: float
    corner: float

    @property
    def governs(self) -> str:
        """The thickest place, which decides the closed length."""
        return max(("face", "valley", "ridge", "corner"), key=lambda place: float(getattr(self, place)))

    def closed_length(self, cells: float, factor: float) -> float:
        """Closed length of `cells` cells [mm]; `factor` [-] is what one's own bellows have taught."""
        return cells * float(getattr(self, self.governs)) * factor


def mean_lap(thickness: float, feather: float, skive: float, lap: float) -> float:
    """Mean thickness of a skived lap [mm].

    Parameters
    ----------
    thickness, feather : float
        Leather, and its edge after skiving [mm].
    skive, lap : float
        Width that is skived, and the whole lap [mm].

    Returns
    -------
    float
        (thickness + feather)/2 over the skive and the full thickness over the rest, weighted over the lap.

    Examples
    --------
    >>> round(mean_lap(0.6, 0.2, 5, 7), 4)
    0.4571
    """
    return ((thickness + feather) / 2 * skive + thickness * (lap - skive)) / lap


def closed_stack(layers: Layers) -> Stack:
    """Count the layers of one closed cell at face, valley, ridge and corner [mm]."""
    two_cards = 2 * layers.card
    return Stack(
        face=two_cards + 2 * layers.facing,
        valley=two_cards + 2 * (layers.valley_hinge + layers.facing + layers.valley_strip),
        ridge=two_cards + 2 * (layers.ridge_hinge + layers.ridge_cloth + layers.strip_at_ridge),
        corner=two_cards
        + 2 * (layers.gusset_lap + layers.cover + layers.strip_on_flank + layers.ridge_hinge)
        + 4 * (layers.gusset + layers.cover),
    )


def bend_allowance(angle: float, inside_radius: float, thickness: float, neutral: float) -> float:
    """Developed length of a strip over an edge [mm].

    Parameters
    ----------
    angle : float
        Angle that the strip turns through [deg].
    inside_radius, thickness : float
        Radius of its inner face, and the strip [mm].
    neutral : float
        Place of the line that keeps its length, as a share of the thickness [-]; 0.5 is the mid-line.

    References
    ----------
    Sheet-metal bending tables of engineers' handbooks (source key ``bending``).

    Examples
    --------
    >>> round(bend_allowance(180, 1.0, 0.6, 0.5), 4)
    4.0841
    """
    return math.radians(angle) * (inside_radius + neutral * thickness)

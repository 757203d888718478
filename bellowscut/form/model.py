"""The pieces of a form, and in which order they leave the bellows."""

from __future__ import annotations

from dataclasses import dataclass

from bellowscut.form.sizes import FormSizes
from bellowscut.parts.part import Part
from bellowscut.shapes import Point, Side


@dataclass(frozen=True)
class Segment:
    """What stands on one side of the section: a side board with its combs.

    Parameters
    ----------
    side : int
        Which side, A is 0 [-].
    places : tuple of float
        Middles of its combs along the side, from the corner where it begins [mm].
    left, right : float
        Edges of the side board along the side [mm].
    comb : float
        Depth of a comb from the form's ridges to its back [mm].
    ply : float
        Thickness of all boards [mm].
    """

    side: int
    places: tuple[float, ...]
    left: float
    right: float
    comb: float
    ply: float

    @property
    def depth(self) -> float:
        """From the form's ridges to the back of the side board [mm]."""
        return self.comb + self.ply

    def rectangles(self, side: Side, top: float = 0.0) -> tuple[tuple[Point, ...], ...]:
        """Its boards seen along the bellows, each four corners: the combs, and last the side board [mm].

        Parameters
        ----------
        side : Side
            The side that it stands on, of the form's ridges.
        top : float
            Depth at which the combs begin: 0 at the form's ridges [mm].
        """

        def box(left: float, right: float, low: float, high: float) -> tuple[Point, ...]:
            return side.at(left, low), side.at(right, low), side.at(right, high), side.at(left, high)

        combs = tuple(box(x - self.ply / 2, x + self.ply / 2, top, self.depth) for x in self.places)
        return (*combs, box(self.left, self.right, self.comb, self.depth))


@dataclass(frozen=True)
class Step:
    """One piece leaving the bellows.

    Parameters
    ----------
    piece : str
        ``end``, ``core``, or the letters of a side.
    inward : float
        How far it first moves inward [mm].
    room : float
        Least distance to anything that stays while it moves inward and out [mm].
    aside : float
        How far it slips along its side at the same time, towards the next side; negative is towards the one before [mm].
    """

    piece: str
    inward: float
    room: float
    aside: float = 0.0


@dataclass(frozen=True)
class Form:
    """A form, worked out and proved to come apart.

    Parameters
    ----------
    sizes : FormSizes
        What all pieces share.
    segments : tuple of Segment
        One a side, from A.
    core : tuple of Point
        The core's section [mm].
    parts : tuple of Part
        Every distinct piece to cut.
    steps : tuple of Step
        How it comes out, in order.
    """

    sizes: FormSizes
    segments: tuple[Segment, ...]
    core: tuple[Point, ...]
    parts: tuple[Part, ...]
    steps: tuple[Step, ...]

    @property
    def leaving(self) -> tuple[Step, ...]:
        """The steps of the segments, without those of core and end plates."""
        return tuple(step for step in self.steps if step.piece not in ("end", "core"))

    @property
    def key(self) -> str:
        """Letters of the side whose segment leaves first."""
        return self.leaving[0].piece

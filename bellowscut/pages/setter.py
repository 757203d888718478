"""Setting blocks of words, tables and pictures from the top of a page down, and on to the next page when one is full."""

from __future__ import annotations

from abc import ABC, abstractmethod

from bellowscut.drawing import Item, Label
from bellowscut.lettering import CAPITAL
from bellowscut.pages.papers import MARGIN

HEADING = 3.8
"""Letters of a heading [mm]."""

GAP = 5.0
"""Over a heading [mm]."""

INSIDE = 2.0
"""From the margin to the text [mm]."""

SIDE = MARGIN + INSIDE
"""From the edge of the paper to the text, with the usual margin [mm]."""


class Setter(ABC):
    """Sets blocks from the top down and opens a new page when one does not fit.

    Parameters
    ----------
    paper : tuple of float
        Width and height of a sheet [mm].
    margin : float
        Edge of the paper that stays white [mm].
    """

    def __init__(self, paper: tuple[float, float], margin: float = MARGIN) -> None:
        self.paper, self.margin = paper, margin
        self.left, self.right = margin + INSIDE, paper[0] - margin - INSIDE
        self.low = margin + INSIDE
        self.done: list[list[Item]] = []
        self.y = 0.0
        self.turn()

    @property
    def width(self) -> float:
        """Width of the text [mm]."""
        return self.right - self.left

    @property
    def items(self) -> list[Item]:
        """The page being set."""
        return self.done[-1]

    @abstractmethod
    def turn(self) -> None:
        """Begin a page with its head."""

    def need(self, height: float) -> None:
        """Turn the page unless so much room is left [mm]."""
        if self.y - height < self.low:
            self.turn()

    def heading(self, text: str, x: float | None = None) -> None:
        """A heading at the present height; the height moves under it."""
        self.y -= GAP
        self.items.append(Label(text, (self.left if x is None else x, self.y - HEADING * CAPITAL + 1.0), HEADING, bold=True))
        self.y -= HEADING * CAPITAL + 1.0

"""What the blocks of the measuring sheet have in common: what the sheet is for, columns, headings, what a key says."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from bellowscut.drawing import Label
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.measuring_form import HINT, Block
from bellowscut.pages.setter import HEADING
from bellowscut.reading import key_named
from bellowscut.toml_lines import undotted
from bellowscut.words import say

NARROW = 165.0
"""On narrower forms figures stand under the questions, not beside them [mm]."""

APART = 5.0
"""Between two columns [mm]."""

Blank = Callable[[], Block]


@dataclass
class Sheet:
    """What a sheet is for, and how far its questions have been numbered.

    Parameters
    ----------
    section : str
        Shape of the section.
    sides : int
        Number of sides [-].
    pitch : float
        From one line to write on to the next [mm].
    room : float
        Height of a page without its head [mm].
    """

    section: str
    sides: int
    pitch: float
    room: float
    asked: int = field(default=0, init=False)

    def number(self) -> str:
        """The number of the next question."""
        self.asked += 1
        return str(self.asked)


def key_help(name: str) -> str:
    """What a profile key is, as `new` says it."""
    found = key_named(undotted(name))
    assert found is not None
    return say(found[0].help)


def columns_under(block: Block, share: float) -> tuple[Block, Block] | None:
    """Two blocks side by side under a block; None where the form is too narrow."""
    if block.width < NARROW:
        return None
    middle = block.left + share * block.width
    return Block(block.left, middle - APART / 2, block.pitch), Block(middle + APART / 2, block.right, block.pitch)


def heading(block: Block, text: str, more: str = "") -> None:
    """A heading, and in the same line what is to be said of the whole."""
    block.y -= 3.6
    y = block.y - HEADING * CAPITAL
    block.items.append(Label(text, (block.left, y), HEADING, bold=True))
    block.y = y - 1.2
    if more:
        x = block.left + text_width(text, HEADING, bold=True) + 4.0
        if x + text_width(more, HINT) <= block.right:
            block.items.append(Label(more, (x, y), HINT))
        else:
            block.text(more)


def key_choices(name: str) -> tuple[str, ...]:
    """What a profile key may be."""
    found = key_named(undotted(name))
    assert found is not None
    return found[0].choices

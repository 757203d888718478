"""Sizes of paper by name or number, and the margin that may be left white on it."""

from __future__ import annotations

import math
import re

from bellowscut.errors import UsageError
from bellowscut.words import say, sheets as words

PAPERS = {
    "a5": (148.0, 210.0),
    "a4": (210.0, 297.0),
    "a3": (297.0, 420.0),
    "a2": (420.0, 594.0),
    "a1": (594.0, 841.0),
    "a0": (841.0, 1189.0),
    "letter": (8.5 * 25.4, 11 * 25.4),
    "legal": (8.5 * 25.4, 14 * 25.4),
    "tabloid": (11 * 25.4, 17 * 25.4),
    "ansi-c": (17 * 25.4, 22 * 25.4),
    "ansi-d": (22 * 25.4, 34 * 25.4),
    "ansi-e": (34 * 25.4, 44 * 25.4),
    "arch-c": (18 * 25.4, 24 * 25.4),
    "arch-d": (24 * 25.4, 36 * 25.4),
    "arch-e": (36 * 25.4, 48 * 25.4),
}
"""Papers by name [mm]: ISO 216, the inch papers, and the inch papers of plotters."""

USUAL = "a4"
"""The paper that is taken when none is named."""

SMALLEST = (148.0, 210.0)
"""Least short and long side of a paper that holds the bars and a pattern [mm]."""

LARGEST = 5000.0
"""Greatest side of a paper [mm]: a viewer shows no page over 200 in."""

MARGIN = 10.0
"""Edge of the paper that is left white when nothing else is asked for [mm]: few printers reach further out."""

MARGINS = (3.0, 30.0)
"""Least and greatest margin that may be asked for [mm]."""

READ_AT_HAND = 450.0
"""Longest side of a paper that is read in the hand [mm]."""

_UNITS = {"": 1.0, "mm": 1.0, "cm": 10.0, "in": 25.4, '"': 25.4}

_SIZE = re.compile(r"([0-9]*\.?[0-9]+)\s*(mm|cm|in|\")?\s*[x\u00d7]\s*([0-9]*\.?[0-9]+)\s*(mm|cm|in|\")?")


def paper(text: str) -> tuple[float, float]:
    """Read a paper size.

    Parameters
    ----------
    text : str
        A name of `PAPERS`, or width x height such as ``320x450``, ``12x18in``;
        without a unit in millimetres.

    Returns
    -------
    tuple of float
        Width and height [mm].

    Raises
    ------
    UsageError
        When it is no size, or not between 148 x 210 mm and 5000 mm.
    """
    name = text.strip().lower()
    if name in PAPERS:
        return PAPERS[name]
    found = _SIZE.fullmatch(name)
    if found is None:
        raise UsageError(say(words.UNKNOWN_PAPER, text=repr(text), names=", ".join(PAPERS)))
    first, first_unit, second, second_unit = found.groups()
    scale = _UNITS[first_unit or second_unit or ""], _UNITS[second_unit or first_unit or ""]
    size = (float(first) * scale[0], float(second) * scale[1])
    if not (min(size) >= SMALLEST[0] and max(size) >= SMALLEST[1]):
        raise UsageError(say(words.PAPER_TOO_SMALL, text=repr(text), width=f"{SMALLEST[0]:g}", height=f"{SMALLEST[1]:g}"))
    if max(size) > LARGEST:
        raise UsageError(say(words.PAPER_TOO_LARGE, text=repr(text), largest=f"{LARGEST:g}"))
    return size


def margin_in_range(margin: float) -> float:
    """Check a margin before the paper is known.

    Parameters
    ----------
    margin : float
        Edge that is to stay white [mm].

    Returns
    -------
    float
        The margin [mm].

    Raises
    ------
    UsageError
        When it is not between 3 and 30 mm.
    """
    if not MARGINS[0] <= margin <= MARGINS[1]:
        least, most = (f"{limit:g}" for limit in MARGINS)
        raise UsageError(say(words.MARGIN_RANGE, mm=f"{margin:g}", least=least, most=most, usual=f"{MARGIN:g}"))
    return margin


def paper_margin(margin: float, size: tuple[float, float]) -> float:
    """Check a margin against the paper.

    Parameters
    ----------
    margin : float
        Edge that is to stay white [mm].
    size : tuple of float
        Width and height of the paper [mm].

    Returns
    -------
    float
        The margin [mm].

    Raises
    ------
    UsageError
        When it is not between 3 and 30 mm, or leaves no room for bars and patterns.
    """
    margin_in_range(margin)
    most = min(min(size) - SMALLEST[0], max(size) - SMALLEST[1]) / 2 + MARGIN
    if margin > most + 1e-9:
        width, height = (f"{side:g}" for side in size)
        raise UsageError(say(words.MARGIN_TOO_WIDE, mm=f"{margin:g}", width=width, height=height, most=f"{math.floor(most + 1e-9)}"))
    return margin


def paper_told(size: tuple[float, float]) -> str:
    """A paper's name and size in words [mm]."""
    width, height = (f"{side:.0f}" for side in size)
    name = next((name for name, known in PAPERS.items() if sorted(known) == sorted(size)), None)
    if name is None:
        return say(words.SIZE, width=width, height=height)
    return say(words.PAPER_NAMED, name=name.upper() if name[1:].isdigit() else name, width=width, height=height)


def reading_paper(size: tuple[float, float] | None) -> tuple[float, float]:
    """Paper for the pages that are read in the hand, beside sheets of a size [mm]: the same, or A4 or Letter beside a plotter's."""
    if size is None:
        return PAPERS[USUAL]
    if max(size) <= READ_AT_HAND:
        return size
    inches = all(abs(side / 25.4 - round(side / 25.4)) < 1e-6 for side in size)
    return PAPERS["letter" if inches else USUAL]

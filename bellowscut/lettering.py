"""How wide text is, in the two free fonts that the drawings are lettered with.

The fonts are Source Sans Pro and its bold, which may be used and embedded
freely (SIL Open Font License 1.1). Pages must know the width of every word
before any exporter runs, and opening a font for that would cost more than all
the rest, so the advance widths stand in `bellowscut.letter_widths`.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Container, Iterable, Mapping
from functools import lru_cache

from bellowscut.drawing import Label
from bellowscut.letter_widths import BOLD, CAPITAL as FONT_CAPITAL, EM, LETTERS, PLAIN
from bellowscut.shapes import Point

CAPITAL = 0.729
"""Height of capital letters [-] of the size of a label."""

FONT_SIZE = CAPITAL * EM / FONT_CAPITAL
"""Em of the fonts [-] in the size of a label, so that capitals come out as high as `CAPITAL` says."""

DESCENT = 0.236
"""How far letters reach under the base line [-] of the size of a label."""

LEADING = 1.35
"""Base line to base line [-] of the size of a label."""

_PLAIN_WIDTHS = dict(zip(LETTERS, PLAIN, strict=True))
_BOLD_WIDTHS = dict(zip(LETTERS, BOLD, strict=True))

_NEAREST = {
    "\u02bc": "\u2019",
    "\u02b9": "'",
    "\u2010": "-",
    "\u2011": "-",
    "\u201b": "\u2018",
    "\u201f": "\u201c",
    "\u2300": "\u00d8",
}
"""Signs that the fonts lack, and those that say the same."""


def reduced(text: str, known: Container[str], nearest: Mapping[str, str], other: Callable[[str], str] | None = None) -> str:
    """The nearest text in letters that are known; a question mark for each that has no relative, nothing dropped.

    Parameters
    ----------
    text : str
        Anything.
    known : container of str
        Letters that may stand as they are.
    nearest : mapping of str to str
        What stands for some of the others; the rest lose their accents.
    other : callable, optional
        What stands for a letter that has no relative without its accents; empty for nothing.
    """
    shown: list[str] = []
    for letter in unicodedata.normalize("NFC", text):
        if letter.isspace():
            shown.append(" ")
        elif letter in known:
            shown.append(letter)
        elif letter in nearest:
            shown.append(nearest[letter])
        else:
            bases = [base for base in unicodedata.normalize("NFKD", letter) if not unicodedata.combining(base)]
            plain = [base if base in known else nearest.get(base, "") for base in bases]
            again = other(letter) if other is not None and not all(plain) else ""
            shown.append(again or "".join(base or "?" for base in plain) or "?")
    return "".join(shown)


@lru_cache(maxsize=4096)
def printable(text: str) -> str:
    """The nearest text that the fonts can show.

    Letters that the fonts lack lose their accents, other signs become their
    plain relatives, and what is left becomes a question mark: nothing is
    dropped without a trace. Line ends, tabs and hard spaces become spaces.

    Parameters
    ----------
    text : str
        Anything.

    Returns
    -------
    str
        Only characters that both fonts have.
    """
    # Most texts are plain, and every font has that.
    return text if text.isascii() and text.isprintable() else reduced(text, _PLAIN_WIDTHS, _NEAREST)


def lacking(texts: Iterable[str]) -> str:
    """Every letter of some texts that cannot be printed as it is: no font has it, or only without its accent.

    Returns
    -------
    str
        The letters in order of first appearance, each once.
    """
    letters = (letter for text in texts for letter in unicodedata.normalize("NFC", text))
    return "".join(dict.fromkeys(x for x in letters if not x.isspace() and x not in _PLAIN_WIDTHS and x not in _NEAREST))


@lru_cache(maxsize=4096)
def text_width(text: str, height: float, *, bold: bool = False) -> float:
    """Width of one line of text as the exporters write it.

    Parameters
    ----------
    text : str
        Any text; what the fonts lack is measured as it will be shown.
    height : float
        Size of the letters [mm].
    bold : bool
        Whether the heavier letters are meant.

    Returns
    -------
    float
        Sum of the advance widths [mm].
    """
    widths = _BOLD_WIDTHS if bold else _PLAIN_WIDTHS
    return sum(map(widths.__getitem__, printable(text))) * height * FONT_SIZE / EM


def fitted_height(label: Label) -> float:
    """Size of letters [mm] at which a label keeps within its greatest width."""
    if label.width <= 0:
        return label.height
    wide = text_width(label.text, label.height, bold=label.bold)
    return label.height if wide <= label.width else label.height * label.width / wide


_BEFORE_FRACTION = re.compile(r"(?<=\d) (?=\d+/\d)")
_TIE = "\0"


def tied(text: str) -> str:
    """A text in which no line is broken between a whole number and its fraction, to be given to `untied` after it is broken."""
    return _BEFORE_FRACTION.sub(_TIE, text)


def untied(text: str) -> str:
    """A text from `tied` with its spaces again."""
    return text.replace(_TIE, " ")


def wrapped(text: str, height: float, width: float, *, bold: bool = False) -> tuple[str, ...]:
    """Break a text into lines at its spaces.

    Parameters
    ----------
    text : str
        Any text.
    height : float
        Size of the letters [mm].
    width : float
        Greatest width of a line [mm]. A word wider than this is broken anywhere.
    bold : bool
        Whether the heavier letters are meant.

    Returns
    -------
    tuple of str
        The lines in order; empty for a text without words.
    """
    lines: list[str] = []
    line = ""
    for word in map(untied, tied(printable(text)).split()):
        longer = f"{line} {word}" if line else word
        if text_width(longer, height, bold=bold) <= width:
            line = longer
            continue
        if line:
            lines.append(line)
        line = word
        while len(line) > 1 and text_width(line, height, bold=bold) > width:
            kept = len(line) - 1
            while kept > 1 and text_width(line[:kept], height, bold=bold) > width:
                kept -= 1
            lines.append(line[:kept])
            line = line[kept:]
    if line:
        lines.append(line)
    return tuple(lines)


def paragraph(
    text: str, at: Point, height: float, width: float, *, bold: bool = False, leading: float = LEADING
) -> tuple[tuple[Label, ...], float]:
    """Labels of a text broken into lines, one under the other.

    Parameters
    ----------
    text : str
        Any text.
    at : Point
        Left end of the first base line [mm].
    height : float
        Size of the letters [mm].
    width : float
        Greatest width of a line [mm].
    bold : bool
        Whether the heavier letters are meant.
    leading : float
        Base line to base line [-] of the em.

    Returns
    -------
    tuple of Label
        One label a line.
    float
        Height of the base line that would come next [mm].
    """
    lines = wrapped(text, height, width, bold=bold)
    step = height * leading
    labels = tuple(Label(line, (at[0], at[1] - step * k), height, bold=bold, width=width) for k, line in enumerate(lines))
    return labels, at[1] - step * len(lines)

"""Letters of single strokes, for machines that draw a label along its lines.

The shapes are Hershey's, as the Hershey-Fonts package carries them. They know
plain ASCII only: whatever else a name contains is written with its nearest
relatives, other alphabets by their sound, and with a question mark where
there is neither, but never left out. `respelt` says what was changed.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import cache, lru_cache

from bellowscut.drawing import Label
from bellowscut.lettering import CAPITAL, fitted_height, reduced, text_width
from bellowscut.shapes import Point
from bellowscut.words import export as words, say

FACE = "futural"
"""The plainest of the faces: one stroke a line, no serifs."""

_CAP_UNITS = 21
"""Height of a capital in the units of the face."""

_BASE_LINE = 9
"""Where the base line lies, counted downwards."""

_ASCII = frozenset(map(chr, range(32, 127)))

# fmt: off
_NEAREST = {
    "\u00df": "ss", "\u1e9e": "SS", "\u00e6": "ae", "\u00c6": "AE", "\u0153": "oe", "\u0152": "OE", "\u00f8": "o",
    "\u00d8": "O", "\u0142": "l", "\u0141": "L", "\u0111": "d", "\u0110": "D", "\u00f0": "d", "\u00d0": "D", "\u00fe": "th",
    "\u00de": "Th", "\u0131": "i", "\u0127": "h", "\u0126": "H", "\u0167": "t", "\u0166": "T", "\u2010": "-", "\u2011": "-",
    "\u2012": "-", "\u2013": "-", "\u2014": "-", "\u2015": "-", "\u2212": "-", "\u2018": "'", "\u2019": "'", "\u201a": ",",
    "\u201b": "'", "\u2032": "'", "\u02bc": "'", "\u201c": '"', "\u201d": '"', "\u201e": '"', "\u2033": '"', "\u00ab": '"',
    "\u00bb": '"', "\u2039": "'", "\u203a": "'", "\u2022": "*", "\u00b7": ".", "\u00d7": "x", "\u00f7": "/", "\u00b1": "+-",
    "\u2044": "/", "\u2215": "/", "\u00b0": " deg", "\u20ac": "EUR", "\u00a3": "GBP", "\u00a5": "JPY", "\u00a2": "c",
    "\u00a9": "(c)", "\u00ae": "(R)", "\u2192": "->", "\u2190": "<-", "\u2264": "<=", "\u2265": ">=", "\u2260": "!=",
    "\u2248": "~", "\u2300": "dia ", "\u00b5": "u", "\u00a1": "!", "\u00bf": "?", "\u00b6": "P", "\u00a7": "S",
    "\u00a6": "|", "\u00ac": "-",
}
# fmt: on
"""Signs of European text that do not come apart into an ASCII letter and an accent."""


@cache
def in_ascii(text: str) -> str:
    """The nearest text in plain ASCII, other alphabets by the anyascii package.

    Parameters
    ----------
    text : str
        Anything.

    Returns
    -------
    str
        Characters from space to tilde only; a question mark stands for each
        sign that has no relative there, a space for each line end or tab.
    """
    return reduced(text, _ASCII, _NEAREST, _by_sound)


def _by_sound(letter: str) -> str:
    from anyascii import anyascii

    found = anyascii(letter)
    return found if _ASCII.issuperset(found) else ""


def respelt(texts: Iterable[str]) -> dict[str, str]:
    """Words of some texts that single strokes spell in other letters, with what they make of them; signs do not count."""
    given = (word.strip(",;:()") for text in texts for word in text.split())
    return {word: in_ascii(word) for word in given if any(letter.isalpha() and letter not in _ASCII for letter in word)}


def spelling_told(texts: Iterable[str]) -> str:
    """A sentence that says what single strokes make of the names in some texts; empty where they change none."""
    found = [say(words.SPELT_AS, plain=plain, word=word) for word, plain in respelt(texts).items()]
    return say(words.SPELT_PLAIN, list=", ".join(found)) if found else ""


@lru_cache(maxsize=1024)
def strokes(label: Label) -> tuple[tuple[Point, ...], ...]:
    """The strokes of a label where it stands.

    Parameters
    ----------
    label : Label
        Its size is that of the em, as everywhere; letters are squeezed where
        they would run wider than the printed ones.

    Returns
    -------
    tuple of tuple of Point
        Open lines of straight segments [mm].
    """
    text = in_ascii(label.text)
    glyphs = _glyphs()
    height = fitted_height(label)
    unit = height * CAPITAL / _CAP_UNITS
    natural = sum(glyphs[letter][0] for letter in text) * unit
    if not natural:
        return ()
    squeeze = min(1.0, text_width(label.text, height, bold=label.bold) / natural)
    start = -natural * squeeze * {"start": 0.0, "middle": 0.5, "end": 1.0}[label.anchor]
    c, s = math.cos(math.radians(label.angle)), math.sin(math.radians(label.angle))
    found = []
    for letter in text:
        advance, lines = glyphs[letter]
        for line in lines:
            run = []
            for across, up in line:
                x, y = start + across * unit * squeeze, up * unit
                run.append((label.at[0] + c * x - s * y, label.at[1] + s * x + c * y))
            found.append(tuple(run))
        start += advance * unit * squeeze
    return tuple(found)


@cache
def _glyphs() -> dict[str, tuple[float, tuple[tuple[Point, ...], ...]]]:
    """Of every ASCII letter: its advance, and its strokes with y upwards from the base line, in units of the face."""
    from HersheyFonts import HersheyFonts

    face = HersheyFonts()
    face.load_default_font(FACE)
    known = face.all_glyphs
    made = {}
    for letter in map(chr, range(32, 127)):
        glyph = known[letter]
        lines = tuple(tuple((x - glyph.left_offset, _BASE_LINE - y) for x, y in stroke) for stroke in glyph.strokes if len(stroke) > 1)
        made[letter] = (float(glyph.char_width), lines)
    return made

"""How wide text is, in the two free fonts that the drawings are lettered with.

The fonts are Bitstream Vera Sans and its bold, which may be used and embedded
freely. Pages must know the width of every word before any exporter runs, and
importing one for that would cost more than all the rest, so the advance widths
stand here as a table; a test holds them against the font files.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Container, Mapping
from functools import lru_cache

from bellowscut.drawing import Label
from bellowscut.shapes import Point

CAPITAL = 0.729
"""Height of capital letters [-] of the em."""

DESCENT = 0.236
"""How far letters reach under the base line [-] of the em."""

LEADING = 1.35
"""Base line to base line [-] of the em."""

_EM = 2048

# fmt: off
_BEYOND = (
    0x106, 0x107, 0x10C, 0x10D, 0x111, 0x11E, 0x11F, 0x130, 0x131, 0x141, 0x142, 0x152, 0x153, 0x15E, 0x15F, 0x160, 0x161, 0x178,
    0x17D, 0x17E, 0x192, 0x2C6, 0x2C7, 0x2D8, 0x2D9, 0x2DA, 0x2DB, 0x2DC, 0x2DD, 0x3A9, 0x3C0, 0x2013, 0x2014, 0x2018, 0x2019, 0x201A,
    0x201C, 0x201D, 0x201E, 0x2020, 0x2021, 0x2022, 0x2026, 0x2030, 0x2039, 0x203A, 0x20AC, 0x2122, 0x2202, 0x2206, 0x220F, 0x2211,
    0x2212, 0x2215, 0x2219, 0x221A, 0x221E, 0x222B, 0x2248, 0x2260, 0x2264, 0x2265, 0x25CA, 0xFB01, 0xFB02,
)
# fmt: on
"""What the fonts have beyond Latin-1: accented letters, dashes, quotation and mathematical signs."""

_LETTERS = "".join(map(chr, (*range(32, 127), *range(160, 256), *_BEYOND)))

# fmt: off
_PLAIN = (
    651, 821, 942, 1716, 1303, 1946, 1597, 563, 799, 799, 1024, 1716, 651, 739, 651, 690, 1303, 1303, 1303, 1303, 1303, 1303, 1303,
    1303, 1303, 1303, 690, 690, 1716, 1716, 1716, 1087, 2048, 1401, 1405, 1430, 1577, 1294, 1178, 1587, 1540, 604, 604, 1343, 1141,
    1767, 1532, 1612, 1235, 1612, 1423, 1300, 1251, 1499, 1401, 2025, 1403, 1251, 1403, 799, 690, 799, 1716, 1024, 1024, 1255, 1300,
    1126, 1300, 1260, 721, 1300, 1298, 569, 569, 1186, 569, 1995, 1298, 1253, 1300, 1300, 842, 1067, 803, 1298, 1212, 1675, 1212, 1212,
    1075, 1303, 690, 1303, 1716, 1303, 821, 1303, 1303, 1303, 1303, 690, 1024, 1024, 2048, 965, 1253, 1716, 739, 2048, 1024, 1024, 1716,
    821, 821, 1024, 1303, 1303, 651, 1024, 821, 965, 1253, 1985, 1985, 1985, 1087, 1401, 1401, 1401, 1401, 1401, 1401, 1995, 1430, 1294,
    1294, 1294, 1294, 604, 604, 604, 604, 1587, 1532, 1612, 1612, 1612, 1612, 1612, 1716, 1612, 1499, 1499, 1499, 1499, 1251, 1239,
    1290, 1255, 1255, 1255, 1255, 1255, 1255, 2011, 1126, 1260, 1260, 1260, 1260, 569, 569, 569, 569, 1253, 1298, 1253, 1253, 1253,
    1253, 1253, 1716, 1253, 1298, 1298, 1298, 1298, 1212, 1300, 1212, 1430, 1126, 1430, 1126, 1300, 1587, 1300, 604, 569, 1151, 582,
    2191, 2095, 1300, 1067, 1300, 1067, 1251, 1403, 1075, 1303, 1024, 1024, 1024, 1024, 1024, 1024, 1024, 1024, 1565, 1206, 1024, 2048,
    651, 651, 651, 1061, 1061, 1061, 1024, 1024, 1208, 2048, 2748, 819, 819, 1303, 2048, 1059, 1370, 1550, 1380, 1716, 342, 651, 1305,
    1706, 1067, 1716, 1716, 1716, 1716, 1012, 1290, 1290,
)

_BOLD = (
    713, 934, 1067, 1716, 1425, 2052, 1786, 627, 936, 936, 1071, 1716, 778, 850, 778, 748, 1425, 1425, 1425, 1425, 1425, 1425, 1425,
    1425, 1425, 1425, 819, 819, 1716, 1716, 1716, 1188, 2048, 1585, 1561, 1503, 1700, 1399, 1399, 1681, 1714, 762, 762, 1587, 1305,
    2038, 1714, 1741, 1501, 1741, 1577, 1475, 1397, 1663, 1585, 2259, 1579, 1483, 1485, 936, 748, 936, 1716, 1024, 1024, 1382, 1466,
    1214, 1466, 1389, 891, 1466, 1458, 702, 702, 1362, 702, 2134, 1458, 1407, 1466, 1466, 1010, 1219, 979, 1458, 1335, 1892, 1321, 1335,
    1192, 1458, 748, 1458, 1716, 1425, 934, 1425, 1425, 1303, 1425, 748, 1024, 1024, 2048, 1155, 1323, 1716, 850, 2048, 1024, 1024,
    1716, 897, 897, 1024, 1507, 1303, 778, 1024, 897, 1155, 1323, 2120, 2120, 2120, 1188, 1585, 1585, 1585, 1585, 1585, 1585, 2222,
    1503, 1399, 1399, 1399, 1399, 762, 762, 762, 762, 1716, 1714, 1741, 1741, 1741, 1741, 1741, 1716, 1741, 1663, 1663, 1663, 1663,
    1483, 1511, 1473, 1382, 1382, 1382, 1382, 1382, 1382, 2146, 1214, 1389, 1389, 1389, 1389, 702, 702, 702, 702, 1407, 1458, 1407,
    1407, 1407, 1407, 1407, 1716, 1407, 1458, 1458, 1458, 1458, 1335, 1466, 1335, 1503, 1214, 1503, 1214, 1466, 1681, 1466, 762, 702,
    1315, 760, 2390, 2241, 1475, 1219, 1475, 1219, 1483, 1485, 1192, 1425, 1024, 1024, 1024, 1024, 1024, 1024, 1024, 1024, 1575, 1319,
    1024, 2048, 778, 778, 778, 1346, 1346, 1346, 1024, 1024, 1309, 2048, 2949, 844, 844, 1425, 2048, 1114, 1427, 1612, 1470, 1716, 342,
    778, 1366, 1706, 1249, 1716, 1716, 1716, 1716, 1012, 1518, 1518,
)
# fmt: on

_PLAIN_WIDTHS = dict(zip(_LETTERS, _PLAIN, strict=True))
_BOLD_WIDTHS = dict(zip(_LETTERS, _BOLD, strict=True))

_NEAREST = {
    "\u0110": "D",
    "\u0131": "i",
    "\u02b9": "'",
    "\u02bc": "\u2019",
    "\u2010": "-",
    "\u2011": "-",
    "\u2012": "\u2013",
    "\u2015": "\u2014",
    "\u201b": "\u2018",
    "\u201f": "\u201c",
    "\u2032": "'",
    "\u2033": '"',
    "\u2044": "/",
    "\u2192": "->",
    "\u2190": "<-",
    "\u2300": "\u00d8",
}


def reduced(text: str, known: Container[str], nearest: Mapping[str, str]) -> str:
    """The nearest text in letters that are known; a question mark for each that has no relative, nothing dropped.

    Parameters
    ----------
    text : str
        Anything.
    known : container of str
        Letters that may stand as they are.
    nearest : mapping of str to str
        What stands for some of the others; the rest lose their accents.
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
            bases = (base for base in unicodedata.normalize("NFKD", letter) if not unicodedata.combining(base))
            shown.append("".join(base if base in known else nearest.get(base, "?") for base in bases) or "?")
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


@lru_cache(maxsize=4096)
def text_width(text: str, height: float, *, bold: bool = False) -> float:
    """Width of one line of text as the exporters write it.

    Parameters
    ----------
    text : str
        Any text; what the fonts lack is measured as it will be shown.
    height : float
        Size of the letters (em) [mm].
    bold : bool
        Whether the heavier letters are meant.

    Returns
    -------
    float
        Sum of the advance widths [mm].
    """
    widths = _BOLD_WIDTHS if bold else _PLAIN_WIDTHS
    return sum(map(widths.__getitem__, printable(text))) * height / _EM


def fitted_height(label: Label) -> float:
    """Size of letters [mm] at which a label keeps within its greatest width."""
    if label.width <= 0:
        return label.height
    wide = text_width(label.text, label.height, bold=label.bold)
    return label.height if wide <= label.width else label.height * label.width / wide


def wrapped(text: str, height: float, width: float, *, bold: bool = False) -> tuple[str, ...]:
    """Break a text into lines at its spaces.

    Parameters
    ----------
    text : str
        Any text.
    height : float
        Size of the letters (em) [mm].
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
    for word in printable(text).split():
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
        Size of the letters (em) [mm].
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

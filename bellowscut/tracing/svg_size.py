"""How large an SVG is: its width and height, its viewBox, and the transforms on the way down to a line."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from bellowscut.tracing.limits import number, shown
from bellowscut.tracing.model import TracingError
from bellowscut.tracing.svg_path import Matrix, Scanner, times
from bellowscut.units import MM_PER_INCH
from bellowscut.words import say, tracing as words

PIXEL = MM_PER_INCH / 96
"""A pixel of an SVG [mm], by definition (CSS 2.1, section 4.3.2)."""

UNITS = {
    "mm": 1.0,
    "cm": 10.0,
    "in": MM_PER_INCH,
    "pt": MM_PER_INCH / 72,
    "pc": MM_PER_INCH / 6,
    "q": 0.25,
    "px": PIXEL,
    "": PIXEL,
}
"""Units of lengths in an SVG [mm]."""

NO_TRUE_SIZE = ("", "px")
"""Units that say nothing about true size: programs write 72, 90 or 96 pixels to the inch."""

STRETCH = 1e-3
"""Greatest difference of the scales along and across that is taken for rounding [-]."""

LONGEST_TRANSFORM = 5_000
"""Characters of one transform [-]."""

_LENGTH = re.compile(r"([+-]?[\d.]{1,40}(?:[eE][+-]?\d{1,4})?)\s{0,9}([a-zA-Z%]{0,4})", re.ASCII)
_COUNTS = {"matrix": (6,), "translate": (1, 2), "scale": (1, 2), "rotate": (1, 3), "skewX": (1,), "skewY": (1,)}


def split_length(text: str, what: str) -> tuple[float, str]:
    """A length of an SVG as number and unit.

    Parameters
    ----------
    text : str
        Such as ``210mm``.
    what : str
        What it is, for the message.

    Returns
    -------
    float
        The number [-].
    str
        The unit in small letters, empty when there is none.

    Raises
    ------
    TracingError
        When it is no length, or its unit is none of `UNITS` and no per cent.
    """
    found = _LENGTH.fullmatch(text.strip())
    unit = found[2].lower() if found else ""
    if found is None or (unit != "%" and unit not in UNITS):
        raise TracingError(say(words.SVG_NO_LENGTH, what=what, text=shown(text)))
    return number(found[1], what), unit


def user_units(text: str, what: str) -> float:
    """A length within the drawing, in units of the file [-]: there a millimetre is 96/25.4 of them."""
    value, unit = split_length(text, what)
    if unit == "%":
        raise TracingError(say(words.SVG_RELATIVE_LENGTH, what=what, text=shown(text)))
    return value * UNITS[unit] / PIXEL


def _side(text: str | None, what: str) -> tuple[float | None, bool]:
    """Width or height of the whole [mm], and whether its unit says how large it truly is."""
    if text is None or text.strip() in ("", "auto"):
        return None, False
    value, unit = split_length(text, what)
    if unit == "%":
        return None, False
    if value <= 0:
        raise TracingError(say(words.SVG_NO_ROOM, what=what, text=shown(text)))
    return value * UNITS[unit], unit not in NO_TRUE_SIZE


def viewport(attributes: Mapping[str, str]) -> tuple[Matrix, bool]:
    """From units of the file to millimetres, y up.

    Parameters
    ----------
    attributes : mapping of str to str
        Those of the outermost element.

    Returns
    -------
    Matrix
        The map.
    bool
        Whether the file says how large it is.

    Raises
    ------
    TracingError
        When width, height or viewBox make no sense, or stretch the drawing.
    """
    width, width_sized = _side(attributes.get("width"), "width")
    height, height_sized = _side(attributes.get("height"), "height")
    sized = width_sized or height_sized
    box = attributes.get("viewBox")
    if box is None or not box.strip():
        return (PIXEL, 0.0, 0.0, -PIXEL, 0.0, 0.0), sized
    scan = Scanner(box, "viewBox")
    values = scan.numbers(4)
    if not scan.ended() or values[2] <= 0 or values[3] <= 0:
        raise TracingError(say(words.SVG_VIEWBOX, box=shown(box)))
    across = width / values[2] if width is not None else None
    along = height / values[3] if height is not None else None
    if across is None or along is None:
        scale = across or along or PIXEL
    else:
        fit = attributes.get("preserveAspectRatio", "").split()
        if fit[:1] == ["none"] and abs(across / along - 1) > STRETCH:
            raise TracingError(say(words.SVG_STRETCHED, across=f"{across:.4g}", along=f"{along:.4g}"))
        scale = max(across, along) if fit[-1:] == ["slice"] else min(across, along)
    return (scale, 0.0, 0.0, -scale, 0.0, 0.0), sized


def transform(text: str) -> Matrix:
    """A transform attribute as one map.

    Parameters
    ----------
    text : str
        Such as ``translate(10, 20) rotate(30)``.

    Returns
    -------
    Matrix
        All of them, the last done first.

    Raises
    ------
    TracingError
        When it cannot be read.
    """
    if len(text) > LONGEST_TRANSFORM:
        raise TracingError(say(words.SVG_TRANSFORM_TOO_LONG))
    matrix: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
    for step in text.split(")")[:-1]:
        name, bracket, inside = step.partition("(")
        name = name.strip(" \t\r\n,")
        scan = Scanner(inside, say(words.SVG_TRANSFORM))
        values = []
        while not scan.ended():
            values += scan.numbers(1)
        if not bracket or len(values) not in _COUNTS.get(name, ()):
            raise TracingError(say(words.SVG_TRANSFORM_UNREADABLE, text=shown(text)))
        matrix = times(matrix, _step(name, values))
    if text.rpartition(")")[2].strip() and text.strip() != "none":
        raise TracingError(say(words.SVG_TRANSFORM_UNREADABLE, text=shown(text)))
    return matrix


def _step(name: str, values: list[float]) -> Matrix:
    if name == "matrix":
        return values[0], values[1], values[2], values[3], values[4], values[5]
    if name == "translate":
        return 1.0, 0.0, 0.0, 1.0, values[0], values[1] if len(values) > 1 else 0.0
    if name == "scale":
        return values[0], 0.0, 0.0, values[-1], 0.0, 0.0
    if name in ("skewX", "skewY"):
        slope = math.tan(math.radians(values[0]))
        return (1.0, 0.0, slope, 1.0, 0.0, 0.0) if name == "skewX" else (1.0, slope, 0.0, 1.0, 0.0, 0.0)
    c, s = math.cos(math.radians(values[0])), math.sin(math.radians(values[0]))
    x, y = (values[1], values[2]) if len(values) == 3 else (0.0, 0.0)
    return c, s, -s, c, x - c * x + s * y, y - s * x - c * y

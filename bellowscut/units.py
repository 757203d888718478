"""Lengths and areas as people write them, and millimetres as people read them.

Everything inside the program is millimetres. This module is the only place
where inches, square feet and ounces of leather are known.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from bellowscut.errors import UsageError
from bellowscut.words import say, units as words

MM_PER_INCH = 25.4
"""One inch [mm], exact (international yard and pound agreement, 1959)."""

MM_PER_FOOT = 304.8
"""One foot [mm], exact."""

MM_PER_OUNCE = 0.396875
"""An "ounce" of leather thickness [mm]: 1/64 in (leather trade tables)."""

MM2_PER_CM2 = 100.0
"""One square centimetre [mm^2]."""

MM2_PER_DM2 = 10_000.0
"""One square decimetre [mm^2]."""

MM2_PER_M2 = 1_000_000.0
"""One square metre [mm^2]."""

MM2_PER_SQ_FT = 92_903.04
"""One square foot [mm^2], exact."""

FRACTION_OF_INCH = 64
"""The finest division of an inch rule that is printed [-]."""

FRACTIONS_FROM = 3.0
"""Below this length inches are printed as decimals, since 1/64 in is too coarse [mm]."""

LENGTH_PLACES = 1
"""Decimals of a millimetre in what is read off a rule [-]."""

FINE_PLACES = 2
"""Most decimals of a millimetre in what is gauged: thicknesses, gaps, laps, radii, packing [-]."""

ANGLE_PLACES = 1
"""Most decimals of an angle [-]."""

RULE_READING = 0.05
"""A fraction of an inch that is off by more than this is printed with "about" [mm]."""

_INCH = Fraction(254, 10)
_INCH_SIGNS = ("in", "in.", "inch", "inches", '"', "\u2033")
_LENGTHS = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    **dict.fromkeys(_INCH_SIGNS, _INCH),
}
_OUNCE = _INCH / 64
_OUNCES = ("oz", "oz.", "ounce", "ounces")
_AREAS = {
    "mm2": Fraction(1),
    "cm2": Fraction(MM2_PER_CM2),
    "dm2": Fraction(MM2_PER_DM2),
    "m2": Fraction(MM2_PER_M2),
    "sqft": _INCH * _INCH * 144,
    "ft2": _INCH * _INCH * 144,
}
_VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_NUMBER = re.compile(
    r"(?P<sign>[+-]?)(?:(?P<whole>\d{1,12})(?:\s+|-))?(?P<top>\d{1,6})\s*/\s*(?P<bottom>\d{1,6})|(?P<decimal>[+-]?(?:\d{1,25}(?:\.\d{0,25})?|\.\d{1,25}))",
    re.ASCII,
)


class UnitError(UsageError):
    """A length or area that cannot be read; the message says what would be right."""


def parse_length(text: str, *, thickness: bool = False, unit_needed: bool = False) -> float:
    """Read a length such as ``158.75 mm``, ``6 1/4 in`` or ``1/4 in``.

    Parameters
    ----------
    text : str
        Number and unit: mm, cm, m, in (also inch, inches, ``"``). A number without unit is millimetres.
    thickness : bool
        Whether ounces are understood too, 1 oz = 1/64 in.
    unit_needed : bool
        Whether a number without a unit is refused.

    Returns
    -------
    float
        The length [mm], with its sign.

    Raises
    ------
    UnitError
        When this is no length.

    Examples
    --------
    >>> parse_length("6 1/4 in")
    158.75
    """
    number, unit = _split(text, words.A_LENGTH)
    if unit == "" and not unit_needed:
        return float(number)
    if unit == "":
        raise UnitError(say(words.LENGTH_WITHOUT_UNIT, number=text.strip()))
    if unit in _LENGTHS:
        return float(number * _LENGTHS[unit])
    if unit in _OUNCES:
        if thickness:
            return float(number * _OUNCE)
        raise UnitError(say(words.OUNCES_ARE_THICKNESS))
    raise UnitError(say(words.UNKNOWN_THICKNESS_UNIT if thickness else words.UNKNOWN_LENGTH_UNIT, unit=repr(unit)))


def in_inch_units(text: str) -> bool:
    """Whether a length that reads is given in inches.

    Parameters
    ----------
    text : str
        As for `parse_length`.

    Examples
    --------
    >>> in_inch_units("6 1/4 in"), in_inch_units("25 mm"), in_inch_units("25")
    (True, False, False)
    """
    return _split(text, words.A_LENGTH)[1] in _INCH_SIGNS


def parse_area(text: str) -> float:
    """Read an area such as ``5 sq ft`` or ``46.5 dm2``.

    Parameters
    ----------
    text : str
        Number and unit: sq ft, dm2, cm2 or m2.

    Returns
    -------
    float
        The area [mm^2].

    Raises
    ------
    UnitError
        When this is no area, or has no unit.

    Examples
    --------
    >>> parse_area("1 sq ft")
    92903.04
    """
    number, unit = _split(text, words.AN_AREA)
    unit = unit.replace(" ", "").replace(".", "").replace("²", "2")
    if unit not in _AREAS:
        raise UnitError(say(words.UNKNOWN_AREA_UNIT, unit=repr(unit)) if unit else say(words.AREA_WITHOUT_UNIT))
    return float(number * _AREAS[unit])


def _split(text: str, wanted: str) -> tuple[Fraction, str]:
    plain = text.strip()
    for sign, fraction in _VULGAR.items():
        plain = plain.replace(sign, f" {fraction}")
    plain = plain.strip()
    found = _NUMBER.match(plain)
    if found is None:
        raise UnitError(say(words.SHOULD_BE, wanted=say(wanted)))
    rest = plain[found.end() :].strip().lower()
    if rest[:1] == "," and rest[1:2].isdigit():
        raise UnitError(say(words.DECIMAL_COMMA))
    if len(rest) > 12 or rest[:1].isdigit() or rest[:1] in tuple("./-+,"):
        raise UnitError(say(words.SHOULD_BE, wanted=say(wanted)))
    if found["decimal"] is not None:
        return Fraction(found["decimal"]), rest
    bottom = int(found["bottom"])
    if bottom == 0:
        raise UnitError(say(words.DIVIDED_BY_NOUGHT))
    size = Fraction(int(found["top"]), bottom)
    if found["whole"] is not None:
        if size >= 1:
            raise UnitError(say(words.FRACTION_TOO_LARGE))
        size += int(found["whole"])
    return (-size if found["sign"] == "-" else size), rest


def plain_number(value: float, places: int = 3) -> str:
    """A number without needless noughts, never in powers of ten.

    Parameters
    ----------
    value : float
        Any finite number [-].
    places : int
        Most decimals printed [-].

    Returns
    -------
    str
        Such as ``25`` or ``0.85``.
    """
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


@dataclass(frozen=True)
class Rule:
    """How lengths are written on one bellows' papers: as a rule and a gauge show them, in millimetres or in inches.

    This is the only place that knows how many decimals a length is printed
    with: a length off the rule has one, what is gauged two at the most, and an
    inch rule is read to the nearest 64th, below 3 mm in thousandths.

    Parameters
    ----------
    inches : bool
        Whether the bellows was measured in inches.

    Examples
    --------
    >>> Rule().length(268.116), Rule().fine(0.6), Rule(inches=True).length(268.116), Rule(inches=True).fine(0.6)
    ('268.1 mm', '0.6 mm', '10 9/16 in', '0.024 in')
    """

    inches: bool = False

    @property
    def unit(self) -> str:
        """Its unit, to stand after a list or in a heading."""
        return say(words.IN if self.inches else words.MM)

    def bare(self, mm: float) -> str:
        """A length off the rule [mm], without its unit."""
        if self.inches:
            return _read_inches(mm)[0]
        return f"{round(mm, LENGTH_PLACES) + 0.0:.{LENGTH_PLACES}f}"

    def bare_fine(self, mm: float) -> str:
        """What is gauged [mm], without its unit."""
        return _read_inches(mm)[0] if self.inches else plain_number(mm, FINE_PLACES)

    def length(self, mm: float) -> str:
        """A length off the rule [mm]: sizes of ends and pieces, folds, distances."""
        return self._with_unit(self.bare(mm))

    def fine(self, mm: float) -> str:
        """What is gauged [mm]: thicknesses, gaps, laps, radii, packing."""
        return self._with_unit(self.bare_fine(mm))

    def both(self, mm: float) -> str:
        """A length off the rule [mm], in brackets in the other unit."""
        return say(words.FIRST_AND_SECOND, first=self.length(mm), second=self.other(mm))

    def other(self, mm: float) -> str:
        """The same [mm] in the other unit; in inches ``about`` stands before what is off from the millimetres beside it."""
        if self.inches:
            return Rule().length(mm)
        beside = round(mm, LENGTH_PLACES)
        # The shorter of the two is the one without ``about``.
        return min(in_inches(mm), in_inches(beside), key=len)

    def _with_unit(self, size: str) -> str:
        return say(words.INCHES, size=size) if self.inches else say(words.MILLIMETRES, mm=size)


def angle_told(degrees: float) -> str:
    """An angle [deg] as it is printed, without its sign."""
    return plain_number(degrees, ANGLE_PLACES)


def in_inches(mm: float) -> str:
    """A length as read off an inch rule.

    Parameters
    ----------
    mm : float
        Length [mm].

    Returns
    -------
    str
        The nearest 64th, reduced, such as ``6 1/4 in``; ``about`` stands before it when
        it is off by more than a rule shows. Small lengths are decimals, ``0.016 in``.
    """
    if not math.isfinite(mm):
        return say(words.NO_SIZE)
    size, off = _read_inches(mm)
    return say(words.ABOUT if off > RULE_READING else words.INCHES, size=size)


def _read_inches(mm: float) -> tuple[str, float]:
    """A length off an inch rule without its unit, and how far the reading is out [mm]."""
    sign = "-" if mm < 0 else ""
    size = abs(mm)
    if size < FRACTIONS_FROM:
        return sign + plain_number(size / MM_PER_INCH), 0.0
    nearest = Fraction(round(size / MM_PER_INCH * FRACTION_OF_INCH), FRACTION_OF_INCH)
    whole, part = divmod(nearest, 1)
    return sign + " ".join(str(piece) for piece in (whole, part) if piece), abs(float(nearest) * MM_PER_INCH - size)


def both(mm: float) -> str:
    """A length in millimetres and, in brackets, in inches.

    Parameters
    ----------
    mm : float
        Length [mm].

    Returns
    -------
    str
        Such as ``25 mm (63/64 in)``; nought is just ``0 mm``.
    """
    if not math.isfinite(mm):
        return say(words.MILLIMETRES, mm=f"{mm:g}")
    if plain_number(mm) == "0":
        return say(words.MILLIMETRES, mm="0")
    return say(words.BOTH_LENGTHS, mm=plain_number(mm), inches=in_inches(mm))


def both_areas(mm2: float) -> str:
    """An area in square decimetres and, in brackets, in square feet.

    Parameters
    ----------
    mm2 : float
        Area [mm^2].

    Returns
    -------
    str
        Such as ``46.45 dm2 (5 sq ft)``.
    """
    return say(words.BOTH_AREAS, dm2=plain_number(mm2 / MM2_PER_DM2, 2), feet=plain_number(mm2 / MM2_PER_SQ_FT, 2))

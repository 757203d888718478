"""From one value as TOML gives it to the value that the program works with, or a fault in words."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import replace
from decimal import Decimal
from types import MappingProxyType
from typing import Any

from bellowscut.keys import Key, Kind
from bellowscut.materials import Bar
from bellowscut.schema import Readings, Spare
from bellowscut.toml_lines import quoted
from bellowscut.units import MM2_PER_SQ_FT, UnitError, parse_area, parse_length, plain_number
from bellowscut.words import say, values as words

NAME_LENGTH = 200
"""Longest name [-]."""

TEXTS_MOST = 20
"""Most entries of a list of texts [-]."""

AMOUNT_PLACES = 6
"""Most decimals of an amount of money or minutes [-]; no currency needs more."""

READINGS_MOST = 50
"""Most readings of one size on one side [-]."""

DIGITS_SHOWN = 25
"""Longer numbers are written in powers of ten, without a unit: lengths with one are read up to so many decimals."""

LIST_LENGTH = 10_000
"""Most points of an outline [-]."""

_ASCII_CAPITAL = re.compile(r"[A-Z]{3}", re.ASCII)
_SIDE = re.compile(r"[A-Z]{1,2}", re.ASCII)
_HEX = re.compile(r"#?([0-9a-f]{6}|[0-9a-f]{3})", re.ASCII)
_RED_GREEN_BLUE = re.compile(r"(?:rgb)?[ (]*(\d{1,3})[ ,;]+(\d{1,3})[ ,;]+(\d{1,3})[ )]*", re.ASCII)
_PER_CENT = re.compile(r"(\d{1,4}(?:\.\d{0,9})?)\s*%", re.ASCII)


class Fault(Exception):
    """What is wrong with one value and what would be right, as `errors.Problem` wants it."""


def convert(raw: object, key: Key) -> object:
    """Read one value.

    Parameters
    ----------
    raw : Any
        As `tomllib` gives it, decimals as `Decimal`.
    key : Key
        What the value should be.

    Returns
    -------
    Any
        Lengths [mm], angles [deg], areas [mm^2], money as `Decimal`.

    Raises
    ------
    Fault
        When the value is of the wrong type or out of the range of the key.
    """
    return _READERS[key.kind](raw, key)


def _real(raw: object, wanted: str) -> float:
    if isinstance(raw, bool) or not isinstance(raw, int | float | Decimal):
        raise Fault(say(words.SHOULD_BE, wanted=wanted))
    try:
        value = float(raw)
    except OverflowError:
        value = math.inf
    if not math.isfinite(value):
        raise Fault(say(words.NOT_FINITE, wanted=wanted))
    return value


def _within(value: float, key: Key, raw: object = "") -> float:
    if not key.allows(value):
        raise Fault(_out_of_range(value, key, raw))
    return value


def _out_of_range(value: float, key: Key, raw: object = "") -> str:
    if _meant_inches(value, raw, key):
        return say(words.TOO_SMALL_MEANT_INCHES, range=key.range(), inches=plain_number(value))
    if value == 0 and key.low > 0:
        text = words.NOT_NOUGHT
    elif value < 0 <= key.low:
        text = words.NOT_NEGATIVE
    else:
        text = words.TOO_SMALL if value < key.low else words.TOO_LARGE
    return say(text, range=key.range())


def _meant_inches(value: float, raw: object, key: Key) -> bool:
    """A bare number far below the range was often meant in inches."""
    return not isinstance(raw, str) and 0 < value < key.low and key.allows(value * 25.4)


def _length(raw: object, key: Key) -> float:
    return _within(_signed_length(raw, key.kind is Kind.THICKNESS), key, raw)


def _signed_length(raw: object, thickness: bool = False) -> float:
    if isinstance(raw, str):
        try:
            return parse_length(raw, thickness=thickness, unit_needed=True)
        except UnitError as error:
            raise Fault(str(error)) from None
    return _real(raw, say(words.A_THICKNESS if thickness else words.A_LENGTH))


def _number(raw: object, key: Key) -> float:
    return _within(_real(raw, say(words.A_NUMBER, range=key.range())), key)


def _angle(raw: object, key: Key) -> float:
    return _within(_real(raw, say(words.AN_ANGLE, range=key.range())), key)


def _per_cent(raw: object, key: Key) -> float:
    found = _PER_CENT.fullmatch(raw.strip()) if isinstance(raw, str) else None
    return _within(float(found[1]) if found else _real(raw, say(words.A_SHARE, range=key.range())), key)


def _count(raw: object, key: Key) -> int:
    if isinstance(raw, bool) or not isinstance(raw, int):
        raise Fault(say(words.WHOLE_NUMBER, range=key.range()))
    if not key.low <= raw <= key.high:
        raise Fault(_out_of_range(-1.0 if raw < 0 else 0.0 if raw == 0 else float(min(raw, 10**9)), key))
    return raw


def _choice(raw: object, key: Key) -> str:
    if isinstance(raw, str):
        said = _plain(raw)
        for choice in key.choices:
            if _plain(choice) == said:
                return choice
        if said in key.also:
            return key.also[said]
    raise Fault(say(words.ONE_OF, choices=", ".join(f'"{choice}"' for choice in key.choices)))


def _plain(word: str) -> str:
    return re.sub(r"[\s_-]+", "-", word.strip().lower())


def _flag(raw: object, _: Key) -> bool:
    if not isinstance(raw, bool):
        raise Fault(say(words.TRUE_OR_FALSE))
    return raw


def _text(raw: object, _: Key) -> str:
    if not isinstance(raw, str):
        raise Fault(say(words.TEXT))
    if not raw.strip():
        raise Fault(say(words.EMPTY_TEXT))
    if len(raw) > NAME_LENGTH:
        raise Fault(say(words.TOO_LONG, count=len(raw), most=NAME_LENGTH))
    if unprintable(raw):
        raise Fault(say(words.CONTROL_CHARACTERS))
    return raw


def _texts(raw: object, key: Key) -> tuple[str, ...]:
    found: tuple[str, ...] = _each(
        _listed(raw, say(words.A_LIST_OF_TEXTS, example=key.example), 0, TEXTS_MOST), lambda one: _text(one, key)
    )
    return found


def unprintable(text: str) -> bool:
    """Whether a text holds line ends, control characters or marks that turn the direction of writing."""
    return any(unicodedata.category(c) in ("Cc", "Cs", "Zl", "Zp") or "\u202a" <= c <= "\u202e" or "\u2066" <= c <= "\u2069" for c in text)


def _money(raw: object, key: Key) -> Decimal:
    return _amount_of(raw, key, say(words.AN_AMOUNT))


def _minutes(raw: object, key: Key) -> tuple[Decimal, Decimal]:
    wanted = say(words.MINUTES, example=key.example)
    both = _listed(raw, wanted, 2, 2) if isinstance(raw, list) else [raw, 0]
    fixed, each = _each(both, lambda one: _amount_of(one, key, wanted))
    return fixed, each


def _amount_of(raw: object, key: Key, wanted: str) -> Decimal:
    _within(_real(raw, wanted), key)
    amount = abs(raw if isinstance(raw, Decimal) else Decimal(str(raw)))
    plain = round(amount, AMOUNT_PLACES)
    if amount != plain:
        raise Fault(say(words.TOO_MANY_DECIMALS, most=AMOUNT_PLACES))
    exponent = amount.as_tuple().exponent
    assert isinstance(exponent, int)
    # As written, unless it stands in powers of ten or in noughts without end.
    return amount if -AMOUNT_PLACES <= exponent <= 0 else plain


def _currency(raw: object, _: Key) -> str:
    if isinstance(raw, str) and _ASCII_CAPITAL.fullmatch(raw):
        return raw
    raise Fault(say(words.CURRENCY))


def _colour(raw: object, _: Key) -> str:
    """``#rrggbb`` in small letters, from any of the ways in which shops write a colour."""
    text = raw.strip().lower() if isinstance(raw, str) else ""
    if found := _HEX.fullmatch(text):
        return "#" + (found[1] if len(found[1]) == 6 else "".join(2 * digit for digit in found[1]))
    if (found := _RED_GREEN_BLUE.fullmatch(text)) and all(int(part) <= 255 for part in found.groups()):
        return "#" + "".join(f"{int(part):02x}" for part in found.groups())
    raise Fault(say(words.COLOUR))


def _area(raw: object, key: Key) -> float:
    if not isinstance(raw, str):
        raise Fault(say(words.AREA))
    try:
        return _within(parse_area(raw), key, raw)
    except UnitError as error:
        raise Fault(str(error)) from None


def _listed(raw: object, wanted: str, least: int = 1, most: int = LIST_LENGTH) -> list[Any]:
    if not isinstance(raw, list):
        raise Fault(say(words.SHOULD_BE, wanted=wanted))
    if not least <= len(raw) <= most:
        raise Fault(say(words.WRONG_COUNT, count=len(raw), wanted=wanted))
    return raw


def _each(raw: list[Any], read: Callable[[Any], Any]) -> tuple[Any, ...]:
    found = []
    for number, one in enumerate(raw, start=1):
        try:
            found.append(read(one))
        except Fault as fault:
            raise Fault(say(words.NUMBERED, number=number, fault=fault)) from None
    return tuple(found)


def _lengths(raw: object, key: Key) -> tuple[float, ...]:
    found: tuple[float, ...] = _each(_listed(raw, say(words.A_LIST_OF_LENGTHS)), lambda one: _length(one, key))
    return found


def _pair(raw: object, key: Key) -> tuple[float, float]:
    first, second = _each(_listed(raw, say(words.TWO_LENGTHS, example=key.example), 2, 2), lambda one: _length(one, key))
    return first, second


def _size(raw: object, key: Key) -> tuple[float, ...]:
    found: tuple[float, ...] = _each(_listed(raw, say(words.TWO_LENGTHS, example=key.example), 1, 2), lambda one: _length(one, key))
    return found


def _readings(raw: object, key: Key) -> Readings:
    if not isinstance(raw, dict):
        return Readings(_of_one_side(raw, key))
    if not raw:
        raise Fault(say(words.SHOULD_BE, wanted=say(words.READINGS, example=key.example)))
    found = []
    for side, one in raw.items():
        if not _SIDE.fullmatch(side):
            raise Fault(say(words.NO_SIDE, side=side))
        try:
            found.append((side, _of_one_side(one, key)))
        except Fault as fault:
            raise Fault(say(words.OF_SIDE, side=side, fault=fault)) from None
    return Readings(by_side=tuple(sorted(found, key=lambda one: (len(one[0]), one[0]))))


def _of_one_side(raw: object, key: Key) -> tuple[float, ...]:
    wanted = say(words.READINGS, example=key.example)
    if isinstance(raw, list):
        found: tuple[float, ...] = _each(_listed(raw, wanted, 1, READINGS_MOST), lambda one: _length(one, key))
        return found
    if isinstance(raw, bool) or not isinstance(raw, str | int | float | Decimal):
        raise Fault(say(words.SHOULD_BE, wanted=wanted))
    return (_length(raw, key),)


def _point(raw: object, key: Key) -> tuple[float, float]:
    x, y = _each(_listed(raw, say(words.A_POINT), 2, 2), lambda one: _within(_signed_length(one), key))
    return x, y


def _points(raw: object, key: Key) -> tuple[tuple[float, float], ...]:
    found: tuple[tuple[float, float], ...] = _each(_listed(raw, say(words.A_LIST_OF_POINTS), 3), lambda one: _point(one, key))
    return found


def _other_end(raw: object, _: Key) -> tuple[Any, ...]:
    """Shape only; the values are read again by the key that they repeat."""
    return tuple(_listed(raw, say(words.THE_OTHER_END)))


def _outline(raw: object, key: Key) -> str | tuple[tuple[float, float], ...]:
    if isinstance(raw, str):
        return _text(raw, key)
    if not isinstance(raw, list):
        raise Fault(say(words.TRACING_OR_POINTS))
    return _points(raw, key)


def _flaw(raw: object, key: Key) -> tuple[float, float, float]:
    x, y, size = _listed(raw, say(words.A_FLAW), 3, 3)
    place = replace(key, low=-key.high)
    return _within(_signed_length(x), place), _within(_signed_length(y), place), _length(size, key)


def _flaws(raw: object, key: Key) -> tuple[tuple[float, float, float], ...]:
    found: tuple[tuple[float, float, float], ...] = _each(_listed(raw, say(words.A_LIST_OF_FLAWS), 0), lambda one: _flaw(one, key))
    return found


def _bars(raw: object, key: Key) -> tuple[Bar, ...]:
    found: tuple[Bar, ...] = _each(_listed(raw, say(words.A_LIST_OF_TABLES, example=key.example), 0), lambda one: _bar(one, key))
    return found


def _bar(raw: object, key: Key) -> Bar:
    if not isinstance(raw, dict) or set(raw) != {"kind", "outline"}:
        raise Fault(say(words.BAR_TABLE, example=key.example[1:-1]))
    return Bar(_text(raw["kind"], key), _points(raw["outline"], key))


def _spare(raw: object, key: Key) -> Spare:
    if isinstance(raw, str) and (found := _PER_CENT.fullmatch(raw.strip())):
        return Spare(None, _within(float(found[1]), key))
    if isinstance(raw, bool) or not isinstance(raw, int) or not 0 <= raw <= key.high:
        raise Fault(say(words.SPARE, most=plain_number(key.high)))
    return Spare(raw, None)


_READERS: Mapping[Kind, Callable[[Any, Key], Any]] = MappingProxyType(
    {
        Kind.LENGTH: _length,
        Kind.THICKNESS: _length,
        Kind.ANGLE: _angle,
        Kind.COUNT: _count,
        Kind.NUMBER: _number,
        Kind.PER_CENT: _per_cent,
        Kind.CHOICE: _choice,
        Kind.FLAG: _flag,
        Kind.TEXT: _text,
        Kind.TEXTS: _texts,
        Kind.MATERIAL: _text,
        Kind.MONEY: _money,
        Kind.MINUTES: _minutes,
        Kind.CURRENCY: _currency,
        Kind.COLOUR: _colour,
        Kind.AREA: _area,
        Kind.LENGTHS: _lengths,
        Kind.READINGS: _readings,
        Kind.PAIR: _pair,
        Kind.SIZE: _size,
        Kind.POINTS: _points,
        Kind.OTHER_END: _other_end,
        Kind.OUTLINE: _outline,
        Kind.FLAWS: _flaws,
        Kind.BARS: _bars,
        Kind.SPARE: _spare,
    }
)


def toml_value(value: object, key: Key) -> str:
    """A value as a profile writes it, which `convert` reads back to the last digit."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Spare | Bar | Readings):
        return _record_text(value, key)
    if isinstance(value, tuple):
        return "[" + ", ".join(toml_value(one, key) for one in value) + "]"
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, Decimal | int):
        return _amount_text(value) if isinstance(value, Decimal) else str(value)
    assert isinstance(value, float)
    if key.kind is Kind.AREA:
        return _area_text(value)
    text = exact(value)
    if len(text) > DIGITS_SHOWN:
        return repr(value)
    return f'"{text} mm"' if key.kind in (Kind.LENGTH, Kind.THICKNESS, Kind.LENGTHS, Kind.PAIR, Kind.SIZE) else text


def _amount_text(amount: Decimal) -> str:
    long = abs(amount.adjusted()) + len(amount.as_tuple().digits) > DIGITS_SHOWN
    return str(amount) if long else f"{amount:f}"


def _record_text(value: Spare | Bar | Readings, key: Key) -> str:
    if isinstance(value, Readings):
        one_key = replace(key, kind=Kind.LENGTHS)
        if not value.by_side:
            return _of_one_side_text(value.any_side, one_key)
        return f"{{ {', '.join(f'{side} = {_of_one_side_text(found, one_key)}' for side, found in value.by_side)} }}"
    if isinstance(value, Bar):
        return f"{{ kind = {quoted(value.kind)}, outline = {toml_value(value.outline, key)} }}"
    return str(value.count) if value.count is not None else f'"{exact(value.per_cent or 0.0)} %"'


def _of_one_side_text(found: tuple[float, ...], key: Key) -> str:
    return toml_value(found if len(found) > 1 else found[0], key)


def _area_text(mm2: float) -> str:
    """Square feet when that says it exactly in few digits, else square millimetres."""
    feet = plain_number(mm2 / MM2_PER_SQ_FT, 4)
    return f'"{feet} sq ft"' if parse_area(f"{feet} sq ft") == mm2 else f'"{exact(mm2)} mm2"'


def exact(value: float) -> str:
    """Every digit of a number, without powers of ten."""
    text = f"{Decimal(repr(value)):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text

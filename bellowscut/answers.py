"""What somebody types in answer to one question, turned into a value of a profile."""

from __future__ import annotations

import re
from decimal import Decimal

from bellowscut.keys import Key, Kind
from bellowscut.toml_lines import quoted, value_of
from bellowscut.values import Fault, convert
from bellowscut.words import measuring as words, say

_NUMBER = re.compile(r"[+-]?\d{1,12}(?:\.\d{1,12})?", re.ASCII)
_NUMBERS = re.compile(r"\d{1,12}(?:\.\d{1,12})?(?:\s+\d{1,12}(?:\.\d{1,12})?)+", re.ASCII)
"""Bare numbers with spaces between; what has a fraction is one length."""

_YES = ("y", "yes", "true", "1")
_NO = ("n", "no", "false", "0")
_BARE_NUMBERS = (Kind.ANGLE, Kind.COUNT, Kind.NUMBER, Kind.PER_CENT, Kind.MONEY, Kind.SPARE)
_LISTS = (Kind.LENGTHS, Kind.PAIR, Kind.SIZE)
_SIDE = re.compile(r"([A-Z]{1,2})[ =:]+(.+)", re.ASCII)


def yes(answer: str) -> bool | None:
    """Whether an answer means yes; None when it means neither yes nor no."""
    said = answer.strip().lower()
    return True if said in _YES else False if said in _NO else None


def typed(text: str, key: Key) -> str:
    """A value of a profile as somebody would type it: the other way round from `literal`."""
    value = value_of(text)
    if isinstance(value, dict) and key.kind is Kind.READINGS:
        return "; ".join(f"{side} {', '.join(map(_plainly, one if isinstance(one, list) else [one]))}" for side, one in value.items())
    if isinstance(value, list):
        if value and isinstance(value[0], list):
            return "; ".join(", ".join(map(_plainly, row)) for row in value)
        return ("; " if key.kind is Kind.TEXTS else ", ").join(map(_plainly, value))
    return _plainly(value)


def _plainly(value: object) -> str:
    if isinstance(value, bool):
        return (_YES if value else _NO)[1]
    return f"{value:f}" if isinstance(value, Decimal) else str(value)


def literal(answer: str, key: Key) -> str:
    """An answer as a profile would write it.

    Parameters
    ----------
    answer : str
        As typed: no quotes needed, a bare length is millimetres, a list has commas.
    key : Key
        What is asked for.

    Returns
    -------
    str
        The value in TOML, sound on its own.

    Raises
    ------
    Fault
        What is wrong with it and what would be right.
    """
    text = _unchecked(answer.strip(), key)
    convert(value_of(text), key)
    return text


def _unchecked(answer: str, key: Key) -> str:
    if key.kind is Kind.FLAG:
        said = yes(answer)
        if said is None:
            raise Fault(say(words.YES_OR_NO_WANTED))
        return "true" if said else "false"
    if key.kind is Kind.TEXTS:
        return f"[{', '.join(quoted(one.strip()) for one in answer.split(';') if one.strip())}]"
    if key.kind is Kind.READINGS:
        return _readings(answer)
    if key.kind in _LISTS:
        return _list(answer)
    if key.kind in (Kind.POINTS, Kind.FLAWS) or (key.kind is Kind.OUTLINE and "," in answer and ";" in answer):
        rows = [row for row in answer.split(";") if row.strip()]
        return f"[{', '.join('[' + ', '.join(_length(one) for one in row.split(',')) + ']' for row in rows)}]"
    if key.kind in (Kind.LENGTH, Kind.THICKNESS):
        return _length(answer)
    if key.kind in _BARE_NUMBERS and _NUMBER.fullmatch(answer):
        return _number(answer)
    return quoted(answer)


def _readings(answer: str) -> str:
    """One or several readings, or by side as in ``A 84.1, 84.3; C 83``."""
    rows = [_SIDE.fullmatch(row.strip()) for row in answer.split(";") if row.strip()]
    sides = [row for row in rows if row is not None]
    if rows and len(sides) == len(rows):
        return f"{{ {', '.join(f'{row[1]} = {_list(row[2])}' for row in sides)} }}"
    return _list(answer)


def _list(answer: str) -> str:
    apart = (one for some in re.split(r"[,;]", answer) for one in (some.split() if _NUMBERS.fullmatch(some.strip()) else [some]))
    return f"[{', '.join(_length(one) for one in apart if one.strip())}]"


def _length(text: str) -> str:
    text = text.strip()
    return _number(text) if _NUMBER.fullmatch(text) else quoted(text)


def _number(text: str) -> str:
    """TOML takes no noughts in front."""
    return f"{Decimal(text):f}"

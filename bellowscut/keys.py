"""What a profile key is: its kind, its range, where its default comes from, and its help.

The dataclasses of `bellowscut.materials` and `bellowscut.schema` carry one
`Key` with every field. Reading, checking, writing and asking all go by it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import MISSING, Field, dataclass, field, fields
from enum import Enum
from typing import Any

from bellowscut.units import both, both_areas, plain_number
from bellowscut.words import keys as words, say

PUBLISHED = words.PUBLISHED
COMMON_PRACTICE = words.COMMON_PRACTICE
FROM_MEMORY = words.FROM_MEMORY
INVENTED = words.INVENTED
GEOMETRY = words.GEOMETRY
NO_DEFAULT = ""
STATUSES = (PUBLISHED, COMMON_PRACTICE, FROM_MEMORY, INVENTED, GEOMETRY, NO_DEFAULT)
"""How well founded a default is; `NO_DEFAULT` for what is asked or simply absent."""


class Kind(Enum):
    """What sort of value a key takes."""

    LENGTH = words.LENGTH
    THICKNESS = words.THICKNESS
    ANGLE = words.ANGLE
    COUNT = words.COUNT
    NUMBER = words.NUMBER
    PER_CENT = words.PER_CENT
    CHOICE = words.CHOICE
    FLAG = words.YES_OR_NO
    TEXT = words.TEXT
    TEXTS = words.LIST_OF_TEXTS
    MATERIAL = words.MATERIAL
    MONEY = words.MONEY
    MINUTES = words.MINUTES
    CURRENCY = words.CURRENCY
    COLOUR = words.COLOUR
    AREA = words.AREA
    LENGTHS = words.LENGTHS
    READINGS = words.READINGS
    PAIR = words.PAIR_OF_LENGTHS
    SIZE = words.WIDTH_AND_LENGTH
    POINTS = words.POINTS
    OTHER_END = words.SAME_KEYS_VALUES
    OUTLINE = words.OUTLINE
    FLAWS = words.FLAWS
    BARS = words.BARRED_PLACES
    SPARE = words.SPARE


LENGTH_KINDS = (
    Kind.LENGTH,
    Kind.THICKNESS,
    Kind.LENGTHS,
    Kind.READINGS,
    Kind.PAIR,
    Kind.SIZE,
    Kind.POINTS,
    Kind.OTHER_END,
    Kind.OUTLINE,
    Kind.FLAWS,
    Kind.BARS,
)
"""Kinds whose range is a length [mm]."""


@dataclass(frozen=True)
class Key:
    """Everything known about one key of a profile, but for its default value.

    Parameters
    ----------
    kind : Kind
        What sort of value it takes.
    help : str
        One line in the repairer's words.
    status : str
        How well founded the default is, one of `STATUSES`.
    low, high : float
        Least and greatest sensible value [mm], [deg], [mm^2] or [-].
    zero : bool
        Whether 0 is allowed below `low`.
    choices : tuple of str
        Words that a choice knows.
    also : mapping of str to str
        Other words for a choice.
    only_for : tuple of str
        Shapes (of a section) or forms (of a material) that the key belongs to; empty for all.
    example : str
        A value as written in a profile, for keys without a default.
    worked_out : str
        The default in words, when it depends on other values.
    required : bool
        Whether a profile must give it.
    finer : bool
        Whether the questions leave it for those who want the finer sizes.
    """

    kind: Kind
    help: str
    status: str = NO_DEFAULT
    low: float = -math.inf
    high: float = math.inf
    zero: bool = False
    choices: tuple[str, ...] = ()
    also: Mapping[str, str] = field(default_factory=dict)
    only_for: tuple[str, ...] = ()
    example: str = ""
    worked_out: str = ""
    required: bool = False
    finer: bool = True

    def size(self, value: float) -> str:
        """A number of this kind in words, lengths in mm and inches."""
        if self.kind in LENGTH_KINDS:
            return both(value)
        if self.kind is Kind.AREA:
            return both_areas(value)
        if self.kind is Kind.ANGLE:
            return say(words.DEGREES, number=plain_number(value))
        if self.kind in (Kind.PER_CENT, Kind.SPARE):
            return say(words.SHARE, number=plain_number(value))
        return plain_number(value)

    def range(self) -> str:
        """Both ends of what is allowed, in words."""
        if not (math.isfinite(self.low) and math.isfinite(self.high)):
            return ""
        text = words.RANGE_OR_NOUGHT if self.zero and self.low > 0 else words.RANGE
        return say(text, low=self.size(self.low), high=self.size(self.high))

    def allows(self, value: float) -> bool:
        """Whether a number is within the range; not-a-number never is."""
        return self.low <= value <= self.high or (self.zero and value == 0)


def key(kind: Kind, meaning: str, status: str = NO_DEFAULT, low: float = -math.inf, high: float = math.inf, **more: Any) -> Any:  # noqa: ANN401 - a field takes the type of the attribute that it is given to
    """A dataclass field that carries a `Key`.

    Parameters
    ----------
    kind : Kind
        What sort of value it takes.
    meaning : str
        One line in the repairer's words, the `Key`'s help.
    status : str
        How well founded the default is.
    low, high : float
        Least and greatest sensible value [mm], [deg], [mm^2] or [-].
    **more
        Other parts of `Key`, and ``default``, the value when the profile is silent (None without one).

    Returns
    -------
    Any
        What `dataclasses.field` returns.
    """
    default = more.pop("default", None)
    return field(default=default, metadata={"key": Key(kind, meaning, status, low, high, **more)})


def key_of(one: Field[Any]) -> Key:
    """The `Key` that a field carries."""
    found = one.metadata["key"]
    assert isinstance(found, Key)
    return found


def keys_of(table: type[Any]) -> Iterator[tuple[str, Key, Any]]:
    """Name, `Key` and default of each key of a table, in the order they are written.

    Parameters
    ----------
    table : type
        A dataclass whose fields were made with `key`; other fields are passed over.

    Yields
    ------
    tuple of str, Key, Any
        The default is None where there is none.
    """
    for one in fields(table):
        if "key" in one.metadata:
            yield one.name, key_of(one), None if one.default is MISSING else one.default

"""What the name of a group or a layer says: ``check``, or ``no-`` and a kind of part."""

from __future__ import annotations

import re

CHECK = "check"
BARRED = "no-"

_ESCAPED = re.compile(r"_x([0-9a-fA-F]{2})_")
_NUMBERED = re.compile(r"(?<=[a-z])-+\d{1,6}$")

LONGEST = 60
"""Characters of a name that could still say something [-]."""


def plain(name: str) -> str:
    """A name as it is compared: small letters, hyphens for spaces and underscores, and no number at its end.

    Drawing programs number names that are used twice, and some write a space as ``_x20_``.

    Examples
    --------
    >>> plain("No_Gusset 2")
    'no-gusset'
    """
    if len(name) > LONGEST:
        return ""
    name = _ESCAPED.sub(lambda found: chr(int(found[1], 16)), name)
    return _NUMBERED.sub("", re.sub(r"[\s_-]+", "-", name.lower()).strip("-"))


def barred_kind(name: str) -> str:
    """The kind of part that a name bars, empty when it bars none.

    Parameters
    ----------
    name : str
        Of a group, a shape or a layer.

    Returns
    -------
    str
        The word after ``no-``.
    """
    name = plain(name)
    return name.removeprefix(BARRED) if name.startswith(BARRED) else ""


def is_check(name: str) -> bool:
    """Whether a name is that of the check line."""
    return plain(name) == CHECK

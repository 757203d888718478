"""Every sentence that a person reads, one module for each subject, ready for translation.

The modules of this folder hold English and nothing else: plain constants, with
``{names}`` where a value goes. Whoever shows a text passes it through `say` or
`count` at that moment, so that a translation, made with the usual gettext
tools and put into ``locales``, is used wherever the text stands.
"""

from __future__ import annotations

import gettext
from functools import cache
from pathlib import Path

DOMAIN = "bellowscut"
"""Name of the catalogue of a language: ``locales/LANGUAGE/LC_MESSAGES/bellowscut.mo``."""

LOCALES = Path(__file__).parent / "locales"
"""Where translations are looked for; none ships."""


@cache
def _catalogue() -> gettext.NullTranslations:
    """The catalogue for the language of the environment (LANGUAGE, LC_ALL, LC_MESSAGES, LANG), or none."""
    return gettext.translation(DOMAIN, LOCALES, fallback=True)


def say(text: str, /, **values: object) -> str:
    """A text in the user's language, with its values set in.

    Parameters
    ----------
    text : str
        A constant of this package.
    **values : object
        What stands in the text's braces.

    Returns
    -------
    str
        The text to show.

    Raises
    ------
    KeyError
        Where a value is missing.

    Examples
    --------
    >>> say("{mm} mm", mm=3)
    '3 mm'
    """
    shown = _catalogue().gettext(text)
    return shown.format(**values) if values else shown


def count(number: int, one: str, many: str, /, **values: object) -> str:
    """A text about some number of things, in the form that the number asks for.

    Parameters
    ----------
    number : int
        How many [-]; stands in the text as ``{number}``.
    one, many : str
        The text for one and for any other number, in English.
    **values : object
        What else stands in the text's braces.

    Returns
    -------
    str
        The text to show.

    Examples
    --------
    >>> count(1, "{number} skin", "{number} skins"), count(2, "{number} skin", "{number} skins")
    ('1 skin', '2 skins')
    """
    return _catalogue().ngettext(one, many, number).format(number=number, **values)

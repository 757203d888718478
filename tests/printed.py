"""Figures as a table prints them."""

from __future__ import annotations

import pytest


def printed(text: str) -> object:
    """A figure as printed, met to half a unit of its last digit.

    Parameters
    ----------
    text : str
        The figure's digits as they stand in print; a comma parts thousands.

    Returns
    -------
    object
        Equal to every number that would print so.
    """
    plain = text.replace(",", "")
    digits = len(plain.partition(".")[2])
    # A hair more than half a unit: halves are exact in print and not in binary.
    return pytest.approx(float(plain), abs=0.5000001 * 10.0**-digits, rel=0)

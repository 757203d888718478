"""Leather trade tables: one "ounce" of thickness is 1/64 in, 0.396875 mm, near 0.4 mm."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from bellowscut.bellows import Bellows
from bellowscut.units import MM_PER_INCH, MM_PER_OUNCE, parse_length
from tests.printed import printed

pytestmark = pytest.mark.source("leather-ounce")


def test_ounce() -> None:
    assert parse_length("1 oz", thickness=True) == printed("0.396875")
    assert parse_length("64 oz", thickness=True) == MM_PER_INCH
    assert printed("0.396875") == MM_PER_OUNCE
    assert parse_length("1 oz", thickness=True) == printed("0.4")


def test_leather_by_the_ounce(made: Callable[..., Bellows]) -> None:
    skin = made(**{'materials."gusset skin"': {"form": "skin", "thickness": "1 oz", "area": "5 sq ft"}})
    assert skin.layers.gusset == printed("0.396875")

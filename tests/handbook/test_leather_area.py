"""ISO 11646 (IULTCS/IUM 32): leather is bought by measured area, in square feet or square decimetres."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from bellowscut.bellows import Bellows
from bellowscut.units import parse_area

pytestmark = pytest.mark.source("leather-area")


def test_a_skin_s_area_in_either_unit(made: Callable[..., Bellows]) -> None:
    areas = [
        made(**{'materials."gusset skin"': {"form": "skin", "thickness": 0.4, "area": area}}).material("gusset skin").piece_area()
        for area in ("5 sq ft", "46.45152 dm2", "0.4645152 m2", "4645.152 cm2")
    ]
    assert areas == pytest.approx([5 * 92903.04] * 4, rel=1e-12)
    assert parse_area("46.45152 dm2") == pytest.approx(areas[0], rel=1e-12)

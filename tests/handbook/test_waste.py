"""Published leather dictionaries: in cutting small articles about 20 per cent of the skin is waste; in furniture 30 to 45."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bellowscut.bellows import Bellows
from bellowscut.estimate import estimate, gross_area
from bellowscut.materials import BUILT_IN, GUSSET_SKIN
from bellowscut.parts import make_parts

pytestmark = pytest.mark.source("waste")


def test_the_default_is_a_fifth() -> None:
    assert {material.waste for material in BUILT_IN.values()} == {20}


@pytest.mark.parametrize(
    ("waste", "grade", "gross"), [(20, None, 125), (20, "A", 100 / 0.8 / 0.97), (45, "F", 100 / 0.55 / 0.73), (0, None, 100)]
)
def test_what_to_buy_for_a_hundred(waste: float, grade: str | None, gross: float) -> None:
    assert gross_area(100, replace(GUSSET_SKIN, waste=waste, grade=grade)) == pytest.approx(gross, rel=1e-12)


def test_four_fifths_of_what_is_bought_are_pieces(six_fold: Bellows) -> None:
    parts = make_parts(six_fold)
    for need in estimate(six_fold, parts).needs:
        pieces = sum(part.area * (part.count + part.spare) for part in parts if part.material == need.material.name)
        assert pieces / need.gross_area == pytest.approx(0.8, rel=1e-12)

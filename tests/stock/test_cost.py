"""Money of a layout against fractions worked out apart, and shares that add up."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, strategies as st

from bellowscut.stock.cost import shared
from bellowscut.stock.lay import lay
from tests.stock.instruments import instrument, skin

CLEAR = 'clear = ["700 mm", "400 mm"]'


@given(
    coins=st.integers(0, 10**9),
    weights=st.lists(st.floats(0.1, 1e6), min_size=1, max_size=6),
    digits=st.sampled_from((0, 2, 3)),
)
def test_shares_add_up_and_none_is_a_coin_off(coins: int, weights: list[float], digits: int) -> None:
    amount = Decimal(coins).scaleb(-digits)
    shares = shared(amount, weights, digits)
    assert sum(shares) == amount
    whole = sum(map(Fraction, weights))
    for share, weight in zip(shares, weights, strict=True):
        assert abs(Fraction(share) - Fraction(amount) * Fraction(weight) / whole) < Fraction(1, 10**digits) + Fraction(1, 10**6)


@pytest.mark.parametrize(
    ("keys", "whole"),
    [
        (("price = 11.50",), Fraction("11.50")),
        (("price = 2", 'price_per = "dm2"'), Fraction(2 * 28)),
        (("price = 2", 'price_per = "dm2"', 'area = "30 dm2"'), Fraction(2 * 30)),
        (("price = 3", 'price_per = "sq ft"'), Fraction(3) * 280_000 / Fraction("92903.04")),
    ],
)
@pytest.mark.parametrize("charge", ["share", "whole"])
def test_a_skin_costs_what_is_used_up_or_all_of_it(keys: tuple[str, ...], whole: Fraction, charge: str) -> None:
    one = instrument(skin("gusset skin", CLEAR, *keys), f'[costs]\ncharge = "{charge}"')
    _, needs = lay([one], 0.5)
    need = next(need for need in needs if need.material.name == "gusset skin")
    (piece,) = need.stock
    share = 1 if charge == "whole" else 1 - Fraction(piece.left.area) / 280_000
    assert need.cost is not None
    assert abs(Fraction(need.cost) - whole * share) <= Fraction(1, 200)
    assert 0 < Fraction(need.cost) <= whole + Fraction(1, 200)
    assert next(other for other in needs if other.material.name == "strip skin").cost is None

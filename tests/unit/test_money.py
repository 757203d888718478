"""Margin, least charge and tax: worked examples, and laws over many amounts, in fractions."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, strategies as st

from bellowscut.money import price, rounded_money
from bellowscut.schema import CURRENCY_DIGITS, CostSpec


def test_margin_is_a_share_of_the_selling_price() -> None:
    """Accounting handbooks tell margin, on the price, from mark-up, on the cost: a cost of 80 with a margin of 20 per cent sells at 100."""
    found = price(Decimal("30.00"), Decimal("50.00"), CostSpec(margin=20.0))
    assert (found.margin, found.before_tax) == (Decimal("20.00"), Decimal("100.00"))


def test_the_least_charge_holds_before_tax() -> None:
    found = price(Decimal("2.00"), Decimal("10.00"), CostSpec(minimum_charge=Decimal(40), tax=20.0))
    assert (found.to_minimum, found.before_tax, found.tax, found.total) == tuple(map(Decimal, (28, 40, 8, 48)))
    kept = price(Decimal("10.00"), Decimal("10.00"), CostSpec(minimum_charge=Decimal(40), margin=20.0))
    assert (kept.margin, kept.to_minimum, kept.total) == tuple(map(Decimal, (5, 15, 40)))
    dear = price(Decimal("2.00"), Decimal("100.00"), CostSpec(minimum_charge=Decimal(40)))
    assert (dear.to_minimum, dear.total) == tuple(map(Decimal, (0, 102)))


def test_odd_shares_are_exact() -> None:
    """17.5 per cent of 99.99 is 17.49825, so 17.50; in binary numbers it would hang on the last bit."""
    assert price(Decimal("99.99"), Decimal("0.00"), CostSpec(tax=17.5)).tax == Decimal("17.50")
    assert price(Decimal("0.70"), Decimal("0.00"), CostSpec(tax=5.0)).tax == Decimal("0.04")


@pytest.mark.parametrize(("currency", "digits"), [("JPY", 0), ("KRW", 0), ("GBP", 2), ("KWD", 3), ("CLF", 4)])
def test_lines_have_the_decimals_of_the_currency(currency: str, digits: int) -> None:
    """Minor units by ISO 4217."""
    costs = CostSpec(currency=currency, margin=13.0, tax=7.7, minimum_charge=Decimal("1234.5678"))
    cost = rounded_money(Decimal("321.98765"), costs.digits)
    found = price(cost, cost, costs)
    for line in (found.margin, found.to_minimum, found.tax, found.total):
        assert line.as_tuple().exponent == -digits


def test_currencies_without_two_decimals() -> None:
    """All that ISO 4217 lists with none, three or four (from memory)."""
    assert {c for c, n in CURRENCY_DIGITS.items() if n == 3} == {"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"}
    assert {c for c, n in CURRENCY_DIGITS.items() if n == 4} == {"CLF", "UYW"}
    assert {c for c, n in CURRENCY_DIGITS.items() if n == 0} == {
        "BIF",
        "CLP",
        "DJF",
        "GNF",
        "ISK",
        "JPY",
        "KMF",
        "KRW",
        "PYG",
        "RWF",
        "UGX",
        "UYI",
        "VND",
        "VUV",
        "XAF",
        "XOF",
        "XPF",
    }


AMOUNTS = st.integers(0, 10**8).map(lambda cents: Decimal(cents).scaleb(-2))
SHARES = st.integers(0, 900).map(lambda tenths: tenths / 10)


@given(AMOUNTS, AMOUNTS, SHARES, SHARES, AMOUNTS)
def test_lines_add_up_and_each_is_rounded_once(materials: Decimal, labour: Decimal, margin: float, tax: float, least: Decimal) -> None:
    found = price(materials, labour, CostSpec(margin=margin, tax=tax, minimum_charge=least))
    assert found.total == found.materials + found.labour + found.margin + found.to_minimum + found.tax
    assert found.before_tax >= least
    kept, cost = Fraction(round(margin * 10), 1000), Fraction(materials + labour)
    assert abs(Fraction(found.margin) - cost * kept / (1 - kept)) <= Fraction(1, 200)
    assert abs(Fraction(found.tax) - Fraction(found.before_tax) * Fraction(round(tax * 10), 1000)) <= Fraction(1, 200)

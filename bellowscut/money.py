"""The price of a job from what it costs: margin, least charge, tax.

Money is exact decimal. Each line is rounded once, half up, to the decimals of
its currency, so that the lines printed add up to the total printed.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from bellowscut.schema import CostSpec


def rounded_money(amount: Decimal, digits: int) -> Decimal:
    """An amount rounded half up to the decimals of its currency [-]."""
    return amount.quantize(Decimal(1).scaleb(-digits), rounding=ROUND_HALF_UP)


@dataclass(frozen=True)
class Price:
    """What a job costs, line by line; the lines add up to `total`.

    Parameters
    ----------
    materials, labour : Decimal
        What is used and what is worked.
    margin : Decimal
        What is left over for the workshop.
    to_minimum : Decimal
        What lifts the price to the least charge.
    tax : Decimal
        On top of all that.
    """

    materials: Decimal
    labour: Decimal
    margin: Decimal
    to_minimum: Decimal
    tax: Decimal

    @property
    def before_tax(self) -> Decimal:
        """The price before tax."""
        return self.materials + self.labour + self.margin + self.to_minimum

    @property
    def total(self) -> Decimal:
        """What is to be paid."""
        return self.before_tax + self.tax


def price(materials: Decimal, labour: Decimal, costs: CostSpec) -> Price:
    """Put margin, least charge and tax on the cost of a job.

    Parameters
    ----------
    materials, labour : Decimal
        Cost of the job, rounded already.
    costs : CostSpec
        Margin as a share of the price before tax [per cent], least charge, tax on the price [per cent], currency.

    Returns
    -------
    Price
        Each line rounded to the decimals of the currency.

    Notes
    -----
    Margin is what accountants call so: a share of the selling price, not of
    the cost. A cost of 80 with a margin of 20 per cent sells at 100.
    """
    cost = materials + labour
    kept = Decimal(repr(costs.margin)) / 100
    margin = rounded_money(cost * kept / (1 - kept), costs.digits)
    least = rounded_money(costs.minimum_charge or Decimal(0), costs.digits)
    to_minimum = max(least - cost - margin, rounded_money(Decimal(0), costs.digits))
    tax = rounded_money((cost + margin + to_minimum) * Decimal(repr(costs.tax)) / 100, costs.digits)
    return Price(materials, labour, margin, to_minimum, tax)

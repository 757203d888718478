"""Material and money, reckoned again by hand or with fractions."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from bellowscut.bellows import Bellows, build
from bellowscut.estimate import Estimate, MaterialNeed, estimate
from bellowscut.money import rounded_money
from bellowscut.parts import make_parts
from bellowscut.profile import loads
from bellowscut.shapes import polygon

Make = Callable[..., Bellows]
FIVE = """
format = 1
section = { shape = "regular", sides = 6, end_size = "6 1/4 in" }
bellows = { folds = 6, fold_depth = 25 }
"""
SKIN: dict[str, Any] = {"form": "skin", "thickness": 0.4, "area": "5 sq ft", "price": 11.5}
STRIP: dict[str, Any] = {"form": "skin", "thickness": 0.6, "area": "5 sq ft", "price": 14.25}
SQ_FT = Fraction(9290304, 100)
"""One square foot [mm^2]: exact, international yard and pound agreement (1959)."""


def priced(made: Make, skin: dict[str, Any], strip: dict[str, Any] | None = None, **tables: Any) -> Bellows:
    """The five-line profile with prices for its leathers."""
    named = {'materials."gusset skin"': skin, **({'materials."strip skin"': strip} if strip else {})}
    return made(**named, **tables)


def regusset(bellows: Bellows) -> Estimate:
    return estimate(bellows, make_parts(bellows, "regusset"), "regusset")


def need(found: Estimate, name: str) -> MaterialNeed:
    return next(one for one in found.needs if one.material.name == name)


def gross(bellows: Bellows, waste: int = 20, share: Fraction = Fraction(1)) -> Fraction:
    """Area of gusset skin to buy, in fractions [mm^2]."""
    area = sum(
        (Fraction(part.area) * (part.count + part.spare) for part in make_parts(bellows, "regusset") if "gusset" in part.kind), Fraction(0)
    )
    return area / (1 - Fraction(waste, 100)) / share


def money(amount: Fraction, digits: int = 2) -> Decimal:
    """Rounded half up, by whole numbers."""
    return Decimal(int(amount * 10**digits + Fraction(1, 2))).scaleb(-digits)


def test_spares_are_bought_but_not_counted_as_net(made: Make) -> None:
    bellows = priced(made, SKIN)
    found = need(regusset(bellows), "gusset skin")
    parts = [part for part in make_parts(bellows, "regusset") if "gusset" in part.kind]
    assert found.net_area == pytest.approx(sum(part.area * part.count for part in parts))
    assert found.gross_area == pytest.approx(float(gross(bellows)))
    assert found.pieces == 1


@pytest.mark.parametrize(
    ("change", "price_of"),
    [
        ({}, lambda area: Fraction(23, 2) * area / (5 * SQ_FT)),
        ({"price_per": "sq ft"}, lambda area: Fraction(23, 2) * area / SQ_FT),
        ({"price_per": "dm2"}, lambda area: Fraction(23, 2) * area / 10_000),
        ({"price_per": "m2"}, lambda area: Fraction(23, 2) * area / 1_000_000),
    ],
    ids=["a skin", "sq ft", "dm2", "m2"],
)
def test_a_share_is_charged_by_what_the_price_is_for(made: Make, change: dict[str, Any], price_of: Callable[[Fraction], Fraction]) -> None:
    bellows = priced(made, {**SKIN, **change})
    assert need(regusset(bellows), "gusset skin").cost == money(price_of(gross(bellows)))


def test_waste_and_grade_are_paid_for(made: Make) -> None:
    bellows = priced(made, {**SKIN, "waste": 40, "grade": "C"})
    assert need(regusset(bellows), "gusset skin").gross_area == pytest.approx(float(gross(bellows, 40, Fraction(88, 100))))


def test_whole_skins_are_charged_whole(made: Make) -> None:
    bellows = priced(made, {**SKIN, "area": "0.3 sq ft"}, costs={"charge": "whole"})
    found = need(regusset(bellows), "gusset skin")
    assert found.pieces == 3
    assert found.cost == Decimal("34.50")
    by_foot = priced(made, {**SKIN, "area": "0.3 sq ft", "price_per": "sq ft"}, costs={"charge": "whole"})
    assert need(regusset(by_foot), "gusset skin").cost == Decimal("10.35")


def test_lines_add_up_to_the_total(made: Make) -> None:
    bellows = priced(made, SKIN, STRIP, costs={"labour_rate": 28})
    found = regusset(bellows)
    lines = [one.cost for one in found.needs]
    assert None not in lines
    assert found.labour is not None
    assert found.total == sum((line for line in lines if line is not None), found.labour)


def test_a_missing_price_leaves_the_total_open(made: Make) -> None:
    found = regusset(priced(made, SKIN, costs={"labour_rate": 28}))
    assert found.materials_cost is None
    assert found.total is None
    assert found.labour == Decimal("380.33")
    assert regusset(priced(made, SKIN, STRIP)).labour is None


def test_currencies_keep_their_decimals(made: Make) -> None:
    """Decimals by ISO 4217: none for JPY, three for KWD."""
    for currency, digits in (("JPY", 0), ("EUR", 2), ("KWD", 3)):
        bellows = priced(made, {**SKIN, "price": 1234.5678}, costs={"currency": currency})
        cost = need(regusset(bellows), "gusset skin").cost
        assert cost is not None
        assert cost.as_tuple().exponent == -digits
    assert rounded_money(Decimal("2.345"), 2) == Decimal("2.35")


def test_work_is_that_of_all_copies(made: Make) -> None:
    """Twenty minutes to look over each of three instruments."""
    found = regusset(made(top={"copies": 3}))
    assert next(step.minutes for step in found.steps if step.operation.key == "look-over") == 60


def test_gasket_is_two_frames_a_bellows(made: Make) -> None:
    assert regusset(made(gasket={})).gasket_length == pytest.approx(2 * 6 * 158.75 / 3**0.5)


def test_a_shelf_is_priced_by_its_mean() -> None:
    """Which skin of a shelf is cut only a layout knows; before that the mean price of an area holds."""
    text = (
        FIVE
        + """
[[materials."gusset skin".shelf]]
name = "one"
area = "4 sq ft"
price = 20
[[materials."gusset skin".shelf]]
name = "two"
area = "6 sq ft"
price = 15
"""
    )
    bellows = build(loads(text))
    assert need(regusset(bellows), "gusset skin").cost == money(Fraction(35, 10) * gross(bellows) / SQ_FT)


@pytest.mark.parametrize(("width", "metres"), [(1000, 2), (1039, 2), (1040, 1)])
def test_a_roll_is_long_enough_for_a_piece_that_lies_only_one_way_on_it(width: int, metres: int, made: Make) -> None:
    """A piece of 1040 by 990 mm, half of it cut away: by its area a metre would do, across the roll it has no room."""
    linen = {"form": "roll", "thickness": 0.2, "size": [width]}
    bellows = made(**{'materials."linen"': linen})
    hinge = next(part for part in make_parts(bellows) if part.kind == "hinge")
    part = replace(hinge, count=1, spare=0, outline=polygon(((0, 0), (1040, 0), (0, 990))), lines=())
    assert need(estimate(bellows, (part,), "rebellows"), "linen").pieces == metres

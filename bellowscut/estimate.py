"""Material and money: areas, skins to buy, cost. Reads parts, never drawings.

Areas in mm^2. Money is decimal and rounded once a printed line, so that lines
add up to the total.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from bellowscut.bellows import Bellows
from bellowscut.labour import minutes
from bellowscut.materials import Material
from bellowscut.parts import Part
from bellowscut.shapes import bounds
from bellowscut.units import MM2_PER_DM2, MM2_PER_M2, MM2_PER_SQ_FT

PER = {"sq ft": MM2_PER_SQ_FT, "dm2": MM2_PER_DM2, "m2": MM2_PER_M2}
"""Size of the units that a skin or sheet is priced by [mm^2]."""


@dataclass(frozen=True)
class MaterialNeed:
    """What the job needs of one material.

    Parameters
    ----------
    material : Material
        The material.
    net_area : float
        All counted pieces, without spares [mm^2].
    gross_area : float
        With spares, cutting waste and the grade's loss [mm^2].
    pieces : int
        Skins, sheets or metres of roll to buy [-].
    cost : Decimal or None
        In the profile's currency; None without a price.
    basis : str
        ``estimate``: by area, waste and grade; ``layout``: by what a layout uses up.
    """

    material: Material
    net_area: float
    gross_area: float
    pieces: int
    cost: Decimal | None
    basis: str = "estimate"


@dataclass(frozen=True)
class Estimate:
    """Materials and cost of a job.

    Parameters
    ----------
    currency : str
        ISO 4217 code.
    digits : int
        Its decimals [-].
    needs : tuple of MaterialNeed
        One for each material, in cutting order.
    gasket_length : float
        Gasket to cut [mm]; 0 where none is asked for.
    minutes : Decimal
        Work at the bench [min], by invented figures.
    labour : Decimal or None
        Its cost; None where the profile gives no rate.
    """

    currency: str
    digits: int
    needs: tuple[MaterialNeed, ...]
    gasket_length: float
    minutes: Decimal
    labour: Decimal | None

    @property
    def materials_cost(self) -> Decimal | None:
        """Sum of the materials, or None where a price is missing."""
        costs = [need.cost for need in self.needs]
        return None if None in costs or not costs else sum((cost for cost in costs if cost is not None), Decimal(0))

    @property
    def total(self) -> Decimal | None:
        """Materials, and labour where a rate is given; None where a price is missing."""
        materials = self.materials_cost
        return None if materials is None else materials + (self.labour or Decimal(0))

    @property
    def leather_net(self) -> float:
        """Leather in the counted pieces [mm^2]."""
        return sum(need.net_area for need in self.needs if need.material.form == "skin")

    @property
    def leather_gross(self) -> float:
        """Leather with spares and waste [mm^2]."""
        return sum(need.gross_area for need in self.needs if need.material.form == "skin")


def estimate(bellows: Bellows, parts: Sequence[Part], job: str = "rebellows") -> Estimate:
    """Reckon material and money for some parts.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    parts : sequence of Part
        What the job makes.
    job : str
        Whose operations are reckoned, a key of `bellowscut.labour.OPERATIONS`.

    Returns
    -------
    Estimate
        By area, with the waste and grade of each material.

    References
    ----------
    Grades: source key ``grading``; waste: source key ``waste``.
    """
    profile = bellows.profile
    needs = []
    for name in dict.fromkeys(part.material for part in parts):
        material = profile.materials[name]
        mine = [part for part in parts if part.material == name]
        net = sum(part.area * part.count for part in mine)
        gross = gross_area(sum(part.area * part.pieces for part in mine), material)
        pieces = max(1, math.ceil(round(gross / material.piece_area(), 9)), _least_roll(mine, material))
        needs.append(MaterialNeed(material, net, gross, pieces, _cost(material, gross, pieces, profile.costs.charge, profile.costs.digits)))
    gasket = bellows.section.frame_perimeter * 2 * profile.copies if profile.gasket is not None else 0.0
    work = minutes(job, parts)
    rate = profile.costs.labour_rate
    labour = None if rate is None else rounded_money(rate * work / 60, profile.costs.digits)
    return Estimate(profile.costs.currency, profile.costs.digits, tuple(needs), gasket, work, labour)


def gross_area(area: float, material: Material) -> float:
    """Area to buy for `area` of pieces [mm^2]: divided by what waste and grade leave."""
    return area / (1 - material.waste / 100) / material.usable


def _least_roll(parts: Sequence[Part], material: Material) -> int:
    """Metres of roll that the longest piece needs at the least [-]."""
    if material.form != "roll" or material.size is None:
        return 0
    least = 0.0
    for part in parts:
        left, low, right, high = bounds(part.points)
        across = material.size[0]
        fits = [long for long, short in ((right - left, high - low), (high - low, right - left)) if short <= across]
        least = max(least, min(fits, default=0.0))
    return math.ceil(least / 1000)


def _cost(material: Material, gross: float, pieces: int, charge: str, digits: int) -> Decimal | None:
    if material.price is None:
        return None
    one = Decimal(repr(material.piece_area()))
    bought = pieces * one if charge == "whole" else Decimal(repr(gross))
    units = bought / (Decimal(repr(PER[material.price_per])) if material.price_per in PER else one)
    return rounded_money(material.price * units, digits)


def rounded_money(amount: Decimal, digits: int) -> Decimal:
    """An amount rounded half up to the decimals of its currency [-]."""
    return amount.quantize(Decimal(1).scaleb(-digits), rounding=ROUND_HALF_UP)

"""Material and money: areas, skins to buy, cost. Reads parts, never drawings.

Areas in mm^2. Money is decimal and rounded once a printed line, so that lines
add up to the total.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from bellowscut.bellows import Bellows
from bellowscut.job_book import Book, learned, leather_learned
from bellowscut.labour import Step, steps
from bellowscut.materials import Material
from bellowscut.money import Price, price, rounded_money
from bellowscut.parts import Part
from bellowscut.schema import CostSpec
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
        ``estimate``: by area, waste and grade; ``layout``: by what a layout uses up; ``job book``: by what
        earlier jobs used up.
    learned : int
        Earlier jobs that the job book reckons by [-].
    """

    material: Material
    net_area: float
    gross_area: float
    pieces: int
    cost: Decimal | None
    basis: str = "estimate"
    learned: int = 0


@dataclass(frozen=True)
class Estimate:
    """Materials and cost of a job.

    Parameters
    ----------
    costs : CostSpec
        Currency, rate, least charge, margin and tax.
    needs : tuple of MaterialNeed
        One for each material, in cutting order.
    gasket_length : float
        Gasket to cut [mm]; 0 where none is asked for.
    steps : tuple of Step
        The work at the bench in order, with its minutes.
    own_minutes : bool
        Whether any of them are the user's own.
    """

    costs: CostSpec
    needs: tuple[MaterialNeed, ...]
    gasket_length: float
    steps: tuple[Step, ...]
    own_minutes: bool = False

    @property
    def currency(self) -> str:
        """ISO 4217 code."""
        return self.costs.currency

    @property
    def digits(self) -> int:
        """Decimals of the currency [-]."""
        return self.costs.digits

    @property
    def minutes(self) -> Decimal:
        """Work at the bench [min]."""
        return sum((step.minutes for step in self.steps), Decimal(0))

    @property
    def learned(self) -> int:
        """Most earlier jobs that any step is reckoned by [-]; 0 where the job book had nothing to say."""
        return max((step.learned for step in self.steps), default=0)

    @property
    def labour(self) -> Decimal | None:
        """Cost of the work; None where there is no rate."""
        rate = self.costs.labour_rate
        return None if rate is None else rounded_money(rate * self.minutes / 60, self.digits)

    @property
    def materials_cost(self) -> Decimal | None:
        """Sum of the materials, or None where a price is missing."""
        costs = [need.cost for need in self.needs]
        return None if None in costs or not costs else sum((cost for cost in costs if cost is not None), Decimal(0))

    @property
    def price(self) -> Price | None:
        """Materials, labour where a rate is given, margin, least charge and tax; None where a price is missing."""
        materials = self.materials_cost
        nothing = rounded_money(Decimal(0), self.digits)
        return None if materials is None else price(materials, nothing if self.labour is None else self.labour, self.costs)

    @property
    def total(self) -> Decimal | None:
        """What is to be paid; None where a price is missing."""
        return None if self.price is None else self.price.total

    @property
    def leather_net(self) -> float:
        """Leather in the counted pieces [mm^2]."""
        return sum(need.net_area for need in self.needs if need.material.form == "skin")

    @property
    def leather_gross(self) -> float:
        """Leather with spares and waste [mm^2]."""
        return sum(need.gross_area for need in self.needs if need.material.form == "skin")


def estimate(bellows: Bellows, parts: Sequence[Part], job: str = "rebellows", book: Book = ()) -> Estimate:
    """Reckon material and money for some parts.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    parts : sequence of Part
        What the job makes.
    job : str
        Whose operations are reckoned, a key of `bellowscut.labour.OPERATIONS`.
    book : Book
        What earlier jobs took.

    Returns
    -------
    Estimate
        By area, with the waste and grade of each material, or by what earlier jobs used up of it.

    References
    ----------
    Grades: source key ``grading``; waste: source key ``waste``.
    """
    profile = bellows.profile
    taught = leather_learned(book)
    needs = []
    for name in dict.fromkeys(part.material for part in parts):
        material = profile.materials[name]
        mine = [part for part in parts if part.material == name]
        net = sum(part.area * part.count for part in mine)
        cut = sum(part.area * part.pieces for part in mine)
        gross, basis, jobs = gross_area(cut, material), "estimate", 0
        if name in taught:
            ratio, jobs = taught[name]
            gross, basis = cut * float(ratio), "job book"
        pieces = max(1, math.ceil(round(gross / material.piece_area(), 9)), _least_roll(mine, material))
        cost = _cost(material, gross, pieces, profile.costs.charge, profile.costs.digits)
        needs.append(MaterialNeed(material, net, gross, pieces, cost, basis, jobs))
    gasket = bellows.section.frame_perimeter * 2 * profile.copies if profile.gasket is not None else 0.0
    work = steps(job, parts, profile.copies, learned(book, profile.minutes), new_form=profile.quote.new_form)
    own = any(step.operation.key in profile.minutes for step in work)
    return Estimate(profile.costs, tuple(needs), gasket, work, own)


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
        return _cost_of_shelf(material.shelf, gross, digits)
    one = Decimal(repr(material.piece_area()))
    bought = pieces * one if charge == "whole" else Decimal(repr(gross))
    units = bought / (Decimal(repr(PER[material.price_per])) if material.price_per in PER else one)
    return rounded_money(material.price * units, digits)


def _cost_of_shelf(shelf: Sequence[Material], gross: float, digits: int) -> Decimal | None:
    """By area at the mean price of all that stands on a shelf; only a layout knows which of it is cut."""
    whole = [_cost(one, one.piece_area(), 1, "whole", digits) for one in shelf]
    known = [cost for cost in whole if cost is not None]
    if not whole or len(known) < len(whole):
        return None
    area = sum(one.piece_area() for one in shelf)
    return rounded_money(sum(known, Decimal(0)) * Decimal(repr(gross)) / Decimal(repr(area)), digits)

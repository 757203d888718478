"""What laid-out stock costs: by the share that is used up, or by whole skins and sheets. Money is decimal."""

from __future__ import annotations

import math
from collections.abc import Sequence
from decimal import ROUND_DOWN, Decimal

from bellowscut.estimate import PER
from bellowscut.materials import METRE, ROLL
from bellowscut.money import rounded_money
from bellowscut.stock.model import StockPiece
from bellowscut.stock.outlines import Sort


def whole_price(sort: Sort) -> Decimal | None:
    """Price of one whole skin or sheet, or of a metre of a roll, in the profile's currency; None without one."""
    material = sort.material
    if material.price is None:
        return None
    if material.price_per not in PER:
        return material.price
    area = material.area if material.area is not None else sort.area
    return material.price * Decimal(repr(area)) / Decimal(repr(PER[material.price_per]))


def cost(stock: Sequence[tuple[Sort, StockPiece]], charge: str, digits: int) -> Decimal | None:
    """What some pieces of stock cost.

    Parameters
    ----------
    stock : sequence of (Sort, StockPiece)
        What is cut into.
    charge : str
        ``share`` of each that is used up, or ``whole``.
    digits : int
        Decimals of the currency [-].

    Returns
    -------
    Decimal or None
        Rounded once; None when a price is missing.
    """
    total = Decimal(0)
    for sort, piece in stock:
        price = whole_price(sort)
        if price is None:
            return None
        total += price * _amount(piece, charge)
    return rounded_money(total, digits)


def _amount(piece: StockPiece, charge: str) -> Decimal:
    """How many whole skins, sheets or metres are charged [-]."""
    if piece.material.form == ROLL:
        metres = (piece.length_used or 0.0) / METRE
        return Decimal(math.ceil(round(metres, 9))) if charge == "whole" else Decimal(repr(metres))
    if charge == "whole":
        return Decimal(1)
    return Decimal(repr(used_area(piece))) / Decimal(repr(piece.area))


def used_area(piece: StockPiece) -> float:
    """Stock that is used up: all but what is left over and of use [mm^2]."""
    return piece.area if piece.material.form == ROLL else piece.area - piece.left.area


def shared(amount: Decimal, weights: Sequence[float], digits: int) -> tuple[Decimal, ...]:
    """An amount shared by weight, each share in whole coins, so that they add up to it.

    Parameters
    ----------
    amount : Decimal
        In whole coins of the currency.
    weights : sequence of float
        Of each share [-]; at least one above 0.
    digits : int
        Decimals of the currency [-].

    Returns
    -------
    tuple of Decimal
        The coins that rounding leaves go to the shares that lost most by it.
    """
    coin = Decimal(1).scaleb(-digits)
    total = sum(Decimal(repr(weight)) for weight in weights)
    exact = [amount * Decimal(repr(weight)) / total for weight in weights]
    shares = [share.quantize(coin, rounding=ROUND_DOWN) for share in exact]
    left = int((amount - sum(shares)) / coin)
    for k in sorted(range(len(exact)), key=lambda k: (shares[k] - exact[k], k))[:left]:
        shares[k] += coin
    return tuple(shares)

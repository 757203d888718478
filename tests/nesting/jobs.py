"""Random layout jobs: odd outlines, flaws either way round, barred zones, rolls, parts that are not convex."""

from __future__ import annotations

import math
import random
from dataclasses import replace

from bellowscut.nesting.model import AnyTurn, Order, Polygon, Shape, Stock, Turns

TURNS: tuple[Turns, ...] = (
    (0.0,),
    (0.0, 180.0),
    (0.0, 90.0, 180.0, 270.0),
    AnyTurn(),
    AnyTurn(30.0, 10.0),
    (0.0, 90.0),
    AnyTurn(10.0, 20.0, False),
)


def blob(chance: random.Random, x: float, y: float, radius: float, count: int) -> Polygon:
    """A rough round outline about a point [mm]."""
    reach = [radius * (0.6 + 0.4 * chance.random()) for _ in range(count)]
    return tuple((x + r * math.cos(2 * math.pi * i / count), y + r * math.sin(2 * math.pi * i / count)) for i, r in enumerate(reach))


def shape(chance: random.Random, number: int) -> Shape:
    """A rectangle, trapezoid, bracket, diamond, notched plate or triangle, at times far from its own origin [mm]."""
    a, b = chance.uniform(8, 60), chance.uniform(8, 60)
    points: Polygon = (
        ((0, 0), (a, 0), (a, b), (0, b)),
        ((0, 0), (a, 0), (a * 0.8, b), (a * 0.3, b)),
        ((0, 0), (a, 0), (a, b * 0.4), (a * 0.5, b * 0.4), (a * 0.5, b), (0, b)),
        ((0, b / 2), (-a / 6, b * 0.4), (-a / 2, 0), (-a / 6, -b * 0.4), (0, -b / 2), (a / 2, 0)),
        ((0, 0), (a, 0), (a, b), (a * 0.6, b), (a * 0.5, b * 0.4), (a * 0.4, b), (0, b)),
        ((0, 0), (a, 0), (b * 0.2, b)),
    )[chance.randrange(6)]
    turns = chance.choice(TURNS)
    x, y = chance.choice([(0.0, 0.0), (37.0, -12.0)])
    return Shape(f"part-{number}", tuple((x + px, y + py) for px, py in points), turns, f"kind-{number % 2}")


def stock(chance: random.Random, name: str) -> Stock:
    """A sheet or a skin, with flaws and a barred zone at times."""
    if chance.random() < 0.5:
        wide, high = chance.uniform(50, 250), chance.uniform(50, 200)
        outline: Polygon = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
        middle = (wide / 2, high / 2)
    else:
        middle = (100.0, 80.0)
        outline = blob(chance, *middle, chance.uniform(50, 120), chance.choice([8, 16, 40]))
    flaws = tuple(
        blob(
            chance,
            middle[0] + chance.uniform(-50, 50),
            middle[1] + chance.uniform(-40, 40),
            chance.uniform(2, 15),
            chance.choice([5, 9, 16]),
        )
        for _ in range(chance.choice([0, 1, 3]))
    )
    barred = {"kind-0": (blob(chance, middle[0] - 20, middle[1], 25, 7),)} if chance.random() < 0.4 else {}
    return Stock(name, outline, flaws, barred=barred)


def job(seed: int) -> tuple[list[Stock], list[Order]]:
    """Stocks and orders of one seed."""
    chance = random.Random(seed)
    gap, margin, flaw_gap = chance.choice([0.0, 0.0, 1.5, 0.7, 2.0]), chance.choice([0.0, 5.0, 3.0]), chance.choice([0.0, 1.5])
    roll = chance.random() < 0.2
    if roll:
        stocks = [Stock("stock-1", width=chance.uniform(80, 200))]
    else:
        stocks = [stock(chance, f"stock-{k}") for k in range(1, chance.choice([1, 1, 1, 2, 3]) + 1)]
    orders = [
        Order(shape(chance, k), chance.randrange(1, 20) if roll or chance.random() < 0.6 else None)
        for k in range(chance.choice([1, 1, 2, 3]))
    ]
    return [replace(one, gap=gap, margin=margin, flaw_gap=flaw_gap) for one in stocks], orders

"""The layout engine against two judges: its own predicate on shapely, and plain segments without any library."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from bellowscut.nesting.engine import lay_out
from bellowscut.nesting.model import Order, Result, Shape, Stock
from bellowscut.nesting.verify import faults
from tests.nesting import brute, jobs

SEEDS = range(400 if os.environ.get("BELLOWSCUT_LONG") else 24)
SHEET = Stock(
    "sheet", ((0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (0.0, 100.0)), (((90.0, 40.0), (110.0, 40.0), (100.0, 60.0)),), 5.0, 1.5, 1.5
)
CARD = Shape("card", ((0.0, 0.0), (40.0, 0.0), (32.0, 12.0), (8.0, 12.0)), (0.0, 180.0), "card")


def broken(stocks: list[Stock], orders: list[Order], result: Result) -> list[str]:
    """What the plain judge finds wrong."""
    found = []
    shapes = {order.shape.id: order.shape for order in orders}
    lengths = dict(result.lengths)
    for stock in stocks:
        here = [place for place in result.placements if place.stock == stock.id]
        drawn = [brute.moved(shapes[place.part].points, place.turn, place.x, place.y) for place in here]
        outline = stock.outline
        if stock.width is not None:
            length = lengths.get(stock.id, 0.0)
            outline = ((0.0, 0.0), (length, 0.0), (length, stock.width), (0.0, stock.width))
        for number, points in enumerate(drawn):
            if not brute.within(points, outline, stock.margin):
                found.append(f"{stock.id} {number} outside")
            found += [f"{stock.id} {number} flaw" for flaw in stock.flaws if not brute.apart(points, flaw, stock.flaw_gap)]
            zones = stock.barred.get(shapes[here[number].part].kind, ())
            found += [f"{stock.id} {number} barred" for zone in zones if not brute.apart(points, zone, 0.0)]
            found += [f"{stock.id} {number} on another" for other in drawn[:number] if not brute.apart(points, other, stock.gap)]
    return found


@pytest.mark.parametrize("seed", SEEDS)
def test_random_jobs_keep_every_rule(seed: int) -> None:
    stocks, orders = jobs.job(seed)
    result = lay_out(stocks, orders, 0.2)
    assert faults(stocks, orders, result) == ()
    assert broken(stocks, orders, result) == []
    short = dict(result.unplaced)
    for order in orders:
        laid = sum(place.part == order.shape.id for place in result.placements)
        if order.count is not None:
            assert laid + short.get(order.shape.id, 0) == order.count


def test_planted_faults_are_caught() -> None:
    orders = [Order(CARD, 12)]
    result = lay_out([SHEET], orders, 0.5)
    assert len(result.placements) == 12
    assert faults([SHEET], orders, result) == ()
    first, *others = result.placements
    for wrong in (
        replace(first, x=others[0].x + 0.5, y=others[0].y, turn=others[0].turn),
        replace(first, x=2.0, y=50.0, turn=0.0),
        replace(first, x=85.0, y=45.0, turn=0.0),
        replace(first, turn=90.0),
        replace(first, stock="another"),
    ):
        assert faults([SHEET], orders, replace(result, placements=(wrong, *others))), wrong
    assert faults([SHEET], orders, replace(result, placements=tuple(others)))
    assert faults([SHEET], orders, replace(result, placements=(first, first, *others)))


def test_the_same_job_gives_the_same_layout_in_another_process() -> None:
    code = (
        "from bellowscut.nesting.engine import lay_out\nfrom tests.nesting import jobs\n"
        "for seed in (1, 5, 9):\n    print(repr(lay_out(*jobs.job(seed), 0.2)))"
    )
    root = str(Path(__file__).parents[2])
    told = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": root},
            capture_output=True,
            check=True,
            text=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(told) == 1
    assert told != {""}


def test_what_does_not_fit_is_named() -> None:
    whale = Shape("whale", ((0.0, 0.0), (500.0, 0.0), (500.0, 300.0), (0.0, 300.0)))
    result = lay_out([SHEET], [Order(whale, 2), Order(CARD, 3)], 0.2)
    assert dict(result.unplaced) == {"whale": 2}
    assert len(result.placements) == 3


@pytest.mark.parametrize(
    "points", [((0.0, 0.0), (10.0, 0.0)), ((0.0, 0.0), (10.0, 0.0), (20.0, 0.0)), ((0.0, 0.0), (float("nan"), 0.0), (5.0, 5.0))]
)
def test_outlines_that_hold_nothing_are_refused(points: tuple[tuple[float, float], ...]) -> None:
    with pytest.raises(ValueError, match=r"."):
        Shape("bad", points)

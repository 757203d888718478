"""A search stops when its work is spent: counted, so that no clock and no busy machine has a say."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
import shapely

from bellowscut.nesting import fill, greedy, lattice
from bellowscut.nesting.budget import Budget
from bellowscut.nesting.engine import lay_out
from bellowscut.nesting.field import Field, loose_poses
from bellowscut.nesting.model import AnyTurn, Order, Shape, Stock
from bellowscut.nesting.nofit import free_area

CARD = ((0.0, 0.0), (60.0, 0.0), (51.0, 22.0), (9.0, 22.0))
RHOMB = ((0.0, 0.0), (21.0, -12.0), (42.0, 0.0), (21.0, 12.0))
SHEET = Stock("sheet", ((0.0, 0.0), (420.0, 0.0), (420.0, 297.0), (0.0, 297.0)), (), 5.0, 1.0, 1.0)


def ring(points: int, across: float, up: float) -> tuple[tuple[float, float], ...]:
    """A skin-like outline of so many points [mm]."""
    turns = [2 * math.pi * k / points for k in range(points)]
    reach = [1 + 0.06 * math.sin(7 * turn) + 0.002 * math.sin(900 * turn) for turn in turns]
    return tuple((across * (1 + r * math.cos(turn)), up * (1 + r * math.sin(turn))) for turn, r in zip(turns, reach, strict=True))


class Counted:
    """How often the steps of a search are made that take most of its time."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.made: dict[str, int] = {}
        lattice.patterns.cache_clear()
        for owner, name in ((lattice, "_measure"), (greedy.Room, "take"), (fill, "Courses")):
            monkeypatch.setattr(owner, name, self._counting(name, getattr(owner, name)))

    def _counting(self, name: str, work: Callable[..., object]) -> Callable[..., object]:
        def counting(*given: object) -> object:
            self.made[name] = self.made.get(name, 0) + 1
            return work(*given)

        return counting


@pytest.mark.parametrize("turns", [(0.0, 180.0), AnyTurn(0.0, 10.0)], ids=["grain kept", "near the grain"])
def test_little_work_asks_for_few_steps(turns: tuple[float, ...] | AnyTurn, monkeypatch: pytest.MonkeyPatch) -> None:
    orders = [Order(Shape("card", CARD, turns), None), Order(Shape("gusset", RHOMB, turns), None)]
    steps = {}
    for seconds in (0.01, 1.0):
        counted = Counted(monkeypatch)
        result = lay_out([SHEET], orders, seconds)
        monkeypatch.undo()
        assert result.placements
        steps[seconds] = counted.made
    # Every pattern is looked at once; improving them, rows and loose pieces are what work is for.
    assert steps[0.01]["_measure"] < steps[1.0]["_measure"] / 3
    assert steps[0.01]["Courses"] <= 4
    assert steps[0.01]["take"] < steps[1.0]["take"]


def test_a_spent_whole_ends_its_parts() -> None:
    whole = Budget(100.0)
    part, other = whole.part(80.0), whole.part(80.0)
    part.spend(60.0)
    assert not other.spent
    other.spend(50.0)
    assert (part.left > 0, part.spent, whole.spent) == (True, True, True)


def test_pieces_stop_being_laid_when_the_work_is_spent() -> None:
    spent = Budget(9.5 * greedy.TAKING)
    laid = greedy.Laid()
    field = Field(SHEET)
    poses = loose_poses(Shape("gusset", RHOMB))
    assert len(poses) == 1
    assert greedy.lay([("gusset", poses, None)], field.positions, laid, 1.0, greedy.DIRECTIONS[0], spent)["gusset"] == 10


def test_an_order_that_fits_is_laid_whatever_the_work() -> None:
    """However little work is asked for, nothing is called missing that goes on the sheet one by one."""
    orders = [Order(Shape("card", CARD, (0.0, 180.0)), 60), Order(Shape("gusset", RHOMB, (0.0, 180.0)), 12)]
    assert lay_out([SHEET], orders, 1e-6).unplaced == ()


def test_few_pieces_are_laid_without_a_search(monkeypatch: pytest.MonkeyPatch) -> None:
    counted = Counted(monkeypatch)
    result = lay_out([SHEET], [Order(Shape("card", CARD, (0.0, 180.0)), 20)], 10.0)
    assert len(result.placements) == 20
    # Each pattern is looked at once, none is improved; a good search takes some thousand looks.
    assert counted.made["_measure"] < 150
    assert counted.made["Courses"] <= 20
    rows = {round(place.y, 3) for place in result.placements}
    assert len(rows) <= 8


def test_a_little_of_a_roll_is_laid_without_a_search(monkeypatch: pytest.MonkeyPatch) -> None:
    counted = Counted(monkeypatch)
    roll = Stock("roll", width=1000.0, margin=5.0, gap=1.0)
    result = lay_out([roll], [Order(Shape("card", CARD, (0.0, 180.0)), 20)], 10.0)
    assert result.lengths[0][1] < 200.0
    assert "Courses" not in counted.made


def test_a_tracing_of_very_many_points_is_worked_with_as_one_of_few() -> None:
    fine = Stock("skin", ring(9999, 400.0, 280.0), (ring(3000, 20.0, 20.0),), 3.0, 2.0, 1.0)
    area = free_area(fine, "")
    assert shapely.get_num_coordinates(area) < 1000
    skin, flaw = shapely.Polygon(fine.outline), shapely.Polygon(fine.flaws[0])
    assert skin.covers(area)
    assert area.distance(skin.exterior) >= fine.margin
    assert area.distance(flaw) >= fine.flaw_gap
    # Of the sound ground no more is lost than two millimetres along its edges.
    sound = skin.buffer(-fine.margin).difference(flaw.buffer(fine.flaw_gap))
    assert area.area > sound.area - 2.0 * sound.convex_hull.length

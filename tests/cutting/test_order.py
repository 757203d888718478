"""Order of work: stages in their order, travel never longer than in the order of the list, the same every time."""

from __future__ import annotations

import math
import random
from itertools import pairwise

import numpy as np
import pytest

from bellowscut.cutting import order as ordering
from bellowscut.cutting.figures import figures
from bellowscut.cutting.machine import PLACE, Job, machine_drawing
from bellowscut.cutting.order import Task, ordered
from bellowscut.drawing import Drawn
from bellowscut.schema import CutterSpec
from bellowscut.shapes import Point
from tests.cutting.stock import half_turns, piece, rows, scattered, shipped, stage_of

CUTTERS = [("laser", CutterSpec()), ("knife", CutterSpec()), ("knife", CutterSpec(blade_offset=0.25)), ("hand", CutterSpec())]


def straight(places: list[Point]) -> list[Task]:
    """Things that begin and end at one place each."""
    drawings = [Drawn(f"{number}", ()) for number in range(len(places))]
    return [Task((place,), (place,), lambda _, one=drawing: one) for place, drawing in zip(places, drawings, strict=True)]  # type: ignore[misc]


def travel(places: list[Point], order: tuple[Drawn, ...], at: Point) -> float:
    path = [at, *(places[int(one.part)] for one in order)]
    return sum(math.dist(a, b) for a, b in pairwise(path))


@pytest.mark.parametrize("seed", range(12))
def test_travel_is_never_longer_than_in_the_order_of_the_list(seed: int) -> None:
    chance = random.Random(seed)
    places = [(chance.uniform(0, 900), chance.uniform(0, 600)) for _ in range(chance.randrange(1, 120))]
    tasks = straight(places)
    order, end = ordered(tasks, (0.0, 0.0))
    assert sorted(int(one.part) for one in order) == list(range(len(places))), "each once"
    assert end == places[int(order[-1].part)]
    listed = travel(places, tuple(task.make(0) for task in tasks), (0.0, 0.0))
    assert travel(places, order, (0.0, 0.0)) <= listed + 1e-6
    if len(places) > 30:
        # A tour of n random places in an area A is about 0.71 sqrt(n A) long (Beardwood, Halton and Hammersley, 1959); heuristics stay within a third.
        assert travel(places, order, (0.0, 0.0)) < 1.35 * 0.7124 * math.sqrt(len(places) * 900 * 600) + 500
    assert ordered(tasks, (0.0, 0.0))[0] == order


def test_a_crossing_is_undone() -> None:
    places = [(10.0, 0.0), (20.0, 10.0), (20.0, 0.0), (10.0, 10.0), (30.0, 0.0), (30.0, 10.0)]
    order, _ = ordered(straight(places), (0.0, 0.0))
    assert travel(places, order, (0.0, 0.0)) == pytest.approx(10 + 20 + 10 + 20)


def test_a_thing_that_can_be_worked_from_either_end_is_begun_at_the_nearer() -> None:
    one, other = Drawn("forward", ()), Drawn("backward", ())
    task = Task(((100.0, 0.0), (1.0, 0.0)), ((1.0, 0.0), (100.0, 0.0)), (one, other).__getitem__)
    assert ordered([task], (0.0, 0.0)) == ((other,), (100.0, 0.0))
    assert ordered([], (3.0, 4.0)) == ((), (3.0, 4.0))


def test_each_in_a_row_is_begun_where_the_way_is_shortest() -> None:
    places = [(float(x), float(x + 9)) for x in range(0, 100, 10)]
    tasks = [
        Task(((low, 0.0), (high, 0.0)), ((high, 0.0), (low, 0.0)), (Drawn("up", ()), Drawn("down", ())).__getitem__) for low, high in places
    ]
    assert [one.part for one in ordered(tasks, (0.0, 0.0))[0]] == ["up"] * 10
    assert [one.part for one in ordered(tasks, (100.0, 0.0))[0]] == ["down"] * 10


def job_of(seed: int, cutter: str, spec: CutterSpec) -> Job:
    return machine_drawing(piece(scattered(random.Random(seed), 60), 900, 600), cutter, spec)


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize(("cutter", "spec"), CUTTERS)
def test_cuts_on_random_layouts_travel_no_further_than_in_order_of_the_list(cutter: str, spec: CutterSpec, seed: int) -> None:
    job = job_of(seed, cutter, spec)
    outlines = [one for one in job.drawn if stage_of(one) == 5]
    listed = sorted(outlines, key=lambda one: int(one.part.split("-")[1]))
    assert figures(outlines, spec).travel < 0.5 * figures(listed, spec).travel


@pytest.mark.parametrize(("cutter", "spec"), CUTTERS)
@pytest.mark.parametrize(
    ("name", "kinds"),
    [("square-box", ("gusset", "edge-strip")), ("six-sided-scored-run", ("card-run",)), ("", ())],
    ids=["strips", "run", "holes"],
)
def test_stages_come_in_their_order(name: str, kinds: tuple[str, ...], cutter: str, spec: CutterSpec) -> None:
    if name:
        laid = rows(shipped(name, *kinds)[1], 800, 500, turn=half_turns)
        job = machine_drawing(piece(laid, 800, 500), cutter, spec)
    else:
        job = job_of(1, cutter, spec)
    for drawings in filter(None, (job.drawn, job.back)):
        assert f"{PLACE}-mark" in {one.part for one in drawings}
        stages = [stage_of(one) for one in drawings]
        assert stages == sorted(stages), "text, marks, skive lines, creases, holes, outlines"
        assert len(set(stages)) > 1
    names = [one.part for one in job.drawn]
    assert len(set(names)) == len(names)
    for number, one in enumerate(names):
        if "-hole-" in one:
            assert number < names.index(one.partition("-hole-")[0] + "-cut"), "inner cuts before the outline of their piece"


def test_work_on_many_pieces_is_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    """Passes over all pairs stop when so many pairs were looked at: as many passes as fit, one at least."""
    random_places = np.random.default_rng(5).uniform(0, 900, (150, 2))

    def after(passes: int, steps: int) -> list[int]:
        monkeypatch.setattr(ordering, "PASSES", passes)
        monkeypatch.setattr(ordering, "STEPS", steps)
        return ordering._two_opt(range(150), random_places, np.zeros(2))

    plenty = 10**9
    assert after(20, 2 * 150 * 150) == after(2, plenty)
    assert after(20, 1) == after(1, plenty)
    assert len({tuple(after(passes, plenty)) for passes in (1, 2, 20)}) == 3, "each pass here still finds something"

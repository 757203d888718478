"""The closed stack: layers counted one by one."""

from __future__ import annotations

import itertools

import pytest

from bellowscut.stack import Layers, Stack, bend_allowance, closed_stack, mean_lap

NAMES = tuple(Layers.__dataclass_fields__)

PILES = {
    "face": ("card", "facing"),
    "valley": ("card", "valley_hinge", "facing", "valley_strip"),
    "ridge": ("card", "ridge_hinge", "ridge_cloth", "strip_at_ridge"),
    "corner": ("card", "gusset_lap", "gusset", "gusset", "strip_on_flank", "ridge_hinge", "cover", "cover", "cover"),
}
"""What lies on one card at each place; a cell has two cards."""


def test_every_layer_is_counted_where_it_lies() -> None:
    """Each thickness is a different power of ten, so that a layer forgotten or doubled shows in its own digit."""
    sizes = {name: 10.0**-k for k, name in enumerate(NAMES)}
    found = closed_stack(Layers(**sizes))
    for place, pile in PILES.items():
        assert getattr(found, place) == pytest.approx(2 * sum(sizes[name] for name in pile), rel=1e-12), place


@pytest.mark.parametrize("order", list(itertools.permutations((1.0, 2.0, 3.0, 4.0)))[::5])
def test_the_thickest_place_governs(order: tuple[float, float, float, float]) -> None:
    stack = Stack(*order)
    assert getattr(stack, stack.governs) == 4
    assert stack.closed_length(7, 1) == 28
    assert stack.closed_length(7, 0.9) == pytest.approx(25.2)


def test_mean_lap() -> None:
    assert mean_lap(0.4, 0.1, 5, 5) == pytest.approx(0.25), "skived all over: half-way from full to feather"
    assert mean_lap(0.4, 0.4, 5, 7) == pytest.approx(0.4), "not thinned at all"
    assert mean_lap(0.6, 0.2, 3, 6) == pytest.approx(0.5)


def test_bend_allowance_grows_with_the_angle() -> None:
    assert bend_allowance(0, 5, 1, 0.5) == 0
    assert 2 * bend_allowance(45, 5, 1, 0.5) == pytest.approx(bend_allowance(90, 5, 1, 0.5))

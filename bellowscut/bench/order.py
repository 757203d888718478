"""The order in which steps are worked, and the days on which they fall."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bellowscut.bellows import Bellows
from bellowscut.labour import DAY_LONG, DAY_SHORT, Step, schedule

LEATHER = ("cut-gussets", "gussets-on-form", "end-gussets", "edge-strips")
"""Steps before which papers that lie under the leather are glued."""


@dataclass(frozen=True)
class Days:
    """When a step is done.

    Parameters
    ----------
    soonest, latest : int
        Day on which it ends, counted from 1: by long days and quick glue, and by short days and slow glue [-].
    """

    soonest: int
    latest: int


def working_order(bellows: Bellows, steps: Sequence[Step]) -> tuple[Step, ...]:
    """Steps as they are worked on this bellows.

    Ridge cloth lies under the edge strips and is glued before them; papers
    that go on first lie under all leather.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    steps : sequence of Step
        In the usual order.
    """
    found = _before(list(steps), "ridge-cloth", ("edge-strips",))
    facing = bellows.profile.facing
    if facing is not None and facing.order == "first":
        found = _before(found, "facings", LEATHER)
    return tuple(found)


def _before(steps: list[Step], key: str, others: Sequence[str]) -> list[Step]:
    """Move a step before the first of some others, if it comes after it."""
    moving = next((step for step in steps if step.operation.key == key), None)
    target = next((i for i, step in enumerate(steps) if step.operation.key in others), None)
    if moving is None or target is None or steps.index(moving) < target:
        return steps
    rest = [step for step in steps if step is not moving]
    return [*rest[:target], moving, *rest[target:]]


def days_of(steps: Sequence[Step]) -> tuple[Days, ...]:
    """The days of each step."""
    return tuple(Days(*both) for both in zip(schedule(steps, DAY_LONG, 0), schedule(steps, DAY_SHORT, 1), strict=True))

"""In which order to work things that may be worked in any, so that the tool travels little between them.

Nearest neighbour first, then 2-opt, with a bounded number of passes; last
the best way to begin each thing is found for the order as it stands. The
order of the list is tried too, so that the outcome is never worse than that.
The same input gives the same order on every machine.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from bellowscut.drawing import Drawn
from bellowscut.shapes import Point

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

PASSES = 20
"""Most passes of 2-opt [-]."""

STEPS = 4_000_000
"""Most pairs of things looked at in all passes together [-], one pass at least: a tenth of a second or so."""

GAIN = 1e-6
"""A change must save more than this [mm], or rounding errors could go round in circles."""


@dataclass(frozen=True)
class Task:
    """Something that is worked in one go.

    Parameters
    ----------
    starts, ends : tuple of Point
        Where it begins and ends, for each way in which it can be worked [mm].
    make : callable
        Draws it, given the number of the way.
    """

    starts: tuple[Point, ...]
    ends: tuple[Point, ...]
    make: Callable[[int], Drawn]


def ordered(tasks: Sequence[Task], at: Point) -> tuple[tuple[Drawn, ...], Point]:
    """Put tasks into an order with short travel.

    Parameters
    ----------
    tasks : sequence of Task
        In any order.
    at : Point
        Where the tool stands [mm].

    Returns
    -------
    tuple of Drawn
        In the order found.
    Point
        Where the tool stands afterwards [mm].
    """
    if not tasks:
        return (), at
    import numpy as np

    here = np.array(at, dtype=np.float64)
    starts = [np.array(task.starts, dtype=np.float64) for task in tasks]
    ends = [np.array(task.ends, dtype=np.float64) for task in tasks]
    middles = np.array([(start.mean(axis=0) + end.mean(axis=0)) / 2 for start, end in zip(starts, ends, strict=True)])
    near = _nearest(starts, ends, here)
    orders = [list(range(len(tasks))), near, _two_opt(near, middles, here)]
    found = [(*_ways(order, starts, ends, here), order) for order in orders]
    _, ways, order = min(found, key=lambda one: one[0])
    made = tuple(tasks[number].make(way) for number, way in zip(order, ways, strict=True))
    return made, tasks[order[-1]].ends[ways[-1]]


def _nearest(starts: Sequence[Array], ends: Sequence[Array], at: Array) -> list[int]:
    """Always on to the nearest beginning."""
    import numpy as np

    owner = np.repeat(np.arange(len(starts)), [len(one) for one in starts])
    first = np.cumsum([0, *(len(one) for one in starts)])
    across, up = np.concatenate(starts).T.copy()
    order: list[int] = []
    for _ in starts:
        pick = int(((across - at[0]) ** 2 + (up - at[1]) ** 2).argmin())
        number = int(owner[pick])
        order.append(number)
        at = ends[number][pick - first[number]]
        across[first[number] : first[number + 1]] = np.inf
    return order


def _two_opt(order: Sequence[int], middles: Array, at: Array) -> list[int]:
    """Turn stretches of the order about wherever that is shorter between the middles of things."""
    import numpy as np

    count = len(order)
    path = np.array(order)
    across, up = middles[path].T.copy()
    steps = np.hypot(np.diff(across), np.diff(up))
    passes = max(1, min(PASSES, STEPS // (count * count)))
    for _ in range(passes):
        better = False
        for i in range(count - 1):
            x, y = at if i == 0 else (across[i - 1], up[i - 1])
            change = np.hypot(across[i + 1 :] - x, up[i + 1 :] - y) - np.hypot(across[i] - x, up[i] - y)
            change[:-1] += np.hypot(across[i + 2 :] - across[i], up[i + 2 :] - up[i]) - steps[i + 1 :]
            pick = int(change.argmin())
            if change[pick] < -GAIN:
                for row in (path, across, up):
                    row[i : i + pick + 2] = row[i : i + pick + 2][::-1].copy()
                steps = np.hypot(np.diff(across), np.diff(up))
                better = True
        if not better:
            break
    return [int(number) for number in path]


def _ways(order: Sequence[int], starts: Sequence[Array], ends: Sequence[Array], at: Array) -> tuple[float, list[int]]:
    """Least travel for an order, and the way to work each thing in it."""
    import numpy as np

    cost = np.hypot(*(starts[order[0]] - at).T)
    came: list[NDArray[np.intp]] = []
    for before, here in pairwise(order):
        steps = np.hypot(*(starts[here][:, None, :] - ends[before][None, :, :]).transpose(2, 0, 1)) + cost
        came.append(steps.argmin(axis=1))
        cost = steps.min(axis=1)
    way = int(cost.argmin())
    least = float(cost[way])
    ways = [way]
    for chosen in reversed(came):
        way = int(chosen[way])
        ways.append(way)
    return least, ways[::-1]

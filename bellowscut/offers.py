"""What is offered before it is measured: a fold depth, laps and thicknesses that go with the size of the ends, and that can be made."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping

from bellowscut import limits
from bellowscut.advice import warnings
from bellowscut.bellows import Bellows, build
from bellowscut.errors import ProfileError
from bellowscut.materials import BUILT_IN
from bellowscut.profile import loads
from bellowscut.reading import key_named
from bellowscut.shapes import least_width
from bellowscut.sources import (
    OFFERED_ACROSS,
    OFFERED_DEPTH,
    OFFERED_DEPTH_MOST,
    OFFERED_DEPTH_OF_LIMIT,
    OFFERED_LAPS_FROM_DEPTH,
    OFFERED_LAPS_FROM_SIDE,
)
from bellowscut.toml_lines import dotted, undotted, value_of
from bellowscut.values import convert, exact

DEPTH = "bellows.fold_depth"

LAPS = (
    "gusset.lap",
    "gusset.tip_lap",
    "gusset.ridge_turn",
    "gusset.frame_turn",
    "edge_strip.lap",
    "end_strip.lap",
    "hinge.lap",
)
"""Keys whose usual values are for a usual size, and shrink below it."""

THICKNESSES = {dotted(("materials", name, "thickness")): BUILT_IN[name].thickness for name in ("grey card", "gusset skin", "strip skin")}
"""Keys that shrink only where no bellows could be made of the usual card and leather [mm]."""

TIGHT = ("laps-meet", "hinges-meet")
"""Warnings that nothing offered should earn."""

LAP_STEP, THICKNESS_STEP = 0.5, 0.05
"""What is offered is rounded to this, and is no less [mm]."""

SHARES = (1.0, 0.85, 0.7, 0.55, 0.4, 0.25)
"""Shares of what the size suggests that are tried for the laps [-]."""

THINNER = (1.0, 0.5, 0.25)
"""Shares of the usual thicknesses that are tried [-]."""

LITTLE = {
    "bellows.folds": "1",
    DEPTH: "2",
    "bellows.stretch": "80",
    "bellows.stack_factor": "0.3",
    **dict.fromkeys(LAPS, "0.5"),
    "gusset.ridge_turn": "0.1",
    "gusset.frame_turn": "0.1",
}
"""So little of a bellows that any sound section has room for it: it shows the section by itself."""


def text_of(values: Mapping[str, str]) -> str:
    """A profile of these values, by dotted name."""
    return "".join(f"{name} = {value}\n" for name, value in values.items())


def side_offered(sides: int) -> str:
    """Length of one side, where that is what is measured, as a profile writes it."""
    return f'"{OFFERED_ACROSS.value * math.sin(math.pi / sides):.0f} mm"'


def offers(values: Mapping[str, str], said: Collection[str], start: Collection[str] = ()) -> dict[str, str]:
    """What to offer for the keys that nobody has said anything about, so that the whole can be made.

    Parameters
    ----------
    values : mapping of str to str
        A profile by dotted name.
    said : collection of str
        Names of the keys that were said, which stay as they are.
    start : collection of str
        Names of the keys of the profile that one started from, which stay where they can.

    Returns
    -------
    dict of str to str
        By dotted name, as a profile writes it; keys whose own default will do are left out.
    """
    if "readings.glue_shadow" in values:
        # The mark on the old card says what these are.
        said = {*said, "gusset.lap", "gusset.tip_lap"}
    section = {name: value for name, value in values.items() if name.startswith(("section.", "materials."))}
    little = built({**section, **LITTLE})
    if little is None:
        return {}
    found: dict[str, str] = {}
    best = 2
    for change in _tries(values, said, start, little):
        made = built({**values, **change})
        # First what can be made without its laps meeting, then what can be made.
        worth = 2 if made is None else int(any(note.code in TIGHT for note in warnings(made, "rebellows")))
        if worth < best:
            best, found = worth, change
        if worth == 0:
            break
    return found


def built(values: Mapping[str, str]) -> Bellows | None:
    """The bellows of a profile, None where there is none."""
    try:
        return build(loads(text_of(values)))
    except ProfileError:
        return None


def _tries(values: Mapping[str, str], said: Collection[str], start: Collection[str], little: Bellows) -> Iterator[dict[str, str]]:
    """What might be offered, the best first."""
    if start:
        yield {}
        yield from _fitted(values, said, start, little)
    yield from _fitted(values, said, (), little)


def _fitted(values: Mapping[str, str], said: Collection[str], start: Collection[str], little: Bellows) -> Iterator[dict[str, str]]:
    """What goes with the size: ever shorter laps, then ever thinner card and leather."""
    by_side = min(1.0, min(little.section.sides) / OFFERED_LAPS_FROM_SIDE.value)
    for thinner in THINNER:
        for share in SHARES:
            change: dict[str, str] = {}
            if DEPTH in said or DEPTH in start:
                depth = _length(DEPTH, values)
            else:
                lap = by_side * share * _usual("gusset.lap") if "gusset.lap" not in said else _length("gusset.lap", values)
                limit = limits.depth_limit(little.section, little.corners, lap)
                depth = _depth(least_width(little.section.frame), limit)
                change[DEPTH] = _written(depth)
            by_depth = min(1.0, depth / OFFERED_LAPS_FROM_DEPTH.value)
            wanted = {name: (_usual(name) * min(by_side, by_depth) * share, LAP_STEP) for name in LAPS}
            wanted |= {name: (usual * thinner, THICKNESS_STEP) for name, usual in THICKNESSES.items() if thinner < 1}
            for name, (size, step) in wanted.items():
                value = max(step, round(size / step) * step)
                if name not in said and value < _length(name, values):
                    change[name] = _written(value)
            yield change


def _depth(across: float, limit: float) -> float:
    """Fold depth for ends of a width and for what their corners allow [mm]."""
    depth = min(OFFERED_DEPTH_MOST.value, OFFERED_DEPTH.value * across, OFFERED_DEPTH_OF_LIMIT.value * limit)
    found = key_named(undotted(DEPTH))
    assert found is not None
    return max(found[0].low, round(depth / LAP_STEP) * LAP_STEP)


def _usual(name: str) -> float:
    """The default of a key that is a length [mm]."""
    found = key_named(undotted(name))
    assert found is not None
    return float(THICKNESSES[name] if name in THICKNESSES else found[1])


def _length(name: str, values: Mapping[str, str]) -> float:
    """What a key stands at: as said, or its default [mm]."""
    found = key_named(undotted(name))
    assert found is not None
    return float(convert(value_of(values[name]), found[0])) if name in values else _usual(name)  # type: ignore[arg-type]


def _written(length: float) -> str:
    return f'"{exact(round(length, 3))} mm"'

"""Random instruments: sections of all five kinds, any folds, laps and options, that can be built.

Lengths are multiples of 0.127 mm, which is 0.005 in, so that the same
instrument can be written exactly in either unit.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from hypothesis import reject, strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

from bellowscut.bellows import Bellows, build
from bellowscut.errors import ProfileError
from bellowscut.profile import Profile, loads

STEP = 0.127
"""What every random length is a multiple of [mm]."""

SECTIONS = ("regular", "rectangle", "flats", "side_lengths", "corners")

TIP_KEYS = {"gusset.ridge_turn", "gusset.frame_turn", "gusset.tip_lap"}
"""Keys that a vanishing gusset tip is blamed on."""


@dataclass(frozen=True)
class Length:
    """A length of so many steps of 0.127 mm."""

    steps: int

    @property
    def mm(self) -> float:
        """In millimetres."""
        return self.steps * STEP

    def written(self, unit: str) -> str:
        """As in a profile, in either unit, exact."""
        sign = "-" if self.steps < 0 else ""
        whole, thousandths = divmod(abs(self.steps) * (127 if unit == "mm" else 5), 1000)
        return f'"{sign}{whole}.{thousandths:03d} {unit}"'


Tables = dict[str, dict[str, Any]]


@dataclass(frozen=True)
class Instrument:
    """Tables of a profile, not yet written down."""

    tables: Tables

    def text(self, unit: str = "mm") -> str:
        """The profile, every length in `unit`."""
        lines = ["format = 1"]
        for name, keys in self.tables.items():
            lines += [f"[{name}]"] if name else []
            lines += [f"{key} = {_written(value, unit)}" for key, value in keys.items()]
        return "\n".join(lines)

    def profile(self, unit: str = "mm") -> Profile:
        """The profile as read."""
        return loads(self.text(unit))

    def build(self, unit: str = "mm") -> Bellows:
        """The bellows."""
        return build(self.profile(unit))

    def changed(self, table: str, **keys: Any) -> Instrument:
        """A copy with some keys changed; None takes a key out."""
        merged = {**self.tables.get(table, {}), **keys}
        return Instrument({**self.tables, table: {key: value for key, value in merged.items() if value is not None}})


def _written(value: object, unit: str) -> str:
    if isinstance(value, Length):
        return value.written(unit)
    if isinstance(value, str):
        return f'"{value}"'
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list | tuple):
        return f"[{', '.join(_written(one, unit) for one in value)}]"
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{name} = {_written(one, unit)}' for name, one in value.items())} }}"
    return repr(value)


def nearest(mm: float) -> Length:
    """The length nearest to a number of millimetres."""
    return Length(round(mm / STEP))


def lengths(low: float, high: float) -> SearchStrategy[Length]:
    """Lengths from `low` to `high` [mm]."""
    return st.integers(math.ceil(low / STEP), math.floor(high / STEP)).map(Length)


def whole_tenths(low: float, high: float) -> SearchStrategy[float]:
    """Angles in tenths of a degree."""
    return st.integers(round(low * 10), round(high * 10)).map(lambda n: n / 10)


@st.composite
def sections(draw: DrawFn, kinds: tuple[str, ...] = SECTIONS) -> dict[str, Any]:
    """The section table of an instrument: 3 to 16 sides, 45 to 320 mm across."""
    kind = draw(st.sampled_from(kinds))
    if kind == "regular":
        sides = draw(st.integers(3, 16))
        if sides % 2:
            return {"shape": "regular", "sides": sides, "measure": "side", "end_size": draw(lengths(500 / sides, 1000 / sides))}
        measure = draw(st.sampled_from(("across-flats", "across-corners")))
        return {"shape": "regular", "sides": sides, "measure": measure, "end_size": draw(lengths(120, 320))}
    if kind == "rectangle":
        return {"shape": "rectangle", "width": draw(lengths(90, 320)), "height": draw(lengths(90, 320))}
    found: dict[str, Any] = {"shape": "measured"}
    if kind == "flats":
        half, flat = draw(st.integers(2, 6)), draw(st.integers(150, 300))
        found["flats"] = [draw(lengths(flat - 1, flat + 1)) for _ in range(half)]
    elif kind == "side_lengths":
        sides = draw(st.integers(3, 12))
        mean = 700 / sides
        found["side_lengths"] = [draw(lengths(mean - 0.3, mean + 0.3)) for _ in range(sides)]
    else:
        sides = draw(st.integers(3, 10))
        wide, high = draw(st.integers(80, 150)), draw(st.integers(80, 150))
        angles = [2 * math.pi * (k + draw(st.integers(-20, 20)) / 100) / sides for k in range(sides)]
        points = [[nearest(wide * math.cos(a)), nearest(high * math.sin(a))] for a in angles]
        found["corners"] = points if draw(st.booleans()) else points[::-1]
    return found


@st.composite
def instruments(draw: DrawFn, kinds: tuple[str, ...] = SECTIONS, *, options: bool = True) -> Instrument:
    """An instrument that can be built.

    Parameters
    ----------
    draw : callable
        Given by hypothesis.
    kinds : tuple of str
        Kinds of section to choose from.
    options : bool
        Whether the optional parts, scored runs, darts and so on are drawn too.
    """
    lap = draw(lengths(2.5, 6))
    tables: Tables = {
        "": {"copies": draw(st.integers(1, 3)) if options else 1},
        "section": draw(sections(kinds)),
        "bellows": {
            "folds": draw(st.integers(1, 9)),
            "fold_depth": Length(17),
            "stretch": draw(whole_tenths(40, 75)),
            "ends": draw(st.sampled_from(("ridge", "valley"))),
            "relief": draw(whole_tenths(0, 8)),
            "corner_gap": draw(lengths(0.3, 2)),
        },
        "gusset": {
            "lap": lap,
            "tip_lap": nearest(lap.mm * draw(st.sampled_from((0.6, 0.8, 1)))),
            "ridge_turn": draw(lengths(0.5, 2)),
            "frame_turn": draw(lengths(0.5, 3)),
            "tip_radius": draw(lengths(0, 3)),
            "point_radius": draw(lengths(0, 4)),
        },
        # Thin layers, so that even shallow folds open further than they close.
        'materials."grey card"': {"form": "sheet", "thickness": 0.6, "size": [1000, 700]},
    }
    if options:
        tables |= draw(_options())
    instrument = Instrument(tables)
    # What the section allows does not depend on the depth; ask a shallow bellows for it, or learn that there is none.
    try:
        limit = depth_limit_of(instrument)
    except ProfileError:
        reject()
    low, high = 11.0, min(0.98 * limit, 40.0)
    if high < low + STEP:
        reject()
    instrument = instrument.changed("bellows", fold_depth=draw(lengths(low, high)))
    if built(instrument) is None:
        reject()
    return instrument


def built(instrument: Instrument) -> Bellows | None:
    """The bellows, or None where the gusset's tip would vanish; any other refusal is raised."""
    try:
        return instrument.build()
    except ProfileError as error:
        if {problem.key for problem in error.problems} <= TIP_KEYS:
            return None
        raise


def depth_limit_of(instrument: Instrument) -> float:
    """Depth limit of an instrument [mm], read off a bellows with the leanest parts."""
    bare = Instrument(
        {name: keys for name, keys in instrument.tables.items() if name in ("section", "bellows", "gusset", 'materials."grey card"')}
    )
    shallow = bare.changed("bellows", fold_depth=Length(90)).changed("gusset", ridge_turn=Length(4), frame_turn=Length(4), tip_lap=None)
    return shallow.build().depth_limit()


@st.composite
def _options(draw: DrawFn) -> Tables:
    tables: Tables = {
        "card": {
            "build": draw(st.sampled_from(("loose", "loose", "run"))),
            "ridge_radius": draw(lengths(0, 3)),
            "valley_radius": draw(lengths(0, 3)),
        },
        "edge_strip": {"lap": draw(lengths(3, 8)), "run": draw(st.sampled_from(("whole", "per-side"))), "darts": draw(st.booleans())},
        "end_strip": {"lap": draw(lengths(3, 9)), "frame_cover": draw(lengths(8, 20))},
        "hinge": {"lap": draw(lengths(3, 6)), "valley_side": draw(st.sampled_from(("inside", "outside")))},
    }
    for name in ("frame_hinge", "valley_strip", "ridge_cloth", "corner_patch"):
        if draw(st.booleans()):
            tables[name] = {}
    if draw(st.booleans()):
        tables["facing"] = {"order": draw(st.sampled_from(("last", "first"))), "span": draw(st.sampled_from(("card", "pair")))}
    return tables


@dataclass(frozen=True)
class Fold:
    """One corner's numbers, without an instrument round it [deg], [mm]."""

    turn: float
    depth: float
    gap: float
    relief: float
    stretch: float


@st.composite
def folds(draw: DrawFn, *, least_gap: float = 0.0, least_relief: float = 0.0) -> Fold:
    """Any one corner."""
    return Fold(
        turn=draw(st.floats(20, 130)),
        depth=draw(st.floats(5, 60)),
        gap=draw(st.floats(least_gap, 4)),
        relief=draw(st.floats(least_relief, 12)),
        stretch=draw(st.floats(1, 90)),
    )


@st.composite
def ridge_polygons(draw: DrawFn) -> tuple[tuple[float, float], ...]:
    """A convex polygon on an ellipse, 3 to 16 corners."""
    sides = draw(st.integers(3, 16))
    wide, high = draw(st.floats(80, 200)), draw(st.floats(80, 200))
    angles = [2 * math.pi * (k + draw(st.floats(-0.2, 0.2))) / sides for k in range(sides)]
    return tuple((wide * math.cos(a), high * math.sin(a)) for a in angles)

"""From a material as bought to outlines that pieces can be laid on: skins by area, rectangle, points or tracing; sheets; rolls.

Every outline is turned to how it lies on the bench: leather flesh side up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from bellowscut.errors import ProfileError
from bellowscut.materials import ROLL, SHEET, Material
from bellowscut.parts import KINDS
from bellowscut.profile import Profile
from bellowscut.schema import kind_meant
from bellowscut.shapes import Point, bounds, signed_area
from bellowscut.stock.model import Polygon
from bellowscut.toml_lines import dotted
from bellowscut.tracing import TracingError, from_points, read_tracing
from bellowscut.words import say, stock as words

FLAW_SIDES = 16
"""Sides of the polygon drawn round a flaw [-]: it holds the whole disc."""

BELLY_SHARE = 1 / 8
"""Soft band along either flank of a typical skin, as a share of its width [-], invented."""

GUSSETS = ("gusset", "end-gusset", "half-gusset")
"""Kinds that a place barred to ``gusset`` is barred to."""

USUAL_HALF: tuple[Point, ...] = (
    (0.0, 0.13),
    (0.035, 0.2),
    (0.1, 0.235),
    (0.16, 0.3),
    (0.205, 0.42),
    (0.255, 0.47),
    (0.315, 0.455),
    (0.37, 0.4),
    (0.46, 0.36),
    (0.56, 0.36),
    (0.66, 0.395),
    (0.73, 0.445),
    (0.8, 0.475),
    (0.87, 0.44),
    (0.925, 0.35),
    (0.965, 0.23),
    (1.0, 0.09),
)
"""Half of a usual skin from neck to tail: along the backbone as a share of its length, across as a share of its width [-]; invented."""

USUAL_ASPECT = 1.45
"""Length of a usual skin over its width [-], invented."""


@dataclass(frozen=True)
class Sort:
    """One sort of stock to lay on, and how many there are of it.

    Parameters
    ----------
    material : Material
        As bought; of a skin from a shelf its own.
    outline : Polygon
        Counter-clockwise [mm]; empty for a roll.
    flaws : tuple of Polygon
        Places to keep clear of [mm].
    bars : mapping of str to tuple of Polygon
        Places barred to a kind of part [mm].
    backbone : float
        Direction of least stretch [deg].
    typical : bool
        Whether the outline is only a usual one.
    count : int or None
        How many there are; None for as many as it takes.
    width : float or None
        Of a roll [mm].
    """

    material: Material
    outline: Polygon
    flaws: tuple[Polygon, ...] = ()
    bars: Mapping[str, tuple[Polygon, ...]] = field(default_factory=dict)
    backbone: float = 0.0
    typical: bool = False
    count: int | None = None
    width: float | None = None

    @property
    def area(self) -> float:
        """Area of one [mm^2]; of a roll that of a metre."""
        return signed_area(self.outline) if self.width is None else self.width * 1000


def sorts(profile: Profile, name: str) -> tuple[Sort, ...]:
    """What a material of a profile can be cut from.

    Parameters
    ----------
    profile : Profile
        The profile; its folder is where tracings are looked for.
    name : str
        Name of the material.

    Returns
    -------
    tuple of Sort
        What stands on its shelf, or the one sort that its table describes.

    Raises
    ------
    ProfileError
        For an outline or tracing that cannot be used.
    """
    material = profile.materials[name]
    path = ("materials", name)
    if material.shelf:
        return tuple(_sort(profile, one, (*path, "shelf")) for one in material.shelf)
    return (_sort(profile, material, path),)


def _sort(profile: Profile, material: Material, path: tuple[str, ...]) -> Sort:
    if material.form == ROLL:
        assert material.size is not None
        return Sort(material, (), count=material.count, width=material.size[0])
    if material.form == SHEET:
        assert material.size is not None
        return Sort(material, _rectangle(*material.size), backbone=material.backbone, count=material.count)
    try:
        return _skin(profile, material)
    except TracingError as error:
        raise ProfileError((profile.problem(dotted((*path, "outline")), str(error)),)) from None


def _skin(profile: Profile, material: Material) -> Sort:
    belly, typical = material.belly or 0.0, False
    count: int | None = material.count or 1
    flaws = tuple(_disc(*flaw) for flaw in material.flaws)
    bars: dict[str, tuple[Polygon, ...]] = {}
    if isinstance(material.outline, str):
        tracing = read_tracing(_beside(profile, material.outline), material.area, material.check_length)
        outline, flaws, bars = tracing.outline, (*tracing.flaws, *flaws), dict(tracing.bars)
    elif material.outline is not None:
        outline = _left_turning(material.outline)
    elif material.clear is not None:
        outline = _rectangle(max(material.clear), min(material.clear))
        count = material.count
    else:
        outline, typical, count = usual_outline(material.piece_area() * material.usable), True, material.count
        belly = BELLY_SHARE * _across(outline) if material.belly is None else belly
    if not typical:
        from_points(outline, flaws)  # the same checks as of a tracing
    for bar in material.bars:
        bars[bar.kind] = (*bars.get(bar.kind, ()), _left_turning(bar.outline))
    made = Sort(material, outline, flaws, bars, material.backbone, typical, count)
    if material.seen_from == "grain" and not typical:
        made = _turned_over(made)
    return replace(made, bars=_all_bars(made, belly))


def usual_outline(area: float) -> Polygon:
    """A usual outline of a skin of so much area [mm^2], backbone along x, neck at the left [mm]."""
    half = [(USUAL_ASPECT * x, y) for x, y in USUAL_HALF]
    shape = [(x, -y) for x, y in half] + [(x, y) for x, y in reversed(half)]
    scale = math.sqrt(area / signed_area(shape))
    return tuple((x * scale, (y + 0.5) * scale) for x, y in shape)


def _all_bars(sort: Sort, belly: float) -> dict[str, tuple[Polygon, ...]]:
    """Bars as given, and the flanks; those of gussets hold for every kind of gusset."""
    bars: dict[str, tuple[Polygon, ...]] = {}
    for word, zones in sort.bars.items():
        kind = kind_meant(word)
        bars[kind] = (*bars.get(kind, ()), *zones)
    unknown = [word for word in sort.bars if kind_meant(word) not in KINDS]
    if unknown:
        raise TracingError(say(words.BARRED_TO_NO_KIND, unknown=unknown[0], kinds=", ".join(KINDS)))
    if belly > 0:
        bars["gusset"] = (*bars.get("gusset", ()), *_flanks(sort.outline, sort.backbone, belly))
    for kind in GUSSETS:
        if "gusset" in bars:
            bars[kind] = bars["gusset"] if kind == "gusset" else (*bars["gusset"], *bars.get(kind, ()))
    return bars


def _flanks(outline: Polygon, backbone: float, belly: float) -> Iterator[Polygon]:
    """Two bands along the backbone at the outermost points on either side of it."""
    angle = math.radians(backbone)
    along, across = (math.cos(angle), math.sin(angle)), (-math.sin(angle), math.cos(angle))
    turned = [(x * along[0] + y * along[1], x * across[0] + y * across[1]) for x, y in outline]
    left, low, right, high = bounds(turned)
    for start, end in ((low, low + belly), (high - belly, high)):
        corners = ((left, start), (right, start), (right, end), (left, end))
        yield tuple((u * along[0] + v * across[0], u * along[1] + v * across[1]) for u, v in corners)


def _turned_over(sort: Sort) -> Sort:
    """A skin traced from its grain side, as it lies with the flesh side up."""
    left, _, right, _ = bounds(sort.outline)

    def over(points: Polygon) -> Polygon:
        return tuple((left + right - x, y) for x, y in reversed(points))

    bars = {kind: tuple(map(over, zones)) for kind, zones in sort.bars.items()}
    return replace(sort, outline=over(sort.outline), flaws=tuple(map(over, sort.flaws)), bars=bars, backbone=180 - sort.backbone)


def _beside(profile: Profile, name: str) -> Path:
    """A tracing stands beside the profile that names it."""
    return Path(profile.source).parent / name


def _rectangle(length: float, width: float) -> Polygon:
    return (0.0, 0.0), (length, 0.0), (length, width), (0.0, width)


def _left_turning(points: Polygon) -> Polygon:
    return points if signed_area(points) > 0 else tuple(reversed(points))


def _across(outline: Polygon) -> float:
    _, low, _, high = bounds(outline)
    return high - low


def _disc(x: float, y: float, size: float) -> Polygon:
    """A polygon that holds a round flaw of that diameter [mm]."""
    radius = size / 2 / math.cos(math.pi / FLAW_SIDES)
    return tuple(
        (x + radius * math.cos(2 * math.pi * k / FLAW_SIDES), y + radius * math.sin(2 * math.pi * k / FLAW_SIDES))
        for k in range(FLAW_SIDES)
    )

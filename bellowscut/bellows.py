"""The bellows: every size that follows from a profile, worked out once.

`build` takes a checked profile to a complete, frozen `Bellows`; whatever the
geometry refuses is reported with the profile key that asked for it. Lengths
in millimetres, angles in degrees.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, Protocol

from bellowscut import ends, folds, limits, old_card, section
from bellowscut.ends import Laid
from bellowscut.errors import Refusal
from bellowscut.folds import Corner, Cut
from bellowscut.limits import Problems
from bellowscut.materials import Material
from bellowscut.old_card import OldCard
from bellowscut.profile import Profile
from bellowscut.schema import SectionSpec
from bellowscut.section import Frame, Section
from bellowscut.shapes import Point, inset, least_width, signed_area
from bellowscut.sources import FORM_SLOPE
from bellowscut.stack import Layers, Stack, closed_stack, mean_lap
from bellowscut.units import Rule, both, plain_number
from bellowscut.words import bellows as words, say


@dataclass(frozen=True)
class Bellows:
    """A bellows worked out in full.

    Parameters
    ----------
    profile : Profile
        What was asked for.
    section : Section
        Frame and ridge polygon.
    old_card : OldCard
        What the readings of old cards say.
    corners : tuple of Corner
        One for each corner of the section, corner 1 first.
    ridge_gap, valley_gap : float
        Gap between the card edges at a ridge and at a valley [mm].
    layers : Layers
        Thicknesses of the closed cell.
    stretch : float
        Card angle at full extension, after `travel` or an own gusset had their say [deg].
    form_slope : float
        Card angle while gluing [deg].
    second_end : Laid or None
        How a second end given by its corners was laid on the first.
    """

    profile: Profile
    section: Section
    old_card: OldCard
    corners: tuple[Corner, ...]
    ridge_gap: float
    valley_gap: float
    layers: Layers
    stretch: float
    form_slope: float
    second_end: Laid | None = None

    @property
    def folds(self) -> int:
        """Number of ridges between the frames [-]."""
        return self.profile.bellows.folds

    @property
    def rule(self) -> Rule:
        """How lengths are written on its papers."""
        return Rule(inches=self.profile.units == "in")

    @property
    def valley_ends(self) -> bool:
        """Whether the end cards stop at a valley on the frame."""
        return self.profile.bellows.ends == "valley"

    @property
    def valleys(self) -> int:
        """Number of whole valleys [-]."""
        return self.folds - 1 if self.valley_ends else self.folds + 1

    @property
    def cards_per_side(self) -> int:
        """Cards down one side [-]."""
        return 2 * self.folds if self.valley_ends else 2 * (self.folds + 1)

    @property
    def depth(self) -> float:
        """Fold depth, ridge line to valley line [mm]."""
        return self.profile.bellows.fold_depth

    @property
    def corner_gap(self) -> float:
        """Gap between neighbouring cards at a ridge corner [mm]."""
        return self.corners[0].gap

    @property
    def relief(self) -> float:
        """What each leg leans in beyond the mitre that would just close [deg]."""
        return self.corners[0].relief

    @property
    def card_known(self) -> bool:
        """Whether the shape of the cards was given or read off an old one, and is no guess."""
        return old_card.relief_known(self.profile, self.old_card)

    @property
    def card(self) -> float:
        """Card thickness [mm]."""
        return self.layers.card

    @cached_property
    def stack(self) -> Stack:
        """Thickness of one closed cell."""
        return closed_stack(self.layers)

    @property
    def closed_length(self) -> float:
        """Length between the frames when shut [mm]."""
        return self.stack.closed_length(self.cards_per_side / 2, self.profile.bellows.stack_factor)

    @property
    def open_length(self) -> float:
        """Length between the frames at full stretch [mm]."""
        return folds.open_length(self.cards_per_side, self.depth, self.stretch)

    @property
    def travel(self) -> float:
        """Open length less closed length [mm]."""
        return self.open_length - self.closed_length

    @property
    def gluing_distance(self) -> float:
        """How far apart to prop the frames while gluing gussets [mm]."""
        return folds.open_length(self.cards_per_side, self.depth, self.form_slope)

    @property
    def valley_pitch(self) -> float:
        """Valley to valley while gluing [mm]."""
        return 2 * self.depth * math.sin(math.radians(self.form_slope))

    @property
    def excess_on_form(self) -> float:
        """Gusset width to spare in the widest corner on the form [mm]; negative is too tight."""
        spare = [corner.opening(self.stretch) - corner.opening(self.form_slope) for corner in self.corners]
        return max(spare, key=abs)

    @property
    def length_per_mm_of_gusset(self) -> float:
        """Length that 1 mm of gusset width is worth [mm/mm]."""
        return folds.length_per_gusset_width(self.cards_per_side, self.section.turns, self.stretch)

    @property
    def closed_gap(self) -> float:
        """Smallest gap left at the valley when closed [mm]."""
        return min(corner.opening(0) for corner in self.corners)

    @cached_property
    def _inside(self) -> tuple[Point, ...]:
        """What the valleys leave open when shut: their lines, moved in by a card; empty where nothing is left."""
        return inset(self.section.ridge, (self.depth + self.card,) * self.section.count)

    @property
    def inside_opening(self) -> float:
        """Smallest clear width inside the closed bellows [mm]; 0 where nothing is left."""
        return least_width(self._inside) if self._inside else 0.0

    @property
    def air_moved(self) -> float:
        """Air between closed and full stretch [cm^3]: what is inside when open, less what stays inside the valleys when shut."""
        half = folds.half_fold_volume(self.section.ridge_area, self.section.ridge_perimeter, self.corners, self.stretch)
        stays = signed_area(self._inside) * self.closed_length if self._inside else 0.0
        return (self.cards_per_side * half - stays) / 1000

    @property
    def leather_share(self) -> float:
        """Leather's share of the valley's length at full stretch [-]."""
        leather = sum(corner.opening(self.stretch) for corner in self.corners)
        return leather / (leather + sum(self.card_width(i, self.depth) for i in range(self.section.count)))

    def corner_pair(self, side: int) -> tuple[Corner, Corner]:
        """The corners before and after a side [-]."""
        return self.corners[side], self.corners[(side + 1) % self.section.count]

    def card_width(self, side: int, at: float) -> float:
        """Width of a side's card at a distance from the ridge line [mm]."""
        return folds.card_width(self.section.sides[side], *self.corner_pair(side), at)

    def depth_limit(self) -> float:
        """Fold depth that this section cannot reach [mm]."""
        return limits.depth_limit(self.section, self.corners, self.profile.gusset.lap)

    def material(self, name: str) -> Material:
        """The material of that name."""
        return self.profile.materials[name]


def build(profile: Profile) -> Bellows:
    """Work out a bellows.

    Parameters
    ----------
    profile : Profile
        As read by `bellowscut.profile.load`.

    Returns
    -------
    Bellows
        Complete.

    Raises
    ------
    ProfileError
        Everything that the geometry refuses, each with its profile key.
    """
    found = Problems(profile)
    measured = found.attempt(lambda: _section(profile, found))
    found.stop()
    assert measured is not None
    made, second_end = measured
    layers = _layers(profile)
    card = old_card.read_card(profile, made, found)
    found.stop()
    gap = old_card.corner_gap(profile, made, card, layers.card, found)
    relief = found.attempt(lambda: limits.relief(profile, made, gap, old_card.usual_relief(card), found))
    if relief is not None:
        old_card.check_relief(profile, card, relief, found)
    found.stop()
    assert relief is not None
    known = old_card.relief_known(profile, card)
    corners = tuple(Corner(turn, profile.bellows.fold_depth, gap, relief) for turn in made.turns)
    limits.check_depth(made, corners, found)
    found.stop()
    stretch = found.attempt(lambda: _stretch(profile, layers))
    allowed = found.attempt(lambda: _gusset_stretch(profile, corners, stretch, known=known))
    found.stop()
    assert stretch is not None
    assert allowed is not None
    slope = profile.bellows.form_slope
    bellows = Bellows(
        profile=profile,
        section=made,
        old_card=card,
        corners=corners,
        ridge_gap=_ridge_gap(profile, layers),
        valley_gap=_valley_gap(profile, layers),
        layers=layers,
        stretch=allowed,
        form_slope=min(FORM_SLOPE.value, allowed) if slope is None else slope,
        second_end=second_end,
    )
    _check_made(bellows, found)
    found.stop()
    return bellows


def _section(profile: Profile, found: Problems) -> tuple[Section, Laid | None] | None:
    """The section, and how a second end by corners was laid on the first."""
    spec = profile.section
    cover = profile.materials[profile.end_strip.material].thickness if spec.measured_on == "frame-covered" else 0.0

    def covered(frame: Frame) -> Frame:
        return section.uncovered(frame, cover)

    second, laid = None, None
    if spec.shape == "regular":
        assert spec.sides is not None
        first = section.regular(spec.sides, spec.end_size, spec.measure)
    elif spec.shape == "rectangle":
        first = section.rectangular(spec.width, spec.height)
    else:
        make, key, values = _measure(spec)
        frames = [found.attempt(lambda: make(values), f"section.{key}")]
        if spec.other_end is not None:
            frames.append(found.attempt(lambda: make(spec.other_end), "section.other_end"))
        if None in frames:
            return None
        first, *others = (frame for frame in frames if frame is not None)
        second = others[0] if others else None
        if second is not None and key == "corners":
            laid = ends.laid_on(first, second)
            second = laid.frame
        elif second is not None:
            ends.refuse_unlike(first, second)
    setback = spec.ridge_setback
    if setback is None:
        gusset = profile.materials[profile.gusset.material].thickness
        setback = profile.materials[profile.edge_strip.material].thickness + (gusset + profile.gusset.feather) / 2
    return section.section(covered(first), None if second is None else covered(second), setback), laid


def _measure(spec: SectionSpec) -> tuple[Callable[[Any], Frame], str, Any]:
    """How an uneven end was measured: what makes its frame, the profile key, and the values."""
    if spec.flats is not None:
        return section.by_flats, "flats", spec.flats
    if spec.side_lengths is not None:
        return section.by_side_lengths, "side_lengths", spec.side_lengths
    return section.by_corners, "corners", spec.corners


class _OfMaterial(Protocol):
    """Any table of a profile that names its material."""

    @property
    def material(self) -> str: ...


def _layers(profile: Profile) -> Layers:
    def thickness(spec: _OfMaterial | None) -> float:
        return 0.0 if spec is None else profile.materials[spec.material].thickness

    strip, gusset = profile.edge_strip, profile.gusset
    leather, edge = thickness(gusset), thickness(strip)
    flank = mean_lap(edge, strip.feather, strip.skive, strip.lap)
    hinge = thickness(profile.hinge)
    return Layers(
        card=thickness(profile.card),
        facing=thickness(profile.facing),
        valley_hinge=hinge,
        ridge_hinge=hinge,
        valley_strip=thickness(profile.valley_strip),
        ridge_cloth=thickness(profile.ridge_cloth),
        strip_at_ridge=edge if strip.lap > strip.skive else flank,
        strip_on_flank=flank,
        gusset=leather,
        gusset_lap=mean_lap(leather, gusset.feather, gusset.lap if gusset.skive is None else gusset.skive, gusset.lap),
        cover=thickness(profile.cover_gusset),
    )


def _ridge_gap(profile: Profile, layers: Layers) -> float:
    return layers.ridge_hinge if profile.card.ridge_gap is None else profile.card.ridge_gap


def needed_valley_gap(profile: Profile, layers: Layers) -> float:
    """Gap between the card edges at a valley that lets the closed pair lie flat [mm]."""
    if profile.hinge.valley_side == "outside":
        return layers.valley_hinge
    in_fold = layers.facing if profile.facing is not None and profile.facing.span == "pair" else 0.0
    return 2 * (layers.card + in_fold + layers.valley_strip)


def _valley_gap(profile: Profile, layers: Layers) -> float:
    return needed_valley_gap(profile, layers) if profile.card.valley_gap is None else profile.card.valley_gap


def _stretch(profile: Profile, layers: Layers) -> float:
    spec = profile.bellows
    if spec.travel is None:
        assert spec.stretch is not None
        return spec.stretch
    cards = 2 * spec.folds if spec.ends == "valley" else 2 * (spec.folds + 1)
    # The travel is that of the bellows as it was: covers make it close thicker, and its old gussets no larger.
    closed = closed_stack(replace(layers, cover=0.0)).closed_length(cards / 2, spec.stack_factor)
    return folds.stretch_for_travel(spec.travel, closed, cards, spec.fold_depth)


def _gusset_stretch(profile: Profile, corners: tuple[Corner, ...], stretch: float | None, *, known: bool) -> float | None:
    use = profile.gusset.use
    if use is None:
        return stretch
    if use[1] <= 2 * profile.gusset.ridge_turn:
        raise Refusal("gusset_width", use[1], say(words.GUSSET_TOO_SHORT, turns=both(2 * profile.gusset.ridge_turn)))
    try:
        return min(corner.stretch_for_own(use, gusset_cut(profile)) for corner in dict.fromkeys(corners))
    except Refusal as refusal:
        if known:
            raise
        told = say(words.GUSSET_TOO_NARROW_GUESSED, told=refusal.message, relief=plain_number(corners[0].relief, 1))
        raise Refusal(refusal.quantity, refusal.value, told) from None


def gusset_cut(profile: Profile) -> Cut:
    """Laps, turn and radii of a plain gusset."""
    spec = profile.gusset
    return Cut(spec.lap, spec.tip_lap, spec.ridge_turn, spec.tip_radius, spec.point_radius)


def _check_made(bellows: Bellows, found: Problems) -> None:
    """Refuse what only shows once everything is worked out."""
    profile = bellows.profile
    gusset = profile.gusset
    if bellows.open_length <= bellows.closed_length:
        key = "bellows.travel" if profile.bellows.travel is not None else "bellows.stretch"
        least = math.degrees(math.asin(min(1.0, bellows.closed_length / (bellows.cards_per_side * bellows.depth))))
        found.add(
            key,
            say(words.WOULD_NOT_OPEN, open=f"{bellows.open_length:.1f}", closed=f"{bellows.closed_length:.1f}", least=f"{least:.1f}"),
        )
    height = bellows.depth - (bellows.ridge_gap + bellows.valley_gap) / 2
    if height <= 0:
        found.add("card.valley_gap", say(words.GAPS_LEAVE_NO_CARD, most=both(2 * bellows.depth)))
    skive_most = min(gusset.lap, gusset.tip_lap)
    if gusset.skive is not None and gusset.skive > skive_most:
        found.add("gusset.skive", say(words.SKIVE_TOO_WIDE, most=both(skive_most)))
    _check_facing(bellows, found)
    if gusset.use is not None:
        return
    most = min(_room_for_turn(bellows, corner) for corner in bellows.corners)
    turns = (("gusset.ridge_turn", gusset.ridge_turn), ("gusset.frame_turn", gusset.frame_turn))
    for key, turn in turns[:1] if bellows.valley_ends else turns:
        if turn < most:
            continue
        if most > 0:
            found.add(key, say(words.TIP_VANISHES, most=both(most), lap=both(gusset.tip_lap)))
        elif key == "gusset.ridge_turn":
            found.add("gusset.tip_lap", say(words.TIP_VANISHES_AT_RIDGE))


def _check_facing(bellows: Bellows, found: Problems) -> None:
    """Refuse a facing of which nothing is left."""
    facing = bellows.profile.facing
    if facing is None:
        return
    low = bellows.ridge_gap / 2
    if facing.order == "first":
        # The margin is taken off all round: half the height, or the part of the width that the legs leave at the valley.
        high = bellows.depth - bellows.valley_gap / 2
        reach = [1 / math.cos(corner.lean) + math.tan(corner.lean) for corner in bellows.corners]
        widths = [bellows.card_width(i, high) / (reach[i] + reach[(i + 1) % bellows.section.count]) for i in range(bellows.section.count)]
        most = min((high - low) / 2, *widths)
        if facing.margin >= most:
            found.add("facing.margin", say(words.NO_FACING_LEFT, most=both(most)))
        return
    low += max(0.0, bellows.profile.edge_strip.lap - facing.overlap)
    if low >= bellows.depth:
        found.add(
            "edge_strip.lap",
            say(words.NO_WINDOW_FOR_FACING, most=both(bellows.depth + facing.overlap - bellows.ridge_gap / 2)),
        )
    elif low >= bellows.depth - facing.short_of_valley:
        found.add("facing.short_of_valley", say(words.NO_FACING_LEFT, most=both(bellows.depth - low)))


def _room_for_turn(bellows: Bellows, corner: Corner) -> float:
    """How far past the ridge a corner's gusset runs before its two cut edges meet [mm]."""
    gusset = bellows.profile.gusset
    half_width, slope = corner.gusset_edge(bellows.stretch, gusset.lap, gusset.tip_lap)
    return half_width / slope - corner.half_height(bellows.stretch) if slope > 0 else math.inf

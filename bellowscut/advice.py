"""Warnings that apply to this bellows, and advice that always holds, in the words of the bench."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bellowscut.bellows import Bellows, needed_valley_gap
from bellowscut.folds import gap_that_clears
from bellowscut.parts.card import card_corners, card_outline
from bellowscut.parts.part import listed
from bellowscut.section import Packing, flat_error_on_side, flats_alike
from bellowscut.sources import (
    ENDS_DIFFER_WARNED,
    FLAT_ERROR,
    LEATHER_SHARE_WARNED,
    MISFIT_WARNED,
    OLD_GUSSET_LENGTH,
    STRETCH_LEAST,
    STRETCH_MOST,
)
from bellowscut.units import both, plain_number

ENDS = {"right": "right-hand", "left": "left-hand"}


@dataclass(frozen=True)
class Note:
    """One warning.

    Parameters
    ----------
    code : str
        Short name that does not change, for programs.
    text : str
        What a repairer reads.
    """

    code: str
    text: str


def warnings(bellows: Bellows) -> tuple[Note, ...]:
    """Everything about this bellows that could spoil a skin or a job.

    Parameters
    ----------
    bellows : Bellows
        The bellows.

    Returns
    -------
    tuple of Note
        In the order in which they matter at the bench: measuring, cutting, folding, fitting.
    """
    return (*_measuring(bellows), *_cards(bellows), *_gussets(bellows), *_folding(bellows), *_fitting(bellows))


def advice(bellows: Bellows, *, mirror: bool = False) -> tuple[str, ...]:
    """What always holds, with this bellows' figures.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    mirror : bool
        Whether leather is drawn from its grain side.
    """
    tight = bellows.gluing_distance
    thicker = bellows.cards_per_side / 2 * _closed_for_leather(bellows)
    side = (
        "This is the grain side. From the flesh side it is mirrored."
        if mirror
        else "This is the flesh side. From the grain side it is mirrored."
    )
    return (
        "Lay the rule on the bars: 100 mm both ways. If not, nothing on this sheet is right.",
        f"Cut one first. Fold it into an open corner. If it is tight before the frames are {tight:.0f} mm apart, or puckers, stop.",
        side,
        "Suck the leather in three places. If air comes through, this skin leaks without a hole.",
        "Pull it both ways: a strip's long way must be the way that does not stretch.",
        f"Gauge the leather after paring, in five places. 0.1 mm more is {thicker:.1f} mm closed.",
        "Glue a scrap to the cleaned card, dry, pull: card fibres must come with it.",
        "Press each card with a thumb: soft or split cards make new gussets a waste.",
        "Lifting edge strips can lift gusset tips: cut a few corner patches now.",
        f"Inside opening closed {bellows.inside_opening:.0f} mm: measure the reeds and blocks before you cut.",
        "Take all pieces of one material for one bellows from one skin.",
        "Cut strips 15 mm long and trim.",
    )


CAUTIONS = (
    "Knives and skiving blades cut toward the hand that holds the work: cut away from it, on a mat, with a sharp blade.",
    "Hot glue burns and solvents give off fumes: open a window, keep them from flames, read the maker's sheet.",
    "An old bellows holds dust and mould, and its pigments, green and white papers above all, may hold arsenic or lead: damp it, wear a mask, wash.",
    "A laser is never left alone. Never cut PVC or a plastic you do not know (chlorine); chrome-tanned leather only with fume extraction and the maker's data sheet.",
    "Follow the machine's manual and local rules, and ask people who are trained on it. Try every pattern in paper before leather is cut.",
)
"""The usual cautions of the work."""


def _closed_for_leather(bellows: Bellows) -> float:
    """How much one cell grows when the gusset leather is 0.1 mm thicker [mm], if the corner governs."""
    if bellows.stack.governs != "corner":
        return 0.0
    gusset = bellows.profile.gusset
    skived = gusset.lap if gusset.skive is None else gusset.skive
    share = skived / 2 / gusset.lap + (gusset.lap - skived) / gusset.lap
    return 0.1 * (2 * share + 4)


def _measuring(bellows: Bellows) -> Iterator[Note]:
    spec = bellows.profile.section
    section = bellows.section
    if spec.measured_on == "end":
        yield Note(
            "measured-on-end",
            "You measured the wooden end: it is taken as the bare bellows frame. Measure the frame itself before you cut; they can differ.",
        )
    if spec.measured_on == "frame-covered":
        less = 2 * bellows.material(bellows.profile.end_strip.material).thickness
        yield Note(
            "measured-on-cover",
            f"You measured the covered frame; bare wood is about {plain_number(less, 1)} mm less across. Which did you measure?",
        )
    if spec.flats is not None:
        if flats_alike(spec.flats):
            mean = sum(spec.flats) / len(spec.flats)
            yield Note(
                "flats-alike",
                f'The flats agree within 1 mm: shape = "regular" with end_size = {mean:.2f} mm would do as well and folds more evenly.',
            )
        moved = flat_error_on_side(section.count, FLAT_ERROR.value)
        yield Note(
            "flats-hide-sides",
            f"Flats cannot show that sides differ: {FLAT_ERROR.value:g} mm amiss in the flats can move a side by {moved:.1f} mm. Lay a rule along each side and compare.",
        )
    if section.misfit > MISFIT_WARNED.value:
        yield Note(
            "sides-misfit",
            f"The side lengths do not quite close: a side was changed by {section.misfit:.2f} mm. Measure again before you cut.",
        )
    thickest = max(section.packing, key=lambda packing: packing.mm, default=None)
    if thickest is not None and 2 * thickest.mm > ENDS_DIFFER_WARNED.value:
        yield Note(
            "ends-differ",
            f"The ends differ by {2 * thickest.mm:.2f} mm at a side. Made to the middle. Pack {_packed(section.packing)}, "
            "or the strip will stand proud. It fits one way only: mark side A.",
        )


def _packed(packing: Sequence[Packing]) -> str:
    """What to pack where, one frame after the other."""
    found = []
    for end, name in ENDS.items():
        mine = [f"{one.side} {one.mm:.2f} mm" for one in packing if one.end == end]
        if mine:
            found.append(f"the {name} frame at side {listed(mine)}")
    return "; ".join(found)


def _cards(bellows: Bellows) -> Iterator[Note]:
    profile = bellows.profile
    clear = gap_that_clears(bellows.section.turns, bellows.card)
    if bellows.corner_gap < clear - 1e-9:
        yield Note(
            "corner-gap",
            f"Cards of {bellows.card:g} mm collide at the ridge corner: the corner gap is {both(bellows.corner_gap)}, they need {both(clear)}.",
        )
    needed = needed_valley_gap(profile, bellows.layers)
    if profile.hinge.valley_side == "inside" and bellows.valley_gap < needed - 1e-9:
        cosine = bellows.valley_gap / needed
        angle = math.degrees(math.acos(max(0.0, min(1.0, cosine))))
        yield Note(
            "valley-gap",
            f"With a valley gap of {both(bellows.valley_gap)} the bellows cannot close: the cards jam at {angle:.0f} degrees. They need {both(needed)}.",
        )
    wanted = profile.card
    worst: tuple[float, str, float, float] | None = None
    for i in range(bellows.section.count):
        if profile.card.build == "run" or not (wanted.ridge_radius or wanted.valley_radius):
            break
        _, radii = card_outline(bellows, i)
        for radius, asked, name in zip(
            radii, (wanted.ridge_radius,) * 2 + (wanted.valley_radius,) * 2, ("ridge",) * 2 + ("valley",) * 2, strict=True
        ):
            if radius < asked - 1e-6 and (worst is None or radius < worst[0]):
                worst = radius, name, asked, max(corner.gap_after_rounding(radius) for corner in bellows.corner_pair(i))
    if worst:
        radius, name, asked, gap = worst
        left = f" At the ridge it leaves a gap of {gap:.1f} mm." if name == "ridge" else ""
        yield Note("radius-reduced", f"A {name} radius of {asked:g} mm does not fit the card: rounded to {radius:.2f} mm instead.{left}")
    yield from _faces(bellows)


def _faces(bellows: Bellows) -> Iterator[Note]:
    """Laps that meet on one face of a card."""
    profile = bellows.profile
    heights = [points[2][1] - points[0][1] for points in (card_corners(bellows, i) for i in range(bellows.section.count))]
    height = min(heights)
    hinge_out = profile.hinge.lap if profile.hinge.valley_side == "outside" else 0.0
    at_valley = max(hinge_out, profile.valley_strip.lap if profile.valley_strip else 0.0)
    at_ridge = max(profile.edge_strip.lap, profile.end_strip.lap, profile.ridge_cloth.lap if profile.ridge_cloth else 0.0)
    if at_ridge + at_valley > height:
        yield Note(
            "laps-meet",
            f"On the outside the laps take {at_ridge + at_valley:g} mm of a card {height:.1f} mm high: they overlap and the bellows closes thicker.",
        )
    inside = profile.hinge.lap * (1 if hinge_out else 2)
    if inside > height:
        yield Note(
            "hinges-meet",
            f"Inside, the hinges take {inside:g} mm of a card {height:.1f} mm high: they overlap and the bellows closes thicker.",
        )


def _gussets(bellows: Bellows) -> Iterator[Note]:
    profile = bellows.profile
    needed = max(corner.relief_for_leather(bellows.layers.gusset) for corner in bellows.corners)
    if bellows.relief < needed - 1e-9:
        yield Note(
            "relief",
            f"Folded gussets of {bellows.layers.gusset:g} mm need a relief of {needed:.1f} degrees when closed; there are {bellows.relief:.1f}. The corners will stand open.",
        )
    use = profile.gusset.use
    if use is None:
        return
    asked = profile.bellows.stretch
    text = f"Gussets {use[0]:g} mm wide let these cards open to {bellows.gusset_stretch:.1f} degrees"
    if bellows.gusset_stretch >= STRETCH_MOST.value:
        yield Note("gusset-stretch", f"{text}: they are wider than any opening needs and will stand in folds.")
    elif asked is not None and "bellows.stretch" in profile.given and abs(asked - bellows.gusset_stretch) > 1:
        yield Note("gusset-stretch", f"{text}, not the {asked:g} of the profile; all lengths go by the gussets.")
    from_cards = 2 * (bellows.corners[0].half_height(bellows.gusset_stretch) + profile.gusset.ridge_turn)
    if abs(from_cards - use[1]) > OLD_GUSSET_LENGTH.value:
        yield Note(
            "gusset-length",
            f"A gusset of that width for these cards would be {from_cards:.1f} mm long; yours is {use[1]:g} mm. It is not from these cards, or they were measured wrongly.",
        )


def _folding(bellows: Bellows) -> Iterator[Note]:
    t = bellows.stretch
    if t < STRETCH_LEAST.value:
        yield Note("stretch-low", f"A stretch of {t:.1f} degrees is little: 45 to 60 is usual. The bellows will be short of air.")
    over = [name for name, corner in zip(bellows.section.corner_names, bellows.corners, strict=True) if corner.over_centre(t)]
    if over:
        yield Note(
            "over-centre",
            f"At full stretch the corner {over[0]} is almost straight and may turn inside out. Less stretch, or a stop that holds it short.",
        )
    for i, name in enumerate(bellows.section.side_names):
        inward = sum(corner.depth * math.sin(corner.half_turn) * (1 - math.cos(math.radians(t))) for corner in bellows.corner_pair(i))
        if bellows.card_width(i, bellows.depth) < inward:
            yield Note(
                "pleats-meet",
                f"On side {name} the leather of its two corners meets behind the card when closed: less depth or less stretch.",
            )
            break
    if bellows.leather_share > LEATHER_SHARE_WARNED.value:
        yield Note(
            "leather-share",
            f"Leather is {100 * bellows.leather_share:.0f} per cent of the valley's length: the corners will be soft. Fewer folds, less depth or less stretch.",
        )
    excess = bellows.excess_on_form
    if abs(excess) >= 0.05:
        form, gusset = plain_number(bellows.form_slope, 1), plain_number(bellows.stretch, 1)
        if excess > 0:
            text = f"Form {form}, gusset {gusset}: {excess:.1f} mm spare in each corner on the form. Tuck it in, or cut for the form."
        else:
            text = f"Form {form}, gusset {gusset}: {-excess:.1f} mm too tight in each corner on the form. Use a form of {gusset} degrees or less."
        yield Note("form-slope", text)
    if bellows.valley_ends:
        risk = 2 * bellows.depth * math.sin(math.radians(t))
        yield Note(
            "valley-ends",
            f"The end cards stop at a valley on the frame, which holds them nearly shut: up to {risk:.0f} mm of the open length may not be had. Lengths are reckoned as if it moved.",
        )
    strip = bellows.profile.edge_strip
    if strip.run == "whole":
        leather = bellows.material(strip.material)
        taken = 2 * math.pi * leather.neutral * leather.thickness
        if taken > strip.joint:
            yield Note(
                "strip-joint",
                f"Fitted closed, an edge strip gives up {taken:.1f} mm to its thickness: more than its joint of {strip.joint:g} mm. Lengthen the joint.",
            )


def _fitting(bellows: Bellows) -> Iterator[Note]:
    spec = bellows.profile.bellows
    if spec.old_closed_length is not None and bellows.closed_length > spec.old_closed_length + 0.05:
        yield Note(
            "closed-length",
            f"New closed length {bellows.closed_length:.1f} mm, old {spec.old_closed_length:.1f} mm: it will not go back in its case.",
        )
    if spec.reed_clearance is not None and bellows.inside_opening < spec.reed_clearance:
        yield Note(
            "reed-clearance",
            f"Inside opening closed {bellows.inside_opening:.1f} mm, and {spec.reed_clearance:.1f} mm are needed: the folds will foul the reeds and blocks. Less depth.",
        )
    facing, end = bellows.profile.facing, bellows.profile.end_strip
    if facing is not None and facing.order == "last" and end.lap < bellows.profile.edge_strip.lap - facing.overlap:
        yield Note(
            "facing-short",
            "The end strip's lap is so much narrower than the edge strip's that facings leave bare card at the frames: cut those a little higher.",
        )

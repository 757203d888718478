"""Warnings that apply to this bellows, and advice that always holds, in the words of the bench."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from statistics import median
from types import MappingProxyType

from bellowscut.bellows import Bellows, needed_valley_gap
from bellowscut.folds import gap_that_clears
from bellowscut.guess import Guess, card_guess, cuts_gussets
from bellowscut.lettering import lacking
from bellowscut.old_card import apart
from bellowscut.parts import JOBS
from bellowscut.parts.card import card_corners, card_outline
from bellowscut.parts.edge_strip import darts
from bellowscut.parts.part import listed
from bellowscut.schema import CutterSpec, Readings
from bellowscut.section import Packing, flat_error_on_side, flats_alike
from bellowscut.sources import (
    CARD_GAP_LEAST,
    CARD_GAP_MOST,
    CARD_LEAST,
    CARD_MOST,
    CARD_USUAL,
    COVER_LEATHER_LEAST,
    COVER_LEATHER_MOST,
    DART_LEAST,
    ENDS_DIFFER_WARNED,
    FLAT_ERROR,
    FLATS_ALIKE,
    GUSSET_LEATHER_LEAST,
    GUSSET_LEATHER_MOST,
    LEATHER_SHARE_WARNED,
    MISFIT_WARNED,
    OLD_GUSSET_LENGTH,
    PATCH_LEATHER_LEAST,
    PATCH_LEATHER_MOST,
    STRETCH_LEAST,
    STRETCH_MOST,
    STRIP_LEATHER_LEAST,
    STRIP_LEATHER_MOST,
    STRIP_LONGER,
    Constant,
)
from bellowscut.units import Rule, angle_told, both
from bellowscut.words import advice as words, say

SKIVER = "skiver"
"""In the name of a leather it says that this is a split for linings."""

LETTERS_NAMED = 12
"""Letters that are named at most [-]."""

PACKED = {"right": words.PACK_RIGHT_FRAME, "left": words.PACK_LEFT_FRAME}
"""What to pack, by the end."""


EVERY = frozenset(JOBS)
NEW_CARDS = frozenset({"rebellows"})
NEW_GUSSETS = frozenset({"rebellows", "regusset"})
NEW_STRIPS = frozenset({"rebellows", "regusset", "strips"})
BY_GUSSETS = frozenset({"rebellows", "regusset", "cover"})
THICKER = frozenset({"rebellows", "regusset", "strips", "cover"})
OLD_CARDS = frozenset({"regusset", "strips", "cover"})
BY_OLD_CARDS = frozenset({"regusset", "cover"})
LIFTED = frozenset({"strips"})
"""Sorts of jobs: what they make new, or what they go by."""

MEETS: Mapping[str, frozenset[str]] = MappingProxyType(
    {
        "card-not-measured": BY_OLD_CARDS,
        "readings-apart": BY_GUSSETS,
        "sides-apart": BY_GUSSETS,
        "end-and-card": BY_GUSSETS,
        "name-the-side": BY_GUSSETS,
        "measured-on-end": NEW_STRIPS,
        "measured-on-cover": NEW_STRIPS,
        "flats-alike": NEW_GUSSETS,
        "flats-hide-sides": NEW_STRIPS,
        "sides-misfit": NEW_STRIPS,
        "ends-differ": NEW_STRIPS,
        "other-end-mirrored": NEW_STRIPS,
        "other-end-turned": NEW_STRIPS,
        "gusset-leather": NEW_GUSSETS,
        "gusset-skiver": NEW_GUSSETS,
        "strip-leather": NEW_STRIPS,
        "cover-leather": EVERY,
        "patch-leather": EVERY,
        "card-thickness": NEW_CARDS,
        "corner-gap": NEW_GUSSETS,
        "valley-gap": NEW_GUSSETS,
        "radius-reduced": NEW_CARDS,
        "laps-meet": NEW_STRIPS,
        "hinges-meet": NEW_CARDS,
        "relief": NEW_GUSSETS,
        "gusset-stretch": BY_GUSSETS,
        "gusset-length": BY_GUSSETS,
        "stretch-low": NEW_GUSSETS,
        "over-centre": NEW_GUSSETS,
        "pleats-meet": NEW_GUSSETS,
        "leather-share": NEW_GUSSETS,
        "form-slope": NEW_GUSSETS,
        "valley-ends": NEW_GUSSETS,
        "strip-joint": NEW_STRIPS,
        "darts": NEW_STRIPS,
        "closed-length": THICKER,
        "reed-clearance": NEW_GUSSETS,
        "facing-short": NEW_GUSSETS,
        "letters": EVERY,
    }
)
"""Which jobs meet a warning, by its code: those in which what it warns of is made, measured or glued."""


@dataclass(frozen=True)
class Caution:
    """One of the usual cautions of the work.

    Parameters
    ----------
    key : str
        Short name that does not change.
    text : str
        To be said where it is shown.
    jobs : frozenset of str
        Jobs in which it matters.
    machine : bool
        Whether it matters only where a machine cuts.
    """

    key: str
    text: str
    jobs: frozenset[str]
    machine: bool = False


CAUTIONS = (
    Caution("blades", words.BLADES, EVERY),
    Caution("glue", words.GLUE_AND_SOLVENTS, EVERY),
    Caution("dust", words.DUST_AND_PIGMENTS, EVERY),
    Caution("rules", words.RULES, EVERY),
    Caution("paper", words.PAPER, BY_GUSSETS),
    Caution("laser", words.LASER, EVERY, machine=True),
    Caution("manual", words.MANUAL, EVERY, machine=True),
)
"""All of them, with the jobs that meet each."""


def cautions(job: str, *, machine: bool) -> tuple[Caution, ...]:
    """The cautions of a job.

    Parameters
    ----------
    job : str
        A key of `bellowscut.parts.JOBS`.
    machine : bool
        Whether a machine cuts any of it.
    """
    return tuple(one for one in CAUTIONS if job in one.jobs and (machine or not one.machine))


def has_machine(bellows: Bellows) -> bool:
    """Whether the profile tells of a machine of its own: a cutter that is not as it ships."""
    return bellows.profile.cutter != CutterSpec()


def not_made(bellows: Bellows, job: str) -> str:
    """What a whole bellows usually has and nobody asked for, in one line; empty where nothing is left out.

    Other jobs leave the old papers, hinges and gaskets where they are.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    job : str
        A key of `bellowscut.parts.JOBS`.
    """
    if job != "rebellows":
        return ""
    missing = [kind for kind in words.NOT_MADE_KINDS if getattr(bellows.profile, kind.replace("-", "_")) is None]
    if not missing:
        return ""
    kinds = listed([say(words.NOT_MADE_KINDS[kind]) for kind in missing])
    return say(words.NOT_MADE, kinds=kinds, options=" ".join(say(words.ALSO, kind=kind) for kind in missing))


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


def warnings(bellows: Bellows, job: str, also: tuple[str, ...] = ()) -> tuple[Note, ...]:
    """Everything about this bellows that could spoil a skin or this job.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    job : str
        What is done to it, a key of `bellowscut.parts.JOBS`.
    also : tuple of str
        Kinds of part that are made as well.

    Returns
    -------
    tuple of Note
        In the order in which they matter at the bench: measuring, materials, cutting, folding, fitting, lettering.
    """
    found = (
        *_old_card(bellows, job, also),
        *_measuring(bellows),
        *_materials(bellows),
        *_cards(bellows),
        *_gussets(bellows),
        *_folding(bellows),
        *_fitting(bellows),
        *_names(bellows),
    )
    done = {job, *(_job_of(kind) for kind in also)}
    return tuple(note for note in found if done & MEETS.get(note.code, EVERY))


def _job_of(kind: str) -> str:
    """The least job that makes a kind; no job where only a whole bellows does."""
    jobs = [job for job, kinds in JOBS.items() if kind in kinds and job != "rebellows"]
    return min(jobs, key=lambda job: len(JOBS[job]), default="")


def advice(bellows: Bellows, job: str, *, mirror: bool = False) -> tuple[str, ...]:
    """What always holds in a job, with this bellows' figures.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    job : str
        A key of `bellowscut.parts.JOBS`.
    mirror : bool
        Whether leather is drawn from its grain side.
    """
    rule, tight = bellows.rule, bellows.gluing_distance
    thicker = bellows.cards_per_side / 2 * _closed_for_leather(bellows)
    rows = (
        (EVERY, say(words.RULE_ON_BARS)),
        (BY_GUSSETS, say(words.CUT_ONE_FIRST, mm=rule.length(tight))),
        (EVERY, say(words.GRAIN_SIDE if mirror else words.FLESH_SIDE)),
        (EVERY, say(words.SUCK_THE_LEATHER)),
        (NEW_STRIPS, say(words.PULL_BOTH_WAYS)),
        (NEW_GUSSETS, say(words.GAUGE_AFTER_PARING, tenth=rule.fine(0.1), mm=rule.length(thicker))),
        (OLD_CARDS, say(words.GLUE_A_SCRAP)),
        (BY_OLD_CARDS, say(words.PRESS_EACH_CARD)),
        (LIFTED, say(words.LIFTED_TIPS)),
        (NEW_GUSSETS, say(words.MEASURE_THE_REEDS, mm=rule.length(bellows.inside_opening))),
        (EVERY, say(words.ONE_SKIN)),
        (NEW_STRIPS, say(words.CUT_STRIPS_LONG, mm=rule.fine(STRIP_LONGER.value))),
    )
    return tuple(text for jobs, text in rows if job in jobs)


def _closed_for_leather(bellows: Bellows) -> float:
    """How much one cell grows when the gusset leather is 0.1 mm thicker [mm], if the corner governs."""
    if bellows.stack.governs != "corner":
        return 0.0
    gusset = bellows.profile.gusset
    skived = gusset.lap if gusset.skive is None else gusset.skive
    share = skived / 2 / gusset.lap + (gusset.lap - skived) / gusset.lap
    return 0.1 * (2 * share + 4)


def _old_card(bellows: Bellows, job: str, also: tuple[str, ...]) -> Iterator[Note]:
    """What was not read off the old cards, or reads oddly."""
    if not cuts_gussets(job, also):
        return
    guess = card_guess(bellows, job, also)
    if guess is not None:
        yield Note("card-not-measured", _guessed(bellows, guess))
    card = bellows.old_card
    for key in ("ridge_edge", "valley_edge", "glue_shadow"):
        yield from _apart(key, getattr(bellows.profile.readings, key), bellows.rule)
    if not card.sides_agree:
        low, high = (pick(card.cards, key=lambda one: one.relief or 0.0) for pick in (min, max))
        assert low.relief is not None
        assert high.relief is not None
        text = say(
            words.SIDES_APART,
            low_side=low.side,
            low=angle_told(low.relief),
            high_side=high.side,
            high=angle_told(high.relief),
            either_way=angle_told(card.either_way),
            relief=angle_told(bellows.relief),
        )
        yield Note("sides-apart", text)
    yield from _end_and_card(bellows)


def _guessed(bellows: Bellows, guess: Guess) -> str:
    """What the guess at the cards is worth, and what ends it."""
    if len(guess.missing) == 1:
        (key,) = guess.missing
        begins = say(words.ONE_EDGE_MEASURED)
        ends = say(words.ONE_READING, edge=say(words.EDGES[key]), key=key)
    else:
        begins, ends = say(words.NO_EDGE_MEASURED), say(words.TWO_READINGS)
    rule = bellows.rule
    shown = {"relief": angle_told(bellows.relief), "low": angle_told(guess.reliefs[0]), "high": angle_told(guess.reliefs[1])}
    lengths = {"open": rule.bare(bellows.open_length), "least": rule.bare(guess.lengths[0]), "most": rule.length(guess.lengths[1])}
    if guess.own:
        return say(words.CARD_NOT_MEASURED_OWN, width=rule.length(guess.width), begins=begins, ends=ends, **shown, **lengths)
    return say(
        words.CARD_NOT_MEASURED,
        narrow=rule.bare(guess.widths[0]),
        wide=rule.length(guess.widths[1]),
        width=rule.bare(guess.width),
        off=rule.length(guess.off),
        begins=begins,
        ends=ends,
        **shown,
        **lengths,
    )


def _apart(key: str, readings: Readings | None, rule: Rule) -> Iterator[Note]:
    """Readings of one size at one side that disagree by more than a rule does."""
    if readings is None:
        return
    for side, found in (("", readings.any_side), *readings.by_side):
        if found and apart(found):
            text = say(
                words.READINGS_APART,
                key=key,
                where=say(words.READ_AT_SIDE, side=side) if side else "",
                apart=rule.fine(apart(found)),
                least=rule.bare_fine(min(found)),
                most=rule.fine(max(found)),
                middle=rule.fine(median(found)),
            )
            yield Note("readings-apart", text)


def _end_and_card(bellows: Bellows) -> Iterator[Note]:
    """A ridge edge that does not go with the end, or of which nobody knows the side."""
    card, section, rule = bellows.old_card, bellows.section, bellows.rule
    kept = rule.fine(bellows.corner_gap)
    if bellows.profile.bellows.corner_gap is not None:
        return
    worst = card.misfit
    if worst is not None:
        names = section.side_names
        side = worst.side or names[0]
        assert worst.ridge_edge is not None
        assert worst.gap is not None
        text = say(
            words.END_AND_CARD,
            side=side,
            length=rule.length(section.sides[names.index(side)]),
            edge=rule.fine(worst.ridge_edge),
            leaves=say(words.LEAVES_GAP, gap=rule.length(worst.gap)) if worst.gap >= 0.05 else say(words.LEAVES_NOTHING),
            least=rule.bare_fine(CARD_GAP_LEAST.value),
            most=rule.fine(CARD_GAP_MOST.value),
            taken=kept,
        )
        yield Note("end-and-card", text)
    elif card.gap is None and any(one.ridge_edge is not None for one in card.cards):
        edge = next(one.ridge_edge for one in card.cards if one.ridge_edge is not None)
        between = max(section.sides) - min(section.sides)
        yield Note("name-the-side", say(words.NAME_THE_SIDE, mm=rule.length(between), kept=kept, edge=rule.fine(edge)))


def letters_lacking(texts: Iterable[str]) -> str:
    """What to say of letters that cannot be printed, each with its code, so that the sentence itself can be; empty where all can."""
    letters = lacking(texts)
    if not letters:
        return ""
    named = ", ".join(say(words.LETTER_NAMED, letter=letter, code=f"U+{ord(letter):04X}") for letter in letters[:LETTERS_NAMED])
    if len(letters) > LETTERS_NAMED:
        named = say(words.LETTERS_MORE, letters=named, number=len(letters) - LETTERS_NAMED)
    return say(words.LETTERS_LACKING, letters=named)


def _names(bellows: Bellows) -> Iterator[Note]:
    """Letters of the user's own texts that print lacks."""
    profile = bellows.profile
    shelves = (skin.name for material in profile.materials.values() for skin in material.shelf)
    texts = (profile.name, *profile.materials, *shelves, profile.quote.customer or "", *profile.quote.other_work)
    if text := letters_lacking(texts):
        yield Note("letters", text)


def _measuring(bellows: Bellows) -> Iterator[Note]:
    spec = bellows.profile.section
    section, rule = bellows.section, bellows.rule
    if spec.measured_on == "end":
        yield Note(
            "measured-on-end",
            say(words.MEASURED_ON_END),
        )
    if spec.measured_on == "frame-covered":
        less = 2 * bellows.material(bellows.profile.end_strip.material).thickness
        yield Note(
            "measured-on-cover",
            say(words.MEASURED_ON_COVER, mm=rule.fine(less)),
        )
    if spec.flats is not None:
        if flats_alike(spec.flats):
            mean = sum(spec.flats) / len(spec.flats)
            yield Note(
                "flats-alike",
                say(words.FLATS_ALIKE, within=rule.fine(FLATS_ALIKE.value), mm=rule.fine(mean)),
            )
        moved = flat_error_on_side(section.count, FLAT_ERROR.value)
        yield Note(
            "flats-hide-sides",
            say(words.FLATS_HIDE_SIDES, amiss=rule.fine(FLAT_ERROR.value), moved=rule.fine(round(moved, 1))),
        )
    if section.misfit > MISFIT_WARNED.value:
        yield Note(
            "sides-misfit",
            say(words.SIDES_MISFIT, mm=rule.fine(section.misfit)),
        )
    yield from _second_end(bellows)
    thickest = max(section.packing, key=lambda packing: packing.mm, default=None)
    if thickest is not None and 2 * thickest.mm > ENDS_DIFFER_WARNED.value:
        yield Note(
            "ends-differ",
            say(words.ENDS_DIFFER, mm=rule.fine(2 * thickest.mm), packing=_packed(section.packing, rule)),
        )


def _second_end(bellows: Bellows) -> Iterator[Note]:
    """What was made of a second end given by its corners, where it was not taken as it was listed."""
    laid = bellows.second_end
    if laid is None:
        return
    a, b = (f"({', '.join(map(Rule().bare_fine, point))})" for point in laid.side_a)
    if laid.mirrored:
        text = say(
            words.SECOND_END_MIRRORED, listed=bellows.rule.length(laid.as_listed), mirrored=bellows.rule.length(laid.apart), a=a, b=b
        )
        yield Note("other-end-mirrored", text)
    elif laid.relettered:
        yield Note("other-end-turned", say(words.SECOND_END_TURNED, a=a, b=b))


def _packed(packing: Sequence[Packing], rule: Rule) -> str:
    """What to pack where, one frame after the other."""
    found = {}
    for end, text in PACKED.items():
        mine = [say(words.PACK_SIDE, side=one.side, mm=rule.fine(one.mm)) for one in packing if one.end == end]
        if mine:
            found[end] = say(text, sides=listed(mine))
    return say(words.PACK_BOTH_FRAMES, **found) if len(found) == len(PACKED) else "".join(found.values())


def _materials(bellows: Bellows) -> Iterator[Note]:
    """Leather and card of a thickness that the trade does not use for them."""
    profile, rule = bellows.profile, bellows.rule

    def unfit(material: str, use: str, least: Constant, most: Constant) -> str:
        """What to say of a leather, if anything; a rounding error is no fault."""
        mm = bellows.material(material).thickness
        if least.value - 1e-9 <= mm <= most.value + 1e-9:
            return ""
        text = words.LEATHER_THICK if mm > most.value else words.LEATHER_THIN
        return say(text, use=say(use), material=material, mm=rule.fine(mm), least=rule.bare_fine(least.value), most=rule.fine(most.value))

    gusset, edge, end = profile.gusset.material, profile.edge_strip.material, profile.end_strip.material
    cover, patch = profile.cover_gusset, profile.corner_patch
    if text := unfit(gusset, words.GUSSETS, GUSSET_LEATHER_LEAST, GUSSET_LEATHER_MOST):
        yield Note("gusset-leather", text)
    if SKIVER in gusset.lower():
        yield Note("gusset-skiver", say(words.SKIVER, material=gusset))
    if text := unfit(edge, words.STRIPS if edge == end else words.EDGE_STRIPS, STRIP_LEATHER_LEAST, STRIP_LEATHER_MOST):
        yield Note("strip-leather", text)
    if edge != end and (text := unfit(end, words.END_STRIPS, STRIP_LEATHER_LEAST, STRIP_LEATHER_MOST)):
        yield Note("strip-leather", text)
    if cover and (text := unfit(cover.material, words.COVER_GUSSETS, COVER_LEATHER_LEAST, COVER_LEATHER_MOST)):
        yield Note("cover-leather", text)
    if patch and (text := unfit(patch.material, words.CORNER_PATCHES, PATCH_LEATHER_LEAST, PATCH_LEATHER_MOST)):
        yield Note("patch-leather", text)
    thick = bellows.card > CARD_MOST.value + 1e-9
    if thick or bellows.card < CARD_LEAST.value - 1e-9:
        yield Note(
            "card-thickness",
            say(
                words.CARD_THICK if thick else words.CARD_THIN,
                material=profile.card.material,
                mm=rule.fine(bellows.card),
                usual=rule.fine(CARD_USUAL.value),
                limit=rule.fine((CARD_MOST if thick else CARD_LEAST).value),
            ),
        )


def _cards(bellows: Bellows) -> Iterator[Note]:
    profile, rule = bellows.profile, bellows.rule
    clear = gap_that_clears(bellows.section.turns, bellows.card)
    if bellows.corner_gap < clear - 1e-9:
        yield Note(
            "corner-gap",
            say(words.CORNER_GAP, card=rule.fine(bellows.card), gap=both(bellows.corner_gap), needed=both(clear)),
        )
    needed = needed_valley_gap(profile, bellows.layers)
    if profile.hinge.valley_side == "inside" and bellows.valley_gap < needed - 1e-9:
        cosine = bellows.valley_gap / needed
        angle = math.degrees(math.acos(max(0.0, min(1.0, cosine))))
        yield Note(
            "valley-gap",
            say(words.VALLEY_GAP, gap=both(bellows.valley_gap), degrees=f"{angle:.0f}", needed=both(needed)),
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
        if name == "ridge":
            text = say(words.RIDGE_RADIUS_REDUCED, asked=rule.fine(asked), radius=rule.fine(radius), gap=rule.fine(gap))
        else:
            text = say(words.VALLEY_RADIUS_REDUCED, asked=rule.fine(asked), radius=rule.fine(radius))
        yield Note("radius-reduced", text)
    yield from _faces(bellows)


def _faces(bellows: Bellows) -> Iterator[Note]:
    """Laps that meet on one face of a card."""
    profile, rule = bellows.profile, bellows.rule
    heights = [points[2][1] - points[0][1] for points in (card_corners(bellows, i) for i in range(bellows.section.count))]
    height = min(heights)
    hinge_out = profile.hinge.lap if profile.hinge.valley_side == "outside" else 0.0
    at_valley = max(hinge_out, profile.valley_strip.lap if profile.valley_strip else 0.0)
    at_ridge = max(profile.edge_strip.lap, profile.end_strip.lap, profile.ridge_cloth.lap if profile.ridge_cloth else 0.0)
    if at_ridge + at_valley > height:
        yield Note(
            "laps-meet",
            say(words.LAPS_MEET, laps=rule.fine(at_ridge + at_valley), height=rule.length(height)),
        )
    inside = profile.hinge.lap * (1 if hinge_out else 2)
    if inside > height:
        yield Note(
            "hinges-meet",
            say(words.HINGES_MEET, laps=rule.fine(inside), height=rule.length(height)),
        )


def _gussets(bellows: Bellows) -> Iterator[Note]:
    profile, rule = bellows.profile, bellows.rule
    needed = max(corner.relief_for_leather(bellows.layers.gusset) for corner in bellows.corners)
    if bellows.relief < needed - 1e-9:
        yield Note(
            "relief",
            say(words.RELIEF, leather=rule.fine(bellows.layers.gusset), needed=angle_told(needed), relief=angle_told(bellows.relief)),
        )
    use = profile.gusset.use
    if use is None:
        return
    asked = profile.bellows.stretch
    width, degrees = rule.length(use[0]), angle_told(bellows.stretch)
    if bellows.stretch >= STRETCH_MOST.value:
        yield Note("gusset-stretch", say(words.GUSSET_TOO_WIDE, width=width, degrees=degrees))
    elif asked is not None and "bellows.stretch" in profile.given and abs(asked - bellows.stretch) > 1:
        yield Note("gusset-stretch", say(words.GUSSET_STRETCH, width=width, degrees=degrees, asked=angle_told(asked)))
    from_cards = 2 * (bellows.corners[0].half_height(bellows.stretch) + profile.gusset.ridge_turn)
    if abs(from_cards - use[1]) > OLD_GUSSET_LENGTH.value:
        length, own = rule.length(from_cards), rule.length(use[1])
        if bellows.card_known:
            text = say(words.GUSSET_LENGTH, length=length, own=own)
        else:
            text = say(words.GUSSET_LENGTH_GUESSED, length=length, own=own, relief=angle_told(bellows.relief))
        yield Note("gusset-length", text)


def _folding(bellows: Bellows) -> Iterator[Note]:
    t, rule = bellows.stretch, bellows.rule
    if t < STRETCH_LEAST.value:
        yield Note("stretch-low", say(words.STRETCH_LOW, degrees=angle_told(t)))
    over = [name for name, corner in zip(bellows.section.corner_names, bellows.corners, strict=True) if corner.over_centre(t)]
    if over:
        yield Note(
            "over-centre",
            say(words.OVER_CENTRE, corner=over[0]),
        )
    for i, name in enumerate(bellows.section.side_names):
        inward = sum(corner.depth * math.sin(corner.half_turn) * (1 - math.cos(math.radians(t))) for corner in bellows.corner_pair(i))
        if bellows.card_width(i, bellows.depth) < inward:
            yield Note(
                "pleats-meet",
                say(words.PLEATS_MEET, side=name),
            )
            break
    if bellows.leather_share > LEATHER_SHARE_WARNED.value:
        yield Note(
            "leather-share",
            say(words.LEATHER_SHARE, share=f"{100 * bellows.leather_share:.0f}"),
        )
    excess = bellows.excess_on_form
    if abs(excess) >= 0.05:
        form, gusset = angle_told(bellows.form_slope), angle_told(bellows.stretch)
        if excess > 0:
            text = say(words.FORM_FLATTER, form=form, gusset=gusset, mm=rule.length(excess))
        else:
            text = say(words.FORM_STEEPER, form=form, gusset=gusset, mm=rule.length(-excess))
        yield Note("form-slope", text)
    if bellows.valley_ends:
        risk = 2 * bellows.depth * math.sin(math.radians(t))
        yield Note(
            "valley-ends",
            say(words.VALLEY_ENDS, mm=rule.length(risk)),
        )
    yield from _notches(bellows)
    strip = bellows.profile.edge_strip
    if strip.run == "whole":
        leather = bellows.material(strip.material)
        taken = 2 * math.pi * leather.neutral * leather.thickness
        if taken > strip.joint:
            yield Note(
                "strip-joint",
                say(words.STRIP_JOINT, mm=rule.fine(taken), joint=rule.fine(strip.joint)),
            )


def _notches(bellows: Bellows) -> Iterator[Note]:
    """Notches of the edge strip that are asked for and cannot be cut as the corners ask."""
    strip, rule = bellows.profile.edge_strip, bellows.rule
    if strip.darts and strip.run == "per-side":
        yield Note("darts", say(words.DARTS_PER_SIDE))
    cut = darts(bellows)
    left_out = next((one for one in cut if not one.half_width), None)
    if left_out:
        yield Note("darts", say(words.DARTS_LEFT_OUT, corner=left_out.corner, least=rule.fine(DART_LEAST.value)))
    narrowed = [one for one in cut if 0 < one.half_width < one.wanted]
    if narrowed:
        worst = min(narrowed, key=lambda one: round(one.half_width / one.wanted, 3))
        told = say(words.DARTS_NARROWED, corner=worst.corner, asked=rule.length(2 * worst.wanted), cut=rule.length(2 * worst.half_width))
        yield Note("darts", told)


def _fitting(bellows: Bellows) -> Iterator[Note]:
    spec, rule = bellows.profile.bellows, bellows.rule
    if spec.old_closed_length is not None and bellows.closed_length > spec.old_closed_length + 0.05:
        yield Note(
            "closed-length",
            say(words.CLOSED_LENGTH, new=rule.length(bellows.closed_length), old=rule.length(spec.old_closed_length)),
        )
    if spec.reed_clearance is not None and bellows.inside_opening < spec.reed_clearance:
        yield Note(
            "reed-clearance",
            say(words.REED_CLEARANCE, opening=rule.length(bellows.inside_opening), needed=rule.length(spec.reed_clearance)),
        )
    facing, end = bellows.profile.facing, bellows.profile.end_strip
    if facing is not None and facing.order == "last" and end.lap < bellows.profile.edge_strip.lap - facing.overlap:
        yield Note(
            "facing-short",
            say(words.FACING_SHORT),
        )

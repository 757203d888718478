"""Gussets, cover gussets and corner patches: what is said of cutting, paring and gluing them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from bellowscut.bench.work import Told, Work, beware, joined, size, sorts, to_test
from bellowscut.labour import COVERS, GUSSETS
from bellowscut.parts.part import Part, counted, listed
from bellowscut.sources import BEVEL_LEAST, BEVEL_MOST
from bellowscut.stack import closed_stack
from bellowscut.units import angle_told
from bellowscut.words import say, work_sheet as words

CLEAR = 0.05
"""Spare leather in a corner that is worth a word [mm]."""


def cut_gussets(work: Work) -> Iterator[Told]:
    """Marking and cutting."""
    bellows = work.bellows
    spec = bellows.profile.gusset
    yield beware(say(words.SUCK))
    yield Told(
        joined(
            say(words.GUSSETS_CUT, list=_list(work, GUSSETS), material=spec.material, size=work.thickness(spec.material)),
            *_sizes(work, GUSSETS),
        )
    )
    yield from _corners_differ(work, GUSSETS)
    yield _lie(work, GUSSETS)
    if len(work.of("gusset", "end-gusset", "half-gusset")) > len({part.kind for part in work.of(*GUSSETS)}):
        yield Told(say(words.FLESH_SIDE))
    if work.of("corner-patch"):
        yield Told(say(words.PATCHES_TOO, number=work.count("corner-patch")))
    yield _cut_one(work)


def skive_gussets(work: Work) -> Iterator[Told]:
    """Paring."""
    bellows = work.bellows
    spec = bellows.profile.gusset
    if spec.skive is None:
        text = say(words.SKIVE_FROM_CARD, lap=work.short(spec.lap), tip=work.short(spec.tip_lap), feather=work.short(spec.feather))
    else:
        text = say(words.SKIVE_PARALLEL, skive=work.short(spec.skive), feather=work.short(spec.feather))
    yield Told(text)
    yield Told(say(words.SKIVE_NOT_TIPS))
    yield Told(say(words.SKIVE_SPARES, pieces=work.pieces(*GUSSETS)))
    thicker = thicker_for_tenth(work)
    yield beware(say(words.GAUGE_TENTH, tenth=work.short(0.1), size=work.long(thicker)) if thicker else say(words.GAUGE_FIVE))


def thicker_for_tenth(work: Work) -> float:
    """What the closed bellows gains when the gusset leather is 0.1 mm thicker [mm]; 0 where another place governs."""
    bellows = work.bellows
    if bellows.stack.governs != "corner":
        return 0.0
    spec = bellows.profile.gusset
    skived = (spec.lap if spec.skive is None else spec.skive) / spec.lap
    lap = 0.1 * (skived / 2 + 1 - skived)
    return (2 * lap + 4 * 0.1) * bellows.cards_per_side / 2 * bellows.profile.bellows.stack_factor


def gussets_on_form(work: Work) -> Iterator[Told]:
    """Gussets while the form holds the cards."""
    bellows = work.bellows
    on_form, kept = _on_form(work), _kept_back(work)
    if on_form:
        if bellows.valleys > 2:
            yield Told(say(words.MIDDLE_OUT))
        yield from _laying(work)
        if bellows.excess_on_form > CLEAR:
            yield Told(say(words.TUCK, size=work.long(bellows.excess_on_form)))
    if kept:
        yield Told(say(words.KEEP_BACK, number=kept))
    if on_form:
        yield _glued(on_form, work.spare("gusset"))


def end_gussets(work: Work) -> Iterator[Told]:
    """Off the form, onto the frames; nothing is closed before this has dried."""
    bellows = work.bellows
    spec = bellows.profile.gusset
    ends, halves, kept = work.count("end-gusset"), work.count("half-gusset"), _kept_back(work)
    alone = not _on_form(work)
    if alone:
        kind = say(words.KINDS["end-gusset" if ends else "half-gusset" if halves else "gusset"])
        yield Told(say(words.HOLD_FIRST, number=ends or halves or kept, kind=kind))
        yield from _laying(work)
    yield Told(say(words.FORM_OUT))
    yield Told(say(words.ON_FRAMES, size=work.long(bellows.gluing_distance)))
    yield _twist(work)
    hinge = bellows.profile.frame_hinge
    if hinge is not None and work.of("frame-hinge"):
        yield Told(say(words.JOIN_HINGES, number=work.count("frame-hinge"), lap=work.short(hinge.lap)))
    else:
        yield Told(say(words.JOIN_TABS, number=2 * bellows.section.count * work.copies))
    if alone:
        yield Told(say(words.DRY_PARTS, size=work.short(spec.lap if halves else spec.frame_turn)))
        return
    if ends:
        yield Told(say(words.END_GUSSETS, number=ends, turn=work.short(spec.frame_turn)))
    if kept:
        yield Told(say(words.KEPT_BACK, number=kept, turn=work.short(spec.frame_turn)))
    if halves:
        yield Told(say(words.HALF_GUSSETS, number=halves, lap=work.short(spec.lap)))


def _kept_back(work: Work) -> int:
    """Plain gussets with a tip on a frame: all at the ends, where ridge turn and frame turn are alike [-]."""
    if work.bellows.valley_ends or work.of("end-gusset"):
        return 0
    return 2 * work.bellows.section.count * work.copies


def _on_form(work: Work) -> int:
    """Gussets that are glued while the form is in: those between two ridges [-]."""
    return work.count("gusset") - _kept_back(work)


def prop(work: Work) -> Iterator[Told]:
    """Frames propped apart, three gussets tried."""
    bellows = work.bellows
    yield Told(say(words.PROP, size=work.long(bellows.gluing_distance), pitch=work.long(bellows.valley_pitch)))
    yield _twist(work)
    yield Told(say(words.DRY_FIT))


def glue_gussets(work: Work) -> Iterator[Told]:
    """Gussets between propped frames."""
    spec = work.bellows.profile.gusset
    if work.bellows.valleys > 2:
        yield Told(say(words.MIDDLE_OUT))
    yield from _laying(work)
    ends, halves = work.count("end-gusset"), work.count("half-gusset")
    if ends:
        yield Told(say(words.GLUE_ENDS, number=ends, turn=work.short(spec.frame_turn)))
    if halves:
        yield Told(say(words.GLUE_HALVES, number=halves, lap=work.short(spec.lap)))
    yield Told(say(words.GLUE_PRESS))
    yield _glued(work.count(*GUSSETS), work.spare(*GUSSETS))


def cut_covers(work: Work) -> Iterator[Told]:
    """Cover gussets marked and cut."""
    (material,) = {part.material for part in work.of(*COVERS)}
    yield beware(say(words.SUCK))
    yield Told(
        joined(
            say(words.COVERS_CUT, list=_list(work, COVERS), material=material, size=work.thickness(material)),
            *_sizes(work, COVERS),
        )
    )
    yield from _corners_differ(work, COVERS)
    yield _lie(work, COVERS)
    yield _cut_one(work)


def pare_covers(work: Work) -> Iterator[Told]:
    """Their edges."""
    yield Told(say(words.COVERS_PARE, least=work.rule.bare_fine(BEVEL_LEAST.value), most=work.short(BEVEL_MOST.value)))
    yield Told(say(words.COVERS_PARE_ALL, pieces=work.pieces(*COVERS)))


def glue_covers(work: Work) -> Iterator[Told]:
    """Covers on old gussets."""
    bellows = work.bellows
    yield Told(say(words.COVERS_PROP, size=work.long(bellows.gluing_distance), pitch=work.long(bellows.valley_pitch)))
    yield _twist(work)
    yield Told(say(words.COVERS_LAY, number=work.count(*COVERS)))
    yield Told(say(words.COVERS_TIPS))
    thicker = covers_thicker(work)
    if thicker >= CLEAR:
        yield Told(say(words.COVERS_THICKER, size=work.long(thicker)))


def covers_thicker(work: Work) -> float:
    """What cover gussets add to the closed length [mm]."""
    bellows = work.bellows
    bare = closed_stack(replace(bellows.layers, cover=0.0))
    return bellows.closed_length - bare.closed_length(bellows.cards_per_side / 2, bellows.profile.bellows.stack_factor)


def cut_patches(work: Work) -> Iterator[Told]:
    """Corner patches."""
    for part in work.of("corner-patch"):
        length, width = size(part)
        yield Told(
            say(
                words.PATCHES_CUT,
                number=part.pieces,
                width=work.long(width),
                length=work.long(length),
                material=part.material,
                size=work.thickness(part.material),
            )
        )
    yield Told(say(words.PATCHES_PARE, least=work.rule.bare_fine(BEVEL_LEAST.value), most=work.short(BEVEL_MOST.value)))
    yield beware(say(words.SUCK))


def glue_patches(work: Work) -> Iterator[Told]:
    """Patches over leaking corners."""
    for part in work.of("corner-patch"):
        length, width = size(part)
        yield Told(say(words.PATCHES_LAY, width=work.long(width / 2), length=work.long(length / 2)))
    yield Told(say(words.PATCHES_RUB))
    yield Told(say(words.PATCHES_CLOSED))


def _laying(work: Work) -> Iterator[Told]:
    spec = work.bellows.profile.gusset
    if spec.use is None:
        yield Told(say(words.LAY_GUSSET, lap=work.short(spec.lap), tip=work.short(spec.tip_lap)))
    else:
        yield Told(say(words.LAY_OWN_GUSSET))
    yield Told(say(words.TIP_TURN, turn=work.short(spec.ridge_turn)))


def _glued(number: int, spare: int) -> Told:
    return Told(say(words.GLUE_NUMBER if spare else words.GLUE_NUMBER_FEW, number=number, spare=spare))


def _twist(work: Work) -> Told:
    """Both ways from frame to frame: a bellows that is glued twisted stays so."""
    bellows = work.bellows
    section = bellows.section
    apart = bellows.gluing_distance
    if section.count % 2:
        return to_test(say(words.TWIST_ODD, size=work.long(apart)))
    half = section.count // 2
    first, second = 1, (1 + half) % section.count
    over = math.hypot(apart, math.dist(section.frame[first], section.frame[second]))
    return to_test(say(words.TWIST, first=section.corner_names[first], second=section.corner_names[second], size=work.long(over)))


def _lie(work: Work, kinds: Sequence[str]) -> Told:
    """Which way they lie on the skin, as their arrows and a layout have it."""
    ways = {part.along for part in work.of(*kinds)}
    return Told(say(words.GRAIN_ALONG, way=listed(sorted(ways)), degrees=angle_told(work.bellows.profile.gusset.off_grain)))


def _cut_one(work: Work) -> Told:
    bellows = work.bellows
    if work.job == "rebellows":
        return beware(say(words.CUT_ONE_CORNER, degrees=angle_told(bellows.form_slope)))
    return beware(say(words.CUT_ONE, size=work.long(bellows.gluing_distance)))


def _groups(work: Work, kinds: Sequence[str]) -> dict[str, list[Part]]:
    """Parts by what they are called: gussets, end gussets, covers."""
    found: dict[str, list[Part]] = {}
    for part in work.of(*kinds):
        found.setdefault(kind_name(part), []).append(part)
    return found


def kind_name(part: Part) -> str:
    """What pieces of this sort are called, many of them."""
    if part.kind == "cover-gusset" and "end" in part.id:
        return say(words.COVER_END)
    if part.kind == "cover-gusset" and "half" in part.id:
        return say(words.COVER_HALF)
    if part.kind == "hinge":
        return say(words.HINGE_RIDGE if "ridge" in part.id else words.HINGE_VALLEY)
    return say(words.KINDS[part.kind])


def _list(work: Work, kinds: Sequence[str]) -> str:
    told = []
    for name, parts in _groups(work, kinds).items():
        number, spare = sum(part.count for part in parts), sum(part.spare for part in parts)
        told.append(say(words.KIND_COUNT, counted=counted(number, spare), kind=name))
    return listed(told)


def _sizes(work: Work, kinds: Sequence[str]) -> Iterator[str]:
    """Sizes, where a kind has but one."""
    groups = _groups(work, kinds)
    if all(len(parts) == 1 for parts in groups.values()):
        told = []
        for name, (part,) in groups.items():
            wide, high = size(part)
            told.append(say(words.KIND_SIZE, kind=name, width=work.rule.bare(wide), height=work.long(high)))
        yield say(words.GUSSETS_SIZE, sizes=listed(told))


def _corners_differ(work: Work, kinds: Sequence[str]) -> Iterator[Told]:
    for parts in _groups(work, kinds).values():
        places = sorts(parts)
        if places:
            yield Told(say(words.GUSSETS_DIFFER, list="; ".join(places)))
            return

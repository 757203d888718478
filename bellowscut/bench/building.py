"""Form, cards and hinges: what the steps say that build a bellows from the inside out."""

from __future__ import annotations

import math
from collections.abc import Iterator

from bellowscut.bench.work import Told, Work, size, sorts, to_test
from bellowscut.parts.part import listed
from bellowscut.sources import HINGE_SHORT
from bellowscut.units import angle_told
from bellowscut.words import say, work_sheet as words


def make_form(work: Work) -> Iterator[Told]:
    """A form that is not there yet."""
    bellows = work.bellows
    high = bellows.depth * math.cos(math.radians(bellows.form_slope))
    yield Told(say(words.MAKE_FORM))
    yield Told(say(words.FORM_SLOPE, slope=_slope(work), high=work.long(high), pitch=_pitch(work), length=_glued(work)))
    yield Told(say(words.FORM_EASE))
    yield to_test(say(words.FORM_APART))


def set_up_form(work: Work) -> Iterator[Told]:
    """The form made ready."""
    yield Told(say(words.SET_UP_FORM))
    yield Told(say(words.SET_UP_SIZES, slope=_slope(work), pitch=_pitch(work), length=_glued(work)))
    if "make-form" not in work.keys:
        yield to_test(say(words.FORM_APART))


def cards(work: Work) -> Iterator[Told]:
    """Loose cards."""
    bellows = work.bellows
    spec = bellows.profile.card
    parts = work.of("card")
    template = words.CARDS if work.copies == 1 else words.CARDS_COPIES
    yield Told(
        say(
            template,
            number=work.count("card"),
            material=spec.material,
            size=work.thickness(spec.material),
            each=bellows.cards_per_side,
        )
    )
    places = sorts(parts)
    if places:
        yield Told(say(words.SIDES_DIFFER, list="; ".join(places)))
    uneven = _uneven_sides(work)
    if uneven:
        yield Told(say(words.SIDES_ALIKE_OVER, sides=listed(uneven)))
    if not (spec.ridge_radius or spec.valley_radius):
        yield Told(say(words.CARDS_EASE))
    elif math.isclose(spec.ridge_radius, spec.valley_radius) or "radius-reduced" in work.codes:
        yield Told(say(words.CARDS_ROUND_ALIKE, ridge=work.short(spec.ridge_radius)))
    else:
        yield Told(say(words.CARDS_ROUND, ridge=work.short(spec.ridge_radius), valley=work.short(spec.valley_radius)))


def card_runs(work: Work) -> Iterator[Told]:
    """Scored runs, one a side."""
    bellows = work.bellows
    material = bellows.profile.card.material
    yield Told(
        say(words.RUNS, number=work.count("card-run"), material=material, size=work.thickness(material), each=bellows.cards_per_side)
    )
    places = sorts(work.of("card-run"))
    if places:
        yield Told(say(words.SIDES_DIFFER, list="; ".join(places)))
    yield Told(say(words.RUNS_SCORE))
    yield Told(say(words.RUNS_WIDTH, ridge=work.short(bellows.ridge_gap), valley=work.short(bellows.valley_gap)))


def hinge_cards(work: Work) -> Iterator[Told]:
    """Cloth on the form, cards on the cloth."""
    bellows = work.bellows
    spec = bellows.profile.hinge
    valley = [part for part in work.of("hinge") if part.id.startswith("hinge-valley")]
    ridge = [part for part in work.of("hinge") if part.id.startswith("hinge-ridge")]
    if valley and ridge:
        yield Told(
            say(
                words.HINGES_CUT,
                valley=sum(part.count for part in valley),
                valley_width=work.long(size(valley[0])[0]),
                ridge=sum(part.count for part in ridge),
                ridge_width=work.long(size(ridge[0])[0]),
                material=spec.material,
            )
        )
    if work.of("card-run"):
        yield Told(say(words.HINGES_RUNS))
    else:
        yield Told(say(words.HINGES_OUTSIDE if spec.valley_side == "outside" else words.HINGES_INSIDE))
    gaps = {"ridge": work.short(bellows.ridge_gap), "valley": work.short(bellows.valley_gap), "corner": work.short(bellows.corner_gap)}
    yield Told(say(words.HINGES_GAPS, **gaps))
    yield Told(say(words.HINGES_SHORT, size=work.short(HINGE_SHORT.value)))


def _uneven_sides(work: Work) -> list[str]:
    """Sides whose two corners turn by different angles: their cards are mirror images above and below a ridge."""
    section = work.bellows.section
    turns = section.turns
    return [name for i, name in enumerate(section.side_names) if abs(turns[i] - turns[(i + 1) % section.count]) > 0.01]


def _slope(work: Work) -> str:
    return angle_told(work.bellows.form_slope)


def _pitch(work: Work) -> str:
    return work.long(work.bellows.valley_pitch)


def _glued(work: Work) -> str:
    return work.long(work.bellows.gluing_distance)

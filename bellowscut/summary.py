"""The summary: for the bench as text, for programs as JSON, and the cut list as CSV."""

from __future__ import annotations

import csv
import io
import json
import math
import textwrap
from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from statistics import median
from typing import Any

from bellowscut import __version__
from bellowscut.advice import Note, advice, cautions, not_made
from bellowscut.bellows import Bellows
from bellowscut.drawing import Line
from bellowscut.estimate import Estimate
from bellowscut.job_book import guarded
from bellowscut.lettering import tied, untied
from bellowscut.materials import Material
from bellowscut.old_card import apart
from bellowscut.parts import Part
from bellowscut.parts.part import listed
from bellowscut.schema import Readings
from bellowscut.shapes import bounds
from bellowscut.sources import RULE
from bellowscut.units import MM2_PER_DM2, MM2_PER_SQ_FT, Rule, angle_told, plain_number
from bellowscut.words import count, estimate as prices, say, summary as words

WIDTH = 78
"""Characters in a line of the text [-]."""

Lines = Iterator[tuple[str, str]]
"""Lines of the text, each with what it is: heading, warning or text."""


def as_text(lines: Lines) -> str:
    """The lines as one plain text, ending in a line feed."""
    return "\n".join(text for _, text in lines) + "\n"


def lines(
    bellows: Bellows,
    job: str,
    parts: Sequence[Part],
    estimate: Estimate,
    notes: Sequence[Note],
    *,
    mirror: bool = False,
    machine: bool = False,
) -> Lines:
    """The whole summary for the bench, warnings first.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    job : str
        A key of `bellowscut.parts.JOBS`.
    parts : sequence of Part
        What the job makes.
    estimate : Estimate
        Material and money.
    notes : sequence of Note
        Warnings.
    mirror : bool
        Whether leather is drawn from its grain side.
    machine : bool
        Whether drawings for a machine lie beside it.

    Yields
    ------
    tuple of str
        What the line is (``heading``, ``warning`` or ``text``) and the line itself.
    """
    yield from opening_lines(bellows, notes)
    yield from size_lines(bellows)
    yield from part_lines(parts)
    yield from not_made_lines(bellows, job)
    yield from material_lines(estimate)
    yield from bullets(say(words.ALWAYS), advice(bellows, job, mirror=mirror))
    found = cautions(job, machine=machine)
    yield from bullets(say(words.TAKE_CARE), tuple(say(one.text) for one in found if not one.machine))
    if machine:
        yield from bullets(say(words.IF_A_MACHINE), tuple(say(one.text) for one in found if one.machine))


def opening_lines(bellows: Bellows, notes: Sequence[Note]) -> Lines:
    """Name, fingerprint and warnings."""
    profile = bellows.profile
    yield from folded("heading", profile.name if profile.copies == 1 else say(words.COPIES, name=profile.name, copies=profile.copies))
    yield "text", say(words.PATTERN, fingerprint=profile.fingerprint, version=__version__)
    if notes:
        yield "text", ""
        yield "heading", count(len(notes), words.LOOK_AT_THIS, words.LOOK_AT_THESE)
        for note in notes:
            yield from _bullet("warning", note.text)


def size_lines(bellows: Bellows) -> Lines:
    """Everything measured or worked out, in mm and inches."""
    section, rule = bellows.section, bellows.rule
    yield "text", ""
    yield "heading", say(words.SIZES)
    sides_and_folds = say(words.SIDES_AND_FOLDS_LINE, sides=section.count, folds=bellows.folds, cards=bellows.cards_per_side)
    yield from row(say(words.SIDES_AND_FOLDS), sides_and_folds)
    flats = section.flats
    if flats is not None and max(flats) - min(flats) < 1e-6:
        yield from row(say(words.FRAME_FLATS), rule.both(flats[0]))
    yield from row(say(words.FRAME_SIDES), _sizes(section.frame_sides, rule))
    yield from row(say(words.RIDGE_LINES), _sizes(section.sides, rule))
    for packing in section.packing:
        end = say(words.WHICH_END[packing.end])
        yield from row(say(words.PACK, end=end), say(words.PACK_LINE, side=packing.side, mm=rule.fine(packing.mm)))
    yield from row(say(words.FOLD_DEPTH), rule.both(bellows.depth))
    yield from row(say(words.STRETCH), say(words.DEGREES, degrees=angle_told(bellows.stretch)))
    own = bellows.profile.gusset.use
    if own is not None:
        opens = angle_told(bellows.stretch)
        yield from row(
            say(words.OWN_GUSSET), say(words.OWN_GUSSET_LINE, width=rule.bare(own[0]), length=rule.length(own[1]), degrees=opens)
        )
    gap_and_relief = say(words.GAP_AND_RELIEF_LINE, gap=rule.fine(bellows.corner_gap), relief=angle_told(bellows.relief))
    yield from row(say(words.GAP_AND_RELIEF), gap_and_relief)
    yield from _old_card_lines(bellows)
    yield "text", ""
    yield "heading", say(words.ON_THE_BENCH)
    gluing = say(words.GLUING_DISTANCE_LINE, length=rule.both(bellows.gluing_distance), slope=angle_told(bellows.form_slope))
    yield from row(say(words.GLUING_DISTANCE), gluing)
    yield from row(say(words.VALLEY_TO_VALLEY), rule.both(bellows.valley_pitch))
    closed = say(words.CLOSED_LENGTH_LINE, length=rule.both(bellows.closed_length), place=say(words.PLACES[bellows.stack.governs]))
    yield from row(say(words.CLOSED_LENGTH), closed)
    yield from row(say(words.OPEN_LENGTH), rule.both(bellows.open_length))
    yield from row(say(words.TRAVEL), rule.both(bellows.travel))
    yield from row(say(words.INSIDE_CLOSED), rule.both(bellows.inside_opening))
    yield from row(say(words.AIR_MOVED), say(words.AIR_MOVED_LINE, volume=f"{bellows.air_moved:.0f}"))
    yield from row(say(words.GUSSET_WIDTH), say(words.GUSSET_WIDTH_LINE, mm=Rule().length(bellows.length_per_mm_of_gusset)))


def _old_card_lines(bellows: Bellows) -> Lines:
    """What was read off an old card, and what came of it."""
    readings, card = bellows.profile.readings, bellows.old_card
    for key, label in words.READ.items():
        found: Readings | None = getattr(readings, key)
        if found is not None:
            sides = (("", found.any_side), *found.by_side)
            shown = bellows.rule.fine if key == "glue_shadow" else bellows.rule.both
            told = [f"{side} {_read(values, bellows.rule, shown)}".strip() for side, values in sides if values]
            if key == "glue_shadow":
                told.append(say(words.SHADOW_IS_LAP, lap=bellows.rule.fine(bellows.profile.gusset.lap)))
            yield from row(say(label), ", ".join(told))
    leans = [f"{one.side} {angle_told(one.lean)}".strip() for one in card.cards if one.lean is not None]
    if card.relief is not None:
        text = say(words.LEGS_LEAN_LINE, leans=", ".join(leans), relief=angle_told(card.relief), either_way=angle_told(card.either_way))
        yield from row(say(words.LEGS_LEAN), text)


def _read(values: Sequence[float], rule: Rule, shown: Callable[[float], str]) -> str:
    """Readings of one size at one side: the middle one, and how far the others lie from it."""
    middle = shown(median(values))
    if len(values) == 1:
        return middle
    least, most = (rule.bare(pick(values)) for pick in (min, max))
    return say(words.MIDDLE_OF, middle=middle, number=len(values), least=least, most=most)


def part_lines(parts: Sequence[Part]) -> Lines:
    """What to cut: counts, spares, sizes, materials."""
    yield "text", ""
    yield "heading", say(words.TO_CUT)
    rows = []
    for part in parts:
        left, low, right, high = bounds(part.points)
        spare = f"+ {part.spare}" if part.spare else ""
        rows.append(
            (
                str(part.count),
                spare,
                part.name,
                say(words.PIECE_SIZE, width=f"{right - left:.1f}", height=f"{high - low:.1f}"),
                part.material,
            )
        )
    count, spare_width, size = (max((len(row[i]) for row in rows), default=0) for i in (0, 1, 3))
    room = WIDTH - count - spare_width - size - max((len(row[4]) for row in rows), default=0) - 8
    for row in rows:
        name = row[2] if len(row[2]) <= room else row[2][: max(room - 3, 8)] + "..."
        yield "text", f"  {row[0]:>{count}} {row[1]:<{spare_width}}  {name:<{max(room, 11)}} {row[3]:>{size}}  {row[4]}".rstrip()


def not_made_lines(bellows: Bellows, job: str) -> Lines:
    """What nobody asked for, where something is left out."""
    told = not_made(bellows, job)
    if told:
        yield from folded("text", told, "  ")


def material_lines(estimate: Estimate) -> Lines:
    """Leather and other materials, skins to buy, cost."""
    yield "text", ""
    yield "heading", say(words.MATERIAL)
    for need in estimate.needs:
        cost = say(prices.NO_PRICE) if need.cost is None else f"{need.cost} {estimate.currency}"
        yield from row(need.material.name, say(prices.NET, area=_area(need.net_area)))
        what = prices.USED_UP if need.basis == "layout" else prices.TO_BUY
        pieces = piece_name(need.material, need.pieces)
        yield from row("", say(what, area=_area(need.gross_area), number=need.pieces, pieces=pieces, cost=cost))
    by_layout = any(need.basis == "layout" for need in estimate.needs)
    if estimate.leather_net:
        what = prices.ALL_USED_UP if by_layout else prices.ALL_TO_BUY
        yield from row(say(prices.ALL_LEATHER), say(what, net=_area(estimate.leather_net), gross=_area(estimate.leather_gross)))
    if estimate.gasket_length:
        yield from row(say(prices.GASKET), say(prices.IN_ALL, length=Rule().both(estimate.gasket_length)))
    yield from row(say(prices.RECKONED_BY), _reckoned_by(estimate))
    yield from _price_lines(estimate)


def _reckoned_by(estimate: Estimate) -> str:
    if all(need.basis == "layout" for need in estimate.needs):
        return say(prices.BY_LAYOUT)
    taught = [need.material.name for need in estimate.needs if need.basis == "job book"]
    return say(prices.BY_BOOK, names=listed(taught)) if taught else say(prices.BY_AREA)


def _price_lines(estimate: Estimate) -> Lines:
    """Work, and what comes on top, down to the total; lines of nothing are left out."""

    def money(amount: Decimal) -> str:
        return f"{amount} {estimate.currency}"

    if estimate.labour is not None:
        yield from row(say(prices.LABOUR), work_words(estimate, money(estimate.labour)))
    price = estimate.price
    if price is not None:
        if price.margin:
            yield from row(
                say(prices.MARGIN), say(prices.MARGIN_LINE, amount=money(price.margin), share=plain_number(estimate.costs.margin))
            )
        if price.to_minimum:
            yield from row(say(prices.LEAST), money(price.to_minimum))
        if price.tax:
            yield from row(say(prices.TAX), say(prices.TAX_LINE, amount=money(price.tax), share=plain_number(estimate.costs.tax)))
    total = say(prices.NOT_KNOWN) if price is None else money(price.total)
    yield from row(say(prices.TOTAL if estimate.labour is not None else prices.TOTAL_MATERIALS), total)


def work_words(estimate: Estimate, amount: str) -> str:
    """What the work comes to, its hours, and where its minutes come from."""
    hours = f"{estimate.minutes / 60:.1f}"
    learned = sum(step.learned > 0 for step in estimate.steps)
    if learned:
        return say(prices.LABOUR_LEARNED, amount=amount, hours=hours, learned=learned, steps=len(estimate.steps))
    return say(prices.LABOUR_OWN if estimate.own_minutes else prices.LABOUR_INVENTED, amount=amount, hours=hours)


def piece_name(material: Material, pieces: int) -> str:
    """What a material is bought in, for so many of them."""
    return count(pieces, *prices.PIECES[material.form])


def as_json(bellows: Bellows, parts: Sequence[Part], estimate: Estimate, notes: Sequence[Note]) -> bytes:
    """The summary for programs; lengths in mm, areas in mm^2, angles in degrees."""
    section, stack = bellows.section, bellows.stack
    profile = bellows.profile
    price = estimate.price
    document = {
        "format": 1,
        "units": "mm",
        "name": profile.name,
        "fingerprint": profile.fingerprint,
        "version": __version__,
        "section": {
            "frame": _points(section.frame),
            "corners": _points(section.ridge),
            "flats": None if section.flats is None else [_number(flat) for flat in section.flats],
            "misfit": _number(section.misfit),
            "packing": [{"end": packing.end, "side": packing.side, "mm": _number(packing.mm)} for packing in section.packing],
        },
        "derived": {
            "cards_per_side": bellows.cards_per_side,
            "valleys": bellows.valleys,
            "stretch": _number(bellows.stretch),
            "gusset_stretch": _number(bellows.stretch),
            "form_slope": _number(bellows.form_slope),
            "corner_gap": _number(bellows.corner_gap),
            "relief": _number(bellows.relief),
            "ridge_gap": _number(bellows.ridge_gap),
            "valley_gap": _number(bellows.valley_gap),
            "depth_limit": _number(bellows.depth_limit()),
            "travel": _number(bellows.travel),
            "open_length": _number(bellows.open_length),
            "closed_length": _number(bellows.closed_length),
            "governs": stack.governs,
            "stack": {place: _number(getattr(stack, place)) for place in ("face", "valley", "ridge", "corner")},
            "gluing_distance": _number(bellows.gluing_distance),
            "valley_pitch": _number(bellows.valley_pitch),
            "excess_on_form": _number(bellows.excess_on_form),
            "length_per_mm_of_gusset": _number(bellows.length_per_mm_of_gusset),
            "closed_gap": _number(bellows.closed_gap),
            "inside_opening": _number(bellows.inside_opening),
            "air_moved_cm3": _number(bellows.air_moved),
        },
        **_readings(bellows),
        "parts": [_part(part) for part in parts],
        "materials": [
            {
                "name": need.material.name,
                "net_area": _number(need.net_area),
                "gross_area": _number(need.gross_area),
                "pieces": need.pieces,
                "basis": need.basis,
                "cost": _money(need.cost),
            }
            for need in estimate.needs
        ],
        "gasket_length": _number(estimate.gasket_length),
        "cost": {
            "currency": estimate.currency,
            "materials": _money(estimate.materials_cost),
            "labour": _money(estimate.labour),
            "margin": _money(None if price is None else price.margin),
            "to_minimum_charge": _money(None if price is None else price.to_minimum),
            "tax": _money(None if price is None else price.tax),
            "total": _money(estimate.total),
        },
        "work": [
            {
                "operation": step.operation.key,
                "pieces": step.number,
                "minutes": _number(float(step.minutes)),
                "learned_from": step.learned,
            }
            for step in estimate.steps
        ],
        "warnings": [{"code": note.code, "text": note.text} for note in notes],
    }
    return (json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False) + "\n").encode()


READING_DEVIATION = RULE.value / math.sqrt(12)
"""Standard deviation of one reading of a rule, all lengths between its marks being alike likely [mm]."""


def _readings(bellows: Bellows) -> dict[str, Any]:
    """What was read off the old bellows, what was made of it, and how far each reading lies from that; empty where nothing was."""
    profile, card = bellows.profile, bellows.old_card
    read = {key: found for key in words.READ if (found := getattr(profile.readings, key)) is not None}
    if not read:
        return {}
    first = bellows.corners[0]
    fitted: dict[str, Any] = {}
    if card.relief is not None:
        per_mm = math.degrees(math.cos(first.lean) ** 2 / (2 * bellows.depth))
        fitted["relief"] = {"value": _number(bellows.relief), "spread": _number(math.sqrt(2) * READING_DEVIATION * per_mm)}
    if card.gap is not None and card.fits_the_end:
        spread = READING_DEVIATION * math.cos(first.half_turn)
        fitted["corner_gap"] = {"value": _number(bellows.corner_gap), "spread": _number(spread)}
    if "glue_shadow" in read:
        fitted["gusset_lap"] = {"value": _number(profile.gusset.lap), "spread": _number(READING_DEVIATION)}
    return {
        "readings": {
            "fitted": fitted,
            "misfits": [
                {
                    "key": f"readings.{key}",
                    **({"side": side} if side else {}),
                    "value": _number(value),
                    "misfit": _number(value - _fitted(bellows, key, side)),
                    "wild": bool(apart((value, median(values)))),
                }
                for key, found in read.items()
                for side, values in (("", found.any_side), *found.by_side)
                for value in values
            ],
        }
    }


def _fitted(bellows: Bellows, key: str, side: str) -> float:
    """What the bellows has where a size was read [mm]; of a card of any side, the mean."""
    if key == "glue_shadow":
        return bellows.profile.gusset.lap
    at = bellows.depth if key == "valley_edge" else 0.0
    names = bellows.section.side_names
    widths = [bellows.card_width(i, at) for i in range(len(names)) if side in ("", names[i])]
    return sum(widths) / len(widths)


def as_csv(parts: Sequence[Part]) -> bytes:
    """The cut list, one row for each distinct part; sizes in mm, areas in mm^2."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(
        (
            "id",
            "kind",
            "name",
            "material",
            "count",
            "spare",
            "sides",
            "corners",
            "width_mm",
            "height_mm",
            "area_mm2",
            "grain_deg",
            "face_drawn",
            "note",
        )
    )
    for part in parts:
        left, low, right, high = bounds(part.points)
        writer.writerow(
            (
                *map(guarded, (part.id, part.kind, part.name, part.material)),
                part.count,
                part.spare,
                *map(guarded, (" ".join(part.sides), " ".join(part.corners))),
                f"{right - left:.3f}",
                f"{high - low:.3f}",
                f"{part.area:.2f}",
                f"{part.grain:g}",
                *map(guarded, (part.side, part.note)),
            )
        )
    return text.getvalue().encode("utf-8")


def _part(part: Part) -> dict[str, Any]:
    places: dict[str, Any] = {}
    if part.sides:
        places["sides"] = list(part.sides)
    if part.corners:
        places["corners"] = list(part.corners)
    back = {"back": [_line(line) for line in part.back]} if part.back else {}
    return {
        "id": part.id,
        "kind": part.kind,
        "name": part.name,
        "material": part.material,
        "count": part.count,
        "spare": part.spare,
        **places,
        "side": part.side,
        "outline": _points(part.points),
        "area": _number(part.area),
        "lines": [_line(line) for line in part.lines],
        **back,
        "grain": part.grain,
    }


def _line(line: Line) -> dict[str, Any]:
    return {"role": line.role.value, "points": _points(line.points)}


def _number(value: float) -> float:
    return round(value, 5) + 0.0


def _points(points: Sequence[tuple[float, float]]) -> list[list[float]]:
    return [[_number(x), _number(y)] for x, y in points]


def _money(amount: Decimal | None) -> float | None:
    return None if amount is None else float(amount)


def _area(mm2: float) -> str:
    return say(words.AREA, dm2=f"{mm2 / MM2_PER_DM2:.2f}", feet=f"{mm2 / MM2_PER_SQ_FT:.2f}")


def _sizes(lengths: Sequence[float], rule: Rule) -> str:
    """Lengths with their side letters, or once when all are alike."""
    from bellowscut.section import side_name

    if max(lengths) - min(lengths) < 0.005:
        return rule.both(lengths[0])
    return say(
        words.SIDE_LENGTHS, lengths=", ".join(f"{side_name(i)} {rule.bare(length)}" for i, length in enumerate(lengths)), unit=rule.unit
    )


LABEL = 24
"""Characters of the left column [-]."""


def row(label: str, text: str) -> Lines:
    """A label in the left column and its text beside it."""
    yield from folded("text", text, f"  {label:<{LABEL - 2}}", " " * LABEL)


def _bullet(kind: str, text: str) -> Lines:
    yield from folded(kind, text, "  - ", "    ")


def bullets(heading: str, texts: Sequence[str], kind: str = "text") -> Lines:
    """A heading and a list under it."""
    yield "text", ""
    yield "heading", heading
    for text in texts:
        yield from _bullet(kind, text)


def folded(kind: str, text: str, first: str = "", rest: str | None = None) -> Lines:
    """A text broken over lines of `WIDTH` characters; `rest` stands before every line but the first, `first` where None."""
    after = first if rest is None else rest
    for line in textwrap.wrap(tied(text), WIDTH, initial_indent=first, subsequent_indent=after, break_on_hyphens=False) or [""]:
        yield kind, untied(line)

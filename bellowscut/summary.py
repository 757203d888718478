"""The summary: for the bench as text, for programs as JSON, and the cut list as CSV."""

from __future__ import annotations

import csv
import io
import json
import textwrap
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Any

from bellowscut import __version__
from bellowscut.advice import CAUTIONS, ENDS, Note, advice
from bellowscut.bellows import Bellows
from bellowscut.drawing import Line
from bellowscut.estimate import Estimate
from bellowscut.materials import Material
from bellowscut.parts import Part
from bellowscut.shapes import bounds
from bellowscut.units import MM2_PER_DM2, MM2_PER_SQ_FT, both

WIDTH = 78
"""Characters in a line of the text [-]."""

Lines = Iterator[tuple[str, str]]
"""Lines of the text, each with what it is: heading, warning or text."""


def as_text(lines: Lines) -> str:
    """The lines as one plain text, ending in a line feed."""
    return "\n".join(text for _, text in lines) + "\n"


def lines(bellows: Bellows, parts: Sequence[Part], estimate: Estimate, notes: Sequence[Note], *, mirror: bool = False) -> Lines:
    """The whole summary for the bench, warnings first.

    Yields
    ------
    tuple of str
        What the line is (``heading``, ``warning`` or ``text``) and the line itself.
    """
    yield from opening_lines(bellows, notes)
    yield from size_lines(bellows)
    yield from part_lines(parts)
    yield from material_lines(estimate)
    yield from bullets("Always", advice(bellows, mirror=mirror))
    yield from bullets("Take care", CAUTIONS)


def opening_lines(bellows: Bellows, notes: Sequence[Note]) -> Lines:
    """Name, fingerprint and warnings."""
    profile = bellows.profile
    copies = f", {profile.copies} copies" if profile.copies > 1 else ""
    yield from _fold("heading", profile.name + copies)
    yield "text", f"pattern {profile.fingerprint}, bellowscut {__version__}"
    if notes:
        yield "text", ""
        yield "heading", "Look at this first" if len(notes) == 1 else f"Look at these {len(notes)} first"
        for note in notes:
            yield from _bullet("warning", note.text)


def size_lines(bellows: Bellows) -> Lines:
    """Everything measured or worked out, in mm and inches."""
    section = bellows.section
    yield "text", ""
    yield "heading", "Sizes"
    yield from row("sides, folds", f"{section.count} sides, {bellows.folds} folds, {bellows.cards_per_side} cards down each side")
    flats = section.flats
    if flats is not None and max(flats) - min(flats) < 1e-6:
        yield from row("frame across flats", both(flats[0]))
    yield from row("frame sides", _sizes(section.frame_sides))
    yield from row("ridge lines", _sizes(section.sides))
    for packing in section.packing:
        yield from row(f"pack, {ENDS[packing.end]}", f"side {packing.side} of the frame: {packing.mm:.2f} mm")
    yield from row("fold depth", both(bellows.depth))
    yield from row("stretch", f"{bellows.stretch:.1f} degrees")
    own = bellows.profile.gusset.use
    if own is not None:
        yield from row("own gusset", f"{own[0]:g} x {own[1]:g} mm, lets the cards open to {bellows.gusset_stretch:.1f} degrees")
    yield from row("corner gap, relief", f"{bellows.corner_gap:.2f} mm, {bellows.relief:.1f} degrees")
    yield "text", ""
    yield "heading", "On the bench"
    yield from row(
        "gluing distance", f"{both(round(bellows.gluing_distance, 1))} between the frames, form at {bellows.form_slope:.1f} degrees"
    )
    yield from row("valley to valley", both(round(bellows.valley_pitch, 1)))
    yield from row("closed length", f"{both(round(bellows.closed_length, 1))}; the {bellows.stack.governs} governs")
    yield from row("open length", both(round(bellows.open_length, 1)))
    yield from row("travel", both(round(bellows.travel, 1)))
    yield from row("inside, closed", both(round(bellows.inside_opening, 1)))
    yield from row("air moved", f"{bellows.air_moved:.0f} cm3, to one per cent")
    yield from row("1 mm of gusset width", f"is worth {bellows.length_per_mm_of_gusset:.1f} mm of length")


def part_lines(parts: Sequence[Part]) -> Lines:
    """What to cut: counts, spares, sizes, materials."""
    yield "text", ""
    yield "heading", "To cut"
    rows = []
    for part in parts:
        left, low, right, high = bounds(part.points)
        spare = f"+ {part.spare}" if part.spare else ""
        rows.append((str(part.count), spare, part.name, f"{right - left:.1f} x {high - low:.1f} mm", part.material))
    count, spare_width, size = (max((len(row[i]) for row in rows), default=0) for i in (0, 1, 3))
    room = WIDTH - count - spare_width - size - max((len(row[4]) for row in rows), default=0) - 8
    for row in rows:
        name = row[2] if len(row[2]) <= room else row[2][: max(room - 3, 8)] + "..."
        yield "text", f"  {row[0]:>{count}} {row[1]:<{spare_width}}  {name:<{max(room, 11)}} {row[3]:>{size}}  {row[4]}".rstrip()


def material_lines(estimate: Estimate) -> Lines:
    """Leather and other materials, skins to buy, cost."""
    yield "text", ""
    yield "heading", "Material"
    for need in estimate.needs:
        cost = "no price" if need.cost is None else f"{need.cost} {estimate.currency}"
        yield from row(need.material.name, f"{_area(need.net_area)} net")
        what = "used up of" if need.basis == "layout" else "to buy:"
        yield from row("", f"{_area(need.gross_area)} {what} {need.pieces} {piece_name(need.material, need.pieces)}, {cost}")
    if estimate.leather_net:
        how = "used up" if any(need.basis == "layout" for need in estimate.needs) else "to buy"
        yield from row("all leather", f"{_area(estimate.leather_net)} net, {_area(estimate.leather_gross)} {how}")
    if estimate.gasket_length:
        yield from row("gasket", f"{both(round(estimate.gasket_length))} in all")
    by_layout = all(need.basis == "layout" for need in estimate.needs)
    yield from row("reckoned by", "the layout" if by_layout else "area, with each material's waste and grade")
    if estimate.labour is not None:
        yield from row(
            "labour", f"{estimate.labour} {estimate.currency} for {estimate.minutes / 60:.1f} hours (invented minutes: put your own)"
        )
    total = "not known: a price is missing" if estimate.total is None else f"{estimate.total} {estimate.currency}"
    yield from row("total" if estimate.labour is not None else "total, materials", total)


def piece_name(material: Material, pieces: int) -> str:
    """What a material is bought in, for so many of them."""
    return {"skin": "skin", "sheet": "sheet", "roll": "metre"}[material.form] + ("" if pieces == 1 else "s")


def as_json(bellows: Bellows, parts: Sequence[Part], estimate: Estimate, notes: Sequence[Note]) -> bytes:
    """The summary for programs; lengths in mm, areas in mm^2, angles in degrees."""
    section, stack = bellows.section, bellows.stack
    profile = bellows.profile
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
            "gusset_stretch": _number(bellows.gusset_stretch),
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
            "total": _money(estimate.total),
        },
        "warnings": [{"code": note.code, "text": note.text} for note in notes],
    }
    return (json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False) + "\n").encode()


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
                part.id,
                part.kind,
                part.name,
                _cell(part.material),
                part.count,
                part.spare,
                " ".join(part.sides),
                " ".join(part.corners),
                f"{right - left:.3f}",
                f"{high - low:.3f}",
                f"{part.area:.2f}",
                f"{part.grain:g}",
                part.side,
                part.note,
            )
        )
    return text.getvalue().encode("utf-8")


def _cell(text: str) -> str:
    """Text that no spreadsheet takes for a formula."""
    return "'" + text if text[:1] in ("=", "+", "-", "@") else text


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
    return f"{mm2 / MM2_PER_DM2:.2f} dm2 ({mm2 / MM2_PER_SQ_FT:.2f} sq ft)"


def _sizes(lengths: Sequence[float]) -> str:
    """Lengths with their side letters, or once when all are alike."""
    from bellowscut.section import side_name

    if max(lengths) - min(lengths) < 0.005:
        return both(round(lengths[0], 2))
    return ", ".join(f"{side_name(i)} {length:.2f}" for i, length in enumerate(lengths)) + " mm"


LABEL = 24
"""Characters of the left column [-]."""


def row(label: str, text: str) -> Lines:
    """A label in the left column and its text beside it."""
    yield from _fold("text", text, f"  {label:<{LABEL - 2}}", " " * LABEL)


def _bullet(kind: str, text: str) -> Lines:
    yield from _fold(kind, text, "  - ", "    ")


def bullets(heading: str, texts: Sequence[str], kind: str = "text") -> Lines:
    """A heading and a list under it."""
    yield "text", ""
    yield "heading", heading
    for text in texts:
        yield from _bullet(kind, text)


def _fold(kind: str, text: str, first: str = "", rest: str = "") -> Lines:
    for line in textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False) or [""]:
        yield kind, line

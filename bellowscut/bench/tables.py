"""The tables of a work sheet as rows of words: what lies ready, what is pared, what is measured before and after."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bellowscut.advice import not_made
from bellowscut.bench.corners import kind_name
from bellowscut.bench.work import Work, joined, size
from bellowscut.labour import COVERS, GUSSETS
from bellowscut.parts.part import Part, counted, listed
from bellowscut.sources import BEVEL_LEAST, BEVEL_MOST
from bellowscut.words import say, work_sheet as words

Row = tuple[str, ...]


@dataclass(frozen=True)
class Table:
    """Rows under headings.

    Parameters
    ----------
    title : str
        What it is.
    head : tuple of str
        Headings of the columns.
    rows : tuple of Row
        As many cells as headings; an empty cell of a column in `blank` is written into.
    note : str
        What to know, under the table.
    blank : tuple of int
        Columns that are filled in by hand.
    """

    title: str
    head: Row
    rows: tuple[Row, ...]
    note: str = ""
    blank: tuple[int, ...] = ()


def measured(work: Work) -> Table:
    """Lengths and air before and after, with what is reckoned."""
    bellows = work.bellows
    old = bellows.profile.bellows.old_closed_length
    rows = (
        (say(words.CLOSED), "" if old is None else work.rule.bare(old), work.rule.bare(bellows.closed_length), ""),
        (say(words.OPEN), "", work.rule.bare(bellows.open_length), ""),
        (say(words.AIR), "", "\u2013", ""),
    )
    note = (words.BETWEEN, words.BETWEEN_TWO, words.BETWEEN_COPIES)[min(work.copies, 3) - 1]
    return Table(say(words.MEASURED), _said(words.MEASURED_HEAD), rows, say(note, copies=work.copies), blank=(1, 3))


def ready(work: Work) -> Table:
    """What lies ready: pieces by kind with counts, sizes and materials."""
    groups: dict[tuple[str, str], list[Part]] = {}
    for part in work.parts:
        groups.setdefault((kind_name(part), part.material), []).append(part)
    rows = []
    for (name, material), parts in groups.items():
        number, spare = sum(part.count for part in parts), sum(part.spare for part in parts)
        if len(parts) == 1:
            wide, length = size(parts[0])
            of = say(words.SIZE, width=work.rule.bare(wide), height=work.rule.bare(length))
        else:
            of = say(words.SORTS, number=len(parts))
        stuff = say(words.OF_MATERIAL, material=material, size=work.thickness(material))
        rows.append((name, counted(number, spare), of, stuff, _places(parts)))
    gasket = work.gasket
    if gasket is not None:
        length = work.gasket_length
        rows.append(
            (
                say(words.GASKET, width=work.rule.bare_fine(gasket.width)),
                "",
                say(words.GASKET_LENGTH, length=work.rule.bare(length)),
                say(words.OF_MATERIAL, material=gasket.material, size=work.thickness(gasket.material)),
                "",
            )
        )
    note = say(words.TOOLS[work.job])
    if any(part.spare for part in work.parts):
        note = f"{say(words.SPARE_NOTE)} {note}"
    note = joined(note, not_made(work.bellows, work.job))
    head = words.READY_HEAD_SORTS if any(row[4] for row in rows) else words.READY_HEAD
    return Table(say(words.READY), _said(head), tuple(rows), note)


def _places(parts: Sequence[Part]) -> str:
    """Where each shape of a kind belongs; empty where there is but one."""
    if len(parts) == 1:
        return ""
    names = [listed(part.sides or part.corners) for part in parts]
    each = {part.counted for part in parts}
    apart = tuple(dict.fromkeys(names))
    if len(each) > 1:
        told = zip(names, parts, strict=True)
        return "; ".join(say(words.PLACE_PIECES, place=name, pieces=part.counted) for name, part in told)
    template = words.BOTH_HANDS if len(apart) < len(parts) else words.PLACES_EACH
    return say(template, list="; ".join(apart), pieces=each.pop())


def skived(work: Work) -> Table:
    """Every edge that is pared: of what, how wide, down to what, and room for the gauge."""
    rows = tuple((*row, "") for row in _skived(work))
    note = say(words.GAUGE) if work.of(*GUSSETS) else ""
    return Table(say(words.SKIVE), _said(words.SKIVE_HEAD), rows, note, (5,))


def _skived(work: Work) -> Iterator[Row]:
    profile = work.bellows.profile
    bevel = say(words.BEVEL, least=work.rule.bare_fine(BEVEL_LEAST.value), most=work.rule.bare_fine(BEVEL_MOST.value))
    gussets = work.of(*GUSSETS)
    if gussets:
        spec = profile.gusset
        name = say(words.GUSSETS_ALL) if len({part.kind for part in gussets}) > 1 else kind_name(gussets[0])
        if spec.skive is None:
            edge = say(words.LONG_FROM_CARD)
            wide = (
                work.rule.bare_fine(spec.lap)
                if spec.lap == spec.tip_lap
                else say(words.WIDTH_TAPER, lap=work.rule.bare_fine(spec.lap), tip=work.rule.bare_fine(spec.tip_lap))
            )
        else:
            edge, wide = say(words.LONG_FROM_CUT), work.rule.bare_fine(spec.skive)
        yield name, _leather(work, spec.material), edge, wide, work.rule.bare_fine(spec.feather)
    for part in work.of(*COVERS)[:1]:
        yield say(words.KINDS[part.kind]), _leather(work, part.material), say(words.ALL_ROUND), bevel, say(words.AS_THIN)
    for kind, strip in (("edge-strip", profile.edge_strip), ("end-strip", profile.end_strip)):
        if work.of(kind):
            name, leather = say(words.KINDS[kind]), _leather(work, strip.material)
            yield name, leather, say(words.LONG_EDGES), work.rule.bare_fine(strip.skive), work.rule.bare_fine(strip.feather)
            yield name, leather, say(words.ENDS_OF_STRIP), work.rule.bare_fine(strip.joint), work.rule.bare_fine(strip.feather)
    for kind in ("valley-strip", "corner-patch"):
        for part in work.of(kind)[:1]:
            if work.bellows.material(part.material).form == "skin":
                edge = say(words.LONG_EDGES if kind == "valley-strip" else words.ALL_ROUND)
                yield say(words.KINDS[kind]), _leather(work, part.material), edge, bevel, say(words.AS_THIN)


def _leather(work: Work, material: str) -> str:
    return say(words.OF_MATERIAL, material=material, size=work.thickness(material))


def _said(head: tuple[str, ...]) -> Row:
    return tuple(say(text) if text else "" for text in head)

"""Strips, cloth, papers, pressing, tests and assembly: what the last steps of a job say."""

from __future__ import annotations

from collections.abc import Iterator

from bellowscut.bench.work import Manner, Told, Work, beware, size, sorts, to_test
from bellowscut.materials import SKIN
from bellowscut.parts.edge_strip import darts
from bellowscut.parts.part import Part, listed
from bellowscut.sources import STRIP_LONGER
from bellowscut.words import say, work_sheet as words

ROOM_BESIDE = 10.0
"""Bare strip left beside the outermost of stepped joints, so that none reaches a corner [mm], from memory."""


def cut_strips(work: Work) -> Iterator[Told]:
    """Edge and end strips cut and pared."""
    edge, end = work.bellows.profile.edge_strip, work.bellows.profile.end_strip
    yield beware(say(words.PULL_BOTH_WAYS))
    edges = work.of("edge-strip")
    if edges:
        wide = work.long(size(edges[0])[0])
        number, material = work.count("edge-strip"), edges[0].material
        if edge.run == "per-side":
            template, lengths = words.STRIPS_EDGE_SIDES, _lengths(work, edges)
        else:
            template, lengths = words.STRIPS_EDGE, ""
        yield Told(
            say(
                template,
                number=number,
                width=wide,
                length=work.long(size(edges[0])[1]),
                lengths=lengths,
                unit=work.rule.unit,
                material=material,
                size=work.thickness(material),
            )
        )
    for part in work.of("end-strip"):
        wide_, length = size(part)
        yield Told(say(words.STRIPS_END, number=part.count, width=work.long(wide_), length=work.long(length)))
    yield Told(say(words.STRIPS_LONG, size=work.short(STRIP_LONGER.value)))
    yield _skived(work)
    alike = edge.joint == end.joint
    yield Told(say(words.STRIPS_ENDS_ALIKE if alike else words.STRIPS_ENDS, edge=work.short(edge.joint), end=work.short(end.joint)))
    if _notched(work):
        yield Told(say(words.STRIPS_DARTS))


def _notched(work: Work) -> bool:
    return any(dart.half_width for dart in darts(work.bellows))


def edge_strips(work: Work) -> Iterator[Told]:
    """Strips over the ridges, corners, joints."""
    spec = work.bellows.profile.edge_strip
    if work.job == "rebellows":
        yield to_test(say(words.CLOSES))
    if spec.run == "per-side":
        yield Told(say(words.EDGE_PER_SIDE, lap=work.short(spec.lap), joint=work.short(spec.joint)))
        if work.bellows.folds > 1:
            yield Told(say(words.EDGE_PER_SIDE_STEP))
    else:
        yield Told(say(words.EDGE_RIGHT_ROUND, lap=work.short(spec.lap)))
    yield Told(say(words.EDGE_CORNERS_DARTS if _notched(work) else words.EDGE_CORNERS))
    if spec.run != "per-side":
        yield Told(joints(work))
    patch = work.bellows.profile.corner_patch
    if patch is not None and work.of("corner-patch"):
        yield Told(say(words.PATCHES_LAY_LAST, number=work.count("corner-patch"), width=work.short(patch.width / 2)))


def joints(work: Work) -> str:
    """Where the joints of the edge strips sit: stepped, so that no two thick places of neighbours lie on each other."""
    bellows = work.bellows
    folds, joint = bellows.folds, bellows.profile.edge_strip.joint
    if folds == 1:
        return say(words.JOINT_ONE)
    names = bellows.section.side_names
    if bellows.section.sides[0] < 3 * joint + ROOM_BESIDE:
        places = [say(words.JOINT_ON_SIDE, side=names[i], ridge=ridge) for ridge, i in enumerate((0, 1, -1)[:folds], 1)]
        return say(words.JOINT_SIDES, list=listed(places))
    places = [
        say(words.JOINT_TOWARDS, ridge=1, size=work.short(joint), side=names[-1]),
        say(words.JOINT_MIDDLE, ridge=2),
        say(words.JOINT_TOWARDS, ridge=3, size=work.short(joint), side=names[1]),
    ]
    return say(words.JOINT_STEPPED if folds > 3 else words.JOINT_FEW, list=listed(places[:folds]))


def end_strips(work: Work) -> Iterator[Told]:
    """Strips to the frames."""
    spec = work.bellows.profile.end_strip
    sides = work.bellows.section.frame_sides
    yield Told(say(words.END_RIGHT_ROUND, lap=work.short(spec.lap), cover=work.short(spec.frame_cover)))
    yield Told(say(words.END_HOLD))
    yield Told(say(words.END_JOINT))
    if max(sides) - min(sides) > 0.05:
        yield Told(say(words.END_LEFT_FRAME))


def ridge_cloth(work: Work) -> Iterator[Told]:
    """Cloth under the edge strips."""
    part, lap = work.of("ridge-cloth")[0], work.bellows.profile.ridge_cloth
    reach = 0.0 if lap is None else lap.lap
    yield Told(say(words.CLOTH, number=work.count("ridge-cloth"), width=work.long(size(part)[0]), lap=work.short(reach)))
    yield Told(say(words.CLOTH_SHORT))


def valley_strips(work: Work) -> Iterator[Told]:
    """Thin leather outside the valleys."""
    part, spec = work.of("valley-strip")[0], work.bellows.profile.valley_strip
    reach = 0.0 if spec is None else spec.lap
    yield Told(say(words.VALLEY, number=work.count("valley-strip"), width=work.long(size(part)[0]), lap=work.short(reach)))
    yield Told(say(words.VALLEY_IN))


def papers(work: Work) -> Iterator[Told]:
    """Old papers after new strips."""
    facing = work.bellows.profile.facing
    if facing is None:
        yield Told(say(words.PAPERS_NONE))
    else:
        yield Told(say(words.PAPERS_FIRST if facing.order == "first" else words.PAPERS))
    if work.of("facing"):
        yield Told(say(words.PAPERS_NEW, number=work.count("facing")))


def facings(work: Work) -> Iterator[Told]:
    """New papers, first or last."""
    spec, parts = work.bellows.profile.facing, work.of("facing")
    number = work.count("facing")
    if spec is not None and spec.order == "first":
        yield Told(say(words.FACINGS_FIRST, number=number, margin=work.short(spec.margin)))
    elif spec is not None:
        yield Told(say(words.FACINGS_LAST, number=number, overlap=work.short(spec.overlap), short=work.short(spec.short_of_valley)))
    if spec is not None and spec.span == "pair":
        yield Told(say(words.FACINGS_PAIR))
    places = tuple(dict.fromkeys(sorts(parts)))
    if places:
        yield Told(say(words.FACINGS_SORTS, sorts=len(parts), list="; ".join(places)))
    if any(part.id.endswith(("-right", "-left")) for part in parts):
        yield Told(say(words.FACINGS_HANDS))
    yield Told(say(words.FACINGS_DAMP))


def dress(work: Work) -> Iterator[Told]:
    """Dressing, and pressing closed."""
    closed, old = work.bellows.closed_length, work.bellows.profile.bellows.old_closed_length
    yield Told(say(words.DRESS))
    if work.job in ("rebellows", "regusset"):
        yield Told(say(words.DRESS_FOLD))
    yield Told(say(words.DRESS_PRESS, size=work.long(closed)))
    if old is None:
        yield to_test(say(words.CLOSES_TO, size=work.long(closed)))
    else:
        yield to_test(say(words.CLOSES_OLD, size=work.long(closed), old=work.long(old)))
    if work.job in ("rebellows", "regusset"):
        yield to_test(say(words.SQUARE_CLOSED))


def test_air(work: Work) -> Iterator[Told]:
    """Light and air."""
    yield to_test(say(words.LIGHT))
    yield to_test(say(words.AIR_PATCHES if work.job == "patches" else words.AIR_AFTER))
    yield Told(say(words.CURE))


def assemble(work: Work) -> Iterator[Told]:
    """Together again."""
    gasket = work.gasket
    if gasket is None:
        yield Told(say(words.ASSEMBLE_OLD_GASKETS))
    else:
        if "frames" not in work.keys:
            yield Told(say(words.GASKETS_CUT, width=work.short(gasket.width), length=work.long(work.gasket_length)))
        yield Told(say(words.ASSEMBLE_GASKET, width=work.short(gasket.width)))
    yield Told(say(words.ASSEMBLE if work.copies == 1 else words.ASSEMBLE_COPIES))
    if work.job in ("rebellows", "regusset"):
        yield Told(say(words.PLAY_IN))
    yield Told(say(words.NO_PACK_CASE))


def invoice(work: Work) -> Iterator[Told]:
    """What the job book and the customer are told."""
    yield Told(say(words.INVOICE_BOOK))
    yield Told(say(words.INVOICE_PAPERS))
    for name in dict.fromkeys(part.material for part in work.parts):
        if work.bellows.material(name).form == SKIN:
            yield Told(say(words.USED, material=name), Manner.FIELD)


def _lengths(work: Work, parts: tuple[Part, ...]) -> str:
    """Lengths of strips that are cut side by side, without their unit; with their sides where they differ."""
    if len(parts) == 1:
        return work.rule.bare(size(parts[0])[1])
    return listed([say(words.STRIP_LENGTH, side=" ".join(part.sides), size=work.rule.bare(size(part)[1])) for part in parts])


def _skived(work: Work) -> Told:
    edge, end = work.bellows.profile.edge_strip, work.bellows.profile.end_strip
    values = {
        "edge": work.short(edge.skive),
        "edge_feather": work.short(edge.feather),
        "end": work.short(end.skive),
        "end_feather": work.short(end.feather),
    }
    alike = (edge.skive, edge.feather) == (end.skive, end.feather)
    return Told(say(words.STRIPS_SKIVE_ALIKE if alike else words.STRIPS_SKIVE, **values))

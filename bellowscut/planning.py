"""The one road from profiles to a cutting plan: what is cut from which skin, its pictures, its machine files, what it comes to."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bellowscut import __version__, summary
from bellowscut.errors import UsageError
from bellowscut.pipeline import FORMATS, PatternSet, draft
from bellowscut.profile import Profile, load
from bellowscut.words import planning as words, say
from bellowscut.workshop import NONE, Workshop

if TYPE_CHECKING:
    from bellowscut.cutting.machine import Job
    from bellowscut.cutting.machine_file import MachineFile
    from bellowscut.stock.model import Layout, Need

SECONDS = 10.0
"""How long a layout is looked for when nothing else is said [s]."""


@dataclass(frozen=True)
class Plan:
    """A layout with everything that follows from it, before any of it is drawn.

    Parameters
    ----------
    sets : tuple of PatternSet
        One an instrument; materials and money are those of the layout.
    layout : Layout
        Where every piece lies.
    needs : tuple of Need
        What each material comes to, for all instruments together.
    """

    sets: tuple[PatternSet, ...]
    layout: Layout
    needs: tuple[Need, ...]

    @property
    def profile(self) -> Profile:
        """The first profile: its cutter, currency and stock are those of the plan."""
        return self.sets[0].bellows.profile


@dataclass(frozen=True)
class CutOptions:
    """How the files of a plan are to be made.

    Parameters
    ----------
    cutter : str
        ``hand``, ``laser`` or ``knife``.
    leather : bool
        Whether leather goes to the machine as well.
    paper : tuple of float
        Width and height of a sheet of paper [mm].
    dxf : str
        ``r2010`` or ``r12``.
    formats : tuple of str
        Which of `bellowscut.pipeline.FORMATS` to draw.
    """

    cutter: str = "hand"
    leather: bool = False
    paper: tuple[float, float] = (210.0, 297.0)
    dxf: str = "r2010"
    formats: tuple[str, ...] = FORMATS


@dataclass(frozen=True)
class Asked:
    """What is to be laid out.

    Parameters
    ----------
    job : str
        A key of `bellowscut.parts.JOBS`, for every instrument.
    also : tuple of str
        Kinds of part to make as well.
    sets : str or None
        A kind of part: fill each skin that there is with whole sets of it, instead of laying out the job.
    seconds : float
        How long the search may take in all, about [s].
    workshop : Workshop
        Prices, minutes and job book of the bench.
    """

    job: str = "rebellows"
    also: tuple[str, ...] = ()
    sets: str | None = None
    seconds: float = SECONDS
    workshop: Workshop = NONE


def plan(profiles: Sequence[Profile], asked: Asked, progress: Callable[[float], None] | None = None) -> Plan:
    """Lay out every piece of some jobs, or as many sets of a kind as fit.

    Parameters
    ----------
    profiles : sequence of Profile
        One or several instruments.
    asked : Asked
        What to lay out.
    progress : callable or None
        Told the share that is done [-].

    Returns
    -------
    Plan
        Verified, nothing written.

    Raises
    ------
    BellowscutError
        For profiles and stock that cannot be used, and for pieces that find no place.
    """
    from bellowscut.stock.lay import Instrument, lay, lay_sets

    drafts = tuple(draft(profile, asked.job, asked.also, asked.workshop) for profile in profiles)
    for one in drafts:
        if not one.parts:
            raise UsageError(say(words.NO_PARTS, source=one.bellows.profile.source))
    currencies = {one.bellows.profile.source: one.bellows.profile.costs.currency for one in drafts}
    if len(set(currencies.values())) > 1:
        told = ", ".join(say(words.CURRENCY_OF_ONE, source=source, currency=currency) for source, currency in currencies.items())
        raise UsageError(say(words.CURRENCIES, told=told))
    instruments = [Instrument(one.bellows, one.parts) for one in drafts]
    if asked.sets is not None:
        if len(instruments) > 1:
            raise UsageError(say(words.SETS_OF_ONE))
        return Plan(drafts, *lay_sets(instruments[0], asked.sets, asked.seconds, progress))
    layout, needs = lay(instruments, asked.seconds, progress)
    return Plan(_priced(drafts, needs), layout, needs)


def _priced(drafts: Sequence[PatternSet], needs: Sequence[Need]) -> tuple[PatternSet, ...]:
    """The drafts with materials and money by the layout, shared by area."""
    from bellowscut.stock.cost import shared
    from bellowscut.stock.report import pieces_bought

    found = [[*one.estimate.needs] for one in drafts]
    for need in needs:
        members = [(i, k) for i, mine in enumerate(found) for k, own in enumerate(mine) if own.material.sort == need.material.sort]
        areas = [_area(drafts[i], found[i][k].material.name) for i, k in members]
        digits = drafts[0].estimate.digits
        costs: Sequence[Decimal | None] = [None] * len(members) if need.cost is None else shared(need.cost, areas, digits)
        for (i, k), area, cost in zip(members, areas, costs, strict=True):
            gross = need.gross_area * area / sum(areas)
            found[i][k] = replace(found[i][k], gross_area=gross, pieces=pieces_bought(need), cost=cost, basis="layout")
    return tuple(replace(one, estimate=replace(one.estimate, needs=tuple(mine))) for one, mine in zip(drafts, found, strict=True))


def _area(one: PatternSet, material: str) -> float:
    return sum(part.area * part.pieces for part in one.parts if part.material == material)


def files(plan: Plan, options: CutOptions) -> Mapping[str, bytes]:
    """Draw a plan.

    Parameters
    ----------
    plan : Plan
        What was laid out.
    options : CutOptions
        How.

    Returns
    -------
    mapping of str to bytes
        Contents by file name; the same for the same input on every machine.

    Raises
    ------
    UsageError
        When the cutter cannot do what is asked: its bed is too small, or its kerf wider than the gap.
    """
    from bellowscut.cutting.machine import machine_drawing
    from bellowscut.cutting.words import cautions
    from bellowscut.stock import report

    spec = plan.profile.cutter
    jobs = {piece.id: machine_drawing(piece, options.cutter, spec, leather=options.leather) for piece in plan.layout.stock}
    told = cautions(options.cutter, options.leather)
    found: dict[str, bytes] = {"layout.json": report.as_json(plan.layout)}
    if "pdf" in options.formats:
        found["layout.pdf"] = _pdf(plan, jobs, told, options)
    if "svg" in options.formats or "dxf" in options.formats:
        found |= _drawings(plan, jobs, told, options)
    lines = tuple(plan_lines(plan, jobs, told))
    found["summary.txt"] = summary.as_text(iter(lines)).encode()
    found["summary.json"] = _summary_json(plan, jobs)
    return found


def _drawings(plan: Plan, jobs: Mapping[str, Job], told: Sequence[str], options: CutOptions) -> dict[str, bytes]:
    from bellowscut.cutting.machine_file import written
    from bellowscut.export.ink import inks_of
    from bellowscut.stock.report import fingerprint

    drawings = [*_of_stock(plan, jobs, told, options), *(_for_the_machine(plan, jobs, told, options) if options.cutter != "hand" else ())]
    cutter, inks = say(words.CUTTERS[options.cutter]), inks_of(plan.profile.cutter)
    found: dict[str, bytes] = {}
    for one in drawings:
        whole = say(words.PLAN, fingerprint=fingerprint(plan.layout), cutter=cutter, notes=one.description)
        found |= written(replace(one, description=whole), inks, options.formats, options.dxf)
    return found


def _of_stock(plan: Plan, jobs: Mapping[str, Job], told: Sequence[str], options: CutOptions) -> Iterator[MachineFile]:
    """Each piece of stock, front and back: without kerf, and where a laser has one with it too."""
    from bellowscut.cutting.machine import machine_drawing
    from bellowscut.cutting.machine_file import MachineFile, kerf_told, kerfs, stock_told
    from bellowscut.cutting.notes import left_out

    spec = plan.profile.cutter
    for piece in plan.layout.stock:
        side = say(words.FLESH_UP if piece.face == "flesh" else words.OUTSIDE_UP, label=piece.label)
        title = say(words.STOCK_TITLE, names=" + ".join(plan.layout.names), id=piece.id, label=piece.label)
        for kerf in kerfs(jobs[piece.id].tool, spec):
            job = jobs[piece.id]
            if kerf != job.kerf:
                job = machine_drawing(piece, options.cutter, spec, leather=options.leather, kerf_in=False)
            notes = (*job.notes, *told)
            front = MachineFile(
                piece.id,
                job.width,
                job.height,
                job.drawn,
                title,
                " ".join((side, *notes)),
                material=stock_told([piece]),
                face=job.side,
                pieces=f"{len(piece.laid)}",
                kerf=kerf,
                kerf_told=kerf_told(job.tool, spec),
                more=(left_out(job.left_out, spec.kerf),) if job.left_out else (),
            )
            yield front
            if job.back:
                back = " ".join((say(words.BACK), *notes))
                yield replace(
                    front,
                    stem=f"{piece.id}-back",
                    drawn=job.back,
                    title=say(words.BACK_TITLE, title=title),
                    description=back,
                    face=say(words.BACK_FACE),
                )


def _for_the_machine(plan: Plan, jobs: Mapping[str, Job], told: Sequence[str], options: CutOptions) -> Iterator[MachineFile]:
    """Templates, a test piece and pressing cauls, for each instrument; those of several are told apart by a number."""
    from bellowscut.cutting.cauls import pressing_cauls
    from bellowscut.cutting.machine_file import caul_file, kerf_told, kerfs, shapes, template_file, trial_file
    from bellowscut.cutting.template import lines_left_out, template_drawing
    from bellowscut.cutting.trial import test_piece
    from bellowscut.pages.templates import templates

    spec, cutter, notes = plan.profile.cutter, options.cutter, " ".join(told)
    # Ply and acrylic are nothing for a drag knife: for it templates are drawn as for the hand.
    rigid = "hand" if cutter == "knife" else cutter
    by_machine = [piece for piece in plan.layout.stock if jobs[piece.id].tool == cutter] or plan.layout.stock
    for kerf in kerfs(cutter, spec):
        for number, one in enumerate(plan.sets, 1):
            own = f"-{number}" if len(plan.sets) > 1 else ""
            name = one.bellows.profile.name
            width, height, drawn = templates(one.bellows, one.parts)
            sheet = (width, height, template_drawing(drawn, spec, rigid, kerf_in=kerf > 0))
            made = template_file(sheet, f"templates{own}", say(words.TEMPLATES_TITLE, name=name), notes, shapes(drawn), kerf)
            yield replace(made, more=lines_left_out(drawn, cutter, spec))
            width, height, drawn = pressing_cauls(one.bellows, one.parts)
            if drawn:
                sheet = (width, height, template_drawing(drawn, spec, cutter, kerf_in=kerf > 0))
                made = caul_file(sheet, f"cauls{own}", say(words.CAULS_TITLE, name=name), notes, shapes(drawn), kerf)
                yield replace(made, kerf_told=kerf_told(cutter, spec), more=lines_left_out(drawn, cutter, spec))
        width, height, drawn, how = test_piece(plan.sets[0].bellows, plan.sets[0].parts, spec, cutter, kerf_in=kerf > 0)
        made = trial_file((width, height, drawn), say(words.TEST_PIECE_TITLE), " ".join((*how, *told)), by_machine, kerf)
        yield made if kerf else replace(made, kerf_told=kerf_told(cutter, spec))


def _pdf(plan: Plan, jobs: Mapping[str, Job], told: Sequence[str], options: CutOptions) -> bytes:
    from bellowscut.export.pdf import write_pdf
    from bellowscut.pages.stock_pages import stock_pages
    from bellowscut.stock.report import fingerprint

    pages = stock_pages(
        plan.layout,
        plan.needs,
        paper=options.paper,
        currency=plan.sets[0].estimate.currency,
        digits=plan.sets[0].estimate.digits,
        cautions=told,
        machine=tuple(_machine_lines(jobs, plan.profile.cutter.kerf)),
    )
    title = say(words.PDF_TITLE, names=" + ".join(plan.layout.names))
    return write_pdf(pages, title=title, subject=say(words.PDF_SUBJECT, fingerprint=fingerprint(plan.layout)))


def _machine_lines(jobs: Mapping[str, Job], kerf: float) -> list[str]:
    """How long each piece of stock is cut, and what to know."""
    from bellowscut.cutting.notes import left_out

    found = []
    for name, job in jobs.items():
        metres = f"{job.cut_length / 1000:.1f}"
        if job.seconds is None:
            found.append(say(words.CUT, stock=name, metres=metres))
        else:
            found.append(say(words.CUT_AND_TIME, stock=name, metres=metres, minutes=f"{job.seconds / 60:.0f}"))
    seen = dict.fromkeys(note for job in jobs.values() for note in job.notes)
    left = tuple(dict.fromkeys(name for job in jobs.values() for name in job.left_out))
    by_knife = any(job.tool == "knife" for job in jobs.values())
    return [
        *found,
        *seen,
        *([left_out(left, kerf)] if left else []),
        *([say(words.TEMPLATES_NOT_BY_KNIFE)] if by_knife else []),
    ]


def plan_lines(plan: Plan, jobs: Mapping[str, Job], told: Sequence[str]) -> summary.Lines:
    """The whole plan for the bench.

    Yields
    ------
    tuple of str
        What the line is (``heading``, ``warning`` or ``text``) and the line itself.
    """
    yield from plan_summary(plan)
    yield from summary.bullets(say(words.CUTTING), _machine_lines(jobs, plan.profile.cutter.kerf))
    for one in plan.sets:
        yield "text", ""
        yield from summary.opening_lines(one.bellows, one.notes)
        yield from summary.part_lines(one.parts)
        yield from summary.not_made_lines(one.bellows, one.job)
        yield from summary.material_lines(one.estimate)
    yield from summary.bullets(say(words.TAKE_CARE), told)


def plan_summary(plan: Plan) -> summary.Lines:
    """Which stock is used, how full it is, what is left of it, and what to know before cutting."""
    from bellowscut.stock import report
    from bellowscut.stock.words import amount

    yield "heading", say(words.HEADING, names=" + ".join(plan.layout.names))
    yield "text", say(words.PLAN_LINE, fingerprint=report.fingerprint(plan.layout), version=__version__)
    if len(plan.layout.names) > 1:
        for number, name in enumerate(plan.layout.names, 1):
            yield from summary.row(say(words.INSTRUMENT, number=number), name)
    for label, text in report.stock_lines(plan.layout):
        yield from summary.row(label, text)
    for need in plan.needs:
        cost = say(words.NO_PRICE) if need.cost is None else f"{need.cost} {plan.sets[0].estimate.currency}"
        yield from summary.row(need.material.name, say(words.NEED, amount=amount(need), cost=cost))
    if plan.layout.notes:
        yield from summary.bullets(say(words.KNOW_BEFORE), plan.layout.notes, kind="warning")


def _summary_json(plan: Plan, jobs: Mapping[str, Job]) -> bytes:
    """One instrument as `make` writes it; several in a list, under what they have in common."""
    from bellowscut.stock.report import fingerprint

    each = [json.loads(summary.as_json(one.bellows, one.parts, one.estimate, one.notes)) for one in plan.sets]
    cutting = [
        {
            "stock": name,
            "kerf": round(job.kerf, 4),
            "cut_length": round(job.cut_length, 3),
            "travel": round(job.travel, 3),
            "seconds": None if job.seconds is None else round(job.seconds, 1),
        }
        for name, job in jobs.items()
    ]
    document: dict[str, Any] = {**each[0], "cutting": cutting}
    if len(each) > 1:
        document = {
            "format": 1,
            "units": "mm",
            "name": " + ".join(plan.layout.names),
            "fingerprint": fingerprint(plan.layout),
            "version": __version__,
            "instruments": each,
            "cutting": cutting,
        }
    return (json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False) + "\n").encode()


def write(
    sources: Sequence[str],
    out: Path | None,
    asked: Asked,
    options: CutOptions,
    *,
    force: bool = False,
    progress: Callable[[float], None] | None = None,
) -> tuple[Path, Plan, tuple[str, ...]]:
    """Read profiles, lay them out and write the plan as one set.

    Parameters
    ----------
    sources : sequence of str
        Files, or names of profiles that ship with the package.
    out : Path or None
        Folder to write; the first profile's stem + ``-layout`` in the current folder by default.
    asked : Asked
        What to lay out.
    options : CutOptions
        How to draw.
    force : bool
        Replace an older set in `out`.
    progress : callable or None
        Told the share that is done [-].

    Returns
    -------
    Path
        The folder.
    Plan
        What was laid out.
    tuple of str
        Names of the files.

    Raises
    ------
    BellowscutError
        With nothing written.
    """
    from bellowscut.export.publish import Target, check_target, publish

    folder = out if out is not None else Path(f"{Path(sources[0]).stem}-layout")
    target = Target(folder, "layout", force, tuple(sources))
    profiles = [load(source) for source in sources]
    check_target(target)
    found = plan(profiles, asked, progress)
    drawn = files(found, options)
    publish(target, drawn)
    return folder, found, tuple(drawn)

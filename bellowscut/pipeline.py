"""The one road from profile to files: profile, bellows, parts, pages, files.

The command line, scripts and tests all go this way.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

from bellowscut import advice, summary
from bellowscut.advice import Note
from bellowscut.bellows import Bellows, build
from bellowscut.errors import UsageError
from bellowscut.estimate import Estimate, estimate
from bellowscut.parts import JOBS, OPTIONAL, Part, make_parts
from bellowscut.profile import Profile, as_toml, load
from bellowscut.words import pipeline as words, say
from bellowscut.words.planning import NO_PARTS
from bellowscut.workshop import NONE, Workshop

if TYPE_CHECKING:
    from bellowscut.pages.pictures import Pictures

FORMATS = ("pdf", "svg", "dxf")
"""Kinds of drawing that can be written."""


@dataclass(frozen=True)
class PatternSet:
    """Everything worked out for one job, before any of it is drawn.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    job : str
        A key of `bellowscut.parts.JOBS`.
    parts : tuple of Part
        What the job cuts.
    estimate : Estimate
        Material and money.
    notes : tuple of Note
        Warnings.
    """

    bellows: Bellows
    job: str
    parts: tuple[Part, ...]
    estimate: Estimate
    notes: tuple[Note, ...]

    @cached_property
    def pictures(self) -> Pictures:
        """The pictures of this job, worked out once for pages and drawings."""
        from bellowscut.pages.pictures import Pictures

        return Pictures(self.bellows, self.parts)


@dataclass(frozen=True)
class Options:
    """How the drawings are to be made.

    Parameters
    ----------
    formats : tuple of str
        Which of `FORMATS` to draw.
    paper : tuple of float or None
        Width and height of a sheet of paper [mm]; None for A4, or for what `single_sheet` needs.
    all_pieces : bool
        Draw every piece on the sheets, not one of each.
    dxf : str
        ``r2010`` or ``r12``.
    flatten : float or None
        Greatest distance of chords from arcs in SVG and DXF [mm]; None keeps arcs.
    mirror : bool
        Draw leather from its grain side.
    paper_margin : float
        Edge of the paper that stays white, 3 to 30 [mm].
    single_sheet : bool
        Put everything on one sheet: the smallest of A4 to A0 that holds it, or one of `paper`.
    """

    formats: tuple[str, ...] = FORMATS
    paper: tuple[float, float] | None = None
    all_pieces: bool = False
    dxf: str = "r2010"
    flatten: float | None = None
    mirror: bool = False
    paper_margin: float = 10.0
    single_sheet: bool = False


def draft(profile: Profile, job: str = "rebellows", also: tuple[str, ...] = (), workshop: Workshop = NONE) -> PatternSet:
    """Work out a job.

    Parameters
    ----------
    profile : Profile
        The instrument.
    job : str
        A key of `bellowscut.parts.JOBS`.
    also : tuple of str
        Kinds of part to make as well; optional ones get their defaults.
    workshop : Workshop
        Prices, minutes and job book of the bench.

    Returns
    -------
    PatternSet
        Complete, nothing written.

    Raises
    ------
    ProfileError
        Whatever the geometry refuses.
    """
    for kind in also if job == "rebellows" else (*also, *JOBS[job]):
        if kind in (*OPTIONAL, "gasket"):
            profile = profile.with_optional(kind)
    bellows = build(profile if workshop is NONE else workshop.applied(profile))
    parts = make_parts(bellows, job, also)
    return PatternSet(bellows, job, parts, estimate(bellows, parts, job, workshop.book), advice.warnings(bellows, job, also))


def files(pattern_set: PatternSet, options: Options) -> Mapping[str, bytes]:
    """Draw a pattern set.

    Returns
    -------
    mapping of str to bytes
        Contents by file name; the same for the same input on every machine.
    """
    bellows, notes = pattern_set.bellows, pattern_set.notes
    found: dict[str, bytes] = {}
    seen = tuple(_as_seen(part, options.mirror) for part in pattern_set.parts)
    if "pdf" in options.formats:
        found["patterns.pdf"] = _pdf(pattern_set, seen, options)
    found.update(_papers(pattern_set, options))
    if "svg" in options.formats or "dxf" in options.formats:
        found.update(_drawings(bellows, seen, options))
    if "svg" in options.formats:
        found.update(_pictures(pattern_set))
    machine = "svg" in options.formats or "dxf" in options.formats
    lines = summary.lines(bellows, pattern_set.job, pattern_set.parts, pattern_set.estimate, notes, mirror=options.mirror, machine=machine)
    found["summary.txt"] = summary.as_text(chain(lines, spelling_lines(pattern_set, options))).encode()
    found["summary.json"] = summary.as_json(bellows, seen, pattern_set.estimate, notes)
    found["cutlist.csv"] = summary.as_csv(seen)
    found["profile.toml"] = as_toml(bellows.profile).encode()
    return found


def spelling_lines(pattern_set: PatternSet, options: Options) -> summary.Lines:
    """What the drawings for machines make of names in other letters than plain ones, if there are any."""
    if {"svg", "dxf"} & set(options.formats):
        from bellowscut.export.stroke_letters import spelling_told

        told = spelling_told((pattern_set.bellows.profile.name, *dict.fromkeys(part.material for part in pattern_set.parts)))
        if told:
            yield "text", ""
            yield from summary.folded("text", told)


def make(
    source: str,
    out: Path | None = None,
    *,
    job: str = "rebellows",
    also: tuple[str, ...] = (),
    options: Options | None = None,
    workshop: Workshop = NONE,
    force: bool = False,
) -> tuple[Path, PatternSet, tuple[str, ...]]:
    """Read a profile, draw everything and write it as one set.

    Parameters
    ----------
    source : str
        A file, or the name of a profile that ships with the package.
    out : Path or None
        Folder to write; the profile's stem + ``-patterns`` in the current folder by default.
    job : str
        A key of `bellowscut.parts.JOBS`.
    also : tuple of str
        Kinds of part to make as well.
    options : Options or None
        How to draw.
    workshop : Workshop
        Prices, minutes and job book of the bench.
    force : bool
        Replace an older set in `out`.

    Returns
    -------
    Path
        The folder.
    PatternSet
        What was drawn.
    tuple of str
        Names of the files.

    Raises
    ------
    BellowscutError
        With nothing written.
    """
    from bellowscut.export.publish import Target, check_target, publish

    folder = out if out is not None else Path(f"{Path(source).stem}-patterns")
    target = Target(folder, "make", force, (source,))
    profile = load(source)
    check_target(target)
    pattern_set = draft(profile, job, also, workshop)
    if not pattern_set.parts:
        raise UsageError(say(NO_PARTS, source=source))
    drawn = files(pattern_set, options or Options())
    publish(target, drawn)
    return folder, pattern_set, tuple(drawn)


def _as_seen(part: Part, mirror: bool) -> Part:
    return part.mirrored() if mirror and part.side == "flesh" else part


def _pdf(pattern_set: PatternSet, parts: tuple[Part, ...], options: Options) -> bytes:
    from bellowscut.export.pdf import write_pdf
    from bellowscut.pages.cover import cover_pages
    from bellowscut.pages.papers import reading_paper
    from bellowscut.pages.sheets import sheet_pages
    from bellowscut.pages.single_sheet import single_sheet_pages
    from bellowscut.pages.trial_corner import trial_corner_pages

    bellows = pattern_set.bellows
    profile = bellows.profile
    by_hand = reading_paper(options.paper)
    sheets = single_sheet_pages if options.single_sheet else sheet_pages
    pages = (
        *cover_pages(bellows, pattern_set.job, pattern_set.parts, pattern_set.notes, paper=by_hand, margin=options.paper_margin),
        *trial_corner_pages(bellows, pattern_set.parts, paper=by_hand, margin=options.paper_margin),
        *sheets(
            parts,
            paper=options.paper,
            name=profile.name,
            fingerprint=profile.fingerprint,
            all_pieces=options.all_pieces,
            mirror=options.mirror,
            gluing_distance=bellows.gluing_distance,
            margin=options.paper_margin,
        ),
    )
    return write_pdf(pages, title=profile.name, subject=_told(bellows, options))


def _papers(pattern_set: PatternSet, options: Options) -> Mapping[str, bytes]:
    """The work sheet whatever is drawn, for it is no drawing; and the pictures of the bellows with every part and its sizes."""
    from bellowscut.bench.sheet import work_sheet
    from bellowscut.export.pdf import write_pdf
    from bellowscut.pages.papers import reading_paper
    from bellowscut.pages.work_sheet import work_sheet_pages

    bellows, parts = pattern_set.bellows, pattern_set.parts
    name, paper = bellows.profile.name, reading_paper(options.paper)
    told_there = work_sheet(bellows, pattern_set.job, parts, pattern_set.estimate.steps, pattern_set.notes)
    pages = {"worksheet": work_sheet_pages(told_there, paper=paper, margin=options.paper_margin)}
    if "pdf" in options.formats:
        pages["pictures"] = pattern_set.pictures.pages(paper=paper, margin=options.paper_margin)
    told = say(words.FOR_PATTERN, fingerprint=bellows.profile.fingerprint)
    return {f"{stem}.pdf": write_pdf(paged, title=say(words.TITLES[stem], name=name), subject=told) for stem, paged in pages.items()}


def _pictures(pattern_set: PatternSet) -> Mapping[str, bytes]:
    """The pictures as drawings of their own, the parts together on one."""
    from bellowscut.export.picture_svg import write_picture
    from bellowscut.pages.pictures import on_few_drawings

    name, told = pattern_set.bellows.profile.name, say(words.FOR_PATTERN, fingerprint=pattern_set.bellows.profile.fingerprint)
    drawings = on_few_drawings(pattern_set.pictures.drawings())
    return {
        f"picture-{stem}.svg": write_picture(
            items, width, height, title=say(words.PICTURES[stem], name=name), description=f"{say(words.PICTURES[stem], name=name)}. {told}"
        )
        for stem, (width, height, items) in drawings.items()
    }


def _drawings(bellows: Bellows, parts: tuple[Part, ...], options: Options) -> Mapping[str, bytes]:
    from bellowscut.cutting.machine_file import parts_file, shapes, template_file, written
    from bellowscut.export.ink import inks_of
    from bellowscut.layout.apart import apart
    from bellowscut.pages.templates import templates

    profile, told = bellows.profile, _told(bellows, options)
    titles = {stem: say(words.TITLES[stem], name=profile.name) for stem in ("patterns", "templates")}
    thickness = {part.material: profile.materials[part.material].thickness for part in parts}
    rigid = templates(bellows, parts)
    made = (
        parts_file(apart(parts, (profile.name, told)), "patterns", titles["patterns"], told, parts, thickness, mirror=options.mirror),
        template_file(rigid, "templates", titles["templates"], told, shapes(rigid[2])),
    )
    inks = inks_of(profile.cutter)
    return {name: data for one in made for name, data in written(one, inks, options.formats, options.dxf, options.flatten).items()}


def _told(bellows: Bellows, options: Options) -> str:
    """What every drawing says of itself."""
    return say(words.TOLD_GRAIN if options.mirror else words.TOLD_FLESH, fingerprint=bellows.profile.fingerprint)

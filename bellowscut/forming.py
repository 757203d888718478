"""From a profile to the files of its form: pages, drawings for a saw or a laser, and a summary."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from bellowscut import __version__, summary
from bellowscut.advice import letters_lacking
from bellowscut.bellows import Bellows, build
from bellowscut.drawing import Drawn
from bellowscut.form.build import build_form
from bellowscut.form.model import Form
from bellowscut.form.words import apart, facts, together
from bellowscut.pipeline import FORMATS
from bellowscut.profile import load
from bellowscut.schema import CutterSpec
from bellowscut.units import MM2_PER_DM2
from bellowscut.words import form as words, say
from bellowscut.words.planning import CUTTERS

A4 = (210.0, 297.0)


@dataclass(frozen=True)
class FormOptions:
    """How the files of a form are to be made.

    Parameters
    ----------
    formats : tuple of str
        Which of `bellowscut.pipeline.FORMATS` to draw.
    cutter : str
        ``hand``, ``laser`` or ``knife``.
    paper : tuple of float
        Width and height of a sheet of paper [mm].
    dxf : str
        ``r2010`` or ``r12``.
    """

    formats: tuple[str, ...] = FORMATS
    cutter: str = "hand"
    paper: tuple[float, float] = A4
    dxf: str = "r2010"


def files(bellows: Bellows, form: Form, options: FormOptions) -> Mapping[str, bytes]:
    """Draw a form.

    Returns
    -------
    mapping of str to bytes
        Contents by file name; the same for the same input on every machine.

    Raises
    ------
    UsageError
        By laser, when a slot is narrower than the kerf.
    """
    found: dict[str, bytes] = {}
    profile = bellows.profile
    ply = form.parts[0].material
    told = say(words.FILE_TOLD, fingerprint=profile.fingerprint, ply=ply, cutter=say(CUTTERS[tool_for(options.cutter)]))
    title = say(words.FILE_TITLE, name=profile.name)
    if "pdf" in options.formats:
        found["form.pdf"] = _pdf(bellows, form, options, title, told)
    if "svg" in options.formats or "dxf" in options.formats:
        found.update(_drawings(bellows, form, options, title, told))
    found["summary.txt"] = summary.as_text(lines(bellows, form, options.cutter)).encode()
    found["summary.json"] = _json(bellows, form)
    return found


def _pdf(bellows: Bellows, form: Form, options: FormOptions, title: str, told: str) -> bytes:
    from bellowscut.export.pdf import write_pdf
    from bellowscut.pages.form_pages import form_pages
    from bellowscut.pages.papers import reading_paper
    from bellowscut.pages.sheets import sheet_pages

    profile = bellows.profile
    pages = (
        *form_pages(bellows, form, paper=reading_paper(options.paper)),
        *sheet_pages(form.parts, paper=options.paper, name=title, fingerprint=profile.fingerprint),
    )
    return write_pdf(pages, title=title, subject=told)


def _drawings(bellows: Bellows, form: Form, options: FormOptions, title: str, told: str) -> Mapping[str, bytes]:
    from bellowscut.cutting.machine_file import form_file, kerfs, written
    from bellowscut.cutting.template import template_drawing
    from bellowscut.export.ink import inks_of
    from bellowscut.layout.apart import apart as laid_apart

    spec = bellows.profile.cutter
    width, height, drawn = laid_apart(form.parts, (title, told))
    cutter = tool_for(options.cutter)
    found: dict[str, bytes] = {}
    for kerf in kerfs(cutter, spec):
        sheet = (width, height, template_drawing(drawn, spec, cutter, kerf_in=kerf > 0))
        found |= written(form_file(sheet, title, told, form.parts, kerf), inks_of(spec), options.formats, options.dxf)
    return found


def tool_for(cutter: str) -> str:
    """What a form is drawn for: no drag knife cuts ply, so that its outlines are closed and true size, as for a saw by hand."""
    return "hand" if cutter == "knife" else cutter


def lines(bellows: Bellows, form: Form, cutter: str = "hand") -> summary.Lines:
    """The form for the bench, and for the machine that was asked for.

    Yields
    ------
    tuple of str
        What the line is (``heading``, ``warning`` or ``text``) and the line itself.
    """
    yield from summary.folded("heading", say(words.SUMMARY_HEADING, name=bellows.profile.name))
    if lacking := letters_lacking((bellows.profile.name, form.parts[0].material)):
        yield from summary.folded("warning", lacking)
    yield from summary.row(say(words.SUMMARY_SIZES), facts(form))
    yield from summary.row(say(words.SUMMARY_KEY), form.key)
    area = sum(part.area * part.count for part in form.parts)
    yield from summary.row(say(words.SUMMARY_BOARD), say(words.SUMMARY_AREA, dm2=f"{area / MM2_PER_DM2:.1f}"))
    machine = _machine_lines(form, bellows.profile.cutter, cutter)
    if machine:
        yield from summary.bullets(say(words.MACHINE_HEADING), machine, kind="warning" if cutter == "knife" else "text")
    yield from summary.part_lines(form.parts)
    yield from summary.bullets(say(words.TOGETHER_HEADING), together(form))
    yield from summary.bullets(say(words.APART_HEADING), [say(words.STEP, step=step, text=text) for step, text in apart(form)])
    yield from summary.bullets(say(words.CAUTION_HEADING), [say(text) for text in words.CAUTIONS])


def _machine_lines(form: Form, spec: CutterSpec, cutter: str) -> list[str]:
    """What to know of the files before a machine runs."""
    if cutter == "knife":
        return [say(words.KNIFE_NOT_FOR_PLY, ply=form.parts[0].material)]
    if cutter != "laser":
        return []
    from bellowscut.cutting.notes import of_tool
    from bellowscut.cutting.template import lines_left_out

    drawn = [Drawn(part.name, (part.outline, *part.holes), part.lines) for part in form.parts]
    return [of_tool(cutter, spec)[-1], *lines_left_out(drawn, cutter, spec)]


def _json(bellows: Bellows, form: Form) -> bytes:
    sizes = form.sizes
    document = {
        "format": 1,
        "units": "mm",
        "name": bellows.profile.name,
        "fingerprint": bellows.profile.fingerprint,
        "version": __version__,
        "form": {
            "slope": round(sizes.slope, 4),
            "ridge_height": round(sizes.ridge_height, 4),
            "pitch": round(sizes.pitch, 4),
            "length": round(sizes.length, 4),
            "set_in": round(sizes.set_in, 4),
            "ridges": [[round(x, 4), round(y, 4)] for x, y in sizes.ridges],
            "core": [[round(x, 4), round(y, 4)] for x, y in form.core],
            "key": form.key,
            "removal": [{"piece": step.piece, "inward": round(step.inward, 4), "aside": round(step.aside, 4)} for step in form.steps],
        },
        "parts": [
            {
                "id": part.id,
                "kind": part.kind,
                "material": part.material,
                "count": part.count,
                "sides": list(part.sides),
                "outline": [[round(x, 4), round(y, 4)] for x, y in part.points],
                "holes": [[[round(x, 4), round(y, 4)] for x, y in hole.flattened()] for hole in part.holes],
                "area": round(part.area, 4),
            }
            for part in form.parts
        ],
    }
    return (json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False) + "\n").encode()


def write(source: str, out: Path | None, options: FormOptions, *, force: bool = False) -> tuple[Path, Bellows, Form, tuple[str, ...]]:
    """Read a profile, work out its form and write it as one set.

    Parameters
    ----------
    source : str
        A file, or the name of a profile that ships with the package.
    out : Path or None
        Folder to write; the profile's stem + ``-form`` in the current folder by default.
    options : FormOptions
        How to draw.
    force : bool
        Replace an older set in `out`.

    Returns
    -------
    Path
        The folder.
    Bellows
        The bellows.
    Form
        Its form.
    tuple of str
        Names of the files.

    Raises
    ------
    BellowscutError
        With nothing written.
    """
    from bellowscut.export.publish import Target, check_target, publish

    folder = out if out is not None else Path(f"{Path(source).stem}-form")
    target = Target(folder, "form", force, (source,))
    profile = load(source)
    check_target(target)
    bellows = build(profile)
    form = build_form(bellows)
    drawn = files(bellows, form, options)
    publish(target, drawn)
    return folder, bellows, form, tuple(drawn)

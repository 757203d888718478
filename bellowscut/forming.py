"""From a profile to the files of its form: pages, drawings for a saw or a laser, and a summary."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from bellowscut import __version__, summary
from bellowscut.advice import letters_lacking
from bellowscut.bellows import Bellows, build
from bellowscut.form.build import build_form
from bellowscut.form.model import Form
from bellowscut.form.words import apart, facts, together
from bellowscut.pipeline import FORMATS
from bellowscut.profile import load
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
    cutter = say(CUTTERS[options.cutter])
    told = say(words.FILE_TOLD, fingerprint=profile.fingerprint, ply=form.parts[0].material, cutter=cutter)
    title = say(words.FILE_TITLE, name=profile.name)
    if "pdf" in options.formats:
        found["form.pdf"] = _pdf(bellows, form, options, title, told)
    if "svg" in options.formats or "dxf" in options.formats:
        found.update(_drawings(bellows, form, options, title, told))
    found["summary.txt"] = summary.as_text(lines(bellows, form)).encode()
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
    from bellowscut.cutting import template_drawing
    from bellowscut.layout.apart import apart as laid_apart

    width, height, drawn = laid_apart(form.parts, (title, told))
    drawn = template_drawing(drawn, bellows.profile.cutter, options.cutter)
    found: dict[str, bytes] = {}
    if "svg" in options.formats:
        from bellowscut.export.svg import write_svg

        found["form.svg"] = write_svg(drawn, width, height, title=title, description=told)
    if "dxf" in options.formats:
        from bellowscut.export.dxf import write_dxf

        found["form.dxf"] = write_dxf(drawn, width, height, version=options.dxf, title=title, description=told)
    return found


def lines(bellows: Bellows, form: Form) -> summary.Lines:
    """The form for the bench.

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
    yield from summary.part_lines(form.parts)
    yield from summary.bullets(say(words.TOGETHER_HEADING), together(form))
    yield from summary.bullets(say(words.APART_HEADING), [say(words.STEP, step=step, text=text) for step, text in apart(form)])
    yield from summary.bullets(say(words.CAUTION_HEADING), [say(text) for text in words.CAUTIONS])


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

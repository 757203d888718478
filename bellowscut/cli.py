"""The command line: parses words, calls the pipeline, prints. Nothing is worked out here."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from bellowscut import __version__
from bellowscut.errors import BellowscutError

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

    from bellowscut.pipeline import PatternSet

JOB_CHOICES = ("rebellows", "regusset", "strips")
FORMAT_CHOICES = ("pdf", "svg", "dxf")
CUTTER_CHOICES = ("laser", "knife", "hand")


class Bench(click.Group):
    """The one place where errors become lines on standard error and an exit code."""

    def invoke(self, ctx: click.Context) -> object:
        """Run a command; a refusal prints its lines and ends with its exit code."""
        try:
            return super().invoke(ctx)
        except BellowscutError as error:
            for line in error.lines():
                click.echo(line, err=True)
            ctx.exit(error.exit_code)


class Paper(click.ParamType[tuple[float, float]]):
    """A paper size by name, or W x H with units."""

    name = "paper"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> tuple[float, float]:
        """Read the size."""
        from bellowscut.pages.furniture import paper

        if isinstance(value, tuple):
            return value
        try:
            return paper(str(value))
        except BellowscutError as error:
            self.fail(str(error), param, ctx)

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        """Names of papers."""
        from click.shell_completion import CompletionItem

        from bellowscut.pages.furniture import PAPERS

        return [CompletionItem(name) for name in PAPERS if name.startswith(incomplete.lower())]


class Millimetres(click.ParamType[float]):
    """A small length for flattening arcs."""

    name = "mm"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> float:
        """Read the length."""
        from bellowscut.units import parse_length

        if isinstance(value, float):
            return value
        try:
            length = parse_length(str(value))
        except BellowscutError as error:
            self.fail(str(error), param, ctx)
        if not 0.0001 <= length <= 1:
            self.fail(f"{value} is not a useful tolerance: from 0.0001 mm to 1 mm, usually 0.01 mm", param, ctx)
        return length


class Seconds(click.ParamType[float]):
    """How long to look for something better."""

    name = "seconds"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> float:
        """Read the number; not-a-number is none."""
        try:
            seconds = float(str(value))
        except ValueError:
            seconds = 0.0
        if not 0.1 <= seconds <= 3600:
            self.fail(f"{value} is no useful time: from 0.1 to 3600 seconds, usually 10", param, ctx)
        return seconds


class Kind(click.ParamType[str]):
    """A kind of part, in the trade's words."""

    name = "kind"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Check the kind, and name the nearest when it is not known."""
        import difflib

        kinds = _kinds()
        if value not in kinds:
            near = difflib.get_close_matches(str(value), kinds, 1)
            hint = f"the nearest is {near[0]}" if near else f"one of {', '.join(kinds)}"
            self.fail(f"{value} is no kind of part; {hint}", param, ctx)
        return str(value)

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        """Names of kinds."""
        from click.shell_completion import CompletionItem

        return [CompletionItem(kind) for kind in _kinds() if kind.startswith(incomplete)]


class ProfileName(click.ParamType[str]):
    """A profile: a file, or the name of one that ships with the package."""

    name = "profile"

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        """Shipped names, and files."""
        from click.shell_completion import CompletionItem

        from bellowscut.profile import shipped

        return [*(CompletionItem(name) for name in shipped() if name.startswith(incomplete)), CompletionItem(incomplete, type="file")]


def _kinds() -> tuple[str, ...]:
    from bellowscut.parts import KINDS

    return (*KINDS, "gasket")


HELP = """Draft cutting patterns for the bellows of a concertina or other hand-held free-reed instrument.

Measure the instrument, answer the questions of `new`, look at the figures with `check`, and let
`make` write full-size patterns as PDF, SVG and DXF with counts, leather and cost.

\b
The words:
  section    the outline of the bellows seen along it; its sides are A, B, C ...
  ridge      an outer fold line; valley: an inner one
  fold       one ridge between the frames: a six-fold bellows has six
  card       the stiff plate between a ridge and the next valley
  gusset     the diamond of thin leather that closes a corner
  edge strip leather folded over a ridge; end strip: it joins the bellows to the frame
  stretch    the angle of the cards when the bellows is fully open

PROFILE is a file, or the name of a profile that ships with the program (see `profiles`).
"""
"""What `bellowscut --help` says first."""


@click.group(cls=Bench, help=HELP, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="bellowscut")
def main() -> None:
    """Run one command of the tool."""


@main.command()
@click.argument("file", required=False, type=click.Path(path_type=Path))
@click.option("--from", "start", metavar="PROFILE", type=ProfileName(), help="Start from the values of this profile.")
@click.option("--plain", is_flag=True, help="Write the commented file without asking anything.")
def new(file: Path | None, start: str | None, plain: bool) -> None:
    """Ask for the instrument, in the order in which one measures, and write its profile.

    Enter takes the default. A file that exists is never overwritten.
    """
    from bellowscut import ask
    from bellowscut.profile import load

    base = load(start) if start is not None else None
    if plain:
        click.echo(f"Written to {ask.plain(file, base)}")
    else:
        ask.ask(click.echo, _answer, file, base)


def _answer(prompt: str) -> str:
    """One answer from the terminal; a broken-off line is ended before the error goes on."""
    try:
        return input(prompt)
    except (EOFError, KeyboardInterrupt):
        click.echo()
        raise


@main.command()
def profiles() -> None:
    """List the profiles that ship with the program; all of them are invented."""
    from bellowscut.profile import load, shipped

    names = shipped()
    width = max(len(name) for name in names)
    for name in names:
        click.echo(f"{name:<{width}}  {load(name).name}")


@main.command()
@click.argument("profile", type=ProfileName())
@click.option("--job", type=click.Choice(JOB_CHOICES), default="rebellows", show_default=True, help="What is to be renewed.")
@click.option("--also", multiple=True, type=Kind(), metavar="KIND", help="Make this kind of part as well; may be repeated.")
def check(profile: str, job: str, also: tuple[str, ...]) -> None:
    """Show every size that follows from PROFILE, with warnings; write nothing."""
    from bellowscut.pipeline import draft
    from bellowscut.profile import load

    _show(draft(load(profile), job, also))


@main.command()
@click.argument("profile", type=ProfileName())
@click.option("--out", type=click.Path(path_type=Path), metavar="DIR", help="Folder to write; PROFILE-patterns here by default.")
@click.option(
    "--job",
    type=click.Choice(JOB_CHOICES),
    default="rebellows",
    show_default=True,
    help="rebellows: everything. regusset: gussets, edge strips and end strips, for sound cards. strips: edge and end strips only.",
)
@click.option(
    "--also", multiple=True, type=Kind(), metavar="KIND", help="Make this kind of part as well, such as hinge or facing; may be repeated."
)
@click.option(
    "--format", "formats", multiple=True, type=click.Choice(FORMAT_CHOICES), help="Draw only this; may be repeated. All three by default."
)
@click.option(
    "--paper",
    type=Paper(),
    default="a4",
    show_default=True,
    metavar="PAPER",
    help="a5, a4, a3, letter, legal, tabloid, or a size such as 300x450 or 12x18in.",
)
@click.option("--all-pieces", is_flag=True, help="Draw every piece on the sheets, not one of each marked with its count.")
@click.option(
    "--dxf", type=click.Choice(("r2010", "r12")), default="r2010", show_default=True, help="Edition of the DXF; r12 for old machines."
)
@click.option("--flatten", type=Millimetres(), metavar="MM", help="Cut arcs into chords this close to them, in SVG and DXF.")
@click.option("--mirror", is_flag=True, help="Draw leather from its grain side instead of its flesh side.")
@click.option("--force", is_flag=True, help="Replace an older pattern set in the folder.")
def make(profile: str, out: Path | None, job: str, also: tuple[str, ...], formats: tuple[str, ...], force: bool, **drawing: Any) -> None:
    """Write the pattern set of PROFILE: full-size PDF, SVG and DXF, templates, summary and cut list."""
    from bellowscut.pipeline import FORMATS, Options, make

    chosen = tuple(name for name in FORMATS if name in formats) or FORMATS
    folder, pattern_set, names = make(profile, out, job=job, also=also, options=Options(formats=chosen, **drawing), force=force)
    _show(pattern_set)
    click.echo()
    _say("heading", f"Written to {folder}{os.sep}")
    click.echo(f"  {', '.join(names)}")


@main.command()
@click.argument("profiles", nargs=-1, required=True, type=ProfileName(), metavar="PROFILE...")
@click.option("--out", type=click.Path(path_type=Path), metavar="DIR", help="Folder to write; PROFILE-layout here by default.")
@click.option("--job", type=click.Choice(JOB_CHOICES), default="rebellows", show_default=True, help="What is to be renewed.")
@click.option("--also", multiple=True, type=Kind(), metavar="KIND", help="Make this kind of part as well; may be repeated.")
@click.option(
    "--seconds", type=Seconds(), default=10.0, metavar="N", show_default=True, help="How long to look for a better layout, about."
)
@click.option("--sets", type=Kind(), metavar="KIND", help="Fill each skin with whole sets of this kind, to see how many it gives.")
@click.option(
    "--cutter",
    type=click.Choice(CUTTER_CHOICES),
    default="hand",
    show_default=True,
    help="laser: board, paper and templates with its kerf. knife: cuts run on past the corners. hand: lines as they are.",
)
@click.option("--leather", is_flag=True, help="Send leather to the machine as well; read the cautions first.")
@click.option(
    "--format", "formats", multiple=True, type=click.Choice(FORMAT_CHOICES), help="Draw only this; may be repeated. All three by default."
)
@click.option("--paper", type=Paper(), default="a4", show_default=True, metavar="PAPER", help="Paper of the pictures, as for make.")
@click.option("--dxf", type=click.Choice(("r2010", "r12")), default="r2010", show_default=True, help="Edition of the DXF.")
@click.option("--force", is_flag=True, help="Replace an older set in the folder.")
def layout(
    profiles: tuple[str, ...],
    out: Path | None,
    job: str,
    also: tuple[str, ...],
    seconds: float,
    sets: str | None,
    formats: tuple[str, ...],
    force: bool,
    **cutting: Any,
) -> None:
    """Lay every piece of each PROFILE on its skins, sheets and rolls, and write pictures and machine files.

    It says how many skins it takes, how full they are and what is left. Several profiles share their leather.
    """
    from bellowscut.planning import Asked, CutOptions, plan_summary, write

    asked = Asked(job, also, sets, seconds)
    options = CutOptions(formats=formats or FORMAT_CHOICES, **cutting)
    with _bar() as progress:
        folder, found, names = write(profiles, out, asked, options, force=force, progress=progress)
    for kind, line in plan_summary(found):
        _say(kind, line)
    click.echo()
    _say("heading", f"Written to {folder}{os.sep}")
    click.echo(f"  {', '.join(names)}")


@contextmanager
def _bar() -> Iterator[Callable[[float], None] | None]:
    """A bar that moves with the search, where somebody is there to see it."""
    if not sys.stderr.isatty():
        yield None
        return
    steps = 200
    with click.progressbar(length=steps, label="Laying out", file=sys.stderr) as bar:

        def progress(share: float) -> None:
            bar.update(max(0, round(share * steps) - bar.pos))

        yield progress


def _show(pattern_set: PatternSet) -> None:
    from bellowscut import summary

    parts = (
        summary.opening_lines(pattern_set.bellows, pattern_set.notes),
        summary.size_lines(pattern_set.bellows),
        summary.part_lines(pattern_set.parts),
        summary.material_lines(pattern_set.estimate),
    )
    for kind, line in chain.from_iterable(parts):
        _say(kind, line)


def _say(kind: str, line: str) -> None:
    """One line, quietly coloured on a terminal; plain in a pipe or when NO_COLOR is set."""
    plain = bool(os.environ.get("NO_COLOR")) or not sys.stdout.isatty()
    styled = line if plain else click.style(line, bold=kind == "heading", fg="yellow" if kind == "warning" else None)
    click.echo(styled)

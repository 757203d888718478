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
from bellowscut.errors import BellowscutError, UsageError
from bellowscut.words import quoting, say

if TYPE_CHECKING:
    from decimal import Decimal

    from click.shell_completion import CompletionItem

    from bellowscut.pipeline import PatternSet
    from bellowscut.workshop import Workshop

JOB_CHOICES = ("rebellows", "regusset", "strips", "cover", "patches")
FORMAT_CHOICES = ("pdf", "svg", "dxf")
CUTTER_CHOICES = ("laser", "knife", "hand")
CONDITION_CHOICES = ("good", "leaky", "perished")


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


class Money(click.ParamType["Decimal"]):
    """An amount of money."""

    name = "amount"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> Decimal:
        """Read the amount."""
        from decimal import Decimal, InvalidOperation

        if isinstance(value, Decimal):
            return value
        try:
            amount = Decimal(str(value))
        except InvalidOperation:
            amount = Decimal(-1)
        if not (amount.is_finite() and 0 < amount < 10_000_000):
            self.fail(say(quoting.BAD_MONEY, text=value), param, ctx)
        return amount


class Day(click.ParamType[str]):
    """A day as year, month, day."""

    name = "date"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Check the day."""
        from datetime import date

        try:
            return date.fromisoformat(str(value)).isoformat() if value else ""
        except ValueError:
            self.fail(say(quoting.BAD_DATE, text=value), param, ctx)


def workshop_options(command: Callable[..., None]) -> Callable[..., None]:
    """The two options that bring in what a bench has of its own."""
    for option in (
        click.option(
            "--book",
            type=click.Path(path_type=Path, dir_okay=False),
            metavar="FILE",
            envvar="BELLOWSCUT_JOB_BOOK",
            help="Job book (CSV) to learn from, instead of the one that the workshop file names.",
        ),
        click.option(
            "--workshop",
            type=click.Path(path_type=Path, dir_okay=False),
            metavar="FILE",
            envvar="BELLOWSCUT_WORKSHOP",
            help="Workshop file (TOML) with your prices, minutes, name and job book.",
        ),
    ):
        command = option(command)
    return command


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
@workshop_options
def check(profile: str, job: str, also: tuple[str, ...], workshop: Path | None, book: Path | None) -> None:
    """Show every size that follows from PROFILE, with warnings; write nothing."""
    from bellowscut.pipeline import draft
    from bellowscut.profile import load

    _show(draft(load(profile), job, also, _workshop(workshop, book)))


@main.command()
@click.argument("profile", type=ProfileName())
@click.option("--out", type=click.Path(path_type=Path), metavar="DIR", help="Folder to write; PROFILE-patterns here by default.")
@click.option(
    "--job",
    type=click.Choice(JOB_CHOICES),
    default="rebellows",
    show_default=True,
    help="rebellows: everything. regusset: gussets, edge strips and end strips, for sound cards. strips: edge and end strips only. "
    "cover: very thin gussets over the old ones. patches: corner patches only.",
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
@workshop_options
def make(
    profile: str,
    out: Path | None,
    job: str,
    also: tuple[str, ...],
    formats: tuple[str, ...],
    workshop: Path | None,
    book: Path | None,
    force: bool,
    **drawing: Any,
) -> None:
    """Write the pattern set of PROFILE: full-size PDF, SVG and DXF, templates, summary and cut list."""
    from bellowscut.pipeline import FORMATS, Options, make

    chosen = tuple(name for name in FORMATS if name in formats) or FORMATS
    options = Options(formats=chosen, **drawing)
    bench = _workshop(workshop, book)
    folder, pattern_set, names = make(profile, out, job=job, also=also, options=options, workshop=bench, force=force)
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
@workshop_options
def layout(
    profiles: tuple[str, ...],
    out: Path | None,
    formats: tuple[str, ...],
    workshop: Path | None,
    book: Path | None,
    force: bool,
    **more: Any,
) -> None:
    """Lay every piece of each PROFILE on its skins, sheets and rolls, and write pictures and machine files.

    It says how many skins it takes, how full they are and what is left. Several profiles share their leather.
    """
    from bellowscut.planning import Asked, CutOptions, plan_summary, write

    what = {name: more.pop(name) for name in ("job", "also", "sets", "seconds")}
    asked = Asked(**what, workshop=_workshop(workshop, book))
    options = CutOptions(formats=formats or FORMAT_CHOICES, **more)
    with _bar() as progress:
        folder, found, names = write(profiles, out, asked, options, force=force, progress=progress)
    for kind, line in plan_summary(found):
        _say(kind, line)
    click.echo()
    _say("heading", f"Written to {folder}{os.sep}")
    click.echo(f"  {', '.join(names)}")


@main.command()
@click.argument("profile", required=False, type=ProfileName())
@click.option("--out", type=click.Path(path_type=Path), metavar="FILE", help="PDF to write; PROFILE-quote.pdf here by default.")
@click.option("--job", type=click.Choice(JOB_CHOICES), default="rebellows", show_default=True, help="What is offered, as for make.")
@click.option("--also", multiple=True, type=Kind(), metavar="KIND", help="Make this kind of part as well; may be repeated.")
@click.option("--value", type=Money(), metavar="AMOUNT", help="What the instrument is worth in good order; before what PROFILE says.")
@click.option("--customer", default="", metavar="NAME", help="Whom it is for; before what PROFILE says.")
@click.option("--date", type=Day(), default="", metavar="YYYY-MM-DD", help="Date to print; a line to write it on by default.")
@click.option("--layout", "laid_out", is_flag=True, help="Reckon materials by laying them out on the stock of PROFILE; takes a while.")
@click.option("--seconds", type=Seconds(), default=10.0, metavar="N", show_default=True, help="How long that layout is looked for.")
@click.option("--like", metavar="SHIPPED", help="By telephone: the shipped profile that is most like it; nothing is written.")
@click.option("--condition", type=click.Choice(CONDITION_CHOICES), help="By telephone: how its bellows is.")
@click.option("--paper", type=Paper(), default="a4", show_default=True, metavar="PAPER", help="Paper of the page, as for make.")
@click.option("--force", is_flag=True, help="Replace an older PDF of that name.")
@workshop_options
def quote(
    profile: str | None,
    out: Path | None,
    like: str | None,
    condition: str | None,
    workshop: Path | None,
    book: Path | None,
    paper: tuple[float, float],
    force: bool,
    **wanted: Any,
) -> None:
    """Write a one-page estimate for the customer of PROFILE, or say a range on the telephone.

    On the telephone nothing is measured yet: --like six-sided-treble --condition leaky is answered at once.
    """
    from bellowscut import offering

    value = wanted["value"]
    if (profile is None) == (like is None):
        raise UsageError(say(quoting.ONE_OF_TWO))
    if like is None and condition is not None:
        raise UsageError(say(quoting.CONDITION_ALONE))
    bench = _workshop(workshop, book)
    if profile is None:
        assert like is not None
        if condition is None:
            raise UsageError(say(quoting.NEEDS_CONDITION))
        for kind, line in offering.phone_lines(offering.by_telephone(like, condition, value, bench)):
            _say(kind, line)
        return
    path, made = offering.write(profile, out, offering.Wanted(**wanted), bench, paper=paper, force=force)
    for kind, line in offering.lines(made):
        _say(kind, line)
    click.echo()
    _say("heading", say(quoting.WRITTEN, path=path))


@main.command("job-book")
@click.argument("profile", type=ProfileName())
@click.option("--job", type=click.Choice(JOB_CHOICES), default="rebellows", show_default=True, help="What was done, as for make.")
@click.option("--also", multiple=True, type=Kind(), metavar="KIND", help="This kind of part was made as well; may be repeated.")
@click.option("--minutes", multiple=True, metavar="STEP=MIN", help="What a step took, such as glue-gussets=135; may be repeated.")
@click.option("--leather", multiple=True, metavar="MATERIAL=AREA", help='What was used up, such as "gusset skin=6.8 dm2"; may be repeated.')
@click.option("--date", type=Day(), default="", metavar="YYYY-MM-DD", help="When it was done; today by default.")
@workshop_options
def book_of_jobs(
    profile: str,
    job: str,
    also: tuple[str, ...],
    minutes: tuple[str, ...],
    leather: tuple[str, ...],
    date: str,
    workshop: Path | None,
    book: Path | None,
) -> None:
    """Note what a job of PROFILE took, in a plain file of yours; the next estimate learns from it.

    Without --minutes and --leather it asks step by step. The file is job-book.csv here, or what --book or the
    workshop file names; open it with any spreadsheet.
    """
    from bellowscut import noting
    from bellowscut.profile import load

    bench, path = noting.bench_and_book(workshop, book)
    job_done = noting.job_done(load(profile), job, also, bench)
    told = bool(minutes or leather)
    entries = noting.given(job_done, minutes, leather, date) if told else noting.asked(job_done, click.echo, _answer, date)
    click.echo(noting.note(path, entries))


def _workshop(path: Path | None, book: Path | None) -> Workshop:
    from bellowscut.workshop import NONE, load

    return NONE if path is None and book is None else load(path, book)


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

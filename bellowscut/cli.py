"""The command line: parses words, calls the pipeline, prints. Nothing is worked out here."""

from __future__ import annotations

import atexit
import gc
import os
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from bellowscut import __version__, terminal
from bellowscut.errors import BellowscutError, UsageError
from bellowscut.words import commands as texts, count, measuring as words, quoting, say

if TYPE_CHECKING:
    from decimal import Decimal

    from click.shell_completion import CompletionItem

    from bellowscut.pipeline import PatternSet
    from bellowscut.workshop import Workshop

JOB_CHOICES = ("rebellows", "regusset", "strips", "cover", "patches")
FORMAT_CHOICES = ("pdf", "svg", "dxf")
CUTTER_CHOICES = ("laser", "knife", "hand")
CONDITION_CHOICES = ("good", "leaky", "perished")
SWEEP = 300_000
"""Objects made and not given back before Python looks for circles among them [-]."""

SECTION_CHOICES = ("regular", "rectangle", "measured")


class Bench(click.Group):
    """The one place where errors become lines on standard error and an exit code."""

    def main(self, args: Sequence[str] | None = None, *rest: Any, **more: Any) -> object:  # type: ignore[override]
        """Run the command line; without `args` that of the process, which then does nothing else. Help that finds no room ends quietly."""
        if args is None:
            # A command makes hardly any garbage in circles: looking for it, while it runs and once more at its end, took a tenth of `make`.
            gc.set_threshold(SWEEP)
            atexit.register(gc.freeze)
        terminal.print_any_letters()
        try:
            return super().main(args, *rest, **more)
        except OSError as error:
            terminal.complain(terminal.trouble(error))
            sys.exit(1)

    def make_context(self, info_name: str | None, args: list[str], parent: click.Context | None = None, **extra: Any) -> click.Context:
        """Read the command line; what is repeated of it reaches a terminal as plain text."""
        with terminal.plain_complaints():
            return super().make_context(info_name, args, parent, **extra)

    def invoke(self, ctx: click.Context) -> object:
        """Run a command; a refusal prints its lines and ends with its exit code."""
        try:
            with terminal.plain_complaints(), terminal.stoppable():
                return super().invoke(ctx)
        except BellowscutError as error:
            for line in error.lines():
                terminal.complain(line)
            ctx.exit(error.exit_code)
        except OSError as error:
            terminal.complain(terminal.trouble(error))
            ctx.exit(1)


class Paper(click.ParamType[tuple[float, float]]):
    """A paper size by name, or W x H with units."""

    name = "paper"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> tuple[float, float]:
        """Read the size."""
        from bellowscut.pages.papers import paper

        if isinstance(value, tuple):
            return value
        try:
            return paper(str(value))
        except BellowscutError as error:
            self.fail(str(error), param, ctx)

    def shell_complete(self, ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        """Names of papers."""
        from click.shell_completion import CompletionItem

        from bellowscut.pages.papers import PAPERS

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
            self.fail(say(texts.NO_TOLERANCE, value=value), param, ctx)
        return length


class PaperMargin(click.ParamType[float]):
    """The edge of the paper that stays white."""

    name = "mm"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> float:
        """Read the length; whether the paper has room for it is asked later."""
        from bellowscut.pages.papers import margin_in_range
        from bellowscut.units import parse_length

        try:
            return margin_in_range(value if isinstance(value, float) else parse_length(str(value)))
        except BellowscutError as error:
            self.fail(str(error), param, ctx)


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
            self.fail(say(texts.NO_TIME, value=value), param, ctx)
        return seconds


class Kind(click.ParamType[str]):
    """A kind of part, in the trade's words."""

    name = "kind"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Check the kind, and name the nearest when it is not known."""
        import difflib

        from bellowscut.schema import kind_meant

        kinds = _kinds()
        kind = kind_meant(str(value))
        if kind not in kinds:
            near = difflib.get_close_matches(kind, kinds, 1)
            hint = say(texts.NEAREST_KIND, near=near[0]) if near else say(texts.KINDS, kinds=", ".join(kinds))
            self.fail(say(texts.NO_KIND_PART, value=value, hint=hint), param, ctx)
        return kind

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
        if not (amount.is_finite() and 0 < amount < 10_000_000 and amount == round(amount, 4)):  # of all currencies one has four
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
            help=say(texts.BOOK),
        ),
        click.option(
            "--workshop",
            type=click.Path(path_type=Path, dir_okay=False),
            metavar="FILE",
            envvar="BELLOWSCUT_WORKSHOP",
            help=say(texts.WORKSHOP),
        ),
    ):
        command = option(command)
    return command


HELP = say(texts.HELP)
"""What `bellowscut --help` says first."""


@click.group(cls=Bench, help=HELP, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="bellowscut")
def main() -> None:
    """Run one command of the tool."""


@main.command(help=say(texts.COMMAND_NEW))
@click.argument("file", required=False, type=click.Path(path_type=Path))
@click.option("--from", "start", metavar="PROFILE", type=ProfileName(), help=say(texts.NEW_FROM))
@click.option("--plain", is_flag=True, help=say(texts.NEW_PLAIN))
def new(file: Path | None, start: str | None, plain: bool) -> None:
    """Run `bellowscut new`."""
    from bellowscut import ask
    from bellowscut.profile import load

    base = load(start) if start is not None else None
    if plain:
        terminal.tell(say(texts.WRITTEN_FILE, plain=ask.plain(file, base)))
        return
    with terminal.ended_from_outside():
        ask.ask(terminal.tell, terminal.answer, file, base)


@main.command(help=say(texts.COMMAND_PROFILES))
def profiles() -> None:
    """Run `bellowscut profiles`."""
    from bellowscut.profile import load_shipped, shipped

    names = shipped()
    width = max(len(name) for name in names)
    terminal.show(("", f"{name:<{width}}  {load_shipped(name).name}") for name in names)


@main.command(help=say(texts.COMMAND_CHECK))
@click.argument("profile", type=ProfileName())
@click.option("--job", type=click.Choice(JOB_CHOICES), default="rebellows", show_default=True, help=say(texts.JOB))
@click.option("--also", multiple=True, type=Kind(), metavar="KIND", help=say(texts.ALSO))
@workshop_options
def check(profile: str, job: str, also: tuple[str, ...], workshop: Path | None, book: Path | None) -> None:
    """Run `bellowscut check`."""
    from bellowscut.pipeline import draft
    from bellowscut.profile import load

    terminal.show(_drafted_lines(draft(load(profile), job, also, _workshop(workshop, book))))


@main.command(help=say(texts.COMMAND_MAKE))
@click.argument("profile", type=ProfileName())
@click.option("--out", type=click.Path(path_type=Path), metavar="DIR", help=say(texts.MAKE_OUT))
@click.option(
    "--job",
    type=click.Choice(JOB_CHOICES),
    default="rebellows",
    show_default=True,
    help=say(texts.JOB_OF_MAKE),
)
@click.option("--also", multiple=True, type=Kind(), metavar="KIND", help=say(texts.ALSO_OF_MAKE))
@click.option("--format", "formats", multiple=True, type=click.Choice(FORMAT_CHOICES), help=say(texts.FORMATS))
@click.option(
    "--paper",
    type=Paper(),
    metavar="PAPER",
    help=say(texts.PAPER),
)
@click.option(
    "--paper-margin",
    type=PaperMargin(),
    default=10.0,
    show_default=True,
    metavar="MM",
    help=say(texts.PAPER_MARGIN),
)
@click.option(
    "--single-sheet",
    is_flag=True,
    help=say(texts.SINGLE_SHEET),
)
@click.option("--all-pieces", is_flag=True, help=say(texts.ALL_PIECES))
@click.option("--dxf", type=click.Choice(("r2010", "r12")), default="r2010", show_default=True, help=say(texts.DXF_OF_MAKE))
@click.option("--flatten", type=Millimetres(), metavar="MM", help=say(texts.FLATTEN))
@click.option("--mirror", is_flag=True, help=say(texts.MIRROR))
@click.option("--force", is_flag=True, help=say(texts.FORCE_MAKE))
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
    """Run `bellowscut make`."""
    from bellowscut.pipeline import FORMATS, Options, make, spelling_lines

    chosen = tuple(name for name in FORMATS if name in formats) or FORMATS
    options = Options(formats=chosen, **drawing)
    bench = _workshop(workshop, book)
    folder, pattern_set, names = make(profile, out, job=job, also=also, options=options, workshop=bench, force=force)
    terminal.show(
        chain(_drafted_lines(pattern_set), spelling_lines(pattern_set, options)), say(texts.WRITTEN, folder=folder, sep=os.sep), names
    )


@main.command(help=say(texts.COMMAND_LAYOUT))
@click.argument("profiles", nargs=-1, required=True, type=ProfileName(), metavar="PROFILE...")
@click.option("--out", type=click.Path(path_type=Path), metavar="DIR", help=say(texts.LAYOUT_OUT))
@click.option("--job", type=click.Choice(JOB_CHOICES), default="rebellows", show_default=True, help=say(texts.JOB))
@click.option("--also", multiple=True, type=Kind(), metavar="KIND", help=say(texts.ALSO))
@click.option("--seconds", type=Seconds(), default=10.0, metavar="N", show_default=True, help=say(texts.SECONDS))
@click.option("--sets", type=Kind(), metavar="KIND", help=say(texts.SETS))
@click.option(
    "--cutter",
    type=click.Choice(CUTTER_CHOICES),
    default="hand",
    show_default=True,
    help=say(texts.CUTTER),
)
@click.option("--leather", is_flag=True, help=say(texts.LEATHER))
@click.option("--format", "formats", multiple=True, type=click.Choice(FORMAT_CHOICES), help=say(texts.FORMATS))
@click.option("--paper", type=Paper(), default="a4", show_default=True, metavar="PAPER", help=say(texts.PAPER_OF_PICTURES))
@click.option("--dxf", type=click.Choice(("r2010", "r12")), default="r2010", show_default=True, help=say(texts.DXF))
@click.option("--force", is_flag=True, help=say(texts.FORCE_SET))
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
    """Run `bellowscut layout`."""
    from bellowscut.planning import Asked, CutOptions, plan_summary, write

    what = {name: more.pop(name) for name in ("job", "also", "sets", "seconds")}
    asked = Asked(**what, workshop=_workshop(workshop, book))
    options = CutOptions(formats=formats or FORMAT_CHOICES, **more)
    with _bar() as progress:
        folder, found, names = write(profiles, out, asked, options, force=force, progress=progress)
    terminal.show(plan_summary(found), say(texts.WRITTEN, folder=folder, sep=os.sep), names)


@main.command(help=say(texts.COMMAND_QUOTE))
@click.argument("profile", required=False, type=ProfileName())
@click.option("--out", type=click.Path(path_type=Path), metavar="FILE", help=say(texts.QUOTE_OUT))
@click.option("--job", type=click.Choice(JOB_CHOICES), default="rebellows", show_default=True, help=say(texts.QUOTE_JOB))
@click.option("--also", multiple=True, type=Kind(), metavar="KIND", help=say(texts.ALSO))
@click.option("--value", type=Money(), metavar="AMOUNT", help=say(texts.VALUE))
@click.option("--customer", default="", metavar="NAME", help=say(texts.CUSTOMER))
@click.option("--date", type=Day(), default="", metavar="YYYY-MM-DD", help=say(texts.QUOTE_DATE))
@click.option("--layout", "laid_out", is_flag=True, help=say(texts.QUOTE_LAYOUT))
@click.option("--seconds", type=Seconds(), default=10.0, metavar="N", show_default=True, help=say(texts.QUOTE_SECONDS))
@click.option("--like", metavar="SHIPPED", help=say(texts.LIKE))
@click.option("--condition", type=click.Choice(CONDITION_CHOICES), help=say(texts.CONDITION))
@click.option("--paper", type=Paper(), default="a4", show_default=True, metavar="PAPER", help=say(texts.PAPER_OF_PAGE))
@click.option("--force", is_flag=True, help=say(texts.FORCE_PDF))
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
    """Run `bellowscut quote`."""
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
        terminal.show(offering.phone_lines(offering.by_telephone(like, condition, value, bench)))
        return
    path, made = offering.write(profile, out, offering.Wanted(**wanted), bench, paper=paper, force=force)
    terminal.show(offering.lines(made), say(quoting.WRITTEN, path=path))


@main.command("job-book", help=say(texts.COMMAND_JOB_BOOK))
@click.argument("profile", type=ProfileName())
@click.option("--job", type=click.Choice(JOB_CHOICES), default="rebellows", show_default=True, help=say(texts.BOOK_JOB))
@click.option("--also", multiple=True, type=Kind(), metavar="KIND", help=say(texts.BOOK_ALSO))
@click.option("--minutes", multiple=True, metavar="STEP=MIN", help=say(texts.BOOK_MINUTES))
@click.option("--leather", multiple=True, metavar="MATERIAL=AREA", help=say(texts.BOOK_LEATHER))
@click.option("--date", type=Day(), default="", metavar="YYYY-MM-DD", help=say(texts.BOOK_DATE))
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
    """Run `bellowscut job-book`."""
    from bellowscut import noting
    from bellowscut.profile import load

    bench, path = noting.bench_and_book(workshop, book)
    job_done = noting.job_done(load(profile), job, also, bench)
    told = bool(minutes or leather)
    entries = noting.given(job_done, minutes, leather, date) if told else noting.asked(job_done, terminal.tell, terminal.answer, date)
    terminal.tell(noting.note(path, entries))


@main.command("form", help=say(texts.COMMAND_FORM))
@click.argument("profile", type=ProfileName())
@click.option("--out", type=click.Path(path_type=Path), metavar="DIR", help=say(texts.FORM_OUT))
@click.option("--cutter", type=click.Choice(CUTTER_CHOICES), default="hand", show_default=True, help=say(texts.FORM_CUTTER))
@click.option("--format", "formats", multiple=True, type=click.Choice(FORMAT_CHOICES), help=say(texts.FORMATS))
@click.option("--paper", type=Paper(), default="a4", show_default=True, metavar="PAPER", help=say(texts.PAPER_OF_PAGE))
@click.option("--dxf", type=click.Choice(("r2010", "r12")), default="r2010", show_default=True, help=say(texts.DXF))
@click.option("--force", is_flag=True, help=say(texts.FORCE_SET))
def form(profile: str, out: Path | None, formats: tuple[str, ...], force: bool, **drawing: Any) -> None:
    """Run `bellowscut form`."""
    from bellowscut import forming

    options = forming.FormOptions(formats=formats or FORMAT_CHOICES, **drawing)
    folder, bellows, made, names = forming.write(profile, out, options, force=force)
    terminal.show(forming.lines(bellows, made, options.cutter), say(texts.WRITTEN, folder=folder, sep=os.sep), names)


@main.command("measuring-sheet", help=say(texts.COMMAND_MEASURING_SHEET))
@click.option("--section", type=click.Choice(SECTION_CHOICES), default="regular", show_default=True, help=say(texts.SHEET_SECTION))
@click.option("--sides", type=int, metavar="N", help=say(texts.SHEET_SIDES))
@click.option("--paper", type=Paper(), default="a4", show_default=True, metavar="PAPER", help=say(texts.PAPER_OF_PAGE))
@click.option("--out", type=click.Path(path_type=Path), metavar="FILE", help=say(texts.SHEET_OUT))
@click.option("--force", is_flag=True, help=say(texts.FORCE_PDF))
def measuring_sheet(section: str, sides: int | None, paper: tuple[float, float], out: Path | None, force: bool) -> None:
    """Run `bellowscut measuring-sheet`."""
    from bellowscut import measuring

    path, pages = measuring.write(section, sides=sides, paper=paper, out=out, force=force)
    terminal.tell(count(pages, words.SHEET_WRITTEN, words.SHEETS_WRITTEN, path=path))


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
    with click.progressbar(length=steps, label=say(texts.LAYING_OUT), file=sys.stderr) as bar:

        def progress(share: float) -> None:
            bar.update(max(0, round(share * steps) - bar.pos))

        yield progress


def _drafted_lines(pattern_set: PatternSet) -> Iterable[tuple[str, str]]:
    from bellowscut import summary

    return chain(
        summary.opening_lines(pattern_set.bellows, pattern_set.notes),
        summary.size_lines(pattern_set.bellows),
        summary.part_lines(pattern_set.parts),
        summary.not_made_lines(pattern_set.bellows, pattern_set.job),
        summary.material_lines(pattern_set.estimate),
    )

"""From a profile to a customer's estimate: drafts of every job, one page, and the answer on the telephone."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path

from bellowscut import quoting, summary
from bellowscut.advice import letters_lacking
from bellowscut.errors import UsageError
from bellowscut.estimate import Estimate
from bellowscut.labour import COVERS, GUSSETS, STRIPS
from bellowscut.pipeline import PatternSet, draft
from bellowscut.profile import Profile, load, load_shipped, shipped
from bellowscut.quoting import CONDITIONS, WAYS, PhoneQuote, Quote
from bellowscut.schema import CostSpec
from bellowscut.toml_lines import dotted
from bellowscut.words import quoting as words, say
from bellowscut.workshop import NONE, PriceSpec, Workshop

PRICE_LIST = "six-sided-treble"
"""The shipped profile whose invented prices serve on the telephone where a workshop has none of its own."""

MONEY_KEYS = ("labour_rate", "minimum_charge")
"""Costs that are amounts of money, and so worthless in another currency."""


@dataclass(frozen=True)
class Wanted:
    """What is asked beside the profile.

    Parameters
    ----------
    job : str
        A key of `bellowscut.parts.JOBS`.
    also : tuple of str
        Kinds of part to make as well.
    value : Decimal or None
        What the instrument is worth, before what the profile says.
    customer : str
        Whom it is for, before what the profile says; may be empty.
    date : str
        As it is to be printed; may be empty.
    laid_out : bool
        Reckon the chosen job's materials from a layout on the profile's stock.
    seconds : float
        How long that layout is looked for [s].
    """

    job: str = "rebellows"
    also: tuple[str, ...] = ()
    value: Decimal | None = None
    customer: str = ""
    date: str = ""
    laid_out: bool = False
    seconds: float = 10.0


def quote(profile: Profile, wanted: Wanted, workshop: Workshop = NONE) -> Quote:
    """Work out a customer's estimate.

    Parameters
    ----------
    profile : Profile
        The instrument.
    wanted : Wanted
        What is offered.
    workshop : Workshop
        Prices, minutes and job book of the bench.

    Returns
    -------
    Quote
        Complete, nothing written.

    Raises
    ------
    UsageError
        Where a price of the chosen job is missing.
    ProfileError
        Whatever the geometry refuses.
    """
    spec = profile.quote
    spec = replace(spec, value=spec.value if wanted.value is None else wanted.value, customer=wanted.customer or spec.customer)
    profile = replace(profile, quote=spec)
    drafts = {job: draft(profile, job, wanted.also if job == wanted.job else (), workshop) for job in WAYS}
    if wanted.laid_out:
        from bellowscut.planning import Asked, plan

        asked = Asked(wanted.job, wanted.also, None, wanted.seconds, workshop)
        drafts[wanted.job] = plan([profile], asked).sets[0]
    chosen = drafts[wanted.job]
    quoting.check_priced(chosen.bellows.profile, chosen.estimate)
    ways = _ways({job: one.estimate for job, one in drafts.items()}, spec.value, profile.copies)
    thicker = drafts["cover"].bellows.closed_length - drafts["regusset"].bellows.closed_length
    bench = (workshop.name, *workshop.address) if workshop.name else ()
    example = _example(profile, chosen, workshop)
    return Quote(chosen.bellows, ways[WAYS.index(wanted.job)], ways, _counts(chosen), thicker, bench, wanted.date, example)


def _example(profile: Profile, chosen: PatternSet, workshop: Workshop) -> tuple[str, ...]:
    """What a page must say of itself where its prices are nobody's own: no workshop file, or those of a shipped profile."""
    if not workshop.source:
        return say(words.EXAMPLE), say(words.EXAMPLE_YOURS)
    keys = ["costs.labour_rate", *(dotted(("materials", need.material.name, "price")) for need in chosen.estimate.needs)]
    if profile.source in shipped() and profile.given.intersection(keys):
        return say(words.EXAMPLE_PRICES), say(words.EXAMPLE_YOURS_PROFILE)
    return ()


def _ways(estimates: Mapping[str, Estimate], value: Decimal | None, copies: int) -> tuple[quoting.Way, ...]:
    return tuple(quoting.way(job, estimates[job], value, copies) for job in WAYS)


def _counts(one: PatternSet) -> dict[str, int]:
    """Pieces as a customer counts them: all gussets together, and no spares."""
    kinds = {
        "gussets": GUSSETS,
        "strips": STRIPS,
        "cards": ("card",),
        "covers": COVERS,
        "patches": ("corner-patch",),
    }
    found = {name: sum(part.count for part in one.parts if part.kind in mine) for name, mine in kinds.items()}
    # The cards of a scored run are counted as cards: a customer sees no board.
    runs = one.bellows.cards_per_side * one.bellows.section.count * one.bellows.profile.copies
    return {**found, "cards": found["cards"] or runs}


def by_telephone(like: str, condition: str, value: Decimal | None = None, workshop: Workshop = NONE) -> PhoneQuote:
    """A range for an instrument that nobody has measured.

    Parameters
    ----------
    like : str
        Name of the shipped profile that is most like it.
    condition : str
        A key of `bellowscut.quoting.CONDITIONS`.
    value : Decimal or None
        What it is worth in good order.
    workshop : Workshop
        Prices, minutes and job book of the bench; what it does not say is invented.

    Returns
    -------
    PhoneQuote
        From the least to the most that it may need.

    Raises
    ------
    UsageError
        When no such profile ships, or an hour has no price in the workshop's currency.
    """
    if like not in shipped():
        nearest = difflib.get_close_matches(like, shipped(), 3, 0.0)
        raise UsageError(say(words.NOT_SHIPPED, name=like, nearest=", ".join(nearest)))
    profile, prices = _list_priced(load_shipped(like), workshop)
    low, high = (_priced_only(draft(profile, job, (), prices).estimate) for job in CONDITIONS[condition])
    if profile.costs.labour_rate is None:
        raise UsageError(say(words.NO_RATE, source=workshop.source))
    ways = [quoting.way(job, one, value) for job, (one, _) in zip(CONDITIONS[condition], (low, high), strict=True)]
    assert ways[0].price is not None
    assert ways[1].price is not None
    least, most = quoting.phone_range(ways[0].price.total, ways[1].price.total)
    without = tuple(dict.fromkeys((*low[1], *high[1])))
    source = _whose(profile, (low[0], high[0]), workshop)
    return PhoneQuote(profile, condition, ways[0], ways[1], least, most, value, source, without)


def _whose(profile: Profile, estimates: Sequence[Estimate], workshop: Workshop) -> str:
    """Whose prices and minutes an answer on the telephone goes by."""
    if not workshop.source:
        return say(words.PHONE_EXAMPLE)
    used = {need.material.name for one in estimates for need in one.needs}
    priced = "labour_rate" in workshop.costs and used <= set(workshop.prices)
    timed = all(quoting.own_minutes(one, replace(profile, minutes=workshop.minutes)) for one in estimates)
    if priced:
        return say(words.PHONE_OWN if timed else words.PHONE_OWN_PRICES)
    return say(words.PHONE_GAPS if timed else words.PHONE_GAPS_AND_MINUTES)


def _priced_only(estimate: Estimate) -> tuple[Estimate, tuple[str, ...]]:
    """An estimate of what has a price, and the materials that have none."""
    needs = estimate.needs
    known = tuple(need if need.cost is not None else replace(need, cost=Decimal(0)) for need in needs)
    return replace(estimate, needs=known), tuple(need.material.name for need in needs if need.cost is None)


def _list_priced(profile: Profile, workshop: Workshop) -> tuple[Profile, Workshop]:
    """A shipped profile without its own prices, and a workshop whose gaps are filled from the price list.

    The shipped profiles are priced in many currencies, to show that it can be
    done; on the telephone they must be comparable.
    """
    shipped_list = load_shipped(PRICE_LIST)
    currency = workshop.costs.get("currency", shipped_list.costs.currency)
    same = currency == shipped_list.costs.currency
    costs = {"currency": currency, **({key: getattr(shipped_list.costs, key) for key in MONEY_KEYS} if same else {}), **workshop.costs}
    listed = _listed_for(profile, shipped_list) if same else {}
    bare = {name: replace(one, price=None, price_per=None) for name, one in profile.materials.items()}
    profile = replace(profile, copies=1, costs=CostSpec(**costs), materials=bare, given=frozenset())
    return profile, replace(workshop, costs=costs, prices={**listed, **workshop.prices})


USUAL: Mapping[str, str] = {
    "card": "grey card",
    "gusset": "gusset skin",
    "edge_strip": "strip skin",
    "end_strip": "strip skin",
    "hinge": "linen",
    "frame_hinge": "linen",
    "ridge_cloth": "linen",
    "valley_strip": "gusset skin",
    "facing": "facing paper",
    "corner_patch": "gusset skin",
    "cover_gusset": "cover skin",
}
"""Which listed material stands for that of a part, by the part's table, where a profile has one of its own."""


def _listed_for(profile: Profile, price_list: Profile) -> dict[str, PriceSpec]:
    """Listed prices by the names of this profile: of the same name, else of the usual material of the same part and form."""
    listed = price_list.materials
    found = {name: PriceSpec(price=one.price, price_per=one.price_per or "") for name, one in listed.items()}
    for table, name in USUAL.items():
        spec = getattr(profile, table)
        if spec is not None and spec.material not in found and profile.materials[spec.material].form == listed[name].form:
            found[spec.material] = found[name]
    return found


def page(made: Quote, paper: tuple[float, float]) -> bytes:
    """The customer's page as a PDF, for paper of this width and height [mm]."""
    from bellowscut.export.pdf import write_pdf
    from bellowscut.pages.quote_sheet import quote_pages

    title = quoting.title(made)
    return write_pdf(quote_pages(made, paper=paper), title=f"{made.profile.name}: {title}", subject=title)


def write(
    source: str,
    out: Path | None,
    wanted: Wanted,
    workshop: Workshop = NONE,
    *,
    paper: tuple[float, float] = (210.0, 297.0),
    force: bool = False,
) -> tuple[Path, Quote]:
    """Read a profile and write the customer's page.

    Parameters
    ----------
    source : str
        A file, or the name of a profile that ships with the package.
    out : Path or None
        PDF to write; the profile's stem + ``-quote.pdf`` in the current folder by default.
    wanted : Wanted
        What is offered.
    workshop : Workshop
        Prices, minutes and job book of the bench.
    paper : tuple of float
        Width and height [mm].
    force : bool
        Replace an older PDF.

    Returns
    -------
    Path
        The file.
    Quote
        What it says.

    Raises
    ------
    BellowscutError
        With nothing written.
    """
    from bellowscut.export.single import check_file, write_file

    path = out if out is not None else Path(f"{Path(source).stem}-quote.pdf")
    profile = load(source)
    check_file(path, "quote", force=force)
    made = quote(profile, wanted, workshop)
    write_file(path, page(made, paper), "quote", force=force)
    return path, made


def lines(made: Quote) -> summary.Lines:
    """The customer's page for a terminal.

    Yields
    ------
    tuple of str
        What the line is (``heading``, ``warning`` or ``text``) and the line itself.
    """
    first = quoting.worth(made)
    chosen = made.chosen
    yield from summary.folded("heading", f"{quoting.title(made)}: {made.profile.name}")
    for text in made.example:
        yield from summary.folded("warning", text)
    if lacking := letters_lacking((made.profile.name, *made.bench, made.profile.quote.customer or "", *made.profile.quote.other_work)):
        yield from summary.folded("warning", lacking)
    if first:
        yield from summary.folded("text", first)
    yield from summary.bullets(quoting.done_heading(made), quoting.done(made))
    yield "text", ""
    yield "heading", say(words.PRICE_HEADING)
    rows = quoting.price_rows(made)
    names, amounts = (max(len(row[k]) for row in rows) for k in (0, 1))
    for name, amount in rows:
        yield "text", f"  {name:<{names}}  {amount:>{amounts}}"
    yield from summary.folded("text", quoting.hours_told(made), "  ")
    yield from summary.bullets(say(words.NOT_HEADING), quoting.left_out(made))
    yield from summary.bullets(say(words.CHANGE_HEADING), quoting.changes(made))
    yield "text", ""
    yield "heading", say(words.TIME_HEADING)
    yield from summary.folded("text", quoting.time_told(chosen), "  ")
    yield "text", ""
    yield "heading", say(words.WAYS_HEADING)
    table = quoting.way_rows(made)
    widths = [max(len(row[k]) for row in table) for k in range(4)]
    for one, row in zip(made.ways, table, strict=True):
        share = f"  {row[3]:>{widths[3]}}" if widths[3] else ""
        chosen_mark = "*" if one.job == chosen.job else " "
        yield "text", f"{chosen_mark} {row[0]:<{widths[0]}}  {row[1]:>{widths[1]}}  {row[2]:>{widths[2]}}{share}"
        yield from summary.folded("text", row[4], "      ")


def phone_lines(made: PhoneQuote) -> summary.Lines:
    """The answer on the telephone, for a terminal."""
    yield from summary.folded("heading", say(words.PHONE_TITLE, name=made.profile.name))
    for line in quoting.phone_lines(made):
        yield from summary.folded("text", line, "  ")

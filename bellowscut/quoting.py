"""What a customer is told: what a job costs, whether it is worth it, and what else could be done.

All figures come from estimates; nothing is reckoned twice. Money is decimal.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal

from bellowscut.bellows import Bellows
from bellowscut.errors import UsageError
from bellowscut.estimate import Estimate
from bellowscut.guess import card_guess
from bellowscut.labour import FORM, days
from bellowscut.money import Price
from bellowscut.profile import Profile
from bellowscut.toml_lines import dotted
from bellowscut.words import quoting as words, say

WAYS = ("patches", "strips", "cover", "regusset", "rebellows")
"""Jobs, from the smallest to the largest."""

CONDITIONS: Mapping[str, tuple[str, str]] = {
    "good": ("patches", "strips"),
    "leaky": ("cover", "regusset"),
    "perished": ("regusset", "rebellows"),
}
"""What a bellows told of by telephone may need: the least and the most."""

SPREAD = Decimal("0.15")
"""How far sizes that nobody measured move a price either way [-], invented."""

SMALL, FAIR, WHOLE = 30, 60, 100
"""Shares of an instrument's value up to which work is well worth it, fair, and not above it [per cent], invented."""


@dataclass(frozen=True)
class Way:
    """One job as a customer may choose it.

    Parameters
    ----------
    job : str
        A key of `bellowscut.labour.OPERATIONS`.
    estimate : Estimate
        Materials and work.
    price : Price or None
        None where a material has no price.
    days : tuple of int
        Fewest and most working days, drying included [-].
    share : int or None
        Of the instrument's value [per cent]; None where no value is given.
    """

    job: str
    estimate: Estimate
    price: Price | None
    days: tuple[int, int]
    share: int | None

    @property
    def name(self) -> str:
        """What it is called to a customer."""
        return say(words.JOBS[self.job])


@dataclass(frozen=True)
class Quote:
    """Everything that the customer's page says.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    chosen : Way
        What is offered.
    ways : tuple of Way
        All that could be done, from the smallest to the largest.
    counts : mapping of str to int
        Pieces of the chosen job: ``gussets``, ``strips``, ``cards``, ``covers``, ``patches`` [-].
    thicker : float
        What cover gussets add to the closed length [mm].
    bench : tuple of str
        Name and address of the workshop; may be empty.
    date : str
        As it is to be printed; empty to leave room.
    example : tuple of str
        What of it came with the program and is nobody's own, and what makes it one's own; empty where prices are a workshop's.
    """

    bellows: Bellows
    chosen: Way
    ways: tuple[Way, ...]
    counts: Mapping[str, int]
    thicker: float
    bench: tuple[str, ...] = ()
    date: str = ""
    example: tuple[str, ...] = ()

    @property
    def profile(self) -> Profile:
        """The instrument, with the bench's prices."""
        return self.bellows.profile


def way(job: str, estimate: Estimate, value: Decimal | None, copies: int = 1) -> Way:
    """A job with its price and its share of an instrument's value.

    Parameters
    ----------
    job : str
        A key of `bellowscut.labour.OPERATIONS`.
    estimate : Estimate
        For all copies.
    value : Decimal or None
        What one instrument is worth in good order.
    copies : int
        Instruments alike [-].
    """
    price = estimate.price
    share = None if price is None or not value else _per_cent(price.total / copies, value)
    return Way(job, estimate, price, days(estimate.steps), share)


def in_sentence(name: str) -> str:
    """A name as it stands within a sentence."""
    return name[:1].lower() + name[1:]


def _per_cent(amount: Decimal, value: Decimal) -> int:
    return int((amount * 100 / value).quantize(Decimal(1), rounding=ROUND_HALF_UP))


def check_priced(profile: Profile, estimate: Estimate) -> None:
    """Refuse to quote where an hour or a material has no price.

    Raises
    ------
    UsageError
        With one line for each price that is missing.
    """
    source = profile.source or profile.name
    missing = [say(words.NO_RATE, source=source)] if profile.costs.labour_rate is None else []
    missing += [
        say(words.NO_MATERIAL_PRICE, source=source, key=dotted(("materials", need.material.name, "price")), name=need.material.name)
        for need in estimate.needs
        if need.cost is None
    ]
    if missing:
        raise UsageError("\n".join(missing))


def worth(quote: Quote) -> str:
    """The first line: what share of the instrument's value the work costs, kindly; empty without a value."""
    share = quote.chosen.share
    if share is None:
        return ""
    template = (
        words.SHARE_SMALL
        if share <= SMALL
        else words.SHARE_FAIR
        if share <= FAIR
        else words.SHARE_LARGE
        if share <= WHOLE
        else words.SHARE_OVER
    )
    told = say(template, share=share)
    # A job above the instrument's value is weighed against any below it, a large one only against fair ones.
    most = WHOLE if share > WHOLE else FAIR
    smaller = [one for one in quote.ways[: WAYS.index(quote.chosen.job)] if one.share is not None and one.share <= most]
    if share <= FAIR or not smaller:
        return told
    gentler = smaller[-1]
    return f"{told} {say(words.SHARE_GENTLER, way=in_sentence(gentler.name), share=gentler.share)}"


def price_rows(quote: Quote) -> tuple[tuple[str, str], ...]:
    """Lines of the price, which add up to the last; lines of nothing are left out."""
    one, costs = quote.chosen, quote.profile.costs
    price = one.price
    assert price is not None

    def money(amount: Decimal) -> str:
        return f"{amount} {costs.currency}"

    rows = [
        (say(words.MATERIALS), money(price.materials)),
        (say(words.WORK, hours=f"{one.estimate.minutes / 60:.1f}"), money(price.labour)),
    ]
    if price.margin:
        rows.append((say(words.WORKSHOP), money(price.margin)))
    if price.to_minimum:
        rows.append((say(words.LEAST), money(price.to_minimum)))
    if price.tax:
        rows.append((say(words.TAX, share=f"{Decimal(repr(costs.tax)).normalize():f}"), money(price.tax)))
    return (*rows, (say(words.TOTAL), money(price.total)))


def done_heading(quote: Quote) -> str:
    """Heading over what is done, with the name of the job."""
    return say(words.DONE_HEADING, job=in_sentence(quote.chosen.name))


def done(quote: Quote) -> tuple[str, ...]:
    """What is done, with this instrument's counts."""
    found = [say(text, **quote.counts) for text in words.DONE[quote.chosen.job]]
    if any(step.operation is FORM for step in quote.chosen.estimate.steps):
        found.insert(1, say(words.NEW_FORM))
    if not quote.profile.quote.keep_original:
        return tuple(found)
    return (*found, say(words.KEEP_BELLOWS if quote.chosen.job == "rebellows" else words.KEEP))


def left_out(quote: Quote) -> tuple[str, ...]:
    """What is not in the price: what was seen besides, and what never is."""
    seen = [say(words.SEEN, work=work) for work in quote.profile.quote.other_work]
    return (*seen, *(say(text) for text in words.NOT_IN_PRICE))


def changes(quote: Quote) -> tuple[str, ...]:
    """What may change the price."""
    return (*_guessed(quote), *(say(text) for text in words.CHANGES[quote.chosen.job]), say(words.ASKED_FIRST), say(words.DUST))


def _guessed(quote: Quote) -> tuple[str, ...]:
    """What hangs on old cards that nobody has measured."""
    guess = card_guess(quote.bellows, quote.chosen.job)
    if guess is None:
        return ()
    least, most, opens = (f"{length:.0f}" for length in (*guess.lengths, quote.bellows.open_length))
    if guess.own:
        return (say(words.CARD_NOT_MEASURED_OWN, least=least, most=most, open=opens),)
    return (say(words.CARD_NOT_MEASURED, mm=f"{guess.off:.1f}", least=least, most=most, open=opens),)


def time_told(one: Way) -> str:
    """How many days the job takes."""
    least, most = one.days
    return say(words.DAYS_SAME, least=least) if least == most else say(words.DAYS, least=least, most=most)


def title(quote: Quote) -> str:
    """What the page is."""
    return say(words.TITLE_EXAMPLE if quote.example else words.TITLE)


def hours_told(quote: Quote) -> str:
    """Where the hours come from: minutes that ship are never told as the workshop's own."""
    estimate = quote.chosen.estimate
    jobs = estimate.learned
    whole = own_minutes(estimate, quote.profile)
    if jobs:
        return say(words.WORK_IS_LEARNED if whole else words.WORK_IS_LEARNED_IN_PART, jobs=jobs)
    if estimate.own_minutes:
        return say(words.WORK_IS_USUAL if whole else words.WORK_IS_USUAL_IN_PART)
    return say(words.WORK_IS_EXAMPLE)


def own_minutes(estimate: Estimate, profile: Profile) -> bool:
    """Whether every step goes by minutes of one's own, or by a job book."""
    return all(step.learned or step.operation.key in profile.minutes for step in estimate.steps)


def way_rows(quote: Quote) -> tuple[tuple[str, str, str, str, str], ...]:
    """Every way: name, price, days, share of the value (may be empty) and what it means."""
    rows = []
    for one in quote.ways:
        price = say(words.NOT_PRICED) if one.price is None else f"{one.price.total} {quote.profile.costs.currency}"
        least, most = one.days
        told = str(least) if least == most else say(words.DAYS_RANGE, least=least, most=most)
        share = "" if one.share is None else say(words.SHARE_CELL, share=one.share)
        rows.append((one.name, price, told, share, say(words.MEANINGS[one.job], thicker=f"{quote.thicker:.1f}")))
    return tuple(rows)


@dataclass(frozen=True)
class PhoneQuote:
    """A range for an instrument that nobody has measured.

    Parameters
    ----------
    profile : Profile
        What it is like.
    condition : str
        A key of `CONDITIONS`.
    low, high : Way
        The least and the most that it may need.
    least, most : Decimal
        The range, widened by `SPREAD` and rounded outward to two digits.
    value : Decimal or None
        What the instrument is worth in good order.
    source : str
        Whose figures they are, in words.
    without : tuple of str
        Materials that have no price and are not in the range.
    """

    profile: Profile
    condition: str
    low: Way
    high: Way
    least: Decimal
    most: Decimal
    value: Decimal | None = None
    source: str = ""
    without: tuple[str, ...] = ()


def phone_range(low: Decimal, high: Decimal) -> tuple[Decimal, Decimal]:
    """A range for two prices: wider by `SPREAD`, rounded outward to two digits."""
    return _outward(low * (1 - SPREAD), ROUND_FLOOR), _outward(high * (1 + SPREAD), ROUND_CEILING)


def _outward(amount: Decimal, rounding: str) -> Decimal:
    if amount <= 0:
        return Decimal(0)
    step = Decimal(1).scaleb(max(amount.adjusted() - 1, 0))
    return (amount / step).quantize(Decimal(1), rounding=rounding) * step


def phone_lines(quote: PhoneQuote) -> Sequence[str]:
    """What to say on the telephone, the answer first."""
    currency = quote.profile.costs.currency
    low, high = quote.low, quote.high
    assert low.price is not None
    assert high.price is not None
    found = [say(words.PHONE_RANGE, low=f"{quote.least:f}", high=f"{quote.most:f} {currency}") + "."]
    if quote.value:
        shares = _per_cent(quote.least, quote.value), _per_cent(quote.most, quote.value)
        kind = "small" if shares[1] <= SMALL else "fair" if shares[1] <= WHOLE else "either" if shares[0] <= FAIR else "over"
        found.insert(0, f"{say(words.PHONE_SHARE, low=shares[0], high=shares[1])} {say(words.PHONE_SHARE_KIND[kind])}")
    found += [
        quote.source,
        say(words.PHONE_CONDITION[quote.condition]),
        say(
            words.PHONE_WORK,
            low=in_sentence(low.name),
            low_price=f"{low.price.total} {currency}",
            high=in_sentence(high.name),
            high_price=f"{high.price.total} {currency}",
            least=low.days[0],
            most=high.days[1],
        ),
        say(words.PHONE_NOT, works=", ".join(say(text) for text in words.NOT_IN_PRICE)),
        say(words.PHONE_LIKE, name=quote.profile.name),
    ]
    if quote.without:
        found.append(say(words.PHONE_WITHOUT, materials=", ".join(quote.without), currency=currency))
    return found

"""The customer's estimate: sums, the kind first line, and the answer on the telephone."""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

import pypdfium2
import pytest

from bellowscut import job_book, offering, quoting
from bellowscut.errors import UsageError
from bellowscut.labour import KEYS
from bellowscut.offering import Wanted, by_telephone, quote
from bellowscut.pipeline import draft
from bellowscut.profile import Profile, load, loads, shipped
from bellowscut.quoting import CONDITIONS, WAYS, hours_told, phone_lines, phone_range, price_rows, way_rows, worth
from bellowscut.schema import CostSpec
from bellowscut.workshop import NONE, Workshop, loads as bench_of

A4, LETTER, A5 = (210.0, 297.0), (215.9, 279.4), (148.0, 210.0)
PRICES = """
name = "The bench of an example (invented)"
address = ["1 Any Street", "Anytown"]
[costs]
labour_rate = 31
margin = 12.5
minimum_charge = 45
tax = 20
[materials."grey card"]
price = 3.20
[materials."gusset skin"]
price = 12
[materials."strip skin"]
price = 15
[materials.linen]
price = 7.5
[materials."facing paper"]
price = 1.8
[materials."cover skin"]
price = 9
"""
BENCH = bench_of(PRICES)


WAYS_OF_TREBLE = quote(load("six-sided-treble"), Wanted(), BENCH)


def amounts(rows: Sequence[tuple[str, str]]) -> list[Decimal]:
    return [Decimal(amount.split()[0]) for _, amount in rows]


@pytest.mark.parametrize("job", WAYS)
@pytest.mark.parametrize("name", ["six-sided-treble", "oblong-three-alike", "single-fold-baby"])
def test_lines_add_up_as_printed(name: str, job: str) -> None:
    rows = price_rows(quote(load(name), Wanted(job), BENCH))
    *lines, total = amounts(rows)
    assert sum(lines) == total
    assert all(line > 0 for line in lines)


def test_the_quote_is_the_estimate_of_the_job() -> None:
    """Materials and work are those that `make` reckons: one road."""
    profile = load("six-sided-treble")
    for job in WAYS:
        found = quote(profile, Wanted(job), BENCH)
        assert found.chosen.estimate == draft(profile, job, (), BENCH).estimate
        assert [one.job for one in found.ways] == list(WAYS)


def test_covers_are_said_to_be_thicker() -> None:
    """Seven cells with six thicknesses of 0.15 mm each."""
    rows = {one.job: row for one, row in zip(WAYS_OF_TREBLE.ways, way_rows(WAYS_OF_TREBLE), strict=True)}
    assert "about 6.3 mm thicker" in rows["cover"][4]


def test_the_least_charge_has_a_line_of_its_own() -> None:
    rows = dict(price_rows(quote(load("six-sided-treble"), Wanted("patches"), bench_of("[costs]\nminimum_charge = 99\n"))))
    assert rows["Total"] == "99.00 GBP"
    assert Decimal(rows["Least charge for a job"].split()[0]) > 50


def with_value(value: str, job: str = "regusset") -> str:
    return worth(quote(load("six-sided-treble"), Wanted(job, value=Decimal(value)), NONE))


def test_the_first_line_tells_the_share_kindly() -> None:
    """A regusset at 386.24: 26 per cent of 1500, 48 of 800, 77 of 500, 215 of 180."""
    assert with_value("1500").startswith("The work costs about 26 per cent")
    assert "well worth" in with_value("1500")
    assert "48 per cent" in with_value("800")
    assert "A smaller job" not in with_value("800")
    assert "because you like this one" in with_value("500")
    assert "A smaller job may do: cover gussets, about 29 per cent." in with_value("500")
    dear = with_value("180")
    assert dear.startswith("To be honest with you: the work costs about 215 per cent")
    assert "more than it would fetch" in dear
    assert "cover gussets, about 81 per cent" in dear
    assert worth(quote(load("six-sided-treble"), Wanted("regusset"), NONE)) == ""


@pytest.mark.parametrize(
    ("share", "smaller", "told"),
    [(60, 10, False), (61, 60, True), (61, 61, False), (100, 60, True), (100, 61, False), (101, 100, True), (101, 101, False)],
)
def test_a_smaller_job_is_named_only_where_it_is_worth_its_price(share: int, smaller: int, told: bool) -> None:
    """A large job is weighed against fair ones, up to 60 per cent; one above the value against any that is not."""
    by_job = {one.job: one for one in WAYS_OF_TREBLE.ways}
    ways = (replace(by_job["patches"], share=smaller), replace(by_job["regusset"], share=share))
    found = worth(replace(WAYS_OF_TREBLE, chosen=ways[1], ways=ways))
    assert (f"corner patches, about {smaller} per cent" in found) is told, found


def test_a_share_is_of_one_instrument() -> None:
    profile = load("oblong-three-alike")
    one = quote(profile, Wanted(value=Decimal(1000)), NONE)
    assert one.chosen.price is not None
    assert one.chosen.share == round(one.chosen.price.total / 3 / 10)


def test_value_and_customer_of_the_command_go_before_the_profile() -> None:
    profile = load("six-sided-old-gusset")
    assert quote(profile, Wanted("regusset"), NONE).profile.quote.value == 180
    found = quote(profile, Wanted("regusset", value=Decimal(1000), customer="B (invented)"), NONE).profile.quote
    assert (found.value, found.customer) == (Decimal(1000), "B (invented)")


def test_missing_prices_are_all_named() -> None:
    bare = loads('[section]\nshape = "regular"\nsides = 6\nend_size = 158\n[bellows]\nfolds = 6\nfold_depth = 25\n', "box.toml")
    with pytest.raises(UsageError) as caught:
        quote(bare, Wanted("regusset"), NONE)
    told = str(caught.value).splitlines()
    assert [line.split(": ")[1] for line in told] == [
        "costs.labour_rate",
        'materials."gusset skin".price',
        'materials."strip skin".price',
    ]
    assert all(line.startswith("box.toml: ") for line in told)


def test_a_way_without_a_price_is_said_to_have_none() -> None:
    found = quote(load("eight-sided-tenor"), Wanted("strips"), bench_of('[materials."strip skin"]\nprice = 20\n'))
    rows = {one.job: row for one, row in zip(found.ways, way_rows(found), strict=True)}
    assert rows["cover"][1] == "not priced"
    assert rows["strips"][1].endswith(" USD")


# on paper -----------------------------------------------------------------


def text_of(page: bytes) -> tuple[int, str]:
    """Pages and text, by a reader that did not write them."""
    document = pypdfium2.PdfDocument(io.BytesIO(page))
    return len(document), " ".join("".join(one.get_textpage().get_text_range() for one in document).split())


@pytest.mark.parametrize("paper", [A4, LETTER], ids=["a4", "letter"])
@pytest.mark.parametrize("job", WAYS)
def test_one_page_for_every_shipped_profile(job: str, paper: tuple[float, float]) -> None:
    for name in shipped():
        profile = replace(load(name), name="An instrument with a name of no less than sixty characters, as")
        found = quote(profile, Wanted(job, value=Decimal(300)), BENCH)
        number, text = text_of(offering.page(found, paper))
        assert number == 1, name
        for told in (
            worth(found),
            *quoting.done(found),
            *quoting.left_out(found),
            *quoting.changes(found),
            quoting.time_told(found.chosen),
        ):
            assert told in text, (name, told)
        for line in price_rows(found):
            assert " ".join(line) in text or line[1] in text, (name, line)
        for row in way_rows(found):
            assert row[1] in text


def test_the_page_says_what_is_left_out_and_what_is_kept() -> None:
    profile = load("six-sided-uneven")
    _, text = text_of(offering.page(quote(profile, Wanted(), NONE), A4))
    assert "Seen besides: a crack in one end" in text
    assert "reeds, pads, valves and tuning" in text
    assert "post and packing" in text
    assert "the old bellows is given back to you" in text
    plain = replace(profile, quote=replace(profile.quote, keep_original=False))
    assert "given back" not in text_of(offering.page(quote(plain, Wanted(), NONE), A4))[1]


def test_a_new_form_is_told() -> None:
    told = "A form to build it on is made first"
    assert told in text_of(offering.page(quote(load("twelve-sided-deep"), Wanted(), NONE), A4))[1]
    assert told not in text_of(offering.page(quote(load("twelve-sided-deep"), Wanted("regusset"), NONE), A4))[1]


def test_counts_on_the_page_are_those_of_the_parts() -> None:
    for name, gussets in (("six-sided-treble", 42), ("twelve-sided-deep", 84), ("oblong-three-alike", 96)):
        assert f"{gussets} leather gussets" in text_of(offering.page(quote(load(name), Wanted(), BENCH), A4))[1]
    _, run = text_of(offering.page(quote(load("six-sided-scored-run"), Wanted(), BENCH), A4))
    assert f"{draft(load('six-sided-scored-run')).bellows.cards_per_side * 6} cards" in run


def test_a_date_and_a_customer_are_printed_or_left_to_be_written() -> None:
    profile = load("six-sided-treble")
    _, text = text_of(offering.page(quote(profile, Wanted(customer="C (invented)", date="2026-03-31"), BENCH), A4))
    assert "For C (invented)" in text
    assert "Date 2026-03-31" in text
    assert "The bench of an example (invented)" in text


def test_a_hostile_customer_cannot_break_the_page() -> None:
    profile = load("six-sided-treble")
    spec = replace(profile.quote, customer="<b>&(" + "W" * 190, other_work=("x" * 200,) * 8)
    number, _ = text_of(offering.page(quote(replace(profile, quote=spec), Wanted(), BENCH), A4))
    assert number == 1


# whose prices and whose minutes ---------------------------------------------

ALL_MINUTES = "[minutes]\n" + "".join(f"{key} = 10\n" for key in KEYS)


@pytest.mark.parametrize("paper", [A4, LETTER, A5], ids=["a4", "letter", "a5"])
def test_a_page_without_a_workshop_says_on_its_face_that_it_is_an_example(paper: tuple[float, float]) -> None:
    """Before anything else that is read: that nothing of it is a workshop's own, and what makes it so."""
    number, text = text_of(offering.page(quote(load("six-sided-treble"), Wanted("regusset", value=Decimal(900)), NONE), paper))
    assert number == 1 or paper == A5
    told = "An example, not an offer: without a workshop file, prices and minutes are example ones that came with the program or stand in the profile."
    assert told in text
    assert text.index(told) < text.index("The work costs about")
    assert "--workshop" in text
    assert "the workshop's" not in text
    assert "Agreed" not in text, "nobody signs an example"


@pytest.mark.parametrize("job", WAYS)
def test_no_hour_that_ships_is_called_the_workshops_own(job: str) -> None:
    """A workshop's prices do not make the minutes its own: only minutes of its file, or jobs in its book, do."""
    priced = quote(load("six-sided-treble"), Wanted(job), NONE)
    for bench in (NONE, BENCH, bench_of("[costs]\nlabour_rate = 20\n")):
        assert "not this workshop's own" in hours_told(quote(load("six-sided-treble"), Wanted(job), bench))
    own = quote(load("six-sided-treble"), Wanted(job), bench_of(PRICES + ALL_MINUTES))
    assert hours_told(own) == "Hours are the workshop's usual ones, not yet your instrument's."
    key = priced.chosen.estimate.steps[0].operation.key
    some = hours_told(quote(load("six-sided-treble"), Wanted(job), bench_of(PRICES + f"[minutes]\n{key} = 10\n")))
    assert "the workshop's usual ones" in some
    assert "the rest by example minutes" in some


def test_hours_that_a_book_taught_say_what_it_did_not_teach() -> None:
    entry = job_book.Entry("2026-01-02", "x", "regusset", 1, "prop", 0, 0.0, Decimal(30), "min")
    bench = replace(BENCH, book=(entry,))
    told = hours_told(quote(load("six-sided-treble"), Wanted("regusset"), bench))
    assert "(1 in the job book)" in told
    assert "the rest by example minutes" in told


def plain(name: str) -> Profile:
    """A shipped instrument as one of the user's own: with its sizes, and no price."""
    profile = load(name)
    bare = {key: replace(one, price=None, price_per=None) for key, one in profile.materials.items()}
    return replace(profile, source="mine.toml", materials=bare, costs=CostSpec(), given=frozenset())


def test_with_a_workshop_the_page_is_no_example() -> None:
    made = quote(plain("six-sided-treble"), Wanted("regusset"), bench_of(PRICES + ALL_MINUTES))
    assert not made.example
    _, text = text_of(offering.page(made, A4))
    assert "example" not in text.lower().replace("the bench of an example", "")
    assert "Agreed" in text


def test_a_shipped_instrument_keeps_its_example_prices() -> None:
    """A profile goes before the workshop, and prices of the shipped ones are invented."""
    made = quote(load("six-sided-treble"), Wanted("regusset"), BENCH)
    assert made.example
    assert "prices are example ones of the shipped profile" in text_of(offering.page(made, A4))[1]


def test_the_terminal_says_it_too() -> None:
    shown = " ".join(" ".join(line for _, line in offering.lines(quote(load("six-sided-treble"), Wanted("regusset"), NONE))).split())
    assert shown.startswith("Example of an estimate: Six-sided treble, six folds")
    assert "An example, not an offer" in shown[:200]
    assert "Agreed" not in shown


# on the telephone ----------------------------------------------------------


@pytest.mark.parametrize(
    ("bench", "told"),
    [
        (NONE, "By example prices and minutes"),
        (BENCH, "Prices by your workshop file; minutes are example ones"),
        (bench_of(PRICES + ALL_MINUTES), "Prices and minutes by your workshop file."),
        (
            bench_of("[costs]\nlabour_rate = 56\n"),
            "Example prices stand for what your workshop file does not price; minutes are example ones",
        ),
    ],
)
def test_the_telephone_says_whose_figures_they_are(bench: Workshop, told: str) -> None:
    """Beside the range, and not behind everything else."""
    lines = phone_lines(by_telephone("six-sided-treble", "leaky", None, bench))
    assert lines[0].startswith("Between")
    assert lines[1].startswith(told)


@pytest.mark.parametrize("condition", list(CONDITIONS))
@pytest.mark.parametrize("name", shipped())
def test_every_shipped_profile_answers_on_the_telephone(name: str, condition: str) -> None:
    found = by_telephone(name, condition)
    assert found.low.price is not None
    assert found.high.price is not None
    assert 0 < found.least < found.low.price.total < found.high.price.total < found.most
    assert found.without == ()
    told = " ".join(phone_lines(found))
    assert f"Between {found.least:f} and {found.most:f} GBP." in told
    assert "nothing is measured" in told
    assert "By example prices and minutes that came with the program" in told


def test_the_telephone_speaks_of_one_instrument() -> None:
    found = by_telephone("oblong-three-alike", "perished").low.estimate.steps
    assert next(step.minutes for step in found if step.operation.key == "look-over") == 20


def test_a_worse_condition_costs_more() -> None:
    for name in ("six-sided-treble", "twelve-sided-deep"):
        ranges = [by_telephone(name, condition) for condition in ("good", "leaky", "perished")]
        assert [one.least for one in ranges] == sorted(one.least for one in ranges)
        assert [one.most for one in ranges] == sorted(one.most for one in ranges)


@pytest.mark.parametrize(
    ("low", "high", "least", "most"),
    [("143.50", "386.24", "120", "450"), ("10", "10", "8", "12"), ("1000", "2000", "850", "2300"), ("88235", "88235", "74000", "110000")],
)
def test_a_range_is_wider_and_rounded_outward(low: str, high: str, least: str, most: str) -> None:
    """15 per cent off and on, to two digits, by hand."""
    assert phone_range(Decimal(low), Decimal(high)) == (Decimal(least), Decimal(most))


def test_the_telephone_knows_a_workshops_prices() -> None:
    shippeds = by_telephone("six-sided-treble", "leaky")
    own = by_telephone("six-sided-treble", "leaky", None, bench_of("[costs]\nlabour_rate = 56\n"))
    assert own.low.price is not None
    assert shippeds.low.price is not None
    assert own.low.price.labour == 2 * shippeds.low.price.labour
    assert own.low.price.materials == shippeds.low.price.materials
    other = by_telephone("six-sided-treble", "leaky", None, bench_of('[costs]\ncurrency = "JPY"\nlabour_rate = 5000\n'))
    assert "JPY" in phone_lines(other)[0]
    assert set(other.without) == {"cover skin", "gusset skin", "strip skin"}
    assert any("no price in JPY" in line for line in phone_lines(other))
    with pytest.raises(UsageError, match="labour_rate"):
        by_telephone("six-sided-treble", "leaky", None, bench_of('[costs]\ncurrency = "JPY"\n'))


@pytest.mark.parametrize(
    ("value", "told"),
    [("3000", "Worth bringing in."), ("700", "if you mean to play it"), ("300", "smaller job may well"), ("90", "more than it")],
)
def test_the_telephone_tells_the_share_first(value: str, told: str) -> None:
    first = phone_lines(by_telephone("six-sided-treble", "leaky", Decimal(value)))[0]
    shares = [int(found) for found in re.findall(r"\d+", first)]
    assert shares == [round(120 * 100 / Decimal(value)), round(450 * 100 / Decimal(value))]
    assert told in first


def test_a_name_that_does_not_ship() -> None:
    with pytest.raises(UsageError, match="six-sided-treble"):
        by_telephone("six-sided-trebel", "leaky")


def test_copies_share_on_the_page() -> None:
    profile: Profile = load("oblong-three-alike")
    found = quote(profile, Wanted(), NONE)
    assert found.chosen.price is not None
    each = round(found.chosen.price.total / 3, 2)
    assert f"for each of 3, about {each} EUR" in text_of(offering.page(found, A4))[1]

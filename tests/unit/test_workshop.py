"""A workshop file: what it may say, and what goes before it."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from bellowscut.errors import ProfileError, UsageError
from bellowscut.pipeline import draft
from bellowscut.profile import load as load_profile, loads as profile_of
from bellowscut.workshop import NONE, Workshop, load, loads

BENCH = """
name = "A bench (invented)"
address = ["1 Any Street", "Anytown"]
job_book = "jobs.csv"
[costs]
currency = "EUR"
labour_rate = 40
tax = 19
[minutes]
glue-gussets = [10, 2]
set-up-form = 30
[materials."gusset skin"]
price = 3.5
price_per = "sq ft"
[materials.linen]
price = 9
"""
FIVE = '[section]\nshape = "regular"\nsides = 6\nend_size = "6 1/4 in"\n[bellows]\nfolds = 6\nfold_depth = 25\n'


def test_everything_that_a_file_may_say() -> None:
    made = loads(BENCH)
    assert (made.name, made.address, made.book_path) == ("A bench (invented)", ("1 Any Street", "Anytown"), Path("jobs.csv"))
    assert made.costs == {"currency": "EUR", "labour_rate": 40, "tax": 19.0}
    assert made.minutes == {"glue-gussets": (Decimal(10), Decimal(2)), "set-up-form": (Decimal(30), Decimal(0))}
    assert made.prices["gusset skin"].price == Decimal("3.5")


def test_the_profile_goes_before_the_workshop_and_the_workshop_before_what_ships() -> None:
    profile = profile_of(FIVE + "[costs]\nlabour_rate = 55\n[minutes]\nclean = 45\nset-up-form = 7\n[materials.linen]\nprice = 1\n")
    found = loads(BENCH).applied(profile)
    assert (found.costs.labour_rate, found.costs.currency, found.costs.tax) == (Decimal(55), "EUR", 19)
    assert found.minutes == {
        "glue-gussets": (Decimal(10), Decimal(2)),
        "set-up-form": (Decimal(7), Decimal(0)),
        "clean": (Decimal(45), Decimal(0)),
    }
    assert (found.materials["linen"].price, found.materials["gusset skin"].price) == (Decimal(1), Decimal("3.5"))
    assert (found.materials["linen"].price_per, found.materials["gusset skin"].price_per) == ("m", "sq ft")
    assert NONE.applied(profile).materials["gusset skin"].price is None


@pytest.mark.parametrize(("name", "per"), [("gusset skin", "one"), ("grey card", "one"), ("linen", "metre")])
def test_a_price_for_nothing_in_particular_is_for_one_as_it_is_bought(name: str, per: str) -> None:
    """One whole skin or sheet, and a metre of a roll: as in a profile that gives the price itself."""
    table = f'[materials."{name}"]\nprice = 20\n'
    ours = loads(table).applied(profile_of(FIVE)).materials[name]
    assert (ours.price_per or "") == ("m" if per == "metre" else "")
    by_workshop = draft(profile_of(FIVE + "[costs]\ncharge = 'whole'\n"), workshop=loads(table)).estimate.needs
    by_profile = draft(profile_of(FIVE + "[costs]\ncharge = 'whole'\n" + table)).estimate.needs
    costs = [next(need.cost for need in needs if need.material.name == name) for needs in (by_workshop, by_profile)]
    assert costs[0] == costs[1]
    if per == "one":
        assert costs[0] is not None
        assert costs[0] % 20 == 0


def test_prices_do_not_change_a_pattern() -> None:
    """The fingerprint stays the same, so that a pattern on paper and a file priced later are known to belong together."""
    profile = load_profile("six-sided-treble")
    made = draft(profile, "regusset", (), loads(BENCH))
    assert made.bellows.profile.fingerprint == profile.fingerprint
    assert made.parts == draft(profile, "regusset").parts
    thicker = profile_of(FIVE + '[materials."gusset skin"]\nthickness = 0.5\n')
    assert thicker.fingerprint != profile_of(FIVE).fingerprint


def test_a_job_reckoned_with_a_workshop() -> None:
    """42 gussets at 10 + 2 each are 94 minutes instead of 120; an hour costs 40."""
    profile = profile_of(FIVE)
    before, after = draft(profile, "regusset").estimate, draft(profile, "regusset", (), loads(BENCH)).estimate
    assert before.minutes - after.minutes == 26
    assert after.labour == round(Decimal(40) * after.minutes / 60, 2)
    assert (before.own_minutes, after.own_minutes, after.currency) == (False, True, "EUR")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("[gusset]\nlap = 5\n", "gusset: belongs in a profile: a workshop file has [costs], [minutes], [materials]"),
        ("[minutes]\nglue-guset = 5\n", "minutes.glue-guset: is 5; is no operation of a job: the nearest is glue-gussets"),
        ("[minutes]\nclean = [1, 2, 3]\n", "minutes.clean: is [1, 2, 3]; has 3 values: should be minutes however many pieces there are"),
        ("[minutes]\nclean = -1\n", "may not be negative"),
        ("[minutes]\nclean = nan\n", "no finite number"),
        ("minutes = 5\n", "minutes: is 5; should be one table"),
        ("[costs]\nlabour_rat = 5\n", "the nearest is labour_rate"),
        ("[costs]\nmargin = 95\n", "from 0 per cent to 90 per cent"),
        ("[materials]\nlinen = 5\n", "materials.linen"),
        ("[materials.linen]\nthickness = 5\n", "materials.linen.thickness"),
        ('[materials.linen]\nprice_per = "m"\n', "no price beside it"),
        ("format = 2\n", "format: is 2"),
        ("nam = 'x'\n", "nam: "),
        ("name = \n", "does not read as TOML"),
    ],
)
def test_what_a_file_may_not_say(text: str, told: str) -> None:
    with pytest.raises(ProfileError) as caught:
        loads(text, "bench.toml")
    assert any(line.startswith("bench.toml:") and told in line for line in caught.value.lines()), caught.value.lines()


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(ProfileError) as caught:
        loads("[costs]\ntax = 200\n[minutes]\nx = 1\n[materials.linen]\nprice = -1\n")
    assert len(caught.value.problems) == 3


SHELF = """
[[materials."gusset skin".shelf]]
name = "one"
area = "4 sq ft"
price = 20
[[materials."gusset skin".shelf]]
name = "two"
area = "6 sq ft"
"""


def test_a_workshop_prices_what_stands_unpriced_on_a_shelf() -> None:
    """And leaves a shelf alone on which everything has its price."""
    some = loads(BENCH).applied(profile_of(FIVE + SHELF)).materials["gusset skin"]
    assert [one.price for one in some.shelf] == [Decimal(20), Decimal("3.5")]
    assert [one.price_per for one in some.shelf] == [None, "sq ft"]
    priced = loads(BENCH).applied(profile_of(FIVE + SHELF + "price = 15\n")).materials["gusset skin"]
    assert ([one.price for one in priced.shelf], priced.price) == ([Decimal(20), Decimal(15)], None)


def test_a_price_by_what_the_material_is_not_sold_by() -> None:
    with pytest.raises(UsageError, match="a roll is priced by m"):
        loads('[materials.linen]\nprice = 1\nprice_per = "sq ft"\n', "bench.toml").applied(profile_of(FIVE))


def test_the_job_book_lies_beside_its_workshop_file(tmp_path: Path) -> None:
    bench, books = tmp_path / "bench.toml", tmp_path / "jobs.csv"
    bench.write_text(BENCH, encoding="utf-8")
    assert load(bench) == Workshop(**{**vars(loads(BENCH, str(bench))), "book_path": books})
    books.write_text("job,what,took,unit\nregusset,clean,30,min\n", encoding="utf-8")
    assert [one.took for one in load(bench).book] == [30]
    other = tmp_path / "other.csv"
    other.write_text("job,what,took,unit\nregusset,clean,90,min\n", encoding="utf-8")
    assert [one.took for one in load(bench, other).book] == [90]
    assert [one.took for one in load(None, other).book] == [90]
    assert load(None) is NONE


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(ProfileError, match="no such file"):
        load(tmp_path / "none.toml")

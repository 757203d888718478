"""What a guess at old cards is worth, against the same cards hinged up in space."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from bellowscut.advice import warnings
from bellowscut.bellows import Bellows
from bellowscut.bench.sheet import work_sheet
from bellowscut.bench.work import Manner, Told
from bellowscut.drawing import Label
from bellowscut.guess import Guess, card_guess
from bellowscut.offering import Wanted, quote
from bellowscut.pages.cover import cover_pages
from bellowscut.parts import JOBS
from bellowscut.pipeline import Options, draft, files
from bellowscut.profile import load, loads
from bellowscut.quoting import changes
from tests.conftest import FIVE_LINES
from tests.space import cards

Make = Callable[..., Bellows]

CHEAP: dict[str, Any] = {"bellows": {"folds": 6, "fold_depth": 16.5}}
KEPT = ("regusset", "cover")
"""Jobs that keep the cards and cut what must fit them."""


def guessed(bellows: Bellows, job: str = "regusset") -> Guess:
    found = card_guess(bellows, job)
    assert found is not None
    return found


def valley_gap(bellows: Bellows, relief: float, stretch: float) -> float:
    """Between the cards of the first corner at the valley, hinged up in space [mm]."""
    return cards.ring(bellows.section.ridge, bellows.depth, bellows.corner_gap, relief, stretch).measure(0).valley_gap


def opened(bellows: Bellows, relief: float) -> float:
    """How long the bellows is when cards of a relief have opened their corners as far as its own guess has them [mm]."""
    goal = valley_gap(bellows, bellows.relief, bellows.stretch)
    low, high = 0.0, 90.0
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if valley_gap(bellows, relief, middle) < goal else (low, middle)
    return bellows.cards_per_side * bellows.depth * math.sin(math.radians(low))


@pytest.mark.parametrize("job", KEPT)
def test_the_worth_of_a_guess_is_that_of_the_cards_in_space(made: Make, job: str) -> None:
    bellows = made(**CHEAP, cover_gusset={})
    guess = guessed(bellows, job)
    assert list(guess.reliefs) == [2, 8]
    assert [guess.widths[0], guess.width, guess.widths[1]] == pytest.approx([18.4, 20.6, 23.0], abs=0.05)
    gaps = [valley_gap(bellows, relief, 50) for relief in (2, 5, 8)]
    # A millimetre of opening is a millimetre of gusset, but for what the slant of its laps makes of it.
    assert guess.width - guess.widths[0] == pytest.approx(gaps[1] - gaps[0], abs=0.1)
    assert guess.widths[1] - guess.width == pytest.approx(gaps[2] - gaps[1], abs=0.1)
    assert list(guess.lengths) == pytest.approx([opened(bellows, 8), opened(bellows, 2)], abs=1)
    text = warnings(bellows, job)[0].text
    assert "18.4 to 23.0 mm wide, not 20.6. So it may be 2.4 mm out" in text
    assert f"{guess.lengths[0]:.1f} to {guess.lengths[1]:.1f} mm instead of {bellows.open_length:.1f}" in text
    assert "ridge_edge and valley_edge under [readings]" in text


@pytest.mark.parametrize("job", JOBS)
def test_only_jobs_that_fit_old_cards_are_warned_and_first_of_all(made: Make, job: str) -> None:
    codes = [note.code for note in warnings(made(**CHEAP, section={"measured_on": "end"}), job)]
    assert (codes[:1] == ["card-not-measured"]) == (job in KEPT)
    assert "card-not-measured" not in codes[1:]


def test_gussets_made_beside_another_job_are_warned_of_too(made: Make) -> None:
    assert warnings(made(**CHEAP), "strips", ("gusset",))[0].code == "card-not-measured"
    assert draft(loads(FIVE_LINES), "strips", ("gusset",)).notes[0].code == "card-not-measured"


@pytest.mark.parametrize("known", [{"relief": 5}, {"closed_gap": 6}, {"readings": {"ridge_edge": 89.5, "valley_edge": 66.5}}], ids=repr)
def test_cards_that_are_known_are_no_guess(made: Make, known: dict[str, Any]) -> None:
    readings = known.get("readings", {})
    given = {} if readings else known
    assert card_guess(made(bellows={**CHEAP["bellows"], **given}, readings=readings), "regusset") is None


def test_an_own_gusset_is_cut_as_it_is_whatever_the_cards(made: Make) -> None:
    """Only how far it lets the cards open hangs on them; that is reckoned for either relief as if it had been given."""
    bellows = made(**CHEAP, gusset={"use": [21, 42]})
    guess = guessed(bellows)
    assert guess.own
    assert [guess.width, *guess.widths] == pytest.approx([21, 21, 21], abs=1e-6)
    for relief, length in zip((8, 2), guess.lengths, strict=True):
        given = made(bellows={**CHEAP["bellows"], "relief": relief}, gusset={"use": [21, 42]})
        assert given.open_length == pytest.approx(length, abs=0.1)
    text = warnings(bellows, "regusset")[0].text
    assert "cut 21.0 mm wide, as you gave it" in text


def test_a_relief_that_the_section_has_no_room_for_is_not_weighed(made: Make) -> None:
    """Folds nearly as deep as the sides allow: cards of a relief of 8 would have no valley edge left."""
    deep = made(bellows={"fold_depth": 50})
    low, high = guessed(deep).reliefs
    assert low == 2
    assert 5 <= high < 8
    made(bellows={"fold_depth": 50, "relief": high})


def test_it_reaches_everything_that_is_read() -> None:
    profile = loads(FIVE_LINES)
    pattern_set = draft(profile, "regusset")
    text = pattern_set.notes[0].text
    bellows, parts, estimate = pattern_set.bellows, pattern_set.parts, pattern_set.estimate
    found = files(pattern_set, Options(formats=()))
    assert json.loads(found["summary.json"])["warnings"][0] == {"code": "card-not-measured", "text": text}
    assert text in " ".join(found["summary.txt"].decode().split())
    steps = {one.step.operation.key: one for one in work_sheet(bellows, "regusset", parts, estimate.steps, pattern_set.notes).steps}
    assert Told(text, Manner.WARNING) in steps["measure"].told
    first, *_ = cover_pages(bellows, "regusset", parts, pattern_set.notes, paper=(210, 297), margin=10)
    assert text in " ".join(item.text for item in first.items if isinstance(item, Label))


@pytest.mark.parametrize(
    ("name", "relief", "told"),
    [("six-sided-treble", None, "may come out"), ("six-sided-treble", 4.0, ""), ("six-sided-old-gusset", None, "cut to an old one")],
)
def test_a_customer_is_told_what_hangs_on_the_cards(name: str, relief: float | None, told: str) -> None:
    profile = load(name)
    made = quote(replace(profile, bellows=replace(profile.bellows, relief=relief)), Wanted(job="regusset"))
    for way in made.ways:
        first = changes(replace(made, chosen=way))[0]
        if told and way.job in KEPT:
            assert "No card of the old bellows has been measured" in first
            assert told in first
        else:
            assert "measured" not in first

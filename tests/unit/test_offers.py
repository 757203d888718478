"""What the questions offer follows the size, and can be made."""

from __future__ import annotations

import pytest

from bellowscut.ask import EXAMPLE
from bellowscut.offers import LAPS, offers, text_of
from bellowscut.pipeline import draft
from bellowscut.profile import loads

CASES = [
    *((sides, measure, size) for sides in (4, 6, 8) for measure in ("across-flats", "across-corners") for size in (40, 70, 120, 158.75, 400, 3000)),
    *((sides, "side", size) for sides in (3, 5, 7) for size in (40, 70, 100, 400)),
    *((sides, "across-flats", size) for sides in (12, 32) for size in (70, 206, 3000)),
    (64, "across-flats", 158.75),
]  # fmt: skip
"""Ends from small to large, of few sides and many."""


def offered(said: dict[str, str]) -> dict[str, str]:
    values = {**EXAMPLE, **said}
    return {**values, **offers(values, said)}


@pytest.mark.parametrize(("sides", "measure", "size"), CASES)
def test_what_is_offered_for_ends_of_any_size_can_be_made(sides: int, measure: str, size: float) -> None:
    """By the road of `check`: nothing refused, and no laps that meet; spares nothing of the section."""
    said = {"section.sides": str(sides), "section.measure": f'"{measure}"', "section.end_size": str(size)}
    drafted = draft(loads(text_of(offered(said))))
    assert drafted.parts
    assert not {"laps-meet", "hinges-meet", "pleats-meet"}.intersection(note.code for note in drafted.notes)


@pytest.mark.parametrize("depth", [2, 3, 5, 8, 10, 12, 14, 16, 20, 25, 40, 50])
def test_laps_go_with_the_fold_depth_that_was_said(depth: int) -> None:
    """Lap under half the fold: what lies on one face from both ends leaves card between, whatever the fold."""
    drafted = draft(loads(text_of(offered({"bellows.fold_depth": str(depth)}))))
    profile = drafted.bellows.profile
    assert profile.bellows.fold_depth == depth
    assert max(profile.edge_strip.lap, profile.end_strip.lap, profile.gusset.lap) <= depth / 2
    assert not {"laps-meet", "hinges-meet"}.intersection(note.code for note in drafted.notes)


def test_a_usual_bellows_is_offered_the_usual_sizes() -> None:
    """158.75 across: 25 mm folds, and no key but that is written."""
    assert offers(EXAMPLE, ()) == {"bellows.fold_depth": '"25 mm"'}


def test_a_ten_millimetre_fold_is_not_offered_a_lap_of_seven() -> None:
    found = offers({**EXAMPLE, "bellows.fold_depth": "10"}, {"bellows.fold_depth"})
    assert found["edge_strip.lap"] == '"4 mm"'
    assert "bellows.fold_depth" not in found


def test_what_was_said_stays() -> None:
    said = {"bellows.fold_depth": "10", "edge_strip.lap": "6", "gusset.lap": '"1/8 in"'}
    assert not set(offers({**EXAMPLE, **said}, said)).intersection(said)


def test_the_glue_shadow_says_the_lap_on_a_small_fold_too() -> None:
    """A fold of 10 mm would be offered 3; the mark on the old card is 4 wide."""
    said = {"bellows.fold_depth": "10", "readings.glue_shadow": "4"}
    values = offered(said)
    assert "gusset.lap" not in values
    assert values["edge_strip.lap"] == '"4 mm"'
    assert loads(text_of(values)).gusset.lap == 4


def test_a_start_stays_where_it_can_be_made() -> None:
    """Laps of 7 mm on folds of 14 mm are nobody's business when they were so in the profile; on folds of 6 mm they meet."""
    start = {**EXAMPLE, "bellows.fold_depth": "14", "edge_strip.lap": "7", "hinge.lap": "5"}
    assert offers(start, (), start) == {}
    assert "edge_strip.lap" in offers({**start, "bellows.fold_depth": "6"}, {"bellows.fold_depth"}, start)


def test_ends_that_hold_no_bellows_are_offered_nothing() -> None:
    assert offers({**EXAMPLE, "section.sides": "64", "section.end_size": "20"}, ()) == {}


def test_laps_are_the_usual_ones_at_most() -> None:
    for depth in (4, 9, 17, 30):
        profile = loads(text_of(offered({"bellows.fold_depth": str(depth)})))
        usual = loads(text_of(EXAMPLE))
        for name in LAPS:
            table, key = name.split(".")
            assert getattr(getattr(profile, table), key) <= getattr(getattr(usual, table), key)

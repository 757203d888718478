"""The profiles that ship: invented, sound, and each of its own kind."""

from __future__ import annotations

import re
from importlib.resources import files
from pathlib import Path

import pytest

from bellowscut.profile import as_toml, load, loads, shipped

NAMES = shipped()


def text_of(name: str) -> str:
    beside = Path(str(files("bellowscut"))).parent / "profiles" / f"{name}.toml"
    return beside.read_text(encoding="utf-8")


def test_there_are_enough_and_their_names_are_plain() -> None:
    assert len(NAMES) >= 10
    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)*", name) for name in NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_each_loads_and_goes_round(name: str) -> None:
    made = load(name)
    assert made.source == name
    assert "name" in made.given
    for only_given in (False, True):
        assert loads(as_toml(made, only_given=only_given)).fingerprint == made.fingerprint


@pytest.mark.parametrize("name", NAMES)
def test_each_says_that_it_is_invented(name: str) -> None:
    text = text_of(name)
    first = text.split("format = 1")[0]
    assert first.startswith("# An invented ")
    priced = re.search(r"^(price|labour_rate) = ", text, re.MULTILINE) is not None
    assert priced == ("All prices are invented too." in first)


def test_no_two_are_alike() -> None:
    assert len({load(name).fingerprint for name in NAMES}) == len(NAMES)
    assert len({load(name).name for name in NAMES}) == len(NAMES)


def test_every_kind_of_bellows_is_there() -> None:
    made = [load(name) for name in NAMES]
    assert {profile.section.sides for profile in made} >= {3, 4, 6, 8, 12}
    assert {profile.section.shape for profile in made} == {"regular", "rectangle", "measured"}
    assert {profile.section.measured_on for profile in made} == {"frame", "frame-covered", "end"}
    for key in ("flats", "side_lengths", "corners", "other_end"):
        assert any(getattr(profile.section, key) for profile in made), key
    assert {profile.bellows.ends for profile in made} == {"ridge", "valley"}
    assert any(profile.bellows.travel for profile in made)
    assert any(profile.bellows.closed_gap for profile in made)
    assert any(profile.gusset.use for profile in made)
    assert any(profile.card.build == "run" for profile in made)
    assert {1, 7} <= {profile.bellows.folds for profile in made}
    assert any(profile.copies > 1 for profile in made)
    for optional in ("frame_hinge", "valley_strip", "ridge_cloth", "gasket", "corner_patch", "facing"):
        assert any(getattr(profile, optional) for profile in made), optional


def test_the_treble_is_the_five_line_profile() -> None:
    made = load("six-sided-treble")
    five = loads('section = {shape = "regular", sides = 6, end_size = "6 1/4 in"}\nbellows = {folds = 6, fold_depth = "25 mm"}')
    for table in ("section", "bellows", "card", "gusset", "edge_strip", "end_strip", "hinge"):
        assert getattr(made, table) == getattr(five, table)
    assert made.facing is not None
    assert made.materials["gusset skin"].price is not None


def test_the_sides_of_the_worked_example() -> None:
    """The six lengths whose misfit the geometry's text works out."""
    assert load("six-sided-by-sides").section.side_lengths == (91.2, 92.5, 91.0, 92.1, 91.9, 90.6)

"""From a profile to a bellows: which key each refusal names, its limit, and that a hair inside it builds."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Any

import pytest

from bellowscut.bellows import Bellows
from bellowscut.errors import ProfileError

Make = Callable[..., Bellows]
Tables = dict[str, dict[str, Any]]


def refused(made: Make, tables: Tables) -> dict[str, str]:
    """Key and message of every problem."""
    with pytest.raises(ProfileError) as error:
        made(**tables)
    assert error.value.exit_code == 2
    return {problem.key: problem.message for problem in error.value.problems}


def problems(made: Make, tables: Tables) -> set[str]:
    """Keys of every problem, none where it builds."""
    try:
        made(**tables)
    except ProfileError as error:
        return {problem.key for problem in error.problems}
    return set()


def limit(message: str, before: str) -> float:
    """The number of millimetres or degrees that follows some words."""
    found = re.search(re.escape(before) + r" (-?[0-9.]+)", message)
    assert found, message
    return float(found[1])


SKIN = {"form": "skin", "thickness": 0.4, "area": "5 sq ft"}

AT_A_LIMIT: tuple[tuple[str, str, str, float, dict[str, Any]], ...] = (
    ("bellows", "fold_depth", "must be under", 60, {}),
    ("gusset", "lap", "must be under", 40, {"gusset": {"frame_turn": 0.5, "ridge_turn": 0.5, "tip_lap": 20}}),
    ("bellows", "relief", "must be under", 50, {}),
    ("bellows", "closed_gap", "must be under", 100, {}),
    ("facing", "margin", "must be under", 30, {"facing": {"order": "first"}}),
    ("facing", "short_of_valley", "must be under", 30, {}),
    ("edge_strip", "lap", "must be under", 40, {"facing": {}}),
    ("gusset", "frame_turn", "must be under", 30, {}),
    ("gusset", "ridge_turn", "must be under", 30, {"bellows": {"ends": "valley"}}),
    ("bellows", "travel", "give at most", 330, {}),
    ("section", "ridge_setback", "must be under", 50, {"section": {"end_size": "3 in"}, "bellows": {"fold_depth": 2}}),
)
"""Table, key, words before the limit, a value past it, and what else the profile says."""


@pytest.mark.parametrize(("table", "key", "words", "value", "more"), AT_A_LIMIT, ids=[f"{row[0]}.{row[1]}" for row in AT_A_LIMIT])
def test_refused_past_the_limit_named(made: Make, table: str, key: str, words: str, value: float, more: Tables) -> None:
    def asked(size: float) -> Tables:
        return {**more, table: {**more.get(table, {}), key: size}}

    found = refused(made, asked(value))
    assert f"{table}.{key}" in found
    most = limit(found[f"{table}.{key}"], words)
    # Limits are printed to so many digits: past them by one of the last it is refused, within them it is not for this reason.
    step = 0.15 if key == "relief" or words == "give at most" else 0.02
    assert f"{table}.{key}" in refused(made, asked(most + step))
    assert f"{table}.{key}" not in problems(made, asked(most - step))


def test_a_relief_that_leaves_no_leg_is_named(made: Make) -> None:
    found = refused(made, {"bellows": {"relief": 61}})
    assert "no leg" in found["bellows.relief"]
    assert limit(found["bellows.relief"], "to under") == 60


@pytest.mark.parametrize(
    ("table", "key", "hair"),
    [("bellows", "fold_depth", 0.001), ("gusset", "lap", 0.001), ("gusset", "frame_turn", 0.001), ("bellows", "travel", 0.1)],
)
def test_a_hair_inside_its_limit_it_builds(made: Make, table: str, key: str, hair: float) -> None:
    row = next(row for row in AT_A_LIMIT if row[:2] == (table, key))
    more: Tables = row[4]
    message = refused(made, {**more, table: {**more.get(table, {}), key: row[3]}})[f"{table}.{key}"]
    inside = limit(message, row[2]) - hair
    assert made(**{**more, table: {**more.get(table, {}), key: inside}}).travel > 0


def test_depth_limit_leaves_two_millimetres_of_card(made: Make) -> None:
    bellows = made()
    deep = made(bellows={"fold_depth": bellows.depth_limit() - 0.001})
    lap = 5 / math.cos(math.radians(35))
    assert deep.card_width(0, deep.depth) - 2 * lap == pytest.approx(2, abs=0.01)


def test_too_deep_names_depth_and_a_lap_that_was_given(made: Make) -> None:
    assert set(refused(made, {"bellows": {"fold_depth": 60}})) == {"bellows.fold_depth"}
    assert set(refused(made, {"bellows": {"fold_depth": 54}, "gusset": {"lap": 6}})) == {"bellows.fold_depth", "gusset.lap"}
    found = refused(made, {"bellows": {"fold_depth": 54}, "gusset": {"lap": 6}})
    fits = limit(found["gusset.lap"], "must be under")
    assert made(bellows={"fold_depth": 54}, gusset={"lap": fits - 0.01}).depth == 54


def test_a_section_too_small_for_any_fold(made: Make) -> None:
    found = refused(made, {"section": {"shape": "regular", "sides": 12, "end_size": 40}, "bellows": {"fold_depth": 20}})
    assert "section" in found
    assert "too short" in found["section"]


def test_closed_gap_is_met_or_refused(made: Make) -> None:
    assert made(bellows={"closed_gap": 6}).closed_gap == pytest.approx(6, abs=1e-9)
    assert made(bellows={"closed_gap": 1}).relief == pytest.approx(0, abs=1e-9)
    assert "bellows.closed_gap" in refused(made, {"bellows": {"closed_gap": 0.99}})


def test_closed_gap_in_uneven_corners_is_the_smallest(made: Make) -> None:
    uneven = made(
        section={"shape": "measured", "corners": [[0, 0], [200, 0], [240, 120], [90, 190], [-30, 100]]}, bellows={"closed_gap": 5}
    )
    assert min(corner.opening(0) for corner in uneven.corners) == pytest.approx(5, abs=1e-9)
    assert len({round(corner.turn) for corner in uneven.corners}) > 2


@pytest.mark.parametrize(
    ("section", "key"),
    [
        ({"shape": "measured", "flats": [100, 250, 100]}, "section.flats"),
        ({"shape": "measured", "side_lengths": [80, 80, 90, 80, 80, 80]}, "section.side_lengths"),
        ({"shape": "measured", "corners": [[0, 0], [200, 0], [100, 20], [0, 200]]}, "section.corners"),
        ({"shape": "measured", "flats": [150, 150, 150], "other_end": [100, 250, 100]}, "section.other_end"),
        ({"shape": "regular", "sides": 6, "end_size": 100, "ridge_setback": 50}, "section.ridge_setback"),
    ],
)
def test_sections_are_refused_by_their_own_key(made: Make, section: dict[str, Any], key: str) -> None:
    assert set(refused(made, {"section": section})) == {key}


def test_both_ends_wrong_are_told_at_once(made: Make) -> None:
    section = {"shape": "measured", "flats": [100, 250, 100], "other_end": [250, 100, 100]}
    assert set(refused(made, {"section": section})) == {"section.flats", "section.other_end"}


def test_a_bellows_that_would_not_open(made: Make) -> None:
    found = refused(made, {"bellows": {"fold_depth": 4, "stretch": 30}})
    least = limit(found["bellows.stretch"], "must be over")
    assert made(bellows={"fold_depth": 4, "stretch": least + 0.1}).travel == pytest.approx(0, abs=0.2)
    assert "bellows.stretch" in refused(made, {"bellows": {"fold_depth": 4, "stretch": least - 0.1}})


def test_a_bellows_that_no_stretch_would_open(made: Make) -> None:
    """With layers thicker than two cards are deep there is no stretch to recommend."""
    found = refused(made, {"bellows": {"fold_depth": 2.5, "stretch": 90}})
    assert "bellows.stretch" in found
    assert "over 90.0" in found["bellows.stretch"] or "thinner" in found["bellows.stretch"]


def test_gaps_that_leave_no_card(made: Make) -> None:
    assert "card.valley_gap" in refused(made, {"card": {"valley_gap": 49.8}})
    assert made(card={"valley_gap": 49.7}).valley_gap == 49.7


def test_skive_wider_than_the_tip_lap(made: Make) -> None:
    found = refused(made, {"gusset": {"skive": 3.01}})
    assert set(found) == {"gusset.skive"}
    assert made(gusset={"skive": 3}).profile.gusset.skive == 3


def test_a_tip_that_vanishes_before_the_ridge(made: Make) -> None:
    found = refused(made, {"gusset": {"lap": 14, "tip_lap": 0.1}, "bellows": {"fold_depth": 12}})
    assert set(found) & {"gusset.tip_lap", "gusset.ridge_turn"}


def test_a_tip_that_vanishes_is_told_once(made: Make) -> None:
    """The tightest corner's limit, not one line for every corner."""
    for section in ({}, {"shape": "measured", "corners": [[0, 0], [200, 0], [240, 120], [90, 190], [-30, 100]]}):
        with pytest.raises(ProfileError) as error:
            made(section=section, gusset={"frame_turn": 40})
        assert [problem.key for problem in error.value.problems] == ["gusset.frame_turn"]


def test_an_own_gusset_too_narrow(made: Make) -> None:
    found = refused(made, {"gusset": {"use": [10, 60]}})
    assert set(found) == {"gusset.use"}
    least = limit(found["gusset.use"], "needs")
    assert made(bellows={"fold_depth": 25}, gusset={"use": [least + 3, 60]}).stretch < 50
    # Cards that nobody measured may be narrower still; those of which the relief is given are not.
    assert "relief of 5 degrees is a guess" in found["gusset.use"]
    assert "guess" not in refused(made, {"gusset": {"use": [10, 60]}, "bellows": {"relief": 5}})["gusset.use"]


def test_an_own_gusset_governs_the_stretch(made: Make) -> None:
    """In uneven corners the one that asks for the widest gusset stops all."""
    plain = {"tip_radius": 0, "point_radius": 0}
    alike = made(gusset={"use": [25.699, 62.352], **plain})
    assert alike.stretch == pytest.approx(50, abs=0.01)
    uneven = made(section={"shape": "measured", "corners": [[0, 0], [150, 0], [190, 120], [60, 170]]}, gusset={"use": [25, 60], **plain})
    allowed = [corner.stretch_for_gusset(25, 5, 3) for corner in uneven.corners]
    assert uneven.stretch == pytest.approx(min(allowed), abs=0.1)
    assert max(allowed) > min(allowed) + 1


def test_an_own_gusset_shorter_than_its_turns(made: Make) -> None:
    found = refused(made, {"gusset": {"use": [26, 3]}})
    assert "two tip turns alone take 3 mm" in found["gusset.use"]


def test_travel_instead_of_stretch(made: Make) -> None:
    asked = made(bellows={"travel": 230.2155})
    assert asked.travel == pytest.approx(230.2155, abs=1e-9)
    assert asked.stretch == pytest.approx(50, abs=1e-4)


def test_copies_and_names_change_no_geometry(made: Make) -> None:
    assert made(top={"copies": 4, "name": "Four alike"}).section == made().section


def test_excess_on_the_form_is_that_of_the_widest_corner(made: Make) -> None:
    section = {"shape": "measured", "corners": [[0, 0], [200, 0], [240, 120], [90, 190], [-30, 100]]}
    for slope in (40, 60):
        uneven = made(section=section, bellows={"form_slope": slope})
        spare = sorted(corner.opening(50) - corner.opening(slope) for corner in uneven.corners)
        assert uneven.excess_on_form == (spare[-1] if slope < 50 else spare[0])
        assert spare[-1] - spare[0] > 0.5


def test_form_slope_is_no_steeper_than_the_stretch(made: Make) -> None:
    assert made(bellows={"stretch": 40}).form_slope == 40
    assert made(bellows={"stretch": 70}).form_slope == 50
    steep = made(bellows={"stretch": 40, "form_slope": 60})
    assert steep.form_slope == 60
    assert steep.excess_on_form < 0, "on a steeper form the gusset is too tight"
    assert made(bellows={"stretch": 60, "form_slope": 45}).excess_on_form > 0


@pytest.mark.parametrize(
    ("tables", "gap"),
    [
        ({}, 2.0),
        ({"facing": {"span": "card"}}, 2.0),
        ({"facing": {"span": "pair"}}, 2.3),
        ({"valley_strip": {}}, 2.8),
        ({"valley_strip": {}, "facing": {"span": "pair"}}, 3.1),
        ({"hinge": {"valley_side": "outside"}}, 0.2),
        ({"card": {"valley_gap": 1.5}}, 1.5),
    ],
)
def test_valley_gap_holds_what_lies_in_the_fold(made: Make, tables: Tables, gap: float) -> None:
    assert made(**tables).valley_gap == pytest.approx(gap)


def test_the_stack_takes_up_every_layer_that_is_made(made: Make) -> None:
    plain, full = made(), made(facing={}, valley_strip={}, ridge_cloth={})
    assert full.stack.face - plain.stack.face == pytest.approx(0.3)
    assert full.stack.valley - plain.stack.valley == pytest.approx(0.3 + 0.8)
    assert full.stack.ridge - plain.stack.ridge == pytest.approx(0.4)
    assert full.stack.corner == plain.stack.corner


def test_a_strip_skived_to_its_lap_lies_thinner_over_the_ridge(made: Make) -> None:
    assert made(edge_strip={"lap": 7, "skive": 5}).layers.strip_at_ridge == 0.6
    assert made(edge_strip={"lap": 5, "skive": 5}).layers.strip_at_ridge == pytest.approx(0.4)
    assert made(gusset={"skive": 2}).layers.gusset_lap == pytest.approx((2 * 0.25 + 3 * 0.4) / 5)


def test_stack_factor_scales_the_closed_length_only(made: Make) -> None:
    plain, taught = made(), made(bellows={"stack_factor": 0.9})
    assert taught.closed_length == pytest.approx(0.9 * plain.closed_length)
    assert taught.open_length == plain.open_length


def test_closed_length_counts_cells(made: Make) -> None:
    assert made().closed_length == pytest.approx(7 * made().stack.corner)
    assert made(bellows={"ends": "valley"}).closed_length == pytest.approx(6 * made().stack.corner)


@pytest.mark.parametrize(("on", "frame"), [("frame", 158.75), ("frame-covered", 157.55), ("end", 158.75)])
def test_what_was_measured(made: Make, on: str, frame: float) -> None:
    flats = made(section={"measured_on": on}).section.flats
    assert flats is not None
    assert flats[0] == pytest.approx(frame)


def test_default_set_back_is_the_strip_and_half_the_thinned_gusset(made: Make) -> None:
    bellows = made(**{'materials."gusset skin"': {**SKIN, "thickness": 0.5}})
    assert bellows.section.flats is not None
    assert bellows.section.ridge_flats is not None
    assert bellows.section.flats[0] - bellows.section.ridge_flats[0] == pytest.approx(2 * (0.6 + (0.5 + 0.1) / 2))


def test_default_corner_gap_grows_with_thick_card(made: Make) -> None:
    assert made().corner_gap == 1
    heavy = {'materials."grey card"': {"form": "sheet", "thickness": 1.5, "size": [1000, 700]}}
    assert made(**heavy).corner_gap == 1.5
    assert made(**heavy, bellows={"corner_gap": 0.2}).corner_gap == 0.2


def test_nothing_left_inside_is_nought(made: Make) -> None:
    """A narrow bellows of such thick cards that they meet in the middle has no opening, and is no error."""
    small = made(
        section={"shape": "rectangle", "width": 200, "height": 60},
        bellows={"fold_depth": 26, "relief": 0, "corner_gap": 0},
        gusset={"lap": 0.5, "tip_lap": 0.5, "frame_turn": 0.5, "ridge_turn": 0.5},
        **{'materials."grey card"': {"form": "sheet", "thickness": 4, "size": [1000, 700]}},
    )
    assert small.inside_opening == 0


def test_two_ends_that_differ(made: Make) -> None:
    section = {"shape": "measured", "flats": [158.9, 158.2, 159.1], "other_end": [159.3, 158.8, 159.5]}
    flats = made(section=section).section.flats
    assert flats == pytest.approx((159.1, 158.5, 159.3))
    assert {pack.end for pack in made(section=section).section.packing} == {"right"}

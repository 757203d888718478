"""Every warning: a bellows just past its limit has it, one just short of it has not, and the figure it names is right."""

from __future__ import annotations

import inspect
import math
import re
from collections.abc import Callable
from typing import Any

import pytest

from bellowscut import advice
from bellowscut.bellows import Bellows
from bellowscut.parts import JOBS
from bellowscut.pipeline import Options, draft, files
from bellowscut.profile import load

Make = Callable[..., Bellows]
Tables = dict[str, dict[str, Any]]

FLATS = {"shape": "measured", "flats": [158.75, 160.75, 158.75]}
SIDES = {"shape": "measured", "side_lengths": [91.2, 92.5, 91.0, 92.1, 91.9, 90.6]}
SQUARE = {"shape": "rectangle", "width": 160, "height": 160}
FIVE = [[0, 0], [118, 0], [156, 104], [64, 172], [-36, 108]]
TRACED = {"shape": "measured", "corners": FIVE, "other_end": FIVE}
OLD = {"gusset": {"use": [25.7, 62.35]}}


def of(name: str, thickness: float, **more: Any) -> Tables:
    """A material of some thickness."""
    return {f'materials."{name}"': {"thickness": thickness, **more}}


def skiver(name: str) -> Tables:
    """Gussets of a leather of that name, of a thickness that would do."""
    return {"gusset": {"material": name}, **of(name, 0.4, form="skin")}


def patch(thickness: float) -> Tables:
    """Corner patches of some thickness."""
    return {"corner_patch": {"material": "patch skin"}, **of("patch skin", thickness, form="skin")}


def _cards_of_two_sides(one: float, other: float) -> Tables:
    return {"readings": {"ridge_edge": 89.5, "valley_edge": {"A": one, "B": other}}}


OBLONG = {"shape": "rectangle", "width": 160, "height": 159}

AT_A_LIMIT: tuple[tuple[str, Tables, Tables], ...] = (
    ("card-not-measured", {}, {"bellows": {"relief": 5}}),
    ("readings-apart", {"readings": {"glue_shadow": [5, 5.6]}}, {"readings": {"glue_shadow": [5, 5.5]}}),
    # By steps of a tenth, 25 mm folds: 1.7 mm of taper is more than the two degrees and more that two cards may differ by.
    ("sides-apart", _cards_of_two_sides(54.5, 52.0), _cards_of_two_sides(54.5, 53.5)),
    ("end-and-card", {"readings": {"ridge_edge": 90.4}}, {"readings": {"ridge_edge": 90.3}}),
    ("end-and-card", {"readings": {"ridge_edge": 87.2}}, {"readings": {"ridge_edge": 87.3}}),
    ("name-the-side", {"section": OBLONG, "readings": {"ridge_edge": 156}}, {"section": OBLONG, "readings": {"ridge_edge": {"A": 156}}}),
    ("measured-on-end", {"section": {"measured_on": "end"}}, {"section": {"measured_on": "frame"}}),
    ("measured-on-cover", {"section": {"measured_on": "frame-covered"}}, {"section": {"measured_on": "frame"}}),
    ("flats-hide-sides", {"section": FLATS}, {"section": SIDES}),
    ("flats-alike", {"section": {**FLATS, "flats": [158, 159, 158.5]}}, {"section": {**FLATS, "flats": [158, 159.1, 158.5]}}),
    ("sides-misfit", {"section": {**SIDES, "side_lengths": [90, 90, 91.53, 90, 90, 90]}}, {"section": SIDES}),
    (
        "other-end-mirrored",
        {"section": {**TRACED, "other_end": [[-x, y] for x, y in FIVE]}},
        {"section": {**TRACED, "other_end": [[-x, -y] for x, y in FIVE]}},
    ),
    (
        "other-end-turned",
        {"section": {**TRACED, "other_end": FIVE[2:] + FIVE[:2]}},
        {"section": {**TRACED, "other_end": [[-y, x] for x, y in FIVE]}},
    ),
    (
        "ends-differ",
        {"section": {**FLATS, "other_end": [159.75, 160.75, 158.75]}},
        {"section": {**FLATS, "other_end": [158.8, 160.75, 158.75]}},
    ),
    ("gusset-leather", of("gusset skin", 0.51), of("gusset skin", 0.5)),
    ("gusset-skiver", skiver("sheepskin skiver"), skiver("sheepskin")),
    ("strip-leather", of("strip skin", 0.71), of("strip skin", 0.7)),
    ("cover-leather", {**of("cover skin", 0.21), "cover_gusset": {}}, {**of("cover skin", 0.2), "cover_gusset": {}}),
    ("patch-leather", {**of("gusset skin", 0.51), "corner_patch": {}}, of("gusset skin", 0.51)),
    ("card-thickness", of("grey card", 1.51), of("grey card", 1.5)),
    ("corner-gap", {"section": SQUARE, "bellows": {"corner_gap": 1.4}}, {"section": SQUARE, "bellows": {"corner_gap": 1.42}}),
    ("valley-gap", {"card": {"valley_gap": 1.9}}, {"card": {"valley_gap": 2}}),
    ("radius-reduced", {"card": {"ridge_radius": 20, "valley_radius": 20}}, {"card": {"ridge_radius": 2, "valley_radius": 2}}),
    ("laps-meet", {"edge_strip": {"lap": 19}, "valley_strip": {}}, {"edge_strip": {"lap": 18}, "valley_strip": {}}),
    ("hinges-meet", {"hinge": {"lap": 12}}, {"hinge": {"lap": 11.9}}),
    ("relief", {"bellows": {"relief": 1.1}}, {"bellows": {"relief": 1.2}}),
    ("gusset-stretch", {**OLD, "bellows": {"stretch": 55}}, {**OLD, "bellows": {"stretch": 50.5}}),
    ("gusset-length", {"gusset": {"use": [25.7, 63.4]}}, {"gusset": {"use": [25.7, 63.2]}}),
    ("stretch-low", {"bellows": {"stretch": 29}}, {"bellows": {"stretch": 30}}),
    ("over-centre", {"bellows": {"stretch": 86}}, {"bellows": {"stretch": 80}}),
    ("pleats-meet", {"bellows": {"fold_depth": 50, "stretch": 85}, "gusset": {"lap": 3}}, {"bellows": {"fold_depth": 25, "stretch": 85}}),
    ("leather-share", {"bellows": {"fold_depth": 40, "stretch": 60}}, {"bellows": {"fold_depth": 40, "stretch": 45}}),
    ("form-slope", {"bellows": {"stretch": 51}}, {"bellows": {"stretch": 50}}),
    ("valley-ends", {"bellows": {"ends": "valley"}}, {"bellows": {"ends": "ridge"}}),
    ("strip-joint", {"edge_strip": {"joint": 1.8}}, {"edge_strip": {"joint": 1.9}}),
    # Half a millimetre at the edge: 2 x 7 tan 30 cos t.
    ("darts", {"edge_strip": {"darts": True}, "bellows": {"stretch": 86.5}}, {"edge_strip": {"darts": True}, "bellows": {"stretch": 86.4}}),
    ("closed-length", {"bellows": {"old_closed_length": 37.8}}, {"bellows": {"old_closed_length": 37.9}}),
    ("reed-clearance", {"bellows": {"reed_clearance": 105.1}}, {"bellows": {"reed_clearance": 105}}),
    (
        "letters",
        {"top": {"name": "\u697d\u5668"}},
        {"top": {"name": "\u017dlu\u0165ou\u010dk\u00fd, \u0411\u0430\u044f\u043d, \u0391\u03b8\u03ae\u03bd\u03b1"}},
    ),
    ("facing-short", {"facing": {}, "end_strip": {"lap": 5.7}}, {"facing": {}, "end_strip": {"lap": 5.9}}),
)
"""Code, a profile that has it, and the same a little to the other side."""


def told(made: Make, tables: Tables, job: str = "rebellows") -> dict[str, str]:
    return {note.code: note.text for note in advice.warnings(made(**tables), job)}


@pytest.mark.parametrize(("code", "past", "short"), AT_A_LIMIT, ids=[row[0] for row in AT_A_LIMIT])
def test_a_warning_stands_at_its_limit(made: Make, code: str, past: Tables, short: Tables) -> None:
    job = "regusset" if code == "card-not-measured" else "rebellows"
    assert code in told(made, past, job)
    assert code not in told(made, short, job)


def test_reeds_need_what_they_need_to_the_last_hundredth(made: Make) -> None:
    """Across the flats twice the set-back, the fold depth and a card are lost at each side: 158.75 - 2 x (0.85 + 25 + 1) = 105.05 mm."""
    opening = 158.75 - 2 * (0.85 + 25 + 1)
    assert "reed-clearance" not in told(made, {"bellows": {"reed_clearance": round(opening - 0.001, 3)}})
    assert "reed-clearance" in told(made, {"bellows": {"reed_clearance": round(opening + 0.001, 3)}})
    text = told(made, {"section": {"end_size": 160}, "bellows": {"reed_clearance": 112}})["reed-clearance"]
    assert "Inside opening closed 106.3 mm, and 112.0 mm are needed" in text


def test_outside_hinges_take_room_once_on_each_face(made: Make) -> None:
    """Ridge hinges lie inside, valley hinges then outside: 25 mm less half of each hinge's 0.2 mm leave a card 24.8 mm high."""
    outside = {"valley_side": "outside"}
    assert "hinges-meet" in told(made, {"hinge": {"lap": 12.5}})
    assert "hinges-meet" not in told(made, {"hinge": {**outside, "lap": 12.5}})
    assert "hinges-meet" not in told(made, {"hinge": {**outside, "lap": 24.7}})
    assert "take 24.9 mm of a card 24.8 mm high" in told(made, {"hinge": {**outside, "lap": 24.9}})["hinges-meet"]
    # On the outside they share the card with the end strip's 8 mm, and a valley strip lies over them.
    assert "laps-meet" not in told(made, {"hinge": {**outside, "lap": 16.7}, "valley_strip": {"lap": 16.7}})
    assert "take 24.9 mm of a card 24.8 mm high" in told(made, {"hinge": {**outside, "lap": 16.9}})["laps-meet"]
    # Inside hinges leave the outside alone.
    assert "laps-meet" not in told(made, {"hinge": {"lap": 16.9}})


def test_warnings_stand_in_the_order_of_the_bench(made: Make) -> None:
    """Measuring, cutting, folding, fitting: the table above is in that order."""
    many: Tables = {
        "section": {**TRACED, "other_end": [[-x, y] for x, y in FIVE], "measured_on": "end"},
        "bellows": {"corner_gap": 0.5, "relief": 0.5, "stretch": 29, "form_slope": 50, "old_closed_length": 10, "reed_clearance": 300},
        "card": {"valley_gap": 1},
        "hinge": {"lap": 14},
        "edge_strip": {"joint": 1},
        "facing": {},
        "end_strip": {"lap": 5},
    }
    order = [row[0] for row in AT_A_LIMIT]
    found = [note.code for note in advice.warnings(made(**many), "rebellows")]
    assert {"measured-on-end", "corner-gap", "hinges-meet", "relief", "stretch-low", "strip-joint"} <= set(found)
    assert found[-3:] == ["closed-length", "reed-clearance", "facing-short"]
    assert found == sorted(found, key=order.index)


def test_every_warning_is_in_the_table() -> None:
    written = set(re.findall(r'Note\(\s*"([a-z-]+)"', inspect.getsource(advice)))
    assert written == {row[0] for row in AT_A_LIMIT}


def test_every_warning_says_which_jobs_meet_it() -> None:
    written = set(re.findall(r'Note\(\s*"([a-z-]+)"', inspect.getsource(advice)))
    assert written == set(advice.MEETS)
    for jobs in (*advice.MEETS.values(), *(caution.jobs for caution in advice.CAUTIONS)):
        assert jobs
        assert jobs <= set(JOBS)


NOT_MET: tuple[tuple[str, str], ...] = (
    ("form-slope", "strips"),
    ("form-slope", "patches"),
    ("form-slope", "cover"),
    ("ends-differ", "cover"),
    ("ends-differ", "patches"),
    ("hinges-meet", "strips"),
    ("hinges-meet", "regusset"),
    ("radius-reduced", "regusset"),
    ("strip-joint", "cover"),
    ("measured-on-end", "patches"),
    ("relief", "strips"),
    ("leather-share", "strips"),
)
"""Warnings of what a job neither makes, nor measures, nor glues: strips have no form, covers no frame, new gussets no new
hinges (common practice, no source)."""


@pytest.mark.parametrize(("code", "job"), NOT_MET)
def test_a_job_is_not_warned_of_what_it_does_not_touch(made: Make, code: str, job: str) -> None:
    bellows = made(**next(past for row, past, _ in AT_A_LIMIT if row == code))
    assert code in {note.code for note in advice.warnings(bellows, "rebellows")}
    assert code not in {note.code for note in advice.warnings(bellows, job)}


def test_a_whole_new_bellows_meets_every_warning_but_that_of_old_cards() -> None:
    assert {code for code, jobs in advice.MEETS.items() if "rebellows" not in jobs} == {"card-not-measured"}


@pytest.mark.parametrize("job", JOBS)
def test_advice_is_for_the_job(six_fold: Bellows, job: str) -> None:
    text = " ".join(advice.advice(six_fold, job))
    assert ("lift gusset tips" in text) is (job == "strips")
    assert ("Press each card" in text) is (job in ("regusset", "cover"))
    assert ("Cut strips 15 mm too long" in text) is (job in ("rebellows", "regusset", "strips"))
    assert ("Fold it into an open corner" in text) is (job in ("rebellows", "regusset", "cover"))
    assert "Lay the rule on the bars" in text


def test_a_summary_speaks_of_machines_only_beside_drawings_for_one() -> None:
    one = draft(load("six-sided-shallow"), "strips")
    alone, beside = (files(one, Options(formats=formats))["summary.txt"].decode() for formats in (("pdf",), ("dxf",)))
    assert "laser" not in alone
    by_hand, _, by_machine = beside.partition("If a machine cuts these drawings")
    assert "laser" not in by_hand
    assert "A laser is never left alone" in by_machine


@pytest.mark.parametrize("job", JOBS)
def test_a_caution_of_machines_stands_where_one_cuts(job: str) -> None:
    by_hand, by_machine = ({one.key for one in advice.cautions(job, machine=machine)} for machine in (False, True))
    assert by_machine - by_hand == {"laser", "manual"}
    assert by_hand >= {"blades", "glue", "dust", "rules"}
    assert ("paper" in by_hand) is (job in ("rebellows", "regusset", "cover"))


def test_a_usual_bellows_has_none(six_fold: Bellows) -> None:
    assert advice.warnings(six_fold, "rebellows") == ()


def test_the_figures_named_are_those_of_the_bellows(made: Make) -> None:
    assert "bare wood is about 1.2 mm less" in told(made, {"section": {"measured_on": "frame-covered"}})["measured-on-cover"]
    mirrored = told(made, {"section": {**TRACED, "other_end": [[-x, y] for x, y in FIVE[1:] + FIVE[:1]]}})["other-end-mirrored"]
    assert "as its mirror image 0.0 mm" in mirrored
    assert "its side A between (0, 0) and (-118, 0)" in mirrored
    turned = told(made, {"section": {**TRACED, "other_end": FIVE[2:] + FIVE[:2]}})["other-end-turned"]
    assert "side A between its corners (0, 0) and (118, 0)" in turned
    # Cards jam where the gap fills: cos t = gap / (2 card).
    assert f"jam at {math.degrees(math.acos(1.5 / 2)):.0f} degrees" in told(made, {"card": {"valley_gap": 1.5}})["valley-gap"]
    assert "New closed length 37.9 mm, old 30.0 mm" in told(made, {"bellows": {"old_closed_length": 30}})["closed-length"]
    assert "up to 38.3 mm" in told(made, {"bellows": {"ends": "valley"}})["valley-ends"]
    assert "they need 1.414 mm" in told(made, {"section": SQUARE, "bellows": {"corner_gap": 1.2}})["corner-gap"]
    known = {"bellows": {"relief": 5}}
    assert "would be 62.4 mm long; yours is 66.0 mm" in told(made, {**known, "gusset": {"use": [25.45, 66]}})["gusset-length"]
    assert "which is a guess, would be 62.4 mm long" in told(made, {"gusset": {"use": [25.45, 66]}})["gusset-length"]


TOO_THIN: tuple[tuple[str, Tables, Tables], ...] = (
    ("gusset-leather", of("gusset skin", 0.29), of("gusset skin", 0.3)),
    ("strip-leather", of("strip skin", 0.49), of("strip skin", 0.5)),
    ("cover-leather", {**of("cover skin", 0.09), "cover_gusset": {}}, {**of("cover skin", 0.1), "cover_gusset": {}}),
    ("patch-leather", patch(0.09), patch(0.1)),
    ("card-thickness", of("grey card", 0.59), of("grey card", 0.6)),
)
"""As above, to the other side."""


@pytest.mark.parametrize(("code", "past", "short"), TOO_THIN, ids=[row[0] for row in TOO_THIN])
def test_too_thin_is_told_as_well_as_too_thick(made: Make, code: str, past: Tables, short: Tables) -> None:
    assert "that is thin" in told(made, past)[code]
    assert code not in told(made, short)


def test_each_leather_is_named_with_what_it_is_for(made: Make) -> None:
    """Gussets of 0.8 mm and strips of 1.0 mm; one sentence for both strips of one leather, one each for two."""
    text = told(made, of("gusset skin", 0.8))["gusset-leather"]
    assert "gussets are of gusset skin, 0.8 mm: that is thick, 0.3 to 0.5 mm" in text
    both = [note.text for note in advice.warnings(made(**of("strip skin", 1.0)), "rebellows") if note.code == "strip-leather"]
    assert len(both) == 1
    assert "edge and end strips are of strip skin, 1 mm: that is thick, 0.5 to 0.7 mm" in both[0]
    apart = made(**of("strip skin", 1.0), **of("other", 0.4, form="skin"), end_strip={"material": "other"})
    assert [note.text.partition(",")[0] for note in advice.warnings(apart, "rebellows")] == [
        "The edge strips are of strip skin",
        "The end strips are of other",
    ]


def test_letters_that_print_lacks_are_named_with_their_codes(made: Make) -> None:
    text = told(made, {"top": {"name": "Box \u697d"}, "quote": {"customer": "\u05d0"}})["letters"]
    assert "\u697d (U+697D), \u05d0 (U+05D0)" in text
    many = "".join(map(chr, range(0x4E00, 0x4E14)))
    assert "(U+4E0B) and 8 more" in told(made, {"top": {"name": many}})["letters"]


def test_a_form_too_steep_is_told_apart_from_one_too_flat(made: Make) -> None:
    assert "spare in each corner" in told(made, {"bellows": {"stretch": 55, "form_slope": 45}})["form-slope"]
    assert "too tight in each corner" in told(made, {"bellows": {"stretch": 45, "form_slope": 50}})["form-slope"]
    # A form that nobody named is never steeper than the bellows opens.
    assert "form-slope" not in told(made, {"bellows": {"stretch": 45}})


def test_gussets_wider_than_any_opening_say_so(made: Make) -> None:
    assert "stand in folds" in told(made, {"gusset": {"use": [80, 62]}})["gusset-stretch"]


def test_frames_are_packed_to_the_middle(made: Make) -> None:
    """A second end 1 mm larger across A: its flat is half a millimetre over the middle, a quarter on each of sides A and D."""
    text = told(made, {"section": {**FLATS, "other_end": [159.75, 160.75, 158.75]}})["ends-differ"]
    assert "Pack the right-hand frame at side A 0.25 mm and D 0.25 mm, or" in text
    assert "differ by 0.5 mm at a side" in text


def test_thicker_leather_costs_closed_length(six_fold: Bellows, made: Make) -> None:
    """Each tenth of a millimetre, worked out again with thicker leather, against the figure of the advice."""
    skin = {"form": "skin", "thickness": 0.5, "area": "5 sq ft"}
    thicker = made(**{'materials."gusset skin"': skin})
    grown = thicker.closed_length - six_fold.closed_length
    assert f"0.1 mm more is {grown:.1f} mm closed" in " ".join(advice.advice(six_fold, "rebellows"))

"""Readings of an old card: relief, corner gap and lap from them, what no card can have, and what they contradict."""

from __future__ import annotations

import json
import math
import random
from collections.abc import Callable
from statistics import stdev
from typing import Any

import pytest

from bellowscut import advice
from bellowscut.bellows import Bellows, build
from bellowscut.errors import ProfileError
from bellowscut.estimate import estimate
from bellowscut.folds import Corner, gap_of_card, lean_of_card
from bellowscut.pages.figures_table import figures
from bellowscut.parts import make_parts
from bellowscut.profile import as_toml, loads
from bellowscut.section import Section
from bellowscut.summary import as_json, size_lines

Make = Callable[..., Bellows]

CARD = {"ridge_edge": 89.5, "valley_edge": 54.5}
"""A card of the five-line profile as a rule reads it: 89.518 and 54.508 mm, relief 5 and corner gap 1."""

OBLONG = {"shape": "rectangle", "width": 250, "height": 120}
LOPSIDED = {"shape": "measured", "corners": [[0, 0], [150, 0], [190, 120], [60, 170]]}


def refused(made: Make, **tables: Any) -> dict[str, str]:
    with pytest.raises(ProfileError) as caught:
        made(**tables)
    return {problem.key: problem.message for problem in caught.value.problems}


def notes(bellows: Bellows, job: str = "regusset") -> dict[str, str]:
    return {note.code: note.text for note in advice.warnings(bellows, job)}


def by_side(section: Section, corners: tuple[Corner, ...]) -> list[tuple[float, float]]:
    """Both edges of each side's card, put together from right triangles at its ends [mm]."""
    found = []
    for i, side in enumerate(section.sides):
        ends = corners[i], corners[(i + 1) % section.count]
        ridge = side - sum(end.gap / 2 / math.cos(math.radians(end.turn / 2)) for end in ends)
        found.append((ridge, ridge - sum(end.depth * math.tan(math.radians(end.turn / 2 + end.relief)) for end in ends)))
    return found


def test_the_worked_card() -> None:
    """Six sides of 91.6544 mm along the ridge, folds of 25 mm: card edges 90.4997 and 55.4893 mm are relief 5, corner gap 1."""
    assert lean_of_card(90.4997, 55.4893, 25, (60, 60)) == pytest.approx(35, abs=1e-3)
    assert gap_of_card(91.6544, 90.4997, (60, 60)) == pytest.approx(1, abs=1e-3)
    # A square corner cut at 40 degrees instead of 45: its leg leans 50.
    assert lean_of_card(100, 100 - 2 * 25 * math.tan(math.radians(50)), 25, (90, 90)) == pytest.approx(50)


@pytest.mark.parametrize("turns", [(60, 60), (40, 75), (90, 20), (110, 111)])
@pytest.mark.parametrize("relief", [0.0, 3.0, 9.5])
def test_legs_that_lean_unlike(turns: tuple[float, float], relief: float) -> None:
    """Two corners of unlike turn: the card is put together from its two right triangles, and its mean lean comes back."""
    taper = sum(25 * math.tan(math.radians(turn / 2 + relief)) for turn in turns)
    assert lean_of_card(100, 100 - taper, 25, turns) - sum(turns) / 4 == pytest.approx(relief, abs=1e-9)


def test_a_card_read_gives_relief_and_gap(made: Make) -> None:
    bellows = made(readings=CARD)
    assert bellows.relief == pytest.approx(math.degrees(math.atan(35 / 50)) - 30)
    assert bellows.corner_gap == pytest.approx((bellows.section.sides[0] - 89.5) * math.cos(math.pi / 6))
    assert bellows.card_width(0, 0) == pytest.approx(89.5)
    assert bellows.card_width(0, 25) == pytest.approx(54.5)
    assert bellows.old_card.either_way == pytest.approx(math.degrees(math.atan(0.5 / 50)))


def test_the_middle_reading_serves(made: Make) -> None:
    several = made(readings={"ridge_edge": [89.5, 88, 89.6], "valley_edge": [54.0, 55.0]})
    assert several.corners == made(readings=CARD).corners


@pytest.mark.parametrize("section", [OBLONG, LOPSIDED, {"shape": "measured", "flats": [158.75, 160.75, 157]}], ids=repr)
def test_uneven_boxes_by_side(made: Make, section: dict[str, object]) -> None:
    true = made(section=section, bellows={"relief": 3.5, "corner_gap": 1.3})
    edges = dict(zip(true.section.side_names, by_side(true.section, true.corners), strict=True))
    for sides in ("A", "BC", "ABCD"):
        read = made(
            section=section,
            readings={"ridge_edge": {side: edges[side][0] for side in sides}, "valley_edge": {side: edges[side][1] for side in sides}},
        )
        assert (read.relief, read.corner_gap) == pytest.approx((3.5, 1.3))


def test_one_side_that_disagrees_is_outvoted_and_told(made: Make) -> None:
    edges = by_side(made().section, made().corners)
    ridge, valley = (dict.fromkeys("ABC", edges[0][k]) for k in (0, 1))
    bellows = made(readings={"ridge_edge": ridge, "valley_edge": {**valley, "C": valley["C"] - 3}})
    assert bellows.relief == pytest.approx(5)
    told = notes(bellows)["sides-apart"]
    # Three millimetres more of taper: the leg leans atan(38.01 / 50).
    steeper = math.degrees(math.atan((ridge["C"] - valley["C"] + 3) / 50)) - 30
    assert "A says a relief of 5 degrees" in told
    assert f"C {steeper:.1f};" in told
    assert "5 serves for all" in told


def test_one_edge_alone(made: Make) -> None:
    """The ridge edge alone says how far apart cards stand; what they lean stays a guess, and the warning asks for the other edge."""
    bellows = made(readings={"ridge_edge": 89})
    assert bellows.relief == 5
    assert bellows.corner_gap == pytest.approx((bellows.section.sides[0] - 89) * math.cos(math.pi / 6))
    assert "One reading more ends the guess before leather is cut: the valley edge" in notes(bellows)["card-not-measured"]
    assert "the ridge edge" in notes(made(readings={"valley_edge": 54}))["card-not-measured"]
    assert "only one edge was measured" in notes(made(readings={"valley_edge": 54}))["card-not-measured"]


def test_a_plain_reading_of_a_box_with_unlike_sides(made: Make) -> None:
    """All corners turn alike, so that any card says the relief; without its side it says nothing of the gap."""
    bellows = made(section=OBLONG, readings={"ridge_edge": 245, "valley_edge": 245 - 50 * math.tan(math.radians(49))})
    assert bellows.relief == pytest.approx(4)
    assert bellows.corner_gap == made(section=OBLONG).corner_gap
    assert "differ by 130.0 mm" in notes(bellows)["name-the-side"]
    found = refused(made, section=LOPSIDED, readings={"ridge_edge": 140, "valley_edge": 90})
    assert 'ridge_edge = { A = "140 mm' in found["readings.valley_edge"]


IMPOSSIBLE = [
    ({"ridge_edge": 54.5, "valley_edge": 89.5}, "no less than the ridge edge of 54.5 mm"),
    ({"ridge_edge": 89.5, "valley_edge": 89.5}, "no less than the ridge edge"),
    ({"ridge_edge": {"B": 54.5}, "valley_edge": {"B": 89.5}}, "at side B"),
    # The mitre that just closes takes 2 x 25 x tan 30 = 28.87 mm off.
    ({"ridge_edge": 89.5, "valley_edge": 62}, "the valley edge is 60.632 mm"),
    ({"ridge_edge": 89.5, "valley_edge": 62}, "lean 28.8 degrees, less than the 30.0"),
    ({"ridge_edge": 89.5, "valley_edge": 5}, "too much for folds 25 mm"),
    ({"ridge_edge": {"A": 89.5}, "valley_edge": {"B": 54.5}}, "read both edges of one card"),
    ({"ridge_edge": {"A": 20}, "valley_edge": {"A": 12}}, "fold_depth must be less"),
]


@pytest.mark.parametrize(("readings", "told"), IMPOSSIBLE, ids=repr)
def test_what_no_card_can_have(made: Make, readings: dict[str, object], told: str) -> None:
    found = refused(made, readings=readings)
    assert told in found["readings.valley_edge"]


def test_a_leg_on_the_mitre_is_within_what_a_rule_says(made: Make) -> None:
    """A card without relief may well read a little less; it has none then, rather than less than none."""
    assert made(readings={"ridge_edge": 89.5, "valley_edge": 61}).relief == 0


CONTRADICTED = [
    ({"relief": 8}, "bellows.relief", "readings.ridge_edge and readings.valley_edge say 5.0 degrees"),
    ({"closed_gap": 9}, "bellows.closed_gap", "readings.ridge_edge and readings.valley_edge say 5.0"),
    ({"corner_gap": 2}, "bellows.corner_gap", "readings.ridge_edge leaves 1.02 mm"),
]


@pytest.mark.parametrize(("given", "key", "told"), CONTRADICTED)
def test_contradictions_name_both_keys(made: Make, given: dict[str, object], key: str, told: str) -> None:
    found = refused(made, bellows=given, readings=CARD)
    assert set(found) == {key}
    assert told in found[key]


@pytest.mark.parametrize(
    "given", [{"relief": 5.5}, {"relief": 4.5}, {"closed_gap": 6.3}, {"corner_gap": 1.4}, {"corner_gap": 0.6}], ids=repr
)
def test_what_a_rule_cannot_tell_apart_stands_as_given(made: Make, given: dict[str, float]) -> None:
    bellows = made(bellows=given, readings=CARD)
    for key, value in given.items():
        assert getattr(bellows, key) == pytest.approx(value)


def test_readings_far_apart_leave_a_given_relief_more_room(made: Make) -> None:
    by = {"ridge_edge": {"A": 89.5, "B": 89.5}, "valley_edge": {"A": 54.5, "B": 51.5}}
    assert made(bellows={"relief": 7}, readings=by).relief == 7
    assert "bellows.relief" in refused(made, bellows={"relief": 7.3}, readings=by)
    # Reliefs of 5 and 7.2: their middle is 6.1, and a rule that left open as little as with one card would refuse 7.
    assert "bellows.relief" in refused(made, bellows={"relief": 6.9}, readings={**by, "valley_edge": 53})


@pytest.mark.parametrize(("ridge_edge", "kept"), [(90.5, 1), (86, 1), (87.5, 2.75)])
def test_an_end_that_quarrels_with_the_card(made: Make, ridge_edge: float, kept: float) -> None:
    """Ridge lines of 90.673 mm: 90.5 leaves 0.15 mm, and 86 leaves 4; neither is a gap that cards have."""
    bellows = made(readings={"ridge_edge": ridge_edge, "valley_edge": ridge_edge - 35})
    assert bellows.corner_gap == pytest.approx(kept, abs=0.01)
    assert bellows.relief == pytest.approx(made(readings=CARD).relief)
    assert ("end-and-card" in notes(bellows)) == (kept == 1)
    longer = made(readings={"ridge_edge": 91, "valley_edge": 56})
    assert (
        "a ridge edge of 91 mm leaves nothing; 0.3 to 3 mm between neighbouring cards is usual. 1 mm is taken"
        in notes(longer)["end-and-card"]
    )


def test_one_card_of_several_that_does_not_fit_its_side(made: Make) -> None:
    """The others say the gap; the odd one is told all the same."""
    ridge = {"A": 89.5, "B": 89.6, "C": 85}
    bellows = made(readings={"ridge_edge": ridge, "valley_edge": {side: edge - 35 for side, edge in ridge.items()}})
    assert bellows.corner_gap == pytest.approx((bellows.section.sides[0] - 89.5) * math.cos(math.pi / 6))
    assert "side C is 90.7 mm along its ridge line, and a ridge edge of 85 mm leaves 4.9 mm;" in notes(bellows)["end-and-card"]


def test_readings_that_disagree_are_told(made: Make) -> None:
    told = notes(made(readings={"ridge_edge": [89, 89.4, 90.1], "valley_edge": 54.5}))["readings-apart"]
    assert "ridge_edge lie 1.1 mm apart, from 89 to 90.1 mm. The middle of them, 89.4 mm, serves" in told
    # Half a millimetre apart, which in binary is a hair more.
    assert "readings-apart" not in notes(made(readings={"ridge_edge": [84.1, 83.6, 84.1], "valley_edge": 50}))
    assert "at side B" in notes(made(readings={"glue_shadow": {"A": 5, "B": [4, 6]}}))["readings-apart"]


def test_the_glue_shadow_is_the_lap(made: Make) -> None:
    bellows = made(readings={"glue_shadow": [6, 6.5, 7]})
    assert (bellows.profile.gusset.lap, bellows.profile.gusset.tip_lap) == (6.5, 3)
    narrow = made(readings={"glue_shadow": {"A": 2.5}})
    assert (narrow.profile.gusset.lap, narrow.profile.gusset.tip_lap) == (2.5, 2.5)
    assert made(gusset={"lap": 6.8}, readings={"glue_shadow": 6.5}).profile.gusset.lap == 6.8
    found = refused(made, gusset={"lap": 7.1}, readings={"glue_shadow": 6.5})
    assert "readings.glue_shadow says that the old lap was 6.5 mm" in found["gusset.lap"]


def test_a_profile_as_used_says_the_same_again(made: Make) -> None:
    """What was worked out from the readings is not written as if it had been given."""
    for readings in (CARD, {**CARD, "glue_shadow": 6.5}, {"ridge_edge": {"A": 89.5, "C": 89}, "valley_edge": {"A": 54.5, "C": 54}}, {}):
        bellows = made(readings=readings)
        for only_given in (False, True):
            again = build(loads(as_toml(bellows.profile, only_given=only_given)))
            assert again.profile.fingerprint == bellows.profile.fingerprint
            assert (again.corners, again.card_known) == (bellows.corners, bool(readings))


READ = {"ridge_edge": [89.5, 89.4, 90.3], "valley_edge": {"B": 54.5, "E": 54.0}, "glue_shadow": 6}


def test_the_summary_says_what_was_read_and_what_came_of_it(made: Make) -> None:
    bellows = made(readings=READ)
    said = " ".join(" ".join(line for _, line in size_lines(bellows)).split())
    assert "ridge edge, old card 89.5 mm (about 3 17/32 in), the middle of 3 from 89.4 to 90.3" in said
    assert "valley edge, old card B 54.5 mm (about 2 9/64 in), E 54.0 mm (2 1/8 in)" in said
    assert "glue shadow 6 mm, and gussets are cut with a lap of 6 mm" in said
    # atan(35 / 50) and atan(35.5 / 50).
    assert "lean B 35, E 35.4 degrees: relief 5.2; read with a rule, it may be 0.6 more or less" in said
    assert "old card" not in " ".join(line for _, line in size_lines(made()))


def test_the_summary_for_programs_has_every_reading_with_its_misfit(made: Make) -> None:
    bellows = made(readings=READ)
    (found,) = summary_of(bellows)
    assert found["fitted"]["relief"]["value"] == pytest.approx(bellows.relief, abs=1e-5)
    assert found["fitted"]["corner_gap"]["value"] == pytest.approx(bellows.corner_gap, abs=1e-5)
    assert found["fitted"]["gusset_lap"]["value"] == 6
    rows = {(one["key"], one.get("side"), one["value"]): one for one in found["misfits"]}
    assert len(rows) == 6
    for (key, _, value), one in rows.items():
        width = {
            "readings.ridge_edge": bellows.card_width(0, 0),
            "readings.valley_edge": bellows.card_width(0, 25),
            "readings.glue_shadow": 6,
        }
        assert one["misfit"] == pytest.approx(value - width[key], abs=1e-5)
    assert [key for key, one in rows.items() if one["wild"]] == [("readings.ridge_edge", None, 90.3)]
    assert summary_of(made()) == []


def test_the_spread_of_a_relief_is_that_of_many_cards_read_with_a_rule(made: Make) -> None:
    """Cards a little larger and smaller, each read to half a millimetre: their reliefs scatter as the summary says."""
    (found,) = summary_of(made(readings=CARD))
    rng = random.Random(7)
    reliefs, gaps = [], []
    for _ in range(4000):
        b, a = (round(2 * (edge + out)) / 2 - out for edge, out in ((89.5, rng.random()), (54.5, rng.random())))
        reliefs.append(math.degrees(math.atan((b - a) / 50)))
        gaps.append(-b * math.cos(math.pi / 6))
    assert found["fitted"]["relief"]["spread"] == pytest.approx(stdev(reliefs), rel=0.05)
    assert found["fitted"]["corner_gap"]["spread"] == pytest.approx(stdev(gaps), rel=0.05)


def summary_of(bellows: Bellows) -> list[dict[str, Any]]:
    """What the summary for programs says of the readings; nothing where nothing was read."""
    parts = make_parts(bellows, "regusset")
    document = json.loads(as_json(bellows, parts, estimate(bellows, parts, "regusset"), ()))
    return [document["readings"]] if "readings" in document else []


def test_the_cover_shows_the_card(made: Make) -> None:
    rows = {one.name: (one.value, one.more) for one in figures(made(readings={**CARD, "glue_shadow": 6}))}
    assert rows["Ridge edge, old card"] == ("89.5 mm", "ridge 1.02 mm")
    assert rows["Valley edge, old card"] == ("54.5 mm", "relief 5\u00b0")
    assert rows["Glue shadow"] == ("6 mm", "lap of the gussets")
    rows = {one.name: (one.value, one.more) for one in figures(made(readings=READ))}
    assert rows["Relief, 2 old cards"] == ("5.2\u00b0", "from 5 to 5.4")
    assert not any("old card" in one.name for one in figures(made()))

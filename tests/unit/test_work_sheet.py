"""The work sheet before it is a file: every operation speaks, warnings stand once, figures follow from the bellows, nothing lies over another."""

from __future__ import annotations

import itertools
import math
import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from bellowscut import advice
from bellowscut.bellows import Bellows, build
from bellowscut.bench import placing
from bellowscut.bench.order import working_order
from bellowscut.bench.sheet import SAYS, WorkSheet, work_sheet
from bellowscut.bench.tables import ready, skived
from bellowscut.bench.work import Manner, Work
from bellowscut.drawing import Label, Page, Stroke, Tint
from bellowscut.labour import KEYS, OPERATIONS, Own, days, steps
from bellowscut.lettering import CAPITAL, DESCENT, text_width
from bellowscut.pages.papers import PAPERS
from bellowscut.pages.work_sheet import work_sheet_pages
from bellowscut.parts import make_parts
from bellowscut.pipeline import PatternSet, draft
from bellowscut.profile import load, loads
from bellowscut.words import say, work_sheet as words

ROOT = Path(__file__).parents[2]
PROFILES = sorted(path.stem for path in (ROOT / "profiles").glob("*.toml"))
COVERED = """
[section]
shape = "regular"
sides = 6
end_size = "155 mm"
measured_on = "frame-covered"
[bellows]
folds = 5
fold_depth = "16.5 mm"
"""
LONG_NAME = "Baritone of the old school with seven folds, made once again"

Make = Callable[..., Bellows]


@cache
def drafted(name: str, job: str) -> PatternSet:
    return draft(load(name), job)


def sheet_of(one: PatternSet) -> WorkSheet:
    return work_sheet(one.bellows, one.job, one.parts, one.estimate.steps, one.notes)


def pages_of(one: PatternSet, paper: str = "a4") -> tuple[Page, ...]:
    return work_sheet_pages(work_sheet(one.bellows, one.job, one.parts, one.estimate.steps, one.notes), paper=PAPERS[paper])


def made_sheet(bellows: Bellows, job: str = "regusset", *, new_form: bool = False) -> WorkSheet:
    parts = make_parts(bellows, job)
    return work_sheet(bellows, job, parts, steps(job, parts, bellows.profile.copies, new_form=new_form), advice.warnings(bellows, job))


def told(sheet: WorkSheet, key: str) -> str:
    (found,) = [step for step in sheet.steps if step.step.operation.key == key]
    return " ".join(one.text for one in found.told)


def everything(sheet: WorkSheet) -> str:
    return " ".join([*sheet.whole, *(one.text for step in sheet.steps for one in step.told)])


EVERY = [(name, job) for name in PROFILES for job in OPERATIONS]


# every operation, every sentence --------------------------------------------------


def test_every_operation_has_its_text_and_no_text_is_without_one() -> None:
    assert set(SAYS) == set(KEYS)


@pytest.mark.parametrize("job", OPERATIONS)
def test_every_step_says_something(job: str) -> None:
    for name in PROFILES:
        for step in sheet_of(drafted(name, job)).steps:
            assert [one for one in step.told if one.manner in (Manner.PLAIN, Manner.TEST)], (name, step.step.operation.key)


def test_every_sentence_is_used() -> None:
    folder = ROOT / "bellowscut"
    code = "".join(path.read_text() for path in [*(folder / "bench").glob("*.py"), *(folder / "pages").glob("*.py")])
    used = set(re.findall(r"\bwords\.([A-Z_]+)\b", code))
    assert {name for name in vars(words) if name.isupper()} - used == set()


def test_no_brace_is_left_unfilled() -> None:
    for name, job in EVERY:
        assert not re.search(r"[{}]|None|nan", everything(sheet_of(drafted(name, job)))), (name, job)


def test_sentences_are_short() -> None:
    """Two to five short plain sentences a step: none over forty words, and no step over eight beside warnings."""
    for name, job in EVERY:
        for step in sheet_of(drafted(name, job)).steps:
            text = " ".join(one.text for one in step.told if one.manner is Manner.PLAIN)
            sentences = re.split(r"(?<=[.!])\s+(?=[A-Z])", text)
            assert len(sentences) <= 9, (name, step.step.operation.key)
            assert max(len(sentence.split()) for sentence in sentences) <= 45, (name, step.step.operation.key, sentences)


# warnings and cautions --------------------------------------------------------------


@pytest.mark.parametrize(("name", "job"), EVERY)
def test_every_warning_and_caution_stands_once(name: str, job: str) -> None:
    one = drafted(name, job)
    text = " ".join(label.text for page in pages_of(one) for label in page.items if isinstance(label, Label))
    # The word that heads a box of cautions stands on its own label.
    for sentence in (
        *(note.text for note in one.notes),
        *(caution.text for caution in advice.cautions(job, machine=advice.has_machine(one.bellows))),
    ):
        assert text.count(sentence) == 1, sentence


def test_every_code_has_its_place() -> None:
    written = set(re.findall(r'Note\(\s*"([a-z-]+)"', Path(advice.__file__).read_text()))
    assert written
    assert set(placing.PLACES) == written
    assert {key for keys in placing.PLACES.values() for key in keys} <= set(KEYS)
    assert set(placing.CAUTIONED) == {caution.key for caution in advice.CAUTIONS}
    assert set().union(*placing.CAUTIONED.values(), placing.PRINTED) <= set(KEYS)


def test_a_job_that_meets_a_warning_has_the_step_where_it_stands() -> None:
    for code, jobs in advice.MEETS.items():
        for job in jobs:
            keys = [operation.key for operation in OPERATIONS[job]]
            assert not placing.PLACES[code] or placing.place(code, keys) is not None, (code, job)


@pytest.mark.parametrize("job", OPERATIONS)
def test_no_laser_stands_on_the_work_of_hands(made: Make, job: str) -> None:
    """The profile has no machine, so neither has the bench; with one of its own both cautions of machines stand once."""
    by_hand = everything(made_sheet(made(corner_patch={}, cover_gusset={}), job))
    assert not re.search("laser|machine", by_hand)
    machine = everything(made_sheet(made(corner_patch={}, cover_gusset={}, cutter={"kerf": 0.2}), job))
    assert machine.count("A laser is never left alone") == 1
    assert machine.count("Follow the machine's manual") == 1


@pytest.mark.parametrize("job", OPERATIONS)
def test_no_gasket_is_laid_that_nobody_cut(made: Make, job: str) -> None:
    without = everything(made_sheet(made(corner_patch={}), job))
    with_gasket = everything(made_sheet(made(corner_patch={}, gasket={}), job))
    assert not re.search(r"[Ll]ay the (new )?gaskets|Cut the gaskets", without)
    assert with_gasket.count("Cut the gaskets 12 mm wide") == with_gasket.count("Lay the new gaskets") == (job != "patches")


def test_what_nobody_asked_for_is_said_in_one_line(made: Make) -> None:
    def line(job: str = "rebellows", **tables: dict[str, object]) -> str:
        return advice.not_made(made(**tables), job)

    assert re.search("facings, frame hinges and gaskets.*--also facing --also frame-hinge --also gasket", line())
    assert "frame hinges and gaskets" in line(facing={})
    assert "facing" not in line(facing={})
    assert line(facing={}, frame_hinge={}, gasket={}) == ""
    assert [line(job) for job in OPERATIONS if job != "rebellows"] == [""] * 4
    notes = [table.note for table in made_sheet(made(), "rebellows").tables]
    assert sum(line() in note for note in notes) == 1


@pytest.mark.parametrize(
    ("name", "job", "key", "words_"),
    [
        ("six-sided-uneven", "rebellows", "frames", "Pack the right-hand frame"),
        ("six-sided-uneven", "regusset", "end-strips", "Pack the right-hand frame"),
        ("six-sided-deep", "rebellows", "measure-frames", "You measured the wooden end"),
        ("six-sided-shallow", "regusset", "cut-gussets", "spare in each corner on the form"),
        ("six-sided-treble", "rebellows", "cut-off-bellows", "Knives and skiving blades"),
        ("six-sided-treble", "regusset", "lift-strips", "Hot glue burns"),
        ("six-sided-treble", "regusset", "open-up", "arsenic or lead"),
        ("six-sided-treble", "patches", "find-leaks", "arsenic or lead"),
        ("six-sided-treble", "rebellows", "cut-off-bellows", "Local rules and the makers"),
        ("six-sided-treble", "regusset", "cut-gussets", "Try every pattern in paper"),
    ],
)
def test_what_matters_stands_at_its_step(name: str, job: str, key: str, words_: str) -> None:
    assert words_ in told(sheet_of(drafted(name, job)), key)


def test_what_holds_for_the_whole_job_stands_first(made: Make) -> None:
    bellows = made(bellows={"fold_depth": 40, "stretch": 60, "old_closed_length": 30})
    sheet = made_sheet(bellows)
    assert [re.match(r"Leather is|New closed length", text) is not None for text in sheet.whole] == [True, True]


def test_an_unknown_warning_is_not_lost() -> None:
    one = drafted("six-sided-treble", "strips")
    sheet = work_sheet(one.bellows, "strips", one.parts, one.estimate.steps, (advice.Note("of-tomorrow", "Something new."),))
    assert sheet.whole == ("Something new.",)


# the figures of this bellows ----------------------------------------------------------


def test_gluing_distance_of_the_worked_example(made: Make) -> None:
    """14 cards of 25 mm at 50 degrees: 268.12 mm apart, 38.302 mm from valley to valley (worked by hand)."""
    text = told(made_sheet(made()), "prop")
    assert "Prop the frames 268.1 mm apart" in text
    assert "valley to valley is then 38.3 mm" in text
    # Across corners of 158.75 mm across flats is 183.31 mm (regular-polygon table, 1.1547); the rest is Pythagoras.
    assert f"both {math.hypot(268.12, 158.75 * 1.1547):.1f} mm" in text


def test_counts_with_spares_and_sizes_of_the_worked_example(made: Make) -> None:
    """33 + 15 gussets, strips 18.084 x 554.04 and 25.042 x 559.93, hinges 14.0 and 12.2 wide, gussets 62.352 long (worked by hand)."""
    bellows = made()
    rebuilt = made_sheet(bellows, "rebellows")
    cut = told(rebuilt, "cut-gussets")
    assert "cut 30 + 3 gussets and 12 + 3 end gussets, of gusset skin 0.4 mm" in cut
    assert re.search(r"gussets \d\d\.\d \u00d7 62\.4 mm and end gussets \d\d\.\d \u00d7 65\.9 mm", cut)
    assert "Pare all 48" in told(rebuilt, "skive-gussets")
    assert "30 gussets are glued; the 3 spares" in told(rebuilt, "gussets-on-form")
    assert "42 gussets are glued; the 6 spares" in told(made_sheet(bellows), "glue-gussets")
    assert "42 valley hinges 14.0 mm wide and 36 ridge hinges 12.2 mm wide" in told(rebuilt, "hinge-cards")
    assert "Cut 84 cards of grey card 1 mm, 14 down each side" in told(rebuilt, "cards")
    assert "Cut 6 edge strips 18.1 mm wide and 554.0 mm long" in told(rebuilt, "cut-strips")
    rows = ready(Work(bellows, "rebellows", make_parts(bellows), ())).rows
    assert ("edge strips", "6", "18.1 \u00d7 554.0", "strip skin, 0.6 mm", "") in rows
    assert ("end strips", "2", "25.0 \u00d7 559.9", "strip skin, 0.6 mm", "") in rows


def test_the_form_of_common_practice(made: Make) -> None:
    """Slopes at 45 degrees, ridges 20 mm high, valleys 40 mm apart, hence cards near 28 mm deep (common practice, no source)."""
    bellows = made(bellows={"fold_depth": 28.284, "form_slope": 45}, section={"end_size": 200})
    text = told(made_sheet(bellows, "rebellows", new_form=True), "make-form")
    assert "Combs slope at 45\u00b0: ridges 20.0 mm above the valleys, 40.0 mm from valley to valley" in text


def test_corners_of_a_square_frame_agree(made: Make) -> None:
    """Three, four, five: a frame of 120 by 160 is 200 across its corners."""
    bellows = made(section={"shape": "rectangle", "width": 160, "height": 120})
    assert "agree: 200.0 mm" in told(made_sheet(bellows, "rebellows"), "frames")


def test_corners_of_odd_and_of_uneven_frames(made: Make) -> None:
    """A corner of a triangle of 100 stands 86.6 over the side opposite; three flats that differ have three figures."""
    odd = made(section={"sides": 3, "end_size": 100, "measure": "side"}, bellows={"fold_depth": 10, "stretch": 40}, gusset={"lap": 4})
    assert "Each corner to the middle of the side opposite, on both frames: 86.6 mm." in told(made_sheet(odd, "rebellows"), "frames")
    uneven = told(sheet_of(drafted("six-sided-uneven", "rebellows")), "frames")
    assert re.search(r"AB to DE \d+\.\d, BC to EF \d+\.\d and CD to FA \d+\.\d mm", uneven)


def test_thicker_leather_closes_thicker(made: Make) -> None:
    """The figure told, against a bellows worked out again with leather 0.1 mm thicker."""
    skin = {"form": "skin", "thickness": 0.5, "area": "5 sq ft"}
    thicker = made(**{'materials."gusset skin"': skin})
    assert f"0.1 mm more is {thicker.closed_length - made().closed_length:.1f} mm closed" in told(made_sheet(made()), "skive-gussets")


def test_covers_close_thicker() -> None:
    with_covers, without = drafted("six-sided-treble", "cover"), drafted("six-sided-treble", "regusset")
    more = with_covers.bellows.closed_length - without.bellows.closed_length
    assert f"Covers add {more:.1f} mm to the closed length" in told(sheet_of(with_covers), "glue-covers")


@pytest.mark.parametrize(
    ("folds", "size", "said", "not_said"),
    [
        (1, "6 1/4 in", "The joint sits in the middle of side A", "stepped"),
        (2, "6 1/4 in", "ridge 1 10 mm towards F and ridge 2 in the middle", "then again"),
        (6, "6 1/4 in", "ridge 3 10 mm towards B; then again from the first", "too short"),
        (6, "60 mm", "on side A at ridge 1, side B at ridge 2 and side F at ridge 3", "towards"),
    ],
)
def test_joints_are_stepped(made: Make, folds: int, size: str, said: str, not_said: str) -> None:
    small = size == "60 mm"
    bellows = made(
        section={"end_size": size},
        bellows={"folds": folds, **({"fold_depth": 10} if small else {})},
        gusset={"lap": 2, "tip_lap": 1.5} if small else {},
    )
    text = told(made_sheet(bellows), "edge-strips")
    assert said in text
    assert not_said not in text


def test_neighbouring_joints_do_not_lie_on_each_other(made: Make) -> None:
    """A joint as long as the step is just clear of its neighbour, and the outermost stay on side A."""
    text = told(made_sheet(made(edge_strip={"joint": 14})), "edge-strips")
    assert "ridge 1 14 mm towards F" in text
    assert made().section.sides[0] / 2 > 14 + 14 / 2


@pytest.mark.parametrize(
    ("tables", "job", "key", "said"),
    [
        ({"facing": {"order": "first"}}, "rebellows", "facings", "before any leather"),
        ({"facing": {"order": "first"}}, "regusset", "papers", "went on first"),
        ({"facing": {}}, "regusset", "papers", "Stick the old papers down again"),
        ({}, "regusset", "papers", "No papers are drawn"),
        ({"facing": {"span": "pair"}}, "rebellows", "facings", "One covers two cards"),
        ({"card": {"build": "run"}}, "rebellows", "card-runs", "Score the ridges on one face"),
        ({"card": {"build": "run"}}, "rebellows", "hinge-cards", "every score of the runs"),
        ({"bellows": {"ends": "valley"}}, "regusset", "glue-gussets", "The 12 half gussets go last"),
        ({"bellows": {"ends": "valley"}}, "rebellows", "end-gussets", "Glue the 12 half gussets"),
        ({}, "regusset", "glue-gussets", "The 12 end gussets go last, longer tip over the frame's edge (5 mm tip turn)"),
        ({"top": {"copies": 3}}, "regusset", "open-up", "Number the 3 instruments"),
        ({"top": {"copies": 3}}, "regusset", "strip-gussets", "Lift the 126 old gussets"),
        ({"valley_strip": {}}, "rebellows", "valley-strips", "Glue the 42 valley strips, 12.8 mm wide"),
        ({"ridge_cloth": {}}, "rebellows", "ridge-cloth", "Glue the 36 pieces of ridge cloth"),
        ({"frame_hinge": {}}, "rebellows", "end-gussets", "Join each end card to its frame at once: glue the 12 frame hinges inside, 6 mm"),
        ({"gasket": {}}, "rebellows", "frames", "Cut the gaskets 12 mm wide, 1099.9 mm in all; they go on last"),
        ({"corner_patch": {}}, "rebellows", "edge-strips", "Put the 6 corner patches"),
        ({"edge_strip": {"run": "per-side"}}, "strips", "cut-strips", "Cut 36 edge strips, one a side and ridge"),
        ({"edge_strip": {"darts": True}}, "strips", "cut-strips", "Notch the edge strips"),
        ({"hinge": {"valley_side": "outside"}}, "rebellows", "hinge-cards", "valley hinges go on from outside"),
        ({"gusset": {"skive": 2.5}}, "regusset", "skive-gussets", "2.5 mm wide, down to 0.1 mm"),
        ({"gusset": {"use": [25.7, 62.4]}}, "regusset", "measure", "25.7 mm wide and 62.4 mm long"),
        ({"quote": {"keep_original": True}}, "rebellows", "cut-off-bellows", "it is given back"),
        ({}, "strips", "lift-strips", "cut 6 corner patches now"),
        ({"bellows": {"form_slope": 45, "stretch": 50}}, "rebellows", "gussets-on-form", "spare in each corner inward"),
    ],
)
def test_steps_follow_the_profile(made: Make, tables: dict[str, dict[str, object]], job: str, key: str, said: str) -> None:
    assert said in told(made_sheet(made(**tables), job), key)


def test_what_is_not_there_is_not_told(made: Make) -> None:
    keys = {step.step.operation.key for step in made_sheet(made(), "rebellows").steps}
    assert not keys & {"facings", "ridge-cloth", "valley-strips", "card-runs", "make-form"}
    text = everything(made_sheet(made(), "rebellows"))
    assert not re.search(r"frame hinges|half gussets|corner patches|Number the", text)


def test_gussets_that_reach_a_frame_wait_for_it(made: Make) -> None:
    """Where tip turn and frame turn are equal every gusset is a plain one; one at each corner and end still lies on a frame."""
    sheet = made_sheet(made(gusset={"ridge_turn": 4, "frame_turn": 4}), "rebellows")
    on_form = told(sheet, "gussets-on-form")
    assert "30 gussets are glued" in on_form
    assert "Keep 12 back" in on_form
    assert "Glue the 12 gussets that were kept back" in told(sheet, "end-gussets")
    assert everything(sheet).count("comes out piece by piece") == 1


def test_a_single_fold_is_held_before_its_form_comes_out(made: Make) -> None:
    """With one fold every gusset is an end gusset: until they hold, nothing joins one side to the next."""
    for ends in ("ridge", "valley"):
        text = told(made_sheet(made(bellows={"folds": 1, "ends": ends}), "rebellows"), "end-gussets")
        assert text.index("nothing holds side to side") < text.index("push the core out") < text.index("parts that were left dry")
    assert "nothing holds side to side" not in told(made_sheet(made(), "rebellows"), "end-gussets")


def test_sides_that_differ_are_named() -> None:
    assert "cards with them: A and C; B and D." in told(sheet_of(drafted("oblong-three-alike", "rebellows")), "cards")
    traced = sheet_of(drafted("five-corners-traced", "rebellows"))
    assert "turn every second card over" in told(traced, "cards")
    assert "two hands" in told(traced, "facings")
    assert "Corners differ: AB; BC; CD; DE; EA are not alike" in told(traced, "cut-gussets")
    assert "differ" not in told(sheet_of(drafted("six-sided-treble", "rebellows")), "cards")


# order, minutes, days -------------------------------------------------------------------

REBUILT: tuple[tuple[str, str], ...] = (
    ("measured as it is", "Measure both ends as they are"),
    ("old bellows off", "Cut the old bellows off"),
    ("bare wood", "again on the bare wood"),
    ("compared", "make the set again"),
    ("packed", "(?:Glue open joints|Pack)"),
    ("first plate off", "Take off the right-hand end plate, push the core out, take off the left-hand plate"),
    ("key", "draw the key segment: the rest falls"),
    ("on the frames", "set the bellows between them"),
    ("joined", "[Jj]oin each end card to its frame"),
    ("end gussets", "Glue the \\d+ (?:end|half) gussets|Glue down the parts that were left dry"),
    ("dry", "With slow glue leave over night"),
    ("closed as a test", "closes flat\\. Close it slowly"),
    ("edge strips", "Close the fold and lay (?:the|each) strip"),
)
"""What happens to a bellows made new, in the only order in which it can: nothing is cut by wood that was not bare when it
was measured, and nothing is closed that is not held (common practice, no source)."""


@pytest.mark.parametrize(
    "tables",
    [
        {},
        {"frame_hinge": {}},
        {"bellows": {"ends": "valley"}},
        {"bellows": {"folds": 1}},
        {"ridge_cloth": {}, "edge_strip": {"run": "per-side"}},
    ],
    ids=["bare", "frame hinges", "valley ends", "one fold", "cloth"],
)
def test_a_rebellows_goes_on_only_where_it_can(made: Make, tables: dict[str, dict[str, object]]) -> None:
    text = everything(made_sheet(made(**tables), "rebellows"))
    at: list[int] = []
    for event, pattern in REBUILT:
        # What stands in two steps, as the proof that a form comes apart, is looked for where it is done.
        found = [one.start() for one in re.finditer(pattern, text) if not at or one.start() > at[-1]]
        assert found, f"{event}: nowhere after {REBUILT[len(at) - 1][0]}"
        at.append(found[0])
    closing = [one.start() for one in re.finditer("closes flat", text)]
    assert min(closing) >= at[[event for event, _ in REBUILT].index("closed as a test")]


def test_what_joins_the_end_cards_is_said(made: Make) -> None:
    """Six sides, two ends: twelve end cards, by the frame hinges where there are some, else by tabs of cloth."""
    hinged = told(made_sheet(made(frame_hinge={}), "rebellows"), "end-gussets")
    bare = told(made_sheet(made(), "rebellows"), "end-gussets")
    assert "the 12 frame hinges inside, 6 mm on card and on frame" in hinged
    assert "tab" not in hinged
    assert "a short tab of hinge cloth, 12 in all" in bare


def test_bare_wood_is_compared_with_what_was_entered() -> None:
    """A covered frame of 155 with strips of 0.6 is 153.8 bare; both are on the sheet, at the step where each is read."""
    sheet = made_sheet(build(loads(COVERED)), "rebellows")
    assert "153.8 mm across flats" in told(sheet, "measure-frames")
    as_it_is = told(sheet, "measure")
    assert "about 1.2 mm more" in as_it_is


@pytest.mark.parametrize(("name", "job"), EVERY)
def test_steps_stand_in_the_order_of_the_operations(name: str, job: str) -> None:
    one = drafted(name, job)
    keys = [step.step.operation.key for step in sheet_of(one).steps]
    assert sorted(keys) == sorted(step.operation.key for step in one.estimate.steps)
    facing = one.bellows.profile.facing
    moved = {"ridge-cloth"} | ({"facings"} if facing is not None and facing.order == "first" else set())
    usual = [step.operation.key for step in one.estimate.steps if step.operation.key not in moved]
    assert [key for key in keys if key not in moved] == usual
    if "ridge-cloth" in keys:
        assert keys.index("ridge-cloth") < keys.index("edge-strips")
    if "facings" in moved and "facings" in keys:
        assert keys.index("facings") < keys.index("gussets-on-form")


def test_papers_that_go_on_first_come_before_the_leather(made: Make) -> None:
    for order, before in (("first", True), ("last", False)):
        bellows = made(facing={"order": order})
        keys = [step.operation.key for step in working_order(bellows, steps("rebellows", make_parts(bellows)))]
        assert (keys.index("facings") < keys.index("cut-gussets")) is before


@pytest.mark.parametrize(("job", "least", "most"), [("regusset", 4, 5), ("rebellows", 6, 9)])
def test_elapsed_days_of_the_usual_jobs(made: Make, job: str, least: int, most: int) -> None:
    """Elapsed: regusset 4 to 5 days, rebellows 6 to 9 (common practice, no source)."""
    sheet = made_sheet(made(facing={}), job)
    assert (sheet.days.soonest, sheet.days.latest) == (least, most)


def test_days_are_those_of_the_estimate() -> None:
    for name, job in EVERY:
        one = drafted(name, job)
        sheet = sheet_of(one)
        if tuple(step.step for step in sheet.steps) == tuple(one.estimate.steps):
            assert (sheet.days.soonest, sheet.days.latest) == days(one.estimate.steps)


def test_drying_names_the_day_to_go_on(made: Make) -> None:
    sheet = made_sheet(made(), "regusset")
    for one, after in itertools.pairwise(sheet.steps):
        drying = [line.text for line in one.told if line.manner is Manner.DRYING]
        assert bool(drying) is (one.step.operation.nights[1] > 0)
        if drying and one.step.operation.nights[0]:
            assert int(re.findall(r"go on on day (\d+)", drying[0])[0]) == one.days.soonest + one.step.operation.nights[0]
            assert after.days.soonest > one.days.soonest
    assert "Leave over night; go on on day 3." in told(sheet, "glue-gussets")


def test_what_a_job_book_taught_is_marked(made: Make) -> None:
    bellows = made()
    parts = make_parts(bellows, "regusset")
    own = Own({"prop": (Decimal(9), Decimal(0))}, {"clean": (Decimal("0.5"), 4)})
    sheet = work_sheet(bellows, "regusset", parts, steps("regusset", parts, own=own), ())
    assert [say(words.MINUTES_LEARNED), say(words.MINUTES_OWN)] == list(sheet.minutes_told)
    assert made_sheet(bellows).minutes_told == (say(words.MINUTES_INVENTED),)
    pages = work_sheet_pages(work_sheet(bellows, "regusset", parts, steps("regusset", parts, own=own), ()), paper=PAPERS["a4"])
    assert "30*" in [label.text for page in pages for label in page.items if isinstance(label, Label)]


# tables -----------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "job"), EVERY)
def test_what_lies_ready_is_what_is_cut(name: str, job: str) -> None:
    one = drafted(name, job)
    rows = ready(Work(one.bellows, job, one.parts, tuple(one.estimate.steps))).rows
    counted: Counter[str] = Counter()
    for row in rows:
        count, _, spare = row[1].partition(" + ")
        counted[row[3].rpartition(", ")[0]] += int(count or 0) + int(spare or 0)
    wanted: Counter[str] = Counter()
    for part in one.parts:
        wanted[part.material] += part.count + part.spare
    assert +counted == wanted


def test_the_skive_table_has_every_pared_edge(made: Make) -> None:
    """Strip skived 5 mm on each flank to 0.2 mm; gussets over their laps to 0.1 (common practice, no source)."""
    bellows = made(valley_strip={}, corner_patch={})
    rows = skived(Work(bellows, "rebellows", make_parts(bellows), ())).rows
    assert ("edge strips", "strip skin, 0.6 mm", "both long edges", "5", "0.2", "") in rows
    assert (
        "all gussets",
        "gusset skin, 0.4 mm",
        "long edges, from the card out",
        "5 at the valley, 3 at the tips",
        "0.1",
        "",
    ) in rows
    assert {row[0] for row in rows} == {"all gussets", "edge strips", "end strips", "valley strips", "corner patches"}


# the pages -----------------------------------------------------------------------------------

Box = tuple[float, float, float, float]


def box_of(label: Label) -> Box:
    wide = text_width(label.text, label.height, bold=label.bold)
    left = label.at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    return left, label.at[1] - DESCENT * label.height, left + wide, label.at[1] + CAPITAL * label.height


def apart(a: Box, b: Box) -> bool:
    return a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


def crosses(stroke: Stroke, box: Box) -> bool:
    """Whether a line runs through a box, which is a little less than the letters' own."""
    left, low, right, high = box
    points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
    for (ax, ay), (bx, by) in itertools.pairwise(points):
        first, last = 0.0, 1.0
        for start, way, least, most in ((ax, bx - ax, left, right), (ay, by - ay, low, high)):
            if abs(way) < 1e-12:
                if not least < start < most:
                    first, last = 1.0, 0.0
                continue
            ends = sorted(((least - start) / way, (most - start) / way))
            first, last = max(first, ends[0]), min(last, ends[1])
        if first < last:
            return True
    return False


def faults(page: Page) -> Iterator[str]:
    """What is too small, out of the margin, over another text or over a line."""
    labels = [item for item in page.items if isinstance(item, Label)]
    strokes = [item for item in page.items if isinstance(item, Stroke)]
    boxes = [box_of(label) for label in labels]
    for label, box in zip(labels, boxes, strict=True):
        if label.height < 3.0 or label.width:
            yield f"{label.text!r} is {label.height} mm high"
        if box[0] < 11.9 or box[1] < 11.0 or box[2] > page.width - 11.9 or box[3] > page.height - 9.9:
            yield f"{label.text!r} stands in the margin"
        inner = (box[0] + 0.05, box[1] + 0.3, box[2] - 0.05, box[3] - 0.05)
        if any(crosses(stroke, inner) for stroke in strokes):
            yield f"{label.text!r} lies over a line"
    for (one, a), (other, b) in itertools.combinations(zip(labels, boxes, strict=True), 2):
        if not apart(a, b):
            yield f"{one.text!r} lies over {other.text!r}"
    for stroke in strokes:
        if min(y for _, y in stroke.points) < 10.0 or max(x for x, _ in stroke.points) > page.width - 10.0:
            yield "a line stands in the margin"


@pytest.mark.parametrize("job", OPERATIONS)
@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
def test_nothing_lies_over_another(job: str, paper: str) -> None:
    for name in PROFILES:
        one = drafted(name, job)
        for shown in (one, replace(one, bellows=replace(one.bellows, profile=replace(one.bellows.profile, name=LONG_NAME)))):
            pages = pages_of(shown, paper)
            assert [fault for page in pages for fault in faults(page)] == [], (name, paper)
            if paper != "a5":
                assert 2 <= len(pages) <= 4, name


def test_the_check_of_pages_can_fail() -> None:
    good = Label("sound", (50.0, 50.0), 3.2)
    bad: dict[str, Label | Stroke] = {
        "is 2.9 mm high": Label("small", (50.0, 100.0), 2.9),
        "stands in the margin": Label("low", (50.0, 11.2), 3.2),
        "lies over": Label("over", (55.0, 51.0), 3.2),
        "lies over a line": Stroke(((40.0, 51.0), (90.0, 51.0))),
        "a line stands in the margin": Stroke(((40.0, 9.0), (90.0, 9.0))),
    }
    assert list(faults(Page(210.0, 297.0, "", (good,)))) == []
    for said, item in bad.items():
        assert any(said in fault for fault in faults(Page(210.0, 297.0, "", (good, item)))), said


@pytest.mark.parametrize("name", ["six-sided-treble", "twelve-sided-deep", "single-fold-baby"])
def test_every_step_and_every_test_has_a_box_to_tick(name: str) -> None:
    """Boxes of 4 mm and more, empty; a step's stands at the left edge."""
    one = drafted(name, "rebellows")
    boxes = []
    for page in pages_of(one):
        for item in page.items:
            if isinstance(item, Stroke) and item.closed and item.fill is Tint.NONE and len(item.points) == 4:
                xs, ys = [x for x, _ in item.points], [y for _, y in item.points]
                wide, high = max(xs) - min(xs), max(ys) - min(ys)
                if math.isclose(wide, high) and wide >= 4.0:
                    boxes.append(min(xs))
    sheet = sheet_of(one)
    assert sum(math.isclose(x, 12.0) for x in boxes) == len(sheet.steps)
    assert sum(not math.isclose(x, 12.0) for x in boxes) == sum(line.manner is Manner.TEST for step in sheet.steps for line in step.told)


TESTS = {
    "rebellows": {
        "air, before": 1,
        "bare wood": 1,
        "square": 3,
        "it comes apart": 1,
        "closes flat": 2,
        "light": 1,
        "air. Blank both frames with sealed boards": 1,
    },
    "regusset": {"air, before": 1, "pull": 1, "square": 2, "closes flat": 1, "light": 1, "air. Blank both frames with sealed boards": 1},
    "strips": {"pull": 1, "closes flat": 1, "light": 1, "air. Blank both frames with sealed boards": 1},
    "cover": {"pull": 1, "square": 1, "closes flat": 1, "light": 1, "air. Blank both frames with sealed boards": 1},
    "patches": {"pull": 1, "light": 2, "air": 2},
}
"""Tests on the way, and how often each job has them."""


@pytest.mark.parametrize("job", TESTS)
def test_tests_stand_on_the_way(job: str) -> None:
    found = [line.text for step in sheet_of(drafted("six-sided-treble", job)).steps for line in step.told if line.manner is Manner.TEST]
    for start, number in TESTS[job].items():
        assert sum(text.startswith(start) for text in found) == number, start

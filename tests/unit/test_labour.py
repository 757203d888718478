"""Minutes and days of each job. The figures of the usual jobs are estimates of a practised hand: invented, no source."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from bellowscut.bellows import Bellows, build
from bellowscut.labour import DAY_LONG, DAY_SHORT, FORM, KEYS, OPERATIONS, Own, Step, days, schedule, steps
from bellowscut.parts import JOBS, Part, make_parts
from bellowscut.words.operations import NAMES

Make = Callable[..., Bellows]


def total(job: str, parts: tuple[Part, ...], copies: int = 1) -> Decimal:
    return sum((step.minutes for step in steps(job, parts, copies)), Decimal(0))


def test_minutes_of_the_usual_jobs(made: Make) -> None:
    """Six sides, six folds: 815 and 1140 minutes, strips about 6 hours, covers about 5, six patches 1 to 1 1/2."""
    bellows = made(facing={}, ridge_cloth={}, valley_strip={}, cover_gusset={}, corner_patch={})
    assert total("regusset", make_parts(bellows, "regusset")) == 815
    assert total("rebellows", make_parts(bellows)) == 1140
    assert 330 <= total("strips", make_parts(bellows, "strips")) <= 390
    assert 280 <= total("cover", make_parts(bellows, "cover")) <= 320
    assert 60 <= total("patches", make_parts(bellows, "patches")) <= 90


@pytest.mark.parametrize(
    ("key", "minutes"),
    [("lift-strips", 50), ("strip-gussets", 60), ("cut-gussets", 55), ("skive-gussets", 70), ("glue-gussets", 120), ("edge-strips", 75)],
)
def test_minutes_of_single_operations(made: Make, key: str, minutes: int) -> None:
    """Of a regusset with 42 gussets, 6 spares, 6 edge and 2 end strips."""
    found = {step.operation.key: step.minutes for step in steps("regusset", make_parts(made(), "regusset"))}
    assert found[key] == minutes


def test_every_job_and_operation_has_a_name() -> None:
    assert set(OPERATIONS) == set(JOBS)
    assert set(KEYS) == set(NAMES)


def test_what_is_not_made_takes_no_time(made: Make) -> None:
    plain, papered = made(), made(facing={})
    assert total("rebellows", make_parts(papered)) - total("rebellows", make_parts(plain)) == 6 + 84


def test_set_up_is_shared_over_copies(made: Make) -> None:
    """Three alike cost less than three times one: what is set up once is counted once, the rest three times."""
    three_alike = build(replace(made().profile, copies=3))
    one, three = make_parts(made(), "regusset"), make_parts(three_alike, "regusset")
    spares = [sum(part.spare for part in parts if "gusset" in part.kind) for parts in (one, three)]
    shared = {"cut-gussets": 7, "skive-gussets": 22, "cut-strips": 5}
    expected = 3 * total("regusset", one) - 2 * sum(shared.values()) + 2 * (spares[1] - 3 * spares[0])
    assert total("regusset", three, 3) == expected
    assert total("regusset", three, 3) < 3 * total("regusset", one)


def test_a_new_form_comes_before_it_is_set_up(made: Make) -> None:
    keys = [step.operation.key for step in steps("rebellows", make_parts(made()), new_form=True)]
    assert keys.index("make-form") == keys.index("set-up-form") - 1
    assert FORM.minutes(0) == 240
    assert "make-form" not in [step.operation.key for step in steps("regusset", make_parts(made(), "regusset"), new_form=True)]


def test_ones_own_minutes_and_what_a_book_taught(made: Make) -> None:
    own = Own({"glue-gussets": (Decimal(10), Decimal(2))}, {"glue-gussets": (Decimal("1.25"), 3), "clean": (Decimal("0.5"), 1)})
    found = {step.operation.key: step for step in steps("regusset", make_parts(made(), "regusset"), own=own)}
    assert (found["glue-gussets"].base, found["glue-gussets"].minutes, found["glue-gussets"].learned) == (Decimal(94), Decimal("117.50"), 3)
    assert (found["clean"].base, found["clean"].minutes, found["clean"].learned) == (Decimal(60), Decimal(30), 1)
    assert found["edge-strips"].learned == 0


@pytest.mark.parametrize(("job", "least", "most"), [("regusset", 4, 5), ("rebellows", 6, 9)])
def test_elapsed_days_of_the_usual_jobs(made: Make, job: str, least: int, most: int) -> None:
    """Elapsed: regusset 4 to 5 days, rebellows 6 to 9 (common practice, no source)."""
    bellows = made(facing={})
    assert days(steps(job, make_parts(bellows, job))) == (least, most)


def made_steps(*lengths: tuple[int, tuple[int, int]]) -> tuple[Step, ...]:
    from bellowscut.labour import Operation

    return tuple(Step(Operation("clean", n, nights=nights), 0, Decimal(n), Decimal(n)) for n, nights in lengths)


def test_a_day_ends_with_glue_and_when_it_is_full() -> None:
    """Worked by hand: a day holds 360 minutes, what would run over waits for the morning, glue dries over night."""
    found = made_steps((200, (0, 0)), (160, (0, 0)), (10, (1, 2)), (100, (0, 0)), (261, (0, 0)), (800, (0, 0)))
    assert schedule(found, DAY_LONG, 0) == (1, 1, 2, 3, 4, 6)
    assert schedule(found, DAY_LONG, 1) == (1, 1, 2, 4, 5, 7)
    assert schedule(made_steps((200, (0, 0)), (200, (0, 0)), (200, (0, 0))), DAY_LONG, 0) == (1, 2, 3)
    assert DAY_SHORT < DAY_LONG
    assert days(()) == (0, 0)


@pytest.mark.parametrize(
    ("lengths", "ends"),
    [
        ((360, 1), (1, 2)),
        ((300, 61), (1, 2)),
        ((1, 360, 1), (1, 2, 3)),
        # Longer than any day: begun at once, and what is left of its last day is worked in.
        ((361, 359, 1), (2, 2, 3)),
        ((100, 361, 259, 1), (1, 2, 2, 3)),
        ((420, 300, 1), (2, 2, 3)),
        ((720, 1), (2, 3)),
        ((721, 359, 1), (3, 3, 4)),
    ],
)
def test_a_step_over_the_end_of_the_day(lengths: tuple[int, ...], ends: tuple[int, ...]) -> None:
    """Worked by hand, with days of 360 minutes: to the minute."""
    assert schedule(made_steps(*((one, (0, 0)) for one in lengths)), DAY_LONG, 0) == ends

"""Common practice, no source: what the trade does without writing it down.

- Six sides: cards cut to 55 degrees at the ridge close flat and still open wide.
- Depth from a little over half an inch to 35 mm; a small gain in depth is a large gain in travel.
- End sizes near 6 1/4 in; six, eight, twelve sides, square or oblong; five to seven folds.
- Card 1.0 mm. Gusset leather 0.3 to 0.5, edge strip 0.5 to 0.7, 10 to 18 mm wide, skived about 5 mm on each
  flank down to about 0.2, leaving about 8 mm of full thickness along the middle.
- Forms slope at 45 degrees: ridges 20 mm high, valleys 40 mm apart, hence cards near 28 mm deep.
- Bare and covered frame differ by two strips, 1.2 to 1.6 mm across.
- A six-sided six-fold takes about 1.4 sq ft of leather net and 13 to 19 hours.
- A gap of the covering's thickness is left between stiff plates so that they can fold.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import pytest

from bellowscut.bellows import Bellows
from bellowscut.drawing import Role
from bellowscut.estimate import estimate
from bellowscut.form.build import build_form
from bellowscut.parts import make_parts
from bellowscut.units import MM2_PER_SQ_FT
from tests.printed import printed

pytestmark = pytest.mark.source("practice")


def test_six_sides_cut_to_fifty_five_degrees_close_flat(six_fold: Bellows) -> None:
    corner = six_fold.corners[0]
    assert corner.ridge_angle == printed("55")
    assert corner.opening(0) > 4 * six_fold.layers.gusset, "room for the folded leather"
    assert six_fold.open_length / six_fold.closed_length > 5, "and it opens wide"


@pytest.mark.parametrize("folds", [5, 6, 7])
@pytest.mark.parametrize("depth", ["0.55 in", "25 mm", "35 mm"])
def test_usual_depths_and_folds_can_be_built(made: Callable[..., Bellows], folds: int, depth: str) -> None:
    for section in (
        {"sides": 6},
        {"sides": 8},
        {"sides": 12, "end_size": "8 in"} if depth == "35 mm" else {"sides": 12},
        {"shape": "rectangle", "width": "7 in", "height": "7 in"},
        {"shape": "rectangle", "width": "10 in", "height": "6 in"},
    ):
        assert made(section=section, bellows={"folds": folds, "fold_depth": depth}).travel > 0


def test_a_little_more_depth_is_much_more_travel(made: Callable[..., Bellows]) -> None:
    """One millimetre more depth is over ten more travel: every one of the fourteen cards gives its share."""
    gain = made(bellows={"fold_depth": 26}).travel - made(bellows={"fold_depth": 25}).travel
    assert gain > 10
    deep_five, shallow_seven = made(bellows={"folds": 5, "fold_depth": 35}), made(bellows={"folds": 7, "fold_depth": 25})
    assert deep_five.travel > shallow_seven.travel, "deep bellows need fewer folds"


def test_edge_strip(six_fold: Bellows) -> None:
    """As cut: 10 to 18 mm wide, thinned over 5 at either edge, 8 of full thickness between; read off the piece that is drawn."""
    (strip,) = (part for part in make_parts(six_fold) if part.kind == "edge-strip")
    _, low, _, high = strip.outline.bounds()
    below, above = sorted(line.points[0][1] for line in strip.lines if line.role is Role.SKIVE and line.points[0][1] == line.points[1][1])
    assert high - low == printed("18")
    assert high - above == printed("5")
    assert below - low == printed("5")
    assert above - below == printed("8")


def test_forms_at_forty_five_degrees(made: Callable[..., Bellows]) -> None:
    """Cards of 28 mm on a form of 45 degrees: the comb as cut has ridges 20 mm high and valleys 40 apart, to the millimetre."""
    form = build_form(made(section={"end_size": "7 in"}, bellows={"fold_depth": 28, "form_slope": 45}, form={"arris": 0}))
    comb = next(part for part in form.parts if part.kind == "form-comb")
    edge = comb.points
    # Along the comb's working edge x is the bellows' length and y the depth; its ridges lie on y = 0.
    ridges = sorted(x for x, y in edge if y == pytest.approx(0, abs=0.01))
    valleys = sorted(x for x, y in edge if y == printed("-20"))
    assert [b - a for a, b in pairwise(ridges)] == [printed("40")] * 7
    assert [b - a for a, b in pairwise(valleys)] == [printed("40")] * 6


@pytest.mark.parametrize(("strip", "across"), [(0.6, "1.2"), (0.8, "1.6")])
def test_a_covered_frame_is_two_strips_larger(made: Callable[..., Bellows], strip: float, across: str) -> None:
    skin = {'materials."strip skin"': {"form": "skin", "thickness": strip, "area": "5 sq ft"}}
    bare, covered = (made(section={"measured_on": on}, **skin).section.flats for on in ("frame", "frame-covered"))
    assert bare is not None
    assert covered is not None
    assert bare[0] - covered[0] == printed(across)


def test_six_sides_six_folds_take_so_much_leather_and_time(six_fold: Bellows) -> None:
    job = estimate(six_fold, make_parts(six_fold))
    assert job.leather_net / MM2_PER_SQ_FT == printed("1.4")
    assert 13 <= float(job.minutes) / 60 <= 19


@pytest.mark.parametrize("covering", [0.2, 0.35])
def test_plates_stand_a_covering_apart(made: Callable[..., Bellows], covering: float) -> None:
    """Two cards laid out flat on their fold lines leave the hinge's own thickness free, for whatever cloth is bought."""
    linen = {"materials.linen": {"form": "roll", "thickness": covering, "size": ["1 m"]}}
    bellows = made(hinge={"valley_side": "outside"}, card={"ridge_radius": 0, "valley_radius": 0}, **linen)
    (card,) = (part for part in make_parts(bellows) if part.kind == "card")
    _, low, _, high = card.outline.bounds()
    assert 2 * low == pytest.approx(covering, abs=1e-9), "at a ridge"
    assert 2 * (25 - high) == pytest.approx(covering, abs=1e-9), "at a valley"

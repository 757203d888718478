"""Whole layouts: every piece once, judged by a second judge that shares no code with the engine, on stock of every sort."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from itertools import combinations

import pytest
import shapely

from bellowscut.errors import LayoutError, UsageError
from bellowscut.nesting.model import Placement, Result
from bellowscut.stock import fit as fit_module
from bellowscut.stock.lay import Instrument, lay, lay_sets
from bellowscut.stock.model import Laid, Layout, StockPiece
from bellowscut.stock.outlines import GUSSETS, Sort
from tests.nesting import brute
from tests.stock.instruments import instrument, skin

SHELF = '[[materials."gusset skin".shelf]]'
CLEAR = skin("gusset skin", 'clear = ["700 mm", "400 mm"]')
STRIPS = skin("strip skin", 'clear = ["700 mm", "400 mm"]')


def judge(piece: StockPiece) -> None:
    """Every rule of one piece of stock, by plain arithmetic on the parts' own outlines."""
    material = piece.material
    lines = [brute.moved(laid.part.points, laid.turn, laid.x, laid.y) for laid in piece.laid]
    for line in lines:
        assert brute.within(line, piece.outline, material.margin)
        assert all(brute.apart(line, flaw, material.gap) for flaw in piece.flaws)
    for one, other in combinations(lines, 2):
        assert brute.apart(one, other, material.gap)
    for laid, line in zip(piece.laid, lines, strict=True):
        assert all(brute.apart(line, zone, 0.0) for zone in piece.bars.get(laid.part.kind, ()))


def off_grain(piece: StockPiece, laid: Laid) -> float:
    """Angle between a piece's direction of least stretch and that of its stock [deg], 0 to 90."""
    angle = (laid.turn + laid.part.grain - piece.backbone) % 180
    return min(angle, 180 - angle)


def counted(layout: Layout) -> Counter[str]:
    return Counter(laid.id for piece in layout.stock for laid in piece.laid)


def wanted(one: Instrument) -> Counter[str]:
    return Counter({part.id: part.pieces for part in one.parts})


STOCKS = {
    "area": (),
    "clear": (CLEAR, STRIPS),
    "points with flaws, backbone aslant, grain side": (
        skin(
            "gusset skin",
            "outline = [[0, 60], [200, 0], [620, 20], [700, 300], [500, 460], [80, 420]]",
            "flaws = [[300, 200, 30], [520, 330, 12]]",
            "backbone = 25",
            'seen_from = "grain"',
            'belly = "40 mm"',
            'margin = "8 mm"',
            "gap = 2",
        ),
        STRIPS,
    ),
    "no gap": (skin("gusset skin", 'clear = ["300 mm", "200 mm"]', "gap = 0", "margin = 0"), STRIPS),
}


@pytest.mark.parametrize("tables", STOCKS.values(), ids=STOCKS)
def test_every_piece_lies_once_and_well(tables: tuple[str, ...]) -> None:
    one = instrument(*tables)
    layout, needs = lay([one], 1.0)
    assert counted(layout) == wanted(one)
    assert [piece.id for piece in layout.stock] == [f"stock-{k}" for k in range(1, len(layout.stock) + 1)]
    for piece in layout.stock:
        judge(piece)
        for laid in piece.laid:
            assert off_grain(piece, laid) <= (10 if laid.part.kind in GUSSETS else 0) + 1e-6
    for need in needs:
        parts = [part for part in one.parts if part.material == need.material.name]
        assert need.pieces_area == pytest.approx(sum(part.area * part.pieces for part in parts))
        assert need.pieces_area < need.gross_area <= sum(piece.area for piece in need.stock)


def test_cards_papers_and_cloth_keep_their_grain() -> None:
    one = instrument(job="rebellows")
    layout, _ = lay([one], 1.5)
    assert counted(layout) == wanted(one)
    for piece in layout.stock:
        assert len({laid.part.material for laid in piece.laid}) == 1
        for laid in piece.laid:
            if laid.part.kind not in GUSSETS:
                assert off_grain(piece, laid) == pytest.approx(0, abs=1e-9)
    (roll,) = (piece for piece in layout.stock if piece.is_roll)
    assert roll.length_used is not None
    assert max(x for laid in roll.laid for x, _ in laid.points()) == pytest.approx(roll.length_used - roll.material.margin, abs=0.1)


def test_numbers_run_through_for_each_part() -> None:
    layout, _ = lay([instrument(CLEAR, STRIPS, head="copies = 2")], 1.0)
    numbers: dict[str, list[int]] = {}
    for piece in layout.stock:
        for laid in piece.laid:
            numbers.setdefault(laid.id, []).append(laid.number)
    assert all(found == list(range(1, len(found) + 1)) for found in numbers.values())


def test_the_same_input_gives_the_same_layout() -> None:
    first, second = (lay([instrument()], 1.0)[0] for _ in range(2))
    assert first == second


def test_a_broken_layout_is_not_handed_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """Faults planted behind the engine: a piece moved onto its neighbour, and one left out."""
    real = fit_module._filled

    def moved(stocks: Sequence[Sort], result: Result) -> tuple[fit_module.Filled, ...]:
        (filled, *rest) = real(stocks, result)
        first, second, *others = filled.placements
        onto = Placement(first.stock, first.part, second.turn, second.x + 1, second.y)
        return fit_module.Filled(filled.sort, (onto, second, *others), filled.length), *rest

    def short(stocks: Sequence[Sort], result: Result) -> tuple[fit_module.Filled, ...]:
        (filled, *rest) = real(stocks, result)
        return fit_module.Filled(filled.sort, filled.placements[1:], filled.length), *rest

    for planted, told in ((moved, "closer than"), (short, "ordered")):
        monkeypatch.setattr(fit_module, "_filled", planted)
        with pytest.raises(RuntimeError, match=told):
            lay([instrument(CLEAR, STRIPS)], 0.5)


def test_copies_are_cut_each_from_one_skin() -> None:
    # Three bellows on two skins: two fit on one skin, so that none need be cut from both.
    narrow = skin("gusset skin", 'clear = ["360 mm", "360 mm"]')
    one = instrument(narrow, STRIPS, head="copies = 3")
    layout, _ = lay([one], 2.0)
    assert counted(layout) == wanted(one)
    skins = [piece for piece in layout.stock if piece.material.name == "gusset skin"]
    assert len(skins) == 2
    assert not any("colour may differ" in note for note in layout.notes)
    whole = {part.id: part.count // 3 for part in one.parts if part.material == "gusset skin"}
    for piece in skins:
        laid = Counter(one.id for one in piece.laid)
        bellows = min(laid[name] // count for name, count in whole.items())
        # No half bellows: what lies on it is a number of bellows and their share of the spares.
        assert all(laid[name] < (bellows + 1) * count for name, count in whole.items())


def test_a_bellows_cut_from_two_skins_is_told() -> None:
    layout, _ = lay([instrument(skin("gusset skin", 'clear = ["330 mm", "120 mm"]'), STRIPS)], 1.0)
    assert sum(piece.material.name == "gusset skin" for piece in layout.stock) > 1
    assert any("colour may differ" in note for note in layout.notes)


def test_long_strips_are_split_and_counted() -> None:
    one = instrument(CLEAR, skin("strip skin", 'clear = ["400 mm", "400 mm"]'), job="strips")
    layout, _ = lay([one], 1.0)
    found = counted(layout)
    assert found["edge-strip-length-1"] == found["edge-strip-length-2"] == 6
    assert found["end-strip-length-1"] == found["end-strip-length-2"] == 2
    told = " ".join(layout.notes)
    assert "6 of it are cut in 2 lengths each, with 6 scarf joints of 10 mm" in told
    for piece in layout.stock:
        judge(piece)


TOO_SMALL = [
    ("outline = [[0, 0], [300, 0], [300, 100], [0, 100]]", "no place was found for .*Gusset.* more leather is needed"),
    ("outline = [[0, 0], [60, 0], [60, 20], [0, 20]]", r"Gusset \(gusset\) finds no place on any skin, even alone"),
    ('clear = ["200 mm", "100 mm"]\ncount = 1', "no place was found for"),
]


@pytest.mark.parametrize(("keys", "told"), TOO_SMALL)
def test_too_little_leather_is_told_with_names_and_area(keys: str, told: str) -> None:
    with pytest.raises(LayoutError, match=told):
        lay([instrument(skin("gusset skin", keys), STRIPS)], 0.5)


def test_all_troubles_are_told_at_once() -> None:
    tiny = "outline = [[0, 0], [60, 0], [60, 20], [0, 20]]"
    with pytest.raises(LayoutError) as refused:
        lay([instrument(skin("gusset skin", tiny), skin("strip skin", tiny))], 0.5)
    assert {line.split(":")[0] for line in refused.value.lines()} == {"gusset skin", "strip skin"}


def test_a_roll_that_is_too_short_is_told() -> None:
    cloth = '[materials.linen]\nsize = ["400 mm", "100 mm"]'
    with pytest.raises(LayoutError, match="of the roll are needed, and it is 100 mm"):
        lay([instrument(cloth, job="rebellows")], 1.0)


PRICES = {
    "one dear skin or two cheap ones": ((("300 mm", "250 mm"), 9), (("300 mm", "170 mm"), 2), (("300 mm", "170 mm"), 3)),
    "a small one will do": ((("700 mm", "400 mm"), 8), (("300 mm", "250 mm"), 5)),
    "the large one is cheaper": ((("700 mm", "400 mm"), 4), (("300 mm", "250 mm"), 5)),
}


@pytest.mark.parametrize(("shelf", "cost"), list(zip(PRICES.values(), (5, 5, 4), strict=True)), ids=PRICES)
def test_the_cheapest_skins_of_a_shelf_are_taken(shelf: tuple[tuple[tuple[str, str], int], ...], cost: int) -> None:
    entries = [f'{SHELF}\nclear = ["{size[0]}", "{size[1]}"]\nprice = {price}' for size, price in shelf]
    one = instrument(skin("gusset skin"), *entries, STRIPS, '[costs]\ncharge = "whole"')
    layout, needs = lay([one], 1.0)
    assert counted(layout) == wanted(one)
    assert next(need.cost for need in needs if need.material.name == "gusset skin") == cost


def test_a_shelf_without_enough_says_how_much_more() -> None:
    one = instrument(skin("gusset skin"), f'{SHELF}\nclear = ["300 mm", "100 mm"]', STRIPS)
    with pytest.raises(LayoutError, match="more leather is needed"):
        lay([one], 0.5)


def test_several_instruments_share_a_skin_and_are_told_apart() -> None:
    first, second = instrument(CLEAR, STRIPS), instrument(CLEAR, STRIPS, head="copies = 2")
    layout, _ = lay([first, second], 1.0)
    both = Counter({f"1-{name}": count for name, count in wanted(first).items()})
    both += Counter({f"2-{name}": count for name, count in wanted(second).items()})
    assert counted(layout) == both
    assert layout.names == ("profile", "profile")
    assert len({piece.material.name for piece in layout.stock}) == 2
    for piece in layout.stock:
        judge(piece)


@pytest.mark.parametrize("kind", ["gusset", "edge-strip"])
def test_sets_fill_a_skin(kind: str) -> None:
    one = instrument(CLEAR, STRIPS)
    layout, _ = lay_sets(one, kind, 2.0)
    (piece,) = layout.stock
    judge(piece)
    kinds = GUSSETS if kind == "gusset" else (kind,)
    each = {part.id: part.count for part in one.parts if part.kind in kinds}
    laid = Counter(one.id for one in piece.laid)
    (sets,) = {laid[name] / count for name, count in each.items()}
    assert sets == int(sets)
    assert f"gives {int(sets)} set" in layout.notes[0]
    # Between what a loose layout gives and what area allows.
    area = sum(part.area * part.count for part in one.parts if part.kind in kinds)
    assert math.floor(0.6 * piece.area / area) <= sets <= piece.area / area


def test_the_most_sets_are_found_where_they_can_be_counted() -> None:
    # Strips of one length lie side by side: rows of them over the height, whatever the area would allow.
    one = instrument(skin("strip skin", 'clear = ["700 mm", "584 mm"]', "margin = 5", "gap = 1"), head="copies = 2")
    strip = next(part for part in one.parts if part.kind == "edge-strip")
    _, low, _, high = strip.outline.bounds()
    rows = math.floor((584 - 2 * 5 + 1) / (high - low + 1))
    assert rows // 6 == 5
    layout, _ = lay_sets(one, "edge-strip", 1.0)
    assert len(layout.stock[0].laid) == 5 * 6
    # Area alone would allow a set more.
    assert 6 * 6 * strip.area < 700 * 584 * 0.97


@pytest.mark.parametrize(("kind", "told"), [("card", "makes none"), ("hinge", "makes none")])
def test_sets_of_what_is_not_made_are_refused(kind: str, told: str) -> None:
    with pytest.raises(UsageError, match=told):
        lay_sets(instrument(), kind, 0.5)


def test_sets_of_what_comes_off_a_roll_are_refused() -> None:
    with pytest.raises(UsageError, match="roll"):
        lay_sets(instrument(job="rebellows"), "hinge", 0.5)


def test_progress_never_goes_back_and_changes_nothing() -> None:
    seen: list[float] = []
    told, _ = lay([instrument()], 1.0, seen.append)
    assert seen == sorted(seen)
    assert 0 <= seen[0] <= seen[-1] <= 1 + 1e-9
    assert told == lay([instrument()], 1.0)[0]


def test_what_is_left_holds_none_of_the_pieces() -> None:
    layout, _ = lay([instrument()], 1.0)
    for piece in layout.stock:
        if piece.left.clear:
            clear = shapely.Polygon(piece.left.clear)
            assert not any(clear.intersects(shapely.Polygon(laid.points())) for laid in piece.laid)

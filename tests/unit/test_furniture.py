"""Papers, and what stands round the patterns on them."""

from __future__ import annotations

import pytest

from bellowscut.drawing import Label, Line, Role, Stroke
from bellowscut.errors import UsageError
from bellowscut.lettering import DESCENT, text_width
from bellowscut.pages.bars import bars
from bellowscut.pages.furniture import Furniture
from bellowscut.pages.papers import MARGIN, MARGINS, PAPERS, paper, paper_told, reading_paper
from bellowscut.words.sheets import LAY_THE_RULE, PRINT_TRUE

LONG_NAME = "Twelve-sided duet of the demonstration workshop, rosewood 002"
NOTES = ("Suck the leather in three places. If air comes through, this skin leaks without a hole.",) * 3


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("a4", (210, 297)),  # ISO 216
        ("A3", (297, 420)),  # ISO 216
        ("a5", (148, 210)),  # ISO 216
        ("a2", (420, 594)),  # ISO 216
        ("A1", (594, 841)),  # ISO 216
        ("a0", (841, 1189)),  # ISO 216
        ("ansi-c", (431.8, 558.8)),  # 17 x 22 in, from memory
        ("ANSI-D", (558.8, 863.6)),  # 22 x 34 in, from memory
        ("ansi-e", (863.6, 1117.6)),  # 34 x 44 in, from memory
        ("arch-c", (457.2, 609.6)),  # 18 x 24 in, from memory
        ("arch-d", (609.6, 914.4)),  # 24 x 36 in, from memory
        ("arch-e", (914.4, 1219.2)),  # 36 x 48 in, from memory
        ("letter", (215.9, 279.4)),  # 8 1/2 x 11 in
        ("legal", (215.9, 355.6)),  # 8 1/2 x 14 in
        ("Tabloid", (279.4, 431.8)),  # 11 x 17 in
        ("320x450", (320, 450)),
        ("320 x 450 mm", (320, 450)),
        ("12x18in", (304.8, 457.2)),
        ("12in x 18in", (304.8, 457.2)),
        ("30x40cm", (300, 400)),
        ("210x148", (210, 148)),
        ("8.5\u00d711in", (215.9, 279.4)),
    ],
)
def test_papers_are_read(text: str, size: tuple[float, float]) -> None:
    assert paper(text) == pytest.approx(size)


@pytest.mark.parametrize(
    "text", ["a7", "", "x", "100x100", "147.9x210", "nanx300", "infx300", "-300x400", "300x", "300x400x500", "6000x300", "1e3x300"]
)
def test_other_papers_are_refused(text: str) -> None:
    with pytest.raises(UsageError, match="paper"):
        paper(text)


def test_the_refusal_says_what_would_be_right() -> None:
    with pytest.raises(UsageError, match="a4.*letter.*12x18in"):
        paper("foolscap")
    with pytest.raises(UsageError, match="148 x 210 mm"):
        paper("100x150")


@pytest.mark.parametrize("size", [*PAPERS.values(), (210.0, 148.0), (148.0, 210.0), (1000.0, 700.0)])
@pytest.mark.parametrize("name", ["Box", LONG_NAME, "W" * 60])
def test_everything_stands_on_the_paper_and_outside_the_area(size: tuple[float, float], name: str) -> None:
    furniture = Furniture(size, name, "0123456789ab", NOTES)
    left, low, right, high = furniture.area
    assert right - left > 100
    assert high - low > 60
    items = furniture.items(
        sheet="sheet 12 of 120", parts=" \u00b7 ".join(["Card, side A"] * 30), notes=NOTES, side="This is the flesh side."
    )
    for item in items:
        for x, y in corners(item):
            assert 5.0 <= x <= size[0] - 5.0
            assert 5.0 <= y <= size[1] - 5.0
            assert not (left < x < right and low < y < high)


@pytest.mark.parametrize("size", [PAPERS["a4"], PAPERS["letter"], PAPERS["a0"], PAPERS["a0"][::-1]])
@pytest.mark.parametrize("margin", [*MARGINS, 5.0, 17.5])
def test_everything_follows_the_margin(size: tuple[float, float], margin: float) -> None:
    """Nothing comes nearer to the paper's edge than the margin, and something comes as near on every side."""
    furniture = Furniture(size, LONG_NAME, "0123456789ab", NOTES, margin)
    left, low, right, high = furniture.area
    items = furniture.items(
        sheet="sheet 12 of 120", parts=" \u00b7 ".join(["Card, side A"] * 30), notes=NOTES, side="This is the flesh side."
    )
    points = [point for item in items for point in corners(item)]
    for x, y in points:
        assert margin - 0.01 <= x <= size[0] - margin + 0.01
        assert margin - 0.01 <= y <= size[1] - margin + 0.01
        assert not (left < x < right and low < y < high)
    assert min(x for x, _ in points) < margin + 3.0
    assert min(y for _, y in points) < margin + 3.0
    assert max(x for x, _ in points) == pytest.approx(size[0] - margin, abs=0.01)
    assert max(y for _, y in points) > size[1] - margin - 3.0
    assert right == pytest.approx(size[0] - margin)


def test_a_smaller_margin_gives_more_room() -> None:
    wide, usual, narrow = (Furniture(PAPERS["a4"], "Box", "0", NOTES, margin).area_size for margin in (3.0, 10.0, 30.0))
    assert wide[0] - usual[0] == pytest.approx(14.0)
    assert wide[1] > usual[1] > narrow[1]
    assert usual[0] - narrow[0] == pytest.approx(40.0)


@pytest.mark.parametrize("margin", [2.9, 30.1, 0.0, -5.0, float("nan"), float("inf")])
def test_a_margin_out_of_range_is_refused(margin: float) -> None:
    with pytest.raises(UsageError, match="from 3 to 30 mm, usually 10 mm"):
        Furniture(PAPERS["a3"], "Box", "0", margin=margin)


def test_a_margin_that_leaves_no_room_is_refused_with_what_would_do() -> None:
    size = (160.0, 250.0)
    with pytest.raises(UsageError, match="at most 16 mm"):
        Furniture(size, "Box", "0", margin=20.0)
    furniture = Furniture(size, LONG_NAME, "0", margin=16.0)
    bar = [x for item in furniture.items(sheet="sheet 1 of 1", parts="Card") for x, _ in corners(item)]
    assert max(bar) <= size[0] - 16.0 + 0.01


def test_pages_that_are_read_stay_small_beside_a_plotter() -> None:
    assert reading_paper(None) == PAPERS["a4"]
    for name in ("a5", "a4", "a3", "letter", "tabloid"):
        assert reading_paper(PAPERS[name]) == PAPERS[name]
    assert reading_paper(PAPERS["a0"]) == reading_paper((841.0, 2000.0)) == PAPERS["a4"]
    assert reading_paper(PAPERS["arch-d"]) == PAPERS["letter"]


def test_papers_are_told_by_name_and_size() -> None:
    assert paper_told((1189.0, 841.0)) == "A0 (1189 x 841 mm)"
    assert paper_told((320.0, 450.0)) == "320 x 450 mm"


def corners(item: object) -> list[tuple[float, float]]:
    if isinstance(item, Stroke | Line):
        return list(item.points)
    assert isinstance(item, Label)
    wide = text_width(item.text, item.height, bold=item.bold)
    wide = min(wide, item.width) if item.width else wide
    start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[item.anchor]
    x, y = item.at
    down, up = -item.height * DESCENT, item.height * 0.76
    if item.angle == 90:
        return [(x - up, y + start), (x - down, y + start + wide)]
    assert item.angle == 0
    return [(x + start, y + down), (x + start + wide, y + up)]


def test_a_long_name_is_all_there() -> None:
    furniture = Furniture(PAPERS["a5"], LONG_NAME, "0123456789ab")
    items = furniture.items(sheet="sheet 1 of 1", parts="Card")
    bold = [item.text for item in items if isinstance(item, Label) and item.bold]
    assert LONG_NAME in " ".join(bold)


def test_every_sheet_says_how_to_print_and_how_to_check() -> None:
    items = Furniture(PAPERS["a4"], "Box", "0123456789ab").items(sheet="sheet 2 of 3", parts="Card")
    words = [item.text for item in items if isinstance(item, Label)]
    assert {PRINT_TRUE, LAY_THE_RULE, "sheet 2 of 3", "fingerprint 0123456789ab", "cut", "crease", "skive", "mark"} <= set(words)
    assert {item.role for item in items if isinstance(item, Line)} == {Role.CUT, Role.CREASE, Role.SKIVE, Role.MARK}


def test_too_many_names_are_counted() -> None:
    items = Furniture(PAPERS["a5"], "Box", "0123456789ab").items(
        sheet="sheet 1 of 1", parts=" \u00b7 ".join(f"Card, side {c}" for c in "ABCDEFGHIJKL")
    )
    (told,) = [item.text for item in items if isinstance(item, Label) and item.text.startswith("Card")]
    shown = told.count("side")
    assert told.endswith(f"and {12 - shown} more")


def test_the_bars_are_a_hundred_millimetres_and_four_inches_both_ways() -> None:
    items = bars((MARGIN, MARGIN))
    ticks = [item.points for item in items if isinstance(item, Stroke) and not item.closed]
    level = sorted({round(a[0] - MARGIN, 6) for a, b in ticks if a[0] == b[0]})
    upright = sorted({round(a[1] - MARGIN, 6) for a, b in ticks if a[1] == b[1]})
    for at in (level, upright):
        assert {10.0 * k for k in range(11)} <= set(at)
        assert {round(12.7 * k, 6) for k in range(9)} <= set(at)
        assert max(at) == 101.6  # 4 in


def test_paper_too_small_is_refused_here_too() -> None:
    with pytest.raises(UsageError, match="148 x 210"):
        Furniture((140.0, 300.0), "Box", "0")
    assert MARGIN >= 10

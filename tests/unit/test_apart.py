"""Every part once, in order, nothing over anything else."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import combinations, pairwise

import pytest

from bellowscut.bellows import Bellows
from bellowscut.drawing import Drawn, Role
from bellowscut.export.stroke_letters import strokes
from bellowscut.layout.apart import apart
from bellowscut.parts import make_parts
from bellowscut.shapes import Point, bounds
from tests.readback.drawings import CASES

HEADING = ("Invented box", "true size in millimetres")


def everything(drawn: Drawn) -> list[Point]:
    found = [point for outline in drawn.outlines for point in outline.flattened()]
    found += [point for line in drawn.lines for point in line.points]
    return found + [point for label in drawn.labels for stroke in strokes(label) for point in stroke]


@pytest.mark.parametrize("case", CASES)
def test_nothing_lies_over_anything_else(case: str, made: Callable[..., Bellows]) -> None:
    width, height, drawn = apart(make_parts(made(**CASES[case])), HEADING)
    boxes = {one.part: bounds(everything(one)) for one in drawn if one.part != "scale"}
    assert len(boxes) == len(drawn) - 1
    for left, low, right, high in boxes.values():
        assert 0 < left < right < width
        assert 0 < low < high < height
    for a, b in combinations(boxes, 2):
        aside = max(boxes[a][0] - boxes[b][2], boxes[b][0] - boxes[a][2])
        above = max(boxes[a][1] - boxes[b][3], boxes[b][1] - boxes[a][3])
        assert max(aside, above) > 6, f"{a} and {b}"
    bars = next(one for one in drawn if one.part == "scale")
    strips = [bounds(pair) for line in bars.lines for pair in pairwise(line.points)]
    strips += [bounds([point for stroke in strokes(label) for point in stroke]) for label in bars.labels]
    for _, _, right, high in strips:
        for name, box in boxes.items():
            assert right < box[0] or high < box[1], f"a bar runs into {name}"


@pytest.mark.parametrize("case", CASES)
def test_a_caption_stands_clear_under_its_part(case: str, made: Callable[..., Bellows]) -> None:
    parts = {part.id: part for part in make_parts(made(**CASES[case]))}
    _, _, drawn = apart(parts.values())
    for one in drawn:
        if one.part in parts:
            low = min(y for outline in one.outlines for _, y in outline.flattened())
            assert max(y for label in one.labels for stroke in strokes(label) for _, y in stroke) < low - 1
            left = min(x for outline in one.outlines for x, _ in outline.flattened())
            assert all(label.at[0] == pytest.approx(left, abs=0.01) for label in one.labels)


@pytest.mark.parametrize("case", CASES)
def test_every_part_once_in_order_and_only_moved(case: str, made: Callable[..., Bellows]) -> None:
    parts = make_parts(made(**CASES[case]))
    _, _, drawn = apart(parts)
    shown = [one for one in drawn if one.part != "scale"]
    assert [one.part for one in shown if not one.part.endswith("-back")] == [part.id for part in parts]
    for part in parts:
        one = next(one for one in shown if one.part == part.id)
        assert len(one.outlines) == 1 + len(part.holes)
        dx = one.outlines[0].points[0][0] - part.outline.points[0][0]
        dy = one.outlines[0].points[0][1] - part.outline.points[0][1]
        for outline, own_outline in zip(one.outlines, (part.outline, *part.holes), strict=True):
            assert outline.bulges == own_outline.bulges
            moved = own_outline.moved(dx, dy).points
            assert all(p == pytest.approx(q, abs=1e-9) for p, q in zip(outline.points, moved, strict=True))
        kept = [line for line in one.lines if line.role is not Role.TEXT]
        assert [line.role for line in kept] == [line.role for line in part.lines]
        for line, own in zip(kept, part.lines, strict=True):
            assert line.points[0] == pytest.approx((own.points[0][0] + dx, own.points[0][1] + dy))


def test_captions_say_what_a_cutter_must_know(six_fold: Bellows) -> None:
    _, _, drawn = apart(make_parts(six_fold))
    said = {one.part: " ".join(label.text for label in one.labels) for one in drawn}
    # Counts as worked by hand in the geometry's example: 30 and 12 gussets, at least 3 spare of each.
    assert re.search(r"cut 30 \+ 3 spare, gusset skin", said["gusset"])
    assert re.search(r"cut 12 \+ 3 spare, gusset skin", said["end-gusset"])
    assert "flesh side shown" in said["gusset"]
    assert re.search(r"cut 84, grey card .* outside shown", said["card"])
    assert "trim" in said["edge-strip"], "the note of a part is told"
    assert all("least stretch" in said[part.id] for part in make_parts(six_fold))


def test_mirrored_leather_is_called_so(six_fold: Bellows) -> None:
    _, _, drawn = apart([part.mirrored() for part in make_parts(six_fold) if part.side == "flesh"])
    for one in drawn[:-1]:
        assert "grain side shown" in " ".join(label.text for label in one.labels)


def test_the_back_of_a_run_is_drawn_but_not_cut(made: Callable[..., Bellows]) -> None:
    parts = make_parts(made(card={"build": "run"}))
    _, _, drawn = apart(parts)
    places = [one.part for one in drawn]
    assert places[places.index("card-run") + 1] == "card-run-back"
    back = next(one for one in drawn if one.part == "card-run-back")
    assert not back.outlines
    assert {line.role for line in back.lines} == {Role.CREASE, Role.MARK}
    assert "not to be cut" in " ".join(label.text for label in back.labels)


def test_as_wide_as_the_longest_strip_needs(made: Callable[..., Bellows]) -> None:
    assert apart(make_parts(made()))[0] == 600
    long = made(section={"shape": "rectangle", "width": 500, "height": 300})
    width, _, drawn = apart(make_parts(long))
    assert width > 1600
    assert width - max(x for one in drawn for x, _ in everything(one)) == pytest.approx(8, abs=0.01)


def test_two_bars_of_100_mm(six_fold: Bellows) -> None:
    for width, _, drawn in (apart(make_parts(six_fold)), apart(())):
        assert width == 600
        bars = drawn[-1]
        assert bars.part == "scale"
        assert list(bars.lines[0].points) == [(8, 108), (8, 8), (108, 8)]
        assert len(bars.lines) == 21


def test_a_long_name_keeps_within_the_page(six_fold: Bellows) -> None:
    width, _, drawn = apart(make_parts(six_fold), ("W" * 300,))
    assert max(x for x, _ in everything(drawn[0])) < width

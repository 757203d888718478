"""The pictures as others read them: no letter is touched, and every length that is told is the length that is drawn."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from bellowscut.bellows import Bellows, build
from bellowscut.drawing import Label, Page, Pen, Role, Stroke
from bellowscut.export.pdf import write_pdf
from bellowscut.export.picture_svg import write_picture
from bellowscut.pages import bellows_view, hidden, part_drawing
from bellowscut.pages.pictures import Pictures
from bellowscut.parts import Part, edge_strip, make_parts
from bellowscut.profile import load, loads, shipped
from bellowscut.shapes import bounds
from tests.conftest import FIVE_LINES
from tests.readback.overlaps import faults
from tests.readback.pdf_reader import text as pdf_text
from tests.readback.svg_dimensions import Picture, Text
from tests.space import cards

PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4), "a5": (148.0, 210.0)}

LONG_NAME = "Instrument with a name of sixty characters, WWW and MMM in it"

DIGIT = 0.05
"""Half a unit of the last digit that is told [mm]."""

FILE = 0.02
"""Two ends of a length, each written to 0.01 mm [mm]."""

OLD = """\
[gusset]
skive = "3 mm"
[facing]
order = "first"
[valley_strip]
[ridge_cloth]
[corner_patch]
[cover_gusset]
[frame_hinge]
"""


LOPSIDED = """\
format = 1
[section]
shape = "measured"
corners = [["0 mm", "0 mm"], ["100 mm", "0 mm"], ["170 mm", "90 mm"], ["40 mm", "150 mm"], ["-60 mm", "100 mm"], ["-70 mm", "40 mm"]]
[bellows]
folds = 3
fold_depth = "17 mm"
[card]
ridge_radius = "1.65 mm"
valley_radius = "0.4 mm"
"""


@cache
def job(name: str) -> tuple[Bellows, tuple[Part, ...]]:
    texts = {"everything": FIVE_LINES + OLD, "lopsided": LOPSIDED}
    bellows = build(load(name) if name in shipped() else loads(texts[name]))
    return bellows, make_parts(bellows, also=("cover-gusset",))


@cache
def drawings(name: str) -> dict[str, Picture]:
    found = Pictures(*job(name)).drawings()
    return {key: Picture(write_picture(items, width, height, title=key, description="")) for key, (width, height, items) in found.items()}


NAMES = (*shipped(), "everything")


# letters -------------------------------------------------------------------


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", NAMES)
def test_no_letter_is_touched(name: str, paper: str) -> None:
    bellows, parts = job(name)
    named = replace(bellows, profile=replace(bellows.profile, name=LONG_NAME))
    pages = Pictures(named, parts).pages(paper=PAPERS[paper])
    data = write_pdf(pages, title="pictures")
    assert [fault for number in range(len(pages)) for fault in faults(data, number)] == []


@pytest.mark.parametrize(
    ("items", "word"),
    [
        ((Label("25.7", (50, 50), 3.0), Stroke(((40, 51), (90, 51)), Pen.THIN)), "crossed"),
        ((Label("25.7", (50, 50), 3.0), Label("25.4", (51, 50.5), 3.0)), "another letter"),
        ((Label("25.7", (98, 50), 3.0),), "edge of the paper"),
        ((Label("25.7", (50, 50), 3.0, 14.0), Stroke(((45, 51.5), (65, 52.5)), Pen.THIN)), "crossed"),
    ],
)
def test_faults_of_lettering_are_noticed(items: tuple[Label | Stroke, ...], word: str) -> None:
    data = write_pdf((Page(100.0, 100.0, "bad", items),), title="bad")
    assert any(word in fault for fault in faults(data))


def test_good_lettering_is_let_pass() -> None:
    items = (Label("ridge edge 25.7", (50, 50), 3.0), Stroke(((40, 49), (90, 49)), Pen.THIN), Label("25.4", (50, 44), 3.0))
    assert faults(write_pdf((Page(100.0, 100.0, "good", items),), title="good")) == []


# lengths ---------------------------------------------------------------------


def number_in(text: str) -> float:
    (found,) = re.findall(r"[0-9]+(?:\.[0-9]+)?", text)
    return float(found)


def scale_of(picture: Picture) -> float:
    (told,) = [re.search(r"([0-9.]+) : ([0-9.]+)", text.text) for text in picture.texts if " : " in text.text]
    assert told is not None
    return float(told.group(1)) / float(told.group(2))


def alongs(text: Text) -> bool:
    """Whether a text runs along the part."""
    return text.angle == 0.0


@pytest.mark.parametrize("name", NAMES)
def test_sizes_of_parts_are_the_lengths_drawn(name: str) -> None:
    _, parts = job(name)
    for part in parts:
        picture = drawings(name)[f"part-{part.id}"]
        scale = scale_of(picture)
        broken = any("broken" in text.text for text in picture.texts)
        told = picture.dimensions()
        left, low, right, high = bounds(part.points)
        wrong = [one for one in told if abs(number_in(one.text.text) - one.drawn / scale) > DIGIT + FILE / scale]
        # The one length that is not to scale is the broken one; it must be the part's own.
        assert len(wrong) == (1 if broken else 0), (part.id, [(one.text.text, one.drawn / scale) for one in wrong])
        for one in wrong:
            assert alongs(one.text)
            assert number_in(one.text.text) == pytest.approx(right - left, abs=DIGIT)
        # Width and height over all are told, whatever else is.
        said = [number_in(one.text.text) for one in told] + [number_in(one) for one in notes_over_all(picture)]
        for size in (right - left, high - low):
            assert any(abs(value - size) <= DIGIT + 1e-6 for value in said), (part.id, size, said)


def notes_over_all(picture: Picture) -> list[str]:
    """Sizes that had no room in the drawing and are told under it."""
    return [found for text in picture.texts for found in re.findall(r"[0-9.]+ (?:wide|high) over all", text.text)]


@pytest.mark.parametrize("name", shipped())
def test_nothing_of_a_shipped_profile_lacks_room_in_its_drawing(name: str) -> None:
    for key, picture in drawings(name).items():
        assert not any("not in the drawing" in text.text for text in picture.texts), key


@pytest.mark.parametrize("name", NAMES)
def test_heads_are_closed_and_thirty_degrees_wide(name: str) -> None:
    for key, picture in drawings(name).items():
        if key.startswith("part-"):
            assert len(picture.heads) >= 4
            for head in picture.heads:
                assert head.opening == pytest.approx(30.0, abs=0.8)
                assert math.dist(head.tip, head.base) == pytest.approx(2.0, abs=0.03)


@pytest.mark.parametrize("name", NAMES)
def test_figures_are_read_from_the_foot_or_from_the_right(name: str) -> None:
    for picture in drawings(name).values():
        assert all(-90 < text.angle <= 90 for text in picture.texts)


@pytest.mark.parametrize("name", NAMES)
def test_extension_lines_start_off_the_part_and_run_past(name: str) -> None:
    """From memory, ISO 129-1: a gap at the part, and a little past the dimension line."""
    for part in job(name)[1]:
        picture = drawings(name)[f"part-{part.id}"]
        for one in picture.dimensions():
            if one.text.text.startswith(("lap", "skive")) and one.text.angle not in (0.0, 90.0):
                continue  # from line to line of the part, without extension lines
            flat = one.text.angle == 0.0
            for x, y in one.tips:
                past = [
                    max(abs(end[flat] - (x, y)[flat]) for end in (a, b) if abs(end[flat] - (x, y)[flat]) < 2.0)
                    for a, b in picture.lines
                    if abs(a[not flat] - (x, y)[not flat]) < 0.02 and abs(b[not flat] - (x, y)[not flat]) < 0.02
                    if min(a[flat], b[flat]) < (x, y)[flat] < max(a[flat], b[flat])
                    if any(abs(end[flat] - (x, y)[flat]) < 2.0 for end in (a, b))
                ]
                assert any(length == pytest.approx(1.3, abs=0.03) for length in past), (part.id, one.text.text)


@pytest.mark.parametrize("name", NAMES)
def test_angles_of_cards_are_those_of_their_outlines(name: str) -> None:
    for part in job(name)[1]:
        if part.kind != "card":
            continue
        points = part.points
        _, low, _, high = bounds(points)
        # The two legs are the longest edges that are neither ridge nor valley.
        edges = [(points[i - 1], p) for i, p in enumerate(points) if abs(points[i - 1][1] - p[1]) > 0.6 * (high - low)]
        angles = sorted(math.degrees(math.atan2(abs(a[1] - b[1]), abs(a[0] - b[0]))) for a, b in edges)
        told = sorted(float(text.text[:-1]) for text in drawings(name)[f"part-{part.id}"].texts if text.text.endswith("\u00b0"))
        assert told == pytest.approx(angles, abs=DIGIT + 1e-3)


def sharp_corners(points: tuple[tuple[float, float], ...]) -> list[tuple[float, float]]:
    """Where the four long edges of a rounded card meet when they are carried on."""
    edges = sorted(((points[i - 1], p) for i, p in enumerate(points)), key=lambda edge: -math.dist(*edge))[:4]
    order = [edge for edge in ((points[i - 1], p) for i, p in enumerate(points)) if edge in edges]
    found = []
    for (a, b), (c, d) in zip(order, (*order[1:], order[0]), strict=True):
        abx, aby, cdx, cdy = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
        at = ((c[0] - a[0]) * cdy - (c[1] - a[1]) * cdx) / (abx * cdy - aby * cdx)
        found.append((a[0] + abx * at, a[1] + aby * at))
    return found


@pytest.mark.parametrize("name", [*NAMES, "lopsided"])
def test_sizes_of_cards_stand_over_their_corners(name: str) -> None:
    for part in job(name)[1]:
        if part.kind != "card":
            continue
        picture = drawings(name)[f"part-{part.id}"]
        scale = scale_of(picture)
        tips = [tip for one in picture.dimensions() for tip in one.tips]
        # The outline lies where its lowest dimensions say: everything is measured from the left end of the ridge edge.
        (ridge,) = [one for one in picture.dimensions() if one.text.text.startswith("ridge edge")]
        (valley,) = [one for one in picture.dimensions() if one.text.text.startswith("valley edge")]
        corners = sharp_corners(part.points)
        low = sorted(x for x, y in corners if y < sum(y for _, y in corners) / 4)
        high = sorted(x for x, y in corners if y > sum(y for _, y in corners) / 4)
        left = min(x for x, _ in ridge.tips)
        drawn = sorted((x - left) / scale + low[0] for x, _ in valley.tips)
        assert drawn == pytest.approx(high, abs=2 * FILE / scale), part.id
        # Extension lines of the ridge edge start a little under the outline's lowest line.
        level = {round(y, 2) for _, y in ridge.tips}.pop()
        starts = [max(a[1], b[1]) for a, b in picture.lines for x, _ in ridge.tips if abs(a[0] - x) < 0.02 and abs(b[0] - x) < 0.02]
        outline = min(y for points, _ in picture.outlines for _, y in points)
        assert [outline - start for start in starts if start > level] == pytest.approx([0.9, 0.9], abs=0.03)
        assert len(tips) >= 6


# the bellows -----------------------------------------------------------------


@pytest.mark.parametrize("name", shipped())
def test_lengths_of_the_bellows_are_drawn_to_scale(name: str) -> None:
    bellows, _ = job(name)
    angle = bellows.stretch
    ring = cards.ring(bellows.section.ridge, bellows.depth, bellows.corner_gap, bellows.relief, angle)
    wide = cards.stacked_length(ring, bellows.cards_per_side)
    lengths = {}
    for state in ("closed", "half-open", "open"):
        picture = drawings(name)[f"bellows-{state}"]
        (one,) = picture.dimensions()
        lengths[state] = number_in(one.text.text)
        assert one.drawn / scale_of(picture) == pytest.approx(lengths[state], abs=DIGIT + FILE / scale_of(picture))
    assert lengths["open"] == pytest.approx(wide, abs=DIGIT)
    assert lengths["closed"] == pytest.approx(bellows.closed_length, abs=DIGIT)
    assert lengths["half-open"] == pytest.approx((bellows.closed_length + wide) / 2, abs=DIGIT + 1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_layers_add_up_and_the_thickest_stack_governs(name: str) -> None:
    bellows, _ = job(name)
    picture = drawings(name)["valley-cell"]
    stack = bellows.stack
    told = sorted(number_in(one.text.text) for one in picture.dimensions())
    assert told == pytest.approx(sorted((stack.face, stack.valley, stack.ridge, stack.corner)), abs=0.005 + 1e-9)
    drawn = sorted(one.drawn for one in picture.dimensions())
    scale = drawn[-1] / max(stack.face, stack.valley, stack.ridge, stack.corner)
    assert scale in (pytest.approx(20, rel=0.002), pytest.approx(10, rel=0.002), pytest.approx(5, rel=0.002), pytest.approx(2, rel=0.005))
    # Layer upon layer: the filled boxes of a stack are as high together as its dimension line.
    for one in picture.dimensions():
        (x, low), (_, high) = sorted(one.tips, key=lambda tip: tip[1])
        boxes = [bounds(points) for points, _ in picture.fills if len(points) == 4]
        own = [box for box in boxes if 0 < box[0] - x < 6.0 and low - 0.02 <= box[1] and box[3] <= high + 0.02]
        assert sum(box[3] - box[1] for box in own) == pytest.approx(high - low, abs=0.02 * len(own) + 0.02)
    named = [text.text for text in picture.texts if "governs" in text.text and ":" not in text.text]
    assert named == [f"{stack.governs}, governs"]
    assert any(f"{bellows.closed_length:.1f} mm between the frames" in text.text for text in picture.texts)


def test_the_pages_tell_every_part_and_the_states() -> None:
    bellows, parts = job("six-sided-treble")
    data = write_pdf(pages := Pictures(bellows, parts).pages(paper=PAPERS["a4"]), title="pictures")
    said = " ".join(pdf_text(data, number) for number in range(len(pages)))
    for word in ("Closed", "Half open", "Full stretch", "Corner AB", *(part.name for part in parts)):
        assert word in said
    assert f"{bellows.open_length:.1f}" in said


def test_pages_and_drawings_share_what_they_show(monkeypatch: pytest.MonkeyPatch) -> None:
    bellows, parts = job("six-sided-treble")
    alone = Pictures(bellows, parts).drawings()
    worked_out: list[str] = []

    def counted(name: str, work: Callable[..., object]) -> Callable[..., object]:
        def counting(*given: object) -> object:
            worked_out.append(name)
            return work(*given)

        return counting

    monkeypatch.setattr(bellows_view, "painted", counted("state", hidden.painted))
    monkeypatch.setattr(part_drawing, "_figure", counted("part", part_drawing._figure))
    pictures = Pictures(bellows, parts)
    pages = pictures.pages(paper=PAPERS["a4"])
    assert pictures.drawings() == alone
    assert pages
    assert worked_out.count("state") == len(pictures.views) == 3
    # One drawing a part; families of parts on the pages have their own captions.
    together = [family for family in part_drawing.families(parts) if len(family.parts) > 1]
    assert worked_out.count("part") == len(parts) + len(together)


def test_pictures_are_the_same_every_time() -> None:
    bellows, parts = job("six-sided-treble")
    first, second = (Pictures(bellows, parts).drawings() for _ in range(2))
    assert first == second
    assert list(first)[:5] == ["bellows-closed", "bellows-half-open", "bellows-open", "corner", "valley-cell"]
    assert list(first)[5:] == [f"part-{part.id}" for part in parts]


@pytest.mark.parametrize(("lap", "joint"), [(7, 10), (25, 10), (60, 0.5), (60, 30)])
def test_a_long_strip_is_broken_before_its_first_dart(made: Callable[..., Bellows], lap: float, joint: float) -> None:
    """However wide and near to the end it is: what is drawn of the end is plain leather, and there is some of it."""
    section = {"shape": "regular", "sides": 3, "end_size": 100, "measure": "side"}
    edge = {"darts": True, "lap": lap, "joint": joint}
    bellows = made(section=section, bellows={"fold_depth": 20, "stretch": 30}, gusset={"lap": 1, "tip_lap": 1}, edge_strip=edge)
    (strip,) = edge_strip.make(bellows)
    drawing = part_drawing._drawing(strip, 2.0)
    assert drawing.breaks
    drawn = [[x / 2.0 for x, _ in line.points] for line in drawing.lines if line.role is Role.CUT]
    first = min(x for x, _ in strip.points if x > 0)
    assert [0 < max(xs) - min(xs) < first for xs in drawn] == [True, True]

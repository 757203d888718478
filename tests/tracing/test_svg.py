"""What an SVG says: sizes worked out by hand from the definitions of SVG and CSS."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
import svgelements

from bellowscut.shapes import bounds, signed_area
from tests.tracing.drawings import MILLIMETRES, SKIN, apart, read, rectangle, ring, svg


def size(points: tuple[tuple[float, float], ...]) -> tuple[float, float]:
    left, low, right, high = bounds(points)
    return right - left, high - low


def test_a_rectangle_stands_on_its_corner_and_turns_left(tmp_path: Path) -> None:
    made = read(tmp_path, "skin.SVG", svg(SKIN))
    assert apart(made.outline, rectangle(0, 0, 500, 300)) < 1e-9
    assert bounds(made.outline)[:2] == (0, 0)
    assert len(made.outline) == 4
    assert signed_area(made.outline) == pytest.approx(150_000)
    assert made.flaws == ()
    assert made.bars == {}
    assert made.check is None


def test_flaws_and_bars_keep_their_places_with_y_up(tmp_path: Path) -> None:
    flaw = '<rect x="150" y="120" width="30" height="20"/>'
    bar = '<g id="no-gusset"><rect x="100" y="350" width="500" height="100"/></g>'
    made = read(tmp_path, "skin.svg", svg(SKIN + flaw + bar))
    assert apart(made.flaws[0], rectangle(50, 260, 80, 280)) < 1e-6
    assert list(made.bars) == ["gusset"]
    assert apart(made.bars["gusset"][0], rectangle(0, -50, 500, 50)) < 1e-6


UNITS = [
    ("100mm", 100.0),
    ("10cm", 100.0),
    ("4in", 101.6),
    ("288pt", 101.6),
    ("24pc", 101.6),
    ("400Q", 100.0),
    ("1e2 mm", 100.0),
]


@pytest.mark.parametrize(("width", "true"), UNITS)
def test_units(width: str, true: float, tmp_path: Path) -> None:
    drawn = svg('<rect width="50" height="40"/>', f'width="{width}" viewBox="0 0 100 200"')
    assert size(read(tmp_path, "skin.svg", drawn).outline) == pytest.approx((true / 2, true * 0.4))


@pytest.mark.parametrize("sizes", ['width="384" height="384"', 'width="384px"', "", 'viewBox="5 5 384 384"', 'width="100%" height="100%"'])
def test_pixels_are_96_to_the_inch_and_want_a_check(sizes: str, tmp_path: Path) -> None:
    drawn = svg('<rect width="384" height="192"/>', sizes)
    assert size(read(tmp_path, "skin.svg", drawn, area=101.6 * 50.8).outline) == pytest.approx((101.6, 50.8))


@pytest.mark.parametrize(
    ("more", "true"),
    [("", 50.0), ('preserveAspectRatio="xMidYMid meet"', 50.0), ('preserveAspectRatio="xMinYMin slice"', 100.0)],
)
def test_a_drawing_that_does_not_fit_its_frame_keeps_its_shape(more: str, true: float, tmp_path: Path) -> None:
    drawn = svg('<rect width="50" height="50"/>', f'width="100mm" height="200mm" viewBox="0 0 100 100" {more}')
    assert size(read(tmp_path, "skin.svg", drawn).outline) == pytest.approx((true, true))


def test_lengths_of_shapes_may_have_units(tmp_path: Path) -> None:
    drawn = svg('<rect x="1in" width="254mm" height="10in"/>', "")
    assert size(read(tmp_path, "skin.svg", drawn, area=254 * 254).outline) == pytest.approx((254, 254))


TRANSFORMS = [
    ('<g transform="translate(7,9) scale(2)"><rect width="100" height="50"/></g>', rectangle(0, 0, 200, 100)),
    ('<g transform="rotate(90 10 10)"><rect width="100" height="50"/></g>', rectangle(0, 0, 50, 100)),
    ('<g transform="scale(2 3)"><rect transform="translate(5)" width="100" height="50"/></g>', rectangle(0, 0, 200, 150)),
    ('<rect transform="matrix(0 1 1 0 3 4)" width="100" height="50"/>', rectangle(0, 0, 50, 100)),
    ('<rect transform="skewX(45)" width="100" height="50"/>', [(50, 0), (150, 0), (100, 50), (0, 50)]),
    ('<rect transform="skewY(45)" width="100" height="50"/>', [(0, 100), (0, 50), (100, -50), (100, 0)]),
    ('<rect transform="scale(-1,1)translate(10-5)" width="100" height="50"/>', rectangle(0, 0, 100, 50)),
]


@pytest.mark.parametrize(("body", "wanted"), TRANSFORMS)
def test_transforms(body: str, wanted: list[tuple[float, float]], tmp_path: Path) -> None:
    made = read(tmp_path, "skin.svg", svg(body))
    left, low, _, _ = bounds(wanted)
    assert apart(made.outline, [(x - left, y - low) for x, y in wanted]) < 1e-6


MOVES = [
    ("translate(60,30)", (100, 100), (160, 130)),
    ("translate(60) translate(0 30)", (100, 100), (160, 130)),
    ("matrix(1 0 0 1 60 30)", (100, 100), (160, 130)),
    ("rotate(90 85 15)", (170, -20), (100, 100)),
    # Two half turns about different points are a shift by twice what lies between them.
    ("rotate(180 85 45) rotate(180 55 30)", (100, 100), (160, 130)),
]


@pytest.mark.parametrize(("maps", "start", "end"), MOVES)
def test_transforms_move_one_shape_against_another(maps: str, start: tuple[int, int], end: tuple[int, int], tmp_path: Path) -> None:
    made = read(tmp_path, "skin.svg", svg(f'{SKIN}<rect transform="{maps}" x="{start[0]}" y="{start[1]}" width="20" height="20"/>'))
    assert apart(made.flaws[0], rectangle(end[0] - 100, 380 - end[1], end[0] - 80, 400 - end[1])) < 1e-6


AREAS = [
    ('<circle cx="300" cy="300" r="200"/>', math.pi * 200**2),
    ('<ellipse cx="300" cy="300" rx="200" ry="100"/>', math.pi * 200 * 100),
    ('<rect width="400" height="300" rx="50"/>', 400 * 300 - (4 - math.pi) * 50**2),
    ('<rect width="400" height="300" ry="50"/>', 400 * 300 - (4 - math.pi) * 50**2),
    ('<path d="M100 100 600,100,600,400 100,400z"/>', 150_000),
    ('<path d="m100 100 500 0 0 300-500 0z"/>', 150_000),
    ('<rect width="400" height="300" rx="500" ry="20"/>', 400 * 300 - (4 - math.pi) * 200 * 20),
    # A half disc on either side of a square; large and small arcs, with and without spaces after the flags.
    ('<path d="M100 100 h200 a100 100 0 0 1 0 200 h-200 a100 100 0 0 1 0-200 z"/>', 200 * 200 + math.pi * 100**2),
    ('<path d="M100 100H300A100,100 0 01300 300H100A100 100 0 01100 100"/>', 200 * 200 + math.pi * 100**2),
    # Three quarters of a disc with a square corner.
    ('<path d="M300 200 A100 100 0 1 1 200 100 V200 Z"/>', 0.75 * math.pi * 100**2),
    ('<path d="M300 200 A100 100 0 0 0 200 100 V200 Z"/>', 0.25 * math.pi * 100**2),
    # Radii too small for the ends grow until they fit.
    ('<path d="M100 100 A1 1 0 0 1 300 100 Z"/>', 0.5 * math.pi * 100**2),
    # Under a parabola: two thirds of the rectangle round it, here 200 by 100.
    ('<path d="M100 300 Q200 100 300 300 Z"/>', 200 * 100 * 2 / 3),
    ('<path d="m100 300 q100-200 200 0 t200 0 v300 h-400 z"/>', 400 * 300),
    # A cubic with its handles above its ends: 3/5 of what they span, by integration, here 0.6 * 200 * 100.
    ('<path d="M100 300 C100 200 300 200 300 300 Z"/>', 0.6 * 200 * 100),
    ('<path d="M100 300 C100 200 300 200 300 300 S500 400 500 300 v300 H100 z"/>', 400 * 300),
    ('<polygon points="0,0 400,0,400 300 0 300"/>', 120_000),
    ('<polygon points="10-5 410-5 410 295 10 295"/>', 120_000),
    ('<polyline points="0,0 400,0 400,300 0,300 0,0.5"/>', 120_000),
]


@pytest.mark.parametrize(("body", "area"), AREAS)
def test_shapes_enclose_what_they_should(body: str, area: float, tmp_path: Path) -> None:
    made = read(tmp_path, "skin.svg", svg(body))
    # A chord or a smoothed point is off by at most 0.05 mm, so the area by at most that times the edge.
    assert abs(signed_area(made.outline) - area) <= 0.05 * ring(made.outline).length


def test_a_path_as_another_library_reads_it(tmp_path: Path) -> None:
    data = "m120,80 c40-30 90,10 140 5 s60,70 130,40 q20 60-30,90 t-60 70 a90,60 25 1 1-140-20 l-60 10 Z"
    made = read(tmp_path, "skin.svg", svg(f'<path d="{data}"/>'))
    sampled = [segment.point(k / 200) for segment in svgelements.Path(data)[1:] for k in range(200)]
    left, low, _, _ = bounds([(point.x, -point.y) for point in sampled])
    assert apart(made.outline, [(point.x - left, -point.y - low) for point in sampled]) < 0.06


def test_what_is_not_drawn_is_passed_over(tmp_path: Path) -> None:
    large = '<rect width="900" height="700"/>'
    hidden = (
        f'<g display="none">{large}</g><g style="display : None">{large}</g><rect visibility="hidden" width="900" height="700"/>'
        f'<defs>{large}<g id="x"/><use href="#x"/></defs><clipPath id="c">{large}</clipPath><image href="file:///etc/passwd" width="9"/>'
        f'<text x="3">words</text><style>@import url("http://no.invalid/x.css");</style><script>for(;;);</script><metadata>{large}</metadata>'
        f'<tool:thing>{large}</tool:thing><rect width="0" height="5"/><circle r="0"/><path d=""/><path d="M5 5"/>'
    )
    assert read(tmp_path, "skin.svg", svg(hidden + SKIN + hidden)) == read(tmp_path, "plain.svg", svg(SKIN))


def test_a_plain_doctype_is_no_harm(tmp_path: Path) -> None:
    prolog = '<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE svg PUBLIC "-//X//DTD SVG 1.1//EN" "http://no.invalid/svg11.dtd">\n'
    assert read(tmp_path, "skin.svg", prolog + svg(SKIN)) == read(tmp_path, "plain.svg", svg(SKIN))
    assert read(tmp_path, "skin.svg", ("\ufeff" + svg(SKIN)).encode()) == read(tmp_path, "plain.svg", svg(SKIN))
    assert read(tmp_path, "skin.svg", f"<svg {MILLIMETRES}>{SKIN}</svg>") == read(tmp_path, "plain.svg", svg(SKIN))


NAMES = [
    ('<g id="no-gusset">{}</g>', ["gusset"]),
    ('<g id="No_Gusset 2">{}</g>', ["gusset"]),
    ('<g id="layer1" tool:label="no edge strip">{}</g>', ["edge-strip"]),
    ('<g id="no_x20_card_1_">{}</g>', ["card"]),
    ('<g id="no-gusset"><g id="no-card">{}</g></g>', ["card", "gusset"]),
    ('<rect id="no-half-gusset-12" x="100" y="100" width="50" height="50"/>', ["half-gusset"]),
]


@pytest.mark.parametrize(("group", "kinds"), NAMES)
def test_names_that_bar(group: str, kinds: list[str], tmp_path: Path) -> None:
    made = read(tmp_path, "skin.svg", svg(SKIN + group.format('<rect x="100" y="100" width="50" height="50"/>')))
    assert sorted(made.bars) == kinds
    assert made.flaws == ()
    for (bar,) in made.bars.values():
        assert apart(bar, rectangle(0, 250, 50, 300)) < 1e-6


@pytest.mark.parametrize("name", ["notes", "no", "", "knot-gusset", "no-" + "x" * 100])
def test_names_that_do_not(name: str, tmp_path: Path) -> None:
    made = read(tmp_path, "skin.svg", svg(SKIN + f'<g id="{name}"><rect x="200" y="200" width="50" height="50"/></g>'))
    assert made.bars == {}
    assert len(made.flaws) == 1

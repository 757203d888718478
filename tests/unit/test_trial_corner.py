"""The paper corner: its pieces are folded up in space by a second route and must fit each other."""

from __future__ import annotations

import itertools
import math
from pathlib import Path

import pytest

from bellowscut.bellows import Bellows, build
from bellowscut.drawing import Drawn, Label, Page, Role
from bellowscut.lettering import CAPITAL, fitted_height, text_width
from bellowscut.pages.trial_corner import steps, trial_corner_pages
from bellowscut.pages.trial_pieces import SIZES, TrialPiece, gusset_on_card, trial_pieces
from bellowscut.parts import make_parts
from bellowscut.profile import load
from bellowscut.shapes import Outline, Point, bounds

Space = tuple[float, float, float]

A4, A5, LETTER, A3 = (210.0, 297.0), (148.0, 210.0), (215.9, 279.4), (297.0, 420.0)

SECTIONS = {
    "six": 'shape = "regular"\nsides = 6\nend_size = "6 1/4 in"',
    "oblong": 'shape = "rectangle"\nwidth = 250\nheight = 120',
    "twelve": 'shape = "regular"\nsides = 12\nend_size = "8 in"',
    "triangle": 'shape = "regular"\nsides = 3\nend_size = 220\nmeasure = "side"',
    "uneven": 'shape = "measured"\ncorners = [[0, 0], [150, 0], [130, 100], [20, 130]]',
}


def made(folder: Path, section: str, depth: float = 25, more: str = "") -> Bellows:
    file = folder / "trial.toml"
    file.write_text(
        f"format = 1\n[section]\n{SECTIONS.get(section, section)}\n[bellows]\nfolds = 4\nfold_depth = {depth}\n{more}\n", encoding="utf-8"
    )
    return build(load(str(file)))


def by_id(bellows: Bellows) -> dict[str, TrialPiece]:
    return {piece.id: piece for piece in trial_pieces(bellows)}


def minus(a: Space, b: Space) -> Space:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def cross(a: Space, b: Space) -> Space:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


def dot(a: Space, b: Space) -> float:
    return sum(x * y for x, y in zip(a, b, strict=True))


def feet(piece: TrialPiece) -> tuple[Point, Point]:
    """Where a side's leg starts at the upper ridge and ends at the valley, read off the cut paper."""
    creases = [line for line in piece.lines if line.role is Role.CREASE]
    valley = next(line for line in creases if abs(line.points[0][1]) < 1e-9)
    ridge = max(creases, key=lambda line: line.points[0][1])
    return min(ridge.points, key=lambda p: abs(p[0])), min(valley.points, key=lambda p: abs(p[0]))


def folded(bellows: Bellows, apart: float) -> tuple[Space, Space, Space, Space]:
    """Ridge and valley end of the left and of the right leg, the plates `apart` mm apart.

    The second route: the ridge lines are those printed on the plate; the valley
    line of each side lies level half-way between the plates, as far inwards as
    the paper between ridge and valley reaches.
    """
    pieces = by_id(bellows)
    found: list[Space] = []
    for name, line in zip(("side-left", "side-right"), pieces["plate-low"].lines, strict=True):
        (_, _), (ex, ey) = line.points
        length = math.hypot(ex, ey)
        ux, uy = ex / length, ey / length
        # Inwards is up the page: the plate's corner points down.
        nx, ny = (-uy, ux) if ux > 0 else (uy, -ux)
        ridge, valley = feet(pieces[name])
        paper = ridge[1] - valley[1]
        inward = math.sqrt(paper * paper - apart * apart / 4)
        found.append((ux * abs(ridge[0]), uy * abs(ridge[0]), apart))
        found.append((ux * abs(valley[0]) + nx * inward, uy * abs(valley[0]) + ny * inward, apart / 2))
    return found[0], found[1], found[2], found[3]


def legs(piece: TrialPiece) -> tuple[Point, Point, Point, Point]:
    """Ridge and valley end of the left and right leg as marked on the upper half of the paper gusset."""
    marked = [line.points for line in piece.lines if line.role is Role.MARK and line.points[0][1] == 0 and line.points[1][1] > 1]
    slant = sorted(points for points in marked if points[0][0] != 0)
    assert len(slant) == 2
    (left_valley, left_ridge), (right_valley, right_ridge) = slant
    return left_ridge, left_valley, right_ridge, right_valley


@pytest.mark.parametrize("section", SECTIONS)
@pytest.mark.parametrize(("depth", "stretch"), [(12, 50), (25, 60), (32, 35)])
def test_the_gusset_fits_the_folded_sides(tmp_path: Path, section: str, depth: float, stretch: float) -> None:
    bellows = made(tmp_path, section, depth, f"stretch = {stretch}")
    pieces = by_id(bellows)
    gauge = pieces["stretch-gauge"].outline.bounds()
    space = folded(bellows, gauge[2] - gauge[0])
    flat = legs(pieces["gusset"])
    for i, j in itertools.combinations(range(4), 2):
        assert math.dist(space[i], space[j]) == pytest.approx(math.dist(flat[i], flat[j]), abs=0.005)
    normal = cross(minus(space[1], space[0]), minus(space[2], space[0]))
    assert abs(dot(normal, minus(space[3], space[0]))) / math.sqrt(dot(normal, normal)) < 0.005


@pytest.mark.parametrize("section", SECTIONS)
def test_gauges_measure_the_folded_sides(tmp_path: Path, section: str) -> None:
    bellows = made(tmp_path, section)
    pieces = by_id(bellows)
    left, low, right, _ = pieces["stretch-gauge"].outline.bounds()
    assert right - left == pytest.approx(2 * 25 * math.sin(math.radians(50)), abs=0.005)
    steps_of_gauge = sorted({round(2 * abs(x), 6) for x, _ in pieces["gap-gauge"].outline.points})
    for apart, width in zip((0.0, right - left), steps_of_gauge, strict=True):
        _, one, _, other = folded(bellows, apart)
        assert width == pytest.approx(math.dist(one, other), abs=0.005)
    assert low == 0


@pytest.mark.parametrize("section", SECTIONS)
def test_legs_are_as_long_as_those_of_the_cards(tmp_path: Path, section: str) -> None:
    bellows = made(tmp_path, section)
    pieces = by_id(bellows)
    corner = max(bellows.corners, key=lambda one: one.turn)
    for name in ("side-left", "side-right"):
        assert math.dist(*feet(pieces[name])) == pytest.approx(corner.leg, abs=0.005)
    assert math.dist(*legs(pieces["gusset"])[:2]) == pytest.approx(corner.leg, abs=0.005)


def off(point: Point, along: tuple[Point, Point], edge: tuple[Point, Point]) -> float:
    """From a point of the leg, square to it, to the line of the gusset's edge [mm]."""
    (ax, ay), (bx, by) = along
    nx, ny = -(by - ay), bx - ax
    (cx, cy), (dx, dy) = edge
    ex, ey = dx - cx, dy - cy
    t = ((cx - point[0]) * ey - (cy - point[1]) * ex) / (nx * ey - ny * ex)
    return abs(t) * math.hypot(nx, ny)


@pytest.mark.parametrize("own", ["", '[gusset]\nuse = ["28 mm", "62 mm"]'])
def test_the_mark_on_the_card_is_where_the_gusset_ends(tmp_path: Path, own: str) -> None:
    bellows = made(tmp_path, "six", more=own)
    corner = bellows.corners[1]
    outline = by_id(bellows)["gusset"].outline
    # An own gusset's marks follow its own length; what it meets is the card's leg.
    ridge, valley = (corner.gap / 2, corner.half_height(bellows.stretch)), (corner.opening(bellows.stretch) / 2, 0.0)
    right = sorted((p for p in outline.points if p[0] > 0 and p[1] > 0), key=lambda p: p[1])
    longest = max(itertools.pairwise(right), key=lambda pair: math.dist(*pair))
    foot = corner.cut_back + corner.depth * math.tan(corner.lean)
    leg = ((corner.cut_back, 0.0), (foot, corner.depth))
    on_card = gusset_on_card(bellows, corner)
    for flat_end, card_end in ((ridge, leg[0]), (valley, leg[1])):
        assert off(card_end, leg, on_card) == pytest.approx(off(flat_end, (ridge, valley), longest), abs=0.005)
    if not own:
        assert off(leg[1], leg, on_card) == pytest.approx(5, abs=0.35)


def test_the_sharpest_corner_is_tried(tmp_path: Path) -> None:
    bellows = made(tmp_path, "uneven")
    turns = bellows.section.turns
    name = bellows.section.corner_names[turns.index(max(turns))]
    (page,) = trial_corner_pages(bellows, make_parts(bellows), paper=A4)
    assert any(isinstance(item, Label) and item.text == f"Make one first: corner {name}" for item in page.items)


def ground(drawn: Drawn) -> tuple[Point, ...]:
    return drawn.outlines[0].flattened()


@pytest.mark.parametrize(
    ("section", "depth", "paper", "most"),
    [
        ("six", 25, A4, 1),
        ("six", 25, LETTER, 1),
        ("six", 25, A5, 2),
        ("six", 12, A4, 1),
        ("oblong", 22, LETTER, 1),
        ("triangle", 20, A4, 1),
        ("twelve", 32, A4, 1),
        ("uneven", 20, A5, 3),
        ('shape = "regular"\nsides = 6\nend_size = 400', 75, A4, 2),
        ('shape = "regular"\nsides = 6\nend_size = 400', 75, A3, 1),
    ],
)
def test_every_piece_lies_free_on_the_paper(tmp_path: Path, section: str, depth: float, paper: tuple[float, float], most: int) -> None:
    from shapely.geometry import Polygon

    bellows = made(tmp_path, section, depth)
    pages = trial_corner_pages(bellows, make_parts(bellows), paper=paper)
    assert len(pages) <= most
    seen: list[str] = []
    for page in pages:
        drawn = [item for item in page.items if isinstance(item, Drawn)]
        seen += [item.part for item in drawn]
        assert_on_paper(page, paper)
        for one, other in itertools.combinations(drawn, 2):
            assert Polygon(ground(one)).distance(Polygon(ground(other))) > 2.0, (one.part, other.part)
    assert sorted(seen) == sorted(piece.id for piece in trial_pieces(bellows))
    labels = {item.text for page in pages for item in page.items if isinstance(item, Label)}
    assert "100 mm" in labels


def assert_on_paper(page: Page, paper: tuple[float, float]) -> None:
    """Pieces and words keep off the edge and off the measuring bars."""
    for item in page.items:
        if isinstance(item, Drawn):
            left, low, right, high = bounds(ground(item))
            assert left > 24
            assert low > 24
            assert right < paper[0] - 9
            assert high < paper[1] - 9
            for label in item.labels:
                assert right_end(label) < paper[0] - 5
        elif isinstance(item, Label):
            assert right_end(item) < paper[0] - 5


def right_end(label: Label) -> float:
    if label.angle:
        return label.at[0] + label.height * CAPITAL
    wide = text_width(label.text, fitted_height(label), bold=label.bold)
    return label.at[0] + {"start": wide, "middle": wide / 2, "end": 0.0}[label.anchor]


def test_pieces_keep_their_true_size_on_the_page(tmp_path: Path) -> None:
    bellows = made(tmp_path, "oblong", 22)
    (page,) = trial_corner_pages(bellows, make_parts(bellows), paper=A4)
    drawn = {item.part: item.outlines[0] for item in page.items if isinstance(item, Drawn)}
    possible = [{piece.id: piece.outline for piece in trial_pieces(bellows, size)} for size in SIZES]
    assert any(all(same_size(drawn[name], outline) for name, outline in pieces.items()) for pieces in possible)


def same_size(one: Outline, other: Outline) -> bool:
    a, b = one.points, other.points
    return len(a) == len(b) and all(
        math.isclose(p[0] - a[0][0], q[0] - b[0][0], abs_tol=1e-6) and math.isclose(p[1] - a[0][1], q[1] - b[0][1], abs_tol=1e-6)
        for p, q in zip(a, b, strict=True)
    )


def test_a_set_without_gussets_has_no_corner_to_try(tmp_path: Path) -> None:
    bellows = made(tmp_path, "six")
    assert trial_corner_pages(bellows, make_parts(bellows, "strips"), paper=A4) == ()


def test_a_corner_larger_than_the_paper_says_so(tmp_path: Path) -> None:
    bellows = made(tmp_path, 'shape = "regular"\nsides = 3\nend_size = 900\nmeasure = "side"', 90)
    (page,) = trial_corner_pages(bellows, make_parts(bellows), paper=A5)
    words = " ".join(item.text for item in page.items if isinstance(item, Label))
    assert "needs paper of at least" in words
    assert not any(isinstance(item, Drawn) for item in page.items)


def test_the_steps_name_the_length_at_which_to_stop(tmp_path: Path) -> None:
    bellows = made(tmp_path, "six", more="form_slope = 45\nstretch = 55")
    told = steps(bellows)
    assert f"{2 * 25 * math.sin(math.radians(45)):.1f} mm apart" in told[2]
    assert f"{2 * 25 * math.sin(math.radians(55)):.1f} mm apart" in told[5]
    assert "stop" in told[-1]

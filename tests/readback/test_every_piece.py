"""Every piece drawn on paper, as another program reads it: each has its kind, its place and its arrow, no two have one name, grain lies one way."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import pypdfium2 as pdfium
import pytest
from shapely import Point as Dot, STRtree
from shapely.geometry import Polygon

from bellowscut.bellows import Bellows, build
from bellowscut.export.pdf import INK, write_pdf
from bellowscut.pages.papers import PAPERS
from bellowscut.pages.sheets import sheet_pages
from bellowscut.parts import OPTIONAL, make_parts
from bellowscut.profile import load, loads
from tests.readback.pdf_reader import MM, paths

MIRRORED = """
format = 1
copies = 2
[section]
shape = "measured"
corners = [[0, 0], [130, 0], [105, 90], [25, 90]]
[bellows]
folds = 1
fold_depth = "16 mm"
[gusset]
lap = "3 mm"
"""
"""Four sides of which the second and the last are mirror images: a facing for the right hand of one is one for the left hand of the other."""

INSTRUMENTS = ("single-fold-baby", "five-corners-traced", "mirrored")

ROW = re.compile(r"([A-Z,]*)\u2026?(spare)?(\d+)(,?valley.*)?")
"""Places, whether it is a spare, its number, its hand."""


@dataclass(frozen=True)
class Found:
    """One piece as read: the page, the words in it, its outline and the way of its arrow [deg]."""

    page: int
    text: str
    shape: Polygon
    arrow: float


def options(name: str) -> tuple[str, ...]:
    return ("facing",) if name == "five-corners-traced" else OPTIONAL


@cache
def bellows_of(name: str) -> Bellows:
    profile = loads(MIRRORED) if name == "mirrored" else load(name)
    for kind in options(name):
        profile = profile.with_optional(kind)
    return build(profile)


@cache
def pieces_of(name: str) -> tuple[Found, ...]:
    pages = sheet_pages(
        make_parts(bellows_of(name), also=options(name)), paper=PAPERS["a4"], name="A", fingerprint="0123456789ab", all_pieces=True
    )
    # Strips longer than the paper are told as sizes, on the last pages.
    data = write_pdf([page for page in pages if "Strips" not in page.title], title="A")
    return tuple(_read(data))


def _read(data: bytes) -> Iterator[Found]:
    document = pdfium.PdfDocument(data)
    ink = tuple(bytes.fromhex(INK))
    for number in range(len(document)):
        closed = [path for path in paths(data, number) if path.closed]
        shapes = [Polygon(path.runs[0]) for path in closed if path.colour == ink and path.weight > 0.35]
        tree = STRtree(shapes)
        texts: list[list[str]] = [[] for _ in shapes]
        words = document[number].get_textpage()
        at: int | None = None
        for k in range(words.count_chars()):
            letter = words.get_text_range(k, 1)
            if letter.strip():
                left, low, right, high = (edge * MM for edge in words.get_charbox(k))
                at = next(iter(tree.query(Dot((left + right) / 2, (low + high) / 2), "within")), None)
            if at is not None:
                texts[at].append(letter)
        tips: list[list[Dot]] = [[] for _ in shapes]
        for path in closed:
            head = path.runs[0]
            if len(set(head)) == 4 and path.weight <= 0.35:
                for piece in tree.query(Dot(head[0]), "within"):
                    tips[piece].append(Dot(head[0]))
        for shape, letters, ends in zip(shapes, texts, tips, strict=True):
            assert len(ends) == 2, ("no arrow", number, "".join(letters))
            way = math.degrees(math.atan2(ends[1].y - ends[0].y, ends[1].x - ends[0].x)) % 180
            yield Found(number, " ".join("".join(letters).replace("\u00b7", "").split()), shape, round(way, 1) % 180)
    document.close()


@cache
def by_kind(name: str) -> dict[str, list[tuple[Found, re.Match[str]]]]:
    """What was read, by the kind that each piece names first."""
    kinds = sorted({part.name.partition(",")[0] for part in make_parts(bellows_of(name), also=options(name))}, key=len, reverse=True)
    found: dict[str, list[tuple[Found, re.Match[str]]]] = {kind: [] for kind in kinds}
    for one in pieces_of(name):
        kind = next(kind for kind in kinds if not Counter(kind.split()) - Counter(one.text.split()))
        rest = one.text.split()
        for word in kind.split():
            rest.remove(word)
        row = ROW.fullmatch("".join(rest))
        assert row, one.text
        found[kind].append((one, row))
    return found


@pytest.mark.parametrize("name", INSTRUMENTS)
def test_no_two_pieces_have_one_name(name: str) -> None:
    seen = Counter((kind, *row.groups()[:3]) for kind, found in by_kind(name).items() for _, row in found)
    assert [row for row, times in seen.items() if times > 1] == []
    assert len(seen) > 60


@pytest.mark.parametrize("name", INSTRUMENTS)
def test_each_piece_names_its_side_or_corner(name: str) -> None:
    """Cards and facings of each side, hinges of each fold and gussets of each corner, counted from the folds and not from the parts."""
    bellows = bellows_of(name)
    sides, corners = bellows.section.side_names, bellows.section.corner_names
    copies, read = bellows.profile.copies, by_kind(name)
    wanted = {
        "Card": (sides, 4 + 2 * (bellows.folds - 1)),
        "Facing": (sides, 4 + 2 * (bellows.folds - 1)),
        "Valley hinge": (sides, bellows.folds + 1),
        "Ridge hinge": (sides, bellows.folds),
        "Gusset": (corners, bellows.folds - 1),
        "End gusset": (corners, 2),
        "Cover end gusset": (corners, 2),
    }
    for kind in wanted.keys() & read.keys():
        places, each = wanted[kind]
        found = [(row[1], int(row[3])) for _, row in read[kind] if not row[2]]
        assert sorted(found) == sorted((place, k) for place in places for k in range(1, each * copies + 1)), kind


@pytest.mark.parametrize("name", INSTRUMENTS)
def test_spares_say_of_which_they_are(name: str) -> None:
    """Spares of one outline lie on its other pieces; where outlines differ, each spare names a corner that it serves."""
    for kind, found in by_kind(name).items():
        spares = [(one, row) for one, row in found if row[2]]
        shapes = {(round(one.shape.area, 1), round(one.shape.length, 1)) for one, row in found}
        for one, row in spares:
            assert (not row[1]) == (len(shapes) == 1), one.text
            like = [other for other, place in found if not place[2] and (not row[1] or place[1] in row[1].split(","))]
            assert like, one.text
            assert all(abs(other.shape.area - one.shape.area) < 0.2 for other in like), (kind, one.text)


@pytest.mark.parametrize("name", INSTRUMENTS)
def test_grain_lies_one_way_on_all_sheets_of_a_material(name: str) -> None:
    material = {part.name.partition(",")[0]: part.material for part in make_parts(bellows_of(name), also=options(name))}
    ways: dict[str, set[float]] = {}
    for kind, found in by_kind(name).items():
        for one, _ in found:
            ways.setdefault(material[kind], set()).add(one.arrow)
            left, low, right, high = one.shape.bounds
            lying = right - left > high - low
            assert one.arrow == (0 if lying != ("gusset" in kind.lower()) else 90), (kind, one.text)
    assert {material: len(found) for material, found in ways.items()} == dict.fromkeys(ways, 1)


def test_facings_of_either_hand_say_so() -> None:
    """As many of each hand on every slanting side, told in words where two outlines are mirror images."""
    found = [(row[1], row[4] or "") for _, row in by_kind("mirrored")["Facing"]]
    hands = Counter((side, re.sub(r"\W", "", hand)) for side, hand in found)
    for side in "BD":
        assert len([hand for place, hand in hands if place == side]) == 2, hands
        assert len({hands[place, hand] for place, hand in hands if place == side}) == 1, hands

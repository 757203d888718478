"""Sheets that join: laid mark on mark, everything that two sheets both show lies in the same place, as printed.

Marks are found in pictures of the pages, without being told where to look, and
read back as paths: two ways that share nothing with the code that drew them.
"""

from __future__ import annotations

import ctypes
import itertools
import math
from dataclasses import replace
from functools import cache

import pypdfium2 as pdfium
import pytest
from pypdfium2 import raw
from shapely.geometry import LinearRing, LineString

from bellowscut.bellows import build
from bellowscut.export.pdf import write_pdf
from bellowscut.layout.tiles import Join
from bellowscut.pages import tiled
from bellowscut.pages.papers import PAPERS
from bellowscut.pages.sheets import sheet_pages
from bellowscut.parts import make_parts
from bellowscut.profile import loads
from tests.readback.joined import MM, Point, Scan, crossing, scan
from tests.readback.pdf_reader import paths

LARGE_RUN = """
format = 1
name = "Large box, scored run"
[section]
shape = "regular"
sides = 4
end_size = "320 mm"
[bellows]
folds = 6
fold_depth = "38 mm"
[card]
build = "run"
[facing]
"""

LARGE_BOX = """
format = 1
name = "Large square box"
[section]
shape = "regular"
sides = 4
end_size = "260 mm"
[bellows]
folds = 5
fold_depth = "30 mm"
[facing]
"""

RENDERED = 0.1
"""How far marks and lines may be off when laid on each other, as rendered [mm]."""

PATHS = 0.01
"""The same, read back as paths [mm]."""

CASES = [(LARGE_RUN, "a4", 10.0), (LARGE_RUN, "a3", 4.0), (LARGE_BOX, "letter", 10.0), (LARGE_BOX, "a5", 8.0)]


def drawn(profile: str, paper: str, margin: float) -> tuple[list[int], bytes]:
    """Pages that join others, and the file."""
    known = loads(profile)
    parts = make_parts(build(known))
    pages = sheet_pages(parts, paper=PAPERS[paper], name=known.name, fingerprint=known.fingerprint, margin=margin)
    return [k for k, page in enumerate(pages) if ", tile " in page.title], write_pdf(pages, title=known.name)


Read = tuple[bytes, dict[int, Scan]]


@pytest.fixture(scope="module", params=CASES, ids=lambda case: f"{case[1]} {case[2]:g}")
def read(request: pytest.FixtureRequest) -> Read:
    """A file and its pages as scanned, one case after the other, so that no more than one stands in memory."""
    tiles, data = drawn(*request.param)
    return data, {page: scan(data, page) for page in tiles}


def neighbours(scans: dict[int, Scan]) -> list[tuple[int, int]]:
    """Pages that share letters."""
    return [(one, other) for one, other in itertools.combinations(scans, 2) if set(scans[one].marks) & set(scans[other].marks)]


def moved(data: bytes, one: int, other: int) -> Point:
    """How far the parts lie from one page to the other [mm], by their outlines read back, of cards and of scored backs."""
    shifts = []
    for here, there in itertools.product(outlines(data, one), outlines(data, other)):
        dx, dy = there[0][0] - here[0][0], there[0][1] - here[0][1]
        if len(here) == len(there) and all(math.dist((x + dx, y + dy), end) < PATHS for (x, y), end in zip(here, there, strict=True)):
            shifts.append((dx, dy))
    assert shifts
    for shift in shifts:
        assert math.dist(shift, shifts[0]) < PATHS
    return shifts[0]


@cache
def outlines(data: bytes, page: int) -> list[tuple[Point, ...]]:
    """Outlines of parts: closed, as stout as a cut or as fine as a mark line, and larger than a hole."""
    closed = [path for path in paths(data, page) if path.closed and (path.weight > 0.35 or abs(path.weight - 0.13) < 0.005)]
    return [path.runs[0] for path in closed if max(math.dist(path.runs[0][0], point) for point in path.runs[0]) > 30.0]


def worst(data: bytes, scans: dict[int, Scan]) -> float:
    """How far a mark is off at most on one of two sheets, in the axes of the parts [mm]."""
    off = []
    for one, other in neighbours(scans):
        dx, dy = moved(data, one, other)
        for letter in set(scans[one].marks) & set(scans[other].marks):
            (x, y), (u, v) = scans[one].marks[letter], scans[other].marks[letter]
            off.append(math.hypot(u - x - dx, v - y - dy))
    return max(off)


def test_marks_agree_as_rendered(read: Read) -> None:
    data, scans = read
    assert neighbours(scans)
    assert worst(data, scans) < RENDERED


def test_marks_that_are_a_little_off_would_be_noticed(monkeypatch: pytest.MonkeyPatch) -> None:
    """0.15 mm amiss on the sheet below: the same measurement finds it."""
    plain = tiled._moved

    def amiss(*given: object) -> object:
        side = plain(*given)  # type: ignore[arg-type]
        joins = tuple(Join(join.letter, (join.at[0] + 0.15 * (not side.over), join.at[1]), join.tiles) for join in side.seam.joins)
        return replace(side, seam=replace(side.seam, joins=joins))

    monkeypatch.setattr(tiled, "_moved", amiss)
    tiles, data = drawn(LARGE_BOX, "letter", 10.0)
    off = worst(data, {page: scan(data, page) for page in tiles})
    assert off == pytest.approx(0.15, abs=0.04)
    assert off > RENDERED


def test_marks_agree_as_paths(read: Read) -> None:
    """The middles of the hair lines, paired by place: every mark of a seam has its fellow on the other sheet."""
    data, scans = read
    for one, other in neighbours(scans):
        dx, dy = moved(data, one, other)
        here, there = hairs(data, one), hairs(data, other)
        shared = set(scans[one].marks) & set(scans[other].marks)
        agreeing = [at for at in here if min(math.dist((at[0] + dx, at[1] + dy), fellow) for fellow in there) < PATHS]
        assert len(agreeing) == len(shared)
        for letter in shared:
            assert min(math.dist(scans[one].marks[letter], at) for at in agreeing) < 0.05


def hairs(data: bytes, page: int) -> list[Point]:
    """Middles of upright lines that are 6.8 mm long [mm]."""
    found = []
    for path in paths(data, page):
        (start, *_, end) = path.runs[0]
        if len(path.runs[0]) == 2 and abs(start[0] - end[0]) < 1e-3 and abs(abs(end[1] - start[1]) - 6.8) < 1e-2:
            found.append(((start[0] + end[0]) / 2, (start[1] + end[1]) / 2))
    return found


def test_two_marks_a_seam_and_no_letter_on_a_wrong_sheet(read: Read) -> None:
    """Each letter stands on two sheets and no more; two sheets share two letters or none."""
    _, scans = read
    letters = [letter for one in scans.values() for letter in one.marks]
    assert all(letters.count(letter) == 2 for letter in letters)
    for one, other in itertools.combinations(scans.values(), 2):
        shared = set(one.marks) & set(other.marks)
        assert len(shared) in (0, 2)
        if shared:
            first, second = (one.marks[letter] for letter in shared)
            assert math.dist(first, second) > 40
            assert min(abs(first[0] - second[0]), abs(first[1] - second[1])) < 0.1


def test_outlines_run_on_across_every_seam(read: Read) -> None:
    """Laid by the marks alone, cut lines cross the band that both sheets show in the same places, on both sides of the seam."""
    data, scans = read
    crossed = 0
    for one, other in neighbours(scans):
        letters = sorted(set(scans[one].marks) & set(scans[other].marks))
        here, there = ([scans[page].marks[letter] for letter in letters] for page in (one, other))
        dx, dy = (sum(b[axis] - a[axis] for a, b in zip(here, there, strict=True)) / 2 for axis in (0, 1))
        upright = abs(here[0][0] - here[1][0]) < 0.1
        seam = here[0][0] if upright else here[0][1]
        for off in (-5.0, 5.0):
            for at in cut_lines_at(data, one, seam + off, upright=upright):
                if not in_view(data, one, at) or not in_view(data, other, (at[0] + dx, at[1] + dy)):
                    continue
                first = crossing(scans[one], at, upright=upright)
                second = crossing(scans[other], (at[0] + dx, at[1] + dy), upright=upright) - (dy if upright else dx)
                assert second == pytest.approx(first, abs=RENDERED), (one, other, at)
                assert first == pytest.approx(at[1] if upright else at[0], abs=RENDERED)
                crossed += 1
    assert crossed >= 4


def cut_lines_at(data: bytes, page: int, seam: float, *, upright: bool) -> list[Point]:
    """Where cut outlines, read back as paths, cross an upright or level line [mm]."""
    run = LineString([(seam, 0.0), (seam, 2000.0)] if upright else [(0.0, seam), (2000.0, seam)])
    found: list[Point] = []
    for outline in (path.runs[0] for path in paths(data, page) if path.closed and path.weight > 0.35):
        met = LinearRing(outline).intersection(run)
        found += [(point.x, point.y) for point in getattr(met, "geoms", [met]) if point.geom_type == "Point"]
    return found


@cache
def windows(data: bytes, page: int) -> tuple[float, float, float, float]:
    """Edges of the clip through which a page shows parts, read back from the file [mm]."""
    document = pdfium.PdfDocument(data)
    clips = []
    for thing in document[page].get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
        clip = raw.FPDFPageObj_GetClipPath(thing.raw)
        if clip and raw.FPDFClipPath_CountPaths(clip) > 0:
            points = []
            for k in range(raw.FPDFClipPath_CountPathSegments(clip, 0)):
                segment = raw.FPDFClipPath_GetPathSegment(clip, 0, k)
                x, y = ctypes.c_float(), ctypes.c_float()
                raw.FPDFPathSegment_GetPoint(segment, x, y)
                points.append((x.value * MM, y.value * MM))
            clips.append(points)
    document.close()
    (left, low), (right, high) = (tuple(pick(axis) for axis in zip(*clips[0], strict=True)) for pick in (min, max))
    return left, low, right, high


def in_view(data: bytes, page: int, at: Point) -> bool:
    """Whether a page shows a place [mm]."""
    left, low, right, high = windows(data, page)
    return left + 0.5 < at[0] < right - 0.5 and low + 0.5 < at[1] < high - 0.5

"""What pypdfium2, which did not write the file, finds in a PDF: paths in millimetres, text, and pictures of pages."""

from __future__ import annotations

import ctypes
import math
from dataclasses import dataclass

import pypdfium2 as pdfium
from pypdfium2 import raw

MM = 25.4 / 72

Point = tuple[float, float]


@dataclass(frozen=True)
class Path:
    """One stroked or filled path, curves cut finely into chords [mm]."""

    runs: tuple[tuple[Point, ...], ...]
    colour: tuple[int, int, int]
    weight: float
    closed: bool


def paths(data: bytes, page: int = 0) -> list[Path]:
    """Every path of a page in its order."""
    found = []
    document = pdfium.PdfDocument(data)
    for thing in document[page].get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
        red, green, blue, alpha = (ctypes.c_uint() for _ in range(4))
        raw.FPDFPageObj_GetStrokeColor(thing.raw, red, green, blue, alpha)
        weight = ctypes.c_float()
        raw.FPDFPageObj_GetStrokeWidth(thing.raw, weight)
        runs, closed = _runs(thing.raw)
        found.append(Path(runs, (red.value, green.value, blue.value), weight.value * MM, closed))
    document.close()
    return found


def _runs(thing: object) -> tuple[tuple[tuple[Point, ...], ...], bool]:
    matrix = raw.FS_MATRIX()
    raw.FPDFPageObj_GetMatrix(thing, matrix)
    x, y = ctypes.c_float(), ctypes.c_float()
    runs: list[list[Point]] = []
    control: list[Point] = []
    closed = False
    for k in range(raw.FPDFPath_CountSegments(thing)):
        segment = raw.FPDFPath_GetPathSegment(thing, k)
        raw.FPDFPathSegment_GetPoint(segment, x, y)
        at = (
            (matrix.a * x.value + matrix.c * y.value + matrix.e) * MM,
            (matrix.b * x.value + matrix.d * y.value + matrix.f) * MM,
        )
        kind = raw.FPDFPathSegment_GetType(segment)
        if kind == raw.FPDF_SEGMENT_MOVETO:
            runs.append([at])
        elif kind == raw.FPDF_SEGMENT_LINETO:
            runs[-1].append(at)
        else:
            control.append(at)
            if len(control) == 3:
                runs[-1] += _chords((runs[-1][-1], *control))
                control = []
        closed = closed or bool(raw.FPDFPathSegment_GetClose(segment))
    return tuple(map(tuple, runs)), closed


def _chords(four: tuple[Point, ...], pieces: int = 64) -> list[Point]:
    """Points of a cubic by its four control points."""
    found = []
    for k in range(1, pieces + 1):
        t = k / pieces
        w = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
        x, y = (sum(f * p[axis] for f, p in zip(w, four, strict=True)) for axis in (0, 1))
        found.append((x, y))
    return found


def text(data: bytes, page: int = 0) -> str:
    """All text of a page in one line."""
    document = pdfium.PdfDocument(data)
    found = str(document[page].get_textpage().get_text_bounded())
    document.close()
    return " ".join(found.split())


def glyph_boxes(data: bytes, page: int = 0) -> list[tuple[float, float, float, float]]:
    """Boxes of all letters that leave ink [mm]."""
    document = pdfium.PdfDocument(data)
    words = document[page].get_textpage()
    boxes = []
    for k in range(words.count_chars()):
        left, low, right, high = words.get_charbox(k)
        if right - left > 1e-3 and high - low > 1e-3:
            boxes.append((left * MM, low * MM, right * MM, high * MM))
    document.close()
    return boxes


@dataclass(frozen=True)
class Picture:
    """A page rendered in grey: darkness by row from above, and millimetres in a pixel."""

    rows: tuple[bytes, ...]
    across: float
    down: float
    height: float

    def dark_in_row(self, y: float, first: float, last: float) -> float:
        """Centre of the ink on a level line at height `y` between two x [mm]."""
        row = self.rows[round((self.height - y) / self.down - 0.5)]
        return _centre([255 - value for value in row], first / self.across, last / self.across) * self.across

    def dark_in_column(self, x: float, first: float, last: float) -> float:
        """Centre of the ink on an upright line at `x` between two heights [mm]."""
        k = round(x / self.across - 0.5)
        column = [255 - row[k] for row in self.rows]
        at = _centre(column, (self.height - last) / self.down, (self.height - first) / self.down)
        return self.height - at * self.down


def _centre(dark: list[int], first: float, last: float) -> float:
    pixels = range(math.floor(first), math.ceil(last))
    total = sum(dark[k] for k in pixels)
    assert total > 0, "no ink where a tick should be"
    return sum((k + 0.5) * dark[k] for k in pixels) / total


def rendered(data: bytes, page: int = 0, dpi: float = 300.0) -> Picture:
    """A picture of a page. Scale is taken from the bitmap, whose size is rounded up to whole pixels."""
    document = pdfium.PdfDocument(data)
    sheet = document[page]
    width, height = (size * MM for size in sheet.get_size())
    bitmap = sheet.render(scale=dpi / 72, grayscale=True)
    image = bitmap.to_pil().convert("L")
    wide, tall = image.size
    plain = image.tobytes()
    rows = tuple(plain[k * wide : (k + 1) * wide] for k in range(tall))
    document.close()
    return Picture(rows, width / wide, height / tall, height)

"""Sheets that join, as a second reader sees them: join marks found in the picture of a page, and lines near a seam."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pypdfium2 as pdfium

MM = 25.4 / 72
DPI = 300.0

BAND = 400
"""Rows of a picture that are looked at together [-]: all at once a large sheet takes hundreds of megabytes."""

QUARTER = 0.9
"""Side of the squares whose darkness is compared round a place [mm]: well inside the quarters of a mark."""

Point = tuple[float, float]


@dataclass(frozen=True)
class Scan:
    """A page as a scanner would see it.

    Parameters
    ----------
    dark : numpy.ndarray
        0 white to 255 black, from the upper left: bytes, since a set has many pages.
    step : tuple of float
        Width and height of a pixel [mm]: bitmaps are rounded up to whole pixels, so that the two differ.
    height : float
        Of the page [mm].
    marks : dict of str to Point
        Middles of the join marks by the letter beside each [mm].
    """

    dark: np.ndarray
    step: tuple[float, float]
    height: float
    marks: dict[str, Point]


def scan(data: bytes, page: int) -> Scan:
    """Render a page and look for join marks on all of it."""
    document = pdfium.PdfDocument(data)
    sheet = document[page]
    image = sheet.render(scale=DPI / 72, grayscale=True).to_pil().convert("L")
    dark = 255 - np.asarray(image, dtype=np.uint8)
    width, height = (size * MM for size in sheet.get_size())
    step = (width / dark.shape[1], height / dark.shape[0])
    words = sheet.get_textpage()
    marks: dict[str, Point] = {}
    for x, y in _middles(dark, step, height):
        box = [value / MM for value in (x - 6.0, y - 4.4, x + 6.0, y + 4.4)]
        letter = str(words.get_text_bounded(*box)).strip()
        assert letter.isalpha(), (page, letter)
        assert letter not in marks, (page, letter)
        marks[letter] = (x, y)
    document.close()
    return Scan(dark, step, height, marks)


def _middles(dark: np.ndarray, step: tuple[float, float], height: float) -> list[Point]:
    """Places where two opposite quarters are dark and the other two are white."""
    side = round(QUARTER / step[0])
    bands = [_quarters(dark[top : top + BAND + 2 * side - 1], side) for top in range(0, len(dark) - 2 * side + 1, BAND)]
    places = np.concatenate([found[:, :2] + (k * BAND, 0) for k, found in enumerate(bands)])
    places = places[np.argsort(-np.concatenate([found[:, 2] for found in bands]), kind="stable")]
    found: list[Point] = []
    while len(places):
        row, column = map(int, places[0])
        y = _change(dark, row + side, column + side, step[0])
        x = _change(dark.T, column + side, row + side, step[0])
        found.append((x * step[0], height - y * step[1]))
        places = places[np.abs(places - places[0]).max(axis=1) > round(3.0 / step[0])]
    return found


def _quarters(dark: np.ndarray, side: int) -> np.ndarray:
    """Rows and columns of the upper left corners of such places, each with how plain it is."""
    square = _run_sums(_run_sums(dark, side).T, side).T
    upper, lower = square[:-side], square[side:]
    score = np.minimum(upper[:, :-side], lower[:, side:]) - np.maximum(upper[:, side:], lower[:, :-side])
    places = np.argwhere(score >= 0.6 * 255 * side**2)
    return np.column_stack([places, score[tuple(places.T)]])


def _run_sums(values: np.ndarray, side: int) -> np.ndarray:
    """Sums over every run of so many values down each column."""
    total = np.zeros((values.shape[0] + 1, values.shape[1]), dtype=np.int32)
    np.cumsum(values, axis=0, dtype=np.int32, out=total[1:])
    return total[side:] - total[:-side]


def _change(dark: np.ndarray, row: int, column: int, step: float) -> float:
    """Where dark turns to white near the middle of a mark, counted in rows: white over dark on the right, the other way on the left."""
    reach, near, far = round(1.0 / step), round(0.4 / step), round(0.9 / step)
    rows = slice(row - reach, row + reach)
    right = (1.0 - dark[rows, column + near : column + far] / 255.0).sum(axis=0).mean()
    left = (1.0 - dark[rows, column - far : column - near] / 255.0).sum(axis=0).mean()
    return float((row - reach + right + row + reach - left) / 2)


def crossing(one: Scan, at: Point, *, upright: bool) -> float:
    """Where a stout line crosses an upright or level run, near a place that is known to half a millimetre: y or x [mm]."""
    across, down = one.step
    row, column = round((one.height - at[1]) / down - 0.5), round(at[0] / across - 0.5)
    reach = round(1.2 / down)
    line = one.dark[row - reach : row + reach + 1, column] if upright else one.dark[row, column - reach : column + reach + 1]
    line = line / 255.0
    ink = np.clip(line - max(0.35, float(np.median(line))), 0.0, None)
    assert ink.sum() > 0, at
    middle = float((ink * np.arange(-reach, reach + 1)).sum() / ink.sum())
    return one.height - (row + middle + 0.5) * down if upright else (column + middle + 0.5) * across

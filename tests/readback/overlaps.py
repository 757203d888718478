"""Whether any letter of a page is touched by a line, runs into other letters, or leaves the page; on the PDF as somebody else reads it."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
import pypdfium2 as pdfium
from numpy.typing import NDArray
from pypdfium2 import raw

from tests.readback.pdf_reader import MM, paths

Array = NDArray[np.float64]

INTO = 0.12
"""A line must go this far into a letter's box to count [mm]: boxes are those of the ink."""

SHARED = 0.3
"""Two letters that share more than this of the smaller box's area overlap [-]; in one word they share next to nothing."""


@dataclass(frozen=True)
class Letters:
    """The letters of a page: what they are, and boxes of their ink, left, low, right, high [mm], shape (n, 4)."""

    text: str
    boxes: Array
    slanted: NDArray[np.bool_]


def letters(data: bytes, page: int = 0) -> Letters:
    """Every letter that leaves ink."""
    document = pdfium.PdfDocument(data)
    words = document[page].get_textpage()
    found, boxes, slanted = [], [], []
    for k in range(words.count_chars()):
        left, low, right, high = words.get_charbox(k)
        if right - left > 1e-3 and high - low > 1e-3:
            found.append(chr(raw.FPDFText_GetUnicode(words.raw, k)))
            boxes.append((left * MM, low * MM, right * MM, high * MM))
            angle = float(raw.FPDFText_GetCharAngle(words.raw, k)) % (np.pi / 2)
            slanted.append(min(angle, np.pi / 2 - angle) > 0.01)
    document.close()
    return Letters("".join(found), np.array(boxes).reshape(-1, 4), np.array(slanted, dtype=np.bool_))


def stroked_segments(data: bytes, page: int = 0) -> Array:
    """Every straight piece of every line, curves cut into chords, shape (n, 4) [mm]."""
    found = []
    for path in paths(data, page):
        for run in path.runs:
            points = list(run)
            found += [(*p, *q) for p, q in itertools.pairwise(points)]
            if path.closed and len(points) > 2:
                found.append((*points[-1], *points[0]))
    return np.array(found).reshape(-1, 4)


def touched(boxes: Array, segments: Array) -> NDArray[np.bool_]:
    """Which boxes a segment goes through (Liang and Barsky, 1984), shape (boxes,)."""
    inner = boxes + np.array([INTO, INTO, -INTO, -INTO])
    found = np.zeros(len(boxes), dtype=np.bool_)
    start, step = segments[:, :2], segments[:, 2:] - segments[:, :2]
    for k, (left, low, right, high) in enumerate(inner):
        enter, leave = np.zeros(len(segments)), np.ones(len(segments))
        outside = np.zeros(len(segments), dtype=np.bool_)
        for axis, (least, most) in enumerate(((left, right), (low, high))):
            still = np.abs(step[:, axis]) < 1e-12
            outside |= still & ((start[:, axis] <= least) | (start[:, axis] >= most))
            safe = np.where(still, 1.0, step[:, axis])
            one, two = (least - start[:, axis]) / safe, (most - start[:, axis]) / safe
            enter = np.where(still, enter, np.maximum(enter, np.minimum(one, two)))
            leave = np.where(still, leave, np.minimum(leave, np.maximum(one, two)))
        found[k] = bool(np.any(~outside & (enter < leave)))
    return found


def faults(data: bytes, page: int = 0) -> list[str]:
    """What is wrong with the lettering of a page.

    Returns
    -------
    list of str
        Each letter that is crossed by a line, that lies on another, or that stands off the paper.
    """
    document = pdfium.PdfDocument(data)
    width, height = (size * MM for size in document[page].get_size())
    document.close()
    shown, segments = letters(data, page), stroked_segments(data, page)
    # The box of a slanted letter is upright and reaches further than its ink: such letters are looked at in their middle.
    boxes = shown.boxes.copy()
    spare = 0.22 * (boxes[:, 2:] - boxes[:, :2])
    boxes[shown.slanted, :2] += spare[shown.slanted]
    boxes[shown.slanted, 2:] -= spare[shown.slanted]
    found = [_told(shown, int(k), "crossed by a line") for k in np.flatnonzero(touched(boxes, segments))]
    area = (boxes[:, 2] - boxes[:, 0]) * (boxes[:, 3] - boxes[:, 1])
    for k, box in enumerate(boxes):
        wide = np.minimum(boxes[k + 1 :, 2], box[2]) - np.maximum(boxes[k + 1 :, 0], box[0])
        tall = np.minimum(boxes[k + 1 :, 3], box[3]) - np.maximum(boxes[k + 1 :, 1], box[1])
        shared = np.clip(wide, 0, None) * np.clip(tall, 0, None)
        if np.any(shared > SHARED * np.minimum(area[k], area[k + 1 :])):
            found.append(_told(shown, k, "lies on another letter"))
        if box[0] < 3 or box[1] < 3 or box[2] > width - 3 or box[3] > height - 3:
            found.append(_told(shown, k, "at the edge of the paper"))
    return found


def _told(shown: Letters, k: int, what: str) -> str:
    x, y = shown.boxes[k][:2]
    return f"{shown.text[k]!r} in {shown.text[max(0, k - 12) : k + 12]!r} at {x:.1f}, {y:.1f}: {what}"

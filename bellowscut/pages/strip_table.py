"""The table of strips that are cut from their sizes."""

from __future__ import annotations

from bellowscut.drawing import Item, Label, Pen, Role, Stroke
from bellowscut.lettering import wrapped
from bellowscut.pages.views import View, face
from bellowscut.shapes import bounds
from bellowscut.units import Rule
from bellowscut.words import say, sheets as words

TEXT, SMALL = 2.8, 2.4
"""Letters of figures and of what stands under them [mm]."""

LINE = 1.35

SHARES = (0.25, 0.08, 0.14, 0.17, 0.36)
"""Widths of the columns [-] of the table's."""

HEAD = 6.0
"""Height of the headings [mm]."""


def corner_marks(view: View) -> tuple[float, ...]:
    """Distances of a strip's corner marks from its left end [mm]."""
    left, low, _, high = bounds(view.points)
    found = []
    for line in view.lines:
        if line.role is not Role.MARK or len(line.points) != 2:
            continue
        (ax, ay), (bx, by) = line.points
        if abs(ax - bx) < 1e-6 and abs(ay - by) > 0.1 * (high - low):
            found.append(ax - left)
    return tuple(sorted(found))


def darts(view: View) -> str:
    """What is cut out of a strip's long edges at the corners, in words; empty for a plain strip."""
    _, low, _, high = bounds(view.points)
    points = view.points
    found: dict[str, None] = {}
    for i, (_, y) in enumerate(points):
        before, after = points[i - 1], points[(i + 1) % len(points)]
        if low < y < high and before[1] == after[1]:
            found[say(words.DART, width=f"{abs(after[0] - before[0]):.1f}", depth=f"{abs(y - before[1]):.1f}")] = None
    return say(words.DARTS, list=", ".join(found)) if found else ""


def table_head(left: float, top: float, wide: float) -> list[Item]:
    """Headings of the columns, `HEAD` tall [mm]."""
    items: list[Item] = [Stroke(((left, top), (left + wide, top)), Pen.HEAVY)]
    for x, share, word in zip(_starts(left, wide), SHARES, words.STRIP_HEADINGS, strict=True):
        items.append(Label(say(word), (x, top - 4.2), SMALL, width=wide * share - 2.0))
    items.append(Stroke(((left, top - HEAD), (left + wide, top - HEAD)), Pen.THIN))
    return items


def table_row(view: View, left: float, top: float, wide: float) -> tuple[list[Item], float]:
    """Sizes of one strip, millimetres with inches under them; and the height of the row [mm]."""
    starts = _starts(left, wide)
    rooms = [wide * share - 2.0 for share in SHARES]
    first, step = top - 4.0, TEXT * LINE
    told = ". ".join(text for text in (darts(view), view.part.note) if text)
    columns = (
        (wrapped(view.name, TEXT, rooms[0], bold=True), wrapped(face(view.part), SMALL, rooms[0])),
        ((view.part.counted,), ()),
        *(((Rule().length(size),), (Rule(inches=True).length(size),)) for size in reversed(view.size)),
        (
            wrapped(", ".join(f"{x:.1f}" for x in corner_marks(view)) or say(words.STRIP_NO_CORNERS), TEXT, rooms[4]),
            wrapped(told, SMALL, rooms[4]),
        ),
    )
    items: list[Item] = []
    deep = 0.0
    for k, (large, small) in enumerate(columns):
        y = first
        for text in large:
            items.append(Label(text, (starts[k], y), TEXT, bold=k < len(columns) - 1, width=rooms[k]))
            y -= step
        for text in small:
            items.append(Label(text, (starts[k], y), SMALL, width=rooms[k]))
            y -= SMALL * LINE
        deep = max(deep, first - y)
    height = deep + 2.8
    items.append(Stroke(((left, top - height), (left + wide, top - height)), Pen.THIN))
    return items, height


def _starts(left: float, wide: float) -> list[float]:
    return [left + wide * sum(SHARES[:k]) for k in range(len(SHARES))]

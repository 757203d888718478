"""The picture of a piece of stock: edge, flaws, barred zones, pieces, what is left, rulers."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bellowscut.drawing import Item, Label, Pen, Stroke, Tint
from bellowscut.layout.openings import opening
from bellowscut.lettering import CAPITAL, fitted_height, text_width
from bellowscut.pages.arrows import readable
from bellowscut.pages.bars import break_line
from bellowscut.pages.stock_letters import Ground, Shown, piece_labels, zones
from bellowscut.pages.stock_rows import Row, barred_words
from bellowscut.pages.stock_scale import Box, Frame, rulers
from bellowscut.shapes import Point, bounds, clipped
from bellowscut.stock.model import Laid, Polygon, StockPiece
from bellowscut.words import say, stock_pages as texts

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

HATCH = 0.9
"""Distance of the lines over a flaw [mm]."""

WORDS = 2.6
"""Letters between the pieces [mm]."""

BESIDE = 4.5
"""How far from a flaw its name may stand [mm]."""

BREAK = 2.6
"""How far beyond a band the zigzag stands [mm]."""


@dataclass(frozen=True)
class Figure:
    """A drawn part of a piece of stock.

    Parameters
    ----------
    items : tuple
        Everything on it.
    bare : tuple of Laid
        Pieces that were too small for their number.
    """

    items: tuple[Item, ...]
    bare: tuple[Laid, ...]


def figure(stock: StockPiece, rows: Sequence[Row], frame: Frame, *, instruments: bool) -> Figure:
    """Draw a part of a piece of stock.

    Parameters
    ----------
    stock : StockPiece
        What is drawn.
    rows : sequence of Row
        Its pieces.
    frame : Frame
        Which part of it, and where.
    instruments : bool
        Whether the pieces belong to several instruments.
    """
    items: list[Item] = []
    edge, inside = _edge(stock, frame)
    items += _barred_ground(stock, frame, inside)
    pieces: list[Item] = []
    labels: list[Label] = []
    bare: list[Laid] = []
    drawn: list[Shown] = []
    for row in rows:
        shown = [one for laid in row.laid if (one := _shown(laid, frame)) is not None]
        drawn += shown
        pieces += [Stroke(one.points, Pen.SOLID, closed=True, fill=row.tint) for one in shown]
        named, small = piece_labels(row, shown, instruments=instruments)
        labels += named
        bare += small
    items += pieces
    items += edge
    items += _between(stock, frame, inside, drawn)
    items += rulers(frame)
    items += _breaks(frame)
    return Figure((*items, *labels), tuple(bare))


def _shown(laid: Laid, frame: Frame) -> Shown | None:
    """A piece on the paper, cut off where the frame ends; None where it lies outside."""
    points = laid.points()
    left, low, right, high = bounds(points)
    a, b, c, d = frame.region
    if right <= a or left >= c or high <= b or low >= d:
        return None
    if left >= a - 1e-6 and right <= c + 1e-6 and low >= b - 1e-6 and high <= d + 1e-6:
        return Shown(laid, frame.points(points))
    part = _clipped(points, frame.region)
    if len(part) < 3:
        return None
    # A piece over two frames is named on the one that holds its middle.
    x, y = (left + right) / 2, (low + high) / 2
    return Shown(laid, frame.points(part), a <= x < c and b <= y < d)


def _clipped(points: Polygon, region: Box) -> Polygon:
    a, b, c, d = region
    corners = ((a, b), (c, b), (c, d), (a, d))
    for k, corner in enumerate(corners):
        points = clipped(points, corner, corners[(k + 1) % 4])
        if len(points) < 3:
            return ()
    return points


def _edge(stock: StockPiece, frame: Frame) -> tuple[list[Item], BaseGeometry]:
    """The edge of the stock within the frame, and the ground within it [mm]."""
    from shapely.geometry import Polygon as Shape, box

    outline = Shape(frame.points(stock.outline))
    window = box(*frame.box)
    inside = outline.intersection(window)
    if window.buffer(1e-6).contains(outline):
        return [Stroke(frame.points(stock.outline), Pen.HEAVY, closed=True)], inside
    lines = outline.exterior.intersection(window)
    runs = getattr(lines, "geoms", [lines])
    return [Stroke(tuple(run.coords), Pen.HEAVY) for run in runs if run.geom_type == "LineString" and len(run.coords) > 1], inside


def _polygons(shape: BaseGeometry) -> list[Polygon]:
    """Outlines of what is left after cutting, holes left out [mm]."""
    parts = getattr(shape, "geoms", [shape])
    return [tuple(part.exterior.coords)[:-1] for part in parts if part.geom_type == "Polygon" and part.area > 1e-6]


def _hatched(shape: BaseGeometry) -> list[Item]:
    """Slanting lines over a shape; those of neighbours are in step."""
    from shapely.geometry import MultiLineString

    left, low, right, high = shape.bounds
    step = HATCH * 2**0.5
    tall = high - low
    first = math.floor((left - tall - low) / step)
    starts = [low + step * k for k in range(first, first + math.ceil((right - left + tall) / step) + 2)]
    cut = MultiLineString([((x, low), (x + tall, high)) for x in starts]).intersection(shape)
    runs = getattr(cut, "geoms", [cut])
    return [Stroke(tuple(run.coords), Pen.THIN) for run in runs if run.geom_type == "LineString" and run.length > 0.1]


def _barred_ground(stock: StockPiece, frame: Frame, inside: BaseGeometry) -> list[Item]:
    from shapely.geometry import Polygon as Shape

    seen = [_polygons(Shape(frame.points(points)).intersection(inside)) for points, _ in zones(stock.bars)]
    return [Stroke(part, Pen.DASHED, closed=True, fill=Tint.PALE) for parts in seen for part in parts]


def _between(stock: StockPiece, frame: Frame, inside: BaseGeometry, drawn: Sequence[Shown]) -> list[Item]:
    """What is left, flaws and barred zones with their words, all clear of the pieces and of each other."""
    from shapely.geometry import LinearRing, Polygon as Shape

    items: list[Item] = []
    flaws = [part for points in stock.flaws for part in _polygons(Shape(frame.points(points)).intersection(inside))]
    clear = frame.points(stock.left.clear) if stock.left.clear and _within(stock.left.clear, frame) else ()
    ground = Ground([Shape(one.points) for one in drawn])
    for points in flaws:
        ground.take(Shape(points).buffer(0.3))
    for points, _ in zones(stock.bars):
        ground.take(LinearRing(frame.points(points)))
    if clear:
        items.append(Stroke(clear, Pen.DASHED, closed=True))
        label = clear_label(stock, clear)
        if label is not None:
            items.append(label)
            ground.take(_around(label))
        ground.take(LinearRing(clear))
    for points in flaws:
        items += _flaw(points, ground, inside)
    for points, kinds in zones(stock.bars):
        for part in _polygons(Shape(frame.points(points)).intersection(inside)):
            items += _barred_label(Shape(part), barred_words(kinds), ground)
    return items


def _within(points: Sequence[Point], frame: Frame) -> bool:
    left, low, right, high = bounds(points)
    a, b, c, d = frame.region
    return left >= a - 1e-6 and low >= b - 1e-6 and right <= c + 1e-6 and high <= d + 1e-6


def size_of_clear(stock: StockPiece) -> str:
    """Size of the largest sound rectangle that is left: ``312 x 205 mm``."""
    long, short = stock.left.size
    return say(texts.SIZE, long=f"{long:.0f}", short=f"{short:.0f}")


def clear_label(stock: StockPiece, points: Polygon) -> Label | None:
    """The size of what is left, within its rectangle on the paper [mm]; None where that is too small."""
    (ax, ay), (bx, by) = points[0], points[1]
    slope = readable(math.degrees(math.atan2(by - ay, bx - ax)))
    left = size_of_clear(stock)
    for text in (say(texts.LEFT_OVER, size=left), say(texts.LEFT, size=left), left):
        for size in (3.2, 2.8, 2.5):
            for angle in dict.fromkeys((0.0, 90.0, slope, readable(slope + 90.0))):
                place = opening(points, (), text_width(text, size), size * CAPITAL, 0.9, angle)
                if place is not None:
                    return Label(text, place.point(0.0, -size * CAPITAL / 2), size, angle, "middle")
    return None


def _around(label: Label) -> BaseGeometry:
    """The ground that a label takes [mm]."""
    from shapely.affinity import rotate, translate
    from shapely.geometry import box

    size = fitted_height(label)
    wide = text_width(label.text, size, bold=label.bold)
    left = {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    lying = box(-left - 0.5, -0.3 * size, wide - left + 0.5, size * CAPITAL + 0.5)
    return translate(rotate(lying, label.angle, origin=(0, 0)), *label.at)


def _flaw(points: Polygon, ground: Ground, inside: BaseGeometry) -> list[Item]:
    """A flaw hatched, its name on it or close beside it where there is room."""
    from shapely.geometry import Polygon as Shape

    shape = Shape(points)
    items: list[Item] = [Stroke(points, Pen.SOLID, closed=True, fill=Tint.WHITE)]
    name = say(texts.FLAW)
    place = opening(points, (), text_width(name, WORDS), WORDS * CAPITAL, 1.4)
    if place is not None:
        label = Label(name, place.point(0.0, -WORDS * CAPITAL / 2), WORDS, 0.0, "middle")
        return [*items, *_hatched(shape.difference(_around(label))), label]
    items += _hatched(shape)
    middle = shape.centroid
    words = ground.words(
        shape.buffer(BESIDE + text_width(name, WORDS)).intersection(inside), (name,), WORDS, (middle.x, middle.y), (0.0, 90.0)
    )
    return [*items, *(words or [])]


def _barred_label(zone: BaseGeometry, words: str, ground: Ground) -> list[Label]:
    middle = zone.centroid
    whole = words.split(" ")
    half = (len(whole) + 1) // 2
    for lines in ((words,), (" ".join(whole[:half]), " ".join(whole[half:]))):
        found = ground.words(zone, lines, WORDS, (middle.x, middle.y), (0.0, 90.0))
        if found is not None:
            return found
    return []


def _breaks(frame: Frame) -> list[Item]:
    """Zigzags where the stock goes on."""
    left, low, right, high = frame.box
    # On the right only, and off the pieces: on the left the ruler says where the band begins.
    items: list[Item] = [break_line((right + BREAK, low), high - low)] if frame.cut[1] else []
    if frame.window:
        items.append(Stroke(((left, low), (right, low), (right, high), (left, high)), Pen.THIN, closed=True))
    return items

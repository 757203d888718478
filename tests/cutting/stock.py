"""Pieces of stock filled by hand: rows of parts with a gap, since only what is done with a layout is tried here."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Sequence

from bellowscut.bellows import Bellows, build
from bellowscut.drawing import Drawn, Role
from bellowscut.materials import Material
from bellowscut.parts import Part, make_parts
from bellowscut.profile import load
from bellowscut.shapes import Point, bounds, polygon
from bellowscut.stock.model import Laid, Leftover, StockPiece

SHEET = Material("grey card", form="sheet", thickness=1.0, size=(1000.0, 700.0))
SKIN = Material("gusset skin", form="skin", thickness=0.4, area=464_515.2)
ROLL = Material("linen", form="roll", thickness=0.2, size=(1000.0, 10_000.0))

STAGES = {Role.TEXT: 0, Role.MARK: 1, Role.SKIVE: 2, Role.CREASE: 3}


def upright(_: int) -> float:
    return 0.0


def half_turns(number: int) -> float:
    return 180.0 * (number % 2)


def shipped(name: str, *kinds: str) -> tuple[Bellows, tuple[Part, ...]]:
    """A shipped profile's bellows and its parts of some kinds."""
    bellows = build(load(name))
    return bellows, tuple(part for part in make_parts(bellows) if part.kind in kinds)


def rows(
    parts: Iterable[Part], width: float, height: float, gap: float = 2.0, turn: Callable[[int], float] = upright, margin: float = 5.0
) -> tuple[Laid, ...]:
    """Pieces from left to right and from below upwards, as many as there is room for."""
    x, y, tall = margin, margin, 0.0
    found: list[Laid] = []
    for part in parts:
        for number in range(1, part.pieces + 1):
            angle = turn(len(found))
            left, low, right, high = bounds(Laid(part, "", number, angle, 0, 0).points())
            if x + right - left > width - margin:
                x, y, tall = margin, y + tall + gap, 0.0
            if y + high - low > height - margin:
                return tuple(found)
            found.append(Laid(part, "", number, angle, x - left, y - low))
            x, tall = x + right - left + gap, max(tall, high - low)
    return tuple(found)


def piece(laid: Sequence[Laid], width: float, height: float, material: Material = SHEET, at: Point = (0.0, 0.0)) -> StockPiece:
    """A rectangle of stock, its lower left corner anywhere."""
    x, y = at
    outline = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    moved = tuple(Laid(one.part, one.instrument, one.number, one.turn, one.x + x, one.y + y) for one in laid)
    length = width if material.form == "roll" else None
    return StockPiece("stock-1", material, material.name, outline, (), {}, 0.0, False, moved, Leftover(0.0), length)


def flat(points: Sequence[Point], name: str = "plate", holes: Sequence[Sequence[Point]] = ()) -> Part:
    """A part of straight sides, invented."""
    return Part(name, "card", name, "grey card", 1, 0, ("A",), (), polygon(points), side="outside", holes=tuple(map(polygon, holes)))


def scattered(chance: random.Random, count: int, width: float = 900.0, height: float = 600.0) -> tuple[Laid, ...]:
    """Small squares with a hole, in no order and anywhere."""
    part = flat(((0, 0), (9, 0), (9, 9), (0, 9)), holes=(((3, 3), (6, 3), (6, 6), (3, 6)),))
    cells = [(10.0 * i, 10.0 * k) for i in range(int(width / 10) - 2) for k in range(int(height / 10) - 2)]
    return tuple(Laid(part, "", number, 0.0, x + 10, y + 10) for number, (x, y) in enumerate(chance.sample(cells, count), 1))


def stage_of(drawn: Drawn) -> int:
    """Which stage of the work a drawing belongs to: text, marks, skive lines, creases, holes, outlines."""
    if drawn.outlines or any(line.role is Role.CUT for line in drawn.lines):
        return 4 if "-hole-" in drawn.part else 5
    return 0 if drawn.labels else STAGES[drawn.lines[0].role]

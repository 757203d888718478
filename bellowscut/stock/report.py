"""A layout told: as JSON for programs, as lines for the bench."""

from __future__ import annotations

import hashlib
import json
import math
from collections.abc import Iterator, Sequence
from typing import Any

from bellowscut import __version__
from bellowscut.materials import METRE, ROLL
from bellowscut.shapes import Point
from bellowscut.stock.model import Layout, Need, StockPiece
from bellowscut.stock.words import left_words, percent, stock_name
from bellowscut.units import both_areas
from bellowscut.words import say, stock as texts


def fingerprint(layout: Layout) -> str:
    """That of the profile, or of several one that belongs to them all."""
    if len(layout.fingerprints) == 1:
        return layout.fingerprints[0]
    return hashlib.sha256(" ".join(layout.fingerprints).encode()).hexdigest()[:12]


def as_json(layout: Layout) -> bytes:
    """The layout for programs: lengths [mm], angles [deg], shares of area [-]."""
    document = {
        "format": 1,
        "units": "mm",
        "fingerprint": fingerprint(layout),
        "version": __version__,
        "verified": True,  # `lay` raises where the judge finds a fault
        "method": layout.method,
        "instruments": [{"number": str(k), "name": name} for k, name in enumerate(layout.names, 1)],
        "notes": list(layout.notes),
        "stock": [_stock(piece) for piece in layout.stock],
        "unplaced": [],
    }
    return (json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False) + "\n").encode()


def _stock(piece: StockPiece) -> dict[str, Any]:
    length = {} if piece.length_used is None else {"length_used": _number(piece.length_used)}
    return {
        "id": piece.id,
        "material": piece.material.name,
        "label": piece.label,
        "form": piece.material.form,
        "face": piece.face,
        "typical": piece.typical,
        "backbone": _number(piece.backbone),
        "margin": _number(piece.material.margin),
        "gap": _number(piece.material.gap),
        "outline": _points(piece.outline),
        "flaws": [_points(flaw) for flaw in piece.flaws],
        "bars": {kind: [_points(zone) for zone in zones] for kind, zones in piece.bars.items()},
        "used": _number(piece.used),
        **length,
        "left": {"area": _number(piece.left.area), "clear": _points(piece.left.clear)},
        "placements": [
            {
                "part": laid.id,
                "number": laid.number,
                **({"instrument": laid.instrument} if laid.instrument else {}),
                "turn": round(laid.turn, 9) + 0.0,
                "x": round(laid.x, 6) + 0.0,
                "y": round(laid.y, 6) + 0.0,
            }
            for laid in piece.laid
        ],
    }


def _number(value: float) -> float:
    return round(value, 5) + 0.0


def _points(points: Sequence[Point]) -> list[list[float]]:
    return [[round(x, 6) + 0.0, round(y, 6) + 0.0] for x, y in points]


def pieces_bought(need: Need) -> int:
    """Skins, sheets or metres that are cut into [-]."""
    if need.material.form == ROLL:
        return math.ceil(round(sum(piece.length_used or 0.0 for piece in need.stock) / METRE, 9))
    return len(need.stock)


def stock_lines(layout: Layout) -> Iterator[tuple[str, str]]:
    """Each piece of stock: what lies on it, how full it is, what is left: label and text."""
    for piece in layout.stock:
        if piece.is_roll:
            yield piece.id, say(texts.ROLL_FULL, stock=stock_name(piece), percent=percent(piece.used))
        else:
            yield piece.id, say(texts.STOCK_FULL, stock=stock_name(piece), area=both_areas(piece.area), percent=percent(piece.used))
        for instrument, counts in _counts(piece).items():
            told = ", ".join(f"{count} {name}" for name, count in counts.items())
            yield "", say(texts.OF_INSTRUMENT, number=instrument, parts=told) if instrument else told
        if not piece.is_roll:
            yield "", say(texts.LEFT_OVER, what=left_words(piece))


def _counts(piece: StockPiece) -> dict[str, dict[str, int]]:
    """How many of each part lie on a piece of stock, by instrument."""
    found: dict[str, dict[str, int]] = {}
    for laid in piece.laid:
        mine = found.setdefault(laid.instrument, {})
        mine[laid.part.id] = mine.get(laid.part.id, 0) + 1
    return found

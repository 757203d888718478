"""Tracings of skins: an SVG or a DXF that somebody else made, read without trusting it, and what is wrong with it said in plain words."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path

from bellowscut.shapes import Point, bounds, signed_area
from bellowscut.tracing.joining import closed_loops
from bellowscut.tracing.limits import MOST_POINTS, read_bytes
from bellowscut.tracing.model import Drawing, Ring, Stroke, Tracing, TracingError
from bellowscut.tracing.outlines import at_corner, bars_of, check_outline, clean, flaws_of, rings_of
from bellowscut.tracing.scale import check_area_of, check_length_of, check_line, check_size, magnified
from bellowscut.words import say, tracing as words

__all__ = ["Tracing", "TracingError", "check_outline", "from_points", "read_tracing"]


def read_tracing(path: Path, area: float | None = None, check_length: float | None = None) -> Tracing:
    """Read the tracing of a skin.

    The largest closed outline is the skin, closed outlines in it are flaws. What stands in a group or on a layer named ``no-gusset`` bars
    gussets there, and so for every kind of part; a straight line in a group or on a layer named ``check`` is as long as `check_length` says.

    Parameters
    ----------
    path : Path
        An SVG or a DXF, known by its ending.
    area : float, optional
        Area of the skin [mm^2], more than 0; the tracing must have it to 2 per cent.
    check_length : float, optional
        True length of the check line [mm], more than 0; the line must have it to 0.5 per cent.

    Returns
    -------
    Tracing
        The skin.

    Raises
    ------
    TracingError
        When the file cannot be read, is no tracing, or is not true to size.
    ValueError
        When `area` or `check_length` is no positive number.
    """
    for name, value in (("area", area), ("check_length", check_length)):
        if value is not None and not (math.isfinite(value) and value > 0):
            raise ValueError(say(words.MUST_BE_POSITIVE, name=name, value=value))
    drawing = _drawing(Path(path))
    main = [stroke for stroke in drawing.strokes if not stroke.check and not stroke.kinds]
    check = check_line([stroke for stroke in drawing.strokes if stroke.check])
    _check_size_is_known(drawing, check, area, check_length)
    if not main:
        raise TracingError(_nothing(drawing))
    left, low, right, high = bounds([point for stroke in main for point in stroke.points])
    corner, scale = (left, low), magnified(max(right - left, high - low))
    loops = closed_loops(_lines(main), corner, scale)
    if not loops:
        raise TracingError(_nothing(drawing))
    skin, others = rings_of(loops, corner, scale)
    if area is not None:
        check_area_of(signed_area(skin), area)
    check_size(skin)
    barred = bars_of(skin, {kind: closed_loops(_lines(strokes), corner) for kind, strokes in _by_kind(drawing).items()}, corner)
    return _tracing(skin, flaws_of(skin, others), barred, check)


def from_points(points: Sequence[Point], flaws: Sequence[Sequence[Point]] = ()) -> Tracing:
    """A skin given point by point, with the same checks as a tracing.

    Parameters
    ----------
    points : sequence of Point
        In order round the skin [mm].
    flaws : sequence of sequences of Point
        Each in order round a flaw, in the same axes [mm].

    Returns
    -------
    Tracing
        The skin; its lower left corner is at (0, 0), so it may have been moved.

    Raises
    ------
    TracingError
        When `check_outline` refuses the skin, or a flaw is not sound or lies outside it.
    """
    skin = check_outline(points)
    corner = bounds(skin)[:2]
    for k, flaw in enumerate(flaws):
        if not all(math.isfinite(value) for point in flaw for value in point) or not flaw:
            raise TracingError(say(words.FLAW_NOT_FINITE, number=k + 1))
    others = [clean(flaw, say(words.FLAW_NUMBER, number=k + 1), corner, "outline") for k, flaw in enumerate(flaws)]
    return _tracing(skin, flaws_of(skin, others), {}, None)


def _tracing(skin: Ring, flaws: Sequence[Ring], bars: dict[str, tuple[Ring, ...]], check: float | None) -> Tracing:
    moved = {kind: tuple(at_corner(skin, ring) for ring in rings) for kind, rings in bars.items()}
    return Tracing(at_corner(skin, skin), tuple(at_corner(skin, flaw) for flaw in flaws), moved, check)


def _drawing(path: Path) -> Drawing:
    ending = path.suffix.lower()
    if ending not in (".svg", ".dxf"):
        if path.is_dir():
            read_bytes(path)
        raise TracingError(say(words.NOT_SVG_OR_DXF_BUT_SVGZ if ending == ".svgz" else words.NOT_SVG_OR_DXF))
    data = read_bytes(path)
    if not data.strip():
        raise TracingError(say(words.EMPTY))
    if ending == ".svg":
        from bellowscut.tracing.svg import read_svg

        return read_svg(data)
    from bellowscut.tracing.dxf import read_dxf

    return read_dxf(data)


def _check_size_is_known(drawing: Drawing, check: float | None, area: float | None, check_length: float | None) -> None:
    if check_length is not None:
        if check is None:
            raise TracingError(say(words.CHECK_LINE_MISSING))
        check_length_of(check, check_length)
    elif area is None and not drawing.sized:
        raise TracingError(say(words.NO_UNITS, taken_as=drawing.taken_as))


def _nothing(drawing: Drawing) -> str:
    if any(stroke.kinds for stroke in drawing.strokes):
        return say(words.ONLY_BARS)
    if drawing.passed_over:
        return say(words.NO_LINE_PASSED_OVER, passed_over=", ".join(drawing.passed_over[:5]))
    return say(words.NO_LINE)


def _lines(strokes: Sequence[Stroke]) -> list[tuple[Ring, bool]]:
    return [(stroke.points, stroke.closed) for stroke in strokes]


def _by_kind(drawing: Drawing) -> dict[str, list[Stroke]]:
    found: dict[str, list[Stroke]] = {}
    for stroke in drawing.strokes:
        if not stroke.check:
            for kind in stroke.kinds:
                found.setdefault(kind, []).append(stroke)
    if sum(len(stroke.points) for strokes in found.values() for stroke in strokes) > 2 * MOST_POINTS:
        raise TracingError(say(words.TOO_MANY_BARRED_KINDS))
    return found

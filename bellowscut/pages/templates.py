"""Rigid templates to cut leather round, of thin ply or acrylic.

Thin leather is cut by wheel or knife round something hard. A gusset's template
has the gusset's outline and, where enough is left round it, windows through
which the edges of the cards are pencilled on the leather; a strip's is a batten
of the strip's width. What is written is drawn in single strokes, to be engraved.
"""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.bellows import Bellows
from bellowscut.drawing import Drawn, Label, Line, Role
from bellowscut.layout.apart import Cell, lay
from bellowscut.lettering import CAPITAL
from bellowscut.pages.gusset_template import gusset_template
from bellowscut.pages.plain_template import plain_template
from bellowscut.pages.template_base import CLEAR, HOLE, RIM, face_of, hole_at, is_level, name_of
from bellowscut.parts.gusset import KINDS as GUSSETS
from bellowscut.parts.part import Part, listed
from bellowscut.shapes import bounds, rectangle
from bellowscut.words import say, templates as words

LETTERS = 3.0
BATTEN = 300.0
"""Greatest length of a batten [mm]; a longer strip is cut by moving it along."""

SHORTEST_TEXT = 25.0
"""Least room for what is engraved on a batten [mm]; on a shorter one it could not be read."""

LENGTHS_ENGRAVED = 4
"""More lengths than this are not engraved on a batten but left to the cut list [-]."""


def templates(bellows: Bellows, parts: Sequence[Part]) -> tuple[float, float, tuple[Drawn, ...]]:
    """A template for every distinct part of leather, laid apart like the parts themselves.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    parts : sequence of Part
        Those of the job, seen from the face that is to be shown; only what is cut from a skin gets a template.

    Returns
    -------
    float, float
        Width and height of the whole [mm].
    tuple of Drawn
        Heading, templates, measuring bars.
    """
    leather = [part for part in parts if bellows.material(part.material).form == "skin"]
    cells = []
    for alike in _battens_shared(leather):
        part = alike[0]
        if part.kind in GUSSETS:
            cells.append(gusset_template(bellows, part))
        elif part.strip:
            cells.append(_batten(alike))
        else:
            cells.append(plain_template(part))
    told = say(words.OF_PLY_OR_ACRYLIC if cells else words.NOTHING_OF_LEATHER, fingerprint=bellows.profile.fingerprint)
    return lay(cells, (say(words.HEADING, name=bellows.profile.name), told))


def _battens_shared(parts: Sequence[Part]) -> list[list[Part]]:
    """Each part on its own, but strips that differ in nothing but their length together."""
    groups: dict[object, list[Part]] = {}
    for number, part in enumerate(parts):
        _, low, _, high = bounds(part.points)
        across = tuple(sorted(round(y, 3) for y in _levels(part)))
        key = (part.kind, part.material, round(low, 3), round(high, 3), across) if part.strip else number
        groups.setdefault(key, []).append(part)
    return list(groups.values())


def _levels(part: Part) -> list[float]:
    """Heights of the lines that run along a strip [mm]."""
    left, _, right, _ = bounds(part.points)
    long = [line for line in part.lines if is_level(line) and abs(line.points[-1][0] - line.points[0][0]) > (right - left) * 0.99]
    return sorted(line.points[0][1] for line in long)


def _batten(alike: Sequence[Part]) -> Cell:
    part = alike[0]
    left, low, _, high = bounds(part.points)
    spans = [bounds(one.points) for one in alike]
    lengths = [right - start for start, _, right, _ in spans]
    length = min(max(lengths), BATTEN)
    fits = high - low >= 2 * (RIM + HOLE) and length > 4 * (RIM + HOLE)
    hole = (length - RIM - HOLE, (low + high) / 2)
    run = hole[0] - HOLE - CLEAR if fits else length
    levels = _levels(part)
    lines = [Line(Role.MARK, ((0.0, y), (run, y))) for y in levels]
    joints = [line.points[0][0] - left for line in part.lines if line.role is Role.SKIVE and not is_level(line)]
    joint = min(joints, default=0.0)
    if joint:
        lines.append(Line(Role.MARK, ((joint, low), (joint, high))))
    bands = [(a, b) for a, b in zip((low, *levels), (*levels, high), strict=True)]
    bottom, top = max(bands, key=lambda band: round(band[1] - band[0], 6))
    size = min(LETTERS, (top - bottom) * 0.6)
    name = name_of(part) if len(alike) == 1 else part.name.partition(",")[0]
    engraved = _lengths(alike, lengths, LENGTHS_ENGRAVED)
    text = say(words.BATTEN, part=name, width=f"{high - low:.1f}", lengths=engraved, face=face_of(part))
    at = (joint + 2 * CLEAR, (bottom + top - size * CAPITAL) / 2)
    room = run - at[0] - CLEAR
    labels = (Label(text, at, size, width=room),) if room > SHORTEST_TEXT else ()
    outlines = (rectangle(0.0, low, length, high), *((hole_at(hole),) if fits else ()))
    pieces = sum(one.pieces for one in alike)
    caption = (
        part.name if len(alike) == 1 else name,
        say(words.BATTEN_FOR, pieces=pieces, material=part.material, face=face_of(part), lengths=_lengths(alike, lengths, len(alike))),
        say(words.BATTEN_LINES),
        *(() if fits else (say(words.NO_HOLE),)),
    )
    return Cell(Drawn(part.id, outlines, tuple(lines), labels), caption, arrow=True)


def _lengths(alike: Sequence[Part], lengths: Sequence[float], most: int) -> str:
    if len(alike) == 1:
        return say(words.ONE_LENGTH, mm=f"{lengths[0]:.1f}")
    if len(alike) > most:
        return say(words.LENGTHS_IN_CUT_LIST)
    told = [say(words.LENGTH_OF_SIDES, sides="/".join(part.sides), mm=f"{length:.1f}") for part, length in zip(alike, lengths, strict=True)]
    return say(words.LENGTHS, list=listed(told))

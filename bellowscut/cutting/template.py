"""Templates and cauls, drawn apart from each other, made ready for the machine that cuts them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bellowscut.cutting.arcs import cleaned
from bellowscut.cutting.kerf import followed
from bellowscut.cutting.neighbours import burnt_once
from bellowscut.cutting.notes import left_out
from bellowscut.cutting.order import ordered
from bellowscut.cutting.stages import Stages, cut_task, text_tasks
from bellowscut.cutting.words import LASER, SHORT
from bellowscut.drawing import Drawn, Role
from bellowscut.layout.apart import HEADING, SCALE
from bellowscut.schema import CutterSpec
from bellowscut.words import say

UNDER_HEADING = 4.8
"""From the last line of the heading to the caution under it [mm]."""


def template_drawing(drawn: Sequence[Drawn], spec: CutterSpec, cutter: str, *, kerf_in: bool = True) -> tuple[Drawn, ...]:
    """Drawings laid apart, in the order in which a machine should work them.

    Parameters
    ----------
    drawn : sequence of Drawn
        Each with its outline first and then its holes [mm], as `bellowscut.pages.templates` makes them.
    spec : CutterSpec
        The machine.
    cutter : str
        ``laser``, ``knife`` or ``hand``.
    kerf_in : bool
        Whether outlines for a laser allow for its kerf.

    Returns
    -------
    tuple of Drawn
        Measuring bars, letters, lines, holes, outlines; each drawing of one layer. The caution stands under the heading.

    Raises
    ------
    UsageError
        By laser, when a hole or a notch is narrower than the kerf.
    """
    stages = Stages()
    kerf = spec.kerf if cutter == LASER and kerf_in else 0.0
    scales = tuple(one for one in drawn if one.part == SCALE)
    for one in drawn:
        if one.part == SCALE:
            continue
        words = _with_caution(one, cutter) if one.part == HEADING else one
        stages.texts += text_tasks(one.part, words.labels, tuple(line for line in one.lines if line.role is Role.TEXT))
        stages.add_lines(one.part, (burnt_once(one, spec.kerf)[0] if cutter == LASER else one).lines)
        for k, outline in enumerate(one.outlines):
            path = cleaned(followed(outline, kerf, inner=k > 0, name=one.part))
            name = f"{one.part}-hole-{k}" if k else one.part
            (stages.holes if k else stages.outlines).append(cut_task(name, path, cutter, spec, inner=k > 0))
    found = list(scales)
    at = (0.0, 0.0)
    for tasks in stages.in_order():
        made, at = ordered(tasks, at)
        found += made
    return tuple(found)


def lines_left_out(drawn: Sequence[Drawn], cutter: str, spec: CutterSpec) -> tuple[str, ...]:
    """What is to be said of lines that a laser would burn twice; nothing where there are none."""
    names = [one.part for one in drawn if cutter == LASER and one.part not in (SCALE, HEADING) and burnt_once(one, spec.kerf)[1]]
    return (left_out(names, spec.kerf),) if names else ()


def _with_caution(heading: Drawn, cutter: str) -> Drawn:
    last = heading.labels[-1]
    caution = replace(last, text=say(SHORT[cutter]), at=(last.at[0], last.at[1] - UNDER_HEADING))
    return replace(heading, labels=(*heading.labels, caution))

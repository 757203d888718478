"""How a form goes together and comes apart, in sentences."""

from __future__ import annotations

from itertools import groupby

from bellowscut.form.model import Form, Step
from bellowscut.parts.part import listed
from bellowscut.section import side_name
from bellowscut.units import Rule, angle_told
from bellowscut.words import form as words, say


def facts(form: Form) -> str:
    """Its sizes, in one paragraph."""
    sizes, rule = form.sizes, Rule()
    return say(
        words.FACTS,
        height=rule.length(sizes.ridge_height),
        pitch=rule.length(sizes.pitch),
        slope=angle_told(sizes.slope),
        length=rule.length(sizes.length),
        set_in=rule.fine(sizes.set_in),
        allowance=rule.fine(sizes.allowance),
    )


def together(form: Form) -> tuple[str, ...]:
    """How it is put together, step by step."""
    counts = {
        "combs": sum(part.count for part in form.parts if part.kind == "form-comb"),
        "boards": sum(part.count for part in form.parts if part.kind == "form-side"),
        "ribs": sum(part.count for part in form.parts if part.kind == "form-core-rib"),
    }
    return tuple(say(text, **counts) for text in words.TOGETHER)


def apart(form: Form) -> tuple[tuple[str, str], ...]:
    """How it comes out of the finished bellows: the number of each step, or of several alike, and what is done."""
    leaving = form.leaving
    left, _, right, _ = next(part for part in form.parts if part.kind == "form-end").holes[-1].bounds()
    told = (say(words.END_OFF), say(words.CORE_OUT, hole=f"{right - left:.0f}"), say(words.OTHER_OFF), _key(form, leaving[0]))
    found = [(str(number), text) for number, text in enumerate(told, 1)]
    number = len(found) + 1
    for aside, group in groupby(leaving[1:], key=lambda step: step.aside):
        steps = list(group)
        sides, inward = [step.piece for step in steps], f"{steps[0].inward:.0f}"
        if aside:
            texts = [say(words.NEXT_ASIDE, side=step.piece, inward=inward, **_aside(form, step)) for step in steps]
            found += [(str(number + k), text) for k, text in enumerate(texts)]
        elif len(steps) == 1:
            found.append((str(number), say(words.NEXT_OUT, side=sides[0], inward=inward)))
        else:
            numbers = say(words.STEPS, first=number, last=number + len(steps) - 1)
            found.append((numbers, say(words.REST_OUT, sides=listed(sides), inward=inward)))
        number += len(steps)
    return tuple(found)


def _key(form: Form, step: Step) -> str:
    inward = f"{step.inward:.0f}"
    if not step.aside:
        return say(words.KEY_OUT, side=step.piece, inward=inward)
    return say(words.KEY_ASIDE, side=step.piece, inward=inward, **_aside(form, step))


def _aside(form: Form, step: Step) -> dict[str, str]:
    """How far a segment slips along its side, and towards which."""
    names = [side_name(segment.side) for segment in form.segments]
    towards = names[(names.index(step.piece) + (1 if step.aside > 0 else -1)) % len(names)]
    return {"aside": f"{abs(step.aside):.0f}", "towards": towards}

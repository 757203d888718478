"""How a form goes together and comes apart, in sentences."""

from __future__ import annotations

from bellowscut.form.model import Form
from bellowscut.parts.part import listed
from bellowscut.words import form as words, say


def facts(form: Form) -> str:
    """Its sizes, in one paragraph."""
    sizes = form.sizes
    return say(
        words.FACTS,
        height=f"{sizes.ridge_height:.1f}",
        pitch=f"{sizes.pitch:.1f}",
        slope=f"{sizes.slope:g}",
        length=f"{sizes.length:.1f}",
        set_in=f"{sizes.set_in:.2f}",
        allowance=f"{sizes.allowance:.2f}",
    )


def together(form: Form) -> tuple[str, ...]:
    """How it is put together, step by step."""
    counts = {
        "combs": sum(part.count for part in form.parts if part.kind == "form-comb"),
        "boards": sum(part.count for part in form.parts if part.kind == "form-side"),
        "ribs": sum(part.count for part in form.parts if part.kind == "form-core-rib"),
    }
    return tuple(say(text, **counts) for text in words.TOGETHER)


def apart(form: Form) -> tuple[str, ...]:
    """How it comes out of the finished bellows, step by step."""
    leaving = [step for step in form.steps if step.piece not in ("end", "core")]
    key, rest = leaving[0], [step.piece for step in leaving[1:]]
    found = [say(words.END_OFF), say(words.CORE_OUT), say(words.KEY_OUT, side=key.piece, inward=f"{key.inward:.0f}")]
    if len(rest) == 1:
        found.append(say(words.NEXT_OUT, side=rest[0]))
    elif rest:
        found.append(say(words.REST_OUT, sides=listed(rest)))
    return (*found, say(words.LAST_OFF))

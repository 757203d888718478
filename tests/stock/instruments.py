"""Small instruments with stock of their own, for the tests of layouts; all invented."""

from __future__ import annotations

from pathlib import Path

from bellowscut.bellows import build
from bellowscut.parts import make_parts
from bellowscut.profile import Profile, loads
from bellowscut.stock.lay import Instrument
from tests.conftest import FIVE_LINES


def profile(*more: str, head: str = "", source: str = "box.toml") -> Profile:
    """The five lines of a usual bellows, with more tables under them and keys before them."""
    return loads(FIVE_LINES.replace("format = 1\n", f"format = 1\n{head}\n", 1) + "\n".join(("", *more, "")), source)


def instrument(*more: str, head: str = "", job: str = "regusset", source: str = "box.toml") -> Instrument:
    """The same as the layout takes it."""
    bellows = build(profile(*more, head=head, source=source))
    return Instrument(bellows, make_parts(bellows, job))


def skin(name: str, *keys: str) -> str:
    """A table of a skin 0.5 mm thick."""
    return "\n".join((f'[materials."{name}"]', 'form = "skin"', 'thickness = "0.5 mm"', *keys))


def text_of(path: Path) -> str:
    """A file as text."""
    return path.read_text(encoding="utf-8")

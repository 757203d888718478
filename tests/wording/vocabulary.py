"""The modules of the program, and every constant of ``bellowscut/words``."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from string import Formatter

FOLDER = Path(__file__).parents[2] / "bellowscut"
WORDS = FOLDER / "words"


def modules() -> dict[str, ast.Module]:
    """Syntax tree by path of every module but those of words."""
    found = {}
    for path in sorted(FOLDER.rglob("*.py")):
        if WORDS not in path.parents:
            found[path.relative_to(FOLDER).as_posix()] = ast.parse(path.read_text(encoding="utf-8"))
    return found


def vocabulary() -> dict[str, dict[str, object]]:
    """Constants of each module of words, by name."""
    found: dict[str, dict[str, object]] = {}
    for path in sorted(WORDS.glob("*.py")):
        if path.stem != "__init__":
            held = vars(import_module(f"bellowscut.words.{path.stem}"))
            found[path.stem] = {name: value for name, value in held.items() if name.isupper()}
    return found


MODULES = modules()
VOCABULARY = vocabulary()


def texts_of(value: object) -> Iterator[str]:
    """Every text in a constant, be it one, a tuple or a mapping."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for one in value.values():
            yield from texts_of(one)
    elif isinstance(value, tuple | list):
        for one in value:
            yield from texts_of(one)


def fields_of(text: str) -> set[str]:
    """Names in the braces of a template; of a text that is no template, none."""
    try:
        return {name for _, name, _, _ in Formatter().parse(text) if name}
    except ValueError:
        return set()

"""All texts stand in ``bellowscut/words``, are used, and get their values.

Held over the syntax trees, so that a sentence that nobody happens to print is
found too; `tests.test_translation` runs the program in another language.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

import pytest

from tests.wording.uses import USES, Uses
from tests.wording.vocabulary import MODULES, VOCABULARY, WORDS, texts_of

WORD = r"[^\W\d_]{2,}"
ANY = r"(?:[^\W\d_]|\{\})"
TWO_WORDS = re.compile(rf"{WORD}[,;:.]? {ANY}|{ANY}[,;:.]? {WORD}")
"""What reads like language: a word of two letters or more with a space between it and another, or a value."""

UNITS = re.compile(r"(?<![^\W\d_])(?:\{\} )?(?:mm2?|dm2|cm2|sq ft|in|min)(?![^\W\d_])")
"""Units beside a value are no language."""

CODES = ("grey card", "gusset skin", "strip skin", "cover skin", "facing paper", "job book", "outline = ")
"""Names by which a profile asks for what is built in, a key of TOML, and what a summary for programs says: keys, not words."""

EXCEPTIONS: dict[str, str] = {
    "export/pdf.py": "operators of a PDF",
    "export/picture_svg.py": "elements of an SVG, and fonts by name",
    "export/svg.py": "the first line of an XML file",
    "reading.py": "what the TOML reader of Python says, to find a line number in it",
    "sources.py": "goes into docs/sources.md and nowhere else; the documentation is English",
}
"""Modules that may hold what reads like language, and why."""

NOT_YET: tuple[str, ...] = ()
"""Modules whose texts are still to be moved; it may only become shorter."""

SAID_EARLY = {"cli.py": "what --help says of a command is put down when the command is"}
"""Modules that may say something as soon as they are read, and why."""

NOT_USED_YET: tuple[str, ...] = ()
"""Modules of words some of which wait for a command that is to say them; it may only become shorter."""


def literals(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Line and text of every literal that is no docstring, a value in an f-string as ``{}``."""
    left_out = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            left_out.add(node.value)
        elif isinstance(node, ast.JoinedStr):
            left_out.update(part for part in node.values if isinstance(part, ast.Constant))
            yield node.lineno, "".join(str(part.value) if isinstance(part, ast.Constant) else "{}" for part in node.values)
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node not in left_out:
            yield node.lineno, node.value


def language(tree: ast.AST) -> list[str]:
    """Literals of a module that read like language."""
    found = []
    for line, text in literals(tree):
        bare = UNITS.sub("", text)
        for name in CODES:
            bare = bare.replace(name, "")
        if TWO_WORDS.search(bare):
            found.append(f"{line}: {text!r}")
    return found


@pytest.mark.parametrize("name", [name for name in MODULES if name not in (*EXCEPTIONS, *NOT_YET)])
def test_a_module_has_no_sentence_of_its_own(name: str) -> None:
    assert language(MODULES[name]) == [], "these belong in bellowscut/words"


@pytest.mark.parametrize("name", [*EXCEPTIONS, *NOT_YET])
def test_what_is_let_off_still_needs_it(name: str) -> None:
    assert language(MODULES[name]), f"{name} is clean: take it off the list"


@pytest.mark.parametrize(
    ("source", "count"),
    [
        ('raise Refusal("sides", 2, "a section has sides")', 1),
        ('note = f"cut {n} of them"', 1),
        ('"""What it does, in words."""\nx = "key"', 0),
        ('def f():\n    """In words."""\n    return f"{mm:.1f} mm"', 0),
        ('KEYS = ("fold_depth", "edge-strip", "CUT")', 0),
        ('name = "gusset skin"', 0),
        ('f"{mm} mm longer"', 0),
        ('f"{mm} mm and longer"', 1),
        ('f"{number} of {all}"', 1),
        ('f"{id}-length-{number}"', 0),
    ],
)
def test_language_is_told_from_codes(source: str, count: int) -> None:
    assert len(language(ast.parse(source))) == count


# used, and with the values that they ask for ------------------------------------------------------


@pytest.mark.parametrize("name", [name for name, uses in USES.items() if uses.calls])
def test_a_text_is_given_just_the_values_that_it_asks_for(name: str) -> None:
    assert USES[name].faults == []


@pytest.mark.parametrize("name", [name for name in USES if name not in SAID_EARLY])
def test_nothing_is_said_while_a_module_is_read(name: str) -> None:
    assert USES[name].early == [], "say it where it is shown: the language may not be known yet"


def unused(module: str) -> list[str]:
    """Constants of a module of words that nobody uses."""
    tree = ast.parse((WORDS / f"{module}.py").read_text(encoding="utf-8"))
    within = {node.id for node in ast.walk(tree) if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load)}
    used = {name.partition(".")[2] for uses in USES.values() for name in uses.names if name.startswith(f"{module}.")}
    return sorted(set(VOCABULARY[module]) - used - within)


@pytest.mark.parametrize("module", [module for module in VOCABULARY if module not in NOT_USED_YET])
def test_every_text_is_used(module: str) -> None:
    assert unused(module) == []


@pytest.mark.parametrize("module", NOT_USED_YET)
def test_what_waits_for_its_command_still_waits(module: str) -> None:
    assert unused(module), f"all of {module} is used: take it off the list"


@pytest.mark.parametrize("module", VOCABULARY)
def test_a_module_of_words_holds_constants_and_nothing_else(module: str) -> None:
    tree = ast.parse((WORDS / f"{module}.py").read_text(encoding="utf-8"))
    assert ast.get_docstring(tree)
    for node in tree.body:
        plain = isinstance(node, ast.Assign | ast.AnnAssign) or (isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant))
        future = isinstance(node, ast.ImportFrom) and node.module in ("__future__", "typing", "collections.abc", "types")
        assert plain or future, f"{module}:{node.lineno}"
    for name, value in VOCABULARY[module].items():
        for text in texts_of(value):
            assert not re.search(r"\{\d*\}", text), f"{name}: a value without a name"


@pytest.mark.parametrize(
    ("source", "faults"),
    [
        ("say(words.MORE_PROBLEMS, number=3)", 0),
        ("say(words.MORE_PROBLEMS)", 1),
        ("say(words.MORE_PROBLEMS, number=3, most=4)", 1),
        ("say(words.MORE_PROBLEMS, count=3)", 2),
        ("text = words.MORE_PROBLEMS if x else words.NO_NAME\nsay(text, number=3)", 0),
        ("text = words.MORE_PROBLEMS if x else words.NO_NAME\nsay(text)", 1),
        ("def f():\n    text = words.MORE_PROBLEMS\n    say(text, number=3)\n    text = words.NO_NAME\n    say(text)", 0),
        ("TABLE = {1: words.MORE_PROBLEMS}\ndef f(k):\n    return say(TABLE[k])", 1),
        ("say(words.MORE_PROBLEMS, **values)", 0),
        ("count(3, words.MORE_PROBLEMS, words.MORE_PROBLEMS)", 0),
        ("count(3, words.MORE_PROBLEMS, words.NOT_UTF_8)", 0),
        ("count(3, words.MORE_PROBLEMS, words.UNREADABLE)", 1),
    ],
)
def test_a_wrong_value_is_noticed(source: str, faults: int) -> None:
    uses = Uses(ast.parse(f"from bellowscut.words import count, profile as words, say\n{source}"))
    assert len(uses.faults) == faults

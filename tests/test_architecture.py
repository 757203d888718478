"""The order of imports is the architecture: held here over the syntax trees, so that no module has to be run.

A new module fails the first test until it is given its place in `LEVELS`.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

PACKAGE = "bellowscut"
FOLDER = Path(__file__).parents[1] / PACKAGE

LEVELS: tuple[tuple[str, ...], ...] = (
    ("words.*", "words"),
    ("errors", "plain_file"),
    ("units",),
    ("sources", "shapes"),
    ("nesting.*", "nesting"),
    ("tracing.*", "tracing"),
    ("drawing",),
    ("letter_widths",),
    ("lettering",),
    ("keys",),
    ("materials",),
    ("section", "folds", "stack"),
    ("ends",),
    ("schema", "toml_lines"),
    ("values",),
    ("reading", "profile_text"),
    ("rules",),
    ("profile",),
    ("limits",),
    ("old_card",),
    ("bellows",),
    ("parts.part",),
    ("parts.*",),
    ("parts",),
    ("form.*", "form"),
    ("stock.model",),
    ("stock.words",),
    ("guess",),
    ("advice",),
    ("labour",),
    ("money",),
    ("job_book",),
    ("workshop",),
    ("estimate",),
    ("summary",),
    ("quoting",),
    ("bench.*", "bench"),
    ("layout.*", "layout"),
    ("pages.*", "pages"),
    ("stock.*", "stock"),
    ("export.*", "export"),
    ("cutting.*", "cutting"),
    ("pipeline",),
    ("planning",),
    ("offering", "noting", "measuring", "forming"),
    ("answers", "offers", "unfinished"),
    ("ask",),
    ("terminal",),
    ("cli",),
    ("__main__",),
)
"""From the ground up, names without that of the package: a module imports only from the levels above its own line.

``folder.*`` stands for every module of a folder that is not named on its own,
and the bare name for the folder's ``__init__``.
"""

COMPANIONS = ("words", "form", "bench", "layout", "pages", "export", "nesting", "stock", "cutting", "tracing")
"""Folders whose modules may import each other, though never in a circle. Those of `parts` may not: a part is added as one file."""

ONLY_IN = {
    "tomllib": ("reading", "toml_lines"),
    "click": ("cli", "terminal"),
    "reportlab": ("export.*",),
    "svgwrite": ("export.*",),
    "ezdxf": ("export.*", "tracing.*"),
    "defusedxml": ("tracing.*",),
}
"""Libraries that only some modules may import."""

TALKERS = ("cli", "terminal", "__main__")
"""Modules that may print, ask and end the program."""

TALKING = {"print", "input", "exit", "quit", "SystemExit", "sys.exit", "sys.stdout", "sys.stderr", "sys.stdin", "os._exit", "os.abort"}


def module_names() -> tuple[str, ...]:
    """Every module of the package, as in ``parts.card``; the package's own ``__init__`` is the empty name."""
    paths = (path.relative_to(FOLDER).with_suffix("") for path in sorted(FOLDER.rglob("*.py")))
    return tuple(".".join(path.parts).removesuffix("__init__").rstrip(".") for path in paths)


MODULES = module_names()


def source_of(name: str) -> str:
    path = FOLDER.joinpath(*name.split(".")) if name else FOLDER
    return (path / "__init__.py" if path.is_dir() else path.with_suffix(".py")).read_text(encoding="utf-8")


def pattern_of(name: str) -> str:
    """The entry of `LEVELS` that a module falls under, or nothing."""
    entries = [entry for level in LEVELS for entry in level]
    family = f"{name.rpartition('.')[0]}.*"
    return name if name in entries else family if family in entries else ""


def level_of(name: str) -> int:
    """Place in `LEVELS`; the package's own ``__init__`` lies under all, an unknown module above all."""
    if not name:
        return -1
    pattern = pattern_of(name)
    return next((number for number, level in enumerate(LEVELS) if pattern in level), len(LEVELS))


def imports(tree: ast.AST, modules: tuple[str, ...] = MODULES) -> Iterator[tuple[int, str]]:
    """Line and full name of everything imported, wherever in the module it is done."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            origin = "." * node.level + (node.module or "")
            for alias in node.names:
                inner = f"{origin}.{alias.name}"
                yield node.lineno, inner if inner.removeprefix(f"{PACKAGE}.") in modules else origin


def own(name: str) -> str | None:
    """Name within the package of an imported module, None for one of somebody else's."""
    return name.removeprefix(PACKAGE).lstrip(".") if name.split(".", maxsplit=1)[0] == PACKAGE else None


def allowed_import(name: str, imported: str) -> bool:
    """Whether one module of the package may import another."""
    folder = name.split(".", maxsplit=1)[0]
    if folder in COMPANIONS and folder == imported.split(".", maxsplit=1)[0]:
        return True
    return level_of(imported) < level_of(name)


def faults(name: str, source: str, modules: tuple[str, ...] = MODULES) -> list[str]:
    """What a module does that its place does not allow."""
    tree = ast.parse(source)
    found = []
    for line, imported in imports(tree, modules):
        library = imported.split(".")[0]
        inner = own(imported)
        if imported.startswith("."):
            found.append(f"{line}: a relative import, which this test does not follow")
        elif inner is not None and not allowed_import(name, inner):
            found.append(f"{line}: {name or PACKAGE} may not import {inner}, which is not on a lower level")
        elif library in ONLY_IN and pattern_of(name) not in ONLY_IN[library]:
            found.append(f"{line}: only {', '.join(ONLY_IN[library])} may import {library}")
    if name not in TALKERS:
        found += [f"{line}: {what} is for {', '.join(TALKERS)} only" for line, what in talk(tree)]
    return found


def talk(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Line and name of everything that prints, asks or ends the program."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Name | ast.Attribute) and ast.unparse(node) in TALKING:
            yield node.lineno, ast.unparse(node)
        elif isinstance(node, ast.ImportFrom) and node.module in ("sys", "os"):
            yield from ((node.lineno, f"{node.module}.{a.name}") for a in node.names if f"{node.module}.{a.name}" in TALKING)


def test_every_module_has_a_level() -> None:
    assert {"", "errors", "export.publish"} <= set(MODULES), "the modules were not found at all"
    unknown = [name for name in MODULES if name and not pattern_of(name)]
    assert not unknown, f"give these a place in LEVELS: {', '.join(unknown)}"


@pytest.mark.parametrize("name", MODULES, ids=lambda name: name or PACKAGE)
def test_a_module_keeps_to_its_place(name: str) -> None:
    assert faults(name, source_of(name)) == []


def graph(modules: dict[str, str]) -> dict[str, set[str]]:
    """Which modules each one imports, from their sources; a folder and what stands in it are told apart."""
    names = tuple(modules)
    return {
        name: {inner for _, imported in imports(ast.parse(source), names) if (inner := own(imported)) is not None}
        for name, source in modules.items()
    }


def test_no_imports_in_a_circle() -> None:
    tuple(TopologicalSorter(graph({name: source_of(name) for name in MODULES})).static_order())


def test_a_circle_is_noticed() -> None:
    circle = {"layout.rows": "from bellowscut.layout import lattice", "layout.lattice": "def f():\n    import bellowscut.layout.rows"}
    with pytest.raises(CycleError):
        tuple(TopologicalSorter(graph(circle)).static_order())


STRAY = [
    ("folds", "from bellowscut.profile import Profile", "may not import profile"),
    ("folds", "from bellowscut import section", "may not import section"),
    ("folds", "def f():\n    import bellowscut.cli", "may not import cli"),
    ("folds", "if TYPE_CHECKING:\n    from bellowscut.bellows import Bellows", "may not import bellows"),
    ("parts.card", "from bellowscut.parts.gusset import width", "may not import parts.gusset"),
    ("parts.card", "from bellowscut.parts import gusset", "may not import parts.gusset"),
    ("parts.card", "from bellowscut.parts import PARTS", "may not import parts"),
    ("layout.rows", "from bellowscut.pages import cover", "may not import pages"),
    ("folds", "from . import units", "relative import"),
    ("folds", "import bellowscut.unheard_of", "may not import unheard_of"),
    ("", "from bellowscut.errors import Problem", "may not import errors"),
    ("pages.cover", "def f():\n    import reportlab.pdfgen.canvas", "only export.* may import reportlab"),
    ("layout.rows", "import ezdxf", "only export.*, tracing.* may import ezdxf"),
    ("parts.card", "from svgwrite import Drawing", "only export.* may import svgwrite"),
    ("schema", "import tomllib", "only reading, toml_lines may import tomllib"),
    ("ask", "import click", "only cli, terminal may import click"),
    ("pipeline", "print('done')", "print is for cli, terminal, __main__ only"),
    ("ask", "answer = input()", "input is for cli, terminal, __main__ only"),
    ("pipeline", "import sys\nsys.exit(2)", "sys.exit is for cli, terminal, __main__ only"),
    ("pipeline", "from sys import stderr", "sys.stderr is for cli, terminal, __main__ only"),
    ("pipeline", "raise SystemExit(1)", "SystemExit is for cli, terminal, __main__ only"),
    ("summary", "import sys\nsys.stdout.write('x')", "sys.stdout is for cli, terminal, __main__ only"),
]


@pytest.mark.parametrize(("name", "source", "fault"), STRAY, ids=[f"{name or PACKAGE}-{fault}" for name, _, fault in STRAY])
def test_what_strays_is_noticed(name: str, source: str, fault: str) -> None:
    (found,) = faults(name, source, (*MODULES, "section", "parts.gusset"))
    assert fault in found


@pytest.mark.parametrize(
    ("name", "source"),
    [
        ("cli", "import click, sys\nfrom bellowscut.pipeline import make\nprint(sys.stdin)"),
        ("parts", "from bellowscut.parts import card, gusset"),
        ("parts.card", "from bellowscut.parts.part import Part"),
        ("layout.rows", "from bellowscut.layout.lattice import f"),
        ("export.dxf", "def f():\n    import ezdxf\n    from bellowscut.drawing import Role"),
        ("reading", "import tomllib\nfrom bellowscut import __version__, schema"),
    ],
    ids=["cli", "parts", "part", "companions", "export", "reading"],
)
def test_what_is_in_its_place_is_left_alone(name: str, source: str) -> None:
    assert faults(name, source, (*MODULES, "schema", "parts.card", "parts.gusset")) == []

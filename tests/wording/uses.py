"""Where each text is said, and with which values."""

from __future__ import annotations

import ast

from tests.wording.vocabulary import MODULES, VOCABULARY, fields_of, texts_of


class Uses(ast.NodeVisitor):
    """Which constants of words a module uses, and how it says them.

    `names` holds what was used, as ``module.CONSTANT``; `faults` each call of
    ``say`` or ``count`` that lacks a value of a text that it may be given, or
    has one that stands in none of them. `plurals` holds the pairs of ``count``,
    and `early` the lines that say something while the module is being read.
    """

    def __init__(self, tree: ast.Module) -> None:
        self.aliases: dict[str, str] = {}
        self.imported: dict[str, tuple[str, str]] = {}
        self.names: set[str] = set()
        self.plurals: set[tuple[str, str]] = set()
        self.calls = 0
        self.early: list[int] = []
        self.speakers: set[str] = set()
        self.faults: list[str] = []
        self._scopes: list[ast.AST] = [tree]
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom) and node.module == "bellowscut.words":
                self.aliases.update({one.asname or one.name: one.name for one in node.names if one.name in VOCABULARY})
                self.speakers.update(one.name for one in node.names if one.name in ("say", "count"))
            elif isinstance(node, ast.ImportFrom) and (node.module or "").startswith("bellowscut.words."):
                of = str(node.module).rpartition(".")[2]
                self.imported.update({one.asname or one.name: (of, one.name) for one in node.names})
                self.names.update(f"{of}.{one.name}" for one in node.names)
        self.visit(tree)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        """Names given within a function are looked for there first."""
        for outer in (*node.decorator_list, node.args):
            self.visit(outer)
        self._scopes.append(node)
        for inner in node.body:
            self.visit(inner)
        self._scopes.pop()

    def visit_Attribute(self, node: ast.Attribute) -> None:
        """A constant of an imported module."""
        if isinstance(node.value, ast.Name) and node.value.id in self.aliases:
            self.names.add(f"{self.aliases[node.value.id]}.{node.attr}")
        self.generic_visit(node)

    def visit_Call(self, node: ast.Call) -> None:
        """A text said."""
        if isinstance(node.func, ast.Name) and node.func.id in self.speakers and node.args:
            if len(self._scopes) == 1:
                self.early.append(node.lineno)
            several = node.func.id == "count"
            self._check(node, node.args[1:3] if several else node.args[:1], {"number"} if several else set())
            if several and len(node.args) == 3:
                ones, many = (sorted(self._texts(one)) for one in node.args[1:])
                self.plurals.update(zip(ones, many, strict=True))
            elif several and isinstance(node.args[1], ast.Starred):
                self.plurals.update(self._pairs(node.args[1].value))
        self.generic_visit(node)

    def _check(self, call: ast.Call, arguments: list[ast.expr], always: set[str]) -> None:
        given = {str(one.arg) for one in call.keywords if one.arg is not None} | always
        more = any(one.arg is None for one in call.keywords)
        texts = sorted({text for one in arguments for text in self._texts(one)})
        self.calls += len(texts)
        said = ", ".join(sorted(given)) or "nothing"
        self.faults += [f"{call.lineno}: {text!r} is given {said}" for text in texts if fields_of(text) - given and not more]
        if texts and given - always - {name for text in texts for name in fields_of(text)}:
            self.faults.append(f"{call.lineno}: {said}: not all of it is in {', '.join(map(repr, texts))}")

    def _texts(self, node: ast.expr, depth: int = 0) -> set[str]:
        """Texts that an expression may stand for, as far as it can be seen."""
        if depth > 6:
            return set()
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in self.aliases:
            return set(texts_of(VOCABULARY[self.aliases[node.value.id]].get(node.attr, ())))
        if isinstance(node, ast.Name):
            if node.id in self.imported:
                of, name = self.imported[node.id]
                return set(texts_of(VOCABULARY[of].get(name, ())))
            return {text for value in self._given(node) for text in self._texts(value, depth + 1)}
        parts: list[ast.expr] = []
        if isinstance(node, ast.IfExp):
            parts = [node.body, node.orelse]
        elif isinstance(node, ast.Subscript | ast.Starred):
            parts = [node.value]
        elif isinstance(node, ast.Dict | ast.BoolOp):
            parts = node.values
        elif isinstance(node, ast.Tuple | ast.List):
            parts = node.elts
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "get":
            parts = [node.func.value]
        return {text for part in parts for text in self._texts(part, depth + 1)}

    def _pairs(self, node: ast.expr) -> set[tuple[str, str]]:
        """Pairs of texts in a constant of words, such as a mapping holds."""
        held = node.value if isinstance(node, ast.Subscript) else node
        assert isinstance(held, ast.Attribute), "pairs are taken from a constant of words"
        assert isinstance(held.value, ast.Name), "pairs are taken from a constant of words"
        value = VOCABULARY[self.aliases[held.value.id]][held.attr]
        held_pairs = value.values() if isinstance(value, dict) else [value]
        return {(str(one), str(many)) for one, many in (tuple(texts_of(pair)) for pair in held_pairs)}

    def _given(self, name: ast.Name) -> list[ast.expr]:
        """What a name is given in the innermost function that gives it anything, since it was last used there."""
        for scope in reversed(self._scopes):
            nodes = [node for node in ast.walk(scope) if getattr(node, "lineno", 0) <= name.lineno]
            if any(isinstance(node, ast.arg) and node.arg == name.id for node in nodes):
                return []
            uses = [node.lineno for node in nodes if isinstance(node, ast.Name) and node.id == name.id and isinstance(node.ctx, ast.Load)]
            last = (
                max((line for line in uses if line < name.lineno), default=0) if len(self._scopes) > 1 and scope is self._scopes[-1] else 0
            )
            found = [
                node.value
                for node in nodes
                if isinstance(node, ast.Assign | ast.AnnAssign)
                and node.value is not None
                and any(
                    isinstance(to, ast.Name) and to.id == name.id
                    for to in (node.targets if isinstance(node, ast.Assign) else [node.target])
                )
                and node.lineno >= last
            ]
            if found:
                return found
        return []


USES = {name: Uses(tree) for name, tree in MODULES.items()}

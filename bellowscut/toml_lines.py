"""Where each key and table of a TOML text stands, and how its value was written.

The standard reader gives values without their places. This scanner runs over a
text that the reader has already accepted, so it need not look for mistakes.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from dataclasses import dataclass, field
from decimal import Decimal, InvalidOperation

Path = tuple[str, ...]

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_STRING = re.compile(
    r'"""(?:[^"\\]|\\.|"{1,2}(?!"))*+"{3,5}'
    r"|'''(?:[^']|'{1,2}(?!'))*+'{3,5}"
    r'|"(?:[^"\\\n]|\\.)*+"'
    r"|'[^'\n]*+'",
    re.DOTALL,
)
_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*+")
_SPACE = re.compile(r"[ \t]*+")
_SCALAR = re.compile(r"[^,\]}\n#]*")
_NESTED_KEY = re.compile(r"\.[ \t]*(?:[A-Za-z0-9_-]+|\"[^\"\n]*\"|'[^'\n]*')[ \t]*(?=\.)")

KEY_DEPTH = 40
"""Most parts of a dotted key on one line [-]; the reader's time grows with their square."""


@dataclass
class Places:
    """Where the keys of a text stand.

    Parameters
    ----------
    lines : dict
        Line of each key and table by its path [-].
    written : dict
        The text of each value by its path.
    """

    lines: dict[Path, int] = field(default_factory=dict)
    written: dict[Path, str] = field(default_factory=dict)


def dotted(path: Path) -> str:
    """A path as TOML writes it, such as ``materials."gusset skin".thickness``."""
    return ".".join(part if _BARE.fullmatch(part) else quoted(part) for part in path)


def undotted(name: str) -> Path:
    """The path that a dotted name stands for; the other way round from `dotted`."""
    path, _ = _Scanner(name).key(0)
    return path


def quoted(text: str) -> str:
    """A text as a TOML string in double quotes."""
    escapes = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}
    return '"' + "".join(escapes.get(c, c if c.isprintable() else f"\\U{ord(c):08X}") for c in text) + '"'


def decimal(text: str) -> Decimal:
    """A decimal as written; one past all powers of ten that the machine counts is no number."""
    try:
        return Decimal(text)
    except InvalidOperation:
        return Decimal("nan")


def value_of(text: str) -> object:
    """What one value in TOML stands for, decimals as `Decimal`."""
    found: object = tomllib.loads(f"k = {text}", parse_float=decimal)["k"]
    return found


def too_deep(text: str) -> int:
    """Line of the first key with more than `KEY_DEPTH` parts, 0 when there is none."""
    for number, line in enumerate(text.split("\n"), start=1):
        if line.count(".") > KEY_DEPTH and len(_NESTED_KEY.findall(line)) > KEY_DEPTH:
            return number
    return 0


def places(text: str) -> Places:
    """Find every key and table of a text that reads as TOML.

    Parameters
    ----------
    text : str
        The whole file.

    Returns
    -------
    Places
        Lines count from 1. A table that is only implied stands where it is first named.
    """
    return _Scanner(text).scan()


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.ends = [found.start() for found in re.finditer("\n", text)]
        self.found = Places()

    def line(self, at: int) -> int:
        return bisect_right(self.ends, at - 1) + 1 if at else 1

    def scan(self) -> Places:
        text, at = self.text, 0
        table: Path = ()
        while (at := self.blank(at)) < len(text):
            if text[at] == "[":
                double = text.startswith("[[", at)
                table, after = self.key(self.space(at + (2 if double else 1)))
                self.note(table, at)
                at = self.space(after) + (2 if double else 1)
            else:
                at = self.pair(at, table)
        return self.found

    def pair(self, at: int, table: Path) -> int:
        key, after = self.key(at)
        path = table + key
        for depth in range(len(table) + 1, len(path) + 1):
            self.note(path[:depth], at)
        start = self.space(self.space(after) + 1)
        end = self.value(start, path)
        self.found.written[path] = text = self.text[start:end].strip()
        return end if text else end + 1

    def note(self, path: Path, at: int) -> None:
        self.found.lines.setdefault(path, self.line(at))

    def key(self, at: int) -> tuple[Path, int]:
        parts = []
        while True:
            at = self.space(at)
            if self.text[at] in "\"'":
                found = _STRING.match(self.text, at)
                assert found is not None
                parts.append(str(tomllib.loads(f"k = {found[0]}")["k"]))
            else:
                found = _BARE.match(self.text, at)
                assert found is not None
                parts.append(found[0])
            after = self.space(found.end())
            if self.text[after : after + 1] != ".":
                return tuple(parts), found.end()
            at = after + 1

    def value(self, at: int, path: Path) -> int:
        text = self.text
        if text[at] in "\"'":
            found = _STRING.match(text, at)
            assert found is not None
            return found.end()
        if text[at] == "[":
            at = self.blank(at + 1)
            while text[at] != "]":
                at = self.blank(self.value(at, (*path, "[]")))
                if text[at] == ",":
                    at = self.blank(at + 1)
            return at + 1
        if text[at] == "{":
            at = self.blank(at + 1)
            while text[at] != "}":
                at = self.blank(self.pair(at, path))
                if text[at] == ",":
                    at = self.blank(at + 1)
            return at + 1
        found = _SCALAR.match(text, at)
        assert found is not None
        return found.end()

    def blank(self, at: int) -> int:
        found = _BLANK.match(self.text, at)
        assert found is not None
        return found.end()

    def space(self, at: int) -> int:
        found = _SPACE.match(self.text, at)
        assert found is not None
        return found.end()

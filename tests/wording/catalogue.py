"""The template from which a translation is made, and a translation made into what the program reads.

    python -m tests.wording.catalogue > bellowscut.pot

from the top of the checkout. Every text stands in it once, with the places of
its constants and with what ``bellowscut/words`` says of it to the translator.
"""

from __future__ import annotations

import ast
import struct
import sys
from collections.abc import Mapping
from dataclasses import dataclass, field

from tests.wording.uses import USES
from tests.wording.vocabulary import VOCABULARY, WORDS, fields_of, texts_of

HEAD = {
    "Project-Id-Version": "bellowscut",
    "MIME-Version": "1.0",
    "Content-Type": "text/plain; charset=UTF-8",
    "Content-Transfer-Encoding": "8bit",
    "Plural-Forms": "nplurals=2; plural=(n != 1);",
}
"""What every catalogue says of itself; a translator's tool puts in the plural forms of the language."""


@dataclass
class Entry:
    """One text to be translated.

    Parameters
    ----------
    text : str
        In English.
    many : str
        The text for more than one, empty where there is no such thing.
    places : list of str
        Module and name of each constant.
    notes : list of str
        What is said of it.
    """

    text: str
    many: str = ""
    places: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


def notes_of(module: str) -> dict[str, str]:
    """What a module of words says under its constants, by their names."""
    found = {}
    names: list[str] = []
    for node in ast.parse((WORDS / f"{module}.py").read_text(encoding="utf-8")).body:
        if isinstance(node, ast.Assign):
            names = [name.id for target in node.targets for name in ast.walk(target) if isinstance(name, ast.Name)]
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            names = [node.target.id]
        elif isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            found.update({name: " ".join(str(node.value.value).split()) for name in names})
            names = []
    return found


def entries() -> list[Entry]:
    """Every text once, in the order of modules and constants."""
    plural = {one: many for uses in USES.values() for one, many in uses.plurals}
    found: dict[str, Entry] = {}
    for module, constants in VOCABULARY.items():
        notes = notes_of(module)
        for name, value in constants.items():
            for text in texts_of(value):
                if not text or text in plural.values():
                    continue
                entry = found.setdefault(text, Entry(text, plural.get(text, "")))
                if (place := f"{module}.{name}") not in entry.places:
                    entry.places.append(place)
                if name in notes and notes[name] not in entry.notes:
                    entry.notes.append(notes[name])
    return list(found.values())


def quoted(text: str) -> str:
    """A text as a catalogue writes it."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\t", "\\t") + '"'


def template() -> str:
    """The whole template, as gettext and what works with it read it."""
    lines = ['msgid ""', 'msgstr ""', *(quoted(f"{name}: {value}\n") for name, value in HEAD.items()), ""]
    for entry in entries():
        lines += [f"#. {note}" for note in entry.notes]
        lines.append(f"#: {' '.join(entry.places)}")
        if fields_of(entry.text):
            lines.append("#, python-brace-format")
        lines.append(f"msgid {quoted(entry.text)}")
        lines += [f"msgid_plural {quoted(entry.many)}", 'msgstr[0] ""', 'msgstr[1] ""', ""] if entry.many else ['msgstr ""', ""]
    return "\n".join(lines)


def compiled(translated: Mapping[str, str]) -> bytes:
    """A catalogue as the program reads it, for tests without gettext's own tools (GNU gettext manual, "The Format of GNU MO Files").

    Parameters
    ----------
    translated : mapping of str to str
        By text; forms for one and for more joined by a nought character on either side.
    """
    head = "".join(f"{name}: {value}\n" for name, value in HEAD.items())
    pairs = sorted((one.encode(), other.encode()) for one, other in {"": head, **translated}.items())
    tables, at = [], 28 + 16 * len(pairs)
    for side in (0, 1):
        for pair in pairs:
            tables.append(struct.pack("<II", len(pair[side]), at))
            at += len(pair[side]) + 1
    texts = b"".join(pair[side] + b"\0" for side in (0, 1) for pair in pairs)
    header = struct.pack("<7I", 0x950412DE, 0, len(pairs), 28, 28 + 8 * len(pairs), 0, 28 + 16 * len(pairs))
    return header + b"".join(tables) + texts


if __name__ == "__main__":
    sys.stdout.write(template())

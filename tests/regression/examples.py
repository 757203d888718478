"""The sets in output_examples: made again from the command that each one names."""

from __future__ import annotations

import io
import os
import re
import shlex
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from pathlib import Path

import pikepdf

from bellowscut.export.publish import RECORD
from tests.hanging import HANG

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "output_examples"


def stories(folder: Path = FOLDER) -> tuple[Path, ...]:
    """One text for each example: the command, and what it printed."""
    return tuple(sorted(folder.glob("*.txt")))


def command_of(story: Path) -> str:
    """The command line of an example."""
    first = story.read_text(encoding="utf-8").splitlines()[0]
    assert re.match(r"\$ bellowscut (make|layout|quote) ", first), f"{story.name} should begin with $ bellowscut make, layout or quote"
    if " --like " not in first:
        ending = ".pdf" if first.startswith("$ bellowscut quote ") else ""
        assert shlex.split(first)[-2:] == ["--out", story.stem + ending], f"{story.name} should write to --out {story.stem}{ending}"
    return first


def kept(story: Path) -> Mapping[str, bytes]:
    """Everything that is kept of an example, by its path in the folder."""
    files = [path for path in (story.parent / story.stem).rglob("*") if path.is_file()]
    page = story.with_suffix(".pdf")
    return {path.relative_to(story.parent).as_posix(): path.read_bytes() for path in (story, *files, *([page] if page.exists() else []))}


def made(story: Path) -> Mapping[str, bytes]:
    """The same, made afresh by running the command in an empty folder."""
    line = command_of(story)
    with tempfile.TemporaryDirectory() as place:
        done = subprocess.run(
            [sys.executable, "-m", "bellowscut", *shlex.split(line)[2:]],
            cwd=place,
            env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUTF8": "1", "NO_COLOR": "1"},
            capture_output=True,
            check=False,
            timeout=HANG,
        )
        assert done.returncode == 0, done.stderr.decode()
        # What a set says of its own bytes goes by the version of zlib.
        found = (path for path in Path(place).rglob("*") if path.is_file() and path.name != RECORD)
        files = {path.relative_to(place).as_posix(): path.read_bytes() for path in found}
    printed = done.stdout.decode().replace(f"{story.stem}{os.sep}", f"{story.stem}/").replace("\r\n", "\n")
    return {story.name: f"{line}\n{printed}".encode(), **files}


def differences(old: Mapping[str, bytes], new: Mapping[str, bytes]) -> list[str]:
    """Names of the files that are not alike."""
    return [name for name in sorted({*old, *new}) if name not in old or name not in new or not alike(name, old[name], new[name])]


def alike(name: str, old: bytes, new: bytes) -> bool:
    """Whether two files say the same; a PDF is compared with its streams inflated, since zlib has versions."""
    return old == new or (name.endswith(".pdf") and _inflated(old) == _inflated(new))


UNTOLD = ("/Length", "/Filter", "/DecodeParms")
"""Keys of a stream that say how it was packed."""


def _inflated(data: bytes) -> list[bytes]:
    """Everything that a PDF holds, in the order in which it is reached from the top, streams inflated."""
    found: list[bytes] = []
    with pikepdf.open(io.BytesIO(data)) as pdf:
        seen: dict[tuple[int, int], int] = {}
        for top in (pdf.Root, pdf.trailer.get("/Info")):
            _tell(top, seen, found)
    return found


def _tell(thing: object, seen: dict[tuple[int, int], int], found: list[bytes]) -> None:
    if not isinstance(thing, pikepdf.Object):
        found.append(repr(thing).encode())
        return
    if thing.is_indirect:
        if thing.objgen in seen:
            found.append(f"again {seen[thing.objgen]}".encode())
            return
        seen[thing.objgen] = len(seen)
    if isinstance(thing, pikepdf.Array):
        found.append(f"{len(thing)} in a row".encode())
        for one in thing.as_list():
            _tell(one, seen, found)
    elif isinstance(thing, pikepdf.Dictionary | pikepdf.Stream):
        for key in sorted(thing.keys()):
            if key not in UNTOLD:
                found.append(key.encode())
                _tell(thing[key], seen, found)
        if isinstance(thing, pikepdf.Stream):
            found.append(thing.read_bytes())
    else:
        found.append(thing.unparse())

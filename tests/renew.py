"""Make everything again that is generated: pages and drawings of the documentation, and output_examples.

    python -m tests.renew

from the top of the checkout. It says what changed; look at the difference before you keep it.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

from tests.docs.generated import DRAWINGS, ROOT, generated
from tests.regression.examples import FOLDER, alike, kept, made, stories


def renew(root: Path = ROOT) -> Iterator[str]:
    """Write what has changed and take away what is made no more; yields a line for each file."""
    drawings = {path.relative_to(root).as_posix() for path in (root / DRAWINGS).glob("*.svg")}
    yield from _put(root, generated(), drawings)
    for story in stories(FOLDER):
        old = kept(story)
        yield from _put(FOLDER, made(story), set(old))


def _put(folder: Path, files: Mapping[str, bytes], there: set[str]) -> Iterator[str]:
    for name, data in files.items():
        path = folder / name
        if path.is_file() and alike(name, path.read_bytes(), data):
            continue
        path.parent.mkdir(parents=True, exist_ok=True)
        word = "changed" if path.is_file() else "new"
        path.write_bytes(data)
        yield f"{word}: {path.relative_to(ROOT)}"
    for name in sorted(there - set(files)):
        (folder / name).unlink()
        yield f"gone: {(folder / name).relative_to(ROOT)}"


if __name__ == "__main__":
    told = list(renew())
    sys.stdout.write("\n".join(told or ["nothing has changed"]) + "\n")

"""The sets in output_examples are what the program makes today: our own earlier output, no proof that it is right.

After a wanted change: ``python -m tests.renew``, and look at the difference.
"""

from __future__ import annotations

import io
from pathlib import Path

import pikepdf
import pytest

from tests.regression.examples import FOLDER, alike, command_of, differences, kept, made, stories

SIZE_MOST = 4_000_000
"""All examples together [bytes]: they are there to be looked at, not to fill a disk."""


def test_there_are_examples() -> None:
    made_of = {path.stem for path in FOLDER.iterdir() if path.is_dir() or path.suffix == ".pdf"}
    assert len(made_of) >= 3
    assert made_of == {story.stem for story in stories() if " --like " not in command_of(story)}
    assert sum(path.stat().st_size for path in FOLDER.rglob("*") if path.is_file()) < SIZE_MOST


def test_the_examples_say_that_they_are_invented() -> None:
    words = (FOLDER / "README.md").read_text(encoding="utf-8")
    assert "invented" in words
    for story in stories():
        assert any(f"({story.stem}{ending})" in words for ending in ("/", ".pdf", ".txt")), f"README.md does not speak of {story.stem}"
        assert command_of(story).removeprefix("$ ") in words, f"README.md does not give the command of {story.stem}"


@pytest.mark.parametrize("story", stories(), ids=lambda story: story.stem)
def test_an_example_is_made_again(story: Path) -> None:
    changed = differences(kept(story), made(story))
    assert not changed, f"{', '.join(changed)} would be different now; if that is wanted: python -m tests.renew"


def test_a_change_is_noticed() -> None:
    old = kept(stories()[0])
    for name, data in old.items():
        if not name.endswith(".pdf"):
            assert differences(old, {**old, name: data.replace(b"1", b"2", 1)}) == [name]
        assert differences(old, {other: content for other, content in old.items() if other != name}) == [name]
    assert differences(old, {**old, "stray.txt": b""}) == ["stray.txt"]


def test_a_pdf_is_compared_by_what_it_says() -> None:
    name, data = next((name, data) for story in stories() for name, data in kept(story).items() if name.endswith(".pdf"))
    assert alike(name, data, _saved(data, moved=False))
    assert not alike(name, data, _saved(data, moved=True))


def _saved(data: bytes, *, moved: bool) -> bytes:
    """The same file written by another program, with a line of the first page moved if asked."""
    into = io.BytesIO()
    with pikepdf.open(io.BytesIO(data)) as pdf:
        if moved:
            content = pdf.pages[0].Contents
            content.write(content.read_bytes().replace(b"1", b"2", 1))
        pdf.save(into, static_id=True, compress_streams=True, recompress_flate=True)
    return into.getvalue()

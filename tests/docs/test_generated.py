"""Generated pages and drawings are current, and each drawing is shown somewhere."""

from __future__ import annotations

import pytest
from defusedxml.ElementTree import fromstring

from tests.docs.generated import DRAWINGS, ROOT, generated, with_levels
from tests.docs.texts import PAGES, links, read

SIZE_MOST = 250_000
"""All drawings together [bytes]."""


@pytest.fixture(scope="module")
def made() -> dict[str, bytes]:
    return dict(generated())


def test_every_generated_file_is_current(made: dict[str, bytes]) -> None:
    stale = [path for path, data in made.items() if not (ROOT / path).is_file() or (ROOT / path).read_bytes() != data]
    assert not stale, f"{', '.join(stale)} would be different now: python -m tests.renew"


def test_no_drawing_is_left_over(made: dict[str, bytes]) -> None:
    there = {path.relative_to(ROOT).as_posix() for path in (ROOT / DRAWINGS).iterdir()}
    assert there == {path for path in made if path.startswith(DRAWINGS)}


def test_every_drawing_is_shown(made: dict[str, bytes]) -> None:
    shown = {(page.parent / link).resolve() for page in PAGES for link in links(read(page)) if link.endswith(".svg")}
    unseen = [path for path in made if path.startswith(DRAWINGS) and (ROOT / path).resolve() not in shown]
    assert not unseen


def test_drawings_are_small_and_sound(made: dict[str, bytes]) -> None:
    drawings = [data for path, data in made.items() if path.startswith(DRAWINGS)]
    assert sum(map(len, drawings)) < SIZE_MOST
    for data in drawings:
        top = fromstring(data)
        width, height = (float(top.get(name, "").removesuffix("mm")) for name in ("width", "height"))
        box = [float(word) for word in top.get("viewBox", "").split()]
        assert width / height == pytest.approx(box[2] / box[3], rel=1e-3)
        assert top.findtext("{http://www.w3.org/2000/svg}title")
        assert not any(word in data for word in (b"nan", b"inf"))


def test_a_change_of_the_levels_is_noticed() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert with_levels(text.replace("folds, stack", "folds", 1)) == text

"""Links lead somewhere, and every page can be reached from the README."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.docs.texts import PAGES, ROOT, anchors, links, named, read


def dead(page: Path, text: str) -> list[str]:
    """Links of a page that lead nowhere."""
    found = []
    for link in links(text):
        path, _, anchor = link.partition("#")
        goal = (page.parent / path).resolve() if path else page
        if "://" in link or not goal.exists() or not goal.is_relative_to(ROOT) or (anchor and anchor not in anchors(read(goal))):
            found.append(link)
    return found


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_links_lead_somewhere(page: Path) -> None:
    assert dead(page, read(page)) == []


def test_a_dead_link_is_noticed() -> None:
    page = ROOT / "README.md"
    assert dead(page, "[a](docs/nowhere.md) [b](docs/glossary.md#nothing) ![c](https://example.org/a.png)") == [
        "docs/nowhere.md",
        "docs/glossary.md#nothing",
        "https://example.org/a.png",
    ]
    assert dead(page, "[a](docs/glossary.md#words) ![c](docs/drawings/card.svg)") == []


def test_every_page_can_be_reached() -> None:
    reached: set[Path] = set()
    ahead = [ROOT / "README.md"]
    while ahead:
        page = ahead.pop()
        if page in reached or page.suffix != ".md":
            continue
        reached.add(page)
        ahead += [(page.parent / link.partition("#")[0]).resolve() for link in links(read(page))]
    assert reached == set(PAGES)

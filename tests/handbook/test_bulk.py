"""ISO 534, paper and board: bulking thickness is the thickness of a pack divided by the number of sheets in it.

A closed bellows is such a pack. Whatever is made of it, the pack of its cards,
cloth and leather cannot be thinner than its sheets one upon the other.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from bellowscut.bellows import Bellows
from bellowscut.stack import Layers, closed_stack

pytestmark = pytest.mark.source("bulk")

BARE = dict.fromkeys(Layers.__dataclass_fields__, 0.0)


@pytest.mark.parametrize(("folds", "card"), [(1, 1.5), (6, 1.0), (7, 2.0)])
def test_bare_board_is_as_thick_as_its_sheets(folds: int, card: float) -> None:
    sheets = 2 * (folds + 1)
    pack = closed_stack(Layers(**{**BARE, "card": card})).closed_length(sheets / 2, 1)
    assert pack / sheets == pytest.approx(card, rel=1e-12)


def test_no_bellows_closes_thinner_than_its_cards(made: Callable[..., Bellows]) -> None:
    """And thicker board makes the closed pack longer by itself, sheet for sheet."""
    thin, thick = (made(card={"material": "board"}, **{'materials."board"': board(mm)}) for mm in (1.0, 1.5))
    assert thin.closed_length > 14 * 1.0
    assert thick.closed_length - thin.closed_length == pytest.approx(14 * 0.5, rel=1e-12)


def board(thickness: float) -> dict[str, object]:
    return {"form": "sheet", "thickness": thickness, "size": ["1000 mm", "700 mm"]}

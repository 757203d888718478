"""What lies on a piece of stock, put in rows for its legend: every sort of piece with a letter, a tint and its numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import count, product

from bellowscut.drawing import Tint
from bellowscut.shapes import bounds
from bellowscut.stock.model import Laid, Layout, StockPiece
from bellowscut.words import say, stock_pages as texts

LETTERS = "PRSTUVWXYZKMNH"
"""Letters of the sorts, none with a tail, from where the letters of sides seldom reach."""

TINTS = (Tint.PAPER, Tint.CLOTH, Tint.CARD, Tint.CLOTH_SHADE, Tint.PALE)
"""Fills by kind: each lightness is told from the one before and after it without colour, and letters stand out on all."""

KINDS = {
    "gusset": texts.GUSSETS,
    "end-gusset": texts.END_GUSSETS,
    "half-gusset": texts.HALF_GUSSETS,
    "edge-strip": texts.EDGE_STRIPS,
    "end-strip": texts.END_STRIPS,
    "hinge": texts.HINGES,
    "frame-hinge": texts.FRAME_HINGES,
    "valley-strip": texts.VALLEY_STRIPS,
    "ridge-cloth": texts.RIDGE_CLOTHS,
    "corner-patch": texts.CORNER_PATCHES,
    "card": texts.CARDS,
    "card-run": texts.CARD_RUNS,
    "facing": texts.FACINGS,
    "gasket": texts.GASKETS,
}
"""Kinds of part in the plural, for zones that are barred to them, to be said where they are shown."""


@dataclass(frozen=True)
class Row:
    """Pieces of one part and one instrument on a piece of stock.

    Parameters
    ----------
    letter : str
        Stands before their numbers; empty when the material has one sort only.
    tint : Tint
        Their fill.
    alone : bool
        Whether the fill alone tells them from all others.
    laid : tuple of Laid
        In the order of their numbers.
    """

    letter: str
    tint: Tint
    alone: bool
    laid: tuple[Laid, ...]

    @property
    def name(self) -> str:
        """The part's name."""
        return self.laid[0].part.name

    def code(self, laid: Laid) -> str:
        """What is written on a piece: ``P12``."""
        return f"{self.letter}{laid.number}"

    def size(self) -> str:
        """Width and height in the part's own axes, to check with a rule."""
        left, low, right, high = bounds(self.laid[0].part.points)
        return f"{right - left:.1f} \u00d7 {high - low:.1f} mm"

    def numbers(self) -> str:
        """The numbers that lie here, neighbours drawn together: ``1 to 12, 20``."""
        runs: list[list[int]] = []
        for laid in self.laid:
            if runs and laid.number == runs[-1][-1] + 1:
                runs[-1].append(laid.number)
            else:
                runs.append([laid.number])
        told = ", ".join(say(texts.RUN, first=run[0], last=run[-1]) if len(run) > 2 else ", ".join(map(str, run)) for run in runs)
        if self.letter:
            return self.letter + told
        return say(texts.ONE_NUMBER, number=told) if len(self.laid) == 1 else say(texts.NUMBERS, numbers=told)

    def words(self, stock: StockPiece) -> str:
        """What to know beside name and number of pieces."""
        first = self.laid[0]
        left, low, _, _ = bounds(stock.outline)
        x, y, _, _ = bounds(first.points())
        code = self.code(first) if self.letter else say(texts.ONE_NUMBER, number=first.number)
        told = [self.size(), self.numbers(), say(texts.WHERE_IT_LIES, code=code, across=f"{x - left:.0f}", up=f"{y - low:.0f}")]
        return " \u00b7 ".join(told)


@dataclass(frozen=True)
class Sort:
    """How a sort of piece is shown on every piece of stock of its material.

    Parameters
    ----------
    letter : str
        Stands before its numbers; empty when the material has one sort only.
    tint : Tint
        Its fill.
    alone : bool
        Whether no other sort of the material has this tint.
    """

    letter: str
    tint: Tint
    alone: bool


Sorts = Mapping[tuple[str, str, str], Sort]


def sorts_of(layout: Layout) -> Sorts:
    """Letter and tint of each sort, by material, instrument and part: the same on all skins of a material.

    Parameters
    ----------
    layout : Layout
        The stock with its pieces.
    """
    kinds: dict[str, dict[tuple[str, str], str]] = {}
    for stock in layout.stock:
        for laid in stock.laid:
            kinds.setdefault(stock.material.name, {}).setdefault((laid.instrument, laid.part.id), laid.part.kind)
    found: dict[tuple[str, str, str], Sort] = {}
    for material, sorts in kinds.items():
        keys = sorted(sorts, key=lambda key: key[0].zfill(4))
        letters = [""] if len(keys) == 1 else _letters(len(keys))
        # As long as there are tints enough every sort has its own; else those of a kind share one.
        groups: list[object] = list(keys) if len(keys) <= len(TINTS) else [sorts[key] for key in keys]
        order = list(dict.fromkeys(groups))
        for key, letter, group in zip(keys, letters, groups, strict=True):
            number = order.index(group) % len(TINTS)
            alone = sum(order.index(other) % len(TINTS) == number for other in groups) == 1
            found[material, *key] = Sort(letter, TINTS[number], alone)
    return found


def rows_of(stock: StockPiece, sorts: Sorts) -> tuple[Row, ...]:
    """The sorts of pieces on a piece of stock, instrument by instrument, in the order of their letters.

    Parameters
    ----------
    stock : StockPiece
        With its pieces.
    sorts : mapping
        What `sorts_of` gave.
    """
    pieces: dict[tuple[str, str, str], list[Laid]] = {}
    for laid in stock.laid:
        pieces.setdefault((stock.material.name, laid.instrument, laid.part.id), []).append(laid)
    return tuple(
        Row(sort.letter, sort.tint, sort.alone, tuple(sorted(pieces[key], key=lambda laid: laid.number)))
        for key, sort in sorts.items()
        if key in pieces
    )


def _letters(wanted: int) -> list[str]:
    found: list[str] = []
    for length in count(1):
        found += ["".join(each) for each in product(LETTERS, repeat=length)]
        if len(found) >= wanted:
            break
    return found[:wanted]


def barred_words(kinds: Sequence[str]) -> str:
    """What a zone says that some kinds of part must not touch: ``no gussets here``."""
    # ``gusset`` stands for all three kinds.
    told = [kind for kind in dict.fromkeys(kinds) if not (kind.endswith("-gusset") and "gusset" in kinds)]
    plain = [say(KINDS.get(kind, kind.replace("-", " "))) for kind in told]
    return say(texts.NONE_HERE, kinds=say(texts.OR).join(plain))

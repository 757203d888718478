"""What each single piece is called where every piece is drawn: its kind, its side or corner, its number; no two alike."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from bellowscut.parts.part import Part
from bellowscut.words import say, sheets as words

DOT = " \u00b7 "

FEW = 3
"""So many places of a spare are named; of more only the first."""


@dataclass(frozen=True)
class PieceName:
    """What stands on a piece.

    Parameters
    ----------
    kind : str
        What it is, the same for all of its kind.
    place : str
        Side or corner with a number; the number alone for a strip that runs right round; no two of a kind share it.
    hand : str
        Which of two mirror images it is, where there are two.
    """

    kind: str
    place: str
    hand: str = ""

    @property
    def ways(self) -> tuple[tuple[str, ...], ...]:
        """The same in one row or more, the fullest first; kind and place are in each."""
        first, _, last = self.kind.rpartition(" ")
        short = ((f"{self.kind}{DOT}{self.place}",), (self.kind, self.place), *(((first, last, self.place),) if first else ()))
        if not self.hand:
            return short
        return ((f"{self.kind}{DOT}{self.place}, {self.hand}",), (f"{self.kind}{DOT}{self.place}", self.hand), *short)

    @property
    def back(self) -> PieceName:
        """The same for the other face."""
        return PieceName(self.kind, say(words.PIECE_BACK, piece=self.place), self.hand)


def piece_names(parts: Sequence[Part]) -> Mapping[str, tuple[PieceName, ...]]:
    """Names of all pieces of some parts, by the part's id, spares last.

    Parameters
    ----------
    parts : sequence of Part
        All parts of a set.
    """
    alike = Counter(_kind(part) for part in parts)
    numbers: Counter[tuple[str, str]] = Counter()
    found: dict[str, tuple[PieceName, ...]] = {}
    for part in parts:
        kind = _kind(part)
        named: list[PieceName] = []
        for where, hand, count in _places(part):
            for _ in range(count):
                numbers[kind, where] += 1
                number = numbers[kind, where]
                named.append(PieceName(kind, say(words.PIECE_PLACE, place=where, number=number) if where else str(number), hand))
        of = _spare_of(part) if alike[kind] > 1 else ""
        for _ in range(part.spare):
            numbers[kind, words.PIECE_SPARE + of] += 1
            number = numbers[kind, words.PIECE_SPARE + of]
            text = say(words.PIECE_SPARE_OF, place=of, number=number) if of else say(words.PIECE_SPARE, number=number)
            named.append(PieceName(kind, text))
        found[part.id] = tuple(named)
    return found


def _kind(part: Part) -> str:
    return part.name.partition(",")[0]


def _places(part: Part) -> Sequence[tuple[str, str, int]]:
    """Each side or corner with the hand and the number of the pieces there; no place where that is not known."""
    if part.shares and sum(count for _, _, count in part.shares) == part.count:
        return part.shares
    where = part.sides or part.corners
    if where and part.count % len(where) == 0:
        return [(name, "", part.count // len(where)) for name in where]
    return [("", "", part.count)]


def _spare_of(part: Part) -> str:
    where = part.sides or part.corners
    return ", ".join(where) if len(where) <= FEW else say(words.PIECE_SPARE_PLACES, first=where[0])

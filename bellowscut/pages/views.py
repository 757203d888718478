"""One face of a part, as it lies on a sheet, and the words for it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bellowscut.drawing import Drawn, Item, Label, Line, Stroke
from bellowscut.layout.clearance import simplified, turned
from bellowscut.layout.openings import edges
from bellowscut.layout.tiles import Segment
from bellowscut.pages.arrows import BOARD
from bellowscut.parts.part import Part
from bellowscut.shapes import Outline, Point, bounds
from bellowscut.words import say, sheets as words

ROUGH = 0.05
"""How far the outline that lettering keeps clear of may be off [mm]."""

GUSSETS = ("gusset", "end-gusset", "half-gusset")


@dataclass(frozen=True)
class View:
    """One face of a part as it will be drawn.

    Parameters
    ----------
    part : Part
        What is drawn.
    name : str
        What it is called on the sheet.
    outlines : tuple of Outline
        What is cut; empty for the back of a board, which is only scored.
    lines : tuple of Line
        Everything else on this face [mm].
    points : tuple of Point
        Outline with arcs cut into chords, cut or not [mm].
    rough : tuple of Point
        The same with fewer points, for finding room [mm].
    turn : int
        How it is turned from the part's own axes [deg].
    """

    part: Part
    name: str
    outlines: tuple[Outline, ...]
    lines: tuple[Line, ...]
    points: tuple[Point, ...]
    rough: tuple[Point, ...]
    turn: int = 0

    @property
    def grain(self) -> float:
        """Direction of least stretch as it lies [deg]."""
        return self.part.grain + self.turn

    @property
    def size(self) -> tuple[float, float]:
        """Width and height as it lies [mm]."""
        left, low, right, high = bounds(self.points)
        return right - left, high - low

    def turned(self, turn: int, x: float = 0.0, y: float = 0.0) -> View:
        """The view turned about the part's origin by quarter turns [deg], then moved [mm]."""

        def move(points: Sequence[Point]) -> tuple[Point, ...]:
            return tuple((px + x, py + y) for px, py in turned(points, turn))

        return replace(
            self,
            outlines=tuple(outline.turned(turn).moved(x, y) for outline in self.outlines),
            lines=tuple(Line(line.role, move(line.points), line.closed) for line in self.lines),
            points=move(self.points),
            rough=move(self.rough),
            turn=(self.turn + turn) % 360,
        )

    def segments(self) -> list[Segment]:
        """Everything that lettering keeps clear of but the outline itself [mm]."""
        found = [pair for line in self.lines for pair in edges(line.points, closed=line.closed)]
        return found + [pair for hole in self.outlines[1:] for pair in edges(hole.flattened(), closed=True)]

    def drawn(self) -> Drawn:
        """What the exporters draw."""
        return Drawn(self.part.id, self.outlines, self.lines)


def views(part: Part, *, mirror: bool) -> tuple[View, ...]:
    """The faces of a part that a set shows: the front, and the back of a scored board.

    Parameters
    ----------
    part : Part
        The part.
    mirror : bool
        Whether leather is shown from its grain side.
    """
    shown = part.mirrored() if mirror and part.side == "flesh" else part
    front = View(shown, part.name, (shown.outline, *shown.holes), shown.lines, shown.points, simplified(shown.points, ROUGH))
    if not part.back:
        return (front,)
    points = part.outline.mirrored().flattened()
    back = View(part, say(words.BACK, name=part.name), (), part.back, points, simplified(points, ROUGH))
    return replace(front, name=say(words.FRONT, name=part.name)), back


def moved(item: Item, x: float, y: float) -> Item:
    """A label or stroke shifted [mm]."""
    if isinstance(item, Label):
        return replace(item, at=(item.at[0] + x, item.at[1] + y))
    assert isinstance(item, Stroke)
    return replace(item, points=tuple((px + x, py + y) for px, py in item.points))


# words ----------------------------------------------------------------


def places(part: Part) -> str:
    """Where a part belongs, runs of neighbours drawn together: ``sides A to F``."""
    for names, one, several in ((part.sides, words.SIDE, words.SIDES), (part.corners, words.CORNER, words.CORNERS)):
        if not names:
            continue
        if len(names) == 1:
            return say(one, names=names[0])
        runs: list[list[str]] = []
        for name in names:
            if runs and _follows(runs[-1][-1], name, corners=one is words.CORNER):
                runs[-1].append(name)
            else:
                runs.append([name])
        told = [say(words.RUN, first=run[0], last=run[-1]) if len(run) > 2 else ", ".join(run) for run in runs]
        return say(several, names=", ".join(told))
    return ""


def _follows(name: str, after: str, *, corners: bool) -> bool:
    """Whether one side or corner comes straight after another."""
    if corners:
        return _sides_of(after)[0] == _sides_of(name)[1]
    return _number(after) == _number(name) + 1


def _sides_of(corner: str) -> tuple[str, str]:
    """The two sides that meet: ``AB``, or ``Z-AA`` where a side has two letters."""
    first, dash, second = corner.partition("-")
    return (first, second) if dash else (corner[:1], corner[1:])


def _number(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


def amount(part: Part) -> str:
    """How many to cut: ``cut 30 + 3 spare``."""
    return say(words.CUT_COUNT_SPARE, counted=part.counted) if part.spare else say(words.CUT_COUNT, count=part.count)


def size_words(view: View) -> str:
    """Width and height in the part's own axes, to check with a rule."""
    size = view.size if view.turn % 180 == 0 else view.size[::-1]
    return say(words.SIZE, width=f"{size[0]:.1f}", height=f"{size[1]:.1f}")


def face(part: Part) -> str:
    """Material, and the face that is drawn where it matters."""
    if part.side in ("flesh", "grain") or part.kind in BOARD:
        return say(words.FACE, material=part.material, side=say(words.FACES[part.side]))
    return part.material

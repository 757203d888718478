"""What a part is, and how alike parts become one part with a count.

Every file beside this one makes one kind of part from a `Bellows`; none of
them imports another. Lengths in millimetres in the part's own axes: strips
along x with the fold line on y = 0, cards with the ridge line on y = 0 and the
valley at +y, gussets along y with the valley on y = 0.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from bellowscut.bellows import Bellows
from bellowscut.drawing import Line, Role
from bellowscut.shapes import Outline, Point, perimeter, same_shape, signed_area
from bellowscut.words import parts as words, say


@dataclass(frozen=True)
class Part:
    """One distinct piece to cut, with how many of it.

    Parameters
    ----------
    id : str
        Unique in a pattern set, ASCII: ``gusset``, ``card-B``.
    kind : str
        What it is, as fixed for files: ``card``, ``end-gusset`` and so on.
    name : str
        The same for a person: ``Card, sides A and C``.
    material : str
        Name of the material.
    count, spare : int
        How many the job needs for all its copies, and how many on top [-].
    sides, corners : tuple of str
        Where it belongs; both empty for a strip that runs right round.
    outline : Outline
        What is cut [mm].
    lines : tuple of Line
        Crease, skive and mark lines [mm].
    side : str
        The face that is drawn: ``flesh``, ``outside``.
    grain : float
        Direction of least stretch from the part's x [deg].
    strip : bool
        A straight strip, which can be cut from its width and length alone.
    holes : tuple of Outline
        What is cut inside the outline [mm].
    back : tuple of Line
        Lines on the other face, drawn as seen from that face [mm].
    note : str
        What to know when cutting or laying it.
    shares : tuple of str, str and int
        Each side or corner, what tells the pieces there from their mirror images if anything, and how many of `count` they are;
        empty where that is not known.
    """

    id: str
    kind: str
    name: str
    material: str
    count: int
    spare: int
    sides: tuple[str, ...]
    corners: tuple[str, ...]
    outline: Outline
    lines: tuple[Line, ...] = ()
    side: str = "flesh"
    grain: float = 0.0
    strip: bool = False
    holes: tuple[Outline, ...] = ()
    back: tuple[Line, ...] = ()
    note: str = ""
    shares: tuple[tuple[str, str, int], ...] = ()

    @cached_property
    def points(self) -> tuple[Point, ...]:
        """The outline with arcs cut into chords, to 0.00001 mm [mm]."""
        return tuple((round(x, 5) + 0.0, round(y, 5) + 0.0) for x, y in self.outline.flattened())

    @property
    def area(self) -> float:
        """Area of one piece, by `points` [mm^2]."""
        return signed_area(self.points)

    @property
    def along(self) -> str:
        """Which of its measures runs along the backbone or the grain, in words: `Part.grain`, for whoever lays it by hand."""
        level = abs(math.cos(math.radians(self.grain))) > math.sqrt(0.5)
        # A strip is as long as it is along x; all else is as wide.
        return say(words.LENGTH if level is self.strip else words.WIDTH)

    @property
    def pieces(self) -> int:
        """How many to cut, spares and all [-]."""
        return self.count + self.spare

    @property
    def counted(self) -> str:
        """How many are needed, and how many spare, as it is written everywhere: ``30 + 3``."""
        return counted(self.count, self.spare)

    @property
    def cut_length(self) -> float:
        """Length of the cut round one piece, holes and all [mm]."""
        return perimeter(self.points) + sum(perimeter(hole.flattened()) for hole in self.holes)

    def mirrored(self) -> Part:
        """The part as seen from its other face."""
        return replace(
            self,
            outline=self.outline.mirrored(),
            holes=tuple(hole.mirrored() for hole in self.holes),
            lines=tuple(Line(line.role, tuple((-x, y) for x, y in line.points), line.closed) for line in self.lines),
            side={"flesh": "grain", "grain": "flesh", "outside": "inside", "inside": "outside"}[self.side],
        )


def counted(count: int, spare: int) -> str:
    """A count with its spares: ``30 + 3``, or the count alone where there are none."""
    return say(words.COUNTED, count=count, spare=spare) if spare else str(count)


@dataclass(frozen=True)
class Want:
    """A shape wanted at one place of the bellows, before like is put to like.

    Parameters
    ----------
    outline : Outline
        In the part's own axes [mm].
    lines : tuple of Line
        Its other lines [mm].
    count : int
        How many there [-].
    where : str
        Letter of a side or name of a corner.
    back : tuple of Line
        Lines of the other face [mm].
    holes : tuple of Outline
        Cut inside the outline [mm].
    hand : str
        Which of two hands it is, empty where there is one.
    """

    outline: Outline
    lines: tuple[Line, ...]
    count: int
    where: str
    back: tuple[Line, ...] = ()
    holes: tuple[Outline, ...] = ()
    hand: str = ""


HAND_NAMES = {
    ("right",): words.VALLEY_RIGHT,
    ("left",): words.VALLEY_LEFT,
    ("right", "left"): words.VALLEY_RIGHT_THEN_LEFT,
    ("left", "right"): words.VALLEY_LEFT_THEN_RIGHT,
}
"""What is said of the hand of a shape, by the hands in order of appearance."""


def gathered(model: Part, wants: Iterable[Want], at: str, *, turned_over: bool = False) -> tuple[Part, ...]:
    """Put like to like: one part for each distinct shape, with counts and places.

    Parameters
    ----------
    model : Part
        Everything that the wanted shapes have in common; its id and name are extended where shapes differ.
    wants : iterable of Want
        The shapes in order round the section.
    at : str
        ``sides`` or ``corners``: what `Want.where` names.
    turned_over : bool
        Whether a mirror image is the same part, as it is for board.

    Returns
    -------
    tuple of Part
        In order of first appearance.
    """
    groups: list[list[Want]] = []
    for want in wants:
        for group in groups:
            if _alike(group[0].outline, want.outline, turned_over):
                group.append(want)
                break
        else:
            groups.append([want])
    made = []
    for group in groups:
        first = group[0]
        places = tuple(dict.fromkeys(want.where for want in group))
        hands = _hands(group)
        alone = len(groups) == 1
        made.append(
            replace(
                model,
                id=model.id if alone else f"{model.id}-{first.where}" + (f"-{first.hand}" if hands else ""),
                name=model.name if alone else _with_hand(placed(model.name, at, places), hands),
                count=sum(want.count for want in group),
                sides=places if at == "sides" else (),
                corners=places if at == "corners" else (),
                outline=first.outline,
                lines=first.lines,
                back=first.back,
                holes=first.holes,
                shares=tuple((place, _hands(at_place), sum(want.count for want in at_place)) for place, at_place in _by_place(group)),
            )
        )
    return tuple(made)


def _by_place(group: Sequence[Want]) -> list[tuple[str, list[Want]]]:
    return [(place, [want for want in group if want.where == place]) for place in dict.fromkeys(want.where for want in group)]


def _hands(group: Sequence[Want]) -> str:
    """What to say of the hand of a shape, nothing where it serves either hand wherever it is wanted.

    One side's right-hand shape may be another's left-hand one: of two sides that mirror each other it is.
    """
    found: dict[str, list[str]] = {}
    for want in group:
        found.setdefault(want.where, []).append(want.hand)
    handed = {where: hands[0] for where, hands in found.items() if len(hands) == 1 and hands[0]}
    each = tuple(dict.fromkeys(handed.values()))
    if not each:
        return ""
    return say(HAND_NAMES[each], **{hand: listed([where for where in handed if handed[where] == hand]) for hand in each})


def _with_hand(name: str, hands: str) -> str:
    return say(words.WITH_HAND, name=name, hand=hands) if hands else name


def placed(name: str, at: str, places: Sequence[str]) -> str:
    """Name of a part that belongs to some places only.

    Parameters
    ----------
    name : str
        What the part is called.
    at : str
        ``sides`` or ``corners``.
    places : sequence of str
        Letters of sides or names of corners.

    Returns
    -------
    str
        Such as ``Card, sides A and D``.
    """
    one, many = {"sides": (words.AT_SIDE, words.AT_SIDES), "corners": (words.AT_CORNER, words.AT_CORNERS)}[at]
    if len(places) == 1:
        return say(one, name=name, place=places[0])
    return say(many, name=name, places=listed(places))


def _alike(first: Outline, second: Outline, turned_over: bool) -> bool:
    points = first.flattened()
    return _agree(points, second.flattened()) or (turned_over and _agree(points, second.mirrored().flattened()))


def _agree(first: Sequence[Point], second: Sequence[Point]) -> bool:
    """Whether two outlines agree from some starting point on; a mirror image starts elsewhere."""
    if len(first) != len(second):
        return False
    start = min(range(len(second)), key=lambda i: math.dist(second[i], first[0]))
    return same_shape(first, (*second[start:], *second[:start]))


def centred(outline: Outline) -> Outline:
    """The outline with the middle of its box on x = 0 [mm]."""
    left, _, right, _ = outline.bounds()
    return outline.moved(-(left + right) / 2, 0)


def listed(names: Sequence[str]) -> str:
    """Names as a person says them: ``A, B and C``."""
    return names[0] if len(names) == 1 else say(words.LISTED, most=", ".join(names[:-1]), last=names[-1])


def mark(*points: Point) -> Line:
    """A line to draw, neither cut nor folded [mm]."""
    return Line(Role.MARK, points)


def crease(*points: Point) -> Line:
    """A line to fold or score [mm]."""
    return Line(Role.CREASE, points)


def skive(*points: Point) -> Line:
    """A line up to which leather is pared [mm]."""
    return Line(Role.SKIVE, points)


def blank(
    bellows: Bellows, kind: str, name: str, material: str, outline: Outline, *, side: str = "flesh", strip: bool = False, note: str = ""
) -> Part:
    """A part with everything but its shape and places, to hand to `gathered`."""
    form = bellows.material(material).form
    return Part(kind, kind, name, material, 0, 0, (), (), outline, side=side if form == "skin" else "outside", strip=strip, note=note)

"""The form on paper: how it looks along the bellows, what to cut, how it goes together and how it comes out."""

from __future__ import annotations

from collections.abc import Sequence

from bellowscut.bellows import Bellows
from bellowscut.drawing import Item, Label, Page, Pen, Stroke, Tint
from bellowscut.form.model import Form
from bellowscut.form.words import apart, facts, together
from bellowscut.lettering import CAPITAL, text_width, wrapped
from bellowscut.pages.form_view import form_picture
from bellowscut.pages.papers import MARGIN
from bellowscut.pages.setter import Setter
from bellowscut.pages.stock_head import head
from bellowscut.section import side_name
from bellowscut.shapes import Point, bounds, centroid, side_of
from bellowscut.words import form as words, say

TEXT = 3.0
"""Size of the running text [mm]."""

LINE = 1.35
"""Base line to base line [-] of the em."""

PICTURE = 92.0
"""Greatest height of the picture along the bellows [mm]."""

SPACE, SPACE_SHARE = 96.0, 0.56
"""Greatest height of the picture in space [mm], and as a share of its width [-]."""

COMB_TALL = 24.0
"""Greatest height of the picture of a comb [mm]."""


def form_pages(bellows: Bellows, form: Form, *, paper: tuple[float, float], margin: float = MARGIN) -> tuple[Page, ...]:
    """The pages that lie on top of a form's pattern sheets.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    form : Form
        Its form.
    paper : tuple of float
        Width and height [mm].
    margin : float
        Edge of the paper that stays white [mm].
    """
    setter = _Setter(bellows, paper, margin)
    setter.sentences("", [facts(form)])
    setter.drawn_apart(form)
    setter.along(form)
    setter.comb(form)
    setter.table(form)
    setter.sentences(say(words.TOGETHER_HEADING), together(form), [str(number) for number in range(1, len(words.TOGETHER) + 1)])
    setter.sentences(say(words.APART_HEADING), [text for _, text in apart(form)], [step for step, _ in apart(form)])
    clearance = f"{bellows.profile.form.clearance:g}"
    setter.sentences("", [say(words.PROVED, clearance=clearance)])
    setter.sentences(say(words.CAUTION_HEADING), [say(text) for text in words.CAUTIONS])
    titles = (say(words.TITLE), *(say(words.PAGE_TITLE, number=number) for number in range(2, len(setter.done) + 1)))
    return tuple(Page(*paper, title, tuple(items)) for title, items in zip(titles, setter.done, strict=True))


class _Setter(Setter):
    """The pages of a form, block by block."""

    def __init__(self, bellows: Bellows, paper: tuple[float, float], margin: float) -> None:
        self.bellows = bellows
        super().__init__(paper, margin)

    def turn(self) -> None:
        """Begin a page with its head."""
        profile = self.bellows.profile
        first = not self.done
        right = say(words.TITLE)
        items, self.y = head(
            self.paper,
            profile.name,
            largest=7.0 if first else 4.4,
            sub=say(words.SUB),
            right=right if first else "",
            mark=say(words.FINGERPRINT, fingerprint=profile.fingerprint),
        )
        self.done.append(items)
        self.y -= 3.0

    def sentences(self, title: str, texts: Sequence[str], numbers: Sequence[str] = ()) -> None:
        """Paragraphs under a heading, with their numbers where they are steps."""
        wide = max((text_width(number, TEXT, bold=True) for number in numbers), default=0.0)
        inset = wide + 3.0 if numbers else 0.0
        lines = [wrapped(text, TEXT, self.width - inset) for text in texts]
        self.need(12.0 + len(lines[0]) * TEXT * LINE)
        if title:
            self.heading(title)
        self.y -= 1.0
        for number, block in zip(numbers or [""] * len(lines), lines, strict=True):
            self.need(len(block) * TEXT * LINE + 1.0)
            if number:
                self.items.append(Label(number, (self.left + wide, self.y - TEXT * CAPITAL), TEXT, anchor="end", bold=True))
            for line in block:
                self.items.append(Label(line, (self.left + inset, self.y - TEXT * CAPITAL), TEXT))
                self.y -= TEXT * LINE
            self.y -= 0.7

    def drawn_apart(self, form: Form) -> None:
        """All pieces in space."""
        self.heading(say(words.DRAWN_APART))
        self.y -= 2.0
        tall = min(SPACE, SPACE_SHARE * self.width)
        self.items.extend(form_picture(form, (self.left, self.y - tall, self.right, self.y)))
        self.y -= tall

    def along(self, form: Form) -> None:
        """The section: ridges, valleys, segments with the number in which they leave, the core."""
        left, low, right, high = bounds(form.sizes.ridges)
        letters = 7.0
        scale = min((self.width - 2 * letters) / (right - left), (PICTURE - 2 * letters) / (high - low))
        self.need((high - low) * scale + 2 * letters + 12.0)
        self.heading(say(words.SEEN_ALONG))
        mid = (self.left + self.right) / 2 - (left + right) / 2 * scale
        base = self.y - letters - high * scale

        def at(point: Point) -> Point:
            return mid + point[0] * scale, base + point[1] * scale

        def shape(points: Sequence[Point], pen: Pen, fill: Tint = Tint.NONE) -> Stroke:
            return Stroke(tuple(at(point) for point in points), pen, closed=True, fill=fill)

        items: list[Item] = [
            shape(form.sizes.ridges, Pen.THIN, Tint.WHITE),
            shape(form.sizes.rooms[1], Pen.DASHED),
            shape(form.core, Pen.SOLID, Tint.FRAME),
        ]
        order = [step.piece for step in form.steps]
        middle = centroid(form.core)
        for segment in form.segments:
            side = side_of(form.sizes.ridges, segment.side)
            name = side_name(segment.side)
            tint = Tint.LEATHER if name == form.key else Tint.CARD
            items += [shape(box, Pen.THIN, tint) for box in segment.rectangles(side)]
            x, y = at(side.at(side.length / 2, -4.2 / scale))
            items.append(Label(name, (x, y - TEXT * CAPITAL / 2), TEXT + 0.4, anchor="middle", bold=True))
            x, y = at(side.at(side.length / 2, segment.depth + 4.0 / scale))
            number = str(order.index(name) + 1)
            items.append(Label(number, (x, y - TEXT * CAPITAL / 2), TEXT, anchor="middle", bold=name == form.key))
        x, y = at(middle)
        items.append(Label(say(words.CORE_LABEL), (x, y - TEXT * CAPITAL / 2), TEXT, anchor="middle"))
        self.items.extend(items)
        self.y = base + low * scale - letters
        self.sentences("", [say(words.SEEN_ALONG_NOTE)])

    def comb(self, form: Form) -> None:
        """A comb, reduced."""
        part = next(one for one in form.parts if one.kind == "form-comb")
        points = part.points
        left, low, right, high = bounds(points)
        scale = min(self.width / (right - left), COMB_TALL / (high - low))
        self.need((high - low) * scale + 12.0)
        self.heading(say(words.COMB_PICTURE))
        top = self.y - 1.0
        x0 = (self.left + self.right) / 2 - (left + right) / 2 * scale
        self.items.append(
            Stroke(tuple((x0 + x * scale, top + (y - high) * scale) for x, y in points), Pen.SOLID, closed=True, fill=Tint.CARD)
        )
        self.y = top - (high - low) * scale

    def table(self, form: Form) -> None:
        """What to cut."""
        rows = []
        for part in form.parts:
            left, low, right, high = bounds(part.points)
            rows.append((part.name, str(part.count), f"{right - left:.1f} \u00d7 {high - low:.1f}", part.note))
        self.need(14.0 + 3 * TEXT * LINE)
        self.heading(say(words.PIECES_HEADING, ply=form.parts[0].material))
        columns = (self.left, self.left + self.width * 0.40, self.left + self.width * 0.58, self.left + self.width * 0.61)
        self.y -= 1.0
        head_row = (words.PIECE_COLUMN, words.COUNT_COLUMN, words.SIZE_COLUMN, words.NOTE_COLUMN)
        y = self.y - TEXT * CAPITAL
        anchors = ("start", "end", "end", "start")
        for text, x, anchor in zip(head_row, columns, anchors, strict=True):
            self.items.append(Label(say(text), (x, y), TEXT - 0.4, anchor=anchor))
        self.y -= TEXT * LINE
        for name, number, size, note in rows:
            names = wrapped(name, TEXT, columns[1] - self.left - 12.0)
            notes = wrapped(note, TEXT, self.right - columns[3])
            tall = max(len(names), len(notes)) * TEXT * LINE + 1.2
            self.need(tall)
            self.items.append(Stroke(((self.left, self.y), (self.right, self.y)), Pen.THIN))
            y = self.y - 0.8 - TEXT * CAPITAL
            self.items.extend(Label(line, (self.left, y - k * TEXT * LINE), TEXT) for k, line in enumerate(names))
            self.items.append(Label(number, (columns[1], y), TEXT, anchor="end", bold=True))
            self.items.append(Label(size, (columns[2], y), TEXT, anchor="end"))
            self.items.extend(Label(line, (columns[3], y - k * TEXT * LINE), TEXT) for k, line in enumerate(notes))
            self.y -= tall

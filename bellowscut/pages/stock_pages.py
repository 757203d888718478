"""Pictures of the layout: what is bought and cut, then every skin, sheet and length of roll with its pieces.

The pictures are held beside the skin. Each is drawn to a stated scale, as
it was laid or turned by a quarter, whichever shows it larger, with rulers on
which the place of every piece is read in millimetres of the stock.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bellowscut.drawing import Item, Page
from bellowscut.lettering import CAPITAL, paragraph
from bellowscut.materials import ROLL, SHEET, SKIN
from bellowscut.pages.papers import MARGIN
from bellowscut.pages.setter import SIDE
from bellowscut.pages.stock_figure import Figure, figure
from bellowscut.pages.stock_frames import Placed, placed, windows
from bellowscut.pages.stock_head import LINE, TEXT, edged, head, numbered
from bellowscut.pages.stock_legend import COLUMN, GUTTER, Legend, legend
from bellowscut.pages.stock_letters import too_small
from bellowscut.pages.stock_rows import Row, Sorts, rows_of, sorts_of
from bellowscut.pages.stock_scale import FOOT, SCALES, STRIP, Frame, direction, scale_bar
from bellowscut.pages.stock_summary import summary_pages
from bellowscut.shapes import Point, signed_area, turn_by
from bellowscut.stock.model import Laid, Layout, Need, StockPiece
from bellowscut.stock.words import full, left_words, percent, stock_name
from bellowscut.units import MM2_PER_SQ_FT, plain_number
from bellowscut.words import count, say, stock_pages as texts

FACES = {"flesh": texts.FLESH_UP, "outside": texts.OUTSIDE_UP}

MEASURED = {
    SKIN: texts.EDGES_OF_SKIN,
    SHEET: texts.EDGES_OF_SHEET,
    ROLL: texts.EDGES_OF_ROLL,
}

DIRECTIONS = {SKIN: texts.BACKBONE, ROLL: texts.ALONG_THE_ROLL, SHEET: texts.GRAIN}
"""What the arrow under the picture shows, by form."""

DOT = " \u00b7 "

GAP = 4.0
"""Between two blocks [mm]."""

STRIP_LEAST = 116.0
"""Least width of the strip with bar, scale and arrow [mm]."""

LOW = MARGIN + 2.0
"""Lower edge of what is set [mm]."""


def stock_pages(
    layout: Layout,
    needs: Sequence[Need],
    *,
    paper: tuple[float, float],
    currency: str,
    digits: int,
    cautions: Sequence[str],
    machine: Sequence[str] = (),
) -> tuple[Page, ...]:
    """Everything that ``layout.pdf`` shows.

    Parameters
    ----------
    layout : Layout
        The stock with its pieces.
    needs : sequence of Need
        What each material comes to.
    paper : tuple of float
        Width and height [mm], 148 x 210 or more.
    currency : str
        ISO 4217 letters.
    digits : int
        Decimals of the currency [-].
    cautions : sequence of str
        What to beware of.
    machine : sequence of str
        Sentences on bed, speed and time of the cutter.

    Returns
    -------
    tuple of Page
        The summary first, then the stock in its order.
    """
    pages = list(summary_pages(layout, needs, paper=paper, currency=currency, digits=digits, cautions=cautions, machine=machine))
    sorts = sorts_of(layout)
    for number, stock in enumerate(layout.stock, 1):
        place = say(texts.PLACE_OF, number=number, count=len(layout.stock))
        pages += _Sheet(layout, sorts, stock, place, paper).pages()
    return numbered(pages)


@dataclass(frozen=True)
class _Setting:
    """One way to set a page: how the stock lies on it, where picture and legend stand."""

    turned: bool
    stock: StockPiece
    rows: tuple[Row, ...]
    placed: Placed
    legend: Legend
    legend_at: Point | None
    cost: float


class _Sheet:
    """Sets the pages of one piece of stock."""

    def __init__(self, layout: Layout, sorts: Sorts, stock: StockPiece, place: str, paper: tuple[float, float]) -> None:
        self.layout, self.sorts, self.stock, self.place, self.paper = layout, sorts, stock, place, paper
        self.several = len(layout.names) > 1
        self.title = f"{stock.id}: {stock.label}"
        self.width = paper[0] - 2 * SIDE

    def pages(self) -> tuple[Page, ...]:
        """The picture first, then what of it needs more room."""
        setting = self._best()
        made: list[Page] = []
        bare: list[Laid] = []
        for k, frames in enumerate(setting.placed.pages):
            of = {"number": k + 1, "count": len(setting.placed.pages)}
            several = len(setting.placed.pages) > 1
            drawn = [figure(setting.stock, setting.rows, frame, instruments=self.several) for frame in frames]
            small = [laid for one in drawn for laid in one.bare]
            bare += small
            said = [*([say(texts.PART_OF, **of)] if several else []), *([say(texts.SMALL_PIECES)] if small else [])]
            items, _ = self._top(said, turned=setting.turned)
            items += [item for one in drawn for item in one.items]
            items += self._strip(setting.stock, frames)
            if k == 0 and setting.legend_at is not None:
                items += setting.legend.drawn(setting.legend.split(setting.legend_at[1] - LOW), setting.legend_at)[0]
            made.append(Page(*self.paper, say(texts.PAGE_PART, title=self.title, **of) if several else self.title, tuple(items)))
        if bare:
            made += self._enlarged(setting, bare)
        if setting.legend_at is None:
            made += self._legend_pages(setting)
        return tuple(made)

    def _best(self) -> _Setting:
        """The setting that shows the stock largest, upright rather than turned where that is as good."""
        found: list[_Setting] = []
        for turned in (False, True):
            lying = quarter_turned(self.stock) if turned else self.stock
            rows = rows_of(lying, self.sorts)
            # A picture on which some pieces have no number says one sentence more above it, which may take a line.
            for said in ((), (say(texts.SMALL_PIECES),)):
                _, y = self._top(said, turned=turned)
                found += self._ways(lying, rows, y - GAP, turned=turned, small=bool(said))
        return min(found, key=lambda setting: setting.cost)

    def _ways(self, lying: StockPiece, rows: tuple[Row, ...], top: float, *, turned: bool, small: bool) -> list[_Setting]:
        """Settings under the facts of a page: those with pieces too small for their number, or those without."""
        under = legend(lying, rows, self.layout.names, self.width)
        beside = legend(lying, rows, self.layout.names, COLUMN)
        room = top - LOW
        ways: list[tuple[Legend, tuple[float, float], str]] = [(under, (self.width, room - under.height() - GAP), "under")]
        if beside.height() <= room and self.width > COLUMN + GUTTER + 40.0:
            ways.append((beside, (self.width - COLUMN - GUTTER, room), "beside"))
        ways.append((under, (self.width, room), "after"))
        found = []
        for words, size, where in ways:
            put = placed(lying, SIDE, top, *size, bands=not turned)
            if put is None or any(too_small(row, put.scale, instruments=self.several) for row in rows) != small:
                continue
            at = {"under": (SIDE, put.low(0) - STRIP - GAP), "beside": (SIDE + size[0] + GUTTER, top), "after": None}[where]
            # A further page must be worth a good deal of scale; pieces without their number cost at least one.
            pages = len(put.pages) + (2 if where == "after" else 0) + (2 if small else 0)
            found.append(_Setting(turned, lying, rows, put, words, at, put.scale * (1.0 + 0.25 * (pages - 1))))
        return found

    def _top(self, more: Sequence[str], *, turned: bool) -> tuple[list[Item], float]:
        """Head and facts of a page, with what more there is to say; with the lower edge."""
        stock = self.stock
        right = say(texts.STOCK_AND_LABEL, id=stock.id, label=self.place)
        items, y = head(self.paper, stock_name(stock), largest=5.2, sub=DOT.join(self.layout.names), right=right)
        if stock.typical:
            some, y = edged([typical_words(stock)], (SIDE, y - 2.5), self.width, bold=True)
            items += some
        y -= 2.6 + TEXT * CAPITAL
        many = len(stock.laid)
        facts = count(many, texts.ONE_PIECE, texts.MANY_PIECES, percent=percent(full([stock])), left=left_words(stock))
        measured = [say(MEASURED[stock.material.form]), *([say(texts.TURNED, id=stock.id)] if turned else [])]
        for text, bold in ((" ".join((say(FACES[stock.face]), *more)), True), (facts, False), (" ".join(measured), False)):
            labels, y = paragraph(text, (SIDE, y), TEXT, self.width, bold=bold, leading=LINE)
            items += labels
        return items, y + TEXT * (LINE - 0.24)

    def _strip(self, stock: StockPiece, frames: Sequence[Frame]) -> list[Item]:
        """The scale, its bar, and the arrow, under the lowest picture."""
        left = max(SIDE, min(*(frame.box[0] for frame in frames), SIDE + self.width - STRIP_LEAST))
        right = max(*(frame.box[2] for frame in frames), left + STRIP_LEAST)
        middle = min(frame.box[1] for frame in frames) - FOOT - STRIP / 2
        items, _ = scale_bar((left, middle - 1.5), 42.0, frames[0].scale)
        return [*items, *direction(right, middle, stock.backbone, say(DIRECTIONS[stock.material.form]))]

    def _enlarged(self, setting: _Setting, small: Sequence[Laid]) -> list[Page]:
        """Pieces too small for their number, drawn again: the part of the stock that holds them, on a larger scale."""
        _, y = self._top((), turned=setting.turned)
        room = (self.width, y - GAP - LOW)
        frames: tuple[Frame, ...] = ()
        drawn: list[Figure] = []
        enough = False
        for scale in (each for each in reversed(SCALES) if each < setting.placed.scale):
            more = windows(setting.stock, small, scale, (SIDE, y - GAP), room)
            # Once all numbers have room it grows only as long as it takes no further page.
            if enough and len(more) > len(frames):
                break
            frames, drawn = more, [figure(setting.stock, setting.rows, frame, instruments=self.several) for frame in more]
            enough = not {id(laid) for one in drawn for laid in one.bare} & {id(laid) for laid in small}
        made = []
        for k, (frame, one) in enumerate(zip(frames, drawn, strict=True), 1):
            said = say(texts.ENLARGED_OF, number=k, count=len(frames)) if len(frames) > 1 else say(texts.ENLARGED)
            items, _ = self._top((said,), turned=setting.turned)
            title = say(texts.PAGE_ENLARGED, title=self.title, number=k)
            made.append(Page(*self.paper, title, (*items, *one.items, *self._strip(setting.stock, [frame]))))
        return made

    def _legend_pages(self, setting: _Setting) -> list[Page]:
        """The legend on pages of its own."""
        made: list[Page] = []
        words = setting.legend
        while words.entries:
            items, y = self._top((), turned=setting.turned)
            columns = words.split(y - GAP - LOW)[: words.columns]
            items += words.drawn(columns, (SIDE, y - GAP))[0]
            words = Legend(words.entries[sum(map(len, columns)) :], words.width, words.columns)
            made.append(Page(*self.paper, say(texts.PAGE_LEGEND, title=self.title), tuple(items)))
        return made


def quarter_turned(stock: StockPiece) -> StockPiece:
    """The piece of stock with all that lies on it, turned to the left by a quarter."""
    turn = turn_by(90.0)

    def turned(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple(map(turn, points))

    def put(laid: Laid) -> Laid:
        x, y = turn((laid.x, laid.y))
        return replace(laid, turn=(laid.turn + 90.0) % 360.0, x=x, y=y)

    return replace(
        stock,
        outline=turned(stock.outline),
        flaws=tuple(map(turned, stock.flaws)),
        bars={kind: tuple(map(turned, polygons)) for kind, polygons in stock.bars.items()},
        backbone=stock.backbone + 90.0,
        laid=tuple(map(put, stock.laid)),
        left=replace(stock.left, clear=turned(stock.left.clear)),
    )


def typical_words(stock: StockPiece) -> str:
    """Says that the outline is none that was measured."""
    area = plain_number(abs(signed_area(stock.outline)) / MM2_PER_SQ_FT, 2)
    return say(texts.USUAL_SKIN, feet=area)

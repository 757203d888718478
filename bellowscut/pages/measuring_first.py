"""The first blocks of the measuring sheet: who and when, what to be careful of, and the ends."""

from __future__ import annotations

from collections.abc import Iterator

from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.measuring_blocks import Blank, Sheet, columns_under, heading, key_choices, key_help
from bellowscut.pages.measuring_end import end_figure, look_figure, surfaces_figure
from bellowscut.pages.measuring_form import GUTTER, HINT, QUESTION, SPACE, Block
from bellowscut.pages.measuring_marks import BOX, tick_box
from bellowscut.pages.measuring_tables import ends_table
from bellowscut.schema import MEASURED, MEASURES, RECTANGLE, REGULAR
from bellowscut.sources import FLATS_ALIKE
from bellowscut.units import plain_number
from bellowscut.words import measuring as words, say

END_HIGH = 47.0
"""Height of the figure of an end [mm]."""


def head(sheet: Sheet, blank: Blank) -> Iterator[Block]:
    """The job, name, customer and date; what to do first; what to be careful of."""
    block = blank()
    block.y -= 2.0
    block.ticked(sheet.number(), say(words.JOB), "--job", tuple(words.JOBS), share=0.32)
    block.asked(sheet.number(), say(words.NAME), "name", share=0.32, unit=False)
    middle = block.left + 0.62 * block.width
    halves = Block(block.left, middle, block.pitch), Block(middle, block.right, block.pitch)
    halves[0].asked("", say(words.CUSTOMER), "quote.customer", share=0.32 / 0.62, unit=False)
    said = GUTTER + text_width(say(words.DATE), QUESTION) + SPACE + 0.1
    halves[1].asked("", say(words.DATE), "", share=said / halves[1].width, unit=False)
    block.beside(*halves)
    block.text(say(words.SMALL_LETTERS), over=1.6)
    yield block
    block = blank()
    block.y -= 1.2
    halves = columns_under(block, 0.47) or (blank(), blank())
    first, second = halves
    first.text(say(words.BEFORE), QUESTION, bold=True, over=0.4)
    for step in words.BEFORE_STEPS:
        first.items += tick_box((first.left, first.y - HINT * CAPITAL - 1.6))
        first.text(say(step, heading=say(words.FINER_HEADING)), indent=BOX + 1.6, over=1.5)
    second.left, second.right = second.left + 2.5, second.right - 2.5
    second.text(say(words.DUST_TITLE), QUESTION, bold=True, over=1.6)
    second.text(say(words.DUST), over=0.3)
    second.shade(second.y - 1.0, 0.4, 2.5)
    if first.right < second.left:
        block.beside(first, second)
        block.y -= 1.0
    else:
        block.beside(first)
        block.y -= 1.5
        block.beside(second)
        block.y -= 1.5
    yield block


def surfaces(sheet: Sheet, blank: Blank) -> Iterator[Block]:
    """Shape, and which of three edges was measured."""
    block = blank()
    heading(block, say(words.ENDS_HEADING))
    block.ticked(sheet.number(), say(words.SHAPE), "section.shape", (REGULAR, RECTANGLE, MEASURED), share=0.58, chosen=sheet.section)
    left, right = columns_under(block, 0.5) or (Block(block.left, block.right, block.pitch),) * 2
    left.told(sheet.number(), say(words.MEASURED_ON), "section.measured_on")
    left.text(say(words.WHICH_SURFACE), bold=True)
    for value, text in words.SURFACES.items():
        left.items += tick_box((left.left, left.y - QUESTION * CAPITAL - 1.4))
        left.text(value, QUESTION, bold=True, indent=BOX + 1.6, over=1.4)
        left.text(say(text), indent=BOX + 1.6, over=0.0)
    left.text(say(words.STRIP_LIFTED), over=1.6)
    if right is left:
        left.y -= 2.0
    else:
        right.y -= 1.5
    right.picture(surfaces_figure(), (right.left + right.right) / 2)
    block.beside(*dict.fromkeys((left, right)))
    yield block


def ends(sheet: Sheet, blank: Blank) -> Iterator[Block]:
    """The sizes of both ends beside a figure of one."""
    block = blank()
    block.y -= 1.0
    left, right = columns_under(block, 0.54) or (Block(block.left, block.right, block.pitch),) * 2
    {REGULAR: _regular, RECTANGLE: _rectangle, MEASURED: _measured}[sheet.section](sheet, left)
    if right is left:
        left.y -= 3.0
    middle = (right.left + right.right) / 2
    right.y -= 0.5
    right.picture(end_figure(sheet.section, sheet.sides, END_HIGH), middle)
    right.y -= 4.0
    right.picture(look_figure(), middle)
    right.y -= 1.0
    block.beside(*dict.fromkeys((left, right)))
    yield block
    if sheet.section == MEASURED:
        yield from ends_table(sheet.sides, sheet.room, blank)


def _regular(sheet: Sheet, block: Block) -> None:
    block.asked(sheet.number(), say(words.SIDES), "section.sides", unit=False, printed=str(sheet.sides))
    if sheet.sides % 2:
        block.text(say(words.ODD_SIDES))
        block.asked(sheet.number(), say(words.ONE_SIDE), "section.end_size")
    else:
        block.ticked(sheet.number(), say(words.MEASURE), "section.measure", key_choices("section.measure"))
        block.asked(sheet.number(), say(words.END_SIZE), "section.end_size")
    _other(sheet, block)
    block.asked(sheet.number(), say(words.OTHER_SIZE), "section.other_end")
    block.text(say(words.ALL_SIDES if sheet.sides % 2 else words.ALL_FLATS, mm=plain_number(FLATS_ALIKE.value)))
    block.text(say(words.SAME_LETTERS))


def _rectangle(sheet: Sheet, block: Block) -> None:
    block.asked(sheet.number(), say(words.WIDTH), "section.width")
    block.asked(sheet.number(), say(words.HEIGHT), "section.height")
    _other(sheet, block)
    block.asked(sheet.number(), say(words.OTHER_WIDTH), "section.other_end")
    block.asked(sheet.number(), say(words.OTHER_HEIGHT), "section.other_end")
    block.text(say(words.SQUARE_TRY, mm=plain_number(FLATS_ALIKE.value)))
    block.text(say(words.SAME_LETTERS))


def _measured(sheet: Sheet, block: Block) -> None:
    ways = tuple(name for name in MEASURES if name != "flats" or sheet.sides % 2 == 0)
    block.told(sheet.number(), say(words.MEASURED_BY), "")
    block.boxes(ways)
    block.text(say(words.ONE_WAY), indent=GUTTER)
    forms = {name: say(words.FORM_POINTS if name == "corners" else words.FORM_LIST) for name in ways}
    for name in ways:
        key = f"section.{name}"
        block.told(sheet.number(), say(words.MEASURES, what=key_help(key), form=forms[name]), key)
    _other(sheet, block)
    for form in dict.fromkeys(forms.values()):
        block.told(sheet.number(), say(words.OTHER_MEASURES, form=form), "section.other_end")
    block.text(say(words.SAME_LETTERS))


def _other(sheet: Sheet, block: Block) -> None:
    block.ticked(sheet.number(), say(words.OTHER), "", (say(words.YES), say(words.NO)))

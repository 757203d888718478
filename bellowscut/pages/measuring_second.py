"""The later blocks of the measuring sheet: folds, leather and card, finer sizes, and what is wrong."""

from __future__ import annotations

from collections.abc import Iterator

from bellowscut.drawing import Label
from bellowscut.guess import fits_old_cards
from bellowscut.lettering import CAPITAL, text_width
from bellowscut.pages.measuring_blocks import NARROW, Blank, Sheet, columns_under, heading, key_help
from bellowscut.pages.measuring_fold import count_figure, laps_figure, old_card_figure
from bellowscut.pages.measuring_form import GUTTER, HINT, KEY, QUESTION, Block
from bellowscut.pages.measuring_marks import BOX, tick_box
from bellowscut.pages.measuring_tables import thickness_rows
from bellowscut.words import measuring as words, say

FINER = ("bellows.old_closed_length", "bellows.reed_clearance")
"""Finer keys that are measured at the instrument, in the order in which `new` walks them."""

CONDITION_STEP = 6.2
"""From one row of boxes to the next [mm]."""


def folds(sheet: Sheet, blank: Blank) -> Iterator[Block]:
    """Ridges and cards that must agree, depth, and how far it opens."""
    block = blank()
    heading(block, say(words.FOLDS_HEADING))
    left, right = columns_under(block, 0.54) or (Block(block.left, block.right, block.pitch),) * 2
    left.asked(sheet.number(), say(words.FOLDS), "bellows.folds", unit=False, share=0.66)
    left.asked(sheet.number(), say(words.CARDS), "", unit=False, share=0.66)
    right.y -= 1.0
    right.picture(count_figure(), (right.left + right.right) / 2)
    block.beside(*dict.fromkeys((left, right)))
    _sums(block)
    block.asked(sheet.number(), say(words.FOLD_DEPTH), "bellows.fold_depth", share=0.62)
    block.text(say(words.DEPTH_HINT))
    yield block
    block = blank()
    block.text(say(words.HOW_FAR), over=2.4)
    block.told(sheet.number(), say(words.OPENING), "")
    unit = say(words.UNIT)
    lines = (
        (say(words.OPEN), "", unit),
        (say(words.LESS_CLOSED), "", unit),
        (say(words.IS_TRAVEL), "bellows.travel", unit),
        (say(words.OR_STRETCH), "bellows.stretch", say(words.DEGREES)),
    )
    for some in (lines[:2], lines[2:]) if block.width < NARROW else (lines,):
        block.row(some)
    block.text(say(words.OPEN_HINT))
    yield block


def _sums(block: Block) -> None:
    """The two sums of which one must give the cards."""
    block.text(say(words.AGREE), QUESTION, bold=True, over=1.0)
    columns = columns_under(block, 0.5) or (block, block)
    for column, end in zip(columns, ("ridge", "valley"), strict=True):
        before, after = say(words.SUMS[end]), say(words.ENDS_AT[end])
        level = column.y - block.pitch + 3.2
        column.items.append(Label(before, (column.left, level + 0.8), QUESTION))
        box = column.right - text_width(after, QUESTION) - BOX - 1.2
        column.line(column.left + text_width(before, QUESTION) + 1.6, box - 2.0, level)
        column.items += [*tick_box((box, level + 0.8)), Label(after, (box + BOX + 1.2, level + 0.8), QUESTION)]
        column.y = level - 1.0
    if columns[0] is not block:
        block.beside(*columns)
    block.items.append(Label("bellows.ends", (block.left, block.y - 1.9), KEY))
    block.items.append(Label(say(words.COUNT_AGAIN), (block.right, block.y - 1.9), HINT, anchor="end"))
    block.y -= 3.6


def old_card(sheet: Sheet, blank: Blank) -> Iterator[Block]:
    """What is measured where the cards stay: one of them, and a gusset that fitted it."""
    block = blank()
    jobs = [job for job in words.JOBS if fits_old_cards(job)]
    heading(block, say(words.OLD_CARD_HEADING), say(words.OLD_CARD_JOBS, jobs=", ".join(jobs)))
    left, right = columns_under(block, 0.54) or (Block(block.left, block.right, block.pitch),) * 2
    left.text(say(words.OLD_CARD_HINT))
    *read, (name, question) = words.OLD_CARD.items()
    for key, text in read:
        left.asked(sheet.number(), say(text), key, share=0.52)
    left.told(sheet.number(), say(question), name)
    left.text(say(words.OLD_GUSSET_HINT), indent=GUTTER)
    rest = Block(left.left + GUTTER, left.right, left.pitch)
    rest.row(tuple((say(text), "", say(words.UNIT)) for text in (words.OLD_WIDTH, words.OLD_LENGTH)))
    left.beside(rest)
    right.y -= 1.0
    right.picture(old_card_figure(), (right.left + right.right) / 2)
    block.beside(*dict.fromkeys((left, right)))
    yield block


def leather(sheet: Sheet, blank: Blank) -> Iterator[Block]:
    """Thicknesses in five places, and the laps that most often differ."""
    block = blank()
    heading(block, say(words.LEATHER_HEADING), say(words.THICKNESS_HINT))
    thickness_rows(block, sheet.number)
    yield block
    block = blank()
    left, right = columns_under(block, 0.56) or (Block(block.left, block.right, block.pitch),) * 2
    for name, question in words.LAPS.items():
        left.asked(sheet.number(), say(question), name, share=0.62)
    right.y -= 4.0
    right.picture(laps_figure(), (right.left + right.right) / 2)
    block.beside(*dict.fromkeys((left, right)))
    yield block


def finer(sheet: Sheet, blank: Blank) -> Iterator[Block]:
    """Old closed length, and what the reeds need."""
    block = blank()
    heading(block, say(words.FINER_HEADING))
    block.ticked(sheet.number(), say(words.FINER), "", (say(words.YES), say(words.NO)), chosen=say(words.YES))
    for name in FINER:
        block.asked(sheet.number(), key_help(name), name)
    yield block


def condition(_: Sheet, blank: Blank) -> Iterator[Block]:
    """What is wrong, one row of boxes for each kind of part."""
    block = blank()
    heading(block, say(words.CONDITION_HEADING), say(words.CONDITION_KEY))
    block.y -= 1.6
    columns = columns_under(block, 0.5) or (block,)
    names = list(words.CONDITION)
    shares = (names[: (len(names) + 1) // 2], names[(len(names) + 1) // 2 :]) if len(columns) == 2 else (names,)
    first = max(text_width(say(name), QUESTION, bold=True) for name in names) + 3.0
    for column, mine in zip(columns, shares, strict=True):
        for name in mine:
            level = column.y - QUESTION * CAPITAL - 0.4
            column.items.append(Label(say(name), (column.left, level), QUESTION, bold=True))
            x = column.left + first
            for text in words.CONDITION[name]:
                column.items += [*tick_box((x, level)), Label(say(text), (x + BOX + 1.0, level), HINT)]
                x += BOX + 1.0 + text_width(say(text), HINT) + 2.0
            column.y -= CONDITION_STEP
    if len(columns) == 2:
        block.beside(*columns)
    block.asked("", say(words.OTHER_WORK), "quote.other_work", share=0.3, unit=False)
    yield block

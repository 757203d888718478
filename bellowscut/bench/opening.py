"""Looking over, opening up, measuring, taking off what is old, cleaning: what the first steps of a job say."""

from __future__ import annotations

from collections.abc import Iterator

from bellowscut.bench.work import Told, Work, across_corners, beware, size, sizes, to_test
from bellowscut.labour import COVERS, GUSSETS, STRIPS
from bellowscut.parts.part import listed
from bellowscut.sources import FLAT_ERROR
from bellowscut.words import say, work_sheet as words

THUMBS = {"regusset": words.THUMB, "strips": words.THUMB_STRIPS, "cover": words.THUMB_COVER}
"""Before work on old cards: what the thumb tells."""


def look_over(work: Work) -> Iterator[Told]:
    """Photographs, lengths and air before anything comes off."""
    text = say(words.PHOTOGRAPH_COPIES, copies=work.copies) if work.copies > 1 else say(words.PHOTOGRAPH)
    yield Told(text)
    yield Told(say(words.LENGTHS_BEFORE))
    if work.bellows.profile.quote.keep_original:
        yield Told(say(words.KEEP_ORIGINAL))
    yield to_test(say(words.AIR_BEFORE))
    if work.job in THUMBS:
        yield beware(say(THUMBS[work.job]))


def open_up(work: Work) -> Iterator[Told]:
    """Ends off, marks on."""
    names = work.bellows.section.side_names
    sides = listed(names) if len(names) < 5 else say(words.SPAN, first=", ".join(names[:3]), last=names[-1])
    measured = work.bellows.profile.section.shape == "measured"
    yield Told(say(words.ENDS_OFF))
    yield Told(say(words.MARK_A))
    yield Told(say(words.WHICH_WAY_MEASURED if measured else words.WHICH_WAY, sides=sides))
    if work.copies > 1:
        yield Told(say(words.NUMBER_COPIES, copies=work.copies))


def measure(work: Work) -> Iterator[Told]:
    """The old bellows, against the figures that the new leather is drawn by."""
    if work.job == "rebellows":
        yield from _measure_as_is(work)
        return
    yield _count(work)
    gussets = work.of(*GUSSETS, *COVERS)
    own = work.bellows.profile.gusset.use
    whole = [part for part in gussets if "end" not in part.id and part.kind != "half-gusset"] or list(gussets)
    if len(whole) > 1:
        yield Told(say(words.OLD_GUSSETS_DIFFER))
    elif whole:
        wide, high = own or size(whole[0])
        covers = words.OLD_GUSSET_COVER if work.job == "cover" else words.OLD_GUSSET
        yield Told(say(words.OLD_GUSSET_USED if own else covers, width=work.long(wide), length=work.long(high)))
    yield Told(say(words.PAPER_CORNER))
    if work.job == "regusset":
        yield from _reeds(work)


def _measure_as_is(work: Work) -> Iterator[Told]:
    """The ends while the old bellows is on them: what can be read before anything is lost."""
    more = 2 * work.bellows.material(work.bellows.profile.end_strip.material).thickness
    yield Told(say(words.MEASURE_AS_IS))
    yield Told(say(words.COMPARE_BARE, sizes=sizes(work), more=work.short(more)))
    yield Told(say(words.PAPER_CORNER_NEW))
    yield from _reeds(work)


def measure_frames(work: Work) -> Iterator[Told]:
    """The frames that a new bellows is made to, once they are bare."""
    yield Told(say(words.MEASURE_FRAMES))
    yield Told(say(words.COMPARE, sizes=sizes(work)))
    if work.bellows.section.packing:
        yield Told(say(words.TWO_ENDS))
    yield to_test(say(words.BARE_WOOD, size=work.short(FLAT_ERROR.value)))


def measure_strips(work: Work) -> Iterator[Told]:
    """What strips are cut by."""
    section = work.bellows.section
    yield _count(work)
    yield Told(say(words.MEASURE_STRIPS, ridge=work.long(section.ridge_perimeter), frame=work.long(section.frame_perimeter)))
    yield Told(say(words.MEASURE_COVER, size=work.short(work.bellows.profile.end_strip.frame_cover)))


def lift_strips(work: Work) -> Iterator[Told]:
    """Papers back, end strips, edge strips."""
    yield _papers(work)
    yield Told(say(words.LIFT_ENDS_FIRST, ends=work.count(STRIPS[1]), edges=work.count(STRIPS[0])))
    yield Told(say(words.KEEP_STRIPS))
    if work.job == "strips":
        patches = work.count("corner-patch") or work.bellows.section.count * work.copies
        yield beware(say(words.TIPS_LIFT, number=patches))


def strip_gussets(work: Work) -> Iterator[Told]:
    """The old gussets off."""
    yield Told(say(words.STRIP_GUSSETS, number=work.count(*GUSSETS)))
    yield Told(say(words.STRIP_ONE_WHOLE))
    yield Told(say(words.STRIP_HOLD))


def cut_off_bellows(work: Work) -> Iterator[Told]:
    """The whole old bellows off."""
    yield Told(say(words.CUT_OFF))
    keep = work.bellows.profile.quote.keep_original
    yield Told(say(words.GIVE_OLD_BELLOWS if keep else words.KEEP_OLD_BELLOWS))
    yield Told(say(words.CLEAN_FRAMES))


def frames(work: Work) -> Iterator[Told]:
    """Frames sound, packed and square."""
    bellows = work.bellows
    yield Told(say(words.MEND_FRAMES))
    packing = bellows.section.packing
    if "ends-differ" in work.codes:
        yield Told(say(words.PACK_AS_BELOW))
    elif packing:
        told = []
        for end in words.ENDS:
            mine = [say(words.PACK_SIDE, side=one.side, size=work.short(one.mm)) for one in packing if one.end == end]
            if mine:
                told.append(say(words.PACK_AT, end=say(words.ENDS[end]), sides=listed(mine)))
        yield Told(say(words.PACK, what=listed(told)))
    if work.gasket is not None:
        yield Told(say(words.GASKETS_CUT, width=work.short(work.gasket.width), length=work.long(work.gasket_length)))
    odd = bellows.section.count % 2
    yield to_test(say(words.SQUARE_ODD if odd else words.SQUARE_CORNERS, sizes=across_corners(work)))


def clean(work: Work) -> Iterator[Told]:
    """Old glue off, and whether new glue holds."""
    yield Told(say(words.CLEAN_STRIPS if work.job == "strips" else words.CLEAN))
    yield Told(say(words.CLEAN_DRY))
    yield to_test(say(words.PULL))


def clean_gussets(work: Work) -> Iterator[Told]:
    """Old gussets that stay under covers."""
    yield Told(say(words.CLEAN_GUSSETS, number=work.count(*COVERS)))
    yield beware(say(words.CLEAN_GUSSETS_ROTTEN))
    yield to_test(say(words.PULL_LEATHER))


def clean_corners(work: Work) -> Iterator[Told]:
    """Corners that are patched."""
    patch = work.bellows.profile.corner_patch
    reach = max((size(part)[0] / 2 for part in work.of("corner-patch")), default=0.0 if patch is None else patch.length)
    yield Told(say(words.CLEAN_CORNERS, size=work.short(reach)))
    yield to_test(say(words.PULL_LEATHER))


def hinges(work: Work) -> Iterator[Told]:
    """Hinges and cards that came loose."""
    yield Told(say(words.HINGES))
    yield Told(say(words.HINGES_ENDS))
    yield Told(say(words.HINGES_GAP, valley=work.short(work.bellows.valley_gap), ridge=work.short(work.bellows.ridge_gap)))


def find_leaks(work: Work) -> Iterator[Told]:
    """Leaking corners, by lamp."""
    yield Told(say(words.FIND_OPEN))
    yield to_test(say(words.FIND_LIGHT))
    yield Told(say(words.FIND_COUNT, patches=work.count("corner-patch")))


def _count(work: Work) -> Told:
    bellows = work.bellows
    told = say(
        words.COMPARE_BELLOWS,
        sides=bellows.section.count,
        cards=bellows.cards_per_side,
        depth=work.long(bellows.depth),
        sizes=sizes(work),
    )
    return Told(told)


def _reeds(work: Work) -> Iterator[Told]:
    """The opening that folds leave; left out where the warning says it."""
    need = work.bellows.profile.bellows.reed_clearance
    opening = work.long(work.bellows.inside_opening)
    if "reed-clearance" in work.codes:
        return
    if need is None:
        yield beware(say(words.REEDS, size=opening))
    else:
        yield beware(say(words.REEDS_GIVEN, size=opening, need=work.long(need)))


def _papers(work: Work) -> Told:
    facing = work.bellows.profile.facing
    if facing is None:
        return Told(say(words.NO_PAPERS))
    return Told(say(words.PAPERS_UNDER if facing.order == "first" else words.PAPERS_BACK))

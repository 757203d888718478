"""Warnings that apply to one bellows, advice that always holds, and the usual cautions."""

RULE_ON_BARS = "Lay the rule on the bars: 100 mm both ways. If not, nothing on this sheet is right."
CUT_ONE_FIRST = "Cut one first. Fold it into an open corner. If it is tight before the frames are {mm} apart, or puckers, stop."
FLESH_SIDE = "This is the flesh side. From the grain side it is mirrored."
GRAIN_SIDE = "This is the grain side. From the flesh side it is mirrored."
SUCK_THE_LEATHER = "Suck the leather in three places. If air comes through, this skin leaks without a hole."
PULL_BOTH_WAYS = "Pull it both ways: a strip's long way must be the way that does not stretch."
GAUGE_AFTER_PARING = "Gauge the leather after paring, in five places. {tenth} more is {mm} closed."
GLUE_A_SCRAP = "Glue a scrap to the cleaned card, dry, pull: card fibres must come with it."
PRESS_EACH_CARD = "Press each card with a thumb: soft or split cards make new gussets a waste."
LIFTED_TIPS = "Lifting edge strips can lift gusset tips: cut a few corner patches now."
MEASURE_THE_REEDS = "Inside opening closed {mm}: measure the reeds and blocks before you cut."
ONE_SKIN = "Take all pieces of one material for one bellows from one skin."
CUT_STRIPS_LONG = "Cut strips {mm} too long and trim."

BLADES = "Knives and skiving blades cut toward the hand that holds the work: cut away from it, on a mat, with a sharp blade."
GLUE_AND_SOLVENTS = "Hot glue burns and solvents give off fumes: open a window, keep them from flames, read the maker's sheet."
DUST_AND_PIGMENTS = (
    "An old bellows holds dust and mould, and its pigments, green and white papers above all, may hold arsenic or lead: "
    "damp it, wear a mask, wash."
)
RULES = "Local rules and the makers' sheets go before what stands here; ask people who are trained in the work."
PAPER = "Try every pattern in paper before leather is cut."
LASER = (
    "A laser is never left alone. Never cut PVC or a plastic you do not know (chlorine); "
    "chrome-tanned leather only with fume extraction and the maker's data sheet."
)
MANUAL = "Follow the machine's manual and local rules, and ask people who are trained on it."

NOT_MADE = "Not in this set: {kinds}. To have them: {options}."
ALSO = "--also {kind}"
NOT_MADE_KINDS = {"facing": "facings", "frame-hinge": "frame hinges", "gasket": "gaskets"}
"""What a whole bellows usually has and a profile has to ask for."""


CARD_NOT_MEASURED = (
    "{begins}, and the gussets must fit the cards as they are: a relief of {relief} degrees is a guess. Old cards have {low} to {high}; for those a gusset would be {narrow} to {wide} wide, not {width}. So it may be {off} out, and the bellows open "
    "{least} to {most} instead of {open}. {ends}"
)
CARD_NOT_MEASURED_OWN = (
    "{begins}. The gusset is cut {width} wide, as you gave it; how far it lets the old cards open is reckoned with "
    "a guess, a relief of {relief} degrees. With {low} to {high}, as old cards have, the bellows opens {least} to {most} instead of {open}. "
    "{ends}"
)
NO_EDGE_MEASURED = "No card of this box was measured"
"""Stands in the place ``begins`` of the two above, as the next one does."""

ONE_EDGE_MEASURED = "Of the old cards only one edge was measured"
TWO_READINGS = (
    "Two readings of one old card end the guess before leather is cut: its ridge edge and its valley edge, "
    "as ridge_edge and valley_edge under [readings]."
)
"""Stands in the place ``ends``, as the next one does."""

ONE_READING = "One reading more ends the guess before leather is cut: {edge} of the same old card, as {key} under [readings]."
EDGES = {"ridge_edge": "the ridge edge", "valley_edge": "the valley edge"}

READINGS_APART = (
    "The readings of {key}{where} lie {apart} apart, from {least} to {most}. The middle of them, {middle}, serves: "
    "read again, or strike out the one that is wrong."
)
READ_AT_SIDE = " at side {side}"
"""Stands in the place ``where`` of the one above; empty where no side is named."""

SIDES_APART = (
    "The cards of the sides do not agree: {low_side} says a relief of {low} degrees, {high_side} {high}; a rule leaves open {either_way} "
    "either way. {relief} serves for all: read these two again, and try one gusset in a corner of each before you cut the rest."
)
END_AND_CARD = (
    "The end size and the old card quarrel: side {side} is {length} along its ridge line, and a ridge edge of {edge} {leaves}; "
    "{least} to {most} between neighbouring cards is usual. {taken} is taken. Measure the end and the ridge edge again."
)
LEAVES_GAP = "leaves {gap}"
"""Stands in the place ``leaves`` of the one above, as the next one does."""

LEAVES_NOTHING = "leaves nothing"
NAME_THE_SIDE = (
    "The sides differ by {mm}, and the ridge edge was read at none by name: it says nothing of the corner gap, and {kept} is kept. "
    'Write it by its side, such as ridge_edge = {{ A = "{edge}" }}.'
)

MEASURED_ON_END = (
    "You measured the wooden end: it is taken as the bare bellows frame. Measure the frame itself before you cut; they can differ."
)
MEASURED_ON_COVER = "You measured the covered frame; bare wood is about {mm} less across. Which did you measure?"
FLATS_ALIKE = 'The flats agree within {within}: shape = "regular" with end_size = {mm} would do as well and folds more evenly.'
FLATS_HIDE_SIDES = (
    "Flats cannot show that sides differ: {amiss} amiss in the flats can move a side by {moved}. Lay a rule along each side and compare."
)
SIDES_MISFIT = "The side lengths do not quite close: a side was changed by {mm}. Measure again before you cut."
SECOND_END_MIRRORED = (
    "As listed the second end is {listed} off the first at a side, as its mirror image {mirrored}: it is taken as traced from outside, "
    "its side A between {a} and {b}. See by the marks on both frames whether that is right."
)
SECOND_END_TURNED = (
    "The second end fits best with side A between its corners {a} and {b}, though another side was listed first: it is taken so. "
    "See by the marks on both frames whether that is right."
)
ENDS_DIFFER = (
    "The ends differ by {mm} at a side. Made to the middle. Pack {packing}, or the strip will stand proud. "
    "It fits one way only: mark side A."
)
PACK_RIGHT_FRAME = "the right-hand frame at side {sides}"
"""Stands in the place ``packing`` of the above; ``sides`` is such as ``A 0.40 mm and C 0.25 mm``."""

PACK_LEFT_FRAME = "the left-hand frame at side {sides}"
PACK_BOTH_FRAMES = "{right}; {left}"
PACK_SIDE = "{side} {mm}"

LETTERS_LACKING = (
    "The letters of print lack {letters}: on paper each is a question mark, or stands without its accent. Names in Latin, Greek or Cyrillic "
    "letters are printed as they are."
)
LETTER_NAMED = "{letter} ({code})"
LETTERS_MORE = "{letters} and {number} more"
LEATHER_THICK = (
    "The {use} are of {material}, {mm}: that is thick, {least} to {most} is usual. They will not fold flat, and the bellows closes "
    "thicker. Pare it all over, or take a thinner one."
)
LEATHER_THIN = (
    "The {use} are of {material}, {mm}: that is thin, {least} to {most} is usual. They stretch, and wear through early. Take a thicker one."
)
GUSSETS = "gussets"
"""This and the next five stand in the place ``use`` of the two above."""

COVER_GUSSETS = "gussets laid over the old ones"
STRIPS = "edge and end strips"
EDGE_STRIPS = "edge strips"
END_STRIPS = "end strips"
CORNER_PATCHES = "corner patches"
CARD_THICK = (
    "The cards are of {material}, {mm}: that is thick, {usual} is usual and {limit} is heavy. The bellows closes thicker, and is heavy "
    "in the hand."
)
CARD_THIN = (
    "The cards are of {material}, {mm}: that is thin, {usual} is usual and {limit} the least. They bend where they should stand. Take a "
    "stiffer board."
)
SKIVER = "The gussets are of {material}: skiver is a split for linings that meet little strain, not for gussets, whatever its thickness."
CORNER_GAP = "Cards of {card} collide at the ridge corner: the corner gap is {gap}, they need {needed}."
VALLEY_GAP = "With a valley gap of {gap} the bellows cannot close: the cards jam at {degrees} degrees. They need {needed}."
RIDGE_RADIUS_REDUCED = (
    "A ridge radius of {asked} does not fit the card: rounded to {radius} instead. At the ridge it leaves a gap of {gap}."
)
VALLEY_RADIUS_REDUCED = "A valley radius of {asked} does not fit the card: rounded to {radius} instead."
LAPS_MEET = "On the outside the laps take {laps} of a card {height} high: they overlap and the bellows closes thicker."
HINGES_MEET = "Inside, the hinges take {laps} of a card {height} high: they overlap and the bellows closes thicker."
RELIEF = "Folded gussets of {leather} need a relief of {needed} degrees when closed; there are {relief}. The corners will stand open."
GUSSET_TOO_WIDE = (
    "Gussets {width} wide let these cards open to {degrees} degrees: they are wider than any opening needs and will stand in folds."
)
GUSSET_STRETCH = (
    "Gussets {width} wide let these cards open to {degrees} degrees, not the {asked} of the profile; all lengths go by the gussets."
)
GUSSET_LENGTH = (
    "A gusset of that width for these cards would be {length} long; yours is {own}. "
    "It is not from these cards, or they were measured wrongly."
)
GUSSET_LENGTH_GUESSED = (
    "A gusset of that width for cards with a relief of {relief} degrees, which is a guess, would be {length} long; yours is {own}. "
    "The cards are not as guessed, or it is not from these cards: measure one."
)
STRETCH_LOW = "A stretch of {degrees} degrees is little: 45 to 60 is usual. The bellows will be short of air."
OVER_CENTRE = "At full stretch the corner {corner} is almost straight and may turn inside out. Less stretch, or a stop that holds it short."
PLEATS_MEET = "On side {side} the leather of its two corners meets behind the card when closed: less depth or less stretch."
LEATHER_SHARE = "Leather is {share} per cent of the valley's length: the corners will be soft. Fewer folds, less depth or less stretch."
FORM_FLATTER = "Form {form}, gusset {gusset}: {mm} spare in each corner on the form. Tuck it in, or cut for the form."
FORM_STEEPER = "Form {form}, gusset {gusset}: {mm} too tight in each corner on the form. Use a form of {gusset} degrees or less."
VALLEY_ENDS = (
    "The end cards stop at a valley on the frame, which holds them nearly shut: up to {mm} of the open length may not be had. "
    "Lengths are reckoned as if it moved."
)
STRIP_JOINT = "Fitted closed, an edge strip gives up {mm} to its thickness: more than its joint of {joint}. Lengthen the joint."
DARTS_NARROWED = (
    "Cut as wide as the corner {corner} asks, {asked}, the notches of the edge strip would run into each other or into its end: "
    "they are {cut} wide. Let the rest lap over, or give the strip a smaller lap."
)
DARTS_LEFT_OUT = (
    "At the corner {corner} the edge strip is not notched: a notch would be less than {least} wide at the edge. Stretch the strip round."
)
DARTS_PER_SIDE = 'Edge strips side by side end at the corners and are not notched: darts = true goes with run = "whole".'
CLOSED_LENGTH = "New closed length {new}, old {old}: it will not go back in its case."
REED_CLEARANCE = "Inside opening closed {opening}, and {needed} are needed: the folds will foul the reeds and blocks. Less depth."
FACING_SHORT = (
    "The end strip's lap is so much narrower than the edge strip's that facings leave bare card at the frames: cut those a little higher."
)

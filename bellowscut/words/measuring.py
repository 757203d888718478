"""What is asked about an instrument: at the keyboard by `new`, and on paper by the measuring sheet."""

# at the keyboard and on paper ------------------------------------------------

JOB = "What is to be done?"
JOBS = {
    "rebellows": "everything new, cards as well",
    "regusset": "new gussets, edge and end strips; the cards stay",
    "strips": "new edge and end strips only",
    "cover": "very thin gussets over the old ones; the cards stay",
    "patches": "patches on single corners only",
}
"""What each job is, by its name."""

NAME = "What is the instrument called?"
SHAPE = "Shape of the ends: regular (all sides alike), rectangle, or measured (uneven)?"
WHICH_SURFACE = "Which did you measure? Most mistakes come from here."
SURFACES = {
    "frame": "the bare wood of the bellows frame, old strip lifted",
    "frame-covered": "the bellows frame with its strip still on: two leathers larger",
    "end": "the wooden end of the instrument: may stand over the frame",
}
"""The three edges that calipers can reach, by the value that a profile has for each."""

MEASURED_ON = "Measured on?"
SIDES = "How many sides?"
ODD_SIDES = "An odd number of sides has no flats opposite each other: measure one side."
ONE_SIDE = "Length of one side?"
MEASURE = "Measured across-flats, across-corners, or along one side?"
END_SIZE = "Size of the first (right-hand) end?"
WIDTH = "Width of the first end, along side A (the lower one)?"
HEIGHT = "Height of the first end?"
OTHER = "Is the other end different?"
OTHER_SIZE = "The same of the other end?"
OTHER_WIDTH = "Width of the other end?"
OTHER_HEIGHT = "Height of the other end?"
MEASURED_BY = "Measured by flats, side_lengths or corners?"
MEASURED_BY_HELP = "flats need calipers, side lengths a rule, corners a tracing"
MEASURES = "{what} ({form})?"
OTHER_MEASURES = "The same of the other end ({form})?"
FORM_LIST = "with commas between"
FORM_POINTS = "x, y; x, y; ..."
FOLDS = "How many folds? Count the ridges between the frames, not the frames."
CARDS = "Count the cards down one side, frame to frame:"
FOLD_DEPTH = "How deep is a fold, ridge to valley down the face of a card?"
HOW_FAR = "How far should it open? A number is the angle of the cards at full extension (50 is usual), a length is the travel."
OPENING = "Stretch or travel?"
OLD_CARD_HINT = (
    "Lay the rule on the two lines that a card turns about, from where the lines of its legs meet them, not from its rounded points. "
    "Several cards are better than one: write commas between."
)
OLD_GUSSET_HINT = "Soak one gusset off and press it flat; under a cover, measure one where it is."
OLD_CARD = {
    "readings.ridge_edge": "Ridge edge of an old card?",
    "readings.valley_edge": "Valley edge of the same card?",
    "readings.glue_shadow": "Width of the old gusset's glue shadow?",
    "gusset.use": "One old gusset: greatest width, whole length?",
}
"""What is asked where the cards stay, by profile key."""

THICKNESSES = {
    "card": "Thickness of the card?",
    "gusset": "Thickness of the gusset leather, gauged after paring?",
    "edge_strip": "Thickness of the strip leather?",
}
"""What is gauged, by the table of the profile whose material it is."""

LAPS = {
    "gusset.lap": "Gusset: how wide is it glued over the card, at the valley?",
    "edge_strip.lap": "Edge strip: how far down each side of the ridge?",
    "end_strip.lap": "End strip: how far down the card?",
    "end_strip.frame_cover": "End strip: how far up the frame's side? Measure yours.",
}
"""Laps that most often differ, by profile key."""

FINER = "Change the finer sizes as well?"
ONE_KEY = "{name}: {what}"

# at the keyboard only ----------------------------------------------------------

INTRODUCTION = """\
Enter takes the answer in brackets; ? tells more; "none" goes back to the program's own choice;
"back" asks the question before once more. A length may be 158.75, 158.75 mm or 6 1/4 in.
The profile is written after the last question, when you have seen its figures. Ctrl-C stops, and keeps what you said."""

EXAMPLE_NAME = "Six-sided bellows"
UNNAMED = "bellows"
YES, NO, NONE = "yes", "no", "none"
YES_OR_NO_WANTED = "should be yes or no"
YES_OR_NO = "Please answer yes or no."
NOT_TEXT = "That could not be read as text (UTF-8): please type it once more."
NEEDS_ANSWER = "This one needs an answer."
ALLOWED = "{name}: {what}. Allowed {range}."
CHOICES = "{name}: {what}. {choices}"
STRETCH_ALLOWED = "{what}; allowed {range}"
NO_ROOM = "Ends of this size leave no room for a bellows with so many sides: which of these is it?"
QUARREL = "That does not go with an earlier answer: both once more."
CARDS_DOWN = "cards down one side, frame to frame"
CARDS_DISAGREE = "{folds} folds have {ridge} cards down a side, or {valley} when the end cards start at a valley."
ENDS_FOUND = {
    "ridge": "So the end cards meet the frame at a ridge.",
    "valley": "So the end cards meet the frame at a valley.",
}
MAKE = "{table} Make {part}?"
PRICE_OF_METRE = "Price of a metre of {name}?"
PRICE_OF_ONE = "Price of one {form} of {name}?"
PRICE_PER = "Price of one {form} of {name} (as now priced, by the {per})?"
CHOSEN = "Not asked, but chosen to go with this size: {what}. The finer sizes change them."
WRITE_IT = 'Write this to {path}? ("no" lists your answers, to change one.)'
WHICH = "Number of the answer to change? Enter: none of them."
ANOTHER_FILE = "Under which other name?"
KEEP = "Keep what you said so far?"
STOPPED = "stopped before the last question: nothing was written"
STOPPED_AS_BEFORE = "stopped before the last question: nothing new was written, {kept} is as it was"
STOPPED_KEPT = "stopped before the last question: what you said is kept in {kept}. To go on: {command}"
GO_ON = "bellowscut new {file}"
KEPT_HEAD = "What was said so far; no profile yet. It goes on with:"
TAKEN_UP = "Taken up from {kept}, with what you said before:"
NOT_KEPT_BY_US = "{kept}: is in the way and does not hold answers of yours: move it, or give another name"
WRITTEN = """\
Written to {path}. The figures once more, and then the patterns:
  bellowscut check {file}{job}
  bellowscut make {file}{job}"""
JOB_OPTION = " --job {job}"
EXISTS = "{path}: is there already and is left as it is: give another name"
NO_FOLDER = "{path}: there is no folder {folder}"
FOLDER_CLOSED = "{path}: no file may be written in the folder {folder}"
CANNOT_WRITE = "{path}: cannot be written: {reason}"

# the sheet ---------------------------------------------------------------------

TITLE = "Measuring sheet"
KINDS = {
    "regular": "for an end with {sides} sides, all alike",
    "rectangle": "for an oblong or square end",
    "measured": "for an uneven end with {sides} sides",
}
"""What a sheet is for, by the shape of the section."""

NAME_AGAIN = "name"
PAGE = "page {page} of {pages}"
CUSTOMER = "Customer"
DATE = "Date"
SMALL_LETTERS = (
    "In the order of bellowscut new; the small letters are the keys of the profile. Lengths in mm, or in inches such as 6 1/4 in: "
    "strike out the unit that you do not use."
)
BEFORE = "Before you begin"
BEFORE_STEPS = (
    "Photograph the bellows from all sides.",
    "Mark side A on both frames in pencil.",
    "Shut it, press lightly, note the closed length ({heading}).",
)
DUST_TITLE = "Dust, mould, old pigments"
DUST = (
    "Green and white papers may hold arsenic or lead. Damp them, wear a mask, do not blow or brush; wash afterwards. "
    "Local rules come first; when in doubt, ask somebody trained."
)
ENDS_HEADING = "The ends"
STRIP_LIFTED = "Lift the strip on two opposite sides, blade away from the hand."
ALL_FLATS = "Try every pair of flats. If they differ by over {mm} mm, print the sheet for a measured end."
ALL_SIDES = "Try every side. If they differ by over {mm} mm, print the sheet for a measured end."
SQUARE_TRY = "Try both ends of each side. If they differ by over {mm} mm, print the sheet for a measured end."
SAME_LETTERS = "From outside the right-hand end, A lowest, the letters run against the clock. The left-hand end has the same letters: A lies opposite A, along the same row of cards."
ONE_WAY = "One will do: flats need calipers, side lengths a rule, corners a tracing."
RIGHT_HAND, LEFT_HAND = "right-hand", "left-hand"
SIDE, CORNER, POINT = "side", "corner", "corners: x, y"
SIDE_LENGTHS = "side lengths"
FLATS_OR_SIDES = "flats or side lengths"
FOLDS_HEADING = "Folds"
RIDGES_WORD, CARDS_WORD = "ridges", "cards"
AGREE = "Do they agree? The cards must be one of these:"
SUMS = {"ridge": "2 x (ridges + 1) =", "valley": "2 x ridges ="}
ENDS_AT = {"ridge": "ends at a ridge", "valley": "ends at a valley"}
COUNT_AGAIN = "Neither? Count again."
DEPTH_HINT = (
    "Open a middle fold, rule on the card: from the line it turns about at the ridge to that at the valley, not to the edge of the leather."
)
OPEN_HINT = "Open it until the gussets are taut, no further; measure between the frames. If it no longer pulls, leave this out."
OPEN = "open"
LESS_CLOSED = "\u2212 closed"
IS_TRAVEL = "= travel"
OR_STRETCH = "or stretch"
DEGREES = "degrees"
LEATHER_HEADING = "Leather and card"
PLACES = "in five places"
TAKEN = "taken"
THICKNESS_HINT = "A tenth of a millimetre more in the gusset leather makes the closed bellows some millimetres longer."
FINER_HEADING = "Finer sizes"
OLD_CARD_HEADING = "The old card and gusset"
OLD_CARD_JOBS = "only where the cards stay: {jobs}"
OLD_WIDTH, OLD_LENGTH = "width", "length"
CONDITION_HEADING = "What is wrong"
CONDITION_KEY = "for the estimate; new does not ask this"
CONDITION = {
    "Cards": ("firm", "soft", "split"),
    "Gussets": ("sound", "few leaks", "many leaks", "lace"),
    "Edge strips": ("sound", "worn", "loose"),
    "End strips": ("sound", "loose", "leak"),
    "Covering": ("sound", "torn", "cracked", "green, white"),
    "Inside": ("clean", "dust", "mould"),
}
"""What to look at, and what may be found, one box each."""

OTHER_WORK = "What else wants doing?"
NOTES = "Notes"
BAR = "Lay a rule on this bar: 100 mm, or the print is not true to size."
UNIT = "mm / in"

# words in the figures

FLAT_CALIPERS, CORNER_CALIPERS, RULE = "across flats", "across corners", "rule"
HEIGHT_CALIPERS = "height"
WIDTH_RULE = "width"
LOOK_HERE = "look in from here"
FIRST_END, SECOND_END = "right-hand", "left-hand"
SIDE_A = "side A"
WOODEN_END, FRAME, COVERING, FIRST_CARDS = "wooden end", "frame", "end strip", "first cards"
RIDGE, VALLEY = "ridge", "valley"
COUNT_EXAMPLE = "Here {ridges} ridges and {cards} cards. The arrow: fold depth."
CORNER_BELOW = "lower edge: a corner"
RIDGE_EDGE, VALLEY_EDGE, GLUE_SHADOW = "ridge edge", "valley edge", "glue shadow"
FOLD_LINE, OLD_GUSSET = "fold line", "old gusset"
GUSSET_LAP, EDGE_LAP, END_LAP, FRAME_COVER = "gusset", "edge strip", "down the card", "up the frame"

# refusals and what the command says

MANY_SIDES = "--sides: {sides} is no number of sides: should be a whole number from {least} to {most}"
FOUR_SIDES = "--sides: a rectangle has four sides; leave it out, or give --section measured"
NO_SECTION = "--section: {section} is not known; should be one of {known}"
SHEET_WRITTEN = "Written to {path}: {number} page to print and fill in at the instrument."
SHEETS_WRITTEN = "Written to {path}: {number} pages to print and fill in at the instrument."

"""What the work sheet says: head, tables, the steps of every job, tests on the way.

Sentences are short, since they are read standing at the bench. Where a
sentence holds for some bellows only, it is a constant of its own.
"""

# the sheet ----------------------------------------------------------------

TITLE = "Work sheet"
PAGE = "page {number} of {pages}"
HEAD = "{title}, {page}"
FINGERPRINT = "fingerprint {mark}"
KIND = "{sides} sides, {folds} folds {depth} deep"
KIND_ONE_FOLD = "{sides} sides, one fold {depth} deep"
ONE = "one instrument"
ALIKE = "{copies} alike: counts and minutes are for all {copies}"
CUSTOMER = "For"
DATE = "Date"
FIRST_DAY = "Day 1 is"
UNITS = {"mm": "All lengths in millimetres.", "in": "All lengths in inches."}

WHOLE_JOB = "Before anything else"
STEPS = "The job in order"
LEGEND = "Days: soonest, with 6 hours at the bench a day, to 5 hours a day and slow glue."
LEGEND_ONE = "Days with 5 to 6 hours at the bench a day."
DAY, MINUTES, TOOK = "day", "min", "took"
DAYS_RANGE = "{first}\u2013{last}"
TEST = "Test:"
CAUTION = "Caution."
LEARNED_MARK = "{minutes}*"
TOTAL_HOURS = "In all, {hours} h {minutes} min"
ELAPSED = "{first} to {last} days from first to last step, glue and press included."
ELAPSED_ONE = "{first} days from first to last step, glue and press included."
MINUTES_INVENTED = "Minutes are invented, for a practised hand: put your own in a workshop file, and what it took in the job book."
MINUTES_OWN = "Minutes are your own where you gave them, else invented; put what it took in the job book."
MINUTES_LEARNED = "* from earlier jobs in your job book."

DRY = "Leave over night; go on on day {first}."
DRY_SLOWER = "Leave over night; go on on day {first}, at the slower pace on day {last}."
DRY_IF_SLOW = "With slow glue leave over night: then go on on day {last}."
PRESSED = "Leave pressed {nights}; go on on day {first}."
PRESSED_SLOWER = "Leave pressed {nights}; go on on day {first}, at the slower pace on day {last}."
NIGHT = "over night"
NIGHTS = "{least} to {most} nights"

# tables -------------------------------------------------------------------

MEASURED = "Measured before and after"
MEASURED_HEAD = ("", "before", "reckoned", "after")
CLOSED = "closed length"
OPEN = "open length"
AIR = "air test, seconds"
BETWEEN = "Lengths between the frames."
BETWEEN_TWO = "Lengths between the frames; those of number 2 on the back."
BETWEEN_COPIES = "Lengths between the frames; those of numbers 2 to {copies} on the back."

GLUING = "Gluing distance"
FRAMES_APART = "frames {size} apart"
APART_OTHER = "that is {size}"
PITCH = "valley to valley {size}"
CARD_ANGLE = "cards at {degrees}\u00b0"
SPACER = "three spacer sticks of {size}"

READY = "Lay ready"
READY_HEAD = ("piece", "pieces", "size", "material", "")
READY_HEAD_SORTS = ("piece", "pieces", "size", "material", "sides or corners")
SIZE = "{width} \u00d7 {height}"
SORTS = "{number} sorts"
PLACES_EACH = "{list}: {pieces} each"
PLACE_PIECES = "{place} {pieces}"
BOTH_HANDS = "{list}: {pieces} each of two hands"
OF_MATERIAL = "{material}, {size}"
GASKET = "gasket, {width} wide"
GASKET_LENGTH = "{length} long in all"
SPARE_NOTE = "+ = spare. Width by length over all."
KINDS = {
    "card": "cards",
    "card-run": "card runs, scored",
    "gusset": "gussets",
    "end-gusset": "end gussets",
    "half-gusset": "half gussets",
    "cover-gusset": "cover gussets",
    "edge-strip": "edge strips",
    "end-strip": "end strips",
    "hinge": "hinges",
    "frame-hinge": "frame hinges",
    "valley-strip": "valley strips",
    "ridge-cloth": "ridge cloth",
    "facing": "facings",
    "corner-patch": "corner patches",
}
COVER_END, COVER_HALF = "cover end gussets", "cover half gussets"
HINGE_VALLEY, HINGE_RIDGE = "hinges for valleys", "hinges for ridges"
TOOLS = {
    "rebellows": "Also: form, glue and brush, bone folder, rule and square, boards to press with, lamp, two sealed boards for the air test.",
    "regusset": "Also: spacer sticks, glue and brush, damp cloth, bone folder, boards to press with, lamp, two sealed boards for the air test.",
    "strips": "Also: glue and brush, damp cloth, thin blade, bone folder, boards to press with, lamp, two sealed boards for the air test.",
    "cover": "Also: spacer sticks, glue and brush, damp cloth, bone folder, boards to press with, lamp, two sealed boards for the air test.",
    "patches": "Also: lamp, chalk, glue and brush, damp cloth, bone folder, boards to press with.",
}
"""By job: what lies ready beside the pieces."""

SKIVE = "Skive table"
SKIVE_HEAD = ("piece", "leather", "edge", "width", "to", "gauged")
LONG_EDGES = "both long edges"
ENDS_OF_STRIP = "both ends"
LONG_FROM_CARD = "long edges, from the card out"
LONG_FROM_CUT = "long edges"
ALL_ROUND = "all round, a bevel"
WIDTH_TAPER = "{lap} at the valley, {tip} at the tips"
BEVEL = "{least} to {most}"
AS_THIN = "nothing"
GUSSETS_ALL = "all gussets"
GAUGE = "Gauge in five places. The tips of gussets are not pared."

# look over, open ----------------------------------------------------------

PHOTOGRAPH = "Photograph it from all sides, open and closed, with its papers and every mark."
PHOTOGRAPH_COPIES = "Photograph all {copies} from all sides, open and closed, with their papers and every mark."
LENGTHS_BEFORE = "Write the closed and the open length into the table while it still is as it was."
AIR_BEFORE = (
    "air, before. Pull it full of air, hold it upright by one end with no key pressed, and write down the seconds until it stands still."
)
THUMB = "Press each card with a thumb: soft or split cards make new gussets a waste."
THUMB_STRIPS = "Press each card and each gusset with a thumb: soft cards or perished gussets make new strips a waste."
THUMB_COVER = "Press each card with a thumb, and pull at old leather: soft cards or rotten gussets make covers a waste."
KEEP_ORIGINAL = "Keep what can be kept, use glue that can be undone, and bag what comes off: it is given back."

ENDS_OFF = "Take the ends off and lift the pans out; stick the screws into a card in their order."
MARK_A = "Mark side A and the right-hand end on both frames, both pans and both ends."
WHICH_WAY = "Looking in from outside the right-hand end the sides run counter-clockwise, {sides}; A is the lowest."
WHICH_WAY_MEASURED = (
    "Looking in from outside the right-hand end the sides run counter-clockwise, {sides}; A is the side you measured first."
)
NUMBER_COPIES = "Number the {copies} instruments beside every A: pans and ends of one do not fit another."

# measure ------------------------------------------------------------------

MEASURE_AS_IS = "Measure both ends as they are, the old bellows on: across every pair of sides and along each. Enter it."
COMPARE_BARE = "This sheet goes by bare wood: {sizes}; over old leather it reads about {more} more across."
PAPER_CORNER_NEW = "Make the paper corner of the pattern set, and open and close it, before any leather is marked."
MEASURE_FRAMES = "Measure both frames again on the bare wood, across every pair of sides and along each side."
BARE_WOOD = (
    "bare wood. All agrees to {size}. If not, enter what you read, make the set again and go on by the new sheet: cut nothing by this one."
)
COMPARE = "This sheet goes by: {sizes}."
COMPARE_BELLOWS = "Count and measure: this sheet goes by {sides} sides, {cards} cards down a side, {depth} from ridge to valley, {sizes}."
ACROSS_FLATS = "{size} across flats"
ACROSS_EACH = "across flats {list} {unit}"
ACROSS_LETTER = "{side} {size}"
ALONG_EACH = "sides {list} {unit}"
ALONG_ALIKE = "sides {size} long"
RECTANGLE = "{width} by {height}"
SPAN = "{first} to {last}"
"""From one side or corner to another."""

TWO_ENDS = "The two ends differ and the bellows is made to their middle: compare the mean of both."
PAPER_CORNER = "Cut the paper corner of the pattern set and fold it into an open corner before any leather is marked."
REEDS = "Inside opening closed {size}: measure the reeds and blocks before you cut."
REEDS_GIVEN = "Inside opening closed {size}; reeds and blocks need {need}. Measure both again before you cut."
OLD_GUSSET = "Soak one old gusset off, press it flat and measure it: the new ones are {width} wide and {length} long."
OLD_GUSSET_USED = (
    "The new gussets are drawn to the old one you measured, {width} wide and {length} long; check it against two more of them."
)
OLD_GUSSET_COVER = "Measure an old gusset from point to point: the covers are {width} wide and {length} long."
OLD_GUSSETS_DIFFER = "The corners differ: hold the paper pattern of each against its own old gusset."
MEASURE_STRIPS = "Measure round a ridge and round a frame: this sheet goes by {ridge} and {frame}."
MEASURE_COVER = "Measure how far the old end strip covers the frame: the new one covers {size}."

# take off, clean ----------------------------------------------------------

PAPERS_BACK = "Ease the papers back where strips lie under them, and keep them flat and in order."
PAPERS_UNDER = "The papers lie under the strips: leave them on the card."
NO_PAPERS = "No papers are drawn for this bellows; where there are some, ease them back first."
LIFT_ENDS_FIRST = "Warm or damp the old glue, and lift the {ends} end strips first, then the {edges} edge strips, with a thin blunt blade."
KEEP_STRIPS = "Keep one strip of each kind: its marks show where the corners fell."
TIPS_LIFT = "Lifting edge strips can lift gusset tips: cut {number} corner patches now."
STRIP_GUSSETS = "Lift the {number} old gussets corner by corner, damp and slowly, so that no card fibres come with them."
STRIP_ONE_WHOLE = "Keep one of each kind whole and pressed flat."
STRIP_HOLD = "Put a stick across each opened corner: cards on bare hinges tear them."
CUT_OFF = "Cut the old bellows off close to both frames, the blade flat on the wood."
KEEP_OLD_BELLOWS = "Keep the old bellows whole until the new one is tested."
GIVE_OLD_BELLOWS = "Keep the old bellows whole: it is given back."
CLEAN_FRAMES = "Damp the old glue and strip, scrape the wood bare, and let the frames dry standing on edge."
CLEAN = "Take old glue off card and hinge with a damp cloth and a blunt blade; the card must not grow soft."
CLEAN_STRIPS = "Take old glue off the ridges and frames with a damp cloth and a blunt blade; leave gussets and hinges alone."
CLEAN_DRY = "Let it dry half open, with air all round."
PULL = "pull. Glue a scrap to the cleaned card, dry, pull: card fibres must come with it."
PULL_LEATHER = "pull. Glue a scrap to the cleaned leather, dry, pull: leather fibres must come with it."
CLEAN_GUSSETS = "Take dirt, wax and old dressing off all {number} old gussets and their laps; glue back every loose edge."
CLEAN_GUSSETS_ROTTEN = "Leather that crumbles or tears like paper holds no cover: stop, and ask about new gussets."
CLEAN_CORNERS = "Take dirt and wax off the marked corners, {size} each way from the corner, and glue back what is loose."
HINGES = "Open every fold to the light and re-stick loose hinges and cards; put a new card in for each split one."
HINGES_ENDS = "Where nothing but the lifted end strip held an end card to its frame, join them inside with a tab of hinge cloth."
HINGES_GAP = "Leave {valley} between card and card in a valley and {ridge} at a ridge, or it does not close."

FIND_OPEN = "Take one end off, lift its pan out and close the other end's holes with a pad of felt."
FIND_LIGHT = "light. Lamp inside, in the dark: look along every corner and ridge and ring each point of light with chalk."
FIND_COUNT = "Count them: {patches} patches are reckoned. If light shows at most corners, stop: covers or new gussets are the better way."

# frames, form, cards ------------------------------------------------------

MEND_FRAMES = "Glue open joints of the frames, fill worn edges, and ease the arrises that leather is folded over."
PACK = "Pack {what}; let it dry and dress it flush."
PACK_AT = "the {end} frame at side {sides}"
PACK_SIDE = "{side} {size}"
PACK_AS_BELOW = "Glue the packing on as told below, let it dry and dress it flush."
ENDS = {"right": "right-hand", "left": "left-hand"}
GASKETS_CUT = "Cut the gaskets {width} wide, {length} in all; they go on last."
SQUARE_CORNERS = "square. Corner to opposite corner of each frame agree: {sizes}."
SQUARE_ODD = "square. Each corner to the middle of the side opposite, on both frames: {sizes}."
SQUARE_NAMED = "{name} {size}"
SQUARE_LIST = "{list} {unit}"

MAKE_FORM = "Cut core, sides, key segment, end plates and combs from the form's own files and dress every sawn face."
FORM_SLOPE = "Combs slope at {slope}\u00b0: ridges {high} above the valleys, {pitch} from valley to valley, {length} over all."
FORM_EASE = "Ease all arrises and wax the form well: glue must not hold on it."
FORM_APART = (
    "it comes apart. Before a card is on it take off the right-hand end plate, push the core out, take off the left-hand plate, "
    "draw the key segment; the rest must fall inward."
)
SET_UP_FORM = "Put the form together, wax it, and mark side A and the right-hand end on it as on the frames."
SET_UP_SIZES = "Check its slope, {slope}\u00b0, valley to valley, {pitch}, and its length over all, {length}."

CARDS = "Cut {number} cards of {material} {size}, {each} down each side, the board's grain along the ridge."
CARDS_COPIES = "Cut {number} cards of {material} {size}, {each} down each side of each bellows, the board's grain along the ridge."
CARDS_ROUND = "Round the points to {ridge} at the ridge and {valley} at the valley, and ease every edge: a sharp edge cuts leather."
CARDS_ROUND_ALIKE = "Round all points to {ridge} and ease every edge: a sharp edge cuts leather."
CARDS_EASE = "Ease every edge and point: a sharp edge cuts leather."
SIDES_DIFFER = "Sides differ, cards with them: {list}. Write the letter on each before the next is cut."
SIDES_ALIKE_OVER = "On {sides} the two ends of a card lean differently: turn every second card over, ridge to ridge."
RUNS = "Cut {number} card runs of {material} {size}, one a side, {each} cards each, the board's grain along the ridge."
RUNS_SCORE = "Score the ridges on one face and the valleys on the other; the two holes keep front and back in register."
RUNS_WIDTH = "Scores are {ridge} wide at a ridge and {valley} at a valley; fold each once both ways, to try it, on a scrap first."
PRINT_TRUE = "Lay the rule on the bars: 100 mm both ways. If not, nothing on the pattern sheets is right."

HINGES_CUT = "Cut {valley} valley hinges {valley_width} wide and {ridge} ridge hinges {ridge_width} wide from {material}, along the thread."
HINGES_INSIDE = "Lay hinge cloth over the waxed form first, then glue the cards onto it: ridges and valleys are hinged on the inside."
HINGES_OUTSIDE = "Ridge hinges lie inside, on the form under the cards; valley hinges go on from outside, over the cards."
HINGES_RUNS = "Glue hinge cloth inside every score of the runs, then lay the runs on the form with their ends to the corner lines."
HINGES_GAPS = "Leave {ridge} between the cards at a ridge and {valley} at a valley; at a ridge corner neighbours stand {corner} apart."
HINGES_SHORT = "Hinges stop {size} short of each end of the card."

# gussets ------------------------------------------------------------------

SUCK = "Suck the leather in three places. If air comes through, this skin leaks without a hole."
GUSSETS_CUT = "Mark on the flesh side round the template and cut {list}, of {material} {size}."
GUSSETS_SIZE = "Width by length over all: {sizes}."
KIND_COUNT = "{counted} {kind}"
KIND_SIZE = "{kind} {width} \u00d7 {height}"
GUSSETS_DIFFER = "Corners differ: {list} are not alike. Write the corner on each, and keep left and right of the flesh side."
GRAIN_ALONG = "All from one skin, away from flank and belly, their {way} along the backbone, at most {degrees}\u00b0 off it."
FLESH_SIDE = "Patterns and templates show the flesh side. From the grain side they are mirrored."
CUT_ONE = "Cut one first. Fold it into an open corner. If it is tight before the frames are {size} apart, or puckers, stop."
CUT_ONE_CORNER = "Cut one first. Fold it into an open corner. If it is tight before the cards stand at {degrees}\u00b0, or puckers, stop."

SKIVE_FROM_CARD = "Pare the long edges only, from the card's edge out: {lap} at the valley, {tip} at the tips, down to {feather}."
SKIVE_PARALLEL = "Pare the long edges only, {skive} wide, down to {feather}."
SKIVE_NOT_TIPS = "Leave the tips and the middle at full thickness; never pare or crease the centre line: it folds where it will."
SKIVE_SPARES = "Pare all {pieces}, spares too, at one setting."
GAUGE_TENTH = "Gauge the leather after paring, in five places. {tenth} more is {size} closed."
GAUGE_FIVE = "Gauge the leather after paring, in five places."

MIDDLE_OUT = "Begin at the middle fold and work out to both ends, one corner of a fold after the other, right round."
LAY_GUSSET = "Thin glue on the laps only. Valley line on the valley, laps {lap} on each card at the valley and {tip} at the tips."
LAY_OWN_GUSSET = "Thin glue on the laps only. Valley line on the valley, the same lap on both cards."
TIP_TURN = "Turn the tips {turn} over the ridges (tip turn) and rub them down."
TUCK = "The form is flatter than full stretch: tuck the {size} spare in each corner inward, without a crease."
GLUE_NUMBER = "{number} gussets are glued; the {spare} spares are for those that go wrong."
GLUE_NUMBER_FEW = "{number} gussets are glued; keep the spares with the job."
KEEP_BACK = "Keep {number} back: a tip of each lies on a frame, and they are glued when the form is out."
HOLD_FIRST = (
    "With the form in, nothing holds side to side yet: glue all {number} {kind} to their cards alone, the part for the frame left dry, "
    "and let them set."
)
FORM_OUT = (
    "Take off the right-hand end plate, push the core out, take off the left-hand plate, then draw the key segment: "
    "the rest falls inward and comes out piece by piece."
)
ON_FRAMES = "Prop the frames {size} apart, the same at every side, and set the bellows between them, A to A, edge of card on edge of frame."
JOIN_HINGES = "Join each end card to its frame at once: glue the {number} frame hinges inside, {lap} on card and on frame."
JOIN_TABS = "Nothing else holds it yet: join each end card to its frame from inside, mid-side, with a short tab of hinge cloth, {number} in all; they stay in."
END_GUSSETS = "Glue the {number} end gussets, the longer tip over the frame's edge ({turn} tip turn) and rub it down."
KEPT_BACK = "Glue the {number} gussets that were kept back, the tip over the frame's edge ({turn} tip turn), and rub it down."
HALF_GUSSETS = "Glue the {number} half gussets, valley line on the frame's edge, {lap} up the frame."
DRY_PARTS = "Glue down the parts that were left dry: {size} on the frame, and rub them down."
TWIST = "square. Corner {first} of one frame to corner {second} of the other, and {second} to {first}: both {size}, or it is twisted."
TWIST_ODD = "square. Frame to frame at every corner, {size}, and A stands over A."
CLOSES = "closes flat. Close it slowly, now that all is held and dry: corners tuck in between the cards, none higher than the rest."

PROP = "Prop the frames {size} apart with spacer sticks at three sides; valley to valley is then {pitch}."
DRY_FIT = "Lay three gussets in dry, one in the middle and one at each frame: laps even on both cards, tips on the ridges."
GLUE_ENDS = "The {number} end gussets go last, longer tip over the frame's edge ({turn} tip turn)."
GLUE_HALVES = "The {number} half gussets go last, valley line on the frame's edge, {lap} up the frame."
GLUE_PRESS = "Press each lap until it holds, wipe glue off at once, and leave the sticks in while it dries."

COVERS_CUT = "Cut {list}, of {material} {size}, to the outline of the old gussets."
COVERS_PARE = "Bevel the edge only, {least} to {most} all round to nothing: so thin a leather has no skive line."
COVERS_PARE_ALL = "Do all {pieces}, spares too, at one setting; a torn one is no spare."
COVERS_LAY = "Thin glue all over. Lay each of the {number} exactly on its old gusset, valley line first, without stretching it."
COVERS_TIPS = "Tips lie on the edge strips; rub them down to nothing."
COVERS_PROP = "Prop the frames {size} apart with spacer sticks at three sides, valley to valley {pitch}."
COVERS_THICKER = "Covers add {size} to the closed length."

PATCHES_CUT = "Cut {number} patches, {width} wide and {length} long with round ends, of {material} {size}."
PATCHES_PARE = "Bevel them all round, {least} to {most}, to nothing: they lie on top."
PATCHES_LAY = "Fold each over its corner, {width} down both sides of the ridge and {length} along it each way."
PATCHES_RUB = "Thin glue; rub down from the corner outwards, over the edge, until no border can be felt."
PATCHES_CLOSED = "Close it, paper between the folds so that nothing sticks, and press it between boards."
PATCHES_TOO = "Cut the {number} corner patches from the rest of the skin."
PATCHES_LAY_LAST = "Put the {number} corner patches over the ridge corners that rub, {width} down both sides."

# strips -------------------------------------------------------------------

PULL_BOTH_WAYS = "Pull it both ways: a strip's long way must be the way that does not stretch."
STRIPS_EDGE = "Cut {number} edge strips {width} wide and {length} long, {material} {size}."
STRIPS_EDGE_SIDES = "Cut {number} edge strips, one a side and ridge, {width} wide: {lengths} {unit} long, {material} {size}."
STRIPS_END = "Cut {number} end strips {width} wide and {length} long."
STRIP_LENGTH = "{side} {size}"
STRIPS_LONG = "Cut strips {size} too long and trim."
STRIPS_SKIVE = "Pare both long edges: edge strips {edge} wide to {edge_feather}, end strips {end} to {end_feather}."
STRIPS_SKIVE_ALIKE = "Pare both long edges {edge} wide to {edge_feather}."
STRIPS_ENDS = "Pare both ends over the joint: edge strips {edge}, end strips {end}."
STRIPS_ENDS_ALIKE = "Pare both ends over the joint, {edge}."
STRIPS_DARTS = "Notch the edge strips at the corners as drawn, both edges, never through the fold."

EDGE_RIGHT_ROUND = (
    "Close the fold and lay the strip over its ridge, {lap} down each side. Go right round first, stretching it round each corner."
)
EDGE_PER_SIDE = (
    "Close the fold and lay each strip over its ridge, {lap} down each side, and lap it {joint} over its neighbour at the corner."
)
EDGE_PER_SIDE_STEP = "Lap to the right on one ridge and to the left on the next, so that no two laps lie on each other."
EDGE_CORNERS = "Then go back and work each corner flat with thumb and finger while it is damp."
EDGE_CORNERS_DARTS = "Then go back and close the notches at each corner, edge to edge, while it is damp."
JOINT_STEPPED = (
    "Joints sit in the middle of side A, underneath, stepped: {list}; then again from the first. Corner marks move as far as the joint."
)
JOINT_FEW = "Joints sit in the middle of side A, underneath, stepped: {list}. Corner marks move as far as the joint."
JOINT_ONE = "The joint sits in the middle of side A, underneath."
JOINT_SIDES = "Side A is too short to step them on: joints sit mid-side, on {list}, then again from the first. Corners are met by hand."
JOINT_TOWARDS, JOINT_MIDDLE = "ridge {ridge} {size} towards {side}", "ridge {ridge} in the middle"
JOINT_ON_SIDE = "side {side} at ridge {ridge}"

END_RIGHT_ROUND = "Lay the crease on the frame's edge: {lap} on the card, {cover} on the frame. Right round first, then corner by corner."
END_JOINT = "Joint in the middle of side A, underneath."
END_LEFT_FRAME = "Sides differ: corner marks are those of the right-hand frame; for the left-hand one measure them from the other end."
END_HOLD = "Rub the card side down first, then draw the leather up the frame."

CLOTH = "Glue the {number} pieces of ridge cloth, {width} wide, over the ridges, {lap} down each card, before the edge strips."
CLOTH_SHORT = "They stop short of the gusset tips; nothing may stand up under the strip."
VALLEY = "Glue the {number} valley strips, {width} wide, outside along the valleys, {lap} up each card."
VALLEY_IN = "Work with the bellows propped open, and push the leather right into the fold with the edge of a card."

# papers, press, test ------------------------------------------------------

PAPERS = "Stick the old papers down again, trimmed to the new strips; patch what is torn with paper of its own colour."
PAPERS_NEW = "Glue the {number} new facings."
PAPERS_FIRST = "The old papers went on first: only touch up what shows beside the strips."
PAPERS_NONE = "No papers are drawn for this bellows: trim and patch those that are there, and colour bare card."
FACINGS_LAST = "Glue {number} facings: {overlap} over the laps, {short} short of the valley line."
FACINGS_FIRST = "Glue {number} facings, {margin} in from the card's edges, before any leather: gussets and strips lie over them."
FACINGS_PAIR = "One covers two cards, ridge to ridge through the valley: crease it first, then push it into the fold."
FACINGS_SORTS = "There are {sorts} sorts: {list}."
FACINGS_HANDS = "They come in two hands, valley to the right and to the left: lay all of a side out dry first."
FACINGS_DAMP = "Paste, wait until the paper lies limp, and lay it from the ridge down; no paste on the leather."

DRESS = "Wipe off glue, colour pale edges, and rub a little dressing into the leather, none on papers."
DRESS_FOLD = "See every corner tuck in between the cards as it closes; do not crease the middle of a gusset."
DRESS_PRESS = "Paper between the folds, then press it closed between boards, evenly, to about {size} between the frames and no less."
CLOSES_TO = "closes flat. Between the frames at every side the same, near {size}."
CLOSES_OLD = "closes flat. Between the frames at every side the same, near {size} (before: {old})."
SQUARE_CLOSED = "square. Closed and open, side A stands over side A; corner to corner agree."

LIGHT = "light. Lamp inside, in the dark: look along every corner, strip and joint."
AIR_AFTER = (
    "air. Blank both frames with sealed boards (bare fibre board leaks). Open it fully, hold it by the upper board: "
    "write down the seconds until it has closed or stands."
)
AIR_PATCHES = "air. Put the end back on and test as before: it must be slower than it was."
CURE = "Cure what leaks with thin leather from inside, let it dry, and test again."
ASSEMBLE = "Put pans and ends back, A to A; screws in turn, each only hand-tight."
ASSEMBLE_COPIES = "Put pans and ends back, A to A and number to number; screws in turn, each only hand-tight."
ASSEMBLE_GASKET = "Lay the new gaskets in first, {width} wide, and butt them mid-side."
ASSEMBLE_OLD_GASKETS = "No gaskets were cut: see that the old ones still seal all round."
PLAY_IN = "Play it in: open and close it fifty times, a little wider each time, before full stretch."
NO_PACK_CASE = "Try it in its case."
INVOICE_BOOK = "Write what each step took and the leather used into the job book; fill in the table of lengths and air."
INVOICE_PAPERS = "Photograph it again, and put this sheet with the pattern set and the invoice."
USED = "{material} used"

"""What is said to whoever cuts by machine or by hand."""

SHORT_LASER = "Never leave a laser alone. Cautions: see summary.txt"
"""This and the two after it are the one line that stands in the drawing itself."""

SHORT_KNIFE = "Keep hands away from a moving knife. Cautions: see summary.txt"
SHORT_HAND = "Cut away from your hand. Cautions: see summary.txt"
LEATHER_BY_LASER = (
    "Leather by laser: chrome-tanned leather only with fume extraction and the maker's data sheet. "
    "The edge chars, and a charred edge cannot be feathered: cut one piece, skive it, glue it and pull before the rest is cut."
)
LEATHER_LEFT_TO_HAND = (
    "Leather is left to the hand: this drawing has no kerf and is not for the laser. Cut round the templates, or ask for leather by laser."
)
UNKNOWN_CUTTER = "cutter: is {cutter}; use {cutters} or {last}"
FLESH_SIDE = "flesh side"
OUTSIDE = "outside"

LAYERS = (
    "Measure the bar on the layer SCALE, which stands right of the stock, and switch that layer off. "
    "Work the layers TEXT, MARK, SKIVE and CREASE at a setting that does not cut through, in the order of the file, and CUT last. "
    "Only CUT is cut."
)
KERF_HALVED = (
    "Every drawing for the laser is there twice. Named kerf-{mm}mm, its cuts are set off by half a kerf of {kerf}, outwards round pieces, inwards "
    "in holes, for a machine that follows the line. Without that name it has no kerf, for a shop or a machine that allows for its own. "
    "Never both. Cut the test piece first."
)
NO_KERF = "No kerf is in the drawings: the kerf that the profile gives is nought. Cut the test piece first."
LINES_LEFT_OUT = "Left out lest they are burnt twice, nearer than the kerf of {kerf} to a cut or another line: lines of {parts}."
KNIFE_COMPENSATED = "No kerf is allowed for. Cuts run on {overcut} past sharp corners. Let the machine compensate for its blade."
KNIFE_PIVOT_DRAWN = (
    "No kerf is allowed for. Cuts run on {overcut} past sharp corners. The path of the pivot is drawn, for a blade that trails {offset}: "
    "switch the machine's own compensation off. Each cut begins with a short run in the waste that turns the blade."
)
NO_FREE_PLACE = (
    "There is no free place on the stock for the caution: it stands above the upper edge. "
    "Switch the layer TEXT off, or it is drawn on the bed."
)
EDGE_IS_A_MARK = "The edge of the stock is drawn as a mark."
LAY_SKIN = "Lay the skin with its leftmost and its rightmost point on the ends of the two short marks; the origin is the corner of its box."
LAY_SHEET = "Lay the lower left corner of the stock into the corner mark, which is the origin of the file: set the zero there."
USUAL_OUTLINE = "The outline of this skin is only a usual one of its area: lay the pieces out again by its true outline before it is cut."
INWARD_CORNERS = "Corners that point into a piece are not overcut, which would nick it: free them with a hand knife."
OFF_STOCK = "Some cuts run on past the edge of the stock: leave room on the bed beside it."
TURN_ON_BED = "This piece of stock goes on the bed of {across} x {along} mm only when the drawing and the stock are turned by 90 degrees."
ROLL_OVER_BED = (
    "{id}: the length of roll of {label} is {width} x {height} mm, but the cutter's bed takes {across} x {along} mm (cutter.bed); "
    'cut the roll into sheets that fit, and give {key} form = "sheet" and their size'
)
SKIN_OVER_BED = (
    "{id}: the skin of {label} is {width} x {height} mm, but the cutter's bed takes {across} x {along} mm (cutter.bed); "
    "cut the skin down first, and give the outline of what is left as {key}.outline"
)
SHEET_OVER_BED = (
    "{id}: the sheet of {label} is {width} x {height} mm, but the cutter's bed takes {across} x {along} mm (cutter.bed); "
    "cut the sheet down first, and give its size as {key}.size"
)
BACK_FIRST = (
    "Two passes. First the back: lay the stock outside down, work the drawing of the back, "
    "which scores the ridges and cuts the register holes."
)
THEN_FRONT = "Then turn the stock over left to right, outside up, and work the front, which scores the valleys and cuts the outlines."
SET_BY_TAPE = (
    "Set the front by the holes: run the layer MARK of the front on tape stuck to the bed, which shows where the holes come, "
    "put pins through two of them that lie far apart, and lay the stock on the pins."
)
SET_BY_DRAWING = (
    "Set the front by the holes: the holes are marked in the drawing of the front, "
    "put pins through two of them that lie far apart, and lay the stock on the pins."
)
SET_BY_CORNER = (
    "Setting it by its corner serves only where it is square and {width} mm across: by what it differs the scores miss each other."
)
TOO_CLOSE_FOR_KERF = (
    "{id}: {one} and {other} lie {gap} mm apart, less than the kerf of {kerf} mm (cutter.kerf), so both would lose material; "
    "lay out with a gap of at least the kerf"
)
OVERCUT_NICKS = (
    "The overcut of {overcut} is more than the {gap} mm between {one} and {other}: it nicks the neighbour at corners. "
    "Lay out with a gap of the overcut, or give less overcut."
)
ONE_LEAD_NICKS = "{number} piece: the run that turns the blade has no room and cuts into a neighbour. Lay out with a wider gap."
LEADS_NICK = "{number} pieces: the run that turns the blade has no room and cuts into a neighbour. Lay out with a wider gap."
HOLE_GONE = "{name}: a hole is too narrow for a kerf of {kerf} mm and would be gone; leave it out or cut it by hand"
NOTCH_CLOSED = "{name}: a notch is too narrow for a kerf of {kerf} mm and would close; cut it by hand"
NOTCH_GONE = "{name}: a notch is too narrow for a kerf of {kerf} mm and would be gone; cut it by hand"
NOTCH_UNCUT = "{name}: {depth} mm of a notch are narrower than a kerf of {kerf} mm and would stay uncut; cut it by hand"

# what a file says of itself ------------------------------------------------------

TRUE_MILLIMETRES = "Millimetres, true size: the bar is {bar} mm."
MILLIMETRES = "Millimetres: the bar is {bar} mm."
OF_MATERIAL = "Material: {material}."
MATERIAL_AND_THICKNESS = "{material} {mm} mm"
FACE_UP = "Face up: {face}."
PIECES = "Pieces: {pieces}."
KERF_IS_IN = (
    "Kerf: IN this file, {kerf}. Follow the line: outlines stand half of it outside the piece, holes half of it inside. "
    "Do not let the machine allow for it again."
)
KERF_IS_NOT_IN = "Kerf: NOT in this file. The outlines are those of the pieces: let the machine allow for the width of its cut."
LAYER = "{layer}, {colour} {code}: {use}."
USE_SCALE = "this bar and these lines; switch it off"
USE_TEXT = "letters; engrave or leave out"
USE_MARK = "draw lightly or leave out"
USE_SKIVE = "paring begins here; draw lightly"
USE_CREASE = "crease or score, not through"
USE_CUT = "cut through, last of all"
LAYERS_TRIED = "Tried, each at a setting of its own: {layers}."
RED = "red"
ORANGE = "orange"
YELLOW = "yellow"
GREEN = "green"
BLUE_GREEN = "blue-green"
BLUE = "blue"
VIOLET = "violet"
PINK = "pink"
BLACK = "black"
GREY = "grey"
WHITE = "white"
LEATHER_FLESH_UP = "flesh side of leather, other parts as it stands under each"
LEATHER_GRAIN_UP = "grain side of leather, other parts as it stands under each"
AS_ON_TEMPLATES = "the face that is written on each lies up on the leather"
AS_THE_JOB = "that of the job"
EITHER_FACE = "either"
ONE_ONCE = "{number}, once; how many to cut stands under it"
EACH_ONCE = "{number} different, each once; how many to cut stands under each"
EACH_ONCE_IN_ALL = "{count} different, each once, {all} in all; how many of each stands under it"
FORM_FACE = "the outside; the end plate as seen from outside the right-hand end"
ONE_TEMPLATE = "{number} template"
TEMPLATES_ONCE = "{number} templates, each once"
LASER_BY_LAYOUT = "For a laser take the files of layout --cutter laser: they leave out lines that lie nearer to each other than its kerf."
RIGID = "thin ply or acrylic, 2 to 3 mm"
CAUL_STOCK = "card or ply, {caul} mm"
OF_THE_STOCK = "cut one of each stock of the job: {materials}"
ONE_TEST_PIECE = "one test piece"
TEST_PIECE_KERF = (
    "Kerf: IN the square, the hole and the gusset, {kerf}, and not in the comb. Follow the line: do not let the machine allow for it again."
)

# pressing cauls ----------------------------------------------------------------

CAULS_HEADING = "{name}: pressing cauls, of card or ply {caul} mm thick; pattern {fingerprint}"
CAULS_USE = (
    "Slide each in from outside, tab last, on the glued lap between the folded cards. "
    "Wrap it in waxed paper, or glue will hold it for good."
)
GUSSET_CAUL = "Gusset caul"
GUSSET_CAUL_CUT = "cut {count}, one for each {kinds} of one bellows; presses half of it against the card"
GUSSET_CAUL_SHORT = "gusset"
GUSSET_CAUL_SHORT_AT = "gusset {corners}"
CAUL_COUNT = "cut {count}"
VALLEY_CAUL = "Valley caul"
VALLEY_CAUL_CUT = "cut {count}, one for each valley of one bellows; presses the hinge along the fold"
VALLEY_CAUL_SHORT = "valley, cut {count}"
VALLEY_CAUL_SHORT_AT = "valley {sides}, cut {count}"

# test piece --------------------------------------------------------------------

TRIAL_HEADING = "Test piece"
TRIAL_HEADING_KERF = "Test piece, kerf set to {kerf} mm: cut it before the job"
TRIAL_HEADING_NO_KERF = "Test piece without kerf, for a machine that allows for its own"
TRIAL_HEADING_OVERCUT = "Test piece, overcut set to {overcut} mm: cut it before the job"
KERF_SCALE = "mm of kerf"
PUSH_THE_BARS = "Push the bars to the left. Line 0 of the last bar has moved by ten kerfs:"
READ_THE_SCALE = "1 mm on the scale is 0.1 mm of kerf, the line that meets one tells 0.01 mm."
TAKE_LEAST_OVERCUT = "Overcut in mm: take the least at which all four corners are cut through."
GAUGE_THE_SQUARE = "gauge the square:"
GAUGE_THE_HOLE = "gauge the hole: 50.00 mm"
CREASE = "crease"
MARK = "mark"
KERF_NOTE = (
    "Kerf: push the ten bars to the left end of their window. Count the millimetres of the scale that line 0 of the last bar has passed: "
    "they are tenths of a millimetre of kerf. The line of the bar that meets a line of the scale tells the hundredths. "
    "Write it into cutter.kerf."
)
GAUGE_NOTE = "Gauge the square and the square hole: with the right kerf both measure 50.00 mm."
OVERCUT_NOTE = "Overcut: take the least at which the corners of a square come out cut through, and write it into cutter.overcut."
SETTINGS_NOTE = (
    "Give each of the layers CREASE-1 to CREASE-5 and MARK-1 to MARK-5 a setting of its own: "
    "take the lightest crease that folds straight without breaking, and the lightest mark that can be seen."
)
GUSSET_NOTE = "Fold the trial gusset into an open corner before the rest is cut."
SAME_STOCK_NOTE = "Cut it from the same stock as the job, with the job's settings. Its lower left corner is the origin."

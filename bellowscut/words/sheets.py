"""What stands on the printed pattern sheets: warnings, captions, sizes, how sheets are joined, the map of the sheets."""

PRINT_TRUE = "Print at 100 %: do not fit to page."
LAY_THE_RULE = "Lay the rule on the bars: 100 mm both ways. If not, nothing on this sheet is right."
SHEET = "sheet {number} of {count}"
FINGERPRINT = "fingerprint {mark}"
LINES = {"cut": "cut", "crease": "crease", "skive": "skive", "mark": "mark"}
"""Names in the key of lines."""
SHORTENED = "{names} and {number} more"

FLESH = "This is the flesh side. From the grain side it is mirrored."
GRAIN = "This is the grain side. From the flesh side it is mirrored."
SUCK = "Suck the leather in three places. If air comes through, this skin leaks without a hole."
PULL = "Pull it both ways: a strip's long way must be the way that does not stretch."
CUT_ONE_FIRST = "Cut one first. Fold it into an open corner. If it is tight before the frames are {mm} apart, or puckers, stop."
CUT_ONE_FIRST_UNKNOWN = (
    "Cut one first. Fold it into an open corner. If it is tight before the frames are as far apart as while gluing, or puckers, stop."
)

UNKNOWN_PAPER = "paper {text} is not known; use one of {names}, or width x height such as 320x450 or 12x18in"
PAPER_TOO_SMALL = "paper {text} is too small; the measuring bars need {width} x {height} mm (5.83 x 8.27 in) or more"
SIZE_TOO_SMALL = "paper is {width} x {height} mm; the least is {least_width} x {least_height} mm"
PAPER_TOO_LARGE = "paper {text} is too large; no side may be over {largest} mm (196.9 in)"
MARGIN_RANGE = "paper margin {mm} mm is not possible: from {least} to {most} mm, usually {usual} mm"
MARGIN_TOO_WIDE = "paper margin {mm} mm leaves too little of paper of {width} x {height} mm: at most {most} mm, or larger paper"

CUT_COUNT = "cut {count}"
CUT_COUNT_SPARE = "cut {counted} spare"
SIZE = "{width} x {height} mm"
FACE = "{material}, {side}"
FACES = {"flesh": "flesh side", "grain": "grain side", "outside": "outside face", "inside": "inside face"}
FRONT, BACK = "{name}, front", "{name}, back"
BOARD_GRAIN = "grain"
LEAST_STRETCH = "least stretch"
SCORE_HERE = "do not cut: score here"
SCORE_NAMED = "{name}: do not cut: score here"
FRAME = "frame"
"""Says which tip or edge lies on the frame of the instrument."""
SIDE, SIDES = "side {names}", "sides {names}"
CORNER, CORNERS = "corner {names}", "corners {names}"
RUN = "{first} to {last}"
"""Neighbouring sides or corners drawn together."""

PIECE_SPARE = "spare {number}"
PIECE_SPARE_OF = "{place} spare {number}"
PIECE_SPARE_PLACES = "{first}\u2026"
"""Stands in the place ``place`` of the above for a piece that serves many corners: the first of them."""
PIECE_PLACE = "{place} {number}"
PIECE_BACK = "back {piece}"
PIECES_OF = "{name} ({number} of {count})"
MATERIAL_FIRST = "{material}: {names}"

STRIPS = "Strips"
STRIPS_HOW = (
    "These strips are longer than the paper. Cut each with a rule from its width and length: straight, and square at the ends. "
    "Mark the corners from its left end."
)
STICK_HOW = (
    "Measuring stick. Cut the pieces out and glue each on the tongue of the one before, letter by letter, so that the numbers "
    "run on. Lay a rule along it before you trust it."
)
STICK_UNITS = "millimetres above, inches below"
STRIP_SIZE = "{amount}, {width} x {length} mm"
STRIP_LINES = "{lines} mm from the lower edge"
STRIP_FOLD, STRIP_SKIVE = "fold {places}", "skive {places}"
STRIP_AND = "{first} and {last}"
STRIP_HEADINGS = ("strip", "cut", "width", "length", "corners from the left, mm")
STRIP_NO_CORNERS = "none"
DART = "{width} mm wide and {depth} mm deep"
DARTS = "Darts at the corners, both edges: {list}"

JOINED = "{names}, tile {number} of {count}"
"""Title of a sheet that shows a piece of something larger than the paper."""
JOIN_NOTE = (
    "These patterns go over several sheets, which overlap by {overlap} mm. Measure the bars first. Cut at the scissors, lay the edge "
    "on the next sheet's line, mark on mark, a on a, and glue it on the grey."
)
CUT_HERE = "cut here: this sheet goes over sheet {number}"
CUT_HERE_SHORT = "cut: over sheet {number}"
CUT_HERE_SHORTEST = "over sheet {number}"
LAY_HERE = "glue: the edge of sheet {number} on this line"
LAY_HERE_SHORT = "glue: under sheet {number}"

MAP = "Which sheet goes where"
MAP_OF = "map of {count} sheets"
MAP_HOW = (
    "Print every sheet at 100 % and lay a rule on its bars before you cut anything: trimming takes some of them away.",
    "Cut the first sheet of a pair along its broken line, at the scissors. The line runs through two marks: half of each stays on the edge.",
    "Lay that edge on the line of the other sheet, so that both marks become whole. Letters must agree: none stands twice in this set.",
    "The sheets overlap by {overlap} mm. Glue goes on the grey half of it, {half} mm wide.",
    "Hold the joint against the light and lay a rule across it: every line must run on without a step.",
)
MAP_JOINED = "{names}: {count} sheets, {width} x {height} mm when joined"
MAP_JOINED_ALIKE = "{names}: {times} times {count} sheets, {width} x {height} mm when joined; the first is shown"
MAP_SCALE = "drawn at 1 : {number}"
MAP_SEAM_RIGHT = "Cut sheet {over} at the right, lay it on sheet {under}: marks {first} and {last}"
MAP_SEAM_BELOW = "Cut sheet {over} below, lay it on sheet {under}: marks {first} and {last}"
MAP_OVERVIEW = "What stands on which sheet"
MAP_COLUMNS = ("part", "cut", "sheet")
MAP_TOGETHER = "{numbers} joined"

ONE_SHEET_PIECE = "{name} ({size})"
ONE_SHEET_PIECES = "too large for one sheet of {paper}: {names}. Leave --single-sheet out"
ONE_SHEET_PIECES_LARGER = "too large for one sheet of {paper}: {names}. Leave --single-sheet out, or give --paper {larger}"
ONE_SHEET_FULL = "not everything fits on one sheet of {paper}; left over: {names}. Leave --single-sheet out, or draw fewer pieces"
ONE_SHEET_FULL_LARGER = (
    "not everything fits on one sheet of {paper}; left over: {names}. Leave --single-sheet out, or give --paper {larger}"
)
PAPER_NAMED = "{name} ({width} x {height} mm)"

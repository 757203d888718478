"""What is wrong with a tracing.

Messages about the file begin without a subject, as in "is empty": the name of the file stands before them.
"""

MUST_BE_POSITIVE = "{name}: is {value}; it must be above 0"

# the file --------------------------------------------------------------------

NOT_SVG_OR_DXF = "a tracing is an SVG or a DXF, and its name ends in .svg or .dxf"
NOT_SVG_OR_DXF_BUT_SVGZ = "a tracing is an SVG or a DXF, and its name ends in .svg or .dxf; save it as a plain SVG"
IS_FOLDER = "is a folder; the tracing is one SVG or DXF file"
IS_PIPE = "is a pipe or device; the tracing is one SVG or DXF file"
NO_SUCH_FILE = "there is no such file"
NOT_PERMITTED = "may not be read: the system denies permission"
UNREADABLE = "cannot be read: {reason}"
NO_NAME = "this is no name of a file"
FILE_TOO_LARGE = "is larger than {megabytes} MB; a picture kept in the file counts too: take the scan out and keep the lines"
EMPTY = "is empty"
TOO_MANY_ELEMENTS = "holds more than {most} elements; a tracing needs a handful: keep the skin, its flaws and the check line"
TOO_MANY_POINTS = "has more than {most} points; simplify the lines in the drawing program"
NO_UNITS = (
    "has no units: a unit of the drawing was taken for {taken_as}; save it with sizes in mm, or give the skin's area, "
    "or draw a line named check along a rule and give its check_length"
)
A_MILLIMETRE = "a millimetre"
"""Stands in the place ``taken_as`` of the above, as `A_PIXEL` does."""

A_PIXEL = "a pixel, 1/96 in"
NO_LINE = "holds no line: the edge of the skin should be one closed line"
NO_LINE_PASSED_OVER = "holds no line (passed over: {passed_over}): the edge of the skin should be one closed line"
ONLY_BARS = "holds no outline of the skin: all its outlines are named no-..., which bars a kind of part"

# numbers and places ----------------------------------------------------------

NOT_A_NUMBER = "{what}: {text} is not a number"
NUMBER_NOT_FINITE = "{what}: a coordinate is not a finite number"
COORDINATE_NOT_FINITE = "a coordinate is not a finite number"
COORDINATE_TOO_FAR = "a coordinate is {mm} mm: farther off than any skin reaches"
NUMBERS_LEAD_NOWHERE = "one {kind} has numbers that lead nowhere"
ARC_TOO_LARGE = "an arc is larger than anything that is drawn"
RIGHT_AND_UP = "{right} mm right and {up} mm up"
IN_DRAWING = "{right} mm right and {up} mm up from the lower left corner of the drawing"
IN_SKIN = "{right} mm right and {up} mm up from the lower left corner of the skin"
IN_OUTLINE = "{right} mm right and {up} mm up from the lower left corner of the outline"

# lines that make no outline --------------------------------------------------

ONE_LINE_OPEN = (
    "a line is open: ends miss each other by {distance}, one {here}, the other {there}; close the outline there, or take the line away"
)
LINES_OPEN = (
    "{number} lines are open: ends miss each other by {distance}, one {here}, the other {there}; "
    "close the outline there, or take the line away"
)
MANY_LINES_OPEN = "has {number} open lines; an outline is one closed line"
TOO_MANY_OUTLINES = "has {number} closed outlines, more than {most}: take away the specks that an automatic trace leaves"
LINES_MEET = "more than two lines meet {place}: an outline goes through a point once"

# outlines --------------------------------------------------------------------

THE_OUTLINE = "the outline"
"""This and the four after it stand in the place ``what`` below."""

THE_LARGEST_OUTLINE = "the largest outline"
AN_OUTLINE = "an outline"
AN_OUTLINE_NAMED = "an outline named no-{kind}"
FLAW_NUMBER = "flaw {number}"
NO_AREA = "{what} encloses no area, {place}"
TOO_RAGGED = "{what} is too ragged: {number} points are left when it is smoothed; at most {most} can be used"
CROSSES_ITSELF = "{what} crosses or touches itself, {place}"
COUNT_OF_POINTS = "{what} has {number} points; it needs from 3 to {most}"
POINT_TOO_FAR = "{what}: its point {number} is ({x}, {y}), which is not in any workshop"
TOO_RAGGED_TOGETHER = "has outlines with {number} points when smoothed; at most {most} can be used"
FLAW_NOT_FINITE = "flaw {number}: needs points whose coordinates are finite numbers"
OUTSIDE_SKIN = "an outline lies outside the skin, {place}: a flaw lies in it or reaches over its edge"
TWO_SKINS = "has two outlines of similar size beside each other, the second {share} % of the first: one drawing, one skin"
TWO_SKINS_OVERLAP = "has two outlines of similar size that overlap, {place}: one drawing, one skin"
TRACED_TWICE = (
    "inside the largest outline is another with {share} % of its area: the line was traced on both its edges, "
    "or there is a frame round the skin; keep the skin's own edge only"
)
FRAME_ROUND_SKIN = (
    "the largest outline is a plain rectangle, and one inside it has {share} % of its area: take away the frame round the skin"
)
BAR_OUTSIDE_SKIN = "an outline named no-{kind} lies outside the skin, {place}: there it bars nothing"
TOO_MANY_BARS = "bars more than {most} places"
TOO_MANY_BARRED_KINDS = "bars so many kinds of part in so many places that it cannot be meant"

# size ------------------------------------------------------------------------

CHECK_TOO_LONG = "the check line is {measured} long, but check_length is {stated}: the drawing is {times} times too large; {why}"
CHECK_TOO_SHORT = "the check line is {measured} long, but check_length is {stated}: the drawing is {times} times too small; {why}"
AREA_TOO_LARGE = "the skin as drawn has {measured}, but area is {stated}: the drawing is {times} times too large; {why}"
AREA_TOO_SMALL = "the skin as drawn has {measured}, but area is {stated}: the drawing is {times} times too small; {why}"
CHECK_THE_SCALE = "check the scale of the scan and the size stated"
"""This and those that begin with "it looks" stand in the place ``why`` above."""

INCHES_AS_MILLIMETRES = "it looks as if inches were read as millimetres"
MILLIMETRES_AS_INCHES = "it looks as if millimetres were read as inches"
CENTIMETRES_AS_MILLIMETRES = "it looks as if centimetres were read as millimetres"
MILLIMETRES_AS_CENTIMETRES = "it looks as if millimetres were read as centimetres"
METRES_AS_MILLIMETRES = "it looks as if metres were read as millimetres"
MILLIMETRES_AS_METRES = "it looks as if millimetres were read as metres"
PIXELS_96_AS_MILLIMETRES = "it looks as if pixels, 96 to the inch, were read as millimetres"
PIXELS_90_AS_MILLIMETRES = "it looks as if pixels, 90 to the inch, were read as millimetres"
POINTS_AS_MILLIMETRES = "it looks as if points, 72 to the inch, were read as millimetres"
MILLIMETRES_AS_PIXELS_96 = "it looks as if millimetres were read as pixels, 96 to the inch"
MILLIMETRES_AS_PIXELS_90 = "it looks as if millimetres were read as pixels, 90 to the inch"
MILLIMETRES_AS_POINTS = "it looks as if millimetres were read as points, 72 to the inch"
UNITS_72_AS_96 = "it looks as if the drawing has 72 units to the inch and was read with 96"
UNITS_90_AS_96 = "it looks as if the drawing has 90 units to the inch and was read with 96"
UNITS_96_AS_72 = "it looks as if the drawing has 96 units to the inch and was read with 72"
SQUARE_MILLIMETRES = "{mm2} mm2"
CHECK_LINE_MISSING = "check_length is given, but no line stands in a group or on a layer named check: draw one along a rule"
CHECK_LINES = "has {number} lines named check; there should be one, as long as check_length says"
CHECK_LINE_CLOSED = "the check line is a closed outline; it should be one straight line between two marks of a rule"
CHECK_LINE_BENT = "the check line is not straight; it should be one straight line between two marks of a rule"
CHECK_LINE_RUNS_BACK = "the check line runs back on itself; it should be one straight line between two marks of a rule"
SKIN_TOO_SMALL = (
    "the skin is {width} by {height}: too small for a skin, which is from 20 mm to 5 m across; "
    "check the unit of the drawing, and give area or check_length"
)
SKIN_TOO_LARGE = (
    "the skin is {width} by {height}: too large for a skin, which is from 20 mm to 5 m across; "
    "check the unit of the drawing, and give area or check_length"
)

# DXF -------------------------------------------------------------------------

DXF_BREAKS_OFF = "does not read as DXF: it breaks off"
DXF_LINE_BREAKS_OFF = "does not read as DXF: in its line {row}, it breaks off"
DXF_NO_GROUP_CODE = "does not read as DXF: in its line {row}, {text} stands where a group code should"
DXF_BINARY = "is a binary DXF; save it as an ASCII DXF"
DXF_NOT_TEXT = "is not text; save it as an ASCII DXF"
DXF_IS_SVG = "is not a DXF; if it is an SVG, its name should end in .svg"
DXF_NO_SECTIONS = "does not read as DXF: it has no sections"
DXF_NO_SECTION = "does not read as DXF: {text} stands where a section should begin"
DXF_NO_ENTITY = "does not read as DXF: {text} stands before the first entity"
DXF_POLYLINE_WITHOUT_END = "does not read as DXF: a POLYLINE has no end (SEQEND)"
DXF_POLYLINE_HOLDS = "does not read as DXF: a POLYLINE has {kind} in it"
DXF_BLOCK = "holds a block (INSERT): explode it in the drawing program, so that its lines stand in the drawing itself"
DXF_UNKNOWN_UNIT = "is drawn in a unit that no workshop uses ($INSUNITS); set the unit of the drawing to millimetres"
DXF_TOO_MUCH = "holds far more than a tracing needs; keep the skin, its flaws and the check line, and purge the rest"
DXF_A_LAYER = "a layer"
"""Named where the number of a layer does not read."""

DXF_SOLID = "is not flat: it holds a solid ({kind}); draw the tracing in one plane"
DXF_TILTED = "is not flat: a line lies in a tilted plane; draw the tracing in one plane"
DXF_NOT_FLAT = "is not flat: it has lines {mm} mm above others; draw the tracing in one plane"
DXF_ARC_WITHOUT_RADIUS = "has an arc with no radius"
DXF_ELLIPSE_WITHOUT_AXIS = "has an ellipse with no axis"
DXF_MESH = "holds a mesh, which is no outline"
DXF_SPLINE_TOO_LARGE = "has a spline with too many points or of too high a degree; turn it into a polyline in the drawing program"
DXF_SPLINE_INCOMPLETE = "has a spline with numbers missing; turn it into a polyline in the drawing program"
DXF_SPLINE_CANNOT_BE_DRAWN = "has a spline that cannot be drawn; turn it into a polyline in the drawing program"
DXF_SPLINE_OF_ONE_POINT = "has a spline of fewer than two points"

# SVG -------------------------------------------------------------------------

SVG_UNREADABLE = "does not read as SVG: {reason}"
SVG_UNREADABLE_AT = "does not read as SVG: {reason} in its line {line}, column {column}"
SVG_IS_DXF = "is not an SVG; if it is a DXF, its name should end in .dxf"
SVG_NO_ROOT = "is not an SVG: its outermost element should be svg"
SVG_OTHER_ROOT = "is not an SVG: its outermost element is {name}, not svg"
SVG_COMPRESSED = "is a compressed SVG; save it as a plain SVG"
SVG_NOT_UTF_8 = "is not UTF-8 text; save it again as a plain SVG"
SVG_TOO_MUCH = "holds far more than a tracing needs; keep the skin, its flaws and the check line"
SVG_DOCTYPE = "has declarations of its own in its DOCTYPE, which are not read; save it as a plain SVG"
SVG_ENTITIES = "declares entities of its own, which are not read; save it as a plain SVG"
SVG_MOVED_BY_STYLE = "moves a shape by its style, which is not read; save it as a plain SVG"
SVG_STYLE_TOO_LONG = "a style is too long to be meant; save it as a plain SVG"
SVG_NESTED_TOO_DEEP = "nests groups more than {deepest} deep; ungroup the drawing"
SVG_CLONE = "holds a copy of another shape (use): unlink the clones in the drawing program"
SVG_WITHIN_SVG = "holds a drawing within the drawing: move its lines to the outer one"
SVG_WHICH_ELEMENT = "{fault}; it is the {name} with the id {called}"
SVG_POINTS = "the points of a line"
"""This and the two after it stand in the place ``what``."""

SVG_PATH = "a path"
SVG_TRANSFORM = "a transform"
SVG_NUMBER_MISSING = "{what} cannot be read: a number is missing before {rest}"
SVG_BAD_FLAG = "{what} cannot be read: an arc has a flag that is neither 0 nor 1 before {rest}"
SVG_ITS_END = "its end"
"""Stands in the place ``rest`` of the two above where nothing follows."""

SVG_NO_COMMAND = "a path cannot be read: {letter} is no command of a path, or stands before the first M"
SVG_NUMBER_FOR_COMMAND = "a path cannot be read: a number stands where a command should"
SVG_NO_LENGTH = "{what}: {text} is no length; write it in mm"
SVG_RELATIVE_LENGTH = "{what}: {text} is a share of something else; write it in units of the drawing"
SVG_NO_ROOM = "{what}: {text} leaves no room for a drawing"
SVG_VIEWBOX = "viewBox: {box} should be four numbers, the last two above 0"
SVG_STRETCHED = "the drawing is stretched: one unit is {across} mm across but {along} mm along; make width and height fit the viewBox"
SVG_TRANSFORM_TOO_LONG = "a transform is too long to be meant"
SVG_TRANSFORM_UNREADABLE = "a transform cannot be read: {text}"

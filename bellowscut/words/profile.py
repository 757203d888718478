"""What is wrong with a profile as a file, with its tables and keys, and with what its keys owe to each other."""

MORE_PROBLEMS = "and {number} more problems"
NO_NAME = "is no name of a file or a profile"
NO_SUCH_FILE = "there is no such file"
NO_PROFILE_NEAREST = "there is no such file, and no profile of that name ships; the nearest are {names}"
NO_PROFILE_SHIPPED = "there is no such file, and no profile of that name ships; those that do are {names}"
IS_FOLDER = "is a folder: should be the file of a profile"
IS_PIPE = "is a pipe or device: should be the file of a profile"
UNREADABLE = "cannot be read: {reason}"
FILE_TOO_LARGE = "is larger than {kilobytes} kB: that is no profile"
NOT_UTF_8 = "is not UTF-8 text: save it as UTF-8"
KEY_TOO_DEEP = "a key of more than {parts} parts is no key of a profile"
NESTED_TOO_DEEPLY = "lists or tables are nested too deeply for a profile"
NOT_TOML = "does not read as TOML: {reason}"
NOT_TOML_QUOTES_MISSING = 'does not read as TOML: {reason}; a value with a unit stands in quotes: "{value}"'
THE_DEFAULT = "{value} (the default)"
NOT_OPTIONAL = "{kind} is not an optional part: those are {kinds}"
UNNAMED = "profile"
"""What an instrument is called where neither the profile nor its file has a name."""

SHOULD_BE_TABLE = "should be one table, [{table}]"
SHOULD_BE_TABLES = "should be tables, such as {example}"
SHELF_TABLES = "should be tables, such as {example} with area and price under each"
NOT_OPERATION = "is no operation of a job: the nearest is {nearest}"
NOT_KEY = "is not a key of a profile"
NOT_TABLE = "is not a table of a profile"
KEY_ELSEWHERE = "is not a key here: it belongs {homes}"
TABLE_ELSEWHERE = "is not a table here: it belongs {homes}"
IN_TABLE = "in [{table}]"
"""One of the ``homes`` of the two above, as `BEFORE_TABLES` is."""

BEFORE_TABLES = "before the first table"
OR = " or "
"""Between the last two of a list of which one is right; between all where there are more."""

AND = " and "
UNKNOWN_KEY = "is not a known key: the nearest is {nearest}"
UNKNOWN_TABLE = "is not a known table: the nearest is {nearest}"
UNKNOWN_KEY_OF = "is not a known key of [{table}]: the nearest is {nearest}"
UNKNOWN_TABLE_OF = "is not a known table of [{table}]: the nearest is {nearest}"
NOT_OF_THIS_SORT = "belongs to {fits}, and this is {this}: take it out"

MATERIAL_NAME = "the name of a material should be one plain line of 1 to {most} characters"
FORM_MISSING = 'is missing: should be "skin", "sheet" or "roll", since {name} is not built in'
KEY_MISSING = "is missing: write for example {key} = {example}"
KEY_MISSING_MEANING = "is missing: write for example {key} = {example} ({meaning})"
SHELF_OF_ROLL = "belongs to skins and sheets; of a roll give width, length and count"
SHELF_NAME = "should be one plain line of at most {most} characters"
HOLDS_FOR_ALL = "holds for all skins of this material: write it under [{table}]"
SHEET_HAS_TWO_SIDES = "a sheet has two sides"
TOO_MANY_DIGITS = "a number has more digits than any size needs"
"""Stands in the place ``reason`` of what is no TOML."""

OUTLINE_OF_NO_AREA = "encloses no area: give its corners in order round the skin, so that its line does not cross itself"
OUTLINE_OR_CLEAR = "give outline or clear, never both"
FLAWS_WITHOUT_OUTLINE = "flaws belong to an outline: give outline as well"
SKIN_PRICED_BY = "a skin is priced by {units}, or by the piece without price_per"
SHEET_PRICED_BY = "a sheet is priced by {units}, or by the piece without price_per"
ROLL_PRICED_BY = "a roll is priced by {units}"
PRICE_MISSING = "there is no price beside it: write for example price = 11.50"

COLOUR_OF_CUTS = "is nearly the colour of what is cut, {cut}: a machine that goes by colour would cut through there; give it or cut_colour another colour"
COLOUR_TAKEN = (
    "is nearly the colour {colour} that is meant by {key} when the profile gives none: "
    "a machine that goes by colour would cut through there; give {key} another colour"
)
ONE_OR_OTHER = "give {one} or {other}, never both: take one out"
ODD_SIDES = 'an end of {sides} sides has no flats or corners opposite each other: write measure = "side" and one side as end_size'
ODD_SIDES_MEASURE_MISSING = (
    'is missing: an end of {sides} sides has no flats or corners opposite each other: write measure = "side" and one side as end_size'
)
END_TOO_SMALL = "too small: should be from {least}"
END_TOO_SMALL_MEANT_INCHES = 'too small: should be from {least}; a bare number is millimetres, for inches write "{inches} in"'
MEASURED_BY_NOTHING = 'shape = "measured" needs one of flats, side_lengths or corners: write for example side_lengths = {example}'
MEASURED_TWICE = "give one of flats, side_lengths or corners; here are {given}"
COUNT_OF_FLATS = "has {count} values: an end has from {least} to {most} pairs of opposite sides"
COUNT_OF_SIDES = "has {count} values: an end has from {least} to {most} sides"
OTHER_END_FAULT = "repeats {key} at the second end, but {fault}"
OTHER_END_COUNT = "has {count} values: should have {wanted}, as many as {key}"
NO_SUCH_SIDE = "names a side {side}: the sides of this section are A to {last}"
LAP_CONTRADICTS = (
    "readings.glue_shadow says that the old lap was {shadow}: it contradicts this lap; take gusset.lap out to cut to the old lap, "
    "or readings.glue_shadow out to keep one of your own"
)
UNKNOWN_MATERIAL = "there is no [materials.{name}], and the built-in materials are {names}"
SKIVE_TOO_WIDE = "too large: its {key} is only {lap}; should be {lap} at most"
FEATHER_TOO_THICK = "too large: its leather, {material}, is only {thickness} thick; should be {thickness} at most"

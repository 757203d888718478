"""What is said of stock and of what lies on it."""

WHOLE_BELLOWS = "whole bellows, skin by skin"
MANY_SETS = "as many sets as fit"
SETS_OF_ROLL = "--sets {kind}: it is cut from a roll, {material}, which has no end; `bellowscut layout` tells the length that one set takes"
SETS_OF_NOTHING = "--sets {kind}: this job makes none of it; it makes {made}"
SETS_OF_MANY_MATERIALS = "--sets {kind}: it is cut from {materials}, and one skin is filled at a time"
AND = " and "
"""Between the ``materials`` of the above."""

GIVES_ONE_SET = "{material} gives {number} set of {pieces} {kind} pieces each, without spares."
GIVES_SETS = "{material} gives {number} sets of {pieces} {kind} pieces each, without spares."
LAYOUT_BREAKS_A_RULE = "the layout breaks a rule, which is a fault of the program: {rule}"
COLOUR_MAY_DIFFER = (
    "All pieces of {material} in one bellows from one skin; this layout uses {number}: colour may differ. "
    "Keep the pieces of each skin together."
)
USUAL_OUTLINE = (
    "Nobody has measured the {material}: its outline is a usual one of the stated area. Hold the picture against yours before you cut."
)
SCARFED_FROM_SKIN = (
    "{part} ({id}) is longer than the {most} that lie on the skin: {count} of it are cut in {lengths} lengths each, "
    "with {joints} scarf joints of {scarf} mm in all."
)
SCARFED_FROM_SHEET = (
    "{part} ({id}) is longer than the {most} that lie on the sheet: {count} of it are cut in {lengths} lengths each, "
    "with {joints} scarf joints of {scarf} mm in all."
)
LENGTH_OF_PART = "{part}, length {number} of {count}"
SCARF_NOTE = (
    "joined to its neighbours by scarf joints of {scarf} mm: pare both ends to nothing over the joint, one from above, one from below"
)
BARRED_TO_NO_KIND = "a place is barred to {unknown}, which is no kind of part; those are {kinds}"
FINDS_NO_PLACE_ON_SKIN = (
    "{material}: {part} ({id}) finds no place on any skin, even alone; "
    'say what there is in [materials."{material}"]: keep fewer flaws, bars and margin, or give a larger one'
)
FINDS_NO_PLACE_ON_SHEET = (
    '{material}: {part} ({id}) finds no place on any sheet, even alone; say what there is in [materials."{material}"]: give a larger one'
)
FINDS_NO_PLACE_ON_ROLL = (
    '{material}: {part} ({id}) finds no place on any roll, even alone; say what there is in [materials."{material}"]: give a larger one'
)
TOO_LITTLE_LEATHER = (
    "{material}: no place was found for {parts}; about {dm2} dm2 ({feet} sq ft) more leather is needed, or a search of more --seconds"
)
TOO_LITTLE = (
    "{material}: no place was found for {parts}; about {dm2} dm2 ({feet} sq ft) more of it is needed, or a search of more --seconds"
)
COUNT_OF_PART = "{count} {part} ({id})"
"""One of the ``parts`` of the two above."""

ROLL_TOO_SHORT = "{material}: {needed} of the roll are needed, and it is {most} long; get a longer one and say so in its size"

STOCK_FULL = "{stock}, {area}, {percent} full"
ROLL_FULL = "{stock}, {percent} full"
OF_INSTRUMENT = "instrument {number}: {parts}"
LEFT_OVER = "left over: {what}"
LENGTH_OF_ROLL = "{label}, {metres} of the roll"
SIZE_AND_AREA = "{long} \u00d7 {short} mm, in all {area}"
NOTHING_LEFT = "nothing of use"
METRES_OF_ROLL = "{metres} of roll"
COUNTED = {"skin": ("{number} skin", "{number} skins"), "sheet": ("{number} sheet", "{number} sheets")}
"""How many, by form: for one, and for more."""

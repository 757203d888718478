"""What stands on the pictures: names of states and places, dimensions, captions."""

TITLE = "Pictures"
HEAD = "{title}, page {number} \u00b7 all lengths in millimetres"
FINGERPRINT = "fingerprint {mark}"

BELLOWS = "The bellows closed, half open and at full stretch"
STATES = {"closed": "Closed", "half-open": "Half open", "open": "Full stretch"}
STATE_NOTE = "cards at {angle} degrees"
LENGTHS_DRAWN = "lengths along the bellows {scale}"
CLOSED_NOTE = "as its layers allow"
BELLOWS_SCALE = "Lengths along the bellows are drawn {scale}; frames are not to scale. Mark side A (black notch) on both frames before anything comes apart."
HIDDEN = "Leather that a corner does not need yet stands out between the cards."

CORNER = "Corner {name}, every layer named"
LAYERS = "Frame, valley and ridge, cut through the middle of a side"
LAYERS_NOTE = "Thicknesses are drawn stouter than they are."
CELL = "One cell closed, layer by layer"
CELL_NOTE = "Two cards and what lies between them, {scale} in thickness."
CELL_GOVERNS = "The {place} governs: {cells} cells of {cell} mm are {length} mm between the frames."
CELL_GOVERNS_FACTOR = (
    "The {place} governs: {cells} cells of {cell} mm, times {factor} as your own bellows have taught, are {length} mm between the frames."
)
PLACES = {"face": "face", "valley": "valley", "ridge": "ridge", "corner": "corner"}
PLACE_GOVERNS = "{place}, governs"
LAYER = "{name} {mm}"
LAYERS_ALIKE = "{name} {count} x {mm}"
LAYER_NAMES = {
    "card": "card",
    "facing": "facing",
    "hinge": "hinge",
    "valley-strip": "valley strip",
    "ridge-cloth": "ridge cloth",
    "edge-strip": "edge strip",
    "edge-strip-flank": "edge strip, mean",
    "gusset-lap": "gusset lap, mean",
    "gusset": "gusset folded",
    "cover": "cover gusset",
    "cover-folded": "cover folded",
}

PARTS = "Every part with its size"
PARTS_NOTE = (
    "Lines of parts are those of the pattern sheets. Sizes at rounded corners run to the sharp corner, except those marked over all."
)
PART_SCALE = "scale {scale}"
THICKNESS = "{material}, {mm} mm thick"
BROKEN = "length not to scale (broken)"
OVER_ALL = "{mm} over all"
RIDGE_EDGE = "ridge edge {mm}"
VALLEY_EDGE = "valley edge {mm}"
EDGE = "{mm}"
ANGLE = "{degrees}\u00b0"
RADIUS = "R {mm}"
RADII = "{count} x R {mm}"
HOLES = "{count} x \u00d8 {mm}"
LAP = "lap {mm}"
LAPS = "laps {lap} mm over the cards at the valley, {tip} mm at the tips"
BEND = "bend {mm}"
FOLD_GAP = "gap {mm}"
COVER = "cover {mm}"
SKIVE = "skive {mm}"
JOINT = "joint {mm}"
TURN = "turn {mm}"
TIP = "tip {mm}"
WIDTH = "{mm} wide over all"
HEIGHT = "{mm} high over all"
MIRRORED = "{count} as drawn, {mirrored} mirrored"
ALSO = "not in the drawing: {sizes}"
SHARP = "{mm} mm wide to the sharp points"
OTHER_TIP = "the tip at the foot, over the ridge, is {mm} mm wide"
FOLD = "fold {mm}"
SKIVE_FROM_CARD = "skive the long edges from the card's edge outwards, to {feather} mm"
SKIVE_BESIDE = "skive the long edges to {feather} mm"
CORNERS_FROM_END = "corner marks {list} from the left-hand end of the strip"
DARTS = "darts at the corner marks {wide} wide at the edge, {deep} deep"
LENGTHS = "lengths: {list}"
LENGTH_OF = "{places} {mm}"
FOLDS_OF_RUN = "{count} cards, {mm} from fold line to fold line"

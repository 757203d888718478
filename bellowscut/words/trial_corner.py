"""What stands on the trial corner, the one corner in paper that is made first."""

MAKE_ONE_FIRST = "Make one first"
MAKE_ONE_FIRST_SHEET = "Make one first, sheet {number}"
MAKE_ONE_FIRST_CORNER = "Make one first: corner {corner}"
FOOT = "trial corner"
FOOT_OF = "trial corner, {number} of {count}"
FOOT_PARTS = "one corner in paper, true to size"
CUT_AND_FOLD = "Cut along the black lines. Fold both sides at valley and ridges, print inside."
GLUE_THE_TABS = "Glue the tabs to the plates, just outside the lines: {before} on {before}, {after} on {after}, ridges on the lines."
GLUE_THE_GUSSET = (
    "Hold the plates {mm} mm apart. Glue the gusset over both sides, print up, valley on valley, its edges on their slant marks; "
    "its tips go on the plates."
)
PRESS_IT_SHUT = "Press it shut. It must lie flat, and the narrow end of the gap gauge must find room at the valley."
DRAW_IT_OPEN = (
    "Draw it open. It should come tight just as the stretch gauge stands between the plates and the wide end of the gap gauge "
    "fills the valley: {mm} mm, the whole bellows {open} mm."
)
STOP_IF_TIGHT = "If it is tight before the plates are {mm} mm apart, or puckers, stop: measure again before any leather is cut."
PAPER_TOO_SMALL = (
    "The paper corner of this bellows needs paper of at least {width} x {height} mm: it must be true to size and in whole pieces. "
    "Print this one page on larger paper, or cut one gusset and try it on two cards."
)

SIDE = "side {side}"
VALLEY = "valley"
RIDGE = "ridge"
GLUE = "glue"
GLUE_TO_PLATE = "glue to plate"
GUSSET = "gusset"
PRINT_UP = "print up"
PLATE = "plate"
LEFT_HAND_END = "left-hand end"
RIGHT_HAND_END = "right-hand end"
LEFT = "left"
RIGHT = "right"
FULL_STRETCH = "full stretch {mm} mm"
TO_THE_MARK = "to the mark: form {mm}"
VALLEY_GAP = "valley gap"
STRETCHED = "stretched {mm} mm"
CLOSED = "closed {mm} mm"

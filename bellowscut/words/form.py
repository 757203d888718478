"""The form: names of its pieces, how it goes together and comes apart, and what is said when it cannot."""

COMB = "Comb"
SIDE_BOARD = "Side board, {sides}"
SIDE = "side {side}"
SIDES = "sides {sides}"
END_PLATE = "End plate"
CORE_RIB = "Core rib"
CORE_SPINE = "Core spine"
SPACER = "Spacer stick"
PLY = "{mm} mm ply"
COMB_NOTE = "glue its tabs into a side board"
SIDE_BOARD_NOTE = "combs outward, tabs into the end plates"
END_PLATE_NOTE = "a right-hand and a left-hand one: write it on them, and A at the mark"
CORE_RIB_NOTE = "on the spine at its marks, glued"
SPACER_NOTE = "its notches are the valleys; prop the frames with all of them"
NO_ROOM_FOR_CORE = "the form has no room for a core: {depth} mm of combs and boards on each side leave nothing in the middle; thinner ply, a smaller form.back or shallower folds"
NO_ROOM_FOR_COMB = "side {side} has no room for a comb: between its neighbours and the card's own edges there are {width} mm, and a board is {ply} mm with wood on either side; thinner ply, or shallower folds"
CANNOT_LEAVE = "the form does not come apart: {sides} cannot leave the finished bellows, even with combs close together; a piece has to move {inward} mm inward past the others with {clearance} mm to spare; thinner ply, a smaller form.back or form.clearance, shallower folds, or a steeper slope"
SIDE_AND_LIST = "side {side}"
SIDES_AND_LIST = "sides {sides}"

TITLE = "Form"
PAGE_TITLE = "Form, page {number}"
SUB = "The form to build this bellows on, and how it comes out again"
FACTS = "Ridges {height} high, valleys {pitch} apart, slope {slope}\u00b0, {length} from end to end. The combs lie {set_in} inside the outer fold lines: {allowance} of card and hinge cloth, square to the card."
SEEN_ALONG = "Seen along the bellows, from outside the right-hand end"
SEEN_ALONG_NOTE = "Dashed: the inside at the valleys, gussets and all. Numbers: the order of leaving. The key is dark."
DRAWN_APART = "Its pieces, in the order in which they leave"
FIRST_PLATE = "1 right-hand end plate"
SECOND_CORE = "2 core"
THIRD_PLATE = "3 left-hand end plate"
KEY_SEGMENT = "{number} key segment, side {side}"
MORE_SEGMENTS = "{first} to {last} the other segments"
COMB_PICTURE = "A comb"
PIECES_HEADING = "Cut from {ply}"
PIECE_COLUMN = "piece"
COUNT_COLUMN = "count"
SIZE_COLUMN = "size, mm"
NOTE_COLUMN = "what to know"
TOGETHER_HEADING = "Put it together"
TOGETHER = (
    "Ease every arris of the combs: an edge that is left sharp cuts the cloth. Try each tab in its slot before there is glue on it.",
    "Glue {combs} combs into {boards} side boards, square to them. Mark each board with the letter of its side.",
    "Glue {ribs} ribs on the spine at its marks: that is the core. It must slide between the side boards without a knock.",
    "Stand the side boards in the left-hand end plate, A at its mark. Slide the core in, put on the right-hand end plate: no glue in either.",
    "Measure from corner to opposite corner at both ends; they must agree. Wax all wood that paste may touch.",
)
APART_HEADING = "Take it apart inside the finished bellows"
END_OFF = "No frame is glued on yet: the end plates stand where the frames will. Lift the right-hand end plate off."
CORE_OUT = (
    "Push the core out along the bellows, at its open right-hand end, with a stick through the {hole} mm hole in the left-hand end plate."
)
OTHER_OFF = "Lift the left-hand end plate off; until then its slots hold every segment."
KEY_OUT = (
    "Segment {side} is the key: move it {inward} mm inward, until its combs stand clear of the valleys, and draw it out along the bellows."
)
KEY_ASIDE = "Segment {side} is the key: move it {inward} mm inward and, on the way, {aside} mm towards side {towards}, until its combs stand clear of the valleys; draw it out along the bellows."
NEXT_OUT = "Segment {side}, {inward} mm inward and out."
REST_OUT = "Segments {sides}, in this order, each {inward} mm inward and out."
STEPS = "{first}\u2013{last}"
STEP = "{step}. {text}"
NEXT_ASIDE = "Segment {side}, {inward} mm inward and, on the way, {aside} mm towards side {towards}, then out."
PROVED = "Worked out in the section with {clearance} mm to spare to everything that stays, cards, cloth and gussets too. Try it dry, with no bellows on it, before the first card is glued."
CAUTION_HEADING = "Take care"
CAUTIONS = (
    "Saw, laser and dust: eyes, ears and lungs want guarding; fumes of burnt ply must be drawn off; never leave a laser alone.",
    "Follow the machine's manual and local rules, and ask people who are trained on it.",
)
FINGERPRINT = "fingerprint {fingerprint}"
CORE_LABEL = "core"
FILE_TITLE = "{name}: form"
FILE_TOLD = "Form for the bellows pattern {fingerprint}, in millimetres, {ply}, for {cutter}."
MACHINE_HEADING = "Cutting"
KNIFE_NOT_FOR_PLY = (
    "A drag knife does not cut {ply}: all outlines are drawn closed and true size, for a saw or for a laser that allows for its kerf."
)
SUMMARY_HEADING = "Form for {name}"
SUMMARY_SIZES = "sizes"
SUMMARY_KEY = "key segment"
SUMMARY_BOARD = "board"
SUMMARY_AREA = "{dm2} dm2 in all, without waste"

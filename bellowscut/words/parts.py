"""What parts are called, and what is noted beside them.

The name of a part ends at its first comma; names themselves have none.
"""

CARD = "Card"
CARD_RUN = "Scored run of cards"
CARD_RUN_NOTE = "score the front, turn the board over sideways on its two holes, score the back"
GUSSET = "Gusset"
END_GUSSET = "End gusset"
HALF_GUSSET = "Half gusset"
COVER_GUSSET = "Cover gusset"
COVER_END_GUSSET = "Cover end gusset"
COVER_HALF_GUSSET = "Cover half gusset"
EDGE_STRIP = "Edge strip"
EDGE_STRIP_NOTE = "drawn tight, fitted closed; cut 15 mm long and trim; joint mid-side underneath, stepped from ridge to ridge"
END_STRIP = "End strip"
END_STRIP_NOTE = "corner marks as for the right-hand frame; for the left-hand one measure them from the other end"
VALLEY_HINGE = "Valley hinge"
RIDGE_HINGE = "Ridge hinge"
FRAME_HINGE = "Frame hinge"
VALLEY_STRIP = "Valley strip"
RIDGE_CLOTH = "Ridge cloth"
FACING = "Facing"
PAIR_FACING = "Facing for a pair of cards"
CORNER_PATCH = "Corner patch"

AT_SIDE = "{name}, side {place}"
AT_SIDES = "{name}, sides {places}"
AT_CORNER = "{name}, corner {place}"
AT_CORNERS = "{name}, corners {places}"
WITH_HAND = "{name}, {hand}"
"""Name and place of a part of which there is one of each hand, and which of them it is."""

VALLEY_RIGHT = "valley to the right"
VALLEY_LEFT = "valley to the left"
VALLEY_RIGHT_THEN_LEFT = "valley to the right on {right} and to the left on {left}"
VALLEY_LEFT_THEN_RIGHT = "valley to the left on {left} and to the right on {right}"

COUNTED = "{count} + {spare}"
"""Pieces that are needed and spares."""

WIDTH, LENGTH = "width", "length"
"""Which measure of a part runs along the backbone of the skin."""

LISTED = "{most} and {last}"
"""The end of a list: ``most`` is such as ``A, B``."""

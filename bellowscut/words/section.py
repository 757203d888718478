"""Why an end as measured makes no section."""

COUNT_OF_SIDES = "a section has 3 to {most} sides"
FEWEST_SIDES = "a section has at least 3 sides"
FEWEST_CORNERS = "a section has at least 3 corners"
ODD_SIDES = 'an odd number of sides has no flats or corners opposite: measure one side and say measure = "side"'
EVERY_FLAT = "give the flat of every side: half as many as there are sides, at least two"
FLAT_TOO_LARGE = "the flat of side {side} is too large for its neighbours: that side would vanish; it must be under {most} mm"
SIDES_DO_NOT_CLOSE = (
    "the sides do not close: side {sides} would have to change by {misfit} mm, at most {limit} mm is a slip of the rule; measure again"
)
OR = " or "
"""Between the two ``sides`` of the above, which the rule cannot tell apart."""

SIDE_TOO_SHORT = "side {side} is too short for the others: it would vanish when the section is closed; measure again"
CORNER_TWICE = "the corner ({x}, {y}) is given twice"
CORNER_STRAIGHT = "the corner ({x}, {y}) lies on a straight line between its neighbours: leave it out"
NOT_CONVEX = "the section is not convex at ({x}, {y}): every corner must point outwards"
CROSSES_ITSELF = "the line round the corners crosses itself: give them in order round the frame"
ENDS_UNLIKE = (
    "laid on the first end as closely as it goes, side {side} lies {mm} mm off, and at most {limit} mm can be packed; "
    "measure both ends again"
)
COVERING_TOO_THICK = "the covering leaves no frame; it must be under {most} mm"
SETBACK_TOO_LARGE = "it loses a side of the section; it must be under {most} mm"

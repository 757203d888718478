"""What no old card can have, and where its readings contradict the rest of a profile."""

VALLEY_WIDER = "{valley}{where} is no less than the ridge edge of {ridge}: a card is narrower at the valley; change the two readings about, or measure again"
AT_SIDE = " at side {side}"
"""Stands in the place ``where`` of the one above and the two below; empty where no side is named."""

LEANS_TOO_LITTLE = (
    "with a ridge edge of {ridge}, {valley}{where} would have legs that lean {lean} degrees, less than the {half} of half the turn: "
    "the bellows could not close; with this fold_depth the valley edge is {most} at most. Measure both edges and the fold depth again"
)
LEANS_TOO_LITTLE_FOR_DEPTH = (
    "with a ridge edge of {ridge}, {valley}{where} would have legs that lean {lean} degrees, less than the {half} of half the turn: "
    "the bellows could not close; fold_depth must be less, or the ridge edge more. Measure all three again"
)
WHICH_SIDE = (
    "the corners of this section differ too much to say what a card of {ridge} and {valley} leans; "
    'name its side at both edges: write for example ridge_edge = {{ A = "{ridge}" }}'
)
NOT_THE_SAME_SIDE = "ridge_edge was read at side {ridge} and valley_edge was not: read both edges of one card"

GAP_CONTRADICTS = (
    "readings.ridge_edge leaves {gap} mm between neighbouring cards: it contradicts this corner_gap; "
    "measure again, or take bellows.corner_gap or readings.ridge_edge out"
)
RELIEF_CONTRADICTS = (
    "readings.ridge_edge and readings.valley_edge say {read} degrees, and a rule leaves open {either_way} either way: "
    "they contradict this relief; measure again, or take bellows.relief or the readings out"
)
CLOSED_GAP_CONTRADICTS = (
    "it makes a relief of {relief} degrees; readings.ridge_edge and readings.valley_edge say {read}, and a rule leaves open {either_way} "
    "either way: they contradict each other; measure again, or take bellows.closed_gap or the readings out"
)

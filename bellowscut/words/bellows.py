"""Why a bellows cannot be made as asked: folds, gussets, relief, depth, and what shows once all is worked out."""

OPENING_TOO_SMALL = "the corner is {closed} mm wide at the valley even when closed; from there to {widest} mm is possible"
GUSSET_TOO_NARROW = "too narrow: even the closed corner needs {least} mm with these laps; from there to {most} mm is possible"
GUSSET_TOO_NARROW_GUESSED = (
    "{told}. A relief of {relief} degrees is a guess: where the old cards are kept, read one and give its ridge_edge and valley_edge "
    "under [readings]"
)
GUSSET_TOO_SHORT = "too short: its two tip turns alone take {turns}; give its width and then its whole length, tip to tip"
CLOSED_GAP_TOO_SMALL = "it cannot be under the corner gap of {gap} mm"
TRAVEL_OF_CARDS = "{cards} cards of {depth} mm give at most {most} mm, and that with every card square"
TRAVEL_OF_DEPTH = "it would need folds {depth} mm deep; this section allows under {limit} mm, a travel of {most} mm"
TRAVEL_OF_GUSSETS = "these gussets give at most {most} mm, with folds {depth} mm deep"

RELIEF_LEAVES_NO_LEG = (
    "a relief of {relief} degrees would leave the card no leg; with this section it must be from 0 to under {limit}, usually 5"
)
TOO_DEEP = "too deep for this section: the gusset laps would meet on the card; it must be under {limit}"
LAP_TOO_WIDE = "with folds {depth} deep the laps would meet on the card's valley edge; it must be under {most}"
CLOSED_GAP_TOO_LARGE = "it needs a relief of {relief} degrees, too much for folds this deep; it must be under {most}"
RELIEF_TOO_LARGE = "too much for folds {depth} deep: it must be under {most} degrees, usually 5"
VALLEY_EDGE_TOO_NARROW = (
    "the card would have a relief of {relief} degrees, too much for folds {depth} deep with these gusset laps; "
    "it must be under {most} degrees: measure both edges and the fold depth again"
)
SIDE_TOO_SHORT = "its smallest side is too short for any fold with gusset laps of {lap} and this corner gap"

WOULD_NOT_OPEN = (
    "open it would be {open} mm long and closed {closed} mm: it would not open; "
    "the stretch must be over {least} degrees, or the layers thinner"
)
GAPS_LEAVE_NO_CARD = "the gaps at the fold lines leave no card; together they must be under {most}"
SKIVE_TOO_WIDE = "wider than the smaller of lap and tip lap; at most {most}"
TIP_VANISHES = "the gusset's tip would vanish before it; it must be under {most} with a tip lap of {lap}"
TIP_VANISHES_AT_RIDGE = "the gusset's tip would vanish at the ridge; make the tip lap nearer to the lap"
NO_FACING_LEFT = "it leaves nothing of the facing; it must be under {most}"
NO_WINDOW_FOR_FACING = "it leaves no window for a facing; it must be under {most}"

"""What a customer reads: the estimate, kindly and plainly."""

TITLE = "Estimate"
TITLE_EXAMPLE = "Example of an estimate"
EXAMPLE = "An example, not an offer: without a workshop file, prices and minutes are example ones that came with the program or stand in the profile."
EXAMPLE_PRICES = "An example, not an offer: prices are example ones of the shipped profile."
EXAMPLE_YOURS = "To make it yours: write prices, minutes and a name into a workshop file and say --workshop FILE; docs/quote.md tells how."
EXAMPLE_YOURS_PROFILE = "To make it yours: a profile of one's own, without the prices of the shipped one; the workshop file's then hold."
FOR = "For {customer}"
FOR_NOBODY = "For"
DATE = "Date"
AGREED = "Agreed"
INSTRUMENTS = "{name}: {copies} of them"

SHARE_SMALL = "The work costs about {share} per cent of what the instrument is worth in good order: it is well worth doing."
SHARE_FAIR = (
    "The work costs about {share} per cent of what the instrument is worth in good order: worth doing if you mean to play it for years."
)
SHARE_LARGE = (
    "The work costs about {share} per cent of what the instrument is worth in good order. Do it because you like this one, "
    "not for what it would fetch."
)
SHARE_OVER = (
    "To be honest with you: the work costs about {share} per cent of what the instrument is worth in good order, so more than it would fetch. "
    "If you are fond of it, that is reason enough."
)
SHARE_GENTLER = "A smaller job may do: {way}, about {share} per cent."

JOBS = {
    "patches": "Corner patches",
    "strips": "New edge strips and end strips",
    "cover": "Cover gussets",
    "regusset": "New gussets and strips",
    "rebellows": "A whole new bellows",
}
"""What each job is called to a customer."""

MEANINGS = {
    "patches": "Stops single leaks at corners. Of no use where the leather is worn out all over.",
    "strips": "Renews worn edges and the joint to the frames. The old gussets stay.",
    "cover": "Very thin leather over every old gusset. Tight again; about {thicker} mm thicker closed.",
    "regusset": "New leather at every corner and edge, on the old cards. Right where the cards are sound.",
    "rebellows": "All new, made to your instrument's frames. Right where cards are soft or split too.",
}
"""What each job means for the instrument."""

DONE_HEADING = "What is done: {job}"
DONE = {
    "patches": (
        "The leaking corners are found with a lamp and marked.",
        "Each is cleaned and covered with a patch of thin leather ({patches} reckoned).",
        "The bellows is pressed over night and tested again.",
    ),
    "strips": (
        "The old edge strips and end strips are lifted.",
        "{strips} new leather edge strips and end strips are cut, thinned at their edges and glued on.",
        "The bellows is pressed closed and tested for air.",
    ),
    "cover": (
        "Each old gusset is cleaned and tried for loose leather.",
        "{covers} cover gussets of very thin leather are cut and glued exactly over the old ones.",
        "The bellows is pressed closed and tested for air.",
    ),
    "regusset": (
        "The old strips and gussets are taken off; the cards are cleaned and the glue is tested on them.",
        "{gussets} new leather gussets and {strips} edge strips and end strips are cut, thinned at their edges and glued on.",
        "Loose hinges are stuck again; papers are trimmed or patched where they suffer.",
        "The bellows is pressed closed, and tested with light and with air.",
    ),
    "rebellows": (
        "The old bellows is taken off the frames, and the frames are cleaned.",
        "A new one is built: {cards} cards, hinged with cloth, {gussets} leather gussets, {strips} edge strips and end strips.",
        "It is fitted to the frames, papered where papers are asked for, and pressed closed.",
        "It is tested with light and with air before the instrument is put together.",
    ),
}

NEW_FORM = "A form to build it on is made first, and stays in the workshop."
KEEP = "Old papers and parts that can stay are kept, glue is one that can be undone, and whatever comes off is given back to you."

KEEP_BELLOWS = "Frames and papers that can stay are kept, with glue that can be undone, and the old bellows is given back to you."

PRICE_HEADING = "What it costs"
MATERIALS = "Leather and other materials"
WORK = "Work, {hours} hours"
WORKSHOP = "Workshop costs"
LEAST = "Least charge for a job"
TAX = "Tax, {share} per cent"
TOTAL = "Total"
EACH = "for each of {copies}, about"
WORK_IS_EXAMPLE = "Hours are reckoned with example minutes that came with the program; they are not this workshop's own."
WORK_IS_USUAL = "Hours are the workshop's usual ones, not yet your instrument's."
WORK_IS_USUAL_IN_PART = "Hours are the workshop's usual ones where it has them, the rest by example minutes."
WORK_IS_LEARNED = "Hours go by what like jobs took here before ({jobs} in the job book)."
WORK_IS_LEARNED_IN_PART = "Hours go by what like jobs took here before ({jobs} in the job book), the rest by example minutes."

NOT_HEADING = "What is not in the price"
NOT_IN_PRICE = ("reeds, pads, valves and tuning", "post and packing")
SEEN = "Seen besides: {work}"

CHANGE_HEADING = "What may change it"
CHANGES = {
    "patches": ("If more corners leak than were seen, each patch more is charged at the same rate.",),
    "strips": ("If gusset tips come away with the old strips, they are patched, and you are asked first.",),
    "cover": ("If old leather is loose or rotten under the cover, new gussets are the better way, and you are asked first.",),
    "regusset": (
        "If cards turn out soft or split, new gussets would be a waste: you are asked before more is done.",
        "Leather is bought when you agree; its price may have moved.",
    ),
    "rebellows": (
        "If a frame is cracked or out of square, it is mended by the hour, and you are asked first.",
        "Leather is bought when you agree; its price may have moved.",
    ),
}
CARD_NOT_MEASURED = (
    "No card of the old bellows has been measured yet. Its gussets may come out {mm} mm wider or narrower than reckoned here, and it may open "
    "{least} to {most} mm instead of {open}; two readings of one card settle it before leather is cut."
)
CARD_NOT_MEASURED_OWN = (
    "No card of the old bellows has been measured yet. Its gussets are cut to an old one; how far it opens with them, {open} mm, may be "
    "{least} to {most} mm. Two readings of one card settle it before leather is cut."
)
ASKED_FIRST = "Nothing is done beyond this without your word."
DUST = "Old papers and dust can hold arsenic or lead: please do not clean inside the bellows yourself."

TIME_HEADING = "How long it takes"
DAYS = "From {least} to {most} working days from the day it is begun, since glue has to dry; not counting the wait for its turn or for leather."
DAYS_SAME = "About {least} working days from the day it is begun, since glue has to dry; not counting the wait for its turn or for leather."

WAYS_HEADING = "The ways to go about it"
WAYS_HEAD = ("way", "price", "days", "what it means")
WAYS_HEAD_SHARE = "of its value"
NOT_PRICED = "not priced"
DAYS_RANGE = "{least} to {most}"
SHARE_CELL = "{share} %"

FOOT_EXAMPLE = "An example. Reckoned on {fingerprint} with bellowscut {version}."
FOOT = "An estimate, not a bill. Reckoned on {fingerprint} with bellowscut {version}."

PHONE_TITLE = "By telephone: {name}"
PHONE_RANGE = "Between {low} and {high}"
PHONE_WORK = "It may be {low} (about {low_price}) or {high} (about {high_price}), {least} to {most} working days."
PHONE_SHARE = "That is {low} to {high} per cent of what the instrument is worth in good order."
PHONE_SHARE_KIND = {
    "small": "Worth bringing in.",
    "fair": "Worth bringing in if you mean to play it.",
    "either": "The smaller job may well be worth it; bring it in before you decide.",
    "over": "It is likely to cost more than it would fetch; bring it in if you are fond of it.",
}
PHONE_CONDITION = {
    "good": "Good: cards and leather sound, a corner or an edge leaks.",
    "leaky": "Leaky: corners leak all round, cards sound.",
    "perished": "Perished: gussets gone to lace, coverings crack, or cards soft.",
}
PHONE_LIKE = "Reckoned like {name}; nothing is measured. A firm price follows when it has been looked at."
PHONE_EXAMPLE = "By example prices and minutes that came with the program: put your own in a workshop file and say --workshop FILE."
PHONE_OWN = "Prices and minutes by your workshop file."
PHONE_OWN_PRICES = "Prices by your workshop file; minutes are example ones: put your own in it."
PHONE_GAPS = "Example prices stand for what your workshop file does not price: put them in it."
PHONE_GAPS_AND_MINUTES = "Example prices stand for what your workshop file does not price; minutes are example ones: put your own in it."
PHONE_WITHOUT = "Without {materials}: no price in {currency}."
PHONE_NOT = "Not in it: {works}."

NO_RATE = "{source}: costs.labour_rate: is missing; an estimate needs the price of an hour, here or in a workshop file"
NO_MATERIAL_PRICE = "{source}: {key}: is missing; an estimate needs the price of {name}, here or in a workshop file"
ONE_OF_TWO = "give a PROFILE, or --like with the shipped profile that is most like it, and not both"
NEEDS_CONDITION = "--like needs --condition good, leaky or perished"
CONDITION_ALONE = "--condition belongs to --like: a profile is an instrument that has been looked at"
NOT_SHIPPED = "--like: {name} does not ship; the nearest are {nearest}"
BAD_MONEY = "{text} is no amount: should be like 450 or 450.00"
BAD_DATE = "{text} is no date: should be like 2026-03-31"
WRITTEN = "Written to {path}"

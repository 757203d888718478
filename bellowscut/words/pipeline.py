"""What the drawings of a pattern set say of themselves."""

TOLD_FLESH = "Bellows pattern {fingerprint}, true size in millimetres; leather shows the flesh side."
TOLD_GRAIN = "Bellows pattern {fingerprint}, true size in millimetres; leather shows the grain side."
FOR_PATTERN = "Belongs to the bellows pattern {fingerprint}."
TITLES = {
    "patterns": "{name}: patterns",
    "templates": "{name}: templates",
    "worksheet": "{name}: work sheet",
    "pictures": "{name}: pictures",
}
PICTURES = {
    "bellows-closed": "{name}: the bellows closed",
    "bellows-half-open": "{name}: the bellows half open",
    "bellows-open": "{name}: the bellows at full stretch",
    "corner": "{name}: one corner with its layers",
    "valley-cell": "{name}: a valley cut through, closed",
    "parts": "{name}: the parts with their sizes",
}

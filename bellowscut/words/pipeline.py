"""What the drawings of a pattern set say of themselves."""

TOLD_FLESH = "Bellows pattern {fingerprint}, true size in millimetres; leather shows the flesh side."
TOLD_GRAIN = "Bellows pattern {fingerprint}, true size in millimetres; leather shows the grain side."
TITLES = {"patterns": "{name}: patterns", "templates": "{name}: templates"}

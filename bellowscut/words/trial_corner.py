"""What stands on the trial corner."""

GLUE_PLATE = "glue to plate"
FULL_STRETCH_MM = "full stretch {long} mm"
PRINT_UP = "print up"
LEFT_HAND_END = "left-hand end"
RIGHT_HAND_END = "right-hand end"
MARK_FORM = "to the mark: form {glued}"
VALLEY_GAP = "valley gap"

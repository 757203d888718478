"""How long a command may take before it is taken to hang."""

HANG = 600.0
"""Many times what the slowest command of the tests takes [s]: a busy machine is no fault, a command that never ends is."""

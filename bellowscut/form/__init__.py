"""The form that a bellows is built on: its pieces, and the proof that they come out of the finished bellows."""

"""What is said at the bench: the steps of a job in this bellows' figures, before any of it is set on a page."""

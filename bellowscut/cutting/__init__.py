"""Files for laser and drag knife: what the tool follows, in which order, and what a person must know before it runs."""

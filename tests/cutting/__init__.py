"""Machine files: what the tool follows, checked by geometry of its own and by programs that did not write the files."""

"""Where pieces go: rows and tiles on paper, and placement on the stock."""

"""How a problem is put."""

VALUE_IS = "is {value}; {message}"
"""A value as the user wrote it, and what is wrong with it."""

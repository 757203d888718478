"""`python -m bellowscut` does what `bellowscut` does."""

from bellowscut.cli import main

main(prog_name="bellowscut")

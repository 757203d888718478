"""`python -m bellowscut` does what `bellowscut` does."""

import sys


def run() -> None:
    """Start the command line; stopped before it has come up, the program ends as quietly as later."""
    try:
        from bellowscut.cli import main

        main(prog_name="bellowscut")
    except KeyboardInterrupt:
        sys.exit(130)


if __name__ == "__main__":
    run()

"""How much a tracing may hold, and reading a file without trusting it.

The caps are far above what a skin needs and low enough that any file is done
with in seconds: they are counted, never timed.
"""

from __future__ import annotations

import math
import stat
from pathlib import Path

from bellowscut.shapes import Point
from bellowscut.tracing.model import TracingError

LARGEST_FILE = 20_000_000
"""Bytes of a file [-]."""

MOST_ELEMENTS = 100_000
"""Elements of an SVG, entities of a DXF [-]."""

MOST_POINTS = 200_000
"""Points of all lines together, curves cut into chords [-]."""

DEEPEST = 64
"""Groups within groups [-]."""

MOST_OUTLINES = 1_000
"""Closed outlines [-]; an automatic trace of a photograph leaves more specks than that."""

MOST_CORNERS = 10_000
"""Points of one outline when it has been smoothed [-]: looking for crossings may take their square in steps."""

MOST_CORNERS_TOGETHER = 30_000
"""The same of all outlines together [-]."""

LONGEST_NUMBER = 60
"""Characters of one number [-]."""

TOO_MANY_POINTS = f"has more than {MOST_POINTS} points; simplify the lines in the drawing program"

FARTHEST = 1e9
"""Greatest coordinate that is looked at at all [mm]."""

SHOWN = 40
"""Characters of a name that a message repeats [-]."""


class Budget:
    """Counts elements and points of one file, and refuses what goes past the caps."""

    def __init__(self) -> None:
        self.elements = 0
        self.points = 0
        self.steps = 0

    def element(self) -> None:
        """Count one element.

        Raises
        ------
        TracingError
            Past `MOST_ELEMENTS`.
        """
        self.elements += 1
        if self.elements > MOST_ELEMENTS:
            raise TracingError(
                f"holds more than {MOST_ELEMENTS} elements; a tracing needs a handful: keep the skin, its flaws and the check line"
            )

    def step(self) -> None:
        """Count one command of a path, drawn or not.

        Raises
        ------
        TracingError
            Past `MOST_POINTS`.
        """
        self.steps += 1
        if self.steps > MOST_POINTS:
            raise TracingError(TOO_MANY_POINTS)

    def point(self, x: float, y: float) -> Point:
        """Count one point.

        Parameters
        ----------
        x, y : float
            Where it is [mm].

        Returns
        -------
        Point
            The same [mm].

        Raises
        ------
        TracingError
            Past `MOST_POINTS`, or when it is nowhere in the workshop.
        """
        self.points += 1
        if self.points > MOST_POINTS:
            raise TracingError(TOO_MANY_POINTS)
        return self.near(x, y)

    def near(self, x: float, y: float) -> Point:
        """Look at a point without counting it.

        Parameters
        ----------
        x, y : float
            Where it is [mm].

        Returns
        -------
        Point
            The same [mm].

        Raises
        ------
        TracingError
            When it is farther off than `FARTHEST`, or not finite.
        """
        if not (abs(x) <= FARTHEST and abs(y) <= FARTHEST):
            raise TracingError(_nowhere(y if abs(x) <= FARTHEST else x))
        return x, y


def number(text: str, what: str) -> float:
    """A number as a file has it.

    Parameters
    ----------
    text : str
        Digits, point, exponent.
    what : str
        What it is, for the message.

    Returns
    -------
    float
        The number [-], finite.

    Raises
    ------
    TracingError
        When it is none, or not finite.
    """
    try:
        value = float(text) if len(text) <= LONGEST_NUMBER and "_" not in text else None
    except ValueError:
        value = None
    if value is None:
        raise TracingError(f"{what}: {shown(text)} is not a number")
    if not math.isfinite(value):
        raise TracingError(f"{what}: {_nowhere(value)}")
    return value


def _nowhere(value: float) -> str:
    if math.isfinite(value):
        return f"a coordinate is {value:.3g} mm: farther off than any skin reaches"
    return "a coordinate is not a finite number"


def shown(text: str) -> str:
    """A name from the file on one line, cut short, fit for a message."""
    line = "".join(c if c.isprintable() else "?" for c in text[: SHOWN + 1])
    return f'"{line}"' if len(line) <= SHOWN else f'"{line[: SHOWN - 3]}..."'


def read_bytes(path: Path) -> bytes:
    """All of a file, when it is a plain file of a bearable size.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    bytes
        At most `LARGEST_FILE` of them.

    Raises
    ------
    TracingError
        When there is no such file, it cannot be read, or is larger than 20 MB.
    """
    try:
        status = path.stat()
        if stat.S_ISDIR(status.st_mode):
            raise TracingError("is a folder; the tracing is one SVG or DXF file")
        if not stat.S_ISREG(status.st_mode):
            raise TracingError("is a pipe or device; the tracing is one SVG or DXF file")
        if status.st_size <= LARGEST_FILE:
            with path.open("rb") as file:
                data = file.read(LARGEST_FILE + 1)
            if len(data) <= LARGEST_FILE:
                return data
    except FileNotFoundError:
        raise TracingError("there is no such file") from None
    except PermissionError:
        raise TracingError("may not be read: the system denies permission") from None
    except (OSError, ValueError) as error:
        raise TracingError(f"cannot be read: {getattr(error, 'strerror', None) or 'this is no name of a file'}") from None
    raise TracingError(
        f"is larger than {LARGEST_FILE // 1_000_000} MB; a picture kept in the file counts too: take the scan out and keep the lines"
    )

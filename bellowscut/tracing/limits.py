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
from bellowscut.words import say, tracing as words

LARGEST_FILE = 20_000_000
"""Bytes of a file [-]."""

MOST_ELEMENTS = 100_000
"""Elements of an SVG, entities of a DXF [-]."""

MOST_POINTS = 200_000
"""Points of all lines together, curves cut into chords [-]."""

MOST_PAIRS = 3_000_000
"""Pairs of a group code and its value [-]: with numbers of the usual length a file of the largest size has fewer."""

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
            raise TracingError(say(words.TOO_MANY_ELEMENTS, most=MOST_ELEMENTS))

    def step(self, number: int = 1) -> None:
        """Count commands of a path, drawn or not, or steps of a transform.

        Parameters
        ----------
        number : int
            How many [-].

        Raises
        ------
        TracingError
            Past `MOST_POINTS`.
        """
        self.steps += number
        if self.steps > MOST_POINTS:
            raise TracingError(say(words.TOO_MANY_POINTS, most=MOST_POINTS))

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
            raise TracingError(say(words.TOO_MANY_POINTS, most=MOST_POINTS))
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
        raise TracingError(say(words.NOT_A_NUMBER, what=what, text=shown(text)))
    if not math.isfinite(value):
        raise TracingError(say(words.NUMBER_NOT_FINITE, what=what))
    return value


def _nowhere(value: float) -> str:
    if math.isfinite(value):
        return say(words.COORDINATE_TOO_FAR, mm=f"{value:.3g}")
    return say(words.COORDINATE_NOT_FINITE)


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
            raise TracingError(say(words.IS_FOLDER))
        if not stat.S_ISREG(status.st_mode):
            raise TracingError(say(words.IS_PIPE))
        if status.st_size <= LARGEST_FILE:
            with path.open("rb") as file:
                data = file.read(LARGEST_FILE + 1)
            if len(data) <= LARGEST_FILE:
                return data
    except FileNotFoundError:
        raise TracingError(say(words.NO_SUCH_FILE)) from None
    except PermissionError:
        raise TracingError(say(words.NOT_PERMITTED)) from None
    except (OSError, ValueError) as error:
        raise TracingError(say(words.UNREADABLE, reason=getattr(error, "strerror", None) or say(words.NO_NAME))) from None
    raise TracingError(say(words.FILE_TOO_LARGE, megabytes=LARGEST_FILE // 1000000))

"""The one family of errors: what went wrong, where, and what would be right.

Everything that this package raises on purpose derives from `BellowscutError`,
so that the command line needs one handler and a traceback always means a bug.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bellowscut.words import errors as words, say


class BellowscutError(Exception):
    """Anything the program refuses to do; `exit_code` is what a shell sees."""

    exit_code = 1

    def lines(self) -> tuple[str, ...]:
        """The message, one line a problem."""
        return (str(self),)


@dataclass(frozen=True)
class Problem:
    """One thing wrong in a profile.

    Parameters
    ----------
    key : str
        Dotted name as written in the profile, such as ``gusset.lap``; empty
        when the file as a whole is meant.
    value : str
        The value as the user wrote it; empty when there is none.
    message : str
        What is wrong and what would be right, in mm and inches.
    file : str
        Name of the profile as the user gave it.
    line : int
        Line in the file [-], 0 when not known.
    """

    key: str
    value: str
    message: str
    file: str = ""
    line: int = 0

    def __str__(self) -> str:
        where = f"{self.file}:{self.line}: " if self.line else f"{self.file}: " if self.file else ""
        key = f"{self.key}: " if self.key else ""
        told = say(words.VALUE_IS, value=self.value, message=self.message) if self.value else self.message
        return f"{where}{key}{told}"


class ProfileError(BellowscutError):
    """A profile that cannot be used; carries every problem found in it."""

    exit_code = 2

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = problems

    def lines(self) -> tuple[str, ...]:
        """One line a problem, each naming file, line, key and value."""
        return tuple(str(problem) for problem in self.problems)


class Refusal(BellowscutError):
    """A value that the geometry cannot work with.

    Raised by the geometry core, which knows quantities but no profile keys;
    `bellowscut.bellows` turns it into a `Problem` that names the keys.

    Parameters
    ----------
    quantity : str
        Name of the offending argument, such as ``depth``.
    value : float
        Its value, in mm, degrees or a count.
    message : str
        What is wrong and the limit that would be right.
    """

    exit_code = 2

    def __init__(self, quantity: str, value: float, message: str) -> None:
        super().__init__(f"{quantity}: {say(words.VALUE_IS, value=format(value, 'g'), message=message)}")
        self.quantity = quantity
        self.value = value
        self.message = message


class LayoutError(BellowscutError):
    """Pieces that find no place on the stock; carries one sentence for each trouble."""

    def __init__(self, sentences: Sequence[str]) -> None:
        super().__init__("\n".join(sentences))
        self.sentences = tuple(sentences)

    def lines(self) -> tuple[str, ...]:
        """One line a trouble."""
        return self.sentences


class UsageError(BellowscutError):
    """The command line asks for something that is not allowed."""

    exit_code = 2


class OutputError(BellowscutError):
    """The disk would not do what was asked."""

    exit_code = 1

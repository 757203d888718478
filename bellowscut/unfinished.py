"""The files of a sitting: a profile that must not be there yet, and beside it what was said so far when somebody had to stop."""

from __future__ import annotations

import os
import shlex
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from bellowscut.errors import BellowscutError, OutputError, UsageError
from bellowscut.profile import text_of
from bellowscut.reading import parse
from bellowscut.toml_lines import quoted
from bellowscut.words import measuring as words, say

ENDING = ".unfinished"
"""What the name of the profile is followed by in that of the file with what was said so far."""


@dataclass(frozen=True)
class Unfinished:
    """What was said in one sitting, or several.

    Parameters
    ----------
    said : mapping of str to str
        Answers as typed, by the question.
    start : str
        File or name of the profile whose values were offered; empty when none was.
    """

    said: Mapping[str, str] = field(default_factory=dict)
    start: str = ""


def beside(path: Path) -> Path:
    """The file for what was said so far of a profile."""
    return path.with_name(path.name + ENDING)


def taken_up(path: Path) -> Unfinished | None:
    """What was said so far of a profile, None when nothing was kept.

    Raises
    ------
    UsageError
        When another file has that name.
    """
    kept = beside(path)
    if not os.path.lexists(kept):
        return None
    try:
        document = parse(text_of(str(kept)), str(kept))
    except BellowscutError:
        document = {}
    said, start = document.get("said"), document.get("start", "")
    if not isinstance(said, dict) or not all(isinstance(one, str) for one in (start, *said.values())):
        raise UsageError(say(words.NOT_KEPT_BY_US, kept=kept))
    return Unfinished(said, start)


def keep(path: Path, unfinished: Unfinished) -> Path:
    """Keep what was said so far of a profile, in place of what was kept before.

    Returns
    -------
    Path
        The file.

    Raises
    ------
    OutputError
        When the disk refuses; what was kept before is still there.
    """
    kept = beside(path)
    lines = [f"# {say(words.KEPT_HEAD)}", f"# {on_with(path)}", f"start = {quoted(unfinished.start)}", "", "[said]"]
    lines += [f"{quoted(question)} = {quoted(answer)}" for question, answer in unfinished.said.items()]
    fresh = kept.with_name(f".bellowscut-{os.urandom(8).hex()}")
    try:
        with fresh.open("x", encoding="utf-8", newline="\n") as file:
            _fill(file.fileno(), "\n".join(lines) + "\n")
        fresh.replace(kept)
    except OSError as error:
        raise OutputError(say(words.CANNOT_WRITE, path=kept, reason=error.strerror or error)) from None
    finally:
        with suppress(OSError):
            fresh.unlink()
    return kept


def forget(path: Path) -> None:
    """Take away what was kept of a profile, now that it is written or not wanted."""
    with suppress(OSError):
        beside(path).unlink()


def on_with(path: Path) -> str:
    """The command that goes on where somebody stopped."""
    return say(words.GO_ON, file=shlex.quote(str(path)))


def refuse_existing(path: Path) -> None:
    """Raise `UsageError` when a file, folder or link of this name is there, or its folder is not or takes no files."""
    if os.path.lexists(path):
        raise UsageError(say(words.EXISTS, path=path))
    if not path.parent.is_dir():
        raise UsageError(say(words.NO_FOLDER, path=path, folder=path.parent))
    if not os.access(path.parent, os.W_OK | os.X_OK):
        raise UsageError(say(words.FOLDER_CLOSED, path=path, folder=path.parent))


def write_new(path: Path, text: str) -> None:
    """Write a file that must not be there yet, whole or not at all, even where the program is killed meanwhile.

    Raises
    ------
    UsageError
        When something of that name has come meanwhile.
    OutputError
        When the disk refuses.
    """
    try:
        if not _write_nameless(path, text):
            _write_hidden(path, text)
    except FileExistsError:
        raise UsageError(say(words.EXISTS, path=path)) from None
    except OSError as error:
        raise OutputError(say(words.CANNOT_WRITE, path=path, reason=error.strerror or error)) from None


def _write_nameless(path: Path, text: str) -> bool:
    """Write a file that has no name until it is whole; whether this disk has such files."""
    try:
        handle = os.open(path.parent, os.O_WRONLY | os.O_TMPFILE, 0o666)
    except (OSError, AttributeError):
        return False
    folder = os.open(path.parent, os.O_RDONLY)
    try:
        _fill(handle, text)
        # Only with a folder for the source does the link go to the file behind the number.
        os.link(f"/proc/self/fd/{handle}", path, src_dir_fd=folder)
    except FileNotFoundError:
        return False
    finally:
        os.close(handle)
        os.close(folder)
    return True


def _write_hidden(path: Path, text: str) -> None:
    """Write a file under a hidden name, and give it its own when it is whole."""
    fresh = path.with_name(f".bellowscut-{os.urandom(8).hex()}")
    try:
        with fresh.open("x", encoding="utf-8", newline="\n") as file:
            _fill(file.fileno(), text)
        try:
            os.link(fresh, path)
        except FileExistsError:
            raise
        except OSError:
            # A disk without links: nothing but a look keeps what has come meanwhile.
            if os.path.lexists(path):
                raise FileExistsError from None
            fresh.rename(path)
    finally:
        with suppress(OSError):
            fresh.unlink()


def _fill(handle: int, text: str) -> None:
    """Write a text into an open file and force it onto the disk."""
    data = text.encode()
    while data:
        data = data[os.write(handle, data) :]
    os.fsync(handle)

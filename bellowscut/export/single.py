"""One PDF written whole or not at all, never over anything but an older one of the same command as it was written.

A comment in the file itself says which command wrote it, with a digest of the rest.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import re
from pathlib import Path

from bellowscut.errors import OutputError, UsageError
from bellowscut.plain_file import read_plain
from bellowscut.words import export as words, say

_MARK = re.compile(rb"%bellowscut:[a-z-]+:[0-9a-f]{64}\n")
"""A comment of a PDF, before its last ``startxref``: the command and the digest of the file without this line."""

SIZE_MOST = 100_000_000
"""Largest file that is looked into [bytes]; none of ours comes near."""


def check_file(path: Path, command: str, *, force: bool) -> None:
    """Refuse a PDF that `write_file` would refuse, before any work is done.

    Parameters
    ----------
    path : Path
        The file to write; its name should end in ``.pdf``.
    command : str
        The command that writes it.
    force : bool
        Whether an older PDF there may be replaced.

    Raises
    ------
    UsageError
        When the name has another ending, its folder is not there, or something stands there that may not be replaced.
    OutputError
        When the disk does not let us look.
    """
    if path.suffix.lower() != ".pdf":
        raise UsageError(say(words.NOT_PDF_NAME, path=path))
    try:
        if not path.parent.is_dir():
            raise UsageError(say(words.NO_FOLDER, path=path, folder=path.parent))
        if not os.path.lexists(path):
            return
        if not force:
            raise UsageError(say(words.FILE_EXISTS, path=path))
        if path.is_symlink() or not path.is_file():
            raise UsageError(say(words.NO_PLAIN_FILE, path=path))
        if not _as_written(read_plain(path, SIZE_MOST), command):
            raise UsageError(say(words.NOT_AS_WRITTEN, path=path, command=command))
    except OSError as error:
        raise OutputError(say(words.NOT_WRITTEN, path=path, reason=error.strerror or error)) from error


def _marked(content: bytes, command: str) -> bytes:
    at = content.rfind(b"startxref")
    mark = f"%bellowscut:{command}:{hashlib.sha256(content).hexdigest()}\n".encode()
    return content[:at] + mark + content[at:]


def _as_written(content: bytes, command: str) -> bool:
    """Whether a file is one of this command's, to the last byte; an empty one has nothing to lose."""
    found = _MARK.search(content, content.rfind(b"%bellowscut:"))
    if found is None:
        return not content
    return content == _marked(content[: found.start()] + content[found.end() :], command)


def write_file(path: Path, content: bytes, command: str, *, force: bool) -> None:
    """Write a PDF under another name beside its place, and then put it there in one step.

    Parameters
    ----------
    path : Path
        The file to write.
    content : bytes
        All of it.
    command : str
        The command that writes it, which a comment in it will tell.
    force : bool
        Whether an older PDF there is replaced.

    Raises
    ------
    UsageError
        As `check_file`.
    OutputError
        When the disk does not do what was asked; what stood there still does.
    """
    check_file(path, command, force=force)
    fresh = path.parent / f".bellowscut-{os.urandom(8).hex()}"
    try:
        with fresh.open("xb") as file:
            file.write(_marked(content, command))
            file.flush()
            os.fsync(file.fileno())
        if force:
            fresh.replace(path)
        else:
            # A link fails where a file has come in the meantime; a rename would replace it.
            try:
                os.link(fresh, path)
            except FileExistsError:
                raise UsageError(say(words.FILE_EXISTS, path=path)) from None
            except OSError:
                fresh.rename(path)
    except OSError as error:
        raise OutputError(say(words.NOT_WRITTEN, path=path, reason=error.strerror or error)) from error
    finally:
        with contextlib.suppress(OSError):
            fresh.unlink()

"""One file written whole or not at all, never over something that is not ours to replace."""

from __future__ import annotations

import contextlib
import os
import secrets
from pathlib import Path

from bellowscut.errors import OutputError, UsageError
from bellowscut.words import export as words, say

PDF_BEGINS = b"%PDF-"
"""How every PDF begins (ISO 32000-1)."""


def check_file(path: Path, *, force: bool) -> None:
    """Refuse a PDF that `write_file` would refuse, before any work is done.

    Parameters
    ----------
    path : Path
        The file to write; its name should end in ``.pdf``.
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
        with path.open("rb") as file:
            if file.read(len(PDF_BEGINS)) not in (PDF_BEGINS, b""):
                raise UsageError(say(words.NO_PDF_THERE, path=path))
    except OSError as error:
        raise OutputError(say(words.NOT_WRITTEN, path=path, reason=error.strerror or error)) from error


def write_file(path: Path, content: bytes, *, force: bool) -> None:
    """Write a PDF under another name beside its place, and then put it there in one step.

    Parameters
    ----------
    path : Path
        The file to write.
    content : bytes
        All of it.
    force : bool
        Whether an older PDF there is replaced.

    Raises
    ------
    UsageError
        As `check_file`.
    OutputError
        When the disk does not do what was asked; what stood there still does.
    """
    check_file(path, force=force)
    fresh = path.parent / f".bellowscut-{secrets.token_hex(8)}"
    try:
        with fresh.open("xb") as file:
            file.write(content)
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

"""Reading a file that may turn out to be anything: a folder, a pipe, a device, a film."""

from __future__ import annotations

import os
import stat


class NoPlainFile(Exception):
    """A pipe or a device, which has no size and may never end."""


def read_plain(path: str | os.PathLike[str], most: int) -> bytes:
    """The content of a plain file, one byte more than `most` at the greatest, so that the caller sees it is too large.

    Parameters
    ----------
    path : str or path
        The file.
    most : int
        Largest size that is of use [bytes].

    Returns
    -------
    bytes
        The content, cut off after `most` + 1.

    Raises
    ------
    NoPlainFile
        For a pipe or a device.
    OSError
        For a folder, and whatever else the disk refuses.
    """
    # A pipe is opened without waiting for its other end, and then refused.
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    status = os.fstat(handle)
    if not (stat.S_ISREG(status.st_mode) or stat.S_ISDIR(status.st_mode)):
        os.close(handle)
        raise NoPlainFile
    with os.fdopen(handle, "rb") as file:
        return file.read(most + 1)

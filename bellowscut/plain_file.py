"""Reading a file that may turn out to be anything: a folder, a pipe, a device, a film; and adding to one that others may have open."""

from __future__ import annotations

import contextlib
import errno
import os
import stat
import sys
import time
from collections.abc import Callable
from io import FileIO
from pathlib import Path


class NoPlainFile(Exception):
    """A pipe or a device, which has no size and may never end."""


class InUse(Exception):
    """Another run holds the file, and does not let go."""


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
    with os.fdopen(_opened(path, os.O_RDONLY), "rb") as file:
        return file.read(most + 1)


def _opened(path: str | os.PathLike[str], flags: int) -> int:
    # A pipe is opened without waiting for its other end, and then refused.
    handle = os.open(path, flags | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0), 0o666)
    status = os.fstat(handle)
    if not (stat.S_ISREG(status.st_mode) or stat.S_ISDIR(status.st_mode)):
        os.close(handle)
        raise NoPlainFile
    return handle


TRIES = 100
PAUSE = 0.1
"""How often, and how long apart [s], a file that another run holds is asked for."""


def add_to(path: str | os.PathLike[str], most: int, more: Callable[[bytes], bytes]) -> None:
    """Write at the end of a plain file, or begin one: all of it or nothing, and one run after the other.

    Parameters
    ----------
    path : str or path
        The file.
    most : int
        Largest size that is of use [bytes].
    more : callable
        What to write, told what stands there, cut off after `most` + 1 bytes; whatever it raises leaves the file as it is.

    Raises
    ------
    NoPlainFile
        For a pipe or a device.
    InUse
        When another run does not let go of the file.
    OSError
        For a folder, and whatever else the disk refuses; what stood there still does.
    """
    while True:
        begun = not os.path.lexists(path)
        handle = _opened(path, os.O_RDWR | os.O_CREAT)
        with os.fdopen(handle, "r+b", buffering=0) as file:
            _lock(handle)
            if _still_there(path, handle):
                _add(Path(path), file, more(file.read(most + 1) or b""), begun=begun)
                return


def _still_there(path: str | os.PathLike[str], handle: int) -> bool:
    """Whether nobody who held a file before has taken it away, or put another one in its place."""
    try:
        return os.path.samestat(os.fstat(handle), Path(path).stat())
    except FileNotFoundError:
        return False


def _add(path: Path, file: FileIO, data: bytes, *, begun: bool) -> None:
    before = file.seek(0, os.SEEK_END)
    try:
        while data:
            data = data[file.write(data) :]
        os.fsync(file.fileno())
    except BaseException:
        with contextlib.suppress(OSError):
            file.truncate(before)
            if begun and not before:
                path.unlink()
            os.fsync(file.fileno())
        raise


def _lock(handle: int) -> None:
    """Hold a file alone until it is closed; on a disk that knows no locks, without one."""
    for turn in range(TRIES):
        try:
            if sys.platform == "win32":
                import msvcrt

                # A place far behind the end, so that readers are not kept out.
                os.lseek(handle, 1 << 30, os.SEEK_SET)
                try:
                    msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
                finally:
                    os.lseek(handle, 0, os.SEEK_SET)
            else:
                import fcntl

                fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            if error.errno not in (errno.EAGAIN, errno.EACCES, errno.EDEADLK):
                return
        else:
            return
        if turn < TRIES - 1:
            time.sleep(PAUSE)
    raise InUse

"""Publish a set of files as one: whoever looks finds the old set or the new one, never half of either.

The files are written into a hidden folder beside the target, forced onto the
disk, and change places with the target in one step. A run that is cut short
can leave that hidden folder behind, and nothing worse.
"""

from __future__ import annotations

import contextlib
import errno
import json
import os
import re
import secrets
import stat
import sys
from collections.abc import Mapping
from pathlib import Path

from bellowscut.errors import OutputError, UsageError
from bellowscut.words import export as words, say

SET_NAMES = re.compile(
    r"(patterns|templates|form)(-mm)?\.(pdf|svg|dxf)|layout\.(json|pdf)|stock-[1-9][0-9]*(-back)?(-mm)?\.(svg|dxf)"
    r"|(test-piece|(templates|cauls)(-[1-9][0-9]*)?)(-mm)?\.(svg|dxf)"
    r"|worksheet\.pdf|pictures\.pdf|picture-[a-z]+(-[a-z]+)*\.svg"
    r"|summary\.(json|txt)|cutlist\.csv|profile\.toml"
)
"""Names that the files of a set may have; ``-mm`` marks drawings in a format that carries no unit."""

MARKER = "summary.json"
"""The file by which a set is known as ours."""

MARKER_KEYS = ("format", "fingerprint")
MARKER_LIMIT = 64_000_000
"""Greatest size of a marker that is read at all [byte]."""

REASONS = {
    errno.EACCES: words.NOT_PERMITTED,
    errno.EPERM: words.NOT_PERMITTED,
    errno.EROFS: words.READ_ONLY,
    errno.ENOSPC: words.DISK_FULL,
    errno.EDQUOT: words.QUOTA_FULL,
    errno.EBUSY: words.IN_USE,
    errno.ENAMETOOLONG: words.NAME_TOO_LONG,
}

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
_CANNOT_EXCHANGE = (errno.ENOSYS, errno.EINVAL, errno.EOPNOTSUPP)


def check_target(folder: Path, *, force: bool) -> None:
    """Refuse a folder that `publish` would refuse, before any work is done.

    Parameters
    ----------
    folder : Path
        Where a set is to be written.
    force : bool
        Whether an older set there may be replaced.

    Raises
    ------
    UsageError
        Unless `folder` is absent and its parent is a folder; with `force`
        it may also be an empty folder, or one that holds a set and nothing
        else, other than the folder the program was started in.
    OutputError
        When the disk does not let us look.
    """
    try:
        _refuse(folder, force=force)
    except OSError as error:
        raise OutputError(say(words.FOLDER_NOT_WRITTEN, folder=folder, reason=_reason(error))) from error


def publish(folder: Path, files: Mapping[str, bytes], *, force: bool) -> None:
    """Write a complete set of files as `folder`.

    Parameters
    ----------
    folder : Path
        Where the set goes; its parent must be there.
    files : Mapping of str to bytes
        Content by file name.
    force : bool
        Whether an older set there is replaced; no file of it is kept.

    Raises
    ------
    UsageError
        As `check_target` does.
    OutputError
        When the disk does not do what was asked: `folder` is as it was,
        unless the message says that the set is written.
    ValueError
        When a name does not match `SET_NAMES`, or `MARKER` is missing: such
        a set could not be replaced later.
    """
    if MARKER not in files or not all(SET_NAMES.fullmatch(name) for name in files):
        raise ValueError(say(words.NOT_A_SET, files=", ".join(files) or "none"))
    check_target(folder, force=force)
    # Made with the mode that the user's umask asks for, unlike the private folders of tempfile.
    # The name does not grow with that of the target, which may be as long as the disk allows.
    fresh = folder.parent / f".bellowscut-{secrets.token_hex(8)}"
    try:
        fresh.mkdir()
        _fill(fresh, files)
        old = _swap(fresh, folder, force=force)
    except BaseException as error:
        with contextlib.suppress(OSError):
            _remove_set(fresh)
        if isinstance(error, OSError):
            raise OutputError(say(words.FOLDER_NOT_WRITTEN, folder=folder, reason=_reason(error))) from error
        raise
    try:
        # The older set is the only one sure to outlast a power cut until the disk has the new names too.
        _sync_folder(folder.parent)
        if old is not None:
            _remove_set(old)
    except OSError as error:
        if old is None:
            raise OutputError(say(words.FOLDER_WRITTEN_WITH_TROUBLE, folder=folder, reason=_reason(error))) from error
        raise OutputError(say(words.FOLDER_WRITTEN_OLDER_LEFT, folder=folder, reason=_reason(error), old=old)) from error


def _refuse(folder: Path, *, force: bool) -> None:
    try:
        mode = folder.lstat().st_mode
    except (FileNotFoundError, NotADirectoryError):
        if not folder.parent.is_dir():
            raise UsageError(say(words.NO_PARENT, folder=folder, parent=folder.parent)) from None
        return
    if stat.S_ISLNK(mode):
        raise UsageError(say(words.IS_LINK, folder=folder))
    if not stat.S_ISDIR(mode):
        raise UsageError(say(words.IS_FILE, folder=folder))
    if not force:
        raise UsageError(say(words.FOLDER_EXISTS, folder=folder))
    if Path.cwd().is_relative_to(folder.resolve()):
        raise UsageError(say(words.FOLDER_IN_USE, folder=folder))
    fault = _fault(folder)
    if fault:
        raise UsageError(fault)


def _fault(folder: Path) -> str:
    """What keeps a folder from being replaced; nothing for an empty one and for a set of ours."""
    with os.scandir(folder) as entries:
        strangers = {entry.name: not (SET_NAMES.fullmatch(entry.name) and entry.is_file(follow_symlinks=False)) for entry in entries}
    for name in sorted(strangers):
        if strangers[name]:
            return say(words.HOLDS_A_STRANGER, folder=folder, name=name)
    if strangers and not _is_marker(folder / MARKER):
        return say(words.HOLDS_NO_MARKER, folder=folder, marker=MARKER)
    return ""


def _is_marker(path: Path) -> bool:
    try:
        if path.stat().st_size > MARKER_LIMIT:
            return False
        content = json.loads(path.read_bytes())
    except (FileNotFoundError, ValueError, RecursionError):
        return False
    return isinstance(content, dict) and all(key in content for key in MARKER_KEYS)


def _fill(fresh: Path, files: Mapping[str, bytes]) -> None:
    for name, content in files.items():
        with (fresh / name).open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
    _sync_folder(fresh)


def _swap(fresh: Path, folder: Path, *, force: bool) -> Path | None:
    """Put `fresh` in the place of `folder`; returns where the older set went, if there was one."""
    # Looked at again: writing took a while, and somebody may have put a note into the folder.
    _refuse(folder, force=force)
    if folder.exists():
        return fresh if _exchange(fresh, folder) else _rename_aside(fresh, folder)
    fresh.rename(folder)
    return None


def _exchange(one: Path, other: Path) -> bool:
    """Let two folders change names in one step; False where the system or the disk has no such step."""
    if sys.platform != "linux":
        return False
    import ctypes

    try:
        renameat2 = ctypes.CDLL(None, use_errno=True).renameat2
    except AttributeError:
        return False
    if renameat2(_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), _RENAME_EXCHANGE) == 0:
        return True
    number = ctypes.get_errno()
    if number in _CANNOT_EXCHANGE:
        return False
    raise OSError(number, os.strerror(number), str(other))


def _rename_aside(fresh: Path, folder: Path) -> Path:
    """Two renames: for the moment between them there is no folder, but the old set is whole beside it."""
    aside = fresh.with_name(f"{fresh.name}-old")
    try:
        folder.rename(aside)
        fresh.rename(folder)
    except BaseException:
        if aside.exists() and not folder.exists():
            aside.rename(folder)
        raise
    return aside


def _sync_folder(folder: Path) -> None:
    if not hasattr(os, "O_DIRECTORY"):
        return
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno != errno.EINVAL:  # some network disks cannot do this for a folder
            raise
    finally:
        os.close(handle)


def _remove_set(folder: Path) -> None:
    """Remove a set, and nothing but what belongs to one."""
    for path in sorted(folder.iterdir()):
        if SET_NAMES.fullmatch(path.name):
            path.unlink()
    folder.rmdir()


def _reason(error: OSError) -> str:
    known = REASONS.get(error.errno or 0)
    return say(known) if known else error.strerror or str(error)

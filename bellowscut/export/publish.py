"""Publish a set of files as one: whoever looks finds the old set or the new one, never half of either.

The files are written into a hidden folder beside the target, forced onto the
disk, and change places with the target in one step. A run that is killed
outright can leave that hidden folder behind, and nothing worse. A set that is
replaced must be of the same command, and each file in it as it was written.
"""

from __future__ import annotations

import contextlib
import errno
import hashlib
import json
import os
import re
import stat
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from bellowscut import __version__
from bellowscut.errors import OutputError, UsageError
from bellowscut.plain_file import NoPlainFile, read_plain
from bellowscut.words import export as words, say

SET_NAMES = re.compile(
    r"(patterns|templates|form)(-mm)?\.(pdf|svg|dxf)|layout\.(json|pdf)"
    r"|(form|test-piece|stock-[1-9][0-9]*(-back)?|(templates|cauls)(-[1-9][0-9]*)?)(-kerf-[0-9.]+mm)?(-mm)?\.(svg|dxf)"
    r"|worksheet\.pdf|pictures\.pdf|picture-[a-z]+(-[a-z]+)*\.svg"
    r"|summary\.(json|txt)|cutlist\.csv|profile\.toml"
)
"""Names that the files of a set may have; ``-mm`` marks drawings in a format that carries no unit, ``-kerf-0.15mm`` those that allow for a kerf."""

RECORD = ".bellowscut.json"
"""Where a set says which command wrote it and what each of its files was like: by it a set is known as ours and untouched."""

RECORD_FORMAT = 1
RECORD_LIMIT = 1_000_000
"""Greatest size of a record that is read at all [byte]."""

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


@dataclass(frozen=True)
class Target:
    """Where a set goes, and what may be replaced there.

    Parameters
    ----------
    folder : Path
        The folder of the set; its parent must be there.
    command : str
        The command that writes it: a set of another one stays.
    force : bool
        Whether an older set of this command may be replaced, if it is as it was written.
    sources : tuple of str
        Files that the set is made from, which stay too.
    """

    folder: Path
    command: str
    force: bool = False
    sources: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Record:
    """What a set says of itself: its command, and the digest of each file by name."""

    command: str
    digests: Mapping[str, str]

    def as_json(self) -> bytes:
        document = {"format": RECORD_FORMAT, "command": self.command, "version": __version__, "files": self.digests}
        return (json.dumps(document, indent=1) + "\n").encode()


def check_target(target: Target) -> None:
    """Refuse a folder that `publish` would refuse, before any work is done.

    Parameters
    ----------
    target : Target
        Where a set is to be written.

    Raises
    ------
    UsageError
        Unless the folder is absent and its parent is a folder; with `force`
        it may also be an empty folder, or one that holds a set of the same
        command as it was written and nothing else, other than the folder
        the program was started in.
    OutputError
        When the disk does not let us look.
    """
    try:
        _refuse(target)
    except OSError as error:
        raise OutputError(say(words.FOLDER_NOT_WRITTEN, folder=target.folder, reason=_reason(error))) from error


def publish(target: Target, files: Mapping[str, bytes]) -> None:
    """Write a complete set of files.

    Parameters
    ----------
    target : Target
        Where it goes; no file of an older set there is kept.
    files : Mapping of str to bytes
        Content by file name; a `RECORD` is written beside them.

    Raises
    ------
    UsageError
        As `check_target` does.
    OutputError
        When the disk does not do what was asked: the folder is as it was,
        unless the message says that the set is written.
    ValueError
        When there is no file, or a name does not match `SET_NAMES`.
    """
    if not files or not all(SET_NAMES.fullmatch(name) for name in files):
        raise ValueError(say(words.NOT_A_SET, files=", ".join(files) or "none"))
    check_target(target)
    folder = target.folder
    record = _Record(target.command, {name: hashlib.sha256(files[name]).hexdigest() for name in sorted(files)})
    # Made with the mode that the user's umask asks for, unlike the private folders of tempfile.
    # The name does not grow with that of the target, which may be as long as the disk allows.
    fresh = folder.parent / f".bellowscut-{os.urandom(8).hex()}"
    aside = fresh.with_name(f"{fresh.name}-old")
    stands = False
    try:
        fresh.mkdir()
        # The record comes first, so that a folder with a file in it is known for what it is.
        _fill(fresh, {RECORD: record.as_json(), **files})
        _swap(fresh, aside, target)
        stands = True
        # The older set is the only one sure to outlast a power cut until the disk has the new names too.
        _sync_folder(folder.parent)
        _clear(fresh, aside, folder, record)
    except BaseException as error:
        if isinstance(error, OSError) and stands:
            left = next((path for path in (fresh, aside) if path.exists()), None)
            if left is None:
                raise OutputError(say(words.FOLDER_WRITTEN_WITH_TROUBLE, folder=folder, reason=_reason(error))) from error
            raise OutputError(say(words.FOLDER_WRITTEN_OLDER_LEFT, folder=folder, reason=_reason(error), old=left)) from error
        with contextlib.suppress(OSError):
            _clear(fresh, aside, folder, record)
        if isinstance(error, OSError):
            raise OutputError(say(words.FOLDER_NOT_WRITTEN, folder=folder, reason=_reason(error))) from error
        raise


def _refuse(target: Target) -> None:
    folder = target.folder
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
    if not target.force:
        raise UsageError(say(words.FOLDER_EXISTS, folder=folder))
    if Path.cwd().is_relative_to(folder.resolve()):
        raise UsageError(say(words.FOLDER_IN_USE, folder=folder))
    fault = _fault(target)
    if fault:
        raise UsageError(fault)


def _fault(target: Target) -> str:
    """What keeps a folder from being replaced; nothing for an empty one and for a set of this command as it was written."""
    folder = target.folder
    with os.scandir(folder) as entries:
        plain = {entry.name: entry.is_file(follow_symlinks=False) for entry in entries}
    for name in sorted(plain):
        if not (plain[name] and (name == RECORD or SET_NAMES.fullmatch(name))):
            return say(words.HOLDS_A_STRANGER, folder=folder, name=name)
    for source in map(Path, target.sources):
        if source.name in plain and source.resolve().parent == folder.resolve():
            return say(words.HOLDS_A_SOURCE, folder=folder, name=source.name)
    names = sorted(set(plain) - {RECORD})
    if not plain:
        return ""
    record = _record(folder)
    if record is None:
        return say(words.HOLDS_NO_RECORD, folder=folder, name=(names or [RECORD])[0], record=RECORD)
    if record.command != target.command:
        return say(words.HOLDS_ANOTHER, folder=folder, name=(names or [RECORD])[0], other=record.command, command=target.command)
    changed = next((name for name in names if record.digests.get(name) != _digest(folder / name)), "")
    return say(words.HOLDS_CHANGED, folder=folder, name=changed) if changed else ""


def _record(folder: Path) -> _Record | None:
    """The record of a set; None where there is none that can be read."""
    try:
        data = read_plain(folder / RECORD, RECORD_LIMIT)
        document = json.loads(data) if len(data) <= RECORD_LIMIT else {}
        command, digests = document["command"], document["files"]
    except (FileNotFoundError, NoPlainFile, ValueError, RecursionError, KeyError, TypeError):
        return None
    if document.get("format") != RECORD_FORMAT or not isinstance(command, str) or not isinstance(digests, dict):
        return None
    return _Record(command, digests) if all(map(SET_NAMES.fullmatch, digests)) else None


def _digest(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _fill(fresh: Path, files: Mapping[str, bytes]) -> None:
    for name, content in files.items():
        with (fresh / name).open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
    _sync_folder(fresh)


def _swap(fresh: Path, aside: Path, target: Target) -> None:
    """Put `fresh` in the place of the folder; an older set is then in `fresh` or `aside`."""
    # Looked at again: writing took a while, and somebody may have put a note into the folder.
    _refuse(target)
    if not target.folder.exists():
        fresh.rename(target.folder)
    elif not _exchange(fresh, target.folder):
        _rename_aside(fresh, target.folder, aside)


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


def _rename_aside(fresh: Path, folder: Path, aside: Path) -> None:
    """Two renames: for the moment between them there is no folder, but the old set is whole beside it."""
    try:
        folder.rename(aside)
        fresh.rename(folder)
    except BaseException:
        if aside.exists() and not folder.exists():
            aside.rename(folder)
        raise


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


def _clear(fresh: Path, aside: Path, folder: Path, record: _Record) -> None:
    """Remove what is not the set: what was begun, or the older set where the new one stands."""
    for path in (fresh, aside):
        if path.exists() and (path is fresh or folder.exists()):
            _remove_set(path, record)


def _remove_set(folder: Path, fresh: _Record) -> None:
    """Remove the set that was begun, or an older one, of which what is not as it was written stays."""
    found = _record(folder)
    older = found if found is not None and found.digests != fresh.digests else None
    for name in (fresh if older is None else older).digests:
        path = folder / name
        if path.is_file() and (older is None or _digest(path) == older.digests[name]):
            path.unlink()
    (folder / RECORD).unlink(missing_ok=True)
    folder.rmdir()


def _reason(error: OSError) -> str:
    known = REASONS.get(error.errno or 0)
    return say(known) if known else error.strerror or str(error)

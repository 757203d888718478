"""Publishing a set: all of it or nothing, and never over anything that is not a set."""

from __future__ import annotations

import errno
import json
import os
import stat
import subprocess
import sys
import threading
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from bellowscut.errors import OutputError, UsageError
from bellowscut.export import publish as module
from bellowscut.export.publish import RECORD, Target, check_target, publish
from tests.hanging import HANG

ROOT = Path(__file__).parents[2]


def a_set(mark: str) -> dict[str, bytes]:
    """A small set that can be told from another by its mark."""
    return {
        "patterns.pdf": mark.encode() * 50_000,
        "stock-1.svg": mark.encode(),
        "summary.json": json.dumps({"format": 1, "fingerprint": mark}).encode(),
    }


OLD, NEW = a_set("old"), a_set("new")


def put(folder: Path, files: Mapping[str, bytes], *, force: bool, command: str = "make", sources: tuple[str, ...] = ()) -> None:
    publish(Target(folder, command, force, sources), files)


def check(folder: Path, *, force: bool, command: str = "make", sources: tuple[str, ...] = ()) -> None:
    check_target(Target(folder, command, force, sources))


def content(folder: Path) -> dict[str, bytes]:
    """The files of a set, without what it says of itself."""
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.name != RECORD}


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def exchange_works(place: Path) -> bool:
    for name in ("one", "other"):
        (place / name).mkdir()
    return module._exchange(place / "one", place / "other")


@pytest.fixture(params=["exchange", "rename aside"])
def _both_ways(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Run a test with the one-step exchange and without it."""
    if request.param == "rename aside":
        monkeypatch.setattr(module, "_exchange", lambda _one, _other: False)


@pytest.fixture
def target(tmp_path: Path) -> Path:
    return tmp_path / "six-patterns"


class TestWriting:
    def test_a_new_folder_holds_the_set_and_nothing_else_is_left(self, target: Path) -> None:
        put(target, NEW, force=False)
        assert content(target) == NEW
        assert names(target.parent) == [target.name]

    @pytest.mark.usefixtures("_both_ways")
    def test_force_replaces_every_file_of_the_older_set(self, target: Path) -> None:
        put(target, OLD | {"cutlist.csv": b"only in the old"}, force=False)
        put(target, NEW, force=True)
        assert content(target) == NEW
        assert names(target.parent) == [target.name]

    @pytest.mark.usefixtures("_both_ways")
    def test_force_takes_an_empty_folder(self, target: Path) -> None:
        target.mkdir()
        put(target, NEW, force=True)
        assert content(target) == NEW
        assert names(target.parent) == [target.name]

    def test_force_needs_nothing_to_replace(self, target: Path) -> None:
        put(target, NEW, force=True)
        assert content(target) == NEW

    def test_a_relative_folder_is_taken_from_where_the_user_is(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.chdir(tmp_path)
        put(Path("here"), OLD, force=False)
        put(Path("here"), NEW, force=True)
        assert content(tmp_path / "here") == NEW

    def test_the_longest_name_a_disk_allows(self, tmp_path: Path) -> None:
        target = tmp_path / ("x" * os.pathconf(tmp_path, "PC_NAME_MAX"))
        put(target, OLD, force=False)
        put(target, NEW, force=True)
        assert content(target) == NEW

    @pytest.mark.parametrize("mask", [0o022, 0o077, 0o002])
    def test_modes_follow_the_umask(self, target: Path, mask: int) -> None:
        before = os.umask(mask)
        try:
            put(target, NEW, force=False)
        finally:
            os.umask(before)
        assert stat.S_IMODE(target.stat().st_mode) == 0o777 & ~mask
        assert {stat.S_IMODE(path.stat().st_mode) for path in target.iterdir()} == {0o666 & ~mask}

    def test_files_and_folders_are_on_the_disk_before_the_old_set_goes(self, target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        put(target, OLD, force=False)
        happened: list[str] = []
        fsync, exchange, remove = os.fsync, module._exchange, module._remove_set

        def seen_fsync(handle: int) -> None:
            path = Path(f"/proc/self/fd/{handle}").readlink()
            happened.append("sync folder above" if path == target.parent else "sync folder" if path.is_dir() else f"sync {path.name}")
            fsync(handle)

        def seen_exchange(one: Path, other: Path) -> bool:
            happened.append("swap")
            return exchange(one, other)

        def seen_remove(folder: Path, record: module._Record) -> None:
            happened.append("remove")
            remove(folder, record)

        monkeypatch.setattr(os, "fsync", seen_fsync)
        monkeypatch.setattr(module, "_exchange", seen_exchange)
        monkeypatch.setattr(module, "_remove_set", seen_remove)
        put(target, NEW, force=True)
        assert happened == [*(f"sync {name}" for name in (RECORD, *NEW)), "sync folder", "swap", "sync folder above", "remove"]

    @pytest.mark.parametrize(
        "files",
        [
            {},
            {RECORD: b"{}"},
            NEW | {"../patterns.svg": b""},
            NEW | {"sub/patterns.svg": b""},
            NEW | {"notes.txt": b""},
            NEW | {"stock-0.svg": b""},
            NEW | {"patterns.pdf\n": b""},
            NEW | {"": b""},
        ],
        ids=["none", "record", "above", "below", "notes", "stock-0", "newline", "empty"],
    )
    def test_a_set_that_could_not_be_replaced_later_is_a_mistake_of_the_caller(self, target: Path, files: dict[str, bytes]) -> None:
        with pytest.raises(ValueError, match="not the files of a set"):
            put(target, files, force=True)
        assert names(target.parent) == []


def _file(target: Path) -> None:
    target.write_text("a file")


def _link(target: Path) -> None:
    put(target.with_name("elsewhere"), OLD, force=False)
    target.symlink_to("elsewhere")


def _dangling(target: Path) -> None:
    target.symlink_to("nowhere")


def _with(**more: str) -> Callable[[Path], None]:
    def make(target: Path) -> None:
        put(target, OLD, force=False)
        for name, text in more.items():
            (target / name.replace("stock_1", "stock-1").replace("_", ".")).write_text(text)

    return make


def _with_folder(target: Path) -> None:
    put(target, OLD, force=False)
    (target / "templates.svg").mkdir()


def _with_link(target: Path) -> None:
    put(target, OLD, force=False)
    (target / "templates.svg").symlink_to("patterns.pdf")


def _without_record(target: Path) -> None:
    """As version 0.1 has written a set, and as one copied without its hidden files."""
    put(target, OLD, force=False)
    (target / RECORD).unlink()


def _record(text: str) -> Callable[[Path], None]:
    def make(target: Path) -> None:
        put(target, OLD, force=False)
        (target / RECORD).write_text(text)

    return make


def _linked_record(target: Path) -> None:
    put(target, OLD, force=False)
    (target / RECORD).rename(target.with_name("elsewhere"))
    (target / RECORD).symlink_to("../elsewhere")


def _of_another(target: Path) -> None:
    put(target, OLD, force=False, command="layout")


REFUSED_WITH_FORCE: dict[str, tuple[Callable[[Path], None], str]] = {
    "file": (_file, "is a file"),
    "link": (_link, "is a link"),
    "dangling-link": (_dangling, "is a link"),
    "notes": (_with(notes_txt="glue was too thin"), "holds notes.txt"),
    "hidden": (_with(_hidden="x"), r"holds \.hidden"),
    "folder-inside": (_with_folder, "holds templates.svg"),
    "link-inside": (_with_link, "holds templates.svg"),
    "edited": (_with(stock_1_svg="edited"), "holds stock-1.svg, which is not as it was written"),
    "added": (_with(profile_toml="mine"), "holds profile.toml, which is not as it was written"),
    "of-another-command": (_of_another, "holds patterns.pdf of a set that bellowscut layout has written, and bellowscut make does not"),
    "no-record": (_without_record, "holds patterns.pdf, but no .bellowscut.json"),
    "linked-record": (_linked_record, "holds .bellowscut.json, which is no part"),
    "record-of-another-format": (_record('{"format": 2, "command": "make", "files": {}}'), "but no .bellowscut.json"),
    "record-without-command": (_record('{"format": 1, "files": {}}'), "but no .bellowscut.json"),
    "record-of-no-files": (_record('{"format": 1, "command": "make", "files": {}}'), "holds patterns.pdf, which is not as"),
    "record-that-reaches-out": (_record('{"format": 1, "command": "make", "files": {"../mine": ""}}'), "but no .bellowscut.json"),
    "record-not-an-object": (_record('["format", "command", "files"]'), "but no .bellowscut.json"),
    "record-not-json": (_record("{"), "but no .bellowscut.json"),
    "record-too-deep": (_record("[" * 100_000), "but no .bellowscut.json"),
}


def everything(place: Path) -> dict[str, object]:
    """All that stands in a folder, links not followed, for comparing before and after."""
    found: dict[str, object] = {}
    for path in sorted(place.rglob("*")):
        found[str(path)] = path.readlink() if path.is_symlink() else "folder" if path.is_dir() else path.read_bytes()
    return found


class TestRefusing:
    @pytest.mark.parametrize("case", REFUSED_WITH_FORCE)
    def test_what_is_no_set_of_ours_stays(self, target: Path, case: str) -> None:
        make, words = REFUSED_WITH_FORCE[case]
        make(target)
        before = everything(target.parent)
        with pytest.raises(UsageError, match=words) as early:
            check(target, force=True)
        with pytest.raises(UsageError, match=words):
            put(target, NEW, force=True)
        assert str(target) in str(early.value)
        assert everything(target.parent) == before

    def test_a_huge_record_is_not_even_read(self, target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        put(target, OLD, force=False)
        monkeypatch.setattr(module, "RECORD_LIMIT", 4 * (target / RECORD).stat().st_size)
        check(target, force=True)
        (target / RECORD).write_text((target / RECORD).read_text() + " " * module.RECORD_LIMIT)
        with pytest.raises(UsageError, match="but no .bellowscut.json"):
            check(target, force=True)

    @pytest.mark.parametrize("force", [True, False])
    def test_what_the_set_is_made_from_stays(self, target: Path, force: bool, monkeypatch: pytest.MonkeyPatch) -> None:
        """Even where it is as it was written: another command or option would write another one."""
        put(target, OLD | {"profile.toml": b"as used"}, force=False)
        monkeypatch.chdir(target.parent)
        for source in (str(target / "profile.toml"), f"{target.name}/profile.toml", f"{target.name}/../{target.name}/profile.toml"):
            with pytest.raises(UsageError, match="holds profile.toml, which the set is made from" if force else "--force"):
                put(Path(target.name), NEW, force=force, sources=("six-sided-treble", source))
        put(target, NEW, force=True, sources=("profile.toml", str(target.parent / "profile.toml")))

    def test_a_file_that_was_taken_out_is_not_missed(self, target: Path) -> None:
        put(target, OLD, force=False)
        (target / "stock-1.svg").unlink()
        put(target, NEW, force=True)
        assert content(target) == NEW

    @pytest.mark.parametrize("empty", [True, False], ids=["empty", "set"])
    def test_without_force_a_folder_stays(self, target: Path, empty: bool) -> None:
        if empty:
            target.mkdir()
        else:
            put(target, OLD, force=False)
        before = everything(target.parent)
        with pytest.raises(UsageError, match="--force"):
            check(target, force=False)
        with pytest.raises(UsageError, match="--force"):
            put(target, NEW, force=False)
        assert everything(target.parent) == before

    def test_the_folder_above_must_be_there(self, target: Path) -> None:
        with pytest.raises(UsageError, match="is not a folder; make that first"):
            put(target / "deeper", NEW, force=True)
        target.write_text("a file")
        with pytest.raises(UsageError, match="is not a folder; make that first"):
            put(target / "deeper", NEW, force=True)

    @pytest.mark.parametrize("name", ["", ".", "..", "../six-patterns"])
    def test_the_folder_the_user_is_in_stays(self, target: Path, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
        put(target, OLD, force=False)
        monkeypatch.chdir(target)
        with pytest.raises(UsageError, match="the folder you are in"):
            put(Path(name), NEW, force=True)
        assert content(target) == OLD

    def test_a_note_put_there_while_the_set_was_written_is_kept(self, target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        put(target, OLD, force=False)
        fill = module._fill

        def slow_fill(fresh: Path, files: dict[str, bytes]) -> None:
            fill(fresh, files)
            (target / "notes.txt").write_text("written meanwhile")

        monkeypatch.setattr(module, "_fill", slow_fill)
        with pytest.raises(UsageError, match=r"holds notes\.txt"):
            put(target, NEW, force=True)
        assert content(target) == OLD | {"notes.txt": b"written meanwhile"}
        assert names(target.parent) == [target.name]

    def test_a_note_put_there_after_the_exchange_is_never_deleted(self, target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        put(target, OLD, force=False)
        swap = module._swap

        def noted(fresh: Path, aside: Path, aim: Target) -> None:
            swap(fresh, aside, aim)
            (fresh / "notes.txt").write_text("written late")
            (fresh / "stock-1.svg").write_text("edited late")

        monkeypatch.setattr(module, "_swap", noted)
        with pytest.raises(OutputError, match="is written.*the older set is left in"):
            put(target, NEW, force=True)
        assert content(target) == NEW
        (left,) = (path for path in target.parent.iterdir() if path != target)
        assert content(left) == {"notes.txt": b"written late", "stock-1.svg": b"edited late"}


STEPS: dict[str, object] = {
    "lstat": Path,
    "scandir": os,
    "mkdir": Path,
    "open": Path,
    "fsync": os,
    "rename": Path,
}
NUMBERS = [errno.EACCES, errno.ENOSPC, errno.EROFS, errno.EIO]


class TestTrouble:
    """The tests may run as root, whom no mode stops: so the calls themselves are made to fail."""

    @pytest.mark.parametrize("number", NUMBERS, ids=[errno.errorcode[number] for number in NUMBERS])
    @pytest.mark.parametrize("name", STEPS)
    def test_whatever_fails_the_old_set_stays(self, target: Path, name: str, number: int, monkeypatch: pytest.MonkeyPatch) -> None:
        put(target, OLD, force=False)
        monkeypatch.setattr(module, "_exchange", lambda _one, _other: False)

        def fail(*_args: object, **_named: object) -> None:
            raise OSError(number, os.strerror(number))

        with monkeypatch.context() as broken:
            broken.setattr(STEPS[name], name, fail)
            with pytest.raises(OutputError, match="cannot be written") as raised:
                put(target, NEW, force=True)
        assert str(target) in str(raised.value)
        assert "Errno" not in str(raised.value)
        assert content(target) == OLD
        assert names(target.parent) == [target.name]

    @pytest.mark.usefixtures("_both_ways")
    @pytest.mark.parametrize("stop_at", range(12))
    def test_an_interrupt_leaves_one_whole_set_and_nothing_else(self, target: Path, stop_at: int, monkeypatch: pytest.MonkeyPatch) -> None:
        put(target, OLD, force=False)
        calls = 0

        def counted(original: Callable[..., object]) -> Callable[..., object]:
            def call(*args: object, **named: object) -> object:
                nonlocal calls
                calls += 1
                if calls == stop_at + 1:
                    raise KeyboardInterrupt
                return original(*args, **named)

            return call

        with monkeypatch.context() as broken:
            for place, name in [(Path, "mkdir"), (Path, "open"), (os, "fsync"), (module, "_exchange"), (Path, "rename")]:
                broken.setattr(place, name, counted(getattr(place, name)))
            try:
                put(target, NEW, force=True)
            except KeyboardInterrupt:
                assert content(target) in (OLD, NEW)
            else:
                assert content(target) == NEW
                assert calls <= stop_at
        assert names(target.parent) == [target.name]

    def test_a_second_rename_that_fails_is_undone(self, target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        put(target, OLD, force=False)
        monkeypatch.setattr(module, "_exchange", lambda _one, _other: False)
        rename = Path.rename

        def fail_into_place(self: Path, goal: Path) -> Path:
            if goal == target and not self.name.endswith("-old"):
                raise PermissionError(errno.EPERM, os.strerror(errno.EPERM))
            return rename(self, goal)

        monkeypatch.setattr(Path, "rename", fail_into_place)
        with pytest.raises(OutputError, match="permission is denied"):
            put(target, NEW, force=True)
        assert content(target) == OLD
        assert names(target.parent) == [target.name]

    @pytest.mark.skipif(sys.platform != "linux", reason="/proc is a folder that even root cannot write to")
    def test_a_folder_that_cannot_be_written_to(self) -> None:
        with pytest.raises(OutputError, match="^/proc/six-patterns: cannot be written: "):
            put(Path("/proc/six-patterns"), NEW, force=False)

    @pytest.mark.skipif(sys.platform != "linux", reason="/dev/full belongs to Linux")
    def test_a_full_disk_is_named_as_such(self, target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        opened = Path.open
        monkeypatch.setattr(Path, "open", lambda self, mode: opened(Path("/dev/full") if mode == "xb" else self, mode.replace("x", "w")))
        with pytest.raises(OutputError, match="six-patterns: cannot be written: the disk is full$"):
            put(target, NEW, force=False)
        assert names(target.parent) == []

    @pytest.mark.parametrize("number", [errno.ENOSYS, errno.EINVAL, errno.EOPNOTSUPP])
    def test_a_disk_that_cannot_exchange_is_served_by_two_renames(self, target: Path, number: int, monkeypatch: pytest.MonkeyPatch) -> None:
        put(target, OLD, force=False)
        use_libc(monkeypatch, number)
        put(target, NEW, force=True)
        assert content(target) == NEW
        assert names(target.parent) == [target.name]

    def test_an_exchange_that_is_forbidden_is_told(self, target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        put(target, OLD, force=False)
        use_libc(monkeypatch, errno.EACCES)
        with pytest.raises(OutputError, match="permission is denied"):
            put(target, NEW, force=True)
        assert content(target) == OLD
        assert names(target.parent) == [target.name]

    def test_a_system_without_the_call_is_served_too(self, target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        put(target, OLD, force=False)
        monkeypatch.setattr("ctypes.CDLL", lambda *_args, **_named: object())
        put(target, NEW, force=True)
        assert content(target) == NEW


def use_libc(monkeypatch: pytest.MonkeyPatch, number: int) -> None:
    """Let the system's exchange fail with an error number."""

    class Libc:
        @staticmethod
        def renameat2(*_args: object) -> int:
            return -1

    monkeypatch.setattr("ctypes.CDLL", lambda *_args, **_named: Libc())
    monkeypatch.setattr("ctypes.get_errno", lambda: number)
    monkeypatch.setattr(sys, "platform", "linux")


KILLED = """
# Publish once for every line that publishing executes, stopped just before that line; print what was found each time.
import json, os, shutil, signal, sys
from pathlib import Path
from bellowscut.terminal import stoppable
from bellowscut.export import publish as module

way, place, number = sys.argv[1], Path(sys.argv[2]), getattr(signal, sys.argv[3])
sets = [{"patterns.pdf": mark * 9999, "summary.json": b'{"format": 1, "fingerprint": "%s"}' % mark} for mark in (b"old", b"new")]
target = place / "six-patterns"
if way == "aside":
    module._exchange = lambda one, other: False


def trace_until(last):
    seen = 0
    def trace(frame, event, argument):
        nonlocal seen
        if frame.f_code.co_filename != module.__file__:
            return None
        if event == "line":
            seen += 1
            if seen == last:
                os.kill(os.getpid(), number)
        return trace
    return trace


def standing(folder):
    if not folder.is_dir():
        return "none"
    held = {path.name: path.read_bytes() for path in folder.iterdir() if path.name != module.RECORD}
    return "old" if held == sets[0] else "new" if held == sets[1] else "half"


module.publish(module.Target(target, "make"), sets[0])
found, last, killed = [], 0, True
while killed:
    last += 1
    child = os.fork()
    if child == 0:
        with stoppable():
            sys.settrace(trace_until(last))
            module.publish(module.Target(target, "make", True), sets[1])
            os._exit(0)
    code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    killed = code in (-number, 128 + number)
    assert killed or code == 0
    beside = sorted(standing(path) for path in place.iterdir() if path != target)
    found.append([standing(target), beside])
    for path in place.iterdir():
        shutil.rmtree(path)
    module.publish(module.Target(target, "make"), sets[0])
print(json.dumps(found))
"""


def stopped(tmp_path: Path, way: str, name: str) -> list[list[Any]]:
    """What stands in the place of the set, and beside it, after a stop before each line."""
    if way == "exchange" and not exchange_works(tmp_path):
        pytest.skip("this disk cannot exchange two folders")
    place = tmp_path / "place"
    place.mkdir()
    done = subprocess.run([sys.executable, "-c", KILLED, way, str(place), name], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    found: list[list[Any]] = json.loads(done.stdout)
    assert len(found) > 40
    assert found[0] == ["old", []]
    assert found[-1] == ["new", []]
    return found


@pytest.mark.skipif(not hasattr(os, "fork"), reason="the killed process is forked")
@pytest.mark.parametrize("way", ["exchange", "aside"])
def test_killed_before_any_line_the_set_is_whole(tmp_path: Path, way: str) -> None:
    found = stopped(tmp_path, way, "SIGKILL")
    standing = [there for there, _ in found]
    assert standing == sorted(standing, key=["old", "none", "new"].index), "old first, new afterwards, and no way back"
    if way == "exchange":
        assert set(standing) == {"old", "new"}
    else:
        # Between two renames there is no folder, but the old set and the new one are both whole beside it.
        assert {tuple(beside) for there, beside in found if there == "none"} == {("new", "old")}


@pytest.mark.skipif(not hasattr(os, "fork"), reason="the stopped process is forked")
@pytest.mark.parametrize(("way", "name"), [("exchange", "SIGTERM"), ("aside", "SIGHUP")])
def test_told_to_stop_before_any_line_it_leaves_one_whole_set_and_nothing_else(tmp_path: Path, way: str, name: str) -> None:
    """As when a terminal is closed or a computer shut down."""
    found = stopped(tmp_path, way, name)
    assert {there for there, _ in found} == {"old", "new"}
    assert [beside for _, beside in found if beside] == []


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux exchanges two folders in one step")
def test_a_reader_never_finds_the_folder_missing(tmp_path: Path, target: Path) -> None:
    if not exchange_works(tmp_path):
        pytest.skip("this disk cannot exchange two folders")
    put(target, OLD, force=False)
    marks = {json.loads(files["summary.json"])["fingerprint"] for files in (OLD, NEW)}
    ready, done = threading.Event(), threading.Event()
    looks, missing = 0, 0
    seen: set[str] = set()

    def look() -> None:
        nonlocal looks, missing
        while not done.is_set():
            looks += 1
            try:
                seen.add(json.loads((target / "summary.json").read_bytes())["fingerprint"])
            except FileNotFoundError:
                missing += 1
            ready.set()

    reader = threading.Thread(target=look)
    reader.start()
    try:
        assert ready.wait(timeout=HANG)
        for turn in range(60):
            put(target, (NEW, OLD)[turn % 2], force=True)
    finally:
        done.set()
        reader.join(timeout=HANG)
    assert looks > 60
    assert missing == 0
    assert seen == marks

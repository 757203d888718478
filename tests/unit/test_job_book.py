"""The job book: read, learned from, written at its end."""

from __future__ import annotations

import csv
import difflib
import errno
import io
import os
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from bellowscut.bellows import Bellows
from bellowscut.errors import OutputError, UsageError
from bellowscut.estimate import estimate
from bellowscut.job_book import COLUMNS, Entry, amount, append, area, guarded, learned, leather_learned, positive, read
from bellowscut.parts import make_parts
from bellowscut.summary import as_csv

Make = Callable[..., Bellows]
HEAD = ",".join(COLUMNS) + "\n"


def book(tmp_path: Path, text: str, name: str = "book.csv") -> Path:
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    return path


def test_a_book_as_a_spreadsheet_writes_it(tmp_path: Path) -> None:
    """With a byte order mark, semicolons, commas as decimal points, a column of its own and an empty line."""
    path = book(
        tmp_path,
        "\ufeffdate;instrument;job;copies;what;pieces;net_dm2;took;unit;remark\n"
        "2026-01-09;A box;regusset;;glue-gussets;42;;150;min;cold day\n;;;;;;;;;\n"
        "2026-01-09;A box;regusset;;gusset skin;48;4,81;6,3;dm2;\n",
    )
    minutes, leather = read(path)
    assert (minutes.job, minutes.copies, minutes.what, minutes.pieces, minutes.took) == ("regusset", 1, "glue-gussets", 42, Decimal(150))
    assert (round(leather.net_area, 6), leather.took, leather.is_operation) == (48100.0, Decimal(63000), False)


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("d,i,repaint,1,clean,,,60,min", "job: is repaint; should be one of rebellows"),
        ("d,i,regusset,1,glue-gusset,42,,60,min", "the nearest is glue-gussets"),
        ("d,i,regusset,1,clean,,,an hour,min", "took: is an hour; should be a number over 0"),
        ("d,i,regusset,1,clean,,,nan,min", "took: is nan"),
        ("d,i,regusset,1,clean,,,-5,min", "took: is -5"),
        ("d,i,regusset,0,clean,,,60,min", "copies: is 0; should be a whole number, 1 or more"),
        ("d,i,regusset,1,clean,some,,60,min", "pieces: is some"),
        ("d,i,regusset,1,clean,,,60,hours", "unit: is hours; should be min"),
        ("d,i,regusset,1,gusset skin,48,,6.3,dm2", 'net_dm2: is ""; should be a number over 0'),
    ],
)
def test_a_wrong_line_is_named(tmp_path: Path, row: str, told: str) -> None:
    path = book(tmp_path, HEAD + "d,i,regusset,1,clean,,,60,min\n" + row + "\n")
    with pytest.raises(UsageError, match="book.csv:3: ") as caught:
        read(path)
    assert told in str(caught.value)


def test_all_wrong_lines_are_told_at_once(tmp_path: Path) -> None:
    path = book(tmp_path, HEAD + "d,i,regusset,1,clean,,,x,min\n" * 3)
    with pytest.raises(UsageError) as caught:
        read(path)
    assert [line.split(":")[-3] for line in str(caught.value).split("\n")] == ["2", "3", "4"]


@pytest.mark.parametrize("text", ["a,b\n1,2\n", "date,instrument\n", ",,\n"])
def test_what_is_no_job_book(tmp_path: Path, text: str) -> None:
    with pytest.raises(UsageError, match="book.csv:1: "):
        read(book(tmp_path, text))


def test_a_file_that_is_not_there_or_not_text(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match="no such job book"):
        read(tmp_path / "none.csv")
    (tmp_path / "bytes.csv").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(UsageError, match="UTF-8"):
        read(tmp_path / "bytes.csv")
    with pytest.raises(UsageError, match="cannot be read"):
        read(tmp_path)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this platform has no pipes with a name")
def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.csv")
    with pytest.raises(UsageError, match="pipe or device"):
        read(tmp_path / "pipe.csv")


def entry(what: str, took: float, pieces: int = 0, net: float = 0.0, job: str = "regusset", copies: int = 1) -> Entry:
    return Entry("2026-02-01", "A box", job, copies, what, pieces, net, Decimal(str(took)), "dm2" if net else "min")


def test_the_median_of_like_operations() -> None:
    """Glued 42, 42 and 30 gussets: reckoned 120, 120 and 90, took 150, 240 and 99; the middle of 1.25, 2 and 1.1."""
    found = learned([entry("glue-gussets", 150, 42), entry("glue-gussets", 240, 42), entry("glue-gussets", 99, 30)], {})
    assert found.ratios == {"glue-gussets": (Decimal("1.25"), 3)}
    two = learned([entry("clean", 30), entry("clean", 60)], {})
    assert two.ratios == {"clean": (Decimal("0.75"), 2)}


def test_like_operations_of_other_jobs_and_copies_count() -> None:
    """Edge strips of a rebellows are reckoned at 20 + 10 each, of a regusset at 15 + 10; copies each have their own 15."""
    found = learned([entry("edge-strips", 96, 6, job="rebellows"), entry("edge-strips", 270, 18, copies=3)], {})
    assert found.ratios == {"edge-strips": (Decimal("1.2"), 2)}


def test_ones_own_minutes_are_what_a_book_is_weighed_against() -> None:
    found = learned([entry("glue-gussets", 150, 42)], {"glue-gussets": (Decimal(16), Decimal(2))})
    assert found.ratios["glue-gussets"] == (Decimal("1.5"), 1)


def test_leather_is_learned_by_name() -> None:
    book = [entry("gusset skin", 70000, 48, 50000), entry("gusset skin", 80000, 48, 50000), entry("strip skin", 90000, 8, 90000)]
    assert leather_learned(book) == {"gusset skin": (Decimal("1.5"), 2), "strip skin": (Decimal(1), 1)}


def test_the_next_estimate_learns(made: Make) -> None:
    bellows = made(costs={"labour_rate": 60})
    parts = make_parts(bellows, "regusset")
    before = estimate(bellows, parts, "regusset")
    after = estimate(bellows, parts, "regusset", (entry("glue-gussets", 150, 42), entry("gusset skin", 75000, 48, 50000)))
    assert after.minutes - before.minutes == 30
    assert after.labour is not None
    assert before.labour is not None
    assert after.labour - before.labour == 30
    skin = {one.material.name: one for one in after.needs}["gusset skin"]
    cut = sum(part.area * part.pieces for part in parts if part.material == "gusset skin")
    assert skin.gross_area == pytest.approx(1.5 * cut)
    assert (skin.basis, skin.learned, after.learned) == ("job book", 1, 1)
    assert {one.basis for one in after.needs if one.material.name != "gusset skin"} == {"estimate"}


def test_what_is_noted_reads_back(tmp_path: Path) -> None:
    path = tmp_path / "new.csv"
    entries = (
        entry("clean", 55.5),
        Entry("2026-02-01", "=1+1, a box", "strips", 2, "=cmd|' /C calc'!A0", 16, 50000.0, Decimal(92903), "sq ft"),
    )
    append(path, entries[:1])
    append(path, entries[1:])
    first, second = read(path)
    assert first == entries[0]
    assert (second.instrument, second.what) == ("=1+1, a box", "=cmd|' /C calc'!A0")
    assert ",'=cmd|' /C calc'!A0," in path.read_text(encoding="utf-8")
    assert (second.job, second.copies, second.pieces, second.unit) == ("strips", 2, 16, "sq ft")
    assert float(second.took) == pytest.approx(92903, abs=5)
    assert path.read_text(encoding="utf-8").count("date,") == 1


def test_what_the_owner_wrote_is_left_as_it_is(tmp_path: Path) -> None:
    """Own columns, their order, semicolons and a last line without an end."""
    text = "unit;took;what;job;remark\nmin;61;clean;regusset;mine"
    path = book(tmp_path, text)
    append(path, [entry("prop", 20)])
    found = path.read_text(encoding="utf-8")
    assert found.startswith(text + "\n")
    assert [one.what for one in read(path)] == ["clean", "prop"]


CAREFUL = ["=1", "+1", "-1", "@SUM(1)", "\t=1", "\r=1", " =1", "\uff1d1", "\uff0b1", "\uff0d1", "\uff201", "'=1", "''@x"]
"""What a spreadsheet may take for a formula, as OWASP's page on CSV injection lists it, and what looks guarded already."""


@pytest.mark.parametrize("text", CAREFUL)
def test_no_cell_is_a_formula(text: str, tmp_path: Path, six_fold: Bellows) -> None:
    path = tmp_path / "new.csv"
    one = replace(entry("x", 60000, 4, 50000.0), date=text, instrument=text, what=text)
    append(path, [one])
    with path.open(encoding="utf-8", newline="") as file:
        _, cells = csv.reader(file)
    for cell in (cells[0], cells[1], cells[4]):
        assert cell == f"'{text}"
    (back,) = read(path)
    kept = text.replace("\r", "\n")
    assert back == replace(one, date=kept, instrument=kept, what=kept)
    part = replace(make_parts(six_fold, "regusset")[0], material=text, name=text, note=text)
    (row,) = csv.DictReader(io.StringIO(as_csv([part]).decode(), newline=""))
    assert [row[name] for name in ("material", "name", "note")] == [f"'{text}"] * 3
    assert row["height_mm"] == f"{float(row['height_mm']):.3f}"


@pytest.mark.parametrize("text", ["gusset skin", "8'' box", "'tis", "A-B", "1=1", ""])
def test_other_cells_are_left_as_they_are(text: str) -> None:
    assert guarded(text) == text


def test_an_empty_file_is_a_new_book(tmp_path: Path) -> None:
    for name, text in (("a.csv", ""), ("b.csv", "\ufeff"), ("c.csv", "\n \r\n")):
        path = book(tmp_path, text, name)
        assert read(path) == ()
        append(path, [entry("prop", 20)])
        append(path, [entry("clean", 9)])
        assert [one.what for one in read(path)] == ["prop", "clean"], name
        assert path.read_text(encoding="utf-8").count("date,") == 1


@pytest.mark.parametrize("end", ["\r", "\n", "\r\n"])
def test_lines_may_end_as_on_any_machine(tmp_path: Path, end: str) -> None:
    path = tmp_path / "old.csv"
    path.write_bytes(f"job,what,took,unit{end}regusset,clean,61,min{end}{end}regusset,prop,20,min".encode())
    assert [(one.what, int(one.took)) for one in read(path)] == [("clean", 61), ("prop", 20)]
    append(path, [entry("prop", 30)])
    assert [one.took for one in read(path)] == [61, 20, 30]
    data = path.read_bytes().decode()
    assert data.count("\n") == (0 if end == "\r" else 5)
    assert data.replace(end, "").isprintable(), "its own line ends, and no others"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("regusset,cl\rean,61,min\n", "book.csv:2: "),
        (f"regusset,{'x' * 131_073},61,min\n", "book.csv:2: does not read as CSV"),
        ('regusset,"clean,61,min\n', "book.csv:2: does not read as CSV"),
        ('regusset,"clean"s,61,min\n', "book.csv:2: does not read as CSV"),
        ("regusset,clean\0,61,min\n", "book.csv:2: "),
    ],
    ids=["lone-cr", "huge-cell", "open-quote", "after-quote", "nul"],
)
def test_a_broken_line_is_told_and_nothing_is_added(tmp_path: Path, text: str, told: str) -> None:
    path = tmp_path / "book.csv"
    path.write_bytes(f"job,what,took,unit\n{text}".encode())
    before = path.read_bytes()
    with pytest.raises(UsageError, match=told):
        read(path)
    with pytest.raises(UsageError, match=told):
        append(path, [entry("prop", 20)])
    assert path.read_bytes() == before


def test_a_book_of_wrong_names_is_given_up_early(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """To find the nearest name takes long, and twenty lines are told: no more are looked for."""
    looked = 0
    nearest = difflib.get_close_matches

    def counted(*given: Any) -> list[str]:
        nonlocal looked
        looked += 1
        return nearest(*given)

    monkeypatch.setattr(difflib, "get_close_matches", counted)
    path = book(tmp_path, HEAD + "d,i,regusset,1,glue-gusset,42,,60,min\n" * 5_000)
    with pytest.raises(UsageError) as caught:
        read(path)
    assert str(caught.value).count("\n") + 1 == looked == 20


def test_nothing_is_written_into_another_file(tmp_path: Path) -> None:
    path = book(tmp_path, "a letter\n")
    with pytest.raises(UsageError):
        append(path, [entry("prop", 20)])
    assert path.read_text(encoding="utf-8") == "a letter\n"
    with pytest.raises(UsageError, match="no folder"):
        append(tmp_path / "none" / "book.csv", [entry("prop", 20)])
    with pytest.raises((UsageError, OutputError)):
        append(tmp_path, [entry("prop", 20)])


class TestTrouble:
    """A disk that refuses, and others who write: the book is as it was, or whole."""

    @pytest.mark.skipif(sys.platform == "win32", reason="Windows sets no limit to the size of files")
    @pytest.mark.parametrize("there", ["there", "empty", "new"])
    @pytest.mark.parametrize("room", [0, 1, 40])
    def test_a_full_disk_leaves_no_half_line(self, tmp_path: Path, there: str, room: int) -> None:
        """By the limit that the system sets to a file's size: it takes what there is room for, and then refuses."""
        import resource

        path = tmp_path / "book.csv"
        if there == "there":
            append(path, [entry("clean", 60)])
        elif there == "empty":
            path.touch()
        before = path.read_bytes() if path.exists() else b""
        limits = resource.getrlimit(resource.RLIMIT_FSIZE)
        resource.setrlimit(resource.RLIMIT_FSIZE, (len(before) + room, limits[1]))
        try:
            with pytest.raises(OutputError, match="book.csv: cannot be written: "):
                append(path, [entry("prop", 20)])
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, limits)
        assert path.exists() is (there != "new")
        assert there == "new" or path.read_bytes() == before
        append(path, [entry("prop", 20)])
        assert [one.what for one in read(path)] == (["clean", "prop"] if there == "there" else ["prop"])

    @pytest.mark.parametrize("stop", [KeyboardInterrupt, SystemExit])
    def test_a_stopped_run_leaves_no_half_line(self, tmp_path: Path, stop: type[BaseException], monkeypatch: pytest.MonkeyPatch) -> None:
        path = tmp_path / "book.csv"
        append(path, [entry("clean", 60)])
        before = path.read_bytes()
        sync = os.fsync

        def stopped(_: int) -> None:
            monkeypatch.setattr(os, "fsync", sync)
            raise stop

        monkeypatch.setattr(os, "fsync", stopped)
        with pytest.raises(stop):
            append(path, [entry("prop", 20)])
        assert path.read_bytes() == before

    @pytest.mark.skipif(sys.platform == "win32", reason="the other run is played by flock")
    @pytest.mark.parametrize("taken_away", [False, True])
    def test_of_two_at_once_the_second_waits_and_writes_no_second_head(
        self, tmp_path: Path, taken_away: bool, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        """The other run holds a new book; while this one waits it writes its line, or fails and takes the book away again."""
        import fcntl

        path = tmp_path / "book.csv"
        append(tmp_path / "like.csv", [entry("clean", 60)])
        other = path.open("wb")
        fcntl.flock(other, fcntl.LOCK_EX)
        waited = []

        def wait(seconds: float) -> None:
            waited.append(seconds)
            other.write((tmp_path / "like.csv").read_bytes())
            if taken_away:
                path.unlink()
            other.close()

        monkeypatch.setattr(time, "sleep", wait)
        append(path, [entry("prop", 20)])
        assert len(waited) == 1
        assert [one.what for one in read(path)] == (["prop"] if taken_away else ["clean", "prop"])
        assert path.read_bytes().count(b"date,") == 1

    @pytest.mark.skipif(sys.platform == "win32", reason="the other run is played by flock")
    def test_a_book_that_is_never_let_go_is_told(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        import fcntl

        path = tmp_path / "book.csv"
        append(path, [entry("clean", 60)])
        monkeypatch.setattr(time, "sleep", lambda _: None)
        with path.open("rb") as other:
            fcntl.flock(other, fcntl.LOCK_EX)
            with pytest.raises(OutputError, match="in use by another run"):
                append(path, [entry("prop", 20)])
        assert [one.what for one in read(path)] == ["clean"]

    @pytest.mark.skipif(sys.platform == "win32", reason="the lock is flock's")
    def test_a_disk_without_locks_is_written_to_all_the_same(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        def no_locks(*_: object) -> None:
            raise OSError(errno.ENOLCK, os.strerror(errno.ENOLCK))

        monkeypatch.setattr("fcntl.flock", no_locks)
        append(tmp_path / "book.csv", [entry("clean", 60)])
        assert [one.what for one in read(tmp_path / "book.csv")] == ["clean"]

    @pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this platform has no pipes with a name")
    def test_a_pipe_is_not_written_into(self, tmp_path: Path) -> None:
        os.mkfifo(tmp_path / "pipe.csv")
        with pytest.raises(UsageError, match="pipe or device"):
            append(tmp_path / "pipe.csv", [entry("prop", 20)])

    @pytest.mark.parametrize("number", [errno.EACCES, errno.ENAMETOOLONG, errno.EROFS, errno.EIO])
    def test_whatever_the_disk_says_is_told(self, tmp_path: Path, number: int, monkeypatch: pytest.MonkeyPatch) -> None:
        """A folder without rights, a name of 300 letters, ...: whoever runs the tests may have every right."""

        def refused(*_: object) -> int:
            raise OSError(number, os.strerror(number))

        monkeypatch.setattr(os, "open", refused)
        with pytest.raises(UsageError, match=f"book.csv: cannot be read: {os.strerror(number)}"):
            read(tmp_path / "book.csv")
        with pytest.raises(OutputError, match=f"book.csv: cannot be written: {os.strerror(number)}"):
            append(tmp_path / "book.csv", [entry("prop", 20)])


def test_amounts_as_typed() -> None:
    assert area("5.2 dm2") == (Decimal(52000), "dm2")
    assert area(" 1 SQ FT ") == (Decimal("92903.04"), "sq ft")
    assert [area(text) for text in ("5.2", "dm2", "-1 dm2", "inf dm2", "5 m2")] == [None] * 5
    assert [positive(text) for text in ("0", "-1", "NaN", "1e9", "", "x")] == [None] * 6


@pytest.mark.parametrize("text", ["1e-999999", "0.0000001", "0.00099"])
def test_what_a_line_cannot_say_is_not_noted(text: str) -> None:
    assert (amount(text), area(f"{text} dm2"), area(f"{text} sq ft")) == (None, None, None)


@pytest.mark.parametrize("text", ["0.001", "0.0014", "999999.999", "1e3"])
def test_every_amount_that_is_noted_reads_back(tmp_path: Path, text: str) -> None:
    took = amount(text)
    assert took == Decimal(text)
    spread = area(f"{text} sq ft")
    assert spread is not None
    # The smallest corner patch, two millimetres each way.
    append(tmp_path / "b.csv", [replace(entry("skin", 1, 1, 4.0), took=spread[0], unit="sq ft")])
    append(tmp_path / "b.csv", [replace(entry("clean", 1), took=took)])
    skin, clean = read(tmp_path / "b.csv")
    assert clean.took == took
    assert skin.net_area == pytest.approx(4.0)
    assert skin.took == pytest.approx(spread[0], rel=Decimal("1e-6"))

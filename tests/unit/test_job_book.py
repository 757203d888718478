"""The job book: read, learned from, written at its end."""

from __future__ import annotations

import os
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest

from bellowscut.bellows import Bellows
from bellowscut.errors import OutputError, UsageError
from bellowscut.estimate import estimate
from bellowscut.job_book import COLUMNS, Entry, append, area, learned, leather_learned, positive, read
from bellowscut.parts import make_parts

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


@pytest.mark.parametrize("text", ["", "a,b\n1,2\n", "date,instrument\n"])
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
    entries = (entry("clean", 55.5), Entry("2026-02-01", "=1+1, a box", "strips", 2, "strip skin", 16, 50000.0, Decimal(92903), "sq ft"))
    append(path, entries[:1])
    append(path, entries[1:])
    first, second = read(path)
    assert first == entries[0]
    assert second.instrument == "'=1+1, a box"
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


def test_nothing_is_written_into_another_file(tmp_path: Path) -> None:
    path = book(tmp_path, "a letter\n")
    with pytest.raises(UsageError):
        append(path, [entry("prop", 20)])
    assert path.read_text(encoding="utf-8") == "a letter\n"
    with pytest.raises(UsageError, match="no folder"):
        append(tmp_path / "none" / "book.csv", [entry("prop", 20)])
    with pytest.raises((UsageError, OutputError)):
        append(tmp_path, [entry("prop", 20)])


def test_amounts_as_typed() -> None:
    assert area("5.2 dm2") == (Decimal(52000), "dm2")
    assert area(" 1 SQ FT ") == (Decimal("92903.04"), "sq ft")
    assert [area(text) for text in ("5.2", "dm2", "-1 dm2", "inf dm2", "5 m2")] == [None] * 5
    assert [positive(text) for text in ("0", "-1", "NaN", "1e9", "", "x")] == [None] * 6

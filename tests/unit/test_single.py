"""One file, written whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest

from bellowscut.drawing import Page
from bellowscut.errors import OutputError, UsageError
from bellowscut.export.pdf import write_pdf
from bellowscut.export.single import check_file, write_file

END = b"startxref\n9\n%%EOF\n"
OLD, NEW = b"%PDF-1.6 old\n" + END, b"%PDF-1.6 new\n" + END


def without_mark(data: bytes) -> bytes:
    """A page as it was given to be written."""
    begun, _, rest = data.rpartition(b"%bellowscut:")
    return begun + rest.partition(b"\n")[2]


def test_a_new_file(tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    write_file(path, NEW, "quote", force=False)
    assert without_mark(path.read_bytes()) == NEW
    assert path.read_bytes().endswith(END), "nothing may stand after the end of a PDF (ISO 32000-1, 7.5.5)"
    assert [one.name for one in tmp_path.iterdir()] == ["a.pdf"]


def test_an_older_page_is_replaced_only_when_asked(tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    write_file(path, OLD, "quote", force=False)
    with pytest.raises(UsageError, match="already"):
        write_file(path, NEW, "quote", force=False)
    assert without_mark(path.read_bytes()) == OLD
    write_file(path, NEW, "quote", force=True)
    assert without_mark(path.read_bytes()) == NEW
    assert [one.name for one in tmp_path.iterdir()] == ["a.pdf"]


def test_an_empty_file_has_nothing_to_lose(tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    path.touch()
    write_file(path, NEW, "quote", force=True)
    assert without_mark(path.read_bytes()) == NEW


@pytest.mark.parametrize("change", ["", "note", "resaved", "other", "front", "mark"])
def test_what_is_not_this_commands_own_page_is_never_replaced(tmp_path: Path, change: str) -> None:
    """Somebody else's PDF, one with a note added behind, one saved anew, one of another command, and one changed in place."""
    path = tmp_path / "a.pdf"
    write_file(path, OLD, "measuring-sheet" if change == "other" else "quote", force=False)
    data = path.read_bytes()
    kept = {
        "": b"%PDF-1.4 a letter",
        "note": data + b"9 0 obj\n" + END,
        "resaved": without_mark(data),
        "other": data,
        "front": data.replace(b"old", b"odd"),
        "mark": data.replace(b"quote", b"quota"),
    }[change]
    path.write_bytes(kept)
    with pytest.raises(UsageError, match="is not as bellowscut quote wrote it"):
        check_file(path, "quote", force=True)
    with pytest.raises(UsageError, match="is not as bellowscut quote wrote it"):
        write_file(path, NEW, "quote", force=True)
    assert path.read_bytes() == kept


def test_what_is_no_plain_file_is_never_replaced(tmp_path: Path) -> None:
    link, folder = tmp_path / "link.pdf", tmp_path / "folder.pdf"
    link.symlink_to(tmp_path / "a.pdf")
    folder.mkdir()
    for path in (link, folder):
        with pytest.raises(UsageError, match="no plain file"):
            write_file(path, NEW, "quote", force=True)


def test_a_page_with_its_mark_is_a_sound_pdf(tmp_path: Path) -> None:
    """As qpdf reads it, which counts the bytes to the table of objects."""
    path = tmp_path / "a.pdf"
    write_file(path, write_pdf([Page(100.0, 100.0, "a", ())], title="a"), "quote", force=False)
    with pikepdf.open(path) as pdf:
        assert pdf.check_pdf_syntax() == []


def test_a_link_is_not_written_through_though_a_page_stands_at_its_end(tmp_path: Path) -> None:
    page, link = tmp_path / "page.pdf", tmp_path / "link.pdf"
    page.write_bytes(OLD)
    link.symlink_to(page)
    with pytest.raises(UsageError, match="no plain file"):
        check_file(link, "quote", force=True)
    with pytest.raises(UsageError, match="no plain file"):
        write_file(link, NEW, "quote", force=True)
    assert link.is_symlink()
    assert page.read_bytes() == OLD


def test_a_name_or_folder_that_will_not_do(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match="should end in .pdf"):
        check_file(tmp_path / "a.txt", "quote", force=False)
    with pytest.raises(UsageError, match="no folder"):
        check_file(tmp_path / "no" / "a.pdf", "quote", force=False)


def test_a_disk_that_refuses_leaves_what_stood_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.pdf"
    write_file(path, OLD, "quote", force=False)

    def full(_: Path, __: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(OutputError, match="No space left"):
        write_file(path, NEW, "quote", force=True)
    assert without_mark(path.read_bytes()) == OLD
    assert [one.name for one in tmp_path.iterdir()] == ["a.pdf"]

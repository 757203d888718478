"""One file, written whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from bellowscut.errors import OutputError, UsageError
from bellowscut.export.single import check_file, write_file

OLD, NEW = b"%PDF-1.6 old", b"%PDF-1.6 new"


def test_a_new_file(tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    write_file(path, NEW, force=False)
    assert path.read_bytes() == NEW
    assert [one.name for one in tmp_path.iterdir()] == ["a.pdf"]


def test_an_older_page_is_replaced_only_when_asked(tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    path.write_bytes(OLD)
    with pytest.raises(UsageError, match="already"):
        write_file(path, NEW, force=False)
    assert path.read_bytes() == OLD
    write_file(path, NEW, force=True)
    assert path.read_bytes() == NEW
    assert [one.name for one in tmp_path.iterdir()] == ["a.pdf"]


def test_what_is_no_page_is_never_replaced(tmp_path: Path) -> None:
    letter, link, folder = tmp_path / "letter.pdf", tmp_path / "link.pdf", tmp_path / "folder.pdf"
    letter.write_text("Dear customer")
    link.symlink_to(tmp_path / "a.pdf")
    folder.mkdir()
    for path, told in ((letter, "no PDF"), (link, "no plain file"), (folder, "no plain file")):
        with pytest.raises(UsageError, match=told):
            write_file(path, NEW, force=True)
    assert letter.read_text() == "Dear customer"


def test_a_name_or_folder_that_will_not_do(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match="should end in .pdf"):
        check_file(tmp_path / "a.txt", force=False)
    with pytest.raises(UsageError, match="no folder"):
        check_file(tmp_path / "no" / "a.pdf", force=False)


def test_a_disk_that_refuses_leaves_what_stood_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.pdf"
    path.write_bytes(OLD)

    def full(_: Path, __: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(OutputError, match="No space left"):
        write_file(path, NEW, force=True)
    assert path.read_bytes() == OLD
    assert [one.name for one in tmp_path.iterdir()] == ["a.pdf"]

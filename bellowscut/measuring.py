"""The measuring sheet as a file: written before there is a profile, to be filled in at the instrument."""

from __future__ import annotations

from pathlib import Path

from bellowscut.words import measuring as words, say

FILE = Path("measuring-sheet.pdf")
"""Where a sheet goes when no name is given."""


def write(
    section: str, *, sides: int | None = None, paper: tuple[float, float] = (210.0, 297.0), out: Path | None = None, force: bool = False
) -> tuple[Path, int]:
    """Write the measuring sheet for one shape of section.

    Parameters
    ----------
    section : str
        ``regular``, ``rectangle`` or ``measured``.
    sides : int or None
        Number of sides, 3 to 64 [-]; 6 when nothing is said, and 4 for a rectangle.
    paper : tuple of float
        Width and height [mm].
    out : Path or None
        PDF to write; ``measuring-sheet.pdf`` in the current folder by default.
    force : bool
        Replace an older PDF.

    Returns
    -------
    Path
        The file.
    int
        How many pages it has [-].

    Raises
    ------
    UsageError
        When the sheet or the file asked for is none, or the file is there already.
    OutputError
        When the disk refuses; nothing is written.
    """
    from bellowscut.export.pdf import write_pdf
    from bellowscut.export.single import check_file, write_file
    from bellowscut.pages.measuring_sheet import measuring_sheet_pages, sheet_sides

    path = FILE if out is None else out
    check_file(path, "measuring-sheet", force=force)
    pages = measuring_sheet_pages(section, sides=sides, paper=paper)
    title = say(words.TITLE)
    kind = say(words.KINDS[section], sides=sheet_sides(section, sides))
    write_file(path, write_pdf(pages, title=title, subject=f"{title} {kind}"), "measuring-sheet", force=force)
    return path, len(pages)

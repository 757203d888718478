"""Tracings that cannot be used: each is refused in one line of plain words, soon, and never with a traceback."""

from __future__ import annotations

import math
import os
import sys
from pathlib import Path

import pytest

from bellowscut.shapes import Point
from bellowscut.tracing import TracingError, check_outline, dxf as reader, dxf_spline, from_points, read_tracing
from tests.tracing.drawings import MILLIMETRES, RECTANGLE, SKIN, dxf, line, polyline, rectangle, refusal, svg


def zigzag(count: int) -> str:
    return "M0 0" + "".join(f"L{k % 700 + 1} {k % 2 * 300 + k / 1000}" for k in range(count))


def spline(numbers: str) -> str:
    return dxf(f"0\nSPLINE\n8\n0\n{numbers}")


CLAMPED = "40\n0\n40\n0\n40\n1\n40\n1\n"

BAD: list[tuple[str, str, str | bytes, str]] = [
    # What is no tracing at all.
    ("empty", "x.svg", "", "is empty"),
    ("ending", "x.pdf", svg(SKIN), "its name ends in .svg or .dxf"),
    ("compressed by name", "x.svgz", b"\x1f\x8b", "save it as a plain SVG"),
    ("compressed", "x.svg", b"\x1f\x8b\x08\x00", "compressed SVG"),
    ("not UTF-8", "x.svg", svg(SKIN).encode("utf-16"), "is not UTF-8 text"),
    ("Latin letters", "x.svg", svg("<!-- \u00e9 -->").encode("latin-1"), "is not UTF-8 text"),
    ("no XML", "x.svg", "a skin", "does not read as SVG: syntax error in its line 1"),
    ("broken XML", "x.svg", svg("<g>\n<path"), "does not read as SVG: not well-formed (invalid token) in its line 2"),
    ("broken off", "x.svg", f"<svg {MILLIMETRES}>", "no element found"),
    ("an odd end", "x.svg", svg("</g>"), "mismatched tag"),
    ("nul", "x.svg", svg(SKIN + "\0"), "does not read as SVG"),
    ("another XML", "x.svg", "<html/>", 'its outermost element is "html", not svg'),
    ("another namespace", "x.svg", '<svg xmlns="http://no.invalid/ns"/>', "is not an SVG"),
    ("a DXF called SVG", "x.svg", dxf(RECTANGLE), "its name should end in .dxf"),
    ("an SVG called DXF", "x.dxf", svg(SKIN), "its name should end in .svg"),
    ("no DXF", "x.dxf", "a skin\nof goat\n", 'in its line 1, "a skin" stands where a group code should'),
    ("a DXF broken off in a pair", "x.dxf", "0\nSECTION\n2\nENTITIES\n0\n", "in its line 5, it breaks off"),
    ("a DXF broken off", "x.dxf", "0\nSECTION\n2\nENTITIES\n0\nLINE\n", "it breaks off"),
    ("a DXF without sections", "x.dxf", "0\nEOF\n", "no sections"),
    ("entities outside", "x.dxf", "0\nLINE\n8\n0\n", '"LINE" stands where a section should begin'),
    ("a binary DXF", "x.dxf", b"Some Program Binary DXF\r\n\x1a\x00\x00", "binary DXF"),
    ("bytes", "x.dxf", b"0\nSECTION\n\0", "is not text"),
    # Declarations and references.
    ("entities", "x.svg", f'<!DOCTYPE svg [<!ENTITY a "x">]>{svg("&a;")}', "declarations of its own"),
    (
        "a billion laughs",
        "x.svg",
        '<!DOCTYPE svg [<!ENTITY a0 "lol">'
        + "".join(f'<!ENTITY a{k} "{f"&a{k - 1};" * 10}">' for k in range(1, 10))
        + f"]>{svg('<text>&a9;</text>')}",
        "declarations of its own",
    ),
    ("quadratic growth", "x.svg", f'<!DOCTYPE svg [<!ENTITY a "{"x" * 50_000}">]>{svg("&a;" * 50_000)}', "declarations of its own"),
    (
        "growth by attributes",
        "x.svg",
        f'<!DOCTYPE svg [<!ATTLIST g b CDATA "{"x" * 50_000}">]>{svg("<g/>" * 50_000)}',
        "declarations of its own",
    ),
    ("another file", "x.svg", f'<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]>{svg("&a;")}', "declarations of its own"),
    ("an entity nobody declared", "x.svg", svg("&a;"), "undefined entity"),
    ("an entity of a DOCTYPE elsewhere", "x.svg", f'<!DOCTYPE svg SYSTEM "http://no.invalid/x.dtd">{svg("<g>&a;</g>")}', "holds no line"),
    ("use", "x.svg", svg(f'<g id="a">{SKIN}</g><use href="#a"/>'), "unlink the clones"),
    ("an SVG in an SVG", "x.svg", svg(f"<svg>{SKIN}</svg>"), "drawing within the drawing"),
    ("moved by its style", "x.svg", svg(f'<g style="transform: rotate(3deg)">{SKIN}</g>'), "moves a shape by its style"),
    ("a block", "x.dxf", dxf(RECTANGLE + "0\nINSERT\n8\n0\n2\nSKIN\n10\n0\n20\n0\n"), "explode it"),
    # Too much of it.
    ("deep", "x.svg", svg("<g>" * 65 + SKIN + "</g>" * 65), "more than 64 deep"),
    ("deep where nothing is drawn", "x.svg", svg("<metadata>" + "<x>" * 5000 + "</x>" * 5000 + "</metadata>"), "more than 64 deep"),
    ("many elements", "x.svg", svg("<g/>" * 100_001), "more than 100000 elements"),
    ("many entities", "x.dxf", dxf("0\nPOINT\n8\n0\n" * 100_001), "more than 100000 elements"),
    ("many points", "x.svg", svg(f'<path d="{zigzag(200_001)}"/>'), "more than 200000 points"),
    ("many points of curves", "x.svg", svg('<circle r="200000000"/>' * 101), "more than 200000 points"),
    ("commands that draw nothing", "x.svg", svg(f'<path d="M0 0{"z" * 200_001}"/>'), "more than 200000 points"),
    ("many points of one line", "x.dxf", dxf("0\nLWPOLYLINE\n8\n0\n" + "10\n1\n20\n2\n" * 200_001), "more than 200000 points"),
    (
        "bars over bars",
        "x.svg",
        svg(
            SKIN
            + "".join(f'<g id="no-{chr(97 + k // 9)}{chr(97 + k % 9)}">' for k in range(60))
            + f'<path d="{zigzag(7000)}z"/>'
            + "</g>" * 60
        ),
        "cannot be meant",
    ),
    ("many signs", "x.svg", svg("=" * 1_000_001), "far more than a tracing needs"),
    ("many outlines", "x.svg", svg(SKIN + '<path d="M200 200h1v1z"/>' * 1001), "1002 closed outlines"),
    ("many loose ends", "x.svg", svg("".join(f'<path d="M{k * 2} 0h1"/>' for k in range(1001))), "1001 open lines"),
    ("a ragged outline", "x.svg", svg(f'<path d="{zigzag(30_000)}z"/>'), "too ragged"),
    ("a long number", "x.svg", svg(f'<path d="M{"1" * 61} 0"/>'), "is not a number"),
    ("a long transform", "x.svg", svg(f'<g transform="{"scale(1)" * 700}"/>'), "a transform is too long"),
    ("a long style", "x.svg", svg(f'<g style="{"a:b;" * 2600}"/>'), "a style is too long"),
    # Numbers that are none.
    ("not a number", "x.svg", svg('<path d="M0 nan L5 5"/>'), "a number is missing"),
    ("infinite", "x.svg", svg('<path d="M0 1e999L5 5z"/>'), "not a finite number"),
    (
        "infinite by transforms",
        "x.svg",
        svg(f'<g transform="scale(1e300)"><g transform="scale(1e300)">{SKIN}</g></g>'),
        "not a finite number",
    ),
    (
        "infinite times nought",
        "x.svg",
        svg('<g transform="scale(1e300)"><g transform="scale(1e300)"><path d="M0 0H0"/></g></g>'),
        "not a finite number",
    ),
    ("far off", "x.svg", svg('<path d="M0 1e30L5 5z"/>'), "farther off than any skin reaches"),
    ("an infinite radius", "x.svg", svg('<circle r="1e400"/>'), "not a finite number"),
    ("a huge arc", "x.svg", svg('<path d="M0 0A1e200 1e200 0 0 0 1e8 1e8z"/>'), "farther off"),
    ("DXF not a number", "x.dxf", dxf(line(0, 0, math.nan, 5)), "a LINE: a coordinate is not a finite number"),
    ("DXF infinite", "x.dxf", dxf(line(0, 0, math.inf, 5)), "not a finite number"),
    ("DXF no number", "x.dxf", dxf(line(0, 0, 5, 5).replace("5", "five")), 'a LINE: "five" is not a number'),
    ("DXF underscores", "x.dxf", dxf("0\nLINE\n10\n1_0\n"), "is not a number"),
    ("a huge bulge", "x.dxf", dxf(polyline([(0, 0, 1e12), (500, 0, 0), (500, 300, 0)])), "larger than anything that is drawn"),
    (
        "a bulge past all squares",
        "x.dxf",
        dxf(polyline([(0, 0, 1e308), (500, 0, 0), (500, 300, 0)])),
        "larger than anything that is drawn",
    ),
    (
        "a heavy bulge past all squares",
        "x.dxf",
        dxf(
            "0\nPOLYLINE\n70\n1\n"
            + "".join(f"0\nVERTEX\n10\n{x}\n20\n{y}\n42\n-1e308\n" for x, y in ((0, 0), (9, 0), (9, 9)))
            + "0\nSEQEND\n"
        ),
        "larger than anything that is drawn",
    ),
    ("an arc from nowhere", "x.dxf", dxf("0\nARC\n10\n0\n20\n0\n40\n50\n50\n1e308\n51\n180\n"), "holds no line"),
    (
        "an ellipse past all turns",
        "x.dxf",
        dxf("0\nELLIPSE\n10\n0\n20\n0\n11\n90\n21\n0\n40\n0.5\n41\n1e308\n42\n-1e308\n"),
        "one ELLIPSE has numbers that lead nowhere",
    ),
    (
        "a spline with knots past all differences",
        "x.dxf",
        spline("71\n1\n40\n-1e308\n40\n-1e308\n40\n1e308\n40\n1e308\n10\n0\n20\n0\n10\n9\n20\n9\n"),
        "a spline that cannot be drawn",
    ),
    ("a path of one point", "x.svg", svg('<path d="M5 5L5 5"/>'), "holds no line"),
    ("a line of one point", "x.dxf", dxf(line(5, 5, 5, 5)), "holds no line"),
    ("a huge circle", "x.dxf", dxf("0\nCIRCLE\n10\n0\n20\n0\n40\n1e300\n"), "farther off"),
    ("no radius", "x.dxf", dxf("0\nCIRCLE\n10\n0\n20\n0\n40\n0\n"), "an arc with no radius"),
    ("no axis", "x.dxf", dxf("0\nELLIPSE\n10\n0\n20\n0\n11\n0\n21\n0\n40\n1\n"), "an ellipse with no axis"),
    ("a spline short of knots", "x.dxf", spline("71\n1\n40\n0\n40\n1\n10\n0\n20\n0\n10\n5\n20\n5\n"), "numbers missing"),
    ("a spline whose knots fall", "x.dxf", spline("71\n1\n40\n0\n40\n2\n40\n1\n40\n1\n10\n0\n20\n0\n10\n5\n20\n5\n"), "cannot be drawn"),
    (
        "a spline with a knot that falls",
        "x.dxf",
        spline("71\n1\n40\n0\n40\n0\n40\n2\n40\n1\n40\n3\n" + "10\n0\n20\n0\n" * 3),
        "cannot be drawn",
    ),
    ("a spline with a weight of nought", "x.dxf", spline(f"71\n1\n{CLAMPED}41\n0\n41\n1\n10\n0\n20\n0\n10\n5\n20\n5\n"), "cannot be drawn"),
    ("a spline of a high degree", "x.dxf", spline("71\n99\n10\n0\n20\n0\n"), "too high a degree"),
    ("a spline of one point", "x.dxf", spline("71\n3\n11\n0\n21\n0\n"), "fewer than two points"),
    # Path data, lengths, transforms.
    ("no command", "x.svg", svg('<path id="edge" d="5 5"/>'), 'a number stands where a command should; it is the path with the id "edge"'),
    ("an unknown command", "x.svg", svg('<path d="M5 5 X 7"/>'), '"X" is no command'),
    ("a line before a move", "x.svg", svg('<path d="L5 5"/>'), "stands before the first M"),
    ("too few numbers", "x.svg", svg('<path d="M5 5 L7"/>'), "a number is missing before its end"),
    ("numbers after the end", "x.svg", svg('<path d="M5 5L7 7z 5 5"/>'), "a number stands where a command should"),
    ("a flag that is none", "x.svg", svg('<path d="M5 5A5 5 0 2 0 9 9"/>'), "neither 0 nor 1"),
    ("odd points", "x.svg", svg('<polygon points="0,0 5"/>'), "the points of a line cannot be read: a number is missing"),
    ("a transform", "x.svg", svg('<g transform="twist(4)"/>'), 'a transform cannot be read: "twist(4)"'),
    ("a transform of another count", "x.svg", svg('<g transform="matrix(1 2 3)"/>'), "a transform cannot be read"),
    ("a transform left open", "x.svg", svg('<g transform="scale(2"/>'), "a transform cannot be read"),
    ("a unit", "x.svg", svg(SKIN, 'width="100parsec"'), 'width: "100parsec" is no length; write it in mm'),
    ("a unit of letters", "x.svg", svg('<circle r="5em"/>'), 'r: "5em" is no length'),
    ("a share", "x.svg", svg('<rect width="50%" height="5"/>'), "a share of something else"),
    ("no width", "x.svg", svg(SKIN, 'width="0mm"'), "no room for a drawing"),
    ("a viewBox", "x.svg", svg(SKIN, 'width="9mm" viewBox="0 0 9"'), "viewBox cannot be read: a number is missing"),
    ("a viewBox of five", "x.svg", svg(SKIN, 'width="9mm" viewBox="0 0 9 9 9"'), "should be four numbers"),
    ("a flat viewBox", "x.svg", svg(SKIN, 'width="9mm" viewBox="0 0 9 0"'), "the last two above 0"),
    (
        "stretched",
        "x.svg",
        svg(SKIN, 'width="500mm" height="800mm" viewBox="0 0 1000 800" preserveAspectRatio="none"'),
        "stretched: one unit is 0.5 mm across but 1 mm along",
    ),
    # Units.
    ("no units", "x.svg", svg(SKIN, ""), "has no units: a unit of the drawing was taken for a pixel"),
    ("width without a unit", "x.svg", svg(SKIN, 'width="1000" height="800" viewBox="0 0 1000 800"'), "has no units"),
    ("pixels", "x.svg", svg(SKIN, 'width="1000px"'), "has no units"),
    ("a share of the screen", "x.svg", svg(SKIN, 'width="100%" viewBox="0 0 1000 800"'), "has no units"),
    ("DXF without units", "x.dxf", dxf(RECTANGLE, 0), "has no units: a unit of the drawing was taken for a millimetre"),
    ("old DXF without units", "x.dxf", dxf(RECTANGLE, None), "give the skin's area, or draw a line named check"),
    ("light years", "x.dxf", dxf(RECTANGLE, 19), "a unit that no workshop uses"),
    # Not flat.
    ("heights", "x.dxf", dxf(line(0, 0, 5, 0, more="30\n0\n31\n20\n")), "is not flat: it has lines 20 mm above others"),
    ("tilted", "x.dxf", dxf(polyline([(0, 0), (5, 0), (5, 5)], more="210\n1\n220\n0\n230\n0\n")), "a tilted plane"),
    ("a solid", "x.dxf", dxf("0\n3DFACE\n8\n0\n"), "is not flat: it holds a solid (3DFACE)"),
    ("a mesh", "x.dxf", dxf("0\nPOLYLINE\n70\n16\n0\nVERTEX\n10\n1\n0\nSEQEND\n"), "holds a mesh"),
    ("a polyline without an end", "x.dxf", dxf("0\nPOLYLINE\n70\n1\n0\nVERTEX\n10\n1\n"), "a POLYLINE has no end"),
    ("a polyline with a line in it", "x.dxf", dxf("0\nPOLYLINE\n70\n1\n" + line(0, 0, 1, 1)), 'a POLYLINE has "LINE" in it'),
    # Outlines.
    ("nothing", "x.svg", svg(""), "holds no line"),
    ("words only", "x.svg", svg("<text>skin</text><image/>"), "holds no line (passed over: text, image)"),
    ("words only", "x.dxf", dxf("0\nMTEXT\n8\n0\n"), "holds no line (passed over: MTEXT)"),
    ("bars only", "x.svg", svg(f'<g id="no-card">{SKIN}</g>'), "all its outlines are named no-..."),
    (
        "open",
        "x.svg",
        svg('<path d="M100 100h500v300h-500v-290"/>'),
        "a line is open: ends miss each other by 10 mm (about 25/64 in), one 0.0 mm right and 300.0 mm up, the other 0.0 mm right and 290.0 mm up",
    ),
    ("open by more than a millimetre", "x.svg", svg('<path d="M100 100h500v300h-500v-298.9"/>'), "ends miss each other by 1.1 mm"),
    (
        "open",
        "x.dxf",
        dxf(line(0, 0, 500, 0) + line(500, 0, 500, 300) + line(501.2, 300, 0, 0)),
        "a line is open: ends miss each other by 1.2 mm",
    ),
    ("a line in a flaw", "x.svg", svg(SKIN + '<line x1="200" y1="200" x2="230" y2="240"/>'), "ends miss each other by 50 mm"),
    (
        "a fork",
        "x.dxf",
        dxf(RECTANGLE + line(0, 0, 50, 50) + line(50, 50, 90, 0) + line(50, 50, 20, 90)),
        "more than two lines meet 50.0 mm right",
    ),
    ("a fork of four", "x.dxf", dxf("".join(line(50, 50, x, y) for x, y in rectangle(0, 0, 90, 90))), "more than two lines meet"),
    (
        "two lines left open",
        "x.svg",
        svg('<path d="M100 100h500v300"/><path d="M100 150v250h450"/>'),
        "2 lines are open: ends miss each other by 50 mm",
    ),
    (
        "a bow",
        "x.svg",
        svg('<path d="M100 100L600 400V100L100 400Z"/>'),
        "the largest outline crosses or touches itself, 250.0 mm right and 150.0 mm up from the lower left corner of the drawing",
    ),
    (
        "a flaw that crosses itself",
        "x.svg",
        svg(SKIN + '<path d="M200 200l40 40v-40l-40 40z"/>'),
        "an outline crosses or touches itself, 120.0 mm right and 180.0 mm up",
    ),
    ("touching itself", "x.svg", svg('<path d="M0 0h500v300h-250l0-300l-20 300h-230z"/>'), "crosses or touches itself"),
    ("there and back", "x.svg", svg('<path d="M0 0h500h-500z"/>'), "the largest outline encloses no area"),
    ("a point", "x.svg", svg('<path d="M5 5L5 5z"/>'), "the largest outline encloses no area"),
    ("a point beside", "x.svg", svg(SKIN + '<path d="M200 200L200 200z"/>'), "an outline encloses no area, 100.0 mm right"),
    ("a collapsed skin", "x.svg", svg(f'<g transform="scale(0 1)">{SKIN}</g>'), "encloses no area"),
    (
        "small",
        "x.svg",
        svg('<rect width="15" height="400"/>'),
        "the skin is 15 mm (about 19/32 in) by 400 mm (15 3/4 in): too small for a skin",
    ),
    ("large", "x.svg", svg('<rect width="5001" height="400"/>'), "the skin is 5001 mm"),
    ("tiny", "x.svg", svg('<rect width="0.7" height="0.5"/>'), "too small for a skin, which is from 20 mm to 5 m across"),
    ("outside", "x.svg", svg(SKIN + '<rect x="700" y="300" width="20" height="20"/>'), "outside the skin, 600.0 mm right and 80.0 mm up"),
    ("outside but touching", "x.svg", svg(SKIN + '<rect x="600" y="300" width="20" height="20"/>'), "outside the skin, 500.0 mm right"),
    (
        "side by side",
        "x.svg",
        svg(SKIN + '<rect x="620" y="100" width="300" height="300"/>'),
        "two outlines of similar size beside each other",
    ),
    (
        "one over the other",
        "x.svg",
        svg(SKIN + '<rect x="500" y="100" width="300" height="300"/>'),
        "two outlines of similar size that overlap",
    ),
    ("traced twice", "x.svg", svg('<circle cx="300" cy="300" r="200"/><circle cx="300" cy="300" r="199"/>'), "99 % of its area"),
    ("a frame", "x.svg", svg('<rect width="1000" height="800"/><circle cx="400" cy="400" r="380"/>'), "take away the frame"),
    (
        "a bar outside",
        "x.svg",
        svg(SKIN + '<rect id="no-card" x="700" y="300" width="20" height="20"/>'),
        "an outline named no-card lies outside the skin, 600.0 mm right and 80.0 mm up",
    ),
    ("an open bar", "x.svg", svg(SKIN + '<path id="no-card" d="M100 100h50v50"/>'), "a line is open"),
    (
        "a bar that crosses itself",
        "x.svg",
        svg(SKIN + '<path id="no-card" d="M200 200l40 40v-40l-40 40z"/>'),
        "an outline named no-card crosses",
    ),
]


@pytest.mark.parametrize(("name", "content", "said"), [bad[1:] for bad in BAD], ids=[bad[0] for bad in BAD])
def test_refused(name: str, content: str | bytes, said: str, tmp_path: Path) -> None:
    assert said in refusal(tmp_path, name, content)


def test_numbers_without_points(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Five numbers a point are a limit as well, tried here with one that needs less memory."""
    assert reader.MOST_TAGS == 1_000_000
    monkeypatch.setattr(reader, "MOST_TAGS", 20_000)
    numbers = dxf("0\nLWPOLYLINE\n8\n0\n" + "42\n0\n" * 20_000)
    assert "holds no line" in refusal(tmp_path, "x.dxf", numbers)
    assert "more than 200000 points" in refusal(tmp_path, "x.dxf", numbers.replace("42\n0\n", "42\n0\n42\n0\n", 1))


def test_files_that_are_none(tmp_path: Path) -> None:
    def said(path: Path) -> str:
        with pytest.raises(TracingError) as caught:
            read_tracing(path)
        return str(caught.value)

    assert said(tmp_path / "none.svg") == "there is no such file"
    (tmp_path / "folder.svg").mkdir()
    assert "is a folder" in said(tmp_path / "folder.svg")
    assert "is a folder" in said(tmp_path)
    assert "cannot be read" in said(tmp_path / ("x" * 5000 + ".svg"))
    assert "this is no name of a file" in said(Path("a\0b.svg"))


def test_too_large_is_seen_before_reading(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "large.svg"
    with path.open("wb") as file:
        file.truncate(20_000_001)
    monkeypatch.setattr(Path, "open", lambda *_: pytest.fail("it was opened"))
    with pytest.raises(TracingError, match="larger than 20 MB; a picture kept in the file counts too"):
        read_tracing(path)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes here")
def test_pipes_do_not_hang(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.svg")
    with pytest.raises(TracingError, match="is a pipe or device"):
        read_tracing(tmp_path / "pipe.svg")


def test_what_the_system_denies(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Told to whoever reads the file, since the tests may run as somebody to whom nothing is denied."""

    def denied(*_: object) -> None:
        raise PermissionError(13, "Permission denied", str(tmp_path))

    (tmp_path / "x.svg").write_text(svg(SKIN), encoding="utf-8")
    monkeypatch.setattr(Path, "open", denied)
    with pytest.raises(TracingError, match="may not be read"):
        read_tracing(tmp_path / "x.svg")


def calls(folder: Path, name: str, content: str) -> int:
    """How often the interpreter begins a function while a file is read, whatever becomes of it."""
    path = folder / name
    path.write_text(content, encoding="utf-8")
    number = 0

    def count(_frame: object, event: str, _what: object) -> None:
        nonlocal number
        number += event == "call"

    sys.setprofile(count)
    try:
        read_tracing(path)
    finally:
        sys.setprofile(None)
    return number


@pytest.mark.parametrize("text", ["<![CDATA[\n{}\n]]>", "{}", "<desc>{}</desc>"], ids=["CDATA", "text", "description"])
@pytest.mark.parametrize("piece", ["\n", "x\n", "&amp;", "&#9;"])
def test_text_costs_no_call_for_each_of_its_lines(tmp_path: Path, text: str, piece: str) -> None:
    """A file of the largest size could hold twenty million of them."""
    few, many = (calls(tmp_path, "x.svg", svg(SKIN + text.format(piece * number))) for number in (10, 10_000))
    assert many < few + 100


def test_pairs_are_counted_wherever_they_stand(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    skin = dxf(RECTANGLE)
    pairs = skin.count("\n") // 2
    monkeypatch.setattr(reader, "MOST_PAIRS", pairs + 1000)
    more = "0\nSECTION\n2\nBLOCKS\n" + "1\nx\n" * 900 + "0\nENDSEC\n"
    (tmp_path / "x.dxf").write_text(more + skin, encoding="utf-8")
    read_tracing(tmp_path / "x.dxf")
    for section in ("BLOCKS", "HEADER", "TABLES", "ENTITIES"):
        more = f"0\nSECTION\n2\n{section}\n0\nX\n" + "1\nx\n" * 1000 + "0\nENDSEC\n"
        assert "far more than a tracing needs" in refusal(tmp_path, "x.dxf", more + skin)
    assert "far more than a tracing needs" in refusal(tmp_path, "x.dxf", "999\nx\n" * 1001 + skin)


def test_a_wild_spline_is_dropped_before_it_is_drawn(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Never more points are worked out than a drawing may have."""
    worked_out: list[int] = []
    usual = dxf_spline._curve

    def counted(
        weighted: dxf_spline.FloatArray, knots: dxf_spline.FloatArray, degree: int, at: dxf_spline.FloatArray
    ) -> dxf_spline.FloatArray:
        worked_out.append(len(at))
        return usual(weighted, knots, degree, at)

    monkeypatch.setattr(dxf_spline, "_curve", counted)
    monkeypatch.setattr(dxf_spline, "MOST_POINTS", 10_000)
    knots = "".join(f"40\n{k}\n" for k in range(904))
    wild = "".join(f"10\n{k * 7919 % 100_003}\n20\n{k * 104_729 % 99_991}\n" for k in range(900))
    assert "more than 10000 points" in refusal(tmp_path, "x.dxf", spline("71\n3\n" + knots + wild))
    assert max(worked_out) <= 10_000


def test_the_steps_of_transforms_are_counted(tmp_path: Path) -> None:
    one = f'<g transform="{"scale(1)" * 500}"/>'
    assert "more than 200000 points" in refusal(tmp_path, "x.svg", svg(SKIN + one * 401))
    (tmp_path / "y.svg").write_text(svg(SKIN + one * 20), encoding="utf-8")
    read_tracing(tmp_path / "y.svg")


POINTS: list[tuple[list[Point], list[list[Point]], str]] = [
    (rectangle(0, 0, 500, 300)[:2], [], "the outline has 2 points"),
    ([*rectangle(0, 0, 500, 300), (math.nan, 0)], [], "the outline: its point 5 is (nan, 0)"),
    ([*rectangle(0, 0, 500, 300), (math.inf, 0)], [], "the outline: its point 5 is (inf, 0)"),
    (
        [(0, 0), (500, 300), (500, 0), (0, 300)],
        [],
        "crosses or touches itself, 250.0 mm right and 150.0 mm up from the lower left corner of the outline",
    ),
    ([(0, 0), (500, 0), (200, 0)], [], "the outline"),
    (rectangle(0, 0, 500, 19), [], "too small for a skin"),
    (rectangle(0, 0, 500, 5001), [], "too large for a skin"),
    (rectangle(0, 0, 500, 300), [rectangle(600, 0, 620, 20)], "lies outside the skin, 600.0 mm right"),
    (rectangle(0, 0, 500, 300), [rectangle(10, 10, 20, 20), [(10, 10), (20, 20), (20, 10), (10, 20)]], "flaw 2 crosses or touches itself"),
    (rectangle(0, 0, 500, 300), [[(math.nan, 10), (20, 20), (20, 10)]], "flaw 1: needs points whose coordinates are finite"),
    (rectangle(0, 0, 500, 300), [[]], "flaw 1: needs points"),
]


@pytest.mark.parametrize(("points", "flaws", "said"), POINTS, ids=[said for *_, said in POINTS])
def test_points_are_held_to_the_same(points: list[Point], flaws: list[list[Point]], said: str) -> None:
    with pytest.raises(TracingError) as caught:
        from_points(points, flaws)
    assert said in str(caught.value)
    if not flaws:
        with pytest.raises(TracingError):
            check_outline(points)

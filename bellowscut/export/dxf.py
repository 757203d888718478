"""Drawings as DXF in millimetres, for machines: closed outlines, a layer a role, the same bytes on every run.

Two versions are written. R2010 knows its unit and keeps names in full; R12 is
what the oldest machines read, has no unit of its own and carries what there is
to say in comments at its head. Neither holds text, splines, blocks or broken
lines: labels are drawn in single strokes.

ezdxf writes all but the entities. Those are lines and polylines only, and
there are a thousand of them in the letters alone, which as objects would take
ten times as long as the rest of the file.
"""

from __future__ import annotations

import io
import math
import re
import textwrap
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING

from bellowscut.drawing import Drawn, Role
from bellowscut.export.ink import INKS, Inks, layer_of, layers_of
from bellowscut.export.stroke_letters import spelling_told, strokes
from bellowscut.schema import COLOURS_APART
from bellowscut.shapes import Point

if TYPE_CHECKING:
    from ezdxf.document import Drawing

VERSIONS = {"r2010": "R2010", "r12": "R12"}
"""Versions by the name that the command line uses."""

BLACK = 7
"""Number of black on white."""

_LONGEST = 250
"""Most characters of a comment or property; some readers stop at 255."""

Run = Callable[[str, Sequence[Point], Sequence[float], bool], str]
"""Writes one polyline: layer, points, bulges (empty where all is straight), closed."""


def write_dxf(
    drawn: Sequence[Drawn],
    width: float,
    height: float,
    *,
    title: str,
    description: str,
    version: str = "r2010",
    flatten: float | None = None,
    inks: Inks = INKS,
) -> bytes:
    """Write drawings into one file.

    Parameters
    ----------
    drawn : sequence of Drawn
        In the order in which they stand in each layer; layer follows layer in the order in which they are worked.
    width, height : float
        Of the whole [mm]; the lower left corner is the origin.
    title : str
        Full name of what is drawn.
    description : str
        What it shows: units, face, fingerprint. Both are kept as properties of the file, in R12 as comments.
    version : str
        ``r2010`` or ``r12``.
    flatten : float or None
        Greatest distance of a chord from its arc [mm]; None keeps true arcs, as bulges.
    inks : mapping of str to Ink
        Colour and width of the lines by layer; R12 knows no width and of colours only the nearest of its table.

    Returns
    -------
    bytes
        The file.

    Raises
    ------
    KeyError
        When the version is not one of `VERSIONS`.
    """
    layers = layers_of(drawn, inks)
    spelling = spelling_told(label.text for one in drawn for label in one.labels)
    said = {"title": title, **_in_parts("description", description), "units": "millimetres"}
    if spelling:
        said |= _in_parts("lettering", spelling)
    with _fixed_meta_data():
        doc = _frame(VERSIONS[version], width, height, layers)
        if version == "r12":
            head = "".join(f"999\n{_ascii(f'{key}: {value}')}\n" for key, value in said.items())
            return (head + _filled(doc, _entities(drawn, layers, flatten, _old_run))).encode("ascii")
        for key, value in said.items():
            doc.header.custom_vars.append(key, _one_line(value))
        # Without this the list of classes follows the order of a set of strings.
        for kind in sorted(doc.entitydb.dxf_types_in_use()):
            doc.classes.add_class(kind)
        return _filled(doc, _entities(drawn, layers, flatten, _new_run(doc))).encode()


@contextmanager
def _fixed_meta_data() -> Iterator[None]:
    """Have ezdxf write neither dates nor random ids; the switch is global, so it is put back."""
    import ezdxf

    options = ezdxf.options  # type: ignore[attr-defined]  # documented, but not listed for type checkers
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _frame(version: str, width: float, height: float, layers: Inks) -> Drawing:
    """A drawing with its layers, units and extents and nothing drawn."""
    from ezdxf.document import Drawing
    from ezdxf.lldxf.const import VALID_DXF_LINEWEIGHTS

    # Not by ezdxf.new, which takes metres unless told, and complains on standard error when told of R12, which can say no unit.
    doc = Drawing.new(version)
    if version != "R12":
        doc.units = 4
        doc.header["$MEASUREMENT"] = 1
    for layer, number in _colour_numbers(layers).items():
        made = doc.layers.add(layer, color=number, linetype="Continuous")
        if version != "R12":
            made.rgb = _red_green_blue(layers[layer].colour)
            made.dxf.lineweight = min(VALID_DXF_LINEWEIGHTS, key=lambda weight: abs(weight - layers[layer].weight * 100))
    # Some programs take the page's own extents, some those of the header.
    space = doc.modelspace()
    space.reset_extents((0, 0, 0), (width, height, 0))
    space.reset_limits((0, 0), (width, height))
    doc.header["$EXTMIN"], doc.header["$EXTMAX"] = (0, 0, 0), (width, height, 0)
    doc.header["$LIMMIN"], doc.header["$LIMMAX"] = (0, 0), (width, height)
    doc.set_modelspace_vport(height=max(height, width / 2) * 1.05, center=(width / 2, height / 2))
    return doc


def _filled(doc: Drawing, entities: Sequence[str]) -> str:
    """The text of a drawing with entities in their section."""
    into = io.StringIO()
    doc.write(into)
    before, mark, after = into.getvalue().partition("\n  2\nENTITIES\n")
    return "".join((before, mark, *entities, after))


def _red_green_blue(colour: str) -> tuple[int, int, int]:
    red, green, blue = (int(colour[k : k + 2], 16) for k in (1, 3, 5))
    return red, green, blue


def _colour_numbers(layers: Inks) -> dict[str, int]:
    """The nearest of the numbered colours for each layer, and never one number for two colours: what is cut chooses first."""
    from ezdxf.colors import aci2rgb

    numbers: dict[str, int] = {}
    for colour in dict.fromkeys(ink.colour for ink in reversed(tuple(layers.values()))):
        wanted = _red_green_blue(colour)
        free = [number for number in range(1, 256) if number not in numbers.values()]
        # The table has no black but this, which is white on a dark screen.
        black = max(wanted) < COLOURS_APART and BLACK in free
        numbers[colour] = BLACK if black else min(free, key=lambda number: math.dist(aci2rgb(number), wanted))
    return {layer: numbers[ink.colour] for layer, ink in layers.items()}


def _entities(drawn: Sequence[Drawn], layers: Iterable[str], flatten: float | None, run: Run) -> list[str]:
    found: dict[str, list[str]] = {layer: [] for layer in layers}
    for one in drawn:
        found[layer_of(one, Role.TEXT)] += [
            run(layer_of(one, Role.TEXT), stroke, (), False) for label in one.labels for stroke in strokes(label)
        ]
        for line in one.lines:
            found[layer_of(one, line.role)].append(run(layer_of(one, line.role), line.points, (), line.closed))
        # A machine that goes by the order of the file cuts last, and holes while the piece is still held.
        for outline in reversed(one.outlines):
            points, bulges = (outline.points, outline.bulges) if flatten is None else (outline.flattened(flatten), ())
            found[layer_of(one, Role.CUT)].append(run(layer_of(one, Role.CUT), points, bulges, True))
    return [entity for entities in found.values() for entity in entities]


def _new_run(doc: Drawing) -> Run:
    owner = doc.modelspace().layout_key

    def run(layer: str, points: Sequence[Point], bulges: Sequence[float], closed: bool) -> str:
        # Taking the number from the drawing keeps its own count of handles true.
        handle = doc.entitydb.next_handle()
        head = f"  5\n{handle}\n330\n{owner}\n100\nAcDbEntity\n  8\n{layer}\n100\n"
        if len(points) == 2 and not closed:
            (x, y), (u, v) = points
            place = f" 10\n{_number(x)}\n 20\n{_number(y)}\n 30\n0.0\n 11\n{_number(u)}\n 21\n{_number(v)}\n 31\n0.0\n"
            return f"  0\nLINE\n{head}AcDbLine\n{place}"
        places = [f" 10\n{_number(x)}\n 20\n{_number(y)}\n" for x, y in points]
        if any(bulges):
            places = [place + (f" 42\n{bulge!r}\n" if bulge else "") for place, bulge in zip(places, bulges, strict=True)]
        return f"  0\nLWPOLYLINE\n{head}AcDbPolyline\n 90\n{len(points)}\n 70\n{int(closed)}\n{''.join(places)}"

    return run


def _old_run(layer: str, points: Sequence[Point], bulges: Sequence[float], closed: bool) -> str:
    if len(points) == 2 and not closed:
        (x, y), (u, v) = points
        return f"  0\nLINE\n  8\n{layer}\n 10\n{_number(x)}\n 20\n{_number(y)}\n 11\n{_number(u)}\n 21\n{_number(v)}\n"
    places = [f"  0\nVERTEX\n  8\n{layer}\n 10\n{_number(x)}\n 20\n{_number(y)}\n" for x, y in points]
    if any(bulges):
        places = [place + (f" 42\n{bulge!r}\n" if bulge else "") for place, bulge in zip(places, bulges, strict=True)]
    head = f"  0\nPOLYLINE\n  8\n{layer}\n 66\n1\n 10\n0.0\n 20\n0.0\n 30\n0.0\n 70\n{int(closed)}\n"
    return f"{head}{''.join(places)}  0\nSEQEND\n  8\n{layer}\n"


def _number(value: float) -> str:
    """A coordinate to 0.0000005 mm: far finer than can be cut, and free of the noise of the last binary digits."""
    if -1e-3 < value < 1e-3:
        return repr(round(value, 6) + 0.0)
    # The same digits at half the cost; there are tens of thousands.
    shown = f"{value:.6f}".rstrip("0")
    return f"{shown}0" if shown[-1] == "." else shown


def _in_parts(key: str, text: str) -> dict[str, str]:
    """A text that is too long for one property in several, broken at spaces: ``description``, ``description 2`` and so on."""
    most = _LONGEST - len(f"{key} 99: ")
    lines = textwrap.wrap(text, most, replace_whitespace=False) if len(text) > most else [text]
    return {key if k == 1 else f"{key} {k}": line for k, line in enumerate(lines, 1)}


def _one_line(text: str) -> str:
    """Text that fits into one line of the file: a question mark for what would end or break it."""
    kept = re.sub("[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]", "?", text)
    return kept if len(kept) <= _LONGEST else kept[: _LONGEST - 3] + "..."


def _ascii(text: str) -> str:
    r"""The same in plain ASCII, with other characters as DXF writes them: ``\U+00E9``."""
    kept = _one_line(text).encode("utf-16-be")
    units = (int.from_bytes(kept[k : k + 2], "big") for k in range(0, len(kept), 2))
    return "".join(chr(unit) if unit < 128 else f"\\U+{unit:04X}" for unit in units)

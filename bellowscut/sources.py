"""Where every number comes from: the sources, and the named allowances and limits of the geometry.

A constant carries its value, unit, source key and status, so that
docs/sources.md can be made from it and nothing in a formula is a bare number.
The defaults of the profile keys carry the same and live in `bellowscut.schema`.
"""

from __future__ import annotations

from dataclasses import dataclass

from bellowscut.words import keys as words

STATUSES = (words.PUBLISHED, words.COMMON_PRACTICE, words.FROM_MEMORY, words.INVENTED, words.GEOMETRY)


@dataclass(frozen=True)
class Source:
    """A place that a value comes from.

    Parameters
    ----------
    title : str
        The publication, or what stands in its place.
    note : str
        What is taken from it.
    """

    title: str
    note: str


@dataclass(frozen=True)
class Constant:
    """One allowance or limit.

    Parameters
    ----------
    value : float
        In `unit`.
    unit : str
        ``mm``, ``deg``, ``-``, ``mm^2`` and so on.
    source : str
        Key of `SOURCES`.
    status : str
        One of `STATUSES`.
    meaning : str
        What it is for.
    """

    value: float
    unit: str
    source: str
    status: str
    meaning: str


SOURCES = {
    "receipts": Source(
        "Spon's Workshop Receipts, fourth series (1880s), 'Harmoniums'",
        "folds cut at 40 degrees at a square corner; gussets patterned at full width",
    ),
    "photography": Source(
        "The Book of Photography, ed. Hasluck (1905), 'Making bellows with cardboard strips'", "card strips 1 in wide, ends sloped"
    ),
    "polygon-table": Source("Regular-polygon table of engineers' handbooks, e.g. Machinery's Handbook", "flats, corners, sides and areas"),
    "bending": Source(
        "Sheet-metal bending tables of engineers' handbooks", "bend allowance angle x (radius + K x thickness), K 0.5 at mid-line"
    ),
    "mensuration": Source("Handbooks of mensuration", "volume of frusta and prismoids"),
    "steiner": Source("Steiner's formula", "a band round a convex polygon is perimeter + 2 pi r long"),
    "mitre-tables": Source("Compound-mitre tables of joinery handbooks", "mitres of hoppers by number of sides and slope"),
    "inch": Source("International yard and pound agreement (1959)", "1 in = 25.4 mm, 1 ft = 0.3048 m, exactly"),
    "iso-216": Source("ISO 216", "A-series paper sizes"),
    "iso-32000": Source("ISO 32000-1", "a PDF user unit is 1/72 in"),
    "iso-4217": Source("ISO 4217", "currency codes and their decimals"),
    "dxf": Source("DXF reference", "$INSUNITS 4 is millimetres"),
    "svg": Source("SVG 1.1 and CSS Values", "width in mm with a matching viewBox draws at true size"),
    "leather-area": Source("ISO 11646 (IULTCS/IUM 32)", "leather is bought by measured area"),
    "leather-thickness": Source("ISO 2589", "leather is gauged to a standard"),
    "leather-ounce": Source("Leather trade tables", "one ounce is 1/64 in"),
    "grading": Source("SATRA five-point leather grading, as published in footwear costing manuals", "usable share of a skin by grade"),
    "waste": Source("Published leather dictionaries", "about 20 per cent of a skin is waste when small articles are cut"),
    "bookbinding": Source(
        "Cockerell, Bookbinding, and the Care of Books (1901); Adam, Practical Bookbinding (1903)", "firm parts of a skin; widths of paring"
    ),
    "practice": Source("Common practice, no source", "what the trade does without writing it down"),
    "memory": Source("From memory", "a usual value that has not been checked against a source"),
    "invented": Source("Invented", "a figure made up for the demonstration, to be replaced by one's own"),
    "geometry": Source("This project's geometry", "follows from the model in docs/geometry.md"),
}


_STATUS_OF = {
    "practice": words.COMMON_PRACTICE,
    "memory": words.FROM_MEMORY,
    "invented": words.INVENTED,
    "geometry": words.GEOMETRY,
}
"""Status of what does not come from a publication, by its source."""


def _of(value: float, unit: str, source: str, meaning: str) -> Constant:
    return Constant(value, unit, source, _STATUS_OF.get(source, words.PUBLISHED), meaning)


SIDES_MOST = _of(64, "-", "invented", "most sides of a section; beyond it is a slip of the pen")
FOLDS_MOST = _of(40, "-", "invented", "most folds of a bellows; beyond it is a slip of the pen")
OFFERED_DEPTH = _of(25 / 158.75, "-", "memory", "fold depth that `new` offers, as a share of the width across: 25 mm for 6 1/4 in")
OFFERED_DEPTH_OF_LIMIT = _of(0.47, "-", "invented", "the same, as a share of the depth that the corners allow")
OFFERED_DEPTH_MOST = _of(25, "mm", "memory", "deepest fold that `new` offers")
OFFERED_LAPS_FROM_DEPTH = _of(18, "mm", "invented", "from this fold depth on `new` offers the usual laps; below they shrink with it")
OFFERED_LAPS_FROM_SIDE = _of(
    40, "mm", "invented", "from this length of the shortest side on `new` offers the usual laps; below they shrink with it"
)
OFFERED_ACROSS = _of(180, "mm", "memory", "width across corners of the ends whose side `new` offers")
COLLINEAR_TURN = _of(0.5, "deg", "memory", "a corner that turns less is no corner")
FLATS_ALIKE = _of(1.0, "mm", "memory", "flats that agree this well are better taken as one mean size")
FLAT_ERROR = _of(0.5, "mm", "memory", "what calipers over a worn end can be out by")
MISFIT_WARNED = _of(0.5, "mm", "memory", "side lengths that fail to close by more are warned of")
MISFIT_REFUSED = _of(2.0, "mm", "memory", "side lengths that fail to close by more are refused")
MISFIT_REFUSED_SHARE = _of(0.02, "-", "memory", "the same, as a share of the mean side")
ENDS_APART = _of(4.0, "mm", "invented", "sides of the two ends that lie further apart, centre on centre, cannot be packed and are refused")
ENDS_APART_SHARE = _of(0.04, "-", "invented", "the same, as a share of the least width of the first end")
MIRROR_CLOSER = _of(3.0, "-", "invented", "a second end is taken as traced from outside when its mirror image fits so many times closer")
PACKING_SHOWN = _of(0.05, "mm", "invented", "packing thinner than this is not worth a shaving")
CORNER_GAP_LEAST = _of(1.0, "mm", "memory", "least gap between neighbouring cards at a ridge corner")
CORNER_GAP_STEP = _of(0.1, "mm", "invented", "the default corner gap is rounded up to this")
FORM_SLOPE = _of(50.0, "deg", "practice", "card angle on the assembly form unless the profile says otherwise")
STRETCH_MOST = _of(90.0, "deg", "geometry", "a card cannot open past square")
STRETCH_LEAST = _of(30.0, "deg", "memory", "a bellows that opens less is hardly worth building")
VALLEY_EDGE_SPARE = _of(2.0, "mm", "memory", "least bare card between two gusset laps at the valley")
BEVEL_LEAST = _of(2.0, "mm", "bookbinding", "least width of the bevel at an edge that lies on top")
BEVEL_MOST = _of(3.0, "mm", "bookbinding", "greatest width of that bevel")
STRIP_LONGER = _of(15.0, "mm", "memory", "what strips are cut longer than they are drawn, and trimmed")
HINGE_SHORT = _of(1.0, "mm", "memory", "a hinge stops this far inside each end of the card edge")
LEATHER_SHARE_WARNED = _of(0.40, "-", "memory", "leather's share of the valley above which corners are soft")
OVER_CENTRE_SHARE = _of(0.05, "-", "memory", "share of the valley gap that must be left before a corner goes over centre")
OLD_GUSSET_LENGTH = _of(1.0, "mm", "memory", "an old gusset whose length differs by more is not from these cards")
SPARE_LEAST = _of(3, "-", "memory", "least spares of each distinct gusset when they are given per cent")
GUSSET_LEATHER_LEAST = _of(0.3, "mm", "practice", "gusset leather thinner than this is warned of")
GUSSET_LEATHER_MOST = _of(0.5, "mm", "practice", "gusset leather thicker than this is warned of")
STRIP_LEATHER_LEAST = _of(0.5, "mm", "practice", "leather of edge and end strips thinner than this is warned of")
STRIP_LEATHER_MOST = _of(0.7, "mm", "practice", "leather of edge and end strips thicker than this is warned of")
COVER_LEATHER_LEAST = _of(0.1, "mm", "practice", "leather laid over old gussets thinner than this is warned of")
COVER_LEATHER_MOST = _of(0.2, "mm", "practice", "leather laid over old gussets thicker than this is warned of")
PATCH_LEATHER_LEAST = _of(0.1, "mm", "practice", "leather of corner patches thinner than this is warned of")
PATCH_LEATHER_MOST = _of(0.5, "mm", "practice", "leather of corner patches thicker than this, the gussets' most, is warned of")
CARD_LEAST = _of(0.6, "mm", "memory", "cards thinner than this are warned of")
CARD_USUAL = _of(1.0, "mm", "practice", "the usual card")
CARD_MOST = _of(1.5, "mm", "practice", "the heavy card; thicker ones are warned of")
RULE = _of(0.5, "mm", "practice", "what a rule held to an old card is read to")
CARD_GAP_LEAST = _of(0.3, "mm", "memory", "an old card that leaves less between neighbours was not made for this end")
CARD_GAP_MOST = _of(3.0, "mm", "memory", "an old card that leaves more between neighbours was not made for this end")
OLD_RELIEF_LEAST = _of(2.0, "deg", "memory", "least relief that cards of old boxes are found with")
OLD_RELIEF_MOST = _of(8.0, "deg", "memory", "greatest relief that cards of old boxes are found with")
ENDS_DIFFER_WARNED = _of(0.1, "mm", "memory", "ends that differ by more are warned of")
DART_LEAST = _of(0.5, "mm", "invented", "a notch at the edge of a strip that would be narrower is not cut")
DARTS_APART = _of(1.0, "mm", "invented", "leather left at the edge between two notches, and before the end of the strip")

"""The tables of a profile: one dataclass a table, one `Key` a field.

This is the only list of profile keys. Reading, checking, the commented file,
the questions and the reference page are all made from it. Where a default is
None the geometry works the value out, or the part has no such thing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType
from typing import Any

from bellowscut.keys import COMMON_PRACTICE, FROM_MEMORY, GEOMETRY, INVENTED, NO_DEFAULT, PUBLISHED, Key, Kind, key
from bellowscut.shapes import Point
from bellowscut.sources import FOLDS_MOST, FORM_SLOPE, SIDES_MOST

FORMAT = 1
"""The only profile format that there is [-]."""

SIDES_LEAST = 3
"""Fewest sides of a section [-]."""

REGULAR = "regular"
RECTANGLE = "rectangle"
MEASURED = "measured"
MEASURES = ("flats", "side_lengths", "corners")
"""The three ways to measure an uneven end; a profile uses exactly one."""

SKIVE = 5.0
"""Skive of a strip whose lap is wide enough [mm], common practice."""

GUSSET_FEATHER = 0.1
"""What a gusset's edge is thinned to [mm], common practice."""

STRIP_FEATHER = 0.2
"""What a strip's edge is thinned to [mm], common practice."""

STRETCH = 50.0
"""Card angle at full extension [deg], common practice."""

RELIEF = 5.0
"""Corner allowance [deg], published (a square corner cut at 40 instead of 45) and common practice."""

CURRENCY_DIGITS: Mapping[str, int] = MappingProxyType(
    {
        "BHD": 3,
        "BIF": 0,
        "CLF": 4,
        "CLP": 0,
        "DJF": 0,
        "GNF": 0,
        "IQD": 3,
        "ISK": 0,
        "JOD": 3,
        "JPY": 0,
        "KMF": 0,
        "KRW": 0,
        "KWD": 3,
        "LYD": 3,
        "OMR": 3,
        "PYG": 0,
        "RWF": 0,
        "TND": 3,
        "UGX": 0,
        "UYI": 0,
        "UYW": 4,
        "VND": 0,
        "VUV": 0,
        "XAF": 0,
        "XOF": 0,
        "XPF": 0,
    }
)
"""Decimals of the currencies that do not have two [-] (ISO 4217)."""

_LAP = {"low": 0.5, "high": 60}


@dataclass(frozen=True)
class Spare:
    """Spare gussets: a count, or a share [per cent] of at least `sources.SPARE_LEAST`; the other is None."""

    count: int | None
    per_cent: float | None


@dataclass(frozen=True, kw_only=True)
class TopSpec:
    """The keys that stand before any table."""

    format: int = key(Kind.COUNT, "format of this file", NO_DEFAULT, 1, 1, default=FORMAT)
    name: str = key(Kind.TEXT, "what to call the instrument", finer=False, example='"Six-sided treble"', worked_out="the name of the file")
    copies: int = key(Kind.COUNT, "bellows to make alike", NO_DEFAULT, 1, 1000, default=1)


@dataclass(frozen=True, kw_only=True)
class SectionSpec:
    """What was measured at the ends [mm]; 0, empty or None where the shape has no such thing."""

    shape: str = key(
        Kind.CHOICE,
        "regular (all sides alike), rectangle, or measured (an uneven end)",
        choices=(REGULAR, RECTANGLE, MEASURED),
        also={"oblong": RECTANGLE, "rectangular": RECTANGLE, "irregular": MEASURED},
        required=True,
        finer=False,
        example='"regular"',
    )
    sides: int | None = key(
        Kind.COUNT,
        "how many sides the end has",
        low=SIDES_LEAST,
        high=SIDES_MOST.value,
        only_for=(REGULAR,),
        required=True,
        finer=False,
        example="6",
    )
    end_size: float = key(
        Kind.LENGTH,
        "size of the end, as measure says",
        low=5,
        high=3000,
        only_for=(REGULAR,),
        required=True,
        finer=False,
        default=0.0,
        example='"6 1/4 in"',
    )
    measure: str = key(
        Kind.CHOICE,
        "how end_size was measured: across-flats, across-corners, or along one side",
        choices=("across-flats", "across-corners", "side"),
        also={"flats": "across-flats", "corners": "across-corners"},
        only_for=(REGULAR,),
        finer=False,
        default="",
        example='"across-flats"',
        worked_out="across-flats; an odd number of sides needs side",
    )
    width: float = key(
        Kind.LENGTH,
        "along side A, the lower side",
        low=15,
        high=3000,
        only_for=(RECTANGLE,),
        required=True,
        finer=False,
        default=0.0,
        example='"250 mm"',
    )
    height: float = key(
        Kind.LENGTH,
        "square to side A",
        low=15,
        high=3000,
        only_for=(RECTANGLE,),
        required=True,
        finer=False,
        default=0.0,
        example='"120 mm"',
    )
    flats: tuple[float, ...] | None = key(
        Kind.LENGTHS,
        "across each pair of opposite sides, side A first",
        low=15,
        high=3000,
        only_for=(MEASURED,),
        finer=False,
        example='["158.9 mm", "158.2 mm", "159.1 mm"]',
    )
    side_lengths: tuple[float, ...] | None = key(
        Kind.LENGTHS,
        "each side in turn, from A",
        low=1,
        high=3000,
        only_for=(MEASURED,),
        finer=False,
        example="[91.2, 92.5, 91.0, 92.1, 91.9, 90.6]",
    )
    corners: tuple[Point, ...] | None = key(
        Kind.POINTS,
        "corner points x, y in turn, side A between the first two",
        low=-5000,
        high=5000,
        only_for=(MEASURED,),
        finer=False,
        example="[[0, 0], [92, 0], [138, 80], [92, 160], [0, 160], [-46, 80]]",
    )
    other_end: tuple[float, ...] | tuple[Point, ...] | None = key(
        Kind.OTHER_END,
        "the same at the second end, when the ends differ",
        only_for=(MEASURED,),
        finer=False,
        example='["159.3 mm", "158.8 mm", "159.5 mm"]',
    )
    measured_on: str = key(
        Kind.CHOICE,
        "frame (bare wood of the bellows frame), frame-covered, or end (the wooden end)",
        choices=("frame", "frame-covered", "end"),
        also={
            "bare-frame": "frame",
            "bellows-frame": "frame",
            "covered-frame": "frame-covered",
            "covered": "frame-covered",
            "wooden-end": "end",
        },
        finer=False,
        default="frame",
    )
    ridge_setback: float | None = key(
        Kind.LENGTH,
        "how far the ridge stands in from the frame",
        GEOMETRY,
        0,
        50,
        example='"0.8 mm"',
        worked_out="edge strip + (gusset + feather) / 2",
    )


@dataclass(frozen=True, kw_only=True)
class BellowsSpec:
    """Folds, depth and how far they open."""

    folds: int = key(Kind.COUNT, "ridges between the frames", low=1, high=FOLDS_MOST.value, required=True, finer=False, example="6")
    fold_depth: float = key(
        Kind.LENGTH, "ridge to valley, down the face of a card", low=2, high=300, required=True, finer=False, example='"25 mm"'
    )
    stretch: float | None = key(
        Kind.ANGLE,
        "card angle at full extension, 90 at most (or give travel)",
        COMMON_PRACTICE,
        1,
        90,
        finer=False,
        example="50",
        worked_out="50",
    )
    travel: float | None = key(
        Kind.LENGTH, "how much longer open than closed, instead of stretch", low=1, high=10_000, finer=False, example='"230 mm"'
    )
    ends: str = key(
        Kind.CHOICE,
        "where the last cards meet the frame: at a ridge or at a valley",
        COMMON_PRACTICE,
        choices=("ridge", "valley"),
        also={"peak": "ridge", "trough": "valley"},
        finer=False,
        default="ridge",
    )
    corner_gap: float | None = key(
        Kind.LENGTH,
        "between neighbouring cards at the ridge corner",
        GEOMETRY,
        0,
        50,
        example='"1 mm"',
        worked_out="1 mm, or more where thick cards would collide",
    )
    relief: float | None = key(
        Kind.ANGLE, "corner allowance beyond the mitre that just closes (or give closed_gap)", PUBLISHED, 0, 89, example="5", worked_out="5"
    )
    closed_gap: float | None = key(
        Kind.LENGTH, "gap at the valley corner when closed, instead of relief", low=0, high=300, example='"6 mm"'
    )
    form_slope: float | None = key(
        Kind.ANGLE,
        "card angle while gluing, 45 to 60",
        COMMON_PRACTICE,
        1,
        90,
        example="50",
        worked_out=f"{FORM_SLOPE.value:g}, or the stretch where that is less",
    )
    old_closed_length: float | None = key(Kind.LENGTH, "closed length of the old bellows, to compare", low=1, high=5000, example='"40 mm"')
    reed_clearance: float | None = key(Kind.LENGTH, "opening that reeds and blocks need inside", low=1, high=3000, example='"100 mm"')
    stack_factor: float = key(Kind.NUMBER, "real closed length over the counted one", FROM_MEMORY, 0.3, 5, default=1.0)


@dataclass(frozen=True, kw_only=True)
class CardSpec:
    """The stiff plates."""

    material: str = key(Kind.MATERIAL, "what the cards are cut from", COMMON_PRACTICE, default="grey card")
    build: str = key(
        Kind.CHOICE,
        "loose cards, or one scored run a side",
        COMMON_PRACTICE,
        choices=("loose", "run"),
        also={"scored": "run", "scored-run": "run", "single": "loose"},
        default="loose",
    )
    ridge_gap: float | None = key(
        Kind.LENGTH, "between the two cards at a ridge", GEOMETRY, 0, 50, example='"0.2 mm"', worked_out="the ridge hinge's thickness"
    )
    valley_gap: float | None = key(
        Kind.LENGTH,
        "between the two cards at a valley",
        GEOMETRY,
        0,
        50,
        example='"2 mm"',
        worked_out="two cards, and what lies in the fold",
    )
    ridge_radius: float = key(Kind.LENGTH, "rounding of a card's points at the ridge", FROM_MEMORY, 0, 60, default=0.5)
    valley_radius: float = key(Kind.LENGTH, "rounding of a card's points at the valley", FROM_MEMORY, 0, 60, default=0.5)


@dataclass(frozen=True, kw_only=True)
class GussetSpec:
    """The diamonds of leather that close the corners."""

    material: str = key(Kind.MATERIAL, "leather of the gussets", COMMON_PRACTICE, default="gusset skin")
    lap: float = key(Kind.LENGTH, "glued over the card at the valley", FROM_MEMORY, **_LAP, default=5.0)
    tip_lap: float = key(Kind.LENGTH, "glued over the card at the tip", FROM_MEMORY, 0.1, 60, default=3.0)
    ridge_turn: float = key(Kind.LENGTH, "tip turn: runs on over the ridge", FROM_MEMORY, 0.1, 60, default=1.5)
    frame_turn: float = key(Kind.LENGTH, "tip turn at the frame: runs on over its edge", FROM_MEMORY, 0.1, 100, default=5.0)
    skive: float | None = key(
        Kind.LENGTH,
        "width pared thin along the long edges",
        COMMON_PRACTICE,
        0.1,
        60,
        example='"3 mm"',
        worked_out="the whole lap, from the card's edge",
    )
    feather: float = key(
        Kind.THICKNESS,
        "what the edge is pared to",
        COMMON_PRACTICE,
        0.01,
        6,
        zero=True,
        default=GUSSET_FEATHER,
        worked_out="0.1 mm, or the leather if thinner",
    )
    tip_radius: float = key(Kind.LENGTH, "rounding of the tips", FROM_MEMORY, 0, 60, default=2.0)
    point_radius: float = key(Kind.LENGTH, "rounding of the points at the valley", FROM_MEMORY, 0, 60, default=3.0)
    spare: Spare = key(
        Kind.SPARE,
        'spare gussets of each outline: a count, or a share such as "10 %" (at least 3)',
        INVENTED,
        0,
        500,
        default=Spare(None, 10.0),
    )
    off_grain: float = key(Kind.ANGLE, "how far a gusset may lie off the backbone of the skin", INVENTED, 0, 90, default=10.0)
    use: tuple[float, float] | None = key(
        Kind.PAIR, "an existing gusset instead: its width and length", low=2, high=700, example='["28 mm", "60 mm"]'
    )


@dataclass(frozen=True, kw_only=True)
class EdgeStripSpec:
    """Leather folded over each ridge, round the bellows."""

    material: str = key(Kind.MATERIAL, "leather of the edge strips", COMMON_PRACTICE, default="strip skin")
    lap: float = key(Kind.LENGTH, "down each side of the ridge", COMMON_PRACTICE, **_LAP, default=7.0)
    skive: float = key(
        Kind.LENGTH, "width pared thin along each edge", COMMON_PRACTICE, 0.1, 60, default=SKIVE, worked_out="5 mm, or the lap if narrower"
    )
    feather: float = key(
        Kind.THICKNESS,
        "what the edge is pared to",
        COMMON_PRACTICE,
        0.01,
        6,
        zero=True,
        default=STRIP_FEATHER,
        worked_out="0.2 mm, or the leather if thinner",
    )
    joint: float = key(Kind.LENGTH, "overlap where the ends meet", FROM_MEMORY, 0.5, 100, default=10.0)
    run: str = key(
        Kind.CHOICE, "one strip whole round the bellows, or one per side", COMMON_PRACTICE, choices=("whole", "per-side"), default="whole"
    )
    darts: bool = key(Kind.FLAG, "notch the strip at the corners", COMMON_PRACTICE, default=False)


@dataclass(frozen=True, kw_only=True)
class EndStripSpec:
    """Leather that joins the last cards to the frames."""

    material: str = key(Kind.MATERIAL, "leather of the end strips", COMMON_PRACTICE, default="strip skin")
    lap: float = key(Kind.LENGTH, "down the card", FROM_MEMORY, **_LAP, default=8.0)
    frame_cover: float = key(Kind.LENGTH, "up the frame's side: measure yours", FROM_MEMORY, 0.5, 200, default=15.0)
    skive: float = key(
        Kind.LENGTH,
        "width pared thin along each edge",
        FROM_MEMORY,
        0.1,
        60,
        default=SKIVE,
        worked_out="5 mm, or lap or frame_cover if narrower",
    )
    feather: float = key(
        Kind.THICKNESS,
        "what the edge is pared to",
        FROM_MEMORY,
        0.01,
        6,
        zero=True,
        default=STRIP_FEATHER,
        worked_out="0.2 mm, or the leather if thinner",
    )
    joint: float = key(Kind.LENGTH, "overlap where the ends meet", FROM_MEMORY, 0.5, 100, default=10.0)


@dataclass(frozen=True, kw_only=True)
class HingeSpec:
    """Cloth or leather inside the fold lines."""

    material: str = key(Kind.MATERIAL, "cloth or leather of the hinges", PUBLISHED, default="linen")
    lap: float = key(Kind.LENGTH, "over each card", FROM_MEMORY, **_LAP, default=6.0)
    valley_side: str = key(
        Kind.CHOICE,
        "the card's face that the valley hinge is glued to",
        PUBLISHED,
        choices=("inside", "outside"),
        also={"inner": "inside", "outer": "outside"},
        default="inside",
    )


@dataclass(frozen=True, kw_only=True)
class FrameHingeSpec:
    """A hinge inside, last card to frame."""

    material: str = key(Kind.MATERIAL, "cloth or leather of the frame hinges", PUBLISHED, default="linen")
    lap: float = key(Kind.LENGTH, "over the card and over the frame", FROM_MEMORY, **_LAP, default=6.0)


@dataclass(frozen=True, kw_only=True)
class ValleyStripSpec:
    """Thin leather outside each valley."""

    material: str = key(Kind.MATERIAL, "leather of the valley strips", INVENTED, default="gusset skin")
    lap: float = key(Kind.LENGTH, "up each card", FROM_MEMORY, **_LAP, default=5.0)


@dataclass(frozen=True, kw_only=True)
class RidgeClothSpec:
    """Cloth over each ridge, under the edge strip."""

    material: str = key(Kind.MATERIAL, "cloth of the ridges", INVENTED, default="linen")
    lap: float = key(Kind.LENGTH, "down each card", FROM_MEMORY, **_LAP, default=5.0)


@dataclass(frozen=True, kw_only=True)
class GasketSpec:
    """The frame's seal, sold by length."""

    material: str = key(Kind.MATERIAL, "leather of the gasket", INVENTED, default="strip skin")
    width: float = key(Kind.LENGTH, "width of the gasket", INVENTED, 1, 200, default=12.0)


@dataclass(frozen=True, kw_only=True)
class CornerPatchSpec:
    """A round-ended strip folded over the ridge at a corner."""

    material: str = key(Kind.MATERIAL, "leather of the patches", INVENTED, default="gusset skin")
    width: float = key(Kind.LENGTH, "across the ridge", INVENTED, 2, 200, default=16.0)
    length: float = key(Kind.LENGTH, "along the ridge, each way from the corner", INVENTED, 2, 200, default=15.0)
    count: int | None = key(Kind.COUNT, "how many", INVENTED, 1, 10_000, example="6", worked_out="one a corner")


@dataclass(frozen=True, kw_only=True)
class FacingSpec:
    """The paper that covers the visible face of the cards."""

    material: str = key(Kind.MATERIAL, "paper of the facings", INVENTED, default="facing paper")
    order: str = key(Kind.CHOICE, "glued on last, or first (under the strips)", COMMON_PRACTICE, choices=("last", "first"), default="last")
    span: str = key(Kind.CHOICE, "one a card, or one a pair through the valley", COMMON_PRACTICE, choices=("card", "pair"), default="card")
    overlap: float = key(Kind.LENGTH, "over the laps, when glued on last", FROM_MEMORY, 0.1, 50, default=1.2)
    short_of_valley: float = key(Kind.LENGTH, "stops short of the valley line", FROM_MEMORY, 0.1, 50, default=1.5)
    margin: float = key(Kind.LENGTH, "set in from the card's edge, when glued on first", FROM_MEMORY, 0.1, 50, default=1.5)


@dataclass(frozen=True, kw_only=True)
class CoverGussetSpec:
    """A gusset of very thin leather, glued exactly over the old one."""

    material: str = key(Kind.MATERIAL, "very thin leather of the cover gussets", COMMON_PRACTICE, default="cover skin")


@dataclass(frozen=True, kw_only=True)
class CostSpec:
    """What an hour and a skin are reckoned at, and what comes on top."""

    currency: str = key(Kind.CURRENCY, "ISO 4217 letters of the prices", INVENTED, default="GBP")
    labour_rate: Decimal | None = key(Kind.MONEY, "price of an hour", low=0, high=1_000_000, example="28.00")
    charge: str = key(
        Kind.CHOICE, "charge the share of a skin that is used, or whole skins", INVENTED, choices=("share", "whole"), default="share"
    )
    minimum_charge: Decimal | None = key(Kind.MONEY, "least price of a job before tax", low=0, high=1_000_000, example="40.00")
    margin: float = key(Kind.PER_CENT, "share of the price before tax that is left over for the workshop", INVENTED, 0, 90, default=0.0)
    tax: float = key(Kind.PER_CENT, "tax on top of the price", INVENTED, 0, 100, default=0.0)

    @property
    def digits(self) -> int:
        """Decimals of the currency [-]."""
        return CURRENCY_DIGITS.get(self.currency, 2)


@dataclass(frozen=True, kw_only=True)
class QuoteSpec:
    """What the customer's estimate says beside the work."""

    customer: str | None = key(Kind.TEXT, "whom the estimate is for", example='"A. Customer (invented)"')
    value: Decimal | None = key(Kind.MONEY, "what the instrument is worth in good order", low=0, high=10_000_000, example="450.00")
    keep_original: bool = key(Kind.FLAG, "an old one: keep what can be kept, and give back what comes off", INVENTED, default=False)
    new_form: bool = key(Kind.FLAG, "the form to build on has to be made first", INVENTED, default=False)
    other_work: tuple[str, ...] = key(
        Kind.TEXTS, "what else was seen and is not in the price", default=(), example='["two pads hang", "reeds out of tune"]'
    )


MINUTES = Key(Kind.MINUTES, "minutes however many pieces there are, and for each piece", INVENTED, 0, 100_000, example="[15, 2.5]")
"""Every key of ``[minutes]``, which are the names of operations."""


@dataclass(frozen=True, kw_only=True)
class CutterSpec:
    """The machine that cuts board, paper and templates."""

    kerf: float = key(Kind.LENGTH, "laser: width of what it burns away; cut a test piece and measure", FROM_MEMORY, 0, 3, default=0.15)
    overcut: float = key(Kind.LENGTH, "drag knife: how far a cut runs on past a sharp corner", FROM_MEMORY, 0, 10, default=0.5)
    blade_offset: float | None = key(
        Kind.LENGTH,
        "drag knife: from the pivot to the tip of the blade",
        FROM_MEMORY,
        0.05,
        5,
        example='"0.25 mm"',
        worked_out="left to the machine",
    )
    bed: tuple[float, float] | None = key(
        Kind.PAIR, "largest piece of stock that it takes", low=50, high=20_000, example='["600 mm", "400 mm"]'
    )
    speed: float | None = key(Kind.NUMBER, "cutting speed in mm a second, to reckon its time", low=0.1, high=2000, example="20")
    travel_speed: float | None = key(
        Kind.NUMBER, "speed between cuts in mm a second", low=0.1, high=5000, example="100", worked_out="five times speed"
    )


@dataclass(frozen=True)
class Table:
    """One table of a profile: its name, its dataclass, and whether absent means not made."""

    name: str
    spec: type[Any]
    optional: bool
    help: str


TABLES: tuple[Table, ...] = (
    Table("section", SectionSpec, False, "What was measured at the end of the bellows."),
    Table("bellows", BellowsSpec, False, "How many folds, how deep, and how far they open."),
    Table("card", CardSpec, False, "The stiff plates."),
    Table("gusset", GussetSpec, False, "The diamonds of thin leather that close the corners."),
    Table("edge_strip", EdgeStripSpec, False, "Leather folded over each ridge."),
    Table("end_strip", EndStripSpec, False, "Leather that joins the last cards to the frame."),
    Table("hinge", HingeSpec, False, "Cloth or leather inside the fold lines."),
    Table("frame_hinge", FrameHingeSpec, True, "A hinge inside, last card to frame."),
    Table("valley_strip", ValleyStripSpec, True, "Thin leather outside each valley."),
    Table("ridge_cloth", RidgeClothSpec, True, "Cloth over each ridge, under the edge strip."),
    Table("gasket", GasketSpec, True, "The frame's seal."),
    Table("corner_patch", CornerPatchSpec, True, "Patches folded over the ridge at a corner."),
    Table("facing", FacingSpec, True, "The paper that covers the visible face of the cards."),
    Table("cover_gusset", CoverGussetSpec, True, "Very thin gussets laid exactly over the old ones."),
    Table("costs", CostSpec, False, "Currency, the price of an hour, and what comes on top."),
    Table("quote", QuoteSpec, False, "What the customer's estimate says beside the work."),
    Table("cutter", CutterSpec, False, "The laser or drag knife, for the machine files of a layout."),
)
"""All tables but ``[materials]``, in the order they are written."""

ALSO_SAID: Mapping[str, str] = MappingProxyType(
    {
        "corner": "gusset",
        "top_run": "edge_strip",
        "top_binding": "edge_strip",
        "end_run": "end_strip",
        "inner_hinge": "hinge",
        "bellows_paper": "facing",
        "paper": "facing",
        "seal": "gasket",
        "pare": "skive",
        "opening": "stretch",
        "mould_slope": "form_slope",
        "set_in": "ridge_setback",
        "peak_setback": "ridge_setback",
        "corner_allowance": "relief",
        "peak_gap": "ridge_gap",
        "trough_gap": "valley_gap",
        "peak_radius": "ridge_radius",
        "trough_radius": "valley_radius",
        "tip_turn": "ridge_turn",
        "peak_turn": "ridge_turn",
        "trough_strip": "valley_strip",
        "peak_cloth": "ridge_cloth",
        "trough_side": "valley_side",
        "depth": "fold_depth",
        "pleats": "folds",
    }
)
"""Other words for tables and keys, named in the message when one is not known."""

"""The tables of a profile: one dataclass a table, one `Key` a field.

This is the only list of profile keys. Reading, checking, the commented file,
the questions and the reference page are all made from it. Where a default is
None the geometry works the value out, or the part has no such thing.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType
from typing import Any

from bellowscut.keys import COMMON_PRACTICE, FROM_MEMORY, GEOMETRY, INVENTED, NO_DEFAULT, PUBLISHED, Key, Kind, key
from bellowscut.shapes import Point
from bellowscut.sources import FOLDS_MOST, SIDES_MOST
from bellowscut.words import schema as words

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


@dataclass(frozen=True)
class Readings:
    """What a rule said of one size [mm]: on any side, or by the letter of the side, once or several times."""

    any_side: tuple[float, ...] = ()
    by_side: tuple[tuple[str, tuple[float, ...]], ...] = ()

    @property
    def sides(self) -> tuple[str, ...]:
        """Letters of the sides that were named."""
        return tuple(side for side, _ in self.by_side)

    def at(self, side: str) -> tuple[float, ...]:
        """Readings that hold for a side [mm]; none where only other sides were read."""
        return dict(self.by_side).get(side, self.any_side)

    @property
    def every(self) -> tuple[float, ...]:
        """All readings, whatever their side [mm]."""
        return self.any_side + tuple(value for _, values in self.by_side for value in values)


UNITS = ("mm", "in")
"""What papers are written in."""


@dataclass(frozen=True, kw_only=True)
class TopSpec:
    """The keys that stand before any table."""

    format: int = key(Kind.COUNT, words.FILE_FORMAT, NO_DEFAULT, 1, 1, default=FORMAT)
    name: str = key(Kind.TEXT, words.FILE_NAME, finer=False, example=words.FILE_NAME_EXAMPLE, worked_out=words.FILE_NAME_DEFAULT)
    copies: int = key(Kind.COUNT, words.FILE_COPIES, NO_DEFAULT, 1, 1000, default=1)
    units: str | None = key(
        Kind.CHOICE, words.FILE_UNITS, choices=UNITS, example=words.FILE_UNITS_EXAMPLE, worked_out=words.FILE_UNITS_DEFAULT
    )


@dataclass(frozen=True, kw_only=True)
class SectionSpec:
    """What was measured at the ends [mm]; 0, empty or None where the shape has no such thing."""

    shape: str = key(
        Kind.CHOICE,
        words.SECTION_SHAPE,
        choices=(REGULAR, RECTANGLE, MEASURED),
        also={"oblong": RECTANGLE, "rectangular": RECTANGLE, "irregular": MEASURED},
        required=True,
        finer=False,
        example='"regular"',
    )
    sides: int | None = key(
        Kind.COUNT,
        words.SECTION_SIDES,
        low=SIDES_LEAST,
        high=SIDES_MOST.value,
        only_for=(REGULAR,),
        required=True,
        finer=False,
        example="6",
    )
    end_size: float = key(
        Kind.LENGTH,
        words.SECTION_END_SIZE,
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
        words.SECTION_MEASURE,
        choices=("across-flats", "across-corners", "side"),
        also={"flats": "across-flats", "corners": "across-corners"},
        only_for=(REGULAR,),
        finer=False,
        default="",
        example='"across-flats"',
        worked_out=words.SECTION_MEASURE_DEFAULT,
    )
    width: float = key(
        Kind.LENGTH,
        words.SECTION_WIDTH,
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
        words.SECTION_HEIGHT,
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
        words.SECTION_FLATS,
        low=15,
        high=3000,
        only_for=(MEASURED,),
        finer=False,
        example='["158.9 mm", "158.2 mm", "159.1 mm"]',
    )
    side_lengths: tuple[float, ...] | None = key(
        Kind.LENGTHS,
        words.SECTION_SIDE_LENGTHS,
        low=1,
        high=3000,
        only_for=(MEASURED,),
        finer=False,
        example="[91.2, 92.5, 91.0, 92.1, 91.9, 90.6]",
    )
    corners: tuple[Point, ...] | None = key(
        Kind.POINTS,
        words.SECTION_CORNERS,
        low=-5000,
        high=5000,
        only_for=(MEASURED,),
        finer=False,
        example="[[0, 0], [92, 0], [138, 80], [92, 160], [0, 160], [-46, 80]]",
    )
    other_end: tuple[float, ...] | tuple[Point, ...] | None = key(
        Kind.OTHER_END,
        words.SECTION_OTHER_END,
        only_for=(MEASURED,),
        finer=False,
        example='["159.3 mm", "158.8 mm", "159.5 mm"]',
    )
    measured_on: str = key(
        Kind.CHOICE,
        words.SECTION_MEASURED_ON,
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
        words.SECTION_RIDGE_SETBACK,
        GEOMETRY,
        0,
        50,
        example='"0.8 mm"',
        worked_out=words.SECTION_RIDGE_SETBACK_DEFAULT,
    )


@dataclass(frozen=True, kw_only=True)
class BellowsSpec:
    """Folds, depth and how far they open."""

    folds: int = key(Kind.COUNT, words.BELLOWS_FOLDS, low=1, high=FOLDS_MOST.value, required=True, finer=False, example="6")
    fold_depth: float = key(Kind.LENGTH, words.BELLOWS_FOLD_DEPTH, low=2, high=300, required=True, finer=False, example='"25 mm"')
    stretch: float | None = key(
        Kind.ANGLE,
        words.BELLOWS_STRETCH,
        COMMON_PRACTICE,
        1,
        90,
        finer=False,
        example="50",
        worked_out="50",
    )
    travel: float | None = key(Kind.LENGTH, words.BELLOWS_TRAVEL, low=1, high=10_000, finer=False, example='"230 mm"')
    ends: str = key(
        Kind.CHOICE,
        words.BELLOWS_ENDS,
        COMMON_PRACTICE,
        choices=("ridge", "valley"),
        also={"peak": "ridge", "trough": "valley"},
        finer=False,
        default="ridge",
    )
    corner_gap: float | None = key(
        Kind.LENGTH,
        words.BELLOWS_CORNER_GAP,
        GEOMETRY,
        0,
        50,
        example='"1 mm"',
        worked_out=words.BELLOWS_CORNER_GAP_DEFAULT,
    )
    relief: float | None = key(Kind.ANGLE, words.BELLOWS_RELIEF, PUBLISHED, 0, 89, example="5", worked_out=words.BELLOWS_RELIEF_DEFAULT)
    closed_gap: float | None = key(Kind.LENGTH, words.BELLOWS_CLOSED_GAP, low=0, high=300, example='"6 mm"')
    form_slope: float | None = key(
        Kind.ANGLE,
        words.BELLOWS_FORM_SLOPE,
        COMMON_PRACTICE,
        1,
        90,
        example="50",
        worked_out=words.BELLOWS_FORM_SLOPE_DEFAULT,
    )
    old_closed_length: float | None = key(Kind.LENGTH, words.BELLOWS_OLD_CLOSED_LENGTH, low=1, high=5000, example='"40 mm"')
    reed_clearance: float | None = key(Kind.LENGTH, words.BELLOWS_REED_CLEARANCE, low=1, high=3000, example='"100 mm"')
    stack_factor: float = key(Kind.NUMBER, words.BELLOWS_STACK_FACTOR, FROM_MEMORY, 0.3, 5, default=1.0)


@dataclass(frozen=True, kw_only=True)
class CardSpec:
    """The stiff plates."""

    material: str = key(Kind.MATERIAL, words.CARD_MATERIAL, COMMON_PRACTICE, default="grey card")
    build: str = key(
        Kind.CHOICE,
        words.CARD_BUILD,
        COMMON_PRACTICE,
        choices=("loose", "run"),
        also={"scored": "run", "scored-run": "run", "single": "loose"},
        default="loose",
    )
    ridge_gap: float | None = key(
        Kind.LENGTH, words.CARD_RIDGE_GAP, GEOMETRY, 0, 50, example='"0.2 mm"', worked_out=words.CARD_RIDGE_GAP_DEFAULT
    )
    valley_gap: float | None = key(
        Kind.LENGTH,
        words.CARD_VALLEY_GAP,
        GEOMETRY,
        0,
        50,
        example='"2 mm"',
        worked_out=words.CARD_VALLEY_GAP_DEFAULT,
    )
    ridge_radius: float = key(Kind.LENGTH, words.CARD_RIDGE_RADIUS, FROM_MEMORY, 0, 60, default=0.5)
    valley_radius: float = key(Kind.LENGTH, words.CARD_VALLEY_RADIUS, FROM_MEMORY, 0, 60, default=0.5)


@dataclass(frozen=True, kw_only=True)
class GussetSpec:
    """The diamonds of leather that close the corners."""

    material: str = key(Kind.MATERIAL, words.GUSSET_MATERIAL, COMMON_PRACTICE, default="gusset skin")
    lap: float = key(Kind.LENGTH, words.GUSSET_LAP, FROM_MEMORY, 0.5, 60, default=5.0, worked_out=words.GUSSET_LAP_DEFAULT)
    tip_lap: float = key(Kind.LENGTH, words.GUSSET_TIP_LAP, FROM_MEMORY, 0.1, 60, default=3.0, worked_out=words.GUSSET_TIP_LAP_DEFAULT)
    ridge_turn: float = key(Kind.LENGTH, words.GUSSET_RIDGE_TURN, FROM_MEMORY, 0.1, 60, default=1.5)
    frame_turn: float = key(Kind.LENGTH, words.GUSSET_FRAME_TURN, FROM_MEMORY, 0.1, 100, default=5.0)
    skive: float | None = key(
        Kind.LENGTH,
        words.GUSSET_SKIVE,
        COMMON_PRACTICE,
        0.1,
        60,
        example='"3 mm"',
        worked_out=words.GUSSET_SKIVE_DEFAULT,
    )
    feather: float = key(
        Kind.THICKNESS,
        words.GUSSET_FEATHER,
        COMMON_PRACTICE,
        0.01,
        6,
        zero=True,
        default=GUSSET_FEATHER,
        worked_out=words.GUSSET_FEATHER_DEFAULT,
    )
    tip_radius: float = key(Kind.LENGTH, words.GUSSET_TIP_RADIUS, FROM_MEMORY, 0, 60, default=2.0)
    point_radius: float = key(Kind.LENGTH, words.GUSSET_POINT_RADIUS, FROM_MEMORY, 0, 60, default=3.0)
    spare: Spare = key(
        Kind.SPARE,
        words.GUSSET_SPARE,
        INVENTED,
        0,
        500,
        default=Spare(None, 10.0),
    )
    off_grain: float = key(Kind.ANGLE, words.GUSSET_OFF_GRAIN, INVENTED, 0, 90, default=10.0)
    use: tuple[float, float] | None = key(Kind.PAIR, words.GUSSET_USE, low=2, high=700, example='["28 mm", "60 mm"]')


@dataclass(frozen=True, kw_only=True)
class ReadingsSpec:
    """What an old bellows lets one measure; None where nothing was read."""

    ridge_edge: Readings | None = key(Kind.READINGS, words.READINGS_RIDGE_EDGE, low=2, high=3000, finer=False, example='"84.1 mm"')
    valley_edge: Readings | None = key(
        Kind.READINGS, words.READINGS_VALLEY_EDGE, low=2, high=3000, finer=False, example='["61.0 mm", "60.5 mm"]'
    )
    glue_shadow: Readings | None = key(Kind.READINGS, words.READINGS_GLUE_SHADOW, low=0.5, high=60, finer=False, example='"5 mm"')


@dataclass(frozen=True, kw_only=True)
class EdgeStripSpec:
    """Leather folded over each ridge, round the bellows."""

    material: str = key(Kind.MATERIAL, words.EDGE_STRIP_MATERIAL, COMMON_PRACTICE, default="strip skin")
    lap: float = key(Kind.LENGTH, words.EDGE_STRIP_LAP, COMMON_PRACTICE, **_LAP, default=7.0)
    skive: float = key(
        Kind.LENGTH, words.EDGE_STRIP_SKIVE, COMMON_PRACTICE, 0.1, 60, default=SKIVE, worked_out=words.EDGE_STRIP_SKIVE_DEFAULT
    )
    feather: float = key(
        Kind.THICKNESS,
        words.EDGE_STRIP_FEATHER,
        COMMON_PRACTICE,
        0.01,
        6,
        zero=True,
        default=STRIP_FEATHER,
        worked_out=words.EDGE_STRIP_FEATHER_DEFAULT,
    )
    joint: float = key(Kind.LENGTH, words.EDGE_STRIP_JOINT, FROM_MEMORY, 0.5, 100, default=10.0)
    run: str = key(Kind.CHOICE, words.EDGE_STRIP_RUN, COMMON_PRACTICE, choices=("whole", "per-side"), default="whole")
    darts: bool = key(Kind.FLAG, words.EDGE_STRIP_DARTS, COMMON_PRACTICE, default=False)


@dataclass(frozen=True, kw_only=True)
class EndStripSpec:
    """Leather that joins the last cards to the frames."""

    material: str = key(Kind.MATERIAL, words.END_STRIP_MATERIAL, COMMON_PRACTICE, default="strip skin")
    lap: float = key(Kind.LENGTH, words.END_STRIP_LAP, FROM_MEMORY, **_LAP, default=8.0)
    frame_cover: float = key(Kind.LENGTH, words.END_STRIP_FRAME_COVER, FROM_MEMORY, 0.5, 200, default=15.0)
    skive: float = key(
        Kind.LENGTH,
        words.END_STRIP_SKIVE,
        FROM_MEMORY,
        0.1,
        60,
        default=SKIVE,
        worked_out=words.END_STRIP_SKIVE_DEFAULT,
    )
    feather: float = key(
        Kind.THICKNESS,
        words.END_STRIP_FEATHER,
        FROM_MEMORY,
        0.01,
        6,
        zero=True,
        default=STRIP_FEATHER,
        worked_out=words.END_STRIP_FEATHER_DEFAULT,
    )
    joint: float = key(Kind.LENGTH, words.END_STRIP_JOINT, FROM_MEMORY, 0.5, 100, default=10.0)


@dataclass(frozen=True, kw_only=True)
class HingeSpec:
    """Cloth or leather inside the fold lines."""

    material: str = key(Kind.MATERIAL, words.HINGE_MATERIAL, PUBLISHED, default="linen")
    lap: float = key(Kind.LENGTH, words.HINGE_LAP, FROM_MEMORY, **_LAP, default=6.0)
    valley_side: str = key(
        Kind.CHOICE,
        words.HINGE_VALLEY_SIDE,
        PUBLISHED,
        choices=("inside", "outside"),
        also={"inner": "inside", "outer": "outside"},
        default="inside",
    )


@dataclass(frozen=True, kw_only=True)
class FrameHingeSpec:
    """A hinge inside, last card to frame."""

    material: str = key(Kind.MATERIAL, words.FRAME_HINGE_MATERIAL, PUBLISHED, default="linen")
    lap: float = key(Kind.LENGTH, words.FRAME_HINGE_LAP, FROM_MEMORY, **_LAP, default=6.0)


@dataclass(frozen=True, kw_only=True)
class ValleyStripSpec:
    """Thin leather outside each valley."""

    material: str = key(Kind.MATERIAL, words.VALLEY_STRIP_MATERIAL, INVENTED, default="gusset skin")
    lap: float = key(Kind.LENGTH, words.VALLEY_STRIP_LAP, FROM_MEMORY, **_LAP, default=5.0)


@dataclass(frozen=True, kw_only=True)
class RidgeClothSpec:
    """Cloth over each ridge, under the edge strip."""

    material: str = key(Kind.MATERIAL, words.RIDGE_CLOTH_MATERIAL, INVENTED, default="linen")
    lap: float = key(Kind.LENGTH, words.RIDGE_CLOTH_LAP, FROM_MEMORY, **_LAP, default=5.0)


@dataclass(frozen=True, kw_only=True)
class GasketSpec:
    """The frame's seal, sold by length."""

    material: str = key(Kind.MATERIAL, words.GASKET_MATERIAL, INVENTED, default="strip skin")
    width: float = key(Kind.LENGTH, words.GASKET_WIDTH, INVENTED, 1, 200, default=12.0)


@dataclass(frozen=True, kw_only=True)
class CornerPatchSpec:
    """A round-ended strip folded over the ridge at a corner."""

    material: str = key(Kind.MATERIAL, words.CORNER_PATCH_MATERIAL, INVENTED, default="gusset skin")
    width: float = key(Kind.LENGTH, words.CORNER_PATCH_WIDTH, INVENTED, 2, 200, default=16.0)
    length: float = key(Kind.LENGTH, words.CORNER_PATCH_LENGTH, INVENTED, 2, 200, default=15.0)
    count: int | None = key(
        Kind.COUNT, words.CORNER_PATCH_COUNT, INVENTED, 1, 10_000, example="6", worked_out=words.CORNER_PATCH_COUNT_DEFAULT
    )


@dataclass(frozen=True, kw_only=True)
class FacingSpec:
    """The paper that covers the visible face of the cards."""

    material: str = key(Kind.MATERIAL, words.FACING_MATERIAL, INVENTED, default="facing paper")
    order: str = key(Kind.CHOICE, words.FACING_ORDER, COMMON_PRACTICE, choices=("last", "first"), default="last")
    span: str = key(Kind.CHOICE, words.FACING_SPAN, COMMON_PRACTICE, choices=("card", "pair"), default="card")
    overlap: float = key(Kind.LENGTH, words.FACING_OVERLAP, FROM_MEMORY, 0.1, 50, default=1.2)
    short_of_valley: float = key(Kind.LENGTH, words.FACING_SHORT_OF_VALLEY, FROM_MEMORY, 0.1, 50, default=1.5)
    margin: float = key(Kind.LENGTH, words.FACING_MARGIN, FROM_MEMORY, 0.1, 50, default=1.5)


@dataclass(frozen=True, kw_only=True)
class CoverGussetSpec:
    """A gusset of very thin leather, glued exactly over the old one."""

    material: str = key(Kind.MATERIAL, words.COVER_GUSSET_MATERIAL, COMMON_PRACTICE, default="cover skin")


@dataclass(frozen=True, kw_only=True)
class CostSpec:
    """What an hour and a skin are reckoned at, and what comes on top."""

    currency: str = key(Kind.CURRENCY, words.COSTS_CURRENCY, INVENTED, default="GBP")
    labour_rate: Decimal | None = key(Kind.MONEY, words.COSTS_LABOUR_RATE, low=0, high=1_000_000, example="28.00")
    charge: str = key(Kind.CHOICE, words.COSTS_CHARGE, INVENTED, choices=("share", "whole"), default="share")
    minimum_charge: Decimal | None = key(Kind.MONEY, words.COSTS_MINIMUM_CHARGE, low=0, high=1_000_000, example="40.00")
    margin: float = key(Kind.PER_CENT, words.COSTS_MARGIN, INVENTED, 0, 90, default=0.0)
    tax: float = key(Kind.PER_CENT, words.COSTS_TAX, INVENTED, 0, 100, default=0.0)

    @property
    def digits(self) -> int:
        """Decimals of the currency [-]."""
        return CURRENCY_DIGITS.get(self.currency, 2)


@dataclass(frozen=True, kw_only=True)
class QuoteSpec:
    """What the customer's estimate says beside the work."""

    customer: str | None = key(Kind.TEXT, words.QUOTE_CUSTOMER, example=words.QUOTE_CUSTOMER_EXAMPLE)
    value: Decimal | None = key(Kind.MONEY, words.QUOTE_VALUE, low=0, high=10_000_000, example="450.00")
    keep_original: bool = key(Kind.FLAG, words.QUOTE_KEEP_ORIGINAL, INVENTED, default=False)
    new_form: bool = key(Kind.FLAG, words.QUOTE_NEW_FORM, INVENTED, default=False)
    other_work: tuple[str, ...] = key(Kind.TEXTS, words.QUOTE_OTHER_WORK, default=(), example=words.QUOTE_OTHER_WORK_EXAMPLE)


MINUTES = Key(Kind.MINUTES, words.MINUTES, INVENTED, 0, 100_000, example="[15, 2.5]")
"""Every key of ``[minutes]``, which are the names of operations."""


READ_OFF = Key(Kind.READINGS, words.TABLE_READINGS)
"""Any key of ``[readings]``, to write its value."""


HAIRLINE = 0.05
"""Width of the lines of a machine file [mm], invented: wide lines are taken for areas to be engraved, and thinner ones are hard to see."""

COLOURS_APART = 32
"""Colours of which red, green and blue all differ by less, of 255, are too much alike for a machine that goes by colour [-], invented."""


def colours_alike(one: str, other: str) -> bool:
    """Whether two colours, ``#rrggbb``, are so near that a machine may take one for the other."""
    return all(abs(int(one[k : k + 2], 16) - int(other[k : k + 2], 16)) < COLOURS_APART for k in (1, 3, 5))


def _colour_key(meaning: str, default: str) -> Any:  # noqa: ANN401 - as of `key`
    return key(Kind.COLOUR, meaning, INVENTED, default=default, finer=False)


def _line_width_key(meaning: str) -> Any:  # noqa: ANN401 - as of `key`
    return key(Kind.LENGTH, meaning, INVENTED, 0.001, 3, default=HAIRLINE, finer=False)


@dataclass(frozen=True, kw_only=True)
class CutterSpec:
    """The machine that cuts board, paper and templates."""

    kerf: float = key(Kind.LENGTH, words.CUTTER_KERF, FROM_MEMORY, 0, 3, default=0.15)
    overcut: float = key(Kind.LENGTH, words.CUTTER_OVERCUT, FROM_MEMORY, 0, 10, default=0.5)
    blade_offset: float | None = key(
        Kind.LENGTH,
        words.CUTTER_BLADE_OFFSET,
        FROM_MEMORY,
        0.05,
        5,
        example='"0.25 mm"',
        worked_out=words.CUTTER_BLADE_OFFSET_DEFAULT,
    )
    bed: tuple[float, float] | None = key(Kind.PAIR, words.CUTTER_BED, low=50, high=20_000, example='["600 mm", "400 mm"]')
    speed: float | None = key(Kind.NUMBER, words.CUTTER_SPEED, low=0.1, high=2000, example="20")
    travel_speed: float | None = key(
        Kind.NUMBER, words.CUTTER_TRAVEL_SPEED, low=0.1, high=5000, example="100", worked_out=words.CUTTER_TRAVEL_SPEED_DEFAULT
    )
    cut_colour: str = _colour_key(words.CUTTER_CUT_COLOUR, "#ff0080")
    cut_line_width: float = _line_width_key(words.CUTTER_CUT_LINE)
    crease_colour: str = _colour_key(words.CUTTER_CREASE_COLOUR, "#8000ff")
    crease_line_width: float = _line_width_key(words.CUTTER_CREASE_LINE)
    skive_colour: str = _colour_key(words.CUTTER_SKIVE_COLOUR, "#ff8000")
    skive_line_width: float = _line_width_key(words.CUTTER_SKIVE_LINE)
    mark_colour: str = _colour_key(words.CUTTER_MARK_COLOUR, "#0080ff")
    mark_line_width: float = _line_width_key(words.CUTTER_MARK_LINE)
    text_colour: str = _colour_key(words.CUTTER_TEXT_COLOUR, "#008000")
    text_line_width: float = _line_width_key(words.CUTTER_TEXT_LINE)
    scale_colour: str = _colour_key(words.CUTTER_SCALE_COLOUR, "#008080")
    scale_line_width: float = _line_width_key(words.CUTTER_SCALE_LINE)


@dataclass(frozen=True, kw_only=True)
class FormSpec:
    """The form that the bellows is built on."""

    ply: float = key(Kind.LENGTH, words.FORM_PLY, INVENTED, 2, 20, default=6.0)
    play: float = key(Kind.LENGTH, words.FORM_PLAY, INVENTED, 0, 2, default=0.2)
    arris: float = key(Kind.LENGTH, words.FORM_ARRIS, INVENTED, 0, 5, default=0.5)
    spacing: float = key(Kind.LENGTH, words.FORM_SPACING, INVENTED, 15, 300, default=50.0)
    back: float = key(Kind.LENGTH, words.FORM_BACK, INVENTED, 4, 60, default=10.0)
    clearance: float = key(Kind.LENGTH, words.FORM_CLEARANCE, INVENTED, 0.5, 20, default=2.0)


@dataclass(frozen=True)
class Table:
    """One table of a profile: its name, its dataclass, and whether absent means not made."""

    name: str
    spec: type[Any]
    optional: bool
    help: str


TABLES: tuple[Table, ...] = (
    Table("section", SectionSpec, False, words.TABLE_SECTION),
    Table("bellows", BellowsSpec, False, words.TABLE_BELLOWS),
    Table("card", CardSpec, False, words.TABLE_CARD),
    Table("gusset", GussetSpec, False, words.TABLE_GUSSET),
    Table("readings", ReadingsSpec, False, words.TABLE_READINGS),
    Table("edge_strip", EdgeStripSpec, False, words.TABLE_EDGE_STRIP),
    Table("end_strip", EndStripSpec, False, words.TABLE_END_STRIP),
    Table("hinge", HingeSpec, False, words.TABLE_HINGE),
    Table("frame_hinge", FrameHingeSpec, True, words.TABLE_FRAME_HINGE),
    Table("valley_strip", ValleyStripSpec, True, words.TABLE_VALLEY_STRIP),
    Table("ridge_cloth", RidgeClothSpec, True, words.TABLE_RIDGE_CLOTH),
    Table("gasket", GasketSpec, True, words.TABLE_GASKET),
    Table("corner_patch", CornerPatchSpec, True, words.TABLE_CORNER_PATCH),
    Table("facing", FacingSpec, True, words.TABLE_FACING),
    Table("cover_gusset", CoverGussetSpec, True, words.TABLE_COVER_GUSSET),
    Table("costs", CostSpec, False, words.TABLE_COSTS),
    Table("quote", QuoteSpec, False, words.TABLE_QUOTE),
    Table("cutter", CutterSpec, False, words.TABLE_CUTTER),
    Table("form", FormSpec, False, words.TABLE_FORM),
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
        "peak_edge": "ridge_edge",
        "trough_edge": "valley_edge",
        "shadow": "glue_shadow",
    }
)
"""Other words for tables and keys, named in the message when one is not known; for kinds of part they are taken as they are."""


def kind_meant(word: str) -> str:
    """The kind of part that a word of the trade stands for.

    Parameters
    ----------
    word : str
        As somebody writes it, such as ``Bellows paper`` or ``top_run``.

    Returns
    -------
    str
        Name of a kind, such as ``facing``; what is none comes back in small letters with hyphens.

    Examples
    --------
    >>> kind_meant("Bellows paper"), kind_meant("end gusset")
    ('facing', 'end-gusset')
    """
    plain = "_".join(re.split(r"[\s_-]+", word.strip().lower()))
    return ALSO_SAID.get(plain, plain).replace("_", "-")

"""What a bellows is made of: skins, sheets and rolls, and the five that are built in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from bellowscut.keys import COMMON_PRACTICE, FROM_MEMORY, INVENTED, PUBLISHED, Kind, key
from bellowscut.shapes import Point, signed_area
from bellowscut.units import MM2_PER_SQ_FT
from bellowscut.words import materials as words

SKIN = "skin"
SHEET = "sheet"
ROLL = "roll"
FORMS = (SKIN, SHEET, ROLL)

SKIN_AREA = 464_515.2
"""Area of a skin that nobody has measured, 5 sq ft [mm^2], invented."""

ROLL_LENGTH = 10_000.0
"""Length of a roll that nobody has measured [mm], invented."""

METRE = 1000.0
"""The piece that a roll is reckoned in [mm]."""

GRADE_SHARES: Mapping[str, float] = MappingProxyType({"A": 0.97, "B": 0.93, "C": 0.88, "D": 0.83, "E": 0.78, "F": 0.73})
"""Mean usable share of a skin by grade [-] (SATRA leather grading, published in footwear costing manuals)."""

PRICE_UNITS: Mapping[str, tuple[str, ...]] = MappingProxyType({SKIN: ("sq ft", "dm2", "m2"), SHEET: ("sq ft", "dm2", "m2"), ROLL: ("m",)})
"""What a price may be for, by form, beside one whole piece of a skin or sheet."""


@dataclass(frozen=True)
class Bar:
    """A place on a skin where a kind of part is not laid: its outline [mm]; ``gusset`` stands for every kind of gusset."""

    kind: str
    outline: tuple[Point, ...]


@dataclass(frozen=True)
class Material:
    """One material as bought.

    Parameters
    ----------
    name : str
        Name by which the parts ask for it.
    form : str
        ``skin``, ``sheet`` or ``roll``.
    thickness : float
        Thickness [mm].
    neutral : float
        Where the length stays when it is bent, as a share of the thickness from the inside [-].
    area : float or None
        Area of one skin [mm^2].
    outline : str, tuple of Point or None
        Outline of a skin: a tracing's file name, or points [mm].
    flaws : tuple
        Flaws of an outline: x, y and size [mm].
    clear : tuple of float or None
        The largest sound rectangle of a skin, two sides [mm].
    check_length : float or None
        True length of a tracing's check line [mm].
    size : tuple of float or None
        Two sides of a sheet, or width and length of a roll [mm].
    seen_from : str
        The side that a tracing shows, ``flesh`` or ``grain``.
    price : Decimal or None
        Price of `price_per`, in the currency of the profile.
    price_per : str or None
        ``sq ft``, ``dm2``, ``m2`` or ``m``; None for one whole skin or sheet, or without a price.
    grade : str or None
        ``A`` to ``F``.
    waste : float
        Share lost in cutting [per cent].
    backbone : float
        Direction of the backbone of a skin or the grain of a sheet, from the x axis of its outline [deg].
    belly : float or None
        Width of a band along either flank that gussets keep off [mm]; None for an eighth of a typical outline, nothing of a measured one.
    bars : tuple of Bar
        Other places that a kind of part keeps off.
    margin : float
        Left free along the edge [mm].
    gap : float
        Between neighbouring pieces, and between a piece and a flaw [mm].
    count : int or None
        How many skins, sheets or rolls there are; None for one with an outline, for as many as it takes without.
    shelf : tuple of Material
        Skins or sheets in hand, each as a material of its own; empty where there is only this one sort.
    """

    name: str
    form: str = key(Kind.CHOICE, words.FORM, choices=FORMS, also={"hide": SKIN, "board": SHEET}, required=True, example='"skin"')
    thickness: float = key(Kind.THICKNESS, words.THICKNESS, COMMON_PRACTICE, 0.02, 12, required=True, example='"0.4 mm"')
    neutral: float = key(Kind.NUMBER, words.NEUTRAL, PUBLISHED, 0.05, 1, default=0.5)
    area: float | None = key(
        Kind.AREA,
        words.AREA,
        INVENTED,
        MM2_PER_SQ_FT / 10,
        100 * MM2_PER_SQ_FT,
        only_for=(SKIN,),
        example='"5 sq ft"',
        worked_out=words.AREA_DEFAULT,
    )
    outline: str | tuple[Point, ...] | None = key(
        Kind.OUTLINE, words.OUTLINE, low=-5000, high=5000, only_for=(SKIN,), example='"tracing.svg"'
    )
    flaws: tuple[tuple[float, float, float], ...] = key(
        Kind.FLAWS, words.FLAWS, low=0.1, high=5000, only_for=(SKIN,), default=(), example="[[300, 200, 20]]"
    )
    clear: tuple[float, float] | None = key(Kind.PAIR, words.CLEAR, low=10, high=5000, only_for=(SKIN,), example='["700 mm", "400 mm"]')
    check_length: float | None = key(Kind.LENGTH, words.CHECK_LENGTH, low=1, high=5000, only_for=(SKIN,), example='"100 mm"')
    size: tuple[float, float] | None = key(
        Kind.SIZE,
        words.SIZE,
        low=10,
        high=100_000,
        only_for=(SHEET, ROLL),
        example='["1000 mm", "700 mm"]',
    )
    seen_from: str = key(Kind.CHOICE, words.SEEN_FROM, FROM_MEMORY, choices=("flesh", "grain"), only_for=(SKIN,), default="flesh")
    price: Decimal | None = key(Kind.MONEY, words.PRICE, low=0, high=1_000_000, example="11.50")
    price_per: str | None = key(
        Kind.CHOICE,
        words.PRICE_PER,
        choices=("sq ft", "dm2", "m2", "m"),
        also={"metre": "m"},
        example='"sq ft"',
        worked_out=words.PRICE_PER_DEFAULT,
    )
    grade: str | None = key(Kind.CHOICE, words.GRADE, choices=tuple(GRADE_SHARES), only_for=(SKIN,), example='"B"')
    waste: float = key(Kind.PER_CENT, words.WASTE, PUBLISHED, 0, 95, default=20.0)
    backbone: float = key(
        Kind.ANGLE,
        words.BACKBONE,
        COMMON_PRACTICE,
        -180,
        180,
        only_for=(SKIN, SHEET),
        default=0.0,
    )
    belly: float | None = key(
        Kind.LENGTH,
        words.BELLY,
        INVENTED,
        0,
        1000,
        only_for=(SKIN,),
        example='"60 mm"',
        worked_out=words.BELLY_DEFAULT,
    )
    bars: tuple[Bar, ...] = key(
        Kind.BARS,
        words.BARS,
        low=-5000,
        high=5000,
        only_for=(SKIN,),
        default=(),
        example='[{ kind = "gusset", outline = [[0, 0], [200, 0], [0, 150]] }]',
    )
    margin: float = key(Kind.LENGTH, words.MARGIN, INVENTED, 0, 200, default=5.0)
    gap: float = key(Kind.LENGTH, words.GAP, INVENTED, 0, 50, default=1.0)
    count: int | None = key(Kind.COUNT, words.COUNT, low=1, high=1000, example="2", worked_out=words.COUNT_DEFAULT)
    shelf: tuple[Material, ...] = ()

    @property
    def usable(self) -> float:
        """Share of the material that its grade promises [-]."""
        return GRADE_SHARES[self.grade] if self.grade else 1.0

    @property
    def sort(self) -> tuple[str, str, float]:
        """What makes it the same material in two profiles: name, form and thickness [mm]."""
        return self.name, self.form, self.thickness

    def piece_area(self) -> float:
        """Area of one skin or sheet, or of one metre of a roll [mm^2].

        A skin known only by the file of its tracing counts as `SKIN_AREA`.
        """
        if self.form == SKIN:
            if self.area is not None:
                return self.area
            if self.clear is not None:
                return self.clear[0] * self.clear[1]
            if self.outline is not None and not isinstance(self.outline, str):
                return abs(signed_area(self.outline))
            return SKIN_AREA
        assert self.size is not None
        return self.size[0] * (METRE if self.form == ROLL else self.size[1])


GREY_CARD = Material("grey card", form=SHEET, thickness=1.0, size=(1000.0, 700.0))
"""Common practice; sheet size from memory."""

GUSSET_SKIN = Material("gusset skin", form=SKIN, thickness=0.4, area=SKIN_AREA)
"""Common practice; area invented."""

STRIP_SKIN = Material("strip skin", form=SKIN, thickness=0.6, area=SKIN_AREA)
"""Common practice; area invented."""

COVER_SKIN = Material("cover skin", form=SKIN, thickness=0.15, area=SKIN_AREA)
"""Common practice, between 0.1 and 0.2 mm; area invented."""

LINEN = Material("linen", form=ROLL, thickness=0.2, size=(1000.0, ROLL_LENGTH))
"""That it is used is published; thickness and width from memory, length invented."""

FACING_PAPER = Material("facing paper", form=SHEET, thickness=0.15, size=(700.0, 500.0))
"""Invented."""

BUILT_IN: Mapping[str, Material] = MappingProxyType(
    {one.name: one for one in (GREY_CARD, GUSSET_SKIN, STRIP_SKIN, LINEN, FACING_PAPER, COVER_SKIN)}
)
"""Materials that a profile may use without a table of its own, by name."""

"""Rigid cards folding at a corner, and the leather between them.

Plain numbers in, plain numbers out, so that a book's example can be fed
straight in. Lengths in millimetres, angles in degrees. `stretch` is a card's
angle above the closed, flat state: 0 closed, at most 90.

The ridge polygon stays where it is; the valley moves out as the bellows opens.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from bellowscut.errors import Refusal
from bellowscut.shapes import rounded
from bellowscut.sources import CORNER_GAP_LEAST, CORNER_GAP_STEP, OVER_CENTRE_SHARE, VALLEY_EDGE_SPARE
from bellowscut.words import bellows as words, say


@dataclass(frozen=True)
class Cut:
    """What is left on round a corner's opening to make its gusset [mm].

    Parameters
    ----------
    lap, tip_lap : float
        On the card at the valley and at the ridge, square to the opening.
    ridge_turn : float
        Past the ridge.
    tip_radius, point_radius : float
        Rounding of the tips, and of the points at the valley.
    """

    lap: float
    tip_lap: float
    ridge_turn: float
    tip_radius: float = 0.0
    point_radius: float = 0.0

    def rounded_off(self, half_width: float, tip: float, top: float) -> float:
        """What rounding takes off half the width of a sharp diamond [mm].

        Parameters
        ----------
        half_width, tip : float
            Half its width at the valley and at its end [mm].
        top : float
            Half its length [mm].
        """
        points = ((half_width, 0.0), (tip, top), (-tip, top), (-half_width, 0.0), (-tip, -top), (tip, -top))
        _, radii = rounded(points, (self.point_radius, *(self.tip_radius,) * 2, self.point_radius, *(self.tip_radius,) * 2))
        # An arc that touches both edges of a point of slope p ends r (1 / cos p - 1) short of it.
        return radii[0] * (math.hypot(1, (half_width - tip) / top) - 1)

    def sharp(self, width: float, tip: float, top: float) -> float:
        """Half the width of the sharp diamond inside a rounded piece of that width [mm]; no less than its end."""
        half_width = max(width / 2, tip)
        for _ in range(SHARPENED):
            before, half_width = half_width, max(width / 2 + self.rounded_off(half_width, tip, top), tip)
            if math.isclose(before, half_width, abs_tol=1e-12):
                break
        return half_width


SHARPENED = 200
"""Most rounds of finding a sharp point [-]; each brings it at least twice as near, and mostly a hundred times."""

TIP_LEFT = 0.1
"""Half the width that is left at the end of a gusset whose cards would bring its edges together before it [mm]."""


@dataclass(frozen=True)
class Corner:
    """How two neighbouring sides' cards meet at one corner of the section.

    Parameters
    ----------
    turn : float
        Turn of the section at this corner [deg].
    depth : float
        Fold depth, ridge line to valley line [mm].
    gap : float
        Distance of the two cards at the ridge [mm].
    relief : float
        What each leg leans in beyond the mitre that would just close [deg].
    """

    turn: float
    depth: float
    gap: float
    relief: float

    @property
    def half_turn(self) -> float:
        """Half the turn [rad]."""
        return math.radians(self.turn) / 2

    @property
    def lean(self) -> float:
        """How far a leg leans from square to the ridge [rad]."""
        return self.half_turn + math.radians(self.relief)

    @property
    def cut_back(self) -> float:
        """How far a card's ridge edge stops short of the corner of the section [mm]."""
        return self.gap / (2 * math.cos(self.half_turn))

    @property
    def leg(self) -> float:
        """Length of a card's leg from ridge line to valley line [mm]."""
        return self.depth / math.cos(self.lean)

    @property
    def ridge_angle(self) -> float:
        """Angle to which the card is cut at the ridge [deg]."""
        return 90 - math.degrees(self.lean)

    def opening(self, stretch: float) -> float:
        """Gap between the two cards at the valley [mm] at a stretch [deg]."""
        inward = self.depth * math.cos(math.radians(stretch)) * math.tan(self.half_turn)
        return 2 * math.cos(self.half_turn) * (self.cut_back + self.depth * math.tan(self.lean) - inward)

    def half_height(self, stretch: float) -> float:
        """Height of the flat half gusset at a stretch [mm]: valley line to ridge line."""
        rise = (self.opening(stretch) - self.gap) / 2
        return math.sqrt(max(0.0, self.leg**2 - rise**2))

    def stretch_for_opening(self, opening: float) -> float:
        """The stretch at which the valley gap is `opening` [mm].

        Returns
        -------
        float
            Stretch [deg]; 90 where the leather would allow more.

        Raises
        ------
        Refusal
            Below the gap that is left when the bellows is closed.
        """
        closed, widest = self.opening(0), self.opening(90)
        if opening < closed - 1e-9:
            raise Refusal(
                "opening",
                opening,
                say(words.OPENING_TOO_SMALL, closed=f"{closed:.2f}", widest=f"{widest:.2f}"),
            )
        if opening >= widest:
            return 90.0
        still = 2 * math.cos(self.half_turn) * (self.cut_back + self.depth * math.tan(self.lean))
        cosine = (still - opening) / (2 * self.depth * math.sin(self.half_turn))
        return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))

    def gusset_edge(self, stretch: float, lap: float, tip_lap: float) -> tuple[float, float]:
        """The straight cut edge of the gusset made for a stretch [deg].

        Parameters
        ----------
        stretch : float
            Card angle at full extension [deg].
        lap, tip_lap : float
            Lap on the card at the valley and at the ridge, square to the opening [mm].

        Returns
        -------
        half_width : float
            Distance of the edge from the centre line at the valley line [mm].
        slope : float
            How much nearer it comes for each mm towards the ridge [-].
        """
        wide, height = self.opening(stretch), self.half_height(stretch)
        taper = math.atan2((wide - self.gap) / 2, height)
        across, along = math.cos(taper), math.sin(taper)
        valley = (wide / 2 + lap * across, lap * along)
        ridge = (self.gap / 2 + tip_lap * across, height + tip_lap * along)
        slope = (valley[0] - ridge[0]) / (ridge[1] - valley[1])
        return valley[0] + valley[1] * slope, slope

    def stretch_for_gusset(self, width: float, lap: float, tip_lap: float) -> float:
        """The stretch that a gusset of this width allows [deg].

        Parameters
        ----------
        width : float
            Greatest width of the cut gusset, at the valley line [mm].
        lap, tip_lap : float
            Its laps on the card [mm].

        Returns
        -------
        float
            Stretch [deg]; 90 where the gusset is wider than any opening needs.

        Raises
        ------
        Refusal
            Narrower than the closed corner needs.
        """

        def width_at(stretch: float) -> float:
            return 2 * self.gusset_edge(stretch, lap, tip_lap)[0]

        least, most = width_at(0), width_at(90)
        if width < least - 1e-9:
            raise Refusal(
                "gusset_width",
                width,
                say(words.GUSSET_TOO_NARROW, least=f"{least:.2f}", most=f"{most:.2f}"),
            )
        if width >= most:
            return 90.0
        return _where_full(lambda stretch: width - width_at(stretch))

    def own_gusset(self, stretch: float, size: tuple[float, float], cut: Cut) -> tuple[float, float]:
        """The straight cut edge of a gusset of which only the size is known, where these cards open to a stretch.

        Its end is as wide as that of a gusset made for these cards.

        Parameters
        ----------
        stretch : float
            Card angle at full extension [deg].
        size : tuple of float
            Greatest width and length of the piece as cut, its points rounded [mm].
        cut : Cut
            Laps, turn and radii.

        Returns
        -------
        half_width : float
            Distance of the edge from the centre line at the valley line [mm], were the point not rounded.
        slope : float
            How much nearer it comes for each mm towards the ridge [-].
        """
        half_width, tip, _ = self._sharp(stretch, cut)
        top = size[1] / 2
        half_width = cut.sharp(size[0], min(tip, size[0] / 2), top)
        return half_width, (half_width - min(tip, half_width)) / top

    def stretch_for_own(self, size: tuple[float, float], cut: Cut) -> float:
        """The stretch that a gusset allows of which only the size is known [deg].

        Parameters
        ----------
        size : tuple of float
            Greatest width and length of the piece as cut, its points rounded [mm].
        cut : Cut
            Laps, turn and radii.

        Returns
        -------
        float
            Stretch [deg]; 90 where it is wider than any opening needs.

        Raises
        ------
        Refusal
            Narrower than the closed corner needs.
        """

        def spare(stretch: float) -> float:
            return self.own_gusset(stretch, size, cut)[0] - self.gusset_edge(stretch, cut.lap, cut.tip_lap)[0]

        if spare(0) < -1e-9:
            least, most = (2 * (half - cut.rounded_off(half, tip, top)) for half, tip, top in (self._sharp(t, cut) for t in (0, 90)))
            raise Refusal("gusset_width", size[0], say(words.GUSSET_TOO_NARROW, least=f"{least:.2f}", most=f"{most:.2f}"))
        return 90.0 if spare(90) >= 0 else _where_full(spare)

    def _sharp(self, stretch: float, cut: Cut) -> tuple[float, float, float]:
        """Half width at the valley, half width at the end, and half length of the gusset for a stretch, not rounded [mm]."""
        half_width, slope = self.gusset_edge(stretch, cut.lap, cut.tip_lap)
        top = self.half_height(stretch) + cut.ridge_turn
        tip = half_width - slope * top
        return half_width, tip if tip > 0 else TIP_LEFT, top

    def relief_for_leather(self, thickness: float) -> float:
        """Relief that gives folded gusset leather room when closed [deg]; negative when there is room to spare."""
        room = (4 * thickness - self.gap) / (self.depth * math.cos(self.half_turn))
        return math.degrees(math.atan(math.tan(self.half_turn) + room) - self.half_turn)

    def over_centre(self, stretch: float) -> bool:
        """Whether the corner is so nearly straight at this stretch [deg] that it may turn inside out."""
        left = 2 * self.depth * math.sin(self.half_turn) * math.cos(math.radians(stretch))
        return left < self.gap + OVER_CENTRE_SHARE.value * self.opening(stretch)

    def gap_after_rounding(self, radius: float) -> float:
        """Gap of two cards at the ridge once their points are rounded to `radius` [mm]."""
        reach = radius / math.tan(math.radians(self.ridge_angle) / 2)
        return self.gap + 2 * math.cos(self.half_turn) * reach


def _where_full(spare: Callable[[float], float]) -> float:
    """The stretch [deg] at which a gusset has no width to spare any more."""
    low, high = 0.0, 90.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if spare(middle) > 0 else (low, middle)
    return (low + high) / 2


def default_corner_gap(turns: Sequence[float], card: float) -> float:
    """The larger of 1 mm and what cards of thickness `card` [mm] need at the sharpest turn, up to 0.1 [mm]."""
    step = CORNER_GAP_STEP.value
    needed = max(CORNER_GAP_LEAST.value, gap_that_clears(turns, card))
    return round(math.ceil(round(needed / step, 6)) * step, 6)


def gap_that_clears(turns: Sequence[float], card: float) -> float:
    """Least corner gap at which cards of thickness `card` [mm] do not collide [mm]."""
    return 2 * math.sin(math.radians(max(turns)) / 2) * card


def relief_for_closed_gap(turns: Sequence[float], depth: float, gap: float, closed_gap: float) -> float:
    """One relief for all corners, such that the smallest closed valley gap is `closed_gap`.

    Parameters
    ----------
    turns : sequence of float
        Turn at each corner [deg].
    depth, gap, closed_gap : float
        Fold depth, corner gap and wanted gap at the valley [mm].

    Returns
    -------
    float
        Relief [deg].

    Raises
    ------
    Refusal
        A closed gap below the corner gap.
    """
    if closed_gap < gap:
        raise Refusal("closed_gap", closed_gap, say(words.CLOSED_GAP_TOO_SMALL, gap=f"{gap:.2f}"))
    found = []
    for turn in turns:
        half = math.radians(turn) / 2
        found.append(math.degrees(math.atan(math.tan(half) + (closed_gap - gap) / (2 * depth * math.cos(half))) - half))
    return max(found)


def lean_of_card(ridge_edge: float, valley_edge: float, depth: float, turns: tuple[float, float]) -> float:
    """How far the legs of a card lean from square to the ridge, the mean of its two.

    With legs alike, atan((ridge edge - valley edge) / (2 depth)). Where the two turns differ, both legs have one relief, so
    that they lean half the difference of the half turns to either side of their mean.

    Parameters
    ----------
    ridge_edge, valley_edge : float
        Of the card, at the fold lines and to its sharp corners [mm].
    depth : float
        Fold depth [mm].
    turns : tuple of float
        Of the section at its two ends [deg].

    Returns
    -------
    float
        Lean [deg]; half the sum of the half turns less is the relief.
    """
    taper = (ridge_edge - valley_edge) / depth
    apart = math.cos(math.radians(turns[0] - turns[1]) / 2)
    # tan(m + x) + tan(m - x) = 2 sin 2m / (cos 2m + cos 2x), solved for the mean m.
    return math.degrees(math.atan2(taper, 2) + math.asin(taper * apart / math.hypot(taper, 2))) / 2


def gap_of_card(side: float, ridge_edge: float, turns: tuple[float, float]) -> float:
    """Corner gap that a ridge edge leaves on its side [mm]; negative where the edge is longer than the side.

    Parameters
    ----------
    side : float
        Ridge line from corner to corner [mm].
    ridge_edge : float
        Of the card, at the fold line and to its sharp corners [mm].
    turns : tuple of float
        Of the section at its two ends [deg].
    """
    return 2 * (side - ridge_edge) / sum(1 / math.cos(math.radians(turn) / 2) for turn in turns)


def card_edges(side: float, before: Corner, after: Corner, at: float = 0.0) -> tuple[float, float]:
    """Where a card's legs stand at a distance from the ridge line.

    Parameters
    ----------
    side : float
        Length of the ridge line from corner to corner [mm].
    before, after : Corner
        Its two corners.
    at : float
        Distance from the ridge line [mm].

    Returns
    -------
    tuple of float
        Left and right end, measured from the corner before [mm].
    """
    left = before.cut_back + at * math.tan(before.lean)
    right = side - after.cut_back - at * math.tan(after.lean)
    return left, right


def card_width(side: float, before: Corner, after: Corner, at: float = 0.0) -> float:
    """Width of a card between its legs at a distance `at` from the ridge line [mm]."""
    left, right = card_edges(side, before, after, at)
    return right - left


def depth_limit(side: float, before: Corner, after: Corner, lap: float) -> float:
    """Fold depth at which two gusset laps leave no card between them at the valley [mm].

    Parameters
    ----------
    side : float
        Ridge line of the side [mm].
    before, after : Corner
        Its corners; their depth does not matter.
    lap : float
        Gusset lap [mm].
    """
    laps = lap / math.cos(before.lean) + lap / math.cos(after.lean)
    return (card_width(side, before, after) - laps - VALLEY_EDGE_SPARE.value) / (math.tan(before.lean) + math.tan(after.lean))


def open_length(cards: int, depth: float, stretch: float) -> float:
    """Length between the frames when every card stands at `stretch` [deg]: cards a side x depth x sin [mm]."""
    return cards * depth * math.sin(math.radians(stretch))


def length_per_gusset_width(cards: int, turns: Sequence[float], stretch: float) -> float:
    """Length that 1 mm of gusset width is worth [mm/mm], at the corner where it is worth most."""
    return max(cards / math.tan(math.radians(stretch)) / (2 * math.sin(math.radians(turn) / 2)) for turn in turns)


def half_fold_volume(area: float, perimeter: float, corners: Sequence[Corner], stretch: float) -> float:
    """Air inside one card's height, less what the gussets cut off the corners.

    Parameters
    ----------
    area, perimeter : float
        Ridge polygon [mm^2], [mm].
    corners : sequence of Corner
        All corners of the section.
    stretch : float
        Card angle [deg].

    Returns
    -------
    float
        Volume [mm^3].

    References
    ----------
    Prismoid (Simpson's) rule, exact for a quadratic section; source key ``mensuration``.
    """
    depth = corners[0].depth
    angle = math.radians(stretch)
    tangents = sum(math.tan(corner.half_turn) for corner in corners)

    def inset_area(inward: float) -> float:
        return area - perimeter * inward + tangents * inward * inward

    inward, height = depth * math.cos(angle), depth * math.sin(angle)
    volume = height * (inset_area(0) + 4 * inset_area(inward / 2) + inset_area(inward)) / 6
    for corner in corners:
        gap, wide = corner.gap, corner.opening(stretch)
        volume -= height * math.tan(corner.half_turn) * (gap * gap + gap * wide + wide * wide) / 12
    return volume


def stretch_for_travel(travel: float, closed: float, cards: int, depth: float) -> float:
    """The stretch that gives a travel.

    Parameters
    ----------
    travel, closed : float
        Wanted travel and closed length [mm].
    cards : int
        Cards down one side [-].
    depth : float
        Fold depth [mm].

    Returns
    -------
    float
        Stretch [deg].

    Raises
    ------
    Refusal
        More travel than cards standing square would give.
    """
    sine = (travel + closed) / (cards * depth)
    if sine > 1:
        most = f"{cards * depth - closed:.1f}"
        raise Refusal("travel", travel, say(words.TRAVEL_OF_CARDS, cards=cards, depth=f"{depth:g}", most=most))
    return math.degrees(math.asin(sine))


def depth_for_travel(travel: float, closed: float, cards: int, stretch: float, limit: float) -> float:
    """The fold depth that gives a travel at a stretch [deg].

    Raises
    ------
    Refusal
        A depth at or past `limit` [mm], see `depth_limit`.
    """
    depth = (travel + closed) / (cards * math.sin(math.radians(stretch)))
    if depth >= limit:
        most = limit * cards * math.sin(math.radians(stretch)) - closed
        raise Refusal(
            "travel",
            travel,
            say(words.TRAVEL_OF_DEPTH, depth=f"{depth:.2f}", limit=f"{limit:.2f}", most=f"{most:.1f}"),
        )
    return depth


def depth_for_opening(travel: float, closed: float, cards: int, corner: Corner, opening: float, limit: float) -> float:
    """The smaller fold depth at which existing gussets give a travel.

    With the valley gap fixed by old gussets, deeper folds first gain and then
    lose length; past the peak there is nothing to be had.

    Parameters
    ----------
    travel, closed : float
        Wanted travel and closed length [mm].
    cards : int
        Cards down one side [-].
    corner : Corner
        The corner; its depth does not matter.
    opening : float
        Valley gap that the gusset spans, laps taken off [mm].
    limit : float
        Depth limit of the section [mm].

    Returns
    -------
    float
        Fold depth [mm].

    Raises
    ------
    Refusal
        More travel than these gussets give at any depth.
    """

    def at(depth: float) -> Corner:
        return Corner(corner.turn, depth, corner.gap, corner.relief)

    # With x = (opening - gap)/2 the closed gap alone reaches the opening at the deepest fold there is.
    growth = 2 * math.cos(corner.half_turn) * (math.tan(corner.lean) - math.tan(corner.half_turn))
    deepest = limit if growth <= 0 else min(limit, (opening - corner.gap) / growth)
    square = (opening - corner.gap) / (2 * math.cos(corner.half_turn) * math.tan(corner.lean))

    def length(depth: float) -> float:
        return open_length(cards, depth, at(depth).stretch_for_opening(opening))

    low, high = min(square, deepest), deepest * (1 - 1e-12)
    for _ in range(100):
        a, b = low + (high - low) / 3, high - (high - low) / 3
        low, high = (a, high) if length(a) < length(b) else (low, b)
    peak = (low + high) / 2
    wanted = travel + closed
    if length(peak) < wanted:
        message = say(words.TRAVEL_OF_GUSSETS, most=f"{length(peak) - closed:.1f}", depth=f"{peak:.2f}")
        raise Refusal("travel", travel, message)
    low, high = 0.0, peak
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if middle <= 0 or length(middle) < wanted else (low, middle)
    return (low + high) / 2

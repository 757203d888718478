"""The whole layout: every piece of one or several instruments on stock, checked by other code, with what it comes to."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from bellowscut.bellows import Bellows
from bellowscut.errors import LayoutError, UsageError
from bellowscut.materials import ROLL, SKIN, Material
from bellowscut.nesting.model import Result
from bellowscut.nesting.verify import faults
from bellowscut.parts.part import Part
from bellowscut.shapes import turn_by
from bellowscut.stock.cost import cost, used_area
from bellowscut.stock.fit import Filled, Fit, expanded, fit
from bellowscut.stock.leftover import leftover
from bellowscut.stock.model import Laid, Layout, Leftover, Need, Polygon, StockPiece
from bellowscut.stock.orders import Group, groups, net_area, orders, stock
from bellowscut.stock.outlines import Sort, sorts
from bellowscut.stock.refusals import refuse_long_roll, refuse_misfits, too_little
from bellowscut.stock.scarf import SCARF, longest, split
from bellowscut.stock.sets import most_sets, one_set
from bellowscut.stock.shelf import cheapest
from bellowscut.units import both
from bellowscut.words import count, say, stock as words

Progress = Callable[[float], None]


@dataclass(frozen=True)
class Instrument:
    """One profile of a layout.

    Parameters
    ----------
    bellows : Bellows
        The bellows.
    parts : tuple of Part
        What its job cuts.
    """

    bellows: Bellows
    parts: tuple[Part, ...]


@dataclass(frozen=True)
class _Pool:
    """Everything that is cut from one material."""

    material: Material
    sorts: tuple[Sort, ...]
    groups: tuple[Group, ...]
    charge: str
    digits: int


def lay(instruments: Sequence[Instrument], seconds: float, progress: Progress | None = None) -> tuple[Layout, tuple[Need, ...]]:
    """Lay out every piece, copies and spares too.

    Parameters
    ----------
    instruments : sequence of Instrument
        One or several; materials of one name and thickness are cut from the same stock, described by the first.
    seconds : float
        How long the search may take in all, about [s]. It is turned into counted work, so that the load of the machine changes nothing.
    progress : callable or None
        Told the share that is done [-].

    Returns
    -------
    Layout
        Verified.
    tuple of Need
        What each material comes to.

    Raises
    ------
    LayoutError
        When pieces find no place.
    ProfileError
        For stock that cannot be used.
    """
    pools = _pools(instruments)
    weights = [_weight(pool) for pool in pools]
    done = 0.0
    stock_pieces: list[StockPiece] = []
    needs: list[Need] = []
    notes: list[str] = []
    methods: list[str] = []
    problems: list[str] = []
    for pool, weight in zip(pools, weights, strict=True):
        share = weight / sum(weights)
        told = _part_of(progress, done, share)
        try:
            found, more, said = _lay_pool(pool, seconds * share, told, len(stock_pieces))
        except LayoutError as error:
            problems += error.lines()
            continue
        done += share
        stock_pieces += [piece for _, piece in found]
        needs.append(_need(pool, found))
        notes += more
        methods.append(f"{pool.material.name}: {said}")
    if problems:
        raise LayoutError(problems)
    profiles = [one.bellows.profile for one in instruments]
    layout = Layout(
        tuple(stock_pieces),
        "; ".join(methods),
        tuple(profile.name for profile in profiles),
        tuple(profile.fingerprint for profile in profiles),
        tuple(notes),
    )
    return layout, tuple(needs)


def lay_sets(instrument: Instrument, kind: str, seconds: float, progress: Progress | None = None) -> tuple[Layout, tuple[Need, ...]]:
    """Fill each skin or sheet that there is with whole sets of a kind, to see how many it gives.

    Parameters
    ----------
    instrument : Instrument
        Profile and parts.
    kind : str
        Name of the kind; a set of gussets has those of the ends as well.
    seconds : float
        How long the search may take, about [s].
    progress : callable or None
        Told the share that is done [-].

    Returns
    -------
    Layout, tuple of Need
        One piece of each sort of stock, verified; its notes say how many sets each gives.

    Raises
    ------
    UsageError
        When nothing of the kind is made, or it is cut from a roll.
    """
    profile = instrument.bellows.profile
    parts = one_set(instrument.parts, kind, profile.copies)
    material = profile.materials[parts[0].material]
    if material.form == ROLL:
        raise UsageError(say(words.SETS_OF_ROLL, kind=kind, material=material.name))
    pool = _Pool(material, sorts(profile, material.name), (), profile.costs.charge, profile.costs.digits)
    found: list[tuple[Sort, StockPiece]] = []
    notes: list[str] = []
    pieces = sum(part.count for part in parts)
    for k, sort in enumerate(pool.sorts):
        told = _part_of(progress, k / len(pool.sorts), 1 / len(pool.sorts))
        pool = replace(pool, groups=tuple(groups(parts, 1, "", profile.gusset.off_grain, material.form)))
        wanted, more = _scarfed(replace(pool, sorts=(sort,)))
        most, filled = most_sets(sort, wanted[0], seconds / len(pool.sorts), told)
        notes += [count(most, words.GIVES_ONE_SET, words.GIVES_SETS, material=sort.material.name, pieces=pieces, kind=kind), *more]
        if filled is not None:
            fitted = Fit((filled,), (), say(words.MANY_SETS), True)
            _judge(wanted * most, fitted)
            found += _pieces(pool, wanted, fitted, len(found))
            notes += [note for note in _notes(pool, fitted) if note not in notes]
    layout = Layout(tuple(piece for _, piece in found), say(words.MANY_SETS), (profile.name,), (profile.fingerprint,), tuple(notes))
    return layout, (_need(pool, found),) if found else ()


def _weight(pool: _Pool) -> float:
    """Share of the search that a material gets: more for more pieces, something for all [-]."""
    return 8.0 + sum(one.count for group in pool.groups for one in group)


def _part_of(progress: Progress | None, done: float, share: float) -> Progress | None:
    if progress is None:
        return None
    return lambda part: progress(done + share * part)


def _pools(instruments: Sequence[Instrument]) -> list[_Pool]:
    """Materials in cutting order, each with the bellows that need it."""
    found: dict[tuple[str, str, float], list[Group]] = {}
    first: dict[tuple[str, str, float], Instrument] = {}
    for number, one in enumerate(instruments, 1):
        profile = one.bellows.profile
        for name in dict.fromkeys(part.material for part in one.parts):
            material = profile.materials[name]
            first.setdefault(material.sort, one)
            mine = [part for part in one.parts if part.material == name and part.pieces]
            told = str(number) if len(instruments) > 1 else ""
            found.setdefault(material.sort, []).extend(groups(mine, profile.copies, told, profile.gusset.off_grain, material.form))
    pools = []
    for key, wanted in found.items():
        profile = first[key].bellows.profile
        pools.append(_Pool(profile.materials[key[0]], sorts(profile, key[0]), tuple(wanted), profile.costs.charge, profile.costs.digits))
    return pools


def _lay_pool(pool: _Pool, seconds: float, progress: Progress | None, before: int) -> tuple[list[tuple[Sort, StockPiece]], list[str], str]:
    """One material: its stock, what to know, and how it was found."""
    wanted, notes = _scarfed(pool)
    refuse_misfits(pool.material, pool.sorts, wanted)
    stocks = expanded(pool.sorts, net_area(wanted))
    fitted = cheapest(stocks, wanted, seconds) if pool.material.shelf else fit(stocks, wanted, seconds, progress)
    if fitted.unplaced:
        raise LayoutError([too_little(pool.material, wanted, fitted)])
    _judge(wanted, fitted)
    found = _pieces(pool, wanted, fitted, before)
    notes += _notes(pool, fitted)
    if pool.material.form == ROLL:
        refuse_long_roll(pool.material, [piece for _, piece in found])
    return found, notes, fitted.method


def _scarfed(pool: _Pool) -> tuple[list[Group], list[str]]:
    """The groups with strips that are longer than any stock split into lengths."""
    one_each = [stock(sort, str(k)) for k, sort in enumerate(pool.sorts)]
    lengths: dict[str, tuple[Part, ...]] = {}
    notes = []
    for one in {one.id: one for group in pool.groups for one in group}.values():
        if not one.part.strip:
            continue
        turns = (-one.part.grain % 180, -one.part.grain % 180 + 180)
        most = longest(one_each, one.part, turns)
        if most > 3 * SCARF:
            lengths[one.id] = split(one.part, most)
        if len(lengths.get(one.id, ())) > 1:
            strips = sum(same.count for group in pool.groups for same in group if same.id == one.id)
            notes.append(
                say(
                    words.SCARFED_FROM_SKIN if pool.material.form == SKIN else words.SCARFED_FROM_SHEET,
                    part=one.part.name,
                    id=one.id,
                    most=both(round(most)),
                    count=strips,
                    lengths=len(lengths[one.id]),
                    joints=strips * (len(lengths[one.id]) - 1),
                    scarf=f"{SCARF:g}",
                )
            )
    wanted = [tuple(replace(one, part=part) for one in group for part in lengths.get(one.id, (one.part,))) for group in pool.groups]
    return wanted, notes


def _judge(wanted: Sequence[Group], fitted: Fit) -> None:
    """Verify with the parts' own outlines, where the stock lies level; a fault is one of the program."""
    levelled = []
    for k, filled in enumerate(fitted.filled):
        back = turn_by(-filled.sort.backbone)
        for one in filled.placements:
            x, y = back((one.x, one.y))
            levelled.append(replace(one, stock=str(k), turn=one.turn - filled.sort.backbone, x=x, y=y))
    stocks = [stock(filled.sort, str(k)) for k, filled in enumerate(fitted.filled)]
    lengths = tuple((str(k), filled.length) for k, filled in enumerate(fitted.filled) if filled.length is not None)
    broken = faults(stocks, orders(wanted, exact=True), Result(tuple(levelled), (), (), lengths, fitted.method))
    if broken:
        raise RuntimeError(say(words.LAYOUT_BREAKS_A_RULE, rule=broken[0]))


def _pieces(pool: _Pool, wanted: Sequence[Group], fitted: Fit, before: int) -> list[tuple[Sort, StockPiece]]:
    by_id = {one.id: one for group in wanted for one in group}
    numbers: dict[str, int] = {}
    found = []
    # Many sheets of a large order are filled alike.
    known: dict[object, Leftover] = {}
    for k, filled in enumerate(fitted.filled, before + 1):
        laid = []
        for one in filled.placements:
            numbers[one.part] = numbers.get(one.part, 0) + 1
            which = by_id[one.part]
            laid.append(Laid(which.part, which.instrument, numbers[one.part], one.turn % 360, one.x, one.y))
        sort, alike = filled.sort, tuple((one.part, one.turn, one.x, one.y) for one in filled.placements)
        outline = _outline(filled)
        key = (outline, sort.flaws, sort.backbone, sort.material.gap, alike)
        if key not in known:
            known[key] = leftover(outline, sort.flaws, [one.points() for one in laid], sort.material.gap, sort.backbone)
        found.append((sort, _piece(pool, filled, tuple(laid), f"stock-{k}", known[key])))
    return found


def _outline(filled: Filled) -> Polygon:
    """Of a roll the length used, of anything else its own [mm]."""
    width, length = filled.sort.width, filled.length or 0.0
    return filled.sort.outline if width is None else ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))


def _piece(pool: _Pool, filled: Filled, laid: tuple[Laid, ...], name: str, left: Leftover) -> StockPiece:
    sort = filled.sort
    own, common = sort.material.name, pool.material.name
    return StockPiece(
        name,
        replace(sort.material, name=common),
        common if own == common else f"{common}: {own}",
        _outline(filled),
        sort.flaws,
        sort.bars,
        sort.backbone,
        sort.typical,
        laid,
        left,
        filled.length,
    )


def _notes(pool: _Pool, fitted: Fit) -> list[str]:
    name, form = pool.material.name, pool.material.form
    notes = []
    if form == SKIN and len(fitted.filled) > 1 and not fitted.whole:
        notes.append(say(words.COLOUR_MAY_DIFFER, material=name, number=len(fitted.filled)))
    if any(filled.sort.typical for filled in fitted.filled):
        notes.append(say(words.USUAL_OUTLINE, material=name))
    return notes


def _need(pool: _Pool, found: Sequence[tuple[Sort, StockPiece]]) -> Need:
    pieces = tuple(piece for _, piece in found)
    return Need(
        pool.material,
        pieces,
        sum(piece.pieces_area for piece in pieces),
        sum(map(used_area, pieces)),
        cost(found, pool.charge, pool.digits),
    )

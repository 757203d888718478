"""How many of each part there are, counted by walking along the fold lines of one side."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from hypothesis import given
from shapely import Polygon
from shapely.affinity import scale

from bellowscut.bellows import Bellows
from bellowscut.parts import JOBS, KINDS, Part, make_parts
from bellowscut.shapes import FLATTEN
from tests.invariants.instruments import Instrument, instruments


def fold_lines(folds: int, ends: str) -> list[str]:
    """The fold lines from frame to frame; the frame's own edge is one of them."""
    between = ["ridge", "valley"] * folds
    if ends == "ridge":
        return ["frame ridge", "valley", *between, "frame ridge"]
    return ["frame valley", *between[:-1], "frame valley"]


def counted(bellows: Bellows) -> Counter[str]:
    """Pieces by kind for one bellows, as one would count them on it."""
    profile = bellows.profile
    lines = fold_lines(profile.bellows.folds, profile.bellows.ends)
    sides = bellows.section.count
    found: Counter[str] = Counter()
    for line, after in pairwise(lines):
        assert line.endswith("ridge") != after.endswith("ridge"), "ridges and valleys take turns"
        found["card"] += sides
    for i, line in enumerate(lines):
        if line == "frame valley":
            found["half-gusset"] += sides
        elif line == "valley":
            at_frame = "frame ridge" in lines[i - 1 : i + 2] and profile.gusset.ridge_turn != profile.gusset.frame_turn
            found["end-gusset" if at_frame else "gusset"] += sides
            found["hinge"] += sides
            found["valley-strip"] += sides
        elif line == "ridge":
            found["edge-strip"] += sides if profile.edge_strip.run == "per-side" else 1
            found["hinge"] += sides
            found["ridge-cloth"] += sides
        if line.startswith("frame"):
            found["end-strip"] += 1
            found["frame-hinge"] += sides
    found["corner-patch"] = sides
    if profile.facing is not None:
        pairs = lines.count("valley") * sides if profile.facing.span == "pair" else 0
        found["facing"] = found["card"] - pairs
    if profile.card.build == "run":
        found["card-run"] = sides
        del found["card"]
    for kind, spec in (
        ("frame-hinge", profile.frame_hinge),
        ("valley-strip", profile.valley_strip),
        ("ridge-cloth", profile.ridge_cloth),
        ("corner-patch", profile.corner_patch),
    ):
        if spec is None:
            del found[kind]
    return +found


def by_kind(parts: tuple[Part, ...]) -> Counter[str]:
    found: Counter[str] = Counter()
    for part in parts:
        found[part.kind] += part.count
    return found


@given(instruments())
def test_pieces_are_as_many_as_one_counts_on_the_bellows(instrument: Instrument) -> None:
    bellows = instrument.build()
    copies = bellows.profile.copies
    assert by_kind(make_parts(bellows)) == Counter({kind: number * copies for kind, number in counted(bellows).items()})
    lines = fold_lines(bellows.folds, bellows.profile.bellows.ends)
    assert bellows.cards_per_side == len(lines) - 1
    assert bellows.valleys == lines.count("valley")


@given(instruments(options=False))
def test_equal_turns_make_end_gussets_plain_ones(instrument: Instrument) -> None:
    turn = instrument.tables["gusset"]["ridge_turn"]
    bellows = instrument.changed("gusset", frame_turn=turn).build()
    kinds = by_kind(make_parts(bellows))
    assert "end-gusset" not in kinds
    assert kinds["gusset"] == bellows.valleys * bellows.section.count


@given(instruments())
def test_every_side_and_corner_is_served_once_by_each_kind(instrument: Instrument) -> None:
    """Letters are spread over the distinct parts of a kind without loss or repeat; whole strips have none."""
    bellows = instrument.build()
    groups: dict[str, list[Part]] = {}
    for part in make_parts(bellows):
        name = part.id.removesuffix("-pair").removesuffix("-left").removesuffix("-right")
        if part.kind != "facing":
            groups.setdefault(
                "-".join(name.split("-")[: 2 if part.kind == "hinge" else 9]) if part.kind == "hinge" else part.kind, []
            ).append(part)
        assert not (part.sides and part.corners)
    for parts in groups.values():
        sides = sorted(side for part in parts for side in part.sides)
        corners = sorted(corner for part in parts for corner in part.corners)
        if parts[0].kind in ("gusset", "end-gusset", "half-gusset", "corner-patch"):
            assert (sides, corners) == ([], sorted(bellows.section.corner_names))
        elif parts[0].kind == "end-strip" or (parts[0].kind == "edge-strip" and bellows.profile.edge_strip.run == "whole"):
            assert (sides, corners) == ([], [])
        else:
            assert (sides, corners) == (sorted(bellows.section.side_names), [])


@given(instruments())
def test_facings_come_in_two_hands_where_cards_do(instrument: Instrument) -> None:
    """As many of one hand as of the other, each the mirror image of the other; one part where the card is its own mirror image."""
    bellows = instrument.changed("facing", span="card").build()
    per_side = bellows.cards_per_side * bellows.profile.copies
    parts = [part for part in make_parts(bellows) if part.kind == "facing"]
    assert not any(part.id.endswith("-pair") for part in parts)
    for part in parts:
        assert part.count % (per_side // 2) == 0
        assert len(part.sides) <= part.count // (per_side // 2) <= 2 * len(part.sides)
    for letter in bellows.section.side_names:
        mine = [part for part in parts if letter in part.sides]
        # One part that serves both hands, or one of each: then the two are mirror images to the tolerance of grouping.
        assert len(mine) in (1, 2)
        first, other = (Polygon(part.points) for part in (mine[0], mine[-1]))
        assert first.hausdorff_distance(scale(other, -1, 1, origin=(0, 0))) < 4 * FLATTEN
    assert sum(part.count for part in parts) == per_side * bellows.section.count


@given(instruments(("regular",)))
def test_a_regular_bellows_has_one_part_of_each_sort(instrument: Instrument) -> None:
    parts = make_parts(instrument.build())
    assert len({part.id for part in parts}) == len(parts)
    names = Counter("facing-pair" if part.kind == "facing" and "pair" in part.name else part.kind for part in parts)
    assert {kind: number for kind, number in names.items() if number > (2 if kind == "hinge" else 1)} == {}


@given(instruments())
def test_ids_are_unique_and_kinds_known(instrument: Instrument) -> None:
    parts = make_parts(instrument.build())
    assert len({part.id for part in parts}) == len(parts)
    assert {part.kind for part in parts} <= set(KINDS)
    assert all(part.id.isascii() and part.name for part in parts)


@given(instruments())
def test_a_job_makes_its_kinds_and_no_others(instrument: Instrument) -> None:
    bellows = instrument.build()
    everything = make_parts(bellows)
    for job, kinds in JOBS.items():
        assert make_parts(bellows, job) == tuple(part for part in everything if part.kind in kinds)
    assert make_parts(bellows, "strips", ("card", "card-run")) == tuple(
        part for part in everything if part.kind in ("card", "card-run", "edge-strip", "end-strip")
    )


@given(instruments())
def test_spares_are_a_tenth_rounded_up_and_three_at_least(instrument: Instrument) -> None:
    for part in make_parts(instrument.build()):
        wanted = max(3, -(-part.count // 10)) if part.kind in ("gusset", "end-gusset", "half-gusset") else 0
        assert part.spare == wanted
        assert part.pieces == part.count + part.spare


@given(instruments())
def test_copies_multiply_every_count_and_change_no_shape(instrument: Instrument) -> None:
    one, five = (make_parts(instrument.changed("", copies=copies).build()) for copies in (1, 5))
    assert [5 * part.count for part in one] == [part.count for part in five]
    assert [part.outline for part in one] == [part.outline for part in five]


@given(instruments())
def test_no_two_parts_of_a_kind_are_the_same_shape(instrument: Instrument) -> None:
    """Parts of one kind that nobody could tell apart would be one part; a frame hinge may be as large as another."""
    parts = make_parts(instrument.build())
    for i, part in enumerate(parts):
        for other in parts[:i]:
            if part.kind == other.kind != "hinge" and len(part.points) == len(other.points):
                apart = max(max(abs(a - c), abs(b - d)) for (a, b), (c, d) in zip(part.points, other.points, strict=True))
                assert apart > FLATTEN - 1e-4

"""Profile keys of stock and cutter: shelves, barred places, counts; read, refused in words, and written back."""

from __future__ import annotations

import pytest

from bellowscut.errors import ProfileError
from bellowscut.materials import Bar
from bellowscut.profile import as_toml, loads
from tests.conftest import FIVE_LINES

SKIN = '[materials."gusset skin"]\nthickness = "0.4 mm"\n'
SHELF = '[[materials."gusset skin".shelf]]\n'

FULL = (
    SKIN
    + 'backbone = 12.5\nbelly = "60 mm"\nmargin = "1/4 in"\ngap = 0\nprice = 9\nprice_per = "sq ft"\n'
    + SHELF
    + 'name = "the brown \\"one\\""\narea = "4 sq ft"\nprice = 12.50\n'
    + SHELF
    + 'outline = [[0, 0], [800, 0], [800, 500], [0, 500]]\nflaws = [[100, 100, 20]]\nseen_from = "grain"\ncount = 2\n'
    + 'bars = [{ kind = "gusset", outline = [[0, 0], [200, 0], [0, 150]] }]\n'
    + '[cutter]\nkerf = "0.2 mm"\nblade_offset = 0.3\nbed = ["600 mm", "400 mm"]\nspeed = 20\n'
)


def test_a_shelf_takes_from_its_material_what_it_does_not_say() -> None:
    material = loads(FIVE_LINES + FULL).materials["gusset skin"]
    assert (material.backbone, material.belly, material.margin, material.gap) == (12.5, 60, 6.35, 0)
    brown, second = material.shelf
    assert brown.name == 'the brown "one"'
    assert brown.area == pytest.approx(4 * 304.8**2)
    assert str(brown.price) == "12.50"
    assert (brown.backbone, brown.gap, brown.price_per, brown.count) == (12.5, 0, "sq ft", 1)
    assert second.name == "gusset skin 2"
    assert second.area is None
    assert (second.seen_from, second.count, str(second.price)) == ("grain", 2, "9")
    assert second.bars == (Bar("gusset", ((0, 0), (200, 0), (0, 150))),)


@pytest.mark.parametrize("only_given", [False, True])
def test_shelves_bars_and_cutter_are_written_back(only_given: bool) -> None:
    profile = loads(FIVE_LINES + FULL)
    again = loads(as_toml(profile, only_given=only_given))
    assert again.materials["gusset skin"] == profile.materials["gusset skin"]
    assert again.cutter == profile.cutter
    assert again.fingerprint == profile.fingerprint


BAD: tuple[tuple[str, str, str], ...] = (
    (SKIN + "shelf = 3\n", "shelf", "should be tables"),
    (SKIN + SHELF + 'thickness = "0.5 mm"\n', "shelf.thickness", "holds for all skins"),
    (SKIN + SHELF + 'size = ["90 mm", "90 mm"]\n', "shelf.size", "belongs to"),
    (SKIN + SHELF + "colour = 3\n", "shelf.colour", "is not a known key"),
    (SKIN + SHELF + 'clear = ["300 mm", "200 mm"]\noutline = "a.svg"\n', "shelf.clear", "never both"),
    (SKIN + SHELF + "name = 3\n", "shelf.name", "plain line"),
    (SKIN + SHELF + 'price_per = "m"\nprice = 3\n', "shelf.price_per", "a skin is priced by"),
    (SKIN + "count = 0\n", "count", "may not be 0"),
    (SKIN + "gap = -1\n", "gap", "may not be negative"),
    (SKIN + "margin = nan\n", "margin", "no finite number"),
    (SKIN + "bars = 3\n", "bars", "list of tables"),
    (SKIN + 'bars = [{ kind = "gusset" }]\n', "bars", "kind and outline"),
    (SKIN + "bars = [{ kind = 3, outline = [[0, 0], [1, 0], [0, 1]] }]\n", "bars", "text in quotes"),
    (SKIN + 'bars = [{ kind = "gusset", outline = [[0, 0], [inf, 0], [0, 1]] }]\n', "bars", "no finite number"),
    (SKIN + "backbone = 200\n", "backbone", "too large"),
    ('[materials.linen]\nbelly = "9 mm"\n', "belly", "belongs to"),
    ("[materials.linen]\n[[materials.linen.shelf]]\nprice = 3\n", "shelf", "skins and sheets"),
    ("[cutter]\nkerf = -0.1\n", "cutter.kerf", "may not be negative"),
    ('[cutter]\nbed = ["600 mm"]\n', "cutter.bed", "two lengths"),
    ("[cutter]\nspeed = 0\n", "cutter.speed", "may not be 0"),
    ("[gusset]\noff_grain = 100\n", "gusset.off_grain", "too large"),
)


@pytest.mark.parametrize(("text", "key", "told"), BAD, ids=[f"{key}: {told}" for _, key, told in BAD])
def test_wrong_values_are_told_with_line_and_key(text: str, key: str, told: str) -> None:
    with pytest.raises(ProfileError) as refused:
        loads(FIVE_LINES + text, "box.toml")
    (line,) = refused.value.lines()
    assert line.startswith("box.toml:")
    assert key in line
    assert told in line

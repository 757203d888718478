"""Commands, options, keys, files and layers: what is documented exists, and what exists is documented."""

from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from bellowscut.cli import main
from bellowscut.export.ink import LAYERS
from bellowscut.keys import Kind, keys_of
from bellowscut.materials import Material
from bellowscut.pipeline import Options, draft, files
from bellowscut.profile import load, loads, shipped
from bellowscut.schema import TABLES, TopSpec
from bellowscut.summary import as_json
from tests.conftest import FIVE_LINES
from tests.docs.texts import FOR_USERS, PAGES, ROOT, blocks, named, read, spans, table

COMMAND = re.compile(r"\bbellowscut ([a-z][a-z-]*)")
OPTION = re.compile(r"(?<![\w-])--([a-z][a-z-]*)")
KEY_AND_VALUE = re.compile(r"([a-z]+(?:_[a-z]+)*) = \S.*")

KEYS = {name: key for spec in (TopSpec, Material, *(one.spec for one in TABLES)) for name, key, _ in keys_of(spec)}
OPTIONS = {name.removeprefix("--") for command in main.commands.values() for one in command.params for name in one.opts} | {
    "help",
    "version",
}


def shell_lines(page: Path) -> list[str]:
    """Everything on a page that calls the program: lines of blocks and spans of code."""
    text = read(page)
    found = [line for block in blocks(text) for line in block.text.splitlines()] + list(spans(text))
    return [line for line in found if re.search(r"(^|[ /])bellowscut ", line)]


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_documented_commands_exist(page: Path) -> None:
    called = {name for line in shell_lines(page) for name in COMMAND.findall(line)}
    assert called <= set(main.commands), page


@pytest.mark.parametrize("page", FOR_USERS, ids=named)
def test_documented_options_exist(page: Path) -> None:
    named_there = {name for line in (*shell_lines(page), *spans(read(page))) for name in OPTION.findall(line)}
    assert named_there <= OPTIONS


@pytest.mark.parametrize("page", FOR_USERS, ids=named)
def test_documented_keys_and_values_exist(page: Path) -> None:
    for span in spans(read(page)):
        if (found := KEY_AND_VALUE.fullmatch(span)) is None:
            continue
        key = KEYS.get(found[1])
        assert key is not None, span
        value = tomllib.loads(span)[found[1]]
        assert key.kind is not Kind.CHOICE or value in key.choices, span


def test_every_command_and_option_is_documented() -> None:
    text = read(ROOT / "docs" / "commands.md")
    for name, command in main.commands.items():
        assert f"## `bellowscut {name}`" in text
        for option in (one for one in command.params if isinstance(one, click.Option)):
            assert f"| `{option.opts[-1]}" in text
    assert all(f"`bellowscut {name}`" in read(ROOT / "README.md") for name in main.commands)


def test_every_key_is_documented() -> None:
    text = read(ROOT / "docs" / "profile.md")
    for one in TABLES:
        section = text.partition(f"\n## `[{one.name}]`\n")[2].partition("\n## ")[0]
        rows = table(section, "key")
        assert [row[0].strip("`") for row in rows] == [name for name, _, _ in keys_of(one.spec)]


def test_every_shipped_profile_is_documented() -> None:
    text = read(ROOT / "docs" / "profile.md")
    assert [row[0].strip("`") for row in table(text.partition("## Profiles that ship")[2], "name")] == list(shipped())


@pytest.fixture(scope="module")
def made() -> dict[str, bytes]:
    return dict(files(draft(loads(FIVE_LINES), "regusset"), Options()))


def test_every_file_of_a_set_is_documented(made: dict[str, bytes]) -> None:
    rows = table(read(ROOT / "docs" / "printing.md"), "file")
    told = [name for row in rows for name in re.findall(r"`([^`]+)`", row[0])]
    assert sorted(told) == sorted(made)


def keys_of_json(value: object, path: str = "") -> set[str]:
    """Every key that a document holds, with dots and ``[]``; what stands under a name of the user's own is left out."""
    if isinstance(value, list):
        return {key for one in value if isinstance(one, dict) for key in keys_of_json(one, f"{path}[]")} or {path}
    if not isinstance(value, dict) or path.endswith(".bars"):
        return {path}
    return {key for name, one in value.items() for key in keys_of_json(one, f"{path}.{name}" if path else name)}


def test_every_key_of_the_json_files_is_documented(tmp_path: Path) -> None:
    """Six jobs between them write every key: ends that differ, a scored run, cards that were read, a laser, two bellows on one roll."""
    page = read(ROOT / "docs" / "for-programs.md")
    told = {
        file: [name for row in table(page, f"key of {file}") for name in re.findall(r"`([^`]+)`", row[0])]
        for file in ("summary.json", "layout.json")
    }
    for file, names in told.items():
        assert len(set(names)) == len(names), file
    found: dict[str, set[str]] = {file: set() for file in told}
    by_side = loads(f'{FIVE_LINES}[readings]\nridge_edge = {{ A = "89.5 mm" }}\n')
    for profile in (load("six-sided-uneven"), load("six-sided-scored-run"), load("six-sided-shallow"), by_side):
        one = draft(profile)
        found["summary.json"] |= keys_of_json(json.loads(as_json(one.bellows, one.parts, one.estimate, one.notes)))
    for profiles in (["single-fold-baby"], ["single-fold-baby", "three-sided-toy"]):
        folder = tmp_path / str(len(profiles))
        asked = ["--job", "strips", "--also", "hinge", "--cutter", "laser", "--seconds", "0.1", "--format", "dxf", "--out", str(folder)]
        ran = CliRunner().invoke(main, ["layout", *profiles, *asked])
        assert ran.exit_code == 0, ran.output
        document = json.loads((folder / "summary.json").read_text(encoding="utf-8"))
        found["summary.json"] |= {key for one in document.get("instruments", [document]) for key in keys_of_json(one)}
        found["layout.json"] |= keys_of_json(json.loads((folder / "layout.json").read_text(encoding="utf-8")))
    for file, names in told.items():
        # A list or object that is empty in these jobs is written under its own name alone.
        bare = {key for key in found[file] if key not in names and any(name.startswith((f"{key}.", f"{key}[")) for name in names)}
        assert found[file] - bare <= set(names), file
        assert set(names) <= found[file] | {"materials[].basis"}, file


def test_every_layer_is_documented(made: dict[str, bytes]) -> None:
    rows = table(read(ROOT / "docs" / "printing.md"), "layer in DXF")
    assert sorted(row[0].strip("`") for row in rows) == sorted(LAYERS)
    groups = set(re.findall(r'id="([^"]+)"', made["patterns.svg"].decode()))
    for row in rows:
        ending = row[1].strip("`")
        assert any(group.endswith(ending) for group in groups), f"no group of patterns.svg ends in {ending}"


def test_the_benchmark_page_names_what_is_measured() -> None:
    head = read(ROOT / "tests" / "benchmark" / "speed.py").partition('"""\n\nfrom')[0]
    for row in table(read(ROOT / "docs" / "benchmark.md"), "figure"):
        assert row[0].strip("`") in head


def test_changes_begin_with_this_version() -> None:
    from bellowscut import __version__

    assert re.findall(r"^## (.+)$", read(ROOT / "docs" / "changes.md"), re.MULTILINE)[0] == __version__

"""`bellowscut layout` as a user runs it: files read back, exit codes, several instruments, cutters."""

from __future__ import annotations

import json
import math
import os
from collections import Counter
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
import shapely
from click.testing import CliRunner, Result

from bellowscut.cli import main
from tests.conftest import FIVE_LINES

CLEAR = '[materials."gusset skin"]\nthickness = "0.4 mm"\nclear = ["400 mm", "300 mm"]\nprice = 12\n'
STRIPS = '[materials."strip skin"]\nthickness = "0.6 mm"\nclear = ["700 mm", "400 mm"]\nprice = 20\n'


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder to work in, with some profiles."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("NO_COLOR", "1")
    (tmp_path / "good.toml").write_text(FIVE_LINES + CLEAR + STRIPS)
    (tmp_path / "wide.toml").write_text(FIVE_LINES.replace("6 1/4 in", "180 mm") + CLEAR + STRIPS)
    (tmp_path / "small.toml").write_text(FIVE_LINES + CLEAR.replace("400 mm", "80 mm") + "count = 1\n")
    (tmp_path / "traced.toml").write_text(FIVE_LINES + '[materials."gusset skin"]\nthickness = "0.4 mm"\noutline = "skin.svg"\n')
    (tmp_path / "euros.toml").write_text(FIVE_LINES + CLEAR + '[costs]\ncurrency = "EUR"\n')
    (tmp_path / "bed.toml").write_text(FIVE_LINES + CLEAR + STRIPS + '[cutter]\nbed = ["300 mm", "200 mm"]\n')
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "notes.txt").write_text("mine")
    return tmp_path


def run(words: str) -> Result:
    return CliRunner().invoke(main, ["layout", *words.split()], prog_name="bellowscut")


def told(folder: Path, name: str) -> Any:  # noqa: ANN401 - whatever the file holds
    return json.loads((folder / name).read_text())


def test_layout_and_summary_agree_piece_by_piece(bench: Path) -> None:
    result = run("good.toml --job regusset --seconds 1")
    assert result.exit_code == 0, result.output
    folder = bench / "good-layout"
    layout, summary = told(folder, "layout.json"), told(folder, "summary.json")
    assert {path.name for path in folder.iterdir()} == {
        ".bellowscut.json", "layout.json", "layout.pdf", "summary.json", "summary.txt",
        "stock-1.svg", "stock-1.dxf", "stock-2.svg", "stock-2.dxf",
    }  # fmt: skip
    assert (layout["format"], layout["units"], layout["verified"], layout["unplaced"]) == (1, "mm", True, [])
    assert layout["fingerprint"] == summary["fingerprint"]
    parts = {part["id"]: part for part in summary["parts"]}
    counts = Counter(one["part"] for stock in layout["stock"] for one in stock["placements"])
    assert counts == {name: part["count"] + part["spare"] for name, part in parts.items()}
    for stock in layout["stock"]:
        outline = shapely.Polygon(stock["outline"])
        lying = []
        for one in stock["placements"]:
            c, s = math.cos(math.radians(one["turn"])), math.sin(math.radians(one["turn"]))
            lying.append(shapely.Polygon([(one["x"] + c * x - s * y, one["y"] + s * x + c * y) for x, y in parts[one["part"]]["outline"]]))
        # Places are told to 0.000001 mm.
        assert all(outline.buffer(1e-4 - stock["margin"]).covers(piece) for piece in lying)
        assert all(a.distance(b) > stock["gap"] - 1e-4 for a, b in combinations(lying, 2))
        assert stock["used"] == pytest.approx(sum(piece.area for piece in lying) / outline.area, abs=1e-4)
    assert {material["basis"] for material in summary["materials"]} == {"layout"}
    by_name = {material["name"]: material for material in summary["materials"]}
    (skin,) = (stock for stock in layout["stock"] if stock["material"] == "gusset skin")
    used = 120_000 - skin["left"]["area"]
    assert by_name["gusset skin"]["gross_area"] == pytest.approx(used, abs=0.01)
    assert by_name["gusset skin"]["cost"] == pytest.approx(12 * used / 120_000, abs=0.005)
    assert summary["cost"]["materials"] == pytest.approx(sum(material["cost"] for material in summary["materials"]))
    assert "reckoned by" in (folder / "summary.txt").read_text()
    assert "100% full" not in result.stdout
    assert "Take care" in (folder / "summary.txt").read_text()


def test_the_same_command_writes_the_same_bytes(bench: Path) -> None:
    for out in ("one", "two"):
        assert run(f"good.toml --job regusset --seconds 0.5 --cutter laser --out {out}").exit_code == 0
    for path in (bench / "one").iterdir():
        assert (bench / "two" / path.name).read_bytes() == path.read_bytes(), path.name


def test_two_instruments_share_leather_and_its_cost(bench: Path) -> None:
    result = run("good.toml wide.toml --job regusset --seconds 1 --out both")
    assert result.exit_code == 0, result.output
    summary, layout = told(bench / "both", "summary.json"), told(bench / "both", "layout.json")
    first, second = summary["instruments"]
    assert summary["fingerprint"] == layout["fingerprint"] not in (first["fingerprint"], second["fingerprint"])
    for name in ("gusset skin", "strip skin"):
        mine, other = (next(m for m in one["materials"] if m["name"] == name) for one in (first, second))
        weights = [
            sum(part["area"] * (part["count"] + part["spare"]) for part in one["parts"] if part["material"] == name)
            for one in (first, second)
        ]
        assert mine["gross_area"] / other["gross_area"] == pytest.approx(weights[0] / weights[1], rel=1e-6)
        assert mine["cost"] / (mine["cost"] + other["cost"]) == pytest.approx(weights[0] / sum(weights), abs=0.01)
    ids = {one["part"] for stock in layout["stock"] for one in stock["placements"]}
    assert {name.split("-")[0] for name in ids} == {"1", "2"}
    assert [one["number"] for one in layout["instruments"]] == ["1", "2"]


@pytest.mark.parametrize("cutter", ["laser", "knife"])
def test_a_machine_gets_templates_test_piece_and_cauls(bench: Path, cutter: str) -> None:
    result = run(f"six-sided-scored-run --seconds 1 --cutter {cutter} --out cut")
    assert result.exit_code == 0, result.output
    names = {path.name for path in (bench / "cut").iterdir()}
    assert {"templates.svg", "templates.dxf", "test-piece.svg", "test-piece.dxf", "cauls.svg", "cauls.dxf"} <= names
    assert sum(name.endswith("-back.dxf") for name in names) >= 1
    text = (bench / "cut" / "summary.txt").read_text()
    assert "m of cut" in text
    assert ("never left alone" in text) is (cutter == "laser")


def test_sets_are_told(bench: Path) -> None:
    result = run("good.toml --sets gusset --seconds 1")
    assert result.exit_code == 0, result.output
    assert "gusset skin gives 2 sets of 42 gusset pieces each" in " ".join(result.stdout.split())
    layout = told(bench / "good-layout", "layout.json")
    assert Counter(one["part"] for stock in layout["stock"] for one in stock["placements"]) == {"gusset": 60, "end-gusset": 24}


WORDS: tuple[tuple[str, int, str], ...] = (
    ("", 2, "PROFILE"),
    ("nowhere.toml", 2, "nowhere.toml"),
    ("good.toml --seconds 0", 2, "0.1"),
    ("good.toml --seconds nan", 2, "seconds"),
    ("good.toml --cutter scissors", 2, "laser"),
    ("good.toml --sets gussett", 2, "gusset"),
    ("good.toml --sets facing", 2, "makes none"),
    ("good.toml --sets hinge", 2, "roll"),
    ("good.toml wide.toml --sets gusset", 2, "one profile"),
    ("good.toml euros.toml --job strips --seconds 0.2", 2, "euros.toml is in EUR"),
    ("traced.toml --job regusset", 2, "skin.svg"),
    ("small.toml --job regusset --seconds 0.2", 1, "more leather is needed"),
    ("bed.toml --job regusset --seconds 0.2 --cutter laser --leather", 2, "bed"),
    ("good.toml --out mine", 2, "mine"),
    ("good.toml --out mine --force", 2, "notes.txt"),
)


@pytest.mark.parametrize(("words", "code", "said"), WORDS, ids=[row[0] for row in WORDS])
def test_words_give_their_exit_code(bench: Path, words: str, code: int, said: str) -> None:
    before = {path: path.read_bytes() for path in bench.rglob("*") if path.is_file()}
    result = run(words)
    assert result.exit_code == code, result.output
    assert said in result.stderr
    assert "Traceback" not in result.output
    assert {path: path.read_bytes() for path in bench.rglob("*") if path.is_file()} == before


def test_an_older_set_is_replaced_when_asked(bench: Path) -> None:
    assert run("good.toml --job strips --seconds 0.2").exit_code == 0
    assert run("good.toml --job strips --seconds 0.2").exit_code == 2
    assert run("good.toml --job strips --seconds 0.2 --force --cutter laser").exit_code == 0
    assert (bench / "good-layout" / "test-piece.svg").exists()


def test_a_tracing_is_found_beside_its_profile(bench: Path) -> None:
    place = bench / "deep"
    place.mkdir()
    (place / "box.toml").write_text((bench / "traced.toml").read_text())
    (place / "skin.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="500mm" height="400mm" viewBox="0 0 500 400">'
        '<path d="M10 10 H490 V390 H10 Z"/><circle cx="250" cy="200" r="15"/><g id="no-gusset"><path d="M10 10 H490 V60 H10 Z"/></g></svg>'
    )
    result = run(f"{place / 'box.toml'} --job regusset --seconds 1 --out set")
    assert result.exit_code == 0, result.output
    skin = next(stock for stock in told(bench / "set", "layout.json")["stock"] if stock["material"] == "gusset skin")
    assert shapely.Polygon(skin["outline"]).area == pytest.approx(480 * 380)
    assert not skin["typical"]
    # SVG counts y downwards: the barred band lies along the upper edge.
    assert {"gusset", "end-gusset", "half-gusset"} <= set(skin["bars"])
    assert min(y for _, y in skin["bars"]["gusset"][0]) == pytest.approx(330)
    assert max(one["y"] for one in skin["placements"]) < 330


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="needs a terminal")
def test_a_terminal_sees_the_search_move(bench: Path) -> None:
    import subprocess
    import sys

    leader, follower = os.openpty()
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[1]), "TERM": "xterm"}
    command = [sys.executable, "-m", "bellowscut", "layout", "good.toml", "--job", "strips", "--seconds", "0.3"]
    subprocess.run(command, stdout=subprocess.DEVNULL, stderr=follower, env=environment, cwd=bench, check=True)
    os.close(follower)
    seen = os.read(leader, 65536).decode()
    os.close(leader)
    assert "Laying out" in seen
    assert "100%" in seen

"""Run packing cases: one JSON line a case. Lengths in millimetres."""

from __future__ import annotations

import argparse
import json
import sys
import time
from dataclasses import replace
from pathlib import Path
from typing import Any

from bellowscut.nesting.engine import lay_out
from bellowscut.nesting.model import AnyTurn, Order, Polygon, Result, Shape, Stock, Turns
from bellowscut.nesting.verify import faults


def polygon(points: list[list[float]]) -> Polygon:
    """Points from JSON as an outline."""
    return tuple((float(x), float(y)) for x, y in points)


def read_case(data: dict[str, Any], case: dict[str, Any]) -> tuple[list[Stock], list[Order]]:
    """Stocks and orders of one case."""
    rules = {name: float(case.get(name, data.get(name, 0.0))) for name in ("margin", "flaw_gap", "gap")}
    names = case["stock"] if isinstance(case["stock"], list) else [case["stock"]]
    stocks = []
    for number, name in enumerate(names, start=1):
        own = f"stock-{number}"
        if name == "roll":
            stocks.append(Stock(own, width=float(case["width"])))
        elif name == "sheet":
            across, up = (float(value) for value in case.get("sheet", data["sheet"]))
            stocks.append(Stock(own, ((0.0, 0.0), (across, 0.0), (across, up), (0.0, up))))
        else:
            skin = data["skins"][name]
            stocks.append(Stock(own, polygon(skin["outline"]), tuple(polygon(flaw) for flaw in skin.get("flaws", []))))
    stocks = [replace(stock, margin=rules["margin"], flaw_gap=rules["flaw_gap"], gap=rules["gap"]) for stock in stocks]
    turns: Turns = AnyTurn() if case["turns"] == "any" else tuple(float(turn) for turn in case["turns"])
    counts = case.get("order") or {case["part"]: None if case.get("as_many") else case.get("count")}
    return stocks, [Order(Shape(name, polygon(data["parts"][name]), turns, name), count) for name, count in counts.items()]


def told(case: dict[str, Any], result: Result, seconds: float, broken: tuple[str, ...]) -> dict[str, Any]:
    """One line of the answer."""
    line: dict[str, Any] = {"name": case["name"]}
    if case["stock"] == "roll":
        line["length"] = round(result.lengths[0][1], 3) if result.lengths else 0.0
    elif isinstance(case["stock"], list):
        line["skins"] = len({placement.stock for placement in result.placements})
    if "part" in case:
        line["placed"] = len(result.placements)
    line |= {"seconds": round(seconds, 3), "verified": not broken, "unplaced": dict(result.unplaced), "method": result.method}
    line["placements"] = [{"stock": p.stock, "part": p.part, "turn": p.turn, "x": p.x, "y": p.y} for p in result.placements]
    return line


def main() -> int:
    """Run every case of a file."""
    parser = argparse.ArgumentParser(description="Run packing cases, one JSON line a case.")
    parser.add_argument("cases", type=Path)
    parser.add_argument("--seconds", type=float, default=10.0, help="search time a case; rolls take six times as long")
    parser.add_argument("--only", default="", help="run only cases whose name holds this")
    arguments = parser.parse_args()
    data = json.loads(arguments.cases.read_text(encoding="utf-8"))
    sound = True
    for case in data["cases"]:
        if arguments.only not in case["name"]:
            continue
        stocks, orders = read_case(data, case)
        start = time.perf_counter()
        result = lay_out(stocks, orders, arguments.seconds * (6.0 if any(stock.is_roll for stock in stocks) else 1.0))
        spent = time.perf_counter() - start
        broken = faults(stocks, orders, result)
        sound = sound and not broken
        sys.stdout.write(json.dumps(told(case, result, spent, broken)) + "\n")
        sys.stdout.flush()
    return 0 if sound else 1


if __name__ == "__main__":
    raise SystemExit(main())

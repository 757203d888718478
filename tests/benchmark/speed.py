"""How long and how large `bellowscut make` is, as ratios that hold from one machine to the next.

    python tests/benchmark/speed.py [--runs N] [--write]

prints one JSON object, and with ``--write`` puts its figures, with the version
that they were measured on, into docs/benchmark.md:

make_to_floor
    Processor time of a whole `bellowscut make six-sided-treble`, from the start
    of the process to its end, over that of a process that does nothing but
    import the same libraries: what is above 1 is ours.
beyond_floor_doubled_folds
    What `make` takes beyond that floor for twelve folds, over the same for
    six: 2 where the work grows in step with the folds.
make_seconds, make_6_folds_seconds, make_12_folds_seconds, floor_seconds
    The medians that the ratios are made of, for this machine only.
make_peak_mib, floor_peak_mib
    Greatest memory of one process.

The runs of each kind take turns, so that a machine that warms up or gets busy
does so for all of them. One run of each kind beforehand fills the caches;
compiled modules are kept for the time of the measurement, however the package
is installed.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import re
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

FLOOR = "import click, ezdxf, HersheyFonts, numpy, shapely, svgwrite, reportlab.pdfgen.canvas"
MAKE = "from bellowscut.cli import main; main(prog_name='bellowscut')"

PROFILE = """
format = 1
name = "Invented six-sided instrument, {folds} folds"
[section]
shape = "regular"
sides = 6
end_size = "6 1/4 in"
[bellows]
folds = {folds}
fold_depth = "25 mm"
"""

PAGE = Path(__file__).parents[2] / "docs" / "benchmark.md"
BEGIN, END = "<!-- figures: begin -->", "<!-- figures: end -->"

TOLD = ("make_to_floor", "beyond_floor_doubled_folds", "make_peak_mib", "floor_peak_mib")
"""Figures that mean something on another machine too."""

PEAK_UNITS_A_MIB = 2**20 if sys.platform == "darwin" else 2**10


@dataclass
class Runs:
    """One command, with what was measured of it so far."""

    command: list[str]
    writes: bool = True
    seconds: list[float] = field(default_factory=list)
    peaks: list[float] = field(default_factory=list)

    def once(self, place: Path) -> None:
        """Run the command once, into a folder of its own."""
        environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        environment["PYTHONPYCACHEPREFIX"] = str(place / "compiled")
        out = ["--out", str(Path(tempfile.mkdtemp(dir=place)) / "out")] if self.writes else []
        process = subprocess.Popen([*self.command, *out], cwd=place, env=environment, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
        _, status, usage = os.wait4(process.pid, 0)
        self.seconds.append(usage.ru_utime + usage.ru_stime)
        self.peaks.append(usage.ru_maxrss / PEAK_UNITS_A_MIB)
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode:
            sys.exit(f"exit {process.returncode} from: {' '.join([*self.command, *out])}")

    def median(self) -> float:
        """Median processor time without the first run, which filled the caches [s]."""
        return statistics.median(self.seconds[1:])


def table(found: Mapping[str, object]) -> str:
    """The figures as they stand in the documentation."""
    rows = [f"| `{name}` | {found[name]} | {found['version']} |" for name in TOLD]
    told = f"Medians of {found['runs']} runs on {found['cores']} cores with {found['python']}."
    return "\n".join((BEGIN, "", told, "", "| figure | value | version |", "| --- | --- | --- |", *rows, "", END))


def main() -> None:
    """Measure and print."""
    reader = argparse.ArgumentParser(description="Print the cost of `bellowscut make` as ratios to the cost of its imports.")
    reader.add_argument("--runs", type=int, default=15, metavar="N", help="runs of each kind after the first, at least 1 (default 15)")
    reader.add_argument("--write", action="store_true", help="put the figures into docs/benchmark.md")
    asked = reader.parse_args()
    runs = max(1, asked.runs)
    with tempfile.TemporaryDirectory(prefix="bellowscut-speed-") as name:
        place = Path(name)
        profiles = {folds: place / f"{folds}-folds.toml" for folds in (6, 12)}
        for folds, path in profiles.items():
            path.write_text(PROFILE.format(folds=folds), encoding="utf-8")
        python = [sys.executable, "-c"]
        floor = Runs([*python, FLOOR], writes=False)
        shipped = Runs([*python, MAKE, "make", "six-sided-treble"])
        six, twelve = (Runs([*python, MAKE, "make", str(path)]) for path in profiles.values())
        for _ in range(runs + 1):
            for kind in (floor, shipped, six, twelve):
                kind.once(place)
    beyond = {name: kind.median() - floor.median() for name, kind in (("six", six), ("twelve", twelve))}
    version = subprocess.run([*python, "import bellowscut; print(bellowscut.__version__)"], capture_output=True, text=True, check=True)
    found = {
        "version": version.stdout.strip(),
        "python": f"{platform.python_implementation()} {platform.python_version()}",
        "cores": os.cpu_count(),
        "runs": runs,
        "make_to_floor": round(shipped.median() / floor.median(), 3),
        # Below a millisecond there is nothing to divide by.
        "beyond_floor_doubled_folds": round(beyond["twelve"] / beyond["six"], 3) if beyond["six"] > 1e-3 else None,
        "make_seconds": round(shipped.median(), 4),
        "make_6_folds_seconds": round(six.median(), 4),
        "make_12_folds_seconds": round(twelve.median(), 4),
        "floor_seconds": round(floor.median(), 4),
        "make_peak_mib": round(max(shipped.peaks), 1),
        "floor_peak_mib": round(max(floor.peaks), 1),
    }
    print(json.dumps(found, indent=2))
    if asked.write:
        page = PAGE.read_text(encoding="utf-8")
        PAGE.write_text(re.sub(f"{BEGIN}.*{END}", lambda _: table(found), page, flags=re.DOTALL), encoding="utf-8")


if __name__ == "__main__":
    main()

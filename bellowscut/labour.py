"""Hours of a job: each operation as a fixed part and a part for each piece.

All minutes are invented, for a practised hand, and are to be replaced by
one's own. Minutes [min].
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from bellowscut.parts import Part

GUSSETS = ("gusset", "end-gusset", "half-gusset")
STRIPS = ("edge-strip", "end-strip")


@dataclass(frozen=True)
class Operation:
    """One step of a job.

    Parameters
    ----------
    name : str
        What is done.
    fixed : float
        Minutes however many pieces there are [min].
    each : float
        Minutes for each piece [min].
    kinds : tuple of str
        Kinds of part that are counted; the step falls away where none of them is made.
    spares : bool
        Whether spares are counted too: they are cut and pared, not glued.
    """

    name: str
    fixed: float
    each: float = 0.0
    kinds: tuple[str, ...] = ()
    spares: bool = False

    def minutes(self, parts: Sequence[Part]) -> float:
        """Minutes for these parts [min]."""
        if not self.kinds:
            return self.fixed
        number = sum(part.pieces if self.spares else part.count for part in parts if part.kind in self.kinds)
        return self.fixed + self.each * number if number else 0.0


OPERATIONS = {
    "regusset": (
        Operation("look over, photograph, air test", 20),
        Operation("ends and pans out, mark side A", 20),
        Operation("measure, enter, paper corner", 35),
        Operation("lift edge and end strips", 10, 5, STRIPS),
        Operation("strip the old gussets", 18, 1, GUSSETS),
        Operation("clean, pull test", 60),
        Operation("re-stick hinges and loose cards", 20),
        Operation("mark and cut gussets", 7, 1, GUSSETS, spares=True),
        Operation("skive gussets", 22, 1, GUSSETS, spares=True),
        Operation("prop, dry-fit three", 15),
        Operation("glue gussets, press", 15, 2.5, GUSSETS),
        Operation("cut and skive strips", 5, 5, STRIPS),
        Operation("edge strips", 15, 10, ("edge-strip",)),
        Operation("end strips", 5, 15, ("end-strip",)),
        Operation("papers trimmed or patched", 40),
        Operation("dress, press closed", 25),
        Operation("light and air test, cure leaks", 25),
        Operation("gaskets, assemble, play in", 30),
        Operation("papers, invoice", 15),
    ),
    "rebellows": (
        Operation("look over, photograph, air test", 20),
        Operation("ends and pans out, mark side A", 20),
        Operation("measure both ends, bare frames, paper corner", 45),
        Operation("cut the old bellows off, clean frames", 50),
        Operation("frame repairs, gaskets", 40),
        Operation("set up the form", 20),
        Operation("cut, round and ease cards", 1, 1, ("card",)),
        Operation("cut and score card runs", 20, 10, ("card-run",)),
        Operation("hinge cloth, cards hinged on the form", 23, 1.5, ("hinge",)),
        Operation("cut and skive gussets", 14, 2, GUSSETS, spares=True),
        Operation("gussets on the form", 35, 2.5, ("gusset",)),
        Operation("off the form, frames, end gussets", 20, 2.5, ("end-gusset", "half-gusset")),
        Operation("cut and skive strips", 10, 5, STRIPS),
        Operation("edge strips", 20, 10, ("edge-strip",)),
        Operation("end strips", 15, 15, ("end-strip",)),
        Operation("ridge cloth", 3, 0.75, ("ridge-cloth",)),
        Operation("valley strips", 3, 1, ("valley-strip",)),
        Operation("facings", 6, 1, ("facing",)),
        Operation("dress, press closed", 35),
        Operation("light and air test, cure leaks", 30),
        Operation("assemble, play in", 30),
        Operation("papers, invoice", 15),
    ),
    "strips": (
        Operation("look over, photograph, air test", 20),
        Operation("ends and pans out, mark side A", 20),
        Operation("measure, enter", 15),
        Operation("lift edge and end strips", 10, 5, STRIPS),
        Operation("clean, pull test", 15),
        Operation("cut and skive strips", 5, 5, STRIPS),
        Operation("edge strips", 15, 10, ("edge-strip",)),
        Operation("end strips", 5, 15, ("end-strip",)),
        Operation("dress, press closed", 25),
        Operation("light and air test, cure leaks", 25),
        Operation("gaskets, assemble, play in", 30),
        Operation("papers, invoice", 15),
    ),
}
"""Steps of each job, in order; invented."""


def minutes(job: str, parts: Sequence[Part]) -> Decimal:
    """Minutes of a whole job [min], by the invented figures above."""
    return sum((Decimal(repr(operation.minutes(parts))) for operation in OPERATIONS[job]), Decimal(0))

"""Files for laser and drag knife: what the tool follows, in which order, and what a person must know before it runs."""

from __future__ import annotations

from bellowscut.cutting.cauls import pressing_cauls
from bellowscut.cutting.figures import Figures, figures
from bellowscut.cutting.machine import Job, machine_drawing
from bellowscut.cutting.template import lines_left_out, template_drawing
from bellowscut.cutting.trial import test_piece
from bellowscut.cutting.words import CUTTERS, cautions

__all__ = [
    "CUTTERS",
    "Figures",
    "Job",
    "cautions",
    "figures",
    "lines_left_out",
    "machine_drawing",
    "pressing_cauls",
    "template_drawing",
    "test_piece",
]

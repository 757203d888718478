"""The second route: cards and leather placed in space and measured there.

None of the formulas of `bellowscut.folds` is used or repeated here. A card is
known only by its flat cut shape; it is hinged to the ridge polygon, turned up
by the stretch angle, and everything else is measured with a ruler.
"""

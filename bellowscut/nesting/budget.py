"""Work that may still be done, counted so that a layout does not depend on the load of the machine."""

from __future__ import annotations

from collections.abc import Callable

Progress = Callable[[float], None]
"""Is told the share of the work that is done [-], 0 to 1, never less than before."""


class Budget:
    """Some work, or a part of a greater budget that is spent along with it.

    Parameters
    ----------
    units : float
        Work [-]; a unit is about 0.8 milliseconds on one slow core.
    progress : callable or None
        Is told the share spent whenever it has grown by a hundredth.
    whole : Budget or None
        The budget that this one is a part of.
    """

    def __init__(self, units: float, progress: Progress | None = None, whole: Budget | None = None) -> None:
        self.units = self.left = units
        self.progress, self.whole = progress, whole
        self.told = 0.0
        self.aside: float = 0.0 if whole is None else whole.aside
        """Work that patterns may take, each convex part of a shape [-]."""

    @property
    def spent(self) -> bool:
        """Whether nothing is left of it or of the whole: whoever looks for something better then stops."""
        return self.left <= 0 or (self.whole is not None and self.whole.spent)

    def part(self, units: float) -> Budget:
        """A part with work [-] of its own; what is spent of it is spent of the whole."""
        return Budget(units, whole=self)

    def spend(self, units: float) -> None:
        """Take work [-] out of the budget; it may be overdrawn."""
        self.left -= units
        if self.whole is not None:
            self.whole.spend(units)
        self._tell(min(1.0, 1.0 - self.left / self.units), 0.01)

    def close(self) -> None:
        """Tell that nothing more will be spent."""
        self._tell(1.0, 1e-9)

    def _tell(self, share: float, least: float) -> None:
        if self.progress is not None and share >= self.told + least:
            self.told = share
            self.progress(share)

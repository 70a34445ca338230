"""What holds for every pass of a steady load."""

from __future__ import annotations

from dataclasses import dataclass

from jawcam.geometry.rim import Rim

__all__ = ["OUTSIDE", "WIDEST", "Law"]

OUTSIDE = 0.001
"""mm; the most that a path may lie outside the rim."""

WIDEST, _NEARLY = 1.095, 1.055
"""Times the width asked: what a pass may bite off at most, and what is near enough to it not to
look for more."""

_SPACING = 1 / 8
"""Of the radius: between such points a front lies no deeper in the cutter's circle unseen than
a five-hundredth of it."""


@dataclass(frozen=True)
class Law:
    """radius: the cutter's, width: the fresh width asked for, mm; rim: of where the centre may
    be."""

    radius: float
    width: float
    rim: Rim

    @property
    def spacing(self) -> float:
        """Of the points of fronts, mm."""
        return _SPACING * self.radius

    @property
    def most(self) -> float:
        """The widest that may be bitten off anywhere, mm."""
        return WIDEST * self.width

    @property
    def nearly(self) -> float:
        """So wide a bite is well enough, mm."""
        return _NEARLY * self.width

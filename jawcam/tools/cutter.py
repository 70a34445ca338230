"""Milling cutters: plain data in mm, shared by the planner and the judge."""

from __future__ import annotations

import math
from dataclasses import dataclass

__all__ = ["KINDS", "Cutter", "HolderStep"]

KINDS = ("end mill", "ball end mill", "bull-nose end mill", "chamfer mill", "drill", "spot drill")


@dataclass(frozen=True)
class HolderStep:
    """A cylinder of a holder: its diameter and its length along the axis, mm."""

    dia: float
    length: float


@dataclass(frozen=True)
class Cutter:
    """One tool of the job.

    number: the T word; dia, flute_len, stickout, corner_radius: mm; centre_cutting: whether it
    may go straight down into material. angle: the included angle in degrees of a chamfer mill's
    flanks or of a drill's point; tip_dia: what a chamfer mill's point is flattened to, mm.
    shank: its diameter above the flutes, mm; holder: from its face up to the spindle's nose, none
    if the job doesn't tell.
    rpm, feed, plunge_feed, surface, chip: 1/min, mm/min, the cutting speed in m/min and mm a tooth,
    as the job gives them; None = worked out.
    """

    number: int
    kind: str
    dia: float
    flutes: int = 2
    flute_len: float | None = None
    stickout: float | None = None
    corner_radius: float = 0.0
    centre_cutting: bool = False
    rpm: float | None = None
    feed: float | None = None
    plunge_feed: float | None = None
    name: str = ""
    angle: float | None = None
    tip_dia: float = 0.0
    shank: float | None = None
    holder: tuple[HolderStep, ...] = ()
    surface: float | None = None
    chip: float | None = None

    @property
    def radius(self) -> float:
        """In mm."""
        return self.dia / 2

    @property
    def shank_dia(self) -> float:
        """As given, or as thick as the cutter, in mm."""
        return self.dia if self.shank is None else self.shank

    @property
    def length(self) -> float | None:
        """From the spindle's nose to the tip, in mm; None if the job doesn't tell all of it."""
        if self.stickout is None or not self.holder:
            return None
        return self.stickout + sum(step.length for step in self.holder)

    @property
    def point_angle(self) -> float:
        """The included angle of its point or flanks in degrees, 180 for a flat end: as given, or
        what is usual for its kind (common practice, no source)."""
        return self.angle or _ANGLES.get(self.kind, 180.0)

    @property
    def point_length(self) -> float:
        """How far a drill's point reaches beyond its full diameter, in mm."""
        return (self.dia - self.tip_dia) / 2 / math.tan(math.radians(self.point_angle / 2))


_ANGLES = {"drill": 118.0, "spot drill": 90.0, "chamfer mill": 90.0}

"""Milling cutters: plain data in mm, shared by the planner and the judge."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["KINDS", "Cutter"]

KINDS = ("end mill", "ball end mill", "bull-nose end mill", "chamfer mill", "drill", "spot drill")


@dataclass(frozen=True)
class Cutter:
    """One tool of the job.

    number: the T word; dia, flute_len, stickout, corner_radius: mm; centre_cutting: whether it
    may go straight down into material.
    rpm, feed, plunge_feed: 1/min and mm/min, as the job gives them; None = worked out.
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

    @property
    def radius(self) -> float:
        """In mm."""
        return self.dia / 2

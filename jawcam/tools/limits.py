"""The highest feed at which a cut keeps within what spindle and cutter bear.

The cutting force follows the chip's mean thickness with the exponent 1 - mc, and so do the power
and the bend that come of it; that is solved for the feed in closed form.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from jawcam.tools.bend import bend, edge_in_cut
from jawcam.tools.engagement import engaged
from jawcam.tools.force import cutting_force, mean_chip, milling_power, specific_force, torque

__all__ = ["Limits", "first_bend"]


@dataclass(frozen=True)
class Limits:
    """A cutter in a material and what it must keep within. dia, stickout: mm; rpm: 1/min; kc, mc:
    of the material, N/mm2; power: what the spindle gives for the cut, kW, None: not known; given:
    what sets that, in words; bend: how far the cutter may bend at its tip, mm, None: not judged.
    """

    dia: float
    flutes: int
    rpm: float
    kc: float
    mc: float
    power: float | None = None
    given: str = ""
    stickout: float | None = None
    bend: float | None = None

    def specific(self, feed: float, width: float) -> tuple[float, float]:
        """The specific force in N/mm2 and the mean thickness in mm of the chip that a feed in
        mm/min makes of a cut `width` mm wide."""
        chip = mean_chip(feed / (self.rpm * self.flutes), min(width, self.dia), self.dia)
        return specific_force(self.kc, self.mc, chip), chip

    def force(self, feed: float, width: float, depth: float) -> float:
        """Newtons, of all the edges that are in the work at a time, chips of mean thickness."""
        specific, chip = self.specific(feed, width)
        edge = edge_in_cut(depth, engaged(width, self.dia), self.dia, self.flutes)
        return cutting_force(specific, edge, chip)

    def power_of(self, feed: float, width: float, depth: float) -> float:
        """Power at the cutter, kW."""
        specific, _ = self.specific(feed, width)
        return milling_power(specific, depth, min(width, self.dia), feed)

    def torque_of(self, feed: float, width: float, depth: float) -> float:
        """N m at the cutter, the mean of a turn."""
        return torque(self.power_of(feed, width, depth), self.rpm)

    def bend_of(self, feed: float, width: float, depth: float) -> float:
        """How far its tip bends, mm; 0 where nobody knows how far the cutter stands out."""
        if self.stickout is None:
            return 0.0
        return bend(self.force(feed, width, depth), self.stickout, self.dia)

    def most(self, width: float, depth: float) -> float:
        """The highest feed in mm/min at which a cut (mm) keeps within, infinite where there is
        nothing to keep within."""
        return min(self.most_by_power(width, depth), self.most_by_bend(width, depth))

    def most_by_power(self, width: float, depth: float) -> float:
        """The same by power and torque alone."""
        if self.power is None or width <= 0 or depth <= 0:
            return math.inf
        return self._fed(self.power, self.power_of(1.0, width, depth))

    def most_by_bend(self, width: float, depth: float) -> float:
        """The same by the cutter's bending alone."""
        if self.bend is None or self.stickout is None or width <= 0 or depth <= 0:
            return math.inf
        return self._fed(self.bend, self.bend_of(1.0, width, depth))

    def _fed(self, bound: float, at_one: float) -> float:
        """The feed that brings what is `at_one` at 1 mm/min to its bound."""
        return float((bound / at_one) ** (1 / (1 - self.mc)))


def first_bend(
    limits: Limits, feed: float, depth: float, allowed: float, springs: int, leave: float
) -> float:
    """How far the cutter may bend (mm) in a wall's first pass, `leave` mm wide, so that it bends no
    more than `allowed` in the last: the spring passes at the same feed in mm/min cut what bending
    left before them. Found by halving, from the last pass back."""
    for _ in range(springs):
        low, high = 0.0, leave
        if limits.bend_of(feed, leave, depth) <= allowed:
            return leave
        for _ in range(40):
            width = (low + high) / 2
            if width > 0 and limits.bend_of(feed, width, depth) <= allowed:
                low = width
            else:
                high = width
        allowed = max(allowed, low)
    return allowed

"""How an oblique view looks at things: by parallel rays, from before, beside and above.

Parallel rays keep parallel lines parallel, and each direction its own scale (ISO 5456-3 calls such
views axonometric).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from jawcam.show.arrays import Floats

__all__ = ["Gaze"]


@dataclass(frozen=True)
class Gaze:
    """turn: degrees that the onlooker stands round to the right from straight before the front jaw;
    tilt: degrees that he looks down from the level."""

    turn: float = 25.0
    tilt: float = 46.0

    @property
    def across(self) -> Floats:
        """Right on the page, a unit vector (x, y, z)."""
        turn = math.radians(self.turn)
        return np.array([math.cos(turn), math.sin(turn), 0.0])

    @property
    def up(self) -> Floats:
        """Up on the page."""
        turn, tilt = math.radians(self.turn), math.radians(self.tilt)
        flat = math.sin(tilt)
        return np.array([-math.sin(turn) * flat, math.cos(turn) * flat, math.cos(tilt)])

    @property
    def near(self) -> Floats:
        """Towards the onlooker."""
        return np.cross(self.across, self.up)

    def seen(self, points: Floats) -> Floats:
        """Points (n, 3) -> where they are on the page, (n, 2), in the same units."""
        return np.column_stack([points @ self.across, points @ self.up])

    def level(self, flat: Floats, z: float) -> Floats:
        """Points (n, 2) at one height -> where they are on the page."""
        return self.seen(np.column_stack([flat, np.full(len(flat), z)]))

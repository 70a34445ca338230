"""Straight in along X and out again: what grooving and parting off share."""

from __future__ import annotations

import math

from jawcam.turn.trail import TurnTrail
from jawcam.units import Units

__all__ = ["BACK", "START", "plunge", "spot_words"]

START = 0.5
"""mm off the surface where the feed begins (common practice, no source)."""

BACK = 0.2
"""mm that a peck draws back, to break the chip (common practice, no source)."""


def plunge(
    trail: TurnTrail, z: float, surface: float, bottom: float, *, feed: float, peck: float | None
) -> None:
    """Feed along X at `z` from where the tool stands to `bottom`, towards the axis or away from
    it.

    surface: the radius where the material begins, from which pecks of at most `peck` mm count;
    None: in one go. All pecks are equally deep.
    """
    depth = abs(bottom - surface)
    count = 1 if peck is None else max(1, math.ceil(depth / peck - 1e-9))
    way = math.copysign(1.0, bottom - surface)
    for k in range(1, count):
        x = surface + way * depth * k / count
        trail.feed(z, x, feed)
        trail.rapid(z, x - way * BACK)
    trail.feed(z, bottom, feed)


def spot_words(z: float, x: float, units: Units) -> str:
    """A point (z, radius) in mm -> words such as ``Z -12.5 X 24 (diameter)``."""
    digits = 4 if units is Units.INCH else 3
    return f"Z {units.number(z, digits)} X {units.number(2 * x, digits)} (diameter)"

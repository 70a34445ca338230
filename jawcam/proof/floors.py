"""The flat floors that a program leaves, measured from its cuts alone."""

from __future__ import annotations

import math

import shapely

from jawcam.proof.stock import Stock

__all__ = ["LEAST_AREA", "LEAST_DISC", "floors"]

LEAST_AREA, LEAST_DISC = 1.0, 0.05
"""A floor has at least this area, mm2, and a disc of this diameter, mm, fits into it; less is a
trace between two passes."""


def floors(stock: Stock) -> list[tuple[float, float]]:
    """Each height at which level cuts leave a floor, from the top down, in mm, and the floor's
    area in plan within the blanks, mm2: what is cleared to there and no deeper."""
    rows = []
    before = 0.0
    for rung in stock.rungs:
        area, before = rung.area - before, rung.area
        if area < LEAST_AREA:
            continue
        deeper = stock.cleared(math.nextafter(rung.z, -math.inf))
        left = shapely.difference(shapely.intersection(rung.done, stock.solid), deeper)
        if not shapely.buffer(left, -LEAST_DISC / 2).is_empty and left.area >= LEAST_AREA:
            rows.append((rung.z, float(left.area)))
    return rows[::-1]

"""Getting from one cut to the next: low down where all is cleared, over the top elsewhere."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from jawcam.geometry.cut import along
from jawcam.geometry.measure import inside_distances
from jawcam.geometry.shapes import Line, Point, Region
from jawcam.mill.trail import Trail

__all__ = ["HAIR", "Air", "hop", "straight_way"]

HAIR = 0.5
"""mm; how far above a floor the cutter hovers before it feeds down (common practice, no source)."""


def straight_way(start: Point, end: Point, centre: Sequence[Region]) -> bool:
    """Whether the cutter may go straight from start to end with its centre inside `centre`."""
    if start == end:
        return True
    points = np.array(along(Line(start, end), 0.2))
    return bool((inside_distances(centre, points) >= -0.001).all())


@dataclass(frozen=True)
class Air:
    """Moving without cutting. clearance: the Z (mm) at which nothing is in the way; feed: mm/min
    of moves low down, which go straight where a rapid may bend."""

    clearance: float
    feed: float


def hop(trail: Trail, to: Point, floor: float, cleared: Sequence[Region], air: Air) -> None:
    """Go to hover over `to`, `HAIR` above `floor`, touching nothing.

    cleared: where the cutter's centre may be at that height (everything is cut away around it);
    if the straight way leads through it the cutter stays down and feeds fast, because a control
    may drive its rapids in a bend; else it goes over the top.
    """
    low = min(floor + HAIR, air.clearance)
    if trail.at is not None and cleared and straight_way(trail.plan, to, cleared):
        travel = max(low, trail.at[2])
        trail.rapid(*trail.plan, travel)
        trail.feed(*to, travel, air.feed)
    else:
        if trail.at is not None:
            trail.rapid(*trail.plan, air.clearance)
        trail.rapid(*to, air.clearance)
    trail.rapid(*to, low)

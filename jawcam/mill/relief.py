"""Corner relief: from where the wall pass ends up in a corner on into it, and back."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.geometry.measure import nearest_on
from jawcam.geometry.shapes import Point, Region
from jawcam.hold.target import Relief
from jawcam.mill.links import HAIR, Air, hop, straight_way
from jawcam.mill.trail import Trail

__all__ = ["relieve_corners"]


def relieve_corners(
    trail: Trail,
    reliefs: Sequence[Relief],
    heights: Sequence[float],
    feed: float,
    free: tuple[Region, ...],
    finished: tuple[Region, ...],
    air: Air,
) -> None:
    """Cut each relief level by level. heights: the Z of the levels, in mm; feed: mm/min, as for a
    cut at full width; free, finished: where the cutter's centre may be without touching the wall,
    and touching it."""
    for relief in reliefs:
        clear = _beside(relief, free, finished)
        hop(trail, clear, heights[-1], free, air)
        trail.rapid(*clear, max(heights[0], heights[-1] + HAIR))
        for z in heights:
            for point in (clear, relief.start, relief.end, relief.start, clear):
                trail.feed(*point, z, feed)


def _beside(relief: Relief, free: tuple[Region, ...], finished: tuple[Region, ...]) -> Point:
    """Where to come down for a relief: off the wall if a straight way leads over from there."""
    near = [nearest_on(path, relief.start)[1] for region in free for path in region.paths]
    for point in sorted(near, key=lambda p: math.dist(p, relief.start)):
        if straight_way(point, relief.start, finished):
            return point
    return relief.start

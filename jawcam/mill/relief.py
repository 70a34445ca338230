"""Corner relief: from where the wall pass ends up in a corner on into it, and back."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.geometry.measure import nearest_on
from jawcam.geometry.shapes import Region
from jawcam.hold.target import Relief
from jawcam.mill.links import Air, hop
from jawcam.mill.trail import Trail

__all__ = ["relieve_corners"]


def relieve_corners(
    trail: Trail,
    reliefs: Sequence[Relief],
    heights: Sequence[float],
    feed: float,
    free: tuple[Region, ...],
    air: Air,
) -> None:
    """Cut each relief level by level. heights: the Z of the levels, in mm; feed: mm/min, as for a
    cut at full width; free: where the cutter's centre may be without touching the wall."""
    for relief in reliefs:
        off = [nearest_on(path, relief.start)[1] for region in free for path in region.paths]
        clear = min(off, key=lambda p: math.dist(p, relief.start), default=relief.start)
        hop(trail, clear, heights[-1], free, air)
        trail.rapid(*clear, heights[0])
        for z in heights:
            trail.feed(*clear, z, feed)
            trail.feed(*relief.start, z, feed)
            trail.feed(*relief.end, z, feed)
            trail.feed(*relief.start, z, feed)
            trail.feed(*clear, z, feed)

"""Corner relief: from where the wall pass ends up in a corner on into it, and back."""

from __future__ import annotations

from collections.abc import Sequence

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
    cleared: tuple[Region, ...],
    air: Air,
) -> None:
    """Cut each relief level by level. heights: the Z of the levels, in mm; feed: mm/min, as for a
    cut at full width; cleared: where the cutter's centre may be once the wall is finished."""
    for relief in reliefs:
        for z in heights:
            if trail.at is None or trail.at[:2] != relief.start:
                hop(trail, relief.start, heights[-1], cleared, air)
            trail.feed(*relief.start, z, feed)
            trail.feed(*relief.end, z, feed)
            trail.feed(*relief.start, z, feed)

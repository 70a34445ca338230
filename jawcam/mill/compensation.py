"""What the operator may dial in where the wall is cut with cutter compensation."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.geometry.cut import tangent_at
from jawcam.geometry.shapes import Arc, Path, Region, Segment

__all__ = ["largest_register"]

SHARP = math.radians(0.5)
"""Turns between two segments that are no corner to a control."""

MOST = 0.25
"""mm; more is no dialling in, and would outgrow the smallest lead-in arc."""


def largest_register(centre: Sequence[Region]) -> float:
    """The largest radius (mm) that compensation may shift the wall path inward by.

    None at a sharp inside corner, and less than the radius of every inside arc: a control stops
    at corners and arcs that the shifted path can't follow (NISTIR 6556, appendix B).
    """
    limits = [_limit(path) for region in centre for path in region.paths]
    return min([MOST, *limits])


def _limit(path: Path) -> float:
    limit = MOST
    for before, segment in zip((path.segments[-1], *path.segments), path.segments, strict=False):
        turn = _turn(before, segment)
        if turn > SHARP and len(path.segments) > 1:
            return 0.0
        if isinstance(segment, Arc) and segment.ccw:
            limit = min(limit, segment.radius * 0.9)
    return limit


def _turn(before: Segment, segment: Segment) -> float:
    """The angle from one segment's end to the next one's start, in radians, positive left."""
    (ax, ay), (bx, by) = tangent_at(before, before.end), tangent_at(segment, segment.start)
    return math.atan2(ax * by - ay * bx, ax * bx + ay * by)

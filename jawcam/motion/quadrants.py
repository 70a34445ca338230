"""Arcs and the quadrants about their centres, for controls that take no arc through two of them."""

from __future__ import annotations

import math
from collections.abc import Iterator

from jawcam.motion.arcs import point_on, radius, sweep
from jawcam.motion.moves import ArcFeed, Point3

__all__ = ["in_one_quadrant", "split_at_quadrants"]

_QUARTER = math.pi / 2
_AXES = ((1, 0), (0, 1), (-1, 0), (0, -1))
_SAME = 1e-9  # mm along the arc: an end nearer to an axis than this lies on it


def split_at_quadrants(start: Point3, arc: ArcFeed) -> tuple[ArcFeed, ...]:
    """The arc in pieces that end where it crosses an axis through its centre; the last one ends
    exactly where the arc did."""
    pieces = []
    for share, (east, north) in _crossings(start, arc):
        x, y, z = point_on(start, arc, share)
        (cx, cy), reach = arc.centre, math.dist((x, y), arc.centre)
        to = (cx + east * reach, cy + north * reach, z)  # on the axis without round-off
        pieces.append(ArcFeed(to, arc.centre, arc.ccw, arc.feed))
    return (*pieces, arc)


def in_one_quadrant(start: Point3, arc: ArcFeed) -> bool:
    """Whether the arc crosses no axis through its centre."""
    return next(_crossings(start, arc), None) is None


def _crossings(start: Point3, arc: ArcFeed) -> Iterator[tuple[float, tuple[int, int]]]:
    """The shares of its way at which the arc crosses an axis, and the directions of those."""
    turn, size = sweep(start, arc), radius(start, arc)
    way = 1 if arc.ccw else -1
    slack = _SAME / size if size > 0 else math.inf
    first = math.atan2(start[1] - arc.centre[1], start[0] - arc.centre[0]) * way
    quarter = math.floor((first + slack) / _QUARTER) + 1
    while quarter * _QUARTER - first < turn - slack:
        yield (quarter * _QUARTER - first) / turn, _AXES[quarter * way % 4]
        quarter += 1

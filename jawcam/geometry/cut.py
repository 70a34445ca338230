"""Closed paths begun at a place of one's choice, and points along them."""

from __future__ import annotations

import math

from jawcam.geometry.measure import nearest_on
from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment

__all__ = ["along", "begun_near", "part_of", "point_at", "tangent_at"]

_SAME = 1e-7  # mm


def begun_near(path: Path, near: Point) -> Path:
    """The same closed path, begun at its point nearest to `near`; the segment there is cut in
    two, unless that point is one of its ends."""
    index, point = nearest_on(path, near)
    segment = path.segments[index]
    rest = path.segments[index + 1 :] + path.segments[:index]
    if math.dist(point, segment.end) < 1e-6 and segment.start != segment.end:
        return Path((*rest, segment))
    if math.dist(point, segment.start) < 1e-6:
        return Path((segment, *rest))
    if isinstance(segment, Line):
        return Path((Line(point, segment.end), *rest, Line(segment.start, point)))
    if segment.start == segment.end:
        return Path((Arc(point, point, segment.centre, segment.ccw),))
    head = Arc(segment.start, point, segment.centre, segment.ccw)
    return Path((Arc(point, segment.end, segment.centre, segment.ccw), *rest, head))


def along(segment: Segment, spacing: float) -> list[Point]:
    """Points of a segment, evenly spaced by no more than `spacing` mm, both ends included."""
    count = max(2, math.ceil(segment.length / spacing))
    if isinstance(segment, Arc):
        return [segment.start, *(segment.point(k / count) for k in range(1, count)), segment.end]
    (x0, y0), (x1, y1) = segment.start, segment.end
    shares = [k / count for k in range(count + 1)]
    return [(x0 + (x1 - x0) * t, y0 + (y1 - y0) * t) for t in shares]


def tangent_at(segment: Segment, point: Point) -> Point:
    """The unit direction in which a segment passes a point of its own."""
    if isinstance(segment, Line):
        dx, dy = segment.end[0] - segment.start[0], segment.end[1] - segment.start[1]
    else:
        sign = 1 if segment.ccw else -1
        dx = -(point[1] - segment.centre[1]) * sign
        dy = (point[0] - segment.centre[0]) * sign
    size = math.hypot(dx, dy)
    return (dx / size, dy / size)


def point_at(segment: Segment, way: float) -> Point:
    """The point `way` mm along a segment; an end where it would be nearer than a hair."""
    if way <= _SAME:
        return segment.start
    length = segment.length
    if way >= length - _SAME:
        return segment.end
    if isinstance(segment, Arc):
        return segment.point(way / length)
    (x0, y0), (x1, y1) = segment.start, segment.end
    share = way / length
    return (x0 + share * (x1 - x0), y0 + share * (y1 - y0))


def part_of(segment: Segment, first: float, last: float) -> Segment:
    """The part of a segment from `first` to `last` mm along it."""
    start, end = point_at(segment, first), point_at(segment, last)
    if isinstance(segment, Line):
        return Line(start, end)
    return Arc(start, end, segment.centre, segment.ccw)

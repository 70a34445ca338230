"""A way steered with as few arcs as its load allows, each going on as the one before ends.

Lying d to the right of the way that keeps the load even, and turned to the right of it by an angle
t, a cutter bites off d + R sin(engaged angle) t more, to first order (from R (1 - cos angle), by
how both change the angle). So between "a little more" and "somewhat less" than asked there is a
band to steer in, and that is wide: an arc is followed as long as it stays there.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from jawcam.geometry.cut import along
from jawcam.geometry.rim import Rim
from jawcam.geometry.shapes import Arc, Line, Point, Segment

__all__ = ["Band", "steered"]

_STRAIGHT = 1e-4  # radians; an arc that turns less is a line
_SPREAD = (0.5, 0.0, 0.2, 0.8, 1.0)  # where in the band an arc may end, from its lower edge
_OUTSIDE = 0.001  # mm; the most that an arc may lie outside the rim
_WIDEST = 3.0  # radians; no arc turns further


@dataclass(frozen=True)
class Band:
    """How much more (high) or less (low, negative) than asked may be bitten off, mm; lever:
    R sin(engaged angle), mm; rim: of where the centre may be."""

    low: float
    high: float
    lever: float
    rim: Rim


def steered(
    points: Sequence[Point], ways: Sequence[Point], gains: Sequence[float], band: Band
) -> list[Segment]:
    """Lines and arcs by the points of an even way, exactly from the first to the last. ways: the
    unit directions at each; the first is kept to; gains: what a mm to the right adds to the bite,
    mm, 1 beside a straight front."""
    near = [band.rim.feel(point)[1] is not None for point in points]
    course = _Course(points, ways, gains, near, band)
    segments: list[Segment] = []
    at, last = 0, len(points) - 1
    place, heading = points[0], ways[0]
    while at < last:
        at, pieces = _longest(place, heading, at, course)
        segments += pieces
        place, heading = pieces[-1].end, _end_way(pieces[-1])
    return segments


@dataclass(frozen=True)
class _Course:
    """The even way to keep to. near: whether each point is near the rim."""

    points: Sequence[Point]
    ways: Sequence[Point]
    gains: Sequence[float]
    near: Sequence[bool]
    band: Band


def _longest(place: Point, heading: Point, at: int, course: _Course) -> tuple[int, list[Segment]]:
    """The one or two arcs that get farthest, and by which point they end."""
    last = len(course.points) - 1
    good, found = at, None
    stride = 1
    while good + stride <= last and (pieces := _best(place, heading, at, good + stride, course)):
        good, found = good + stride, pieces
        stride *= 2
    bad = min(good + stride, last + 1)
    while bad - good > 1:
        middle = (good + bad) // 2
        pieces = _best(place, heading, at, middle, course)
        if pieces:
            good, found = middle, pieces
        else:
            bad = middle
    if not found:
        return at + 1, _straight(place, course.points[at + 1], course.band.rim)
    return good, found


def _straight(start: Point, end: Point, rim: Rim) -> list[Segment]:
    """A line; past a bulge of the rim two, by the nearest point of that."""
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    gap, spot = rim.feel(middle)
    if gap >= -_OUTSIDE or spot is None:
        return [Line(start, end)]
    foot = rim.point(spot)
    return [Line(start, foot), Line(foot, end)]


def _best(place: Point, heading: Point, at: int, end: int, course: _Course) -> list[Segment] | None:
    """One arc to beside a point, else two to the very point, if they keep to the course."""
    band, (x, y), (wx, wy) = course.band, course.points[end], course.ways[end]
    spread = _SPREAD if end < len(course.points) - 1 else (None,)
    for share in spread:
        aside = 0.0 if share is None else band.low + share * (band.high - band.low)
        piece = _tangent(place, heading, (x + wy * aside, y - wx * aside))
        if piece is not None and _fits(piece, course, at, end, ending=share is not None):
            return [piece]
    return _two(place, heading, at, end, course)


def _two(place: Point, heading: Point, at: int, end: int, course: _Course) -> list[Segment] | None:
    """Two arcs whose tangents at either end are equally long up to where they meet."""
    (ax, ay), (bx, by), way = place, course.points[end], course.ways[end]
    dx, dy = bx - ax, by - ay
    along = dx * (heading[0] + way[0]) + dy * (heading[1] + way[1])
    square = dx * dx + dy * dy
    apart = max(0.0, 1 - heading[0] * way[0] - heading[1] * way[1])
    root = along + math.sqrt(along * along + 2 * apart * square)
    if root <= 0:
        return None
    size = square / root
    joint = (
        (ax + bx + size * (heading[0] - way[0])) / 2,
        (ay + by + size * (heading[1] - way[1])) / 2,
    )
    first = _tangent(place, heading, joint)
    second = _tangent((bx, by), (-way[0], -way[1]), joint)
    if first is None or second is None:
        return None
    second = second.reversed()
    (hx, hy), points = _end_way(first), course.points
    split = at
    while (
        split < end
        and hx * (points[split + 1][0] - joint[0]) + hy * (points[split + 1][1] - joint[1]) < 0
    ):
        split += 1
    fits = _fits(first, course, at, split, ending=False) and _fits(
        second, course, split, end, ending=False
    )
    return [first, second] if fits else None


def _fits(piece: Segment, course: _Course, first: int, last: int, *, ending: bool) -> bool:
    """Whether a piece stays in the band by all points after `first` up to `last`, and inside;
    ending: and nearly in the right direction at the last."""
    band = course.band
    for k in range(last, first, -1):
        (x, y), (wx, wy) = course.points[k], course.ways[k]
        if isinstance(piece, Arc):
            cx, cy = x - piece.centre[0], y - piece.centre[1]
            size = math.hypot(cx, cy) or 1e-12
            sign = 1.0 if piece.ccw else -1.0
            aside = (piece.radius - size) * sign
            hx, hy = -cy / size * sign, cx / size * sign
        else:
            hx, hy = _end_way(piece)
            aside = hx * (y - piece.start[1]) - hy * (x - piece.start[0])
        turn = band.lever * (hx * wy - hy * wx)
        more = turn + (course.gains[k] * aside if aside > 0 else aside)
        if not band.low <= more <= band.high or abs(aside) > -band.low:
            return False
        if hx * wx + hy * wy < 0.5 or (k == last and ending and turn < band.low / 2):
            return False
        if course.near[k] and k != last:
            there = (x + hy * aside, y - hx * aside)
            if band.rim.gap(there) < -_OUTSIDE:
                return False
    if not course.near[last]:
        return True
    places = (piece.end, along(piece, piece.length / 2)[1])
    return all(band.rim.gap(place) >= -_OUTSIDE for place in places)


def _tangent(place: Point, heading: Point, end: Point) -> Segment | None:
    """The arc that leaves a place in a direction and ends at a point; None if it would turn by
    half a turn."""
    (x, y), (hx, hy) = place, heading
    dx, dy = end[0] - x, end[1] - y
    ahead, aside = dx * hx + dy * hy, hx * dy - hy * dx
    turn = 2 * math.atan2(aside, ahead)
    if abs(turn) >= _WIDEST or (dx == 0 and dy == 0):
        return None
    if abs(turn) < _STRAIGHT:
        return Line(place, end)
    radius = (dx * dx + dy * dy) / (2 * aside)  # positive to the left
    return Arc(place, end, (x - hy * radius, y + hx * radius), turn > 0)


def _end_way(piece: Segment) -> Point:
    """The direction in which a piece ends."""
    if isinstance(piece, Line):
        size = piece.length or 1e-12
        return (
            (piece.end[0] - piece.start[0]) / size,
            (piece.end[1] - piece.start[1]) / size,
        )
    sign = 1.0 if piece.ccw else -1.0
    cx, cy = piece.end[0] - piece.centre[0], piece.end[1] - piece.centre[1]
    size = math.hypot(cx, cy) or 1e-12
    return (-cy / size * sign, cx / size * sign)

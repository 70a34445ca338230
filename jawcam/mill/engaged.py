"""Where a cutter's circle leaves the front that it follows, and what it bites off there."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from jawcam.geometry.cut import along, tangent_at
from jawcam.geometry.shapes import Path, Point

__all__ = ["cross", "dot", "leaving", "passed", "peak_along", "ways_along"]


def ways_along(points: Sequence[Point]) -> list[float]:
    """How far along a row of points each lies, mm."""
    found = [0.0]
    for a, b in pairwise(points):
        found.append(found[-1] + math.dist(a, b))
    return found


def passed(
    ahead: Sequence[Point],
    way: Sequence[float],
    place: Point,
    heading: Point,
    index: int,
    radius: float,
    *,
    look: bool,
) -> int:
    """The last point of a front that the circle about a place has passed, from number `index` on.
    look: also whether the front comes back into the circle further on."""
    (cx, cy), (hx, hy) = place, heading
    square, count, at = radius * radius, len(ahead), index
    while at + 1 < count:
        dx, dy = ahead[at + 1][0] - cx, ahead[at + 1][1] - cy
        if dx * dx + dy * dy > square and dx * hx + dy * hy >= 0:
            break
        at += 1
    if look:
        far, back = way[at] + 2 * radius, at + 2
        while back < count and way[back] < far:
            dx, dy = ahead[back][0] - cx, ahead[back][1] - cy
            if dx * dx + dy * dy < 0.9999 * square and dx * hx + dy * hy > 0:
                at = back
            back += 1
    return at


def leaving(ahead: Sequence[Point], at: int, place: Point, square: float) -> tuple[float, float]:
    """From a place to where the front, after point number `at`, leaves the circle about it."""
    (cx, cy), (ax, ay) = place, ahead[at]
    ax, ay = ax - cx, ay - cy
    if at + 1 == len(ahead):
        return ax, ay
    dx, dy = ahead[at + 1][0] - cx - ax, ahead[at + 1][1] - cy - ay
    long = dx * dx + dy * dy
    if long == 0:
        return ax, ay
    half = ax * dx + ay * dy
    root = half * half - long * (ax * ax + ay * ay - square)
    share = (-half + math.sqrt(root) if root > 0 else -half) / long
    share = min(max(share, 0.0), 1.0)
    return ax + share * dx, ay + share * dy


def peak_along(front: Sequence[Point], path: Path, radius: float, spacing: float) -> float:
    """The widest bite of a cutter of `radius` mm along a path that follows a front, mm, looked at
    every `spacing` mm at least."""
    peak, at = 0.0, 0
    way = ways_along(front)
    for segment in path.segments:
        for place in along(segment, spacing)[1:]:
            heading = tangent_at(segment, place)
            at = passed(front, way, place, heading, at, radius, look=False)
            peak = max(peak, _bite(front, way, at, place, heading, radius))
    return peak


def _bite(
    front: Sequence[Point],
    way: Sequence[float],
    at: int,
    place: Point,
    heading: Point,
    radius: float,
) -> float:
    """What is bitten off at a place: from where the front comes into the circle, or the right
    hand, to where it leaves it, all such pieces together."""
    (cx, cy), (hx, hy), square = place, heading, radius * radius
    count, far, width = len(front), way[at] + 2 * radius, 0.0
    within = (front[at][0] - cx) ** 2 + (front[at][1] - cy) ** 2 <= square
    while at + 1 < count and way[at] < far:
        dx, dy = front[at + 1][0] - cx, front[at + 1][1] - cy
        inside = dx * dx + dy * dy <= square
        if inside != within and dx * hx + dy * hy > 0:
            reach = radius - (dx * hy - dy * hx)
            width += reach if within else -reach
        within, at = inside, at + 1
    return width


def cross(a: Point, b: Point) -> float:
    """The sine of the angle from one unit vector to the left to another."""
    return a[0] * b[1] - a[1] * b[0]


def dot(a: Point, b: Point) -> float:
    """The cosine of the angle between two unit vectors."""
    return a[0] * b[0] + a[1] * b[1]

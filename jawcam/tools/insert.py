"""The shapes of indexable inserts as they stand in their holders.

Shapes lie in the plane (z, x) of the lathe, in mm, with the centre of the nose circle at (0, 0):
z along the axis, + away from the chuck, x away from the axis.
"""

from __future__ import annotations

import math

from jawcam.errors import InternalError
from jawcam.tools.designation import DesignationError, Slip, corners, edge_length, parse
from jawcam.tools.turner import Insert, Turner

__all__ = [
    "KEPT_CLEAR",
    "DesignationError",
    "Point",
    "Slip",
    "edge_length",
    "outline",
    "parse",
    "set_point_offset",
    "steepest",
    "wedge",
]

Point = tuple[float, float]
"""(z, x), a place in mm or a direction."""

KEPT_CLEAR = 2.0
"""Degrees kept between an edge and the wall that it passes: common practice, no source."""

_STEP = 5.0  # degrees between the points of a nose: off its circle by R / 1000


def wedge(tool: Turner) -> tuple[Point, Point]:
    """Directions from the nose along the main edge and along the trailing edge, unit vectors.

    The main edge of a right-hand outside tool runs along (-cos K, sin K), the trailing edge at
    180 - K - E degrees counter-clockwise from +z (K: approach, E: the insert's angle); left-hand
    tools are mirrored in z, inside ones in x. A round insert has both edges in one.
    """
    main = 180 - tool.approach
    trailing = main - _insert(tool).angle
    return _placed(tool, _direction(main)), _placed(tool, _direction(trailing))


def outline(tool: Turner) -> tuple[Point, ...]:
    """The insert of a turning or boring tool: a convex polygon, counter-clockwise.

    Relative to the centre of the nose circle. The nose has points on its circle, the first and
    the last where the edges touch it; the other corners are sharp.
    """
    insert = _insert(tool)
    main = 180 - tool.approach
    if insert.shape == "R" or insert.angle <= 0:
        points = _arc(insert.radius, 0, 360)[:-1]
    else:
        points = _nose(insert, main) + _far_corners(insert, main)
    placed = tuple(_placed(tool, point) for point in points)
    return placed[::-1] if (tool.hand == "left") != tool.inside else placed


def _nose(insert: Insert, main: float) -> list[Point]:
    if insert.radius <= 0:
        return [(0.0, 0.0)]
    return _arc(insert.radius, main + 90, main + 270 - insert.angle)


def _far_corners(insert: Insert, main: float) -> list[Point]:
    """Round from the end of the trailing edge to the end of the main one."""
    along = _direction(main - insert.angle / 2)
    back = -insert.radius / math.sin(math.radians(insert.angle / 2))
    z, x = back * along[0], back * along[1]
    length, heading = edge_length(insert), main - insert.angle
    points = []
    for corner in corners(insert)[1:]:
        step = _direction(heading)
        z, x = z + length * step[0], x + length * step[1]
        points.append((z, x))
        heading += 180 - corner
    return points


def set_point_offset(tool: Turner) -> Point:
    """From the nose centre to the set point, which the program tells: (dz, dx) in mm.

    Turning and boring: the corner of the nose circle's box that is ahead in Z (neutral tools: the
    centre's own Z) and towards the wall; grooving and parting: the same of the corner towards the
    chuck. The others have no nose: (0, 0).
    """
    wall = 1.0 if tool.inside else -1.0
    if tool.kind in {"turning", "boring"}:
        ahead = {"right": -1.0, "left": 1.0, "neutral": 0.0}[tool.hand]
        radius = _insert(tool).radius
        return ahead * radius, wall * radius
    if tool.kind in {"grooving", "parting"}:
        return -tool.radius, wall * tool.radius
    return 0.0, 0.0


def steepest(tool: Turner) -> tuple[float, float]:
    """The steepest walls that a turning or boring tool follows, in degrees to the axis: those
    that close in on the tool towards the chuck (shoulders), and those that fall away from it.

    Of a right-hand tool the main edge bears the first: up to K - 2 degrees, but a square shoulder
    (90) from K = 90 on; more than 90 leans beyond square. The trailing edge bears the second: up
    to 180 - K - E - 2, 0 if it has no room at all. Of a left-hand tool, the other way round.
    """
    main = tool.approach - KEPT_CLEAR
    if tool.approach >= 90:
        main = max(main, 90.0)
    trailing = max(180 - tool.approach - _insert(tool).angle - KEPT_CLEAR, 0.0)
    return (trailing, main) if tool.hand == "left" else (main, trailing)


def _insert(tool: Turner) -> Insert:
    if tool.insert is None:
        raise InternalError(f"tool {tool.number}, a {tool.kind} tool, has no insert")
    return tool.insert


def _direction(degrees: float) -> Point:
    return math.cos(math.radians(degrees)), math.sin(math.radians(degrees))


def _arc(radius: float, start: float, end: float) -> list[Point]:
    count = math.ceil((end - start) / _STEP)
    angles = (start + (end - start) * i / count for i in range(count + 1))
    return [(radius * z, radius * x) for z, x in map(_direction, angles)]


def _placed(tool: Turner, point: Point) -> Point:
    """A place or direction of the right-hand outside tool, for this one."""
    z, x = point
    return -z if tool.hand == "left" else z, -x if tool.inside else x

"""One corner that a round cutter leaves, and the ways to make room in it for a sharper part.

All are worked out from where the cutter ends up in the corner: its centre at `start`, its rim
touching both walls. With walls that meet at an angle of 2 h the corner's tip is r / sin(h) away.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from jawcam.geometry.cut import along, tangent_at
from jawcam.geometry.measure import inside_distances, nearest_on
from jawcam.geometry.shapes import Point, Region
from jawcam.hold.target import Hole, Relief
from jawcam.tools.cutter import Cutter

__all__ = ["AIR", "Corner", "along_bisector", "along_wall", "corner_of", "drilled", "least_drill"]

AIR = 0.02
"""mm of air that a relief gives beyond the pocket's corner (common practice, no source)."""

_NEAR = 0.01  # mm; a corner that was measured is no farther from the true one
_SAME = 1e-6  # mm; points nearer than this are one
_FLUSH = 1e-5  # mm; what lies no farther inside the cutter's flank lies on it


@dataclass(frozen=True)
class Corner:
    """A corner of the pocket and the cutter in it, in mm. start: the cutter's centre; radius: the
    cutter's; tip: the corner's point farthest from there; rest: what the cutter leaves. ways: the
    unit directions along the two walls into the corner; touches: where the rim touches them; both
    empty if the cutter does not touch two walls."""

    start: Point
    radius: float
    tip: Point
    rest: Region
    ways: tuple[Point, ...]
    touches: tuple[Point, ...]

    @property
    def way(self) -> float:
        """From the cutter's centre to the tip."""
        return math.dist(self.start, self.tip)

    @property
    def bisector(self) -> Point:
        """The unit direction from the cutter's centre to the tip."""
        (x0, y0), (x1, y1) = self.start, self.tip
        return ((x1 - x0) / self.way, (y1 - y0) / self.way)


def corner_of(
    rest: Region, centre: Sequence[Region], pockets: Sequence[Region], radius: float
) -> Corner:
    """The corner that `rest` is left in. centre: where the cutter's centre can be."""
    points = [p for s in rest.outer.segments for p in along(s, s.length / 2)]
    depth = -inside_distances(centre, np.array(points))
    tip = points[int(np.argmax(depth))]
    start = _nearest(centre, tip)
    # the rest was measured but for its last hair; the pocket itself knows its tip
    exact = [_nearest(pockets, tip), *_vertices(pockets)]
    near = [point for point in exact if math.dist(point, tip) <= _NEAR]
    tip = max(near, key=lambda p: math.dist(p, start), default=tip)
    ways, touches = _walls(centre, start, radius)
    return Corner(start, radius, tip, rest, ways, touches)


def along_bisector(corner: Corner, floor: float) -> Relief:
    """From where the cutter ends up on towards the tip, until it just takes the tip away."""
    end = _on(corner.start, corner.bisector, corner.way - corner.radius + AIR)
    return Relief(corner.start, end, corner.radius, corner.tip, floor)


def along_wall(corner: Corner, floor: float) -> Relief | None:
    """From where the cutter ends up on along the wall that runs more nearly along X, which so
    stays whole, until all the corner is taken away: between straight walls as far as their tip,
    by r / tan(h). None if the cutter does not touch two walls there."""
    if not corner.ways:
        return None
    way = min(corner.ways, key=lambda d: (-round(abs(d[0]), 6), d))
    end = _on(corner.start, way, _clearing(corner, way) + AIR)
    return Relief(corner.start, end, corner.radius, corner.tip, floor)


def drilled(corner: Corner, drill: Cutter, floor: float) -> Hole:
    """A hole on the bisector that reaches just beyond the tip."""
    back = drill.radius - AIR
    x, y = _on(corner.tip, corner.bisector, -back)
    return Hole(x, y, drill.dia, floor, floor - drill.point_length, drill.number, "relief")


def least_drill(corner: Corner, touching: Sequence[Region], parts: Sequence[Region]) -> float:
    """The diameter of the least drill that clears the corner, in mm. touching: what the cutter
    leaves there that the part touches.

    The hole's centre lies R - AIR from the tip; a point m from the tip and q back along the
    bisector is cleared if R >= (m2 + 2 q AIR + AIR2) / (2 (q + AIR)). Where the part fills the
    corner as far as the rim touches the walls, that is r / sin(h) in all, but for the AIR.
    """
    points = [
        p for region in touching for s in region.outer.segments for p in along(s, s.length / 8)
    ]
    if corner.touches:
        within = inside_distances(parts, np.array(corner.touches)) > -_SAME
        points += itertools.compress(corner.touches, within)
    (x, y), (ux, uy) = corner.tip, corner.bisector
    least = 0.0
    for px, py in points:
        back = (x - px) * ux + (y - py) * uy + AIR
        if back <= 0:
            continue
        size = (math.hypot(px - x, py - y) ** 2 + 2 * back * AIR - AIR**2) / (2 * back)
        least = max(least, 2 * size)
    return least


def _clearing(corner: Corner, way: Point) -> float:
    """How far the cutter must be driven along `way` to take all corner points of the rest that
    its track is wide enough for.

    One that lies `ahead` of the cutter's centre and `aside` of its track is taken by the rim once
    the centre is sqrt(r2 - aside2) from being abreast of it. Where the rest ends in an arc that
    leads on from the wall, that is where the wall ends.
    """
    far, r = 0.0, corner.radius
    for x, y in (corner.tip, *(segment.start for segment in corner.rest.outer.segments)):
        dx, dy = x - corner.start[0], y - corner.start[1]
        ahead, aside = dx * way[0] + dy * way[1], abs(dx * way[1] - dy * way[0])
        far = max(far, ahead - (math.sqrt(r**2 - aside**2) if aside < r - _FLUSH else 0.0))
    return far


def _walls(
    centre: Sequence[Region], start: Point, radius: float
) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """The directions along both walls, and where the rim touches them: the border of where the
    centre can be runs beside the walls, the inside on its left, and has a corner there."""
    for path in (path for region in centre for path in region.paths):
        for before, after in itertools.pairwise((path.segments[-1], *path.segments)):
            if math.dist(after.start, start) <= _SAME:
                into, out = tangent_at(before, start), tangent_at(after, start)
                touches = [_on(start, (d[1], -d[0]), radius) for d in (into, out)]
                return (into, (-out[0], -out[1])), tuple(touches)
    return (), ()


def _vertices(regions: Sequence[Region]) -> list[Point]:
    return [s.start for region in regions for path in region.paths for s in path.segments]


def _nearest(regions: Sequence[Region], point: Point) -> Point:
    feet = (nearest_on(path, point)[1] for region in regions for path in region.paths)
    return min(feet, key=lambda p: math.dist(p, point))


def _on(point: Point, way: Point, far: float) -> Point:
    return (point[0] + way[0] * far, point[1] + way[1] * far)

"""Where the edge of a grooving insert may go between the walls of a groove.

Everything here is in the plane (z, h), h growing out of the groove, and tells of the middle of
the edge: the point half-way between the centres of the two corners.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from jawcam.geometry.combine import difference, union
from jawcam.geometry.cut import tangent_at
from jawcam.geometry.offset import grow
from jawcam.geometry.shapes import Line, Path, Point, Region, Segment, polygon
from jawcam.geometry.sweep import slid_along_x
from jawcam.geometry.transform import mirrored, moved, turned
from jawcam.tolerance import Tolerance

__all__ = ["Edge", "filled_below", "floor_at", "free", "levels", "turned_over", "walls"]

_NEAR = 1e-3  # mm; points and levels nearer than this were meant to be the same
_FLAT = 1e-6  # mm


@dataclass(frozen=True)
class Edge:
    """The edge of the insert: its width, the radius of its corners, and what it leaves, in mm."""

    width: float
    radius: float
    leave: float = 0.0

    @property
    def half(self) -> float:
        """From the middle of the edge to the centre of either corner."""
        return max(self.width / 2 - self.radius, 0.0)

    @property
    def off(self) -> float:
        """How far the centres of the corners stay off the walls."""
        return self.radius + self.leave


def turned_over(region: Region) -> Region:
    """The region with its second coordinate negated: a bore's groove as one of the outside."""
    return Region(*_each(region, lambda path: mirrored(turned(path, 180))))


def filled_below(regions: Sequence[Region], depth: float, tolerance: Tolerance) -> list[Region]:
    """The regions and all that lies up to `depth` mm below them: what a tool from above meets."""
    found = []
    for region in regions:
        side = Region(*_each(region, lambda path: turned(path, 90)))
        for slid in slid_along_x(side, depth / 2, tolerance):
            back = _each(slid, lambda path: turned(moved(path, depth / 2, 0), -90))
            found.append(Region(*back))
    return list(union(found, tolerance))


def free(
    solid: Sequence[Region], edge: Edge, box: tuple[float, float, float, float], tol: Tolerance
) -> tuple[Region, ...]:
    """Where in a box (z min, h min, z max, h max) the middle of the edge may be.

    solid: filled below. The tool is the two corners, all between them and all above, so that it
    stays off exactly where the middle lies in the solid grown by a corner and slid by half the
    edge to either side.
    """
    shut = [
        slid for grown in grow(solid, edge.off, tol) for slid in slid_along_x(grown, edge.half, tol)
    ]
    z0, h0, z1, h1 = box
    whole = Region(polygon([(z0, h0), (z1, h0), (z1, h1), (z0, h1)]))
    return difference([whole], shut, tol)


def walls(place: Region, edge: Edge, free_place: Region) -> tuple[Segment, ...]:
    """How the middle of the edge runs along the walls and the bottom of a place, from left to
    right: what of the boundary of a free place has the edge touch the place's own outline. Empty
    if nothing does."""
    path = free_place.outer
    top = path.box[3]
    lid = [k for k, seg in enumerate(path.segments) if min(seg.start[1], seg.end[1]) > top - _FLAT]
    if not lid:
        return ()
    chain = list(path.turned_to_start(lid[-1]).segments)
    chain = [seg for seg in chain if min(seg.start[1], seg.end[1]) <= top - _FLAT]
    while chain and not _touches(chain[0], place, edge):
        chain.pop(0)
    while chain and not _touches(chain[-1], place, edge):
        chain.pop()
    return tuple(chain)


def floor_at(place: Region, z: float) -> float:
    """The lowest h of a region at z, infinite beside it."""
    return min(levels(place.outer, z), default=math.inf)


def levels(path: Path, z: float) -> list[float]:
    """The h where an upright line at z meets a path, in order."""
    found: list[float] = []
    for seg in path.segments:
        (z0, h0), (z1, h1) = seg.start, seg.end
        if isinstance(seg, Line):
            if min(z0, z1) <= z <= max(z0, z1):
                share = (z - z0) / (z1 - z0) if z0 != z1 else 0.0
                found.append(h0 + share * (h1 - h0))
            continue
        aside = z - seg.centre[0]
        if abs(aside) <= seg.radius:
            rise = math.sqrt(seg.radius**2 - aside**2)
            first = math.atan2(h0 - seg.centre[1], z0 - seg.centre[0])
            for up in (rise, -rise):
                turn = (math.atan2(up, aside) - first) * (1 if seg.ccw else -1) % (2 * math.pi)
                if turn <= seg.sweep:
                    found.append(seg.centre[1] + up)
    return sorted(found)


def _each(region: Region, change: Callable[[Path], Path]) -> tuple[Path, tuple[Path, ...]]:
    return change(region.outer), tuple(change(hole) for hole in region.holes)


def _touches(segment: Segment, place: Region, edge: Edge) -> bool:
    """Whether the edge, its middle moving along a segment with the solid on the right, has more
    than a point of the place's outline under it."""
    z0, _, z1, _ = place.outer.box
    way = tangent_at(segment, segment.start)
    if isinstance(segment, Line) and abs(way[1]) < _FLAT:
        return _level_floor(segment, place, edge)
    first, last = (_touched(segment, end, edge) for end in (segment.start, segment.end))
    if isinstance(segment, Line) and abs(way[0]) < _FLAT:
        return z0 - _NEAR <= first[0] <= z1 + _NEAR
    low, high = sorted((first[0], last[0]))
    return math.dist(first, last) > _NEAR and min(high, z1) - max(low, z0) > _NEAR


def _touched(segment: Segment, middle: Point, edge: Edge) -> Point:
    """The point of the walls that the edge touches, its middle at a point of a segment."""
    along, up = tangent_at(segment, middle)
    side = -edge.half if segment.end[1] < segment.start[1] else edge.half
    return (middle[0] + side + edge.off * up, middle[1] - edge.off * along)


def _level_floor(segment: Line, place: Region, edge: Edge) -> bool:
    """Whether the place has a level bottom just below a level segment."""
    floor = segment.start[1] - edge.off
    low, high = segment.start[0] - edge.width / 2, segment.end[0] + edge.width / 2
    return any(
        min(seg.end[0], high) - max(seg.start[0], low) > _NEAR
        and max(abs(seg.start[1] - floor), abs(seg.end[1] - floor)) < _NEAR
        for seg in place.outer.segments
        if isinstance(seg, Line)
    )

"""Getting from one cut to the next: up, along Z, down, in the clear."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence

from jawcam.errors import InternalError
from jawcam.geometry.flatten import polyline
from jawcam.geometry.measure import contains
from jawcam.geometry.shapes import Arc, Line, Point, Region, Segment
from jawcam.turn.trail import TurnTrail

__all__ = ["enters", "hop", "where_enters"]

_TOUCH = 1e-4  # mm; a way that goes no deeper into a place only touches it
_CHORD = 0.01  # mm; how far from an arc its chords may lie where a way along it is looked at


def enters(way: Segment, regions: Sequence[Region]) -> bool:
    """Whether a way goes into any of the regions, more than to touch it."""
    return where_enters(way, regions) is not None


def where_enters(way: Segment, regions: Sequence[Region]) -> Point | None:
    """A point of a way that lies in the regions, deeper than to touch them; None if all of it is
    outside."""
    chords = polyline(way, _CHORD)
    for start, end in itertools.pairwise(chords):
        for region in regions:
            found = _within(start, end, region)
            if found is not None:
                return found
    return None


def hop(trail: TurnTrail, to: Point, heights: Sequence[float], taken: Sequence[Region]) -> None:
    """Go to a point at full speed: up, along Z and down, as low as it is clear of what is taken;
    the last of the heights must be clear anyway."""
    if trail.at is None:
        trail.rapid(to[0], heights[-1])
        trail.rapid(*to)
        return
    start = trail.at
    base = max(start[1], to[1])
    tries = [base, *(height for height in heights if height > base)]
    for height in tries:
        marks = [start, (start[0], height), (to[0], height), to]
        legs = [Line(a, b) for a, b in itertools.pairwise(marks) if a != b]
        if not any(enters(leg, taken) for leg in legs):
            for leg in legs:
                trail.rapid(*leg.end)
            return
    raise InternalError(f"no way leads from {start} to {to} of a turned part")


def _within(start: Point, end: Point, region: Region) -> Point | None:
    """The middle of a piece of a line that lies in a region."""
    z0, x0, z1, x1 = region.outer.box
    beside_z = max(start[0], end[0]) <= z0 or min(start[0], end[0]) >= z1
    beside_x = max(start[1], end[1]) <= x0 or min(start[1], end[1]) >= x1
    if beside_z or beside_x:
        return None
    cuts = {0.0, 1.0}
    for path in region.paths:
        for segment in path.segments:
            cuts.update(_shares(start, end, segment))
    shares = sorted(cuts)
    for a, b in itertools.pairwise(shares):
        t = (a + b) / 2
        middle = (start[0] + t * (end[0] - start[0]), start[1] + t * (end[1] - start[1]))
        if contains([region], middle, -_TOUCH):
            return middle
    return None


def _shares(start: Point, end: Point, segment: Segment) -> Iterator[float]:
    """Where along a line (0 to 1) the line or circle of a segment crosses it; its ends too."""
    (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
    size = dx * dx + dy * dy
    if size == 0:
        return
    found = [((p[0] - x) * dx + (p[1] - y) * dy) / size for p in (segment.start, segment.end)]
    if isinstance(segment, Arc):
        cx, cy = segment.centre[0] - x, segment.centre[1] - y
        middle = (cx * dx + cy * dy) / size
        room = segment.radius**2 - (cx * dy - cy * dx) ** 2 / size
        if room > 0:
            half = math.sqrt(room / size)
            found += [middle - half, middle + half]
    else:
        ex, ey = segment.end[0] - segment.start[0], segment.end[1] - segment.start[1]
        cross = dx * ey - dy * ex
        if cross != 0:
            found.append(((segment.start[0] - x) * ey - (segment.start[1] - y) * ex) / cross)
    yield from (t for t in found if 0 < t < 1)

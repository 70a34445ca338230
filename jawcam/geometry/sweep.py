"""The region that a region covers when it slides to and fro along X."""

from __future__ import annotations

import itertools
import math

from jawcam.geometry.combine import union
from jawcam.geometry.shapes import Arc, Line, Path, Region, Segment
from jawcam.geometry.transform import moved
from jawcam.tolerance import Tolerance

__all__ = ["slid_along_x"]

_NOTHING = 1e-6  # mm; less than what two points must be apart to be two


def slid_along_x(region: Region, reach: float, tolerance: Tolerance) -> tuple[Region, ...]:
    """All places that the region covers when moved by -reach to +reach mm along X. Exact.

    It is the union of the region at either end of its travel and of what its boundary sweeps
    between; a boundary piece that rises or falls all the way sweeps a simple strip.
    """
    if reach < _NOTHING:
        return (region,)
    ends = [Region(*_both(region, shift)) for shift in (-reach, reach)]
    strips = [
        _strip(piece, reach)
        for path in region.paths
        for segment in path.segments
        for piece in _rising(segment)
    ]
    return union([*ends, *(strip for strip in strips if strip is not None)], tolerance)


def _both(region: Region, shift: float) -> tuple[Path, tuple[Path, ...]]:
    return moved(region.outer, shift, 0), tuple(moved(hole, shift, 0) for hole in region.holes)


def _rising(segment: Segment) -> list[Segment]:
    """A segment cut at its lowest and highest points, so that each piece only rises or falls."""
    if isinstance(segment, Line):
        return [segment]
    sign = 1 if segment.ccw else -1
    first = math.atan2(segment.start[1] - segment.centre[1], segment.start[0] - segment.centre[0])
    turns = sorted((angle - first) * sign % (2 * math.pi) for angle in (math.pi / 2, -math.pi / 2))
    marks = [segment.start]
    marks += [segment.point(t / segment.sweep) for t in turns if 1e-9 < t < segment.sweep - 1e-9]
    marks.append(segment.end)
    return [Arc(a, b, segment.centre, segment.ccw) for a, b in itertools.pairwise(marks)]


def _strip(piece: Segment, reach: float) -> Region | None:
    """What a piece that only rises or falls sweeps; None if it is level."""
    if abs(piece.end[1] - piece.start[1]) < 1e-9:
        return None
    left, right = _shifted(piece, -reach), _shifted(piece, reach)
    back = right.reversed()
    outline = Path((left, Line(left.end, right.end), back, Line(back.end, left.start)))
    return Region(outline if outline.area > 0 else outline.reversed())


def _shifted(piece: Segment, dx: float) -> Segment:
    return moved(Path((piece,)), dx, 0).segments[0]

"""What a turning tool can't reach for its own shape: behind edges, down walls too steep for it.

The nose is let down on the work from the outside, so nothing lies under a shelf; and whatever the
two edges of the tool would touch first keeps it out of what lies in its shadow. The shadow of a
point is the wedge of the tool turned upside down; those of the corners, and of the points of arcs
that just have the limiting slope, are all that matter.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence

from jawcam.geometry.combine import difference, intersection, union
from jawcam.geometry.narrow import Narrow, substantial
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.shapes import Arc, Line, Path, Point, Region, Segment, polygon
from jawcam.tolerance import Tolerance
from jawcam.turn.edge import CuttingEdge, View

__all__ = [
    "box",
    "covered",
    "hull_box",
    "left_for_others",
    "lowest",
    "reachable",
    "rounded_off",
]

_HAIR = 1e-9  # mm; no strip is narrower


def reachable(
    part: Region, edge: CuttingEdge, tolerance: Tolerance, *, beside: Sequence[Region] = ()
) -> tuple[Region, ...]:
    """The part (and what stands `beside` it) with everything that the edge's slopes keep it out
    of, down to the axis, or out to the part's outside for a bore: what turning with this tool can
    leave at best, but for the roundness of its nose."""
    view = View.of(edge)
    seen = [view.region(region) for region in (part, *beside)]
    solid = covered(seen, edge.falls, edge.rises, lowest(seen), tolerance)
    return tuple(view.region(region) for region in solid)


def left_for_others(
    part: Region,
    reached: Sequence[Region],
    edge: CuttingEdge,
    tolerance: Tolerance,
    *,
    limit: float = -math.inf,
) -> tuple[Narrow, ...]:
    """The places along the part in front of `limit` that stay if only what is outside of `reached`
    is cut, each with its roomiest point and its size. `reached` is what `reachable` gave; where the
    nose is too round for a corner is counted if it went through `rounded_off` after that."""
    view = View.of(edge)
    seen = [view.region(part)]
    shadowed = [view.region(region) for region in reached]
    floor = min(lowest(seen), lowest(shadowed))
    z0, _, z1, _ = part.outer.box
    _, _, _, top = hull_box(shadowed)
    (low, _), (high, _) = sorted((view.point((max(limit, z0), 0.0)), view.point((z1, 0.0))))
    within = intersection(shadowed, [box(low, high, floor, top)], tolerance)
    stays = difference(within, [*seen, *_strips(seen, floor)], tolerance)
    return substantial([view.region(region) for region in stays], tolerance)


def covered(
    regions: Sequence[Region], falls: float, rises: float, floor: float, tolerance: Tolerance
) -> tuple[Region, ...]:
    """Regions with their shadows, seen as a right-hand outside tool meets them, down to x =
    `floor`; all made one by a strip below that."""
    z0, _, z1, _ = hull_box(regions)
    shadows = [
        shadow
        for point in _apexes(regions, falls, rises)
        if (shadow := _shadow(point, falls, min(rises, 90.0), z0, floor)) is not None
    ]
    base = box(z0, z1, floor - 1, floor)
    return union([*regions, *_strips(regions, floor), *shadows, base], tolerance)


def lowest(regions: Sequence[Region]) -> float:
    """The least x of regions, but never above the axis."""
    return min(0.0, *(region.outer.box[1] for region in regions))


def box(z0: float, z1: float, x0: float, x1: float) -> Region:
    """The upright rectangle between two Z and two X."""
    return Region(polygon([(z0, x0), (z1, x0), (z1, x1), (z0, x1)]))


def hull_box(regions: Sequence[Region]) -> tuple[float, float, float, float]:
    """The smallest upright box round regions: z min, x min, z max, x max."""
    z0, x0, z1, x1 = zip(*(region.outer.box for region in regions), strict=True)
    return min(z0), min(x0), max(z1), max(x1)


def rounded_off(
    regions: Sequence[Region], radius: float, tolerance: Tolerance
) -> tuple[Region, ...]:
    """Regions with their inner corners filled as a nose of `radius` mm leaves them."""
    return shrink(grow(regions, radius, tolerance), radius, tolerance)


def _strips(regions: Sequence[Region], floor: float) -> Iterator[Region]:
    """What lies straight below each piece of the outlines."""
    for region in regions:
        for segment in region.outer.segments:
            for piece in _level_pieces(segment):
                (z0, x0), (z1, x1) = piece.start, piece.end
                if abs(z1 - z0) < _HAIR or max(x0, x1) < floor + _HAIR:
                    continue
                down, up = Line((z1, x1), (z1, floor)), Line((z0, floor), (z0, x0))
                sides = [piece, down, Line((z1, floor), (z0, floor)), up]
                outline = Path(tuple(s for s in sides if s.length > _HAIR))
                yield Region(outline if outline.area > 0 else outline.reversed())


def _level_pieces(segment: Segment) -> list[Segment]:
    """A segment cut at its leftmost and rightmost points, so that each piece goes one way."""
    if isinstance(segment, Line):
        return [segment]
    marks = [segment.start, *_at_angles(segment, (0.0, math.pi)), segment.end]
    return [Arc(a, b, segment.centre, segment.ccw) for a, b in itertools.pairwise(marks)]


def _at_angles(arc: Arc, angles: Sequence[float]) -> list[Point]:
    """The points within an arc that lie in given directions from its centre, in its order."""
    sign = 1 if arc.ccw else -1
    first = math.atan2(arc.start[1] - arc.centre[1], arc.start[0] - arc.centre[0])
    turns = sorted((angle - first) * sign % (2 * math.pi) for angle in angles)
    return [arc.point(t / arc.sweep) for t in turns if 1e-7 < t < arc.sweep - 1e-7]


def _apexes(regions: Sequence[Region], falls: float, rises: float) -> Iterator[Point]:
    """Where shadows begin: corners, and the points of arcs where the slope is just the limit."""
    limits = (math.pi / 2 + math.radians(falls), math.pi / 2 - math.radians(min(rises, 90.0)))
    for region in regions:
        for segment in region.outer.segments:
            yield segment.start
            if isinstance(segment, Arc) and segment.ccw:
                yield from _at_angles(segment, limits)


def _shadow(point: Point, falls: float, rises: float, left: float, floor: float) -> Region | None:
    """The wedge below a point: bounded by lines falling towards the left at `falls` and towards
    the right at `rises` degrees; cut off at z = left and x = floor."""
    z, x = point
    height = x - floor
    if height < _HAIR or falls >= 90 - 1e-9:
        return None
    slope = math.tan(math.radians(falls))
    right = (z + height / math.tan(math.radians(rises)) if rises < 90 else z, floor)
    at_left = x - (z - left) * slope
    if at_left > floor:
        corners = [point, (left, at_left), (left, floor), right]
    else:
        corners = [point, (z - height / slope, floor), right]
    kept = [c for k, c in enumerate(corners) if math.dist(c, corners[k - 1]) > _HAIR]
    outline = polygon(kept)
    return Region(outline) if len(kept) > 2 and outline.area > _HAIR else None

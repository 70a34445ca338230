"""A turned part lying on its side: its silhouette, and sections along its axis for drawings."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment, polygon
from jawcam.geometry.tidy import tidied
from jawcam.part.half import HalfProfile
from jawcam.part.half_faults import LEAN
from jawcam.part.solid import Slab, Slice, Solid

__all__ = ["lying"]

_HAIR = 1e-9  # mm; nothing is drawn that is shorter
_FINE = 0.01  # mm; how far a drawn section may be off
_STRIP = 0.01  # mm; half the width that a line of contact is drawn with
_LEVELS = 12  # of each half of the widest place; of thinner cylinders half as many


def lying(half: HalfProfile) -> Solid:
    """A turned part on its side, its axis along X through the origin, the middle of its length
    at X 0, end A at the left.

    Its one slab is its silhouette, all broken edges in it, from the underside to the largest
    diameter. Upright walls meet the part at the height of its axis only, so that it must sit as
    deep as its largest radius. The bore is not shown.
    """
    profile = half.exact
    outline = _silhouette(profile)
    radius = Path(profile).box[3]
    return Solid(
        slabs=(Slab(0.0, 2 * radius, (outline,)),),
        silhouette=(outline,),
        holes=(),
        slices=_slices(profile, radius),
        least_depth=radius,
        lying=_rests(profile, radius),
        notes=(*half.notes, *(text for _, _, text in half.remarks)),
    )


def _rests(profile: Sequence[Segment], radius: float) -> tuple[float, float]:
    """The X from the first to the last place of the largest diameter."""
    middle = profile[-1].end[0] / 2
    points = [point for segment in profile for point in (segment.start, segment.end)]
    points += [
        (s.centre[0], s.centre[1] + s.radius)
        for s in profile
        if isinstance(s, Arc) and not s.ccw and s.start[0] <= s.centre[0] <= s.end[0]
    ]
    ends = [z for z, r in points if abs(r - radius) <= LEAN]
    return min(ends) - middle, max(ends) - middle


def _silhouette(profile: Sequence[Segment]) -> Path:
    """The closed outline, counter-clockwise: the profile below the axis from end A to end B, then
    above it and back."""
    middle = profile[-1].end[0] / 2
    lower = [_placed(segment, middle, -1) for segment in profile]
    upper = [_placed(segment, middle, 1).reversed() for segment in reversed(profile)]
    around: list[Segment] = []
    for half in (lower, upper):
        if around and around[-1].end != half[0].start:
            around.append(Line(around[-1].end, half[0].start))
        around += half
    if around[-1].end != around[0].start:
        around.append(Line(around[-1].end, around[0].start))
    return tidied(Path(tuple(around)))


def _placed(segment: Segment, middle: float, side: int) -> Segment:
    """A piece of the profile on the left (1) or right (-1) of the axis."""

    def at(point: Point) -> Point:
        return (point[0] - middle, side * point[1])

    start, end = at(segment.start), at(segment.end)
    if isinstance(segment, Arc):
        return Arc(start, end, at(segment.centre), ccw=segment.ccw == (side > 0))
    return Line(start, end)


# --- sections --------------------------------------------------------------------------------


def _slices(profile: Sequence[Segment], radius: float) -> tuple[Slice, ...]:
    """Sections from the underside up. Where a cylinder begins, there are two at one height."""
    rim = _rim(profile, profile[-1].end[0] / 2)
    widest = max(r for _, r in rim)  # of the polyline, a hair less than the radius of a bulge
    # touched in a line, or where it is widest
    flat = _apart([widest, *(max(s.start[1], s.end[1]) for s in profile if _is_flat(s))])
    between = {
        r * math.cos(math.pi / 2 * k / _LEVELS)
        for r in flat
        for k in range(1, _LEVELS, 1 if r == widest else 2)
    }
    below: list[Slice] = []
    for off in sorted(flat | between, reverse=True):
        height = radius * (1 - off / widest)
        if off in flat and off < widest:
            below.append(Slice(height, _sections(rim, off)))
        at = math.sqrt(max(off**2 - _STRIP**2, 0.0)) if off in flat else off
        below.append(Slice(height, _sections(rim, at)))
    above = [Slice(2 * radius - one.height, one.outlines) for one in reversed(below)]
    return (*below, Slice(radius, _sections(rim, 0.0)), *above)


def _is_flat(segment: Segment) -> bool:
    return isinstance(segment, Line) and abs(segment.start[1] - segment.end[1]) <= LEAN


def _apart(radii: Sequence[float]) -> set[float]:
    """The radii without those that differ from a larger one by no more than drawings do."""
    kept: list[float] = []
    for radius in sorted(radii, reverse=True):
        if not kept or kept[-1] - radius > LEAN:
            kept.append(radius)
    return set(kept)


def _rim(profile: Sequence[Segment], middle: float) -> list[Point]:
    """The profile as a polyline of points (X, radius)."""
    points = [profile[0].start]
    for segment in profile:
        points += polyline(segment, _FINE / 10)[1:]
    return [(z - middle, r) for z, r in points]


def _sections(rim: Sequence[Point], off: float) -> tuple[Path, ...]:
    """What a plane parallel to the axis, `off` mm beside it, cuts out of the part: polygons."""
    runs: list[list[Point]] = [[]]
    for a, b in itertools.pairwise(rim):
        part = _above(a, b, off)
        if part is None:
            runs.append([])
            continue
        first, last = part
        bow = _bow(first, last, off)
        runs[-1] += bow if not runs[-1] or math.dist(runs[-1][-1], bow[0]) > _HAIR else bow[1:]
        if last != b:
            runs.append([])
    return tuple(_both_sides(run) for run in runs if run and run[-1][0] - run[0][0] > _HAIR)


def _above(a: Point, b: Point, off: float) -> tuple[Point, Point] | None:
    """The piece of a straight rim whose radius is more than `off`."""
    if a[1] <= off and b[1] <= off:
        return None
    if a[1] >= off and b[1] >= off:
        return a, b
    share = (off - a[1]) / (b[1] - a[1])
    cross = (a[0] + (b[0] - a[0]) * share, off)
    return (cross, b) if a[1] < off else (a, cross)


def _bow(a: Point, b: Point, off: float) -> list[Point]:
    """The points (X, half width) of a section along a straight piece of the rim: a hyperbola."""
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    (_, first), (_, half), (_, last) = ends = [_width(point, off) for point in (a, middle, b)]
    if b[0] - a[0] <= _HAIR or abs(half - (first + last) / 2) <= _FINE:
        return [ends[0], ends[2]]
    return [*_bow(a, middle, off), *_bow(middle, b, off)[1:]]


def _width(point: Point, off: float) -> Point:
    return (point[0], math.sqrt(max(point[1] ** 2 - off**2, 0.0)))


def _both_sides(run: Sequence[Point]) -> Path:
    """The closed polygon, counter-clockwise, whose half width runs as given."""
    right = [(x, -width) for x, width in run]
    left = [(x, width) for x, width in reversed(run) if width > _HAIR]
    return polygon([*right, *left])

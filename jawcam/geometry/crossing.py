"""Where closed paths cross or touch themselves or each other, exact on lines and arcs."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment

__all__ = ["Crossing", "crossings", "encloses"]

_NEAR = 1e-9  # mm; what rounding does to a computed point
_SAME = 1e-6  # mm; pieces that lie this near to each other lie on each other


@dataclass(frozen=True)
class Crossing:
    """A point in mm that two paths share, or that one passes twice: `first` and `second` are
    their numbers, equal for a path that crosses itself.
    """

    at: Point
    first: int
    second: int


@dataclass(frozen=True, slots=True)
class _Piece:
    segment: Segment
    path: int
    number: int
    count: int

    def next_to(self, other: _Piece) -> bool:
        apart = (self.number - other.number) % self.count
        return self.path == other.path and apart in (1, self.count - 1)


def crossings(paths: Sequence[Path], tolerance: float) -> tuple[Crossing, ...]:
    """All places where closed paths cross, touch or run along themselves or each other.

    Neighbouring segments share an end point by nature. Where they leave it as a cusp, they may cut
    each other once more close by, by rounding or because an end was moved by a hair; that is
    passed over if what they enclose there is nowhere wider than `tolerance` mm.
    """
    pieces = [
        _Piece(segment, number, k, len(path.segments))
        for number, path in enumerate(paths)
        for k, segment in enumerate(path.segments)
    ]
    found = []
    for i, j in _close_pairs([piece.segment for piece in pieces]):
        a, b = pieces[i], pieces[j]
        points = (
            _beside_joint(a.segment, b.segment, tolerance)
            if a.next_to(b)
            else _meets(a.segment, b.segment)
        )
        found += [Crossing(point, a.path, b.path) for point in points]
    return tuple(_apart(found))


def encloses(path: Path, point: Point) -> bool:
    """Whether a point lies inside a closed path (and not on it), by a ray towards +X."""
    inside = False
    for segment in path.segments:
        for start, end, arc in _monotone(segment):
            if (start[1] > point[1]) != (end[1] > point[1]):
                inside ^= _right_of(start, end, arc, point)
    return inside


# --- candidates ------------------------------------------------------------------------------


def _close_pairs(segments: Sequence[Segment]) -> Iterator[tuple[int, int]]:
    """The pairs i < j whose upright boxes touch, in order; a sweep along X."""
    if not segments:
        return
    boxes = np.array([Path((segment,)).box for segment in segments], dtype=float)
    boxes += (-_SAME, -_SAME, _SAME, _SAME)
    order = np.argsort(boxes[:, 0], kind="stable")
    low_x, low_y, high_x, high_y = boxes[order].T
    ends = np.searchsorted(low_x, high_x, side="right")
    pairs = []
    for k, end in enumerate(ends):
        rivals = slice(k + 1, end)
        touching = (low_y[rivals] <= high_y[k]) & (high_y[rivals] >= low_y[k])
        i = int(order[k])
        others = order[k + 1 : end][touching]
        pairs += [(min(i, int(j)), max(i, int(j))) for j in others]
    yield from sorted(pairs)


def _apart(found: list[Crossing]) -> Iterator[Crossing]:
    """The crossings without those that repeat one (the two segments at a corner both meet)."""
    seen: set[tuple[int, int, int, int]] = set()
    for crossing in found:
        x, y = (math.floor(v / 1e-4) for v in crossing.at)
        around = {
            (x + i, y + j, crossing.first, crossing.second) for i in (-1, 0, 1) for j in (-1, 0, 1)
        }
        if not around & seen:
            seen.add((x, y, crossing.first, crossing.second))
            yield crossing


# --- neighbours ------------------------------------------------------------------------------


def _beside_joint(a: Segment, b: Segment, tolerance: float) -> list[Point]:
    """Where neighbours meet apart from the ends that they share."""
    shared = [end for end in (a.start, a.end) if end in (b.start, b.end)]
    short, long = sorted((a, b), key=lambda segment: segment.length)
    middle = _between(short, short.start, short.end)
    if short.length > 2 * _SAME and _lies_on(middle, long, _SAME):
        return [middle]
    if not shared or (isinstance(a, Line) and isinstance(b, Line)):
        return []
    points = []
    for point in _meets(a, b):
        joint = min(shared, key=lambda end: math.dist(end, point))
        if math.dist(joint, point) <= _SAME:
            continue
        if math.dist(_between(a, joint, point), _between(b, joint, point)) > tolerance:
            points.append(point)
    return points


def _between(segment: Segment, a: Point, b: Point) -> Point:
    """The point half-way along a segment between two of its points, one of them an end."""
    if isinstance(segment, Line):
        return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    if segment.end in (a, b) and segment.start not in (a, b):
        return _between(segment.reversed(), a, b)
    return Arc(segment.start, b if a == segment.start else a, segment.centre, segment.ccw).point(
        0.5
    )


# --- where two segments meet -----------------------------------------------------------------


def _meets(a: Segment, b: Segment) -> list[Point]:
    """The points that two segments share; one point for a stretch that they share."""
    if isinstance(a, Line):
        points = _line_line(a, b) if isinstance(b, Line) else _line_circle(a, b)
    else:
        points = _line_circle(b, a) if isinstance(b, Line) else _circle_circle(a, b)
    return [p for p in points if _lies_on(p, a, _NEAR) and _lies_on(p, b, _NEAR)]


def _lies_on(point: Point, segment: Segment, slack: float) -> bool:
    """Whether a point lies on a segment, its ends included."""
    if math.dist(point, segment.start) <= slack or math.dist(point, segment.end) <= slack:
        return True
    if isinstance(segment, Line):
        (x, y), (ux, uy), length = segment.start, _along(segment), segment.length
        dx, dy = point[0] - x, point[1] - y
        return abs(dx * uy - dy * ux) <= slack and 0 <= dx * ux + dy * uy <= length
    if abs(math.dist(point, segment.centre) - segment.radius) > slack:
        return False
    return Arc(segment.start, point, segment.centre, segment.ccw).sweep <= segment.sweep


def _along(line: Line) -> Point:
    length = line.length or 1.0
    return ((line.end[0] - line.start[0]) / length, (line.end[1] - line.start[1]) / length)


def _line_line(a: Line, b: Line) -> list[Point]:
    (ux, uy), (vx, vy) = _along(a), _along(b)
    cross = ux * vy - uy * vx
    if abs(cross) < 1e-12:
        return [
            p
            for p in (b.start, b.end, a.start, a.end)
            if _lies_on(p, a, _NEAR) and _lies_on(p, b, _NEAR)
        ][:1]
    share = ((b.start[0] - a.start[0]) * vy - (b.start[1] - a.start[1]) * vx) / cross
    return [(a.start[0] + share * ux, a.start[1] + share * uy)]


def _line_circle(line: Line, arc: Arc) -> list[Point]:
    (ux, uy), (x, y), (cx, cy) = _along(line), line.start, arc.centre
    share = (cx - x) * ux + (cy - y) * uy
    off = abs((cx - x) * uy - (cy - y) * ux)
    if off > arc.radius + _NEAR:
        return []
    half = math.sqrt(max(0.0, (arc.radius - off) * (arc.radius + off)))
    return [(x + s * ux, y + s * uy) for s in (share - half, share + half)]


def _circle_circle(a: Arc, b: Arc) -> list[Point]:
    dx, dy = b.centre[0] - a.centre[0], b.centre[1] - a.centre[1]
    apart, r, s = math.hypot(dx, dy), a.radius, b.radius
    if apart <= _NEAR and abs(r - s) <= _NEAR:
        middles = [a.point(0.5), b.point(0.5), a.start, a.end]
        return [p for p in middles if _lies_on(p, a, 1e-8) and _lies_on(p, b, 1e-8)][:1]
    if apart == 0 or apart > r + s + _NEAR or apart < abs(r - s) - _NEAR:
        return []
    along = (apart * apart + r * r - s * s) / (2 * apart)
    half = math.sqrt(max(0.0, (r - along) * (r + along)))
    ux, uy = dx / apart, dy / apart
    mx, my = a.centre[0] + along * ux, a.centre[1] + along * uy
    return [(mx - h * uy, my + h * ux) for h in (-half, half)]


# --- inside ----------------------------------------------------------------------------------


def _monotone(segment: Segment) -> Iterator[tuple[Point, Point, Arc | None]]:
    """A segment in pieces along which Y only rises or only falls."""
    if isinstance(segment, Line):
        yield segment.start, segment.end, None
        return
    (cx, cy), r = segment.centre, segment.radius
    first = math.atan2(segment.start[1] - cy, segment.start[0] - cx)
    turns = []
    for angle, tip in ((math.pi / 2, (cx, cy + r)), (-math.pi / 2, (cx, cy - r))):
        turn = (angle - first) * (1 if segment.ccw else -1) % (2 * math.pi)
        if 0 < turn < segment.sweep:
            turns.append((turn, tip))
    stops = [segment.start, *(tip for _, tip in sorted(turns)), segment.end]
    for k in range(len(stops) - 1):
        yield stops[k], stops[k + 1], segment


def _right_of(start: Point, end: Point, arc: Arc | None, point: Point) -> bool:
    """Whether a piece that spans the point's Y passes to the right of it."""
    if arc is None:
        share = (point[1] - start[1]) / (end[1] - start[1])
        return start[0] + share * (end[0] - start[0]) > point[0]
    rise = point[1] - arc.centre[1]
    half = math.sqrt(max(0.0, (arc.radius - rise) * (arc.radius + rise)))
    # Going counter-clockwise, a circle rises on its right and falls on its left.
    right = (end[1] > start[1]) == arc.ccw
    return arc.centre[0] + (half if right else -half) > point[0]

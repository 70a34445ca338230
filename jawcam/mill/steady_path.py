"""The steps of a pass as few lines and arcs: exactly the rim where it slid along that."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from jawcam.geometry.cut import along
from jawcam.geometry.rim import Rim, portion
from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment
from jawcam.mill.pursuit import Law, Step
from jawcam.mill.steering import Band, steered

__all__ = ["BANDS", "EVEN", "OUTSIDE", "path_of"]

BANDS = ((-0.4, 0.08), (-0.2, 0.06), (-0.1, 0.04))
"""Shares of the fresh width asked: how much less or more of it the arcs may bite off than the
steps that they stand for; the next where too much comes of one. The next pass starts from what
they have cut, so it does not add up."""

EVEN = ((-0.05, 0.05),)
"""The same for a pass that goes on along what it cut itself: it does add up there."""

OUTSIDE = 0.001
"""mm; the most that a path may lie outside the rim."""

SMALLEST = 0.03
"""mm; a shorter piece is made part of its neighbour where that is possible."""

_SHARP = math.cos(math.radians(35))  # what turns more between two steps is a corner
_GENTLE = math.cos(math.radians(5))  # what turns less between two steps needs none between them
_SHORTEST = 1e-4  # mm; shorter steps are none


def path_of(steps: Sequence[Step], law: Law, share: tuple[float, float]) -> Path | None:
    """Lines and arcs for the steps of a pass; None if it goes nowhere. share: how much less and
    more than asked they may bite off, of the fresh width."""
    less, more = share
    lever = law.radius * math.sin(law.angle)
    band = Band(less * law.width, more * law.width, lever, law.rim)
    segments: list[Segment] = []
    free: list[Step] = [steps[0]]
    for before, step in pairwise(steps):
        if not step.slid:
            if math.dist(free[-1].place, step.place) > _SHORTEST:
                free.append(step)
            elif step.spot is not None and len(free) > 1:
                free[-1] = step
            continue
        segments += _fitted(free, band)
        segments += _slid(before, step, law.rim)
        free = [step]
    segments += _fitted(free, band)
    joined = _joined(segments, law.rim)
    return Path(tuple(joined)) if joined else None


def _slid(before: Step, step: Step, rim: Rim) -> list[Segment]:
    """The piece of the rim from one step to the next."""
    a, b = before.spot, step.spot
    if a is None or b is None:
        return []
    piece = rim.pieces[a.number]
    end = b.way if a.number == b.number and b.way >= a.way else piece.length
    return [portion(piece, a.way, end)] if end - a.way > _SHORTEST else []


def _fitted(steps: Sequence[Step], band: Band) -> list[Segment]:
    """Arcs and lines for a run of steps through the inside."""
    if len(steps) < 2:
        return []
    points = [step.place for step in steps]
    found: list[Segment] = []
    first = 0
    chords = [_unit(a, b) for a, b in pairwise(points)]
    corners = [
        k
        for k in range(1, len(chords))
        if chords[k - 1][0] * chords[k][0] + chords[k - 1][1] * chords[k][1] < _SHARP
    ]
    for last in (*corners, len(points) - 1):
        ways = _ways(steps[first : last + 1], chords[first:last], band.rim)
        gains = [step.gain for step in steps[first : last + 1]]
        found += steered(*_denser(points[first : last + 1], ways, gains, band.rim), band)
        first = last
    return found


def _ways(steps: Sequence[Step], chords: Sequence[Point], rim: Rim) -> list[Point]:
    """The directions at steps: those of the circles through neighbours, of the rim where the
    cutter leaves or meets it."""
    found = [_end_way(steps[0], chords[0], rim)]
    for k in range(1, len(chords)):
        # the tangent of the circle through three points: the nearer chord counts more
        a = math.dist(steps[k - 1].place, steps[k].place)
        b = math.dist(steps[k].place, steps[k + 1].place)
        (px, py), (qx, qy) = chords[k - 1], chords[k]
        found.append(_unit((0.0, 0.0), (px * b + qx * a, py * b + qy * a)))
    return [*found, chords[-1]]


def _denser(
    points: Sequence[Point], ways: Sequence[Point], gains: Sequence[float], rim: Rim
) -> tuple[list[Point], list[Point], list[float]]:
    """Points, directions and gains, and where it bends those half way between them too, on the
    cubic that passes the points in their directions, or straight between them where that would
    lead outside."""
    dots, turns, more = [points[0]], [ways[0]], [gains[0]]
    for k in range(1, len(points)):
        (ax, ay), (bx, by), (px, py), (qx, qy) = points[k - 1], points[k], ways[k - 1], ways[k]
        if px * qx + py * qy > _GENTLE:
            dots.append(points[k])
            turns.append(ways[k])
            more.append(gains[k])
            continue
        eighth = math.dist(points[k - 1], points[k]) / 8
        middle = ((ax + bx) / 2 + eighth * (px - qx), (ay + by) / 2 + eighth * (py - qy))
        if rim.gap(middle) < 0:
            middle = ((ax + bx) / 2, (ay + by) / 2)
        dots += [middle, points[k]]
        turns += [
            _unit((px + qx, py + qy), (6 * (bx - ax) / (8 * eighth), 6 * (by - ay) / (8 * eighth))),
            ways[k],
        ]
        more += [max(gains[k - 1], gains[k]), gains[k]]
    return dots, turns, more


def _end_way(step: Step, chord: Point, rim: Rim) -> Point:
    """The direction at an end: the rim's, if it lies on it and the chord is hardly off that."""
    if step.spot is not None:
        way = rim.heading(step.spot)
        if way[0] * chord[0] + way[1] * chord[1] > _SHARP:
            return way
    return chord


def _unit(a: Point, b: Point) -> Point:
    size = math.dist(a, b) or 1e-12
    return ((b[0] - a[0]) / size, (b[1] - a[1]) / size)


def _joined(segments: Sequence[Segment], rim: Rim) -> list[Segment]:
    """Neighbours that are pieces of one line or arc made one, and none too short to be worth a
    block: its neighbour goes on to where it ends."""
    found: list[Segment] = []
    for piece in segments:
        one = _one(found[-1], piece) if found else None
        if one is not None:
            found[-1] = one
        elif found and min(piece.length, found[-1].length) < SMALLEST:
            found[-1:] = _stretched(found[-1], piece, rim)
        else:
            found.append(piece)
    return found


def _stretched(a: Segment, b: Segment, rim: Rim) -> list[Segment]:
    """Two neighbours as one with the ends of both, which turns as far as the longer; as they are
    where that would lead outside, as round a corner of the rim."""
    piece = max(a, b, key=lambda segment: segment.length)
    start, end = a.start, b.end
    one: Segment = Line(start, end)
    if isinstance(piece, Arc):
        share = 0.5 / math.tan(piece.sweep / 2 * (1 if piece.ccw else -1))
        dx, dy = end[0] - start[0], end[1] - start[1]
        x, y = (start[0] + end[0]) / 2 - share * dy, (start[1] + end[1]) / 2 + share * dx
        one = Arc(start, end, (x, y), piece.ccw)
    inside = all(rim.gap(place) >= -OUTSIDE for place in along(one, rim.cell / 4))
    return [one] if inside else [a, b]


def _one(a: Segment, b: Segment) -> Segment | None:
    if isinstance(a, Line) and isinstance(b, Line):
        (ax, ay), (bx, by) = (
            ((s.end[0] - s.start[0]) / s.length, (s.end[1] - s.start[1]) / s.length) for s in (a, b)
        )
        same = abs(ax * by - ay * bx) < 1e-7 and ax * bx + ay * by > 0
        return Line(a.start, b.end) if same else None
    if isinstance(a, Line) or isinstance(b, Line):
        return None
    near = math.dist(a.centre, b.centre) < 1e-7 and a.ccw == b.ccw
    if not near or a.sweep + b.sweep > 6.2:
        return None
    return Arc(a.start, b.end, a.centre, a.ccw)

"""What an `ArcFeed` means and how to take one apart: the plane geometry of the rewrites."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from jawcam.errors import InternalError
from jawcam.motion.holes import checked, top
from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Call,
    Drill,
    LineFeed,
    Motion,
    Point3,
    Rapid,
    ThreadCut,
    ToolChange,
    WorkOffset,
)

__all__ = ["chorded", "is_helix", "moves_from", "point_on", "radius", "split", "sweep"]

_SAME = 1e-9  # mm: points nearer than this are one: a full turn in plan, no helix in height


def moves_from(motions: Sequence[Motion]) -> Iterator[tuple[Point3 | None, Motion]]:
    """Each motion with the point it starts from, in mm; None where none is known (at the head of
    a program, after a tool change and after a change of work offset).

    Raises InternalError for an arc or a call from nowhere and for a hole that can't be drilled
    from there.
    """
    here: Point3 | None = None
    for motion in motions:
        if isinstance(motion, ArcFeed) and here is None:
            raise InternalError(f"an arc to {motion.to} starts from no known point")
        if isinstance(motion, Call) and here is None:
            raise InternalError(f"subprogram {motion.number} is called from no known point")
        if isinstance(motion, Drill):
            checked(motion, here)
        yield here, motion
        if isinstance(motion, Rapid | LineFeed | ArcFeed | ThreadCut):
            here = motion.to
        elif isinstance(motion, Call):
            here = motion.body[-1].to
        elif isinstance(motion, Drill):
            here = top(motion)
        elif isinstance(motion, Begin | ToolChange | WorkOffset):
            here = None


def radius(start: Point3, arc: ArcFeed) -> float:
    """The mean of the distances of both ends from the centre, in mm."""
    return (math.dist(start[:2], arc.centre) + math.dist(arc.to[:2], arc.centre)) / 2


def sweep(start: Point3, arc: ArcFeed) -> float:
    """The angle turned through, in radians, whichever the direction: 2 pi if the arc ends where
    it starts in plan, else in [0, 2 pi)."""
    if math.dist(start[:2], arc.to[:2]) <= _SAME:
        return math.tau
    (cx, cy), (sx, sy, _), (ex, ey, _) = arc.centre, start, arc.to
    turn = math.atan2(ey - cy, ex - cx) - math.atan2(sy - cy, sx - cx)
    return (turn if arc.ccw else -turn) % math.tau


def is_helix(start: Point3, arc: ArcFeed) -> bool:
    """Whether the arc also rises or falls."""
    return abs(start[2] - arc.to[2]) > _SAME


def point_on(start: Point3, arc: ArcFeed, share: float) -> Point3:
    """The point at `share` (0 to 1) of the way along the arc; a difference between the radii of
    the two ends is spread evenly."""
    if share >= 1:
        return arc.to
    cx, cy = arc.centre
    first, last = math.dist(start[:2], arc.centre), math.dist(arc.to[:2], arc.centre)
    turn = sweep(start, arc) * share * (1 if arc.ccw else -1)
    angle = math.atan2(start[1] - cy, start[0] - cx) + turn
    reach = first + (last - first) * share
    z = start[2] + (arc.to[2] - start[2]) * share
    return (cx + reach * math.cos(angle), cy + reach * math.sin(angle), z)


def split(start: Point3, arc: ArcFeed, pieces: int) -> tuple[ArcFeed, ...]:
    """The arc as `pieces` arcs of equal sweep; the last one ends exactly where the arc did."""
    return tuple(replace(arc, to=point_on(start, arc, n / pieces)) for n in range(1, pieces + 1))


def chorded(start: Point3, arc: ArcFeed, chord: float) -> tuple[LineFeed, ...]:
    """The arc as lines of equal length with their ends on it, none further than `chord` (mm) from
    it: the rise of a chord of angle a over a circle of radius r is r (1 - cos(a / 2))."""
    size = radius(start, arc)
    widest = 2 * math.acos(max(0.0, 1 - chord / size)) if size > 0 else math.tau
    pieces = max(1, math.ceil(sweep(start, arc) / widest - 1e-9))
    return tuple(LineFeed(piece.to, arc.feed) for piece in split(start, arc, pieces))

"""Closed ways that nothing cleared is near to, put into the runs that pass them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from jawcam.geometry.cut import begun_near
from jawcam.geometry.measure import nearest_on
from jawcam.geometry.shapes import Line, Path, Point, Region, Segment
from jawcam.mill.links import straight_way
from jawcam.mill.runs import LEAST, Run

__all__ = ["Loop", "joined"]


@dataclass(frozen=True)
class Loop:
    """A closed way that nowhere comes near to what is cleared, and those inside of it."""

    path: Path
    inner: tuple[Loop, ...]


def joined(runs: list[Run], loops: Sequence[Loop], region: Region) -> list[Loop]:
    """Put loops into the runs, each where a run comes nearest; those are left that no straight way
    within the region leads to."""
    left = []
    for loop in loops:
        tries = [(*_joint(run.path, loop.path), number) for number, run in enumerate(runs)]
        _, index, at, number = min(tries, key=lambda one: (one[0], one[3]))
        way = _detour(at, loop, region)
        if way is None:
            left.append(loop)
            continue
        run = runs[number]
        before, after = _parted(run.path.segments[index], at)
        rest = run.path.segments
        path = Path((*rest[:index], *before, *way, *after, *rest[index + 1 :]))
        runs[number] = Run(run.down, path, run.up)
    return left


def _joint(path: Path, loop: Path) -> tuple[float, int, Point]:
    """Where a path comes nearest to a loop: how near, the number of its segment, and the point."""
    tries = []
    for segment in loop.segments:
        index, at = nearest_on(path, segment.start)
        tries.append((round(math.dist(at, segment.start), 4), index, at))
    for index, segment in enumerate(path.segments):
        at = segment.end
        tries.append((round(math.dist(nearest_on(loop, at)[1], at), 4), index, at))
    return min(tries)


def _detour(at: Point, loop: Loop, region: Region) -> list[Segment] | None:
    """From a point into a loop: what is inside of it first, then round it, and back."""
    around = begun_near(loop.path, nearest_on(loop.path, at)[1])
    if not straight_way(at, around.start, [region]):
        return None
    way: list[Segment] = [Line(at, around.start)]
    for inner in loop.inner:
        more = _detour(around.start, inner, region)
        if more is None:
            return None
        way += more
    return [*way, *around.segments, Line(around.start, at)]


def _parted(segment: Segment, at: Point) -> tuple[list[Segment], list[Segment]]:
    """What of a segment lies before and after one of its points."""
    ends = [segment.start, at, segment.end]
    pieces: list[list[Segment]] = []
    for start, end in pairwise(ends):
        if math.dist(start, end) < LEAST:
            pieces.append([])
        elif isinstance(segment, Line):
            pieces.append([Line(start, end)])
        else:
            pieces.append([type(segment)(start, end, segment.centre, segment.ccw)])
    return pieces[0], pieces[1]

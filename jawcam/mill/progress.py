"""What has been gone along so far when a region is cleared, pass by pass, and what still stands."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from jawcam.geometry.flatten import polyline
from jawcam.geometry.shapes import Path, Point, Region
from jawcam.geometry.uncut import FINE, Front
from jawcam.mill.law import Law
from jawcam.mill.standing import Standing
from jawcam.mill.steady_links import way_back

__all__ = ["Circle", "Pass", "Progress"]

_TURN, _EVERY = 96, 24  # chords of the helix's circle, and from one remembered place to the next


@dataclass(frozen=True)
class Circle:
    """What a helix leaves: its centre and its radius, mm. The cutter stands at its right."""

    centre: Point
    radius: float


@dataclass(frozen=True)
class Pass:
    """back: from where the one before ended to where this begins, both included, through cleared
    space; path: what it cuts along; bites: the most that each of its pieces bites off, mm."""

    back: tuple[Point, ...]
    path: Path
    bites: tuple[float, ...]


class Progress:
    """Pass by pass. standing: what is uncut; passes: so far; last: the points of the last pass;
    been: places where the cutter has been."""

    def __init__(self, law: Law, centre: Region, entry: Circle) -> None:
        self.law = law
        self.standing = Standing(law, centre)
        self.passes: list[Pass] = []
        (x, y), size = entry.centre, entry.radius
        turn = [2 * math.pi * k / _TURN for k in range(_TURN + 1)]
        self.last = [(x + size * math.cos(a), y + size * math.sin(a)) for a in turn]
        self.been = self.last[::_EVERY]
        self.standing.take(self.last)

    def go(self, path: Path, bites: tuple[float, ...]) -> float:
        """Go along a path, if there is a way to where it begins; how much that takes, mm2."""
        back = way_back(self.last, path.start, self.been, self.standing.lumps, self.law)
        if back is None:
            return 0.0
        self.passes.append(Pass(back, path, bites))
        points = [path.start]
        for segment in path.segments:
            points += polyline(segment, FINE)[1:]
        before = self.standing.area
        self.standing.take(points)
        self.last = points
        self.been += [points[len(points) // 2], path.end]
        return before - self.standing.area

    def nearest(self, fronts: Iterable[Front]) -> Front | None:
        """Of some fronts the one that begins nearest to where the last pass ended or began."""
        ends = (self.last[0], self.last[-1])
        return min(fronts, key=lambda one: _apart(one, ends), default=None)


def _apart(front: Front, ends: Sequence[Point]) -> float:
    if front.closed:
        return min(math.dist(p, end) for p in front.points[::8] for end in ends)
    return min(math.dist(front.points[0], end) for end in ends)

"""All passes that clear a region at a steady load, and the ways back between them."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from jawcam.geometry.flatten import polyline
from jawcam.geometry.rim import Spot, rim_of
from jawcam.geometry.shapes import Path, Point, Region
from jawcam.geometry.uncut import FINE, SKIN, Front, Lump, Whole, fronts_of, reached, without
from jawcam.mill.bow_ends import ends_of
from jawcam.mill.bow_judging import Found
from jawcam.mill.bows import SHARE, Cast, cast, nibble
from jawcam.mill.engaged import Edge, edges_of
from jawcam.mill.law import Law
from jawcam.mill.layers import along_wall, cornered, layer, peaks_along, stretch
from jawcam.mill.spiral import spiral
from jawcam.mill.steady_links import led_in, way_back

__all__ = ["Circle", "Pass", "Steady", "steady_passes"]

THIN = 0.3
"""Times the width asked: what is thicker is never left to the way along the wall at the end."""

NEAR = 4.0
"""Times the radius: what rests so near ahead on a wall is taken in one go."""

LITTLE = 0.003
"""Times width x radius: a bow that takes less is none."""

MOST_PASSES, LEAST_PASSES = 40, 1000
"""Times as many passes as a straight count would need, and so many more: then it is given up."""


Finder = Callable[[Law, Front, Sequence[Edge], Cast], tuple[Found, Cast] | None]
"""What looks for a bow along a front: edges of all fronts, and what is remembered of the last."""


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


@dataclass(frozen=True)
class Steady:
    """The passes, and what they left standing for want of a way."""

    passes: tuple[Pass, ...]
    left: tuple[Lump, ...]

    @property
    def done(self) -> bool:
        """Whether all that can be reached is cleared."""
        return not self.left


def steady_passes(
    centre: Region, radius: float, width: float, entry: Circle, room: float
) -> Steady:
    """Clear all that a cutter of `radius` mm reaches with its centre in a region, at a fresh width
    of `width` mm. entry: the level circle that it went down along; room: how far from the middle
    of that the rim is, mm. Nothing is random, and it always comes to an end: what can't be cleared
    is told.
    """
    clearing = _Clearing(centre, radius, width, entry, room)
    clearing.wind_out(entry)
    clearing.run()
    if not clearing.given_up:
        clearing.follow_walls()
        clearing.given_up += [one for one in clearing.uncut if one.thick > THIN * width]
    return Steady(tuple(clearing.passes), tuple(clearing.given_up))


class _Clearing:
    """What is uncut, pass by pass. casts: what is remembered of bows, by the points where they
    began; walls: which points of outlines lie on the wall; resting: fronts of what is thin, left to
    the ways along the walls."""

    def __init__(
        self, centre: Region, radius: float, width: float, entry: Circle, room: float
    ) -> None:
        cell = radius / 4
        self.law = Law(radius, width, rim_of(centre, cell, radius + 2 * cell))
        self.uncut = reached(centre, radius)
        area = math.fsum(one.area for one in self.uncut)
        self.most = int(MOST_PASSES * area / (width * radius)) + LEAST_PASSES
        self.fronts: dict[Lump, list[Front]] = {}
        self.edges: dict[Lump, list[Edge]] = {}
        self.walls: dict[Whole, bool] = {}
        self.resting: list[Front] = []
        self.given_up: list[Lump] = []
        self.casts: list[tuple[Point, Cast]] = []
        self.passes: list[Pass] = []
        self.room = room
        self.near = NEAR * radius
        (x, y), size = entry.centre, entry.radius
        turn = [2 * math.pi * k / 96 for k in range(97)]
        self.last = [(x + size * math.cos(a), y + size * math.sin(a)) for a in turn]
        self.been = self.last[::24]
        self._take(self.last)

    def wind_out(self, entry: Circle) -> None:
        """From the helix to the largest circle about its middle."""
        if self.room <= entry.radius + SKIN:
            return
        law = self.law
        for turn in spiral(entry.centre, entry.radius, self.room, law.radius, law.width):
            self._add(turn, (law.width,) * len(turn.segments))

    def run(self) -> None:
        """Front after front, the nearest next."""
        while (front := self._next()) is not None:
            if len(self.passes) >= self.most:
                self.given_up += [one for one in self.uncut if one.thick >= SKIN]
                return
            thin = front.lump.thick < THIN * self.law.width
            rests = thin and self._rests(front)
            if not (rests or any(way(front) for way in self._ways())):
                self.given_up.append(front.lump)

    def follow_walls(self) -> None:
        """Along the wall wherever something thin rests on it, the nearest first; what lies near
        ahead is taken in one go."""
        self._look()
        law, edges = self.law, self._every_edge()
        fronts = [one for some in self.fronts.values() for one in some if not one.closed]
        waiting = [
            ends
            for one in fronts
            if (whole := along_wall(law, one, edges)) is not None
            and (whole.peak <= law.most or one.lump.thick > 1.7 * SKIN)
            and (ends := ends_of(one, law)) is not None
        ]
        while waiting:
            first, last = min(waiting, key=lambda two: self._off(law.rim.point(two[0])))
            waiting.remove((first, last))
            while ahead := [two for two in waiting if self._goes_on(last, two[0])]:
                two = min(
                    ahead, key=lambda two: math.dist(law.rim.point(last), law.rim.point(two[0]))
                )
                waiting.remove(two)
                last = two[1]
            pieces = stretch(law.rim, first, last)
            if pieces:
                path = led_in(Path(tuple(pieces)), self.uncut, edges, law)
                self._add(path, peaks_along(path, edges, law.radius))

    def _goes_on(self, last: Spot, first: Spot) -> bool:
        """Whether one spot follows another on the wall, near and round no corner."""
        rim = self.law.rim
        near = rim.between(last, first, self.near) is not None
        return near and not cornered(stretch(rim, last, first))

    def _off(self, place: Point) -> float:
        """How far a place lies from where the last pass ended."""
        return math.dist(place, self.last[-1])

    def _ways(self) -> tuple[Callable[[Front], bool], ...]:
        """How a front can be gone along, the best first; each tells whether it could."""
        return (
            lambda front: self._bow(front, cast),
            lambda front: self._layer(front, self.law.most),
            lambda front: self._bow(front, nibble),
            lambda front: self._layer(front, math.inf),
        )

    def _bow(self, front: Front, find: Finder) -> bool:
        """A bow along a front; whether there was one worth while."""
        if front.closed:
            return False
        found = find(self.law, front, self._every_edge(), self._remembered(front))
        if found is None or found[0].area < LITTLE * self.law.width * self.law.radius:
            return False
        path = found[0].bow.path()
        if not self._takes(path, (found[0].peak,) * len(path.segments)):
            return False
        self.casts.append((path.start, found[1]))
        return True

    def _remembered(self, front: Front) -> Cast:
        """Of the last bow that began near to where a front does."""
        near = 2 * self.law.radius
        for place, one in reversed(self.casts):
            if math.dist(place, front.points[0]) < near:
                return one
        return Cast(0.0, self.law.width / 2, SHARE)

    def _rests(self, front: Front) -> bool:
        """Whether what is behind a front can be left to the way along the wall."""
        whole = None if front.closed else along_wall(self.law, front, self._every_edge())
        if whole is None or whole.peak > self.law.most or cornered(whole.path.segments):
            return False
        self.resting.append(front)
        return True

    def _layer(self, front: Front, most: float) -> bool:
        """A layer off the wall behind a front that bites off no more than `most` mm; whether there
        was one. What is too thin for one rests."""
        found = None if front.closed else layer(self.law, front, self._every_edge())
        if found is None:
            return False
        if found.off and found.peak <= most:
            path = led_in(found.path, self.uncut, self._every_edge(), self.law)
            extra = len(path.segments) - len(found.peaks)
            if self._takes(path, (*found.peaks[:extra], *found.peaks)):
                return True
        if found.off == 0 and found.peak <= self.law.most:
            self.resting.append(front)
            return True
        if math.isfinite(most) or front.lump.thick > THIN * self.law.width:
            return False
        self._look()
        left = [lump for lump in self.fronts if self._beside(lump, front.lump)]
        self.resting += [one for lump in left for one in self.fronts[lump]]
        return True

    def _takes(self, path: Path, bites: tuple[float, ...]) -> bool:
        """Go along a path; whether that takes more than a little."""
        before = math.fsum(one.area for one in self.uncut)
        gone = self._add(path, bites) and before - math.fsum(one.area for one in self.uncut)
        return gone > LITTLE * self.law.width * self.law.radius

    @staticmethod
    def _beside(one: Lump, other: Lump) -> bool:
        """Whether a lump is another, or what is left of it."""
        (a, b, c, d), (e, f, g, h) = one.box, other.box
        return a >= e and b >= f and c <= g and d <= h

    def _next(self) -> Front | None:
        """The front that begins nearest to where the last pass ended or began."""
        self._look()
        resting, lost = {*map(id, self.resting)}, {*map(id, self.given_up)}
        found = [
            one
            for lump, some in self.fronts.items()
            for one in some
            if id(lump) not in lost and id(one) not in resting
        ]
        ends = (self.last[0], self.last[-1])
        return min(found, key=lambda one: _apart(one, ends), default=None)

    def _look(self) -> None:
        """Find the fronts of what is uncut; those of untouched lumps are known."""
        known, edges = self.fronts, self.edges
        self.fronts, self.edges = {}, {}
        for lump in self.uncut:
            if lump.thick < SKIN:
                continue
            self.fronts[lump] = known.get(lump) or fronts_of(
                lump, self.law.rim, self.law.radius, self.walls
            )
            self.edges[lump] = edges.get(lump) or edges_of(self.fronts[lump], self.law.spacing)

    def _every_edge(self) -> list[Edge]:
        return [edge for some in self.edges.values() for edge in some]

    def _add(self, path: Path, bites: tuple[float, ...]) -> bool:
        """Go along a path, if there is a way to where it begins."""
        back = way_back(self.last, path.start, self.been, self.uncut, self.law)
        if back is None:
            return False
        self.passes.append(Pass(back, path, bites))
        points = [path.start]
        for segment in path.segments:
            points += polyline(segment, FINE)[1:]
        self._take(points)
        self.last = points
        self.been += [points[len(points) // 2], path.end]
        return True

    def _take(self, points: Sequence[Point]) -> None:
        self.uncut = without(self.uncut, points, self.law.radius)


def _apart(front: Front, ends: Sequence[Point]) -> float:
    if front.closed:
        return min(math.dist(p, end) for p in front.points[::8] for end in ends)
    return min(math.dist(front.points[0], end) for end in ends)

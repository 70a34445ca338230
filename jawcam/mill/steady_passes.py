"""All passes that clear a region at a steady load, and the ways back between them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from jawcam.geometry.cut import tangent_at
from jawcam.geometry.flatten import polyline
from jawcam.geometry.rim import Spot, rim_of
from jawcam.geometry.shapes import Line, Path, Point, Region
from jawcam.geometry.uncut import (
    FINE,
    SKIN,
    Front,
    Lump,
    fronts_of,
    overlap,
    reached,
    without,
)
from jawcam.mill.engaged import peak_along
from jawcam.mill.merging import held
from jawcam.mill.pursuit import Law, Step, Track, pursue
from jawcam.mill.steady_links import way_back
from jawcam.mill.steady_path import BANDS, EVEN, path_of

__all__ = ["Pass", "Steady", "steady_passes"]

SCRAP = 0.1
"""Times width x radius: a smaller lump is taken by one slide along the wall."""

SLOW = 0.06
"""Times width x radius: a front of which less comes in a pass waits until there is no other."""

MERGING = 1.15
"""Times the width aimed at that is bitten off at most where two fronts come together."""

AIMED, ALLOWED = 0.97, 1.14
"""Shares: of the width asked, what is aimed at; of that, what arcs may make of it."""

MOST_PASSES, LEAST_PASSES = 40, 1000
"""Times as many passes as a straight count would need, and so many more: then it is given up."""


@dataclass(frozen=True)
class Pass:
    """back: from where the one before ended to where this begins, both included, through cleared
    space; path: what it cuts along; full: whether it is engaged
    all across, as it can't be helped in a neck that is hardly wider than the cutter."""

    back: tuple[Point, ...]
    path: Path
    full: bool = False


@dataclass(frozen=True)
class Steady:
    """The passes, and what they left standing for want of a way."""

    passes: tuple[Pass, ...]
    left: tuple[Lump, ...]

    @property
    def done(self) -> bool:
        """Whether all that can be reached is cleared."""
        return not self.left


def steady_passes(centre: Region, radius: float, width: float, entry: Sequence[Point]) -> Steady:
    """Clear all that a cutter of `radius` mm reaches with its centre in a region, at a fresh width
    of `width` mm at most. entry: points of the closed path that it went down along, whose last
    turn was level; it stands at the first of them. Nothing is random, and it always comes to an
    end: what can't be cleared is told.
    """
    return _Clearing(centre, radius, width, entry).run()


class _Clearing:
    """What is uncut, pass by pass."""

    def __init__(self, centre: Region, radius: float, width: float, entry: Sequence[Point]) -> None:
        angle = math.acos(1 - width / radius)
        cell = max(0.35 * radius * math.sin(angle), radius / 8)
        self.law = Law(radius, AIMED * width, rim_of(centre, cell, radius + 2 * cell))
        self.uncut = reached(centre, radius)
        area = math.fsum(one.area for one in self.uncut)
        self.most = int(MOST_PASSES * area / (width * radius)) + LEAST_PASSES
        self.entry = (*entry, entry[0])
        self._take(self.entry)
        self.fronts: dict[Lump, list[Front]] = {}
        self.given_up: list[Lump] = []
        self.tired: list[Point] = []
        self.been = list(self.entry[::24])
        self.passes: list[Pass] = []
        self.last: list[Point] = list(self.entry)

    def run(self) -> Steady:
        """All passes."""
        while (front := self._next()) is not None:
            if len(self.passes) >= self.most:
                self.given_up += [one for one in self.uncut if one not in self.given_up]
                break
            tired = self._is_tired(front)
            gone = self._cut(front, self._slot(front) if tired else self._ways(front), full=tired)
            if gone <= FINE * self.law.width and (tired or self._is_scrap(front)):
                self.given_up.append(front.lump)
            elif tired:
                self.tired = [place for place in self.tired if not self._beside(front, place)]
            elif gone < SLOW * self.law.width * self.law.radius and not self._is_scrap(front):
                self.tired.append(front.points[0])
        return Steady(tuple(self.passes), tuple(self.given_up))

    def _cut(self, front: Front, ways: Sequence[Track], *, full: bool) -> float:
        """Take the first of some ways along a front that leads to anything; how much is gone, mm2.
        full: whether the cutter is engaged all across."""
        before = math.fsum(one.area for one in self.uncut)
        gone = 0.0
        for track in ways:
            path = self._path(track, EVEN if front.winding else BANDS)
            if path is not None and not full:
                others = [one for fronts in self.fronts.values() for one in fronts if one != front]
                path = held(path, others, self.uncut, self.law.radius, MERGING * self.law.width)
            if path is not None:
                self._add(path, full=full)
                gone = before - math.fsum(one.area for one in self.uncut)
            if gone > FINE * self.law.width:
                break
        return gone

    def _is_scrap(self, front: Front) -> bool:
        """Whether so little is left of a lump that one slide along the wall takes it."""
        return abs(front.lump.area) < SCRAP * self.law.width * self.law.radius

    def _is_tired(self, front: Front) -> bool:
        """Whether hardly anything came of a pass along a front."""
        return any(self._beside(front, place) for place in self.tired)

    def _beside(self, front: Front, place: Point) -> bool:
        return math.dist(front.points[0], place) < self.law.radius / 2

    def _slot(self, front: Front) -> list[Track]:
        """A short way into a front all across, for want of a better one: in a neck that is hardly
        wider than the cutter."""
        start = self._start(front)
        if start is None or start.spot is None:
            return []
        rim, steps, spot = self.law.rim, [start], start.spot
        for _ in range(4):
            room = rim.pieces[spot.number].length - spot.way
            spot = Spot(spot.number, spot.way + self.law.radius / 4)
            if room <= self.law.radius / 4:
                spot = Spot(rim.after[spot.number], 0.0)
            steps.append(Step(rim.point(spot), rim.heading(spot), spot, slid=True))
        return [Track(steps, [])]

    def _next(self) -> Front | None:
        """The front that begins nearest to where the last pass ended or began."""
        known = self.fronts
        self.fronts = {}
        found: list[Front] = []
        for lump in self.uncut:
            if lump in self.given_up or lump.thick < SKIN:
                continue
            self.fronts[lump] = known.get(lump) or fronts_of(lump, self.law.rim, self.law.radius)
            found += self.fronts[lump]
        if not found:
            return None
        ends = (self.last[0], self.last[-1])
        return min(found, key=lambda one: (self._is_tired(one), _apart(one, ends)))

    def _ways(self, front: Front) -> list[Track]:
        """The ways to take a front, the best first."""
        most = 400 * self.law.radius + 3 * _girth(front)
        start = self._start(front)
        ways: list[Track] = []
        if start is not None and (front.closed or not self._is_scrap(front)):
            ways.append(pursue(self.law, front, start, most))
        if start is not None and start.spot is not None:
            ways.append(Track(self._slide(front, start.spot), []))
        return ways

    def _path(self, track: Track, bands: Sequence[tuple[float, float]]) -> Path | None:
        """Arcs for a pass, as few as bite off hardly more than asked; None if it goes nowhere."""
        if not track.steps:
            return None
        found: list[tuple[float, int, Path]] = []
        for number, band in enumerate(bands):
            path = path_of(track.steps, self.law, band)
            if path is None:
                return None
            peak = 0.0
            if track.front and len(bands) > 1:
                law = self.law
                peak = peak_along(track.front, path, law.radius, law.stride / 2)
            found.append((peak, number, path))
            if peak < ALLOWED * self.law.width:
                return path
        return min(found)[-1]

    def _start(self, front: Front) -> Step | None:
        """Where a pass along a front may begin: where the cutter meets nothing yet."""
        rim, law = self.law.rim, self.law
        little = 0.02 * law.width
        if front.closed:
            if not self.passes and front.lump.area < 0:
                (x0, y0), (x1, y1) = self.entry[0], self.entry[1]
                size = math.dist((x0, y0), (x1, y1)) or 1.0
                return Step((x0, y0), ((x1 - x0) / size, (y1 - y0) / size))
            return self._start_beside(front, little)
        spot = rim.feel(front.points[0])[1]
        if spot is None:
            return None
        spot = rim.back(spot, law.stride / 2)
        best: tuple[float, Spot] | None = None
        for _ in range(24):
            met = overlap(self.uncut, [rim.point(spot)], law.radius)
            if best is None or met < best[0]:
                best = (met, spot)
            if met < little:
                break
            spot = rim.back(spot, law.stride)
        assert best is not None
        spot = best[1]
        return Step(rim.point(spot), rim.heading(spot), spot)

    def _start_beside(self, front: Front, little: float) -> Step | None:
        """Beside a closed front, on its cleared side, nearest to where the cutter is."""
        points = front.points
        order = sorted(range(len(points)), key=lambda k: math.dist(points[k], self.last[-1]))
        for k in order[:: max(1, len(order) // 12)]:
            (ax, ay), (bx, by) = points[k - 1], points[(k + 1) % len(points)]
            size = math.hypot(bx - ax, by - ay)
            if size == 0:
                continue
            hx, hy = (bx - ax) / size, (by - ay) / size
            place = (points[k][0] - hy * self.law.radius, points[k][1] + hx * self.law.radius)
            clear = overlap(self.uncut, [place], self.law.radius) < little
            if clear and self.law.rim.gap(place) >= 0:
                return Step(place, (hx, hy))
        return None

    def _slide(self, front: Front, first: Spot) -> list[Step]:
        """Along the rim from a spot to the end of a front."""
        rim = self.law.rim
        last = rim.feel(front.points[-1])[1]
        if last is None:
            return []
        spots = rim.between(first, last, _girth(front) + 6 * self.law.radius)
        if spots is None:
            return []
        steps = [Step(rim.point(first), rim.heading(first), first)]
        return steps + [Step(rim.point(one), rim.heading(one), one, slid=True) for one in spots]

    def _add(self, path: Path, *, full: bool) -> None:
        """Go along a path, if there is a way to where it begins."""
        path = self._led_in(path)
        back = way_back(self.last, path.start, self.been, self.uncut, self.law)
        if back is None:
            return
        self.passes.append(Pass(back, path, full))
        points = [path.start]
        for segment in path.segments:
            points += polyline(segment, FINE)[1:]
        self._take(points)
        self.last = points
        self.been += [points[len(points) // 2], path.end]

    def _led_in(self, path: Path) -> Path:
        """A path begun a little off what it cuts and off the wall, where the cutter can come down
        without touching either."""
        (x, y), radius = path.start, self.law.radius
        hx, hy = tangent_at(path.segments[0], path.start)
        for size in (0.05 * radius, 0.1 * radius, 0.2 * radius):
            for ahead, left in ((0.0, 1.0), (-0.7, 0.7), (-1.0, 0.0), (0.7, 0.7)):
                place = (x + size * (ahead * hx - left * hy), y + size * (ahead * hy + left * hx))
                clear = overlap(self.uncut, [place], radius + SKIN) <= 0
                if clear and self.law.rim.gap(place) >= SKIN:
                    return Path((Line(place, path.start), *path.segments))
        return path

    def _take(self, points: Sequence[Point]) -> None:
        self.uncut = without(self.uncut, points, self.law.radius)


def _apart(front: Front, ends: Sequence[Point]) -> float:
    if front.closed:
        return min(math.dist(p, end) for p in front.points[::8] for end in ends)
    return min(math.dist(front.points[0], end) for end in ends)


def _girth(front: Front) -> float:
    return math.fsum(math.dist(a, b) for a, b in zip(front.points, front.points[1:], strict=False))

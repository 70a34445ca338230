"""All passes that clear a region at a steady load, and the ways back between them."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from jawcam.geometry.rim import rim_of
from jawcam.geometry.shapes import Path, Point, Region
from jawcam.geometry.uncut import SKIN, Front, Lump
from jawcam.mill.bow_ends import ends_of
from jawcam.mill.bow_judging import Found
from jawcam.mill.bows import LAST_DRAWN, Cast, cast, nibble, no_cast
from jawcam.mill.engaged import Edge
from jawcam.mill.law import Law
from jawcam.mill.layers import along_wall, cornered, layer, peaks_along
from jawcam.mill.progress import Circle, Pass, Progress
from jawcam.mill.spiral import spiral
from jawcam.mill.steady_links import led_in
from jawcam.mill.stretches import eased, next_stretch

__all__ = ["Steady", "steady_passes"]

THIN = 0.3
"""Times the width asked: what is thicker is never left to the way along the wall at the end."""

NEAR = 4.0
"""Times the radius: what rests so near ahead on a wall is taken in one go."""

SLIVER = 3 * SKIN
"""mm; a thinner thing in a corner, less than a tooth takes, is let stand, if the way along the wall
would bite off too much of it."""

LITTLE = 0.003
"""Times width x radius: a bow that takes less is none."""

MOST_PASSES, LEAST_PASSES = 40, 1000
"""Times as many passes as a straight count would need, and so many more: then it is given up."""


Finder = Callable[[Law, Front, Sequence[Edge], Cast], tuple[Found, Cast] | None]
"""What looks for a bow along a front: edges of all fronts, and what is remembered of the last."""


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
    cell = radius / 4
    law = Law(radius, width, rim_of(centre, cell, radius + 2 * cell))
    clearing = _Clearing(law, Progress(law, centre, entry))
    clearing.wind_out(entry, room)
    clearing.run()
    if not clearing.given_up:
        clearing.follow_walls()
        clearing.given_up += [one for one in clearing.standing.lumps if one.thick > SLIVER]
    return Steady(tuple(clearing.gone.passes), tuple(clearing.given_up))


class _Clearing:
    """gone: what has been gone along; most: as many passes at most; resting: fronts of what is
    thin, left to the ways along the walls; casts: what is remembered of bows, by the points where
    their fronts began."""

    def __init__(self, law: Law, gone: Progress) -> None:
        self.law, self.gone, self.standing = law, gone, gone.standing
        straight = self.standing.area / (law.width * law.radius)
        self.most = int(MOST_PASSES * straight) + LEAST_PASSES
        self.little = LITTLE * law.width * law.radius
        self.resting: list[Front] = []
        self.given_up: list[Lump] = []
        self.casts: list[tuple[Point, Cast]] = []

    def wind_out(self, entry: Circle, room: float) -> None:
        """From the helix to the largest circle about its middle."""
        if room <= entry.radius + SKIN:
            return
        law = self.law
        for turn in spiral(entry.centre, entry.radius, room, law.radius, law.width):
            self.gone.go(turn, (law.width,) * len(turn.segments))

    def run(self) -> None:
        """Front after front, the nearest next."""
        while (front := self._next()) is not None:
            if len(self.gone.passes) >= self.most:
                self.given_up += [one for one in self.standing.lumps if one.thick >= SKIN]
                return
            if not (self._rests(front) or any(way(front) for way in self._ways())):
                self.given_up.append(front.lump)

    def _next(self) -> Front | None:
        """The nearest front that neither rests nor is given up."""
        resting, lost = {*map(id, self.resting)}, {*map(id, self.given_up)}
        every = self.standing.fronts()
        return self.gone.nearest(
            one for one in every if id(one.lump) not in lost and id(one) not in resting
        )

    def _ways(self) -> tuple[Callable[[Front], bool], ...]:
        """How a front can be gone along, the best first; each tells whether it could."""
        return (
            lambda front: self._bow(front, cast),
            lambda front: self._layer(front, self.law.most),
            lambda front: self._bow(front, nibble),
            lambda front: self._bow(front, partial(nibble, lead=LAST_DRAWN)),
            lambda front: self._layer(front, math.inf),
        )

    def _rests(self, front: Front) -> bool:
        """Whether what is behind a front is so thin that it can be left to the way along the
        wall."""
        if front.closed or front.lump.thick >= THIN * self.law.width:
            return False
        whole = along_wall(self.law, front, self.standing.edges())
        if whole is None or whole.peak > self.law.most or cornered(whole.path.segments):
            return False
        self.resting.append(front)
        return True

    def _bow(self, front: Front, find: Finder) -> bool:
        """A bow along a front; whether there was one worth while."""
        if front.closed:
            return False
        found = find(self.law, front, self.standing.edges(), self._remembered(front))
        if found is None or found[0].area < self.little:
            return False
        path = found[0].bow.path()
        if self.gone.go(path, (found[0].peak,) * len(path.segments)) <= self.little:
            return False
        self.casts.append((front.points[0], found[1]))
        return True

    def _remembered(self, front: Front) -> Cast:
        """Of the last bow that began near to where a front does."""
        near = 2 * self.law.radius
        for place, one in reversed(self.casts):
            if math.dist(place, front.points[0]) < near:
                return one
        return no_cast(self.law)

    def _layer(self, front: Front, most: float) -> bool:
        """A layer off the wall behind a front that bites off no more than `most` mm; whether there
        was one. In the end what is too thin for one rests."""
        law = self.law
        found = None if front.closed else layer(law, front, self.standing.edges())
        if found is None:
            return False
        if found.off and found.peak <= most:
            path = led_in(found.path, self.standing.lumps, self.standing.edges(), law)
            extra = len(path.segments) - len(found.peaks)
            if self.gone.go(path, (*found.peaks[:extra], *found.peaks)) > self.little:
                return True
        if found.off == 0 and found.peak <= law.most:
            self.resting.append(front)
            return True
        if math.isfinite(most) or front.lump.thick > THIN * law.width:
            return False
        self.resting += self.standing.left_of(front.lump)
        return True

    def follow_walls(self) -> None:
        """Along the wall wherever something thin rests on it."""
        law, fronts = self.law, [one for one in self.standing.fronts() if not one.closed]
        edges = self.standing.edges()
        waiting = [
            ends
            for one in fronts
            if (whole := along_wall(law, one, edges)) is not None
            and (whole.peak <= law.most or one.lump.thick > SLIVER)
            and (ends := ends_of(one, law)) is not None
        ]
        while waiting:
            pieces = eased(next_stretch(law.rim, waiting, self.gone.last[-1], NEAR * law.radius))
            if pieces:
                path = led_in(Path(tuple(pieces)), self.standing.lumps, edges, law)
                self.gone.go(path, peaks_along(path, edges, law.radius))

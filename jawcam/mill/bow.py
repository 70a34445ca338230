"""A bow: one pass of three arcs, that leaves a wall along it and comes to another along it.

It always turns to the left, from the heading at its start to that mirrored at its chord, and is
alike at both ends. A round front that moves on as it is takes most in its middle and nothing at its
ends; with the ends bent more tightly than the middle the bite is more even. Behind its start the
first arc is drawn out into what is cleared, so that the cutter meets nothing where it comes down.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise

import numpy as np

from jawcam.geometry.shapes import Arc, Path, Point
from jawcam.mill.engaged import Floats

__all__ = ["Bow", "bow"]

TIGHT = 0.35
"""The radius of the arcs at the ends by that of the one between."""

_LEAST, _MOST = 0.02, math.pi - 0.15  # of half the turn, radians
_PLACES = 6  # at least, on a leg
_SAME = 1e-6  # mm; nearer points are one


@dataclass(frozen=True)
class Leg:
    """An arc to the left. centre, radius: mm; first: its heading at its start, turn: by how much
    it turns, radians."""

    centre: Point
    radius: float
    first: float
    turn: float

    @property
    def length(self) -> float:
        """Of its way, mm."""
        return self.radius * self.turn

    def at(self, heading: float) -> Point:
        """Where it has a heading."""
        (x, y), radius = self.centre, self.radius
        return (x + radius * math.sin(heading), y - radius * math.cos(heading))


@dataclass(frozen=True)
class Bow:
    """The legs of a bow, three, or one where the ends are as round as the middle; lead: by how many
    radians the first is drawn out behind the wall."""

    legs: tuple[Leg, ...]
    lead: float

    @property
    def start(self) -> Point:
        """Where it begins, drawn out."""
        return self.legs[0].at(self.legs[0].first)

    @property
    def end(self) -> Point:
        """Where it ends."""
        return self.legs[-1].at(self.legs[-1].first + self.legs[-1].turn)

    @property
    def length(self) -> float:
        """Of its way, mm."""
        return math.fsum(leg.length for leg in self.legs)

    def led_in(self, lead: float) -> Bow:
        """The same, drawn out otherwise."""
        first, more = self.legs[0], lead - self.lead
        drawn = replace(first, first=first.first - more, turn=first.turn + more)
        return Bow((drawn, *self.legs[1:]), lead)

    def path(self) -> Path:
        """Its arcs."""
        arcs: list[Arc] = []
        for leg in self.legs:
            start = arcs[-1].end if arcs else leg.at(leg.first)
            arcs.append(Arc(start, leg.at(leg.first + leg.turn), leg.centre, True))
        return Path(tuple(arcs))

    def places(self, spacing: float) -> tuple[Floats, Floats, Floats]:
        """Places along it, no more than `spacing` mm apart, and the unit headings there, (n, 2);
        and how far along it they lie, mm."""
        lengths = [leg.length for leg in self.legs]
        ends = [0.0, *accumulate(lengths)]
        rows = [
            first + (last - first) / count * np.arange(count)
            for first, last, count in (
                (first, last, max(_PLACES, math.ceil((last - first) / spacing)))
                for first, last in pairwise(ends)
            )
        ]
        ways = np.concatenate([*rows, ends[-1:]])
        return *self.at(ways), ways

    def at(self, ways: Floats) -> tuple[Floats, Floats]:
        """The places so many mm along it, rising, and the unit headings there, (n, 2)."""
        begins = [0.0, *accumulate(leg.length for leg in self.legs)][:-1]
        every = np.array(
            [
                (*leg.centre, leg.radius, leg.first - begin / leg.radius)
                for leg, begin in zip(self.legs, begins, strict=True)
            ]
        )
        x, y, radius, first = every[np.searchsorted(begins[1:], ways, side="right")].T
        turn = first + ways / radius
        sine, cosine = np.sin(turn), np.cos(turn)
        places = np.stack((x + radius * sine, y - radius * cosine), axis=1)
        return places, np.stack((cosine, sine), axis=1)


def bow(start: Point, heading: Point, end: Point, share: float, lead: float) -> Bow | None:
    """The bow from one place, left with a unit heading, to another; None where it would have to
    turn hardly at all or all round. share: of half its turn, how much each end makes; lead: by how
    many radians the first arc is drawn out behind the start.

    With half the turn H, the share's E and the chord c the radius between is
    c / 2 / (q (sin H - sin (H - E)) + sin (H - E)), q being `TIGHT`: the chord is the sum of what
    each arc makes along it.
    """
    dx, dy = end[0] - start[0], end[1] - start[1]
    chord = math.hypot(dx, dy)
    half = math.atan2(heading[0] * dy - heading[1] * dx, heading[0] * dx + heading[1] * dy)
    if chord < _SAME or not _LEAST < half < _MOST:
        return None
    first = math.atan2(heading[1], heading[0])
    ends, inner = share * half, math.sin(half - share * half)
    radius = chord / 2 / (TIGHT * (math.sin(half) - inner) + inner)
    if radius <= 0:
        return None
    tight = TIGHT * radius if share else radius
    turns = [(tight, ends), (radius, 2 * (half - ends)), (tight, ends)]
    legs: list[Leg] = []
    (x, y), way = start, first
    for size, turn in turns if share else [(radius, 2 * half)]:
        centre = (x - size * math.sin(way), y + size * math.cos(way))
        drawn = 0.0 if legs else lead
        legs.append(Leg(centre, size, way - drawn, turn + drawn))
        way += turn
        x, y = legs[-1].at(way)
    return Bow(tuple(legs), lead)

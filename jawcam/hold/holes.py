"""Whether drilled holes lie in a blank, and keep off its face, the pockets and each other."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from jawcam.errors import FaultList, Place
from jawcam.geometry.measure import inside_distances, nearest_on
from jawcam.geometry.shapes import Point, Region
from jawcam.hold.target import Blanks, Hole
from jawcam.units import Units

__all__ = ["Drilled", "check_holes", "enters"]

_EVEN = 1e-9  # mm; what falls short by less is enough


@dataclass(frozen=True)
class Drilled:
    """A drilled hole, what it is called, and its key in the setup."""

    key: str
    name: str
    hole: Hole


def enters(hole: Hole, blanks: Blanks) -> bool:
    """Whether a hole goes into a blank at all, as seen from above."""
    near, far = blanks.gap / 2, blanks.gap / 2 + blanks.thickness
    beside = max(abs(hole.x) - blanks.width / 2, 0.0)
    beyond = max(near - abs(hole.y), abs(hole.y) - far, 0.0)
    return math.hypot(beside, beyond) < hole.dia / 2 - _EVEN


def check_holes(
    holes: Sequence[Drilled],
    pockets: Sequence[tuple[Region, ...]],
    blanks: Blanks,
    keep: float,
    units: Units,
    place: Callable[[str], Place],
    faults: FaultList,
) -> None:
    """Note a fault for each hole that lies in no blank, and for all that come nearer than `keep` to
    a blank's face at the gap, to a pocket (seen from above, at whatever depth), or to each other.

    pockets: level by level, as they are cut. Holes in corners are part of the pocket, so that only
    how far they keep off other holes counts. In mm.
    """
    check = _Check(pockets, blanks, keep, units, place, faults)
    inside = [one for one in holes if enters(one.hole, blanks)]
    for one in holes:
        if one.hole.kind == "stop" and one not in inside:
            check.lost(one)
    for one in inside:
        if one.hole.kind == "stop":
            check.face(one)
            check.pocket(one)
    for one, other in itertools.combinations(inside, 2):
        check.pair(one, other)


@dataclass(frozen=True)
class _Check:
    pockets: Sequence[tuple[Region, ...]]
    blanks: Blanks
    keep: float
    units: Units
    place: Callable[[str], Place]
    faults: FaultList

    def lost(self, one: Drilled) -> None:
        near, half = self.blanks.gap / 2, self.blanks.width / 2
        ends = [f"X {self._n(-half)} to X {self._n(half)}"]
        for a, b in ((-near - self.blanks.thickness, -near), (near, near + self.blanks.thickness)):
            ends.append(f"Y {self._n(a)} to Y {self._n(b)}")
        what = (
            f"{one.name} goes into no blank: they reach from {ends[0]}, "
            f"the front one from {ends[1]} and the back one from {ends[2]}"
        )
        inside = self.units.say(one.hole.dia / 2 + self.keep)
        mend = f"put its middle {inside} or more within one of them"
        self._fault(one, what, (one.hole.x, one.hole.y), mend)

    def face(self, one: Drilled) -> None:
        hole, near, say = one.hole, self.blanks.gap / 2, self.units.say
        side, sign = ("back", 1) if hole.y >= 0 else ("front", -1)
        left = sign * hole.y - hole.dia / 2 - near
        if left >= self.keep - _EVEN:
            return
        what = self._only(left, f"{one.name} and the face of the {side} jaw")
        if left <= 0:
            what = f"{one.name} breaks out of the face of the {side} jaw by {say(-left)}"
        mend = f"shift it {say(self.keep - left)} to the {side}"
        self._fault(one, what, (hole.x, sign * near), mend)

    def pocket(self, one: Drilled) -> None:
        left, at = self._pocket_off(one.hole)
        if left >= self.keep - _EVEN:
            return
        what = self._only(left, f"{one.name} and the pocket")
        if left <= 0:
            what = f"{one.name} runs {self.units.say(-left)} into the pocket"
        mend = f"shift it {self.units.say(self.keep - left)} away from the pocket"
        self._fault(one, what, at, mend)

    def pair(self, one: Drilled, other: Drilled) -> None:
        a, b = one.hole, other.hole
        apart = math.dist((a.x, a.y), (b.x, b.y))
        left = apart - (a.dia + b.dia) / 2
        if left >= self.keep - _EVEN:
            return
        own = other if b.kind == "stop" else one  # the later one, if both are asked for
        if a.kind != b.kind and self._pocket_off(own.hole)[0] <= left + _EVEN:
            return  # the corner's is told as a part of its pocket
        what = self._only(left, f"{one.name} and {other.name}")
        if left <= 0:
            what = f"{one.name} and {other.name} run {self.units.say(-left)} into each other"
        mend = f"shift one {self.units.say(self.keep - left)} away from the other"
        if own.hole.kind == "relief":
            mend = "take a smaller drill for the corners, or another relief than a drilled one"
        share = (a.dia / 2 + left / 2) / apart if apart > 0 else 0.0
        self._fault(own, what, (a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share), mend)

    def _pocket_off(self, hole: Hole) -> tuple[float, Point]:
        """How far a hole keeps off the pockets of all levels in plan (negative: how far it runs
        into one), and where it comes nearest."""
        centre = (hole.x, hole.y)
        rows: list[tuple[float, Point]] = []
        for regions in self.pockets:
            inside = float(inside_distances(regions, np.array([centre]))[0])
            feet = [nearest_on(path, centre)[1] for region in regions for path in region.paths]
            rows.append(
                (-inside - hole.dia / 2, min(feet, key=lambda foot: math.dist(foot, centre)))
            )
        return min(rows, key=lambda row: row[0])

    def _only(self, left: float, between: str) -> str:
        say = self.units.say
        return f"only {say(left)} of the blanks is left between {between}, {say(self.keep)} must be"

    def _fault(self, one: Drilled, what: str, at: Point, mend: str) -> None:
        self.faults.add(what, replace(self.place(one.key), at=self.units.point(*at)), mend)

    def _n(self, value: float) -> str:
        return self.units.number(value, 4 if self.units is Units.INCH else 3)

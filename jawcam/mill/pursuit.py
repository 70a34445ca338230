"""One pass along a front, with the cutter engaged by the same angle all the way.

Let e be the point ahead where the front leaves the cutter's circle about c. The cutter bites off
what lies between its right hand and e; the material stands square to its heading at the one and
the engaged angle further round at the other. So the centre must head for (e - c) / R turned left
by 90 degrees less the angle asked, and then the fresh width per length of path is
R (1 - cos angle), however the path and the front may bend: what a point of the circle's edge cuts
per length is the cosine of its direction off the heading, and that sums to just this. Where the
law would lead out of where the centre may be, it slides along the rim of that, which bites less.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

from jawcam.geometry.rim import Rim, Spot
from jawcam.geometry.shapes import Point
from jawcam.geometry.uncut import Front
from jawcam.mill.engaged import cross, dot, leaving, passed, ways_along

__all__ = ["Law", "Step", "Track", "pursue"]

STRIDE = 0.35
"""A step's length by R sin(engaged angle): what the front may bend meanwhile does not show."""

TURN = 0.985
"""Cosine of the most that the heading may turn in half a step; else the step is halved."""

_LEFT = 1e-3  # sine of the angle off the rim at which the law is taken to lead inside
_HALVINGS = 5
_GRAZING, _MOST_GAIN = 0.05, 8.0  # where a front runs almost along the circle


class Step(NamedTuple):
    """Where the centre gets, its heading there, the spot on the rim if it lies on it, whether it
    slid along the rim to it, and how much more it bites off for each mm that it lies further to
    the right."""

    place: Point
    heading: Point
    spot: Spot | None = None
    slid: bool = False
    gain: float = 1.0


class Track(NamedTuple):
    """The steps of a pass, and the front that it followed, as far as it left one itself too."""

    steps: list[Step]
    front: list[Point]


@dataclass(frozen=True)
class Law:
    """radius: the cutter's, width: the fresh width asked for, mm; rim: of where the centre may
    be."""

    radius: float
    width: float
    rim: Rim

    @property
    def angle(self) -> float:
        """The engaged angle, radians: width = R (1 - cos)."""
        return math.acos(1 - self.width / self.radius)

    @property
    def stride(self) -> float:
        """The usual length of a step, mm."""
        return STRIDE * self.radius * math.sin(self.angle)


def pursue(law: Law, front: Front, start: Step, most: float) -> Track:
    """A pass along a front from a place where the cutter meets nothing yet; no longer than `most`
    mm. Along a closed front that opens outward (nothing uncut inside) it goes on along what it cut
    itself until that has met the rim; round a lump it goes once."""
    pursuit = _Pursuit(law, front, start)
    return Track(pursuit.run(most), pursuit.ahead)


class _Pursuit:
    """A pass as it grows. ahead: the front's points, way: their distance along it from the first;
    index: of the last of them that is known to be passed."""

    def __init__(self, law: Law, front: Front, start: Step) -> None:
        self.law = law
        self.closed = front.closed
        self.winding = front.winding
        self.ahead = list(front.points)
        if front.closed:
            self.ahead = _begun_beside(self.ahead, start.place)
        self.way = ways_along(self.ahead)
        self.index = 0
        self.steps = [start]
        self.last: int | None = None if self.winding else len(self.ahead) - 1
        self.end: Spot | None = None
        if not front.closed:
            self.end = law.rim.feel(front.points[-1])[1]
        self.sine, self.cosine = math.sin(law.angle), math.cos(law.angle)

    def run(self, most: float) -> list[Step]:
        """The steps."""
        stride, gone = self.law.stride, 0.0
        while gone < most:
            here = self.steps[-1]
            heading, self.index = self._heading(here.place, here.heading, self.index, look=True)
            self.steps[-1] = here._replace(gain=self._gain(heading))
            if self.last is not None and self.index >= self.last:
                break
            step = self._slide(here, heading, stride) if here.spot else None
            if step is None:
                step = self._stride(here, heading, stride)
            gone += math.dist(here.place, step.place)
            self.steps.append(step)
            if self.closed:
                self._leave_behind(step)
            if step.slid and step.spot == self.end:
                return self.steps
        return self._touched()

    def _slide(self, here: Step, heading: Point, stride: float) -> Step | None:
        """A step along the rim, up to where the law leads off it; None if it does so here."""
        rim, spot = self.law.rim, here.spot
        assert spot is not None
        along = rim.heading(spot)
        left = cross(along, heading) > _LEFT
        if left and self._inside(here.place, heading, stride) is not None:
            return None
        room = rim.pieces[spot.number].length - spot.way
        size = min(stride / 8 if left else stride, room)
        if not left and self._leads_off(spot, size):
            low, high = 0.0, size
            for _ in range(7):
                middle = (low + high) / 2
                low, high = (low, middle) if self._leads_off(spot, middle) else (middle, high)
            size = high
        end = self.end
        near = end is not None and end.number == spot.number and self.index >= len(self.ahead) - 4
        if end is not None and near and spot.way + 1e-9 < end.way <= spot.way + size:
            return Step(rim.point(end), along, end, slid=True)
        if size >= room - 1e-9:
            nxt = Spot(rim.after[spot.number], 0.0)
        else:
            nxt = Spot(spot.number, spot.way + size)
        return Step(rim.point(nxt), rim.heading(nxt), nxt, slid=True)

    def _leads_off(self, spot: Spot, by: float) -> bool:
        """Whether the law leads inside `by` mm further along a piece of the rim."""
        there = Spot(spot.number, spot.way + by)
        along = self.law.rim.heading(there)
        wanted, _ = self._heading(self.law.rim.point(there), along, self.index, look=True)
        return cross(along, wanted) > _LEFT

    def _inside(self, place: Point, heading: Point, stride: float) -> float | None:
        """The longest step that way which stays inside; None if none does."""
        for half in range(_HALVINGS + 1):
            size = stride * 0.5**half
            if self.law.rim.gap(_gone(place, heading, size)) >= -1e-9:
                return size
        return None

    def _stride(self, here: Step, heading: Point, stride: float) -> Step:
        """A step through the inside: where the law leads to from its middle; onto the rim where
        that would cross it."""
        size = stride
        if here.spot is not None:
            size = self._inside(here.place, heading, stride) or stride
        while True:
            middle = _gone(here.place, heading, size / 2)
            wanted, _ = self._heading(middle, heading, self.index, look=False)
            if size < stride / 12 or dot(wanted, heading) > TURN:
                break
            size /= 2
        if len(self.steps) > 1:
            wanted = _no_sharper(here.heading, wanted, size / self.law.radius)
        place = _gone(here.place, wanted, size)
        gap, spot = self.law.rim.feel(place)
        if gap < 0 and spot is not None:
            return Step(self.law.rim.point(spot), wanted, spot)
        return Step(place, wanted)

    def _leave_behind(self, step: Step) -> None:
        """A closed front goes on where the cutter itself has left one; it ends where that is the
        wall."""
        (x, y), (hx, hy), radius = step.place, step.heading, self.law.radius
        if self.winding:
            point = (x + hy * radius, y - hx * radius)
            self.way.append(self.way[-1] + math.dist(point, self.ahead[-1]))
            self.ahead.append(point)
            if step.slid and self.last is None:
                self.last = len(self.ahead) - 1

    def _touched(self) -> list[Step]:
        """The steps, and the rim itself where the last one all but touches it."""
        here = self.steps[-1]
        if not self.closed and here.spot is None:
            gap, spot = self.law.rim.feel(here.place)
            if spot is not None and 1e-6 < gap < 0.025 * self.law.radius:
                self.steps.append(Step(self.law.rim.point(spot), here.heading, spot))
        return self.steps

    def _heading(
        self, place: Point, heading: Point, index: int, *, look: bool
    ) -> tuple[Point, int]:
        """Where the law leads from a place, and the last point of the front that is passed there.
        look: also whether the front comes back into the circle further on."""
        radius = self.law.radius
        at = passed(self.ahead, self.way, place, heading, index, radius, look=look)
        ex, ey = leaving(self.ahead, at, place, radius * radius)
        size = math.hypot(ex, ey) or 1.0
        ex, ey = ex / size, ey / size
        return (ex * self.sine - ey * self.cosine, ex * self.cosine + ey * self.sine), at

    def _gain(self, heading: Point) -> float:
        """How much more is bitten off for each mm that the centre lies further to the right.

        There the circle leaves the front where t (u.g) = u.r, with u from the centre to e, g the
        front's direction and r the right hand; so the engaged angle is wider by
        (t g - r).v / R, v being u turned left. Beside a straight front that gives 1.
        """
        if self.index + 1 >= len(self.ahead):
            return 1.0
        (ax, ay), (bx, by) = self.ahead[self.index], self.ahead[self.index + 1]
        size = math.hypot(bx - ax, by - ay) or 1.0
        front = ((bx - ax) / size, (by - ay) / size)
        # u lies 90 degrees less the angle to the right of the heading
        (hx, hy), sine, cosine = heading, self.sine, self.cosine
        out = (hx * sine + hy * cosine, hy * sine - hx * cosine)
        away = max(dot(out, front), _GRAZING)
        gain = sine * (cosine * cross(out, front) / away + sine)
        return min(max(gain, 1.0), _MOST_GAIN)


def _no_sharper(heading: Point, wanted: Point, most: float) -> Point:
    """Turn from one heading to another, but to the right no further than `most` radians: a
    tighter path than the cutter itself would leave an edge standing."""
    turn = math.atan2(cross(heading, wanted), dot(heading, wanted))
    if turn >= -most:
        return wanted
    (x, y), cos, sin = heading, math.cos(most), math.sin(most)
    return (x * cos + y * sin, y * cos - x * sin)


def _begun_beside(points: list[Point], place: Point) -> list[Point]:
    """A closed row of points, begun at the one nearest to a place, which comes last again."""
    first = min(range(len(points)), key=lambda k: math.dist(points[k], place))
    return [*points[first:], *points[: first + 1]]


def _gone(place: Point, heading: Point, size: float) -> Point:
    return (place[0] + heading[0] * size, place[1] + heading[1] * size)

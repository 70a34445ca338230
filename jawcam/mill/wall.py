"""The finished wall: led in and out by tangent arcs, at full depth where little is left to cut,
level by level where roughing found no room; spring passes."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise

import numpy as np

from jawcam.errors import Fault, InputError, Place
from jawcam.geometry.cut import begun_near
from jawcam.geometry.measure import contains, inside_distances, nearest_on
from jawcam.geometry.shapes import Arc, Path, Point, Region
from jawcam.mill.bite import CORNER, Cleared, bites
from jawcam.mill.entry import Descent, choose_descent, descend, ramp_fits, too_tight
from jawcam.mill.fed import wall_feeds
from jawcam.mill.lead import Lead, find_lead
from jawcam.mill.links import Air, hop
from jawcam.mill.order import Stop
from jawcam.mill.trail import Trail
from jawcam.mill.visits import visit_stops
from jawcam.motion.moves import Compensate
from jawcam.tools.pace import Pace

__all__ = ["Wall", "finish_walls"]


@dataclass(frozen=True)
class Wall:
    """What the wall pass needs to know. top: the Z that the wall begins at; heights: those of the
    cuts from there down to the floor, for where more than `stepover` is left to cut; light: the
    same where no more is left; pace: the feed for each bite; cleared:
    where cutters have been down to the floor before; free: where the finishing cutter's centre
    may be with nothing left to cut; standing: the Z that those are only cleared down to where the
    floor comes after the wall, None: down to the floor."""

    dia: float
    leave: float
    stepover: float
    pace: Pace
    slot_feed: float
    plunge_feed: float
    ramp: float
    top: float
    heights: tuple[float, ...]
    light: tuple[float, ...]
    air: Air
    spring: int
    lead: float | None
    compensation: int | None
    centre_cutting: bool
    cleared: tuple[Cleared, ...]
    free: tuple[Region, ...]
    place: Place
    standing: float | None = None

    @property
    def feed(self) -> float:
        """Where the stock to leave is cut, and beside the wall; mm/min."""
        return self.pace.at(self.leave)

    @property
    def floor(self) -> float:
        """The Z of the seat."""
        return self.heights[-1]

    @property
    def gap(self) -> float:
        """None: to a wall the cutter comes from beside it, not through the gap."""
        return 0.0

    def foot(self, above: float, z: float) -> float:
        """What a cut from `above` down to `z` takes of a floor that still stands, all across, as
        the width (mm) that comes to as much along the wall."""
        if self.standing is None or z >= self.standing:
            return 0.0
        return self.dia * (min(above, self.standing) - z) / (above - z)


def finish_walls(trail: Trail, wall: Wall, regions: Sequence[Region]) -> None:
    """Finish along the boundaries of `regions` (where the cutter's centre may be), climb, by a
    short way from one to the next.

    Raises InputError when compensation is asked for and there is no room for its straight lead-in,
    or when there is no way down at all.
    """
    rounds = [_round(wall, path, region) for region in regions for path in region.paths]
    visit_stops(trail, rounds)


def _round(wall: Wall, path: Path, region: Region) -> tuple[Stop, Callable[[Trail], None]]:
    """Where a boundary is gone round from and to, and how."""
    widths = bites(path, wall.dia / 2, wall.cleared)
    heights = wall.heights if max(widths) > CORNER * wall.stepover else wall.light
    wanted = wall.lead if wall.lead is not None else wall.dia / 2
    lead = find_lead(path, wanted, wall.free)
    if lead is not None:
        cut = partial(_led, wall=wall, lead=lead, heights=heights)
        return Stop(lead.before, lead.after), cut
    if wall.compensation is not None:
        raise InputError(
            Fault(
                "there is no room in this pocket for the straight move and the arc that "
                "cutter compensation must be switched on along",
                wall.place,
                "take a smaller finishing cutter, or leave finish.compensation out",
            )
        )
    mine = [one for one in wall.free if contains([region], one.outer.start)]
    if not mine:
        return Stop(path.start, path.start), partial(_ramped, wall=wall, path=path)
    near = [nearest_on(one.outer, path.start)[1] for one in mine]
    start = min(near, key=lambda point: math.dist(point, path.start))
    cut = partial(_without_lead, wall=wall, path=path, start=start, heights=heights)
    return Stop(start, start), cut


def _led(trail: Trail, wall: Wall, lead: Lead, heights: Sequence[float]) -> None:
    for above, z in pairwise((wall.top, *heights)):
        foot = wall.foot(above, z)
        feed = wall.pace.at(wall.leave + foot)
        _down(trail, wall, lead.before, above, z)
        if wall.compensation is not None:
            trail.add(Compensate("left", wall.compensation))
        trail.feed(*lead.start, z, feed)
        trail.follow(Arc(lead.start, lead.point, lead.centre, ccw=True), z, feed)
        _passes(trail, wall, lead.path, z, foot)
        trail.follow(Arc(lead.point, lead.end, lead.centre, ccw=True), z, feed)
        if wall.compensation is not None:
            trail.add(Compensate("off"))
        trail.feed(*lead.after, z, feed)


def _down(trail: Trail, wall: Wall, place: Point, above: float, z: float) -> None:
    """Down to a height beside the wall: straight where all is cleared, into a floor that stands as
    into any material."""
    if wall.standing is None or z >= wall.standing:
        hop(trail, place, z, wall.free, wall.air)
        trail.feed(*place, z, wall.plunge_feed)
        return
    top = min(above, wall.standing)
    mine = next(one for one in wall.free if contains([one], place, 0.01))
    around = Region(begun_near(mine.outer, place))
    room = float(inside_distances([mine], np.array([place]))[0])
    way = choose_descent(place, room, around, wall)
    hop(trail, way.start, top, wall.free, wall.air)
    descend(trail, way, around, top, z, wall.ramp, wall.slot_feed, wall.plunge_feed)
    trail.feed(*place, z, wall.slot_feed)


def _passes(trail: Trail, wall: Wall, path: Path, z: float, foot: float = 0.0) -> None:
    """Round the path, as fast as its bite allows, and at the floor the spring passes."""
    widths = [min(width + foot, wall.dia) for width in bites(path, wall.dia / 2, wall.cleared)]
    trail.trace(path, z, wall_feeds(path, widths, wall.pace))
    for _ in range(wall.spring if z == wall.floor else 0):
        trail.trace(path, z, wall_feeds(path, [0.0] * len(widths), wall.pace))


def _ramped(trail: Trail, wall: Wall, path: Path) -> None:
    """Where roughing found no room: down along the wall itself."""
    if not ramp_fits(Region(path), wall.dia) and not wall.centre_cutting:
        raise too_tight(wall.dia, wall.place)
    hop(trail, path.start, wall.top, (), wall.air)
    way = Descent("ramp", path.start)
    descend(trail, way, Region(path), wall.top, wall.floor, wall.ramp, wall.slot_feed)
    _passes(trail, wall, path, wall.floor)


def _without_lead(
    trail: Trail, wall: Wall, path: Path, start: Point, heights: Sequence[float]
) -> None:
    """In a pocket hardly wider than the cutter: down where roughing went, then over to the wall."""
    begun = begun_near(path, start)
    for above, z in pairwise((wall.top, *heights)):
        _down(trail, wall, start, above, z)
        trail.feed(*begun.start, z, wall.slot_feed)
        _passes(trail, wall, begun, z, wall.foot(above, z))
        trail.feed(*start, z, wall.feed)

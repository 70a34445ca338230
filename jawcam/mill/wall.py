"""The finished wall: one pass at full depth, led in and out by tangent arcs; spring passes."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from jawcam.errors import Fault, InputError, Place
from jawcam.geometry.cut import along, begun_near, tangent_at
from jawcam.geometry.measure import inside_distances, nearest_on
from jawcam.geometry.shapes import Arc, Path, Point, Region, Segment
from jawcam.mill.bite import Cleared, bites, feeds_for
from jawcam.mill.entry import Descent, descend
from jawcam.mill.links import Air, hop
from jawcam.mill.trail import Trail
from jawcam.motion.moves import Compensate

__all__ = ["Lead", "Wall", "find_lead", "finish_wall"]

SMALLEST = 0.3
"""mm; a smaller lead-in arc would no longer part the entry mark from the wall."""


@dataclass(frozen=True)
class Wall:
    """What the wall pass needs to know. `cleared`: where cutters have been down to the floor
    before; `free`: where the finishing cutter's centre may be with nothing left to cut."""

    dia: float
    leave: float
    feed: float
    slot_feed: float
    plunge_feed: float
    ramp: float
    floor: float
    air: Air
    spring: int
    lead: float | None
    compensation: int | None
    cleared: tuple[Cleared, ...]
    free: tuple[Region, ...]
    place: Place


@dataclass(frozen=True)
class Lead:
    """Lead-in and lead-out at `point` of a path: from `before` straight to `start`, round by an
    arc to the path; off it by an arc to `end` and straight to `after`."""

    path: Path
    before: Point
    start: Point
    point: Point
    end: Point
    after: Point
    centre: Point


def finish_wall(trail: Trail, wall: Wall, region: Region, above: tuple[Region, ...]) -> None:
    """Finish along the boundary of `region` (where the cutter's centre may be), climb.

    above: where the cutter may move just above the floor. Raises InputError when compensation is
    asked for and there is no room for its straight lead-in.
    """
    for outline in region.paths:
        lead = find_lead(outline, wall)
        if lead is None:
            if wall.compensation is not None:
                raise InputError(
                    Fault(
                        "there is no room in this pocket for the straight move and the arc that "
                        "cutter compensation must be switched on along",
                        wall.place,
                        "take a smaller finishing cutter, or leave finish.compensation out",
                    )
                )
            _without_lead(trail, wall, outline, above)
            continue
        hop(trail, lead.before, wall.floor, above, wall.air)
        trail.feed(*lead.before, wall.floor, wall.plunge_feed)
        if wall.compensation is not None:
            trail.add(Compensate("left", wall.compensation))
        trail.feed(*lead.start, wall.floor, wall.feed)
        trail.follow(Arc(lead.start, lead.point, lead.centre, ccw=True), wall.floor, wall.feed)
        _passes(trail, wall, lead.path)
        trail.follow(Arc(lead.point, lead.end, lead.centre, ccw=True), wall.floor, wall.feed)
        if wall.compensation is not None:
            trail.add(Compensate("off"))
        trail.feed(*lead.after, wall.floor, wall.feed)


def find_lead(path: Path, wall: Wall) -> Lead | None:
    """The widest lead that fits, on the longest straight or gently bent stretch with room for
    it; None if there is none. Its arc turns left: the inside of a climb path lies there."""
    wanted = wall.lead if wall.lead is not None else wall.dia / 2
    radii = [wanted / 2**k for k in range(8) if wanted / 2**k >= SMALLEST]
    longest = sorted(range(len(path.segments)), key=lambda k: -path.segments[k].length)[:12]
    joints = [(k, path.segments[k].start) for k in longest if _goes_on_smoothly(path, k)]
    middles = [(k, _middle(path.segments[k])) for k in longest]
    # where two pieces meet neither is cut in two; half the radius is a fair price for that
    tries = [(r, p) for r in radii[:2] for p in joints] + [(r, p) for r in radii for p in middles]
    for radius, (number, point) in tries:
        lead = _lead(path, point, tangent_at(path.segments[number], point), radius)
        if _fits(lead, wall.free):
            return lead
    return None


def _middle(segment: Segment) -> Point:
    return along(segment, segment.length / 2)[1]


def _goes_on_smoothly(path: Path, number: int) -> bool:
    """Whether a segment goes on without a corner from the one before."""
    segment, before = path.segments[number], path.segments[number - 1]
    (ax, ay), (bx, by) = tangent_at(before, segment.start), tangent_at(segment, segment.start)
    return ax * bx + ay * by > 1 - 1e-6


def _lead(path: Path, point: Point, heading: Point, radius: float) -> Lead:
    """Quarter arcs of `radius` about a centre on the path's left, and straight ends as long."""
    (x, y), (tx, ty) = point, heading
    nx, ny = -ty * radius, tx * radius
    dx, dy = tx * radius, ty * radius
    start, end = (x + nx - dx, y + ny - dy), (x + nx + dx, y + ny + dy)
    return Lead(
        begun_near(path, point),
        (start[0] + nx / 2, start[1] + ny / 2),
        start,
        point,
        end,
        (end[0] + nx / 2, end[1] + ny / 2),
        (x + nx, y + ny),
    )


def _fits(lead: Lead, free: tuple[Region, ...]) -> bool:
    """Whether the straight ends are in the clear and the arcs stay off the wall."""
    ends = np.array([lead.before, lead.start, lead.end, lead.after])
    if not free or (inside_distances(free, ends) < 0).any():
        return False
    arcs = (
        Arc(lead.start, lead.point, lead.centre, True),
        Arc(lead.point, lead.end, lead.centre, True),
    )
    points = np.array([arc.point(k / 12) for arc in arcs for k in range(1, 12)])
    radius = math.dist(lead.start, lead.centre)
    own = np.hypot(*(points - lead.point).T)
    # the path's own tangent point is touched; farther along an arc it must be left behind
    room = inside_distances([Region(lead.path)], points)
    return bool((room >= np.minimum(own**2 / (12 * radius), radius / 8) - 1e-6).all())


def _passes(trail: Trail, wall: Wall, path: Path) -> None:
    widths = bites(path, wall.dia / 2, wall.cleared)
    feeds = feeds_for(widths, wall.leave, wall.dia, wall.feed, wall.slot_feed)
    trail.trace(path, wall.floor, feeds)
    for _ in range(wall.spring):
        trail.trace(path, wall.floor, [wall.feed] * len(path.segments))


def _without_lead(trail: Trail, wall: Wall, path: Path, above: tuple[Region, ...]) -> None:
    """In a pocket hardly wider than the cutter: down where roughing went, then over to the wall;
    where roughing found no room, down along the wall itself."""
    if not wall.free:
        ramp = Descent("ramp", path.start)
        hop(trail, path.start, 0.0, (), wall.air)
        descend(trail, ramp, Region(path), 0.0, wall.floor, wall.ramp, wall.slot_feed)
        _passes(trail, wall, path)
        return
    near = [nearest_on(region.outer, path.start)[1] for region in wall.free]
    start = min(near, key=lambda point: math.dist(point, path.start))
    begun = begun_near(path, start)
    hop(trail, start, wall.floor, above, wall.air)
    trail.feed(*start, wall.floor, wall.plunge_feed)
    trail.feed(*begun.start, wall.floor, wall.slot_feed)
    _passes(trail, wall, begun)
    trail.feed(*start, wall.floor, wall.feed)

"""Clearing a level at a steady load: down by a helix, then passes along the growing front."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise

from jawcam.geometry.rings import Ring
from jawcam.mill.entry import NARROW, WIDE, Descent, descend
from jawcam.mill.progress import Circle, Pass
from jawcam.mill.rough import Clearing, clear_down, get_to, levels
from jawcam.mill.steady_passes import Steady, steady_passes
from jawcam.mill.trail import Trail
from jawcam.mill.visits import visit

__all__ = ["SteadyRing", "clear_steadily", "planned", "winding_feed"]

LIFT = 0.2
"""mm that the cutter is lifted on its way back, so that it does not rub on the floor (common
practice, no source)."""

NEAR = 1.0
"""Radii: a shorter way back is not worth lifting the cutter for."""

WIDE_BITE = 1.15
"""Times the width asked: a wider bite gets less feed."""

SLOT_DEPTH = 0.5
"""Diameters: where it is engaged all across in a deeper cut, the feed drops as much, and by rings
nothing is cut deeper at a time (common practice, no source)."""


@dataclass(frozen=True)
class SteadyRing:
    """How what lies inside a ring is cleared. way, plan: None where it must be by rings, as there
    is no room for a helix or passes alone leave something."""

    ring: Ring
    way: Descent | None
    plan: Steady | None


def planned(job: Clearing) -> tuple[SteadyRing, ...]:
    """How the rings of a clearing are cleared steadily, its stepover being the fresh width."""
    return tuple(_planned(job, ring) for ring in job.rings)


def _planned(job: Clearing, ring: Ring) -> SteadyRing:
    (x, y), room = ring.middle
    radius = min(room, WIDE * job.dia / 2)
    if radius < NARROW * job.dia / 2:
        return SteadyRing(ring, None, None)
    way = Descent("helix", (x + radius, y), (x, y), radius)
    entry = Circle(way.centre, radius)
    plan = steady_passes(ring.region, job.dia / 2, job.stepover, entry, room)
    return SteadyRing(ring, way, plan) if plan.done else SteadyRing(ring, None, None)


def clear_steadily(
    trail: Trail, job: Clearing, rings: Sequence[SteadyRing], top: float, floors: Sequence[float]
) -> None:
    """Cut away everything from the height `top` (where all is cleared) down to the last of
    `floors`, the others on the way, each pocket all the way down before the next one, by a short
    way from one to the next."""
    cuts = [partial(_clear, job=job, one=one, top=top, floors=floors) for one in rings]
    visit(trail, cuts, get_to(job, top))


def _clear(
    trail: Trail, job: Clearing, one: SteadyRing, top: float, floors: Sequence[float]
) -> None:
    """One pocket."""
    if one.way is None or one.plan is None:
        _by_rings(trail, replace(job, rings=(one.ring,)), top, floors)
        return
    feed = winding_feed(job, one.way.radius)
    for above, floor in pairwise((top, *floors)):
        get_to(job, above)(trail, one.way.start)
        descend(trail, one.way, one.ring.region, above, floor, job.ramp, feed, job.plunge_feed)
        for each in one.plan.passes:
            _go_back(trail, job, each, floor)
            trail.trace(each.path, floor, [_feed(job, bite, above - floor) for bite in each.bites])


def _by_rings(trail: Trail, job: Clearing, top: float, floors: Sequence[float]) -> None:
    """By rings, which begin all across: no deeper at a time than a slot is cut."""
    deep = SLOT_DEPTH * job.dia
    steps = [
        step for above, floor in pairwise((top, *floors)) for step in levels(floor, deep, above)
    ]
    pace = replace(job.paced, depth=min(deep, job.paced.depth or deep))
    clear_down(trail, replace(job, pace=pace), top, steps)


def winding_feed(job: Clearing, radius: float) -> float:
    """The feed down a helix: that of a slot, but only as deep as one turn falls, mm/min."""
    turn = 2 * math.pi * radius * math.tan(math.radians(job.ramp))
    pace = job.paced
    return round(replace(pace, depth=min(turn, pace.depth or turn)).at(job.dia), 1)


def _feed(job: Clearing, bite: float, depth: float) -> float:
    """The feed for a bite: that of the width asked up to there, less for a wider one, and less
    again all across a deep cut."""
    feed = min(job.paced.at(bite), job.feed)
    if bite <= WIDE_BITE * job.stepover:
        return job.feed
    if bite > job.dia / 2:
        feed *= min(1.0, SLOT_DEPTH * job.dia / depth)
    return round(feed, 1)


def _go_back(trail: Trail, job: Clearing, one: Pass, floor: float) -> None:
    """To where a pass begins: along the cleared floor, lifted a little unless it is near."""
    start = one.path.start
    way = math.fsum(math.dist(a, b) for a, b in pairwise(one.back))
    high = floor if way < NEAR * job.dia / 2 else floor + LIFT
    for place in one.back[1:]:
        if place != trail.plan:
            trail.feed(*place, high, job.air.feed)
    trail.feed(*start, floor, job.air.feed)

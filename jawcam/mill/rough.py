"""Clearing a level: rings from the inside out, climb, each branch entered by itself."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from jawcam.errors import Place
from jawcam.geometry.cut import along, begun_near
from jawcam.geometry.measure import inside_distances, nearest_on
from jawcam.geometry.rings import Ring
from jawcam.geometry.shapes import Path, Point, Region, circle
from jawcam.mill.bite import Cleared
from jawcam.mill.entry import Descent, choose_descent, descend, ramp_fits
from jawcam.mill.fed import cleared_blocks
from jawcam.mill.links import Air, hop, straight_way
from jawcam.mill.order import Stop, in_order
from jawcam.mill.trail import Trail
from jawcam.mill.visits import visit
from jawcam.tools.pace import Pace

__all__ = ["Clearing", "clear_down", "clear_level", "get_to", "is_covered", "levels"]


COVERED = 0.98
"""Share of the cutter's radius that it is trusted to clear beside its path."""


NEARBY = 4
"""How many joints of a ring are tried to begin it at."""


@dataclass(frozen=True)
class Clearing:
    """What clearing needs to know, the same at every level. Feeds in mm/min, lengths in mm.
    cleared: where other cutters have been at every level already; deeper: where the cutter's
    centre finds nothing to cut at this level, as it is deeper there already; pace: the feed for
    each bite."""

    rings: tuple[Ring, ...]
    cleared: tuple[Cleared, ...]
    dia: float
    stepover: float
    feed: float
    slot_feed: float
    plunge_feed: float
    ramp: float
    air: Air
    gap: float
    centre_cutting: bool
    place: Place
    deeper: tuple[Region, ...] = ()
    pace: Pace | None = None

    @property
    def paced(self) -> Pace:
        """The feed for each bite; without a pace of its own from `feed` to `slot_feed`."""
        return self.pace or Pace(self.dia, self.feed, self.slot_feed, self.dia / 2)

    @property
    def centre(self) -> tuple[Region, ...]:
        """Where the cutter's centre has been once a level is cleared."""
        return tuple(ring.region for ring in self.rings)


def levels(floor: float, stepdown: float, top: float = 0.0) -> list[float]:
    """The Z of each cut from `top` down to `floor`, evenly, none deeper than `stepdown`."""
    count = max(1, math.ceil((top - floor) / stepdown - 1e-9))
    return [*(top + (floor - top) * k / count for k in range(1, count)), floor]


def clear_down(trail: Trail, clearing: Clearing, top: float, floors: Sequence[float]) -> None:
    """Cut away everything from the height `top` (where all is cleared) down to the last of
    `floors`, the others on the way, each pocket all the way down before the next one."""

    def down(trail: Trail, job: Clearing) -> None:
        for above, floor in zip((top, *floors), floors, strict=False):
            clear_level(trail, job, above, floor)

    pockets = [replace(clearing, rings=(ring,)) for ring in clearing.rings]
    visit(trail, [partial(down, job=job) for job in pockets], get_to(clearing, top))


def clear_level(trail: Trail, clearing: Clearing, top: float, floor: float) -> None:
    """Cut away everything between the heights `top` (where all is cleared) and `floor`."""
    cuts = [partial(_clear, job=clearing, ring=r, top=top, floor=floor) for r in clearing.rings]
    visit(trail, cuts, get_to(clearing, top))


def get_to(job: Clearing, top: float) -> Callable[[Trail, Point], None]:
    """How to get to where the cutter goes down from `top`."""
    return partial(hop, floor=top, cleared=job.centre if top < 0 else (), air=job.air)


def _clear(trail: Trail, job: Clearing, ring: Ring, top: float, floor: float) -> None:
    """One branch: what lies inside the ring first, then the ring itself, then islands."""
    done = list[Cleared]()
    inside = [one for one in ring.inner if not (is_covered(job, one) or _is_deeper(job, one))]
    cuts = [partial(_inside, job=job, ring=r, around=ring, top=top, floor=floor) for r in inside]
    visit(trail, cuts, get_to(job, top))
    if inside:
        done = [Cleared(tuple(inner.region for inner in ring.inner), job.dia / 2)]
    else:
        way = _way_down(ring, job)
        _enter(trail, job, way, ring.region, top, floor)
        if ring.level > 0 and way.kind == "helix" and _within(ring.region.outer, way):
            return  # nothing is left of it
        if way.kind == "helix":
            done = [Cleared((Region(circle(way.centre, way.radius)),), job.dia / 2)]
    if inside or way.kind != "ramp":
        trail.feed(*_beginning(ring.region, trail.plan), floor, job.slot_feed)
    _follow(trail, job, begun_near(ring.region.outer, trail.plan), done, floor)
    for island in _islands(ring.region, trail.plan):
        around = (*(region for one in done for region in one.centre), ring.region)
        _reach(trail, job, island, around, top, floor)
        _follow(trail, job, begun_near(island, trail.plan), done, floor)


def _inside(
    trail: Trail, job: Clearing, ring: Ring, around: Ring, top: float, floor: float
) -> None:
    """A ring inside another one, or where it is but a spot, just the way down there."""
    if ring.inner or ramp_fits(ring.region, job.dia):
        _clear(trail, job, ring, top, floor)
    else:
        way = choose_descent(ring.middle[0], _room(ring, job), around.region, job)
        _enter(trail, job, way, around.region, top, floor)


def _islands(region: Region, here: Point) -> list[Path]:
    """What stands within a region, by a short way from one to the next."""
    boxes = [island.box for island in region.holes]
    middles = [((x0 + x1) / 2, (y0 + y1) / 2) for x0, y0, x1, y1 in boxes]
    return [region.holes[k] for k in in_order([Stop(at, at) for at in middles], here)]


def is_covered(job: Clearing, ring: Ring) -> bool:
    """Whether the pass along the ring outside of it clears all that a ring would."""
    return not ring.inner and ring.middle[1] + job.stepover <= COVERED * job.dia / 2


def _is_deeper(job: Clearing, ring: Ring) -> bool:
    """Whether nothing is left to cut all over a ring's region."""
    if not job.deeper:
        return False
    points = np.array([p for s in ring.region.outer.segments for p in along(s, job.dia / 8)])
    return bool((inside_distances(job.deeper, points) >= 0).all())


def _way_down(ring: Ring, job: Clearing) -> Descent:
    """How to get down where nothing inside a ring was cut before: straight, where it is deeper."""
    for inner in ring.inner:
        if _is_deeper(job, inner):
            return Descent("gap", inner.middle[0])
    return choose_descent(ring.middle[0], _room(ring, job), ring.region, job)


def _room(ring: Ring, job: Clearing) -> float:
    """How far the cutter's centre may go off the ring's middle, through the rings around it too."""
    return ring.middle[1] + ring.level * job.stepover


def _within(path: Path, way: Descent) -> bool:
    """Whether a path lies in the circle that a helix went round."""
    points = [p for s in path.segments for p in along(s, way.radius / 8)]
    return max(math.dist(p, way.centre) for p in points) <= way.radius


def _enter(
    trail: Trail, job: Clearing, way: Descent, region: Region, top: float, floor: float
) -> None:
    get_to(job, top)(trail, way.start)
    descend(trail, way, region, top, floor, job.ramp, job.slot_feed, job.plunge_feed)


def _beginning(region: Region, near: Point) -> Point:
    """Where to begin the next ring, coming from inside: where two of its pieces meet, so that no
    piece is cut in two, if a straight way leads there; else at its nearest point."""
    joints = sorted((s.start for s in region.outer.segments), key=lambda p: math.dist(p, near))
    for joint in joints[:NEARBY]:
        if straight_way(near, joint, [region]):
            return joint
    return nearest_on(region.outer, near)[1]


def _reach(
    trail: Trail, job: Clearing, path: Path, cleared: Sequence[Region], top: float, floor: float
) -> None:
    """Get to a ring round an island: along the floor if the way is free, else from above, ramping
    down along the ring."""
    start = nearest_on(path, trail.plan)[1]
    if straight_way(trail.plan, start, cleared):
        trail.feed(*start, floor, job.slot_feed)
        return
    get_to(job, top)(trail, path.start)
    descend(trail, Descent("ramp", path.start), Region(path), top, floor, job.ramp, job.slot_feed)


def _follow(trail: Trail, job: Clearing, path: Path, done: list[Cleared], floor: float) -> None:
    blocks, feeds = cleared_blocks(path, [*done, *job.cleared], job.paced)
    trail.trace(blocks, floor, feeds)

"""Corner relief: from where the wall pass ends up in a corner on into it, and back."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import partial

from jawcam.geometry.combine import difference
from jawcam.geometry.measure import nearest_on
from jawcam.geometry.narrow import substantial
from jawcam.geometry.shapes import Point, Region
from jawcam.hold.corners import capsule
from jawcam.hold.target import Relief
from jawcam.mill.links import HAIR, hop, straight_way
from jawcam.mill.operation import Operation
from jawcam.mill.order import Stop
from jawcam.mill.rough import levels
from jawcam.mill.trail import Trail
from jawcam.mill.visits import visit_stops
from jawcam.mill.work import LevelWork, Work

__all__ = ["beside", "reliefs"]


def reliefs(work: Work) -> Iterator[Operation]:
    """Corners bored out so that the part seats, those of each level down to its floor."""
    for level in work.levels:
        mine = [one for one in work.target.reliefs if one.floor == level.floor]
        if mine:
            cut = partial(_reliefs, level=level, some=mine)
            yield Operation("corner relief", work.corner, cut)


def _reliefs(trail: Trail, level: LevelWork, some: Sequence[Relief]) -> None:
    stops = []
    for relief in some:
        clear = beside(relief.start, level.corner_free, level.corner_finished) or relief.start
        stops.append((Stop(clear, clear), partial(_relieve, level=level, one=relief, clear=clear)))
    visit_stops(trail, stops)


def _relieve(trail: Trail, level: LevelWork, one: Relief, clear: Point) -> None:
    """Cut one level by level, from beside the wall and back there."""
    work = level.work
    heights = levels(level.floor, work.corner.stepdown, _solid_from(level, one))
    hop(trail, clear, heights[-1], level.corner_free, work.air)
    trail.rapid(*clear, max(heights[0], heights[-1] + HAIR))
    for z in heights:
        for point in (clear, one.start, one.end, one.start, clear):
            trail.feed(*point, z, work.corner.slot_feed)


def _solid_from(level: LevelWork, relief: Relief) -> float:
    """The Z that a relief begins to cut at: where the cavity above no longer holds all of it."""
    top = level.top
    for above in reversed(level.work.cavity[: level.number]):
        out = difference([capsule(relief)], above.pockets, level.work.tolerance)
        if not substantial(out, level.work.tolerance):
            break
        top = above.top
    return top


def beside(place: Point, free: tuple[Region, ...], finished: tuple[Region, ...]) -> Point | None:
    """Where to come down for a cut that begins at `place`: off the wall, at a point of the border
    of `free` from where a straight way leads over; None if there is none."""
    near = [nearest_on(path, place)[1] for region in free for path in region.paths]
    for point in sorted(near, key=lambda p: math.dist(p, place)):
        if straight_way(point, place, finished):
            return point
    return None

"""Corner relief: from where the wall pass ends up in a corner on into it, and back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from jawcam.geometry.combine import difference
from jawcam.geometry.narrow import substantial
from jawcam.geometry.shapes import Point
from jawcam.hold.corners import capsule
from jawcam.hold.target import Relief
from jawcam.mill.links import HAIR, hop
from jawcam.mill.operation import Operation
from jawcam.mill.order import Stop
from jawcam.mill.rough import levels
from jawcam.mill.runs import beside
from jawcam.mill.trail import Trail
from jawcam.mill.visits import visit_stops
from jawcam.mill.work import LevelWork, Work

__all__ = ["reliefs"]


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

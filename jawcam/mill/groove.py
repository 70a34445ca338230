"""The groove along the foot of the seat's wall, in which the part's lower edge touches nothing."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

from jawcam.geometry.cut import begun_near
from jawcam.geometry.measure import nearest_on
from jawcam.geometry.shapes import Arc, Path, Point, Region
from jawcam.mill.entry import Descent, descend
from jawcam.mill.links import HAIR, hop
from jawcam.mill.operation import Operation
from jawcam.mill.order import Stop
from jawcam.mill.trail import Trail
from jawcam.mill.visits import visit_stops
from jawcam.mill.work import LevelWork, Work

__all__ = ["groove"]


def groove(work: Work) -> Iterator[Operation]:
    """Ramp down along the wall of the seat, then once round."""
    cut = work.target.groove
    if cut is not None:
        seat = work.levels[-1]
        yield Operation("groove", work.finish, partial(_groove, level=seat, depth=cut.depth))


def _halved(path: Path) -> Path:
    """A full circle as two halves: a whole turn that falls is taken for a way in, which a control
    without helices may be given coarser than a wall."""
    (first, *more) = path.segments
    if more or not isinstance(first, Arc):
        return path
    far = first.point(0.5)
    halves = (first.start, far), (far, first.end)
    return Path(tuple(Arc(a, b, first.centre, first.ccw) for a, b in halves))


def _groove(trail: Trail, level: LevelWork, depth: float) -> None:
    stops = []
    for region in level.finished:
        for outline in region.paths:
            near = [nearest_on(one.outer, outline.start)[1] for one in level.free]
            start = min(near, key=lambda p: math.dist(p, outline.start), default=outline.start)
            path = _halved(begun_near(outline, start))
            cut = partial(_along, level=level, depth=depth, start=start, path=path)
            stops.append((Stop(start, start), cut))
    visit_stops(trail, stops)


def _along(trail: Trail, level: LevelWork, depth: float, start: Point, path: Path) -> None:
    """From a place off the wall over to it, down along it and once round, and back."""
    work, floor = level.work, level.floor
    feed, slow = work.setup.finish.feed or work.finish.feed, work.finish.slot_feed
    hop(trail, start, floor, level.free, work.air)
    trail.feed(*path.start, floor + HAIR, feed)
    down = Descent("ramp", path.start)
    descend(trail, down, Region(path), floor, floor - depth, work.setup.rough.ramp, slow)
    trail.trace(path, floor - depth, [slow] * len(path.segments))
    trail.rapid(*path.start, floor + HAIR)
    trail.feed(*start, floor + HAIR, feed)

"""Roughing along Z or parallel to the profile: pass by pass what is to go, each followed along its
lower side, pockets of the profile finished one by one."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from jawcam.geometry.combine import difference, intersection, union
from jawcam.geometry.cut import along
from jawcam.geometry.measure import nearest_on
from jawcam.geometry.narrow import substantial
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.shapes import Line, Path, Point, Region, Segment
from jawcam.tolerance import Tolerance
from jawcam.turn.edge import CuttingEdge, Workpiece
from jawcam.turn.field import Field
from jawcam.turn.guard import NEAR, deliver, in_front
from jawcam.turn.reach import box, hull_box
from jawcam.turn.trail import TurnTrail
from jawcam.turn.ways import enters, hop

__all__ = ["Roughing", "left_for_next", "rough"]

THIN = 0.004
"""mm; what is nowhere wider is not worth a pass."""

LIFT = 0.5
"""mm; how far a tool is pulled back from a cut before it travels, and how far above a pocket's
beginning it changes to feed."""

_ON = 1e-4  # mm; a piece whose middle is nearer to an outline lies on it


@dataclass(frozen=True)
class Roughing:
    """way: along Z, or parallel to the profile. depth: the most that a pass takes, on radius
    (along Z) or square to the profile; leave, leave_face: stock to leave on radius and along Z;
    feed in mm per turn."""

    depth: float
    feed: float
    leave: float = 0.2
    leave_face: float = 0.1
    way: Literal["along", "profile"] = "along"


@dataclass(frozen=True)
class _Bite:
    """What one pass takes in one place, as places of the nose's centre: its number from the top,
    its shape and the strokes that cut it."""

    number: int
    region: Region
    strokes: tuple[tuple[Segment, ...], ...]

    @property
    def left(self) -> float:
        return self.region.outer.box[0]

    @property
    def right(self) -> float:
        return self.region.outer.box[2]


def rough(
    trail: TurnTrail, work: Workpiece, edge: CuttingEdge, job: Roughing, tolerance: Tolerance
) -> None:
    """Rough the work: from the stock down to what is to be left. The tool comes from and goes back
    to the free radius in front of the work. Raises InputError where it would touch what it must
    keep off."""
    field = Field.of(work, edge, tolerance)
    if any(in_front(region, work) for region in work.keep_off):
        field = replace(field, clearance=min(NEAR, field.clearance))
    kept = _kept(field, field.keep_out(job.leave, job.leave_face))
    floors = (_levels if job.way == "along" else _layers)(field, kept, job)
    bites = list(_bites(field, floors))
    path = TurnTrail()
    path.rapid(*field.home)
    heights = sorted({bite.region.outer.box[3] + LIFT for bite in bites})
    heights = [*(height for height in heights if height < field.high), field.high]
    waiting = bites
    while waiting:
        bite = _next(waiting)
        waiting = [other for other in waiting if other is not bite]
        taken = [*kept, *(other.region for other in waiting)]
        for stroke in bite.strokes:
            _cut(path, field, stroke, heights, taken, job.feed)
    if bites:
        hop(path, field.home, [field.high], ())
        deliver(path, trail, work, edge, tolerance)


def left_for_next(
    work: Workpiece,
    edge: CuttingEdge,
    following: CuttingEdge,
    job: Roughing,
    tolerance: Tolerance,
    *,
    least: float,
) -> Region | None:
    """The stock once it is roughed, where a following edge, leaving as much, still gets at places
    that a disc of more than `least` mm fits into; all else as if that had cut it. None if there
    are no such places."""
    left, after = (_left(work, one, job, tolerance) for one in (edge, following))
    places = substantial(difference(left, after, tolerance), tolerance)
    deep = [place.region for place in places if place.size > least]
    if not deep:
        return None
    return max(union([*after, *deep], tolerance), key=lambda one: one.outer.area)


def _left(
    work: Workpiece, edge: CuttingEdge, job: Roughing, tolerance: Tolerance
) -> tuple[Region, ...]:
    """The stock that roughing with an edge leaves."""
    field = Field.of(work, edge, tolerance)
    kept = _kept(field, field.keep_out(job.leave, job.leave_face))
    return tuple(field.view.region(region) for region in _uncut(field, kept))


# --- what each pass takes --------------------------------------------------------------------


def _kept(field: Field, keep_out: Sequence[Region]) -> tuple[Region, ...]:
    """Where no roughing pass goes: what stays, what is faced, what lies beyond the axis."""
    more = [] if field.view.flip_x else [field.behind_axis()]
    return union([*keep_out, field.before_face(), *more], field.tolerance)


def _levels(field: Field, kept: tuple[Region, ...], job: Roughing) -> list[tuple[Region, ...]]:
    """What stays below each pass along Z, from the top down, in even steps."""
    goes = _goes(field, [field.stock], _uncut(field, kept))
    if not goes:
        return []
    (z0, x0, z1, _), radius = field.frame, field.edge.radius
    _, low, _, high = hull_box(goes)
    count = max(1, math.ceil((high - low - THIN) / job.depth))
    heights = [high + (low - high) * k / count + radius for k in range(1, count)]
    below = [box(z0, z1, x0, height) for height in heights]
    return [*(union([*kept, level], field.tolerance) for level in below), kept]


def _layers(field: Field, kept: tuple[Region, ...], job: Roughing) -> list[tuple[Region, ...]]:
    """What stays below each pass parallel to the profile, from the outside in."""
    layers = [kept]
    while _goes(field, [field.stock], _uncut(field, layers[0])):
        more = len(layers) * job.depth
        layers.insert(0, _kept(field, field.keep_out(job.leave + more, job.leave_face + more)))
    return layers[1:]


def _uncut(field: Field, floor: Sequence[Region]) -> tuple[Region, ...]:
    """The stock that is left once the nose has been everywhere outside of a floor."""
    stays = shrink(floor, field.edge.radius, field.tolerance)
    return intersection([field.stock], stays, field.tolerance)


def _goes(field: Field, before: Sequence[Region], after: Sequence[Region]) -> tuple[Region, ...]:
    """What is there before and not after, but for what is too thin for a pass."""
    goes = difference(before, after, field.tolerance)
    return tuple(r for one in goes for r in grow(
        shrink([one], THIN / 2, field.tolerance), THIN / 2, field.tolerance
    ))  # fmt: skip


def _bites(field: Field, floors: Sequence[tuple[Region, ...]]) -> Iterator[_Bite]:
    """The separate places of all passes where there is something to cut, with their strokes from
    right to left."""
    tol, radius = field.tolerance, field.edge.radius
    reach = above = grow([field.stock], radius, tol)
    stock: tuple[Region, ...] = (field.stock,)
    for number, floor in enumerate(floors):
        uncut = _uncut(field, floor)
        goes = _goes(field, stock, uncut)
        for region in difference(above, floor, tol):
            if intersection(grow([region], radius, tol), goes, tol):
                strokes = tuple(_strokes(region, floor))
                if strokes:
                    yield _Bite(number, region, strokes)
        above, stock = intersection(reach, floor, tol), uncut


def _strokes(region: Region, floor: Sequence[Region]) -> Iterator[tuple[Segment, ...]]:
    """The pieces of a place's outline that lie on the floor below it, in runs, each from right to
    left."""
    outlines = [path for one in floor for path in one.paths]
    pieces = region.outer.reversed().segments
    marks = [_lies_on(piece, outlines) for piece in pieces]
    if all(marks):
        return
    begin = marks.index(False)
    run: list[Segment] = []
    runs = []
    for k in range(1, len(pieces) + 1):
        number = (begin + k) % len(pieces)
        if marks[number]:
            run.append(pieces[number])
        elif run:
            runs.append(tuple(run))
            run = []
    yield from sorted(runs, key=lambda one: -one[0].start[0])


def _lies_on(piece: Segment, outlines: Sequence[Path]) -> bool:
    middle = along(piece, piece.length)[1]
    return any(math.dist(nearest_on(path, middle)[1], middle) < _ON for path in outlines)


# --- cutting it ------------------------------------------------------------------------------


def _next(waiting: Sequence[_Bite]) -> _Bite:
    """The deepest bite, of equals the one farthest right, with nothing left to cut above it and to
    its right, where the tool's back is."""
    ready = [
        bite
        for bite in waiting
        if not any(o.number < bite.number and o.right > bite.left + _ON for o in waiting)
    ]
    return max(ready, key=lambda bite: (bite.number, bite.right))


def _cut(
    path: TurnTrail,
    field: Field,
    stroke: tuple[Segment, ...],
    heights: Sequence[float],
    taken: Sequence[Region],
    feed: float,
) -> None:
    """One stroke: to its beginning in the clear, along it, and off it at 45 degrees, or as steep
    as the trailing edge wants it."""
    start, end = stroke[0].start, stroke[-1].end
    hop(path, _before(field, start, taken), heights, taken)
    path.feed(*start, feed)
    path.trace(stroke, feed)
    lift = min(LIFT, field.clearance, field.high - end[1])
    if lift > 0:
        angle = math.radians(max(45.0, min(field.edge.falls, 90.0)))
        path.feed(end[0] + lift / math.tan(angle), end[1] + lift, feed)


def _before(field: Field, start: Point, taken: Sequence[Region]) -> Point:
    """Where to come from: from the right if that is clear, else from above."""
    beside = (start[0] + field.clearance, start[1])
    if not enters(Line(start, beside), taken):
        return beside
    return (start[0], min(start[1] + LIFT, max(start[1], field.high)))

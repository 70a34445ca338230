"""Grooves: plunges side by side, then down both walls and along the bottom."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import replace

from jawcam.geometry.shapes import Arc, Line, Path, Point, Region, Segment
from jawcam.geometry.transform import mirrored, moved, turned
from jawcam.hold.turn_target import TurnLeft
from jawcam.motion.moves import Dwell
from jawcam.tolerance import Tolerance
from jawcam.turn.groove_plan import OVERLAP, SNUG, GrooveCut, Plan, left_over, planned
from jawcam.turn.groove_walls import floor_at, walls
from jawcam.turn.plunge import START, plunge
from jawcam.turn.speed import turns_per_minute
from jawcam.turn.trail import TurnTrail

__all__ = ["OVERLAP", "GrooveCut", "cut_groove"]

_SHALLOW = 0.05  # mm; no plunge is worth less
_ASIDE = 0.2  # mm off a tall shoulder, where the tool comes down beside it


def cut_groove(trail: TurnTrail, groove: GrooveCut, tolerance: Tolerance) -> tuple[TurnLeft, ...]:
    """Cut a groove and return what stays of it: corners that the edge is too round for, and walls
    that it is too wide for.

    The set point is the corner of the edge towards the chuck. The tool begins and ends at `clear`;
    turning at `feed` per what the program counts and setting the speed is up to the caller. The
    plunges run from the free end towards the chuck; finishing goes down the wall at the free end
    first, then down the other one and along the bottom. Raises InputError when the groove is
    narrower than the insert, deeper than the tool reaches or undercut.
    """
    plan = planned(groove, tolerance)
    for room in plan.room:
        chain = walls(plan.place, plan.fine, room)
        if chain:
            _rough(trail, plan, room, chain)
            _finish(trail, plan, room, chain)
    return left_over(plan, tolerance)


def _rough(trail: TurnTrail, plan: Plan, room: Region, chain: Sequence[Segment]) -> None:
    """The plunges of one room, and a dwell of one turn at the bottom of each."""
    cut, (z0, _, z1, _) = plan.cut, room.outer.box
    spots: list[Point] = []
    edge = replace(plan.fine, leave=cut.leave)
    for rough in plan.rough:
        run = walls(plan.place, edge, rough)
        if run and z0 - 1e-6 <= run[0].start[0] and run[-1].end[0] <= z1 + 1e-6:
            spots += _spots(rough, run[0].start[0], run[-1].end[0], cut)
    if not spots:
        z = (chain[0].start[0] + chain[-1].end[0]) / 2
        spots = [(z, floor_at(room, z) + (0.0 if _snug(chain) else cut.leave))]
    for z, h in sorted(spots, reverse=True):
        bottom = h - cut.radius
        if bottom > plan.mouth - _SHALLOW:
            continue
        at = z - cut.width / 2
        trail.rapid(at, cut.clear)
        trail.rapid(at, plan.x(plan.mouth + START))
        x = plan.x(bottom)
        plunge(trail, at, plan.x(plan.mouth), x, feed=cut.feed, peck=cut.peck)
        trail.add(Dwell(60 / turns_per_minute(cut.speed, x)))
        trail.rapid(at, cut.clear)


def _snug(chain: Sequence[Segment]) -> bool:
    """Whether the insert is as wide as the groove, so that one plunge cuts it all."""
    return chain[-1].end[0] - chain[0].start[0] < 2 * SNUG + 1e-6


def _spots(rough: Region, first: float, last: float, cut: GrooveCut) -> list[Point]:
    """Where the middle of the edge plunges to, between two ends: evenly, closer where the bottom
    falls by more than half of the width from one to the next."""
    step = max(cut.width - cut.radius - OVERLAP, cut.width / 4)
    count = math.ceil((last - first) / step - 1e-9)
    inner = min(1e-4, (last - first) / 2)

    def at(share: float) -> Point:
        z = first + share * (last - first)
        return z, floor_at(rough, min(max(z, first + inner), last - inner))

    if count == 0:
        return [at(0.5)]
    spots = [at(k / count) for k in range(count + 1)]
    between = []
    for k, (a, b) in enumerate(itertools.pairwise(spots)):
        parts = min(4, math.ceil(2 * abs(a[1] - b[1]) / cut.width))
        between += [at((k + j / parts) / count) for j in range(1, parts)]
    return spots + between


def _finish(trail: TurnTrail, plan: Plan, room: Region, chain: Sequence[Segment]) -> None:
    """Down the wall at the free end to the lowest place, then down the other and a little past."""
    if _snug(chain):
        return
    z0, _, z1, _ = room.outer.box
    left, right = _parted(chain)
    for cuts, aside in ((right, -_ASIDE), (left, _ASIDE)):
        if cuts:
            tall = cuts[0].start[1] > room.outer.box[3] - 1e-6
            shift = math.copysign(min(abs(aside), (z1 - z0) / 2), aside) if tall else 0.0
            _down(trail, plan, cuts, shift)
            trail.rapid(cuts[-1].end[0] - plan.cut.width / 2, plan.cut.clear)


def _down(trail: TurnTrail, plan: Plan, cuts: Sequence[Segment], shift: float) -> None:
    """From `clear` into the groove and along a run; beside a tall shoulder, off it by `shift`."""
    cut = plan.cut
    path = moved(Path(tuple(cuts)), -cut.width / 2, -cut.radius)
    if cut.inside:
        path = mirrored(turned(path, 180)).reversed()
    z, x = path.start
    above = plan.x(plan.mouth + START)
    trail.rapid(z + shift, cut.clear)
    trail.rapid(z + shift, above)
    if shift:
        trail.feed(z, above, cut.feed)
    trail.feed(z, x, cut.feed)
    for segment in path.segments:
        trail.follow(segment, cut.feed)


def _parted(chain: Sequence[Segment]) -> tuple[list[Segment], list[Segment]]:
    """A run from left to right as two that meet at its lowest place, both running there; where it
    is level they meet in its middle, the first going a little past that."""
    lows = [Path((seg,)).box[1] for seg in chain]
    low = min(lows)
    lowest = [k for k, h in enumerate(lows) if h < low + 1e-6]
    k = max(lowest, key=lambda n: (_level(chain[n]), chain[n].length))
    one = chain[k]
    head, tail = [one], list[Segment]()
    if isinstance(one, Line) and _level(one):
        middle = ((one.start[0] + one.end[0]) / 2, one.start[1])
        past = (middle[0] + min(OVERLAP, one.length / 2), middle[1])
        head, tail = [Line(one.start, past)], [Line(middle, one.end)]
    elif isinstance(one, Arc) and min(one.start[1], one.end[1]) > low + 1e-6:
        middle = (one.centre[0], one.centre[1] - one.radius)
        head, tail = [replace(one, end=middle)], [replace(one, start=middle)]
    elif one.start[1] < one.end[1]:
        head, tail = [], [one]
    back = [seg.reversed() for seg in reversed([*tail, *chain[k + 1 :]])]
    return [*chain[:k], *head], back


def _level(segment: Segment) -> bool:
    return isinstance(segment, Line) and abs(segment.start[1] - segment.end[1]) < 1e-6

"""Facing the free end: from beyond the stock to just past the axis, or into the bore. Where the
diameter runs out the spindle goes over to a fixed speed, and back for the next pass."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from jawcam.errors import Fault, InputError, Place
from jawcam.geometry.shapes import Region
from jawcam.motion.moves import Spindle, SurfaceSpeed
from jawcam.tolerance import Tolerance
from jawcam.turn.edge import CuttingEdge, Workpiece
from jawcam.turn.groove_walls import levels
from jawcam.turn.guard import GAP, deliver, in_front, taken_by
from jawcam.turn.speed import fixed, held_from
from jawcam.turn.trail import TurnTrail

__all__ = ["Facing", "finish_face", "rough_face"]

PAST = 0.1
"""mm; how far beyond the axis, or the rim of the bore, the nose's foremost point goes."""


@dataclass(frozen=True)
class Facing:
    """to: the Z of the finished face; hole: the radius of the bore that is in the stock, 0 for
    none; depth: the most that a roughing pass takes along Z; leave: what roughing leaves there;
    feed in mm per turn; speed: as the spindle was started."""

    feed: float
    speed: Spindle | SurfaceSpeed
    depth: float = 1.0
    leave: float = 0.1
    to: float = 0.0
    hole: float = 0.0


def rough_face(
    trail: TurnTrail, work: Workpiece, edge: CuttingEdge, job: Facing, tolerance: Tolerance
) -> None:
    """Take the stock off the end in even passes, but for what is to be left; nothing if there is
    no more than that; with a tailstock down to its centre. Begins and ends at the free radius in
    front of the work. Raises InputError where the tool would touch what it must keep off, and for
    a tool that can't face."""
    front, last = work.stock.outer.box[2], job.to + job.leave
    if front <= last:
        return
    count = max(1, math.ceil((front - last) / job.depth - 1e-6))
    heights = [front + (last - front) * k / count for k in range(1, count + 1)]
    _passes(trail, work, edge, job, heights, tolerance)


def finish_face(
    trail: TurnTrail, work: Workpiece, edge: CuttingEdge, job: Facing, tolerance: Tolerance
) -> float:
    """One pass over the end at its finished Z; otherwise as `rough_face`. Returns the radius down
    to which it is finished, 0 where that is all of it."""
    return _passes(trail, work, edge, job, [job.to], tolerance)


def _passes(
    trail: TurnTrail,
    work: Workpiece,
    edge: CuttingEdge,
    job: Facing,
    heights: list[float],
    tolerance: Tolerance,
) -> float:
    _check(edge, work, job)
    radius, clearance = edge.radius, work.clearance
    high = work.free + radius
    end = low = max(job.hole, 0.0) - PAST
    centres = [region for region in work.keep_off if in_front(region, work)]
    taken = [one for region in centres for one in taken_by(region, edge, tolerance)]
    off = min(clearance, 0.5)
    front = max(work.stock.outer.box[2], job.to) + radius + clearance
    path = TurnTrail()
    path.rapid(front, high)
    for z in (height + radius for height in heights):
        # the foremost point of the nose is level with its centre
        low = max(end, _beside(taken, z, high))
        held = _held(edge, job, low, high)
        path.rapid(z, high)
        if held is not None:
            path.feed(z, held, job.feed)
            path.add(fixed(job.speed))
        path.feed(z, low, job.feed)
        # beside a centre aslant, as that grows thicker
        path.feed(z + off, low if low <= end else low + off, job.feed)
        if held is not None:
            path.add(job.speed)  # here as well both come to the clamp
        path.rapid(z + off, high)
    path.rapid(front, high)
    deliver(path, trail, work, edge, tolerance)
    return 0.0 if low <= end else low


def _beside(taken: Sequence[Region], z: float, high: float) -> float:
    """How far in the nose's centre may go at a Z beside what a tailstock's centre takes up for it;
    where it may not go at all, that is for the guard to say."""
    found = [x for region in taken for x in levels(region.outer, z)]
    low = max(found, default=-math.inf) + GAP
    return low if low < high else -math.inf


def _held(edge: CuttingEdge, job: Facing, low: float, high: float) -> float | None:
    """Where the nose's centre is when the speed, which counts from the set point, reaches its
    clamp; None outside of the cut."""
    held = held_from(job.speed)
    x = None if held is None else held - edge.set_point[1]
    return x if x is not None and low < x < high else None


def _check(edge: CuttingEdge, work: Workpiece, job: Facing) -> None:
    why = ""
    if edge.inside:
        why = "a boring tool can't face the end from the outside"
    elif edge.hand == "left":
        why = "a left-hand tool can't face the free end: it cuts away from the chuck"
    elif edge.rises < 90:
        why = "its main edge leans over the face: the approach angle is less than 90 degrees"
    if why:
        say = work.units.say
        place = Place(at=f"Z {say(job.to)}, diameter {say(2 * work.free)}")
        raise InputError(Fault(why, place, "take a right-hand turning tool with 90 to 95 degrees"))

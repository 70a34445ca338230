"""Finishing: once along the profile, from the rim of the free end to the limit, or the other way
with a left-hand tool."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from jawcam.geometry.combine import union
from jawcam.geometry.cut import tangent_at
from jawcam.geometry.shapes import Point, Region, Segment
from jawcam.motion.moves import Compensate
from jawcam.tolerance import Tolerance
from jawcam.turn.edge import CuttingEdge, Workpiece
from jawcam.turn.field import Field
from jawcam.turn.guard import NEAR, deliver, in_front
from jawcam.turn.reach import rounded_off
from jawcam.turn.trail import TurnTrail

__all__ = ["Finishing", "finish"]

ROOMY = 1.02
"""Nose radii; how wide a hollow is made for a control to lead the nose through."""


@dataclass(frozen=True)
class Finishing:
    """feed in mm per turn. compensation: of the nose's radius, worked out or left to the control,
    which then finds the nose in `register`."""

    feed: float
    compensation: Literal["worked out", "control"] = "worked out"
    register: int = 0


def finish(
    trail: TurnTrail, work: Workpiece, edge: CuttingEdge, job: Finishing, tolerance: Tolerance
) -> None:
    """Finish the work in front of its limit, the end face left out. The tool comes in along the
    extension of the profile's first piece, in the clear in front of the free end (beside a
    tailstock's centre nearer to it, from outside), and leaves straight out at the limit. It begins
    and ends at the free radius in front of the work.

    With compensation left to the control, the motions hold the profile itself, between the two
    `Compensate`, its hollows as round as the nose. Raises InputError where the tool would touch
    what it must keep off.
    """
    field = Field.of(work, edge, tolerance)
    near = any(in_front(region, work) for region in work.keep_off)
    nose = TurnTrail()
    _along(nose, _Contour.of(field, edge.radius, near=near), job.feed, None)
    if job.compensation == "worked out":
        deliver(nose, trail, work, edge, tolerance)
        return
    deliver(nose, TurnTrail(), work, edge, tolerance)  # to see what it would touch
    contour = _Contour.of(field, 0.0, near=near)
    profile = TurnTrail()
    _along(profile, contour, job.feed, job.register)
    deliver(profile, trail, replace(work, keep_off=()), replace(edge, set_point=(0, 0)), tolerance)


@dataclass(frozen=True)
class _Contour:
    """The profile, grown or as it is, as the tool feeds along it in the view. home: in front of
    the work at the free radius; front: the least Z at which the tool comes down beside the face;
    gap: longer than the nose's radius; lead: how far the tool may come in, or go out, along the
    extension at the free end; ahead: whether that is where it begins."""

    pieces: tuple[Segment, ...]
    home: Point
    front: float
    gap: float
    lead: float
    ahead: bool

    @staticmethod
    def of(field: Field, radius: float, *, near: bool) -> _Contour:
        solid = field.keep_out() if radius else _followed(field)
        pieces = field.contour(solid, radius)
        gap = lead = (NEAR if near else field.clearance) + field.edge.radius
        first, last = pieces[0], pieces[-1]
        if field.ahead:
            x, dx = first.start[1], tangent_at(first, first.start)[1]
        else:
            x, dx = last.end[1], -tangent_at(last, last.end)[1]
        if dx > 0 and not field.view.flip_x:
            lead = min(gap, x / dx)  # not past the axis
        home = (field.home[0], field.high - field.edge.radius + radius)
        front = field.front + gap if near else home[0]
        return _Contour(pieces, home, front, gap, lead, field.ahead)


def _followed(field: Field) -> tuple[Region, ...]:
    """What a nose leaves of the work that it must be led along by a control: no hollow is tighter
    than the nose, because a control stops at one (NISTIR 6556, appendix B) or cuts into it."""
    whole = union([*field.solid, field.barred(0.0)], field.tolerance)
    return rounded_off(whole, field.edge.radius * ROOMY, field.tolerance)


def _along(path: TurnTrail, contour: _Contour, feed: float, register: int | None) -> None:
    """From home along a contour and back; with a register the control's compensation is on
    between a straight way in and a straight way out, both longer than the nose's radius."""
    path.rapid(*contour.home)
    if contour.ahead:
        _from_free_end(path, contour, feed, register)
    else:
        _from_limit(path, contour, feed, register)
    path.rapid(*contour.home)


def _from_free_end(path: TurnTrail, contour: _Contour, feed: float, register: int | None) -> None:
    first, last = contour.pieces[0], contour.pieces[-1]
    heading = tangent_at(first, first.start)
    back = contour.lead + (0.0 if register is None else contour.gap)
    begin = _on(first.start, heading, -back)
    front = max(begin[0], contour.front)
    if front < contour.home[0]:
        path.rapid(front, contour.home[1])
    path.rapid(front, begin[1])
    path.feed(*begin, feed)
    if register is not None:
        path.add(Compensate("right", register))
        path.feed(*_on(first.start, heading, -contour.lead), feed)
    path.feed(*first.start, feed)
    path.trace(contour.pieces, feed)
    path.feed(last.end[0], contour.home[1], feed)
    if register is not None:
        path.add(Compensate("off"))
        path.feed(last.end[0] + contour.gap, contour.home[1], feed)


def _from_limit(path: TurnTrail, contour: _Contour, feed: float, register: int | None) -> None:
    first, last = contour.pieces[0], contour.pieces[-1]
    z, high = first.start[0], contour.home[1]
    if register is None:
        path.rapid(z, high)
    else:
        path.rapid(contour.home[0], high + contour.gap)
        path.rapid(z, high + contour.gap)
        path.add(Compensate("right", register))
        path.feed(z, high, feed)
    path.feed(*first.start, feed)
    path.trace(contour.pieces, feed)
    heading = tangent_at(last, last.end)
    path.feed(*_on(last.end, heading, contour.lead), feed)
    if register is not None:
        path.add(Compensate("off"))
        path.feed(*_on(last.end, heading, contour.lead + contour.gap), feed)
    z, x = _on(last.end, heading, contour.lead + (0.0 if register is None else contour.gap))
    path.rapid(min(z, contour.home[0]), x)


def _on(start: Point, heading: Point, length: float) -> Point:
    """The point `length` mm from a point in a direction."""
    return (start[0] + length * heading[0], start[1] + length * heading[1])

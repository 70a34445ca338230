"""Holes with a drill, and the spots that a spot drill sets before it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.hold.target import Hole
from jawcam.mill.trail import Trail
from jawcam.motion.moves import Drill
from jawcam.tools.cutter import Cutter

__all__ = ["SPOT_CHAMFER", "START", "drill_holes", "in_order", "spot_holes", "spot_tip"]

START = 1.0
"""mm above the surface where the feed begins (common practice, no source)."""

SPOT_CHAMFER = 0.2
"""mm; how wide a chamfer the spot leaves all round the hole's mouth (common practice, no
source)."""


def drill_holes(
    trail: Trail,
    holes: Sequence[Hole],
    *,
    start: float,
    clear: float,
    feed: float,
    peck: float | None = None,
    dwell: float = 0.0,
) -> None:
    """Drill holes that one drill makes, by a short way from one to the next.

    start: the Z where the feed begins, a little above the surface; clear: the Z at which nothing
    is in the way; feed: mm/min; peck: mm, None for in one go; dwell: seconds at the bottom.
    """
    for hole in _from_here(trail, holes, clear):
        at = (hole.x, hole.y)
        trail.add(Drill(at, clear, start, hole.tip, feed, peck, dwell))
        trail.at = (*at, clear)


def spot_holes(
    trail: Trail,
    holes: Sequence[Hole],
    spot: Cutter,
    *,
    start: float,
    clear: float,
    feed: float,
    dwell: float = 0.0,
) -> None:
    """Set a spot for each hole, that its drill starts in and that leaves its mouth chamfered.

    start, clear, feed, dwell: as for `drill_holes`.
    """
    for hole in _from_here(trail, holes, clear):
        at = (hole.x, hole.y)
        trail.add(Drill(at, clear, start, spot_tip(hole, spot), feed, None, dwell))
        trail.at = (*at, clear)


def spot_tip(hole: Hole, spot: Cutter) -> float:
    """The Z of a spot drill's tip at the bottom of a hole's spot.

    Its cone is as wide at the jaw top as the hole and `SPOT_CHAMFER` either side, or as the spot
    drill itself where that is less, but in a shallow hole it goes no deeper than into the cone
    that the drill's point leaves. A point flattened to the hole's width only touches the jaw top.
    """
    blunt, radius = spot.tip_dia / 2, hole.dia / 2
    slope = math.tan(math.radians(spot.point_angle / 2))
    mouth = min(radius + SPOT_CHAMFER, spot.radius)
    in_mouth = -(mouth - blunt) / slope
    in_point = hole.tip + (hole.floor - hole.tip) * blunt / radius
    return min(max(in_mouth, in_point), 0.0)


def in_order(holes: Sequence[Hole], near: tuple[float, float] | None = None) -> tuple[Hole, ...]:
    """The holes, each followed by the one nearest to it; the first is the one nearest to `near`,
    or else the leftmost. Of equals the one farther left, then farther to the front, goes first."""
    left = sorted(holes, key=lambda hole: (hole.x, hole.y))
    order: list[Hole] = []
    here = near if near is not None or not left else (left[0].x, left[0].y)
    while left and here is not None:
        x, y = here
        # tenths of a micrometre: what differs by less is equal, and rounding decides nothing
        hole = min(left, key=lambda one: round(math.hypot(one.x - x, one.y - y), 4))
        left.remove(hole)
        order.append(hole)
        here = (hole.x, hole.y)
    return tuple(order)


def _from_here(trail: Trail, holes: Sequence[Hole], clear: float) -> tuple[Hole, ...]:
    """The holes in order, the cutter standing over the first one, at the height `clear`."""
    order = in_order(holes, trail.plan if trail.at is not None else None)
    if order:
        if trail.at is not None:
            trail.rapid(*trail.plan, clear)
        trail.rapid(order[0].x, order[0].y, clear)
    return order

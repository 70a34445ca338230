"""Holes with a drill, and the spots that a spot drill sets before it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.hold.target import Hole
from jawcam.mill.order import Stop, in_order
from jawcam.mill.trail import Trail
from jawcam.motion.moves import Drill
from jawcam.tools.cutter import Cutter

__all__ = ["SPOT_CHAMFER", "START", "drill_holes", "spot_holes", "spot_tip"]

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
    pecks: Sequence[float | None] = (),
    dwell: float = 0.0,
) -> None:
    """Drill holes that one drill makes, by a short way from one to the next.

    start: the Z where the feed begins, a little above the surface; clear: the Z at which nothing
    is in the way; feed: mm/min; pecks: of each hole in mm, None for in one go, as all are without
    them; dwell: seconds at the bottom.
    """
    for number in _from_here(trail, holes, clear):
        hole, peck = holes[number], pecks[number] if pecks else None
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
    for number in _from_here(trail, holes, clear):
        hole = holes[number]
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


def _from_here(trail: Trail, holes: Sequence[Hole], clear: float) -> list[int]:
    """The numbers of the holes in order, the cutter standing over the first one, at the height
    `clear`. In which order they were asked for decides nothing."""
    sorted_by_place = sorted(range(len(holes)), key=lambda k: (holes[k].x, holes[k].y))
    stops = [Stop((holes[k].x, holes[k].y), (holes[k].x, holes[k].y)) for k in sorted_by_place]
    here = trail.plan if trail.at is not None else None
    order = [sorted_by_place[k] for k in in_order(stops, here)]
    if order:
        if trail.at is not None:
            trail.rapid(*trail.plan, clear)
        trail.rapid(holes[order[0]].x, holes[order[0]].y, clear)
    return order

"""From the view in which tools are right-hand outside ones back to the machine, past what no tool
may touch."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from jawcam.errors import Fault, InputError, Place
from jawcam.geometry.combine import union
from jawcam.geometry.flatten import polyline
from jawcam.geometry.hull import hull
from jawcam.geometry.offset import grow
from jawcam.geometry.shapes import Arc, Line, Point, Region, Segment, polygon
from jawcam.motion.moves import ArcFeed, Compensate, LineFeed, Rapid
from jawcam.tolerance import Tolerance
from jawcam.turn.edge import CuttingEdge, View, Workpiece
from jawcam.turn.trail import TurnTrail
from jawcam.turn.ways import where_enters

__all__ = ["GAP", "NEAR", "deliver", "in_front", "taken_by"]

NEAR = 0.5
"""mm in front of the work that a tool comes in by beside a tailstock's centre (common practice, no
source)."""

GAP = 0.2
"""mm that a tool keeps off a tailstock's centre (likewise)."""

_CHORD = 0.01  # mm; what a tool keeps off need not be more exact

_OTHER: dict[str, Literal["left", "right", "off"]] = {
    "left": "right",
    "right": "left",
    "off": "off",
}


def deliver(
    path: TurnTrail, trail: TurnTrail, work: Workpiece, edge: CuttingEdge, tolerance: Tolerance
) -> None:
    """Put the motions of a nose's centre, as seen in its view, on the trail as motions of the
    tool's set point. Raises InputError with the first place at each region of `keep_off` that the
    tool would touch."""
    view = View.of(edge)
    _check(path, work, edge, tolerance)
    dz, dx = edge.set_point
    for motion in path.motions:
        if isinstance(motion, Compensate) and view.turns_over:
            trail.add(replace(motion, side=_OTHER[motion.side]))
            continue
        if not isinstance(motion, Rapid | LineFeed | ArcFeed):
            trail.add(motion)
            continue
        z, x = view.point(motion.to[:2])
        to = (z + dz, x + dx)
        if isinstance(motion, Rapid):
            trail.rapid(*to)
        elif isinstance(motion, LineFeed):
            trail.feed(*to, motion.feed)
        else:
            cz, cx = view.point(motion.centre)
            start = trail.at or to
            arc = Arc(start, to, (cz + dz, cx + dx), motion.ccw != view.turns_over)
            trail.follow(arc, motion.feed)


def in_front(region: Region, work: Workpiece) -> bool:
    """Whether what is to be kept off stands in front of the work: a tailstock's centre."""
    return region.outer.box[2] > work.stock.outer.box[2]


def _check(path: TurnTrail, work: Workpiece, edge: CuttingEdge, tolerance: Tolerance) -> None:
    view = View.of(edge)
    faults = []
    for region in work.keep_off:
        met = _first_met(path, taken_by(view.region(region), edge, tolerance))
        if met is None:
            continue
        z, x = view.point(met)
        place = Place(
            at=f"Z {work.units.say(z + edge.set_point[0])}, "
            f"diameter {work.units.say(2 * (x + edge.set_point[1]))}"
        )
        what, mend = "the chuck or its jaws", "turn less far, grip the part farther back"
        if in_front(region, work):
            what, mend = "the tailstock's centre", "take a slimmer insert, a smaller centre hole"
        faults.append(Fault(f"the tool would touch {what}", place, f"{mend} or take a longer tool"))
    if faults:
        raise InputError(faults)


def _first_met(path: TurnTrail, taken: Sequence[Region]) -> Point | None:
    """Where a path first goes into what is taken."""
    at: Point | None = None
    for motion in path.motions:
        if not isinstance(motion, Rapid | LineFeed | ArcFeed):
            continue
        to = motion.to[:2]
        if at is not None and at != to:
            way: Segment = Line(at, to)
            if isinstance(motion, ArcFeed):
                way = Arc(at, to, motion.centre, motion.ccw)
            found = where_enters(way, taken)
            if found is not None:
                return found
        at = to
    return None


def taken_by(region: Region, edge: CuttingEdge, tolerance: Tolerance) -> tuple[Region, ...]:
    """Where the nose's centre may not be if neither nose nor edges shall touch a region, all seen
    in the view: each piece of its outline with the triangle between the edges, turned upside down;
    grown by the nose."""
    rises = min(edge.rises, 90.0)
    feet = [(0.0, 0.0)]
    for angle in (180 + edge.falls, 360 - rises):
        turn = math.radians(angle)
        feet.append((edge.length * math.cos(turn), edge.length * math.sin(turn)))
    swept = []
    for segment in region.outer.segments:
        for a, b in itertools.pairwise(polyline(segment, _CHORD)):
            points = [(p[0] + f[0], p[1] + f[1]) for p in (a, b) for f in feet]
            swept.append(hull(polygon(points), _CHORD))
    return grow(union([region, *swept], tolerance), edge.radius, tolerance)

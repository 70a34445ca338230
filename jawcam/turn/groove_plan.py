"""What a grooving insert can do in a groove: where it fits, and what it leaves."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from jawcam.errors import Fault, FaultList, InputError, Place
from jawcam.geometry.combine import difference, intersection, union
from jawcam.geometry.narrow import substantial
from jawcam.geometry.offset import grow
from jawcam.geometry.shapes import Arc, Path, Region, polygon
from jawcam.geometry.sweep import slid_along_x
from jawcam.geometry.transform import turned
from jawcam.hold.turn_target import TurnLeft
from jawcam.motion.moves import Spindle, SurfaceSpeed
from jawcam.tolerance import Tolerance
from jawcam.turn.groove_walls import Edge, filled_below, free, levels, turned_over
from jawcam.turn.plunge import spot_words
from jawcam.units import Units

__all__ = ["OVERLAP", "SNUG", "GrooveCut", "Plan", "left_over", "planned"]

OVERLAP = 0.1
"""mm by which neighbouring plunges overlap beside the corner radius, and the two finishing cuts
where they meet (common practice, no source)."""

SNUG = 0.001
"""mm by which an insert may be too wide on either side for a groove of its own width."""


@dataclass(frozen=True)
class GrooveCut:
    """A groove to cut with an insert, (z, x) in mm, x a radius.

    place: what is to go, open on the outside (of a bore: on the inside); part: the finished half
    section, which nothing cuts into; without it all that lies beside the place and below its
    mouth. width, radius: of the edge and its corners; reach: how deep the tool goes, None = not
    known. clear: the radius at which the tool moves freely along Z. feed: as the program counts,
    commonly mm per turn; speed: how the spindle turns, for the dwell. peck: None = in one go.
    leave: what the plunges leave on the walls and the bottom. units, where: for messages.
    """

    place: Region
    width: float
    radius: float
    clear: float
    feed: float
    speed: Spindle | SurfaceSpeed
    reach: float | None = None
    peck: float | None = None
    leave: float = 0.1
    inside: bool = False
    part: Region | None = None
    units: Units = Units.MM
    where: Place = field(default_factory=Place)


@dataclass(frozen=True)
class Plan:
    """A groove laid out, with everything in (z, h), h growing out of it.

    mouth: the h of its top; fine: the edge; room, rough: where its middle may be, for finishing
    and leaving the stock to leave.
    """

    cut: GrooveCut
    place: Region
    mouth: float
    fine: Edge
    room: tuple[Region, ...]
    rough: tuple[Region, ...]

    def x(self, h: float) -> float:
        """The radius of a height."""
        return -h if self.cut.inside else h

    def bottom(self, rooms: Sequence[Region]) -> float:
        """The lowest that the edge goes in places where its middle may be."""
        return min((r.outer.box[1] for r in rooms), default=math.inf) - self.cut.radius

    def spot(self, z: float, h: float) -> Place:
        """A point of the groove in words."""
        return replace(self.cut.where, at=spot_words(z, self.x(h), self.cut.units))


def planned(cut: GrooveCut, tol: Tolerance) -> Plan:
    """The groove laid out. Raises InputError with all that keeps the tool from cutting it."""
    place, part = cut.place, cut.part
    if cut.inside:
        place, part = turned_over(place), part and turned_over(part)
    z0, low, z1, mouth = place.outer.box
    if not 0 <= 2 * cut.radius <= cut.width + 1e-9 or cut.width <= 0:
        what = f"an edge {cut.units.say(cut.width)} wide has no room for two corners of "
        what += f"{cut.units.say(cut.radius)}"
        mend = "make the corner radius at most half of the width"
        raise InputError(Fault(what, cut.where, mend))
    if part is None:
        aside = 2 * cut.width + 1.0
        around = [(z0 - aside, low - 1.0), (z1 + aside, low - 1.0)]
        around += [(z1 + aside, mouth), (z0 - aside, mouth)]
        stays = difference([Region(polygon(around))], [place], tol)
    else:
        stays = (part,)
    solid = filled_below(stays, mouth - low + 1.0, tol)
    plan = Plan(cut, place, mouth, Edge(cut.width, cut.radius), (), ())
    plan = _with_room(plan, solid, tol)
    faults = FaultList()
    for spot in substantial(_undercut(plan, solid, stays, tol), tol):
        what = f"the groove's wall hangs over a place {cut.units.say(spot.size)} across, "
        what += "which no straight plunge reaches"
        faults.add(what, plan.spot(*spot.at), "make the walls upright or wider towards the mouth")
    _say_tight(plan, difference([place], solid, tol), faults)
    faults.raise_if_any()
    return plan


def _with_room(plan: Plan, solid: Sequence[Region], tol: Tolerance) -> Plan:
    """The plan with the places where the middle of the edge may be, up to the height where the
    edge is at the groove's mouth: from a little beside the groove or, where that is open at a
    side, as far as the edge must stand out there to come to the foot of the other wall."""
    cut, (z0, low, z1, mouth) = plan.cut, plan.place.outer.box
    edge, flush = plan.fine, cut.width / 2
    first, last = _lowest(plan.place, low)
    left = min(z0 + edge.half, last - flush) - OVERLAP
    right = max(z1 - edge.half, first + flush) + OVERLAP
    box = (left, low - 1.0, right, mouth + cut.radius)
    room = free(solid, plan.fine, box, tol)
    if plan.bottom(room) > (low + mouth) / 2:
        snug = Edge(cut.width - 2 * SNUG, cut.radius)
        room = free(solid, snug, box, tol)
    rough = free(solid, replace(plan.fine, leave=cut.leave), box, tol)
    return replace(plan, room=room, rough=rough)


def _lowest(place: Region, low: float) -> tuple[float, float]:
    """The first and the last z of the lowest points of a place."""
    spots = []
    for seg in place.outer.segments:
        if Path((seg,)).box[1] < low + 1e-3:
            ends = [z for z, h in (seg.start, seg.end) if h < low + 1e-3]
            spots += ends or ([seg.centre[0]] if isinstance(seg, Arc) else [])
    return min(spots), max(spots)


def _undercut(
    plan: Plan, solid: Sequence[Region], stays: Sequence[Region], tol: Tolerance
) -> tuple[Region, ...]:
    """What of the place lies under the part."""
    return difference(intersection([plan.place], solid, tol), stays, tol)


def _say_tight(plan: Plan, open_above: Sequence[Region], faults: FaultList) -> None:
    """Note a groove that the edge does not go into, or not deep enough."""
    cut, (z0, low, z1, mouth) = plan.cut, plan.place.outer.box
    say, half_way, bottom = cut.units.say, (low + mouth) / 2, plan.bottom(plan.room)
    if bottom > half_way:
        rows = [levels(turned(one.outer, -90), half_way) for one in open_above]
        gaps = [b - a for row in rows for a, b in zip(row[::2], row[1::2], strict=False)]
        wide = max(gaps, default=0.0)
        faults.add(
            f"the groove is {say(wide)} wide half-way down, the insert {say(cut.width)}",
            plan.spot((z0 + z1) / 2, half_way),
            f"take a grooving tool at most {say(wide)} wide",
        )
    depth = mouth - (low if bottom > half_way else bottom)
    if cut.reach is not None and depth > cut.reach + 1e-9:
        faults.add(
            f"the groove is {say(depth)} deep, the tool reaches {say(cut.reach)}",
            plan.spot((z0 + z1) / 2, mouth - depth),
            f"take a grooving tool that reaches at least {say(depth)}",
        )


def left_over(plan: Plan, tol: Tolerance) -> tuple[TurnLeft, ...]:
    """What the edge does not cover, its middle anywhere that it may be."""
    slid = [one for r in plan.room for one in slid_along_x(r, plan.fine.half, tol)]
    swept = grow(union(slid, tol), plan.fine.radius, tol)
    found = []
    for spot in substantial(difference([plan.place], swept, tol), tol):
        say = plan.cut.units.say
        why = f"a grooving insert {say(plan.cut.width)} wide with corners of "
        why += f"{say(plan.cut.radius)} does not fit into it"
        found.append(TurnLeft(spot.at[0], plan.x(spot.at[1]), spot.size, why))
    return tuple(found)

"""Parting off: break the edge of the part's far end, then cut it from the bar. Where the diameter
runs out the spindle goes over to a fixed speed."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

from jawcam.errors import FaultList, Place
from jawcam.motion.moves import Spindle, SurfaceSpeed
from jawcam.turn.plunge import START, plunge, spot_words
from jawcam.turn.speed import fixed, held_from
from jawcam.turn.trail import TurnTrail
from jawcam.units import Units

__all__ = ["SLOW", "SLOW_SHARE", "PartOff", "part_off"]

SLOW = 1.0
"""mm of radius above the end of the cut in which the feed is reduced (common practice, no
source)."""

SLOW_SHARE = 0.5
"""What the feed is reduced to there (common practice, no source)."""

_BELOW = 0.5  # mm that the first cut goes below the broken edge, so that only one corner cuts it


@dataclass(frozen=True)
class PartOff:
    """How to part off, in mm, x a radius.

    at: the Z of the face that is left on the part, which lies at larger Z; rim: the part's radius
    there; stock: the radius of the bar in front of the chuck; bore: of the part's bore, 0 for
    none. width, radius: of the edge and its corners; reach: how deep the tool goes, None = not
    known. clear: the radius at which the tool moves freely along Z. feed: as the program counts;
    speed: as the spindle was started. edge: how far the part's corner is broken at 45 degrees, 0
    for sharp. peck: None = in one go. units, where: for messages.
    """

    at: float
    rim: float
    stock: float
    width: float
    radius: float
    clear: float
    feed: float
    speed: Spindle | SurfaceSpeed
    bore: float = 0.0
    reach: float | None = None
    edge: float = 0.0
    peck: float | None = None
    units: Units = Units.MM
    where: Place = field(default_factory=Place)

    @property
    def end(self) -> float:
        """Where the cut ends: the whole face is there when the centre of the edge's corner has
        reached the axis or the bore."""
        return self.bore - self.radius


def part_off(trail: TurnTrail, cut: PartOff) -> None:
    """Part off. The set point is the corner of the edge towards the chuck, so that the face at `at`
    is cut by the other one.

    With an edge to break: a first cut below it, out again, along the chamfer from outside inwards,
    and on from there. The last millimetre of radius is cut at half of the feed, and from the
    radius at which a surface speed reaches its clamp on at that fixed speed: the `Spindle` is left
    in force, so that a surface speed must be set anew afterwards. The tool begins and ends at
    `clear`; the mode and the unit of feed and speed are the caller's. Raises InputError when the
    tool does not reach far enough or the edge has no room.
    """
    _check(cut)
    z = cut.at - cut.width
    x = cut.stock
    trail.rapid(z, cut.clear)
    trail.rapid(z, cut.stock + START)
    if cut.edge > 0:
        low = max(cut.rim - cut.edge - cut.radius - _BELOW, cut.end + SLOW)
        x = min(low, cut.stock)
        plunge(trail, z, cut.stock, x, feed=cut.feed, peck=cut.peck)
        _chamfer(trail, cut)
        trail.feed(z, x, cut.feed)
    _through(trail, cut, z, x)
    trail.rapid(z, cut.clear)


def _through(trail: TurnTrail, cut: PartOff, z: float, x: float) -> None:
    """From the radius x to the end, slower at the last, the spindle's speed fixed from where its
    clamp holds it."""
    slow, held = cut.end + SLOW, held_from(cut.speed)
    if held is not None and held <= cut.end:
        held = None
    done = x
    for stop in sorted({slow, cut.end, held or cut.end}, reverse=True):
        feed = cut.feed if done > slow else cut.feed * SLOW_SHARE
        if stop < done:
            plunge(trail, z, done, stop, feed=feed, peck=cut.peck)
            done = stop
        if stop == held:
            trail.add(fixed(cut.speed))


def _chamfer(trail: TurnTrail, cut: PartOff) -> None:
    """Along the chamfer with the corner towards the part, from above it until the corner is flush
    with the face: its centre runs a corner radius beside the chamfer's line."""
    beside = cut.radius / math.sqrt(2)
    out = cut.edge + START
    inwards = cut.radius - beside  # on along the line, from beside the chamfer's end to the face
    centre = (cut.at - beside, cut.rim - cut.edge + beside)
    z, x = centre[0] - cut.width + cut.radius, centre[1] - cut.radius
    trail.rapid(cut.at - cut.width, max(cut.stock, cut.rim) + START)
    trail.rapid(z + out, max(cut.stock, cut.rim) + START)
    trail.rapid(z + out, x + out)
    trail.feed(z - inwards, x - inwards, cut.feed)


def _check(cut: PartOff) -> None:
    faults, say = FaultList(), cut.units.say
    where = replace(cut.where, at=spot_words(cut.at, cut.rim, cut.units))
    depth = cut.stock - cut.end
    if cut.reach is not None and depth > cut.reach + 1e-9:
        faults.add(
            f"parting off goes {say(depth)} deep, the tool reaches {say(cut.reach)}",
            where,
            f"take a parting tool that reaches at least {say(depth)}",
        )
    room = cut.rim - max(cut.bore, 0.0)
    if cut.edge >= room:
        faults.add(
            f"an edge broken by {say(cut.edge)} has no room on a face {say(room)} high",
            where,
            "break the edge less, or not at all",
        )
    faults.raise_if_any()

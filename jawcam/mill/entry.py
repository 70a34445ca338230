"""Ways down into material: through the open gap, by a helix, by a ramp along the path.

A straight plunge is only for a cutter that cuts at its centre, or where there is nothing but air.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol

from jawcam.errors import Fault, InputError, Place
from jawcam.geometry.measure import contains
from jawcam.geometry.shapes import Path, Point, Region
from jawcam.mill.links import HAIR
from jawcam.mill.trail import Trail
from jawcam.motion.moves import ArcFeed

__all__ = [
    "NARROW",
    "WIDE",
    "Cutting",
    "Descent",
    "choose_descent",
    "descend",
    "has_way_down",
    "ramp_fits",
    "too_tight",
]

WIDE, NARROW = 0.9, 0.4
"""The largest and the smallest helix, as shares of the cutter's radius: with more a core would be
left standing, with less the cutter's dead centre would rub (common practice, no source)."""

ROOM = 0.25
"""mm left to either face when the cutter goes down through the gap."""


@dataclass(frozen=True)
class Descent:
    """How to get down in a ring's region: `gap` straight through air at `start`; `helix` round
    `centre` with `radius`; `ramp` along the ring; `plunge` straight into material at `start`."""

    kind: str
    start: Point
    centre: Point = (0.0, 0.0)
    radius: float = 0.0


class Cutting(Protocol):
    """What a descent needs to know of the clearing that it belongs to; lengths in mm."""

    @property
    def dia(self) -> float:
        """Of the cutter."""

    @property
    def gap(self) -> float:
        """Between the blanks."""

    @property
    def centre_cutting(self) -> bool:
        """Whether the cutter may go straight down."""

    @property
    def place(self) -> Place:
        """Where the job asks for it."""


def choose_descent(middle: Point, room: float, region: Region, job: Cutting) -> Descent:
    """The gentlest way down near `middle`, where the cutter's centre has `room` mm all round.

    region: where its centre may be. Raises InputError when it is too tight for all the ways.
    """
    (x, y), dia, gap = middle, job.dia, job.gap
    if gap >= dia + 2 * ROOM and contains([region], (x, 0.0)):
        return Descent("gap", (x, 0.0))
    radius = min(room, WIDE * dia / 2)
    if radius >= NARROW * dia / 2:
        return Descent("helix", (x + radius, y), (x, y), radius)
    if ramp_fits(region, dia):
        return Descent("ramp", region.outer.start)
    if job.centre_cutting:
        return Descent("plunge", (x, y))
    raise too_tight(dia, job.place)


def has_way_down(region: Region, middle: tuple[Point, float], job: Cutting) -> bool:
    """Whether there is any way down in a region. middle: its roomiest point and the room there."""
    try:
        choose_descent(*middle, region, job)
    except InputError:
        return False
    return True


def ramp_fits(region: Region, dia: float) -> bool:
    """Whether a ring is wide enough, one way, that a cutter ramping round it does not rub on its
    dead centre."""
    x0, y0, x1, y1 = region.outer.box
    return max(x1 - x0, y1 - y0) >= NARROW * dia


def too_tight(dia: float, place: Place) -> InputError:
    """What is wrong where there is no gentle way down."""
    return InputError(
        Fault(
            f"the pocket is hardly wider than the cutter of {dia:g} mm, which can neither wind nor "
            "ramp its way down there",
            place,
            "take a smaller cutter, or one that cuts at its centre (centre_cutting = true)",
        )
    )


def descend(
    trail: Trail,
    way: Descent,
    region: Region,
    top: float,
    floor: float,
    ramp: float,
    feed: float,
    plunge_feed: float | None = None,
) -> None:
    """From hovering over `way.start`, `HAIR` above `top`, down to `floor`, all material gone on
    the way. ramp: degrees; feed: mm/min, plunge_feed: straight down (None: the same)."""
    if way.kind in ("gap", "plunge"):  # the gap too: a spacer may stand too high in it
        trail.feed(*way.start, floor, plunge_feed or feed)
    elif way.kind == "helix":
        _wind(trail, way, top + HAIR, floor, ramp, feed)
    else:
        _ramp(trail, region.outer, top + HAIR, floor, ramp, feed)


def _wind(trail: Trail, way: Descent, top: float, floor: float, ramp: float, feed: float) -> None:
    """Full turns of equal pitch, then a level one. Pitch = circumference x tan(ramp)."""
    pitch = 2 * math.pi * way.radius * math.tan(math.radians(ramp))
    turns = math.ceil((top - floor) / pitch)
    heights = [top + (floor - top) * k / turns for k in range(1, turns)] + [floor, floor]
    for z in heights:
        trail.at = (*way.start, z)
        trail.add(ArcFeed(trail.at, way.centre, ccw=True, feed=feed))


def _ramp(trail: Trail, path: Path, top: float, floor: float, ramp: float, feed: float) -> None:
    """Round and round the closed path, falling evenly; the ring that follows levels it."""
    fall = path.length * math.tan(math.radians(ramp))
    laps = math.ceil((top - floor) / fall)
    way, total = 0.0, laps * path.length
    for lap in range(laps):
        for number, segment in enumerate(path.segments):
            way += segment.length
            last = lap == laps - 1 and number == len(path.segments) - 1
            z = floor if last else top + (floor - top) * way / total
            trail.follow(segment, z, feed)

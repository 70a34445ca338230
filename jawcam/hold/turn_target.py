"""What must go and what must stay on a lathe: the one value that the planner cuts to and the
judge proves by.

Plain data in mm: Z along the axis, 0 at the finished face of the free end, + away from the chuck;
X a radius. Imports no geometry, so that the judge can read it.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from jawcam.tools.machine import Travel
from jawcam.tools.turner import Turner
from jawcam.units import Units

__all__ = ["HalfLoop", "Thread", "TurnLeft", "TurnTarget"]

HalfLoop = tuple[tuple[float, float, float], ...]
"""A closed outline in the half section, as rows (z, x, bulge); counter-clockwise with Z to the
right and X upwards; bulge as in the DXF definition: tan(sweep / 4), positive counter-clockwise."""


@dataclass(frozen=True)
class Thread:
    """A thread to cut: along Z from `start` (towards the free end) to `end`; the radius of its
    crest at either, its depth on radius, square to the axis; lead = starts x pitch along Z;
    inside: in a bore; flanks: the angle between them, degrees."""

    start: float
    end: float
    first: float
    last: float
    depth: float
    pitch: float
    starts: int = 1
    inside: bool = False
    designation: str = ""
    flanks: float = 60.0


@dataclass(frozen=True)
class TurnLeft:
    """A place that no tool given reaches: a point of it, its size (the diameter of the largest
    disc in it) and why it stays."""

    z: float
    x: float
    size: float
    why: str


@dataclass(frozen=True)
class TurnTarget:
    """One end of a turned part.

    finished: the half section of the part as it must be once this setup is done, in front of the Z
    `finished_to` (None: of `limit`); behind `limit`, which lies a little farther back for the
    tools to run out, nothing is cut here. stock: the half section of what is in the chuck,
    the limit's far side included. threads: not in `finished`, whose crests they cut into.
    parted: the Z of the face left by parting off, None without. keep_off: half sections of jaws,
    chuck and tailstock that nothing may touch. clamp: rpm; clearance: how far off the stock the
    tools move freely. travel_at: where the program's origin stands in the lathe's travel.
    """

    name: str
    title: str
    units: Units
    finished: HalfLoop
    stock: HalfLoop
    limit: float
    threads: tuple[Thread, ...]
    keep_off: tuple[HalfLoop, ...]
    tools: tuple[Turner, ...]
    work_offset: int
    clearance: float
    clamp: float
    finished_to: float | None = None
    parted: float | None = None
    left: tuple[TurnLeft, ...] = ()
    notes: tuple[str, ...] = ()
    travel_at: Travel = field(default_factory=Travel)

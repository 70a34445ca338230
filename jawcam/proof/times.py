"""How long a path takes on a machine that has to speed up and slow down.

Along each piece of the path the speed rises and falls by the machine's acceleration at most. In an
arc the same acceleration holds it on its circle, so that the speed is at most the root of a r.
Where two pieces meet at an angle the velocity jumps by 2 v sin(angle / 2); a control keeps the jump
down to what it lets pass in a square corner, so that pieces that follow each other smoothly are
run through. The speed at every joint is the highest from which there is always room to slow down:
two sweeps, one back and one forth (v^2 = u^2 + 2 a s, any textbook of mechanics).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from jawcam.tools.machine import Machine
from jawcam.units import Units

__all__ = ["Drive", "Leg", "drive_of", "seconds"]

ACCEL, CORNER, TOOL_CHANGE = 2000.0, 200.0, 10.0
"""mm/s2, mm/min and s, where the job doesn't say (common practice, no source)."""


@dataclass(frozen=True)
class Drive:
    """How a machine moves: its rapid rate, mm/min; accel: mm/s2; corner: mm/min, how fast it runs
    round a square corner; tool_change: s. assumed: which of it the job doesn't say, in words."""

    rapid: float
    accel: float
    corner: float
    tool_change: float
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True)
class Leg:
    """A piece of a path: its length in mm, the speed that is asked for in mm/s, the directions
    (unit vectors) that it begins and ends in, the radius that it bends with in mm; rest: whether
    the machine stands still before it."""

    length: float
    speed: float
    begin: tuple[float, ...]
    end: tuple[float, ...]
    bend: float = math.inf
    rest: bool = False


def drive_of(machine: Machine, units: Units) -> Drive:
    """What a job says of its machine, and what it doesn't, in the job's units."""
    mark = "in" if units is Units.INCH else "mm"
    accel, corner, change = machine.accel, machine.corner, machine.tool_change
    assumed = []
    if accel is None:
        accel = ACCEL
        assumed.append(f"an acceleration of {units.from_mm(accel):.0f} {mark}/s2")
    if corner is None:
        corner = CORNER
        assumed.append(f"{units.from_mm(corner):.0f} {mark}/min in a square corner")
    if change is None:
        change = TOOL_CHANGE
        assumed.append(f"{change:g} s for a tool change")
    return Drive(machine.rapid, accel, corner, change, tuple(assumed))


def seconds(legs: Sequence[Leg], drive: Drive) -> list[float]:
    """The time of each leg; before the first one and after the last the machine stands still."""
    if not legs:
        return []
    most = [min(leg.speed, math.sqrt(drive.accel * leg.bend)) for leg in legs]
    joints = [0.0, *(_joint(a, b, drive) for a, b in pairwise(legs)), 0.0]
    for k in range(1, len(legs)):
        joints[k] = min(joints[k], most[k - 1], most[k])
    for k in range(len(legs) - 1, 0, -1):
        joints[k] = min(joints[k], _after(joints[k + 1], legs[k].length, drive.accel))
    for k in range(1, len(legs)):
        joints[k] = min(joints[k], _after(joints[k - 1], legs[k - 1].length, drive.accel))
    return [
        _time(leg.length, (joints[k], most[k], joints[k + 1]), drive.accel)
        for k, leg in enumerate(legs)
    ]


def _joint(a: Leg, b: Leg, drive: Drive) -> float:
    """The highest speed from one leg to the next."""
    if b.rest:
        return 0.0
    jump = math.dist(a.end, b.begin)  # 2 sin(angle / 2)
    return drive.corner / 60 * math.sqrt(2) / max(jump, 1e-9)


def _after(speed: float, length: float, accel: float) -> float:
    """The speed that a length of speeding up leads to."""
    return math.sqrt(speed**2 + 2 * accel * length)


def _time(length: float, speeds: tuple[float, float, float], accel: float) -> float:
    """Of one leg with its first, its highest and its last speed: up, along, down; if it is too
    short to get to the highest, up and down from what it gets to."""
    first, most, last = speeds
    ramps = (2 * most**2 - first**2 - last**2) / (2 * accel)
    if ramps > length:
        top = max(first, last, math.sqrt((2 * accel * length + first**2 + last**2) / 2))
        return (2 * top - first - last) / accel
    return (2 * most - first - last) / accel + (length - ramps) / most

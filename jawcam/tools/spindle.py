"""What a spindle can give at a speed."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from jawcam.tools.machine import Machine

__all__ = ["Given", "given_at", "on_curve"]

_PER_KW = 60_000  # N m/min in a kilowatt


@dataclass(frozen=True)
class Given:
    """The power that a cut may take, in kW, and what sets it, such as ``torque 3 N m``."""

    power: float
    words: str


def given_at(machine: Machine, rpm: float) -> Given | None:
    """What a machine's spindle has for a cut at a speed in 1/min: the least of the motor's power
    and its curve, times the efficiency, and of the torque at the spindle, P = 2 pi n M. None
    where the job says nothing of it."""
    found = []
    if machine.power is not None:
        power = machine.power * machine.efficiency
        found.append(Given(power, f"power {machine.power:g} kW"))
    if machine.curve:
        motor = on_curve(machine.curve, rpm)
        found.append(Given(motor * machine.efficiency, f"power {motor:.3g} kW at {rpm:.0f} rpm"))
    if machine.torque is not None:
        power = 2 * math.pi * rpm * machine.torque / _PER_KW
        found.append(Given(power, f"torque {machine.torque:g} N m"))
    return min(found, key=lambda one: one.power, default=None)


def on_curve(curve: Sequence[tuple[float, float]], rpm: float) -> float:
    """The power in kW at a speed, from rows of 1/min and kW, speeds growing: straight between
    them, in proportion to the speed below the first (the same torque), the last's beyond it."""
    (first, least), (_, last) = curve[0], curve[-1]
    if rpm <= first:
        return least * rpm / first
    for (n0, p0), (n1, p1) in itertools.pairwise(curve):
        if rpm <= n1:
            return p0 + (p1 - p0) * (rpm - n0) / (n1 - n0)
    return last

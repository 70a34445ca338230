"""What a machine can do: plain data, shared by the planner and the judge."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["Machine", "Travel"]


@dataclass(frozen=True)
class Travel:
    """How far each axis goes, or a place within that, counted from the lower end. mm, None where
    the job doesn't say. Of a mill's Z it is where the spindle's nose stands; of a lathe where the
    slide does that carries the tools, X as the programs write it, a diameter or a radius."""

    x: float | None = None
    y: float | None = None
    z: float | None = None


@dataclass(frozen=True)
class Machine:
    """A machine's speeds; max_feed, rapid: mm/min. For how long a program takes, None where the job
    doesn't say: accel in mm/s2; corner, how fast it runs round a square corner, in mm/min;
    tool_change in s. For what can crash, likewise: a mill's travel, and a lathe's, of which Y tells
    nothing; change_height, how far above the jaw top a tip stands at least where the tool is
    changed, in mm; rapids, whether all axes end together, or each runs on its own so that the way
    bends. For what its spindle bears: min_rpm; power of its motor in kW, and curve, rows of 1/min
    and that power at that speed, speeds growing; torque at the spindle in N m; efficiency: what
    share of the motor's power a cut gets."""

    max_rpm: float = 8000.0
    max_feed: float = 5000.0
    rapid: float = 10000.0
    accel: float | None = None
    corner: float | None = None
    tool_change: float | None = None
    travel: Travel = Travel()
    lathe_travel: Travel = Travel()
    change_height: float | None = None
    rapids: Literal["straight", "dog-leg"] | None = None
    min_rpm: float = 0.0
    power: float | None = None
    torque: float | None = None
    curve: tuple[tuple[float, float], ...] = ()
    efficiency: float = 0.8

"""What a machine can do: plain data, shared by the planner and the judge."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Machine"]


@dataclass(frozen=True)
class Machine:
    """A machine's speeds; max_feed, rapid: mm/min. For how long a program takes, None where the job
    doesn't say: accel in mm/s2; corner, how fast it runs round a square corner, in mm/min;
    tool_change in s."""

    max_rpm: float = 8000.0
    max_feed: float = 5000.0
    rapid: float = 10000.0
    accel: float | None = None
    corner: float | None = None
    tool_change: float | None = None

"""Neutral motions: what the machine shall do, in mm, minutes and jaw coordinates, in no dialect.

Every motion is frozen and complete in itself: positions are full points, never increments.

On a lathe a point is (Z, X, 0): Z along the axis first, X as a radius second, and arcs lie in
that plane, counter-clockwise as seen with Z to the right and X upwards.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = [
    "ArcFeed",
    "Begin",
    "Call",
    "Compensate",
    "Coolant",
    "Drill",
    "Dwell",
    "End",
    "FeedPer",
    "LineFeed",
    "Motion",
    "Point3",
    "Rapid",
    "Remark",
    "Spindle",
    "SurfaceSpeed",
    "ThreadBox",
    "ThreadCut",
    "ToolChange",
    "WorkOffset",
]

Point3 = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Begin:
    """The head of a program: its name and the lines a person reads first."""

    name: str
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WorkOffset:
    """Choose work offset `number`, from 1."""

    number: int


@dataclass(frozen=True, slots=True)
class ToolChange:
    """Rise to the tool-change height, stop the spindle, load `number`, apply its length offset.

    On a lathe: go to the tool-change position, from where the tool stands clear of the work;
    offset: the tool's offset in the control's table, 0 if it is called like the tool."""

    number: int
    name: str
    offset: int = 0


@dataclass(frozen=True, slots=True)
class Spindle:
    """Start the spindle at `rpm`; 0 stops it."""

    rpm: float
    clockwise: bool = True


@dataclass(frozen=True, slots=True)
class SurfaceSpeed:
    """Lathe: hold the speed at the tool's tip at `speed` m/min, never above `clamp` rpm, which the
    control is told first."""

    speed: float
    clamp: float
    clockwise: bool = True


@dataclass(frozen=True, slots=True)
class FeedPer:
    """Lathe: what the feeds of the moves that follow count by: mm per turn of the spindle, or mm
    per minute."""

    unit: Literal["turn", "minute"]


@dataclass(frozen=True, slots=True)
class ThreadCut:
    """Lathe: one straight pass of a single-point thread to `to`, `lead` mm a turn along Z, in step
    with the spindle."""

    to: Point3
    lead: float


@dataclass(frozen=True, slots=True)
class ThreadBox:
    """Lathe: one pass of a thread from `start`, where the tool stands: at full speed straight
    across to `begin`, in step with the spindle to `to`, `lead` mm a turn along Z, straight out at
    full speed as far as `start` lies, and back to it. Planners give the four moves; this is what
    becomes of them for a control that has a cycle for them."""

    start: Point3
    begin: Point3
    to: Point3
    lead: float


@dataclass(frozen=True, slots=True)
class Coolant:
    """Switch the coolant."""

    kind: Literal["flood", "mist", "off"]


@dataclass(frozen=True, slots=True)
class Compensate:
    """Cutter compensation for the moves that follow, from offset register `register`."""

    side: Literal["left", "right", "off"]
    register: int = 0


@dataclass(frozen=True, slots=True)
class Rapid:
    """Go to `to` at full speed, in a straight line."""

    to: Point3


@dataclass(frozen=True, slots=True)
class LineFeed:
    """Cut straight to `to` at `feed` mm/min."""

    to: Point3
    feed: float


@dataclass(frozen=True, slots=True)
class ArcFeed:
    """Cut round `centre` (x, y) to `to` at `feed` mm/min, rising or falling evenly if the Z of
    `to` differs; `to` above the start in plan is one full turn."""

    to: Point3
    centre: tuple[float, float]
    ccw: bool
    feed: float


@dataclass(frozen=True, slots=True)
class Drill:
    """Drill a hole at `at` (x, y): at full speed across at the height `clear` and down to
    `start`; at `feed` mm/min down to `bottom`, in pecks of `peck` mm if it is not None (out for the
    chips after each, to `start` or as far as the control's own cycle goes, and back to a little
    above where it was); `dwell` seconds there; out to `clear` at full speed. The tool stands at
    `clear` before and after."""

    at: tuple[float, float]
    clear: float
    start: float
    bottom: float
    feed: float
    peck: float | None = None
    dwell: float = 0.0


@dataclass(frozen=True, slots=True)
class Dwell:
    """Stay for `seconds`, all else as it is."""

    seconds: float


@dataclass(frozen=True, slots=True)
class Call:
    """Do the moves of subprogram `number`, from 1: `body`, at least one, cut from where the tool
    stands and all at its height. The bodies of one number differ in nothing but that height, and
    their calls stand at the same place in plan."""

    number: int
    body: tuple[LineFeed | ArcFeed, ...]


@dataclass(frozen=True, slots=True)
class Remark:
    """A line for the person at the control."""

    text: str


@dataclass(frozen=True, slots=True)
class End:
    """Rise clear, stop all and rewind."""


Motion = (
    Begin
    | WorkOffset
    | ToolChange
    | Spindle
    | SurfaceSpeed
    | FeedPer
    | ThreadCut
    | ThreadBox
    | Coolant
    | Compensate
    | Rapid
    | LineFeed
    | ArcFeed
    | Drill
    | Call
    | Dwell
    | Remark
    | End
)

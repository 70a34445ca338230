"""The job as the planner sees it: frozen, in mm, degrees and minutes, every default filled in.

What the file itself looks like is `load.py`'s affair.
"""

from __future__ import annotations

import pathlib
from dataclasses import dataclass
from typing import Literal

from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = [
    "Blanks",
    "Bolt",
    "Datum",
    "Finish",
    "Fit",
    "Hold",
    "Job",
    "Machine",
    "Part",
    "Rough",
    "Setup",
]


@dataclass(frozen=True)
class Blanks:
    """The pair of jaw blanks: `width` along X, `thickness` along Y each, `height` down from Z 0,
    `gap` between their faces while the pocket is cut. One fills Y from gap / 2 to
    gap / 2 + thickness, the other is its mirror image. `moving`: both, front or back."""

    width: float
    height: float
    thickness: float
    gap: float
    moving: str = "both"
    material: str = "aluminium 6061"


@dataclass(frozen=True)
class Bolt:
    """A bolt or its head that the cutter must miss: centre, dia, and the Z of its top."""

    x: float
    y: float
    dia: float
    top: float


@dataclass(frozen=True)
class Part:
    """The part. outline: its drawing, already resolved against the job's folder; layer: the
    drawing layer to take, None for all; drawing_units: for a drawing that states none."""

    material: str
    outline: pathlib.Path
    layer: str | None
    drawing_units: Units | None
    thickness: float


@dataclass(frozen=True)
class Hold:
    """How the part lies in the jaws: `depth` below the jaw top, turned by `turn` degrees
    counter-clockwise after it was flipped about Y (`flip`), its anchor (the drawing's origin or
    the middle of the outline's box) landing on `at`."""

    depth: float
    turn: float = 0.0
    flip: bool = False
    at: tuple[float, float] = (0.0, 0.0)
    anchor: Literal["origin", "centre"] = "origin"


@dataclass(frozen=True)
class Fit:
    """Clearance: `grip` all round, `side` either way along X on top of it."""

    grip: float = 0.0
    side: float = 0.0


@dataclass(frozen=True)
class Rough:
    """Roughing. tool: a tool number, None = the largest that fits; stepdown, stepover, feed,
    slot_feed (where the cutter is engaged over its full width): None = worked out.
    leave, leave_floor: stock to leave on walls and floor; ramp: degrees of helix and ramp."""

    tool: int | None = None
    stepdown: float | None = None
    stepover: float | None = None
    leave: float = 0.2
    leave_floor: float = 0.1
    feed: float | None = None
    slot_feed: float | None = None
    ramp: float = 3.0


@dataclass(frozen=True)
class Finish:
    """Finishing. tool: None = the smallest end mill given; feed: None = worked out; spring: how
    often the wall is passed again; lead: radius of the lead-in and lead-out arcs, None = worked
    out; compensation: the offset register to dial the fit in with, None = no such words."""

    tool: int | None = None
    feed: float | None = None
    spring: int = 0
    lead: float | None = None
    compensation: int | None = None


@dataclass(frozen=True)
class Datum:
    """The program's origin on the blanks, and a stated shift of it (dx, dy, dz)."""

    x: Literal["left", "middle", "right"] = "middle"
    y: Literal["front", "front face", "mid gap", "back face", "back"] = "mid gap"
    z: Literal["top", "bottom"] = "top"
    shift: tuple[float, float, float] = (0.0, 0.0, 0.0)


@dataclass(frozen=True)
class Machine:
    """What the machine can do; rapid in mm/min."""

    max_rpm: float = 8000.0
    max_feed: float = 5000.0
    rapid: float = 10000.0


@dataclass(frozen=True)
class Setup:
    """One vise station. clearance: how far above the jaw top the cutter moves freely;
    reliefs: whether corners are relieved where the part would not seat."""

    name: str
    cut: Literal["jaws"]
    post: str
    work_offset: int
    jaws: Blanks
    hold: Hold
    fit: Fit
    bolts: tuple[Bolt, ...]
    rough: Rough
    finish: Finish
    zero: Datum
    clearance: float
    coolant: Literal["flood", "mist", "off"]
    reliefs: bool


@dataclass(frozen=True)
class Job:
    """The whole job. file: as the person typed it; lines: key path -> line of the file."""

    file: str
    title: str
    units: Units
    part: Part
    tools: tuple[Cutter, ...]
    setups: tuple[Setup, ...]
    machine: Machine
    lines: tuple[tuple[str, int], ...] = ()

"""What must go and what must stay: the one value that the planner cuts to and the judge proves by.

Plain data in mm and jaw coordinates: X along the jaws, Y the closing direction, Z up; X = 0 at
mid width, Y = 0 at mid gap, Z = 0 at the jaw top. Imports no geometry, so that the judge can
read it and grow the outline by means of its own.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from jawcam.job.model import Blanks, Bolt, Keep, Spacer, Travel, Vise
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = [
    "Blanks",
    "Bolt",
    "Groove",
    "Hole",
    "Keep",
    "Level",
    "Loop",
    "Relief",
    "Seated",
    "Section",
    "Spacer",
    "Target",
    "Travel",
    "Unreached",
    "Vise",
]

Loop = tuple[tuple[float, float, float], ...]
"""A closed outline, counter-clockwise, as rows (x, y, bulge); bulge = tan(sweep / 4) of the piece
that begins at its row, positive counter-clockwise, 0 for a straight one (the DXF definition)."""


@dataclass(frozen=True)
class Level:
    """One level of the cavity, from the Z `top` down to the Z `floor`. outlines: all the part's
    sections between the two; they may overlap. The cavity there is what these and the outlines of
    the levels below cover, grown by the fit, as the part comes in from above."""

    top: float
    floor: float
    outlines: tuple[Loop, ...]


@dataclass(frozen=True)
class Section:
    """What the part fills at the height `z`. Between two neighbouring sections it changes evenly;
    where it jumps, two have the same height."""

    z: float
    outlines: tuple[Loop, ...]


@dataclass(frozen=True)
class Relief:
    """A corner relief: what a round cutter of `radius` sweeps from `start` to `end`, from the jaw
    top down to the Z `floor`. `corner` is the part's corner that it makes room for."""

    start: tuple[float, float]
    end: tuple[float, float]
    radius: float
    corner: tuple[float, float]
    floor: float


@dataclass(frozen=True)
class Hole:
    """A drilled hole: its centre; `dia` of the drill `tool`; the Z that its full diameter goes
    down to, and the Z of the drill's tip then. kind: what it is for."""

    x: float
    y: float
    dia: float
    floor: float
    tip: float
    tool: int
    kind: Literal["stop", "relief"]


@dataclass(frozen=True)
class Groove:
    """A groove along the foot of the seat's wall: `width` from the wall inwards, `depth` below the
    seat."""

    width: float
    depth: float


@dataclass(frozen=True)
class Unreached:
    """A place of the cavity that no cutter given can reach: its deepest point and its size (the
    diameter of the largest disc in it), why it stays, whether the part seats all the same, and
    the floor (Z) of its level."""

    x: float
    y: float
    size: float
    why: str
    seats: bool
    floor: float


@dataclass(frozen=True)
class Seated:
    """The jaws closed on the part. front, back: how far either travels, towards the other; shift:
    how far the part is pushed to the back; zero: the jaw coordinates of the program's origin then,
    which is the same point of the same jaw; clear: how far what is cut of the part is to stay above
    the jaw top, None if nobody says."""

    front: float = 0.0
    back: float = 0.0
    shift: float = 0.0
    zero: tuple[float, float, float] = (0.0, 0.0, 0.0)
    clear: float | None = None


@dataclass(frozen=True)
class Target:
    """One setup's cavity.

    levels: from the jaw top down, each beginning where the one above ends, the last one's floor
    the seat. silhouette: the part as it lies in the jaws, seen from above; holes: its inner
    loops, never cut; body: its sections from the seat up. grip: how far all outlines are grown
    all round; side: how far that is then swept either way along X. part_top: the Z of the part's
    top once seated. zero: the jaw coordinates of the program's origin. facing: how far the blanks
    stand above Z 0 before they are faced; edge: how wide the pocket's top edges are broken, and
    edge_tool by which tool; drilled: holes beside the pocket and in its corners. keep: the least
    that must be left of the blanks. vise: None where nothing is told of it; spacers: in the gap,
    none likewise; travel_at: where the origin stands in the machine's travel. seated: how the jaws
    hold the part. notes: what the person should know of it all.
    """

    name: str
    title: str
    units: Units
    levels: tuple[Level, ...]
    silhouette: tuple[Loop, ...]
    holes: tuple[Loop, ...]
    body: tuple[Section, ...]
    grip: float
    side: float
    part_top: float
    blanks: Blanks
    zero: tuple[float, float, float]
    work_offset: int
    clearance: float
    cutters: tuple[Cutter, ...]
    bolts: tuple[Bolt, ...] = ()
    reliefs: tuple[Relief, ...] = ()
    unreached: tuple[Unreached, ...] = ()
    drilled: tuple[Hole, ...] = ()
    groove: Groove | None = None
    facing: float = 0.0
    edge: float = 0.0
    edge_tool: int | None = None
    keep: Keep = field(default_factory=Keep)
    notes: tuple[str, ...] = ()
    vise: Vise | None = None
    spacers: tuple[Spacer, ...] = ()
    travel_at: Travel = field(default_factory=Travel)
    seated: Seated = field(default_factory=Seated)

    @property
    def floor(self) -> float:
        """The Z of the seat."""
        return self.levels[-1].floor

"""The job as the planner sees it: frozen, in mm, degrees and minutes, every default filled in.

What the file itself looks like is `load.py`'s affair.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from jawcam.job.jaw_model import JawSetup
from jawcam.job.part_model import Layer, Part
from jawcam.job.room_model import Spacer, Vise
from jawcam.job.turn_model import TurnSetup
from jawcam.tools.cutter import Cutter
from jawcam.tools.machine import Machine, Travel
from jawcam.tools.turner import Turner
from jawcam.units import Units

__all__ = [
    "Blanks",
    "Bolt",
    "Clamp",
    "Corners",
    "Datum",
    "DrillHole",
    "EdgeBreak",
    "Facing",
    "Finish",
    "Fit",
    "Hold",
    "Job",
    "Keep",
    "Layer",
    "Machine",
    "NextCut",
    "Part",
    "Rough",
    "Setup",
    "Spacer",
    "Travel",
    "Vise",
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
class Hold:
    """How the part lies in the jaws: `depth` below the jaw top, turned by `turn` degrees
    counter-clockwise after it was flipped about Y (`flip`), its anchor (the drawing's origin or
    the middle of the outline's box) landing on `at`.

    A turned part stands with end A up, its axis on `at`; `flip` stands it on end A, `lie` lays it
    along X, end A at the left. groove: how deep a groove is cut along the foot of the wall so
    that the part's lower edge touches nothing; 0 for none.
    """

    depth: float
    turn: float = 0.0
    flip: bool = False
    lie: bool = False
    at: tuple[float, float] = (0.0, 0.0)
    anchor: Literal["origin", "centre"] = "origin"
    groove: float = 0.0


@dataclass(frozen=True)
class Fit:
    """Clearance: `grip` all round, `side` either way along X on top of it.

    letters: an ISO 286 fit such as "H7/g6", or the pocket's own class such as "H7", in place of
    `grip`, on the nominal `size` (None: the diameter held). step: how far the wall of a pocket
    that is stepped along a taper may stand off it.
    """

    grip: float = 0.0
    side: float = 0.0
    letters: str = ""
    size: float | None = None
    step: float = 0.1


@dataclass(frozen=True)
class Keep:
    """The least that must be left: under the floor, of the walls beside and behind the pocket,
    and between the cutter and a bolt (common practice, no source)."""

    floor: float = 2.0
    wall: float = 1.0
    bolt: float = 1.0


@dataclass(frozen=True)
class Corners:
    """What is done about corners that a round cutter leaves too full for the part.

    relief: beside the corner along its bisector; along one wall, the one more nearly along X;
    drilled; or none. tool: of a drilled one the drill; peck: its depth of peck, None: in one go.
    """

    relief: Literal["bisector", "along wall", "drilled", "none"] = "bisector"
    tool: int | None = None
    peck: float | None = None


@dataclass(frozen=True)
class Facing:
    """Facing the tops, which stand `take` above Z 0 before. tool: None = the largest end mill."""

    take: float
    tool: int | None = None
    stepover: float | None = None
    feed: float | None = None


@dataclass(frozen=True)
class EdgeBreak:
    """A chamfer `width` wide along the pocket's top edges. tool: None = the only chamfer mill."""

    width: float
    tool: int | None = None
    feed: float | None = None


@dataclass(frozen=True)
class DrillHole:
    """A hole for a stop or a dowel: centre; `depth` of its full diameter below the jaw top; tool:
    the drill; spot: the spot drill before it, None: none; peck: of each peck, None: in one go."""

    x: float
    y: float
    depth: float
    tool: int
    spot: int | None = None
    peck: float | None = None


@dataclass(frozen=True)
class Clamp:
    """How hard the vise grips: `force` in N between its jaws, or the `torque` in N m on its screw,
    the screw's `lead` in mm and its `efficiency`. surface: of the part where it is gripped;
    safety: how many times the cutting force the grip must bear."""

    force: float | None = None
    torque: float | None = None
    lead: float = 5.0
    efficiency: float = 0.35
    surface: Literal["ground", "machined", "raw"] = "machined"
    safety: float = 2.5


@dataclass(frozen=True)
class NextCut:
    """What is cut next on the part in these jaws: `down` to so far below the part's top, staying
    `clear` above the jaw top. For the grip: stepdown and the thickest chip, mm; teeth: how many
    cut at once."""

    down: float
    clear: float = 1.0
    stepdown: float | None = None
    chip: float | None = None
    teeth: int = 1


@dataclass(frozen=True)
class Rough:
    """Roughing. tool: a tool number, None = the largest that fits; stepdown, stepover, feed,
    slot_feed (where the cutter is engaged over its full width): None = worked out.
    leave, leave_floor: stock to leave on walls and floor; ramp: degrees of helix and ramp. way:
    `rings` from the inside out, `steady`, passes along the growing front, or `quickest`, whichever
    of them that is."""

    tool: int | None = None
    stepdown: float | None = None
    stepover: float | None = None
    leave: float = 0.2
    leave_floor: float = 0.1
    feed: float | None = None
    slot_feed: float | None = None
    ramp: float = 3.0
    way: str = "quickest"


@dataclass(frozen=True)
class Finish:
    """Finishing. tool: None = the smallest end mill given; feed: None = worked out; spring: how
    often the wall is passed again; lead: radius of the lead-in and lead-out arcs, None = worked
    out; compensation: the offset register to dial the fit in with, None = no such words; tolerance:
    how far the wall may be off, None = what the fit leaves; first: which of each level's floor and
    wall comes first."""

    tool: int | None = None
    feed: float | None = None
    spring: int = 0
    lead: float | None = None
    compensation: int | None = None
    tolerance: float | None = None
    first: Literal["floor", "wall"] = "floor"


@dataclass(frozen=True)
class Datum:
    """The program's origin on the blanks, and a stated shift of it (dx, dy, dz)."""

    x: Literal["left", "middle", "right"] = "middle"
    y: Literal["front", "front face", "mid gap", "back face", "back"] = "mid gap"
    z: Literal["top", "bottom"] = "top"
    shift: tuple[float, float, float] = (0.0, 0.0, 0.0)


@dataclass(frozen=True)
class Setup:
    """One vise station. clearance: how far above the jaw top the cutter moves freely; vise: None
    where the job tells nothing of it; spacers: none likewise; travel_at: where the program's origin
    stands in the machine's travel."""

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
    corners: Corners = field(default_factory=Corners)
    keep: Keep = field(default_factory=Keep)
    face: Facing | None = None
    edges: EdgeBreak | None = None
    holes: tuple[DrillHole, ...] = ()
    clamp: Clamp | None = None
    next_cut: NextCut | None = None
    vise: Vise | None = None
    spacers: tuple[Spacer, ...] = ()
    travel_at: Travel = field(default_factory=Travel)


@dataclass(frozen=True)
class Job:
    """The whole job. file: as the person typed it; setups, tools: of the mill; turnings, turners:
    of the lathe; jaw_borings: of chuck jaws, on the lathe too; together: whether one program
    serves all the mill's setups; order: the names of all setups as they stand in the file; lines:
    key path -> line of the file."""

    file: str
    title: str
    units: Units
    part: Part
    tools: tuple[Cutter, ...]
    setups: tuple[Setup, ...]
    machine: Machine
    together: bool = False
    turnings: tuple[TurnSetup, ...] = ()
    turners: tuple[Turner, ...] = ()
    order: tuple[str, ...] = ()
    lines: tuple[tuple[str, int], ...] = ()
    jaw_borings: tuple[JawSetup, ...] = ()

"""What a job says of a lathe setup: frozen, in mm, degrees, minutes, every default filled in."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from jawcam.tools.machine import Travel

__all__ = [
    "Chuck",
    "Drilling",
    "Grooving",
    "PartingOff",
    "Speeds",
    "Stock",
    "Threading",
    "TurnFinish",
    "TurnRough",
    "TurnSetup",
]


@dataclass(frozen=True)
class Stock:
    """The bar or blank: outside and inside diameter; `allowance` in front of the finished face of
    the end that is turned. over: how far one that is cast or forged near to shape stands over the
    part's outside, square to it; None for a bar."""

    dia: float
    bore: float = 0.0
    allowance: float = 1.0
    over: float | None = None


@dataclass(frozen=True)
class Chuck:
    """What holds the part. grip: the length held; dia: across the chuck's body; jaw_height: how
    far the jaws reach out from the gripped diameter; jaws: how far they stand out of the body
    along Z; max_rpm: marked on it; tailstock: whether the free end is supported, in a centre hole
    whose diameter at the finished face is `centre` (None: not known). force: all jaws'
    together at rest, N; jaw_mass, jaw_radius: of one jaw and its middle, kg and mm: what the
    speed may be is worked out from them."""

    grip: float
    dia: float = 160.0
    jaw_height: float = 30.0
    jaws: float = 40.0
    max_rpm: float = 3000.0
    tailstock: bool = False
    force: float | None = None
    jaw_mass: float | None = None
    jaw_radius: float | None = None
    count: int = 3
    centre: float | None = None


@dataclass(frozen=True)
class Speeds:
    """surface: m/min, None = by material; clamp: the highest rpm, given to the control before any
    constant surface speed; constant: whether that is used at all."""

    surface: float | None = None
    clamp: float = 2500.0
    constant: bool = True


@dataclass(frozen=True)
class TurnRough:
    """Roughing. way: along Z in level passes, or parallel to the profile; None: parallel to it
    where the stock is near to shape, else along Z. depth: of a pass on radius; leave, leave_face:
    stock to leave on radius and along Z."""

    tool: int | None = None
    way: Literal["along", "profile"] | None = None
    depth: float | None = None
    feed: float | None = None
    leave: float = 0.2
    leave_face: float = 0.1


@dataclass(frozen=True)
class TurnFinish:
    """Finishing. surface_ra: the roughness asked for in micrometres, sets the feed from the nose
    radius; compensation: the nose's, worked out or left to the control."""

    tool: int | None = None
    feed: float | None = None
    surface_ra: float | None = None
    compensation: Literal["worked out", "control"] = "worked out"


@dataclass(frozen=True)
class Grooving:
    """Grooves and undercuts that turning can't reach. peck: None = in one go."""

    tool: int | None = None
    feed: float | None = None
    peck: float | None = None


@dataclass(frozen=True)
class Threading:
    """Threads. passes: None = by pitch; spring: passes at full depth; flank: the angle of infeed
    in degrees, 0 straight in; infeed: chips of even area, or a first pass that takes less."""

    tool: int | None = None
    passes: int | None = None
    spring: int = 1
    flank: float = 29.5
    infeed: Literal["even", "gentle"] = "even"


@dataclass(frozen=True)
class Drilling:
    """The bore's beginning. centre: a centre drill's number; tool: the drill's; peck: None = in
    one go."""

    tool: int | None = None
    centre: int | None = None
    peck: float | None = None


@dataclass(frozen=True)
class PartingOff:
    """Parting off at the far end. tool; feed; edge: how far the corner is broken before."""

    tool: int | None = None
    feed: float | None = None
    edge: float = 0.3


@dataclass(frozen=True)
class TurnSetup:
    """One end of a turned part on the lathe. end: the one that is free; reach: how far along the
    part, from that end, it is turned here (None: as far as the chuck lets it). travel_at: where the
    program's origin stands in the lathe's travel."""

    name: str
    post: str
    work_offset: int
    end: Literal["A", "B"]
    stock: Stock
    chuck: Chuck
    reach: float | None = None
    speeds: Speeds = field(default_factory=Speeds)
    rough: TurnRough = field(default_factory=TurnRough)
    finish: TurnFinish = field(default_factory=TurnFinish)
    groove: Grooving = field(default_factory=Grooving)
    thread: Threading = field(default_factory=Threading)
    drill: Drilling | None = None
    bore: TurnRough | None = None
    part_off: PartingOff | None = None
    clearance: float = 2.0
    coolant: Literal["flood", "mist", "off"] = "flood"
    travel_at: Travel = field(default_factory=Travel)

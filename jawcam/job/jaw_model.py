"""What a job says of boring a chuck's soft jaws: frozen, in mm, every default filled in."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from jawcam.job.turn_model import Grooving, Speeds, TurnRough
from jawcam.tools.machine import Travel

__all__ = ["BoringChuck", "ChuckJaws", "JawSetup"]


@dataclass(frozen=True)
class ChuckJaws:
    """The soft jaws before they are bored. opening: the diameter that they are open to on their
    ring or plug; outer: the diameter that their metal goes to; length: of a jaw along Z, from its
    front to the chuck's body; ring: what they are clamped on while they are bored."""

    opening: float
    outer: float
    length: float
    ring: Literal["plug", "ring"] = "plug"
    material: str = "mild steel"


@dataclass(frozen=True)
class BoringChuck:
    """The chuck that the jaws are on. max_rpm: marked on it; dia: across its body."""

    max_rpm: float
    dia: float = 160.0


@dataclass(frozen=True)
class JawSetup:
    """Soft jaws bored to a turned part. grips: the end of the part that they will hold; depth: of
    the bore along Z, which is the length that they grip. groove: None = no relief at its foot.
    travel_at: where the program's origin stands in the lathe's travel."""

    name: str
    post: str
    work_offset: int
    grips: Literal["A", "B"]
    depth: float
    jaws: ChuckJaws
    chuck: BoringChuck
    speeds: Speeds = field(default_factory=Speeds)
    bore: TurnRough = field(default_factory=TurnRough)
    groove: Grooving | None = None
    clearance: float = 2.0
    coolant: Literal["flood", "mist", "off"] = "flood"
    travel_at: Travel = field(default_factory=Travel)

"""The tables that only a lathe's dialect has, and the dialect itself.

Motions on a lathe are points (Z, X, 0) with X a radius; in the text X comes first.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from jawcam.motion.moves import Point3
from jawcam.post.fields import Braces, OneOf, PerUnit, Within
from jawcam.post.tables import (
    HEAD_PLACES,
    STOP_PLACES,
    Arcs,
    Axis,
    Dialect,
    Moves,
    Numbers,
    Program,
    Spindle,
    Tools,
)
from jawcam.units import Units

__all__ = ["Feed", "Lathe", "LatheDialect", "Thread"]

_TOOL_PLACES = ("tool", "tool_offset", "tool_name")
_HOME_PLACES = ("home_x", "home_z")
_PASSES = ("arcs_to_lines", "large_arcs_to_lines", "split_arcs", "split_full_circles")


@dataclass(frozen=True)
class Lathe:
    """How the machine is seen. x: whether X words are diameters or radii (I is always a radius);
    turret: "rear" if arcs and sides are named as seen with Z to the right and X upwards; "front" if
    as seen from the other side, which exchanges the words of both."""

    x: Literal["diameter", "radius"]
    turret: Literal["rear", "front"]


@dataclass(frozen=True)
class LatheNumbers(Numbers):
    """How numbers are written. turn_decimals: of feeds per turn; lead_decimals: of a lead."""

    turn_decimals: Annotated[PerUnit[int], Within(1, 7)]
    lead_decimals: Annotated[PerUnit[int], Within(1, 7)]


@dataclass(frozen=True)
class LatheProgram(Program):
    """The lines round a program, which ends where tools are changed."""

    end: Annotated[tuple[str, ...], Braces((*HEAD_PLACES, *STOP_PLACES, *_HOME_PLACES))]


@dataclass(frozen=True)
class LatheTools(Tools):
    """A tool change. home: where it takes place, X and Z as they are written and seen from the
    program's zero; only used where ``{home_x}`` and ``{home_z}`` stand."""

    comment: Annotated[str, Braces(_TOOL_PLACES)]
    home: PerUnit[tuple[float, float]]
    first: Annotated[tuple[str, ...], Braces((*STOP_PLACES, *_HOME_PLACES))]
    leave: Annotated[tuple[str, ...], Braces((*STOP_PLACES, *_HOME_PLACES))]
    load: Annotated[tuple[str, ...], Braces((*_TOOL_PLACES, *STOP_PLACES))]
    approach: Literal["z, then x", "x, then z", "together"]


@dataclass(frozen=True)
class LatheSpindle(Spindle):
    """The spindle. surface: the words of a start at constant surface speed, "" if there are none;
    clamp: the block before it with the speed that is never passed; surface_unit: of the speed;
    largest: the highest speed that may be written, rpm."""

    surface: Annotated[str, Braces(("speed", "direction"))]
    clamp: Annotated[str, Braces(("clamp",))]
    surface_unit: PerUnit[Literal["m/min", "ft/min"]]
    largest: Annotated[float, Within(1, 1e6)]


@dataclass(frozen=True)
class Feed:
    """The words that say what feeds count by; "" for what the control lacks."""

    per_turn: str
    per_minute: str


@dataclass(frozen=True)
class Thread:
    """A pass of a thread. word: of a block of its own, "" if there is none; lead: the letter of its
    lead. form: "cycle" if passes that go round a box become one block each, those that don't
    staying as they are; cycle: its word; cycle_lead: the letter of the lead there; cycle_taper: the
    letter there of the radius of the pass at its start less that at its end, "" if there is none,
    so that tapered passes are written out."""

    form: Literal["written out", "cycle"]
    word: str
    lead: str
    cycle: str
    cycle_lead: str
    cycle_taper: str


@dataclass(frozen=True)
class LatheMoves(Moves):
    """Straight moves along X and Z."""

    axes: tuple[str, str]


@dataclass(frozen=True)
class LatheArcs(Arcs):
    """Arcs in the plane of Z and X. words: the letters of the centre along X and Z."""

    centre: Literal["incremental", "radius"]


@dataclass(frozen=True)
class LatheDialect(Dialect):
    """The post of a lathe."""

    kind: Literal["lathe"]
    passes: Annotated[tuple[str, ...], OneOf(_PASSES)]
    lathe: Lathe
    numbers: LatheNumbers
    program: LatheProgram
    tools: LatheTools
    spindle: LatheSpindle
    feed: Feed
    moves: LatheMoves
    arcs: LatheArcs
    thread: Thread

    @property
    def axes(self) -> tuple[Axis, ...]:
        """X, which may be a diameter, and Z."""
        x, z = self.moves.axes
        return (Axis("x", x, 1, 2 if self.lathe.x == "diameter" else 1), Axis("z", z, 0))

    @property
    def mirrored(self) -> bool:
        """Whether arcs and sides are named as seen from the other side of the plane."""
        return self.lathe.turret == "front"

    def say_point(self, point: Point3, units: Units) -> str:
        """A point in mm -> words such as ``X 30 Z -12``, X as it is written."""
        digits = 4 if units is Units.INCH else 3
        words = (
            f"{axis.name.upper()} {units.number(point[axis.index] * axis.factor, digits)}"
            for axis in self.axes
        )
        return " ".join(words)

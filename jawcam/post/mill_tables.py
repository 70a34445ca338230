"""The tables that only a mill's dialect has, and the dialect itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from jawcam.motion.passes import PASSES
from jawcam.post.fields import Braces, OneOf, PerUnit, Within
from jawcam.post.tables import (
    HEAD_PLACES,
    STOP_PLACES,
    Arcs,
    Axis,
    Compensation,
    Dialect,
    Moves,
    Program,
    Tools,
)

__all__ = ["Cycles", "MillDialect", "Stations", "Subprograms"]

_TOOL_PLACES = ("tool", "length_offset", "tool_name")


@dataclass(frozen=True)
class MillProgram(Program):
    """The lines round a program, which ends at the clear height."""

    end: Annotated[tuple[str, ...], Braces((*HEAD_PLACES, *STOP_PLACES, "clear"))]


@dataclass(frozen=True)
class MillTools(Tools):
    """A tool change. length_on: with the first Z word after it."""

    comment: Annotated[str, Braces(_TOOL_PLACES)]
    first: Annotated[tuple[str, ...], Braces(STOP_PLACES)]
    leave: Annotated[tuple[str, ...], Braces((*STOP_PLACES, "clear"))]
    load: Annotated[tuple[str, ...], Braces((*_TOOL_PLACES, *STOP_PLACES))]
    length_on: Annotated[str, Braces(_TOOL_PLACES)]
    approach: Literal["xy, then z", "together"]


@dataclass(frozen=True)
class MillCompensation(Compensation):
    """Compensation of a cutter's radius, from a register."""

    left: Annotated[str, Braces(("register",))]
    right: Annotated[str, Braces(("register",))]
    largest_register: Annotated[int, Within(0, 99999999)]


@dataclass(frozen=True)
class MillMoves(Moves):
    """Straight moves along X, Y and Z. shortest: the shortest cut that the control takes, 0 for
    any; shorter ones are merged into a neighbour; merge_chord: how far the path may then lie off.
    """

    axes: tuple[str, str, str]
    shortest: Annotated[PerUnit[float], Within(0, 1)]
    merge_chord: Annotated[PerUnit[float], Within(0, 1)]


@dataclass(frozen=True)
class MillArcs(Arcs):
    """Arcs in plan. helix_chord: how far lines in place of whole turns of a helix may lie off."""

    helices: bool
    helix_chord: Annotated[PerUnit[float], Within(1e-6, 1)]


@dataclass(frozen=True)
class Cycles:
    """Drilled holes; "" for what the control lacks. drill: the block of a plain one; dwell: with a
    stay at the bottom, of {dwell} seconds or of milliseconds; peck: in pecks; peck_dwell: both;
    hole stands for X, Y, Z and `retract`, the letter of the height from which the feed begins; each
    returns to the height it came from. off: the block before anything else."""

    drill: Annotated[str, Braces(("hole",))]
    dwell: Annotated[str, Braces(("hole", "dwell", "milliseconds"))]
    peck: Annotated[str, Braces(("hole", "peck"))]
    peck_dwell: Annotated[str, Braces(("hole", "peck", "dwell", "milliseconds"))]
    retract: str
    off: str


@dataclass(frozen=True)
class Stations:
    """Several stations in one program. between: the lines before another work offset, to rise over
    whatever stands between the two stations."""

    between: Annotated[tuple[str, ...], Braces(("clear",))]


@dataclass(frozen=True)
class Subprograms:
    """Cuts that a program makes more than once, called and written once behind its end; used where
    `repeats_to_calls` is among the passes. call: the block of a call; head: the lines before its
    blocks, without sequence numbers; end: the blocks of its return; first, largest: their numbers,
    what goes beyond is not called."""

    call: Annotated[str, Braces(("subprogram",))]
    head: Annotated[tuple[str, ...], Braces(("subprogram",))]
    end: Annotated[tuple[str, ...], Braces(("subprogram",))]
    first: Annotated[int, Within(1, 99999999)]
    largest: Annotated[int, Within(1, 99999999)]


@dataclass(frozen=True)
class MillDialect(Dialect):
    """The post of a mill."""

    kind: Literal["mill"]
    passes: Annotated[tuple[str, ...], OneOf(tuple(PASSES))]
    program: MillProgram
    tools: MillTools
    compensation: MillCompensation
    moves: MillMoves
    arcs: MillArcs
    cycles: Cycles
    stations: Stations
    subprograms: Subprograms

    @property
    def axes(self) -> tuple[Axis, ...]:
        """X, Y and Z, as they are."""
        return tuple(Axis("xyz"[n], letter, n) for n, letter in enumerate(self.moves.axes))

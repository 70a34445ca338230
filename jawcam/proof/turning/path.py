"""The moves of a lathe program that can be placed: each with its tool, in the plane of Z and X."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from jawcam.hold.turn_target import TurnTarget
from jawcam.proof.curve import Floats, steps
from jawcam.reader.cuts import Cut, Program
from jawcam.tools.turner import Turner

__all__ = ["Move", "Point", "moves_of", "portion", "track"]

Point = tuple[float, float]
"""Z and X, a radius, mm."""


class Move(NamedTuple):
    """One move of a tool's set point. kind: rapid, line or arc; turn: signed, radians, positive
    counter-clockwise with Z to the right and X upwards; number: of its cut in the program."""

    kind: str
    start: Point
    end: Point
    centre: Point
    turn: float
    tool: Turner
    cut: Cut
    number: int

    @property
    def radius(self) -> float:
        """An arc's radius at its start."""
        return math.dist(self.start, self.centre)

    @property
    def length(self) -> float:
        """Of its path, mm."""
        if self.kind == "arc":
            return (self.radius + math.dist(self.end, self.centre)) / 2 * abs(self.turn)
        return math.dist(self.start, self.end)

    @property
    def threads(self) -> bool:
        """Whether it is a pass of a thread."""
        return self.cut.lead > 0


def moves_of(program: Program, target: TurnTarget) -> tuple[Move, ...]:
    """The cuts of the target's work offset whose both ends are told, with a tool of the job; arcs
    in another plane than that of Z and X are left out."""
    tools = {tool.number: tool for tool in target.tools}
    moves = []
    for index, cut in enumerate(program.cuts):
        ends = (cut.start[2], cut.start[0], cut.end[2], cut.end[0])
        if cut.work_offset != target.work_offset or cut.tool not in tools:
            continue
        if not all(math.isfinite(value) for value in ends):
            continue
        if cut.kind == "arc" and (cut.plane != "XZ" or cut.centre is None):
            continue
        centre = cut.centre if cut.kind == "arc" and cut.centre else (0.0, 0.0)
        turn = cut.turn if cut.kind == "arc" else 0.0
        tool = tools[cut.tool]
        moves.append(Move(cut.kind, ends[:2], ends[2:], centre, turn, tool, cut, index))
    return tuple(moves)


def track(move: Move, chord: float) -> Floats:
    """Points (n, 2) on the path of a move, no chord farther than `chord` off it."""
    if move.kind != "arc":
        return np.array([move.start, move.end])
    first, last = move.radius, math.dist(move.end, move.centre)
    count = steps(max(first, last), move.turn, chord)
    portions = np.linspace(0.0, 1.0, count + 1)
    (z, x), (z0, x0) = move.centre, move.start
    angles = math.atan2(x0 - x, z0 - z) + move.turn * portions
    radius = first + (last - first) * portions
    points = np.column_stack((z + radius * np.cos(angles), x + radius * np.sin(angles)))
    points[0], points[-1] = move.start, move.end
    return points


def portion(move: Move, t0: float, t1: float) -> Move:
    """The piece of a move between two portions of it."""
    turn = move.turn * (t1 - t0)
    return move._replace(start=_at(move, t0), end=_at(move, t1), turn=turn)


def _at(move: Move, t: float) -> Point:
    if t in (0.0, 1.0):
        return move.end if t else move.start
    (z0, x0), (z1, x1) = move.start, move.end
    if move.kind != "arc":
        return z0 + (z1 - z0) * t, x0 + (x1 - x0) * t
    z, x = move.centre
    radius = move.radius + (math.dist(move.end, move.centre) - move.radius) * t
    angle = math.atan2(x0 - x, z0 - z) + move.turn * t
    return z + radius * math.cos(angle), x + radius * math.sin(angle)

"""What all the checks look at, built once."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

import numpy as np
import shapely

from jawcam.hold.turn_target import TurnTarget
from jawcam.proof.limits import Limits
from jawcam.proof.report import Finding, Grade
from jawcam.proof.times import Drive
from jawcam.proof.turning.compensated import compensated
from jawcam.proof.turning.form import Form, form_of
from jawcam.proof.turning.holder import Holder, holder_of
from jawcam.proof.turning.path import Move, Point, moves_of
from jawcam.proof.turning.section import Section, section_of
from jawcam.proof.turning.sweep import BODY_CHORD, Shapes, along, folded, swept
from jawcam.reader.cuts import Change, Cut, Program
from jawcam.tools.machine import Machine

__all__ = ["Scene", "scene_of"]

RIM = 1e-4
"""mm; a tool that reaches less than this into what stays doesn't gouge at all."""


@dataclass(frozen=True)
class Scene:
    """A program set to its target.

    moves: all that can be placed, of tools whose shape is known, in order, as the set point goes;
    tight: those whose inside arc is too tight for the control's compensation; forms, holders: of
    the tools, by number; machine: what the job says of it.
    """

    program: Program
    target: TurnTarget
    limits: Limits
    drive: Drive
    section: Section
    moves: tuple[Move, ...]
    tight: tuple[Move, ...]
    forms: Mapping[int, Form]
    holders: Mapping[int, Holder]
    machine: Machine

    @cached_property
    def own(self) -> tuple[Cut, ...]:
        """The cuts of this setup's work offset."""
        mine = self.target.work_offset
        return tuple(cut for cut in self.program.cuts if cut.work_offset == mine)

    @cached_property
    def cutting(self) -> Shapes:
        """What the cutting part sweeps along each move."""
        found: Shapes = np.empty(len(self.moves), dtype=object)
        for number, form in self.forms.items():
            own = [k for k, move in enumerate(self.moves) if move.tool.number == number]
            found[own] = swept(form, [self.moves[k] for k in own])
        return found

    @cached_property
    def bodies(self) -> Shapes:
        """What the holder sweeps along each move, None where there is none."""
        return self._behind("body")

    @cached_property
    def blocks(self) -> Shapes:
        """What the holder's block sweeps along each move, None where there is none."""
        return self._behind("block")

    def _behind(self, which: str) -> Shapes:
        shapes = []
        for move in self.moves:
            corners = getattr(self.holders[move.tool.number], which)
            shapes.append(None if corners is None else folded(along(corners, move, BODY_CHORD)))
        return _array(shapes)

    def find(
        self,
        code: str,
        grade: Grade,
        what: str,
        *,
        by: Move | Cut | Change | None = None,
        at: Point | None = None,
        amount: float | None = None,
        mend: str,
    ) -> Finding:
        """A finding. by: what does it; at: Z and the radius where, else the end of a move. The X
        that is told is a diameter, as lathe programs write it."""
        cut = by.cut if isinstance(by, Move) else by
        if at is None and isinstance(cut, Cut):
            at = (cut.end[2], cut.end[0])
        z, x = (v if math.isfinite(v) else None for v in at) if at else (None, None)
        line, column = (cut.line, cut.column) if cut else (0, 0)
        across = None if x is None else 2 * x
        calls = cut.calls if cut else ()
        return Finding(code, grade, what, line, column, across, None, z, amount, mend, calls=calls)

    def say(self, length: float) -> str:
        """A length in mm -> words in the job's units."""
        return self.target.units.say(length)


def scene_of(
    program: Program,
    target: TurnTarget,
    *,
    limits: Limits,
    drive: Drive,
    machine: Machine | None = None,
) -> Scene:
    """Set a program to its target. drive: how the machine moves; machine: None = nothing is known
    of it."""
    deepest = max((thread.depth for thread in target.threads), default=0.0)
    forms = {t.number: form_of(t, deepest) for t in target.tools}
    known = {number: form for number, form in forms.items() if form is not None}
    tools = {t.number: t for t in target.tools}
    holders = {number: holder_of(tools[number], form) for number, form in known.items()}
    moves, tight = _led([m for m in moves_of(program, target) if m.tool.number in known], known)
    return Scene(
        program=program,
        target=target,
        limits=limits,
        drive=drive,
        section=section_of(target, RIM),
        moves=moves,
        tight=tight,
        forms=MappingProxyType(known),
        holders=MappingProxyType(holders),
        machine=machine or Machine(),
    )


def _led(moves: list[Move], forms: Mapping[int, Form]) -> tuple[tuple[Move, ...], tuple[Move, ...]]:
    """The moves as the control's compensation leads them, tool by tool."""
    led: list[Move] = []
    tight: list[Move] = []
    first = 0
    for k in range(1, len(moves) + 1):
        if k == len(moves) or moves[k].tool.number != moves[first].tool.number:
            done, bad = compensated(moves[first:k], forms[moves[first].tool.number])
            led, tight, first = led + done, tight + bad, k
    return tuple(led), tuple(tight)


def _array(shapes: list[shapely.Geometry | None]) -> Shapes:
    array = np.empty(len(shapes), dtype=object)
    array[:] = shapes
    return array

"""What all the checks look at, built once."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

import numpy as np
import shapely

from jawcam.hold.target import Target
from jawcam.progress import Told, silent
from jawcam.proof.bite import Bites, bites_of
from jawcam.proof.bodies import Block, blocks_of
from jawcam.proof.cavity import blanks_area
from jawcam.proof.curve import Floats
from jawcam.proof.form import Role, of_kind, pointed, role
from jawcam.proof.limits import Limits
from jawcam.proof.move import Move, below, lifted, moves_of, within
from jawcam.proof.report import Finding, Grade
from jawcam.proof.rounded import as_flats
from jawcam.proof.stick_out import stick_out
from jawcam.proof.stock import Stock, stock_of
from jawcam.proof.sweep import Shapes, path
from jawcam.proof.tiers import Tier, tier_at, tiers_of
from jawcam.proof.times import Drive
from jawcam.reader.cuts import Change, Cut, Program
from jawcam.tools.machine import Machine
from jawcam.units import Units

__all__ = ["Piece", "Place", "Scene", "scene_of"]

Place = tuple[float, float, float]
"""A point in jaw coordinates."""


class Piece(NamedTuple):
    """A piece of a mill's move, below the blanks' top, and the number of the tier that it is in."""

    move: Move
    tier: int


@dataclass(frozen=True)
class Scene:
    """A program set in its jaws.

    moves: all that can be placed, in order, in jaw coordinates; low: the pieces of them below the
    top of what is cut; solid: that in plan, the blanks or a part that is seated in them; blocks:
    what stands beside it; tiers: from the top down; others: work offsets that other setups answer
    for; drive: how the machine moves; machine: what else the job says of it; seated: whether it is
    a part.
    """

    program: Program
    target: Target
    limits: Limits
    others: frozenset[int]
    drive: Drive
    moves: tuple[Move, ...]
    low: tuple[Move, ...]
    solid: shapely.Geometry
    blocks: tuple[Block, ...]
    tiers: tuple[Tier, ...]
    machine: Machine
    seated: bool = False
    told: Told = silent

    @property
    def stuff(self) -> str:
        """What is cut, in words."""
        return "the part" if self.seated else "the blanks"

    @property
    def rim(self) -> str:
        """Its top, in words."""
        return "the part's top" if self.seated else "the jaw top"

    @cached_property
    def stock(self) -> Stock:
        """What the feed moves of flat and rounded cutters and of drills clear."""
        cuts = [m for m in self.low if m.kind != "rapid"]
        cleared = [flat for move in cuts for flat in self._as_flats(move)]
        return stock_of(cleared, self.solid, self.target.facing, self.told)

    @cached_property
    def bitten(self) -> Bites:
        """What all feed moves bite off."""
        cuts = [move for move in self.low if move.kind != "rapid"]
        feeds = [self.program.cuts[move.index].feed for move in cuts]
        if self.seated:  # a part ends at its underside
            cuts = [lifted(move, self.target.floor) for move in cuts]
        return bites_of(cuts, feeds, self.solid, self.target.facing)

    @cached_property
    def stick_outs(self) -> Mapping[int, float]:
        """How far each tool must stand out of its holder at least."""
        own: dict[int, list[Move]] = {}
        for move in self.moves:
            own.setdefault(move.cutter.number, []).append(move)
        given = (self.blocks, self.target.clearance, self.limits, self.stock)
        return {tool: stick_out(moves, *given) for tool, moves in own.items()}

    def _as_flats(self, move: Move) -> list[Move]:
        """Moves of flat cutters that clear the same, none if it isn't proven to clear. A drill does
        as far as its full diameter goes."""
        use = self.role(move)
        if use == "drill" and move.upright:
            rise = move.cutter.point_length
            (x, y, z0), (_, _, z1) = move.start, move.end
            up = replace(move, kind="line", start=(x, y, z0 + rise), end=(x, y, z1 + rise))
            return [up]
        return as_flats(move, self.limits) if use == "mill" and not pointed(move.cutter) else []

    @cached_property
    def milled(self) -> tuple[Piece, ...]:
        """The low pieces of all cutters but drills and the edges' tool, parted at the floors. Of a
        move straight up or down its lowest stands for all, as the cavity never grows downwards."""
        return tuple(p for m in self.low if self.role(m) == "mill" for p in self._parted(m))

    def _parted(self, move: Move) -> list[Piece]:
        level = self.limits.level
        first, last = (tier_at(self.tiers, z, level) for z in (move.high, move.low))
        if first == last or move.upright:
            return [Piece(move, last)]
        pieces = []
        for k in range(first, last + 1):
            low = self.tiers[k].floor - level if k < last else move.low
            high = self.tiers[k - 1].floor - level if k > first else move.high
            piece = within(move, low, high)
            pieces += [Piece(piece, k)] if piece else []
        return pieces

    @cached_property
    def drilled(self) -> tuple[Move, ...]:
        """The low pieces of drills and spot drills."""
        return tuple(move for move in self.low if self.role(move) in ("drill", "spot"))

    @cached_property
    def tracks(self) -> Shapes:
        """The centre lines of the moves, in plan."""
        return np.array([path(move) for move in self.moves], dtype=object)

    @cached_property
    def milled_tracks(self) -> Shapes:
        """The centre lines of the milled pieces, in plan."""
        return np.array([path(piece.move) for piece in self.milled], dtype=object)

    @cached_property
    def bites(self) -> Floats:
        """How far the cutter of each milled piece reaches into what stays, as seen from its centre
        line; minus infinity where it keeps away."""
        radii = np.array([piece.move.radius for piece in self.milled], dtype=float)
        inside = np.array([piece.tier for piece in self.milled], dtype=np.intp)
        bites = np.full(len(radii), -np.inf)
        for k, tier in enumerate(self.tiers):
            own = inside == k
            bites[own] = tier.bites(self.milled_tracks[own], radii[own])
        return bites

    def role(self, move: Move) -> Role:
        """What the move's cutter is there for."""
        return of_kind(move.cutter) if self.seated else role(move.cutter, self.target)

    def name(self, tier: Tier) -> str:
        """A tier's floor in words."""
        if tier.kind != "level":
            return {"face": "the jaw top", "seat": "the seat", "groove": "the groove"}[tier.kind]
        units = self.target.units
        digits = 4 if units is Units.INCH else 3
        return f"the level at Z {units.number(tier.floor - self.target.zero[2], digits)}"

    def below_top(self, cut: Cut) -> bool:
        """Whether a cut of this setup is known to go below the top of what is cut."""
        heights = [z + self.target.zero[2] for z in (cut.start[2], cut.end[2]) if math.isfinite(z)]
        return bool(heights) and min(heights) < self.target.facing - self.limits.level

    @cached_property
    def own(self) -> tuple[Cut, ...]:
        """The cuts of this setup's work offset."""
        mine = self.target.work_offset
        return tuple(cut for cut in self.program.cuts if cut.work_offset == mine)

    def find(
        self,
        code: str,
        grade: Grade,
        what: str,
        *,
        by: Move | Cut | Change | None = None,
        at: Place | None = None,
        amount: float | None = None,
        mend: str,
    ) -> Finding:
        """A finding. by: what does it; at: where, in jaw coordinates, else the end of a move; mend:
        what to do."""
        if at is None and isinstance(by, Move):
            at = by.end
        x, y, z = self.program_place(at) if at is not None else (None, None, None)
        if at is None and isinstance(by, Cut):
            x, y, z = (value if math.isfinite(value) else None for value in by.end)
        line, column = (by.line, by.column) if by else (0, 0)
        source = self.program.cuts[by.index] if isinstance(by, Move) else by
        calls = source.calls if source else ()
        return Finding(code, grade, what, line, column, x, y, z, amount, mend, calls=calls)

    def program_place(self, at: Place) -> tuple[float, float, float]:
        """A point in jaw coordinates -> the program's."""
        x, y, z = (value - shift for value, shift in zip(at, self.target.zero, strict=True))
        return x, y, z

    def say(self, length: float) -> str:
        """A length in mm -> words in the job's units."""
        return self.target.units.say(length)


def scene_of(
    program: Program,
    target: Target,
    *,
    limits: Limits,
    drive: Drive,
    others: Iterable[int],
    machine: Machine | None = None,
    told: Told = silent,
) -> Scene:
    """Set a program in its target's jaws. drive: how the machine moves; machine: None = nothing is
    known of it."""
    moves = moves_of(program, target)
    pieces = (below(move, target.facing - limits.level) for move in moves)
    return Scene(
        program=program,
        target=target,
        limits=limits,
        others=frozenset(others),
        drive=drive,
        moves=moves,
        low=tuple(piece for piece in pieces if piece),
        solid=blanks_area(target.blanks),
        blocks=blocks_of(target),
        tiers=tiers_of(target, limits),
        machine=machine or Machine(),
        told=told,
    )

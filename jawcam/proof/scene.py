"""What all the checks look at, built once."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from jawcam.hold.target import Target
from jawcam.proof.cavity import blanks_area, cavity_area, edges, gap_area
from jawcam.proof.curve import Floats
from jawcam.proof.limits import Limits
from jawcam.proof.move import Move, below, moves_of
from jawcam.proof.report import Finding, Grade
from jawcam.proof.stock import Stock, stock_of
from jawcam.proof.sweep import Shapes, path
from jawcam.reader.cuts import Change, Cut, Program
from jawcam.tools.cutter import Cutter

__all__ = ["Place", "Scene", "flat_ended", "scene_of"]

Place = tuple[float, float, float]
"""A point in jaw coordinates."""


@dataclass(frozen=True)
class Scene:
    """A program set in its jaws.

    moves: all that can be placed, in order, in jaw coordinates; low: the pieces of them below the
    jaw top; blanks, cavity, in plan; stay: the blanks without the cavity; free: where the cutter
    meets nothing, the cavity and the gap; others: work offsets that other setups answer for.
    """

    program: Program
    target: Target
    limits: Limits
    others: frozenset[int]
    rapid: float
    moves: tuple[Move, ...]
    low: tuple[Move, ...]
    blanks: shapely.Geometry
    cavity: shapely.Geometry
    stay: shapely.Geometry
    free: shapely.Geometry

    @cached_property
    def stock(self) -> Stock:
        """What the feed moves clear."""
        cuts = [m for m in self.low if m.kind != "rapid" and flat_ended(m.cutter)]
        return stock_of(cuts, self.blanks)

    @cached_property
    def tracks(self) -> Shapes:
        """The centre lines of the moves, in plan."""
        return np.array([path(move) for move in self.moves], dtype=object)

    @cached_property
    def low_tracks(self) -> Shapes:
        """The centre lines of the low pieces, in plan."""
        return np.array([path(move) for move in self.low], dtype=object)

    @cached_property
    def free_edges(self) -> shapely.STRtree:
        """The stretches of the edge of `free`."""
        rings = (shapely.get_coordinates(ring) for ring in edges(self.free))
        ends = [np.stack((points[:-1], points[1:]), axis=1) for points in rings]
        return shapely.STRtree(shapely.linestrings(np.concatenate(ends)))

    @cached_property
    def bites(self) -> Floats:
        """How far the cutter of each low piece reaches into what stays, as seen from its centre
        line; minus infinity where it keeps away."""
        shapely.prepare(self.stay)
        radii = np.array([move.radius for move in self.low], dtype=float)
        near = shapely.dwithin(self.stay, self.low_tracks, radii)
        bites = np.full(len(radii), -np.inf)
        bites[near] = radii[near] - shapely.distance(self.low_tracks[near], self.stay)
        return bites

    @cached_property
    def to_clear(self) -> shapely.Geometry:
        """The cavity, where there is material in it."""
        return shapely.intersection(self.cavity, self.blanks)

    def below_top(self, cut: Cut) -> bool:
        """Whether a cut of this setup is known to go below the jaw top."""
        heights = [z + self.target.zero[2] for z in (cut.start[2], cut.end[2]) if math.isfinite(z)]
        return bool(heights) and min(heights) < -self.limits.level

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
        mend: str = "",
    ) -> Finding:
        """A finding. by: what does it; at: where, in jaw coordinates, else the end of a move."""
        if at is None and isinstance(by, Move):
            at = by.end
        x, y, z = self._program_place(at) if at is not None else (None, None, None)
        if at is None and isinstance(by, Cut):
            x, y, z = (value if math.isfinite(value) else None for value in by.end)
        line, column = (by.line, by.column) if by else (0, 0)
        return Finding(code, grade, what, line, column, x, y, z, amount, mend)

    def _program_place(self, at: Place) -> tuple[float, float, float]:
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
    rapid: float,
    others: Iterable[int],
) -> Scene:
    """Set a program in its target's jaws. rapid: the machine's rapid rate, mm/min."""
    moves = moves_of(program, target)
    pieces = (below(move, -limits.level) for move in moves)
    blanks, cavity = blanks_area(target.blanks), cavity_area(target)
    stay = shapely.difference(blanks, cavity)
    return Scene(
        program=program,
        target=target,
        limits=limits,
        others=frozenset(others),
        rapid=rapid,
        moves=moves,
        low=tuple(piece for piece in pieces if piece),
        blanks=blanks,
        cavity=cavity,
        stay=stay,
        free=shapely.union(cavity, gap_area(target.blanks)),
    )


def flat_ended(cutter: Cutter) -> bool:
    """Whether what a cutter clears is known: a cylinder with a flat end."""
    return cutter.kind == "end mill" and cutter.corner_radius == 0

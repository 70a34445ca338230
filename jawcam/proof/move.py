"""A cut set in the jaws: the judge's own copy of each move, with the cutter that makes it."""

from __future__ import annotations

import math
from collections.abc import Hashable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from jawcam.hold.target import Target
from jawcam.reader.cuts import Cut, Program
from jawcam.tools.cutter import Cutter

__all__ = [
    "SLICES",
    "Move",
    "Point3",
    "below",
    "lifted",
    "moves_in",
    "moves_of",
    "portion",
    "raised",
    "slices",
    "within",
]

SLICES = 16
"""Into how many pieces a sloping move is divided to be judged, each at its lowest Z."""

Point3 = tuple[float, float, float]


@dataclass(frozen=True)
class Move:
    """A straight move or an arc about Z, in jaw coordinates and mm; Z changes evenly along it.

    centre, turn: of an arc, in plan; index: of its cut in the program.
    """

    kind: Literal["rapid", "line", "arc"]
    start: Point3
    end: Point3
    centre: tuple[float, float]
    turn: float
    cutter: Cutter
    index: int
    line: int
    column: int

    @property
    def radius(self) -> float:
        """The cutter's."""
        return self.cutter.radius

    @property
    def radii(self) -> tuple[float, float]:
        """The arc's, at its start and its end; between them it changes evenly."""
        return math.dist(self.start[:2], self.centre), math.dist(self.end[:2], self.centre)

    @property
    def start_angle(self) -> float:
        """The direction from the arc's centre to its start, radians."""
        return math.atan2(self.start[1] - self.centre[1], self.start[0] - self.centre[0])

    @property
    def upright(self) -> bool:
        """Whether it goes straight up or down."""
        return self.start[:2] == self.end[:2] and (self.kind != "arc" or self.radii[0] == 0)

    @property
    def flat_length(self) -> float:
        """Its length in plan."""
        if self.kind == "arc":
            return sum(self.radii) / 2 * abs(self.turn)
        return math.dist(self.start[:2], self.end[:2])

    @property
    def length(self) -> float:
        """Its length in space."""
        return math.hypot(self.flat_length, self.end[2] - self.start[2])

    @property
    def track(self) -> Hashable:
        """What it has in common with all moves that sweep the same area."""
        return (self.kind, self.start[:2], self.end[:2], self.centre, self.turn, self.radius)

    @property
    def low(self) -> float:
        """Its lowest Z."""
        return min(self.start[2], self.end[2])

    @property
    def high(self) -> float:
        """Its highest Z."""
        return max(self.start[2], self.end[2])

    def at(self, t: float) -> Point3:
        """The point after the portion `t` of it, 0 to 1."""
        if t in (0.0, 1.0):
            return self.end if t else self.start
        (x0, y0, z0), (x1, y1, z1) = self.start, self.end
        z = z0 + (z1 - z0) * t
        if self.kind != "arc":
            return x0 + (x1 - x0) * t, y0 + (y1 - y0) * t, z
        first, last = self.radii
        radius, angle = first + (last - first) * t, self.start_angle + self.turn * t
        return (
            self.centre[0] + radius * math.cos(angle),
            self.centre[1] + radius * math.sin(angle),
            z,
        )


GRAZE = 1e-9
"""mm."""


def portion(move: Move, t0: float, t1: float) -> Move:
    """The piece of a move between two portions of it."""
    return replace(move, start=move.at(t0), end=move.at(t1), turn=move.turn * (t1 - t0))


def slices(move: Move) -> list[Move]:
    """A sloping move in `SLICES` pieces; any other whole."""
    if move.upright or move.low == move.high:
        return [move]
    return [portion(move, k / SLICES, (k + 1) / SLICES) for k in range(SLICES)]


def below(move: Move, z: float) -> Move | None:
    """The piece of a move whose tip is not above `z`, None if there is none."""
    if move.high <= z:
        return move
    if move.low > z - GRAZE:  # above, or touching the height in a single point
        return None
    t = (z - move.start[2]) / (move.end[2] - move.start[2])
    return portion(move, t, 1.0) if move.end[2] <= z else portion(move, 0.0, t)


def within(move: Move, low: float, high: float) -> Move | None:
    """The piece of a sloping move whose tip is between two heights, None if there is none."""
    piece = below(move, high)
    if piece is None or piece.low >= low:
        return piece
    if piece.high < low + GRAZE:
        return None
    t = (low - piece.start[2]) / (piece.end[2] - piece.start[2])
    return portion(piece, t, 1.0) if piece.end[2] >= low else portion(piece, 0.0, t)


def lifted(move: Move, z: float) -> Move:
    """A move whose ends are no lower than `z`."""
    (x0, y0, z0), (x1, y1, z1) = move.start, move.end
    return replace(move, start=(x0, y0, max(z0, z)), end=(x1, y1, max(z1, z)))


def raised(move: Move, by: float) -> Move:
    """A move so much higher."""
    (x0, y0, z0), (x1, y1, z1) = move.start, move.end
    return replace(move, start=(x0, y0, z0 + by), end=(x1, y1, z1 + by))


def moves_of(program: Program, target: Target) -> tuple[Move, ...]:
    """The moves of the target's work offset with a known cutter that end at a known place.

    A start that the program has not told is taken to be above the end, at the clearance or higher.
    Upright arcs are left out, and arcs that start where the program has not told.
    """
    offset, clearance = target.work_offset, target.clearance
    return moves_in(program, target.cutters, offset, clearance, target.zero)


def moves_in(
    program: Program,
    cutters: Sequence[Cutter],
    work_offset: int,
    clearance: float,
    zero: Point3 = (0.0, 0.0, 0.0),
) -> tuple[Move, ...]:
    """The same without a target; zero: where the program's origin is to be."""
    known = {cutter.number: cutter for cutter in cutters}
    moves = []
    for index, cut in enumerate(program.cuts):
        cutter = known.get(cut.tool)
        if cut.work_offset != work_offset or cutter is None:
            continue
        if cut.kind == "arc" and not _is_known_arc(cut):
            continue
        if all(math.isfinite(v) for v in cut.end):
            moves.append(_placed(cut, index, cutter, clearance, zero))
    return tuple(moves)


def _is_known_arc(cut: Cut) -> bool:
    values = (*cut.start, *(cut.centre or (math.nan,)), cut.turn)
    return cut.plane == "XY" and all(math.isfinite(value) for value in values)


def _placed(cut: Cut, index: int, cutter: Cutter, clearance: float, zero: Point3) -> Move:
    zx, zy, zz = zero
    x1, y1, z1 = cut.end[0] + zx, cut.end[1] + zy, cut.end[2] + zz
    x0, y0, z0 = cut.start[0] + zx, cut.start[1] + zy, cut.start[2] + zz
    if not (math.isfinite(x0) and math.isfinite(y0)):
        x0, y0 = x1, y1
    if not math.isfinite(z0):
        z0 = max(z1, clearance)
    cx, cy = cut.centre or (0.0, 0.0)
    return Move(
        "line" if cut.kind == "arc" and cut.turn == 0 else cut.kind,
        (x0, y0, z0),
        (x1, y1, z1),
        (cx + zx, cy + zy),
        cut.turn,
        cutter,
        index,
        cut.line,
        cut.column,
    )
